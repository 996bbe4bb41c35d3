"""The things to be shown (shoots.call.core.products). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


def products(text: str) -> list[str]:
    return [entry["product"] for entry in data(text)["products"]]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("new trail-running vest", ["trail-running vest"]),
        ("three candles and a diffuser", ["candles", "diffuser"]),
        ("launching a rye sourdough loaf", ["rye sourdough loaf"]),
        ("they sell accordions", ["accordions"]),
        ("Products: accordions, concertinas", ["accordions", "concertinas"]),
        ("packs: 12L in rust, 20L in slate", ["packs"]),
        ("pics of the new gin bottle", ["gin bottle"]),
    ],
)
def test_products(text: str, found: list[str]) -> None:
    got = products(text)
    assert len(got) == len(found) and all(want in name for want, name in zip(found, got, strict=True)), got


@pytest.mark.parametrize(
    "text",
    ["she wears a jacket", "on the table", "props: mugs, vases", "lunch and coffee", "no bags", "bring a jumper"],
)
def test_props_clothes_and_furniture_are_none(text: str) -> None:
    assert products(text) == []


def test_a_number_is_the_products_own() -> None:
    (entry,) = data("12 candles")["products"]
    assert (entry["product"], entry["quantity"]) == ("candles", 12)


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("new teapot in white and celadon", ["teapot"]),
        ("they make oat biscuits, three flavours", ["oat biscuits"]),
        ("launching a folding kayak", ["folding kayak"]),
        ("the range: soap bars, bath salts, hand cream", ["soap", "bath salts", "hand cream"]),
        ("a leather satchel and a belt", ["satchel", "belt"]),
        ("new cordial, 500ml bottle", ["cordial"]),
        ("photograph the new electric scooter", ["electric scooter"]),
        ("six necklaces on a bust", ["necklaces"]),
        ("coffee at ten, then start", []),
        ("model wears a jumper and boots", []),
        ("props: books, lamp, old radio", []),
        ("on a wooden table with linen", []),
        ("bring tripods and a ladder", []),
        ("wool socks x 4 colours", ["socks"]),
        ("their flagship gin + two new tonics", ["gin", "tonics"]),
        ("the new bread tin", ["bread tin"]),
        ("cushions, throws and a rug", ["cushions", "throws", "rug"]),
        ("shooting the autumn coats", ["coats"]),
        ("baby carrier in sand, sage and black", ["baby carrier"]),
        ("mustard jars, 200g", ["mustard"]),
        ("lunch: pizza", []),
        ("sat on a chair by the window", []),
        ("dog beds in three sizes s m l", ["dog beds"]),
        ("She roasts coffee and wants the new bags photographed.", ["bags"]),
        ("Three jams and a chutney.", ["jams", "chutney"]),
        ("the bottle should be on wet stone", ["bottle"]),
        ("new trail shoe, two colourways", ["trail shoe"]),
        ("hero of the amplifier, details of the knobs", ["amplifier"]),
        ("jackets, trousers and a fleece in forest and rust", ["jackets", "trousers", "fleece"]),
        ("4 x hot sauce 150ml", ["hot sauce"]),
        ("cheeseboard with all six cheeses", ["cheeses"]),
        ("a stack of notebooks", ["notebooks"]),
        ("rings and one pendant", ["rings", "pendant"]),
        ("vitamin gummies for kids", ["gummies"]),
        ("garden furniture: bench, table, 4 chairs", ["bench", "table", "chairs"]),
        ("the tent, the stove and the sleeping bag", ["tent", "stove", "sleeping bag"]),
        ("menus, 8 dishes", ["dishes"]),
        ("perfume, 30 and 50 ml", ["perfume"]),
        ("swimwear, 6 pieces", ["swimwear"]),
        ("climbing rope 60m", ["rope"]),
    ],
)
def test_what_is_shown_in_other_words(line: str, found: list[str]) -> None:
    got = products("a first line about nothing\n" + line)
    assert len(got) == len(found) and all(any(want in name or name in want for name in got) for want in found), got


@pytest.mark.parametrize(
    "line",
    [
        "surface: slate and old oak boards", "coffee and cake for the crew", "flowers as props, not the subject",
        "the founder wears an apron", "prints for the office wall", "leave the lid on", "hands holding the phone",
        "a boat passes in the background", "towels on the radiator out of shot", "tools on the wall",
        "who makes the decision",
        "walk with a rucksack in the hills", "card payments only", "book the studio", "new look for the brand",
    ],
)  # fmt: skip
def test_what_only_stands_around_is_no_product(line: str) -> None:
    assert products("a first line about nothing\n" + line) == []


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("a cleanser and a balm in graphite tubes with lime caps", ["cleanser", "balm"]),
        ("porridge pots: apple, banana", ["porridge pots"]),
        ("two kayaks, one in yellow and one in teal, and a dry bag", ["kayaks", "dry bag"]),
        ("ring maker, Fremantle. opal rings 7 of them", ["opal rings"]),
        ("22 rings, 6 pairs of earrings", ["rings", "earrings"]),
        ("3 seater sofa in ochre, 2 seater sofa in olive", ["3 seater sofa", "2 seater sofa"]),
        ("perfume, Bath. 50ml", ["perfume"]),
        ("vet practice, new reception desk", ["reception desk"]),
        ("vet practice. reception desk, puppy", []),
        ("paddles, flask = dressing, she doesn't sell those", []),
        ("no marble, no gold cutlery", []),
        ("the standing desk guy rang", ["standing desk"]),
    ],
)
def test_what_is_sold_among_what_is_only_there(text: str, names: list[str]) -> None:
    assert [product["product"] for product in data(text)["products"]] == names


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("3 saddles - jump, dressage. plus a bridle", ["saddles", "bridle"]),
        (
            "cellar near Alby\nthey are bottling a malbec, a gamay and a sparkling white",
            ["malbec", "gamay", "sparkling white"],
        ),
        ("fire shop\nextinguishers 3 sizes, smoke alarm", ["extinguishers", "smoke alarm"]),
    ],
)
def test_goods_in_a_plain_list(text: str, names: list[str]) -> None:
    assert products(text) == names
