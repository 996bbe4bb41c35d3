"""Names of things (shoots.call.core.product_names)."""

from __future__ import annotations

import pytest

from shoots.call.core.lexicons import package_lexicons
from shoots.call.core.product_names import listed, named, runs, with_modifiers
from tests.call.core.notes import hits, sentence

WORDS = package_lexicons()


def test_neighbouring_nouns_are_one_thing() -> None:
    line = sentence("chocolate gift box and a candle")
    assert [len(run) for run in runs(line, hits(line))] == [2, 1]


def test_a_noun_of_a_longer_phrase_of_another_kind_is_none() -> None:
    line = sentence("in the shop window")
    assert runs(line, hits(line)) == []


@pytest.mark.parametrize(
    ("text", "noun", "name"),
    [
        ("rye sourdough loaf", "loaf", "rye sourdough loaf"),
        ("the new jacket", "jacket", "jacket"),
        ("two red jackets", "jackets", "jackets"),
        ("moody candle", "candle", "candle"),
    ],
)
def test_what_stands_before_a_noun_belongs_to_its_name(text: str, noun: str, name: str) -> None:
    line = sentence(text)
    start = text.index(noun)
    assert with_modifiers(line, hits(line), WORDS, start, start + len(noun))[1] == name


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("maker of theremins", ["theremins"]),
        ("they sell alpenhorns in Kent", ["alpenhorns"]),
        ("we make it simple", []),
        ("they sell candles", []),
    ],
)
def test_names_behind_maker_of(text: str, names: list[str]) -> None:
    line = sentence(text)
    assert [thing.name for thing in named(line, hits(line), WORDS)] == names


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("products: accordions, concertinas", ["accordions", "concertinas"]),
        ("products: tbc", []),
        ("products: the red ones", []),
    ],
)
def test_items_of_a_labelled_list(text: str, names: list[str]) -> None:
    line = sentence(text, topic="products")
    assert [thing.name for thing in listed(line, hits(line), (), WORDS)] == names
