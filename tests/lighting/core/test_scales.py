"""Printed scales and the exact series behind them."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import scales
from shoots.lighting.core.conventions import Series
from shoots.lighting.core.scales import Steps
from shoots.values.units import OutOfRange

EVERY_SCALE = [
    pytest.param(build(steps), steps, per_stop, id=f"{build.__name__} {steps}")
    for build, per_stop in (
        (scales.aperture_scale, 2),
        (scales.shutter_scale, 1),
        (scales.iso_scale, 1),
    )
    for steps in Steps
]


@pytest.mark.parametrize(
    ("mark", "exact"),
    [
        pytest.param(5.6, 5.6569, id="1.3 ISO 517"),
        pytest.param(3.5, 3.5636, id="1.4 third stops"),
        pytest.param(6.3, 6.3496, id="1.4 third stops"),
        pytest.param(13, 12.6992, id="1.4 third stops"),
        pytest.param(18, 17.9594, id="1.4 third stops"),
        pytest.param(11, 11.3137, id="ISO 517"),
        pytest.param(22, 22.6274, id="ISO 517"),
    ],
)
def test_exact_f_number_behind_a_mark(mark: float, exact: float) -> None:
    assert scales.exact_f_number(float(mark)) == pytest.approx(exact, abs=0.0001)


@pytest.mark.parametrize(
    ("mark", "exact", "tolerance"),
    [
        pytest.param(160, 161.27, 0.01, id="1.5 ISO 516"),
        pytest.param(200, 203.19, 0.01, id="1.5 ISO 516"),
        pytest.param(320, 322.54, 0.01, id="1.5 ISO 516"),
        pytest.param(60, 64, 1e-9, id="ISO 516"),
        pytest.param(125, 128, 1e-9, id="ISO 516"),
        pytest.param(8000, 8192, 1e-9, id="ISO 516"),
    ],
)
def test_exact_time_behind_a_mark(mark: float, exact: float, tolerance: float) -> None:
    assert 1.0 / scales.exact_shutter(1.0 / mark) == pytest.approx(exact, abs=tolerance)


def test_thirty_seconds_are_thirty_two() -> None:
    """Table of topic 1: 30 s → 32 s."""
    assert scales.exact_shutter(30.0) == pytest.approx(32.0)


@pytest.mark.parametrize(("scale", "steps", "per_stop"), EVERY_SCALE)
def test_marks_rise_evenly_and_round_to_within_a_fifth_of_a_stop(
    scale: tuple[scales.Mark, ...], steps: Steps, per_stop: int
) -> None:
    for one, two in itertools.pairwise(scale):
        step = per_stop * abs(math.log2(two.exact / one.exact))
        assert step == pytest.approx(1.0 / {Steps.FULL: 1, Steps.HALF: 2, Steps.THIRD: 3}[steps])
    for mark in scale:
        assert per_stop * abs(math.log2(mark.marked / mark.exact)) < 0.19, mark
    assert len({mark.label for mark in scale}) == len(scale)


@pytest.mark.parametrize(("scale", "steps", "per_stop"), EVERY_SCALE)
def test_a_printed_number_leads_back_to_its_own_exact_value(
    scale: tuple[scales.Mark, ...], steps: Steps, per_stop: int
) -> None:
    exact = {
        2: scales.exact_f_number,
        1: scales.exact_shutter if scale[0].marked == 60 else scales.exact_iso,
    }[per_stop]
    for mark in scale:
        assert exact(mark.marked, steps) == pytest.approx(mark.exact), mark


def test_marks_that_cameras_show_between_full_stops() -> None:
    """Common practice, no source: the thirds printed on cameras."""
    apertures = [mark.label for mark in scales.marks_between(2.8, 8.0, scales.aperture_scale())]
    assert apertures == ["2.8", "3.2", "3.5", "4.0", "4.5", "5.0", "5.6", "6.3", "7.1", "8.0"]
    times = [mark.label for mark in scales.marks_between(1 / 60, 1 / 250, scales.shutter_scale())]
    assert times == ["1/60", "1/80", "1/100", "1/125", "1/160", "1/200", "1/250"]
    speeds = [mark.label for mark in scales.marks_between(100, 400, scales.iso_scale())]
    assert speeds == ["100", "125", "160", "200", "250", "320", "400"]


def test_a_mark_is_read_as_the_studio_settled() -> None:
    mark = scales.nearest_mark(11.0, scales.aperture_scale())
    assert mark.value(Series.MARKED) == 11.0
    assert mark.value(Series.EXACT) == pytest.approx(11.3137, abs=1e-4)


@given(st.floats(0.05, 1000.0))
def test_the_nearest_mark_is_no_further_than_any_other(value: float) -> None:
    scale = scales.aperture_scale()
    nearest = scales.nearest_mark(value, scale)
    best = min(abs(math.log2(mark.exact / value)) for mark in scale)
    assert abs(math.log2(nearest.exact / value)) == pytest.approx(best, abs=1e-9)


def test_an_exact_number_finds_its_mark_on_each_scale() -> None:
    """ISO 517 for the aperture; times and speeds as cameras show them, common practice."""
    assert scales.nearest_f_number(14.142).label == "14"
    assert scales.nearest_f_number(14.142, Steps.FULL).label in ("11", "16")
    assert scales.nearest_shutter(1 / 203.19).label == "1/200"
    assert scales.nearest_iso(317.48).label == "320"


def test_numbers_that_are_no_setting_are_named() -> None:
    for wrong in (
        lambda: scales.exact_f_number(0.0),
        lambda: scales.exact_shutter(-1.0),
        lambda: scales.exact_iso(float("nan")),
        lambda: scales.nearest_mark(0.0, scales.iso_scale()),
    ):
        with pytest.raises(OutOfRange):
            wrong()
