"""The light of each setup as a sheet prints it: the plan from above and the list of lights. Frozen like the rest."""

from __future__ import annotations

from typing import Any

from shoots.callsheet.queries.sheet import drawn
from shoots.lighting.models import PlacedLamp
from shoots.lighting.queries.notation import power_text
from shoots.lighting.queries.pages import setup_cards
from shoots.shoot.models import Shoot


def plans_of(shoot: Shoot) -> dict[int, dict[str, Any]]:
    """Return the plan of each setup of a shoot by the setup's key. Two queries, however many there are."""
    return {
        card.setup.pk: {
            "drawing": drawn("light_plan", drawing=card.drawing, name=card.setup.name, movable=False)
            if card.drawing and card.lamps
            else "",
            "lamps": [_lamp(letter, placed) for letter, placed in card.lamps],
        }
        for card in setup_cards(shoot)
    }


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
