"""Days that are named (shoots.call.core.date_days). The call is on Thursday 14 May 2026; weekdays from the calendar."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.date_days import bare, neighbours, with_month
from shoots.call.core.date_words import Scene
from tests.call.core.notes import CALLED, sentence


def scene(text: str, country: str = "GB") -> Scene:
    return Scene(sentence(text), {}, CALLED, country)


@pytest.mark.parametrize(
    ("text", "country", "day"),
    [
        ("8 June", "GB", date(2026, 6, 8)),
        ("June 8th", "US", date(2026, 6, 8)),
        ("8th of June", "GB", date(2026, 6, 8)),
        ("the eighth of June", "GB", date(2026, 6, 8)),
        ("8/6", "GB", date(2026, 6, 8)),
        ("8/6", "US", date(2026, 8, 6)),
        ("8.6.", "DE", date(2026, 6, 8)),
        ("08/06/2027", "GB", date(2027, 6, 8)),
        ("06/08/2027", "US", date(2027, 6, 8)),
        ("2026-06-08", "GB", date(2026, 6, 8)),
        ("12 Feb", "GB", date(2027, 2, 12)),
        ("12 Feb '28", "GB", date(2028, 2, 12)),
        ("first Monday in June", "GB", date(2026, 6, 1)),
        ("last Friday of July", "GB", date(2026, 7, 31)),
    ],
)
def test_a_day_with_its_month(text: str, country: str, day: date) -> None:
    assert {atom.first for atom in with_month(scene(text, country))} == {day}


@pytest.mark.parametrize("text", ["1/2 a day", "31 Feb", "4:5", "24/7", "£8.60", "2.5k", "13/13", "open 24/7"])
def test_what_is_no_day(text: str) -> None:
    assert list(with_month(scene(text))) == []


def test_figures_that_two_countries_read_differently_are_doubtful_where_the_month_comes_first() -> None:
    american = next(iter(with_month(scene("6/8", "US"))))
    assert american.first == date(2026, 6, 8) and american.ambiguous and date(2026, 8, 6) in american.readings
    assert not next(iter(with_month(scene("6/18", "US")))).ambiguous


def test_a_weekday_that_does_not_fit_its_date_is_doubtful() -> None:
    assert next(iter(with_month(scene("Tuesday 8 June")))).ambiguous
    assert not next(iter(with_month(scene("Monday 8 June")))).ambiguous


def test_a_bare_day_takes_the_month_named_before_it_and_is_doubtful_without() -> None:
    named = scene("8 June or the 17th")
    named.add_all(with_month(named))
    assert [(atom.first, atom.ambiguous) for atom in bare(named) if atom.day == 17] == [(date(2026, 6, 17), False)]
    alone = next(iter(bare(scene("the 17th"))))
    assert alone.ambiguous and alone.readings == (date(2026, 5, 17), date(2026, 6, 17))


def test_a_weekday_settles_which_month_a_bare_day_is_in() -> None:
    assert [(a.first, a.ambiguous) for a in bare(scene("wed 17th"))] == [(date(2026, 6, 17), False)]


def test_neighbours_share_the_month() -> None:
    named = scene("June 8, 9 or 10")
    first = next(iter(with_month(named)))
    assert [atom.first for atom in neighbours(named, first)] == [date(2026, 6, 9), date(2026, 6, 10)]
