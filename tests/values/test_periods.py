"""Months, last days and reminders.

Expected values: tests/data/licence_period.json (own definition with worked cases); dateutil's
relativedelta as an independent reference for adding months.
"""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from shoots.values.periods import (
    Period,
    PeriodNotPossible,
    add_months,
    end_of_month,
    licence_last_day,
    months_period,
    reminder_dates,
)

CASES = json.loads((Path(__file__).parents[1] / "data" / "licence_period.json").read_text(encoding="utf-8"))
DAYS = st.dates(min_value=date(1900, 1, 1), max_value=date(2200, 12, 31))
MONTHS = st.integers(min_value=1, max_value=600)


@pytest.mark.parametrize("case", CASES["cases"], ids=lambda case: f"{case['start']}+{case['months']}")
def test_a_licence_ends_on_the_day_before_the_same_day(case):
    start, last = date.fromisoformat(case["start"]), date.fromisoformat(case["last_day"])
    assert licence_last_day(start, case["months"]) == last
    assert months_period(start, case["months"]).last_day == last


def test_reminders_count_back_from_the_last_day():
    last = date.fromisoformat(CASES["cases"][0]["last_day"])
    found = reminder_dates(last, CASES["reminder_days_before"])
    assert [day.isoformat() for day in found] == CASES["example_first_case_reminders"]


@given(DAYS, st.integers(min_value=-600, max_value=600))
def test_adding_months_agrees_with_an_independent_calendar(day, months):
    assert add_months(day, months) == day + relativedelta(months=months)


@given(DAYS)
def test_the_month_ends_the_day_before_the_next_begins(day):
    assert end_of_month(day) == day + relativedelta(day=1, months=+1) - timedelta(days=1)


@given(DAYS, MONTHS)
def test_a_period_holds_its_last_day_and_not_the_day_after(start, months):
    period = months_period(start, months)
    assert start in period and period.last_day in period and period.until not in period
    assert start - timedelta(days=1) not in period
    assert period.days == (period.last_day - start).days + 1


@pytest.mark.parametrize("months", [0, -1])
def test_a_licence_of_no_months_is_refused(months):
    with pytest.raises(PeriodNotPossible):
        licence_last_day(date(2026, 1, 1), months)
    with pytest.raises(PeriodNotPossible):
        months_period(date(2026, 1, 1), months)


def test_a_month_beyond_the_calendar_is_refused():
    with pytest.raises(PeriodNotPossible):
        add_months(date(9999, 12, 1), 1)


@pytest.mark.parametrize("until", [date(2026, 1, 1), date(2025, 12, 31)])
def test_a_period_that_ends_before_it_starts_is_refused(until):
    with pytest.raises(PeriodNotPossible):
        Period(date(2026, 1, 1), until)


def test_a_period_without_end_holds_every_later_day():
    forever = Period(date(2026, 1, 1))
    assert date(9999, 12, 31) in forever and date(2025, 12, 31) not in forever
    assert forever.last_day is None and forever.days is None


def test_touching_periods_share_no_day():
    january = Period(date(2026, 1, 1), date(2026, 2, 1))
    february = Period(date(2026, 2, 1), date(2026, 3, 1))
    assert january.overlap(february) is None and february.overlap(january) is None


@given(DAYS, MONTHS, DAYS, MONTHS, DAYS)
def test_a_day_is_shared_exactly_when_it_is_in_both(start, months, other_start, other_months, day):
    first, second = months_period(start, months), months_period(other_start, other_months)
    shared = first.overlap(second)
    assert (shared is not None and day in shared) == (day in first and day in second)
    assert shared == second.overlap(first)


def test_a_period_without_end_is_cut_by_one_that_ends():
    year = Period(date(2026, 1, 1), date(2027, 1, 1))
    assert Period(date(2026, 7, 1)).overlap(year) == Period(date(2026, 7, 1), date(2027, 1, 1))
    assert Period(date(2026, 7, 1)).overlap(Period(date(2026, 8, 1))) == Period(date(2026, 8, 1))
