"""Positions of the sun against the algorithm's published example, a JPL ephemeris and plane geometry."""

import csv
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skyfield.api import Loader, wgs84
from skyfield_data import get_skyfield_data_path

from shoots.places.core.sun import (
    NaiveTime,
    Side,
    shadow_length,
    side_of_camera,
    sun_on_sphere,
    sun_position,
    sun_track,
    unix_seconds,
)
from shoots.values.units import OutOfRange

# Earth orientation of the last years moves the sun by less than a thousandth of a degree.
pytestmark = pytest.mark.filterwarnings("ignore:The file finals2000A.all has expired:RuntimeWarning")

DATA = Path(__file__).parents[2] / "data" / "light"
with (DATA / "sun_positions.csv").open() as file:
    POSITIONS = list(csv.DictReader(file))


def test_the_published_worked_example_of_the_algorithm_is_met() -> None:
    """5.1: NREL/TP-560-34302, worked example."""
    at = datetime(2003, 10, 17, 12, 30, 30, tzinfo=timezone(timedelta(hours=-7)))
    sun = sun_position(at, 39.742476, -105.1786, 1830.14, 820.0, 11.0, delta_t_s=67.0)
    assert 90.0 - sun.apparent_altitude_deg == pytest.approx(50.11162, abs=0.0005)
    assert sun.azimuth_deg == pytest.approx(194.34024, abs=0.0005)


@pytest.mark.parametrize("case", POSITIONS, ids=lambda case: f"{case['id']} skyfield DE421, {case['place']}")
def test_positions_agree_with_the_ephemeris_table(case: dict[str, str]) -> None:
    sun = sun_position(datetime.fromisoformat(case["at"]), float(case["latitude_deg"]), float(case["longitude_deg"]))
    assert sun.altitude_deg == pytest.approx(float(case["altitude_deg"]), abs=0.02)
    assert sun.apparent_altitude_deg == pytest.approx(float(case["apparent_altitude_deg"]), abs=0.02)
    assert sun.azimuth_deg == pytest.approx(float(case["azimuth_deg"]), abs=0.02)
    shadow = shadow_length(1.8, sun.apparent_altitude_deg)
    assert shadow == pytest.approx(float(case["shadow_of_1m80_m"]), rel=0.01)


def test_positions_agree_with_skyfield_all_over_the_world() -> None:
    """Cross-check with skyfield and DE421, a library that the program does not use."""
    load = Loader(get_skyfield_data_path(), expire=False)
    scale, planets = load.timescale(builtin=True), load("de421.bsp")
    for latitude, longitude in ((51.5, -0.13), (-33.9, 18.4), (0.0, 100.0), (78.2, 15.6), (-54.8, -68.3)):
        moments = [datetime(2027, month, 7, 2 * month - 1, 13, tzinfo=UTC) for month in range(1, 13)]
        site = planets["earth"] + wgs84.latlon(latitude, longitude)
        seen = site.at(scale.from_datetimes(moments)).observe(planets["sun"]).apparent().altaz()
        ours = sun_track(np.array([unix_seconds(at) for at in moments]), latitude, longitude)
        turn = (ours.azimuth_deg - seen[1].degrees + 180.0) % 360.0 - 180.0
        assert np.abs(ours.altitude_deg - seen[0].degrees).max() < 0.003
        assert np.abs(turn * np.cos(np.radians(seen[0].degrees))).max() < 0.003


def test_the_highest_altitude_that_an_almanac_prints_includes_refraction() -> None:
    """5.41: HM Nautical Almanac Office, Taunton page, December 2021."""
    sun = sun_position(datetime(2021, 12, 21, 12, 10, tzinfo=UTC), 51.019, -3.100)
    assert sun.apparent_altitude_deg == pytest.approx(15.6, abs=0.05)
    assert sun.altitude_deg == pytest.approx(15.54, abs=0.05)


def test_the_equinox_is_when_the_sun_crosses_the_equator() -> None:
    """5.44: HM Nautical Almanac Office, 22 September 2021, 19:21 UT."""
    before = datetime(2021, 9, 22, 19, 16, tzinfo=UTC)
    # At the pole the altitude is the declination, but for the 8.8 seconds of arc of parallax.
    altitude = [
        sun_position(before + timedelta(minutes=minute), 90.0, 0.0).altitude_deg + 8.794 / 3600.0 for minute in (0, 10)
    ]
    share = altitude[0] / (altitude[0] - altitude[1])
    assert share * 10.0 == pytest.approx(5.0, abs=1.0)


def test_declination_right_ascension_and_equation_of_time_of_the_textbook() -> None:
    """5.3: 1992-10-13 00:00 TD (59 s before it in UT), Meeus examples 25.a and 28."""
    found = sun_on_sphere(datetime(1992, 10, 12, 23, 59, 1, tzinfo=UTC), delta_t_s=59.0)
    assert found.declination_deg == pytest.approx(-7.785, abs=0.005)
    assert found.right_ascension_deg == pytest.approx(198.381, abs=0.005)
    assert found.equation_of_time_min * 60.0 == pytest.approx(13 * 60 + 42.7, abs=2.0)


@pytest.mark.parametrize(
    ("at", "declination"),
    [
        pytest.param(datetime(2001, 1, 1, 10, 54, tzinfo=UTC), -23.0, id="5.40 Swedish tables"),
        pytest.param(datetime(2021, 9, 22, 19, 21, tzinfo=UTC), 0.0, id="5.44 equinox"),
    ],
)
def test_declinations_that_almanacs_print(at: datetime, declination: float) -> None:
    assert sun_on_sphere(at).declination_deg == pytest.approx(declination, abs=0.05)


def test_the_sun_on_the_sphere_agrees_with_skyfield_through_the_years() -> None:
    """Apparent right ascension and declination of date; the equation of time by sidereal time, to 2 s."""
    load = Loader(get_skyfield_data_path(), expire=False)
    scale, ephemeris = load.timescale(builtin=True), load("de421.bsp")
    for day in range(0, 36525, 997):
        at = datetime(1951, 1, 1, 5, tzinfo=UTC) + timedelta(days=day)
        # As universal time, by which mean solar time is defined: UTC strays from it before 1972 and after 2026.
        moment = scale.ut1(at.year, at.month, at.day, at.hour)
        ascension, declination, _ = ephemeris["earth"].at(moment).observe(ephemeris["sun"]).apparent().radec("date")
        found = sun_on_sphere(at)
        assert found.declination_deg == pytest.approx(declination.degrees, abs=0.001)
        assert (found.right_ascension_deg - ascension.hours * 15.0 + 180.0) % 360.0 == pytest.approx(180.0, abs=0.001)
        sundial = (moment.gast - ascension.hours + 12.0) % 24.0
        ahead = (sundial - at.hour + 12.0) % 24.0 - 12.0
        assert found.equation_of_time_min == pytest.approx(60.0 * ahead, abs=2.5 / 60.0)


@pytest.mark.parametrize("delta_t_s", [-1e300, 2e5, float("nan")])
def test_a_clock_that_cannot_be_meant_is_refused(delta_t_s: float) -> None:
    for ask in (lambda at: sun_position(at, 51.5, 0.0, delta_t_s=delta_t_s), lambda at: sun_on_sphere(at, delta_t_s)):
        with pytest.raises(OutOfRange):
            ask(datetime(2027, 6, 21, tzinfo=UTC))


def test_shadow_of_a_person_at_a_low_sun() -> None:
    """5.59: plane geometry."""
    assert shadow_length(1.80, 6.201) == pytest.approx(16.57, abs=0.02)


def test_a_sun_below_the_horizon_draws_no_shadow() -> None:
    assert shadow_length(1.8, 0.0) is None
    assert sun_position(datetime(2027, 1, 1, tzinfo=UTC), 51.5, 0.0).shadow_per_metre is None


@pytest.mark.parametrize(
    ("azimuth", "altitude", "side", "turn"),
    [
        (90.0, 20.0, Side.BEFORE, 10.0),
        (350.0, 20.0, Side.BESIDE, -90.0),
        (260.0, 20.0, Side.BEHIND, 180.0),
        (90.0, -1.0, Side.DOWN, 10.0),
    ],
)
def test_a_camera_looking_east_has_the_sun(azimuth: float, altitude: float, side: Side, turn: float) -> None:
    seen = side_of_camera(80.0, azimuth, altitude)
    assert (seen.side, seen.turn_deg) == (side, turn)


@given(st.floats(-90, 90), st.floats(-180, 180), st.datetimes(datetime(1900, 1, 1), datetime(2100, 1, 1)))
def test_any_place_and_moment_has_a_sun(latitude: float, longitude: float, at: datetime) -> None:
    sun = sun_position(at.replace(tzinfo=UTC), latitude, longitude)
    assert -90.0 <= sun.altitude_deg <= sun.apparent_altitude_deg <= 90.7
    assert 0.0 <= sun.azimuth_deg <= 360.0


def test_a_moment_without_a_zone_and_a_place_off_the_globe_are_refused() -> None:
    with pytest.raises(NaiveTime):
        sun_position(datetime(2027, 1, 1), 0.0, 0.0)
    with pytest.raises(OutOfRange, match="latitude_deg"):
        sun_position(datetime(2027, 1, 1, tzinfo=UTC), 91.0, 0.0)
    with pytest.raises(OutOfRange, match="longitude_deg"):
        sun_position(datetime(2027, 1, 1, tzinfo=UTC), 0.0, 181.0)
