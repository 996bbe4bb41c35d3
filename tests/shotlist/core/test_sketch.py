"""Thumbnails of planned pictures: geometry that must hold for every sketch. Own drawing, no source."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.shotlist.core.sketch import Near, Region, copy_region, sketch
from shoots.shotlist.models import Framing


def grey(colour: str) -> float:
    red, green, blue = (int(colour[n : n + 2], 16) for n in (1, 3, 5))
    return (red + green + blue) / 765


def test_framings_of_the_list_are_those_that_are_drawn() -> None:
    assert {near.value for near in Near} == {framing.value for framing in Framing}


@pytest.mark.parametrize(
    ("shape", "width", "height"),
    [("4:5", 80.0, 100.0), ("3:2", 100.0, 66.67), ("9:16", 56.25, 100.0), ("square", 100.0, 100.0)],
)
def test_the_frame_has_the_shape_that_was_asked_for(shape: str, width: float, height: float) -> None:
    drawn = sketch(Near.FULL, shape, 50)
    assert (drawn.width, drawn.height) == (width, height)
    assert drawn.left * 2 + drawn.width == pytest.approx(100)
    assert drawn.top * 2 + drawn.height == pytest.approx(100)


def test_a_shape_that_nobody_knows_is_drawn_all_the_same() -> None:
    assert sketch(Near.FULL, "trapezium", 50).width == 100.0


@given(st.sampled_from(Near), st.sampled_from(["4:5", "1:1", "3:1", "9:16"]), st.floats(0, 100), st.text(max_size=30))
def test_every_sketch_is_made_of_plain_numbers_and_grey_tones(
    near: Near, shape: str, brightness: float, copy_space: str
) -> None:
    for mark in sketch(near, shape, brightness, copy_space).marks:
        assert re.fullmatch(r"[MLHVCaZ0-9 .\-]+", mark.d)
        assert re.fullmatch(r"none|#[0-9a-f]{6}", mark.fill)
        assert re.fullmatch(r"none|#[0-9a-f]{6}", mark.stroke)
        assert 0.0 < mark.opacity <= 1.0


@pytest.mark.parametrize("near", Near)
def test_a_dark_mood_is_drawn_darker_than_a_bright_one(near: Near) -> None:
    dark, bright = sketch(near, "4:5", 5).marks[0], sketch(near, "4:5", 95).marks[0]
    assert grey(dark.fill) < 0.25
    assert grey(bright.fill) > 0.7


def test_only_a_dark_mood_draws_rims() -> None:
    def strokes(brightness: float) -> int:
        return sum(mark.stroke != "none" for mark in sketch(Near.FULL, "4:5", brightness).marks)

    assert strokes(5) == 1
    assert strokes(95) == 0


@pytest.mark.parametrize(
    ("words", "region"),
    [
        ("", None),
        ("top left for the strapline", Region(0.0, 0.0, 0.5, 0.38)),
        ("right third", Region(0.58, 0.0, 1.0, 1.0)),
        ("lower edge", Region(0.0, 0.68, 1.0, 1.0)),
        ("sky for the headline", Region(0.0, 0.0, 1.0, 0.3)),
        ("somewhere", Region(0.0, 0.0, 1.0, 0.3)),
    ],
)
def test_room_for_words_lies_where_the_words_say(words: str, region: Region | None) -> None:
    assert copy_region(words) == region


def test_the_subject_steps_aside_for_the_words() -> None:
    def middle(copy_space: str) -> float:
        body = next(mark for mark in sketch(Near.FULL, "3:2", 50, copy_space).marks if "C" in mark.d)
        return float(re.match(r"M(\S+)", body.d)[1])  # type: ignore[index]

    assert middle("left third") > middle("") > middle("right third")
