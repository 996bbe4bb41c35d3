"""The client's answer to a brief: "yes, that's right", or what isn't; by the client, or written down by the studio."""

from __future__ import annotations

import hashlib
from datetime import datetime

from django.db import transaction
from django.db.models import F
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from shoots.agreement.actions.sending import link_address
from shoots.agreement.models import BriefVersion, Correction
from shoots.agreement.queries.paper import with_papers
from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from shoots.quotes.queries.paper import studio_addresses
from shoots.trail import actions as trail

TEMPLATE = "documents/brief_approval.html"


class BriefNoLongerOpen(Exception):
    """Raised when a version was approved, replaced or withdrawn."""


class BriefNotReady(Exception):
    """Raised when the version's PDF is still being made: there is nothing yet whose hash could be kept."""


class AnswerNotPossible(ValueError):
    """Raised when an answer would lie before the brief was sent, or in the future."""


@transaction.atomic
def approve_brief(*, version: BriefVersion, name: str, address: str = "", now: datetime) -> None:
    """Approve a version as the client: the hash of its PDF is stored with the name, and the approval issued.

    One conditional UPDATE is the guard against the double click, the second person and the newer version alike: the
    first name stays. The paper and the mails follow in a job.

    Raises
    ------
    BriefNoLongerOpen, BriefNotReady
        Nothing is written.
    """
    _approve(version.pk, name=name, address=address, approved_at=now, by=name, now=now)


@transaction.atomic
def record_approval(
    *, version: BriefVersion, name: str, said_at: datetime, evidence: str, by: Member, now: datetime
) -> None:
    """Write down that the client approved, with person, moment and evidence, such as the line from their e-mail.

    Raises
    ------
    AnswerNotPossible, BriefNoLongerOpen, BriefNotReady
        Nothing is written.
    """
    _check_moment(version, said_at=said_at, now=now)
    _approve(version.pk, name=name, evidence=evidence, approved_at=said_at, by=by, now=now)


def _check_moment(version: BriefVersion, *, said_at: datetime, now: datetime) -> None:
    if said_at < version.sent_at or said_at > now:
        raise AnswerNotPossible


def _approve(
    version_id: int,
    *,
    name: str,
    address: str = "",
    evidence: str = "",
    approved_at: datetime,
    by: Member | str,
    now: datetime,
) -> None:
    rows = (
        BriefVersion.objects.approvable()
        .filter(pk=version_id)
        .update(
            approved_at=approved_at,
            approved_by=name,
            approved_from=address,
            approval_evidence=evidence,
            version=F("version") + 1,
        )
    )
    if not rows:
        raise BriefNoLongerOpen
    version = with_papers().get(pk=version_id)
    if not version.document.is_rendered:
        raise BriefNotReady  # the transaction takes the update back
    sha256 = version.document.sha256
    paper = _issue_approval(version, by=by, now=now)
    BriefVersion.objects.filter(pk=version_id).update(approved_sha256=sha256, approval_document=paper)
    outbox.enqueue(
        task="agreement.confirm",
        key=f"brief:{version_id}:confirm",
        payload={"version_id": version_id},
        studio=version.studio,
        now=now,
    )
    changes = {"approved_by": ("", name), "sha256": ("", sha256)}
    trail.record(version, "approved", by=by, shoot_code=version.shoot.code, changes=changes, at=now)


def _issue_approval(version: BriefVersion, *, by: Member | str, now: datetime) -> IssuedDocument:
    content = version.document.content
    taken_over = ("studio", "number", "revision", "issued_on", "shoot", "client")
    return documents.issue(
        studio=version.studio,
        kind=DocumentKind.APPROVAL,
        number=content["number"],
        title=_("Approval of brief %(number)s") % {"number": content["number"]},
        template=TEMPLATE,
        content={
            **{name: content[name] for name in taken_over},
            "shots": len(content["agreed"]["shots"]),
            "finals": content["words"]["finals"],
            "approved_at": version.approved_at,
            "approved_by": version.approved_by,
            "approved_from": version.approved_from,
            "evidence": version.approval_evidence,
            "recorded_by": str(by) if isinstance(by, Member) else "",
            "recorded_at": now,
            "sha256": version.document.sha256,
            "pages": version.document.pages,
        },
        render=False,
        now=now,
    )


def confirm_approval(*, version_id: int, now: datetime) -> None:
    """Make the approval's paper, then mail it to the client and the studio. Safe to repeat."""
    version = with_papers().get(pk=version_id)
    if version.approval_document is None:
        return
    paper = documents.ensure_rendered(document=version.approval_document, now=now)
    attachments = [{"name": paper.file_name, "storage_key": paper.storage_key, "content_type": "application/pdf"}]
    context = {"version": version, "content": paper.content, "address": link_address(version.link)}
    subject = _("Approved: the brief for %(title)s") % {"title": version.shoot.title}
    if version.sent_to:
        outbox.queue_mail(
            studio=version.studio,
            key=f"brief:{version.pk}:approved:client",
            to=version.sent_to,
            reply_to=version.studio.email,
            subject=subject,
            text=render_to_string("mail/brief_approved_client.txt", context),
            attachments=attachments,
            now=now,
        )
    for number, (email, name) in enumerate(studio_addresses(version.studio)):
        outbox.queue_mail(
            studio=version.studio,
            key=f"brief:{version.pk}:approved:studio:{number}",
            to=email,
            to_name=name,
            subject=subject,
            text=render_to_string("mail/brief_approved_studio.txt", context),
            attachments=attachments,
            now=now,
        )


@transaction.atomic
def correct_brief(*, version: BriefVersion, name: str, words: str, address: str = "", now: datetime) -> bool:
    """Keep what the client says isn't right, and tell the studio by mail. Return False for the same words again.

    The version can still be approved: often one call settles it.

    Raises
    ------
    BriefNoLongerOpen
        Nothing is written.
    """
    correction = _correct(version, name=name, words=words, said_at=now, address=address, by=name, now=now)
    if correction is None:
        return False
    context = {"version": version, "correction": correction}
    for number, (email, to_name) in enumerate(studio_addresses(version.studio)):
        outbox.queue_mail(
            studio=version.studio,
            key=f"correction:{correction.pk}:studio:{number}",
            to=email,
            to_name=to_name,
            subject=_("Not right yet: the brief for %(title)s") % {"title": version.shoot.title},
            text=render_to_string("mail/brief_corrected.txt", context),
            now=now,
        )
    return True


@transaction.atomic
def record_correction(
    *, version: BriefVersion, name: str, words: str, said_at: datetime, by: Member, now: datetime
) -> bool:
    """Write down what the client said isn't right; no mail, the studio knows. Return False for the same words again.

    Raises
    ------
    AnswerNotPossible, BriefNoLongerOpen
        Nothing is written.
    """
    _check_moment(version, said_at=said_at, now=now)
    return _correct(version, name=name, words=words, said_at=said_at, by=by, now=now) is not None


def _correct(
    version: BriefVersion,
    *,
    name: str,
    words: str,
    said_at: datetime,
    address: str = "",
    by: Member | str,
    now: datetime,
) -> Correction | None:
    # Taking the row first keeps an approval that comes at the same moment on one side of it.
    if not BriefVersion.objects.approvable().filter(pk=version.pk).update(version=F("version") + 1):
        raise BriefNoLongerOpen
    correction, is_new = Correction.objects.get_or_create(
        brief=version,
        words_sha256=hashlib.sha256(" ".join(words.split()).encode()).hexdigest(),
        defaults={
            "studio": version.studio,
            "words": words,
            "name": name,
            "said_at": said_at,
            "said_from": address,
            "recorded_by": str(by) if isinstance(by, Member) else "",
        },
    )
    if not is_new:
        return None
    trail.record(version, "corrected", by=by, shoot_code=version.shoot.code, changes={"words": ("", words)}, at=now)
    return correction
