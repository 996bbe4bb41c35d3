"""Clients, contacts, crew and talent: taken in, changed, put away, found again."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client as Browser
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member, Studio
from shoots.people import actions, queries
from shoots.people.models import Client, Contact, Person, PersonKind
from shoots.trail.models import Entry
from tests import factories

CLIENT = {
    "name": "Fellside Packs",
    "legal_name": "Fellside Packs Ltd",
    "address": "9 Mill Lane",
    "country": "GB",
    "vat_number": "",
    "company_number": "",
    "invoice_email": "bills@example.com",
    "payment_days": "",
    "note": "",
}
PERSON = {
    "name": "Leo Marsh",
    "kind": "TALENT",
    "trade": "Runner",
    "day_fee": "420",
    "email": "leo@example.com",
    "phone": "07700 900333",
    "birth_date": "",
    "guardian": "",
    "diet": "",
    "note": "",
}


def test_a_client_is_taken_in_and_asked_whom_one_talks_to(studio: Studio, browser: Browser) -> None:
    response = browser.post(reverse("client_new"), CLIENT, follow=True)
    client = Client.objects.get()
    assert response.redirect_chain[0][0] == reverse("client_detail", args=[client.pk])
    assert "Who do you talk to there?" in response.content.decode()
    assert (client.studio, client.payment_days, client.full_legal_name) == (studio, None, "Fellside Packs Ltd")
    assert Entry.objects.get().deed == "added"


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("name", ""),
        ("country", "England"),
        ("invoice_email", "bills"),
        ("payment_days", "-3"),
        ("payment_days", "soon"),
        ("vat_number", "GB123456789"),
    ],
)
def test_a_wrong_client_is_refused_by_its_field_and_keeps_what_was_typed(
    browser: Browser, field: str, value: str
) -> None:
    response = browser.post(reverse("client_new"), {**CLIENT, field: value, "note": "met at the fair"})
    form = response.context["form"]
    assert response.status_code == 422
    assert list(form.errors) == [field]
    assert form[field].value() == value
    assert "met at the fair" in response.content.decode()
    assert not Client.objects.exists()


def test_a_number_that_the_countrys_rule_allows_is_kept_in_one_spelling(browser: Browser) -> None:
    browser.post(reverse("client_new"), {**CLIENT, "vat_number": "980 7806 84"})
    assert Client.objects.get().vat_number == "GB980780684"


def test_two_windows_on_one_client_lose_nothing(studio: Studio, browser: Browser) -> None:
    client = factories.make_client(studio)
    opened = {**CLIENT, "version": 1}
    address = reverse("client_edit", args=[client.pk])
    assert browser.post(address, {**opened, "name": "First"}).status_code == 302
    response = browser.post(address, {**opened, "name": "Second"})
    assert response.status_code == 422
    assert "in the meantime" in response.content.decode() and "Second" in response.content.decode()
    client.refresh_from_db()
    assert client.name == "First"
    version = response.context["form"]["version"].value()
    assert browser.post(address, {**opened, "name": "Second", "version": version}).status_code == 302
    client.refresh_from_db()
    assert (client.name, client.version) == ("Second", 3)


def test_an_edit_of_an_old_version_writes_nothing(owner: Member, now: datetime) -> None:
    client = factories.make_client(owner.studio)
    actions.edit(record=client, changes={"name": "First"}, seen_version=1, by=owner, now=now)
    with pytest.raises(EditedMeanwhile):
        actions.edit(record=client, changes={"name": "Second"}, seen_version=1, by=owner, now=now)
    assert Client.objects.get().name == "First"
    assert Entry.objects.filter(deed="edited").count() == 1


def test_contacts_are_added_changed_and_taken_off(studio: Studio, browser: Browser) -> None:
    client = factories.make_client(studio)
    typed = {"name": "Mara Quill", "job": "Head of brand", "email": "", "phone": "07700 900111", "approves": "on"}
    assert browser.post(reverse("contact_new", args=[client.pk]), typed).status_code == 302
    contact = Contact.objects.get()
    assert (contact.client, contact.studio, contact.approves, contact.pays) == (client, studio, True, False)
    assert 'href="tel:07700900111"' in browser.get(reverse("client_detail", args=[client.pk])).content.decode()
    address = reverse("contact_edit", args=[contact.pk])
    assert browser.post(address, {**typed, "phone": "call her", "version": 1}).status_code == 422
    assert browser.post(address, {**typed, "job": "Director", "version": 1}).status_code == 302
    assert Contact.objects.get().job == "Director"
    assert browser.post(reverse("contact_remove", args=[contact.pk])).status_code == 302
    assert not Contact.objects.exists()
    assert Entry.objects.get(deed="removed").changes == {"name": ["Mara Quill", ""]}


@pytest.mark.parametrize(("kind", "make"), [("client", factories.make_client), ("person", factories.make_person)])
def test_putting_away_takes_off_the_list_and_back_again(studio: Studio, browser: Browser, kind: str, make: Any) -> None:
    record = make(studio, name="Hazel Tarn")
    address = reverse(f"{kind}_put_away", args=[record.pk])
    browser.post(address)
    assert "Hazel Tarn" not in browser.get(reverse("people")).content.decode().split("</div>", 1)[1].split("<h1>")[1]
    assert "Hazel Tarn" in browser.get(reverse("people") + "?away=1").content.decode()
    browser.post(address, {"back": "1"})
    record.refresh_from_db()
    assert record.put_away_at is None


def test_putting_away_twice_keeps_the_first_moment(owner: Member, now: datetime) -> None:
    client = factories.make_client(owner.studio)
    actions.put_away(record=client, by=owner, now=now)
    actions.put_away(record=client, by=owner, now=now + timedelta(hours=1))
    client.refresh_from_db()
    assert client.put_away_at == now
    assert Entry.objects.filter(deed="put away").count() == 1


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("fell", {"Fellside Packs"}),
        ("QUILL", {"Fellside Packs"}),
        ("leeds", {"Lowmoor Agency"}),
        ("mara fellside", {"Fellside Packs"}),
        ("mara lowmoor", set()),
        ("stylist", {"Ben Tarn"}),
        ("%", set()),
    ],
)
def test_every_word_must_stand_somewhere(studio: Studio, text: str, found: set[str]) -> None:
    factories.make_contact(factories.make_client(studio))
    factories.make_client(studio, name="Lowmoor Agency", address="Leeds LS1 0AA")
    factories.make_person(studio, name="Ben Tarn", trade="Stylist")
    page = queries.people_page(studio, text=text, today=date(2026, 5, 14))
    assert {card.client.name for card in page.clients} | {card.person.name for card in page.crew} == found


def test_a_search_that_finds_nobody_says_so(studio: Studio, browser: Browser) -> None:
    factories.make_client(studio)
    assert "Nobody here matches" in browser.get(reverse("people") + "?q=zz<b>").content.decode()


def test_the_page_costs_the_same_for_many(studio: Studio) -> None:
    def cost() -> int:
        with CaptureQueriesContext(
            connection,
        ) as caught:
            page = queries.people_page(studio, today=date(2026, 5, 14))
            [contact.name for card in page.clients for contact in card.contacts]
        return len(caught)

    factories.make_contact(factories.make_client(studio))
    factories.make_person(studio)
    few = cost()
    for n in range(30):
        factories.make_contact(factories.make_client(studio, name=f"Client {n}"))
        factories.make_person(studio)
    assert cost() == few <= 6


def test_a_person_is_taken_in(browser: Browser) -> None:
    assert browser.post(reverse("person_new"), PERSON).status_code == 302
    person = Person.objects.get()
    assert (person.kind, person.day_fee, person.birth_date) == (PersonKind.TALENT, 420, None)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"day_fee": "-1"}, "day_fee"),
        ({"day_fee": "a lot"}, "day_fee"),
        ({"kind": "GHOST"}, "kind"),
        ({"birth_date": "2199-01-01"}, "birth_date"),
        ({"birth_date": "1850-01-01"}, "birth_date"),
        ({"birth_date": "31/02/2010"}, "birth_date"),
        ({"email": "leo"}, "email"),
    ],
)
def test_a_wrong_person_is_refused_by_the_field(browser: Browser, change: dict[str, str], field: str) -> None:
    response = browser.post(reverse("person_new"), {**PERSON, **change})
    form = response.context["form"]
    assert response.status_code == 422
    assert list(form.errors) == [field]
    assert form[field].value() == change[field]
    assert not Person.objects.exists()


def test_talent_under_eighteen_needs_a_guardian(browser: Browser) -> None:
    born = (timezone.localdate() - timedelta(days=15 * 365)).isoformat()
    response = browser.post(reverse("person_new"), {**PERSON, "birth_date": born})
    assert list(response.context["form"].errors) == ["guardian"]
    assert (
        browser.post(reverse("person_new"), {**PERSON, "birth_date": born, "guardian": "Tess Marsh"}).status_code == 302
    )
    text = browser.get(reverse("person_detail", args=[Person.objects.get().pk])).content.decode()
    assert "a minor until" in text and "Tess Marsh signs the release" in text and "no legal advice" in text
    assert "council" in text


def test_grown_talent_shows_no_caution(studio: Studio, browser: Browser) -> None:
    person = factories.make_person(studio, kind=PersonKind.TALENT, birth_date=date(1990, 1, 1))
    assert "minor" not in browser.get(reverse("person_detail", args=[person.pk])).content.decode()


def test_the_caution_is_that_of_the_day_asked_about(studio: Studio) -> None:
    person = factories.make_person(studio, birth_date=date(2010, 6, 10))
    before = queries.person_card(person, on=date(2028, 6, 9)).minor
    assert before is not None and (before.age, before.of_age_date) == (17, date(2028, 6, 10))
    assert queries.person_card(person, on=date(2028, 6, 10)).minor is None
    assert queries.person_card(person, on=date(2009, 1, 1)).minor is None


def test_private_numbers_and_birth_dates_are_for_those_who_plan(
    studio: Studio, producer: Member, bookkeeper: Member, signed_in
) -> None:  # type: ignore[no-untyped-def]
    person = factories.make_person(
        studio, kind=PersonKind.TALENT, phone="07700 900555", birth_date=date(2012, 3, 4), guardian="Tess Marsh",
        diet="no nuts", note="shy",
    )  # fmt: skip
    address = reverse("person_detail", args=[person.pk])
    private = ("07700 900555", "4 March 2012", "Tess Marsh", "no nuts", "shy")
    planner = signed_in(producer).get(address).content.decode()
    assert all(word in planner for word in private)
    reader = signed_in(bookkeeper)
    for text in (reader.get(address).content.decode(), reader.get(reverse("people")).content.decode()):
        assert not any(word in text for word in private)


def test_what_a_name_holds_is_shown_as_text(studio: Studio, browser: Browser) -> None:
    client = factories.make_client(studio, name="<script>alert(1)</script> & Sons")
    text = browser.get(reverse("client_detail", args=[client.pk])).content.decode()
    assert "<script>alert" not in text and "&lt;script&gt;alert" in text
