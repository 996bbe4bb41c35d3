"""Promises and shots as a table of two dimensions: each promise stands in one cell, each shot where it belongs.

References
----------
Own arrangement.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

from shoots.shotlist.core.coverage import ORDER, Coverage, Dimension, Planned, Promise, Row, State, is_same

ANY = ""
"""The line of promises that don't name the dimension."""
_WORST = (State.HOLE, State.PARTLY, State.MORE, State.SERVED)
_USUAL = (Dimension.PRODUCT, Dimension.SHAPE, Dimension.MOOD, Dimension.PLACEMENT)


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell: its promises, the shots in it, and the state of the promise that is worst off (None without one).

    `pictures` and `wanted` count finished pictures over its promises, each up to what it asks for.
    """

    rows: tuple[Row, ...]
    shots: tuple[int, ...]
    state: State | None
    pictures: int
    wanted: int
    over: int


@dataclass(frozen=True, slots=True)
class Line:
    """A value down the side with its cells; `is_asked` tells whether any promise names it."""

    value: str
    is_asked: bool
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """The table; the last line and the last column stand for whatever."""

    down: Dimension
    across: Dimension
    columns: tuple[str, ...]
    lines: tuple[Line, ...]


def usual_sides(promises: Iterable[Promise]) -> tuple[Dimension, Dimension]:
    """Return the two dimensions in which a table tells most: those that were named together most often.

    Parameters
    ----------
    promises : Iterable[Promise]
        What was promised.

    Returns
    -------
    tuple[Dimension, Dimension]
        Down the side and across; products by shapes where nothing was named together.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> usual_sides([])
    (<Dimension.PRODUCT: 'PRODUCT'>, <Dimension.SHAPE: 'SHAPE'>)
    """
    listed = list(promises)
    together: dict[tuple[Dimension, Dimension], int] = {}
    alone: dict[Dimension, int] = {}
    for promise in listed:
        named = sorted((dimension for dimension, _value in promise.wants), key=lambda one: ORDER[one])
        for pair in combinations(named, 2):
            together[pair] = together.get(pair, 0) + 1
        for dimension in named:
            alone[dimension] = alone.get(dimension, 0) + 1
    if together:
        return max(together, key=lambda pair: (together[pair], alone[pair[0]] + alone[pair[1]], -ORDER[pair[0]]))
    named_ones = [dimension for dimension in _USUAL if alone.get(dimension)]
    chosen = [*named_ones[:2], *(one for one in _USUAL if one not in named_ones[:2])][:2]
    return chosen[0], chosen[1]


def table(done: Coverage, shots: Sequence[Planned], down: Dimension, across: Dimension) -> Table:
    """Return promises and shots by two dimensions.

    Parameters
    ----------
    done : Coverage
        Promises and the shots that serve them.
    shots : Sequence[Planned]
        The shot list, in its order.
    down, across : Dimension
        The two sides.

    Returns
    -------
    Table
        Values that were promised first, then those that only shots have.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> from shoots.shotlist.core.coverage import coverage
    >>> tall = Promise("a", ((Dimension.SHAPE, "9:16"), (Dimension.PRODUCT, "vest")))
    >>> made = table(coverage([tall], []), [], Dimension.PRODUCT, Dimension.SHAPE)
    >>> made.columns, made.lines[0].value, made.lines[0].cells[0].state.value
    (('9:16', ''), 'vest', 'HOLE')
    """
    sides = _values(done, shots, down), _values(done, shots, across)
    lines = tuple(
        Line(value, asked, tuple(_cell(done, shots, (down, value), (across, other)) for other, _asked in sides[1]))
        for value, asked in sides[0]
    )
    return Table(down, across, tuple(value for value, _asked in sides[1]), lines)


def _values(done: Coverage, shots: Sequence[Planned], side: Dimension) -> list[tuple[str, bool]]:
    wanted = list(dict.fromkeys(row.promise.value(side) for row in done.rows if row.promise.value(side)))
    found: list[str] = []
    for shot in shots:
        for value in sorted(shot.has.get(side, ())):
            if not any(is_same(side, one, value) for one in [*wanted, *found]):
                found.append(value)
    return [*((value, True) for value in wanted), *((value, False) for value in found), (ANY, True)]


def _cell(done: Coverage, shots: Sequence[Planned], one: tuple[Dimension, str], other: tuple[Dimension, str]) -> Cell:
    rows = tuple(row for row in done.rows if all(row.promise.value(side) == value for side, value in (one, other)))
    own = [row for row in rows if not row.promise.is_wish]
    state = next((state for state in _WORST if any(row.state is state for row in own)), None)
    if rows:
        served = {key for row in rows for key in row.shots}
        inside = tuple(shot.key for shot in shots if shot.key in served)
    else:
        inside = tuple(shot.key for shot in shots if all(_has(shot, side, value) for side, value in (one, other)))
    return Cell(
        rows=rows,
        shots=inside,
        state=state,
        pictures=sum(min(row.pictures, row.promise.least) for row in own),
        wanted=sum(row.promise.least for row in own),
        over=sum(row.over for row in own),
    )


def _has(shot: Planned, side: Dimension, value: str) -> bool:
    had = shot.has.get(side, frozenset())
    return not had if value == ANY else any(is_same(side, value, one) for one in had)
