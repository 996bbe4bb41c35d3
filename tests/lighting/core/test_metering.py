"""Meter equations against printed tables, a definition and pint."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import metering
from shoots.values.units import OutOfRange

UNITS = pint.UnitRegistry()

TABLE = [
    (-4, 0.15625, 0.20625, 0.0078125),
    (0, 2.5, 3.3, 0.125),
    (3, 20, 26.4, 1),
    (6, 160, 211.2, 8),
    (8, 640, 844.8, 32),
    (10, 2560, 3379.2, 128),
    (12, 10240, 13516.8, 512),
    (13, 20480, 27033.6, 1024),
    (14, 40960, 54067.2, 2048),
    (15, 81920, 108134, 4096),
    (16, 163840, 216269, 8192),
]


@pytest.mark.parametrize(("ev", "flat", "dome", "luminance"), TABLE, ids=lambda value: f"ISO 2720 {value}")
def test_ev_and_light_agree_with_the_table(ev: int, flat: float, dome: float, luminance: float) -> None:
    assert metering.illuminance_at_ev(float(ev)) == pytest.approx(flat)
    assert metering.illuminance_at_ev(float(ev), meter_constant=330.0) == pytest.approx(dome, rel=5e-6)
    assert metering.luminance_at_ev(float(ev)) == pytest.approx(luminance)
    assert metering.incident_ev(flat) == pytest.approx(ev)
    assert metering.reflected_ev(luminance) == pytest.approx(ev)


@pytest.mark.parametrize(
    ("lux", "ev"),
    [
        pytest.param(120000, 15.55, id="brightest sun, encyclopaedia table"),
        pytest.param(107600, 15.39, id="direct sunlight, W. J. Smith, Modern Optical Engineering, Fig. 12.9"),
        pytest.param(10760, 12.07, id="open shade, W. J. Smith, Modern Optical Engineering, Fig. 12.9"),
        pytest.param(5000, 10.97, id="heavily overcast, CIBSE Code for Interior Lighting"),
        pytest.param(410, 7.36, id="sunset, AMS Glossary of Meteorology"),
        pytest.param(3.5, 0.49, id="end of civil twilight, AMS Glossary of Meteorology"),
        pytest.param(0.008, -8.29, id="-12 degrees, AMS Glossary of Meteorology"),
        pytest.param(0.25, -3.32, id="full moon, encyclopaedia table"),
        pytest.param(100000, 15.2877, id="colour-hdri 0.2.6"),
    ],
)
def test_published_light_levels_in_ev(lux: float, ev: float) -> None:
    assert metering.incident_ev(float(lux)) == pytest.approx(ev, abs=0.005)


def test_the_meter_constant_moves_a_reading_by_two_fifths_of_a_stop() -> None:
    """1.8 and 1.9: derived from ISO 2720."""
    assert metering.incident_ev(50000.0) == pytest.approx(14.288, abs=0.001)
    assert metering.incident_ev(50000.0, meter_constant=330.0) == pytest.approx(13.887, abs=0.001)


def test_illuminance_that_settings_expose() -> None:
    """1.10 and 1.11: colour-hdri 0.2.6 average_illuminance."""
    assert metering.illuminance_exposed(8.0, 1.0, 100.0) == pytest.approx(160.0)
    assert metering.illuminance_exposed(16.0, 1 / 100, 100.0) == pytest.approx(64000.0)
    assert metering.illuminance_exposed(16.0, 1 / 100, 100.0, 330.0) == pytest.approx(84480.0)


def test_f_number_for_full_sun_at_a_fixed_time() -> None:
    """1.13: derived: 100 klx for 1/200 s."""
    assert metering.f_number_for_exposure(100000.0 / 200.0, 100.0) == pytest.approx(14.142, abs=0.005)


def test_luminous_exposure_at_f_8() -> None:
    """2.11: derived."""
    assert metering.luminous_exposure(8.0, 100.0) == pytest.approx(160.0)


def test_a_surface_read_both_ways_agrees_with_its_reflectance() -> None:
    """ISO 2720: L = ρE/π and K/C·π is the reflectance that both meters agree on: 15.7 % at 12.5 and 250."""
    reflectance = 12.5 / 250.0 * math.pi
    luminance = reflectance * 1000.0 / math.pi
    assert metering.reflected_ev(luminance) == pytest.approx(metering.incident_ev(1000.0))
    assert reflectance == pytest.approx(0.157, abs=0.0005)


def test_four_candela_is_brightness_value_zero() -> None:
    """APEX with K = 12.5: derived; with K = 10.7 (Exif's foot-lamberts) 0.22 stop apart."""
    assert metering.brightness_value(4.0) == pytest.approx(0.0)
    assert metering.brightness_value(4.0, 10.7) == pytest.approx(0.224, abs=0.005)


@given(st.floats(1e-3, 1e6), st.floats(10.0, 1e5), st.floats(200.0, 600.0))
def test_illuminance_and_ev_are_each_others_inverse(lux: float, iso: float, constant: float) -> None:
    level = metering.incident_ev(lux, iso, constant)
    assert metering.illuminance_at_ev(level, iso, constant) == pytest.approx(lux, rel=1e-9)


@given(st.floats(0.7, 64.0), st.floats(1e-4, 30.0), st.floats(25.0, 25600.0))
def test_the_incident_equation_holds_in_units(f_number: float, shutter: float, iso: float) -> None:
    """Cross-check with pint: N²/t = E·S/C comes out as 1/s."""
    ours = metering.illuminance_exposed(f_number, shutter, iso)
    rate = (ours * UNITS.lux) * iso / (250.0 * UNITS.lux * UNITS.second)
    assert rate.to("1/second").magnitude == pytest.approx(f_number**2 / shutter, rel=1e-9)
    exposed = metering.luminous_exposure(f_number, iso)
    assert exposed == pytest.approx(ours * shutter, rel=1e-9)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: metering.incident_ev(0.0),
        lambda: metering.incident_ev(100.0, 0.0),
        lambda: metering.incident_ev(100.0, 100.0, 5.0),
        lambda: metering.illuminance_at_ev(float("nan")),
        lambda: metering.reflected_ev(-1.0),
        lambda: metering.luminance_at_ev(99.0),
        lambda: metering.illuminance_exposed(8.0, 0.0, 100.0),
        lambda: metering.luminous_exposure(0.0, 100.0),
        lambda: metering.f_number_for_exposure(0.0, 100.0),
        lambda: metering.brightness_value(0.0),
    ],
)
def test_light_that_cannot_be_meant_is_named(wrong: object) -> None:
    with pytest.raises(OutOfRange):
        wrong()  # type: ignore[operator]
