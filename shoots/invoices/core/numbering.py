"""How the number of an issued document is written, from its series, year and counter.

The counter itself is kept by the database; here is only the writing. A series that puts the year into the
number begins again at 1 each year, one that doesn't must never begin again.

References
----------
.. [1] A sequential number from one or more series that identifies the invoice uniquely: VAT Regulations
   1995 (SI 1995/2518) reg. 14(1)(a); Directive 2006/112/EC Art. 226(2).
.. [2] EN 16931-1 BT-1. The limit of 20 characters is ours, so that the number fits the body of an RF
   reference (ISO 11649: 21 characters).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

LONGEST = 20


class NumberNotPossible(ValueError):
    """Raised when a series, a year or a counter cannot make an unmistakable number."""


@dataclass(frozen=True, slots=True)
class Series:
    """A run of numbers.

    Parameters
    ----------
    prefix : str
        Capital letters, 1 to 6 of them.
    has_year : bool
        Whether the year stands in the number; the counter then begins again each year.
    width : int
        Least number of digits of the counter, 1 to 8; longer counters are written in full. [1]

    Raises
    ------
    NumberNotPossible
        If prefix or width are anything else.

    Examples
    --------
    >>> format_number(Series("INV"), year=2026, counter=7)
    'INV-2026-0007'
    """

    prefix: str
    has_year: bool = True
    width: int = 4

    def __post_init__(self) -> None:
        if not re.fullmatch(r"[A-Z]{1,6}", self.prefix) or not 1 <= self.width <= 8:
            raise NumberNotPossible(f"{self.prefix!r} {self.width}")


def format_number(series: Series, *, year: int, counter: int) -> str:
    """Return the number of a document.

    Parameters
    ----------
    series : Series
        The run it belongs to.
    year : int
        Year of issue, 2000 to 9999; not printed where the series has no year.
    counter : int
        Place in the run, from 1. [1]

    Returns
    -------
    str
        At most 20 characters; two documents of a series never share one.

    Raises
    ------
    NumberNotPossible
        If year or counter are out of range, or the number would be too long.

    Examples
    --------
    >>> format_number(Series("CN", has_year=False, width=5), year=2026, counter=123456)
    'CN-123456'
    """
    if counter < 1 or not 2000 <= year <= 9999:
        raise NumberNotPossible(f"{year} {counter}")
    parts = [series.prefix, *([str(year)] if series.has_year else []), f"{counter:0{series.width}d}"]
    number = "-".join(parts)
    if len(number) > LONGEST:
        raise NumberNotPossible(number)
    return number


def format_version(number: str, version: int) -> str:
    """Return the number of a later version of a document that keeps its number.

    Parameters
    ----------
    number : str
        Number of the document.
    version : int
        Version, from 1. [1]

    Returns
    -------
    str
        The number alone for the first version, with ``/2`` and so on after it.

    Raises
    ------
    NumberNotPossible
        If ``version`` is below 1.

    Examples
    --------
    >>> format_version("Q-2026-0012", 1), format_version("Q-2026-0012", 3)
    ('Q-2026-0012', 'Q-2026-0012/3')
    """
    if version < 1:
        raise NumberNotPossible(f"{number} {version}")
    return number if version == 1 else f"{number}/{version}"
