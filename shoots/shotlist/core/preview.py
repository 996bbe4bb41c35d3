"""A table before it becomes shots: which column is which, what each row would say, and what can't be read.

References
----------
Own arrangement.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shoots.shotlist.core.cells import clean, joined_table
from shoots.shotlist.core.columns import HEADS, Column, heads_of
from shoots.shotlist.core.lines import read_line
from shoots.shotlist.core.rows import CellError, Known, Words, guessed, read_table

LINE_HEADS = tuple(HEADS[column] for column in (Column.TITLE, Column.SHAPES, Column.MINUTES, Column.PRIORITY))


def _line_cells(line: str, words: Words) -> tuple[str, ...]:
    """Return a line of words alone as the quick line of the list reads it."""
    read = read_line(line)
    minutes = str(read.minutes) if read.minutes else ""
    return (
        read.title,
        ", ".join(read.shapes),
        minutes,
        words.get(Column.PRIORITY, {}).get("WISH", "WISH") if read.is_wish else "",
    )


@dataclass(frozen=True)
class PreviewCell:
    """A cell as it will be taken over; `problem` says why it can't be, `name` is its field's."""

    text: str
    name: str
    column: Column | None
    problem: str


@dataclass(frozen=True)
class PreviewRow:
    """A row of a table that may become a shot."""

    number: int
    cells: tuple[PreviewCell, ...]
    has_problem: bool


@dataclass(frozen=True)
class TablePreview:
    """A table before it becomes shots.

    `columns` are what its columns hold, `heads` what they were called, `text` is the table for the next request,
    `good` what the rows without a problem say.
    """

    heads: tuple[str, ...]
    columns: tuple[Column | None, ...]
    has_head: bool
    rows: tuple[PreviewRow, ...]
    good: tuple[dict[Column, Any], ...]
    text: str
    problems: int

    @property
    def bad(self) -> int:
        return sum(row.has_problem for row in self.rows)

    @property
    def has_title(self) -> bool:
        return Column.TITLE in self.columns


def previewed(
    table: Sequence[Sequence[str]],
    words: Words,
    known: Known,
    tell: Callable[[CellError], str],
    *,
    has_head: bool | None,
    chosen: Mapping[int, Column | None],
    mended: Mapping[tuple[int, int], str],
) -> TablePreview:
    """Return what a table would become.

    Parameters
    ----------
    table : Sequence[Sequence[str]]
        Rows of one length, at least one.
    words : Words
        Labels of the choices, by their codes.
    known : Known
        Keys of moods, setups, places and days by their names.
    tell : Callable[[CellError], str]
        Says in words why a cell can't be read.
    has_head : bool or None
        Whether somebody said that the first row is a head; None to find out.
    chosen : Mapping[int, Column or None]
        What somebody said of columns, by their places.
    mended : Mapping[tuple[int, int], str]
        Cells that were typed anew, by their row below the head and their place.

    Returns
    -------
    TablePreview
        With the table as text for the next look at it.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> seen = previewed([["Pack 4:5"]], {}, {}, str, has_head=None, chosen={}, mended={})
    >>> seen.good
    ({<Column.TITLE: 'TITLE'>: 'Pack', <Column.SHAPES: 'SHAPES'>: ('4:5',)},)
    """
    if len(table[0]) == 1 and heads_of(table[0]) == (None,):
        table = [LINE_HEADS, *(_line_cells(row[0], words) for row in table)]
    first = heads_of(table[0])
    if has_head is None:
        filled = sum(bool(cell) for cell in table[0])
        has_head = sum(column is not None for column in first) * 2 >= max(1, filled)
    body = [list(row) for row in (table[1:] if has_head else table)]
    for (row, place), text in mended.items():
        if 0 <= row < len(body) and 0 <= place < len(body[row]):
            body[row][place] = clean(text)
    columns = list(first if has_head else guessed(body, words))
    for place, column in chosen.items():
        if 0 <= place < len(columns):
            columns[place] = column if column not in columns[:place] else None
    read = read_table(body, columns, words, known)
    told = {(error.row, error.place): tell(error) for error in read.errors}
    wrong = {row for row, _place in told}
    # Without a column of titles no row can be taken over, whatever else it says.
    has_title = Column.TITLE in columns
    text = joined_table([*(table[:1] if has_head else ()), *body])
    return TablePreview(
        heads=tuple(table[0]) if has_head else ("",) * len(columns),
        columns=tuple(columns),
        has_head=has_head,
        rows=tuple(
            PreviewRow(
                number=number + 1,
                cells=tuple(
                    PreviewCell(cell, f"cell-{number}-{place}", columns[place], told.get((number, place), ""))
                    for place, cell in enumerate(row)
                ),
                has_problem=number in wrong,
            )
            for number, row in enumerate(body)
        ),
        good=tuple(said for n, said in enumerate(read.rows) if n not in wrong) if has_title else (),
        text=f"sep=,\r\n{text}",
        problems=len(told),
    )
