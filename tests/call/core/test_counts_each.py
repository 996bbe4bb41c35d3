"""What is taken of each thing, by name (shoots.call.core.counts_each). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("6 bags, each front/side/open", 18),
        ("14 dishes, overhead and 45 degree of each", 28),
        ("9 coats front/back/on body", 27),
        ("12 looks, full length + 3/4 + detail", 36),
        ("a shot of each of the 12 rooms", 12),
        ("all 4 bottles on their own", 4),
    ],
)
def test_kinds_of_pictures_of_each_thing(text: str, total: int) -> None:
    finals = data(text)["finals"]
    assert finals["min"] == finals["max"] == total


@pytest.mark.parametrize("text", ["6 stills, each in 1:1 and 9:16", "6 stills each cropped square and landscape"])
def test_crops_of_each_are_no_more_pictures(text: str) -> None:
    assert data(text)["finals"]["max"] == 6
