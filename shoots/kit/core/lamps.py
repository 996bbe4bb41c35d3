"""What the bag holds, as the frozen shapes that the physics takes: lights and what goes on and under them.

Cameras, lenses and filters stand in `shoots.kit.core.cameras`. A number that a maker states or a meter
found is data of the studio; the starting values are common practice and carry their spread.

References
----------
ISO 1230:2007 (guide number) and ISO 2827:1988 (flash duration, recycling) for the quantities; gains and
losses of modifiers are common practice, no source (one trade text gives one to two stops for a diffuser).
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoots.values.units import OutOfRange, Range

ENERGY = Range(0.0, 1e5, "Ws", above=True)
GUIDE_NUMBER = Range(0.0, 1e4, "m", above=True)
ILLUMINANCE = Range(0.0, 1e8, "lx", above=True)
POWER = Range(0.0, 1.0, "1", above=True)
STEP = Range(0.0, 2.0, "stop", above=True)
DURATION = Range(0.0, 1.0, "s", above=True)
RECYCLE = Range(0.0, 600.0, "s")
KELVIN = Range(0.0, 1e6, "K", above=True)
SIZE = Range(0.0, 20.0, "m")
BEAM = Range(0.5, 179.0, "°")
MASS = Range(0.0, 1000.0, "kg")
STOPS = Range(-15.0, 15.0, "stop")
LOSS = Range(-15.0, 0.0, "stop")
SPREAD = Range(0.0, 10.0, "stop")
SHARE = Range(0.0, 1.0, "1", above=True)
MIRED_SHIFT = Range(-500.0, 500.0, "MK⁻¹")
LEGS = Range(3.0, 8.0, "1")
DRAG = Range(0.0, 3.0, "1", above=True)
HEIGHT = Range(0.0, 20.0, "m")
POPS = Range(0.0, 1e6, "1")
STANDBY = Range(0.0, 1e4, "W")
WIND_AREA = Range(0.0, 100.0, "m²")
FOOT = Range(0.0, 10.0, "m", above=True)
WIND = Range(0.0, 100.0, "m/s")
ENERGY_WH = Range(0.0, 1e5, "Wh", above=True)

HIGH_SPEED_SYNC_EXTRA_STOPS = -0.8
"""Middle between the ideal loss and the 1.6 stops more that two published manuals imply. [stop]"""
HIGH_SPEED_SYNC_SPREAD_STOPS = 0.8
"""Half of that distance: until a meter has refitted the light. [stop]"""


class LampKind(StrEnum):
    """How a light makes its light."""

    FLASH = "FLASH"
    CONTINUOUS = "CONTINUOUS"


class Circuit(StrEnum):
    """How a flash head makes less light."""

    VOLTAGE = "VOLTAGE"
    """Charges less: the flash lasts longer at less power."""
    CUT_OFF = "CUT_OFF"
    """Breaks the flash off: it lasts longest at full power."""


class Shape(StrEnum):
    """The outline of a lit front."""

    ROUND = "ROUND"
    """Disc, octagon, umbrella, reflector: the width is the diameter."""
    RECTANGLE = "RECTANGLE"


class LayerKind(StrEnum):
    """What can be taken out of a modifier."""

    INNER_DIFFUSER = "INNER_DIFFUSER"
    OUTER_DIFFUSER = "OUTER_DIFFUSER"
    GRID = "GRID"


@dataclass(frozen=True, slots=True)
class BatterySpec:
    """The battery of a light.

    Attributes
    ----------
    full_pops : float
        Pops at full power from one charge, at 20 °C. [1]
    energy_wh : float or None
        Energy, None when not known. [Wh]
    standby_w : float
        What the light draws between pops. [W]
    """

    full_pops: float
    energy_wh: float | None = None
    standby_w: float = 0.0

    def __post_init__(self) -> None:
        POPS.check("full_pops", self.full_pops)
        if self.energy_wh is not None:
            ENERGY_WH.check("energy_wh", self.energy_wh)
        STANDBY.check("standby_w", self.standby_w)


@dataclass(frozen=True, slots=True)
class LampSpec:
    """A light without anything on it but its standard reflector.

    Attributes
    ----------
    kind : LampKind
        Flash or continuous.
    guide_number_m : float or None
        Flash: at ISO 100, full power, in the standard reflector, on the axis. [m]
    illuminance_1m_lx : float or None
        Continuous: at 1 m, full power, in the standard reflector, on the axis. [lx]
    energy_ws : float or None
        Flash: stored energy. [Ws]
    least_power : float
        Smallest share of full power. [1]
    step_stops : float
        Its own steps of power. [stop]
    circuit : Circuit
        How it makes less light.
    t01_full_s : float
        Flash duration t0.1 at full power. [s]
    durations : tuple[tuple[float, float], ...]
        Power [1] and t0.1 [s] as its maker states them; they take the place of the circuit's rule.
    colour_k : float
        Colour temperature. [K]
    recycle_full_s, recycle_least_s : float
        Recycling after full power, and the least time between pops. [s]
    has_high_speed_sync : bool
        Whether it can burn while the curtains run.
    high_speed_sync_extra_stops : float
        Its loss in high-speed sync beyond the ideal one, at most 0. [stop]
    reflector_m : float
        Diameter of the standard reflector. [m]
    beam_deg : float
        Full angle to half intensity in the standard reflector. [°]
    mass_kg : float
        Mass of the head. [kg]
    spread_stops : float
        How far its output may lie from the stated one, to either side. [stop]
    battery : BatterySpec or None
        None when it runs on the mains.
    """

    kind: LampKind = LampKind.FLASH
    guide_number_m: float | None = None
    illuminance_1m_lx: float | None = None
    energy_ws: float | None = None
    least_power: float = 1.0 / 256.0
    step_stops: float = 1.0 / 3.0
    circuit: Circuit = Circuit.CUT_OFF
    t01_full_s: float = 1.0 / 250.0
    durations: tuple[tuple[float, float], ...] = ()
    colour_k: float = 5600.0
    recycle_full_s: float = 1.5
    recycle_least_s: float = 0.05
    has_high_speed_sync: bool = False
    high_speed_sync_extra_stops: float = HIGH_SPEED_SYNC_EXTRA_STOPS
    reflector_m: float = 0.18
    beam_deg: float = 65.0
    mass_kg: float = 2.5
    spread_stops: float = 0.3
    battery: BatterySpec | None = None

    def __post_init__(self) -> None:
        if self.kind is LampKind.FLASH:
            GUIDE_NUMBER.check("guide_number_m", _given(self.guide_number_m))
        else:
            ILLUMINANCE.check("illuminance_1m_lx", _given(self.illuminance_1m_lx))
        if self.energy_ws is not None:
            ENERGY.check("energy_ws", self.energy_ws)
        POWER.check("least_power", self.least_power)
        STEP.check("step_stops", self.step_stops)
        DURATION.check("t01_full_s", self.t01_full_s)
        for power, t01_s in self.durations:
            POWER.check("durations", power)
            DURATION.check("durations", t01_s)
        KELVIN.check("colour_k", self.colour_k)
        RECYCLE.check("recycle_full_s", self.recycle_full_s)
        RECYCLE.check("recycle_least_s", self.recycle_least_s)
        LOSS.check("high_speed_sync_extra_stops", self.high_speed_sync_extra_stops)
        SIZE.check("reflector_m", self.reflector_m)
        BEAM.check("beam_deg", self.beam_deg)
        MASS.check("mass_kg", self.mass_kg)
        SPREAD.check("spread_stops", self.spread_stops)


def _given(value: float | None) -> float:
    """Return a number that must be there, NaN when it is missing so that the range refuses it."""
    return math.nan if value is None else value


@dataclass(frozen=True, slots=True)
class LayerSpec:
    """Something that can be taken out of a modifier.

    Attributes
    ----------
    kind : LayerKind
        Diffuser or grid.
    stops : float
        What it costs on the axis, at most 0. [stop]
    beam_deg : float or None
        Full angle to half intensity while it is in; None leaves the beam as it is. [°]
    lit_share : float
        Share of the front's width that still shines when it is out: a box without its outer diffuser shows a
        smaller, brighter middle. [1]
    """

    kind: LayerKind
    stops: float
    beam_deg: float | None = None
    lit_share: float = 1.0

    def __post_init__(self) -> None:
        LOSS.check("stops", self.stops)
        if self.beam_deg is not None:
            BEAM.check("beam_deg", self.beam_deg)
        SHARE.check("lit_share", self.lit_share)


@dataclass(frozen=True, slots=True)
class ModifierSpec:
    """What goes on a light: reflector, box, umbrella, dish.

    Attributes
    ----------
    shape : Shape
        Outline of its front.
    width_m, height_m : float
        Size of the front; a round one has its diameter in both. [m]
    stops : float
        Gain or loss on the axis against the standard reflector, all layers out. [stop]
    beam_deg : float
        Full angle to half intensity, all layers out. [°]
    layers : tuple[LayerSpec, ...]
        What is in it.
    wind_area_m2 : float or None
        Area that the wind meets, None for the area of its front. [m²]
    drag : float
        Drag coefficient; 1.42 for a hollow bowl open to the wind, 1.17 for a flat plate. [1]
    mass_kg : float
        Its mass. [kg]
    spread_stops : float
        How far its factor may lie from the stated one, to either side. [stop]
    """

    shape: Shape
    width_m: float
    height_m: float
    stops: float = 0.0
    beam_deg: float = 120.0
    layers: tuple[LayerSpec, ...] = ()
    wind_area_m2: float | None = None
    drag: float = 1.42
    mass_kg: float = 1.0
    spread_stops: float = 0.5

    def __post_init__(self) -> None:
        SIZE.check("width_m", self.width_m)
        SIZE.check("height_m", self.height_m)
        STOPS.check("stops", self.stops)
        BEAM.check("beam_deg", self.beam_deg)
        if self.wind_area_m2 is not None:
            WIND_AREA.check("wind_area_m2", self.wind_area_m2)
        DRAG.check("drag", self.drag)
        MASS.check("mass_kg", self.mass_kg)
        SPREAD.check("spread_stops", self.spread_stops)
        if self.shape is Shape.ROUND and self.width_m != self.height_m:
            raise OutOfRange("height_m", self.height_m, self.width_m, self.width_m, "m")

    def without(self, kind: LayerKind) -> "ModifierSpec":
        """Return the modifier with one kind of layer taken out.

        Parameters
        ----------
        kind : LayerKind
            What to take out; nothing changes when it is not in.
        """
        out = [layer for layer in self.layers if layer.kind is kind]
        share = math.prod(layer.lit_share for layer in out)
        return ModifierSpec(
            shape=self.shape,
            width_m=self.width_m * share,
            height_m=self.height_m * share,
            stops=self.stops,
            beam_deg=self.beam_deg,
            layers=tuple(layer for layer in self.layers if layer.kind is not kind),
            wind_area_m2=self.wind_area_m2 if self.wind_area_m2 is not None else self.area_m2,
            drag=self.drag,
            mass_kg=self.mass_kg,
            spread_stops=self.spread_stops,
        )

    @property
    def area_m2(self) -> float:
        """Area of the front. [m²]"""
        area = self.width_m * self.height_m
        return area * math.pi / 4.0 if self.shape is Shape.ROUND else area

    @property
    def total_stops(self) -> float:
        """Gain or loss on the axis against the standard reflector, with what is in it. [stop]"""
        return self.stops + math.fsum(layer.stops for layer in self.layers)

    @property
    def total_beam_deg(self) -> float:
        """Full angle to half intensity with what is in it: the narrowest counts. [°]"""
        narrowed = [layer.beam_deg for layer in self.layers if layer.beam_deg is not None]
        return min([self.beam_deg, *narrowed])


@dataclass(frozen=True, slots=True)
class GelSpec:
    """A colour filter for a light; the shift counts, not the name ("half CTO" differs by 28 mired).

    Attributes
    ----------
    shift_mired : float
        Shift, positive for warmer. [MK⁻¹]
    transmission : float
        Share of the light that passes. [1]
    """

    shift_mired: float
    transmission: float = 1.0

    def __post_init__(self) -> None:
        MIRED_SHIFT.check("shift_mired", self.shift_mired)
        SHARE.check("transmission", self.transmission)

    @property
    def stops(self) -> float:
        """What it costs, at most 0. [stop]"""
        return math.log2(self.transmission)


@dataclass(frozen=True, slots=True)
class StandSpec:
    """What a light stands on.

    Attributes
    ----------
    foot_radius_m : float
        From the column to the end of a leg. [m]
    legs : int
        Number of legs, 3 to 8.
    mass_kg : float
        Its mass. [kg]
    max_height_m : float
        How high it goes. [m]
    takes_down_at_m_s : float or None
        The studio's own or the maker's limit; it never overrides a lower computed one. [m/s]
    """

    foot_radius_m: float
    legs: int = 3
    mass_kg: float = 3.0
    max_height_m: float = 2.8
    takes_down_at_m_s: float | None = None

    def __post_init__(self) -> None:
        FOOT.check("foot_radius_m", self.foot_radius_m)
        LEGS.check("legs", self.legs)
        MASS.check("mass_kg", self.mass_kg)
        HEIGHT.check("max_height_m", self.max_height_m)
        if self.takes_down_at_m_s is not None:
            WIND.check("takes_down_at_m_s", self.takes_down_at_m_s)


def power_steps(lamp: LampSpec) -> tuple[float, ...]:
    """Return the powers that a light can be set to, full first.

    Parameters
    ----------
    lamp : LampSpec
        The light.

    Returns
    -------
    tuple[float, ...]
        Shares of full power on the light's own steps, down to its least. [1]

    References
    ----------
    Definition: each step a fixed share of a stop.

    Examples
    --------
    >>> power_steps(LampSpec(guide_number_m=45.0, least_power=0.25, step_stops=1.0))
    (1.0, 0.5, 0.25)
    """
    # A least power of 1/256 at thirds must not be lost to the last bit of a rounded product.
    count = math.floor(-math.log2(lamp.least_power) / lamp.step_stops + 1e-9)
    return tuple(math.exp2(-index * lamp.step_stops) for index in range(count + 1))
