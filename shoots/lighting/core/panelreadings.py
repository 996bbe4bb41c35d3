"""What each panel of a setup does, with how it came about.

References
----------
`shoots.lighting.core.aids` and `shoots.lighting.core.blocking`, with their sources.
"""

import math
from dataclasses import dataclass, replace

from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.aids import (
    PANELS_TAKE,
    REFLECTED_SPREAD_STOPS,
    THROWN_BACK,
    AidedAmbient,
    passed_on,
    subject_output,
    through_scrims,
    throws,
)
from shoots.lighting.core.blocking import (
    HIDES,
    SPILL_SHARE,
    hides,
    is_typed,
    lamp_left,
    lamp_point,
    panel_normal,
    panel_outline,
    shielded_point,
    subject_point,
    sun_left,
)
from shoots.lighting.core.output import PLACING_M
from shoots.lighting.core.panels import PlacedPanel, Shields, dot, sides, towards, turn_and_tilt
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.shadows import SUN_DEG, SUN_M, receptor_share
from shoots.lighting.core.sources import flagged_share
from shoots.lighting.core.tenths import Reading
from shoots.values.steps import Formula, Step

WORTH = 0.02
"""A share below this is not worth a word. [1]"""

TYPED = Formula("share_hidden", "s = as typed", "1", "Typed with the panel; where it stands does not count then")
EDGE = Formula(
    "soft_edge",
    "b = S · d₁ / (d − d₁), of the sun b = 2 · d₁ · tan(α/2)",
    "m",
    "Half shadow of a wide source; similar triangles",
)
NEGATIVE_FILL = Formula("negative_fill", "left = 1 − F · (1 − ρ)", "1", "Textbook photometry; evenly lit surroundings")
THROUGH_CLOTH = Formula("through_the_cloth", "left = 2^−loss", "1", "Losses of cloths by practice")


@dataclass(frozen=True, slots=True)
class PanelReading:
    """What one panel does.

    Attributes
    ----------
    letter : str
        Its letter.
    kind : PanelKind
        What kind it is.
    gives : Reading or None
        What it throws onto the subject, all lights and the ambient together; None for one that throws
        nothing worth a word.
    takes_stops : float
        What it takes of the light or ambient that it is for, at most 0, -inf for all of it: on the subject, a
        black board on the shadow side. [stop]
    hides : float or None
        Share of its light that a flag or scrim hides from what it shields; None for any other panel and where the
        sun is not known. [1]
    is_typed : bool
        Whether that share is typed; else it comes from where the panel stands.
    edge_m : float or None
        How wide the soft edge of a flag's shadow is there; None where the share is typed or nothing is hidden. [m]
    kept : tuple[tuple[str, float], ...]
        What other panels keep from a reflector's middle, as a share, by light, empty for the sun. [1]
    in_reading : bool
        Whether what it does is in the ambient reading, which was taken under it.
    sun_unknown : bool
        Whether nobody knows how much of the ambient is sun: a scrim is then taken before all of it, a flag before
        nothing.
    spread_stops : float
        How far what it takes may lie off; of a flag, by what it would take five centimetres beside its place. [stop]
    because : tuple[Step, ...]
        How what it takes came about; what it gives has its own steps.
    """

    letter: str
    kind: PanelKind
    gives: Reading | None
    takes_stops: float
    hides: float | None = None
    is_typed: bool = False
    edge_m: float | None = None
    kept: tuple[tuple[str, float], ...] = ()
    in_reading: bool = False
    sun_unknown: bool = False
    spread_stops: float = REFLECTED_SPREAD_STOPS
    because: tuple[Step, ...] = ()

    @property
    def does_nothing(self) -> bool:
        """Whether the picture is the same without it, as far as anybody knows."""
        known = not self.in_reading and not self.sun_unknown
        return known and self.gives is None and self.takes_stops > -0.02


def _stops(share: float) -> float:
    return math.log2(share) if share > 0.0 else -math.inf


def thrown_step(setup: Setup, panel: PlacedPanel, amount_lx_s: float) -> Step:
    """Return how what a reflector throws came about.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        The reflector.
    amount_lx_s : float
        What it gives on the subject. [lx·s]

    Returns
    -------
    Step
        With the light on it, as the subject sees it, and its configuration factor.

    References
    ----------
    `shoots.lighting.core.aids.passed_on`.
    """
    spec, point = panel.panel, subject_point(setup)
    factor = receptor_share(panel_outline(setup, panel), point, towards(point, panel.position)[0])
    passed = passed_on(setup, panel) if throws(panel) else 0.0
    return THROWN_BACK.step(
        amount_lx_s,
        ("on_board_lx_s", amount_lx_s / passed if passed > 0.0 else 0.0, "lx·s"),
        ("reflectance", spec.reflectance, "1"),
        ("gain", spec.gain, "1"),
        ("configuration_factor", factor, "1"),
    )


def panel_reading(setup: Setup, panel: PlacedPanel, aided: AidedAmbient | None, gives: Reading | None) -> PanelReading:
    """Return what a panel does.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        One of its panels.
    aided : AidedAmbient or None
        The ambient light with all panels; None in the dark.
    gives : Reading or None
        What it throws onto the subject.

    Returns
    -------
    PanelReading
        Each number with its steps.

    References
    ----------
    Those of the module.
    """
    kind, ambient = panel.panel.kind, setup.ambient
    stands_before = kind in (PanelKind.FLAG, PanelKind.SCRIM)
    for_sky = stands_before and panel.for_letter == "" and ambient.ev100 is not None
    takes = dict(aided.taken_stops).get(panel.letter, 0.0) if aided is not None else 0.0
    if stands_before and panel.for_letter:
        takes = _taken_from_light(setup, panel)
    hidden = hides(setup, panel) if stands_before else None
    in_reading = for_sky and ambient.under_panels
    unknown = for_sky and not in_reading and ambient.sun is None and not ambient.even
    edge: float | None = None
    steps: list[Step] = []
    if hidden is not None and not in_reading:
        edge, steps = _hidden_steps(setup, panel, hidden)
    if kind is PanelKind.BLACK and aided is not None:
        steps = [_fill_step(setup, panel)]
    if kind is PanelKind.SCRIM:
        given = (("loss", panel.panel.takes_stops, "stop"), ("scattered", panel.panel.scatter, "1"))
        steps.append(THROUGH_CLOTH.step(math.exp2(-panel.panel.takes_stops), *given))
    if steps and -math.inf < takes < 0.0:
        steps.append(PANELS_TAKE.step(takes, ("left", math.exp2(takes), "1")))
    return PanelReading(
        letter=panel.letter,
        kind=kind,
        gives=gives,
        takes_stops=takes,
        hides=hidden,
        is_typed=is_typed(panel),
        edge_m=edge,
        kept=_kept_from(setup, panel) if throws(panel) and len(setup.panels) > 1 else (),
        in_reading=in_reading,
        sun_unknown=unknown,
        spread_stops=_placing_spread(setup, panel, hidden),
        because=tuple(steps),
    )


def _placing_spread(setup: Setup, panel: PlacedPanel, hidden: float | None) -> float:
    """Return how far what a panel takes may lie off; where a flag's share is computed, by moving it a little."""
    if hidden is None or panel.panel.kind is not PanelKind.FLAG or is_typed(panel):
        return REFLECTED_SPREAD_STOPS
    normal = panel_normal(setup, panel)
    turn, tilt = turn_and_tilt(normal)
    here = flagged_share(hidden, SPILL_SHARE)
    most = 0.0
    for way in sides(normal):
        for step in (PLACING_M, -PLACING_M):
            x, y, z = (at + step * part for at, part in zip(panel.position, way, strict=True))
            bearing, away = math.degrees(math.atan2(-x, -y)), math.hypot(x, y)
            # It is shifted, not turned: its own way of facing stays.
            moved = replace(
                panel, bearing_deg=bearing, floor_m=away, height_m=max(0.0, z), turn_deg=turn, tilt_deg=tilt
            )
            there = flagged_share(hides(setup, moved) or 0.0, SPILL_SHARE)
            most = max(most, abs(math.log2(there / here)))
    return most


def _fill_step(setup: Setup, panel: PlacedPanel) -> Step:
    point = subject_point(setup)
    factor = receptor_share(panel_outline(setup, panel), point, towards(point, panel.position)[0])
    rho = panel.panel.reflectance
    return NEGATIVE_FILL.step(
        1.0 - factor * (1.0 - rho), ("configuration_factor", factor, "1"), ("reflectance", rho, "1")
    )


def _hidden_steps(setup: Setup, panel: PlacedPanel, hidden: float) -> tuple[float | None, list[Step]]:
    """Return the width of the soft edge, and how the hidden share came about."""
    if panel.covers is not None:
        return None, [TYPED.step(hidden, ("share", hidden, "1"))]
    point = shielded_point(setup, panel.shields if panel.panel.kind is PanelKind.FLAG else Shields.SUBJECT)
    light = next((one for one in setup.lights if one.letter == panel.for_letter), None)
    sun = setup.ambient.sun
    if light is not None:
        size, (axis, far) = math.sqrt(light.front.width_m * light.front.height_m), towards(point, lamp_point(light))
        source: tuple[tuple[str, float, str], ...] = (("front", size, "m"), ("front_to_point_m", far, "m"))
    else:
        assert sun is not None
        size, axis, far = 2.0 * SUN_M * math.tan(math.radians(SUN_DEG / 2.0)), sun.direction, SUN_M
        source = (("sun_across_deg", SUN_DEG, "°"),)
    to_panel, reach = towards(point, panel.position)
    along = reach * dot(axis, to_panel)
    aside = math.sqrt(max(0.0, reach * reach - along * along))
    steps = [
        HIDES.step(
            hidden,
            *source,
            ("panel_width_m", panel.front.width_m, "m"),
            ("panel_height_m", panel.front.height_m, "m"),
            ("panel_to_point_m", along, "m"),
            ("beside_the_line_m", aside, "m"),
        )
    ]
    if hidden < WORTH or panel.panel.kind is not PanelKind.FLAG or not 0.0 < along < far - 1e-6:
        return None, steps
    edge = size * along / (far - along)
    return edge, [*steps, EDGE.step(edge, *source, ("panel_to_point_m", along, "m"))]


def _kept_from(setup: Setup, panel: PlacedPanel) -> tuple[tuple[str, float], ...]:
    """Return what other panels keep from a reflector's middle, by light."""
    found = [
        (light.letter, 1.0 - lamp_left(setup, light, panel.position, besides=panel.letter)) for light in setup.lights
    ]
    if setup.ambient.sun is not None and not setup.ambient.under_panels:
        found.append(("", 1.0 - sun_left(setup, panel.position, besides=panel.letter)))
    elif setup.ambient.ev100 is not None:
        found.append(("", 1.0 - through_scrims(setup)))
    return tuple((letter, share) for letter, share in found if share >= WORTH)


def _taken_from_light(setup: Setup, panel: PlacedPanel) -> float:
    """Return what a flag or scrim takes of its light, on subject or background, whichever it is for."""
    rest = replace(setup, panels=tuple(one for one in setup.panels if one.letter != panel.letter))
    for light in setup.lights:
        if light.letter == panel.for_letter:
            if panel.panel.kind is PanelKind.FLAG and panel.shields is not Shields.SUBJECT:
                spill = 0.0 if panel.shields is Shields.LENS else SPILL_SHARE
                return _stops(flagged_share(hides(setup, panel) or 0.0, spill))
            before, after = subject_output(rest, light).amount, subject_output(setup, light).amount
            return min(0.0, _stops(after / before)) if before > 0.0 else 0.0
    return 0.0
