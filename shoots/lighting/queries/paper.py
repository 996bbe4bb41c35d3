"""What drawings on paper are made of: words with their room, fronts, places that are clear of one another.

A drawing is about 310 units wide, which is what a phone shows of it, with letters of 13 units. On wider paper the
style sheet makes the letters smaller against the lines. Nothing here needs the database.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from shoots.lighting.core.panelshapes import Point
from shoots.lighting.core.setup import Setup

WIDE = 310.0
TALL = 480.0
"""A drawing is no taller than this where its words allow it, so that its letters can be read on paper, in units."""
LETTERS = 13.0
"""Height of the words, in units."""
CHARACTER = 0.56
"""Mean width of a character against its height, in the program's typeface."""
MOST_PER_METRE = 80.0
LEAST_PER_METRE = 6.0
EDGE = 8.0
HEAD_RADIUS = 11.0
NEAREST_CAMERA_M = 3.0

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Words:
    """Some words on the drawing: where, how they are aligned, and what stands there."""

    x: float
    y: float
    anchor: str
    lines: tuple[str, ...]

    @property
    def ground(self) -> tuple[float, float, float, float]:
        """Left, top, width and height of a plain ground behind the words, where they stand on a line."""
        left, top, right, bottom = box_of(self)
        return round(left - 1, 1), round(top + 1, 1), round(right - left + 2, 1), round(bottom - top, 1)

    @property
    def placed(self) -> tuple[tuple[float, str], ...]:
        """Each line with its own y."""
        return tuple((round(self.y + n * (LETTERS + 2.0), 1), line) for n, line in enumerate(self.lines))


def wide_front(
    x: float, y: float, one: tuple[float, float], other: tuple[float, float]
) -> tuple[float, float, float, float]:
    """Return the ends of a front; one smaller than its letter is drawn as wide as the letter's circle."""
    width = math.hypot(other[0] - one[0], other[1] - one[1])
    if width >= 1.6 * HEAD_RADIUS:
        return *one, *other
    grow = 1.6 * HEAD_RADIUS / width if width else 0.0
    x0, x1 = (round(x + (end - x) * grow, 1) for end in (one[0], other[0]))
    y0, y1 = (round(y + (end - y) * grow, 1) for end in (one[1], other[1]))
    return x0, y0, x1, y1


def round_box(x: float, y: float, radius: float) -> Box:
    """Return the room round a circle."""
    return x - radius, y - radius, x + radius, y + radius


def is_clear(box: Box, others: list[Box]) -> bool:
    """Return whether a box touches none of the others."""
    return not any(
        box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3] for other in others
    )


def box_of(words: Words) -> Box:
    """Return the room that words take."""
    width = _width(words.lines)
    left = words.x - {"start": 0.0, "middle": width / 2.0, "end": width}[words.anchor]
    return left, words.y - LETTERS, left + width, words.y + (len(words.lines) - 1) * (LETTERS + 2) + 4


def _width(lines: tuple[str, ...]) -> float:
    return max((len(line) for line in lines), default=0) * LETTERS * CHARACTER


def scaled(point: Point, scale: float) -> tuple[float, float]:
    """Return a point of the core on the paper."""
    return round(point.x * scale, 1), round(point.y * scale, 1)


def metres_text(length: float) -> str:
    """2.1, 14: a length as it is written on a plan."""
    return f"{length:.0f}" if length >= 10.0 else f"{length:.1f}" if length >= 0.995 else f"{length:.2f}"


def height_text(length: float) -> str:
    """1.75, 2.5, 2: a height as it is written on a side view, to the centimetre."""
    return f"{length:.2f}".rstrip("0").rstrip(".")


def least_scale(ends_m: list[float], paper: float) -> float:
    """Return the scale below which nothing is gained: the lines then take less than half of the paper."""
    long = max([0.0, *ends_m]) - min([0.0, *ends_m])
    return max(LEAST_PER_METRE, min(MOST_PER_METRE, 0.45 * paper / max(long, 0.1)))


def near_camera_m(setup: Setup) -> float:
    """Return how far off the camera is drawn: its true distance, or just outside of everything else. [m]"""
    # A panel in the camera's own half may stand far out with its size.
    farthest = max((one.floor_m for one in (*setup.lights, *setup.panels)), default=0.0)
    return min(setup.place.distance_m, max(NEAREST_CAMERA_M, 1.25 * farthest + 0.5))


def labels_beside(x: float, y: float, lines: tuple[str, ...]) -> list[Words]:
    """Return where the words of a letter may stand: away from the subject above or below it, else beside it, else
    beside it and a little lower or higher."""
    rows = len(lines) - 1
    above = Words(x, round(y - HEAD_RADIUS - 6 - rows * (LETTERS + 2), 1), "middle", lines)
    below = Words(x, round(y + HEAD_RADIUS + LETTERS + 2, 1), "middle", lines)
    middle = round(y + 4 - rows * (LETTERS + 2) / 2, 1)
    left = Words(round(x - HEAD_RADIUS - 5, 1), middle, "end", lines)
    right = Words(round(x + HEAD_RADIUS + 5, 1), middle, "start", lines)
    beside = [left, right] if x < 0.0 else [right, left]
    ordered = [above, *beside, below] if y < 0.0 else [below, *beside, above]
    # Where a line runs across the letter's own height, all of the words stand on one side of it.
    half = round((rows + 1) * (LETTERS + 2) / 2 + 4, 1)
    aside = [replace(words, y=round(words.y + step, 1)) for step in (half, -half) for words in beside]
    return [*ordered, *aside]


def line_boxes(line: tuple[float, float, float, float]) -> list[Box]:
    """Return a row of small boxes along a line."""
    x, y, end_x, end_y = line
    return [round_box(end_x + (x - end_x) * n / 12, end_y + (y - end_y) * n / 12, 2.0) for n in range(13)]
