"""What is different between two call sheets of the same day for the same reader.

References
----------
Own arrangement: what somebody has to know before they set out comes first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Topic(StrEnum):
    """What may have changed, in the order in which it is told."""

    DATE = "DATE"
    OWN_CALL = "OWN_CALL"
    CALL = "CALL"
    PLACE = "PLACE"
    WRAP = "WRAP"
    BRING = "BRING"
    ACCESS = "ACCESS"
    HOSPITAL = "HOSPITAL"
    PERMISSION = "PERMISSION"
    SHOTS_IN = "SHOTS_IN"
    SHOTS_OUT = "SHOTS_OUT"
    TIMETABLE = "TIMETABLE"
    PEOPLE_IN = "PEOPLE_IN"
    PEOPLE_OUT = "PEOPLE_OUT"
    OTHERS_CALL = "OTHERS_CALL"
    CONTACTS = "CONTACTS"
    HAZARDS = "HAZARDS"
    WEATHER = "WEATHER"
    FOOD = "FOOD"
    NOTE = "NOTE"


@dataclass(frozen=True, slots=True)
class Change:
    """One difference: what it is about, what stood there, what stands there now; empty where there was nothing."""

    topic: Topic
    before: str = ""
    after: str = ""


_PLAIN: tuple[tuple[Topic, tuple[str, ...]], ...] = (
    (Topic.DATE, ("day", "date")),
    (Topic.OWN_CALL, ("person", "call")),
    (Topic.CALL, ("day", "call")),
    (Topic.WRAP, ("day", "wrap")),
    (Topic.BRING, ("person", "bring")),
    (Topic.WEATHER, ("weather_rule",)),
    (Topic.FOOD, ("food",)),
    (Topic.NOTE, ("note",)),
)


def _at(content: Mapping[str, Any], path: Sequence[str]) -> str:
    found: Any = content
    for name in path:
        found = found.get(name) if isinstance(found, Mapping) else None
    return "" if found is None else str(found)


def _places(content: Mapping[str, Any], *names: str) -> str:
    parts = [str(place.get(name) or "") for place in content.get("places", ()) for name in names]
    return "; ".join(part for part in parts if part)


def _hazards(content: Mapping[str, Any]) -> str:
    return "; ".join(str(line) for place in content.get("places", ()) for line in place.get("hazards", ()))


def _shots(content: Mapping[str, Any]) -> dict[str, str]:
    shots = [shot for setup in content.get("setups", ()) for shot in setup.get("shots", ())]
    return {str(shot.get("key")): str(shot.get("title")) for shot in shots}


def _calls(content: Mapping[str, Any]) -> dict[str, str]:
    return {str(one.get("name")): str(one.get("call") or "") for one in content.get("people", ())}


def _timetable(content: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    rows = content.get("timetable", ())
    return [(str(row.get("start")), str(row.get("kind")), str(row.get("words"))) for row in rows]


def _contacts(content: Mapping[str, Any]) -> str:
    return ", ".join(f"{one.get('name')} {one.get('phone')}" for one in content.get("contacts", ()))


def _joined(names: Sequence[str]) -> str:
    return ", ".join(names)


def _found(before: Mapping[str, Any], after: Mapping[str, Any]) -> Iterator[Change]:
    for topic, path in _PLAIN:
        yield Change(topic, _at(before, path), _at(after, path))
    yield Change(Topic.PLACE, _places(before, "name"), _places(after, "name"))
    yield Change(Topic.ACCESS, _places(before, "address", "parking"), _places(after, "address", "parking"))
    yield Change(Topic.HOSPITAL, _places(before, "hospital"), _places(after, "hospital"))
    yield Change(
        Topic.PERMISSION,
        _places(before, "permission", "permission_note"),
        _places(after, "permission", "permission_note"),
    )
    yield Change(Topic.HAZARDS, _hazards(before), _hazards(after))
    yield Change(Topic.CONTACTS, _contacts(before), _contacts(after))
    old, new = _shots(before), _shots(after)
    yield Change(Topic.SHOTS_IN, "", _joined([title for key, title in new.items() if key not in old]))
    yield Change(Topic.SHOTS_OUT, _joined([title for key, title in old.items() if key not in new]), "")
    was, now = _calls(before), _calls(after)
    yield Change(Topic.PEOPLE_IN, "", _joined([name for name in now if name not in was]))
    yield Change(Topic.PEOPLE_OUT, _joined([name for name in was if name not in now]), "")
    own = _at(after, ("person", "name"))
    moved = [f"{name} {at}" for name, at in now.items() if name in was and was[name] != at and name != own and at]
    yield Change(Topic.OTHERS_CALL, "", _joined(moved))
    if _timetable(before) != _timetable(after) and _timetable(after):
        yield Change(Topic.TIMETABLE, "", _timetable(after)[-1][0])  # when its last block starts


def changes_between(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Change, ...]:
    """Return what changed from one sheet to the next.

    Parameters
    ----------
    before : Mapping[str, Any]
        Content of the sheet that the reader has.
    after : Mapping[str, Any]
        Content of the new one, of the same shape.

    Returns
    -------
    tuple[Change, ...]
        At most one change for each topic, in the order of the topics; none when nothing that is printed differs.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> changes_between({"day": {"call": "10:00"}}, {"day": {"call": "09:30"}})
    (Change(topic=<Topic.CALL: 'CALL'>, before='10:00', after='09:30'),)
    """
    order = list(Topic)
    found = [change for change in _found(before, after) if change.before != change.after]
    return tuple(sorted(found, key=lambda change: order.index(change.topic)))
