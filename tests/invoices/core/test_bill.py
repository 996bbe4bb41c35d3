"""An invoice's totals and what it needs (shoots.invoices.core.bill)."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.invoices.core.bill import (
    BillLine,
    Missing,
    Particulars,
    deposit_parts,
    make_bill,
    missing_particulars,
    open_amount,
)
from shoots.quotes.core.totals import VatCategory

CASES = json.loads((Path(__file__).parents[2] / "data/invoice_totals.json").read_text())["cases"]
KNOWN = Particulars("4 Yard", "GB999999973", True, "9 Lane", "GB999999973", True, False)


def plain_cases() -> list[Any]:
    """The cases of invoice_totals.json that an invoice of ours can hold: no base quantity, no document amounts."""
    return [
        pytest.param(case["input"], case["expected"], id=case["input"]["id"])
        for case in CASES
        if all(
            line["base_qty"] == "1" and line["line_allowance"] == line["line_charge"] == "0"
            for line in case["input"]["lines"]
        )
        and not any(
            case["input"].get(key)
            for key in ("allowances", "charges", "prepaid", "rounding", "document_allowances", "document_charges")
        )
    ]


@pytest.mark.parametrize(("given_", "expected"), plain_cases())
def test_totals_agree_with_the_standards_cases(given_: dict[str, Any], expected: dict[str, Any]) -> None:
    """Source: tests/data/invoice_totals.json, EN 16931-1 BR-CO-10 to 17."""
    lines = [
        BillLine(
            line["name"],
            Decimal(line["qty"]),
            line["unit"],
            Decimal(line["net_price"]),
            VatCategory(line["vat_category"]),
            Decimal(line["vat_rate"] or 0),
        )
        for line in given_["lines"]
    ]
    totals = make_bill(lines, currency=given_["currency"]).totals
    assert str(totals.tax_exclusive) == expected["BT109_tax_exclusive"]
    assert str(totals.vat) == expected["BT110_vat"]
    assert str(totals.tax_inclusive) == expected["BT112_tax_inclusive"]


def test_some_of_the_standards_cases_are_run() -> None:
    assert len(plain_cases()) >= 4


def line(
    price: str = "100", quantity: str = "1", category: VatCategory = VatCategory.STANDARD, rate: int = 20
) -> BillLine:
    return BillLine("x", Decimal(quantity), "", Decimal(price), category, Decimal(rate))


def test_a_discount_is_shared_over_the_rates_it_touches() -> None:
    """Source: EN 16931-1 BG-20 and BR-S-08: a document discount belongs to a category and rate."""
    bill = make_bill(
        [line("300"), line("100", category=VatCategory.ZERO, rate=0)], currency="GBP", discount=Decimal(40)
    )
    assert [(part.amount, part.vat_category) for part in bill.allowances] == [
        (Decimal("30.00"), VatCategory.STANDARD),
        (Decimal("10.00"), VatCategory.ZERO),
    ]
    assert bill.totals.vat == Decimal("54.00")


@given(
    prices=st.lists(st.decimals(0, 5000, places=2), min_size=1, max_size=6),
    percent=st.decimals(1, 100, places=0),
)
def test_deposit_and_rest_never_show_more_tax_than_the_whole(prices: list[Decimal], percent: Decimal) -> None:
    """Own rule: taking the deposit back by a line leaves net sums exact; VAT may differ by a penny of rounding."""
    whole = make_bill([line(str(price)) for price in prices], currency="GBP").totals
    parts = deposit_parts(whole.breakdown, percent, "GBP")
    deposit_lines = [line(str(part.taxable)) for part in parts]
    deposit = make_bill(deposit_lines, currency="GBP").totals
    back = [line(str(part.taxable), quantity="-1") for part in parts]
    rest = make_bill([*(line(str(price)) for price in prices), *back], currency="GBP").totals
    assert deposit.tax_exclusive + rest.tax_exclusive == whole.tax_exclusive
    assert abs(deposit.vat + rest.vat - whole.vat) <= Decimal("0.01")


def test_yen_have_no_pennies() -> None:
    """Source: ISO 4217, JPY has no minor unit."""
    bill = make_bill([line("1001")], currency="JPY", discount=Decimal(1))
    assert str(bill.totals.vat) == "200"
    parts = deposit_parts(bill.totals.breakdown, Decimal(33), "JPY")
    assert str(parts[0].taxable) == "330"


def test_what_is_owed_is_what_was_asked_less_paid_and_credited() -> None:
    assert open_amount(Decimal(1200), paid=[Decimal(500), Decimal(100)], credited=[Decimal(600)]) == 0


@pytest.mark.parametrize(
    ("change", "category", "rate", "missing"),
    [
        ({}, VatCategory.STANDARD, 20, ()),
        ({"seller_address": " "}, VatCategory.STANDARD, 20, (Missing.SELLER_ADDRESS,)),
        ({"has_buyer": False, "buyer_address": ""}, VatCategory.STANDARD, 20, (Missing.BUYER,)),
        ({"buyer_address": ""}, VatCategory.STANDARD, 20, (Missing.BUYER_ADDRESS,)),
        ({"has_supply_date": False}, VatCategory.STANDARD, 20, (Missing.SUPPLY_DATE,)),
        ({"seller_vat_number": ""}, VatCategory.STANDARD, 20, (Missing.NOT_REGISTERED,)),
        ({"seller_vat_number": ""}, VatCategory.OUTSIDE_SCOPE, 0, ()),
        ({"seller_vat_number": ""}, VatCategory.REVERSE_CHARGE, 0, (Missing.SELLER_VAT_NUMBER,)),
        ({"buyer_vat_number": ""}, VatCategory.REVERSE_CHARGE, 0, (Missing.BUYER_VAT_NUMBER,)),
        ({"due_before_issue": True}, VatCategory.STANDARD, 20, (Missing.DUE_BEFORE_ISSUE,)),
    ],
)
def test_what_the_law_wants_is_asked_for(
    change: dict[str, Any], category: VatCategory, rate: int, missing: tuple[Missing, ...]
) -> None:
    """Source: VAT Regulations 1995 reg. 14(1); EN 16931-1 BR-S-02, BR-AE-02; VATA 1994 Sch. 11 para. 5 (memory)."""
    particulars = Particulars(**{**{f: getattr(KNOWN, f) for f in Particulars.__slots__}, **change})
    assert missing_particulars(particulars, make_bill([line(category=category, rate=rate)], currency="GBP")) == missing
