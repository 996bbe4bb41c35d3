"""Wind on stands against statics, a structural design example and the trade's caution."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import stands
from shoots.lighting.core.sources import octagon_area
from shoots.lighting.core.stands import Advice
from shoots.values.units import OutOfRange

DISC = math.pi / 4.0


def test_a_disc_of_a_metre_in_eight_metres_a_second() -> None:
    """6.1 to 6.4: derived."""
    force = stands.wind_load(8.0, 1.17, DISC)
    assert force == pytest.approx(36.02, rel=0.005)
    assert stands.overturning_moment(force, 2.2) == pytest.approx(79.2, rel=0.005)
    edge = stands.tipping_radius(0.55, 3)
    assert edge == pytest.approx(0.275)
    assert stands.mass_needed(8.0, 1.17, DISC, 2.2, edge, margin=1.0) == pytest.approx(29.4, rel=0.005)
    assert stands.mass_needed(8.0, 1.17, DISC, 2.2, edge, margin=1.5) == pytest.approx(44.1, rel=0.005)
    assert stands.tipping_wind(25.0, 1.17, DISC, 2.2, edge) == pytest.approx(7.38, rel=0.005)


def test_a_softbox_and_an_umbrella() -> None:
    """6.5 and 6.6: drag from the Aeronautical Engineer's Data Book, p. 95."""
    assert stands.wind_load(12.0, stands.SQUARE_PLATE, 0.54) == pytest.approx(55.72, rel=0.005)
    area = DISC * 1.1**2
    assert stands.wind_load(6.0, stands.HOLLOW_OPEN, area) == pytest.approx(29.76, rel=0.005)
    assert stands.wind_load(6.0, stands.HOLLOW_BACK, area) == pytest.approx(7.96, rel=0.005)


def test_a_signboard_of_a_structural_design_example() -> None:
    """6.7: EN 1991-1-4 worked example: q_p 1.61 kN/m², F = 101.4 kN on 5 × 7 m, c_f 1.80, density 1.25."""
    peak = math.sqrt(2.0 * 1610.0 / 1.25)
    force = stands.wind_load(peak, stands.SIGNBOARD, 35.0, density_kg_m3=1.25)
    assert force == pytest.approx(101.4e3, rel=0.005)


def test_four_legs_tip_over_a_longer_edge_than_three() -> None:
    """Statics: 0.5 R and 0.707 R."""
    assert stands.tipping_radius(1.0, 3) == pytest.approx(0.5)
    assert stands.tipping_radius(1.0, 4) == pytest.approx(0.7071, abs=1e-4)


def test_an_octagon_on_a_three_legged_stand() -> None:
    """Common practice, no source: 95 cm octagon, centre at 2 m, foot radius 0.5 m, 15 kg, Cd 1.42: 5.3 and
    4.3 m/s."""
    edge = stands.tipping_radius(0.5, 3)
    limit = stands.wind_limit(15.0, 1.42, octagon_area(0.95), 2.0, edge)
    assert limit.tips_at_m_s == pytest.approx(5.3, abs=0.05)
    assert limit.take_down_at_m_s == pytest.approx(4.3, abs=0.05)
    assert limit.beaufort == 3


def test_a_stated_limit_counts_only_when_it_is_lower() -> None:
    generous = stands.wind_limit(15.0, 1.42, 0.75, 2.0, 0.25, stated_m_s=12.0)
    careful = stands.wind_limit(15.0, 1.42, 0.75, 2.0, 0.25, stated_m_s=2.0)
    assert not generous.stated_counts
    assert generous.take_down_at_m_s < 5.0
    assert careful.stated_counts
    assert careful.take_down_at_m_s == 2.0


@given(st.floats(1, 200), st.floats(0.1, 2.0), st.floats(0.05, 5.0), st.floats(0.5, 5.0), st.floats(0.1, 1.0))
def test_the_mass_for_the_tipping_wind_is_the_mass(
    mass: float, drag: float, area: float, height: float, edge: float
) -> None:
    wind = stands.tipping_wind(mass, drag, area, height, edge)
    if wind <= 120.0:
        assert stands.mass_needed(wind, drag, area, height, edge, margin=1.0) == pytest.approx(mass)
    assert stands.tipping_wind(mass * 1.1, drag, area, height, edge) > wind
    assert stands.tipping_wind(mass, drag, area, height * 1.1, edge) < wind
    assert stands.tipping_wind(mass, drag, area, height, edge, margin=1.5) < wind


def test_held_before_taken_down() -> None:
    assert stands.advice(0.5, 4.0) is Advice.STANDS
    assert stands.advice(3.0, 4.0) is Advice.HOLD
    assert stands.advice(4.0, 4.0) is Advice.TAKE_DOWN


def test_a_light_stand_on_smooth_ground_slides() -> None:
    """Statics: 0.3 · 10 kg · g = 29.4 N."""
    assert stands.slides(30.0, 10.0, 0.3)
    assert not stands.slides(29.0, 10.0, 0.3)


def test_stands_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: stands.wind_load(-1.0, 1.17, 1.0),
        lambda: stands.wind_load(1.0, 0.0, 1.0),
        lambda: stands.overturning_moment(-1.0, 2.0),
        lambda: stands.tipping_radius(0.5, 2),
        lambda: stands.mass_needed(8.0, 1.17, 1.0, 2.0, 0.0),
        lambda: stands.tipping_wind(0.0, 1.17, 1.0, 2.0, 0.25),
        lambda: stands.wind_limit(15.0, 1.42, 0.75, 2.0, 0.25, margin=0.5),
        lambda: stands.wind_limit(15.0, 1.42, 0.75, 2.0, 0.25, stated_m_s=-1.0),
        lambda: stands.advice(float("nan"), 4.0),
        lambda: stands.slides(10.0, 10.0, -0.1),
    ):
        with pytest.raises(OutOfRange):
            wrong()
