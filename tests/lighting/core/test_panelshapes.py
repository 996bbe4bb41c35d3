"""Panels as they are drawn and as the camera sees them (`panelshapes`): right angles, true sizes, tangents."""

import math

import pytest

from shoots.kit.core.lamps import StandSpec
from shoots.kit.core.panels import PANELS, Panel, PanelKind, PanelSpec
from shoots.lighting.core.framecheck import Trouble, troubles
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.panelshapes import drawn_panel, held_at, seen_planes
from shoots.lighting.core.setup import CameraPlace, Exposure, Setup, Subject
from shoots.lighting.core.shadows import clipped

STAND = StandSpec(foot_radius_m=0.5, legs=3, mass_kg=3.0, max_height_m=4.0)


def _setup(*panels: PlacedPanel) -> Setup:
    return Setup(Exposure(8.0, 1 / 125), subject=Subject(1.75, 1.6), place=CameraPlace(3.0, 1.4, 1.4), panels=panels)


def test_a_panel_is_drawn_to_scale_from_above_and_from_the_side() -> None:
    """A board 1.2 × 2.4 m at the camera's left, square to the way to the face: on edge from the camera's side."""
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_BLACK], bearing_deg=90.0, floor_m=2.0, height_m=1.6)
    above, side = (drawn_panel(_setup(board), board, from_side=way) for way in (False, True))
    assert (above.at.x, above.at.y) == pytest.approx((-2.0, 0.0), abs=1e-9)
    assert {round(one.x, 9) for one in above.outline} == {-2.0}
    assert max(one.y for one in above.outline) - min(one.y for one in above.outline) == pytest.approx(1.2)
    # The section looks from the left: the board is seen in full, its middle over the subject.
    assert max(one.x for one in side.outline) - min(one.x for one in side.outline) == pytest.approx(1.2)
    assert (min(one.y for one in side.outline), max(one.y for one in side.outline)) == pytest.approx((-2.8, -0.4))
    assert above.turn_deg == pytest.approx(-90.0)
    assert above.feet == ()


def test_what_stands_is_held_in_its_middle_and_what_lies_at_both_ends() -> None:
    silk = PlacedPanel("1", PANELS[Panel.SCRIM_SILK], bearing_deg=0.0, floor_m=0.0, height_m=2.8, stand=STAND)
    ends = held_at(_setup(silk), silk)
    assert sorted(ends) == [pytest.approx((-1.0, 0.0, 2.8)), pytest.approx((1.0, 0.0, 2.8))]
    upright = PlacedPanel("1", PANELS[Panel.FLAG], bearing_deg=90.0, floor_m=1.0, height_m=1.6, stand=STAND)
    assert held_at(_setup(upright), upright) == (upright.position,)
    by_hand = PlacedPanel("1", PANELS[Panel.FLAG])
    assert held_at(_setup(by_hand), by_hand) == ()


def test_what_the_camera_sees_is_bounded_by_tangents() -> None:
    """90° across and 60° up, level at 1 m: at 2 m the frame is 4 m wide and 2·2·tan 30° = 2.31 m high."""
    planes = seen_planes((0.0, -2.0, 1.0), 90.0, 60.0, 0.0)
    wall = ((-9.0, 0.0, -9.0), (9.0, 0.0, -9.0), (9.0, 0.0, 9.0), (-9.0, 0.0, 9.0))
    seen = clipped(wall, planes)
    half = 2.0 * math.tan(math.radians(30.0))
    assert (min(one[0] for one in seen), max(one[0] for one in seen)) == pytest.approx((-2.0, 2.0))
    assert (min(one[2] for one in seen), max(one[2] for one in seen)) == pytest.approx((1.0 - half, 1.0 + half))
    behind = tuple((x, -4.0, z) for x, _, z in wall)
    assert clipped(behind, planes) == ()


@pytest.mark.parametrize(("gap", "is_seen"), [(0.02, False), (-0.02, True)])
def test_an_edge_of_a_panel_is_in_the_frame_or_not(gap: float, is_seen: bool) -> None:
    """50 mm on 36 mm, 3 m off: at the subject the frame ends 3 · 18 / 50 = 1.08 m beside the axis, less focusing."""
    near = 3.0 * 18.0 / (50.0 * 3.0 / (3.0 - 0.05))
    thin = PanelSpec(PanelKind.FLAG, width_m=1.0, height_m=0.3)
    flag = PlacedPanel("1", thin, bearing_deg=-90.0, floor_m=near + 0.5 + gap, height_m=1.4, turn_deg=0.0, tilt_deg=0.0)
    found = {one.trouble for one in troubles(_setup(flag))}
    assert (Trouble.PANEL_IN_FRAME in found) is is_seen
