"""Shade against plane geometry and integration."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from shoots.places.core.lightday import sun_day
from shoots.places.core.shade import (
    Wall,
    hidden_altitude,
    illuminance_on_upright,
    is_shaded,
    sky_share,
    sunny_periods,
)
from shoots.places.core.sun import sun_position
from shoots.values.units import OutOfRange

LONDON = ("Europe/London", 51.5, 0.0)


def test_a_wall_as_high_above_the_point_as_it_is_away_hides_45_degrees() -> None:
    """Plane geometry."""
    wall = Wall(90.0, 2.0, 3.6)
    assert hidden_altitude(wall, 90.0, 1.6) == pytest.approx(45.0)
    assert hidden_altitude(wall, 150.0, 1.6) == pytest.approx(math.degrees(math.atan(0.5)))
    assert hidden_altitude(wall, 270.0, 1.6) == 0.0
    assert hidden_altitude(wall, 90.0, 4.0) == 0.0


def test_a_short_wall_ends() -> None:
    wall = Wall(0.0, 2.0, 10.0, left_m=1.0, right_m=4.0)
    assert hidden_altitude(wall, 330.0) == 0.0
    assert hidden_altitude(wall, 340.0) > 0.0
    assert hidden_altitude(wall, 60.0) > 0.0
    assert hidden_altitude(wall, 70.0) == 0.0


def test_the_shadow_edge_of_a_wall_reaches_the_spot_when_the_period_says_so() -> None:
    """A second way: at the end of the sunny period the shadow of the wall's top is just as long as the
    distance."""
    wall = Wall(270.0, 3.0, 2.5)
    (period,) = sunny_periods(date(2027, 6, 21), *LONDON, (wall,))
    sun = sun_position(period.end, 51.5, 0.0)
    reach = 2.5 / math.tan(math.radians(sun.apparent_altitude_deg))
    turn = math.radians(sun.azimuth_deg - 270.0)
    assert reach * math.cos(turn) == pytest.approx(3.0, rel=0.005)


def test_an_open_spot_has_sun_from_rise_to_set() -> None:
    day = sun_day(date(2027, 6, 21), *LONDON)
    (period,) = sunny_periods(date(2027, 6, 21), *LONDON, ())
    assert abs(period.start - day.sunrise.at) < timedelta(seconds=15)
    assert abs(period.end - day.sunset.at) < timedelta(seconds=15)


def test_a_yard_between_two_walls_has_sun_in_the_middle_of_the_day_only() -> None:
    walls = (Wall(90.0, 3.0, 4.0), Wall(270.0, 3.0, 4.0))
    (period,) = sunny_periods(date(2027, 6, 21), *LONDON, walls)
    day = sun_day(date(2027, 6, 21), *LONDON)
    assert day.sunrise.at < period.start < day.noon.at < period.end < day.sunset.at


def test_the_sky_left_by_a_long_wall_agrees_with_integration() -> None:
    """A second computation: integrate cos over the open part of the half space."""
    angle = math.atan(1.5)

    def visible(turn: float) -> float:
        # In the direction ``turn`` off the wall's normal it hides up to atan(tan α · cos φ).
        hidden = math.atan(math.tan(angle) * math.cos(turn)) if abs(turn) < math.pi / 2.0 else 0.0
        return (1.0 - math.sin(hidden) ** 2) / 2.0

    share = integrate.quad(visible, -math.pi, math.pi, points=[-math.pi / 2, math.pi / 2])[0] / math.pi
    assert sky_share(Wall(0.0, 2.0, 3.0)) == pytest.approx(share, rel=1e-6)


@given(st.floats(0, 360), st.floats(0, 90), st.floats(0.1, 50), st.floats(0, 20), st.floats(0, 3))
def test_a_higher_sun_or_point_is_never_more_in_the_shade(
    azimuth: float, altitude: float, distance: float, height: float, point: float
) -> None:
    walls = (Wall(120.0, distance, height),)
    if not is_shaded(walls, azimuth, altitude, point):
        assert not is_shaded(walls, azimuth, min(90.0, altitude + 1.0), point)
        assert not is_shaded(walls, azimuth, altitude, point + 0.5)


def test_the_sun_below_the_horizon_lights_nothing() -> None:
    assert is_shaded((), 180.0, -2.0)


def test_an_upright_face_under_an_even_sky_gets_half_of_it() -> None:
    """Liu and Jordan: isotropic sky."""
    assert illuminance_on_upright(0.0, 40.0, 0.0, 10000.0, 0.0) == pytest.approx(5000.0)
    turned_away = illuminance_on_upright(80000.0, 40.0, 180.0, 10000.0, 0.0)
    assert turned_away == pytest.approx(5000.0)
    towards = illuminance_on_upright(80000.0, 0.001, 0.0, 0.0, 0.0)
    assert towards == pytest.approx(80000.0, rel=1e-6)


def test_walls_and_suns_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: Wall(0.0, 0.0, 2.0),
        lambda: Wall(0.0, 1.0, -2.0),
        lambda: Wall(0.0, 1.0, 2.0, left_m=-1.0),
        lambda: is_shaded((), 0.0, 100.0),
        lambda: illuminance_on_upright(-1.0, 10.0, 0.0, 0.0),
        lambda: sky_share(Wall(0.0, 1.0, 2.0), -1.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
