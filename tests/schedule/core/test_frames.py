"""Frames of a setup spread over its shots."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.schedule.core.frames import frames_of_shots
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("of_setup", "of_shots", "expected"),
    [
        (120, [None, None, None], (40.0, 40.0, 40.0)),
        (120, [60, None, None], (60.0, 30.0, 30.0)),
        (50, [60, None], (60.0, 0.0)),
        (100, [60, 20], (70.0, 30.0)),
        (None, [60, None], (60.0, None)),
        (None, [], ()),
        (10, [], ()),
    ],
)
def test_a_shot_keeps_its_own_number_and_the_rest_is_shared(of_setup, of_shots, expected) -> None:
    """Derived by hand."""
    assert frames_of_shots(of_setup, of_shots) == expected


@given(st.integers(0, 1000), st.lists(st.none() | st.integers(0, 500), min_size=1, max_size=8))
def test_no_planned_frame_gets_lost(of_setup, of_shots) -> None:
    found = frames_of_shots(of_setup, of_shots)
    said = sum(number or 0 for number in of_shots)
    assert sum(found) == pytest.approx(max(of_setup, said))
    assert all(mine >= (own or 0) for mine, own in zip(found, of_shots, strict=True))


def test_numbers_that_cannot_be_meant_are_refused() -> None:
    for call in (lambda: frames_of_shots(-1, [1]), lambda: frames_of_shots(1, [-1])):
        with pytest.raises(OutOfRange):
            call()
