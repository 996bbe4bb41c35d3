"""The light that a mood asks for: how far the ambient goes under, how hard the key is, how much stays sharp.

The two poles are common practice: dark pictures keep the ambient two to three stops under, with a hard key and
rims; bright ones keep the background at middle grey or over, with a soft key and little depth. Between them
everything slides evenly. Ambient light on the subject and the tone behind it are two separate wishes: the key adds
to the one and not to the other. On the subject the ambient is part of the exposure, so with a key beside it it
always stays a little under.

References
----------
Common practice, no source.
"""

from dataclasses import dataclass
from enum import StrEnum

from shoots.values.units import Range

BRIGHTNESS = Range(0.0, 100.0, "%")
DARK_AMBIENT_STOPS = (-3.0, -2.0)
"""Ambient against the subject at the dark pole, from and to. [stop]"""
BRIGHT_AMBIENT_STOPS = (-1.2, -0.2)
"""Ambient against the subject at the bright pole, from and to. [stop]"""
DARK_BACKGROUND_STOPS = (-2.0, 0.0)
"""Background or sky against middle grey at the dark pole, from and to. [stop]"""
BRIGHT_BACKGROUND_STOPS = (0.0, 1.4)
"""Background or sky against middle grey at the bright pole, from and to. [stop]"""
DARK_KEY_TO_FILL_STOPS = 3.0
"""Shadow side under the lit side at the dark pole. [stop]"""
BRIGHT_KEY_TO_FILL_STOPS = 1.0
"""Shadow side under the lit side at the bright pole. [stop]"""


class Edge(StrEnum):
    """How the key draws its shadows."""

    HARD = "HARD"
    CRISP = "CRISP"
    SOFT = "SOFT"


class Depth(StrEnum):
    """How much stays sharp."""

    DEEP = "DEEP"
    MIDDLE = "MIDDLE"
    SHALLOW = "SHALLOW"


@dataclass(frozen=True, slots=True)
class AskedLight:
    """What a mood asks of the light.

    Attributes
    ----------
    ambient_from_stops, ambient_to_stops : float
        Between which two values the ambient lies against the subject's own exposure; minus is darker. [stop]
    background_from_stops, background_to_stops : float
        Between which two values the background or sky lies against middle grey; minus is darker. [stop]
    key_to_fill_stops : float
        How much darker the shadow side is than the lit side, which gets key and fill. [stop]
    key : Edge
        How hard the key is.
    rims : bool
        Whether lights from behind draw the edges.
    depth : Depth
        How much stays sharp.
    """

    ambient_from_stops: float
    ambient_to_stops: float
    background_from_stops: float
    background_to_stops: float
    key_to_fill_stops: float
    key: Edge
    rims: bool
    depth: Depth

    def ambient_misses_by(self, ambient_stops: float) -> float:
        """Return how far an ambient lies outside what is asked for.

        Parameters
        ----------
        ambient_stops : float
            Ambient against the subject's exposure, minus is darker. [stop]

        Returns
        -------
        float
            0 inside; positive when it is too bright, negative when it is too dark. [stop]
        """
        if ambient_stops > self.ambient_to_stops:
            return ambient_stops - self.ambient_to_stops
        return min(0.0, ambient_stops - self.ambient_from_stops)


def light_asked(brightness: float) -> AskedLight:
    """Return the light that a mood asks for, from its place between dark and bright.

    Parameters
    ----------
    brightness : float
        0 is dark, hard and dramatic, 100 bright, soft and summery. [%]

    Returns
    -------
    AskedLight
        Stops slide evenly between the poles; words change at a third and at two thirds.

    Raises
    ------
    OutOfRange
        If ``brightness`` is outside 0 to 100.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> asked = light_asked(0)
    >>> asked.ambient_from_stops, asked.ambient_to_stops, asked.key.value, asked.rims
    (-3.0, -2.0, 'HARD', True)
    """
    BRIGHTNESS.check("brightness", brightness)
    share = brightness / 100.0
    third = 0 if share < 1.0 / 3.0 else 1 if share < 2.0 / 3.0 else 2
    return AskedLight(
        ambient_from_stops=_between(DARK_AMBIENT_STOPS[0], BRIGHT_AMBIENT_STOPS[0], share),
        ambient_to_stops=_between(DARK_AMBIENT_STOPS[1], BRIGHT_AMBIENT_STOPS[1], share),
        background_from_stops=_between(DARK_BACKGROUND_STOPS[0], BRIGHT_BACKGROUND_STOPS[0], share),
        background_to_stops=_between(DARK_BACKGROUND_STOPS[1], BRIGHT_BACKGROUND_STOPS[1], share),
        key_to_fill_stops=_between(DARK_KEY_TO_FILL_STOPS, BRIGHT_KEY_TO_FILL_STOPS, share),
        key=(Edge.HARD, Edge.CRISP, Edge.SOFT)[third],
        rims=third == 0,
        depth=(Depth.DEEP, Depth.MIDDLE, Depth.SHALLOW)[third],
    )


def _between(dark: float, bright: float, share: float) -> float:
    return dark + (bright - dark) * share
