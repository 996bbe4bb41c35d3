"""Neutral filters as they are sold: by density, by factor, by stops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.filters import light_after_filter, nd_stops_from_density, nd_stops_from_factor
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("density", "factor", "stops"),
    [(0.3, 2, 1), (0.6, 4, 2), (0.9, 8, 3), (1.2, 16, 4), (1.8, 64, 6), (3.0, 1000, 10)],
    ids=lambda value: f"trade names of one filter, common practice, {value}",
)
def test_the_three_names_of_a_filter_agree(density: float, factor: float, stops: float) -> None:
    assert nd_stops_from_factor(float(factor)) == pytest.approx(stops, abs=0.04)
    assert nd_stops_from_density(density) == pytest.approx(stops, abs=0.04)


@given(st.floats(1e-3, 1e6), st.floats(0.0, 20.0), st.floats(0.0, 20.0))
def test_filters_in_a_row_add_in_stops(light: float, one: float, two: float) -> None:
    both = light_after_filter(light_after_filter(light, one), two)
    assert both == pytest.approx(light_after_filter(light, one + two))
    assert both <= light * (1 + 1e-12)


def test_a_filter_that_adds_light_is_refused() -> None:
    for wrong in (
        lambda: nd_stops_from_factor(0.5),
        lambda: nd_stops_from_density(-0.1),
        lambda: light_after_filter(100.0, -1.0),
        lambda: light_after_filter(0.0, 1.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
