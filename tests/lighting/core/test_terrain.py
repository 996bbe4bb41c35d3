"""The wind of EN 1991-1-4, against the printed design example."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import terrain
from shoots.values.units import OutOfRange


def test_the_signboard_of_the_design_example_from_basic_wind_to_force() -> None:
    """6.7: EN 1991-1-4 worked example: 5 × 7 m, v_b 33 m/s, category I, z_e 5 m, density 1.25."""
    assert terrain.terrain_factor(0.01) == pytest.approx(0.1698, rel=0.005)
    assert terrain.roughness_factor(5.0, 0.01) == pytest.approx(1.055, rel=0.005)
    assert terrain.mean_wind(33.0, 5.0, 0.01) == pytest.approx(34.82, rel=0.005)
    assert terrain.turbulence_intensity(5.0, 0.01) == pytest.approx(0.1609, rel=0.005)
    pressure = terrain.peak_pressure(33.0, 5.0, 0.01)
    assert pressure == pytest.approx(1610.0, rel=0.005)
    assert terrain.sign_force(pressure, 35.0) == pytest.approx(101.4e3, rel=0.005)


@given(st.floats(1.0, 50.0), st.floats(1.0, 190.0), st.floats(0.001, 0.8))
def test_it_blows_harder_higher_up_and_gusts_less(basic: float, height: float, roughness: float) -> None:
    assert terrain.mean_wind(basic, height + 5.0, roughness) > terrain.mean_wind(basic, height, roughness)
    assert terrain.turbulence_intensity(height + 5.0, roughness) < terrain.turbulence_intensity(height, roughness)


def test_what_no_terrain_has_is_named() -> None:
    for wrong in (
        lambda: terrain.terrain_factor(0.0),
        lambda: terrain.roughness_factor(0.5, 0.01),
        lambda: terrain.mean_wind(-1.0, 5.0, 0.01),
        lambda: terrain.peak_pressure(33.0, 5.0, 0.01, 0.1),
        lambda: terrain.sign_force(1610.0, -1.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
