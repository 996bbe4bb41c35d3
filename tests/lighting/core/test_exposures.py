"""What lights give in one frame."""

from dataclasses import replace

import pytest

from shoots.kit.core.panels import PANELS, Panel
from shoots.kit.core.starting import LAMPS, Lamp
from shoots.lighting.core.exposures import background_exposure, light_exposure, thrown_exposures
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.setup import Background, Exposure, Part, PlacedLight
from tests.lighting.core.setups import KEY, OUTSIDE

BOARD = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], bearing_deg=-40.0, for_letter="A")


def test_beyond_the_sync_time_a_flash_gives_nothing_by_any_way() -> None:
    fast = replace(OUTSIDE, exposure=Exposure(8.0, 1 / 1000), panels=(BOARD,), background=Background(2.0))
    assert light_exposure(fast, KEY)[0] == 0.0
    assert thrown_exposures(fast, KEY) == ()
    assert background_exposure(fast, KEY) == 0.0


def test_continuous_light_counts_for_as_long_as_the_shutter_is_open() -> None:
    led = PlacedLight("A", Part.KEY, LAMPS[Lamp.LED_200])
    short = replace(OUTSIDE, lights=(led,), panels=(BOARD,), exposure=Exposure(8.0, 1 / 100))
    long = replace(short, exposure=Exposure(8.0, 1 / 50))
    assert light_exposure(long, led)[0] == pytest.approx(2.0 * light_exposure(short, led)[0])
    assert thrown_exposures(long, led)[0][1] == pytest.approx(2.0 * thrown_exposures(short, led)[0][1])
