"""Tables as text: read from bytes of unknown encoding, split into cells, and kept harmless in a spreadsheet.

References
----------
Comma-separated text: RFC 4180. Cells that a spreadsheet takes for a formula: OWASP, "CSV Injection" (first letters
``= + - @``, tab, carriage return, line feed, and their full-width forms). Windows-1252 as what is left when a file is
no Unicode: the WHATWG Encoding Standard's label for "ascii" and "latin1".
"""

import csv
import io
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence

MOST_ROWS = 1001
"""Rows that a table may have: a thousand shots and their head."""
MOST_COLUMNS = 60
"""Columns that a table may have."""
LONGEST_CELL = 10_000
"""Letters that a cell may have."""
LONGEST_TABLE = 1_000_000
"""Letters that a table may have."""

_FORMULA = "=+\\-@\t\r\n＝＋－＠"
_TEMPTING = re.compile(rf"'*[ \u00a0]*[{_FORMULA}]")
_MARKED = re.compile(rf"'+[ \u00a0]*[{_FORMULA}]")
# Letters that turn the direction of what follows, and never come back: they would reach into the next words.
_TURNS = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
_DELIMITERS = ("\t", ";", ",")


class TableTooBig(ValueError):
    """Raised when a table has more rows, columns or letters than are read; its argument names which."""


class NoTable(ValueError):
    """Raised when bytes are no text."""


def clean(text: str) -> str:
    """Return a text without what can't be seen and does harm.

    Parameters
    ----------
    text : str
        Whatever somebody typed or a file held.

    Returns
    -------
    str
        Line ends as one kind, no control characters but tab and line end, no turns of direction, no halves of
        surrogate pairs, nothing blank around it. Right-to-left scripts and emoji stay.

    References
    ----------
    Unicode categories Cc and Cs; the explicit directional formatting characters of UAX #9.

    Examples
    --------
    >>> clean(" Pack\\x07 on\\u202e stone\\r\\n")
    'Pack on stone'
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    kept = (
        letter
        for letter in lines
        if letter in "\n\t" or (letter not in _TURNS and unicodedata.category(letter) not in ("Cc", "Cs"))
    )
    return "".join(kept).strip()


def neutral(text: str) -> str:
    """Return a cell that no spreadsheet takes for a formula.

    Parameters
    ----------
    text : str
        A cell's text.

    Returns
    -------
    str
        With an apostrophe before it where it begins like a formula, or like a cell that was marked so.

    References
    ----------
    OWASP, "CSV Injection".

    Examples
    --------
    >>> neutral("=1+1"), neutral("'=1+1"), neutral("it's 1+1")
    ("'=1+1", "''=1+1", "it's 1+1")
    """
    return f"'{text}" if _TEMPTING.match(text) else text


def plain(text: str) -> str:
    """Return a cell without the mark that `neutral` put before it.

    Parameters
    ----------
    text : str
        A cell's text as a file holds it.

    Returns
    -------
    str
        One apostrophe less where it stands before what looks like a formula.

    References
    ----------
    Own arrangement, the reverse of `neutral`.

    Examples
    --------
    >>> plain("'=1+1"), plain("'twas dark")
    ('=1+1', "'twas dark")
    """
    return text[1:] if _MARKED.match(text) else text


def decoded(data: bytes) -> str:
    """Return the text of a file whose encoding nobody knows.

    Parameters
    ----------
    data : bytes
        A file: UTF-8 with or without its mark, UTF-16 with its mark, else Windows-1252.

    Returns
    -------
    str
        Its text.

    Raises
    ------
    NoTable
        If it is no text.

    References
    ----------
    Byte order marks: the Unicode Standard, chapter 23.8. Windows-1252: the WHATWG Encoding Standard.

    Examples
    --------
    >>> decoded("Käfig".encode("cp1252"))
    'Käfig'
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings: tuple[str, ...] = ("utf-16",)
    else:
        encodings = ("utf-8-sig", "cp1252", "latin-1")
    for encoding in encodings:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        break
    else:
        raise NoTable
    if "\x00" in text:
        raise NoTable
    return text


def split_table(text: str) -> tuple[tuple[str, ...], ...]:
    """Return the cells of a table that was pasted, or read from a file.

    Parameters
    ----------
    text : str
        Lines with tabs, semicolons or commas between their cells; quoted cells may hold all of them.

    Returns
    -------
    tuple[tuple[str, ...], ...]
        Rows of one length, cleaned and without the marks of `neutral`; rows with nothing in them are left out, as are
        columns at the end with nothing in them.

    Raises
    ------
    TableTooBig
        If it has more rows, columns or letters than are read.

    References
    ----------
    RFC 4180; a first line "sep=;" as spreadsheets write it, common practice.

    Examples
    --------
    >>> split_table("Title;Shapes\\nPack, wet;4:5")
    (('Title', 'Shapes'), ('Pack, wet', '4:5'))
    """
    if len(text) > LONGEST_TABLE:
        raise TableTooBig("letters")
    text = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    said = re.match(r'"?sep=(.)"?\n', text, re.IGNORECASE)
    if said:
        return bounded(_parsed(text[said.end() :], said[1]))
    head = "\n".join(text.split("\n")[:200])
    found = max(_DELIMITERS, key=lambda mark: _evenness(head, mark))
    # A tab stands in no sentence: lines without one are one column.
    return bounded(_parsed(text, found if _evenness(head, found) > (0, 0) else "\t"))


def bounded(rows: Iterable[Sequence[str]]) -> tuple[tuple[str, ...], ...]:
    """Return rows as `split_table` does, from a table that was split elsewhere.

    Parameters
    ----------
    rows : Iterable[Sequence[str]]
        Rows of cells, perhaps of unlike length.

    Returns
    -------
    tuple[tuple[str, ...], ...]
        Cleaned, of one length, without empty rows and empty columns at the end.

    Raises
    ------
    TableTooBig
        If it has more rows, columns or letters than are read.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> bounded([["a", "", ""], [], ["'=b"]])
    (('a',), ('=b',))
    """
    kept: list[list[str]] = []
    letters = 0
    for row in rows:
        cells = [clean(plain(cell)) for cell in row]
        while cells and not cells[-1]:
            cells.pop()
        if not cells:
            continue
        letters += sum(len(cell) for cell in cells)
        if len(kept) >= MOST_ROWS:
            raise TableTooBig("rows")
        if len(cells) > MOST_COLUMNS:
            raise TableTooBig("columns")
        if letters > LONGEST_TABLE or max(len(cell) for cell in cells) > LONGEST_CELL:
            raise TableTooBig("letters")
        kept.append(cells)
    width = max((len(row) for row in kept), default=0)
    return tuple(tuple(row + [""] * (width - len(row))) for row in kept)


def joined_table(rows: Iterable[Sequence[str]]) -> str:
    """Return rows as comma-separated text that a spreadsheet opens without harm.

    Parameters
    ----------
    rows : Iterable[Sequence[str]]
        Rows of cells.

    Returns
    -------
    str
        Lines that end with carriage return and line feed; `split_table` reads the same cells from it.

    References
    ----------
    RFC 4180.

    Examples
    --------
    >>> joined_table([["=1", "a, b"]])
    '\\'=1,"a, b"\\r\\n'
    """
    file = io.StringIO()
    writer = csv.writer(file, lineterminator="\r\n")
    for row in rows:
        writer.writerow([neutral(clean(cell)) for cell in row])
    return file.getvalue()


def _parsed(text: str, delimiter: str) -> list[list[str]]:
    """Split by the rules; a quote that is never closed is a letter like others, so that it swallows no rows."""
    # Marks are counted where they can open or close a cell; an odd one is somebody's inch or speech mark.
    lines = io.StringIO(text)
    if _quotes_pair(text, delimiter):
        reader = csv.reader(lines, delimiter=delimiter)
    else:
        reader = csv.reader(lines, delimiter=delimiter, quoting=csv.QUOTE_NONE)
    found = []
    try:
        for row in reader:
            found.append(row)
            if len(found) > 4 * MOST_ROWS:
                raise TableTooBig("rows")
    except csv.Error:
        # The reader's only complaint here is a cell of more than 128 kB.
        raise TableTooBig("letters") from None
    return found


def _quotes_pair(text: str, delimiter: str) -> bool:
    opened = False
    at = 0
    begins = True
    while at < len(text):
        letter = text[at]
        if opened:
            if letter == '"':
                if text[at + 1 : at + 2] == '"':
                    at += 1
                else:
                    opened = False
        elif letter == '"' and begins:
            opened = True
        begins = not opened and letter in (delimiter, "\n")
        at += 1
    return not opened


def _evenness(text: str, delimiter: str) -> tuple[int, int]:
    """Return how many rows have the commonest number of cells above one, and that number.

    None where most cells begin with a space: commas and semicolons are then those of a sentence.
    """
    rows = [row for row in _parsed(text, delimiter) if len(row) > 1]
    if not rows:
        return (0, 0)
    later = [cell for row in rows for cell in row[1:]]
    if 2 * sum(cell.startswith(" ") for cell in later) > len(later):
        return (0, 0)
    width, number = max(Counter(len(row) for row in rows).items(), key=lambda pair: (pair[1], pair[0]))
    return (number, width)
