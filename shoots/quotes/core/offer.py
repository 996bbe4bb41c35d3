"""A quote as a whole: lines, discount, tax, deposit and how long the offer stands.

References
----------
.. [1] A discount on the document belongs to a tax category and rate (EN 16931-1, BG-20, BR-S-08); one sum
   for all is shared out in proportion to the nets by largest remainder, so that the parts add up (own
   rule, see tests).
.. [2] Deposit and validity are common practice; no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from shoots.quotes.core.card import Charge
from shoots.quotes.core.pricing import PricedLine
from shoots.quotes.core.totals import (
    DocumentAmount,
    Totals,
    VatCategory,
    compute_totals,
    document_decimals,
)
from shoots.values.money import round_half_up
from shoots.values.periods import Period

_ZERO, _HUNDRED = Decimal(0), Decimal(100)


class DiscountNotPossible(ValueError):
    """Raised when a discount is below 0, above what it is taken from, or both a share and a sum."""


class ShareNotPossible(ValueError):
    """Raised when a deposit share is not between 0 and 100 per cent."""


class ValidityNotPossible(ValueError):
    """Raised when an offer would stand for less than a day or more than ten years."""


@dataclass(frozen=True, slots=True)
class Discount:
    """A share or a sum off the quote, on all lines or on some kinds of them.

    Parameters
    ----------
    percent : Decimal, optional
        Share taken off, 0 to 100; leave out when ``amount`` is given. [%]
    amount : Decimal, optional
        Sum taken off before tax, at least 0; leave out when ``percent`` is given. [currency units]
    charges : frozenset[Charge], optional
        Kinds of line that it applies to; all when left out.
    reason : str
        Why, in the document's language.

    Raises
    ------
    DiscountNotPossible
        If not exactly one of ``percent`` and ``amount`` is given, or it is out of range.
    """

    percent: Decimal | None = None
    amount: Decimal | None = None
    charges: frozenset[Charge] | None = None
    reason: str = ""

    def __post_init__(self) -> None:
        if (self.percent is None) == (self.amount is None):
            raise DiscountNotPossible("A discount is either a share or a sum.")
        value = self.percent if self.percent is not None else self.amount
        if value is None or not value.is_finite() or value < 0:
            raise DiscountNotPossible("A discount is at least 0.")
        if self.percent is not None and self.percent > _HUNDRED:
            raise DiscountNotPossible("Nobody takes off more than everything.")


@dataclass(frozen=True, slots=True)
class Offer:
    """A priced quote. ``deposit`` and ``balance`` include tax and add up to what is payable."""

    lines: tuple[PricedLine, ...]
    totals: Totals
    allowances: tuple[DocumentAmount, ...]
    deposit_percent: Decimal
    deposit: Decimal
    balance: Decimal


def discount_allowances(lines: Iterable[PricedLine], discount: Discount, currency: str) -> tuple[DocumentAmount, ...]:
    """Return the discount as one allowance for each tax category and rate that it touches.

    Parameters
    ----------
    lines : Iterable[PricedLine]
        The priced lines.
    discount : Discount
        What is taken off.
    currency : str
        ISO 4217 code of the quote.

    Returns
    -------
    tuple[DocumentAmount, ...]
        Allowances that add up to the discount; none when it takes nothing off.

    Raises
    ------
    DiscountNotPossible
        If a sum is larger than the lines that it applies to.

    Examples
    --------
    >>> from shoots.quotes.core.card import LicenceFee
    >>> from shoots.quotes.core.pricing import Tax, price_item
    >>> lines = price_item(LicenceFee(Decimal(900)), currency="GBP", tax=Tax(rate=Decimal(20)))
    >>> discount_allowances(lines, Discount(percent=Decimal(10)), "GBP")[0].amount
    Decimal('90.00')
    """
    bases: dict[tuple[VatCategory, Decimal | None], Decimal] = {}
    for line in lines:
        if discount.charges is None or line.charge in discount.charges:
            group = line.tax.category, line.tax.rate
            bases[group] = bases.get(group, _ZERO) + line.net
    return allowances_over(bases, discount, currency)


def allowances_over(
    bases: Mapping[tuple[VatCategory, Decimal | None], Decimal], discount: Discount, currency: str
) -> tuple[DocumentAmount, ...]:
    """Return a discount shared out over tax categories and rates, as quotes and invoices both need it.

    Parameters
    ----------
    bases : Mapping[tuple[VatCategory, Decimal | None], Decimal]
        Net sum of each category and rate. [currency units]
    discount : Discount
        What is taken off; its ``charges`` were applied by the caller.
    currency : str
        ISO 4217 code of the document.

    Returns
    -------
    tuple[DocumentAmount, ...]
        Allowances that add up to the discount; none when it takes nothing off.

    Raises
    ------
    DiscountNotPossible
        If a sum is larger than the nets together.

    Examples
    --------
    >>> bases = {(VatCategory.STANDARD, Decimal(20)): Decimal(300), (VatCategory.ZERO, Decimal(0)): Decimal(100)}
    >>> [part.amount for part in allowances_over(bases, Discount(amount=Decimal(10)), "GBP")]
    [Decimal('7.50'), Decimal('2.50')]
    """
    decimals = document_decimals(currency)
    if discount.percent is not None:
        parts = [round_half_up(base * discount.percent / _HUNDRED, decimals) for base in bases.values()]
    else:
        amount = round_half_up(discount.amount or _ZERO, decimals)
        if amount > sum(bases.values(), _ZERO):
            raise DiscountNotPossible("A discount is no larger than what it is taken from.")
        parts = _shared_out(amount, list(bases.values()), decimals)
    return tuple(
        DocumentAmount(part, category, rate, discount.reason)
        for (category, rate), part in zip(bases, parts, strict=True)
        if part
    )


def _shared_out(amount: Decimal, bases: Sequence[Decimal], decimals: int) -> list[Decimal]:
    """Split an amount in proportion to the bases, so that the parts add up to it exactly."""
    whole = sum(bases, _ZERO)
    if not amount or not whole:
        return [_ZERO for _ in bases]
    penny = Decimal(1).scaleb(-decimals)
    pennies, whole_pennies = int(amount / penny), int(whole / penny)
    shares = [divmod(pennies * int(base / penny), whole_pennies) for base in bases]
    parts = [share for share, _ in shares]
    largest_first = sorted(range(len(shares)), key=lambda index: -shares[index][1])
    for index in largest_first[: pennies - sum(parts)]:
        parts[index] += 1
    return [part * penny for part in parts]


def price_offer(
    lines: Iterable[PricedLine],
    *,
    currency: str,
    discount: Discount | None = None,
    deposit_percent: Decimal = _ZERO,
) -> Offer:
    """Return the quote with its totals, deposit and balance.

    Parameters
    ----------
    lines : Iterable[PricedLine]
        Lines in printing order, all in ``currency``.
    currency : str
        ISO 4217 code of the quote.
    discount : Discount, optional
        What is taken off before tax.
    deposit_percent : Decimal
        Share of the payable sum due before the shoot, 0 to 100. [%]

    Returns
    -------
    Offer
        Lines, totals as EN 16931 computes them, deposit and balance.

    Raises
    ------
    DiscountNotPossible
        If the discount is larger than what it is taken from.
    ShareNotPossible
        If ``deposit_percent`` is not between 0 and 100.
    OutsideScopeMixed
        If "outside scope" stands beside another tax category.

    Examples
    --------
    >>> from shoots.quotes.core.card import LicenceFee
    >>> from shoots.quotes.core.pricing import Tax, price_item
    >>> lines = price_item(LicenceFee(Decimal(900)), currency="GBP", tax=Tax(rate=Decimal(20)))
    >>> offer = price_offer(lines, currency="GBP", deposit_percent=Decimal(50))
    >>> offer.totals.payable, offer.deposit, offer.balance
    (Decimal('1080.00'), Decimal('540.00'), Decimal('540.00'))
    """
    if not deposit_percent.is_finite() or not _ZERO <= deposit_percent <= _HUNDRED:
        raise ShareNotPossible(str(deposit_percent))
    kept = tuple(lines)
    allowances = () if discount is None else discount_allowances(kept, discount, currency)
    totals = compute_totals([line.as_line() for line in kept], currency=currency, allowances=allowances)
    deposit = round_half_up(totals.payable * deposit_percent / _HUNDRED, document_decimals(currency))
    return Offer(kept, totals, allowances, deposit_percent, deposit, totals.payable - deposit)


def offer_period(sent_on: date, valid_days: int) -> Period:
    """Return the days on which an offer may be accepted.

    Parameters
    ----------
    sent_on : date
        Day on which the quote was sent.
    valid_days : int
        Days that it stands after that day, 1 to 3650. [d]

    Returns
    -------
    Period
        From the day of sending; the last day is ``valid_days`` later, as a payment term would count.

    Raises
    ------
    ValidityNotPossible
        If ``valid_days`` is out of range.

    Examples
    --------
    >>> offer_period(date(2026, 3, 2), 30).last_day
    datetime.date(2026, 4, 1)
    """
    if not 1 <= valid_days <= 3650:
        raise ValidityNotPossible(str(valid_days))
    return Period(sent_on, sent_on + timedelta(days=valid_days + 1))
