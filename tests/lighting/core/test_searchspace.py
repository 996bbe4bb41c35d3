"""Bounds are bounds: no choice of powers in a class beats the number that stands for it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.lighting.core.search import open_class
from shoots.lighting.core.searchspace import (
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
from shoots.lighting.core.wishes import Problem, Target, Wishes
from tests.lighting.core.setups import FILL, OUTSIDE, dull, small


@settings(max_examples=25, deadline=None)
@given(st.floats(8, 16), st.floats(-3, 2), st.floats(-1, 5), st.floats(-1, 3), st.booleans(), st.floats(0.0, 1.0))
def test_no_choice_of_powers_beats_the_bound_of_its_class(
    ev: float, ambient: float, ratio: float, rims: float, fast: bool, tolerance: float
) -> None:
    setup = small(replace(OUTSIDE, lights=(*OUTSIDE.lights, FILL), ambient=dull(ev)))
    wishes = Wishes(
        ambient=Target(ambient, tolerance),
        key_over_fill=Target(ratio, tolerance),
        rims=Target(rims, tolerance),
        sky_may_blow=False,
    )
    problem = Problem(setup, wishes, allow_high_speed_sync=fast)
    times, frame = usable_times(problem), make_frame(problem)
    classes = make_classes(frame, times, np.array([5.0, 6.0, 7.0]))
    bounds = class_bounds(frame, times, classes)
    for index in range(len(bounds)):
        reached = float(classes.fixed[index]) + open_class(frame, times, classes, index).cost
        assert bounds[index] <= reached + 1e-9


def test_only_times_that_sync_are_used_unless_high_speed_sync_is_allowed() -> None:
    slow = usable_times(Problem(OUTSIDE, Wishes()))
    fast = usable_times(Problem(OUTSIDE, Wishes(), allow_high_speed_sync=True))
    assert slow.marks[-1].label == "1/200"
    assert fast.marks[-1].label == "1/8000"
    assert not slow.high_speed.any()
    assert fast.share.min() == pytest.approx(1 / 8192 / (1 / 8192 + OUTSIDE.camera.curtain_s))


def test_missing_is_counted_beyond_the_tolerance_only() -> None:
    found = np.array([-1.0, 0.2, 0.5, 2.0])
    assert miss(found, Target(0.0, 0.5)) == pytest.approx([0.5, 0.0, 0.0, 1.5])
    assert off_target(found, Target(0.0, 0.5)) == pytest.approx([1.0, 0.2, 0.5, 2.0])
    assert not miss(found, None).any()


def test_darkness_has_a_number() -> None:
    assert log2_or_dark(np.array([0.0, 4.0])) == pytest.approx([-30.0, 2.0])
    assert ratio_stops(np.array([1.0]), np.array([0.0])) == pytest.approx([30.0])


def test_less_power_of_a_cut_off_head_blurs_less() -> None:
    moving = replace(OUTSIDE, subject=replace(OUTSIDE.subject, speed_m_s=5.0))
    frame = make_frame(Problem(moving, Wishes(blur_mm=4.0)))
    over = flash_blur(frame, 1 / 125, False)
    assert over[0] == 0.0
    assert over[-1] == pytest.approx(np.log2(5.0 * 1000.0 / 250.0 / 4.0))
    assert not flash_blur(frame, 1 / 1000, True).any()
