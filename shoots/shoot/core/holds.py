"""What cannot be meant when a day or somebody is held."""

from __future__ import annotations

from datetime import date, time
from enum import StrEnum


class HoldProblem(StrEnum):
    """A date or time order that cannot be meant."""

    RUNS_OUT_AFTER_DAY = "RUNS_OUT_AFTER_DAY"
    RAN_OUT_ALREADY = "RAN_OUT_ALREADY"
    WRAP_BEFORE_CALL = "WRAP_BEFORE_CALL"


class HoldNotPossible(ValueError):
    """Raised when a hold's dates or times are in an order that cannot be meant; `problems` says which."""

    def __init__(self, problems: tuple[HoldProblem, ...]) -> None:
        super().__init__(", ".join(problems))
        self.problems = problems


def hold_problems(
    *,
    day: date | None,
    held_until: date | None,
    call: time | None = None,
    wrap: time | None = None,
    today: date | None = None,
) -> tuple[HoldProblem, ...]:
    """Return what is wrong with the dates and times of a hold, nothing when all is well.

    Parameters
    ----------
    day : date, optional
        The day that is held; None when it is not known.
    held_until : date, optional
        Last day on which the hold stands unless it is confirmed.
    call : time, optional
        When the day begins, local.
    wrap : time, optional
        When it is planned to end, local. A day called at noon or later may wrap after midnight.
    today : date, optional
        Given when the hold is new: it can't have run out before today.

    Returns
    -------
    tuple of HoldProblem
        In the order of the enum.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> hold_problems(day=date(2026, 6, 9), held_until=date(2026, 6, 10))
    (<HoldProblem.RUNS_OUT_AFTER_DAY: 'RUNS_OUT_AFTER_DAY'>,)
    >>> hold_problems(day=date(2026, 6, 9), held_until=None, call=time(18), wrap=time(1, 30))
    ()
    """
    found = []
    if day and held_until and held_until > day:
        found.append(HoldProblem.RUNS_OUT_AFTER_DAY)
    if today and held_until and held_until < today:
        found.append(HoldProblem.RAN_OUT_ALREADY)
    if call and wrap and wrap <= call and (call < time(12) or wrap == call):
        found.append(HoldProblem.WRAP_BEFORE_CALL)
    return tuple(found)
