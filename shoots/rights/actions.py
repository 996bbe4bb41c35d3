"""Settling usage terms, granting licences, and what happens to them afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from django.db import IntegrityError, transaction
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.documents.queries import studio_card
from shoots.members.actions import EditedMeanwhile, save_edit
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.rights.models import Licence, UsageFactors, UsageTerms
from shoots.rights.queries.licences import is_in_force
from shoots.rights.queries.words import licence_words
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail
from shoots.values.periods import licence_last_day

TEMPLATE = "documents/licence.html"


@transaction.atomic
def save_terms(
    *, shoot: Shoot, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> UsageTerms:
    """Write the shoot's usage terms; terms that nobody had stored yet are made.

    `seen_version` is 0 for one who saw no stored terms. Quotes that were sent and licences keep what they froze.

    Raises
    ------
    EditedMeanwhile
        If somebody saved them since; nothing is written.
    """
    if seen_version == 0:
        try:
            with transaction.atomic():
                terms = UsageTerms.objects.create(studio=shoot.studio, shoot=shoot, **changes)
        except IntegrityError:
            raise EditedMeanwhile
        trail.record(terms, "settled", by=by, shoot_code=shoot.code, at=now)
        return terms
    terms = UsageTerms.objects.get(shoot=shoot)
    trail.edit(terms, changes=changes, seen_version=seen_version, by=by, shoot_code=shoot.code, at=now)
    return terms


@transaction.atomic
def save_factors(
    *, studio: Studio, table: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> UsageFactors:
    """Write the studio's own factors for pricing usage.

    Raises
    ------
    EditedMeanwhile
        If somebody saved them since; nothing is written.
    """
    if seen_version == 0:
        try:
            with transaction.atomic():
                factors = UsageFactors.objects.create(studio=studio, table=dict(table))
        except IntegrityError:
            raise EditedMeanwhile
    else:
        factors = UsageFactors.objects.of_studio(studio).get()
        save_edit(factors, changes={"table": dict(table)}, seen_version=seen_version)
    trail.record(factors, "edited", by=by, at=now)
    return factors


@transaction.atomic
def grant_licence(
    *, shoot: Shoot, terms: Mapping[str, Any], licensee: Mapping[str, Any], number: str, now: datetime
) -> Licence:
    """Grant a licence under frozen terms (`queries.terms.frozen_terms`) and issue its document.

    Called inside the transaction that accepted the quote. The document's PDF is made by the caller's own job or by
    the first who needs it. A number can be granted once: a second time is an IntegrityError.
    """
    starts = date.fromisoformat(terms["starts_date"]) if terms["starts_date"] else None
    licence = Licence.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        number=number,
        licensee=dict(licensee),
        terms=dict(terms),
        granted_at=now,
        starts_date=starts,
        last_day=_last_day(starts, terms["months"]),
    )
    licence.document = _issue(licence, version=1, now=now)
    licence.save(update_fields=["document"])
    trail.record(licence, "granted", by=None, shoot_code=shoot.code, at=now)
    return licence


def _last_day(starts: date | None, months: int | None) -> date | None:
    return licence_last_day(starts, months) if starts and months else None


def _issue(licence: Licence, *, version: int, now: datetime) -> IssuedDocument:
    """Freeze a version of the licence's document: the grant, or the confirmation with its days filled in."""
    shoot, studio = licence.shoot, licence.studio
    content = {
        "studio": studio_card(studio),
        "number": licence.number,
        "version": version,
        "issued_on": studio.local_date(now),
        "granted_on": studio.local_date(licence.granted_at),
        "shoot": {"code": shoot.code, "title": shoot.title},
        "licensee": licence.licensee,
        "terms": licence.terms,
        "words": vars(licence_words(licence)),
        "starts_date": licence.starts_date,
        "last_day": licence.last_day,
        "fulfilled_on": licence.fulfilled_at and studio.local_date(licence.fulfilled_at),
        "in_force": is_in_force(licence),
    }
    return documents.issue(
        studio=studio,
        kind=DocumentKind.LICENCE,
        number=licence.number if version == 1 else f"{licence.number}-{version}",
        title=_("Licence %(number)s, %(title)s") % {"number": licence.number, "title": shoot.title},
        template=TEMPLATE,
        content=content,
        render=False,
        now=now,
    )


@transaction.atomic
def fulfil_condition(*, shoot: Shoot, now: datetime) -> int:
    """Note that the shoot was paid: its licences that waited for that are valid from now on; return how many.

    Safe to repeat: a licence that was fulfilled before keeps its day.
    """
    waiting = Licence.objects.filter(shoot=shoot, fulfilled_at=None, ended_at=None)
    fulfilled = 0
    for licence in waiting.select_related("shoot", "studio"):
        if not licence.terms["on_payment"]:
            continue
        if Licence.objects.filter(pk=licence.pk, fulfilled_at=None).update(fulfilled_at=now):
            fulfilled += 1
            licence.refresh_from_db()
            trail.record(licence, "fulfilled", by=None, shoot_code=shoot.code, at=now)
            _confirm_in_force(licence, now=now)
    return fulfilled


@transaction.atomic
def start_licences(*, shoot: Shoot, first_delivery_date: date, now: datetime) -> int:
    """Note that the first pictures were delivered: licences that start with that have their days; return how many.

    Safe to repeat: the first delivery counts, later ones change nothing.
    """
    open_ones = Licence.objects.filter(shoot=shoot, starts_date=None, ended_at=None).select_related("shoot", "studio")
    started = 0
    for licence in open_ones:
        last_day = _last_day(first_delivery_date, licence.terms["months"])
        days = {"starts_date": first_delivery_date, "last_day": last_day}
        if Licence.objects.filter(pk=licence.pk, starts_date=None).update(**days):
            started += 1
            licence.refresh_from_db()
            trail.record(licence, "started", by=None, shoot_code=shoot.code, at=now)
            _confirm_in_force(licence, now=now)
    return started


def _confirm_in_force(licence: Licence, *, now: datetime) -> None:
    """Issue the version with all days filled in once nothing is open, and ask for its mail.

    Of two events that complete it at once, the row's lock lets exactly one see both.
    """
    if not is_in_force(licence):
        return
    document = _issue(licence, version=2, now=now)
    Licence.objects.filter(pk=licence.pk).update(document=document)
    outbox.enqueue(
        task="rights.deliver",
        key=f"licence:{licence.pk}:in-force",
        payload={"licence_id": licence.pk},
        studio=licence.studio,
        now=now,
    )


def deliver_licence(*, licence_id: int, now: datetime) -> None:
    """Make the PDF of a licence that has come into force and mail it to the client's contact. Safe to repeat.

    Without an address no mail goes out; the document stands on the shoot's page.
    """
    licence = Licence.objects.select_related("shoot__contact", "studio", "document").get(pk=licence_id)
    document = documents.ensure_rendered(document=licence.document, now=now)
    contact = licence.shoot.contact
    if contact is None or not contact.email:
        return
    context = {"licence": licence, "contact": contact, "words": document.content["words"]}
    outbox.queue_mail(
        studio=licence.studio,
        key=f"licence:{licence.pk}:in-force",
        to=contact.email,
        to_name=contact.name,
        reply_to=licence.studio.email,
        subject=_("Your licence %(number)s is in force") % {"number": licence.number},
        text=render_to_string("mail/licence_in_force.txt", context),
        attachments=[
            {
                "name": document.file_name,
                "storage_key": document.storage_key,
                "content_type": "application/pdf",
            }
        ],
        now=now,
    )


class AlreadyEnded(Exception):
    """Raised when a licence was ended before."""


@transaction.atomic
def end_licence(*, licence: Licence, by: Member | None, now: datetime) -> None:
    """Note that a licence was ended early, or renewed by another one; nothing reminds of it any more.

    Raises
    ------
    AlreadyEnded
        If somebody noted that before.
    """
    if not Licence.objects.filter(pk=licence.pk, ended_at=None).update(ended_at=now):
        raise AlreadyEnded
    trail.record(licence, "ended", by=by, shoot_code=licence.shoot.code, at=now)


__all__ = [
    "AlreadyEnded",
    "EditedMeanwhile",
    "deliver_licence",
    "end_licence",
    "fulfil_condition",
    "grant_licence",
    "save_factors",
    "save_terms",
    "start_licences",
]
