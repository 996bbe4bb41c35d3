"""What happens to many shots at once: added from a table, edited together, put back, taken off the list."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any

from django.db import transaction
from django.db.models import F, Max

from shoots.brief.models import PLACEMENT_LABELS
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.shotlist.actions.parts import PARTS, FinishingWanted, find_or_add, key_of
from shoots.shotlist.core.columns import Column
from shoots.shotlist.core.rows import NAMED
from shoots.shotlist.models import FinishingItem, Named, Shot, joined
from shoots.trail import actions as trail

#: Fields of a shot that a row of a table fills as they are.
_FIELDS = {
    Column.TITLE: "title",
    Column.PURPOSE: "purpose",
    Column.FRAMING: "framing",
    Column.ORIENTATION: "orientation",
    Column.COPY_SPACE: "copy_space",
    Column.MOOD: "mood_id",
    Column.SETUP: "setup_id",
    Column.PLACE: "place_id",
    Column.DAY: "day_id",
    Column.MOMENT: "moment",
    Column.MOMENT_NOTE: "moment_note",
    Column.PRIORITY: "priority",
    Column.MINUTES: "minutes",
    Column.FINALS: "finals",
    Column.FRAMES: "frames",
    Column.NOTE: "note",
}
_JSON = {Column.SHAPES: "shapes", Column.PLACEMENTS: "placements"}
_PARTS = {Column.PRODUCTS: "products", Column.OUTFITS: "outfits", Column.SUBJECTS: "subjects"}


class ListChanged(Exception):
    """Raised when the list has other shots than when somebody looked; nothing was written."""


class ShotsEditedMeanwhile(EditedMeanwhile):
    """Raised when some of the picked shots were saved or removed since; `titles` are those that are still there."""

    def __init__(self, titles: Sequence[str], gone: int) -> None:
        super().__init__(*titles)
        self.titles = tuple(titles)
        self.gone = gone


class How(StrEnum):
    """What is done with several of a kind: put beside those that are there, in their place, or taken away."""

    ADD = "ADD"
    REPLACE = "REPLACE"
    REMOVE = "REMOVE"


@dataclass(frozen=True)
class PartChange:
    """What many shots get, or lose: rows or names."""

    how: How
    wanted: tuple[Named | str, ...]


@dataclass(frozen=True)
class FinishingChange:
    """What is done to many shots' pictures, or no longer."""

    how: How
    wanted: tuple[FinishingWanted, ...]


@dataclass(frozen=True)
class ShotChange:
    """What changed of one shot, in words; `before` is enough to put it back."""

    pk: int
    title: str
    changes: dict[str, tuple[Any, Any]]
    before: dict[str, Any] = field(default_factory=dict)


def list_mark(shoot: Shoot) -> str:
    """Return a mark of which shots a list has: it differs when one was added or taken off. One query."""
    found = Shot.objects.filter(shoot=shoot).values_list("pk", flat=True)
    keys = sorted(found)
    return f"{len(keys)}-{keys[-1] if keys else 0}"


@transaction.atomic
def add_rows(
    *,
    shoot: Shoot,
    rows: Sequence[Mapping[Column, Any]],
    seen_mark: str | None = None,
    deed: str = "shots added",
    by: Member | None,
    now: datetime,
) -> list[Shot]:
    """Add a shot for each row of a table behind the others; names that the shoot has not are added to it.

    The number of queries grows with the number of new names only. Not safe to repeat, unless `seen_mark` says
    which list was looked at: then a second click changes nothing.

    Raises
    ------
    ListChanged
        If shots were added or taken off since `seen_mark`; nothing is written.
    """
    # Holds the list for this transaction, so that of two clicks one waits for the other.
    Shoot.objects.select_for_update().filter(pk=shoot.pk).first()
    if seen_mark is not None and seen_mark != list_mark(shoot):
        raise ListChanged
    last = Shot.objects.filter(shoot=shoot).aggregate(last=Max("position"))["last"]
    start = 0 if last is None else last + 1
    made = Shot.objects.bulk_create([_shot(shoot, row, start + n) for n, row in enumerate(rows)])
    for column, name in _PARTS.items():
        wanted = [(shot, row.get(column, ())) for shot, row in zip(made, rows, strict=True)]
        known = _rows_of(name, shoot, [one for _shot_, names in wanted for one in names], by=by, now=now)
        _tie(name, [(shot.pk, known[key_of(one)].pk) for shot, names in wanted for one in names])
    FinishingItem.objects.bulk_create(
        FinishingItem(studio=shoot.studio, shot=shot, what=item.what, pictures=item.pictures, price=item.price)
        for shot, row in zip(made, rows, strict=True)
        for item in row.get(Column.FINISHING, ())
    )
    if made:
        trail.record(shoot, deed, by=by, shoot_code=shoot.code, changes={"shots": (0, len(made))}, at=now)
    return made


def _shot(shoot: Shoot, row: Mapping[Column, Any], position: int) -> Shot:
    fields = {name: row[column] for column, name in _FIELDS.items() if column in row}
    fields |= {name: list(row[column]) for column, name in _JSON.items() if column in row}
    return Shot(studio=shoot.studio, shoot=shoot, position=position, **fields)


def _rows_of(name: str, shoot: Shoot, names: Iterable[str], *, by: Member | None, now: datetime) -> dict[str, Named]:
    unique: dict[str, str] = {}
    for one in names:
        unique.setdefault(key_of(one), one)
    return {key_of(row.name): row for row in find_or_add(PARTS[name], shoot, unique.values(), by=by, now=now)}


def _tie(name: str, pairs: Iterable[tuple[int, int]]) -> None:
    through = getattr(Shot, name).through
    column = f"{PARTS[name]._meta.model_name}_id"
    rows = [through(**{"shot_id": shot, column: part}) for shot, part in dict.fromkeys(pairs)]
    through.objects.bulk_create(rows, ignore_conflicts=True)


def _held(shoot: Shoot, seen: Mapping[int, int]) -> list[Shot]:
    """Return the picked shots, held for this transaction.

    Raises
    ------
    ShotsEditedMeanwhile
        If one of them is gone, or no longer at the version that was seen.
    """
    shots = list(Shot.objects.filter(shoot=shoot, pk__in=seen).with_parts().select_for_update(of=("self",)))
    stale = [shot.title for shot in shots if shot.version != seen[shot.pk]]
    if stale or len(shots) != len(seen):
        raise ShotsEditedMeanwhile(stale, gone=len(seen) - len(shots))
    return shots


@transaction.atomic
def edit_many(
    *,
    shoot: Shoot,
    seen: Mapping[int, int],
    changes: Mapping[str, Any],
    parts: Mapping[str, PartChange] | None = None,
    placements: tuple[How, Sequence[str]] | None = None,
    finishing: FinishingChange | None = None,
    by: Member | None,
    now: datetime,
) -> list[ShotChange]:
    """Set the same fields of many shots, and return what changed of which; those that said so already are left.

    `seen` are the picked shots with the versions that were opened. A fixed number of queries but for new names.

    Raises
    ------
    ShotsEditedMeanwhile
        If one of them was saved or removed since; nothing is written.
    """
    shots = _held(shoot, seen)
    named = {
        name: (change.how, find_or_add(PARTS[name], shoot, change.wanted, by=by, now=now))
        for name, change in (parts or {}).items()
    }
    seen_in = {shot.pk: _placements_after(shot, placements) for shot in shots}
    found = []
    for shot in shots:
        changed = _changes_of(shot, {**changes, "placements": seen_in[shot.pk]}, named, finishing)
        if changed:
            found.append((shot, changed))
    if not found:
        return []
    told = [ShotChange(shot.pk, shot.title, changed, _before(shot, changed)) for shot, changed in found]
    touched = [shot.pk for shot, _changed in found]
    Shot.objects.filter(pk__in=touched).update(**changes, version=F("version") + 1)
    for codes in {tuple(codes) for codes in seen_in.values()} if placements else ():
        same = [pk for pk in touched if tuple(seen_in[pk]) == codes]
        Shot.objects.filter(pk__in=same).update(placements=list(codes))
    for name, (how, rows) in named.items():
        _change_part(name, touched, how, [row.pk for row in rows])
    if finishing is not None:
        _change_finishing([shot for shot, _changed in found], finishing)
    trail.record_each(found, "edited together", by=by, shoot_code=shoot.code, at=now)
    return told


@transaction.atomic
def edit_each(
    *,
    shoot: Shoot,
    seen: Mapping[int, int],
    edits: Mapping[int, Mapping[Column, Any]],
    by: Member | None,
    now: datetime,
) -> list[ShotChange]:
    """Set fields of shots, of each its own as a row of a table says them, and return what changed of which.

    `seen` are the versions that were looked at. A fixed number of queries but for new names; a database that takes
    only so many values at once is written to in portions.

    Raises
    ------
    ShotsEditedMeanwhile
        If one of them was saved or removed since; nothing is written.
    """
    shots = _held(shoot, {pk: seen[pk] for pk in edits})
    wanted = _wanted_of(shoot, edits, by=by, now=now)
    found = []
    for shot in shots:
        edit = wanted[shot.pk]
        changed = _changes_of(shot, edit.fields, edit.named, edit.finishing)
        if changed:
            found.append((shot, changed))
    told = [ShotChange(shot.pk, shot.title, changed, _before(shot, changed)) for shot, changed in found]
    for shot, _changed in found:
        for name, value in wanted[shot.pk].fields.items():
            setattr(shot, name, value)
        shot.version += 1
    names = {name for shot, _changed in found for name in wanted[shot.pk].fields}
    Shot.objects.bulk_update([shot for shot, _changed in found], [*sorted(names), "version"])
    for name in PARTS:
        ties = {shot.pk: wanted[shot.pk].named[name][1] for shot, _changed in found if name in wanted[shot.pk].named}
        if ties:
            getattr(Shot, name).through.objects.filter(shot__in=ties).delete()
            _tie(name, [(pk, row.pk) for pk, rows in ties.items() for row in rows])
    finishing = {shot: wanted[shot.pk].finishing for shot, _changed in found}
    _write_finishing({shot: change.wanted for shot, change in finishing.items() if change is not None})
    trail.record_each(found, "edited together", by=by, shoot_code=shoot.code, at=now)
    return told


@dataclass(frozen=True)
class _Wanted:
    """What one shot is to say: fields with rows in place of keys, rows of its parts, finishing or None to leave it."""

    fields: dict[str, Any]
    named: dict[str, tuple[How, list[Named]]]
    finishing: FinishingChange | None


def _wanted_of(
    shoot: Shoot, edits: Mapping[int, Mapping[Column, Any]], *, by: Member | None, now: datetime
) -> dict[int, _Wanted]:
    """Return what shots are to say, with the names that the shoot has not added to it."""
    parts = {}
    for column, name in _PARTS.items():
        names = [one for edit in edits.values() for one in edit.get(column, ())]
        parts[name] = _rows_of(name, shoot, names, by=by, now=now) if names else {}
    rows: dict[str, dict[int, Any]] = {}
    for column in NAMED:
        name = _FIELDS[column].removesuffix("_id")
        keys = {edit[column] for edit in edits.values() if edit.get(column)}
        model = Shot._meta.get_field(name).related_model
        rows[name] = model._base_manager.filter(studio=shoot.studio).in_bulk(keys) if keys else {}
    found = {}
    for pk, edit in edits.items():
        fields = {name: edit[column] for column, name in _FIELDS.items() if column in edit and column not in NAMED}
        for column in NAMED:
            if column in edit:
                name = _FIELDS[column].removesuffix("_id")
                fields[name] = None if edit[column] is None else rows[name][edit[column]]
        fields |= {name: list(edit[column]) for column, name in _JSON.items() if column in edit}
        named = {
            name: (How.REPLACE, list(dict.fromkeys(parts[name][key_of(one)] for one in edit[column])))
            for column, name in _PARTS.items()
            if column in edit
        }
        items = tuple(FinishingWanted(one.what, one.pictures, one.price) for one in edit.get(Column.FINISHING, ()))
        finishing = FinishingChange(How.REPLACE, items) if Column.FINISHING in edit else None
        found[pk] = _Wanted(fields, named, finishing)
    return found


def _changes_of(
    shot: Shot,
    changes: Mapping[str, Any],
    named: Mapping[str, tuple[How, Sequence[Named]]],
    finishing: FinishingChange | None,
) -> dict[str, tuple[Any, Any]]:
    found: dict[str, tuple[Any, Any]] = {}
    for name, value in changes.items():
        old = getattr(shot, name)
        if old != value:
            found[name] = (_words(shot, name, old), _words(shot, name, value))
    for name, (how, rows) in named.items():
        old_rows = list(getattr(shot, name).all())
        new_rows = _after(how, old_rows, list(rows))
        if {row.pk for row in old_rows} != {row.pk for row in new_rows}:
            found[name] = (joined(old_rows), joined(new_rows))
    if finishing is not None:
        before = _finishing_of(shot)
        after = _finishing_after(before, finishing)
        if before != after:
            found["finishing"] = (joined(item.what for item in before), joined(item.what for item in after))
    return found


def _words(shot: Shot, name: str, value: Any) -> Any:
    if value is None:
        return ""
    if isinstance(value, list):
        return ", ".join(str(PLACEMENT_LABELS.get(one, one)) for one in value)
    if isinstance(value, str):
        return str(dict(Shot._meta.get_field(name).choices or ()).get(value, value))
    return value if isinstance(value, int) else str(value)


def _placements_after(shot: Shot, change: tuple[How, Sequence[str]] | None) -> list[str]:
    if change is None:
        return list(shot.placements)
    how, codes = change
    if how is How.ADD:
        return list(dict.fromkeys([*shot.placements, *codes]))
    return list(codes) if how is How.REPLACE else [code for code in shot.placements if code not in codes]


def _after(how: How, old: list[Named], new: list[Named]) -> list[Named]:
    if how is How.ADD:
        return [*old, *(row for row in new if row not in old)]
    return new if how is How.REPLACE else [row for row in old if row not in new]


def _change_part(name: str, shots: Collection[int], how: How, rows: Sequence[int]) -> None:
    through = getattr(Shot, name).through
    column = f"{PARTS[name]._meta.model_name}_id"
    ties = through.objects.filter(shot_id__in=shots)
    if how is How.REMOVE:
        ties.filter(**{f"{column}__in": rows}).delete()
        return
    if how is How.REPLACE:
        ties.exclude(**{f"{column}__in": rows}).delete()
    _tie(name, [(shot, row) for shot in shots for row in rows])


def _finishing_of(shot: Shot) -> list[FinishingWanted]:
    return [FinishingWanted(item.what, item.pictures, item.price) for item in shot.finishing_items.all()]


def _finishing_after(before: list[FinishingWanted], change: FinishingChange) -> list[FinishingWanted]:
    wanted = {key_of(item.what) for item in change.wanted}
    others = [item for item in before if key_of(item.what) not in wanted]
    if change.how is How.ADD:
        there = {key_of(item.what) for item in before}
        return [*before, *(item for item in change.wanted if key_of(item.what) not in there)]
    return list(change.wanted) if change.how is How.REPLACE else others


def _change_finishing(shots: Sequence[Shot], change: FinishingChange) -> None:
    _write_finishing({shot: _finishing_after(_finishing_of(shot), change) for shot in shots})


def _write_finishing(wanted: Mapping[Shot, Sequence[FinishingWanted]]) -> None:
    FinishingItem.objects.filter(shot__in=list(wanted)).delete()
    FinishingItem.objects.bulk_create(
        FinishingItem(studio_id=shot.studio_id, shot=shot, what=item.what, pictures=item.pictures, price=item.price)
        for shot, items in wanted.items()
        for item in items
    )


#: What `undo_many` puts back, beside parts and finishing.
_KEPT = ("title", "purpose", "framing", "orientation", "shapes", "placements", "copy_space", "mood_id", "setup_id")
_KEPT += ("place_id", "day_id", "moment", "moment_note", "priority", "minutes", "finals", "frames", "note")


def _before(shot: Shot, changed: Collection[str]) -> dict[str, Any]:
    """Return what a shot said in the fields that changed, as plain values; it is at the next version once edited."""
    finishing = [
        [item.what, item.pictures, None if item.price is None else str(item.price)]
        for item in shot.finishing_items.all()
    ]
    return {
        "version": shot.version + 1,
        **{name: getattr(shot, name) for name in _KEPT if name.removesuffix("_id") in changed},
        **{name: [row.pk for row in getattr(shot, name).all()] for name in PARTS if name in changed},
        **({"finishing": finishing} if "finishing" in changed else {}),
    }


@transaction.atomic
def undo_many(*, shoot: Shoot, before: Mapping[int, Mapping[str, Any]], by: Member | None, now: datetime) -> int:
    """Put shots back to what they said before they were edited together; return how many.

    Moods, setups, places and days that are gone meanwhile are left empty.

    Raises
    ------
    ShotsEditedMeanwhile
        If one of them was saved or removed since; nothing is written.
    """
    shots = _held(shoot, {pk: values["version"] for pk, values in before.items()})
    at_hand = {
        f"{name}_id": set(
            Shot._meta.get_field(name)
            .related_model._base_manager.values_list("pk", flat=True)
            .filter(studio=shoot.studio)
        )
        for name in ("mood", "setup", "place", "day")
    }
    for shot in shots:
        for name in _KEPT:
            if name not in before[shot.pk]:
                continue
            value = before[shot.pk][name]
            is_gone = name in at_hand and value not in at_hand[name]
            setattr(shot, name, None if is_gone else value)
        shot.version += 1
    kept = [name.removesuffix("_id") for name in _KEPT if any(name in values for values in before.values())]
    Shot.objects.bulk_update(shots, [*kept, "version"])
    for name in PARTS:
        rows = set(PARTS[name]._default_manager.filter(shoot=shoot).values_list("pk", flat=True))
        ties = {shot.pk: before[shot.pk][name] for shot in shots if name in before[shot.pk]}
        getattr(Shot, name).through.objects.filter(shot__in=ties).delete()
        _tie(name, [(pk, row) for pk, kept in ties.items() for row in kept if row in rows])
    _write_finishing(
        {
            shot: [
                FinishingWanted(what, pictures, None if price is None else Decimal(price))
                for what, pictures, price in before[shot.pk]["finishing"]
            ]
            for shot in shots
            if "finishing" in before[shot.pk]
        }
    )
    trail.record_each([(shot, {}) for shot in shots], "put back", by=by, shoot_code=shoot.code, at=now)
    return len(shots)


@transaction.atomic
def remove_many(*, shoot: Shoot, seen: Mapping[int, int], by: Member | None, now: datetime) -> int:
    """Take shots off the list; finished pictures of them stay. Return how many.

    Raises
    ------
    ShotsEditedMeanwhile
        If one of them was saved or removed since; nothing is written.
    """
    shots = _held(shoot, seen)
    told = [(shot, {"title": (shot.title, "")}) for shot in shots]
    trail.record_each(told, "removed", by=by, shoot_code=shoot.code, at=now)
    Shot.objects.filter(pk__in=[shot.pk for shot in shots]).delete()
    return len(shots)
