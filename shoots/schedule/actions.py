"""What happens to a day's plan: it is drafted from the shots, its blocks are changed, and people get their calls."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, time
from typing import Any

from django.db import transaction
from django.db.models import Max
from django.utils.translation import gettext as _

from shoots.kit.models import Battery
from shoots.lighting.models import Setup
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.schedule.models import BlockKind, DayBlock, PackedBattery
from shoots.schedule.queries import draft
from shoots.schedule.queries import plan as queries
from shoots.schedule.queries.care import shoot_care
from shoots.shoot import actions as shoots
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.shotlist.core.order import moved, reordered
from shoots.trail import actions as trail

__all__ = [
    "CallGiven",
    "EditedMeanwhile",
    "NothingToPlan",
    "PlanStands",
    "add_block",
    "add_hands",
    "change_plan",
    "draft_plan",
    "edit_block",
    "pack_batteries",
    "remove_block",
    "set_calls",
]


class PlanStands(Exception):
    """Raised when a day has a plan already, as after a double click; nothing was changed."""


class NothingToPlan(Exception):
    """Raised when the day has no shots that a plan could be drafted from."""


@transaction.atomic
def draft_plan(*, day: ShootDay, replace: bool = False, by: Member | None, now: datetime) -> int:
    """Draft the plan of a day from its shots, and return how many blocks it has.

    Raises
    ------
    PlanStands
        If there is a plan and `replace` does not ask for another.
    NothingToPlan
        If the day has no shots.
    """
    _hold(day)
    old = DayBlock.objects.filter(day=day)
    if old.exists() and not replace:
        raise PlanStands
    page = queries.day_page(day)
    setups = {card.shot.setup_id: card.shot.setup for card in page.cards}
    drafted = draft.drafted(page)
    if not drafted:
        raise NothingToPlan
    old.delete()
    DayBlock.objects.bulk_create(
        DayBlock(
            studio=day.studio,
            day=day,
            position=position,
            kind=BlockKind(block.kind),
            minutes=min(block.minutes, 960),
            setup=setups.get(int(block.setup)) if block.setup else None,
        )
        for position, block in enumerate(drafted)
    )
    trail.record(day, "plan_drafted", by=by, shoot_code=day.shoot.code, changes={"blocks": (0, len(drafted))}, at=now)
    return len(drafted)


def _hold(day: ShootDay) -> None:
    """Let the next writer of this day's plan wait. SQLite has one writer anyway."""
    ShootDay.objects.select_for_update().get(pk=day.pk)


@transaction.atomic
def add_block(
    *,
    day: ShootDay,
    kind: BlockKind,
    minutes: int,
    label: str = "",
    setup: Setup | None = None,
    by: Member | None,
    now: datetime,
) -> DayBlock:
    """Put a block at the end of a day, before its wrap if it has one. Each call adds one."""
    _hold(day)
    last = DayBlock.objects.filter(day=day).aggregate(last=Max("position"))["last"]
    block = DayBlock.objects.create(
        studio=day.studio,
        day=day,
        position=0 if last is None else last + 1,
        kind=kind,
        minutes=minutes,
        label=label,
        setup=setup,
    )
    order = list(DayBlock.objects.filter(day=day).values_list("pk", "kind"))
    if len(order) > 1 and order[-2][1] == BlockKind.WRAP and kind != BlockKind.WRAP:
        _write_order(day, moved([pk for pk, _kind in order], block.pk, -1))
    changes = {"kind": ("", str(kind)), "minutes": (None, minutes)}
    trail.record(block, "added", by=by, shoot_code=day.shoot.code, changes=changes, at=now)
    return block


@transaction.atomic
def edit_block(
    *, block: DayBlock, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change a block; `EditedMeanwhile` if somebody saved it since it was opened."""
    trail.edit(block, changes=changes, seen_version=seen_version, by=by, shoot_code=block.day.shoot.code, at=now)


@transaction.atomic
def remove_block(*, block: DayBlock, by: Member | None, now: datetime) -> None:
    """Take a block out of the plan; its shots stay on the list."""
    trail.record(
        block, "removed", by=by, shoot_code=block.day.shoot.code, changes={"kind": (str(block.kind), "")}, at=now
    )
    block.delete()


@transaction.atomic
def change_plan(
    *,
    day: ShootDay,
    minutes: Mapping[int, int],
    seen: str,
    move: tuple[int, int] | None = None,
    order: Sequence[int] = (),
    by: Member | None,
    now: datetime,
) -> None:
    """Set the minutes of blocks, by their keys, and move one of them or all into another order.

    Raises
    ------
    EditedMeanwhile
        If the plan is not the one of which `seen` is the mark; nothing is written.
    """
    _hold(day)
    blocks = list(DayBlock.objects.filter(day=day))
    if queries.plan_mark(blocks) != seen:
        raise EditedMeanwhile
    for block in blocks:
        wanted = minutes.get(block.pk, block.minutes)
        if wanted != block.minutes:
            edit_block(block=block, changes={"minutes": wanted}, seen_version=block.version, by=by, now=now)
    keys = [block.pk for block in blocks]
    if move:
        _write_order(day, moved(keys, *move))
    elif order:
        _write_order(day, reordered(keys, order))


def _write_order(day: ShootDay, order: Sequence[int]) -> None:
    """Store the places of those blocks whose place changed; two queries. An order is no edit: versions stay."""
    blocks = {block.pk: block for block in DayBlock.objects.filter(day=day).only("pk", "position")}
    changed = []
    for position, pk in enumerate(order):
        if pk in blocks and blocks[pk].position != position:
            blocks[pk].position = position
            changed.append(blocks[pk])
    DayBlock.objects.bulk_update(changed, ["position"])


@dataclass(frozen=True)
class CallGiven:
    """When somebody is called and what they bring, as it was typed over the version that was seen."""

    booking: Booking
    call_time: time | None
    bring: str
    seen_version: int


@transaction.atomic
def set_calls(*, calls: Sequence[CallGiven], by: Member, now: datetime) -> int:
    """Give several people their calls and what they bring, all or none; return how many were changed.

    Raises
    ------
    EditedMeanwhile
        If somebody saved one of the bookings since the page was opened; nothing is written.
    """
    changed = 0
    for given in calls:
        booking = given.booking
        wanted = {"call_time": given.call_time, "bring": given.bring}
        if all(getattr(booking, name) == value for name, value in wanted.items()):
            continue
        shoots.edit_booking(booking=booking, changes=wanted, seen_version=given.seen_version, by=by, now=now)
        changed += 1
    return changed


@transaction.atomic
def pack_batteries(*, shoot: Shoot, counts: Mapping[Battery, int | None], by: Member, now: datetime) -> None:
    """Write down how many batteries of each kind go to a shoot; None goes back to all that the bag has."""
    known = {row.battery_id: row for row in PackedBattery.objects.filter(shoot=shoot)}
    changes = {}
    for battery, count in counts.items():
        row = known.get(battery.pk)
        before = row.quantity if row else None
        if before == count:
            continue
        if count is None:
            PackedBattery.objects.filter(shoot=shoot, battery=battery).delete()
        else:
            PackedBattery.objects.update_or_create(
                shoot=shoot, battery=battery, defaults={"studio": shoot.studio, "quantity": count}
            )
        changes[battery.name] = (before, count)
    if changes:
        trail.record(shoot, "batteries_packed", by=by, shoot_code=shoot.code, changes=changes, at=now)


@transaction.atomic
def add_hands(*, shoot: Shoot, by: Member, now: datetime) -> int:
    """Pencil an assistant for every stand that has to be held in the forecast wind, and return how many that are.

    One for each pair of hands that a day misses, without a name yet. Repeating is harmless: who is down for it counts.
    """
    Shoot.objects.select_for_update().get(pk=shoot.pk)
    added = 0
    for care in shoot_care(shoot).days:
        for _n in range(care.hands_missing):
            booking = Booking.objects.create(
                studio=shoot.studio,
                shoot=shoot,
                kind=BookingKind.CREW,
                day=care.day,
                what=_("Assistant"),
                holds_lights=True,
            )
            trail.record(
                booking, "booking_pencilled", by=by, shoot_code=shoot.code, changes={"who": ("", str(booking))}, at=now
            )
            added += 1
    return added
