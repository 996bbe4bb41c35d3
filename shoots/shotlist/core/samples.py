"""Where a sample is, from its dates.

References
----------
Own arrangement.
"""

from datetime import date
from enum import StrEnum


class SampleState(StrEnum):
    """Where a sample is."""

    AWAITED = "AWAITED"
    LATE = "LATE"
    ARRIVED = "ARRIVED"
    UNFIT = "UNFIT"
    RETURNED = "RETURNED"


def sample_state(
    *, due: date | None, arrived: date | None, returned: date | None, is_fit: bool, today: date
) -> SampleState:
    """Return where a sample is.

    Parameters
    ----------
    due : date or None
        The day it was promised for.
    arrived, returned : date or None
        The days it came and went back.
    is_fit : bool
        It can be shown.
    today : date
        The day of asking.

    Returns
    -------
    SampleState
        Sent back wins, then whether it is here; one that was promised for an earlier day is late.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> day = date(2026, 5, 14)
    >>> sample_state(due=day, arrived=None, returned=None, is_fit=True, today=day).value
    'AWAITED'
    """
    if returned is not None:
        return SampleState.RETURNED
    if arrived is not None:
        return SampleState.ARRIVED if is_fit else SampleState.UNFIT
    return SampleState.LATE if due is not None and due < today else SampleState.AWAITED
