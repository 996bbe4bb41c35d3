"""Asking for jobs and mail, claiming them, and settling them."""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import F

from shoots.members.models import Studio
from shoots.outbox import adapters
from shoots.outbox.models import JobState, Mail, Message

log = logging.getLogger(__name__)
ATTEMPTS = 6


def enqueue(
    *,
    task: str,
    key: str,
    payload: Mapping[str, Any],
    studio: Studio | None = None,
    not_before: datetime | None = None,
    now: datetime,
) -> bool:
    """Ask for a job inside the caller's transaction; return False if this key was asked for before.

    After the commit the broker is told; if that fails, the sweep finds the row within seconds.
    """
    rows = Message.objects.bulk_create(
        [
            Message(
                studio=studio,
                key=key,
                task=task,
                payload=dict(payload),
                created_at=now,
                not_before=not_before or now,
            )
        ],
        ignore_conflicts=True,
    )
    found = Message.objects.filter(key=key).values_list("pk", "created_at").get()
    is_new = bool(rows) and found[1] == now
    if not_before is None or not_before <= now:
        transaction.on_commit(partial(adapters.nudge, found[0]))
    return is_new


@transaction.atomic
def queue_mail(
    *,
    studio: Studio,
    key: str,
    to: str,
    to_name: str = "",
    subject: str,
    text: str,
    reply_to: str = "",
    attachments: Sequence[Mapping[str, str]] = (),
    now: datetime,
) -> Mail:
    """Write one mail and ask for its sending; the same key again returns the first mail unchanged.

    A link in the text is written as its path with `{{token:NONCE}}` in it, after the site's address
    (`links.models.ClientLink.mail_path` gives the piece).
    """
    digest = hashlib.sha256(f"{studio.pk}:{key}".encode()).hexdigest()[:40]
    domain = settings.DEFAULT_FROM_EMAIL.rpartition("@")[2] or "localhost"
    mail, made = Mail.objects.get_or_create(
        key=key,
        defaults={
            "studio": studio,
            "message_id": f"<{digest}@{domain}>",
            "recipient": to,
            "recipient_name": _one_line(to_name),
            "reply_to": _one_line(reply_to),
            "subject": _one_line(subject)[:200],
            "text": text,
            "attachments": [dict(attachment) for attachment in attachments],
            "created_at": now,
        },
    )
    if made:
        enqueue(task="outbox.send_mail", key=f"mail:{key}", payload={"mail_id": mail.pk}, studio=studio, now=now)
    return mail


def send_mail(*, mail_id: int, now: datetime) -> None:
    """Send one mail unless it was sent. Between the server's OK and our commit a kill leaves doubt: the mail is
    then sent again, under the same Message-ID."""
    mail = Mail.objects.select_related("studio").get(pk=mail_id)
    if mail.sent_at is not None:
        return
    adapters.send(mail)
    Mail.objects.filter(pk=mail_id, sent_at=None).update(sent_at=now)


def claim(*, message_id: int, now: datetime) -> Message | None:
    """Take one job with a lease, or return None if somebody else has it or it is done. One conditional UPDATE."""
    rows = (
        Message.objects.claimable(at=now)
        .filter(pk=message_id)
        .update(
            state=JobState.CLAIMED,
            lease_until=now + timedelta(seconds=settings.OUTBOX_LEASE_S),
            attempts=F("attempts") + 1,
        )
    )
    return Message.objects.get(pk=message_id) if rows == 1 else None


def run(*, message_id: int, now: datetime) -> bool:
    """Claim a job, run its task here, and settle it; return whether it was ours.

    A task that fails is tried again after 10 s, doubling, six times in all; then it is given up and shown.
    """
    message = claim(message_id=message_id, now=now)
    if message is None:
        return False
    try:
        adapters.run_task(message.task, message.payload)
    except Exception as error:  # any fault of a job must leave a row that says so
        log.exception("Job %s failed", message.task)
        _settle_failed(message, error=error, now=now)
    else:
        Message.objects.filter(pk=message.pk, attempts=message.attempts).update(
            state=JobState.DONE, settled_at=now, lease_until=None, last_error=""
        )
    return True


def _settle_failed(message: Message, *, error: Exception, now: datetime) -> None:
    given_up = message.attempts >= ATTEMPTS
    Message.objects.filter(pk=message.pk, attempts=message.attempts).update(
        state=JobState.FAILED if given_up else JobState.WAITING,
        not_before=now + timedelta(seconds=10 * 2 ** (message.attempts - 1)),
        lease_until=None,
        settled_at=now if given_up else None,
        last_error=f"{type(error).__name__}: {error}"[:2000],
    )


@transaction.atomic
def try_again(*, message: Message, now: datetime) -> bool:
    """Put a job that was given up back into the queue; return False if it was not given up."""
    rows = Message.objects.filter(pk=message.pk, state=JobState.FAILED).update(
        state=JobState.WAITING, not_before=now, attempts=0, settled_at=None
    )
    if rows:
        transaction.on_commit(partial(adapters.nudge, message.pk))
    return rows == 1


def due_ids(*, now: datetime, most: int = 200) -> list[int]:
    """Return the jobs that wait or whose lease ran out, oldest first. One query."""
    due = Message.objects.claimable(at=now).order_by("not_before", "pk")
    return list(due.values_list("pk", flat=True)[:most])


def drain(*, now: datetime, most: int = 1000) -> int:
    """Run everything that is due here and now, until nothing is; return how many jobs ran. For commands and tests."""
    ran = 0
    while ran < most:
        ids = due_ids(now=now, most=50)
        if not ids:
            break
        ran += sum(run(message_id=pk, now=now) for pk in ids)
    return ran


def _one_line(text: str) -> str:
    """Return the text without line breaks: nothing typed may add a mail header."""
    return " ".join(text.split())
