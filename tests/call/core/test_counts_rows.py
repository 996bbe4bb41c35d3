"""Rows of pictures, one below the other (shoots.call.core.counts_rows). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("campaign 4\necom 18\nstill life 6", 28),
        ("kitchen x3\nhall x2\ngarden x4", 9),
        ("kitchen x3\nhall x2\nexterior x4\nbudget 900", 9),
    ],
)
def test_rows_add_up(text: str, total: int) -> None:
    assert data(text)["finals"]["max"] == total


@pytest.mark.parametrize("text", ["room 4\nfloor 2", "adults 4\nkids 2", "size 8\nsize 10", "kitchen x3\nmodels x2"])
def test_other_rows_count_no_pictures(text: str) -> None:
    assert data(text)["finals"] is None
