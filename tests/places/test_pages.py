"""Places and spots: taken in, changed, asked for, put away."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest
from django.db import connection
from django.test import Client as Browser
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.members.models import Member, Studio
from shoots.places import actions
from shoots.places.forms import read_position
from shoots.places.models import Permission, Place, Spot
from shoots.trail.models import Entry
from tests import factories

PLACE: dict[str, Any] = {
    "name": "Quarry rim",
    "address": "Above Mill Lane",
    "position": "53.3402, -1.6310",
    "elevation_m": "310",
    "country": "GB",
    "time_zone": "Europe/London",
    "permission": "TO_ASK",
    "permission_note": "",
    "parking": "",
    "power": "",
    "hazards": "Unfenced edge",
    "hospital": "",
    "note": "",
}


def test_a_place_is_taken_in_with_the_position_that_was_pasted(studio: Studio, browser: Browser) -> None:
    assert browser.post(reverse("place_new"), PLACE).status_code == 302
    place = Place.objects.get()
    assert (place.studio, place.latitude, place.longitude, place.elevation_m) == (studio, 53.3402, -1.6310, 310.0)


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("53.3402, -1.6310", (53.3402, -1.631)),
        ("53.3402 -1.6310", (53.3402, -1.631)),
        ("-33.92; 18.42", (-33.92, 18.42)),
        ("53.34 N, 1.63 W", (53.34, -1.63)),
        ("N 53.34 W 1.63", (53.34, -1.63)),
        ("53°20'24\"N 1°37'48\"W", (53.34, -1.63)),  # 20/60 + 24/3600 = 0.34; 37/60 + 48/3600 = 0.63
        ("53° 20.4′ N, 1° 37.8′ W", (53.34, -1.63)),
        ("−33.92, 18.42", (-33.92, 18.42)),
        ("0, 0", (0.0, 0.0)),
    ],
)
def test_positions_are_read_as_maps_and_almanacs_write_them(text: str, position: tuple[float, float]) -> None:
    assert read_position(text) == pytest.approx(position)


@pytest.mark.parametrize(
    "text",
    [
        "53.34",
        "53.34,",
        "here",
        "91, 0",
        "0, 181",
        "1.63 W, 53.34 N",
        "53.34 N, 1.63 N",
        "53°61'N 1°W",
        "1, 2, 3",
        "N 5 N, 3 W",
    ],
)
def test_what_is_no_position_is_refused(text: str) -> None:
    with pytest.raises(ValueError):
        read_position(text)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("position", "north of the pub"),
        ("position", "91, 0"),
        ("elevation_m", "9000"),
        ("elevation_m", "high"),
        ("time_zone", "Europe/Sheffield"),
        ("country", "ENG"),
        ("permission", "PERHAPS"),
        ("name", ""),
    ],
)
def test_a_wrong_place_is_refused_by_its_field_and_keeps_what_was_typed(
    browser: Browser, field: str, value: str
) -> None:
    response = browser.post(reverse("place_new"), {**PLACE, field: value, "note": "ask the ranger"})
    form = response.context["form"]
    assert response.status_code == 422
    assert list(form.errors) == [field]
    assert form[field].value() == value
    assert "ask the ranger" in response.content.decode()
    assert not Place.objects.exists()


def test_saving_without_touching_the_position_keeps_every_digit(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio, latitude=53.123456789, longitude=-1.987654321)
    form = browser.get(reverse("place_edit", args=[place.pk])).context["form"]
    typed = {**PLACE, "position": form["position"].value(), "name": "Other rim", "version": 1}
    assert browser.post(reverse("place_edit", args=[place.pk]), typed).status_code == 302
    place.refresh_from_db()
    assert (place.name, place.latitude, place.longitude) == ("Other rim", 53.123456789, -1.987654321)


def test_a_position_can_be_taken_away(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio)
    browser.post(reverse("place_edit", args=[place.pk]), {**PLACE, "position": "", "version": 1})
    place.refresh_from_db()
    assert not place.has_position
    assert "Give the place its position" in browser.get(reverse("place_detail", args=[place.pk])).content.decode()


def test_two_windows_on_one_place_lose_nothing(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio)
    address = reverse("place_edit", args=[place.pk])
    browser.post(address, {**PLACE, "name": "First", "version": 1})
    response = browser.post(address, {**PLACE, "name": "Second", "version": 1})
    assert response.status_code == 422
    assert "in the meantime" in response.content.decode() and "Second" in response.content.decode()
    place.refresh_from_db()
    assert place.name == "First"


def test_the_page_shows_the_light_of_the_date_that_is_asked_for(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio)
    factories.make_spot(place)
    text = browser.get(reverse("place_detail", args=[place.pk]) + "?date=2027-06-21").content.decode()
    assert "Mon 21 June 2027" in text
    assert "Low sun" in text and "sun behind the camera" in text and "NREL/TP-560-34302" in text


@pytest.mark.parametrize("asked", ["2027-13-01", "soon", "", "0001-01-01", "9999-01-01"])
def test_a_date_that_is_none_is_said_and_today_is_shown(studio: Studio, browser: Browser, asked: str) -> None:
    place = factories.make_place(studio)
    response = browser.get(reverse("place_detail", args=[place.pk]), {"date": asked})
    assert response.status_code == 200
    assert "Shown is today." in response.content.decode()


def test_permission_goes_from_asked_to_given_with_its_evidence(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio)
    address = reverse("place_permission", args=[place.pk])
    browser.post(address, {"permission": "ASKED", "note": "Estate office, 3 June"})
    browser.post(address, {"permission": "GIVEN", "note": ""})
    place.refresh_from_db()
    assert (place.permission, place.permission_note) == (Permission.GIVEN, "Estate office, 3 June")
    assert [entry.changes["permission"][1] for entry in Entry.objects.order_by("pk")] == ["ASKED", "GIVEN"]


def test_a_permission_that_does_not_exist_changes_nothing(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio)
    response = browser.post(reverse("place_permission", args=[place.pk]), {"permission": "MAYBE"}, follow=True)
    assert "Nothing was changed" in response.content.decode()
    place.refresh_from_db()
    assert place.permission == Permission.TO_ASK


def test_noting_the_same_twice_writes_one_line(owner: Member, now: datetime) -> None:
    place = factories.make_place(owner.studio)
    for _ in range(2):
        actions.note_permission(place=place, permission=Permission.GIVEN, note="Estate", by=owner, now=now)
    assert Entry.objects.count() == 1


def test_spots_are_added_changed_and_removed(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio)
    typed = {"name": "North edge", "bearing_deg": "20", "note": ""}
    assert browser.post(reverse("spot_new", args=[place.pk]), typed).status_code == 302
    spot = Spot.objects.get()
    address = reverse("spot_edit", args=[spot.pk])
    assert browser.post(address, {**typed, "bearing_deg": "400", "version": 1}).status_code == 422
    assert browser.post(address, {**typed, "bearing_deg": "200", "version": 1}).status_code == 302
    assert browser.post(address, {**typed, "bearing_deg": "90", "version": 1}).status_code == 422
    spot.refresh_from_db()
    assert spot.bearing_deg == 200.0
    shoot = factories.make_shoot(studio)
    setup = factories.make_setup(shoot, place=place, spot=spot)
    assert browser.post(reverse("spot_remove", args=[spot.pk])).status_code == 302
    setup.refresh_from_db()
    assert (setup.spot, Spot.objects.count()) == (None, 0)


def test_a_place_is_put_away_and_taken_out(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio, name="Hazel Quarry")
    address = reverse("place_put_away", args=[place.pk])
    browser.post(address)
    browser.get(reverse("place_list"))  # the message names it once more
    assert "Hazel Quarry" not in browser.get(reverse("place_list")).content.decode()
    assert "Hazel Quarry" in browser.get(reverse("place_list") + "?away=1").content.decode()
    browser.post(address, {"back": "1"})
    place.refresh_from_db()
    assert place.put_away_at is None


def test_the_list_costs_the_same_for_many(studio: Studio, browser: Browser) -> None:
    def cost() -> int:
        with CaptureQueriesContext(connection) as caught:
            browser.get(reverse("place_list"))
        return len(caught)

    factories.make_place(studio)
    few = cost()
    for n in range(8):
        factories.make_place(studio, name=f"Place {n}")
    assert cost() == few


def test_hazards_stand_on_the_page_with_the_care_that_is_usual(studio: Studio, browser: Browser) -> None:
    place = factories.make_place(studio, hazards="Unfenced edge, 18 m\n<b>Loose</b> rock")
    text = browser.get(reverse("place_detail", args=[place.pk])).content.decode()
    assert "Unfenced edge, 18 m" in text and "&lt;b&gt;Loose" in text
    assert "well clear of the edge" in text and "licensed people come before this page" in text
