"""What would mend a wish that fails: single changes, each tried by solving again, least effort first.

References
----------
Own arrangement on `shoots.lighting.core.search`. The minutes are our own estimate of handling on site; the
studio may have its own.
"""

import itertools
import math
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from shoots.kit.core.lamps import LampKind, LayerKind
from shoots.kit.core.starting import GELS
from shoots.lighting.core.ambient import Ambient
from shoots.lighting.core.burst import high_speed_sync_stops
from shoots.lighting.core.search import search
from shoots.lighting.core.setup import Part, PlacedLight, Setup
from shoots.lighting.core.wishes import Problem, Solution, Wish
from shoots.values.units import mired_from_kelvin

ND_STEPS = tuple(float(stop) for stop in range(1, 11))
"""Neutral filters that can be bought or hired. [stop]"""
MOST_HEADS = 4
MOST_GELS = 2
NEAREST_SHARE, FARTHEST_SHARE = 0.4, 2.5
"""How far a light is moved at most, as a share of its present distance. [1]"""
WORTH_STOPS = 0.3
"""A change that brings less than this is no mend. [stop]"""


class MendKind(StrEnum):
    """What can be changed."""

    HIGH_SPEED_SYNC = "HIGH_SPEED_SYNC"
    """Set the lights to it; ``amount`` is what it costs the flash. [stop]"""
    DIFFUSER_OFF = "DIFFUSER_OFF"
    """Take the outer diffuser off; ``amount`` is what it gives. [stop]"""
    GELS = "GELS"
    """Put other gels on it, or take them off; ``amount`` is what is on it then, together. [MK⁻¹]"""
    NEARER = "NEARER"
    """``amount`` is how much nearer along the floor. [m]"""
    FARTHER = "FARTHER"
    """``amount`` is how much farther along the floor. [m]"""
    ND = "ND"
    """Put a neutral filter on that is not in the bag; ``amount`` is its strength. [stop]"""
    ONE_MORE_HEAD = "ONE_MORE_HEAD"
    """Put more heads beside it; ``amount`` is how many more. [1]"""
    WAIT = "WAIT"
    """Wait for other light; ``until`` says till when, ``amount`` is how much the ambient light changes.
    [stop]"""


EFFORT_MIN: dict[MendKind, float] = {
    MendKind.HIGH_SPEED_SYNC: 0.5,
    MendKind.DIFFUSER_OFF: 1.0,
    MendKind.GELS: 1.0,
    MendKind.NEARER: 2.0,
    MendKind.FARTHER: 2.0,
    MendKind.ND: 5.0,
    MendKind.ONE_MORE_HEAD: 10.0,
    MendKind.WAIT: 30.0,
}
"""Minutes that a change takes; own estimate. [min]"""


@dataclass(frozen=True, slots=True)
class Mend:
    """One change that helps.

    Attributes
    ----------
    kind : MendKind
        What to change.
    letter : str
        Which light; empty when it is none.
    amount : float
        How much, in the unit that ``kind`` states.
    until : datetime or None
        For waiting, till when.
    leaves_stops : float
        What is still missing over all wishes that count in stops; 0 when none of them fails. [stop]
    leaves_warmth : int
        How many lights look too warm or too cool even then.
    effort_min : float
        About how long it takes. [min]
    """

    kind: MendKind
    letter: str
    amount: float
    until: datetime | None
    leaves_stops: float
    leaves_warmth: int
    effort_min: float

    @property
    def settles(self) -> bool:
        """Whether every wish is met with it."""
        return self.leaves_stops <= 1e-6 and self.leaves_warmth == 0


def _cost(problem: Problem, more_filters: tuple[float, ...] = ()) -> float:
    found = search(problem, more_filters)
    return float("inf") if found is None else found.cost_stops


def _with(problem: Problem, light: PlacedLight) -> Problem:
    return replace(problem, setup=problem.setup.with_light(light))


def _mend(kind: MendKind, letter: str, amount: float, leaves: float, until: datetime | None = None) -> Mend:
    return Mend(kind, letter, amount, until, round(leaves, 6), 0, EFFORT_MIN[kind])


def _high_speed_sync(problem: Problem) -> list[Mend]:
    """Return high-speed sync as a mend where an aperture or a movement asks for a short time.

    It never mends an ambient light or a sky that is too bright against the flash: both fall together, the
    flash a little more. Where it seems to, it is used as a filter, and a filter costs the flash less.
    """
    wishes = problem.wishes
    if wishes.narrowest is None and wishes.blur_mm is None:
        return []
    if problem.allow_high_speed_sync:
        return []
    freed = replace(problem, allow_high_speed_sync=True)
    found = search(freed)
    if found is None or not found.high_speed:
        return []
    flashes = [light for light in problem.setup.lights if light.lamp.kind is LampKind.FLASH]
    shutter = found.shutter.value(problem.setup.conventions.series)
    run = problem.setup.camera.curtain_s
    extra = min((light.lamp.high_speed_sync_extra_stops for light in flashes), default=0.0)
    return [_mend(MendKind.HIGH_SPEED_SYNC, "", high_speed_sync_stops(shutter, run, extra), found.cost_stops)]


def _diffusers(problem: Problem) -> list[Mend]:
    found = []
    for light in problem.setup.lights:
        if light.modifier is None:
            continue
        bare = light.modifier.without(LayerKind.OUTER_DIFFUSER)
        gain = bare.total_stops - light.modifier.total_stops
        if gain > 0.0:
            cost = _cost(_with(problem, replace(light, modifier=bare)))
            found.append(_mend(MendKind.DIFFUSER_OFF, light.letter, gain, cost))
    return found


def _gels(problem: Problem, before: Solution) -> list[Mend]:
    """Return for each light that looks too warm or too cool the gels that make it right and take the least light."""
    found = []
    for outcome in before.outcomes:
        light = next((one for one in problem.setup.lights if one.letter == outcome.letter), None)
        if outcome.wish is not Wish.WARMTH or outcome.margin_stops >= -1e-6 or light is None:
            continue
        tolerance = max(one.tolerance_mired for one in problem.wishes.warmth if one.letter == light.letter)
        bare = mired_from_kelvin(light.lamp.colour_k) - mired_from_kelvin(problem.setup.white_balance_k)
        right = [
            gels
            for count in range(MOST_GELS + 1)
            for gels in itertools.combinations(GELS.values(), count)
            if abs(bare + sum(one.shift_mired for one in gels) - outcome.wanted) <= tolerance
        ]
        if not right:
            continue
        gels = max(right, key=lambda some: (math.prod(one.transmission for one in some), -len(some)))
        cost = _cost(_with(problem, replace(light, gels=gels)))
        found.append(_mend(MendKind.GELS, light.letter, sum(one.shift_mired for one in gels), cost))
    return found


def _moves(problem: Problem, before: Solution) -> list[Mend]:
    """Return for each light that is at an end of its power the least move that helps most."""
    powers = dict(before.powers)
    found = []
    for light in problem.setup.lights:
        if light.part is Part.BACKGROUND or light.floor_m <= 0.0:
            continue
        if powers[light.letter] >= 1.0 - 1e-9:
            kind, ends = MendKind.NEARER, (light.floor_m, light.floor_m * NEAREST_SHARE)
        elif powers[light.letter] <= light.lamp.least_power * 1.01:
            kind, ends = MendKind.FARTHER, (light.floor_m, light.floor_m * FARTHEST_SHARE)
        else:
            continue
        place, cost = _least_move(problem, light, *ends)
        found.append(_mend(kind, light.letter, abs(place - light.floor_m), cost))
    return found


def _least_move(problem: Problem, light: PlacedLight, start: float, end: float) -> tuple[float, float]:
    """Return the least move towards ``end``, to 5 cm, after which no more moving helps, and what is then
    missed."""

    def cost(place: float) -> float:
        return _cost(_with(problem, replace(light, floor_m=place)))

    # The farther it has to go the more it helps, until something else is in the way: find that place by
    # halving.
    best = cost(end)
    enough, short = end, start
    while abs(enough - short) > 0.05:
        middle = (enough + short) / 2.0
        if cost(middle) <= best + 1e-6:
            enough = middle
        else:
            short = middle
    return enough, cost(enough)


def _filters(problem: Problem) -> list[Mend]:
    found = search(problem, ND_STEPS)
    if found is None:
        return []
    bag = {one.stops for one in problem.setup.filters}
    new = [stops for stops in found.nd_stops if stops not in bag]
    return [_mend(MendKind.ND, "", stops, found.cost_stops) for stops in new]


def _heads(problem: Problem, before: Solution) -> list[Mend]:
    powers = dict(before.powers)
    found = []
    for light in problem.setup.lights:
        if powers[light.letter] < 1.0 - 1e-9:
            continue
        costs = []
        for heads in range(light.heads + 1, max(MOST_HEADS, light.heads + 1) + 1):
            costs.append(_cost(_with(problem, replace(light, heads=heads))))
            if costs[-1] <= 1e-6:
                break
        least = min(costs)
        more = next(index for index, cost in enumerate(costs) if cost <= least + 1e-6) + 1
        found.append(_mend(MendKind.ONE_MORE_HEAD, light.letter, float(more), least))
    return found


def _waits(problem: Problem) -> list[Mend]:
    """Return the first time at which the light mends everything, else the one that leaves least."""
    found: list[Mend] = []
    now = problem.setup.ambient.ev100
    for later in problem.later:
        cost = _cost(replace(problem, setup=_under(problem.setup, later.ambient)))
        level = later.ambient.ev100
        change = level - now if level is not None and now is not None else 0.0
        found.append(_mend(MendKind.WAIT, "", change, cost, later.at))
        if cost <= 1e-6:
            break
    if not found:
        return []
    least = min(mend.leaves_stops for mend in found)
    return [next(mend for mend in found if mend.leaves_stops == least)]


def _under(setup: Setup, ambient: Ambient) -> Setup:
    return replace(setup, ambient=ambient)


def mends(problem: Problem, before: Solution) -> tuple[Mend, ...]:
    """Return single changes that would mend what fails, those that mend everything first, then by effort.

    Gels are those of the starting kinds, up to two of them.

    Parameters
    ----------
    problem : Problem
        What was given and wished.
    before : Solution
        Its best solution.

    Returns
    -------
    tuple[Mend, ...]
        Empty when all wishes are met, or when no single change brings a third of a stop or the right warmth.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Those of the module.
    """
    gels = _gels(problem, before)
    tried = (
        []
        if before.shortfall_stops <= 1e-6
        else [
            *_high_speed_sync(problem),
            *_diffusers(problem),
            *_moves(problem, before),
            *_filters(problem),
            *_heads(problem, before),
            *_waits(problem),
        ]
    )
    wrong = sum(one.wish is Wish.WARMTH for one in before.failing)
    helps = [
        replace(mend, leaves_warmth=wrong)
        for mend in tried
        if mend.leaves_stops <= max(1e-6, before.shortfall_stops - WORTH_STOPS)
    ]
    helps += [replace(mend, leaves_warmth=wrong - 1) for mend in gels]
    order = list(MendKind)
    return tuple(
        sorted(
            helps,
            key=lambda mend: (
                not mend.settles,
                mend.effort_min * (mend.amount if mend.kind is MendKind.ONE_MORE_HEAD else 1.0),
                mend.leaves_stops,
                order.index(mend.kind),
                mend.letter,
            ),
        )
    )
