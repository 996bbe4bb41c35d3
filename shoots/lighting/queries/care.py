"""What a setup asks of stands and batteries: at which wind a light comes down, and whether the frames fit the charge.

Estimates for planning, no certificates: people's safety on site, local rules and the makers' limits come first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shoots.kit.core.lamps import LampKind
from shoots.kit.models import Lamp
from shoots.lighting.core.battery import (
    BatteryPlan,
    HeatLimit,
    battery_plan,
    cold_share,
    pops_per_charge,
    pops_until_heat,
    recycle_time,
)
from shoots.lighting.core.safety import WindCheck, check_wind
from shoots.lighting.models import PlacedLamp, Setup
from shoots.lighting.queries.rows import placed_light
from shoots.values.steps import Formula, Step
from shoots.values.units import OutOfRange

LEAST_RECYCLE_S = 0.05
"""Between two pops at any power; own estimate. [s]"""
ROOM_C = 20.0
"""Taken where no temperature is planned. [°C]"""
RESERVE = 0.2
"""Kept for tests and ageing; common practice, no source. [1]"""

NEEDED = Formula("full_flashes_needed", "Σ flashes · power", "1", "Energy drawn in proportion to light: practice")
PACKED = Formula(
    "full_flashes_packed",
    "batteries · full flashes each · share in the cold · (1 − reserve)",
    "1",
    "Lithium-ion cells in the cold and the reserve: common practice, no source; own numbers count more",
)
RECYCLE = Formula("recycling", "t = t_full · p + t_least", "s", "Charging at constant power: practice")
HEAT = Formula(
    "flashes_until_heat",
    "n = n_full / (p − cooling · wait / 60 s)",
    "1",
    "Heat in proportion to energy, shed at a constant rate: own model; the two numbers come from the maker",
)


@dataclass(frozen=True)
class WindRow:
    """A light on a stand in the wind. `gust_known` is False where nobody has written the forecast down."""

    letter: str
    check: WindCheck
    gust_known: bool


@dataclass(frozen=True)
class BatteryRow:
    """One kind of light on batteries: what the plan takes of the charge that is packed, and how fast it can go.

    `share` is what the planned frames take of what is packed. [1]
    """

    lamp: Lamp
    batteries: int | None
    full_pops: int | None
    letters: tuple[str, ...]
    frames: int | None
    plan: BatteryPlan | None
    share: float | None
    each_gives: float | None
    cold: float
    recycle_s: float
    too_fast: bool
    heat_frames: float | None
    gets_too_hot: bool
    because: tuple[Step, ...]

    @property
    def spare_batteries(self) -> int | None:
        """How many batteries are left over, or missing where negative."""
        if self.plan is None or self.batteries is None:
            return None
        return self.batteries - self.plan.batteries_needed

    @property
    def missing_batteries(self) -> int:
        return max(0, -(self.spare_batteries or 0))

    @property
    def share_percent(self) -> int:
        return 0 if self.share is None or not math.isfinite(self.share) else round(100 * self.share)


def wind_rows(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]]) -> tuple[WindRow, ...]:
    """Return the lights on stands, the first to come down first. No query."""
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
    return tuple(sorted(found, key=lambda row: (row.check.limit.take_down_at_m_s, row.letter)))


def packed_of(lamp: Lamp) -> int | None:
    """Return how many batteries of its kind the bag has for a light, None where it names none. No query if its battery
    was selected with it."""
    battery = lamp.battery
    if battery is None:
        return None
    return 0 if battery.put_away_at is not None else battery.quantity


def battery_rows(setup: Setup, lamps: Sequence[tuple[str, PlacedLamp]]) -> tuple[BatteryRow, ...]:
    """Return the kinds of flash heads on batteries, in the order of their first letters. No query."""
    kinds: dict[int, list[tuple[str, PlacedLamp]]] = {}
    for name, placed in lamps:
        if placed.lamp.kind == LampKind.FLASH and not placed.lamp.needs_mains:
            kinds.setdefault(placed.lamp_id, []).append((name, placed))
    return tuple(_battery_row(setup, group) for group in kinds.values())


def _battery_row(setup: Setup, group: list[tuple[str, PlacedLamp]]) -> BatteryRow:
    lamp = group[0][1].lamp
    batteries = packed_of(lamp)
    full_pops = lamp.full_pops
    powers = [2.0**-placed.power_down_stops for _name, placed in group]
    strongest = max(powers)
    # Heads side by side and several pops in one frame each take their own charge.
    frames = [
        (float((setup.frames or 0) * placed.heads * placed.pops), power)
        for (_name, placed), power in zip(group, powers, strict=True)
    ]
    air = ROOM_C if setup.air_c is None else setup.air_c
    cold = cold_share(air)
    steps: list[Step] = []
    plan, share = None, None
    if setup.frames and full_pops and batteries is not None:
        plan = battery_plan(frames, float(full_pops), batteries, air, RESERVE)
        packed = plan.packed_full_pops
        share = plan.needed_full_pops / packed if packed > 0.0 else math.inf
        heads = tuple(
            (f"light_{name}_flashes_at_{power:.3g}", count, "1")
            for (name, _placed), (count, power) in zip(group, frames, strict=True)
        )
        steps += [
            NEEDED.step(plan.needed_full_pops, *heads),
            PACKED.step(
                packed,
                ("batteries", batteries, "1"),
                ("full_flashes_each", full_pops, "1"),
                ("air", air, "°C"),
                ("share_in_the_cold", cold, "1"),
                ("reserve", RESERVE, "1"),
            ),
        ]
    recycle = recycle_time(lamp.recycle_full_s, LEAST_RECYCLE_S, strongest)
    steps.append(
        RECYCLE.step(
            recycle,
            ("full_recycling_s", lamp.recycle_full_s, "s"),
            ("power", strongest, "1"),
            ("least_s", LEAST_RECYCLE_S, "s"),
        )
    )
    wait = max(recycle, setup.frame_every_s or 0.0)
    heat = None
    if lamp.heat_pops:
        limit = HeatLimit(float(lamp.heat_pops), lamp.cools_pops_per_min or 0.0)
        heat = pops_until_heat(limit, strongest, wait)
        if math.isfinite(heat):
            steps.append(
                HEAT.step(
                    heat,
                    ("full_flashes", limit.full_pops, "1"),
                    ("power", strongest, "1"),
                    ("cooling_per_min", limit.cools_full_pops_per_min, "1/min"),
                    ("wait_s", wait, "s"),
                )
            )
    return BatteryRow(
        lamp=lamp,
        batteries=batteries,
        full_pops=full_pops,
        letters=tuple(name for name, _placed in group),
        frames=setup.frames,
        plan=plan,
        share=share,
        each_gives=pops_per_charge(float(full_pops), strongest) * cold if full_pops else None,
        cold=cold,
        recycle_s=recycle,
        too_fast=setup.frame_every_s is not None and setup.frame_every_s < recycle - 1e-9,
        heat_frames=heat,
        gets_too_hot=heat is not None and setup.frames is not None and setup.frames > heat,
        because=tuple(steps),
    )
