"""How settings are written: times and powers as cameras and lights show them, readings as meters do."""

from __future__ import annotations

import math

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
