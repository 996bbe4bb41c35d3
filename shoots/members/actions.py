"""Edits that two windows can't both win, and what happens to members."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import models, transaction
from django.db.models import F


class EditedMeanwhile(Exception):
    """Raised when a record was saved by somebody else after it was opened; nothing was written."""


@transaction.atomic
def save_edit(record: models.Model, *, changes: Mapping[str, Any], seen_version: int) -> dict[str, tuple[Any, Any]]:
    """Write `changes` to a record if it is still at `seen_version`, and return what changed, old and new.

    One conditional UPDATE is the whole guard, so it holds on every database. The record in memory is brought up
    to date. Many-to-many values are set after the row was won, and reported as words.

    Raises
    ------
    EditedMeanwhile
        If somebody else saved the record since; nothing is written.
    """
    model = type(record)
    many = {name for name in changes if model._meta.get_field(name).many_to_many}
    plain = {name: value for name, value in changes.items() if name not in many}
    before = {name: getattr(record, name) for name in plain}
    before |= {name: [str(one) for one in getattr(record, name).all()] for name in many}
    rows = model._base_manager.filter(pk=record.pk, version=seen_version).update(**plain, version=F("version") + 1)
    if rows != 1:
        raise EditedMeanwhile
    for name in many:
        getattr(record, name).set(changes[name])
    after = plain | {name: [str(one) for one in getattr(record, name).all()] for name in many}
    for name, value in plain.items():
        setattr(record, name, value)
    record.version = seen_version + 1  # type: ignore[attr-defined]
    return {name: (before[name], value) for name, value in after.items() if before[name] != value}
