"""Lengths of time (shoots.call.core.lengths). A season as half a year: common practice, no source; it is asked for."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.call.core.lengths import SEASON_MONTHS, find
from tests.call.core.notes import sentence


@pytest.mark.parametrize(
    ("text", "months"),
    [
        ("a year", "12"),
        ("18 mths", "18"),
        ("18 months", "18"),
        ("2yrs", "24"),
        ("two years", "24"),
        ("a year and a half", "18.0"),
        ("half a year", "6.0"),
        ("2 seasons", str(2 * SEASON_MONTHS)),
        ("6 weeks", "1.4"),
        ("a couple of years", "24"),
    ],
)
def test_a_length_in_months(text: str, months: str) -> None:
    assert [length.months for length in find(sentence(text))] == [Decimal(months)]


@given(st.integers(1, 99))
def test_years_are_twelve_months(years: int) -> None:
    assert [length.months for length in find(sentence(f"{years} years"))] == [12 * years]


@pytest.mark.parametrize("text", ["10 m", "£2m", "yearly", "the year"])
def test_what_is_no_length(text: str) -> None:
    assert [length for length in find(sentence(text)) if length.unit != "m"] == []


def test_seasons_say_that_their_length_is_a_guess() -> None:
    assert [length.is_seasons for length in find(sentence("2 seasons, 1 year"))] == [True, False]


def test_what_was_read_otherwise_is_left_out() -> None:
    line = sentence("a 3 year old for 2 years")
    line.claim(2, 12)
    assert [length.months for length in find(line)] == [24]
