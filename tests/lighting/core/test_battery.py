"""Pops, waits and what fits, against the worked cases."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import battery
from shoots.lighting.core.flash import pops_stops
from shoots.values.units import OutOfRange


def test_pops_at_less_power() -> None:
    """7.1: practice."""
    assert battery.pops_per_charge(450.0, 1 / 4) == pytest.approx(1800)
    assert battery.pops_per_charge(450.0, 1 / 32) == pytest.approx(14400)


def test_energy_behind_the_pops() -> None:
    """7.2: derived."""
    assert battery.battery_energy(500.0, 450.0, 0.85) == pytest.approx(73.5, abs=0.1)


def test_waits_between_pops() -> None:
    """7.3: practice."""
    assert battery.recycle_time(1.2, 0.05, 1 / 2) == pytest.approx(0.650)
    assert battery.recycle_time(1.2, 0.05, 1 / 16) == pytest.approx(0.125)


def test_eight_pops_in_one_exposure() -> None:
    """7.5: derived."""
    assert battery.multi_pop_time(8, battery.recycle_time(1.2, 0.05, 0.5)) == pytest.approx(4.55)
    assert pops_stops(8) == pytest.approx(3.0)


def test_a_days_frames_in_full_pops() -> None:
    """7.6: derived."""
    assert battery.full_pops_used([(300, 1 / 2), (200, 1 / 8), (40, 1.0)]) == pytest.approx(215)


def test_pops_when_standing_by_counts() -> None:
    """7.7: derived."""
    assert battery.pops_with_standby(60.0, 200.0, 1 / 4, 0.8, 4.0, 7200.0) == 2995
    assert battery.pops_with_standby(1.0, 200.0, 1 / 4, 0.8, 4.0, 7200.0) == 0


def test_frames_in_a_slot() -> None:
    """Topic 7: floor(T/max(t_recycle, t_shot)) + 1."""
    assert battery.frames_in(10.0, 1.25, 0.2) == 9
    assert battery.frames_in(0.0, 1.25, 0.2) == 1
    assert battery.frames_in(0.9, 0.1, 0.3) == 4


def test_cold_takes_a_fifth_at_freezing_point() -> None:
    """Common practice, no source."""
    assert battery.cold_share(0.0) == pytest.approx(0.8)
    assert battery.cold_share(30.0) == 1.0
    assert battery.cold_share(-40.0) == 0.5
    assert battery.cold_share(5.0) == pytest.approx(0.86)


def test_a_plan_that_fits_in_summer_may_not_in_winter() -> None:
    frames = [(500, 1 / 2), (100, 1 / 4)]
    summer = battery.battery_plan(frames, 350.0, 1, air_c=20.0, reserve=0.2)
    winter = battery.battery_plan(frames, 350.0, 1, air_c=-10.0, reserve=0.2)
    assert summer.needed_full_pops == pytest.approx(275)
    assert summer.fits
    assert not winter.fits
    assert (summer.batteries_needed, winter.batteries_needed) == (1, 2)


def test_slow_shooting_never_overheats() -> None:
    limit = battery.HeatLimit(60.0, 20.0)
    assert battery.pops_until_heat(limit, 1.0, 3.0) == math.inf
    assert battery.pops_until_heat(limit, 0.5, 0.0) == pytest.approx(120.0)


@given(
    st.lists(st.tuples(st.floats(0, 5000), st.floats(1 / 256, 1)), max_size=5), st.floats(1, 1000), st.integers(0, 20)
)
def test_a_plan_fits_exactly_when_enough_batteries_are_packed(
    frames: list[tuple[float, float]], full: float, packed: int
) -> None:
    plan = battery.battery_plan(frames, full, packed)
    assert plan.fits == (packed >= plan.batteries_needed)


def test_batteries_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: battery.pops_per_charge(-1.0, 0.5),
        lambda: battery.pops_per_charge(100.0, 0.0),
        lambda: battery.full_pops_used([(10, 2.0)]),
        lambda: battery.battery_energy(500.0, 450.0, 0.0),
        lambda: battery.pops_with_standby(60.0, 200.0, 0.25, 1.5, 4.0, 10.0),
        lambda: battery.recycle_time(-1.0, 0.0, 1.0),
        lambda: battery.multi_pop_time(0, 1.0),
        lambda: battery.frames_in(10.0, 0.0, 0.0),
        lambda: battery.cold_share(100.0),
        lambda: battery.HeatLimit(-1.0, 0.0),
        lambda: battery.battery_plan([], 0.0, 1),
        lambda: battery.battery_plan([], 100.0, 1, reserve=1.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
