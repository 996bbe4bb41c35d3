"""Outgoing mail as a newcomer sees it without a mail server, and the jobs that were given up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from shoots.members.models import Member, Studio
from shoots.outbox.adapters import PLACEHOLDER, with_links
from shoots.outbox.models import JobState, Mail, Message

PER_PAGE = 40
SIGN_IN = "sign-in:"
INVITATION = "sign-in:invitation:"


class MailState(StrEnum):
    """How far a mail has come."""

    SENT = "SENT"
    WAITING = "WAITING"
    FAILED = "FAILED"


@dataclass(frozen=True)
class MailRow:
    """One mail with how far it has come; `job` is its job while it was given up, `error` why."""

    mail: Mail
    state: MailState
    job: Message | None
    error: str

    @property
    def is_sent(self) -> bool:
        return self.state is MailState.SENT

    @property
    def is_failed(self) -> bool:
        return self.state is MailState.FAILED


@dataclass(frozen=True)
class MailPage:
    """A page of mails, newest first, with the jobs other than mail that were given up."""

    rows: tuple[MailRow, ...]
    failed_jobs: tuple[Message, ...]
    page: int
    has_more: bool


def mail_page(studio: Studio, *, page: int) -> MailPage:
    """Return a page of the studio's mails. Three queries."""
    first = (page - 1) * PER_PAGE
    own = Mail.objects.of_studio(studio).defer("text", "attachments")
    mails = list(own.order_by("-created_at", "-pk")[first : first + PER_PAGE + 1])
    failed = Message.objects.of_studio(studio).filter(state=JobState.FAILED)
    return MailPage(
        rows=_rows(mails[:PER_PAGE]),
        failed_jobs=tuple(failed.exclude(task="outbox.send_mail").order_by("-settled_at", "-pk")[:20]),
        page=page,
        has_more=len(mails) > PER_PAGE,
    )


def _rows(mails: list[Mail]) -> tuple[MailRow, ...]:
    keys = {f"mail:{mail.key}": mail for mail in mails if mail.sent_at is None}
    jobs = {job.key: job for job in Message.objects.filter(key__in=keys)}
    return tuple(_row(mail, jobs.get(f"mail:{mail.key}")) for mail in mails)


def _row(mail: Mail, job: Message | None) -> MailRow:
    if mail.sent_at is not None:
        return MailRow(mail, MailState.SENT, None, "")
    if job is not None and job.state == JobState.FAILED:
        return MailRow(mail, MailState.FAILED, job, job.last_error)
    return MailRow(mail, MailState.WAITING, None, job.last_error if job else "")


@dataclass(frozen=True)
class MailText:
    """One mail to read. `hides_links` when the reader may not have what its links open."""

    row: MailRow
    text: str
    hides_links: bool
    goes_out_at: datetime | None


def mail_text(mail: Mail, *, reader: Member) -> MailText:
    """Return a mail with its links put in, if the reader may have them. One query for a mail that waits."""
    row = _rows([mail])[0]
    hides = bool(PLACEHOLDER.search(mail.text)) and not _may_have_links(mail, reader)
    text = PLACEHOLDER.sub("…", mail.text) if hides else with_links(mail.text)
    return MailText(row, text, hides, mail.sent_at)


def _may_have_links(mail: Mail, reader: Member) -> bool:
    """A link lets its holder act for whoever it was sent to, so only those may have it who could act anyway.

    A password link is for its reader alone: somebody may belong to another studio as well. An invitation gives a
    role, so it is the owner's. Clients' links are for those who plan.
    """
    if mail.recipient.casefold() == reader.user.email.casefold():
        return True
    if mail.key.startswith(INVITATION):
        return reader.is_owner
    return reader.plans and not mail.key.startswith(SIGN_IN)
