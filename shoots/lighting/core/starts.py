"""Starting points: the light of two moods, to be edited and saved as one's own.

References
----------
Common practice, no source.
"""

from dataclasses import dataclass
from enum import StrEnum

from shoots.kit.core.starting import Modifier
from shoots.lighting.core.setup import Part
from shoots.lighting.core.wishes import Target, Wishes


class Start(StrEnum):
    """The moods that there are to begin with."""

    DARK_AND_DRAMATIC = "DARK_AND_DRAMATIC"
    BRIGHT_SUMMER = "BRIGHT_SUMMER"


@dataclass(frozen=True, slots=True)
class StartingLight:
    """A light of a starting point, before it is known which lights are in the bag.

    Attributes
    ----------
    part : Part
        What it is there for.
    modifier : Modifier
        What goes on it.
    bearing_deg : float
        Positive to the camera's left. [°, clockwise from the direction to the camera]
    floor_m : float
        Along the floor. [m]
    above_face_m : float
        Height of its front above the face. [m]
    shift_mired : float
        Gel, positive for warm. [MK⁻¹]
    """

    part: Part
    modifier: Modifier
    bearing_deg: float
    floor_m: float
    above_face_m: float
    shift_mired: float = 0.0


@dataclass(frozen=True, slots=True)
class StartingPoint:
    """A mood's light to begin with.

    Attributes
    ----------
    wishes : Wishes
        What it asks of the light.
    lights : tuple[StartingLight, ...]
        Which lights, and where.
    """

    wishes: Wishes
    lights: tuple[StartingLight, ...]


STARTS: dict[Start, StartingPoint] = {
    # Ambient two to three stops under, a hard key, rims that run over on purpose.
    Start.DARK_AND_DRAMATIC: StartingPoint(
        Wishes(ambient=Target(-2.5, 0.5), rims=Target(1.0, 0.5)),
        (
            StartingLight(Part.KEY, Modifier.STANDARD_REFLECTOR, 50.0, 2.0, 0.8),
            StartingLight(Part.RIM, Modifier.STANDARD_REFLECTOR, 145.0, 2.5, 0.6),
            StartingLight(Part.RIM, Modifier.STANDARD_REFLECTOR, -145.0, 2.5, 0.6),
        ),
    ),
    # Background at or over, a soft key, a hard high head opposite as the sun, shallow depth.
    Start.BRIGHT_SUMMER: StartingPoint(
        Wishes(
            ambient=Target(-0.7, 0.5),
            background=Target(0.7, 0.7),
            rims=Target(1.0, 0.5),
            widest=1.4,
            narrowest=2.8,
        ),
        (
            StartingLight(Part.KEY, Modifier.OCTAGON_150, 35.0, 1.6, 0.7),
            StartingLight(Part.RIM, Modifier.LONG_REFLECTOR, -150.0, 4.0, 2.0, shift_mired=64.0),
        ),
    ),
}
