"""The shoots of a client or of somebody booked, for the pages of people."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Prefetch, Q

from shoots.desk.queries.road import Road, roads_of
from shoots.members.models import Member
from shoots.people.models import Client, Person
from shoots.shoot.models import Booking, Shoot, ShootDay

MOST_SHOOTS = 12


@dataclass(frozen=True)
class TheirShoot:
    """A shoot with its next or last day that stands, and where it is on the road."""

    shoot: Shoot
    day: ShootDay | None
    road: Road


def shoots_of_client(client: Client, *, member: Member, now: datetime) -> tuple[TheirShoot, ...]:
    """Return the newest shoots that a client ordered, is licensed for or pays, in a fixed number of queries."""
    return _theirs(Q(client=client) | Q(licensee=client) | Q(billed_to=client), member=member, now=now)


def shoots_of_person(person: Person, *, member: Member, now: datetime) -> tuple[TheirShoot, ...]:
    """Return the newest shoots that somebody is held for, in a fixed number of queries."""
    held = Booking.objects.filter(person=person, released_at=None).values("shoot")
    return _theirs(Q(pk__in=held), member=member, now=now)


def _theirs(which: Q, *, member: Member, now: datetime) -> tuple[TheirShoot, ...]:
    days = Prefetch("days", queryset=ShootDay.objects.filter(released_at=None).order_by("date"), to_attr="standing")
    rows = list(
        Shoot.objects.visible_to(member)
        .filter(which)
        .select_related("client", "contact")
        .prefetch_related(days)
        .order_by("-created_at", "-pk")[:MOST_SHOOTS]
    )
    roads = roads_of(rows, member=member, now=now)
    today = member.studio.local_date(now)
    return tuple(TheirShoot(shoot, _shown(shoot.standing, today), roads[shoot.pk]) for shoot in rows)  # type: ignore[attr-defined]


def _shown(days: list[ShootDay], today: date) -> ShootDay | None:
    """The next day, else the last."""
    return next((day for day in days if day.date >= today), days[-1] if days else None)
