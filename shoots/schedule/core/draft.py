"""A first plan of a day from its shots: arrive, build and shoot by setup, break, wrap.

It is a starting point to be changed by hand. Setups come in the order in which their light is planned, else
in that of the shot list; breaks come where nothing is torn apart, or where one waits for the light anyway.

References
----------
.. [1] Minutes for arriving, building, moving, a meal and wrapping: common practice, no source.
.. [2] No more than six hours without a break: Working Time Regulations 1998 (SI 1998/1833), reg. 12.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from itertools import pairwise

from shoots.schedule.core.day import RESTS, Block, BlockKind, DayProblem, plan_day
from shoots.schedule.core.rest import elapsed_minutes

ARRIVE_MINUTES, BUILD_MINUTES, MOVE_MINUTES, MEAL_MINUTES, WRAP_MINUTES = 30, 30, 30, 45, 30
OUTFIT_MINUTES = 10
LONGEST_STRETCH = 6 * 60
"""Minutes of work without a break [2]."""
LONGEST_SHOOT = 12 * 60
"""Minutes of one block of shooting; a setup with more shots than that gets several. Own rule: a block holds a day at
most, and a hundred shots without a setup are more."""
_MOST_BREAKS = 4
_WORTH_SPLITTING = 90
"""A shoot is cut in two only when the next gap lies further than this from the middle. [min]"""
_ANY_DAY = datetime(2000, 1, 3, 9, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Group:
    """The shots of one setup on a day.

    Parameters
    ----------
    setup : str
        Key of the setup; empty for shots that have none yet.
    minutes : int
        What its shots take together. [min]
    place : str
        Key of the place; empty where it doesn't matter.
    planned : datetime, optional
        The moment for which its light is planned; shooting waits for it.
    """

    setup: str
    minutes: int
    place: str = ""
    planned: datetime | None = None


@dataclass(frozen=True, slots=True)
class DraftBlock:
    """A block of the draft. [min]"""

    kind: BlockKind
    minutes: int
    setup: str = ""


def in_light_order(groups: Iterable[Group]) -> tuple[Group, ...]:
    """Return groups with a planned moment in the order of their moments.

    Parameters
    ----------
    groups : Iterable[Group]
        Groups in the order of the shot list.

    Returns
    -------
    tuple[Group, ...]
        Groups without a moment keep their places; the others take the places of each other.

    Examples
    --------
    >>> late, early = datetime(2026, 6, 9, 18, tzinfo=UTC), datetime(2026, 6, 9, 15, tzinfo=UTC)
    >>> groups = [Group("rim", 60, planned=late), Group("detail", 30), Group("slab", 60, planned=early)]
    >>> [group.setup for group in in_light_order(groups)]
    ['slab', 'detail', 'rim']
    """
    listed = list(groups)
    timed = iter(sorted((group for group in listed if group.planned), key=_moment))
    return tuple(next(timed) if group.planned else group for group in listed)


def _moment(group: Group) -> datetime:
    return (group.planned or _ANY_DAY).astimezone(UTC)


def draft_day(groups: Sequence[Group], *, start: datetime | None = None, place: str = "") -> tuple[DraftBlock, ...]:
    """Return a first plan of a day.

    Parameters
    ----------
    groups : Sequence[Group]
        The day's shots by setup, in the order of the shot list.
    start : datetime, optional
        When people are called; without it waiting for the light is not reckoned with.
    place : str
        Key of the place where the day starts.

    Returns
    -------
    tuple[DraftBlock, ...]
        From arriving to wrapping; empty when there is nothing to shoot.

    References
    ----------
    Own arrangement; the minutes are common practice.

    Examples
    --------
    >>> for block in draft_day([Group("slab", 50), Group("rim", 115)]):
    ...     print(block.minutes, block.kind, block.setup or "-")
    30 ARRIVE -
    30 BUILD slab
    50 SHOOT slab
    30 BUILD rim
    115 SHOOT rim
    30 WRAP -
    """
    ordered = in_light_order(group for group in groups if group.minutes > 0)
    if not ordered:
        return ()
    blocks = [DraftBlock(BlockKind.ARRIVE, ARRIVE_MINUTES)]
    here = place or ordered[0].place
    for group in ordered:
        if group.place and group.place != here:
            blocks.append(DraftBlock(BlockKind.MOVE, MOVE_MINUTES, group.setup))
            here = group.place
        if group.setup:
            blocks.append(DraftBlock(BlockKind.BUILD, BUILD_MINUTES, group.setup))
        blocks.extend(DraftBlock(BlockKind.SHOOT, minutes, group.setup) for minutes in _parts(group.minutes))
    blocks.append(DraftBlock(BlockKind.WRAP, WRAP_MINUTES))
    moments = {group.setup: group.planned for group in ordered if group.planned} if start else {}
    return _with_breaks(tuple(blocks), moments, start or _ANY_DAY)


def _parts(minutes: int) -> list[int]:
    """Return minutes of shooting as one block, or as several alike where that is too long for one."""
    count = -(-minutes // LONGEST_SHOOT)
    return [minutes // count + (n < minutes % count) for n in range(count)]


def _edges(
    blocks: Sequence[DraftBlock], moments: Mapping[str, datetime | None], start: datetime
) -> list[tuple[int, int, int]]:
    """For each block when it could begin, when it does (after waiting), and when it ends, in minutes from the start."""
    problem = DayProblem(
        start,
        tuple(
            Block(
                str(number),
                block.kind,
                block.minutes,
                not_before=moments.get(block.setup) if block.kind is BlockKind.SHOOT else None,
            )
            for number, block in enumerate(blocks)
        ),
    )
    edges, free = [], 0
    for slot in plan_day(problem).slots:
        if slot.kind is BlockKind.WAIT:
            continue
        begin, end = elapsed_minutes(start, slot.starts_at), elapsed_minutes(start, slot.ends_at)
        edges.append((free, begin, end))
        free = end
    return edges


def _with_breaks(
    blocks: tuple[DraftBlock, ...], moments: Mapping[str, datetime | None], start: datetime
) -> tuple[DraftBlock, ...]:
    """Put breaks in until no stretch of work is longer than six hours, four at the most."""
    for _ in range(_MOST_BREAKS):
        edges = _edges(blocks, moments, start)
        rests = [-1, *(n for n, block in enumerate(blocks) if block.kind in RESTS), len(blocks)]
        stretches = [(first + 1, after) for first, after in pairwise(rests) if after > first + 1]
        first, after = max(stretches, key=lambda part: edges[part[1] - 1][2] - edges[part[0]][0])
        if edges[after - 1][2] - edges[first][0] <= LONGEST_STRETCH:
            break
        blocks = _broken(blocks, edges, first, after)
    return blocks


def _broken(
    blocks: tuple[DraftBlock, ...], edges: list[tuple[int, int, int]], first: int, after: int
) -> tuple[DraftBlock, ...]:
    pause = DraftBlock(BlockKind.BREAK, MEAL_MINUTES)
    middle = (edges[first][0] + edges[after - 1][2]) / 2
    gaps = [
        n
        for n in range(first + 1, after)
        if blocks[n].kind in (BlockKind.BUILD, BlockKind.MOVE)
        or edges[n][1] > edges[n][0]
        or blocks[n - 1].kind is blocks[n].kind is BlockKind.SHOOT
    ]
    gaps = [n for n in gaps if blocks[n - 1].kind is not BlockKind.ARRIVE]
    # Where one waits, the break counts from where the wait begins.
    gap = min(gaps, key=lambda n: abs(edges[n][0] - middle), default=None)
    cut = next(
        (n for n in range(first, after) if edges[n][1] < middle < edges[n][2] and blocks[n].kind is BlockKind.SHOOT),
        None,
    )
    if cut is not None and (gap is None or abs(edges[gap][0] - middle) > _WORTH_SPLITTING):
        whole = blocks[cut]
        before = min(max(5, round((middle - edges[cut][1]) / 5) * 5), whole.minutes - 1)
        halves = (replace(whole, minutes=before), pause, replace(whole, minutes=whole.minutes - before))
        return (*blocks[:cut], *halves, *blocks[cut + 1 :])
    if gap is None:
        gap = first + 1 if after - first > 1 else after
    return (*blocks[:gap], pause, *blocks[gap:])
