"""Passive kit as the frozen shape that the physics takes: what gives no light of its own but changes light.

References
----------
Reflectances, gains and losses of boards and cloths are common practice, no source: matt white about 0.8,
black cloth about 0.04, silver brighter than matt where it points.
"""

from dataclasses import dataclass
from enum import StrEnum

from shoots.kit.core.lamps import Shape
from shoots.values.units import OutOfRange, Range

SIZE = Range(0.02, 20.0, "m")
SHARE = Range(0.0, 1.0, "1")
GAIN = Range(0.0, 20.0, "1")
STOPS = Range(0.0, 15.0, "stop")
MASS = Range(0.0, 1000.0, "kg")


class PanelKind(StrEnum):
    """What a panel does to light."""

    REFLECTOR = "REFLECTOR"
    """Throws light back: a reflector, or the white side of a polyboard."""
    BLACK = "BLACK"
    """Takes light that would come from its side: negative fill, the black side of a polyboard."""
    FLAG = "FLAG"
    """Keeps a light off the subject, the background or the lens."""
    SCRIM = "SCRIM"
    """Cloth between a light or the sun and the subject."""


@dataclass(frozen=True, slots=True)
class PanelSpec:
    """A board, cloth or flag.

    Attributes
    ----------
    kind : PanelKind
        What it does.
    shape : Shape
        Its outline.
    width_m, height_m : float
        Its size; a round one has its diameter in both. [m]
    reflectance : float
        Share of the light that it returns. [1]
    gain : float
        How much brighter than matt it is where it points: 1 for a polyboard. [1]
    takes_stops : float
        What a cloth takes of the light that passes. [stop]
    scatter : float
        Share of what passes that it scatters: 0 for a net, 1 for silk. [1]
    mass_kg : float
        Its mass. [kg]
    """

    kind: PanelKind
    shape: Shape = Shape.RECTANGLE
    width_m: float = 1.0
    height_m: float = 1.0
    reflectance: float = 0.8
    gain: float = 1.0
    takes_stops: float = 1.0
    scatter: float = 1.0
    mass_kg: float = 1.0

    def __post_init__(self) -> None:
        SIZE.check("width_m", self.width_m)
        SIZE.check("height_m", self.height_m)
        SHARE.check("reflectance", self.reflectance)
        GAIN.check("gain", self.gain)
        STOPS.check("takes_stops", self.takes_stops)
        SHARE.check("scatter", self.scatter)
        MASS.check("mass_kg", self.mass_kg)
        if self.shape is Shape.ROUND and self.width_m != self.height_m:
            raise OutOfRange("height_m", self.height_m, self.width_m, self.width_m, "m")


class Panel(StrEnum):
    """Kinds of panels to begin with."""

    POLYBOARD_WHITE = "POLYBOARD_WHITE"
    POLYBOARD_BLACK = "POLYBOARD_BLACK"
    REFLECTOR_WHITE = "REFLECTOR_WHITE"
    REFLECTOR_SILVER = "REFLECTOR_SILVER"
    FLAG = "FLAG"
    SCRIM_SILK = "SCRIM_SILK"
    SCRIM_NET = "SCRIM_NET"


PANELS: dict[Panel, PanelSpec] = {
    Panel.POLYBOARD_WHITE: PanelSpec(PanelKind.REFLECTOR, width_m=1.2, height_m=2.4, mass_kg=2.5),
    Panel.POLYBOARD_BLACK: PanelSpec(PanelKind.BLACK, width_m=1.2, height_m=2.4, reflectance=0.04, mass_kg=2.5),
    Panel.REFLECTOR_WHITE: PanelSpec(PanelKind.REFLECTOR, Shape.ROUND, 1.1, 1.1, mass_kg=0.7),
    Panel.REFLECTOR_SILVER: PanelSpec(PanelKind.REFLECTOR, Shape.ROUND, 1.1, 1.1, gain=3.0, mass_kg=0.7),
    Panel.FLAG: PanelSpec(PanelKind.FLAG, width_m=0.6, height_m=0.9, reflectance=0.04, mass_kg=1.0),
    Panel.SCRIM_SILK: PanelSpec(PanelKind.SCRIM, width_m=2.0, height_m=2.0, takes_stops=1.5, scatter=1.0, mass_kg=5.0),
    Panel.SCRIM_NET: PanelSpec(PanelKind.SCRIM, width_m=2.0, height_m=2.0, takes_stops=1.0, scatter=0.1, mass_kg=5.0),
}
"""In the middle of what such things do."""
