"""The demo scenario: loaded once, told by the program's own actions, set aside with one click."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from datetime import date
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from shoots.agreement.models import BriefVersion
from shoots.callsheet.models import CallSheet
from shoots.delivery.models import Delivery, Picture
from shoots.demo import scenario, stage
from shoots.desk.queries.deed_words import DEED_WORDS
from shoots.documents.models import IssuedDocument
from shoots.invoices.models import Invoice
from shoots.members.models import Member, Studio, User
from shoots.outbox.models import Mail, Message
from shoots.quotes.models import Quote
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot
from shoots.trail.models import Entry

ANCHOR = date(2026, 6, 10)


@pytest.fixture(scope="module")
def demo(django_db_setup: None, django_db_blocker, tmp_path_factory: pytest.TempPathFactory):  # type: ignore[no-untyped-def]
    """The scenario, loaded once for this file and taken away again afterwards."""
    from django.conf import settings
    from django.db import transaction

    with django_db_blocker.unblock(), transaction.atomic():
        settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
        yield scenario.load(anchor=ANCHOR)
        transaction.set_rollback(True)


def test_the_whole_job_is_there(demo: Studio) -> None:
    shoot = Shoot.objects.get(studio=demo, title="Packs for bad weather")
    assert Shot.objects.filter(shoot=shoot).count() == 12
    assert shoot.setups.count() == 4
    assert shoot.moods.count() == 2
    assert shoot.bookings.count() == 3
    assert list(Quote.objects.filter(shoot=shoot).order_by("revision").values_list("revision", flat=True)) == [1, 2, 3]
    assert Quote.objects.filter(shoot=shoot).accepted().get().revision == 3
    assert CallSheet.objects.filter(day__shoot=shoot).count() == 3
    assert Invoice.objects.issued().filter(shoot=shoot).count() == 1
    assert Picture.objects.filter(shoot=shoot).count() == 4
    assert Delivery.objects.get(shoot=shoot).fetches.count() == 1


def test_its_history_reads_as_sentences(demo: Studio) -> None:
    told = [
        (record.partition(":")[0], deed)
        for record, deed in Entry.objects.filter(studio=demo).exclude(shoot_code="").values_list("record", "deed")
    ]
    assert len(told) > 50
    # A deed of a new kind falls back to its bare name; a tenth of them may, for a while.
    assert sum(key not in DEED_WORDS for key in told) < len(told) / 10


def test_the_acceptance_stores_the_hash_of_the_pdf_that_was_sent(demo: Studio) -> None:
    quote = Quote.objects.accepted().get(shoot__title="Packs for bad weather")
    assert quote.document is not None
    assert quote.accepted_sha256 == quote.document.sha256 != ""


def test_the_brief_went_out_twice_and_the_second_version_was_approved_with_its_hash(demo: Studio) -> None:
    first, second = BriefVersion.objects.filter(shoot__title="Packs for bad weather").order_by("number")
    assert (first.replaced_at is not None, first.corrections.count()) == (True, 1)
    assert second.approved_by == "Mara Ellwick"
    assert second.approved_sha256 == second.document.sha256 != ""
    assert len(second.document.content["agreed"]["shots"]) == 11


def test_what_was_asked_for_after_the_approval_stands_on_the_brief_s_page_with_its_price(
    demo: Studio, signed_in: Callable[[Member], Client]
) -> None:
    browser = signed_in(Member.objects.get(studio=demo, role="OWNER"))
    shoot = Shoot.objects.get(title="Packs for bad weather")
    page = " ".join(browser.get(reverse("brief_detail", args=[shoot.code])).content.decode().split())
    assert "Changed since version 2 was approved" in page
    assert "finished pictures: 1 → 2" in page
    assert "One more shot: 12 " in page


def test_its_dates_count_from_the_anchor(demo: Studio) -> None:
    shoot = Shoot.objects.get(title="Packs for bad weather")
    days = shoot.days.filter(released_at=None).order_by("date")
    assert [(day.date - ANCHOR).days for day in days] == [-6, 3]


def test_a_second_load_changes_nothing(demo: Studio) -> None:
    before = [model.objects.count() for model in (Shoot, Shot, Quote, Invoice, Mail, Message, IssuedDocument, User)]
    assert scenario.load(anchor=date(2027, 1, 1)) == demo
    after = [model.objects.count() for model in (Shoot, Shot, Quote, Invoice, Mail, Message, IssuedDocument, User)]
    assert before == after


def test_the_command_says_how_to_sign_in(demo: Studio) -> None:
    said = StringIO()
    call_command("demo", stdout=said)
    assert "tamsin@example.com" in said.getvalue()


PAGES = (
    "shoot_detail",
    "brief_detail",
    "shot_list",
    "setup_list",
    "shoot_dates",
    "quote_list",
    "callsheet_list",
    "picture_list",
    "licence_list",
    "invoice_list",
    "call_of_shoot",
)


@pytest.mark.parametrize("role", ["OWNER", "PRODUCER", "CREW", "BOOKKEEPER"])
def test_every_page_of_the_demo_opens(demo: Studio, role: str, signed_in: Callable[[Member], Client]) -> None:
    member = Member.objects.get(studio=demo, role=role)
    browser = signed_in(member)
    shoot = Shoot.objects.get(title="Packs for bad weather")
    for name in ("home", "shoot_list"):
        assert browser.get(reverse(name)).status_code == 200
    for name in PAGES:
        answer = browser.get(reverse(name, args=[shoot.code]))
        assert answer.status_code in ({200, 403} if role == "CREW" else {200}), name
        if role == "CREW" and answer.status_code == 200:
            assert "£" not in answer.content.decode(), f"crew see a price on {name}"


def test_setting_it_aside_ends_its_sign_in_and_begins_a_studio(
    demo: Studio, signed_in: Callable[[Member], Client]
) -> None:
    owner = Member.objects.get(studio=demo, role="OWNER")
    browser = signed_in(owner)
    assert browser.get(reverse("demo_set_aside")).status_code == 200
    answer = browser.post(reverse("demo_set_aside"))
    assert answer["Location"] == reverse("studio_begin")
    assert browser.get(reverse("studio_begin")).status_code == 200
    assert scenario.login_words() == ""
    assert not User.objects.get(pk=owner.user_id).is_active


@pytest.mark.django_db
def test_it_refuses_where_smtp_is_configured(settings) -> None:  # type: ignore[no-untyped-def]
    settings.SMTP_URL = "smtp://localhost:2525"
    with pytest.raises(CommandError, match="unset SMTP_URL"):
        call_command("demo")
    assert not Studio.objects.exists()


@pytest.mark.django_db
def test_if_empty_leaves_a_real_studio_alone(studio: Studio) -> None:
    call_command("demo", "--if-empty", stdout=StringIO())
    assert Studio.objects.get() == studio


def test_the_scenario_names_only_inventions() -> None:
    """Ofcom keeps these ranges for drama; example.com is RFC 2606's."""
    text = (stage.FOLDER / "scenario.toml").read_text()
    for number in re.findall(r"\b0\d{3,4} \d{3} ?\d{3,4}\b|\b07700 \d{6}\b", text):
        assert re.match(r"07700 900\d{3}|0113 496 0\d{3}|0114 496 0\d{3}|020 7946 0\d{3}", number), number
    for address in re.findall(r"[\w.]+@[\w.]+", text):
        assert address.endswith("@example.com")
    assert tomllib.loads(text)["shots"]
