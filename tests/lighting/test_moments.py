"""The moment of a setup's page: the sun in words, its shadow, the dial of one aperture, and what the page costs."""

from __future__ import annotations

import math
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.lighting.core.readings import Reading
from shoots.lighting.core.scales import aperture_scale, nearest_mark
from shoots.lighting.models import LightFactor, Setup
from shoots.lighting.queries import pages
from shoots.lighting.queries.gauges import dial_of
from shoots.lighting.queries.notation import meter_text
from shoots.lighting.queries.sunlight import sun_words
from shoots.places.core.sun import SunPosition
from shoots.templatetags.light import give_or_take
from tests import factories
from tests.lighting.factories import make_lit_setup

LONDON = ZoneInfo("Europe/London")


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def url(name, *args):
    return reverse(name, args=["26-001", *args])


@pytest.mark.parametrize(
    ("azimuth", "altitude", "side", "low"),
    [
        (20.0, 3.0, "BEFORE", True),
        (110.0, 3.0, "BESIDE", True),
        (200.0, 30.0, "BEHIND", False),
        (20.0, -5.0, "DOWN", False),
    ],
)
def test_the_sun_stands_before_beside_or_behind_the_camera_of_a_spot(
    shoot, studio, azimuth, altitude, side, low
) -> None:
    """The spot looks to 20°: quarters of the circle and low sun up to 6° are common practice, no source."""
    spot = factories.make_spot(factories.make_place(studio), bearing_deg=20.0)
    setup = factories.make_setup(shoot, spot=spot, subject_height_m=1.75)
    words = sun_words(setup, SunPosition(altitude, altitude, azimuth))
    assert (words.side, words.is_low) == (side, low)
    if altitude > 0:
        # Geometry: height over the tangent of the altitude.
        assert words.shadow_m == pytest.approx(1.75 / math.tan(math.radians(altitude)))
        assert words.because[-1].result == pytest.approx(words.shadow_m)
    else:
        assert words.shadow_m is None


def test_without_a_spot_there_is_a_sun_and_no_side(shoot) -> None:
    words = sun_words(factories.make_setup(shoot), SunPosition(30.0, 30.0, 180.0))
    assert (words.side, words.bearing_deg) == (None, None)
    assert words.shadow_m is not None


def test_a_page_without_a_day_lets_a_date_be_picked(browser, shoot, studio) -> None:
    place = factories.make_place(studio)
    setup = make_lit_setup(
        shoot, place=place, spot=factories.make_spot(place), ambient_ev100=None, shoot_time=time(16, 0)
    )[0]
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert 'type="date" name="date"' in text
    assert "choose a day and an hour" in text
    page = browser.get(url("setup_detail", setup.pk) + "?date=2026-03-20&time=15:30")
    assert page.context["moment"].at == datetime(2026, 3, 20, 15, 30, tzinfo=LONDON)
    assert 'value="2026-03-20"' in page.content.decode()
    assert "shadow" in page.content.decode()
    for odd in ("?date=never", "?date=0001-01-01", "?date=9999-12-31&time=15:30", "?date=2026-02-30"):
        answer = browser.get(url("setup_detail", setup.pk) + odd)
        assert answer.status_code == 200
        assert answer.context["moment"].at is None


def test_another_date_than_the_shoot_s_days_can_be_linked_to(browser, shoot, studio) -> None:
    place = factories.make_place(studio)
    setup = make_lit_setup(shoot, place=place, ambient_ev100=None, shoot_time=time(12))[0]
    factories.make_day(shoot, date=date(2026, 6, 8))
    factories.make_day(shoot, date=date(2026, 6, 9), place=place)
    at_home = browser.get(url("setup_detail", setup.pk)).context["moment"]
    assert at_home.date == date(2026, 6, 9)
    other = browser.get(url("setup_detail", setup.pk) + "?date=2026-12-09").context["moment"]
    assert (other.date, other.is_other) == (date(2026, 12, 9), True)


@pytest.mark.parametrize(("spread", "thirds"), [(0.0, 1), (0.2, 1), (1 / 3, 1), (0.34, 2), (0.7, 3), (1.0, 3)])
def test_one_aperture_stands_among_its_neighbours_with_its_spread_in_thirds(spread, thirds) -> None:
    """ISO 517's engraved series in thirds: f/10, f/11 and f/13 are neighbours; nothing finer than a third is set."""
    f_number = math.sqrt(2.0) ** 7
    dial = dial_of(Reading(f_number, nearest_mark(f_number, aperture_scale()), None, 0.0, spread, ()))
    assert dial.label == "11"
    assert dial.thirds == thirds
    assert [mark.label for mark in dial.marks] == ["8.0", "9.0", "10", "11", "13", "14", "16"]
    assert sum(mark.is_likely for mark in dial.marks) == 1 + 2 * thirds


def test_the_widest_aperture_has_a_dial_too() -> None:
    mark = aperture_scale()[0]
    dial = dial_of(Reading(mark.exact, mark, None, 0.0, 0.5, ()))
    assert dial.marks[0].is_the_one


def test_a_setup_s_page_adds_at_most_four_queries_to_any_page_of_a_shoot(browser, shoot) -> None:
    """The bound is the project's own; one more is spent only when settings are looked for."""
    setup = make_lit_setup(shoot, lamps=4, mood=factories.make_mood(shoot))[0]
    factories.make_shot(shoot, setup=setup)
    factories.make_day(shoot)

    def queries(address: str) -> int:
        browser.get(address)
        with CaptureQueriesContext(connection) as ran:
            assert browser.get(address).status_code == 200
        return len(ran)

    others = ("shoot_detail", "shot_list", "setup_list", "picture_list", "brief_detail", "quote_list", "callsheet_list")
    least = min(queries(url(name)) for name in others)
    page = queries(url("setup_detail", setup.pk))
    assert page - least <= 4
    assert queries(url("setup_detail", setup.pk) + "?find=1") == page + 1
    Setup.objects.filter(pk=setup.pk).update(frames=100, gust_m_s=5, wish_blur_mm=2, subject_speed_m_s=4)
    assert queries(url("setup_detail", setup.pk)) == page
    # Who holds what the wind asks to be held is one more, and within the bound.
    Setup.objects.filter(pk=setup.pk).update(place=factories.make_place(setup.studio), gust_m_s=3)
    assert "is missing in the crew" in browser.get(url("setup_detail", setup.pk)).content.decode().replace("are", "is")
    assert queries(url("setup_detail", setup.pk)) - least <= 4


def test_every_number_of_the_page_can_be_opened(browser, shoot, studio) -> None:
    place = factories.make_place(studio)
    setup = make_lit_setup(
        shoot,
        place=place,
        spot=factories.make_spot(place),
        mood=factories.make_mood(shoot),
        ambient_ev100=None,
        shoot_time=time(12),
        frames=10,
        subject_speed_m_s=3,
    )[0]
    factories.make_day(shoot, place=place)
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    opened = text.count('<details class="how">')
    # The drawings' view, sun, ambient, together, key, ambient, sky, sharpness, the light's geometry, battery, wind,
    # and the warning that the shutter closes on the flash.
    assert opened == 12
    for formula in ("√(floor² + (height − face)²)", "NREL/TP-560-34302", "t = t_full · p + t_least", "Source:"):
        assert formula in text


def test_the_card_on_a_call_sheet_says_what_the_page_s_meter_shows(shoot) -> None:
    setup = make_lit_setup(shoot)[0]
    (card,) = pages.setup_cards(shoot)
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    read = meter_text(page.lamps[0].light.reading.metered)
    assert card.drawing.heads[0].label.lines == ("Key 1/1", read, "2.2 m high")


@pytest.mark.parametrize(
    ("spread", "words"),
    [(0.1, "± ⅓ stop"), (1 / 3, "± ⅓ stop"), (0.4, "± ⅔ stop"), (1.0, "± 1 stop"), (1.5, "± 1⅔ stops")],
)
def test_a_spread_is_said_in_thirds_and_never_smaller_than_it_is(spread, words) -> None:
    assert give_or_take(spread) == words


def test_the_page_names_what_makes_its_one_aperture_unsure(browser, shoot, studio) -> None:
    """Independent errors count by the light that each gives: the computed sky where it rules, the key where it does."""
    place = factories.make_place(studio)
    factories.make_day(shoot, place=place)
    bright = make_lit_setup(
        shoot, place=place, spot=factories.make_spot(place), ambient_ev100=None, shoot_time=time(12)
    )[0]
    text = browser.get(url("setup_detail", bright.pk)).content.decode()
    assert "the ambient light is computed from sun and cloud, ± " in text
    dim = make_lit_setup(shoot, place=place, ambient_ev100=0.0)[0]
    text = browser.get(url("setup_detail", dim.pk)).content.decode()
    assert "Mostly because A is planned with stated numbers, ± " in text


def test_what_the_meter_has_found_is_one_aperture_give_or_take_a_third(browser, shoot, owner) -> None:
    """A reading of the key in the dark: nothing else is left to be unsure of."""
    setup, (key,) = make_lit_setup(shoot, ambient_ev100=-6.0)
    LightFactor.objects.create(
        studio=shoot.studio, lamp=key.lamp, modifier=key.modifier, stops=0.0, spread_stops=0.2, readings=3
    )
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "<span>± ⅓ stop</span>" in text
    assert "Mostly because" not in text
