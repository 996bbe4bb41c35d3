"""The scales that a mood and a picture are compared on, and what a mood asks for on each.

References
----------
Ranges at the two poles, tolerances and limits are common practice or our own judgement, no source; the scales
themselves are those of `tone` and `direction`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from shoots.mood.core.measure import Measured
from shoots.values.units import Range

PLACE = Range(0.0, 100.0, "%")


class Scale(StrEnum):
    """What is compared."""

    LIGHTNESS = "LIGHTNESS"
    SHADOW = "SHADOW"
    HIGHLIGHT = "HIGHLIGHT"
    CONTRAST = "CONTRAST"
    CHROMA = "CHROMA"
    WARM_HIGHLIGHTS = "WARM_HIGHLIGHTS"
    WARM_SHADOWS = "WARM_SHADOWS"
    DIRECTION = "DIRECTION"


LINEAR = tuple(scale for scale in Scale if scale is not Scale.DIRECTION)
"""All but the direction of the light, which goes round."""


@dataclass(frozen=True, slots=True)
class Axis:
    """How a scale is drawn and how far apart is too far.

    Attributes
    ----------
    low, high : float
        Ends of the scale as it is drawn and as targets may be typed, in ``unit``.
    unit : str
        Unit of the numbers.
    tolerance : float
        How far a picture may lie from the middle of its set before it pulls away, in ``unit``.
    """

    low: float
    high: float
    unit: str
    tolerance: float


AXES = {
    Scale.LIGHTNESS: Axis(0.0, 100.0, "L*", 15.0),
    Scale.SHADOW: Axis(0.0, 100.0, "%", 25.0),
    Scale.HIGHLIGHT: Axis(0.0, 100.0, "%", 25.0),
    Scale.CONTRAST: Axis(0.0, 100.0, "L*", 20.0),
    Scale.CHROMA: Axis(0.0, 80.0, "C*", 12.0),
    Scale.WARM_HIGHLIGHTS: Axis(-40.0, 40.0, "1", 10.0),
    Scale.WARM_SHADOWS: Axis(-40.0, 40.0, "1", 10.0),
    Scale.DIRECTION: Axis(0.0, 360.0, "°", 60.0),
}


@dataclass(frozen=True, slots=True)
class Span:
    """What a mood asks for on one scale: from, to, both included.

    Attributes
    ----------
    low, high : float
        Limits in the scale's unit. For the direction of the light ``low`` to ``high`` go clockwise.
    """

    low: float
    high: float


ANCHORS = (0.0, 25.0, 50.0, 75.0, 100.0)
"""Places between dark and bright at which the table below is given. [%]"""
ASKED = {
    Scale.LIGHTNESS: ((0.0, 4.0, 30.0, 50.0, 65.0), (32.0, 46.0, 66.0, 92.0, 100.0)),
    Scale.SHADOW: ((55.0, 38.0, 8.0, 0.0, 0.0), (100.0, 100.0, 62.0, 32.0, 15.0)),
    Scale.HIGHLIGHT: ((0.0, 0.0, 5.0, 25.0, 45.0), (15.0, 34.0, 62.0, 100.0, 100.0)),
    Scale.CONTRAST: ((30.0, 28.0, 20.0, 12.0, 6.0), (100.0, 96.0, 88.0, 78.0, 66.0)),
}
"""What is asked for at the anchors, from and to: dark moods have most in shadow and may be black, bright ones have most
in the highlights and may be white; the darker, the more contrast."""


def targets_at(brightness: float) -> dict[Scale, Span]:
    """Return what a mood asks for by its place between dark and bright alone.

    Parameters
    ----------
    brightness : float
        0 dark, 100 bright. [%]

    Returns
    -------
    dict of Scale to Span
        Lightness, the two shares and the contrast, sliding evenly between the anchors. Colour, warmth and direction
        are not decided by the place and are left open.

    Raises
    ------
    OutOfRange
        If ``brightness`` is outside 0 to 100.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> targets_at(0)[Scale.SHADOW].low, targets_at(100)[Scale.SHADOW].high
    (55.0, 15.0)
    """
    PLACE.check("brightness", brightness)
    return {
        scale: Span(float(np.interp(brightness, ANCHORS, low)), float(np.interp(brightness, ANCHORS, high)))
        for scale, (low, high) in ASKED.items()
    }


def place_of(found: Measured) -> float:
    """Return where a picture would stand between dark and bright by its median lightness.

    Parameters
    ----------
    found : Measured
        What was measured.

    Returns
    -------
    float
        0 at the middle of the lightness that the dark pole asks for, 100 at that of the bright one, no further. [%]

    References
    ----------
    Own arrangement after `ASKED`.
    """
    low, high = ASKED[Scale.LIGHTNESS]
    dark, bright = (low[0] + high[0]) / 2.0, (low[-1] + high[-1]) / 2.0
    return min(100.0, max(0.0, 100.0 * (found.tones.lightness - dark) / (bright - dark)))


def value_on(scale: Scale, found: Measured) -> float | None:
    """Return a picture's number on one scale.

    Parameters
    ----------
    scale : Scale
        Which.
    found : Measured
        What was measured.

    Returns
    -------
    float or None
        In the scale's unit; None where the direction of the light can't be told. [1]

    References
    ----------
    See `tone` and `direction`.
    """
    tones = found.tones
    return {
        Scale.LIGHTNESS: tones.lightness,
        Scale.SHADOW: tones.shadow_percent,
        Scale.HIGHLIGHT: tones.highlight_percent,
        Scale.CONTRAST: tones.contrast,
        Scale.CHROMA: tones.chroma,
        Scale.WARM_HIGHLIGHTS: tones.warm_highlights,
        Scale.WARM_SHADOWS: tones.warm_shadows,
        Scale.DIRECTION: found.light.from_deg,
    }[scale]


def misses_by(scale: Scale, value: float | None, targets: Mapping[Scale, Span]) -> float:
    """Return how far a number lies outside what is asked for.

    Parameters
    ----------
    scale : Scale
        Which scale.
    value : float or None
        The picture's number, in the scale's unit; None is not judged. [1]
    targets : mapping of Scale to Span
        What is asked for; a scale that is not in it is open.

    Returns
    -------
    float
        0 inside or where nothing is asked; plus above, minus below. Of the direction the shorter way round, plus
        clockwise. [1]

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> misses_by(Scale.SHADOW, 40.0, targets_at(0))
    -15.0
    """
    span = targets.get(scale)
    if span is None or value is None:
        return 0.0
    if scale is Scale.DIRECTION:
        if (value - span.low) % 360.0 <= (span.high - span.low) % 360.0:
            return 0.0
        past, before = (value - span.high) % 360.0, (span.low - value) % 360.0
        return past if past <= before else -before
    if value > span.high:
        return value - span.high
    return min(0.0, value - span.low)
