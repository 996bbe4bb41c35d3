"""On which side of a camera with a bearing the sun stands through a date.

References
----------
NREL/TP-560-34302 (2008) for the sun; quarters of the circle are common practice, no source.
"""

from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from shoots.places.core.course import Course
from shoots.places.core.sun import SUNRISE_ALTITUDE_DEG, Side, SunTrack, side_of_camera
from shoots.values.units import wrap_turn


@dataclass(frozen=True, slots=True)
class SidePeriod:
    """A stretch during which the sun stands on one side of a camera.

    Attributes
    ----------
    start, end : datetime
        In the civil time of the place, to the second.
    side : Side
        Before, beside or behind.
    to_the_right : bool
        Whether the sun is to the right of the direction of view in the middle of the stretch.
    """

    start: datetime
    end: datetime
    side: Side
    to_the_right: bool


def camera_day(
    day: date,
    zone: str,
    latitude_deg: float,
    longitude_deg: float,
    view_bearing_deg: float,
    before_deg: float = 45.0,
    behind_deg: float = 135.0,
) -> tuple[SidePeriod, ...]:
    """Return from when till when the sun stands before, beside and behind a camera on a date.

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
    view_bearing_deg : float
        Direction in which the camera looks, from true, not magnetic, north. [°, clockwise from true north]
    before_deg : float
        Up to this turn the sun is before the camera, 0 to 180. [°]
    behind_deg : float
        From this turn on it is behind, 0 to 180. [°]

    Returns
    -------
    tuple[SidePeriod, ...]
        In order of time, only while the sun is up; empty when it does not rise. Limits within 10 s.

    Raises
    ------
    UnknownZone
        If ``zone`` is no IANA time zone.
    OutOfRange
        If an angle is outside its range.

    References
    ----------
    NREL/TP-560-34302; quarters of the circle are common practice, no source.

    Examples
    --------
    >>> south = camera_day(date(2027, 3, 20), "Europe/London", 51.5, -0.1, view_bearing_deg=180.0)
    >>> [period.side.value for period in south]
    ['BESIDE', 'BEFORE', 'BESIDE']
    """
    course = Course(day, zone, latitude_deg, longitude_deg, 0.0)

    def sides(track: SunTrack) -> list[Side]:
        return [
            side_of_camera(view_bearing_deg, float(azimuth), float(height), before_deg, behind_deg).side
            for azimuth, height in zip(track.azimuth_deg, track.altitude_deg, strict=True)
        ]

    rise_and_set = course.passages(SUNRISE_ALTITUDE_DEG).moments
    # Passages are met to a hundredth of a second; a second to either side settles on which side a node lies.
    nodes = np.sort(np.concatenate([course.nodes, rise_and_set - 1.0, rise_and_set + 1.0]))
    at_nodes = sides(course.track(nodes))
    cuts = [float(nodes[0])]
    kinds = [at_nodes[0]]
    for index in range(1, len(nodes)):
        if at_nodes[index] is kinds[-1]:
            continue
        fine = np.linspace(nodes[index - 1], nodes[index], 61)
        for moment, side in zip(fine, sides(course.track(fine)), strict=True):
            if side is not kinds[-1]:
                cuts.append(float(moment))
                kinds.append(side)
    cuts.append(float(nodes[-1]))
    found: list[SidePeriod] = []
    for start, end, side in zip(cuts[:-1], cuts[1:], kinds, strict=True):
        if side is not Side.DOWN and end > start:
            middle = course.track(np.array([(start + end) / 2.0])).azimuth_deg[0]
            right = wrap_turn(float(middle) - view_bearing_deg) > 0.0
            found.append(SidePeriod(course.clock(start), course.clock(end), side, right))
    return tuple(found)
