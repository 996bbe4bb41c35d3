"""Batteries and recycling: pops per charge, the wait between pops, cold, heat, and whether a plan fits what
is packed.

References
----------
ISO 2827:1988 lists recycling time and number of flashes as test items (scope read); the rules themselves
are common practice or derived: losses in proportion, charging at constant power.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from shoots.values.units import Range

POWER = Range(0.0, 1.0, "1", above=True)
POPS = Range(0.0, 1e7, "1")
ENERGY = Range(0.0, 1e6, "Ws", above=True)
EFFICIENCY = Range(0.0, 1.0, "1", above=True)
CHARGE = Range(0.0, 1e6, "Wh")
STANDBY = Range(0.0, 1e5, "W")
TIME = Range(0.0, 1e7, "s")
BATTERIES = Range(0.0, 1e4, "1")
ONE_OR_MORE = Range(1.0, 1e6, "1")
WAIT = Range(0.0, 1e7, "s", above=True)
AT_LEAST_SOME = Range(0.0, 1e7, "1", above=True)
RESERVE = Range(0.0, 0.9, "1")
CELSIUS = Range(-60.0, 60.0, "°C")

_COLD = ((-20.0, 0.50), (-10.0, 0.65), (0.0, 0.80), (10.0, 0.92), (20.0, 1.0))
"""Air temperature [°C] and share of the charge that lithium-ion cells still give; common practice, no
source. [1]"""


def pops_per_charge(full_pops: float, power: float) -> float:
    """Return how many pops of a power one charge gives, as long as losses stay in proportion.

    Parameters
    ----------
    full_pops : float
        Pops at full power, 0 to 1e7. [1]
    power : float
        Share of full power, above 0 up to 1. [1]

    Returns
    -------
    float
        n/p; real packs give fewer at very low power because they also stand by. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Practice: energy drawn in proportion to light.

    Examples
    --------
    >>> pops_per_charge(450.0, 0.25)
    1800.0
    """
    POPS.check("full_pops", full_pops)
    POWER.check("power", power)
    return full_pops / power


def full_pops_used(frames: Sequence[tuple[float, float]]) -> float:
    """Return what planned frames take from a battery, in pops at full power.

    Parameters
    ----------
    frames : Sequence[tuple[float, float]]
        Number of pops and share of full power for each kind. [1]

    Returns
    -------
    float
        Σ n·p. [1]

    Raises
    ------
    OutOfRange
        If a number is outside its range.

    References
    ----------
    Practice: energy drawn in proportion to light.

    Examples
    --------
    >>> full_pops_used([(300, 0.5), (200, 0.125), (40, 1.0)])
    215.0
    """
    for count, power in frames:
        POPS.check("frames", count)
        POWER.check("frames", power)
    return math.fsum(count * power for count, power in frames)


def battery_energy(energy_ws: float, full_pops: float, efficiency: float) -> float:
    """Return the energy of a battery from the pops it gives.

    Parameters
    ----------
    energy_ws : float
        Stored energy of a full pop, greater than 0. [Ws]
    full_pops : float
        Pops at full power, 0 to 1e7. [1]
    efficiency : float
        Stored over drawn energy, above 0 up to 1. [1]

    Returns
    -------
    float
        n·W/η. [Wh]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Physics: energy is kept; 1 Wh is 3600 Ws.

    Examples
    --------
    >>> round(battery_energy(500.0, 450.0, 0.85), 1)
    73.5
    """
    ENERGY.check("energy_ws", energy_ws)
    POPS.check("full_pops", full_pops)
    EFFICIENCY.check("efficiency", efficiency)
    return full_pops * energy_ws / efficiency / 3600.0


def pops_with_standby(
    charge_wh: float, energy_ws: float, power: float, efficiency: float, standby_w: float, on_s: float
) -> int:
    """Return how many pops a charge gives when the light also stands by.

    Parameters
    ----------
    charge_wh : float
        Energy of the battery, 0 to 1e6. [Wh]
    energy_ws : float
        Stored energy of a full pop, greater than 0. [Ws]
    power : float
        Share of full power, above 0 up to 1. [1]
    efficiency : float
        Stored over drawn energy, above 0 up to 1. [1]
    standby_w : float
        Power drawn all the time, at least 0. [W]
    on_s : float
        For how long it is switched on, at least 0. [s]

    Returns
    -------
    int
        0 when standing by alone empties it.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Physics: E = n·W·p/η + P₀·t.

    Examples
    --------
    >>> pops_with_standby(60.0, 200.0, 0.25, 0.8, 4.0, 7200.0)
    2995
    """
    CHARGE.check("charge_wh", charge_wh)
    ENERGY.check("energy_ws", energy_ws)
    POWER.check("power", power)
    EFFICIENCY.check("efficiency", efficiency)
    STANDBY.check("standby_w", standby_w)
    TIME.check("on_s", on_s)
    left = 3600.0 * charge_wh - standby_w * on_s
    # A whole number of pops that is exact on paper must not lose one to rounding.
    return max(0, math.floor(left * efficiency / (energy_ws * power) + 1e-9))


def recycle_time(full_s: float, least_s: float, power: float) -> float:
    """Return the wait between two pops.

    Parameters
    ----------
    full_s : float
        What charging takes at full power, at least 0. [s]
    least_s : float
        What it takes at any power, at least 0. [s]
    power : float
        Share of full power, above 0 up to 1. [1]

    Returns
    -------
    float
        t·p + t₀. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Practice: charging at constant power.

    Examples
    --------
    >>> recycle_time(1.2, 0.05, 0.5)
    0.65
    """
    TIME.check("full_s", full_s)
    TIME.check("least_s", least_s)
    POWER.check("power", power)
    return full_s * power + least_s


def multi_pop_time(pops: int, recycle_s: float) -> float:
    """Return how long several pops in one exposure take.

    Parameters
    ----------
    pops : int
        Number of pops, at least 1.
    recycle_s : float
        Wait between two, at least 0. [s]

    Returns
    -------
    float
        (k - 1)·t; the shutter has to stay open at least that long. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Derived.

    Examples
    --------
    >>> round(multi_pop_time(8, 0.65), 2)
    4.55
    """
    ONE_OR_MORE.check("pops", pops)
    TIME.check("recycle_s", recycle_s)
    return (pops - 1) * recycle_s


def frames_in(slot_s: float, recycle_s: float, frame_s: float) -> int:
    """Return how many frames fit into a stretch of time.

    Parameters
    ----------
    slot_s : float
        The stretch, at least 0. [s]
    recycle_s : float
        Wait between two pops, at least 0. [s]
    frame_s : float
        Wait between two frames for other reasons, at least 0; not both may be 0. [s]

    Returns
    -------
    int
        The first one at once, then one for each longest wait.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Derived.

    Examples
    --------
    >>> frames_in(10.0, 1.25, 0.2)
    9
    """
    TIME.check("slot_s", slot_s)
    TIME.check("recycle_s", recycle_s)
    TIME.check("frame_s", frame_s)
    wait = max(recycle_s, frame_s)
    WAIT.check("recycle_s and frame_s", wait)
    return math.floor(slot_s / wait + 1e-9) + 1


def cold_share(air_c: float) -> float:
    """Return what cold leaves of a battery's charge.

    Parameters
    ----------
    air_c : float
        Temperature of the battery, -60 to 60. [°C]

    Returns
    -------
    float
        Even between -20 °C (0.5) and 20 °C (1), level outside. [1]

    Raises
    ------
    OutOfRange
        If ``air_c`` is outside its range.

    References
    ----------
    Lithium-ion cells: common practice, no source; the studio may type its own.

    Examples
    --------
    >>> cold_share(0.0)
    0.8
    """
    CELSIUS.check("air_c", air_c)
    if air_c <= _COLD[0][0]:
        return _COLD[0][1]
    for (colder, low), (warmer, high) in itertools.pairwise(_COLD):
        if air_c <= warmer:
            return low + (high - low) * (air_c - colder) / (warmer - colder)
    return 1.0


@dataclass(frozen=True, slots=True)
class HeatLimit:
    """How fast bursts may be before a light cuts out.

    Attributes
    ----------
    full_pops : float
        Pops at full power, one right after the other, until it cuts out. [1]
    cools_full_pops_per_min : float
        What it sheds meanwhile, in full pops. [1/min]
    """

    full_pops: float
    cools_full_pops_per_min: float

    def __post_init__(self) -> None:
        POPS.check("full_pops", self.full_pops)
        POPS.check("cools_full_pops_per_min", self.cools_full_pops_per_min)


def pops_until_heat(limit: HeatLimit, power: float, wait_s: float) -> float:
    """Return how many pops at a rhythm a light bears before it cuts out for heat.

    Parameters
    ----------
    limit : HeatLimit
        What the light bears.
    power : float
        Share of full power, above 0 up to 1. [1]
    wait_s : float
        From one pop to the next, at least 0. [s]

    Returns
    -------
    float
        Infinite when it sheds as much as it gets. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Heat in proportion to energy, shed at a constant rate: own model; the two numbers come from the maker.

    Examples
    --------
    >>> pops_until_heat(HeatLimit(60.0, 20.0), 1.0, 1.5)
    120.0
    """
    POWER.check("power", power)
    TIME.check("wait_s", wait_s)
    gained = power - limit.cools_full_pops_per_min * wait_s / 60.0
    return limit.full_pops / gained if gained > 1e-12 else math.inf


@dataclass(frozen=True, slots=True)
class BatteryPlan:
    """Whether planned frames fit the batteries that are packed.

    Attributes
    ----------
    needed_full_pops, packed_full_pops : float
        In pops at full power. [1]
    batteries_needed : int
        Least number of batteries.
    fits : bool
        True when the packed ones are enough.
    """

    needed_full_pops: float
    packed_full_pops: float
    batteries_needed: int
    fits: bool


def battery_plan(
    frames: Sequence[tuple[float, float]],
    full_pops: float,
    batteries: int,
    air_c: float = 20.0,
    reserve: float = 0.2,
) -> BatteryPlan:
    """Return whether planned frames fit the batteries that are packed.

    Parameters
    ----------
    frames : Sequence[tuple[float, float]]
        Number of pops and share of full power for each kind. [1]
    full_pops : float
        Pops at full power from one battery, above 0. [1]
    batteries : int
        Charged batteries packed for this light, at least 0.
    air_c : float
        Temperature of the batteries, -60 to 60. [°C]
    reserve : float
        Share kept for tests and ageing, 0 to 0.9. [1]

    Returns
    -------
    BatteryPlan
        Needed against packed.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Derived from the functions above; the reserve is common practice, no source.

    Examples
    --------
    >>> battery_plan([(300, 0.5), (200, 0.125), (40, 1.0)], 400.0, 1).fits
    True
    """
    AT_LEAST_SOME.check("full_pops", full_pops)
    BATTERIES.check("batteries", batteries)
    RESERVE.check("reserve", reserve)
    needed = full_pops_used(frames)
    each = full_pops * cold_share(air_c) * (1.0 - reserve)
    return BatteryPlan(needed, each * batteries, math.ceil(needed / each - 1e-9), needed <= each * batteries + 1e-9)
