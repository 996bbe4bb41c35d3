"""Best settings out of all combinations, with proof that nothing better was cut off.

Every aperture, time, ISO and filter of the camera with every power of every light is a candidate. Flash and
ambient depend on aperture, ISO and filters only through one number, the level h = 2 log2 N - log2(S/100) +
ND, so candidates of one level and one time share their light and are weighed together. For each such class
a bound is known that no choice of powers can beat; classes are opened in the order of their bounds until
the next bound is no better than what was found. Ties go to the settings that cost least effort, so the
answer does not depend on chance or order.

References
----------
Branch and bound, A. H. Land, A. G. Doig, Econometrica 28 (1960) 497. The arrangement is our own, see tests:
a plain search over everything gives the same.
"""

import math
from dataclasses import dataclass

import numpy as np

from shoots.lighting.core.dials import Choice
from shoots.lighting.core.filterbag import filter_choices
from shoots.lighting.core.scales import Mark, aperture_scale, iso_scale, marks_between
from shoots.lighting.core.searchspace import (
    Classes,
    Frame,
    IntArray,
    Times,
    class_bounds,
    flash_blur,
    log2_or_dark,
    make_classes,
    make_frame,
    miss,
    off_target,
    ratio_stops,
    usable_times,
)
from shoots.lighting.core.sharpness import f_number_for_depth
from shoots.lighting.core.wishes import BLOWN_STOPS, Problem, Target
from shoots.values.units import FloatArray


@dataclass(frozen=True, slots=True)
class Found:
    """The best candidate.

    Attributes
    ----------
    aperture, shutter, iso : Mark
        On the scales.
    nd_stops : tuple[float, ...]
        Filters. [stop]
    high_speed : bool
        Whether the flashes burn while the curtains run.
    choices : Choice
        Letter, power and floor distance of each light.
    cost_stops : float
        What is missing over all wishes that settings can serve. [stop]
    """

    aperture: Mark
    shutter: Mark
    iso: Mark
    nd_stops: tuple[float, ...]
    high_speed: bool
    choices: Choice
    cost_stops: float


@dataclass(frozen=True, slots=True)
class Opened:
    """The best powers of one class.

    Attributes
    ----------
    cost : float
        What key, fill and background lights miss. [stop]
    off : float
        How far they are from the middle of the wishes. [stop]
    key, fill, behind : int
        Settings of the three dials.
    """

    cost: float
    off: float
    key: int
    fill: int
    behind: int


def open_class(frame: Frame, times: Times, classes: Classes, index: int) -> Opened:
    """Return the best powers of one class, every combination looked at.

    Parameters
    ----------
    frame : Frame
        The problem.
    times : Times
        Usable times.
    classes : Classes
        The classes.
    index : int
        Which class.

    Returns
    -------
    Opened
        Least missed; among equals nearest to the middle of the wishes, then weakest.

    References
    ----------
    Own arrangement, see tests.
    """
    wishes = frame.problem.wishes
    at = int(classes.time[index])
    fast, share, seconds = bool(times.high_speed[at]), float(times.share[at]), float(times.seconds[at])
    down = math.exp2(-float(classes.level[index]))
    key = frame.key.amount(fast, share, seconds) * down / frame.unit_lx_s
    fill = frame.fill.amount(fast, share, seconds) * down / frame.unit_lx_s
    thrown = (frame.key.thrown(fast, share, seconds)[:, None] + frame.fill.thrown(fast, share, seconds)[None, :]) * (
        down / frame.unit_lx_s
    )
    ambient = float(classes.ambient[index])
    base = ambient + float(classes.accent_front[index])
    exposure = log2_or_dark(base + key[:, None] + fill[None, :] + thrown)
    cost, off = miss(exposure, wishes.exposure), off_target(exposure, wishes.exposure)
    if wishes.key_over_fill is not None:
        shadow = ambient * frame.shadow_share + float(classes.accent_fill[index])
        ratio = ratio_stops(key[:, None], fill[None, :] + thrown + shadow)
        cost = cost + miss(ratio, wishes.key_over_fill)
        off = off + off_target(ratio, wishes.key_over_fill)
    # Flash and shutter blur the same hand: only what the flash blurs beyond the shutter is missed as well.
    cost = cost + np.maximum(flash_blur(frame, seconds, fast) - float(classes.shutter_blur[index]), 0.0)[:, None]
    off = off + 0.5 * (frame.key.moved_m[:, None] + frame.fill.moved_m[None, :])
    behind = np.zeros(exposure.shape, dtype=np.int64)
    if wishes.background is not None or not wishes.sky_may_blow:
        scale = down * frame.unit_behind
        spill = (
            frame.key.behind(fast, share, seconds)[:, None] + frame.fill.behind(fast, share, seconds)[None, :]
        ) * scale
        rest = float(classes.sky[index] + classes.accent_behind[index]) + spill
        own = frame.behind.behind(fast, share, seconds) * scale
        behind, tone = _background(rest, own, frame.behind.moved_m, wishes.background)
        cost = cost + miss(tone, wishes.background)
        off = off + off_target(tone, wishes.background) + 0.5 * frame.behind.moved_m[behind]
        if not wishes.sky_may_blow:
            cost = cost + np.maximum(tone - BLOWN_STOPS, 0.0)
    least = float(cost.min())
    off = np.where(cost <= least + 1e-9, np.round(off, 9), np.inf)
    place = int(np.argmin(off))
    k, f = divmod(place, exposure.shape[1])
    return Opened(least, float(off.flat[place]), k, f, int(behind[k, f]))


def _background(
    rest: FloatArray, own: FloatArray, moved: FloatArray, target: Target | None
) -> tuple[IntArray, FloatArray]:
    """Return for each cell the best setting of the background lights, and the tone that comes of it."""
    if len(own) == 1:
        return np.zeros(rest.shape, dtype=np.int64), log2_or_dark(rest + own[0])
    wanted = 0.0 if target is None else target.stops
    order = np.argsort(own, kind="stable")
    need = np.exp2(wanted) - rest
    high = np.clip(np.searchsorted(own[order], need), 0, len(own) - 1)
    low = np.maximum(high - 1, 0)
    # Tone rises with the dial, so the best is one of the two settings next to the ideal.
    tones = [log2_or_dark(rest + own[order][side]) for side in (low, high)]
    lower = np.abs(tones[0] - wanted) <= np.abs(tones[1] - wanted)
    chosen: IntArray = np.where(lower, order[low], order[high])
    return chosen, np.where(lower, tones[0], tones[1])


def _effort(frame: Frame, times: Times, classes: Classes, columns: "_Columns") -> IntArray:
    """Return a whole number for each candidate setting that is smaller for less effort.

    In order: no high-speed sync, few filters, low ISO, ambient and sky near their wishes, a time near the
    sync time, an aperture near the middle of its limits.
    """
    wishes, camera = frame.problem.wishes, frame.problem.setup.camera
    klass = columns.klass
    at = classes.time[klass]
    off = off_target(log2_or_dark(classes.ambient), wishes.ambient)
    if wishes.background is not None and len(frame.behind.choices) == 1:
        off = off + off_target(log2_or_dark(classes.sky), wishes.background)
    if not frame.light_on_front:
        off = off + off_target(log2_or_dark(classes.ambient + classes.accent_front), wishes.exposure)
    near = np.minimum(np.round(off * 12.0), 500).astype(np.int64)[klass]
    sync = max(camera.sync_s, camera.electronic_s or 0.0)
    if frame.problem.setup.lights:
        time_off = np.abs(np.log2(times.seconds / sync))
    else:
        time_off = np.abs(np.log2(times.seconds * 125.0))
    time_rank = np.argsort(np.argsort(np.round(time_off, 9), kind="stable"), kind="stable")[at]
    limits = [value for value in (wishes.widest, wishes.narrowest) if value is not None]
    middle = math.prod(limits) ** (1.0 / len(limits)) if limits else 8.0
    aperture_off = np.round(np.abs(np.log2(columns.apertures / middle)), 9)
    aperture_rank = np.argsort(np.argsort(aperture_off, kind="stable"), kind="stable")[columns.aperture]
    packed = times.high_speed[at].astype(np.int64)
    for part, size in (
        (columns.filter, 4096),
        (columns.iso, 128),
        (near, 512),
        (time_rank, 128),
        (aperture_rank, 128),
    ):
        packed = packed * size + part
    return packed


@dataclass(frozen=True, slots=True, eq=False)
class _Columns:
    """All candidate settings: indices into the scales, their class and what the aperture alone misses."""

    apertures: FloatArray
    aperture: IntArray
    iso: IntArray
    filter: IntArray
    klass: IntArray
    miss: FloatArray


def search(problem: Problem, more_filters: tuple[float, ...] = ()) -> Found | None:
    """Return the best candidate of all combinations.

    Parameters
    ----------
    problem : Problem
        What is given and wished.
    more_filters : tuple[float, ...]
        Neutral filters to try that are not in the bag, one at a time. [stop]

    Returns
    -------
    Found or None
        None when there is no exposure time at which every flash reaches the whole frame.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Those of the module.
    """
    setup = problem.setup
    series = setup.conventions.series
    times = usable_times(problem)
    if not times.marks:
        return None
    frame = make_frame(problem)
    apertures = marks_between(setup.lens.widest, setup.lens.narrowest, aperture_scale(problem.steps))
    isos = marks_between(setup.camera.base_iso, setup.camera.top_iso, iso_scale(problem.steps))
    filters = filter_choices(setup.filters, more_filters)
    n_values = np.array([mark.value(series) for mark in apertures])
    iso_values = np.array([mark.value(series) for mark in isos])
    nd_values = np.array([math.fsum(choice) for choice in filters])
    level = (
        2.0 * np.log2(n_values)[:, None, None] - np.log2(iso_values / 100.0)[None, :, None] + nd_values[None, None, :]
    )
    levels, level_index = np.unique(np.round(level, 7).ravel(), return_inverse=True)
    classes = make_classes(frame, times, levels)
    shape = (*level.shape, len(times.seconds))
    n, s, d, t = (axis.ravel() for axis in np.indices(shape, dtype=np.int64))
    klass = level_index.reshape(level.shape)[n, s, d] * len(times.seconds) + t
    columns = _Columns(n_values, n, s, d, klass, _aperture_miss(problem, n_values)[n])
    bound = np.round(columns.miss + class_bounds(frame, times, classes)[klass], 6)
    effort = _effort(frame, times, classes, columns)
    best = _best_first(frame, times, classes, columns, bound, effort)
    place, opened = best
    index = int(columns.klass[place])
    picked = [accent.dial.choices[int(classes.accent_choice[row, index])] for row, accent in enumerate(frame.accents)]
    picked += [
        frame.key.choices[opened.key],
        frame.fill.choices[opened.fill],
        frame.behind.choices[opened.behind],
    ]
    at = int(classes.time[index])
    return Found(
        aperture=apertures[int(columns.aperture[place])],
        shutter=times.marks[at],
        iso=isos[int(columns.iso[place])],
        nd_stops=filters[int(columns.filter[place])],
        high_speed=bool(times.high_speed[at]),
        choices=tuple(sorted(entry for choice in picked for entry in choice)),
        cost_stops=float(columns.miss[place] + classes.fixed[index] + opened.cost),
    )


def _aperture_miss(problem: Problem, f_numbers: FloatArray) -> FloatArray:
    """Return by how many stops each aperture misses its limits and the wished depth."""
    wishes, setup = problem.wishes, problem.setup
    av = 2.0 * np.log2(f_numbers)
    missed = np.zeros(len(f_numbers))
    # A mark counts as within the limits when it is the one that they name.
    if wishes.widest is not None:
        missed += np.maximum(2.0 * math.log2(wishes.widest) - av - 0.17, 0.0)
    if wishes.narrowest is not None:
        missed += np.maximum(av - 2.0 * math.log2(wishes.narrowest) - 0.17, 0.0)
    if wishes.sharp_from_m is not None and wishes.sharp_to_m is not None:
        needed = f_number_for_depth(setup.lens.focal_mm, wishes.circle_mm, wishes.sharp_from_m, wishes.sharp_to_m)
        if needed > 0.0:
            missed += np.maximum(2.0 * math.log2(needed) - av, 0.0)
    return missed


def _best_first(
    frame: Frame,
    times: Times,
    classes: Classes,
    columns: _Columns,
    bound: FloatArray,
    effort: IntArray,
) -> tuple[int, Opened]:
    """Return the best candidate and its powers, opening classes in the order of their bounds."""
    opened: dict[int, Opened] = {}
    best: tuple[float, int] | None = None
    best_place = -1
    left = np.arange(len(bound))
    while left.size:
        # A handful of the most promising first; what they settle cuts most of the rest away.
        size = min(left.size, 256)
        head = left[np.argpartition(bound[left], size - 1)[:size]] if size < left.size else left
        limit = float(bound[head].max())
        head = left[bound[left] <= limit]
        order = np.lexsort((effort[head], bound[head]))
        for place in head[order]:
            if best is not None and (bound[place], int(effort[place])) >= best:
                break
            index = int(columns.klass[place])
            if index not in opened:
                opened[index] = open_class(frame, times, classes, index)
            cost = round(float(columns.miss[place] + classes.fixed[index]) + opened[index].cost, 6)
            if best is None or (cost, int(effort[place])) < best:
                best, best_place = (cost, int(effort[place])), int(place)
        assert best is not None
        left = left[(bound[left] > limit) & (bound[left] <= best[0])]
    return best_place, opened[int(columns.klass[best_place])]
