"""Wishes that contradict themselves are refused where they are made."""

import pytest

from shoots.lighting.core.wishes import PositionRange, Target, Warmth, Wishes
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("wrong", "name"),
    [
        (lambda: Target(99.0), "stops"),
        (lambda: Target(0.0, -0.1), "tolerance_stops"),
        (lambda: Warmth("A", float("nan")), "mired"),
        (lambda: Wishes(widest=0.0), "widest"),
        (lambda: Wishes(widest=11.0, narrowest=4.0), "narrowest"),
        (lambda: Wishes(sharp_from_m=0.0, sharp_to_m=2.0), "sharp_from_m"),
        (lambda: Wishes(blur_mm=0.0), "blur_mm"),
        (lambda: PositionRange("A", 2.0, 1.0), "farthest_m"),
    ],
)
def test_wishes_that_cannot_be_meant_are_named(wrong: object, name: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        wrong()  # type: ignore[operator]
    assert caught.value.name == name


def test_the_usual_tolerance_is_a_third_of_a_stop() -> None:
    assert Target(0.0).tolerance_stops == pytest.approx(1 / 3)
