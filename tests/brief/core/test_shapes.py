"""Shapes as they are typed. Paper: ISO 216; named shapes: common practice, no source."""

from __future__ import annotations

import math

import pytest

from shoots.brief.core.shapes import UnknownShape, aspect, read_shapes


@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ("4:5, 9:16", ("4:5", "9:16")),
        ("4x5; 16 : 9", ("4:5", "16:9")),
        ("Square, landscape  banner", ("square", "landscape banner")),
        ("a4 Portrait", ("A4 portrait",)),
        ("1.91:1", ("1.91:1",)),
        ("4:5, 4/5", ("4:5",)),
        ("", ()),
    ],
)
def test_typed_shapes_are_stored_in_one_spelling(typed: str, stored: tuple[str, ...]) -> None:
    assert read_shapes(typed) == stored


@pytest.mark.parametrize("typed", ["0:5", "4:0", "1:100", "blob", "4:5:6", "4:5, blob", "999:1"])
def test_what_is_no_shape_is_refused(typed: str) -> None:
    with pytest.raises(UnknownShape):
        read_shapes(typed)


def test_paper_has_sides_of_one_to_the_root_of_two() -> None:
    """ISO 216."""
    assert aspect("A4 landscape") == pytest.approx(297 / 210, rel=0.002)
    assert aspect("A3") == pytest.approx(297 / 420, rel=0.002)
    assert aspect("double page") == pytest.approx(math.sqrt(2))


@pytest.mark.parametrize(("shape", "wide"), [("4:5", 0.8), ("9:16", 0.5625), ("3:2", 1.5), ("square", 1.0)])
def test_a_ratio_is_width_over_height(shape: str, wide: float) -> None:
    assert aspect(shape) == wide
