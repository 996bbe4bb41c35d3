"""A setup as data: camera, subject, ambient and lights in their places; what is computed from it stands
elsewhere.

Bearings follow `shoots.lighting.core.quality`: at the subject, seen from above, clockwise from the
direction to the camera, so that positive is the camera's left.

References
----------
Own arrangement.
"""

import math
from dataclasses import dataclass, field, replace
from enum import StrEnum

from shoots.kit.core.cameras import CameraSpec, FilterSpec, LensSpec
from shoots.kit.core.lamps import GelSpec, LampSpec, ModifierSpec, Shape, StandSpec
from shoots.lighting.core.ambient import DARK, Ambient
from shoots.lighting.core.conventions import USUAL, Conventions
from shoots.lighting.core.exposure import F_NUMBER, ISO, SHUTTER
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.quality import Direction, direction
from shoots.lighting.core.sources import Front
from shoots.values.units import Range

BEARING = Range(-360.0, 720.0, "°")
FLOOR = Range(0.0, 1000.0, "m")
HEIGHT = Range(0.0, 100.0, "m")
OFF_AXIS = Range(-180.0, 180.0, "°")
POWER = Range(0.0, 1.0, "1", above=True)
COUNT = Range(1.0, 100.0, "1")
STOPS = Range(-20.0, 20.0, "stop")
SPREAD = Range(0.0, 10.0, "stop")
SHARE = Range(0.0, 1.0, "1")
DISTANCE = Range(0.0, 1000.0, "m", above=True)
ND = Range(0.0, 40.0, "stop")
KELVIN = Range(500.0, 1e6, "K")
REFLECTANCE = Range(0.0, 1.0, "1", above=True)
SPEED = Range(0.0, 1000.0, "m/s")


class Part(StrEnum):
    """What a light is there for."""

    KEY = "KEY"
    FILL = "FILL"
    RIM = "RIM"
    """From behind; adds nothing to the front and may run over on purpose."""
    BACKGROUND = "BACKGROUND"
    TOP = "TOP"
    """From above; counts for the front while it does not stand behind the subject."""


class LetterTwice(ValueError):
    """Raised when two lights or panels of a setup carry the same letter."""


@dataclass(frozen=True, slots=True)
class MeterFactor:
    """What readings say about a light with its modifier, in the place of stated gains and losses.

    Attributes
    ----------
    stops : float
        Correction to the prediction from the stated numbers. [stop]
    spread_stops : float
        How well it is known. [stop]
    """

    stops: float
    spread_stops: float

    def __post_init__(self) -> None:
        STOPS.check("stops", self.stops)
        SPREAD.check("spread_stops", self.spread_stops)


@dataclass(frozen=True, slots=True)
class PlacedLight:
    """A light in its place.

    Attributes
    ----------
    letter : str
        How it is called on the plan.
    part : Part
        What it is there for.
    lamp : LampSpec
        The light itself.
    modifier : ModifierSpec or None
        What is on it; None for the standard reflector.
    gels : tuple[GelSpec, ...]
        What is before it.
    bearing_deg : float
        Positive to the camera's left. [°, clockwise from the direction to the camera]
    floor_m : float
        Along the floor, from below the subject point to below its front. [m]
    height_m : float
        Of its front above the floor. [m]
    off_axis_deg : float
        Between its axis and the subject point: 0 when it is aimed there. [°]
    power : float
        Share of full power. [1]
    pops : int
        Identical pops in one exposure.
    heads : int
        Identical heads side by side.
    open_share : float
        Share of its light that flags leave. [1]
    high_speed_sync : bool
        Whether it is set to high-speed sync when the time is shorter than the sync time.
    factor : MeterFactor or None
        What readings say; None before there are any.
    stand : StandSpec or None
        What it stands on.
    extra_mass_kg : float
        Sandbags and the like. [kg]
    group : str
        Radio group.
    """

    letter: str
    part: Part
    lamp: LampSpec
    modifier: ModifierSpec | None = None
    gels: tuple[GelSpec, ...] = ()
    bearing_deg: float = 45.0
    floor_m: float = 1.5
    height_m: float = 2.0
    off_axis_deg: float = 0.0
    power: float = 1.0
    pops: int = 1
    heads: int = 1
    open_share: float = 1.0
    high_speed_sync: bool = False
    factor: MeterFactor | None = None
    stand: StandSpec | None = None
    extra_mass_kg: float = 0.0
    group: str = ""

    def __post_init__(self) -> None:
        BEARING.check("bearing_deg", self.bearing_deg)
        FLOOR.check("floor_m", self.floor_m)
        HEIGHT.check("height_m", self.height_m)
        OFF_AXIS.check("off_axis_deg", self.off_axis_deg)
        POWER.check("power", self.power)
        COUNT.check("pops", self.pops)
        COUNT.check("heads", self.heads)
        SHARE.check("open_share", self.open_share)
        FLOOR.check("extra_mass_kg", self.extra_mass_kg)

    @property
    def front(self) -> Front:
        """Its lit front."""
        if self.modifier is None:
            return Front(Shape.ROUND, self.lamp.reflector_m, self.lamp.reflector_m)
        return Front(self.modifier.shape, self.modifier.width_m, self.modifier.height_m)

    @property
    def beam_deg(self) -> float:
        """Full angle to half intensity. [°]"""
        return self.lamp.beam_deg if self.modifier is None else self.modifier.total_beam_deg

    @property
    def modifier_stops(self) -> float:
        """Gain or loss of the modifier against the standard reflector. [stop]"""
        return 0.0 if self.modifier is None else self.modifier.total_stops


@dataclass(frozen=True, slots=True)
class Subject:
    """Who or what is in front of the camera.

    Attributes
    ----------
    height_m : float
        From the floor to the crown or top. [m]
    point_m : float
        Height of the point that is lit and metered: the face. [m]
    speed_m_s : float
        How fast its fastest part moves across the view. [m/s]
    """

    height_m: float = 1.75
    point_m: float = 1.60
    speed_m_s: float = 0.0

    def __post_init__(self) -> None:
        HEIGHT.check("height_m", self.height_m)
        HEIGHT.check("point_m", self.point_m)
        SPEED.check("speed_m_s", self.speed_m_s)


@dataclass(frozen=True, slots=True)
class CameraPlace:
    """Where the camera stands and how it is held; it is turned towards ``aim_m`` above the subject's floor.

    Attributes
    ----------
    distance_m : float
        Along the floor to the subject. [m]
    height_m : float
        Of the lens above the floor. [m]
    aim_m : float
        Height at the subject that is in the middle of the frame. [m]
    upright : bool
        Whether it is held upright, the long side vertical.
    view_bearing_deg : float or None
        Direction in which it looks; None indoors. [°, clockwise from true north]
    """

    distance_m: float = 3.0
    height_m: float = 1.4
    aim_m: float = 1.1
    upright: bool = False
    view_bearing_deg: float | None = None

    def __post_init__(self) -> None:
        DISTANCE.check("distance_m", self.distance_m)
        HEIGHT.check("height_m", self.height_m)
        HEIGHT.check("aim_m", self.aim_m)
        if self.view_bearing_deg is not None:
            BEARING.check("view_bearing_deg", self.view_bearing_deg)


@dataclass(frozen=True, slots=True)
class Exposure:
    """The settings that are chosen; exact numbers.

    Attributes
    ----------
    f_number : float
        Aperture. [1]
    shutter_s : float
        Exposure time. [s]
    iso : float
        ISO speed. [1]
    nd_stops : float
        Neutral filters on the lens, together. [stop]
    """

    f_number: float
    shutter_s: float
    iso: float = 100.0
    nd_stops: float = 0.0

    def __post_init__(self) -> None:
        F_NUMBER.check("f_number", self.f_number)
        SHUTTER.check("shutter_s", self.shutter_s)
        ISO.check("iso", self.iso)
        ND.check("nd_stops", self.nd_stops)


@dataclass(frozen=True, slots=True)
class Background:
    """What stands behind the subject, if it is near enough to be lit.

    Attributes
    ----------
    distance_m : float
        Behind the subject, along the floor. [m]
    reflectance : float
        Share of light that it returns. [1]
    """

    distance_m: float
    reflectance: float = 0.18

    def __post_init__(self) -> None:
        DISTANCE.check("distance_m", self.distance_m)
        REFLECTANCE.check("reflectance", self.reflectance)


@dataclass(frozen=True, slots=True)
class Setup:
    """A whole setup.

    Attributes
    ----------
    exposure : Exposure
        Chosen settings.
    lights : tuple[PlacedLight, ...]
        In any order; the letters differ.
    ambient : Ambient
        The light that is there anyway.
    camera : CameraSpec
        The body.
    lens : LensSpec
        The lens.
    place : CameraPlace
        Where it stands.
    subject : Subject
        Who is in front of it.
    background : Background or None
        None for the open sky or a distance that no light reaches.
    filters : tuple[FilterSpec, ...]
        Neutral filters in the bag, each once.
    white_balance_k : float
        What the camera takes for white. [K]
    conventions : Conventions
        What the studio means by its numbers.
    panels : tuple[PlacedPanel, ...]
        Reflectors, boards, flags and scrims, in any order.
    """

    exposure: Exposure
    lights: tuple[PlacedLight, ...] = ()
    ambient: Ambient = DARK
    camera: CameraSpec = field(default_factory=CameraSpec)
    lens: LensSpec = field(default_factory=lambda: LensSpec(50.0))
    place: CameraPlace = field(default_factory=CameraPlace)
    subject: Subject = field(default_factory=Subject)
    background: Background | None = None
    filters: tuple[FilterSpec, ...] = ()
    white_balance_k: float = 5500.0
    conventions: Conventions = USUAL
    panels: tuple[PlacedPanel, ...] = ()

    def __post_init__(self) -> None:
        KELVIN.check("white_balance_k", self.white_balance_k)
        letters = [light.letter for light in self.lights] + [panel.letter for panel in self.panels]
        if len(set(letters)) != len(letters):
            raise LetterTwice(max(letters, key=letters.count))

    def light(self, letter: str) -> PlacedLight:
        """Return the light with a letter.

        Parameters
        ----------
        letter : str
            Its letter on the plan.

        Raises
        ------
        KeyError
            If there is none.
        """
        for light in self.lights:
            if light.letter == letter:
                return light
        raise KeyError(letter)

    def with_light(self, changed: PlacedLight) -> "Setup":
        """Return the setup with the light of the same letter replaced.

        Parameters
        ----------
        changed : PlacedLight
            The light as it shall be.
        """
        return replace(
            self, lights=tuple(changed if light.letter == changed.letter else light for light in self.lights)
        )


def light_direction(light: PlacedLight, subject: Subject) -> Direction:
    """Return where a light comes from, seen from the subject.

    Parameters
    ----------
    light : PlacedLight
        The light.
    subject : Subject
        The subject.

    Returns
    -------
    Direction
        Bearing, elevation and distances.

    Raises
    ------
    OutOfRange
        If the light stands in the subject.

    References
    ----------
    Geometry.
    """
    return direction(light.bearing_deg, light.floor_m, light.height_m, subject.point_m)


def reaches_front(light: PlacedLight) -> bool:
    """Return whether a light adds to the side of the subject that the camera sees.

    Parameters
    ----------
    light : PlacedLight
        The light.

    Returns
    -------
    bool
        False for rims and background lights, and for anything from behind.

    References
    ----------
    Common practice, no source: a meter held at the chin and turned to the lights in front.
    """
    if light.part in (Part.RIM, Part.BACKGROUND):
        return False
    return math.cos(math.radians(light.bearing_deg)) >= -1e-9
