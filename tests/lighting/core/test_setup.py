"""The shape of a setup: letters, replacing a light, what reaches the front."""

import pytest

from shoots.kit.core.starting import LAMPS, Lamp
from shoots.lighting.core.setup import (
    Background,
    CameraPlace,
    Exposure,
    LetterTwice,
    Part,
    PlacedLight,
    Setup,
    Subject,
    light_direction,
    reaches_front,
)
from shoots.values.units import OutOfRange

HEAD = LAMPS[Lamp.BATTERY_300]
A = PlacedLight("A", Part.KEY, HEAD)
B = PlacedLight("B", Part.RIM, HEAD, bearing_deg=150.0)


def test_two_lights_may_not_share_a_letter() -> None:
    with pytest.raises(LetterTwice, match="A"):
        Setup(Exposure(8.0, 1 / 200), (A, A))


def test_a_light_is_found_and_replaced_by_its_letter() -> None:
    setup = Setup(Exposure(8.0, 1 / 200), (A, B))
    changed = setup.with_light(PlacedLight("B", Part.RIM, HEAD, bearing_deg=-150.0))
    assert changed.light("B").bearing_deg == -150.0
    assert changed.light("A") == A
    with pytest.raises(KeyError):
        setup.light("Z")


@pytest.mark.parametrize(
    ("part", "bearing", "reaches"),
    [
        (Part.KEY, 45.0, True),
        (Part.KEY, -90.0, True),
        (Part.KEY, 120.0, False),
        (Part.RIM, 80.0, False),
        (Part.TOP, 0.0, True),
        (Part.TOP, 180.0, False),
        (Part.BACKGROUND, 0.0, False),
    ],
)
def test_what_reaches_the_side_that_the_camera_sees(part: Part, bearing: float, reaches: bool) -> None:
    """Common practice, no source: rims add nothing to the front."""
    assert reaches_front(PlacedLight("A", part, HEAD, bearing_deg=bearing)) is reaches


def test_the_direction_is_that_of_the_face() -> None:
    where = light_direction(PlacedLight("A", Part.KEY, HEAD, floor_m=1.5, height_m=2.6), Subject(point_m=1.6))
    assert where.elevation_deg == pytest.approx(33.69, abs=0.01)


@pytest.mark.parametrize(
    ("wrong", "name"),
    [
        (lambda: Exposure(0.0, 1 / 200), "f_number"),
        (lambda: Exposure(8.0, -1.0), "shutter_s"),
        (lambda: Exposure(8.0, 1 / 200, iso=0.0), "iso"),
        (lambda: Exposure(8.0, 1 / 200, nd_stops=-1.0), "nd_stops"),
        (lambda: PlacedLight("A", Part.KEY, HEAD, power=0.0), "power"),
        (lambda: PlacedLight("A", Part.KEY, HEAD, heads=0), "heads"),
        (lambda: PlacedLight("A", Part.KEY, HEAD, open_share=1.5), "open_share"),
        (lambda: PlacedLight("A", Part.KEY, HEAD, floor_m=-1.0), "floor_m"),
        (lambda: Subject(height_m=-1.0), "height_m"),
        (lambda: CameraPlace(distance_m=0.0), "distance_m"),
        (lambda: Background(3.0, reflectance=0.0), "reflectance"),
        (lambda: Setup(Exposure(8.0, 1 / 200), white_balance_k=0.0), "white_balance_k"),
    ],
)
def test_setups_that_cannot_be_meant_are_named(wrong: object, name: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        wrong()  # type: ignore[operator]
    assert caught.value.name == name
