"""Ranges of products of powers. Sources stand beside the checks."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.values.spread import Doubt, product_between


def doubt(low: float, value: float, high: float) -> Doubt:
    return Doubt("x", low, value, high, "1", "")


def test_relative_variances_add_with_their_exponents_squared() -> None:
    """JCGM 100:2008, 5.1.6, equation 12: for c·X₁^p₁·X₂^p₂ the relative variances add, each times p²."""
    u1, u2 = 0.01, 0.02
    found = product_between(10.0, [(doubt(1 - u1, 1, 1 + u1), 2.0), (doubt(1 - u2, 1, 1 + u2), -0.5)])
    expected = math.sqrt((2.0 * u1) ** 2 + (0.5 * u2) ** 2)
    assert found.high / 10.0 - 1.0 == pytest.approx(expected, rel=0.03)
    assert 1.0 - found.low / 10.0 == pytest.approx(expected, rel=0.03)


def test_the_range_is_that_of_independent_errors_drawn_at_random() -> None:
    """Propagation of distributions, JCGM 101:2008: two in three of 200,000 draws lie within."""
    rng = np.random.default_rng(1)
    parts = [(doubt(1 / 1.2, 1, 1.2), -0.5), (doubt(1 / 1.1, 1, 1.1), 0.5), (doubt(1 / 1.05, 1, 1.05), 1.0)]
    draws = np.ones(200_000)
    for one, power in parts:
        draws *= np.exp(rng.normal(0.0, math.log(one.high), draws.size)) ** power
    low, high = np.quantile(draws, [0.15866, 0.84134])
    found = product_between(1.0, parts)
    assert (found.low, found.high) == (pytest.approx(low, rel=0.005), pytest.approx(high, rel=0.005))


def test_a_range_that_is_wider_to_one_side_stays_so() -> None:
    """More drag tips a light earlier: what may lie high in the drag lies low in the wind."""
    found = product_between(1.0, [(doubt(1.0, 1.0, 4.0), -0.5)])
    assert (found.low, found.high) == (pytest.approx(0.5), pytest.approx(1.0))


@given(
    st.lists(st.tuples(st.floats(0.1, 1.0), st.floats(1.0, 10.0), st.sampled_from([-2.0, -0.5, 0.5, 1.0])), max_size=6),
    st.floats(0.01, 1000.0),
)
def test_a_range_holds_its_value_and_grows_with_every_doubt(sides, value) -> None:
    parts = [(doubt(low, 1.0, high), power) for low, high, power in sides]
    found = product_between(value, parts)
    assert found.low <= value * (1 + 1e-12)
    assert value <= found.high * (1 + 1e-12)
    fewer = product_between(value, parts[:-1])
    assert found.low <= fewer.low * (1 + 1e-12)
    assert found.high >= fewer.high * (1 - 1e-12)
