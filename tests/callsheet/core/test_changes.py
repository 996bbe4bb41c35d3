"""What changed between two sheets: own arrangement, no source."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest

from shoots.callsheet.core.changes import Change, Topic, changes_between

SHEET: dict[str, Any] = {
    "day": {"date": "2026-06-09", "call": "10:00", "wrap": "18:00"},
    "person": {"name": "Leo Strand", "call": "11:00", "bring": "Shoes"},
    "places": [{"name": "Quarry", "address": "Lane", "parking": "Gate", "hospital": "General", "hazards": ["Edge"]}],
    "setups": [{"shots": [{"key": 1, "title": "Rim"}, {"key": 2, "title": "Slab"}]}],
    "people": [{"name": "Leo Strand", "call": "11:00"}, {"name": "Bea Tolland", "call": "10:00"}],
    "timetable": [{"start": "10:00", "kind": "ARRIVE", "words": ""}],
    "contacts": [{"name": "Studio", "phone": "0114 496 0110"}],
    "weather_rule": "At six",
    "food": "",
    "note": "",
}


def changed(path: list[str | int], value: Any) -> tuple[Change, ...]:
    after = deepcopy(SHEET)
    spot: Any = after
    for name in path[:-1]:
        spot = spot[name]
    spot[path[-1]] = value
    return changes_between(SHEET, after)


def test_the_same_sheet_changed_in_nothing() -> None:
    assert changes_between(SHEET, deepcopy(SHEET)) == ()


@pytest.mark.parametrize(
    ("path", "value", "change"),
    [
        (["day", "date"], "2026-06-10", Change(Topic.DATE, "2026-06-09", "2026-06-10")),
        (["person", "call"], "10:30", Change(Topic.OWN_CALL, "11:00", "10:30")),
        (["day", "wrap"], "", Change(Topic.WRAP, "18:00", "")),
        (["person", "bring"], "Gloves", Change(Topic.BRING, "Shoes", "Gloves")),
        (["places", 0, "hospital"], "Royal", Change(Topic.HOSPITAL, "General", "Royal")),
        (["places", 0, "parking"], "Lay-by", Change(Topic.ACCESS, "Lane; Gate", "Lane; Lay-by")),
        (["places", 0, "hazards"], [], Change(Topic.HAZARDS, "Edge", "")),
        (["weather_rule"], "At seven", Change(Topic.WEATHER, "At six", "At seven")),
        (["people", 1, "call"], "09:30", Change(Topic.OTHERS_CALL, "", "Bea Tolland 09:30")),
        (["timetable", 0, "start"], "09:30", Change(Topic.TIMETABLE, "", "09:30")),
    ],
)
def test_each_thing_that_is_printed_is_told_when_it_changes(path: list[str | int], value: Any, change: Change) -> None:
    assert changed(path, value) == (change,)


def test_shots_and_people_that_came_and_went_are_named() -> None:
    after = deepcopy(SHEET)
    after["setups"][0]["shots"] = [{"key": 2, "title": "Slab"}, {"key": 3, "title": "Ridge"}]
    after["people"] = [{"name": "Leo Strand", "call": "11:00"}, {"name": "Rhona Vell", "call": "10:00"}]
    assert changes_between(SHEET, after) == (
        Change(Topic.SHOTS_IN, "", "Ridge"),
        Change(Topic.SHOTS_OUT, "Rim", ""),
        Change(Topic.PEOPLE_IN, "", "Rhona Vell"),
        Change(Topic.PEOPLE_OUT, "Bea Tolland", ""),
    )


def test_ones_own_call_is_told_first_and_once() -> None:
    after = deepcopy(SHEET)
    after["person"]["call"] = after["people"][0]["call"] = "10:30"
    after["day"]["call"] = "09:30"
    assert [change.topic for change in changes_between(SHEET, after)] == [Topic.OWN_CALL, Topic.CALL]


def test_an_empty_sheet_of_another_shape_breaks_nothing() -> None:
    assert Topic.CALL in {change.topic for change in changes_between({}, SHEET)}
