"""People in the pictures, and minors (shoots.call.core.people).

Sources: Family Law Reform Act 1969 s.1 (18); Education Act 1996 s.8 (compulsory school age); Children and Young Persons
Act 1963 s.37 (a council's licence). England; other countries differ.
"""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, values


def people(text: str) -> list[tuple[str | None, int | None, int | None]]:
    return [(p["who"], p["count"], p["age"]) for p in data(text)["people"]["entries"]]


def asked(text: str) -> set[str]:
    return {entry["code"] for entry in data(text)["permissions"]}


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


@pytest.mark.parametrize(
    ("text", "minors"),
    [
        ("he's 16", True),
        ("he's 18", False),
        ("he's 17", True),
        ("two kids", True),
        ("out of school at three", True),
        ("a toddler", True),
        ("two riders, 28 and 34", False),
        ("no kids", False),
        ("kids' shoes", False),
        ("three models", False),
    ],
)
def test_who_is_under_eighteen(text: str, minors: bool) -> None:
    assert data(text)["people"]["minors"] is minors
    assert ("guardian" in asked(text)) is minors


def test_of_school_age_a_councils_licence_is_asked_for() -> None:
    assert asked("she's 12") == {"guardian", "council licence"}
    assert asked("he's 16, out of school at three") == {"guardian", "council licence"}
    assert asked("he's 17") == {"guardian"}
    codes = [q["code"] for q in data("he's 16, out of school at three")["questions"]]
    assert {"guardian", "council_licence"} <= set(codes)


def test_out_of_school_says_more_about_the_same_person() -> None:
    assert len(people("her nephew, he's 16, out of school at three")) == 1


def test_crew_stands_behind_the_camera() -> None:
    found = data("hair and make-up artist, two models")["people"]
    assert [p["who"] for p in found["entries"]] == ["models"] and len(found["crew"]) == 1


def test_the_same_role_is_named_once() -> None:
    assert len(values("two models\nmodels booked by us, models wear black", DraftKind.PERSON)) == 1
