"""A setup as a dimensioned drawing: the plan from above and the section from the side, as shapes in metres.

Drawing coordinates are in metres as SVG has them: x to the right, y down the paper. On the plan the subject
is at (0, 0), the camera straight below it, so that the camera's left is on the left. In the section the
subject stands at x = 0, the camera to the right, and y is minus the height above the floor. The template
only draws.

References
----------
Own arrangement; bearing convention of `shoots.lighting.core.quality`.
"""

import math
from dataclasses import dataclass

from shoots.lighting.core.framecheck import View, camera_view, light_position
from shoots.lighting.core.panelshapes import DrawnPanel, Point, drawn_panel
from shoots.lighting.core.setup import Part, PlacedLight, Setup, light_direction
from shoots.places.core.sun import SunPosition, shadow_length
from shoots.values.units import Range, wrap_bearing, wrap_turn

PLACE = Range(-1000.0, 1000.0, "m")
LONGEST_SHADOW_M = 6.0
"""A longer shadow is drawn only so far; its true length is written beside it. [m]"""
MARGIN_M = 0.6
"""White round the drawing. [m]"""
SCALE_BARS_M = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A line with its length written on it.

    Attributes
    ----------
    start, end, label_at : Point
        Its ends, and where the number stands.
    metres : float
        The length to write, which is the true one and may differ from the drawn one. [m]
    """

    start: Point
    end: Point
    label_at: Point
    metres: float


@dataclass(frozen=True, slots=True)
class DrawnLight:
    """A light on the plan or in the section.

    Attributes
    ----------
    letter : str
        Written beside it.
    part : Part
        What it is there for.
    at : Point
        Middle of its front.
    front : tuple[Point, Point]
        The ends of its front, square to the axis.
    letter_at : Point
        Where the letter stands, behind the front.
    foot : Point
        Where its stand meets the floor; on the plan the same place.
    beam : Dimension
        From its front to the subject; ``metres`` is the distance along the beam.
    bearing_deg : float
        Positive to the camera's left. [°]
    floor_m, height_m : float
        The numbers to type. [m]
    power : float
        Share of full power. [1]
    group : str
        Radio group.
    """

    letter: str
    part: Part
    at: Point
    front: tuple[Point, Point]
    letter_at: Point
    foot: Point
    beam: Dimension
    bearing_deg: float
    floor_m: float
    height_m: float
    power: float
    group: str


@dataclass(frozen=True, slots=True)
class DrawnCamera:
    """The camera with what it sees.

    Attributes
    ----------
    at : Point
        The lens.
    wedge : tuple[Point, Point]
        Ends of the two edges of the view, at the depth of the subject or the background.
    distance : Dimension
        From camera to subject, along the floor.
    view_deg : float
        Field of view in the plane of the drawing. [°]
    """

    at: Point
    wedge: tuple[Point, Point]
    distance: Dimension
    view_deg: float


@dataclass(frozen=True, slots=True)
class DrawnShadow:
    """The sun, drawn as the subject's shadow.

    Attributes
    ----------
    start, end : Point
        From the subject's feet; at most ``LONGEST_SHADOW_M`` long.
    metres : float
        True length on level ground. [m]
    is_cut : bool
        True when it is drawn shorter than it is.
    sun_bearing_deg : float
        Where the sun stands, positive to the camera's left. [°]
    altitude_deg : float
        How high it is seen. [°]
    """

    start: Point
    end: Point
    metres: float
    is_cut: bool
    sun_bearing_deg: float
    altitude_deg: float


@dataclass(frozen=True, slots=True)
class Extent:
    """The paper that the drawing needs.

    Attributes
    ----------
    left, top, width, height : float
        For an SVG's viewBox. [m]
    scale_bar_m : float
        Length of a round scale bar, about a quarter of the width. [m]
    """

    left: float
    top: float
    width: float
    height: float
    scale_bar_m: float


@dataclass(frozen=True, slots=True)
class Plan:
    """A setup from above.

    Attributes
    ----------
    subject : Point
        The subject.
    camera : DrawnCamera
        The camera.
    lights : tuple[DrawnLight, ...]
        In the order of the setup.
    shadow : DrawnShadow or None
        None without a sun.
    north_deg : float or None
        Turn of a north arrow on the paper, clockwise from straight up; None when the camera has no bearing.
        [°]
    background_y : float or None
        Where the background crosses the paper; None without one. [m]
    extent : Extent
        The paper.
    panels : tuple[DrawnPanel, ...]
        In the order of the setup.
    """

    subject: Point
    camera: DrawnCamera
    lights: tuple[DrawnLight, ...]
    shadow: DrawnShadow | None
    north_deg: float | None
    background_y: float | None
    extent: Extent
    panels: tuple[DrawnPanel, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """A setup from the camera's left side, for heights.

    Attributes
    ----------
    subject : tuple[Point, Point]
        Feet and crown.
    face : Point
        The point that is lit and metered.
    camera : DrawnCamera
        The camera; ``wedge`` are the upper and lower edge of the view.
    lights : tuple[DrawnLight, ...]
        Each moved into the plane of the drawing along its distance from the camera's axis.
    heights : tuple[Dimension, ...]
        For each light, from the floor to the middle of its front.
    background_x : float or None
        Where the background stands; None without one. [m]
    extent : Extent
        The paper.
    panels : tuple[DrawnPanel, ...]
        In the order of the setup.
    """

    subject: tuple[Point, Point]
    face: Point
    camera: DrawnCamera
    lights: tuple[DrawnLight, ...]
    heights: tuple[Dimension, ...]
    background_x: float | None
    extent: Extent
    panels: tuple[DrawnPanel, ...] = ()


def _middle(a: Point, b: Point) -> Point:
    return Point((a.x + b.x) / 2.0, (a.y + b.y) / 2.0)


def _square_to(start: Point, end: Point, half: float) -> tuple[Point, Point]:
    """Return the ends of a line through ``start`` square to the way to ``end``."""
    length = math.hypot(end.x - start.x, end.y - start.y)
    if length == 0.0:
        return Point(start.x - half, start.y), Point(start.x + half, start.y)
    dx, dy = (end.x - start.x) / length, (end.y - start.y) / length
    return Point(start.x - half * dy, start.y + half * dx), Point(start.x + half * dy, start.y - half * dx)


def _behind(start: Point, end: Point, back: float) -> Point:
    """Return a point behind ``start``, seen from ``end``."""
    length = math.hypot(end.x - start.x, end.y - start.y)
    if length == 0.0:
        return Point(start.x, start.y - back)
    return Point(start.x - back * (end.x - start.x) / length, start.y - back * (end.y - start.y) / length)


def _extent(points: list[Point]) -> Extent:
    left, right = min(p.x for p in points) - MARGIN_M, max(p.x for p in points) + MARGIN_M
    top, bottom = min(p.y for p in points) - MARGIN_M, max(p.y for p in points) + MARGIN_M
    width = right - left
    bar = max((bar for bar in SCALE_BARS_M if bar <= width / 3.0), default=SCALE_BARS_M[0])
    return Extent(left, top, width, bottom - top, bar)


def _drawn(light: PlacedLight, setup: Setup, at: Point, target: Point, foot: Point, side_m: float) -> DrawnLight:
    where = light_direction(light, setup.subject)
    return DrawnLight(
        letter=light.letter,
        part=light.part,
        at=at,
        front=_square_to(at, target, side_m / 2.0),
        letter_at=_behind(at, target, 0.3),
        foot=foot,
        beam=Dimension(at, target, _middle(at, target), where.slant_m),
        bearing_deg=where.bearing_deg,
        floor_m=light.floor_m,
        height_m=light.height_m,
        power=light.power,
        group=light.group,
    )


def _shadow(setup: Setup, sun: SunPosition | None) -> DrawnShadow | None:
    bearing = setup.place.view_bearing_deg
    if sun is None or bearing is None:
        return None
    metres = shadow_length(setup.subject.height_m, min(sun.apparent_altitude_deg, 90.0))
    if metres is None:
        return None
    # From the subject to the camera is the view's bearing turned round.
    turn = wrap_turn(sun.azimuth_deg - (bearing + 180.0))
    away, shown = math.radians(turn + 180.0), min(metres, LONGEST_SHADOW_M)
    end = Point(-shown * math.sin(away), shown * math.cos(away))
    return DrawnShadow(Point(0.0, 0.0), end, metres, shown < metres, turn, sun.apparent_altitude_deg)


def draw_plan(setup: Setup, sun: SunPosition | None = None) -> Plan:
    """Return a setup as seen from above.

    Parameters
    ----------
    setup : Setup
        The setup.
    sun : SunPosition or None
        The sun at the planned time; it is drawn when the camera has a bearing.

    Returns
    -------
    Plan
        Shapes in metres.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Own arrangement.
    """
    subject = Point(0.0, 0.0)
    lights = []
    behind = setup.background.distance_m if setup.background is not None else None
    for light in setup.lights:
        x, y, _ = light_position(light)
        at = Point(x, -y)
        target = subject if light.part is not Part.BACKGROUND or behind is None else Point(0.0, -behind)
        lights.append(_drawn(light, setup, at, target, at, light.front.width_m))
    view = camera_view(setup)
    camera = _plan_camera(setup, view, behind)
    shadow = _shadow(setup, sun)
    points = [subject, camera.at, *(p for light in lights for p in (light.at, light.letter_at, *light.front))]
    panels = tuple(drawn_panel(setup, panel) for panel in setup.panels)
    points += [end for panel in panels for end in panel.outline]
    points += [Point(0.0, -0.5), *([shadow.end] if shadow else []), *([Point(0.0, -behind)] if behind else [])]
    bearing = setup.place.view_bearing_deg
    return Plan(
        subject=subject,
        camera=camera,
        lights=tuple(lights),
        shadow=shadow,
        north_deg=None if bearing is None else wrap_bearing(-bearing),
        background_y=None if behind is None else -behind,
        extent=_extent(points),
        panels=panels,
    )


def _plan_camera(setup: Setup, view: View, behind: float | None) -> DrawnCamera:
    at = Point(0.0, setup.place.distance_m)
    depth = setup.place.distance_m + (min(behind, 2.0) if behind is not None else 1.0)
    half = depth * math.tan(math.radians(view.horizontal_deg / 2.0))
    far = setup.place.distance_m - depth
    distance = Dimension(at, Point(0.0, 0.0), Point(0.0, at.y / 2.0), setup.place.distance_m)
    return DrawnCamera(at, (Point(-half, far), Point(half, far)), distance, view.horizontal_deg)


def draw_section(setup: Setup) -> Section:
    """Return a setup as seen from the side, for heights.

    Parameters
    ----------
    setup : Setup
        The setup.

    Returns
    -------
    Section
        Shapes in metres; heights are true, distances are those along the camera's axis.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Own arrangement.
    """
    person, place = setup.subject, setup.place
    face = Point(0.0, -person.point_m)
    behind = setup.background.distance_m if setup.background is not None else None
    lights, heights = [], []
    for light in setup.lights:
        _, y, z = light_position(light)
        at, foot = Point(-y, -z), Point(-y, 0.0)
        target = face if light.part is not Part.BACKGROUND or behind is None else Point(-behind, face.y)
        lights.append(_drawn(light, setup, at, target, foot, light.front.height_m))
        heights.append(Dimension(foot, at, _middle(foot, at), z))
    view = camera_view(setup)
    lens = Point(place.distance_m, -place.height_m)
    edges = []
    for sign in (1.0, -1.0):
        angle = math.radians(min(89.0, max(-89.0, view.tilt_deg + sign * view.vertical_deg / 2.0)))
        edges.append(Point(0.0, lens.y - place.distance_m * math.tan(angle)))
    camera = DrawnCamera(
        lens,
        (edges[0], edges[1]),
        Dimension(Point(lens.x, 0.0), Point(0.0, 0.0), Point(lens.x / 2.0, 0.0), place.distance_m),
        view.vertical_deg,
    )
    crown = Point(0.0, -person.height_m)
    points = [Point(0.0, 0.0), crown, lens, *(p for one in lights for p in (one.at, one.letter_at, *one.front))]
    if behind is not None:
        points.append(Point(-behind, 0.0))
    panels = tuple(drawn_panel(setup, panel, from_side=True) for panel in setup.panels)
    points += [end for panel in panels for end in panel.outline]
    return Section(
        subject=(Point(0.0, 0.0), crown),
        face=face,
        camera=camera,
        lights=tuple(lights),
        heights=tuple(heights),
        background_x=None if behind is None else -behind,
        extent=_extent(points),
        panels=panels,
    )


def place_from_plan(x: float, y: float) -> tuple[float, float]:
    """Return bearing and floor distance of a spot that was pointed at on the plan.

    Parameters
    ----------
    x, y : float
        Drawing coordinates, subject at the origin, y down the paper, -1000 to 1000. [m]

    Returns
    -------
    tuple[float, float]
        Bearing, -180 to 180, positive to the camera's left [°]; distance along the floor [m].

    Raises
    ------
    OutOfRange
        If a coordinate is outside its range.

    References
    ----------
    Bearing convention of `shoots.lighting.core.quality`.

    Examples
    --------
    >>> place_from_plan(-2.0, 0.0)
    (90.0, 2.0)
    """
    PLACE.check("x", x)
    PLACE.check("y", y)
    return wrap_turn(math.degrees(math.atan2(-x, y))), math.hypot(x, y)
