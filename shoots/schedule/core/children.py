"""Hours of children on a shoot, as findings with the name of the rule.

The table is that of the English regulations. Paid modelling needs a licence from the council where the
child lives, which sets its own conditions: take the table as the ceiling, never as a permission. Wales,
Scotland and Northern Ireland have their own. No legal advice; ask the council.

References
----------
.. [1] The Children (Performances and Activities) (England) Regulations 2014 (SI 2014/3309), regs 21 to 24
   and 26. The row for nine and over was seen in a council's guidance, the others are from memory.
.. [2] Children and Young Persons Act 1963 s. 37 (licence also for paid modelling).
.. [3] Worked cases: tests/data/child_hours.json.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from enum import StrEnum

from shoots.schedule.core.rest import DayNotPossible, Span, elapsed_minutes, merged


class ChildRule(StrEnum):
    """Rules about a child's day."""

    TOO_EARLY = "too_early"
    TOO_LATE = "too_late"
    PRESENT_TOO_LONG = "present_too_long"
    PERFORM_TOO_LONG = "perform_too_long"
    CONTINUOUS_TOO_LONG = "continuous_too_long"
    MEAL_BREAK_MISSING = "meal_break_missing"
    BREAK_MISSING = "break_missing"
    OVERNIGHT_REST = "overnight_rest_12h"
    TOO_MANY_DAYS = "too_many_days"


class AgeNotPossible(ValueError):
    """Raised when an age is below 0 or that of an adult."""


@dataclass(frozen=True, slots=True)
class Band:
    """Limits for an age. [min]"""

    earliest: time
    latest: time
    present_minutes: int
    perform_minutes: int
    continuous_minutes: int


BANDS: tuple[tuple[int, Band], ...] = (
    (9, Band(time(7), time(23), 570, 300, 150)),
    (5, Band(time(7), time(23), 480, 180, 150)),
    (0, Band(time(7), time(22), 300, 120, 30)),
)
"""Age from which, and its limits, oldest first [1]."""

MEAL_MINUTES, BREAK_MINUTES = 45, 15
OVERNIGHT_MINUTES, MOST_DAYS = 12 * 60, 6
_BREAKS_FROM, _TWO_BREAKS_FROM = 4 * 60, 8 * 60


@dataclass(frozen=True, slots=True)
class ChildDay:
    """A child's day at the place of the shoot.

    Parameters
    ----------
    arrive : datetime
        Arrival at the place, with its zone.
    depart : datetime
        Departure.
    performing : tuple[Span, ...]
        When the child is in front of the camera or rehearses.
    breaks : tuple[Span, ...]
        Breaks; a meal is one of at least 45 minutes.

    Raises
    ------
    DayNotPossible
        If times are out of order, lie outside the day, or a break runs into work.
    """

    arrive: datetime
    depart: datetime
    performing: tuple[Span, ...] = ()
    breaks: tuple[Span, ...] = ()

    def __post_init__(self) -> None:
        whole = Span(self.arrive, self.depart)
        if not all(span.is_inside(whole) for span in (*self.performing, *self.breaks)):
            raise DayNotPossible("Work and breaks lie between arrival and departure.")
        for work in self.performing:
            for pause in self.breaks:
                if elapsed_minutes(work.start, pause.end) > 0 and elapsed_minutes(pause.start, work.end) > 0:
                    raise DayNotPossible("A break is no work.")

    @property
    def date(self) -> date:
        """The date of arrival, in its own zone."""
        return self.arrive.date()


@dataclass(frozen=True, slots=True)
class ChildFinding:
    """A rule that is broken, on which day, with the limit and what was found.

    Minutes; for times of day, minutes after midnight; for days in a row, days.
    """

    rule: ChildRule
    day: date
    limit: int
    found: int


def band_of(age: int) -> Band:
    """Return the limits for an age.

    Parameters
    ----------
    age : int
        Age in whole years, 0 to 17. [year]

    Returns
    -------
    Band
        Times of day and minutes.

    Raises
    ------
    AgeNotPossible
        If ``age`` is below 0 or above 17.

    Examples
    --------
    >>> band_of(8).perform_minutes, band_of(9).perform_minutes
    (180, 300)
    """
    if not 0 <= age < 18:
        raise AgeNotPossible(str(age))
    return next(band for least, band in BANDS if age >= least)


def _minute_of_day(moment: datetime, day: date) -> int:
    """Minutes on the wall clock after the midnight that began the day."""
    return (moment.date() - day).days * 1440 + moment.hour * 60 + moment.minute


def _break_findings(day: ChildDay, age: int, present: int) -> list[ChildFinding]:
    if present <= _BREAKS_FROM:
        return []
    lengths = sorted((pause.minutes for pause in merged(day.breaks)), reverse=True)
    longest = lengths[0] if lengths else 0
    findings = []
    if longest < MEAL_MINUTES:
        findings.append(ChildFinding(ChildRule.MEAL_BREAK_MISSING, day.date, MEAL_MINUTES, longest))
    if age >= 5:
        wanted = 2 if present >= _TWO_BREAKS_FROM else 1
        others = lengths[1:] if longest >= MEAL_MINUTES else lengths
        long_enough = sum(length >= BREAK_MINUTES for length in others)
        if long_enough < wanted:
            shorter = max((length for length in others if length < BREAK_MINUTES), default=0)
            findings.append(ChildFinding(ChildRule.BREAK_MISSING, day.date, BREAK_MINUTES, shorter))
    return findings


def _day_findings(day: ChildDay, age: int) -> list[ChildFinding]:
    band, findings = band_of(age), []
    arrive, depart = _minute_of_day(day.arrive, day.date), _minute_of_day(day.depart, day.date)
    earliest = band.earliest.hour * 60 + band.earliest.minute
    latest = band.latest.hour * 60 + band.latest.minute
    present = elapsed_minutes(day.arrive, day.depart)
    runs = [span.minutes for span in merged(day.performing)]
    performed, longest = sum(runs), max(runs, default=0)
    for rule, limit, found, is_broken in (
        (ChildRule.TOO_EARLY, earliest, arrive, arrive < earliest),
        (ChildRule.TOO_LATE, latest, depart, depart > latest),
        (ChildRule.PRESENT_TOO_LONG, band.present_minutes, present, present > band.present_minutes),
        (ChildRule.PERFORM_TOO_LONG, band.perform_minutes, performed, performed > band.perform_minutes),
        (ChildRule.CONTINUOUS_TOO_LONG, band.continuous_minutes, longest, longest > band.continuous_minutes),
    ):
        if is_broken:
            findings.append(ChildFinding(rule, day.date, limit, found))
    return findings + _break_findings(day, age, present)


def child_findings(days: Iterable[ChildDay], *, age: int) -> tuple[ChildFinding, ...]:
    """Return which rules the child's days break.

    Parameters
    ----------
    days : Iterable[ChildDay]
        All days that are known, in any order, other people's shoots included.
    age : int
        Age in whole years on these days, 0 to 17. [year]

    Returns
    -------
    tuple[ChildFinding, ...]
        One finding for each rule and day, in the order of the days; none when all is within the table,
        which is still no permission.

    Raises
    ------
    AgeNotPossible
        If ``age`` is below 0 or above 17.
    DayNotPossible
        If two days overlap.

    References
    ----------
    SI 2014/3309 regs 21 to 24, 26; tests/data/child_hours.json.

    Examples
    --------
    >>> day = ChildDay(datetime(2026, 7, 6, 6, 45, tzinfo=UTC), datetime(2026, 7, 6, 10, tzinfo=UTC))
    >>> [str(finding.rule) for finding in child_findings([day], age=11)]
    ['too_early']
    """
    band_of(age)
    ordered = sorted(days, key=lambda day: day.arrive.astimezone(UTC))
    findings: list[ChildFinding] = []
    in_a_row = 0
    for index, day in enumerate(ordered):
        findings += _day_findings(day, age)
        if index:
            before = ordered[index - 1]
            rest = elapsed_minutes(before.depart, day.arrive)
            if rest < 0:
                raise DayNotPossible("A day starts after the one before has ended.")
            if rest < OVERNIGHT_MINUTES:
                findings.append(ChildFinding(ChildRule.OVERNIGHT_REST, day.date, OVERNIGHT_MINUTES, rest))
            gap = (day.date - before.date).days
            in_a_row = in_a_row if gap == 0 else in_a_row + 1 if gap == 1 else 1
        else:
            in_a_row = 1
        if in_a_row > MOST_DAYS:
            findings.append(ChildFinding(ChildRule.TOO_MANY_DAYS, day.date, MOST_DAYS, in_a_row))
    return tuple(findings)
