"""Depth of field, blur and diffraction against handbooks and ray geometry."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoots.lighting.core import sharpness
from shoots.lighting.core.lens import sensor_diagonal
from shoots.values.units import OutOfRange

FOOT = 0.3048


def test_the_short_formula_of_a_handbook() -> None:
    """3.1: US Navy 14209: 155 mm (6.1 in), f/2.8, c = 0.002 in: 554 ft; the exact one is one focal length
    more."""
    h = sharpness.hyperfocal_short(6.1 * 25.4, 2.8, 0.002 * 25.4)
    assert h / FOOT == pytest.approx(554, abs=1)
    exact = sharpness.hyperfocal(6.1 * 25.4, 2.8, 0.002 * 25.4)
    assert exact - h == pytest.approx(0.0254 * 6.1)


def test_depth_of_field_of_the_handbook_example() -> None:
    """3.2: US Navy 14209: focused at 10 ft: 9.8 to 10.2 ft, by its short formulas."""
    sharp = sharpness.depth_of_field_short(6.1 * 25.4, 2.8, 0.002 * 25.4, 10 * FOOT)
    assert sharp.near_m / FOOT == pytest.approx(9.8, abs=0.05)
    assert sharp.far_m / FOOT == pytest.approx(10.2, abs=0.05)
    assert sharp.total_m / FOOT == pytest.approx(0.4, abs=0.05)


def test_focus_for_two_planes() -> None:
    """3.3: US Navy 14209: 10 ft (9.996)."""
    assert sharpness.focus_for_planes(9.8, 10.2) == pytest.approx(9.996, abs=0.001)


@pytest.mark.parametrize(
    ("focal", "n", "s", "h", "near", "far"),
    [
        pytest.param(85, 2.8, 2.5, 86.097, 2.4317, 2.5722, id="3.4 exact thin lens"),
        pytest.param(24, 11, 2.0, 1.769, 0.9380, math.inf, id="3.5 focus beyond the hyperfocal distance"),
        pytest.param(100, 8, 0.5, 41.767, 0.4952, 0.5048, id="3.6 close up"),
    ],
)
def test_exact_depth_of_field(focal: float, n: float, s: float, h: float, near: float, far: float) -> None:
    assert sharpness.hyperfocal(float(focal), float(n), 0.030) == pytest.approx(h, rel=0.001)
    sharp = sharpness.depth_of_field(float(focal), float(n), 0.030, s)
    assert sharp.near_m == pytest.approx(near, rel=0.001)
    assert sharp.far_m == pytest.approx(far, rel=0.001)


def test_the_short_formulas_are_a_quarter_off_close_up() -> None:
    """3.6: derived: 12.00 mm by the short formulas, 9.6 mm exactly."""
    exact = sharpness.depth_of_field(100.0, 8.0, 0.030, 0.5).total_m
    short = sharpness.depth_of_field_short(100.0, 8.0, 0.030, 0.5).total_m
    assert exact == pytest.approx(0.0096, rel=0.005)
    assert short == pytest.approx(0.0120, rel=0.001)


@pytest.mark.parametrize(
    ("width", "height", "circle"),
    [(36, 24, 0.02884), (23.5, 15.6, 0.01880), (43.8, 32.9, 0.03652)],
    ids=lambda value: f"3.7 {value}",
)
def test_circle_of_confusion_from_the_diagonal(width: float, height: float, circle: float) -> None:
    diagonal = sensor_diagonal(float(width), float(height))
    assert sharpness.circle_of_confusion(diagonal) == pytest.approx(circle, abs=0.00001)


@pytest.mark.parametrize(("background", "blur"), [(20.0, 1.8864), (math.inf, 2.0960)])
def test_blur_disc_of_lights_in_the_background(background: float, blur: float) -> None:
    """3.14: 85 mm f/1.8 at 2 m: derived."""
    assert sharpness.background_blur(85.0, 1.8, 2.0, background) == pytest.approx(blur, rel=0.001)


@pytest.mark.parametrize(("n", "airy"), [(8, 10.74), (16, 21.47), (22.627, 30.37)])
def test_airy_disc(n: float, airy: float) -> None:
    """3.16: Rayleigh, 550 nm."""
    assert sharpness.airy_diameter(float(n)) == pytest.approx(airy, abs=0.02)


def test_f_number_at_which_diffraction_spans_two_pixels() -> None:
    """3.17: 4.3 µm pitch."""
    assert sharpness.diffraction_f_number(0.0043) == pytest.approx(6.41, abs=0.02)


@given(st.floats(10, 600), st.floats(1, 64), st.floats(0.005, 0.1), st.floats(0.7, 500))
def test_at_the_limits_the_blur_is_the_circle(focal: float, n: float, circle: float, focus: float) -> None:
    """A second way: the blur disc of a point at the near and far limit, by ray geometry."""
    assume(focus > 1.5 * focal / 1000.0)
    sharp = sharpness.depth_of_field(focal, n, circle, focus)
    assume(sharp.near_m > focal / 1000.0)
    assert sharp.near_m < focus < sharp.far_m
    assert sharpness.background_blur(focal, n, focus, sharp.near_m) == pytest.approx(circle, rel=1e-6)
    # At the hyperfocal distance itself the far limit runs away; rounding rules there.
    if sharp.far_m < 1e4:
        assert sharpness.background_blur(focal, n, focus, sharp.far_m) == pytest.approx(circle, rel=1e-4)


@given(st.floats(10, 600), st.floats(0.005, 0.1), st.floats(0.7, 100), st.floats(1.01, 20))
def test_the_f_number_for_a_depth_gives_that_depth(focal: float, circle: float, near: float, factor: float) -> None:
    assume(near > 1.5 * focal / 1000.0)
    n = sharpness.f_number_for_depth(focal, circle, near, near * factor)
    assume(0.1 <= n <= 1e4)
    sharp = sharpness.depth_of_field(focal, n, circle, sharpness.focus_for_planes(near, near * factor))
    assert sharp.near_m == pytest.approx(near, rel=1e-6)
    assert sharp.far_m == pytest.approx(near * factor, rel=1e-4)


def test_sharp_to_infinity_needs_the_hyperfocal_focus() -> None:
    """Definition of the hyperfocal distance: from half of it to infinity."""
    h = sharpness.hyperfocal(35.0, 8.0, 0.030)
    assert sharpness.focus_for_planes(h / 2.0, math.inf) == pytest.approx(h)
    n = sharpness.f_number_for_depth(35.0, 0.030, h / 2.0, math.inf)
    assert n == pytest.approx(8.0, rel=0.01)


def test_focus_that_cannot_be_meant_is_named() -> None:
    for wrong in (
        lambda: sharpness.hyperfocal(50.0, 8.0, 0.0),
        lambda: sharpness.depth_of_field(50.0, 8.0, 0.03, 0.05),
        lambda: sharpness.focus_for_planes(math.inf, math.inf),
        lambda: sharpness.focus_for_planes(0.0, 2.0),
        lambda: sharpness.f_number_for_depth(50.0, 0.03, 0.01, 2.0),
        lambda: sharpness.background_blur(50.0, 8.0, 2.0, 0.0),
        lambda: sharpness.airy_diameter(8.0, -1.0),
        lambda: sharpness.diffraction_f_number(0.0),
        lambda: sharpness.circle_of_confusion(0.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
