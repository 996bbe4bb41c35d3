"""Ambient light from a sky against the published sky levels, and the reading that replaces it."""

import math
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core.ambient import (
    Ambient,
    ambient_at,
    ambient_from_sky,
    metered_ambient,
    overcast_background,
)
from shoots.lighting.core.conventions import Conventions, Receptor
from shoots.lighting.core.exposure import ev100
from shoots.places.core.shade import Wall
from shoots.places.core.sun import SunPosition, sun_position
from shoots.values.units import OutOfRange

HIGH = SunPosition(50.0, 50.01, 180.0)
LOW = SunPosition(10.0, 10.09, 250.0)


@pytest.mark.parametrize(
    ("ev", "power", "under"),
    [
        pytest.param(12.0, 1.0, 2.4, id="common practice, no source: EV 12, full power"),
        pytest.param(12.0, 0.25, 0.4, id="common practice, no source: EV 12, quarter power"),
        pytest.param(13.0, 1.0, 1.4, id="common practice, no source: EV 13, full power"),
    ],
)
def test_the_overcast_sky_behind_a_key_of_guide_number_45_at_two_metres(ev: float, power: float, under: float) -> None:
    """CIE overcast sky, patch 20° up, C = 250, K = 12.5, ISO 100, 1/200 s; f/22.5 at full power."""
    f_number = 45.0 * math.sqrt(power) / 2.0
    tone = overcast_background(ev, 20.0) - ev100(f_number, 1 / 200, 100.0)
    assert tone == pytest.approx(-under, abs=0.05)


def test_a_place_and_a_moment_are_the_sun_that_stands_there_then() -> None:
    """5.4: London, 2027-06-21 13:00 BST: altitude 61.925°, apparent 61.934°, azimuth 178.890°."""
    there = ambient_at(datetime(2027, 6, 21, 12, 0, tzinfo=UTC), 51.5074, -0.1278, 2.0, view_bearing_deg=10.0)
    table = ambient_from_sky(SunPosition(61.925, 61.934, 178.890), 2.0, view_bearing_deg=10.0)
    assert there.ev100 == pytest.approx(table.ev100, abs=0.002)
    assert there.sun.bearing_deg == pytest.approx(table.sun.bearing_deg, abs=0.02)


def test_sun_from_behind_the_camera_gives_more_than_from_before_it() -> None:
    front = ambient_from_sky(LOW, 0.0, view_bearing_deg=70.0)
    back = ambient_from_sky(LOW, 0.0, view_bearing_deg=250.0)
    assert front.ev100 > back.ev100 + 1.0
    # Towards the sun the sky is brighter.
    assert back.background_ev100 > front.background_ev100


@pytest.mark.parametrize("conventions", [Conventions(), Conventions(330.0, Receptor.DOME)])
def test_a_full_sun_on_the_face_reads_sunny_sixteen(conventions: Conventions) -> None:
    """Practice: sunny 16 is EV 14.64, dome in or out, each with its own constant."""
    front = ambient_from_sky(HIGH, 0.0, view_bearing_deg=0.0, conventions=conventions)
    assert front.ev100 == pytest.approx(14.64, abs=0.5)


def test_a_dome_still_sees_a_sun_from_the_side_that_a_flat_receptor_misses() -> None:
    """Half sphere: (1 + cos θ)/2; flat: cos θ."""
    side = SunPosition(20.0, 20.05, 90.0)
    dome = Conventions(250.0, Receptor.DOME)
    flat, domed = (ambient_from_sky(side, 0.0, 0.0, conventions=one) for one in (Conventions(), dome))
    assert domed.ev100 > flat.ev100 + 1.5


def test_open_shade_lies_where_the_handbook_has_it() -> None:
    """W. J. Smith: 10 760 lx; encyclopaedia: 20 000 lx under a whole blue sky: EV 12.1 to 13."""
    shade = ambient_from_sky(HIGH, 0.0, 0.0, walls=(Wall(180.0, 1.5, 12.0),))
    assert 10.0 < shade.ev100 < 13.0
    assert shade.colour_k > 7000.0


def test_a_closed_sky_has_no_direction() -> None:
    levels = {round(ambient_from_sky(HIGH, 8.0, bearing).ev100, 9) for bearing in (0.0, 90.0, 180.0, 270.0)}
    assert len(levels) == 1


def test_the_meter_constant_of_the_studio_is_used() -> None:
    dome = ambient_from_sky(HIGH, 8.0, 0.0, conventions=Conventions(meter_constant=330.0))
    assert ambient_from_sky(HIGH, 8.0, 0.0).ev100 - dome.ev100 == pytest.approx(math.log2(330 / 250))


def test_a_reading_replaces_the_estimate_and_is_surer() -> None:
    reading = metered_ambient(11.3, background_ev100=13.0)
    assert (reading.ev100, reading.background_ev100, reading.metered) == (11.3, 13.0, True)
    assert reading.spread_stops < ambient_from_sky(HIGH, 8.0, 0.0).spread_stops


@given(st.floats(-20, 90), st.floats(0, 8), st.floats(0, 360), st.floats(0, 360), st.floats(0, 90), st.floats(0, 3))
def test_every_sky_gives_a_level_for_subject_and_background(
    altitude: float, oktas: float, azimuth: float, bearing: float, up: float, point: float
) -> None:
    sun = SunPosition(altitude, altitude, azimuth)
    found = ambient_from_sky(sun, oktas, bearing, (Wall(10.0, 2.0, 2.0),), point, up)
    assert -20.0 < found.ev100 < 18.0
    assert -20.0 < found.background_ev100 < 20.0
    assert found.spread_stops >= 1.0
    assert [step.formula for step in found.because][-2:] == ["incident_ev", "reflected_ev"]


def test_a_winter_afternoon_is_darker_than_a_summer_noon() -> None:
    noon = sun_position(datetime(2027, 6, 21, 12, tzinfo=UTC), 53.5, -1.5)
    dusk = sun_position(datetime(2027, 12, 21, 15, 40, tzinfo=UTC), 53.5, -1.5)
    difference = ambient_from_sky(noon, 4.0, 0.0).ev100 - ambient_from_sky(dusk, 4.0, 0.0).ev100
    assert difference > 5.0


def test_ambient_light_that_cannot_be_meant_is_named() -> None:
    for wrong in (
        lambda: ambient_from_sky(HIGH, 9.0, 0.0),
        lambda: ambient_from_sky(HIGH, 4.0, 0.0, ground_reflectance=1.5),
        lambda: Ambient(ev100=float("nan")),
        lambda: Ambient(ev100=10.0, spread_stops=-1.0),
        lambda: overcast_background(99.0),
        lambda: metered_ambient(10.0, colour_k=0.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
