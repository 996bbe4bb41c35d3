"""One picture measured: tones, colours and the side that its light comes from, with the way to every number.

References
----------
ISO/CIE 11664-4:2019; see `tone`, `palette` and `direction`.
"""

import math
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shoots.mood.core.direction import FoundLight, Untold, light_from
from shoots.mood.core.lab import luminance_of_lightness
from shoots.mood.core.palette import Colour, colours_of
from shoots.mood.core.tone import (
    HIGH_PERCENTILE,
    HIGHLIGHT_FROM,
    LOW_PERCENTILE,
    SHADOW_BELOW,
    WARM_AXIS,
    Tones,
    tones_of,
)
from shoots.values.steps import Formula, Step

WAY = 1
"""Number of this way of measuring; what was measured in another way is measured again."""
MEASURED_PX = 384
"""Points on the longer side of the copy that is measured; a smaller picture is measured as it is."""
_LAB = "ISO/CIE 11664-4:2019, under D50, 2° observer; sRGB by IEC 61966-2-1:1999 or the file's own ICC profile"
_THIRDS = f"{_LAB}. The thirds of L* are common practice, no source"
_SHARE = Formula("share_of_points", "100 × points in the third ÷ all points", "%", _THIRDS)
_HALF = Formula("median_lightness", "L* that half of the points lie below; L* = 116 × f(Y/Yn) − 16", "L*", _LAB)
_SPAN = Formula("contrast", "L*(95 %) − L*(5 %)", "L*", f"{_LAB}. Percentiles instead of extremes: common practice")
_STOPS = Formula("contrast_in_stops", "log2(Y(95 %) ÷ Y(5 %)), Y from L*, at least 0.1 %", "stop", _LAB)
_CHROMA = Formula("mean_chroma", "mean of C*ab = √(a*² + b*²)", "C*", _LAB)
_WARM = Formula(
    "warmth",
    "mean of 0.2017 a* + 0.9794 b* over a quarter of the points",
    "1",
    "CIE 15:2018, 4.1.2: the way that white takes in CIELAB when daylight turns from 6504 K to 4000 K",
)
_LIGHT = Formula(
    "agreement_of_slopes",
    "|Σ w g/|g|| ÷ Σ w, g the slope of L* on smooth shading, w = min(|g|, 2)",
    "1",
    "Pentland (1982), J. Opt. Soc. Am. 72 (4), 448-455; Lee and Rosenfeld (1985), Artificial Intelligence 26 (2); "
    "limits our own, set on computed bodies",
)


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured in one picture.

    Attributes
    ----------
    width_px, height_px : int
        Size of the copy that was measured.
    points : int
        How many of its points counted: all that are not transparent.
    tones : Tones
        Light and dark, chroma, warmth.
    colours : tuple[Colour, ...]
        The colours, the largest share first.
    light : FoundLight
        The side that the light comes from, or why it can't be told.
    """

    width_px: int
    height_px: int
    points: int
    tones: Tones
    colours: tuple[Colour, ...]
    light: FoundLight


def measure(lab: NDArray[np.float32], seen: NDArray[np.bool_] | None = None) -> Measured:
    """Return what can be said of a picture.

    Parameters
    ----------
    lab : NDArray[np.float32], shape (height, width, 3)
        L*, a*, b* under D50 of an upright copy of about 384 points on the longer side. [1]
    seen : NDArray[np.bool_], shape (height, width), optional
        False where the picture is transparent; such points count for nothing.

    Returns
    -------
    Measured
        Numbers only; words are the page's.

    Raises
    ------
    ValueError
        If no point is seen.

    References
    ----------
    See `tone`, `palette` and `direction`.

    Examples
    --------
    >>> grey = np.zeros((4, 6, 3), np.float32) + np.array([50.0, 0.0, 0.0], np.float32)
    >>> measure(grey).tones.middle_percent
    100.0
    """
    height, width = lab.shape[:2]
    points = lab.reshape(-1, 3) if seen is None else lab[seen]
    lightness = lab[..., 0].astype(np.float64)
    if seen is not None and not seen.all() and len(points):
        lightness = np.where(seen, lightness, points[:, 0].mean())
    tones = tones_of(points)
    return Measured(width, height, len(points), tones, colours_of(points), light_from(lightness, seen))


def as_kept(found: Measured) -> dict[str, Any]:
    """Return what was measured as it is stored.

    Parameters
    ----------
    found : Measured
        What was measured.

    Returns
    -------
    dict
        Numbers, texts, lists and dicts only, rounded to what can be told apart; `way` says how it was measured.

    References
    ----------
    Own arrangement.
    """
    return {"way": WAY, **_rounded(asdict(found))}


def _rounded(value: Any) -> Any:
    if isinstance(value, float):
        return round(value, 4)
    if isinstance(value, dict):
        return {name: _rounded(part) for name, part in value.items()}
    if isinstance(value, list | tuple):
        return [_rounded(part) for part in value]
    return value


def from_kept(kept: Mapping[str, Any] | None) -> Measured | None:
    """Return what was stored, or None where nothing was, or where it was measured in another way than today's.

    Parameters
    ----------
    kept : mapping or None
        As `as_kept` gave it.

    Returns
    -------
    Measured or None
        What was measured.

    References
    ----------
    Own arrangement.
    """
    if not kept or kept.get("way") != WAY:
        return None
    light = kept["light"]
    return Measured(
        kept["width_px"],
        kept["height_px"],
        kept["points"],
        Tones(**{**kept["tones"], "steps": tuple(kept["tones"]["steps"])}),
        tuple(Colour(tuple(colour["lab"]), colour["percent"]) for colour in kept["colours"]),
        FoundLight(**{**light, "untold": Untold(light["untold"]) if light["untold"] else None}),
    )


def contrast_stops(tones: Tones) -> float:
    """Return the contrast of a picture as a photographer counts it.

    Parameters
    ----------
    tones : Tones
        Of the picture.

    Returns
    -------
    float
        Stops between the luminances at the 5th and at the 95th percentile, black taken as 0.1 % at least. [stop]

    References
    ----------
    ISO/CIE 11664-4:2019, annex B; a stop is a factor of two, ISO 2720:1974.
    """
    low, high = (max(0.001, luminance_of_lightness(part)) for part in (tones.lightness_low, tones.lightness_high))
    return math.log2(high / low)


def ways(found: Measured) -> dict[str, tuple[Step, ...]]:
    """Return how each number came about, for a page that opens it.

    Parameters
    ----------
    found : Measured
        What was measured.

    Returns
    -------
    dict of str to tuple[Step, ...]
        By the names of `scales.Scale`, and ``COLOURS``.

    References
    ----------
    See the steps themselves.
    """
    tones, light, count = found.tones, found.light, found.points
    size = (("copy_width_1", found.width_px, "px"), ("copy_height_1", found.height_px, "px"), ("points", count, "1"))
    shadow_points = round(tones.shadow_percent * count / 100.0)
    high_points = round(tones.highlight_percent * count / 100.0)
    axis = (("weight_of_a", WARM_AXIS[0], "1"), ("weight_of_b", WARM_AXIS[1], "1"))
    low, high = tones.lightness_low, tones.lightness_high
    span = (("percentile_low", LOW_PERCENTILE, "%"), ("percentile_high", HIGH_PERCENTILE, "%"))
    return {
        "LIGHTNESS": (_HALF.step(tones.lightness, *size),),
        "SHADOW": (
            _SHARE.step(
                tones.shadow_percent, ("L*_below", SHADOW_BELOW, "1"), ("points_there", shadow_points, "1"), *size
            ),
        ),
        "HIGHLIGHT": (
            _SHARE.step(
                tones.highlight_percent, ("L*_from", HIGHLIGHT_FROM, "1"), ("points_there", high_points, "1"), *size
            ),
        ),
        "CONTRAST": (
            _SPAN.step(tones.contrast, ("L*_low", low, "1"), ("L*_high", high, "1"), *span),
            _STOPS.step(
                contrast_stops(tones),
                ("Y_low", 100.0 * luminance_of_lightness(low), "%"),
                ("Y_high", 100.0 * luminance_of_lightness(high), "%"),
            ),
        ),
        "CHROMA": (_CHROMA.step(tones.chroma, *size),),
        "WARM_HIGHLIGHTS": (_WARM.step(tones.warm_highlights, ("brightest_part", 25.0, "%"), *axis),),
        "WARM_SHADOWS": (_WARM.step(tones.warm_shadows, ("darkest_part", 25.0, "%"), *axis),),
        "DIRECTION": (_LIGHT.step(light.agreement, ("smooth_shading", light.shaded_percent, "%")),),
    }
