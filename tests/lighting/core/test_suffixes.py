"""Other units are converted as a units library converts them."""

import pint
import pytest

from shoots.lighting.core.suffixes import OTHERS, input_meant

UNITS = pint.UnitRegistry()
# What pint calls the units of suffixes.
NAMES = {
    "_m_s": "m/s", "_km_h": "km/h", "_mph": "mile/hour", "_kn": "knot", "_ft_s": "foot/s", "_cd_m2": "cd/m**2",
    "_cd_s": "cd*s", "_bcps": "cd*s", "_lx_s": "lx*s", "_lx": "lx", "_klx": "klx", "_mm": "mm", "_m": "m",
    "_cm": "cm", "_um": "um", "_in": "inch", "_km": "km", "_ft": "foot", "_s": "s", "_ms": "ms", "_us": "us",
    "_min": "minute", "_h": "hour", "_ws": "W*s", "_j": "J", "_kj": "kJ", "_wh": "W*h", "_kwh": "kW*h", "_k": "K",
    "_kk": "kK", "_deg": "degree", "_rad": "radian", "_kg": "kg", "_g": "g", "_lb": "pound", "_hpa": "hPa",
    "_mbar": "mbar", "_kpa": "kPa", "_f": "F", "_uf": "uF", "_m2": "m**2", "_cm2": "cm**2", "_ft2": "foot**2",
    "_fc": "lumen/foot**2", "_fc_s": "lumen*s/foot**2",
}  # fmt: skip


@pytest.mark.parametrize(
    ("suffix", "other"), [(suffix, other) for suffix, others in OTHERS.items() for other in others if other != "_fl"]
)
def test_factors_agree_with_pint(suffix: str, other: str) -> None:
    assert OTHERS[suffix][other] == pytest.approx(UNITS(NAMES[other]).to(NAMES[suffix]).magnitude, rel=1e-9)


def test_a_foot_lambert_is_as_its_definition_says() -> None:
    """1 fL = 3.426 cd/m² (shared check table, topic 1)."""
    assert OTHERS["_cd_m2"]["_fl"] == pytest.approx(3.426, abs=5e-4)


def test_the_unit_is_the_longest_suffix() -> None:
    assert input_meant("speed_km_h", ["speed_m_s"]).factor == pytest.approx(1 / 3.6)
    assert input_meant("speed_m_ms", ["speed_m_s"]) is None
    assert input_meant("distance", ["distance_m"]) is None
    assert input_meant("focal_cm", ["f_number", "focal_mm"]) == ("focal_mm", 10.0)
