"""The client's answer: accepted, or declined; by the client, or written down by the studio."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import F, QuerySet
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from shoots.quotes.actions.sending import link_address
from shoots.quotes.models import Quote
from shoots.quotes.queries.paper import quotes_with_parties, studio_addresses
from shoots.rights import actions as rights
from shoots.rights.models import Licence
from shoots.trail import actions as trail

TEMPLATE = "documents/acceptance.html"


class QuoteNoLongerOpen(Exception):
    """Raised when a quote was accepted, declined, replaced or has lapsed."""


class QuoteNotReady(Exception):
    """Raised when the quote's PDF is still being made: there is nothing yet that could be accepted."""


class AnswerNotPossible(ValueError):
    """Raised when an answer would lie before the quote was sent, or in the future."""


def accept_quote(*, quote: Quote, name: str, address: str = "", now: datetime) -> None:
    """Accept an open quote as the client: its PDF's hash is stored, its licence granted, its papers issued.

    One conditional UPDATE is the guard against the double click, the second person and the lapse alike: the first
    name stays. Papers and confirmation mails follow in a job.

    Raises
    ------
    QuoteNoLongerOpen, QuoteNotReady
        Nothing is written.
    """
    open_ones = Quote.objects.open(at=now).filter(pk=quote.pk)
    with transaction.atomic():
        _accept(quote.pk, open_ones, name=name, address=address, accepted_at=now, by=name, now=now)


def record_acceptance(*, quote: Quote, name: str, said_at: datetime, evidence: str, by: Member, now: datetime) -> None:
    """Write down that the client accepted, with person, moment and evidence, such as the line from their e-mail.

    The studio may do so after the quote lapsed; not after it was answered or replaced.

    Raises
    ------
    AnswerNotPossible, QuoteNoLongerOpen, QuoteNotReady
        Nothing is written.
    """
    _check_moment(quote, said_at=said_at, now=now)
    with transaction.atomic():
        _accept(
            quote.pk,
            _unanswered(quote),
            name=name,
            evidence=evidence,
            accepted_at=said_at,
            by=by,
            now=now,
        )


def _check_moment(quote: Quote, *, said_at: datetime, now: datetime) -> None:
    if quote.sent_at is None or said_at < quote.sent_at or said_at > now:
        raise AnswerNotPossible


def _unanswered(quote: Quote) -> QuerySet[Quote]:
    waiting = Quote.objects.filter(pk=quote.pk, accepted_at=None, declined_at=None, replaced_at=None)
    return waiting.exclude(sent_at=None)


def _accept(
    quote_id: int,
    allowed: QuerySet[Quote],
    *,
    name: str,
    address: str = "",
    evidence: str = "",
    accepted_at: datetime,
    by: Member | str,
    now: datetime,
) -> None:
    rows = allowed.update(
        accepted_at=accepted_at,
        accepted_by=name,
        accepted_from=address,
        acceptance_evidence=evidence,
        version=F("version") + 1,
    )
    if not rows:
        raise QuoteNoLongerOpen
    quote = quotes_with_parties().get(pk=quote_id)
    if quote.document is None or not quote.document.is_rendered:
        raise QuoteNotReady  # the transaction takes the update back
    sha256 = quote.document.sha256
    licence = _grant(quote, now=now)
    paper = _issue_acceptance(quote, licence=licence, by=by, now=now)
    Quote.objects.filter(pk=quote_id).update(accepted_sha256=sha256, acceptance_document=paper)
    outbox.enqueue(
        task="quotes.confirm",
        key=f"quote:{quote.pk}:confirm",
        payload={"quote_id": quote.pk},
        studio=quote.studio,
        now=now,
    )
    changes = {"accepted_by": ("", name), "sha256": ("", sha256)}
    trail.record(quote, "accepted", by=by, shoot_code=quote.shoot.code, changes=changes, at=now)


def _grant(quote: Quote, *, now: datetime) -> Licence | None:
    """Grant what the sent quote offered; the licence carries the quote's number, so that the two are found together."""
    content = quote.document.content
    if not content["usage"]:
        return None
    return rights.grant_licence(
        shoot=quote.shoot,
        terms={**content["usage"]["terms"], "quote": content["label"]},
        licensee=content["licensee"],
        number=quote.number.replace("Q-", "L-", 1),
        now=now,
    )


def _issue_acceptance(quote: Quote, *, licence: Licence | None, by: Member | str, now: datetime) -> IssuedDocument:
    content = quote.document.content
    taken_over = (
        "studio",
        "number",
        "revision",
        "label",
        "issued_on",
        "shoot",
        "client",
        "licensee",
        "currency",
        "shows_vat",
        "totals",
        "usage",
        "po_number",
    )
    return documents.issue(
        studio=quote.studio,
        kind=DocumentKind.ACCEPTANCE,
        number=str(quote),
        title=_("Acceptance of quote %(number)s") % {"number": quote},
        template=TEMPLATE,
        content={
            **{name: content[name] for name in taken_over},
            "accepted_at": quote.accepted_at,
            "accepted_by": quote.accepted_by,
            "accepted_from": quote.accepted_from,
            "evidence": quote.acceptance_evidence,
            "recorded_by": str(by) if isinstance(by, Member) else "",
            "recorded_at": now,
            "sha256": quote.document.sha256,
            "pages": quote.document.pages,
            "licence_number": licence.number if licence else "",
        },
        render=False,
        now=now,
    )


def confirm_acceptance(*, quote_id: int, now: datetime) -> None:
    """Make the papers of an acceptance, then mail them to the client and the studio. Safe to repeat."""
    quote = quotes_with_parties().get(pk=quote_id)
    if quote.acceptance_document is None or quote.link is None:
        return
    papers = [documents.ensure_rendered(document=quote.acceptance_document, now=now)]
    # The licence's first version, as it was granted; a later one has a mail of its own.
    licence = IssuedDocument.objects.filter(
        studio=quote.studio, kind=DocumentKind.LICENCE, number=quote.number.replace("Q-", "L-", 1)
    ).first()
    if licence is not None:
        papers.append(documents.ensure_rendered(document=licence, now=now))
    attachments = [
        {"name": paper.file_name, "storage_key": paper.storage_key, "content_type": "application/pdf"}
        for paper in papers
    ]
    content = papers[0].content
    context: dict[str, Any] = {"quote": quote, "content": content, "address": link_address(quote.link)}
    subject = _("Accepted: quote %(number)s for %(title)s") % {"number": quote, "title": quote.shoot.title}
    if quote.sent_to:
        outbox.queue_mail(
            studio=quote.studio,
            key=f"quote:{quote.pk}:accepted:client",
            to=quote.sent_to,
            reply_to=quote.studio.email,
            subject=subject,
            text=render_to_string("mail/quote_accepted_client.txt", context),
            attachments=attachments,
            now=now,
        )
    for number, (email, name) in enumerate(studio_addresses(quote.studio)):
        outbox.queue_mail(
            studio=quote.studio,
            key=f"quote:{quote.pk}:accepted:studio:{number}",
            to=email,
            to_name=name,
            subject=subject,
            text=render_to_string("mail/quote_accepted_studio.txt", context),
            attachments=attachments,
            now=now,
        )


@transaction.atomic
def decline_quote(*, quote: Quote, reason: str, by: Member | str = "", now: datetime) -> None:
    """Decline a quote, as the client while it is open, or written down by a member while it is unanswered.

    Raises
    ------
    QuoteNoLongerOpen
        Nothing is written.
    """
    allowed = _unanswered(quote) if isinstance(by, Member) else Quote.objects.open(at=now).filter(pk=quote.pk)
    if not allowed.update(declined_at=now, declined_reason=reason, version=F("version") + 1):
        raise QuoteNoLongerOpen
    trail.record(
        quote,
        "declined",
        by=by or _("the client"),
        shoot_code=quote.shoot.code,
        changes={"reason": ("", reason)},
        at=now,
    )
    if isinstance(by, Member):
        return
    context = {"quote": quote, "reason": reason}
    for number, (email, name) in enumerate(studio_addresses(quote.studio)):
        outbox.queue_mail(
            studio=quote.studio,
            key=f"quote:{quote.pk}:declined:studio:{number}",
            to=email,
            to_name=name,
            subject=_("Declined: quote %(number)s for %(title)s") % {"number": quote, "title": quote.shoot.title},
            text=render_to_string("mail/quote_declined.txt", context),
            now=now,
        )
