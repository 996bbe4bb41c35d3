"""How many of what (shoots.call.core.counts). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import drafts, values, words_of


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("10–12 finals", [("finals", 10, 12)]),
        ("finals: 10", [("finals", 10, 10)]),
        ("4 locations", [("locations", 4, 4)]),
        ("three outfits, six products", [("outfits", 3, 3), ("products", 6, 6)]),
        ("one hero, three cut-downs", [("heroes", 1, 1), ("crops", 3, 3)]),
        ("a hero and 5 details", [("heroes", 1, 1), ("details", 5, 5)]),
        ("details 8, packshots x 4", [("details", 8, 8), ("packshots", 4, 4)]),
        ("15 edited images", [("finals", 15, 15)]),
        ("couple of portraits", [("portraits", 2, 2)]),
        ("two shoot days", [("days", 2, 2)]),
        ("20 images in total", [("finals", 20, 20)]),
    ],
)
def test_what_is_counted(text: str, found: list[tuple[str, int, int]]) -> None:
    assert [(v.of.value, v.minimum, v.maximum) for v in values(text, DraftKind.COUNT)] == found


@pytest.mark.parametrize(
    "text", ["shot 3 on the list", "12 years in business", "look 4", "page 9", "4:5", "2 pm", "20% off the shots"]
)
def test_what_counts_nothing(text: str) -> None:
    assert values(text, DraftKind.COUNT) == []


def test_the_span_covers_number_and_noun() -> None:
    text = "they'd like 10-12 really good finals by June"
    (draft,) = drafts(text, DraftKind.COUNT)
    assert words_of(text, draft) == "10-12 really good finals"
    assert dict(draft.reason.params) == {"number": "10-12", "noun": "finals"}


def test_a_label_gives_a_bare_number_its_noun() -> None:
    assert [(v.of.value, v.maximum) for v in values("Deliverables: 12", DraftKind.COUNT)] == [("finals", 12)]
