"""What stands before what in a setup: how panels are turned, and what they leave of a light or of the sun at a point.

Flags, boards and reflectors let nothing through and hide whatever part of a front stands behind them, each part
once. A scrim takes its loss of the part behind it, sends on straight what it does not scatter, and shines itself.
Where somebody types how much a flag or scrim covers, that counts for the light that it is for and nothing else
does; without, where it stands counts, for every light.

References
----------
`shoots.lighting.core.shadows`; the share that comes round a flag is an own estimate.
"""

import math

from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.output import light_output
from shoots.lighting.core.panels import (
    PlacedPanel,
    Shields,
    Vector,
    half_way,
    placed_at,
    towards,
    turn_and_tilt,
    turned,
)
from shoots.lighting.core.setup import PlacedLight, Setup
from shoots.lighting.core.shadows import (
    Outline,
    outline,
    receptor_share,
    sun_outline,
    visible_share,
)
from shoots.lighting.core.sources import flagged_share, view_share
from shoots.values.steps import Formula

NEAREST_M = 0.05
"""A board no nearer than this to anything. [m]"""
SPILL_SHARE = 0.02
"""What comes round a flag by walls and ground all the same; own estimate. [1]"""
SILK = 0.5
"""A cloth that scatters more than this is a front of its own; own estimate. [1]"""

HIDES = Formula(
    "share_hidden",
    "s = 1 − F(part that is seen) / F(whole front)",
    "1",
    "Lambert's polygon formula for an even front, cut by the panel's outline; geometry",
)


def subject_point(setup: Setup) -> Vector:
    """Return the point of the subject that is lit and metered.

    Parameters
    ----------
    setup : Setup
        The setup.

    Returns
    -------
    tuple[float, float, float]
        In the setup's own coordinates. [m]

    References
    ----------
    Own arrangement.
    """
    return 0.0, 0.0, setup.subject.point_m


def shielded_point(setup: Setup, shields: Shields) -> Vector:
    """Return the point that a flag keeps a light from.

    Parameters
    ----------
    setup : Setup
        The setup.
    shields : Shields
        Which: the face, the background behind it, or the lens.

    Returns
    -------
    tuple[float, float, float]
        The face where there is no background. [m]

    References
    ----------
    Own arrangement.
    """
    if shields is Shields.LENS:
        return 0.0, -setup.place.distance_m, setup.place.height_m
    if shields is Shields.BACKGROUND and setup.background is not None:
        return 0.0, setup.background.distance_m, setup.subject.point_m
    return subject_point(setup)


def lamp_point(light: PlacedLight) -> Vector:
    """Return where a light's front is.

    Parameters
    ----------
    light : PlacedLight
        The light.

    Returns
    -------
    tuple[float, float, float]
        In the setup's own coordinates. [m]

    References
    ----------
    `shoots.lighting.core.panels.placed_at`.
    """
    return placed_at(light.bearing_deg, light.floor_m, light.height_m)


def panel_normal(setup: Setup, panel: PlacedPanel) -> Vector:
    """Return which way a panel is turned.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        Where nobody says it: a reflector half way between its light and the subject, a flag square to the way from
        its light to what it shields, anything else to the subject.

    Returns
    -------
    tuple[float, float, float]
        Unit vector. [1]

    References
    ----------
    Law of reflection; common practice for the rest, no source.
    """
    if panel.turn_deg is not None and panel.tilt_deg is not None:
        return turned(panel.turn_deg, panel.tilt_deg)
    own = _own_normal(setup, panel)
    if panel.turn_deg is None and panel.tilt_deg is None:
        return own
    turn, tilt = turn_and_tilt(own)
    return turned(
        turn if panel.turn_deg is None else panel.turn_deg, tilt if panel.tilt_deg is None else panel.tilt_deg
    )


def _own_normal(setup: Setup, panel: PlacedPanel) -> Vector:
    at = panel.position
    to_subject = towards(at, subject_point(setup))[0]
    if panel.panel.kind not in (PanelKind.REFLECTOR, PanelKind.FLAG):
        return to_subject
    lamp = next((lamp_point(light) for light in setup.lights if light.letter == panel.for_letter), None)
    if lamp is None:
        sun = setup.ambient.sun if panel.for_letter == "" else None
        if sun is None:
            return to_subject
        return sun.direction if panel.panel.kind is PanelKind.FLAG else half_way(sun.direction, to_subject)
    if panel.panel.kind is PanelKind.FLAG:
        return towards(shielded_point(setup, panel.shields), lamp)[0]
    return half_way(towards(at, lamp)[0], to_subject)


def panel_outline(setup: Setup, panel: PlacedPanel) -> Outline:
    """Return the corners of a panel in its place.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        The panel.

    Returns
    -------
    tuple[tuple[float, float, float], ...]
        In the setup's own coordinates. [m]

    References
    ----------
    Geometry.
    """
    return outline(panel.front, panel.position, panel_normal(setup, panel))


def is_typed(panel: PlacedPanel) -> bool:
    """Return whether somebody says how much a flag or scrim covers, in the place of where it stands.

    Parameters
    ----------
    panel : PlacedPanel
        The panel.

    References
    ----------
    Own arrangement.
    """
    return panel.covers is not None and panel.panel.kind in (PanelKind.FLAG, PanelKind.SCRIM)


def opaque(setup: Setup, besides: str = "") -> tuple[Outline, ...]:
    """Return the outlines of all that lets no light through.

    Parameters
    ----------
    setup : Setup
        The setup.
    besides : str
        Letter of a panel that does not count.

    Returns
    -------
    tuple[tuple[tuple[float, float, float], ...], ...]
        In the order of the setup; a flag whose share is typed is not among them. [m]

    References
    ----------
    Own arrangement.
    """
    return tuple(
        panel_outline(setup, one)
        for one in setup.panels
        if one.panel.kind is not PanelKind.SCRIM and one.letter != besides and not is_typed(one)
    )


def source_outline(setup: Setup, letter: str, point: Vector) -> Outline | None:
    """Return the front of a light, turned to a point, or the sun.

    Parameters
    ----------
    setup : Setup
        The setup.
    letter : str
        Which light; empty for the sun.
    point : tuple[float, float, float]
        Where its light falls. [m]

    Returns
    -------
    tuple[tuple[float, float, float], ...] or None
        None where there is no such light or the sun is not known. [m]

    References
    ----------
    Own arrangement.
    """
    if letter == "":
        sun = setup.ambient.sun
        return sun_outline(point, sun.direction) if sun is not None else None
    for light in setup.lights:
        if light.letter == letter:
            lamp = lamp_point(light)
            return outline(light.front, lamp, towards(lamp, point)[0])
    return None


def hides(setup: Setup, panel: PlacedPanel) -> float | None:
    """Return the share of its light that a panel hides from what it shields.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        A flag or scrim.

    Returns
    -------
    float or None
        As typed, else by where it stands, whatever else stands there; None where its light is not known or there is
        no background to shield. [1]

    References
    ----------
    `shoots.lighting.core.shadows.visible_share`.
    """
    shields = panel.shields if panel.panel.kind is PanelKind.FLAG else Shields.SUBJECT
    if shields is Shields.BACKGROUND and setup.background is None:
        return None
    if panel.covers is not None:
        return panel.covers
    point = shielded_point(setup, shields)
    source = source_outline(setup, panel.for_letter, point)
    return None if source is None else 1.0 - visible_share(source, point, (panel_outline(setup, panel),))


def opaque_left(setup: Setup, letter: str, point: Vector, shields: Shields | None, besides: str = "") -> float:
    """Return what flags and boards leave of a light or of the sun at a point.

    Parameters
    ----------
    setup : Setup
        The setup.
    letter : str
        Which light; empty for the sun.
    point : tuple[float, float, float]
        Where it falls. [m]
    shields : Shields or None
        Which point that is, for flags with a typed share; None for any other.
    besides : str
        Letter of a panel that does not count.

    Returns
    -------
    float
        A fiftieth of what they hide comes round them. [1]

    References
    ----------
    Those of the module.
    """
    before = opaque(setup, besides)
    source = source_outline(setup, letter, point) if before else None
    left = flagged_share(1.0 - visible_share(source, point, before), SPILL_SHARE) if source else 1.0
    return left * math.prod(
        flagged_share(one.covers, SPILL_SHARE)
        for one in setup.panels
        if one.covers is not None
        and one.panel.kind is PanelKind.FLAG
        and one.for_letter == letter
        and one.shields is shields
    )


def scrim_shares(setup: Setup, letter: str, point: Vector, besides: str = "") -> tuple[tuple[PlacedPanel, float], ...]:
    """Return the scrims between a light or the sun and a point, and how much of it is behind each.

    Parameters
    ----------
    setup : Setup
        The setup.
    letter : str
        Which light; empty for the sun.
    point : tuple[float, float, float]
        Where it falls. [m]
    besides : str
        Letter of a panel that does not count.

    Returns
    -------
    tuple[tuple[PlacedPanel, float], ...]
        Nearest to the point first, with the share of the front, above 0. [1]

    References
    ----------
    Those of the module.
    """
    found = []
    source = None
    for one in setup.panels:
        if one.panel.kind is not PanelKind.SCRIM or one.letter == besides:
            continue
        if one.covers is not None:
            share = one.covers if one.for_letter == letter else 0.0
        else:
            source = source or source_outline(setup, letter, point)
            share = 1.0 - visible_share(source, point, (panel_outline(setup, one),)) if source else 0.0
        if share > 0.0:
            found.append((one, share))
    return tuple(sorted(found, key=lambda each: (towards(each[0].position, point)[1], each[0].letter)))


def lamp_left(
    setup: Setup,
    light: PlacedLight,
    point: Vector,
    shields: Shields | None = None,
    *,
    shutter_s: float | None = None,
    besides: str = "",
    scatters: bool = True,
) -> float:
    """Return what all panels leave of a light at a point.

    Parameters
    ----------
    setup : Setup
        The setup.
    light : PlacedLight
        The light.
    point : tuple[float, float, float]
        Where it falls. [m]
    shields : Shields or None
        Which point that is, for flags with a typed share.
    shutter_s : float or None
        Exposure time, None for the setup's. [s]
    besides : str
        Letter of a panel that does not count.
    scatters : bool
        Whether what a cloth scatters reaches the point.

    Returns
    -------
    float
        What a cloth throws of light that would have passed beside the point is left out. [1]

    References
    ----------
    Those of the module.
    """
    left = opaque_left(setup, light.letter, point, shields, besides)
    seconds = setup.exposure.shutter_s if shutter_s is None else shutter_s
    for scrim, share in scrim_shares(setup, light.letter, point, besides):
        spec = scrim.panel
        scattered = 0.0
        if scatters and spec.scatter > 0.0:
            near = max(NEAREST_M, towards(scrim.position, point)[1])
            far = max(NEAREST_M, towards(lamp_point(light), point)[1])
            on_cloth = light_output(
                light,
                max(NEAREST_M, towards(lamp_point(light), scrim.position)[1]),
                light.off_axis_deg,
                setup.camera,
                seconds,
                setup.conventions,
            )
            plain = light_output(light, far, light.off_axis_deg, setup.camera, seconds, setup.conventions)
            # Scattered light cannot be more than what was there before the cloth took its part.
            if plain.amount > 0.0:
                scattered = min(1.0, on_cloth.amount / plain.amount * view_share(scrim.front, near))
        passed = math.exp2(-spec.takes_stops) * (spec.scatter * scattered + 1.0 - spec.scatter)
        left *= 1.0 - share + share * passed
    return left


def sun_left(setup: Setup, point: Vector, shields: Shields | None = None, besides: str = "") -> float:
    """Return what all panels leave of the sun's straight light at a point.

    Parameters
    ----------
    setup : Setup
        The setup.
    point : tuple[float, float, float]
        Where it falls. [m]
    shields : Shields or None
        Which point that is, for flags with a typed share.
    besides : str
        Letter of a panel that does not count.

    Returns
    -------
    float
        1 where the sun is not known; what a cloth scatters stands in `cloth_lx`. [1]

    References
    ----------
    Those of the module.
    """
    left = opaque_left(setup, "", point, shields, besides)
    for scrim, share in scrim_shares(setup, "", point, besides):
        left *= 1.0 - share + share * math.exp2(-scrim.panel.takes_stops) * (1.0 - scrim.panel.scatter)
    return left


def cloth_lx(setup: Setup, point: Vector, facing: Vector, dome: bool = False, besides: str = "") -> float:
    """Return what cloths in the sun scatter onto a receptor on their other side.

    Parameters
    ----------
    setup : Setup
        The setup.
    point : tuple[float, float, float]
        The receptor. [m]
    facing : tuple[float, float, float]
        Which way it is turned. [1]
    dome : bool
        Whether it is a half sphere.
    besides : str
        Letter of a panel that does not count.

    Returns
    -------
    float
        Of every cloth in the sun; one that lies in the shadow of a board counts for what is left in its middle.
        [lx]

    References
    ----------
    A cloth lit from behind as an even matt front: M = E · transmittance · scatter; textbook photometry.
    """
    sun = setup.ambient.sun
    if sun is None:
        return 0.0
    total = 0.0
    for scrim in setup.panels:
        spec = scrim.panel
        if spec.kind is not PanelKind.SCRIM or scrim.letter == besides or spec.scatter == 0.0:
            continue
        normal = panel_normal(setup, scrim)
        incidence = math.fsum(a * b for a, b in zip(normal, sun.direction, strict=True))
        to_point = towards(scrim.position, point)[0]
        if incidence * math.fsum(a * b for a, b in zip(normal, to_point, strict=True)) >= 0.0:
            continue
        on_cloth = sun.normal_lx * abs(incidence) * opaque_left(setup, "", scrim.position, None)
        left = math.exp2(-spec.takes_stops) * spec.scatter
        total += on_cloth * left * receptor_share(panel_outline(setup, scrim), point, facing, dome)
    return total
