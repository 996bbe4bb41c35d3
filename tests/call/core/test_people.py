"""People in the pictures (shoots.call.core.people). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, values


def people(text: str) -> list[tuple[str | None, int | None, int | None]]:
    return [(p["who"], p["count"], p["age"]) for p in data(text)["people"]["entries"]]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("two runners", [("runners", 2, None)]),
        ("models x 3", [("models", 3, None)]),
        ("a hand model", [("hand model", 1, None)]),
        ("two runners, one is her nephew, he's 16", [("runners", 2, None), ("nephew", 1, 16)]),
        ("her daughter Mia, 8", [("daughter", None, 8)]),
        ("portrait of the founder", [("founder", None, None)]),
        ("Model: female, 30s", [("model", None, None)]),
    ],
)
def test_people(text: str, found: list[tuple[str | None, int | None, int | None]]) -> None:
    assert people(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "no models",
        "the founder signs off",
        "for runners everywhere",
        "model release",
        "budget incl. model",
        "send to the team",
    ],
)
def test_who_is_not_in_the_pictures(text: str) -> None:
    assert people(text) == []


def test_out_of_school_says_more_about_the_same_person() -> None:
    assert len(people("her nephew, he's 16, out of school at three")) == 1


def test_crew_stands_behind_the_camera() -> None:
    found = data("hair and make-up artist, two models")["people"]
    assert [p["who"] for p in found["entries"]] == ["models"] and len(found["crew"]) == 1


def test_the_same_role_is_named_once() -> None:
    assert len(values("two models\nmodels booked by us, models wear black", DraftKind.PERSON)) == 1
