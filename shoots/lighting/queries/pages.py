"""What the pages of setups show: each light's reading, the ambient against the settings, the plan, what to mind."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Prefetch, QuerySet
from django.utils.translation import gettext as _

from shoots.brief.core.light import AskedLight, light_asked
from shoots.brief.models import Mood
from shoots.kit.core.cameras import CameraSpec
from shoots.kit.core.lamps import LampKind
from shoots.kit.models import Camera, Lens
from shoots.lighting.core.framecheck import Warned, troubles
from shoots.lighting.core.readings import LightReading, SetupReading, evaluate
from shoots.lighting.core.setup import Setup as CoreSetup
from shoots.lighting.core.stands import Advice
from shoots.lighting.core.tenths import MeterReading as Shown
from shoots.lighting.core.tenths import read_meter
from shoots.lighting.models import MeterReading, PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries.care import BatteryRow, WindRow, battery_rows, wind_rows
from shoots.lighting.queries.drawing import Drawing, drawing_of
from shoots.lighting.queries.factors import difference_of
from shoots.lighting.queries.finding import Finding, NoSuchMend, WishRow, bag_filters, find, wish_rows
from shoots.lighting.queries.gauges import Dial, Gauge, MainDoubt, dial_of, gauge_of, main_doubt, span_gauge
from shoots.lighting.queries.notation import meter_text, power_words
from shoots.lighting.queries.panels import PanelCard, PanelNotes, panel_cards, panel_notes, panel_words
from shoots.lighting.queries.rows import (
    AmbientSource,
    Sky,
    conventions_of,
    core_setup,
    is_known,
    lettered,
    numbered,
    sky_of,
)
from shoots.lighting.queries.section import Side, side_of
from shoots.lighting.queries.sunlight import SunWords, sun_words
from shoots.lighting.queries.warnings import WarnedRow, warned_rows
from shoots.lighting.queries.wishes import later_light, problem_of
from shoots.lighting.queries.workings import Sharpness, light_steps, sharpness_of
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.values.steps import Step
from shoots.values.units import OutOfRange

LEVEL_STOPS = 0.05
"""Nearer than this to the exposure is level. [stop]"""
SAME_TIME_STOPS = 0.05
"""Shutter times nearer than this are the same. [stop]"""


@dataclass(frozen=True)
class Note:
    """A noted reading, and how far it lies from the predicted one; None where the two can't be compared. [stop]"""

    reading: MeterReading
    difference_stops: float | None


@dataclass(frozen=True)
class LampCard:
    """A placed light with its letter and what is predicted of it.

    `light` is None where the bag does not say how much light it gives.
    """

    letter: str
    placed: PlacedLamp
    is_known: bool
    light: LightReading | None
    gauge: Gauge | None
    power: str
    notes: tuple[Note, ...]
    warned: tuple[Warned, ...]
    because: tuple[Step, ...]


@dataclass(frozen=True)
class SetupPage:
    """One setup, computed for a moment.

    `reading` is None where the numbers can't be meant together (a light in the subject's place); `impossible` then
    names the number. `ambient_miss_stops` says how far the ambient lies outside what the mood asks for, 0 inside.
    `wishes` hold the present settings against what the light shall do; `finding` is there when it was asked for.
    """

    setup: Setup
    lamps: tuple[LampCard, ...]
    panels: tuple[PanelCard, ...]
    panel_notes: PanelNotes
    reading: SetupReading | None
    impossible: str
    sky: Sky
    asked: AskedLight | None
    asked_gauge: Gauge | None
    ambient_miss_stops: float | None
    ambient_gauge: Gauge | None
    total_gauge: Gauge | None
    background_gauge: Gauge | None
    dial: Dial | None
    doubt: MainDoubt | None
    drawing: Drawing | None
    side: Side | None
    all_warned: tuple[WarnedRow, ...]
    notes: tuple[Note, ...]
    is_outdoors: bool
    has_stands: bool
    has_mains: bool
    meter_constant: float
    sync_s: float
    sun: SunWords | None
    sharpness: Sharpness | None
    wishes: tuple[WishRow, ...]
    finding: Finding | None
    was_asked: bool
    winds: tuple[WindRow, ...]
    batteries: tuple[BatteryRow, ...]
    holders: tuple[Booking, ...]

    @property
    def held(self) -> tuple[str, ...]:
        """The lights that somebody has to hold in the forecast gusts."""
        return tuple(sorted(row.letter for row in self.winds if row.gust_known and row.check.advice is Advice.HOLD))

    @property
    def hands_missing(self) -> int:
        """How many of them nobody in the crew is down for, on whatever day."""
        return max(0, len(self.held) - len(self.holders))

    @property
    def unknown(self) -> tuple[LampCard, ...]:
        return tuple(card for card in self.lamps if not card.is_known)

    @property
    def doubted_light(self) -> LampCard | None:
        """The light that makes the one aperture most unsure; None where that is the ambient light, or nothing."""
        return next((card for card in self.lamps if self.doubt and card.letter == self.doubt.letter), None)

    @property
    def is_level(self) -> bool:
        """Whether all light together is what the settings expose for, to a tenth of a stop."""
        total = self.reading.total if self.reading else None
        return total is not None and abs(total.stops) < LEVEL_STOPS

    @property
    def is_ambient_unknown(self) -> bool:
        """Whether nobody measured the ambient light and nothing could be computed, so that it counts as dark."""
        return self.sky.source not in (AmbientSource.METERED, AmbientSource.COMPUTED)

    @property
    def fails(self) -> int:
        """How many wishes the present settings don't meet."""
        return sum(not row.is_met for row in self.wishes)


@dataclass(frozen=True)
class SetupCard:
    """A setup as lists and call sheets show it."""

    setup: Setup
    lamps: tuple[tuple[str, PlacedLamp], ...]
    drawing: Drawing | None
    is_first: bool
    is_last: bool


@dataclass(frozen=True)
class Lit:
    """A setup with what is computed of it for a moment: the part that the page and the search share."""

    lamps: tuple[tuple[str, PlacedLamp], ...]
    sky: Sky
    asked: AskedLight | None
    core: CoreSetup | None
    reading: SetupReading | None
    warned: tuple[Warned, ...]
    impossible: str


def setups_to_show() -> QuerySet[Any]:
    """Return setups with everything that their pages read; three queries when evaluated."""
    lamps = PlacedLamp.objects.select_related("lamp__battery", "modifier", "gel", "grid", "stand").with_factors()
    panels = PlacedPanel.objects.select_related("panel", "stand")
    return Setup.objects.select_related(
        "studio", "shoot__client", "shoot__studio", "mood", "place", "spot", "camera", "lens", "nd", "nd_second"
    ).prefetch_related(Prefetch("lamps", queryset=lamps), Prefetch("panels", queryset=panels))


def lit(setup: Setup, at: datetime | None) -> Lit:
    """Return a setup computed for a moment; no query if it came from `setups_to_show`."""
    lamps = tuple(lettered(list(setup.lamps.all())))
    sky = sky_of(setup, at)
    asked = light_asked(setup.mood.brightness) if setup.mood else None
    known = [(letter, placed) for letter, placed in lamps if is_known(placed.lamp)]
    try:
        core = core_setup(setup, known, sky.ambient)
        return Lit(lamps, sky, asked, core, evaluate(core), troubles(core), "")
    except OutOfRange as error:
        return Lit(lamps, sky, asked, None, None, (), error.name)


def finding_for(setup: Setup, shown: Lit, at: datetime | None, mend: str = "") -> Finding | None:
    """Return the best settings, with a mend taken over where one is named; one query, for the filters in the bag.

    Raises
    ------
    NoSuchMend
        If the mend is none of this setup's.
    """
    if shown.core is None or shown.reading is None:
        return None
    filters = bag_filters(setup)
    known = [(letter, placed) for letter, placed in shown.lamps if is_known(placed.lamp)]
    later = later_light(setup, shown.sky, at)
    problem = problem_of(setup, known, shown.core, shown.asked, filters, later)
    return find(setup, known, problem, shown.reading, filters, mend)


def setup_page(setup: Setup, at: datetime | None, *, is_asked: bool = False, mend: str = "") -> SetupPage:
    """Return what a setup's page shows for a moment; one query if the setup came from `setups_to_show`, one more when
    settings are looked for (`is_asked`), and one for who holds what the wind asks to be held."""
    shown = lit(setup, at)
    lamps, sky, asked, reading = shown.lamps, shown.sky, shown.asked, shown.reading
    by_letter = {light.letter: light for light in reading.lights} if reading else {}
    notes = list(MeterReading.objects.filter(setup=setup))
    outdoors = setup.place is not None and not setup.place.indoors
    ambient = reading.ambient if reading else None
    winds = wind_rows(setup, lamps) if outdoors else ()
    holders: tuple[Booking, ...] = ()
    if any(row.gust_known and row.check.advice is Advice.HOLD for row in winds):
        crew = Booking.objects.standing().filter(shoot=setup.shoot_id, kind=BookingKind.CREW, holds_lights=True)
        holders = tuple(crew.select_related("person"))
    finding = None
    if is_asked or mend:
        with contextlib.suppress(NoSuchMend):
            finding = finding_for(setup, shown, at, mend)
    return SetupPage(
        setup=setup,
        lamps=tuple(
            _lamp_card(
                letter,
                placed,
                by_letter.get(letter),
                [note for note in notes if note.placed_lamp_id == placed.pk],
                shown,
            )
            for letter, placed in lamps
        ),
        panels=panel_cards(setup, lamps, reading, shown.warned),
        panel_notes=panel_notes(setup, shown.core),
        reading=reading,
        impossible=shown.impossible,
        sky=sky,
        asked=asked,
        asked_gauge=span_gauge(asked.ambient_from_stops, asked.ambient_to_stops) if asked else None,
        ambient_gauge=gauge_of(ambient),
        total_gauge=gauge_of(reading.total if reading else None),
        background_gauge=span_gauge(
            reading.background_stops - reading.background_spread_stops,
            reading.background_stops + reading.background_spread_stops,
        )
        if reading and reading.background_stops is not None
        else None,
        ambient_miss_stops=asked.ambient_misses_by(ambient.stops) if asked and ambient else None,
        dial=dial_of(reading.total) if reading and reading.total else None,
        doubt=main_doubt(reading) if reading else None,
        drawing=drawing_for(setup, lamps, sky, reading),
        side=side_for(setup, lamps, sky),
        all_warned=warned_rows(shown.core, shown.warned),
        notes=tuple(
            Note(note, _difference(note, reading.total.f_number, setup, is_flash=False))
            if reading and reading.total
            else Note(note, None)
            for note in notes
            if note.placed_lamp_id is None
        ),
        is_outdoors=outdoors,
        has_stands=any(placed.stand_id for placed in (*(one for _letter, one in lamps), *setup.panels.all())),
        has_mains=any(placed.lamp.needs_mains for _letter, placed in lamps),
        meter_constant=conventions_of(setup).meter_constant,
        sync_s=setup.camera.sync_s if setup.camera else CameraSpec().sync_s,
        sun=sun_words(setup, sky.sun) if sky.sun else None,
        sharpness=sharpness_of(shown.core, reading) if shown.core and reading else None,
        wishes=_wish_rows(setup, shown),
        finding=finding,
        was_asked=is_asked or bool(mend),
        winds=winds,
        batteries=battery_rows(setup, lamps),
        holders=holders,
    )


def setup_cards(shoot: Shoot) -> tuple[SetupCard, ...]:
    """Return the setups of a shoot in their order, each with its plan; three queries, however many there are."""
    setups = list(setups_to_show().filter(shoot=shoot))
    cards = []
    for n, setup in enumerate(setups):
        shown = lit(setup, None)
        drawing = drawing_for(setup, shown.lamps, shown.sky, shown.reading)
        cards.append(SetupCard(setup, shown.lamps, drawing, n == 0, n == len(setups) - 1))
    return tuple(cards)


def drawing_for(
    setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]], sky: Sky, reading: SetupReading | None
) -> Drawing | None:
    """Return the plan from above; None where a light stands in the subject's place. No query."""
    read = {light.letter: light.reading for light in reading.lights} if reading else {}
    words = {}
    for letter, placed in lamps:
        lines = [f"{placed.get_role_display()} {power_words(placed.power_down_stops)}"]
        shown = read.get(letter)
        if shown and shown.metered:
            lines.append(meter_text(shown.metered))
        last = _("%(height)s m high") % {"height": f"{placed.height_m:g}"}
        if placed.radio_group:
            group = {"height": f"{placed.height_m:g}", "group": placed.radio_group}
            last = _("%(height)s m, radio %(group)s") % group
        lines.append(last)
        words[letter] = tuple(lines)
    try:
        return drawing_of(
            core_setup(setup, lamps, sky.ambient),
            sky.sun,
            words=words | panel_words(setup),
            keys=_keys(setup, lamps),
            background_m=setup.background_distance_m,
        )
    except OutOfRange:
        return None


def side_for(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]], sky: Sky) -> Side | None:
    """Return the side view; None where a light stands in the subject's place. No query."""
    try:
        return side_of(core_setup(setup, lamps, sky.ambient), keys=_keys(setup, lamps))
    except OutOfRange:
        return None


def _keys(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]]) -> dict[str, tuple[int, int]]:
    """Return key and version of everything that can be moved on a drawing, by its letter or number."""
    placed: list[tuple[str, PlacedLamp | PlacedPanel]] = [*lamps, *numbered(list(setup.panels.all()))]
    return {name: (one.pk, one.version) for name, one in placed}


def first_guess(shoot: Shoot) -> dict[str, Any]:
    """Return what a new setup begins with: the one mood, the first day's place, the one camera and lens if so."""
    guess: dict[str, Any] = {}
    moods = list(Mood.objects.filter(shoot=shoot)[:2])
    if len(moods) == 1:
        guess["mood"] = moods[0]
    day = ShootDay.objects.filter(shoot=shoot).standing().exclude(place=None).select_related("place").first()
    if day:
        guess["place"] = day.place
    cameras = list(Camera.objects.of_studio(shoot.studio).filter(put_away_at=None)[:2])
    if len(cameras) == 1:
        guess["camera"] = cameras[0]
    lenses = list(Lens.objects.of_studio(shoot.studio).filter(put_away_at=None)[:2])
    if len(lenses) == 1:
        lens = lenses[0]
        focal = min(max(50.0, lens.shortest_mm), lens.longest_mm)
        guess |= {"lens": lens, "focal_mm": focal, "aperture": max(8.0, lens.widest_f)}
    return guess


def _wish_rows(setup: Setup, shown: Lit) -> tuple[WishRow, ...]:
    if shown.core is None or shown.reading is None:
        return ()
    known = [(letter, placed) for letter, placed in shown.lamps if is_known(placed.lamp)]
    return wish_rows(shown.core, problem_of(setup, known, shown.core, shown.asked, ()), shown.reading)


def _lamp_card(
    letter: str, placed: PlacedLamp, light: LightReading | None, notes: list[MeterReading], shown: Lit
) -> LampCard:
    predicted = light.reading.f_number if light and light.reading else None
    is_flash = placed.lamp.kind == LampKind.FLASH
    return LampCard(
        letter=letter,
        placed=placed,
        is_known=is_known(placed.lamp),
        light=light,
        gauge=gauge_of(light.reading if light else None),
        power=power_words(placed.power_down_stops),
        notes=tuple(
            Note(note, _difference(note, predicted, placed.setup, is_flash=is_flash) if predicted else None)
            for note in notes
        ),
        warned=tuple(one for one in shown.warned if one.letter == letter),
        because=light_steps(shown.core, shown.core.light(letter), light) if shown.core and light else (),
    )


def _difference(note: MeterReading, predicted: float, setup: Setup, *, is_flash: bool) -> float | None:
    """Return how much more light was read than predicted, at the reading's ISO; None if the times differ too."""
    if not is_flash and abs(math.log2(note.shutter_s / setup.shutter_s)) > SAME_TIME_STOPS:
        return None
    if note.predicted:
        return difference_of(note)
    read = shown_of(note).f_number
    return 2.0 * math.log2(read / predicted) - math.log2(note.iso / setup.iso)


def shown_of(note: MeterReading) -> Shown:
    """Return a noted reading as its exact f-number: the full-stop mark and its tenths."""
    # The row keeps the mark as it is printed: 11, not the 11.314 that it stands for.
    mark = read_meter(f"{note.f_number:g}")
    return Shown(mark.mark, note.tenths, mark.f_number * 2.0 ** (note.tenths / 20.0))
