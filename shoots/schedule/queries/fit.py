"""A day with a block for each shot: its sum against hours and light, and the order that is over earliest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from shoots.lighting.models import Setup
from shoots.places.models import Place
from shoots.places.queries import LightOfDay, light_of
from shoots.schedule.core.cover import Room, Wanted, cover
from shoots.schedule.core.day import Block, BlockKind, DayProblem, plan_day
from shoots.schedule.core.fit import DayFit, Take, day_fit
from shoots.schedule.core.rest import elapsed_minutes
from shoots.schedule.core.turns import MOST_GROUPS, Takes, Turn, Turns, best_turns, in_turn
from shoots.schedule.queries.draft import drafted
from shoots.schedule.queries.plan import CHANGES, DayPage, moment_of, place_of_block, sunset_after
from shoots.shoot.models import ShootDay
from shoots.shotlist.models import Moment, Priority
from shoots.shotlist.queries import ShotCard

AROUND_NOON = timedelta(minutes=90)
"""Midday light, before and after the sun stands highest; common practice, no source."""
BREAK_MAY_MOVE = 60
"""In another order a break may begin so much earlier or later than it is planned. [min]"""


@dataclass(frozen=True)
class ShotDay:
    """A day as its shots make it: the problem, its shots by their blocks' keys, and its sum.

    `is_drafted` tells that there is no plan and a drafted one was reckoned with; `left` are shots in no block, which
    were put before the wrap.
    """

    problem: DayProblem
    takes: tuple[Take, ...]
    cards: Mapping[str, ShotCard]
    fit: DayFit
    is_drafted: bool
    left: tuple[ShotCard, ...]


@dataclass(frozen=True)
class _Step:
    """A stretch of the plan, or of the plan that would be drafted."""

    key: str
    kind: BlockKind
    minutes: int
    setup: Setup | None
    place: Place | None
    cards: tuple[ShotCard, ...] = ()


def shot_day(page: DayPage, between: Mapping[tuple[str, str], int]) -> ShotDay | None:
    """Return a day with a block for each of its shots, in the planned order; None without shots. No query.

    `between` has the minutes from setup to setup where they are known.
    """
    if not page.cards:
        return None
    steps, left = _planned(page) if page.has_plan else (_drafted(page), ())
    blocks: list[Block] = []
    for step in steps:
        if step.kind is BlockKind.WRAP and left:
            blocks += [_shot_block(card, card.shot.setup, page.day) for card in left]
            left = ()
        blocks += _blocks(step, page.day)
    blocks += [_shot_block(card, card.shot.setup, page.day) for card in left]
    problem = DayProblem(
        start=page.outline.start,
        blocks=tuple(blocks),
        change_overs=replace(CHANGES, between=between),
        wrap_by=page.outline.wrap_by,
    )
    cards = {_key(card): card for card in page.cards}
    return ShotDay(
        problem=problem,
        takes=tuple(
            Take(key, card.number, card.shot.priority == Priority.WISH, card.shot.got_at is not None)
            for key, card in cards.items()
        ),
        cards=cards,
        fit=day_fit(problem),
        is_drafted=not page.has_plan,
        left=page.left if page.has_plan else (),
    )


def _key(card: ShotCard) -> str:
    return f"shot-{card.shot.pk}"


def _planned(page: DayPage) -> tuple[list[_Step], tuple[ShotCard, ...]]:
    """Return the plan's blocks with their shots, and the shots in none."""
    steps = [
        _Step(
            f"block-{row.block.pk}",
            BlockKind(row.block.kind),
            row.block.minutes,
            row.block.setup,
            place_of_block(row.block, page.day),
            row.shots,
        )
        for row in page.rows
        if row.block
    ]
    return steps, page.left


def _drafted(page: DayPage) -> list[_Step]:
    """Return the plan that would be drafted, with its shots."""
    setups = {str(card.shot.setup_id or ""): card.shot.setup for card in page.cards}
    blocks = drafted(page)
    rooms = [Room(n, block.setup, block.minutes) for n, block in enumerate(blocks) if block.kind is BlockKind.SHOOT]
    wanted = [Wanted(n, str(card.shot.setup_id or ""), card.shot.minutes) for n, card in enumerate(page.cards)]
    taken = cover(rooms, wanted).shots
    steps = []
    for n, block in enumerate(blocks):
        setup = setups.get(block.setup) if block.setup else None
        place = (setup.place if setup else None) or page.day.place
        cards = tuple(page.cards[shot] for shot in taken.get(n, ()))
        steps.append(_Step(f"draft-{n}", block.kind, block.minutes, setup, place, cards))
    return steps


def _blocks(step: _Step, day: ShootDay) -> Iterator[Block]:
    if step.kind is BlockKind.SHOOT and step.cards:
        for card in step.cards:
            yield _shot_block(card, step.setup, day)
        return
    places = (BlockKind.SHOOT, BlockKind.MOVE)
    lit = (BlockKind.SHOOT, BlockKind.BUILD)
    yield Block(
        step.key,
        step.kind,
        step.minutes,
        place=str(step.place.pk) if step.place and step.kind in places else "",
        setup=str(step.setup.pk) if step.setup and step.kind in lit else "",
    )


def _shot_block(card: ShotCard, setup: Setup | None, day: ShootDay) -> Block:
    place = (setup.place if setup else None) or day.place
    opens, closes = _window(card, setup, place, day)
    return Block(
        _key(card),
        BlockKind.SHOOT,
        card.shot.minutes,
        place=str(place.pk) if place else "",
        setup=str(setup.pk) if setup else "",
        outfit=card.shot.outfit,
        not_before=opens,
        not_after=closes,
    )


def _window(
    card: ShotCard, setup: Setup | None, place: Place | None, day: ShootDay
) -> tuple[datetime | None, datetime | None]:
    """Return when a shot's light begins and ends: as its setup is planned, as the shot asks, and by sunset at last."""
    if place and place.indoors:
        return None, None
    planned = moment_of(day, setup.shoot_time) if setup and setup.shoot_time else None
    sunset = sunset_after(place, day.date)
    asked = _moment(Moment(card.shot.moment), light_of(place, day.date))
    # A light that is planned for a time of the clock is meant so, also by night and beside what the shot says.
    if planned and (asked is None or not asked[0] <= planned < asked[1]):
        return planned, sunset if sunset and planned < sunset else None
    if asked is None:
        return planned, sunset
    return max(planned, asked[0]) if planned else asked[0], asked[1]


def _moment(moment: Moment, light: LightOfDay | None) -> tuple[datetime, datetime] | None:
    """Return the stretch of a date in which the light of a moment is there; None where that can't be said."""
    if light is None or light.sunrise_at is None or light.sunset_at is None:
        return None
    noon = light.highest_at
    low = {band.end <= noon: (band.start, band.end) for band in light.low_sun}
    blue = {band.end <= noon: (band.start, band.end) for band in light.blue}
    match moment:
        case Moment.DAWN:
            return (blue[True][0], light.sunrise_at) if True in blue else None
        case Moment.LOW_MORNING:
            return low.get(True)
        case Moment.MORNING:
            return light.sunrise_at, noon
        case Moment.MIDDAY:
            return noon - AROUND_NOON, noon + AROUND_NOON
        case Moment.AFTERNOON:
            return noon, light.sunset_at
        case Moment.LOW_EVENING:
            return low.get(False)
        case Moment.DUSK:
            return (light.sunset_at, blue[False][1]) if False in blue else None
        case Moment.NIGHT:
            return (blue[False][1], blue[False][1] + timedelta(hours=8)) if False in blue else None
    return None


@dataclass(frozen=True)
class BetterOrder:
    """What another order of a day's groups would save. `shots` has the shots of each group, in that order.

    `is_exact` tells that every order was looked at; else `saves` is what no order can exceed and `groups` is empty.
    """

    saves: int
    keeps_light: bool
    is_exact: bool
    groups: tuple[tuple[ShotCard, ...], ...]


def better_order(day: ShotDay) -> BetterOrder | None:
    """Return a better order of a day's groups; None where the planned one is as good. No query.

    Groups are shots with the same place, light, outfit and window. Building takes what the plan gives to it, a break
    may move by an hour, and arriving and wrapping stay where they are.
    """
    turns, members = _turns(day)
    takes = _takes(day)
    here = next((block.place for block in day.problem.blocks if block.place), "")
    planned = in_turn(turns, takes, place=here)
    best = best_turns(_merged(turns), takes, place=here)
    exact = len(best.keys) <= MOST_GROUPS
    end = best.minutes if exact else best.at_least
    saves = planned.minutes - end
    gains_light = best.keeps_windows and not planned.keeps_windows
    if saves <= 0 and not (exact and gains_light):
        return None
    return BetterOrder(saves, gains_light, exact, _groups(best, members) if exact else ())


def _groups(best: Turns, members: Mapping[str, list[ShotCard]]) -> tuple[tuple[ShotCard, ...], ...]:
    return tuple(tuple(members[key]) for key in best.keys if key in members)


def _turns(day: ShotDay) -> tuple[list[Turn], dict[str, list[ShotCard]]]:
    """Return runs of shots and breaks in the planned order, times counted from the end of arriving."""
    slots = {slot.key: slot for slot in plan_day(day.problem).slots if slot.kind is not BlockKind.CHANGE_OVER}
    begin = day.problem.start
    for block in day.problem.blocks:
        if block.kind is not BlockKind.ARRIVE:
            break
        begin = slots[block.key].ends_at
    turns: list[Turn] = []
    members: dict[str, list[ShotCard]] = {}
    for block in day.problem.blocks:
        if block.kind in (BlockKind.BREAK, BlockKind.MEAL):
            at = elapsed_minutes(begin, slots[block.key].starts_at)
            window = max(0, at - BREAK_MAY_MOVE), at + BREAK_MAY_MOVE + block.minutes
            turns.append(Turn(block.key, block.minutes, opens=window[0], closes=window[1]))
        elif block.kind is BlockKind.SHOOT:
            opens = elapsed_minutes(begin, block.not_before) if block.not_before else None
            closes = elapsed_minutes(begin, block.not_after) if block.not_after else None
            made = Turn(
                _same(block, opens, closes), block.minutes, block.place, block.setup, block.outfit, opens, closes
            )
            if turns and turns[-1].key == made.key:
                turns[-1] = replace(turns[-1], minutes=turns[-1].minutes + made.minutes)
            else:
                turns.append(made)
            if block.key in day.cards:
                members.setdefault(made.key, []).append(day.cards[block.key])
    return turns, members


def _same(block: Block, opens: int | None, closes: int | None) -> str:
    return f"{block.place}|{block.setup}|{block.outfit}|{opens}|{closes}"


def _merged(turns: Iterable[Turn]) -> list[Turn]:
    """Return each group once: what is taken in two goes may be taken in one."""
    found: dict[str, Turn] = {}
    for turn in turns:
        had = found.get(turn.key)
        found[turn.key] = turn if had is None else replace(had, minutes=had.minutes + turn.minutes)
    return list(found.values())


def _takes(day: ShotDay) -> Takes:
    build: dict[str, int] = {}
    move: dict[str, int] = {}
    for block in day.problem.blocks:
        if block.kind is BlockKind.BUILD and block.setup:
            build[block.setup] = block.minutes
        elif block.kind is BlockKind.MOVE and block.place:
            move[block.place] = block.minutes
    return Takes(day.problem.change_overs, build, move)
