"""Whole notes (shoots.call.core.reading): the issue's worst input, and that reading is the same every time."""

from __future__ import annotations

import time
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.call.core.door import as_data
from shoots.call.core.reading import LONGEST_NOTES, NotesTooLong, read_notes
from tests.call.core.notes import CALLED, data, reading

PIECES = st.sampled_from(
    [
        "10-12 finals", "£1,800 + VAT", "Thu week", "w/c 8 June", "4 locations?? no, 2", "no", "not", "maybe",
        "\n- ", ": ",
        "he's 16", "five all in", "4:5", "worldwide excl. US", "\u202e", "\x00", "\U0001f600", "<script>a(1)</script>",
        "&pound;5", "((((", "-----", "é", "1/2", "99/99/9999", "31 Feb", "£££", "🏖️ beach", "x 3",
        "each", "per", "of the",
    ]
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(st.one_of(st.text(max_size=300), st.lists(PIECES, max_size=14).map(" ".join)))
def test_any_text_is_read_and_every_span_is_inside_it(text: str) -> None:
    found = reading(text)
    for draft in found.drafts:
        assert 0 <= draft.span.start < draft.span.end <= len(text)
    for question in found.questions:
        assert question.span is None or 0 <= question.span.start < question.span.end <= len(text)
    assert as_data(found) == as_data(reading(text))


@settings(max_examples=30, deadline=None)
@given(st.dates(date(2000, 1, 1), date(2090, 1, 1)), st.sampled_from(["GB", "US", "DE", "GR", "ZZ", "", "JP"]))
def test_any_day_and_country_will_do(called: date, country: str) -> None:
    text = (
        "Thu week, w/c 8 June, before Easter, 3/4, 29 Feb, next month, in autumn, budget 2k, end of the month, the 31st"
    )
    assert reading(text, called=called, country=country).drafts


def test_html_and_script_are_neither_read_nor_lost_from_the_positions() -> None:
    text = "<script>alert('10 finals')</script> <b>12 finals</b> &pound;500"
    found = data(text)
    assert found["finals"]["max"] in (10, 12)
    assert [text[slice(*m["span"])] for m in found["money"]] == ["&pound;500"]


def test_emoji_and_right_to_left_text_stand_beside_what_is_read() -> None:
    text = "\U0001f3d4\ufe0f 12 finals \u05e9\u05dc\u05d5\u05dd \u202e4:5\u202c UK"
    found = data(text)
    assert (found["finals"]["max"], found["shapes"][0]["shape"], found["territories"][0]["code"]) == (12, "4:5", "GB")
    assert text[slice(*found["finals"]["span"])] == "12 finals"


def test_notes_longer_than_the_limit_are_refused_with_both_numbers() -> None:
    with pytest.raises(NotesTooLong) as refused:
        read_notes("x" * (LONGEST_NOTES + 1), called_on=CALLED, country="GB")
    assert (refused.value.length, refused.value.limit) == (LONGEST_NOTES + 1, LONGEST_NOTES)


@pytest.mark.parametrize(
    "text",
    ["a" * 100_000, "1 " * 50_000, "no " * 30_000, "(" * 100_000, "10-" * 30_000, "£" * 100_000, "8 June, " * 8_000],
    ids=["one word", "numbers", "no", "brackets", "dashes", "pounds", "dates"],
)
def test_hostile_input_takes_time_in_proportion(text: str) -> None:
    def seconds(piece: str) -> float:
        began = time.process_time()
        reading(piece)
        return time.process_time() - began

    seconds(text[:2_000])
    short, long = seconds(text[: len(text) // 10]), seconds(text)
    assert long < 30 * max(short, 0.02)
