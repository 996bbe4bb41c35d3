"""A picture measured as a whole (shoots.mood.core.measure): stored and read again, and the way to every number."""

from __future__ import annotations

import json
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp
from skimage import data

from shoots.mood.core.lab import lab_of_srgb, luminance_of_lightness
from shoots.mood.core.measure import as_kept, contrast_stops, from_kept, measure, ways
from shoots.mood.core.scales import Scale, value_on
from tests.mood import renders


def of(rgb: np.ndarray, seen: np.ndarray | None = None):  # type: ignore[no-untyped-def]
    return measure(lab_of_srgb(rgb), seen)


@settings(max_examples=30, deadline=None)
@given(hnp.arrays(np.uint8, st.tuples(st.integers(1, 20), st.integers(1, 20), st.just(3))))
def test_what_is_stored_comes_back_whatever_the_picture(picture: np.ndarray) -> None:
    found = of(picture)
    kept = json.loads(json.dumps(as_kept(found)))
    back = from_kept(kept)
    assert back is not None
    assert back.tones.shadow_percent == pytest.approx(found.tones.shadow_percent, abs=1e-4)
    assert [c.percent for c in back.colours] == pytest.approx([c.percent for c in found.colours], abs=1e-4)
    assert back.light.untold is found.light.untold
    assert from_kept(as_kept(back)) == back


def test_what_was_measured_in_another_way_is_not_believed() -> None:
    kept = as_kept(of(data.coffee()[::8, ::8]))
    assert from_kept({**kept, "way": 0}) is None
    assert from_kept(None) is None
    assert from_kept({}) is None


def test_transparent_points_count_for_nothing() -> None:
    picture = renders.ball(315.0)
    seen = np.ones(picture.shape[:2], np.bool_)
    seen[:20] = False
    painted = picture.copy()
    painted[:20] = (255, 0, 255)
    assert of(painted, seen).tones == of(picture, seen).tones
    assert of(painted, seen).points == int(seen.sum())
    assert of(painted, seen).tones != of(painted).tones


def test_contrast_in_stops_is_the_logarithm_of_the_luminances() -> None:
    wedge = np.repeat(np.array([[50, 50, 50], [200, 200, 200]], np.uint8), 50, axis=0)[None]
    found = of(wedge)
    low, high = (luminance_of_lightness(part) for part in (found.tones.lightness_low, found.tones.lightness_high))
    assert contrast_stops(found.tones) == pytest.approx(math.log2(high / low))
    # IEC 61966-2-1 by hand: ((200/255 + 0.055)/1.055)^2.4 over ((50/255 + 0.055)/1.055)^2.4.
    expected = 2.4 * math.log2((200 / 255 + 0.055) / (50 / 255 + 0.055))
    assert contrast_stops(found.tones) == pytest.approx(expected, abs=0.01)
    assert contrast_stops(of(np.array([[[0, 0, 0], [255, 255, 255]]], np.uint8)).tones) < 10.0


def test_every_scale_says_how_its_number_came_about() -> None:
    found = of(data.astronaut()[::4, ::4])
    how = ways(found)
    assert set(how) == {scale.value for scale in Scale}
    for scale in Scale:
        first = how[scale][0]
        assert first.source and first.expression and first.inputs
        if scale is not Scale.DIRECTION:
            assert first.result == pytest.approx(value_on(scale, found))
    share = how["SHADOW"][0]
    given_ = {one.name: one.value for one in share.inputs}
    assert 100 * given_["points_there"] / given_["points"] == pytest.approx(share.result)
    assert given_["points"] == given_["copy_width_1"] * given_["copy_height_1"]
