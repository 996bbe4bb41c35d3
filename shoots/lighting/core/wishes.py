"""What the mood asks of the light, and what a search for settings answers.

Everything that is wished is in stops against the chosen exposure: 0 is the exposure that the settings give
as they should; a background at 0 comes out as middle grey.

References
----------
Own arrangement; ISO 2720:1974 for the meaning of a stop against the exposure.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from shoots.lighting.core.ambient import Ambient
from shoots.lighting.core.readings import SetupReading
from shoots.lighting.core.scales import Mark, Steps
from shoots.lighting.core.setup import Setup
from shoots.values.units import OutOfRange, Range

STOPS = Range(-20.0, 20.0, "stop")
TOLERANCE = Range(0.0, 10.0, "stop")
MIRED = Range(-1000.0, 1000.0, "MK⁻¹")
F_NUMBER = Range(0.1, 1e4, "1")
DISTANCE = Range(0.0, float("inf"), "m", above=True)
BLUR = Range(0.0, 1e6, "mm", above=True)
FLOOR = Range(0.0, 1000.0, "m")

THIRD = 1.0 / 3.0
BLOWN_STOPS = 2.5
"""A background this far over middle grey is near white without structure; common practice, no source.
[stop]"""
GHOST_STOPS = -3.0 - 1e-6
"""Ambient light weaker than this leaves no visible second outline of a moving subject; own estimate.
[stop]"""


class Wish(StrEnum):
    """What can be wished."""

    EXPOSURE = "EXPOSURE"
    """All light on the front together."""
    AMBIENT = "AMBIENT"
    """Ambient light on the subject."""
    BACKGROUND = "BACKGROUND"
    """Tone of the background or sky."""
    SKY_HOLDS = "SKY_HOLDS"
    """The background does not blow out."""
    RATIO = "RATIO"
    """Key over fill, ambient counted as fill."""
    RIM = "RIM"
    """Each light from behind or above."""
    APERTURE = "APERTURE"
    """The aperture keeps within its limits, to a sixth of a stop."""
    DEPTH = "DEPTH"
    """What has to be sharp is, from front to back."""
    BLUR = "BLUR"
    """What moves blurs no more than it may."""
    WARMTH = "WARMTH"
    """How warm one light looks under the white balance."""


@dataclass(frozen=True, slots=True)
class Target:
    """A wished number of stops.

    Attributes
    ----------
    stops : float
        What is wished. [stop]
    tolerance_stops : float
        How far off it may be, to either side. [stop]
    """

    stops: float
    tolerance_stops: float = THIRD

    def __post_init__(self) -> None:
        STOPS.check("stops", self.stops)
        TOLERANCE.check("tolerance_stops", self.tolerance_stops)


@dataclass(frozen=True, slots=True)
class Warmth:
    """How warm a light shall look.

    Attributes
    ----------
    letter : str
        Which light.
    mired : float
        Under the setup's white balance, positive for warm. [MK⁻¹]
    tolerance_mired : float
        How far off it may be. [MK⁻¹]
    """

    letter: str
    mired: float
    tolerance_mired: float = 20.0

    def __post_init__(self) -> None:
        MIRED.check("mired", self.mired)
        MIRED.check("tolerance_mired", self.tolerance_mired)


@dataclass(frozen=True, slots=True)
class Wishes:
    """The light that the mood asks for; None is no wish.

    Attributes
    ----------
    exposure : Target
        All light on the front against the chosen exposure.
    ambient : Target or None
        Ambient light on the subject: -2 to -3 for dark and dramatic, near 0 for bright.
    background : Target or None
        Tone of background or sky against middle grey.
    sky_may_blow : bool
        False keeps it below 2.5 stops over middle grey.
    key_over_fill : Target or None
        Key against fill and ambient.
    rims : Target or None
        Each light from behind or above, against the chosen exposure; more than 0 runs over on purpose.
    widest, narrowest : float or None
        Limits for the aperture, exact; both the same for a fixed one. [1]
    sharp_from_m, sharp_to_m : float or None
        What has to be sharp, from the camera. [m]
    circle_mm : float
        Circle of confusion for it. [mm]
    blur_mm : float or None
        Largest blur at the subject of what moves. [mm]
    warmth : tuple[Warmth, ...]
        How warm lights shall look.
    """

    exposure: Target = Target(0.0)
    ambient: Target | None = None
    background: Target | None = None
    sky_may_blow: bool = True
    key_over_fill: Target | None = None
    rims: Target | None = None
    widest: float | None = None
    narrowest: float | None = None
    sharp_from_m: float | None = None
    sharp_to_m: float | None = None
    circle_mm: float = 0.030
    blur_mm: float | None = None
    warmth: tuple[Warmth, ...] = ()

    def __post_init__(self) -> None:
        for name in ("widest", "narrowest"):
            value = getattr(self, name)
            if value is not None:
                F_NUMBER.check(name, value)
        if self.widest is not None and self.narrowest is not None and self.narrowest < self.widest:
            raise OutOfRange("narrowest", self.narrowest, self.widest, F_NUMBER.high, "1")
        for name in ("sharp_from_m", "sharp_to_m"):
            value = getattr(self, name)
            if value is not None:
                DISTANCE.check(name, value)
        if self.blur_mm is not None:
            BLUR.check("blur_mm", self.blur_mm)


@dataclass(frozen=True, slots=True)
class PositionRange:
    """Where along the floor a light may stand.

    Attributes
    ----------
    letter : str
        Which light.
    nearest_m, farthest_m : float
        Distances along the floor. [m]
    """

    letter: str
    nearest_m: float
    farthest_m: float

    def __post_init__(self) -> None:
        FLOOR.check("nearest_m", self.nearest_m)
        Range(self.nearest_m, FLOOR.high, "m").check("farthest_m", self.farthest_m)


@dataclass(frozen=True, slots=True)
class Later:
    """The ambient light at another time.

    Attributes
    ----------
    at : datetime
        When.
    ambient : Ambient
        What it is then.
    """

    at: datetime
    ambient: Ambient


@dataclass(frozen=True, slots=True)
class Problem:
    """What the search is given.

    Attributes
    ----------
    setup : Setup
        Lights in their places, camera, ambient, filters in the bag; its exposure and the powers of lights
        that a wish leaves free are what is looked for.
    wishes : Wishes
        What the mood asks for.
    allow_high_speed_sync : bool
        Whether times beyond the sync speed may be used.
    steps : Steps
        How finely the camera's scales are cut.
    ranges : tuple[PositionRange, ...]
        Lights that may be moved.
    later : tuple[Later, ...]
        Ambient light at other times, in order, for the advice to wait.
    """

    setup: Setup
    wishes: Wishes
    allow_high_speed_sync: bool = False
    steps: Steps = Steps.THIRD
    ranges: tuple[PositionRange, ...] = ()
    later: tuple[Later, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one wish comes out.

    Attributes
    ----------
    wish : Wish
        Which.
    letter : str
        Which light; empty for the whole.
    wanted, got : float
        In ``unit``; for a limit, the limit and what comes out.
    margin_stops : float
        What is left before the wish fails; negative when it does (for warmth in units of its tolerance).
        [stop]
    unit : str
        Unit of ``wanted`` and ``got``.
    """

    wish: Wish
    letter: str
    wanted: float
    got: float
    margin_stops: float
    unit: str


@dataclass(frozen=True, slots=True)
class Solution:
    """The best settings that there are.

    Attributes
    ----------
    aperture, shutter, iso : Mark
        On the camera's scales.
    nd_stops : tuple[float, ...]
        Filters on the lens. [stop]
    high_speed_sync : bool
        Whether the lights are set to it.
    powers : tuple[tuple[str, float], ...]
        For each light, by letter, its share of full power. [1]
    floors : tuple[tuple[str, float], ...]
        For each light that moves, by letter, where it goes. [m]
    setup : Setup
        The setup with all of this in it.
    reading : SetupReading
        Its evaluation: predicted readings, each and together.
    outcomes : tuple[Outcome, ...]
        Each wish with its margin.
    shortfall_stops : float
        What is missing over all wishes; 0 when all are met. [stop]
    """

    aperture: Mark
    shutter: Mark
    iso: Mark
    nd_stops: tuple[float, ...]
    high_speed_sync: bool
    powers: tuple[tuple[str, float], ...]
    floors: tuple[tuple[str, float], ...]
    setup: Setup
    reading: SetupReading
    outcomes: tuple[Outcome, ...]
    shortfall_stops: float

    @property
    def is_met(self) -> bool:
        """Whether every wish is met."""
        return all(outcome.margin_stops >= -1e-6 for outcome in self.outcomes)

    @property
    def failing(self) -> tuple[Outcome, ...]:
        """The wishes that fail, worst first."""
        missed = [outcome for outcome in self.outcomes if outcome.margin_stops < -1e-6]
        return tuple(sorted(missed, key=lambda outcome: (outcome.margin_stops, outcome.wish, outcome.letter)))
