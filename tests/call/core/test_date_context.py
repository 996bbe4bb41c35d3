"""What the words around a day make of it (shoots.call.core.date_context). Days by calendar arithmetic."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.drafts import DateKind, DateValue, DraftKind
from tests.call.core.notes import values


def only(text: str, called: date = date(2026, 5, 14), country: str = "GB") -> DateValue:
    (value,) = [v for v in values(text, DraftKind.DATE, called=called, country=country) if v.kind is DateKind.DELIVERY]
    return value  # type: ignore[no-any-return]


@pytest.mark.parametrize(
    ("text", "by"),
    [
        ("files by the day before Anzac Day", date(2027, 4, 24)),
        ("files by the Tuesday before Easter", date(2027, 3, 23)),
        ("files three days ahead of 9 June", date(2026, 6, 6)),
        ("files 2 working days before 15 June", date(2026, 6, 11)),
        ("files a week after 9 June", date(2026, 6, 16)),
        ("files the Friday after 9 June", date(2026, 6, 12)),
    ],
)
def test_days_counted_from_a_day_behind_them(text: str, by: date) -> None:
    assert only(text).by == by


def test_a_weekday_behind_a_week_is_the_one_in_it() -> None:
    (value,) = values("w/c 22 June, prefers the Tues", DraftKind.DATE)
    assert value.first == value.last == date(2026, 6, 23)


def test_a_week_that_commences_has_seven_days() -> None:
    (value,) = values("shoot w/c 22 June", DraftKind.DATE)
    assert (value.first, value.last) == (date(2026, 6, 22), date(2026, 6, 28))
