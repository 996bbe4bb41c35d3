"""Due dates. Expected values: tests/data/due_dates.json (own definitions with worked cases)."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.invoices.core.due import PaymentTerm, TermKind, TermNotPossible, due_date, is_long_term

DATA = json.loads((Path(__file__).parents[2] / "data" / "due_dates.json").read_text(encoding="utf-8"))
DAYS = st.dates(min_value=date(2000, 1, 1), max_value=date(2100, 12, 31))


def term_of(parts):
    return PaymentTerm(TermKind(parts[0]), *parts[1:])


def test_every_way_of_counting_in_the_cases_is_known():
    assert {str(kind) for kind in TermKind} == set(DATA["definitions"])


@pytest.mark.parametrize("case", DATA["cases"], ids=lambda case: f"{case['invoice_date']}-{case['term']}")
def test_an_invoice_is_due_when_its_term_says(case):
    found = due_date(date.fromisoformat(case["invoice_date"]), term_of(case["term"]))
    assert found.isoformat() == case["due"]


TERMS = st.one_of(
    st.builds(
        PaymentTerm,
        st.sampled_from([TermKind.NET, TermKind.EOM_PLUS_DAYS, TermKind.DAYS_THEN_EOM]),
        st.integers(0, 365),
    ),
    st.builds(PaymentTerm, st.just(TermKind.DAY_OF_FOLLOWING_MONTH), st.integers(1, 31)),
    st.builds(PaymentTerm, st.just(TermKind.MONTHS), st.integers(1, 12)),
    st.just(PaymentTerm(TermKind.END_OF_FOLLOWING_MONTH)),
)


@given(DAYS, TERMS)
def test_no_invoice_is_due_before_it_is_written(day, term):
    assert due_date(day, term) >= day


@given(DAYS, DAYS, TERMS)
def test_a_later_invoice_is_never_due_earlier(first, second, term):
    earlier, later = sorted((first, second))
    assert due_date(earlier, term) <= due_date(later, term)


@given(DAYS, st.integers(0, 365))
def test_days_then_month_end_is_always_the_last_of_a_month(day, days):
    due = due_date(day, PaymentTerm(TermKind.DAYS_THEN_EOM, days))
    assert (due + timedelta(days=1)).day == 1


@given(DAYS, st.integers(1, 31))
def test_a_day_of_the_following_month_is_that_day_or_the_last_before_it(day, number):
    due = due_date(day, PaymentTerm(TermKind.DAY_OF_FOLLOWING_MONTH, number))
    assert (due.year * 12 + due.month) - (day.year * 12 + day.month) == 1
    assert due.day == number or (due.day < number and (due + timedelta(days=1)).day == 1)


@pytest.mark.parametrize(
    ("kind", "number"),
    [
        (TermKind.NET, None),
        (TermKind.NET, -1),
        (TermKind.NET, 366),
        (TermKind.DAY_OF_FOLLOWING_MONTH, 0),
        (TermKind.DAY_OF_FOLLOWING_MONTH, 32),
        (TermKind.MONTHS, 0),
        (TermKind.MONTHS, 13),
        (TermKind.END_OF_FOLLOWING_MONTH, 30),
    ],
)
def test_a_term_that_cannot_be_meant_is_refused(kind, number):
    with pytest.raises(TermNotPossible):
        PaymentTerm(kind, number)


def test_more_than_sixty_days_is_a_long_term():
    # 60 days: Directive 2011/7/EU Art. 3(5). 2027-12-15 + 60 = 2028-02-13 in the cases.
    assert not is_long_term(date(2027, 12, 15), date(2028, 2, 13))
    assert is_long_term(date(2027, 12, 15), date(2028, 2, 14))
