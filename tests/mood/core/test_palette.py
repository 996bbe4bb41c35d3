"""The colours of a picture (shoots.mood.core.palette), against the published patches of a colour chart."""

from __future__ import annotations

import colour
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from shoots.mood.core.lab import lab_of_srgb
from shoots.mood.core.palette import (
    ONE_COLOUR_WITHIN,
    Colour,
    Depth,
    Hue,
    colours_of,
    colours_together,
    name_of,
)
from tests.mood.core.test_lab import CHART_LAB, CHART_SRGB


def of(rgb: np.ndarray) -> tuple[Colour, ...]:
    return colours_of(lab_of_srgb(np.asarray(rgb, np.uint8)).reshape(-1, 3))


def test_a_chart_s_patches_come_back_with_their_published_colours_and_uneven_shares() -> None:
    """Every second patch of the published chart (see test_lab), the nth n times as large as the first."""
    chosen = list(CHART_SRGB)[::2]
    strip = np.repeat(np.array([CHART_SRGB[name] for name in chosen], np.uint8), 10 * np.arange(1, len(chosen) + 1), 0)
    found = of(strip)
    assert len(found) == len(chosen)
    total = sum(range(1, len(chosen) + 1))
    for name, share in zip(chosen, range(1, len(chosen) + 1), strict=True):
        published = CHART_LAB[name]
        nearest = min(found, key=lambda one: colour.delta_E(np.array(one.lab), published, method="CIE 2000"))
        assert colour.delta_E(np.array(nearest.lab), published, method="CIE 2000") < 0.7  # 8 bits, see there
        assert nearest.percent == pytest.approx(100 * share / total, abs=0.01)
    assert [one.percent for one in found] == sorted((one.percent for one in found), reverse=True)


@pytest.mark.parametrize("count", [1, 2, 3, 5, 8])
def test_as_many_colours_as_there_are(count: int) -> None:
    patches = np.array(list(CHART_SRGB.values())[:: len(CHART_SRGB) // count][:count], np.uint8)
    assert len(of(np.repeat(patches, 50, axis=0))) == count


def test_grain_adds_no_colour() -> None:
    chance = np.random.default_rng(5)
    half = np.where(np.arange(20000)[:, None] < 8000, (60, 70, 90), (220, 200, 150))
    found = of(np.clip(half + chance.normal(0, 4, half.shape), 0, 255))
    assert [round(one.percent) for one in found] == [60, 40]


def test_a_speck_is_no_colour_of_its_own() -> None:
    picture = np.full((10000, 3), 128, np.uint8)
    picture[:40] = (255, 0, 0)
    assert [one.percent for one in of(picture)] == [100.0]


def test_no_point_has_no_colour_and_no_picture_no_palette() -> None:
    assert colours_of(np.zeros((0, 3), np.float32)) == ()
    assert colours_together([]) == ()
    assert colours_together([[], []]) == ()


@settings(max_examples=40, deadline=None)
@given(hnp.arrays(np.uint8, st.tuples(st.integers(1, 40), st.just(3))), st.randoms())
def test_shares_add_up_every_two_lie_apart_and_the_order_of_points_is_nothing(picture: np.ndarray, chance) -> None:
    found = of(picture)
    assert sum(one.percent for one in found) == pytest.approx(100)
    for n, one in enumerate(found):
        for other in found[n + 1 :]:
            assert np.linalg.norm(np.subtract(one.lab, other.lab)) > ONE_COLOUR_WITHIN - 1e-6
    order = list(range(len(picture)))
    chance.shuffle(order)
    again = of(picture[order])
    assert [round(one.percent, 6) for one in again] == [round(one.percent, 6) for one in found]
    twice = of(np.repeat(picture, 2, axis=0))
    assert [round(one.percent, 6) for one in twice] == [round(one.percent, 6) for one in found]


def test_each_picture_counts_alike_in_a_palette_of_several() -> None:
    first = [Colour((20.0, 0.0, 0.0), 60.0), Colour((80.0, 0.0, 40.0), 40.0)]
    second = [Colour((22.0, 0.0, 0.0), 100.0)]
    both = colours_together([first, second])
    assert [round(one.percent) for one in both] == [80, 20]
    assert both[0].lab[0] == pytest.approx((20 * 60 + 22 * 100) / 160)


@pytest.mark.parametrize(
    ("rgb", "depth", "hue"),
    [
        ((0, 0, 0), Depth.BLACK, Hue.NEUTRAL),
        ((255, 255, 255), Depth.WHITE, Hue.NEUTRAL),
        ((120, 120, 120), Depth.MIDDLE, Hue.NEUTRAL),
        ((60, 60, 60), Depth.DEEP, Hue.NEUTRAL),
        ((30, 50, 120), Depth.DEEP, Hue.BLUE),
        ((90, 50, 20), Depth.DEEP, Hue.BROWN),
        ((240, 150, 40), Depth.LIGHT, Hue.ORANGE),
        ((190, 30, 40), Depth.DARK, Hue.RED),
        ((60, 130, 60), Depth.MIDDLE, Hue.GREEN),
        ((240, 220, 60), Depth.PALE, Hue.YELLOW),
        ((240, 170, 190), Depth.LIGHT, Hue.PINK),
        ((60, 160, 170), Depth.MIDDLE, Hue.TURQUOISE),
        ((110, 60, 150), Depth.DARK, Hue.VIOLET),
    ],
)
def test_colours_have_the_names_that_people_give_them(rgb: tuple[int, ...], depth: Depth, hue: Hue) -> None:
    """From memory: what anybody would call these."""
    name = name_of(tuple(float(part) for part in lab_of_srgb(np.array(rgb, np.uint8))))
    assert (name.depth, name.hue) == (depth, hue)


@given(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))
def test_every_colour_has_a_name(light: float, a: float, b: float) -> None:
    assert isinstance(name_of((light, a, b)).hue, Hue)
