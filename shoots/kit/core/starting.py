"""Generic kinds of kit to begin with: each is copied into the studio's own bag and changed there.

References
----------
Common practice, no source: the numbers lie in the middle of what such things give, with a spread that
covers the rest. Gel shifts and transmissions are those of trade scale X (from memory); another scale calls
other shifts by the same names.
"""

from enum import StrEnum

from shoots.kit.core.cameras import CameraSpec, FilterSpec, LensSpec
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


class Lamp(StrEnum):
    """Kinds of lights."""

    BATTERY_300 = "BATTERY_300"
    BATTERY_600 = "BATTERY_600"
    MAINS_500 = "MAINS_500"
    CAMERA_FLASH = "CAMERA_FLASH"
    LED_200 = "LED_200"


class Modifier(StrEnum):
    """Kinds of modifiers."""

    STANDARD_REFLECTOR = "STANDARD_REFLECTOR"
    LONG_REFLECTOR = "LONG_REFLECTOR"
    OCTAGON_95 = "OCTAGON_95"
    OCTAGON_150 = "OCTAGON_150"
    BOX_60_90 = "BOX_60_90"
    STRIP_30_120 = "STRIP_30_120"
    BEAUTY_DISH = "BEAUTY_DISH"
    UMBRELLA_WHITE = "UMBRELLA_WHITE"
    UMBRELLA_SILVER = "UMBRELLA_SILVER"
    GRIDDED_REFLECTOR = "GRIDDED_REFLECTOR"


class Grid(StrEnum):
    """Kinds of grids that go before a reflector or a box."""

    REFLECTOR = "REFLECTOR"
    BOX = "BOX"


class Gel(StrEnum):
    """Kinds of colour filters, by their trade names; the mired count."""

    FULL_CTO = "FULL_CTO"
    HALF_CTO = "HALF_CTO"
    QUARTER_CTO = "QUARTER_CTO"
    EIGHTH_CTO = "EIGHTH_CTO"
    FULL_CTB = "FULL_CTB"
    HALF_CTB = "HALF_CTB"
    QUARTER_CTB = "QUARTER_CTB"
    EIGHTH_CTB = "EIGHTH_CTB"


class Stand(StrEnum):
    """Kinds of stands."""

    LIGHT = "LIGHT"
    HEAVY = "HEAVY"


class Camera(StrEnum):
    """Kinds of bodies."""

    FULL_FRAME = "FULL_FRAME"
    SMALL_SENSOR = "SMALL_SENSOR"
    MEDIUM_FORMAT = "MEDIUM_FORMAT"


class Lens(StrEnum):
    """Kinds of lenses."""

    WIDE_24 = "WIDE_24"
    NORMAL_50 = "NORMAL_50"
    PORTRAIT_85 = "PORTRAIT_85"
    LONG_200 = "LONG_200"


class Filter(StrEnum):
    """Kinds of neutral filters."""

    ND_3 = "ND_3"
    ND_6 = "ND_6"
    ND_10 = "ND_10"


LAMPS: dict[Lamp, LampSpec] = {
    Lamp.BATTERY_300: LampSpec(
        guide_number_m=45.0,
        energy_ws=300.0,
        least_power=1 / 256,
        step_stops=1 / 10,
        circuit=Circuit.CUT_OFF,
        t01_full_s=1 / 250,
        recycle_full_s=1.2,
        has_high_speed_sync=True,
        mass_kg=2.6,
        spread_stops=0.5,
        battery=BatterySpec(full_pops=400.0),
    ),
    Lamp.BATTERY_600: LampSpec(
        guide_number_m=64.0,
        energy_ws=600.0,
        least_power=1 / 256,
        step_stops=1 / 10,
        circuit=Circuit.CUT_OFF,
        t01_full_s=1 / 220,
        recycle_full_s=1.5,
        has_high_speed_sync=True,
        mass_kg=3.0,
        spread_stops=0.5,
        battery=BatterySpec(full_pops=360.0),
    ),
    Lamp.MAINS_500: LampSpec(
        guide_number_m=58.0,
        energy_ws=500.0,
        least_power=1 / 64,
        step_stops=1 / 10,
        circuit=Circuit.VOLTAGE,
        t01_full_s=1 / 500,
        recycle_full_s=1.0,
        recycle_least_s=0.3,
        mass_kg=2.8,
        spread_stops=0.5,
    ),
    Lamp.CAMERA_FLASH: LampSpec(
        guide_number_m=36.0,
        energy_ws=75.0,
        least_power=1 / 128,
        step_stops=1 / 3,
        circuit=Circuit.CUT_OFF,
        t01_full_s=1 / 300,
        recycle_full_s=2.5,
        recycle_least_s=0.1,
        has_high_speed_sync=True,
        reflector_m=0.06,
        beam_deg=60.0,
        mass_kg=0.5,
        spread_stops=0.5,
        battery=BatterySpec(full_pops=200.0),
    ),
    Lamp.LED_200: LampSpec(
        kind=LampKind.CONTINUOUS,
        illuminance_1m_lx=30000.0,
        least_power=1 / 64,
        step_stops=1 / 10,
        colour_k=5600.0,
        mass_kg=3.0,
        spread_stops=0.5,
    ),
}

_BOTH_DIFFUSERS = (
    LayerSpec(LayerKind.INNER_DIFFUSER, stops=-0.6, lit_share=0.9),
    LayerSpec(LayerKind.OUTER_DIFFUSER, stops=-0.9, lit_share=0.6),
)

MODIFIERS: dict[Modifier, ModifierSpec] = {
    Modifier.STANDARD_REFLECTOR: ModifierSpec(
        Shape.ROUND, 0.18, 0.18, stops=0.0, beam_deg=65.0, drag=1.17, mass_kg=0.4, spread_stops=0.2
    ),
    Modifier.LONG_REFLECTOR: ModifierSpec(
        Shape.ROUND, 0.26, 0.26, stops=0.9, beam_deg=40.0, drag=1.42, mass_kg=1.2, spread_stops=0.6
    ),
    Modifier.OCTAGON_95: ModifierSpec(
        Shape.ROUND, 0.95, 0.95, stops=-0.2, layers=_BOTH_DIFFUSERS, wind_area_m2=0.7477, mass_kg=1.4
    ),
    Modifier.OCTAGON_150: ModifierSpec(
        Shape.ROUND, 1.5, 1.5, stops=-0.5, layers=_BOTH_DIFFUSERS, wind_area_m2=1.864, mass_kg=2.2
    ),
    Modifier.BOX_60_90: ModifierSpec(Shape.RECTANGLE, 0.6, 0.9, stops=-0.1, layers=_BOTH_DIFFUSERS, mass_kg=1.1),
    Modifier.STRIP_30_120: ModifierSpec(Shape.RECTANGLE, 0.3, 1.2, stops=-0.3, layers=_BOTH_DIFFUSERS, mass_kg=1.1),
    Modifier.BEAUTY_DISH: ModifierSpec(
        Shape.ROUND, 0.55, 0.55, stops=-0.5, beam_deg=80.0, mass_kg=1.2, spread_stops=0.5
    ),
    Modifier.UMBRELLA_WHITE: ModifierSpec(
        Shape.ROUND, 1.05, 1.05, stops=-1.75, beam_deg=120.0, mass_kg=0.5, spread_stops=0.4
    ),
    Modifier.UMBRELLA_SILVER: ModifierSpec(
        Shape.ROUND, 1.05, 1.05, stops=-0.75, beam_deg=90.0, mass_kg=0.5, spread_stops=0.4
    ),
    Modifier.GRIDDED_REFLECTOR: ModifierSpec(
        Shape.ROUND,
        0.18,
        0.18,
        beam_deg=65.0,
        layers=(LayerSpec(LayerKind.GRID, stops=-0.7, beam_deg=25.0),),
        drag=1.17,
        mass_kg=0.5,
        spread_stops=0.4,
    ),
}

GRIDS: dict[Grid, LayerSpec] = {
    Grid.REFLECTOR: LayerSpec(LayerKind.GRID, stops=-0.9, beam_deg=20.0),
    Grid.BOX: LayerSpec(LayerKind.GRID, stops=-0.5, beam_deg=40.0),
}

GELS: dict[Gel, GelSpec] = {
    Gel.FULL_CTO: GelSpec(159.0, 0.55),
    Gel.HALF_CTO: GelSpec(109.0, 0.71),
    Gel.QUARTER_CTO: GelSpec(64.0, 0.79),
    Gel.EIGHTH_CTO: GelSpec(26.0, 0.85),
    Gel.FULL_CTB: GelSpec(-137.0, 0.34),
    Gel.HALF_CTB: GelSpec(-78.0, 0.55),
    Gel.QUARTER_CTB: GelSpec(-35.0, 0.69),
    Gel.EIGHTH_CTB: GelSpec(-18.0, 0.81),
}

STANDS: dict[Stand, StandSpec] = {
    Stand.LIGHT: StandSpec(foot_radius_m=0.5, mass_kg=2.5, max_height_m=2.6),
    Stand.HEAVY: StandSpec(foot_radius_m=0.65, mass_kg=6.0, max_height_m=3.8),
}

CAMERAS: dict[Camera, CameraSpec] = {
    Camera.FULL_FRAME: CameraSpec(),
    Camera.SMALL_SENSOR: CameraSpec(width_mm=23.5, height_mm=15.6, width_px=6240, height_px=4160),
    Camera.MEDIUM_FORMAT: CameraSpec(
        width_mm=43.8,
        height_mm=32.9,
        width_px=11648,
        height_px=8736,
        fastest_s=1 / 4000,
        sync_s=1 / 125,
        curtain_s=1 / 160,
    ),
}

LENSES: dict[Lens, LensSpec] = {
    Lens.WIDE_24: LensSpec(24.0, widest=2.8, narrowest=22.0, closest_m=0.28),
    Lens.NORMAL_50: LensSpec(50.0, widest=1.4, narrowest=16.0, closest_m=0.45),
    Lens.PORTRAIT_85: LensSpec(85.0, widest=1.8, narrowest=16.0, closest_m=0.8),
    Lens.LONG_200: LensSpec(200.0, widest=2.8, narrowest=32.0, closest_m=1.4),
}

FILTERS: dict[Filter, FilterSpec] = {
    Filter.ND_3: FilterSpec(3.0),
    Filter.ND_6: FilterSpec(6.0),
    Filter.ND_10: FilterSpec(10.0),
}
