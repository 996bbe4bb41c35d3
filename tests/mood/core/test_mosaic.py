"""Pictures laid into a field (shoots.mood.core.mosaic). Own arrangement: the properties are the specification."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.mood.core.mosaic import justified


@given(st.lists(st.floats(0.2, 5.0), min_size=1, max_size=14))
def test_nothing_is_cropped_overlaps_or_leaves_the_field(ratios: list[float]) -> None:
    tiles = justified(ratios, width=1810.0, height=1500.0, gap=30.0)
    assert len(tiles) == len(ratios)
    for tile, ratio in zip(tiles, ratios, strict=True):
        assert tile.width / tile.height == pytest.approx(ratio, rel=0.01)
        assert tile.x >= 0 and tile.x + tile.width <= 1810.1
        assert tile.y >= 0 and tile.bottom <= 1500.1
    for n, one in enumerate(tiles):
        for other in tiles[n + 1 :]:
            beside = one.x + one.width <= other.x + 0.1 or other.x + other.width <= one.x + 0.1
            assert beside or one.bottom <= other.y + 0.1 or other.bottom <= one.y + 0.1


def test_six_pictures_fill_two_thirds_of_the_field_and_none_fills_nothing() -> None:
    tiles = justified([1.5, 0.8, 0.8, 1.25, 1.6, 1.0], width=1810.0, height=1500.0, gap=30.0)
    assert sum(tile.width * tile.height for tile in tiles) > 2 / 3 * 1810 * 1500
    assert justified([], width=10.0, height=10.0, gap=1.0) == []


@given(st.lists(st.floats(0.5, 2.0), min_size=1, max_size=10))
def test_pictures_keep_their_order(ratios: list[float]) -> None:
    tiles = justified(ratios, width=1000.0, height=800.0, gap=10.0)
    assert [(tile.y, tile.x) for tile in tiles] == sorted((tile.y, tile.x) for tile in tiles)
