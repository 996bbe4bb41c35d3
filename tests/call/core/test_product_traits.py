"""Colours and sizes of things (shoots.call.core.product_traits)."""

from __future__ import annotations

import pytest

from shoots.call.core.product_traits import SIZE, without_doubles
from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "colours", "sizes"),
    [
        ("running vest in rust and slate, S-XL", ["rust", "slate"], ["s-xl"]),
        ("running vest in rust and slate, sizes S-XL", ["rust", "slate"], ["s-xl"]),
        ("navy jacket", ["navy"], []),
        ("new candle, 220ml", [], ["220ml"]),
        ("gin bottle 50cl and 70cl", [], ["50cl and 70cl"]),
        ("boots in tan, black or oxblood", ["tan", "black", "oxblood"], []),
        ("new candle on a white background", [], []),
    ],
)
def test_colours_and_sizes(text: str, colours: list[str], sizes: list[str]) -> None:
    (entry,) = data(text)["products"]
    assert (entry["colours"], entry["sizes"]) == (colours, sizes)
    start, end = entry["span"]
    assert all(colour in text[start:end].lower() for colour in colours)
    assert all(size in text[start:end].lower() for size in sizes)


@pytest.mark.parametrize("text", ["300ml", "s-xl", "2-man", "uk size 8-14", "small, medium and large", "1 l"])
def test_sizes(text: str) -> None:
    assert SIZE.fullmatch(text)


@pytest.mark.parametrize("text", ["3 models", "at large", "a small team"])
def test_what_is_no_size(text: str) -> None:
    assert not SIZE.search(text)


def test_the_same_thing_named_twice_is_one_with_all_its_colours() -> None:
    (entry,) = data("new trail vest in rust\nthe vest in slate too")["products"]
    assert entry["product"] == "trail vest" and set(entry["colours"]) == {"rust", "slate"}
    assert without_doubles([]) == []


def test_the_clients_trade_goes_when_there_are_products() -> None:
    assert [p["product"] for p in data("a candle brand rang\nshoot the new reed diffuser")["products"]] == [
        "reed diffuser"
    ]
