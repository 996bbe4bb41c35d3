"""Every quantity of the light in one list: its inputs with units, its own unit, its source, and the function.

What a quantity needs and gives is read from its function's signature and docstring, so that the list cannot
say something else than the function does.

References
----------
The sources stand in the functions; numpydoc's sections for the form of their docstrings.
"""

import inspect
import re
import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from shoots.lighting.core import (
    ambient,
    battery,
    burst,
    colour,
    exposure,
    filters,
    flash,
    lens,
    metering,
    mixing,
    motion,
    pixels,
    quality,
    scales,
    sharpness,
    sources,
    standpoint,
    stands,
    tenths,
    wind,
)
from shoots.lighting.core.codec import Fault, WrongInput, decode, type_name
from shoots.places.core import daylight, lightday, shade, sky, skypattern, sun
from shoots.values import units
from shoots.values.steps import Given, Step


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a quantity.

    Attributes
    ----------
    name : str
        With its unit suffix.
    shape : str
        "number", "whole number", "text" and so on.
    unit : str
        Unit, empty where there is none.
    meaning : str
        What it means, from the docstring.
    required : bool
        Whether it has to be given.
    """

    name: str
    shape: str
    unit: str
    meaning: str
    required: bool


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity.

    Attributes
    ----------
    key : str
        Name of the function.
    summary : str
        What it returns, one sentence from the docstring.
    inputs : tuple[Input, ...]
        In order.
    unit : str
        Unit of the result; empty for something made of several numbers.
    returns : str
        What comes back, from the docstring.
    source : str
        Where it comes from.
    call : Callable[..., Any]
        The function.
    """

    key: str
    summary: str
    inputs: tuple[Input, ...]
    unit: str
    returns: str
    source: str
    call: Callable[..., Any]


class UnknownQuantity(KeyError):
    """Raised when there is no such quantity."""


FUNCTIONS: tuple[Callable[..., Any], ...] = (
    units.stops_from_ratio,
    units.ratio_from_stops,
    units.mired_from_kelvin,
    units.kelvin_from_mired,
    units.metres_from_feet,
    units.feet_from_metres,
    units.wrap_bearing,
    units.wrap_turn,
    exposure.aperture_value,
    exposure.time_value,
    exposure.speed_value,
    exposure.exposure_value,
    exposure.ev100,
    exposure.f_number_for_ev,
    exposure.shutter_for_ev,
    exposure.iso_for_ev,
    metering.brightness_value,
    metering.incident_ev,
    metering.illuminance_at_ev,
    metering.reflected_ev,
    metering.luminance_at_ev,
    metering.illuminance_exposed,
    metering.luminous_exposure,
    metering.f_number_for_exposure,
    filters.nd_stops_from_density,
    filters.nd_stops_from_factor,
    filters.light_after_filter,
    scales.aperture_scale,
    scales.shutter_scale,
    scales.iso_scale,
    scales.exact_f_number,
    scales.exact_shutter,
    scales.exact_iso,
    tenths.read_meter,
    tenths.meter_reading,
    flash.guide_number,
    flash.scaled_guide_number,
    flash.flash_f_number,
    flash.flash_distance,
    flash.power_for_f_number,
    flash.distance_stops,
    flash.distance_factor,
    flash.intensity_from_guide_number,
    flash.guide_number_from_intensity,
    flash.intensity_from_energy,
    flash.stored_energy,
    flash.pops_stops,
    mixing.together_f_number,
    mixing.mixed_exposure,
    mixing.lighting_ratio,
    mixing.key_over_fill,
    sources.octagon_area,
    sources.finite_size_share,
    sources.distance_change_stops,
    sources.off_axis_share,
    sources.view_share,
    sources.reflected_share,
    sources.negative_fill_share,
    sources.scrimmed_light,
    sources.flagged_share,
    burst.decay_time,
    burst.t01_from_t05,
    burst.cut_off_time,
    burst.flash_duration,
    burst.burst_share,
    burst.edge_share,
    burst.synced_share,
    burst.high_speed_sync_share,
    burst.high_speed_sync_stops,
    burst.fixed_burst_stops,
    motion.motion_blur,
    motion.blur_pixels,
    motion.longest_time,
    motion.speed_near_apex,
    motion.drop_from_apex,
    motion.time_near_apex,
    motion.blur_window,
    motion.take_off_speed,
    motion.hang_time,
    motion.bounce_height,
    colour.filtered_colour,
    colour.shift_needed,
    colour.stacked_gels,
    colour.transmission_stops,
    colour.appearance,
    colour.planckian_uv,
    colour.correlated_colour,
    colour.mixed_colour,
    colour.daylight_colour,
    lens.magnification,
    lens.subject_distance,
    lens.image_distance,
    lens.field_of_view,
    lens.framing_distance,
    lens.framed_size,
    lens.perspective_ratio,
    sharpness.circle_of_confusion,
    sharpness.hyperfocal,
    sharpness.hyperfocal_short,
    sharpness.depth_of_field,
    sharpness.depth_of_field_short,
    sharpness.focus_for_planes,
    sharpness.f_number_for_depth,
    sharpness.background_blur,
    sharpness.airy_diameter,
    sharpness.diffraction_f_number,
    standpoint.tilt_to_target,
    standpoint.framed,
    quality.apparent_angle,
    quality.softness,
    quality.solid_angle,
    quality.penumbra_width,
    quality.sun_penumbra_width,
    quality.fall_off,
    quality.direction,
    quality.placement,
    quality.placement_for_height,
    wind.beaufort,
    wind.wind_at_height,
    wind.gust,
    stands.wind_load,
    stands.overturning_moment,
    stands.tipping_radius,
    stands.mass_needed,
    stands.tipping_wind,
    stands.wind_limit,
    stands.advice,
    stands.slides,
    battery.pops_per_charge,
    battery.full_pops_used,
    battery.battery_energy,
    battery.pops_with_standby,
    battery.recycle_time,
    battery.multi_pop_time,
    battery.frames_in,
    battery.cold_share,
    battery.pops_until_heat,
    battery.battery_plan,
    pixels.largest_crop,
    pixels.print_pixels,
    pixels.print_length,
    pixels.uncompressed_bytes,
    pixels.cropped_side,
    sun.sun_position,
    sun.shadow_length,
    sun.side_of_camera,
    lightday.sun_day,
    lightday.camera_day,
    sky.clear_illuminance,
    sky.clear_illuminance_by_air_mass,
    sky.overcast_illuminance,
    sky.overcast_zenith_luminance,
    sky.cloud_factor,
    sky.sun_normal_illuminance,
    sky.clear_sky_illuminance,
    sky.air_mass,
    sky.illuminance_from_irradiance,
    sky.irradiance_clear,
    daylight.clouded_illuminance,
    daylight.diffuse_share,
    daylight.daylight_spread,
    daylight.daylight,
    daylight.metered_daylight,
    skypattern.overcast_sky_luminance,
    skypattern.clear_sky_luminance,
    shade.hidden_altitude,
    shade.is_shaded,
    shade.sunny_periods,
    shade.sky_share,
    shade.illuminance_on_upright,
    ambient.ambient_from_sky,
    ambient.overcast_background,
)
"""In the order in which they are listed. Functions of one name in two modules would collide; a test says
so."""

_UNIT = re.compile(r"\[([^\[\]]+)\]\s*$")


@cache
def quantities() -> Mapping[str, Quantity]:
    """Return every quantity by its key.

    Returns
    -------
    Mapping[str, Quantity]
        In the order of the list.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> quantities()["incident_ev"].unit
    'EV'
    """
    return {function.__name__: _quantity(function) for function in FUNCTIONS}


def _quantity(function: Callable[..., Any]) -> Quantity:
    sections = _sections(inspect.getdoc(function) or "")
    described = _entries(sections.get("Parameters", []))
    hints = typing.get_type_hints(function)
    inputs = []
    for name, parameter in inspect.signature(function).parameters.items():
        meaning = described.get(name, "")
        shape = hints[name]
        inputs.append(
            Input(
                name=name,
                shape="number" if isinstance(shape, typing.TypeVar) else type_name(shape),
                unit=_unit(meaning),
                meaning=_UNIT.sub("", meaning).strip(),
                required=parameter.default is inspect.Parameter.empty,
            )
        )
    returned = " ".join(_entries(sections.get("Returns", [])).values()).strip()
    source = " ".join(line.strip() for line in sections.get("References", [])).strip()
    return Quantity(
        key=function.__name__,
        summary=" ".join(line.strip() for line in sections["Summary"]).strip(),
        inputs=tuple(inputs),
        unit=_unit(returned) if hints.get("return") in (float, int) or _is_generic(hints) else "",
        returns=_UNIT.sub("", returned).strip(),
        source=source if source and not source.startswith("Those of the module") else _module_source(function),
        call=function,
    )


def _is_generic(hints: Mapping[str, Any]) -> bool:
    """Return whether a function takes and gives a number or an array."""
    return isinstance(hints.get("return"), typing.TypeVar)


def _module_source(function: Callable[..., Any]) -> str:
    text = _sections(inspect.getdoc(inspect.getmodule(function)) or "")
    return " ".join(line.strip() for line in text.get("References", [])).strip()


def _sections(text: str) -> dict[str, list[str]]:
    """Return the lines of a docstring under their headings, the first paragraph as Summary."""
    found: dict[str, list[str]] = {"Summary": []}
    heading = "Summary"
    lines = text.splitlines()
    for index, line in enumerate(lines):
        below = lines[index + 1] if index + 1 < len(lines) else ""
        if line.strip() and set(below.strip()) == {"-"} and len(below.strip()) >= 3:
            heading = line.strip()
            found[heading] = []
        elif set(line.strip()) != {"-"} or not line.strip():
            if heading == "Summary" and not line.strip() and found["Summary"]:
                heading = "More"
                found[heading] = []
            else:
                found[heading].append(line)
    return found


def _entries(lines: list[str]) -> dict[str, str]:
    """Return the descriptions of a section by name; several names before one colon share one."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in lines:
        if not line.strip():
            continue
        if not line.startswith(" "):
            names = [name.strip().lstrip("*") for name in line.split(":")[0].split(",")]
            for name in names:
                found[name] = ""
        else:
            for name in names:
                found[name] = f"{found[name]} {line.strip()}".strip()
    return found


def _unit(description: str) -> str:
    match = _UNIT.search(description)
    return match.group(1) if match else ""


def quantity(key: str) -> Quantity:
    """Return one quantity.

    Parameters
    ----------
    key : str
        Its key.

    Returns
    -------
    Quantity
        The quantity.

    Raises
    ------
    UnknownQuantity
        If there is none.

    References
    ----------
    Own arrangement.
    """
    try:
        return quantities()[key]
    except KeyError:
        raise UnknownQuantity(key) from None


@dataclass(frozen=True, slots=True)
class Computed:
    """A quantity, computed.

    Attributes
    ----------
    value : Any
        What the function returned.
    unit : str
        Its unit; empty for something made of several numbers.
    steps : tuple[Step, ...]
        How it came about: those that the result carries, else the one formula itself.
    """

    value: Any
    unit: str
    steps: tuple[Step, ...]


def compute(key: str, inputs: Mapping[str, Any]) -> Computed:
    """Return a quantity computed from plain data.

    Parameters
    ----------
    key : str
        Its key.
    inputs : Mapping[str, Any]
        By name, as a JSON reader gives them.

    Returns
    -------
    Computed
        Value, unit and steps.

    Raises
    ------
    UnknownQuantity
        If there is no such quantity.
    WrongInput
        If an input is missing, unknown or of the wrong type.
    OutOfRange
        If a number cannot be meant.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> compute("hyperfocal", {"focal_mm": 85, "f_number": 2.8, "circle_mm": 0.03}).unit
    'm'
    """
    wanted = quantity(key)
    names = {one.name for one in wanted.inputs}
    for name in inputs:
        if name not in names:
            raise WrongInput(name, Fault.UNKNOWN, ", ".join(sorted(names)))
    hints = typing.get_type_hints(wanted.call)
    given = {}
    for one in wanted.inputs:
        if one.name in inputs:
            shape = float if isinstance(hints[one.name], typing.TypeVar) else hints[one.name]
            given[one.name] = decode(shape, inputs[one.name], one.name)
        elif one.required:
            raise WrongInput(one.name, Fault.MISSING, one.shape)
    value = wanted.call(**given)
    carried = getattr(value, "because", ())
    return Computed(value, wanted.unit, carried or _own_step(wanted, given, value))


def _own_step(wanted: Quantity, given: Mapping[str, Any], value: Any) -> tuple[Step, ...]:
    """Return the step of a quantity that is one formula with one number as its result."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return ()
    by_name = {one.name: one.unit for one in wanted.inputs}
    numbers = tuple(
        Given(name, float(one), by_name[name])
        for name, one in given.items()
        if isinstance(one, int | float) and not isinstance(one, bool)
    )
    return (Step(wanted.key, wanted.returns, numbers, float(value), wanted.unit, wanted.source),)
