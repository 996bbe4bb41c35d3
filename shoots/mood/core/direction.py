"""From which side of a picture its light comes, where shading tells it.

On a body without edges lightness rises towards the lamp, so the mean direction in which lightness rises over smooth
shading points to it. Edges of things and of patterns say nothing about the lamp and are left out with their
surroundings. Where the directions cancel out (light from the front, from all round, from several sides) or where
there is hardly any shading, the answer is that it can't be told. Nor can it where lightness rises downwards and the
uppermost quarter takes part across the picture: that is what every sky does, wherever the sun stands.

References
----------
Pentland, A. P. (1982), Finding the illuminant direction, Journal of the Optical Society of America 72 (4), 448-455;
Lee, C.-H. and Rosenfeld, A. (1985), Improved methods of estimating shape from shading using the light source
coordinate system, Artificial Intelligence 26 (2), 125-143. The limits are our own, set on computed bodies.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

LONGEST_SIDE = 128
"""Points on the longer side of the copy that shading is read from."""
SMOOTH = 1.5
"""Standard deviation of the smoothing before the slope is taken, in points of that copy. [1]"""
LEAST_SLOPE = 0.25
"""Slope of L* a point under which there is no shading to speak of. [1]"""
MOST_SLOPE = 2.0
"""Slope of L* a point above which a slope weighs no more. [1]"""
EDGE_SLOPE = 4.0
"""Slope of L* a point, hardly smoothed, from which it is an edge. [1]"""
STEP_SLOPE = 0.8
"""Slope of L* a point, hardly smoothed, from which a faint step is looked for. [1]"""
STEP_RATIO = 1.6
"""So much steeper than when smoothed four times as wide, and it is a faint step: shading would stay as it is. [1]"""
EDGE_REACH = 3
"""Points around an edge that are left out with it."""
LEAST_AGREEMENT = 0.35
"""Length of the mean direction from which it is told; 1 if all point the same way, 0 if they cancel out. [1]"""
LEAST_SHADED_PERCENT = 3.0
"""Share of the picture that must be smooth shading. [%]"""


DOWNWARDS_WITHIN_DEG = 75.0
"""How far from straight down a direction may lie to be taken for a sky. [°]"""
SKY_FROM_PERCENT = 50.0
"""Share of the picture's width that has such shading in its uppermost quarter, for a sky. [%]"""


class Untold(StrEnum):
    """Why a direction can't be told."""

    NO_SHADING = "NO_SHADING"
    CANCELS_OUT = "CANCELS_OUT"
    LIKE_A_SKY = "LIKE_A_SKY"


@dataclass(frozen=True, slots=True)
class FoundLight:
    """Where the light comes from in the picture.

    Attributes
    ----------
    from_deg : float or None
        Side it comes from, clockwise from the top of the picture: 90 is the right; None where it can't be told. [°]
    agreement : float
        Length of the mean direction, 0 to 1. [1]
    shaded_percent : float
        Share of the picture that is smooth shading. [%]
    untold : Untold or None
        Why it can't be told.
    """

    from_deg: float | None
    agreement: float
    shaded_percent: float
    untold: Untold | None


def area_mean(plane: NDArray[np.float64], longest: int) -> NDArray[np.float64]:
    """Return a smaller copy whose points are means over equal areas, also across borders of points.

    Parameters
    ----------
    plane : NDArray[np.float64], shape (height, width)
        Values at even spacing. [1]
    longest : int
        Points on the longer side of the copy; a smaller plane comes back as it is.

    Returns
    -------
    NDArray[np.float64]
        The copy; mirrored planes give mirrored copies.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> area_mean(np.array([[1.0, 3.0, 5.0, 7.0]]), 2).tolist()
    [[2.0, 6.0]]
    """
    height, width = plane.shape
    if max(height, width) <= longest:
        return plane
    factor = longest / max(height, width)
    down = _shares(height, max(1, round(height * factor)))
    across = _shares(width, max(1, round(width * factor)))
    return np.asarray(down @ plane @ across.T)


def _shares(many: int, few: int) -> NDArray[np.float64]:
    """Return the matrix, shape (few, many), that takes means over `few` equal parts of a line of `many` points."""
    borders = np.linspace(0.0, many, few + 1)
    starts = np.arange(many)[None, :]
    overlap = np.minimum(borders[1:, None], starts + 1) - np.maximum(borders[:-1, None], starts)
    return np.asarray(np.clip(overlap, 0.0, 1.0) * (few / many))


def light_from(lightness: NDArray[np.float64], seen: NDArray[np.bool_] | None = None) -> FoundLight:
    """Return from which side of the picture the light comes.

    Parameters
    ----------
    lightness : NDArray[np.float64], shape (height, width)
        L* of the picture. [1]
    seen : NDArray[np.bool_], shape (height, width), optional
        False where the picture is transparent; such points and their surroundings count as an edge.

    Returns
    -------
    FoundLight
        With ``from_deg`` None and a reason where it can't be told.

    Notes
    -----
    With g the slope of L* on a copy of 128 points, smoothed, u its direction, and w its length, at most 2: the
    direction is that of s = Σ w u over all points of slope 0.25 or more that lie away from edges, and the agreement
    is the length of s divided by Σ w.

    References
    ----------
    See this module.

    Examples
    --------
    >>> ramp = np.repeat(np.linspace(20.0, 70.0, 60)[None, :], 40, axis=0)
    >>> round(light_from(ramp).from_deg)
    90
    """
    plane = area_mean(np.asarray(lightness, np.float64), LONGEST_SIDE)
    # A small picture is stretched, or the same body would have steeper slopes there than on a large one.
    stretch = LONGEST_SIDE / max(plane.shape)
    rise_y, rise_x = _slopes(plane, SMOOTH / stretch, 1.0 / stretch)
    slope = np.hypot(rise_x, rise_y)
    fine = np.hypot(*_slopes(plane, SMOOTH / stretch / 2.0, 1.0 / stretch))
    coarse = np.hypot(*_slopes(plane, SMOOTH / stretch * 2.0, 1.0 / stretch))
    edge = (fine > EDGE_SLOPE) | ((fine > STEP_SLOPE) & (fine > STEP_RATIO * coarse))
    if seen is not None and not seen.all():
        edge |= area_mean(seen.astype(np.float64), LONGEST_SIDE) < 0.999
    reach = max(1, round(EDGE_REACH / stretch))
    if edge.any():
        from scipy import ndimage

        edge = ndimage.binary_dilation(edge, iterations=reach)
    used = (slope >= LEAST_SLOPE) & ~edge
    shaded = 100.0 * float(np.count_nonzero(used)) / used.size
    if shaded < LEAST_SHADED_PERCENT:
        return FoundLight(None, 0.0, shaded, Untold.NO_SHADING)
    weight = np.minimum(slope[used], MOST_SLOPE)
    sum_x = float((rise_x[used] / slope[used] * weight).sum())
    sum_y = float((rise_y[used] / slope[used] * weight).sum())
    agreement = math.hypot(sum_x, sum_y) / float(weight.sum())
    if agreement < LEAST_AGREEMENT:
        return FoundLight(None, agreement, shaded, Untold.CANCELS_OUT)
    from_deg = math.degrees(math.atan2(sum_x, -sum_y)) % 360.0
    if abs(from_deg - 180.0) <= DOWNWARDS_WITHIN_DEG:
        above = (used & (rise_y > 0.0))[: max(1, used.shape[0] // 4)].any(axis=0)
        if 100.0 * float(above.mean()) >= SKY_FROM_PERCENT:
            return FoundLight(None, agreement, shaded, Untold.LIKE_A_SKY)
    return FoundLight(from_deg, agreement, shaded, None)


def _slopes(
    plane: NDArray[np.float64], smooth: float, spacing: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the slopes downwards and to the right, in L* a point of the copy of 128."""
    if min(plane.shape) < 2:
        return np.zeros_like(plane), np.zeros_like(plane)
    # Models import this module: a quarter of the start-up of every command, which most of them need not pay.
    from scipy import ndimage

    smoothed = ndimage.gaussian_filter(plane, smooth, mode="nearest")
    down, right = np.gradient(smoothed)
    return down * spacing, right * spacing
