"""The feeling of the pictures (shoots.call.core.mood). Trade words: common practice, no source."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from shoots.call.core.mood import overall
from tests.call.core.notes import reading, values


@pytest.mark.parametrize(
    ("text", "pole"),
    [
        ("moody and dark", "dark"),
        ("dark + gritty", "dark"),
        ("low-key, long shadows", "dark"),
        ("bright and airy", "bright"),
        ("high key, clean and fresh", "bright"),
        ("one dark and one bright set", "both"),
        ("half moody, half bright and airy", "both"),
        ("not too dark, bright and fresh", "bright"),
        ("no drama, just the bags", "unknown"),
        ("dark chocolate bars", "unknown"),
        ("bright red jacket", "unknown"),
        ("shoot before it gets dark", "unknown"),
        ("light jacket", "unknown"),
    ],
)
def test_where_the_mood_stands(text: str, pole: str) -> None:
    assert overall(reading(text).drafts).value == pole


def test_a_weak_word_needs_company() -> None:
    assert values("a soft blanket", DraftKind.MOOD) == []
    assert [v.words for v in values("mood: soft", DraftKind.MOOD)] == ["soft"]
