"""What stands before what: flat outlines in space, the share of a lit front that they hide from a point, and the
share of the light on a receptor that comes through an outline.

A front is even, so what a point gets from a part of it goes by that part's configuration factor, and a part is
what is left when the cone over whatever stands before it is cut away. Everything is cut exactly, as polygons; a
round thing is a polygon of the same area. In the half shadow the share lies between 0 and 1.

References
----------
Light vector of an even polygon (Lambert 1760), E = L/2 · Σ γᵢ·nᵢ, γᵢ the angle under which an edge is seen and nᵢ
the normal of its plane with the point; solid angle of a triangle by its three directions (Eriksson, Mathematics
Magazine 63, 1990; Van Oosterom and Strackee 1983). Cutting: Sutherland and Hodgman 1974. From memory.
"""

import math
from functools import cache, lru_cache

from shoots.kit.core.lamps import Shape
from shoots.lighting.core.panels import Vector, cross, dot, sides, towards, turned
from shoots.lighting.core.sources import DISTANCE, GAIN, SHARE, Front
from shoots.values.units import Range

CORNERS = 48
"""A round front is drawn with so many corners and the area of the circle."""
LEAST_M = 0.002
"""A point of light is taken as large as this, so that it can be hidden at all. [m]"""
TOUCH_M = 1e-6
"""Nearer than this two things touch. [m]"""
SUN_DEG = 0.533
"""The sun's diameter at its mean distance: semidiameter 15′ 59.6″, Astronomical Almanac. [°]"""
SUN_M = 1000.0
"""A disc of the sun's size is put so far off; nothing of a setup is that far. [m]"""
ASIDE = Range(-1000.0, 1000.0, "m")
TURN = Range(-180.0, 180.0, "°")

Outline = tuple[Vector, ...]
Plane = tuple[Vector, float]


def _minus(one: Vector, other: Vector) -> Vector:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def _along(start: Vector, way: Vector, length: float) -> Vector:
    return start[0] + length * way[0], start[1] + length * way[1], start[2] + length * way[2]


def _times(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def _centre(corners: Outline) -> Vector:
    count = len(corners)
    return (
        sum(one[0] for one in corners) / count,
        sum(one[1] for one in corners) / count,
        sum(one[2] for one in corners) / count,
    )


@cache
def _flat(front: Front) -> tuple[tuple[float, float], ...]:
    """Return the corners of a front in its own plane."""
    wide, high = max(front.width_m, LEAST_M) / 2.0, max(front.height_m, LEAST_M) / 2.0
    if front.shape is not Shape.ROUND:
        return (-wide, -high), (wide, -high), (wide, high), (-wide, high)
    step = 2.0 * math.pi / CORNERS
    grown = math.sqrt(step / math.sin(step))
    return tuple(
        (wide * grown * math.cos((n + 0.5) * step), high * grown * math.sin((n + 0.5) * step)) for n in range(CORNERS)
    )


@lru_cache(maxsize=512)
def outline(front: Front, middle: Vector, facing: Vector) -> Outline:
    """Return the corners of a flat thing in space.

    Parameters
    ----------
    front : Front
        Its shape and size; one without a size is taken as a point of two millimetres.
    middle : tuple[float, float, float]
        Its middle. [m]
    facing : tuple[float, float, float]
        Unit vector square to it. [1]

    Returns
    -------
    tuple[tuple[float, float, float], ...]
        Four corners, or 48 of a round one. [m]

    References
    ----------
    Geometry.
    """
    across, along = sides(facing)
    return tuple(_along(_along(middle, across, x), along, y) for x, y in _flat(front))


def _clip(corners: Outline, plane: Plane) -> Outline:
    """Return the part of a convex outline on the side of a plane that its normal points to."""
    normal, level = plane
    heights = [_times(normal, one) - level for one in corners]
    if all(one >= 0.0 for one in heights):
        return corners
    found: list[Vector] = []
    for index, here in enumerate(corners):
        there = corners[index - 1]
        up, before = heights[index], heights[index - 1]
        if (up >= 0.0) != (before >= 0.0):
            share = before / (before - up)
            found.append(_along(there, _minus(here, there), share))
        if up >= 0.0:
            found.append(here)
    return tuple(found) if len(found) >= 3 else ()


def clipped(corners: Outline, planes: tuple[Plane, ...]) -> Outline:
    """Return the part of a convex outline inside of several planes.

    Parameters
    ----------
    corners : tuple[tuple[float, float, float], ...]
        Its corners. [m]
    planes : tuple[tuple[tuple[float, float, float], float], ...]
        Each a normal [1] and the least product with it [m].

    Returns
    -------
    tuple[tuple[float, float, float], ...]
        What is left; empty for nothing. [m]

    References
    ----------
    Sutherland and Hodgman 1974.
    """
    for plane in planes:
        if not corners:
            break
        corners = _clip(corners, plane)
    return corners


def _cone(point: Vector, corners: Outline) -> tuple[Plane, ...]:
    """Return the planes through a point and the edges of an outline, their normals inward; none for one on edge."""
    middle = _minus(_centre(corners), point)
    planes = []
    for index, here in enumerate(corners):
        normal = cross(_minus(corners[index - 1], point), _minus(here, point))
        size = math.hypot(*normal)
        if size < 1e-12:
            continue
        turn = _times(normal, middle) / size
        if abs(turn) < 1e-9:
            return ()
        sign = 1.0 / size if turn > 0.0 else -1.0 / size
        inward = (normal[0] * sign, normal[1] * sign, normal[2] * sign)
        planes.append((inward, _times(inward, point)))
    return tuple(planes) if len(planes) >= 3 else ()


def _light_vector(corners: Outline, point: Vector) -> Vector:
    """Return the integral of the direction over the solid angle of an outline, towards it."""
    ways = [towards(point, one)[0] for one in corners]
    total = (0.0, 0.0, 0.0)
    for index, here in enumerate(ways):
        there = ways[index - 1]
        normal = cross(there, here)
        size = math.hypot(*normal)
        if size > 1e-15:
            angle = math.atan2(size, _times(there, here))
            total = _along(total, normal, angle / size / 2.0)
    return total if _times(total, _minus(_centre(corners), point)) >= 0.0 else (-total[0], -total[1], -total[2])


def solid_angle(corners: Outline, point: Vector) -> float:
    """Return the solid angle under which a convex outline is seen.

    Parameters
    ----------
    corners : tuple[tuple[float, float, float], ...]
        Its corners. [m]
    point : tuple[float, float, float]
        Where it is seen from. [m]

    Returns
    -------
    float
        0 to 2π. [sr]

    References
    ----------
    Those of the module.
    """
    ways = [towards(point, one)[0] for one in corners]
    total = 0.0
    for index in range(1, len(ways) - 1):
        a, b, c = ways[0], ways[index], ways[index + 1]
        volume = abs(_times(a, cross(b, c)))
        total += 2.0 * math.atan2(volume, 1.0 + _times(a, b) + _times(b, c) + _times(c, a))
    return total


def receptor_share(corners: Outline, point: Vector, facing: Vector, dome: bool = False) -> float:
    """Return the light on a receptor that comes through an outline, for each lux that leaves it per π.

    Parameters
    ----------
    corners : tuple[tuple[float, float, float], ...]
        The outline, evenly bright. [m]
    point : tuple[float, float, float]
        The receptor. [m]
    facing : tuple[float, float, float]
        Which way it is turned. [1]
    dome : bool
        Whether it is a half sphere, which weighs light by (1 + cos θ)/2 from all sides, and not a flat one.

    Returns
    -------
    float
        Configuration factor; 1 for a whole sky over a flat receptor. [1]

    References
    ----------
    Those of the module; the dome as in `shoots.lighting.core.ambient`.
    """
    if not corners:
        return 0.0
    if dome:
        across = _times(_light_vector(corners, point), facing)
        return (solid_angle(corners, point) + across) / 2.0 / math.pi
    seen = _clip(corners, (facing, _times(facing, point)))
    return max(0.0, _times(_light_vector(seen, point), facing)) / math.pi if seen else 0.0


@lru_cache(maxsize=8192)
def visible_share(source: Outline, point: Vector, before: tuple[Outline, ...]) -> float:
    """Return the share of a source that a point gets past what stands before it.

    Parameters
    ----------
    source : tuple[tuple[float, float, float], ...]
        Outline of an even, convex front. [m]
    point : tuple[float, float, float]
        Where its light falls, on a receptor turned to its middle. [m]
    before : tuple[tuple[tuple[float, float, float], ...], ...]
        Outlines of whatever may stand in the way; one behind the source or the point hides nothing. [m]

    Returns
    -------
    float
        1 for all of it. Where several hide the same part, it counts once. [1]

    References
    ----------
    Those of the module.
    """
    axis, far = towards(point, _centre(source))
    if far < TOUCH_M:
        return 1.0
    level = _times(axis, point)
    whole = receptor_share(source, point, axis)
    if whole <= 0.0:
        return 1.0
    parts = [source]
    for one in before:
        if _is_aside(source, one, point):
            continue
        # Only what lies between the point and the plane of the front can hide some of it.
        near = clipped(one, ((axis, level + TOUCH_M), (_back(axis), -(level + far - TOUCH_M))))
        planes = _cone(point, near) if near else ()
        if not planes:
            continue
        left = []
        for part in parts:
            for plane in planes:
                outside = _clip(part, (_back(plane[0]), -plane[1]))
                if outside:
                    left.append(outside)
                part = _clip(part, plane)
                if not part:
                    break
        parts = left
    if parts == [source]:
        return 1.0
    return min(1.0, math.fsum(receptor_share(part, point, axis) for part in parts) / whole)


def _back(way: Vector) -> Vector:
    return -way[0], -way[1], -way[2]


def _is_aside(source: Outline, other: Outline, point: Vector) -> bool:
    """Return whether two outlines, each seen in a round cone, can't cover one another."""
    ways = []
    for one in (source, other):
        middle, far = towards(point, _centre(one))
        radius = max(math.dist(corner, _centre(one)) for corner in one)
        if radius >= far:
            return False
        ways.append((middle, math.asin(radius / far)))
    return math.acos(dot(ways[0][0], ways[1][0])) > ways[0][1] + ways[1][1]


def sun_outline(point: Vector, direction: Vector) -> Outline:
    """Return the sun as a disc in the sky of a point.

    Parameters
    ----------
    point : tuple[float, float, float]
        Where it is seen from. [m]
    direction : tuple[float, float, float]
        Unit vector to the sun. [1]

    Returns
    -------
    tuple[tuple[float, float, float], ...]
        A disc of its size, a kilometre off. [m]

    References
    ----------
    Astronomical Almanac.
    """
    size = 2.0 * SUN_M * math.tan(math.radians(SUN_DEG / 2.0))
    return outline(Front(Shape.ROUND, size, size), _along(point, direction, SUN_M), direction)


def hidden_share(
    front: Front,
    distance_m: float,
    flag: Front,
    flag_distance_m: float,
    sideways_m: float = 0.0,
    up_m: float = 0.0,
    turned_deg: float = 0.0,
) -> float:
    """Return the share of a source's light that a flag between it and the subject hides.

    Parameters
    ----------
    front : Front
        The lit front, evenly bright, turned to the subject point.
    distance_m : float
        Front to subject point, 1e-6 to 100,000. [m]
    flag : Front
        The flag.
    flag_distance_m : float
        Flag to subject point along the line to the middle of the front, 1e-6 to 100,000; one that is no nearer
        than the front hides nothing. [m]
    sideways_m : float
        Middle of the flag beside that line, -1000 to 1000. [m]
    up_m : float
        Middle of the flag above that line, -1000 to 1000. [m]
    turned_deg : float
        How far the flag is turned about its upright middle line, -180 to 180: 0 for square to the line, positive
        brings the edge on the positive side nearer to the front. [°]

    Returns
    -------
    float
        0 for a flag out of the way, 1 for one that hides it all. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Lambert's polygon formula over what is left of the front; geometry.

    Examples
    --------
    >>> box, black = Front(Shape.RECTANGLE, 1.0, 1.0), Front(Shape.RECTANGLE, 1.0, 1.0)
    >>> round(hidden_share(box, 2.0, black, 1.0, sideways_m=0.5), 3)
    0.5
    """
    DISTANCE.check("distance_m", distance_m)
    DISTANCE.check("flag_distance_m", flag_distance_m)
    ASIDE.check("sideways_m", sideways_m)
    ASIDE.check("up_m", up_m)
    TURN.check("turned_deg", turned_deg)
    source = outline(front, (0.0, -distance_m, 0.0), (0.0, 1.0, 0.0))
    before = outline(flag, (sideways_m, -flag_distance_m, up_m), turned(180.0 + turned_deg, 0.0))
    return 1.0 - visible_share(source, (0.0, 0.0, 0.0), (before,))


def bounced_share(
    front: Front, distance_m: float, turned_deg: float = 0.0, reflectance: float = 0.8, gain: float = 1.0
) -> float:
    """Return what a board that is turned aside throws onto the subject, for each lux that falls on it.

    Parameters
    ----------
    front : Front
        The board.
    distance_m : float
        Its middle to the subject point, 1e-6 to 100,000. [m]
    turned_deg : float
        How far it is turned away from the subject about its upright middle line, -180 to 180. [°]
    reflectance : float
        Share of the light that it returns, 0 to 1. [1]
    gain : float
        How much brighter than matt it is in that direction, 0 to 100. [1]

    Returns
    -------
    float
        Illuminance at the subject, facing the board, over illuminance on the board; at most ``reflectance``. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Lambert's polygon formula for a matt board, evenly lit; reflectances and gains are common practice, no source.

    Examples
    --------
    >>> round(bounced_share(Front(Shape.RECTANGLE, 1.0, 2.0), 1.0), 2)
    0.29
    """
    DISTANCE.check("distance_m", distance_m)
    TURN.check("turned_deg", turned_deg)
    SHARE.check("reflectance", reflectance)
    GAIN.check("gain", gain)
    if math.cos(math.radians(turned_deg)) <= 0.0:
        return 0.0
    board = outline(front, (0.0, -distance_m, 0.0), turned(180.0 + turned_deg, 0.0))
    # Of a board so near that it reaches behind the subject only the part before it counts.
    return min(reflectance, gain * reflectance * receptor_share(board, (0.0, 0.0, 0.0), (0.0, -1.0, 0.0)))
