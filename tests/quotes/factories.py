"""Rates, usage terms and quotes, made as the program makes them."""

from __future__ import annotations

from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from shoots.documents.models import IssuedDocument
from shoots.outbox import actions as outbox
from shoots.quotes.actions import card, drafts, sending
from shoots.quotes.models import Quote, QuoteLine, Rate, RateKind
from shoots.rights import actions as rights
from shoots.rights.models import UsageTerms
from shoots.shoot.models import Shoot
from tests import factories

NOW = factories.NOW


def make_rate(studio: Any, **fields: Any) -> Rate:
    values = {
        "kind": RateKind.DAY,
        "description": "Photography, day",
        "unit": "day",
        "unit_price": Decimal(1200),
        "included_hours": Decimal(8) if fields.get("kind", RateKind.DAY) == RateKind.DAY else None,
        **fields,
    }
    return card.add_rate(studio=studio, fields=values, by=None, now=NOW)


def make_terms(shoot: Shoot, **changes: Any) -> UsageTerms:
    values = {
        "media": ["OWN_WEBSITE", "PAID_SOCIAL"],
        "territories": ["UK_IRELAND"],
        "months": 24,
        "picture_count": 12,
        **changes,
    }
    return rights.save_terms(shoot=shoot, changes=values, seen_version=0, by=None, now=NOW)


def make_shoot_to_quote(studio: Any = None, **fields: Any) -> Shoot:
    studio = studio or factories.make_studio()
    client = fields.pop("client", None) or factories.make_client(studio)
    contact = factories.make_contact(client)
    return factories.make_shoot(studio, client=client, contact=contact, **fields)


def add_line(quote: Quote, **fields: Any) -> QuoteLine:
    values = {
        "kind": RateKind.DAY,
        "description": "Photography, day",
        "unit": "day",
        "unit_price": Decimal(1200),
        "quantity": Decimal(1),
        "included_hours": Decimal(8),
        "tax_category": "S" if quote.studio.is_vat_registered else "O",
        "tax_rate": Decimal(20),
        **fields,
    }
    return drafts.add_line(quote=quote, fields=values, by=None, now=NOW)


def make_draft(shoot: Shoot | None = None, *, now: datetime = NOW, **changes: Any) -> Quote:
    """A draft that could be sent: one line of 1,200 and settled usage."""
    shoot = shoot or make_shoot_to_quote()
    if not UsageTerms.objects.filter(shoot=shoot).exists():
        make_terms(shoot)
    quote = drafts.start_quote(shoot=shoot, by=None, now=now)
    add_line(quote)
    quote.refresh_from_db()
    if changes:
        drafts.edit_quote(quote=quote, changes=changes, seen_version=quote.version, by=None, now=now)
        quote.refresh_from_db()
    return quote


def send(quote: Quote, *, email: str = "mara@example.com", now: datetime = NOW) -> Quote:
    quote.refresh_from_db()
    return sending.send_quote(quote=quote, email=email, seen_version=quote.version, by=None, now=now)


def make_sent(shoot: Shoot | None = None, *, now: datetime = NOW, **changes: Any) -> Quote:
    """A quote that is with the client: its PDF is made, its mail queued."""
    quote = send(make_draft(shoot, now=now, **changes), now=now)
    run_jobs(now)
    quote.refresh_from_db()
    return quote


def make_rendered(quote: Quote, *, data_hash: str = "ab" * 32) -> Quote:
    """Say that a sent quote's PDF was made, where a test needs no file."""
    IssuedDocument.objects.filter(pk=quote.document_id).update(sha256=data_hash, storage_key="none", pages=1)
    return Quote.objects.get(pk=quote.pk)


def run_jobs(now: datetime = NOW) -> int:
    return outbox.drain(now=now + timedelta(seconds=1))
