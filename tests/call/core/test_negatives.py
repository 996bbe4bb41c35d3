"""What is not wanted (shoots.call.core.negatives). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from shoots.call.core.negatives import items
from tests.call.core.notes import drafts, sentence, values, words_of


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("no tripods on the track", ["no tripods on the track"]),
        ("not smiling", ["not smiling"]),
        ("don't show the logo, no red", ["don't show the logo", "no red"]),
        ("she never wants stock smiles", ["never wants stock smiles"]),
        ("avoid blue light", ["avoid blue light"]),
        ("without props", ["without props"]),
        ("the old label is not allowed", ["the old label is not allowed"]),
    ],
)
def test_negatives(text: str, found: list[str]) -> None:
    assert [v.text for v in values(text, DraftKind.NEGATIVE)] == found


@pytest.mark.parametrize(
    "text",
    [
        "no rush",
        "not sure yet",
        "no later than Friday",
        "worldwide, not China",
        "I'm not in on Monday",
        "not 8 June",
        "no problem",
        "no more than 12 pictures",
        "4 locations?? no, 2",
        "no, make it two",
    ],
)
def test_what_is_no_negative(text: str) -> None:
    assert values(text, DraftKind.NEGATIVE) == []


def test_items_under_a_label() -> None:
    line = sentence("avoid: logos, phones", topic="negatives")
    assert [line.text[slice(*span)].strip() for span in items(line)] == ["logos", "phones"]
    assert [v.text for v in values("Avoid: logos, phones", DraftKind.NEGATIVE)] == ["logos", "phones"]


def test_the_span_is_the_words() -> None:
    text = "dusk please, no tripods on the track"
    (draft,) = drafts(text, DraftKind.NEGATIVE)
    assert words_of(text, draft) == "no tripods on the track"
