"""What documents copy of a client, and what the page of people shows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Prefetch, Q

from shoots.members.models import Studio
from shoots.people import core
from shoots.people.models import Client, Contact, Person, PersonKind


def party_card(client: Client) -> dict[str, Any]:
    """Return a client's details as an issued document keeps them. No query."""
    return {
        "name": client.full_legal_name,
        "trading_name": client.name,
        "address": client.address,
        "country": client.country,
        "vat_number": client.vat_number,
        "company_number": client.company_number,
        "email": client.invoice_email,
    }


@dataclass(frozen=True)
class PersonCard:
    """Somebody of the crew or the talent, and the caution for a minor on the day that is asked about."""

    person: Person
    minor: core.Minor | None
    initials: str


@dataclass(frozen=True)
class ClientCard:
    """A client and the people there, those who sign off first."""

    client: Client
    contacts: tuple[Contact, ...]


@dataclass(frozen=True)
class PeoplePage:
    """Everybody the studio works with, as far as they match what was searched for."""

    clients: tuple[ClientCard, ...]
    crew: tuple[PersonCard, ...]
    talent: tuple[PersonCard, ...]
    put_away: int

    @property
    def is_empty(self) -> bool:
        return not (self.clients or self.crew or self.talent)


def people_page(studio: Studio, *, text: str = "", away: bool = False, today: date) -> PeoplePage:
    """Return the people at hand, or those that were put away. Six queries at most, whatever their number.

    Each word of `text` must stand somewhere in a client or one of their contacts, or in a person.
    """
    at_hand = Client.objects.of_studio(studio).filter(put_away_at__isnull=not away)
    persons = Person.objects.of_studio(studio).filter(put_away_at__isnull=not away)
    for word in text.split():
        at_hand = at_hand.filter(
            Q(name__icontains=word)
            | Q(legal_name__icontains=word)
            | Q(address__icontains=word)
            | Q(note__icontains=word)
            | Q(pk__in=_contacts_with(studio, word).values("client"))
        )
        persons = persons.filter(
            Q(name__icontains=word) | Q(trade__icontains=word) | Q(email__icontains=word) | Q(note__icontains=word)
        )
    contacts = Prefetch("contacts", Contact.objects.order_by("-approves", "-pays", "name", "pk"))
    cards = [ClientCard(client, tuple(client.contacts.all())) for client in at_hand.prefetch_related(contacts)]
    found = [person_card(person, on=today) for person in persons]
    away_clients = Client.objects.of_studio(studio).exclude(put_away_at=None).count()
    away_persons = Person.objects.of_studio(studio).exclude(put_away_at=None).count()
    return PeoplePage(
        clients=tuple(cards),
        crew=tuple(card for card in found if card.person.kind == PersonKind.CREW),
        talent=tuple(card for card in found if card.person.kind == PersonKind.TALENT),
        put_away=away_clients + away_persons,
    )


def _contacts_with(studio: Studio, word: str) -> Any:
    return Contact.objects.of_studio(studio).filter(
        Q(name__icontains=word) | Q(email__icontains=word) | Q(job__icontains=word)
    )


def person_card(person: Person, *, on: date) -> PersonCard:
    """Return somebody with the caution that holds on a day. No query.

    Upper slices ask for the day of a shoot: `people.queries.person_card(person, on=day.date).minor`.
    """
    known = person.birth_date if person.birth_date is None or person.birth_date <= on else None
    return PersonCard(person, core.minor_on(known, on), core.initials(person.name))


def client_card(client: Client) -> ClientCard:
    """Return a client with their contacts. One query."""
    return ClientCard(client, tuple(client.contacts.order_by("-approves", "-pays", "name", "pk")))
