"""The shapes of the door, written out."""

from shoots.kit.core.lamps import LampSpec
from shoots.lighting.core.codecshapes import described_shapes
from shoots.lighting.core.setup import Setup


def test_a_field_says_shape_unit_meaning_and_default() -> None:
    fields = {one["name"]: one for one in described_shapes([LampSpec])["LampSpec"]["fields"]}
    assert fields["guide_number_m"]["unit"] == "m"
    assert fields["guide_number_m"]["shape"] == "number or null"
    assert "ISO 100" in fields["guide_number_m"]["meaning"]
    assert fields["colour_k"]["default"] == 5600.0


def test_what_a_shape_is_made_of_is_described_too() -> None:
    found = described_shapes([Setup])
    assert {"Setup", "PlacedLight", "LampSpec", "BatterySpec", "Circuit", "Ambient", "Conventions"} <= set(found)
    required = [one["name"] for one in found["Setup"]["fields"] if one["required"]]
    assert required == ["exposure"]


def test_shapes_inside_lists_and_unions_are_found() -> None:
    assert "LampSpec" in described_shapes([tuple[LampSpec, ...] | None])
