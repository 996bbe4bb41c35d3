"""Finding anything by a few letters: shoots and their shots, call notes, people, places, quote and invoice numbers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Q
from django.urls import reverse
from django.utils.translation import gettext as _

from shoots.call.models import Call
from shoots.invoices.models import Invoice
from shoots.members.models import Member
from shoots.people.models import Client, Contact, Person
from shoots.places.models import Place
from shoots.quotes.models import Quote
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot

LEAST_LETTERS = 2
MOST_HITS = 8
MOST_WORDS = 6


@dataclass(frozen=True)
class Hit:
    """One thing that was found: its name, what it is about, and where it is."""

    name: str
    about: str
    url: str


@dataclass(frozen=True)
class HitGroup:
    """Hits of one kind; `has_more` when the list was cut."""

    title: str
    hits: tuple[Hit, ...]
    has_more: bool


def search(member: Member, *, text: str) -> tuple[HitGroup, ...]:
    """Return what holds every word of the text, in groups without empty ones. Nine queries, two for crew.

    Crew find the shoots that they are booked on and the shots of those, and nothing else. Fewer than two letters
    find nothing.
    """
    words = text.split()[:MOST_WORDS]
    if len("".join(words)) < LEAST_LETTERS:
        return ()
    studio = member.studio
    shoots = Shoot.objects.visible_to(member).select_related("client").order_by("-created_at")
    groups = [
        _group(
            _("Shoots"),
            _holding(shoots, words, "code", "title", "po_number", "client__name"),
            lambda shoot: Hit(str(shoot), str(shoot.client or ""), reverse("shoot_detail", args=[shoot.code])),
        ),
        _group(
            _("Shots"),
            _holding(
                Shot.objects.of_studio(studio)
                .filter(shoot__in=Shoot.objects.visible_to(member).values("pk"))
                .select_related("shoot")
                .order_by("-shoot__created_at", "position", "pk"),
                words,
                "title",
                "purpose",
                "products__name",
                "outfits__name",
                "subjects__name",
                "note",
            ).distinct(),
            lambda shot: Hit(shot.title, str(shot.shoot), reverse("shot_list", args=[shot.shoot.code])),
        ),
    ]
    if member.sees_prices:
        groups += [
            _group(
                _("Call notes"),
                _holding(
                    Call.objects.of_studio(studio).select_related("shoot").order_by("-called_at"),
                    words,
                    "caller",
                    "notes",
                ),
                lambda call: Hit(
                    call.caller or _("A call"), _line_with(call.notes, words), reverse("call_detail", args=[call.pk])
                ),
            ),
            _group(
                _("Clients"),
                _holding(Client.objects.of_studio(studio), words, "name", "legal_name", "address"),
                lambda client: Hit(client.name, _first_line(client.address), _client_url(client.pk)),
            ),
            _group(
                _("Contacts"),
                _holding(
                    Contact.objects.of_studio(studio).select_related("client"), words, "name", "email", "phone", "job"
                ),
                lambda contact: Hit(contact.name, str(contact.client), _client_url(contact.client_id)),
            ),
            _group(
                _("Crew and talent"),
                _holding(Person.objects.of_studio(studio), words, "name", "email", "phone", "trade"),
                lambda person: Hit(
                    person.name, person.trade or person.get_kind_display(), reverse("person_detail", args=[person.pk])
                ),
            ),
            _group(
                _("Places"),
                _holding(Place.objects.of_studio(studio), words, "name", "address"),
                lambda place: Hit(place.name, _first_line(place.address), reverse("place_detail", args=[place.pk])),
            ),
            _group(
                _("Quotes"),
                _holding(
                    Quote.objects.of_studio(studio).exclude(sent_at=None).select_related("shoot__client"),
                    words,
                    "number",
                    "shoot__code",
                    "shoot__title",
                ),
                lambda quote: Hit(
                    str(quote), str(quote.shoot), reverse("quote_detail", args=[quote.shoot.code, quote.pk])
                ),
            ),
            _group(
                _("Invoices"),
                _holding(
                    Invoice.objects.of_studio(studio).issued().select_related("shoot__client"),
                    words,
                    "number",
                    "reference",
                    "po_number",
                    "shoot__code",
                    "shoot__title",
                ),
                lambda invoice: Hit(
                    str(invoice), str(invoice.shoot), reverse("invoice_detail", args=[invoice.shoot.code, invoice.pk])
                ),
            ),
        ]
    return tuple(group for group in groups if group.hits)


def _holding(rows: Any, words: list[str], *fields: str) -> Any:
    for word in words:
        found = Q()
        for name in fields:
            found |= Q(**{f"{name}__icontains": word})
        rows = rows.filter(found)
    return rows


def _group(title: str, rows: Iterable[Any], hit: Any) -> HitGroup:
    found = list(rows[: MOST_HITS + 1])  # type: ignore[index]
    return HitGroup(title, tuple(hit(row) for row in found[:MOST_HITS]), len(found) > MOST_HITS)


def _first_line(text: str) -> str:
    return next((line for line in text.splitlines() if line.strip()), "")


def _line_with(text: str, words: list[str]) -> str:
    """Return the line that holds most of the words, the first of equals, not longer than a line on the page."""
    return max(text.splitlines() or [""], key=lambda line: sum(word.casefold() in line.casefold() for word in words))[
        :120
    ]


def _client_url(pk: int) -> str:
    return reverse("client_detail", args=[pk])
