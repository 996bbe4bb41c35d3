"""Rows as the core's shapes, and what is predicted from them.

Expected values stand beside their source: shared light tables (copied where named) and formulas of ISO 1230 and
ISO 2720; what is common practice says so.
"""

from __future__ import annotations

import math
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from shoots.lighting.models import PlacedLamp
from shoots.lighting.queries import pages, rows
from shoots.lighting.queries.rows import AmbientSource
from tests import factories
from tests.lighting.factories import make_lit_setup

LONDON = ZoneInfo("Europe/London")


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio)


def shown(setup):
    return pages.setups_to_show().get(pk=setup.pk)


def test_a_bare_head_reads_its_guide_number_over_the_distance(shoot) -> None:
    """GN 45 m at 2 m and ISO 100 is f/22.5: ISO 1230, N = GN / d; a light of 18 cm loses 0.003 stop at 2 m."""
    setup = factories.make_setup(shoot, ambient_ev100=None)
    height = setup.subject_height_m * rows.FACE_SHARE
    factories.make_placed_lamp(setup, distance_m=2.0, height_m=height, bearing_deg=0.0)
    page = pages.setup_page(shown(setup), None)
    assert page.lamps[0].light.reading.f_number == pytest.approx(22.5, abs=0.05)
    assert page.lamps[0].light.direction.slant_m == pytest.approx(2.0)


def test_the_ambient_is_compared_with_the_settings_by_their_exact_numbers(shoot) -> None:
    """EV 12 against f/8, 1/125 s, ISO 100: these marks are EV 13 exactly (table 1, case 1.2), one stop under."""
    setup = factories.make_setup(shoot, ambient_ev100=12.0, aperture=8.0, shutter_s=1 / 125, iso=100)
    page = pages.setup_page(shown(setup), None)
    assert page.reading.setting_ev100 == pytest.approx(13.0, abs=1e-9)
    assert page.reading.ambient.stops == pytest.approx(-1.0, abs=1e-9)


def test_a_number_that_is_no_mark_stays_itself(shoot) -> None:
    assert rows.exposure_of(factories.make_setup(shoot, aperture=9.5)).f_number == 9.5
    assert rows.exposure_of(factories.make_setup(shoot, aperture=5.6)).f_number == pytest.approx(math.sqrt(32))


def test_power_gel_and_modifier_take_their_stops(shoot) -> None:
    """Light is proportional to energy; a modifier and a gel are stated in stops."""
    setup = factories.make_setup(shoot, ambient_ev100=None, aperture=8.0)
    lamp, gel = factories.make_lamp(shoot.studio), factories.make_filter(shoot.studio, loss_stops=0.5)
    dish = factories.make_modifier(
        shoot.studio, kind="REFLECTOR", width_m=0.18, height_m=0.18, factor_stops=-1.0, beam_deg=65
    )
    factories.make_placed_lamp(setup, lamp=lamp)
    factories.make_placed_lamp(setup, lamp=lamp, gel=gel, modifier=dish, power_down_stops=2.0, position=1)
    plain, less = (card.light.reading for card in pages.setup_page(shown(setup), None).lamps)
    assert plain.stops - less.stops == pytest.approx(3.5, abs=0.01)


def test_nd_on_the_lens_takes_from_everything_alike(shoot, studio) -> None:
    nd = factories.make_filter(studio, kind="ND", name="ND 8", shift_mired=0, loss_stops=3.0)
    setup, _lamps = make_lit_setup(shoot)
    before = pages.setup_page(shown(setup), None)
    setup.nd = nd
    setup.save()
    after = pages.setup_page(shown(setup), None)
    assert before.reading.ambient.stops - after.reading.ambient.stops == pytest.approx(3.0)
    assert before.lamps[0].light.reading.stops - after.lamps[0].light.reading.stops == pytest.approx(3.0)


def test_a_shutter_faster_than_the_sync_time_is_warned_of(shoot) -> None:
    setup, _lamps = make_lit_setup(shoot, shutter_s=1 / 1000)
    page = pages.setup_page(shown(setup), None)
    assert "DARK_BAND" in [one.trouble for one in page.lamps[0].warned]
    slow, _lamps = make_lit_setup(shoot, shutter_s=1 / 125)
    assert "DARK_BAND" not in [one.trouble for one in pages.setup_page(shown(slow), None).lamps[0].warned]


def test_a_light_that_the_bag_knows_too_little_about_is_not_predicted_but_drawn(shoot, studio) -> None:
    setup = factories.make_setup(shoot)
    factories.make_placed_lamp(setup, lamp=factories.make_lamp(studio, guide_number_m=None))
    factories.make_placed_lamp(setup, position=1)
    page = pages.setup_page(shown(setup), None)
    assert [card.letter for card in page.unknown] == ["A"]
    assert page.lamps[0].light is None
    assert page.lamps[1].light.reading is not None
    assert [head.letter for head in page.drawing.heads] == ["A", "B"]


def test_a_continuous_light_is_predicted_from_its_lux(shoot, studio) -> None:
    """E = E₁/d², N² = E·t·S/C (ISO 2720): 30,000 lx at 1 m, 2 m away, 1/60 s as marked, ISO 100, C = 250."""
    lamp = factories.make_lamp(studio, kind="CONTINUOUS", guide_number_m=None, energy_ws=None, lux_at_1m=30000)
    setup = factories.make_setup(shoot, ambient_ev100=None, shutter_s=1 / 60)
    height = setup.subject_height_m * rows.FACE_SHARE
    factories.make_placed_lamp(setup, lamp=lamp, distance_m=2.0, height_m=height, bearing_deg=0)
    reading = pages.setup_page(shown(setup), None).lamps[0].light.reading
    assert reading.f_number == pytest.approx(math.sqrt(7500 / 64 * 100 / 250), rel=0.003)


@pytest.mark.parametrize(
    ("fields", "place", "source"),
    [
        ({"ambient_ev100": 11.0}, {}, AmbientSource.METERED),
        ({}, {"indoors": True}, AmbientSource.INDOORS),
        ({}, {"latitude": None}, AmbientSource.NO_PLACE),
        ({}, None, AmbientSource.NO_PLACE),
        ({}, {}, AmbientSource.COMPUTED),
    ],
)
def test_the_page_says_where_the_ambient_comes_from(shoot, studio, fields, place, source) -> None:
    where = factories.make_place(studio, **place) if place is not None else None
    setup = factories.make_setup(shoot, **{"ambient_ev100": None, "place": where, **fields})
    sky = rows.sky_of(shown(setup), datetime(2026, 6, 9, 12, 0, tzinfo=LONDON))
    assert sky.source is source
    assert (sky.ambient.ev100 is None) == (source not in (AmbientSource.METERED, AmbientSource.COMPUTED))


def test_outdoors_without_an_hour_the_ambient_is_not_known(shoot, studio) -> None:
    setup = factories.make_setup(shoot, ambient_ev100=None, place=factories.make_place(studio))
    assert rows.sky_of(shown(setup), None).source is AmbientSource.NO_MOMENT


def test_a_view_that_is_not_known_widens_the_spread(shoot, studio) -> None:
    place = factories.make_place(studio)
    spot = factories.make_spot(place, bearing_deg=20.0)
    noon = datetime(2026, 6, 9, 13, 0, tzinfo=LONDON)
    known = factories.make_setup(shoot, ambient_ev100=None, place=place, spot=spot)
    guessed = factories.make_setup(shoot, ambient_ev100=None, place=place)
    with_view, without = rows.sky_of(shown(known), noon), rows.sky_of(shown(guessed), noon)
    assert without.ambient.spread_stops > with_view.ambient.spread_stops
    assert without.ambient.background_ev100 is None


def test_at_noon_the_sun_of_the_place_is_drawn_as_a_shadow_of_the_right_length(shoot, studio) -> None:
    """L = h / tan(altitude), plane geometry; the altitude itself is held to outside tables in tests/places."""
    place = factories.make_place(studio)
    setup = factories.make_setup(
        shoot, ambient_ev100=None, place=place, spot=factories.make_spot(place), subject_height_m=1.8
    )
    page = pages.setup_page(shown(setup), datetime(2026, 6, 9, 13, 0, tzinfo=LONDON))
    altitude = page.sky.sun.apparent_altitude_deg
    assert 55 < altitude < 62
    assert page.drawing.shadow_m == pytest.approx(1.8 / math.tan(math.radians(altitude)))


def test_a_mood_s_wish_is_held_against_the_ambient(shoot) -> None:
    mood = factories.make_mood(shoot, brightness=0)
    setup = factories.make_setup(shoot, mood=mood, ambient_ev100=12.0, aperture=8.0, shutter_s=1 / 125)
    page = pages.setup_page(shown(setup), None)
    assert page.ambient_miss_stops == pytest.approx(1.0)
    setup.ambient_ev100 = 10.5
    setup.save()
    assert pages.setup_page(shown(setup), None).ambient_miss_stops == 0.0


def test_a_light_in_the_subject_s_place_is_said_and_breaks_nothing(shoot) -> None:
    setup = factories.make_setup(shoot)
    factories.make_placed_lamp(setup, distance_m=0.0, height_m=setup.subject_height_m * rows.FACE_SHARE)
    page = pages.setup_page(shown(setup), None)
    assert page.reading is None
    assert page.impossible
    assert page.drawing is None


def test_a_light_stand_outdoors_gets_the_wind_at_which_to_take_it_down(shoot, studio) -> None:
    """Statics; light table, stands: 15 kg, 0.75 m², Cd 1.42, 2 m, foot 0.5 m tips at 5.3 m/s, with margin 4.3."""
    stand = factories.make_stand(studio, weight_kg=2.5, sandbag_kg=8.5, foot_radius_m=0.5)
    side = math.sqrt(0.7477 * 4 / math.pi)
    box = factories.make_modifier(studio, width_m=side, height_m=side, weight_kg=1.0)
    setup = factories.make_setup(shoot, place=factories.make_place(studio))
    lamp = factories.make_lamp(studio, weight_kg=3.0)
    factories.make_placed_lamp(setup, lamp=lamp, stand=stand, modifier=box, height_m=2.0)
    wind = pages.setup_page(shown(setup), None).winds[0].check.limit
    assert wind.tips_at_m_s == pytest.approx(5.3, abs=0.05)
    assert wind.take_down_at_m_s == pytest.approx(4.3, abs=0.05)


def test_indoors_nobody_is_told_about_wind(shoot, studio) -> None:
    setup, _lamps = make_lit_setup(shoot, place=factories.make_place(studio, indoors=True))
    assert pages.setup_page(shown(setup), None).winds == ()


def test_letters_go_on_after_z() -> None:
    assert [rows.letter(n) for n in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]


def test_the_bag_s_own_numbers_reach_the_physics(shoot, studio) -> None:
    setup, placed = make_lit_setup(shoot)
    lamp = PlacedLamp.objects.select_related("lamp", "modifier", "gel", "stand").get(pk=placed[0].pk)
    light = rows.placed_light("A", lamp)
    assert (light.lamp.guide_number_m, light.lamp.energy_ws) == (45.0, 300.0)
    assert (light.modifier.width_m, light.modifier.total_stops) == (pytest.approx(0.95), -2.0)
    assert (light.stand.foot_radius_m, light.floor_m, light.bearing_deg) == (0.5, 1.5, 45.0)
    assert setup.pk
