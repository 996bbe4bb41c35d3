"""What is written down from a meter."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.tenths import NoMeterReading, meter_reading, read_meter
from shoots.values.units import OutOfRange


@pytest.mark.parametrize(
    ("text", "mark", "tenths"),
    [
        ("11.3", "11", 3),
        ("11 3", "11", 3),
        ("11³", "11", 3),
        ("f/11.3", "11", 3),
        ("F11,3", "11", 3),
        ("8", "8.0", 0),
        ("8.0", "8.0", 0),
        ("8.7", "8.0", 7),
        ("5.6", "5.6", 0),
        ("5.63", "5.6", 3),
        ("5.6 3", "5.6", 3),
        ("5.6.3", "5.6", 3),
        ("5.6₃", "5.6", 3),
        ("22.9", "22", 9),
        ("2.8", "2.8", 0),
        ("1.4", "1.4", 0),
        ("2.5", "2.0", 5),
        ("0.73", "0.7", 3),
    ],
)
def test_a_noted_reading_is_understood(text: str, mark: str, tenths: int) -> None:
    reading = read_meter(text)
    assert (reading.mark, reading.tenths) == (mark, tenths)
    marked = {"0.7": -1, "1.4": 1, "2.0": 2, "2.8": 3, "5.6": 5, "8.0": 6, "11": 7, "22": 9}[mark]
    assert 2.0 * math.log2(reading.f_number) == pytest.approx(marked + tenths / 10.0)


def test_a_mark_that_could_also_be_tenths_keeps_its_other_meaning() -> None:
    """f/2.8, or f/2 and eight tenths: the mark is taken, the other kept for the page to ask."""
    reading = read_meter("2.8")
    assert reading.f_number == pytest.approx(2.8284, abs=1e-4)
    assert reading.other_f_number == pytest.approx(2.0 * 2.0**0.4, abs=1e-4)
    assert read_meter("11.3").other_f_number is None


@pytest.mark.parametrize("text", ["", "soft", "7", "11.33.3", "-8", "f/", "1e3", "11.3.3.3", "٣"])
def test_text_that_no_meter_shows_is_refused(text: str) -> None:
    with pytest.raises(NoMeterReading):
        read_meter(text)


@given(st.floats(0.5, 175.0))
def test_what_a_meter_shows_is_read_back_to_a_twentieth_of_a_stop(f_number: float) -> None:
    shown = meter_reading(f_number)
    assert 0 <= shown.tenths <= 9
    back = read_meter(f"{shown.mark} {shown.tenths}")
    assert abs(2.0 * math.log2(back.f_number / f_number)) <= 0.0501


def test_an_aperture_beyond_any_meter_is_named() -> None:
    with pytest.raises(OutOfRange):
        meter_reading(0.1)
