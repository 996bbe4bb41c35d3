"""Days that belong together, and those that don't (shoots.call.core.date_groups). Days by calendar arithmetic."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.drafts import DateKind, DateValue, DraftKind
from tests.call.core.notes import values


def days(text: str) -> list[tuple[str, date | None, date | None, tuple[date, ...]]]:
    found: list[DateValue] = values(text, DraftKind.DATE)
    return [(v.kind.value, v.first, v.last, v.any_of) for v in found]


@pytest.mark.parametrize(
    "text",
    [
        "shoot 16-18 June",
        "shoot 16th to the 18th of June",
        "16/6 thru 18/6",
        "16.06.2026 bis 18.06.2026",
        "16, 17 + 18 June",
    ],
)
def test_a_stretch(text: str) -> None:
    assert days(text) == [("shoot", date(2026, 6, 16), date(2026, 6, 18), ())]


@pytest.mark.parametrize(
    "text",
    ["shoot 16 or 19 June", "pencil 16 June, second option the 19th", "pencil 16 June, with the 19th as second choice"],
)
def test_a_choice(text: str) -> None:
    assert days(text) == [("shoot", None, None, (date(2026, 6, 16), date(2026, 6, 19)))]


def test_days_that_are_all_shot_but_not_in_a_row_stay_apart() -> None:
    found = values("we shoot Tuesday 16 and Friday 19 June from 9am", DraftKind.DATE)
    assert [(v.first, v.hours_from) for v in found] == [(date(2026, 6, 16), "09:00"), (date(2026, 6, 19), "09:00")]


def test_the_day_for_bad_weather_is_no_choice() -> None:
    assert [kind for kind, *_ in days("Tues 16 June, or the Wednesday if it's lashing")] == ["shoot", "cover"]
    assert [kind for kind, *_ in days("Tues 16 June, or Wed 17 if the boiler's off")] == ["shoot", "cover"]
    assert days("Tues 16 June, or Wed 17 if that suits better")[0][3] == (date(2026, 6, 16), date(2026, 6, 17))


def test_two_days_in_a_row_in_two_places_are_one_stretch() -> None:
    assert days("A 12 June / B 13 June") == [("shoot", date(2026, 6, 12), date(2026, 6, 13), ())]


def test_nothing_is_joined_across_what_happens() -> None:
    assert [kind for kind, *_ in days("shoot 16 June, 19 June delivery")] == [
        DateKind.SHOOT.value,
        DateKind.DELIVERY.value,
    ]
