"""What a row of a table changes of the shot that it is.

References
----------
Own arrangement.
"""

import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from shoots.shotlist.core.cells import clean
from shoots.shotlist.core.columns import HEADS, Column
from shoots.shotlist.core.matching import title_key
from shoots.shotlist.core.rows import (
    NAMED,
    RANGES,
    CellError,
    Finishing,
    Known,
    UnreadableCell,
    Words,
    read_cell,
    write_row,
    written_cell,
)

EMPTY: Mapping[Column, Any] = {
    Column.PURPOSE: "",
    Column.PLACEMENTS: (),
    Column.ORIENTATION: "",
    Column.SHAPES: (),
    Column.COPY_SPACE: "",
    Column.PRODUCTS: (),
    Column.SUBJECTS: (),
    Column.OUTFITS: (),
    Column.MOOD: None,
    Column.SETUP: None,
    Column.PLACE: None,
    Column.DAY: None,
    Column.FRAMES: None,
    Column.MOMENT: "",
    Column.MOMENT_NOTE: "",
    Column.FINISHING: (),
    Column.NOTE: "",
}
"""What a blank cell makes of a shot's field. Title, framing, must or wish, minutes and finished pictures can't be
nothing: they stay."""
_AS_SETS = (Column.PLACEMENTS, Column.PRODUCTS, Column.SUBJECTS, Column.OUTFITS)


@dataclass(frozen=True, slots=True)
class ListedShot:
    """A shot that is on the list.

    Attributes
    ----------
    pk, version : int
        Its key, and the version that is looked at.
    values : Mapping[Column, Any]
        What it says, as `read_cell` returns it.
    cells : Mapping[Column, str]
        The same as an exported table writes it.
    priceless : str
        Its finishing as a table without prices writes it.
    with_prices : bool
        Whether who looks at it may see and set prices.
    """

    pk: int
    version: int
    values: Mapping[Column, Any]
    cells: Mapping[Column, str]
    priceless: str
    with_prices: bool


def listed_shot(
    pk: int,
    version: int,
    values: Mapping[Column, Any],
    names: Mapping[Column, str | None],
    words: Words,
    *,
    with_prices: bool,
) -> ListedShot:
    """Return a shot with its cells.

    Parameters
    ----------
    pk, version : int
        Its key and its version.
    values : Mapping[Column, Any]
        What it says, as `read_cell` returns it; moods, setups, places and days by their keys.
    names : Mapping[Column, str or None]
        The names of these.
    words : Words
        Labels of the choices, by their codes.
    with_prices : bool
        Whether who looks at it may see and set prices.

    Returns
    -------
    ListedShot
        Its cells are cleaned as those of a table are.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> listed_shot(7, 1, {Column.TITLE: "Pack"}, {}, {}, with_prices=True).cells[Column.TITLE]
    'Pack'
    """
    cells = dict(zip(Column, map(clean, write_row({**values, **names}, words)), strict=True))
    priceless = clean(written_cell(Column.FINISHING, _bare(values.get(Column.FINISHING, ())), words))
    if not with_prices:
        cells[Column.FINISHING] = priceless
    return ListedShot(pk, version, values, cells, priceless, with_prices)


@dataclass(frozen=True, slots=True)
class CellChange:
    """What a cell changes of a shot; `old` and `new` are cells, "" for nothing."""

    column: Column
    old: str
    new: str

    @property
    def head(self) -> str:
        """What the column is called."""
        return HEADS[self.column]

    @property
    def is_number(self) -> bool:
        """Whether the cells are numbers."""
        return self.column in RANGES


@dataclass(frozen=True, slots=True)
class RowChanges:
    """What a row changes of its shot.

    Attributes
    ----------
    values : dict[Column, Any]
        What the shot says then, as `read_cell` returns it; only what differs.
    shown : tuple[CellChange, ...]
        The same to be read.
    errors : tuple[CellError, ...]
        Cells that say nothing that is understood, in row 0.
    """

    values: dict[Column, Any] = field(default_factory=dict)
    shown: tuple[CellChange, ...] = ()
    errors: tuple[CellError, ...] = ()


def changes_of(
    shot: ListedShot,
    columns: Sequence[Column | None],
    row: Sequence[str],
    words: Words,
    known: Known,
    *,
    blanks_empty: bool,
) -> RowChanges:
    """Return what a row changes of the shot that it is.

    A cell that says what an exported list would say is left without being read: it may name a place that was put
    away since, or a shape of an older release. A finishing without a price keeps the one that it has.

    Parameters
    ----------
    shot : ListedShot
        The shot.
    columns : Sequence[Column or None]
        What the cells of the row hold; None for one that is left out.
    row : Sequence[str]
        The cells, cleaned.
    words : Words
        Labels of the choices, by their codes.
    known : Known
        Keys of moods, setups, places and days by their names.
    blanks_empty : bool
        Whether a blank cell empties a field; otherwise it says nothing.

    Returns
    -------
    RowChanges
        Nothing at all where the shot says so already.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> pack = listed_shot(7, 1, {Column.TITLE: "Pack", Column.MINUTES: 20}, {}, {}, with_prices=True)
    >>> changes_of(pack, [Column.TITLE, Column.MINUTES], ["pack", "30 min"], {}, {}, blanks_empty=True).values
    {<Column.TITLE: 'TITLE'>: 'pack', <Column.MINUTES: 'MINUTES'>: 30}
    """
    values: dict[Column, Any] = {}
    shown, errors = [], []
    for place, column in enumerate(columns):
        if column is None or column is Column.NUMBER:
            continue
        cell = row[place] if place < len(row) else ""
        if _says_so(shot, column, cell) or (not cell and not (blanks_empty and column in EMPTY)):
            continue
        try:
            value = read_cell(column, cell, words, known) if cell else EMPTY[column]
        except UnreadableCell as error:
            errors.append(CellError(0, place, column, error.problem, error.word))
            continue
        if column is Column.FINISHING:
            value = _priced(value if shot.with_prices else _bare(value), shot.values.get(column, ()))
        if _is_same(column, value, shot.values.get(column)):
            continue
        values[column] = value
        told = _bare(value) if column is Column.FINISHING and not shot.with_prices else value
        shown.append(CellChange(column, shot.cells[column], _shown(column, told, words, known)))
    return RowChanges(values, tuple(shown), tuple(errors))


def _says_so(shot: ListedShot, column: Column, cell: str) -> bool:
    own = {shot.cells[column], shot.priceless} if column is Column.FINISHING else {shot.cells[column]}
    return unicodedata.normalize("NFC", cell) in {unicodedata.normalize("NFC", one) for one in own}


def _is_same(column: Column, value: Any, old: Any) -> bool:
    if column in _AS_SETS:
        # Neither is kept in an order of its own.
        return {title_key(one) for one in value} == {title_key(one) for one in old or ()}
    return bool(value == old)


def _shown(column: Column, value: Any, words: Words, known: Known) -> str:
    if column in NAMED and value is not None:
        value = next(name for name, key in known[column].items() if key == value)
    return written_cell(column, value, words)


def _bare(items: Sequence[Finishing]) -> tuple[Finishing, ...]:
    return tuple(replace(item, price=None) for item in items)


def _priced(wanted: Sequence[Finishing], own: Sequence[Finishing]) -> tuple[Finishing, ...]:
    """Give each finishing without a price the one that the shot's own has: of as many pictures first, else of its name.

    Each of the shot's own gives its price once.
    """
    left = list(own)
    # Those that stand as they are keep their own, so that a twin with another price doesn't take it.
    for item in wanted:
        if item in left:
            left.remove(item)
    found = []
    for item in wanted:
        if item.price is None and item not in own:
            alike = [one for one in left if title_key(one.what) == title_key(item.what)]
            giver = next((one for one in alike if one.pictures == item.pictures), alike[0] if alike else None)
            if giver is not None:
                left.remove(giver)
                item = replace(item, price=giver.price)
        found.append(item)
    return tuple(dict.fromkeys(found))
