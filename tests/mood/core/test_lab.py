"""sRGB to CIELAB and back, ΔE00 (shoots.mood.core.lab), against colour-science, scikit-image and published tables."""

from __future__ import annotations

import colour
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import rgb2lab

from shoots.mood.core.lab import delta_e_2000, hex_of_lab, lab_of_srgb, luminance_of_lightness, srgb_of_lab

D50 = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]
EVERY_16TH = np.stack(np.meshgrid(*[np.append(np.arange(0, 255, 16), 255)] * 3, indexing="ij"), -1).reshape(-1, 3)

#: The reference values of a colour rendition chart of 24 patches, xyY under D50, as its maker published them in 2005
#: and D. Pascale compiled them (The BabelColor Company, 2012); shipped by colour-science. The chart: McCamy, C. S.,
#: Marcus, H. and Davidson, J. G. (1976), A color-rendition chart, Journal of Applied Photographic Engineering 2 (3).
CHART = colour.CCS_COLOURCHECKERS["cc2005"]
CHART_LAB = {name: colour.XYZ_to_Lab(colour.xyY_to_XYZ(xyy), CHART.illuminant) for name, xyy in CHART.data.items()}
CHART_CODED = {
    name: colour.XYZ_to_sRGB(
        colour.xyY_to_XYZ(xyy), illuminant=CHART.illuminant, chromatic_adaptation_transform="Bradford"
    )
    for name, xyy in CHART.data.items()
}
#: The patches as colour-science writes them in 8-bit sRGB; one, a cyan, lies outside of sRGB.
CHART_SRGB = {
    name: np.rint(255 * coded).astype(np.uint8)
    for name, coded in CHART_CODED.items()
    if coded.min() >= 0 and coded.max() <= 1
}


def reference_lab(rgb: np.ndarray) -> np.ndarray:
    """What colour-science makes of 8-bit sRGB, adapted to D50 by Bradford."""
    xyz = colour.sRGB_to_XYZ(np.asarray(rgb) / 255.0, illuminant=D50, chromatic_adaptation_transform="Bradford")
    return np.asarray(colour.XYZ_to_Lab(xyz, D50))


def test_lab_is_colour_science_s_under_d50_for_colours_all_over_srgb() -> None:
    ours = lab_of_srgb(EVERY_16TH.astype(np.uint8))
    # colour-science takes D50 from four-digit chromaticities, ICC and this program from the adapted primaries.
    assert np.abs(ours - reference_lab(EVERY_16TH)).max() < 0.06


def test_lightness_is_scikit_image_s_and_greys_are_neutral() -> None:
    greys = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)
    ours = lab_of_srgb(greys)
    assert np.abs(ours[:, 0] - rgb2lab(greys[None])[0, :, 0]).max() < 0.01
    assert np.abs(ours[:, 1:]).max() < 0.001


def test_all_of_lab_is_scikit_image_s_under_d50_where_both_leave_the_adaptation_out() -> None:
    """scikit-image adapts nothing: fed with our adapted XYZ, its CIELAB formula must give the same numbers."""
    from skimage.color import xyz2lab

    from shoots.mood.core.lab import _LINEAR_OF_8_BIT, TO_XYZ_D50

    colours = EVERY_16TH.astype(np.uint8)
    theirs = xyz2lab((_LINEAR_OF_8_BIT[colours].astype(float) @ TO_XYZ_D50.T)[None], illuminant="D50")[0]
    assert np.abs(lab_of_srgb(colours) - theirs).max() < 0.03


@pytest.mark.parametrize("patch", CHART_SRGB)
def test_each_patch_of_the_chart_has_its_published_colour(patch: str) -> None:
    ours = lab_of_srgb(CHART_SRGB[patch]).astype(float)
    # What rounding to 8 bits costs by colour-science's own way there and back; nothing else may be lost.
    rounding = colour.delta_E(reference_lab(CHART_SRGB[patch]), CHART_LAB[patch], method="CIE 2000")
    assert rounding < 0.7
    assert delta_e_2000(ours, CHART_LAB[patch]) < rounding + 0.05


def test_all_patches_but_the_one_outside_of_srgb_were_compared() -> None:
    assert len(CHART.data) == 24
    assert sorted(set(CHART.data) - set(CHART_SRGB)) == ["cyan"]


@given(st.tuples(*[st.integers(0, 255)] * 3))
def test_srgb_comes_back_from_lab(rgb: tuple[int, int, int]) -> None:
    back = srgb_of_lab(lab_of_srgb(np.array(rgb, np.uint8)).astype(float))
    assert np.abs(back.astype(int) - np.array(rgb)).max() <= 1
    red, green, blue = back.tolist()
    assert hex_of_lab(tuple(lab_of_srgb(np.array(rgb, np.uint8)).tolist())) == f"#{red:02x}{green:02x}{blue:02x}"


#: Sharma, Wu and Dalal (2005), table 1: the hardest of the 34 pairs, L1 a1 b1, L2 a2 b2, ΔE00.
SHARMA = [
    (50.0, 2.6772, -79.7751, 50.0, 0.0, -82.7485, 2.0425),
    (50.0, 3.1571, -77.2803, 50.0, 0.0, -82.7485, 2.8615),
    (50.0, 2.8361, -74.0200, 50.0, 0.0, -82.7485, 3.4412),
    (50.0, -1.3802, -84.2814, 50.0, 0.0, -82.7485, 1.0000),
    (50.0, -1.1848, -84.8006, 50.0, 0.0, -82.7485, 1.0000),
    (50.0, -0.9009, -85.5211, 50.0, 0.0, -82.7485, 1.0000),
    (50.0, 0.0, 0.0, 50.0, -1.0, 2.0, 2.3669),
    (50.0, -1.0, 2.0, 50.0, 0.0, 0.0, 2.3669),
    (50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0009, 7.1792),
    (50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0010, 7.1792),
    (50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0011, 7.2195),
    (50.0, 2.4900, -0.0010, 50.0, -2.4900, 0.0012, 7.2195),
    (50.0, -0.0010, 2.4900, 50.0, 0.0009, -2.4900, 4.8045),
    (50.0, -0.0010, 2.4900, 50.0, 0.0010, -2.4900, 4.8045),
    (50.0, -0.0010, 2.4900, 50.0, 0.0011, -2.4900, 4.7461),
    (50.0, 2.5000, 0.0000, 50.0, 0.0000, -2.5000, 4.3065),
    (50.0, 2.5, 0.0, 73.0, 25.0, -18.0, 27.1492),
    (50.0, 2.5, 0.0, 61.0, -5.0, 29.0, 22.8977),
    (50.0, 2.5, 0.0, 56.0, -27.0, -3.0, 31.9030),
    (50.0, 2.5, 0.0, 58.0, 24.0, 15.0, 19.4535),
    (50.0, 2.5, 0.0, 50.0, 3.1736, 0.5854, 1.0000),
    (60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644),
    (63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.2630),
    (61.2901, 3.7196, -5.3901, 61.4292, 2.2480, -4.9620, 1.8731),
    (35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645),
    (22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373),
    (36.4612, 47.8580, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146),
    (90.8027, -2.0831, 1.4410, 91.1528, -1.6435, 0.0447, 1.4441),
    (90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381),
    (6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377),
    (2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082),
]


@pytest.mark.parametrize("pair", SHARMA)
def test_delta_e_2000_gives_the_published_test_values(pair: tuple[float, ...]) -> None:
    assert float(delta_e_2000(np.array(pair[:3]), np.array(pair[3:6]))) == pytest.approx(pair[6], abs=5e-5)


def test_delta_e_2000_is_colour_science_s_for_any_two_colours() -> None:
    chance = np.random.default_rng(11)
    first = chance.uniform([0, -90, -90], [100, 90, 90], (4000, 3))
    second = chance.uniform([0, -90, -90], [100, 90, 90], (4000, 3))
    assert np.abs(delta_e_2000(first, second) - colour.delta_E(first, second, method="CIE 2000")).max() < 1e-6


@given(st.floats(0.0, 100.0))
def test_luminance_of_a_lightness_is_colour_science_s(lightness: float) -> None:
    theirs = float(colour.colorimetry.luminance_CIE1976(lightness, 100.0)) / 100.0
    assert luminance_of_lightness(lightness) == pytest.approx(theirs, abs=1e-6)
