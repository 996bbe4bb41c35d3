"""What the readers of numbers share (shoots.call.core.count_words)."""

from __future__ import annotations

import pytest

from shoots.call.core.count_words import LIST_END, NOT_BEHIND, PARTS, SET_OF, draft_of, is_pictures, per_of
from shoots.call.core.drafts import CountOf, CountValue, Reason, ReasonCode
from tests.call.core.notes import sentence


@pytest.mark.parametrize(
    ("text", "per"),
    [
        ("two per look", "outfits"),
        ("two pics per product", "products"),
        ("three each", "each"),
        ("three of every bottle", "products"),
        ("2 shots a location", "locations"),
        ("three", ""),
        ("four a day", "days"),
        ("three for lunch", ""),
    ],
)
def test_what_a_number_is_for_each_of(text: str, per: str) -> None:
    assert per_of(text, len(text.split()[0]), 0) == per


@pytest.mark.parametrize("text", ["%", ":5", "k", "ml", " months", "th", "am", " miles"])
def test_figures_with_a_unit_count_nothing(text: str) -> None:
    assert NOT_BEHIND.match(text)


def test_a_list_goes_on_or_ends() -> None:
    assert all(LIST_END.match(text) for text in ("", ", six", " and six", " + six"))
    assert not LIST_END.match(" models")
    assert SET_OF.search("a set of ") and not SET_OF.search("in front of ")


def test_an_approximate_count_is_to_be_confirmed() -> None:
    line, reason = sentence("about ten finals"), Reason(ReasonCode.NUMBER_AND_NOUN)
    for approximate in (True, False):
        value = CountValue(CountOf.FINALS, 10, 10, approximate)
        assert draft_of(line, value, 0, 16, reason).confirm is approximate


def test_crops_and_places_are_no_pictures() -> None:
    line, reason = sentence("ten"), Reason(ReasonCode.NUMBER_AND_NOUN)
    for of in CountOf:
        want = of in PARTS or of is CountOf.FINALS
        assert is_pictures(draft_of(line, CountValue(of, 1, 1), 0, 3, reason)) is want
    assert CountOf.CROPS not in PARTS and CountOf.LOCATIONS not in PARTS
