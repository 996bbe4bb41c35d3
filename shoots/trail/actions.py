"""Writing the trail."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db import models

from shoots.members.actions import save_edit
from shoots.members.models import Member, Studio
from shoots.trail.models import Entry


def record(
    subject: models.Model,
    deed: str,
    *,
    studio: Studio | None = None,
    by: Member | str | None,
    shoot_code: str = "",
    changes: Mapping[str, tuple[Any, Any]] | None = None,
    at: datetime,
) -> Entry:
    """Write down that somebody did something to a record; call it inside the deed's transaction.

    `by` is a member, or the name that a client typed, or None for the program itself. Values that JSON does not
    know are kept as text. One INSERT.
    """
    member = by if isinstance(by, Member) else None
    kept = {name: [_plain(old), _plain(new)] for name, (old, new) in (changes or {}).items()}
    return Entry.objects.create(
        studio=studio or subject.studio,  # type: ignore[attr-defined]
        at=at,
        actor=member.user if member else None,
        actor_name=str(member.user) if member else (by or ""),
        deed=deed,
        record=f"{subject._meta.model_name}:{subject.pk}",
        shoot_code=shoot_code,
        changes=kept,
    )


def record_each(
    subjects: Iterable[tuple[models.Model, Mapping[str, tuple[Any, Any]]]],
    deed: str,
    *,
    by: Member | None,
    shoot_code: str = "",
    at: datetime,
) -> None:
    """Write down that somebody did the same to many records, with what changed of each. One INSERT for all."""
    Entry.objects.bulk_create(
        Entry(
            studio_id=subject.studio_id,  # type: ignore[attr-defined]
            at=at,
            actor=by.user if by else None,
            actor_name=str(by.user) if by else "",
            deed=deed,
            record=f"{subject._meta.model_name}:{subject.pk}",
            shoot_code=shoot_code,
            changes={name: [_plain(old), _plain(new)] for name, (old, new) in changes.items()},
        )
        for subject, changes in subjects
    )


def edit(
    subject: models.Model,
    *,
    changes: Mapping[str, Any],
    seen_version: int,
    deed: str = "edited",
    studio: Studio | None = None,
    by: Member | str | None,
    shoot_code: str = "",
    at: datetime,
) -> dict[str, tuple[Any, Any]]:
    """Write `changes` to a record that is still at `seen_version`, and what changed into the trail; return that.

    Saving what was there already leaves no entry. Call it inside the edit's transaction.

    Raises
    ------
    EditedMeanwhile
        If somebody else saved the record since; nothing is written.
    """
    changed = save_edit(subject, changes=changes, seen_version=seen_version)
    if changed:
        record(subject, deed, studio=studio, by=by, shoot_code=shoot_code, changes=changed, at=at)
    return changed


def _plain(value: Any) -> Any:
    return value if isinstance(value, str | int | float | bool | list | dict | None) else str(value)
