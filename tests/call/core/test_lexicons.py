"""The trade's words as data, and a user's own (shoots.call.core.lexicons)."""

from __future__ import annotations

from importlib import resources

import pytest

from shoots.call.core.door import as_data
from shoots.call.core.lexicons import FORGIVING, BadLexicon, merged, package_lexicons, package_texts
from shoots.call.core.reading import read_notes
from shoots.call.core.spans import clean, words_of
from tests.call.core.notes import CALLED, hits, sentence


def test_all_files_of_the_program_can_be_read() -> None:
    folder = resources.files("shoots.call.core") / "lexicon"
    assert len(package_texts()) == sum(f.name.endswith(".toml") for f in folder.iterdir())
    tables = package_lexicons().tables
    assert set(tables) >= FORGIVING - {"weekday", "month", "usage", "copy"}
    assert all(entry.words or entry.data for codes in tables.values() for entry in codes.values())


def test_the_longest_phrase_wins_and_none_overlaps() -> None:
    found = hits(sentence("own website and web shop"))["placement"]
    assert [(hit.code, hit.start, hit.end) for hit in found] == [("own_website", 0, 11), ("web_shop", 16, 24)]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("reservior", "reservoir"), ("instagrm", "instagram"), ("bilboard", "billboard"), ("packagng", "packaging")],
)
def test_one_slip_of_a_letter_is_forgiven(typed: str, meant: str) -> None:
    assert package_lexicons().meant(typed) == meant


@pytest.mark.parametrize("word", ["bench", "dress", "horse", "grass", "store", "please", "cat"])
def test_everyday_and_short_words_are_never_taken_for_a_slip(word: str) -> None:
    assert package_lexicons().meant(word) == word


def test_a_users_words_are_added_and_take_nothing_away() -> None:
    extra = (
        '[placement.point_of_sale]\nwords = ["fridge door"]\n'
        '[place.tide_mill]\nwords = ["tide mill"]\nhazards = ["tide"]'
    )
    own = package_lexicons((extra,))
    before = package_lexicons().tables["placement"]["point_of_sale"].words
    assert own.tables["placement"]["point_of_sale"].words == (*before, "fridge door")
    text = "shoot at the tide mill\nfor fridge door and press"
    plain = as_data(read_notes(text, called_on=CALLED, country="GB"))
    more = as_data(read_notes(text, called_on=CALLED, country="GB", lexicons=own))
    assert [p["placement"] for p in plain["placements"]] == ["press"]
    assert [p["placement"] for p in more["placements"]] == ["point of sale", "press"]
    assert [h["code"] for h in more["hazards"]] == ["tide"]


@pytest.mark.parametrize("text", ["[place", "place = 3", "[place]\nmill = 3", "[place.mill]\nwords = [1]"])
def test_a_file_that_is_no_table_of_words_is_refused(text: str) -> None:
    with pytest.raises(BadLexicon):
        merged([text])


def test_everyday_words() -> None:
    words = package_lexicons()
    assert words.is_everyday("please") and not words.is_everyday("accordion")
    assert {"navy", "rust"} <= words.set_of("colour") and words.set_of("no such table") == frozenset()


@pytest.mark.parametrize("table", ["person", "placement", "shape", "region", "group"])
def test_hardly_a_word_stands_under_two_codes_of_a_table_where_only_one_can_win(table: str) -> None:
    codes: dict[tuple[str, ...], set[str]] = {}
    for code, entry in package_lexicons().tables[table].items():
        for text in set(entry.words) - {*entry.data.get("exact", ()), *entry.data.get("cased", ())}:
            codes.setdefault(tuple(word.stem for word in words_of(clean(text))), set()).add(code)
    twice = {" ".join(words) for words, found in codes.items() if len(found) > 1}
    known = {
        "print ads",
        "flyer",
        "commuter",
        "partner",
        "volunteer",
        "little boy",
        "little girl",
        "grandma",
        "grandad",
    }
    assert twice <= known
