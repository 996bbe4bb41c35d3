"""A table of shots. The words are the trade's, from memory; the arrangement is ours."""

from __future__ import annotations

import string
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.brief.models import PLACEMENT_LABELS
from shoots.shotlist.core.cells import bounded, clean, joined_table, split_table
from shoots.shotlist.core.columns import HEADS, OTHER_WORDS, Column, heads_of
from shoots.shotlist.core.rows import (
    LONGEST,
    LONGEST_NAME,
    RANGES,
    Finishing,
    Problem,
    UnreadableCell,
    guessed,
    read_cell,
    read_table,
    write_row,
)
from shoots.shotlist.models import FinishingItem, Framing, Moment, Named, Orientation, Priority, Shot
from shoots.shotlist.queries import WORDS

KNOWN = {
    Column.MOOD: {"Storm coming": 1, "First warm evening": 2},
    Column.SETUP: {"Rim of the quarry": 3},
    Column.PLACE: {"Quarry": 4},
    Column.DAY: {"2026-06-09": 5},
}


def said(column: Column, text: str):
    return read_cell(column, text, WORDS, KNOWN)


@pytest.mark.parametrize(
    ("column", "text", "value"),
    [
        (Column.FRAMING, "full length", "FULL"),
        (Column.FRAMING, "Close-up", "CLOSE"),
        (Column.FRAMING, "DETAIL", "DETAIL"),
        (Column.ORIENTATION, "Portrait", "UPRIGHT"),
        (Column.ORIENTATION, "landscape", "LANDSCAPE"),
        (Column.MOMENT, "golden hour", "LOW_EVE"),
        (Column.MOMENT, "Low evening sun", "LOW_EVE"),
        (Column.PRIORITY, "nice to have", "WISH"),
        (Column.PRIORITY, "Must", "MUST"),
        (Column.PLACEMENTS, "paid social, web shop; Own website", ("OWN_WEBSITE", "WEB_SHOP", "PAID_SOCIAL")),
        (Column.SHAPES, "4x5 / 9:16", ("4:5", "9:16")),
        (Column.PRODUCTS, "12 litre pack, slate;Vest ; 12 litre pack, slate", ("12 litre pack, slate", "Vest")),
        (Column.MINUTES, "20", 20),
        (Column.MINUTES, "20.0", 20),
        (Column.MINUTES, "15 min", 15),
        (Column.MINUTES, "1h 30", 90),
        (Column.FINALS, "2 pictures", 2),
        (Column.FRAMES, "40 frames", 40),
        (Column.MOOD, "storm COMING", 1),
        (Column.DAY, "2026-06-09", 5),
        (Column.DAY, "2026-06-09T00:00:00", 5),
        (Column.DAY, "9/6/2026", 5),
        (Column.DAY, "09.06.2026", 5),
        (Column.FINISHING, "A flare added", (Finishing("A flare added"),)),
        (
            Column.FINISHING,
            "Flare × 2 @ £30; Sky darkened @ 12,50",
            (Finishing("Flare", 2, Decimal("30.00")), Finishing("Sky darkened", None, Decimal("12.50"))),
        ),
        (Column.TITLE, "=HYPERLINK(1)", "=HYPERLINK(1)"),
        (Column.NOTE, "two\nlines", "two\nlines"),
    ],
)
def test_a_cell_is_read_as_people_write_it(column: Column, text: str, value: object) -> None:
    assert said(column, text) == value


@pytest.mark.parametrize(
    ("column", "text", "problem"),
    [
        (Column.TITLE, "", Problem.EMPTY),
        (Column.TITLE, "x" * 161, Problem.TOO_LONG),
        (Column.FRAMING, "nearer", Problem.NO_CHOICE),
        (Column.PLACEMENTS, "Own website; moon", Problem.NO_CHOICE),
        (Column.SHAPES, "4:5, blob", Problem.NO_SHAPE),
        (Column.MINUTES, "soon", Problem.NO_NUMBER),
        (Column.MINUTES, "-5", Problem.NO_NUMBER),
        (Column.MINUTES, "0", Problem.OUT_OF_RANGE),
        (Column.MINUTES, "721", Problem.OUT_OF_RANGE),
        (Column.FINALS, "501", Problem.OUT_OF_RANGE),
        (Column.MOOD, "Fog", Problem.NO_SUCH),
        (Column.DAY, "2026-06-10", Problem.NO_SUCH),
        (Column.DAY, "31/2/2026", Problem.NO_DATE),
        (Column.DAY, "Tuesday", Problem.NO_DATE),
        (Column.PRODUCTS, "x" * 121, Problem.TOO_LONG),
        (Column.FINISHING, "Flare × 0", Problem.NO_FINISHING),
    ],
)
def test_a_cell_that_is_not_understood_says_why(column: Column, text: str, problem: Problem) -> None:
    with pytest.raises(UnreadableCell) as told:
        said(column, text)
    assert told.value.problem is problem


def test_columns_without_a_head_are_told_from_their_cells() -> None:
    rows = [["1", "Pack on stone", "4:5", "wish", "half"], ["2", "Runner", "9:16, 4:5", "must", "wide"]]
    assert guessed(rows, WORDS) == (None, Column.TITLE, Column.SHAPES, Column.PRIORITY, Column.FRAMING)


def test_errors_name_row_and_place_and_the_rest_is_read() -> None:
    columns = [Column.TITLE, None, Column.MINUTES]
    read = read_table([["Pack", "ignored", "x"], ["", "", "5"], ["Vest", "", ""]], columns, WORDS, KNOWN)
    assert [(e.row, e.place, e.problem) for e in read.errors] == [(0, 2, Problem.NO_NUMBER), (1, 0, Problem.EMPTY)]
    assert read.rows == ({Column.TITLE: "Pack"}, {Column.MINUTES: 5}, {Column.TITLE: "Vest"})


def test_words_cover_every_choice_and_every_other_word_is_one_of_them() -> None:
    choices = {
        Column.FRAMING: Framing,
        Column.ORIENTATION: Orientation,
        Column.MOMENT: Moment,
        Column.PRIORITY: Priority,
    }
    for column, codes in choices.items():
        assert set(WORDS[column]) == {code.value for code in codes}
    assert set(WORDS[Column.PLACEMENTS]) == {code.value for code in PLACEMENT_LABELS}
    for column, others in OTHER_WORDS.items():
        assert set(others.values()) <= set(WORDS[column])


def test_limits_are_the_model_s() -> None:
    for column, field in (
        (Column.TITLE, "title"),
        (Column.PURPOSE, "purpose"),
        (Column.COPY_SPACE, "copy_space"),
        (Column.MOMENT_NOTE, "moment_note"),
    ):
        assert LONGEST[column] == Shot._meta.get_field(field).max_length
    assert Named._meta.get_field("name").max_length == LONGEST_NAME
    assert FinishingItem._meta.get_field("what").max_length == LONGEST_NAME
    for column, field in ((Column.MINUTES, "minutes"), (Column.FINALS, "finals"), (Column.FRAMES, "frames")):
        limits = {v.limit_value for v in Shot._meta.get_field(field).validators if "Value" in type(v).__name__}
        assert RANGES[column][1] in limits


TEXT = st.text(max_size=40).map(lambda text: clean(text.replace("\n", " ").replace("\t", " ").replace("\r", " ")))
NAMES = st.lists(
    st.text(string.ascii_letters + " ,=+-@'äé", min_size=1, max_size=12)
    .map(lambda t: " ".join(t.split()))
    .filter(bool),
    max_size=3,
    unique=True,
).map(tuple)
SHOTS = st.fixed_dictionaries(
    {
        Column.TITLE: TEXT.filter(bool),
        Column.PURPOSE: TEXT,
        Column.PLACEMENTS: st.sets(st.sampled_from([code.value for code in PLACEMENT_LABELS])).map(
            lambda found: tuple(code.value for code in PLACEMENT_LABELS if code.value in found)
        ),
        Column.FRAMING: st.sampled_from([code.value for code in Framing]),
        Column.ORIENTATION: st.sampled_from([code.value for code in Orientation]),
        Column.SHAPES: st.sampled_from([(), ("4:5",), ("9:16", "square"), ("landscape banner", "A4 portrait")]),
        Column.COPY_SPACE: TEXT,
        Column.PRODUCTS: NAMES,
        Column.SUBJECTS: NAMES,
        Column.OUTFITS: NAMES,
        Column.MOMENT: st.sampled_from([code.value for code in Moment]),
        Column.MOMENT_NOTE: TEXT,
        Column.PRIORITY: st.sampled_from([code.value for code in Priority]),
        Column.MINUTES: st.integers(1, 720),
        Column.FINALS: st.integers(0, 500),
        Column.FRAMES: st.integers(1, 100000),
        Column.FINISHING: st.lists(
            st.builds(
                Finishing,
                st.sampled_from(["A flare added", "=SUM(A1)", "Sky, darkened", "Rear light warmed"]),
                st.none() | st.integers(1, 500),
                st.none() | st.decimals(0, 99999, places=2),
            ),
            max_size=3,
            unique=True,
        ).map(tuple),
        Column.NOTE: st.text(max_size=60).map(clean),
    }
)


@given(st.lists(SHOTS, min_size=1, max_size=4))
def test_a_list_that_is_written_and_read_again_says_the_same(shots) -> None:
    table = [list(HEADS.values()), *(write_row(shot, WORDS) for shot in shots)]
    rows = split_table(joined_table(table))
    assert rows == bounded([[clean(cell) for cell in row] for row in table])
    read = read_table(rows[1:], heads_of(rows[0]), WORDS, KNOWN)
    assert not read.errors
    for shot, again in zip(shots, read.rows, strict=True):
        assert {column: value for column, value in shot.items() if value not in ("", ())} == again
