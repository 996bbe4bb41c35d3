"""The first studio, invitations into one, and what becomes of its members."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from babel.numbers import get_territory_currencies
from django.conf import settings
from django.db import transaction
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _

from shoots.accounts.models import Invitation
from shoots.members.core import Role
from shoots.members.models import Member, Studio, User
from shoots.outbox import actions as outbox
from shoots.trail import actions as trail
from shoots.values.tokens import fingerprint, token_for

INVITATION_DAYS = 14


class AlreadyBegun(Exception):
    """Raised when a studio of somebody's own exists: from then on one comes in by invitation."""


class AlreadyMember(Exception):
    """Raised when the invited address belongs to a member of the studio."""


class AlreadyInvited(Exception):
    """Raised when an invitation to that address is still open."""


class InvitationNotOpen(Exception):
    """Raised when an invitation was accepted, withdrawn, or has run out."""


class LastOwner(Exception):
    """Raised when a change would leave a studio without an owner."""


@transaction.atomic
def begin_studio(
    *,
    studio_name: str,
    owner_name: str,
    country: str,
    time_zone: str,
    email: str = "",
    password: str = "",
    user: User | None = None,
    now: datetime,
) -> Member:
    """Make the first studio and its owner, who is `user`, or a new one with `email` and `password`.

    Raises
    ------
    AlreadyBegun
        If a studio exists that is not the demo; of two parallel beginnings one wins.
    """
    if Studio.objects.filter(demo_anchor_date=None).exists():
        raise AlreadyBegun
    owner = user or User.objects.create_user(email=email, password=password, name=owner_name)
    tender = get_territory_currencies(country)
    studio = Studio.objects.create(
        name=studio_name,
        country=country,
        currency=tender[-1] if tender else "GBP",
        time_zone=time_zone,
        email=owner.email,
        account_name=studio_name[:70],
    )
    # The mail's unique key is the lock: a parallel beginning waits for it, finds the other's mail, and is undone.
    first = outbox.queue_mail(
        studio=studio,
        key="studio:first",
        to=owner.email,
        to_name=owner.name,
        subject=_("Your studio is set up"),
        text=render_to_string("mail/studio_begun.txt", {"studio": studio, "owner": owner, "site": settings.SITE_URL}),
        now=now,
    )
    if first.studio_id != studio.pk:
        raise AlreadyBegun
    member = Member.objects.create(studio=studio, user=owner, role=Role.OWNER)
    trail.record(studio, "begun", studio=studio, by=member, at=now)
    return member


@transaction.atomic
def edit_studio(*, studio: Studio, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> None:
    """Save the studio's details. Documents that were issued keep what they say.

    Raises
    ------
    EditedMeanwhile
        If somebody else saved them since they were opened.
    """
    trail.edit(studio, changes=changes, seen_version=seen_version, studio=studio, by=by, at=now)


@transaction.atomic
def invite_member(*, studio: Studio, email: str, name: str, role: Role, by: Member, now: datetime) -> Invitation:
    """Offer somebody a place in the studio for fourteen days and mail them the link.

    Raises
    ------
    AlreadyMember
        If that address belongs to a member.
    AlreadyInvited
        If an invitation to it is open.
    """
    _lock(studio)  # so that a double click finds the first invitation
    address = email.strip().lower()
    if Member.objects.filter(studio=studio, user__email__iexact=address, left_at=None).exists():
        raise AlreadyMember
    if Invitation.objects.of_studio(studio).open(at=now).filter(email__iexact=address).exists():
        raise AlreadyInvited
    nonce = secrets.token_hex(16)
    invitation = Invitation.objects.create(
        studio=studio,
        email=address,
        name=name.strip(),
        role=role,
        nonce=nonce,
        token_hash=fingerprint(token_for(nonce, secret=settings.SECRET_KEY)),
        invited_by=by,
        expires_at=now + timedelta(days=INVITATION_DAYS),
    )
    path = reverse("invitation_accept", args=["TOKEN"]).replace("TOKEN", "{{token:" + nonce + "}}")
    outbox.queue_mail(
        studio=studio,
        key=f"sign-in:invitation:{invitation.pk}",
        to=address,
        to_name=invitation.name,
        reply_to=studio.email,
        subject=_("%(studio)s invites you") % {"studio": studio.name},
        text=render_to_string(
            "mail/invitation.txt",
            {
                "invitation": invitation,
                "studio": studio,
                "link": settings.SITE_URL + path,
                "by": by,
                "days": INVITATION_DAYS,
            },
        ),
        now=now,
    )
    trail.record(invitation, "invited", by=by, changes={"email": ("", address), "role": ("", role)}, at=now)
    return invitation


@transaction.atomic
def withdraw_invitation(*, invitation: Invitation, by: Member, now: datetime) -> None:
    """Close an invitation before it is used; its link then says so.

    Raises
    ------
    InvitationNotOpen
        If it was accepted, withdrawn or has run out already.
    """
    if not Invitation.objects.open(at=now).filter(pk=invitation.pk).update(withdrawn_at=now):
        raise InvitationNotOpen
    trail.record(invitation, "withdrawn", by=by, at=now)


@transaction.atomic
def accept_invitation(
    *,
    invitation: Invitation,
    user: User | None = None,
    name: str = "",
    password: str = "",
    now: datetime,
) -> Member:
    """Let the invited in: as `user`, who has the invited address, or as a new one with `name` and `password`.

    Somebody who was a member before gets their place back, in the role that they were invited to.

    Raises
    ------
    InvitationNotOpen
        If it was used, withdrawn or has run out; a double click is refused the second time.
    """
    if not Invitation.objects.open(at=now).filter(pk=invitation.pk).update(accepted_at=now):
        raise InvitationNotOpen
    person = user or User.objects.create_user(email=invitation.email, password=password, name=name)
    member, _made = Member.objects.update_or_create(
        studio=invitation.studio, user=person, defaults={"role": invitation.role, "left_at": None}
    )
    trail.record(member, "joined", by=member, changes={"role": ("", invitation.role)}, at=now)
    return member


@transaction.atomic
def change_role(*, member: Member, role: Role, seen_version: int, by: Member, now: datetime) -> None:
    """Give a member another role.

    Raises
    ------
    LastOwner
        If the studio would be left without an owner.
    EditedMeanwhile
        If somebody changed this member since the page was opened.
    """
    _lock(member.studio)
    if role != Role.OWNER:
        _keep_an_owner(member)
    trail.edit(member, changes={"role": role}, seen_version=seen_version, deed="role changed", by=by, at=now)


@transaction.atomic
def remove_member(*, member: Member, by: Member, now: datetime) -> None:
    """End a member's place from their very next request; what they did keeps their name. Repeating is harmless.

    Raises
    ------
    LastOwner
        If the studio would be left without an owner.
    """
    _lock(member.studio)
    _keep_an_owner(member)
    if Member.objects.filter(pk=member.pk, left_at=None).update(left_at=now):
        trail.record(member, "removed", by=by, at=now)


def _lock(studio: Studio) -> None:
    """Let changes to a studio's members wait for each other (SQLite's transactions do so by themselves)."""
    Studio.objects.select_for_update().get(pk=studio.pk)


def _keep_an_owner(member: Member) -> None:
    owners = Member.objects.filter(studio=member.studio, role=Role.OWNER, left_at=None)
    if not owners.exclude(pk=member.pk).exists():
        raise LastOwner
