"""The two starting points say what the trade means by them, and can be solved."""

from shoots.kit.core.cameras import FilterSpec, LensSpec
from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp
from shoots.lighting.core.quality import Softness
from shoots.lighting.core.setup import Exposure, Part, PlacedLight, Setup
from shoots.lighting.core.solver import solve
from shoots.lighting.core.starts import STARTS, Start, StartingPoint
from shoots.lighting.core.wishes import Problem
from tests.lighting.core.setups import dull


def _setup(start: StartingPoint, ev: float, widest: float) -> Setup:
    lights = tuple(
        PlacedLight(
            "ABCD"[index],
            one.part,
            LAMPS[Lamp.BATTERY_600],
            MODIFIERS[one.modifier],
            bearing_deg=one.bearing_deg,
            floor_m=one.floor_m,
            height_m=1.6 + one.above_face_m,
        )
        for index, one in enumerate(start.lights)
    )
    bag = (FilterSpec(3.0), FilterSpec(6.0))
    return Setup(Exposure(8.0, 1 / 200), lights, dull(ev), lens=LensSpec(85.0, widest, 16.0), filters=bag)


def test_every_mood_has_a_starting_point_with_a_key() -> None:
    assert set(STARTS) == set(Start)
    for start in STARTS.values():
        assert start.lights[0].part is Part.KEY


def test_dark_and_dramatic_keeps_the_ambient_two_to_three_stops_under_with_a_hard_key() -> None:
    """Common practice, no source."""
    start = STARTS[Start.DARK_AND_DRAMATIC]
    found = solve(Problem(_setup(start, 11.0, 2.8), start.wishes))
    assert found.is_met
    assert -3.0 <= found.reading.ambient.stops <= -2.0
    assert found.reading.lights[0].softness is Softness.HARD


def test_bright_summer_has_a_background_at_or_over_a_soft_key_and_shallow_depth() -> None:
    """Common practice, no source."""
    start = STARTS[Start.BRIGHT_SUMMER]
    found = solve(Problem(_setup(start, 12.0, 1.4), start.wishes))
    assert found.is_met
    assert found.reading.background_stops >= -0.01
    assert found.reading.lights[0].softness is Softness.SOFT
    assert found.aperture.exact <= 2.9
