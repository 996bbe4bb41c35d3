"""Passive kit."""

import pytest

from shoots.kit.core.lamps import Shape
from shoots.kit.core.panels import PANELS, Panel, PanelKind, PanelSpec
from shoots.values.units import OutOfRange


def test_every_kind_of_passive_kit_can_be_started_from() -> None:
    assert set(PANELS) == set(Panel)
    assert {spec.kind for spec in PANELS.values()} == set(PanelKind)


def test_boards_return_what_practice_says() -> None:
    """Common practice, no source: matt white about 0.8, black cloth about 0.04, a silk takes 1 to 2 stops."""
    assert PANELS[Panel.POLYBOARD_WHITE].reflectance == pytest.approx(0.8)
    assert PANELS[Panel.POLYBOARD_BLACK].reflectance == pytest.approx(0.04)
    assert 1.0 <= PANELS[Panel.SCRIM_SILK].takes_stops <= 2.0
    assert PANELS[Panel.REFLECTOR_SILVER].gain > PANELS[Panel.REFLECTOR_WHITE].gain


@pytest.mark.parametrize("wrong", [{"width_m": 0.0}, {"reflectance": 1.2}, {"gain": -1.0}, {"takes_stops": 99.0}])
def test_what_no_panel_is_like_is_named(wrong: dict) -> None:
    with pytest.raises(OutOfRange, match=next(iter(wrong))):
        PanelSpec(PanelKind.REFLECTOR, **wrong)


def test_a_round_one_is_as_high_as_it_is_wide() -> None:
    with pytest.raises(OutOfRange, match="height_m"):
        PanelSpec(PanelKind.REFLECTOR, Shape.ROUND, 1.0, 1.2)
