"""The light of each setup as a sheet prints it: the plan from above and the list of lights. Frozen like the rest."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from shoots.callsheet.queries.sheet import drawn
from shoots.lighting.core.stands import Advice
from shoots.lighting.models import PlacedLamp, PlacedPanel
from shoots.lighting.queries.care import wind_rows
from shoots.lighting.queries.drawing import Drawing
from shoots.lighting.queries.notation import power_text
from shoots.lighting.queries.pages import SetupCard, setup_cards
from shoots.lighting.queries.paper import LETTERS
from shoots.lighting.queries.rows import numbered
from shoots.shoot.models import Shoot

BESIDE_MM, HIGH_MM = 80.0, 112.0
"""A plan beside its words. [mm]"""
PAGE_MM, PAGE_HIGH_MM = 170.0, 225.0
"""A plan that has the page's width, with room for its heading. [mm]"""
LEAST_POINTS = 7.5
"""A plan's letters are no smaller on paper than this, except where a whole page has no room for it. [pt]"""
MM_PER_POINT = 25.4 / 72.0


def plans_of(shoot: Shoot) -> dict[int, dict[str, Any]]:
    """Return the plan of each setup of a shoot by the setup's key. Three queries, however many there are.

    With what the forecast wind asks of its stands: the crew who build the light read it beside it.
    """
    return {
        card.setup.pk: {
            **_plan(card),
            "lamps": [_lamp(letter, placed) for letter, placed in card.lamps],
            "panels": [_panel(number, placed) for number, placed in numbered(list(card.setup.panels.all()))],
            "wind": _wind(card),
        }
        for card in setup_cards(shoot)
    }


def _plan(card: SetupCard) -> dict[str, Any]:
    drawing = card.drawing
    if drawing is None or not (card.lamps or drawing.boards):
        return {"drawing": ""}
    room = paper_of(drawing)
    return {
        "drawing": drawn("light_plan", drawing=drawing, name=card.setup.name, movable=False, room=room),
        **room,
    }


def paper_of(drawing: Drawing) -> dict[str, Any]:
    """Return the room that a plan has on paper, so that its letters can be read: width and height in mm as written in
    a style sheet, and whether it is too wide to stand beside its words."""
    least = LEAST_POINTS * MM_PER_POINT / LETTERS
    scale = min(BESIDE_MM / drawing.width, HIGH_MM / drawing.height)
    if scale < least:
        scale = max(scale, min(least, PAGE_MM / drawing.width, PAGE_HIGH_MM / drawing.height))
    width = scale * drawing.width
    return {
        "width_mm": f"{width:.1f}",
        "high_mm": f"{scale * drawing.height:.1f}",
        "is_wide": width > BESIDE_MM + 0.05,
    }


def _wind(card: SetupCard) -> list[str]:
    """Return a line for each stand outdoors that does not simply stand in the forecast gusts."""
    setup = card.setup
    if setup.place is None or setup.place.indoors or setup.gust_m_s is None:
        return []
    words = {
        Advice.HOLD: _("%(letter)s: held by hand; down at gusts of %(limit).1f m/s there"),
        Advice.TAKE_DOWN: _("%(letter)s: taken down; it stands gusts below %(limit).1f m/s"),
    }
    return [
        words[row.check.advice] % {"letter": row.letter, "limit": row.check.down_at_m_s}
        for row in sorted(wind_rows(setup, card.lamps), key=lambda row: row.letter)
        if row.check.advice in words
    ]


def _lamp(letter: str, placed: PlacedLamp) -> dict[str, Any]:
    parts = [placed.lamp.name, placed.modifier and placed.modifier.name, placed.gel and placed.gel.name]
    return {
        "letter": letter,
        "job": str(placed.get_role_display()),
        "what": ", ".join(str(part) for part in parts if part),
        "power": power_text(placed.power_down_stops),
        "height_m": f"{placed.height_m:g}",
        "stand": placed.stand.name if placed.stand else "",
    }


def _panel(number: str, placed: PlacedPanel) -> dict[str, Any]:
    return {
        "number": number,
        "what": placed.panel.name,
        "height_m": f"{placed.height_m:g}",
        "stand": placed.stand.name if placed.stand else "",
    }
