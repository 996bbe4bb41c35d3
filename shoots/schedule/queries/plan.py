"""One day as its page and its call sheet show it: blocks with clock times, people, light, and what doesn't fit."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.people.models import Person
from shoots.places.models import Place
from shoots.places.queries import LightOfDay, light_of, sun_limits
from shoots.schedule.core.cover import Room, Wanted, cover
from shoots.schedule.core.day import Block, ChangeOvers, DayPlan, DayProblem, Slot, plan_day
from shoots.schedule.core.day import BlockKind as PlanKind
from shoots.schedule.models import BlockKind, DayBlock
from shoots.schedule.queries.strip import Strip, strip_of
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.shotlist.queries import ShotCard, shot_list

CHANGES = ChangeOvers(place=20, setup=20, outfit=10)
"""Minutes that a change takes where the plan has no block for it. Common practice, no source."""
RECKONED_FROM = time(9)
"""Where the plan starts while nobody has set a call time."""
CHANGE_WORDS = {
    "PLACE": gettext_lazy("change of place"),
    "SETUP": gettext_lazy("re-light"),
    "OUTFIT": gettext_lazy("change of outfit"),
}


@dataclass(frozen=True)
class DayPerson:
    """Somebody who is held for the day, with when they are called and what they bring.

    `call` is their own call, else the day's. Whoever is held twice appears once: what is said for this day alone
    comes first, and their jobs are joined.
    """

    booking: Booking
    person: Person
    job: str
    call: time | None
    has_own_call: bool

    @property
    def is_talent(self) -> bool:
        return self.booking.kind == BookingKind.TALENT

    @property
    def is_firm(self) -> bool:
        return self.booking.is_confirmed

    @property
    def is_second_option(self) -> bool:
        return self.booking.is_pencilled and self.booking.option_rank > 1

    @property
    def for_every_day(self) -> bool:
        return self.booking.day_id is None


@dataclass(frozen=True)
class PlanRow:
    """One stretch of the day: a block, or (without one) the change-over or the wait that the planner put in.

    `number` counts the blocks; `kind` is the planner's code, `kind_words` and `words` say it.
    """

    block: DayBlock | None
    number: int
    kind: str
    kind_words: str
    words: str
    starts_at: datetime
    ends_at: datetime
    minutes: int
    shots: tuple[ShotCard, ...] = ()
    after_midnight: bool = False

    @property
    def is_shoot(self) -> bool:
        return self.kind == BlockKind.SHOOT

    @property
    def shots_minutes(self) -> int:
        return sum(card.shot.minutes for card in self.shots)


@dataclass(frozen=True)
class DayOutline:
    """A day's plan with its clock, as computed from its blocks; nothing of it is stored."""

    day: ShootDay
    zone: ZoneInfo
    start: datetime
    is_reckoned: bool
    wrap_by: datetime | None
    plan: DayPlan
    rows: tuple[PlanRow, ...]

    @property
    def ends_at(self) -> datetime:
        return self.plan.ends_at


@dataclass(frozen=True)
class DayPage:
    """Everything that the page of a day, and its call sheet, show.

    `days` are all days of the shoot that stand, `number` and `of` count their dates; `left` are shots of the day that
    no block covers.
    """

    day: ShootDay
    days: tuple[ShootDay, ...]
    number: int
    of: int
    outline: DayOutline
    others: tuple[DayOutline, ...]
    cards: tuple[ShotCard, ...]
    left: tuple[ShotCard, ...]
    people: tuple[DayPerson, ...]
    hired: tuple[Booking, ...]
    light: LightOfDay | None
    strip: Strip | None
    mark: str

    @property
    def rows(self) -> tuple[PlanRow, ...]:
        return self.outline.rows

    @property
    def blocks(self) -> tuple[DayBlock, ...]:
        return tuple(row.block for row in self.rows if row.block)

    @property
    def has_plan(self) -> bool:
        return bool(self.rows)

    @property
    def has_call(self) -> bool:
        return self.day.call_time is not None

    @property
    def minutes(self) -> int:
        return sum(row.minutes for row in self.rows)


def plan_mark(blocks: Iterable[DayBlock]) -> str:
    """Return a short mark of a plan's state: it differs when a block was changed, moved, added or taken out."""
    state = ",".join(f"{block.pk}.{block.version}" for block in blocks)
    return hashlib.sha256(state.encode()).hexdigest()[:16]


def zone_of(day: ShootDay) -> ZoneInfo:
    """Return the zone whose clock the day goes by: its place's, else the studio's. No query if both were selected."""
    return ZoneInfo(day.place.time_zone if day.place else day.studio.time_zone)


def moment_of(day: ShootDay, at: time) -> datetime:
    """Return a time of the day's clock as a moment. After a call at noon or later, earlier times are the next day's."""
    call = day.call_time
    is_next = call is not None and call >= time(12) and at < call and at < time(12)
    on = day.date + timedelta(days=1) if is_next else day.date
    return datetime.combine(on, at, zone_of(day))


def start_of(day: ShootDay) -> datetime:
    """Return when the day's plan starts: its call, or nine o'clock while there is none."""
    return datetime.combine(day.date, day.call_time or RECKONED_FROM, zone_of(day))


def wrap_of(day: ShootDay) -> datetime | None:
    """Return when the day is to be over, on the next date if the wrap is earlier than the call."""
    if day.wrap_time is None:
        return None
    late = day.call_time is not None and day.wrap_time <= day.call_time
    return datetime.combine(day.date + timedelta(days=int(late)), day.wrap_time, zone_of(day))


@dataclass(frozen=True)
class ShootPlan:
    """What the pages of all days of a shoot are made of, read once."""

    days: tuple[ShootDay, ...]
    blocks: dict[int, list[DayBlock]]
    cards: tuple[ShotCard, ...]
    bookings: tuple[Booking, ...]


def read_plan(shoot: Shoot, cards: Sequence[ShotCard] | None = None) -> ShootPlan:
    """Return the days of a shoot that stand, with blocks, shots and bookings. Nine queries, whatever their number."""
    blocks: dict[int, list[DayBlock]] = {}
    for block in DayBlock.objects.filter(day__shoot=shoot).select_related("setup", "setup__place", "setup__spot"):
        blocks.setdefault(block.day_id, []).append(block)
    return ShootPlan(
        days=tuple(
            ShootDay.objects.standing()
            .filter(shoot=shoot)
            .select_related("place", "studio", "shoot__client", "shoot__contact", "shoot__studio")
        ),
        blocks=blocks,
        cards=shot_list(shoot).cards if cards is None else tuple(cards),
        bookings=tuple(Booking.objects.standing().filter(shoot=shoot).select_related("person", "place")),
    )


def day_page(day: ShootDay, known: ShootPlan | None = None) -> DayPage:
    """Return a day with its plan. Nine queries, none if what is `known` of its shoot is given.

    The day has to come with its shoot, studio and place selected.
    """
    known = known or read_plan(day.shoot)
    blocks = known.blocks.get(day.pk, [])
    cards = shots_of_day(known.cards, day, known.days)
    outline, left = _outline(day, blocks, cards)
    others = tuple(
        _outline(other, known.blocks.get(other.pk, []), ())[0]
        for other in known.days
        if other.pk != day.pk and (other.option_rank == 1 or other.is_confirmed)
    )
    bookings = [booking for booking in known.bookings if booking.day_id in (None, day.pk)]
    dates = sorted({other.date for other in known.days} | {day.date})
    limits = sun_limits(day.shoot.studio)
    return DayPage(
        day=day,
        days=known.days,
        number=dates.index(day.date) + 1,
        of=len(dates),
        outline=outline,
        others=others,
        cards=cards,
        left=left,
        people=people_of(day, bookings),
        hired=tuple(b for b in bookings if b.kind in (BookingKind.HIRE, BookingKind.PLACE)),
        light=light_of(day.place, day.date, limits=limits),
        strip=strip_of(outline.rows, start=outline.start, wrap_by=outline.wrap_by, place=day.place, limits=limits),
        mark=plan_mark(blocks),
    )


def shots_of_day(cards: Sequence[ShotCard], day: ShootDay, days: Sequence[ShootDay]) -> tuple[ShotCard, ...]:
    """Return the shots that are taken on a day; on a shoot of one day also those that name none. No query."""
    only = {d.pk for d in days if not d.is_released} <= {day.pk}
    return tuple(card for card in cards if card.shot.day_id == day.pk or (only and card.shot.day_id is None))


def place_of_block(block: DayBlock, day: ShootDay) -> Place | None:
    """Return where a block happens: its setup's place, else the day's. No query."""
    return (block.setup.place if block.setup else None) or day.place


def planned_moment(block: DayBlock, day: ShootDay) -> datetime | None:
    """Return the moment for which a block's light is planned; indoors it doesn't matter. No query."""
    setup, place = block.setup, place_of_block(block, day)
    if block.kind != BlockKind.SHOOT or setup is None or setup.shoot_time is None or (place and place.indoors):
        return None
    return moment_of(day, setup.shoot_time)


def sunset_after(place: Place | None, on: date) -> datetime | None:
    """Return when the sun sets at a place outdoors; None indoors, without a position, and where it doesn't set."""
    light = None if place is None or place.indoors else light_of(place, on)
    return light.sunset_at if light else None


def _problem_block(block: DayBlock, day: ShootDay, outfit: str) -> Block:
    place, planned = place_of_block(block, day), planned_moment(block, day)
    sunset = sunset_after(place, day.date) if block.kind == BlockKind.SHOOT else None
    # A light that is planned for after sunset is meant: then the night is no finding.
    if sunset and planned and planned >= sunset:
        sunset = None
    return Block(
        key=str(block.pk),
        kind=PlanKind(block.kind),
        minutes=block.minutes,
        # Building somewhere else is no way to get there: only a move, or the planner, changes the place.
        place=str(place.pk) if place and block.kind in (BlockKind.SHOOT, BlockKind.MOVE) else "",
        setup=str(block.setup_id or "") if block.kind in (BlockKind.SHOOT, BlockKind.BUILD) else "",
        outfit=outfit,
        not_before=planned,
        not_after=sunset,
    )


def _outline(
    day: ShootDay, blocks: Sequence[DayBlock], cards: Sequence[ShotCard]
) -> tuple[DayOutline, tuple[ShotCard, ...]]:
    by_key = {card.shot.pk: card for card in cards}
    rooms = [Room(b.pk, str(b.setup_id or ""), b.minutes) for b in blocks if b.kind == BlockKind.SHOOT]
    covered = cover(rooms, [Wanted(c.shot.pk, str(c.shot.setup_id or ""), c.shot.minutes) for c in cards])
    own = {key: tuple(by_key[shot] for shot in shots) for key, shots in covered.shots.items()}
    start, wrap_by = start_of(day), wrap_of(day)
    plan = plan_day(
        DayProblem(
            start=start,
            blocks=tuple(_problem_block(b, day, _outfit(own.get(b.pk, ()))) for b in blocks),
            change_overs=CHANGES,
            wrap_by=wrap_by,
        )
    )
    numbered = {str(block.pk): (n, block) for n, block in enumerate(blocks, start=1)}
    rows = tuple(_row(slot, *numbered[slot.key], own, day) for slot in plan.slots)
    outline = DayOutline(day, zone_of(day), start, day.call_time is None, wrap_by, plan, rows)
    return outline, tuple(by_key[key] for key in covered.left)


def _outfit(cards: Sequence[ShotCard]) -> str:
    """Return the one outfit of a block's shots, or "" where there are several: those change within the block."""
    worn = {card.shot.outfit for card in cards if card.shot.outfit}
    return worn.pop() if len(worn) == 1 else ""


def _row(slot: Slot, number: int, block: DayBlock, own: dict[int, tuple[ShotCard, ...]], day: ShootDay) -> PlanRow:
    clock = {
        "starts_at": slot.starts_at,
        "ends_at": slot.ends_at,
        "minutes": slot.minutes,
        "after_midnight": slot.starts_at.date() > day.date,
    }
    if slot.kind is PlanKind.CHANGE_OVER:
        words = ", ".join(str(CHANGE_WORDS[change]) for change in slot.changes)
        return PlanRow(None, 0, slot.kind, _("Change-over"), words, **clock)  # type: ignore[arg-type]
    if slot.kind is PlanKind.WAIT:
        words = _("for the light of %(clock)s") % {"clock": f"{slot.ends_at:%H:%M}"}
        return PlanRow(None, 0, slot.kind, _("Wait"), words, **clock)  # type: ignore[arg-type]
    return PlanRow(
        block,
        number,
        block.kind,
        str(block.get_kind_display()),
        block_words(block),
        shots=own.get(block.pk, ()),
        **clock,  # type: ignore[arg-type]
    )


def block_words(block: DayBlock) -> str:
    """Return what a block is about, besides its kind; "" when nothing more is said. No query if its setup is there."""
    about = block.setup.name if block.setup else ""
    if block.kind == BlockKind.MOVE and block.setup and block.setup.place and not block.label:
        return _("to %(place)s") % {"place": block.setup.place.name}
    return " · ".join(part for part in (about, block.label) if part)


def people_of(day: ShootDay, bookings: Iterable[Booking]) -> tuple[DayPerson, ...]:
    """Return who is held for a day in the order of their calls; each person once. No query."""
    found: dict[int, list[Booking]] = {}
    for booking in bookings:
        if booking.person_id and booking.kind in (BookingKind.CREW, BookingKind.TALENT):
            found.setdefault(booking.person_id, []).append(booking)
    people = []
    for mine in found.values():
        # What was said for this day alone comes before what holds for all of them, the firm before the pencilled.
        ordered = sorted(mine, key=lambda b: (b.day_id is None, not b.is_confirmed, b.option_rank, b.pk))
        first = ordered[0]
        person: Person = first.person
        own = next((b.call_time for b in ordered if b.call_time), None)
        jobs = dict.fromkeys(b.what or person.trade or str(b.get_kind_display()) for b in ordered)
        people.append(DayPerson(first, person, ", ".join(jobs), own or day.call_time, own is not None))
    return tuple(sorted(people, key=lambda p: (_minute(day, p.call), p.is_talent, p.person.name)))


def _minute(day: ShootDay, call: time | None) -> float:
    return moment_of(day, call).timestamp() if call else float("inf")
