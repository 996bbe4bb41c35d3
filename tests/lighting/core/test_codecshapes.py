"""The shapes of the door, written out."""

from enum import StrEnum

import pytest

from shoots.kit.core.lamps import LampSpec
from shoots.lighting.core.changeover import ChangeKind
from shoots.lighting.core.codecshapes import SameName, described_shapes
from shoots.lighting.core.mends import MendKind
from shoots.lighting.core.setup import Part, Setup


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


def test_named_values_say_what_they_mean_and_in_which_unit() -> None:
    """What mends and changes amount to is stated by their kinds: a reader of the list alone must find it."""
    found = described_shapes([MendKind, ChangeKind, Part])
    assert found["MendKind"]["meanings"]["NEARER"] == "``amount`` is how much nearer along the floor. [m]"
    assert found["MendKind"]["meanings"]["WAIT"].endswith("[stop]")
    assert set(found["ChangeKind"]["meanings"]) == set(found["ChangeKind"]["values"])
    assert found["Part"]["meaning"]


def test_two_shapes_of_one_name_are_refused() -> None:
    """A day's part and a light's part: a script would have read of one where the other is meant."""

    class Part(StrEnum):
        NOON = "NOON"

    with pytest.raises(SameName):
        described_shapes([Setup, Part])
