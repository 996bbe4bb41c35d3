"""A whole setup evaluated: what a meter would read for each light and together, against the chosen exposure.

Light adds in lx·s; the spread of a sum is that of independent errors, weighted by what each light gives.

References
----------
ISO 2720:1974, ISO 10157:1991 (flash meters include continuous light; scope read); the parts stand in
`shoots.lighting.core` with their sources.
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

from shoots.kit.core.lamps import LampKind
from shoots.lighting.core.aids import (
    REFLECTED_SPREAD_STOPS,
    AidedAmbient,
    aided_ambient,
    scrims_of,
)
from shoots.lighting.core.colour import appearance, filtered_colour
from shoots.lighting.core.exposure import EV100, ev100
from shoots.lighting.core.exposures import background_exposure, light_exposure, thrown_exposures
from shoots.lighting.core.metering import F_NUMBER_FOR_EXPOSURE, luminous_exposure
from shoots.lighting.core.mixing import SUM_OF_LIGHTS, lighting_ratio
from shoots.lighting.core.motion import motion_blur
from shoots.lighting.core.output import Sync, clipped_shares, flash_tail, sync_of
from shoots.lighting.core.panelreadings import PanelReading, panel_reading, thrown_step
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.quality import (
    Direction,
    Softness,
    apparent_angle,
    fall_off,
    penumbra_width,
    softness,
)
from shoots.lighting.core.scales import aperture_scale, nearest_mark
from shoots.lighting.core.setup import Part, PlacedLight, Setup, light_direction, reaches_front
from shoots.lighting.core.sources import Front
from shoots.lighting.core.tenths import METERED, Reading, meter_reading
from shoots.values.steps import Formula, Step

NOSE_M, JAW_M = 0.03, 0.08
"""From the tip of a nose to the cheek, from a jaw to the neck; own estimate. [m]"""
FACE_M = 0.4
"""Across which the fall-off over a subject is given, from near to far shoulder; own estimate. [m]"""
FAINT_STOPS = -15.0
"""Below this a light does not count for anything. [stop]"""

AGAINST_CHOSEN = Formula("stops_against_chosen", "ΔEV = log₂(H · S / (C · N²)) − ND", "stop", "ISO 2720:1974")
BACKGROUND_TONE = Formula(
    "background_tone", "ΔEV = log₂(L · S · t / (K · N²)) − ND", "stop", "ISO 2720:1974, reflected-light equation"
)


@dataclass(frozen=True, slots=True)
class LightReading:
    """Everything about one light of a setup.

    Attributes
    ----------
    letter : str
        Its letter.
    part : Part
        What it is there for.
    at_front : bool
        Whether it adds to the side that the camera sees.
    reading : Reading or None
        Turned to the light; None when it gives next to nothing.
    direction : Direction
        Where it comes from.
    apparent_deg : float
        How large it looks from the subject. [°]
    softness : Softness
        What that is called.
    nose_mm, jaw_mm : float
        Width of the soft edge of a nose's and a jaw's shadow. [mm]
    fall_off_stops : float
        From the near to the far side of a person. [stop]
    colour_k : float or None
        Behind its gels; None beyond the blue limit. [K]
    appearance_mired : float or None
        Under the white balance, positive looks warm. [MK⁻¹]
    sync : Sync
        How it meets the shutter.
    edge_stops : tuple[float, float]
        What the shutter takes at the edges that are uncovered first and last, at most 0, -inf for nothing.
        [stop]
    t01_s : float or None
        Flash duration; None for continuous light. [s]
    blur_mm : float
        Blur of the subject's fastest part, by this light alone. [mm]
    background_stops : float or None
        What it gives on the background, as a tone against middle grey; None without a background or light.
        [stop]
    """

    letter: str
    part: Part
    at_front: bool
    reading: Reading | None
    direction: Direction
    apparent_deg: float
    softness: Softness
    nose_mm: float
    jaw_mm: float
    fall_off_stops: float
    colour_k: float | None
    appearance_mired: float | None
    sync: Sync
    edge_stops: tuple[float, float]
    t01_s: float | None
    blur_mm: float
    background_stops: float | None


@dataclass(frozen=True, slots=True)
class SetupReading:
    """A setup, evaluated.

    Attributes
    ----------
    lights : tuple[LightReading, ...]
        In the order of the setup.
    panels : tuple[PanelReading, ...]
        In the order of the setup.
    ambient : Reading or None
        On the subject; None in the dark.
    total : Reading or None
        All that reaches the front, ambient included; None in the dark.
    key_over_fill_stops : float or None
        Key alone against fill, ambient on the shadow side and what reflectors throw there; None when either
        is missing. [stop]
    ratio_to_one : float or None
        The same as the studio writes it. [1]
    background_stops : float or None
        Tone of the background or sky against middle grey, lights and ambient together. [stop]
    background_spread_stops : float
        How far that may lie off. [stop]
    setting_ev100 : float
        Light level that the settings with their filters expose as middle grey. [EV]
    because : tuple[Step, ...]
        How ``setting_ev100`` and the tone of the background came about.
    """

    lights: tuple[LightReading, ...]
    panels: tuple[PanelReading, ...]
    ambient: Reading | None
    total: Reading | None
    key_over_fill_stops: float | None
    ratio_to_one: float | None
    background_stops: float | None
    background_spread_stops: float
    setting_ev100: float
    because: tuple[Step, ...]


def _reading(setup: Setup, exposure_lx_s: float, spread_stops: float, because: tuple[Step, ...]) -> Reading | None:
    """Return a luminous exposure as a reading, or None when it is next to nothing."""
    chosen = luminous_exposure(setup.exposure.f_number, setup.exposure.iso, setup.conventions.meter_constant)
    if exposure_lx_s <= 0.0 or exposure_lx_s < chosen * math.exp2(FAINT_STOPS):
        return None
    f_number = math.sqrt(exposure_lx_s * setup.exposure.iso / setup.conventions.meter_constant)
    stops = math.log2(exposure_lx_s / chosen) - setup.exposure.nd_stops
    steps = (
        F_NUMBER_FOR_EXPOSURE.step(
            f_number,
            ("exposure_lx_s", exposure_lx_s, "lx·s"),
            ("iso", setup.exposure.iso, "1"),
            ("meter_constant", setup.conventions.meter_constant, "lx·s"),
        ),
        AGAINST_CHOSEN.step(
            stops,
            ("exposure_lx_s", exposure_lx_s, "lx·s"),
            ("f_number", setup.exposure.f_number, "1"),
            ("iso", setup.exposure.iso, "1"),
            ("nd_stops", setup.exposure.nd_stops, "stop"),
        ),
    )
    shown = meter_reading(f_number) if METERED.holds(f_number) else None
    nominal = nearest_mark(f_number, aperture_scale())
    return Reading(f_number, nominal, shown, stops, spread_stops, because + steps)


def _tone(setup: Setup, exposure_lx_s: float) -> float | None:
    """Return the tone of the lit background against middle grey in stops, None when it is dark."""
    if setup.background is None or exposure_lx_s <= 0.0:
        return None
    luminous = exposure_lx_s * setup.background.reflectance / math.pi
    exposure = setup.exposure
    grey = setup.conventions.reflected_constant * exposure.f_number**2 / exposure.iso
    return math.log2(luminous / grey) - exposure.nd_stops


class _Lit(NamedTuple):
    """What a light gives at the subject [lx·s], how sure that is [stop], and on the background [lx·s]."""

    amount: float
    spread: float
    behind: float


def _light_reading(setup: Setup, light: PlacedLight) -> tuple[LightReading, _Lit]:
    """Return a light's reading with what it gives at subject and background."""
    amount, spread, because = light_exposure(setup, light)
    behind = background_exposure(setup, light)
    where = light_direction(light, setup.subject)
    front, far = _seen_front(setup, light, where.slant_m)
    size = math.sqrt(front.width_m * front.height_m)
    angle = apparent_angle(size, far)
    near = max(far - FACE_M / 2.0, 0.05)
    colour = filtered_colour(light.lamp.colour_k, math.fsum(gel.shift_mired for gel in light.gels))
    looks = None
    if colour.kelvin is not None and 500.0 <= colour.kelvin <= 1e6:
        looks = appearance(colour.kelvin, setup.white_balance_k)
    sync = sync_of(light, setup.camera, setup.exposure.shutter_s)
    edges = clipped_shares(light, setup.camera, setup.exposure.shutter_s)
    is_flash = light.lamp.kind is LampKind.FLASH
    t01 = flash_tail(light.lamp, light.power).t01_s if is_flash else None
    frozen = t01 if t01 is not None and sync is not Sync.HIGH_SPEED else setup.exposure.shutter_s
    reading = LightReading(
        letter=light.letter,
        part=light.part,
        at_front=reaches_front(light),
        reading=_reading(setup, amount, spread, because),
        direction=where,
        apparent_deg=angle,
        softness=softness(angle),
        nose_mm=1000.0 * penumbra_width(size, far, NOSE_M),
        jaw_mm=1000.0 * penumbra_width(size, far, JAW_M),
        fall_off_stops=fall_off(front, near, near + FACE_M),
        colour_k=colour.kelvin,
        appearance_mired=looks,
        sync=sync,
        edge_stops=(_stops(edges[0]), _stops(edges[1])),
        t01_s=t01,
        blur_mm=motion_blur(setup.subject.speed_m_s, min(frozen, setup.exposure.shutter_s)),
        background_stops=_tone(setup, behind),
    )
    return reading, _Lit(amount, spread, behind)


def _seen_front(setup: Setup, light: PlacedLight, slant_m: float) -> tuple[Front, float]:
    """Return the front that the subject sees and how far it is: a silk before a light is its front then."""
    for scrim in scrims_of(setup, light):
        if scrim.panel.scatter >= 0.5:
            x, y, z = scrim.position
            return scrim.front, max(math.hypot(x, y, z - setup.subject.point_m), 0.05)
    return light.front, slant_m


def _stops(share: float) -> float:
    return math.log2(share) if share > 0.0 else -math.inf


def _joint_spread(parts: list[tuple[float, float]]) -> float:
    """Return the spread of a sum of (amount, spread) whose errors are independent."""
    total = math.fsum(amount for amount, _ in parts)
    return math.hypot(*(amount / total * spread for amount, spread in parts)) if total > 0.0 else 0.0


def evaluate(setup: Setup) -> SetupReading:
    """Return what a meter would read for each light of a setup and together.

    Parameters
    ----------
    setup : Setup
        The whole setup; the order of its lights does not matter.

    Returns
    -------
    SetupReading
        Each number with its spread and its steps.

    Raises
    ------
    OutOfRange
        If a light stands in the subject or in the background.

    References
    ----------
    Those of the module.
    """
    exposure, constants = setup.exposure, setup.conventions
    found = [_light_reading(setup, light) for light in setup.lights]
    setting = ev100(exposure.f_number, exposure.shutter_s, exposure.iso) + exposure.nd_stops
    ambient, ambient_lx_s, shadow_lx_s = None, 0.0, 0.0
    aided = aided_ambient(setup)
    if aided is not None:
        ambient_lx_s = aided.front_lx * exposure.shutter_s
        shadow_lx_s = aided.fill_lx * exposure.shutter_s
        ambient = _reading(setup, ambient_lx_s, setup.ambient.spread_stops, setup.ambient.because)
    thrown = [one for light in setup.lights for one in thrown_exposures(setup, light)]
    parts = [(lit.amount, lit.spread) for reading, lit in found if reading.at_front]
    parts.append((ambient_lx_s, setup.ambient.spread_stops))
    parts += [(amount, REFLECTED_SPREAD_STOPS) for _, amount in thrown]
    # Sorted, so that the order of the lights cannot change the last digit of a sum.
    parts.sort()
    front = math.fsum(amount for amount, _ in parts)
    bounced = math.fsum(sorted(amount for _, amount in thrown))
    sum_step = SUM_OF_LIGHTS.step(
        front,
        ("ambient_lx_s", ambient_lx_s, "lx·s"),
        *((f"light_{reading.letter}_lx_s", lit.amount, "lx·s") for reading, lit in found if reading.at_front),
        *([("thrown_back_lx_s", bounced, "lx·s")] if thrown else []),
    )
    total = _reading(setup, front, _joint_spread(parts), (sum_step,))
    key = math.fsum(sorted(lit.amount for reading, lit in found if reading.part is Part.KEY))
    fills = [lit.amount for reading, lit in found if reading.part is Part.FILL and reading.at_front]
    fill = math.fsum([shadow_lx_s, bounced, *fills])
    over = math.log2(key / fill) if key > 0.0 and fill > 0.0 else None
    ratio = None
    if over is not None and abs(over) <= 60.0:
        ratio = lighting_ratio(over, constants.ratio)
    tone, tone_spread, tone_steps = _background(setup, setting, [lit for _, lit in found])
    return SetupReading(
        lights=tuple(reading for reading, _ in found),
        panels=tuple(_panel_reading(setup, panel, aided, thrown) for panel in setup.panels),
        ambient=ambient,
        total=total,
        key_over_fill_stops=over,
        ratio_to_one=ratio,
        background_stops=tone,
        background_spread_stops=tone_spread,
        setting_ev100=setting,
        because=(
            EV100.step(
                setting,
                ("f_number", exposure.f_number, "1"),
                ("shutter_s", exposure.shutter_s, "s"),
                ("iso", exposure.iso, "1"),
                ("nd_stops", exposure.nd_stops, "stop"),
            ),
            *tone_steps,
        ),
    )


def _panel_reading(
    setup: Setup, panel: PlacedPanel, aided: AidedAmbient | None, thrown: list[tuple[str, float]]
) -> PanelReading:
    """Return what a panel throws onto the subject, and what it takes of its light."""
    own = [amount for letter, amount in thrown if letter == panel.letter]
    if aided is not None:
        own += [amount * setup.exposure.shutter_s for letter, amount in aided.thrown_lx if letter == panel.letter]
    amount = math.fsum(sorted(own))
    steps = (thrown_step(setup, panel, amount),) if amount > 0.0 else ()
    return panel_reading(setup, panel, aided, _reading(setup, amount, REFLECTED_SPREAD_STOPS, steps))


def _background(setup: Setup, setting_ev100: float, lit: list[_Lit]) -> tuple[float | None, float, tuple[Step, ...]]:
    """Return the tone of background or sky, its spread and its step."""
    exposure, constants = setup.exposure, setup.conventions
    parts: list[tuple[float, float]] = []
    if setup.ambient.background_ev100 is not None:
        # A luminance that reads this EV gives so much luminous exposure per steradian in that time.
        level = constants.reflected_constant * math.exp2(setup.ambient.background_ev100) / 100.0
        parts.append((level * exposure.shutter_s, setup.ambient.background_spread_stops))
    if setup.background is not None:
        share = setup.background.reflectance / math.pi
        parts += [(one.behind * share, one.spread) for one in lit]
    parts.sort()
    amount = math.fsum(amount for amount, _ in parts)
    grey = constants.reflected_constant * exposure.f_number**2 / exposure.iso
    if amount <= grey * math.exp2(FAINT_STOPS):
        return None, 0.0, ()
    tone = math.log2(amount / grey) - exposure.nd_stops
    step = BACKGROUND_TONE.step(
        tone,
        ("luminous_exposure", amount, "cd·s/m²"),
        ("reflected_constant", constants.reflected_constant, "cd·s/m²"),
        ("setting_ev100", setting_ev100, "EV"),
    )
    return tone, _joint_spread(parts), (step,)
