"""How many finished pictures, however it is said (shoots.call.core.finals). Labels: own, by meaning."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10-12 finals", 10, 12),
        ("one hero, three cut-downs", 1, 1),
        ("4 heroes, 8 details and 6 packshots", 18, 18),
        ("15 images: 5 heroes, 10 details", 15, 15),
        ("20 pics in total, 12 on white, 8 lifestyle", 20, 20),
        ("12 finals + 24 cutouts", 36, 36),
        ("3 products x 4 angles", 12, 12),
        ("two of each, 6 flavours", 12, 12),
        ("12 finals, maybe a group shot", 12, 12),
        ("at least 8 images", 8, None),
        ("up to 20 finals", None, 20),
        ("6 portraits and a team shot", 7, 7),
        ("four 4:5 and two 9:16", 6, 6),
        ("10 finals? no, 12", 12, 12),
    ],
)
def test_finals(text: str, low: int | None, high: int | None) -> None:
    finals = data(text)["finals"]
    assert (finals["min"], finals["max"]) == (low, high)


def test_nothing_said_is_none_and_is_asked_for() -> None:
    found = data("4 locations, two models")
    assert found["finals"] is None and "finals" in [q["code"] for q in found["questions"]]


@given(st.integers(2, 30), st.integers(2, 30))
def test_parts_add_up(heroes: int, details: int) -> None:
    assert data(f"{heroes} heroes and {details} details")["finals"]["max"] == heroes + details


@given(st.integers(2, 30), st.integers(2, 9))
def test_each_multiplies(products: int, each: int) -> None:
    assert data(f"{products} products, {each} shots each")["finals"]["max"] == products * each
