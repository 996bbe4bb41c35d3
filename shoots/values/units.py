"""Conversions between the units that several cores speak: stops, ratios, mired, kelvin, feet, degrees.

Light adds linearly (lx, lx·s), never in stops; one stop is a factor of two in light.

References
----------
ISO 2720:1974 (a stop as a factor of two in exposure); CIE S 017 International Lighting Vocabulary (mired, the
reciprocal megakelvin, term 17-23-068); the international foot of 1959, exactly 0.3048 m.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeAlias, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

FloatArray: TypeAlias = NDArray[np.float64]
Num = TypeVar("Num", float, FloatArray)

METRES_PER_FOOT = 0.3048
"""Exact since 1959. [m]"""


class OutOfRange(ValueError):
    """Raised when a quantity lies outside the range that its function states.

    Attributes
    ----------
    name : str
        The argument that is wrong.
    value : float
        What was given, in the unit of the range; the first offending element of an array.
    low, high : float
        The limits of the range, in ``unit``.
    unit : str
        Unit of the three numbers.
    """

    def __init__(self, name: str, value: float, low: float, high: float, unit: str) -> None:
        super().__init__(f"{name}={value!r} is outside {low!r}..{high!r} [{unit}]")
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit


@dataclass(frozen=True, slots=True)
class Range:
    """The interval in which an argument makes sense, limits included unless ``above`` is set.

    Attributes
    ----------
    low, high : float
        The limits, in ``unit``.
    unit : str
        Unit of the limits.
    above : bool
        True when ``low`` itself is not allowed.
    """

    low: float
    high: float
    unit: str
    above: bool = False

    def holds(self, value: float) -> bool:
        """Return whether one number lies inside; NaN never does.

        Parameters
        ----------
        value : float
            The number, in the range's own unit. [1]
        """
        return self.low <= value <= self.high and not (self.above and value == self.low)

    def check(self, name: str, value: float | FloatArray) -> None:
        """Do nothing when every number lies inside, else say which does not.

        Parameters
        ----------
        name : str
            The argument's name, for the error.
        value : float or NDArray[np.float64], any shape
            What to check, in the range's own unit; NaN counts as outside. [1]

        Raises
        ------
        OutOfRange
            If any number lies outside.
        """
        if isinstance(value, np.ndarray):
            inside = (value >= self.low) & (value <= self.high)
            if self.above:
                inside &= value != self.low
            if not inside.all():
                raise OutOfRange(name, float(value[~inside].flat[0]), self.low, self.high, self.unit)
        elif not self.holds(value):
            raise OutOfRange(name, value, self.low, self.high, self.unit)


STOPS = Range(-200.0, 200.0, "stop")
RATIO = Range(0.0, 1e60, "1", above=True)
KELVIN = Range(0.0, 1e9, "K", above=True)
MIRED = Range(0.0, 1e9, "MK⁻¹", above=True)
LENGTH = Range(0.0, 1e9, "m")
ANGLE = Range(-1e6, 1e6, "°")


def _pick(scalar: Callable[[float], float], array: Callable[[FloatArray], Any], value: Num) -> Num:
    """Return scalar(value) for a number and array(value) for an array: scalars in, scalars out."""
    if isinstance(value, np.ndarray):
        return cast("Num", array(value))
    return scalar(value)


def log2(value: Num) -> Num:
    """Return the binary logarithm of a number or of an array.

    Parameters
    ----------
    value : float or NDArray[np.float64], any shape
        Greater than 0. [1]
    """
    return _pick(math.log2, np.log2, value)


def exp2(value: Num) -> Num:
    """Return two to the power of a number or of an array.

    Parameters
    ----------
    value : float or NDArray[np.float64], any shape
        The exponent. [1]
    """
    return _pick(math.exp2, np.exp2, value)


def root(value: Num) -> Num:
    """Return the square root of a number or of an array.

    Parameters
    ----------
    value : float or NDArray[np.float64], any shape
        At least 0. [1]
    """
    return _pick(math.sqrt, np.sqrt, value)


def stops_from_ratio(ratio: Num) -> Num:
    """Return how many stops more light a ratio of two lights is.

    Parameters
    ----------
    ratio : float or NDArray[np.float64], any shape
        New light over old light, greater than 0. [1]

    Returns
    -------
    float or NDArray[np.float64]
        Positive when the ratio is above one. [stop]

    Raises
    ------
    OutOfRange
        If ``ratio`` is not positive.

    Examples
    --------
    >>> stops_from_ratio(8.0)
    3.0
    """
    RATIO.check("ratio", ratio)
    return log2(ratio)


def ratio_from_stops(stops: Num) -> Num:
    """Return the ratio of two lights that lie so many stops apart.

    Parameters
    ----------
    stops : float or NDArray[np.float64], any shape
        Positive for more light, -200 to 200. [stop]

    Returns
    -------
    float or NDArray[np.float64]
        New light over old light. [1]

    Raises
    ------
    OutOfRange
        If ``stops`` is not a number between -200 and 200.

    Examples
    --------
    >>> ratio_from_stops(-1.0)
    0.5
    """
    STOPS.check("stops", stops)
    return exp2(stops)


def mired_from_kelvin(temperature_k: Num) -> Num:
    """Return a colour temperature in mired, in which filters add.

    Parameters
    ----------
    temperature_k : float or NDArray[np.float64], any shape
        Correlated colour temperature, greater than 0. [K]

    Returns
    -------
    float or NDArray[np.float64]
        Reciprocal megakelvin; larger is warmer. [MK⁻¹]

    Raises
    ------
    OutOfRange
        If ``temperature_k`` is not positive.

    Examples
    --------
    >>> mired_from_kelvin(3200.0)
    312.5
    """
    KELVIN.check("temperature_k", temperature_k)
    return 1e6 / temperature_k


def kelvin_from_mired(mired: Num) -> Num:
    """Return the colour temperature that a number of mired stands for.

    Parameters
    ----------
    mired : float or NDArray[np.float64], any shape
        Reciprocal megakelvin, greater than 0. [MK⁻¹]

    Returns
    -------
    float or NDArray[np.float64]
        Correlated colour temperature. [K]

    Raises
    ------
    OutOfRange
        If ``mired`` is not positive.

    Examples
    --------
    >>> kelvin_from_mired(250.0)
    4000.0
    """
    MIRED.check("mired", mired)
    return 1e6 / mired


def metres_from_feet(feet: float) -> float:
    """Return a length in metres.

    Parameters
    ----------
    feet : float
        Length, at least 0. [ft]

    Returns
    -------
    float
        The same length. [m]

    Raises
    ------
    OutOfRange
        If ``feet`` is negative.

    Examples
    --------
    >>> round(metres_from_feet(10.0), 3)
    3.048
    """
    LENGTH.check("feet", feet)
    return feet * METRES_PER_FOOT


def feet_from_metres(metres: float) -> float:
    """Return a length in feet.

    Parameters
    ----------
    metres : float
        Length, at least 0. [m]

    Returns
    -------
    float
        The same length. [ft]

    Raises
    ------
    OutOfRange
        If ``metres`` is negative.

    Examples
    --------
    >>> round(feet_from_metres(32.0), 2)
    104.99
    """
    LENGTH.check("metres", metres)
    return metres / METRES_PER_FOOT


def wrap_bearing(angle_deg: float) -> float:
    """Return an angle as a bearing from 0 up to, not including, 360.

    Parameters
    ----------
    angle_deg : float
        Any angle, clockwise positive. [°]

    Returns
    -------
    float
        The same direction, 0 to 360. [°]

    Raises
    ------
    OutOfRange
        If ``angle_deg`` is not a finite number.

    Examples
    --------
    >>> wrap_bearing(-90.0)
    270.0
    """
    ANGLE.check("angle_deg", angle_deg)
    wrapped = math.fmod(angle_deg, 360.0)
    if wrapped < 0.0:
        wrapped += 360.0
    # A tiny negative angle rounds up to 360.0 in floating point; that is north again.
    return 0.0 if wrapped >= 360.0 else wrapped


def wrap_turn(angle_deg: float) -> float:
    """Return an angle as the shortest turn, from above -180 up to 180.

    Parameters
    ----------
    angle_deg : float
        Any angle, clockwise positive. [°]

    Returns
    -------
    float
        The same direction, from -180 (excluded) to 180. [°]

    Raises
    ------
    OutOfRange
        If ``angle_deg`` is not a finite number.

    Examples
    --------
    >>> wrap_turn(350.0)
    -10.0
    """
    bearing = wrap_bearing(angle_deg)
    return bearing - 360.0 if bearing > 180.0 else bearing
