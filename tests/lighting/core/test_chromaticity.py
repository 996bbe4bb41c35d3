"""Colour temperatures by formula, against a colour library."""

import colour as science
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.chromaticity import hernandez_temperature, mccamy_temperature
from shoots.lighting.core.colour import correlated_colour
from shoots.values.units import OutOfRange

CMFS = science.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]


def _black_body(kelvin: float) -> tuple[float, float]:
    body = science.sd_blackbody(kelvin, science.SpectralShape(360, 830, 1))
    x, y = science.XYZ_to_xy(science.sd_to_XYZ(body, CMFS, method="Integration"))
    return float(x), float(y)


def test_two_formulas_are_off_where_the_definition_is_not() -> None:
    """4.11: at 3200 K McCamy 1992 gives 3208.0 K and Hernández-Andrés 1999 gives 3173.4 K."""
    x, y = _black_body(3200.0)
    assert mccamy_temperature(x, y) == pytest.approx(3208.0, abs=1.0)
    assert hernandez_temperature(x, y) == pytest.approx(3173.4, abs=1.0)
    assert correlated_colour(x, y).kelvin == pytest.approx(3200.0, abs=1.0)


@pytest.mark.parametrize("kelvin", [2400.0, 3000.0, 4000.0, 5500.0, 7000.0, 10000.0, 20000.0, 40000.0])
def test_both_agree_with_the_library(kelvin: float) -> None:
    xy = _black_body(kelvin)
    assert mccamy_temperature(*xy) == pytest.approx(float(science.temperature.xy_to_CCT_McCamy1992(xy)), rel=1e-6)
    assert hernandez_temperature(*xy) == pytest.approx(float(science.temperature.xy_to_CCT_Hernandez1999(xy)), rel=1e-6)


def test_the_bluest_sky_takes_the_second_half_of_the_formula() -> None:
    for xy in ((0.2430, 0.2380), (0.2425, 0.2365)):
        library = float(science.temperature.xy_to_CCT_Hernandez1999(xy))
        assert library > 50000.0
        assert hernandez_temperature(*xy) == pytest.approx(library, rel=1e-6)


@given(st.floats(1e-9, 1.0), st.floats(1e-9, 1.0))
def test_any_chromaticity_has_a_temperature_or_none(x: float, y: float) -> None:
    for formula in (mccamy_temperature, hernandez_temperature):
        kelvin = formula(x, y)
        assert kelvin is None or 500.0 <= kelvin <= 1e6


def test_what_is_no_chromaticity_is_named() -> None:
    for formula in (mccamy_temperature, hernandez_temperature):
        for wrong in ((0.0, 0.3), (0.3, 1.5)):
            with pytest.raises(OutOfRange):
                formula(*wrong)
