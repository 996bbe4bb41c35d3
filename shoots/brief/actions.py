"""What happens to a brief and its moods."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Max

from shoots.brief.models import Brief, Mood
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail


@transaction.atomic
def begin_brief(*, shoot: Shoot) -> Brief:
    """Return the shoot's brief, made empty if there was none. Safe to repeat."""
    return Brief.objects.get_or_create(shoot=shoot, defaults={"studio": shoot.studio})[0]


@transaction.atomic
def edit_brief(
    *, shoot: Shoot, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> Brief:
    """Write what was typed into the shoot's brief; a brief that nobody had stored yet is made first.

    `seen_version` is 0 for one who saw no stored brief.

    Raises
    ------
    EditedMeanwhile
        If somebody saved the brief since; nothing is written.
    """
    brief, is_new = Brief.objects.get_or_create(shoot=shoot, defaults={"studio": shoot.studio})
    if is_new and seen_version == 0:
        seen_version = brief.version
    trail.edit(brief, changes=changes, seen_version=seen_version, by=by, shoot_code=shoot.code, at=now)
    return brief


@transaction.atomic
def add_mood(
    *, shoot: Shoot, name: str, words: str = "", brightness: int = 50, by: Member | None, now: datetime
) -> Mood:
    """Add a mood behind the others. Not safe to repeat: each call adds one."""
    last = Mood.objects.filter(shoot=shoot).aggregate(last=Max("position"))["last"]
    mood = Mood.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        name=name,
        words=words,
        brightness=brightness,
        position=0 if last is None else last + 1,
    )
    trail.record(mood, "added", by=by, shoot_code=shoot.code, at=now)
    return mood


@transaction.atomic
def edit_mood(*, mood: Mood, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime) -> None:
    """Change a mood.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since; nothing is written.
    """
    trail.edit(mood, changes=changes, seen_version=seen_version, by=by, shoot_code=mood.shoot.code, at=now)


@transaction.atomic
def remove_mood(*, mood: Mood, by: Member | None, now: datetime) -> None:
    """Remove a mood; shots and setups that named it name none afterwards."""
    trail.record(mood, "removed", by=by, shoot_code=mood.shoot.code, changes={"name": (mood.name, "")}, at=now)
    mood.delete()


@transaction.atomic
def move_mood(*, mood: Mood, step: int) -> None:
    """Move a mood by so many places, minus towards the front; at either end it stays. Two queries."""
    order = list(Mood.objects.filter(shoot=mood.shoot_id))
    here = next(n for n, other in enumerate(order) if other.pk == mood.pk)
    there = min(max(here + step, 0), len(order) - 1)
    order.insert(there, order.pop(here))
    for position, other in enumerate(order):
        other.position = position
    Mood.objects.bulk_update(order, ["position"])


__all__ = [
    "EditedMeanwhile",
    "add_mood",
    "begin_brief",
    "edit_brief",
    "edit_mood",
    "move_mood",
    "remove_mood",
]
