"""What happens to setups: lights are placed, moved and taken away, readings noted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import models, transaction
from django.db.models import Max

from shoots.lighting.core.tenths import read_meter
from shoots.lighting.models import MeterReading, PlacedLamp, Setup
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail

__all__ = [
    "EditedMeanwhile",
    "add_setup",
    "apply_finding",
    "duplicate_setup",
    "edit_lamp",
    "edit_setup",
    "move_setup",
    "note_reading",
    "place_lamp",
    "remove_lamp",
    "remove_reading",
    "remove_setup",
]

# A copy is a record of its own: what says which record and since when is left out.
_NOT_COPIED = {"id", "created_at", "version", "position", "studio", "shoot", "setup"}


@transaction.atomic
def add_setup(*, shoot: Shoot, by: Member | None, now: datetime, **fields: Any) -> Setup:
    """Add a setup behind the others; `fields` are its own, `name` at least. Each call adds one."""
    setup = Setup.objects.create(
        studio=shoot.studio, shoot=shoot, position=_next(Setup.objects.filter(shoot=shoot)), **fields
    )
    trail.record(setup, "added", by=by, shoot_code=shoot.code, changes={"name": ("", setup.name)}, at=now)
    return setup


@transaction.atomic
def edit_setup(
    *, setup: Setup, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change a setup.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since it was opened; nothing is written.
    """
    trail.edit(setup, changes=changes, seen_version=seen_version, by=by, shoot_code=setup.shoot.code, at=now)


@transaction.atomic
def apply_finding(
    *,
    setup: Setup,
    lamps: Sequence[PlacedLamp],
    changes_setup: Mapping[str, Any],
    changes_lamps: Mapping[int, Mapping[str, Any]],
    seen_version: int,
    seen_lamps: Mapping[int, int],
    by: Member | None,
    now: datetime,
) -> None:
    """Set camera and lights as the search found them; all of it or nothing.

    The answer depends on every light, so a light that nothing changes on must still be the one that was seen.

    Raises
    ------
    EditedMeanwhile
        If setup or a light was changed, put in or taken out since; nothing is written.
    """
    stored = dict(PlacedLamp.objects.filter(setup=setup).values_list("pk", "version"))
    if stored != dict(seen_lamps) or setup.version != seen_version:
        raise EditedMeanwhile
    said = {"deed": "set as found", "by": by, "shoot_code": setup.shoot.code, "at": now}
    if changes_setup:
        trail.edit(setup, changes=changes_setup, seen_version=seen_version, **said)
    for placed in lamps:
        if changes := changes_lamps.get(placed.pk):
            trail.edit(placed, changes=changes, seen_version=seen_lamps[placed.pk], **said)


@transaction.atomic
def duplicate_setup(*, setup: Setup, name: str, by: Member | None, now: datetime) -> Setup:
    """Copy a setup with its lights, without its readings and without its shots. Each call adds one."""
    twin = add_setup(shoot=setup.shoot, by=by, now=now, **(_own_fields(setup) | {"name": name}))
    for lamp in PlacedLamp.objects.filter(setup=setup):
        PlacedLamp.objects.create(studio=setup.studio, setup=twin, position=lamp.position, **_own_fields(lamp))
    return twin


@transaction.atomic
def remove_setup(*, setup: Setup, by: Member | None, now: datetime) -> None:
    """Remove a setup with its lights and readings; its shots stay and name no setup afterwards."""
    trail.record(setup, "removed", by=by, shoot_code=setup.shoot.code, changes={"name": (setup.name, "")}, at=now)
    setup.delete()


@transaction.atomic
def move_setup(*, setup: Setup, step: int) -> None:
    """Move a setup by so many places, minus towards the front; the ends stop it. Two queries."""
    order = list(Setup.objects.filter(shoot=setup.shoot_id))
    here = next(n for n, other in enumerate(order) if other.pk == setup.pk)
    order.insert(min(max(here + step, 0), len(order) - 1), order.pop(here))
    for position, other in enumerate(order):
        other.position = position
    Setup.objects.bulk_update(order, ["position"])


@transaction.atomic
def place_lamp(*, setup: Setup, by: Member | None, now: datetime, **fields: Any) -> PlacedLamp:
    """Put a light into a setup; `fields` are its own, `lamp` at least. Each call adds one."""
    placed = PlacedLamp.objects.create(
        studio=setup.studio, setup=setup, position=_next(PlacedLamp.objects.filter(setup=setup)), **fields
    )
    changes = {"lamp": ("", str(placed.lamp))}
    trail.record(placed, "placed", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    return placed


@transaction.atomic
def edit_lamp(
    *, placed: PlacedLamp, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change a placed light or only move it; typed numbers and a drag on the plan both come here.

    Raises
    ------
    EditedMeanwhile
        If somebody moved or changed it since; nothing is written.
    """
    trail.edit(placed, changes=changes, seen_version=seen_version, by=by, shoot_code=placed.setup.shoot.code, at=now)


@transaction.atomic
def remove_lamp(*, placed: PlacedLamp, by: Member | None, now: datetime) -> None:
    """Take a light out of a setup, with its readings."""
    changes = {"lamp": (str(placed.lamp), "")}
    trail.record(placed, "removed", by=by, shoot_code=placed.setup.shoot.code, changes=changes, at=now)
    placed.delete()


@transaction.atomic
def note_reading(
    *,
    setup: Setup,
    placed_lamp: PlacedLamp | None,
    text: str,
    iso: int,
    shutter_s: float,
    dome_out: bool,
    by: Member | None,
    now: datetime,
) -> MeterReading:
    """Note what a meter showed ("11.3"): of one light, or of all together. Each call notes one.

    Raises
    ------
    NoMeterReading
        If the text is no f-number of a meter; nothing is written.
    """
    read = read_meter(text)
    reading = MeterReading.objects.create(
        studio=setup.studio,
        setup=setup,
        placed_lamp=placed_lamp,
        f_number=float(read.mark),
        tenths=read.tenths,
        iso=iso,
        shutter_s=shutter_s,
        dome_out=dome_out,
        read_at=now,
    )
    changes = {"reading": ("", f"f/{read.mark}.{read.tenths}")}
    trail.record(setup, "read", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    return reading


@transaction.atomic
def remove_reading(*, reading: MeterReading, by: Member | None, now: datetime) -> None:
    """Remove a reading that was wrong."""
    setup = reading.setup
    changes = {"reading": (str(reading), "")}
    trail.record(setup, "reading removed", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    reading.delete()


def _next(rows: models.QuerySet[Any]) -> int:
    last = rows.aggregate(last=Max("position"))["last"]
    return 0 if last is None else last + 1


def _own_fields(record: models.Model) -> dict[str, Any]:
    return {
        field.name: getattr(record, field.name)
        for field in record._meta.concrete_fields
        if field.name not in _NOT_COPIED
    }
