"""The pages of usage and licences: bad input keeps what was typed, roles, the question, the overview."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from shoots.members.models import Member
from shoots.rights import actions
from shoots.rights.models import Licence, UsageFactors, UsageTerms
from shoots.rights.queries.licences import licences_page
from shoots.rights.queries.terms import frozen_terms
from shoots.shoot.models import Shoot
from tests import factories
from tests.quotes.factories import make_shoot_to_quote, make_terms

pytestmark = pytest.mark.django_db
SignIn = Callable[[Member], Client]

TYPED = {
    "media": ["OWN_WEBSITE", "PACKAGING"],
    "territories": "UK and Ireland, Germany",
    "months": "24",
    "exclusivity": "NONE",
    "on_payment": "on",
    "may_alter": "on",
    "credit_line": "Photo: Halden",
    "version": "0",
}


@pytest.fixture
def shoot(owner: Member) -> Shoot:
    return make_shoot_to_quote(owner.studio)


def grant(shoot: Shoot, *, number: str = "L-2026-001", starts: date | None = None, **changes: Any) -> Licence:
    terms = UsageTerms.objects.filter(shoot=shoot).first() or make_terms(shoot, starts_date=starts, **changes)
    licensee = {"name": "Fellside Packs Ltd", "trading_name": "Fellside Packs"}
    return actions.grant_licence(
        shoot=shoot, terms=frozen_terms(terms), licensee=licensee, number=number, now=timezone.now()
    )


def test_usage_is_typed_in_words_and_kept_in_codes(browser: Client, shoot: Shoot) -> None:
    address = reverse("usage_edit", args=[shoot.code])
    assert browser.get(address).status_code == 200
    assert browser.post(address, TYPED).status_code == 302
    terms = UsageTerms.objects.get()
    assert (terms.media, terms.territories) == (["OWN_WEBSITE", "PACKAGING"], ["UK_IRELAND", "DE"])
    assert (terms.months, terms.credit_line, terms.may_train_ai) == (24, "Photo: Halden", False)
    page = browser.get(address).content.decode()
    assert "UK and Ireland, Germany" in page, "what was stored comes back as words that can be read again"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"territories": "Atlantis"}, "no country or group"),
        ({"territories": "not Germany"}, "only what is in it can be left out"),
        ({"territories": ""}, "Name a country"),
        ({"media": []}, "Choose at least one"),
        ({"months": ""}, "For how many months"),
        ({"months": "0"}, "For how many months"),
        ({"for_good": "on"}, "not both"),
        ({"exclusive_months": "6"}, "Nothing is exclusive"),
        ({"exclusivity": "FULL", "exclusive_months": "36"}, "Not longer than the licence"),
        ({"picture_count": "0"}, "At least one picture"),
        ({"starts_date": "31/31/2026"}, "valid date"),
    ],
)
def test_usage_that_cannot_be_meant_is_refused_by_its_field(
    browser: Client, shoot: Shoot, changes: dict[str, Any], said: str
) -> None:
    response = browser.post(reverse("usage_edit", args=[shoot.code]), {**TYPED, **changes})
    page = response.content.decode()
    assert response.status_code == 422
    assert said in page
    assert "Photo: Halden" in page
    assert UsageTerms.objects.count() == 0


def test_the_second_window_is_told_and_loses_nothing(browser: Client, shoot: Shoot) -> None:
    address = reverse("usage_edit", args=[shoot.code])
    browser.post(address, TYPED)
    response = browser.post(address, {**TYPED, "credit_line": "Typed in the second window"})
    assert response.status_code == 422
    assert "in the meantime" in response.content.decode()
    assert "Typed in the second window" in response.content.decode()
    assert UsageTerms.objects.get().credit_line == "Photo: Halden"


def test_saving_leads_back_to_our_own_pages_only(browser: Client, shoot: Shoot) -> None:
    address = reverse("usage_edit", args=[shoot.code])
    assert browser.post(address, {**TYPED, "next": "/rates/"})["Location"] == "/rates/"
    for foreign in ("https://elsewhere.example.com/", "//elsewhere.example.com/", "javascript:alert(1)"):
        response = browser.post(address, {**TYPED, "version": "1", "next": foreign})
        assert "elsewhere" not in response.get("Location", "")
        UsageTerms.objects.update(version=1)


def test_factors_become_the_studios_own(browser: Client, owner: Member) -> None:
    address = reverse("factor_list")
    page = browser.get(address)
    assert "no market rates" in page.content.decode()
    form = page.context["form"]
    typed = {name: str(field.initial) for name, field in form.fields.items() if name != "version"}
    assert browser.post(address, {**typed, "version": "0", "media-EMAIL": "0.33"}).status_code == 302
    assert UsageFactors.objects.get().table["media"]["EMAIL"] == "0.33"
    wrong = browser.post(address, {**typed, "version": "1", "media-EMAIL": "-1", "perpetual": "7.77"})
    assert wrong.status_code == 422
    assert 'value="7.77"' in wrong.content.decode()
    assert UsageFactors.objects.get().table["media"]["EMAIL"] == "0.33"


def test_a_shoot_without_licence_says_what_comes_first(browser: Client, shoot: Shoot) -> None:
    page = browser.get(reverse("licence_list", args=[shoot.code])).content.decode()
    assert "No licence yet" in page
    assert reverse("quote_list", args=[shoot.code]) in page


@pytest.mark.parametrize(
    ("asked", "verdict", "why"),
    [
        ({"medium": "OWN_WEBSITE", "country": "Ireland", "on": "2026-08-01"}, "Not yet", "once the invoice is paid"),
        ({"medium": "BROADCAST", "country": "UK", "on": "2026-08-01"}, "No", "kind of use is not in the licence"),
        ({"medium": "OWN_WEBSITE", "country": "France", "on": "2026-08-01"}, "No", "country is not in the licence"),
        ({"medium": "OWN_WEBSITE", "country": "UK", "on": "2028-06-01"}, "No", "has ended"),
        ({"medium": "OWN_WEBSITE", "country": "UK", "on": "2026-05-01"}, "Not yet", "has not started"),
    ],
)
def test_the_question_is_answered_with_its_reason(
    browser: Client, shoot: Shoot, asked: dict[str, str], verdict: str, why: str
) -> None:
    grant(shoot, starts=date(2026, 6, 1), months=24)
    page = browser.get(reverse("licence_list", args=[shoot.code]), {**asked, "by": "licensee"}).content.decode()
    assert f'verdict-word">{verdict}<' in page
    assert why in page
    assert "L-2026-001" in page


def test_once_paid_the_answer_is_yes_and_names_the_last_day(browser: Client, shoot: Shoot) -> None:
    """Source of the last day: tests/data/licence_period.json counts 24 months from 2026-12-15 to 2028-12-14."""
    grant(shoot, starts=date(2026, 12, 15), months=24, on_payment=False, credit_line="Photo: Halden")
    asked = {"medium": "PAID_SOCIAL", "country": "Ireland", "on": "2028-12-14", "by": "licensee"}
    page = browser.get(reverse("licence_list", args=[shoot.code]), asked).content.decode()
    assert 'verdict-word">Yes<' in page
    assert "Thu 14 December 2028" in page
    assert "Credit: Photo: Halden" in page
    other = browser.get(reverse("licence_list", args=[shoot.code]), {**asked, "by": "other"}).content.decode()
    assert 'verdict-word">No<' in other


def test_a_question_that_cannot_be_read_is_told_by_its_field(browser: Client, shoot: Shoot) -> None:
    grant(shoot, starts=date(2026, 6, 1))
    asked = {"medium": "OWN_WEBSITE", "country": "Atlantis", "on": "2026-08-01", "by": "licensee"}
    page = browser.get(reverse("licence_list", args=[shoot.code]), asked).content.decode()
    assert "no country or group" in page
    assert "verdict-word" not in page


def test_the_overview_sorts_by_what_needs_something(owner: Member) -> None:
    now = timezone.now()
    today = timezone.localdate(now)
    made: dict[str, Licence] = {}
    for n, (name, fields) in enumerate(
        {
            "runs": {"starts_date": today - timedelta(days=30), "last_day": today + timedelta(days=400)},
            "ends": {"starts_date": today - timedelta(days=300), "last_day": today + timedelta(days=60)},
            "over": {"starts_date": today - timedelta(days=300), "last_day": today - timedelta(days=1)},
            "unpaid": {"starts_date": today - timedelta(days=3), "last_day": today + timedelta(days=362)},
            "undelivered": {"starts_date": None, "last_day": None},
        }.items()
    ):
        licence = grant(make_shoot_to_quote(owner.studio), number=f"L-{n}")
        paid = None if name == "unpaid" else now
        Licence.objects.filter(pk=licence.pk).update(**fields, fulfilled_at=paid)
        made[name] = licence
    grant(make_shoot_to_quote(factories.make_studio(name="Another studio")), number="L-9")
    page = licences_page(owner.studio, now=now)
    assert [row.licence for row in page.running] == [made["runs"]]
    assert [row.licence for row in page.ending] == [made["ends"]]
    assert [row.licence for row in page.over] == [made["over"]]
    assert {row.licence for row in page.waiting} == {made["unpaid"], made["undelivered"]}
    assert page.strip is not None
    for row in (*page.running, *page.ending, *page.over):
        assert row.bar_left is not None and row.bar_width is not None
        assert 0 <= row.bar_left <= row.bar_left + row.bar_width <= 100.01


def test_the_last_day_is_still_a_day_of_the_licence(owner: Member) -> None:
    now = timezone.now()
    today = timezone.localdate(now)
    licence = grant(make_shoot_to_quote(owner.studio))
    Licence.objects.filter(pk=licence.pk).update(
        starts_date=today - timedelta(days=30), last_day=today, fulfilled_at=now
    )
    (row,) = licences_page(owner.studio, now=now).ending
    assert "0 days left" in row.sentence


def test_ending_early_is_noted_once(browser: Client, shoot: Shoot) -> None:
    licence = grant(shoot)
    for _ in range(2):
        assert browser.post(reverse("licence_end", args=[shoot.code, licence.pk])).status_code == 302
    licence.refresh_from_db()
    assert licence.ended_at is not None


def test_crew_see_no_licence_and_a_bookkeeper_changes_none(
    shoot: Shoot, crew: Member, bookkeeper: Member, signed_in: SignIn
) -> None:
    licence = grant(shoot)
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    for name, arguments in (("licence_list", [shoot.code]), ("licences", []), ("usage_edit", [shoot.code])):
        assert signed_in(crew).get(reverse(name, args=arguments)).status_code == 403, name
    books = signed_in(bookkeeper)
    assert books.get(reverse("licence_list", args=[shoot.code])).status_code == 200
    assert books.get(reverse("usage_edit", args=[shoot.code])).status_code == 403
    assert books.post(reverse("licence_end", args=[shoot.code, licence.pk])).status_code == 403


def test_another_studios_licence_is_not_there(shoot: Shoot, other_studio: Any, signed_in: SignIn) -> None:
    grant(shoot)
    browser = signed_in(factories.make_member(other_studio))
    assert browser.get(reverse("licence_list", args=[shoot.code])).status_code == 404
    assert "Fellside" not in browser.get(reverse("licences")).content.decode()


def test_the_overview_needs_the_same_number_of_queries_for_two_and_twelve(browser: Client, owner: Member) -> None:
    counts = []
    for many in (2, 12):
        for _ in range(many):
            grant(make_shoot_to_quote(owner.studio), number=f"L-{Licence.objects.count()}")
        with CaptureQueriesContext(connection) as queries:
            assert browser.get(reverse("licences")).status_code == 200
        counts.append(len(queries))
    assert counts[0] == counts[1]
