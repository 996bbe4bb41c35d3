"""How settings are written: times and powers as cameras and lights show them, readings as meters do."""

from __future__ import annotations

import math

from django.utils.translation import gettext as _

from shoots.lighting.core.tenths import MeterReading


def shutter_text(seconds: float) -> str:
    """1/200, 0.5, 2: a shutter time as it is typed."""
    return f"1/{1 / seconds:.0f}" if seconds < 0.3 else f"{seconds:g}"


def power_text(down_stops: float) -> str:
    """1/1, 1/4, 1/4 +0.3: a power as it is typed, from the stops below full."""
    whole = math.ceil(round(down_stops, 3))
    more = round(whole - down_stops, 2)
    return f"1/{2**whole}" + (f" +{more:g}" if more else "")


def power_words(down_stops: float) -> str:
    """1/1, 1/4 +0.3: a power as a light shows it, to a tenth of a stop."""
    return power_text(round(down_stops, 1))


def meter_text(shown: MeterReading) -> str:
    """f/11 +0.3: a reading as meters show it, a full-stop mark and tenths."""
    mark = str(shown.mark).removesuffix(".0")
    return f"f/{mark} +0.{shown.tenths}" if shown.tenths else f"f/{mark}"


def bearing_words(degrees: float) -> str:
    """45° to camera left; behind, 135° to camera right: where a light stands, seen from above."""
    turn = (degrees + 180.0) % 360.0 - 180.0
    size = f"{abs(turn):.0f}"
    if abs(turn) < 0.5:
        return _("at the camera")
    if abs(turn) > 179.5:
        return _("straight behind the subject")
    words = _("%(n)s° to camera left") if turn > 0 else _("%(n)s° to camera right")
    return (_("behind, ") if abs(turn) > 90.0 else "") + words % {"n": size}
