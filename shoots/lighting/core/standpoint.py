"""Where the camera stands: its height, its tilt, and what the frame then holds from bottom to top.

References
----------
Plane geometry of a rectilinear lens.
"""

import math
from dataclasses import dataclass

from shoots.values.units import Range

HEIGHT = Range(-100.0, 1e4, "m")
DISTANCE = Range(0.0, 1e5, "m", above=True)
VIEW = Range(0.1, 179.0, "°")
TILT = Range(-89.0, 89.0, "°")


@dataclass(frozen=True, slots=True)
class Framed:
    """What a tilted camera sees at a distance.

    Attributes
    ----------
    bottom_m, top_m : float
        Heights at the edges of the frame; infinite when that edge looks past the horizontal straight up or
        down. [m]
    horizon : float or None
        Height of the horizon in the frame, 0 at its bottom edge and 1 at its top; None when it is outside.
        [1]
    """

    bottom_m: float
    top_m: float
    horizon: float | None


def tilt_to_target(camera_height_m: float, target_height_m: float, distance_m: float) -> float:
    """Return the tilt that brings a point into the middle of the frame.

    Parameters
    ----------
    camera_height_m, target_height_m : float
        Heights above the ground, -100 to 10,000. [m]
    distance_m : float
        Along the ground, greater than 0. [m]

    Returns
    -------
    float
        Positive looks up. [°]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> tilt_to_target(0.5, 2.5, 2.0)
    45.0
    """
    HEIGHT.check("camera_height_m", camera_height_m)
    HEIGHT.check("target_height_m", target_height_m)
    DISTANCE.check("distance_m", distance_m)
    return math.degrees(math.atan2(target_height_m - camera_height_m, distance_m))


def framed(camera_height_m: float, tilt_deg: float, vertical_view_deg: float, distance_m: float) -> Framed:
    """Return what a tilted camera sees from bottom to top at a distance.

    Parameters
    ----------
    camera_height_m : float
        Height above the ground, -100 to 10,000. [m]
    tilt_deg : float
        Positive looks up, -89 to 89. [°]
    vertical_view_deg : float
        Vertical field of view, 0.1 to 179. [°]
    distance_m : float
        Along the ground, greater than 0. [m]

    Returns
    -------
    Framed
        Heights at the edges and where the horizon lies; level verticals converge whenever the tilt is not 0.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry of a rectilinear lens.

    Examples
    --------
    >>> view = framed(0.5, 0.0, 53.13, 2.0)
    >>> round(view.bottom_m, 2), round(view.top_m, 2), view.horizon
    (-0.5, 1.5, 0.5)
    """
    HEIGHT.check("camera_height_m", camera_height_m)
    TILT.check("tilt_deg", tilt_deg)
    VIEW.check("vertical_view_deg", vertical_view_deg)
    DISTANCE.check("distance_m", distance_m)
    half = vertical_view_deg / 2.0

    def edge(angle: float) -> float:
        if abs(angle) >= 90.0:
            return math.copysign(math.inf, angle)
        return camera_height_m + distance_m * math.tan(math.radians(angle))

    place = 0.5 - math.tan(math.radians(tilt_deg)) / (2.0 * math.tan(math.radians(half)))
    return Framed(edge(tilt_deg - half), edge(tilt_deg + half), place if 0.0 <= place <= 1.0 else None)
