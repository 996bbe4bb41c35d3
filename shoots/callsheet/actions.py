"""Issuing call sheets, bringing each person their copy, and hearing that they have it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, time, timedelta
from typing import Any

from django.conf import settings
from django.db import IntegrityError, transaction
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _

from shoots.callsheet.core.changes import changes_between
from shoots.callsheet.models import CallSheet, SheetCopy, SheetKind
from shoots.callsheet.queries import copies as copies_queries
from shoots.callsheet.queries import ready, sheet, words
from shoots.callsheet.queries.plans import plans_of
from shoots.callsheet.queries.sheet import Issue, Reader, SheetNotes
from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.links import actions as links
from shoots.links.models import Purpose
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from shoots.schedule.queries.care import shoot_care
from shoots.schedule.queries.plan import DayPage, day_page
from shoots.shoot.models import Booking, ShootDay
from shoots.trail import actions as trail

LINK_DAYS = 30
"""A link stays open so many days after the day itself, or after its issue where that is later."""


class AlreadyIssued(Exception):
    """Raised when another sheet of the day was issued since the page was opened, as by a double click."""


class DayGone(Exception):
    """Raised when the day was given back or wrapped: nobody has to come any more."""


class NotReady(Exception):
    """Raised when a final sheet does not say when and where; `codes` are the checks that fail."""

    def __init__(self, codes: Sequence[str]) -> None:
        super().__init__(", ".join(codes))
        self.codes = tuple(codes)


class Replaced(Exception):
    """Raised when somebody says that they have a sheet which a newer one has replaced."""


def default_notes() -> SheetNotes:
    """Return what a first sheet begins with. Common practice, no source."""
    return SheetNotes(
        weather_rule=_(
            "The weather decides at 18:00 the evening before; hear nothing, and it goes ahead. On the day whoever is "
            "in charge stops for lightning, gusts or ice, and nobody argues."
        )
    )


def issue_sheet(
    *,
    day: ShootDay,
    kind: SheetKind,
    notes: SheetNotes | None = None,
    what_changed: str = "",
    to_client: bool = False,
    seen_revision: int | None = None,
    by: Member | None,
    now: datetime,
) -> CallSheet:
    """Freeze the sheet of a day and everybody's own copy in one transaction, and ask for their delivery.

    `seen_revision` is the newest revision that the page showed (0 for none): a second click finds another and is
    refused. Without `notes` those of the day's last sheet stand again.

    Raises
    ------
    AlreadyIssued
        If another sheet of the day was issued since; also when two are issued at the same moment.
    DayGone
        If the day was given back or wrapped.
    NotReady
        If a final sheet would not say when and where.
    """
    try:
        with transaction.atomic():
            return _issue(day, kind, notes, what_changed, to_client, seen_revision, by, now)
    except IntegrityError:  # two at the same moment: the day and its revision are unique
        raise AlreadyIssued from None


def _issue(
    day: ShootDay,
    kind: SheetKind,
    notes: SheetNotes | None,
    what_changed: str,
    to_client: bool,
    seen_revision: int | None,
    by: Member | None,
    now: datetime,
) -> CallSheet:
    ShootDay.objects.select_for_update().get(pk=day.pk)
    day = ShootDay.objects.select_related("place", "studio", "shoot__client", "shoot__contact", "shoot__studio").get(
        pk=day.pk
    )
    last = copies_queries.newest_sheet(day)
    if seen_revision is not None and seen_revision != (last.revision if last else 0):
        raise AlreadyIssued
    if day.is_released or day.wrapped_at:
        raise DayGone
    page = day_page(day)
    if kind == SheetKind.FINAL and not (day.call_time and day.place):
        raise NotReady([code for code, there in (("CALL", day.call_time), ("PLACE", day.place)) if not there])
    checks = ready.checks_of(page, shoot_care(day.shoot).of_day.get(day.pk))
    issue = Issue(
        number=_free_number(day, revision=(last.revision if last else 0) + 1),
        kind=kind,
        kind_words=_kind_words(kind),
        revision=(last.revision if last else 0) + 1,
        issued_at=now.astimezone(page.outline.zone),
        notes=notes or (copies_queries.notes_of(last.document.content) if last else default_notes()),
        what_changed=what_changed,
        open_items=ready.open_words(checks, told_only=False),
        told=ready.open_words(checks, told_only=True),
        plans=plans_of(day.shoot),
    )
    document = _freeze(
        sheet.general_sheet(page, issue), last.document.content if last else None, page, number=issue.number, now=now
    )
    made = CallSheet.objects.create(
        studio=day.studio,
        day=day,
        kind=kind,
        revision=issue.revision,
        issued_at=now,
        issued_by=by,
        what_changed="; ".join(filter(None, [what_changed, *document.content["changes"]]))[:300],
        document=document,
    )
    _copy_all(made, page, issue, last=last, to_client=to_client, now=now)
    trail.record(
        made,
        "callsheet_issued",
        by=by,
        shoot_code=day.shoot.code,
        changes={"kind": ("", str(kind)), "revision": (last.revision if last else 0, issue.revision)},
        at=now,
    )
    return made


def _kind_words(kind: SheetKind) -> str:
    return _("Final call sheet") if kind == SheetKind.FINAL else _("Advance call sheet")


def _free_number(day: ShootDay, *, revision: int) -> str:
    """Return a number for the sheet: code, month and day, revision; a letter more where that was used before."""
    stem = f"{day.shoot.code}-{day.date:%m%d}"
    taken = set(
        IssuedDocument.objects.of_studio(day.studio)
        .filter(kind=DocumentKind.CALL_SHEET, number__startswith=stem)
        .values_list("number", flat=True)
    )
    letters = iter(["", *"bcdefghijklmnopqrstuvwxyz"])
    return next(number for letter in letters if (number := f"{stem}{letter}-{revision}") not in taken)


def _freeze(
    content: dict[str, Any], before: Mapping[str, Any] | None, page: DayPage, *, number: str, now: datetime
) -> IssuedDocument:
    if before is not None:
        content["changes"] = words.change_words(changes_between(before, content))
    content["number"] = number
    return documents.issue(
        studio=page.day.studio,
        kind=DocumentKind.CALL_SHEET,
        number=number,
        title=_("%(what)s %(number)s") % {"what": content["kind_words"], "number": number},
        template=sheet.TEMPLATE,
        content=content,
        render=content["person"] is None,
        now=now,
    )


def _copy_all(
    made: CallSheet, page: DayPage, issue: Issue, *, last: CallSheet | None, to_client: bool, now: datetime
) -> None:
    before: dict[str, Mapping[str, Any]] = {}
    if last:
        rows = SheetCopy.objects.filter(sheet=last).select_related("booking", "document")
        before = {copies_queries.reader_key(copy): copy.document.content for copy in rows}
    contact = page.day.shoot.contact
    readers: list[tuple[Reader, Booking | None, str, str]] = [
        (sheet.reader_of(person), person.booking, person.person.email, f"person:{person.person.pk}")
        for person in page.people
        if not person.is_second_option
    ]
    if to_client and contact:
        key = f"mail:{contact.email.casefold() or contact.name.casefold()}"
        readers.append((sheet.client_reader(contact, page), None, contact.email, key))
    last_day = max(page.day.date, now.astimezone(page.outline.zone).date()) + timedelta(days=LINK_DAYS)
    for number, (reader, booking, email, key) in enumerate(readers, start=1):
        document = _freeze(
            sheet.sheet_for(reader, page, issue), before.get(key), page, number=f"{issue.number}-{number}", now=now
        )
        link = links.make_link(
            studio=made.studio,
            purpose=Purpose.CALL_SHEET,
            expires_at=datetime.combine(last_day, time(), page.outline.zone),
            now=now,
        )
        copy = SheetCopy.objects.create(
            studio=made.studio,
            sheet=made,
            booking=booking,
            name=reader.name,
            email=email,
            document=document,
            link=link,
        )
        outbox.enqueue(
            task="callsheet.deliver",
            key=f"callsheet:{page.day.pk}:{made.revision}:{key if booking else 'client'}",
            payload={"copy_id": copy.pk},
            studio=made.studio,
            now=now,
        )


def deliver(*, copy_id: int, now: datetime) -> None:
    """Render somebody's copy if need be, and queue its mail with link and PDF.

    Safe to repeat: the first rendering stands, and the mail's key is the same. A copy that is gone is nobody's any
    more; one that a newer sheet replaced before it left is rendered for the file, and not mailed.
    """
    rows = SheetCopy.objects.select_related("sheet__day__shoot", "sheet__day__place", "document", "link", "studio")
    copy = rows.filter(pk=copy_id).first()
    if copy is None:
        return
    try:
        document = documents.ensure_rendered(document=copy.document, now=now)
    except IssuedDocument.DoesNotExist:  # deleted while it was drawn
        return
    newest = copies_queries.newest_sheet(copy.sheet.day)
    if not copy.email or newest is None or newest.pk != copy.sheet_id:
        return
    content = document.content
    with transaction.atomic():
        outbox.queue_mail(
            studio=copy.studio,
            key=copies_queries.mail_key(copy.pk),
            to=copy.email,
            to_name=copy.name,
            reply_to=copy.studio.email,
            subject=_subject(content),
            text=render_to_string(
                "mail/callsheet.txt",
                {"copy": copy, "sheet": content, "studio": copy.studio, "link": _address(copy)},
            ),
            attachments=[
                {
                    "name": document.file_name,
                    "storage_key": document.storage_key,
                    "content_type": "application/pdf",
                }
            ],
            now=now,
        )


def _subject(content: Mapping[str, Any]) -> str:
    call = content["person"]["call"]
    known = {"day": content["day"]["words"], "call": call, "title": content["shoot"]["title"]}
    subject = (_("%(day)s, call %(call)s: %(title)s") if call else _("%(day)s: %(title)s")) % known
    if content["revision"] > 1:
        subject = _("New: %(subject)s") % {"subject": subject}
    return subject


def _address(copy: SheetCopy) -> str:
    """Return the address of a copy's page as a queued mail writes it: the token is put in when it leaves."""
    if copy.link is None:
        return ""
    path = reverse("client_callsheet", args=["TOKEN"]).replace("TOKEN", links.mail_piece(copy.link))
    return f"{settings.SITE_URL}{path}"


@transaction.atomic
def confirm_copy(*, copy: SheetCopy, by: Member | None = None, now: datetime) -> bool:
    """Write down that somebody has their sheet: they said so on its page, or to a member who notes it.

    Return False if it was written down before; the first time stays.

    Raises
    ------
    Replaced
        If a newer sheet of the day stands in its place; nothing is written.
    """
    newest = copies_queries.newest_sheet(copy.sheet.day)
    if newest is None or newest.pk != copy.sheet_id:
        raise Replaced
    if not SheetCopy.objects.filter(pk=copy.pk, confirmed_at=None).update(confirmed_at=now):
        return False
    trail.record(
        copy,
        "callsheet_confirmed",
        by=by or copy.name,
        shoot_code=copy.sheet.day.shoot.code,
        changes={"who": ("", copy.name)},
        at=now,
    )
    return True


def mark_opened(*, copy: SheetCopy, now: datetime) -> None:
    """Remember that somebody opened their sheet."""
    if copy.link:
        links.note_opened(link=copy.link, now=now)
