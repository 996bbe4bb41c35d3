"""How sure a computed number is: from the ranges of what went in to the range of what came out.

A product of powers takes its ranges to first order and as independent of one another, in logarithms, so that a
range may reach further to one side. It is a likely range, no promise.

References
----------
JCGM 100:2008 (GUM) 5.1.6, equation 12: relative variances of a product of powers add with their exponents
squared.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Between:
    """A range in which a number lies likely.

    Attributes
    ----------
    low, high : float
        Its ends, in the unit of the number. [1]
    """

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far one number that went in may lie off, and why.

    Attributes
    ----------
    name : str
        The number's name with its unit suffix.
    low, value, high : float
        Its range and the value that was taken, in ``unit``; the value lies within. [1]
    unit : str
        Its unit; "1" for a pure number.
    source : str
        What the range rests on.
    """

    name: str
    low: float
    value: float
    high: float
    unit: str
    source: str


def product_between(value: float, parts: Sequence[tuple[Doubt, float]]) -> Between:
    """Return the likely range of a product of powers.

    Parameters
    ----------
    value : float
        What was computed, at least 0, in its own unit. [1]
    parts : Sequence[tuple[Doubt, float]]
        What may lie off, each above 0, and the power that it stands in; what may lie down to 0 has no logarithm. [1]

    Returns
    -------
    Between
        Each end with what leads there, as independent errors: a range may be wider to one side. [1]

    References
    ----------
    JCGM 100:2008, 5.1.6.

    Examples
    --------
    >>> drag = Doubt("drag", 1.17, 1.42, 1.80, "1", "handbook and code")
    >>> found = product_between(5.3, [(drag, -0.5)])
    >>> round(found.low, 2), round(found.high, 2)
    (4.71, 5.84)
    """
    down = math.hypot(*(power * math.log(one.value / (one.low if power > 0 else one.high)) for one, power in parts))
    up = math.hypot(*(power * math.log(one.value / (one.high if power > 0 else one.low)) for one, power in parts))
    return Between(value * math.exp(-down), value * math.exp(up))
