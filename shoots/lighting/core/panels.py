"""A panel in its place: where it stands, which light it is for, and which way it is turned.

Coordinates of a setup: the subject point at (0, 0, its height), x to the camera's right, y away from the
camera, z up.

References
----------
Geometry.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoots.kit.core.lamps import StandSpec
from shoots.kit.core.panels import PanelSpec
from shoots.lighting.core.sources import Front
from shoots.values.units import Range

BEARING = Range(-360.0, 720.0, "°")
FLOOR = Range(0.0, 1000.0, "m")
HEIGHT = Range(0.0, 100.0, "m")
SHARE = Range(0.0, 1.0, "1")
TILT = Range(-90.0, 90.0, "°")

Vector = tuple[float, float, float]


class Shields(StrEnum):
    """What a flag keeps a light from."""

    SUBJECT = "SUBJECT"
    BACKGROUND = "BACKGROUND"
    LENS = "LENS"


@dataclass(frozen=True, slots=True)
class PlacedPanel:
    """A panel in its place.

    Attributes
    ----------
    letter : str
        How it is called on the plan; no light has the same.
    panel : PanelSpec
        The panel itself.
    bearing_deg : float
        Positive to the camera's left. [°, clockwise from the direction to the camera]
    floor_m : float
        Along the floor, from below the subject point to below its middle. [m]
    height_m : float
        Of its middle above the floor. [m]
    for_letter : str
        The light that it is for; empty for the sun and the sky.
    covers : float or None
        Share of its light that a flag or scrim hides from what it shields, where somebody says so; None where it
        comes from where it stands. [1]
    shields : Shields
        What a flag keeps the light from.
    turn_deg : float or None
        Which way it faces, seen from above; None where it is turned as what it does wants it. [°, clockwise from
        the direction to the camera]
    tilt_deg : float or None
        0 stands upright, 90 faces up, -90 faces down; None as above. [°]
    stand : StandSpec or None
        What holds it; None when somebody does.
    extra_mass_kg : float
        Sandbags and the like, on each stand. [kg]
    """

    letter: str
    panel: PanelSpec
    bearing_deg: float = -60.0
    floor_m: float = 1.0
    height_m: float = 1.2
    for_letter: str = ""
    covers: float | None = None
    shields: Shields = Shields.SUBJECT
    turn_deg: float | None = None
    tilt_deg: float | None = None
    stand: StandSpec | None = None
    extra_mass_kg: float = 0.0

    def __post_init__(self) -> None:
        BEARING.check("bearing_deg", self.bearing_deg)
        FLOOR.check("floor_m", self.floor_m)
        HEIGHT.check("height_m", self.height_m)
        FLOOR.check("extra_mass_kg", self.extra_mass_kg)
        if self.covers is not None:
            SHARE.check("covers", self.covers)
        if self.turn_deg is not None:
            BEARING.check("turn_deg", self.turn_deg)
        if self.tilt_deg is not None:
            TILT.check("tilt_deg", self.tilt_deg)

    @property
    def front(self) -> Front:
        """Its outline as a front."""
        return Front(self.panel.shape, self.panel.width_m, self.panel.height_m)

    @property
    def position(self) -> Vector:
        """Its middle in the setup's own coordinates. [m]"""
        return placed_at(self.bearing_deg, self.floor_m, self.height_m)


def placed_at(bearing_deg: float, floor_m: float, height_m: float) -> Vector:
    """Return a place of the plan in the setup's own coordinates.

    Parameters
    ----------
    bearing_deg : float
        Positive to the camera's left. [°, clockwise from the direction to the camera]
    floor_m : float
        Along the floor, from below the subject point. [m]
    height_m : float
        Above the floor. [m]

    Returns
    -------
    tuple[float, float, float]
        x to the camera's right, y away from the camera, z up. [m]

    References
    ----------
    Bearing convention of `shoots.lighting.core.quality`.

    Examples
    --------
    >>> placed_at(0.0, 2.0, 1.5)
    (-0.0, -2.0, 1.5)
    """
    turn = math.radians(bearing_deg)
    return -floor_m * math.sin(turn), -floor_m * math.cos(turn), height_m


def towards(start: Vector, end: Vector) -> tuple[Vector, float]:
    """Return the direction from one point to another, and how far it is.

    Parameters
    ----------
    start, end : tuple[float, float, float]
        Two points. [m]

    Returns
    -------
    tuple[tuple[float, float, float], float]
        Unit vector [1] and distance [m]; straight up for one and the same point.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> towards((0.0, 0.0, 0.0), (0.0, 3.0, 4.0))
    ((0.0, 0.6, 0.8), 5.0)
    """
    way = (end[0] - start[0], end[1] - start[1], end[2] - start[2])
    length = math.hypot(*way)
    if length == 0.0:
        return (0.0, 0.0, 1.0), 0.0
    return (way[0] / length, way[1] / length, way[2] / length), length


def dot(one: Vector, two: Vector) -> float:
    """Return the cosine between two unit vectors.

    Parameters
    ----------
    one, two : tuple[float, float, float]
        Unit vectors. [1]

    Returns
    -------
    float
        -1 to 1. [1]

    References
    ----------
    Geometry.

    Examples
    --------
    >>> dot((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    0.0
    """
    return min(1.0, max(-1.0, math.fsum(a * b for a, b in zip(one, two, strict=True))))


def half_way(one: Vector, two: Vector) -> Vector:
    """Return the direction half way between two, the way a board is turned to throw one's light to the other.

    Parameters
    ----------
    one, two : tuple[float, float, float]
        Unit vectors. [1]

    Returns
    -------
    tuple[float, float, float]
        Unit vector; the first where they point opposite ways. [1]

    References
    ----------
    Law of reflection.

    Examples
    --------
    >>> half_way((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0))
    (1.0, 0.0, 0.0)
    """
    both = (one[0] + two[0], one[1] + two[1], one[2] + two[2])
    return one if math.hypot(*both) < 1e-9 else towards((0.0, 0.0, 0.0), both)[0]


def cross(one: Vector, two: Vector) -> Vector:
    """Return the vector product.

    Parameters
    ----------
    one, two : tuple[float, float, float]
        Two vectors. [m]

    Returns
    -------
    tuple[float, float, float]
        Square to both. [m²]

    References
    ----------
    Geometry.

    Examples
    --------
    >>> cross((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    (0.0, 0.0, 1.0)
    """
    return (
        one[1] * two[2] - one[2] * two[1],
        one[2] * two[0] - one[0] * two[2],
        one[0] * two[1] - one[1] * two[0],
    )


def turned(bearing_deg: float, tilt_deg: float) -> Vector:
    """Return the direction that a panel faces.

    Parameters
    ----------
    bearing_deg : float
        Seen from above; 0 faces the camera's side, positive the camera's left. [°, clockwise from the direction
        to the camera]
    tilt_deg : float
        0 stands upright, 90 faces up, -90 faces down. [°]

    Returns
    -------
    tuple[float, float, float]
        Unit vector. [1]

    References
    ----------
    Bearing convention of `shoots.lighting.core.quality`.

    Examples
    --------
    >>> [round(one, 6) + 0.0 for one in turned(90.0, 0.0)]
    [-1.0, 0.0, 0.0]
    """
    up = math.radians(tilt_deg)
    level = placed_at(bearing_deg, math.cos(up), math.sin(up))
    return level[0], level[1], level[2]


def turn_and_tilt(facing: Vector) -> tuple[float, float]:
    """Return the bearing and the tilt of a direction, the other way round of `turned`.

    Parameters
    ----------
    facing : tuple[float, float, float]
        Unit vector. [1]

    Returns
    -------
    tuple[float, float]
        Bearing, -180 to 180, 0 for straight up or down [°]; tilt, -90 to 90 [°].

    References
    ----------
    Geometry.

    Examples
    --------
    >>> turn_and_tilt((-1.0, 0.0, 0.0))
    (90.0, 0.0)
    """
    level = math.hypot(facing[0], facing[1])
    bearing = math.degrees(math.atan2(-facing[0], -facing[1])) if level > 1e-9 else 0.0
    return bearing, math.degrees(math.atan2(facing[2], level))


def sides(facing: Vector) -> tuple[Vector, Vector]:
    """Return the two directions in a panel's own plane: its width, which lies level, and its height.

    Parameters
    ----------
    facing : tuple[float, float, float]
        Unit vector square to it. [1]

    Returns
    -------
    tuple[tuple[float, float, float], tuple[float, float, float]]
        Unit vectors; what faces straight up or down has its width across the picture. [1]

    References
    ----------
    Geometry.
    """
    level = math.hypot(facing[0], facing[1])
    across = (-facing[1] / level, facing[0] / level, 0.0) if level > 1e-9 else (1.0, 0.0, 0.0)
    return across, cross(facing, across)
