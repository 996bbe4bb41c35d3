"""Tables as text. Rules: RFC 4180 and OWASP's "CSV Injection"; encodings: Python's own codecs. The rest is ours."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.shotlist.core.cells import (
    LONGEST_CELL,
    LONGEST_TABLE,
    MOST_COLUMNS,
    MOST_ROWS,
    NoTable,
    TableTooBig,
    bounded,
    clean,
    decoded,
    joined_table,
    neutral,
    plain,
    split_table,
)

CELL = st.text(max_size=30)
#: The first letters that OWASP's page on CSV injection lists.
DANGEROUS = ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"]


@pytest.mark.parametrize("first", DANGEROUS)
def test_a_cell_that_begins_like_a_formula_no_longer_does(first: str) -> None:
    assert neutral(first + "cmd|' /C calc'!A0").startswith("'")


@given(CELL)
def test_the_mark_is_taken_away_again_whatever_the_cell(text: str) -> None:
    assert plain(neutral(text)) == text
    assert neutral(text)[:1] not in DANGEROUS or not text


@given(CELL)
def test_cleaning_twice_changes_nothing_more(text: str) -> None:
    assert clean(clean(text)) == clean(text)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("Pack\x00\x07\x1b[31m", "Pack[31m"),
        ("a\r\nb\rc", "a\nb\nc"),
        ("\u202egpj.exe\u2069", "gpj.exe"),
        ("שלום على", "שלום على"),
        ("👩🏽‍🚀 jumps 🇬🇧", "👩🏽‍🚀 jumps 🇬🇧"),
        ("<script>alert(1)</script>", "<script>alert(1)</script>"),
        ("half \ud800 pair", "half  pair"),
    ],
)
def test_what_harms_goes_and_what_people_write_stays(text: str, kept: str) -> None:
    assert clean(text) == kept


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_every_encoding_that_spreadsheets_save_is_read(encoding: str) -> None:
    text = "Crêpe – “naïve” Größe £5 €"
    assert decoded(text.encode(encoding)) == text


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", b"\xff\xfe\x00", b"PK\x03\x04\x00\x00"])
def test_what_is_no_text_is_refused(data: bytes) -> None:
    with pytest.raises(NoTable):
        decoded(data)


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_the_delimiter_is_found_whatever_the_cells_hold(delimiter: str) -> None:
    rows = (("Title", "Shapes", "Note"), ("Pack, wet; dark", "4:5, 9:16", 'said "no",\nthen went'), ("Vest", "", "x"))
    file = io.StringIO()
    csv.writer(file, delimiter=delimiter).writerows(rows)
    assert split_table(file.getvalue()) == rows


def test_a_line_that_names_the_delimiter_is_believed() -> None:
    assert split_table("sep=|\nTitle|Shapes\nPack|4:5") == (("Title", "Shapes"), ("Pack", "4:5"))


@given(st.lists(st.lists(CELL, min_size=3, max_size=3), min_size=2, max_size=6))
def test_what_is_written_is_read_again(rows: list[list[str]]) -> None:
    # A head, as every table that we write has one: without it a table of one column has no delimiter to be found.
    table = [["Title", "Shapes", "Note"], *rows]
    assert split_table(joined_table(table)) == bounded([[clean(cell) for cell in row] for row in table])


def test_an_inch_mark_or_a_quote_that_is_never_closed_swallows_nothing() -> None:
    assert split_table('Title\tNote\n"Hero on the rim\tx\nPack\ty') == (
        ("Title", "Note"),
        ('"Hero on the rim', "x"),
        ("Pack", "y"),
    )
    assert split_table('Title\tNote\n12" print\tx') == (("Title", "Note"), ('12" print', "x"))


def test_lines_without_any_delimiter_are_one_column() -> None:
    sentence = "Pack on stone 4:5, 15 min; wet"
    assert split_table(f"{sentence}\nRunner; or a walker, maybe") == ((sentence,), ("Runner; or a walker, maybe",))
    assert split_table("Pack on stone\n\n  Runner  \n") == (("Pack on stone",), ("Runner",))
    assert split_table("   ") == ()


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("a\n" * (MOST_ROWS + 1), "rows"),
        ("\n" * (5 * MOST_ROWS) + "a", "rows"),
        ("a\t" * (MOST_COLUMNS + 1) + "a", "columns"),
        ("a" * (LONGEST_CELL + 1), "letters"),
        ("a" * 140_000, "letters"),
        ("a\tb\n" * (LONGEST_TABLE // 4 + 1), "letters"),
    ],
)
def test_a_table_beyond_the_limits_is_refused(text: str, what: str) -> None:
    with pytest.raises(TableTooBig) as told:
        split_table(text)
    assert told.value.args == (what,)


def test_a_table_at_the_limits_is_read() -> None:
    rows = split_table("\n".join(["\t".join(["a"] * MOST_COLUMNS)] * MOST_ROWS))
    assert (len(rows), len(rows[0])) == (MOST_ROWS, MOST_COLUMNS)
