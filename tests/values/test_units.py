"""Stops, mired, feet and angles against pint and against definitions."""

import math

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.values import units

REGISTRY = pint.UnitRegistry()


@given(st.floats(-150, 150))
def test_stops_and_ratio_are_each_others_inverse(stops: float) -> None:
    assert units.stops_from_ratio(units.ratio_from_stops(stops)) == pytest.approx(stops, abs=1e-9)


@given(st.floats(10.0, 1e6))
def test_kelvin_and_mired_are_each_others_inverse(temperature_k: float) -> None:
    there_and_back = units.kelvin_from_mired(units.mired_from_kelvin(temperature_k))
    assert there_and_back == pytest.approx(temperature_k, rel=1e-12)


@pytest.mark.parametrize(
    ("temperature_k", "mired", "tolerance"),
    [
        pytest.param(3200, 312.5, 0.01, id="4.1 definition"),
        pytest.param(5500, 181.82, 0.01, id="4.1 definition"),
        pytest.param(5600, 178.57, 0.01, id="4.1 definition"),
        pytest.param(6500, 153.85, 0.01, id="4.1 definition"),
        pytest.param(2000, 500, 0.5, id="4.2 Wheeler, Practical Cinematography, Fig. 14.1"),
        pytest.param(2900, 345, 0.5, id="4.2 Wheeler, Practical Cinematography, Fig. 14.1"),
        pytest.param(4000, 250, 0.5, id="4.2 Wheeler, Practical Cinematography, Fig. 14.1"),
        pytest.param(5000, 200, 0.5, id="4.2 Wheeler, Practical Cinematography, Fig. 14.1"),
        pytest.param(6000, 167, 0.5, id="4.2 Wheeler, Practical Cinematography, Fig. 14.1"),
    ],
)
def test_mired_agrees_with_the_printed_table(temperature_k: float, mired: float, tolerance: float) -> None:
    assert units.mired_from_kelvin(float(temperature_k)) == pytest.approx(mired, abs=tolerance)


@given(st.floats(0.0, 1e6))
def test_feet_agree_with_pint(metres: float) -> None:
    expected = (metres * REGISTRY.metre).to("foot").magnitude
    assert units.feet_from_metres(metres) == pytest.approx(expected, rel=1e-12)
    assert units.metres_from_feet(units.feet_from_metres(metres)) == pytest.approx(metres, rel=1e-12)


@given(st.floats(-1e5, 1e5))
def test_a_wrapped_angle_points_the_same_way(angle: float) -> None:
    bearing, turn = units.wrap_bearing(angle), units.wrap_turn(angle)
    assert 0.0 <= bearing < 360.0
    assert -180.0 < turn <= 180.0
    for wrapped in (bearing, turn):
        assert math.cos(math.radians(wrapped)) == pytest.approx(math.cos(math.radians(angle)), abs=1e-9)
        assert math.sin(math.radians(wrapped)) == pytest.approx(math.sin(math.radians(angle)), abs=1e-9)


def test_a_tiny_negative_angle_is_north_and_not_360() -> None:
    assert units.wrap_bearing(-1e-18) == 0.0


def test_scalars_stay_scalars_and_arrays_stay_arrays() -> None:
    assert type(units.stops_from_ratio(4.0)) is float
    assert np.allclose(units.stops_from_ratio(np.array([1.0, 2.0, 4.0])), [0.0, 1.0, 2.0])


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: units.stops_from_ratio(0.0),
        lambda: units.stops_from_ratio(float("nan")),
        lambda: units.stops_from_ratio(np.array([1.0, -2.0])),
        lambda: units.ratio_from_stops(float("inf")),
        lambda: units.mired_from_kelvin(0.0),
        lambda: units.kelvin_from_mired(-5.0),
        lambda: units.metres_from_feet(-1.0),
        lambda: units.wrap_turn(float("nan")),
    ],
)
def test_a_number_that_cannot_be_meant_is_named(wrong: object) -> None:
    with pytest.raises(units.OutOfRange) as caught:
        wrong()  # type: ignore[operator]
    assert caught.value.name
    assert caught.value.unit


def test_the_error_of_an_array_shows_its_first_wrong_element() -> None:
    with pytest.raises(units.OutOfRange) as caught:
        units.KELVIN.check("temperature_k", np.array([5000.0, -3.0, -4.0]))
    assert (caught.value.name, caught.value.value) == ("temperature_k", -3.0)
