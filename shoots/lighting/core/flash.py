"""Flash: guide numbers and their scaling with ISO, power and distance, stored energy, several pops.

Symbols: GN guide number [m], d distance [m], p power as a share of full, I time-integrated intensity [cd·s],
H luminous exposure at the subject [lx·s], C incident-meter constant. Light adds in lx·s, never in stops.

References
----------
ISO 1230:2007 (guide number; scope read); ISO 2720:1974 with H = E·t (US Navy NAVEDTRA 14209, p. 4-17).
"""

import math

from shoots.lighting.core.conventions import FLAT_RECEPTOR, METER_CONSTANT_RANGE
from shoots.lighting.core.exposure import F_NUMBER, ISO
from shoots.values.steps import Formula
from shoots.values.units import Num, Range, log2, root

GUIDE_NUMBER = Range(0.0, 1e5, "m", above=True)
DISTANCE = Range(0.0, 1e5, "m", above=True)
POWER = Range(0.0, 1.0, "1", above=True)
POPS = Range(1.0, 1e4, "1")
OLDER_FACTOR = Range(0.0, 1.0, "ft²/(cd·s)", above=True)
INTENSITY = Range(0.0, 1e12, "cd·s", above=True)
ENERGY = Range(0.0, 1e6, "Ws", above=True)
EFFICACY = Range(0.0, 683.0, "lm·s/Ws", above=True)
GAIN = Range(0.0, 1e4, "1", above=True)
CAPACITANCE = Range(0.0, 100.0, "F", above=True)
VOLTAGE = Range(0.0, 1e5, "V", above=True)
RATIO_STOPS = Range(-60.0, 60.0, "stop")

ISO_1230 = "ISO 1230:2007"
GUIDE_NUMBER_EXPOSURE = Formula("flash_exposure", "H = C · GN² / (100 · d²)", "lx·s", ISO_1230)
FLASH_F_NUMBER = Formula("flash_f_number", "N = GN · √(S / 100) · √p / d", "f", ISO_1230)
POWER_SCALING = Formula("power_stops", "ΔEV = log₂ p + log₂ k", "stop", "H ∝ energy; derived")


def guide_number(f_number: Num, distance_m: Num) -> Num:
    """Return the guide number of a flash that asks for an f-number at a distance.

    Parameters
    ----------
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number at that ISO, 0.1 to 10,000. [1]
    distance_m : float or NDArray[np.float64], any shape that broadcasts
        Flash to subject, greater than 0. [m]

    Returns
    -------
    float or NDArray[np.float64]
        GN = N·d. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 1230:2007; holds from about five diameters of the lit surface on.

    Examples
    --------
    >>> guide_number(8.0, 4.0)
    32.0
    """
    F_NUMBER.check("f_number", f_number)
    DISTANCE.check("distance_m", distance_m)
    return f_number * distance_m


def scaled_guide_number(guide_number_m: Num, iso: Num, power: Num, pops: int = 1) -> Num:
    """Return a guide number for another ISO, power and number of equal pops.

    Parameters
    ----------
    guide_number_m : float or NDArray[np.float64], any shape that broadcasts
        At ISO 100 and full power, greater than 0. [m]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    power : float or NDArray[np.float64], any shape that broadcasts
        Share of full power, above 0 up to 1. [1]
    pops : int
        Identical pops in one exposure, 1 to 10,000.

    Returns
    -------
    float or NDArray[np.float64]
        GN·sqrt(S/100)·sqrt(p·k). [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 1230:2007; exposure is proportional to energy.

    Examples
    --------
    >>> scaled_guide_number(60.0, 400.0, 0.25)
    60.0
    """
    GUIDE_NUMBER.check("guide_number_m", guide_number_m)
    ISO.check("iso", iso)
    POWER.check("power", power)
    POPS.check("pops", pops)
    return guide_number_m * root(iso / 100.0 * power * pops)


def flash_f_number(guide_number_m: Num, distance_m: Num, iso: Num, power: Num, pops: int = 1) -> Num:
    """Return the f-number that a flash asks for at a distance.

    Parameters
    ----------
    guide_number_m : float or NDArray[np.float64], any shape that broadcasts
        At ISO 100 and full power, greater than 0. [m]
    distance_m : float or NDArray[np.float64], any shape that broadcasts
        Flash to subject, greater than 0. [m]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    power : float or NDArray[np.float64], any shape that broadcasts
        Share of full power, above 0 up to 1. [1]
    pops : int
        Identical pops in one exposure, 1 to 10,000.

    Returns
    -------
    float or NDArray[np.float64]
        N = GN·sqrt(S/100)·sqrt(p·k)/d. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 1230:2007.

    Examples
    --------
    >>> round(flash_f_number(60.0, 3.0, 400.0, 1 / 8), 2)
    14.14
    """
    DISTANCE.check("distance_m", distance_m)
    return scaled_guide_number(guide_number_m, iso, power, pops) / distance_m


def flash_distance(guide_number_m: Num, f_number: Num, iso: Num, power: Num, pops: int = 1) -> Num:
    """Return the distance at which a flash gives the exposure for an f-number.

    Parameters
    ----------
    guide_number_m : float or NDArray[np.float64], any shape that broadcasts
        At ISO 100 and full power, greater than 0. [m]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    power : float or NDArray[np.float64], any shape that broadcasts
        Share of full power, above 0 up to 1. [1]
    pops : int
        Identical pops in one exposure, 1 to 10,000.

    Returns
    -------
    float or NDArray[np.float64]
        d = GN·sqrt(S/100)·sqrt(p·k)/N. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 1230:2007.

    Examples
    --------
    >>> flash_distance(45.0, 8.0, 100.0, 1.0)
    5.625
    """
    F_NUMBER.check("f_number", f_number)
    return scaled_guide_number(guide_number_m, iso, power, pops) / f_number


def power_for_f_number(guide_number_m: Num, distance_m: Num, f_number: Num, iso: Num) -> Num:
    """Return the share of full power at which a flash asks for an f-number.

    Parameters
    ----------
    guide_number_m : float or NDArray[np.float64], any shape that broadcasts
        At ISO 100 and full power, greater than 0. [m]
    distance_m : float or NDArray[np.float64], any shape that broadcasts
        Flash to subject, greater than 0. [m]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]

    Returns
    -------
    float or NDArray[np.float64]
        Above 1 when the flash is too weak. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 1230:2007, solved for the power.

    Examples
    --------
    >>> power_for_f_number(32.0, 4.0, 4.0, 100.0)
    0.25
    """
    GUIDE_NUMBER.check("guide_number_m", guide_number_m)
    DISTANCE.check("distance_m", distance_m)
    F_NUMBER.check("f_number", f_number)
    ISO.check("iso", iso)
    reach = f_number * distance_m / guide_number_m
    return reach * reach * 100.0 / iso


def distance_stops(from_m: Num, to_m: Num) -> Num:
    """Return what a change of distance does to a point light, by the inverse square.

    Parameters
    ----------
    from_m, to_m : float or NDArray[np.float64], any shape that broadcasts
        Old and new distance, greater than 0. [m]

    Returns
    -------
    float or NDArray[np.float64]
        2·log2(from/to), negative when the light moves away. [stop]

    Raises
    ------
    OutOfRange
        If a distance is not positive.

    References
    ----------
    Inverse-square law, ANSI/IES LS-1 9.1.1: within 1 % from five diameters of the source on.

    Examples
    --------
    >>> distance_stops(1.5, 3.0)
    -2.0
    """
    DISTANCE.check("from_m", from_m)
    DISTANCE.check("to_m", to_m)
    return 2.0 * log2(from_m / to_m)


def distance_factor(stops: float) -> float:
    """Return by how much a light must move away to lose so many stops, by the inverse square.

    Parameters
    ----------
    stops : float
        Stops to lose, -60 to 60; negative brings it nearer. [stop]

    Returns
    -------
    float
        New distance over old. [1]

    Raises
    ------
    OutOfRange
        If ``stops`` is outside its range.

    References
    ----------
    Inverse-square law; printed so in a flash-meter manual's table.

    Examples
    --------
    >>> distance_factor(2.0)
    2.0
    """
    RATIO_STOPS.check("stops", stops)
    return math.exp2(stops / 2.0)


def intensity_from_guide_number(guide_number_m: float, meter_constant: float = FLAT_RECEPTOR) -> float:
    """Return the time-integrated intensity on the axis behind a guide number at ISO 100.

    Parameters
    ----------
    guide_number_m : float
        Guide number at ISO 100, greater than 0. [m]
    meter_constant : float
        Constant C of the meter that the guide number was found with, 50 to 1000. [lx·s]

    Returns
    -------
    float
        I = C·GN²/100; the same number in BCPS. [cd·s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974 and ISO 1230:2007; derived.

    Examples
    --------
    >>> intensity_from_guide_number(20.0)
    1000.0
    """
    GUIDE_NUMBER.check("guide_number_m", guide_number_m)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return meter_constant * guide_number_m * guide_number_m / 100.0


def guide_number_from_intensity(
    intensity_cd_s: float, iso: float = 100.0, meter_constant: float = FLAT_RECEPTOR
) -> float:
    """Return the guide number of a time-integrated intensity.

    Parameters
    ----------
    intensity_cd_s : float
        On the axis, greater than 0; BCPS is the same unit. [cd·s]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float
        GN = sqrt(I·S/C). [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974.

    Examples
    --------
    >>> guide_number_from_intensity(1000.0)
    20.0
    """
    INTENSITY.check("intensity_cd_s", intensity_cd_s)
    ISO.check("iso", iso)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return math.sqrt(intensity_cd_s * iso / meter_constant)


def guide_number_older(intensity_cd_s: float, iso: float = 100.0, formula_factor: float = 0.063) -> float:
    """Return the guide number in feet as older data sheets found it.

    Parameters
    ----------
    intensity_cd_s : float
        On the axis, greater than 0; BCPS is the same unit. [cd·s]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    formula_factor : float
        0.063, or 0.05 in a variant; above 0 up to 1. [ft²/(cd·s)]

    Returns
    -------
    float
        GN = sqrt(0.063·BCPS·S): 0.55 stop more than C = 250 gives, 0.22 with 0.05. [ft]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ANSI PH3.40 family, from memory.
    """
    INTENSITY.check("intensity_cd_s", intensity_cd_s)
    ISO.check("iso", iso)
    OLDER_FACTOR.check("formula_factor", formula_factor)
    return math.sqrt(formula_factor * intensity_cd_s * iso)


def intensity_from_energy(energy_ws: float, efficacy_lm_s_per_ws: float, gain: float = 1.0) -> float:
    """Return the time-integrated intensity that a stored energy gives.

    Parameters
    ----------
    energy_ws : float
        Stored energy, greater than 0; a watt-second is a joule. [Ws]
    efficacy_lm_s_per_ws : float
        Light per stored energy, above 0 up to 683; studio heads give 15 to 45 by trade statement. [lm·s/Ws]
    gain : float
        Gain of the reflector on the axis against the bare tube, greater than 0. [1]

    Returns
    -------
    float
        I = G·η·W/(4π). [cd·s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Definition of luminous intensity over the full sphere; efficacy from trade pages.

    Examples
    --------
    >>> round(intensity_from_energy(400.0, 40.0), 1)
    1273.2
    """
    ENERGY.check("energy_ws", energy_ws)
    EFFICACY.check("efficacy_lm_s_per_ws", efficacy_lm_s_per_ws)
    GAIN.check("gain", gain)
    return gain * efficacy_lm_s_per_ws * energy_ws / (4.0 * math.pi)


def stored_energy(capacitance_f: float, voltage_v: float) -> float:
    """Return the energy in a flash capacitor.

    Parameters
    ----------
    capacitance_f : float
        Capacitance, greater than 0. [F]
    voltage_v : float
        Voltage, greater than 0. [V]

    Returns
    -------
    float
        W = C·U²/2. [Ws]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Physics: energy of a capacitor.

    Examples
    --------
    >>> round(stored_energy(1000e-6, 360.0), 2)
    64.8
    """
    CAPACITANCE.check("capacitance_f", capacitance_f)
    VOLTAGE.check("voltage_v", voltage_v)
    return 0.5 * capacitance_f * voltage_v * voltage_v


def pops_stops(pops: int) -> float:
    """Return how much more light several identical pops in one exposure give than one.

    Parameters
    ----------
    pops : int
        Number of pops, 1 to 10,000.

    Returns
    -------
    float
        log2 k; the guide number grows with its root. [stop]

    Raises
    ------
    OutOfRange
        If ``pops`` is outside its range.

    References
    ----------
    Light adds; derived.

    Examples
    --------
    >>> pops_stops(4)
    2.0
    """
    POPS.check("pops", pops)
    return math.log2(pops)
