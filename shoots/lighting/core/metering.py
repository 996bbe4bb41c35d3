"""Meter equations: incident light from illuminance, reflected light from luminance, and back.

Symbols: E illuminance, L luminance, H = E·t luminous exposure, S ISO speed, N f-number, t time, C and K the
meter constants.

References
----------
ISO 2720:1974, General purpose photographic exposure meters: C 240 to 400 (flat receptor) or 320 to 540
(dome), K 10.6 to 13.4.
"""

from shoots.lighting.core.conventions import (
    FLAT_RECEPTOR,
    METER_CONSTANT_RANGE,
    REFLECTED_CONSTANT,
    REFLECTED_CONSTANT_RANGE,
)
from shoots.lighting.core.exposure import EV, F_NUMBER, ISO, SHUTTER, SPEED_CONSTANT
from shoots.values.steps import Formula
from shoots.values.units import Num, Range, exp2, log2, root

ILLUMINANCE = Range(1e-30, 1e12, "lx")
EXPOSURE = Range(1e-30, 1e12, "lx·s")
LUMINANCE = Range(1e-30, 1e12, "cd/m²")

INCIDENT_EV = Formula("incident_ev", "EV = log₂(E · S / C)", "EV", "ISO 2720:1974")
REFLECTED_EV = Formula("reflected_ev", "EV = log₂(L · S / K)", "EV", "ISO 2720:1974")
F_NUMBER_FOR_EXPOSURE = Formula("f_number_for_exposure", "N = √(H · S / C)", "f", "ISO 2720:1974")


def brightness_value(luminance_cd_m2: Num, reflected_constant: float = REFLECTED_CONSTANT) -> Num:
    """Return the APEX brightness value Bv of a surface, so that Bv + Sv = Av + Tv.

    Parameters
    ----------
    luminance_cd_m2 : float or NDArray[np.float64], any shape
        Luminance, 1e-30 to 1e12. [cd/m²]
    reflected_constant : float
        Meter constant K, 2 to 60. [cd·s/m²]

    Returns
    -------
    float or NDArray[np.float64]
        Bv; 0 at 4 cd/m² with K = 12.5. [EV]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    Exif states Bv in foot-lamberts, which amounts to K of about 10.7, 0.22 stop different.

    References
    ----------
    ISO 2720:1974 for K; ASA PH2.12-1961 for Bv.

    Examples
    --------
    >>> brightness_value(4.0)
    0.0
    """
    LUMINANCE.check("luminance_cd_m2", luminance_cd_m2)
    REFLECTED_CONSTANT_RANGE.check("reflected_constant", reflected_constant)
    return log2(luminance_cd_m2 * (SPEED_CONSTANT / reflected_constant))


def incident_ev(illuminance_lx: Num, iso: float = 100.0, meter_constant: float = FLAT_RECEPTOR) -> Num:
    """Return the exposure value that an incident meter shows.

    Parameters
    ----------
    illuminance_lx : float or NDArray[np.float64], any shape
        Illuminance at the receptor, 1e-30 to 1e12. [lx]
    iso : float
        ISO speed set on the meter, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C, 50 to 1000: 250 for a flat receptor, 330 for a dome. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        log2(E·S/C), for that ISO. [EV]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974, incident-light equation.

    Examples
    --------
    >>> round(incident_ev(81920.0), 2)
    15.0
    """
    ILLUMINANCE.check("illuminance_lx", illuminance_lx)
    ISO.check("iso", iso)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return log2(illuminance_lx * (iso / meter_constant))


def illuminance_at_ev(ev: Num, iso: float = 100.0, meter_constant: float = FLAT_RECEPTOR) -> Num:
    """Return the illuminance at which an incident meter shows an exposure value.

    Parameters
    ----------
    ev : float or NDArray[np.float64], any shape
        Exposure value at ``iso``, -60 to 60. [EV]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        E = C·2^EV/S. [lx]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974, incident-light equation.

    Examples
    --------
    >>> illuminance_at_ev(15.0)
    81920.0
    """
    EV.check("ev", ev)
    ISO.check("iso", iso)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return exp2(ev) * (meter_constant / iso)


def reflected_ev(luminance_cd_m2: Num, iso: float = 100.0, reflected_constant: float = REFLECTED_CONSTANT) -> Num:
    """Return the exposure value that a reflected-light meter shows for a surface.

    Parameters
    ----------
    luminance_cd_m2 : float or NDArray[np.float64], any shape
        Luminance of the surface, 1e-30 to 1e12. [cd/m²]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    reflected_constant : float
        Constant K, 2 to 60: 12.5 usual, 14 with some meters. [cd·s/m²]

    Returns
    -------
    float or NDArray[np.float64]
        log2(L·S/K), for that ISO. [EV]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974, reflected-light equation.

    Examples
    --------
    >>> reflected_ev(4096.0)
    15.0
    """
    LUMINANCE.check("luminance_cd_m2", luminance_cd_m2)
    ISO.check("iso", iso)
    REFLECTED_CONSTANT_RANGE.check("reflected_constant", reflected_constant)
    return log2(luminance_cd_m2 * (iso / reflected_constant))


def luminance_at_ev(ev: Num, iso: float = 100.0, reflected_constant: float = REFLECTED_CONSTANT) -> Num:
    """Return the luminance that a reflected-light meter reads as an exposure value.

    Parameters
    ----------
    ev : float or NDArray[np.float64], any shape
        Exposure value at ``iso``, -60 to 60. [EV]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    reflected_constant : float
        Constant K, 2 to 60. [cd·s/m²]

    Returns
    -------
    float or NDArray[np.float64]
        L = K·2^EV/S. [cd/m²]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974, reflected-light equation.

    Examples
    --------
    >>> luminance_at_ev(15.0)
    4096.0
    """
    EV.check("ev", ev)
    ISO.check("iso", iso)
    REFLECTED_CONSTANT_RANGE.check("reflected_constant", reflected_constant)
    return exp2(ev) * (reflected_constant / iso)


def illuminance_exposed(f_number: Num, shutter_s: Num, iso: Num, meter_constant: float = FLAT_RECEPTOR) -> Num:
    """Return the illuminance that settings expose correctly.

    Parameters
    ----------
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        E = C·N²/(t·S). [lx]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974, incident-light equation.

    Examples
    --------
    >>> illuminance_exposed(8.0, 1.0, 100.0)
    160.0
    """
    F_NUMBER.check("f_number", f_number)
    SHUTTER.check("shutter_s", shutter_s)
    ISO.check("iso", iso)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return meter_constant * f_number * f_number / (shutter_s * iso)


def luminous_exposure(f_number: Num, iso: Num, meter_constant: float = FLAT_RECEPTOR) -> Num:
    """Return the luminous exposure at the subject that an aperture and an ISO expose correctly.

    Parameters
    ----------
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        H = C·N²/S, however it is spread in time. [lx·s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974 with H = E·t (US Navy NAVEDTRA 14209, p. 4-17).

    Examples
    --------
    >>> luminous_exposure(8.0, 100.0)
    160.0
    """
    F_NUMBER.check("f_number", f_number)
    ISO.check("iso", iso)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return meter_constant * f_number * f_number / iso


def f_number_for_exposure(exposure_lx_s: Num, iso: Num, meter_constant: float = FLAT_RECEPTOR) -> Num:
    """Return the f-number that a luminous exposure at the subject asks for.

    Parameters
    ----------
    exposure_lx_s : float or NDArray[np.float64], any shape that broadcasts
        Luminous exposure H at the subject, 1e-30 to 1e12. [lx·s]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        N = sqrt(H·S/C), exact, not on a scale. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974, incident-light equation with H = E·t.

    Examples
    --------
    >>> f_number_for_exposure(160.0, 100.0)
    8.0
    """
    EXPOSURE.check("exposure_lx_s", exposure_lx_s)
    ISO.check("iso", iso)
    METER_CONSTANT_RANGE.check("meter_constant", meter_constant)
    return root(exposure_lx_s * iso / meter_constant)
