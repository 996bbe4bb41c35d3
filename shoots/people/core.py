"""Age: who is a minor on a date, and from when on somebody is not; and initials.

References
----------
Family Law Reform Act 1969 (England and Wales) s.1 (full age is 18) and s.9 (an age is reached at the beginning of the
birthday). For a birthday on 29 February in a common year 1 March is taken: the later day, so that the caution is not
dropped a day too soon (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

FULL_AGE = 18


class BornLater(ValueError):
    """Raised when a date lies before the birth."""


@dataclass(frozen=True, slots=True)
class Minor:
    """Somebody under 18 on a date.

    Attributes
    ----------
    age : int
        In whole years on that date. [a]
    of_age_date : date
        The first day on which they are 18.
    """

    age: int
    of_age_date: date


def birthday(birth_date: date, years: int) -> date:
    """Return the day on which somebody reaches an age.

    Parameters
    ----------
    birth_date : date
        Day of birth.
    years : int
        The age, at least 0. [a]

    Returns
    -------
    date
        1 March for somebody born on 29 February, in years without one.

    Examples
    --------
    >>> birthday(date(2008, 2, 29), 18)
    datetime.date(2026, 3, 1)
    """
    try:
        return birth_date.replace(year=birth_date.year + years)
    except ValueError:
        return date(birth_date.year + years, 3, 1)


def age_on(birth_date: date, day: date) -> int:
    """Return somebody's age in whole years.

    Parameters
    ----------
    birth_date : date
        Day of birth.
    day : date
        The day that is asked about.

    Returns
    -------
    int
        Whole years. [a]

    Raises
    ------
    BornLater
        If ``day`` lies before the birth.

    Examples
    --------
    >>> age_on(date(2010, 6, 10), date(2026, 6, 9))
    15
    """
    if day < birth_date:
        raise BornLater(day)
    years = day.year - birth_date.year
    return years if birthday(birth_date, years) <= day else years - 1


def minor_on(birth_date: date | None, day: date) -> Minor | None:
    """Return how old a minor is on a day, or None for somebody of full age or without a known birth date.

    Parameters
    ----------
    birth_date : date or None
        Day of birth; the program keeps it only where it matters.
    day : date
        The day that is asked about, a day of a shoot.

    Returns
    -------
    Minor or None
        Age and the day of full age; None means that no caution follows from what is known.

    Raises
    ------
    BornLater
        If ``day`` lies before the birth.

    Examples
    --------
    >>> minor_on(date(2010, 6, 10), date(2026, 6, 9))
    Minor(age=15, of_age_date=datetime.date(2028, 6, 10))
    >>> minor_on(date(2010, 6, 10), date(2028, 6, 10)) is None
    True
    """
    if birth_date is None:
        return None
    age = age_on(birth_date, day)
    return Minor(age, birthday(birth_date, FULL_AGE)) if age < FULL_AGE else None


def initials(name: str) -> str:
    """Return the letters that stand for a name in a small space: of its first and its last word.

    Parameters
    ----------
    name : str
        As it is written; may be empty.

    Returns
    -------
    str
        Up to two upper-case letters.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> initials("Isla van der Moor")
    'IM'
    """
    words = name.split()
    ends = words[:1] + words[1:][-1:]
    return "".join(word[0] for word in ends).upper()
