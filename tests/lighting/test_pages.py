"""Setups in the browser: what is typed, moved, read and refused, and who may."""

from __future__ import annotations

import math
from datetime import date, time

import pytest
from django.urls import reverse

from shoots.lighting.models import MeterReading, PlacedLamp, Setup
from shoots.lighting.queries import pages
from shoots.shotlist.models import Shot
from shoots.trail.models import Entry
from tests import factories
from tests.lighting.factories import make_lit_setup


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def lit(shoot):
    setup, lamps = make_lit_setup(shoot, lamps=2, name="Rim of the quarry")
    return setup, lamps[0], lamps[1]


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def typed(setup, **changes):
    return {
        "version": setup.version,
        "name": setup.name,
        "cloud_oktas": "4",
        "ambient_ev100": "12",
        "camera": setup.camera_id or "",
        "lens": setup.lens_id or "",
        "focal_mm": "50",
        "aperture": "8",
        "shutter_s": "1/200",
        "iso": "100",
        "white_balance_k": "5500",
        "camera_distance_m": "3",
        "camera_height_m": "1.5",
        "subject_height_m": "1.75",
        "background_distance_m": "4",
        **changes,
    }


def test_a_new_setup_needs_only_a_name_and_guesses_the_rest(browser, shoot, studio) -> None:
    mood, place = factories.make_mood(shoot), factories.make_place(studio)
    factories.make_day(shoot, place=place)
    factories.make_lens(studio, shortest_mm=85, longest_mm=85, widest_f=1.8)
    answer = browser.post(url("setup_new"), {"name": "Rim"})
    setup = Setup.objects.get(name="Rim")
    assert answer["Location"] == url("setup_detail", setup.pk)
    assert (setup.mood, setup.place, setup.focal_mm, setup.aperture) == (mood, place, 85.0, 8.0)
    assert browser.get(answer["Location"]).status_code == 200


def test_a_setup_without_a_name_is_refused_by_its_field(browser, shoot) -> None:
    page = browser.post(url("setup_new"), {"name": " "})
    assert page.status_code == 422
    assert page.context["form"].errors["name"]
    assert not Setup.objects.exists()


def test_the_page_shows_the_plan_the_reading_and_how_it_was_computed(browser, lit) -> None:
    setup, _key, _other = lit
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "Plan of Rim of the quarry from above, to scale" in text
    assert "how this was computed" in text
    assert "ISO 1230:2007" in text
    assert "guide number 45 m" in text
    assert "f/8" in text
    assert "1/200 s" in text


def test_camera_settings_are_typed_as_cameras_show_them(browser, lit) -> None:
    setup, _key, _other = lit
    answer = browser.post(url("setup_edit", setup.pk), typed(setup, aperture="f/5.6", shutter_s="1/125", iso="200"))
    assert answer.status_code == 302
    setup = Setup.objects.get(pk=setup.pk)
    assert (setup.aperture, setup.shutter_s, setup.iso) == (5.6, 1 / 125, 200)
    form = browser.get(url("setup_edit", setup.pk)).context["form"]
    assert (form["aperture"].value(), form["shutter_s"].value()) == ("5.6", "1/125")


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("aperture", "0"),
        ("aperture", "900"),
        ("aperture", "wide"),
        ("aperture", "1.4"),
        ("focal_mm", "200"),
        ("shutter_s", "1/0"),
        ("shutter_s", "soon"),
        ("shutter_s", "1/16000"),
        ("iso", "0"),
        ("ambient_ev100", "40"),
        ("cloud_oktas", "9"),
        ("camera_distance_m", "-1"),
        ("subject_height_m", "0"),
        ("white_balance_k", "100"),
        ("name", ""),
    ],
)
def test_impossible_settings_are_named_by_their_field_and_everything_typed_stays(browser, lit, field, value) -> None:
    """The lens goes from 24 to 70 mm and from f/2.8; the body's fastest time is 1/8000 s."""
    setup, _key, _other = lit
    page = browser.post(url("setup_edit", setup.pk), typed(setup, note="kept words") | {field: value})
    assert page.status_code == 422
    assert list(page.context["form"].errors) == [field]
    text = page.content.decode()
    assert "kept words" in text
    assert f'value="{value}"' in text or not value
    assert Setup.objects.get(pk=setup.pk).version == setup.version


def test_a_spot_of_another_place_is_refused(browser, lit, studio) -> None:
    setup, _key, _other = lit
    here, there = factories.make_place(studio), factories.make_place(studio, name="Wall")
    spot = factories.make_spot(there)
    page = browser.post(url("setup_edit", setup.pk), typed(setup, place=here.pk, spot=spot.pk))
    assert list(page.context["form"].errors) == ["spot"]


def test_the_second_of_two_windows_is_told_and_loses_nothing(browser, lit) -> None:
    setup, _key, _other = lit
    assert browser.post(url("setup_edit", setup.pk), typed(setup, name="First")).status_code == 302
    late = browser.post(url("setup_edit", setup.pk), typed(setup, name="Second"))
    assert late.status_code == 422
    assert 'value="Second"' in late.content.decode()
    assert Setup.objects.get(pk=setup.pk).name == "First"
    version = late.context["form"]["version"].value()
    again = browser.post(url("setup_edit", setup.pk), typed(setup, name="Second", version=version))
    assert again.status_code == 302


def test_a_drag_and_typed_numbers_lead_to_the_same_saved_numbers(browser, lit) -> None:
    setup, key, other = lit
    dragged = browser.post(
        url("lamp_place", setup.pk, key.pk),
        {"version": key.version, "distance_m": "2.35", "bearing_deg": "300"},
        headers={"HX-Request": "true"},
    )
    assert dragged.status_code == 200
    by_hand = browser.post(
        url("lamp_place", setup.pk, other.pk),
        {
            "version": other.version,
            "distance_m": "2.35",
            "bearing_deg": "300",
            "height_m": "2.2",
            "power_down_stops": "1/1",
        },
    )
    assert by_hand.status_code == 302
    one, two = PlacedLamp.objects.filter(setup=setup)
    assert (one.distance_m, one.bearing_deg, one.height_m) == (two.distance_m, two.bearing_deg, two.height_m)
    assert one.power_down_stops == two.power_down_stops == 0.0


def test_a_drag_answers_with_the_live_part_drawn_from_what_was_saved(browser, lit) -> None:
    setup, key, _other = lit
    page = browser.post(
        url("lamp_place", setup.pk, key.pk) + "?time=08:00",
        {"version": key.version, "distance_m": "2.35", "bearing_deg": "90"},
        headers={"HX-Request": "true"},
    )
    text = page.content.decode()
    assert text.lstrip().startswith('<div id="live"')
    assert "2.35 m · 90° to camera left" in text
    assert f'data-version="{key.version + 1}"' in text
    assert "?time=08%3A00" in text


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("distance_m", "0"),
        ("distance_m", "far"),
        ("distance_m", ""),
        ("bearing_deg", "361"),
        ("bearing_deg", "-1"),
        ("height_m", "99"),
        ("power_down_stops", "3/4"),
        ("power_down_stops", "1/2 +9"),
    ],
)
def test_an_impossible_place_is_named_by_its_field_on_the_same_page(browser, lit, field, value) -> None:
    setup, key, _other = lit
    data = {"version": key.version, "distance_m": "2", "bearing_deg": "45", "height_m": "2", "power_down_stops": "1/2"}
    page = browser.post(url("lamp_place", setup.pk, key.pk), data | {field: value})
    assert page.status_code == 422
    form = page.context["place_forms"][key.pk]
    assert list(form.errors) == [field]
    assert form[field].value() == value
    assert PlacedLamp.objects.get(pk=key.pk).version == key.version


def test_a_light_that_somebody_moved_meanwhile_is_not_moved_again_unknowingly(browser, lit) -> None:
    setup, key, _other = lit
    first = {"version": key.version, "distance_m": "2", "bearing_deg": "10"}
    assert browser.post(url("lamp_place", setup.pk, key.pk), first).status_code == 302
    late = browser.post(url("lamp_place", setup.pk, key.pk), first | {"bearing_deg": "20"})
    assert late.status_code == 422
    assert "in the meantime" in late.content.decode()
    assert PlacedLamp.objects.get(pk=key.pk).bearing_deg == 10
    version = late.context["place_forms"][key.pk]["version"].value()
    again = browser.post(url("lamp_place", setup.pk, key.pk), first | {"bearing_deg": "20", "version": version})
    assert again.status_code == 302


def test_lights_are_put_in_changed_and_taken_out(browser, lit, studio) -> None:
    setup, key, _other = lit
    gel = factories.make_filter(studio)
    data = {
        "version": 0,
        "lamp": key.lamp_id,
        "role": "RIM",
        "gel": gel.pk,
        "power_down_stops": "1/8",
        "distance_m": "2.5",
        "bearing_deg": "150",
        "height_m": "2.4",
        "radio_group": "2",
    }
    assert browser.post(url("lamp_new", setup.pk), data).status_code == 302
    rim = PlacedLamp.objects.get(role="RIM")
    assert (rim.gel, rim.power_down_stops, rim.position) == (gel, 3.0, 2)
    edited = data | {"version": rim.version, "role": "BACKGROUND"}
    assert browser.post(url("lamp_edit", setup.pk, rim.pk), edited).status_code == 302
    assert browser.post(url("lamp_edit", setup.pk, rim.pk), edited).status_code == 422
    assert browser.post(url("lamp_remove", setup.pk, rim.pk)).status_code == 302
    assert PlacedLamp.objects.filter(setup=setup).count() == 2
    assert Entry.objects.filter(record=f"placedlamp:{rim.pk}").count() == 3


def test_an_nd_filter_is_no_gel_and_another_studio_s_light_is_none(browser, lit, studio, other_studio) -> None:
    setup, key, _other = lit
    nd = factories.make_filter(studio, kind="ND")
    foreign = factories.make_lamp(other_studio)
    data = {"role": "KEY", "power_down_stops": "1/1", "distance_m": "2", "bearing_deg": "0", "height_m": "2"}
    page = browser.post(url("lamp_new", setup.pk), data | {"lamp": foreign.pk, "gel": nd.pk})
    assert page.status_code == 422
    assert sorted(page.context["form"].errors) == ["gel", "lamp"]
    assert key.pk


def test_a_reading_is_noted_as_the_meter_shows_it_and_held_against_the_prediction(browser, lit) -> None:
    setup, key, _other = lit
    data = {"text": "11.3", "placed_lamp": key.pk, "iso": "100", "shutter_s": "1/200"}
    before = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    # A flash meter counts the ambient light of its shutter time in (ISO 10157); light goes as f-numbers squared.
    predicted = math.hypot(before.lamps[0].light.reading.f_number, before.reading.ambient.f_number)
    assert browser.post(url("reading_new", setup.pk), data).status_code == 302
    reading = MeterReading.objects.get()
    assert (reading.f_number, reading.tenths, reading.placed_lamp) == (11.0, 3, key)
    page = browser.get(url("setup_detail", setup.pk))
    note = page.context["page"].lamps[0].notes[0]
    assert note.difference_stops == pytest.approx(7.3 - 2.0 * math.log2(predicted), abs=1e-9)
    assert "f/11 +0.3" in page.content.decode()
    assert browser.post(url("reading_remove", setup.pk, reading.pk)).status_code == 302
    assert not MeterReading.objects.exists()


@pytest.mark.parametrize(
    ("field", "value"), [("text", "12.7"), ("text", ""), ("text", "bright"), ("iso", "0"), ("shutter_s", "x")]
)
def test_what_no_meter_shows_is_refused_and_stays(browser, lit, field, value) -> None:
    setup, _key, _other = lit
    data = {"text": "11.3", "iso": "100", "shutter_s": "1/200"} | {field: value}
    page = browser.post(url("reading_new", setup.pk), data)
    assert page.status_code == 422
    assert list(page.context["reading_form"].errors) == [field]
    assert page.context["reading_form"][field].value() == value
    assert not MeterReading.objects.exists()


def test_the_page_is_asked_about_a_day_and_an_hour(browser, lit, studio) -> None:
    setup, _key, _other = lit
    place = factories.make_place(studio)
    spot = factories.make_spot(place)
    Setup.objects.filter(pk=setup.pk).update(ambient_ev100=None, place=place, spot=spot, shoot_time=time(12))
    june = factories.make_day(setup.shoot, date=date(2026, 6, 9))
    winter = factories.make_day(setup.shoot, date=date(2026, 12, 9))

    def altitude(asked: str) -> float:
        page = browser.get(url("setup_detail", setup.pk) + asked).context["page"]
        return page.sky.sun.apparent_altitude_deg

    assert altitude("") == altitude(f"?day={june.pk}") > altitude(f"?day={winter.pk}") > 0
    assert altitude("?time=06:30") < altitude("?time=12:00")
    assert altitude("?time=never&day=x") == altitude("")
    assert browser.get(url("setup_detail", setup.pk) + f"?day={winter.pk}&time=22:00").status_code == 200


def test_wind_and_mains_outdoors_are_cautioned_without_a_promise(browser, lit, studio) -> None:
    setup, key, _other = lit
    assert "Wind and rain" not in browser.get(url("setup_detail", setup.pk)).content.decode()
    Setup.objects.filter(pk=setup.pk).update(place=factories.make_place(studio))
    key.lamp.needs_mains = True
    key.lamp.save()
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "Wind and rain" in text
    assert "licensed electrician" in text
    assert "not a safety plan" in text


def test_the_page_warns_when_the_shutter_is_faster_than_the_sync_time(browser, lit) -> None:
    setup, _key, _other = lit
    Setup.objects.filter(pk=setup.pk).update(shutter_s=1 / 500)
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "1/500 s is faster than the sync time of 1/200 s" in text


def test_the_shots_that_use_a_setup_stand_on_its_page(browser, lit, shoot) -> None:
    setup, _key, _other = lit
    factories.make_shot(shoot, title="Elsewhere", position=0)
    factories.make_shot(shoot, title="On the rim", setup=setup, position=1)
    text = browser.get(url("setup_detail", setup.pk)).content.decode()
    assert "2 On the rim" in text
    assert "Elsewhere" not in text


def test_a_copy_has_the_lights_and_neither_readings_nor_shots(browser, lit, shoot) -> None:
    setup, _key, _other = lit
    factories.make_shot(shoot, setup=setup)
    browser.post(url("reading_new", setup.pk), {"text": "8", "iso": "100", "shutter_s": "1/200"})
    browser.post(url("setup_duplicate", setup.pk))
    twin = Setup.objects.exclude(pk=setup.pk).get()
    assert [lamp.bearing_deg for lamp in twin.lamps.all()] == [lamp.bearing_deg for lamp in setup.lamps.all()]
    assert not MeterReading.objects.filter(setup=twin).exists()
    assert not Shot.objects.filter(setup=twin).exists()


def test_a_removed_setup_leaves_its_shots(browser, lit, shoot) -> None:
    setup, _key, _other = lit
    shot = factories.make_shot(shoot, setup=setup)
    assert browser.post(url("setup_remove", setup.pk)).status_code == 302
    assert Shot.objects.get(pk=shot.pk).setup is None
    assert browser.get(url("setup_detail", setup.pk)).status_code == 404


def test_setups_are_put_in_another_order(browser, shoot) -> None:
    first, second = (factories.make_setup(shoot, name=name, position=n) for n, name in enumerate(("A", "B")))
    browser.post(url("setup_move", second.pk), {"way": "up"})
    assert [setup.name for setup in Setup.objects.filter(shoot=shoot)] == ["B", "A"]
    assert first.pk


def test_crew_read_the_light_of_their_shoot_and_change_nothing(crew, signed_in, lit, shoot) -> None:
    setup, key, _other = lit
    browser = signed_in(crew)
    for name, args in (("setup_list", ()), ("setup_detail", (setup.pk,))):
        assert browser.get(url(name, *args)).status_code == 404
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    for name, args in (("setup_list", ()), ("setup_detail", (setup.pk,))):
        page = browser.get(url(name, *args))
        assert page.status_code == 200
        text = page.content.decode().partition("<main")[2]
        assert 'method="post"' not in text
        assert "£" not in text
        assert "data-head" not in text
    for name, args in (
        ("setup_new", ()),
        ("setup_edit", (setup.pk,)),
        ("setup_duplicate", (setup.pk,)),
        ("setup_remove", (setup.pk,)),
        ("setup_move", (setup.pk,)),
        ("lamp_new", (setup.pk,)),
        ("lamp_edit", (setup.pk, key.pk)),
        ("lamp_place", (setup.pk, key.pk)),
        ("lamp_remove", (setup.pk, key.pk)),
        ("reading_new", (setup.pk,)),
    ):
        assert browser.post(url(name, *args), {"name": "x"}).status_code == 403
    assert Setup.objects.count() == 1


def test_another_studio_s_light_is_not_found(other_studio, signed_in, lit) -> None:
    setup, key, _other = lit
    browser = signed_in(factories.make_member(other_studio))
    for name, args in (
        ("setup_list", ()),
        ("setup_detail", (setup.pk,)),
        ("setup_edit", (setup.pk,)),
        ("lamp_new", (setup.pk,)),
        ("lamp_edit", (setup.pk, key.pk)),
    ):
        assert browser.get(url(name, *args)).status_code == 404
    for name in ("setup_remove", "setup_duplicate", "setup_move", "reading_new"):
        assert browser.post(url(name, setup.pk)).status_code == 404
    for name in ("lamp_place", "lamp_remove"):
        assert browser.post(url(name, setup.pk, key.pk)).status_code == 404


def test_a_light_of_another_setup_is_not_found_under_this_one(browser, lit, shoot) -> None:
    setup, _key, _other = lit
    elsewhere, lamps = make_lit_setup(shoot)
    assert browser.post(url("lamp_remove", setup.pk, lamps[0].pk)).status_code == 404
    assert PlacedLamp.objects.filter(setup=elsewhere).count() == 1


@pytest.mark.parametrize("address", ["setup_list", "setup_detail"])
def test_pages_take_the_same_queries_for_few_and_for_many_lights(
    browser, lit, shoot, address, django_assert_num_queries, django_assert_max_num_queries
) -> None:
    setup, _key, _other = lit
    args = (setup.pk,) if address == "setup_detail" else ()
    factories.make_shot(shoot, setup=setup)
    browser.get(url(address, *args))
    with django_assert_max_num_queries(40) as few:
        browser.get(url(address, *args))
    for n in range(12):
        factories.make_placed_lamp(setup, position=5 + n, bearing_deg=10.0 * n)
        factories.make_shot(shoot, setup=setup)
        make_lit_setup(shoot, name=f"Setup {n}")
    with django_assert_num_queries(len(few)):
        browser.get(url(address, *args))


def test_looking_changes_nothing_and_deeds_are_posted(browser, lit) -> None:
    setup, key, _other = lit
    before = list(Setup.objects.values()), list(PlacedLamp.objects.values())
    for name, args in (("setup_list", ()), ("setup_detail", (setup.pk,)), ("lamp_edit", (setup.pk, key.pk))):
        assert browser.get(url(name, *args)).status_code == 200
    for name in ("setup_duplicate", "setup_remove", "setup_move"):
        assert browser.get(url(name, setup.pk)).status_code == 405
    assert before == (list(Setup.objects.values()), list(PlacedLamp.objects.values()))


def test_the_numbers_under_the_drawings_open_to_the_formulas_they_came_from(browser, shoot) -> None:
    """A 36 × 24 mm sensor behind 50 mm sees 2·atan(36 / (2·50·s/(s − 0.05 m))) across; s is the way to the aim."""
    setup = make_lit_setup(shoot, focal_mm=50.0, camera_distance_m=4.0, camera_height_m=0.5)[0]
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    steps = {step.formula: step for step in page.sharpness.framed_because}
    assert set(steps) == {"field_of_view", "camera_tilt", "frame_bottom", "frame_top"}
    assert steps["field_of_view"].result == pytest.approx(page.sharpness.view_across_deg)
    way = math.hypot(4.0, steps["camera_tilt"].inputs[0].value - 0.5)
    across = 2.0 * math.degrees(math.atan(36.0 / (2.0 * 50.0 * way / (way - 0.05))))
    assert steps["field_of_view"].result == pytest.approx(across)
    assert steps["camera_tilt"].result == pytest.approx(page.sharpness.tilt_deg)
    assert steps["frame_top"].result == pytest.approx(page.side.frame_top_m)
    assert steps["frame_bottom"].result == pytest.approx(page.side.frame_bottom_m)
    text = browser.get(f"/shoots/26-001/light/{setup.pk}/").content.decode()
    assert "Frame top" in text and "h = height + distance · tan(φ + view / 2)" in text


def test_a_warning_opens_to_what_its_number_was_computed_from(browser, shoot) -> None:
    """A head at (x, y, z) behind the subject: the angle between its axis and the way to the lens."""
    setup, lamps = make_lit_setup(shoot, camera_distance_m=4.0, camera_height_m=1.6)
    PlacedLamp.objects.filter(pk=lamps[0].pk).update(role="RIM", bearing_deg=150.0, distance_m=3.0, height_m=2.2)
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    flare = next(row for row in page.all_warned if row.warned.trouble == "FLARE")
    x, y, z = 3.0 * math.sin(math.radians(210.0)), -3.0 * math.cos(math.radians(150.0)), 2.2
    given = {one.name: one.value for one in flare.because[0].inputs}
    subject, lens = (-x, -y, given["face_m"] - z), (-x, -4.0 - y, 1.6 - z)
    cosine = sum(a * b for a, b in zip(subject, lens, strict=True)) / math.hypot(*subject) / math.hypot(*lens)
    assert flare.because[0].result == pytest.approx(math.degrees(math.acos(cosine)))
    assert abs(given["light_behind_m"]) == pytest.approx(y)
    assert "Angle to the lens" in browser.get(f"/shoots/26-001/light/{setup.pk}/").content.decode()
