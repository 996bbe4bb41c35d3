"""Exposure: APEX values, the light level that settings fit, and the setting that a light level asks for.

Symbols: N f-number, t exposure time, S arithmetic ISO speed. EV without a further word is log2(N²/t); EV100
is referred to ISO 100.

References
----------
ASA PH2.5-1960 and PH2.12-1961 (APEX); Exif 2.3 annex C for the speed constant 3.125 (from memory).
"""

from shoots.values.steps import Formula
from shoots.values.units import Num, Range, exp2, log2, root

F_NUMBER = Range(0.1, 1e4, "1")
SHUTTER = Range(1e-7, 1e7, "s")
ISO = Range(0.01, 1e8, "1")
EV = Range(-60.0, 60.0, "EV")

SPEED_CONSTANT = 3.125
"""ISO speed of Sv = 0, so that ISO 100 is Sv = 5; Exif 2.3 (from memory). [1]"""

APEX = "ASA PH2.5-1960, PH2.12-1961 (APEX)"

EXPOSURE_VALUE = Formula("exposure_value", "Ev = log₂(N² / t)", "EV", APEX)
EV100 = Formula("ev100", "EV100 = log₂(N² / t) − log₂(S / 100)", "EV", APEX)
F_NUMBER_FOR_EV = Formula("f_number_for_ev", "N = √(t · 2^EV100 · S / 100)", "f", APEX)


def aperture_value(f_number: Num) -> Num:
    """Return the APEX aperture value Av.

    Parameters
    ----------
    f_number : float or NDArray[np.float64], any shape
        Exact f-number, 0.1 to 10,000. [1]

    Returns
    -------
    float or NDArray[np.float64]
        Av = 2 log2 N. [EV]

    Raises
    ------
    OutOfRange
        If ``f_number`` is outside its range.

    References
    ----------
    ASA PH2.12-1961 (APEX).

    Examples
    --------
    >>> aperture_value(8.0)
    6.0
    """
    F_NUMBER.check("f_number", f_number)
    return 2.0 * log2(f_number)


def time_value(shutter_s: Num) -> Num:
    """Return the APEX time value Tv.

    Parameters
    ----------
    shutter_s : float or NDArray[np.float64], any shape
        Exposure time, 1e-7 to 1e7. [s]

    Returns
    -------
    float or NDArray[np.float64]
        Tv = -log2 t, larger for shorter times. [EV]

    Raises
    ------
    OutOfRange
        If ``shutter_s`` is outside its range.

    References
    ----------
    ASA PH2.12-1961 (APEX).

    Examples
    --------
    >>> time_value(1 / 128)
    7.0
    """
    SHUTTER.check("shutter_s", shutter_s)
    return -log2(shutter_s)


def speed_value(iso: Num) -> Num:
    """Return the APEX speed value Sv, 5 at ISO 100.

    Parameters
    ----------
    iso : float or NDArray[np.float64], any shape
        Arithmetic ISO speed, 0.01 to 1e8. [1]

    Returns
    -------
    float or NDArray[np.float64]
        Sv = log2(S / 3.125). [EV]

    Raises
    ------
    OutOfRange
        If ``iso`` is outside its range.

    Notes
    -----
    The standard of 1960 had the constant 2^(-7/4), which makes ISO 100 Sv = 4.89; Exif rounds so that it is
    5.

    References
    ----------
    Exif 2.3, annex C (from memory).

    Examples
    --------
    >>> speed_value(400.0)
    7.0
    """
    ISO.check("iso", iso)
    return log2(iso / SPEED_CONSTANT)


def exposure_value(f_number: Num, shutter_s: Num) -> Num:
    """Return the exposure value of an aperture and a time.

    Parameters
    ----------
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]

    Returns
    -------
    float or NDArray[np.float64]
        Ev = log2(N²/t). [EV]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX).

    Examples
    --------
    >>> exposure_value(8.0, 1 / 128)
    13.0
    """
    return aperture_value(f_number) + time_value(shutter_s)


def ev100(f_number: Num, shutter_s: Num, iso: Num) -> Num:
    """Return the light level, as EV at ISO 100, that settings expose correctly.

    Parameters
    ----------
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]

    Returns
    -------
    float or NDArray[np.float64]
        EV100 = log2(N²/t) - log2(S/100). [EV]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX).

    Examples
    --------
    >>> round(ev100(2.8, 1 / 500, 800.0), 3)
    8.937
    """
    ISO.check("iso", iso)
    return exposure_value(f_number, shutter_s) - log2(iso / 100.0)


def f_number_for_ev(ev: Num, shutter_s: Num, iso: Num) -> Num:
    """Return the f-number for a light level, a time and an ISO.

    Parameters
    ----------
    ev : float or NDArray[np.float64], any shape that broadcasts
        Light level as EV100, -60 to 60. [EV]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]

    Returns
    -------
    float or NDArray[np.float64]
        N = sqrt(t·2^EV100·S/100). [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX).

    Examples
    --------
    >>> round(f_number_for_ev(14.0, 1 / 200, 100.0), 3)
    9.051
    """
    EV.check("ev", ev)
    SHUTTER.check("shutter_s", shutter_s)
    ISO.check("iso", iso)
    return root(exp2(ev) * shutter_s * iso / 100.0)


def shutter_for_ev(ev: Num, f_number: Num, iso: Num) -> Num:
    """Return the exposure time for a light level, an aperture and an ISO.

    Parameters
    ----------
    ev : float or NDArray[np.float64], any shape that broadcasts
        Light level as EV100, -60 to 60. [EV]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]

    Returns
    -------
    float or NDArray[np.float64]
        t = N²/(2^EV100·S/100). [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX).

    Examples
    --------
    >>> shutter_for_ev(13.0, 8.0, 100.0)
    0.0078125
    """
    EV.check("ev", ev)
    F_NUMBER.check("f_number", f_number)
    ISO.check("iso", iso)
    return f_number * f_number / (exp2(ev) * iso / 100.0)


def iso_for_ev(ev: Num, f_number: Num, shutter_s: Num) -> Num:
    """Return the ISO speed for a light level, an aperture and a time.

    Parameters
    ----------
    ev : float or NDArray[np.float64], any shape that broadcasts
        Light level as EV100, -60 to 60. [EV]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]

    Returns
    -------
    float or NDArray[np.float64]
        S = 100·N²/(t·2^EV100). [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX).

    Examples
    --------
    >>> iso_for_ev(13.0, 8.0, 1 / 128)
    100.0
    """
    EV.check("ev", ev)
    F_NUMBER.check("f_number", f_number)
    SHUTTER.check("shutter_s", shutter_s)
    return 100.0 * f_number * f_number / (shutter_s * exp2(ev))
