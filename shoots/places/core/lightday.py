"""The light periods of one date at one place: when the sun rises and sets, twilight, low warm sun, which
side.

A date means the stretch from one midnight of the sun to the next around the local noon of that date, so the
dusk that follows it may carry the next calendar date. What does not happen (no sunset at midsummer) is a
result.

References
----------
HM Nautical Almanac Office, Astronomical Information Sheet 7: sunrise and sunset at a zenith distance of
90°50′, twilights at 96°, 102° and 108°. Low sun from -4° to +6° and the blue light between -6° and -4° are
common practice, no standard. Events hold for a level sea horizon; refraction alone moves a real one by a
minute and more.
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from enum import StrEnum

import numpy as np

from shoots.places.core.course import Course
from shoots.places.core.sun import (
    ALTITUDE,
    SUNRISE_ALTITUDE_DEG,
    Altitude,
    Side,
    SunTrack,
    side_of_camera,
)
from shoots.values.units import wrap_turn

CIVIL_DEG = -6.0
NAUTICAL_DEG = -12.0
ASTRONOMICAL_DEG = -18.0
EVENT_SPREAD_S = 60.0
"""How far a real rise or set at a level horizon may lie from the computed one, at least (same sheet). [s]"""


class Absence(StrEnum):
    """Why an event does not happen on a date."""

    STAYS_ABOVE = "STAYS_ABOVE"
    """The sun stays above that altitude."""
    STAYS_BELOW = "STAYS_BELOW"
    """The sun stays below that altitude."""


class Part(StrEnum):
    """Which part of the day a period lies in."""

    MORNING = "MORNING"
    EVENING = "EVENING"
    MIDDAY = "MIDDAY"
    """It contains the sun's highest point."""


@dataclass(frozen=True, slots=True)
class LowSun:
    """Between which altitudes the sun counts as low and warm.

    Attributes
    ----------
    low_deg : float
        Lower limit, above -6, where the blue light ends. [°]
    high_deg : float
        Upper limit. [°]
    """

    low_deg: float = -4.0
    high_deg: float = 6.0

    def __post_init__(self) -> None:
        ALTITUDE.check("low_deg", self.low_deg)
        ALTITUDE.check("high_deg", self.high_deg)
        if not self.low_deg < self.high_deg:
            ALTITUDE.check("high_deg", float("nan"))


LOW_SUN = LowSun()


@dataclass(frozen=True, slots=True)
class SunEvent:
    """A moment at which the sun passes an altitude, or the fact that it does not.

    Attributes
    ----------
    at : datetime or None
        In the civil time of the place, to the second; None when it does not happen.
    azimuth_deg : float or None
        Where the sun stands then. [°, clockwise from true north]
    absence : Absence or None
        Why it does not happen; None when it does.
    """

    at: datetime | None
    azimuth_deg: float | None
    absence: Absence | None

    @property
    def happens(self) -> bool:
        """Whether there is such a moment."""
        return self.at is not None


@dataclass(frozen=True, slots=True)
class SunTurn:
    """The middle of the sun's day or night.

    Attributes
    ----------
    at : datetime
        In the civil time of the place, to the second.
    altitude_deg, apparent_altitude_deg : float
        Geometric and refracted altitude then. [°]
    azimuth_deg : float
        Where it stands. [°, clockwise from true north]
    """

    at: datetime
    altitude_deg: float
    apparent_altitude_deg: float
    azimuth_deg: float


@dataclass(frozen=True, slots=True)
class LightPeriod:
    """A stretch of one kind of light.

    Attributes
    ----------
    start, end : datetime
        In the civil time of the place, to the second.
    part : Part
        Morning, evening, or through midday.
    cut : bool
        True when it is cut off at the middle of the night and goes on in the neighbouring date.
    """

    start: datetime
    end: datetime
    part: Part
    cut: bool

    @property
    def duration(self) -> timedelta:
        """How long it lasts, by the clock of the stars, across a change of clocks too."""
        return self.end.astimezone(UTC) - self.start.astimezone(UTC)


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


@dataclass(frozen=True, slots=True)
class SunDay:
    """Everything the sun does on one date at one place.

    Attributes
    ----------
    day : date
        The local date.
    zone : str
        IANA time zone of all the moments.
    noon, midnight : SunTurn
        The passage of the meridian (the highest point within a few seconds, but for the poles), and the
        lowest point of the night that follows.
    sunrise, sunset, civil_dawn, civil_dusk : SunEvent
        Events at -0.8333° and -6°.
    nautical_dawn, nautical_dusk, astronomical_dawn, astronomical_dusk : SunEvent
        Events at -12° and -18°.
    daylight, low_sun, blue, civil_twilight : tuple[LightPeriod, ...]
        Stretches above -0.8333°; between the limits of low sun; from -6° to its lower limit; from -6° to
        -0.8333°. Empty when there is none.
    """

    day: date
    zone: str
    noon: SunTurn
    midnight: SunTurn
    sunrise: SunEvent
    sunset: SunEvent
    civil_dawn: SunEvent
    civil_dusk: SunEvent
    nautical_dawn: SunEvent
    nautical_dusk: SunEvent
    astronomical_dawn: SunEvent
    astronomical_dusk: SunEvent
    daylight: tuple[LightPeriod, ...]
    low_sun: tuple[LightPeriod, ...]
    blue: tuple[LightPeriod, ...]
    civil_twilight: tuple[LightPeriod, ...]

    @property
    def day_length(self) -> timedelta:
        """Time for which the upper edge of the sun is above a level horizon."""
        return sum((period.duration for period in self.daylight), timedelta())


def _event(course: Course, level_deg: float, direction: float) -> SunEvent:
    """Return the passage nearest to noon in one direction, or why there is none."""
    met = course.passages(level_deg)
    wanted = np.flatnonzero(met.directions == direction)
    if wanted.size == 0:
        noon = course.sun.altitude_deg[int(np.searchsorted(course.nodes, course.noon))]
        return SunEvent(None, None, Absence.STAYS_ABOVE if noon >= level_deg else Absence.STAYS_BELOW)
    index = wanted[int(np.argmin(np.abs(met.moments[wanted] - course.noon)))]
    return SunEvent(course.clock(float(met.moments[index])), float(met.azimuths[index]), None)


def _turn(course: Course, moment: float) -> SunTurn:
    track = course.track(np.array([moment]))
    return SunTurn(
        course.clock(moment),
        float(track.altitude_deg[0]),
        float(track.apparent_altitude_deg[0]),
        float(track.azimuth_deg[0]),
    )


def _between(course: Course, low_deg: float, high_deg: float, kind: Altitude) -> tuple[LightPeriod, ...]:
    """Return the stretches during which the sun stands between two altitudes."""
    edges = np.concatenate([course.passages(low_deg, kind).moments, course.passages(high_deg, kind).moments])
    cuts = np.concatenate([[course.start], np.sort(edges), [course.end]])
    middles = (cuts[1:] + cuts[:-1]) / 2.0
    altitude = course.altitudes(course.track(middles), kind)
    found: list[LightPeriod] = []
    for start, end, height in zip(cuts[:-1], cuts[1:], altitude, strict=True):
        if low_deg <= height < high_deg and end > start:
            morning, evening = end <= course.noon, start >= course.noon
            part = Part.MORNING if morning else Part.EVENING if evening else Part.MIDDAY
            cut = bool(start == course.start or end == course.end)
            found.append(LightPeriod(course.clock(float(start)), course.clock(float(end)), part, cut))
    return tuple(found)


def sun_day(
    day: date,
    zone: str,
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float = 0.0,
    low_sun: LowSun = LOW_SUN,
    altitude: Altitude = Altitude.GEOMETRIC,
) -> SunDay:
    """Return the light periods of a local date at a place.

    Parameters
    ----------
    day : date
        The local date, in the years 1000 to 3000.
    zone : str
        IANA name of the place's time zone, "Europe/London".
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    elevation_m : float
        Height above the sea, -500 to 10,000; it moves the sun by less than 0.001°, the dip of the horizon is
        not counted. [m]
    low_sun : LowSun
        Limits of low warm sun.
    altitude : Altitude
        Which altitude the limits of low sun (not rise, set and twilight) are measured in.

    Returns
    -------
    SunDay
        Events within 3 s of the reference ephemeris; a real horizon differs by ``EVENT_SPREAD_S`` and more.

    Raises
    ------
    UnknownZone
        If ``zone`` is no IANA time zone.
    OutOfRange
        If a coordinate is outside its range.

    References
    ----------
    HM Nautical Almanac Office, Astronomical Information Sheet 7; NREL/TP-560-34302.

    Examples
    --------
    >>> midsummer = sun_day(date(2027, 6, 21), "Europe/London", 60.1546, -1.1486)
    >>> midsummer.civil_dusk.at.isoformat()[:16], midsummer.nautical_dusk.absence
    ('2027-06-22T00:25', <Absence.STAYS_ABOVE: 'STAYS_ABOVE'>)
    """
    course = Course(day, zone, latitude_deg, longitude_deg, elevation_m)
    geometric = Altitude.GEOMETRIC
    return SunDay(
        day=day,
        zone=zone,
        noon=_turn(course, course.transit),
        midnight=_turn(course, course.end),
        sunrise=_event(course, SUNRISE_ALTITUDE_DEG, 1.0),
        sunset=_event(course, SUNRISE_ALTITUDE_DEG, -1.0),
        civil_dawn=_event(course, CIVIL_DEG, 1.0),
        civil_dusk=_event(course, CIVIL_DEG, -1.0),
        nautical_dawn=_event(course, NAUTICAL_DEG, 1.0),
        nautical_dusk=_event(course, NAUTICAL_DEG, -1.0),
        astronomical_dawn=_event(course, ASTRONOMICAL_DEG, 1.0),
        astronomical_dusk=_event(course, ASTRONOMICAL_DEG, -1.0),
        daylight=_between(course, SUNRISE_ALTITUDE_DEG, 91.0, geometric),
        low_sun=_between(course, low_sun.low_deg, low_sun.high_deg, altitude),
        blue=_between(course, CIVIL_DEG, low_sun.low_deg, altitude),
        civil_twilight=_between(course, CIVIL_DEG, SUNRISE_ALTITUDE_DEG, geometric),
    )


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
