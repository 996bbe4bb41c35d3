"""Ages, checked against the calendar arithmetic of dateutil, which counts birthdays independently."""

from __future__ import annotations

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from shoots.people import core

DATES = st.dates(min_value=date(1920, 1, 1), max_value=date(2060, 12, 31))


@pytest.mark.parametrize(
    ("born", "day", "age"),
    [
        # Family Law Reform Act 1969 s.9(1): an age is attained at the commencement of the anniversary.
        (date(2008, 6, 9), date(2026, 6, 8), 17),
        (date(2008, 6, 9), date(2026, 6, 9), 18),
        (date(2026, 6, 9), date(2026, 6, 9), 0),
        # Born on 29 February: 1 March in a common year (common practice, no source).
        (date(2008, 2, 29), date(2026, 2, 28), 17),
        (date(2008, 2, 29), date(2026, 3, 1), 18),
        (date(2008, 2, 29), date(2028, 2, 29), 20),
    ],
)
def test_an_age_is_reached_on_the_birthday(born: date, day: date, age: int) -> None:
    assert core.age_on(born, day) == age


@given(DATES, DATES)
def test_ages_agree_with_another_library_but_for_leap_day_births(born: date, day: date) -> None:
    if day < born or (born.month, born.day) == (2, 29):
        return  # dateutil lets a leap-day child age on 28 February; the law's wording here is read as 1 March
    assert core.age_on(born, day) == relativedelta(day, born).years


@given(DATES, DATES)
def test_a_minor_is_one_until_the_day_named_and_not_on_it(born: date, day: date) -> None:
    if day < born:
        return
    minor = core.minor_on(born, day)
    assert (minor is not None) == (day < core.birthday(born, 18))
    if minor is not None:
        assert core.minor_on(born, minor.of_age_date) is None


def test_without_a_birth_date_nothing_follows() -> None:
    assert core.minor_on(None, date(2026, 6, 9)) is None


def test_a_day_before_the_birth_is_refused() -> None:
    with pytest.raises(core.BornLater):
        core.age_on(date(2026, 6, 10), date(2026, 6, 9))


@pytest.mark.parametrize(("name", "letters"), [("Isla van der Moor", "IM"), ("Nia", "N"), ("  ", ""), ("éa öb", "ÉÖ")])
def test_initials_are_of_the_first_and_the_last_word(name: str, letters: str) -> None:
    assert core.initials(name) == letters
