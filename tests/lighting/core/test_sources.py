"""Lit fronts against numerical integration, the five-diameter rule and the trade's habits."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from shoots.kit.core.lamps import Shape
from shoots.lighting.core import sources
from shoots.lighting.core.sources import Front
from shoots.values.units import OutOfRange

OCTAGON = Front(Shape.ROUND, 0.95, 0.95)
FRONTS = st.builds(
    Front,
    st.sampled_from(Shape),
    st.floats(0.01, 4.0),
    st.floats(0.01, 4.0),
)
DISTANCES = st.floats(0.05, 100.0)


@pytest.mark.parametrize(("distance", "error"), [(5.0, -0.990), (1.0, -20.0)])
def test_error_of_the_inverse_square_for_a_disc_of_a_metre(distance: float, error: float) -> None:
    """8.7: ANSI/IES LS-1: 1 % at five diameters."""
    share = sources.finite_size_share(Front(Shape.ROUND, 1.0, 1.0), distance)
    assert 100.0 * (share - 1.0) == pytest.approx(error, abs=0.01)


@pytest.mark.parametrize(("front", "distance"), [
    (Front(Shape.RECTANGLE, 1.2, 0.8), 0.7),
    (Front(Shape.RECTANGLE, 0.3, 1.4), 0.5),
    (Front(Shape.ROUND, 0.95, 0.95), 0.6),
])  # fmt: skip
def test_the_closed_forms_agree_with_integration_over_the_front(front: Front, distance: float) -> None:
    """A second computation with scipy: dE = L·cos²θ/r² dA for a matt front facing the point."""

    def element(y: float, x: float) -> float:
        square = x * x + y * y + distance * distance
        return distance * distance / (square * square)

    half = front.width_m / 2.0
    if front.shape is Shape.ROUND:
        low, high = (lambda x: -math.sqrt(half**2 - x * x)), (lambda x: math.sqrt(half**2 - x * x))
    else:
        low, high = (lambda x: -front.height_m / 2.0), (lambda x: front.height_m / 2.0)
    total = integrate.dblquad(element, -half, half, low, high)[0]
    assert sources.finite_size_share(front, distance) == pytest.approx(total / (front.area_m2 / distance**2), rel=1e-6)
    assert sources.view_share(front, distance) == pytest.approx(total / math.pi, rel=1e-6)


@pytest.mark.parametrize(("near", "far", "stops"), [(0.5, 1.0, -1.37), (1.0, 2.0, -1.79)])
def test_a_finite_box_loses_less_than_two_stops_close_up(near: float, far: float, stops: float) -> None:
    """Derived from the uniform disc: 95 cm octagon."""
    assert sources.distance_change_stops(OCTAGON, near, far) == pytest.approx(stops, abs=0.005)


@given(FRONTS, DISTANCES)
def test_double_the_distance_never_costs_more_than_two_stops(front: Front, distance: float) -> None:
    change = sources.distance_change_stops(front, distance, 2.0 * distance)
    assert -2.0 - 1e-9 <= change < 0.0
    if distance >= 5.0 * front.largest_m:
        assert change == pytest.approx(-2.0, abs=0.02)


@given(FRONTS, st.floats(1e-6, 1e-3))
def test_there_is_no_singularity_close_up(front: Front, distance: float) -> None:
    light = sources.finite_size_share(front, distance) / distance**2
    assert math.isfinite(light)
    assert light <= 4.001 * max(1.0 / front.width_m**2, 1.0 / front.height_m**2) * 2.0 * math.pi


@given(st.floats(-89.9, 89.9), st.floats(5.0, 170.0))
def test_light_falls_off_the_axis_and_is_half_at_half_the_beam(angle: float, beam: float) -> None:
    share = sources.off_axis_share(angle, beam)
    assert 0.0 <= share <= 1.0
    assert share == pytest.approx(sources.off_axis_share(-angle, beam))
    assert sources.off_axis_share(beam / 2.0, beam) == pytest.approx(0.5)


def test_a_matt_front_follows_the_cosine() -> None:
    """Lambert: 60° off the axis a matt front has half its intensity."""
    for angle in (0.0, 20.0, 45.0, 75.0):
        expected = math.cos(math.radians(angle))
        assert sources.off_axis_share(angle, sources.LAMBERTIAN_BEAM_DEG) == pytest.approx(expected)
    assert sources.off_axis_share(100.0, 120.0) == 0.0


def test_area_of_a_95_cm_octagon() -> None:
    """Plane geometry; the issue's case counts 0.75 m²."""
    assert sources.octagon_area(0.95) == pytest.approx(0.7477, abs=1e-4)


def test_a_white_board_close_by_fills_by_about_a_stop_and_a_half() -> None:
    """Common practice, no source: a metre-wide white board half a metre away is a usual fill."""
    share = sources.reflected_share(Front(Shape.RECTANGLE, 1.0, 2.0), 0.5, 0.8)
    assert -1.2 < math.log2(share) < -0.5


@given(FRONTS, DISTANCES, st.floats(0.0, 1.0))
def test_boards_cannot_give_more_than_they_get(front: Front, distance: float, reflectance: float) -> None:
    assert 0.0 <= sources.reflected_share(front, distance, reflectance) <= reflectance + 1e-12
    left = sources.negative_fill_share(front, distance, reflectance)
    assert reflectance - 1e-12 <= left <= 1.0


@given(st.floats(0.0, 1e5), FRONTS, DISTANCES, st.floats(0.0, 5.0), st.floats(0.0, 1.0))
def test_a_scrim_never_adds_light(light: float, front: Front, distance: float, stops: float, mixed: float) -> None:
    passed = sources.scrimmed_light(light, front, distance, stops, mixed)
    assert 0.0 <= passed <= light * 2.0**-stops * (1 + 1e-12)
    if mixed == 0.0:
        assert passed == pytest.approx(light * 2.0**-stops)


def test_a_flag_over_half_the_front_costs_a_stop() -> None:
    """An even front gives light in proportion to its visible area."""
    assert math.log2(sources.flagged_share(0.5)) == pytest.approx(-1.0)
    assert sources.flagged_share(1.0, spill=0.02) == pytest.approx(0.02)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Front(Shape.ROUND, -1.0, 1.0),
        lambda: sources.finite_size_share(OCTAGON, 0.0),
        lambda: sources.distance_change_stops(OCTAGON, 1.0, -1.0),
        lambda: sources.off_axis_share(200.0, 60.0),
        lambda: sources.off_axis_share(10.0, 0.0),
        lambda: sources.reflected_share(OCTAGON, 1.0, 1.5),
        lambda: sources.negative_fill_share(OCTAGON, 1.0, -0.1),
        lambda: sources.scrimmed_light(-1.0, OCTAGON, 1.0, 1.0),
        lambda: sources.scrimmed_light(1.0, OCTAGON, 1.0, -1.0),
        lambda: sources.flagged_share(2.0),
        lambda: sources.octagon_area(float("nan")),
    ],
)
def test_fronts_that_cannot_be_meant_are_named(wrong: object) -> None:
    with pytest.raises(OutOfRange):
        wrong()  # type: ignore[operator]


def test_a_front_that_emits_nothing_like_a_point_is_a_point() -> None:
    assert sources.finite_size_share(Front(Shape.ROUND, 0.0, 0.0), 2.0) == 1.0
    assert sources.finite_size_share(Front(Shape.RECTANGLE, 0.0, 0.0), 2.0) == 1.0
