"""The stage of the demo: what was made so far, the studio with its people and bag, and what each job does alike."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from django.conf import settings
from django.contrib.auth.hashers import make_password

from shoots.invoices import actions as invoices
from shoots.invoices.models import Invoice
from shoots.kit import actions as kit
from shoots.members.models import Member, Studio, User
from shoots.people import actions as people
from shoots.people.models import Client
from shoots.places import actions as places
from shoots.places.core.sun import sun_position
from shoots.places.queries import light_of
from shoots.quotes.actions import card, drafts, sending
from shoots.quotes.models import Quote, Rate
from shoots.rights import actions as rights
from shoots.shoot.models import Shoot

FOLDER = Path(settings.BASE_DIR) / "fixtures/demo"
ZONE = ZoneInfo("Europe/London")
#: The day on which each place is shot, counted from the anchor.
DAYS = {"quarry": -6, "reservoir": 3}


@dataclass
class Known:
    """What was made so far, by the keys of the scenario."""

    anchor: date
    facts: dict[str, Any]
    studio: Studio
    owner: Member
    producer: Member | None = None
    clients: dict[str, Client] = field(default_factory=dict)
    people: dict[str, Any] = field(default_factory=dict)
    places: dict[str, Any] = field(default_factory=dict)
    spots: dict[str, Any] = field(default_factory=dict)
    kit: dict[str, list[Any]] = field(default_factory=dict)
    rates: dict[str, Rate] = field(default_factory=dict)

    def day(self, days: int) -> date:
        return self.anchor + timedelta(days=days)

    def at(self, days: int, clock: str = "10:00") -> datetime:
        """Return a moment so many days from the anchor, on the studio's clock."""
        return datetime.combine(self.day(days), time.fromisoformat(clock), ZONE)

    def by_sunset(self, place: str, days: int, *, minus: str = "0:00", plus: str = "0:00") -> time:
        """Return a time of day, to five minutes, so many hours and minutes before or after a place's sunset."""
        light = light_of(self.places[place], self.day(days))
        if light is None or light.sunset_at is None:
            raise ValueError("The demo's places have a sunset on every day of the year")
        moment = light.sunset_at - _hours(minus) + _hours(plus)
        return time(moment.hour, moment.minute // 5 * 5)


def _hours(words: str) -> timedelta:
    hours, minutes = words.split(":")
    return timedelta(hours=int(hours), minutes=int(minutes))


def read_facts() -> dict[str, Any]:
    return tomllib.loads((FOLDER / "scenario.toml").read_text())


def begin_studio(facts: dict[str, Any], anchor: date) -> Known:
    # The studio's own row has no action for a demo: `accounts.begin_studio` is for a real first studio.
    studio = Studio.objects.create(**facts["studio"], demo_anchor_date=anchor)
    members = {}
    hashed = make_password(facts["password"])  # once: hashing is slow on purpose, and all of them share the phrase
    for entry in facts["members"]:
        user = User.objects.create_user(email=entry["email"], name=entry["name"])
        User.objects.filter(pk=user.pk).update(password=hashed)
        members[entry["role"]] = Member.objects.create(studio=studio, user=user, role=entry["role"])
    return Known(anchor, facts, studio, members["OWNER"], members["PRODUCER"])


def fill_bag(known: Known) -> None:
    now = known.at(-400)
    for slug, entries in known.facts["kit"].items():
        for entry in entries:
            # A light names its battery by its place in the list of batteries, which are put in first.
            fields = entry | {"battery": known.kit["batteries"][entry["battery"]]} if "battery" in entry else entry
            known.kit.setdefault(slug, []).append(kit.add(slug=slug, fields=fields, by=known.owner, now=now))


def meet_people(known: Known) -> None:
    now = known.at(-390)
    for key, entry in known.facts["clients"].items():
        fields = {name: value for name, value in entry.items() if name != "contacts"}
        client = known.clients[key] = people.add_client(fields=fields, by=known.owner, now=now)
        for contact in entry["contacts"]:
            people.add_contact(client=client, fields=contact, by=known.owner, now=now)
    for key, entry in known.facts["people"].items():
        fields = {**entry, "day_fee": Decimal(entry["day_fee"])}
        known.people[key] = people.add_person(fields=fields, by=known.owner, now=now)


def find_places(known: Known) -> None:
    now = known.at(-60)
    for key, entry in known.facts["places"].items():
        fields = {name: value for name, value in entry.items() if name != "spots"}
        place = known.places[key] = places.add_place(fields=fields, by=known.owner, now=now)
        for spot in entry["spots"]:
            if "beside_sun_deg" in spot:
                spot = _beside_the_sun(known, key, spot)
            known.spots[spot["name"]] = places.add_spot(place=place, fields=spot, by=known.owner, now=now)


def _beside_the_sun(known: Known, place: str, spot: dict[str, Any]) -> dict[str, Any]:
    """Return a spot that looks so many degrees beside the sun at its hour, whatever the month; to five degrees."""
    there, day = known.places[place], DAYS[place]
    at = datetime.combine(known.day(day), known.by_sunset(place, day, minus=spot["before_sunset"]), ZONE)
    sun = sun_position(at, there.latitude, there.longitude, there.elevation_m)
    bearing = round((sun.azimuth_deg + spot["beside_sun_deg"]) / 5.0) * 5 % 360
    return {"name": spot["name"], "note": spot["note"], "bearing_deg": bearing}


def write_card(known: Known) -> None:
    numbers = ("unit_price", "included_hours", "markup_percent")
    entries = [
        {name: Decimal(value) if name in numbers else value for name, value in entry.items()}
        for entry in known.facts["rates"]
    ]
    made = card.begin_card(studio=known.studio, rates=entries, by=known.owner, now=known.at(-380))
    known.rates = {rate.description: rate for rate in made}


def quoted(known: Known, quote: Quote, lines: list[tuple[str, str]], *, now: datetime) -> None:
    """Replace what the plan suggested by these lines of the rate card: description and how many."""
    for line in quote.lines.all():
        line.delete()
    for description, quantity in lines:
        drafts.add_rate_line(
            quote=quote, rate=known.rates[description], quantity=Decimal(quantity), by=known.owner, now=now
        )


def send(known: Known, quote: Quote, *, to: str, message: str, now: datetime) -> Quote:
    quote.refresh_from_db()
    sent = sending.send_quote(
        quote=quote, email=to, message=message, seen_version=quote.version, by=known.owner, now=now
    )
    sending.deliver_quote(quote_id=sent.pk, message=message, now=now)
    sent.refresh_from_db()
    return sent


def settle_terms(known: Known, shoot: Shoot, *, now: datetime, **changes: Any) -> None:
    rights.save_terms(shoot=shoot, changes=changes, seen_version=0, by=known.owner, now=now)


def issue(known: Known, invoice: Invoice, *, to: str, name: str, now: datetime) -> Invoice:
    return invoices.issue_invoice(
        invoice=Invoice.objects.select_related("studio", "shoot").get(pk=invoice.pk),
        to=to,
        to_name=name,
        by=known.owner,
        now=now,
    )
