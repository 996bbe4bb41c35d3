"""A plan of the day: blocks in order become clock times, with what doesn't fit as findings.

This is the plain planner: it keeps the order that it is given, puts change-overs between shots and waits
for a window to open. ``DayProblem`` and ``DayPlan`` are the edges; a planner that finds the order itself
may take the place of ``plan_day`` without touching them.

References
----------
.. [1] Own rules, no source: changing the place comes before anything else, re-lighting and changing the outfit go on
   side by side, and the first shot at a place that a move led to needs no change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from types import MappingProxyType

from shoots.schedule.core.rest import DayNotPossible, Span, WorkDay, elapsed_minutes

_LONGEST_BLOCK = 24 * 60


class BlockKind(StrEnum):
    """What a stretch of the day is for; the last two are put in by the planner."""

    ARRIVE = "ARRIVE"
    MOVE = "MOVE"
    BUILD = "BUILD"
    SHOOT = "SHOOT"
    BREAK = "BREAK"
    MEAL = "MEAL"
    WRAP = "WRAP"
    OTHER = "OTHER"
    CHANGE_OVER = "CHANGE_OVER"
    WAIT = "WAIT"


RESTS = frozenset({BlockKind.BREAK, BlockKind.MEAL})
_PLANNERS_OWN = frozenset({BlockKind.CHANGE_OVER, BlockKind.WAIT})


class Change(StrEnum):
    """What is changed between two shots."""

    PLACE = "PLACE"
    SETUP = "SETUP"
    OUTFIT = "OUTFIT"


class DayRule(StrEnum):
    """What a plan may break."""

    PAST_WRAP = "past_wrap"
    PAST_WINDOW = "past_window"
    WINDOW_TOO_SHORT = "window_too_short"


class BlockNotPossible(ValueError):
    """Raised when a block's minutes, window or kind cannot be meant, or two blocks share a key."""


@dataclass(frozen=True, slots=True)
class Block:
    """One thing to be done.

    Parameters
    ----------
    key : str
        The caller's own name for it, different for each block.
    kind : BlockKind
        What it is.
    minutes : int
        How long it takes, 0 to 1440. [min]
    place : str
        Key of the place; for a move the one that it leads to; empty where it doesn't matter.
    setup : str
        Key of the lighting setup; for building the one that is built.
    outfit : str
        Key of the outfit.
    not_before : datetime, optional
        When its window opens, such as the start of low sun.
    not_after : datetime, optional
        When it has to be over, such as sunset.

    Raises
    ------
    BlockNotPossible
        If minutes are out of range, the window closes before it opens, or the kind is the planner's own.
    """

    key: str
    kind: BlockKind
    minutes: int
    place: str = ""
    setup: str = ""
    outfit: str = ""
    not_before: datetime | None = None
    not_after: datetime | None = None

    def __post_init__(self) -> None:
        if not 0 <= self.minutes <= _LONGEST_BLOCK or self.kind in _PLANNERS_OWN:
            raise BlockNotPossible(self.key)
        for moment in (self.not_before, self.not_after):
            if moment is not None and moment.utcoffset() is None:
                raise BlockNotPossible(f"{self.key}: a time of day has a zone.")
        if (
            self.not_before is not None
            and self.not_after is not None
            and elapsed_minutes(self.not_before, self.not_after) <= 0
        ):
            raise BlockNotPossible(f"{self.key}: a window closes after it opens.")


@dataclass(frozen=True, slots=True)
class ChangeOvers:
    """Minutes that changes take. [min]

    ``place`` comes first; ``setup`` and ``outfit`` go on side by side, so the longer of them counts. ``between`` has
    the minutes from one setup to another where they are known; ``setup`` stands for all others.
    """

    place: int = 0
    setup: int = 0
    outfit: int = 0
    between: Mapping[tuple[str, str], int] = field(default_factory=lambda: MappingProxyType({}))

    def __post_init__(self) -> None:
        if min(self.place, self.setup, self.outfit, *self.between.values()) < 0:
            raise BlockNotPossible("A change takes no negative time.")

    def minutes(self, changes: Iterable[Change], setups: tuple[str, str] = ("", "")) -> int:
        """Return how long changes take together, with the setups before and after. [min]"""
        made = set(changes)
        setup = self.between.get(setups, self.setup) if Change.SETUP in made else 0
        outfit = self.outfit if Change.OUTFIT in made else 0
        return (self.place if Change.PLACE in made else 0) + max(setup, outfit)


@dataclass(frozen=True, slots=True)
class DayProblem:
    """A day to be planned.

    Parameters
    ----------
    start : datetime
        When the first block starts, with the zone in which the plan is printed.
    blocks : tuple[Block, ...]
        What is to be done, in order.
    change_overs : ChangeOvers
        Minutes that changes take.
    wrap_by : datetime, optional
        When everything has to be over.

    Raises
    ------
    DayNotPossible
        If ``start`` or ``wrap_by`` has no zone.
    BlockNotPossible
        If two blocks share a key.
    """

    start: datetime
    blocks: tuple[Block, ...]
    change_overs: ChangeOvers = ChangeOvers()
    wrap_by: datetime | None = None

    def __post_init__(self) -> None:
        elapsed_minutes(self.start, self.wrap_by or self.start)
        keys = [block.key for block in self.blocks]
        if len(set(keys)) < len(keys):
            raise BlockNotPossible("Each block has a key of its own.")


@dataclass(frozen=True, slots=True)
class Slot:
    """A block with its times. ``key`` is the block's; for change-overs and waits that of the block after."""

    key: str
    kind: BlockKind
    starts_at: datetime
    ends_at: datetime
    changes: tuple[Change, ...] = ()

    @property
    def minutes(self) -> int:
        """How long it lasts. [min]"""
        return elapsed_minutes(self.starts_at, self.ends_at)


@dataclass(frozen=True, slots=True)
class DayFinding:
    """What doesn't fit: the rule, the block (none for the day itself), and by how much. [min]"""

    rule: DayRule
    key: str | None
    minutes: int


@dataclass(frozen=True, slots=True)
class DayPlan:
    """Slots that follow each other without a gap, and what doesn't fit."""

    slots: tuple[Slot, ...]
    ends_at: datetime
    findings: tuple[DayFinding, ...]

    def minutes_of(self, kind: BlockKind) -> int:
        """Return how long everything of a kind takes together. [min]"""
        return sum(slot.minutes for slot in self.slots if slot.kind is kind)


def group_shots(shots: Iterable[Block]) -> tuple[Block, ...]:
    """Return shots grouped by place, within it by setup, within that by outfit.

    Parameters
    ----------
    shots : Iterable[Block]
        Shots in the order of the shot list.

    Returns
    -------
    tuple[Block, ...]
        The same shots; groups come in the order in which they first appear, shots of a group in theirs.

    Examples
    --------
    >>> shots = [
    ...     Block("1", BlockKind.SHOOT, 20, setup="rim"),
    ...     Block("2", BlockKind.SHOOT, 20, setup="wall"),
    ...     Block("3", BlockKind.SHOOT, 20, setup="rim"),
    ... ]
    >>> [shot.key for shot in group_shots(shots)]
    ['1', '3', '2']
    """
    listed = list(shots)
    places: dict[str, int] = {}
    setups: dict[tuple[str, str], int] = {}
    outfits: dict[tuple[str, str, str], int] = {}
    for index, shot in enumerate(listed):
        places.setdefault(shot.place, index)
        setups.setdefault((shot.place, shot.setup), index)
        outfits.setdefault((shot.place, shot.setup, shot.outfit), index)
    return tuple(
        sorted(
            listed,
            key=lambda shot: (
                places[shot.place],
                setups[shot.place, shot.setup],
                outfits[shot.place, shot.setup, shot.outfit],
            ),
        )
    )


@dataclass(slots=True)
class _Standing:
    """Where everybody stands, which setup is lit and what is worn; empty while nothing is yet."""

    place: str = ""
    setup: str = ""
    outfit: str = ""

    def changes_to(self, block: Block) -> tuple[Change, ...]:
        wanted = ((Change.PLACE, "place"), (Change.SETUP, "setup"), (Change.OUTFIT, "outfit"))
        return tuple(
            change
            for change, name in wanted
            if getattr(block, name) and getattr(self, name) and getattr(block, name) != getattr(self, name)
        )

    def move_to(self, block: Block) -> None:
        self.place = block.place or self.place
        self.setup = block.setup or self.setup
        self.outfit = block.outfit or self.outfit


def plan_day(problem: DayProblem) -> DayPlan:
    """Return the day's clock times in the given order, and what doesn't fit.

    Parameters
    ----------
    problem : DayProblem
        The day to be planned.

    Returns
    -------
    DayPlan
        Slots from ``start`` on in the zone of ``start``; minutes are real ones, also when the clocks
        change. A block that cannot be done in time is planned all the same and told.

    Examples
    --------
    >>> from zoneinfo import ZoneInfo
    >>> shots = (
    ...     Block("1", BlockKind.SHOOT, 30, setup="rim"),
    ...     Block("2", BlockKind.SHOOT, 20, setup="wall"),
    ... )
    >>> start = datetime(2026, 6, 3, 9, tzinfo=ZoneInfo("Europe/London"))
    >>> for slot in plan_day(DayProblem(start, shots, ChangeOvers(setup=25))).slots:
    ...     print(slot.starts_at.strftime("%H:%M"), slot.kind, slot.key)
    09:00 SHOOT 1
    09:30 CHANGE_OVER 2
    09:55 SHOOT 2
    """
    zone, now = problem.start.tzinfo, problem.start.astimezone(UTC)
    slots: list[Slot] = []
    findings: list[DayFinding] = []
    standing = _Standing()

    def add(block: Block, kind: BlockKind, minutes: int, changes: tuple[Change, ...] = ()) -> None:
        nonlocal now
        begin, now = now, now + timedelta(minutes=minutes)
        slots.append(Slot(block.key, kind, begin.astimezone(zone), now.astimezone(zone), changes))

    for block in problem.blocks:
        changes = standing.changes_to(block) if block.kind is BlockKind.SHOOT else ()
        minutes = problem.change_overs.minutes(changes, (standing.setup, block.setup))
        if minutes:
            add(block, BlockKind.CHANGE_OVER, minutes, changes)
        standing.move_to(block)
        if block.not_before is not None and (early := elapsed_minutes(now, block.not_before)) > 0:
            add(block, BlockKind.WAIT, early)
        add(block, block.kind, block.minutes)
        findings += _window_findings(block, now)

    if problem.wrap_by is not None and (over := elapsed_minutes(problem.wrap_by, now)) > 0:
        findings.append(DayFinding(DayRule.PAST_WRAP, None, over))
    return DayPlan(tuple(slots), now.astimezone(zone), tuple(findings))


def _window_findings(block: Block, ended: datetime) -> list[DayFinding]:
    if block.not_after is None:
        return []
    if block.not_before is not None:
        lacking = block.minutes - elapsed_minutes(block.not_before, block.not_after)
        if lacking > 0:
            return [DayFinding(DayRule.WINDOW_TOO_SHORT, block.key, lacking)]
    over = elapsed_minutes(block.not_after, ended)
    return [DayFinding(DayRule.PAST_WINDOW, block.key, over)] if over > 0 else []


def work_day(plan: DayPlan) -> WorkDay:
    """Return the plan as a day's work, to be checked for rest.

    Parameters
    ----------
    plan : DayPlan
        A plan that lasts some time.

    Returns
    -------
    WorkDay
        From the first slot to the last, moves included, with its breaks and meals.

    Raises
    ------
    DayNotPossible
        If the plan is empty or lasts no time.

    Examples
    --------
    >>> from shoots.schedule.core.rest import working_time_findings
    >>> start = datetime(2026, 6, 3, 9, tzinfo=UTC)
    >>> plan = plan_day(DayProblem(start, (Block("1", BlockKind.SHOOT, 400),)))
    >>> [str(finding.rule) for finding in working_time_findings([work_day(plan)])]
    ['rest_break_20min_missing']
    """
    if not plan.slots:
        raise DayNotPossible("A day without anything in it is no work.")
    breaks = tuple(Span(slot.starts_at, slot.ends_at) for slot in plan.slots if slot.kind in RESTS and slot.minutes)
    return WorkDay(plan.slots[0].starts_at, plan.ends_at, breaks)
