"""Refits against simulated lights whose truth is known, against closed forms, and with wrong readings among
them."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.meter import (
    READING_SPREAD_STOPS,
    NotedReading,
    UnknownLight,
    measured_exposure,
    refit,
)
from shoots.lighting.core.setup import MeterFactor
from shoots.lighting.core.tenths import read_meter
from shoots.values.units import OutOfRange

PRIOR = MeterFactor(0.0, 0.7)


def _readings(stops: list[float]) -> list[NotedReading]:
    return [NotedReading((("A", 100.0),), 100.0 * 2.0**stop) for stop in stops]


def _simulate(count: int, wild: bool = False, runs: int = 500) -> tuple[float, float, float]:
    """Return root mean square error, mean stated spread, and how often the truth lies within it."""
    random = np.random.default_rng(20271 + count)
    errors, spreads = [], []
    for _ in range(runs):
        truth = random.normal(0.0, PRIOR.spread_stops)
        noted = truth + random.normal(0.0, READING_SPREAD_STOPS, count)
        if wild:
            noted[int(random.integers(count))] += random.choice([-1.0, 1.0]) * random.uniform(1.5, 4.0)
        found = refit(_readings(noted.tolist()), {"A": PRIOR}).factor("A")
        errors.append(found.stops - truth)
        spreads.append(found.spread_stops)
    error = np.array(errors)
    inside = float(np.mean(np.abs(error) <= np.array(spreads)))
    return float(np.sqrt(np.mean(error**2))), float(np.mean(spreads)), inside


@pytest.mark.parametrize("count", [1, 2, 4, 9, 16])
def test_with_k_readings_the_error_shrinks_as_it_should(count: int) -> None:
    """Textbook: 1/sqrt(1/s0² + k/s²); the biweight may cost five per cent, the simulation has three."""
    expected = 1.0 / math.sqrt(PRIOR.spread_stops**-2 + count * READING_SPREAD_STOPS**-2)
    error, spread, inside = _simulate(count)
    assert error == pytest.approx(expected, rel=0.12)
    assert spread == pytest.approx(expected, rel=0.20)
    # A normal error lies within one spread in 68 of 100 cases.
    assert inside == pytest.approx(0.68, abs=0.08)


@pytest.mark.parametrize("count", [4, 6, 10])
def test_one_wrong_reading_costs_little(count: int) -> None:
    """As good as without it, within a quarter; a plain mean would lie off by up to a stop."""
    error, _, _ = _simulate(count, wild=True)
    without, _, _ = _simulate(count - 1)
    assert error < 1.25 * without


def test_a_wrong_reading_among_good_ones_is_pointed_out() -> None:
    found = refit(_readings([0.5, 0.45, 3.0, 0.55]), {"A": PRIOR})
    assert found.doubtful == (2,)
    assert found.factor("A").stops == pytest.approx(0.5, abs=0.05)


@given(st.floats(-1.0, 1.0), st.integers(1, 6))
def test_equal_readings_agree_with_the_closed_form(stops: float, count: int) -> None:
    """A second computation: the weighted mean of prior and readings; the biweight is flat where all agree."""
    found = refit(_readings([stops] * count), {"A": PRIOR}).factor("A")
    share = count * READING_SPREAD_STOPS**-2 / (count * READING_SPREAD_STOPS**-2 + PRIOR.spread_stops**-2)
    assert found.stops == pytest.approx(share * stops, abs=0.01)


def test_the_order_of_readings_does_not_matter() -> None:
    stops = [0.3, -0.1, 0.2, 2.5]
    one = refit(_readings(stops), {"A": PRIOR}).factor("A")
    two = refit(_readings(stops[::-1]), {"A": PRIOR}).factor("A")
    assert one.stops == pytest.approx(two.stops, abs=1e-9)


def test_readings_of_several_lights_together_tell_them_apart() -> None:
    """Truth: A half a stop weak, B a third strong; readings of A, of B and of both."""
    a, b = 100.0 * 2.0**-0.5, 60.0 * 2.0**0.33
    readings = [
        NotedReading((("A", 100.0),), a),
        NotedReading((("B", 60.0),), b),
        NotedReading((("A", 100.0), ("B", 60.0)), a + b),
        NotedReading((("A", 50.0), ("B", 60.0)), a / 2.0 + b),
    ]
    found = refit(readings, {"A": PRIOR, "B": PRIOR})
    assert found.factor("A").stops == pytest.approx(-0.5, abs=0.03)
    assert found.factor("B").stops == pytest.approx(0.33, abs=0.03)
    assert max(map(abs, found.residuals)) < 0.05


def test_the_last_refit_is_the_next_prior() -> None:
    """Two refits in turn say about the same as one with all readings."""
    stops = [0.4, 0.6, 0.5, 0.3]
    first = refit(_readings(stops[:2]), {"A": PRIOR}).factor("A")
    second = refit(_readings(stops[2:]), {"A": first}).factor("A")
    together = refit(_readings(stops), {"A": PRIOR}).factor("A")
    assert second.stops == pytest.approx(together.stops, abs=0.03)
    assert second.spread_stops == pytest.approx(together.spread_stops, rel=0.1)


def test_without_readings_nothing_is_learnt() -> None:
    assert refit([], {"A": PRIOR}).factor("A") == PRIOR


def test_a_reading_in_tenths_becomes_a_factor() -> None:
    """Predicted f/11, read 11.3: three tenths more."""
    predicted = measured_exposure(2.0**3.5, 100.0)
    measured = measured_exposure(read_meter("11.3").f_number, 100.0)
    found = refit([NotedReading((("A", predicted),), measured)] * 8, {"A": PRIOR}).factor("A")
    assert found.stops == pytest.approx(0.3, abs=0.01)


def test_readings_that_scatter_more_than_stated_are_less_sure() -> None:
    calm = refit(_readings([0.5, 0.5, 0.5, 0.5]), {"A": PRIOR}).factor("A")
    wild = refit(_readings([0.1, 0.9, 0.2, 0.8]), {"A": PRIOR}).factor("A")
    assert wild.spread_stops > 1.3 * calm.spread_stops


@given(st.lists(st.floats(-8, 8), min_size=1, max_size=7), st.floats(0.01, 3.0), st.floats(0.02, 1.0))
def test_any_readings_give_a_finite_factor(stops: list[float], prior: float, spread: float) -> None:
    found = refit(_readings(stops), {"A": MeterFactor(0.0, prior)}, spread).factor("A")
    assert math.isfinite(found.stops)
    assert min([0.0, *stops]) - 1e-6 <= found.stops <= max([0.0, *stops]) + 1e-6
    assert 0.0 < found.spread_stops <= 10.0


def test_readings_that_cannot_be_meant_are_named() -> None:
    with pytest.raises(UnknownLight, match="B"):
        refit([NotedReading((("B", 1.0),), 1.0)], {"A": PRIOR})
    for wrong in (
        lambda: NotedReading((), 1.0),
        lambda: NotedReading((("A", 0.0),), 1.0),
        lambda: NotedReading((("A", 1.0),), -1.0),
        lambda: refit([], {"A": PRIOR}, 0.0),
        lambda: refit([], {"A": MeterFactor(0.0, 0.0)}),
    ):
        with pytest.raises(OutOfRange):
            wrong()
    with pytest.raises(KeyError):
        refit([], {"A": PRIOR}).factor("Z")
