"""Every generic kind has a shape, and the shapes lie where the trade says."""

import pytest

from shoots.kit.core import starting
from shoots.kit.core.lamps import LayerKind

KINDS = [
    (starting.Lamp, starting.LAMPS),
    (starting.Modifier, starting.MODIFIERS),
    (starting.Gel, starting.GELS),
    (starting.Stand, starting.STANDS),
    (starting.Camera, starting.CAMERAS),
    (starting.Lens, starting.LENSES),
    (starting.Filter, starting.FILTERS),
]


@pytest.mark.parametrize(("names", "shapes"), KINDS)
def test_every_kind_has_a_shape(names: type, shapes: dict) -> None:
    assert set(names) == set(shapes)


def test_a_long_reflector_gives_more_on_the_axis_in_a_narrower_beam() -> None:
    """Common practice, no source: 0.3 to 1.5 stops more."""
    plain, long = (
        starting.MODIFIERS[name] for name in (starting.Modifier.STANDARD_REFLECTOR, starting.Modifier.LONG_REFLECTOR)
    )
    assert 0.3 <= long.total_stops - plain.total_stops <= 1.5
    assert long.total_beam_deg < plain.total_beam_deg


def test_both_diffusers_cost_one_to_two_stops() -> None:
    """Trade text: one to two stops [read]."""
    for name in (starting.Modifier.OCTAGON_95, starting.Modifier.OCTAGON_150, starting.Modifier.BOX_60_90):
        box = starting.MODIFIERS[name]
        open_box = box.without(LayerKind.INNER_DIFFUSER).without(LayerKind.OUTER_DIFFUSER)
        assert 1.0 <= open_box.total_stops - box.total_stops <= 2.0


@pytest.mark.parametrize(
    ("name", "shift", "stops"),
    [
        (starting.Gel.FULL_CTO, 159, -0.86),
        (starting.Gel.HALF_CTO, 109, -0.49),
        (starting.Gel.QUARTER_CTO, 64, -0.34),
        (starting.Gel.EIGHTH_CTO, 26, -0.23),
        (starting.Gel.FULL_CTB, -137, -1.56),
        (starting.Gel.HALF_CTB, -78, -0.86),
        (starting.Gel.QUARTER_CTB, -35, -0.54),
        (starting.Gel.EIGHTH_CTB, -18, -0.30),
    ],
)
def test_gels_carry_trade_scale_x(name: starting.Gel, shift: float, stops: float) -> None:
    """Table of topic 4, scale X: gel maker's data, from memory, partly confirmed."""
    gel = starting.GELS[name]
    assert gel.shift_mired == shift
    assert gel.stops == pytest.approx(stops, abs=0.006)
