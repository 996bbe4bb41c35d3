"""A lit surface as a source: its finite size close up, its beam off the axis, and surfaces that only pass
light on.

A source is an even, matt (Lambertian) front. Far away it is a point and obeys the inverse square; close up
it gives less than that. Reflectors, boards and scrims are such fronts too, lit by another light.

References
----------
Uniform disc: E = π·L·R²/(R² + d²), textbook photometry; ANSI/IES LS-1 9.1.1, the inverse square is within 1
% from five diameters on. Rectangle on its axis: configuration factor of a parallel plane, heat-transfer
textbooks.
"""

import math
from dataclasses import dataclass

from shoots.kit.core.lamps import Shape
from shoots.values.steps import Formula
from shoots.values.units import Range

SIZE = Range(0.0, 100.0, "m")
DISTANCE = Range(1e-6, 1e5, "m")
BEAM = Range(0.5, 179.0, "°")
OFF_AXIS = Range(-180.0, 180.0, "°")
SHARE = Range(0.0, 1.0, "1")
GAIN = Range(0.0, 100.0, "1")
LIGHT = Range(0.0, 1e7, "lx")
SCRIM = Range(0.0, 30.0, "stop")

LAMBERTIAN_BEAM_DEG = 120.0
"""Full angle at which an even matt front has fallen to half: cos 60° = 1/2. [°]"""

NEAR_FIELD = Formula(
    "finite_size_share", "d² / (d² + D²/4)", "1", "Uniform disc on its axis, textbook photometry; ANSI/IES LS-1 9.1.1"
)
OFF_AXIS_SHARE = Formula("off_axis_share", "cosᵐ θ, m = ln ½ / ln cos(β/2)", "1", "Own model, exact at 0 and β/2")


@dataclass(frozen=True, slots=True)
class Front:
    """A lit front.

    Attributes
    ----------
    shape : Shape
        Its outline.
    width_m, height_m : float
        Its size, at least 0; a round front has its diameter in both. [m]
    """

    shape: Shape
    width_m: float
    height_m: float

    def __post_init__(self) -> None:
        SIZE.check("width_m", self.width_m)
        SIZE.check("height_m", self.height_m)

    @property
    def area_m2(self) -> float:
        """Area of the front. [m²]"""
        area = self.width_m * self.height_m
        return area * math.pi / 4.0 if self.shape is Shape.ROUND else area

    @property
    def largest_m(self) -> float:
        """Its diameter, or the diagonal of a rectangle. [m]"""
        if self.shape is Shape.ROUND:
            return max(self.width_m, self.height_m)
        return math.hypot(self.width_m, self.height_m)


def octagon_area(across_flats_m: float) -> float:
    """Return the area of a regular octagon, for the wind on a box.

    Parameters
    ----------
    across_flats_m : float
        Distance of two opposite sides, 0 to 100. [m]

    Returns
    -------
    float
        2(√2 - 1)·s². [m²]

    Raises
    ------
    OutOfRange
        If ``across_flats_m`` is outside its range.

    References
    ----------
    Plane geometry.

    Examples
    --------
    >>> round(octagon_area(0.95), 2)
    0.75
    """
    SIZE.check("across_flats_m", across_flats_m)
    return 2.0 * (math.sqrt(2.0) - 1.0) * across_flats_m**2


def finite_size_share(front: Front, distance_m: float) -> float:
    """Return the light of a front on its axis as a share of what a point of the same far intensity would
    give.

    Parameters
    ----------
    front : Front
        The lit front.
    distance_m : float
        Front to subject, 1e-6 to 100,000. [m]

    Returns
    -------
    float
        Tends to 1 far away and to 0 close up, so that the light itself stays finite. [1]

    Raises
    ------
    OutOfRange
        If ``distance_m`` is outside its range.

    Notes
    -----
    Disc: d²/(d² + D²/4). Rectangle with half sides a, b: the configuration factor
    (2/π)·[a/√(a²+d²)·atan(b/√(a²+d²)) + b/√(b²+d²)·atan(a/√(b²+d²))] over its far limit 4ab/(πd²).

    References
    ----------
    Textbook photometry; ANSI/IES LS-1 9.1.1.

    Examples
    --------
    >>> round(finite_size_share(Front(Shape.ROUND, 1.0, 1.0), 1.0), 2)
    0.8
    """
    DISTANCE.check("distance_m", distance_m)
    if front.shape is Shape.ROUND:
        radius = math.sqrt(front.width_m * front.height_m) / 2.0
        return distance_m**2 / (distance_m**2 + radius**2)
    a, b = front.width_m / 2.0, front.height_m / 2.0
    far = a * b / distance_m**2
    if far < 1e-9:  # A point, as far as floating point can tell.
        return 1.0
    across, along = math.hypot(a, distance_m), math.hypot(b, distance_m)
    factor = a / across * math.atan(b / across) + b / along * math.atan(a / along)
    return factor / (2.0 * far)


def distance_change_stops(front: Front, from_m: float, to_m: float) -> float:
    """Return what a change of distance does to the light of a front, close up included.

    Parameters
    ----------
    front : Front
        The lit front.
    from_m, to_m : float
        Old and new distance, 1e-6 to 100,000. [m]

    Returns
    -------
    float
        Negative when the light moves away; never more than the inverse square says. [stop]

    Raises
    ------
    OutOfRange
        If a distance is outside its range.

    References
    ----------
    Textbook photometry, see `finite_size_share`.

    Examples
    --------
    >>> round(distance_change_stops(Front(Shape.ROUND, 0.95, 0.95), 0.5, 1.0), 2)
    -1.37
    """
    near, far = finite_size_share(front, from_m), finite_size_share(front, to_m)
    return 2.0 * math.log2(from_m / to_m) + math.log2(far / near)


def off_axis_share(off_axis_deg: float, beam_deg: float) -> float:
    """Return the intensity off the axis of a beam as a share of that on the axis.

    Parameters
    ----------
    off_axis_deg : float
        Angle between the axis and the direction to the subject, -180 to 180. [°]
    beam_deg : float
        Full angle within which the intensity stays above half, 0.5 to 179. [°]

    Returns
    -------
    float
        1 on the axis, 1/2 at half the beam angle, 0 from a right angle on. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Own model cos^m, exact at 0 and at half the beam angle; a matt front is 120° and m = 1.

    Examples
    --------
    >>> round(off_axis_share(30.0, 60.0), 3)
    0.5
    """
    OFF_AXIS.check("off_axis_deg", off_axis_deg)
    BEAM.check("beam_deg", beam_deg)
    cosine = math.cos(math.radians(off_axis_deg))
    if cosine <= 0.0:
        return 0.0
    exponent = math.log(0.5) / math.log(math.cos(math.radians(beam_deg / 2.0)))
    return float(cosine**exponent)


def reflected_share(front: Front, distance_m: float, reflectance: float, gain: float = 1.0) -> float:
    """Return what a lit reflector or polyboard throws onto the subject, for each lux that falls on it.

    Parameters
    ----------
    front : Front
        The board, facing the subject.
    distance_m : float
        Board to subject, 1e-6 to 100,000. [m]
    reflectance : float
        Share of the light that it returns, 0 to 1: matt white about 0.8, black cloth about 0.04. [1]
    gain : float
        How much brighter than matt it is in that direction, 0 to 100: 1 for a polyboard, more for silver. [1]

    Returns
    -------
    float
        Illuminance at the subject over illuminance on the board, at most ``reflectance * gain``. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    L = g·ρ·E/π and the front gives π·L·F, F its configuration factor; so the share is g·ρ·F.

    References
    ----------
    Textbook photometry; reflectances are common practice, no source.

    Examples
    --------
    >>> round(reflected_share(Front(Shape.RECTANGLE, 1.0, 2.0), 1.0, 0.8), 2)
    0.29
    """
    SHARE.check("reflectance", reflectance)
    GAIN.check("gain", gain)
    return gain * reflectance * view_share(front, distance_m)


def view_share(front: Front, distance_m: float) -> float:
    """Return the share of the light on a surface that comes through a front, if all around were as bright.

    Parameters
    ----------
    front : Front
        A board, window or scrim that the surface faces on its axis.
    distance_m : float
        Front to surface, 1e-6 to 100,000. [m]

    Returns
    -------
    float
        Configuration factor, 0 to 1. [1]

    Raises
    ------
    OutOfRange
        If ``distance_m`` is outside its range.

    References
    ----------
    Textbook photometry: area/(π d²) far away, 1 close up.

    Examples
    --------
    >>> round(view_share(Front(Shape.ROUND, 2.0, 2.0), 1.0), 2)
    0.5
    """
    area = front.area_m2
    return min(1.0, finite_size_share(front, distance_m) * area / (math.pi * distance_m**2))


def negative_fill_share(front: Front, distance_m: float, reflectance: float = 0.04) -> float:
    """Return what a black board leaves of the diffuse light on the side that faces it.

    Parameters
    ----------
    front : Front
        The board.
    distance_m : float
        Board to subject, 1e-6 to 100,000. [m]
    reflectance : float
        Share that it returns, 0 to 1. [1]

    Returns
    -------
    float
        1 - F·(1 - ρ), for light that came evenly from all around. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Textbook photometry; 4 % for black cloth is common practice, no source.

    Examples
    --------
    >>> round(negative_fill_share(Front(Shape.RECTANGLE, 1.2, 2.0), 0.5), 2)
    0.3
    """
    SHARE.check("reflectance", reflectance)
    return 1.0 - view_share(front, distance_m) * (1.0 - reflectance)


def scrimmed_light(direct_lx: float, front: Front, distance_m: float, scrim_stops: float, mixed: float = 1.0) -> float:
    """Return what comes through a scrim stretched overhead or beside the subject.

    Parameters
    ----------
    direct_lx : float
        Illuminance on the scrim, facing the sun or lamp, at least 0. [lx]
    front : Front
        The scrim.
    distance_m : float
        Scrim to subject, 1e-6 to 100,000. [m]
    scrim_stops : float
        What the cloth takes of the light that passes, 0 to 30. [stop]
    mixed : float
        Share of what passes that the cloth scatters, 0 (net) to 1 (silk). [1]

    Returns
    -------
    float
        Scattered light from the lit cloth and light that goes straight on. [lx]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Textbook photometry; losses of cloths are common practice, no source.

    Examples
    --------
    >>> round(scrimmed_light(80000.0, Front(Shape.RECTANGLE, 2.0, 2.0), 1.0, 1.0))
    22165
    """
    LIGHT.check("direct_lx", direct_lx)
    SCRIM.check("scrim_stops", scrim_stops)
    SHARE.check("mixed", mixed)
    passed = direct_lx * math.exp2(-scrim_stops)
    return passed * (mixed * view_share(front, distance_m) + (1.0 - mixed))


def flagged_share(covered: float, spill: float = 0.0) -> float:
    """Return what a flag leaves of a light, from how much of the front it hides from the subject.

    Parameters
    ----------
    covered : float
        Share of the lit front that the subject no longer sees, 0 to 1. [1]
    spill : float
        Share that comes round by walls and ground all the same, 0 to 1. [1]

    Returns
    -------
    float
        1 without the flag, ``spill`` behind it. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    An even front gives light in proportion to its visible area; textbook photometry.

    Examples
    --------
    >>> flagged_share(0.5)
    0.5
    """
    SHARE.check("covered", covered)
    SHARE.check("spill", spill)
    return (1.0 - covered) + covered * spill
