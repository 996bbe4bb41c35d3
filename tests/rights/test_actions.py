"""Licences: granted once, begun by delivery, valid by payment, their days as the standard cases count them."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from shoots.members.actions import EditedMeanwhile
from shoots.outbox.models import Mail, Message
from shoots.rights import actions
from shoots.rights.models import Licence, UsageFactors, UsageTerms
from shoots.rights.queries.terms import factors_of, frozen_terms
from shoots.shoot.models import Shoot
from shoots.trail.models import Entry
from tests import factories
from tests.quotes.factories import make_shoot_to_quote, make_terms, run_jobs

pytestmark = pytest.mark.django_db
NOW = factories.NOW
CASES = json.loads((Path(__file__).parents[1] / "data/licence_period.json").read_text())["cases"]


def grant(shoot: Shoot | None = None, *, number: str = "L-2026-001", **changes: Any) -> Licence:
    shoot = shoot or make_shoot_to_quote()
    terms = UsageTerms.objects.filter(shoot=shoot).first() or make_terms(shoot, **changes)
    return actions.grant_licence(
        shoot=shoot, terms=frozen_terms(terms), licensee={"name": "Fellside Packs"}, number=number, now=NOW
    )


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c['start']}+{c['months']}")
def test_the_last_day_follows_from_the_first_delivery(case: dict[str, Any]) -> None:
    """Source: tests/data/licence_period.json."""
    licence = grant(months=case["months"])
    start = date.fromisoformat(case["start"])
    assert actions.start_licences(shoot=licence.shoot, first_delivery_date=start, now=NOW) == 1
    licence.refresh_from_db()
    assert (licence.starts_date, licence.last_day) == (start, date.fromisoformat(case["last_day"]))


def test_a_fixed_start_has_its_days_from_the_grant_on_and_keeps_them() -> None:
    licence = grant(starts_date=date(2026, 3, 31), months=6)
    assert licence.last_day == date(2026, 9, 29)  # tests/data/licence_period.json
    assert actions.start_licences(shoot=licence.shoot, first_delivery_date=date(2026, 5, 1), now=NOW) == 0
    licence.refresh_from_db()
    assert licence.starts_date == date(2026, 3, 31)


def test_a_licence_for_good_begins_and_never_ends() -> None:
    licence = grant(months=None, for_good=True)
    actions.start_licences(shoot=licence.shoot, first_delivery_date=date(2026, 6, 20), now=NOW)
    licence.refresh_from_db()
    assert (licence.starts_date, licence.last_day) == (date(2026, 6, 20), None)


def test_only_the_first_delivery_and_the_first_payment_count() -> None:
    licence = grant()
    for days in (0, 5):
        later = NOW + timedelta(days=days)
        actions.start_licences(shoot=licence.shoot, first_delivery_date=later.date(), now=later)
        actions.fulfil_condition(shoot=licence.shoot, now=later)
    licence.refresh_from_db()
    assert (licence.starts_date, licence.fulfilled_at) == (NOW.date(), NOW)
    assert Entry.objects.filter(deed__in=["started", "fulfilled"]).count() == 2


def test_payment_fulfils_what_waits_for_it_and_nothing_else() -> None:
    shoot = make_shoot_to_quote()
    waiting = grant(shoot)
    elsewhere = grant(make_shoot_to_quote(shoot.studio), number="L-2026-002")
    assert actions.fulfil_condition(shoot=shoot, now=NOW) == 1
    waiting.refresh_from_db()
    elsewhere.refresh_from_db()
    assert (waiting.fulfilled_at, elsewhere.fulfilled_at) == (NOW, None)


def test_a_licence_without_that_condition_waits_for_no_payment() -> None:
    licence = grant(on_payment=False)
    assert actions.fulfil_condition(shoot=licence.shoot, now=NOW) == 0


@pytest.mark.parametrize("first", ["delivery", "payment"])
def test_the_paper_with_all_days_goes_out_once_both_have_happened(first: str) -> None:
    licence = grant()

    def deliver() -> None:
        actions.start_licences(shoot=licence.shoot, first_delivery_date=date(2026, 6, 20), now=NOW)

    def pay() -> None:
        actions.fulfil_condition(shoot=licence.shoot, now=NOW)

    one, other = (deliver, pay) if first == "delivery" else (pay, deliver)
    one()
    assert Message.objects.filter(task="rights.deliver").count() == 0
    other()
    run_jobs()
    licence.refresh_from_db()
    assert licence.document.number == "L-2026-001-2"
    assert licence.document.content["in_force"] is True
    mail = Mail.objects.get()
    assert mail.recipient == "mara@example.com"
    assert "from 20 June 2026 to 19 June 2028" in mail.text
    assert [a["name"] for a in mail.attachments] == ["licence-l-2026-001-2.pdf"]


def test_delivering_the_paper_twice_mails_once() -> None:
    licence = grant(on_payment=False)
    actions.start_licences(shoot=licence.shoot, first_delivery_date=date(2026, 6, 20), now=NOW)
    run_jobs()
    actions.deliver_licence(licence_id=licence.pk, now=NOW)
    assert Mail.objects.count() == 1


def test_a_number_is_granted_once() -> None:
    licence = grant()
    with pytest.raises(IntegrityError), transaction.atomic():
        grant(licence.shoot)
    assert Licence.objects.count() == 1


def test_a_granted_licence_keeps_its_terms_when_the_shoots_change() -> None:
    licence = grant(months=24)
    terms = UsageTerms.objects.get()
    actions.save_terms(
        shoot=licence.shoot,
        changes={"months": 1, "territories": ["FR"]},
        seen_version=terms.version,
        by=None,
        now=NOW,
    )
    licence.refresh_from_db()
    assert (licence.terms["months"], licence.terms["countries"]) == (24, ["GB", "IE"])


def test_ended_licences_neither_begin_nor_are_fulfilled() -> None:
    licence = grant()
    actions.end_licence(licence=licence, by=None, now=NOW)
    assert actions.start_licences(shoot=licence.shoot, first_delivery_date=NOW.date(), now=NOW) == 0
    assert actions.fulfil_condition(shoot=licence.shoot, now=NOW) == 0
    with pytest.raises(actions.AlreadyEnded):
        actions.end_licence(licence=licence, by=None, now=NOW)


def test_two_windows_cannot_both_settle_the_usage() -> None:
    terms = make_terms(make_shoot_to_quote())
    with pytest.raises(EditedMeanwhile):
        actions.save_terms(shoot=terms.shoot, changes={"months": 3}, seen_version=0, by=None, now=NOW)
    actions.save_terms(shoot=terms.shoot, changes={"months": 6}, seen_version=1, by=None, now=NOW)
    with pytest.raises(EditedMeanwhile):
        actions.save_terms(shoot=terms.shoot, changes={"months": 9}, seen_version=1, by=None, now=NOW)
    terms.refresh_from_db()
    assert terms.months == 6


def test_a_studios_own_factors_take_the_place_of_the_starting_values() -> None:
    studio, other = factories.make_studio(), factories.make_studio(name="Another studio")
    actions.save_factors(studio=studio, table={"media": {"EMAIL": "0.9"}}, seen_version=0, by=None, now=NOW)
    assert str(factors_of(studio)[0].media["EMAIL"]) == "0.9"  # type: ignore[index]
    assert str(factors_of(other)[0].media["EMAIL"]) == "0.15"  # type: ignore[index]
    with pytest.raises(EditedMeanwhile):
        actions.save_factors(studio=studio, table={}, seen_version=0, by=None, now=NOW)
    assert UsageFactors.objects.count() == 1
