"""Where a set of pictures agrees and where it pulls apart, and how one picture stands against a mood.

References
----------
The median as the middle that one stray picture doesn't move: ISO 16269-4:2010, 4.3. The mean direction: Mardia and
Jupp (2000), Directional Statistics, Wiley, 2.2. How far apart is too far, and how many scales make a stray picture, is
our own judgement.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np

from shoots.mood.core.lab import delta_e_2000
from shoots.mood.core.measure import Measured
from shoots.mood.core.palette import Colour, colours_together
from shoots.mood.core.scales import AXES, LINEAR, Scale, Span, misses_by, place_of, value_on
from shoots.mood.core.tone import Key, key_of

STRAY_FROM = 2
"""On so many scales a picture must pull away before it is said to disagree with the rest."""
STRANGE_FROM = 20.0
"""ΔE00 to the nearest colour of the mood from which a colour counts as strange to it; own judgement. [1]"""
STRANGE_LEAST_PERCENT = 4.0
"""Share of the picture that a strange colour must have to be named. [%]"""


@dataclass(frozen=True, slots=True)
class Row:
    """One scale with all pictures of a set.

    Attributes
    ----------
    scale : Scale
        Which.
    values : tuple[float | None, ...]
        Each picture's number in the scale's unit; None where it can't be told.
    middle : float or None
        The middle of the set; None where no picture tells it.
    apart : tuple[int, ...]
        Places, from 0, of the pictures that lie further from the middle than the scale's tolerance.
    target : Span or None
        What the mood asks for; None where it is open.
    outside : tuple[int, ...]
        Places of the pictures that lie outside what the mood asks for.
    """

    scale: Scale
    values: tuple[float | None, ...]
    middle: float | None
    apart: tuple[int, ...]
    target: Span | None
    outside: tuple[int, ...]

    @property
    def agrees(self) -> bool:
        """Whether at least two pictures tell it and none pulls away."""
        return sum(value is not None for value in self.values) > 1 and not self.apart


@dataclass(frozen=True, slots=True)
class Together:
    """A set of pictures as one.

    Attributes
    ----------
    rows : tuple[Row, ...]
        Every scale.
    stray : tuple[int, ...]
        Places, from 0, of the pictures that disagree with the rest.
    keys : tuple[Key, ...]
        What each picture is called.
    key : Key
        What the pictures that agree are called.
    shadow_percent, highlight_percent : float
        Middle of their shares. [%]
    place : float
        Middle of their places between dark (0) and bright (100). [%]
    colours : tuple[Colour, ...]
        Their colours together.
    """

    rows: tuple[Row, ...]
    stray: tuple[int, ...]
    keys: tuple[Key, ...]
    key: Key
    shadow_percent: float
    highlight_percent: float
    place: float
    colours: tuple[Colour, ...]

    @property
    def pulls_apart(self) -> bool:
        """Whether more than half of the pictures disagree, so that there is no rest to speak of."""
        return 2 * len(self.stray) > len(self.keys)


@dataclass(frozen=True, slots=True)
class Miss:
    """A scale on which a picture lies outside what the mood asks for.

    Attributes
    ----------
    scale : Scale
        Which.
    value : float
        The picture's number, in the scale's unit.
    target : Span
        What is asked for.
    by : float
        How far outside, plus above or clockwise, in the scale's unit.
    """

    scale: Scale
    value: float
    target: Span
    by: float


def middle_direction(degrees: Sequence[float]) -> float | None:
    """Return the mean of directions.

    Parameters
    ----------
    degrees : sequence of float
        Directions. [°]

    Returns
    -------
    float or None
        0 up to 360; None where there is none, or where they cancel out. [°]

    References
    ----------
    Mardia and Jupp (2000), Directional Statistics, 2.2.1.

    Examples
    --------
    >>> round(middle_direction([350.0, 20.0]))
    5
    """
    across = sum(math.sin(math.radians(one)) for one in degrees)
    up = sum(math.cos(math.radians(one)) for one in degrees)
    if math.hypot(across, up) < 0.05 * max(1, len(degrees)):
        return None
    return math.degrees(math.atan2(across, up)) % 360.0


def _row(scale: Scale, found: Sequence[Measured], targets: Mapping[Scale, Span]) -> Row:
    values = tuple(value_on(scale, one) for one in found)
    told = [value for value in values if value is not None]
    tolerance = AXES[scale].tolerance
    if scale is Scale.DIRECTION:
        middle = middle_direction(told)
        # Where the directions cancel out, each of them pulls away from the others.
        far = [
            value is not None
            and len(told) > 1
            and (middle is None or abs((value - middle + 180.0) % 360.0 - 180.0) > tolerance)
            for value in values
        ]
    else:
        middle = median(told) if told else None
        far = [value is not None and middle is not None and abs(value - middle) > tolerance for value in values]
    return Row(
        scale,
        values,
        middle,
        tuple(n for n, is_far in enumerate(far) if is_far),
        targets.get(scale),
        tuple(n for n, value in enumerate(values) if misses_by(scale, value, targets)),
    )


def together(found: Sequence[Measured], targets: Mapping[Scale, Span]) -> Together | None:
    """Return a set of pictures as one, with those that pull away.

    Parameters
    ----------
    found : sequence of Measured
        The pictures, in the order in which they are shown.
    targets : mapping of Scale to Span
        What the mood asks for.

    Returns
    -------
    Together or None
        None where there is no picture. A picture disagrees when it pulls away on two scales or more; the key, the
        shares, the place and the colours are those of the others, or of all where more than half disagree.

    References
    ----------
    See this module.
    """
    if not found:
        return None
    rows = tuple(_row(scale, found, targets) for scale in Scale)
    pulls = [sum(n in row.apart for row in rows) for n in range(len(found))]
    stray = tuple(n for n, count in enumerate(pulls) if count >= STRAY_FROM)
    rest = list(found)
    if 2 * len(stray) <= len(found):
        rest = [one for n, one in enumerate(found) if n not in stray]
    shadow = median(one.tones.shadow_percent for one in rest)
    highlight = median(one.tones.highlight_percent for one in rest)
    return Together(
        rows,
        stray,
        tuple(one.tones.key for one in found),
        key_of(shadow, highlight),
        shadow,
        highlight,
        median(place_of(one) for one in rest),
        colours_together([one.colours for one in rest]),
    )


def misses(found: Measured, targets: Mapping[Scale, Span]) -> tuple[Miss, ...]:
    """Return where a picture lies outside what a mood asks for.

    Parameters
    ----------
    found : Measured
        The picture.
    targets : mapping of Scale to Span
        What is asked for.

    Returns
    -------
    tuple[Miss, ...]
        In the order of the scales; empty when the picture is within the mood.

    References
    ----------
    Own derivation, see tests.
    """
    result = []
    for scale in (*LINEAR, Scale.DIRECTION):
        value = value_on(scale, found)
        by = misses_by(scale, value, targets)
        if by and value is not None:
            result.append(Miss(scale, value, targets[scale], by))
    return tuple(result)


def strange_colours(found: Measured, mood: Sequence[Colour]) -> tuple[Colour, ...]:
    """Return the colours of a picture that its mood doesn't have.

    Parameters
    ----------
    found : Measured
        The picture.
    mood : sequence of Colour
        Colours of the mood's references together; without any nothing is strange.

    Returns
    -------
    tuple[Colour, ...]
        Colours of at least 4 % that lie more than ΔE00 20 from every colour of the mood.

    References
    ----------
    ΔE00: ISO/CIE 11664-6:2014. Limits: own judgement.
    """
    if not mood:
        return ()
    known = np.array([colour.lab for colour in mood])
    return tuple(
        colour
        for colour in found.colours
        if colour.percent >= STRANGE_LEAST_PERCENT and delta_e_2000(np.array(colour.lab), known).min() > STRANGE_FROM
    )
