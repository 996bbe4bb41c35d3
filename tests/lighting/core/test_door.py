"""Requests as a script would send them."""

import json
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoots.kit.core.starting import CAMERAS, FILTERS, GELS, LAMPS, LENSES, MODIFIERS, STANDS
from shoots.lighting.core.codec import Fault, WrongInput, encode
from shoots.lighting.core.door import EXAMPLES, answer, listing
from shoots.lighting.core.quantities import quantities
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Part
from tests.lighting.core.anything import fitting
from tests.lighting.core.setups import OUTSIDE, dull


def _ask(request: object) -> dict:
    """Send a request through JSON text both ways."""
    return json.loads(json.dumps(answer(json.loads(json.dumps(request))), allow_nan=False))


def test_a_quantity_comes_back_with_unit_and_steps() -> None:
    """2.1: flash manual example."""
    found = _ask({"quantity": "flash_f_number", "guide_number_m": 32, "distance_m": 4, "iso": 100, "power": 1})
    assert (found["value"], found["unit"]) == (8.0, "1")
    assert found["steps"][0]["formula"] == "flash_f_number"


def test_an_infinite_far_limit_is_null() -> None:
    """3.5: focus beyond the hyperfocal distance."""
    found = _ask({"quantity": "depth_of_field", "focal_mm": 24, "f_number": 11, "circle_mm": 0.03, "focus_m": 2})
    assert found["value"]["far_m"] is None
    assert found["value"]["near_m"] == pytest.approx(0.938, rel=0.001)


def test_an_estimate_comes_back_with_its_spread() -> None:
    assert _ask({"quantity": "daylight", "altitude_deg": 30, "oktas": 4})["spread_stops"] == 1.5


def test_a_setup_is_evaluated_as_the_core_evaluates_it() -> None:
    found = _ask({"evaluate": encode(OUTSIDE)})
    assert found["reading"]["total"]["stops"] == pytest.approx(evaluate(OUTSIDE).total.stops)
    assert {one["trouble"] for one in found["troubles"]}


def test_a_problem_is_solved_with_margins() -> None:
    found = _ask({"solve": {"setup": encode(OUTSIDE), "wishes": {"ambient": {"stops": -2.5, "tolerance_stops": 0.5}}}})
    assert found["is_met"]
    assert found["mends"] == []
    assert {one["wish"] for one in found["solution"]["outcomes"]} == {"EXPOSURE", "AMBIENT"}


def test_what_cannot_be_met_comes_with_what_would_mend_it() -> None:
    bright = replace(OUTSIDE, ambient=dull(12.0))
    wishes = {"ambient": {"stops": -1, "tolerance_stops": 0.5}, "widest": 1.4, "narrowest": 1.4}
    found = _ask({"solve": {"setup": encode(bright), "wishes": wishes}})
    assert not found["is_met"]
    assert found["solution"]["shortfall_stops"] > 3.0
    assert [one["kind"] for one in found["mends"]][:2] == ["HIGH_SPEED_SYNC", "ND"]


@pytest.mark.parametrize(
    ("request_", "fault"),
    [
        ([], Fault.WRONG_TYPE),
        ({}, Fault.NOT_ONE_OF),
        ({"quantity": "incident_ev", "evaluate": {}}, Fault.NOT_ONE_OF),
        ({"evaluate": {}, "more": 1}, Fault.UNKNOWN),
        ({"quantity": 3}, Fault.WRONG_TYPE),
    ],
)
def test_a_request_that_does_not_fit_is_named(request_: object, fault: Fault) -> None:
    with pytest.raises(WrongInput) as caught:
        answer(request_)
    assert caught.value.fault is fault


def test_the_list_has_every_quantity_with_inputs_units_and_source() -> None:
    found = json.loads(json.dumps(listing(), allow_nan=False))
    assert len(found["quantities"]) == len(quantities()) > 170
    assert all(one["source"] and one["summary"] for one in found["quantities"])
    for one in found["quantities"]:
        for entry in one["inputs"]:
            assert entry["required"] or "default" in entry
    assert found["shapes"]["Ratio"]["values"] == ["KEY_AND_FILL_TO_FILL", "KEY_TO_FILL"]
    assert "BATTERY_300" in found["shapes"]["LampSpec"]["kinds"]


def test_every_shape_in_the_list_says_what_its_fields_mean() -> None:
    for name, shape in listing()["shapes"].items():
        for entry in shape.get("fields", ()):
            assert entry["meaning"], f"{name}.{entry['name']}"
            told = entry["unit"] or "``unit``" in entry["meaning"] or "unit that" in entry["meaning"]
            assert entry["shape"] not in ("number", "number or null") or told, f"{name}.{entry['name']}"


@pytest.mark.parametrize("number", range(len(EXAMPLES)))
def test_the_examples_of_the_list_can_be_sent_as_they_stand(number: int) -> None:
    assert _ask(EXAMPLES[number])


def test_inputs_may_stand_in_an_object_of_their_own_and_in_other_units() -> None:
    """2.2: flash manual: guide number 32 m at ISO 100 is 52.5 ft at ISO 25."""
    metric = {"guide_number_m": 32, "distance_m": 1.2192, "iso": 25, "power": 1}
    beside = _ask({"quantity": "flash_f_number", **metric})
    inside = _ask({"quantity": "flash_f_number", "inputs": metric})
    feet = _ask({"quantity": "flash_f_number", "guide_number_ft": 104.98688, "distance_ft": 4, "iso": 25, "power": 1})
    assert beside == inside
    assert feet["value"] == pytest.approx(beside["value"])
    assert pytest.approx(feet["value"], rel=0.001) == 52.5 / 4
    with pytest.raises(WrongInput) as twice:
        answer({"quantity": "flash_f_number", "distance_ft": 4, **metric})
    assert twice.value.fault is Fault.TWICE
    with pytest.raises(WrongInput):
        answer({"quantity": "incident_ev", "iso": 100, "inputs": {"iso": 100, "illuminance_lx": 100}})


def test_infinity_may_be_given_as_it_is_written() -> None:
    """3.14: lights at infinity behind 85 mm f/1.8 at 2 m blur to 2.0960 mm; 3.3 with the far plane at infinity is
    twice the near one."""
    portrait = {"focal_mm": 85, "f_number": 1.8, "focus_m": 2}
    for far in ({}, {"background_m": None}, {"background_km": 1000}):
        assert _ask({"quantity": "background_blur", **portrait, **far})["value"] == pytest.approx(2.0960, rel=0.001)
    assert _ask({"quantity": "focus_for_planes", "near_m": 3, "far_m": None})["value"] == 6.0
    with pytest.raises(WrongInput):
        answer({"quantity": "background_blur", **portrait, "focus_m": None})


def test_a_model_of_the_sky_says_how_far_it_may_lie_off() -> None:
    assert _ask({"quantity": "clear_illuminance", "altitude_deg": 30})["spread_stops"] > 0.0
    assert _ask({"quantity": "overcast_illuminance", "altitude_deg": 30})["spread_stops"] >= 1.0
    assert _ask({"quantity": "exposure_value", "f_number": 8, "shutter_s": "1/125"})["spread_stops"] is None


def test_a_result_of_several_numbers_has_a_step_for_each() -> None:
    found = _ask({"quantity": "placement", "slant_m": 2, "elevation_deg": 45, "subject_height_m": 1.6})
    assert {one["formula"] for one in found["steps"]} >= {"placement.height_m", "placement.floor_m"}


@pytest.mark.parametrize("key", sorted(quantities()))
def test_nothing_that_fits_by_type_breaks_a_quantity(key: str) -> None:
    """Any data of the right types: an answer that is JSON, or an error with a name."""
    wanted = quantities()[key]
    drawn = st.fixed_dictionaries(
        {one.name: fitting(one.annotation, 1) for one in wanted.inputs if one.required},
        optional={one.name: fitting(one.annotation, 1) for one in wanted.inputs if not one.required},
    )

    @settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
    @given(drawn)
    def check(inputs: dict) -> None:
        _answered({"quantity": key, "inputs": inputs})

    check()


def _answered(request: dict) -> bool:
    try:
        json.dumps(answer(request), allow_nan=False)
    except ValueError as error:
        assert type(error) is not ValueError, error
        return False
    return True


LIGHTS = st.lists(
    st.fixed_dictionaries(
        {"part": st.sampled_from(list(Part)), "lamp": st.sampled_from(list(LAMPS))},
        optional={
            "modifier": st.sampled_from(list(MODIFIERS)),
            "gels": st.lists(st.sampled_from(list(GELS)), max_size=2),
            "bearing_deg": st.floats(-180, 360),
            "floor_m": st.floats(0, 30),
            "height_m": st.floats(0, 6),
            "off_axis_deg": st.floats(-180, 180),
            "power": st.floats(0.001, 1),
            "pops": st.integers(1, 4),
            "open_share": st.floats(0, 1),
            "high_speed_sync": st.booleans(),
            "stand": st.sampled_from(list(STANDS)),
        },
    ),
    max_size=4,
).map(lambda lights: [{"letter": chr(65 + n), **one} for n, one in enumerate(lights)])
PLAUSIBLE = st.fixed_dictionaries(
    {
        "exposure": st.fixed_dictionaries(
            {"f_number": st.floats(0.7, 64), "shutter_s": st.floats(1 / 16000, 60)},
            optional={"iso": st.floats(25, 1e5), "nd_stops": st.floats(0, 20)},
        ),
        "lights": LIGHTS,
    },
    optional={
        "ambient": st.fixed_dictionaries(
            {"ev100": st.none() | st.floats(-10, 20)}, optional={"background_ev100": st.floats(-10, 20)}
        ),
        "background": st.fixed_dictionaries({"distance_m": st.floats(0.1, 100)}),
        "camera": st.sampled_from(list(CAMERAS)),
        "lens": st.sampled_from(list(LENSES)),
        "filters": st.lists(st.sampled_from(list(FILTERS)), max_size=3),
        "subject": st.fixed_dictionaries({"speed_m_s": st.floats(0, 10)}),
        "white_balance_k": st.floats(1500, 20000),
    },
)
TARGET = st.fixed_dictionaries({"stops": st.floats(-6, 6)}, optional={"tolerance_stops": st.floats(0, 2)})
WISHES = st.fixed_dictionaries(
    {},
    optional={
        **dict.fromkeys(("exposure", "ambient", "background", "key_over_fill", "rims"), TARGET),
        "sky_may_blow": st.booleans(),
        "widest": st.floats(0.9, 8),
        "narrowest": st.floats(2, 32),
        "blur_mm": st.floats(0.1, 100),
        "sharp_from_m": st.floats(0.5, 5),
        "sharp_to_m": st.floats(3, 20),
    },
)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(PLAUSIBLE)
def test_any_plausible_setup_is_evaluated_or_refused_by_name(setup: dict) -> None:
    _answered({"evaluate": setup})


@settings(max_examples=5, deadline=None, suppress_health_check=list(HealthCheck))
@given(PLAUSIBLE, WISHES, st.booleans())
def test_any_plausible_problem_is_solved_or_refused_by_name(setup: dict, wishes: dict, fast: bool) -> None:
    _answered({"solve": {"setup": setup, "wishes": wishes, "allow_high_speed_sync": fast}})
