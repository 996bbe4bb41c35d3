"""Children's hours. Expected values: tests/data/child_hours.json (SI 2014/3309; the row for nine and over
was seen in a council's guidance, the others are from memory, as the file says)."""

import json
from datetime import date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from shoots.schedule.core.children import (
    MOST_DAYS,
    OVERNIGHT_MINUTES,
    AgeNotPossible,
    ChildDay,
    ChildRule,
    band_of,
    child_findings,
)
from shoots.schedule.core.rest import DayNotPossible, Span

DATA = json.loads((Path(__file__).parents[2] / "data" / "child_hours.json").read_text(encoding="utf-8"))
LONDON = ZoneInfo("Europe/London")
MONDAY = date(2026, 7, 6)
AGES = {"0-4": (0, 4), "5-8": (5, 8), "9+": (9, 17)}


def at(clock, day=MONDAY):
    return datetime.combine(day, time.fromisoformat(clock), tzinfo=LONDON)


def stay(arrive, depart, performing=(), breaks=(), day=MONDAY):
    return ChildDay(
        at(arrive, day),
        at(depart, day),
        tuple(Span(at(a, day), at(b, day)) for a, b in performing),
        tuple(Span(at(a, day), at(b, day)) for a, b in breaks),
    )


def rules(*days, age):
    return [str(finding.rule) for finding in child_findings(days, age=age)]


@pytest.mark.parametrize("case", DATA["cases"], ids=lambda case: case["id"])
def test_findings_are_those_of_the_regulations(case):
    day = stay(case["arrive"], case["depart"], case["performing"], case["breaks"])
    assert rules(day, age=case["age"]) == case["expect"]


@pytest.mark.parametrize("name", DATA["bands"])
def test_limits_by_age_are_those_of_the_table(name):
    limits = DATA["bands"][name]
    for age in AGES[name]:
        band = band_of(age)
        assert (band.earliest.strftime("%H:%M"), band.latest.strftime("%H:%M")) == (
            limits["earliest"],
            limits["latest"],
        )
        assert (band.present_minutes, band.perform_minutes, band.continuous_minutes) == (
            limits["present_max_min"],
            limits["perform_max_min"],
            limits["continuous_max_min"],
        )


def test_nights_and_days_in_a_row_are_those_of_the_table():
    assert (DATA["overnight_hours"] * 60, DATA["max_consecutive_days"]) == (OVERNIGHT_MINUTES, MOST_DAYS)


# The wording of "breaks" in child_hours.json, age by age.
@pytest.mark.parametrize(
    ("age", "depart", "breaks", "expected"),
    [
        (4, "13:00", [], []),
        (4, "13:01", [], ["meal_break_missing"]),
        (4, "13:01", [("11:00", "11:44")], ["meal_break_missing"]),
        (4, "13:01", [("11:00", "11:45")], []),
        (6, "13:01", [("11:00", "11:45")], ["break_missing"]),
        (6, "13:01", [("10:00", "10:14"), ("11:00", "11:45")], ["break_missing"]),
        (6, "13:01", [("10:00", "10:15"), ("11:00", "11:45")], []),
        (6, "13:01", [("10:00", "10:15")], ["meal_break_missing"]),
        (6, "13:01", [], ["meal_break_missing", "break_missing"]),
        (10, "16:59", [("10:00", "10:15"), ("11:00", "11:45")], []),
        (10, "17:00", [("10:00", "10:15"), ("11:00", "11:45")], ["break_missing"]),
        (10, "17:00", [("10:00", "10:15"), ("11:00", "11:45"), ("15:00", "15:15")], []),
    ],
)
def test_breaks_follow_age_and_length_of_the_stay(age, depart, breaks, expected):
    assert rules(stay("09:00", depart, breaks=breaks), age=age) == expected


def test_leaving_too_late_is_told_also_after_midnight():
    assert rules(stay("20:00", "22:01"), age=4) == ["too_late"]
    assert rules(stay("20:00", "22:01"), age=5) == []
    night = ChildDay(at("21:00"), at("00:30", MONDAY + timedelta(days=1)))
    (finding,) = child_findings([night], age=12)
    assert (finding.rule, finding.limit, finding.found) == (ChildRule.TOO_LATE, 23 * 60, 24 * 60 + 30)


def test_turns_without_a_gap_are_one_turn():
    day = stay("09:00", "11:00", [("09:30", "09:50"), ("09:50", "10:10")])
    assert rules(day, age=4) == ["continuous_too_long"]


def test_twelve_hours_lie_between_two_days():
    tuesday = MONDAY + timedelta(days=1)
    evening = stay("17:00", "20:00")
    assert rules(evening, stay("07:59", "10:00", day=tuesday), age=9) == ["overnight_rest_12h"]
    assert rules(evening, stay("08:00", "10:00", day=tuesday), age=9) == []


def test_the_night_that_the_clocks_go_forward_is_an_hour_short():
    saturday, sunday = date(2026, 3, 28), date(2026, 3, 29)
    days = [stay("17:00", "20:00", day=saturday), stay("08:30", "10:00", day=sunday)]
    (finding,) = child_findings(days, age=9)
    assert (finding.rule, finding.found) == (ChildRule.OVERNIGHT_REST, 11 * 60 + 30)


def test_the_seventh_day_in_a_row_is_one_too_many():
    days = [stay("09:00", "12:00", day=MONDAY + timedelta(days=index)) for index in range(7)]
    assert rules(*days, age=9) == ["too_many_days"]
    assert rules(*days[:6], age=9) == []
    with_a_day_off = [*days[:6], stay("09:00", "12:00", day=MONDAY + timedelta(days=7))]
    assert rules(*with_a_day_off, age=9) == []


def test_two_visits_on_one_day_are_one_day_in_a_row():
    days = [stay("09:00", "11:00", day=MONDAY + timedelta(days=index)) for index in range(6)]
    again = stay("12:00", "13:00", day=MONDAY + timedelta(days=2))
    assert "too_many_days" not in rules(*days, again, age=9)
    seventh = stay("09:00", "11:00", day=MONDAY + timedelta(days=6))
    assert "too_many_days" in rules(*days, again, seventh, age=9)


@pytest.mark.parametrize("age", [-1, 18, 40])
def test_an_age_that_is_no_childs_is_refused(age):
    with pytest.raises(AgeNotPossible):
        child_findings([], age=age)


@pytest.mark.parametrize(
    "make",
    [
        lambda: stay("12:00", "11:00"),
        lambda: stay("09:00", "11:00", [("10:30", "11:30")]),
        lambda: stay("09:00", "11:00", [("09:30", "10:00")], [("09:45", "10:15")]),
        lambda: child_findings([stay("09:00", "11:00"), stay("10:00", "12:00")], age=9),
    ],
    ids=["backwards", "work outside", "break in work", "days overlap"],
)
def test_a_day_that_cannot_be_meant_is_refused(make):
    with pytest.raises(DayNotPossible):
        make()
