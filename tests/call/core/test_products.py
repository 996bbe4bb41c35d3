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
