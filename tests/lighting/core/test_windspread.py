"""How sure the wind on a stand is. Sources stand beside the checks."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.kit.core.lamps import StandSpec
from shoots.lighting.core.safety import check_wind
from shoots.lighting.core.stands import Advice, tipping_wind
from shoots.lighting.core.windspread import gust_step, tipping_between, tipping_step
from shoots.values.units import OutOfRange
from tests.lighting.core.setups import KEY

STOOD = replace(KEY, height_m=2.0, stand=StandSpec(0.5, mass_kg=3.0), extra_mass_kg=8.0)


def test_the_range_reaches_at_least_as_far_as_its_widest_doubt_and_not_as_far_as_all_together() -> None:
    """Light table 6: C_d 1.17 (plate) to 1.80 (signboard), v ∝ C_d^-½; together is every doubt at its worst at once."""
    mass, area, height, edge = 15.0, 0.7477, 2.0, 0.25
    found = tipping_between(mass, 1.42, area, height, edge)
    assert found.low < tipping_wind(mass, 1.80, area, height, edge)
    assert found.high > tipping_wind(mass, 1.17, area, height, edge)
    worst = tipping_wind(mass * 0.95, 1.80, area * 1.05, height + 0.05, edge * 0.95, 1.0, 1.34)
    best = tipping_wind(mass * 1.05, 1.17, area * 0.95, height - 0.05, edge * 1.05, 1.0, 1.14)
    assert worst < found.low < tipping_wind(mass, 1.42, area, height, edge) < found.high < best


def test_every_doubt_of_the_wind_says_what_it_rests_on() -> None:
    for step in (tipping_step(15.0, 1.42, 0.7477, 2.0, 0.25), gust_step(11.0, 10.0, 2.0)):
        assert step.between.low < step.result < step.between.high
        assert step.doubts
        for one in step.doubts:
            assert one.source
            assert one.low <= one.value <= one.high


def test_the_gust_at_the_box_is_the_known_one_with_a_range_that_smooth_and_rough_ground_lie_within() -> None:
    """Light table 6.9: 6.09 m/s at 2.5 m if it is 8 m/s at 10 m."""
    step = gust_step(8.0, 10.0, 2.5)
    assert step.result == pytest.approx(6.09, rel=0.005)
    assert step.between.low < 8.0 * 0.738 < 8.0 * 0.800 < step.between.high


def test_no_wind_is_no_wind_and_a_light_near_the_ground_counts_at_a_metre() -> None:
    assert gust_step(0.0, 10.0, 2.5).between == gust_step(0.0, 10.0, 2.5).between
    assert gust_step(0.0, 10.0, 2.5).between.high == 0.0
    assert gust_step(8.0, 10.0, 0.3).result == gust_step(8.0, 10.0, 1.0).result
    with pytest.raises(OutOfRange):
        tipping_between(0.0, 1.42, 0.7, 2.0, 0.25)


def test_where_the_margin_does_not_cover_the_doubt_the_low_end_counts() -> None:
    """A margin of 1.5 on the moment is 1.22 in the wind: a small own margin leaves less than the drag is unsure by."""
    sure = check_wind(STOOD, 5.0)
    assert sure.margin_covers
    assert sure.down_at_m_s == sure.limit.take_down_at_m_s
    bold = check_wind(STOOD, 5.0, margin=1.05)
    assert not bold.margin_covers
    assert bold.down_at_m_s == bold.tips_between.low < bold.limit.take_down_at_m_s


def test_the_strong_end_of_the_forecast_is_thought_of() -> None:
    found = check_wind(STOOD, 5.0)
    assert found.advice == Advice.HOLD
    assert found.gust_between.high > found.down_at_m_s
    assert found.worst_advice == Advice.TAKE_DOWN


@given(st.floats(1.0, 200.0), st.floats(0.2, 2.5), st.floats(0.01, 10.0), st.floats(0.05, 10.0), st.floats(0.05, 2.0))
def test_a_range_of_the_wind_holds_its_value(mass, drag, area, height, edge) -> None:
    found = tipping_between(mass, drag, area, height, edge)
    assert 0.0 < found.low < tipping_wind(mass, drag, area, height, edge) < found.high
