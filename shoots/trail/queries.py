"""What the trail says about a record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from django.apps import apps
from django.core.exceptions import FieldDoesNotExist
from django.db import models

from shoots.members.models import Studio
from shoots.trail.models import Entry


@dataclass(frozen=True)
class Deed:
    """One line of a record's history: when, who, what, and which fields changed."""

    at: datetime
    who: str
    deed: str
    fields: tuple[str, ...]


def history_of(subject: models.Model, *, studio: Studio, most: int = 12) -> tuple[Deed, ...]:
    """Return what was done to a record, newest first, by the names its fields have on pages. One query."""
    entries = Entry.objects.of_studio(studio).filter(record=f"{subject._meta.model_name}:{subject.pk}")
    # PostgreSQL does not keep the order of a JSON object's keys; the model's is the one that pages have.
    names = [field.name for field in subject._meta.get_fields()]

    def place_of(name: str) -> tuple[int, str]:
        return (names.index(name) if name in names else len(names), name)

    return tuple(
        Deed(
            at=entry.at,
            who=entry.actor_name,
            deed=entry.deed.replace("_", " "),
            fields=tuple(_label(subject, name) for name in sorted(entry.changes, key=place_of)),
        )
        for entry in entries.order_by("-at", "-pk")[:most]
    )


@dataclass(frozen=True)
class ShootDeed:
    """What somebody did on a shoot: the same deed several times in a row is one line with `times`.

    `thing` and `deed` are words; `model` and `key` are what the trail holds, for a table of better words.
    """

    at: datetime
    who: str
    thing: str
    deed: str
    times: int
    model: str = ""
    key: str = ""


@dataclass(frozen=True)
class ShootHistory:
    """A page of what was done on a shoot, newest first."""

    deeds: tuple[ShootDeed, ...]
    has_more: bool


def shoot_history(*, studio: Studio, shoot_code: str, most: int, skip: int = 0) -> ShootHistory:
    """Return what was done on a shoot, out of `most` entries after the newest `skip`. One query."""
    entries = Entry.objects.of_studio(studio).filter(shoot_code=shoot_code).order_by("-at", "-pk")
    rows = list(entries.defer("changes")[skip : skip + most + 1])
    found: list[ShootDeed] = []
    for entry in rows[:most]:
        thing = _thing(entry.record)
        model = entry.record.partition(":")[0]
        deed = ShootDeed(entry.at, entry.actor_name, thing, _deed_of(thing, entry), 1, model, entry.deed)
        place = _same_as(deed, found)
        if place is None:
            found.append(deed)
        else:
            found[place] = replace(found[place], times=found[place].times + 1)
    return ShootHistory(tuple(found), len(rows) > most)


def _same_as(deed: ShootDeed, found: list[ShootDeed]) -> int | None:
    """Where the same deed stands already: the line before, or any line of the same moment."""
    for place in range(len(found) - 1, -1, -1):
        before = found[place]
        if (before.who, before.model, before.key) == (deed.who, deed.model, deed.key):
            return place
        if before.at != deed.at:
            return None
    return None


def _thing(record: str) -> str:
    model_name = record.partition(":")[0]
    try:
        return str(apps.get_model("shoots", model_name)._meta.verbose_name).capitalize()
    except LookupError:  # a model of an older release
        return model_name.replace("_", " ").capitalize()


def _deed_of(thing: str, entry: Entry) -> str:
    """A deed without the name of its thing, which some deeds begin with ("day_wrapped" of a shoot day)."""
    words = entry.deed.replace("_", " ")
    for name in (entry.record.partition(":")[0], thing.lower(), thing.lower().rpartition(" ")[2]):
        if words.startswith(f"{name} "):
            return words.removeprefix(f"{name} ")
    return words


def _label(subject: models.Model, name: str) -> str:
    try:
        return str(getattr(subject._meta.get_field(name), "verbose_name", name))
    except FieldDoesNotExist:  # a field of an older release
        return name.replace("_", " ")
