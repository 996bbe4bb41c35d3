"""Rest and hours of adults and young workers on a shoot, as findings with the name of the rule.

The rules are written for workers; a truly self-employed person stands outside them, and good practice uses
the same limits. Hours are counted as they pass, so that a night with a change of clocks counts its real
length. A finding is a hint and no legal advice; collective agreements may differ.

References
----------
.. [1] Working Time Regulations 1998 (SI 1998/1833): reg. 5A (young workers' hours, from memory), reg. 10
   (daily rest), reg. 11 (weekly rest), reg. 12 (rest breaks); hse.gov.uk, working time questions.
.. [2] Worked cases: tests/data/working_time.json.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from enum import StrEnum


class Rule(StrEnum):
    """Rules that a day or the days of a shoot may break."""

    REST_BREAK = "rest_break_20min_missing"
    DAILY_REST = "daily_rest_11h"
    WEEKLY_REST = "weekly_rest_24h"
    YOUNG_BREAK = "young_break_30min_missing"
    YOUNG_DAILY_REST = "young_daily_rest_12h"
    YOUNG_WEEKLY_REST = "young_weekly_rest_48h"
    YOUNG_DAY = "young_day_8h"
    YOUNG_WEEK = "young_week_40h"
    CHILD_RULES = "child_rules_apply"


class DayNotPossible(ValueError):
    """Raised when times have no zone, end before they start, lie outside their day, or days overlap."""


def elapsed_minutes(start: datetime, end: datetime) -> int:
    """Return the whole minutes that really pass, whatever the clocks do in between.

    Parameters
    ----------
    start : datetime
        Beginning, with its zone.
    end : datetime
        End, with its zone.

    Returns
    -------
    int
        Minutes, rounded down; negative when ``end`` is earlier. [min]

    Raises
    ------
    DayNotPossible
        If a time has no zone.

    Examples
    --------
    >>> from zoneinfo import ZoneInfo
    >>> london = ZoneInfo("Europe/London")
    >>> wrap = datetime(2026, 3, 28, 21, 30, tzinfo=london)
    >>> call = datetime(2026, 3, 29, 8, 30, tzinfo=london)
    >>> elapsed_minutes(wrap, call)
    600
    """
    if start.utcoffset() is None or end.utcoffset() is None:
        raise DayNotPossible("A time of day has a zone.")
    return (end.astimezone(UTC) - start.astimezone(UTC)) // timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of time.

    Parameters
    ----------
    start : datetime
        Beginning, with its zone.
    end : datetime
        End, later than ``start``.

    Raises
    ------
    DayNotPossible
        If a time has no zone or the end is not later.
    """

    start: datetime
    end: datetime

    def __post_init__(self) -> None:
        elapsed_minutes(self.start, self.end)
        if self.end.astimezone(UTC) <= self.start.astimezone(UTC):
            raise DayNotPossible("A stretch of time ends after it starts.")

    @property
    def minutes(self) -> int:
        """How long it lasts. [min]"""
        return elapsed_minutes(self.start, self.end)

    def is_inside(self, other: Span) -> bool:
        """Return whether it lies within the other, ends included."""
        first, last = self.start.astimezone(UTC), self.end.astimezone(UTC)
        return other.start.astimezone(UTC) <= first and last <= other.end.astimezone(UTC)


@dataclass(frozen=True, slots=True)
class WorkDay:
    """A day's work from call to wrap with its breaks.

    Parameters
    ----------
    start : datetime
        When work starts, with its zone.
    end : datetime
        When work ends.
    breaks : tuple[Span, ...]
        Breaks, all within the day.

    Raises
    ------
    DayNotPossible
        If the day ends before it starts or a break lies outside.
    """

    start: datetime
    end: datetime
    breaks: tuple[Span, ...] = ()

    def __post_init__(self) -> None:
        whole = Span(self.start, self.end)
        if not all(pause.is_inside(whole) for pause in self.breaks):
            raise DayNotPossible("A break lies within its day.")

    @property
    def minutes(self) -> int:
        """From start to end, breaks included. [min]"""
        return elapsed_minutes(self.start, self.end)

    @property
    def date(self) -> date:
        """The date on which it starts, in its own zone."""
        return self.start.date()


@dataclass(frozen=True, slots=True)
class Finding:
    """A rule that is broken, on which day, with the limit and what was found. [min]"""

    rule: Rule
    day: date
    limit_minutes: int
    found_minutes: int


@dataclass(frozen=True, slots=True)
class _Limits:
    break_after: int
    break_length: int
    daily_rest: int
    weekly_rest: int
    rest_break: Rule
    daily: Rule
    weekly: Rule


_ADULT = _Limits(360, 20, 11 * 60, 24 * 60, Rule.REST_BREAK, Rule.DAILY_REST, Rule.WEEKLY_REST)
_YOUNG = _Limits(270, 30, 12 * 60, 48 * 60, Rule.YOUNG_BREAK, Rule.YOUNG_DAILY_REST, Rule.YOUNG_WEEKLY_REST)
_YOUNG_DAY, _YOUNG_WEEK = 8 * 60, 40 * 60
_WEEK = timedelta(days=7)


def merged(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Return stretches of time in order, touching or overlapping ones made into one.

    Parameters
    ----------
    spans : Iterable[Span]
        Stretches in any order.

    Returns
    -------
    tuple[Span, ...]
        Stretches with time between them.

    Examples
    --------
    >>> at = lambda hour: datetime(2026, 3, 2, hour, tzinfo=UTC)
    >>> [span.minutes for span in merged([Span(at(9), at(10)), Span(at(10), at(11)), Span(at(12), at(13))])]
    [120, 60]
    """
    found: list[Span] = []
    for span in sorted(spans, key=lambda span: span.start.astimezone(UTC)):
        if found and elapsed_minutes(found[-1].end, span.start) <= 0:
            longest = max(found[-1].end, span.end, key=lambda moment: moment.astimezone(UTC))
            found[-1] = Span(found[-1].start, longest)
        else:
            found.append(span)
    return tuple(found)


def _rest_breaks(day: WorkDay, least: int) -> list[Span]:
    """Breaks long enough, neither at the start nor at the end of the day (reg. 12)."""
    return [
        pause
        for pause in merged(day.breaks)
        if pause.minutes >= least
        and elapsed_minutes(day.start, pause.start) > 0
        and elapsed_minutes(pause.end, day.end) > 0
    ]


def _break_finding(day: WorkDay, limits: _Limits) -> list[Finding]:
    # Shorter breaks count as work here: they neither give rest nor shorten the day that asks for it.
    if day.minutes <= limits.break_after or _rest_breaks(day, limits.break_length):
        return []
    longest = max((pause.minutes for pause in merged(day.breaks)), default=0)
    return [Finding(limits.rest_break, day.date, limits.break_length, longest)]


def _weekly_findings(days: Sequence[WorkDay], limits: _Limits) -> list[Finding]:
    """Look at the seven days from each start on for one stretch of rest that is long enough."""
    findings: list[Finding] = []
    told_until = datetime.min.replace(tzinfo=UTC)
    for index, first in enumerate(days):
        if first.start.astimezone(UTC) < told_until:
            continue  # the same restless week, seen from its next day
        until = first.start.astimezone(UTC) + _WEEK
        within = [day for day in days[index:] if day.start.astimezone(UTC) < until]
        ends = [day.end.astimezone(UTC) for day in within]
        starts = [*(day.start.astimezone(UTC) for day in within[1:]), until]
        longest = max((begin - end) // timedelta(minutes=1) for end, begin in zip(ends, starts, strict=True))
        if longest < limits.weekly_rest:
            findings.append(Finding(limits.weekly, first.date, limits.weekly_rest, longest))
            told_until = until
    return findings


def working_time_findings(days: Iterable[WorkDay], *, age: int | None = None) -> tuple[Finding, ...]:
    """Return which rules about rest and hours the days break.

    Parameters
    ----------
    days : Iterable[WorkDay]
        All working days that are known, in any order; what lies before and after is taken as free.
    age : int, optional
        Age of the person; an adult's rules when left out. [year]

    Returns
    -------
    tuple[Finding, ...]
        One finding for each rule and day, in the order of the days; none when all is well. Below 16 the
        rules about children come first, which ``children`` checks; the young workers' rules are a floor.

    Raises
    ------
    DayNotPossible
        If two days overlap.

    References
    ----------
    Working Time Regulations 1998 regs 5A, 10, 11, 12; tests/data/working_time.json.

    Examples
    --------
    >>> day = WorkDay(datetime(2026, 3, 2, 8, tzinfo=UTC), datetime(2026, 3, 2, 14, 1, tzinfo=UTC))
    >>> [str(finding.rule) for finding in working_time_findings([day], age=30)]
    ['rest_break_20min_missing']
    """
    ordered = sorted(days, key=lambda day: day.start.astimezone(UTC))
    is_young = age is not None and age < 18
    limits = _YOUNG if is_young else _ADULT
    findings: list[Finding] = []
    if age is not None and age < 16 and ordered:
        findings.append(Finding(Rule.CHILD_RULES, ordered[0].date, 0, 0))
    for index, day in enumerate(ordered):
        findings += _break_finding(day, limits)
        worked = _worked_minutes(day)
        if is_young and worked > _YOUNG_DAY:
            findings.append(Finding(Rule.YOUNG_DAY, day.date, _YOUNG_DAY, worked))
        if index:
            rest = elapsed_minutes(ordered[index - 1].end, day.start)
            if rest < 0:
                raise DayNotPossible("A day starts after the one before has ended.")
            if rest < limits.daily_rest:
                findings.append(Finding(limits.daily, day.date, limits.daily_rest, rest))
    findings += _weekly_findings(ordered, limits)
    if is_young:
        findings += _young_weeks(ordered)
    return tuple(sorted(findings, key=lambda finding: finding.day))


def _worked_minutes(day: WorkDay) -> int:
    """A young worker's hours without the breaks that count as rest."""
    return day.minutes - sum(pause.minutes for pause in _rest_breaks(day, _YOUNG.break_length))


def _young_weeks(days: Sequence[WorkDay]) -> list[Finding]:
    """Add up each week from Monday on (reg. 5A)."""
    weeks: dict[date, int] = {}
    for day in days:
        monday = day.date - timedelta(days=day.date.weekday())
        weeks[monday] = weeks.get(monday, 0) + _worked_minutes(day)
    return [
        Finding(Rule.YOUNG_WEEK, monday, _YOUNG_WEEK, minutes)
        for monday, minutes in weeks.items()
        if minutes > _YOUNG_WEEK
    ]
