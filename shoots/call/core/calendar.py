"""Days and stretches of days: weekdays counted from the call, parts of months, named days by country."""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Mapping
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

from babel import Locale, UnknownLocaleError
from dateutil.easter import EASTER_ORTHODOX, EASTER_WESTERN, easter

#: Countries whose public Easter is the Orthodox one.
_ORTHODOX = frozenset({"GR", "CY", "RO", "BG", "RS", "MK", "ME", "UA", "BY", "RU", "MD", "GE"})
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def on_or_after(day: int, month: int, start: date) -> date | None:
    """Return the first such day of the year that is not before another day.

    Parameters
    ----------
    day : int
        Day of the month, from 1.
    month : int
        Month, from 1.
    start : date
        The day to begin with.

    Returns
    -------
    date or None
        The day within eight years, None when there is no such day in the calendar.

    References
    ----------
    Gregorian calendar.

    Examples
    --------
    >>> on_or_after(8, 6, date(2026, 5, 14)), on_or_after(1, 2, date(2026, 5, 14))
    (datetime.date(2026, 6, 8), datetime.date(2027, 2, 1))
    """
    for year in range(start.year, start.year + 9):
        if 1 <= month <= 12 and 1 <= day <= monthrange(year, month)[1] and (found := date(year, month, day)) >= start:
            return found
    return None


def next_ordinal(day: int, start: date) -> date | None:
    """Return the next day of any month with this number that is not before another day.

    Parameters
    ----------
    day : int
        Day of the month, from 1.
    start : date
        The day to begin with.

    Returns
    -------
    date or None
        The day, None for a number that no month has.

    References
    ----------
    Gregorian calendar.

    Examples
    --------
    >>> next_ordinal(3, date(2026, 5, 14))
    datetime.date(2026, 6, 3)
    """
    year, month = start.year, start.month
    for _ in range(14):
        if 1 <= day <= monthrange(year, month)[1] and (found := date(year, month, day)) >= start:
            return found
        year, month = (year + 1, 1) if month == 12 else (year, month + 1)
    return None


def month_span(year: int, month: int, part: str = "") -> tuple[date, date]:
    """Return the first and last day of a month or of a part of it.

    Parameters
    ----------
    year : int
        Year.
    month : int
        Month, from 1.
    part : str
        "early", "mid", "late", "first half", "second half", "week 1" to "week 5", "last week", "last day" or empty.

    Returns
    -------
    tuple of date
        First and last day.

    References
    ----------
    Thirds of a month for early, mid and late: common practice, no source.

    Examples
    --------
    >>> month_span(2026, 6, "mid")
    (datetime.date(2026, 6, 11), datetime.date(2026, 6, 20))
    """
    last = monthrange(year, month)[1]
    first_day, last_day = {
        "early": (1, 10),
        "mid": (11, 20),
        "late": (21, last),
        "first half": (1, 15),
        "second half": (16, last),
        "last week": (last - 6, last),
        "last day": (last, last),
    }.get(part, (1, last))
    if week := re.fullmatch(r"week (\d)", part):
        first_day = 7 * (int(week.group(1)) - 1) + 1
        last_day = min(first_day + 6, last)
    return date(year, month, first_day), date(year, month, last_day)


def week_of(day: date) -> tuple[date, date]:
    """Return Monday and Sunday of the week that holds a day.

    Parameters
    ----------
    day : date
        Any day.

    Returns
    -------
    tuple of date
        Monday and Sunday.

    References
    ----------
    ISO 8601: weeks begin on Monday.

    Examples
    --------
    >>> week_of(date(2026, 6, 10))
    (datetime.date(2026, 6, 8), datetime.date(2026, 6, 14))
    """
    monday = day - timedelta(days=day.weekday())
    return monday, monday + timedelta(days=6)


def nth_weekday(year: int, month: int, weekday: int, nth: int) -> date:
    """Return the n-th such weekday of a month.

    Parameters
    ----------
    year : int
        Year.
    month : int
        Month, from 1.
    weekday : int
        0 for Monday.
    nth : int
        1 for the first, -1 for the last.

    Returns
    -------
    date
        The day.

    References
    ----------
    Gregorian calendar.

    Examples
    --------
    >>> nth_weekday(2026, 8, 0, -1)
    datetime.date(2026, 8, 31)
    """
    if nth < 0:
        last = date(year, month, monthrange(year, month)[1])
        return last - timedelta(days=(last.weekday() - weekday) % 7)
    first = date(year, month, 1)
    return first + timedelta(days=(weekday - first.weekday()) % 7 + 7 * (nth - 1))


def named_day(data: Mapping[str, Any], country: str, start: date) -> date | None:
    """Return the next time that a named day comes round in a country.

    Parameters
    ----------
    data : mapping
        An entry of the table `holiday`: `rule`, and `rules` by country.
    country : str
        ISO 3166-1 alpha-2 code.
    start : date
        The day to begin with.

    Returns
    -------
    date or None
        The day, not before `start`; None when the rule makes no sense.

    References
    ----------
    Easter: dateutil's computus.

    Examples
    --------
    >>> named_day({"rule": "easter+0"}, "GB", date(2026, 5, 14))
    datetime.date(2027, 3, 28)
    """
    rules = str(data.get("rules", {}).get(country, data.get("rule", ""))).split("|")
    days = [
        day
        for rule in rules
        for year in (start.year, start.year + 1)
        if (day := _by_rule(rule, country, year)) and day >= start
    ]
    return min(days, default=None)


def _by_rule(rule: str, country: str, year: int) -> date | None:
    if match := re.fullmatch(r"easter([+-]\d+)", rule):
        kind = EASTER_ORTHODOX if country in _ORTHODOX else EASTER_WESTERN
        sunday: date = easter(year, kind)
        return sunday + timedelta(days=int(match.group(1)))
    if match := re.fullmatch(r"(\d\d)-(\d\d)", rule):
        return date(year, int(match.group(1)), int(match.group(2)))
    if match := re.fullmatch(r"(\d\d) (\w{3}) (-?\d)(?:\+(\d+))?", rule):
        day = nth_weekday(year, int(match.group(1)), WEEKDAYS.index(match.group(2)), int(match.group(3)))
        return day + timedelta(days=int(match.group(4) or 0))
    return None


@lru_cache(maxsize=256)
def date_order(country: str) -> str:
    """Return the order in which a country writes a date in figures.

    Parameters
    ----------
    country : str
        ISO 3166-1 alpha-2 code.

    Returns
    -------
    str
        "DMY", "MDY" or "YMD".

    References
    ----------
    Unicode CLDR short date patterns, by way of Babel.

    Examples
    --------
    >>> date_order("GB"), date_order("US")
    ('DMY', 'MDY')
    """
    try:
        locale = Locale.parse(f"und_{country.upper()}")
        if locale.language == "en" or country.upper() in ("GB", "US"):
            locale = Locale("en", country.upper())
        pattern = str(locale.date_formats["short"].pattern)
    except (UnknownLocaleError, ValueError):
        return "DMY"
    order = "".join(dict.fromkeys(letter.upper() for letter in pattern if letter in "dMy"))
    return order if order in ("DMY", "MDY", "YMD") else "DMY"
