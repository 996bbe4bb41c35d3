"""What shows in the frame, by geometry, and what the trade warns of."""

import math
from dataclasses import replace

import pytest

from shoots.kit.core.cameras import CameraSpec, LensSpec
from shoots.kit.core.lamps import GelSpec, StandSpec
from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp, Modifier
from shoots.lighting.core.ambient import DARK
from shoots.lighting.core.framecheck import Trouble, camera_view, light_position, troubles
from shoots.lighting.core.setup import (
    Background,
    CameraPlace,
    Exposure,
    Part,
    PlacedLight,
    Setup,
    Subject,
)

HEAD = LAMPS[Lamp.BATTERY_300]
PLACE = CameraPlace(distance_m=4.0, height_m=1.4, aim_m=1.4)
CLEAN = PlacedLight("A", Part.KEY, HEAD, bearing_deg=60.0, floor_m=2.5, height_m=2.2)


def _setup(*lights: PlacedLight, **changes: object) -> Setup:
    base = Setup(Exposure(8.0, 1 / 125), lights, DARK, lens=LensSpec(85.0), place=PLACE, subject=Subject())
    return replace(base, **changes)


def _kinds(setup: Setup) -> list[tuple[Trouble, str]]:
    return [(one.trouble, one.letter) for one in troubles(setup)]


def test_a_light_beside_the_frame_troubles_nobody() -> None:
    assert _kinds(_setup(CLEAN)) == []


def test_a_head_behind_the_subject_at_eye_level_is_in_the_frame() -> None:
    rim = PlacedLight("B", Part.RIM, HEAD, bearing_deg=175.0, floor_m=2.0, height_m=1.5)
    assert (Trouble.HEAD_IN_FRAME, "B") in _kinds(_setup(rim))


def test_a_head_above_the_frame_still_has_its_stand_in_it() -> None:
    rim = PlacedLight("B", Part.RIM, HEAD, bearing_deg=176.0, floor_m=1.5, height_m=3.5)
    assert (Trouble.STAND_IN_FRAME, "B") in _kinds(_setup(rim))


def test_held_upright_the_frame_is_narrower() -> None:
    """Geometry: at the edge of the wide view of a camera held level, outside when it is held upright."""
    view = camera_view(_setup())
    edge = math.degrees(math.atan(0.8 * math.tan(math.radians(view.horizontal_deg / 2.0)) * 6.0 / 2.0))
    rim = PlacedLight(
        "B",
        Part.RIM,
        HEAD,
        bearing_deg=180.0 - edge,
        floor_m=math.hypot(2.0, 2.0 * math.tan(math.radians(edge))),
        height_m=1.4,
    )
    level = _setup(rim)
    assert (Trouble.HEAD_IN_FRAME, "B") in _kinds(level)
    upright = replace(level, place=replace(PLACE, upright=True))
    assert camera_view(upright).horizontal_deg == pytest.approx(view.vertical_deg)
    assert (Trouble.HEAD_IN_FRAME, "B") not in _kinds(upright)


def test_a_rim_that_shines_into_the_lens_flares_and_a_gridded_one_less() -> None:
    rim = PlacedLight("B", Part.RIM, HEAD, bearing_deg=125.0, floor_m=2.5, height_m=1.6)
    assert (Trouble.FLARE, "B") in _kinds(_setup(rim))
    grid = replace(rim, modifier=MODIFIERS[Modifier.GRIDDED_REFLECTOR])
    assert (Trouble.FLARE, "B") not in _kinds(_setup(grid))


def test_a_key_that_lights_the_background_spills() -> None:
    lit = PlacedLight("D", Part.BACKGROUND, HEAD, bearing_deg=120.0, floor_m=1.8, height_m=1.5, power=1 / 64)
    near = _kinds(_setup(CLEAN, lit, background=Background(1.5)))
    assert (Trouble.SPILL_ON_BACKGROUND, "A") in near
    grid = replace(CLEAN, modifier=MODIFIERS[Modifier.GRIDDED_REFLECTOR], power=1 / 64)
    far = _kinds(_setup(grid, replace(lit, power=1.0), background=Background(6.0)))
    assert (Trouble.SPILL_ON_BACKGROUND, "A") not in far


def test_beyond_the_sync_speed_there_is_a_dark_band_of_known_size() -> None:
    """A row is open while the curtains leave a slit: 1/600 s of a run of 1/300 s leaves half in the dark."""
    body = CameraSpec(sync_s=1 / 200, curtain_s=1 / 300)
    found = troubles(_setup(CLEAN, camera=body, exposure=Exposure(8.0, 1 / 600)))
    assert [(one.trouble, one.letter) for one in found] == [(Trouble.DARK_BAND, "A")]
    assert found[0].amount == pytest.approx(0.5)


def test_a_long_tail_at_the_sync_speed_darkens_an_edge() -> None:
    """1/200 s, curtain 1/300 s, t0.1 4 ms: over half a stop."""
    found = troubles(_setup(CLEAN, exposure=Exposure(8.0, 1 / 200)))
    assert found[0].trouble is Trouble.EDGE_DARKER
    assert found[0].amount < -0.5


def test_diffraction_at_f_22_is_pointed_out() -> None:
    """Common practice, no source: Airy disc about 30 µm."""
    found = [one for one in troubles(_setup(CLEAN, exposure=Exposure(22.627, 1 / 125))) if not one.letter]
    assert found[0].trouble is Trouble.DIFFRACTION
    assert found[0].amount == pytest.approx(30.37, abs=0.02)


def test_a_stand_that_does_not_go_so_high_is_named() -> None:
    high = replace(CLEAN, height_m=3.0, stand=StandSpec(0.5, max_height_m=2.6))
    found = troubles(_setup(high))
    assert found[0].trouble is Trouble.STAND_TOO_LOW
    assert found[0].amount == pytest.approx(0.4)


def test_gels_beyond_the_blue_limit_are_named() -> None:
    blue = replace(CLEAN, gels=(GelSpec(-137.0, 0.34), GelSpec(-78.0, 0.55)))
    assert (Trouble.BEYOND_BLUE, "A") in _kinds(_setup(blue))


def test_positive_bearings_stand_on_the_cameras_left() -> None:
    """The convention, stated once in quality.py."""
    x, y, z = light_position(PlacedLight("A", Part.KEY, HEAD, bearing_deg=90.0, floor_m=2.0, height_m=1.5))
    assert (x, y, z) == pytest.approx((-2.0, 0.0, 1.5))
    assert light_position(replace(CLEAN, bearing_deg=0.0, floor_m=1.0))[1] == pytest.approx(-1.0)
