"""What is said about pictures and sets (shoots.mood.queries.words)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from shoots.mood.core.agreement import Miss, together
from shoots.mood.core.direction import FoundLight, Untold
from shoots.mood.core.lab import lab_of_srgb
from shoots.mood.core.measure import Measured, measure
from shoots.mood.core.scales import Scale, Span
from shoots.mood.core.tone import Key
from shoots.mood.queries import words


def flat(code: int, **tones: float) -> Measured:
    found = measure(lab_of_srgb(np.full((12, 12, 3), code, np.uint8)))
    return replace(found, tones=replace(found.tones, **tones)) if tones else found


def test_a_set_is_said_as_one_would_say_it() -> None:
    dark = [flat(30, shadow_percent=70.0, middle_percent=30.0) for _ in range(3)]
    bright = flat(240)
    set_ = together([dark[0], dark[1], bright, dark[2], bright], {})
    assert set_ is not None
    assert words.set_sentence(set_, 5) == "Dark; 70 % in shadow; references 3 and 5 disagree."
    alike = together(dark, {})
    assert alike is not None
    assert words.set_sentence(alike, 3) == "Dark; 70 % in shadow; all 3 references agree."
    waits = words.set_sentence(alike, 3, 18)
    assert waits == "Dark; 70 % in shadow; all 3 references agree. 18 more are being measured."
    pair = together(dark[:2], {})
    assert pair is not None
    assert words.set_sentence(pair, 2) == "Dark; 70 % in shadow; both references agree."
    alone = together([bright], {})
    assert alone is not None
    assert words.set_sentence(alone, 1) == "Bright; 100 % in the highlights."
    opposites = together([dark[0], bright], {})
    assert opposites is not None
    assert words.set_sentence(opposites, 2) == "The references pull apart: 1 dark, 1 bright."
    hues = [flat(30, shadow_percent=70.0, middle_percent=30.0, chroma=30.0 * n, warm_shadows=40.0 * n) for n in (0, 1)]
    coloured = together(hues, {})
    assert coloured is not None
    assert words.set_sentence(coloured, 2) == "Dark; 70 % in shadow; the references pull apart in colour and light."


def test_the_middle_and_two_halves_have_their_own_words() -> None:
    assert words.shares(Key.SPLIT, 40.0, 35.0) == "40 % in shadow, 35 % in the highlights"
    assert words.shares(Key.MIDDLE, 10.0, 20.0) == "70 % in the middle tones"


def test_a_picture_s_sentence_names_tints_and_the_side_of_the_light() -> None:
    lit = replace(flat(30, warm_highlights=9.0, warm_shadows=-6.0), light=FoundLight(312.0, 0.8, 20.0, None))
    assert words.picture_sentence(lit) == (
        "Dark; 100 % in shadow; highlights warm, shadows cool; light from the upper left."
    )
    assert words.picture_sentence(flat(30)) == "Dark; 100 % in shadow; neutral throughout."


@pytest.mark.parametrize(
    ("degrees", "side"),
    [(0, "the top"), (22, "the top"), (23, "the upper right"), (90, "the right"), (180, "below"), (359, "the top")],
)
def test_a_side_is_one_of_eight(degrees: float, side: str) -> None:
    assert words.side(degrees) == side


@pytest.mark.parametrize("why", list(Untold))
def test_every_reason_for_not_telling_is_said(why: Untold) -> None:
    assert "can’t be told: " in words.light_words(FoundLight(None, 0.0, 0.0, why))
    found = replace(flat(90), light=FoundLight(None, 0.0, 0.0, why))
    assert words.figure_words(Scale.DIRECTION, found)[0].isupper()


def test_numbers_have_their_units_and_a_real_minus_sign() -> None:
    assert words.value_words(Scale.SHADOW, 72.4) == "72 %"
    assert words.value_words(Scale.WARM_SHADOWS, -6.2) == "cool, −6"
    assert words.value_words(Scale.WARM_SHADOWS, -0.2) == "neutral, 0"
    assert words.value_words(Scale.LIGHTNESS, 16.6) == "L* 17"
    assert words.span_words(Scale.WARM_SHADOWS, Span(-12.0, 4.0)) == "−12 to 4"
    assert words.span_words(Scale.DIRECTION, Span(210.0, 330.0)) == "from the left"
    assert words.span_words(Scale.DIRECTION, Span(300.0, 60.0)) == "from the top"


def test_a_verdict_names_each_thing_once() -> None:
    low, high = Miss(Scale.LIGHTNESS, 60.0, Span(0, 32), 28.0), Miss(Scale.HIGHLIGHT, 50.0, Span(0, 15), 35.0)
    assert words.verdict_sentence([low, high], 0) == "Brighter than agreed."
    warm = Miss(Scale.WARM_HIGHLIGHTS, -9.0, Span(0, 20), -9.0)
    assert words.verdict_sentence([warm], 2) == "Cooler in the highlights; 2 colours that the mood doesn’t have."
    assert words.verdict_sentence([], 0) == "Within the mood."
