"""Numbers as people say them (shoots.call.core.numbers). Labels: own, by meaning."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.call.core.numbers import number, quantities

ONES = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10-12 finals", 10, 12),
        ("10 to 12 finals", 10, 12),
        ("between 8 and 10 pics", 8, 10),
        ("couple of details", 2, 2),
        ("a couple of details", 2, 2),
        ("half a dozen", 6, 6),
        ("two dozen", 24, 24),
        ("at least six", 6, None),
        ("15+ images", 15, None),
        ("up to 20", None, 20),
        ("20 max", None, 20),
        ("twenty-five", 25, 25),
        ("a hundred and twenty", 120, 120),
        ("6 or 7", 6, 7),
        ("a single picture", 1, 1),
    ],
)
def test_a_quantity_has_the_bounds_that_were_said(text: str, low: int | None, high: int | None) -> None:
    assert [(q.minimum, q.maximum) for q in quantities(text)] == [(low, high)]


@pytest.mark.parametrize("text", ["about 20", "20ish", "20 or so", "roughly twenty", "a few", "~12"])
def test_an_approximate_number_says_so(text: str) -> None:
    assert [q.approximate for q in quantities(text)] == [True]


@pytest.mark.parametrize("text", ["4:5", "2.5k", "£40", "90%", "someone", "tenner"])
def test_ratios_prices_and_words_with_numbers_inside_are_no_quantities(text: str) -> None:
    assert quantities(text) == []


@given(st.integers(1, 9999))
def test_figures_come_back(many: int) -> None:
    assert number(str(many)) == many == number(f"{many:,}")


@given(st.integers(1, 12), st.integers(1, 9))
def test_words_add_up(small: int, hundreds: int) -> None:
    assert number(ONES[small - 1]) == small
    assert number(f"{ONES[hundreds - 1]} hundred and {ONES[small - 1]}") == 100 * hundreds + small


@given(st.text(max_size=80))
def test_any_text_gives_ordered_bounds_inside_it(text: str) -> None:
    for quantity in quantities(text):
        assert 0 <= quantity.start < quantity.end <= len(text)
        if quantity.minimum is not None and quantity.maximum is not None:
            assert quantity.minimum <= quantity.maximum
