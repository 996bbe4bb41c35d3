"""Neutral filters: density and filter factor in stops, and the light that passes.

References
----------
ISO 5-1, optical density as -log10 of transmittance; a stop is a factor of two by definition.
"""

import math

from shoots.values.units import Num, Range, exp2

DENSITY = Range(0.0, 18.0, "1")
FILTER_STOPS = Range(0.0, 60.0, "stop")
FILTER_FACTOR = Range(1.0, 1e18, "1")
LIGHT = Range(0.0, 1e12, "lx", above=True)


def nd_stops_from_density(density: float) -> float:
    """Return what a neutral filter takes away, from its optical density.

    Parameters
    ----------
    density : float
        Optical density, 0 to 18: 0.3 is close to one stop. [1]

    Returns
    -------
    float
        Loss, at least 0. [stop]

    Raises
    ------
    OutOfRange
        If ``density`` is outside its range.

    References
    ----------
    ISO 5-1, optical density as -log10 of transmittance.

    Examples
    --------
    >>> round(nd_stops_from_density(0.9), 2)
    2.99
    """
    DENSITY.check("density", density)
    return density * math.log2(10.0)


def nd_stops_from_factor(factor: float) -> float:
    """Return what a neutral filter takes away, from its filter factor ("ND8").

    Parameters
    ----------
    factor : float
        How many times less light passes, 1 to 1e18. [1]

    Returns
    -------
    float
        Loss, at least 0. [stop]

    Raises
    ------
    OutOfRange
        If ``factor`` is below one.

    References
    ----------
    Definition: a stop is a factor of two.

    Examples
    --------
    >>> nd_stops_from_factor(8.0)
    3.0
    """
    FILTER_FACTOR.check("factor", factor)
    return math.log2(factor)


def light_after_filter(light: Num, filter_stops: float) -> Num:
    """Return a light behind a filter.

    Parameters
    ----------
    light : float or NDArray[np.float64], any shape
        Illuminance, luminance or exposure before the filter, greater than 0. [lx, cd/m² or lx·s]
    filter_stops : float
        Loss of the filter, 0 to 60. [stop]

    Returns
    -------
    float or NDArray[np.float64]
        In the unit that went in. [lx, cd/m² or lx·s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Definition: a stop is a factor of two.

    Examples
    --------
    >>> light_after_filter(8000.0, 3.0)
    1000.0
    """
    LIGHT.check("light", light)
    FILTER_STOPS.check("filter_stops", filter_stops)
    return light * exp2(-filter_stops)
