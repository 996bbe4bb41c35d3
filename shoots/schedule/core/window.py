"""The stretch of time that a drawing of the day shows, and where moments lie in it.

References
----------
Own arrangement.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from shoots.schedule.core.rest import DayNotPossible, elapsed_minutes


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of time that is drawn from left to right.

    Parameters
    ----------
    start : datetime
        Its left edge, with its zone.
    end : datetime
        Its right edge, later than ``start``.

    Raises
    ------
    DayNotPossible
        If a time has no zone or the end is not later.
    """

    start: datetime
    end: datetime

    def __post_init__(self) -> None:
        if elapsed_minutes(self.start, self.end) <= 0:
            raise DayNotPossible("A drawing needs some time to show.")

    @property
    def minutes(self) -> int:
        """How long it is. [min]"""
        return elapsed_minutes(self.start, self.end)

    def share_of(self, moment: datetime) -> float:
        """Return where a moment lies, 0 at the left edge and 1 at the right; outside, the nearer edge. [1]"""
        passed = (moment.astimezone(UTC) - self.start.astimezone(UTC)) / timedelta(minutes=1)
        return min(max(passed / self.minutes, 0.0), 1.0)

    def has(self, moment: datetime) -> bool:
        """Return whether a moment lies in it, edges included."""
        return self.start.astimezone(UTC) <= moment.astimezone(UTC) <= self.end.astimezone(UTC)

    def hours(self) -> Iterator[datetime]:
        """Yield the full hours of the clock within it, in its zone."""
        zone = self.start.tzinfo
        moment = self.start.astimezone(UTC)
        while moment <= self.end.astimezone(UTC):
            local = moment.astimezone(zone)
            if local.minute == 0:
                yield local
            moment += timedelta(minutes=60 - local.minute if local.minute else 60)


def window_around(first: datetime, last: datetime, margin_minutes: int = 30) -> Window:
    """Return a window of full hours around a stretch of time.

    Parameters
    ----------
    first : datetime
        Its beginning, with its zone.
    last : datetime
        Its end, not earlier.
    margin_minutes : int
        How much is shown before and after at least, 1 or more. [min]

    Returns
    -------
    Window
        From a full hour to a full hour, in the zone of ``first``.

    Raises
    ------
    DayNotPossible
        If a time has no zone or the end is earlier.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> shown = window_around(datetime(2026, 6, 9, 10, 15, tzinfo=UTC), datetime(2026, 6, 9, 19, 40, tzinfo=UTC))
    >>> f"{shown.start:%H:%M} {shown.end:%H:%M}"
    '09:00 21:00'
    """
    if elapsed_minutes(first, last) < 0:
        raise DayNotPossible("A day ends after it starts.")
    zone = first.tzinfo
    early = (first.astimezone(UTC) - timedelta(minutes=margin_minutes)).astimezone(zone)
    late = (last.astimezone(UTC) + timedelta(minutes=margin_minutes)).astimezone(zone)
    start = early.astimezone(UTC) - timedelta(minutes=early.minute, seconds=early.second)
    full = late.minute == 0 and late.second == 0
    end = late.astimezone(UTC) + (timedelta() if full else timedelta(minutes=60 - late.minute, seconds=-late.second))
    return Window(start.astimezone(zone), end.astimezone(zone))
