"""Lights add as light and not in stops; the two lighting ratios are kept apart."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.conventions import Ratio
from shoots.lighting.core.mixing import key_over_fill, lighting_ratio, mixed_exposure, together_f_number
from shoots.lighting.core.scales import exact_f_number
from shoots.values.units import OutOfRange


def test_key_fill_and_hair_light_read_together() -> None:
    """2.7: marks taken as the exact series."""
    together = together_f_number([exact_f_number(n) for n in (8.0, 4.0, 5.6)])
    assert together == pytest.approx(10.583, abs=0.002)
    assert 2.0 * math.log2(together / 8.0) == pytest.approx(0.807, abs=0.002)


def test_equal_lights_at_8_and_11_feet_are_three_to_one() -> None:
    """2.8: US Army SS0510, p. 1-18; 11 stands for 11.314."""
    over = 2.0 * math.log2(exact_f_number(11.0) / exact_f_number(8.0))
    assert lighting_ratio(over) == pytest.approx(3.0)
    assert lighting_ratio(over, Ratio.KEY_TO_FILL) == pytest.approx(2.0)


@pytest.mark.parametrize(("over", "both", "plain"), [(1.0, 3.0, 2.0), (2.0, 5.0, 4.0), (0.0, 2.0, 1.0)])
def test_ratios_for_whole_stops(over: float, both: float, plain: float) -> None:
    """2.9: US Army SS0510 gives 3:1 and 5:1."""
    assert lighting_ratio(over) == pytest.approx(both)
    assert lighting_ratio(over, Ratio.KEY_TO_FILL) == pytest.approx(plain)


@given(st.floats(-20.0, 20.0), st.sampled_from(Ratio))
def test_ratio_and_stops_are_each_others_inverse(over: float, ratio: Ratio) -> None:
    assert key_over_fill(lighting_ratio(over, ratio), ratio) == pytest.approx(over, abs=1e-6)


@given(st.lists(st.floats(0.5, 128.0), min_size=1, max_size=5))
def test_the_order_of_the_lights_does_not_matter(f_numbers: list[float]) -> None:
    results = {together_f_number(order) for order in itertools.islice(itertools.permutations(f_numbers), 24)}
    assert len(results) == 1
    assert results.pop() >= max(f_numbers) * (1 - 1e-12)


@given(st.floats(0.0, 1e5), st.floats(1e-5, 30.0), st.floats(0.0, 1e4))
def test_the_shutter_moves_ambient_and_never_flash(ambient: float, shutter: float, flash: float) -> None:
    one, two = mixed_exposure(ambient, shutter, flash), mixed_exposure(ambient, 2.0 * shutter, flash)
    assert two - one == pytest.approx(ambient * shutter, rel=1e-6, abs=1e-6)
    assert one >= flash


def test_impossible_mixtures_are_named() -> None:
    for wrong in (
        lambda: together_f_number([]),
        lambda: together_f_number([8.0, 0.0]),
        lambda: mixed_exposure(-1.0, 0.01, 10.0),
        lambda: lighting_ratio(float("inf")),
        lambda: key_over_fill(1.0),
        lambda: key_over_fill(0.0, Ratio.KEY_TO_FILL),
    ):
        with pytest.raises(OutOfRange):
            wrong()
