"""Colour temperatures by formula from a chromaticity, as meters without a search compute them.

`shoots.lighting.core.colour.correlated_colour` follows the definition; these show what a meter may read.

References
----------
C. S. McCamy, Color Research & Application 17(2), 1992, 142; J. Hernández-Andrés, R. L. Lee, J. Romero, Applied
Optics 38(27), 1999, 5703.
"""

import math

from shoots.lighting.core.colour import CHROMATICITY, KELVIN


def mccamy_temperature(x: float, y: float) -> float | None:
    """Return a colour temperature by a cubic that needs no search, as many meters do.

    Parameters
    ----------
    x, y : float
        CIE 1931 chromaticity, above 0 up to 1. [1]

    Returns
    -------
    float or None
        449·n³ + 3525·n² + 6823.3·n + 5520.33, n = (x - 0.3320)/(0.1858 - y): a few kelvin off between 3000
        and 10,000 K, see `correlated_colour` for the definition; None for a colour without one. [K]

    Raises
    ------
    OutOfRange
        If a coordinate is outside its range.

    References
    ----------
    C. S. McCamy, Color Research & Application 17(2), 1992.

    Examples
    --------
    >>> round(mccamy_temperature(0.31271, 0.32902), -2)
    6500.0
    """
    CHROMATICITY.check("x", x)
    CHROMATICITY.check("y", y)
    slope = 0.1858 - y
    if abs(slope) < 1e-6:
        return None
    n = (x - 0.3320) / slope
    kelvin = ((449.0 * n + 3525.0) * n + 6823.3) * n + 5520.33
    return kelvin if KELVIN.holds(kelvin) else None


def hernandez_temperature(x: float, y: float) -> float | None:
    """Return a colour temperature by a sum of exponentials that was made for daylight and skylight.

    Parameters
    ----------
    x, y : float
        CIE 1931 chromaticity, above 0 up to 1. [1]

    Returns
    -------
    float or None
        Within 2 % from 3000 K up; some 1 % too low at 3200 K, see `correlated_colour` for the definition; None
        for a colour without one. [K]

    Raises
    ------
    OutOfRange
        If a coordinate is outside its range.

    References
    ----------
    J. Hernández-Andrés, R. L. Lee, J. Romero, Applied Optics 38(27), 1999, 5703, eq. 3 with table 1.

    Examples
    --------
    >>> round(hernandez_temperature(0.31271, 0.32902), -2)
    6500.0
    """
    CHROMATICITY.check("x", x)
    CHROMATICITY.check("y", y)
    kelvin = _exponentials(x, y, _BELOW_50000_K)
    if kelvin is None or kelvin > 50000.0:
        kelvin = _exponentials(x, y, _ABOVE_50000_K)
    return kelvin if kelvin is not None and KELVIN.holds(kelvin) else None


_BELOW_50000_K = (
    (0.3366, 0.1735),
    -949.86315,
    ((6253.80338, 0.92159), (28.70599, 0.20039), (0.00004, 0.07125)),
)
_ABOVE_50000_K = ((0.3356, 0.1691), 36284.48953, ((0.00228, 0.07861), (5.4535e-36, 0.01543)))
"""Epicentre, constant, and factor and length of each exponential, for both halves of the formula. [K]"""


def _exponentials(
    x: float, y: float, formula: tuple[tuple[float, float], float, tuple[tuple[float, float], ...]]
) -> float | None:
    epicentre, kelvin, terms = formula
    rise = y - epicentre[1]
    if abs(rise) < 1e-6:
        return None
    n = (x - epicentre[0]) / rise
    try:
        return kelvin + math.fsum(factor * math.exp(-n / length) for factor, length in terms)
    except OverflowError:
        return None
