"""Reminders: each written once and mailed at least once, however often or in parallel the sweep runs."""

from __future__ import annotations

import logging
from datetime import datetime

from django.conf import settings
from django.db import transaction
from django.template.loader import render_to_string

from shoots.desk.core.due import MatterKind, ripe
from shoots.desk.models import Reminder
from shoots.desk.queries.due import DueItem, due_items
from shoots.desk.queries.matter_words import matter_words
from shoots.members.core import BOOKS, PLANNERS, Role
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail

log = logging.getLogger(__name__)
_OF_MONEY = frozenset({MatterKind.INVOICE_DUE, MatterKind.INVOICE_OVERDUE})


def sweep(*, studio: Studio | None = None, as_of: datetime | None = None, now: datetime) -> int:
    """Write every reminder that ought to exist and does not, and ask for its mails; return how many were new.

    What ought to exist is judged `as_of` a moment, which is `now` but when somebody tries another one by hand.

    Facts decide, not the last run: a sweep that was missed is made up for by the next one, and one that runs twice
    or beside another writes nothing twice, because a reminder's key is unique. Each reminder and its mails are
    one transaction, so a kill leaves both or neither. A studio whose facts can't be read stops no other.
    """
    studios = [studio] if studio else list(Studio.objects.order_by("pk"))
    written = 0
    for each in studios:
        try:
            written += _sweep_studio(each, as_of=as_of or now, now=now)
        except Exception:  # one studio's fault must not silence the reminders of the others
            if studio is not None:
                raise
            log.exception("The reminders of studio %s were not swept", each.pk)
    return written


def _sweep_studio(studio: Studio, *, as_of: datetime, now: datetime) -> int:
    items = {item.matter.key: item for item in due_items(studio, now=as_of)}
    wanted = [matter.key for matter in ripe([item.matter for item in items.values()], as_of)]
    today = studio.local_date(as_of)
    there = set(Reminder.objects.filter(key__in=wanted).values_list("key", flat=True))
    members = list(Member.objects.filter(studio=studio, left_at=None).select_related("user").order_by("pk"))
    missing = [items[key] for key in wanted if key not in there]
    return sum(
        _write(item, subject=matter_words(item, today=today), studio=studio, members=members, now=now)
        for item in missing
    )


@transaction.atomic
def _write(item: DueItem, *, subject: str, studio: Studio, members: list[Member], now: datetime) -> bool:
    """Insert one reminder and its mails; return False if another sweep was faster."""
    matter = item.matter
    reminder, made = Reminder.objects.get_or_create(
        key=matter.key,
        defaults={
            "studio": studio,
            "kind": matter.kind,
            "due_date": matter.due,
            "shoot": item.shoot,
            "details": {"subject": subject},
        },
    )
    if not made:
        return False
    mails = [
        _mail(item, subject=subject, studio=studio, member=member, now=now)
        for member in members
        if member.role in _readers_of(matter.kind)
    ]
    if mails:
        Reminder.objects.filter(pk=reminder.pk).update(mail=mails[0])
    return True


def _readers_of(kind: MatterKind) -> frozenset[Role]:
    """Money goes to those who keep the books, everything else to those who plan; the owner reads both."""
    return BOOKS if kind in _OF_MONEY else PLANNERS


def _mail(item: DueItem, *, subject: str, studio: Studio, member: Member, now: datetime) -> Mail:
    text = render_to_string(
        "mail/reminder.txt",
        {
            "subject": subject,
            "item": item,
            "studio": studio,
            "member": member,
            "link": settings.SITE_URL + item.url,
            "mails_link": settings.SITE_URL,
        },
    )
    return outbox.queue_mail(
        studio=studio,
        key=f"reminder:{item.matter.key}:{member.pk}",
        to=member.user.email,
        to_name=member.user.name,
        subject=f"{subject} ({item.shoot.code})",
        text=text,
        now=now,
    )
