"""What is left of a frame. Worked by hand in millimetres, on a frame of 36 by 24 (ISO 1007)."""

from __future__ import annotations

import pytest

from shoots.brief.core.shapes import UnknownShape
from shoots.shotlist.core.crops import kept


@pytest.mark.parametrize(
    ("shape", "orientation", "width_mm", "height_mm"),
    [
        ("3:2", "LANDSCAPE", 36, 24),
        ("3:2", "UPRIGHT", 24, 16),
        ("4:5", "LANDSCAPE", 19.2, 24),
        ("4:5", "UPRIGHT", 24, 30),
        ("9:16", "LANDSCAPE", 13.5, 24),
        ("9:16", "UPRIGHT", 20.25, 36),
        ("square", "LANDSCAPE", 24, 24),
        ("landscape banner", "LANDSCAPE", 36, 12),
        ("9:16", "", 20.25, 36),
        ("3:1", "BOTH", 36, 12),
    ],
)
def test_the_largest_cut_is_the_one_drawn_by_hand(
    shape: str, orientation: str, width_mm: float, height_mm: float
) -> None:
    assert kept(shape, orientation) == pytest.approx(width_mm * height_mm / (36 * 24))


def test_no_shape_no_cut() -> None:
    with pytest.raises(UnknownShape):
        kept("blob", "")
