"""What one placed light gives: at the subject, elsewhere, in time, under a shutter.

References
----------
ISO 1230:2007 (guide number), ISO 2720:1974, ISO 2827:1988; the formulas stand in
`shoots.lighting.core.flash`, `sources` and `burst` with their sources.
"""

import itertools
import math
from dataclasses import dataclass
from enum import StrEnum

from shoots.kit.core.cameras import CameraSpec
from shoots.kit.core.lamps import HIGH_SPEED_SYNC_SPREAD_STOPS, Circuit, LampKind, LampSpec
from shoots.lighting.core.burst import (
    HIGH_SPEED_SYNC,
    VOLTAGE_SLOPE,
    burst_share,
    cut_off_time,
    edge_share,
    flash_duration,
    high_speed_sync_stops,
)
from shoots.lighting.core.conventions import Conventions
from shoots.lighting.core.flash import GUIDE_NUMBER_EXPOSURE
from shoots.lighting.core.setup import PlacedLight
from shoots.lighting.core.sources import NEAR_FIELD, distance_change_stops, finite_size_share, off_axis_share
from shoots.values.steps import Formula, Step
from shoots.values.units import Range

SHUTTER = Range(1e-7, 1e7, "s")
POWER = Range(0.0, 1.0, "1", above=True)
DISTANCE = Range(0.0, 1e4, "m", above=True)

PLACING_M = 0.05
"""How exactly a light is put where the plan has it; own estimate. [m]"""
SYNC_TOLERANCE_STOPS = 0.1
"""A sync time of 1/200 s means the mark, which is 1/203 s exactly. [stop]"""

CONTINUOUS_LIGHT = Formula("continuous_illuminance", "E = E₁ · (1 m / d)²", "lx", "Inverse-square law")
OUTPUT_STOPS = Formula(
    "output_stops",
    "ΔEV = modifier + gels + readings + log₂(p · pops · heads) + log₂(off axis) + log₂(open)",
    "stop",
    "Light is proportional to energy; derived",
)


class Sync(StrEnum):
    """How a flash and a shutter meet."""

    WHOLE = "WHOLE"
    """The flash falls into the time for which the whole frame is open."""
    HIGH_SPEED = "HIGH_SPEED"
    """It burns while the curtains run."""
    BAND = "BAND"
    """Part of the frame stays dark."""


@dataclass(frozen=True, slots=True)
class Tail:
    """The course of a flash.

    Attributes
    ----------
    decay_s : float
        Decay time τ. [s]
    cut_s : float
        When it is broken off; infinite if it is not. [s]
    t01_s : float
        Time above a tenth of the peak. [s]
    """

    decay_s: float
    cut_s: float
    t01_s: float


@dataclass(frozen=True, slots=True)
class Output:
    """What a light gives at a point, at its set power.

    Attributes
    ----------
    amount : float
        Luminous exposure of a flash [lx·s] or illuminance of a continuous light [lx].
    is_flash : bool
        Which of the two.
    spread_stops : float
        How far it may lie off, to either side. [stop]
    because : tuple[Step, ...]
        How it came about.
    """

    amount: float
    is_flash: bool
    spread_stops: float
    because: tuple[Step, ...]


def flash_tail(lamp: LampSpec, power: float) -> Tail:
    """Return how long a flash of a light lasts at a power.

    Parameters
    ----------
    lamp : LampSpec
        The light; its own table of durations goes before the rule of its circuit.
    power : float
        Share of full power, above 0 up to 1. [1]

    Returns
    -------
    Tail
        Decay, cut-off and t0.1.

    Raises
    ------
    OutOfRange
        If ``power`` is outside its range.

    References
    ----------
    ISO 2827:1988 (from memory); exponential discharge, own derivation; the table is read evenly in
    logarithms.

    Examples
    --------
    >>> lamp = LampSpec(guide_number_m=45.0, t01_full_s=0.004)
    >>> round(1000.0 * flash_tail(lamp, 0.5).t01_s, 2)
    1.2
    """
    POWER.check("power", power)
    if lamp.durations:
        t01 = _from_table(lamp.durations, power)
        return Tail(t01 / math.log(10.0), math.inf, t01)
    t01 = flash_duration(lamp.circuit, lamp.t01_full_s, power)
    full = lamp.t01_full_s / math.log(10.0)
    if lamp.circuit is Circuit.VOLTAGE:
        return Tail(full * power**-VOLTAGE_SLOPE, math.inf, t01)
    return Tail(full, cut_off_time(full, power), t01)


def _from_table(durations: tuple[tuple[float, float], ...], power: float) -> float:
    """Return t0.1 between the stated powers, evenly in logarithms, level beyond them."""
    points = sorted(durations)
    for (low, low_t), (high, high_t) in itertools.pairwise(points):
        if low <= power <= high:
            share = math.log(power / low) / math.log(high / low) if high > low else 0.0
            return float(low_t * (high_t / low_t) ** share)
    return points[0][1] if power < points[0][0] else points[-1][1]


def sync_of(light: PlacedLight, camera: CameraSpec, shutter_s: float) -> Sync:
    """Return how a light's flash and the camera's shutter meet.

    Parameters
    ----------
    light : PlacedLight
        The light; a continuous one always falls into the whole time.
    camera : CameraSpec
        The body; a leaf shutter (curtain time 0) meets at any time.
    shutter_s : float
        Exposure time, 1e-7 to 1e7. [s]

    Returns
    -------
    Sync
        Whole, high-speed or a dark band.

    Raises
    ------
    OutOfRange
        If ``shutter_s`` is outside its range.

    References
    ----------
    Sync times are trade data.
    """
    SHUTTER.check("shutter_s", shutter_s)
    if light.lamp.kind is LampKind.CONTINUOUS:
        return Sync.WHOLE
    if camera.electronic_s is not None:
        return Sync.WHOLE if shutter_s >= camera.electronic_s else Sync.BAND
    if camera.curtain_s == 0.0 or math.log2(shutter_s / camera.sync_s) >= -SYNC_TOLERANCE_STOPS:
        return Sync.WHOLE
    return Sync.HIGH_SPEED if light.high_speed_sync and light.lamp.has_high_speed_sync else Sync.BAND


def clipped_shares(light: PlacedLight, camera: CameraSpec, shutter_s: float) -> tuple[float, float]:
    """Return what the shutter leaves of a light at the two edges of the frame.

    Parameters
    ----------
    light : PlacedLight
        The light at its set power.
    camera : CameraSpec
        The body.
    shutter_s : float
        Exposure time, 1e-7 to 1e7. [s]

    Returns
    -------
    tuple[float, float]
        Share at the edge that is uncovered and covered first, and at the one that is last. [1]

    Raises
    ------
    OutOfRange
        If ``shutter_s`` is outside its range.

    References
    ----------
    `shoots.lighting.core.burst.edge_share`.
    """
    state = sync_of(light, camera, shutter_s)
    if light.lamp.kind is LampKind.CONTINUOUS or state is Sync.HIGH_SPEED:
        return 1.0, 1.0
    tail = flash_tail(light.lamp, light.power)
    run = camera.curtain_s if camera.electronic_s is None else camera.electronic_s
    if run == 0.0:
        caught = burst_share(shutter_s, tail.decay_s, tail.cut_s)
        return caught, caught
    first = edge_share(0.0, shutter_s, run, tail.decay_s, tail.cut_s)
    return first, edge_share(1.0, shutter_s, run, tail.decay_s, tail.cut_s)


def reference_amount(lamp: LampSpec, distance_m: float, conventions: Conventions) -> tuple[float, Step]:
    """Return what a light in its standard reflector gives at a distance, at full power, as a point.

    Parameters
    ----------
    lamp : LampSpec
        The light.
    distance_m : float
        Along the beam, above 0 up to 10,000. [m]
    conventions : Conventions
        Meter constant that the guide number was found with.

    Returns
    -------
    tuple[float, Step]
        Luminous exposure [lx·s] or illuminance [lx], and its step.

    Raises
    ------
    OutOfRange
        If ``distance_m`` is outside its range.

    References
    ----------
    ISO 1230:2007, ISO 2720:1974.

    Examples
    --------
    >>> from shoots.lighting.core.conventions import USUAL
    >>> reference_amount(LampSpec(guide_number_m=20.0), 2.0, USUAL)[0]
    250.0
    """
    DISTANCE.check("distance_m", distance_m)
    if lamp.kind is LampKind.CONTINUOUS:
        at_a_metre = lamp.illuminance_1m_lx or 0.0
        amount = at_a_metre / distance_m**2
        return amount, CONTINUOUS_LIGHT.step(
            amount, ("illuminance_1m_lx", at_a_metre, "lx"), ("distance_m", distance_m, "m")
        )
    guide = lamp.guide_number_m or 0.0
    amount = conventions.meter_constant * guide * guide / (100.0 * distance_m**2)
    return amount, GUIDE_NUMBER_EXPOSURE.step(
        amount,
        ("guide_number_m", guide, "m"),
        ("distance_m", distance_m, "m"),
        ("meter_constant", conventions.meter_constant, "lx·s"),
    )


def light_output(
    light: PlacedLight,
    distance_m: float,
    off_axis_deg: float,
    camera: CameraSpec,
    shutter_s: float,
    conventions: Conventions,
) -> Output:
    """Return what a light gives at a point, facing it.

    Parameters
    ----------
    light : PlacedLight
        The light with all that is on it.
    distance_m : float
        From its front to the point, above 0 up to 10,000. [m]
    off_axis_deg : float
        Between its axis and the direction to the point, -180 to 180. [°]
    camera : CameraSpec
        The body, for the cost of high-speed sync.
    shutter_s : float
        Exposure time, 1e-7 to 1e7. [s]
    conventions : Conventions
        Meter constant.

    Returns
    -------
    Output
        High-speed sync is counted; what a curtain cuts off near the sync time is not, see `clipped_shares`.
        0 when flags or the beam leave nothing.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.
    """
    far, far_step = reference_amount(light.lamp, distance_m, conventions)
    near = finite_size_share(light.front, distance_m)
    aside = off_axis_share(off_axis_deg, light.beam_deg)
    gels = math.fsum(gel.stops for gel in light.gels)
    readings = light.factor.stops if light.factor else 0.0
    count = light.power * light.pops * light.heads
    left = count * aside * light.open_share
    stops = light.modifier_stops + gels + readings
    steps = [
        far_step,
        NEAR_FIELD.step(near, ("front_m", light.front.largest_m, "m"), ("distance_m", distance_m, "m")),
    ]
    if left > 0.0:
        steps.append(
            OUTPUT_STOPS.step(
                stops + math.log2(left),
                ("modifier_stops", light.modifier_stops, "stop"),
                ("gel_stops", gels, "stop"),
                ("reading_stops", readings, "stop"),
                ("power", light.power, "1"),
                ("pops", float(light.pops), "1"),
                ("heads", float(light.heads), "1"),
                ("off_axis_share", aside, "1"),
                ("open_share", light.open_share, "1"),
            )
        )
    spread = [light.lamp.spread_stops, light.modifier.spread_stops if light.modifier else 0.0]
    if light.factor:
        spread = [light.factor.spread_stops]
    spread.append(abs(distance_change_stops(light.front, distance_m, distance_m + PLACING_M)))
    lost = 0.0
    if sync_of(light, camera, shutter_s) is Sync.HIGH_SPEED:
        extra = light.lamp.high_speed_sync_extra_stops
        lost = high_speed_sync_stops(shutter_s, camera.curtain_s, extra)
        spread.append(HIGH_SPEED_SYNC_SPREAD_STOPS)
        steps.append(
            HIGH_SPEED_SYNC.step(
                lost,
                ("shutter_s", shutter_s, "s"),
                ("curtain_s", camera.curtain_s, "s"),
                ("extra_stops", extra, "stop"),
            )
        )
    amount = far * near * left * math.exp2(stops + lost)
    # Lamp, modifier, place and sync err independently of one another.
    return Output(amount, light.lamp.kind is LampKind.FLASH, math.hypot(*spread), tuple(steps))
