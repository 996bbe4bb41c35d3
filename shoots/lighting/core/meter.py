"""The photographer's own meter: readings noted on the day refit the factors of lights, and say how sure
they are.

Each reading compares what was measured with what had been predicted for the lights that were on. The
factors are those that fit best in stops; a reading that lies far off is given no weight, and what was known
before (the stated numbers with their spread, or the factor of the last shoot) counts as a reading of its own.

References
----------
Weighted least squares with a normal prior, Gauss-Newton, textbook statistics; P. J. Huber, Robust
Statistics, Wiley, 1981 (M-estimates by reweighting); Tukey's biweight with c = 4.685 (95 % efficient for
normal errors).
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from shoots.lighting.core.conventions import FLAT_RECEPTOR
from shoots.lighting.core.metering import luminous_exposure
from shoots.lighting.core.setup import MeterFactor
from shoots.values.units import FloatArray, Range

EXPOSURE = Range(0.0, 1e12, "lx·s", above=True)
SPREAD = Range(0.001, 10.0, "stop")
COUNT = Range(1.0, 1e4, "1")

READING_SPREAD_STOPS = 0.15
"""What one hand-held reading of one light lies off: a tenth shown, aim and place of the meter; own
estimate. [stop]"""
BIWEIGHT_C = 4.685
"""Tukey's constant, in spreads of a reading. [1]"""
DOUBTFUL_WEIGHT = 0.2
"""A reading whose weight falls below this is shown as doubtful. [1]"""


class UnknownLight(ValueError):
    """Raised when a reading names a light that has no prior."""


@dataclass(frozen=True, slots=True)
class NotedReading:
    """One reading against its prediction.

    Attributes
    ----------
    parts : tuple[tuple[str, float], ...]
        For each light that was on its letter (empty for ambient) and what had been predicted for it from
        the stated numbers, without any factor from readings. [lx·s]
    measured_lx_s : float
        What the meter read, as luminous exposure. [lx·s]
    """

    parts: tuple[tuple[str, float], ...]
    measured_lx_s: float

    def __post_init__(self) -> None:
        COUNT.check("number of lights in a reading", len(self.parts))
        for _, predicted in self.parts:
            EXPOSURE.check("parts", predicted)
        EXPOSURE.check("measured_lx_s", self.measured_lx_s)


@dataclass(frozen=True, slots=True)
class Refit:
    """What the readings say.

    Attributes
    ----------
    factors : tuple[tuple[str, MeterFactor], ...]
        For each light its correction and how well it is known, by letter.
    residuals : tuple[float, ...]
        For each reading, measured over fitted. [stop]
    weights : tuple[float, ...]
        For each reading how much it counted, 0 to 1. [1]
    doubtful : tuple[int, ...]
        Which readings hardly counted.
    """

    factors: tuple[tuple[str, MeterFactor], ...]
    residuals: tuple[float, ...]
    weights: tuple[float, ...]
    doubtful: tuple[int, ...]

    def factor(self, letter: str) -> MeterFactor:
        """Return the factor of a light.

        Parameters
        ----------
        letter : str
            Its letter, empty for ambient.

        Raises
        ------
        KeyError
            If there is none.
        """
        return dict(self.factors)[letter]


def measured_exposure(f_number: float, iso: float, meter_constant: float = FLAT_RECEPTOR) -> float:
    """Return what a flash meter's f-number means as luminous exposure.

    Parameters
    ----------
    f_number : float
        Exact f-number read, 0.1 to 10,000. [1]
    iso : float
        ISO set on the meter, 0.01 to 1e8. [1]
    meter_constant : float
        Constant C of the meter, dome in or out, 50 to 1000. [lx·s]

    Returns
    -------
    float
        C·N²/S. [lx·s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974.

    Examples
    --------
    >>> measured_exposure(8.0, 100.0)
    160.0
    """
    return luminous_exposure(f_number, iso, meter_constant)


def _predicted(shares: FloatArray, factors: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return predictions in stops, and each light's share in them, for amounts (readings, lights)."""
    lit = shares * np.exp2(factors)
    total = lit.sum(axis=1)
    return np.log2(total), lit / total[:, None]


def refit(
    readings: Sequence[NotedReading],
    priors: Mapping[str, MeterFactor],
    reading_spread_stops: float = READING_SPREAD_STOPS,
) -> Refit:
    """Return the factors of lights that readings imply.

    Parameters
    ----------
    readings : Sequence[NotedReading]
        In any order; none leaves the priors as they are.
    priors : Mapping[str, MeterFactor]
        For each letter what was known before: 0 with the spread of the stated numbers, or the last refit.
    reading_spread_stops : float
        What one reading lies off, 0.001 to 10. [stop]

    Returns
    -------
    Refit
        With k good readings of one light the spread is 1/sqrt(1/s0² + k/s²), wider when they scatter more
        than stated.

    Raises
    ------
    OutOfRange
        If a number is outside its range.
    UnknownLight
        If a reading names a light without a prior.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> twice = NotedReading((("A", 100.0),), 200.0)
    >>> found = refit([twice, twice, twice], {"A": MeterFactor(0.0, 0.5)})
    >>> round(found.factor("A").stops, 2)
    0.97
    """
    SPREAD.check("reading_spread_stops", reading_spread_stops)
    letters = sorted(priors)
    for letter in letters:
        SPREAD.check("priors", priors[letter].spread_stops)
    for reading in readings:
        for letter, _ in reading.parts:
            if letter not in priors:
                raise UnknownLight(letter)
    before = np.array([priors[letter].stops for letter in letters])
    trust = np.array([priors[letter].spread_stops ** -2 for letter in letters])
    if not readings:
        return Refit(tuple((letter, priors[letter]) for letter in letters), (), (), ())
    amounts = np.zeros((len(readings), len(letters)))
    for row, reading in enumerate(readings):
        for letter, predicted in reading.parts:
            amounts[row, letters.index(letter)] += predicted
    measured = np.log2([reading.measured_lx_s for reading in readings])
    factors, weights = _fit(amounts, measured, before, trust, reading_spread_stops)
    predicted_stops, jacobian = _predicted(amounts, factors)
    residuals = measured - predicted_stops
    normal = (jacobian * (weights / reading_spread_stops**2)[:, None]).T @ jacobian + np.diag(trust)
    spreads = np.sqrt(np.diag(np.linalg.inv(normal))) * _scatter(residuals, weights, reading_spread_stops)
    return Refit(
        factors=tuple(
            (letter, MeterFactor(float(value), float(spread)))
            for letter, value, spread in zip(letters, factors, spreads, strict=True)
        ),
        residuals=tuple(map(float, residuals)),
        weights=tuple(map(float, weights)),
        doubtful=tuple(int(row) for row in np.flatnonzero(weights < DOUBTFUL_WEIGHT)),
    )


def _scatter(residuals: FloatArray, weights: FloatArray, spread: float) -> float:
    """Return by how much more than stated good readings scatter, at least 1; two of them cannot tell."""
    effective = float(weights.sum())
    if effective < 3.0:
        return 1.0
    chi_square = float((weights * (residuals / spread) ** 2).sum()) / (effective - 1.0)
    return math.sqrt(max(1.0, chi_square))


def _fit(
    amounts: FloatArray, measured: FloatArray, before: FloatArray, trust: FloatArray, spread: float
) -> tuple[FloatArray, FloatArray]:
    """Return factors and weights: least absolute deviations to begin with, then Tukey's biweight."""
    factors = before.copy()
    weights = np.ones(len(measured))
    for step in range(60):
        predicted, jacobian = _predicted(amounts, factors)
        off = (measured - predicted) / spread
        if step < 20:
            # Nearly absolute deviations: one wild reading of three cannot draw the start to itself.
            weights = 1.0 / np.maximum(np.abs(off), 1.0)
        else:
            inside = np.minimum(np.abs(off) / BIWEIGHT_C, 1.0)
            weights = (1.0 - inside**2) ** 2
        pull = weights / spread**2
        normal = (jacobian * pull[:, None]).T @ jacobian + np.diag(trust)
        gradient = jacobian.T @ (pull * (measured - predicted)) - trust * (factors - before)
        change = np.linalg.solve(normal, gradient)
        factors = factors + np.clip(change, -2.0, 2.0)
        if step > 20 and float(np.abs(change).max()) < 1e-10:
            break
    return factors, weights
