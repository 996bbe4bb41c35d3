"""Discount, deposit and validity. Own rules, worked by hand beside each case; no source."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.quotes.core.card import FEES, Charge, Expense, LicenceFee
from shoots.quotes.core.offer import (
    Discount,
    DiscountNotPossible,
    ShareNotPossible,
    ValidityNotPossible,
    discount_allowances,
    offer_period,
    price_offer,
)
from shoots.quotes.core.pricing import Tax, price_item
from shoots.quotes.core.totals import VatCategory

STANDARD, REDUCED, ZERO = Tax(rate=Decimal(20)), Tax(rate=Decimal(5)), Tax(VatCategory.ZERO, Decimal(0))


def fee(amount, tax=STANDARD):
    return price_item(LicenceFee(Decimal(amount)), currency="GBP", tax=tax)


def cost(amount, tax=STANDARD):
    return price_item(Expense(Decimal(amount)), currency="GBP", tax=tax)


def test_a_share_comes_off_before_tax():
    # 1000 - 10 % = 900, tax 180, payable 1080.
    totals = price_offer(fee(1000), currency="GBP", discount=Discount(percent=Decimal(10))).totals
    assert (totals.allowances, totals.tax_exclusive, totals.vat, totals.payable) == (
        Decimal("100.00"),
        Decimal("900.00"),
        Decimal("180.00"),
        Decimal("1080.00"),
    )


def test_a_discount_on_fees_leaves_expenses_alone():
    # 10 % of 1000, not of 1200.
    discount = Discount(percent=Decimal(10), charges=FEES)
    assert price_offer((*fee(1000), *cost(200)), currency="GBP", discount=discount).totals.allowances == 100


def test_a_sum_is_shared_between_the_rates_in_proportion():
    # 100 off 600 at 20 % and 300 at 5 %: 66.67 and 33.33.
    lines = (*fee(600), *cost(300, REDUCED))
    allowances = discount_allowances(lines, Discount(amount=Decimal(100)), "GBP")
    assert [(part.vat_rate, part.amount) for part in allowances] == [
        (Decimal(20), Decimal("66.67")),
        (Decimal(5), Decimal("33.33")),
    ]


NETS = st.lists(
    st.tuples(st.decimals(min_value=0, max_value=5000, places=2), st.sampled_from([STANDARD, REDUCED, ZERO])),
    min_size=1,
    max_size=6,
)


@given(NETS, st.decimals(min_value=0, max_value=100, places=2))
def test_the_parts_of_a_sum_add_up_to_it_and_no_part_exceeds_its_base(nets, share):
    lines = [line for net, tax in nets for line in fee(net, tax)]
    whole = sum(line.net for line in lines)
    amount = (whole * share / 100).quantize(Decimal("0.01"))
    offer = price_offer(lines, currency="GBP", discount=Discount(amount=amount))
    assert offer.totals.allowances == amount
    assert all(part.taxable >= 0 for part in offer.totals.breakdown)


@given(NETS, st.decimals(min_value=0, max_value=100, places=1))
def test_deposit_and_balance_add_up_to_what_is_payable(nets, share):
    lines = [line for net, tax in nets for line in fee(net, tax)]
    offer = price_offer(lines, currency="GBP", deposit_percent=share)
    assert offer.deposit + offer.balance == offer.totals.payable
    assert 0 <= offer.deposit <= offer.totals.payable


def test_a_deposit_is_a_share_of_the_sum_with_tax():
    # 40 % of 1234.56 + 246.91 tax = 1481.47 -> 592.588 -> 592.59.
    offer = price_offer(fee("1234.56"), currency="GBP", deposit_percent=Decimal(40))
    assert (offer.deposit, offer.balance) == (Decimal("592.59"), Decimal("888.88"))


def test_a_quote_without_discount_and_lines_is_nothing():
    offer = price_offer((), currency="GBP", discount=Discount(amount=Decimal(0)), deposit_percent=Decimal(50))
    assert (offer.lines, offer.allowances, offer.deposit) == ((), (), Decimal("0.00"))


def test_a_sum_larger_than_what_it_is_taken_from_is_refused():
    with pytest.raises(DiscountNotPossible):
        price_offer(fee(100), currency="GBP", discount=Discount(amount=Decimal("100.01")))
    with pytest.raises(DiscountNotPossible):
        only_crew = Discount(amount=Decimal(1), charges=frozenset({Charge.CREW}))
        price_offer(fee(100), currency="GBP", discount=only_crew)


@pytest.mark.parametrize(
    "wrong",
    [
        {},
        {"percent": Decimal(10), "amount": Decimal(10)},
        {"percent": Decimal(-1)},
        {"percent": Decimal("100.01")},
        {"percent": Decimal("NaN")},
        {"amount": Decimal(-1)},
    ],
    ids=str,
)
def test_a_discount_that_cannot_be_meant_is_refused(wrong):
    with pytest.raises(DiscountNotPossible):
        Discount(**wrong)


@pytest.mark.parametrize("share", ["-1", "100.5", "NaN"])
def test_a_deposit_is_between_nothing_and_everything(share):
    with pytest.raises(ShareNotPossible):
        price_offer(fee(100), currency="GBP", deposit_percent=Decimal(share))


def test_an_offer_stands_until_the_end_of_its_last_day():
    # Counted as "net 30" counts in tests/data/due_dates.json: 2026-03-02 + 30 days = 2026-04-01.
    period = offer_period(date(2026, 3, 2), 30)
    assert date(2026, 3, 2) in period and date(2026, 4, 1) in period and date(2026, 4, 2) not in period


@pytest.mark.parametrize("days", [0, -1, 3651])
def test_an_offer_stands_for_a_day_at_least_and_not_for_ever(days):
    with pytest.raises(ValidityNotPossible):
        offer_period(date(2026, 3, 2), days)
