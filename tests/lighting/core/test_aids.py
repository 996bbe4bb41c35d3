"""What panels do, against integrals and laws that the program does not use."""

import itertools
import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from scipy import integrate

from shoots.kit.core.lamps import LampSpec
from shoots.kit.core.panels import PANELS, Panel, PanelKind, PanelSpec
from shoots.lighting.core.aids import aided_ambient, shields_lens, subject_output, thrown_back
from shoots.lighting.core.ambient import Ambient, Sunlight, metered_ambient
from shoots.lighting.core.framecheck import Trouble, light_position, troubles
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


def _bounced(
    size: tuple[float, float], middle: tuple, normal: tuple, lit: Callable[[np.ndarray], float], receptor: tuple = ()
) -> float:
    """Return what a matt board of reflectance 0.8 gives at the face, facing its middle: Lambert's law over its area,
    by scipy. ``lit`` is the light on the board at a point, square to the board."""
    face, mid, turn = np.array([0.0, 0.0, 1.6]), np.array(middle), np.array(normal)
    across = np.cross([0.0, 0.0, 1.0], turn)
    across = across / np.linalg.norm(across)
    along = np.cross(turn, across)
    to_board = np.array(receptor) if receptor else (mid - face) / np.linalg.norm(mid - face)

    def given(y: float, x: float) -> float:
        at = mid + x * across + y * along
        way = face - at
        far = np.linalg.norm(way)
        return 0.8 / math.pi * lit(at) * max(0.0, turn @ way / far) * max(0.0, -(to_board @ way) / far) / far**2

    return integrate.dblquad(given, -size[0] / 2, size[0] / 2, -size[1] / 2, size[1] / 2, epsabs=1e-8, epsrel=1e-6)[0]


def _from(lamp: tuple[float, float, float], normal: tuple, aim: tuple = (0.0, 0.0, 1.6)) -> Callable:
    """Return the light of the point lamp on a board: C·GN²/(100·d²), a beam of 120° is a cosine off its axis."""
    start, turn = np.array(lamp), np.array(normal)
    axis = (np.array(aim) - start) / np.linalg.norm(np.array(aim) - start)

    def lit(at: np.ndarray) -> float:
        way = at - start
        far = np.linalg.norm(way)
        return 250.0 * 40.0**2 / 100.0 / far**2 * max(0.0, axis @ way / far) * max(0.0, -(turn @ way) / far)

    return lit


def test_a_white_board_before_the_face_turns_a_rim_round() -> None:
    """Lambert's law integrated over the board with scipy; light by the inverse square from the rim to each point."""
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=1.0, height_m=1.6)
    setup = _lit(_light("R", Part.RIM, 180.0, 3.0), panels=(board,))
    ((letter, thrown),) = thrown_back(setup, setup.lights[0])
    assert letter == "1"
    facing = (0.0, 1.0, 0.0)
    assert thrown == pytest.approx(
        _bounced((1.2, 2.4), (0.0, -1.0, 1.6), facing, _from((0.0, 3.0, 1.6), facing)), rel=1e-4
    )
    # A rim alone adds nothing to the front; the board makes it a fill.
    assert evaluate(replace(setup, panels=())).total is None
    assert evaluate(setup).total.stops == pytest.approx(evaluate(setup).panels[0].gives.stops)


def test_a_board_for_a_light_is_turned_half_way_and_pays_the_cosine_twice() -> None:
    """Light from a right angle: 45° in and 45° out; Lambert's law integrated over the turned board with scipy. Far
    off it is half of what a board square to both would give."""
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=2.0, height_m=1.6, for_letter="K")
    # The light stands level with the board, two metres to its side, aimed at it across the room.
    light = replace(_light("K", Part.KEY, 45.0, 2.0 * math.sqrt(2.0)), off_axis_deg=0.0)
    setup = _lit(light, panels=(board,))
    ((_, thrown),) = thrown_back(setup, light)
    turned = (-math.sqrt(0.5), math.sqrt(0.5), 0.0)
    lit = _from((-2.0, -2.0, 1.6), turned)
    assert thrown == pytest.approx(_bounced((1.2, 2.4), (0.0, -2.0, 1.6), turned, lit), rel=1e-3)
    far = replace(board, panel=replace(board.panel, width_m=0.06, height_m=0.12))
    ((_, small),) = thrown_back(replace(setup, panels=(far,)), light)
    on_board = 250.0 * 40.0**2 / (100.0 * 2.0**2) * math.cos(math.radians(45.0))  # beam 120°: cosine off its axis
    assert small == pytest.approx(on_board * 0.8 * _configuration(0.06, 0.12, 2.0) * 0.5, rel=1e-3)


def test_a_board_may_be_turned_and_tilted_by_hand() -> None:
    """Turned 20° past the face and leant back by 15°: Lambert's law over the board with scipy."""
    board = PlacedPanel(
        "1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=1.5, height_m=1.3, turn_deg=200.0, tilt_deg=15.0
    )
    light = _light("R", Part.RIM, 180.0, 3.0)
    ((_, thrown),) = thrown_back(_lit(light, panels=(board,)), light)
    turn, up = math.radians(200.0), math.radians(15.0)
    facing = (-math.cos(up) * math.sin(turn), -math.cos(up) * math.cos(turn), math.sin(up))
    lit = _from((0.0, 3.0, 1.6), facing)
    assert thrown == pytest.approx(_bounced((1.2, 2.4), (0.0, -1.5, 1.3), facing, lit), rel=2e-3)
    away = replace(board, turn_deg=0.0)
    assert thrown_back(_lit(light, panels=(away,)), light) == (("1", 0.0),)


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
    flag = PlacedPanel(
        "1", PANELS[Panel.FLAG], bearing_deg=178.0, floor_m=1.5, height_m=1.7, for_letter="R", shields=Shields.LENS
    )
    shaded = replace(setup, panels=(flag,))
    assert shields_lens(shaded, "R")
    assert Trouble.FLARE not in {one.trouble for one in troubles(shaded)}
    # Moved aside it shields nothing, unless somebody says that it does.
    aside = replace(flag, bearing_deg=120.0)
    assert not shields_lens(replace(setup, panels=(aside,)), "R")
    assert shields_lens(replace(setup, panels=(replace(aside, covers=1.0),)), "R")


def test_a_silk_overhead_takes_the_sun_and_becomes_the_sky() -> None:
    """2 × 2 m silk of one stop, 1 m above the face, under 80 klx: half passes. What the cloth gives on a flat receptor
    turned to the camera, and the part of the sky that it stands before, are integrated over the cloth with scipy."""
    sun = Sunlight(normal_lx=80000.0, on_subject_lx=40000.0, bearing_deg=0.0, elevation_deg=60.0)
    level = math.log2(50000.0 / 2.5)
    ambient = Ambient(level, sun=sun)
    silk = PanelSpec(PanelKind.SCRIM, width_m=2.0, height_m=2.0, takes_stops=1.0, scatter=1.0)
    over = PlacedPanel("1", silk, bearing_deg=0.0, floor_m=0.0, height_m=2.6)
    aided = aided_ambient(_lit(ambient=ambient, panels=(over,)))
    share = _level_cloth(1.0, 1.0)
    cloth = 80000.0 * math.sin(math.radians(60.0)) * 0.5 * share
    sky = 10000.0 * (1.0 - share / 0.5 * 0.5)
    assert aided.front_lx == pytest.approx(sky + cloth, rel=1e-5)
    # A net only takes its loss; a low sun passes under the cloth.
    net = replace(over, panel=replace(silk, scatter=0.0))
    assert aided_ambient(_lit(ambient=ambient, panels=(net,))).front_lx == pytest.approx(sky + 20000.0, rel=1e-5)
    low = replace(ambient, sun=replace(sun, elevation_deg=40.0))
    assert aided_ambient(_lit(ambient=low, panels=(net,))).front_lx == pytest.approx(sky + 40000.0, rel=1e-5)


def _level_cloth(half: float, over: float) -> float:
    """Return the configuration factor of a level square for a receptor below its middle that looks sideways."""
    found, _ = integrate.dblquad(
        lambda y, x: y / math.sqrt(x * x + y * y + over * over) * over / math.pi
        / (x * x + y * y + over * over) ** 1.5,
        -half, half, 0.0, half,
    )  # fmt: skip
    return found


def test_a_reading_without_the_scrim_is_the_ambient_before_it() -> None:
    """With the sun known the reading is split as computed; else all of it comes through the cloth's 1.5 stops; taken
    under the scrim it stays."""
    over = PlacedPanel("1", PANELS[Panel.SCRIM_SILK], bearing_deg=0.0, floor_m=0.0, height_m=2.6)
    read = _lit(ambient=metered_ambient(14.0), panels=(over,))
    found = evaluate(read)
    assert found.panels[0].takes_stops == pytest.approx(-1.5)
    assert found.panels[0].sun_unknown
    assert found.ambient.stops - evaluate(replace(read, panels=())).ambient.stops == pytest.approx(-1.5)
    under = replace(read, ambient=metered_ambient(14.0, under_panels=True))
    found = evaluate(under)
    assert found.panels[0].in_reading
    assert not found.panels[0].does_nothing
    assert found.ambient.stops == pytest.approx(evaluate(replace(under, panels=())).ambient.stops)


def test_a_reading_is_split_as_sun_and_sky_are_computed() -> None:
    """Half the light of the estimate, half the sun: 40 of 50 klx stay four fifths at 25 klx."""
    sun = Sunlight(normal_lx=80000.0, on_subject_lx=40000.0, bearing_deg=0.0, elevation_deg=60.0)
    level = math.log2(50000.0 / 2.5)
    read = metered_ambient(level - 1.0, estimate=Ambient(level, sun=sun))
    assert (read.sun.normal_lx, read.sun.on_subject_lx) == pytest.approx((40000.0, 20000.0))
    net = PanelSpec(PanelKind.SCRIM, width_m=2.0, height_m=2.0, takes_stops=2.0, scatter=0.0)
    before = PlacedPanel("1", net, bearing_deg=0.0, floor_m=0.5, height_m=1.6 + 0.5 * math.tan(math.radians(60.0)))
    aided = aided_ambient(_lit(ambient=read, panels=(before,)))
    # The net faces the face along the sun's way; a quarter passes of the sun and of the sky behind the net, of which
    # a flat receptor turned to the camera sees half.
    tilt = math.radians(60.0)
    facing = (0.0, math.cos(tilt), -math.sin(tilt))
    seen = _bounced((2.0, 2.0), before.position, facing, lambda at: 1.0 / 0.8, receptor=(0.0, -1.0, 0.0))
    assert aided.front_lx == pytest.approx(5000.0 * (1.0 - 0.75 * seen / 0.5) + 20000.0 / 4.0, rel=1e-5)
    assert not evaluate(_lit(ambient=read, panels=(before,))).panels[0].sun_unknown
    closed = metered_ambient(12.0, estimate=Ambient(12.0, even=True))
    assert closed.sun is None
    assert closed.even


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
    """Sun behind the subject at 30°: a white board in front, turned half way, is lit by its cosine; Lambert's law over
    the leaning board with scipy."""
    sun = Sunlight(normal_lx=80000.0, on_subject_lx=0.0, bearing_deg=180.0, elevation_deg=30.0)
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=1.5, height_m=1.6)
    with_sun = aided_ambient(_lit(ambient=Ambient(12.0, sun=sun), panels=(board,)))
    without = aided_ambient(_lit(ambient=Ambient(12.0), panels=(board,)))
    half = math.radians(15.0)
    facing = (0.0, math.cos(half), math.sin(half))
    share = _bounced((1.2, 2.4), (0.0, -1.5, 1.6), facing, lambda at: 1.0)
    sky = 2.5 * 2.0**12
    assert without.front_lx == pytest.approx(sky + sky * 0.8 * _configuration(1.2, 2.4, 1.5), rel=1e-4)
    assert with_sun.front_lx == pytest.approx(sky + (sky + 80000.0 * math.cos(half)) * share, rel=1e-4)


def test_a_flag_before_the_head_takes_the_board_its_light() -> None:
    """A flag half way between a head and a board hides the head from the board's middle, and not from the face."""
    light = _light("K", Part.KEY, 60.0, 2.0)
    board = PlacedPanel(
        "1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=-60.0, floor_m=2.0, height_m=1.6, for_letter="K"
    )
    half = tuple((one + two) / 2.0 for one, two in zip(light_position(light), board.position, strict=True))
    away = math.hypot(half[0], half[1])
    flag = PlacedPanel(
        "2", PANELS[Panel.FLAG], bearing_deg=0.0, floor_m=away, height_m=1.6, for_letter="K", turn_deg=90.0
    )
    assert flag.position == pytest.approx(half, abs=1e-9)
    plain = thrown_back(_lit(light, panels=(board,)), light)[0][1]
    shaded = _lit(light, panels=(board, flag))
    assert thrown_back(shaded, light)[0][1] == pytest.approx(0.02 * plain)  # what comes round a flag
    found = evaluate(shaded)
    assert dict(found.panels[0].kept) == {"K": pytest.approx(0.98)}
    assert found.panels[1].hides == 0.0
    assert subject_output(shaded, light).amount == subject_output(_lit(light), light).amount


def test_a_scrim_over_a_board_takes_the_board_the_sun() -> None:
    """A net of two stops and 3 × 3 m before the sun of the board's middle: a quarter of the sun is left on it."""
    sun = Sunlight(normal_lx=80000.0, on_subject_lx=0.0, bearing_deg=180.0, elevation_deg=60.0)
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=0.0, floor_m=2.0, height_m=1.2)
    net = PanelSpec(PanelKind.SCRIM, width_m=1.0, height_m=1.0, takes_stops=2.0, scatter=0.0)
    over = PlacedPanel(
        "2", net, bearing_deg=0.0, floor_m=1.0, height_m=1.2 + math.tan(math.radians(60.0)), tilt_deg=-90.0
    )
    dark = Ambient(-20.0, sun=sun)
    plain = aided_ambient(_lit(ambient=dark, panels=(board,))).thrown_lx[0][1]
    shaded = _lit(ambient=dark, panels=(board, over))
    assert aided_ambient(shaded).thrown_lx[0][1] == pytest.approx(plain / 4.0, rel=1e-6)
    assert dict(evaluate(shaded).panels[0].kept) == {"": pytest.approx(0.75)}


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
