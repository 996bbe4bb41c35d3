"""The light that a mood asks for.

Common practice, no source: dark and dramatic keeps the ambient two to three stops under with a hard key and rims,
bright summer keeps the background at middle grey or over with a soft key and shallow depth.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.brief.core.light import Depth, Edge, light_asked
from shoots.values.units import OutOfRange


def test_dark_and_dramatic_is_two_to_three_stops_under_with_a_hard_key_and_rims() -> None:
    asked = light_asked(0)
    assert (asked.ambient_from_stops, asked.ambient_to_stops) == (-3.0, -2.0)
    assert asked.background_to_stops <= 0.0
    assert (asked.key, asked.rims) == (Edge.HARD, True)


def test_bright_summer_is_at_or_over_with_a_soft_key_and_shallow_depth() -> None:
    asked = light_asked(100)
    assert asked.background_from_stops == 0.0
    assert asked.background_to_stops > 0.0
    assert (asked.key, asked.rims, asked.depth) == (Edge.SOFT, False, Depth.SHALLOW)


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_brighter_mood_never_asks_for_less_ambient_or_more_contrast(one: float, other: float) -> None:
    dark, bright = light_asked(min(one, other)), light_asked(max(one, other))
    assert dark.ambient_from_stops <= bright.ambient_from_stops
    assert dark.ambient_to_stops <= bright.ambient_to_stops
    assert dark.background_from_stops <= bright.background_from_stops
    assert dark.background_to_stops <= bright.background_to_stops
    assert dark.key_to_fill_stops >= bright.key_to_fill_stops


@given(st.floats(0, 100), st.floats(-8, 8))
def test_what_misses_the_wish_is_measured_from_its_nearer_end(brightness: float, ambient: float) -> None:
    asked = light_asked(brightness)
    missed = asked.ambient_misses_by(ambient)
    assert asked.ambient_from_stops - 1e-9 <= ambient - missed <= asked.ambient_to_stops + 1e-9
    assert (missed == 0.0) == (asked.ambient_from_stops <= ambient <= asked.ambient_to_stops)


@pytest.mark.parametrize("brightness", [-1, 101, float("nan")])
def test_there_is_nothing_beyond_the_poles(brightness: float) -> None:
    with pytest.raises(OutOfRange):
        light_asked(brightness)


@given(st.floats(0, 100))
def test_the_ambient_that_is_asked_for_leaves_the_shadows_as_dark_as_they_shall_be(brightness: float) -> None:
    """Light adds: a shadow side s stops under the lit side holds 2^-s of it, so no more ambient than that fits."""
    asked = light_asked(brightness)
    assert asked.ambient_from_stops <= -asked.key_to_fill_stops
