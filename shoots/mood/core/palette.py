"""The colours of a picture with their shares: as many as there really are.

Points are counted in cells of CIELAB, each cell stands for the mean of its points, and the two groups whose means lie
closest are joined again and again until every two lie further apart than a stated distance. Nothing is drawn by lot,
so that the same picture always gives the same colours.

References
----------
Own arrangement of centroid linkage: Sokal, R. R. and Michener, C. D. (1958), University of Kansas Science Bulletin 38,
1409-1438; ΔE*ab: ISO/CIE 11664-4:2019, 6.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

CELL = 6.0
"""Edge of a counting cell in CIELAB. [1]"""
ONE_COLOUR_WITHIN = 10.0
"""ΔE*ab up to which two groups count as one colour; own judgement: told apart at a glance, in a chart of 24. [1]"""
LEAST_PERCENT = 1.0
"""A colour of a smaller share is counted with its nearest neighbour. [%]"""
_CELLS_ASIDE, _CELLS_ACROSS = 24, 48  # a* and b* from -144 to 144 hold every colour that a file can carry
CELLS_JOINED = 240
"""So many cells, the fullest first, are joined in pairs; points of the others go to the nearest of these."""


class Hue(StrEnum):
    """Names of hues; neutral ones have none."""

    NEUTRAL = "NEUTRAL"
    PINK = "PINK"
    RED = "RED"
    ORANGE = "ORANGE"
    BROWN = "BROWN"
    YELLOW = "YELLOW"
    OLIVE = "OLIVE"
    GREEN = "GREEN"
    TURQUOISE = "TURQUOISE"
    BLUE = "BLUE"
    VIOLET = "VIOLET"


class Depth(StrEnum):
    """How light a colour is."""

    BLACK = "BLACK"
    DEEP = "DEEP"
    DARK = "DARK"
    MIDDLE = "MIDDLE"
    LIGHT = "LIGHT"
    PALE = "PALE"
    WHITE = "WHITE"


DEPTH_FROM = (
    (12.0, Depth.BLACK),
    (28.0, Depth.DEEP),
    (46.0, Depth.DARK),
    (66.0, Depth.MIDDLE),
    (82.0, Depth.LIGHT),
    (95.0, Depth.PALE),
    (float("inf"), Depth.WHITE),
)
"""Names by L*, each up to its limit; own judgement, no source. [1]"""


NEUTRAL_BELOW = 6.0
"""C*ab under which a colour is named black, grey or white; own judgement. [1]"""
GREYISH_BELOW = 16.0
"""C*ab under which a colour's name says that it is greyish; own judgement. [1]"""
HUE_FROM_DEG = (
    (20.0, Hue.PINK),
    (48.0, Hue.RED),
    (76.0, Hue.ORANGE),
    (106.0, Hue.YELLOW),
    (168.0, Hue.GREEN),
    (232.0, Hue.TURQUOISE),
    (292.0, Hue.BLUE),
    (332.0, Hue.VIOLET),
    (360.0, Hue.PINK),
)
"""Names by hue angle h_ab, each up to its limit; own judgement after the unique hues, no source. [°]"""


@dataclass(frozen=True, slots=True)
class Colour:
    """One colour of a picture.

    Attributes
    ----------
    lab : tuple[float, float, float]
        L*, a*, b* under D50, the mean of its points. [1]
    percent : float
        Its share of the picture. [%]
    """

    lab: tuple[float, float, float]
    percent: float


@dataclass(frozen=True, slots=True)
class ColourName:
    """The parts of a colour's name, for those who can't see it.

    Attributes
    ----------
    depth : Depth
        How light.
    hue : Hue
        Which hue, NEUTRAL for greys.
    is_greyish : bool
        Whether it is close to grey.
    """

    depth: Depth
    hue: Hue
    is_greyish: bool


def colours_of(points: NDArray[np.float32]) -> tuple[Colour, ...]:
    """Return the colours of a picture's points, the largest share first.

    Parameters
    ----------
    points : NDArray[np.float32], shape (n, 3)
        L*, a*, b* under D50. [1]

    Returns
    -------
    tuple[Colour, ...]
        At least one colour when n is at least 1; shares add up to 100.

    References
    ----------
    See this module.

    Examples
    --------
    >>> [round(colour.percent) for colour in colours_of(np.array([[9, 0, 0], [9, 0, 0], [80, 0, 0]], np.float32))]
    [67, 33]
    """
    if not len(points):
        return ()
    begin = np.array([0, _CELLS_ASIDE, _CELLS_ASIDE])
    cells = np.clip(np.floor(points / CELL).astype(np.int64) + begin, 0, _CELLS_ACROSS - 1)
    where = (cells[:, 0] * _CELLS_ACROSS + cells[:, 1]) * _CELLS_ACROSS + cells[:, 2]
    counts = np.bincount(where)
    full = np.flatnonzero(counts)
    sums = np.stack([np.bincount(where, points[:, n])[full] for n in range(3)], axis=1)
    return _joined(sums / counts[full, None], counts[full].astype(np.float64))


def colours_together(palettes: Sequence[Sequence[Colour]]) -> tuple[Colour, ...]:
    """Return the colours of several pictures together, each picture counting alike.

    Parameters
    ----------
    palettes : sequence of sequences of Colour
        The colours of each picture.

    Returns
    -------
    tuple[Colour, ...]
        The largest share first; empty when there is no picture.

    References
    ----------
    See this module.

    Examples
    --------
    >>> both = colours_together([[Colour((20.0, 0.0, 0.0), 100.0)], [Colour((90.0, 0.0, 0.0), 100.0)]])
    >>> [colour.percent for colour in both]
    [50.0, 50.0]
    """
    every = [colour for palette in palettes for colour in palette]
    if not every:
        return ()
    return _joined(np.array([colour.lab for colour in every]), np.array([colour.percent for colour in every]))


def _joined(means: NDArray[np.float64], weights: NDArray[np.float64]) -> tuple[Colour, ...]:
    """Join the closest two of the weighted means until all lie apart, then give small ones to their neighbours."""
    whole = weights.sum()
    # Fullest first; equal ones by their place in CIELAB, so that the order of the points never matters.
    order = np.lexsort((means[:, 2], means[:, 1], means[:, 0], -weights))
    means, weights = means[order], weights[order]
    spare_means, spare_weights = means[CELLS_JOINED:], weights[CELLS_JOINED:]
    means, weights = means[:CELLS_JOINED].copy(), weights[:CELLS_JOINED].copy()
    if len(spare_means):
        _give(means, weights, spare_means, spare_weights)
    apart = ((means[:, None, :] - means[None, :, :]) ** 2).sum(axis=2)
    np.fill_diagonal(apart, np.inf)
    stands = np.ones(len(means), np.bool_)
    for _ in range(len(means) - 1):
        first, second = divmod(int(apart.argmin()), len(means))
        if apart[first, second] > ONE_COLOUR_WITHIN**2:
            break
        first, second = min(first, second), max(first, second)
        total = weights[first] + weights[second]
        means[first] = (means[first] * weights[first] + means[second] * weights[second]) / total
        weights[first] = total
        stands[second] = False
        apart[second, :] = apart[:, second] = np.inf
        line = np.where(stands, ((means - means[first]) ** 2).sum(axis=1), np.inf)
        line[first] = np.inf
        apart[first, :] = apart[:, first] = line
    means, weights = means[stands], weights[stands]
    large = weights >= whole * LEAST_PERCENT / 100.0
    if not large.any():
        large = weights == weights.max()
    small_means, small_weights = means[~large], weights[~large]
    means, weights = means[large], weights[large]
    if len(small_means):
        nearest = _nearest(means, small_means)
        weights = weights + np.bincount(nearest, small_weights, minlength=len(weights))
    order = np.lexsort((means[:, 2], means[:, 1], means[:, 0], -weights))
    return tuple(
        Colour((float(lab[0]), float(lab[1]), float(lab[2])), float(100.0 * weight / whole))
        for lab, weight in zip(means[order], weights[order], strict=True)
    )


def _nearest(means: NDArray[np.float64], others: NDArray[np.float64]) -> NDArray[np.int64]:
    return np.asarray(((others[:, None, :] - means[None, :, :]) ** 2).sum(axis=2).argmin(axis=1))


def _give(
    means: NDArray[np.float64],
    weights: NDArray[np.float64],
    spare_means: NDArray[np.float64],
    spare_weights: NDArray[np.float64],
) -> None:
    """Add weighted means to the nearest of others, in place."""
    nearest = _nearest(means, spare_means)
    added = np.bincount(nearest, spare_weights, minlength=len(weights))
    for n in range(3):
        moved = np.bincount(nearest, spare_weights * spare_means[:, n], minlength=len(weights))
        means[:, n] = (means[:, n] * weights + moved) / (weights + added)
    weights += added


def name_of(lab: tuple[float, float, float]) -> ColourName:
    """Return what a colour is called, in parts.

    Parameters
    ----------
    lab : tuple of float
        L*, a*, b* under D50. [1]

    Returns
    -------
    ColourName
        Depth, hue, and whether it is greyish. Dark orange is brown, dark yellow olive.

    References
    ----------
    Own judgement, no source.

    Examples
    --------
    >>> name = name_of((35.0, 20.0, 30.0))
    >>> name.depth.value, name.hue.value
    ('DARK', 'BROWN')
    """
    light, a, b = lab
    chroma, angle = math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360.0
    depth = next(depth for limit, depth in DEPTH_FROM if light < limit)
    if chroma < NEUTRAL_BELOW or (depth is Depth.BLACK and chroma < GREYISH_BELOW):
        return ColourName(depth, Hue.NEUTRAL, False)
    hue = next(hue for limit, hue in HUE_FROM_DEG if angle < limit or limit == 360.0)
    if hue is Hue.ORANGE and light < 55.0:
        hue = Hue.BROWN
    if hue is Hue.YELLOW and light < 55.0:
        hue = Hue.OLIVE
    if depth in {Depth.BLACK, Depth.WHITE}:
        depth = Depth.DEEP if depth is Depth.BLACK else Depth.PALE
    return ColourName(depth, hue, chroma < GREYISH_BELOW)
