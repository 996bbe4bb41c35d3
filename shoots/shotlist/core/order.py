"""A new order of shots, also when somebody added or removed one in the meantime.

References
----------
Own arrangement.
"""

from collections.abc import Iterable


def reordered(current: Iterable[int], wanted: Iterable[int]) -> tuple[int, ...]:
    """Return the current shots in the wanted order.

    Parameters
    ----------
    current : Iterable[int]
        Keys of the shots that there are, in their present order.
    wanted : Iterable[int]
        Keys in the order somebody asked for, from a page that may be older: keys that are gone are ignored,
        doubles count once.

    Returns
    -------
    tuple[int, ...]
        Every current key once; those that were not asked about follow the one that they followed before.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> reordered([1, 2, 3, 4], [3, 1, 9, 2])
    (3, 4, 1, 2)
    """
    now = list(current)
    asked = [key for key in dict.fromkeys(wanted) if key in set(now)]
    followers: dict[int | None, list[int]] = {}
    leader: int | None = None
    for key in now:
        if key in asked:
            leader = key
        else:
            followers.setdefault(leader, []).append(key)
    order = list(followers.get(None, []))
    for key in asked:
        order += [key, *followers.get(key, [])]
    return tuple(order)


def moved(current: Iterable[int], key: int, step: int) -> tuple[int, ...]:
    """Return the shots with one of them moved by some places.

    Parameters
    ----------
    current : Iterable[int]
        Keys in their present order.
    key : int
        The shot to move; an unknown one changes nothing.
    step : int
        Places to move, minus towards the front; the ends stop it.

    Returns
    -------
    tuple[int, ...]
        The new order.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> moved([1, 2, 3], 3, -1)
    (1, 3, 2)
    """
    order = list(current)
    if key not in order:
        return tuple(order)
    here = order.index(key)
    order.insert(min(max(here + step, 0), len(order) - 1), order.pop(here))
    return tuple(order)
