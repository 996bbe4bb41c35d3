"""Filling the bag, changing what is in it, and putting things away."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import F

from shoots.kit import queries
from shoots.kit.models import SECTIONS, Kit
from shoots.members.models import Member
from shoots.trail import actions as trail


class NoSuchStarter(Exception):
    """Raised when there is no generic kind of that name."""


@transaction.atomic
def add(*, slug: str, fields: Mapping[str, Any], by: Member, now: datetime) -> Kit:
    """Put a thing into a section of the bag."""
    item = SECTIONS[slug].objects.create(studio=by.studio, **fields)
    trail.record(item, "added", by=by, at=now)
    return item


@transaction.atomic
def add_starter(*, slug: str, key: str, by: Member, now: datetime) -> Kit:
    """Put a generic kind into the bag; one that is there already by that name counts one more.

    Raises
    ------
    NoSuchStarter
        If the section has no such kind.
    """
    found = queries.starter(slug, key)
    if found is None:
        raise NoSuchStarter
    at_hand = SECTIONS[slug].objects.of_studio(by.studio).filter(name=found.name, put_away_at=None)
    same = at_hand.order_by("pk").first()
    if same is None:
        return add(slug=slug, fields={"name": found.name, **found.fields}, by=by, now=now)
    at_hand.filter(pk=same.pk).update(quantity=F("quantity") + 1, version=F("version") + 1)
    trail.record(same, "one more", by=by, changes={"quantity": (same.quantity, same.quantity + 1)}, at=now)
    same.refresh_from_db()
    return same


@transaction.atomic
def edit(*, item: Kit, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> None:
    """Save what was changed about a thing.

    Raises
    ------
    EditedMeanwhile
        If somebody else saved it since it was opened; nothing is written.
    """
    trail.edit(item, changes=changes, seen_version=seen_version, by=by, at=now)


@transaction.atomic
def put_away(*, item: Kit, by: Member, now: datetime) -> None:
    """Take a thing out of the bag; setups that were planned with it keep it. Repeating is harmless."""
    if type(item).objects.filter(pk=item.pk, put_away_at=None).update(put_away_at=now):
        trail.record(item, "put away", by=by, at=now)


@transaction.atomic
def take_out(*, item: Kit, by: Member, now: datetime) -> None:
    """Put a thing back into the bag. Repeating is harmless."""
    if type(item).objects.filter(pk=item.pk).exclude(put_away_at=None).update(put_away_at=None):
        trail.record(item, "taken out again", by=by, at=now)
