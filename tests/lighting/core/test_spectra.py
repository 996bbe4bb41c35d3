"""Filters by their spectrum, against a colour library and a handbook."""

import csv
import math
from pathlib import Path

import colour as science
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.spectra import filter_effect, filter_effect_on_spectrum
from shoots.values.units import OutOfRange

TABLE = list(csv.DictReader((Path(__file__).parents[2] / "data/light/filter_transmittances.csv").open()))
NM = [float(row["nm"]) for row in TABLE]
CMFS = science.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]


def _table(name: str) -> list[float]:
    return [float(row[name]) / 100.0 for row in TABLE]


def _by_library(kelvin: float, shares: list[float]) -> tuple[float, float]:
    """Return shift and luminous transmission from colour-science's own observer and black body; NumPy holds the
    filter's end values beyond its table."""
    shape = science.SpectralShape(380, 780, 1)
    body = science.sd_blackbody(kelvin, shape)
    cut = science.SpectralDistribution(
        dict(zip(body.wavelengths, body.values * np.interp(body.wavelengths, NM, shares), strict=True))
    )
    found = [science.sd_to_XYZ(one, CMFS.copy().align(shape), method="Integration") for one in (body, cut)]
    kelvins = [
        float(science.temperature.uv_to_CCT(science.xy_to_UCS_uv(science.XYZ_to_xy(one)), method="Ohno 2013")[0])
        for one in found
    ]
    light = [float(np.sum(one.values * CMFS.copy().align(shape).values[:, 1])) for one in (body, cut)]
    return 1e6 / kelvins[1] - 1e6 / kelvins[0], light[1] / light[0]


@pytest.mark.parametrize(
    ("name", "computed", "handbook"),
    [("81", 7.8, 9.0), ("81B", 24.3, 27.0), ("81C", 33.8, 35.0)],
    ids=lambda value: f"4.13 {value}",
)
def test_measured_filters_shift_daylight_as_computed_and_near_what_the_handbook_says(
    name: str, computed: float, handbook: float
) -> None:
    found = filter_effect(5500.0, NM, _table(name))
    assert found.shift_mired == pytest.approx(computed, abs=0.5)
    assert found.shift_mired == pytest.approx(handbook, abs=3.0)


@pytest.mark.parametrize(
    ("name", "transmission", "stops"),
    [("81B", 0.770, -0.38), ("81EF", 0.642, -0.64), ("85", 0.633, -0.66)],
    ids=lambda value: f"4.14 {value}",
)
def test_measured_filters_take_what_was_computed(name: str, transmission: float, stops: float) -> None:
    found = filter_effect(5500.0, NM, _table(name))
    assert found.transmission == pytest.approx(transmission, abs=0.005)
    assert found.stops == pytest.approx(stops, abs=0.01)


@pytest.mark.parametrize("name", ["81", "81B", "81C", "81EF", "85"])
@pytest.mark.parametrize("kelvin", [2856.0, 3200.0, 5500.0, 6500.0])
def test_shift_and_loss_agree_with_colour_science(name: str, kelvin: float) -> None:
    """Cross-check: the library's tabulated observer, black body and Ohno 2013."""
    found = filter_effect(kelvin, NM, _table(name))
    shift, light = _by_library(kelvin, _table(name))
    assert found.shift_mired == pytest.approx(shift, abs=0.25)
    assert found.transmission == pytest.approx(light, abs=0.0005)


def test_an_ideal_orange_filter_makes_the_black_body_that_it_is_the_ratio_of() -> None:
    """4.12: ratio of Planck 2934 K to 5500 K on 5500 K Planck: 2934 K; on 6500 K: 3184 K."""
    nm = np.arange(380.0, 781.0, 5.0)
    bodies = [science.sd_blackbody(kelvin, science.SpectralShape(380, 780, 5)).values for kelvin in (2934.0, 5500.0)]
    ratio = bodies[0] / bodies[1]
    shares = (ratio / ratio.max()).tolist()
    assert filter_effect(5500.0, nm.tolist(), shares).kelvin == pytest.approx(2934.0, abs=5.0)
    assert filter_effect(6500.0, nm.tolist(), shares).kelvin == pytest.approx(3184.0, abs=5.0)


def test_the_same_filter_on_the_daylight_of_a_colour_library() -> None:
    """4.12: on D55 it gives 2982 K, where the mired rule says 2935."""
    light = science.SDS_ILLUMINANTS["D55"].copy().align(science.SpectralShape(380, 780, 5))
    bodies = [science.sd_blackbody(kelvin, light.shape).values for kelvin in (2934.0, 5500.0)]
    ratio = bodies[0] / bodies[1]
    nm, powers = light.wavelengths.tolist(), light.values.tolist()
    assert filter_effect_on_spectrum(nm, powers, (ratio / ratio.max()).tolist()).kelvin == pytest.approx(
        2982.0, abs=5.0
    )


@pytest.mark.parametrize("name", ["A", "D50", "D65", "FL2", "FL11", "LED-B3"])
def test_a_lamp_without_a_filter_has_the_colour_that_the_library_finds(name: str) -> None:
    """Ohno 2013 on the library's own sums; CIE 15 sums over 5 nm."""
    light = science.SDS_ILLUMINANTS[name].copy().align(science.SpectralShape(380, 780, 5))
    uv = science.xy_to_UCS_uv(science.XYZ_to_xy(science.sd_to_XYZ(light, CMFS, method="Integration")))
    kelvin, duv = science.temperature.uv_to_CCT(uv, method="Ohno 2013")
    found = filter_effect_on_spectrum(light.wavelengths.tolist(), light.values.tolist(), [1.0] * len(light.wavelengths))
    assert found.kelvin == pytest.approx(float(kelvin), rel=0.002)
    assert found.duv == pytest.approx(float(duv), abs=0.0005)


@given(st.floats(1600.0, 20000.0), st.floats(0.01, 1.0))
def test_a_grey_filter_changes_no_colour(kelvin: float, share: float) -> None:
    found = filter_effect(kelvin, NM, [share] * len(NM))
    assert found.shift_mired == pytest.approx(0.0, abs=1e-6)
    assert found.stops == pytest.approx(math.log2(share), abs=1e-9)


@pytest.mark.parametrize(
    ("wavelengths", "shares"),
    [
        (NM[:3], [0.5] * 3),
        (NM, [0.5] * 3),
        ([*NM[:-1], 100.0], [0.5] * len(NM)),
        (NM[::-1], [0.5] * len(NM)),
        (NM, [1.5] * len(NM)),
        (NM, [0.0] * len(NM)),
        (NM, [math.nan] * len(NM)),
        ([nm + 30.0 for nm in NM], [0.5] * len(NM)),
        ([nm - 30.0 for nm in NM], [0.5] * len(NM)),
    ],
)
def test_what_is_no_spectrum_is_named(wavelengths: list[float], shares: list[float]) -> None:
    with pytest.raises(OutOfRange):
        filter_effect(5500.0, wavelengths, shares)


@pytest.mark.parametrize("powers", [[0.0] * len(NM), [-1.0] * len(NM), [math.nan] * len(NM), [1.0] * 3])
def test_what_is_no_light_is_named(powers: list[float]) -> None:
    with pytest.raises(OutOfRange):
        filter_effect_on_spectrum(NM, powers, [0.5] * len(NM))
