"""What panels do to a setup: reflectors throw light back, black boards take it, flags and scrims hold it off.

A reflector or board is lit by every light and by the ambient, each less what other panels hide of it from its
middle, and lights the subject as a matt front of its size and turn, less what hides it from the subject. A black
board takes from the ambient light what would have come from its part of the sky; a camera turned to the lights
loses the cosine of it, the shadow side all of it. A flag leaves what it does not hide. A scrim takes its loss and
becomes the source, of sun and sky too. Left out: light that goes from one reflector to another, and what flags
take from the sky.

References
----------
Textbook photometry in `shoots.lighting.core.sources` and `shoots.lighting.core.shadows`; reflectances and losses
are common practice, no source.
"""

import math
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from shoots.kit.core.lamps import Shape
from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.blocking import (
    NEAREST_M,
    SILK,
    cloth_lx,
    lamp_left,
    lamp_point,
    opaque,
    opaque_left,
    panel_normal,
    panel_outline,
    scrim_shares,
    shielded_point,
    subject_point,
    sun_left,
)
from shoots.lighting.core.conventions import Receptor
from shoots.lighting.core.output import Output, light_output
from shoots.lighting.core.panels import PlacedPanel, Shields, Vector, dot, sides, towards
from shoots.lighting.core.setup import Part, PlacedLight, Setup, light_direction
from shoots.lighting.core.shadows import receptor_share, visible_share
from shoots.lighting.core.sources import Front
from shoots.values.steps import Formula

REFLECTED_SPREAD_STOPS = 0.5
"""How far a thrown back light may lie off: reflectance, gain and turn; own estimate. [stop]"""
TO_CAMERA: Vector = (0.0, -1.0, 0.0)
"""Which way the ambient light is read. [1]"""
POINTS = 8
"""Over so many points each way the light on a board is averaged."""

THROWN_BACK = Formula(
    "thrown_back",
    "H = Hboard · g · ρ · F",
    "lx·s",
    "Textbook photometry, matt board with a gain; F by Lambert's polygon formula",
)
PANELS_TAKE = Formula("panels_take", "ΔEV = log₂(left)", "stop", "Textbook photometry; losses by practice")


@dataclass(frozen=True, slots=True)
class AidedAmbient:
    """The ambient light with panels round the subject.

    Attributes
    ----------
    front_lx : float
        On the subject turned to the camera. [lx]
    fill_lx : float
        On its shadow side. [lx]
    thrown_lx : tuple[tuple[str, float], ...]
        What each reflector adds, by letter. [lx]
    taken_stops : tuple[tuple[str, float], ...]
        What each panel takes, by letter, at most 0: a black board of the shadow side, any other of the front.
        [stop]
    """

    front_lx: float
    fill_lx: float
    thrown_lx: tuple[tuple[str, float], ...]
    taken_stops: tuple[tuple[str, float], ...]


def scrims_of(setup: Setup, light: PlacedLight) -> tuple[PlacedPanel, ...]:
    """Return the scrims that stand between a light and the subject.

    Parameters
    ----------
    setup : Setup
        The setup.
    light : PlacedLight
        The light.

    Returns
    -------
    tuple[PlacedPanel, ...]
        Nearest to the subject first; one that has not half of the light behind it is left out.

    References
    ----------
    Geometry.
    """
    return tuple(one for one, share in scrim_shares(setup, light.letter, subject_point(setup)) if share >= SILK)


def subject_output(setup: Setup, light: PlacedLight, shutter_s: float | None = None) -> Output:
    """Return what a light gives at the subject, facing it, through its flags and scrims.

    Parameters
    ----------
    setup : Setup
        The setup.
    light : PlacedLight
        The light.
    shutter_s : float or None
        Exposure time, None for the setup's. [s]

    Returns
    -------
    Output
        Without what reflectors throw back of it, see `thrown_back`.

    Raises
    ------
    OutOfRange
        If the light stands in the subject.

    References
    ----------
    Those of the module.
    """
    seconds = setup.exposure.shutter_s if shutter_s is None else shutter_s
    far = light_direction(light, setup.subject).slant_m
    plain = light_output(light, far, light.off_axis_deg, setup.camera, seconds, setup.conventions)
    left = 1.0
    if setup.panels:
        left = lamp_left(setup, light, subject_point(setup), Shields.SUBJECT, shutter_s=seconds)
    if left == 1.0:
        return plain
    steps = plain.because
    if left > 0.0:
        steps = (*steps, PANELS_TAKE.step(math.log2(left), ("left", left, "1")))
    return replace(
        plain,
        amount=plain.amount * left,
        spread_stops=math.hypot(plain.spread_stops, REFLECTED_SPREAD_STOPS),
        because=steps,
    )


def background_share(setup: Setup, light: PlacedLight) -> float:
    """Return what flags and scrims leave of a light on the background.

    Parameters
    ----------
    setup : Setup
        The setup.
    light : PlacedLight
        The light.

    Returns
    -------
    float
        A scrim takes its loss here too, and does not scatter onto the background. [1]

    References
    ----------
    Those of the module.
    """
    if not setup.panels:
        return 1.0
    return lamp_left(setup, light, shielded_point(setup, Shields.BACKGROUND), Shields.BACKGROUND, scatters=False)


def shields_lens(setup: Setup, letter: str) -> bool:
    """Return whether panels keep a light from the lens altogether.

    Parameters
    ----------
    setup : Setup
        The setup.
    letter : str
        Which light.

    References
    ----------
    Own arrangement.
    """
    return opaque_left(setup, letter, shielded_point(setup, Shields.LENS), Shields.LENS) < 0.1


def throws(panel: PlacedPanel) -> bool:
    """Return whether a panel throws light onto the side that the camera sees.

    Parameters
    ----------
    panel : PlacedPanel
        The panel.

    References
    ----------
    Own arrangement.
    """
    return panel.panel.kind is PanelKind.REFLECTOR and math.cos(math.radians(panel.bearing_deg)) >= -1e-9


def passed_on(setup: Setup, panel: PlacedPanel) -> float:
    """Return what a reflector gives at the subject for each lux on it.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        The reflector.

    Returns
    -------
    float
        Facing the reflector, less what stands between the two; 0 for one that is turned away. [1]

    References
    ----------
    Those of the module.
    """
    point, spec = subject_point(setup), panel.panel
    to_panel, far = towards(point, panel.position)
    if dot(panel_normal(setup, panel), to_panel) >= 0.0 or far < 1e-6:
        return 0.0
    board = panel_outline(setup, panel)
    seen = visible_share(board, point, opaque(setup, panel.letter))
    # However bright the silver, it cannot throw more than falls on it.
    return min(spec.gain * spec.reflectance * receptor_share(board, point, to_panel), spec.reflectance) * seen


@cache
def _spots(front: Front) -> tuple[np.ndarray, np.ndarray]:
    """Return points over a front in its own plane [m] with their weights."""
    at, weight = np.polynomial.legendre.leggauss(POINTS)
    if front.shape is Shape.ROUND:
        turns = 2.0 * np.pi * np.arange(2 * POINTS) / (2 * POINTS)
        away = np.sqrt((at + 1.0) / 2.0)
        points = np.stack([np.outer(away, np.cos(turns)).ravel(), np.outer(away, np.sin(turns)).ravel()], axis=1)
        return points * np.array([front.width_m, front.height_m]) / 2.0, np.repeat(weight, 2 * POINTS)
    x, y = np.meshgrid(at * front.width_m / 2.0, at * front.height_m / 2.0)
    return np.stack([x.ravel(), y.ravel()], axis=1), np.outer(weight, weight).ravel()


def _mean_on_board(light: PlacedLight, panel: PlacedPanel, normal: Vector, point: Vector, aim: Vector) -> float:
    """Return the light on a board, as the subject sees it, over what falls square to it on its middle.

    By inverse square, cosine and beam over points of the board, each with the weight by which the subject sees it.
    """
    flat, weight = _spots(panel.front)
    across, along = (np.array(side) for side in sides(normal))
    at = np.array(panel.position) + flat[:, :1] * across + flat[:, 1:] * along
    lamp = np.array(lamp_point(light))
    ways, middle = at - lamp, np.array(panel.position) - lamp
    far = np.maximum(np.linalg.norm(ways, axis=1), NEAREST_M)
    far_0 = max(float(np.linalg.norm(middle)), NEAREST_M)
    facing = np.maximum(0.0, -(ways @ np.array(normal)) / far)
    axis = np.array(towards(lamp_point(light), aim)[0])
    exponent = math.log(0.5) / math.log(math.cos(math.radians(light.beam_deg / 2.0)))
    aside, aside_0 = (np.maximum(0.0, ways @ axis) / far), max(0.0, float(middle @ axis) / far_0)
    ratio = (far_0 / far) ** 2 * facing
    if aside_0 > 0.0 and light.off_axis_deg == 0.0:
        ratio = ratio * (aside / aside_0) ** exponent
    back = np.array(point) - at
    seen = np.maximum(np.linalg.norm(back, axis=1), NEAREST_M)
    to_board = np.array(towards(point, panel.position)[0])
    weight = weight * np.maximum(0.0, back @ np.array(normal)) * np.maximum(0.0, -(back @ to_board)) / seen**4
    total = float(weight.sum())
    return float((weight * ratio).sum()) / total if total > 0.0 else 0.0


def thrown_back(setup: Setup, light: PlacedLight) -> tuple[tuple[str, float], ...]:
    """Return what each reflector throws of a light onto the subject.

    Parameters
    ----------
    setup : Setup
        The setup.
    light : PlacedLight
        The light; one from behind too, whose light a board in front turns round.

    Returns
    -------
    tuple[tuple[str, float], ...]
        By the reflector's letter: luminous exposure of a flash [lx·s] or illuminance [lx].

    Raises
    ------
    OutOfRange
        If the light stands in the subject.

    References
    ----------
    Those of the module.
    """
    lamp, point = lamp_point(light), subject_point(setup)
    aim = shielded_point(setup, Shields.BACKGROUND) if light.part is Part.BACKGROUND else point
    found = []
    for panel in setup.panels:
        if not throws(panel):
            continue
        to_panel, far = towards(lamp, panel.position)
        off_axis = math.degrees(math.acos(dot(towards(lamp, aim)[0], to_panel)))
        on_board = light_output(
            light,
            max(far, NEAREST_M),
            min(off_axis + abs(light.off_axis_deg), 180.0),
            setup.camera,
            setup.exposure.shutter_s,
            setup.conventions,
        ).amount
        passed = passed_on(setup, panel) if on_board > 0.0 else 0.0
        if passed > 0.0:
            mean = _mean_on_board(light, panel, panel_normal(setup, panel), point, aim)
            passed *= mean * lamp_left(setup, light, panel.position, besides=panel.letter)
        found.append((panel.letter, on_board * passed))
    return tuple(found)


def aided_ambient(setup: Setup) -> AidedAmbient | None:
    """Return the ambient light with panels round the subject.

    Parameters
    ----------
    setup : Setup
        The setup.

    Returns
    -------
    AidedAmbient or None
        None in the dark. Where nobody knows how much of it is sun, all of it is taken to come through the scrims
        that are for sun and sky; a reading that was taken under them holds their part already.

    References
    ----------
    Those of the module.
    """
    if setup.ambient.ev100 is None:
        return None
    thrown = tuple((panel.letter, _thrown_ambient(setup, panel)) for panel in setup.panels if throws(panel))
    added = math.fsum(amount for _, amount in thrown)
    front, fill = _unaided(setup)
    taken = []
    for panel in setup.panels:
        if panel.panel.kind is PanelKind.REFLECTOR:
            continue
        rest = replace(setup, panels=tuple(one for one in setup.panels if one.letter != panel.letter))
        side = 1 if panel.panel.kind is PanelKind.BLACK else 0
        now, before = (front, fill)[side], _unaided(rest)[side]
        taken.append((panel.letter, math.log2(min(1.0, now / before)) if now > 0.0 and before > 0.0 else -math.inf))
    return AidedAmbient(front + added, fill + added, thrown, tuple(taken))


def through_scrims(setup: Setup) -> float:
    """Return what scrims for sun and sky leave of an ambient light of which nobody knows how much is sun.

    Parameters
    ----------
    setup : Setup
        The setup.

    Returns
    -------
    float
        Their transmittances, multiplied; 1 where the sun is known or not in it, or the reading was taken under
        them. [1]

    References
    ----------
    Losses of cloths are common practice, no source.
    """
    ambient = setup.ambient
    if ambient.under_panels or ambient.sun is not None or ambient.even:
        return 1.0
    left = 1.0
    for one in setup.panels:
        if one.for_letter == "" and one.panel.kind is PanelKind.SCRIM:
            covers = 1.0 if one.covers is None else one.covers
            left *= 1.0 - covers + covers * math.exp2(-one.panel.takes_stops)
    return left


def _split(setup: Setup) -> tuple[float, float]:
    """Return the ambient light without panels: from the sky and from the sun, on the subject. [lx]"""
    assert setup.ambient.ev100 is not None
    whole = math.exp2(setup.ambient.ev100) * setup.conventions.meter_constant / 100.0
    sun = setup.ambient.sun
    direct = min(whole, sun.on_subject_lx) if sun is not None and not setup.ambient.under_panels else 0.0
    return whole - direct, direct


def _unaided(setup: Setup) -> tuple[float, float]:
    """Return the ambient light on the front and on the shadow side, without what reflectors add. [lx]"""
    sky, direct = _split(setup)
    point, dome = subject_point(setup), setup.conventions.receptor is Receptor.DOME
    front_left, fill_left, cloth = 1.0, 1.0, 0.0
    for panel in setup.panels:
        spec = panel.panel
        if spec.kind is PanelKind.BLACK:
            to_panel, far = towards(point, panel.position)
            board = panel_outline(setup, panel)
            hidden = receptor_share(board, point, to_panel) * (1.0 - spec.reflectance) if far > 1e-6 else 0.0
            front_left *= 1.0 - hidden * max(0.0, math.cos(math.radians(panel.bearing_deg)))
            fill_left *= 1.0 - hidden
        elif spec.kind is PanelKind.SCRIM and (setup.ambient.sun is not None or setup.ambient.even):
            # Half of what a flat receptor turned to the camera sees is sky, for a dome all that is above.
            seen = receptor_share(panel_outline(setup, panel), point, TO_CAMERA, dome) / (1.0 if dome else 0.5)
            left = 1.0 if setup.ambient.under_panels else 1.0 - min(1.0, seen) * (1.0 - math.exp2(-spec.takes_stops))
            front_left *= left
            fill_left *= left
    straight = direct
    if direct > 0.0:
        straight = direct * sun_left(setup, point, Shields.SUBJECT)
    if not setup.ambient.under_panels:
        cloth = cloth_lx(setup, point, TO_CAMERA, dome)
    through = through_scrims(setup)
    return sky * through * front_left + straight + cloth, sky * through * fill_left + straight + cloth


def _thrown_ambient(setup: Setup, panel: PlacedPanel) -> float:
    """Return what a reflector throws of sky and sun onto the subject."""
    passed = passed_on(setup, panel)
    if passed == 0.0:
        return 0.0
    normal, at = panel_normal(setup, panel), panel.position
    on_board = _split(setup)[0] * through_scrims(setup)
    sun = setup.ambient.sun
    if sun is not None and not setup.ambient.under_panels:
        facing = max(0.0, dot(normal, sun.direction))
        on_board += sun.normal_lx * facing * sun_left(setup, at, besides=panel.letter)
        on_board += cloth_lx(setup, at, normal, besides=panel.letter)
    return on_board * passed
