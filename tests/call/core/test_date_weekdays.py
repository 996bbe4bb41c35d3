"""Weekdays counted from the call, Thursday 14 May 2026, or from a day before (shoots.call.core.date_weekdays)."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import values


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("shoot tomorrow week", date(2026, 5, 22)),
        ("shoot a week on Friday", date(2026, 5, 22)),
        ("shoot wensday week", date(2026, 5, 27)),
        ("shoot Tues of next week", date(2026, 5, 19)),
    ],
)
def test_a_weekday_of_the_shoot(text: str, day: date) -> None:
    (value,) = values(text, DraftKind.DATE)
    assert (value.first, value.last) == (day, day)


@pytest.mark.parametrize(
    ("text", "by"),
    [
        ("shoot 9 June, files the Friday after", date(2026, 6, 12)),
        ("shoot 9 June, files by the Friday of the week after", date(2026, 6, 19)),
        ("shoot 9 June\nfiles the Monday after the shoot", date(2026, 6, 15)),
        ("shoot 9 June, finals the Friday of that week", date(2026, 6, 12)),
        ("shoot 9 June, files by the Friday", date(2026, 6, 12)),
    ],
)
def test_a_weekday_counted_from_the_shoot(text: str, by: date) -> None:
    assert [v.by for v in values(text, DraftKind.DATE)][1:] == [by]


@pytest.mark.parametrize("text", ["they're open Tuesday to Saturday", "Mon-Thu only", "Easter Monday is no good"])
def test_when_somebody_works_is_no_day(text: str) -> None:
    assert [v.kind.value for v in values(text, DraftKind.DATE) if v.kind.value == "shoot"] == []


def test_the_second_of_two_weekdays_is_the_one_behind_the_first() -> None:
    (value,) = values("shoot next Weds or Thurs", DraftKind.DATE)
    assert value.any_of == (date(2026, 5, 20), date(2026, 5, 21))
