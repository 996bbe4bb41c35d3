"""Totals of a quote or an invoice, as EN 16931 computes them.

Line amounts are rounded, then added; tax is taken once per category and rate from the sum of net amounts
and rounded there; rounded amounts are added and never rounded again. The names in brackets are the
standard's business terms.

References
----------
.. [1] EN 16931-1:2017, rules BR-CO-10 to BR-CO-17, BR-S-08, BR-27, BR-DEC-01 to BR-DEC-28, BR-O-05,
   BR-O-11 to BR-O-14 (rule ids of the official artefact, release 1.3.16).
.. [2] Peppol BIS Billing 3, "Calculation of totals": the parts of a line are rounded separately.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import MAX_EMAX, MIN_EMIN, ROUND_HALF_UP, Context, Decimal
from enum import StrEnum

from shoots.values.money import minor_units, round_half_up

# Quotients need guard digits beyond any amount; 60 keep a tie a tie.
_EXACT = Context(prec=60, rounding=ROUND_HALF_UP, Emin=MIN_EMIN, Emax=MAX_EMAX)
_ZERO = Decimal(0)
_LARGEST = Decimal(10) ** 12  # far beyond any shoot; keeps every later sum exact


class VatCategory(StrEnum):
    """How a line is taxed (code list UNCL5305, the values that EN 16931 uses)."""

    STANDARD = "S"
    ZERO = "Z"
    EXEMPT = "E"
    REVERSE_CHARGE = "AE"
    OUTSIDE_SCOPE = "O"
    EXPORT = "G"
    INTRA_COMMUNITY = "K"


class NegativePrice(ValueError):
    """Raised when a unit price is below zero; use a negative quantity or an allowance (BR-27)."""


class VatRateMismatch(ValueError):
    """Raised when a category and its rate don't go together (BR-S-05, BR-Z-05, BR-O-05 and alike)."""


class OutsideScopeMixed(ValueError):
    """Raised when "outside scope" meets another tax category in one document (BR-O-11 to BR-O-14)."""


class AmountNotPossible(ValueError):
    """Raised when a quantity, an allowance or a charge cannot be meant."""


def _check_rate(category: VatCategory, rate: Decimal | None) -> None:
    if category is VatCategory.OUTSIDE_SCOPE:
        fits = rate is None
    elif category is VatCategory.STANDARD:
        fits = rate is not None and rate.is_finite() and _ZERO < rate <= 100
    else:
        fits = rate is not None and rate.is_zero()
    if not fits:
        raise VatRateMismatch(f"{category} {rate}")


def _check_size(*amounts: Decimal) -> None:
    if not all(amount.is_finite() and abs(amount) < _LARGEST for amount in amounts):
        raise AmountNotPossible("An amount is a number below a million millions.")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a quote or invoice, as far as arithmetic goes.

    Parameters
    ----------
    quantity : Decimal
        Quantity (BT-129); negative to take something back. [units]
    net_price : Decimal
        Price without tax of ``base_quantity`` units (BT-146), at least 0, any decimals. [currency units]
    base_quantity : Decimal
        Units that the price is for (BT-149), greater than 0. [units]
    line_allowance : Decimal
        Taken off this line (BT-136), at least 0. [currency units]
    line_charge : Decimal
        Added to this line (BT-141), at least 0. [currency units]
    vat_category : VatCategory
        How the line is taxed (BT-151).
    vat_rate : Decimal, optional
        Rate (BT-152); above 0 for the standard category, 0 for others, None outside scope. [%]

    Raises
    ------
    NegativePrice
        If ``net_price`` is below 0.
    VatRateMismatch
        If category and rate don't go together.
    AmountNotPossible
        If ``base_quantity`` is not above 0, an allowance or charge is below 0, or a number is not finite
        or too large.

    Examples
    --------
    >>> Line(Decimal("7.5"), Decimal("86.6675"), vat_rate=Decimal(20)).net()
    Decimal('650.01')
    """

    quantity: Decimal
    net_price: Decimal
    base_quantity: Decimal = Decimal(1)
    line_allowance: Decimal = _ZERO
    line_charge: Decimal = _ZERO
    vat_category: VatCategory = VatCategory.STANDARD
    vat_rate: Decimal | None = None

    def __post_init__(self) -> None:
        _check_size(self.quantity, self.net_price, self.base_quantity, self.line_allowance, self.line_charge)
        if self.net_price < 0:
            raise NegativePrice(str(self.net_price))
        if self.base_quantity <= 0:
            raise AmountNotPossible("A price is for more than nothing.")
        if self.line_allowance < 0 or self.line_charge < 0:
            raise AmountNotPossible("An allowance and a charge are at least 0.")
        _check_rate(self.vat_category, self.vat_rate)

    def net(self, decimals: int = 2) -> Decimal:
        """Return the line's net amount (BT-131), its parts rounded separately."""
        gross = _EXACT.divide(_EXACT.multiply(self.quantity, self.net_price), self.base_quantity)
        charge = round_half_up(self.line_charge, decimals)
        allowance = round_half_up(self.line_allowance, decimals)
        net = round_half_up(gross, decimals) + charge - allowance
        _check_size(net)
        return net


@dataclass(frozen=True, slots=True)
class DocumentAmount:
    """A discount or charge on the whole document, within one tax category (BG-20, BG-21).

    Parameters
    ----------
    amount : Decimal
        What is taken off or added (BT-92, BT-99), at least 0. [currency units]
    vat_category : VatCategory
        Category whose base it changes (BT-95, BT-102).
    vat_rate : Decimal, optional
        Rate of that category (BT-96, BT-103). [%]
    reason : str
        Why (BT-97, BT-104), in the document's language.

    Raises
    ------
    AmountNotPossible
        If ``amount`` is below 0, not finite or too large.
    VatRateMismatch
        If category and rate don't go together.
    """

    amount: Decimal
    vat_category: VatCategory = VatCategory.STANDARD
    vat_rate: Decimal | None = None
    reason: str = ""

    def __post_init__(self) -> None:
        _check_size(self.amount)
        if self.amount < 0:
            raise AmountNotPossible("An allowance and a charge are at least 0.")
        _check_rate(self.vat_category, self.vat_rate)


@dataclass(frozen=True, slots=True)
class VatSubtotal:
    """Tax of one category and rate (BG-23): base (BT-116), tax (BT-117), rate (BT-119) or None."""

    category: VatCategory
    rate: Decimal | None
    taxable: Decimal
    tax: Decimal


@dataclass(frozen=True, slots=True)
class Totals:
    """Everything that stands below the lines; all amounts rounded. [currency units]

    ``line_net`` is in the order of the lines, ``breakdown`` in the order in which the categories and
    rates first appear.
    """

    currency: str
    line_net: tuple[Decimal, ...]
    sum_of_lines: Decimal
    allowances: Decimal
    charges: Decimal
    tax_exclusive: Decimal
    vat: Decimal
    tax_inclusive: Decimal
    prepaid: Decimal
    rounding: Decimal
    payable: Decimal
    breakdown: tuple[VatSubtotal, ...]


def _percent(base: Decimal, rate: Decimal) -> Decimal:
    return _EXACT.divide(_EXACT.multiply(base, rate), Decimal(100))


def document_decimals(currency: str) -> int:
    """Return the decimals of every amount in a document: those of the currency, at most two.

    Parameters
    ----------
    currency : str
        ISO 4217 code.

    Returns
    -------
    int
        0, 1 or 2; two is the most that EN 16931 can carry (BR-DEC), so fils are rounded away. [1]

    Raises
    ------
    UnknownCurrency
        If ``currency`` is not a currency.

    Examples
    --------
    >>> document_decimals("GBP"), document_decimals("JPY"), document_decimals("KWD")
    (2, 0, 2)
    """
    return min(2, minor_units(currency))


def compute_totals(
    lines: Sequence[Line],
    *,
    currency: str,
    allowances: Iterable[DocumentAmount] = (),
    charges: Iterable[DocumentAmount] = (),
    prepaid: Decimal = _ZERO,
    rounding: Decimal = _ZERO,
) -> Totals:
    """Return the totals of a document from its lines.

    Parameters
    ----------
    lines : Sequence[Line]
        The lines in printing order; none at all gives zeros.
    currency : str
        ISO 4217 code of the document (BT-5).
    allowances : Iterable[DocumentAmount]
        Discounts on the document.
    charges : Iterable[DocumentAmount]
        Charges on the document.
    prepaid : Decimal
        Already paid, tax included (BT-113). [currency units]
    rounding : Decimal
        Added to what is payable, for cash rounding (BT-114); may be negative. [currency units]

    Returns
    -------
    Totals
        Totals and the tax breakdown.

    Raises
    ------
    OutsideScopeMixed
        If "outside scope" stands beside another category.
    UnknownCurrency
        If ``currency`` is not a currency.
    AmountNotPossible
        If ``prepaid`` or ``rounding`` is not finite or too large.

    References
    ----------
    EN 16931-1:2017, BR-CO-10 to BR-CO-17; worked cases in tests/data/invoice_totals.json.

    Examples
    --------
    >>> day = Line(Decimal(2), Decimal("950.00"), vat_rate=Decimal(20))
    >>> discount = DocumentAmount(Decimal("95.00"), vat_rate=Decimal(20))
    >>> totals = compute_totals([day], currency="GBP", allowances=[discount])
    >>> totals.tax_exclusive, totals.vat, totals.payable
    (Decimal('1805.00'), Decimal('361.00'), Decimal('2166.00'))
    """
    _check_size(prepaid, rounding)
    decimals = document_decimals(currency)
    nothing = round_half_up(_ZERO, decimals)
    bases: dict[tuple[VatCategory, Decimal | None], Decimal] = {}

    def book(category: VatCategory, rate: Decimal | None, amount: Decimal) -> Decimal:
        bases[category, rate] = bases.get((category, rate), nothing) + amount
        return amount

    line_net = tuple(book(line.vat_category, line.vat_rate, line.net(decimals)) for line in lines)
    taken_off = added = nothing
    for item in allowances:
        amount = round_half_up(item.amount, decimals)
        taken_off -= book(item.vat_category, item.vat_rate, -amount)
    for item in charges:
        added += book(item.vat_category, item.vat_rate, round_half_up(item.amount, decimals))

    categories = {category for category, _ in bases}
    if VatCategory.OUTSIDE_SCOPE in categories and len(categories) > 1:
        raise OutsideScopeMixed
    breakdown = tuple(
        VatSubtotal(category, rate, base, round_half_up(_percent(base, rate or _ZERO), decimals))
        for (category, rate), base in bases.items()
    )

    sum_of_lines = sum(line_net, nothing)
    tax_exclusive = sum_of_lines - taken_off + added
    vat = sum((subtotal.tax for subtotal in breakdown), nothing)
    paid, rounded_by = round_half_up(prepaid, decimals), round_half_up(rounding, decimals)
    tax_inclusive = tax_exclusive + vat
    return Totals(
        currency=currency,
        line_net=line_net,
        sum_of_lines=sum_of_lines,
        allowances=taken_off,
        charges=added,
        tax_exclusive=tax_exclusive,
        vat=vat,
        tax_inclusive=tax_inclusive,
        prepaid=paid,
        rounding=rounded_by,
        payable=tax_inclusive - paid + rounded_by,
        breakdown=breakdown,
    )


def vat_in_other_currency(vat: Decimal, rate: Decimal, currency: str) -> Decimal:
    """Return the tax total in the currency of the seller's tax accounts (BT-111).

    Parameters
    ----------
    vat : Decimal
        Tax total of the document (BT-110). [currency units]
    rate : Decimal
        Units of the accounting currency for one unit of the document's, greater than 0. [1]
    currency : str
        ISO 4217 code of the accounting currency (BT-6).

    Returns
    -------
    Decimal
        Tax in the accounting currency, rounded. [currency units]

    Raises
    ------
    AmountNotPossible
        If ``rate`` is not above 0 or anything is not finite or too large.

    Examples
    --------
    >>> vat_in_other_currency(Decimal("200.00"), Decimal("0.85"), "GBP")
    Decimal('170.00')
    """
    _check_size(vat, rate)
    if rate <= 0:
        raise AmountNotPossible("An exchange rate is above 0.")
    return round_half_up(_EXACT.multiply(vat, rate), document_decimals(currency))
