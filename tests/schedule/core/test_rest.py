"""Rest and hours. Expected values: tests/data/working_time.json (WTR 1998 regs 10 to 12); the rules on
weeks and young workers' hours follow regs 5A and 11 as named beside each test."""

import itertools
import json
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.schedule.core.rest import (
    DayNotPossible,
    Rule,
    Span,
    WorkDay,
    elapsed_minutes,
    merged,
    working_time_findings,
)

CASES = json.loads((Path(__file__).parents[2] / "data" / "working_time.json").read_text(encoding="utf-8"))["cases"]
LONDON = ZoneInfo("Europe/London")
MONDAY = date(2026, 6, 1)


def at(day, clock):
    return datetime.combine(day, time.fromisoformat(clock), tzinfo=LONDON)


def work(day, start, end, *breaks):
    return WorkDay(at(day, start), at(day, end), tuple(Span(at(day, a), at(day, b)) for a, b in breaks))


def rules(days, age=None):
    return [str(finding.rule) for finding in working_time_findings(days, age=age)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_findings_are_those_of_the_regulations(case):
    days = [
        work(MONDAY + timedelta(days=index), day["start"], day["end"], *day["breaks"])
        for index, day in enumerate(case["days"])
    ]
    assert rules(days, case["age"]) == case["expect"]


@pytest.mark.parametrize("pause", [("08:00", "08:30"), ("16:30", "17:00")], ids=["at the start", "at the end"])
def test_a_break_at_either_end_of_the_day_is_no_rest_break(pause):
    # Reg. 12(1) with its guidance: taken during working time, not at the beginning or the end.
    assert rules([work(MONDAY, "08:00", "17:00", pause)]) == ["rest_break_20min_missing"]


def test_two_halves_of_a_break_without_a_gap_are_one_break():
    day = work(MONDAY, "08:00", "17:00", ("12:00", "12:10"), ("12:10", "12:20"))
    assert rules([day]) == []


def test_a_finding_says_what_was_wanted_and_what_was_found():
    (finding,) = working_time_findings([work(MONDAY, "08:00", "18:00", ("13:00", "13:15"))])
    assert (finding.rule, finding.day, finding.limit_minutes, finding.found_minutes) == (
        Rule.REST_BREAK,
        MONDAY,
        20,
        15,
    )


LUNCH = ("12:00", "13:00")


def days_in_a_row(count, first=MONDAY, start="09:00", end="17:00"):
    return [work(first + timedelta(days=index), start, end, LUNCH) for index in range(count)]


def test_six_days_and_a_day_off_are_rest_enough_for_an_adult():
    assert rules(days_in_a_row(6) + days_in_a_row(6, MONDAY + timedelta(days=7))) == []


def test_seven_days_in_a_row_lack_the_weekly_rest():
    # Reg. 11(1): 24 hours uninterrupted in each seven days.
    found = working_time_findings(days_in_a_row(7))
    assert [(str(finding.rule), finding.day) for finding in found] == [("weekly_rest_24h", MONDAY)]


def test_two_restless_weeks_are_two_findings():
    assert rules(days_in_a_row(14)) == ["weekly_rest_24h", "weekly_rest_24h"]


def test_the_order_in_which_days_are_given_does_not_matter():
    days = days_in_a_row(7)
    assert working_time_findings(reversed(days)) == working_time_findings(days)


def test_a_young_worker_has_two_days_off():
    # Reg. 11(3): 48 hours in each seven days; reg. 5A: 40 hours a week, so the days are kept short.
    short = [work(MONDAY + timedelta(days=index), "10:00", "14:00") for index in range(6)]
    assert rules(short, 17) == ["young_weekly_rest_48h"]
    assert rules(short[:5], 17) == []


def test_a_young_worker_stops_after_eight_hours_and_after_forty():
    # Reg. 5A: 8 h a day, 40 h a week; a break of half an hour or more is not worked.
    assert rules([work(MONDAY, "09:00", "17:31", ("12:00", "12:30"))], 17) == ["young_day_8h"]
    week = days_in_a_row(5, start="09:00", end="18:00")
    assert rules(week, 17) == []
    sunday = work(MONDAY + timedelta(days=6), "10:00", "12:00")
    assert "young_week_40h" in rules([*week, sunday], 17)


def test_a_young_worker_rests_twelve_hours_between_days():
    # Reg. 10(2).
    days = [
        work(MONDAY, "13:00", "20:30", ("16:00", "17:00")),
        work(MONDAY + timedelta(days=1), "08:00", "12:00"),
    ]
    assert rules(days, 17) == ["young_daily_rest_12h"]
    assert rules(days, 18) == []


def test_below_sixteen_the_rules_about_children_come_first():
    assert rules([work(MONDAY, "10:00", "12:00")], 15) == ["child_rules_apply"]


# IANA: in 2026 London's clocks go forward on 29 March and back on 25 October.
def test_the_night_that_the_clocks_go_forward_is_an_hour_short():
    days = [
        work(date(2026, 3, 28), "14:00", "21:30", ("16:00", "17:00")),
        work(date(2026, 3, 29), "08:30", "12:00"),
    ]
    (finding,) = working_time_findings(days)
    assert (str(finding.rule), finding.found_minutes) == ("daily_rest_11h", 600)


def test_the_night_that_the_clocks_go_back_is_an_hour_longer():
    days = [
        work(date(2026, 10, 24), "14:00", "22:00", ("16:00", "17:00")),
        work(date(2026, 10, 25), "08:00", "12:00"),
    ]
    assert rules(days) == []


MINUTES = st.integers(0, 7 * 24 * 60)
SPANS = st.lists(st.tuples(MINUTES, st.integers(1, 300)), max_size=8).map(
    lambda pairs: [
        Span(
            datetime(2026, 6, 1, tzinfo=UTC) + timedelta(minutes=start),
            datetime(2026, 6, 1, tzinfo=UTC) + timedelta(minutes=start + length),
        )
        for start, length in pairs
    ]
)


@given(SPANS)
def test_merged_stretches_hold_the_same_minutes_and_never_touch(spans):
    def minutes(stretches):
        first = datetime(2026, 6, 1, tzinfo=UTC)
        return {
            minute
            for stretch in stretches
            for minute in range(elapsed_minutes(first, stretch.start), elapsed_minutes(first, stretch.end))
        }

    together = merged(spans)
    assert minutes(together) == minutes(spans)
    assert all(before.end < after.start for before, after in itertools.pairwise(together))


@pytest.mark.parametrize(
    "make",
    [
        lambda: Span(at(MONDAY, "10:00"), at(MONDAY, "10:00")),
        lambda: Span(datetime(2026, 6, 1, 9), datetime(2026, 6, 1, 10)),
        lambda: work(MONDAY, "10:00", "09:00"),
        lambda: work(MONDAY, "10:00", "12:00", ("11:30", "12:30")),
        lambda: working_time_findings([work(MONDAY, "10:00", "14:00"), work(MONDAY, "13:00", "15:00")]),
    ],
    ids=["no length", "no zone", "backwards", "break outside", "days overlap"],
)
def test_a_day_that_cannot_be_meant_is_refused(make):
    with pytest.raises(DayNotPossible):
        make()


def test_no_days_have_no_findings():
    assert working_time_findings([], age=15) == ()
