"""A day's batteries. Sources stand beside the checks."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.battery import battery_plan
from shoots.lighting.core.charge import Use, charge_between, charge_step, day_charge
from shoots.values.units import OutOfRange

AT_400 = 400.0


def test_the_known_day_takes_so_many_full_flashes_of_one_battery() -> None:
    """Light table 7.6: 300 at 1/2, 200 at 1/8 and 40 full are 215 full flashes."""
    uses = [Use(300, 0.5, AT_400), Use(200, 0.125, AT_400), Use(40, 1.0, AT_400)]
    found = day_charge(uses, 1)
    assert found.taken == pytest.approx(215 / 400)
    assert found.left == pytest.approx(0.8 - 215 / 400)


@given(
    st.lists(st.tuples(st.integers(0, 500), st.floats(0.01, 1.0)), min_size=1, max_size=6),
    st.integers(0, 9),
    st.floats(-20.0, 30.0),
)
def test_it_says_the_same_as_the_plan_of_one_light(frames, packed, air) -> None:
    """Two ways to one number: charge counted in batteries, and full flashes against those packed."""
    plan = battery_plan([(float(count), power) for count, power in frames], AT_400, packed, air)
    uses = [Use(count, power, AT_400, air_c=air, setup=str(n)) for n, (count, power) in enumerate(frames)]
    found = day_charge(uses, packed)
    assert found.lasts == plan.fits
    # A light needs at least one battery where it fires at all.
    assert found.needed == max(plan.batteries_needed, min(1, sum(count for count, _power in frames)))


def test_lights_that_give_different_numbers_share_one_kind() -> None:
    """Derived: half a battery for 100 of 200 full flashes, a quarter for 100 of 400."""
    found = day_charge([Use(100, 1.0, 200.0, setup="a"), Use(100, 1.0, 400.0, setup="b")], 1)
    assert found.taken == pytest.approx(0.75)
    assert [round(one.left, 3) for one in found.setups] == [0.3, 0.05]


def test_cold_is_paid_where_it_is_cold() -> None:
    """0 °C leaves four fifths: common practice, no source. 80 full flashes of 400 are then a quarter, not a fifth."""
    found = day_charge([Use(80, 1.0, AT_400, air_c=0.0, setup="hill"), Use(80, 1.0, AT_400, setup="hall")], 1)
    assert [one.batteries for one in found.setups] == [pytest.approx(0.25), pytest.approx(0.2)]


def test_it_says_where_it_runs_out_and_what_would_help() -> None:
    """Derived: of 0.8 usable the first takes 0.5; 0.3 are 60 % of the second's 0.5. 1.0 / 0.8 is a third of a stop."""
    found = day_charge([Use(200, 1.0, AT_400, setup="first"), Use(200, 1.0, AT_400, setup="second")], 1)
    assert not found.lasts
    assert found.setups[0].runs_out_at is None
    assert found.setups[1].runs_out_at == pytest.approx(0.6)
    assert (found.needed, found.more) == (2, 1)
    assert found.power_down_stops == pytest.approx(1 / 3)
    down = 2.0**-found.power_down_stops
    assert day_charge([Use(400, down, AT_400)], 1).lasts
    assert day_charge([Use(400, 1.0, AT_400)], 2).lasts


def test_heads_of_one_setup_each_need_a_battery_whatever_they_take() -> None:
    found = day_charge([Use(1, 1.0, AT_400, heads=2, setup="a"), Use(1, 1.0, AT_400, setup="a")], 2)
    assert found.lasts
    assert not found.fits
    assert (found.at_once, found.more) == (3, 1)
    apart = day_charge([Use(1, 1.0, AT_400, heads=2, setup="a"), Use(1, 1.0, AT_400, setup="b")], 2)
    assert apart.fits


def test_nothing_packed_and_nothing_planned() -> None:
    none = day_charge([Use(10, 1.0, AT_400)], 0)
    assert (none.lasts, none.more, none.power_down_stops, none.setups[0].runs_out_at) == (False, 1, None, 0.0)
    assert day_charge([], 0).fits
    assert day_charge([Use(0, 1.0, AT_400)], 0).fits


def test_the_range_is_every_doubt_at_its_worst_together() -> None:
    """Interval arithmetic by hand, -10 °C: 0.65 there, 0.605 at -13 °C, 0.686 at -7 °C; the loss a half off."""
    found = charge_between(100.0, -10.0)
    assert found.low == pytest.approx(100.0 * 0.8 * 0.9 * (1.0 - 1.5 * (1.0 - (0.65 - 0.3 * 0.15))))
    assert found.high == pytest.approx(100.0 * 1.1 * (1.0 - 0.5 * (1.0 - (0.65 + 0.3 * 0.15))))
    step = charge_step(100.0, -10.0)
    assert step.between == found
    assert all(one.source and one.low <= one.value <= one.high for one in step.doubts)


def test_a_day_that_only_new_batteries_last_is_told_from_one_that_surely_fits() -> None:
    assert day_charge([Use(200, 1.0, AT_400)], 1).surely_lasts
    tight = day_charge([Use(310, 1.0, AT_400)], 1)
    assert tight.lasts
    assert not tight.surely_lasts


@given(st.floats(1.0, 1000.0), st.floats(-60.0, 60.0))
def test_a_charge_lies_within_its_range(full, air) -> None:
    found = charge_between(full, air)
    assert 0.0 < found.low < charge_step(full, air).result < found.high or math.isclose(found.low, found.high)


def test_numbers_that_cannot_be_meant_are_named() -> None:
    for call in (
        lambda: Use(-1, 1.0, AT_400),
        lambda: Use(1, 0.0, AT_400),
        lambda: Use(1, 1.0, 0.0),
        lambda: Use(1, 1.0, AT_400, heads=0),
        lambda: Use(1, 1.0, AT_400, air_c=100.0),
        lambda: day_charge([], -1),
        lambda: day_charge([], 1, reserve=1.0),
        lambda: charge_between(0.0),
    ):
        with pytest.raises(OutOfRange):
            call()
