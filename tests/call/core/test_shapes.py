"""Shapes of pictures (shoots.call.core.shapes). Stories are 9:16, a square 1:1: common practice, no source."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, drafts, values, words_of


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("4:5, 9:16, landscape banner", [("4:5", None), ("9:16", None), ("landscape banner", None)]),
        ("six 4:5, 9:16 x 3", [("4:5", 6), ("9:16", 3)]),
        ("couple of 9:16 for stories", [("9:16", 2)]),
        ("4x5 and 16x9 crops", [("4:5", None), ("16:9", None)]),
        ("squares for the grid", [("1:1", None)]),
        ("all portrait please", [("portrait", None)]),
        ("web banner", [("landscape banner", None)]),
        ("a dps", [("double page", None)]),
        ("mostly 4 : 5", [("4:5", None)]),
        ("A4 portrait", [("A4 portrait", None)]),
    ],
)
def test_shapes(text: str, found: list[tuple[str, int | None]]) -> None:
    assert [(v.shape, v.count) for v in values(text, DraftKind.SHAPE)] == found


@pytest.mark.parametrize(
    "text",
    [
        "call at 9:15",
        "a portrait of the founder",
        "6 portraits",
        "the welsh landscape",
        "market square",
        "4 x 5 people",
    ],
)
def test_what_is_no_shape(text: str) -> None:
    assert values(text, DraftKind.SHAPE) == []


def test_a_hedged_shape_is_a_wish() -> None:
    found = data("4:5, maybe a 9:16")["shapes"]
    assert [(s["shape"], s["wish"]) for s in found] == [("4:5", False), ("9:16", True)]


def test_the_span_covers_shape_and_count() -> None:
    text = "most 4:5, couple of 9:16 for stories"
    assert [words_of(text, d) for d in drafts(text, DraftKind.SHAPE)] == ["4:5", "couple of 9:16"]
