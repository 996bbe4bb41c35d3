"""The candidates of a search, sorted into classes that share their light, and what no choice of powers can
beat.

References
----------
`shoots.lighting.core.search`; own arrangement.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shoots.lighting.core.aids import aided_ambient
from shoots.lighting.core.dials import Dial, make_dial
from shoots.lighting.core.output import Sync, sync_of
from shoots.lighting.core.scales import Mark, marks_between, shutter_scale
from shoots.lighting.core.setup import Part, PlacedLight, reaches_front
from shoots.lighting.core.wishes import BLOWN_STOPS, GHOST_STOPS, Problem, Target
from shoots.values.units import FloatArray

IntArray = NDArray[np.int64]

FAR_STOPS = 30.0
"""Deviations are counted no further than this, so that darkness has a number. [stop]"""
_BLOCKS = 12


@dataclass(frozen=True, slots=True, eq=False)
class Accent:
    """A light from behind or above, which has a dial of its own.

    Attributes
    ----------
    dial : Dial
        Its dial.
    at_front : bool
        Whether it adds to the front.
    wished : bool
        Whether a wish says how strong it shall be.
    """

    dial: Dial
    at_front: bool
    wished: bool


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """Everything about a problem that does not change from class to class.

    Attributes
    ----------
    problem : Problem
        The problem.
    key, fill, behind : Dial
        Keys, fills and background lights.
    accents : tuple[Accent, ...]
        Lights from behind or above, by letter.
    unit_lx_s : float
        Luminous exposure that level 0 wants. [lx·s]
    unit_behind : float
        Tone that a luxsecond on the background gives at level 0, over middle grey. [1/(lx·s)]
    ambient_ev100 : float or None
        Ambient light on the front with the panels round the subject; None in the dark. [EV]
    shadow_share : float
        Ambient light on the shadow side over that. [1]
    has_key, flash_key, light_on_front : bool
        Whether there is a key, whether it flashes, whether any turned light reaches the front.
    """

    problem: Problem
    key: Dial
    fill: Dial
    behind: Dial
    accents: tuple[Accent, ...]
    unit_lx_s: float
    unit_behind: float
    ambient_ev100: float | None
    shadow_share: float
    has_key: bool
    flash_key: bool
    light_on_front: bool


@dataclass(frozen=True, slots=True, eq=False)
class Times:
    """The exposure times that may be used, and what they let of a flash.

    Attributes
    ----------
    marks : tuple[Mark, ...]
        On the scale, n of them.
    seconds, share : NDArray[np.float64], shape (n,)
        Time [s] and what it lets of a flash [1].
    high_speed : NDArray[np.bool_], shape (n,)
        Whether flashes burn while the curtains run.
    """

    marks: tuple[Mark, ...]
    seconds: FloatArray
    high_speed: NDArray[np.bool_]
    share: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Classes:
    """Distinct pairs of level and time, with what is settled for them before any key or fill is chosen.

    Attributes
    ----------
    level : NDArray[np.float64], shape (m,)
        2 log2 N - log2(S/100) + ND. [stop]
    time : NDArray[np.int64], shape (m,)
        Which of the times.
    fixed : NDArray[np.float64], shape (m,)
        What ambient light, accents and the shutter miss already. [stop]
    ambient, accent_front, accent_fill, accent_behind, sky : NDArray[np.float64], shape (m,)
        Amounts over what is exposed as it should; ``accent_fill`` is what reflectors throw of the accents and
        is counted in ``accent_front``. [1]
    accent_choice : NDArray[np.int64], shape (accents, m)
        Setting of each accent's dial.
    shutter_blur : NDArray[np.float64], shape (m,)
        By how much the shutter alone blurs too much, counted in ``fixed``. [stop]
    """

    level: FloatArray
    time: IntArray
    fixed: FloatArray
    ambient: FloatArray
    accent_front: FloatArray
    accent_fill: FloatArray
    accent_behind: FloatArray
    accent_choice: IntArray
    sky: FloatArray
    shutter_blur: FloatArray


def miss(found: FloatArray, target: Target | None) -> FloatArray:
    """Return by how many stops a wish is missed.

    Parameters
    ----------
    found : NDArray[np.float64], any shape
        What comes out. [stop]
    target : Target or None
        What is wished; None is always met.

    Returns
    -------
    NDArray[np.float64], any shape
        0 inside the tolerance. [stop]

    References
    ----------
    Own arrangement, see tests.
    """
    if target is None:
        return np.zeros_like(found)
    return np.maximum(np.abs(found - target.stops) - target.tolerance_stops, 0.0)


def off_target(found: FloatArray, target: Target | None) -> FloatArray:
    """Return how far from the middle of a wish something comes out, at least 0.

    Parameters
    ----------
    found : NDArray[np.float64], any shape
        What comes out. [stop]
    target : Target or None
        What is wished; None gives 0. [stop]

    References
    ----------
    Own arrangement, see tests.
    """
    return np.zeros_like(found) if target is None else np.abs(found - target.stops)


def log2_or_dark(amount: FloatArray) -> FloatArray:
    """Return log2 of amounts of light, with darkness as -FAR_STOPS.

    Parameters
    ----------
    amount : NDArray[np.float64], any shape
        At least 0. [1]

    Returns
    -------
    NDArray[np.float64], any shape
        At least -FAR_STOPS. [stop]

    References
    ----------
    Own arrangement, see tests.
    """
    found: FloatArray = np.log2(np.maximum(amount, 2.0**-FAR_STOPS))
    return found


def usable_times(problem: Problem) -> Times:
    """Return the times at which every flash of the setup reaches the whole frame.

    Parameters
    ----------
    problem : Problem
        What is given; high-speed sync counts when it is allowed and all lights have it.

    Returns
    -------
    Times
        Empty when there is none.

    References
    ----------
    Own arrangement, see tests.
    """
    setup = problem.setup
    marks = marks_between(setup.camera.fastest_s, setup.camera.slowest_s, shutter_scale(problem.steps))
    ready = [_ready(light) for light in setup.lights]
    kept, fast = [], []
    for mark in marks:
        seconds = mark.value(setup.conventions.series)
        states = {sync_of(light, setup.camera, seconds) for light in ready}
        if Sync.BAND in states or (Sync.HIGH_SPEED in states and not problem.allow_high_speed_sync):
            continue
        kept.append(mark)
        fast.append(Sync.HIGH_SPEED in states)
    seconds_all = np.array([mark.value(setup.conventions.series) for mark in kept])
    high_speed = np.array(fast, dtype=bool)
    share = np.where(high_speed, seconds_all / (setup.camera.curtain_s + seconds_all), 1.0)
    return Times(tuple(kept), seconds_all, high_speed, share)


def _ready(light: PlacedLight) -> PlacedLight:
    return replace(light, high_speed_sync=True)


def make_frame(problem: Problem) -> Frame:
    """Return everything about a problem that does not change from class to class.

    Parameters
    ----------
    problem : Problem
        What is given and wished.

    Returns
    -------
    Frame
        Dials and units.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Own arrangement, see tests.
    """
    setup, wishes = problem.setup, problem.wishes
    ranges = {one.letter: (one.nearest_m, one.farthest_m) for one in problem.ranges}

    def group(part: Part, front: bool | None) -> tuple[PlacedLight, ...]:
        return tuple(light for light in setup.lights if light.part is part and front in (None, reaches_front(light)))

    accents = []
    for light in sorted(setup.lights, key=lambda one: one.letter):
        loose = light.part in (Part.RIM, Part.TOP) or (light.part in (Part.KEY, Part.FILL) and not reaches_front(light))
        if loose:
            wished = wishes.rims is not None and light.part in (Part.RIM, Part.TOP)
            accents.append(Accent(make_dial(setup, (light,), wished, ranges), reaches_front(light), wished))
    keys = group(Part.KEY, True)
    key = make_dial(setup, keys, True, ranges)
    constants = setup.conventions
    fill = make_dial(setup, group(Part.FILL, True), wishes.key_over_fill is not None, ranges)
    aided = aided_ambient(setup)
    lit = aided is not None and aided.front_lx > 0.0
    reflectance = setup.background.reflectance if setup.background is not None else 0.0
    return Frame(
        problem=problem,
        key=key,
        fill=fill,
        behind=make_dial(setup, group(Part.BACKGROUND, None), wishes.background is not None, ranges),
        accents=tuple(accents),
        unit_lx_s=constants.meter_constant / 100.0,
        unit_behind=reflectance / math.pi / (constants.reflected_constant / 100.0),
        ambient_ev100=math.log2(aided.front_lx * 100.0 / constants.meter_constant) if aided and lit else None,
        shadow_share=aided.fill_lx / aided.front_lx if aided and lit else 1.0,
        has_key=bool(keys),
        flash_key=bool((key.flash > 0.0).any()),
        light_on_front=bool(keys) or bool(fill.flash.any() or fill.steady.any()),
    )


def make_classes(frame: Frame, times: Times, levels: FloatArray) -> Classes:
    """Return every pair of level and time with what does not depend on key and fill.

    Parameters
    ----------
    frame : Frame
        The problem.
    times : Times
        Usable times, n of them.
    levels : NDArray[np.float64], shape (m,)
        Distinct levels 2 log2 N - log2(S/100) + ND. [stop]

    Returns
    -------
    Classes
        m·n classes, times running fastest.

    References
    ----------
    Own arrangement, see tests.
    """
    setup, wishes = frame.problem.setup, frame.problem.wishes
    level = np.repeat(levels, len(times.seconds))
    time = np.tile(np.arange(len(times.seconds), dtype=np.int64), len(levels))
    setting = level - np.log2(times.seconds)[time]
    fixed = np.zeros(len(level))
    ambient = np.zeros(len(level))
    if frame.ambient_ev100 is not None:
        ambient = np.exp2(np.minimum(frame.ambient_ev100 - setting, FAR_STOPS))
    fixed += miss(log2_or_dark(ambient), wishes.ambient)
    sky = np.zeros(len(level))
    if setup.ambient.background_ev100 is not None:
        sky = np.exp2(np.minimum(setup.ambient.background_ev100 - setting, FAR_STOPS))
    front, filled, behind = np.zeros(len(level)), np.zeros(len(level)), np.zeros(len(level))
    chosen = np.zeros((len(frame.accents), len(level)), dtype=np.int64)
    down = np.exp2(-level)
    rows = np.arange(len(level))
    for place, accent in enumerate(frame.accents):
        per_time, thrown_time, behind_time = _by_time(accent.dial, times)
        if accent.wished:
            stops = log2_or_dark(per_time)[time] - math.log2(frame.unit_lx_s) - level[:, None]
            missed = miss(stops, wishes.rims)
            # What misses least first, then the middle of the wish and the least move, then the weakest.
            off = off_target(stops, wishes.rims) + 0.5 * accent.dial.moved_m
            chosen[place] = np.argmin(np.round(missed * 1e5 + off, 9), axis=1)
            fixed += missed[rows, chosen[place]]
        given = per_time[time, chosen[place]] * down / frame.unit_lx_s
        thrown = thrown_time[time, chosen[place]] * down / frame.unit_lx_s
        front += (given if accent.at_front else 0.0) + thrown
        filled += thrown
        behind += behind_time[time, chosen[place]] * down * frame.unit_behind
    blur = _shutter_blur(frame, times, time, ambient)
    return Classes(level, time, fixed + blur, ambient, front, filled, behind, chosen, sky, blur)


def _by_time(dial: Dial, times: Times) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return a dial's amounts at subject, by reflectors and at background for each time, shape (times, m)."""
    shutters = [
        (bool(fast), float(share), float(seconds))
        for fast, share, seconds in zip(times.high_speed, times.share, times.seconds, strict=True)
    ]
    every = (dial.amount, dial.thrown, dial.behind)
    one, two, three = (np.array([what(*shutter) for shutter in shutters]) for what in every)
    return one, two, three


def _shutter_blur(frame: Frame, times: Times, time: IntArray, ambient: FloatArray) -> FloatArray:
    """Return by how many stops the shutter, not the flash, blurs a moving subject too much."""
    wishes, speed = frame.problem.wishes, frame.problem.setup.subject.speed_m_s
    if wishes.blur_mm is None or speed == 0.0:
        return np.zeros(len(time))
    over = np.maximum(np.log2(1000.0 * speed * times.seconds / wishes.blur_mm), 0.0)[time]
    rules = (ambient >= 2.0**GHOST_STOPS) | times.high_speed[time] | (not frame.flash_key)
    found: FloatArray = np.where(rules, over, 0.0)
    return found


def flash_blur(frame: Frame, shutter_s: float, high_speed: bool) -> FloatArray:
    """Return by how many stops the flash of each key setting is too long for the movement.

    Parameters
    ----------
    frame : Frame
        The problem.
    shutter_s : float
        Exposure time. [s]
    high_speed : bool
        Whether flashes burn while the curtains run; then the shutter rules.

    Returns
    -------
    NDArray[np.float64], shape (m,)
        0 where it is short enough. [stop]
    """
    wishes, speed = frame.problem.wishes, frame.problem.setup.subject.speed_m_s
    if wishes.blur_mm is None or speed == 0.0 or high_speed or not frame.flash_key:
        return np.zeros(len(frame.key.t01_s))
    time = np.minimum(np.maximum(frame.key.t01_s, 1e-9), shutter_s)
    found: FloatArray = np.maximum(np.log2(1000.0 * speed * time / wishes.blur_mm), 0.0)
    return found


def class_bounds(frame: Frame, times: Times, classes: Classes) -> FloatArray:
    """Return for each class a number of stops that no choice of powers can beat.

    Parameters
    ----------
    frame : Frame
        The problem.
    times : Times
        Usable times.
    classes : Classes
        The classes, m of them.

    Returns
    -------
    NDArray[np.float64], shape (m,)
        A lower bound of what is missed. [stop]

    Notes
    -----
    Key and fill settings are taken in blocks; inside a block exposure and ratio lie between what its
    weakest and its strongest settings give, so their distance from the wishes has a least value.

    References
    ----------
    Own arrangement, see tests.
    """
    wishes = frame.problem.wishes
    best = np.full(len(classes.level), np.inf)
    key, key_thrown = _block_ends(frame.key, times)
    fill, fill_thrown = _block_ends(frame.fill, times)
    down = np.exp2(-classes.level) / frame.unit_lx_s
    base = classes.ambient + classes.accent_front
    shadow = classes.ambient * frame.shadow_share + classes.accent_fill
    at = classes.time
    for k in range(key[0].shape[1]):
        k0, k1 = key[0][at, k] * down, key[1][at, k] * down
        kt0, kt1 = key_thrown[0][at, k] * down, key_thrown[1][at, k] * down
        for f in range(fill[0].shape[1]):
            f0 = (fill[0][at, f] + fill_thrown[0][at, f]) * down + kt0
            f1 = (fill[1][at, f] + fill_thrown[1][at, f]) * down + kt1
            cost = _interval_miss(log2_or_dark(base + k0 + f0), log2_or_dark(base + k1 + f1), wishes.exposure)
            if wishes.key_over_fill is not None:
                low = ratio_stops(k0, f1 + shadow)
                cost = cost + _interval_miss(low, ratio_stops(k1, f0 + shadow), wishes.key_over_fill)
            np.minimum(best, cost, out=best)
    found = best + classes.fixed
    if not frame.behind.flash.any() and not frame.behind.steady.any():
        # The sky alone is a lower bound of the background's tone.
        least = log2_or_dark(classes.sky)
        if wishes.background is not None:
            over = least - wishes.background.stops - wishes.background.tolerance_stops
            found = found + np.maximum(over, 0.0)
        if not wishes.sky_may_blow:
            found = found + np.maximum(least - BLOWN_STOPS, 0.0)
    return found


_Ends = tuple[FloatArray, FloatArray]


def _block_ends(dial: Dial, times: Times) -> tuple[_Ends, _Ends]:
    """Return least and most that each block of a dial gives, shape (times, blocks): straight, and by reflectors."""
    amounts, thrown, _ = _by_time(dial, times)
    starts = np.unique(np.linspace(0, amounts.shape[1], _BLOCKS, endpoint=False).astype(np.int64))
    least, most = np.minimum.reduceat, np.maximum.reduceat
    return (
        (least(amounts, starts, axis=1), most(amounts, starts, axis=1)),
        (least(thrown, starts, axis=1), most(thrown, starts, axis=1)),
    )


def _interval_miss(low: FloatArray, high: FloatArray, target: Target) -> FloatArray:
    """Return the least by which anything between two values misses a wish."""
    under = target.stops - target.tolerance_stops - high
    over = low - target.stops - target.tolerance_stops
    found: FloatArray = np.maximum(np.maximum(under, over), 0.0)
    return found


def ratio_stops(key: FloatArray, fill: FloatArray) -> FloatArray:
    """Return key over fill, between -FAR_STOPS and FAR_STOPS where one is missing.

    Parameters
    ----------
    key : NDArray[np.float64], any shape that broadcasts
        Light of the key. [1]
    fill : NDArray[np.float64], any shape that broadcasts
        Light of fill and ambient. [1]

    Returns
    -------
    NDArray[np.float64]
        Positive when the key is stronger. [stop]

    References
    ----------
    Own arrangement, see tests.
    """
    return np.clip(log2_or_dark(key) - log2_or_dark(fill), -FAR_STOPS, FAR_STOPS)
