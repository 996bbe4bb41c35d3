"""In which turn the groups of a day's shots are best taken: the order that is over earliest.

Every order of up to twelve groups is looked at, in the way of a shortest round trip; beyond that a bound says how
much no order can undercut.

References
----------
.. [1] M. Held and R. M. Karp, A dynamic programming approach to sequencing problems, 1962: of all orders of the same
   groups that end in the same state, only the one that is over earliest matters. Waiting for a window keeps that
   true: whoever is earlier can wait.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from shoots.schedule.core.day import Change, ChangeOvers

MOST_GROUPS = 12


@dataclass(frozen=True, slots=True)
class Turn:
    """Shots that are taken together, or a break.

    Parameters
    ----------
    key : str
        The caller's own name for it.
    minutes : int
        How long it takes. [min]
    place, setup, outfit : str
        What it needs; empty where it doesn't matter.
    opens, closes : int, optional
        Its window, counted from the start of the day. [min]
    """

    key: str
    minutes: int
    place: str = ""
    setup: str = ""
    outfit: str = ""
    opens: int | None = None
    closes: int | None = None


@dataclass(frozen=True, slots=True)
class Takes:
    """What changes take. [min]

    ``build`` has the minutes that the plan gives to building a setup, ``move`` those to reach a place; where they
    say nothing, the general change-overs stand.
    """

    changes: ChangeOvers
    build: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    move: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class Turns:
    """An order of a day.

    Attributes
    ----------
    keys : tuple[str, ...]
        The groups in this order; the given one where no other was looked for.
    minutes : int
        From the start to the end. [min]
    keeps_windows : bool
        No group runs over its window.
    at_least : int
        No order is over earlier. [min]
    """

    keys: tuple[str, ...]
    minutes: int
    keeps_windows: bool
    at_least: int


_Standing = tuple[str, str, str]


def in_turn(turns: Sequence[Turn], takes: Takes, *, place: str = "") -> Turns:
    """Return how long a given order takes.

    Parameters
    ----------
    turns : Sequence[Turn]
        Groups in their order.
    takes : Takes
        What changes take.
    place : str
        Where the day starts; empty where it doesn't matter.

    Returns
    -------
    Turns
        The same order; `at_least` is its own time.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> groups = [Turn("a", 30, setup="rim"), Turn("b", 20, setup="slab"), Turn("c", 10, setup="rim")]
    >>> in_turn(groups, Takes(ChangeOvers(setup=15))).minutes
    90
    """
    standing: _Standing = (place, "", "")
    now, keeps = 0, True
    for turn in turns:
        standing, now = _after(standing, now, turn, takes)
        keeps = keeps and (turn.closes is None or now <= turn.closes)
    return Turns(tuple(turn.key for turn in turns), now, keeps, now)


def best_turns(turns: Sequence[Turn], takes: Takes, *, place: str = "") -> Turns:
    """Return the order that is over earliest.

    Parameters
    ----------
    turns : Sequence[Turn]
        Groups in the planned order.
    takes : Takes
        What changes take.
    place : str
        Where the day starts; empty where it doesn't matter.

    Returns
    -------
    Turns
        Among orders that keep all windows if there is one, else among all; the earlier in the planned order
        where two take the same time. Of more than `MOST_GROUPS` groups the planned order, with a bound.

    References
    ----------
    Held and Karp 1962 [1].

    Examples
    --------
    >>> groups = [Turn("a", 30, setup="rim"), Turn("b", 20, setup="slab"), Turn("c", 10, setup="rim")]
    >>> best = best_turns(groups, Takes(ChangeOvers(setup=15)))
    >>> best.keys, best.minutes
    (('a', 'c', 'b'), 75)
    """
    planned = in_turn(turns, takes, place=place)
    if len(turns) > MOST_GROUPS:
        bound = min(planned.minutes, _bound(turns, takes))
        return Turns(planned.keys, planned.minutes, planned.keeps_windows, bound)
    order = _search(turns, takes, place, strict=True) or _search(turns, takes, place, strict=False)
    best = in_turn([turns[n] for n in order or ()], takes, place=place)
    if (best.keeps_windows, -best.minutes) <= (planned.keeps_windows, -planned.minutes):
        return Turns(planned.keys, planned.minutes, planned.keeps_windows, planned.minutes)
    return best


def _after(standing: _Standing, now: int, turn: Turn, takes: Takes) -> tuple[_Standing, int]:
    """Return where everything stands after a group, and when it is over."""
    now += _change(standing, turn, takes)
    if turn.opens is not None and now < turn.opens:
        now = turn.opens
    place, setup, outfit = standing
    return (turn.place or place, turn.setup or setup, turn.outfit or outfit), now + turn.minutes


def _change(standing: _Standing, turn: Turn, takes: Takes) -> int:
    place, setup, outfit = standing
    minutes = 0
    if turn.place and place and turn.place != place:
        minutes += takes.move.get(turn.place, takes.changes.place)
    relit = 0
    if turn.setup and turn.setup != setup:
        general = takes.changes.minutes([Change.SETUP], (setup, turn.setup)) if setup else 0
        relit = takes.build.get(turn.setup, general)
    dressed = takes.changes.outfit if turn.outfit and outfit and turn.outfit != outfit else 0
    return minutes + max(relit, dressed)


def _search(turns: Sequence[Turn], takes: Takes, place: str, *, strict: bool) -> tuple[int, ...] | None:
    """Return the order that is over earliest, none if windows have to be kept and can't be."""
    everything = (1 << len(turns)) - 1
    best: list[dict[_Standing, tuple[int, tuple[int, ...]]]] = [{} for _ in range(everything + 1)]
    best[0][(place, "", "")] = (0, ())
    for mask in range(everything):
        for standing, (now, order) in best[mask].items():
            for n, turn in enumerate(turns):
                if mask >> n & 1:
                    continue
                stands, over = _after(standing, now, turn, takes)
                if strict and turn.closes is not None and over > turn.closes:
                    continue
                reached = best[mask | 1 << n]
                known = reached.get(stands)
                if known is None or (over, (*order, n)) < known:
                    reached[stands] = (over, (*order, n))
    return min(best[everything].values())[1] if best[everything] else None


def _bound(turns: Sequence[Turn], takes: Takes) -> int:
    """Return minutes that no order undercuts: all shooting, and each group's cheapest way in but the dearest one's.

    A group that leaves something open may follow one that has it: then that costs nothing.
    """
    ways = sorted(
        min(
            _change((other.place or turn.place, other.setup or turn.setup, other.outfit or turn.outfit), turn, takes)
            for other in turns
            if other is not turn
        )
        for turn in turns
    )
    return sum(turn.minutes for turn in turns) + sum(ways[:-1])
