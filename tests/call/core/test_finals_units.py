"""Pictures of each of several things (shoots.call.core.finals_units). Labels: own, by meaning, before any run."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("small roastery. bags in 3 roasts, 4 pics of each. plus one of the roaster at work", 13, 13),
        ("3 per colourway, 5 colours", 15, 15),
        ("a shot of each of the 12 rooms", 12, 12),
        ("3 rooms x 4 pics + exterior", 13, 13),
        ("MENU REFRESH - 14 DISHES, ONE PIC EACH, + 2 OF THE DINING ROOM", 16, 16),
        ("14 dishes, overhead and 45 degree of each", 28, 28),
        ("3 cocktails, 1 hero per drink, 2 bar atmos", 5, 5),
        ("- 6 x packshot\n- 3 x lifestyle\n- 1 x banner", 10, 10),
        ("2 x 15 sec videos, 8 stills", 8, 8),
        ("4 models, 3 outfits each, 12 final pics", 12, 12),
        ("4 models, 3 outfits each", None, None),
        ("4 models, 3 looks each, one picture per look", 12, 12),
        ("FINAL IMAGES: 18 (6 PER RANGE, 3 RANGES)", 18, 18),
        ("6 per range, 3 ranges", 18, 18),
        ("7 lawyers: one formal one relaxed each", 14, 14),
        ("6 bags x 3 angles, 1 group shot, 2 on model", 21, 21),
        ("6 bags, each front/side/open", 18, 18),
        ("8 knives on slate, one each, and a line-up", 9, 9),
        ("4 rooms at 3 pics each, pool 2, spa 2", 16, 16),
        ("one wide and two details of each of the 3 kitchens", 9, 9),
        ("for each kitchen one wide and two details, 3 kitchens", 9, 9),
        ("3 kitchens, 1 wide 2 details each", 9, 9),
        ("a pair of portraits per artist, 6 artists", 12, 12),
        ("4 x 2 = 8 pictures", 8, 8),
        ("6 stills each cropped 1:1 and 9:16", 6, 6),
        ("5 portraits, each b/w and colour", 5, 5),
        ("6 products in 4 colours, one shot each", 24, 24),
        ("6 sofas in 2 fabrics, 1 pic each", 12, 12),
        ("10 pics, extra ones at 60 each", 10, 10),
        ("30 min per portrait, 5 portraits", 5, 5),
        ("need 2 versions of each of the 4 ads", None, None),
        ("3 scenes - 2 wides and 3 close ups of each", 15, 15),
        ("4 recipes. hero, process, ingredients for each", 12, 12),
        ("PASTA BRAND - 5 SHAPES, 1 PACKSHOT + 1 PLATED EACH, PLUS 1 BIG TABLE SCENE", 11, 11),
        ("She makes four cheeses and would like two pictures of each, and one of the dairy.", 9, 9),
        ("menu has 9 mains 4 puds, shoot em all, one each", 13, 13),
        ("six outfits and she wants three frames of each, so eighteen", 18, 18),
        ("one pic per colour (7)", 7, 7),
        ("8 projects, 5 pics each, over 3 days", 40, 40),
        ("27 staff, 1 headshot each, 3 team groups", 30, 30),
        ("headshots x 30", 30, 30),
        ("2 per person, 8 people", 16, 16),
        ("Each of the eight tools in the hand and on the bench, sixteen in all.", 16, 16),
        ("deliver 3 versions of each of the 4 pics", 4, 4),
        ("1 wide of each room (7 rooms), 10 details", 17, 17),
        ("bike panniers 3 sizes, each front + back, then 4 riding shots", 10, 10),
        ("Twenty-two wines, one bottle shot each; in addition three of the cellar and one of the owner.", 26, 26),
        ("candles x 9 on white, 3 styled, 1 group. total 13", 13, 13),
        ("8 recipes: hero + 2 steps each", 24, 24),
        ("4 rooms, wide + detail of each, one exterior", 9, 9),
        ("5-6 pics per house, 4 houses", 20, 24),
        ("up to 6 per house, 4 houses", None, 24),
        ("10 portraits, b&w and colour versions of each", 10, 10),
        ("five stills from the film set, twelve minutes each", 5, 5),
        ("12 months, one picture for each month of the calendar", 12, 12),
        ("6 double page spreads, 1 pic per spread", 6, 6),
        ("He wants his three vans photographed, two views of each, and a picture of him with the drivers.", 7, 7),
        ("garden designer. 4 gardens. say 5 each. so 20ish", 20, 20),
        ("5 flavours, tub + scoop each", 10, 10),
        ("30 pieces of jewellery, each on white, then five on the hand", 35, 35),
        ("The set should have nine pictures, one per tile of the grid.", 9, 9),
        ("a pic of every one of the 14 stalls + 2 crowd", 16, 16),
        ("14 stalls, a pic of each; also 2 of the crowd", 16, 16),
        ("all 14 stalls, 1 each, 2 crowd", 16, 16),
        ("6 models x 2 looks = 12 looks, 1 pic per look", 12, 12),
        ("2 bedrooms 2 pics each, kitchen 3, terrace 2", 9, 9),
        ("3 hrs, 3 people, 3 pics each", 9, 9),
        ("we can do 3 pics per hour, 4 hours", None, None),
        ("£60 per pic, 10 pics", 10, 10),
        ("5 tools, hero each + 1 hands shot", 6, 6),
        ("Each of the ten rugs flat and in a room, twenty in total, plus three details of the knots.", 23, 23),
        ("5 dogs, 2 coats each, one pic per coat", 10, 10),
    ],
)
def test_each_multiplies(text: str, low: int | None, high: int | None) -> None:
    finals = data(text)["finals"] or {"min": None, "max": None}
    assert (finals["min"], finals["max"]) == (low, high)


def test_a_product_is_to_be_confirmed_and_names_its_parts() -> None:
    text = "3 sofas, 1 wide and 2 details each"
    finals = data(text)["finals"]
    assert finals["max"] == 9 and finals["confirm"]
    assert [text[start:end] for start, end in finals["parts"]] == ["3 sofas", "1 wide", "2 details"]
