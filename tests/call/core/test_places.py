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


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("shoot in their greenhouse", ["greenhouse"]),
        ("location tbc, maybe a car park rooftop", ["car park"]),
        ("in the old mill at Cromford", ["mill"]),
        ("we'd go up to the moor above the village", ["moor"]),
        ("studio or her kitchen", ["studio", "kitchen"]),
        ("the workshop, then the beach for sunset", ["workshop", "beach"]),
        ("an empty swimming pool", ["pool"]),
        ("at the allotment", ["allotment"]),
        ("church hall with big windows", ["church hall"]),
        ("snowy forest track", ["forest"]),
        ("a petrol station at night", ["petrol station"]),
        ("farmyard and the milking parlour", ["farmyard", "milking parlour"]),
        ("they have a showroom in Leeds, we shoot there", ["showroom"]),
        ("river bank, shallow bit", ["river"]),
        ("rooftop terrace of the hotel", ["rooftop terrace"]),
        ("street market on Saturday", ["market"]),
        ("sold in shops and cafes", []),
        ("brewery wants it for the taproom walls", []),
        ("for posters at stations", []),
        ("places: bakery, mill, wheat field", ["bakery", "mill", "wheat field"]),
        ("at home with the founder", ["home"]),
        ("underground car park, level 2", ["car park"]),
        ("library of the old college", ["library"]),
        ("vineyard rows at sunrise", ["vineyard"]),
        ("inside the distillery + warehouse no 3", ["distillery", "warehouse"]),
        ("hired house in Deal", ["house"]),
        ("the garden behind the shop", ["garden"]),
        ("We shoot in the orchard behind the press house.", ["orchard"]),
        ("Pictures on the quay at low tide.", ["quay"]),
        ("The pictures should be taken in the vaults under the bridge.", ["vaults"]),
        ("at her mother's house in Deal", ["house"]),
        ("Loc: disused airfield nr Ely", ["airfield"]),
        ("up on the ridge, then down by the stream", ["ridge", "stream"]),
        ("half in the bakery, half in the street outside", ["bakery", "street"]),
        ("the shop before opening", ["shop"]),
        ("in a field of barley", ["field"]),
        ("studio for the packshots, the pier for the rest", ["studio", "pier"]),
        ("a gym in Salford", ["gym"]),
        ("swimming lake", ["lake"]),
        ("on the factory floor", ["factory"]),
        ("a bench in the park", ["park"]),
        ("the stables", ["stables"]),
        ("They have a lovely courtyard we can use.", ["courtyard"]),
        ("ski slope, if there is snow", ["ski slope"]),
        ("allotments by the railway", ["allotments"]),
        ("woods near Ashdown", ["woods"]),
        ("At the marina and out on the water.", ["marina"]),
        ("kitchen of the restaurant", ["kitchen"]),
        ("hotel lobby + pool", ["lobby", "pool"]),
    ],
)
def test_where_the_shoot_is_in_other_words(line: str, found: list[str]) -> None:
    got = [place["location"] for place in data("a first line about nothing\n" + line)["locations"]]
    assert len(got) == len(found) and all(any(want in name for name in got) for want in found), got


@pytest.mark.parametrize(
    "line",
    [
        "sold at farm shops", "posters in the street", "garden furniture range", "the road shoes",
        "park the van behind",
        "in the background", "at the table", "bridge loan", "pool of light", "church candles",
        "straight from the factory",
        "they have a factory in Leeds", "workshop manual", "office chair", "desert boots", "on Etsy", "at Christmas",
    ],
)  # fmt: skip
def test_what_only_sounds_like_a_place(line: str) -> None:
    assert data("a first line about nothing\n" + line)["locations"] == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a first line\nsports hall / court steps / campus cafe", ["sports hall", "court steps", "campus cafe"]),
        ("a first line\nshoot in the science lab and the little wood behind", ["science lab", "little wood"]),
        ("a first line\nher flat? -> rented house, she books it", ["rented house"]),
        ("hotel on the harbour, nine rooms", ["hotel"]),
        ("a first line\nshearing shed at dawn", ["shearing shed"]),
        ("a first line\nweb, insta, her shop", []),
        ("a first line\nglitter cannons", []),
        ("a first line\ncabin 38L and check-in 72L", []),
        ("a first line\nreserve: Tues 14th", []),
        ("a first line\nthe class is full", []),
        ("a first line\npupils in the art room and at lunch", ["art room"]),
        ("a first line\nno room for a van", []),
        ("a first line\nnever the cat on a kitchen bench", []),
        ("a first line\nrink before opening", ["rink"]),
    ],
)
def test_places_of_all_kinds(text: str, found: list[str]) -> None:
    assert [place["location"] for place in data(text)["locations"]] == found


@pytest.mark.parametrize(
    ("text", "permissions"),
    [
        ("farmer's field, get it in writing", {"consent"}),
        ("the vicar has the key to the nave", {"consent"}),
        ("council beach", {"permit"}),
        ("kids in school hours so council?", set()),
    ],
)
def test_whose_leave_is_needed(text: str, permissions: set[str]) -> None:
    codes = {entry["code"] for entry in data("a first line\n" + text)["permissions"]}
    assert codes - {"guardian", "council licence"} == permissions


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a first line\nthere own paddock n the sand school", ["paddock", "sand school"]),
        ("a first line\nin the lounge an the garden", ["lounge", "garden"]),
        ("a first line\n9 finals: 4 single, 5 brewhouse", ["brewhouse"]),
        ("a first line\nporch, snug - all in one location house", ["porch", "snug", "location house"]),
        ("a first line\ncouncil park + a cafe terrace", ["council park", "cafe terrace"]),
        ("a first line\ncouncil land", ["council land"]),
        ("a first line\nsat 27 june 9.30-12.30 village hall", ["village hall"]),
        ("a first line\n3 general ones of the beach", ["beach"]),
        ("a first line\na diner, after they close", ["diner"]),
        ("a first line\nthe lawn is on the 24th of March", ["lawn"]),
        ("a first line\ngallery before easter", []),
        ("a first line\nPetra, who runs the office, pays", []),
        ("a first line\nchapel, scaffold still up", ["chapel"]),
        ("a first line\non the scaffold", ["scaffold"]),
        ("Long call with the winery in the Orra Valley", []),
    ],
)
def test_where_it_is_and_where_only_something_is(text: str, found: list[str]) -> None:
    assert [place["location"] for place in data(text)["locations"]] == found


@pytest.mark.parametrize(
    ("text", "hazards"),
    [
        ("black slate + ice", set()),
        ("the machinery dealer rang", set()),
        ("skaters on the ice", {"weather"}),
        ("the path is icy", {"weather"}),
        ("two black horses in the yard", {"animals"}),
        ("scaffold still up", {"height"}),
    ],
)
def test_ice_in_a_glass_is_no_weather(text: str, hazards: set[str]) -> None:
    assert {entry["code"] for entry in data("a first line\n" + text)["hazards"]} == hazards
