"""Numbers whose noun was said before or goes without saying (shoots.call.core.counts_unsaid)."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, values


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("a set of ten", 10, 10),
        ("she needs about 12", 12, 12),
        ("8 pics of the shop and five of the owner", 13, 13),
        ("6 dishes, 2 shots each", 12, 12),
        ("four looks, three per look", 12, 12),
        ("headshots for 22 people", 22, 22),
        ("14 partners need portraits", 14, 14),
        ("8 terriers, 2 pics each", 16, 16),
        ("five bags, front, back and side of each", 15, 15),
    ],
)
def test_a_number_without_its_noun_counts_pictures(text: str, low: int, high: int) -> None:
    finals = data(text)["finals"]
    assert (finals["min"], finals["max"]) == (low, high)


@pytest.mark.parametrize("text", ["she has three of them", "and two for lunch", "they want 4 weeks"])
def test_what_counts_no_pictures(text: str) -> None:
    assert data(text)["finals"] is None


def test_sides_are_angles_of_each() -> None:
    (value,) = values("fronts and backs", DraftKind.COUNT)
    assert (value.of.value, value.maximum, value.per) == ("angles", 2, "each")
