"""The ambient light on the subject and on the sky behind it, from sun, cloud and shade, until a meter has
spoken.

References
----------
Models of `shoots.places.core` with their sources. A dome turned to the camera takes light from all sides
with the weight (1 + cos θ)/2, the shadow that a half sphere throws; plane geometry.
"""

import math
from dataclasses import dataclass, replace
from datetime import datetime

from shoots.lighting.core.colour import daylight_colour
from shoots.lighting.core.conventions import USUAL, Conventions, Receptor
from shoots.lighting.core.exposure import EV
from shoots.lighting.core.metering import INCIDENT_EV, REFLECTED_EV, incident_ev, reflected_ev
from shoots.places.core.daylight import Daylight, daylight
from shoots.places.core.shade import Wall, is_shaded, sky_share
from shoots.places.core.sky import OKTAS
from shoots.places.core.skypattern import clear_sky_luminance, overcast_sky_luminance
from shoots.places.core.sun import BEARING, SunPosition, sun_position
from shoots.values.steps import Formula, Step
from shoots.values.units import Range, wrap_turn

ELEVATION = Range(0.0, 90.0, "°")
SHARE = Range(0.0, 1.0, "1")
SPREAD = Range(0.0, 10.0, "stop")
KELVIN = Range(500.0, 1e6, "K")
HEIGHT = Range(0.0, 100.0, "m")
SUN = Range(0.0, 1e6, "lx")
UP = Range(-90.0, 90.0, "°")

METER_SPREAD_STOPS = 0.2
"""What two readings of one light by hand differ by; practice. [stop]"""

ON_SUBJECT = Formula(
    "light_on_subject",
    "E = E_sun⊥ · w + (E_sky · s + ρ · E_ground) · h; flat: w = cos θ, h = ½; dome: w = (1 + cos θ) / 2, h = 1",
    "lx",
    "Receptor turned to the camera under an even sky; own derivation",
)
METERED = Formula("metered_ev", "EV100 = reading", "EV", "A meter reading on the spot")
SUN_OF_READING = Formula(
    "sun_in_the_reading",
    "E_sun = E_sun,computed · 2^(reading − computed)",
    "lx",
    "The reading is split between sun and sky as the estimate for that moment is; own arrangement",
)


@dataclass(frozen=True, slots=True)
class Sunlight:
    """The sun's part of the ambient light, for what stands in its way or turns it round.

    Attributes
    ----------
    normal_lx : float
        Facing the sun. [lx]
    on_subject_lx : float
        On the subject turned to the camera. [lx]
    bearing_deg : float
        Where it stands, seen from the subject as lights are, positive to the camera's left. [°, clockwise
        from the direction to the camera]
    elevation_deg : float
        How high. [°]
    """

    normal_lx: float
    on_subject_lx: float
    bearing_deg: float
    elevation_deg: float

    def __post_init__(self) -> None:
        SUN.check("normal_lx", self.normal_lx)
        SUN.check("on_subject_lx", self.on_subject_lx)
        BEARING.check("bearing_deg", self.bearing_deg)
        UP.check("elevation_deg", self.elevation_deg)

    @property
    def direction(self) -> tuple[float, float, float]:
        """From the subject to the sun: to the camera's right, away from it, up. [1]"""
        turn, up = math.radians(self.bearing_deg), math.radians(self.elevation_deg)
        return -math.cos(up) * math.sin(turn), -math.cos(up) * math.cos(turn), math.sin(up)


@dataclass(frozen=True, slots=True)
class Ambient:
    """The light that is there without the lights of the setup.

    Attributes
    ----------
    ev100 : float or None
        Incident, at the subject turned to the camera, at ISO 100; None for complete darkness. [EV]
    spread_stops : float
        How far it may lie off, to either side. [stop]
    background_ev100 : float or None
        Reflected reading of the sky or background in the frame; None when it is not known or not there. [EV]
    background_spread_stops : float
        How far that may lie off. [stop]
    colour_k : float
        Its colour temperature. [K]
    metered : bool
        True when a reading stands in the place of the estimate.
    because : tuple[Step, ...]
        How it came about.
    sun : Sunlight or None
        Its sun, None without one or where it is not known.
    even : bool
        True where it is known to have no sun in it: a closed sky, or open shade.
    under_panels : bool
        True for a reading that was taken with the scrims and flags for sun and sky up, so that it holds what they do.
    """

    ev100: float | None
    spread_stops: float = 1.0
    background_ev100: float | None = None
    background_spread_stops: float = 1.0
    colour_k: float = 5500.0
    metered: bool = False
    because: tuple[Step, ...] = ()
    sun: Sunlight | None = None
    even: bool = False
    under_panels: bool = False

    def __post_init__(self) -> None:
        if self.ev100 is not None:
            EV.check("ev100", self.ev100)
        if self.background_ev100 is not None:
            EV.check("background_ev100", self.background_ev100)
        SPREAD.check("spread_stops", self.spread_stops)
        SPREAD.check("background_spread_stops", self.background_spread_stops)
        KELVIN.check("colour_k", self.colour_k)


DARK = Ambient(ev100=None, spread_stops=0.0)
"""A blacked-out studio."""


def sky_luminance(light: Daylight, oktas: float, sun: SunPosition, view_bearing_deg: float, up_deg: float) -> float:
    """Return how bright the patch of sky is that stands behind the subject.

    Parameters
    ----------
    light : Daylight
        On open, level ground.
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]
    sun : SunPosition
        The sun.
    view_bearing_deg : float
        Direction in which the camera looks. [°, clockwise from true north]
    up_deg : float
        Height of the patch above the horizon, 0 to 90. [°]

    Returns
    -------
    float
        Clear and overcast pattern, weighted by the cover, sharing the light of the sky between them. [cd/m²]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    `shoots.places.core.skypattern`; the join is our own.

    Examples
    --------
    >>> closed = daylight(30.0, 8.0)
    >>> round(sky_luminance(closed, 8.0, SunPosition(30.0, 30.0, 180.0), 0.0, 20.0))
    2481
    """
    OKTAS.check("oktas", oktas)
    cover = oktas / 8.0
    overcast = overcast_sky_luminance(light.diffuse_lx, up_deg)
    altitude = min(max(sun.altitude_deg, 0.0), 90.0)
    clear = clear_sky_luminance(light.diffuse_lx, up_deg, view_bearing_deg, altitude, sun.azimuth_deg)
    return cover * overcast + (1.0 - cover) * clear


def ambient_at(
    at: datetime,
    latitude_deg: float,
    longitude_deg: float,
    oktas: float,
    view_bearing_deg: float,
    walls: tuple[Wall, ...] = (),
    point_height_m: float = 1.6,
    sky_up_deg: float = 20.0,
    ground_reflectance: float = 0.2,
    conventions: Conventions = USUAL,
) -> Ambient:
    """Return the ambient light at a place and moment, for a cloud cover and a camera with a bearing.

    Parameters
    ----------
    at : datetime
        An aware moment in the years 1000 to 3000.
    latitude_deg : float
        -90 to 90, north positive. [°]
    longitude_deg : float
        -180 to 180, east positive. [°]
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]
    view_bearing_deg : float
        Direction in which the camera looks. [°, clockwise from true north]
    walls : tuple[Wall, ...]
        Walls round the subject; the highest takes from the sky.
    point_height_m : float
        Height of the face, 0 to 100. [m]
    sky_up_deg : float
        Height of the patch of sky that is to be judged, 0 to 90. [°]
    ground_reflectance : float
        Share that the ground returns, 0 to 1. [1]
    conventions : Conventions
        Meter constants, dome in or out.

    Returns
    -------
    Ambient
        An estimate with a spread of a stop and more.

    Raises
    ------
    NaiveTime
        If ``at`` has no time zone.
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    NREL/TP-560-34302 (2008) for the sun; those of the module.

    Examples
    --------
    >>> from datetime import UTC
    >>> noon = datetime(2027, 6, 21, 12, 0, tzinfo=UTC)
    >>> round(ambient_at(noon, 51.5074, -0.1278, 8.0, view_bearing_deg=0.0).ev100, 1)
    12.1
    """
    return ambient_from_sky(
        sun_position(at, latitude_deg, longitude_deg),
        oktas,
        view_bearing_deg,
        walls,
        point_height_m,
        sky_up_deg,
        ground_reflectance,
        conventions,
    )


def ambient_from_sky(
    sun: SunPosition,
    oktas: float,
    view_bearing_deg: float,
    walls: tuple[Wall, ...] = (),
    point_height_m: float = 1.6,
    sky_up_deg: float = 20.0,
    ground_reflectance: float = 0.2,
    conventions: Conventions = USUAL,
) -> Ambient:
    """Return the ambient light for a sun, a cloud cover and a camera with a bearing.

    Parameters
    ----------
    sun : SunPosition
        The sun at that moment.
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]
    view_bearing_deg : float
        Direction in which the camera looks. [°, clockwise from true north]
    walls : tuple[Wall, ...]
        Walls round the subject; the highest takes from the sky.
    point_height_m : float
        Height of the face, 0 to 100. [m]
    sky_up_deg : float
        Height of the patch of sky that is to be judged, 0 to 90. [°]
    ground_reflectance : float
        Share that the ground returns, 0 to 1. [1]
    conventions : Conventions
        Meter constants, dome in or out.

    Returns
    -------
    Ambient
        An estimate with a spread of a stop and more.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> dull = ambient_from_sky(SunPosition(30.0, 30.0, 180.0), 8.0, view_bearing_deg=0.0)
    >>> round(dull.ev100, 1), dull.spread_stops
    (11.3, 1.0)
    """
    BEARING.check("view_bearing_deg", view_bearing_deg)
    HEIGHT.check("point_height_m", point_height_m)
    ELEVATION.check("sky_up_deg", sky_up_deg)
    SHARE.check("ground_reflectance", ground_reflectance)
    light = daylight(sun.altitude_deg, oktas, conventions.meter_constant)
    shaded = is_shaded(walls, sun.azimuth_deg, sun.apparent_altitude_deg, point_height_m)
    normal = 0.0
    if sun.altitude_deg > 1.0 and not shaded:
        normal = light.direct_lx / math.sin(math.radians(sun.altitude_deg))
    turn = math.radians(wrap_turn(sun.azimuth_deg - (view_bearing_deg + 180.0)))
    cosine = math.cos(math.radians(sun.altitude_deg)) * math.cos(turn)
    dome = conventions.receptor is Receptor.DOME
    facing = (1.0 + cosine) / 2.0 if dome else max(0.0, cosine)
    half = 1.0 if dome else 0.5
    open_sky = min((sky_share(wall, point_height_m) for wall in walls), default=1.0)
    ground = (0.0 if shaded else light.direct_lx) + light.diffuse_lx * open_sky
    total = normal * facing + (light.diffuse_lx * open_sky + ground_reflectance * ground) * half
    level = incident_ev(total, 100.0, conventions.meter_constant)
    luminance = sky_luminance(light, oktas, sun, view_bearing_deg, sky_up_deg)
    behind = reflected_ev(luminance, 100.0, conventions.reflected_constant)
    step = ON_SUBJECT.step(
        total,
        ("sun_normal_lx", normal, "lx"),
        ("sun_weight", facing, "1"),
        ("sky_weight", half, "1"),
        ("sky_lx", light.diffuse_lx, "lx"),
        ("open_sky", open_sky, "1"),
        ("ground_lx", ground, "lx"),
        ("ground_reflectance", ground_reflectance, "1"),
    )
    return Ambient(
        ev100=level,
        spread_stops=light.spread_stops,
        background_ev100=behind,
        background_spread_stops=light.spread_stops,
        colour_k=9000.0 if shaded and oktas < 4.0 else daylight_colour(sun.altitude_deg, oktas)[0],
        because=(
            *light.because[:-1],
            step,
            INCIDENT_EV.step(
                level,
                ("illuminance_lx", total, "lx"),
                ("iso", 100.0, "1"),
                ("meter_constant", conventions.meter_constant, "lx·s"),
            ),
            REFLECTED_EV.step(
                behind,
                ("luminance_cd_m2", luminance, "cd/m²"),
                ("iso", 100.0, "1"),
                ("reflected_constant", conventions.reflected_constant, "cd·s/m²"),
            ),
        ),
        sun=Sunlight(normal, normal * facing, math.degrees(turn), sun.altitude_deg) if normal > 0.0 else None,
        even=normal <= 0.0,
    )


def overcast_background(ev100: float, sky_up_deg: float = 20.0, conventions: Conventions = USUAL) -> float:
    """Return the reflected reading of an overcast sky from the incident reading below it.

    Parameters
    ----------
    ev100 : float
        Incident reading on open, level ground, -60 to 60. [EV]
    sky_up_deg : float
        Height of the patch above the horizon, 0 to 90. [°]
    conventions : Conventions
        Meter constants.

    Returns
    -------
    float
        Reflected reading at ISO 100. [EV]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    CIE S 011 / ISO 15469 and ISO 2720:1974.

    Examples
    --------
    >>> round(overcast_background(12.0), 2)
    14.2
    """
    EV.check("ev100", ev100)
    lux = math.exp2(ev100) * conventions.meter_constant / 100.0
    return reflected_ev(overcast_sky_luminance(lux, sky_up_deg), 100.0, conventions.reflected_constant)


def metered_ambient(
    ev100: float,
    background_ev100: float | None = None,
    colour_k: float = 5500.0,
    spread_stops: float = METER_SPREAD_STOPS,
    estimate: Ambient | None = None,
    under_panels: bool = False,
) -> Ambient:
    """Return the ambient light that readings state, in the place of an estimate.

    Parameters
    ----------
    ev100 : float
        Incident reading at ISO 100. [EV]
    background_ev100 : float or None
        Reflected reading of the sky or background at ISO 100. [EV]
    colour_k : float
        Colour temperature, 500 to 1e6. [K]
    spread_stops : float
        How far a reading may lie off, 0 to 10. [stop]
    estimate : Ambient or None
        What sun and sky were computed to give at that moment: the reading is split between the two as the estimate
        is. None where nobody knows how much of the reading is sun.
    under_panels : bool
        Whether it was taken with the scrims and flags for sun and sky up.

    Returns
    -------
    Ambient
        Marked as metered.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974; the spread is practice.

    Examples
    --------
    >>> metered_ambient(12.0).metered
    True
    """
    steps = [METERED.step(ev100, ("ev100", ev100, "EV"))]
    sun = None
    if estimate is not None and estimate.sun is not None and estimate.ev100 is not None and not under_panels:
        more = math.exp2(ev100 - estimate.ev100)
        normal = min(SUN.high, estimate.sun.normal_lx * more)
        on_subject = min(SUN.high, estimate.sun.on_subject_lx * more)
        sun = replace(estimate.sun, normal_lx=normal, on_subject_lx=on_subject)
        given = (("ev100", ev100, "EV"), ("computed_ev100", estimate.ev100, "EV"))
        steps.append(SUN_OF_READING.step(on_subject, *given, ("computed_sun_lx", estimate.sun.on_subject_lx, "lx")))
    return Ambient(
        ev100,
        spread_stops,
        background_ev100,
        spread_stops,
        colour_k,
        metered=True,
        because=tuple(steps),
        sun=sun,
        even=estimate is not None and estimate.even,
        under_panels=under_panels,
    )
