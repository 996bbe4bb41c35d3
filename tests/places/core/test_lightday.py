"""Light periods against a JPL ephemeris and printed almanacs, on the days where clocks and poles make
trouble."""

import csv
import itertools
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skyfield import almanac
from skyfield.api import Loader, wgs84
from skyfield_data import get_skyfield_data_path

from shoots.places.core.course import UnknownZone
from shoots.places.core.lightday import Absence, DayPart, LowSun, sun_between, sun_day, sun_passages
from shoots.places.core.sun import Altitude
from shoots.values.units import OutOfRange

# Earth orientation of the last years moves the sun by less than a thousandth of a degree.
pytestmark = pytest.mark.filterwarnings("ignore:The file finals2000A.all has expired:RuntimeWarning")

DATA = Path(__file__).parents[2] / "data" / "light"
with (DATA / "sun_events.csv").open() as file:
    EVENTS = list(csv.DictReader(file))
NAMES = ("sunrise", "sunset", "civil_dawn", "civil_dusk", "nautical_dawn", "nautical_dusk")


def _local(text: str, at: datetime) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=at.tzinfo)


@pytest.mark.parametrize("case", EVENTS, ids=lambda c: f"{c['id']} skyfield DE421, {c['place']} {c['date']}")
def test_events_agree_with_the_ephemeris_table(case: dict[str, str]) -> None:
    day = sun_day(
        date.fromisoformat(case["date"]),
        case["zone"],
        float(case["latitude_deg"]),
        float(case["longitude_deg"]),
    )
    for name in NAMES:
        event = getattr(day, name)
        if not case[name]:
            assert not event.happens, name
            assert event.absence is Absence.STAYS_ABOVE
            continue
        grazing = case["id"] == "5.27" and name.startswith("civil")
        allowed = timedelta(seconds=180 if grazing else 60)
        assert abs(event.at - _local(case[name], event.at)) <= allowed, name
    morning, evening = day.low_sun
    assert (morning.part, evening.part) == (DayPart.MORNING, DayPart.EVENING)
    for moment, name in (
        (morning.start, "low_am_start"),
        (morning.end, "low_am_end"),
        (evening.start, "low_pm_start"),
        (evening.end, "low_pm_end"),
        (day.noon.at, "noon"),
    ):
        assert abs(moment - _local(case[name], moment)) <= timedelta(seconds=60), name
    assert day.noon.altitude_deg == pytest.approx(float(case["noon_altitude_deg"]), abs=0.02)
    assert day.midnight.altitude_deg == pytest.approx(float(case["midnight_altitude_deg"]), abs=0.02)
    # Blue light lies between civil twilight's outer end and low sun, on both sides (definition).
    assert [part.start for part in day.blue][:1] == [day.civil_dawn.at]
    assert [part.end for part in day.blue][-1:] == [day.civil_dusk.at]


@pytest.mark.parametrize(
    ("name", "place", "day", "zone", "expected", "minutes"),
    [
        pytest.param("sunrise", (62.392, 17.290), date(2001, 1, 1), "Europe/Stockholm", "09:18", 1,
                     id="5.40 Schlyter, Swedish tables 2001"),
        pytest.param("sunset", (62.392, 17.290), date(2001, 1, 1), "Europe/Stockholm", "14:31", 1,
                     id="5.40 Schlyter, Swedish tables 2001"),
        pytest.param("noon", (62.392, 17.290), date(2001, 1, 1), "Europe/Stockholm", "11:54", 1,
                     id="5.40 Schlyter, Swedish tables 2001"),
        pytest.param("sunrise", (60.1546, -1.1486), date(2027, 6, 15), "UTC", "02:38", 2,
                     id="5.43 weather observer's page, Lerwick"),
        pytest.param("sunset", (60.1546, -1.1486), date(2027, 6, 15), "UTC", "21:32", 2,
                     id="5.43 weather observer's page, Lerwick"),
        pytest.param("sunrise", (39.742476, -105.1786), date(2003, 10, 17), "Etc/GMT+7", "06:12:43", 0.1,
                     id="5.2 SPA"),
        pytest.param("noon", (39.742476, -105.1786), date(2003, 10, 17), "Etc/GMT+7", "11:46:05", 0.1,
                     id="5.2 SPA"),
    ],
)  # fmt: skip
def test_printed_rise_noon_and_set_are_met(
    name: str, place: tuple[float, float], day: date, zone: str, expected: str, minutes: float
) -> None:
    at = getattr(sun_day(day, zone, *place), name).at
    assert abs(at - _local(f"{day}T{expected}", at)) <= timedelta(minutes=minutes, seconds=30 * (minutes >= 1))


def test_the_sunset_printed_for_a_date_in_universal_time_is_that_of_the_evening_before() -> None:
    """5.2: SPA prints 17:20:19 for 17 October 2003 in universal time, which at 105° W is the evening of the
    16th.

    The sunset of the local 17th is 88 s earlier; skyfield says so too.
    """
    place = (39.742476, -105.1786)
    before, after = (sun_day(date(2003, 10, day), "Etc/GMT+7", *place).sunset.at for day in (16, 17))
    assert abs(before - _local("2003-10-16T17:20:19", before)) <= timedelta(seconds=5)
    load = Loader(get_skyfield_data_path(), expire=False)
    scale, planets = load.timescale(builtin=True), load("de421.bsp")
    noon = datetime(2003, 10, 17, 19, tzinfo=UTC)
    found, _ = almanac.find_settings(
        planets["earth"] + wgs84.latlon(*place),
        planets["sun"],
        *scale.from_datetimes([noon, noon + timedelta(hours=12)]),
        -5 / 6,
    )
    assert abs(after - found[0].utc_datetime()) <= timedelta(seconds=5)


@pytest.mark.parametrize(
    ("day", "length"),
    [
        pytest.param(date(2024, 1, 1), timedelta(hours=7, minutes=55), id="5.42 printed day lengths, London 2024"),
        pytest.param(date(2024, 2, 1), timedelta(hours=9, minutes=9), id="5.42 printed day lengths, London 2024"),
    ],
)
def test_day_length_is_the_printed_one(day: date, length: timedelta) -> None:
    ours = sun_day(day, "Europe/London", 51.5074, -0.1278).day_length
    assert abs(ours - length) <= timedelta(minutes=1)


@pytest.mark.parametrize("latitude", [50.1, 55.0, 60.2])
@pytest.mark.parametrize("month", [1, 3, 6, 10, 12])
def test_rise_set_and_twilight_agree_with_skyfields_own_search(latitude: float, month: int) -> None:
    """Cross-check with skyfield's almanac, a search and an ephemeris that the program does not use."""
    load = Loader(get_skyfield_data_path(), expire=False)
    scale, planets = load.timescale(builtin=True), load("de421.bsp")
    longitude = -3.0
    day = sun_day(date(2028, month, 19), "Europe/London", latitude, longitude)
    site = planets["earth"] + wgs84.latlon(latitude, longitude)
    noon = day.noon.at.astimezone(UTC)
    start, end = scale.from_datetimes([noon - timedelta(hours=11, minutes=58), noon + timedelta(hours=11, minutes=58)])
    for level, rise, set_ in ((-5 / 6, "sunrise", "sunset"), (-6.0, "civil_dawn", "civil_dusk")):
        for name, search in ((rise, almanac.find_risings), (set_, almanac.find_settings)):
            times, real = search(site, planets["sun"], start, end, level)
            event = getattr(day, name)
            found = [time.utc_datetime() for time, crossed in zip(times, real, strict=True) if crossed]
            assert event.happens == bool(found)
            if found:
                assert abs(event.at - found[0]) < timedelta(seconds=5)


@pytest.mark.parametrize(
    ("zone", "place"),
    [
        ("Arctic/Longyearbyen", (78.22, 15.65)),
        ("Europe/Oslo", (69.65, 18.96)),
        ("America/Guayaquil", (-0.18, -78.47)),
        ("Australia/Sydney", (-33.87, 151.21)),
        ("Pacific/Kiritimati", (1.87, -157.40)),
        ("Antarctica/McMurdo", (-77.85, 166.67)),
        ("Asia/Shanghai", (43.80, 87.60)),
    ],
)
@pytest.mark.parametrize("day", [date(2027, 3, 28), date(2027, 6, 21), date(2027, 10, 31), date(2028, 2, 29)])
def test_any_altitude_is_passed_when_skyfield_finds_it(zone: str, place: tuple[float, float], day: date) -> None:
    """Poles, equator, date line and a zone two hours off: skyfield's almanac on DE421, what grazes left aside."""
    load = Loader(get_skyfield_data_path(), expire=False)
    scale, planets = load.timescale(builtin=True), load("de421.bsp")
    site = planets["earth"] + wgs84.latlon(*place)
    around = sun_day(day, zone, *place)
    assert around.noon.at.date() == day
    noon = around.noon.at.astimezone(UTC)
    for level in (-18.0, -8.0, -4.0, -5 / 6, 6.0, 20.0):
        found = sun_passages(day, zone, *place, level)
        half = timedelta(hours=11, minutes=56)
        for event, search, start in (
            (found.rising, almanac.find_risings, noon - half),
            (found.setting, almanac.find_settings, noon),
        ):
            times, real = search(site, planets["sun"], *scale.from_datetimes([start, start + half]), level)
            crossed = [time.utc_datetime() for time, is_real in zip(times, real, strict=True) if is_real]
            lowest = around.midnight.altitude_deg
            if min(abs(level - lowest), abs(level - around.noon.altitude_deg)) < 0.5:
                continue
            assert event.happens == bool(crossed), level
            if crossed:
                assert abs(event.at - crossed[0]) < timedelta(seconds=5), level
            else:
                assert (event.absence is Absence.STAYS_ABOVE) == (lowest > level), level


def test_other_limits_of_golden_and_blue_light() -> None:
    """5.20: London, 28 March 2027: civil dawn 06:12:06, golden from 06:25:11 to 07:29:36, and nautical dawn: the
    same moments by altitudes of one's own; common practice has 0 to 6 and -8 to -4 as well."""
    place = (date(2027, 3, 28), "Europe/London", 51.5074, -0.1278)
    blue, golden = sun_between(*place, -6.0, -4.0)[0], sun_between(*place, -4.0, 6.0)[0]
    for moment, told in ((blue.start, "06:12:06"), (blue.end, "06:25:11"), (golden.end, "07:29:36")):
        assert abs(moment - _local(f"2027-03-28T{told}", moment)) <= timedelta(seconds=60)
    wide = sun_between(*place, -8.0, -4.0)
    assert wide[0].start < blue.start < wide[0].end == blue.end
    assert sun_between(*place, 60.0, 90.0) == ()
    assert sun_passages(*place, 60.0).rising.absence is Absence.STAYS_BELOW
    for low, high in ((6.0, -4.0), (-91.0, 0.0), (0.0, float("nan"))):
        with pytest.raises(OutOfRange):
            sun_between(*place, low, high)


def test_refraction_lifts_the_sun_over_an_altitude_earlier() -> None:
    """Refraction of 0.14° at +6° is about a minute of a golden edge (check table, traps)."""
    place = (date(2027, 3, 28), "Europe/London", 51.5074, -0.1278, 6.0)
    seen, plain = sun_passages(*place, Altitude.APPARENT), sun_passages(*place)
    assert timedelta(seconds=40) < plain.rising.at - seen.rising.at < timedelta(seconds=75)
    assert timedelta(seconds=40) < seen.setting.at - plain.setting.at < timedelta(seconds=75)


def test_dusk_after_midnight_carries_the_next_date() -> None:
    dusk = sun_day(date(2027, 6, 21), "Europe/London", 60.1546, -1.1486).civil_dusk
    assert dusk.at is not None
    assert dusk.at.date() == date(2027, 6, 22)


def test_a_midsummer_sun_that_never_sets_is_a_result() -> None:
    """Common knowledge: at 70° N the sun stays up in June and down in December."""
    summer = sun_day(date(2027, 6, 21), "Europe/Oslo", 70.0, 25.0)
    assert (summer.sunrise.absence, summer.sunset.absence) == (Absence.STAYS_ABOVE, Absence.STAYS_ABOVE)
    assert summer.day_length == pytest.approx(timedelta(hours=24), abs=timedelta(minutes=1))
    assert summer.daylight[0].cut
    winter = sun_day(date(2027, 12, 21), "Europe/Oslo", 70.0, 25.0)
    assert (winter.sunrise.absence, winter.sunset.absence) == (Absence.STAYS_BELOW, Absence.STAYS_BELOW)
    assert winter.daylight == ()
    assert winter.civil_dawn.happens


def test_a_shallow_winter_sun_leaves_low_light_with_a_gap_at_noon() -> None:
    """5.28: skyfield DE421: above +6° for only 81 minutes."""
    morning, evening = sun_day(date(2027, 12, 21), "Europe/London", 60.1546, -1.1486).low_sun
    assert evening.start - morning.end == pytest.approx(timedelta(minutes=81), abs=timedelta(minutes=1))


def test_a_sun_that_stays_low_all_day_is_one_stretch_through_midday() -> None:
    (period,) = sun_day(date(2027, 12, 21), "Europe/Oslo", 62.5, 10.0).low_sun
    assert period.part is DayPart.MIDDAY


def test_a_change_of_clocks_does_not_lengthen_a_period() -> None:
    """28 March 2027, clocks forward at 01:00 UTC: a night sun at 78° N is up throughout."""
    before = sun_day(date(2027, 3, 27), "Europe/London", 51.5, 0.0).low_sun[0].duration
    during = sun_day(date(2027, 3, 28), "Europe/London", 51.5, 0.0).low_sun[0].duration
    assert abs(during - before) < timedelta(seconds=30)


def test_low_sun_can_be_measured_as_the_eye_sees_it() -> None:
    """Refraction raises +6° by 0.14°, which ends low morning light about a minute earlier."""
    place = (51.5074, -0.1278)
    geometric = sun_day(date(2027, 3, 28), "Europe/London", *place).low_sun[0].end
    apparent = sun_day(date(2027, 3, 28), "Europe/London", *place, altitude=Altitude.APPARENT).low_sun[0].end
    assert timedelta(seconds=30) < geometric - apparent < timedelta(seconds=90)


def test_a_studio_may_set_its_own_limits_of_low_sun() -> None:
    day = sun_day(date(2027, 9, 23), "Europe/London", 53.4808, -2.2426, low_sun=LowSun(-0.5, 10.0))
    usual = sun_day(date(2027, 9, 23), "Europe/London", 53.4808, -2.2426)
    assert day.low_sun[0].start > usual.low_sun[0].start
    assert day.low_sun[0].end > usual.low_sun[0].end
    with pytest.raises(OutOfRange):
        LowSun(6.0, -4.0)


@settings(deadline=None, max_examples=40)
@given(
    st.dates(date(1950, 1, 1), date(2090, 12, 31)),
    st.floats(-90, 90),
    st.floats(-180, 180),
    st.sampled_from(["UTC", "Europe/London", "Pacific/Kiritimati", "Pacific/Pago_Pago", "Asia/Kathmandu"]),
)
def test_every_place_and_date_has_an_ordered_day(day: date, latitude: float, longitude: float, zone: str) -> None:
    found = sun_day(day, zone, latitude, longitude)
    assert found.noon.at < found.midnight.at
    for early, late in (
        (found.civil_dawn, found.sunrise),
        (found.sunrise, found.sunset),
        (found.sunset, found.civil_dusk),
        (found.civil_dusk, found.nautical_dusk),
    ):
        if abs(latitude) < 89.0 and early.at and late.at:
            assert early.at <= late.at
    for event in (found.sunrise, found.sunset, found.astronomical_dawn, found.astronomical_dusk):
        assert (event.at is None) == (event.absence is not None) == (event.azimuth_deg is None)
    assert timedelta() <= found.day_length <= timedelta(hours=24, minutes=2)
    # No part of the day may be counted twice.
    periods = sorted(found.daylight + found.civil_twilight, key=lambda period: period.start)
    assert all(one.end <= two.start for one, two in itertools.pairwise(periods))


def test_an_unknown_zone_is_named() -> None:
    with pytest.raises(UnknownZone, match="Atlantis"):
        sun_day(date(2027, 1, 1), "Europe/Atlantis", 0.0, 0.0)


def test_azimuths_of_events_are_plain_numbers() -> None:
    rise = sun_day(date(2027, 3, 20), "Europe/London", 51.5, 0.0).sunrise
    assert type(rise.azimuth_deg) is float
    assert np.isfinite(rise.azimuth_deg)
    assert rise.azimuth_deg == pytest.approx(90.0, abs=2.0)
