"""Cutting notes into lines, sentences and words without losing where a word stood (shoots.call.core.spans).

Labels: own, by meaning. Unicode categories are those of Python's unicodedata.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.call.core.spans import LONGEST_SENTENCE, clause_around, clean, cut, stem, words_of


@given(st.text(max_size=400))
def test_cleaning_keeps_every_character_at_its_place(text: str) -> None:
    assert len(clean(text)) == len(text)


@given(st.text(max_size=600))
def test_every_sentence_is_a_stretch_of_what_was_typed(text: str) -> None:
    for sentence in cut(text).sentences:
        assert text[sentence.offset : sentence.offset + len(sentence.text)] == sentence.raw
        assert len(sentence.text) == len(sentence.raw)
        for word in sentence.words:
            assert sentence.text[word.start : word.end] == word.text


@given(st.text(alphabet="ab ,.", max_size=2000))
def test_no_sentence_is_longer_than_the_limit_and_no_word_is_lost(text: str) -> None:
    pieces = cut(text).sentences
    assert all(len(piece.text) <= LONGEST_SENTENCE for piece in pieces)
    if len(text) < LONGEST_SENTENCE:
        assert [w.text for piece in pieces for w in piece.words] == [w.text for w in words_of(text)]


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("10\u201312 CAF\u00c9", "10-12 cafe"),
        ("it\u2019s \u201cdark\u201d", 'it\'s "dark"'),
        ("a\u202eb\x07c", "a b c"),
        ("<b>no</b>", "   no    "),
        ("\u00a31,800", "\u00a31,800"),
        ("3 < 4 > 2", "3 < 4 > 2"),
    ],
)
def test_cleaning(typed: str, plain: str) -> None:
    assert clean(typed) == plain


@pytest.mark.parametrize(
    ("plural", "singular"),
    [("boxes", "box"), ("knives", "knife"), ("glasses", "glass"), ("stories", "story"), ("bus", "bus"), ("men", "man")],
)
def test_stems(plural: str, singular: str) -> None:
    assert stem(plural) == stem(singular) == singular


def test_a_full_stop_of_an_abbreviation_ends_no_sentence() -> None:
    texts = [s.text.strip() for s in cut("worldwide excl. US. approx. 10 pics, e.g. details").sentences]
    assert texts == ["worldwide excl. us.", "approx. 10 pics, e.g. details"]


def test_a_correction_belongs_to_what_it_corrects() -> None:
    assert len(cut("4 locations?? no, 2").sentences) == 1
    assert len(cut("4 locations? no idea").sentences) == 2


def test_a_heading_gives_its_topic_to_the_lines_below_until_a_blank_one() -> None:
    notes = cut("Usage:\n- web\n- press\n\nlovely people", lambda label: {"usage": "usage"}.get(label, ""))
    assert [s.topic for s in notes.sentences] == ["usage", "usage", "usage", ""]
    assert [s.line_no for s in notes.sentences] == [1, 2, 3, 5]


def test_a_clause_ends_at_commas_and_dashes_but_not_inside_a_number() -> None:
    text = "two models, fee 1,800 - maybe a dog"
    assert text[slice(*clause_around(text, 16, 21))].strip() == "fee 1,800"
