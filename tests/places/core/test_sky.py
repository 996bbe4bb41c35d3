"""Models of daylight against their published coefficients, pvlib and printed light levels."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pvlib import atmosphere, clearsky

from shoots.places.core import sky
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("altitude", "lux"),
    [(-6, 3.412), (-4, 29.93), (-0.8333, 453.5), (6, 5624), (15, 19228), (30, 46297), (62, 105676)],
    ids=lambda value: f"5.50/5.51 Explanatory Supplement {value}",
)
def test_clear_illuminance_follows_the_published_polynomial(altitude: float, lux: float) -> None:
    assert sky.clear_illuminance(float(altitude)) == pytest.approx(lux, rel=0.01)


def test_clear_twilight_lies_in_the_ranges_of_the_meteorologists() -> None:
    """5.53: AMS Glossary of Meteorology: sunset 410 to 585 lx, end of civil twilight 2 to 3.5 lx."""
    assert 410 <= sky.clear_illuminance(-0.8333) <= 585
    assert 2.0 <= sky.clear_illuminance(-6.0) <= 3.5
    assert sky.clear_illuminance(-12.0) == pytest.approx(0.008, rel=0.1)
    assert sky.clear_illuminance(-18.0) == pytest.approx(6e-4, rel=0.1)


def test_two_clear_sky_models_differ_by_less_than_a_third_of_a_stop_by_day() -> None:
    """USNO Circular 171 against the Explanatory Supplement."""
    for altitude in range(0, 91, 5):
        ratio = sky.clear_illuminance_by_air_mass(altitude) / sky.clear_illuminance(altitude)
        assert abs(math.log2(ratio)) < 0.34


@pytest.mark.parametrize(("altitude", "lux"), [(10, 3947), (30, 10800), (60, 18487)], ids=lambda v: f"5.54 {v}")
def test_overcast_illuminance_follows_krochmann(altitude: float, lux: float) -> None:
    assert sky.overcast_illuminance(float(altitude)) == pytest.approx(lux, abs=1)


def test_overcast_zenith_and_ground_agree() -> None:
    """5.55: (7π/9)·L_z against 300 + 21 000 sin h, two independent statements of one model."""
    ground = 7.0 * math.pi / 9.0 * sky.overcast_zenith_luminance(30.0)
    assert ground == pytest.approx(10807, abs=1)
    assert ground == pytest.approx(sky.overcast_illuminance(30.0), rel=0.002)


@pytest.mark.parametrize(
    ("oktas", "factor", "stops"),
    [(0, 1.0, 0.0), (4, 0.9290, -0.106), (6, 0.7180, -0.478), (8, 0.25, -2.0)],
    ids=lambda value: f"5.56 Kasten-Czeplak {value}",
)
def test_cloud_factor(oktas: float, factor: float, stops: float) -> None:
    assert sky.cloud_factor(float(oktas)) == pytest.approx(factor, abs=0.0005)
    assert math.log2(sky.cloud_factor(float(oktas))) == pytest.approx(stops, abs=0.001)


@pytest.mark.parametrize(
    ("zenith", "mass", "tolerance"),
    [(0, 0.9997, 0.001), (60, 1.9943, 0.001), (80, 5.5860, 0.001), (85, 10.3058, 0.001), (90, 37.92, 0.02)],
    ids=lambda value: f"5.57 {value}",
)
def test_air_mass_agrees_with_the_table_and_with_pvlib(zenith: float, mass: float, tolerance: float) -> None:
    assert sky.air_mass(float(zenith)) == pytest.approx(mass, abs=tolerance)
    expected = atmosphere.get_relative_airmass(zenith, model="kastenyoung1989")
    assert sky.air_mass(float(zenith)) == pytest.approx(float(expected), rel=1e-12)


def test_clear_illuminance_lies_among_the_clear_sky_models_of_pvlib() -> None:
    """5.58: Haurwitz 487.0, simplified Solis 465.4 W/m² at 30°, times 107 lm/W (Littlefair): 52.1 and 49.8
    klx."""
    import pandas as pd

    haurwitz = float(clearsky.haurwitz(pd.Series([60.0]))["ghi"].iloc[0])
    whole = float(clearsky.haurwitz(pd.Series([60]))["ghi"].iloc[0])
    solis = float(
        clearsky.simplified_solis(30.0, aod700=0.1, precipitable_water=1.5, pressure=101325.0, dni_extra=1361.0)["ghi"]
    )
    # The table prints 487.0 ± 0.5. That is pvlib asked with a zenith angle that is a whole number: it then cuts the
    # result to a whole number too. Asked with 60.0 it gives 1098·0.5·exp(-0.118) = 487.9, as the formula does.
    assert whole == 487.0
    assert haurwitz == pytest.approx(1098.0 * 0.5 * math.exp(-0.118), rel=1e-9)
    assert sky.irradiance_haurwitz(30.0) == pytest.approx(haurwitz, rel=1e-9)
    assert solis == pytest.approx(465.4, abs=0.5)
    for irradiance in (haurwitz, solis):
        lux = sky.illuminance_from_irradiance(irradiance)
        assert sky.clear_illuminance(30.0) == pytest.approx(lux, rel=0.15)


def test_the_published_pieces_join_without_a_step() -> None:
    """The bands meet within the stated error of the fit, 0.02 in log10."""
    for edge in (20.0, 5.0, -0.8, -5.0, -12.0):
        below, above = sky.clear_illuminance(edge - 1e-6), sky.clear_illuminance(edge)
        assert abs(math.log10(above / below)) < 0.02


@given(st.floats(-90, 90), st.floats(0, 8))
def test_no_sky_is_dark_or_brighter_than_the_brightest_sun(altitude: float, oktas: float) -> None:
    """Brightest sun 120 000 lx in print; the polynomial's zenith is 7 % above."""
    assert 0.0 < sky.clear_illuminance(altitude) < 130000
    assert 0.0 < sky.overcast_illuminance(altitude) <= 21300
    assert 0.25 <= sky.cloud_factor(oktas) <= 1.0


@given(st.floats(-17.9, 89.0), st.floats(0.05, 1.0))
def test_a_higher_sun_gives_more_light(altitude: float, higher: float) -> None:
    # Where two bands meet the published fit falls by up to half a percent.
    assert sky.clear_illuminance(altitude + higher) > sky.clear_illuminance(altitude) * 0.99
    assert sky.overcast_illuminance(altitude + higher) > sky.overcast_illuminance(altitude) * 0.99


def test_sun_and_sky_by_design_values_add_up_to_a_clear_day() -> None:
    """IES 1984 (from memory) against the Explanatory Supplement, within half a stop from 10° up."""
    for altitude in np.arange(10.0, 91.0, 5.0):
        sun = sky.sun_normal_illuminance(altitude) * math.sin(math.radians(altitude))
        total = sun + sky.clear_sky_illuminance(altitude)
        assert abs(math.log2(total / sky.clear_illuminance(altitude))) < 0.5


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: sky.clear_illuminance(91.0),
        lambda: sky.clear_illuminance_by_air_mass(-13.0),
        lambda: sky.overcast_illuminance(float("nan")),
        lambda: sky.cloud_factor(8.1),
        lambda: sky.air_mass(90.5),
        lambda: sky.illuminance_from_irradiance(-1.0),
        lambda: sky.irradiance_clear(-1.0),
        lambda: sky.overcast_zenith_luminance(-1.0),
        lambda: sky.clear_sky_illuminance(-1.0),
        lambda: sky.sun_normal_illuminance(100.0),
    ],
)
def test_outside_the_stated_range_there_is_a_named_error(wrong: object) -> None:
    with pytest.raises(OutOfRange):
        wrong()  # type: ignore[operator]


def test_the_cloud_regression_of_irradiance() -> None:
    """Kasten and Czeplak: 910 sin h - 30 W/m² (from memory), never negative."""
    assert sky.irradiance_clear(90.0) == pytest.approx(880.0)
    assert sky.irradiance_clear(1.0) == 0.0
