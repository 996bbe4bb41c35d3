"""The light periods of one date at one place: when the sun rises and sets, twilight, low warm sun.

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
from shoots.places.core.sun import ALTITUDE, SUNRISE_ALTITUDE_DEG, Altitude

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


class DayPart(StrEnum):
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
    part : DayPart
        Morning, evening, or through midday.
    cut : bool
        True when it is cut off at the middle of the night and goes on in the neighbouring date.
    """

    start: datetime
    end: datetime
    part: DayPart
    cut: bool

    @property
    def duration(self) -> timedelta:
        """How long it lasts, by the clock of the stars, across a change of clocks too."""
        return self.end.astimezone(UTC) - self.start.astimezone(UTC)


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


@dataclass(frozen=True, slots=True)
class SunPassages:
    """When the sun passes one altitude on a date.

    Attributes
    ----------
    rising, setting : SunEvent
        The passage upwards that is nearest to noon, and the one downwards.
    """

    rising: SunEvent
    setting: SunEvent


def _event(course: Course, level_deg: float, direction: float, kind: Altitude = Altitude.GEOMETRIC) -> SunEvent:
    """Return the passage nearest to noon in one direction, or why there is none."""
    met = course.passages(level_deg, kind)
    wanted = np.flatnonzero(met.directions == direction)
    if wanted.size == 0:
        noon = course.altitudes(course.sun, kind)[int(np.searchsorted(course.nodes, course.noon))]
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
            part = DayPart.MORNING if morning else DayPart.EVENING if evening else DayPart.MIDDAY
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


def sun_passages(
    day: date,
    zone: str,
    latitude_deg: float,
    longitude_deg: float,
    altitude_deg: float,
    altitude: Altitude = Altitude.GEOMETRIC,
) -> SunPassages:
    """Return when the sun passes an altitude on a local date, upwards and downwards.

    Parameters
    ----------
    day : date
        The local date, in the years 1000 to 3000.
    zone : str
        IANA name of the place's time zone.
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    altitude_deg : float
        Of the sun's centre, -90 to 90: -0.8333 is sunrise and sunset, 6 a usual end of low sun. [°]
    altitude : Altitude
        Geometric, as almanacs count, or apparent.

    Returns
    -------
    SunPassages
        Within 3 s of the reference ephemeris; each with its reason where it does not happen.

    Raises
    ------
    UnknownZone
        If ``zone`` is no IANA time zone.
    OutOfRange
        If a number is outside its range.

    References
    ----------
    NREL/TP-560-34302.

    Examples
    --------
    >>> sun_passages(date(2027, 6, 21), "Europe/London", 51.5074, -0.1278, 45.0).rising.at.isoformat()[:16]
    '2027-06-21T09:57'
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    course = Course(day, zone, latitude_deg, longitude_deg, 0.0)
    return SunPassages(_event(course, altitude_deg, 1.0, altitude), _event(course, altitude_deg, -1.0, altitude))


def sun_between(
    day: date,
    zone: str,
    latitude_deg: float,
    longitude_deg: float,
    low_deg: float,
    high_deg: float,
    altitude: Altitude = Altitude.GEOMETRIC,
) -> tuple[LightPeriod, ...]:
    """Return from when till when the sun stands between two altitudes on a local date.

    Parameters
    ----------
    day : date
        The local date, in the years 1000 to 3000.
    zone : str
        IANA name of the place's time zone.
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    low_deg, high_deg : float
        Of the sun's centre, -90 to 90, the first below the second: some count -8 to -4 as blue light. [°]
    altitude : Altitude
        Geometric, as almanacs count, or apparent.

    Returns
    -------
    tuple[LightPeriod, ...]
        In order of time, empty when there is none.

    Raises
    ------
    UnknownZone
        If ``zone`` is no IANA time zone.
    OutOfRange
        If a number is outside its range.

    References
    ----------
    NREL/TP-560-34302.

    Examples
    --------
    >>> blue = sun_between(date(2027, 3, 28), "Europe/London", 51.5074, -0.1278, -8.0, -4.0)
    >>> [period.part.value for period in blue]
    ['MORNING', 'EVENING']
    """
    limits = LowSun(low_deg, high_deg)
    course = Course(day, zone, latitude_deg, longitude_deg, 0.0)
    return _between(course, limits.low_deg, limits.high_deg, altitude)
