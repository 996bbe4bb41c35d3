"""Keeping the studio's rate card."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import F, Max

from shoots.members.models import Member, Studio
from shoots.quotes.models import Rate
from shoots.quotes.queries.card import kin_of
from shoots.trail import actions as trail


@transaction.atomic
def add_rate(*, studio: Studio, fields: Mapping[str, Any], by: Member | None, now: datetime) -> Rate:
    """Add a rate behind the others. Not safe to repeat: each call adds one."""
    last = Rate.objects.of_studio(studio).aggregate(last=Max("position"))["last"]
    rate = Rate.objects.create(studio=studio, position=0 if last is None else last + 1, **fields)
    trail.record(rate, "added", by=by, at=now)
    return rate


@transaction.atomic
def begin_card(*, studio: Studio, rates: Sequence[Mapping[str, Any]], by: Member | None, now: datetime) -> list[Rate]:
    """Add the first rates of a card in one go."""
    return [add_rate(studio=studio, fields=fields, by=by, now=now) for fields in rates]


@transaction.atomic
def edit_rate(*, rate: Rate, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime) -> None:
    """Change a rate. Quotes keep what they copied.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since; nothing is written.
    """
    trail.edit(rate, changes=changes, seen_version=seen_version, by=by, at=now)


@transaction.atomic
def move_rate(*, rate: Rate, step: int) -> None:
    """Move a rate within its section of the card, minus towards the front; at either end it stays."""
    order = list(Rate.objects.of_studio(rate.studio).filter(put_away_at=None))
    kin = [other for other in order if other.kind in kin_of(rate.kind)]
    here = next((n for n, other in enumerate(kin) if other.pk == rate.pk), None)
    if here is None:
        return
    there = min(max(here + step, 0), len(kin) - 1)
    places = [order.index(other) for other in kin]
    kin.insert(there, kin.pop(here))
    for place, other in zip(places, kin, strict=True):
        order[place] = other
    for position, other in enumerate(order):
        other.position = position
    Rate.objects.bulk_update(order, ["position"])


@transaction.atomic
def put_away_rate(*, rate: Rate, away: bool, by: Member | None, now: datetime) -> bool:
    """Put a rate away, or take it back onto the card; return False if it was there already."""
    rows = Rate.objects.filter(pk=rate.pk, put_away_at__isnull=away).update(
        put_away_at=now if away else None, version=F("version") + 1
    )
    if rows:
        trail.record(rate, "put away" if away else "taken back", by=by, at=now)
    return rows == 1
