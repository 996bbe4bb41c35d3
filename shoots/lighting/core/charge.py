"""A day's batteries: what the frames of every setup take from the batteries that lights share, how sure that is, where
it runs out, and what would help.

Charge is counted in batteries: a pop at a power takes that share of the full pops which one battery gives its light.
What cold takes is counted where it is cold, so that a warm setup pays nothing for a frosty one. What a light draws
while it waits, and charging between setups, are not counted.

References
----------
`shoots.lighting.core.battery` for pops, power and cold. Ageing to 80 % of the new charge, and the other ranges:
common practice or own estimates, no source. The range of a charge takes every doubt at its worst together (interval
arithmetic), because old cells, an optimistic figure and cold do come together.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from shoots.lighting.core.battery import BATTERIES, CELSIUS, POPS, POWER, RESERVE, cold_share
from shoots.values.spread import Between, Doubt
from shoots.values.steps import Formula, Step
from shoots.values.units import Range

FULL_POPS = Range(0.0, 1e6, "1", above=True)
HEADS = Range(1.0, 1000.0, "1")

USUAL_RESERVE = 0.2
"""Kept for tests and ageing; common practice, no source. [1]"""
AGED = 0.8
"""What an old battery still holds of its new charge; common practice, no source. [1]"""
STATED = 0.1
"""How far a stated number of pops may lie off; own estimate. [1]"""
WARMER_C = 3.0
"""How far the batteries may be from the planned temperature of the air; own estimate. [°C]"""
COLD_LOSS = 0.5
"""How far the loss in the cold may lie off, as a share of that loss; own estimate. [1]"""

CHARGE = Formula(
    "full_flashes_of_one_charge",
    "full flashes · share in the cold",
    "1",
    "Lithium-ion cells in the cold: common practice, no source; own numbers count more",
)
TAKEN = Formula(
    "batteries_taken",
    "Σ frames · heads · pops · power / (full flashes · share in the cold)",
    "batteries",
    "Energy drawn in proportion to light: practice",
)
USABLE = Formula(
    "batteries_usable", "batteries · (1 − reserve)", "batteries", "Reserve for tests and ageing: common practice"
)


def _cold(air_c: float, times: float) -> float:
    """Return the share that cold leaves when the loss is so many times as large."""
    return max(0.05, 1.0 - times * (1.0 - cold_share(air_c)))


def charge_between(full_pops: float, air_c: float = 20.0) -> Between:
    """Return in which range the full pops of one charge lie.

    Parameters
    ----------
    full_pops : float
        Pops at full power from one new battery at 20 °C, above 0. [1]
    air_c : float
        Planned temperature of the batteries, -60 to 60. [°C]

    Returns
    -------
    Between
        From an old, cold battery with an optimistic figure to a new one with a modest figure. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module: interval arithmetic.

    Examples
    --------
    >>> found = charge_between(400.0, 20.0)
    >>> round(found.low), round(found.high)
    (278, 440)
    """
    FULL_POPS.check("full_pops", full_pops)
    CELSIUS.check("air_c", air_c)
    coldest = max(CELSIUS.low, air_c - WARMER_C)
    warmest = min(CELSIUS.high, air_c + WARMER_C)
    return Between(
        full_pops * AGED * (1.0 - STATED) * _cold(coldest, 1.0 + COLD_LOSS),
        full_pops * (1.0 + STATED) * _cold(warmest, 1.0 - COLD_LOSS),
    )


def charge_step(full_pops: float, air_c: float = 20.0) -> Step:
    """Return how many full pops one charge gives, with the range and what it comes from.

    Parameters
    ----------
    full_pops : float
        Pops at full power from one new battery at 20 °C, above 0. [1]
    air_c : float
        Planned temperature of the batteries, -60 to 60. [°C]

    Returns
    -------
    Step
        Formula, inputs, result and range.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.
    """
    found, share = charge_between(full_pops, air_c), cold_share(air_c)
    coldest, warmest = max(CELSIUS.low, air_c - WARMER_C), min(CELSIUS.high, air_c + WARMER_C)
    doubts = (
        Doubt("charge_of_an_old_battery", AGED, 1.0, 1.0, "1", "ageing: common practice, no source"),
        Doubt(
            "full_flashes",
            full_pops * (1 - STATED),
            full_pops,
            full_pops * (1 + STATED),
            "1",
            "as the manual states it: own estimate",
        ),
        Doubt(
            "share_in_the_cold",
            _cold(coldest, 1.0 + COLD_LOSS),
            share,
            _cold(warmest, 1.0 - COLD_LOSS),
            "1",
            "3 °C to either side, and half the loss: own estimate",
        ),
    )
    step = CHARGE.step(
        full_pops * share, ("full_flashes", full_pops, "1"), ("air", air_c, "°C"), ("share_in_the_cold", share, "1")
    )
    return step.within(found, doubts)


@dataclass(frozen=True, slots=True)
class Use:
    """What one light of one setup takes from the batteries that it shares.

    Attributes
    ----------
    frames : float
        Planned frames with this light, at least 0. [1]
    power : float
        Share of full power, above 0 up to 1. [1]
    full_pops : float
        Pops at full power that one new battery gives this light at 20 °C, above 0. [1]
    heads : int
        Heads side by side, each with a battery of its own, at least 1.
    pops : int
        Pops in one frame, at least 1.
    air_c : float
        Temperature of the batteries there. [°C]
    setup : str
        Which setup, so that lights of one are used at the same time.
    light : str
        Its letter, for the workings.
    """

    frames: float
    power: float
    full_pops: float
    heads: int = 1
    pops: int = 1
    air_c: float = 20.0
    setup: str = ""
    light: str = ""

    def __post_init__(self) -> None:
        POPS.check("frames", self.frames)
        POWER.check("power", self.power)
        FULL_POPS.check("full_pops", self.full_pops)
        HEADS.check("heads", self.heads)
        HEADS.check("pops", self.pops)
        CELSIUS.check("air_c", self.air_c)

    @property
    def full(self) -> float:
        """What it takes in pops at full power. [1]"""
        return self.frames * self.heads * self.pops * self.power

    @property
    def batteries(self) -> float:
        """What it takes in new batteries at the planned temperature. [1]"""
        return self.full / (self.full_pops * cold_share(self.air_c))

    @property
    def between(self) -> Between:
        """In which range that lies: fewest with new batteries, most with old ones. [1]"""
        one = charge_between(self.full_pops, self.air_c)
        return Between(self.full / one.high, self.full / one.low)


@dataclass(frozen=True, slots=True)
class SetupCharge:
    """What one setup takes, in the order of the day.

    Attributes
    ----------
    setup : str
        Which setup.
    batteries : float
        What it takes, in batteries. [1]
    left : float
        What is left of the usable charge after it; below 0 it has run out. [1]
    runs_out_at : float or None
        After which share of its frames the usable charge is gone; None where it lasts. [1]
    """

    setup: str
    batteries: float
    left: float
    runs_out_at: float | None


@dataclass(frozen=True, slots=True)
class DayCharge:
    """Whether a day's frames fit the batteries that lights share.

    Attributes
    ----------
    taken : float
        What all setups take, in batteries. [1]
    between : Between
        In which range that lies. [1]
    usable : float
        What is packed less the reserve, in batteries. [1]
    lasts : bool
        True when the charge lasts and the reserve stays untouched.
    surely_lasts : bool
        True when it also lasts with old batteries, with the reserve used up.
    at_once : int
        Heads of one setup that each need a battery at the same time.
    needed : int
        Least number of batteries: for the charge, and one for each head at once.
    more : int
        How many more than are packed; 0 when there are enough.
    power_down_stops : float or None
        By how much lower power makes it last, up to the next third; None where it lasts or nothing is packed. [stop]
    setups : tuple[SetupCharge, ...]
        In the order in which they were given.
    because : tuple[Step, ...]
        How it came about.
    """

    taken: float
    between: Between
    usable: float
    lasts: bool
    surely_lasts: bool
    at_once: int
    needed: int
    more: int
    power_down_stops: float | None
    setups: tuple[SetupCharge, ...]
    because: tuple[Step, ...]

    @property
    def fits(self) -> bool:
        """Whether the charge lasts and every head has a battery."""
        return self.more == 0

    @property
    def left(self) -> float:
        """What is left of the usable charge in the evening; below 0 where it does not last. [1]"""
        return self.usable - self.taken


def day_charge(uses: Sequence[Use], batteries: int, reserve: float = USUAL_RESERVE) -> DayCharge:
    """Return whether a day's frames fit the batteries that some lights share.

    Parameters
    ----------
    uses : Sequence[Use]
        Every light that takes this kind of battery, in the order of the day; lights of one setup follow one
        another.
    batteries : int
        Charged batteries packed, at least 0.
    reserve : float
        Share kept for tests and ageing, 0 to 0.9. [1]

    Returns
    -------
    DayCharge
        Taken against usable, setup by setup. Batteries are taken to be swapped between heads as they run down.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> first = Use(frames=300, power=0.5, full_pops=400.0, setup="first")
    >>> second = Use(frames=200, power=1.0, full_pops=400.0, setup="second")
    >>> found = day_charge([first, second], 1)
    >>> round(found.taken, 3), found.fits, found.needed, round(found.setups[0].left, 3)
    (0.875, False, 2, 0.425)
    """
    BATTERIES.check("batteries", batteries)
    RESERVE.check("reserve", reserve)
    usable = batteries * (1.0 - reserve)
    groups = [(name, list(group)) for name, group in itertools.groupby(uses, key=lambda use: use.setup)]
    left, rows = usable, []
    for name, group in groups:
        takes = math.fsum(use.batteries for use in group)
        runs_out = max(0.0, left) / takes if takes > max(0.0, left) + 1e-9 else None
        left -= takes
        rows.append(SetupCharge(name, takes, left, runs_out))
    taken = math.fsum(use.batteries for use in uses)
    between = Between(math.fsum(use.between.low for use in uses), math.fsum(use.between.high for use in uses))
    lasts = taken <= usable + 1e-9
    at_once = max((sum(use.heads for use in group if use.frames > 0.0) for _name, group in groups), default=0)
    needed = max(math.ceil(taken / (1.0 - reserve) - 1e-9), at_once)
    down = None
    if not lasts and usable > 0.0:
        down = math.ceil(3.0 * math.log2(taken / usable) - 1e-9) / 3.0
    return DayCharge(
        taken=taken,
        between=between,
        usable=usable,
        lasts=lasts,
        surely_lasts=lasts and between.high <= batteries + 1e-9,
        at_once=at_once,
        needed=needed,
        more=max(0, needed - batteries),
        power_down_stops=down,
        setups=tuple(rows),
        because=_steps(uses, batteries, reserve, taken, between, usable),
    )


def _steps(
    uses: Sequence[Use], batteries: int, reserve: float, taken: float, between: Between, usable: float
) -> tuple[Step, ...]:
    charges = {(use.full_pops, use.air_c): charge_step(use.full_pops, use.air_c) for use in uses}
    full = tuple((f"{use.setup} {use.light} full flashes".strip(), use.full, "1") for use in uses)
    total = TAKEN.step(taken, *full)
    doubts = tuple(dict.fromkeys(one for step in charges.values() for one in step.doubts))
    used = USABLE.step(usable, ("batteries", float(batteries), "1"), ("reserve", reserve, "1"))
    return (*charges.values(), total.within(between, doubts), used)
