"""The light of a day as pages draw it, against skyfield's events (tests/data/light) and the clock's odd days."""

from __future__ import annotations

import csv
from datetime import date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from shoots.places import queries
from shoots.places.core.sun import Side
from shoots.places.models import Place, Spot
from shoots.places.queries import LightKind

CASES = list(csv.DictReader((Path(__file__).parents[1] / "data/light/sun_events.csv").open()))
QUARRY = Place(latitude=53.34, longitude=-1.63, time_zone="Europe/London", elevation_m=310)


def light(place: Place, day: date) -> queries.LightOfDay:
    found = queries.light_of(place, day)
    assert found is not None
    return found


def percent(text: str) -> float:
    return float(text.removesuffix("%"))


def near(shown: datetime | None, expected: str, zone: str) -> bool:
    """To the minute: half a minute of rounding and the minute that the reference allows."""
    at = datetime.fromisoformat(expected).replace(tzinfo=ZoneInfo(zone))
    return shown is not None and abs(shown - at) <= timedelta(seconds=90)


@pytest.mark.parametrize("case", CASES, ids=[f"{case['id']} {case['place']} {case['date']}" for case in CASES])
def test_what_the_page_says_is_what_the_reference_ephemeris_says(case: dict[str, str]) -> None:
    zone = case["zone"]
    place = Place(latitude=float(case["latitude_deg"]), longitude=float(case["longitude_deg"]), time_zone=zone)
    found = light(place, date.fromisoformat(case["date"]))
    for shown, name in ((found.sunrise_at, "sunrise"), (found.sunset_at, "sunset")):
        assert near(shown, case[name], zone) if case[name] else shown is None, name
    assert near(found.highest_at, case["noon"], zone)
    for name, moment in (("low_am_start", "start"), ("low_am_end", "end")):
        morning = [band for band in found.low_sun if case[name] and band.start.hour < 13]
        if morning and case[name][:10] == case["date"]:
            assert near(getattr(morning[0], moment), case[name], zone), name


@pytest.mark.parametrize("day", [date(2026, 3, 29), date(2026, 10, 25), date(2026, 6, 9)])
def test_the_drawing_fills_the_day_even_when_the_clocks_change(day: date) -> None:
    found = light(QUARRY, day)
    assert percent(found.bands[0].x) == 0.0
    for one, following in zip(found.bands[:-1], found.bands[1:], strict=True):
        assert percent(one.x) + percent(one.width) == pytest.approx(percent(following.x), abs=0.01)
        assert one.end == following.start and one.kind is not following.kind
    assert percent(found.bands[-1].x) + percent(found.bands[-1].width) == pytest.approx(100.0, abs=0.01)
    hours = {date(2026, 3, 29): 23.0, date(2026, 10, 25): 25.0}.get(day, 24.0)
    lost = {date(2026, 3, 29): 1.0, date(2026, 10, 25): -1.0}.get(day, 0.0)
    noon = next(tick for tick in found.ticks if tick.label == "12")
    assert percent(noon.x) == pytest.approx(100.0 * (12.0 - lost) / hours, abs=0.01)


def test_sunrise_is_drawn_where_low_sun_is() -> None:
    found = light(QUARRY, date(2026, 6, 9))
    rise = percent(found.rises[0].x)
    low = found.low_sun[0]
    assert percent(low.x) < rise < percent(low.x) + percent(low.width)
    assert found.rises[0].label == f"{found.sunrise_at:%H:%M}"


def test_no_sunset_and_no_sunrise_are_results() -> None:
    north = Place(latitude=69.65, longitude=18.96, time_zone="Europe/Oslo")  # Tromsø: polar night, midnight sun
    summer, winter = light(north, date(2026, 6, 21)), light(north, date(2026, 12, 21))
    assert (summer.stays_up, summer.stays_down, summer.sunset_at) == (True, False, None)
    assert (winter.stays_up, winter.stays_down, winter.sunrise_at) == (False, True, None)
    assert LightKind.NIGHT not in {band.kind for band in summer.bands}
    assert LightKind.DAY not in {band.kind for band in winter.bands}
    assert winter.sun_hours == (0, 0)


def test_a_place_without_a_position_has_no_light() -> None:
    assert queries.light_of(Place(), date(2026, 6, 9)) is None
    assert queries.light_of(None, date(2026, 6, 9)) is None
    assert queries.light_of(QUARRY, None) is None


def test_moments_are_marked_at_their_time_and_labels_at_the_edge_stay_inside() -> None:
    found = queries.light_of(
        QUARRY, date(2026, 6, 9), moments=[("Call", time(6, 0)), ("Wrap", time(23, 30)), ("Early", time(0, 30))]
    )
    assert found is not None
    assert [(mark.label, percent(mark.x), mark.anchor) for mark in found.marks] == [
        ("Call", 25.0, "middle"),
        ("Wrap", pytest.approx(97.917), "end"),
        ("Early", pytest.approx(2.083), "start"),
    ]
    assert light(QUARRY, date(2026, 6, 9)).marks == ()


def test_a_camera_looking_south_has_the_midday_sun_ahead_and_one_looking_north_behind() -> None:
    for bearing, side in ((180.0, Side.BEFORE), (0.0, Side.BEHIND)):
        periods = queries.spot_light(Spot(bearing_deg=bearing), QUARRY, date(2026, 3, 20)).periods
        noon = next(period for period in periods if period.start.hour <= 12 < period.end.hour)
        assert noon.side is side
        assert all(period.width.endswith("%") for period in periods)


def test_a_spot_without_a_bearing_has_no_sides() -> None:
    assert queries.spot_light(Spot(), QUARRY, date(2026, 3, 20)).periods == ()
    assert queries.spot_light(Spot(bearing_deg=20.0), Place(), date(2026, 3, 20)).periods == ()


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"hazards": "Unfenced edge, 18 m"}, {"HEIGHT", "WIND"}),
        ({"hazards": "Deep cold reservoir\nTide turns at 15:00"}, {"WATER", "WIND"}),
        ({"power": "13 A from the yard"}, {"MAINS", "WIND"}),
        ({"power": "13 A", "indoors": True}, set()),
        ({"note": "Drone shots asked for"}, {"DRONE", "WIND"}),
        ({"hazards": "Forklift traffic", "indoors": True}, {"TRAFFIC"}),
        ({"hazards": "knowledge of notice", "indoors": True}, set()),
    ],
)
def test_care_follows_from_what_stands_on_the_page(fields: dict[str, object], named: set[str]) -> None:
    assert set(queries.cautions_of(Place(**fields))) == named
