"""Who or what is held twice on one day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, order=True)
class Held:
    """Somebody or somewhere held for a shoot on one date.

    Parameters
    ----------
    on : date
        The date.
    what : str
        Key of the person or place, such as "person:4".
    shoot : str
        Code of the shoot.
    firm : bool
        Whether it is confirmed rather than pencilled.
    """

    on: date
    what: str
    shoot: str
    firm: bool


def clashes(mine: Iterable[Held], others: Iterable[Held]) -> dict[tuple[str, date], tuple[Held, ...]]:
    """Return where another shoot holds the same person or place on the same date.

    Parameters
    ----------
    mine : Iterable[Held]
        What one shoot holds.
    others : Iterable[Held]
        What the studio's other shoots hold; entries of the same shoot are passed over.

    Returns
    -------
    dict
        Key of the person or place with the date, to the other holds: confirmed ones first, then by code. One entry
        for each other shoot, the firmest.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> june = date(2026, 6, 9)
    >>> found = clashes([Held(june, "person:4", "26-001", True)], [Held(june, "person:4", "26-002", False)])
    >>> [(key, [held.shoot for held in holds]) for key, holds in found.items()]
    [(('person:4', datetime.date(2026, 6, 9)), ['26-002'])]
    """
    elsewhere: dict[tuple[str, date], dict[str, Held]] = defaultdict(dict)
    for held in others:
        known = elsewhere[held.what, held.on].get(held.shoot)
        if known is None or (held.firm and not known.firm):
            elsewhere[held.what, held.on][held.shoot] = held
    found = {}
    for own in mine:
        rivals = [held for held in elsewhere.get((own.what, own.on), {}).values() if held.shoot != own.shoot]
        if rivals:
            found[own.what, own.on] = tuple(sorted(rivals, key=lambda held: (not held.firm, held.shoot)))
    return found
