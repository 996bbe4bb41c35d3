"""Sums that would be a guess are none (shoots.call.core.finals_doubt). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


@pytest.mark.parametrize(
    "text",
    [
        "6 packshots, 4 frobs and 2 details",
        "some bags\n- pack shots front + back\n- 4 details",
        "14 heads + 1 group + few candids",
    ],
)
def test_a_list_with_an_item_that_nobody_understood_gives_no_sum_and_is_asked_about(text: str) -> None:
    found = data(text)
    assert found["finals"] is None and "finals" in [q["code"] for q in found["questions"]]


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("14 cutouts (2 per style)", 14),
        ("one of each combination folded on white (9), 5 lifestyle", 14),
        ("6 packshots, 4 frobs and 2 details, 12 in total", 12),
        ("6 packshots and 2 details, 3 hours", 8),
    ],
)
def test_what_is_explained_or_no_item_raises_no_doubt(text: str, total: int) -> None:
    assert data(text)["finals"]["max"] == total
