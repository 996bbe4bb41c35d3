"""Quoted lines as the core prices them, and a draft's totals."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext as _

from shoots.quotes.core.card import Charge, Typed
from shoots.quotes.core.offer import Discount, DiscountNotPossible, Offer, price_offer
from shoots.quotes.core.pricing import OUTSIDE_SCOPE, PricedLine, Tax, price_item
from shoots.quotes.core.totals import OutsideScopeMixed, VatCategory
from shoots.quotes.models import Priced, Quote, QuoteLine


def tax_of(line: Priced, *, is_registered: bool) -> Tax:
    """Return how a line is taxed; a studio that is not registered for VAT charges none. No query."""
    category = VatCategory(line.tax_category)
    if not is_registered or category is VatCategory.OUTSIDE_SCOPE:
        return OUTSIDE_SCOPE
    return Tax(category, line.tax_rate if category is VatCategory.STANDARD else Decimal(0))


def priced_line(line: QuoteLine, *, currency: str, is_registered: bool) -> PricedLine:
    """Return a quoted line with its mark-up and net amount. No query."""
    typed = Typed(
        charge=Charge(line.kind),
        quantity=Decimal(line.quantity),
        unit_price=line.unit_price,
        # A row that was never read back still holds the plain number of its default.
        mark_up_percent=Decimal(line.markup_percent),
    )
    (priced,) = price_item(typed, currency=currency, tax=tax_of(line, is_registered=is_registered))
    return priced


def discount_of(quote: Quote) -> Discount | None:
    """Return the quote's discount as the core takes it. No query."""
    if quote.discount_percent:
        return Discount(percent=quote.discount_percent, reason=quote.discount_reason)
    if quote.discount:
        return Discount(amount=quote.discount, reason=quote.discount_reason)
    return None


@dataclass(frozen=True)
class Pricing:
    """A quote's lines with their amounts; `offer` is None while `problem` says why nothing can be added up."""

    lines: tuple[tuple[QuoteLine, PricedLine], ...]
    extras: tuple[QuoteLine, ...]
    offer: Offer | None
    problem: str = ""


def price_quote(quote: Quote, lines: Sequence[QuoteLine]) -> Pricing:
    """Return the totals of a quote from its lines. A line of none is charged only if it happens. No query."""
    is_registered = quote.studio.is_vat_registered
    counted = [
        (line, priced_line(line, currency=quote.currency, is_registered=is_registered))
        for line in lines
        if line.quantity
    ]
    extras = tuple(line for line in lines if not line.quantity)
    try:
        offer = _offer(quote, (priced for _line, priced in counted))
    except DiscountNotPossible:
        return Pricing(tuple(counted), extras, None, _("The discount is larger than what it is taken from."))
    except OutsideScopeMixed:
        problem = _("“No VAT” can't stand beside other VAT in one quote. Change the VAT of a line.")
        return Pricing(tuple(counted), extras, None, problem)
    return Pricing(tuple(counted), extras, offer)


def _offer(quote: Quote, lines: Iterable[PricedLine]) -> Offer:
    return price_offer(
        lines,
        currency=quote.currency,
        discount=discount_of(quote),
        deposit_percent=Decimal(quote.deposit_percent),
    )
