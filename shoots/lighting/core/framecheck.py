"""What will show or go wrong in a setup: a head or stand in the frame, flare, spill, dark bands, soft
apertures.

Own coordinates of a setup: the subject stands at the origin, x runs to the camera's right, y away from the
camera, z up from the floor; the camera stands at (0, -distance, height) and looks at (0, 0, aim).

References
----------
Geometry of a rectilinear lens; thresholds are common practice, no source, and stand beside their names.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoots.kit.core.lamps import LampKind
from shoots.lighting.core.aids import shields_lens
from shoots.lighting.core.blocking import panel_outline
from shoots.lighting.core.exposures import background_exposure
from shoots.lighting.core.lens import field_of_view
from shoots.lighting.core.output import Sync, clipped_shares, light_output, sync_of
from shoots.lighting.core.panels import PlacedPanel, Vector
from shoots.lighting.core.panelshapes import held_at, seen_planes
from shoots.lighting.core.setup import CameraPlace, Part, PlacedLight, Setup
from shoots.lighting.core.shadows import clipped
from shoots.lighting.core.sharpness import airy_diameter

EDGE_STOPS = -0.2
"""An edge that loses more than this to the curtain is worth a word. [stop]"""
SPILL_STOPS = 1.0 / 3.0
"""A light that lifts the background by more than this spills on it. [stop]"""
FLARE_SHARE = 0.1
"""A light from behind that sends this share of its axis into the lens may flare. [1]"""
DIFFRACTION_PIXELS = 2.5
"""An Airy disc over this many pixels softens the picture visibly. [px]"""


class Trouble(StrEnum):
    """What is wrong."""

    HEAD_IN_FRAME = "HEAD_IN_FRAME"
    """The camera sees it or what is on it; ``amount`` is 1. [1]"""
    STAND_IN_FRAME = "STAND_IN_FRAME"
    """The camera sees its stand; ``amount`` is 1. [1]"""
    SPILL_ON_BACKGROUND = "SPILL_ON_BACKGROUND"
    """``amount`` is what it lifts the background by. [stop]"""
    FLARE = "FLARE"
    """``amount`` is the angle between its axis and the lens. [°]"""
    DARK_BAND = "DARK_BAND"
    """``amount`` is the share of the frame that stays dark. [1]"""
    EDGE_DARKER = "EDGE_DARKER"
    """``amount`` is what the worse edge gets less than the other. [stop]"""
    DIFFRACTION = "DIFFRACTION"
    """``amount`` is the diameter of the Airy disc. [µm]"""
    STAND_TOO_LOW = "STAND_TOO_LOW"
    """``amount`` is how much height is missing. [m]"""
    BEYOND_BLUE = "BEYOND_BLUE"
    """Its gels lead beyond the blue limit; ``amount`` is by how much. [MK⁻¹]"""
    PANEL_IN_FRAME = "PANEL_IN_FRAME"
    """The camera sees it; ``amount`` is 1. [1]"""
    PANEL_DOES_NOTHING = "PANEL_DOES_NOTHING"
    """Nothing falls on it, or it stands outside its light; ``amount`` is 0."""


@dataclass(frozen=True, slots=True)
class Warned:
    """One thing that will show or go wrong.

    Attributes
    ----------
    trouble : Trouble
        What.
    letter : str
        Which light or panel; empty when it is the camera.
    amount : float
        How much, in the unit that ``trouble`` states.
    """

    trouble: Trouble
    letter: str
    amount: float


@dataclass(frozen=True, slots=True)
class View:
    """The camera's view as angles.

    Attributes
    ----------
    horizontal_deg, vertical_deg : float
        Full fields of view as the camera is held. [°]
    tilt_deg : float
        Positive looks up. [°]
    """

    horizontal_deg: float
    vertical_deg: float
    tilt_deg: float


def camera_view(setup: Setup) -> View:
    """Return the camera's fields of view and tilt.

    Parameters
    ----------
    setup : Setup
        The setup; focus lies on the subject.

    Returns
    -------
    View
        As the camera is held.

    Raises
    ------
    OutOfRange
        If the camera stands within the focal length of the subject.

    References
    ----------
    Geometry.
    """
    place, camera = setup.place, setup.camera
    reach = math.hypot(place.distance_m, place.aim_m - place.height_m)
    wide = field_of_view(setup.lens.focal_mm, camera.width_mm, reach)
    high = field_of_view(setup.lens.focal_mm, camera.height_mm, reach)
    tilt = math.degrees(math.atan2(place.aim_m - place.height_m, place.distance_m))
    return View(high, wide, tilt) if place.upright else View(wide, high, tilt)


def light_position(light: PlacedLight) -> tuple[float, float, float]:
    """Return where a light's front is, in the setup's own coordinates.

    Parameters
    ----------
    light : PlacedLight
        The light.

    Returns
    -------
    tuple[float, float, float]
        x to the camera's right, y away from the camera, z up. [m]

    References
    ----------
    Bearing convention of `shoots.lighting.core.quality`.
    """
    turn = math.radians(light.bearing_deg)
    return -light.floor_m * math.sin(turn), -light.floor_m * math.cos(turn), light.height_m


def _in_view(place: CameraPlace, view: View, point: tuple[float, float, float], radius_m: float) -> bool:
    """Return whether a ball touches what the camera sees, nearer or farther than the subject."""
    x, y, z = point[0], point[1] + place.distance_m, point[2] - place.height_m
    tilt = math.radians(view.tilt_deg)
    forward = y * math.cos(tilt) + z * math.sin(tilt)
    up = z * math.cos(tilt) - y * math.sin(tilt)
    if forward <= 0.05:
        return False
    half_x = math.tan(math.radians(view.horizontal_deg / 2.0)) * forward
    half_y = math.tan(math.radians(view.vertical_deg / 2.0)) * forward
    return abs(x) < half_x + radius_m and abs(up) < half_y + radius_m


def _stand_in_view(place: CameraPlace, view: View, held: Vector) -> bool:
    """Return whether any part of the pole below what a stand holds is in the frame, looked at every 5 cm."""
    x, y, top = held
    count = max(2, math.ceil(top / 0.05) + 1)
    return any(_in_view(place, view, (x, y, top * index / (count - 1)), 0.02) for index in range(count))


def _flare(setup: Setup, light: PlacedLight) -> tuple[float, float]:
    """Return the angle between a light's axis and the lens, and the share of its axis that goes there."""
    x, y, z = light_position(light)
    to_subject = (-x, -y, setup.subject.point_m - z)
    if light.part is Part.BACKGROUND and setup.background is not None:
        to_subject = (-x, setup.background.distance_m - y, setup.subject.point_m - z)
    to_lens = (-x, -setup.place.distance_m - y, setup.place.height_m - z)
    lengths = math.hypot(*to_subject) * math.hypot(*to_lens)
    if lengths == 0.0:
        return 0.0, 1.0
    cosine = math.fsum(a * b for a, b in zip(to_subject, to_lens, strict=True)) / lengths
    angle = math.degrees(math.acos(min(1.0, max(-1.0, cosine))))
    one = light_output(light, 1.0, angle, setup.camera, setup.exposure.shutter_s, setup.conventions)
    axis = light_output(light, 1.0, 0.0, setup.camera, setup.exposure.shutter_s, setup.conventions)
    return angle, one.amount / axis.amount if axis.amount > 0.0 else 0.0


def _light_troubles(setup: Setup, view: View, light: PlacedLight, background_lx_s: float) -> list[Warned]:
    found: list[Warned] = []
    place = light_position(light)
    if _in_view(setup.place, view, place, light.front.largest_m / 2.0):
        found.append(Warned(Trouble.HEAD_IN_FRAME, light.letter, 1.0))
    elif _stand_in_view(setup.place, view, place):
        found.append(Warned(Trouble.STAND_IN_FRAME, light.letter, 1.0))
    if light.stand is not None and light.height_m > light.stand.max_height_m:
        found.append(Warned(Trouble.STAND_TOO_LOW, light.letter, light.height_m - light.stand.max_height_m))
    if place[1] > 0.0:
        angle, share = _flare(setup, light)
        if share >= FLARE_SHARE and not shields_lens(setup, light.letter):
            found.append(Warned(Trouble.FLARE, light.letter, angle))
    if light.part is not Part.BACKGROUND and background_lx_s > 0.0:
        own = background_exposure(setup, light)
        rest = background_lx_s - own
        lift = math.log2(background_lx_s / rest) if rest > background_lx_s * 1e-9 else 30.0
        if lift > SPILL_STOPS:
            found.append(Warned(Trouble.SPILL_ON_BACKGROUND, light.letter, lift))
    mired = 1e6 / light.lamp.colour_k + math.fsum(gel.shift_mired for gel in light.gels)
    if mired <= 0.0:
        found.append(Warned(Trouble.BEYOND_BLUE, light.letter, -mired))
    return found + _shutter_troubles(setup, light)


def _panel_troubles(setup: Setup, view: View, panel: PlacedPanel) -> list[Warned]:
    """Return what shows of a panel: any part of its outline, else its stand, and a stand that is too short."""
    found = []
    place = setup.place
    lens = (0.0, -place.distance_m, place.height_m)
    planes = seen_planes(lens, view.horizontal_deg, view.vertical_deg, view.tilt_deg)
    if clipped(panel_outline(setup, panel), planes):
        found.append(Warned(Trouble.PANEL_IN_FRAME, panel.letter, 1.0))
    elif any(_stand_in_view(place, view, held) for held in held_at(setup, panel)):
        found.append(Warned(Trouble.STAND_IN_FRAME, panel.letter, 1.0))
    if panel.stand is not None and panel.height_m > panel.stand.max_height_m:
        found.append(Warned(Trouble.STAND_TOO_LOW, panel.letter, panel.height_m - panel.stand.max_height_m))
    return found


def _shutter_troubles(setup: Setup, light: PlacedLight) -> list[Warned]:
    if light.lamp.kind is LampKind.CONTINUOUS:
        return []
    shutter = setup.exposure.shutter_s
    if sync_of(light, setup.camera, shutter) is Sync.BAND:
        run = setup.camera.electronic_s or setup.camera.curtain_s
        return [Warned(Trouble.DARK_BAND, light.letter, max(0.0, 1.0 - shutter / max(run, shutter)))]
    first, last = clipped_shares(light, setup.camera, shutter)
    worse = math.log2(first / last) if first > 0.0 and last > 0.0 else 0.0
    return [Warned(Trouble.EDGE_DARKER, light.letter, worse)] if worse < EDGE_STOPS else []


def troubles(setup: Setup) -> tuple[Warned, ...]:
    """Return what will show or go wrong in a setup.

    Parameters
    ----------
    setup : Setup
        The setup.

    Returns
    -------
    tuple[Warned, ...]
        In the order of the lights, then of the panels, then the camera's; empty when nothing is wrong.

    Raises
    ------
    OutOfRange
        If the camera stands within the focal length of the subject.

    References
    ----------
    Those of the module.
    """
    view = camera_view(setup)
    lit = _background_total(setup)
    found: list[Warned] = []
    for light in setup.lights:
        found.extend(_light_troubles(setup, view, light, lit))
    for panel in setup.panels:
        found.extend(_panel_troubles(setup, view, panel))
    airy = airy_diameter(setup.exposure.f_number)
    if airy > DIFFRACTION_PIXELS * 1000.0 * setup.camera.pitch_mm:
        found.append(Warned(Trouble.DIFFRACTION, "", airy))
    return tuple(found)


def _background_total(setup: Setup) -> float:
    """Return what falls on the background, the ambient light that its reading implies included. [lx·s]"""
    if setup.background is None:
        return 0.0
    total = math.fsum(sorted(background_exposure(setup, light) for light in setup.lights))
    if setup.ambient.background_ev100 is not None:
        luminance = setup.conventions.reflected_constant * math.exp2(setup.ambient.background_ev100) / 100.0
        total += luminance * setup.exposure.shutter_s * math.pi / setup.background.reflectance
    return total
