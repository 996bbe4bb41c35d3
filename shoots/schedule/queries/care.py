"""What a shoot's days ask of batteries and of hands in the wind: setup by setup, against what is packed and booked.

Estimates for planning, no certificates: people's safety on site, local rules and the makers' limits come first.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.db.models import Prefetch

from shoots.kit.models import Battery, Lamp
from shoots.lighting.core.charge import USUAL_RESERVE, DayCharge, SetupCharge, Use, day_charge
from shoots.lighting.core.stands import Advice
from shoots.lighting.models import PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries.care import PaceRow, WindRow, on_batteries, pace_row, packed_of, use_of, wind_rows
from shoots.lighting.queries.rows import lettered
from shoots.schedule.core.frames import frames_of_shots
from shoots.schedule.models import BlockKind, DayBlock, PackedBattery
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.shotlist.models import Shot
from shoots.values.spread import Between
from shoots.values.steps import Step


@dataclass(frozen=True)
class SetupRow:
    """What a setup takes from one kind of battery on a day. `x` and `width` draw it, in percent of the bar.

    `frames` is None where neither the setup nor its shots say how many are planned. `average_s` is the time for each
    frame if they were spread evenly over the minutes of its shots.
    """

    setup: Setup
    letters: tuple[str, ...]
    frames: float | None
    charge: SetupCharge | None
    paces: tuple[PaceRow, ...]
    average_s: float | None
    x: float
    width: float

    @property
    def runs_out_at_frame(self) -> int | None:
        """The frame of this setup with which the usable charge is gone; None where it lasts."""
        if self.charge is None or self.charge.runs_out_at is None or self.frames is None:
            return None
        return max(1, math.floor(self.frames * self.charge.runs_out_at))

    @property
    def has_no_time(self) -> bool:
        """Whether the lights recycle more slowly than the minutes of the shots allow."""
        return self.average_s is not None and any(pace.recycle_s > self.average_s + 1e-9 for pace in self.paces)

    @property
    def left_percent(self) -> int | None:
        """What is left after it of the usable charge, of a whole battery. [%]"""
        return None if self.charge is None else max(0, round(100 * self.charge.left))


@dataclass(frozen=True)
class Pool:
    """One kind of battery on one day, with every light that takes it.

    `packed` is None where a light names no battery. `in_bag` is what the bag has, `is_said` whether another number was
    typed for this shoot. Places on the bar are percent of its width.
    """

    battery: Battery | None
    lamps: tuple[Lamp, ...]
    packed: int | None
    in_bag: int | None
    is_said: bool
    charge: DayCharge | None
    rows: tuple[SetupRow, ...]
    usable_x: float
    packed_x: float
    old_x: float

    @property
    def lamps_unsaid(self) -> tuple[Lamp, ...]:
        """Lights of which the bag does not say how many full flashes a battery gives."""
        return tuple(lamp for lamp in self.lamps if not lamp.full_pops)

    @property
    def setups_unsaid(self) -> tuple[Setup, ...]:
        """Setups of which nobody says how many frames are planned; they are not counted."""
        return tuple(row.setup for row in self.rows if row.frames is None)

    @property
    def is_short(self) -> bool:
        return self.charge is not None and not self.charge.fits

    @property
    def share_percent(self) -> int | None:
        """What the frames take of the usable charge. [%]"""
        return self._percent(self.charge.taken) if self.charge else None

    @property
    def share_between(self) -> tuple[int, int] | None:
        if self.charge is None or not self.charge.usable:
            return None
        return self._percent(self.charge.between.low) or 0, self._percent(self.charge.between.high) or 0

    def _percent(self, batteries: float) -> int | None:
        usable = self.charge.usable if self.charge else 0.0
        return round(100 * batteries / usable) if usable else None

    @property
    def because(self) -> tuple[Step, ...]:
        paces = [step for row in self.rows for pace in row.paces for step in pace.because]
        return (*(self.charge.because if self.charge else ()), *dict.fromkeys(paces))


@dataclass(frozen=True)
class SetupWind:
    """A setup outdoors in its forecast gusts: what is held and what comes down."""

    setup: Setup
    winds: tuple[WindRow, ...]

    @property
    def held(self) -> tuple[str, ...]:
        return tuple(sorted(row.letter for row in self.winds if row.check.advice is Advice.HOLD))

    @property
    def down(self) -> tuple[str, ...]:
        return tuple(sorted(row.letter for row in self.winds if row.check.advice is Advice.TAKE_DOWN))

    @property
    def down_at_m_s(self) -> float:
        """Gust at the height of the box at which the first of those that are held comes down. [m/s]"""
        return min(row.check.down_at_m_s for row in self.winds)

    @property
    def gust_between(self) -> Between:
        """The gust at the highest of them. [m/s]"""
        return max((row.check.gust_between for row in self.winds), key=lambda one: one.high)


@dataclass(frozen=True)
class DayCare:
    """One day: its batteries, what the wind asks, and who holds. `day` is None for what has no day yet."""

    day: ShootDay | None
    pools: tuple[Pool, ...]
    winds: tuple[SetupWind, ...]
    holders: tuple[Booking, ...]

    @property
    def hands_needed(self) -> int:
        """Pairs of hands at the same time: one for each stand of the setup that needs most."""
        return max((len(wind.held) for wind in self.winds), default=0)

    @property
    def is_done(self) -> bool:
        """Whether the day was shot already; nothing is missing for it any more."""
        return self.day is not None and self.day.wrapped_at is not None

    @property
    def hands_missing(self) -> int:
        return 0 if self.is_done else max(0, self.hands_needed - len(self.holders))

    @property
    def short(self) -> tuple[Pool, ...]:
        return tuple(pool for pool in self.pools if pool.is_short)

    @property
    def asks_hands(self) -> tuple[SetupWind, ...]:
        return tuple(wind for wind in self.winds if wind.held or wind.down)

    @property
    def paces(self) -> tuple[tuple[Setup, PaceRow], ...]:
        """Lights that are planned faster than they recycle, or longer in one go than they bear."""
        rows = [(row, pace) for pool in self.pools for row in pool.rows for pace in row.paces]
        return tuple((row.setup, pace) for row, pace in rows if pace.is_a_concern or row.has_no_time)

    @property
    def is_calm(self) -> bool:
        return self.is_done or not (
            self.short or self.hands_missing or self.paces or any(wind.down for wind in self.winds)
        )


@dataclass(frozen=True)
class Kind:
    """A kind of battery that this shoot's lights take: what the bag has, and what was said to be packed."""

    battery: Battery
    in_bag: int
    said: int | None

    @property
    def packed(self) -> int:
        return self.in_bag if self.said is None else self.said


@dataclass(frozen=True)
class ShootCare:
    """Every day of a shoot, first what has no day yet; `kinds` can be packed."""

    days: tuple[DayCare, ...]
    kinds: tuple[Kind, ...]

    @property
    def of_day(self) -> Mapping[int, DayCare]:
        return {care.day.pk: care for care in self.days if care.day}

    @property
    def is_calm(self) -> bool:
        return all(care.is_calm for care in self.days)

    @property
    def hands_missing(self) -> int:
        return sum(care.hands_missing for care in self.days)


@dataclass(frozen=True)
class _Planned:
    """The frames of a setup on a day, the most that one shot takes, and the minutes of its shots."""

    frames: float | None = None
    most: float | None = None
    minutes: int = 0

    def and_shot(self, frames: float | None, minutes: int) -> _Planned:
        if frames is None:
            return self
        return _Planned((self.frames or 0.0) + frames, max(self.most or 0.0, frames), self.minutes + minutes)

    @property
    def average_s(self) -> float | None:
        return 60.0 * self.minutes / self.frames if self.frames and self.minutes else None


@dataclass(frozen=True)
class _Known:
    """What was read of a shoot."""

    setups: Mapping[int, tuple[Setup, tuple[tuple[str, PlacedLamp], ...]]]
    packed: Mapping[int, int]
    bookings: Sequence[Booking]


def shoot_care(shoot: Shoot) -> ShootCare:
    """Return what each day of a shoot asks of batteries and hands. Eight queries, whatever its size."""
    days = list(ShootDay.objects.standing().filter(shoot=shoot))
    shots = list(
        Shot.objects.filter(shoot=shoot).exclude(setup=None).only("pk", "setup_id", "day_id", "frames", "minutes")
    )
    order: dict[int, list[int]] = {}
    for day_id, setup_id in (
        DayBlock.objects.filter(day__shoot=shoot, kind=BlockKind.SHOOT)
        .exclude(setup=None)
        .values_list("day_id", "setup_id")
    ):
        order.setdefault(day_id, []).append(setup_id)
    lamps = PlacedLamp.objects.select_related("lamp__battery", "modifier", "gel", "grid", "stand")
    panels = PlacedPanel.objects.select_related("panel", "stand")
    setups = (
        Setup.objects.filter(shoot=shoot)
        .select_related("place")
        .prefetch_related(Prefetch("lamps", queryset=lamps), Prefetch("panels", queryset=panels))
    )
    known = _Known(
        setups={
            setup.pk: (setup, tuple(lettered(list(setup.lamps.all()))))
            for setup in setups
            if setup.lamps.all() or setup.panels.all()
        },
        packed=dict(PackedBattery.objects.filter(shoot=shoot).values_list("battery_id", "quantity")),
        bookings=list(
            Booking.objects.standing()
            .filter(shoot=shoot, kind=BookingKind.CREW, holds_lights=True)
            .select_related("person")
        ),
    )
    taken = _frames_by_day(known, shots, days)
    found = []
    for day in [None, *days]:
        frames = taken.get(day.pk if day else None, {})
        if frames:
            firsts = dict.fromkeys([*order.get(day.pk if day else 0, []), *frames])
            found.append(_day_care(day, {key: frames[key] for key in firsts if key in frames}, known))
    kinds = {
        placed.lamp.battery_id: placed.lamp
        for _setup, rows in known.setups.values()
        for group in on_batteries(rows).values()
        for _name, placed in group
        if placed.lamp.battery
    }
    return ShootCare(
        days=tuple(found),
        kinds=tuple(
            Kind(lamp.battery, packed_of(lamp) or 0, known.packed.get(key)) for key, lamp in kinds.items() if key
        ),
    )


def _frames_by_day(
    known: _Known, shots: Sequence[Shot], days: Sequence[ShootDay]
) -> dict[int | None, dict[int, _Planned]]:
    """Return the planned frames of each setup on each day; what has no day is that of the only one, if there is one."""
    standing = {day.pk for day in days}
    only = next(iter(standing)) if len(standing) == 1 else None
    found: dict[int | None, dict[int, _Planned]] = {}
    for key, (setup, _rows) in known.setups.items():
        mine = [shot for shot in shots if shot.setup_id == key]
        if not mine:
            whole = None if setup.frames is None else float(setup.frames)
            found.setdefault(only, {})[key] = _Planned(whole, whole)
        for shot, frames in zip(mine, frames_of_shots(setup.frames, [shot.frames for shot in mine]), strict=True):
            day = found.setdefault(shot.day_id if shot.day_id in standing else only, {})
            day[key] = day.get(key, _Planned()).and_shot(frames, shot.minutes)
    return found


def _day_care(day: ShootDay | None, frames: Mapping[int, _Planned], known: _Known) -> DayCare:
    rows: dict[str, list[tuple[int, list[tuple[str, PlacedLamp]]]]] = {}
    winds = []
    for key in frames:
        setup, lamps = known.setups[key]
        for kind, group in on_batteries(lamps).items():
            rows.setdefault(kind, []).append((key, group))
        if setup.place is not None and not setup.place.indoors and setup.gust_m_s is not None:
            winds.append(SetupWind(setup, wind_rows(setup, lamps)))
    return DayCare(
        day=day,
        pools=tuple(_pool(groups, frames, known) for groups in rows.values()),
        winds=tuple(wind for wind in winds if wind.winds),
        holders=tuple(one for one in known.bookings if one.day_id is None or (day and one.day_id == day.pk)),
    )


def _pool(
    groups: Sequence[tuple[int, list[tuple[str, PlacedLamp]]]], frames: Mapping[int, _Planned], known: _Known
) -> Pool:
    placed = [one for _key, group in groups for _name, one in group]
    lamps = {one.lamp_id: one.lamp for one in placed}
    battery = placed[0].lamp.battery
    in_bag = packed_of(placed[0].lamp)
    said = known.packed.get(battery.pk) if battery else None
    packed = in_bag if said is None else said
    uses = list(_uses(groups, frames, known))
    charge = day_charge(uses, packed) if uses and packed is not None else None
    scale = 1.0
    if charge is not None and packed is not None:
        scale = max(charge.taken, float(packed), charge.between.high, 1e-9)
    by_key = {one.setup: one for one in charge.setups} if charge else {}
    rows, x = [], 0.0
    for key, group in groups:
        setup = known.setups[key][0]
        one = by_key.get(str(key))
        width = 100.0 * one.batteries / scale if one else 0.0
        rows.append(
            SetupRow(
                setup=setup,
                letters=tuple(name for name, _one in group),
                frames=frames[key].frames,
                charge=one,
                paces=_paces(setup, group, frames[key].most),
                average_s=frames[key].average_s,
                x=round(x, 2),
                width=round(width, 2),
            )
        )
        x += width
    return Pool(
        battery=battery,
        lamps=tuple(lamps.values()),
        packed=packed,
        in_bag=in_bag,
        is_said=said is not None,
        charge=charge and _named(charge, known),
        rows=tuple(rows),
        usable_x=round(100.0 * charge.usable / scale, 2) if charge else 0.0,
        packed_x=round(100.0 * (packed or 0) / scale, 2) if charge else 0.0,
        old_x=round(100.0 * charge.between.high / scale, 2) if charge else 0.0,
    )


def _uses(
    groups: Iterable[tuple[int, list[tuple[str, PlacedLamp]]]], frames: Mapping[int, _Planned], known: _Known
) -> Iterable[Use]:
    """Return what every light takes; a setup goes by its key, as two may have one name."""
    for key, group in groups:
        count = frames[key].frames
        for name, placed in group:
            use = use_of(known.setups[key][0], name, placed, count) if count is not None else None
            if use is not None:
                yield replace(use, setup=str(key))


def _named(charge: DayCharge, known: _Known) -> DayCharge:
    """Return the charge with the names of setups in its workings in the place of their keys."""
    names = {str(key): setup.name for key, (setup, _rows) in known.setups.items()}

    def said(step: Step) -> Step:
        return replace(
            step,
            inputs=tuple(
                replace(one, name=f"{names[first]} {rest}") if (first := one.name.split(" ")[0]) in names else one
                for one in step.inputs
                for rest in [one.name.partition(" ")[2]]
            ),
        )

    return replace(charge, because=tuple(said(step) for step in charge.because))


def _paces(setup: Setup, group: Sequence[tuple[str, PlacedLamp]], most: float | None) -> tuple[PaceRow, ...]:
    lamps = {placed.lamp_id: placed.lamp for _name, placed in group}
    return tuple(
        replace(
            pace_row(setup, lamp, [(name, placed) for name, placed in group if placed.lamp_id == key]),
            frames=None if most is None else math.ceil(most),
        )
        for key, lamp in lamps.items()
    )


RESERVE_PERCENT = round(100 * USUAL_RESERVE)
