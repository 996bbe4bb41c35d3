"""Settings, powers and readings as people type them; the spellings are the trade's, common practice."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.forms.fields import ApertureField, PowerField, ShutterField
from shoots.lighting.queries.notation import power_text, shutter_text


@pytest.mark.parametrize(
    ("typed", "seconds"),
    [("1/200", 0.005), ("1 / 200 s", 0.005), ("0.5", 0.5), ("2 s", 2.0), ('2"', 2.0), ("1/8000", 0.000125)],
)
def test_shutter_times_are_read_as_cameras_show_them(typed: str, seconds: float) -> None:
    assert ShutterField().clean(typed) == pytest.approx(seconds)


@pytest.mark.parametrize("typed", ["", "fast", "1/0", "0", "-1", "1/999999", "61", "1/2/3", "nan", "inf", "1e9"])
def test_impossible_shutter_times_are_refused(typed: str) -> None:
    with pytest.raises(ValidationError):
        ShutterField().clean(typed)


@pytest.mark.parametrize(("typed", "number"), [("8", 8.0), ("f/5.6", 5.6), ("F 2.8", 2.8), ("f1,4", 1.4)])
def test_apertures_are_read_with_or_without_their_f(typed: str, number: float) -> None:
    assert ApertureField().clean(typed) == number


@pytest.mark.parametrize("typed", ["", "0", "-8", "0.3", "100", "f/", "wide open", "nan", "inf"])
def test_impossible_apertures_are_refused(typed: str) -> None:
    with pytest.raises(ValidationError):
        ApertureField().clean(typed)


@pytest.mark.parametrize(
    ("typed", "down"),
    [
        ("1/1", 0.0),
        ("full", 0.0),
        ("1/4", 2.0),
        ("1/4 +0.3", 1.7),
        ("1/4+0.3", 1.7),
        ("1/8 - 0.3", 3.3),
        ("1/128", 7.0),
    ],
)
def test_powers_are_read_as_a_share_of_full(typed: str, down: float) -> None:
    assert PowerField().clean(typed) == pytest.approx(down)


@pytest.mark.parametrize("typed", ["", "2", "1/3", "1/0", "3/4", "1/1 +0.5", "1/2048", "1/4 +x", "120 %"])
def test_impossible_powers_are_refused(typed: str) -> None:
    with pytest.raises(ValidationError):
        PowerField().clean(typed)


@given(st.integers(0, 100))
def test_a_power_that_is_shown_can_be_typed_again(tenths: int) -> None:
    down = tenths / 10
    assert PowerField().clean(power_text(down)) == pytest.approx(down, abs=0.001)


@pytest.mark.parametrize("seconds", [1 / 8000, 1 / 200, 1 / 60, 1 / 4, 0.5, 1.6, 30.0])
def test_a_time_that_is_shown_can_be_typed_again(seconds: float) -> None:
    assert ShutterField().clean(shutter_text(seconds)) == pytest.approx(seconds, rel=0.01)
