"""The wind itself: Beaufort forces, gusts, and how it grows with height.

References
----------
WMO Beaufort scale in m/s; EN 1991-1-4 §4.3 (form of the profile with height); gust factors by practice.
"""

import math

from shoots.values.units import Range

WIND = Range(0.0, 120.0, "m/s")
ABOVE_GROUND = Range(1.0, 300.0, "m")
ROUGHNESS = Range(1e-4, 0.9, "m")
GUST = Range(1.0, 3.0, "1")

OPEN_GRASS_M = 0.03
"""Roughness length of open grass, EN 1991-1-4. [m]"""
USUAL_GUST_FACTOR = 1.5
"""Gust over hourly mean at 10 m in the open, 1.4 to 1.6; practice. [1]"""

_BEAUFORT_FROM = (0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7)


def beaufort(wind_m_s: float) -> int:
    """Return the Beaufort force of a wind.

    Parameters
    ----------
    wind_m_s : float
        Speed, 0 to 120, taken to the nearest tenth as the scale is printed. [m/s]

    Returns
    -------
    int
        0 to 12.

    Raises
    ------
    OutOfRange
        If ``wind_m_s`` is outside its range.

    References
    ----------
    WMO Beaufort scale in m/s.

    Examples
    --------
    >>> beaufort(7.9), beaufort(8.0)
    (4, 5)
    """
    WIND.check("wind_m_s", wind_m_s)
    return sum(round(wind_m_s, 1) >= limit for limit in _BEAUFORT_FROM)


def wind_at_height(
    wind_m_s: float, from_height_m: float, to_height_m: float, roughness_m: float = OPEN_GRASS_M
) -> float:
    """Return the wind at another height above open ground.

    Parameters
    ----------
    wind_m_s : float
        Wind at ``from_height_m``, 0 to 120. [m/s]
    from_height_m, to_height_m : float
        Heights above the ground, 1 to 300; forecasts are for 10 m. [m]
    roughness_m : float
        Roughness length, 1e-4 to 0.9; 0.03 for open grass. [m]

    Returns
    -------
    float
        v·ln(z/z0)/ln(z'/z0). [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    EN 1991-1-4 §4.3 (form of the profile).

    Examples
    --------
    >>> round(wind_at_height(8.0, 10.0, 2.5), 2)
    6.09
    """
    WIND.check("wind_m_s", wind_m_s)
    ABOVE_GROUND.check("from_height_m", from_height_m)
    ABOVE_GROUND.check("to_height_m", to_height_m)
    ROUGHNESS.check("roughness_m", roughness_m)
    return wind_m_s * math.log(to_height_m / roughness_m) / math.log(from_height_m / roughness_m)


def gust(mean_m_s: float, factor: float = USUAL_GUST_FACTOR) -> float:
    """Return a gust from an hourly mean where the forecast gives no gust.

    Parameters
    ----------
    mean_m_s : float
        Hourly mean wind, 0 to 120. [m/s]
    factor : float
        Gust over mean, 1 to 3. [1]

    Returns
    -------
    float
        The gust. [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    1.4 to 1.6 in the open at 10 m: practice, from memory.

    Examples
    --------
    >>> gust(6.0)
    9.0
    """
    WIND.check("mean_m_s", mean_m_s)
    GUST.check("factor", factor)
    return mean_m_s * factor
