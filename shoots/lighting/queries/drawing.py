"""The plan of a setup on paper: the core's shapes in metres become lines and words that don't run into each other.

Nothing here needs the database.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from shoots.lighting.core.plan import DrawnLight, Plan, draw_plan
from shoots.lighting.core.setup import Part, Setup
from shoots.lighting.queries.boards import Board, boards_of, labelled
from shoots.lighting.queries.paper import (
    EDGE,
    HEAD_RADIUS,
    LETTERS,
    MOST_PER_METRE,
    TALL,
    WIDE,
    Box,
    Words,
    box_of,
    is_clear,
    labels_beside,
    least_scale,
    metres_text,
    near_camera_m,
    round_box,
    scaled,
    wide_front,
)
from shoots.places.core.sun import SunPosition


@dataclass(frozen=True)
class Head:
    """A light on the drawing, with the keys that a page needs to move it."""

    letter: str
    part: Part
    key: int
    version: int
    x: float
    y: float
    letter_y: float
    front: tuple[float, float, float, float]
    body: str
    beam: tuple[float, float, float, float]
    distance: Words
    label: Words
    metres: float
    floor_m: float
    bearing_deg: float
    height_m: float


@dataclass(frozen=True)
class Drawing:
    """A plan ready to be drawn; `left`, `top`, `width` and `height` are the paper.

    `scale` is in units a metre, with the subject at the origin, so that a place pointed at can be turned into metres.
    """

    left: float
    top: float
    width: float
    height: float
    scale: float
    heads: tuple[Head, ...]
    camera_y: float
    camera_m: float
    camera_is_cut: bool
    camera_words: Words
    wedge: str
    view_deg: float
    background_y: float | None
    background_m: float
    background_words: Words
    shadow: tuple[float, float] | None
    shadow_m: float
    shadow_words: Words | None
    sun: tuple[float, float] | None
    sun_words: Words | None
    sun_altitude_deg: float
    north_deg: float | None
    bar: float
    bar_m: float
    boards: tuple[Board, ...] = ()

    @property
    def bar_x(self) -> float:
        return round(self.left + EDGE, 1)

    @property
    def bar_y(self) -> float:
        return round(self.top + self.height - EDGE, 1)

    @property
    def bar_words_x(self) -> float:
        return round(self.bar_x + self.bar + 6.0, 1)

    @property
    def north_x(self) -> float:
        return round(self.left + self.width - 18.0, 1)

    @property
    def north_y(self) -> float:
        return round(self.top + self.height - 26.0, 1)

    @property
    def cut_y(self) -> float:
        """Where the broken line of a camera that stands further off is broken."""
        return round(min(self.camera_words.y + 16.0, self.camera_y - 24.0), 1)


def drawing_of(
    setup: Setup,
    sun: SunPosition | None,
    *,
    words: Mapping[str, tuple[str, ...]],
    keys: Mapping[str, tuple[int, int]],
    background_m: float,
) -> Drawing:
    """Return a setup's plan.

    `words` are written beside each light and panel, by its letter; `keys` are each one's key and version. A camera that
    stands far off is drawn nearer, with its line broken and its true distance written on it.
    """
    true, near = setup.place.distance_m, near_camera_m(setup)
    plan = draw_plan(replace(setup, place=replace(setup.place, distance_m=near)), sun)
    scale = MOST_PER_METRE
    ends = [plan.shadow.end] if plan.shadow else []
    across = [light.at.x for light in plan.lights] + [point.x for point in (*plan.camera.wedge, *ends)]
    down = [light.at.y for light in plan.lights] + [point.y for point in (plan.camera.at, *plan.camera.wedge, *ends)]
    least_across, least_down = least_scale(across, WIDE), least_scale(down, TALL)
    # Words don't shrink with the lines, so the scale that fills the paper is found by trying.
    for _ in range(12):
        drawn = _drawn(plan, scale, near, true, words, keys, background_m)
        fits_across = drawn.width <= WIDE or scale <= least_across
        fits_down = drawn.height <= TALL or scale <= least_down
        if fits_across and fits_down:
            break
        fill = min(1.0 if fits_across else WIDE / drawn.width, 1.0 if fits_down else TALL / drawn.height)
        least = min(least_across if not fits_across else scale, least_down if not fits_down else scale)
        scale = max(least, scale * max(0.6, min(0.97, fill)))
    return drawn


def _drawn(
    plan: Plan,
    scale: float,
    near: float,
    true: float,
    words: Mapping[str, tuple[str, ...]],
    keys: Mapping[str, tuple[int, int]],
    background_m: float,
) -> Drawing:
    bare = [_head(light, scale, words[light.letter], keys[light.letter]) for light in plan.lights]
    background_y = plan.background_y * scale if plan.background_y is not None else None
    # The background is drawn right across the paper.
    wall = [] if background_y is None else [(-WIDE, background_y - 3.0, WIDE, background_y + 3.0)]
    fixed = [*_fixed(bare, near * scale), *wall]
    boards = boards_of(plan.panels, scale, words, keys, fixed)
    heads = _apart(bare, [*fixed, *(box for board in boards for box in board.room)])
    camera_y = near * scale
    boxes = [*(box for board in boards for box in board.room), *_taken(heads, Words(0.0, camera_y, "middle", ()))]
    camera_words = _camera_words(f"{metres_text(true)} m", camera_y, boxes)
    behind = Words(0.0, round((background_y or 0.0) + LETTERS + 3, 1), "middle", (f"{metres_text(background_m)} m",))
    boards = labelled(boards, _taken(heads, camera_words))
    taken = [*_taken(heads, camera_words), *(box for board in boards for box in (*board.room, box_of(board.label)))]
    shadow, shadow_words, sun_at, sun_words = _sun(plan, scale, taken, camera_y)
    edges = [scaled(point, scale) for point in plan.camera.wedge]
    drawn = Drawing(
        left=0.0,
        top=0.0,
        width=0.0,
        height=0.0,
        scale=round(scale, 3),
        heads=heads,
        camera_y=round(camera_y, 1),
        camera_m=true,
        camera_is_cut=near < true,
        camera_words=camera_words,
        wedge=f"M{edges[0][0]} {edges[0][1]}L0 {camera_y:.1f}L{edges[1][0]} {edges[1][1]}",
        view_deg=plan.camera.view_deg,
        background_y=None if background_y is None else round(background_y, 1),
        background_m=background_m,
        background_words=behind,
        shadow=shadow,
        shadow_m=plan.shadow.metres if plan.shadow else 0.0,
        shadow_words=shadow_words,
        sun=sun_at,
        sun_words=sun_words,
        sun_altitude_deg=plan.shadow.altitude_deg if plan.shadow else 0.0,
        north_deg=plan.north_deg,
        bar=0.0,
        bar_m=0.0,
        boards=boards,
    )
    return _on_paper(drawn, edges)


def _head(light: DrawnLight, scale: float, words: tuple[str, ...], key: tuple[int, int]) -> Head:
    x, y = scaled(light.at, scale)
    x0, y0, x1, y1 = wide_front(x, y, *(scaled(end, scale) for end in light.front))
    end = scaled(light.beam.end, scale)
    away = math.atan2(y - end[1], x - end[0])
    out_x, out_y = math.cos(away), math.sin(away)
    # The letter stands behind the front, as the head of the light does.
    head_x, head_y = round(x + out_x * (HEAD_RADIUS + 2), 1), round(y + out_y * (HEAD_RADIUS + 2), 1)
    body = f"M{x0} {y0}L{x1} {y1}L{head_x} {head_y}Z"
    label = labels_beside(head_x, head_y, words)[0]
    # The distance stands on its line, nearer to the light, where lines of different lights are further apart.
    at = 0.58
    distance = Words(
        round(end[0] + (x - end[0]) * at, 1),
        round(end[1] + (y - end[1]) * at + 4.5, 1),
        "middle",
        (f"{metres_text(light.beam.metres)} m",),
    )
    return Head(
        letter=light.letter,
        part=light.part,
        key=key[0],
        version=key[1],
        x=head_x,
        y=head_y,
        letter_y=round(head_y + 4.8, 1),
        front=(x0, y0, x1, y1),
        body=body,
        beam=(x, y, end[0], end[1]),
        distance=distance,
        label=label,
        metres=light.beam.metres,
        floor_m=light.floor_m,
        bearing_deg=light.bearing_deg,
        height_m=light.height_m,
    )


def _camera_words(length: str, camera_y: float, taken: list[Box]) -> Words:
    """Return the camera's distance beside its line, where nothing else is."""
    tried = [
        Words(side * 14.0, round(camera_y * share, 1), "start" if side > 0 else "end", (length,))
        for share in (0.62, 0.5, 0.75, 0.4)
        for side in (1.0, -1.0)
    ]
    # Where panels leave no room beside the line it stands beside the camera.
    tried += [
        Words(19.0, round(camera_y + 5.0, 1), "start", (length,)),
        Words(-19.0, round(camera_y + 5.0, 1), "end", (length,)),
    ]
    return next((words for words in tried if is_clear(box_of(words), taken)), tried[0])


def _fixed(heads: list[Head], camera_y: float) -> list[Box]:
    """Return the room of what stands where it stands: subject, camera, fronts and letters."""
    boxes = [(-13.0, -13.0, 13.0, 17.0), (-14.0, camera_y - 11.0, 14.0, camera_y + 10.0)]
    boxes += [round_box(head.x, head.y, HEAD_RADIUS) for head in heads]
    return [*boxes, *(box for head in heads for box in _front(head))]


def _front(head: Head) -> list[Box]:
    """Return the room of a light's front, as a row of points, so that words can lie beside a slanting one."""
    x0, y0, x1, y1 = head.front
    return [round_box(x0 + (x1 - x0) * n / 6, y0 + (y1 - y0) * n / 6, 2.0) for n in range(7)]


def _apart(heads: list[Head], taken: list[Box]) -> tuple[Head, ...]:
    """Return the heads with each distance at a place on its line where nothing else is written."""
    boxes = list(taken)
    labelled = []
    for head in heads:
        tried = labels_beside(head.x, head.y, head.label.lines)
        label = next((words for words in tried if is_clear(box_of(words), boxes)), tried[0])
        boxes.append(box_of(label))
        labelled.append(replace(head, label=label))
    heads = labelled
    found = []
    for head in heads:
        x, y, end_x, end_y = head.beam
        tried = []
        for share in (0.58, 0.46, 0.7, 0.36):
            middle = (round(end_x + (x - end_x) * share, 1), round(end_y + (y - end_y) * share + 4.5, 1))
            tried.append(replace(head.distance, x=middle[0], y=middle[1]))
        best = next((words for words in tried if is_clear(box_of(words), boxes)), tried[0])
        boxes.append(box_of(best))
        found.append(replace(head, distance=best))
    return tuple(found)


def _taken(heads: tuple[Head, ...], camera: Words) -> list[Box]:
    """Return the room that is taken before the sun and its shadow find theirs."""
    boxes = [box_of(camera), (-13.0, -13.0, 13.0, 17.0)]
    for head in heads:
        boxes += [round_box(head.x, head.y, HEAD_RADIUS), box_of(head.label), box_of(head.distance), *_front(head)]
        # A beam is a row of points, so that a word can lie beside a slanting line.
        x, y, end_x, end_y = head.beam
        boxes += [
            round_box(end_x + (x - end_x) * share / 12, end_y + (y - end_y) * share / 12, 2.0) for share in range(13)
        ]
    return boxes


def _sun(
    plan: Plan, scale: float, taken: list[Box], camera_y: float
) -> tuple[tuple[float, float] | None, Words | None, tuple[float, float] | None, Words | None]:
    """Return the end of the subject's shadow with its words, and the place of the sun's sign with its words."""
    if plan.shadow is None:
        return None, None, None, None
    end = scaled(plan.shadow.end, scale)
    length = math.hypot(*end)
    most = 1.7 * scale
    if length > most:
        end = (round(end[0] * most / length, 1), round(end[1] * most / length, 1))
        length = most
    away = (end[0] / length, end[1] / length) if length else (0.0, 1.0)
    tried = []
    for metres in (1.25, 0.8, 1.0, 1.5, 1.65, 1.8, 2.1, 2.4, 2.7, 3.0, 3.6, 4.2, 5.0):
        x, y = round(-away[0] * metres * scale, 1), round(-away[1] * metres * scale, 1)
        side = -1.0 if x < 0.0 else 1.0
        altitude = f"{plan.shadow.altitude_deg:.0f}°"
        tried += [
            ((x, y), Words(round(x + turn * 17, 1), round(y + 4.5, 1), "end" if turn < 0 else "start", (altitude,)))
            for turn in (side, -side)
        ]
    sun = next((at for at in tried if is_clear(_sign(*at), taken)), tried[0])
    words = _shadow_words(
        end, away, f"{metres_text(plan.shadow.metres)} m", [*taken, _sign(*sun), (-2.0, 0.0, 2.0, camera_y)]
    )
    return end, words, sun[0], sun[1]


def _shadow_words(end: tuple[float, float], away: tuple[float, float], length: str, taken: list[Box]) -> Words:
    """Return the shadow's length beyond its end, else beside it where a light or its words are in the way."""
    anchor = "end" if away[0] < -0.3 else "start" if away[0] > 0.3 else "middle"
    tried = [Words(round(end[0] + away[0] * 6, 1), round(end[1] + away[1] * 12 + 4, 1), anchor, (length,))]
    for share in (1.0, 0.75, 0.5):
        for side, turned in ((1.0, "start"), (-1.0, "end")):
            at = end[0] * share + side * 12.0, end[1] * share + 4.5
            tried.append(Words(round(at[0], 1), round(at[1], 1), turned, (length,)))
    for down in (-14.0, 22.0, -30.0, 38.0, 54.0):
        tried.append(Words(end[0], round(end[1] + down, 1), "middle", (length,)))
        for aside in (24.0, 44.0):
            tried += [
                Words(round(end[0] + side * aside, 1), round(end[1] + down, 1), turned, (length,))
                for side, turned in ((1.0, "start"), (-1.0, "end"))
            ]

    def room(words: Words) -> Box:
        return box_of(replace(words, lines=(f"shadow {length}",)))

    return next((words for words in tried if is_clear(room(words), taken)), tried[0])


def _sign(at: tuple[float, float], words: Words) -> Box:
    """Return the room that the sun's sign takes with its words, "sun" included."""
    left, top, right, bottom = box_of(replace(words, lines=(f"sun {words.lines[0]}",)))
    return min(left, at[0] - 13.5), min(top, at[1] - 13.5), max(right, at[0] + 13.5), max(bottom, at[1] + 13.5)


def _on_paper(drawn: Drawing, edges: list[tuple[float, float]]) -> Drawing:
    """Return the drawing with its paper: large enough for every line and word, and a scale bar below."""
    boxes: list[Box] = [(-14.0, -14.0, 14.0, 14.0), (-16.0, drawn.camera_y - 12, 16.0, drawn.camera_y + 14)]
    boxes += [(x, y, x, y) for x, y in edges]
    boxes.append(box_of(drawn.camera_words))
    for board in drawn.boards:
        boxes += [*board.room, box_of(board.label)]
    for head in drawn.heads:
        boxes.append(round_box(head.x, head.y, HEAD_RADIUS))
        boxes.append((min(head.front[0::2]), min(head.front[1::2]), max(head.front[0::2]), max(head.front[1::2])))
        boxes += [box_of(head.label), box_of(head.distance)]
    if drawn.background_y is not None:
        boxes.append((-40.0, drawn.background_y - 10, 40.0, drawn.background_y + 20))
    if drawn.shadow_words:
        boxes.append(box_of(replace(drawn.shadow_words, lines=(f"shadow {drawn.shadow_words.lines[0]}",))))
    if drawn.sun and drawn.sun_words:
        boxes.append(_sign(drawn.sun, drawn.sun_words))
    left, right = min(box[0] for box in boxes) - EDGE, max(box[2] for box in boxes) + EDGE
    top, bottom = min(box[1] for box in boxes) - EDGE, max(box[3] for box in boxes) + EDGE + 22
    spare = max(0.0, WIDE - (right - left)) / 2.0
    width = right - left + 2.0 * spare
    bar_m = max((m for m in (0.25, 0.5, 1.0, 2.0, 5.0, 10.0) if m * drawn.scale <= width / 3.0), default=0.25)
    return replace(
        drawn,
        left=round(left - spare, 1),
        top=round(top, 1),
        width=round(width, 1),
        height=round(bottom - top, 1),
        bar=round(bar_m * drawn.scale, 1),
        bar_m=bar_m,
    )
