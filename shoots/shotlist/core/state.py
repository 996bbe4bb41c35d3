"""How far a shot has come, from what is known of it.

References
----------
Own arrangement.
"""

from enum import StrEnum


class ShotState(StrEnum):
    """The furthest thing that is true of a shot, in the order in which a shot goes through them."""

    WISHED = "WISHED"
    PROMISED = "PROMISED"
    PLANNED = "PLANNED"
    GOT = "GOT"
    DELIVERED = "DELIVERED"


def state_of(*, is_must: bool, has_setup: bool, is_got: bool, is_delivered: bool = False) -> ShotState:
    """Return how far a shot has come.

    Parameters
    ----------
    is_must : bool
        The client counts on it; otherwise it is a wish for when there is time.
    has_setup : bool
        It is known with which light it will be taken.
    is_got : bool
        It was taken.
    is_delivered : bool
        A finished picture of it went to the client.

    Returns
    -------
    ShotState
        The furthest of them.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> state_of(is_must=True, has_setup=True, is_got=False).value
    'PLANNED'
    """
    if is_delivered:
        return ShotState.DELIVERED
    if is_got:
        return ShotState.GOT
    if has_setup:
        return ShotState.PLANNED
    return ShotState.PROMISED if is_must else ShotState.WISHED
