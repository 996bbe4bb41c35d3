"""A table before it becomes shots: which column is which, what each row would say, and what can't be read.

References
----------
Own arrangement.
"""

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from shoots.shotlist.core.cells import clean, joined_table
from shoots.shotlist.core.changes import CellChange, ListedShot, changes_of
from shoots.shotlist.core.columns import HEADS, Column, heads_of
from shoots.shotlist.core.lines import read_line
from shoots.shotlist.core.matching import matched, title_key
from shoots.shotlist.core.rows import (
    CellError,
    Known,
    Problem,
    UnreadableCell,
    Words,
    guessed,
    read_cell,
    read_table,
)

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
    is_changed: bool = False


class RowKind(StrEnum):
    """What a row of a table is for a list: a shot that it has not, has so, has otherwise, or gets once more."""

    NEW = "NEW"
    SAME = "SAME"
    CHANGES = "CHANGES"
    AGAIN = "AGAIN"


@dataclass(frozen=True)
class PreviewRow:
    """A row of a table that may become a shot, or changes one.

    `shot_number` is the place of the shot that it is, None for a new one; `is_alike` says of a new one that its title
    is on the list all the same.
    """

    number: int
    cells: tuple[PreviewCell, ...]
    has_problem: bool
    kind: RowKind = RowKind.NEW
    shot_number: int | None = None
    changes: tuple[CellChange, ...] = ()
    is_alike: bool = False

    @property
    def is_new(self) -> bool:
        return self.kind is RowKind.NEW

    @property
    def is_same(self) -> bool:
        return self.kind is RowKind.SAME

    @property
    def is_again(self) -> bool:
        return self.kind is RowKind.AGAIN

    @property
    def is_renamed(self) -> bool:
        """Whether it is its shot by the number alone."""
        return any(c.column is Column.TITLE and title_key(c.old) != title_key(c.new) for c in self.changes)


@dataclass(frozen=True)
class RowEdit:
    """What a row changes: `number` is its own in the table, `pk` its shot's, `values` as `read_cell` returns them."""

    number: int
    pk: int
    values: dict[Column, Any]


@dataclass(frozen=True)
class TablePreview:
    """A table before it becomes shots.

    `columns` are what its columns hold, `heads` what they were called, `text` is the table for the next request,
    `good` what the rows without a problem say that will be added, `edits` what the others change. `adds` says that
    shots that are on the list are added once more instead; without `blanks_empty` blank cells say nothing.
    """

    heads: tuple[str, ...]
    columns: tuple[Column | None, ...]
    has_head: bool
    rows: tuple[PreviewRow, ...]
    good: tuple[dict[Column, Any], ...]
    text: str
    problems: int
    edits: tuple[RowEdit, ...] = ()
    adds: bool = False
    blanks_empty: bool = True

    @property
    def bad(self) -> int:
        return sum(row.has_problem for row in self.rows)

    @property
    def names_shots(self) -> bool:
        """Whether a column says which shot a row is."""
        return Column.TITLE in self.columns or Column.NUMBER in self.columns

    @property
    def new(self) -> int:
        return sum(row.kind is RowKind.NEW for row in self.rows if not row.has_problem)

    @property
    def same(self) -> int:
        return sum(row.kind is RowKind.SAME for row in self.rows)

    @property
    def differing(self) -> int:
        """Rows of shots that are on the list and say something else."""
        return sum(row.kind in (RowKind.CHANGES, RowKind.AGAIN) for row in self.rows if not row.has_problem)

    @property
    def matched(self) -> int:
        return sum(row.shot_number is not None for row in self.rows)

    @property
    def has_choice(self) -> bool:
        """Whether a shot that is on the list can be changed, or added once more."""
        return any(row.kind in (RowKind.CHANGES, RowKind.AGAIN) for row in self.rows)

    @property
    def taken(self) -> int:
        """Rows that will do something."""
        return len(self.good) + len(self.edits)

    @property
    def renamed(self) -> int:
        return sum(row.is_renamed for row in self.rows)


def previewed(
    table: Sequence[Sequence[str]],
    words: Words,
    known: Known,
    tell: Callable[[CellError], str],
    *,
    has_head: bool | None = None,
    chosen: Mapping[int, Column | None] | None = None,
    mended: Mapping[tuple[int, int], str] | None = None,
    listed: Sequence[ListedShot] = (),
    adds: bool = False,
    blanks_empty: bool | None = None,
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
    chosen : Mapping[int, Column or None] or None
        What somebody said of columns, by their places.
    mended : Mapping[tuple[int, int], str] or None
        Cells that were typed anew, by their row below the head and their place.
    listed : Sequence[ListedShot]
        The shots that are on the list, in its order.
    adds : bool
        Whether rows that say something else of a shot on the list are added once more, instead of changing it.
    blanks_empty : bool or None
        Whether a blank cell empties what a shot has; None for what the table is: not where it was lines of words.

    Returns
    -------
    TablePreview
        With the table as text for the next look at it.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> seen = previewed([["Pack 4:5"]], {}, {}, str)
    >>> seen.good
    ({<Column.TITLE: 'TITLE'>: 'Pack', <Column.SHAPES: 'SHAPES'>: ('4:5',)},)
    """
    is_lines = len(table[0]) == 1 and heads_of(table[0]) == (None,)
    if is_lines:
        table = [LINE_HEADS, *(_line_cells(row[0], words) for row in table)]
    if blanks_empty is None:
        blanks_empty = not is_lines
    first = heads_of(table[0])
    if has_head is None:
        filled = sum(bool(cell) for cell in table[0])
        has_head = sum(column is not None for column in first) * 2 >= max(1, filled)
    body = [list(row) for row in (table[1:] if has_head else table)]
    for (row, place), text in (mended or {}).items():
        if 0 <= row < len(body) and 0 <= place < len(body[row]):
            body[row][place] = clean(text)
    columns = list(first if has_head else guessed(body, words))
    for place, column in (chosen or {}).items():
        if 0 <= place < len(columns):
            columns[place] = column if column not in columns[:place] else None
    reader = _Reader(tuple(columns), words, known, listed, adds=adds, blanks_empty=blanks_empty)
    read = reader.read(body)
    # Without a column that says which shot a row is no row can be taken over, whatever else it says.
    names_shots = Column.TITLE in columns or Column.NUMBER in columns
    good = [one for one in read if not one.errors] if names_shots else []
    text = joined_table([*(table[:1] if has_head else ()), *body])
    return TablePreview(
        heads=tuple(table[0]) if has_head else ("",) * len(columns),
        columns=tuple(columns),
        has_head=has_head,
        rows=tuple(_shown_row(number, body[number], columns, one, tell) for number, one in enumerate(read)),
        good=tuple(one.said for one in good if one.kind in (RowKind.NEW, RowKind.AGAIN)),
        text=f"sep=,\r\n{text}",
        problems=sum(len(one.errors) for one in read),
        edits=tuple(
            RowEdit(number + 1, listed[(one.shot_number or 0) - 1].pk, one.said)
            for number, one in enumerate(read)
            if names_shots and not one.errors and one.kind is RowKind.CHANGES
        ),
        adds=adds,
        blanks_empty=blanks_empty,
    )


@dataclass(frozen=True)
class _ReadRow:
    """What a row is; `said` is all of a new shot, or what it changes of one that is there."""

    kind: RowKind
    shot_number: int | None = None
    said: dict[Column, Any] = field(default_factory=dict)
    changes: tuple[CellChange, ...] = ()
    errors: tuple[CellError, ...] = ()
    is_alike: bool = False


@dataclass(frozen=True)
class _Reader:
    """Reads rows against a list."""

    columns: tuple[Column | None, ...]
    words: Words
    known: Known
    listed: Sequence[ListedShot]
    adds: bool
    blanks_empty: bool

    def read(self, body: Sequence[Sequence[str]]) -> list[_ReadRow]:
        titles = [shot.cells[Column.TITLE] for shot in self.listed]
        shot_numbers = matched([(self._cell(row, Column.TITLE), self._number(row)) for row in body], titles)
        keys = {title_key(title) for title in titles}
        found = []
        for row, shot_number in zip(body, shot_numbers, strict=True):
            if shot_number is None:
                alike = title_key(self._cell(row, Column.TITLE)) in keys
                found.append(replace(self._as_new(row), is_alike=alike))
            else:
                found.append(self._against(row, shot_number))
        return found

    def _cell(self, row: Sequence[str], column: Column) -> str:
        place = self.columns.index(column) if column in self.columns else len(row)
        return row[place] if place < len(row) else ""

    def _number(self, row: Sequence[str]) -> int | None:
        cell = self._cell(row, Column.NUMBER)
        with suppress(UnreadableCell):
            return int(read_cell(Column.NUMBER, cell, self.words, self.known)) if cell else None
        return None

    def _against(self, row: Sequence[str], shot_number: int) -> _ReadRow:
        shot = self.listed[shot_number - 1]
        found = changes_of(shot, self.columns, row, self.words, self.known, blanks_empty=self.blanks_empty)
        if not found.shown and not found.errors:
            return _ReadRow(RowKind.SAME, shot_number)
        if self.adds:
            return replace(self._as_new(row), kind=RowKind.AGAIN, shot_number=shot_number)
        return _ReadRow(RowKind.CHANGES, shot_number, found.values, found.shown, found.errors)

    def _as_new(self, row: Sequence[str]) -> _ReadRow:
        read = read_table([row], self.columns, self.words, self.known)
        errors = read.errors
        if Column.TITLE not in self.columns and Column.NUMBER in self.columns and not errors:
            place = self.columns.index(Column.NUMBER)
            errors = (CellError(0, place, Column.NUMBER, Problem.NOT_LISTED, self._cell(row, Column.NUMBER)),)
        return _ReadRow(RowKind.NEW, said=read.rows[0], errors=errors)


def _shown_row(
    number: int,
    row: Sequence[str],
    columns: Sequence[Column | None],
    read: _ReadRow,
    tell: Callable[[CellError], str],
) -> PreviewRow:
    told = {error.place: tell(error) for error in read.errors}
    changed = {change.column for change in read.changes}
    return PreviewRow(
        number=number + 1,
        cells=tuple(
            PreviewCell(cell, f"cell-{number}-{place}", columns[place], told.get(place, ""), columns[place] in changed)
            for place, cell in enumerate(row)
        ),
        has_problem=bool(told),
        kind=read.kind,
        shot_number=read.shot_number,
        changes=read.changes,
        is_alike=read.is_alike,
    )
