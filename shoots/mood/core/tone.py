"""How light and dark, colour and warmth are spread over a picture.

L* is CIELAB's lightness, even to the eye: 0 black, 50 about a mid grey of 18 % reflectance, 100 white. Shadow, middle
and highlight are its three thirds.

References
----------
ISO/CIE 11664-4:2019 (L*, C*ab); CIE 15:2018, 4.1.2 (the daylight locus). Where the limits lie is common practice, no
source: thirds of the scale, and a half or a fifth of the picture for the words low-key and high-key.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

SHADOW_BELOW = 100.0 / 3.0
"""L* under which a point is in shadow: the lowest third. [1]"""
HIGHLIGHT_FROM = 200.0 / 3.0
"""L* from which a point is a highlight: the highest third. [1]"""
KEY_FROM_PERCENT = 50.0
"""Share that makes a picture low-key (in shadow) or high-key (in the highlights). [%]"""
KEY_OTHER_BELOW_PERCENT = 20.0
"""Share that the opposite third may have at most in a low-key or high-key picture. [%]"""
SPLIT_FROM_PERCENT = 30.0
"""Share that shadow and highlight must both have for a picture of two halves. [%]"""
LOW_PERCENTILE, HIGH_PERCENTILE = 5.0, 95.0
"""Between which the contrast is taken, so that a speck decides nothing. [%]"""
WARM_AXIS = (0.2017, 0.9794)
"""Unit vector in (a*, b*) along which white moves as daylight turns from 6504 K to 4000 K; CIE 15:2018, 4.1.2. [1]"""
WARM_FROM = 4.0
"""CIELAB units along that axis from which a tint is called warm, below minus that cool; own judgement. [1]"""
QUARTER_PERCENT = 25.0
"""Highlights and shadows of one picture, for its tints: its brightest and its darkest quarter. [%]"""


class Key(StrEnum):
    """Where most of a picture lies on the scale from dark to bright."""

    LOW = "LOW"
    MIDDLE = "MIDDLE"
    HIGH = "HIGH"
    SPLIT = "SPLIT"


class Tint(StrEnum):
    """Whether a tone leans to yellow or to blue."""

    WARM = "WARM"
    NEUTRAL = "NEUTRAL"
    COOL = "COOL"


@dataclass(frozen=True, slots=True)
class Tones:
    """The spread of a picture's tones.

    Attributes
    ----------
    shadow_percent, middle_percent, highlight_percent : float
        Shares of the picture in the three thirds of L*; their sum is 100. [%]
    lightness, lightness_low, lightness_high : float
        L* that half, a twentieth and nineteen twentieths of the picture lie below. [1]
    chroma, chroma_high : float
        C*ab: the mean, and what nineteen twentieths lie below. [1]
    warm_highlights, warm_shadows : float
        Mean place on the warm axis of the brightest and of the darkest quarter; plus is warm. [1]
    steps : tuple[float, ...]
        Shares of the picture in 20 even steps of L*, dark first. [%]
    """

    shadow_percent: float
    middle_percent: float
    highlight_percent: float
    lightness: float
    lightness_low: float
    lightness_high: float
    chroma: float
    chroma_high: float
    warm_highlights: float
    warm_shadows: float
    steps: tuple[float, ...]

    @property
    def contrast(self) -> float:
        """Span of L* between the 5th and the 95th percentile. [1]"""
        return self.lightness_high - self.lightness_low

    @property
    def key(self) -> Key:
        """Low, high, two halves, or in the middle."""
        return key_of(self.shadow_percent, self.highlight_percent)


def key_of(shadow_percent: float, highlight_percent: float) -> Key:
    """Return what a picture is called from its shares in shadow and highlight.

    Parameters
    ----------
    shadow_percent, highlight_percent : float
        Shares of the picture. [%]

    Returns
    -------
    Key
        LOW or HIGH from half the picture on while the opposite third has under a fifth; SPLIT from 30 % in both.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> key_of(70.0, 5.0).value, key_of(40.0, 40.0).value
    ('LOW', 'SPLIT')
    """
    if shadow_percent >= KEY_FROM_PERCENT and highlight_percent < KEY_OTHER_BELOW_PERCENT:
        return Key.LOW
    if highlight_percent >= KEY_FROM_PERCENT and shadow_percent < KEY_OTHER_BELOW_PERCENT:
        return Key.HIGH
    if min(shadow_percent, highlight_percent) >= SPLIT_FROM_PERCENT:
        return Key.SPLIT
    return Key.MIDDLE


def tint_of(warmth: float) -> Tint:
    """Return the word for a place on the warm axis.

    Parameters
    ----------
    warmth : float
        CIELAB units, plus is warm. [1]

    Returns
    -------
    Tint
        NEUTRAL between minus 4 and 4.

    References
    ----------
    Own judgement, no source.

    Examples
    --------
    >>> tint_of(6.0).value, tint_of(-1.0).value
    ('WARM', 'NEUTRAL')
    """
    if warmth >= WARM_FROM:
        return Tint.WARM
    return Tint.COOL if warmth <= -WARM_FROM else Tint.NEUTRAL


def tones_of(points: NDArray[np.float32]) -> Tones:
    """Return how light, colour and warmth are spread over a picture's points.

    Parameters
    ----------
    points : NDArray[np.float32], shape (n, 3)
        L*, a*, b* under D50 of every point that counts, n at least 1. [1]

    Returns
    -------
    Tones
        Shares, percentiles and means.

    Raises
    ------
    ValueError
        If there is no point.

    Notes
    -----
    A quarter is taken by number of points: with m the L* that a quarter lies below, all points at or under m. In a
    picture of one tone both quarters are the whole picture.

    References
    ----------
    ISO/CIE 11664-4:2019; CIE 15:2018. Limits: see this module's constants.

    Examples
    --------
    >>> tones_of(np.array([[20.0, 0.0, 0.0], [80.0, 0.0, 0.0]], np.float32)).shadow_percent
    50.0
    """
    if not len(points):
        raise ValueError("no point to measure")
    light = points[:, 0].astype(np.float64)
    count = len(light)
    shadow = 100.0 * np.count_nonzero(light < SHADOW_BELOW) / count
    high = 100.0 * np.count_nonzero(light >= HIGHLIGHT_FROM) / count
    low_l, dark, middle, bright, high_l = np.percentile(
        light, [LOW_PERCENTILE, QUARTER_PERCENT, 50.0, 100.0 - QUARTER_PERCENT, HIGH_PERCENTILE]
    )
    chroma = np.hypot(points[:, 1], points[:, 2])
    warmth = points[:, 1] * WARM_AXIS[0] + points[:, 2] * WARM_AXIS[1]
    steps = np.bincount(np.clip((light / 5.0).astype(np.int64), 0, 19), minlength=20) * (100.0 / count)
    return Tones(
        shadow_percent=float(shadow),
        middle_percent=float(100.0 - shadow - high),
        highlight_percent=float(high),
        lightness=float(middle),
        lightness_low=float(low_l),
        lightness_high=float(high_l),
        chroma=float(chroma.mean(dtype=np.float64)),
        chroma_high=float(np.percentile(chroma, HIGH_PERCENTILE)),
        warm_highlights=float(warmth[light >= bright].mean(dtype=np.float64)),
        warm_shadows=float(warmth[light <= dark].mean(dtype=np.float64)),
        steps=tuple(float(share) for share in steps),
    )
