"""Colour temperature: filters in mired, white balance and what each light then looks like, mixed lights.

The mired rule holds for light that is near a black body's (flash, sun, tungsten); it means nothing for
lamps with a line spectrum. Chromaticities are those of the CIE 1931 2° observer.

References
----------
CIE 15:2018 (chromaticity, correlated colour temperature as the nearest point of the Planckian locus in u, v
of CIE 1960); Planck's law with c2 = 1.4388e-2 m·K. P. Wheeler, Practical Cinematography, Fig. 14.1 and 14.2
(mired).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.polynomial import chebyshev

from shoots.kit.core.lamps import GelSpec
from shoots.values.steps import Formula
from shoots.values.units import Range, kelvin_from_mired, mired_from_kelvin

SHIFT = Range(-1000.0, 1000.0, "MK⁻¹")
TRANSMISSION = Range(0.0, 1.0, "1", above=True)
KELVIN = Range(500.0, 1e6, "K")
LOCUS_KELVIN = Range(1500.0, 25000.0, "K")
CHROMATICITY = Range(0.0, 1.0, "1", above=True)
WEIGHT = Range(0.0, 1e12, "lx·s")
ALTITUDE = Range(-90.0, 90.0, "°")
OKTAS = Range(0.0, 8.0, "okta")
TOTAL = Range(0.0, 1e18, "lx·s", above=True)
COUNT = Range(1.0, 1e4, "1")

SHIFTED = Formula("filtered_colour", "M₂ = 10⁶ / T₁ + ΔM", "MK⁻¹", "Practical Cinematography, Fig. 14.2")
APPEARANCE = Formula("appearance", "ΔM = 10⁶ / T_light − 10⁶ / T_white", "MK⁻¹", "Mired arithmetic; derived")

# The Planckian locus in CIE 1960 u, v as Chebyshev series in (mired - 355)/315, 40 to 670 mired; own fit to
# Planck's law and the CIE 1931 observer, largest error 2e-6 in u and v, which is below 0.01 mired.
_LOCUS_U = (
    0.263667769,
    0.091407014,
    0.006757635,
    -0.003451769,
    0.000564892,
    1.3129e-05,
    -5.343e-05,
    2.6524e-05,
    -8.811e-06,
    1.595e-06,
    4.28e-07,
)
_LOCUS_V = (
    0.332838444,
    0.041631848,
    -0.016607029,
    0.002059676,
    0.000776556,
    -0.000544241,
    0.000185483,
    -3.9061e-05,
    -4.83e-07,
    5.959e-06,
    -3.815e-06,
)
_LOCUS_MIDDLE, _LOCUS_HALF = 355.0, 315.0


@dataclass(frozen=True, slots=True)
class ColourTemperature:
    """A colour temperature, which may lie beyond the blue limit.

    Attributes
    ----------
    mired : float
        Reciprocal megakelvin; 0 and below is beyond the blue limit. [MK⁻¹]
    kelvin : float or None
        None beyond the blue limit: there is no such black body. [K]
    """

    mired: float
    kelvin: float | None


@dataclass(frozen=True, slots=True)
class Correlated:
    """The black body nearest to a chromaticity.

    Attributes
    ----------
    kelvin : float
        Correlated colour temperature. [K]
    duv : float
        Distance from the locus in CIE 1960 u, v; positive towards green, negative towards magenta. [1]
    """

    kelvin: float
    duv: float


def filtered_colour(temperature_k: float, shift_mired: float) -> ColourTemperature:
    """Return the colour temperature of a light behind a filter.

    Parameters
    ----------
    temperature_k : float
        Of the light, 500 to 1e6. [K]
    shift_mired : float
        Of the filter, -1000 to 1000; positive is warmer. [MK⁻¹]

    Returns
    -------
    ColourTemperature
        ``kelvin`` is None when the shift leads beyond the blue limit.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    P. Wheeler, Practical Cinematography, Fig. 14.2.

    Examples
    --------
    >>> round(filtered_colour(5500.0, 159.0).kelvin)
    2934
    """
    KELVIN.check("temperature_k", temperature_k)
    SHIFT.check("shift_mired", shift_mired)
    mired = mired_from_kelvin(temperature_k) + shift_mired
    # A millionth of a mired and less would be a light bluer than any sky, by rounding only.
    return ColourTemperature(mired, kelvin_from_mired(mired) if mired > 1e-6 else None)


def shift_needed(from_k: float, to_k: float) -> float:
    """Return the filter that makes one light match another.

    Parameters
    ----------
    from_k, to_k : float
        Colour temperatures of the light and of what it has to match, 500 to 1e6. [K]

    Returns
    -------
    float
        Positive for a warming filter. [MK⁻¹]

    Raises
    ------
    OutOfRange
        If a temperature is outside its range.

    References
    ----------
    Mired arithmetic.

    Examples
    --------
    >>> round(shift_needed(5500.0, 3200.0), 1)
    130.7
    """
    KELVIN.check("from_k", from_k)
    KELVIN.check("to_k", to_k)
    return mired_from_kelvin(to_k) - mired_from_kelvin(from_k)


def stacked_gels(gels: Sequence[GelSpec]) -> GelSpec:
    """Return several gels in front of one another as one.

    Parameters
    ----------
    gels : Sequence[GelSpec]
        None gives a gel that does nothing.

    Returns
    -------
    GelSpec
        Shifts added, transmissions multiplied.

    Raises
    ------
    OutOfRange
        If together they shift by more than a gel can.

    References
    ----------
    Mired arithmetic; layers multiply transmission.

    Examples
    --------
    >>> both = stacked_gels([GelSpec(109.0, 0.71), GelSpec(64.0, 0.79)])
    >>> both.shift_mired, round(both.transmission, 4)
    (173.0, 0.5609)
    """
    return GelSpec(math.fsum(gel.shift_mired for gel in gels), math.prod(sorted(gel.transmission for gel in gels)))


def transmission_stops(transmission: float) -> float:
    """Return what a filter costs.

    Parameters
    ----------
    transmission : float
        Share of the light that passes, above 0 up to 1. [1]

    Returns
    -------
    float
        At most 0. [stop]

    Raises
    ------
    OutOfRange
        If ``transmission`` is outside its range.

    References
    ----------
    Definition of a stop.

    Examples
    --------
    >>> round(transmission_stops(0.55), 3)
    -0.862
    """
    TRANSMISSION.check("transmission", transmission)
    return math.log2(transmission)


def appearance(light_k: float, white_balance_k: float) -> float:
    """Return how warm a light looks under a white balance.

    Parameters
    ----------
    light_k : float
        Colour temperature of the light, 500 to 1e6. [K]
    white_balance_k : float
        Temperature that the camera takes for white, 500 to 1e6. [K]

    Returns
    -------
    float
        Positive looks warm, negative cool; about 10 is the least that is seen. [MK⁻¹]

    Raises
    ------
    OutOfRange
        If a temperature is outside its range.

    References
    ----------
    Mired arithmetic; 10 mired as the least that is seen is common practice, no source.

    Examples
    --------
    >>> round(appearance(3200.0, 5500.0))
    131
    """
    KELVIN.check("light_k", light_k)
    KELVIN.check("white_balance_k", white_balance_k)
    return mired_from_kelvin(light_k) - mired_from_kelvin(white_balance_k)


def planckian_uv(temperature_k: float) -> tuple[float, float]:
    """Return the chromaticity of a black body.

    Parameters
    ----------
    temperature_k : float
        1500 to 25,000. [K]

    Returns
    -------
    tuple[float, float]
        u and v of CIE 1960. [1]

    Raises
    ------
    OutOfRange
        If ``temperature_k`` is outside its range.

    References
    ----------
    CIE 15:2018; own fit, see the module and tests.

    Examples
    --------
    >>> u, v = planckian_uv(2856.0)
    >>> round(u, 3), round(v, 3)
    (0.256, 0.35)
    """
    LOCUS_KELVIN.check("temperature_k", temperature_k)
    x = (mired_from_kelvin(temperature_k) - _LOCUS_MIDDLE) / _LOCUS_HALF
    return float(chebyshev.chebval(x, _LOCUS_U)), float(chebyshev.chebval(x, _LOCUS_V))


def correlated_colour(x: float, y: float) -> Correlated:
    """Return the correlated colour temperature of a chromaticity.

    Parameters
    ----------
    x, y : float
        CIE 1931 chromaticity, above 0 up to 1. [1]

    Returns
    -------
    Correlated
        The nearest black body between 1500 and 25,000 K and the distance from it; a ``duv`` beyond 0.05
        means that a colour temperature says little.

    Raises
    ------
    OutOfRange
        If a coordinate is outside its range.

    References
    ----------
    CIE 15:2018, correlated colour temperature.

    Examples
    --------
    >>> round(correlated_colour(0.31271, 0.32902).kelvin, -1)
    6500.0
    """
    CHROMATICITY.check("x", x)
    CHROMATICITY.check("y", y)
    scale = -2.0 * x + 12.0 * y + 3.0
    return _nearest_black_body(4.0 * x / scale, 6.0 * y / scale)


def _nearest_black_body(u: float, v: float) -> Correlated:
    """Return the point of the locus nearest to u, v: a coarse search, then Newton's steps on the distance."""
    grid = np.linspace(-1.0, 1.0, 127)
    distance = (chebyshev.chebval(grid, _LOCUS_U) - u) ** 2 + (chebyshev.chebval(grid, _LOCUS_V) - v) ** 2
    place = float(grid[int(np.argmin(distance))])
    first_u, first_v = chebyshev.chebder(_LOCUS_U), chebyshev.chebder(_LOCUS_V)
    for _ in range(8):
        off_u, off_v = chebyshev.chebval(place, _LOCUS_U) - u, chebyshev.chebval(place, _LOCUS_V) - v
        along_u, along_v = chebyshev.chebval(place, first_u), chebyshev.chebval(place, first_v)
        # Gauss-Newton: the locus is so little curved between two grid points that its bend may be left out.
        step = (off_u * along_u + off_v * along_v) / (along_u**2 + along_v**2)
        place = min(1.0, max(-1.0, float(place - step)))
    off_u, off_v = u - chebyshev.chebval(place, _LOCUS_U), v - chebyshev.chebval(place, _LOCUS_V)
    kelvin = kelvin_from_mired(_LOCUS_MIDDLE + _LOCUS_HALF * place)
    return Correlated(kelvin, math.copysign(math.hypot(float(off_u), float(off_v)), float(off_v)))


def mixed_colour(lights: Sequence[tuple[float, float]]) -> Correlated:
    """Return the colour of several lights that fall on one surface together.

    Parameters
    ----------
    lights : Sequence[tuple[float, float]]
        For each light what it gives [lx or lx·s] and its colour temperature, 1500 to 25,000 [K]. At least
        one, and not all dark.

    Returns
    -------
    Correlated
        Of the sum, on the chord between the lights and so a little off the locus.

    Raises
    ------
    OutOfRange
        If a number is outside its range.

    References
    ----------
    Grassmann's laws: tristimulus values add. CIE 15:2018.

    Examples
    --------
    >>> round(mixed_colour([(100.0, 3200.0), (100.0, 5600.0)]).kelvin, -1)
    4140.0
    """
    COUNT.check("number of lights", len(lights))
    weights, us, vs = [], [], []
    for amount, kelvin in lights:
        WEIGHT.check("lights", amount)
        u, v = planckian_uv(kelvin)
        # With luminance Y the sum X + 15Y + 3Z is 6Y/v, and u and v mix in proportion to it.
        weights.append(amount / v)
        us.append(amount / v * u)
        vs.append(amount)
    total = math.fsum(weights)
    TOTAL.check("lights", total)
    return _nearest_black_body(math.fsum(us) / total, math.fsum(vs) / total)


def daylight_colour(altitude_deg: float, oktas: float) -> tuple[float, float]:
    """Return a working colour temperature of daylight, with the range it lies in.

    Parameters
    ----------
    altitude_deg : float
        Altitude of the sun, -90 to 90. [°]
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]

    Returns
    -------
    tuple[float, float]
        Colour temperature [K] and the mired that it may lie off to either side [MK⁻¹].

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    Open sun: 2900 K at the horizon, 3300 at 8°, 4000 at 16°, 5250 from 40° on, even in mired between them;
    after sunset the blue sky at 9000 K takes over down to -6°. Cloud pulls towards 7000 K with the square
    of its cover.

    References
    ----------
    One trade chart: sun at rise and set 2800-3000 K, an hour from it 3200-3400, two hours 3900-4100, midday
    5000-5500, overcast 6000-8000. The hours as altitudes at 51° N and the join are our own.

    Examples
    --------
    >>> kelvin, spread = daylight_colour(50.0, 0.0)
    >>> round(kelvin)
    5250
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    OKTAS.check("oktas", oktas)
    altitudes = [-6.0, -0.8333, 0.0, 8.0, 16.0, 40.0]
    temperatures = [9000.0, 3200.0, 2900.0, 3300.0, 4000.0, 5250.0]
    clear = float(np.interp(altitude_deg, altitudes, [1e6 / kelvin for kelvin in temperatures]))
    share = (oktas / 8.0) ** 2
    mired = clear + (1e6 / 7000.0 - clear) * share
    return kelvin_from_mired(mired), 20.0 if altitude_deg > 16.0 else 35.0
