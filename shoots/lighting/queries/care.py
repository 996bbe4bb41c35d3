"""What a setup asks of stands and batteries: at which wind a light comes down, and whether the frames fit the charge.

Estimates for planning, no certificates: people's safety on site, local rules and the makers' limits come first.
"""

from __future__ import annotations

import contextlib
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shoots.kit.core.lamps import LampKind
from shoots.kit.models import Battery, Lamp
from shoots.lighting.core.battery import HeatLimit, cold_share, pops_until_heat, recycle_time
from shoots.lighting.core.charge import DayCharge, Use, charge_between, charge_step, day_charge
from shoots.lighting.core.panelshapes import LYING_DEG
from shoots.lighting.core.safety import WindCheck, check_panel, check_wind
from shoots.lighting.core.wind import beaufort
from shoots.lighting.models import PlacedLamp, Setup
from shoots.lighting.queries.rows import numbered, placed_light, placed_panel
from shoots.values.spread import Between, Doubt
from shoots.values.steps import Formula, Step
from shoots.values.units import OutOfRange

LEAST_RECYCLE_S = 0.05
"""Between two pops at any power; own estimate. [s]"""
ROOM_C = 20.0
"""Taken where no temperature is planned. [°C]"""
SLOWER, FASTER = 1.5, 0.9
"""How far recycling may lie off: a low or cold battery is slower; common practice, no source. [1]"""
HEAT_OFF = 0.3
"""How far heat may cut out earlier or later: own model, own estimate; earlier in hot weather. [1]"""

RECYCLE = Formula("recycling", "t = t_full · p + t_least", "s", "Charging at constant power: practice")
HEAT = Formula(
    "flashes_until_heat",
    "n = n_full / (p − cooling · wait / 60 s)",
    "1",
    "Heat in proportion to energy, shed at a constant rate: own model; the two numbers come from the maker",
)


@dataclass(frozen=True)
class WindRow:
    """A light or panel on a stand in the wind. `gust_known` is False where nobody has written the forecast down."""

    letter: str
    check: WindCheck
    gust_known: bool

    @property
    def beaufort(self) -> int:
        """Force of the gust at which it comes down."""
        return beaufort(self.check.down_at_m_s)


@dataclass(frozen=True)
class PaceRow:
    """How fast one kind of light may go in a setup, held against the planned pace. Times in seconds.

    `frame_every_s` is the planned pace of a burst, `frames` how many are taken in one go at most; None where not said.
    `heat_frames` is infinite where it sheds as much heat as it gets, None where the bag says nothing.
    """

    lamp: Lamp
    letters: tuple[str, ...]
    recycle_s: float
    recycle_between: Between
    frame_every_s: float | None
    heat_frames: float | None
    heat_between: Between | None
    frames: int | None
    because: tuple[Step, ...]

    @property
    def is_too_fast(self) -> bool:
        return self.frame_every_s is not None and self.frame_every_s < self.recycle_s - 1e-9

    @property
    def may_be_too_fast(self) -> bool:
        """Whether a low or cold battery would not keep up, where a good one does."""
        if self.frame_every_s is None or self.is_too_fast:
            return False
        return self.frame_every_s < self.recycle_between.high - 1e-9

    @property
    def gets_too_hot(self) -> bool:
        """Whether a planned burst runs into the heat; without a planned pace there is none."""
        if self.heat_frames is None or self.frames is None or self.frame_every_s is None:
            return False
        return self.frames > self.heat_frames

    @property
    def may_get_too_hot(self) -> bool:
        if self.heat_between is None or self.frames is None or self.frame_every_s is None or self.gets_too_hot:
            return False
        return self.frames > self.heat_between.low

    @property
    def is_a_concern(self) -> bool:
        return self.is_too_fast or self.gets_too_hot

    @property
    def bears_any_number(self) -> bool:
        return self.heat_frames is not None and math.isinf(self.heat_frames)


@dataclass(frozen=True)
class BatteryRow:
    """Lights of one setup that share a kind of battery: what the planned frames take of the charge that is packed.

    `charge` is None where the bag or the plan does not say enough. `each_gives` counts flashes of one battery at the
    strongest power among them.
    """

    battery: Battery | None
    lamps: tuple[Lamp, ...]
    letters: tuple[str, ...]
    packed: int | None
    frames: int | None
    charge: DayCharge | None
    each_gives: float | None
    each_between: Between | None
    cold: float
    paces: tuple[PaceRow, ...]
    because: tuple[Step, ...]

    @property
    def full_pops_known(self) -> bool:
        return all(lamp.full_pops for lamp in self.lamps)

    @property
    def unsaid_lamp(self) -> Lamp:
        """The light whose page of the bag misses something."""
        return next((lamp for lamp in self.lamps if not lamp.full_pops), self.lamps[0])

    @property
    def share(self) -> float | None:
        """What the planned frames take of what is packed. [1]"""
        if self.charge is None:
            return None
        return self.charge.taken / self.charge.usable if self.charge.usable > 0.0 else math.inf

    @property
    def share_percent(self) -> int:
        return _percent(self.share)

    @property
    def share_low_percent(self) -> int:
        return _percent(self.charge.between.low / self.charge.usable if self.charge and self.charge.usable else None)

    @property
    def share_high_percent(self) -> int:
        return _percent(self.charge.between.high / self.charge.usable if self.charge and self.charge.usable else None)


def _percent(share: float | None) -> int:
    return 0 if share is None or not math.isfinite(share) else round(100 * share)


def wind_rows(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]]) -> tuple[WindRow, ...]:
    """Return the lights and panels on stands, the first to come down first. No query."""
    gust = setup.gust_m_s
    found = []
    for name, placed in lamps:
        if placed.stand is None:
            continue
        light = placed_light(name, placed)
        if light.modifier is not None and light.modifier.wind_area_m2 is None and light.modifier.area_m2 <= 0.0:
            light = replace(light, modifier=None)
        try:
            check = check_wind(light, gust or 0.0)
        except OutOfRange:
            continue
        if check is not None:
            found.append(WindRow(name, check, gust is not None))
    for number, panel in numbered(list(setup.panels.all())):
        with contextlib.suppress(OutOfRange):
            # What lies overhead is held at both ends.
            held = check_panel(
                placed_panel(number, panel), 2 if abs(panel.tilt_deg or 0.0) > LYING_DEG else 1, gust or 0.0
            )
            if held is not None:
                found.append(WindRow(number, held, gust is not None))
    return tuple(sorted(found, key=lambda row: (row.check.down_at_m_s, row.letter)))


def packed_of(lamp: Lamp) -> int | None:
    """Return how many batteries of its kind the bag has for a light, None where it names none. No query if its battery
    was selected with it."""
    battery = lamp.battery
    if battery is None:
        return None
    return 0 if battery.put_away_at is not None else battery.quantity


def on_batteries(lamps: Sequence[tuple[str, PlacedLamp]]) -> dict[str, list[tuple[str, PlacedLamp]]]:
    """Return the flash heads that need no mains by the battery that they share; one that names none stands alone."""
    kinds: dict[str, list[tuple[str, PlacedLamp]]] = {}
    for name, placed in lamps:
        lamp = placed.lamp
        if lamp.kind == LampKind.FLASH and not lamp.needs_mains:
            key = f"battery-{lamp.battery_id}" if lamp.battery_id else f"lamp-{lamp.pk}"
            kinds.setdefault(key, []).append((name, placed))
    return kinds


def use_of(setup: Setup, name: str, placed: PlacedLamp, frames: float) -> Use | None:
    """Return what a light takes for so many frames of a setup; None where the bag does not say what a battery gives."""
    if not placed.lamp.full_pops:
        return None
    return Use(
        frames=float(frames),
        power=2.0**-placed.power_down_stops,
        full_pops=float(placed.lamp.full_pops),
        heads=placed.heads,
        pops=placed.pops,
        air_c=air_of(setup),
        setup=setup.name,
        light=name,
    )


def air_of(setup: Setup) -> float:
    """Return the planned temperature, that of a room where none is planned. [°C]"""
    return ROOM_C if setup.air_c is None else setup.air_c


def battery_rows(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]]) -> tuple[BatteryRow, ...]:
    """Return the flash heads on batteries by the kind that they share, in the order of their first letters. No query.

    Lights, their heads and batteries come with the setup; see `pages.setups_to_show`.
    """
    return tuple(_battery_row(setup, group) for group in on_batteries(lamps).values())


def _battery_row(setup: Setup, group: list[tuple[str, PlacedLamp]]) -> BatteryRow:
    kinds = {placed.lamp_id: placed.lamp for _name, placed in group}
    lamps, first = tuple(kinds.values()), group[0][1].lamp
    packed, air = packed_of(first), air_of(setup)
    found = [use_of(setup, name, placed, setup.frames or 0) for name, placed in group]
    uses = [use for use in found if use is not None]
    charge, steps, each, between = None, [], None, None
    if uses and len(uses) == len(found):
        if setup.frames and packed is not None:
            charge = day_charge(uses, packed)
            steps = list(charge.because)
        else:
            steps = [charge_step(one, air) for one in dict.fromkeys(use.full_pops for use in uses)]
        strongest = max(uses, key=lambda use: use.power / use.full_pops)
        one = charge_between(strongest.full_pops, air)
        each = strongest.full_pops * cold_share(air) / strongest.power
        between = Between(one.low / strongest.power, one.high / strongest.power)
    paces = tuple(
        pace_row(setup, lamp, [(name, placed) for name, placed in group if placed.lamp_id == lamp.pk]) for lamp in lamps
    )
    return BatteryRow(
        battery=first.battery,
        lamps=lamps,
        letters=tuple(name for name, _placed in group),
        packed=packed,
        frames=setup.frames,
        charge=charge,
        each_gives=each,
        each_between=between,
        cold=cold_share(air),
        paces=paces,
        because=(*steps, *(step for pace in paces for step in pace.because)),
    )


def pace_row(setup: Setup, lamp: Lamp, group: Sequence[tuple[str, PlacedLamp]]) -> PaceRow:
    """Return how fast lights of one kind may go in a setup: they wait for their strongest. No query."""
    strongest = max(2.0**-placed.power_down_stops for _name, placed in group)
    recycle = recycle_time(lamp.recycle_full_s, LEAST_RECYCLE_S, strongest)
    slow = Doubt("recycling", recycle * FASTER, recycle, recycle * SLOWER, "s", "battery low or cold: common practice")
    between = Between(slow.low, slow.high)
    steps = [
        RECYCLE.step(
            recycle,
            ("full_recycling_s", lamp.recycle_full_s, "s"),
            ("power", strongest, "1"),
            ("least_s", LEAST_RECYCLE_S, "s"),
        ).within(between, (slow,))
    ]
    heat, heat_between = None, None
    if lamp.heat_pops:
        wait = max(recycle, setup.frame_every_s or 0.0)
        limit = HeatLimit(float(lamp.heat_pops), lamp.cools_pops_per_min or 0.0)
        heat = pops_until_heat(limit, strongest, wait)
        if math.isfinite(heat):
            off = Doubt("heat", 1 - HEAT_OFF, 1.0, 1 + HEAT_OFF, "1", "own model and estimate; earlier in hot weather")
            heat_between = Between(heat * off.low, heat * off.high)
            steps.append(
                HEAT.step(
                    heat,
                    ("full_flashes", limit.full_pops, "1"),
                    ("power", strongest, "1"),
                    ("cooling_per_min", limit.cools_full_pops_per_min, "1/min"),
                    ("wait_s", wait, "s"),
                ).within(heat_between, (off,))
            )
    return PaceRow(
        lamp=lamp,
        letters=tuple(name for name, _placed in group),
        recycle_s=recycle,
        recycle_between=between,
        frame_every_s=setup.frame_every_s,
        heat_frames=heat,
        heat_between=heat_between,
        frames=setup.frames,
        because=tuple(steps),
    )
