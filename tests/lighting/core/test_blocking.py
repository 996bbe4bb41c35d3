"""What stands before what in a setup: by geometry of right angles and halves."""

import math

import numpy as np
import pytest

from shoots.kit.core.panels import PANELS, Panel, PanelKind, PanelSpec
from shoots.lighting.core.blocking import panel_normal
from shoots.lighting.core.panels import PlacedPanel, Shields
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Exposure, Part, PlacedLight, Setup, Subject
from tests.lighting.core.setups import HEAD

KEY = PlacedLight("K", Part.KEY, HEAD, bearing_deg=45.0, floor_m=2.0, height_m=1.6)


def _flagged(**places: object) -> tuple[Setup, PlacedPanel]:
    given = {"bearing_deg": 45.0, "floor_m": 1.0, "height_m": 1.6, "for_letter": "K", **places}
    flag = PlacedPanel("1", PANELS[Panel.FLAG], **given)  # type: ignore[arg-type]
    return Setup(Exposure(8.0, 1 / 125), (KEY,), subject=Subject(1.75, 1.6), panels=(flag,)), flag


def test_a_flag_hides_a_light_from_what_it_shields_only_where_it_stands_before_it() -> None:
    """Before the background's line of sight, not before the face's: the face keeps its light."""
    setup, flag = _flagged(shields=Shields.LENS)
    # Square to the way from its light to the lens.
    lens, lamp = np.array([0.0, -3.0, 1.4]), np.array([-math.sqrt(2.0), -math.sqrt(2.0), 1.6])
    assert panel_normal(setup, flag) == pytest.approx((lamp - lens) / np.linalg.norm(lamp - lens))


def test_a_silk_that_is_too_small_lets_the_rest_pass() -> None:
    """A silk of half of the head's width as the face sees it takes half of the light, whatever its cloth does."""
    wide = PlacedLight("K", Part.KEY, HEAD, bearing_deg=0.0, floor_m=2.0, height_m=1.6)
    size = wide.front.width_m
    net = PanelSpec(PanelKind.SCRIM, width_m=4.0, height_m=4.0, takes_stops=15.0, scatter=0.0)
    before = PlacedPanel("1", net, bearing_deg=0.0, floor_m=1.0, height_m=1.6, for_letter="K")
    setup = Setup(Exposure(8.0, 1 / 125), (wide,), subject=Subject(1.75, 1.6), panels=(before,))
    assert evaluate(setup).panels[0].takes_stops == pytest.approx(-15.0, abs=1e-6)
    aside = math.degrees(math.atan(2.0))
    half = PlacedPanel(
        "1", net, bearing_deg=aside, floor_m=math.hypot(1.0, 2.0), height_m=1.6, for_letter="K", turn_deg=180.0
    )
    assert size > 0.0
    found = evaluate(Setup(Exposure(8.0, 1 / 125), (wide,), subject=Subject(1.75, 1.6), panels=(half,))).panels[0]
    assert found.hides == pytest.approx(0.5, abs=1e-9)
    assert found.takes_stops == pytest.approx(math.log2(0.5 + 0.5 * 2.0**-15), abs=1e-6)
