"""The smallest set of shots that serves all that was promised: exact set multi-cover by integer programming.

References
----------
.. [1] R. M. Karp, Reducibility among combinatorial problems, 1972: set cover; here each promise asks for a number of
   pictures (multi-cover) and a shot gives several at once.
.. [2] Q. Huangfu and J. A. J. Hall, Parallelizing the dual revised simplex method, 2018: HiGHS, the solver behind
   ``scipy.optimize.milp``. What it returns is checked again here in whole numbers.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from time import monotonic
from typing import Any

import numpy as np

from shoots.shotlist.core.coverage import Fit, Planned, Promise, fit

SECONDS = 2.0
"""Time within which a page gets its answer. [s]"""
_AT_A_TIME = 20
"""So many shots are ordered in one go: their weights are powers of two, exact in a double."""
_EXACT = 1e-6


@dataclass(frozen=True, slots=True)
class Unmet:
    """A promise that all shots together don't serve in full: its key, and how many pictures are missing."""

    promise: str
    lacking: int


@dataclass(frozen=True, slots=True)
class Smallest:
    """Which shots cover what was promised.

    Attributes
    ----------
    shots : tuple[int, ...]
        The shots of the set, in the order of the list.
    extra : tuple[int, ...]
        The other shots: wanted by nobody's promise, or there twice. Nothing happens to them.
    unmet : tuple[Unmet, ...]
        Promises that no set of these shots serves in full; the set serves them as far as it goes.
    minutes : int
        What the shots of the set take together. [min]
    at_least : int
        No set has fewer shots than this.
    is_proven : bool
        The set has `at_least` shots: there is no smaller one.
    """

    shots: tuple[int, ...]
    extra: tuple[int, ...]
    unmet: tuple[Unmet, ...]
    minutes: int
    at_least: int
    is_proven: bool


def smallest_set(
    promises: Iterable[Promise],
    shots: Sequence[Planned],
    *,
    kept: Collection[int] = (),
    seconds: float = SECONDS,
    clock: Callable[[], float] = monotonic,
) -> Smallest:
    """Return the smallest set of shots that serves every promise as far as it can be served.

    Parameters
    ----------
    promises : Iterable[Promise]
        What was promised; wishes are left out.
    shots : Sequence[Planned]
        The shot list, in its order.
    kept : Collection[int]
        Keys of shots that belong to the set whatever happens, such as those that were taken.
    seconds : float
        Time after which the best set so far is returned. [s]
    clock : Callable
        Seconds that pass; for tests.

    Returns
    -------
    Smallest
        Among sets of the fewest shots the one with most musts, then fewest minutes, then the earliest shots of
        the list; so the same list gives the same set. If time runs out, a set that covers all the same.

    References
    ----------
    Karp 1972 [1]; HiGHS [2]. The order of preference is our own.

    Examples
    --------
    >>> from shoots.shotlist.core.coverage import Dimension
    >>> def shot(key, *shapes):
    ...     return Planned(key, {Dimension.SHAPE: frozenset(shapes)})
    >>> asked = [Promise(shape, ((Dimension.SHAPE, shape),)) for shape in ("4:5", "9:16")]
    >>> found = smallest_set(asked, [shot(1, "4:5"), shot(2, "4:5", "9:16"), shot(3, "9:16")])
    >>> found.shots, found.extra, found.is_proven
    ((2,), (1, 3), True)
    """
    asked = [promise for promise in promises if not promise.is_wish]
    gives = np.array(
        [[shot.pictures if fit(promise, shot) is Fit.YES else 0 for shot in shots] for promise in asked], dtype=int
    ).reshape(len(asked), len(shots))
    wanted = np.array([promise.least for promise in asked], dtype=int)
    can = gives.sum(axis=1, dtype=int)
    unmet = tuple(Unmet(promise.key, int(lack)) for promise, lack in zip(asked, wanted - can, strict=True) if lack > 0)
    fixed = np.array([shot.key in kept for shot in shots], dtype=bool)
    problem = _Problem(gives, np.minimum(wanted, can), fixed, clock() + seconds, clock)
    chosen, at_least = problem.solve(shots)
    picked = tuple(shot.key for shot, is_in in zip(shots, chosen, strict=True) if is_in)
    return Smallest(
        shots=picked,
        extra=tuple(shot.key for shot, is_in in zip(shots, chosen, strict=True) if not is_in),
        unmet=unmet,
        minutes=sum(shot.minutes for shot, is_in in zip(shots, chosen, strict=True) if is_in),
        at_least=at_least,
        is_proven=len(picked) == at_least,
    )


class _Problem:
    """One multi-cover: rows are promises, columns shots; a chain of goals, each kept while the next is sought."""

    def __init__(
        self,
        gives: np.ndarray,
        least: np.ndarray,
        fixed: np.ndarray,
        until: float,
        clock: Callable[[], float],
    ) -> None:
        self.until, self.clock = until, clock
        self.low = fixed.astype(int)
        self.high = np.ones(len(fixed), dtype=int)
        # A column gives no more than is asked for; a row that the kept shots serve asks for nothing more.
        needed = np.maximum(least - gives[:, fixed].sum(axis=1, dtype=int), 0)
        rows = needed > 0
        self.gives = np.minimum(gives[rows], needed[rows, None])
        self.gives[:, fixed] = 0
        self.least = needed[rows]
        # A shot that gives nothing here is never in the smallest set.
        self.high[~fixed & ~self.gives.any(axis=0)] = 0
        self.goals: list[tuple[np.ndarray, int]] = []

    def solve(self, shots: Sequence[Planned]) -> tuple[np.ndarray, int]:
        ones = np.ones(len(shots), dtype=int)
        best = self._greedy()
        if not len(self.least):
            return best, int(best.sum())
        best, at_least = self._least_of(ones, best)
        if int(best.sum()) > at_least:
            return best, at_least
        for costs in (
            np.array([0 if shot.is_must else 1 for shot in shots]),
            np.array([shot.minutes for shot in shots]),
        ):
            best, bound = self._least_of(costs, best)
            if int(costs @ best) > bound:
                return best, at_least
        return self._earliest(best), at_least

    def _earliest(self, best: np.ndarray) -> np.ndarray:
        """Return the set with the earliest shots, so many of the list at a time."""
        open_ones = [n for n in range(len(best)) if self.low[n] < self.high[n]]
        for start in range(0, len(open_ones), _AT_A_TIME):
            part = open_ones[start : start + _AT_A_TIME]
            costs = np.zeros(len(best), dtype=int)
            for place, n in enumerate(part):
                costs[n] = -(1 << (len(part) - 1 - place))
            found, bound = self._least_of(costs, best, keep=False)
            if int(costs @ found) > bound:
                return found
            best = found
            self.low[part] = self.high[part] = best[part]
        return best

    def _least_of(self, costs: np.ndarray, best: np.ndarray, *, keep: bool = True) -> tuple[np.ndarray, int]:
        """Return the cheapest set and a bound that no set undercuts; they meet when it is proven."""
        found, bound = best, int(np.maximum(costs, 0) @ self.low + np.minimum(costs, 0) @ self.high)
        left = self.until - self.clock()
        if left > 0.0:
            # The solver is loaded when it is asked: a third of a second that no other command or page has to wait.
            from scipy import optimize

            answer = optimize.milp(
                costs,
                integrality=np.ones(len(costs)),
                bounds=optimize.Bounds(self.low, self.high),
                constraints=self._constraints(),
                options={"time_limit": left, "mip_rel_gap": 0.0},
            )
            if answer.x is not None:
                rounded = np.round(answer.x).astype(int)
                if self._holds(rounded) and int(costs @ rounded) < int(costs @ found):
                    found = rounded
            if answer.mip_dual_bound is not None and math.isfinite(answer.mip_dual_bound):
                bound = max(bound, math.ceil(answer.mip_dual_bound - _EXACT))
        if keep:
            self.goals.append((costs, int(costs @ found)))
        return found, min(bound, int(costs @ found))

    def _constraints(self) -> list[Any]:
        from scipy import optimize, sparse

        matrix = sparse.csr_array(self.gives)
        if not self.goals:
            return [optimize.LinearConstraint(matrix, self.least, np.inf)]
        goals = sparse.csr_array(np.array([costs for costs, _value in self.goals]))
        low = np.concatenate([self.least, np.full(len(self.goals), -np.inf)])
        high = np.concatenate([np.full(len(self.least), np.inf), [value for _costs, value in self.goals]])
        return [optimize.LinearConstraint(sparse.vstack([matrix, goals]), low, high)]

    def _holds(self, chosen: np.ndarray) -> bool:
        """Check a set in whole numbers: nothing that the solver says is taken on trust."""
        return bool(
            (chosen >= self.low).all()
            and (chosen <= self.high).all()
            and (self.gives @ chosen >= self.least).all()
            and all(int(costs @ chosen) <= value for costs, value in self.goals)
        )

    def _greedy(self) -> np.ndarray:
        """Return some set that covers: the shot that gives most of what is missing, again and again."""
        chosen, left = self.low.copy(), self.least.copy()
        while (left > 0).any():
            gain = np.minimum(self.gives, left[:, None]).sum(axis=0) * (chosen == 0)
            n = int(gain.argmax())
            chosen[n] = 1
            left = np.maximum(left - self.gives[:, n], 0)
        return chosen
