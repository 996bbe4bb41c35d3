"""Other units are converted as a units library converts them."""

import math

import pint
import pytest

from shoots.lighting.core.suffixes import OTHERS, in_its_unit, input_meant

UNITS = pint.UnitRegistry()
# What pint calls the units of suffixes.
NAMES = {
    "_m_s2": "m/s**2", "_ft_s2": "foot/s**2", "_m_s": "m/s", "_km_h": "km/h", "_kmh": "km/h", "_kph": "km/h",
    "_mph": "mile/hour", "_kn": "knot", "_kt": "knot", "_knots": "knot", "_ft_s": "foot/s", "_cd_m2": "cd/m**2",
    "_kcd_m2": "kcd/m**2", "_cd_s": "cd*s", "_bcps": "cd*s", "_lx_s": "lx*s", "_lux_s": "lx*s", "_lx": "lx",
    "_lux": "lx", "_klx": "klx", "_mm": "mm", "_m": "m", "_cm": "cm", "_um": "um", "_nm": "nm", "_in": "inch",
    "_km": "km", "_ft": "foot", "_s": "s", "_ms": "ms", "_us": "us", "_min": "minute", "_h": "hour", "_ws": "W*s",
    "_j": "J", "_kj": "kJ", "_wh": "W*h", "_kwh": "kW*h", "_w": "W", "_kw": "kW", "_w_m2": "W/m**2",
    "_kw_m2": "kW/m**2", "_k": "K", "_kk": "kK", "_deg": "degree", "_rad": "radian", "_kg": "kg", "_g": "g",
    "_lb": "pound", "_n": "N", "_hpa": "hPa", "_mbar": "mbar", "_kpa": "kPa", "_pa": "Pa", "_inhg": "inHg",
    "_n_m2": "N/m**2", "_kn_m2": "kN/m**2", "_f": "F", "_mf": "mF", "_uf": "uF", "_m2": "m**2", "_cm2": "cm**2",
    "_ft2": "foot**2", "_fc": "lumen/foot**2", "_fc_s": "lumen*s/foot**2",
}  # fmt: skip


@pytest.mark.parametrize(
    ("suffix", "other"), [(suffix, other) for suffix, others in OTHERS.items() for other in others if other != "_fl"]
)
def test_factors_agree_with_pint(suffix: str, other: str) -> None:
    # A kilonewton and a knot are both kn: which it is follows from the unit that is asked for.
    unit = "kN" if (suffix, other) == ("_n", "_kn") else NAMES[other]
    assert OTHERS[suffix][other] == pytest.approx(UNITS(unit).to(NAMES[suffix]).magnitude, rel=1e-6)


def test_a_foot_lambert_is_as_its_definition_says() -> None:
    """1 fL = 3.426 cd/m² (shared check table, topic 1)."""
    assert OTHERS["_cd_m2"]["_fl"] == pytest.approx(3.426, abs=5e-4)


@pytest.mark.parametrize("degrees", [-40.0, 0.0, 71.6])
def test_temperatures_are_converted_as_pint_converts_them(degrees: float) -> None:
    fahrenheit = UNITS.Quantity(degrees, UNITS.degF).to(UNITS.degC).magnitude
    kelvin = UNITS.Quantity(degrees, UNITS.degC).to(UNITS.kelvin).magnitude
    assert input_meant("air_f", ["air_c"]).convert(degrees) == pytest.approx(fahrenheit, abs=1e-9)
    assert input_meant("air_k", ["air_c"]).convert(kelvin) == pytest.approx(degrees, abs=1e-9)


def test_a_colour_temperature_may_be_given_in_mired() -> None:
    """4.1: 3200 K is 312.5 mired; below 0 there is no such light, and the range refuses it."""
    taken = input_meant("white_balance_mired", ["light_k", "white_balance_k"])
    assert (taken.name, taken.convert(312.5)) == ("white_balance_k", 3200.0)
    assert taken.convert(0.0) == math.inf


def test_shares_may_be_given_in_percent_and_cloud_as_forecasts_state_it() -> None:
    assert input_meant("power_percent", ["iso", "power"]).convert(25.0) == 0.25
    assert input_meant("iso_percent", ["iso", "power"]) is None
    assert input_meant("cloud_percent", ["altitude_deg", "oktas"]).convert(50.0) == 4.0
    assert input_meant("cloud_share", ["altitude_deg", "oktas"]).convert(0.75) == 6.0
    assert input_meant("cloud_percent", ["altitude_deg"]) is None


def test_the_unit_is_the_longest_suffix() -> None:
    assert input_meant("speed_km_h", ["speed_m_s"]).convert(3.6) == pytest.approx(1.0)
    assert input_meant("speed_m_ms", ["speed_m_s"]) is None
    assert input_meant("distance", ["distance_m"]) is None
    assert input_meant("efficacy_lm_kw", ["efficacy_lm_w"]) is None
    focal = input_meant("focal_cm", ["f_number", "focal_mm"])
    assert (focal.name, focal.convert(5.0)) == ("focal_mm", 50.0)


def test_what_is_stated_for_each_of_a_unit_shrinks_where_the_unit_grows() -> None:
    efficacy = UNITS("lumen*s/kJ").to("lumen*s/(W*s)").magnitude
    assert input_meant("efficacy_lm_s_per_kj", ["efficacy_lm_s_per_ws"]).convert(1.0) == pytest.approx(efficacy)
    assert input_meant("cools_full_pops_per_h", ["cools_full_pops_per_min"]).convert(60.0) == pytest.approx(1.0)


def test_lists_are_converted_one_by_one_and_nothing_but_numbers() -> None:
    taken = input_meant("wavelengths_um", ["source_k", "wavelengths_nm"])
    assert in_its_unit((0.4, 0.55), taken) == pytest.approx((400.0, 550.0))
    assert in_its_unit((True, None), taken) == (True, None)
