"""The shoots on the pages of clients and of people who are booked."""

from __future__ import annotations

from datetime import timedelta

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from shoots.members.models import Member, Studio
from shoots.shoot.models import BookingKind
from tests import factories


def test_a_client_has_the_shoots_they_order_or_pay(browser: Client, studio: Studio, other_studio: Studio) -> None:
    agency, brand = factories.make_client(studio, name="Agency"), factories.make_client(studio, name="Brand")
    ordered = factories.make_shoot(studio, code="26-001", title="Ordered", client=agency)
    factories.make_shoot(studio, code="26-002", title="Paid for", client=brand, billed_to=agency)
    factories.make_shoot(studio, code="26-003", title="Somebody else's", client=brand)
    factories.make_shoot(other_studio, code="26-004", title="Another studio's")
    factories.make_day(ordered, date=timezone.localdate() + timedelta(days=9))
    page = browser.get(f"/people/clients/{agency.pk}/").content.decode()
    assert "Ordered" in page
    assert "Paid for" in page
    assert "Somebody else" not in page
    assert "Another studio" not in page


def test_somebody_has_the_shoots_they_are_held_for(browser: Client, studio: Studio) -> None:
    person = factories.make_person(studio)
    page = f"/people/{person.pk}/"
    assert "Held for none" in browser.get(page).content.decode()
    booking = factories.make_booking(factories.make_shoot(studio, title="Held"), kind=BookingKind.CREW, person=person)
    assert "Held</a>" in browser.get(page).content.decode()
    type(booking).objects.update(released_at=timezone.now())
    assert "Held for none" in browser.get(page).content.decode()


def test_the_number_of_queries_does_not_grow_with_the_shoots(browser: Client, owner: Member) -> None:
    client = factories.make_client(owner.studio)
    counts = []
    for n in range(6):
        factories.make_day(factories.make_shoot(owner.studio, code=f"26-01{n}", client=client))
        with CaptureQueriesContext(connection) as queries:
            browser.get(f"/people/clients/{client.pk}/")
        counts.append(len(queries))
    assert counts[1] == counts[-1]
