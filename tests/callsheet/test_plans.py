"""The room that a plan of the light has on a call sheet: its letters can be read on paper."""

from __future__ import annotations

import pytest

from shoots.callsheet.queries.plans import paper_of, plans_of
from shoots.kit.core.lamps import LampSpec
from shoots.kit.models import Panel
from shoots.lighting.core.setup import CameraPlace, Exposure, Part, PlacedLight, Setup
from shoots.lighting.models import PlacedPanel
from shoots.lighting.queries.drawing import Drawing, drawing_of
from tests import factories
from tests.lighting.factories import make_lit_setup

MM_PER_POINT = 25.4 / 72.0


def _drawn(*places: tuple[float, float], camera_m: float = 3.0, words: str = "Key 1/4 +0.3") -> Drawing:
    lights = tuple(
        PlacedLight(chr(65 + n), Part.KEY, LampSpec(guide_number_m=45.0), bearing_deg=turn, floor_m=away, height_m=2.0)
        for n, (turn, away) in enumerate(places)
    )
    setup = Setup(Exposure(8.0, 1 / 200), lights, place=CameraPlace(distance_m=camera_m))
    letters = [light.letter for light in lights]
    return drawing_of(
        setup, None, words=dict.fromkeys(letters, (words, "f/5.6 +0.5")), keys=dict.fromkeys(letters, (1, 1)),
        background_m=40.0,
    )  # fmt: skip


@pytest.mark.parametrize(
    "drawing",
    [
        _drawn((45.0, 1.5)),
        _drawn((180.0, 12.0), camera_m=12.0),
        _drawn((180.0, 40.0), (0.0, 30.0), camera_m=60.0),
        _drawn((90.0, 9.0), (270.0, 9.0), words="Background 1/128 +0.3, in a long box"),
        _drawn(*((20.0 * n, 2.0 + n) for n in range(12)), camera_m=10.0),
    ],
)
def test_letters_of_a_plan_are_seven_points_or_more_on_paper(drawing: Drawing) -> None:
    """Letters are 13 units high in the drawing; a page is 170 × 259 mm inside its margins."""
    room = paper_of(drawing)
    width, high = float(room["width_mm"]), float(room["high_mm"])
    assert 13.0 * width / drawing.width / MM_PER_POINT >= 7.0
    assert width / drawing.width == pytest.approx(high / drawing.height, rel=2e-3)
    assert width <= 170.0
    assert high <= 225.0
    assert room["is_wide"] == (width > 80.05)


def test_a_sheet_lists_the_panels_whose_numbers_are_on_the_plan(studio) -> None:
    shoot = factories.make_shoot(studio)
    setup, _lamps = make_lit_setup(shoot)
    flag = Panel.objects.create(studio=studio, name="Flag, 60 × 90 cm", kind="FLAG", width_m=0.6, height_m=0.9)
    PlacedPanel.objects.create(studio=studio, setup=setup, panel=flag, height_m=1.9, stand=factories.make_stand(studio))
    plan = plans_of(shoot)[setup.pk]
    assert plan["panels"] == [{"number": "1", "what": "Flag, 60 × 90 cm", "height_m": "1.9", "stand": "Light stand"}]
    assert "Flag" in plan["drawing"]
