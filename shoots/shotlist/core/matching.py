"""Which shot of a list each row of a table is, when a table is brought back.

References
----------
Own arrangement.
"""

import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence


def title_key(title: str) -> str:
    """Return what makes two titles the same one.

    Parameters
    ----------
    title : str
        What is in a picture.

    Returns
    -------
    str
        Without regard to letters' case, to how much blank stands between words, and to whether an accent is a letter
        of its own.

    References
    ----------
    Caseless matching: the Unicode Standard, chapter 3.13. Canonical composition: UAX #15.

    Examples
    --------
    >>> title_key("  Pack on\\tSTONE ")
    'pack on stone'
    """
    return " ".join(unicodedata.normalize("NFC", unicodedata.normalize("NFC", title).casefold()).split())


def matched(rows: Sequence[tuple[str, int | None]], titles: Sequence[str]) -> tuple[int | None, ...]:
    """Return which shot of a list each row of a table is.

    A row is the shot of its title, where the title stands once in the table and once on the list. Of the other rows,
    one is the shot of its number: rather that with the shot's own title, else one of a new title. Where two rows lay
    claim to the same shot by its number, neither is it. The order of the rows does not matter.

    Parameters
    ----------
    rows : Sequence[tuple[str, int or None]]
        Title and number of each row; "" and None where it has none.
    titles : Sequence[str]
        Titles of the shots in the list's order.

    Returns
    -------
    tuple[int or None, ...]
        For each row the shot's number, from 1; None for a row that is none of them. No number comes twice.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> matched([("vest", 1), ("Pack, wet", 1), ("Boots", None)], ["Pack", "Vest"])
    (2, 1, None)
    """
    keys = [title_key(title) for title, _number in rows]
    listed = [title_key(title) for title in titles]
    in_table, on_list = Counter(keys), Counter(listed)
    number_of = {key: number for number, key in enumerate(listed, start=1)}
    found: list[int | None] = [
        number_of[key] if key and in_table[key] == 1 and on_list[key] == 1 else None for key in keys
    ]
    claims = [(place, number) for place, (_title, number) in enumerate(rows) if number and number <= len(titles)]
    own = [(place, number) for place, number in claims if keys[place] == listed[number - 1]]
    for among in (own, claims):
        for place, number in _undisputed(among, found):
            found[place] = number
    return tuple(found)


def _undisputed(claims: Iterable[tuple[int, int]], found: Sequence[int | None]) -> list[tuple[int, int]]:
    """Return the claims of rows without a shot on shots without a row, where no other row claims the same."""
    taken = set(found)
    free = [(place, number) for place, number in claims if found[place] is None and number not in taken]
    times = Counter(number for _place, number in free)
    return [(place, number) for place, number in free if times[number] == 1]
