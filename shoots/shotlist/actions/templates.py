"""What happens to the studio's own lists to begin with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.db import IntegrityError, transaction

from shoots.members.models import Member, Studio
from shoots.shotlist.models import ShotTemplate
from shoots.trail import actions as trail


class NameTaken(Exception):
    """Raised when the studio has a template of that name; nothing was written."""


def save_template(
    *, studio: Studio, name: str, note: str = "", rows: Sequence[Mapping[str, str]], by: Member | None, now: datetime
) -> ShotTemplate:
    """Keep rows of a table of shots under a name; `rows` are cells by the codes of their columns.

    Raises
    ------
    NameTaken
        Nothing is written.
    """
    kept = [{column: cell for column, cell in row.items() if cell} for row in rows]
    try:
        with transaction.atomic():
            template = ShotTemplate.objects.create(studio=studio, name=name, note=note, rows=kept)
            trail.record(template, "saved", by=by, changes={"name": ("", name), "shots": (0, len(kept))}, at=now)
    except IntegrityError:
        raise NameTaken(name) from None
    return template


def rename_template(
    *, template: ShotTemplate, name: str, note: str, seen_version: int, by: Member | None, now: datetime
) -> None:
    """Give a template another name or note.

    Raises
    ------
    NameTaken, EditedMeanwhile
        Nothing is written.
    """
    try:
        with transaction.atomic():
            trail.edit(template, changes={"name": name, "note": note}, seen_version=seen_version, by=by, at=now)
    except IntegrityError:
        raise NameTaken(name) from None


@transaction.atomic
def remove_template(*, template: ShotTemplate, by: Member | None, now: datetime) -> None:
    """Remove a template; the lists that began with it stay."""
    trail.record(template, "removed", by=by, changes={"name": (template.name, "")}, at=now)
    template.delete()
