"""Requests as a script would send them."""

import json
from dataclasses import replace

import pytest

from shoots.lighting.core.codec import Fault, WrongInput, encode
from shoots.lighting.core.door import answer, listing
from shoots.lighting.core.readings import evaluate
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
    assert len(found) > 150
    assert all(one["source"] and one["summary"] for one in found)
