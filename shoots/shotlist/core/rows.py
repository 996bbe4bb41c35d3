"""A table of shots: which column is which, what each cell says, and how a shot is written as cells.

Words for choices (framing, moment, places where pictures are seen) are handed in with their labels; the trade's other
words for them stand here.

References
----------
Own arrangement; the words are the trade's.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import Any

from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.shotlist.core.columns import OTHER_WORDS, Column, key_of


class Problem(StrEnum):
    """Why a cell can't be taken over."""

    EMPTY = "EMPTY"
    TOO_LONG = "TOO_LONG"
    NO_NUMBER = "NO_NUMBER"
    OUT_OF_RANGE = "OUT_OF_RANGE"
    NO_CHOICE = "NO_CHOICE"
    NO_SHAPE = "NO_SHAPE"
    NO_DATE = "NO_DATE"
    NO_FINISHING = "NO_FINISHING"
    NO_SUCH = "NO_SUCH"
    NOT_LISTED = "NOT_LISTED"


class UnreadableCell(ValueError):
    """Raised when a cell can't be taken over; carries the problem and the word that it is about."""

    def __init__(self, problem: Problem, word: str = "") -> None:
        super().__init__(problem, word)
        self.problem = problem
        self.word = word


LONGEST: Mapping[Column, int] = {
    Column.TITLE: 160,
    Column.PURPOSE: 160,
    Column.COPY_SPACE: 80,
    Column.MOMENT_NOTE: 120,
    Column.NOTE: 10_000,
}
"""Letters that a column's text may have."""
LONGEST_NAME = 120
"""Letters that the name of a product, an outfit, a subject or a finishing may have."""
RANGES: Mapping[Column, tuple[int, int]] = {
    Column.NUMBER: (1, 32_767),
    Column.MINUTES: (1, 720),
    Column.FINALS: (0, 500),
    Column.FRAMES: (1, 100_000),
}
"""Least and most of a number."""

_LISTS = (Column.PRODUCTS, Column.SUBJECTS, Column.OUTFITS)
NAMED = (Column.MOOD, Column.SETUP, Column.PLACE, Column.DAY)
"""Columns that name a row of the shoot, read as its key."""
_FINISHING = re.compile(
    r"(?P<what>.+?)(?:\s*×\s*(?P<pictures>\d{1,3}))?(?:\s*@\s*[£$€]?\s*(?P<price>\d{1,7}(?:[.,]\d{1,2})?))?"
)

Words = Mapping[Column, Mapping[str, str]]
Known = Mapping[Column, Mapping[str, int]]


@dataclass(frozen=True, slots=True)
class Finishing:
    """Something that is done to pictures after the day.

    Attributes
    ----------
    what : str
        In words.
    pictures : int or None
        To how many pictures; None for all of the shot's.
    price : Decimal or None
        For each, in the shoot's currency; None for the rate card's.
    """

    what: str
    pictures: int | None = None
    price: Decimal | None = None


@dataclass(frozen=True, slots=True)
class CellError:
    """A cell that can't be taken over.

    Attributes
    ----------
    row, place : int
        Its row and its place in the row, from 0.
    column : Column
        What the column holds.
    problem : Problem
        Why not.
    word : str
        What it is about.
    """

    row: int
    place: int
    column: Column
    problem: Problem
    word: str


@dataclass(frozen=True, slots=True)
class ReadTable:
    """What a table says.

    Attributes
    ----------
    rows : tuple[dict[Column, Any], ...]
        For each row what its cells said; cells with nothing in them are left out.
    errors : tuple[CellError, ...]
        Cells that said nothing that is understood; their rows hold the rest.
    """

    rows: tuple[dict[Column, Any], ...] = field(default=())
    errors: tuple[CellError, ...] = field(default=())


def guessed(rows: Sequence[Sequence[str]], words: Words) -> tuple[Column | None, ...]:
    """Return what the columns of a table without a head seem to hold, from their cells.

    Parameters
    ----------
    rows : Sequence[Sequence[str]]
        Rows of one length.
    words : Words
        Labels of the choices, by their codes.

    Returns
    -------
    tuple[Column or None, ...]
        Shapes and choices where every cell is one; the first column of other words is what is in the picture.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> guessed([["Pack on stone", "4:5"], ["Runner", "9:16"]], {})
    (<Column.TITLE: 'TITLE'>, <Column.SHAPES: 'SHAPES'>)
    """
    tried = (Column.SHAPES, Column.PRIORITY, Column.FRAMING, Column.ORIENTATION, Column.MOMENT)
    found: list[Column | None] = []
    for place in range(len(rows[0]) if rows else 0):
        cells = [row[place] for row in rows if row[place]]
        column: Column | None = next((c for c in tried if c not in found and cells and _all_say(cells, c, words)), None)
        if column is None and cells and Column.TITLE not in found and not all(cell.isdecimal() for cell in cells):
            column = Column.TITLE
        found.append(column)
    return tuple(found)


def _all_say(cells: Sequence[str], column: Column, words: Words) -> bool:
    try:
        for cell in cells:
            if column is Column.PRIORITY and cell.isdecimal():
                return False
            read_cell(column, cell, words, {})
    except UnreadableCell:
        return False
    return True


def read_table(
    rows: Sequence[Sequence[str]], columns: Sequence[Column | None], words: Words, known: Known
) -> ReadTable:
    """Return what each row says, and which cells say nothing that is understood.

    Parameters
    ----------
    rows : Sequence[Sequence[str]]
        Rows of one length, without the head.
    columns : Sequence[Column or None]
        What each of their columns holds; None for one that is left out.
    words : Words
        Labels of the choices, by their codes.
    known : Known
        For moods, setups, places and days their keys by their names; a day's name is its ISO date.

    Returns
    -------
    ReadTable
        One dictionary for each row, and the errors by row and place.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> read_table([["Pack", "5 min"]], [Column.TITLE, Column.MINUTES], {}, {}).rows[0][Column.MINUTES]
    5
    """
    found, errors = [], []
    for number, row in enumerate(rows):
        said: dict[Column, Any] = {}
        for place, column in enumerate(columns):
            if column is None:
                continue
            cell = row[place] if place < len(row) else ""
            if not cell and column is not Column.TITLE:
                continue
            try:
                said[column] = read_cell(column, cell, words, known)
            except UnreadableCell as error:
                errors.append(CellError(number, place, column, error.problem, error.word))
        found.append(said)
    return ReadTable(tuple(found), tuple(errors))


def read_cell(column: Column, text: str, words: Words, known: Known) -> Any:
    """Return what one cell says.

    Parameters
    ----------
    column : Column
        What its column holds.
    text : str
        The cell, cleaned.
    words : Words
        Labels of the choices, by their codes.
    known : Known
        Keys of moods, setups, places and days by their names.

    Returns
    -------
    Any
        Text, a code, a number, a tuple of names, shapes or `Finishing`, or a key.

    Raises
    ------
    UnreadableCell
        With the problem and the word that it is about.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> read_cell(Column.PRIORITY, "nice to have", {}, {})
    'WISH'
    """
    reader = _READERS.get(column)
    if reader is not None:
        return reader(column, text, words, known)
    if column is Column.TITLE and not text:
        raise UnreadableCell(Problem.EMPTY)
    if column in (Column.TITLE, Column.PURPOSE, Column.COPY_SPACE, Column.MOMENT_NOTE):
        text = re.sub(r"[\n\t]+", " ", text)
    if len(text) > LONGEST[column]:
        raise UnreadableCell(Problem.TOO_LONG, str(LONGEST[column]))
    return text


def _choice(column: Column, text: str, words: Words, _known: Known) -> str:
    key = key_of(text)
    labels = words.get(column, {})
    for code, label in labels.items():
        if key in (key_of(label), key_of(code)):
            return code
    others = {key_of(word): code for word, code in OTHER_WORDS.get(column, {}).items()}
    if key in others:
        return others[key]
    raise UnreadableCell(Problem.NO_CHOICE, text)


def _choices(column: Column, text: str, words: Words, known: Known) -> tuple[str, ...]:
    labels = words.get(column, {})
    found = dict.fromkeys(_choice(column, part, words, known) for part in re.split(r"[;,\n]", text) if part.strip())
    return tuple(code for code in labels if code in found) or tuple(found)


def _shapes(_column: Column, text: str, _words: Words, _known: Known) -> tuple[str, ...]:
    try:
        return read_shapes(text.replace("/", ","))
    except UnknownShape as error:
        raise UnreadableCell(Problem.NO_SHAPE, str(error.args[0])) from None


def _names(_column: Column, text: str, _words: Words, _known: Known) -> tuple[str, ...]:
    names = dict.fromkeys(" ".join(part.split()) for part in re.split(r"[;\n]", text))
    for name in names:
        if len(name) > LONGEST_NAME:
            raise UnreadableCell(Problem.TOO_LONG, str(LONGEST_NAME))
    return tuple(name for name in names if name)


def _number(column: Column, text: str, _words: Words, _known: Known) -> int:
    word = text.casefold()
    if hours := re.fullmatch(r"(\d{1,2})\s*h(?:\s*(\d{1,2})\s*(?:m|min)?)?", word):
        number = int(hours[1]) * 60 + int(hours[2] or 0)
    elif plain_number := re.fullmatch(
        r"(\d{1,6})(?:[.,]0+)?\s*(?:m|min|mins|minutes|pictures?|finals?|frames?)?\.?", word
    ):
        number = int(plain_number[1])
    else:
        raise UnreadableCell(Problem.NO_NUMBER, text)
    return _in_range(column, number)


def _place(column: Column, text: str, _words: Words, _known: Known) -> int:
    match = re.fullmatch(r"(\d{1,6})(?:[.,]0*)?", text)
    if match is None:
        raise UnreadableCell(Problem.NO_NUMBER, text)
    return _in_range(column, int(match[1]))


def _in_range(column: Column, number: int) -> int:
    least, most = RANGES[column]
    if not least <= number <= most:
        raise UnreadableCell(Problem.OUT_OF_RANGE, f"{least}–{most}")
    return number


def _finishing(_column: Column, text: str, _words: Words, _known: Known) -> tuple[Finishing, ...]:
    found: dict[Finishing, None] = {}
    for part in re.split(r"[;\n]", text):
        word = " ".join(part.split())
        if not word:
            continue
        match = _FINISHING.fullmatch(word)
        if match is None or len(match["what"]) > LONGEST_NAME:
            raise UnreadableCell(Problem.NO_FINISHING, word)
        pictures = int(match["pictures"]) if match["pictures"] else None
        if pictures is not None and not 1 <= pictures <= RANGES[Column.FINALS][1]:
            raise UnreadableCell(Problem.NO_FINISHING, word)
        try:
            price = Decimal(match["price"].replace(",", ".")).quantize(Decimal("0.01")) if match["price"] else None
        except InvalidOperation:
            raise UnreadableCell(Problem.NO_FINISHING, word) from None
        found[Finishing(match["what"], pictures, price)] = None
    return tuple(found)


def _known_one(column: Column, text: str, _words: Words, known: Known) -> int:
    names = {key_of(name): key for name, key in known.get(column, {}).items()}
    key = key_of(_iso(text)) if column is Column.DAY else key_of(text)
    if key not in names:
        raise UnreadableCell(Problem.NO_SUCH, text)
    return names[key]


def _iso(text: str) -> str:
    """Return a date as ISO writes it; 9/6/2026 is the ninth of June, as nearly everywhere."""
    word = text.split("T")[0].split(" ")[0]
    parts: Sequence[str] = ()
    if match := re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})", word):
        parts = match.groups()
    elif match := re.fullmatch(r"(\d{1,2})[./](\d{1,2})[./](\d{4})", word):
        parts = match.groups()[::-1]
    try:
        return date(*(int(part) for part in parts)).isoformat() if parts else _raise_no_date(text)
    except ValueError:
        raise UnreadableCell(Problem.NO_DATE, text) from None


def _raise_no_date(text: str) -> str:
    raise UnreadableCell(Problem.NO_DATE, text)


_READERS: Mapping[Column, Callable[[Column, str, Words, Known], Any]] = {
    Column.PLACEMENTS: _choices,
    Column.FRAMING: _choice,
    Column.ORIENTATION: _choice,
    Column.MOMENT: _choice,
    Column.PRIORITY: _choice,
    Column.SHAPES: _shapes,
    Column.NUMBER: _place,
    Column.MINUTES: _number,
    Column.FINALS: _number,
    Column.FRAMES: _number,
    Column.FINISHING: _finishing,
    **dict.fromkeys(_LISTS, _names),
    **dict.fromkeys(NAMED, _known_one),
}


def write_row(values: Mapping[Column, Any], words: Words) -> tuple[str, ...]:
    """Return a shot as cells that `read_cell` reads again.

    Parameters
    ----------
    values : Mapping[Column, Any]
        What the shot says: as `read_cell` returns it, but moods, setups, places and days by their names.
    words : Words
        Labels of the choices, by their codes; a code without a label is written as it is.

    Returns
    -------
    tuple[str, ...]
        One cell for each column, in their order.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> write_row({Column.NUMBER: 3, Column.TITLE: "Pack", Column.SHAPES: ("4:5", "9:16")}, {})[:7]
    ('3', 'Pack', '', '', '', '', '4:5, 9:16')
    """
    return tuple(written_cell(column, values.get(column), words) for column in Column)


def written_cell(column: Column, value: Any, words: Words) -> str:
    """Return what one cell says of a shot.

    Parameters
    ----------
    column : Column
        What its column holds.
    value : Any
        As `read_cell` returns it, but a mood, setup, place or day by its name; None for nothing.
    words : Words
        Labels of the choices, by their codes; a code without a label is written as it is.

    Returns
    -------
    str
        The cell, "" for nothing.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> written_cell(Column.SHAPES, ("4:5", "9:16"), {})
    '4:5, 9:16'
    """
    if value is None:
        return ""
    labels = words.get(column, {})
    if column is Column.PLACEMENTS:
        return "; ".join(labels.get(code, code) for code in value)
    if column is Column.SHAPES:
        return ", ".join(value)
    if column is Column.FINISHING:
        return "; ".join(
            item.what
            + (f" × {item.pictures}" if item.pictures else "")
            + (f" @ {item.price:.2f}" if item.price is not None else "")
            for item in value
        )
    if column in _LISTS:
        return "; ".join(value)
    if column in OTHER_WORDS:
        return labels.get(value, value) if value else ""
    return str(value)
