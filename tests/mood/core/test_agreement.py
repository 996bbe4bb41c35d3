"""Where a set agrees and pulls apart (shoots.mood.core.agreement)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import circmean

from shoots.mood.core.agreement import middle_direction, misses, strange_colours, together
from shoots.mood.core.direction import FoundLight
from shoots.mood.core.lab import lab_of_srgb
from shoots.mood.core.measure import Measured, measure
from shoots.mood.core.palette import Colour
from shoots.mood.core.scales import Scale, targets_at
from shoots.mood.core.tone import Key
from tests.mood import renders


def picture(rgb: np.ndarray) -> Measured:
    return measure(lab_of_srgb(np.asarray(rgb, np.uint8)))


DARK = [picture(renders.ball(300.0, ground=level, reflectance=0.3)) for level in (0.01, 0.015, 0.02)]
BRIGHT = picture(np.full((40, 60, 3), 240, np.uint8))


def test_one_bright_picture_among_dark_ones_disagrees_and_does_not_move_the_rest() -> None:
    set_ = together([*DARK, BRIGHT], targets_at(10))
    assert set_ is not None
    assert set_.stray == (3,)
    assert set_.key is Key.LOW
    assert set_.shadow_percent == pytest.approx(sorted(one.tones.shadow_percent for one in DARK)[1])
    rows = {row.scale: row for row in set_.rows}
    assert rows[Scale.LIGHTNESS].apart == (3,)
    assert 3 in rows[Scale.SHADOW].outside
    assert rows[Scale.CHROMA].agrees
    assert together(DARK, targets_at(10)).stray == ()  # type: ignore[union-attr]


def test_a_picture_that_pulls_away_on_one_scale_alone_does_not_disagree() -> None:
    warm = replace(DARK[0], tones=replace(DARK[0].tones, chroma=DARK[0].tones.chroma + 40))
    set_ = together([*DARK, warm], {})
    assert set_ is not None
    assert {row.scale for row in set_.rows if row.apart} == {Scale.CHROMA}
    assert set_.stray == ()


def test_two_pictures_that_are_opposites_both_disagree() -> None:
    set_ = together([DARK[0], BRIGHT], {})
    assert set_ is not None and set_.stray == (0, 1)
    assert set_.pulls_apart and set_.keys == (Key.LOW, Key.HIGH)
    assert not together([*DARK, BRIGHT], {}).pulls_apart  # type: ignore[union-attr]


def test_one_picture_agrees_with_nobody_and_none_is_no_set() -> None:
    alone = together([BRIGHT], {})
    assert alone is not None
    assert alone.stray == ()
    assert not any(row.agrees for row in alone.rows)
    assert together([], {}) is None


def test_light_from_opposite_sides_pulls_apart_and_untold_light_is_left_out() -> None:
    def lit(degrees: float | None) -> Measured:
        return replace(DARK[0], light=FoundLight(degrees, 0.8, 20.0, None))

    rows = {row.scale: row for row in together([lit(90.0), lit(270.0), lit(None)], {}).rows}  # type: ignore[union-attr]
    assert rows[Scale.DIRECTION].apart == (0, 1)
    rows = {row.scale: row for row in together([lit(350.0), lit(10.0), lit(None)], {}).rows}  # type: ignore[union-attr]
    assert rows[Scale.DIRECTION].agrees
    assert rows[Scale.DIRECTION].middle == pytest.approx(0.0, abs=1e-6) or rows[
        Scale.DIRECTION
    ].middle == pytest.approx(360.0, abs=1e-6)


@given(st.lists(st.floats(0, 359), min_size=1, max_size=8))
def test_the_mean_direction_is_scipy_s(degrees: list[float]) -> None:
    middle = middle_direction(degrees)
    if middle is not None:
        theirs = float(circmean(degrees, high=360, low=0))
        assert abs((middle - theirs + 180) % 360 - 180) < 1e-5


@given(st.permutations(range(4)))
def test_the_order_of_the_pictures_changes_only_their_numbers(order: list[int]) -> None:
    every = [*DARK, BRIGHT]
    set_ = together([every[n] for n in order], targets_at(10))
    assert set_ is not None
    assert {order[n] for n in set_.stray} == {3}
    assert set_.key is Key.LOW


def test_a_bright_picture_misses_a_dark_mood_and_a_dark_one_doesn_t() -> None:
    found = {miss.scale: miss.by for miss in misses(BRIGHT, targets_at(0))}
    assert found[Scale.LIGHTNESS] > 0 and found[Scale.SHADOW] < 0 and found[Scale.HIGHLIGHT] > 0
    dark = replace(DARK[0], tones=replace(DARK[0].tones, lightness_low=2.0, lightness_high=60.0))
    assert misses(dark, targets_at(0)) == ()
    assert misses(BRIGHT, {}) == ()


def test_a_colour_far_from_all_of_the_mood_is_strange() -> None:
    mood = [Colour((20.0, 0.0, 0.0), 80.0), Colour((60.0, 0.0, 0.0), 20.0)]
    found = replace(
        BRIGHT,
        colours=(Colour((22.0, 1.0, 0.0), 90.0), Colour((50.0, 60.0, 40.0), 7.0), Colour((90.0, 0.0, 90.0), 3.0)),
    )
    assert [colour.percent for colour in strange_colours(found, mood)] == [7.0]
    assert strange_colours(found, []) == ()
