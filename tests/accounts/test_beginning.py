"""The first set-up: open until there is a studio of somebody's own."""

from __future__ import annotations

from datetime import date, datetime

import pytest
from django.test import Client
from django.urls import reverse

from shoots.accounts import actions
from shoots.members.core import Role
from shoots.members.models import Member, Studio, User
from shoots.outbox.models import Mail
from tests import factories

TYPED = {
    "studio_name": "Wray Pictures",
    "country": "IE",
    "time_zone": "Europe/Dublin",
    "owner_name": "Edda Wray",
    "email": "Edda@Example.com",
    "password": "seven wet stones in a row",
    "again": "seven wet stones in a row",
}


@pytest.mark.django_db
def test_a_fresh_program_leads_from_the_sign_in_to_the_set_up() -> None:
    response = Client().get(reverse("account_login"))
    assert response.status_code == 302
    assert response["Location"] == reverse("studio_begin")


@pytest.mark.django_db
def test_the_set_up_makes_a_studio_with_its_owner_and_signs_them_in() -> None:
    browser = Client()
    response = browser.post(reverse("studio_begin"), TYPED)
    assert response.status_code == 302
    studio = Studio.objects.get()
    assert (studio.name, studio.currency, studio.time_zone) == ("Wray Pictures", "EUR", "Europe/Dublin")
    member = Member.objects.get(studio=studio)
    assert (member.role, member.user.email, member.user.name) == (Role.OWNER, "edda@example.com", "Edda Wray")
    assert browser.get(reverse("studio_settings")).status_code == 200
    assert Mail.objects.get().recipient == "edda@example.com"


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"password": "short", "again": "short"}, "password"),
        ({"password": "passwordpassword", "again": "passwordpassworD"}, "again"),
        ({"password": "edda@example.com", "again": "edda@example.com"}, "password"),
        ({"email": "no address"}, "email"),
        ({"country": "XX"}, "country"),
        ({"time_zone": "Europe/Nowhere"}, "time_zone"),
        ({"studio_name": " "}, "studio_name"),
    ],
)
def test_what_is_wrong_is_said_by_its_field_and_nothing_is_made(change: dict[str, str], field: str) -> None:
    response = Client().post(reverse("studio_begin"), {**TYPED, **change})
    assert response.status_code == 422
    assert field in response.context["form"].errors
    assert "Edda Wray" in response.content.decode()
    assert not Studio.objects.exists() and not User.objects.exists()


def test_the_set_up_closes_once_there_is_a_studio(studio: Studio) -> None:
    response = Client().post(reverse("studio_begin"), TYPED)
    assert response["Location"] == reverse("account_login")
    assert Studio.objects.get() == studio


def test_beside_the_demo_one_may_begin(studio: Studio) -> None:
    Studio.objects.filter(pk=studio.pk).update(demo_anchor_date=date(2026, 5, 14))
    assert "Start yours" in Client().get(reverse("account_login")).content.decode()
    assert Client().post(reverse("studio_begin"), TYPED).status_code == 302
    assert Studio.objects.filter(demo_anchor_date=None).get().name == "Wray Pictures"


def test_an_address_that_signs_in_already_is_asked_to_sign_in_first(studio: Studio) -> None:
    Studio.objects.filter(pk=studio.pk).update(demo_anchor_date=date(2026, 5, 14))
    factories.make_user(email="edda@example.com")
    response = Client().post(reverse("studio_begin"), TYPED)
    assert response.status_code == 422
    assert "sign in first" in response.content.decode()


@pytest.mark.django_db
def test_somebody_who_is_signed_in_keeps_their_sign_in(signed_in) -> None:  # type: ignore[no-untyped-def]
    demo = factories.make_studio(demo_anchor_date=date(2026, 5, 14))
    member = factories.make_member(demo)
    browser = signed_in(member)
    typed = {name: TYPED[name] for name in ("studio_name", "country", "time_zone")}
    assert browser.post(reverse("studio_begin"), typed).status_code == 302
    own = Studio.objects.get(demo_anchor_date=None)
    assert Member.objects.get(studio=own).user == member.user


@pytest.mark.django_db
def test_of_two_beginnings_the_second_is_undone(now: datetime) -> None:
    fields = {"country": "GB", "time_zone": "Europe/London", "password": "seven wet stones in a row"}
    actions.begin_studio(studio_name="First", owner_name="A", email="a@example.com", **fields, now=now)
    with pytest.raises(actions.AlreadyBegun):
        actions.begin_studio(studio_name="Second", owner_name="B", email="b@example.com", **fields, now=now)
    assert [studio.name for studio in Studio.objects.all()] == ["First"]
    assert not User.objects.filter(email="b@example.com").exists()


@pytest.mark.django_db
def test_the_lock_is_the_mail_even_where_the_first_look_saw_nothing(now: datetime) -> None:
    """On PostgreSQL a parallel beginning is not seen; its mail, whose key is unique, is."""
    fields = {"country": "GB", "time_zone": "Europe/London", "password": "seven wet stones in a row"}
    first = actions.begin_studio(studio_name="First", owner_name="A", email="a@example.com", **fields, now=now)
    Studio.objects.filter(pk=first.studio_id).update(demo_anchor_date=now.date())  # hides it from the first look
    with pytest.raises(actions.AlreadyBegun):
        actions.begin_studio(studio_name="Second", owner_name="B", email="b@example.com", **fields, now=now)
    assert Studio.objects.count() == 1
