"""Codes of shoots: short, for file names and subjects of mails."""

from __future__ import annotations

import re
from collections.abc import Iterable

#: What a code may look like: letters, digits and dashes, beginning and ending with a letter or digit.
CODE = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z0-9])?")
#: Words that stand in the same place of an address as a code.
RESERVED = frozenset({"new"})


def is_code(text: str) -> bool:
    """Return whether a text can be the code of a shoot.

    Parameters
    ----------
    text : str
        What was typed.

    Returns
    -------
    bool
        False for anything that would not survive as a file name or an address.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_code("26-014"), is_code("26/014"), is_code("new")
    (True, False, False)
    """
    return CODE.fullmatch(text) is not None and text.lower() not in RESERVED


def propose_code(taken: Iterable[str], *, year: int) -> str:
    """Return the next free code of a year, as 26-014.

    Parameters
    ----------
    taken : Iterable[str]
        The codes that a studio has used; others than this year's are passed over.
    year : int
        Calendar year in the studio's time zone. [year]

    Returns
    -------
    str
        Two digits of the year, a dash, and one more than the highest number so far, in at least three digits.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> propose_code(["26-001", "26-013", "25-099", "SPRING"], year=2026)
    '26-014'
    """
    ours = re.compile(rf"{year % 100:02}-(\d{{1,6}})")
    numbers = [int(found[1]) for code in taken if (found := ours.fullmatch(code))]
    return f"{year % 100:02}-{max(numbers, default=0) + 1:03}"
