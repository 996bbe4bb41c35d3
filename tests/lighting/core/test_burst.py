"""Flash duration, curtains and high-speed sync against derivations done twice and two published manuals."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.kit.core.lamps import Circuit
from shoots.lighting.core import burst
from shoots.values.units import OutOfRange

DECAYS, POWERS = st.floats(1e-5, 0.02), st.floats(1 / 1024, 1.0)


def test_t01_of_an_exponential_flash() -> None:
    """2.15: ISO 2827 definitions (from memory), ratio ln 10/ln 2 derived."""
    assert burst.t01_from_t05(1 / 800) == pytest.approx(4.152e-3, rel=0.001)
    assert burst.decay_time(1 / 800) == pytest.approx(1.803e-3, rel=0.001)
    assert burst.t01_from_t05(1.0) == pytest.approx(3.3219, abs=1e-4)


def test_a_shutter_open_for_two_milliseconds_catches_two_thirds() -> None:
    """2.16: derived."""
    share = burst.burst_share(0.002, burst.decay_time(1 / 800))
    assert share == pytest.approx(0.6701, abs=0.0005)
    assert math.log2(share) == pytest.approx(-0.578, abs=0.002)


def test_half_and_nine_tenths_of_the_light_fall_within_t05_and_t01() -> None:
    """Exponential discharge: derived."""
    assert burst.burst_share(0.00125, burst.decay_time(0.00125)) == pytest.approx(0.5)
    assert burst.burst_share(burst.t01_from_t05(0.00125), burst.decay_time(0.00125)) == pytest.approx(0.9)


@pytest.mark.parametrize(("shutter", "stops"), [(250, -1.0), (500, -1.585), (1000, -2.322), (4000, -4.087)])
def test_ideal_loss_of_high_speed_sync(shutter: int, stops: float) -> None:
    """2.13: derived for a curtain of 1/250 s."""
    assert burst.high_speed_sync_stops(1.0 / shutter, 1 / 250) == pytest.approx(stops, abs=0.001)


def test_the_ideal_loss_agrees_with_a_simulation_row_by_row() -> None:
    """A second computation: each row of the sensor integrates an even burst of the length of the curtains'
    run."""
    curtain, shutter = 1 / 250, 1 / 1000
    time = np.linspace(-0.001, curtain + shutter + 0.001, 200_001)
    power = ((time >= 0) & (time <= curtain + shutter)) / (curtain + shutter)
    for row in (0.0, 0.37, 1.0):
        window = (time >= row * curtain) & (time <= row * curtain + shutter)
        share = np.trapezoid(power * window, time)
        assert share == pytest.approx(burst.high_speed_sync_share(shutter, curtain), rel=1e-3)


def test_two_published_manuals_lose_more_than_the_ideal() -> None:
    """2.14: GN 12 m at 1/500 s in high-speed sync against 51 m at ISO 200, which is 36.1 m at ISO 100."""
    published = 2.0 * math.log2(12.0 / (51.0 / math.sqrt(2.0)))
    assert published == pytest.approx(-3.17, abs=0.1)
    ideal = burst.high_speed_sync_stops(1 / 500, 1 / 250)
    assert published - ideal == pytest.approx(-1.6, abs=0.1)
    assert burst.high_speed_sync_stops(1 / 500, 1 / 250, extra_stops=-1.59) == pytest.approx(published, abs=0.02)


def test_in_high_speed_sync_flash_follows_ambient() -> None:
    """Derived: at short times each halving costs both a stop; with a fixed burst exactly."""
    one, two = (burst.high_speed_sync_stops(t, 1 / 250) for t in (1 / 4000, 1 / 8000))
    assert one - two == pytest.approx(1.0, abs=0.1)
    fixed = [burst.fixed_burst_stops(t, 1 / 125) for t in (1 / 1000, 1 / 2000)]
    assert fixed[0] - fixed[1] == pytest.approx(1.0)
    assert burst.fixed_burst_stops(1 / 60, 1 / 125) == 0.0
    assert burst.fixed_burst_stops(np.array([1 / 60, 1 / 250]), 1 / 125) == pytest.approx([0.0, -1.0])


def test_near_the_sync_speed_one_edge_gets_over_half_a_stop_less() -> None:
    """1/200 s, curtain 1/300 s and a long tail (t0.1 of 4 ms): the edge that is covered first loses the
    tail."""
    decay = 0.004 / math.log(10.0)
    edges = [burst.edge_share(row, 1 / 200, 1 / 300, decay) for row in (0.0, 1.0)]
    assert math.log2(min(edges) / max(edges)) == pytest.approx(-0.61, abs=0.02)
    assert burst.synced_share(1 / 200, 1 / 300, decay) == pytest.approx(min(edges))


def test_a_row_integrates_what_the_formula_says() -> None:
    """A second computation by integration over time."""
    shutter, curtain, decay, delay = 1 / 200, 1 / 300, 0.0018, 0.0004
    time = np.linspace(0.0, 0.03, 300_001)
    power = np.where(time >= curtain + delay, np.exp(-(time - curtain - delay) / decay) / decay, 0.0)
    for row in (0.0, 0.5, 1.0):
        window = (time >= row * curtain) & (time <= row * curtain + shutter)
        share = np.trapezoid(power * window, time)
        ours = burst.edge_share(row, shutter, curtain, decay, delay_s=delay)
        assert ours == pytest.approx(share, abs=2e-3)


def test_beyond_the_sync_speed_there_is_a_black_band() -> None:
    assert burst.synced_share(1 / 500, 1 / 250, 0.001) == 0.0
    assert burst.edge_share(1.0, 1 / 500, 1 / 250, 0.001) > 0.0


def test_a_slow_shutter_catches_it_all() -> None:
    assert burst.synced_share(1 / 30, 1 / 250, 0.001) == pytest.approx(1.0)


@given(DECAYS, POWERS)
def test_full_power_of_a_cut_off_head_is_its_longest_flash(decay: float, power: float) -> None:
    full = decay * math.log(10.0)
    duration = burst.flash_duration(Circuit.CUT_OFF, full, power)
    assert duration <= full * (1 + 1e-12)
    assert burst.flash_duration(Circuit.CUT_OFF, full, 1.0) == pytest.approx(full)
    # The cut comes when that share of the light has been given.
    assert burst.burst_share(burst.cut_off_time(decay, power), decay) == pytest.approx(power)


@given(DECAYS, POWERS)
def test_a_voltage_controlled_head_burns_longer_at_less_power(decay: float, power: float) -> None:
    full = decay * math.log(10.0)
    assert burst.flash_duration(Circuit.VOLTAGE, full, power) >= full * (1 - 1e-12)


def test_below_half_power_t01_and_t05_of_a_cut_off_head_are_the_same() -> None:
    """Table of topic 2: for cut-off pulses t0.1 tends to t0.5."""
    t01 = burst.flash_duration(Circuit.CUT_OFF, 0.004, 0.25)
    t05 = burst.flash_duration(Circuit.CUT_OFF, 0.004, 0.25, above=0.5)
    assert t01 == pytest.approx(t05)


@given(st.floats(0.0, 0.05), DECAYS, st.floats(1e-5, 0.02))
def test_shares_are_shares_and_grow_with_time(open_s: float, decay: float, cut: float) -> None:
    share = burst.burst_share(open_s, decay, cut)
    assert 0.0 <= share <= 1.0
    assert burst.burst_share(open_s + 0.001, decay, cut) >= share


@given(st.floats(0, 1), st.floats(1e-4, 1.0), st.floats(1e-3, 0.02), DECAYS)
def test_a_longer_exposure_never_gives_a_row_less(row: float, shutter: float, curtain: float, decay: float) -> None:
    shorter = burst.edge_share(row, shutter, curtain, decay)
    assert 0.0 <= shorter <= burst.edge_share(row, 1.5 * shutter, curtain, decay) + 1e-12 <= 1.0 + 1e-9


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: burst.decay_time(0.0),
        lambda: burst.cut_off_time(0.001, 0.0),
        lambda: burst.flash_duration(Circuit.VOLTAGE, 0.001, 2.0),
        lambda: burst.flash_duration(Circuit.VOLTAGE, 0.001, 0.5, above=1.0),
        lambda: burst.burst_share(0.001, float("nan")),
        lambda: burst.edge_share(1.5, 0.01, 0.004, 0.001),
        lambda: burst.high_speed_sync_share(0.0, 0.004),
        lambda: burst.high_speed_sync_stops(0.001, 0.004, extra_stops=1.0),
        lambda: burst.fixed_burst_stops(0.001, 0.0),
    ],
)
def test_times_that_cannot_be_meant_are_named(wrong: object) -> None:
    with pytest.raises(OutOfRange):
        wrong()  # type: ignore[operator]
