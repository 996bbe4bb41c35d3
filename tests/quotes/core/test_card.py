"""What a rate card may hold. Own rules, no source: refusals of what cannot be meant."""

from decimal import Decimal

import pytest

from shoots.quotes.core.card import FEES, Charge, DayRate, PriceNotPossible, check_price, check_quantity
from shoots.quotes.core.totals import NegativePrice


@pytest.mark.parametrize("price", ["-0.01", "-1200"])
def test_a_day_with_a_negative_price_is_refused(price):
    with pytest.raises(NegativePrice):
        DayRate(Decimal(price), Decimal(8), Decimal(150))
    with pytest.raises(NegativePrice):
        DayRate(Decimal(1200), Decimal(8), Decimal(price))


@pytest.mark.parametrize("hours", ["0", "-8", "NaN", "Infinity"])
def test_a_day_includes_some_hours(hours):
    with pytest.raises(PriceNotPossible):
        DayRate(Decimal(1200), Decimal(hours), Decimal(150))


@pytest.mark.parametrize("amount", ["NaN", "Infinity", "1e9"])
def test_what_is_no_quantity_is_no_price_either(amount):
    with pytest.raises(PriceNotPossible):
        check_quantity(Decimal(amount))
    with pytest.raises(PriceNotPossible):
        check_price(Decimal(amount))


def test_what_is_bought_for_the_client_is_no_fee():
    assert {Charge.CREW, Charge.HIRE, Charge.TRAVEL, Charge.STUDIO, Charge.PERMIT, Charge.EXPENSE}.isdisjoint(FEES)
    assert {Charge.DAY, Charge.LICENCE, Charge.FINISHING} <= FEES
