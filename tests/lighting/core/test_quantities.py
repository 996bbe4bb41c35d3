"""Every quantity: documented, sourced, in units, and safe against every number."""

import math
import typing

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.lighting.core.codec import Fault, WrongInput
from shoots.lighting.core.quantities import Quantity, UnknownQuantity, compute, quantities, quantity
from shoots.values.units import OutOfRange

ALL = list(quantities().values())
NUMERIC = [one for one in ALL if one.inputs and all(entry.shape in ("number", "whole number") for entry in one.inputs)]

USUAL = {
    "f_number": (0.7, 64.0),
    "shutter_s": (1e-5, 60.0),
    "iso": (25.0, 1e5),
    "ev": (-8.0, 20.0),
    "ev100": (-8.0, 20.0),
    "meter_constant": (200.0, 540.0),
    "reflected_constant": (10.0, 14.0),
    "power": (1 / 512, 1.0),
    "power_share": (1 / 512, 1.0),
    "pops": (1, 8),
    "legs": (3, 6),
    "stops": (-15.0, 15.0),
    "gain": (0.2, 10.0),
    "oktas": (0.0, 8.0),
    "altitude_deg": (0.0, 90.0),
    "sun_altitude_deg": (0.0, 90.0),
    "apparent_altitude_deg": (-20.0, 90.0),
    "elevation_deg": (0.0, 89.0),
    "zenith_deg": (0.0, 90.0),
    "azimuth_deg": (0.0, 360.0),
    "tilt_deg": (-60.0, 60.0),
    "vertical_view_deg": (3.0, 100.0),
    "pointing_down_deg": (1.0, 90.0),
    "off_axis_deg": (-170.0, 170.0),
    "beam_deg": (5.0, 170.0),
    "apparent_deg": (0.0, 179.0),
    "transmission": (0.01, 1.0),
    "temperature_k": (1600.0, 20000.0),
    "from_k": (1600.0, 20000.0),
    "to_k": (1600.0, 20000.0),
    "light_k": (1600.0, 20000.0),
    "white_balance_k": (1600.0, 20000.0),
    "shift_mired": (-150.0, 160.0),
    "mired": (10.0, 600.0),
    "x": (0.2, 0.6),
    "y": (0.2, 0.5),
    "focal_mm": (10.0, 600.0),
    "side_mm": (4.0, 60.0),
    "side_px": (3000, 9000),
    "crop_px": (1, 2999),
    "focus_m": (1.0, 500.0),
    "distance_m": (1.0, 100.0),
    "near_m": (1.0, 20.0),
    "far_m": (21.0, 500.0),
    "circle_mm": (0.005, 0.1),
    "fill": (0.1, 1.0),
    "magnification": (0.001, 2.0),
    "pitch_mm": (0.002, 0.01),
    "pixels": (1, 40),
    "wavelength_nm": (400.0, 700.0),
    "divisor": (1000.0, 2000.0),
    "wind_m_s": (0.0, 30.0),
    "mean_m_s": (0.0, 30.0),
    "gust_m_s": (0.0, 30.0),
    "stated_m_s": (0.0, 30.0),
    "drag": (0.2, 2.0),
    "foot_radius_m": (0.2, 3.0),
    "tipping_radius_m": (0.1, 2.0),
    "margin": (1.0, 3.0),
    "factor": (1.0, 2.0),
    "formula_factor": (0.01, 1.0),
    "friction": (0.1, 1.0),
    "force_factor": (0.1, 2.0),
    "basic_m_s": (5.0, 50.0),
    "pressure_n_m2": (0.0, 5000.0),
    "density_kg_m3": (1.0, 1.3),
    "density": (0.0, 4.0),
    "from_height_m": (1.0, 100.0),
    "to_height_m": (1.0, 100.0),
    "roughness_m": (0.001, 0.5),
    "restitution": (0.0, 1.0),
    "aerosol_depth": (0.0, 0.4),
    "water_cm": (0.3, 5.0),
    "turbidity": (1.5, 8.0),
    "solar_w_m2": (1300.0, 1420.0),
    "pressure_hpa": (600.0, 1050.0),
    "clear_share": (0.0, 1.0),
    "efficiency": (0.2, 1.0),
    "efficacy_lm_s_per_ws": (10.0, 60.0),
    "efficacy_lm_w": (60.0, 150.0),
    "irradiance_w_m2": (0.0, 1300.0),
    "diffuse": (0.0, 1.0),
    "reserve": (0.0, 0.5),
    "air_c": (-30.0, 40.0),
    "covered": (0.0, 1.0),
    "spill": (0.0, 1.0),
    "ground_reflectance": (0.0, 1.0),
    "row": (0.0, 1.0),
    "delay_s": (-0.001, 0.001),
    "curtain_s": (1 / 500, 1 / 100),
    "t05_s": (1e-5, 0.01),
    "decay_s": (1e-5, 0.01),
    "full_t01_s": (1e-5, 0.01),
    "burst_s": (1e-3, 0.02),
    "extra_stops": (-3.0, 0.0),
    "slope": (0.0, 0.5),
    "ratio": (0.01, 100.0),
    "filter_stops": (0.0, 20.0),
    "offset_s": (-1.0, 1.0),
    "spread_stops": (0.0, 3.0),
    "width_px": (100, 9000),
    "height_px": (100, 9000),
    "bytes_per_channel": (1, 2),
    "bearing_deg": (-180.0, 180.0),
    "height_m": (1.8, 20.0),
    "subject_height_m": (0.2, 1.7),
    "camera_height_m": (0.1, 3.0),
    "target_height_m": (0.1, 3.0),
    "sun_diameter_deg": (0.5, 0.6),
    "marked": (1.0, 64.0),
    "marked_s": (1e-4, 30.0),
    "key_over_fill_stops": (-6.0, 6.0),
    "resolution_ppi": (72.0, 600.0),
    "lighting_ratio_to_one": (1.1, 30.0),
    "sky_up_deg": (0.0, 90.0),
}


def _strategy(wanted: Quantity) -> st.SearchStrategy[dict[str, float]]:
    drawn = {}
    for entry in wanted.inputs:
        low, high = USUAL.get(entry.name, (0.01, 100.0))
        whole = entry.shape == "whole number"
        drawn[entry.name] = st.integers(int(low), int(high)) if whole else st.floats(low, high)
    return st.fixed_dictionaries(drawn)


def _numbers(value: object) -> list[float]:
    if isinstance(value, float):
        return [value]
    if isinstance(value, tuple | list):
        return [number for one in value for number in _numbers(one)]
    if hasattr(value, "__dataclass_fields__"):
        return [number for name in value.__dataclass_fields__ for number in _numbers(getattr(value, name))]
    return []


@pytest.mark.parametrize("wanted", ALL, ids=lambda one: one.key)
def test_a_quantity_says_what_it_is_in_which_unit_and_from_where(wanted: Quantity) -> None:
    assert wanted.summary.startswith("Return")
    assert wanted.source
    for entry in wanted.inputs:
        assert entry.meaning, entry.name
        if entry.shape == "number":
            assert entry.unit, entry.name
    if typing.get_type_hints(wanted.call)["return"] is float:
        assert wanted.unit


@pytest.mark.parametrize("wanted", NUMERIC, ids=lambda one: one.key)
def test_inside_the_usual_ranges_there_is_no_error_and_no_nan(wanted: Quantity) -> None:
    @settings(max_examples=12, deadline=None)
    @given(_strategy(wanted))
    def check(inputs: dict[str, float]) -> None:
        found = _numbers(compute(wanted.key, inputs).value)
        assert not any(math.isnan(number) for number in found)

    check()


@pytest.mark.parametrize("wanted", NUMERIC, ids=lambda one: one.key)
def test_not_a_number_is_refused_by_name_wherever_it_is_put(wanted: Quantity) -> None:
    sound = {}
    for entry in wanted.inputs:
        low, high = USUAL.get(entry.name, (0.01, 100.0))
        middle = (low + high) / 2.0
        sound[entry.name] = round(middle) if entry.shape == "whole number" else middle
    for entry in wanted.inputs:
        if entry.shape == "number":
            with pytest.raises(OutOfRange):
                wanted.call(**{**sound, entry.name: math.nan})


@pytest.mark.parametrize("wanted", NUMERIC, ids=lambda one: one.key)
def test_no_number_whatever_breaks_a_quantity(wanted: Quantity) -> None:
    """Any number at all: an answer that is a number, or a named error."""
    drawn = {
        entry.name: st.integers(-10, 10**6) if entry.shape == "whole number" else st.floats(allow_nan=False)
        for entry in wanted.inputs
    }

    @settings(max_examples=15, deadline=None)
    @given(st.fixed_dictionaries(drawn))
    def check(inputs: dict[str, float]) -> None:
        try:
            found = _numbers(wanted.call(**inputs))
        except OutOfRange:
            return
        assert not any(math.isnan(number) for number in found)

    check()


def test_a_computed_quantity_shows_its_formula_inputs_result_and_source() -> None:
    found = compute("incident_ev", {"illuminance_lx": 81920})
    (step,) = found.steps
    assert (found.value, found.unit) == (15.0, "EV")
    assert (step.formula, step.result, step.unit) == ("incident_ev", 15.0, "EV")
    assert [(entry.name, entry.value, entry.unit) for entry in step.inputs] == [("illuminance_lx", 81920.0, "lx")]
    assert "ISO 2720" in step.source


def test_a_result_that_carries_its_own_steps_keeps_them() -> None:
    found = compute("daylight", {"altitude_deg": 30, "oktas": 4})
    assert [step.formula for step in found.steps][-1] == "daylight_ev"


def test_dates_zones_enums_and_shapes_are_understood() -> None:
    day = compute(
        "sun_day", {"day": "2027-06-21", "zone": "Europe/London", "latitude_deg": 60.1546, "longitude_deg": -1.1486}
    ).value
    assert day.nautical_dusk.at is None
    front = {"shape": "ROUND", "width_m": 0.9, "height_m": 0.9}
    assert compute("solid_angle", {"front": front, "distance_m": 1.5}).value == pytest.approx(0.2650, rel=1e-3)
    gels = [{"shift_mired": 109, "transmission": 0.71}, {"shift_mired": 64, "transmission": 0.79}]
    assert compute("stacked_gels", {"gels": gels}).value.shift_mired == 173.0
    assert compute("lighting_ratio", {"key_over_fill_stops": 1, "ratio": "KEY_TO_FILL"}).value == 2.0


def test_ratios_may_be_written_with_a_colon_and_times_may_not() -> None:
    """9.5: 8256 by 5504 cut to 16:9 is 8256 by 4644; 3.9: a 10-in lens at 1:4 has the image at 12.5 in; 2.9: 3:1 is a
    stop of key over fill."""
    assert compute("largest_crop", {"width_px": 8256, "height_px": 5504, "ratio": "16:9"}).value.height_px == 4644
    assert compute("image_distance", {"focal_in": 10, "magnification": "1:4"}).value == pytest.approx(12.5 * 25.4)
    assert compute("key_over_fill", {"lighting_ratio_to_one": "3:1"}).value == pytest.approx(1.0)
    assert compute("lighting_ratio", {"key_over_fill_stops": 1, "ratio": "KEY_TO_FILL"}).value == 2.0
    with pytest.raises(WrongInput):
        compute("time_value", {"shutter_min": "1:30"})


def test_a_wrong_name_is_said_with_the_right_ones() -> None:
    with pytest.raises(UnknownQuantity):
        quantity("happiness")
    for asked, meant in (
        ("golden_hour", "sun_day"),
        ("DOF", "depth_of_field"),
        ("guide number", "guide_number"),
        ("white_balance", "appearance"),
        ("softbox", "finite_size_share"),
        ("scrim", "scrimmed_light"),
        ("equation of time", "sun_on_sphere"),
        ("Hyperfocal", "hyperfocal"),
    ):
        with pytest.raises(UnknownQuantity) as caught:
            quantity(asked)
        assert meant in caught.value.nearest[:3]
        assert len(caught.value.nearest) <= 8
    with pytest.raises(WrongInput) as unknown:
        compute("incident_ev", {"illuminance_lx": 100, "izo": 100})
    assert (unknown.value.path, unknown.value.fault) == ("izo", Fault.UNKNOWN)
    with pytest.raises(WrongInput) as missing:
        compute("incident_ev", {})
    assert (missing.value.path, missing.value.fault) == ("illuminance_lx", Fault.MISSING)
