"""How the smaller numbers of a setup's page came about: geometry, sharpness, movement, the sun's shadow.

The readings carry their own steps; what is one formula of the core is asked of the core's list of quantities, so that
the page and `manage.py light` say the same.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from shoots.lighting.core.framecheck import View, camera_view
from shoots.lighting.core.quantities import compute
from shoots.lighting.core.readings import JAW_M, NOSE_M, LightReading, SetupReading
from shoots.lighting.core.setup import Part, PlacedLight, Setup
from shoots.lighting.core.sharpness import DepthOfField, circle_of_confusion, depth_of_field
from shoots.lighting.core.standpoint import framed
from shoots.lighting.core.wishes import GHOST_STOPS
from shoots.places.core.sun import SunPosition
from shoots.values.steps import Formula, Step
from shoots.values.units import OutOfRange

SLANT = Formula("distance_along_the_beam", "d = √(floor² + (height − face)²)", "m", "Geometry")
GELLED = Formula("colour_behind_the_gels", "T = 10⁶ / (10⁶ / T_lamp + Σ shift)", "K", "Mired arithmetic")
OPTICS = "Geometry of a thin lens; circle of confusion: the sensor's diagonal over 1500"
NEAR = Formula("sharp_from", "near = s · (H − f) / (H + s − 2f), H = f² / (N · c) + f", "m", OPTICS)
FAR = Formula("sharp_to", "far = s · (H − f) / (H − s)", "m", OPTICS)
TILT = Formula("camera_tilt", "φ = atan((aim − height) / distance)", "°", "Geometry")
EDGE = "Geometry of a rectilinear lens"
BOTTOM = Formula("frame_bottom", "h = height + distance · tan(φ − view / 2)", "m", EDGE)
TOP = Formula("frame_top", "h = height + distance · tan(φ + view / 2)", "m", EDGE)
POSITION = Formula("sun_altitude", "From date, time and place", "°", "Solar Position Algorithm, NREL/TP-560-34302")


@dataclass(frozen=True)
class Sharpness:
    """What is sharp, what moves and how the frame lies. `far_m` is infinite beyond the hyperfocal distance.

    `framed_because` is how the numbers under the drawings came about.
    """

    near_m: float
    far_m: float
    view_across_deg: float
    view_up_deg: float
    tilt_deg: float
    airy_um: float
    blur_mm: float | None
    because: tuple[Step, ...]
    framed_because: tuple[Step, ...] = ()

    @property
    def reaches_infinity(self) -> bool:
        return math.isinf(self.far_m)


def sharpness_of(core: Setup, reading: SetupReading) -> Sharpness | None:
    """Return what is sharp with the present settings; None where focus lies within the focal length. No query.

    What moves blurs as the search counts it: by the flash of the keys, and by the shutter where ambient light is
    strong enough to draw a second outline.
    """
    focus = math.hypot(core.place.distance_m, core.place.aim_m - core.place.height_m)
    circle = circle_of_confusion(core.camera.diagonal_mm)
    try:
        view = camera_view(core)
        depth = depth_of_field(core.lens.focal_mm, core.exposure.f_number, circle, focus)
        airy = compute("airy_diameter", {"f_number": core.exposure.f_number})
    except OutOfRange:
        return None
    steps = [*_depth_steps(core, circle, focus, depth), *airy.steps]
    blur = None
    if core.subject.speed_m_s > 0.0:
        blurs = [one.blur_mm for one in reading.lights if one.part is Part.KEY and one.at_front and one.reading]
        if not blurs or (reading.ambient is not None and reading.ambient.stops >= GHOST_STOPS):
            blurs.append(1000.0 * core.subject.speed_m_s * core.exposure.shutter_s)
        blur = max(blurs)
        time = blur / 1000.0 / core.subject.speed_m_s
        steps += compute("motion_blur", {"speed_m_s": core.subject.speed_m_s, "effective_s": time}).steps
    return Sharpness(
        depth.near_m,
        depth.far_m,
        view.horizontal_deg,
        view.vertical_deg,
        view.tilt_deg,
        airy.value,
        blur,
        tuple(steps),
        tuple(_frame_steps(core, view, focus)),
    )


def _frame_steps(core: Setup, view: View, focus_m: float) -> list[Step]:
    place, camera = core.place, core.camera
    side = camera.height_mm if place.upright else camera.width_mm
    asked = {"focal_mm": core.lens.focal_mm, "side_mm": side, "focus_m": focus_m}
    steps = list(compute("field_of_view", asked).steps)
    aimed = (("aim_m", place.aim_m, "m"), ("height_m", place.height_m, "m"), ("distance_m", place.distance_m, "m"))
    steps.append(TILT.step(view.tilt_deg, *aimed))
    edges = framed(place.height_m, view.tilt_deg, view.vertical_deg, place.distance_m)
    given = (
        ("height_m", place.height_m, "m"),
        ("distance_m", place.distance_m, "m"),
        ("tilt_deg", view.tilt_deg, "°"),
        ("view_deg", view.vertical_deg, "°"),
    )
    # An edge of the frame that looks beyond the vertical meets nothing at the subject's distance.
    steps += [row.step(at, *given) for row, at in ((BOTTOM, edges.bottom_m), (TOP, edges.top_m)) if math.isfinite(at)]
    return steps


def _depth_steps(core: Setup, circle_mm: float, focus_m: float, depth: DepthOfField) -> list[Step]:
    given = (
        ("focal_mm", core.lens.focal_mm, "mm"),
        ("f_number", core.exposure.f_number, "1"),
        ("circle_of_confusion_mm", circle_mm, "mm"),
        ("focus_m", focus_m, "m"),
    )
    steps = [NEAR.step(depth.near_m, *given)]
    return [*steps, FAR.step(depth.far_m, *given)] if math.isfinite(depth.far_m) else steps


def light_steps(core: Setup, light: PlacedLight, reading: LightReading) -> tuple[Step, ...]:
    """Return how a light's distance, size, shadow edges, colour and flash duration came about. No query."""
    where = reading.direction
    size = math.sqrt(light.front.width_m * light.front.height_m)
    steps = [
        SLANT.step(
            where.slant_m,
            ("floor_m", light.floor_m, "m"),
            ("height_m", light.height_m, "m"),
            ("face_m", core.subject.point_m, "m"),
        ),
        *compute("apparent_angle", {"size_m": size, "distance_m": where.slant_m}).steps,
    ]
    for gap in (NOSE_M, JAW_M):
        asked = {"source_m": size, "source_to_edge_m": where.slant_m, "edge_to_surface_m": gap}
        steps += compute("penumbra_width", asked).steps
    if light.gels and reading.colour_k is not None:
        shift = math.fsum(gel.shift_mired for gel in light.gels)
        steps.append(GELLED.step(reading.colour_k, ("lamp_k", light.lamp.colour_k, "K"), ("shift", shift, "mired")))
    return tuple(steps)


def sun_steps(sun: SunPosition, subject_m: float) -> tuple[Step, ...]:
    """Return how the sun's place and the length of the subject's shadow came about. No query."""
    altitude = sun.apparent_altitude_deg
    found = POSITION.step(altitude, ("azimuth", sun.azimuth_deg, "°"))
    if not 0.0 < altitude <= 90.0:
        return (found,)
    return found, *compute("shadow_length", {"height_m": subject_m, "apparent_altitude_deg": altitude}).steps
