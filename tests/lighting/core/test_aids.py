"""What panels do, against integrals and laws that the program does not use."""

import itertools
import math
from dataclasses import replace

import pytest
from scipy import integrate

from shoots.kit.core.lamps import LampSpec
from shoots.kit.core.panels import PANELS, Panel, PanelKind, PanelSpec
from shoots.lighting.core.aids import aided_ambient, shields_lens, subject_output, thrown_back
from shoots.lighting.core.ambient import Ambient, Sunlight, metered_ambient
from shoots.lighting.core.framecheck import Trouble, troubles
from shoots.lighting.core.panels import PlacedPanel, Shields
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Background, Exposure, LetterTwice, Part, PlacedLight, Setup, Subject
from tests.lighting.core.setups import OUTSIDE

POINT = LampSpec(guide_number_m=40.0, reflector_m=0.0, beam_deg=120.0)
FACE = Subject(height_m=1.75, point_m=1.6)


def _light(letter: str, part: Part, bearing: float, floor: float) -> PlacedLight:
    return PlacedLight(letter, part, POINT, bearing_deg=bearing, floor_m=floor, height_m=1.6)


def _lit(*lights: PlacedLight, panels: tuple[PlacedPanel, ...] = (), ambient: Ambient | None = None) -> Setup:
    dark = Ambient(ev100=None, spread_stops=0.0)
    return Setup(Exposure(8.0, 1 / 125), lights, ambient or dark, subject=FACE, panels=panels)


def _configuration(width: float, height: float, far: float) -> float:
    """Return the configuration factor of a parallel rectangle by integration over its area."""
    found, _ = integrate.dblquad(
        lambda y, x: far**2 / (math.pi * (x * x + y * y + far * far) ** 2),
        -width / 2, width / 2, -height / 2, height / 2,
    )  # fmt: skip
    return found


def test_a_white_board_before_the_face_turns_a_rim_round() -> None:
    """Configuration factor by integration with scipy; light by the inverse square from the rim to the board."""
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=1.0, height_m=1.6)
    setup = _lit(_light("R", Part.RIM, 180.0, 3.0), panels=(board,))
    ((letter, thrown),) = thrown_back(setup, setup.lights[0])
    on_board = 250.0 * 40.0**2 / (100.0 * 4.0**2)  # C·GN²/(100·d²)
    assert letter == "1"
    assert thrown == pytest.approx(0.8 * _configuration(1.2, 2.4, 1.0) * on_board, rel=1e-4)
    # A rim alone adds nothing to the front; the board makes it a fill.
    assert evaluate(replace(setup, panels=())).total is None
    assert evaluate(setup).total.stops == pytest.approx(evaluate(setup).panels[0].gives.stops)


def test_a_board_for_a_light_is_turned_half_way_and_pays_the_cosine_twice() -> None:
    """Light from a right angle: 45° in and 45° out, so half of what a board square to both would give."""
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=2.0, height_m=1.6, for_letter="K")
    # The light stands level with the board, two metres to its side, aimed at it across the room.
    light = replace(_light("K", Part.KEY, 45.0, 2.0 * math.sqrt(2.0)), off_axis_deg=0.0)
    setup = _lit(light, panels=(board,))
    ((_, thrown),) = thrown_back(setup, light)
    on_board = 250.0 * 40.0**2 / (100.0 * 2.0**2) * math.cos(math.radians(45.0))  # beam 120°: cosine off its axis
    share = 0.8 * _configuration(1.2, 2.4, 2.0)
    assert thrown == pytest.approx(on_board * share * 0.5, rel=1e-3)


def test_silver_throws_more_than_white_and_never_more_than_falls_on_it() -> None:
    near = [
        thrown_back(
            _lit(
                _light("R", Part.RIM, 180.0, 2.0),
                panels=(PlacedPanel("1", PANELS[kind], bearing_deg=0.0, floor_m=0.1, height_m=1.6),),
            ),
            _light("R", Part.RIM, 180.0, 2.0),
        )[0][1]
        for kind in (Panel.REFLECTOR_WHITE, Panel.REFLECTOR_SILVER)
    ]
    assert near[0] <= near[1] <= 250.0 * 40.0**2 / (100.0 * 2.1**2)


def test_negative_fill_deepens_the_shadow_side_and_leaves_the_lit_side() -> None:
    """1.2 × 2.0 m black cloth at 0.5 m: what the configuration factor, integrated with scipy, leaves."""
    key = _light("K", Part.KEY, 60.0, 2.0)
    black = PanelSpec(PanelKind.BLACK, width_m=1.2, height_m=2.0, reflectance=0.04)
    board = PlacedPanel("1", black, bearing_deg=-90.0, floor_m=0.5, height_m=1.6)
    plain = evaluate(_lit(key, ambient=metered_ambient(9.0)))
    deep = evaluate(_lit(key, ambient=metered_ambient(9.0), panels=(board,)))
    left = 1.0 - _configuration(1.2, 2.0, 0.5) * 0.96
    assert deep.key_over_fill_stops - plain.key_over_fill_stops == pytest.approx(-math.log2(left), abs=1e-6)
    assert deep.total.stops == pytest.approx(plain.total.stops, abs=1e-9)


def test_a_flag_keeps_a_light_off_the_background_only() -> None:
    key = _light("K", Part.KEY, 30.0, 2.0)
    wall = replace(_lit(key), background=Background(1.5))
    flag = PlacedPanel("1", PANELS[Panel.FLAG], for_letter="K", covers=0.75, shields=Shields.BACKGROUND)
    before, after = evaluate(wall), evaluate(replace(wall, panels=(flag,)))
    assert after.total.stops == before.total.stops
    # Three quarters covered, two hundredths of them come round all the same.
    assert after.background_stops - before.background_stops == pytest.approx(math.log2(0.25 + 0.75 * 0.02))


def test_a_flag_half_before_a_front_takes_a_stop() -> None:
    """An even front gives light in proportion to what is seen of it; 0.02 comes round the flag."""
    key = _light("K", Part.KEY, 30.0, 2.0)
    flag = PlacedPanel("1", PANELS[Panel.FLAG], for_letter="K", covers=0.5)
    found = evaluate(_lit(key, panels=(flag,)))
    assert found.panels[0].takes_stops == pytest.approx(math.log2(0.51))
    assert found.total.stops - evaluate(_lit(key)).total.stops == pytest.approx(math.log2(0.51))


def test_a_flag_between_a_rim_and_the_lens_ends_the_flare() -> None:
    rim = replace(_light("R", Part.RIM, 178.0, 2.0), height_m=1.7)
    setup = _lit(rim)
    assert Trouble.FLARE in {one.trouble for one in troubles(setup)}
    flag = PlacedPanel("1", PANELS[Panel.FLAG], bearing_deg=90.0, floor_m=3.0, for_letter="R", shields=Shields.LENS)
    shaded = replace(setup, panels=(flag,))
    assert shields_lens(shaded, "R")
    assert Trouble.FLARE not in {one.trouble for one in troubles(shaded)}


def test_a_silk_overhead_takes_the_sun_and_becomes_the_sky() -> None:
    """2 × 2 m silk of one stop, 1 m above the face, under 80 klx: half passes, its cloth is seen by F."""
    sun = Sunlight(normal_lx=80000.0, on_subject_lx=40000.0, bearing_deg=0.0, elevation_deg=60.0)
    level = math.log2(50000.0 / 2.5)
    ambient = Ambient(level, sun=sun)
    silk = PanelSpec(PanelKind.SCRIM, width_m=2.0, height_m=2.0, takes_stops=1.0, scatter=1.0)
    over = PlacedPanel("1", silk, bearing_deg=0.0, floor_m=0.0, height_m=2.6)
    aided = aided_ambient(_lit(ambient=ambient, panels=(over,)))
    share = _configuration(2.0, 2.0, 1.0)
    assert aided.front_lx == pytest.approx(10000.0 + 40000.0 * 0.5 * share, rel=1e-5)


def test_a_metered_ambient_does_not_say_how_much_of_it_is_sun() -> None:
    over = PlacedPanel("1", PANELS[Panel.SCRIM_SILK], bearing_deg=0.0, floor_m=0.0, height_m=2.6)
    setup = _lit(ambient=metered_ambient(14.0), panels=(over,))
    assert evaluate(setup).panels[0].does_nothing


def test_a_silk_before_a_lamp_makes_it_soft_and_weaker() -> None:
    key = _light("K", Part.KEY, 45.0, 3.0)
    silk = PlacedPanel("1", PANELS[Panel.SCRIM_SILK], bearing_deg=45.0, floor_m=1.0, height_m=1.6, for_letter="K")
    bare, soft = evaluate(_lit(key)).lights[0], evaluate(_lit(key, panels=(silk,))).lights[0]
    assert soft.apparent_deg > 60.0 > bare.apparent_deg
    assert soft.reading.stops < bare.reading.stops - 1.0
    # Behind its light a scrim does nothing, and says so.
    beyond = replace(silk, floor_m=3.5)
    assert evaluate(_lit(key, panels=(beyond,))).panels[0].does_nothing


def test_a_reflector_in_the_sun_fills_from_the_front() -> None:
    """Sun behind the subject at 30°: a white board in front, turned half way, gives cos²(half angle)·ρ·F of it."""
    sun = Sunlight(normal_lx=80000.0, on_subject_lx=0.0, bearing_deg=180.0, elevation_deg=30.0)
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=1.5, height_m=1.6)
    with_sun = aided_ambient(_lit(ambient=Ambient(12.0, sun=sun), panels=(board,)))
    without = aided_ambient(_lit(ambient=Ambient(12.0), panels=(board,)))
    half = math.cos(math.radians(15.0))
    share = 0.8 * _configuration(1.2, 2.4, 1.5)
    sky = 2.5 * 2.0**12
    assert without.front_lx == pytest.approx(sky + sky * share, rel=1e-4)
    assert with_sun.front_lx == pytest.approx(sky + (sky + 80000.0 * half) * share * half, rel=1e-4)


def test_the_order_of_panels_does_not_matter() -> None:
    panels = (
        PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=-60.0, for_letter="A"),
        PlacedPanel("2", PANELS[Panel.POLYBOARD_BLACK], bearing_deg=-100.0),
        PlacedPanel("3", PANELS[Panel.REFLECTOR_SILVER], bearing_deg=10.0, height_m=0.8),
    )
    found = {
        round(evaluate(replace(OUTSIDE, panels=order)).total.stops, 12) for order in itertools.permutations(panels)
    }
    assert len(found) == 1


def test_without_panels_nothing_changes_and_letters_are_shared_with_the_lights() -> None:
    for light in OUTSIDE.lights:
        assert thrown_back(OUTSIDE, light) == ()
        assert subject_output(OUTSIDE, light).amount > 0.0
    with pytest.raises(LetterTwice):
        replace(OUTSIDE, panels=(PlacedPanel("A", PANELS[Panel.FLAG]),))


def test_a_board_where_the_camera_looks_is_in_the_frame() -> None:
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=1.0, height_m=1.2)
    assert [one.letter for one in troubles(_lit(panels=(board,))) if one.trouble is Trouble.PANEL_IN_FRAME] == ["1"]
