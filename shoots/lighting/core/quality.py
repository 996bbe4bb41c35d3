"""Quality of light: how large a source looks, how soft its shadows are, how it falls off, where it has to
stand.

Bearing convention of every setup, stated here once: the bearing of a light is measured at the subject, seen
from above, clockwise from the direction to the camera. The camera is at 0°, positive bearings are on the
camera's left, negative ones on its right, 180° is straight behind the subject. Elevation is positive above
the level of the subject point.

References
----------
Plane and solid geometry; ANSI/IES LS-1 9.1.1 for the inverse square.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoots.kit.core.lamps import Shape
from shoots.lighting.core.sources import Front, distance_change_stops
from shoots.values.units import Range

SIZE = Range(0.0, 1e6, "m")
DISTANCE = Range(0.0, 1e6, "m", above=True)
ANGLE = Range(0.0, 180.0, "°")
BEARING = Range(-360.0, 720.0, "°")
ELEVATION = Range(-90.0, 90.0, "°")
DOWN = Range(0.01, 90.0, "°")
HEIGHT = Range(-100.0, 1e4, "m")

SOFT_FROM_DEG = 30.0
"""A source that fills this much of the subject's view is called soft: common practice, no source. [°]"""
HARD_UP_TO_DEG = 8.0
"""A source that fills no more than this is called hard: common practice, no source. [°]"""


class Softness(StrEnum):
    """What a photographer calls a light by the edges of its shadows."""

    HARD = "HARD"
    MEDIUM = "MEDIUM"
    SOFT = "SOFT"


@dataclass(frozen=True, slots=True)
class Direction:
    """Where a light comes from, seen from the subject.

    Attributes
    ----------
    bearing_deg : float
        -180 to 180, positive to the camera's left. [°, clockwise from the direction to the camera]
    elevation_deg : float
        -90 to 90, positive from above. [°]
    floor_m : float
        Distance along the floor. [m]
    slant_m : float
        Distance along the beam. [m]
    """

    bearing_deg: float
    elevation_deg: float
    floor_m: float
    slant_m: float


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a light has to stand.

    Attributes
    ----------
    height_m : float
        Height of its front above the floor. [m]
    floor_m : float
        Distance along the floor. [m]
    slant_m : float
        Distance along the beam. [m]
    """

    height_m: float
    floor_m: float
    slant_m: float


def apparent_angle(size_m: float, distance_m: float) -> float:
    """Return the angle that a source fills in the subject's view.

    Parameters
    ----------
    size_m : float
        Diameter, or the side that matters, 0 to 1e6. [m]
    distance_m : float
        Source to subject, greater than 0. [m]

    Returns
    -------
    float
        2·atan(D/2d). [°]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> round(apparent_angle(0.9, 1.5), 2)
    33.4
    """
    SIZE.check("size_m", size_m)
    DISTANCE.check("distance_m", distance_m)
    return 2.0 * math.degrees(math.atan2(size_m, 2.0 * distance_m))


def softness(apparent_deg: float) -> Softness:
    """Return what a light is called by the angle it fills.

    Parameters
    ----------
    apparent_deg : float
        Angle in the subject's view, 0 to 180. [°]

    Returns
    -------
    Softness
        Hard, medium or soft.

    Raises
    ------
    OutOfRange
        If ``apparent_deg`` is outside its range.

    References
    ----------
    Limits of 8° and 30°: common practice, no source.

    Examples
    --------
    >>> softness(45.0), softness(3.4)
    (<Softness.SOFT: 'SOFT'>, <Softness.HARD: 'HARD'>)
    """
    ANGLE.check("apparent_deg", apparent_deg)
    if apparent_deg >= SOFT_FROM_DEG:
        return Softness.SOFT
    return Softness.HARD if apparent_deg <= HARD_UP_TO_DEG else Softness.MEDIUM


def solid_angle(front: Front, distance_m: float) -> float:
    """Return the solid angle of a front seen on its axis.

    Parameters
    ----------
    front : Front
        Disc or rectangle.
    distance_m : float
        Front to subject, greater than 0. [m]

    Returns
    -------
    float
        2π(1 - cos α/2) for a disc, 4·asin(ab/√((a² + 4d²)(b² + 4d²))) for a rectangle. [sr]

    Raises
    ------
    OutOfRange
        If ``distance_m`` is not positive.

    References
    ----------
    Solid geometry.

    Examples
    --------
    >>> round(solid_angle(Front(Shape.ROUND, 0.9, 0.9), 1.5), 4)
    0.265
    """
    DISTANCE.check("distance_m", distance_m)
    a, b = front.width_m, front.height_m
    if front.shape is Shape.ROUND:
        radius = math.sqrt(a * b) / 2.0
        # 1 - cos would lose all digits for a small disc; 2·sin²(α/4) does not.
        return 4.0 * math.pi * math.sin(math.atan2(radius, distance_m) / 2.0) ** 2
    square = 4.0 * distance_m * distance_m
    return 4.0 * math.asin(a * b / math.sqrt((a * a + square) * (b * b + square)))


def penumbra_width(source_m: float, source_to_edge_m: float, edge_to_surface_m: float) -> float:
    """Return the width of the soft edge of a shadow, of a nose or a jaw on what lies behind it.

    Parameters
    ----------
    source_m : float
        Size of the source across the edge, 0 to 1e6. [m]
    source_to_edge_m : float
        Source to the edge that throws the shadow, greater than 0. [m]
    edge_to_surface_m : float
        Edge to the surface on which it falls, at least 0. [m]

    Returns
    -------
    float
        D·x/d. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Similar triangles.

    Examples
    --------
    >>> round(penumbra_width(0.6, 2.0, 0.30), 3)
    0.09
    """
    SIZE.check("source_m", source_m)
    DISTANCE.check("source_to_edge_m", source_to_edge_m)
    SIZE.check("edge_to_surface_m", edge_to_surface_m)
    return source_m * edge_to_surface_m / source_to_edge_m


def sun_penumbra_width(edge_to_surface_m: float, sun_diameter_deg: float = 0.533) -> float:
    """Return the width of the soft edge of a shadow in the sun.

    Parameters
    ----------
    edge_to_surface_m : float
        Edge to the surface on which it falls, at least 0. [m]
    sun_diameter_deg : float
        Apparent diameter of the sun, 0 to 180. [°]

    Returns
    -------
    float
        2·x·tan(δ/2). [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry; mean diameter of the sun, HM Nautical Almanac Office.

    Examples
    --------
    >>> round(1000.0 * sun_penumbra_width(3.0), 1)
    27.9
    """
    SIZE.check("edge_to_surface_m", edge_to_surface_m)
    ANGLE.check("sun_diameter_deg", sun_diameter_deg)
    return 2.0 * edge_to_surface_m * math.tan(math.radians(sun_diameter_deg / 2.0))


def fall_off(front: Front, near_m: float, far_m: float) -> float:
    """Return how much less light the far side of a subject or group gets than the near side.

    Parameters
    ----------
    front : Front
        The source; its finite size counts.
    near_m, far_m : float
        Distances from the source, greater than 0. [m]

    Returns
    -------
    float
        Positive when the far side is darker. [stop]

    Raises
    ------
    OutOfRange
        If a distance is not positive.

    References
    ----------
    Textbook photometry, see `shoots.lighting.core.sources.finite_size_share`.

    Examples
    --------
    >>> fall_off(Front(Shape.ROUND, 0.0, 0.0), 1.5, 3.0)
    2.0
    """
    return -distance_change_stops(front, near_m, far_m)


def direction(bearing_deg: float, floor_m: float, height_m: float, subject_height_m: float) -> Direction:
    """Return where a light comes from, seen from a point of the subject.

    Parameters
    ----------
    bearing_deg : float
        Bearing of its place on the floor, -360 to 720. [°, clockwise from the direction to the camera]
    floor_m : float
        Distance along the floor, at least 0. [m]
    height_m : float
        Height of its front above the floor, -100 to 10,000. [m]
    subject_height_m : float
        Height of the point of the subject. [m]

    Returns
    -------
    Direction
        Bearing, elevation and both distances.

    Raises
    ------
    OutOfRange
        If an argument is outside its range, or the light stands in the subject.

    References
    ----------
    Geometry; bearing convention of the module.

    Examples
    --------
    >>> seen = direction(45.0, 1.5, 2.6, 1.6)
    >>> round(seen.elevation_deg, 2), round(seen.slant_m, 3)
    (33.69, 1.803)
    """
    BEARING.check("bearing_deg", bearing_deg)
    SIZE.check("floor_m", floor_m)
    HEIGHT.check("height_m", height_m)
    HEIGHT.check("subject_height_m", subject_height_m)
    up = height_m - subject_height_m
    slant = math.hypot(floor_m, up)
    DISTANCE.check("distance to the subject", slant)
    turn = math.fmod(bearing_deg + 540.0, 360.0) - 180.0
    return Direction(turn, math.degrees(math.atan2(up, floor_m)), floor_m, slant)


def placement(slant_m: float, elevation_deg: float, subject_height_m: float) -> Placement:
    """Return where a light stands that is so far away along the beam and so steep.

    Parameters
    ----------
    slant_m : float
        Distance along the beam, greater than 0. [m]
    elevation_deg : float
        Steepness, -90 to 90, positive from above. [°]
    subject_height_m : float
        Height of the point of the subject, -100 to 10,000. [m]

    Returns
    -------
    Placement
        Height and distance along the floor.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> stand = placement(2.0, 45.0, 1.60)
    >>> round(stand.height_m, 3), round(stand.floor_m, 3)
    (3.014, 1.414)
    """
    DISTANCE.check("slant_m", slant_m)
    ELEVATION.check("elevation_deg", elevation_deg)
    HEIGHT.check("subject_height_m", subject_height_m)
    steep = math.radians(elevation_deg)
    return Placement(subject_height_m + slant_m * math.sin(steep), slant_m * math.cos(steep), slant_m)


def placement_for_height(height_m: float, pointing_down_deg: float, subject_height_m: float) -> Placement:
    """Return where a light stands that is so high and points down at so many degrees.

    Parameters
    ----------
    height_m : float
        Height of its front above the floor, above the point of the subject. [m]
    pointing_down_deg : float
        How far below the horizontal its axis points, 0.01 to 90. [°]
    subject_height_m : float
        Height of the point of the subject. [m]

    Returns
    -------
    Placement
        Both distances; the floor distance is 0 for a light straight above.

    Raises
    ------
    OutOfRange
        If an argument is outside its range, or the light is not above the point.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> stand = placement_for_height(1.9, 45.0, 1.3)
    >>> round(stand.floor_m, 2), round(stand.slant_m, 2)
    (0.6, 0.85)
    """
    HEIGHT.check("height_m", height_m)
    HEIGHT.check("subject_height_m", subject_height_m)
    DOWN.check("pointing_down_deg", pointing_down_deg)
    up = height_m - subject_height_m
    DISTANCE.check("height_m above the subject", up)
    steep = math.radians(pointing_down_deg)
    return Placement(height_m, up / math.tan(steep) if pointing_down_deg < 90.0 else 0.0, up / math.sin(steep))
