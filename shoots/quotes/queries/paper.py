"""What a quote says, as it is frozen when it is sent; pages, the PDF and the client read the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from shoots.documents.queries import studio_card
from shoots.members.models import Studio
from shoots.people.queries import party_card
from shoots.quotes.core.offer import offer_period
from shoots.quotes.core.pricing import PricedLine, Tax
from shoots.quotes.core.totals import VatCategory, document_decimals
from shoots.quotes.models import Quote, QuoteLine
from shoots.quotes.queries.card import KIND_LABELS
from shoots.quotes.queries.pricing import Pricing, price_quote
from shoots.rights.models import UsageTerms
from shoots.rights.queries.terms import frozen_terms, missing_terms
from shoots.rights.queries.words import usage_words
from shoots.shoot.models import ShootDay
from shoots.values.money import round_half_up


def number_words(value: Decimal) -> str:
    """Return 7.5 rather than 7.500."""
    return f"{value.normalize():f}"


def unit_words(unit: str, quantity: Decimal) -> str:
    """Return days for more than one day; a unit that is not known stays as it was typed."""
    many = 1 if quantity == 1 else 2
    known = {
        _("day"): ngettext("day", "days", many),
        _("half-day"): ngettext("half-day", "half-days", many),
        _("hour"): ngettext("hour", "hours", many),
        _("picture"): ngettext("picture", "pictures", many),
        _("mile"): ngettext("mile", "miles", many),
        _("night"): ngettext("night", "nights", many),
        _("person"): ngettext("person", "people", many),
    }
    return known.get(unit.strip(), unit)


def tax_label(tax: Tax) -> str:
    """Return VAT 20%, reverse charge, and so on."""
    rate = number_words(tax.rate) if tax.rate is not None else "0"
    return {
        VatCategory.STANDARD: _("VAT %(rate)s%%") % {"rate": rate},
        VatCategory.ZERO: _("VAT 0%, zero-rated"),
        VatCategory.EXEMPT: _("Exempt from VAT"),
        VatCategory.REVERSE_CHARGE: _("Reverse charge: the customer accounts for the VAT"),
    }.get(tax.category, _("No VAT"))


def tax_short(tax: Tax) -> str:
    """Return the label for a narrow column: 20%, exempt."""
    if tax.rate is not None and tax.category in (VatCategory.STANDARD, VatCategory.ZERO):
        return f"{number_words(tax.rate)}%"
    return {
        VatCategory.EXEMPT: _("exempt"),
        VatCategory.REVERSE_CHARGE: _("reverse charge"),
    }.get(tax.category, _("none"))


def open_until(sent_at: datetime, valid_days: int, zone: str) -> datetime:
    """Return the first moment at which a quote is no longer open: the studio's midnight after its last day."""
    period = offer_period(sent_at.astimezone(ZoneInfo(zone)).date(), valid_days)
    last = period.last_day or sent_at.date()
    return datetime.combine(last + timedelta(days=1), time(0), ZoneInfo(zone))


def last_day_of(valid_until: datetime, zone: str) -> date:
    """Return the last day on which a quote can be accepted."""
    return (valid_until - timedelta(seconds=1)).astimezone(ZoneInfo(zone)).date()


@dataclass(frozen=True)
class QuotePaper:
    """A draft with all that it would freeze: its rows, its price, and the content of its document."""

    lines: tuple[QuoteLine, ...]
    pricing: Pricing
    terms: UsageTerms | None
    content: dict[str, Any]


def _line_content(line: QuoteLine, priced: PricedLine, *, decimals: int) -> dict[str, Any]:
    notes = []
    if line.included_hours:
        hours = {"hours": number_words(line.included_hours)}
        notes.append(_("%(hours)s hours included, call to wrap") % hours)
    return {
        "pk": line.pk,
        "kind": line.kind,
        "kind_label": str(KIND_LABELS[line.kind]),
        "description": line.description,
        "quantity": number_words(line.quantity),
        "unit": line.unit,
        "unit_words": unit_words(line.unit, line.quantity),
        "unit_price": number_words(line.unit_price),
        "cost": round_half_up(line.quantity * line.unit_price, decimals),
        "mark_up": priced.mark_up,
        "mark_up_percent": number_words(line.markup_percent),
        "has_mark_up": bool(priced.mark_up),
        "notes": notes,
        "net": priced.net,
        "tax_label": tax_label(priced.tax),
        "tax_short": tax_short(priced.tax),
        "tax_category": str(priced.tax.category),
        "tax_rate": None if priced.tax.rate is None else number_words(priced.tax.rate),
        "is_fee": priced.is_fee,
    }


def _totals_content(quote: Quote, pricing: Pricing) -> dict[str, Any] | None:
    offer = pricing.offer
    if offer is None:
        return None
    totals = offer.totals
    return {
        "sum": totals.sum_of_lines,
        "discount": totals.allowances,
        "discount_percent": number_words(quote.discount_percent) if quote.discount_percent else "",
        "discount_reason": quote.discount_reason,
        "discount_parts": [
            {"label": tax_label(Tax(part.vat_category, part.vat_rate)), "amount": part.amount}
            for part in offer.allowances
        ],
        "net": totals.tax_exclusive,
        "vat": [
            {
                "label": tax_label(Tax(part.category, part.rate)),
                "base": part.taxable,
                "rate": "" if part.rate is None else number_words(part.rate),
                "tax": part.tax,
                "category": str(part.category),
            }
            for part in totals.breakdown
            if part.category is not VatCategory.OUTSIDE_SCOPE
        ],
        "vat_total": totals.vat,
        "gross": totals.payable,
        "deposit_percent": number_words(offer.deposit_percent),
        "deposit": offer.deposit,
        "balance": offer.balance,
    }


def _day_content(day: ShootDay) -> dict[str, Any]:
    place = day.place.name if day.place else ""
    state = pgettext("a date", "confirmed") if day.is_confirmed else pgettext("a date", "pencilled")
    return {"date": day.date, "place": place, "state": state}


def quote_paper(
    quote: Quote,
    *,
    lines: Sequence[QuoteLine] | None = None,
    issued_on: date,
    last_day: date | None,
) -> QuotePaper:
    """Return what the quote says today. Three queries; the quote brings its studio and its shoot's parties."""
    shoot, studio = quote.shoot, quote.studio
    own = tuple(quote.lines.all() if lines is None else lines)
    pricing = price_quote(quote, own)
    decimals = document_decimals(quote.currency)
    terms = UsageTerms.objects.filter(shoot=shoot).first()
    usage = None
    if terms is not None and not missing_terms(terms):
        frozen = frozen_terms(terms)
        usage = {"terms": frozen, "words": vars(usage_words(frozen))}
    days = ShootDay.objects.filter(shoot=shoot, released_at=None).select_related("place")
    contact = shoot.contact
    content = {
        "studio": studio_card(studio),
        "number": quote.number,
        "revision": quote.revision,
        "label": str(quote),
        "issued_on": issued_on,
        "last_day": last_day,
        "currency": quote.currency,
        "shows_vat": studio.is_vat_registered,
        "shoot": {"code": shoot.code, "title": shoot.title},
        "client": party_card(shoot.client) if shoot.client else None,
        "billed_to": party_card(shoot.billed_to) if shoot.billed_to else None,
        "licensee": party_card(shoot.licensed_party) if shoot.licensed_party else None,
        "contact": {"name": contact.name, "email": contact.email} if contact else None,
        "po_number": shoot.po_number,
        "days": [_day_content(day) for day in days if day.option_rank == 1],
        "introduction": quote.introduction,
        "conditions": quote.conditions,
        "lines": [_line_content(line, priced, decimals=decimals) for line, priced in pricing.lines],
        "extras": [
            {
                "pk": line.pk,
                "description": line.description,
                "unit": line.unit,
                "unit_price": number_words(line.unit_price),
            }
            for line in pricing.extras
        ],
        "totals": _totals_content(quote, pricing),
        "usage": usage,
    }
    # One rate for all needs no column of its own.
    content["rates_differ"] = len({(line["tax_category"], line["tax_rate"]) for line in content["lines"]}) > 1
    content["is_reverse_charge"] = any(line["tax_category"] == "AE" for line in content["lines"])
    return QuotePaper(own, pricing, terms, content)


def missing_in(quote: Quote, paper: QuotePaper) -> list[str]:
    """Return what has to be settled before the quote can go out, as sentences. No query."""
    missing = []
    if quote.shoot.client is None:
        missing.append(_("The shoot has no client yet."))
    if not paper.pricing.lines:
        missing.append(_("There is no line with an amount yet."))
    if paper.pricing.problem:
        missing.append(paper.pricing.problem)
    if paper.terms is None:
        missing.append(_("The usage is not settled: what may the client do with the pictures?"))
    else:
        missing += missing_terms(paper.terms)
    if paper.content["is_reverse_charge"]:
        payer = quote.shoot.paying_party
        if payer is None or not payer.vat_number:
            missing.append(_("Reverse charge needs the client's VAT number."))
    return missing


def suggests_reverse_charge(quote: Quote, paper: QuotePaper) -> bool:
    """Whether the payer is a business abroad with a VAT number while the lines carry VAT. No query."""
    payer, studio = quote.shoot.paying_party, quote.studio
    return bool(
        studio.is_vat_registered
        and payer is not None
        and payer.vat_number
        and payer.country != studio.country
        and any(line["tax_category"] == "S" for line in paper.content["lines"])
    )


def studio_addresses(studio: Studio) -> list[tuple[str, str]]:
    """Return where mail for the studio goes: its own address, else its owners'. One query at most."""
    if studio.email:
        return [(studio.email, studio.name)]
    owners = studio.members.filter(role="OWNER", left_at=None).select_related("user")
    return [(member.user.email, str(member.user)) for member in owners]


def quotes_with_parties() -> Any:
    """Return quotes with everything that their paper reads of their shoot."""
    return Quote.objects.select_related(
        "studio",
        "shoot__studio",
        "shoot__client",
        "shoot__contact",
        "shoot__licensee",
        "shoot__billed_to",
        "document",
        "acceptance_document",
        "link",
    )
