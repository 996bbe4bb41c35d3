"""Interest on late invoices.

Expected values: tests/data/late_payment_uk.json (gov.uk's worked example and further cases, both ways of
counting), late_payment_part_payments.json, late_payment_eu.json. Rates there are partly from memory, as
those files say.
"""

import json
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.invoices.core.base_rates import EU_REFERENCE_RATES, UK_BASE_RATES
from shoots.invoices.core.late import (
    DebtNotPossible,
    NoRateKnown,
    Payment,
    eu_late_interest,
    uk_fixed_sum,
    uk_late_interest,
    uk_reference_day,
    uk_statutory_rate,
)

FOLDER = Path(__file__).parents[2] / "data"


def data(name):
    return json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))


UK, PART, EU = data("late_payment_uk"), data("late_payment_part_payments"), data("late_payment_eu")


def rates(table):
    return {date.fromisoformat(day): Decimal(rate) for day, rate in table.items()}


@pytest.mark.parametrize("case", UK["cases"], ids=lambda case: f"{case['principal_incl_vat']}-{case['due']}")
def test_uk_interest_is_that_of_the_worked_cases(case):
    due = date.fromisoformat(case["due"])
    table = rates(UK["boe_rates"])
    if case["reference_date"] is None:
        rate = Decimal(8) + Decimal(case["base_rate"])
    else:
        assert uk_reference_day(due).isoformat() == case["reference_date"]
        rate = uk_statutory_rate(due, table)
    late = uk_late_interest(
        Decimal(case["principal_incl_vat"]),
        due=due,
        to=date.fromisoformat(case["interest_to_inclusive"]),
        rate=rate,
    )
    assert rate == Decimal(case["statutory_rate"])
    assert (late.days_late, str(late.annual), str(late.daily)) == (
        case["days_late"],
        case["annual_interest"],
        case["daily_pence_rounded"],
    )
    assert (str(late.by_daily_pence), str(late.exact), str(late.fixed_sum)) == (
        case["interest_govuk_method"],
        case["interest_exact_365"],
        case["fixed_sum"],
    )


@pytest.mark.parametrize("case", PART["cases"], ids=lambda case: case["principal"])
def test_part_payments_cut_the_days_where_the_balance_changes(case):
    late = uk_late_interest(
        Decimal(case["principal"]),
        due=date.fromisoformat(case["due"]),
        to=date.fromisoformat(case["as_of"]),
        rate=Decimal(case["rate"]),
        payments=[
            Payment(date.fromisoformat(payment["date"]), Decimal(payment["amount"])) for payment in case["payments"]
        ],
    )
    found = [
        {
            "to": segment.to.isoformat(),
            "days": segment.days,
            "balance": str(segment.balance),
            "interest": str(segment.interest),
        }
        for segment in late.segments
    ]
    assert found == case["segments"]
    assert (str(late.exact), str(late.balance)) == (case["interest_exact_365"], case["balance"])


@pytest.mark.parametrize("case", EU["cases"], ids=lambda case: case["principal"])
def test_eu_interest_changes_its_rate_with_the_half_year(case):
    late = eu_late_interest(
        Decimal(case["principal"]),
        due=date.fromisoformat(case["due"]),
        to=date.fromisoformat(case["interest_to_inclusive"]),
        reference_rates=rates(EU["ecb_rates"]),
    )
    assert [(str(segment.rate), segment.days) for segment in late.segments] == [
        (segment["rate"], segment["days"]) for segment in case["segments"]
    ]
    assert (str(late.exact), str(late.fixed_sum)) == (case["interest_exact_365"], case["fixed_sum_eur"])


def test_the_tables_of_rates_hold_those_of_the_cases():
    assert rates(UK["boe_rates"]).items() <= UK_BASE_RATES.items()
    assert rates(EU["ecb_rates"]).items() <= EU_REFERENCE_RATES.items()


# The half-years of a published table of reference rates (payontime.co.uk, seen November 2026): interest that
# starts on the day named bears 8 % more than this.
@pytest.mark.parametrize(
    ("starts", "reference"),
    [
        ("2019-01-01", "0.75"),
        ("2020-06-30", "0.75"),
        ("2020-07-01", "0.10"),
        ("2021-12-31", "0.10"),
        ("2022-01-01", "0.25"),
        ("2022-07-01", "1.25"),
        ("2023-01-01", "3.50"),
        ("2023-12-31", "5.00"),
        ("2024-01-01", "5.25"),
    ],
)
def test_the_rate_of_a_half_year_is_that_of_the_published_table(starts, reference):
    due = date.fromisoformat(starts) - timedelta(days=1)
    assert uk_statutory_rate(due, UK_BASE_RATES) == 8 + Decimal(reference)


def test_reference_days_are_ends_of_half_years():
    assert {(day.month, day.day) for day in UK_BASE_RATES} == {(6, 30), (12, 31)}
    assert {(day.month, day.day) for day in EU_REFERENCE_RATES} == {(1, 1), (7, 1)}


def test_a_rate_that_is_not_in_the_table_is_asked_for_and_never_guessed():
    with pytest.raises(NoRateKnown) as refusal:
        uk_statutory_rate(date(2035, 8, 1), UK_BASE_RATES)
    assert refusal.value.reference_day == date(2035, 6, 30)
    with pytest.raises(NoRateKnown) as refusal:
        eu_late_interest(Decimal(1), due=date(2025, 6, 1), to=date(2026, 2, 1), reference_rates=EU_REFERENCE_RATES)
    assert refusal.value.reference_day == date(2026, 1, 1)


# Act 1998 s. 5A(2): the steps stand at 1,000 and 10,000 pounds.
@pytest.mark.parametrize(
    ("debt", "fixed"),
    [("0", 0), ("0.01", 40), ("999.99", 40), ("1000", 70), ("9999.99", 70), ("10000", 100), ("1e6", 100)],
)
def test_the_fixed_sum_steps_where_the_act_says(debt, fixed):
    assert uk_fixed_sum(Decimal(debt)) == fixed


DUE = date(2025, 3, 1)
AMOUNTS = st.decimals(min_value=1, max_value=50000, places=2)
LENGTHS = st.integers(0, 800)


def owed(principal, days, payments=()):
    return uk_late_interest(principal, due=DUE, to=DUE + timedelta(days=days), rate=Decimal("12.75"), payments=payments)


@given(AMOUNTS, LENGTHS, LENGTHS)
def test_waiting_longer_never_owes_less(principal, first, second):
    shorter, longer = sorted((first, second))
    assert owed(principal, shorter).exact <= owed(principal, longer).exact
    assert owed(principal, shorter).by_daily_pence <= owed(principal, longer).by_daily_pence


@given(AMOUNTS, LENGTHS)
def test_the_two_ways_differ_by_half_a_penny_a_day_at_most(principal, days):
    late = owed(principal, days)
    assert abs(late.by_daily_pence - late.exact) <= Decimal("0.005") * (days + 1)


@given(AMOUNTS, st.integers(1, 400), st.integers(1, 400))
def test_paying_everything_stops_the_interest(principal, paid_after, further):
    paid = [Payment(DUE + timedelta(days=paid_after), principal)]
    late = owed(principal, paid_after + further, paid)
    assert late.exact == owed(principal, paid_after).exact
    assert (late.balance, late.days_late) == (0, paid_after)


def test_payment_on_the_due_day_is_in_time():
    late = owed(Decimal(1000), 30, [Payment(DUE, Decimal(1000))])
    assert (late.exact, late.fixed_sum, late.balance) == (0, 0, 0)


def test_a_part_paid_in_time_lowers_the_debt_that_is_late():
    # 1,200 less 300 paid in time leaves 900 late: fixed sum 40, not 70.
    late = owed(Decimal(1200), 30, [Payment(DUE - timedelta(days=5), Decimal(300))])
    assert (late.fixed_sum, late.segments[0].balance) == (40, 900)


def test_a_part_paid_on_the_due_day_is_in_time_and_the_rest_bears_interest():
    # 900 at 12.75 % for 30 days = 9.4315 -> 9.43; below 1,000 the fixed sum is 40.
    late = owed(Decimal(1200), 30, [Payment(DUE, Decimal(300))])
    assert (late.exact, late.fixed_sum, len(late.segments)) == (Decimal("9.43"), 40, 1)
    assert late.annual == Decimal("114.75")


def test_a_payment_after_the_named_day_does_not_count_yet():
    late = owed(Decimal(1000), 10, [Payment(DUE + timedelta(days=11), Decimal(400))])
    assert late.balance == 1000


def test_paying_too_much_is_told():
    late = owed(Decimal(1000), 10, [Payment(DUE + timedelta(days=5), Decimal("1000.50"))])
    assert (late.balance, late.overpaid) == (0, Decimal("0.50"))


@pytest.mark.parametrize("amount", ["-0.01", "NaN", "Infinity"])
def test_a_debt_that_cannot_be_meant_is_refused(amount):
    with pytest.raises(DebtNotPossible):
        owed(Decimal(amount), 1)
    with pytest.raises(DebtNotPossible):
        owed(Decimal(1), 1, [Payment(DUE, Decimal(amount))])
    with pytest.raises(DebtNotPossible):
        uk_fixed_sum(Decimal(amount))
