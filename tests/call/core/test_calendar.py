"""Days of the calendar and named days by country (shoots.call.core.calendar).

Sources: dates of Easter from the tables of the US Naval Observatory as printed in dateutil's own tests (western and
orthodox); bank holidays of the United Kingdom 2026 as published on gov.uk; from memory where a row says so.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.call.core.calendar import (
    date_order,
    month_span,
    named_day,
    next_ordinal,
    nth_weekday,
    on_or_after,
    week_of,
)
from shoots.call.core.lexicons import package_lexicons

DAYS = st.dates(date(2000, 1, 1), date(2100, 1, 1))


@given(DAYS, st.integers(1, 31), st.integers(1, 12))
def test_a_day_and_month_is_the_next_such_day(start: date, day: int, month: int) -> None:
    found = on_or_after(day, month, start)
    if found is None:
        assert (month, day) in {(2, 30), (2, 31), (4, 31), (6, 31), (9, 31), (11, 31)}
    else:
        assert (found.month, found.day) == (month, day) and found >= start
        if (month, day) != (2, 29):
            assert (found - start).days <= 366


@given(DAYS, st.integers(1, 31))
def test_a_bare_day_is_the_next_one_with_that_number(start: date, day: int) -> None:
    found = next_ordinal(day, start)
    assert found is not None and found >= start and found.day == day and (found - start).days <= 62
    assert all((start + timedelta(n)).day != day for n in range((found - start).days))


@given(DAYS)
def test_a_week_runs_from_monday_to_sunday(day: date) -> None:
    first, last = week_of(day)
    assert first.weekday() == 0 and (last - first).days == 6 and first <= day <= last


@given(st.integers(2000, 2100), st.integers(1, 12), st.integers(0, 6))
def test_the_last_weekday_of_a_month_is_in_its_last_seven_days(year: int, month: int, weekday: int) -> None:
    last = nth_weekday(year, month, weekday, -1)
    assert last.weekday() == weekday and last.month == month and (last + timedelta(7)).month != month
    assert nth_weekday(year, month, weekday, 1).day <= 7


def test_the_parts_of_a_month_cover_it() -> None:
    parts = [month_span(2026, 2, part) for part in ("early", "mid", "late")]
    assert [first.day for first, _ in parts] == [1, 11, 21] and parts[-1][1] == date(2026, 2, 28)
    assert month_span(2026, 6, "last week") == (date(2026, 6, 24), date(2026, 6, 30))
    assert month_span(2026, 6, "week 2") == (date(2026, 6, 8), date(2026, 6, 14))


@pytest.mark.parametrize(
    ("code", "country", "start", "day"),
    [
        ("easter", "GB", date(2026, 1, 10), date(2026, 4, 5)),
        ("easter", "GB", date(2026, 5, 14), date(2027, 3, 28)),
        ("easter", "GR", date(2026, 1, 10), date(2026, 4, 12)),
        ("easter_monday", "GB", date(2026, 1, 10), date(2026, 4, 6)),
        ("good_friday", "GB", date(2026, 1, 10), date(2026, 4, 3)),
        ("may_day", "GB", date(2026, 1, 10), date(2026, 5, 4)),
        ("late_may_bank_holiday", "GB", date(2026, 1, 10), date(2026, 5, 25)),
        ("august_bank_holiday", "GB", date(2026, 1, 10), date(2026, 8, 31)),
        ("boxing_day", "GB", date(2026, 1, 10), date(2026, 12, 26)),
        ("mothers_day", "GB", date(2026, 1, 10), date(2026, 3, 15)),
        ("mothers_day", "US", date(2026, 1, 10), date(2026, 5, 10)),
        ("thanksgiving", "US", date(2026, 5, 14), date(2026, 11, 26)),
        ("thanksgiving", "CA", date(2026, 5, 14), date(2026, 10, 12)),
        ("black_friday", "GB", date(2026, 5, 14), date(2026, 11, 27)),
        ("labor_day", "US", date(2026, 5, 14), date(2026, 9, 7)),
        ("memorial_day", "US", date(2026, 5, 14), date(2026, 5, 25)),
    ],
)
def test_a_named_day_is_the_next_one_in_the_studios_country(code: str, country: str, start: date, day: date) -> None:
    assert named_day(package_lexicons().tables["holiday"][code].data, country, start) == day


@pytest.mark.parametrize(
    ("country", "order"), [("GB", "DMY"), ("US", "MDY"), ("DE", "DMY"), ("SE", "YMD"), ("AU", "DMY"), ("??", "DMY")]
)
def test_the_order_of_figures_is_the_countrys(country: str, order: str) -> None:
    assert date_order(country) == order
