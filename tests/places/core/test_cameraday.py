"""The sun goes round a camera."""

import itertools
from datetime import date, timedelta

from shoots.places.core.cameraday import camera_day
from shoots.places.core.lightday import sun_day
from shoots.places.core.sun import Side


def test_the_sun_goes_round_a_camera_that_looks_north_without_ever_standing_before_it_in_winter() -> None:
    sides = camera_day(date(2027, 12, 21), "Europe/London", 51.5, 0.0, view_bearing_deg=0.0)
    assert {period.side for period in sides} == {Side.BEHIND, Side.BESIDE}
    assert sides[0].to_the_right
    assert not sides[-1].to_the_right


def test_sides_of_a_camera_fill_the_daylight_without_a_gap() -> None:
    day = sun_day(date(2027, 5, 8), "Europe/London", 50.1188, -5.5371)
    sides = camera_day(date(2027, 5, 8), "Europe/London", 50.1188, -5.5371, view_bearing_deg=200.0)
    assert abs(sides[0].start - day.sunrise.at) < timedelta(seconds=15)
    assert abs(sides[-1].end - day.sunset.at) < timedelta(seconds=15)
    assert all(one.end == two.start for one, two in itertools.pairwise(sides))


def test_a_camera_in_the_polar_night_has_no_sun_at_all() -> None:
    assert camera_day(date(2027, 12, 21), "Europe/Oslo", 75.0, 20.0, view_bearing_deg=0.0) == ()
