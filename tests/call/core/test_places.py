"""Places and what they bring with them (shoots.call.core.places). The usual cautions: common practice, no source."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "kind", "hazards", "permissions"),
    [
        ("shoot on the beach", "beach", {"tide"}, set()),
        ("beach at Camber", "beach", {"tide"}, set()),
        ("shoot on the common, council land", None, set(), {"permit"}),
        ("a field that belongs to a farmer", None, set(), {"consent"}),
        ("drone shot over the bay", "beach", {"drone", "tide"}, {"drone"}),
        ("we shoot on the road", "road", {"traffic"}, {"permit"}),
        ("quarry rim at dusk", None, {"height"}, set()),
        ("in their workshop", "works", {"machinery"}, set()),
        ("half eight at ours", "clients", set(), set()),
        ("in the river", None, {"water"}, set()),
    ],
)
def test_a_place_and_what_it_implies(text: str, kind: str | None, hazards: set[str], permissions: set[str]) -> None:
    found = data(text)
    if kind:
        assert kind in [place["kind"] for place in found["locations"]]
    assert hazards <= {entry["code"] for entry in found["hazards"]}
    assert permissions <= {entry["code"] for entry in found["permissions"]}


@pytest.mark.parametrize(
    "text", ["no beach", "beach towel", "not on the road", "road shoes", "sold in shops", "a bakery in town rang"]
)
def test_what_is_no_place_to_shoot_at(text: str) -> None:
    found = data(text)
    assert found["locations"] == [] and found["hazards"] == []


def test_a_place_takes_its_name_along() -> None:
    (place,) = data("client is Ana\nshoot on the beach at Camber Sands")["locations"]
    assert "Camber Sands".lower() in place["location"].lower()


def test_each_implied_entry_has_the_words_that_brought_it_up() -> None:
    text = "client is Ana\nshoot on the beach, with a drone"
    for entry in (*data(text)["hazards"], *data(text)["permissions"]):
        assert text[slice(*entry["span"])] == entry["because"]


def test_a_label_makes_whatever_follows_a_place() -> None:
    assert [p["location"] for p in data("Location: the old tannery")["locations"]] == ["the old tannery"]
    assert data("Location: tbc")["locations"] == []
