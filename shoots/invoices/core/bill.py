"""An invoice as it stands: its totals, what is still owed, and what the law wants on it before it may be issued.

References
----------
.. [1] Totals: EN 16931-1:2017, as in `shoots.quotes.core.totals`.
.. [2] Contents of an invoice: VAT Regulations 1995 (SI 1995/2518) reg. 14(1); gov.uk, "Invoices: what they must
   include"; Directive 2006/112/EC Art. 226. No tax advice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shoots.quotes.core.offer import Discount, allowances_over
from shoots.quotes.core.totals import (
    DocumentAmount,
    Line,
    Totals,
    VatCategory,
    VatSubtotal,
    compute_totals,
    document_decimals,
)
from shoots.values.money import round_half_up

_ZERO, _HUNDRED = Decimal(0), Decimal(100)


@dataclass(frozen=True, slots=True)
class BillLine:
    """A line as it is printed, with what its arithmetic needs."""

    description: str
    quantity: Decimal
    unit: str
    unit_price: Decimal
    tax_category: VatCategory
    tax_rate: Decimal

    def as_line(self) -> Line:
        """Return the line for the totals; outside the scope of VAT there is no rate."""
        rate = None if self.tax_category is VatCategory.OUTSIDE_SCOPE else self.tax_rate
        return Line(self.quantity, self.unit_price, vat_category=self.tax_category, vat_rate=rate)


@dataclass(frozen=True, slots=True)
class Bill:
    """Lines, document discounts and totals."""

    lines: tuple[BillLine, ...]
    allowances: tuple[DocumentAmount, ...]
    totals: Totals


def make_bill(lines: Sequence[BillLine], *, currency: str, discount: Decimal = _ZERO, reason: str = "") -> Bill:
    """Return an invoice's totals from its lines and its discount.

    Parameters
    ----------
    lines : Sequence[BillLine]
        In printing order; a negative quantity takes something back.
    currency : str
        ISO 4217 code.
    discount : Decimal
        Taken off the whole, at least 0. [currency units]
    reason : str
        Why, in the document's language.

    Returns
    -------
    Bill
        Lines, allowances, totals.

    Raises
    ------
    DiscountNotPossible
        If the discount is larger than the lines together.
    OutsideScopeMixed
        If "outside scope" stands beside another tax category.

    Examples
    --------
    >>> line = BillLine("Day", Decimal(2), "day", Decimal("950"), VatCategory.STANDARD, Decimal(20))
    >>> make_bill([line], currency="GBP", discount=Decimal(95)).totals.payable
    Decimal('2166.00')
    """
    plain = [line.as_line() for line in lines]
    allowances: tuple[DocumentAmount, ...] = ()
    if discount:
        bases: dict[tuple[VatCategory, Decimal | None], Decimal] = {}
        for line in plain:
            group = line.vat_category, line.vat_rate
            bases[group] = bases.get(group, _ZERO) + line.net(document_decimals(currency))
        allowances = allowances_over(bases, Discount(amount=discount, reason=reason), currency)
    return Bill(tuple(lines), allowances, compute_totals(plain, currency=currency, allowances=allowances))


def deposit_parts(breakdown: Iterable[VatSubtotal], percent: Decimal, currency: str) -> tuple[VatSubtotal, ...]:
    """Return the share of each tax category that a deposit invoice asks for.

    Parameters
    ----------
    breakdown : Iterable[VatSubtotal]
        The quote's tax breakdown.
    percent : Decimal
        Share of the whole, 0 to 100. [%]
    currency : str
        ISO 4217 code; sums are rounded to its smallest unit.

    Returns
    -------
    tuple[VatSubtotal, ...]
        Each category's share of the net, rounded half-up; its tax is left to the invoice's own totals.

    References
    ----------
    .. [1] A deposit makes a tax point for its own amount: VAT Act 1994 s.6(4) (from memory).

    Examples
    --------
    >>> whole = VatSubtotal(VatCategory.STANDARD, Decimal(20), Decimal("1805.01"), Decimal("361.00"))
    >>> deposit_parts([whole], Decimal(50), "GBP")[0].taxable
    Decimal('902.51')
    """
    decimals = document_decimals(currency)
    return tuple(
        VatSubtotal(part.category, part.rate, round_half_up(part.taxable * percent / _HUNDRED, decimals), _ZERO)
        for part in breakdown
        if part.taxable > 0
    )


def open_amount(payable: Decimal, *, paid: Iterable[Decimal], credited: Iterable[Decimal]) -> Decimal:
    """Return what is still owed on an invoice.

    Parameters
    ----------
    payable : Decimal
        What it asked for, tax included. [currency units]
    paid : Iterable[Decimal]
        Payments that came in. [currency units]
    credited : Iterable[Decimal]
        Totals of its credit notes, tax included. [currency units]

    Returns
    -------
    Decimal
        At least 0 as long as nobody overpaid. [currency units]

    Examples
    --------
    >>> open_amount(Decimal(1200), paid=[Decimal(500)], credited=[Decimal(100)])
    Decimal('600')
    """
    return payable - sum(paid, _ZERO) - sum(credited, _ZERO)


class Missing(StrEnum):
    """What stands between a draft and its issue."""

    LINES = "LINES"
    NOTHING_PAYABLE = "NOTHING_PAYABLE"
    SELLER_ADDRESS = "SELLER_ADDRESS"
    BUYER = "BUYER"
    BUYER_ADDRESS = "BUYER_ADDRESS"
    SUPPLY_DATE = "SUPPLY_DATE"
    SELLER_VAT_NUMBER = "SELLER_VAT_NUMBER"
    BUYER_VAT_NUMBER = "BUYER_VAT_NUMBER"
    NOT_REGISTERED = "NOT_REGISTERED"
    DUE_BEFORE_ISSUE = "DUE_BEFORE_ISSUE"


@dataclass(frozen=True, slots=True)
class Particulars:
    """What is known of the two parties and the day, as far as the law asks."""

    seller_address: str
    seller_vat_number: str
    has_buyer: bool
    buyer_address: str
    buyer_vat_number: str
    has_supply_date: bool
    due_before_issue: bool


def missing_particulars(particulars: Particulars, bill: Bill) -> tuple[Missing, ...]:
    """Return everything that has to be filled in before an invoice may be issued, in the order of a form.

    Parameters
    ----------
    particulars : Particulars
        What is known.
    bill : Bill
        Its lines and totals.

    Returns
    -------
    tuple[Missing, ...]
        Nothing when it may be issued. A number is not missing: issuing gives it.

    References
    ----------
    .. [1] VAT Regulations 1995 reg. 14(1); VAT Act 1994 Sch. 11 para. 5 (an unregistered person must not show
       VAT; from memory); EN 16931-1 BR-S-02, BR-AE-02.

    Examples
    --------
    >>> known = Particulars("4 Yard", "", True, "9 Lane", "", True, False)
    >>> missing_particulars(known, make_bill([], currency="GBP"))
    (<Missing.LINES: 'LINES'>, <Missing.NOTHING_PAYABLE: 'NOTHING_PAYABLE'>)
    """
    categories = {part.category for part in bill.totals.breakdown}
    rules = (
        (Missing.LINES, not bill.lines),
        (Missing.NOTHING_PAYABLE, bill.totals.payable <= 0),
        (Missing.SELLER_ADDRESS, not particulars.seller_address.strip()),
        (Missing.BUYER, not particulars.has_buyer),
        (Missing.BUYER_ADDRESS, particulars.has_buyer and not particulars.buyer_address.strip()),
        (Missing.SUPPLY_DATE, not particulars.has_supply_date),
        (Missing.NOT_REGISTERED, VatCategory.STANDARD in categories and not particulars.seller_vat_number),
        (
            Missing.SELLER_VAT_NUMBER,
            bool(categories & {VatCategory.REVERSE_CHARGE, VatCategory.ZERO}) and not particulars.seller_vat_number,
        ),
        (
            Missing.BUYER_VAT_NUMBER,
            VatCategory.REVERSE_CHARGE in categories and particulars.has_buyer and not particulars.buyer_vat_number,
        ),
        (Missing.DUE_BEFORE_ISSUE, particulars.due_before_issue),
    )
    return tuple(code for code, applies in rules if applies)
