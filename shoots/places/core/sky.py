"""Models of the sky's light by the height of the sun: clear, overcast, clouded; irradiance and air mass.

References
----------
Seidelmann (ed.), Explanatory Supplement to the Astronomical Almanac, 1992, as quoted by Vallado 2001, eq.
5-9 (clear illuminance by altitude); P. M. Janiczek, J. A. DeYoung, USNO Circular 171, 1987 (second model);
IES Recommended Practice 1984, J. IES 13(4) 381 (sun and sky, overcast; constants from memory); F. Kasten,
G. Czeplak, Solar Energy 24 (1980) 177 (cloud; from memory); F. Kasten, A. T. Young, Appl. Opt. 28 (1989)
4735 (air mass); P. J. Littlefair, Lighting Res. Technol. 20(4) 177 (1988) (luminous efficacy).
"""

import math

from shoots.places.core.sun import ALTITUDE
from shoots.values.units import Range

OKTAS = Range(0.0, 8.0, "okta")
ZENITH = Range(0.0, 90.0, "°")
IRRADIANCE = Range(0.0, 2000.0, "W/m²")
EFFICACY = Range(10.0, 683.0, "lm/W")
AIR_MASS_MODEL = Range(-12.0, 90.0, "°")

_CLEAR_BANDS = (
    (20.0, (3.74, 3.97, -4.07, 1.47)),
    (5.0, (3.05, 13.28, -45.98, 64.33)),
    (-0.8, (2.88, 22.26, -207.64, 1034.30)),
    (-5.0, (2.88, 21.81, -258.11, -858.36)),
    (-12.0, (2.70, 12.17, -431.69, -1899.83)),
    (-18.0, (13.84, 262.72, 1447.42, 2797.93)),
)
"""Lower limit of each band of altitude [°] and l0..l3 of log10 E; Explanatory Supplement 1992. [1]"""


def clear_illuminance(altitude_deg: float) -> float:
    """Return the illuminance of level ground under a clear sky, from full day down to the end of twilight.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90; below -18 the value of -18 is returned, about what airglow
        and stars give. [°]

    Returns
    -------
    float
        Sun and sky together; the fit is good to 5 %, a real clear sky to 20 % and more. [lx]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside -90 to 90.

    References
    ----------
    Explanatory Supplement to the Astronomical Almanac, 1992, quoted as Vallado 2001, eq. 5-9.

    Examples
    --------
    >>> round(clear_illuminance(30.0))
    46297
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    x = max(altitude_deg, -18.0) / 90.0
    coefficients = next((band for limit, band in _CLEAR_BANDS if altitude_deg >= limit), _CLEAR_BANDS[-1][1])
    l0, l1, l2, l3 = coefficients
    return float(10.0 ** (l0 + x * (l1 + x * (l2 + x * l3))))


def clear_illuminance_by_air_mass(altitude_deg: float) -> float:
    """Return the clear-sky illuminance by a second model, to see how far models differ.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -12 to 90. [°]

    Returns
    -------
    float
        Sun and sky on level ground. [lx]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside -12 to 90.

    Notes
    -----
    E = 133 775 · [e^(-0.21 m) sin h + 0.0289 e^(-0.042 m) (1 + (h + 90) sin h / 57.29578)] with the
    relative air mass m of a spherical shell, X = 753.66156.

    References
    ----------
    P. M. Janiczek, J. A. DeYoung, USNO Circular 171, 1987.

    Examples
    --------
    >>> 80000 < clear_illuminance_by_air_mass(50.0) < 110000
    True
    """
    AIR_MASS_MODEL.check("altitude_deg", altitude_deg)
    sine = math.sin(math.radians(altitude_deg))
    shell = 753.66156
    zenith = math.asin(shell * math.cos(math.radians(altitude_deg)) / (shell + 1.0))
    mass = shell * (math.cos(zenith) - sine) + math.cos(zenith)
    direct = math.exp(-0.21 * mass) * sine
    sky = 0.0289 * math.exp(-0.042 * mass) * (1.0 + (altitude_deg + 90.0) * sine / 57.29577951)
    return 133775.0 * (direct + sky)


def overcast_illuminance(altitude_deg: float) -> float:
    """Return the illuminance of level ground under a fully overcast sky.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90. [°]

    Returns
    -------
    float
        A mean; single skies give half to double. [lx]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside -90 to 90.

    Notes
    -----
    E = 300 + 21 000 sin h for a sun above the horizon. Below it (own extension) the clear-sky value is
    taken in the ratio that both have at the horizon.

    References
    ----------
    J. Krochmann, in IES Recommended Practice 1984 (from memory).

    Examples
    --------
    >>> overcast_illuminance(90.0)
    21300.0
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    if altitude_deg >= 0.0:
        return 300.0 + 21000.0 * math.sin(math.radians(altitude_deg))
    return 300.0 * clear_illuminance(altitude_deg) / clear_illuminance(0.0)


def overcast_zenith_luminance(altitude_deg: float) -> float:
    """Return the luminance straight above under a fully overcast sky.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, 0 to 90. [°]

    Returns
    -------
    float
        L = 123 + 8600 sin h; ground illuminance is 7π/9 times it. [cd/m²]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside 0 to 90.

    References
    ----------
    J. Krochmann, in IES Recommended Practice 1984 (from memory).

    Examples
    --------
    >>> round(overcast_zenith_luminance(30.0))
    4423
    """
    ZENITH.check("altitude_deg", altitude_deg)
    return 123.0 + 8600.0 * math.sin(math.radians(altitude_deg))


def cloud_factor(oktas: float) -> float:
    """Return the share of the clear-sky light that passes a cloud cover on average.

    Parameters
    ----------
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]

    Returns
    -------
    float
        1 - 0.75 (n/8)^3.4; broken cloud beside an open sun can exceed 1. [1]

    Raises
    ------
    OutOfRange
        If ``oktas`` is outside 0 to 8.

    References
    ----------
    F. Kasten, G. Czeplak, Solar Energy 24 (1980) 177 (coefficients from memory).

    Examples
    --------
    >>> cloud_factor(8.0)
    0.25
    """
    OKTAS.check("oktas", oktas)
    return float(1.0 - 0.75 * (oktas / 8.0) ** 3.4)


def sun_normal_illuminance(altitude_deg: float) -> float:
    """Return what the clear sun alone gives on a surface that faces it.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90; design values hold above 5. [°]

    Returns
    -------
    float
        127 500 e^(-0.21 / sin h), 0 when the sun is down. [lx]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside -90 to 90.

    References
    ----------
    IES Recommended Practice 1984 (constants from memory).

    Examples
    --------
    >>> round(sun_normal_illuminance(90.0))
    103349
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    sine = math.sin(math.radians(altitude_deg))
    # Below 0.06° the air lets less than 1e-80 of it pass; a still smaller sine would overflow the quotient.
    return 127500.0 * math.exp(-0.21 / sine) if sine > 1e-3 else 0.0


def clear_sky_illuminance(altitude_deg: float) -> float:
    """Return what the clear blue sky alone, without the sun, gives on level ground.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, 0 to 90; design values hold above 5. [°]

    Returns
    -------
    float
        800 + 15 500 sqrt(sin h). [lx]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside 0 to 90.

    References
    ----------
    IES Recommended Practice 1984 (constants from memory).

    Examples
    --------
    >>> clear_sky_illuminance(90.0)
    16300.0
    """
    ZENITH.check("altitude_deg", altitude_deg)
    return 800.0 + 15500.0 * math.sqrt(math.sin(math.radians(altitude_deg)))


def air_mass(zenith_deg: float) -> float:
    """Return the relative optical air mass.

    Parameters
    ----------
    zenith_deg : float
        Apparent zenith distance of the sun, 0 to 90. [°]

    Returns
    -------
    float
        1 overhead, 38 at the horizon. [1]

    Raises
    ------
    OutOfRange
        If ``zenith_deg`` is outside 0 to 90.

    References
    ----------
    F. Kasten, A. T. Young, Appl. Opt. 28 (1989) 4735.

    Examples
    --------
    >>> round(air_mass(60.0), 4)
    1.9943
    """
    ZENITH.check("zenith_deg", zenith_deg)
    lift = 0.50572 * (96.07995 - zenith_deg) ** -1.6364
    return float(1.0 / (math.cos(math.radians(zenith_deg)) + lift))


def illuminance_from_irradiance(irradiance_w_m2: float, efficacy_lm_w: float = 107.0) -> float:
    """Return the illuminance that an irradiance of daylight amounts to.

    Parameters
    ----------
    irradiance_w_m2 : float
        Solar irradiance, 0 to 2000. [W/m²]
    efficacy_lm_w : float
        Luminous efficacy, 10 to 683: clear global 107, average 109, overcast 115, clear sky alone 144. [lm/W]

    Returns
    -------
    float
        Illuminance. [lx]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    P. J. Littlefair, Lighting Res. Technol. 20(4) 177 (1988), UK data.

    Examples
    --------
    >>> illuminance_from_irradiance(500.0)
    53500.0
    """
    IRRADIANCE.check("irradiance_w_m2", irradiance_w_m2)
    EFFICACY.check("efficacy_lm_w", efficacy_lm_w)
    return irradiance_w_m2 * efficacy_lm_w


def irradiance_clear(altitude_deg: float) -> float:
    """Return the clear-sky irradiance on level ground by the regression behind the cloud factor.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, 0 to 90. [°]

    Returns
    -------
    float
        910 sin h - 30, not below 0. [W/m²]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside 0 to 90.

    References
    ----------
    F. Kasten, G. Czeplak, Solar Energy 24 (1980) 177 (from memory; Hamburg 1964 to 1973).

    Examples
    --------
    >>> round(irradiance_clear(30.0))
    425
    """
    ZENITH.check("altitude_deg", altitude_deg)
    return max(0.0, 910.0 * math.sin(math.radians(altitude_deg)) - 30.0)


def irradiance_haurwitz(altitude_deg: float) -> float:
    """Return the clear-sky irradiance on level ground by a formula of the sun's height alone.

    Parameters
    ----------
    altitude_deg : float
        Altitude of the sun, 0 to 90. [°]

    Returns
    -------
    float
        1098·sin h·exp(-0.059/sin h), 0 at the horizon. [W/m²]

    Raises
    ------
    OutOfRange
        If ``altitude_deg`` is outside 0 to 90.

    References
    ----------
    B. Haurwitz, Journal of Meteorology 2 (1945) 154 and 3 (1946) 123, as pvlib has it.

    Examples
    --------
    >>> round(irradiance_haurwitz(30.0))
    488
    """
    ZENITH.check("altitude_deg", altitude_deg)
    sine = math.sin(math.radians(altitude_deg))
    return 1098.0 * sine * math.exp(-0.059 / sine) if sine > 1e-6 else 0.0
