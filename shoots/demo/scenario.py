"""The demo's scenario: facts from fixtures/demo, told by calling the program's own actions at moments of the past.

Days count from an anchor, stored at the first load, so that the pages read the same whenever one looks. PDFs and
previews are left to the worker, except those of quotes: accepting one needs the PDF that was sent.
"""

from __future__ import annotations

from datetime import date, datetime

from django.conf import settings
from django.db import transaction

from shoots.demo.packs import packs_job
from shoots.demo.stage import begin_studio, fill_bag, find_places, meet_people, read_facts, write_card
from shoots.demo.tea import last_years_job, late_payer, waiting_for_a_yes
from shoots.members.models import Member, Studio, User


class MailWouldLeave(Exception):
    """Raised when SMTP is configured: the demo's mails must never reach anybody."""


def is_loaded() -> bool:
    """Return whether the scenario was loaded before, set aside or not. One query."""
    return Studio.objects.exclude(demo_anchor_date=None).exists()


def login_words() -> str:
    """Return how to sign in to the demo, or nothing when it isn't there or was set aside."""
    owner = (
        Member.objects.filter(left_at=None, role="OWNER")
        .exclude(studio__demo_anchor_date=None)
        .select_related("user")
        .first()
    )
    if owner is None:
        return ""
    return f"Demo: sign in as {owner.user.email} with the pass phrase “{read_facts()['password']}”."


@transaction.atomic
def load(*, anchor: date) -> Studio:
    """Load the whole scenario in one transaction; a second time it returns the studio that is there.

    Raises
    ------
    MailWouldLeave
        If SMTP is configured.
    """
    if settings.SMTP_URL:
        raise MailWouldLeave
    there = Studio.objects.exclude(demo_anchor_date=None).first()
    if there is not None:
        return there
    known = begin_studio(read_facts(), anchor)
    fill_bag(known)
    meet_people(known)
    find_places(known)
    write_card(known)
    last_years_job(known)
    late_payer(known)
    packs_job(known)
    waiting_for_a_yes(known)
    return known.studio


@transaction.atomic
def set_aside(*, studio: Studio, now: datetime) -> None:
    """Close the demo: nobody signs in to it any more, and the next visitor sets up a studio of their own.

    Its records stay untouched, for whoever wants to look at them again with the owner's help.
    """
    Member.objects.filter(studio=studio, left_at=None).update(left_at=now)
    User.objects.filter(memberships__studio=studio).exclude(memberships__left_at=None).update(is_active=False)
