"""A thumbnail of a picture that does not exist yet: its shape, how near it is, its light, and room for words.

The template draws the paths as they are. Coordinates grow right and down from the frame's upper left
corner; the longer side of the frame is 100.

References
----------
Proportions of a standing person, seven and a half heads high: the canon of drawing lessons, common practice.
The rest is our own drawing.
"""

import functools
import re
from dataclasses import dataclass
from enum import StrEnum

from shoots.brief.core.light import Edge, light_asked
from shoots.brief.core.shapes import UnknownShape, aspect

LONG_SIDE = 100.0
"""Longer side of every frame. [1]"""
HEADS = 7.5
"""Height of the figure in heads. [1]"""


class Near(StrEnum):
    """How near a shot is; the codes are those of the shot's framing."""

    DETAIL = "DETAIL"
    CLOSE = "CLOSE"
    HALF = "HALF"
    FULL = "FULL"
    WIDE = "WIDE"


@dataclass(frozen=True, slots=True)
class Mark:
    """One path of a sketch.

    Attributes
    ----------
    d : str
        Path data.
    fill, stroke : str
        Colours, or "none".
    width : float
        Width of the stroke. [1]
    dash : str
        Pattern of the stroke; empty for a full line.
    opacity : float
        0 to 1. [1]
    """

    d: str
    fill: str = "none"
    stroke: str = "none"
    width: float = 0.0
    dash: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Sketch:
    """A drawn frame.

    Attributes
    ----------
    width, height : float
        Size of the frame; the longer side is 100. [1]
    left, top : float
        Where the frame lies in a square of 100, so that all sketches of a list are centred alike. [1]
    marks : tuple[Mark, ...]
        What is drawn, from the back to the front.
    """

    width: float
    height: float
    left: float
    top: float
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Region:
    """A part of the frame, in shares of its width and height."""

    x0: float
    y0: float
    x1: float
    y1: float


_Outline = tuple[tuple[str | float, ...], ...]

# Half a standing person, right of the middle line, in heads below the crown; the left half is its mirror
# image.
_HALF: _Outline = (
    ("M", 0.0, 0.02),
    ("C", 0.26, 0.02, 0.4, 0.2, 0.4, 0.48),
    ("C", 0.4, 0.72, 0.29, 0.9, 0.17, 0.99),
    ("L", 0.17, 1.2),
    ("C", 0.5, 1.3, 0.86, 1.34, 0.94, 1.66),
    ("L", 1.14, 3.72),
    ("L", 0.88, 3.78),
    ("L", 0.68, 2.2),
    ("L", 0.62, 3.9),
    ("L", 0.66, 5.7),
    ("L", 0.78, 7.5),
    ("L", 0.36, 7.5),
    ("L", 0.24, 5.8),
    ("L", 0.02, 4.3),
    ("L", 0.0, 4.3),
    ("Z",),
)
# Half a rucksack seen from behind, in units of its height.
_PACK: _Outline = (
    ("M", 0.0, 0.0),
    ("C", 0.2, 0.0, 0.31, 0.07, 0.33, 0.22),
    ("L", 0.37, 0.86),
    ("C", 0.37, 0.96, 0.31, 1.0, 0.22, 1.0),
    ("L", 0.0, 1.0),
    ("Z",),
)


def copy_region(text: str) -> Region | None:
    """Return the part of the frame that is kept free for words.

    Parameters
    ----------
    text : str
        As somebody wrote it: "top left for the strapline", "right third", "sky".

    Returns
    -------
    Region or None
        None when nothing is written; the upper third when the words name no place.

    References
    ----------
    Own reading of trade words.

    Examples
    --------
    >>> copy_region("leave room top left")
    Region(x0=0.0, y0=0.0, x1=0.5, y1=0.38)
    """
    words = text.casefold()
    if not words.strip():
        return None

    def says(*names: str) -> bool:
        return any(re.search(rf"\b{name}\b", words) for name in names)

    left, right = says("left"), says("right")
    top = says("top", "upper", "above", "sky", "head", "headline")
    bottom = says("bottom", "lower", "below", "under", "foot")
    if (left or right) and not (top or bottom):
        return Region(0.0, 0.0, 0.42, 1.0) if left else Region(0.58, 0.0, 1.0, 1.0)
    across = (0.0, 0.5) if left else (0.5, 1.0) if right else (0.0, 1.0)
    down = (0.68, 1.0) if bottom and not top else (0.0, 0.38 if left or right else 0.3)
    return Region(across[0], down[0], across[1], down[1])


@functools.lru_cache(maxsize=512)
def sketch(near: Near, shape: str, brightness: float, copy_space: str = "") -> Sketch:
    """Return the drawing of a planned picture.

    Parameters
    ----------
    near : Near
        How near it is.
    shape : str
        Its shape, as "4:5"; one that is not known is drawn as 3:2.
    brightness : float
        Its mood, 0 dark to 100 bright. [%]
    copy_space : str
        Where room is left for words; empty for none.

    Returns
    -------
    Sketch
        The subject stands beside the room for words, lit as the mood asks.

    Raises
    ------
    OutOfRange
        If ``brightness`` is outside 0 to 100.

    References
    ----------
    Own drawing; the light is that of `shoots.brief.core.light`.

    Examples
    --------
    >>> drawn = sketch(Near.FULL, "4:5", 12.0, "top left")
    >>> drawn.width, drawn.height, drawn.left
    (80.0, 100.0, 10.0)
    """
    try:
        wide = aspect(shape)
    except UnknownShape:
        wide = 1.5
    width = round(LONG_SIDE * min(1.0, wide), 2)
    height = round(LONG_SIDE * min(1.0, 1.0 / wide), 2)
    light = light_asked(brightness)
    tone = _Tones(brightness / 100.0)
    room = copy_region(copy_space)
    marks = [
        *_ground(near, width, height, tone),
        *_subject(near, width, height, room, tone, light.key, light.rims),
        *(_words(room, width, height, tone) if room else ()),
    ]
    return Sketch(width, height, (LONG_SIDE - width) / 2.0, (LONG_SIDE - height) / 2.0, tuple(marks))


class _Tones:
    """Greys of a picture, cool in the dark and warm in the bright."""

    def __init__(self, share: float) -> None:
        self.share = share
        self.back = self._mix(0.11, 0.86)
        self.glow = self._mix(0.22, 0.95)
        self.floor = self._mix(0.06, 0.74)
        self.far = self._mix(0.15, 0.66)
        self.lit = self._mix(0.80, 0.46)
        self.shade = self._mix(0.045, 0.30)
        self.rim = self._mix(0.95, 0.95)
        # Letters stand out from what is behind them, so they turn over in the middle.
        self.words = self._mix(0.72, 0.72) if share < 0.45 else self._mix(0.2, 0.34)

    def _mix(self, dark: float, bright: float) -> str:
        level = dark + (bright - dark) * self.share
        warmth = (self.share - 0.45) * 0.13
        red, green, blue = (min(1.0, max(0.0, level * (1.0 + turn))) for turn in (warmth, warmth * 0.25, -warmth))
        return f"#{round(red * 255):02x}{round(green * 255):02x}{round(blue * 255):02x}"


def _ground(near: Near, width: float, height: float, tone: _Tones) -> list[Mark]:
    """Return what lies behind the subject: an even tone close up, a horizon further off."""
    marks = [Mark(_box(0, 0, width, height), fill=tone.back)]
    if near in (Near.DETAIL, Near.CLOSE):
        middle, reach = width / 2.0, max(width, height)
        marks += [
            Mark(_circle(middle, height * 0.45, reach * share), fill=tone.glow, opacity=0.35) for share in (0.52, 0.36)
        ]
        return marks
    horizon = height * {Near.HALF: 0.66, Near.FULL: 0.74, Near.WIDE: 0.62}[near]
    if near is Near.WIDE:
        far = (
            f"M0 {horizon * 0.82:.1f}L{width * 0.22:.1f} {horizon * 0.58:.1f}L{width * 0.4:.1f} "
            f"{horizon * 0.8:.1f}L{width * 0.68:.1f} {horizon * 0.46:.1f}L{width:.1f} {horizon * 0.86:.1f}"
            f"V{horizon + 1:.1f}H0Z"
        )
        marks.append(Mark(far, fill=tone.far))
    else:
        marks.append(Mark(_box(0, horizon * 0.55, width, horizon), fill=tone.glow, opacity=0.4))
    marks.append(Mark(_box(0, horizon, width, height), fill=tone.floor))
    return marks


def _subject(
    near: Near, width: float, height: float, room: Region | None, tone: _Tones, key: Edge, rims: bool
) -> list[Mark]:
    """Return the subject in its light: one lit side, one in shade, and edges drawn from behind if asked."""
    middle = width * _beside(room)
    if near is Near.DETAIL:
        size = min(width * 1.15, height * 0.78)
        outline, scale, top = _PACK, size, (height - size) / 2.0
    else:
        share = {Near.CLOSE: 0.52, Near.HALF: 0.26, Near.FULL: 0.115, Near.WIDE: 0.046}[near]
        scale = min(share * height, share * 2.1 * width)
        outline = _HALF
        top = {
            Near.CLOSE: height * 0.16,
            Near.HALF: height * 0.12,
            Near.FULL: height * 0.94 - HEADS * scale,
            Near.WIDE: height * 0.78 - HEADS * scale,
        }[near]
        if room and room.y1 < 0.5 and near in (Near.CLOSE, Near.HALF):
            top = max(top, height * room.y1 * 0.72)
    left = _path(outline, middle, top, scale, mirrored=True)
    right = _path(outline, middle, top, scale, mirrored=False)
    depth = {Edge.HARD: 1.0, Edge.CRISP: 0.7, Edge.SOFT: 0.4}[key]
    marks = [Mark(left + right, fill=tone.lit), Mark(right, fill=tone.shade, opacity=depth)]
    if near is Near.DETAIL:
        pocket = _box(middle - 0.24 * scale, top + 0.56 * scale, middle + 0.24 * scale, top + 0.86 * scale)
        strap = f"M{middle - 0.16 * scale:.1f} {top:.1f}V{top + 0.44 * scale:.1f}H{middle + 0.16 * scale:.1f}V{top:.1f}"
        marks += [Mark(path, stroke=tone.back, width=max(0.8, scale * 0.018), opacity=0.8) for path in (pocket, strap)]
    if rims:
        # The rim follows the outer edge only: not the last two points, which close the half along its middle.
        edge = _path(outline[:-2], middle, top, scale, mirrored=False)
        marks.append(Mark(edge, stroke=tone.rim, width=max(0.5, scale * 0.03), opacity=0.9))
    return marks


def _beside(room: Region | None) -> float:
    """Return where the subject stands across the frame, away from the room for words."""
    if room is None or room.x1 - room.x0 > 0.9:
        return 0.5
    return 0.68 if room.x0 == 0.0 else 0.32


def _words(room: Region, width: float, height: float, tone: _Tones) -> list[Mark]:
    """Return the room for words: a dashed box with lines where letters will be."""
    x0, x1 = width * room.x0 + 4.0, width * room.x1 - 4.0
    y0, y1 = height * room.y0 + 4.0, height * room.y1 - 4.0
    marks = [Mark(_box(x0, y0, x1, y1), stroke=tone.words, width=0.9, dash="3 2.2")]
    line, at = min(6.0, (y1 - y0) / 4.0), y0 + min(8.0, (y1 - y0) / 3.0)
    for share in (0.8, 0.55):
        if at < y1 - 2.0:
            marks.append(
                Mark(
                    f"M{x0 + 4:.1f} {at:.1f}H{x0 + 4 + (x1 - x0 - 8) * share:.1f}",
                    stroke=tone.words,
                    width=2.0,
                )
            )
        at += line + 1.5
    return marks


def _path(outline: _Outline, x: float, y: float, scale: float, *, mirrored: bool) -> str:
    """Return half an outline as path data, placed with its middle line at x and its top at y."""
    turn = -scale if mirrored else scale
    parts = []
    for command, *numbers in outline:
        pairs = [float(number) for number in numbers]
        points = [f"{x + pairs[n] * turn:.1f} {y + pairs[n + 1] * scale:.1f}" for n in range(0, len(pairs), 2)]
        parts.append(f"{command}{' '.join(points)}")
    return "".join(parts)


def _box(x0: float, y0: float, x1: float, y1: float) -> str:
    return f"M{x0:.1f} {y0:.1f}H{x1:.1f}V{y1:.1f}H{x0:.1f}Z"


def _circle(x: float, y: float, radius: float) -> str:
    half = f"a{radius:.1f} {radius:.1f} 0 1 0"
    return f"M{x - radius:.1f} {y:.1f}{half} {2 * radius:.1f} 0{half} {-2 * radius:.1f} 0Z"
