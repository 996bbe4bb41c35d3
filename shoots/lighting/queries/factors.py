"""What the studio's own meter says of its lights: predictions kept with each reading, and the factors they imply."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from shoots.kit.models import Lamp, Modifier
from shoots.lighting.core.aids import aided_ambient
from shoots.lighting.core.exposures import light_exposure, thrown_exposures
from shoots.lighting.core.meter import NotedReading, Refit, measured_exposure, refit
from shoots.lighting.core.setup import MeterFactor, reaches_front
from shoots.lighting.core.tenths import read_meter
from shoots.lighting.models import LightFactor, MeterReading, PlacedLamp, Setup
from shoots.lighting.queries.rows import SPREAD_MODIFIER_STOPS, core_setup, is_known, lettered, shutter_of, sky_of
from shoots.members.models import Studio
from shoots.values.units import OutOfRange

MOST_READINGS = 400
"""The latest so many count; older ones have said what they had to say."""
STATED_SPREAD_STOPS = 0.5
"""How far a lamp's stated output may lie off, as `rows.lamp_spec` has it. [stop]"""
LEAST_SHARE = 1e-4
"""A light that gives less of a reading than this says nothing about itself. [1]"""

Key = tuple[int, int | None]
"""A lamp and what is on it."""


@dataclass(frozen=True)
class Prediction:
    """What had been predicted for a reading, as it is kept in its row."""

    parts: list[dict[str, Any]]
    ambient_lx_s: float | None
    ambient_spread_stops: float


def prediction_for(setup: Setup, placed_lamp: PlacedLamp | None, *, shutter_s: float, at: datetime) -> Prediction:
    """Return what a meter at the subject is predicted to read, of one light or of all, from stated numbers alone.

    A flash meter counts the ambient light of its shutter time in. Lights whose output nobody knows are left out, and
    with one of them among all no reading together can be compared. One query for the lights, one for the panels.
    """
    lamps = lettered(
        list(PlacedLamp.objects.filter(setup=setup).select_related("lamp", "modifier", "gel", "grid", "stand"))
    )
    known = [(name, one) for name, one in lamps if is_known(one.lamp)]
    nothing = Prediction([], None, 0.0)
    shutter_s = shutter_of(setup, shutter_s)
    if placed_lamp is None and len(known) < len(lamps):
        return nothing
    sky = sky_of(setup, at)
    try:
        core = core_setup(setup, known, sky.ambient)
        core = replace(
            core,
            exposure=replace(core.exposure, shutter_s=shutter_s),
            lights=tuple(replace(light, factor=None) for light in core.lights),
        )
        aided = aided_ambient(core)
        parts = []
        for light, (_name, one) in zip(core.lights, known, strict=True):
            wanted = reaches_front(light) if placed_lamp is None else one.pk == placed_lamp.pk
            # Turned to one light, the meter sees what comes straight; turned to the camera, reflectors too.
            amount = light_exposure(core, light)[0] if wanted else 0.0
            if placed_lamp is None:
                amount += math.fsum(lx_s for _, lx_s in thrown_exposures(core, light))
            if amount > 0.0:
                parts.append({"lamp": one.lamp_id, "modifier": one.modifier_id, "lx_s": amount})
    except OutOfRange:
        return nothing
    ambient = aided.front_lx * shutter_s if aided and aided.front_lx > 0.0 else None
    return Prediction(parts, ambient, max(0.1, sky.ambient.spread_stops))


def measured_of(reading: MeterReading) -> float:
    """Return what a reading means as luminous exposure: its mark and tenths, at its ISO and meter. [lx·s]"""
    # The row keeps the mark as it is printed: 11, not the 11.314 that it stands for.
    mark = read_meter(f"{reading.f_number:g}").f_number
    return measured_exposure(mark * 2.0 ** (reading.tenths / 20.0), float(reading.iso), reading.meter_constant)


def difference_of(reading: MeterReading) -> float | None:
    """Return how much more light was read than stated numbers had predicted; None where nothing was predicted."""
    predicted = math.fsum(part["lx_s"] for part in reading.predicted) + (reading.ambient_lx_s or 0.0)
    return math.log2(measured_of(reading) / predicted) if reading.predicted and predicted > 0.0 else None


def _label(key: Key) -> str:
    return f"{key[0]}:{key[1] or 0}"


def keys_of(reading: MeterReading) -> set[Key]:
    """Return the lights that a reading speaks of. No query."""
    return {(part["lamp"], part["modifier"]) for part in reading.predicted}


@dataclass(frozen=True)
class Fitted:
    """The factors that readings imply, with the readings that count for each."""

    refit: Refit
    readings: tuple[MeterReading, ...]

    def factor(self, key: Key) -> MeterFactor:
        return self.refit.factor(_label(key))

    @property
    def keys(self) -> set[Key]:
        return {key for reading in self.readings for key in keys_of(reading)}


def standing_readings(readings: Iterable[MeterReading], factors: Iterable[LightFactor]) -> tuple[MeterReading, ...]:
    """Return the readings that count: none from before the factor of one of its lights was withdrawn. No query."""
    withdrawn = {(one.lamp_id, one.modifier_id): one.counts_from for one in factors if one.counts_from}
    return tuple(
        one
        for one in readings
        if one.predicted and not any(key in withdrawn and one.read_at <= withdrawn[key] for key in keys_of(one))
    )


def fitted_factors(readings: Sequence[MeterReading]) -> Fitted:
    """Return the factors that readings imply, all of them fitted together. No query."""
    noted, priors = [], {}
    for reading in readings:
        amounts: dict[str, float] = {}
        for part in reading.predicted:
            key = (part["lamp"], part["modifier"])
            amounts[_label(key)] = amounts.get(_label(key), 0.0) + part["lx_s"]
            on_it = SPREAD_MODIFIER_STOPS if key[1] else 0.0
            priors[_label(key)] = MeterFactor(0.0, math.hypot(STATED_SPREAD_STOPS, on_it))
        if reading.ambient_lx_s:
            name = f"ambient:{reading.pk}"
            amounts[name] = reading.ambient_lx_s
            priors[name] = MeterFactor(0.0, max(0.01, reading.ambient_spread_stops))
        total = math.fsum(amounts.values())
        parts = tuple((name, amount) for name, amount in sorted(amounts.items()) if amount > LEAST_SHARE * total)
        noted.append(NotedReading(parts, measured_of(reading)))
    return Fitted(refit(noted, priors), tuple(readings))


@dataclass(frozen=True)
class FactorReading:
    """One reading of a light, as the page of the studio's meter shows it."""

    reading: MeterReading
    difference_stops: float
    weight: float
    is_doubtful: bool
    together: bool


@dataclass(frozen=True)
class FactorCard:
    """What the meter says of one light with its modifier."""

    factor: LightFactor
    lamp: Lamp
    modifier: Modifier | None
    readings: tuple[FactorReading, ...]


def meter_page(studio: Studio) -> tuple[FactorCard, ...]:
    """Return every factor of the studio with its readings; withdrawn ones last. Two queries."""
    factors = list(LightFactor.objects.of_studio(studio).select_related("lamp", "modifier"))
    latest = MeterReading.objects.of_studio(studio).select_related("setup__shoot").order_by("-read_at", "-pk")
    readings = standing_readings(list(latest[:MOST_READINGS]), factors)
    fitted = fitted_factors(readings)
    shown: dict[Key, list[FactorReading]] = {}
    for row, reading in enumerate(readings):
        difference = difference_of(reading)
        for key in keys_of(reading) if difference is not None else ():
            weight = fitted.refit.weights[row]
            doubtful = row in fitted.refit.doubtful
            together = len(reading.predicted) > 1
            shown.setdefault(key, []).append(FactorReading(reading, difference or 0.0, weight, doubtful, together))
    cards = [
        FactorCard(one, one.lamp, one.modifier, tuple(shown.get((one.lamp_id, one.modifier_id), ())))
        for one in factors
        if one.readings or one.withdrawn_at
    ]
    return tuple(sorted(cards, key=lambda card: (card.factor.withdrawn_at is not None, card.lamp.name)))
