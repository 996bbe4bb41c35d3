"""The bag: generic kinds with one click, numbers as photographers type them, impossible ones refused."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest
from django.test import Client as Browser
from django.urls import reverse

from shoots.kit import actions, queries
from shoots.kit.core import starting
from shoots.kit.core.panels import PANELS
from shoots.kit.forms import FORMS, FractionField
from shoots.kit.models import SECTIONS, TITLES, Camera, Filter, Lamp, Lens, Modifier
from shoots.members.models import Member, Studio
from shoots.trail.models import Entry
from tests import factories

CAMERA: dict[str, Any] = {
    "name": "Body", "quantity": "1", "sensor_width_mm": "36", "sensor_height_mm": "24", "width_px": "6000",
    "sync_s": "1/200", "curtain_s": "1/300", "fastest_s": "1/8000", "base_iso": "100", "top_iso": "1600", "note": "",
}  # fmt: skip
LAMP: dict[str, Any] = {
    "name": "Head", "quantity": "2", "kind": "FLASH", "energy_ws": "300", "guide_number_m": "45", "lux_at_1m": "",
    "least_power": "1/256", "power_step_stops": "1/10", "cuts_off": "on", "t01_full_s": "1/250", "colour_k": "5500",
    "recycle_full_s": "1.2", "full_pops": "400", "weight_kg": "2.6", "note": "",
}  # fmt: skip
LENS: dict[str, Any] = {
    "name": "Lens", "quantity": "1", "shortest_mm": "24", "longest_mm": "70", "widest_f": "2.8", "smallest_f": "22",
    "note": "",
}  # fmt: skip
MODIFIER: dict[str, Any] = {
    "name": "Box", "quantity": "1", "kind": "SOFTBOX", "width_m": "0.6", "height_m": "0.9", "factor_stops": "-1.6",
    "beam_deg": "110", "weight_kg": "1.1", "note": "",
}  # fmt: skip
FILTER: dict[str, Any] = {
    "name": "Half", "quantity": "4", "kind": "GEL", "shift_mired": "109", "loss_stops": "0.5", "note": "",
}  # fmt: skip
STAND: dict[str, Any] = {
    "name": "Stand", "quantity": "3", "highest_m": "2.6", "foot_radius_m": "0.5", "legs": "3", "weight_kg": "2.5",
    "sandbag_kg": "0", "note": "",
}  # fmt: skip
PANEL = {
    "name": "Silver, 1.1 m", "quantity": 1, "kind": "REFLECTOR", "width_m": 1.1, "height_m": "", "is_round": "on",
    "reflectance": 0.8, "gain": 3, "takes_stops": 0, "scatter": 1, "weight_kg": 0.7,
}  # fmt: skip
BATTERY = {"name": "Battery", "quantity": 4, "energy_wh": 60}
TYPED = {
    "cameras": CAMERA, "lights": LAMP, "lenses": LENS, "modifiers": MODIFIER, "filters": FILTER, "stands": STAND,
    "panels": PANEL, "batteries": BATTERY,
}  # fmt: skip


def test_every_section_has_a_form_a_title_a_drawing_and_starters() -> None:
    for table in (TITLES, FORMS, queries.GLYPHS, queries.NAMES, queries.STARTERS):
        assert table.keys() == SECTIONS.keys()


def test_every_generic_kind_of_the_physics_has_a_name() -> None:
    kinds = {
        "cameras": starting.CAMERAS, "lenses": starting.LENSES, "lights": starting.LAMPS, "stands": starting.STANDS,
        "modifiers": {**starting.MODIFIERS, "GRID_REFLECTOR": None, "GRID_BOX": None},
        "filters": {**starting.GELS, **starting.FILTERS}, "panels": PANELS,
    }  # fmt: skip
    for slug, table in kinds.items():
        assert {str(key) for key in table} == queries.NAMES[slug].keys()


@pytest.mark.parametrize("slug", SECTIONS)
def test_every_generic_kind_passes_the_rules_for_what_is_typed(studio: Studio, slug: str) -> None:
    for one in queries.starters(slug):
        SECTIONS[slug](studio=studio, name=one.name, **one.fields).full_clean()


@pytest.mark.parametrize("slug", SECTIONS)
def test_one_click_puts_a_generic_kind_into_the_bag_and_a_second_counts_one_more(browser: Browser, slug: str) -> None:
    one = queries.starters(slug)[0]
    address = reverse("kit_starter", args=[slug, one.key])
    assert browser.post(address).status_code == 302
    item = SECTIONS[slug].objects.get()
    assert (item.name, item.quantity) == (one.name, 1)
    browser.post(address)
    item.refresh_from_db()
    assert (item.quantity, item.version) == (2, 2)
    assert one.name in browser.get(reverse("kit_list")).content.decode()


def test_generic_numbers_are_those_of_the_trade() -> None:
    """Mired of trade scale X (checks of light, section 4: full +159, half +109, quarter +64; CTB -137, -78, -35)."""
    fields = {one.key: one.fields for one in queries.starters("filters")}
    shifts = {key: fields[key]["shift_mired"] for key in fields if not key.startswith("ND")}
    assert shifts == {
        "FULL_CTO": 159, "HALF_CTO": 109, "QUARTER_CTO": 64, "EIGHTH_CTO": 26,
        "FULL_CTB": -137, "HALF_CTB": -78, "QUARTER_CTB": -35, "EIGHTH_CTB": -18,
    }  # fmt: skip
    assert (fields["ND_3"]["loss_stops"], fields["ND_3"]["shift_mired"]) == (3.0, 0.0)
    assert fields["FULL_CTO"]["loss_stops"] == pytest.approx(0.86, abs=0.005)  # 0.55 of the light, same table
    box = {one.key: one.fields for one in queries.starters("modifiers")}["OCTAGON_95"]
    assert -2.5 <= box["factor_stops"] <= -1.0  # both diffusers, one to two and a half stops (common practice)


def test_there_is_no_such_generic_kind(owner: Member, browser: Browser, now: datetime) -> None:
    assert browser.post(reverse("kit_starter", args=["lights", "SUN"])).status_code == 404
    assert browser.post(reverse("kit_starter", args=["shoes", "LIGHT"])).status_code == 404
    with pytest.raises(actions.NoSuchStarter):
        actions.add_starter(slug="stands", key="FULL_CTO", by=owner, now=now)


@pytest.mark.parametrize("slug", SECTIONS)
def test_a_thing_is_put_into_the_bag_and_changed(studio: Studio, browser: Browser, slug: str) -> None:
    assert browser.post(reverse("kit_new", args=[slug]), TYPED[slug]).status_code == 302
    item = SECTIONS[slug].objects.get()
    assert item.studio == studio
    address = reverse("kit_edit", args=[slug, item.pk])
    shown = browser.get(address).context["form"]
    typed = {
        name: shown[name].value()
        for name in shown.fields
        if shown[name].value() is not None and shown[name].value() is not False
    }
    assert browser.post(address, {**typed, "name": "Renamed"}).status_code == 302
    fresh = SECTIONS[slug].objects.get()
    unchanged = [field.name for field in fresh._meta.fields if field.name not in {"name", "version"}]
    assert {name: getattr(fresh, name) for name in unchanged} == {name: getattr(item, name) for name in unchanged}
    assert fresh.name == "Renamed"
    second = browser.post(address, {**typed, "name": "Second window"})
    assert second.status_code == 422 and "in the meantime" in second.content.decode()


@pytest.mark.parametrize(
    ("slug", "change", "field"),
    [
        ("cameras", {"sync_s": "1/0"}, "sync_s"),
        ("cameras", {"sync_s": "fast"}, "sync_s"),
        ("cameras", {"curtain_s": "1/100"}, "curtain_s"),
        ("cameras", {"fastest_s": "1/60"}, "fastest_s"),
        ("cameras", {"top_iso": "64"}, "top_iso"),
        ("cameras", {"quantity": "0"}, "quantity"),
        ("lenses", {"widest_f": "0"}, "widest_f"),
        ("lenses", {"widest_f": "-2.8"}, "widest_f"),
        ("lenses", {"smallest_f": "1.4"}, "smallest_f"),
        ("lenses", {"longest_mm": "20"}, "longest_mm"),
        ("lights", {"guide_number_m": ""}, "guide_number_m"),
        ("lights", {"guide_number_m": "-45"}, "guide_number_m"),
        ("lights", {"kind": "CONTINUOUS"}, "lux_at_1m"),
        ("lights", {"least_power": "2"}, "least_power"),
        ("modifiers", {"height_m": ""}, "height_m"),
        ("modifiers", {"is_round": "on"}, "height_m"),
        ("modifiers", {"width_m": "0"}, "width_m"),
        ("filters", {"kind": "ND", "loss_stops": "0"}, "loss_stops"),
        ("filters", {"shift_mired": "900"}, "shift_mired"),
        ("stands", {"legs": "2"}, "legs"),
    ],
)
def test_what_cannot_be_is_refused_by_its_field_and_keeps_what_was_typed(
    browser: Browser, slug: str, change: dict[str, str], field: str
) -> None:
    response = browser.post(reverse("kit_new", args=[slug]), {**TYPED[slug], **change, "note": "from the loft"})
    form = response.context["form"]
    assert response.status_code == 422
    assert list(form.errors) == [field]
    assert form["note"].value() == "from the loft"
    for name, value in change.items():
        assert form[name].value() in (value, value == "on")  # a ticked box reads as True
    assert not SECTIONS[slug].objects.exists()


def test_a_lens_that_does_not_zoom_and_a_round_box_have_one_number(browser: Browser) -> None:
    browser.post(reverse("kit_new", args=["lenses"]), {**LENS, "shortest_mm": "85", "longest_mm": ""})
    browser.post(reverse("kit_new", args=["modifiers"]), {**MODIFIER, "is_round": "on", "height_m": ""})
    assert Lens.objects.get().longest_mm == 85.0
    assert Modifier.objects.get().height_m == 0.6


@pytest.mark.parametrize(
    ("text", "value"), [("1/200", 0.005), ("1/200 s", 0.005), (" 1 / 8 ", 0.125), ("0.005", 0.005), ("0.5 s", 0.5)]
)
def test_times_and_powers_are_read_as_photographers_write_them(text: str, value: float) -> None:
    assert FractionField().clean(text) == pytest.approx(value)


@pytest.mark.parametrize("denominator", [64, 125, 160, 200, 250, 300, 1250, 8000])
def test_a_fraction_is_shown_as_one_and_comes_back_the_same(denominator: int) -> None:
    shown = FractionField().prepare_value(1 / denominator)
    assert shown == f"1/{denominator}"
    assert FractionField().clean(shown) == 1 / denominator


def test_putting_away_and_taking_out(studio: Studio, browser: Browser) -> None:
    lamp = factories.make_lamp(studio, name="Old head")
    address = reverse("kit_put_away", args=["lights", lamp.pk])
    browser.post(address)
    browser.get(reverse("kit_list"))
    page = browser.get(reverse("kit_list")).content.decode()
    assert "Old head" not in page and "1 thing is put away" in page
    assert "Old head" in browser.get(reverse("kit_list") + "?away=1").content.decode()
    browser.post(address, {"back": "1"})
    lamp.refresh_from_db()
    assert lamp.put_away_at is None
    assert [entry.deed for entry in Entry.objects.order_by("pk")] == ["put away", "taken out again"]


def test_a_light_is_not_found_among_the_cameras(studio: Studio, browser: Browser) -> None:
    factories.make_camera(studio)
    lamp = factories.make_lamp(studio, pk=4711)
    assert not Camera.objects.filter(pk=lamp.pk).exists()
    assert browser.get(reverse("kit_edit", args=["cameras", lamp.pk])).status_code == 404
    assert browser.get(reverse("kit_edit", args=["shoes", lamp.pk])).status_code == 404


def test_a_bookkeeper_reads_the_bag_and_finds_no_button(studio: Studio, bookkeeper: Member, signed_in) -> None:  # type: ignore[no-untyped-def]
    factories.make_lamp(studio)
    text = signed_in(bookkeeper).get(reverse("kit_list")).content.decode()
    assert "300 Ws battery head" in text
    assert "Add your own" not in text and "one click each" not in text


def test_every_number_on_the_page_has_its_unit(studio: Studio, browser: Browser) -> None:
    factories.make_lamp(studio)
    factories.make_filter(studio)
    text = browser.get(reverse("kit_list")).content.decode().replace("&nbsp;", " ")
    for words in ("45 m", "300 Ws", "down to 1/128", "5500 K", "+109 mired", "takes 0.5 stops"):
        assert words in text, words


def test_drawings_stay_in_their_square(studio: Studio) -> None:
    things = [
        Modifier(width_m=12, height_m=12, is_round=False), Modifier(width_m=0.02, height_m=0.02),
        Lamp(least_power=1 / 1024), Lamp(least_power=1.0), Filter(kind="GEL", shift_mired=300),
        Filter(kind="ND", loss_stops=16), Camera(sensor_width_mm=60, sensor_height_mm=60),
    ]  # fmt: skip
    names = {model: slug for slug, model in SECTIONS.items()}
    for thing in things:
        for x, y, width, height in queries.GLYPHS[names[type(thing)]](thing).boxes:
            assert float(x) >= 0 and float(y) >= 0 and float(width) > 0 and float(height) > 0
            assert float(x) + float(width) <= 56.1 and float(y) + float(height) <= 56.1


def test_a_light_takes_a_battery_of_its_own_studio_and_none_on_the_mains(browser, studio) -> None:
    kind = factories.make_battery(studio, name="Battery of the heads", quantity=3)
    other = factories.make_battery(factories.make_studio(), name="Somebody else's")
    lamp = factories.make_lamp(studio)
    address = f"/bag/lights/{lamp.pk}/"
    text = browser.get(address).content.decode()
    assert kind.name in text
    assert "Somebody else" not in text
    for typed in ({"battery": other.pk}, {"battery": kind.pk, "needs_mains": "on"}):
        answer = browser.post(address, LAMP | {"version": lamp.version} | typed)
        assert answer.status_code == 422
        lamp.refresh_from_db()
        assert lamp.battery is None
    assert browser.post(address, LAMP | {"version": lamp.version, "battery": kind.pk}).status_code == 302
    lamp.refresh_from_db()
    assert lamp.battery == kind
    text = browser.get("/bag/").content.decode()
    assert "takes Battery of the heads" in text
    assert f"for {lamp.name}" in text
