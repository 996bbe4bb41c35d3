"""Placed lights in a forecast wind."""

from dataclasses import replace

import pytest

from shoots.kit.core.lamps import StandSpec
from shoots.lighting.core.safety import check_setup, check_wind, total_mass
from shoots.lighting.core.stands import Advice
from shoots.values.units import OutOfRange
from tests.lighting.core.setups import KEY, OUTSIDE

# 95 cm octagon (0.75 m²) with its centre at 2 m, foot radius 0.5 m, 15 kg in all.
STOOD = replace(KEY, height_m=2.0, stand=StandSpec(0.5, mass_kg=3.0), extra_mass_kg=8.0)


def test_the_octagon_on_its_stand_has_the_known_limit() -> None:
    """Common practice, no source: tips at 5.3 m/s, with a margin of 1.5 at 4.3 m/s."""
    assert total_mass(STOOD) == pytest.approx(15.0)
    found = check_wind(STOOD, 5.0)
    assert found.limit.tips_at_m_s == pytest.approx(5.3, abs=0.05)
    assert found.limit.take_down_at_m_s == pytest.approx(4.3, abs=0.05)


def test_the_wind_at_the_box_is_less_than_the_forecast_for_ten_metres() -> None:
    """EN 1991-1-4: at 2 m 0.72 of it over open grass."""
    assert check_wind(STOOD, 5.0).gust_m_s == pytest.approx(5.0 * 0.723, abs=0.02)


def test_in_a_rising_wind_it_stands_then_is_held_then_comes_down() -> None:
    told = [check_wind(STOOD, gust).advice for gust in (1.0, 5.0, 9.0)]
    assert told == [Advice.STANDS, Advice.HOLD, Advice.TAKE_DOWN]


def test_the_sandbags_that_are_named_are_enough() -> None:
    found = check_wind(STOOD, 8.0)
    assert found.more_mass_kg > 0.0
    bagged = replace(STOOD, extra_mass_kg=STOOD.extra_mass_kg + found.more_mass_kg)
    assert check_wind(bagged, 8.0).limit.take_down_at_m_s == pytest.approx(found.gust_m_s)
    assert check_wind(bagged, 7.9).more_mass_kg == 0.0


def test_a_studios_own_limit_never_overrides_a_lower_computed_one() -> None:
    """Common practice, no source."""
    bold = replace(STOOD, stand=replace(STOOD.stand, takes_down_at_m_s=12.0))
    assert check_wind(bold, 5.0).limit.take_down_at_m_s == pytest.approx(4.3, abs=0.05)
    careful = replace(STOOD, stand=replace(STOOD.stand, takes_down_at_m_s=3.0))
    assert check_wind(careful, 5.0).limit.take_down_at_m_s == 3.0


def test_a_bare_head_stands_more_wind_than_a_box() -> None:
    bare = replace(STOOD, modifier=None)
    assert check_wind(bare, 5.0).limit.tips_at_m_s > 2.0 * check_wind(STOOD, 5.0).limit.tips_at_m_s


def test_lights_without_stands_are_left_out() -> None:
    assert check_setup(OUTSIDE, 5.0) == ()
    assert [one.letter for one in check_setup(OUTSIDE.with_light(STOOD), 5.0)] == ["A"]


def test_a_wind_that_cannot_be_meant_is_named() -> None:
    with pytest.raises(OutOfRange):
        check_wind(STOOD, -1.0)
