"""The plan on paper: to scale, with words that can be read on a phone and don't lie on each other. Own drawing."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoots.kit.core.lamps import LampSpec
from shoots.kit.core.panels import PANELS, Panel
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.setup import Background, CameraPlace, Exposure, Part, PlacedLight, Setup
from shoots.lighting.queries.boards import Board
from shoots.lighting.queries.drawing import drawing_of
from shoots.lighting.queries.paper import LEAST_PER_METRE, TALL, WIDE, box_of


def setup_with(*lights: PlacedLight, camera_m: float = 3.0) -> Setup:
    return Setup(Exposure(8.0, 1 / 200), lights=lights, place=CameraPlace(distance_m=camera_m))


def light(letter: str, bearing: float, floor: float, height: float = 2.2) -> PlacedLight:
    return PlacedLight(
        letter, Part.KEY, LampSpec(guide_number_m=45.0), bearing_deg=bearing, floor_m=floor, height_m=height
    )


def drawn(setup: Setup):
    words = {one.letter: (f"Key 1/{n + 1}", "2.2 m high") for n, one in enumerate(setup.lights)}
    keys = {one.letter: (n, 1) for n, one in enumerate(setup.lights)}
    return drawing_of(setup, None, words=words, keys=keys, background_m=4.0)


@pytest.mark.parametrize("bearing", [0, 45, 90, 135, 180, 225, 270, 315])
def test_a_light_stands_where_its_bearing_says_and_to_scale(bearing: float) -> None:
    """Camera at the bottom: 90° is its left, which is left on the paper."""
    plan = drawn(setup_with(light("A", bearing, 2.0)))
    x, y = plan.heads[0].beam[0] / plan.scale, plan.heads[0].beam[1] / plan.scale
    assert x == pytest.approx(-2.0 * math.sin(math.radians(bearing)), abs=0.02)
    assert y == pytest.approx(2.0 * math.cos(math.radians(bearing)), abs=0.02)


def test_the_distance_on_the_line_is_the_one_along_the_beam() -> None:
    """Pythagoras: 3 m along the floor, 4 m up."""
    plan = drawn(setup_with(light("A", 45, 3.0, height=5.6)))
    assert plan.heads[0].metres == pytest.approx(5.0)
    assert plan.heads[0].distance.lines == ("5.0 m",)


def test_a_far_camera_is_drawn_nearer_with_its_true_distance() -> None:
    plan = drawn(setup_with(light("A", 45, 2.0), camera_m=40.0))
    assert plan.camera_is_cut
    assert plan.camera_words.lines == ("40 m",)
    assert plan.camera_y / plan.scale < 5.0
    assert not drawn(setup_with(light("A", 45, 2.0))).camera_is_cut


def test_two_rims_and_a_key_are_readable_on_a_phone() -> None:
    plan = drawn(setup_with(light("A", 40, 1.6), light("B", 145, 2.6), light("C", 222, 2.8)))
    # 13 units high on paper 310 wide is 13 px where a phone gives the plan 310 px.
    assert plan.width == pytest.approx(WIDE, abs=0.5)
    boxes = [word.ground for head in plan.heads for word in (head.label, head.distance)]
    for n, (left, top, width, height) in enumerate(boxes):
        for other in boxes[n + 1 :]:
            apart = (
                left + width <= other[0] + 2
                or other[0] + other[2] <= left + 2
                or top + height <= other[1] + 2
                or other[1] + other[3] <= top + 2
            )
            assert apart


LIGHTS = st.lists(st.tuples(st.floats(0, 359), st.floats(0.3, 30)), max_size=6)


@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=60)
@given(LIGHTS, st.floats(0.5, 60))
def test_everything_lies_on_the_paper_whatever_the_setup(lights: list[tuple[float, float]], camera_m: float) -> None:
    plan = drawn(setup_with(*(light(chr(65 + n), *one) for n, one in enumerate(lights)), camera_m=camera_m))
    assert plan.width >= WIDE - 0.5
    assert plan.width <= WIDE + 0.5 or plan.scale <= LEAST_PER_METRE or plan.width < 460
    for head in plan.heads:
        assert plan.left <= head.x <= plan.left + plan.width
        assert plan.top <= head.y <= plan.top + plan.height
        for words in (head.label, head.distance):
            left, top, width, height = words.ground
            assert plan.left - 2 <= left
            assert left + width <= plan.left + plan.width + 2
            assert plan.top - 2 <= top
            assert top + height <= plan.top + plan.height + 2
    assert plan.top < plan.camera_y < plan.top + plan.height


def test_panels_are_drawn_where_they_stand_turned_to_their_light() -> None:
    """A white board is turned half way between its light and the subject: law of reflection."""
    key = PlacedLight("A", Part.KEY, LampSpec(guide_number_m=45.0), bearing_deg=0.0, floor_m=2.0, height_m=1.6)
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=90.0, floor_m=2.0, height_m=1.6, for_letter="A")
    black = PlacedPanel("2", PANELS[Panel.POLYBOARD_BLACK], bearing_deg=270.0, floor_m=1.0, height_m=1.6)
    setup = Setup(Exposure(8.0, 1 / 200), (key,), panels=(board, black))
    keys = {"A": (1, 1), "1": (2, 1), "2": (3, 4)}
    words = {"A": ("Key",), "1": ("Reflector 2.0 m off",), "2": ("Black 1.0 m off",)}
    found = drawing_of(setup, None, words=words, keys=keys, background_m=4.0)
    white, dark = found.boards
    (left, top), (right, bottom) = _ends(white)
    # From the board the light is to the lower right, the subject to the right: half way is 22.5° below level.
    turned = math.degrees(math.atan2(left - right, bottom - top)) % 180.0
    assert turned == pytest.approx(22.5, abs=0.5)
    assert math.hypot(right - left, bottom - top) == pytest.approx(1.2 * found.scale, abs=0.2)  # to scale
    assert _ends(dark)[0][0] == pytest.approx(_ends(dark)[1][0])  # square to the way to the subject
    assert found.left < min(left, right)
    assert (white.letter, dark.letter, dark.key, dark.version) == ("1", "2", 3, 4)
    assert (white.at_x, white.at_y) == pytest.approx((-2.0 * found.scale, 0.0), abs=0.1)


def test_a_scrim_overhead_is_a_square_round_the_subject_and_its_words_are_beside_it() -> None:
    """Two metres each way, turned straight down: its outline from above has its true size."""
    silk = PlacedPanel("1", PANELS[Panel.SCRIM_SILK], floor_m=0.0, height_m=2.8)
    setup = Setup(Exposure(8.0, 1 / 200), (), panels=(silk,))
    words = {"1": ("Scrim 0.00 m off", "2.8 m high")}
    found = drawing_of(setup, None, words=words, keys={"1": (1, 1)}, background_m=4.0)
    (board,) = found.boards
    half = found.scale
    wanted = [(-half, -half), (-half, half), (half, -half), (half, half)]
    for corner, true in zip(sorted(board.corners), wanted, strict=True):
        assert corner == pytest.approx(true, abs=0.2)
    x, y = board.x, board.y
    assert max(abs(x), abs(y)) > half
    left, top, right, bottom = box_of(board.label)
    assert found.left <= left
    assert right <= found.left + found.width
    assert found.top <= top
    assert bottom <= found.top + found.height


def _ends(board: Board) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the two ends of a panel that stands upright: all its corners lie on one line."""
    corners = sorted(board.corners)
    return corners[0], corners[-1]


@pytest.mark.parametrize("behind", [4.0, 9.0, 18.0])
def test_a_tall_plan_is_drawn_smaller_so_that_its_letters_can_be_read(behind: float) -> None:
    """A rim far behind and a camera far off: the drawing is no taller than paper takes, its words keep their size."""
    rim = PlacedLight("A", Part.RIM, LampSpec(guide_number_m=45.0), bearing_deg=180.0, floor_m=behind, height_m=3.0)
    setup = Setup(Exposure(8.0, 1 / 200), (rim,), place=CameraPlace(distance_m=6.0))
    found = drawing_of(setup, None, words={"A": ("Rim", "3 m high")}, keys={"A": (1, 1)}, background_m=40.0)
    assert found.height <= TALL
    assert found.width <= WIDE


@pytest.mark.parametrize("floor", [3.2, 3.6, 4.0, 4.4, 4.8])
@pytest.mark.parametrize("bearing", [150.0, 180.0, 210.0])
def test_a_light_s_words_leave_the_background_s_line_free(floor: float, bearing: float) -> None:
    """A rim just before the background or behind it: its words stand on one side of the line, never on it."""
    setup = replace(setup_with(light("A", 35.0, 1.6), light("B", bearing, floor, 3.6)), background=Background(4.0))
    shown = drawn(setup)
    assert shown.background_y is not None
    for head in shown.heads:
        _left, top, _right, bottom = box_of(head.label)
        assert not top < shown.background_y < bottom
