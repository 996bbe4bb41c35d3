"""Reflectors, boards, flags and scrims of a setup as its page shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from shoots.lighting.core.framecheck import Trouble, Warned
from shoots.lighting.core.readings import PanelReading, SetupReading
from shoots.lighting.models import PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries.rows import numbered

WORTH_STOPS = 0.05
"""What takes less than this takes nothing worth a word. [stop]"""
ALL_OF_IT_STOPS = 5.0
"""Beyond this a flag has taken all that matters. [stop]"""


@dataclass(frozen=True)
class PanelCard:
    """A placed panel with its number and what it does; `panel` is None where nothing could be computed."""

    number: str
    placed: PlacedPanel
    for_letter: str
    panel: PanelReading | None
    takes: str
    does_nothing: bool
    in_frame: bool


def panel_cards(
    setup: Setup,
    lamps: Sequence[tuple[str, PlacedLamp]],
    reading: SetupReading | None,
    warned: Sequence[Warned],
) -> tuple[PanelCard, ...]:
    """Return the panels of a setup; no query when they were prefetched."""
    letters = {placed.pk: name for name, placed in lamps}
    shown = {one.letter: one for one in reading.panels} if reading else {}
    in_frame = {one.letter for one in warned if one.trouble is Trouble.PANEL_IN_FRAME}
    return tuple(
        PanelCard(
            number=number,
            placed=placed,
            for_letter=letters.get(placed.for_lamp_id, "") if placed.for_lamp_id else "",
            panel=shown.get(number),
            takes=_takes(shown.get(number)),
            does_nothing=bool(reading and number in shown and shown[number].does_nothing),
            in_frame=number in in_frame,
        )
        for number, placed in numbered(list(setup.panels.all()))
    )


def _takes(reading: PanelReading | None) -> str:
    if reading is None or reading.takes_stops > -WORTH_STOPS:
        return ""
    if reading.takes_stops < -ALL_OF_IT_STOPS:
        return _("all but a trace")
    return _("%(n).1f stops") % {"n": -reading.takes_stops}
