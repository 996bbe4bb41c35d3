"""The conventions that a studio may settle once: meter constants, ratio, low sun, altitude, series.

They are stated here with their usual values and passed to every function that depends on them.

References
----------
ISO 2720:1974 allows 240 to 400 for a flat receptor, 320 to 540 for a hemispherical one, 10.6 to 13.4 for the
reflected-light constant. US Army course SS0510, pp. 1-18 and 1-19, counts the key together with the fill (A).
"""

from dataclasses import dataclass
from enum import StrEnum

from shoots.places.core.lightday import LOW_SUN, LowSun
from shoots.places.core.sun import Altitude
from shoots.values.units import Range

FLAT_RECEPTOR = 250.0
"""Usual incident constant C of a meter with a flat (cosine) receptor. [lx·s]"""
DOME_RECEPTOR = 330.0
"""Usual incident constant C of a meter with its dome out; it reads 0.40 stop lower. [lx·s]"""
REFLECTED_CONSTANT = 12.5
"""Usual reflected constant K. [cd·s/m²]"""

METER_CONSTANT_RANGE = Range(50.0, 1000.0, "lx·s")
"""Wider than ISO 2720 allows, so that older formulas (C = 171 or 215) can be put in. [lx·s]"""
REFLECTED_CONSTANT_RANGE = Range(2.0, 60.0, "cd·s/m²")


class Ratio(StrEnum):
    """Which lighting ratio is meant when a key and a fill are compared."""

    KEY_AND_FILL_TO_FILL = "KEY_AND_FILL_TO_FILL"
    """A: the lit side, which gets both, against the shadow side: 1 + k to 1."""
    KEY_TO_FILL = "KEY_TO_FILL"
    """B: the two lights read one by one: k to 1."""


class Receptor(StrEnum):
    """What the incident meter is held up with; the constant has to fit it."""

    FLAT = "FLAT"
    """Dome in: it takes light by the cosine, as a cheek does. Usual C = 250."""
    DOME = "DOME"
    """Dome out: it takes light from all sides, weighted by (1 + cos θ)/2. Usual C = 330."""


class Series(StrEnum):
    """What a marked aperture, time or speed stands for."""

    EXACT = "EXACT"
    """f/11 is 11.314, 1/60 s is 1/64 s: what cameras are built to give."""
    MARKED = "MARKED"
    """The printed number itself."""


@dataclass(frozen=True, slots=True)
class Conventions:
    """What a studio means by its numbers.

    Attributes
    ----------
    meter_constant : float
        Incident-light constant C. [lx·s]
    receptor : Receptor
        Dome in or out; it decides how ambient light from the side counts.
    reflected_constant : float
        Reflected-light constant K. [cd·s/m²]
    ratio : Ratio
        Which lighting ratio is written.
    low_sun : LowSun
        Limits of low warm sun.
    altitude : Altitude
        Geometric (as almanacs count events) or apparent (as the eye sees it).
    series : Series
        How marks are read.
    """

    meter_constant: float = FLAT_RECEPTOR
    receptor: Receptor = Receptor.FLAT
    reflected_constant: float = REFLECTED_CONSTANT
    ratio: Ratio = Ratio.KEY_AND_FILL_TO_FILL
    low_sun: LowSun = LOW_SUN
    altitude: Altitude = Altitude.GEOMETRIC
    series: Series = Series.EXACT

    def __post_init__(self) -> None:
        METER_CONSTANT_RANGE.check("meter_constant", self.meter_constant)
        REFLECTED_CONSTANT_RANGE.check("reflected_constant", self.reflected_constant)


USUAL = Conventions()
"""The conventions of a studio that has not settled its own."""
