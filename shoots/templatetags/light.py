"""Display only, for pages about light: numbers with their steps, bearings, readings, and which shots a setup lights."""

from __future__ import annotations

import math
import re
from typing import Any

from django import template
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.lighting.core.scales import aperture_scale, nearest_mark
from shoots.lighting.core.wishes import Wish
from shoots.lighting.queries import pages as lighting
from shoots.lighting.queries.gauges import thirds_of
from shoots.lighting.queries.notation import bearing_words, meter_text
from shoots.schedule.queries import care
from shoots.shotlist import queries as shotlist

register = template.Library()

LEAST_WORD_STOPS = 0.05
"""A margin below this is written as a word. [stop]"""
HIGHEST_EDGE_M = 100.0
"""Above this the frame ends in the sky. [m]"""
DARK_STOPS = 29.9
"""Beyond this the core says that there is no light at all. [stop]"""
WARMTH_TOLERANCE_MIRED = 20.0
"""What the core lets a light's warmth be off by where nobody says another number. [MK⁻¹]"""

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
def seconds(value: float | None) -> str:
    """A time as it can be told apart by hand: 0.43, 1.6, 12."""
    if value is None or not math.isfinite(value):
        return "–"
    text = f"{value:.{0 if value >= 9.95 else 1 if value >= 0.995 else 2}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


@register.filter
def unit(name: str) -> str:
    """A unit as it stands behind a number; nothing for a pure number."""
    return {"1": "", "f": "", "stop": _("stops"), "okta": _("eighths")}.get(name, name)


@register.filter
def bearing(degrees: float | None) -> str:
    """45° to camera left; behind, 135° to camera right: where a light stands, seen from above."""
    if degrees is None:
        return "–"
    return bearing_words(degrees)


@register.filter
def metered(shown: Any) -> str:
    """f/11 +0.3 from a reading as meters show it: a full-stop mark and tenths."""
    if shown is None:
        return "–"
    return meter_text(shown)


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


@register.filter
def above_floor(metres: float) -> str:
    """0.4 m, the floor, the open sky: where an edge of the frame lies."""
    if metres <= 0.0:
        return _("the floor")
    return _("the open sky") if metres > HIGHEST_EDGE_M else f"{metres:.2f} m"


@register.filter
def percent(share: float) -> str:
    """80 % from 0.8."""
    return f"{100 * share:.0f} %"


@register.filter
def ceiling(number: float) -> int:
    """5 from 4.2."""
    return math.ceil(number)


@register.filter
def thirds(count: int) -> str:
    """⅓, ⅔, 1, 1⅓: thirds of a stop as they are spoken."""
    whole, rest = divmod(count, 3)
    return (f"{whole}" if whole else "") + ("", "⅓", "⅔")[rest]


@register.filter
def give_or_take(spread_stops: float) -> str:
    """± ⅔ stop: a spread in stops up to the next third, at least one."""
    count = thirds_of(spread_stops)
    return "± " + ngettext("%(n)s stop", "%(n)s stops", 1 if count <= 3 else 2) % {"n": thirds(count)}


@register.filter
def in_thirds(stops: float) -> str:
    """⅔ stop, 1⅓ stops: a number of stops to the nearest third."""
    count = max(1, round(3.0 * stops))
    return ngettext("%(n)s stop", "%(n)s stops", 1 if count <= 3 else 2) % {"n": thirds(count)}


@register.filter
def wanted(row: Any) -> str:
    """2.5 stops under ± 0.5, f/8 or smaller, at most 2 mm: what a wish asks for."""
    one, wide = row.now, row.tolerance_stops
    if wide is not None:
        return f"{over_under(one.wanted)} ± {_short(wide)}"
    if one.wish == Wish.SKY_HOLDS:
        return _("at most %(stops)s") % {"stops": over_under(one.wanted)}
    if one.wish == Wish.APERTURE:
        return _limits(*row.limits)
    if one.wish == Wish.DEPTH:
        return _("%(f)s or smaller") % {"f": _stop_label(one.wanted)}
    if one.wish == Wish.BLUR:
        return _("at most %(mm)s mm") % {"mm": _short(one.wanted)}
    return _mired(one.wanted)


@register.filter
def came_out(outcome: Any) -> str:
    """2.3 stops under, f/8, 3.1 mm: how a wish comes out."""
    if outcome.unit == "stop":
        if abs(outcome.got) >= DARK_STOPS:
            return _("all of it") if outcome.got > 0 else _("none of it")
        return over_under(outcome.got)
    if outcome.unit == "f":
        return _stop_label(outcome.got)
    return f"{_short(outcome.got)} mm" if outcome.unit == "mm" else _mired(outcome.got)


@register.filter
def margin(outcome: Any) -> str:
    """0.4 stops to spare, misses by 1.2 stops: what is left of a wish."""
    left = outcome.margin_stops
    if abs(left) >= DARK_STOPS / 2:
        return _("to spare") if left > 0 else _("misses altogether")
    if abs(left) < LEAST_WORD_STOPS:
        return _("just met") if left >= -1e-6 else _("just missed")
    size = {"n": f"{max(0.1, round(abs(left), 1)):g}"}
    if outcome.wish == Wish.WARMTH:
        size = {"n": _short(abs(left) * WARMTH_TOLERANCE_MIRED)}
        return (_("%(n)s mired to spare") if left >= 0 else _("misses by %(n)s mired")) % size
    count = 1 if size["n"] == "1" else 2
    if left >= -1e-6:
        return ngettext("%(n)s stop to spare", "%(n)s stops to spare", count) % size
    return ngettext("misses by %(n)s stop", "misses by %(n)s stops", count) % size


def _limits(widest: float | None, narrowest: float | None) -> str:
    if widest is None or narrowest is None:
        if widest is None:
            return _("%(f)s or wider") % {"f": _stop_label(narrowest or 0.7)}
        return _("%(f)s or smaller") % {"f": _stop_label(widest)}
    if widest == narrowest:
        return _("%(f)s, fixed") % {"f": _stop_label(widest)}
    return _("%(a)s to %(b)s") % {"a": _stop_label(widest), "b": _stop_label(narrowest)}


def _stop_label(f_number: float) -> str:
    """f/11 for 11.3: an aperture as it is engraved, to a third of a stop."""
    return "f/" + nearest_mark(f_number, aperture_scale()).label.removesuffix(".0")


def _short(number: float) -> str:
    return f"{number:.2g}" if 0 < abs(number) < 0.095 else f"{round(number, 1):g}"


@register.filter
def warm_or_cool(number: float) -> str:
    """64 mired warm, 35 mired cool, neutral."""
    return _mired(number)


def _mired(number: float) -> str:
    if abs(number) < 0.5:
        return _("neutral")
    return (_("%(n)s mired warm") if number > 0 else _("%(n)s mired cool")) % {"n": f"{abs(number):.0f}"}


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


@register.inclusion_tag("components/care_line.html")
def care_line(shoot: Any) -> dict[str, Any]:
    """What the days ask of batteries and hands in the wind, in a line a day; eight queries, however many setups."""
    return {"page": care.shoot_care(shoot), "shoot": shoot}
