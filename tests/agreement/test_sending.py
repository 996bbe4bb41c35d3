"""Sending a brief: frozen at once, rendered and hashed by a job, mailed only then; older versions replaced."""

from __future__ import annotations

import hashlib
import io
from datetime import timedelta

import pdfplumber
import pytest
from django.core.files.storage import default_storage
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.agreement.actions import answers, sending
from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.paper import agreed_now, agreed_of, print_of
from shoots.brief.models import Brief
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.outbox.adapters import with_links
from shoots.outbox.models import Mail, Message
from shoots.shoot import actions as shoots
from shoots.shotlist.models import Shot
from shoots.trail.models import Entry
from tests import factories
from tests.agreement.factories import make_sent, make_shoot, reload, send
from tests.quotes.factories import run_jobs

pytestmark = pytest.mark.django_db
NOW = factories.NOW


def pdf_text(version: BriefVersion) -> str:
    with default_storage.open(version.document.storage_key) as file, pdfplumber.open(io.BytesIO(file.read())) as pdf:
        return "\n".join(page.extract_text() for page in pdf.pages)


def test_what_is_sent_is_frozen_whatever_happens_to_its_rows() -> None:
    shoot = make_shoot()
    version = send(shoot)
    Brief.objects.filter(shoot=shoot).update(purpose="Something else", usage_months=24)
    Shot.objects.filter(shoot=shoot).delete()
    frozen = agreed_of(reload(version))
    assert (frozen.purpose, frozen.usage_months) == ("A pack for bad weather", 12)
    assert [(shot.number, shot.title, shot.minutes) for shot in frozen.shots] == [(1, "Rim", 30), (2, "Slab", 20)]


def test_the_hash_that_is_stored_is_the_hash_of_the_file() -> None:
    version = make_sent()
    with default_storage.open(version.document.storage_key) as file:
        assert hashlib.sha256(file.read()).hexdigest() == version.document.sha256 != ""


def test_the_pdf_says_what_the_client_has_to_read_and_nothing_that_is_the_studio_s_own() -> None:
    shoot = make_shoot(
        audience="Runners in any weather",
        products="Ridge 18",
        must_haves="Rain on the fabric",
        must_nots="No logo of the shoe maker",
        approvers="Mara Quill",
        budget=4321,
        shapes=["4:5"],
    )
    text = pdf_text(make_sent(shoot))
    for words in (
        "A pack for bad weather",
        "Runners in any weather",
        "Own website",
        "UK and Ireland",
        "1 year",
        "Ridge 18",
        "Rain on the fabric",
        "No logo of the shoe maker",
        "Mara Quill",
        "Storm coming",
        "2 pictures planned",
        "1. Rim",
        "2. Slab",
    ):
        assert words in text
    assert "4,321" not in text
    assert "min" not in text.split()


def test_the_mail_goes_out_after_the_pdf_and_holds_no_token() -> None:
    version = send(make_shoot())
    assert Mail.objects.count() == 0
    run_jobs()
    mail = Mail.objects.get()
    assert (mail.recipient, mail.recipient_name) == ("mara@example.com", "Mara Quill")
    assert "{{token:" in mail.text
    assert "/brief/" in with_links(mail.text)
    assert reload(version).document.is_rendered


def test_without_an_address_no_mail_goes_out() -> None:
    make_sent(email="")
    assert Mail.objects.count() == 0


def test_the_second_version_says_in_its_paper_and_mail_what_is_different() -> None:
    shoot = make_shoot()
    make_sent(shoot)
    factories.make_shot(shoot, title="Sluice", position=9)
    Brief.objects.filter(shoot=shoot).update(usage_months=24)
    second = make_sent(shoot)
    text = pdf_text(second)
    assert "Different from version 1" in text
    assert "One more shot: 3 “Sluice”." in text
    assert "Licence term asked for: 1 year → 2 years." in text
    assert "One more shot: 3 “Sluice”." in Mail.objects.latest("pk").text


def test_minutes_are_the_studio_s_own_and_no_difference_for_the_client() -> None:
    shoot = make_shoot()
    make_sent(shoot)
    Shot.objects.filter(shoot=shoot).update(minutes=99)
    Shot.objects.filter(shoot=shoot, title="Rim").update(finals=2)
    lines = make_sent(shoot).document.content["since"]["lines"]
    assert [line["sentence"] for line in lines] == ["Shot 1 “Rim”: finished pictures: 1 → 2."]


def test_a_newer_version_replaces_one_that_nobody_approved_and_no_other() -> None:
    shoot = make_shoot()
    first = make_sent(shoot)
    second = make_sent(shoot)
    answers.approve_brief(version=second, name="Mara Quill", now=NOW)
    third = make_sent(shoot)
    ends = {version.number: (version.replaced_at, version.approved_at) for version in BriefVersion.objects.all()}
    assert ends == {1: (NOW, None), 2: (None, NOW), 3: (None, None)}
    assert (first.number, second.number, third.number) == (1, 2, 3)


def test_a_double_click_sends_once() -> None:
    shoot = make_shoot()
    send(shoot, seen_number=0)
    with pytest.raises(sending.BriefAlreadySent):
        send(shoot, seen_number=0)
    assert BriefVersion.objects.get().replaced_at is None
    assert Message.objects.filter(task="agreement.deliver").count() == 1


def test_what_was_changed_since_it_was_looked_at_is_not_sent() -> None:
    shoot = make_shoot()
    seen = print_of(agreed_now(shoot))
    Shot.objects.filter(shoot=shoot, title="Rim").update(finals=4)
    with pytest.raises(EditedMeanwhile):
        sending.send_brief(shoot=shoot, email="", seen_number=0, seen_print=seen, by=None, now=NOW)
    assert (BriefVersion.objects.count(), Message.objects.count()) == (0, 0)


def test_the_fingerprint_covers_the_studio_s_own_numbers_too() -> None:
    """All that is frozen was seen: minutes and setups too, which no client reads."""
    shoot = make_shoot()
    seen = print_of(agreed_now(shoot))
    Shot.objects.filter(shoot=shoot, title="Rim").update(minutes=45)
    assert print_of(agreed_now(shoot)) != seen


@pytest.mark.parametrize(
    ("spoil", "said"), [("purpose", "are to sell"), ("shots", "no picture on the shot list"), ("client", "no client")]
)
def test_an_unfinished_brief_is_not_sent_and_says_why(spoil: str, said: str) -> None:
    shoot = make_shoot(**({"purpose": " "} if spoil == "purpose" else {}))
    if spoil == "shots":
        Shot.objects.all().delete()
    if spoil == "client":
        shoot.client = None
        shoot.save()
    with pytest.raises(sending.BriefIncomplete, match=said):
        send(shoot)
    assert (BriefVersion.objects.count(), Message.objects.count()) == (0, 0)


def test_a_refused_sending_does_not_replace_the_version_that_is_out() -> None:
    shoot = make_shoot()
    first = make_sent(shoot)
    Shot.objects.all().delete()
    with pytest.raises(sending.BriefIncomplete):
        send(shoot)
    assert reload(first).replaced_at is None


def test_withdrawing_ends_an_open_version_and_only_closes_the_link_of_an_approved_one(owner: Member) -> None:
    shoot = make_shoot(owner.studio)
    first = make_sent(shoot)
    assert sending.withdraw_brief(version=first, by=owner, now=NOW)
    assert not sending.withdraw_brief(version=reload(first), by=owner, now=NOW)
    assert reload(first).link.revoked_at == NOW
    second = make_sent(shoot)
    answers.approve_brief(version=second, name="Mara Quill", now=NOW)
    assert not sending.withdraw_brief(version=reload(second), by=owner, now=NOW)
    after = reload(second)
    assert (after.withdrawn_at, after.link.revoked_at) == (None, NOW)
    assert list(Entry.objects.filter(actor=owner.user).values_list("deed", flat=True)) == ["withdrawn", "link closed"]


def test_a_job_whose_version_was_withdrawn_sends_no_mail() -> None:
    version = send(make_shoot())
    sending.withdraw_brief(version=version, by=None, now=NOW)
    run_jobs()
    assert Mail.objects.count() == 0


def test_the_link_ends_after_a_year() -> None:
    version = make_sent()
    assert version.link.expires_at == NOW + timedelta(days=365)


def test_a_code_that_another_shoot_had_before_gets_a_letter() -> None:
    first = make_shoot()
    label = send(first).document.number
    first.code, code = "26-999", first.code
    first.save()
    second = make_shoot(first.studio)
    second.code = code
    second.save()
    assert label == f"{code}-1"
    assert send(second).document.number == f"{code}b-1"


def test_a_shoot_whose_brief_was_sent_is_not_deleted(owner: Member) -> None:
    shoot = make_shoot(owner.studio)
    make_sent(shoot)
    with pytest.raises(shoots.SomethingIssued):
        shoots.delete_shoot(shoot=shoot, by=owner, now=NOW)
    assert BriefVersion.objects.count() == 1


def test_five_hundred_shots_are_frozen_with_the_queries_of_two(django_assert_num_queries) -> None:  # type: ignore[no-untyped-def]
    few, many = make_shoot(), make_shoot()
    Shot.objects.bulk_create(
        Shot(studio=many.studio, shoot=many, title=f"Shot {n}", shapes=["4:5"], position=n) for n in range(2, 500)
    )
    with CaptureQueriesContext(connection) as caught:
        send(few)
    with django_assert_num_queries(len(caught)):
        version = send(many)
    assert len(version.document.content["agreed"]["shots"]) == 500
