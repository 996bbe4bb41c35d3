"""The time of what was promised against 500 shots, and of a day of 500 shots: the cores, without a database.

.venv/bin/python -m bench.coverage
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from statistics import median
from time import perf_counter

from shoots.schedule.core.day import Block, BlockKind, ChangeOvers, DayProblem
from shoots.schedule.core.fit import Take, cut_first
from shoots.schedule.core.turns import MOST_GROUPS, Takes, Turn, best_turns
from shoots.shotlist.core.coverage import Dimension, Planned, Promise, coverage
from shoots.shotlist.core.smallest import smallest_set


def timed(name: str, what, times: int = 5) -> None:  # type: ignore[no-untyped-def]
    """Print the middle of some runs, in milliseconds."""
    taken = []
    for _ in range(times):
        begun = perf_counter()
        what()
        taken.append(1000.0 * (perf_counter() - begun))
    print(f"{name:<60}{median(taken):9.1f} ms")


def shots(number: int) -> list[Planned]:
    return [
        Planned(
            n,
            {
                Dimension.PRODUCT: frozenset({f"Thing {n % 40}, colour {n % 3}"}),
                Dimension.SHAPE: frozenset({("4:5", "9:16", "1:1")[n % 3]}),
                Dimension.PLACEMENT: frozenset({("WEB_SHOP", "EMAIL", "PAID_SOCIAL")[n % 7 % 3]}),
            },
            minutes=5 + n % 17,
            is_must=n % 5 > 0,
        )
        for n in range(number)
    ]


def main() -> None:
    promises = [
        Promise(f"{n}|{shape}", ((Dimension.PRODUCT, f"Thing {n}"), (Dimension.SHAPE, shape)), 1 + n % 2)
        for n in range(40)
        for shape in ("4:5", "9:16")
    ]
    for number in (12, 100, 500):
        listed = shots(number)
        timed(f"coverage of 80 promises by {number} shots", lambda listed=listed: coverage(promises, listed))
        timed(f"smallest of {number} shots for 80 promises", lambda listed=listed: smallest_set(promises, listed), 3)
    start = datetime(2026, 6, 9, 9, tzinfo=UTC)
    for number in (12, 40, 500):
        blocks = tuple(Block(str(n), BlockKind.SHOOT, 15, setup=f"s{n % 6}") for n in range(number))
        half = start + timedelta(minutes=15 * number)
        problem = DayProblem(start, blocks, ChangeOvers(20, 15, 10), half)
        takes = [Take(str(n), n) for n in range(number)]
        timed(
            f"what to cut of a day of {number} shots",
            lambda problem=problem, takes=takes: cut_first(problem, takes, lambda keys: frozenset()),
            3,
        )
    turns = [Turn(str(n), 10, "pq"[n % 2], str(n % 6), "uvw"[n % 3]) for n in range(MOST_GROUPS)]
    timed(f"best order of {MOST_GROUPS} groups", lambda: best_turns(turns, Takes(ChangeOvers(20, 15, 10))), 3)


if __name__ == "__main__":
    main()
