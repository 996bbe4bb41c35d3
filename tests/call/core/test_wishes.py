"""The reach of "maybe" and "if there's time" (shoots.call.core.wishes). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, reading, values


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("maybe a group shot", ["maybe a group shot"]),
        ("ten finals, a group shot if there's time", ["a group shot if there's time"]),
        ("if there's time, a group shot", ["if there's time, a group shot"]),
        ("would be nice to have the dog in", ["would be nice to have the dog in"]),
        ("nice to have: a flat lay, the dog", ["a flat lay", "the dog"]),
    ],
)
def test_wishes(text: str, found: list[str]) -> None:
    assert [v.text for v in values(text, DraftKind.WISH)] == found


@pytest.mark.parametrize(
    "text", ["maybe 12 pictures", "maybe 8 June", "maybe 3k", "she may like it", "we'd love to book"]
)
def test_an_uncertain_number_day_or_amount_is_no_wish(text: str) -> None:
    assert values(text, DraftKind.WISH) == []


def test_what_stands_inside_a_wish_is_one() -> None:
    drafts = reading("12 finals in 4:5, maybe a 9:16").drafts
    assert [d.wish for d in drafts if d.kind is DraftKind.SHAPE] == [False, True]
    assert data("12 finals, a group shot if there's time")["finals"]["max"] == 12
