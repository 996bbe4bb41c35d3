"""How light, colour and warmth are spread (shoots.mood.core.tone), against scikit-image and colour-science."""

from __future__ import annotations

import colour
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp
from skimage import data
from skimage.color import rgb2xyz, xyz2lab

from shoots.mood.core.lab import lab_of_srgb
from shoots.mood.core.tone import WARM_AXIS, Key, Tint, key_of, tint_of, tones_of

PICTURES = hnp.arrays(np.uint8, st.tuples(st.integers(1, 12), st.integers(1, 12), st.just(3)))


D50 = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]
D65 = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]


def lightness_of(rgb: np.ndarray) -> np.ndarray:
    """L* under D50 by scikit-image, which adapts nothing itself, with colour-science's Bradford adaptation between."""
    whites = [colour.xy_to_XYZ(white) for white in (D65, D50)]
    adapt = colour.adaptation.matrix_chromatic_adaptation_VonKries(*whites, transform="Bradford")
    return np.asarray(xyz2lab(rgb2xyz(rgb) @ adapt.T, illuminant="D50")[..., 0])


def points(rgb: np.ndarray) -> np.ndarray:
    return lab_of_srgb(rgb).reshape(-1, 3)


@pytest.mark.parametrize("name", ["astronaut", "coffee", "chelsea", "rocket"])
def test_shares_of_the_thirds_are_scikit_image_s(name: str) -> None:
    picture = getattr(data, name)()
    lightness = lightness_of(picture)
    found = tones_of(points(picture))
    assert found.shadow_percent == pytest.approx(100 * (lightness < 100 / 3).mean(), abs=0.02)
    assert found.highlight_percent == pytest.approx(100 * (lightness >= 200 / 3).mean(), abs=0.02)
    assert found.lightness == pytest.approx(np.median(lightness), abs=0.02)
    assert found.contrast == pytest.approx(np.subtract(*np.percentile(lightness, [95, 5])), abs=0.05)


def test_chroma_is_colour_science_s() -> None:
    picture = data.coffee()[::4, ::4]
    xyz = colour.sRGB_to_XYZ(picture / 255.0, illuminant=D50, chromatic_adaptation_transform="Bradford")
    theirs = colour.Lab_to_LCHab(colour.XYZ_to_Lab(xyz, D50))[..., 1]
    assert tones_of(points(picture)).chroma == pytest.approx(theirs.mean(), abs=0.05)


def test_the_warm_axis_is_the_way_of_white_as_daylight_turns_warmer() -> None:
    """CIE 15:2018, 4.1.2: chromaticities of daylight at 6504 K and at 4000 K, by colour-science."""
    cool, warm = (
        colour.XYZ_to_Lab(colour.xy_to_XYZ(colour.temperature.CCT_to_xy_CIE_D(kelvin)), D50)[1:]
        for kelvin in (6504.0, 4000.0)
    )
    along = (warm - cool) / np.linalg.norm(warm - cool)
    assert along == pytest.approx(WARM_AXIS, abs=1e-3)


def test_warm_highlights_over_cool_shadows_are_told_apart() -> None:
    picture = np.zeros((10, 10, 3), np.uint8)
    picture[:5], picture[5:] = (250, 225, 180), (20, 30, 60)
    found = tones_of(points(picture))
    assert (tint_of(found.warm_highlights), tint_of(found.warm_shadows)) == (Tint.WARM, Tint.COOL)


@pytest.mark.parametrize(
    ("shadow", "highlight", "key"),
    [
        (50.0, 19.9, Key.LOW),
        (49.9, 0.0, Key.MIDDLE),
        (60.0, 20.0, Key.MIDDLE),
        (60.0, 30.0, Key.SPLIT),
        (30.0, 30.0, Key.SPLIT),
        (19.9, 50.0, Key.HIGH),
        (0.0, 0.0, Key.MIDDLE),
    ],
)
def test_a_key_begins_at_its_limit(shadow: float, highlight: float, key: Key) -> None:
    assert key_of(shadow, highlight) is key


def test_a_step_wedge_has_a_third_in_each_third() -> None:
    wedge = np.stack([np.linspace(0, 100, 3001), np.zeros(3001), np.zeros(3001)], 1).astype(np.float32)
    found = tones_of(wedge)
    assert (found.shadow_percent, found.middle_percent, found.highlight_percent) == pytest.approx((33.3,) * 3, abs=0.1)
    assert found.steps == pytest.approx((5.0,) * 20, abs=0.1)


@settings(max_examples=60, deadline=None)
@given(PICTURES)
def test_shares_add_up_and_turning_or_enlarging_a_picture_changes_nothing(picture: np.ndarray) -> None:
    found = tones_of(points(picture))
    assert found.shadow_percent + found.middle_percent + found.highlight_percent == pytest.approx(100)
    assert sum(found.steps) == pytest.approx(100)
    assert 0 <= found.contrast <= 100.01
    for other in (picture[::-1], picture[:, ::-1], np.rot90(picture), picture.repeat(2, 0).repeat(2, 1)):
        turned = tones_of(points(np.ascontiguousarray(other)))
        assert turned.shadow_percent == pytest.approx(found.shadow_percent)
        assert turned.highlight_percent == pytest.approx(found.highlight_percent)
        assert turned.chroma == pytest.approx(found.chroma, abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(PICTURES)
def test_a_darker_picture_never_has_less_in_shadow(picture: np.ndarray) -> None:
    darker = (picture // 2).astype(np.uint8)
    assert tones_of(points(darker)).shadow_percent >= tones_of(points(picture)).shadow_percent - 1e-9


def test_no_point_is_nothing_to_measure() -> None:
    with pytest.raises(ValueError, match="no point"):
        tones_of(np.zeros((0, 3), np.float32))
