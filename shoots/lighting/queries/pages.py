"""What the pages of setups show: each light's reading, the ambient against the settings, the plan, what to mind."""

from __future__ import annotations

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
from shoots.lighting.core.readings import LightReading, Reading, SetupReading, evaluate
from shoots.lighting.core.setup import PlacedLight
from shoots.lighting.core.stands import WindLimit, tipping_radius, wind_limit
from shoots.lighting.core.tenths import MeterReading as Shown
from shoots.lighting.core.tenths import read_meter
from shoots.lighting.models import MeterReading, PlacedLamp, Setup
from shoots.lighting.queries.drawing import Drawing, drawing_of
from shoots.lighting.queries.notation import power_text
from shoots.lighting.queries.rows import (
    Sky,
    conventions_of,
    core_setup,
    is_known,
    lettered,
    placed_light,
    sky_of,
)
from shoots.shoot.models import Shoot, ShootDay
from shoots.values.units import OutOfRange, wrap_turn

SAME_TIME_STOPS = 0.05
"""Shutter times nearer than this are the same. [stop]"""
GAUGE_STOPS = 5.0
"""Half the width of the scale of stops. [stop]"""


@dataclass(frozen=True)
class Gauge:
    """A reading on a scale of stops against the chosen exposure, in percent of its width; level is the middle."""

    at: float
    left: float
    width: float


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
    wind: WindLimit | None


@dataclass(frozen=True)
class SetupPage:
    """One setup, computed for a moment.

    `reading` is None where the numbers can't be meant together (a light in the subject's place); `impossible` then
    names the number. `ambient_miss_stops` says how far the ambient lies outside what the mood asks for, 0 inside.
    """

    setup: Setup
    lamps: tuple[LampCard, ...]
    reading: SetupReading | None
    impossible: str
    sky: Sky
    asked: AskedLight | None
    asked_gauge: Gauge | None
    ambient_miss_stops: float | None
    ambient_gauge: Gauge | None
    total_gauge: Gauge | None
    background_gauge: Gauge | None
    drawing: Drawing | None
    warned: tuple[Warned, ...]
    notes: tuple[Note, ...]
    is_outdoors: bool
    has_stands: bool
    has_mains: bool
    meter_constant: float
    sync_s: float
    sun_bearing_deg: float | None

    @property
    def unknown(self) -> tuple[LampCard, ...]:
        return tuple(card for card in self.lamps if not card.is_known)

    @property
    def winds(self) -> tuple[LampCard, ...]:
        """Lights whose wind limit is known, the first to come down first."""
        found = [card for card in self.lamps if card.wind]
        return tuple(sorted(found, key=lambda card: card.wind.take_down_at_m_s if card.wind else 0.0))


@dataclass(frozen=True)
class SetupCard:
    """A setup as lists and call sheets show it."""

    setup: Setup
    lamps: tuple[tuple[str, PlacedLamp], ...]
    drawing: Drawing | None
    is_first: bool
    is_last: bool


def setups_to_show() -> QuerySet[Any]:
    """Return setups with everything that their pages read; two queries when evaluated."""
    lamps = PlacedLamp.objects.select_related("lamp", "modifier", "gel", "stand")
    return Setup.objects.select_related(
        "studio", "shoot__client", "shoot__studio", "mood", "place", "spot", "camera", "lens", "nd"
    ).prefetch_related(Prefetch("lamps", queryset=lamps))


def setup_page(setup: Setup, at: datetime | None) -> SetupPage:
    """Return what a setup's page shows for a moment; one query if the setup came from `setups_to_show`."""
    lamps = lettered(list(setup.lamps.all()))
    sky = sky_of(setup, at)
    asked = light_asked(setup.mood.brightness) if setup.mood else None
    reading, warned, impossible = _evaluated(setup, lamps, sky)
    by_letter = {light.letter: light for light in reading.lights} if reading else {}
    notes = list(MeterReading.objects.filter(setup=setup))
    outdoors = setup.place is not None and not setup.place.indoors
    ambient = reading.ambient if reading else None
    return SetupPage(
        setup=setup,
        lamps=tuple(
            _lamp_card(
                letter,
                placed,
                by_letter.get(letter),
                [note for note in notes if note.placed_lamp_id == placed.pk],
                tuple(one for one in warned if one.letter == letter),
                outdoors,
            )
            for letter, placed in lamps
        ),
        reading=reading,
        impossible=impossible,
        sky=sky,
        asked=asked,
        asked_gauge=_span(asked.ambient_from_stops, asked.ambient_to_stops) if asked else None,
        ambient_gauge=_gauge(ambient),
        total_gauge=_gauge(reading.total if reading else None),
        background_gauge=_span(
            reading.background_stops - reading.background_spread_stops,
            reading.background_stops + reading.background_spread_stops,
        )
        if reading and reading.background_stops is not None
        else None,
        ambient_miss_stops=asked.ambient_misses_by(ambient.stops) if asked and ambient else None,
        drawing=drawing_for(setup, lamps, sky),
        warned=tuple(one for one in warned if not one.letter),
        notes=tuple(
            Note(note, _difference(note, reading.total.f_number, setup, is_flash=False))
            if reading and reading.total
            else Note(note, None)
            for note in notes
            if note.placed_lamp_id is None
        ),
        is_outdoors=outdoors,
        has_stands=any(placed.stand_id for _letter, placed in lamps),
        has_mains=any(placed.lamp.needs_mains for _letter, placed in lamps),
        meter_constant=conventions_of(setup).meter_constant,
        sync_s=setup.camera.sync_s if setup.camera else CameraSpec().sync_s,
        sun_bearing_deg=_sun_bearing(setup, sky),
    )


def setup_cards(shoot: Shoot) -> tuple[SetupCard, ...]:
    """Return the setups of a shoot in their order, each with its plan; two queries, however many there are."""
    setups = list(setups_to_show().filter(shoot=shoot))
    cards = []
    for n, setup in enumerate(setups):
        lamps = lettered(list(setup.lamps.all()))
        drawing = drawing_for(setup, lamps, sky_of(setup, None))
        cards.append(SetupCard(setup, tuple(lamps), drawing, n == 0, n == len(setups) - 1))
    return tuple(cards)


def drawing_for(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]], sky: Sky) -> Drawing | None:
    """Return the plan from above; None where a light stands in the subject's place. No query."""
    words = {}
    for letter, placed in lamps:
        lines = [f"{placed.get_role_display()} {power_text(placed.power_down_stops)}"]
        lines.append(_("%(height)s m high") % {"height": f"{placed.height_m:g}"})
        if placed.radio_group:
            lines.append(_("radio %(group)s") % {"group": placed.radio_group})
        words[letter] = tuple(lines)
    try:
        return drawing_of(
            core_setup(setup, lamps, sky.ambient),
            sky.sun,
            words=words,
            keys={letter: (placed.pk, placed.version) for letter, placed in lamps},
            background_m=setup.background_distance_m,
        )
    except OutOfRange:
        return None


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


def _evaluated(
    setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]], sky: Sky
) -> tuple[SetupReading | None, tuple[Warned, ...], str]:
    known = [(letter, placed) for letter, placed in lamps if is_known(placed.lamp)]
    try:
        core = core_setup(setup, known, sky.ambient)
        return evaluate(core), troubles(core), ""
    except OutOfRange as error:
        return None, (), error.name


def _lamp_card(
    letter: str,
    placed: PlacedLamp,
    light: LightReading | None,
    notes: list[MeterReading],
    warned: tuple[Warned, ...],
    outdoors: bool,
) -> LampCard:
    predicted = light.reading.f_number if light and light.reading else None
    is_flash = placed.lamp.kind == LampKind.FLASH
    return LampCard(
        letter=letter,
        placed=placed,
        is_known=is_known(placed.lamp),
        light=light,
        gauge=_gauge(light.reading if light else None),
        power=power_text(placed.power_down_stops),
        notes=tuple(
            Note(note, _difference(note, predicted, placed.setup, is_flash=is_flash) if predicted else None)
            for note in notes
        ),
        warned=warned,
        wind=_wind(placed_light(letter, placed)) if outdoors and placed.stand else None,
    )


def _sun_bearing(setup: Setup, sky: Sky) -> float | None:
    """Return where the sun stands as lights do, seen from the subject; None without a sun or a view."""
    view = setup.spot.bearing_deg if setup.spot else None
    return None if view is None or sky.sun is None else wrap_turn(sky.sun.azimuth_deg - view - 180.0)


def _gauge(reading: Reading | None) -> Gauge | None:
    if reading is None:
        return None
    return _span(reading.stops - reading.spread_stops, reading.stops + reading.spread_stops)


def _span(low: float, high: float) -> Gauge:
    """Return a span of stops on the scale; what lies beyond its ends stands at them."""

    def place(stops: float) -> float:
        return round(50.0 + 50.0 * min(GAUGE_STOPS, max(-GAUGE_STOPS, stops)) / GAUGE_STOPS, 1)

    return Gauge(place((low + high) / 2.0), place(low), round(place(high) - place(low), 1))


def _difference(note: MeterReading, predicted: float, setup: Setup, *, is_flash: bool) -> float | None:
    """Return how much more light was read than predicted, at the reading's ISO; None if the times differ too."""
    if not is_flash and abs(math.log2(note.shutter_s / setup.shutter_s)) > SAME_TIME_STOPS:
        return None
    read = shown_of(note).f_number
    return 2.0 * math.log2(read / predicted) - math.log2(note.iso / setup.iso)


def shown_of(note: MeterReading) -> Shown:
    """Return a noted reading as its exact f-number: the full-stop mark and its tenths."""
    # The row keeps the mark as it is printed: 11, not the 11.314 that it stands for.
    mark = read_meter(f"{note.f_number:g}")
    return Shown(mark.mark, note.tenths, mark.f_number * 2.0 ** (note.tenths / 20.0))


def _wind(light: PlacedLight) -> WindLimit | None:
    if light.stand is None:
        return None
    area = light.front.area_m2
    drag = light.modifier.drag if light.modifier else 1.17
    mass = light.lamp.mass_kg + light.stand.mass_kg + light.extra_mass_kg
    mass += light.modifier.mass_kg if light.modifier else 0.0
    radius = tipping_radius(light.stand.foot_radius_m, light.stand.legs)
    try:
        return wind_limit(mass, drag, area, light.height_m, radius, light.stand.takes_down_at_m_s)
    except OutOfRange:
        return None
