"""How many finished pictures, however it is said (shoots.call.core.finals). Labels: own, by meaning."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10-12 finals", 10, 12),
        ("one hero, three cut-downs", 1, 1),
        ("4 heroes, 8 details and 6 packshots", 18, 18),
        ("15 images: 5 heroes, 10 details", 15, 15),
        ("20 pics in total, 12 on white, 8 lifestyle", 20, 20),
        ("12 finals + 24 cutouts", 36, 36),
        ("3 products x 4 angles", 12, 12),
        ("two of each, 6 flavours", 12, 12),
        ("12 finals, maybe a group shot", 12, 12),
        ("at least 8 images", 8, None),
        ("up to 20 finals", None, 20),
        ("6 portraits and a team shot", 7, 7),
        ("four 4:5 and two 9:16", 6, 6),
        ("10 finals? no, 12", 12, 12),
        ("20 pictures of 5 products", 20, 20),
        ("10 finals: heroes and details", 10, 10),
        ("2 group shots and three pictures each of 4 chairs", 14, 14),
    ],
)
def test_finals(text: str, low: int | None, high: int | None) -> None:
    finals = data(text)["finals"]
    assert (finals["min"], finals["max"]) == (low, high)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("6 looks, front and back of each, plus 4 campaign pictures", 16, 16),
        ("Four cakes, two pictures of each, and a group picture", 9, 9),
        ("12 images: 4 interiors, 4 food, 4 people", 12, 12),
        ("3 heroes, 6 supporting", 9, 9),
        ("about 15 pictures, 3 of them for the cover", 15, 15),
        ("20 products on white, one each, and 5 styled", 25, 25),
        ("eight dishes, hero + overhead of each", 16, 16),
        ("10 finals per day, two days", 20, 20),
        ("a dozen pictures, half portrait half landscape", 12, 12),
        ("5 portraits, one group", 6, 6),
        ("portraits of 6 staff, one of the building", 7, 7),
        ("2 heroes (1 landscape 1 portrait), 8 details", 10, 10),
        ("one key visual in three formats", 1, 1),
        ("one picture, cropped to 4:5, 1:1 and 16:9", 1, 1),
        ("3 setups, 4 shots per setup", 12, 12),
        ("30 skus x 2 angles = 60", 60, 60),
        ("24 packshots and 6 lifestyle = 30 images", 30, 30),
        ("16 imgs incl 4 details", 16, 16),
        ("16 imgs + 4 details", 20, 20),
        ("minimum 12 images", 12, None),
        ("8-10 edits plus a banner", 9, 11),
        ("6 final images, all in 3 crops each", 6, 6),
        ("hero x 2, detail x 4, pack x 3", 9, 9),
        ("pics: 4 ext, 6 int", 10, 10),
        ("5 recipes: one hero and one process shot each", 10, 10),
        ("each of the 4 chairs from 3 angles", 12, 12),
        ("4 chairs, each from 3 angles, plus one group", 13, 13),
        ("three sets of five pictures", 15, 15),
        ("two moods, six pictures each", 12, 12),
        ("half of the 20 pictures in black and white", 20, 20),
        ("25 pictures of which 5 urgent", 25, 25),
        ("10 for web and 4 for print", 14, 14),
        ("ten pictures for the shop, three for press", 13, 13),
        ("6 x 4:5, 2 x 16:9", 8, 8),
        ("1 landscape hero, 4 vertical stories", 5, 5),
        ("9 flat lays + 9 on model", 18, 18),
        ("9 garments: flat lay and on model", 18, 18),
        ("couple of heroes and a handful of details", 6, 8),
        ("twenty-odd pictures", 20, 20),
        ("between ten and fifteen pictures", 10, 15),
        ("1 x hero, 2 x secondary", 3, 3),
        ("fifty product cut-outs, 12 styled scenes", 62, 62),
        ("11 team portraits incl. the boss", 11, 11),
        ("image count: 14", 14, 14),
        ("Deliverables\n- 6 stills\n- 3 cut-downs of the hero", 6, 6),
        ("no more than 8 pictures", None, 8),
        ("four pictures of the shop and two of the kitchen", 6, 6),
        ("10 finals (8 + 2 spare)", 10, 10),
        ("Total of 18: 12 products, 6 people", 18, 18),
        ("a picture per flavour, 6 flavours", 6, 6),
        ("one shot of each flavour (6)", 6, 6),
        ("2 shots each of 5 bags", 10, 10),
        ("5 bags x 2 shots each, 1 group", 11, 11),
        ("retouched: 12", 12, 12),
        ("12 retouched, 40 unretouched", 12, 12),
        ("select 15 from the gallery", 15, 15),
        ("gallery of 100, 15 retouched", 15, 15),
    ],
)
def test_other_ways_to_say_it(text: str, low: int | None, high: int | None) -> None:
    finals = data(text)["finals"]
    assert (finals["min"], finals["max"]) == (low, high)


def test_nothing_said_is_none_and_is_asked_for() -> None:
    found = data("4 locations, two models")
    assert found["finals"] is None and "finals" in [q["code"] for q in found["questions"]]


@given(st.integers(2, 30), st.integers(2, 30))
def test_parts_add_up(heroes: int, details: int) -> None:
    assert data(f"{heroes} heroes and {details} details")["finals"]["max"] == heroes + details


@given(st.integers(2, 30), st.integers(2, 9))
def test_each_multiplies(products: int, each: int) -> None:
    assert data(f"{products} products, {each} shots each")["finals"]["max"] == products * each
