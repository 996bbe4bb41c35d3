"""A flash in time: how long it lasts at which power, what a curtain cuts off it, what high-speed sync costs.

Two circuits are common. A voltage-controlled head charges its capacitor less for less power; its discharge
runs out by itself. A cut-off head always starts the full discharge and breaks it off, so full power is its
longest flash.

References
----------
ISO 2827:1988 for t0.5 and t0.1, the time above a half and a tenth of the peak (definitions from memory).
Exponential discharge, curtains and high-speed sync: own derivations, see tests.
"""

import math

from shoots.kit.core.lamps import Circuit
from shoots.values.steps import Formula
from shoots.values.units import Num, Range, log2

DURATION = Range(1e-9, 10.0, "s")
SHUTTER = Range(1e-9, 1e7, "s")
DELAY = Range(-0.1, 0.1, "s")
POWER = Range(0.0, 1.0, "1", above=True)
TIME = Range(0.0, 1e7, "s")
LEVEL = Range(1e-6, 1.0 - 1e-6, "1")
SHARE = Range(0.0, 1.0, "1")
EXTRA = Range(-10.0, 0.0, "stop")
OPEN = Range(-1e8, math.inf, "s")
CUT = Range(0.0, math.inf, "s", above=True)
SLOPE = Range(0.0, 1.0, "1")

VOLTAGE_SLOPE = 0.2
"""How the time of a voltage-controlled head grows with falling power, t ∝ p^-0.2; common practice, no
source. [1]"""

HIGH_SPEED_SYNC = Formula(
    "high_speed_sync_stops", "ΔEV = log₂(t / (t_v + t))", "stop", "Own derivation: flat burst over the curtains' run"
)
CLIPPED = Formula("burst_share", "(1 − e^(−T/τ)) / (1 − e^(−T_c/τ))", "1", "Exponential discharge; own derivation")


def decay_time(t05_s: float) -> float:
    """Return the decay time of an exponential discharge from its t0.5.

    Parameters
    ----------
    t05_s : float
        Time above half the peak, 1e-9 to 10. [s]

    Returns
    -------
    float
        τ = t0.5/ln 2. [s]

    Raises
    ------
    OutOfRange
        If ``t05_s`` is outside its range.

    References
    ----------
    ISO 2827:1988 (from memory); exponential discharge.

    Examples
    --------
    >>> round(decay_time(1 / 800) * 1000.0, 3)
    1.803
    """
    DURATION.check("t05_s", t05_s)
    return t05_s / math.log(2.0)


def t01_from_t05(t05_s: float) -> float:
    """Return t0.1 of an exponential discharge from its t0.5.

    Parameters
    ----------
    t05_s : float
        Time above half the peak, 1e-9 to 10. [s]

    Returns
    -------
    float
        t0.5·ln 10/ln 2, 3.32 times as long; a cut-off flash below full power has less. [s]

    Raises
    ------
    OutOfRange
        If ``t05_s`` is outside its range.

    References
    ----------
    ISO 2827:1988 (from memory); trade texts say about three times.

    Examples
    --------
    >>> round(1.0 / t01_from_t05(1 / 800), 1)
    240.8
    """
    return decay_time(t05_s) * math.log(10.0)


def cut_off_time(decay_s: float, power: float) -> float:
    """Return when a cut-off head breaks off its discharge to give a share of its full light.

    Parameters
    ----------
    decay_s : float
        Decay time τ of the full discharge, 1e-9 to 10. [s]
    power : float
        Share of the full light, above 0 up to 1. [1]

    Returns
    -------
    float
        -τ·ln(1 - p); infinite at full power, where the discharge runs out by itself. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Exponential discharge; own derivation.

    Examples
    --------
    >>> round(cut_off_time(0.001, 0.5) * 1000.0, 3)
    0.693
    """
    DURATION.check("decay_s", decay_s)
    POWER.check("power", power)
    return -decay_s * math.log1p(-power) if power < 1.0 else math.inf


def flash_duration(
    circuit: Circuit,
    full_t01_s: float,
    power: float,
    above: float = 0.1,
    slope: float = VOLTAGE_SLOPE,
) -> float:
    """Return how long a flash lasts at a power.

    Parameters
    ----------
    circuit : Circuit
        How the head makes less light.
    full_t01_s : float
        t0.1 at full power, 1e-9 to 10. [s]
    power : float
        Share of full power, above 0 up to 1. [1]
    above : float
        Share of the peak above which it is counted: 0.1 for t0.1, 0.5 for t0.5; above 0, below 1. [1]
    slope : float
        For a voltage-controlled head, t ∝ p^-slope, 0 to 1. [1]

    Returns
    -------
    float
        The duration. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2827:1988 (definitions from memory); exponential discharge, broken off for a cut-off head, own
    derivation; the slope of voltage-controlled heads is common practice, no source.

    Examples
    --------
    >>> round(flash_duration(Circuit.CUT_OFF, 0.004, 0.5) * 1000.0, 2)
    1.2
    """
    DURATION.check("full_t01_s", full_t01_s)
    POWER.check("power", power)
    LEVEL.check("above", above)
    SLOPE.check("slope", slope)
    decay = full_t01_s / math.log(10.0)
    if circuit is Circuit.VOLTAGE:
        return float(decay * math.log(1.0 / above) * power**-slope)
    return min(decay * math.log(1.0 / above), cut_off_time(decay, power))


def burst_share(open_s: float, decay_s: float, cut_s: float = math.inf) -> float:
    """Return the share of a flash that falls into the time for which a spot stays uncovered after it starts.

    Parameters
    ----------
    open_s : float
        Time from the start of the flash until the spot is covered; 0 or less catches nothing. [s]
    decay_s : float
        Decay time τ, 1e-9 to 10. [s]
    cut_s : float
        When a cut-off head breaks off, infinite if it does not; greater than 0. [s]

    Returns
    -------
    float
        0 to 1. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Exponential discharge; own derivation.

    Examples
    --------
    >>> round(burst_share(0.002, decay_time(1 / 800)), 3)
    0.67
    """
    OPEN.check("open_s", open_s)
    DURATION.check("decay_s", decay_s)
    CUT.check("cut_s", cut_s)
    if open_s <= 0.0:
        return 0.0
    if open_s >= cut_s:
        return 1.0
    whole = -math.expm1(-cut_s / decay_s)
    return -math.expm1(-open_s / decay_s) / whole


def edge_share(
    row: float, shutter_s: float, curtain_s: float, decay_s: float, cut_s: float = math.inf, delay_s: float = 0.0
) -> float:
    """Return the share of a flash that one row of the sensor gets under a focal-plane shutter.

    Parameters
    ----------
    row : float
        Place along the curtains' run: 0 is uncovered and covered first, 1 last. [1]
    shutter_s : float
        Exposure time, 1e-9 to 1e7. [s]
    curtain_s : float
        Time that a curtain takes over the whole sensor, 1e-9 to 10. [s]
    decay_s : float
        Decay time τ of the flash, 1e-9 to 10. [s]
    cut_s : float
        When a cut-off head breaks off, infinite if it does not. [s]
    delay_s : float
        From the moment the first curtain has arrived to the start of the flash (radio), -0.1 to 0.1. [s]

    Returns
    -------
    float
        0 to 1; 0 is a black band. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    A row y is open from y·t_v to y·t_v + t, the flash starts at t_v + delay.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> first = edge_share(0.0, 1 / 200, 1 / 300, 0.0018)
    >>> last = edge_share(1.0, 1 / 200, 1 / 300, 0.0018)
    >>> round(math.log2(first / last), 2)
    -0.64
    """
    SHARE.check("row", row)
    SHUTTER.check("shutter_s", shutter_s)
    DURATION.check("curtain_s", curtain_s)
    DELAY.check("delay_s", delay_s)
    start = curtain_s + delay_s
    opened = max(0.0, row * curtain_s - start)
    closed = row * curtain_s + shutter_s - start
    return max(0.0, burst_share(closed, decay_s, cut_s) - burst_share(opened, decay_s, cut_s))


def synced_share(
    shutter_s: float, curtain_s: float, decay_s: float, cut_s: float = math.inf, delay_s: float = 0.0
) -> float:
    """Return the share of a flash that the worst row of the sensor gets.

    Parameters
    ----------
    shutter_s : float
        Exposure time, 1e-9 to 1e7. [s]
    curtain_s : float
        Time that a curtain takes over the whole sensor, 1e-9 to 10. [s]
    decay_s : float
        Decay time τ of the flash, 1e-9 to 10. [s]
    cut_s : float
        When a cut-off head breaks off, infinite if it does not. [s]
    delay_s : float
        From the arrival of the first curtain to the start of the flash, -0.1 to 0.1. [s]

    Returns
    -------
    float
        0 to 1; 0 means a black band. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> synced_share(1 / 400, 1 / 300, 0.0018)
    0.0
    """
    return min(edge_share(row, shutter_s, curtain_s, decay_s, cut_s, delay_s) for row in (0.0, 1.0))


def high_speed_sync_share(shutter_s: Num, curtain_s: float) -> Num:
    """Return the share of a flash that each row gets when it burns evenly while the curtains run.

    Parameters
    ----------
    shutter_s : float or NDArray[np.float64], any shape
        Exposure time, 1e-9 to 1e7. [s]
    curtain_s : float
        Time that a curtain takes over the whole sensor, 1e-9 to 10. [s]

    Returns
    -------
    float or NDArray[np.float64]
        t/(t_v + t): the best that can be had; real heads lose more, see the factor of each light. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Own derivation, see tests. Two published manuals imply 1.6 stops more at 1/500 s.

    Examples
    --------
    >>> high_speed_sync_share(1 / 250, 1 / 250)
    0.5
    """
    SHUTTER.check("shutter_s", shutter_s)
    DURATION.check("curtain_s", curtain_s)
    return shutter_s / (curtain_s + shutter_s)


def high_speed_sync_stops(shutter_s: Num, curtain_s: float, extra_stops: float = 0.0) -> Num:
    """Return what high-speed sync costs a flash.

    Parameters
    ----------
    shutter_s : float or NDArray[np.float64], any shape
        Exposure time, 1e-9 to 1e7. [s]
    curtain_s : float
        Time that a curtain takes over the whole sensor, 1e-9 to 10. [s]
    extra_stops : float
        The light's own further loss, as a number at most 0 that a meter refits, -10 to 0. [stop]

    Returns
    -------
    float or NDArray[np.float64]
        Negative. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> round(high_speed_sync_stops(1 / 1000, 1 / 250), 3)
    -2.322
    """
    EXTRA.check("extra_stops", extra_stops)
    return log2(high_speed_sync_share(shutter_s, curtain_s)) + extra_stops


def fixed_burst_stops(shutter_s: Num, burst_s: float) -> Num:
    """Return what high-speed sync costs with a burst of fixed length.

    Parameters
    ----------
    shutter_s : float or NDArray[np.float64], any shape
        Exposure time, 1e-9 to 1e7. [s]
    burst_s : float
        Length of the even burst, 1e-9 to 10. [s]

    Returns
    -------
    float or NDArray[np.float64]
        log2(t/T), at most 0: each halving of the time costs one stop, as it does for ambient. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> fixed_burst_stops(0.001, 0.008)
    -3.0
    """
    SHUTTER.check("shutter_s", shutter_s)
    DURATION.check("burst_s", burst_s)
    if isinstance(shutter_s, float):
        return min(0.0, log2(shutter_s / burst_s))
    return log2(shutter_s / burst_s).clip(max=0.0)
