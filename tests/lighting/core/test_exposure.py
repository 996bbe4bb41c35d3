"""APEX against the printed definitions, and what settings must obey."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import exposure
from shoots.lighting.core.scales import exact_f_number, exact_shutter
from shoots.values.units import OutOfRange

F_NUMBERS = st.floats(0.5, 128.0)
TIMES = st.floats(1e-5, 3600.0)
SPEEDS = st.floats(3.0, 1e6)
LEVELS = st.floats(-10.0, 22.0)


def test_exposure_value_of_marked_and_exact_settings() -> None:
    """1.1 and 1.2: definition of Ev; ISO 516 series."""
    assert exposure.exposure_value(8.0, 1 / 125) == pytest.approx(12.9658, abs=0.001)
    assert exposure.exposure_value(8.0, exact_shutter(1 / 125)) == pytest.approx(13.0, abs=1e-9)


def test_the_handbooks_chain_of_equal_exposures() -> None:
    """1.6: camera handbook table; US Navy 14209 Table 4-3 prints a like chain one stop higher."""
    chain = [(2.8, 2000), (4, 1000), (5.6, 500), (8, 250), (11, 125), (16, 60), (22, 30)]
    marked = [exposure.exposure_value(float(n), 1.0 / t) for n, t in chain]
    exact = [exposure.exposure_value(exact_f_number(n), exact_shutter(1.0 / t)) for n, t in chain]
    assert max(marked) - min(marked) <= 0.140 + 0.0005
    assert exact == pytest.approx([14.0] * 7, abs=1e-9)


def test_light_level_of_settings_at_another_iso() -> None:
    """1.7: derived."""
    assert exposure.ev100(2.8, 1 / 500, 800.0) == pytest.approx(8.937, abs=0.001)


def test_sunny_sixteen_is_ev_14_64() -> None:
    """Practice: full sun, f/16 at 1/S; N²·S = 256·S."""
    assert exposure.ev100(16.0, 1 / 100, 100.0) == pytest.approx(math.log2(25600.0))
    assert exposure.ev100(16.0, 1 / 400, 400.0) == pytest.approx(math.log2(25600.0))


def test_the_marked_thirty_seconds_is_a_tenth_of_a_stop_short() -> None:
    """1.14: ISO 516 series."""
    error = exposure.time_value(30.0) - exposure.time_value(exact_shutter(30.0))
    assert error == pytest.approx(0.093, abs=0.001)


def test_iso_100_is_speed_value_five_and_apex_adds_up() -> None:
    """Exif 2.3, from memory."""
    assert exposure.speed_value(100.0) == pytest.approx(5.0)
    assert exposure.aperture_value(5.6568542) + exposure.time_value(1 / 60) == pytest.approx(
        exposure.exposure_value(5.6568542, 1 / 60)
    )


def test_full_daylight_ambient_one_stop_down_needs_f_18() -> None:
    """2.22: EV100 15, one stop darker, 1/200 s exactly, ISO 100."""
    assert exposure.f_number_for_ev(16.0, 1 / 200, 100.0) == pytest.approx(18.102, abs=0.01)


@given(LEVELS, TIMES, SPEEDS)
def test_the_f_number_for_a_level_exposes_that_level(level: float, shutter: float, iso: float) -> None:
    f_number = exposure.f_number_for_ev(level, shutter, iso)
    if 0.1 <= f_number <= 1e4:
        assert exposure.ev100(f_number, shutter, iso) == pytest.approx(level, abs=1e-9)


@given(LEVELS, F_NUMBERS, SPEEDS)
def test_the_time_for_a_level_exposes_that_level(level: float, f_number: float, iso: float) -> None:
    shutter = exposure.shutter_for_ev(level, f_number, iso)
    if 1e-7 <= shutter <= 1e7:
        assert exposure.ev100(f_number, shutter, iso) == pytest.approx(level, abs=1e-9)


@given(LEVELS, F_NUMBERS, TIMES)
def test_the_iso_for_a_level_exposes_that_level(level: float, f_number: float, shutter: float) -> None:
    iso = exposure.iso_for_ev(level, f_number, shutter)
    if 0.01 <= iso <= 1e8:
        assert exposure.ev100(f_number, shutter, iso) == pytest.approx(level, abs=1e-9)


@given(F_NUMBERS, TIMES, st.floats(0.1, 6.0))
def test_reciprocity(f_number: float, shutter: float, stops: float) -> None:
    wider = f_number * 2.0 ** (-stops / 2.0)
    if wider >= 0.1:
        shorter = shutter * 2.0**-stops
        same = exposure.exposure_value(wider, shorter)
        assert same == pytest.approx(exposure.exposure_value(f_number, shutter), abs=1e-9)


def test_arrays_give_what_the_scalars_give() -> None:
    apertures, times = np.array([1.4, 4.0, 22.0]), np.array([1 / 8000, 1 / 60, 30.0])
    together = exposure.ev100(apertures, times, np.array([100.0, 400.0, 64.0]))
    one_by_one = [exposure.ev100(n, t, s) for n, t, s in zip(apertures, times, (100.0, 400.0, 64.0), strict=True)]
    assert together == pytest.approx(one_by_one)


@pytest.mark.parametrize("wrong", [0.0, -8.0, float("nan"), float("inf"), 1e9])
def test_settings_that_cannot_be_meant_are_named(wrong: float) -> None:
    calls = [
        lambda: exposure.aperture_value(wrong),
        lambda: exposure.time_value(wrong),
        lambda: exposure.speed_value(wrong),
        lambda: exposure.ev100(8.0, 0.01, wrong),
        lambda: exposure.f_number_for_ev(8.0, wrong, 100.0),
        lambda: exposure.shutter_for_ev(8.0, wrong, 100.0),
        lambda: exposure.iso_for_ev(8.0, 8.0, wrong),
    ]
    for call in calls:
        with pytest.raises(OutOfRange):
            call()


def test_a_step_up_of_iso_shutter_and_aperture_each_changes_the_level_by_itself() -> None:
    for step, (n, t, s) in itertools.product((1.0,), ((2.0, 1.0, 1.0), (1.0, 4.0, 1.0), (1.0, 1.0, 4.0))):
        change = exposure.ev100(8.0 * n, 0.01 * t, 100.0 * s) - exposure.ev100(8.0, 0.01, 100.0)
        assert abs(change) == pytest.approx(2.0 * step)
