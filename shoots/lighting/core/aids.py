"""What panels do to a setup: reflectors throw light back, black boards take it, flags and scrims hold it off.

A reflector or board is lit by every light and by the ambient and lights the subject as a matt front of its
size; it is turned half way between its light and the subject, or towards the subject when it has none. A black
board takes from the ambient light what would have come from its part of the sky; a camera turned to the lights
loses the cosine of it, the shadow side all of it. A flag leaves what it does not cover. A scrim takes its loss
and becomes the source. What a scrim takes from the sky and what panels do to one another is left out.

References
----------
Textbook photometry in `shoots.lighting.core.sources`; reflectances and losses are common practice, no source.
"""

import math
from dataclasses import dataclass, replace

from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.output import Output, light_output
from shoots.lighting.core.panels import PlacedPanel, Shields, Vector, dot, half_way, placed_at, towards
from shoots.lighting.core.setup import Part, PlacedLight, Setup, light_direction
from shoots.lighting.core.sources import flagged_share, view_share
from shoots.values.steps import Formula

NEAREST_M = 0.05
"""A board no nearer than this to anything. [m]"""
REFLECTED_SPREAD_STOPS = 0.5
"""How far a thrown back light may lie off: reflectance, gain and turn; own estimate. [stop]"""
SPILL_SHARE = 0.02
"""What comes round a flag by walls and ground all the same; own estimate. [1]"""

THROWN_BACK = Formula(
    "thrown_back", "H = Hboard · g · ρ · F · cos θ", "lx·s", "Textbook photometry, matt board with a gain"
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


def _subject(setup: Setup) -> Vector:
    return 0.0, 0.0, setup.subject.point_m


def _reach(setup: Setup, panel: PlacedPanel) -> float:
    """Return how far a panel is from the face, not nearer than it can be."""
    return max(NEAREST_M, towards(panel.position, _subject(setup))[1])


def _flag_share(setup: Setup, letter: str, shields: Shields) -> float:
    """Return what flags leave of a light, or of the sun for an empty letter."""
    return math.prod(
        flagged_share(one.covers, SPILL_SHARE)
        for one in setup.panels
        if one.panel.kind is PanelKind.FLAG and one.for_letter == letter and one.shields is shields
    )


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
        Nearest to the subject first; one that is farther off than its light does nothing and is left out.

    References
    ----------
    Geometry.
    """
    far = light_direction(light, setup.subject).slant_m
    found = [
        one
        for one in setup.panels
        if one.panel.kind is PanelKind.SCRIM and one.for_letter == light.letter and _reach(setup, one) < far
    ]
    return tuple(sorted(found, key=lambda one: (_reach(setup, one), one.letter)))


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
    left = _flag_share(setup, light.letter, Shields.SUBJECT)
    for scrim in scrims_of(setup, light):
        near = _reach(setup, scrim)
        on_cloth = light_output(
            light, max(far - near, NEAREST_M), light.off_axis_deg, setup.camera, seconds, setup.conventions
        )
        if plain.amount <= 0.0:
            continue
        scattered = on_cloth.amount / plain.amount * view_share(scrim.front, near)
        spec = scrim.panel
        # Scattered light cannot be more than what was there before the cloth took its part.
        left *= math.exp2(-spec.takes_stops) * (spec.scatter * min(1.0, scattered) + 1.0 - spec.scatter)
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
    left = _flag_share(setup, light.letter, Shields.BACKGROUND)
    for scrim in scrims_of(setup, light):
        left *= math.exp2(-scrim.panel.takes_stops) * (1.0 - scrim.panel.scatter)
    return left


def shields_lens(setup: Setup, letter: str) -> bool:
    """Return whether a flag keeps a light from the lens altogether.

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
    return _flag_share(setup, letter, Shields.LENS) < 0.1


def _throws(setup: Setup, panel: PlacedPanel) -> bool:
    """Return whether a panel throws light onto the side that the camera sees."""
    return panel.panel.kind is PanelKind.REFLECTOR and math.cos(math.radians(panel.bearing_deg)) >= -1e-9


def panel_normal(setup: Setup, panel: PlacedPanel) -> Vector:
    """Return which way a panel is turned.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        A reflector is turned half way between its light and the subject, anything else to the subject.

    Returns
    -------
    tuple[float, float, float]
        Unit vector. [1]

    References
    ----------
    Law of reflection.
    """
    at = panel.position
    to_subject = towards(at, _subject(setup))[0]
    if panel.panel.kind is not PanelKind.REFLECTOR:
        return to_subject
    if panel.for_letter:
        for light in setup.lights:
            if light.letter == panel.for_letter:
                lamp = placed_at(light.bearing_deg, light.floor_m, light.height_m)
                return half_way(towards(at, lamp)[0], to_subject)
        return to_subject
    sun = setup.ambient.sun
    return half_way(sun.direction, to_subject) if sun is not None else to_subject


def _passed_on(setup: Setup, panel: PlacedPanel, normal: Vector) -> float:
    """Return what a reflector gives at the subject for each lux on it."""
    to_subject = towards(panel.position, _subject(setup))[0]
    spec = panel.panel
    factor = spec.gain * spec.reflectance * view_share(panel.front, _reach(setup, panel))
    # However bright the silver, it cannot throw more than falls on it.
    return min(factor, spec.reflectance) * max(0.0, dot(normal, to_subject))


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
    lamp = placed_at(light.bearing_deg, light.floor_m, light.height_m)
    aim = _subject(setup)
    if light.part is Part.BACKGROUND and setup.background is not None:
        aim = (0.0, setup.background.distance_m, setup.subject.point_m)
    found = []
    for panel in setup.panels:
        if not _throws(setup, panel):
            continue
        to_panel, far = towards(lamp, panel.position)
        off_axis = math.degrees(math.acos(dot(towards(lamp, aim)[0], to_panel)))
        normal = panel_normal(setup, panel)
        facing = max(0.0, -dot(normal, to_panel))
        on_board = light_output(
            light,
            max(far, NEAREST_M),
            min(off_axis + abs(light.off_axis_deg), 180.0),
            setup.camera,
            setup.exposure.shutter_s,
            setup.conventions,
        )
        found.append((panel.letter, on_board.amount * facing * _passed_on(setup, panel, normal)))
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
        None in the dark. The sun's part changes only where it is known: a reading on the subject alone does
        not say how much of it was sun.

    References
    ----------
    Those of the module.
    """
    if setup.ambient.ev100 is None:
        return None
    whole = math.exp2(setup.ambient.ev100) * setup.conventions.meter_constant / 100.0
    sun = setup.ambient.sun
    direct = min(whole, sun.on_subject_lx) if sun is not None else 0.0
    sky, sun_left, front_left, fill_left = whole - direct, 1.0, 1.0, 1.0
    taken = []
    for panel in setup.panels:
        spec = panel.panel
        before = sky * front_left + direct * sun_left
        if spec.kind is PanelKind.BLACK:
            hidden = view_share(panel.front, _reach(setup, panel)) * (1.0 - spec.reflectance)
            front_left *= 1.0 - hidden * max(0.0, math.cos(math.radians(panel.bearing_deg)))
            fill_left *= 1.0 - hidden
            taken.append((panel.letter, math.log2(1.0 - hidden)))
            continue
        if panel.for_letter == "" and spec.kind is PanelKind.SCRIM:
            scattered = min(1.0, view_share(panel.front, _reach(setup, panel)))
            sun_left *= math.exp2(-spec.takes_stops) * (spec.scatter * scattered + 1.0 - spec.scatter)
        elif panel.for_letter == "" and spec.kind is PanelKind.FLAG and panel.shields is Shields.SUBJECT:
            sun_left *= flagged_share(panel.covers, SPILL_SHARE)
        else:
            continue
        left = sky * front_left + direct * sun_left
        taken.append((panel.letter, math.log2(left / before) if left > 0.0 and before > 0.0 else -math.inf))
    thrown = tuple(
        (panel.letter, _thrown_ambient(setup, panel, sky)) for panel in setup.panels if _throws(setup, panel)
    )
    added = math.fsum(amount for _, amount in thrown)
    return AidedAmbient(
        front_lx=sky * front_left + direct * sun_left + added,
        fill_lx=sky * fill_left + direct * sun_left + added,
        thrown_lx=thrown,
        taken_stops=tuple(taken),
    )


def _thrown_ambient(setup: Setup, panel: PlacedPanel, sky_lx: float) -> float:
    """Return what a reflector throws of sky and sun onto the subject."""
    normal = panel_normal(setup, panel)
    on_board = sky_lx
    sun = setup.ambient.sun
    if sun is not None:
        on_board += sun.normal_lx * max(0.0, dot(normal, sun.direction))
    return on_board * _passed_on(setup, panel, normal)
