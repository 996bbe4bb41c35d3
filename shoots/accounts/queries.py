"""What the pages of sign-in and membership need."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from shoots.accounts.models import Invitation
from shoots.members.models import Member, Studio, User


@dataclass(frozen=True)
class MembersPage:
    """The people of a studio, and the invitations that are still open."""

    members: tuple[Member, ...]
    invitations: tuple[Invitation, ...]


def members_page(studio: Studio, *, now: datetime) -> MembersPage:
    """Return who works here and who was asked to. Two queries."""
    members = Member.objects.filter(studio=studio, left_at=None).select_related("user", "studio")
    invitations = Invitation.objects.of_studio(studio).open(at=now).order_by("expires_at", "pk")
    return MembersPage(tuple(members.order_by("joined_at", "pk")), tuple(invitations))


def can_begin() -> bool:
    """Return whether the first set-up is open: there is no studio yet, or only the demo. One query."""
    return not Studio.objects.filter(demo_anchor_date=None).exists()


def is_untouched() -> bool:
    """Return whether there is no studio at all, not even the demo. One query."""
    return not Studio.objects.exists()


def places_of(user: User) -> tuple[Member, ...]:
    """Return the studios that somebody works in. One query."""
    places = Member.objects.filter(user=user, left_at=None).select_related("studio")
    return tuple(places.order_by("studio__name", "pk"))


def user_invited(invitation: Invitation) -> User | None:
    """Return the user who already signs in with the invited address. One query."""
    return User.objects.filter(email__iexact=invitation.email).first()
