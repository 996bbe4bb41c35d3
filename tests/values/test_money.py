"""Currencies, rounding, printing and typed amounts.

Expected values: tests/data/currency.json (own work; minor units as ISO 4217 lists them, printed forms as
CLDR gives them through Babel 2.18) and CLDR's own data where stated.
"""

import json
from decimal import Decimal
from pathlib import Path

import pycountry
import pytest
from babel.localedata import locale_identifiers
from babel.numbers import format_currency, get_currency_precision
from hypothesis import given
from hypothesis import strategies as st

from shoots.values.money import (
    AmountProblem,
    CurrencyMismatch,
    Money,
    UnknownCurrency,
    UnreadableAmount,
    format_money,
    format_unit_price,
    minor_units,
    parse_amount,
    round_half_up,
    total,
)

CASES = json.loads((Path(__file__).parents[1] / "data" / "currency.json").read_text(encoding="utf-8"))
AMOUNTS = st.decimals(min_value=-(10**9), max_value=10**9, places=4, allow_nan=False)


def plain_spaces(text: str) -> str:
    return text.replace("\u00a0", " ").replace("\u202f", " ")


@pytest.mark.parametrize(("currency", "digits"), CASES["minor_units"].items())
def test_a_currency_has_the_decimals_that_iso_4217_gives_it(currency, digits):
    assert minor_units(currency) == digits


# ISO 4217 list one, as collected in the notes on currencies that came with currency.json.
@pytest.mark.parametrize(
    ("currencies", "digits"),
    [("GBP EUR USD CHF SEK HUF", 2), ("JPY KRW ISK VND", 0), ("BHD KWD TND JOD OMR IQD", 3), ("CLF UYW", 4)],
)
def test_the_groups_of_minor_units_hold(currencies, digits):
    assert {minor_units(currency) for currency in currencies.split()} == {digits}


def test_minor_units_agree_with_cldr_wherever_cldr_prints_decimals():
    # CLDR prints none for currencies whose coins are out of use; where it prints some, ISO 4217 has as many.
    compared = 0
    for known in pycountry.currencies:
        try:
            digits = minor_units(known.alpha_3)
        except UnknownCurrency:
            continue
        if get_currency_precision(known.alpha_3):
            compared += 1
            assert digits == get_currency_precision(known.alpha_3), known.alpha_3
    assert compared > 100


@pytest.mark.parametrize("code", ["", "gbp", "GB", "XAU", "XXX", "ZZZ", "POUND", "£"])
def test_a_code_that_nobody_is_paid_in_is_unknown(code):
    with pytest.raises(UnknownCurrency):
        minor_units(code)
    with pytest.raises(UnknownCurrency):
        Money(Decimal(1), code)


@pytest.mark.parametrize("case", CASES["round_half_up_2dp"], ids=lambda case: case["x"])
def test_rounding_is_half_away_from_zero(case):
    assert str(round_half_up(Decimal(case["x"]))) == case["half_up"]


@given(AMOUNTS)
def test_a_correction_rounds_to_the_mirror_of_its_original(amount):
    assert round_half_up(-amount) == -round_half_up(amount)


@given(AMOUNTS)
def test_rounding_moves_an_amount_by_half_a_penny_at_most(amount):
    assert abs(round_half_up(amount) - amount) <= Decimal("0.005")


@pytest.mark.parametrize("amount", ["NaN", "Infinity", "-Infinity", "1e70"])
def test_what_is_no_amount_cannot_be_rounded(amount):
    with pytest.raises(ValueError):
        round_half_up(Decimal(amount))


def test_nothing_is_never_minus_nothing():
    assert str(round_half_up(Decimal("-0.001"))) == "0.00"


@pytest.mark.parametrize("case", CASES["cases"], ids=lambda case: f"{case['currency']}-{case['locale']}")
def test_money_prints_as_cldr_prints_it(case):
    money = Money(Decimal(case["amount"]), case["currency"])
    assert plain_spaces(format_money(money, case["locale"])) == plain_spaces(case["expected"])


def test_every_locale_prints_as_babel_prints_it():
    # Babel's own format_currency over all locales of CLDR, for a currency whose decimals agree.
    amount = Decimal("-1234567.89")
    for locale in locale_identifiers():
        assert format_money(Money(amount, "GBP"), locale) == format_currency(amount, "GBP", locale=locale)


def test_money_prints_the_decimals_of_iso_4217_where_cldr_drops_them():
    # CLDR prints IQD without decimals; ISO 4217 gives three, and an invoice must add up on paper.
    assert plain_spaces(format_money(Money(Decimal("1234.567"), "IQD"), "en_GB")) == "IQD1,234.567"


def test_printing_one_amount_does_not_change_how_the_next_is_printed():
    format_unit_price(Money(Decimal("0.123456"), "GBP"))
    assert format_money(Money(Decimal("2"), "GBP")) == "£2.00"


def test_a_unit_price_shows_all_the_decimals_it_is_multiplied_with():
    assert format_unit_price(Money(Decimal("86.6675"), "GBP")) == "£86.6675"
    assert format_unit_price(Money(Decimal("450"), "GBP")) == "£450.00"
    assert format_unit_price(Money(Decimal("1E+3"), "JPY"), "en_GB") == "JP¥1,000"


def test_amounts_of_two_currencies_never_meet():
    pounds, euros = Money(Decimal(1), "GBP"), Money(Decimal(1), "EUR")
    for meeting in (
        lambda: pounds + euros,
        lambda: pounds - euros,
        lambda: pounds < euros,
        lambda: pounds >= euros,
        lambda: total([pounds, euros], "GBP"),
    ):
        with pytest.raises(CurrencyMismatch):
            meeting()
    assert pounds != euros


@pytest.mark.parametrize("factor", [1.5, "2", None])
def test_money_is_never_multiplied_by_a_float(factor):
    with pytest.raises(TypeError):
        Money(Decimal(1), "GBP") * factor


def test_money_takes_no_float():
    with pytest.raises(TypeError):
        Money(0.1, "GBP")


@given(st.lists(AMOUNTS, max_size=30))
def test_a_sum_does_not_depend_on_its_order(amounts):
    moneys = [Money(amount, "GBP") for amount in amounts]
    assert total(moneys, "GBP") == total(reversed(moneys), "GBP")


def test_a_share_is_exact_until_it_is_rounded():
    third = Money(Decimal("100.01"), "GBP").percent(Decimal("33.3"))
    assert third.amount == Decimal("33.30333")
    assert third.rounded().amount == Decimal("33.30")


@pytest.mark.parametrize(
    ("typed", "currency", "locale", "amount"),
    [
        ("1,800", "GBP", "en_GB", "1800"),
        ("1800.50", "GBP", "en_GB", "1800.50"),
        ("£1,800", "GBP", "en_GB", "1800"),
        (" £ 1,800.00 ", "GBP", "en-GB", "1800.00"),
        ("1800 GBP", "GBP", "en_GB", "1800"),
        ("gbp 1800", "GBP", "en_GB", "1800"),
        ("1 800", "GBP", "en_GB", "1800"),
        ("12\u202f345,60 €", "EUR", "fr_FR", "12345.60"),
        ("12 345,60", "EUR", "fr_FR", "12345.60"),
        ("1.800,50 €", "EUR", "de_DE", "1800.50"),
        ("1'800.50", "CHF", "de_CH", "1800.50"),
        ("$250", "USD", "en_GB", "250"),
        ("$250", "AUD", "en_GB", "250"),
        ("250 kr", "SEK", "sv_SE", "250"),
        ("¥12000", "JPY", "en_GB", "12000"),
        (".50", "GBP", "en_GB", "0.50"),
        ("0", "GBP", "en_GB", "0"),
    ],
)
def test_a_typed_amount_is_read_as_its_locale_writes_it(typed, currency, locale, amount):
    read = parse_amount(typed, currency, locale)
    assert (str(read.amount), read.currency) == (amount, currency)


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ("", AmountProblem.EMPTY),
        (" \u00a0", AmountProblem.EMPTY),
        ("£", AmountProblem.NOT_A_NUMBER),
        ("about 800", AmountProblem.NOT_A_NUMBER),
        ("1e5", AmountProblem.NOT_A_NUMBER),
        ("1_000", AmountProblem.NOT_A_NUMBER),
        ("NaN", AmountProblem.NOT_A_NUMBER),
        ("٣٤", AmountProblem.NOT_A_NUMBER),
        ("1 80", AmountProblem.NOT_A_NUMBER),
        ("12.5.3", AmountProblem.AMBIGUOUS),
        ("1,8", AmountProblem.AMBIGUOUS),
        ("18,00", AmountProblem.AMBIGUOUS),
        ("1.800", AmountProblem.AMBIGUOUS),
        ("1.800,50", AmountProblem.AMBIGUOUS),
        ("1.805", AmountProblem.TOO_MANY_DECIMALS),
        ("€1,800", AmountProblem.OTHER_CURRENCY),
        ("1,800 EUR", AmountProblem.OTHER_CURRENCY),
        ("$1,800", AmountProblem.OTHER_CURRENCY),
        ("-1", AmountProblem.NEGATIVE),
        ("\u2212£1", AmountProblem.NEGATIVE),
        ("9" * 13, AmountProblem.TOO_LARGE),
        ("9" * 5000, AmountProblem.TOO_LARGE),
    ],
)
def test_an_amount_that_needs_guessing_is_refused_with_the_reason(typed, problem):
    with pytest.raises(UnreadableAmount) as refusal:
        parse_amount(typed, "GBP", "en_GB")
    assert refusal.value.problem == problem


def test_a_field_may_take_more_decimals_or_a_negative_amount_when_it_says_so():
    assert parse_amount("86.6675", "GBP", decimals=4).amount == Decimal("86.6675")
    assert parse_amount("-£12.50", "GBP", allow_negative=True).amount == Decimal("-12.50")


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_and_nothing_else_happens(text):
    try:
        money = parse_amount(text, "GBP")
    except UnreadableAmount:
        return
    assert money.amount >= 0


@given(st.decimals(min_value=0, max_value=10**9, places=2), st.sampled_from(["en_GB", "de_DE", "fr_FR", "sv_SE"]))
def test_what_is_printed_can_be_typed_again(amount, locale):
    money = Money(amount, "EUR")
    assert parse_amount(format_money(money, locale), "EUR", locale) == money
