"""Workbooks: round trip, limits, and files that mean harm. Made with the library and with zipfile alone."""

from __future__ import annotations

import io
import zipfile
from datetime import date

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.shotlist.adapters import MOST_BYTES, is_workbook, read_workbook, workbook
from shoots.shotlist.core.cells import MOST_COLUMNS, MOST_ROWS, NoTable, TableTooBig, bounded, clean


def opened(data: bytes):
    return read_workbook(io.BytesIO(data))


def packed(parts: dict[str, bytes]) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return file.getvalue()


def parts_of(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@settings(max_examples=40, deadline=None)
@given(st.lists(st.lists(st.text(max_size=25), min_size=2, max_size=2), min_size=1, max_size=4))
def test_what_is_written_is_read_again(rows: list[list[str]]) -> None:
    table = [["Title", "Note"], *rows]
    assert opened(workbook(table)) == bounded([[clean(cell) for cell in row] for row in table])


@pytest.mark.parametrize(
    "text", ["_x0041_", "_x000D_", "__x0041_ b", "=1+1", "@x", "'=1", "0012", "1e5", "TRUE", "2026-06-09"]
)
def test_text_stays_text(text: str) -> None:
    assert opened(workbook([["Title", "Note"], ["a", text]]))[1][1] == text


def test_no_cell_of_a_written_workbook_is_a_formula() -> None:
    data = workbook([["Title"], ['=HYPERLINK("x")'], ["+1"], ["-1"], ["@SUM(1)"]])
    sheet = openpyxl.load_workbook(io.BytesIO(data)).active
    assert [cell.data_type for (cell,) in sheet.iter_rows()] == ["s"] * 5
    assert [cell.value for (cell,) in sheet.iter_rows(min_row=2)] == ['\'=HYPERLINK("x")', "'+1", "'-1", "'@SUM(1)"]


def test_minutes_are_numbers_that_can_be_summed() -> None:
    data = workbook([["Title", "Minutes"], ["a", "20"]], numbers=[1])
    assert openpyxl.load_workbook(io.BytesIO(data)).active["B2"].value == 20


def test_numbers_dates_and_saved_results_are_read_and_formulas_are_not_worked_out() -> None:
    book = openpyxl.Workbook()
    book.active.append(["Title", 20.0, date(2026, 6, 9), 2.5, True, "=1+1"])
    file = io.BytesIO()
    book.save(file)
    assert opened(file.getvalue()) == (("Title", "20", "2026-06-09", "2.5", "True"),)


def test_the_first_sheet_that_is_shown_is_read() -> None:
    book = openpyxl.Workbook()
    book.active.append(["hidden"])
    book.active.sheet_state = "hidden"
    book.create_sheet("Shots").append(["shown"])
    file = io.BytesIO()
    book.save(file)
    assert opened(file.getvalue()) == (("shown",),)


@pytest.mark.parametrize(("rows", "columns", "what"), [(MOST_ROWS + 1, 1, "rows"), (1, MOST_COLUMNS + 1, "columns")])
def test_too_many_rows_or_columns_are_refused(rows: int, columns: int, what: str) -> None:
    with pytest.raises(TableTooBig) as told:
        opened(workbook([["a"] * columns] * rows))
    assert told.value.args == (what,)


def test_a_sheet_that_lies_about_its_size_or_begins_far_down_is_read_in_bounds() -> None:
    parts = parts_of(workbook([["Title"], ["Pack"]]))
    sheet = parts["xl/worksheets/sheet1.xml"]
    parts["xl/worksheets/sheet1.xml"] = sheet.replace(b'<dimension ref="A1:A2"', b'<dimension ref="A1:XFD1048576"')
    assert parts["xl/worksheets/sheet1.xml"] != sheet
    assert opened(packed(parts)) == (("Title",), ("Pack",))
    parts["xl/worksheets/sheet1.xml"] = sheet.replace(b'<row r="2"', b'<row r="1048576"').replace(
        b'r="A2"', b'r="A1048576"'
    )
    with pytest.raises(TableTooBig):
        opened(packed(parts))


def test_a_bomb_is_refused_before_it_is_unpacked() -> None:
    parts = parts_of(workbook([["Title"]]))
    parts["xl/worksheets/sheet1.xml"] += b" " * (MOST_BYTES + 1)
    data = packed(parts)
    assert len(data) < 100_000
    with pytest.raises(TableTooBig) as told:
        opened(data)
    assert told.value.args == ("bytes",)
    with pytest.raises(TableTooBig):
        opened(packed({f"{n}.xml": b"" for n in range(400)}))


def test_a_part_that_lies_about_its_size_gives_no_more_than_it_says() -> None:
    data = bytearray(packed({**parts_of(workbook([["Title"]])), "xl/styles.xml": b" " * 5_000_000}))
    at = data.find((5_000_000).to_bytes(4, "little"))
    while at != -1:
        data[at : at + 4] = (100).to_bytes(4, "little")
        at = data.find((5_000_000).to_bytes(4, "little"))
    with pytest.raises(NoTable):
        opened(bytes(data))


def test_entities_of_its_own_are_refused() -> None:
    parts = parts_of(workbook([["Title"]]))
    bomb = b'<?xml version="1.0"?><!DOCTYPE s [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>'
    sheet = parts["xl/worksheets/sheet1.xml"]
    parts["xl/worksheets/sheet1.xml"] = bomb + sheet[sheet.find(b"<worksheet") :]
    with pytest.raises(NoTable):
        opened(packed(parts))


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"PK\x03\x04",
        b"PK\x03\x04" + b"\x00" * 200,
        packed({"hello.txt": b"no workbook"}),
        workbook([["a"]])[:-200],
    ],
)
def test_what_is_no_workbook_is_refused(data: bytes) -> None:
    with pytest.raises(NoTable):
        opened(data)


def test_a_workbook_is_known_by_its_first_bytes() -> None:
    assert is_workbook(workbook([["a"]])[:4])
    assert not is_workbook(b"Titl")
