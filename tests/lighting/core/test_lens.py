"""Framing and fields of view against handbooks and geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import lens
from shoots.values.units import OutOfRange

INCH = 25.4


@pytest.mark.parametrize(
    ("focal", "angle"), [(24, 73.740), (50, 39.598), (85, 23.913), (200, 10.286)], ids=lambda v: f"3.11 {v}"
)
def test_field_of_view_at_infinity(focal: float, angle: float) -> None:
    assert lens.field_of_view(float(focal), 36.0) == pytest.approx(angle, abs=0.01)


def test_field_of_view_narrows_close_up() -> None:
    """3.12: derived."""
    assert lens.field_of_view(50.0, 36.0, 1.0) == pytest.approx(37.761, abs=0.01)


def test_scale_one_to_two_with_a_twelve_inch_lens() -> None:
    """3.8: US Army SS0511: image 18 in, object 36 in."""
    assert lens.image_distance(12 * INCH, 0.5) == pytest.approx(18 * INCH)
    assert lens.subject_distance(12 * INCH, 0.5) * 1000.0 == pytest.approx(36 * INCH)


def test_scale_one_to_four_with_a_ten_inch_lens() -> None:
    """3.9: US Navy 14209: object 50 in, image 12.5 in."""
    assert lens.subject_distance(10 * INCH, 0.25) * 1000.0 == pytest.approx(50 * INCH)
    assert lens.image_distance(10 * INCH, 0.25) == pytest.approx(12.5 * INCH)


def test_an_aerial_object_by_simple_proportion() -> None:
    """3.10: US Navy 14209: 24-in lens, 10-ft object at 30 ft, 8 in; simple proportion, so the far limit of
    m."""
    foot = 12 * INCH / 1000.0
    assert lens.image_size_short(24 * INCH, 10 * foot, 30 * foot) == pytest.approx(8.0 * INCH)
    # The exact image, with the 30 ft counted from where simple proportion counts them.
    assert lens.image_size(24 * INCH, 10 * foot, 32 * foot) == pytest.approx(8.0 * INCH)


def test_an_image_is_as_large_as_the_framing_says() -> None:
    """3.13: 90 % of 36 mm for 1.80 m with 85 mm at 4.8072 m."""
    assert lens.image_size(85.0, 1.80, 4.8072) == pytest.approx(0.9 * 36.0, rel=0.001)


def test_a_standing_person_in_an_upright_frame() -> None:
    """3.13: 1.80 m filling 90 % of 36 mm with 85 mm."""
    distance = lens.framing_distance(85.0, 36.0, 1.80, 0.9)
    assert distance == pytest.approx(4.8072, rel=0.001)
    assert lens.magnification(85.0, distance) == pytest.approx(0.0180, rel=0.001)


def test_the_background_grows_when_the_camera_steps_back() -> None:
    """3.15: derived: 1.7 m subject at 3 m, 20 m building at 100 m; then 9 m and 106 m."""
    near = lens.perspective_ratio(3.0, 1.7, 100.0, 20.0)
    far = lens.perspective_ratio(9.0, 1.7, 106.0, 20.0)
    assert near == pytest.approx(0.3529, rel=0.001)
    assert far == pytest.approx(0.9989, rel=0.001)
    assert far / near == pytest.approx(2.830, rel=0.001)


@given(st.floats(10, 600), st.floats(5, 60), st.floats(0.01, 50), st.floats(0.05, 1.0))
def test_framing_and_framed_size_are_each_others_inverse(
    focal: float, side: float, subject: float, fill: float
) -> None:
    distance = lens.framing_distance(focal, side, subject, fill)
    assert lens.framed_size(focal, side, distance) * fill == pytest.approx(subject)


@given(st.floats(10, 600), st.floats(1e-4, 1.0))
def test_subject_and_image_distance_obey_the_lens_equation(focal: float, scale: float) -> None:
    """1/f = 1/s + 1/v."""
    s, v = lens.subject_distance(focal, scale) * 1000.0, lens.image_distance(focal, scale)
    assert 1.0 / s + 1.0 / v == pytest.approx(1.0 / focal)
    assert lens.magnification(focal, s / 1000.0) == pytest.approx(scale)


@given(st.floats(10, 600), st.floats(1.0, 60.0), st.floats(1.5, 1e4))
def test_a_longer_lens_or_nearer_focus_sees_less(focal: float, side: float, focus: float) -> None:
    angle = lens.field_of_view(focal, side)
    assert lens.field_of_view(focal * 1.1, side) < angle
    assert lens.field_of_view(focal, side, focus) < angle
    assert 0.0 < angle < 180.0


def test_lenses_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: lens.magnification(50.0, 0.05),
        lambda: lens.subject_distance(50.0, 0.0),
        lambda: lens.image_distance(0.0, 1.0),
        lambda: lens.field_of_view(50.0, 0.0),
        lambda: lens.field_of_view(50.0, 36.0, 0.01),
        lambda: lens.framing_distance(50.0, 36.0, 1.8, 0.0),
        lambda: lens.framed_size(50.0, 36.0, math.nan),
        lambda: lens.perspective_ratio(0.0, 1.0, 1.0, 1.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
