"""Which shots of a day are taken in which block, when a setup has several blocks or none.

References
----------
Own arrangement.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Room:
    """A block for shooting: its key, its setup ("" for shots that have none), and its minutes. [min]"""

    key: int
    setup: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Wanted:
    """A shot of the day: its key, its setup ("" for none), and its minutes. [min]"""

    key: int
    setup: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Cover:
    """The shots of each block by the block's key, and those that no block covers."""

    shots: dict[int, tuple[int, ...]]
    left: tuple[int, ...]


def cover(rooms: Sequence[Room], wanted: Iterable[Wanted]) -> Cover:
    """Return which block takes which shots.

    Parameters
    ----------
    rooms : Sequence[Room]
        Blocks for shooting, in the order of the day.
    wanted : Iterable[Wanted]
        The day's shots, in the order of the shot list.

    Returns
    -------
    Cover
        A setup's shots fill its blocks one after the other: a block takes at least one while there are any, then
        those that fit; its last block takes the rest.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> rooms = [Room(7, "rim", 60), Room(9, "rim", 30)]
    >>> cover(rooms, [Wanted(1, "rim", 40), Wanted(2, "rim", 30), Wanted(3, "slab", 20)])
    Cover(shots={7: (1,), 9: (2,)}, left=(3,))
    """
    queues: dict[str, list[Wanted]] = {}
    listed = list(wanted)
    for shot in listed:
        queues.setdefault(shot.setup, []).append(shot)
    last = {room.setup: room.key for room in rooms}
    taken: dict[int, tuple[int, ...]] = {}
    for room in rooms:
        queue, left = queues.get(room.setup, []), room.minutes
        own: list[int] = []
        while queue and (not own or queue[0].minutes <= left or room.key == last[room.setup]):
            left -= queue[0].minutes
            own.append(queue.pop(0).key)
        taken[room.key] = tuple(own)
    covered = {key for keys in taken.values() for key in keys}
    return Cover(taken, tuple(shot.key for shot in listed if shot.key not in covered))
