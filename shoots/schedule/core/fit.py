"""Whether a day's shots fit between call and wrap and into its light, and what to leave out first if they don't.

References
----------
Own arrangement. What is cut first: wishes; then what costs the fewest promises; then what gains most minutes.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from shoots.schedule.core.day import Block, BlockKind, DayPlan, DayProblem, DayRule, plan_day
from shoots.schedule.core.rest import elapsed_minutes

MOST_TRIED = 24
"""Up to so many shots each cut is tried out in the plan; with more they are ranked once, by their own minutes."""


@dataclass(frozen=True, slots=True)
class Take:
    """A shot of the day: its block's key, its number in the list, and whether it is a wish or was taken already."""

    key: str
    number: int
    is_wish: bool = False
    is_got: bool = False


@dataclass(frozen=True, slots=True)
class DayFit:
    """A day's sum. [min]

    Attributes
    ----------
    needed : int
        From the call to the end, waits included.
    available : int or None
        From the call to the planned wrap; None while no wrap is set.
    shooting, changes, waits, other : int
        What the sum is made of; other is arriving, building, moving, breaks and wrapping.
    over : int
        Minutes after the planned wrap.
    unlit : int
        Minutes of shooting after the light that it needs is gone.
    """

    needed: int
    available: int | None
    shooting: int
    changes: int
    waits: int
    other: int
    over: int
    unlit: int

    @property
    def fits(self) -> bool:
        """Everything is done by the wrap and in its light."""
        return not self.over and not self.unlit

    @property
    def spare(self) -> int:
        """Minutes left before the wrap; 0 while no wrap is set."""
        return 0 if self.available is None else max(0, self.available - self.needed)


@dataclass(frozen=True, slots=True)
class Cut:
    """A shot that is left out.

    Attributes
    ----------
    key : str
        The shot's block.
    gains : int
        By how much the day gets shorter, changes included. [min]
    loses : frozenset[str]
        Promises that are no longer kept without it.
    is_wish : bool
        Nobody counts on it.
    """

    key: str
    gains: int
    loses: frozenset[str]
    is_wish: bool


@dataclass(frozen=True, slots=True)
class Cuts:
    """What to leave out, in this order, and whether the day fits then."""

    cuts: tuple[Cut, ...]
    after: DayFit


def day_fit(problem: DayProblem) -> DayFit:
    """Return the sum of a day.

    Parameters
    ----------
    problem : DayProblem
        The day, with a block for each shot.

    Returns
    -------
    DayFit
        In the order of the blocks.

    References
    ----------
    Own arrangement; the clock is that of `shoots.schedule.core.day`.

    Examples
    --------
    >>> from datetime import UTC, datetime, timedelta
    >>> start = datetime(2026, 6, 9, 10, tzinfo=UTC)
    >>> shots = (Block("1", BlockKind.SHOOT, 40), Block("2", BlockKind.SHOOT, 30))
    >>> day = day_fit(DayProblem(start, shots, wrap_by=start + timedelta(minutes=60)))
    >>> day.needed, day.over, day.fits
    (70, 10, False)
    """
    return _fit(problem, plan_day(problem))


def _fit(problem: DayProblem, plan: DayPlan) -> DayFit:
    minutes = {block.key: block.minutes for block in problem.blocks}
    shooting, changes, waits = (
        plan.minutes_of(kind) for kind in (BlockKind.SHOOT, BlockKind.CHANGE_OVER, BlockKind.WAIT)
    )
    needed = elapsed_minutes(problem.start, plan.ends_at)
    late = {finding.key: finding.minutes for finding in plan.findings if finding.key is not None}
    return DayFit(
        needed=needed,
        available=None if problem.wrap_by is None else elapsed_minutes(problem.start, problem.wrap_by),
        shooting=shooting,
        changes=changes,
        waits=waits,
        other=needed - shooting - changes - waits,
        over=sum(finding.minutes for finding in plan.findings if finding.rule is DayRule.PAST_WRAP),
        unlit=sum(min(minutes[key], over) for key, over in late.items()),
    )


def without(problem: DayProblem, keys: Iterable[str]) -> DayProblem:
    """Return a day without some shots, and without building and moving for nothing.

    Parameters
    ----------
    problem : DayProblem
        The day, with a block for each shot.
    keys : Iterable[str]
        Blocks that are left out.

    Returns
    -------
    DayProblem
        What is built for no shot until the next building, and a move that leads to no shot, is left out as well.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> blocks = (Block("b", BlockKind.BUILD, 30, setup="rim"), Block("1", BlockKind.SHOOT, 40, setup="rim"))
    >>> without(DayProblem(datetime(2026, 6, 9, 10, tzinfo=UTC), blocks), ["1"]).blocks
    ()
    """
    gone = set(keys)
    left = [block for block in problem.blocks if block.key not in gone]
    idle = _idle(problem.blocks)
    return replace(problem, blocks=tuple(block for block in left if block.key not in _idle(left) - idle))


def _idle(blocks: Sequence[Block]) -> set[str]:
    """Return building that no shot uses and moves that lead to none, before the next of their kind."""
    idle = set()
    for kind in (BlockKind.BUILD, BlockKind.MOVE):
        waiting: str | None = None
        for block in blocks:
            if block.kind is kind:
                if waiting is not None:
                    idle.add(waiting)
                waiting = block.key
            elif block.kind is BlockKind.SHOOT:
                waiting = None
        if waiting is not None:
            idle.add(waiting)
    return idle


def cut_first(problem: DayProblem, takes: Sequence[Take], losing: Callable[[frozenset[str]], frozenset[str]]) -> Cuts:
    """Return which shots to leave out so that the day fits.

    Parameters
    ----------
    problem : DayProblem
        The day, with a block for each shot.
    takes : Sequence[Take]
        Its shots; those that were taken are not left out.
    losing : Callable
        Which promises are no longer kept when these blocks are left out.

    Returns
    -------
    Cuts
        None while the day fits. Wishes go first, then what breaks fewest promises, then what gains most minutes
        of those that are too many, then the shorter shot, then the last of the list; a cut that a later one makes
        needless is taken back. If everything cut is not enough, the sum after it says so.

    References
    ----------
    Own rule, step by step; not the smallest set of cuts that there could be.

    Examples
    --------
    >>> from datetime import UTC, datetime, timedelta
    >>> start = datetime(2026, 6, 9, 10, tzinfo=UTC)
    >>> shots = tuple(Block(key, BlockKind.SHOOT, 30) for key in "abc")
    >>> day = DayProblem(start, shots, wrap_by=start + timedelta(minutes=60))
    >>> takes = [Take("a", 1), Take("b", 2, is_wish=True), Take("c", 3)]
    >>> [cut.key for cut in cut_first(day, takes, lambda keys: frozenset()).cuts]
    ['b']
    """
    open_takes = {take.key: take for take in takes if not take.is_got}
    if len(open_takes) > MOST_TRIED:
        return _ranked_once(problem, open_takes, losing)
    minutes = {block.key: block.minutes for block in problem.blocks}
    chosen: list[str] = []
    now = day_fit(problem)
    while not now.fits and len(chosen) < len(open_takes):
        lost = losing(frozenset(chosen))
        ranked = []
        for key, take in open_takes.items():
            if key in chosen:
                continue
            shorter = day_fit(without(problem, [*chosen, key]))
            gains = _short(now) - _short(shorter)
            loses = len(losing(frozenset([*chosen, key])) - lost)
            # A must that helps comes before a wish that doesn't; of two that help as much, the shorter.
            rank = (gains <= 0, not take.is_wish, loses, -gains, minutes[key], shorter.needed, -take.number)
            ranked.append((*rank, key))
        chosen.append(min(ranked)[-1])
        now = day_fit(without(problem, chosen))
    chosen = _needed(problem, chosen, open_takes, losing) if now.fits else chosen
    return Cuts(tuple(_cuts(problem, chosen, open_takes, losing)), day_fit(without(problem, chosen)))


def _ranked_once(
    problem: DayProblem, takes: dict[str, Take], losing: Callable[[frozenset[str]], frozenset[str]]
) -> Cuts:
    """Cut from one ranking until it fits; each cut gains its own minutes."""
    minutes = {block.key: block.minutes for block in problem.blocks}
    alone = {key: len(losing(frozenset([key]))) for key in takes}
    ranked = sorted(takes, key=lambda key: (not takes[key].is_wish, alone[key], -minutes[key], -takes[key].number))
    many = bisect_left(range(len(ranked)), True, key=lambda n: day_fit(without(problem, ranked[:n])).fits)
    cuts: list[Cut] = []
    lost: frozenset[str] = frozenset()
    for n, key in enumerate(ranked[:many], start=1):
        worse = losing(frozenset(ranked[:n]))
        cuts.append(Cut(key, minutes[key], worse - lost, takes[key].is_wish))
        lost = worse
    return Cuts(tuple(cuts), day_fit(without(problem, ranked[:many])))


def _short(fit: DayFit) -> int:
    return fit.over + fit.unlit


def _needed(
    problem: DayProblem,
    chosen: list[str],
    takes: dict[str, Take],
    losing: Callable[[frozenset[str]], frozenset[str]],
) -> list[str]:
    """Take back cuts that are not needed, the dearest first."""
    kept = list(chosen)
    for key in sorted(chosen, key=lambda key: (takes[key].is_wish, -len(losing(frozenset([key]))))):
        others = [other for other in kept if other != key]
        if day_fit(without(problem, others)).fits:
            kept = others
    return kept


def _cuts(
    problem: DayProblem,
    chosen: list[str],
    takes: dict[str, Take],
    losing: Callable[[frozenset[str]], frozenset[str]],
) -> Iterable[Cut]:
    """Tell each cut's gain and loss, given those before it."""
    for number, key in enumerate(chosen):
        before, after = chosen[:number], chosen[: number + 1]
        gains = day_fit(without(problem, before)).needed - day_fit(without(problem, after)).needed
        yield Cut(key, gains, losing(frozenset(after)) - losing(frozenset(before)), takes[key].is_wish)
