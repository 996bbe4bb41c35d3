"""Ages on a day, held against dateutil's relativedelta, which nobody here wrote."""

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from shoots.shoot.core.ages import Youth, age_on, youth_on

DAYS = st.dates(date(1950, 1, 1), date(2060, 12, 31))


@given(DAYS, DAYS)
def test_full_years_agree_with_dateutil(birth: date, day: date) -> None:
    # On 28 February dateutil lets leap-day people have their birthday; here it is 1 March, so those are left out.
    if birth > day or (birth.month, birth.day) == (2, 29):
        return
    assert age_on(birth, day) == relativedelta(day, birth).years


def test_a_leap_day_birthday_comes_on_the_first_of_march_in_common_years() -> None:
    # Common practice in England, no source.
    assert age_on(date(2008, 2, 29), date(2026, 2, 28)) == 17
    assert age_on(date(2008, 2, 29), date(2026, 3, 1)) == 18


@pytest.mark.parametrize(
    ("birth", "youth"),
    [
        (date(2008, 6, 9), None),
        (date(2008, 6, 10), Youth.UNDER_18),
        (date(2009, 6, 9), Youth.UNDER_18),
        (date(2009, 6, 10), Youth.SCHOOL_AGE),
        (date(2020, 1, 1), Youth.SCHOOL_AGE),
        (None, None),
    ],
)
def test_eighteen_is_of_age_and_sixteen_may_still_be_at_school(birth: date | None, youth: Youth | None) -> None:
    # Majority at 18: Family Law Reform Act 1969 s. 1. School age at 16 depends on the month, so 16 asks.
    assert youth_on(birth, date(2026, 6, 9)) == youth
