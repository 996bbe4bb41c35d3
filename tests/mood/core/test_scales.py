"""What a mood asks for on each scale (shoots.mood.core.scales). The ranges are our own judgement, no source."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.mood.core.lab import lab_of_srgb
from shoots.mood.core.measure import measure
from shoots.mood.core.scales import ASKED, AXES, LINEAR, Scale, Span, misses_by, place_of, targets_at
from shoots.values.units import OutOfRange


def grey(code: int):  # type: ignore[no-untyped-def]
    return measure(lab_of_srgb(np.full((8, 8, 3), code, np.uint8)))


def test_the_anchors_ask_for_what_the_table_says_and_the_middle_lies_between() -> None:
    assert targets_at(0)[Scale.SHADOW] == Span(55.0, 100.0)
    assert targets_at(100)[Scale.HIGHLIGHT] == Span(45.0, 100.0)
    low, high = ASKED[Scale.LIGHTNESS]
    assert targets_at(12.5)[Scale.LIGHTNESS] == Span((low[0] + low[1]) / 2, (high[0] + high[1]) / 2)


def test_a_black_picture_is_dark_enough_for_any_dark_mood_and_a_white_one_bright_enough() -> None:
    for place in (0, 10, 20):
        assert misses_by(Scale.SHADOW, 100.0, targets_at(place)) == 0
        assert misses_by(Scale.HIGHLIGHT, 0.0, targets_at(place)) == 0
    for place in (80, 90, 100):
        assert misses_by(Scale.HIGHLIGHT, 100.0, targets_at(place)) == 0
        assert misses_by(Scale.SHADOW, 0.0, targets_at(place)) == 0


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_brighter_place_never_asks_for_less_light(one: float, other: float) -> None:
    dark, bright = sorted((one, other))
    assert targets_at(bright)[Scale.LIGHTNESS].low >= targets_at(dark)[Scale.LIGHTNESS].low
    assert targets_at(bright)[Scale.SHADOW].high <= targets_at(dark)[Scale.SHADOW].high
    for scale, span in targets_at(one).items():
        assert AXES[scale].low <= span.low < span.high <= AXES[scale].high


@pytest.mark.parametrize("place", [-1.0, 100.1, float("nan")])
def test_no_place_beyond_the_poles(place: float) -> None:
    with pytest.raises(OutOfRange):
        targets_at(place)


def test_places_end_at_the_poles() -> None:
    assert place_of(grey(0)) == 0.0
    assert place_of(grey(255)) == 100.0
    places = [place_of(grey(code)) for code in range(0, 256, 8)]
    assert places == sorted(places)
    assert 30 < place_of(grey(118)) < 60  # about mid grey


@given(st.sampled_from(LINEAR), st.floats(-40, 100), st.floats(-40, 100), st.floats(-40, 100))
def test_a_miss_is_the_way_back_into_the_span(scale: Scale, value: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    by = misses_by(scale, value, {scale: Span(low, high)})
    assert low - 1e-9 <= value - by <= high + 1e-9
    assert (by == 0) == (low <= value <= high)
    assert misses_by(scale, value, {}) == 0.0
    assert misses_by(scale, None, {scale: Span(low, high)}) == 0.0


@given(st.floats(0, 359), st.floats(1, 170), st.floats(0, 359.9))
def test_a_direction_is_judged_the_shorter_way_round(middle: float, reach: float, value: float) -> None:
    span = Span((middle - reach) % 360, (middle + reach) % 360)
    by = misses_by(Scale.DIRECTION, value, {Scale.DIRECTION: span})
    away = abs((value - middle + 180) % 360 - 180)
    assert abs(by) == pytest.approx(max(0.0, away - reach), abs=1e-6)
