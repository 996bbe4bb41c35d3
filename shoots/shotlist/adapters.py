"""Spreadsheet files: read with limits, written harmless. Formulas are never worked out, neither here nor there."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator, Sequence
from datetime import date, datetime, time
from typing import IO, Any

from shoots.shotlist.core.cells import MOST_COLUMNS, MOST_ROWS, NoTable, TableTooBig, bounded, clean, neutral

MOST_PARTS = 300
"""Files that a workbook may hold inside."""
MOST_BYTES = 30_000_000
"""Bytes that a workbook may take unpacked. One of a thousand rows takes about one million."""
_SIGNATURE = b"PK\x03\x04"
# Workbooks write some letters as _x000D_ (ECMA-376 part 1, 22.9.2.19: ST_Xstring), which the library leaves to us. A
# text that looks like one has its underscore written so.
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_LOOKS_ESCAPED = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")


def is_workbook(head: bytes) -> bool:
    """Return whether a file that begins so is packed as workbooks are."""
    return head.startswith(_SIGNATURE)


def read_workbook(file: IO[bytes]) -> tuple[tuple[str, ...], ...]:
    """Return the cells of a workbook's first sheet that is shown.

    A formula is read as the result that was last saved with it, and as nothing where none was.

    Raises
    ------
    NoTable
        If it is no workbook, or its parts define entities of their own.
    TableTooBig
        If it has too many rows or columns, or unpacks to more than it may.
    """
    _check_parts(file)
    from openpyxl import load_workbook

    file.seek(0)
    try:
        book = load_workbook(file, read_only=True, data_only=True, keep_links=False)
        try:
            sheet = next((one for one in book.worksheets if one.sheet_state == "visible"), None)
            if sheet is None:
                raise NoTable
            # What a sheet says of its own size may be wrong, by a million rows.
            sheet.reset_dimensions()
            return bounded(_rows(sheet))
        finally:
            book.close()
    except (NoTable, TableTooBig):
        raise
    except Exception as error:  # the library raises whatever a broken file makes it stumble over
        raise NoTable from error


def _rows(sheet: Any) -> Iterator[list[str]]:
    rows = sheet.iter_rows(max_row=4 * MOST_ROWS + 1, max_col=MOST_COLUMNS + 1, values_only=True)
    for number, row in enumerate(rows):
        if number >= 4 * MOST_ROWS:
            raise TableTooBig("rows")
        yield [_text(value) for value in row]


def _text(value: object) -> str:
    match value:
        case None:
            return ""
        case datetime():
            return value.date().isoformat() if value.time() == time() else value.isoformat(" ", "minutes")
        case date():
            return value.isoformat()
        case float() if value.is_integer():
            return str(int(value))
        case str():
            return _ESCAPED.sub(lambda match: chr(int(match[1], 16)), value)
        case _:
            return str(value)


def _check_parts(file: IO[bytes]) -> None:
    """Refuse a workbook that unpacks to too much, before any of it is; a part never gives more than its head says."""
    try:
        with zipfile.ZipFile(file) as packed:
            parts = packed.infolist()
            if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_BYTES:
                raise TableTooBig("bytes")
            for part in parts:
                if part.filename.endswith((".xml", ".rels")):
                    with packed.open(part) as unpacked:
                        if b"<!DOCTYPE" in unpacked.read(4096).upper():
                            raise NoTable
    except (zipfile.BadZipFile, OSError, RuntimeError, NotImplementedError, EOFError, ValueError) as error:
        if isinstance(error, NoTable | TableTooBig):
            raise
        raise NoTable from error


def workbook(rows: Sequence[Sequence[str]], *, numbers: Sequence[int] = (), widths: Sequence[int] = ()) -> bytes:
    """Return rows as a workbook with one sheet, the first row as its head.

    Every cell is text, but whole numbers in the columns of `numbers`; what looks like a formula is marked as
    in comma-separated text. `widths` are letters.
    """
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    sheet = book.active
    sheet.title = "Shots"
    for number, row in enumerate(rows, start=1):
        for place, text in enumerate(row, start=1):
            cell = sheet.cell(number, place)
            if number > 1 and place - 1 in numbers and text.isdecimal():
                cell.value = int(text)
                continue
            cell.value = _LOOKS_ESCAPED.sub("_x005F_", neutral(clean(text)))
            cell.data_type = "s"
            cell.number_format = "@"
            cell.alignment = Alignment(vertical="top", wrap_text=True)
            if number == 1:
                cell.font = Font(bold=True)
    for place, width in enumerate(widths, start=1):
        sheet.column_dimensions[get_column_letter(place)].width = width
    sheet.freeze_panes = "C2"
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()
