"""The side view on paper: heights to scale, the frame where it truly lies, words that can be read. Own drawing."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoots.kit.core.cameras import LensSpec
from shoots.kit.core.lamps import LampSpec, StandSpec
from shoots.lighting.core.setup import CameraPlace, Exposure, Part, PlacedLight, Setup, Subject
from shoots.lighting.queries.paper import WIDE
from shoots.lighting.queries.section import Side, side_of


def light(letter: str, bearing: float, floor: float, height: float) -> PlacedLight:
    lamp = LampSpec(guide_number_m=45.0)
    stand = StandSpec(0.5)
    return PlacedLight(letter, Part.KEY, lamp, bearing_deg=bearing, floor_m=floor, height_m=height, stand=stand)


def drawn(*lights: PlacedLight, camera: CameraPlace | None = None, subject: Subject | None = None) -> Side:
    setup = Setup(
        Exposure(8.0, 1 / 200),
        lights=lights,
        place=camera or CameraPlace(),
        subject=subject or Subject(),
        lens=LensSpec(50.0),
    )
    return side_of(setup, keys={one.letter: (n, 1) for n, one in enumerate(lights)})


@pytest.mark.parametrize(("bearing", "along"), [(0, 2.0), (60, 1.0), (90, 0.0), (180, -2.0)])
def test_a_light_is_drawn_at_its_height_and_as_far_along_the_camera_s_axis_as_it_is(bearing, along) -> None:
    """Geometry: 2 m away at 60° from the camera is 2 · cos 60° = 1 m along its axis."""
    side = drawn(light("A", bearing, 2.0, 2.4))
    x, y = side.heads[0].beam[0] / side.scale, side.heads[0].beam[1] / side.scale
    assert x == pytest.approx(along, abs=0.02)
    assert y == pytest.approx(-2.4, abs=0.02)
    assert side.heads[0].height.lines == ("A 2.4 m",)


def test_heights_are_written_to_the_centimetre() -> None:
    assert drawn(light("A", 45, 2.0, 1.75)).heads[0].height.lines == ("A 1.75 m",)
    assert drawn().crown_words.lines == ("1.75 m",)


@pytest.mark.parametrize("distance", [2.0, 3.0, 12.0])
def test_the_edges_of_the_view_meet_the_subject_where_the_frame_truly_ends(distance: float) -> None:
    """A level camera at 1.4 m sees 1.4 m ± 12 mm / image distance · distance: similar triangles in a thin lens."""
    side = drawn(camera=CameraPlace(distance_m=distance, height_m=1.4, aim_m=1.4))
    image_mm = 1.0 / (1.0 / 50.0 - 1.0 / (1000.0 * distance))
    half = 12.0 / image_mm * distance
    assert side.frame_top_m == pytest.approx(1.4 + half, rel=1e-6)
    assert side.frame_bottom_m == pytest.approx(1.4 - half, rel=1e-6)
    points = [[float(n) for n in pair.split()] for pair in re.findall(r"[ML]([-\d.]+ [-\d.]+)", side.wedge)]
    at_subject = [-y / side.scale for x, y in points if x == 0.0]
    if 1.4 + half < 2.2:
        assert max(at_subject) == pytest.approx(side.frame_top_m, abs=0.02)
    assert side.is_cut == (distance > 3.0)


def test_two_rims_at_the_same_place_keep_their_letters_and_heights_apart() -> None:
    side = drawn(light("A", 48, 2.4, 2.5), light("B", 150, 3.0, 2.0), light("C", 215, 3.2, 2.1))
    letters = [(head.x, head.y) for head in side.heads]
    for n, one in enumerate(letters):
        for other in letters[n + 1 :]:
            assert math.dist(one, other) >= 20.0
    grounds = [head.height.ground for head in side.heads]
    for n, (left, top, width, height) in enumerate(grounds):
        for other in grounds[n + 1 :]:
            apart = left + width <= other[0] + 2 or other[0] + other[2] <= left + 2
            assert apart or top + height <= other[1] + 2 or other[1] + other[3] <= top + 2


def test_a_thing_is_no_person() -> None:
    assert drawn().is_person
    assert not drawn(subject=Subject(height_m=0.5, point_m=0.4)).is_person


LIGHTS = st.lists(st.tuples(st.floats(0, 359), st.floats(0.3, 30), st.floats(0.0, 12)), max_size=6)


@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=60)
@given(LIGHTS, st.floats(0.5, 60), st.floats(0, 12), st.floats(0.05, 6))
def test_everything_lies_on_the_paper_whatever_the_setup(lights, camera_m, lens_m, crown_m) -> None:
    side = drawn(
        *(light(chr(65 + n), *one) for n, one in enumerate(lights)),
        camera=CameraPlace(distance_m=camera_m, height_m=lens_m, aim_m=crown_m / 2),
        subject=Subject(height_m=crown_m, point_m=0.9 * crown_m),
    )
    assert side.width >= WIDE - 0.5
    assert side.top < side.crown_y <= 0.0 < side.top + side.height
    assert "nan" not in side.wedge
    assert "inf" not in side.wedge
    for head in side.heads:
        assert side.left <= head.x <= side.left + side.width
        assert side.top <= head.y <= side.top + side.height
        left, top, width, height = head.height.ground
        assert side.left - 2 <= left
        assert left + width <= side.left + side.width + 2
        assert side.top - 2 <= top
        assert top + height <= side.top + side.height + 2
