"""How the numbers in a setup's warnings came about, so that a page can open each of them.

The core says what will show or go wrong and by how much; what went in is read from the same setup.
"""

from __future__ import annotations

from dataclasses import dataclass

from shoots.lighting.core.exposures import background_exposure
from shoots.lighting.core.framecheck import Trouble, Warned, light_position
from shoots.lighting.core.output import clipped_shares
from shoots.lighting.core.quantities import compute
from shoots.lighting.core.setup import PlacedLight, Setup
from shoots.values.steps import Formula, Step

FLARE = Formula("angle_to_the_lens", "θ = arccos(to subject · to lens / (|to subject| · |to lens|))", "°", "Geometry")
EDGE = Formula("edge_against_edge", "ΔEV = log₂(share first / share last)", "stop", "Geometry of a slit shutter")
BAND = Formula("dark_share", "1 − t / run of the curtain", "1", "Geometry of a slit shutter")
SPILL = Formula("background_lifted", "ΔEV = log₂(all light / all but this)", "stop", "Light adds")
LOW = Formula("height_missing", "height − highest", "m", "The stand as it is in the bag")
BLUE = Formula("beyond_blue", "−(10⁶ / T + Σ shift)", "mired", "Mired arithmetic")


@dataclass(frozen=True)
class WarnedRow:
    """A warning with how its number came about; `because` is empty where it has no number."""

    warned: Warned
    because: tuple[Step, ...]


def warned_rows(core: Setup | None, found: tuple[Warned, ...]) -> tuple[WarnedRow, ...]:
    """Return warnings with their steps. No query."""
    return tuple(WarnedRow(one, trouble_steps(core, one) if core else ()) for one in found)


def trouble_steps(core: Setup, warned: Warned) -> tuple[Step, ...]:
    """Return how the number in a warning came about; nothing where it has none. No query."""
    if warned.trouble is Trouble.DIFFRACTION:
        return tuple(compute("airy_diameter", {"f_number": core.exposure.f_number}).steps)
    light = next((one for one in core.lights if one.letter == warned.letter), None)
    given = _given(core, light, warned.trouble, warned.amount) if light else None
    if given is None:
        return ()
    formula, inputs = given
    return (formula.step(warned.amount, *inputs),)


def _given(
    core: Setup, light: PlacedLight, trouble: Trouble, amount: float
) -> tuple[Formula, tuple[tuple[str, float, str], ...]] | None:
    shutter = ("shutter_s", core.exposure.shutter_s, "s")
    if trouble is Trouble.FLARE:
        x, y, z = light_position(light)
        place = core.place
        return FLARE, (
            ("light_right_m", x, "m"),
            ("light_behind_m", y, "m"),
            ("light_height_m", z, "m"),
            ("face_m", core.subject.point_m, "m"),
            ("camera_before_m", place.distance_m, "m"),
            ("camera_height_m", place.height_m, "m"),
        )
    if trouble is Trouble.EDGE_DARKER:
        first, last = clipped_shares(light, core.camera, core.exposure.shutter_s)
        curtain = ("curtain_s", core.camera.curtain_s, "s")
        return EDGE, (shutter, curtain, ("share_first", first, "1"), ("share_last", last, "1"))
    if trouble is Trouble.DARK_BAND:
        return BAND, (shutter, ("run_s", core.camera.electronic_s or core.camera.curtain_s, "s"))
    if trouble is Trouble.STAND_TOO_LOW and light.stand is not None:
        return LOW, (("height_m", light.height_m, "m"), ("highest_m", light.stand.max_height_m, "m"))
    if trouble is Trouble.BEYOND_BLUE:
        shift = sum(gel.shift_mired for gel in light.gels)
        return BLUE, (("lamp_k", light.lamp.colour_k, "K"), ("shift", shift, "mired"))
    if trouble is Trouble.SPILL_ON_BACKGROUND:
        own = background_exposure(core, light)
        # What lifts it out of darkness is all that there is.
        return SPILL, (("this_lx_s", own, "lx·s"), ("all_lx_s", own / (1.0 - 2.0**-amount), "lx·s"))
    return None
