"""The studio's own page."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from shoots.accounts.forms import StudioForm
from shoots.members.models import Member, Studio
from shoots.trail.models import Entry


def typed(studio: Studio, **change: Any) -> dict[str, Any]:
    names = (*StudioForm.Meta.fields, "version")
    return {**{name: getattr(studio, name) for name in names}, **change}


def test_the_details_are_saved_in_one_spelling(owner: Member, browser: Client) -> None:
    change = {
        "iban": "gb29 nwbk 6016 1331 9268 19",
        "bic": "nwbkgb2l",
        "sort_code": "601613",
        "account_number": "31926819",
        "vat_number": "980 7806 84",
        "phone": "0114  496 0111",
    }
    assert browser.post(reverse("studio_settings"), typed(owner.studio, **change)).status_code == 302
    studio = Studio.objects.get()
    assert studio.iban == "GB29NWBK60161331926819"  # the specimen of the IBAN registry
    assert (studio.bic, studio.sort_code, studio.account_number) == ("NWBKGB2L", "60-16-13", "31926819")
    assert (studio.vat_number, studio.phone) == ("GB980780684", "0114 496 0111")
    assert studio.version == 2
    assert Entry.objects.get().deed == "edited"


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("iban", "GB29NWBK60161331926818"),
        ("iban", "GB29"),
        ("bic", "NWB"),
        ("sort_code", "60-16-1"),
        ("account_number", "12ab5678"),
        ("vat_number", "GB980780685"),
        ("country", "UK"),
        ("currency", "XXX"),
        ("time_zone", "London"),
        ("payment_days", "-1"),
        ("deposit_percent", "101"),
        ("quote_days", "0"),
        ("phone", "ring me"),
        ("email", "studio"),
        ("meter_constant", "12"),
        ("name", ""),
    ],
)
def test_a_wrong_value_is_refused_by_its_field_and_stays_in_it(
    owner: Member, browser: Client, field: str, value: str
) -> None:
    response = browser.post(reverse("studio_settings"), typed(owner.studio, **{field: value, "insurance": "Kept"}))
    form = response.context["form"]
    assert response.status_code == 422
    assert list(form.errors) == [field]
    assert form[field].value() == value
    assert form["insurance"].value() == "Kept"
    assert Studio.objects.get().version == 1


def test_the_second_of_two_windows_is_told_and_loses_nothing(owner: Member, browser: Client) -> None:
    opened = typed(owner.studio)
    browser.post(reverse("studio_settings"), {**opened, "name": "First window"})
    response = browser.post(reverse("studio_settings"), {**opened, "name": "Second window"})
    assert response.status_code == 422
    assert "in the meantime" in response.content.decode()
    assert "Second window" in response.content.decode()
    assert Studio.objects.get().name == "First window"
    again = {**opened, "name": "Second window", "version": response.context["form"]["version"].value()}
    assert browser.post(reverse("studio_settings"), again).status_code == 302
    assert Studio.objects.get().name == "Second window"


def test_saving_without_a_change_writes_no_line(owner: Member, browser: Client) -> None:
    browser.post(reverse("studio_settings"), typed(owner.studio))
    browser.post(reverse("studio_settings"), typed(Studio.objects.get()))
    assert Entry.objects.count() <= 1


def test_a_number_of_another_country_is_checked_by_its_rule(owner: Member, browser: Client) -> None:
    # DE136695976 is python-stdnum's documented valid number.
    change = {"country": "DE", "vat_number": "de 136,695 976".replace(",", "")}
    assert browser.post(reverse("studio_settings"), typed(owner.studio, **change)).status_code == 302
    assert Studio.objects.get().vat_number == "DE136695976"
