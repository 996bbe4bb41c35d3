"""The light that a mood asks for, as wishes that a setup can be held against.

References
----------
Common practice, no source; limits stand beside their names.
"""

import math

from shoots.brief.core.light import AskedLight, Depth
from shoots.lighting.core.wishes import Target, Wishes
from shoots.values.units import Range

SHADOW = Range(0.0, 20.0, "stop", above=True)

RATIO_TOLERANCE_STOPS = 0.5
"""How far a lighting ratio may be off before anybody sees it; common practice, no source. [stop]"""
RIM_STOPS, RIM_TOLERANCE_STOPS = 0.7, 0.7
"""Rims from the exposure to well over it; common practice, no source. [stop]"""
SHALLOW_NARROWEST = 2.8
"""Smallest aperture that still counts as shallow; common practice, no source. [1]"""
DEEP_WIDEST = 8.0
"""Widest aperture for much that is sharp; common practice, no source. [1]"""


def key_over_fill(shadow_stops: float) -> float:
    """Return how far the key alone is over the fill for a shadow side that is so far under the lit side.

    Parameters
    ----------
    shadow_stops : float
        Shadow side under lit side, above 0 up to 20. [stop]

    Returns
    -------
    float
        log₂(2^s - 1), because the lit side gets key and fill. [stop]

    Raises
    ------
    OutOfRange
        If ``shadow_stops`` is outside its range.

    References
    ----------
    Arithmetic; US Army course SS0510, pp. 1-18 and 1-19, counts the key together with the fill.

    Examples
    --------
    >>> key_over_fill(1.0)
    0.0
    """
    SHADOW.check("shadow_stops", shadow_stops)
    return math.log2(math.exp2(shadow_stops) - 1.0)


def span_target(low_stops: float, high_stops: float) -> Target:
    """Return a span of stops as a wish with its tolerance.

    Parameters
    ----------
    low_stops, high_stops : float
        From and to. [stop]

    Returns
    -------
    Target
        Its middle, give or take half of it.

    Raises
    ------
    OutOfRange
        If the middle is beyond 20 stops.

    References
    ----------
    Arithmetic.

    Examples
    --------
    >>> span_target(-3.0, -2.0)
    Target(stops=-2.5, tolerance_stops=0.5)
    """
    return Target((low_stops + high_stops) / 2.0, abs(high_stops - low_stops) / 2.0)


def mood_wishes(asked: AskedLight) -> Wishes:
    """Return what a mood asks of the light.

    Parameters
    ----------
    asked : AskedLight
        The light that the mood asks for.

    Returns
    -------
    Wishes
        Ambient on the subject and tone behind it apart, shadows, rims and limits of the aperture; the sky may
        blow out where the tone that is asked for comes near it.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> from shoots.brief.core.light import light_asked
    >>> mood_wishes(light_asked(0.0)).ambient
    Target(stops=-2.5, tolerance_stops=0.5)
    """
    return Wishes(
        ambient=span_target(asked.ambient_from_stops, asked.ambient_to_stops),
        background=span_target(asked.background_from_stops, asked.background_to_stops),
        sky_may_blow=asked.depth is Depth.SHALLOW,
        key_over_fill=Target(key_over_fill(asked.key_to_fill_stops), RATIO_TOLERANCE_STOPS),
        rims=Target(RIM_STOPS, RIM_TOLERANCE_STOPS),
        widest=DEEP_WIDEST if asked.depth is Depth.DEEP else None,
        narrowest=SHALLOW_NARROWEST if asked.depth is Depth.SHALLOW else None,
    )
