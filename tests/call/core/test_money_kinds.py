"""What an amount is for, and whether tax is in it (shoots.call.core.money_kinds). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import MoneyKind, Tax
from shoots.call.core.money_kinds import is_for_pictures, purpose_of, tax_alone, tax_of
from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("behind", "tax"),
    [
        (" + vat", Tax.EXCLUDED),
        (" plus vat", Tax.EXCLUDED),
        (" ex vat", Tax.EXCLUDED),
        (" excl. vat", Tax.EXCLUDED),
        (" inc vat", Tax.INCLUDED),
        (" incl. vat", Tax.INCLUDED),
        (" gross", Tax.INCLUDED),
        (" net", Tax.EXCLUDED),
        (" plus mwst", Tax.EXCLUDED),
        (", not sure about vat", Tax.UNKNOWN),
        ("", Tax.UNKNOWN),
    ],
)
def test_tax_behind_an_amount(behind: str, tax: Tax) -> None:
    text = "2k" + behind
    assert tax_of(text, 0, 0, 2, len(text), last=True)[0] is tax


@pytest.mark.parametrize(
    ("text", "tax"), [(" vat on top.", Tax.EXCLUDED), ("+ vat", Tax.EXCLUDED), ("lovely light", Tax.UNKNOWN)]
)
def test_a_sentence_only_about_tax(text: str, tax: Tax) -> None:
    assert tax_alone(text) is tax


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("studio hire £350", MoneyKind.EXPENSES),
        ("budget £350", MoneyKind.BUDGET),
        ("deposit £350", MoneyKind.DEPOSIT),
        ("£350 each", MoneyKind.UNIT),
        ("£350 a day", MoneyKind.DAY_RATE),
        ("last time £350", MoneyKind.LAST_YEAR),
        ("rrp £350", MoneyKind.RETAIL),
        ("usage £350", MoneyKind.USAGE),
        ("our fee £350", MoneyKind.FEE),
    ],
)
def test_what_it_is_for(text: str, kind: MoneyKind) -> None:
    start = text.index("£350")
    assert purpose_of(text, 0, 0, start, start + 4, len(text)).kind is kind


def test_an_amount_for_pictures() -> None:
    assert is_for_pictures("200 for the group shot", 3) and not is_for_pictures("200 for lunch", 3)


def test_last_years_price_is_not_this_years() -> None:
    found = data("3.8k + VAT, last yr was 3.2")["money"]
    assert [(m["amount"], m["kind"], m["tax"]) for m in found] == [
        (3800, "budget", "excluded"),
        (3200, "last year", "unknown"),
    ]


@pytest.mark.parametrize(
    ("text", "tax"),
    [
        ("£480 and VAT has to come out of that", "included"),
        ("£600 and it has to include the vat", "included"),
        ("£1,500 and that has to cover all of it, VAT as well", "included"),
        ("£3,000 including expenses but not VAT", "excluded"),
        ("fee 1800 plus hst", "excluded"),
        ("2.200 € plus 19 % MwSt", "excluded"),
        ("£6,500 plus GST incl stylist", "excluded"),
    ],
)
def test_tax_in_other_words(text: str, tax: str) -> None:
    assert [m["tax"] for m in data(text)["money"]] == [tax]
