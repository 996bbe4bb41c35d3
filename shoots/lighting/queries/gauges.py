"""Readings on scales, for the eye: stops against the chosen exposure, and one aperture among its neighbours."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shoots.lighting.core.readings import Reading, SetupReading
from shoots.lighting.core.scales import aperture_scale

GAUGE_STOPS = 5.0
"""Half the width of the scale of stops. [stop]"""
DIAL_MARKS = 3
"""Marks of a third of a stop that the dial shows to either side."""


@dataclass(frozen=True)
class Gauge:
    """A reading on a scale of stops against the chosen exposure, in percent of its width; level is the middle."""

    at: float
    left: float
    width: float


@dataclass(frozen=True)
class DialMark:
    """One aperture on the dial: whether it is the one, and whether the truth may well be there."""

    label: str
    is_the_one: bool
    is_likely: bool


@dataclass(frozen=True)
class MainDoubt:
    """What makes the one aperture most unsure: a light by its letter, or the ambient light with an empty one."""

    letter: str
    spread_stops: float


@dataclass(frozen=True)
class Dial:
    """The one aperture that a meter is expected to show, among its neighbours a third of a stop apart.

    `thirds` is the spread to either side, up to the next third of a stop; nothing finer can be set, so it is at least
    one.
    """

    label: str
    thirds: int
    marks: tuple[DialMark, ...]


def gauge_of(reading: Reading | None) -> Gauge | None:
    """Return a reading with its spread on the scale."""
    if reading is None:
        return None
    return span_gauge(reading.stops - reading.spread_stops, reading.stops + reading.spread_stops)


def span_gauge(low: float, high: float) -> Gauge:
    """Return a span of stops on the scale; what lies beyond its ends stands at them."""

    def place(stops: float) -> float:
        return round(50.0 + 50.0 * min(GAUGE_STOPS, max(-GAUGE_STOPS, stops)) / GAUGE_STOPS, 1)

    return Gauge(place((low + high) / 2.0), place(low), round(place(high) - place(low), 1))


def thirds_of(spread_stops: float) -> int:
    """Return a spread in thirds of a stop, up to the next one; at least one, as nothing finer can be set."""
    return max(1, math.ceil(3.0 * spread_stops - 1e-6))


def main_doubt(reading: SetupReading) -> MainDoubt | None:
    """Return what adds most to the spread of all light together: what errs widely, and gives much of the light.

    None in the dark. Light that panels throw back errs with the lights it comes from and is not named.
    """
    if reading.total is None:
        return None
    found = [(one.letter, one.reading) for one in reading.lights if one.at_front]
    parts = [
        ((part.f_number / reading.total.f_number) ** 2 * part.spread_stops, letter, part.spread_stops)
        for letter, part in [*found, ("", reading.ambient)]
        if part is not None
    ]
    if not parts:
        return None
    _weight, letter, spread = max(parts)
    return MainDoubt(letter, spread)


def dial_of(reading: Reading) -> Dial:
    """Return the one aperture of a reading with its neighbours."""
    scale = aperture_scale()
    place = scale.index(reading.nominal)
    thirds = thirds_of(reading.spread_stops)
    first = max(0, place - DIAL_MARKS)
    marks = tuple(
        DialMark(mark.label, first + n == place, abs(first + n - place) <= thirds)
        for n, mark in enumerate(scale[first : place + DIAL_MARKS + 1])
    )
    return Dial(reading.nominal.label.removesuffix(".0"), thirds, marks)
