"""Reflectors, boards, flags and scrims of a setup as its page shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.framecheck import Warned
from shoots.lighting.core.panelreadings import PanelReading
from shoots.lighting.core.readings import SetupReading
from shoots.lighting.core.setup import Setup as CoreSetup
from shoots.lighting.models import PlacedLamp, PlacedPanel, Setup, Shield
from shoots.lighting.queries.rows import numbered

WORTH_STOPS = 0.05
"""What takes less than this takes nothing worth a word. [stop]"""
STRAIGHT_M = 0.05
"""A panel whose middle is nearer than this to the subject's upright line hangs straight over it. [m]"""
ALL_OF_IT_STOPS = 5.0
"""Beyond this a flag has taken all that matters. [stop]"""


@dataclass(frozen=True)
class PanelCard:
    """A placed panel with its number and what it does; `panel` is None where nothing could be computed.

    `kept` says what other panels keep from it, each a light (empty for the sun) and a share in percent.
    """

    number: str
    placed: PlacedPanel
    for_letter: str
    panel: PanelReading | None
    takes: str
    hides_percent: int | None
    kept: tuple[tuple[str, int], ...]
    warned: tuple[Warned, ...]
    is_overhead: bool

    @property
    def stands_before(self) -> bool:
        """Whether it is a flag or scrim, of which somebody may type how much it covers."""
        return self.placed.panel.kind in (PanelKind.FLAG, PanelKind.SCRIM)

    @property
    def lacks_background(self) -> bool:
        """Whether it is to keep a light from a background that is not there."""
        is_flag = self.placed.panel.kind == PanelKind.FLAG
        return is_flag and self.placed.shields == Shield.BACKGROUND and self.hides_percent is None

    @property
    def does_nothing(self) -> bool:
        return bool(self.panel and self.panel.does_nothing)


@dataclass(frozen=True)
class PanelNotes:
    """What is said once of all panels together.

    `asks_under`: whether the ambient reading was taken under scrims and flags is not said yet. `was_under` is what
    was said; None where there is no such reading or nothing that it could have been taken under. `sun_unknown`: how
    much of the reading is sun is not known. `meet`: there are reflectors with other panels round them.
    """

    asks_under: bool
    was_under: bool | None
    sun_unknown: bool
    has_sky_scrim: bool
    meet: bool


def panel_cards(
    setup: Setup,
    lamps: Sequence[tuple[str, PlacedLamp]],
    reading: SetupReading | None,
    warned: Sequence[Warned],
) -> tuple[PanelCard, ...]:
    """Return the panels of a setup; no query when they were prefetched."""
    letters = {placed.pk: name for name, placed in lamps}
    shown = {one.letter: one for one in reading.panels} if reading else {}
    return tuple(
        PanelCard(
            number=number,
            placed=placed,
            for_letter=letters.get(placed.for_lamp_id, "") if placed.for_lamp_id else "",
            panel=shown.get(number),
            takes=_takes(shown.get(number)),
            hides_percent=_percent(shown[number].hides) if number in shown else None,
            kept=tuple((name, round(100 * share)) for name, share in shown[number].kept) if number in shown else (),
            warned=tuple(one for one in warned if one.letter == number),
            is_overhead=_is_overhead(setup, placed),
        )
        for number, placed in numbered(list(setup.panels.all()))
    )


def panel_notes(setup: Setup, core: CoreSetup | None) -> PanelNotes:
    """Return what is said once of all panels; no query when they were prefetched."""
    panels = list(setup.panels.all())
    for_sky = [
        placed
        for placed in panels
        if placed.for_lamp_id is None and placed.panel.kind in (PanelKind.FLAG, PanelKind.SCRIM)
    ]
    read = setup.ambient_ev100 is not None and bool(for_sky)
    ambient = core.ambient if core else None
    return PanelNotes(
        asks_under=read and setup.ambient_under is None,
        was_under=setup.ambient_under if read else None,
        sun_unknown=bool(read and not setup.ambient_under and ambient and ambient.sun is None and not ambient.even),
        has_sky_scrim=any(placed.panel.kind == PanelKind.SCRIM for placed in for_sky),
        meet=len(panels) > 1 and any(placed.panel.kind == PanelKind.REFLECTOR for placed in panels),
    )


def panel_words(setup: Setup) -> dict[str, tuple[str, ...]]:
    """Return what stands beside each panel on a plan, by its number; no query when they were prefetched."""
    kinds = {
        PanelKind.REFLECTOR: _("Reflector"),
        PanelKind.BLACK: _("Black"),
        PanelKind.FLAG: _("Flag"),
        PanelKind.SCRIM: _("Scrim"),
    }
    return {
        number: (
            str(kinds[PanelKind(one.panel.kind)]),
            _("overhead") if _is_overhead(setup, one) else _("%(m)s m off") % {"m": f"{one.distance_m:g}"},
            _("%(height)s m high") % {"height": f"{one.height_m:g}"},
        )
        for number, one in numbered(list(setup.panels.all()))
    }


def _is_overhead(setup: Setup, placed: PlacedPanel) -> bool:
    """Whether it hangs straight over the subject, where a bearing says nothing."""
    return placed.distance_m < STRAIGHT_M and placed.height_m > setup.subject_height_m


def _percent(share: float | None) -> int | None:
    return None if share is None else round(100 * share)


def _takes(reading: PanelReading | None) -> str:
    if reading is None or reading.takes_stops > -WORTH_STOPS:
        return ""
    if reading.takes_stops < -ALL_OF_IT_STOPS:
        return _("all but a trace")
    return _("%(n).1f stops") % {"n": -reading.takes_stops}
