"""Where the sun stands at a place and moment, and which way that is for a camera.

Altitudes are geometric (no air) unless "apparent" is said; azimuths run clockwise from true north. North
latitudes and east longitudes are positive.

References
----------
I. Reda, A. Andreas, Solar Position Algorithm for Solar Radiation Applications, NREL/TP-560-34302, 2008, as
coded in pvlib (position within 0.0003° for the years -2000 to 6000). Refraction as in the same report, for
1013.25 hPa and 10 °C unless given; near the horizon real air differs by 20 % and more.
"""

import math
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum

import numpy as np

from shoots.values.units import FloatArray, Range, wrap_bearing, wrap_turn

LATITUDE = Range(-90.0, 90.0, "°")
LONGITUDE = Range(-180.0, 180.0, "°")
ALTITUDE = Range(-90.0, 90.0, "°")
BEARING = Range(-360.0, 720.0, "°")
ELEVATION = Range(-500.0, 10000.0, "m")
PRESSURE = Range(100.0, 1200.0, "hPa")
TEMPERATURE = Range(-90.0, 60.0, "°C")
HEIGHT = Range(0.0, 1e5, "m")
UNIX_S = Range(-6.2e10, 2.53e11, "s")
YEAR = Range(1000.0, 3000.0, "a")
HALF_TURN = Range(0.0, 180.0, "°")
DELTA_T = Range(-1e5, 1e5, "s")

STANDARD_PRESSURE_HPA = 1013.25
"""Sea-level pressure of the standard atmosphere, ISO 2533:1975. [hPa]"""
REFERENCE_TEMPERATURE_C = 10.0
"""Air temperature for which almanacs tabulate refraction. [°C]"""
REFRACTION_AT_HORIZON_DEG = 0.5667
"""34 minutes of arc, HM Nautical Almanac Office, Astronomical Information Sheet 7. [°]"""
ON_HORIZON_DEG = 1e-9
"""So low that a shadow has no end that could be named. [°]"""
SUN_DIAMETER_DEG = 0.533
"""Mean apparent diameter of the sun, 32 minutes of arc (same sheet). [°]"""
SUNRISE_ALTITUDE_DEG = -50.0 / 60.0
"""34′ of refraction and 16′ of semidiameter, HM Nautical Almanac Office, Information Sheet 7. [°]"""

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class Altitude(StrEnum):
    """Which altitude of the sun is meant."""

    GEOMETRIC = "GEOMETRIC"
    """Centre of the disc, as if there were no air: what almanacs define events by."""
    APPARENT = "APPARENT"
    """Raised by refraction: what the eye sees and what draws a shadow."""


class Side(StrEnum):
    """Where the sun stands for a camera that looks in one direction."""

    BEFORE = "BEFORE"
    """In front of the camera: the subject is lit from behind."""
    BESIDE = "BESIDE"
    BEHIND = "BEHIND"
    """At the photographer's back: the subject is lit from the front."""
    DOWN = "DOWN"
    """Below the horizon."""


class NaiveTime(ValueError):
    """Raised when a moment carries no time zone."""


@dataclass(frozen=True, slots=True)
class SunPosition:
    """The sun at one moment.

    Attributes
    ----------
    altitude_deg : float
        Geometric altitude of the centre. [°]
    apparent_altitude_deg : float
        Altitude as seen through the air; equal to the geometric one when the sun is below the horizon. [°]
    azimuth_deg : float
        Direction to the sun, 0 to 360. [°, clockwise from true north]
    """

    altitude_deg: float
    apparent_altitude_deg: float
    azimuth_deg: float

    @property
    def shadow_bearing_deg(self) -> float:
        """Direction in which shadows fall. [°, clockwise from true north]"""
        return wrap_bearing(self.azimuth_deg + 180.0)

    @property
    def shadow_per_metre(self) -> float | None:
        """Length of the shadow of one metre on level ground, None while the sun is down. [m]"""
        return shadow_length(1.0, self.apparent_altitude_deg)


@dataclass(frozen=True, slots=True)
class SunTrack:
    """The sun at many moments.

    Attributes
    ----------
    unix_s : NDArray[np.float64], shape (n,)
        Seconds since 1970-01-01 UTC. [s]
    altitude_deg, apparent_altitude_deg, azimuth_deg : NDArray[np.float64], shape (n,)
        As in `SunPosition`. [°]
    equation_of_time_min : NDArray[np.float64], shape (n,)
        Apparent less mean solar time. [min]
    """

    unix_s: FloatArray
    altitude_deg: FloatArray
    apparent_altitude_deg: FloatArray
    azimuth_deg: FloatArray
    equation_of_time_min: FloatArray


@dataclass(frozen=True, slots=True)
class SunFromCamera:
    """The sun as a camera with a bearing has it.

    Attributes
    ----------
    side : Side
        Before, beside, behind, or down.
    turn_deg : float
        From the direction of view to the sun, -180 to 180, positive to the right. [°]
    """

    side: Side
    turn_deg: float


@dataclass(frozen=True, slots=True)
class SunOnSphere:
    """The sun against the equator and the stars, the same for all places.

    Attributes
    ----------
    declination_deg : float
        Apparent, north of the equator positive. [°]
    right_ascension_deg : float
        Apparent, 0 to 360. [°]
    equation_of_time_min : float
        Apparent less mean solar time: positive when a sundial is ahead of the clock. [min]
    """

    declination_deg: float
    right_ascension_deg: float
    equation_of_time_min: float


def unix_seconds(at: datetime) -> float:
    """Return a moment as seconds since 1970.

    Parameters
    ----------
    at : datetime
        An aware moment.

    Returns
    -------
    float
        Seconds since 1970-01-01 UTC. [s]

    Raises
    ------
    NaiveTime
        If ``at`` has no time zone.

    References
    ----------
    POSIX.1, seconds since the Epoch.

    Examples
    --------
    >>> unix_seconds(datetime(1970, 1, 2, tzinfo=UTC))
    86400.0
    """
    if at.utcoffset() is None:
        raise NaiveTime(at)
    return (at - _EPOCH) / timedelta(seconds=1)


def sun_track(
    unix_s: FloatArray,
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float = 0.0,
    pressure_hpa: float = STANDARD_PRESSURE_HPA,
    temperature_c: float = REFERENCE_TEMPERATURE_C,
    delta_t_s: float | None = None,
) -> SunTrack:
    """Return the sun's positions at many moments.

    Parameters
    ----------
    unix_s : NDArray[np.float64], shape (n,)
        Seconds since 1970-01-01 UTC, in any order, not empty. [s]
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    elevation_m : float
        Height above the sea, -500 to 10,000. [m]
    pressure_hpa : float
        Air pressure, 100 to 1200. [hPa]
    temperature_c : float
        Air temperature, -90 to 60. [°C]
    delta_t_s : float or None
        Terrestrial less universal time, -100,000 to 100,000; None takes the polynomial of Espenak and Meeus
        for the first moment. [s]

    Returns
    -------
    SunTrack
        In the order of ``unix_s``.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    NREL/TP-560-34302 (2008).
    """
    LATITUDE.check("latitude_deg", latitude_deg)
    LONGITUDE.check("longitude_deg", longitude_deg)
    ELEVATION.check("elevation_m", elevation_m)
    PRESSURE.check("pressure_hpa", pressure_hpa)
    TEMPERATURE.check("temperature_c", temperature_c)
    # pvlib brings pandas with it, a second and more at start-up that pages without the sun need not pay.
    from pvlib import spa

    if delta_t_s is None:
        delta_t_s = _delta_t_s(unix_s)
    DELTA_T.check("delta_t_s", delta_t_s)
    _, _, apparent, geometric, azimuth, equation = spa.solar_position(
        unix_s,
        latitude_deg,
        longitude_deg,
        elevation_m,
        pressure_hpa,
        temperature_c,
        delta_t_s,
        REFRACTION_AT_HORIZON_DEG,
    )
    return SunTrack(unix_s, geometric, apparent, azimuth, equation)


def _delta_t_s(unix_s: FloatArray) -> float:
    """Return terrestrial less universal time at the first of some moments."""
    from pvlib import spa

    # Counted in seconds first: beyond the calendar a date cannot even be made.
    UNIX_S.check("at", float(unix_s[0]))
    first = _EPOCH + timedelta(seconds=float(unix_s[0]))
    YEAR.check("year", float(first.year))
    return float(spa.calculate_deltat(first.year, first.month))


def sun_position(
    at: datetime,
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float = 0.0,
    pressure_hpa: float = STANDARD_PRESSURE_HPA,
    temperature_c: float = REFERENCE_TEMPERATURE_C,
    delta_t_s: float | None = None,
) -> SunPosition:
    """Return the sun's position at one moment.

    Parameters
    ----------
    at : datetime
        An aware moment in the years 1000 to 3000.
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    elevation_m : float
        Height above the sea, -500 to 10,000. [m]
    pressure_hpa : float
        Air pressure, 100 to 1200. [hPa]
    temperature_c : float
        Air temperature, -90 to 60. [°C]
    delta_t_s : float or None
        Terrestrial less universal time, -100,000 to 100,000; None takes the polynomial of Espenak and Meeus. [s]

    Returns
    -------
    SunPosition
        Good to 0.001° in geometric altitude and azimuth.

    Raises
    ------
    NaiveTime
        If ``at`` has no time zone.
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    NREL/TP-560-34302 (2008).

    Examples
    --------
    >>> london = sun_position(datetime(2027, 6, 21, 12, 0, tzinfo=UTC), 51.5074, -0.1278)
    >>> round(london.altitude_deg, 2), round(london.azimuth_deg, 1)
    (61.93, 178.9)
    """
    track = sun_track(
        np.array([unix_seconds(at)]),
        latitude_deg,
        longitude_deg,
        elevation_m,
        pressure_hpa,
        temperature_c,
        delta_t_s,
    )
    return SunPosition(
        altitude_deg=float(track.altitude_deg[0]),
        apparent_altitude_deg=float(track.apparent_altitude_deg[0]),
        azimuth_deg=float(track.azimuth_deg[0]),
    )


def sun_on_sphere(at: datetime, delta_t_s: float | None = None) -> SunOnSphere:
    """Return the sun's declination, right ascension and the equation of time.

    Parameters
    ----------
    at : datetime
        An aware moment in the years 1000 to 3000.
    delta_t_s : float or None
        Terrestrial less universal time, -100,000 to 100,000; None takes the polynomial of Espenak and Meeus. [s]

    Returns
    -------
    SunOnSphere
        Seen from the middle of the earth; angles good to 0.001°, the equation of time to a second or two.

    Raises
    ------
    NaiveTime
        If ``at`` has no time zone.
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    NREL/TP-560-34302 (2008).

    Examples
    --------
    >>> round(sun_on_sphere(datetime(2027, 6, 21, 14, 11, tzinfo=UTC)).declination_deg, 2)
    23.44
    """
    unix_s = np.array([unix_seconds(at)])
    track = sun_track(unix_s, 0.0, 0.0, delta_t_s=delta_t_s)
    from pvlib import spa

    if delta_t_s is None:
        delta_t_s = _delta_t_s(unix_s)
    _, ascension, declination = spa.solar_position(
        unix_s,
        0.0,
        0.0,
        0.0,
        STANDARD_PRESSURE_HPA,
        REFERENCE_TEMPERATURE_C,
        delta_t_s,
        REFRACTION_AT_HORIZON_DEG,
        sst=True,
    )
    return SunOnSphere(float(declination[0]), float(ascension[0]), float(track.equation_of_time_min[0]))


def shadow_length(height_m: float, apparent_altitude_deg: float) -> float | None:
    """Return the length of an upright thing's shadow on level ground.

    Parameters
    ----------
    height_m : float
        Height of the thing, at least 0. [m]
    apparent_altitude_deg : float
        Altitude of the sun as seen, -90 to 90. [°]

    Returns
    -------
    float or None
        Length; None when the sun is at or below the horizon and draws no shadow. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Plane geometry, L = h / tan(altitude).

    Examples
    --------
    >>> round(shadow_length(1.8, 45.0), 2)
    1.8
    """
    HEIGHT.check("height_m", height_m)
    ALTITUDE.check("apparent_altitude_deg", apparent_altitude_deg)
    if apparent_altitude_deg <= ON_HORIZON_DEG:
        return None
    return height_m / math.tan(math.radians(apparent_altitude_deg))


def side_of_camera(
    view_bearing_deg: float,
    azimuth_deg: float,
    altitude_deg: float,
    before_deg: float = 45.0,
    behind_deg: float = 135.0,
) -> SunFromCamera:
    """Return whether the sun stands before, beside or behind a camera.

    Parameters
    ----------
    view_bearing_deg : float
        Direction in which the camera looks. [°, clockwise from true north]
    azimuth_deg : float
        Direction to the sun. [°, clockwise from true north]
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90; below -0.8333 it is down. [°]
    before_deg : float
        Up to this turn the sun is before the camera, 0 to 180. [°]
    behind_deg : float
        From this turn on it is behind, 0 to 180. [°]

    Returns
    -------
    SunFromCamera
        The side, and the turn from the view to the sun, positive to the right.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Quarters of the circle: common practice, no source.

    Examples
    --------
    >>> side_of_camera(view_bearing_deg=0.0, azimuth_deg=200.0, altitude_deg=30.0).side
    <Side.BEHIND: 'BEHIND'>
    """
    BEARING.check("view_bearing_deg", view_bearing_deg)
    BEARING.check("azimuth_deg", azimuth_deg)
    ALTITUDE.check("altitude_deg", altitude_deg)
    HALF_TURN.check("before_deg", before_deg)
    HALF_TURN.check("behind_deg", behind_deg)
    turn = wrap_turn(azimuth_deg - view_bearing_deg)
    if altitude_deg < SUNRISE_ALTITUDE_DEG:
        return SunFromCamera(Side.DOWN, turn)
    if abs(turn) <= before_deg:
        return SunFromCamera(Side.BEFORE, turn)
    return SunFromCamera(Side.BEHIND if abs(turn) >= behind_deg else Side.BESIDE, turn)
