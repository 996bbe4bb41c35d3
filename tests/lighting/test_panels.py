"""Reflectors, boards, flags and scrims on the page of a setup."""

from __future__ import annotations

import pytest
from django.urls import reverse

from shoots.kit import actions as kit
from shoots.kit.models import Modifier, Panel
from shoots.lighting.models import LightFactor, PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries import pages
from tests import factories
from tests.lighting.factories import make_lit_setup


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def lit(shoot):
    return make_lit_setup(shoot, lamps=1)


@pytest.fixture
def bag(owner, now):
    for key in ("POLYBOARD_WHITE", "POLYBOARD_BLACK", "FLAG", "SCRIM_SILK"):
        kit.add_starter(slug="panels", key=key, by=owner, now=now)
    return {panel.kind: panel for panel in Panel.objects.all()}


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def typed(panel, **changes):
    return {
        "version": 0, "panel": panel.pk, "for_lamp": "", "shields": "SUBJECT", "covers": "", "distance_m": "1",
        "bearing_deg": "300", "height_m": "1.4", **changes,
    }  # fmt: skip


def shown(setup):
    return pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)


def test_a_board_is_put_in_moved_and_taken_out(browser, lit, bag) -> None:
    setup, (lamp,) = lit
    before = shown(setup).reading
    answer = browser.post(url("panel_new", setup.pk), typed(bag["REFLECTOR"], for_lamp=lamp.pk))
    assert answer["Location"].endswith("#panels")
    placed = PlacedPanel.objects.get()
    after = shown(setup)
    assert after.reading.total.stops > before.total.stops
    assert after.panels[0].panel.gives is not None
    assert "Throws" in browser.get(url("setup_detail", setup.pk)).content.decode()
    change = typed(bag["REFLECTOR"], for_lamp=lamp.pk, distance_m="3", version=placed.version)
    browser.post(url("panel_edit", setup.pk, placed.pk), change)
    assert shown(setup).reading.total.stops < after.reading.total.stops
    assert browser.post(url("panel_edit", setup.pk, placed.pk), {**change, "version": 1}).status_code == 422
    browser.post(url("panel_remove", setup.pk, placed.pk))
    assert shown(setup).reading == before


def test_a_black_side_deepens_the_shadow(browser, lit, bag) -> None:
    setup, _lamps = lit
    before = shown(setup).reading.key_over_fill_stops
    browser.post(url("panel_new", setup.pk), typed(bag["BLACK"], bearing_deg="270", distance_m="0.5", height_m="1.6"))
    assert shown(setup).reading.key_over_fill_stops > before + 0.5
    assert "on the shadow side" in browser.get(url("setup_detail", setup.pk)).content.decode()


def test_what_does_nothing_says_so(browser, lit, bag) -> None:
    setup, (lamp,) = lit
    browser.post(url("panel_new", setup.pk), typed(bag["SCRIM"], for_lamp=lamp.pk, distance_m="9", bearing_deg="45"))
    assert "Does nothing here" in browser.get(url("setup_detail", setup.pk)).content.decode()


@pytest.mark.parametrize(
    ("field", "value"),
    [("panel", ""), ("distance_m", "-1"), ("bearing_deg", "361"), ("covers", "2"), ("height_m", "x")],
)
def test_a_wrong_value_is_refused_by_its_field_and_stays(browser, lit, bag, field, value) -> None:
    setup, _lamps = lit
    answer = browser.post(url("panel_new", setup.pk), {**typed(bag["FLAG"]), field: value})
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == [field]
    assert not PlacedPanel.objects.exists()


def test_another_studios_panel_and_another_setups_light_are_no_choice(browser, lit, bag, other_studio, shoot) -> None:
    setup, _lamps = lit
    foreign = Panel.objects.create(studio=other_studio, name="Theirs", kind="FLAG")
    assert browser.post(url("panel_new", setup.pk), typed(foreign)).status_code == 422
    _other, (elsewhere,) = make_lit_setup(shoot, lamps=1)
    answer = browser.post(url("panel_new", setup.pk), typed(bag["FLAG"], for_lamp=elsewhere.pk))
    assert answer.status_code == 422


def test_a_copy_of_a_setup_has_its_panels_for_its_own_lights(browser, lit, bag) -> None:
    setup, (lamp,) = lit
    browser.post(url("panel_new", setup.pk), typed(bag["REFLECTOR"], for_lamp=lamp.pk))
    browser.post(url("setup_duplicate", setup.pk))
    twin = Setup.objects.exclude(pk=setup.pk).get()
    assert twin.panels.get().for_lamp == twin.lamps.get()


def test_a_grid_narrows_the_beam_and_takes_its_stops(lit, studio) -> None:
    setup, (lamp,) = lit
    before = shown(setup).lamps[0].light.reading.stops
    grid = Modifier.objects.create(
        studio=studio, name="Grid", kind="GRID", width_m=0.95, height_m=0.95, factor_stops=-0.5, beam_deg=40
    )
    PlacedLamp.objects.filter(pk=lamp.pk).update(grid=grid)
    assert shown(setup).lamps[0].light.reading.stops == pytest.approx(before - 0.5)


def test_two_heads_and_four_pops_are_three_stops_more(lit) -> None:
    """Light adds: 2 · 4 = 8 times the light."""
    setup, (lamp,) = lit
    before = shown(setup).lamps[0].light.reading.stops
    PlacedLamp.objects.filter(pk=lamp.pk).update(heads=2, pops=4)
    assert shown(setup).lamps[0].light.reading.stops == pytest.approx(before + 3.0)


def test_a_page_with_panels_and_a_factor_reads_no_more_than_four_times(
    lit, bag, studio, django_assert_num_queries
) -> None:
    setup, (lamp,) = lit
    for kind in ("REFLECTOR", "BLACK", "FLAG"):
        PlacedPanel.objects.create(studio=studio, setup=setup, panel=bag[kind], for_lamp=lamp)
    LightFactor.objects.create(
        studio=studio, lamp=lamp.lamp, modifier=lamp.modifier, stops=0.3, spread_stops=0.1, readings=2
    )
    with django_assert_num_queries(4):  # setup, lights, panels, readings
        assert shown(setup).lamps[0].placed.factor_stops == 0.3
