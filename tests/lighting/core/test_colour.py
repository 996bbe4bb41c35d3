"""Colour temperature against printed filters and colour-science."""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour as science

from shoots.kit.core.lamps import GelSpec
from shoots.lighting.core import colour
from shoots.values.units import OutOfRange

pytestmark = pytest.mark.filterwarnings("ignore:Aligning")

OBSERVER = "CIE 1931 2 Degree Standard Observer"
CMFS = science.MSDS_CMFS[OBSERVER]


@pytest.mark.parametrize(
    ("start", "shift", "expected", "tolerance"),
    [
        pytest.param(5500, 159, 2934, 2, id="4.3 full CTO, scale X"),
        pytest.param(5500, 64, 4068, 2, id="4.4 quarter CTO, scale X"),
        pytest.param(3200, -137, 5700, 10, id="4.5 full CTB: trade article"),
        pytest.param(5500, 109, 3439, 1, id="half CTO, scale X"),
        pytest.param(5500, 81, 3805, 1, id="half CTO, scale Y: Brown, Cinematography, Table 12.1"),
        pytest.param(5500, 26, 4812, 1, id="eighth CTO, scale X"),
        pytest.param(3200, -78, 4264, 1, id="half CTB, scale X"),
        pytest.param(3200, -131, 5510, 1, id="full CTB, scale Y: Brown, Table 12.1"),
        pytest.param(3200, -12, 3328, 1, id="eighth CTB, scale Y: Brown, Table 12.1"),
        pytest.param(5600, 173, 2844, 3, id="4.8 half and quarter CTO"),
    ],
)
def test_a_gel_shifts_a_light_as_printed(start: float, shift: float, expected: float, tolerance: float) -> None:
    found = colour.filtered_colour(float(start), float(shift))
    assert found.kelvin == pytest.approx(expected, abs=tolerance)


def test_shift_needed_is_the_handbook_filter() -> None:
    """4.6 and 4.7: filter 85B is +131, filter 85 is +112 (handbook)."""
    assert colour.shift_needed(5500.0, 3200.0) == pytest.approx(130.7, abs=0.1)
    assert colour.shift_needed(5500.0, 3400.0) == pytest.approx(112.3, abs=0.1)


def test_two_gels_add_their_shift_and_multiply_their_transmission() -> None:
    """4.8: scale X, half and quarter CTO."""
    both = colour.stacked_gels([GelSpec(109.0, 0.71), GelSpec(64.0, 0.79)])
    assert both.shift_mired == pytest.approx(173.0)
    assert both.transmission == pytest.approx(0.5609, abs=0.005)
    assert both.stops == pytest.approx(-0.834, abs=0.005)


@pytest.mark.parametrize(
    ("transmission", "stops", "tolerance"),
    [
        pytest.param(0.55, -0.862, 0.001, id="4.9"),
        pytest.param(0.34, -1.556, 0.001, id="4.9"),
        pytest.param(0.81, -0.304, 0.001, id="4.9"),
        pytest.param(0.770, -0.38, 0.005, id="4.14 81B: handbook 1/3 stop"),
        pytest.param(0.642, -0.64, 0.005, id="4.14 81EF: handbook 2/3 stop"),
        pytest.param(0.633, -0.66, 0.005, id="4.14 85: handbook 2/3 stop"),
    ],
)
def test_transmission_in_stops(transmission: float, stops: float, tolerance: float) -> None:
    assert colour.transmission_stops(transmission) == pytest.approx(stops, abs=tolerance)


def test_beyond_the_blue_limit_there_is_no_kelvin() -> None:
    found = colour.filtered_colour(6500.0, -200.0)
    assert found.mired < 0.0
    assert found.kelvin is None


@pytest.mark.parametrize(("illuminant", "kelvin"), [("A", 2855.5), ("D50", 5000.7), ("D55", 5502.4), ("D65", 6504.3)])
def test_colour_temperature_of_the_standard_illuminants(illuminant: str, kelvin: float) -> None:
    """4.10: colour-science 0.4.7, Ohno 2013; nominal CIE 2856, 5003, 5503, 6504 K."""
    x, y = science.CCS_ILLUMINANTS[OBSERVER][illuminant]
    assert colour.correlated_colour(float(x), float(y)).kelvin == pytest.approx(kelvin, abs=2.0)


@pytest.mark.parametrize("kelvin", [1700.0, 2856.0, 3200.0, 4000.0, 5500.0, 6500.0, 10000.0, 20000.0])
def test_the_locus_and_the_way_back_agree_with_colour_science(kelvin: float) -> None:
    """Cross-check with colour-science: Planck's law and the CIE 1931 observer."""
    body = science.sd_blackbody(kelvin, science.SpectralShape(360, 830, 1))
    xyz = science.sd_to_XYZ(body, CMFS, method="Integration")
    uv = science.UCS_to_uv(science.XYZ_to_UCS(xyz))
    assert colour.planckian_uv(kelvin) == pytest.approx(tuple(uv), abs=3e-5)
    x, y = science.XYZ_to_xy(xyz)
    found = colour.correlated_colour(float(x), float(y))
    assert 1e6 / found.kelvin == pytest.approx(1e6 / kelvin, abs=0.1)
    assert abs(found.duv) < 5e-5


@pytest.mark.parametrize(
    ("source", "spectral", "by_rule"),
    [("planck 5500", 2934.0, 2934.0), ("D55", 2982.0, 2935.0), ("planck 6500", 3184.0, 3196.0)],
)
def test_the_mired_rule_is_good_to_a_few_mired_on_real_spectra(source: str, spectral: float, by_rule: float) -> None:
    """4.12: an ideal orange filter, ratio of Planck 2934 K and 5500 K, computed with colour-science."""
    shape = science.SpectralShape(360, 830, 5)
    planck = {kelvin: science.sd_blackbody(kelvin, shape).values for kelvin in (2934.0, 5500.0, 6500.0)}
    filtered = planck[2934.0] / planck[5500.0]
    if source == "D55":
        light = science.SDS_ILLUMINANTS["D55"].copy().align(shape).values
        start = 5502.4
    else:
        start = float(source.split()[1])
        light = planck[start]
    values = science.SpectralDistribution(light * filtered, shape.wavelengths)
    x, y = science.XYZ_to_xy(science.sd_to_XYZ(values, CMFS, method="Integration"))
    found = colour.correlated_colour(float(x), float(y)).kelvin
    assert found == pytest.approx(spectral, abs=5.0)
    rule = colour.filtered_colour(start, colour.shift_needed(5500.0, 2934.0)).kelvin
    assert rule == pytest.approx(by_rule, abs=2.0)
    assert abs(1e6 / rule - 1e6 / found) < 6.0


def test_a_mixture_of_two_lights_agrees_with_the_sum_of_their_spectra() -> None:
    """Cross-check with colour-science: add black-body spectra of equal luminance."""
    shape = science.SpectralShape(360, 830, 5)
    total = np.zeros(len(shape.wavelengths))
    for kelvin, amount in ((3200.0, 100.0), (5600.0, 50.0)):
        body = science.sd_blackbody(kelvin, shape)
        luminance = science.sd_to_XYZ(body, CMFS, method="Integration")[1]
        total += amount * body.values / luminance
    xyz = science.sd_to_XYZ(science.SpectralDistribution(total, shape.wavelengths), CMFS, method="Integration")
    x, y = science.XYZ_to_xy(xyz)
    expected = colour.correlated_colour(float(x), float(y))
    found = colour.mixed_colour([(100.0, 3200.0), (50.0, 5600.0)])
    assert found.kelvin == pytest.approx(expected.kelvin, rel=0.002)
    assert found.duv == pytest.approx(expected.duv, abs=2e-4)


def test_a_warm_gel_behind_and_a_plain_key_read_as_low_sun_on_a_dull_day() -> None:
    """Common practice, no source: white balance on the plain key; the gelled rim looks far warmer, the sky
    cool."""
    key, sky = 5600.0, colour.daylight_colour(30.0, 8.0)[0]
    rim = colour.filtered_colour(key, 159.0).kelvin
    assert colour.appearance(rim, key) == pytest.approx(159.0)
    # It lies where the trade chart has the sun at rise and set, 2800 to 3000 K, within a gel's tolerance.
    assert 2700 <= rim <= 3100
    assert colour.appearance(sky, key) < -10.0


@pytest.mark.parametrize(
    ("altitude", "oktas", "low", "high"),
    [
        pytest.param(0.0, 0.0, 2800, 3000, id="rise and set"),
        pytest.param(8.0, 0.0, 3200, 3400, id="an hour from it"),
        pytest.param(16.0, 0.0, 3900, 4100, id="two hours"),
        pytest.param(50.0, 0.0, 5000, 5500, id="midday"),
        pytest.param(30.0, 8.0, 6000, 8000, id="overcast"),
    ],
)
def test_daylight_has_the_colours_of_the_trade_chart(altitude: float, oktas: float, low: float, high: float) -> None:
    """Working colour temperatures: practice, one trade chart [read]."""
    assert low <= colour.daylight_colour(altitude, oktas)[0] <= high


@given(st.floats(1600, 20000), st.floats(-30, 159))
def test_a_filter_and_its_opposite_cancel(kelvin: float, shift: float) -> None:
    there = colour.filtered_colour(kelvin, shift)
    if there.kelvin is not None and 500.0 <= there.kelvin <= 1e6:
        back = colour.filtered_colour(there.kelvin, -shift).kelvin
        assert back == pytest.approx(kelvin, rel=1e-6)
        assert colour.shift_needed(kelvin, there.kelvin) == pytest.approx(shift, abs=1e-6)


@given(st.lists(st.tuples(st.floats(0.1, 1e4), st.floats(1600, 20000)), min_size=1, max_size=4))
def test_a_mixture_lies_between_its_lights_in_any_order(lights: list[tuple[float, float]]) -> None:
    found = colour.mixed_colour(lights)
    kelvins = [kelvin for _, kelvin in lights]
    assert min(kelvins) * 0.995 <= found.kelvin <= max(kelvins) * 1.005
    assert colour.mixed_colour(lights[::-1]) == found


@given(st.floats(0.2, 0.6), st.floats(0.2, 0.5))
def test_any_usual_chromaticity_has_a_nearest_black_body(x: float, y: float) -> None:
    found = colour.correlated_colour(x, y)
    assert 1490.0 <= found.kelvin <= 25001.0
    assert np.isfinite(found.duv)


def test_colours_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: colour.filtered_colour(0.0, 10.0),
        lambda: colour.shift_needed(5500.0, -1.0),
        lambda: colour.transmission_stops(0.0),
        lambda: colour.appearance(float("nan"), 5500.0),
        lambda: colour.planckian_uv(1000.0),
        lambda: colour.correlated_colour(0.0, 0.3),
        lambda: colour.mixed_colour([]),
        lambda: colour.mixed_colour([(0.0, 5000.0)]),
        lambda: colour.daylight_colour(0.0, 9.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
