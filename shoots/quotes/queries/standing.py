"""Where quotes stand, and the quotes of a shoot."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from enum import StrEnum
from zoneinfo import ZoneInfo

from babel.dates import format_date
from django.utils.translation import gettext as _

from shoots.documents.models import IssuedDocument
from shoots.quotes.models import Quote
from shoots.quotes.queries.paper import last_day_of, quotes_with_parties
from shoots.quotes.queries.pricing import price_quote
from shoots.shoot.models import Shoot


class QuoteState(StrEnum):
    """What follows from a quote's facts at a moment; the first that holds."""

    ACCEPTED = "ACCEPTED"
    DECLINED = "DECLINED"
    REPLACED = "REPLACED"
    DRAFT = "DRAFT"
    LAPSED = "LAPSED"
    BEING_MADE = "BEING_MADE"
    OPEN = "OPEN"


def state_of(quote: Quote, *, now: datetime) -> QuoteState:
    """Return where a quote stands. One query unless its document was selected with it."""
    if quote.accepted_at is not None:
        return QuoteState.ACCEPTED
    if quote.declined_at is not None:
        return QuoteState.DECLINED
    if quote.replaced_at is not None:
        return QuoteState.REPLACED
    if quote.sent_at is None:
        return QuoteState.DRAFT
    if quote.valid_until is None or quote.valid_until <= now:
        return QuoteState.LAPSED
    if quote.document is None or not quote.document.is_rendered:
        return QuoteState.BEING_MADE
    return QuoteState.OPEN


@dataclass(frozen=True)
class QuoteRow:
    """One version as a list shows it."""

    quote: Quote
    state: QuoteState
    tag: str
    tone: str
    sentence: str
    gross: Decimal | None

    @property
    def is_draft(self) -> bool:
        return self.state is QuoteState.DRAFT

    @property
    def is_open(self) -> bool:
        return self.state is QuoteState.OPEN

    @property
    def is_being_made(self) -> bool:
        return self.state is QuoteState.BEING_MADE

    @property
    def is_accepted(self) -> bool:
        return self.state is QuoteState.ACCEPTED

    @property
    def is_declined(self) -> bool:
        return self.state is QuoteState.DECLINED

    @property
    def is_replaced(self) -> bool:
        return self.state is QuoteState.REPLACED

    @property
    def is_lapsed(self) -> bool:
        return self.state is QuoteState.LAPSED

    @property
    def is_unanswered(self) -> bool:
        """Whether the studio may still write down the client's answer."""
        return self.state in (QuoteState.OPEN, QuoteState.BEING_MADE, QuoteState.LAPSED)

    @property
    def is_over(self) -> bool:
        return self.state in (QuoteState.REPLACED, QuoteState.DECLINED, QuoteState.LAPSED)


def day_words(moment: datetime, zone: str) -> str:
    """Return Tue 9 June in the studio's days."""
    return str(format_date(moment.astimezone(ZoneInfo(zone)).date(), "EEE d MMMM", locale="en_GB"))


def _tag(state: QuoteState) -> tuple[str, str]:
    return {
        QuoteState.ACCEPTED: (_("Accepted"), "good"),
        QuoteState.DECLINED: (_("Declined"), "bad"),
        QuoteState.REPLACED: (_("Replaced"), ""),
        QuoteState.DRAFT: (_("Draft"), "wait"),
        QuoteState.LAPSED: (_("Lapsed"), "bad"),
        QuoteState.BEING_MADE: (_("Being made"), "wait"),
        QuoteState.OPEN: (_("With the client"), "wait"),
    }[state]


def _sentence(quote: Quote, state: QuoteState, zone: str) -> str:
    if state is QuoteState.DRAFT:
        return _("Not sent yet.")
    sent = day_words(quote.sent_at, zone) if quote.sent_at else ""
    if state is QuoteState.ACCEPTED and quote.accepted_at:
        words = {"name": quote.accepted_by, "day": day_words(quote.accepted_at, zone)}
        if quote.acceptance_evidence:
            return _("Accepted by %(name)s on %(day)s, written down by the studio.") % words
        return _("Accepted by %(name)s on %(day)s.") % words
    if state is QuoteState.DECLINED and quote.declined_at:
        said = _("Declined on %(day)s.") % {"day": day_words(quote.declined_at, zone)}
        return f"{said} “{quote.declined_reason}”" if quote.declined_reason else said
    if state is QuoteState.REPLACED:
        return _("Sent on %(day)s, replaced by a newer version.") % {"day": sent}
    parts = [_("Sent on %(day)s") % {"day": sent}]
    if quote.opened_at is not None:
        parts.append(_("first opened on %(day)s") % {"day": day_words(quote.opened_at, zone)})
    elif state is QuoteState.OPEN:
        parts.append(_("not opened yet"))
    if quote.valid_until is not None:
        last = format_date(last_day_of(quote.valid_until, zone), "EEE d MMMM", locale="en_GB")
        lapsed = state is QuoteState.LAPSED
        parts.append((_("lapsed after %(day)s") if lapsed else _("open until %(day)s")) % {"day": last})
    return ", ".join(parts) + "."


def quote_row(quote: Quote, *, now: datetime) -> QuoteRow:
    """Return one version as a list shows it. One query for a draft, none for the others."""
    state = state_of(quote, now=now)
    tag, tone = _tag(state)
    gross = quote.total_gross
    if state is QuoteState.DRAFT:
        offer = price_quote(quote, list(quote.lines.all())).offer
        gross = offer.totals.payable if offer else None
    return QuoteRow(quote, state, tag, tone, _sentence(quote, state, quote.studio.time_zone), gross)


def quote_rows(shoot: Shoot, *, now: datetime) -> list[QuoteRow]:
    """Return a shoot's quotes, newest first. Two queries at most: a shoot has one draft."""
    return [quote_row(quote, now=now) for quote in quotes_with_parties().filter(shoot=shoot)]


def standing_quote(shoot: Shoot, *, now: datetime) -> QuoteRow | None:
    """Return the quote that counts for the shoot: the accepted one, else the newest sent, else the draft."""
    rows = quote_rows(shoot, now=now)
    accepted = [row for row in rows if row.is_accepted]
    sent = [row for row in rows if not row.is_draft]
    return next(iter(accepted or sent or rows), None)


def latest_document(shoot: Shoot) -> IssuedDocument | None:
    """Return the document of the shoot's newest sent quote. One query."""
    sent = Quote.objects.filter(shoot=shoot).exclude(document=None).select_related("document")
    quote = sent.order_by("-sent_at", "-pk").first()
    return quote.document if quote else None
