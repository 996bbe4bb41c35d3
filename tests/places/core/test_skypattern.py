"""Sky luminance against the identities of the standards and colour-science."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.places.core.skypattern import clear_sky_luminance, overcast_sky_luminance
from shoots.values.units import OutOfRange


def test_the_overcast_horizon_is_a_third_of_the_zenith() -> None:
    """CIE S 011 / ISO 15469."""
    assert overcast_sky_luminance(9000.0, 0.0) == pytest.approx(overcast_sky_luminance(9000.0, 90.0) / 3.0)


def test_an_overcast_sky_adds_up_to_its_illuminance() -> None:
    """A second computation: integrate L·sin γ over the half space."""
    elevation = np.linspace(0.0, math.pi / 2.0, 4001)
    luminance = [overcast_sky_luminance(10240.0, math.degrees(angle)) for angle in elevation]
    total = np.trapezoid(np.array(luminance) * 2.0 * math.pi * np.sin(elevation) * np.cos(elevation), elevation)
    assert total == pytest.approx(10240.0, rel=1e-5)


@pytest.mark.parametrize("sun_altitude", [0.0, 15.0, 40.0, 80.0])
def test_a_clear_sky_adds_up_to_its_illuminance(sun_altitude: float) -> None:
    """A second computation on another grid."""
    elevations, turns = np.linspace(0.25, 89.75, 180), np.linspace(0.5, 359.5, 180)
    total = 0.0
    for elevation in elevations:
        ring = np.mean([clear_sky_luminance(15000.0, elevation, turn, sun_altitude, 0.0) for turn in turns[::3]])
        angle = math.radians(elevation)
        total += ring * 2.0 * math.pi * math.sin(angle) * math.cos(angle) * math.radians(0.5)
    assert total == pytest.approx(15000.0, rel=0.01)


def test_a_clear_sky_is_darkest_about_a_right_angle_from_the_sun() -> None:
    """CIE clear sky: common knowledge of the blue sky."""
    turns = np.arange(0.0, 360.0, 5.0)
    ring = [clear_sky_luminance(12000.0, 45.0, turn, 45.0, 0.0) for turn in turns]
    assert turns[int(np.argmax(ring))] == 0.0
    darkest = turns[int(np.argmin(ring))]
    cosine = 0.5 + 0.5 * math.cos(math.radians(darkest))
    assert 75.0 < math.degrees(math.acos(cosine)) < 105.0


@given(st.floats(1.0, 1e5), st.floats(0, 90), st.floats(0, 360), st.floats(0, 90), st.floats(0, 360))
def test_every_patch_has_a_luminance(
    lux: float, elevation: float, bearing: float, altitude: float, azimuth: float
) -> None:
    assert 0.0 < clear_sky_luminance(lux, elevation, bearing, altitude, azimuth) < 10.0 * lux
    assert 0.0 < overcast_sky_luminance(lux, elevation) < lux


def test_patches_below_the_horizon_are_refused() -> None:
    with pytest.raises(OutOfRange):
        overcast_sky_luminance(1000.0, -1.0)
    with pytest.raises(OutOfRange):
        clear_sky_luminance(1000.0, 10.0, 0.0, -5.0, 0.0)
