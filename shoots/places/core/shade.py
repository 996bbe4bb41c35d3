"""Shade of a wall, fence or hedge: whether the sun reaches a spot, from when till when, and how much sky is
left.

References
----------
Plane geometry; view factor of an even sky over a long wall, daylighting and heat-transfer textbooks.
"""

import math
from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from shoots.places.core.course import Course
from shoots.places.core.sun import ALTITUDE, BEARING, SUNRISE_ALTITUDE_DEG, SunTrack
from shoots.values.units import FloatArray, Range, wrap_turn

DISTANCE = Range(0.0, 1e5, "m", above=True)
HEIGHT = Range(0.0, 1e4, "m")
LENGTH = Range(0.0, math.inf, "m", above=True)
SHARE = Range(0.0, 1.0, "1")
NORMAL_LUX = Range(0.0, 1e6, "lx")


@dataclass(frozen=True, slots=True)
class Wall:
    """A straight upright wall, fence or hedge near a spot.

    Attributes
    ----------
    bearing_deg : float
        From the spot square to the wall. [°, clockwise from true north]
    distance_m : float
        Along that line. [m]
    height_m : float
        Of its top above the ground. [m]
    left_m, right_m : float
        How far it runs to either side of that line, seen from the spot; infinite for a long one. [m]
    """

    bearing_deg: float
    distance_m: float
    height_m: float
    left_m: float = math.inf
    right_m: float = math.inf

    def __post_init__(self) -> None:
        BEARING.check("bearing_deg", self.bearing_deg)
        DISTANCE.check("distance_m", self.distance_m)
        HEIGHT.check("height_m", self.height_m)
        LENGTH.check("left_m", self.left_m)
        LENGTH.check("right_m", self.right_m)


@dataclass(frozen=True, slots=True)
class SunnyPeriod:
    """A stretch in which the sun reaches the spot.

    Attributes
    ----------
    start, end : datetime
        In the civil time of the place, within 15 s.
    """

    start: datetime
    end: datetime


def hidden_altitude(wall: Wall, azimuth_deg: float, point_height_m: float = 0.0) -> float:
    """Return up to which altitude a wall hides the sky in a direction.

    Parameters
    ----------
    wall : Wall
        The wall.
    azimuth_deg : float
        Direction of view. [°, clockwise from true north]
    point_height_m : float
        Height of the point that is to be lit, at least 0: a face is reached by more sun than the feet. [m]

    Returns
    -------
    float
        0 beside and behind, and where the point is above the wall. [°]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Plane geometry: the wall is d/cos φ away in the direction φ off its normal.

    Examples
    --------
    >>> round(hidden_altitude(Wall(180.0, 2.0, 3.6), 180.0, point_height_m=1.6), 3)
    45.0
    """
    BEARING.check("azimuth_deg", azimuth_deg)
    HEIGHT.check("point_height_m", point_height_m)
    turn = math.radians(wrap_turn(azimuth_deg - wall.bearing_deg))
    above = wall.height_m - point_height_m
    if above <= 0.0 or math.cos(turn) <= 1e-9:
        return 0.0
    along = wall.distance_m * math.tan(turn)
    if not -wall.left_m <= along <= wall.right_m:
        return 0.0
    return math.degrees(math.atan(above * math.cos(turn) / wall.distance_m))


def is_shaded(walls: tuple[Wall, ...], azimuth_deg: float, altitude_deg: float, point_height_m: float = 0.0) -> bool:
    """Return whether the sun is hidden from a spot, by a wall or by the horizon.

    Parameters
    ----------
    walls : tuple[Wall, ...]
        Walls round the spot.
    azimuth_deg : float
        Direction of the sun. [°, clockwise from true north]
    altitude_deg : float
        Its altitude, -90 to 90. [°]
    point_height_m : float
        Height of the point that is to be lit, at least 0. [m]

    Returns
    -------
    bool
        True in the shade.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Plane geometry.

    Examples
    --------
    >>> is_shaded((Wall(180.0, 2.0, 3.6),), 180.0, 40.0, point_height_m=1.6)
    True
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    if altitude_deg < SUNRISE_ALTITUDE_DEG:
        return True
    return any(altitude_deg < hidden_altitude(wall, azimuth_deg, point_height_m) for wall in walls)


def sunny_periods(
    day: date,
    zone: str,
    latitude_deg: float,
    longitude_deg: float,
    walls: tuple[Wall, ...],
    point_height_m: float = 0.0,
) -> tuple[SunnyPeriod, ...]:
    """Return from when till when the sun, if it shines, reaches a spot on a date.

    Parameters
    ----------
    day : date
        The local date.
    zone : str
        IANA name of the place's time zone.
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    walls : tuple[Wall, ...]
        Walls round the spot.
    point_height_m : float
        Height of the point that is to be lit, at least 0. [m]

    Returns
    -------
    tuple[SunnyPeriod, ...]
        In order of time; empty when the spot lies in the shade all day. A gap of less than ten minutes
        between two walls may be missed.

    Raises
    ------
    UnknownZone
        If ``zone`` is no IANA time zone.
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    NREL/TP-560-34302 for the sun; plane geometry.

    Examples
    --------
    >>> north_of_a_house = (Wall(180.0, 5.0, 6.0),)
    >>> sunny_periods(date(2027, 12, 21), "Europe/London", 51.5, 0.0, north_of_a_house)
    ()
    """
    course = Course(day, zone, latitude_deg, longitude_deg, 0.0)

    def lit(track: SunTrack) -> FloatArray:
        pairs = zip(track.azimuth_deg, track.apparent_altitude_deg, strict=True)
        return np.array([not is_shaded(walls, float(az), float(alt), point_height_m) for az, alt in pairs])

    open_sky = course.passages(SUNRISE_ALTITUDE_DEG).moments
    nodes = np.sort(np.concatenate([course.nodes, open_sky - 1.0, open_sky + 1.0]))
    state = lit(course.track(nodes))
    edges = [float(nodes[0])] if state[0] else []
    for index in np.flatnonzero(state[1:] != state[:-1]):
        fine = np.linspace(nodes[index], nodes[index + 1], 61)
        change = int(np.argmax(lit(course.track(fine)) != state[index]))
        edges.append(float(fine[change]))
    if len(edges) % 2:
        edges.append(float(nodes[-1]))
    return tuple(
        SunnyPeriod(course.clock(start), course.clock(end)) for start, end in zip(edges[::2], edges[1::2], strict=True)
    )


def sky_share(wall: Wall, point_height_m: float = 0.0) -> float:
    """Return how much of an even sky's light a long wall leaves on level ground.

    Parameters
    ----------
    wall : Wall
        The wall; it is taken as endless to both sides, and as black.
    point_height_m : float
        Height of the point, at least 0. [m]

    Returns
    -------
    float
        (1 + cos α)/2 with the angle α to its top: 1 in the open, 1/2 at its foot; a light wall gives some
        back. [1]

    Raises
    ------
    OutOfRange
        If ``point_height_m`` is outside its range.

    References
    ----------
    View factor of an even sky over a long wall, heat-transfer textbooks.

    Examples
    --------
    >>> round(sky_share(Wall(0.0, 1.0, 1.0)), 3)
    0.854
    """
    HEIGHT.check("point_height_m", point_height_m)
    above = max(0.0, wall.height_m - point_height_m)
    return (1.0 + math.cos(math.atan2(above, wall.distance_m))) / 2.0


def illuminance_on_upright(
    direct_normal_lx: float,
    sun_altitude_deg: float,
    turn_deg: float,
    diffuse_lx: float,
    ground_reflectance: float = 0.2,
) -> float:
    """Return the light on an upright surface, such as a face turned to the camera.

    Parameters
    ----------
    direct_normal_lx : float
        What the sun gives square to its rays; 0 in the shade. [lx]
    sun_altitude_deg : float
        Altitude of the sun, -90 to 90. [°]
    turn_deg : float
        From the direction that the surface faces to the sun, -360 to 720. [°]
    diffuse_lx : float
        What the sky gives on level ground, at least 0. [lx]
    ground_reflectance : float
        Share that the ground returns, 0 to 1: grass 0.2, concrete 0.3, snow 0.8. [1]

    Returns
    -------
    float
        Sun by the cosine, half of an even sky, half of the lit ground. [lx]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Isotropic sky and ground, B. Y. H. Liu, R. C. Jordan, Solar Energy 7 (1963) 53 (from memory).

    Examples
    --------
    >>> illuminance_on_upright(0.0, 30.0, 0.0, 10000.0, ground_reflectance=0.2)
    6000.0
    """
    NORMAL_LUX.check("direct_normal_lx", direct_normal_lx)
    ALTITUDE.check("sun_altitude_deg", sun_altitude_deg)
    BEARING.check("turn_deg", turn_deg)
    NORMAL_LUX.check("diffuse_lx", diffuse_lx)
    SHARE.check("ground_reflectance", ground_reflectance)
    altitude, turn = math.radians(sun_altitude_deg), math.radians(turn_deg)
    facing = max(0.0, math.cos(altitude) * math.cos(turn)) if sun_altitude_deg > 0.0 else 0.0
    ground = direct_normal_lx * max(0.0, math.sin(altitude)) + diffuse_lx
    return direct_normal_lx * facing + diffuse_lx / 2.0 + ground_reflectance * ground / 2.0
