"""Starting points: the two that come with the program, and those that the studio keeps."""

from __future__ import annotations

import pytest
from django.urls import reverse

from shoots.kit import actions as kit
from shoots.kit.models import Lamp, Panel
from shoots.lighting.core.starts import Start
from shoots.lighting.models import LightStart, PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries import pages, starts
from tests import factories
from tests.lighting.factories import make_lit_setup


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def begin(browser, name, start):
    browser.post(url("setup_new"), {"name": name, "start": start})
    return Setup.objects.get(name=name)


def fill_bag(owner, now, *kinds):
    for slug, key in kinds:
        kit.add_starter(slug=slug, key=key, by=owner, now=now)


HEADS = [("lights", "BATTERY_300")] * 3
DARK = [*HEADS, ("modifiers", "STANDARD_REFLECTOR")]
SUMMER = [*HEADS, ("modifiers", "OCTAGON_150"), ("modifiers", "LONG_REFLECTOR"), ("filters", "QUARTER_CTO")]


def test_dark_and_dramatic_is_a_hard_key_and_two_rims(browser, shoot, owner, now) -> None:
    """Common practice, no source: ambient two to three stops under, hard key, rims."""
    fill_bag(owner, now, *DARK)
    setup = begin(browser, "Dark", Start.DARK_AND_DRAMATIC)
    assert [lamp.role for lamp in setup.lamps.all()] == ["KEY", "RIM", "RIM"]
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    assert page.lamps[0].light.softness == "HARD"
    assert [card.light.at_front for card in page.lamps] == [True, False, False]


def test_bright_summer_is_a_large_soft_key_and_a_hard_warm_sun_opposite(browser, shoot, owner, now) -> None:
    """Common practice, no source: soft key, a hard high head opposite as the sun, shallow depth."""
    fill_bag(owner, now, *SUMMER)
    setup = begin(browser, "Summer", Start.BRIGHT_SUMMER)
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    key, sun = page.lamps
    assert (key.light.softness, sun.light.softness) == ("SOFT", "HARD")
    assert sun.placed.height_m > key.placed.height_m
    assert sun.placed.gel is not None
    assert setup.aperture <= 2.8


def test_what_the_bag_lacks_is_said(browser, shoot, owner, now) -> None:
    fill_bag(owner, now, ("lights", "BATTERY_300"))
    answer = browser.post(url("setup_new"), {"name": "Summer", "start": Start.BRIGHT_SUMMER}, follow=True)
    shown = answer.content.decode()
    assert "The bag does not have all of it" in shown
    assert "150 cm octagonal box" in shown
    assert Setup.objects.get().lamps.count() == 1


def test_an_empty_bag_begins_with_no_lights(browser, shoot) -> None:
    assert begin(browser, "Dark", Start.DARK_AND_DRAMATIC).lamps.count() == 0


def test_a_start_that_is_none_is_refused(browser, shoot) -> None:
    assert browser.post(url("setup_new"), {"name": "X", "start": "NOON"}).status_code == 422
    assert not Setup.objects.exists()


@pytest.fixture
def kept(browser, shoot, studio):
    setup, lamps = make_lit_setup(shoot, lamps=2, name="Hard noon", white_balance_k=6000)
    board = Panel.objects.create(studio=studio, name="White board", kind="REFLECTOR")
    PlacedPanel.objects.create(studio=studio, setup=setup, panel=board, for_lamp=lamps[1], distance_m=1.2)
    browser.post(url("setup_keep", setup.pk), {"name": "Noon", "note": "Hard and high", "over": ""})
    return setup, LightStart.objects.get()


def test_a_setup_is_kept_and_begun_with_on_another_shoot(browser, kept, studio) -> None:
    setup, start = kept
    factories.make_shoot(studio, code="26-002")
    browser.post(reverse("setup_new", args=["26-002"]), {"name": "Again", "start": f"own-{start.pk}"})
    again = Setup.objects.get(name="Again")
    assert (again.white_balance_k, again.aperture, again.lens_id) == (6000, setup.aperture, setup.lens_id)
    same = ("lamp_id", "modifier_id", "role", "bearing_deg", "distance_m", "height_m")
    assert list(again.lamps.values_list(*same)) == list(setup.lamps.values_list(*same))
    panel = again.panels.get()
    assert panel.for_lamp == again.lamps.all()[1]
    # Place, hour and what was measured belong to the first shoot.
    assert again.ambient_ev100 is None


def test_what_left_the_books_is_left_out_and_said(browser, kept, studio) -> None:
    _setup, start = kept
    LightStart.objects.update(lamps=[{**start.lamps[0], "lamp_id": 99999}, start.lamps[1]])
    answer = browser.post(url("setup_new"), {"name": "Again", "start": f"own-{start.pk}"}, follow=True)
    assert "no longer in the bag" in answer.content.decode()
    again = Setup.objects.get(name="Again")
    assert again.lamps.count() == 1
    assert again.panels.get().for_lamp == again.lamps.get()


def test_a_start_is_kept_over_renamed_and_removed(browser, kept) -> None:
    setup, start = kept
    PlacedLamp.objects.filter(setup=setup).update(power_down_stops=2.0)
    browser.post(url("setup_keep", setup.pk), {"name": "Noon", "note": "Softer", "over": start.pk})
    start.refresh_from_db()
    assert (start.note, start.lamps[0]["power_down_stops"], LightStart.objects.count()) == ("Softer", 2.0, 1)
    edit = reverse("start_edit", args=[start.pk])
    browser.post(edit, {"version": start.version, "name": "High noon", "note": ""})
    assert "High noon" in browser.get(reverse("start_list")).content.decode()
    assert browser.post(edit, {"version": 1, "name": "Later", "note": ""}).status_code == 422
    browser.post(reverse("start_remove", args=[start.pk]))
    assert not LightStart.objects.exists()
    assert Setup.objects.filter(pk=setup.pk).exists()


def test_two_starts_of_one_name_are_refused_and_what_was_typed_stays(browser, kept) -> None:
    setup, _start = kept
    answer = browser.post(url("setup_keep", setup.pk), {"name": "Noon", "note": "Other", "over": ""})
    assert answer.status_code == 422
    assert "Another start is called so" in answer.content.decode()
    assert "Other" in answer.content.decode()
    browser.post(url("setup_keep", setup.pk), {"name": "Evening", "note": "", "over": ""})
    evening = LightStart.objects.get(name="Evening")
    edit = reverse("start_edit", args=[evening.pk])
    assert browser.post(edit, {"version": 1, "name": "Noon", "note": ""}).status_code == 422


def test_another_studios_start_is_no_choice(browser, kept, other_studio, shoot) -> None:
    foreign = LightStart.objects.create(studio=other_studio, name="Theirs")
    assert browser.post(url("setup_new"), {"name": "X", "start": f"own-{foreign.pk}"}).status_code == 422
    assert browser.get(reverse("start_edit", args=[foreign.pk])).status_code == 404
    setup, _start = kept
    answer = browser.post(url("setup_keep", setup.pk), {"name": "X", "note": "", "over": foreign.pk})
    assert answer.status_code == 422


def test_only_what_is_in_the_bag_is_begun_with(studio, owner, now) -> None:
    fill_bag(owner, now, *DARK)
    Lamp.objects.update(put_away_at=now)
    assert starts.begun(studio, Start.DARK_AND_DRAMATIC).lamps == ()
