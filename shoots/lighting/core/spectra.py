"""A filter from its measured spectrum: the mired it shifts a light by, and how much of the light it takes.

The light is a black body or a measured spectrum too, the eye the CIE 1931 observer. Tables of filters end at
400 and 700 nm; beyond its ends a table is held at its last value, as CIE 15 allows where it can't be measured.

References
----------
Planck's law with c2 = 1.4388e-2 m·K; CIE 15:2018, 7.2 (extrapolation by the nearest measured value; from
memory); ISO/CIE 11664-1, colour-matching functions.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shoots.lighting.core.colour import correlated_colour
from shoots.lighting.core.observer import OBSERVER_NM, OBSERVER_XYZ
from shoots.values.units import FloatArray, Range

KELVIN = Range(1500.0, 25000.0, "K")
WAVELENGTH = Range(300.0, 900.0, "nm")
FIRST = Range(300.0, 420.0, "nm")
LAST = Range(680.0, 900.0, "nm")
SHARE = Range(0.0, 1.0, "1")
POWER = Range(0.0, 1e12, "1")
SOME_POWER = Range(0.0, 1e12, "1", above=True)
COUNT = Range(5.0, 5000.0, "1")
RISING = Range(0.0, 1e3, "nm", above=True)
SOME_LIGHT = Range(1e-9, 1.0, "1")

PLANCK_C2_NM_K = 1.4388e7
"""Second radiation constant. [nm·K]"""

SEEN_NM: FloatArray = np.arange(OBSERVER_NM[0], OBSERVER_NM[-1] + 1.0)
"""Wavelengths that are summed over: the observer bends more than any filter, so its table too is read at 1 nm."""
SEEN_XYZ: tuple[FloatArray, ...] = tuple(np.interp(SEEN_NM, OBSERVER_NM, column) for column in OBSERVER_XYZ.T)
"""The observer at them. [1]"""


@dataclass(frozen=True, slots=True)
class FilterEffect:
    """What a filter does to a light.

    Attributes
    ----------
    shift_mired : float
        Positive for warmer. [MK⁻¹]
    kelvin : float
        Correlated colour temperature behind it. [K]
    transmission : float
        Share of the luminous flux that passes. [1]
    stops : float
        The same in stops, at most 0. [stop]
    duv : float
        Distance from the black bodies behind it, positive to green; beyond 0.02 the mired say little. [1]
    """

    shift_mired: float
    kelvin: float
    transmission: float
    stops: float
    duv: float


def _black_body(nm: FloatArray, kelvin: float) -> FloatArray:
    """Return a black body's relative spectrum, 1 at 560 nm."""
    at = np.append(nm, 560.0)
    radiance = at**-5.0 / np.expm1(PLANCK_C2_NM_K / (at * kelvin))
    found: FloatArray = radiance[:-1] / radiance[-1]
    return found


def _seen(power: FloatArray) -> tuple[float, float, float]:
    """Return X, Y and Z of a spectrum over ``SEEN_NM``."""
    one, two, three = (float(np.trapezoid(power * part, SEEN_NM)) for part in SEEN_XYZ)
    return one, two, three


def _temperature(xyz: tuple[float, float, float]) -> tuple[float, float]:
    total = math.fsum(xyz)
    found = correlated_colour(xyz[0] / total, xyz[1] / total)
    return found.kelvin, found.duv


def _table(wavelengths_nm: Sequence[float], values: Sequence[float], name: str, limits: Range) -> FloatArray:
    """Return what a table says at ``SEEN_NM``: evenly between its points, its end values beyond them."""
    COUNT.check("number of wavelengths_nm", float(len(wavelengths_nm)))
    Range(float(len(wavelengths_nm)), float(len(wavelengths_nm)), "1").check(f"number of {name}", float(len(values)))
    given, told = np.array(wavelengths_nm, dtype=float), np.array(values, dtype=float)
    WAVELENGTH.check("wavelengths_nm", given)
    limits.check(name, told)
    RISING.check("step of wavelengths_nm", np.diff(given))
    FIRST.check("first of wavelengths_nm", float(given[0]))
    LAST.check("last of wavelengths_nm", float(given[-1]))
    found: FloatArray = np.interp(SEEN_NM, given, told)
    return found


def _effect(source: FloatArray, shares: FloatArray) -> FilterEffect:
    before, after = _seen(source), _seen(source * shares)
    transmission = after[1] / before[1]
    SOME_LIGHT.check("transmission of the filter", transmission)
    kelvin, duv = _temperature(after)
    plain, _ = _temperature(before)
    return FilterEffect(1e6 / kelvin - 1e6 / plain, kelvin, transmission, math.log2(transmission), duv)


def filter_effect(source_k: float, wavelengths_nm: Sequence[float], transmittances: Sequence[float]) -> FilterEffect:
    """Return what a filter with a measured spectrum does to a black body's light.

    Parameters
    ----------
    source_k : float
        Colour temperature of the light, a black body, 1500 to 25,000. [K]
    wavelengths_nm : Sequence[float]
        Rising, from 420 or less to 680 or more, at least five; 400 to 700 in tens is what handbooks print. [nm]
    transmittances : Sequence[float]
        At each of them the share that passes, 0 to 1. [1]

    Returns
    -------
    FilterEffect
        The shift is counted from the same light without the filter.

    Raises
    ------
    OutOfRange
        If a number is outside its range, the lists differ in length, or the wavelengths do not rise.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> grey = filter_effect(5500.0, [400.0, 500.0, 600.0, 650.0, 700.0], [0.5] * 5)
    >>> round(grey.shift_mired, 6), round(grey.stops, 6)
    (0.0, -1.0)
    """
    KELVIN.check("source_k", source_k)
    return _effect(_black_body(SEEN_NM, source_k), _table(wavelengths_nm, transmittances, "transmittances", SHARE))


def filter_effect_on_spectrum(
    wavelengths_nm: Sequence[float], powers: Sequence[float], transmittances: Sequence[float]
) -> FilterEffect:
    """Return what a filter with a measured spectrum does to a light with a measured spectrum, such as daylight
    or an LED.

    Parameters
    ----------
    wavelengths_nm : Sequence[float]
        Rising, from 420 or less to 680 or more, at least five; lines of a lamp want steps of 5 or less. [nm]
    powers : Sequence[float]
        At each of them the light's power, in any unit, at least 0 and not all 0. [1]
    transmittances : Sequence[float]
        At each of them the share that passes, 0 to 1; all 1 to learn the colour of the light itself. [1]

    Returns
    -------
    FilterEffect
        The shift is counted from the same light without the filter.

    Raises
    ------
    OutOfRange
        If a number is outside its range, the lists differ in length, or the wavelengths do not rise.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> even = filter_effect_on_spectrum([400.0, 500.0, 600.0, 650.0, 700.0], [1.0] * 5, [1.0] * 5)
    >>> round(even.kelvin, -1), even.stops
    (5460.0, 0.0)
    """
    source = _table(wavelengths_nm, powers, "powers", POWER)
    SOME_POWER.check("greatest of powers", float(np.max(source)))
    return _effect(source / np.max(source), _table(wavelengths_nm, transmittances, "transmittances", SHARE))
