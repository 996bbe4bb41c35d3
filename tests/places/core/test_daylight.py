"""Daylight as an exposure value, its spread, and the reading that replaces it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.places.core import sky
from shoots.places.core.daylight import (
    clouded_illuminance,
    daylight,
    daylight_spread,
    diffuse_share,
    metered_daylight,
)
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("altitude", "ev"),
    [(-6, 0.45), (-0.8333, 7.50), (6, 11.14), (30, 14.18), (62, 15.37)],
    ids=lambda value: f"5.52 {value}",
)
def test_clear_daylight_in_ev(altitude: float, ev: float) -> None:
    assert daylight(float(altitude), 0.0).ev100 == pytest.approx(ev, abs=0.03)


def test_a_dome_reads_two_fifths_of_a_stop_lower_than_a_flat_receptor() -> None:
    """ISO 2720: log2(330/250) = 0.40."""
    assert daylight(40, 0).ev100 - daylight(40, 0, 330.0).ev100 == pytest.approx(0.4005, abs=1e-4)


@given(st.floats(-90, 90), st.floats(0, 8))
def test_the_parts_add_up_and_the_ends_are_the_published_skies(altitude: float, oktas: float) -> None:
    light = daylight(altitude, oktas)
    assert light.direct_lx + light.diffuse_lx == pytest.approx(light.illuminance_lx)
    assert light.direct_lx >= 0.0
    assert clouded_illuminance(altitude, 0.0) == pytest.approx(sky.clear_illuminance(altitude))
    assert clouded_illuminance(altitude, 8.0) == pytest.approx(sky.overcast_illuminance(altitude))


@given(st.floats(-17, 90), st.floats(0, 7.9))
def test_more_cloud_is_less_light_and_more_of_it_from_the_sky(altitude: float, oktas: float) -> None:
    assert clouded_illuminance(altitude, oktas + 0.1) <= clouded_illuminance(altitude, oktas)
    assert diffuse_share(altitude, oktas + 0.1) >= diffuse_share(altitude, oktas)


def test_diffuse_share_of_a_clear_summer_sky_is_near_the_published_three_tenths() -> None:
    """Kasten and Czeplak: 0.3 on average over the year at 53.6° N (from memory)."""
    assert 0.13 < diffuse_share(60.0, 0.0) < diffuse_share(20.0, 0.0) < 0.32


@pytest.mark.parametrize(
    ("altitude", "oktas", "low", "high"),
    [
        pytest.param(60.0, 0.0, 100000, 120000, id="bright sun 110-120 klx, encyclopaedia table"),
        pytest.param(62.0, 8.0, 10000, 25000, id="overcast midday up to 10-25 klx, encyclopaedia table"),
        pytest.param(30.0, 8.0, 6000, 20000, id="overcast 6-20 klx at 51 N, lighting manufacturer's page"),
        pytest.param(12.0, 8.0, 3000, 7000, id="heavily overcast 5 klx, CIBSE Code"),
    ],
)
def test_daylight_lies_in_published_levels(altitude: float, oktas: float, low: float, high: float) -> None:
    assert low <= daylight(altitude, oktas).illuminance_lx <= high


def test_the_spread_is_at_least_a_stop_and_wider_under_broken_cloud_and_low_sun() -> None:
    assert daylight_spread(50.0, 0.0) == 1.0
    assert daylight_spread(50.0, 5.0) == 1.5
    assert daylight_spread(2.0, 5.0) == 2.0


def test_a_reading_replaces_the_estimate_and_is_surer() -> None:
    reading = metered_daylight(12.0)
    assert reading.metered
    assert reading.illuminance_lx == pytest.approx(10240.0)
    assert reading.spread_stops < daylight(30.0, 8.0).spread_stops


def test_the_steps_lead_from_altitude_to_ev() -> None:
    light = daylight(30.0, 4.0)
    assert [step.formula for step in light.because] == [
        "clear_illuminance",
        "clouded_illuminance",
        "diffuse_share",
        "daylight_ev",
    ]
    assert light.because[-1].result == light.ev100
    assert all(step.source for step in light.because)


def test_impossible_skies_are_refused() -> None:
    with pytest.raises(OutOfRange, match="oktas"):
        daylight(30.0, 9.0)
    with pytest.raises(OutOfRange, match="meter_constant"):
        daylight(30.0, 1.0, 0.0)
    with pytest.raises(OutOfRange, match="diffuse"):
        metered_daylight(12.0, diffuse=1.5)


@pytest.mark.parametrize("oktas", [0.0, 4.0, 6.0, 8.0])
def test_the_diffuse_share_of_the_cloud_model_itself(oktas: float) -> None:
    """Kasten and Czeplak: 0.3 + 0.7·(N/8)² (shared check table, topic 5), whatever the height of the sun."""
    for altitude in (10.0, 45.0, 80.0):
        assert diffuse_share(altitude, oktas, clear_share=0.3) == pytest.approx(0.3 + 0.7 * (oktas / 8.0) ** 2)
