"""A quote's totals from its rows, against worked cases of EN 16931."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from shoots.quotes.models import Quote, RateKind
from shoots.quotes.queries.pricing import price_quote
from tests import factories
from tests.quotes.factories import add_line, make_shoot_to_quote

pytestmark = pytest.mark.django_db

# Source: EN 16931-1 BR-CO-10 to 17, worked cases in tests/data/invoice_totals.json. Only those that rows of a quote can
# say: so many at one price for one piece, no allowance or charge on a line, no charge on the document, no rounding.
CASES = json.loads((Path(__file__).parents[1] / "data/invoice_totals.json").read_text())["cases"]


def can_be_quoted(case: dict[str, Any]) -> bool:
    given = case["input"]
    plain = all(
        line.get("base_qty", "1") == "1"
        and Decimal(line.get("line_allowance", "0")) == 0
        and Decimal(line.get("line_charge", "0")) == 0
        and Decimal(line["qty"]) > 0
        for line in given["lines"]
    )
    return plain and not given.get("charges") and Decimal(given.get("rounding", "0") or "0") == 0


@pytest.mark.parametrize("case", [c for c in CASES if can_be_quoted(c)], ids=lambda c: c["input"]["id"])
def test_totals_agree_with_the_worked_cases(case: dict[str, Any]) -> None:
    given, expected = case["input"], case["expected"]
    is_registered = all(line["vat_category"] != "O" for line in given["lines"])
    studio = factories.make_studio(vat_number="GB980780684" if is_registered else "")
    quote = make_quote(studio=studio, currency=given["currency"])
    for line in given["lines"]:
        add_line(
            quote,
            kind=RateKind.FEE,
            quantity=Decimal(line["qty"]),
            unit_price=Decimal(line["net_price"]),
            tax_category=line["vat_category"],
            tax_rate=Decimal(line.get("vat_rate") or 0),
        )
    allowances = given.get("allowances") or []
    totals = price_quote(quote, list(quote.lines.all())).offer
    assert totals is not None
    assert [str(net) for net in totals.totals.line_net] == expected["line_net"]
    assert str(totals.totals.sum_of_lines) == expected["BT106_sum_lines"]
    if not allowances:
        assert str(totals.totals.tax_exclusive) == expected["BT109_tax_exclusive"]
        assert str(totals.totals.vat) == expected["BT110_vat"]
        assert str(totals.totals.payable) == expected["BT112_tax_inclusive"]


def test_enough_of_the_worked_cases_can_be_quoted() -> None:
    assert len([case for case in CASES if can_be_quoted(case)]) >= 8


def make_quote(**fields: Any) -> Quote:
    studio = fields.pop("studio", None) or factories.make_studio()
    made = Quote.objects.create(studio=studio, shoot=make_shoot_to_quote(studio), number="Q-1", **fields)
    return Quote.objects.get(pk=made.pk)


def offer_of(quote: Quote) -> Any:
    return price_quote(quote, list(quote.lines.all())).offer


def test_a_discount_is_taken_off_before_tax() -> None:
    """Source: case PUB-11 of the same file, 800 − 120.55 at 20 %."""
    quote = make_quote(discount=Decimal("120.55"))
    add_line(quote, unit_price=Decimal(800))
    offer = offer_of(quote)
    assert (offer.totals.tax_exclusive, offer.totals.vat, offer.totals.payable) == (
        Decimal("679.45"),
        Decimal("135.89"),
        Decimal("815.34"),
    )


def test_a_mark_up_is_a_visible_part_of_its_line() -> None:
    """By hand: 6 × 14.50 = 87.00; 10 % of it 8.70; together 95.70."""
    quote = make_quote()
    add_line(quote, kind=RateKind.EXPENSE, quantity=6, unit_price=Decimal("14.50"), markup_percent=Decimal(10))
    ((_line, priced),) = price_quote(quote, list(quote.lines.all())).lines
    assert (priced.mark_up, priced.net) == (Decimal("8.70"), Decimal("95.70"))


def test_a_studio_without_vat_number_charges_no_vat_whatever_its_lines_say() -> None:
    """Source: VATA 1994 Sch. 11 para. 5 (from memory): an unregistered person must not show VAT; category O."""
    quote = make_quote(studio=factories.make_studio(vat_number=""))
    add_line(quote, tax_category="S", tax_rate=Decimal(20))
    offer = offer_of(quote)
    assert [str(part.category) for part in offer.totals.breakdown] == ["O"]
    assert (offer.totals.vat, offer.totals.payable) == (Decimal("0.00"), Decimal("1200.00"))


def test_a_line_of_none_is_printed_but_not_added() -> None:
    quote = make_quote()
    add_line(quote)
    add_line(quote, kind=RateKind.OVERTIME, description="Hours after", quantity=Decimal(0), unit_price=Decimal(150))
    pricing = price_quote(quote, list(quote.lines.all()))
    assert pricing.offer is not None
    assert pricing.offer.totals.sum_of_lines == Decimal(1200)
    assert [line.description for line in pricing.extras] == ["Hours after"]


def test_no_vat_beside_vat_is_said_and_not_added_up() -> None:
    quote = make_quote()
    add_line(quote)
    add_line(quote, tax_category="O")
    pricing = price_quote(quote, list(quote.lines.all()))
    assert pricing.offer is None
    assert "No VAT" in pricing.problem


def test_a_discount_larger_than_the_quote_is_said_and_not_added_up() -> None:
    quote = make_quote(discount=Decimal(5000))
    add_line(quote)
    pricing = price_quote(quote, list(quote.lines.all()))
    assert pricing.offer is None
    assert "discount" in pricing.problem


def test_deposit_and_balance_add_up_to_the_total() -> None:
    quote = make_quote(deposit_percent=Decimal("33.33"))
    add_line(quote, unit_price=Decimal("999.99"))
    offer = offer_of(quote)
    assert offer.deposit + offer.balance == offer.totals.payable == Decimal("1199.99")
