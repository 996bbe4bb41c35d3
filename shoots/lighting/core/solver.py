"""Settings, powers and places for the light that a mood asks for, or which wish fails and by how much.

It knows that filters, ISO and aperture never change the balance of flash to ambient: only the time, the
power, the distance, the number of heads and the time of day do. A filter mends a wide aperture at the sync
speed; high-speed sync never mends a sky that is too bright against the flash, because flash and ambient
then fall together.

References
----------
`shoots.lighting.core.search` for the search; ISO 2720:1974 for the readings.
"""

import math
from dataclasses import replace

from shoots.lighting.core.readings import SetupReading, evaluate
from shoots.lighting.core.search import Found, search
from shoots.lighting.core.setup import Exposure, Part, Setup
from shoots.lighting.core.sharpness import f_number_for_depth
from shoots.lighting.core.wishes import (
    BLOWN_STOPS,
    GHOST_STOPS,
    Outcome,
    Problem,
    Solution,
    Target,
    Wish,
    Wishes,
)

MARK_TOLERANCE_STOPS = 0.17
"""A limit given as a printed f-number means the mark nearest to it. [stop]"""
DARK_STOPS = -30.0
"""What darkness counts as. [stop]"""


class NoTimeSyncs(ValueError):
    """Raised when there is no exposure time at which every flash reaches the whole frame."""


def apply(problem: Problem, found: Found) -> Setup:
    """Return the setup with settings, powers and places of a candidate in it.

    Parameters
    ----------
    problem : Problem
        What was given.
    found : Found
        The candidate.

    Returns
    -------
    Setup
        Lights set to high-speed sync where it is used.

    References
    ----------
    Own arrangement.
    """
    setup, series = problem.setup, problem.setup.conventions.series
    chosen = {letter: (power, floor) for letter, power, floor in found.choices}
    lights = tuple(
        replace(
            light,
            power=chosen[light.letter][0],
            floor_m=chosen[light.letter][1],
            high_speed_sync=found.high_speed,
        )
        for light in setup.lights
    )
    exposure = Exposure(
        found.aperture.value(series),
        found.shutter.value(series),
        found.iso.value(series),
        math.fsum(found.nd_stops),
    )
    return replace(setup, exposure=exposure, lights=lights)


def _target(wish: Wish, letter: str, target: Target, got: float | None) -> Outcome:
    value = DARK_STOPS if got is None else got
    margin = target.tolerance_stops - abs(value - target.stops)
    return Outcome(wish, letter, target.stops, value, margin, "stop")


def _aperture_outcomes(setup: Setup, wishes: Wishes) -> list[Outcome]:
    n = setup.exposure.f_number
    found: list[Outcome] = []
    if wishes.widest is not None or wishes.narrowest is not None:
        widest = wishes.widest if wishes.widest is not None else 0.1
        narrowest = wishes.narrowest if wishes.narrowest is not None else 1e4
        above, below = 2.0 * math.log2(n / widest), 2.0 * math.log2(narrowest / n)
        limit = widest if above < below else narrowest
        margin = min(above, below) + MARK_TOLERANCE_STOPS
        found.append(Outcome(Wish.APERTURE, "", limit, n, margin, "f"))
    if wishes.sharp_from_m is not None and wishes.sharp_to_m is not None:
        needed = f_number_for_depth(setup.lens.focal_mm, wishes.circle_mm, wishes.sharp_from_m, wishes.sharp_to_m)
        margin = 2.0 * math.log2(n / needed) if needed > 0.0 else -DARK_STOPS
        found.append(Outcome(Wish.DEPTH, "", needed, n, margin, "f"))
    return found


def _blur_outcome(setup: Setup, wishes: Wishes, reading: SetupReading) -> list[Outcome]:
    speed = setup.subject.speed_m_s
    if wishes.blur_mm is None or speed == 0.0:
        return []
    blurs = [one.blur_mm for one in reading.lights if one.part is Part.KEY and one.at_front and one.reading]
    ghost = reading.ambient is not None and reading.ambient.stops >= GHOST_STOPS
    if ghost or not blurs:
        blurs.append(1000.0 * speed * setup.exposure.shutter_s)
    blur = max(blurs)
    return [Outcome(Wish.BLUR, "", wishes.blur_mm, blur, math.log2(wishes.blur_mm / blur), "mm")]


def outcomes(setup: Setup, wishes: Wishes, reading: SetupReading) -> tuple[Outcome, ...]:
    """Return how each wish comes out in an evaluated setup.

    Parameters
    ----------
    setup : Setup
        The setup.
    wishes : Wishes
        What the mood asks for.
    reading : SetupReading
        Its evaluation.

    Returns
    -------
    tuple[Outcome, ...]
        In the order of `Wish`, lights by letter.

    Raises
    ------
    OutOfRange
        If a wished depth lies within the focal length.

    References
    ----------
    Own arrangement.
    """
    found = [_target(Wish.EXPOSURE, "", wishes.exposure, reading.total.stops if reading.total else None)]
    if wishes.ambient is not None:
        level = reading.ambient.stops if reading.ambient else None
        found.append(_target(Wish.AMBIENT, "", wishes.ambient, level))
    if wishes.background is not None:
        found.append(_target(Wish.BACKGROUND, "", wishes.background, reading.background_stops))
    if not wishes.sky_may_blow:
        tone = DARK_STOPS if reading.background_stops is None else reading.background_stops
        found.append(Outcome(Wish.SKY_HOLDS, "", BLOWN_STOPS, tone, BLOWN_STOPS - tone, "stop"))
    if wishes.key_over_fill is not None:
        over = reading.key_over_fill_stops
        if over is None:
            has_key = any(one.part is Part.KEY and one.reading for one in reading.lights)
            over = -DARK_STOPS if has_key else DARK_STOPS
        found.append(_target(Wish.RATIO, "", wishes.key_over_fill, over))
    lights = sorted(reading.lights, key=lambda one: one.letter)
    if wishes.rims is not None:
        found += [
            _target(Wish.RIM, one.letter, wishes.rims, one.reading.stops if one.reading else None)
            for one in lights
            if one.part in (Part.RIM, Part.TOP)
        ]
    found += _aperture_outcomes(setup, wishes)
    found += _blur_outcome(setup, wishes, reading)
    for warmth in sorted(wishes.warmth, key=lambda one: one.letter):
        looks = next((one.appearance_mired for one in lights if one.letter == warmth.letter), None)
        value = -1000.0 if looks is None else looks
        left = warmth.tolerance_mired - abs(value - warmth.mired)
        margin = left / max(warmth.tolerance_mired, 1.0)
        found.append(Outcome(Wish.WARMTH, warmth.letter, warmth.mired, value, margin, "MK⁻¹"))
    return tuple(found)


def solve(problem: Problem) -> Solution:
    """Return the settings, powers and places that serve the wishes best.

    Parameters
    ----------
    problem : Problem
        What is given and wished; the order of its lights does not matter.

    Returns
    -------
    Solution
        Met, or with the wishes that fail and by how much: no other combination misses less in all.

    Raises
    ------
    NoTimeSyncs
        If no exposure time of the camera lets every flash reach the whole frame.
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Those of the module.
    """
    found = search(problem)
    if found is None:
        raise NoTimeSyncs
    return _solution(problem, found)


def _solution(problem: Problem, found: Found) -> Solution:
    setup = apply(problem, found)
    reading = evaluate(setup)
    moved = {light.letter: light.floor_m for light in problem.setup.lights}
    return Solution(
        aperture=found.aperture,
        shutter=found.shutter,
        iso=found.iso,
        nd_stops=found.nd_stops,
        high_speed_sync=found.high_speed,
        powers=tuple((letter, power) for letter, power, _ in found.choices),
        floors=tuple((letter, floor) for letter, _, floor in found.choices if abs(floor - moved[letter]) > 1e-9),
        setup=setup,
        reading=reading,
        outcomes=outcomes(setup, problem.wishes, reading),
        shortfall_stops=found.cost_stops,
    )
