"""The shapes of the bag refuse what cannot be meant and keep their promises when a layer comes out."""

import itertools
import math

import pytest

from shoots.kit.core.lamps import (
    BatterySpec,
    GelSpec,
    LampKind,
    LampSpec,
    LayerKind,
    LayerSpec,
    ModifierSpec,
    Shape,
    StandSpec,
    power_steps,
)
from shoots.values.units import OutOfRange

OCTAGON = ModifierSpec(
    Shape.ROUND,
    0.95,
    0.95,
    stops=-0.2,
    layers=(
        LayerSpec(LayerKind.INNER_DIFFUSER, -0.6, lit_share=0.9),
        LayerSpec(LayerKind.OUTER_DIFFUSER, -0.9, lit_share=0.6),
        LayerSpec(LayerKind.GRID, -0.7, beam_deg=50.0),
    ),
)


def test_the_outer_diffuser_off_gives_more_light_from_a_smaller_front() -> None:
    """Common practice, no source: more light, and harder."""
    bare = OCTAGON.without(LayerKind.OUTER_DIFFUSER)
    assert bare.total_stops > OCTAGON.total_stops
    assert bare.width_m < OCTAGON.width_m
    assert bare.total_stops - OCTAGON.total_stops == pytest.approx(0.9)


def test_the_wind_still_meets_the_whole_frame_when_a_diffuser_is_out() -> None:
    assert OCTAGON.without(LayerKind.OUTER_DIFFUSER).wind_area_m2 == pytest.approx(OCTAGON.area_m2)


def test_a_grid_narrows_the_beam_and_costs_light() -> None:
    assert OCTAGON.total_beam_deg == 50.0
    assert OCTAGON.without(LayerKind.GRID).total_beam_deg == 120.0


def test_taking_out_what_is_not_in_changes_nothing_of_the_light() -> None:
    plain = OCTAGON.without(LayerKind.GRID)
    assert plain.without(LayerKind.GRID).total_stops == plain.total_stops


def test_power_steps_run_from_full_to_the_least() -> None:
    steps = power_steps(LampSpec(guide_number_m=45.0, least_power=1 / 256, step_stops=1 / 3))
    assert len(steps) == 25
    assert (steps[0], steps[-1]) == (1.0, pytest.approx(1 / 256))
    assert all(later < earlier for earlier, later in itertools.pairwise(steps))


def test_a_gel_of_half_transmission_costs_a_stop() -> None:
    assert GelSpec(0.0, 0.5).stops == pytest.approx(-1.0)


@pytest.mark.parametrize(
    ("wrong", "name"),
    [
        (lambda: LampSpec(), "guide_number_m"),
        (lambda: LampSpec(kind=LampKind.CONTINUOUS, guide_number_m=45.0), "illuminance_1m_lx"),
        (lambda: LampSpec(guide_number_m=-1.0), "guide_number_m"),
        (lambda: LampSpec(guide_number_m=45.0, least_power=0.0), "least_power"),
        (lambda: LampSpec(guide_number_m=45.0, durations=((0.5, 0.0),)), "durations"),
        (lambda: LampSpec(guide_number_m=45.0, high_speed_sync_extra_stops=0.5), "high_speed_sync_extra_stops"),
        (lambda: LampSpec(guide_number_m=45.0, spread_stops=math.nan), "spread_stops"),
        (lambda: ModifierSpec(Shape.ROUND, 0.9, 0.8), "height_m"),
        (lambda: ModifierSpec(Shape.RECTANGLE, 0.9, -0.8), "height_m"),
        (lambda: LayerSpec(LayerKind.GRID, 0.5), "stops"),
        (lambda: GelSpec(1000.0), "shift_mired"),
        (lambda: GelSpec(0.0, 0.0), "transmission"),
        (lambda: StandSpec(0.0), "foot_radius_m"),
        (lambda: StandSpec(0.5, legs=2), "legs"),
        (lambda: BatterySpec(-1.0), "full_pops"),
    ],
)
def test_kit_that_cannot_be_meant_is_named(wrong: object, name: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        wrong()  # type: ignore[operator]
    assert caught.value.name == name
