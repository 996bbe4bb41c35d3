"""The side view of a setup on paper, for heights: the core's section in metres becomes lines and words.

The subject stands at the origin and the camera to its right, as the core's section has them; lights keep their true
heights and lie as far along the camera's axis as they do. Nothing here needs the database.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from shoots.lighting.core.framecheck import View, camera_view
from shoots.lighting.core.plan import DrawnLight, Section, draw_section
from shoots.lighting.core.setup import Part, Setup
from shoots.lighting.core.standpoint import framed
from shoots.lighting.queries.boards import Board, boards_of, labelled
from shoots.lighting.queries.paper import (
    CHARACTER,
    EDGE,
    HEAD_RADIUS,
    LEAST_PER_METRE,
    LETTERS,
    MOST_PER_METRE,
    WIDE,
    Box,
    Words,
    box_of,
    height_text,
    is_clear,
    line_boxes,
    near_camera_m,
    round_box,
    scaled,
    wide_front,
)

SKY_M = 0.5
"""Drawn above the highest thing. [m]"""
FARTHEST_BEHIND_M = 3.0
"""A background farther off is named, not drawn. [m]"""
HEAD_SHARE = 0.13
"""A head's height against a person's: about one in seven and a half; drawing practice. [1]"""
LEAST_PERSON_M = 1.0
"""What is lower than this is drawn as a thing, not as a person. [m]"""


@dataclass(frozen=True)
class SideHead:
    """A light in the side view, with the keys that a page needs to move it up and down."""

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
    foot_x: float
    has_stand: bool
    height: Words
    height_m: float
    at_y: float


@dataclass(frozen=True)
class Side:
    """A side view ready to be drawn; `scale` is in units a metre, the floor is y = 0, up is minus."""

    left: float
    top: float
    width: float
    height: float
    scale: float
    heads: tuple[SideHead, ...]
    crown_y: float
    crown_m: float
    crown_words: Words
    is_person: bool
    head_y: float
    head_r: float
    body_w: float
    camera_x: float
    camera_y: float
    camera_words: Words
    is_cut: bool
    cut_x: float
    wedge: str
    frame_bottom_m: float
    frame_top_m: float
    background_x: float | None
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
    def body_x(self) -> float:
        return round(-self.body_w / 2.0, 1)

    @property
    def shoulder_y(self) -> float:
        """Where the head ends and the body begins; the top of a thing."""
        return round(self.head_y + self.head_r, 1) if self.is_person else self.crown_y

    @property
    def body_h(self) -> float:
        return round(-self.shoulder_y, 1)


def side_of(setup: Setup, *, keys: Mapping[str, tuple[int, int]]) -> Side:
    """Return a setup from the side. `keys` are each light's and panel's key and version.

    A camera that stands far off is drawn nearer, as on the plan; the edges of its view meet the subject where they
    truly do.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.
    """
    true = setup.place.distance_m
    near = near_camera_m(setup)
    section = draw_section(setup)
    scale = MOST_PER_METRE
    for _ in range(12):
        drawn = _drawn(setup, section, scale, near, true, keys)
        if drawn.width <= WIDE or scale <= LEAST_PER_METRE:
            break
        scale = max(LEAST_PER_METRE, scale * max(0.6, min(0.97, WIDE / drawn.width)))
    return drawn


def _drawn(
    setup: Setup, section: Section, scale: float, near: float, true: float, keys: Mapping[str, tuple[int, int]]
) -> Side:
    crown = setup.subject.height_m
    is_person = crown >= LEAST_PERSON_M
    camera_x, camera_y = near * scale, -setup.place.height_m * scale
    view = camera_view(setup)
    seen = framed(setup.place.height_m, view.tilt_deg, view.vertical_deg, true)
    tops = [-corner.y for panel in section.panels for corner in panel.outline]
    highest = max([crown, setup.place.height_m, *(light.height_m for light in setup.lights), *tops]) + SKY_M
    ends = [corner.x - 0.2 for panel in section.panels for corner in panel.outline]
    farthest = min([-0.6, *(light.at.x - 0.4 for light in section.lights), *ends])
    paper = (farthest * scale, -highest * scale, camera_x, 0.0)
    edges = _edges(near, view, setup.place.height_m, true, scale, paper)
    body_w = max(9.0, (0.28 if is_person else 0.7) * crown * scale)
    head_r = HEAD_SHARE * crown * scale / 2.0
    crown_y = -crown * scale
    camera_text = f"{height_text(setup.place.height_m)} m"
    # Beside the line down to the floor where it is long enough, else over the camera.
    below = -camera_y > 2.2 * LETTERS
    camera_words = Words(
        round(camera_x + (6.0 if below else 0.0), 1),
        round(camera_y / 2.0 + 5.0 if below else camera_y - 16.0, 1),
        "start" if below else "middle",
        (camera_text,),
    )
    taken: list[Box] = [
        (-body_w / 2.0 - 2, crown_y - 2, body_w / 2.0 + 2, 0.0),
        round_box(camera_x, camera_y, 14.0),
        box_of(camera_words),
    ]
    crown_words = Words(0.0, round(crown_y - 6.0, 1), "middle", (f"{height_text(crown)} m",))
    fronts = [box for light in section.lights for box in _front_boxes(_front(light, scale))]
    for light in section.lights:
        at, end = scaled(light.at, scale), scaled(light.beam.end, scale)
        fronts += line_boxes((*at, at[0], 0.0)) + line_boxes((*at, *end))
    words = {panel.letter: (f"{height_text(panel.height_m)} m",) for panel in section.panels}
    boards = boards_of(section.panels, scale, words, keys, [*taken, *fronts], from_side=True)
    rooms = [box for board in boards for box in board.room]
    heads = _heads(section, scale, keys, [*taken, *rooms], setup)
    boards = labelled(boards, [*taken, *_head_room(heads)])
    crown_words = _clear_crown(crown_words, body_w, heads)
    behind = setup.background.distance_m if setup.background is not None else None
    background_x = -behind * scale if behind is not None and behind <= FARTHEST_BEHIND_M else None
    drawn = Side(
        left=0.0,
        top=0.0,
        width=0.0,
        height=0.0,
        scale=round(scale, 3),
        heads=heads,
        crown_y=round(crown_y, 1),
        crown_m=crown,
        crown_words=crown_words,
        is_person=is_person,
        head_y=round(crown_y + head_r, 1),
        head_r=round(head_r, 1),
        body_w=round(body_w, 1),
        camera_x=round(camera_x, 1),
        camera_y=round(camera_y, 1),
        camera_words=camera_words,
        is_cut=near < true,
        cut_x=round(camera_x * 0.6, 1),
        wedge=edges,
        frame_bottom_m=seen.bottom_m,
        frame_top_m=seen.top_m,
        background_x=None if background_x is None else round(background_x, 1),
        bar=0.0,
        bar_m=0.0,
        boards=boards,
    )
    return _on_paper(drawn, highest)


def _edges(drawn_m: float, view: View, lens_m: float, true_m: float, scale: float, paper: Box) -> str:
    """Return the two edges of the view: from the camera to where they truly meet the subject, and on behind it.

    `paper` is what they may reach: left, top, right and bottom.
    """
    found = []
    start = (drawn_m * scale, -lens_m * scale)
    for turn in (view.vertical_deg / 2.0, -view.vertical_deg / 2.0):
        slope = math.tan(math.radians(max(-89.0, min(89.0, view.tilt_deg + turn))))
        at_subject = (0.0, -(lens_m + true_m * slope) * scale)
        behind = (paper[0], at_subject[1] + slope * paper[0])
        points = [start]
        for end in (at_subject, behind):
            cut = _cut(points[-1], end, paper[1], paper[3])
            points.append(cut)
            if cut != end:
                break
        found.append("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points))
    return "".join(found)


def _cut(start: tuple[float, float], end: tuple[float, float], top: float, bottom: float) -> tuple[float, float]:
    """Return where a line leaves the paper, or its end."""
    stop = min(bottom, max(top, end[1]))
    if stop == end[1] or end[1] == start[1]:
        return end
    share = (stop - start[1]) / (end[1] - start[1])
    return start[0] + share * (end[0] - start[0]), stop


def _heads(
    section: Section, scale: float, keys: Mapping[str, tuple[int, int]], taken: list[Box], setup: Setup
) -> tuple[SideHead, ...]:
    heads: list[SideHead] = []
    letters: list[Box] = []
    fronts = {light.letter: _front_boxes(_front(light, scale)) for light in section.lights}
    for light in section.lights:
        others = [box for name, boxes in fronts.items() if name != light.letter for box in boxes]
        has_stand = setup.light(light.letter).stand is not None
        head = _head(light, scale, keys[light.letter], [*letters, *others, *taken[3:]], has_stand=has_stand)
        letters.append(round_box(head.x, head.y, HEAD_RADIUS))
        heads.append(head)
    boxes = [*taken, *letters, *(box for front in fronts.values() for box in front)]
    boxes += [box for head in heads for box in line_boxes(head.beam)]
    done = []
    for head in heads:
        words = _height_words(head, boxes)
        boxes.append(box_of(words))
        done.append(replace(head, height=words))
    return tuple(done)


def _head(light: DrawnLight, scale: float, key: tuple[int, int], letters: list[Box], *, has_stand: bool) -> SideHead:
    x, y = scaled(light.at, scale)
    front = wide_front(x, y, *(scaled(end, scale) for end in light.front))
    end = scaled(light.beam.end, scale)
    away = math.atan2(y - end[1], x - end[0])
    head_x, head_y = _letter_place(x, y, away, letters)
    return SideHead(
        letter=light.letter,
        part=light.part,
        key=key[0],
        version=key[1],
        x=head_x,
        y=head_y,
        letter_y=round(head_y + 4.8, 1),
        front=front,
        body=f"M{front[0]} {front[1]}L{front[2]} {front[3]}L{head_x} {head_y}Z",
        beam=(x, y, end[0], end[1]),
        foot_x=x,
        has_stand=has_stand,
        height=Words(x, y, "middle", (f"{light.letter} {height_text(light.height_m)} m",)),
        height_m=light.height_m,
        at_y=y,
    )


def _letter_place(x: float, y: float, away: float, taken: list[Box]) -> tuple[float, float]:
    """Return where a letter stands: behind its front, else turned or farther behind where another light is."""
    tried = []
    for step in range(4):
        reach = HEAD_RADIUS + 2 + step * (HEAD_RADIUS + 2)
        for turn in (0.0, 0.9, -0.9, 1.5, -1.5):
            at = (round(x + math.cos(away + turn) * reach, 1), round(y + math.sin(away + turn) * reach, 1))
            if at[1] <= -HEAD_RADIUS:
                tried.append(at)
    clear = (at for at in tried if is_clear(round_box(*at, HEAD_RADIUS), taken))
    return next(clear, tried[0] if tried else (x, y - HEAD_RADIUS))


def _front(light: DrawnLight, scale: float) -> tuple[float, float, float, float]:
    return wide_front(*scaled(light.at, scale), *(scaled(end, scale) for end in light.front))


def _head_room(heads: tuple[SideHead, ...]) -> list[Box]:
    """Return the room that lights take before the words of panels find theirs."""
    boxes = []
    for head in heads:
        boxes += [round_box(head.x, head.y, HEAD_RADIUS), box_of(head.height), *_front_boxes(head.front)]
        boxes += line_boxes(head.beam) + line_boxes((head.foot_x, head.at_y, head.foot_x, 0.0))
    return boxes


def _front_boxes(front: tuple[float, float, float, float]) -> list[Box]:
    x0, y0, x1, y1 = front
    return [round_box(x0 + (x1 - x0) * n / 6, y0 + (y1 - y0) * n / 6, 2.0) for n in range(7)]


def _height_words(head: SideHead, taken: list[Box]) -> Words:
    """Return the height on its own line down to the floor, where nothing else is written, else beside the line."""
    tried = []
    for share in (0.45, 0.3, 0.6, 0.15):
        y = round(head.at_y * share + 4.5, 1)
        tried.append(replace(head.height, x=head.foot_x, y=y, anchor="middle"))
    for share in (0.45, 0.3, 0.6, 0.15):
        y = round(head.at_y * share + 4.5, 1)
        tried += [
            replace(head.height, x=round(head.foot_x + 5.0, 1), y=y, anchor="start"),
            replace(head.height, x=round(head.foot_x - 5.0, 1), y=y, anchor="end"),
        ]
    return next((words for words in tried if is_clear(box_of(words), taken)), tried[0])


def _clear_crown(words: Words, body_w: float, heads: tuple[SideHead, ...]) -> Words:
    """Return the subject's height above its crown, or beside its legs where a light is in the way."""
    taken = [round_box(head.x, head.y, HEAD_RADIUS) for head in heads] + [box_of(head.height) for head in heads]
    for head in heads:
        # Its beam but for the end at the subject's face, and the line down to the floor.
        taken += line_boxes(head.beam)[1:] + line_boxes((head.foot_x, head.at_y, head.foot_x, 0.0))
    beside = round(-LETTERS * 0.8, 1)
    tried = [
        words,
        replace(words, x=round(body_w / 2 + 6.0, 1), y=beside, anchor="start"),
        replace(words, x=round(-body_w / 2 - 6.0, 1), y=beside, anchor="end"),
    ]
    return next((one for one in tried if is_clear(box_of(one), taken)), tried[2])


def _on_paper(drawn: Side, highest_m: float) -> Side:
    boxes: list[Box] = [
        (-drawn.body_w, -highest_m * drawn.scale, drawn.body_w, 0.0),
        (drawn.camera_x - 14, drawn.camera_y - 14, drawn.camera_x + 16, drawn.camera_y + 14),
        box_of(drawn.camera_words),
        box_of(drawn.crown_words),
    ]
    for head in drawn.heads:
        boxes += [round_box(head.x, head.y, HEAD_RADIUS), box_of(head.height)]
        boxes.append((min(head.front[0::2]), min(head.front[1::2]), max(head.front[0::2]), max(head.front[1::2])))
    for board in drawn.boards:
        boxes += [*board.room, box_of(board.label)]
    if drawn.background_x is not None:
        boxes.append((drawn.background_x - 4, 0.0, drawn.background_x + 4, 0.0))
    words = f"{drawn.frame_bottom_m:.2f} – {drawn.frame_top_m:.2f}"
    boxes.append((0.0, 0.0, len(words) * LETTERS * CHARACTER / 2.0, 0.0))
    left, right = min(box[0] for box in boxes) - EDGE, max(box[2] for box in boxes) + EDGE
    top, bottom = min(box[1] for box in boxes) - EDGE, max(box[3] for box in boxes) + 10.0 + LETTERS + EDGE
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
