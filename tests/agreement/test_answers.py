"""The client's answer to a brief: a yes with the hash of what was sent, or what isn't right."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction

from shoots.agreement.actions import answers, sending
from shoots.agreement.models import BriefVersion, Correction
from shoots.members.models import Member
from shoots.outbox.models import Mail
from shoots.trail.models import Entry
from tests import factories
from tests.agreement.factories import make_sent, make_shoot, reload, send
from tests.quotes.factories import run_jobs

pytestmark = pytest.mark.django_db
NOW = factories.NOW
LATER = NOW + timedelta(hours=3)


def test_the_yes_stores_the_hash_of_the_pdf_that_was_sent_and_who_said_it() -> None:
    version = make_sent()
    answers.approve_brief(version=version, name="Mara Quill", address="192.0.2.14", now=LATER)
    after = reload(version)
    assert after.approved_sha256 == version.document.sha256 != ""
    assert (after.approved_by, after.approved_from, after.approved_at) == ("Mara Quill", "192.0.2.14", LATER)
    assert after.approval_document.content["sha256"] == version.document.sha256
    entry = Entry.objects.get(deed="approved")
    assert (entry.actor_name, entry.changes["sha256"][1]) == ("Mara Quill", version.document.sha256)


def test_a_second_yes_is_refused_and_the_first_name_stays() -> None:
    version = make_sent()
    answers.approve_brief(version=version, name="Mara Quill", now=NOW)
    with pytest.raises(answers.BriefNoLongerOpen):
        answers.approve_brief(version=version, name="Somebody Else", now=LATER)
    assert reload(version).approved_by == "Mara Quill"
    assert Entry.objects.filter(deed="approved").count() == 1


def test_before_the_pdf_is_made_nothing_is_approved() -> None:
    version = send(make_shoot())
    with pytest.raises(answers.BriefNotReady):
        answers.approve_brief(version=version, name="Mara Quill", now=NOW)
    after = reload(version)
    assert (after.approved_at, after.approval_document) == (None, None)


@pytest.mark.parametrize("end", ["replaced", "withdrawn"])
def test_a_version_that_counts_no_more_takes_no_answer(end: str) -> None:
    shoot = make_shoot()
    version = make_sent(shoot)
    if end == "replaced":
        make_sent(shoot)
    else:
        sending.withdraw_brief(version=version, by=None, now=NOW)
    for answer in (
        lambda: answers.approve_brief(version=version, name="Mara Quill", now=LATER),
        lambda: answers.correct_brief(version=version, name="Mara Quill", words="Bigger", now=LATER),
    ):
        with pytest.raises(answers.BriefNoLongerOpen):
            answer()
    assert (reload(version).approved_at, Correction.objects.count()) == (None, 0)


def test_client_and_studio_get_the_approval_by_mail_once() -> None:
    version = make_sent()
    answers.approve_brief(version=version, name="Mara Quill", now=NOW)
    run_jobs()
    answers.confirm_approval(version_id=version.pk, now=LATER)
    mails = Mail.objects.filter(subject__startswith="Approved")
    assert sorted(mails.values_list("recipient", flat=True)) == ["mara@example.com", "studio@example.com"]
    assert all(mail.attachments[0]["name"].startswith("approval-") for mail in mails)
    assert version.document.sha256 in mails.get(recipient="studio@example.com").text


def test_what_isn_t_right_reaches_the_studio_by_mail_and_the_version_can_still_be_approved() -> None:
    version = make_sent()
    assert answers.correct_brief(version=version, name="Mara Quill", words="No dogs, please", now=LATER)
    mail = Mail.objects.get(subject__startswith="Not right yet")
    assert (mail.recipient, "No dogs, please" in mail.text) == ("studio@example.com", True)
    answers.approve_brief(version=version, name="Mara Quill", now=LATER)
    assert reload(version).is_approved


def test_a_double_click_says_it_once_and_another_word_is_another_correction() -> None:
    version = make_sent()
    assert answers.correct_brief(version=version, name="Mara", words="No dogs,  please", now=NOW)
    assert not answers.correct_brief(version=version, name="Mara", words="No dogs, please ", now=LATER)
    assert answers.correct_brief(version=version, name="Mara", words="And no cats", now=LATER)
    assert Correction.objects.count() == 2
    assert Mail.objects.filter(subject__startswith="Not right yet").count() == 2


def test_a_line_break_typed_as_a_name_adds_no_mail_header() -> None:
    version = make_sent()
    answers.correct_brief(version=version, name="Mara\nBcc: all@example.com", words="x", now=NOW)
    assert "\n" not in Mail.objects.get(subject__startswith="Not right").subject


def test_the_studio_writes_a_yes_down_with_person_moment_and_evidence(owner: Member) -> None:
    version = make_sent(make_shoot(owner.studio))
    said = NOW + timedelta(hours=1)
    answers.record_approval(
        version=version, name="Mara Quill", said_at=said, evidence="“All good!” by mail", by=owner, now=LATER
    )
    after = reload(version)
    assert (after.approved_at, after.approval_evidence) == (said, "“All good!” by mail")
    assert after.approved_sha256 == version.document.sha256
    content = after.approval_document.content
    assert (content["recorded_by"], content["evidence"]) == (str(owner), "“All good!” by mail")
    assert Entry.objects.get(deed="approved").actor == owner.user


@pytest.mark.parametrize("said_at", [NOW - timedelta(minutes=1), LATER + timedelta(minutes=1)])
def test_an_answer_before_the_sending_or_in_the_future_is_refused(owner: Member, said_at: object) -> None:
    version = make_sent(make_shoot(owner.studio))
    with pytest.raises(answers.AnswerNotPossible):
        answers.record_approval(
            version=version,
            name="Mara",
            said_at=said_at,
            evidence="mail",
            by=owner,
            now=LATER,  # type: ignore[arg-type]
        )
    with pytest.raises(answers.AnswerNotPossible):
        answers.record_correction(
            version=version,
            name="Mara",
            said_at=said_at,
            words="mail",
            by=owner,
            now=LATER,  # type: ignore[arg-type]
        )
    assert (reload(version).approved_at, Correction.objects.count()) == (None, 0)


def test_a_correction_that_the_studio_writes_down_names_who_did_and_mails_nobody(owner: Member) -> None:
    version = make_sent(make_shoot(owner.studio))
    before = Mail.objects.count()
    answers.record_correction(version=version, name="Mara", said_at=LATER, words="No dogs", by=owner, now=LATER)
    assert Correction.objects.get().recorded_by == str(owner)
    assert Mail.objects.count() == before


def test_the_database_itself_allows_no_version_that_is_both_approved_and_replaced() -> None:
    version = make_sent()
    with pytest.raises(IntegrityError), transaction.atomic():
        BriefVersion.objects.filter(pk=version.pk).update(approved_at=NOW, replaced_at=NOW)
