"""Sending a quote: frozen at once, rendered and hashed by a job, and only then mailed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import transaction
from django.db.models import F
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _

from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind
from shoots.links import actions as links
from shoots.links.models import ClientLink, Purpose
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from shoots.quotes.actions.drafts import QuoteAlreadySent
from shoots.quotes.models import Quote
from shoots.quotes.queries.paper import last_day_of, missing_in, open_until, quote_paper, quotes_with_parties
from shoots.trail import actions as trail

TEMPLATE = "documents/quote.html"


class QuoteIncomplete(Exception):
    """Raised when something is not settled; `missing` says what, in sentences."""

    def __init__(self, missing: Sequence[str]) -> None:
        super().__init__("; ".join(missing))
        self.missing = tuple(missing)


class QuoteAnswered(Exception):
    """Raised when the client accepted a version of the same number in the meantime."""


def send_quote(
    *,
    quote: Quote,
    email: str,
    message: str = "",
    seen_version: int,
    by: Member | None,
    now: datetime,
) -> Quote:
    """Freeze a draft and its price, replace older open versions, and ask for the PDF and the mail.

    The link goes out only when the PDF is made and hashed. Without an address no mail goes out; the studio hands
    the link on itself. A double click is refused by the draft's version.

    Raises
    ------
    QuoteIncomplete, EditedMeanwhile, QuoteAlreadySent, QuoteAnswered
        Nothing is written.
    """
    with transaction.atomic():
        return _send(quote, email=email, message=message, seen_version=seen_version, by=by, now=now)


def _send(quote: Quote, *, email: str, message: str, seen_version: int, by: Member | None, now: datetime) -> Quote:
    drafts = Quote.objects.filter(pk=quote.pk, sent_at=None)
    # The first statement takes the row, so that what is read below is what is frozen.
    if not drafts.filter(version=seen_version).update(version=F("version") + 1):
        raise EditedMeanwhile if drafts.exists() else QuoteAlreadySent
    quote = quotes_with_parties().get(pk=quote.pk)
    zone = quote.studio.time_zone
    valid_until = open_until(now, quote.valid_days, zone)
    paper = quote_paper(quote, issued_on=now.astimezone(ZoneInfo(zone)).date(), last_day=last_day_of(valid_until, zone))
    missing = missing_in(quote, paper)
    totals = paper.content["totals"]
    if missing or totals is None:
        raise QuoteIncomplete(missing)
    same_number = Quote.objects.filter(studio=quote.studio, number=quote.number).exclude(pk=quote.pk)
    same_number.filter(accepted_at=None, declined_at=None, replaced_at=None).update(
        replaced_at=now, version=F("version") + 1
    )
    # Read after the rows above were taken: an acceptance that came first is seen here.
    if same_number.accepted().exists():
        raise QuoteAnswered
    document = documents.issue(
        studio=quote.studio,
        kind=DocumentKind.QUOTE,
        number=str(quote),
        title=_("Quote %(number)s, %(title)s") % {"number": quote, "title": quote.shoot.title},
        template=TEMPLATE,
        content=paper.content,
        render=False,
        now=now,
    )
    # A lapsed or answered quote keeps its page, so the link has no end of its own; it can be revoked.
    link = links.make_link(studio=quote.studio, purpose=Purpose.QUOTE, expires_at=None, now=now)
    Quote.objects.filter(pk=quote.pk).update(
        sent_at=now,
        sent_to=email,
        valid_until=valid_until,
        total_net=totals["net"],
        total_gross=totals["gross"],
        document=document,
        link=link,
    )
    outbox.enqueue(
        task="quotes.deliver",
        key=f"quote:{quote.pk}:deliver",
        payload={"quote_id": quote.pk, "message": message},
        studio=quote.studio,
        now=now,
    )
    trail.record(quote, "sent", by=by, shoot_code=quote.shoot.code, changes={"to": ("", email)}, at=now)
    return quotes_with_parties().get(pk=quote.pk)


def link_address(link: ClientLink) -> str:
    """Return the link's address with a placeholder for its token, as a queued mail carries it."""
    path = reverse("client_quote", args=["TOKEN"]).replace("TOKEN", links.mail_piece(link))
    return f"{settings.SITE_URL}{path}"


def deliver_quote(*, quote_id: int, message: str = "", now: datetime) -> None:
    """Make the PDF of a sent quote, then mail the link. Safe to repeat: the first PDF and the first mail stay."""
    quote = quotes_with_parties().get(pk=quote_id)
    if quote.document is None or quote.link is None:
        return
    document = documents.ensure_rendered(document=quote.document, now=now)
    if not quote.sent_to or quote.replaced_at is not None:
        return
    contact = document.content["contact"]
    context = {
        "quote": quote,
        "content": document.content,
        "message": message,
        "name": contact["name"] if contact else "",
        "address": link_address(quote.link),
    }
    outbox.queue_mail(
        studio=quote.studio,
        key=f"quote:{quote.pk}:sent",
        to=quote.sent_to,
        to_name=contact["name"] if contact and contact["email"] == quote.sent_to else "",
        reply_to=quote.studio.email,
        subject=_("Quote %(number)s for %(title)s") % {"number": quote, "title": quote.shoot.title},
        text=render_to_string("mail/quote_sent.txt", context),
        now=now,
    )


@transaction.atomic
def close_link(*, quote: Quote, by: Member | None, now: datetime) -> None:
    """Revoke the client's link: opening it is a 404 from now on."""
    if quote.link is None:
        return
    links.revoke(link=quote.link, now=now)
    trail.record(quote, "link closed", by=by, shoot_code=quote.shoot.code, at=now)


@transaction.atomic
def note_opened(*, quote: Quote, now: datetime) -> None:
    """Remember that the client's link was opened; a mail scanner may have done it."""
    if quote.link is not None:
        links.note_opened(link=quote.link, now=now)
    Quote.objects.filter(pk=quote.pk, opened_at=None).update(opened_at=now)
