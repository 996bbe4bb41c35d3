"""The search misses no passage, however shallow the sun's way."""

from datetime import date

import numpy as np
import pytest

from shoots.places.core.course import Course


@pytest.mark.parametrize("latitude", [-66.0, 0.0, 23.4, 51.5, 60.15, 67.5, 85.0])
def test_every_altitude_between_the_turns_is_met_once_on_the_way_up_and_once_down(latitude: float) -> None:
    course = Course(date(2027, 10, 3), "UTC", latitude, 10.0, 0.0)
    heights = course.track(np.array([course.start, course.noon, course.end])).altitude_deg
    for share in (0.001, 0.3, 0.999):
        level = float(heights[[0, 2]].max() + share * (heights[1] - heights[[0, 2]].max()))
        met = course.passages(level)
        assert list(met.directions) == [1.0, -1.0]
        assert np.abs(course.track(met.moments).altitude_deg - level).max() < 0.005


def test_the_turns_are_the_highest_and_lowest_points_of_a_dense_sampling() -> None:
    course = Course(date(2027, 4, 1), "Europe/London", 51.5, -0.1, 0.0)
    dense = course.track(np.linspace(course.start, course.end, 20001))
    assert dense.unix_s[np.argmax(dense.altitude_deg)] == pytest.approx(course.noon, abs=5.0)
    assert course.end - course.start == pytest.approx(86400.0, abs=60.0)
