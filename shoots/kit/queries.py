"""What the page of the bag shows, and the generic kinds that a bag can begin with."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Prefetch
from django.utils.translation import gettext_lazy as _

from shoots.kit.core import starting
from shoots.kit.core.cameras import CameraSpec, FilterSpec, LensSpec
from shoots.kit.core.lamps import (
    Circuit,
    GelSpec,
    LampSpec,
    LayerKind,
    LayerSpec,
    ModifierSpec,
    Shape,
    StandSpec,
)
from shoots.kit.core.panels import PANELS, PanelSpec
from shoots.kit.models import (
    SECTIONS,
    TITLES,
    Battery,
    Camera,
    Filter,
    FilterKind,
    Kit,
    Lamp,
    LampKind,
    Lens,
    Modifier,
    ModifierKind,
    Panel,
    PanelKind,
    Stand,
)
from shoots.members.models import Studio

RELATED: dict[str, tuple[str, ...]] = {"lights": ("battery",)}
"""What a section's numbers are told with; None for nothing, which an empty tuple would not mean."""
SIDE = 56.0
"""Side of the square that each thing is drawn in. [px]"""


Box = tuple[str, str, str, str]
"""x, y, width and height, written for the drawing."""


@dataclass(frozen=True)
class Glyph:
    """A small drawing in a square of 56 by 56: boxes, one shape of points, or a patch of colour.

    A thing is drawn to the scale of its section, so that a strip box looks narrow beside an octagon.
    """

    boxes: tuple[Box, ...] = ()
    corner: str = "1.5"
    points: str = ""
    inner_points: str = ""
    fill: str = ""


@dataclass(frozen=True)
class KitCard:
    """One kind of thing in the bag."""

    item: Kit
    glyph: Glyph


@dataclass(frozen=True)
class Starter:
    """A generic kind that can be put into the bag with one click; its numbers are common practice."""

    key: str
    name: str
    fields: Mapping[str, Any]


@dataclass(frozen=True)
class Section:
    """One section of the bag. `partial` names the template fragment that lists the numbers of its things."""

    slug: str
    title: str
    cards: tuple[KitCard, ...]
    starters: tuple[Starter, ...]

    @property
    def partial(self) -> str:
        return f"kit/kit_list.html#{self.slug}"


@dataclass(frozen=True)
class Bag:
    """Everything that the studio owns or usually hires."""

    sections: tuple[Section, ...]
    put_away: int

    @property
    def is_empty(self) -> bool:
        return not any(section.cards for section in self.sections)


def bag(studio: Studio, *, away: bool = False) -> Bag:
    """Return the bag, or what was put away. One query a section, and one for the lights that batteries are for."""
    sections, put_away = [], 0
    for slug, model in SECTIONS.items():
        known = model.objects.of_studio(studio).select_related(*RELATED.get(slug, (None,))).order_by("name", "pk")
        if model is Battery:
            # Which lights take it is said with the lights, and shown with both.
            known = known.prefetch_related(Prefetch("lamps", Lamp.objects.filter(put_away_at=None)))
        things = list(known)
        shown = [thing for thing in things if (thing.put_away_at is not None) == away]
        put_away += sum(thing.put_away_at is not None for thing in things)
        names = {thing.name for thing in shown}
        sections.append(
            Section(
                slug=slug,
                title=str(TITLES[slug]),
                cards=tuple(KitCard(thing, GLYPHS[slug](thing)) for thing in shown),
                starters=tuple(one for one in starters(slug) if one.name not in names),
            )
        )
    return Bag(tuple(sections), put_away)


# --- drawings -----------------------------------------------------------------------------------------------------


def _camera_glyph(camera: Camera) -> Glyph:
    return Glyph(boxes=(_centred(camera.sensor_width_mm, camera.sensor_height_mm, per_px=1.0),))


def _lens_glyph(lens: Lens) -> Glyph:
    return Glyph(points=_wedge(lens.shortest_mm), inner_points=_wedge(lens.longest_mm))


def _wedge(focal_mm: float) -> str:
    """Return the corners of the angle of view along the long side of a 36 mm frame, seen from above."""
    half = math.atan(18.0 / focal_mm)
    across, deep = 48.0 * math.sin(half), 48.0 * math.cos(half)
    return f"28,54 {28 - across:.1f},{54 - deep:.1f} {28 + across:.1f},{54 - deep:.1f}"


def _lamp_glyph(lamp: Lamp) -> Glyph:
    """Draw the power range: one bar a stop, from full power down."""
    count = max(1, round(-math.log2(lamp.least_power)) + 1)
    step = SIDE / count
    heights = [max(3.0, 50.0 * 0.72**index) for index in range(count)]
    return Glyph(
        boxes=tuple(
            _box(index * step + 0.5, 53.0 - height, step - 1.5, height) for index, height in enumerate(heights)
        ),
        corner="1",
    )


def _modifier_glyph(modifier: Modifier) -> Glyph:
    box = _centred(modifier.width_m, modifier.height_m, per_px=1.6 / SIDE)
    return Glyph(boxes=(box,), corner="28" if modifier.is_round else "1.5")


def _filter_glyph(sheet: Filter) -> Glyph:
    if sheet.kind == FilterKind.ND:
        grey = round(max(0.16, 0.86 - sheet.loss_stops / 14.0) * 255)
        return Glyph(boxes=(_box(6.0, 6.0, 44.0, 44.0),), corner="22", fill=f"#{grey:02x}{grey:02x}{grey:02x}")
    full, strength = ((232, 128, 38), 170.0) if sheet.shift_mired >= 0 else ((62, 112, 205), 140.0)
    share = min(1.0, abs(sheet.shift_mired) / strength)
    red, green, blue = (round(250 - (250 - part) * share) for part in full)
    return Glyph(boxes=(_box(6.0, 6.0, 44.0, 44.0),), fill=f"#{red:02x}{green:02x}{blue:02x}")


def _stand_glyph(stand: Stand) -> Glyph:
    height = min(52.0, stand.highest_m / 4.5 * 52.0)
    foot = min(26.0, stand.foot_radius_m / 4.5 * 52.0 * 1.5)
    top, knee = 54.0 - height, 54.0 - foot
    return Glyph(
        boxes=(_box(27.0, top, 2.0, height - 6.0),),
        points=(
            f"28,{knee:.1f} {28 - foot:.1f},54 {26 - foot:.1f},54 28,{knee - 3:.1f} "
            f"{30 + foot:.1f},54 {28 + foot:.1f},54"
        ),
        corner="0.5",
    )


def _centred(width: float, height: float, *, per_px: float) -> Box:
    across, tall = (min(SIDE, max(3.0, side / per_px)) for side in (width, height))
    return _box((SIDE - across) / 2, (SIDE - tall) / 2, across, tall)


def _box(x: float, y: float, width: float, height: float) -> Box:
    return (f"{x:.1f}", f"{y:.1f}", f"{width:.1f}", f"{height:.1f}")


def _panel_glyph(panel: Panel) -> Glyph:
    box = _centred(panel.width_m, panel.height_m, per_px=2.6 / SIDE)
    fills = {PanelKind.REFLECTOR: "#e9e6dd", PanelKind.BLACK: "#26241f", PanelKind.FLAG: "#26241f"}
    fill = fills.get(PanelKind(panel.kind), "#cfcabd")
    return Glyph(boxes=(box,), corner="28" if panel.is_round else "1.5", fill=fill)


def _battery_glyph(battery: Battery) -> Glyph:
    """Draw how many there are: a bar for each, up to eight."""
    bars = min(8, battery.quantity)
    return Glyph(boxes=tuple(_box(14.0, 48.0 - 5.5 * index, 28.0, 4.0) for index in range(bars)), corner="1")


GLYPHS: dict[str, Callable[[Any], Glyph]] = {
    "cameras": _camera_glyph,
    "lenses": _lens_glyph,
    "lights": _lamp_glyph,
    "modifiers": _modifier_glyph,
    "filters": _filter_glyph,
    "stands": _stand_glyph,
    "panels": _panel_glyph,
    "batteries": _battery_glyph,
}

# --- generic kinds to begin with ------------------------------------------------------------------------------------

NAMES: dict[str, dict[str, Any]] = {
    "cameras": {
        "FULL_FRAME": _("Full-frame body"),
        "SMALL_SENSOR": _("Body with a small sensor"),
        "MEDIUM_FORMAT": _("Medium-format body"),
    },
    "lenses": {
        "WIDE_24": _("24 mm wide"),
        "NORMAL_50": _("50 mm normal"),
        "PORTRAIT_85": _("85 mm portrait"),
        "LONG_200": _("200 mm long"),
    },
    "lights": {
        "BATTERY_300": _("300 Ws battery head"),
        "BATTERY_600": _("600 Ws battery head"),
        "MAINS_500": _("500 Ws mains head"),
        "CAMERA_FLASH": _("Small flash"),
        "LED_200": _("200 W continuous light"),
    },
    "modifiers": {
        "STANDARD_REFLECTOR": _("Standard reflector"),
        "LONG_REFLECTOR": _("Long reflector"),
        "OCTAGON_95": _("95 cm octagonal box, both diffusers"),
        "OCTAGON_150": _("150 cm octagonal box, both diffusers"),
        "BOX_60_90": _("60 × 90 cm box, both diffusers"),
        "STRIP_30_120": _("30 × 120 cm strip box, both diffusers"),
        "BEAUTY_DISH": _("55 cm dish"),
        "UMBRELLA_WHITE": _("105 cm white umbrella, shot through"),
        "UMBRELLA_SILVER": _("105 cm silver umbrella"),
        "GRIDDED_REFLECTOR": _("Standard reflector with a grid"),
        "GRID_REFLECTOR": _("Grid for a reflector, 20°"),
        "GRID_BOX": _("Fabric grid for a box, 40°"),
    },
    "filters": {
        "FULL_CTO": _("Full CTO"),
        "HALF_CTO": _("Half CTO"),
        "QUARTER_CTO": _("Quarter CTO"),
        "EIGHTH_CTO": _("Eighth CTO"),
        "FULL_CTB": _("Full CTB"),
        "HALF_CTB": _("Half CTB"),
        "QUARTER_CTB": _("Quarter CTB"),
        "EIGHTH_CTB": _("Eighth CTB"),
        "ND_3": _("ND, 3 stops"),
        "ND_6": _("ND, 6 stops"),
        "ND_10": _("ND, 10 stops"),
    },
    "stands": {"LIGHT": _("Light stand"), "HEAVY": _("Heavy stand")},
    "panels": {
        "POLYBOARD_WHITE": _("Polyboard, white side"),
        "POLYBOARD_BLACK": _("Polyboard, black side"),
        "REFLECTOR_WHITE": _("110 cm reflector, white"),
        "REFLECTOR_SILVER": _("110 cm reflector, silver"),
        "FLAG": _("60 × 90 cm flag"),
        "SCRIM_SILK": _("2 × 2 m scrim, silk"),
        "SCRIM_NET": _("2 × 2 m scrim, net"),
    },
    "batteries": {"BATTERY_300": _("Battery of a 300 Ws head"), "BATTERY_600": _("Battery of a 600 Ws head")},
}
MODIFIER_KINDS = {
    starting.Modifier.STANDARD_REFLECTOR: ModifierKind.REFLECTOR,
    starting.Modifier.LONG_REFLECTOR: ModifierKind.LONG_REFLECTOR,
    starting.Modifier.BEAUTY_DISH: ModifierKind.BEAUTY_DISH,
    starting.Modifier.UMBRELLA_WHITE: ModifierKind.UMBRELLA,
    starting.Modifier.UMBRELLA_SILVER: ModifierKind.UMBRELLA,
    starting.Modifier.GRIDDED_REFLECTOR: ModifierKind.REFLECTOR,
}


def starters(slug: str) -> tuple[Starter, ...]:
    """Return the generic kinds of a section, as the fields that a row of the bag takes. No query."""
    return tuple(
        Starter(key=str(key), name=str(NAMES[slug][key]), fields=fields) for key, fields in STARTERS[slug]().items()
    )


def starter(slug: str, key: str) -> Starter | None:
    """Return one generic kind, or None where there is none of that name."""
    return next((one for one in starters(slug) if one.key == key), None)


def _camera_fields(spec: CameraSpec) -> dict[str, Any]:
    return {
        "sensor_width_mm": spec.width_mm,
        "sensor_height_mm": spec.height_mm,
        "width_px": spec.width_px,
        "sync_s": spec.sync_s,
        "curtain_s": spec.curtain_s,
        "fastest_s": spec.fastest_s,
        "base_iso": round(spec.base_iso),
        "top_iso": round(spec.top_iso),
    }


def _lens_fields(spec: LensSpec) -> dict[str, Any]:
    return {
        "shortest_mm": spec.focal_mm,
        "longest_mm": spec.focal_mm,
        "widest_f": spec.widest,
        "smallest_f": spec.narrowest,
    }


def _lamp_fields(spec: LampSpec) -> dict[str, Any]:
    return {
        "kind": LampKind(spec.kind.value),
        "energy_ws": spec.energy_ws,
        "guide_number_m": spec.guide_number_m,
        "lux_at_1m": spec.illuminance_1m_lx,
        "least_power": spec.least_power,
        "power_step_stops": spec.step_stops,
        "cuts_off": spec.circuit is Circuit.CUT_OFF,
        "t01_full_s": spec.t01_full_s,
        "colour_k": round(spec.colour_k),
        "recycle_full_s": spec.recycle_full_s,
        "has_high_speed_sync": spec.has_high_speed_sync,
        "full_pops": round(spec.battery.full_pops) if spec.battery else None,
        "weight_kg": spec.mass_kg,
        "needs_mains": spec.battery is None,
    }


def _modifier_fields(key: starting.Modifier, spec: ModifierSpec) -> dict[str, Any]:
    return {
        "kind": MODIFIER_KINDS.get(key, ModifierKind.SOFTBOX),
        "width_m": spec.width_m,
        "height_m": spec.height_m,
        "is_round": spec.shape is Shape.ROUND,
        "factor_stops": round(spec.total_stops, 2),
        "outer_diffuser_stops": next(
            (-layer.stops for layer in spec.layers if layer.kind is LayerKind.OUTER_DIFFUSER), None
        ),
        "beam_deg": spec.total_beam_deg,
        "weight_kg": spec.mass_kg,
    }


def _gel_fields(spec: GelSpec) -> dict[str, Any]:
    return {"kind": FilterKind.GEL, "shift_mired": spec.shift_mired, "loss_stops": round(-spec.stops, 2)}


def _nd_fields(spec: FilterSpec) -> dict[str, Any]:
    return {"kind": FilterKind.ND, "shift_mired": 0.0, "loss_stops": spec.stops}


def _stand_fields(spec: StandSpec) -> dict[str, Any]:
    return {
        "foot_radius_m": spec.foot_radius_m,
        "legs": spec.legs,
        "weight_kg": spec.mass_kg,
        "highest_m": spec.max_height_m,
    }


def _grid_fields(spec: LayerSpec, across_m: float) -> dict[str, Any]:
    return {
        "kind": ModifierKind.GRID,
        "width_m": across_m,
        "height_m": across_m,
        "is_round": True,
        "factor_stops": spec.stops,
        "beam_deg": spec.beam_deg,
        "weight_kg": 0.2,
    }


def _panel_fields(spec: PanelSpec) -> dict[str, Any]:
    return {
        "kind": PanelKind(spec.kind.value),
        "width_m": spec.width_m,
        "height_m": spec.height_m,
        "is_round": spec.shape is Shape.ROUND,
        "reflectance": spec.reflectance,
        "gain": spec.gain,
        "takes_stops": spec.takes_stops if spec.kind.value == PanelKind.SCRIM else 0.0,
        "scatter": spec.scatter,
        "weight_kg": spec.mass_kg,
    }


STARTERS: dict[str, Callable[[], dict[Any, dict[str, Any]]]] = {
    "cameras": lambda: {key: _camera_fields(spec) for key, spec in starting.CAMERAS.items()},
    "lenses": lambda: {key: _lens_fields(spec) for key, spec in starting.LENSES.items()},
    "lights": lambda: {key: _lamp_fields(spec) for key, spec in starting.LAMPS.items()},
    "modifiers": lambda: {
        **{key: _modifier_fields(key, spec) for key, spec in starting.MODIFIERS.items()},
        "GRID_REFLECTOR": _grid_fields(starting.GRIDS[starting.Grid.REFLECTOR], 0.18),
        "GRID_BOX": _grid_fields(starting.GRIDS[starting.Grid.BOX], 0.95),
    },
    "filters": lambda: {
        **{key: _gel_fields(spec) for key, spec in starting.GELS.items()},
        **{key: _nd_fields(spec) for key, spec in starting.FILTERS.items()},
    },
    "stands": lambda: {key: _stand_fields(spec) for key, spec in starting.STANDS.items()},
    "panels": lambda: {key: _panel_fields(spec) for key, spec in PANELS.items()},
    "batteries": lambda: {key: {} for key in (starting.Lamp.BATTERY_300, starting.Lamp.BATTERY_600)},
}
