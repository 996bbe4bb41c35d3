"""What happens to planned pictures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Max

from shoots.members.actions import save_edit
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.shotlist.actions.parts import PARTS, FinishingWanted, find_or_add, write_finishing
from shoots.shotlist.core.order import moved, reordered
from shoots.shotlist.models import Shot
from shoots.trail import actions as trail

# Left out of a copy: its own identity, and the fact that the other one was taken.
_NOT_COPIED = {"id", "created_at", "version", "position", "got_at", "studio", "shoot"}


@transaction.atomic
def add_shot(*, shoot: Shoot, by: Member | None, now: datetime, **fields: Any) -> Shot:
    """Add a shot at the end of the list; `fields` are the shot's own, `title` at least.

    `products`, `outfits` and `subjects` are rows or names, `finishing` a list of `FinishingWanted`.
    Not safe to repeat: each call adds one.
    """
    parts = {name: fields.pop(name) for name in PARTS if name in fields}
    finishing = fields.pop("finishing", ())
    last = Shot.objects.filter(shoot=shoot).aggregate(last=Max("position"))["last"]
    shot = Shot.objects.create(studio=shoot.studio, shoot=shoot, position=0 if last is None else last + 1, **fields)
    for name, wanted in parts.items():
        getattr(shot, name).set(find_or_add(PARTS[name], shoot, wanted, by=by, now=now))
    write_finishing(shot, finishing)
    trail.record(shot, "added", by=by, shoot_code=shoot.code, changes={"title": ("", shot.title)}, at=now)
    return shot


@transaction.atomic
def edit_shot(*, shot: Shot, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime) -> None:
    """Change a shot; `products`, `outfits`, `subjects` and `finishing` are given as to `add_shot`.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since it was opened; nothing is written.
    """
    plain = {name: value for name, value in changes.items() if name != "finishing"}
    for name in PARTS.keys() & plain.keys():
        plain[name] = find_or_add(PARTS[name], shot.shoot, plain[name], by=by, now=now)
    changed = save_edit(shot, changes=plain, seen_version=seen_version)
    if "finishing" in changes and (words := write_finishing(shot, changes["finishing"])):
        changed["finishing"] = words
    if changed:
        trail.record(shot, "edited", by=by, shoot_code=shot.shoot.code, changes=changed, at=now)


@transaction.atomic
def duplicate_shot(*, shot: Shot, by: Member | None, now: datetime) -> Shot:
    """Put a copy of a shot right behind it; the copy was not taken yet. Each call adds one."""
    copied = {
        field.name: getattr(shot, field.name) for field in Shot._meta.concrete_fields if field.name not in _NOT_COPIED
    }
    copied |= {name: list(getattr(shot, name).all()) for name in PARTS}
    copied["finishing"] = [FinishingWanted(i.what, i.pictures, i.price) for i in shot.finishing_items.all()]
    twin = add_shot(shoot=shot.shoot, by=by, now=now, **copied)
    order = list(Shot.objects.filter(shoot=shot.shoot).values_list("pk", flat=True))
    step = order.index(shot.pk) + 1 - order.index(twin.pk)
    _write_order(shot.shoot, moved(order, twin.pk, step))
    return twin


@transaction.atomic
def remove_shot(*, shot: Shot, by: Member | None, now: datetime) -> None:
    """Take a shot off the list; finished pictures of it stay."""
    trail.record(shot, "removed", by=by, shoot_code=shot.shoot.code, changes={"title": (shot.title, "")}, at=now)
    shot.delete()


@transaction.atomic
def mark_got(*, shot: Shot, is_got: bool, by: Member | None, now: datetime) -> None:
    """Write down that a shot was taken, or that it was not after all. Safe to repeat: the first time stays."""
    rows = Shot.objects.filter(pk=shot.pk, got_at__isnull=is_got).update(got_at=now if is_got else None)
    if rows:
        deed = "got" if is_got else "not got"
        trail.record(shot, deed, by=by, shoot_code=shot.shoot.code, at=now)


@transaction.atomic
def reorder_shots(*, shoot: Shoot, wanted: Iterable[int]) -> None:
    """Put the shots into an order that somebody asked for, perhaps from an older page. Safe to repeat."""
    current = Shot.objects.filter(shoot=shoot).values_list("pk", flat=True)
    _write_order(shoot, reordered(current, wanted))


@transaction.atomic
def move_shot(*, shot: Shot, step: int) -> None:
    """Move a shot by so many places, minus towards the front; the ends stop it."""
    current = Shot.objects.filter(shoot=shot.shoot_id).values_list("pk", flat=True)
    _write_order(shot.shoot, moved(current, shot.pk, step))


def _write_order(shoot: Shoot, order: tuple[int, ...]) -> None:
    """Store the places of those shots whose place changed; two queries. An order is no edit: versions stay."""
    shots = {shot.pk: shot for shot in Shot.objects.filter(shoot=shoot).only("pk", "position")}
    changed = []
    for position, pk in enumerate(order):
        if pk in shots and shots[pk].position != position:
            shots[pk].position = position
            changed.append(shots[pk])
    Shot.objects.bulk_update(changed, ["position"])
