"""Positions in degrees, minutes and seconds: ISO 6709:2008 Annex D."""

from __future__ import annotations

import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.callsheet.core.position import PositionNotPossible, position_text

UNITS = pint.UnitRegistry()


def test_the_example_of_the_standard_is_written_as_it_is() -> None:
    """50°40′46.461″N 95°48′26.533″W of ISO 6709 Annex D (from memory), to a tenth of a second, width filled up."""
    assert position_text(50 + 40 / 60 + 46.461 / 3600, -(95 + 48 / 60 + 26.533 / 3600)) == "50°40′46.5″N 095°48′26.5″W"


def test_a_rounded_minute_is_carried_on() -> None:
    assert position_text(0.9999999, -0.0166666) == "01°00′00.0″N 000°01′00.0″W"


@pytest.mark.parametrize(("latitude", "longitude"), [(90.1, 0.0), (-91.0, 0.0), (0.0, 180.5), (float("nan"), 0.0)])
def test_what_lies_off_the_globe_is_refused(latitude: float, longitude: float) -> None:
    with pytest.raises(PositionNotPossible):
        position_text(latitude, longitude)


@given(st.floats(-90, 90), st.floats(-180, 180))
def test_reading_it_back_with_another_library_gives_the_place_within_two_metres(lat: float, lon: float) -> None:
    parts = re.findall(r"(\d+)°(\d\d)′(\d\d\.\d)″([NSEW])", position_text(lat, lon))
    for (degrees, minutes, seconds, letter), wanted in zip(parts, (lat, lon), strict=True):
        read = (
            (int(degrees) * UNITS.degree + int(minutes) * UNITS.arcminute + float(seconds) * UNITS.arcsecond)
            .to("degree")
            .magnitude
        )
        assert abs((-read if letter in "SW" else read) - wanted) < 0.06 / 3600
