"""Reflectors, boards, flags and scrims on a drawing: outlines to scale, numbers and words that are clear of the rest.

The same for the plan and for the side view. Nothing here needs the database.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.panelshapes import DrawnPanel
from shoots.lighting.queries.paper import Box, Words, box_of, is_clear, labels_beside, line_boxes, round_box, scaled

SIGN = 10.0
"""Half the side of the square that a number stands in, in units."""
TURNS = (0.0, 0.8, -0.8, 1.6, -1.6, 2.4, -2.4, 3.14)


@dataclass(frozen=True)
class Board:
    """A panel on a drawing, with the keys that a page needs to move it."""

    letter: str
    kind: PanelKind
    key: int
    version: int
    path: str
    corners: tuple[tuple[float, float], ...]
    poles: str
    lines: tuple[tuple[float, float, float, float], ...]
    x: float
    y: float
    letter_y: float
    at_x: float
    at_y: float
    foot_y: float | None
    label: Words
    floor_m: float
    bearing_deg: float
    height_m: float
    turn_deg: float
    tilt_deg: float

    @property
    def sign(self) -> Box:
        """The room of its number."""
        return round_box(self.x, self.y, SIGN)

    @property
    def room(self) -> list[Box]:
        """What it takes of the paper: its edges, its stands and its number, not what lies under it."""
        return [*_edges(self.corners), *(box for line in self.lines for box in line_boxes(line)), self.sign]


def boards_of(
    panels: Sequence[DrawnPanel],
    scale: float,
    words: Mapping[str, tuple[str, ...]],
    keys: Mapping[str, tuple[int, int]],
    taken: Sequence[Box],
    *,
    from_side: bool = False,
) -> tuple[Board, ...]:
    """Return panels with their numbers beside them, where nothing else is; their words are placed by `labelled`."""
    found: list[Board] = []
    bare = [
        _board(panel, scale, words.get(panel.letter, ()), keys[panel.letter], from_side=from_side) for panel in panels
    ]
    for board in bare:
        # The number of a board starts in its middle, where it is no part of the room that it takes.
        others = [box for one in bare if one is not board for box in one.room[:-1]]
        found.append(_numbered(board, [*taken, *others, *(one.sign for one in found)], from_side=from_side))
    return tuple(found)


def _board(panel: DrawnPanel, scale: float, words: tuple[str, ...], key: tuple[int, int], *, from_side: bool) -> Board:
    corners = tuple(scaled(corner, scale) for corner in panel.outline)
    x, y = scaled(panel.at, scale)
    poles, lines = "", []
    for top, foot in zip(panel.tops, panel.feet, strict=True):
        at, below = scaled(top, scale), scaled(foot, scale)
        if from_side:
            poles += f"M{at[0]} {at[1]}V{below[1]}m-7 0l7-6l7 6"
            lines.append((*at, *below))
        elif len(panel.feet) > 1:
            poles += f"M{at[0] - 4} {at[1]}h8m-4-4v8"
    if from_side and not panel.feet:
        lines.append((x, y, x, 0.0))
    return Board(
        letter=panel.letter,
        kind=panel.kind,
        key=key[0],
        version=key[1],
        path="M" + "L".join(f"{a} {b}" for a, b in corners) + "Z",
        corners=corners,
        poles=poles,
        lines=tuple(lines),
        x=x,
        y=y,
        letter_y=y,
        at_x=x,
        at_y=y,
        foot_y=0.0 if from_side and not panel.feet else None,
        label=Words(x, y, "middle", words),
        floor_m=panel.floor_m,
        bearing_deg=panel.bearing_deg,
        height_m=panel.height_m,
        turn_deg=panel.turn_deg,
        tilt_deg=panel.tilt_deg,
    )


def _numbered(board: Board, taken: Sequence[Box], *, from_side: bool) -> Board:
    """Return a panel with its number just beyond its outline, away from the subject where that is free."""
    x, y = board.at_x, board.at_y
    away = math.atan2(y, x) if math.hypot(x, y) > 1.0 and not from_side else -math.pi / 2.0
    tried = []
    for turn in TURNS:
        out = (math.cos(away + turn), math.sin(away + turn))
        reach = max((a - x) * out[0] + (b - y) * out[1] for a, b in board.corners) + SIGN + 4.0
        for more in (0.0, 16.0, 32.0):
            at = (round(x + out[0] * (reach + more), 1), round(y + out[1] * (reach + more), 1))
            if not from_side or at[1] <= -SIGN:
                tried.append(at)
    clear = (at for at in tried if is_clear(round_box(*at, SIGN), list(taken)))
    found = next(clear, tried[0] if tried else (x, min(y, -SIGN)))
    return replace(board, x=found[0], y=found[1], letter_y=round(found[1] + 4.8, 1))


def labelled(boards: Sequence[Board], taken: Sequence[Box]) -> tuple[Board, ...]:
    """Return panels with their words beside their numbers, where nothing else is written."""
    boxes = [*taken, *(box for board in boards for box in board.room)]
    done = []
    for board in boards:
        tried = labels_beside(board.x, board.y, board.label.lines)
        label = next((words for words in tried if is_clear(box_of(words), boxes)), tried[0])
        boxes.append(box_of(label))
        done.append(replace(board, label=label))
    return tuple(done)


def _edges(corners: tuple[tuple[float, float], ...]) -> list[Box]:
    """Return small boxes along an outline."""
    few = corners if len(corners) <= 8 else corners[::4]
    boxes = []
    for index, (x, y) in enumerate(few):
        x0, y0 = few[index - 1]
        boxes += [round_box(x0 + (x - x0) * n / 5, y0 + (y - y0) * n / 5, 2.5) for n in range(5)]
    return boxes
