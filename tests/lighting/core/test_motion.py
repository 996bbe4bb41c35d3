"""Blur and throws against worked cases and textbook kinematics."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import motion
from shoots.values.units import OutOfRange


def test_a_hand_in_a_short_flash() -> None:
    """2.17 and 2.18: derived."""
    blur = motion.motion_blur(4.0, 1 / 1500)
    assert blur == pytest.approx(8.0 / 3.0)
    assert motion.blur_pixels(blur, 0.025, 36.0, 6000.0) == pytest.approx(11.11, abs=0.01)


def test_full_power_of_a_cut_off_head_blurs_a_hand() -> None:
    """Common practice, no source: a hand at 4 to 6 m/s and t0.1 of 4 ms blurs 16 to 24 mm; a free ball 50
    ms off its apex about 2 mm."""
    assert motion.motion_blur(4.0, 0.004) == pytest.approx(16.0)
    assert motion.motion_blur(6.0, 0.004) == pytest.approx(24.0)
    assert motion.motion_blur(motion.speed_near_apex(0.05), 0.004) == pytest.approx(2.0, abs=0.05)


def test_a_walker_across_the_view() -> None:
    """9.6 and 9.7: derived."""
    blur = motion.motion_blur(1.5, 1 / 800)
    assert motion.blur_pixels(blur, 0.02, 36.0, 6000.0) == pytest.approx(6.25, abs=0.01)
    assert motion.longest_time(2.0, 1.5, 0.02, 36.0, 6000.0) == pytest.approx(1 / 2500)


def test_the_still_moment_of_a_jump() -> None:
    """2.19 and 2.20: physics texts."""
    assert 1000.0 * motion.time_near_apex(0.010) == pytest.approx(90.32, abs=0.05)
    assert motion.speed_near_apex(0.05) == pytest.approx(0.4903, rel=0.001)
    assert 1000.0 * motion.drop_from_apex(0.05) == pytest.approx(12.258, rel=0.001)


def test_a_leap_of_one_metre_twenty_nine() -> None:
    """2.21: worked school problem with g = 9.8."""
    assert motion.take_off_speed(1.29, 9.8) == pytest.approx(5.03, abs=0.01)
    assert motion.hang_time(1.29, 9.8) == pytest.approx(1.03, abs=0.01)


@given(st.floats(0.01, 100.0), st.floats(1e-5, 0.1), st.floats(1.0, 100.0))
def test_at_the_edge_of_the_window_the_blur_is_the_limit(limit: float, effective: float, pull: float) -> None:
    edge = motion.blur_window(limit, effective, pull) / 2.0
    if edge < 1e3:
        assert motion.motion_blur(motion.speed_near_apex(edge, pull), effective) == pytest.approx(limit)


def test_a_pushed_ball_leaves_a_shorter_window_than_a_free_one() -> None:
    """A ball under a hand turns with more than g."""
    assert motion.blur_window(2.0, 0.004, 30.0) < motion.blur_window(2.0, 0.004)


@given(st.floats(0.0, 50.0), st.floats(0.0, 1.0))
def test_energy_is_kept_or_lost_in_a_bounce(drop: float, restitution: float) -> None:
    """A second way: speed just before times e is the take-off speed of the next rise."""
    rise = motion.bounce_height(drop, restitution)
    assert motion.take_off_speed(rise) == pytest.approx(restitution * motion.take_off_speed(drop), abs=1e-9)


def test_something_at_rest_may_be_exposed_for_ever() -> None:
    assert motion.longest_time(1.0, 0.0, 0.02, 36.0, 6000.0) == math.inf


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: motion.motion_blur(-1.0, 0.01),
        lambda: motion.blur_pixels(1.0, 0.0, 36.0, 6000.0),
        lambda: motion.longest_time(0.0, 1.0, 0.02, 36.0, 6000.0),
        lambda: motion.speed_near_apex(float("nan")),
        lambda: motion.drop_from_apex(1.0, 0.0),
        lambda: motion.time_near_apex(-1.0),
        lambda: motion.blur_window(2.0, 0.0),
        lambda: motion.take_off_speed(-1.0),
        lambda: motion.hang_time(1.0, 0.0),
        lambda: motion.bounce_height(1.0, 1.5),
    ],
)
def test_movement_that_cannot_be_meant_is_named(wrong: object) -> None:
    with pytest.raises(OutOfRange):
        wrong()  # type: ignore[operator]
