"""Periods of days: half-open spans, calendar months and the days to be reminded on.

A period begins on ``start`` and ends before ``until``; people are shown the last day instead. A month
later is the same day of the next month, or that month's last day where it is shorter.

References
----------
.. [1] The last day of a licence (clamp first, then one day less) and the clamping are this program's own
   definition, written down with worked cases in tests/data/licence_period.json.
.. [2] Adding months with a clamp agrees with dateutil's relativedelta (see tests).
"""

from __future__ import annotations

import calendar
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

REMINDER_DAYS_BEFORE = (90, 30, 7)
"""Days before a licence's last day, as in tests/data/licence_period.json (own definition)."""


class PeriodNotPossible(ValueError):
    """Raised when a period would end before it starts or lies outside the calendar."""


@dataclass(frozen=True, slots=True)
class Period:
    """A run of whole days from ``start`` up to, but not including, ``until``.

    Parameters
    ----------
    start : date
        First day.
    until : date, optional
        Day after the last one; None when the period never ends.

    Raises
    ------
    PeriodNotPossible
        If ``until`` is not after ``start``.

    Examples
    --------
    >>> year = Period(date(2026, 2, 1), date(2027, 2, 1))
    >>> year.last_day, year.days
    (datetime.date(2027, 1, 31), 365)
    >>> date(2027, 2, 1) in year
    False
    """

    start: date
    until: date | None = None

    def __post_init__(self) -> None:
        if self.until is not None and self.until <= self.start:
            raise PeriodNotPossible("A period ends after it starts.")

    def __contains__(self, day: date) -> bool:
        return self.start <= day and (self.until is None or day < self.until)

    @property
    def last_day(self) -> date | None:
        """The last day inside, or None when the period never ends."""
        return None if self.until is None else self.until - timedelta(days=1)

    @property
    def days(self) -> int | None:
        """The number of days inside, or None when the period never ends. [d]"""
        return None if self.until is None else (self.until - self.start).days

    def overlap(self, other: Period) -> Period | None:
        """Return the days that both periods share, or None when they share none."""
        start = max(self.start, other.start)
        ends = [period.until for period in (self, other) if period.until is not None]
        until = min(ends) if ends else None
        return None if until is not None and until <= start else Period(start, until)


def add_months(day: date, months: int) -> date:
    """Return the same day so many months later, clamped to the length of that month.

    Parameters
    ----------
    day : date
        Day to count from.
    months : int
        Months to add; negative to go back. [month]

    Returns
    -------
    date
        The day, or the month's last one where it has no such day.

    Raises
    ------
    PeriodNotPossible
        If the result lies outside the years 1 to 9999.

    Examples
    --------
    >>> add_months(date(2026, 1, 31), 1)
    datetime.date(2026, 2, 28)
    """
    index = day.year * 12 + day.month - 1 + months
    year, month = divmod(index, 12)
    if not 1 <= year <= 9999:
        raise PeriodNotPossible("The calendar has the years 1 to 9999.")
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def end_of_month(day: date) -> date:
    """Return the last day of the month that the day lies in.

    Parameters
    ----------
    day : date
        Any day of the month.

    Returns
    -------
    date
        The last day of that month.

    Examples
    --------
    >>> end_of_month(date(2028, 2, 10))
    datetime.date(2028, 2, 29)
    """
    return day.replace(day=calendar.monthrange(day.year, day.month)[1])


def months_period(start: date, months: int) -> Period:
    """Return the period of so many calendar months from a day on.

    Parameters
    ----------
    start : date
        First day.
    months : int
        Length, at least 1. [month]

    Returns
    -------
    Period
        From ``start`` until the same day ``months`` later, clamped.

    Raises
    ------
    PeriodNotPossible
        If ``months`` is below 1 or the end lies outside the calendar.

    Examples
    --------
    >>> months_period(date(2026, 3, 31), 6).last_day
    datetime.date(2026, 9, 29)
    """
    if months < 1:
        raise PeriodNotPossible("A period of months has at least one.")
    return Period(start, add_months(start, months))


def licence_last_day(start: date, months: int) -> date:
    """Return the last day on which a licence of so many months allows use.

    Parameters
    ----------
    start : date
        First day of use.
    months : int
        Length, at least 1. [month]

    Returns
    -------
    date
        The day before the same day ``months`` later.

    Raises
    ------
    PeriodNotPossible
        If ``months`` is below 1 or the end lies outside the calendar.

    Examples
    --------
    >>> licence_last_day(date(2026, 2, 1), 12)
    datetime.date(2027, 1, 31)
    >>> licence_last_day(date(2028, 2, 29), 12)
    datetime.date(2029, 2, 27)
    """
    if months < 1:
        raise PeriodNotPossible("A licence of months has at least one.")
    return add_months(start, months) - timedelta(days=1)


def reminder_dates(last_day: date, days_before: Iterable[int] = REMINDER_DAYS_BEFORE) -> tuple[date, ...]:
    """Return the days on which to be reminded that something ends.

    Parameters
    ----------
    last_day : date
        Last day of the licence, offer or hold.
    days_before : Iterable[int]
        How many days before ``last_day`` each reminder falls. [d]

    Returns
    -------
    tuple[date, ...]
        One day for each entry, in the order given; days that have passed are not left out.

    Examples
    --------
    >>> reminder_dates(date(2027, 1, 31), (90, 30, 7))
    (datetime.date(2026, 11, 2), datetime.date(2027, 1, 1), datetime.date(2027, 1, 24))
    """
    return tuple(last_day - timedelta(days=days) for days in days_before)
