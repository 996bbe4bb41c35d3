"""Guide numbers and energy against manuals, handbooks and pint."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import flash
from shoots.values.units import OutOfRange, feet_from_metres, metres_from_feet

UNITS = pint.UnitRegistry()
GUIDES, DISTANCES = st.floats(1.0, 200.0), st.floats(0.3, 50.0)
SPEEDS, POWERS = st.floats(25.0, 25600.0), st.floats(1 / 512, 1.0)


def test_guide_number_32_gives_f_8_at_4_m() -> None:
    """2.1: flash manual example."""
    assert flash.flash_f_number(32.0, 4.0, 100.0, 1.0) == pytest.approx(8.0)


def test_a_guide_number_in_feet_at_iso_25() -> None:
    """2.2: flash manual prints 52 for GN 32 (m, ISO 100)."""
    assert feet_from_metres(flash.scaled_guide_number(32.0, 25.0, 1.0)) == pytest.approx(52.5, abs=0.05)


def test_guide_number_from_the_best_frame_of_a_test() -> None:
    """US Navy 14209 ch. 5: best frame f/8 at 10 ft is guide number 80 in feet."""
    assert feet_from_metres(flash.guide_number(8.0, metres_from_feet(10.0))) == pytest.approx(80.0)


def test_iso_and_power_scale_the_guide_number() -> None:
    """2.3: derived."""
    assert flash.flash_f_number(60.0, 3.0, 400.0, 1 / 8) == pytest.approx(14.142, abs=0.005)


def test_the_distance_for_f_8() -> None:
    """2.4: derived; a student text quotes 45/8."""
    assert flash.flash_distance(45.0, 8.0, 100.0, 1.0) == pytest.approx(5.625)


@pytest.mark.parametrize(("share", "factor"), [(4, 2.0), (8, 2.83), (32, 5.66), (128, 11.31)])
def test_less_light_as_a_factor_of_distance(share: int, factor: float) -> None:
    """2.5: flash-meter manual's table prints 2, 2.8, 5.7, 11.3."""
    assert flash.distance_factor(math.log2(share)) == pytest.approx(factor, abs=0.01)
    assert flash.distance_stops(1.0, factor) == pytest.approx(-math.log2(share), abs=0.01)


def test_a_step_back_from_2_to_2_8_m() -> None:
    """2.6: inverse square."""
    assert flash.distance_stops(2.0, 2.8) == pytest.approx(-0.971, abs=0.001)


def test_two_people_and_a_group_in_depth() -> None:
    """8.5 and 8.6: inverse square."""
    assert flash.distance_stops(1.5, 3.0) == pytest.approx(-2.0)
    assert flash.distance_stops(3.0, 4.2) == pytest.approx(-0.971, abs=0.001)


def test_four_pops_are_two_stops_and_double_the_guide_number() -> None:
    """2.10: derived."""
    assert flash.pops_stops(4) == pytest.approx(2.0)
    assert flash.scaled_guide_number(30.0, 100.0, 1.0, pops=4) == pytest.approx(60.0)


def test_a_thousand_candela_seconds_in_metres_and_in_the_older_formulas_in_feet() -> None:
    """2.12: derived; 0.063 and 0.05 from the ANSI PH3.40 family (from memory) imply C = 170.9 and 215.3."""
    assert flash.guide_number_from_intensity(1000.0) == pytest.approx(20.0)
    square_feet = 1.0 / 0.3048**2
    for constant, feet in ((0.063, 79.37), (0.05, 70.71)):
        implied = square_feet / constant
        found = feet_from_metres(flash.guide_number_from_intensity(1000.0, meter_constant=implied))
        assert found == pytest.approx(feet, abs=0.01)
        assert flash.guide_number_older(1000.0, formula_factor=constant) == pytest.approx(feet, abs=0.01)
        assert implied == pytest.approx({0.063: 170.9, 0.05: 215.3}[constant], abs=0.1)


def test_guide_number_of_an_intensity_in_units() -> None:
    """Cross-check with pint: sqrt(I·S/C) with cd/lx = m²/sr."""
    square = 1000 * UNITS.candela * UNITS.second * 100 / (250 * UNITS.lux * UNITS.second) / UNITS.steradian
    metres = (square.to("m**2").magnitude) ** 0.5
    assert flash.guide_number_from_intensity(1000.0) == pytest.approx(metres)


def test_guide_number_for_one_stop_under_full_daylight() -> None:
    """2.22: EV100 15, ambient one stop darker at 1/200 s: f/18.102, GN 36.20 at 2 m."""
    assert flash.guide_number(18.102, 2.0) == pytest.approx(36.20, abs=0.01)


def test_four_hundred_watt_seconds_from_a_bare_tube() -> None:
    """2.23: 40 lm·s/J is inside the trade range."""
    intensity = flash.intensity_from_energy(400.0, 40.0)
    assert intensity == pytest.approx(1273.2, rel=0.001)
    assert flash.guide_number_from_intensity(intensity) == pytest.approx(22.57, rel=0.001)


def test_the_energy_in_a_capacitor() -> None:
    """7.4: physics."""
    assert flash.stored_energy(1000e-6, 360.0) == pytest.approx(64.80)


@given(GUIDES, DISTANCES, SPEEDS, POWERS)
def test_the_power_for_an_f_number_gives_that_f_number(guide: float, distance: float, iso: float, power: float) -> None:
    f_number = flash.flash_f_number(guide, distance, iso, power)
    if f_number >= 0.1:
        assert flash.power_for_f_number(guide, distance, f_number, iso) == pytest.approx(power)
        assert flash.flash_distance(guide, f_number, iso, power) == pytest.approx(distance)


@given(GUIDES, DISTANCES, SPEEDS, POWERS)
def test_double_the_distance_is_two_stops_less_for_a_point(
    guide: float, distance: float, iso: float, power: float
) -> None:
    near = flash.flash_f_number(guide, distance, iso, power)
    far = flash.flash_f_number(guide, 2.0 * distance, iso, power)
    assert 2.0 * math.log2(near / far) == pytest.approx(2.0)


@given(GUIDES, SPEEDS, POWERS, st.floats(1.01, 4.0))
def test_more_power_or_iso_never_asks_for_a_wider_aperture(guide: float, iso: float, power: float, more: float) -> None:
    before = flash.flash_f_number(guide, 2.0, iso, power)
    assert flash.flash_f_number(guide, 2.0, iso * more, power) > before
    if power * more <= 1.0:
        assert flash.flash_f_number(guide, 2.0, iso, power * more) > before


@given(GUIDES, st.floats(100.0, 500.0))
def test_guide_number_and_intensity_are_each_others_inverse(guide: float, constant: float) -> None:
    intensity = flash.intensity_from_guide_number(guide, constant)
    assert flash.guide_number_from_intensity(intensity, meter_constant=constant) == pytest.approx(guide)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: flash.guide_number(0.0, 2.0),
        lambda: flash.guide_number(8.0, 0.0),
        lambda: flash.scaled_guide_number(45.0, 100.0, 0.0),
        lambda: flash.scaled_guide_number(45.0, 100.0, 1.5),
        lambda: flash.scaled_guide_number(45.0, 100.0, 1.0, pops=0),
        lambda: flash.flash_distance(45.0, float("nan"), 100.0, 1.0),
        lambda: flash.power_for_f_number(45.0, 2.0, 8.0, 0.0),
        lambda: flash.distance_stops(0.0, 2.0),
        lambda: flash.distance_factor(1e3),
        lambda: flash.intensity_from_energy(0.0, 40.0),
        lambda: flash.intensity_from_energy(400.0, 900.0),
        lambda: flash.stored_energy(1e-3, -1.0),
        lambda: flash.pops_stops(0),
        lambda: flash.intensity_from_guide_number(-1.0),
        lambda: flash.guide_number_from_intensity(0.0),
    ],
)
def test_a_flash_that_cannot_be_meant_is_named(wrong: object) -> None:
    with pytest.raises(OutOfRange):
        wrong()  # type: ignore[operator]
