"""Rows as the frozen shapes that the physics takes. This is the one place where the two meet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from shoots.kit.core.cameras import CameraSpec, LensSpec
from shoots.kit.core.lamps import (
    BatterySpec,
    Circuit,
    GelSpec,
    LampKind,
    LampSpec,
    LayerKind,
    LayerSpec,
    ModifierSpec,
    Shape,
    StandSpec,
)
from shoots.kit.core.panels import PanelKind, PanelSpec
from shoots.kit.core.starting import MODIFIERS
from shoots.kit.core.starting import Modifier as StartingModifier
from shoots.kit.models import Lamp, Modifier, ModifierKind, Panel, Stand
from shoots.lighting import models
from shoots.lighting.core.ambient import DARK, Ambient, ambient_from_sky, metered_ambient, overcast_background
from shoots.lighting.core.conventions import Conventions, Series
from shoots.lighting.core.panels import PlacedPanel, Shields
from shoots.lighting.core.scales import Mark, aperture_scale, iso_scale, nearest_mark, shutter_scale
from shoots.lighting.core.setup import (
    Background,
    CameraPlace,
    Exposure,
    MeterFactor,
    Part,
    PlacedLight,
    Setup,
    Subject,
)
from shoots.lighting.core.stands import HOLLOW_OPEN, SQUARE_PLATE
from shoots.lighting.queries.conventions import conventions_of_studio
from shoots.places.core.sun import SunPosition, sun_position
from shoots.places.models import Place

FACE_SHARE = 0.91
"""Height of a face against that of the crown: 1.60 m of 1.75 m. [1]"""
AIM_SHARE = 0.63
"""Where a standing subject is looked at, against its height: 1.10 m of 1.75 m. [1]"""
SIDEWAYS_SPREAD_STOPS = 0.5
"""Added where it is not known which way the camera looks; own estimate. [stop]"""
SPREAD_MODIFIER_STOPS = 0.5
BARE_SHARE = 0.6
"""Lit part of a box's front without its outer diffuser, each way; common practice, no source. [1]"""
NAMED_STOPS = 0.03
"""A number this near to a mark of the third-stop scale is that mark. [stop]"""
FARTHEST_BACKGROUND_M = 30.0
"""Beyond this no light of the bag reaches the background. [m]"""


class AmbientSource(StrEnum):
    """Where the ambient light of a page comes from, or why there is none."""

    METERED = "METERED"
    COMPUTED = "COMPUTED"
    INDOORS = "INDOORS"
    """Not read yet; indoors nothing can be computed."""
    NO_PLACE = "NO_PLACE"
    NO_MOMENT = "NO_MOMENT"


@dataclass(frozen=True)
class Sky:
    """The ambient light of a setup with the sun that it was computed from."""

    ambient: Ambient
    source: AmbientSource
    sun: SunPosition | None


def letter(index: int) -> str:
    """A, B, … Z, AA: the letter of the light at a place in the setup."""
    return letter(index // 26 - 1) + chr(65 + index % 26) if index >= 26 else chr(65 + index)


def lettered(lamps: Sequence[models.PlacedLamp]) -> list[tuple[str, models.PlacedLamp]]:
    """Return the lights of a setup with their letters; no query."""
    return [(letter(index), lamp) for index, lamp in enumerate(lamps)]


def is_known(lamp: Lamp) -> bool:
    """Whether the bag knows how much light a lamp gives."""
    return bool(lamp.lux_at_1m if lamp.kind == LampKind.CONTINUOUS else lamp.guide_number_m)


def lamp_spec(lamp: Lamp) -> LampSpec:
    """Return a lamp as the physics takes it; one whose output is not known gets a token one, see `is_known`."""
    continuous = lamp.kind == LampKind.CONTINUOUS
    return LampSpec(
        kind=LampKind(lamp.kind),
        guide_number_m=None if continuous else lamp.guide_number_m or 1.0,
        illuminance_1m_lx=lamp.lux_at_1m or 1.0 if continuous else None,
        energy_ws=lamp.energy_ws,
        least_power=lamp.least_power,
        step_stops=lamp.power_step_stops,
        circuit=Circuit.CUT_OFF if lamp.cuts_off else Circuit.VOLTAGE,
        t01_full_s=lamp.t01_full_s,
        colour_k=float(lamp.colour_k),
        recycle_full_s=lamp.recycle_full_s,
        has_high_speed_sync=not continuous and lamp.has_high_speed_sync,
        mass_kg=lamp.weight_kg,
        spread_stops=0.5,
        battery=BatterySpec(float(lamp.full_pops)) if lamp.full_pops else None,
    )


def modifier_spec(modifier: Modifier, *, outer_diffuser_off: bool = False) -> ModifierSpec:
    """Return a modifier as the physics takes it: its factor is that of everything in it."""
    round_front = modifier.is_round
    across = math.sqrt(modifier.width_m * modifier.height_m)
    outer = modifier.outer_diffuser_stops or 0.0
    spec = ModifierSpec(
        shape=Shape.ROUND if round_front else Shape.RECTANGLE,
        width_m=across if round_front else modifier.width_m,
        height_m=across if round_front else modifier.height_m,
        stops=modifier.factor_stops + outer,
        layers=(LayerSpec(LayerKind.OUTER_DIFFUSER, stops=-outer, lit_share=BARE_SHARE),) if outer else (),
        beam_deg=min(modifier.beam_deg, 179.0),
        drag=SQUARE_PLATE if modifier.kind in (ModifierKind.BOARD, ModifierKind.GRID) else HOLLOW_OPEN,
        mass_kg=modifier.weight_kg,
        spread_stops=SPREAD_MODIFIER_STOPS,
    )
    return spec.without(LayerKind.OUTER_DIFFUSER) if outer_diffuser_off else spec


def stand_spec(stand: Stand) -> StandSpec:
    """Return a stand as the physics takes it, without its bags."""
    return StandSpec(
        foot_radius_m=stand.foot_radius_m,
        legs=stand.legs,
        mass_kg=stand.weight_kg,
        max_height_m=stand.highest_m,
        takes_down_at_m_s=stand.takes_down_at_m_s,
    )


def panel_spec(panel: Panel) -> PanelSpec:
    """Return a reflector, board, flag or scrim as the physics takes it."""
    across = math.sqrt(panel.width_m * panel.height_m)
    return PanelSpec(
        kind=PanelKind(panel.kind),
        shape=Shape.ROUND if panel.is_round else Shape.RECTANGLE,
        width_m=across if panel.is_round else panel.width_m,
        height_m=across if panel.is_round else panel.height_m,
        reflectance=panel.reflectance,
        gain=panel.gain,
        takes_stops=panel.takes_stops,
        scatter=panel.scatter,
        mass_kg=panel.weight_kg,
    )


def numbered(panels: Sequence[models.PlacedPanel]) -> list[tuple[str, models.PlacedPanel]]:
    """Return the panels of a setup with their numbers; lights have letters. No query."""
    return [(str(index + 1), panel) for index, panel in enumerate(panels)]


def placed_panels(
    panels: Sequence[models.PlacedPanel], lamps: Sequence[tuple[str, models.PlacedLamp]]
) -> tuple[PlacedPanel, ...]:
    """Return placed panels as the physics takes them; one for a light that is not counted is left out."""
    letters = {placed.pk: name for name, placed in lamps}
    return tuple(
        placed_panel(number, one, letters.get(one.for_lamp_id, "") if one.for_lamp_id else "")
        for number, one in numbered(panels)
        if one.for_lamp_id is None or one.for_lamp_id in letters
    )


def placed_panel(number: str, one: models.PlacedPanel, for_letter: str = "") -> PlacedPanel:
    """Return a placed panel as the physics takes it; its panel and stand must be selected with it."""
    return PlacedPanel(
        letter=number,
        panel=panel_spec(one.panel),
        bearing_deg=one.bearing_deg,
        floor_m=one.distance_m,
        height_m=one.height_m,
        for_letter=for_letter,
        covers=one.covers,
        shields=Shields(one.shields),
        turn_deg=one.turn_deg,
        tilt_deg=one.tilt_deg,
        stand=stand_spec(one.stand) if one.stand else None,
        extra_mass_kg=one.stand.sandbag_kg if one.stand else 0.0,
    )


def factor_of(placed: models.PlacedLamp) -> MeterFactor | None:
    """Return what the studio's meter says of a lamp and modifier; it comes with `models.PlacedLamp.with_factors`."""
    stops = getattr(placed, "factor_stops", None)
    return None if stops is None else MeterFactor(stops, placed.factor_spread_stops)  # type: ignore[attr-defined]


def placed_light(name: str, placed: models.PlacedLamp) -> PlacedLight:
    """Return a placed lamp as the physics takes it; its lamp, modifier, gel and stand must be selected with it."""
    gel = placed.gel
    return PlacedLight(
        letter=name,
        part=Part(placed.role),
        lamp=lamp_spec(placed.lamp),
        modifier=_shaped(placed),
        gels=(GelSpec(gel.shift_mired, 2.0**-gel.loss_stops),) if gel else (),
        bearing_deg=placed.bearing_deg,
        floor_m=placed.distance_m,
        height_m=placed.height_m,
        power=2.0**-placed.power_down_stops,
        high_speed_sync=placed.high_speed_sync and placed.lamp.has_high_speed_sync,
        stand=stand_spec(placed.stand) if placed.stand else None,
        extra_mass_kg=placed.stand.sandbag_kg if placed.stand else 0.0,
        group=placed.radio_group,
        heads=placed.heads,
        pops=placed.pops,
        factor=factor_of(placed),
    )


def _shaped(placed: models.PlacedLamp) -> ModifierSpec | None:
    """Return what is on a lamp, a grid included; a grid alone is on the standard reflector."""
    spec = None
    if placed.modifier:
        spec = modifier_spec(placed.modifier, outer_diffuser_off=placed.outer_diffuser_off)
    if placed.grid is None:
        return spec
    if spec is None:
        spec = MODIFIERS[StartingModifier.STANDARD_REFLECTOR]
    loss = min(0.0, placed.grid.factor_stops)
    grid = LayerSpec(LayerKind.GRID, stops=loss, beam_deg=min(placed.grid.beam_deg, 179.0))
    return replace(spec, layers=(*spec.layers, grid))


def exposure_of(setup: models.Setup) -> Exposure:
    """Return the settings with marks read as the studio reads them: exact, or as printed."""
    if Series(setup.studio.series) is Series.MARKED:
        f_number, shutter_s, iso = setup.aperture, setup.shutter_s, float(setup.iso)
    else:
        f_number = _exact(setup.aperture, aperture_scale())
        shutter_s = _exact(setup.shutter_s, shutter_scale())
        iso = _exact(float(setup.iso), iso_scale())
    return Exposure(
        f_number=f_number,
        shutter_s=shutter_s,
        iso=iso,
        nd_stops=setup.nd_stops,
    )


def shutter_of(setup: models.Setup, shutter_s: float) -> float:
    """Return a shutter time that was typed as the studio reads its marks."""
    return shutter_s if Series(setup.studio.series) is Series.MARKED else _exact(shutter_s, shutter_scale())


def core_setup(setup: models.Setup, lamps: Sequence[tuple[str, models.PlacedLamp]], ambient: Ambient) -> Setup:
    """Return a whole setup as the physics takes it."""
    camera, lens = setup.camera, setup.lens
    body = CameraSpec()
    if camera:
        body = CameraSpec(
            width_mm=camera.sensor_width_mm,
            height_mm=camera.sensor_height_mm,
            width_px=camera.width_px,
            height_px=max(1, round(camera.width_px * camera.sensor_height_mm / camera.sensor_width_mm)),
            base_iso=float(camera.base_iso),
            top_iso=float(max(camera.top_iso, camera.base_iso)),
            fastest_s=camera.fastest_s,
            slowest_s=60.0,
            sync_s=camera.sync_s,
            curtain_s=min(camera.curtain_s, camera.sync_s),
        )
    glass = LensSpec(setup.focal_mm)
    if lens:
        glass = LensSpec(setup.focal_mm, lens.widest_f, max(lens.smallest_f, lens.widest_f))
    height = setup.subject_height_m
    behind = setup.background_distance_m
    # Outdoors the sky is the background; its tone comes with the ambient light.
    reaches = (setup.place is None or setup.place.indoors) and 0.0 < behind <= FARTHEST_BACKGROUND_M
    return Setup(
        exposure=exposure_of(setup),
        lights=tuple(placed_light(name, placed) for name, placed in lamps),
        ambient=ambient,
        camera=body,
        lens=glass,
        place=CameraPlace(
            distance_m=setup.camera_distance_m,
            height_m=setup.camera_height_m,
            aim_m=height * AIM_SHARE,
            view_bearing_deg=setup.spot.bearing_deg if setup.spot else None,
        ),
        subject=Subject(height_m=height, point_m=height * FACE_SHARE, speed_m_s=setup.subject_speed_m_s),
        background=Background(behind) if reaches else None,
        white_balance_k=float(setup.white_balance_k),
        conventions=conventions_of(setup),
        panels=placed_panels(list(setup.panels.all()), lamps),
    )


def conventions_of(setup: models.Setup) -> Conventions:
    """Return what the studio means by its numbers."""
    return conventions_of_studio(setup.studio)


def sun_at(place: Place | None, at: datetime | None) -> SunPosition | None:
    """Return where the sun stands at a place and moment; None indoors, without a position or without a moment."""
    if place is None or place.indoors or at is None or place.latitude is None or place.longitude is None:
        return None
    return sun_position(at, place.latitude, place.longitude, place.elevation_m)


def sky_of(setup: models.Setup, at: datetime | None) -> Sky:
    """Return the ambient light: a reading if there is one, else what sun and cloud give at that moment."""
    place, conventions = setup.place, conventions_of(setup)
    sun = sun_at(place, at)
    outdoors = place is not None and not place.indoors
    if setup.ambient_ev100 is not None:
        # A closed sky reads the same all round; of a broken one a reading on the subject says nothing.
        closed = outdoors and setup.cloud_oktas == 8
        behind = overcast_background(setup.ambient_ev100, conventions=conventions) if closed else None
        # Which way the sun comes from is known only where it is known which way the camera looks.
        known = sun is not None and (closed or (setup.spot is not None and setup.spot.bearing_deg is not None))
        ambient = metered_ambient(
            setup.ambient_ev100,
            behind,
            estimate=_computed(setup, sun, conventions) if sun is not None and known else None,
            under_panels=bool(setup.ambient_under),
        )
        return Sky(ambient, AmbientSource.METERED, sun)
    if place is None:
        return Sky(DARK, AmbientSource.NO_PLACE, None)
    if place.indoors:
        return Sky(DARK, AmbientSource.INDOORS, None)
    if sun is None:
        return Sky(DARK, AmbientSource.NO_MOMENT if place.has_position else AmbientSource.NO_PLACE, None)
    return Sky(_computed(setup, sun, conventions), AmbientSource.COMPUTED, sun)


def _computed(setup: models.Setup, sun: SunPosition, conventions: Conventions) -> Ambient:
    """Return what sun and sky give on the subject."""
    view = setup.spot.bearing_deg if setup.spot else None
    ambient = ambient_from_sky(
        sun,
        float(setup.cloud_oktas),
        view if view is not None else (sun.azimuth_deg + 90.0) % 360.0,
        point_height_m=setup.subject_height_m * FACE_SHARE,
        conventions=conventions,
    )
    if view is None:
        # Which patch of sky is behind the subject is then not known, and the sun is taken from the side.
        ambient = replace(ambient, background_ev100=None, spread_stops=ambient.spread_stops + SIDEWAYS_SPREAD_STOPS)
    return ambient


def _exact(value: float, scale: tuple[Mark, ...]) -> float:
    """Return the exact number behind a mark; a number that is no mark stays itself."""
    mark = nearest_mark(value, scale)
    return mark.exact if abs(math.log2(value / mark.marked)) <= NAMED_STOPS else value
