"""Amounts of money (shoots.call.core.money). Currencies of countries: Unicode CLDR; "five all in": common practice."""

from __future__ import annotations

from decimal import Decimal

import pytest

from shoots.call.core.drafts import DraftKind
from shoots.call.core.money import currency_of
from tests.call.core.notes import CALLED, data, drafts, values, words_of


@pytest.mark.parametrize(
    ("text", "amount", "currency", "tax", "kind"),
    [
        ("budget 2.5k", "2500", "GBP", "unknown", "budget"),
        ("£1,800 + VAT", "1800", "GBP", "excluded", "budget"),
        ("£1,800 incl. VAT", "1800", "GBP", "included", "budget"),
        ("five all in", "5000", "GBP", "unknown", "all_in"),
        ("4k all-in", "4000", "GBP", "unknown", "all_in"),
        ("budget is two and a half grand", "2500", "GBP", "unknown", "budget"),
        ("€3.500 budget", "3500", "EUR", "unknown", "budget"),
        ("$1,250.50 fee", "1250.50", "USD", "unknown", "fee"),
        ("CHF 4'200 budget", "4200", "CHF", "unknown", "budget"),
        ("day rate £900", "900", "GBP", "unknown", "day_rate"),
        ("£650 a day", "650", "GBP", "unknown", "day_rate"),
        ("studio hire £350", "350", "GBP", "unknown", "expenses"),
        ("deposit £500", "500", "GBP", "unknown", "deposit"),
        ("last year they paid 3k", "3000", "GBP", "unknown", "last_year"),
        ("usage fee £400", "400", "GBP", "unknown", "usage"),
        ("budget 1.800 € zzgl. MwSt", "1800", "EUR", "excluded", "budget"),
        ("3k net budget", "3000", "GBP", "excluded", "budget"),
    ],
)
def test_an_amount(text: str, amount: str, currency: str, tax: str, kind: str) -> None:
    (value,) = values(text, DraftKind.MONEY)
    assert (value.amount, value.currency, value.tax.value, value.kind.value) == (Decimal(amount), currency, tax, kind)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("budget 3-4k", 3000, 4000), ("budget £2,000 to £2,500", 2000, 2500), ("2 or 3 grand", 2000, 3000)],
)
def test_a_stretch_of_amounts(text: str, low: int, high: int) -> None:
    (value,) = values(text, DraftKind.MONEY)
    assert (value.amount, value.upper) == (low, high)


@pytest.mark.parametrize(
    ("text", "each", "many"),
    [
        ("£120 per image x 15", 120, 15),
        ("15 images at £120 each", 120, 15),
        ("15 x £120", 120, 15),
        ("£85 a product", 85, None),
        ("£40/pic", 40, None),
    ],
)
def test_a_unit_price_times_a_number(text: str, each: int, many: int | None) -> None:
    (entry,) = data(text)["money"]
    assert (entry["amount"], entry["kind"], entry.get("quantity")) == (each, "unit", many)
    assert entry.get("total") == (each * many if many else None)


@pytest.mark.parametrize(
    "text", ["10k race", "shot in 4k", "12k followers", "4:5", "10-12 finals", "5 people", "it costs nothing", "6k run"]
)
def test_what_is_no_money(text: str) -> None:
    assert values(text, DraftKind.MONEY) == []


@pytest.mark.parametrize(
    ("country", "currency"),
    [("GB", "GBP"), ("DE", "EUR"), ("US", "USD"), ("CH", "CHF"), ("SE", "SEK"), ("JP", "JPY"), ("HR", "EUR")],
)
def test_the_currency_of_a_country(country: str, currency: str) -> None:
    assert currency_of(country, CALLED) == currency
    (value,) = values("budget 2.5k", DraftKind.MONEY, country=country)
    assert value.currency == currency


def test_a_number_that_means_thousands_is_to_be_confirmed() -> None:
    text = "it's five all in"
    (draft,) = drafts(text, DraftKind.MONEY)
    assert draft.confirm and words_of(text, draft) == "five all in"
    assert "amount_meant" in [q["code"] for q in data(text)["questions"]]


@pytest.mark.parametrize(
    ("text", "amounts"),
    [
        ("thinks five grand, could stretch to six", [(5000, 6000)]),
        ("seven fifty cash", [(750, None)]),
        ("1400 budget, didn't say about vat", [(1400, None)]),
        ("1200 inc vat. 400 of it up front", [(1200, None), (400, None)]),
        ("said 2k, settled at 2,400 plus VAT", [(2400, None)]),
        ("call at seven fifty", []),
    ],
)
def test_sums_as_people_say_them(text: str, amounts: list[tuple[int, int | None]]) -> None:
    assert [(m["amount"], m.get("up_to")) for m in data(text)["money"]] == amounts
