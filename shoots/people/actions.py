"""Taking clients, contacts and people in, changing them, and putting them away."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from shoots.members.models import Member
from shoots.people.models import Client, Contact, Person
from shoots.trail import actions as trail

Known = Client | Contact | Person


@transaction.atomic
def add_client(*, fields: Mapping[str, Any], by: Member, now: datetime) -> Client:
    """Take a client in."""
    client = Client.objects.create(studio=by.studio, **fields)
    trail.record(client, "added", by=by, at=now)
    return client


@transaction.atomic
def add_contact(*, client: Client, fields: Mapping[str, Any], by: Member, now: datetime) -> Contact:
    """Take in somebody who works at a client."""
    contact = Contact.objects.create(studio=client.studio, client=client, **fields)
    trail.record(contact, "added", by=by, at=now)
    return contact


@transaction.atomic
def add_person(*, fields: Mapping[str, Any], by: Member, now: datetime) -> Person:
    """Take in crew or talent."""
    person = Person.objects.create(studio=by.studio, **fields)
    trail.record(person, "added", by=by, at=now)
    return person


@transaction.atomic
def edit(*, record: Known, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> None:
    """Save what was changed about a client, a contact or a person.

    Raises
    ------
    EditedMeanwhile
        If somebody else saved it since it was opened; nothing is written.
    """
    trail.edit(record, changes=changes, seen_version=seen_version, by=by, at=now)


@transaction.atomic
def put_away(*, record: Client | Person, by: Member, now: datetime) -> None:
    """Take somebody off the lists; shoots and documents keep them. Repeating is harmless."""
    if type(record).objects.filter(pk=record.pk, put_away_at=None).update(put_away_at=now):
        trail.record(record, "put away", by=by, at=now)


@transaction.atomic
def take_out(*, record: Client | Person, by: Member, now: datetime) -> None:
    """Put somebody back on the lists. Repeating is harmless."""
    if type(record).objects.filter(pk=record.pk).exclude(put_away_at=None).update(put_away_at=None):
        trail.record(record, "taken out again", by=by, at=now)


@transaction.atomic
def remove_contact(*, contact: Contact, by: Member, now: datetime) -> None:
    """Delete somebody who no longer works at a client. Issued documents copied their name and keep it."""
    trail.record(contact, "removed", by=by, changes={"name": (contact.name, "")}, at=now)
    contact.delete()
