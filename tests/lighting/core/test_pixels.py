"""Crops and prints against arithmetic and paper sizes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import pixels
from shoots.lighting.core.lens import field_of_view
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("ratio", "size", "kept"),
    [
        pytest.param(4 / 5, (3200, 4000), 53.33, id="9.1 and 9.2, 4:5"),
        pytest.param(9 / 16, (2250, 4000), 37.50, id="9.1 and 9.2, 9:16"),
        pytest.param(1.0, (4000, 4000), 66.67, id="9.1 and 9.2, 1:1"),
    ],
)
def test_largest_crops_of_a_24_megapixel_frame(ratio: float, size: tuple[int, int], kept: float) -> None:
    crop = pixels.largest_crop(6000, 4000, ratio)
    assert (crop.width_px, crop.height_px) == size
    assert 100.0 * crop.kept == pytest.approx(kept, abs=0.01)


def test_a_wide_crop_is_whole_pixels_on_paper_and_here() -> None:
    """9.5: arithmetic."""
    crop = pixels.largest_crop(8256, 5504, 16 / 9)
    assert (crop.width_px, crop.height_px) == (8256, 4644)


def test_a4_at_300_pixels_an_inch() -> None:
    """9.3: widely published."""
    assert pixels.print_pixels(210.0, 300.0) == pytest.approx(2480, abs=1)
    assert pixels.print_pixels(297.0, 300.0) == pytest.approx(3508, abs=1)


def test_a_print_at_240_pixels_an_inch() -> None:
    """9.4: arithmetic."""
    assert pixels.print_length(6000, 240.0) / 10.0 == pytest.approx(63.50, abs=0.01)
    assert pixels.print_length(4000, 240.0) / 10.0 == pytest.approx(42.33, abs=0.01)


def test_a_crop_narrows_the_view() -> None:
    """9.8: 4:5 upright from a landscape frame, 50 mm."""
    width = pixels.cropped_side(36.0, 6000, pixels.largest_crop(6000, 4000, 4 / 5).width_px)
    assert width == pytest.approx(19.20, abs=0.01)
    assert field_of_view(50.0, width) == pytest.approx(21.737, abs=0.01)


def test_bytes_without_compression() -> None:
    """Topic 9: W·H·3."""
    assert pixels.uncompressed_bytes(6000, 4000) == 72_000_000
    assert pixels.uncompressed_bytes(6000, 4000, 2) == 144_000_000


@given(st.integers(2, 20000), st.integers(2, 20000), st.floats(0.1, 10.0), st.booleans())
def test_no_larger_crop_of_that_shape_fits(width: int, height: int, ratio: float, even: bool) -> None:
    crop = pixels.largest_crop(width, height, ratio, even)
    assert 1 <= crop.width_px <= width
    assert 1 <= crop.height_px <= height
    step = 2 if even else 1
    assert crop.width_px % step == crop.height_px % step == 0
    # One more step both ways would leave the frame.
    assert crop.width_px + step > min(width, height * ratio) - 1e-6
    assert crop.height_px + step > min(height, width / ratio) - 1e-6
    assert 0.0 < crop.kept <= 1.0


def test_frames_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: pixels.largest_crop(0, 4000, 1.0),
        lambda: pixels.largest_crop(6000, 4000, math.nan),
        lambda: pixels.print_pixels(0.0, 300.0),
        lambda: pixels.print_length(6000, 0.0),
        lambda: pixels.uncompressed_bytes(1, 1, 0),
        lambda: pixels.cropped_side(36.0, 6000, 7000),
    ):
        with pytest.raises(OutOfRange):
            wrong()


def test_a_picture_of_one_line_has_no_even_crop() -> None:
    """A crop is never larger than the picture."""
    assert pixels.largest_crop(100, 1, 1.0).height_px == 1
    with pytest.raises(OutOfRange):
        pixels.largest_crop(100, 1, 1.0, even=True)
