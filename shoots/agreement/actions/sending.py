"""Sending a brief: frozen at once, rendered and hashed by a job, and only then mailed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from django.conf import settings
from django.db import IntegrityError, transaction
from django.db.models import F
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _

from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.paper import agreed_now, brief_paper, missing_in, print_of, with_papers
from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.links import actions as links
from shoots.links.models import ClientLink, Purpose
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail

TEMPLATE = "documents/brief.html"
LINK_DAYS = 365
"""A brief tells of products that nobody has seen yet: its link ends a year after it was sent. Own rule. [d]"""


class BriefIncomplete(Exception):
    """Raised when something has to be there first; `missing` says what, in sentences."""

    def __init__(self, missing: Sequence[str]) -> None:
        super().__init__("; ".join(missing))
        self.missing = tuple(missing)


class BriefAlreadySent(Exception):
    """Raised when a version was sent since the page was opened, by a double click or by somebody else."""


def send_brief(
    *,
    shoot: Shoot,
    email: str,
    message: str = "",
    seen_number: int,
    seen_print: str,
    by: Member | None,
    now: datetime,
) -> BriefVersion:
    """Freeze the brief, its moods and its shot list as the next version, and ask for the PDF and the mail.

    `seen_number` is the newest version that was there when somebody looked, 0 for none, and `seen_print` the
    fingerprint of what they looked at: a double click, and an edit in another window, are both refused. Versions that
    nobody approved are replaced. The link goes out only when the PDF is made and hashed.

    Raises
    ------
    BriefIncomplete, BriefAlreadySent, EditedMeanwhile
        Nothing is written.
    """
    try:
        with transaction.atomic():
            return _send(shoot, email, message, seen_number=seen_number, seen_print=seen_print, by=by, now=now)
    except IntegrityError:  # two sent the same number at once
        raise BriefAlreadySent


def _send(
    shoot: Shoot, email: str, message: str, *, seen_number: int, seen_print: str, by: Member | None, now: datetime
) -> BriefVersion:
    studio = shoot.studio
    versions = BriefVersion.objects.filter(shoot=shoot)
    # The first statement takes the rows, so that what is read below is what is replaced.
    versions.approvable().update(replaced_at=now, version=F("version") + 1)
    newest = versions.select_related("document").order_by("-number").first()
    if (newest.number if newest else 0) != seen_number:
        raise BriefAlreadySent
    agreed = agreed_now(shoot)
    if missing := missing_in(shoot, agreed):
        raise BriefIncomplete(missing)
    if print_of(agreed) != seen_print:
        raise EditedMeanwhile
    number = seen_number + 1
    label = _free_label(studio, shoot, number)
    document = documents.issue(
        studio=studio,
        kind=DocumentKind.BRIEF,
        number=label,
        title=_("Brief %(number)s, %(title)s") % {"number": label, "title": shoot.title},
        template=TEMPLATE,
        content=brief_paper(shoot, agreed, number=number, label=label, before=newest, issued_on=studio.local_date(now)),
        render=False,
        now=now,
    )
    link = links.make_link(studio=studio, purpose=Purpose.BRIEF, expires_at=now + timedelta(days=LINK_DAYS), now=now)
    made = BriefVersion.objects.create(
        studio=studio, shoot=shoot, number=number, sent_at=now, sent_to=email, document=document, link=link
    )
    outbox.enqueue(
        task="agreement.deliver",
        key=f"brief:{made.pk}:deliver",
        payload={"version_id": made.pk, "message": message},
        studio=studio,
        now=now,
    )
    trail.record(made, "sent", by=by, shoot_code=shoot.code, changes={"to": ("", email)}, at=now)
    return with_papers().get(pk=made.pk)


def _free_label(studio: Studio, shoot: Shoot, number: int) -> str:
    """Return the shoot's code and the version, with a letter where a shoot of that code had such a version before."""
    taken = set(
        IssuedDocument.objects.of_studio(studio)
        .filter(kind=DocumentKind.BRIEF, number__startswith=shoot.code)
        .values_list("number", flat=True)
    )
    letters = iter(["", *"bcdefghijklmnopqrstuvwxyz"])
    return next(label for letter in letters if (label := f"{shoot.code}{letter}-{number}") not in taken)


def link_address(link: ClientLink) -> str:
    """Return the link's address with a placeholder for its token, as a queued mail carries it."""
    path = reverse("client_brief", args=["TOKEN"]).replace("TOKEN", links.mail_piece(link))
    return f"{settings.SITE_URL}{path}"


def deliver_brief(*, version_id: int, message: str = "", now: datetime) -> None:
    """Make the PDF of a version, then mail its link. Safe to repeat: the first PDF and the first mail stay."""
    version = with_papers().get(pk=version_id)
    document = documents.ensure_rendered(document=version.document, now=now)
    if not version.sent_to or version.replaced_at is not None or version.withdrawn_at is not None:
        return
    contact = document.content["contact"]
    context = {
        "version": version,
        "content": document.content,
        "message": message,
        "name": contact["name"] if contact else "",
        "address": link_address(version.link),
    }
    outbox.queue_mail(
        studio=version.studio,
        key=f"brief:{version.pk}:sent",
        to=version.sent_to,
        to_name=contact["name"] if contact and contact["email"] == version.sent_to else "",
        reply_to=version.studio.email,
        subject=_("The brief for %(title)s: is it right?") % {"title": version.shoot.title},
        text=render_to_string("mail/brief_sent.txt", context),
        now=now,
    )


@transaction.atomic
def withdraw_brief(*, version: BriefVersion, by: Member | None, now: datetime) -> bool:
    """Close the client's link; a version that waits for its answer counts no more. Return whether it waited.

    An approved version stays approved. Safe to repeat.
    """
    waited = BriefVersion.objects.approvable().filter(pk=version.pk)
    rows = waited.update(withdrawn_at=now, version=F("version") + 1)
    if version.link.revoked_at is None:
        links.revoke(link=version.link, now=now)
        deed = "withdrawn" if rows else "link closed"
        trail.record(version, deed, by=by, shoot_code=version.shoot.code, at=now)
    return bool(rows)


@transaction.atomic
def note_opened(*, version: BriefVersion, now: datetime) -> None:
    """Remember that the client's link was opened; a mail scanner may have done it."""
    links.note_opened(link=version.link, now=now)
    BriefVersion.objects.filter(pk=version.pk, opened_at=None).update(opened_at=now)
