"""A filter from its measured spectrum: the mired it shifts a light by, and how much of the light it takes.

The light is a black body, the eye the CIE 1931 observer.

References
----------
Planck's law with c2 = 1.4388e-2 m·K (CIE 15:2018); ISO/CIE 11664-1, colour-matching functions.
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
SHARE = Range(0.0, 1.0, "1")
COUNT = Range(5.0, 5000.0, "1")
RISING = Range(0.0, 1e3, "nm", above=True)
SOME_LIGHT = Range(1e-9, 1.0, "1")

PLANCK_C2_NM_K = 1.4388e7
"""Second radiation constant. [nm·K]"""


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


def _seen(nm: FloatArray, power: FloatArray) -> tuple[float, float, float]:
    """Return X, Y and Z of a spectrum."""
    eye = (np.interp(nm, OBSERVER_NM, OBSERVER_XYZ[:, column], left=0.0, right=0.0) for column in range(3))
    one, two, three = (float(np.trapezoid(power * part, nm)) for part in eye)
    return one, two, three


def _temperature(xyz: tuple[float, float, float]) -> tuple[float, float]:
    total = math.fsum(xyz)
    found = correlated_colour(xyz[0] / total, xyz[1] / total)
    return found.kelvin, found.duv


def filter_effect(source_k: float, wavelengths_nm: Sequence[float], transmittances: Sequence[float]) -> FilterEffect:
    """Return what a filter with a measured spectrum does to a light.

    Parameters
    ----------
    source_k : float
        Colour temperature of the light, a black body, 1500 to 25,000. [K]
    wavelengths_nm : Sequence[float]
        Rising, 300 to 900, at least five; 400 to 700 in tens is what handbooks print. [nm]
    transmittances : Sequence[float]
        At each of them the share that passes, 0 to 1. [1]

    Returns
    -------
    FilterEffect
        The shift is counted from the same light without the filter, seen over the same wavelengths.

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
    COUNT.check("number of wavelengths_nm", float(len(wavelengths_nm)))
    Range(float(len(wavelengths_nm)), float(len(wavelengths_nm)), "1").check(
        "number of transmittances", float(len(transmittances))
    )
    given, shares = np.array(wavelengths_nm, dtype=float), np.array(transmittances, dtype=float)
    WAVELENGTH.check("wavelengths_nm", given)
    SHARE.check("transmittances", shares)
    RISING.check("step of wavelengths_nm", np.diff(given))
    # The observer bends more than any filter, so the table of the filter is read evenly between its points.
    nm = np.linspace(given[0], given[-1], max(2, round(float(given[-1] - given[0])) + 1))
    source = _black_body(nm, source_k)
    passed = source * np.interp(nm, given, shares)
    before, after = _seen(nm, source), _seen(nm, passed)
    transmission = after[1] / before[1] if before[1] > 0.0 else 0.0
    SOME_LIGHT.check("transmission of the filter", transmission)
    kelvin, duv = _temperature(after)
    plain, _ = _temperature(before)
    return FilterEffect(1e6 / kelvin - 1e6 / plain, kelvin, transmission, math.log2(transmission), duv)
