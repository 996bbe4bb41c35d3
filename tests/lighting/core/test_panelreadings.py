"""What each panel says that it does (`panelreadings`), by geometry of right angles and halves."""

import math

import pytest

from shoots.kit.core.panels import PANELS, Panel
from shoots.lighting.core.blocking import hides
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Exposure, Part, PlacedLight, Setup, Subject
from tests.lighting.core.setups import HEAD

KEY = PlacedLight("K", Part.KEY, HEAD, bearing_deg=45.0, floor_m=2.0, height_m=1.6)


def _flagged(**places: object) -> tuple[Setup, PlacedPanel]:
    given = {"bearing_deg": 45.0, "floor_m": 1.0, "height_m": 1.6, "for_letter": "K", **places}
    flag = PlacedPanel("1", PANELS[Panel.FLAG], **given)  # type: ignore[arg-type]
    return Setup(Exposure(8.0, 1 / 125), (KEY,), subject=Subject(1.75, 1.6), panels=(flag,)), flag


def test_moving_a_flag_changes_what_it_hides_and_a_typed_share_counts_instead() -> None:
    """Straight before a head that is smaller than it, aside, and half: its edge in the line of sight."""
    setup, flag = _flagged()
    assert hides(setup, flag) == pytest.approx(1.0)
    assert evaluate(setup).panels[0].takes_stops == pytest.approx(math.log2(0.02))  # what comes round a flag
    setup, flag = _flagged(bearing_deg=-45.0)
    assert hides(setup, flag) == 0.0
    assert evaluate(setup).panels[0].does_nothing
    half = math.degrees(math.atan(0.3 / 1.0))
    setup, flag = _flagged(bearing_deg=45.0 + half, floor_m=math.hypot(1.0, 0.3))
    assert hides(setup, flag) == pytest.approx(0.5, abs=1e-9)
    found = evaluate(setup).panels[0]
    assert found.takes_stops == pytest.approx(math.log2(0.51))
    # As wide as the head, being half way.
    assert found.edge_m == pytest.approx(KEY.front.width_m)
    assert not found.is_typed
    setup, flag = _flagged(bearing_deg=-45.0, covers=0.5)
    found = evaluate(setup).panels[0]
    assert (found.hides, found.is_typed, found.edge_m) == (0.5, True, None)
    assert found.takes_stops == pytest.approx(math.log2(0.51))


def test_how_sure_a_flag_is_comes_from_five_centimetres_beside_its_place() -> None:
    """A round head of 18 cm, the flag half way: 5 cm of the flag are 10 cm on the head, more than its radius of 9."""
    assert KEY.front.width_m == 0.18
    setup, _flag = _flagged()
    assert evaluate(setup).panels[0].spread_stops == pytest.approx(0.0, abs=1e-9)  # it covers the head all the same
    half = math.degrees(math.atan(0.3))
    setup, _flag = _flagged(bearing_deg=45.0 + half, floor_m=math.hypot(1.0, 0.3))
    assert evaluate(setup).panels[0].spread_stops == pytest.approx(math.log2(0.51 / 0.02))
    # A typed share is as good as it is typed; what is known of flags in general stands then.
    setup, _flag = _flagged(covers=0.5)
    assert evaluate(setup).panels[0].spread_stops == 0.5
