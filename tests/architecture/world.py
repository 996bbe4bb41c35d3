"""One studio with a record of every kind, for the tests that walk all URLs."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.core.files.uploadedfile import SimpleUploadedFile

from shoots.accounts import actions as accounts
from shoots.call.models import Call
from shoots.delivery import actions as delivery
from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind
from shoots.invoices import actions as invoices
from shoots.members.core import Role
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.outbox.models import JobState, Message
from shoots.quotes.actions import card, drafts, sending
from shoots.quotes.models import Quote, QuoteLine, RateKind
from shoots.rights.models import Licence
from shoots.shoot.models import Fact, FactKind
from shoots.values.tokens import token_for
from tests import factories
from tests.delivery.pictures import picture_file


@dataclass
class World:
    """A studio and one of each of its records, under the names that `routes.FILL` asks for."""

    studio: Studio
    members: dict[Role, Member]
    tokens: dict[str, str] = field(default_factory=dict)
    records: dict[str, Any] = field(default_factory=dict)

    def __getattr__(self, name: str) -> Any:
        try:
            return self.records[name]
        except KeyError:
            raise AttributeError(name) from None


def make_world(*, name: str, now: datetime) -> World:
    """Make a studio with its four roles; its crew member is booked on its one shoot."""
    studio = factories.make_studio(name=name)
    members = {role: factories.make_member(studio, role) for role in Role}
    world = World(studio, members)
    _at_hand(world, now=now)
    _the_shoot(world, now=now)
    _the_money(world, now=now)
    _pictures(world, now=now)
    return world


def _at_hand(world: World, *, now: datetime) -> None:
    studio, owner, known = world.studio, world.members[Role.OWNER], world.records
    known["member"] = factories.make_member(studio, Role.CREW)
    known["invitation"] = accounts.invite_member(
        studio=studio, email=f"{secrets.token_hex(4)}@example.com", name="Rae", role=Role.CREW, by=owner, now=now
    )
    world.tokens["invitation"] = token_for(known["invitation"].nonce, secret=settings.SECRET_KEY)
    known["client"] = factories.make_client(studio)
    known["contact"] = factories.make_contact(known["client"])
    known["person"] = factories.make_person(studio, email=world.members[Role.CREW].user.email)
    known["place"] = factories.make_place(studio)
    known["spot"] = factories.make_spot(known["place"])
    known["lamp"] = factories.make_lamp(studio)
    known["mail"] = outbox.queue_mail(
        studio=studio, key=f"letter:{studio.pk}", to="mara@example.com", subject="A letter", text="Hello", now=now
    )
    known["job"] = Message.objects.create(
        studio=studio,
        key=f"job:{studio.pk}",
        task="documents.render",
        state=JobState.FAILED,
        created_at=now,
        not_before=now,
        settled_at=now,
    )


def _the_shoot(world: World, *, now: datetime) -> None:
    studio, known = world.studio, world.records
    shoot = known["shoot"] = factories.make_shoot(studio, client=known["client"], contact=known["contact"])
    known["day"] = factories.make_day(shoot, place=known["place"])
    known["booking"] = factories.make_booking(shoot, person=known["person"], day=known["day"])
    known["fact"] = Fact.objects.create(studio=studio, shoot=shoot, kind=FactKind.ON_HOLD, happened_at=now)
    known["mood"] = factories.make_mood(shoot)
    known["setup"] = factories.make_setup(shoot, place=known["place"], mood=known["mood"])
    known["placed_lamp"] = factories.make_placed_lamp(known["setup"], lamp=known["lamp"])
    known["shot"] = factories.make_shot(shoot, setup=known["setup"])
    known["call"] = Call.objects.create(studio=studio, shoot=shoot, called_at=now, notes="Two pictures, 4:5")


def _the_money(world: World, *, now: datetime) -> None:
    studio, owner, known = world.studio, world.members[Role.OWNER], world.records
    shoot = known["shoot"]
    known["rate"] = card.add_rate(
        fields={"kind": RateKind.DAY, "description": "Photography, day", "unit": "day", "unit_price": 1150},
        by=owner,
        now=now,
    )
    known["document"] = documents.issue(
        studio=studio,
        kind=DocumentKind.LICENCE,
        number="L-1",
        title="A paper",
        template="documents/being_made.html",
        content={},
        render=False,
        now=now,
    )
    known["licence"] = Licence.objects.create(
        studio=studio,
        shoot=shoot,
        number="L-2026-009",
        licensee={"name": "Fellside Packs"},
        terms={},
        granted_at=now,
        document=known["document"],
    )
