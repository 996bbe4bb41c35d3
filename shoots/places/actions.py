"""Taking places and their spots in, changing them, and what became of asking for permission."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import F

from shoots.members.models import Member
from shoots.places.models import Permission, Place, Spot
from shoots.trail import actions as trail


@transaction.atomic
def add_place(*, fields: Mapping[str, Any], by: Member, now: datetime) -> Place:
    """Take a place in."""
    place = Place.objects.create(studio=by.studio, **fields)
    trail.record(place, "added", by=by, at=now)
    return place


@transaction.atomic
def add_spot(*, place: Place, fields: Mapping[str, Any], by: Member, now: datetime) -> Spot:
    """Take in a spot of a place."""
    spot = Spot.objects.create(studio=place.studio, place=place, **fields)
    trail.record(spot, "added", by=by, at=now)
    return spot


@transaction.atomic
def edit(*, record: Place | Spot, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> None:
    """Save what was changed about a place or a spot.

    Raises
    ------
    EditedMeanwhile
        If somebody else saved it since it was opened; nothing is written.
    """
    trail.edit(record, changes=changes, seen_version=seen_version, by=by, at=now)


@transaction.atomic
def note_permission(*, place: Place, permission: Permission, note: str, by: Member, now: datetime) -> None:
    """Write down how far asking for permission has come, and by whose word. Repeating is harmless."""
    before = {"permission": place.permission, "permission_note": place.permission_note}
    after = {"permission": permission, "permission_note": note or place.permission_note}
    if before == after:
        return
    Place.objects.filter(pk=place.pk).update(**after, version=F("version") + 1)
    changes = {name: (before[name], after[name]) for name in before if before[name] != after[name]}
    trail.record(place, "permission noted", by=by, changes=changes, at=now)
    place.refresh_from_db()


@transaction.atomic
def put_away(*, place: Place, by: Member, now: datetime) -> None:
    """Take a place off the list; shoots keep it. Repeating is harmless."""
    if Place.objects.filter(pk=place.pk, put_away_at=None).update(put_away_at=now):
        trail.record(place, "put away", by=by, at=now)


@transaction.atomic
def take_out(*, place: Place, by: Member, now: datetime) -> None:
    """Put a place back on the list. Repeating is harmless."""
    if Place.objects.filter(pk=place.pk).exclude(put_away_at=None).update(put_away_at=None):
        trail.record(place, "taken out again", by=by, at=now)


@transaction.atomic
def remove_spot(*, spot: Spot, by: Member, now: datetime) -> None:
    """Delete a spot; setups that stood there keep everything but its name."""
    trail.record(spot, "removed", by=by, changes={"name": (spot.name, "")}, at=now)
    spot.delete()
