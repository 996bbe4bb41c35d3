"""Display only, for pages about light: numbers with their steps, bearings, readings, and which shots a setup lights."""

from __future__ import annotations

import math
import re
from typing import Any

from django import template
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.lighting.queries import pages as lighting
from shoots.shotlist import queries as shotlist

register = template.Library()

_UNIT_AT_END = re.compile(r"_(?:m_s|cd_m2|m2|kg_m3|cd_s|lx_s|lx|ws|stops|mired|deg|ev100|mm|um|kg|m|s|k|1)$")
_WORDS = {
    "ev100": "EV at ISO 100",
    "ev": "EV",
    "iso": "ISO",
    "nd stops": "ND",
    "nd": "ND",
    "f number": "f-number",
    "guide number": "guide number",
    "oktas": "cloud",
    "front": "size of the front",
}


@register.filter
def spoken(name: str) -> str:
    """guide number from guide_number_m: an argument's name as people say it; its unit stands beside the number."""
    plain = _UNIT_AT_END.sub("", name).replace("_", " ")
    if plain in _WORDS:
        return _WORDS[plain]
    for found, said in (("f number", "f-number"), (" ev", " EV"), ("ev100", "EV at ISO 100")):
        plain = plain.replace(found, said)
    if match := re.fullmatch(r"light ([A-Z]+)", plain):
        return _("light %(letter)s") % {"letter": match[1]}
    return plain


@register.filter
def figure(value: float | None) -> str:
    """Four figures at most: 12.95, 0.0049, 10,240."""
    if value is None or not math.isfinite(value):
        return "–"
    if value == 0:
        return "0"
    size = abs(value)
    if size >= 1000:
        return f"{value:,.0f}".replace("-", "−")
    if size < 0.0001:
        return f"{value:.2e}".replace("-", "−")
    digits = max(0, 3 - math.floor(math.log10(size)))
    text = f"{value:.{digits}f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


@register.filter
def unit(name: str) -> str:
    """A unit as it stands behind a number; nothing for a pure number."""
    return {"1": "", "f": "", "stop": _("stops"), "okta": _("eighths")}.get(name, name)


@register.filter
def bearing(degrees: float | None) -> str:
    """45° to camera left; behind, 135° to camera right: where a light stands, seen from above."""
    if degrees is None:
        return "–"
    turn = (degrees + 180.0) % 360.0 - 180.0
    size = f"{abs(turn):.0f}"
    if abs(turn) < 0.5:
        return _("at the camera")
    if abs(turn) > 179.5:
        return _("straight behind the subject")
    words = _("%(n)s° to camera left") if turn > 0 else _("%(n)s° to camera right")
    return (_("behind, ") if abs(turn) > 90.0 else "") + words % {"n": size}


@register.filter
def metered(shown: Any) -> str:
    """f/11 +0.3 from a reading as meters show it: a full-stop mark and tenths."""
    if shown is None:
        return "–"
    mark = str(shown.mark).removesuffix(".0")
    return f"f/{mark} +0.{shown.tenths}" if shown.tenths else f"f/{mark}"


@register.filter
def shown(reading: Any) -> Any:
    """A noted reading as a meter shows it."""
    return lighting.shown_of(reading)


@register.filter
def magnitude(value: float) -> str:
    """0.4 from −0.4."""
    return f"{abs(value):.1f}"


@register.filter
def over_under(stops: float | None) -> str:
    """2.6 stops under, 0.4 stops over, level: against the chosen exposure."""
    if stops is None:
        return "–"
    size = round(abs(stops), 1)
    if size == 0:
        return _("level")
    words = {"n": f"{size:g}"}
    if stops > 0:
        return ngettext("%(n)s stop over", "%(n)s stops over", 1 if size == 1 else 2) % words
    return ngettext("%(n)s stop under", "%(n)s stops under", 1 if size == 1 else 2) % words


@register.inclusion_tag("components/setup_shots.html", takes_context=True)
def setup_shots(context: Any, setup: Any, shoot: Any) -> dict[str, Any]:
    """The shots that are taken with a setup; one query."""
    return {
        "cards": shotlist.shots_of_setup(setup.pk),
        "shoot": shoot,
        "plans": context["request"].member.plans,
    }


@register.simple_tag
def shot_counts(shoot: Any) -> dict[int, int]:
    """How many shots each setup of a shoot has, by the setup's key; one query."""
    return shotlist.shot_counts(shoot)
