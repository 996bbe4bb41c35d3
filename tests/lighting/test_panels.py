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


def test_typed_numbers_and_a_drag_lead_to_the_same_saved_numbers(browser, lit, bag) -> None:
    setup, (lamp,) = lit
    browser.post(url("panel_new", setup.pk), typed(bag["FLAG"], for_lamp=lamp.pk, turn_deg="30", tilt_deg="-10"))
    placed = PlacedPanel.objects.get()
    assert (placed.turn_deg, placed.tilt_deg, placed.covers) == (30.0, -10.0, None)
    there = url("panel_place", setup.pk, placed.pk)
    # A drag from above sends place alone, one from the side the height alone: turn and share stay.
    drag = {"version": placed.version, "distance_m": "1.35", "bearing_deg": "47"}
    answer = browser.post(there, drag, headers={"hx-request": "true"})
    assert answer.status_code == 200
    assert b'id="live"' in answer.content
    placed.refresh_from_db()
    assert (placed.distance_m, placed.bearing_deg, placed.height_m, placed.turn_deg) == (1.35, 47.0, 1.4, 30.0)
    browser.post(there, {"version": placed.version, "height_m": "1.9"}, headers={"hx-request": "true"})
    placed.refresh_from_db()
    assert (placed.height_m, placed.tilt_deg) == (1.9, -10.0)
    # Typed numbers come with all their fields; an empty one gives the choice back.
    full = {"version": placed.version, "distance_m": "0", "bearing_deg": "0", "height_m": "2.4", "turn_deg": "",
            "tilt_deg": "", "covers": "0.4"}  # fmt: skip
    answer = browser.post(there, full)
    assert answer["Location"].endswith(f"#panel-{placed.pk}")
    placed.refresh_from_db()
    assert (placed.distance_m, placed.turn_deg, placed.tilt_deg, placed.covers) == (0.0, None, None, 0.4)
    assert browser.post(there, {**full, "version": 1}).status_code == 422


@pytest.mark.parametrize(
    ("field", "value"),
    [("distance_m", "61"), ("bearing_deg", "x"), ("height_m", ""), ("turn_deg", "400"), ("tilt_deg", "-91"),
     ("covers", "2")],
)  # fmt: skip
def test_a_wrong_place_is_refused_by_its_field_and_nothing_moves(browser, lit, bag, field, value) -> None:
    setup, (lamp,) = lit
    browser.post(url("panel_new", setup.pk), typed(bag["FLAG"], for_lamp=lamp.pk))
    placed = PlacedPanel.objects.get()
    full = {"version": placed.version, "distance_m": "1", "bearing_deg": "0", "height_m": "1", field: value}
    answer = browser.post(url("panel_place", setup.pk, placed.pk), full)
    assert answer.status_code == 422
    form = answer.context["panel_forms"][placed.pk]
    assert list(form.errors) == [field]
    assert form[field].value() == value
    placed.refresh_from_db()
    assert (placed.distance_m, placed.height_m, placed.covers) == (1.0, 1.4, None)


def test_moving_a_flag_on_the_plan_changes_what_it_takes(browser, lit, bag) -> None:
    """Straight before the box it takes most of it, beside it nothing; a typed share counts instead and is named."""
    setup, (lamp,) = lit
    browser.post(
        url("panel_new", setup.pk),
        typed(bag["FLAG"], for_lamp=lamp.pk, bearing_deg="45", distance_m="0.5", height_m="1.8"),
    )
    placed = PlacedPanel.objects.get()
    before = shown(setup).panels[0]
    assert before.hides_percent > 90
    assert before.panel.because[0].formula == "share_hidden"
    assert "Stands before" in browser.get(url("setup_detail", setup.pk)).content.decode()
    browser.post(
        url("panel_place", setup.pk, placed.pk), {"version": placed.version, "distance_m": "0.5", "bearing_deg": "200"}
    )
    after = shown(setup).panels[0]
    assert (after.hides_percent, after.takes) == (0, "")
    assert after.does_nothing
    placed.refresh_from_db()
    browser.post(url("panel_place", setup.pk, placed.pk), {"version": placed.version, "covers": "0.5"})
    page = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "Covers 50 % of light A, as typed; where it stands does not count." in page
    assert shown(setup).panels[0].takes == "1.0 stops"


def test_a_flag_for_a_background_that_is_not_there_says_so(browser, lit, bag, studio) -> None:
    """Outdoors the sky is the background, which no flag keeps a light from; typed or not."""
    setup, (lamp,) = lit
    Setup.objects.filter(pk=setup.pk).update(place=factories.make_place(studio))
    for covers in ("", "1"):
        browser.post(
            url("panel_new", setup.pk), typed(bag["FLAG"], for_lamp=lamp.pk, shields="BACKGROUND", covers=covers)
        )
    assert [card.lacks_background for card in shown(setup).panels] == [True, True]
    assert "no background that its light reaches" in browser.get(url("setup_detail", setup.pk)).content.decode()


def test_it_is_asked_once_whether_the_reading_was_taken_under_the_scrim(browser, lit, bag) -> None:
    """EV 12 was typed; the silk takes 1.5 stops. No sun is known indoors, so all of it comes through the cloth."""
    setup, _lamps = lit
    plain = shown(setup).reading.ambient.stops
    browser.post(url("panel_new", setup.pk), typed(bag["SCRIM"], distance_m="0", height_m="2.6"))
    page = shown(setup)
    assert page.panel_notes.asks_under
    assert page.reading.ambient.stops == pytest.approx(plain - 1.5)
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "Was the ambient reading taken under the scrim or flag?" in text
    assert "all of it is taken to come through the scrim" in text
    assert "over the subject" in text
    assert "overhead" in page.drawing.boards[0].label.lines
    setup.refresh_from_db()
    stale = {"under": "yes", "setup_version": setup.version + 1}
    browser.post(url("setup_under", setup.pk), stale)
    setup.refresh_from_db()
    assert setup.ambient_under is None
    browser.post(url("setup_under", setup.pk), {"under": "yes", "setup_version": setup.version})
    page = shown(setup)
    assert not page.panel_notes.asks_under
    assert page.reading.ambient.stops == pytest.approx(plain)
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "What it does is in the reading." in text
    assert "Does nothing here" not in text
    browser.post(url("setup_under", setup.pk), {"under": "maybe", "setup_version": 1})
    setup.refresh_from_db()
    assert setup.ambient_under is True


def test_a_new_reading_is_asked_about_again(browser, lit, bag) -> None:
    setup, _lamps = lit
    browser.post(url("panel_new", setup.pk), typed(bag["SCRIM"], distance_m="0", height_m="2.6"))
    Setup.objects.filter(pk=setup.pk).update(ambient_under=False)
    form = browser.get(url("setup_edit", setup.pk)).context["form"]
    data = {name: "" if form[name].value() is None else form[name].value() for name in form.fields}
    assert data["ambient_under"] == "no"
    assert browser.post(url("setup_edit", setup.pk), {**data, "ambient_ev100": "13"}).status_code == 302
    setup.refresh_from_db()
    assert (setup.ambient_ev100, setup.ambient_under) == (13.0, None)
    setup.refresh_from_db()
    again = {**data, "version": setup.version, "ambient_ev100": "13", "ambient_under": "yes"}
    assert browser.post(url("setup_edit", setup.pk), again).status_code == 302
    setup.refresh_from_db()
    assert setup.ambient_under is True


def test_a_panel_on_a_stand_in_the_frame_and_in_the_wind_is_warned_of(browser, lit, bag, studio) -> None:
    """A board in the frame, one whose stand alone is, and its place in the list of what comes down first."""
    setup, _lamps = lit
    place = factories.make_place(studio)
    Setup.objects.filter(pk=setup.pk).update(place=place, gust_m_s=10.0)
    stand = factories.make_stand(studio)
    high = {"bearing_deg": 180.0, "distance_m": 1.0, "height_m": 6.0}
    PlacedPanel.objects.create(studio=studio, setup=setup, panel=bag["FLAG"], stand=stand, **high)
    PlacedPanel.objects.create(studio=studio, setup=setup, panel=bag["BLACK"], bearing_deg=0.0, distance_m=1.0)
    page = shown(setup)
    stood, seen = ({one.trouble.value for one in card.warned} for card in page.panels)
    assert stood == {"STAND_IN_FRAME", "STAND_TOO_LOW"}
    assert seen == {"PANEL_IN_FRAME"}
    assert "1" in {row.letter for row in page.winds}
    assert "Boards and scrims are sails" in browser.get(url("setup_detail", setup.pk)).content.decode()


def test_panels_are_on_both_drawings_with_their_keys(browser, lit, bag) -> None:
    setup, _lamps = lit
    browser.post(url("panel_new", setup.pk), typed(bag["REFLECTOR"]))
    placed = PlacedPanel.objects.get()
    page = shown(setup)
    for board in (*page.drawing.boards, *page.side.boards):
        assert (board.key, board.version, board.letter) == (placed.pk, placed.version, "1")
        assert (board.floor_m, board.bearing_deg, board.height_m) == (1.0, 300.0, 1.4)
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert f'id="board-{placed.pk}"' in text
    assert f'id="board-side-{placed.pk}"' in text
