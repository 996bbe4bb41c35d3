"""The light of each setup as a sheet prints it: the plan from above and the list of lights. Frozen like the rest."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from shoots.callsheet.queries.sheet import drawn
from shoots.lighting.core.stands import Advice
from shoots.lighting.models import PlacedLamp
from shoots.lighting.queries.care import wind_rows
from shoots.lighting.queries.notation import power_text
from shoots.lighting.queries.pages import SetupCard, setup_cards
from shoots.shoot.models import Shoot


def plans_of(shoot: Shoot) -> dict[int, dict[str, Any]]:
    """Return the plan of each setup of a shoot by the setup's key. Three queries, however many there are.

    With what the forecast wind asks of its stands: the crew who build the light read it beside it.
    """
    return {
        card.setup.pk: {
            "drawing": drawn("light_plan", drawing=card.drawing, name=card.setup.name, movable=False)
            if card.drawing and card.lamps
            else "",
            "lamps": [_lamp(letter, placed) for letter, placed in card.lamps],
            "wind": _wind(card),
        }
        for card in setup_cards(shoot)
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
