"""The drawing says the same as the numbers."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp, Modifier
from shoots.lighting.core.plan import LONGEST_SHADOW_M, draw_plan, draw_section, place_from_plan
from shoots.lighting.core.setup import Background, CameraPlace, Exposure, Part, PlacedLight, Setup, Subject
from shoots.places.core.sun import SunPosition
from shoots.values.units import OutOfRange

HEAD = LAMPS[Lamp.BATTERY_300]
KEY = PlacedLight("A", Part.KEY, HEAD, MODIFIERS[Modifier.OCTAGON_95], bearing_deg=45.0, floor_m=1.5, height_m=2.4)
RIM = PlacedLight("B", Part.RIM, HEAD, bearing_deg=-150.0, floor_m=2.5, height_m=2.0)
SETUP = Setup(
    Exposure(8.0, 1 / 200),
    (KEY, RIM),
    place=CameraPlace(distance_m=3.0, view_bearing_deg=180.0),
    subject=Subject(height_m=1.8, point_m=1.6),
)


def test_the_camera_stands_below_the_subject_and_its_left_is_on_the_left() -> None:
    plan = draw_plan(SETUP)
    assert (plan.camera.at.x, plan.camera.at.y) == (0.0, 3.0)
    key, rim = plan.lights
    assert key.at.x < 0.0 < key.at.y
    assert rim.at.x > 0.0 > rim.at.y


def test_distances_on_the_lines_are_those_along_the_beam() -> None:
    plan = draw_plan(SETUP)
    assert plan.lights[0].beam.metres == pytest.approx(math.hypot(1.5, 0.8))
    assert plan.camera.distance.metres == 3.0


@given(st.floats(-179.9, 180.0), st.floats(0.1, 50.0))
def test_a_spot_pointed_at_on_the_plan_is_read_back(bearing: float, floor: float) -> None:
    light = replace(KEY, bearing_deg=bearing, floor_m=floor)
    at = draw_plan(replace(SETUP, lights=(light,))).lights[0].at
    found = place_from_plan(at.x, at.y)
    assert found[1] == pytest.approx(floor)
    assert math.cos(math.radians(found[0] - bearing)) == pytest.approx(1.0)


def test_the_front_is_as_wide_as_the_box_and_square_to_the_beam() -> None:
    key = draw_plan(SETUP).lights[0]
    (a, b) = key.front
    assert math.hypot(a.x - b.x, a.y - b.y) == pytest.approx(0.95)
    assert (a.x - b.x) * key.at.x + (a.y - b.y) * key.at.y == pytest.approx(0.0, abs=1e-12)


def test_the_sun_is_drawn_as_the_subjects_shadow() -> None:
    """The camera looks south into the sun: the shadow falls towards it, as long as the sun is low."""
    plan = draw_plan(SETUP, SunPosition(45.0, 45.0, 180.0))
    assert plan.shadow.metres == pytest.approx(1.8)
    assert (plan.shadow.end.x, plan.shadow.end.y) == pytest.approx((0.0, 1.8), abs=1e-9)
    assert abs(plan.shadow.sun_bearing_deg) == pytest.approx(180.0)
    west = draw_plan(SETUP, SunPosition(45.0, 45.0, 270.0))
    # Looking south, west is on the right; the shadow falls to the left.
    assert west.shadow.end.x < 0.0
    assert west.shadow.sun_bearing_deg == pytest.approx(-90.0)


def test_a_long_shadow_is_cut_and_says_so_and_a_set_sun_draws_none() -> None:
    plan = draw_plan(SETUP, SunPosition(3.0, 3.1, 180.0))
    assert plan.shadow.is_cut
    assert plan.shadow.metres > 30.0
    assert math.hypot(plan.shadow.end.x, plan.shadow.end.y) == pytest.approx(LONGEST_SHADOW_M)
    assert draw_plan(SETUP, SunPosition(-2.0, -2.0, 180.0)).shadow is None
    assert draw_plan(SETUP).shadow is None


def test_north_is_where_the_view_has_it() -> None:
    """Looking south, north is straight down the paper."""
    assert draw_plan(SETUP).north_deg == 180.0
    east = replace(SETUP, place=replace(SETUP.place, view_bearing_deg=90.0))
    assert draw_plan(east).north_deg == 270.0


def test_everything_lies_on_the_paper() -> None:
    for drawing in (draw_plan(SETUP, SunPosition(20.0, 20.0, 120.0)), draw_section(SETUP)):
        paper = drawing.extent
        for light in drawing.lights:
            for point in (light.at, *light.front, light.letter_at):
                assert paper.left < point.x < paper.left + paper.width
                assert paper.top < point.y < paper.top + paper.height
        assert 0.0 < paper.scale_bar_m < paper.width


def test_the_section_shows_true_heights() -> None:
    section = draw_section(SETUP)
    assert [round(height.metres, 2) for height in section.heights] == [2.4, 2.0]
    assert section.lights[0].at.y == pytest.approx(-2.4)
    # The key stands between subject and camera, the rim behind the subject.
    assert section.lights[0].at.x > 0.0 > section.lights[1].at.x
    assert section.subject[1].y == pytest.approx(-1.8)


def test_a_background_light_points_at_the_background() -> None:
    lit = PlacedLight("D", Part.BACKGROUND, HEAD, bearing_deg=90.0, floor_m=1.0, height_m=1.6)
    plan = draw_plan(replace(SETUP, lights=(lit,), background=Background(3.0)))
    assert plan.background_y == -3.0
    assert (plan.lights[0].beam.end.x, plan.lights[0].beam.end.y) == (0.0, -3.0)


def test_a_light_straight_above_can_be_drawn() -> None:
    top = replace(KEY, floor_m=0.0, height_m=3.0)
    assert draw_plan(replace(SETUP, lights=(top,))).lights[0].beam.metres == pytest.approx(1.4)


def test_a_spot_off_the_paper_is_named() -> None:
    with pytest.raises(OutOfRange):
        place_from_plan(float("nan"), 0.0)
