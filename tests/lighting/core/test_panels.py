"""Where panels stand and which way they are turned."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.kit.core.panels import PANELS, Panel
from shoots.lighting.core.framecheck import light_position
from shoots.lighting.core.panels import PlacedPanel, dot, half_way, placed_at, towards, turn_and_tilt, turned
from shoots.lighting.core.setup import Part, PlacedLight
from shoots.values.units import OutOfRange
from tests.lighting.core.setups import HEAD

UNIT = st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1)).filter(lambda one: math.hypot(*one) > 0.1)


@given(st.floats(-180, 360), st.floats(0, 20), st.floats(0, 5))
def test_panels_and_lights_are_placed_alike(bearing: float, floor: float, height: float) -> None:
    light = PlacedLight("A", Part.KEY, HEAD, bearing_deg=bearing, floor_m=floor, height_m=height)
    assert placed_at(bearing, floor, height) == pytest.approx(light_position(light))


@given(UNIT, UNIT)
def test_a_board_turned_half_way_throws_by_the_law_of_reflection(one: tuple, two: tuple) -> None:
    """Angle in equals angle out."""
    a, b = towards((0, 0, 0), one)[0], towards((0, 0, 0), two)[0]
    if dot(a, b) < -0.99:
        return
    normal = half_way(a, b)
    assert dot(normal, a) == pytest.approx(dot(normal, b), abs=1e-9)
    assert math.hypot(*normal) == pytest.approx(1.0)


def test_what_cannot_be_a_place_is_named() -> None:
    for wrong in ({"bearing_deg": 999.0}, {"floor_m": -1.0}, {"height_m": -1.0}, {"covers": 2.0}):
        with pytest.raises(OutOfRange, match=next(iter(wrong))):
            PlacedPanel("1", PANELS[Panel.FLAG], **wrong)


@given(st.floats(-179.0, 179.0), st.floats(-89.0, 89.0))
def test_turn_and_tilt_lead_there_and_back(turn: float, tilt: float) -> None:
    assert turn_and_tilt(turned(turn, tilt)) == pytest.approx((turn, tilt), abs=1e-6)
