"""What happens when a table of shots is taken over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction

from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.shotlist.actions.many import ListChanged, ShotChange, add_rows, edit_each
from shoots.shotlist.core.columns import Column
from shoots.shotlist.models import Shot


@dataclass(frozen=True)
class TakenTable:
    """What a table became: shots that were made, and what changed of those that were there."""

    made: tuple[Shot, ...]
    changed: tuple[ShotChange, ...]


@transaction.atomic
def take_table(
    *,
    shoot: Shoot,
    rows: Sequence[Mapping[Column, Any]],
    edits: Mapping[int, Mapping[Column, Any]],
    seen: Sequence[tuple[int, int]],
    by: Member | None,
    now: datetime,
) -> TakenTable:
    """Add a shot for each of the rows, and set fields of those that are there; all of it or nothing.

    `edits` are what shots are to say, by their keys; `seen` is the list that was looked at: keys and versions in its
    order. Safe to repeat: what was taken over is another list than the one that was seen.

    Raises
    ------
    ListChanged
        If shots were added, edited, moved or taken off since; nothing is written.
    """
    # Holds the list for this transaction, so that of two clicks one waits for the other.
    Shoot.objects.select_for_update().filter(pk=shoot.pk).first()
    if list(seen) != list(Shot.objects.filter(shoot=shoot).values_list("pk", "version")):
        raise ListChanged
    changed = edit_each(shoot=shoot, seen=dict(seen), edits=edits, by=by, now=now) if edits else []
    made = add_rows(shoot=shoot, rows=rows, by=by, now=now) if rows else []
    return TakenTable(tuple(made), tuple(changed))
