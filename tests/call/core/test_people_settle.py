"""What only all notes tell of the people (shoots.call.core.people_settle). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


def people(text: str) -> list[tuple[str | None, int | None, int | None]]:
    return [(p["who"], p["count"], p["age"]) for p in data(text)["people"]["entries"]]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a first line\nher grandson will wear them; he is fifteen", [("grandson", 1, 15)]),
        ("a first line\nher sister models. she's 31", [("sister", 1, 31)]),
        ("a first line\ntwo riders. he is fifteen", [("riders", 2, None), (None, None, 15)]),
    ],
)
def test_an_age_said_a_sentence_later(text: str, found: list[tuple[str | None, int | None, int | None]]) -> None:
    assert people(text) == found


def test_nobody_is_seen_where_the_notes_say_so() -> None:
    assert people("cans, one barista pouring\nnobody is in the pictures") == []
    assert people("cans, two baristas pouring\nno people's faces") == [("baristas", 2, None)]


def test_people_named_once_more_in_general_are_the_same() -> None:
    assert people("a sauna\n2 people jumping in\n2 bathers, grown ups") == [("bathers", 2, None)]


def test_who_is_counted_before_a_colon_is_told_behind_it() -> None:
    assert people("a first line\n2 hikers: her roommate (26) + a guy from the shop (41)") == [("hikers", 2, 26)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("cooper at work in the yard", [("cooper", 1, None)]),
        ("coopers at work in the yard", [("coopers", None, None)]),
        ("a family on the beach", [("family", 1, None)]),
        ("talent: family, casual", [("family", None, None)]),
        ("portrait of each lecturer", [("lecturer", None, None)]),
    ],
)
def test_somebody_in_the_singular_is_one(text: str, found: list[tuple[str | None, int | None, int | None]]) -> None:
    assert people("a first line\n" + text) == found


def test_a_team_of_counted_people_is_no_one_more() -> None:
    assert people("a first line\n9 clerks, a headshot each\nand one of the team together") == [("clerks", 9, None)]
