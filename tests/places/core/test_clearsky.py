"""Clear skies with a state of the air, against the check table and against the simpler models."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.places.core.clearsky import ClearIrradiance, irradiance_ineichen, irradiance_solis
from shoots.places.core.sky import illuminance_from_irradiance, irradiance_haurwitz
from shoots.values.units import OutOfRange


def test_three_models_of_a_clear_sky_at_thirty_degrees() -> None:
    """5.58: simplified Solis (AOD 0.1, 1.5 cm, 1361 W/m²) 465.4, Ineichen (TL 3) 468.6 W/m²; 49.8 and 50.1 klx."""
    solis, ineichen = irradiance_solis(30.0, 0.1, 1.5, solar_w_m2=1361.0), irradiance_ineichen(30.0, 3.0)
    assert solis.global_w_m2 == pytest.approx(465.4, abs=0.5)
    assert ineichen.global_w_m2 == pytest.approx(468.6, abs=0.5)
    assert illuminance_from_irradiance(solis.global_w_m2) == pytest.approx(49800.0, abs=60.0)
    assert illuminance_from_irradiance(ineichen.global_w_m2) == pytest.approx(50100.0, abs=60.0)


@given(st.floats(20.0, 90.0))
def test_models_of_a_clear_sky_differ_by_a_tenth(altitude: float) -> None:
    """5.58: spread of clear models ±10 %, about their middle; nearer the horizon they part."""
    found = (
        irradiance_haurwitz(altitude),
        irradiance_solis(altitude).global_w_m2,
        irradiance_ineichen(altitude).global_w_m2,
    )
    middle = sum(found) / 3.0
    assert all(one == pytest.approx(middle, rel=0.1) for one in found)


@given(
    st.floats(0.0, 90.0), st.floats(0.0, 0.45), st.floats(0.2, 10.0), st.floats(1.0, 10.0), st.floats(-500.0, 4000.0)
)
def test_no_air_gives_more_than_there_is(
    altitude: float, aerosol: float, water: float, turbidity: float, elevation: float
) -> None:
    for found in (irradiance_solis(altitude, aerosol, water), irradiance_ineichen(altitude, turbidity, elevation)):
        assert 0.0 <= found.direct_normal_w_m2 <= 1361.0
        assert found.diffuse_w_m2 >= 0.0
        assert 0.0 <= found.global_w_m2 <= 1361.0


def test_haze_moves_light_from_the_sun_to_the_sky() -> None:
    """Parts and whole of the Ineichen model: global is direct on level ground and diffuse."""
    clear, hazy = irradiance_ineichen(40.0, 2.0), irradiance_ineichen(40.0, 6.0)
    assert hazy.direct_normal_w_m2 < clear.direct_normal_w_m2
    assert hazy.diffuse_w_m2 > clear.diffuse_w_m2
    whole = clear.direct_normal_w_m2 * math.sin(math.radians(40.0)) + clear.diffuse_w_m2
    assert clear.global_w_m2 == pytest.approx(whole, rel=1e-6)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: irradiance_solis(-1.0),
        lambda: irradiance_solis(30.0, 0.6),
        lambda: irradiance_solis(30.0, 0.1, 0.0),
        lambda: irradiance_ineichen(30.0, math.nan),
        lambda: irradiance_ineichen(30.0, 3.0, 1e5),
    ],
)
def test_what_is_no_air_is_named(ask: Callable[[], ClearIrradiance]) -> None:
    with pytest.raises(OutOfRange):
        ask()
