"""From a mood to wishes: arithmetic of light that adds, and common practice without a source (marked so)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.brief.core.light import light_asked
from shoots.lighting.core.moodwishes import key_over_fill, mood_wishes, span_target
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(("to_one", "over"), [(2, 0.0), (3, 1.0), (5, 2.0), (9, 3.0)])
def test_a_ratio_of_lit_to_shadow_side_leaves_the_key_over_the_fill(to_one: int, over: float) -> None:
    """US Army course SS0510, pp. 1-18 and 1-19: a key twice as strong as the fill makes 3:1, key and fill to fill."""
    assert key_over_fill(math.log2(to_one)) == pytest.approx(over)


@pytest.mark.parametrize("shadow", [0.0, -1.0, 21.0, math.nan])
def test_shadows_that_cannot_be_meant_are_refused(shadow: float) -> None:
    with pytest.raises(OutOfRange):
        key_over_fill(shadow)


@given(st.floats(-10, 10), st.floats(0, 5))
def test_a_span_is_its_middle_give_or_take_half(low: float, width: float) -> None:
    target = span_target(low, low + width)
    assert target.stops - target.tolerance_stops == pytest.approx(low)
    assert target.stops + target.tolerance_stops == pytest.approx(low + width)


@given(st.floats(0, 100))
def test_what_a_mood_asks_for_can_be_met_at_once_by_a_key_in_ambient_light(brightness: float) -> None:
    """Light adds: with ambient a and a key r stops over it the exposure is a + log2(1 + 2^r). Own arithmetic."""
    wishes = mood_wishes(light_asked(brightness))
    assert wishes.ambient is not None
    assert wishes.key_over_fill is not None
    steps = [n / 50 - 1.0 for n in range(101)]
    best = min(
        abs(ambient + math.log2(1.0 + 2.0**ratio))
        for ambient in (wishes.ambient.stops + step * wishes.ambient.tolerance_stops for step in steps)
        for ratio in (wishes.key_over_fill.stops + step * wishes.key_over_fill.tolerance_stops for step in steps)
    )
    assert best <= wishes.exposure.tolerance_stops


def test_dark_asks_for_depth_and_bright_for_a_wide_aperture_and_lets_the_sky_go() -> None:
    """Common practice, no source."""
    dark, bright = mood_wishes(light_asked(0)), mood_wishes(light_asked(100))
    assert (dark.widest, dark.narrowest, dark.sky_may_blow) == (8.0, None, False)
    assert (bright.widest, bright.narrowest, bright.sky_may_blow) == (None, 2.8, True)
