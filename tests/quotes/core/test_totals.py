"""Totals as EN 16931 computes them.

Expected values: tests/data/invoice_totals.json, fourteen worked cases (EN 16931-1 BR-CO-10 to 17 and
BR-DEC; own work, their XML forms pass the official rules). Properties: Hypothesis.
"""

import json
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.quotes.core.totals import (
    AmountNotPossible,
    DocumentAmount,
    Line,
    NegativePrice,
    OutsideScopeMixed,
    VatCategory,
    VatRateMismatch,
    compute_totals,
    vat_in_other_currency,
)
from shoots.values.money import UnknownCurrency

CASES = json.loads((Path(__file__).parents[2] / "data" / "invoice_totals.json").read_text(encoding="utf-8"))["cases"]


def rate_of(text):
    return Decimal(text) if text else None


def line_of(data):
    return Line(
        quantity=Decimal(data["qty"]),
        net_price=Decimal(data["net_price"]),
        base_quantity=Decimal(data["base_qty"]),
        line_allowance=Decimal(data["line_allowance"]),
        line_charge=Decimal(data["line_charge"]),
        vat_category=VatCategory(data["vat_category"]),
        vat_rate=rate_of(data["vat_rate"]),
    )


def amount_of(data):
    return DocumentAmount(
        Decimal(data["amount"]), VatCategory(data["vat_category"]), rate_of(data["vat_rate"]), data["reason"]
    )


def totals_of(data):
    return compute_totals(
        [line_of(line) for line in data["lines"]],
        currency=data["currency"],
        allowances=[amount_of(item) for item in data.get("allowances", [])],
        charges=[amount_of(item) for item in data.get("charges", [])],
        prepaid=Decimal(data.get("prepaid", "0")),
        rounding=Decimal(data.get("rounding", "0")),
    )


def test_all_fourteen_cases_are_here():
    assert [case["input"]["id"] for case in CASES] == [f"PUB-{number:02}" for number in range(1, 15)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["input"]["id"])
def test_totals_are_those_of_the_standard(case):
    totals, expected = totals_of(case["input"]), case["expected"]
    found = {
        "line_net": [str(net) for net in totals.line_net],
        "BT106_sum_lines": str(totals.sum_of_lines),
        "BT107_allowances": str(totals.allowances),
        "BT108_charges": str(totals.charges),
        "BT109_tax_exclusive": str(totals.tax_exclusive),
        "BT110_vat": str(totals.vat),
        "BT112_tax_inclusive": str(totals.tax_inclusive),
        "BT113_prepaid": str(totals.prepaid),
        "BT114_rounding": str(totals.rounding),
        "BT115_payable": str(totals.payable),
        "breakdown": [
            {
                "category": str(part.category),
                "rate": "" if part.rate is None else str(part.rate),
                "taxable": str(part.taxable),
                "tax": str(part.tax),
            }
            for part in totals.breakdown
        ],
    }
    assert found == {key: value for key, value in expected.items() if not key.startswith("note_")}


def test_tax_is_not_rounded_line_by_line():
    # PUB-03: three lines of 0.33 at 20 % owe 0.20 together; rounding each line would make it 0.21.
    case = next(case for case in CASES if case["input"]["id"] == "PUB-03")
    assert case["expected"]["note_vat_if_rounded_per_line"] == "0.21"
    assert totals_of(case["input"]).vat == Decimal("0.20")


def test_tax_can_be_stated_in_the_currency_of_the_sellers_accounts():
    # PUB-12: VAT of 200.00 EUR at 0.85.
    case = next(case for case in CASES if case["input"]["id"] == "PUB-12")["input"]
    vat = vat_in_other_currency(totals_of(case).vat, Decimal("0.85"), case["vat_currency"])
    assert str(vat) == case["vat_in_vat_currency"]


STANDARD = st.sampled_from([Decimal("20"), Decimal("5"), Decimal("25"), Decimal("13.5")])
ZERO_RATED = st.sampled_from([VatCategory.ZERO, VatCategory.EXEMPT, VatCategory.REVERSE_CHARGE])
CATEGORIES = st.one_of(st.tuples(st.just(VatCategory.STANDARD), STANDARD), st.tuples(ZERO_RATED, st.just(Decimal(0))))
SMALL = st.decimals(min_value=0, max_value=5000, places=2)


@st.composite
def lines_of_any_kind(draw):
    category, rate = draw(CATEGORIES)
    return Line(
        quantity=draw(st.decimals(min_value=-50, max_value=50, places=2)),
        net_price=draw(st.decimals(min_value=0, max_value=5000, places=4)),
        base_quantity=draw(st.sampled_from([Decimal(1), Decimal(3), Decimal(7), Decimal(100)])),
        line_allowance=draw(SMALL),
        line_charge=draw(SMALL),
        vat_category=category,
        vat_rate=rate,
    )


@st.composite
def document_amounts(draw):
    category, rate = draw(CATEGORIES)
    return DocumentAmount(draw(SMALL), category, rate)


LINES = st.lists(lines_of_any_kind(), max_size=12)
AMOUNTS = st.lists(document_amounts(), max_size=4)


@given(LINES, AMOUNTS, AMOUNTS, SMALL)
def test_what_is_printed_adds_up(lines, allowances, charges, prepaid):
    totals = compute_totals(lines, currency="GBP", allowances=allowances, charges=charges, prepaid=prepaid)
    assert sum(totals.line_net) == totals.sum_of_lines
    assert totals.sum_of_lines - totals.allowances + totals.charges == totals.tax_exclusive
    assert sum(part.taxable for part in totals.breakdown) == totals.tax_exclusive
    assert sum(part.tax for part in totals.breakdown) == totals.vat
    assert totals.tax_exclusive + totals.vat == totals.tax_inclusive
    assert totals.tax_inclusive - totals.prepaid == totals.payable


@given(LINES)
def test_tax_of_each_rate_is_within_half_a_penny_of_the_exact_tax(lines):
    for part in compute_totals(lines, currency="GBP").breakdown:
        exact = Fraction(part.taxable) * Fraction(part.rate) / 100
        assert abs(Fraction(part.tax) - exact) <= Fraction(1, 200)


@given(LINES)
def test_a_document_with_every_quantity_turned_round_owes_the_opposite(lines):
    plain = [replace(line, line_allowance=Decimal(0), line_charge=Decimal(0)) for line in lines]
    turned = [replace(line, quantity=-line.quantity) for line in plain]
    there, back = compute_totals(plain, currency="GBP"), compute_totals(turned, currency="GBP")
    assert (back.tax_exclusive, back.vat, back.payable) == (-there.tax_exclusive, -there.vat, -there.payable)


@given(LINES, st.randoms())
def test_the_order_of_lines_does_not_change_what_is_owed(lines, random):
    shuffled = list(lines)
    random.shuffle(shuffled)
    there, back = compute_totals(lines, currency="GBP"), compute_totals(shuffled, currency="GBP")
    assert (there.vat, there.payable) == (back.vat, back.payable)
    assert set(there.breakdown) == set(back.breakdown)


@given(LINES)
def test_every_amount_has_exactly_two_decimals(lines):
    totals = compute_totals(lines, currency="EUR")
    amounts = [*totals.line_net, totals.vat, totals.payable, *(part.tax for part in totals.breakdown)]
    assert {amount.as_tuple().exponent for amount in amounts} == {-2}


def test_the_parts_of_a_line_are_rounded_separately():
    # 1.004 becomes 1.00 and 0.005 becomes 0.01, so 1.01 with it and 0.99 without; 0.004 becomes nothing.
    half = Line(Decimal(1), Decimal("1.004"), line_charge=Decimal("0.005"), vat_rate=Decimal(20))
    less = Line(Decimal(1), Decimal("1.004"), line_charge=Decimal("0.004"), vat_rate=Decimal(20))
    off = Line(Decimal(1), Decimal("1.004"), line_allowance=Decimal("0.005"), vat_rate=Decimal(20))
    assert [str(line.net()) for line in (half, less, off)] == ["1.01", "1.00", "0.99"]


def test_a_document_without_lines_owes_nothing():
    totals = compute_totals([], currency="GBP")
    assert str(totals.payable) == "0.00" and totals.breakdown == ()


def test_one_rate_written_two_ways_is_one_rate():
    lines = [Line(Decimal(1), Decimal(1), vat_rate=Decimal(rate)) for rate in ("20", "20.00")]
    assert len(compute_totals(lines, currency="GBP").breakdown) == 1


def test_yen_have_no_decimals():
    totals = compute_totals([Line(Decimal(1), Decimal("105"), vat_rate=Decimal(10))], currency="JPY")
    assert (str(totals.vat), str(totals.payable)) == ("11", "116")


def test_a_price_below_zero_is_refused():
    with pytest.raises(NegativePrice):
        Line(Decimal(1), Decimal("-0.01"), vat_rate=Decimal(20))


@pytest.mark.parametrize(
    ("category", "rate"),
    [
        (VatCategory.STANDARD, None),
        (VatCategory.STANDARD, Decimal(0)),
        (VatCategory.STANDARD, Decimal(-20)),
        (VatCategory.STANDARD, Decimal(101)),
        (VatCategory.STANDARD, Decimal("NaN")),
        (VatCategory.ZERO, Decimal(20)),
        (VatCategory.ZERO, None),
        (VatCategory.REVERSE_CHARGE, Decimal(20)),
        (VatCategory.OUTSIDE_SCOPE, Decimal(0)),
    ],
)
def test_a_category_with_a_rate_that_it_cannot_have_is_refused(category, rate):
    with pytest.raises(VatRateMismatch):
        Line(Decimal(1), Decimal(1), vat_category=category, vat_rate=rate)
    with pytest.raises(VatRateMismatch):
        DocumentAmount(Decimal(1), category, rate)


def test_outside_scope_stands_alone():
    lines = [
        Line(Decimal(1), Decimal(1), vat_category=VatCategory.OUTSIDE_SCOPE),
        Line(Decimal(1), Decimal(1), vat_rate=Decimal(20)),
    ]
    with pytest.raises(OutsideScopeMixed):
        compute_totals(lines, currency="GBP")


@pytest.mark.parametrize(
    "wrong",
    [
        {"base_quantity": Decimal(0)},
        {"line_allowance": Decimal(-1)},
        {"line_charge": Decimal(-1)},
        {"quantity": Decimal("Infinity")},
        {"net_price": Decimal("NaN")},
        {"quantity": Decimal("1e30")},
    ],
    ids=str,
)
def test_a_line_that_cannot_be_meant_is_refused(wrong):
    with pytest.raises(AmountNotPossible):
        replace(Line(Decimal(1), Decimal(1), vat_rate=Decimal(20)), **wrong)


def test_a_product_beyond_all_measure_is_refused_rather_than_rounded():
    line = Line(Decimal(10) ** 11, Decimal(10) ** 11, vat_rate=Decimal(20))
    with pytest.raises(AmountNotPossible):
        compute_totals([line], currency="GBP")


def test_an_unknown_currency_is_refused():
    with pytest.raises(UnknownCurrency):
        compute_totals([], currency="ABC")
