"""The wind against the printed scale and the standard's profile."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import wind
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("speed", "force"),
    [(5.5, 4), (7.9, 4), (8.0, 5), (13.8, 6), (13.9, 7), (0.0, 0), (0.2, 0), (0.3, 1), (1.6, 2), (3.3, 2), (3.4, 3),
     (10.8, 6), (17.2, 8), (20.8, 9), (24.5, 10), (28.5, 11), (32.6, 11), (32.7, 12), (60.0, 12)],
    ids=lambda value: f"6.8 WMO {value}",
)  # fmt: skip
def test_beaufort_force(speed: float, force: int) -> None:
    assert wind.beaufort(speed) == force


def test_beaufort_follows_its_formula() -> None:
    """v = 0.836·B^1.5 gives the middle of each band."""
    for force in range(1, 12):
        assert wind.beaufort(0.836 * force**1.5) == force


def test_wind_at_the_height_of_a_box() -> None:
    """6.9: EN 1991-1-4 §4.3."""
    assert wind.wind_at_height(8.0, 10.0, 2.5) == pytest.approx(6.09, rel=0.005)


def test_mean_wind_of_the_design_example() -> None:
    """6.7: category I, z0 0.01 m: c_r 1.055 at 5 m with k_r 0.1698; the ratio of 5 m and 10 m is ours."""
    assert wind.wind_at_height(1.0, 10.0, 5.0, 0.01) == pytest.approx(1.055 / (0.1698 * 6.9078), rel=0.005)


@given(st.floats(0.1, 60), st.floats(1.0, 50), st.floats(1.0, 50))
def test_wind_grows_with_height_and_back(speed: float, low: float, high: float) -> None:
    up = wind.wind_at_height(speed, low, high)
    assert (up >= speed) == (high >= low) or up == pytest.approx(speed)
    if up <= 120.0:
        assert wind.wind_at_height(up, high, low) == pytest.approx(speed)


def test_winds_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: wind.beaufort(-1.0),
        lambda: wind.wind_at_height(5.0, 0.5, 10.0),
        lambda: wind.gust(5.0, 0.5),
    ):
        with pytest.raises(OutOfRange):
            wrong()
    assert wind.gust(6.0) == pytest.approx(9.0)
