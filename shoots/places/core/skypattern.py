"""How bright each part of the sky is: the tone of a sky behind the subject.

References
----------
CIE S 011 / ISO 15469 (traditional overcast sky); R. Kittler 1967, CIE 22/1973 (clear sky; from memory, the
bracket in the denominator seen in an open daylight program).
"""

import math
from functools import lru_cache

import numpy as np

from shoots.places.core.sun import BEARING
from shoots.values.steps import Formula
from shoots.values.units import FloatArray, Range

ELEVATION = Range(0.0, 90.0, "°")
ILLUMINANCE = Range(0.0, 1e6, "lx", above=True)

OVERCAST = Formula("overcast_sky_luminance", "L = 9 · E / (7π) · (1 + 2 · sin γ) / 3", "cd/m²", "CIE S 011 / ISO 15469")
CLEAR = Formula(
    "clear_sky_luminance",
    "L ∝ (1 − e^(−0.32 / sin γ)) · (0.91 + 10 · e^(−3θ) + 0.45 · cos² θ)",
    "cd/m²",
    "Kittler 1967; CIE 22/1973, from memory",
)


def overcast_sky_luminance(illuminance_lx: float, elevation_deg: float) -> float:
    """Return how bright a patch of a fully overcast sky is.

    Parameters
    ----------
    illuminance_lx : float
        On open, level ground, above 0 up to 1e6. [lx]
    elevation_deg : float
        Height of the patch above the horizon, 0 to 90. [°]

    Returns
    -------
    float
        At the horizon a third of the zenith. [cd/m²]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    CIE S 011 / ISO 15469.

    Examples
    --------
    >>> round(overcast_sky_luminance(10240.0, 20.0))
    2352
    """
    ILLUMINANCE.check("illuminance_lx", illuminance_lx)
    ELEVATION.check("elevation_deg", elevation_deg)
    zenith = 9.0 * illuminance_lx / (7.0 * math.pi)
    return zenith * (1.0 + 2.0 * math.sin(math.radians(elevation_deg))) / 3.0


def _clear_pattern(elevation: FloatArray, from_sun: FloatArray, sun_zenith: float) -> FloatArray:
    """Return clear-sky luminance over that of the zenith; angles in radians."""
    gradation = -np.expm1(-0.32 / np.maximum(np.sin(elevation), 1e-6))
    indicatrix = 0.91 + 10.0 * np.exp(-3.0 * from_sun) + 0.45 * np.cos(from_sun) ** 2
    at_zenith = 0.91 + 10.0 * math.exp(-3.0 * sun_zenith) + 0.45 * math.cos(sun_zenith) ** 2
    pattern: FloatArray = gradation * indicatrix / (0.27385 * at_zenith)
    return pattern


def _from_sun(elevation: FloatArray, turn: FloatArray, sun_altitude: float) -> FloatArray:
    """Return the angle between a patch and the sun; all in radians."""
    cosine = np.sin(elevation) * math.sin(sun_altitude)
    cosine = cosine + np.cos(elevation) * math.cos(sun_altitude) * np.cos(turn)
    angle: FloatArray = np.arccos(np.clip(cosine, -1.0, 1.0))
    return angle


@lru_cache(maxsize=512)
def _ground_over_zenith(sun_altitude: float) -> float:
    """Return ground illuminance over zenith luminance of the clear pattern, by Gauss and trapezoid. [sr]"""
    nodes, weights = np.polynomial.legendre.leggauss(48)
    elevation = (nodes + 1.0) * math.pi / 4.0
    turns = np.linspace(0.0, 2.0 * math.pi, 96, endpoint=False)
    grid, turn = np.meshgrid(elevation, turns, indexing="ij")
    pattern = _clear_pattern(grid, _from_sun(grid, turn, sun_altitude), math.pi / 2.0 - sun_altitude)
    rings = pattern.mean(axis=1) * 2.0 * math.pi * np.sin(elevation) * np.cos(elevation)
    return float((rings * weights).sum() * math.pi / 4.0)


def clear_sky_luminance(
    diffuse_lx: float,
    elevation_deg: float,
    bearing_deg: float,
    sun_altitude_deg: float,
    sun_azimuth_deg: float,
) -> float:
    """Return how bright a patch of a cloudless sky is, away from the sun's own disc.

    Parameters
    ----------
    diffuse_lx : float
        What the sky alone gives on level ground, above 0 up to 1e6. [lx]
    elevation_deg : float
        Height of the patch above the horizon, 0 to 90. [°]
    bearing_deg : float
        Direction of the patch. [°, clockwise from true north]
    sun_altitude_deg : float
        Altitude of the sun, 0 to 90. [°]
    sun_azimuth_deg : float
        Direction of the sun. [°, clockwise from true north]

    Returns
    -------
    float
        Brightest round the sun, darkest about a right angle from it. [cd/m²]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    R. Kittler 1967, CIE 22/1973 (from memory), scaled so that the whole sky gives ``diffuse_lx``.

    Examples
    --------
    >>> towards = clear_sky_luminance(15000.0, 20.0, 180.0, 30.0, 180.0)
    >>> away = clear_sky_luminance(15000.0, 20.0, 0.0, 30.0, 180.0)
    >>> towards > 3.0 * away
    True
    """
    ILLUMINANCE.check("diffuse_lx", diffuse_lx)
    ELEVATION.check("elevation_deg", elevation_deg)
    BEARING.check("bearing_deg", bearing_deg)
    ELEVATION.check("sun_altitude_deg", sun_altitude_deg)
    BEARING.check("sun_azimuth_deg", sun_azimuth_deg)
    sun = math.radians(sun_altitude_deg)
    patch = np.array(math.radians(elevation_deg))
    turn = np.array(math.radians(bearing_deg - sun_azimuth_deg))
    pattern = float(_clear_pattern(patch, _from_sun(patch, turn, sun), math.pi / 2.0 - sun))
    return diffuse_lx * pattern / _ground_over_zenith(sun)
