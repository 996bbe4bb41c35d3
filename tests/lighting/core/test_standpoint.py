"""Height and tilt of the camera against plane geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.standpoint import framed, tilt_to_target
from shoots.values.units import OutOfRange


def test_a_low_camera_looks_up_at_45_degrees() -> None:
    """Geometry."""
    assert tilt_to_target(0.3, 1.8, 1.5) == pytest.approx(45.0)
    assert tilt_to_target(1.6, 1.6, 3.0) == 0.0


def test_a_level_camera_has_the_horizon_in_the_middle_and_at_its_own_height() -> None:
    view = framed(1.2, 0.0, 40.0, 1000.0)
    assert view.horizon == pytest.approx(0.5)
    assert (view.bottom_m + view.top_m) / 2.0 == pytest.approx(1.2)


def test_tilted_up_by_half_its_view_the_horizon_lies_on_the_bottom_edge() -> None:
    assert framed(1.0, 20.0, 40.0, 5.0).horizon == pytest.approx(0.0, abs=1e-12)
    assert framed(1.0, 21.0, 40.0, 5.0).horizon is None


def test_an_edge_that_looks_straight_up_or_past_it_sees_without_end() -> None:
    assert framed(0.5, 60.0, 70.0, 2.0).top_m == math.inf


@given(st.floats(0, 3), st.floats(0, 30), st.floats(0.3, 50), st.floats(5, 80))
def test_the_target_is_in_the_middle(camera: float, target: float, distance: float, view: float) -> None:
    tilt = tilt_to_target(camera, target, distance)
    if abs(tilt) + view / 2.0 < 89.0:
        seen = framed(camera, tilt, view, distance)
        assert seen.bottom_m < target < seen.top_m


def test_standpoints_that_cannot_be_meant_are_named() -> None:
    with pytest.raises(OutOfRange):
        tilt_to_target(1.0, 1.0, 0.0)
    with pytest.raises(OutOfRange):
        framed(1.0, 90.0, 40.0, 2.0)
