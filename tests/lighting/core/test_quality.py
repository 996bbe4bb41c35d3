"""Size, softness and placement of lights against geometry and the trade's habits."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from shoots.kit.core.lamps import Shape
from shoots.lighting.core import quality
from shoots.lighting.core.quality import Softness
from shoots.lighting.core.sources import Front
from shoots.values.units import OutOfRange

POINT = Front(Shape.ROUND, 0.0, 0.0)


def test_angle_and_solid_angle_of_a_disc() -> None:
    """8.1: geometry."""
    assert quality.apparent_angle(0.9, 1.5) == pytest.approx(33.40, rel=0.001)
    assert quality.solid_angle(Front(Shape.ROUND, 0.9, 0.9), 1.5) == pytest.approx(0.2650, rel=0.001)


def test_solid_angle_of_a_rectangle_agrees_with_the_double_integral() -> None:
    """8.2: geometry and scipy."""
    ours = quality.solid_angle(Front(Shape.RECTANGLE, 1.2, 0.8), 2.0)
    assert ours == pytest.approx(0.2255, rel=0.001)
    whole, _ = integrate.dblquad(
        lambda y, x: 2.0 / (x * x + y * y + 4.0) ** 1.5, -0.6, 0.6, lambda x: -0.4, lambda x: 0.4
    )
    assert ours == pytest.approx(whole, rel=1e-6)


def test_penumbra_on_a_wall_and_in_the_sun() -> None:
    """8.3 and 8.4: similar triangles."""
    assert quality.penumbra_width(0.6, 2.0, 0.30) == pytest.approx(0.090)
    assert 1000.0 * quality.sun_penumbra_width(3.0) == pytest.approx(27.9, abs=0.2)


def test_fall_off_across_people_and_a_group() -> None:
    """8.5 and 8.6: inverse square."""
    assert quality.fall_off(POINT, 1.5, 3.0) == pytest.approx(2.0)
    assert quality.fall_off(POINT, 3.0, 4.2) == pytest.approx(0.971, abs=0.001)


def test_placement_from_slant_and_elevation() -> None:
    """8.8: geometry."""
    stand = quality.placement(2.0, 45.0, 1.60)
    assert stand.height_m == pytest.approx(3.014, abs=0.001)
    assert stand.floor_m == pytest.approx(1.414, abs=0.001)


def test_direction_from_height_and_floor_distance() -> None:
    """8.9: geometry."""
    seen = quality.direction(30.0, 1.5, 2.6, 1.6)
    assert seen.elevation_deg == pytest.approx(33.69, abs=0.01)
    assert seen.slant_m == pytest.approx(1.803, abs=0.01)


def test_a_box_over_a_seated_subject_is_soft() -> None:
    """Common practice, no source: 95 cm octagon, centre 0.6 m above the crown, 45° down at a face 0 to 0.2
    m below."""
    crown = 1.35
    for below, floor, slant, angle in ((0.0, 0.60, 0.85, 58.0), (0.2, 0.80, 1.13, 45.0)):
        stand = quality.placement_for_height(crown + 0.6, 45.0, crown - below)
        assert stand.floor_m == pytest.approx(floor, abs=0.005)
        assert stand.slant_m == pytest.approx(slant, abs=0.005)
        found = quality.apparent_angle(0.95, stand.slant_m)
        assert found == pytest.approx(angle, abs=1.0)
        assert quality.softness(found) is Softness.SOFT


def test_a_bare_reflector_at_three_metres_is_hard() -> None:
    """Common practice, no source: 18 cm fills 3.4°."""
    angle = quality.apparent_angle(0.18, 3.0)
    assert angle == pytest.approx(3.4, abs=0.05)
    assert quality.softness(angle) is Softness.HARD
    assert quality.softness(15.0) is Softness.MEDIUM


@given(st.floats(0.1, 20), st.floats(-80, 80), st.floats(0, 2))
def test_placement_and_direction_are_each_others_inverse(slant: float, elevation: float, height: float) -> None:
    stand = quality.placement(slant, elevation, height)
    seen = quality.direction(0.0, stand.floor_m, stand.height_m, height)
    assert seen.slant_m == pytest.approx(slant)
    assert seen.elevation_deg == pytest.approx(elevation, abs=1e-6)


@given(st.floats(0, 5), st.floats(0.05, 50))
def test_a_light_looks_smaller_from_further_away(size: float, distance: float) -> None:
    angle = quality.apparent_angle(size, distance)
    assert 0.0 <= quality.apparent_angle(size, 2.0 * distance) <= angle < 180.0
    disc = quality.solid_angle(Front(Shape.ROUND, size, size), distance)
    assert 0.0 <= disc <= 2.0 * math.pi
    assert disc <= quality.solid_angle(Front(Shape.RECTANGLE, size, size), distance) + 1e-12


@pytest.mark.parametrize(("bearing", "turn"), [(0.0, 0.0), (270.0, -90.0), (181.0, -179.0), (-45.0, -45.0)])
def test_bearings_are_given_as_the_shorter_turn(bearing: float, turn: float) -> None:
    assert quality.direction(bearing, 1.0, 2.0, 1.0).bearing_deg == pytest.approx(turn)


def test_lights_that_stand_nowhere_are_named() -> None:
    for wrong in (
        lambda: quality.apparent_angle(1.0, 0.0),
        lambda: quality.softness(200.0),
        lambda: quality.solid_angle(POINT, 0.0),
        lambda: quality.penumbra_width(1.0, 0.0, 1.0),
        lambda: quality.sun_penumbra_width(-1.0),
        lambda: quality.direction(0.0, 0.0, 1.0, 1.0),
        lambda: quality.placement(0.0, 45.0, 1.0),
        lambda: quality.placement_for_height(1.0, 45.0, 1.5),
    ):
        with pytest.raises(OutOfRange):
            wrong()
