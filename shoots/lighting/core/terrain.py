"""The wind of a structural code: mean wind over a terrain, its gusts as a peak pressure, the force on a sign.

It is stricter than the drag of a plate and belongs to what is built, not to a light on its stand; a screen,
a banner or a scrim in a frame that stands for a day is nearer to it.

References
----------
EN 1991-1-4 §4.3 to 4.5 and §7.4.3, read in a worked design example; orography and turbulence factor 1.
"""

import math

from shoots.values.units import Range

WIND = Range(0.0, 120.0, "m/s")
HEIGHT = Range(1.0, 200.0, "m")
ROUGHNESS = Range(1e-4, 0.9, "m")
DENSITY = Range(0.5, 2.0, "kg/m³", above=True)
PRESSURE = Range(0.0, 1e5, "N/m²")
AREA = Range(0.0, 1000.0, "m²")
FORCE_FACTOR = Range(0.0, 4.0, "1", above=True)

REFERENCE_ROUGHNESS_M = 0.05
"""Terrain category II, to which the terrain factor refers. [m]"""
CODE_DENSITY = 1.25
"""Recommended air density of the code. [kg/m³]"""
SIGN_FORCE_FACTOR = 1.80
"""§7.4.3, signboards. [1]"""


def terrain_factor(roughness_m: float) -> float:
    """Return the terrain factor of a roughness length.

    Parameters
    ----------
    roughness_m : float
        1e-4 to 0.9: 0.003 sea, 0.01 category I, 0.05 II, 0.3 III. [m]

    Returns
    -------
    float
        k_r = 0.19·(z0/0.05)^0.07. [1]

    Raises
    ------
    OutOfRange
        If ``roughness_m`` is outside its range.

    References
    ----------
    EN 1991-1-4, (4.5).

    Examples
    --------
    >>> round(terrain_factor(0.01), 4)
    0.1698
    """
    ROUGHNESS.check("roughness_m", roughness_m)
    return float(0.19 * (roughness_m / REFERENCE_ROUGHNESS_M) ** 0.07)


def roughness_factor(height_m: float, roughness_m: float) -> float:
    """Return the mean wind at a height as a share of the basic wind.

    Parameters
    ----------
    height_m : float
        Above the ground, 1 to 200. [m]
    roughness_m : float
        Roughness length, 1e-4 to 0.9. [m]

    Returns
    -------
    float
        c_r = k_r·ln(z/z0). [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    EN 1991-1-4, (4.4).

    Examples
    --------
    >>> round(roughness_factor(5.0, 0.01), 3)
    1.055
    """
    HEIGHT.check("height_m", height_m)
    return terrain_factor(roughness_m) * math.log(height_m / roughness_m)


def mean_wind(basic_m_s: float, height_m: float, roughness_m: float) -> float:
    """Return the mean wind of the code at a height.

    Parameters
    ----------
    basic_m_s : float
        Basic wind of the region, 0 to 120. [m/s]
    height_m : float
        Above the ground, 1 to 200. [m]
    roughness_m : float
        Roughness length, 1e-4 to 0.9. [m]

    Returns
    -------
    float
        v_m = c_r·v_b. [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    EN 1991-1-4, (4.3).

    Examples
    --------
    >>> round(mean_wind(33.0, 5.0, 0.01), 2)
    34.81
    """
    WIND.check("basic_m_s", basic_m_s)
    return basic_m_s * roughness_factor(height_m, roughness_m)


def turbulence_intensity(height_m: float, roughness_m: float) -> float:
    """Return how much a wind gusts at a height.

    Parameters
    ----------
    height_m : float
        Above the ground, 1 to 200. [m]
    roughness_m : float
        Roughness length, 1e-4 to 0.9. [m]

    Returns
    -------
    float
        I_v = 1/ln(z/z0), the spread of the wind over its mean. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    EN 1991-1-4, (4.7).

    Examples
    --------
    >>> round(turbulence_intensity(5.0, 0.01), 4)
    0.1609
    """
    HEIGHT.check("height_m", height_m)
    ROUGHNESS.check("roughness_m", roughness_m)
    return 1.0 / math.log(height_m / roughness_m)


def peak_pressure(basic_m_s: float, height_m: float, roughness_m: float, density_kg_m3: float = CODE_DENSITY) -> float:
    """Return the peak velocity pressure of the code at a height, gusts included.

    Parameters
    ----------
    basic_m_s : float
        Basic wind of the region, 0 to 120. [m/s]
    height_m : float
        Above the ground, 1 to 200. [m]
    roughness_m : float
        Roughness length, 1e-4 to 0.9. [m]
    density_kg_m3 : float
        Air, above 0.5 up to 2. [kg/m³]

    Returns
    -------
    float
        q_p = (1 + 7·I_v)·½·ρ·v_m². [N/m²]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    EN 1991-1-4, (4.8).

    Examples
    --------
    >>> round(peak_pressure(33.0, 5.0, 0.01), -1)
    1610.0
    """
    DENSITY.check("density_kg_m3", density_kg_m3)
    mean = mean_wind(basic_m_s, height_m, roughness_m)
    return (1.0 + 7.0 * turbulence_intensity(height_m, roughness_m)) * 0.5 * density_kg_m3 * mean**2


def sign_force(pressure_n_m2: float, area_m2: float, force_factor: float = SIGN_FORCE_FACTOR) -> float:
    """Return the force on a signboard, or on anything flat that stands free.

    Parameters
    ----------
    pressure_n_m2 : float
        Peak velocity pressure, 0 to 100,000. [N/m²]
    area_m2 : float
        Area that the wind meets, 0 to 1000. [m²]
    force_factor : float
        c_f, above 0 up to 4; 1.80 for a signboard. [1]

    Returns
    -------
    float
        c_f·q_p·A; it may act a quarter of the width off the middle. [N]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    EN 1991-1-4, §7.4.3.

    Examples
    --------
    >>> round(sign_force(1610.0, 35.0))
    101430
    """
    PRESSURE.check("pressure_n_m2", pressure_n_m2)
    AREA.check("area_m2", area_m2)
    FORCE_FACTOR.check("force_factor", force_factor)
    return force_factor * pressure_n_m2 * area_m2
