"""One studio with a record of every kind, for the tests that walk all URLs."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from django.conf import settings

from shoots.accounts import actions as accounts
from shoots.agreement.actions import sending as briefs
from shoots.agreement.queries.paper import agreed_now, print_of
from shoots.brief.models import Brief
from shoots.call import actions as calls
from shoots.callsheet import actions as callsheet
from shoots.callsheet.models import SheetKind
from shoots.coverage import actions as coverage
from shoots.delivery import actions as delivery
from shoots.invoices import actions as invoices
from shoots.invoices.models import Invoice
from shoots.kit.models import Panel
from shoots.lighting.models import LightFactor, LightStart, MeterReading, PlacedPanel
from shoots.links import actions as links
from shoots.members.core import Role
from shoots.members.models import Member, Studio
from shoots.mood import actions as moods
from shoots.outbox import actions as outbox
from shoots.outbox.models import JobState, Message
from shoots.people.queries import party_card
from shoots.quotes.actions import card, drafts, sending
from shoots.quotes.models import RateKind
from shoots.rights import actions as rights
from shoots.rights.models import UsageTerms
from shoots.rights.queries.terms import frozen_terms
from shoots.schedule import actions as schedule
from shoots.shoot.models import Fact, FactKind
from shoots.shotlist.models import ShotTemplate
from shoots.values.tokens import token_for
from tests import factories
from tests.delivery.pictures import picture_file


@dataclass
class World:
    """A studio and one of each of its records, under the names that `routes.FILL` asks for."""

    studio: Studio
    members: dict[Role, Member]
    with_papers: bool
    tokens: dict[str, str] = field(default_factory=dict)
    records: dict[str, Any] = field(default_factory=dict)

    def __getattr__(self, name: str) -> Any:
        try:
            return self.records[name]
        except KeyError:
            raise AttributeError(name) from None


def make_world(*, name: str, with_papers: bool, now: datetime) -> World:
    """Make a studio with its four roles; its crew member is booked on its one shoot.

    PDFs take most of the time, so a studio whose pages nobody opens goes `with_papers=False`.
    """
    studio = factories.make_studio(name=name)
    members = {role: factories.make_member(studio, role) for role in Role}
    world = World(studio, members, with_papers)
    _at_hand(world, now=now)
    _the_shoot(world, now=now)
    _the_brief(world, now=now)
    _the_money(world, now=now)
    _pictures(world, now=now)
    _references(world, now=now)
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
    # Ahead of the clock: links to a call sheet run out after its day.
    known["day"] = factories.make_day(shoot, place=known["place"], date=now.date() + timedelta(days=14))
    known["booking"] = factories.make_booking(shoot, person=known["person"], day=known["day"])
    known["fact"] = Fact.objects.create(studio=studio, shoot=shoot, kind=FactKind.ON_HOLD, happened_at=now)
    known["mood"] = factories.make_mood(shoot)
    known["setup"] = factories.make_setup(shoot, place=known["place"], mood=known["mood"])
    known["placed_lamp"] = factories.make_placed_lamp(known["setup"], lamp=known["lamp"])
    known["shot"] = factories.make_shot(shoot, setup=known["setup"])
    known["product"] = factories.make_product(shoot)
    known["sample"] = factories.make_sample(known["product"])
    known["shot_template"] = ShotTemplate.objects.create(
        studio=studio, name="Six for a shop", rows=[{"TITLE": "Front"}]
    )
    owner = world.members[Role.OWNER]
    known["promise"] = coverage.state_promise(shoot=shoot, fields={"product": "12 litre pack"}, by=owner, now=now)
    panel = Panel.objects.create(studio=studio, name="White board", kind="REFLECTOR")
    known["placed_panel"] = PlacedPanel.objects.create(studio=studio, setup=known["setup"], panel=panel)
    known["light_start"] = LightStart.objects.create(studio=studio, name="Hard noon")
    known["light_factor"] = LightFactor.objects.create(
        studio=studio, lamp=known["lamp"], stops=0.4, spread_stops=0.1, readings=3, read_at=now
    )
    known["reading"] = MeterReading.objects.create(studio=studio, setup=known["setup"], f_number=8.0, read_at=now)
    known["call"] = calls.begin_call(
        studio=studio, shoot=shoot, notes="Two pictures, 4:5, for Instagram in the UK", by=owner, now=now
    )
    known["draft"] = known["call"].drafts.first()
    schedule.draft_plan(day=known["day"], by=owner, now=now)
    known["block"] = known["day"].blocks.first()
    sheet = callsheet.issue_sheet(day=known["day"], kind=SheetKind.ADVANCE, by=owner, now=now)
    known["copy"] = sheet.copies.get(booking=known["booking"])
    if world.with_papers:
        callsheet.deliver(copy_id=known["copy"].pk, now=now)
    world.tokens["copy"] = links.token_of(known["copy"].link)


def _the_brief(world: World, *, now: datetime) -> None:
    shoot = world.shoot
    Brief.objects.filter(shoot=shoot).update(purpose="A pack for rain")
    sent = world.records["brief_version"] = briefs.send_brief(
        shoot=shoot,
        email="mara@example.com",
        seen_number=0,
        seen_print=print_of(agreed_now(shoot)),
        by=world.members[Role.OWNER],
        now=now,
    )
    if world.with_papers:
        briefs.deliver_brief(version_id=sent.pk, now=now)
    world.tokens["brief"] = links.token_of(sent.link)


def _the_money(world: World, *, now: datetime) -> None:
    studio, owner, known = world.studio, world.members[Role.OWNER], world.records
    shoot = known["shoot"]
    known["rate"] = card.add_rate(
        studio=studio,
        fields={"kind": RateKind.DAY, "description": "Photography, day", "unit": "day", "unit_price": Decimal(1150)},
        by=owner,
        now=now,
    )
    rights.save_terms(
        shoot=shoot,
        changes={"media": ["OWN_WEBSITE"], "territories": ["GB"], "months": 12},
        seen_version=0,
        by=owner,
        now=now,
    )
    known["licence"] = rights.grant_licence(
        shoot=shoot,
        terms=frozen_terms(UsageTerms.objects.get(shoot=shoot)),
        licensee=party_card(known["client"]),
        number="L-2026-009",
        now=now,
    )
    known["document"] = known["licence"].document
    draft = drafts.start_quote(shoot=shoot, by=owner, now=now)
    drafts.add_rate_line(quote=draft, rate=known["rate"], quantity=Decimal(1), by=owner, now=now)
    draft.refresh_from_db()
    sent = sending.send_quote(
        quote=draft, email="mara@example.com", message="", seen_version=draft.version, by=owner, now=now
    )
    if world.with_papers:
        sending.deliver_quote(quote_id=sent.pk, now=now)
    sent.refresh_from_db()
    known["quote"] = sent
    world.tokens["quote"] = links.token_of(sent.link)
    known["quote_draft"] = drafts.copy_quote(quote=sent, by=owner, now=now)
    known["quote_line"] = known["quote_draft"].lines.first()
    known["invoice"] = _invoice(world, now=now)
    invoices.issue_invoice(invoice=known["invoice"], by=owner, now=now)
    known["invoice_draft"] = _invoice(world, now=now)


def _invoice(world: World, *, now: datetime) -> Invoice:
    invoice = invoices.draft_blank(shoot=world.shoot, by=world.members[Role.OWNER], now=now)
    line = {"description": "Photography", "quantity": Decimal(1), "unit_price": Decimal(900), "tax_rate": Decimal(20)}
    invoices.edit_draft(
        invoice=invoice,
        changes={},
        lines=[{**line, "unit": "day", "tax_category": "S"}],
        seen_version=invoice.version,
        by=world.members[Role.OWNER],
        now=now,
    )
    invoice.refresh_from_db()
    return invoice


def _pictures(world: World, *, now: datetime) -> None:
    owner, known = world.members[Role.OWNER], world.records
    known["picture"] = delivery.add_picture(
        shoot=world.shoot, file=picture_file("01-rim.jpg"), name="01-rim.jpg", by=owner, now=now
    )
    delivery.make_preview(picture_id=known["picture"].pk)
    known["delivery"] = delivery.send_delivery(
        shoot=world.shoot,
        title="Finals",
        message="",
        pictures=[known["picture"]],
        to="mara@example.com",
        to_name="Mara",
        by=owner,
        now=now,
    )
    world.tokens["delivery"] = links.token_of(known["delivery"].link)


def _references(world: World, *, now: datetime) -> None:
    owner, known = world.members[Role.OWNER], world.records
    known["reference"] = moods.add_reference(
        shoot=world.shoot,
        mood=known["mood"],
        file=picture_file("slate.jpg"),
        name="slate.jpg",
        whose="CLIENT",
        within_s=9.0,
        by=owner,
        now=now,
    )
    known["mood_share"] = moods.share_sheet(shoot=world.shoot, email="mara@example.com", by=owner, now=now)
    world.tokens["mood_share"] = links.token_of(known["mood_share"].link)
