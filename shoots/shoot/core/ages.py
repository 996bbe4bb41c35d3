"""How old somebody in front of the camera is on the day, and what is usually asked then.

Nothing here decides whether a licence is needed: that is the council's to say.
"""

from __future__ import annotations

from datetime import date
from enum import StrEnum

#: Somebody of this age signs for themselves; under it a parent or guardian does (Family Law Reform Act 1969 s. 1
#: for England and Wales; Age of Legal Capacity (Scotland) Act 1991 differs, so the page tells people to ask).
OF_AGE = 18
#: Nobody older than this is of compulsory school age in Great Britain: it ends, in England and Wales, on the last
#: Friday of June of the school year in which they turn 16 (Education (School Leaving Date) Order 1997).
LAST_SCHOOL_AGE = 16


class Youth(StrEnum):
    """What an age asks of whoever plans the day."""

    SCHOOL_AGE = "SCHOOL_AGE"
    UNDER_18 = "UNDER_18"


def age_on(birth: date, day: date) -> int:
    """Return somebody's age in full years on a day.

    Parameters
    ----------
    birth : date
        Date of birth; on 29 February the birthday of common years counts as 1 March.
    day : date
        The day asked about.

    Returns
    -------
    int
        Full years, negative before birth. [year]

    References
    ----------
    Common reckoning; the leap day as in English law ("attains an age at the commencement of the anniversary",
    Family Law Reform Act 1969 s. 9), where 1 March is common practice, no source.

    Examples
    --------
    >>> age_on(date(2010, 6, 10), date(2026, 6, 9)), age_on(date(2010, 6, 10), date(2026, 6, 10))
    (15, 16)
    """
    return day.year - birth.year - ((day.month, day.day) < (birth.month, birth.day))


def youth_on(birth: date | None, day: date) -> Youth | None:
    """Return what somebody's age on a day asks for, or None when they are of age or no birthday is known.

    Parameters
    ----------
    birth : date, optional
        Date of birth.
    day : date
        The day of the shoot.

    Returns
    -------
    Youth or None
        `SCHOOL_AGE` up to and with 16, because at 16 it depends on the month; `UNDER_18` at 17.

    References
    ----------
    See the constants of this module.

    Examples
    --------
    >>> youth_on(date(2010, 1, 2), date(2026, 6, 9))
    <Youth.SCHOOL_AGE: 'SCHOOL_AGE'>
    >>> youth_on(date(2000, 1, 2), date(2026, 6, 9)) is None
    True
    """
    if birth is None:
        return None
    age = age_on(birth, day)
    if age >= OF_AGE:
        return None
    return Youth.SCHOOL_AGE if age <= LAST_SCHOOL_AGE else Youth.UNDER_18
