"""Plain data becomes the shapes of the core, and says where it does not fit."""

import json
import math
from datetime import UTC, date, datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.kit.core.lamps import Circuit, LampSpec
from shoots.lighting.core.codec import Fault, WrongInput, decode, encode, type_name
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.wishes import Problem
from shoots.places.core.shade import Wall
from shoots.values.units import OutOfRange
from tests.lighting.core.setups import OUTSIDE


def test_a_whole_setup_goes_out_as_json_and_comes_back_the_same() -> None:
    text = json.dumps(encode(OUTSIDE), allow_nan=False)
    assert decode(Setup, json.loads(text)) == OUTSIDE


def test_what_is_left_out_takes_its_default() -> None:
    lamp = decode(LampSpec, {"guide_number_m": 45, "circuit": "VOLTAGE"})
    assert lamp == LampSpec(guide_number_m=45.0, circuit=Circuit.VOLTAGE)


SOUND = {"f_number": 8, "shutter_s": 0.01}


@pytest.mark.parametrize(
    ("shape", "value", "path", "fault"),
    [
        (Setup, {}, "exposure", Fault.MISSING),
        (Setup, {"exposure": {"f_number": 8, "shutter_s": 0.01, "isoo": 100}}, "exposure.isoo", Fault.UNKNOWN),
        (Setup, {"exposure": {"f_number": "8", "shutter_s": 0.01}}, "exposure.f_number", Fault.WRONG_TYPE),
        (Setup, {"exposure": {"f_number": True, "shutter_s": 0.01}}, "exposure.f_number", Fault.WRONG_TYPE),
        (Setup, [], "", Fault.WRONG_TYPE),
        (Problem, {"setup": {"exposure": SOUND, "lights": {}}}, "setup.lights", Fault.WRONG_TYPE),
        (LampSpec, {"guide_number_m": 45, "circuit": "MAGIC"}, "circuit", Fault.NOT_ONE_OF),
        (LampSpec, {"guide_number_m": 45, "durations": [[1.0]]}, "durations[0]", Fault.WRONG_TYPE),
        (datetime, "yesterday", "", Fault.WRONG_TYPE),
        (int, 2.5, "", Fault.WRONG_TYPE),
        (float, None, "", Fault.WRONG_TYPE),
    ],
)  # fmt: skip
def test_a_misfit_is_named_with_its_place(shape: type, value: object, path: str, fault: Fault) -> None:
    with pytest.raises(WrongInput) as caught:
        decode(shape, value)
    assert (caught.value.path, caught.value.fault) == (path, fault)
    assert caught.value.expected


def test_a_number_that_cannot_be_meant_is_named_by_the_core_itself() -> None:
    with pytest.raises(OutOfRange, match="guide_number_m"):
        decode(LampSpec, {"guide_number_m": -3})


def test_a_number_deep_inside_is_refused_with_its_place() -> None:
    """Which of several lights it is: their ranges know their own names only."""
    weak, wrong = ({"letter": letter, "part": "KEY", "lamp": "BATTERY_300"} for letter in "AB")
    with pytest.raises(OutOfRange) as caught:
        decode(Setup, {"exposure": SOUND, "lights": [weak, {**wrong, "power": 3}]}, "evaluate")
    assert (caught.value.name, caught.value.value) == ("evaluate.lights[1].power", 3.0)


def test_inner_numbers_may_be_in_other_units_too() -> None:
    light = {"letter": "A", "part": "KEY", "lamp": "BATTERY_300", "floor_ft": 10, "power_percent": 25}
    found = decode(Setup, {"exposure": {"f_number": 8, "shutter_ms": 5}, "lights": [light]})
    assert (found.exposure.shutter_s, found.lights[0].power) == (0.005, 0.25)
    assert found.lights[0].floor_m == pytest.approx(3.048)
    assert decode(Wall, {"bearing_deg": 0, "distance_m": 3, "height_cm": 250, "left_ft": None}).height_m == 2.5
    with pytest.raises(WrongInput) as twice:
        decode(Setup, {"exposure": {**SOUND, "shutter_ms": 5}})
    assert (twice.value.path, twice.value.fault) == ("exposure.shutter_ms", Fault.TWICE)


def test_infinite_numbers_and_arrays_and_moments_go_out_as_plain_data() -> None:
    assert encode((math.inf, np.array([1.0, math.nan]), date(2027, 1, 2))) == [None, [1.0, None], "2027-01-02"]
    assert encode(datetime(2027, 1, 2, 3, tzinfo=UTC)) == "2027-01-02T03:00:00+00:00"
    with pytest.raises(TypeError):
        encode(object())


@given(
    st.recursive(
        st.none() | st.booleans() | st.floats() | st.text(),
        lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
        max_leaves=12,
    )
)
def test_no_plain_data_breaks_the_reader(value: object) -> None:
    """Whatever comes in: a setup, or a named error."""
    try:
        found = decode(Setup, value)
    except (WrongInput, OutOfRange):
        return
    assert isinstance(found, Setup)


def test_shapes_have_names_for_people() -> None:
    assert type_name(float) == "number"
    assert type_name(tuple[float, ...]) == "list of number"
    assert type_name(str | None) == "text or null"
    assert type_name(Circuit) == "Circuit"
