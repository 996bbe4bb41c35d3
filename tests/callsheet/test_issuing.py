"""Issuing a sheet, once however often it is clicked; delivering copies, also when something is gone."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import date, time, timedelta
from typing import Any

import pytest
from django.db import connections

from shoots.callsheet import actions
from shoots.callsheet.models import CallSheet, SheetCopy, SheetKind
from shoots.callsheet.queries.sheet import SheetNotes
from shoots.documents import adapters
from shoots.documents.models import IssuedDocument
from shoots.links.models import ClientLink
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail, Message
from shoots.schedule import actions as schedule
from shoots.shoot import actions as shoots
from shoots.shoot.models import Booking, ShootDay
from shoots.trail.models import Entry
from tests.factories import NOW
from tests.schedule.factories import Job, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(studio: Studio) -> Job:
    job = make_job(studio)
    schedule.draft_plan(day=job.day, by=None, now=NOW)
    return job


def issued(job: Job, kind: SheetKind = SheetKind.ADVANCE, **given: Any) -> CallSheet:
    return actions.issue_sheet(day=ShootDay.objects.get(pk=job.day.pk), kind=kind, by=None, now=NOW, **given)


def test_a_sheet_and_everybodys_copy_are_frozen_together(job: Job, owner: Member) -> None:
    sheet = actions.issue_sheet(day=job.day, kind=SheetKind.ADVANCE, by=owner, now=NOW)
    assert [copy.name for copy in sheet.copies.all()] == ["Bea Tolland", "Leo Strand", "Rhona Vell"]
    assert len({copy.link_id for copy in sheet.copies.all()}) == 3
    assert sheet.document.content["person"] is None
    assert Entry.objects.filter(deed="callsheet_issued", shoot_code=job.shoot.code).count() == 1


def test_what_was_issued_stays_as_it_was_whatever_is_edited_later(job: Job) -> None:
    sheet = issued(job)
    ShootDay.objects.filter(pk=job.day.pk).update(call_time=time(7))
    job.place.name = "Another quarry"
    job.place.save()
    content = IssuedDocument.objects.get(pk=sheet.document_id).content
    assert content["day"]["call"] == "10:00" and content["places"][0]["name"] == "Quarry rim"


def test_a_second_click_on_issue_is_refused_and_issues_nothing(job: Job) -> None:
    issued(job, seen_revision=0)
    with pytest.raises(actions.AlreadyIssued):
        issued(job, seen_revision=0)
    assert CallSheet.objects.count() == 1 and SheetCopy.objects.count() == 3


def test_a_correction_is_the_next_revision_and_tells_each_reader_what_changed_for_them(job: Job) -> None:
    issued(job)
    Booking.objects.filter(pk=job.leo.pk).update(call_time=time(11), bring="Gloves")
    second = issued(job, SheetKind.FINAL, seen_revision=1, what_changed="Later for Leo")
    copies = {copy.name: copy.document.content for copy in second.copies.all()}
    assert second.revision == 2 and second.what_changed.startswith("Later for Leo; ")
    assert copies["Leo Strand"]["changes"][:2] == [
        "Your call: 10:00 is now 11:00",
        "What you bring: now Gloves",
    ]
    assert copies["Rhona Vell"]["changes"] == ["Calls of others: Leo Strand 11:00"]
    assert "Gloves" not in str(copies["Rhona Vell"])


def test_notes_of_the_last_sheet_stand_again_unless_others_are_given(job: Job) -> None:
    issued(job, notes=SheetNotes("At six", "Soup", "Boots"))
    assert issued(job).document.content["weather_rule"] == "At six"
    assert issued(job, notes=SheetNotes()).document.content["weather_rule"] == ""


def test_a_final_sheet_without_call_or_place_is_refused_and_an_advance_one_is_not(job: Job) -> None:
    ShootDay.objects.filter(pk=job.day.pk).update(call_time=None, place=None)
    with pytest.raises(actions.NotReady) as refused:
        issued(job, SheetKind.FINAL)
    assert refused.value.codes == ("CALL", "PLACE") and not CallSheet.objects.exists()
    assert issued(job).revision == 1


@pytest.mark.parametrize("gone", ["released_at", "wrapped_at"])
def test_a_day_that_is_given_back_or_wrapped_calls_nobody(job: Job, gone: str) -> None:
    ShootDay.objects.filter(pk=job.day.pk).update(**{gone: NOW})
    with pytest.raises(actions.DayGone):
        issued(job)
    assert not CallSheet.objects.exists() and not ClientLink.objects.exists()


def test_the_client_gets_a_copy_only_when_asked_for(job: Job) -> None:
    assert not issued(job).copies.filter(booking=None).exists()
    assert issued(job, to_client=True).copies.get(booking=None).email == "mara@example.com"


def test_a_day_moved_to_a_date_that_had_a_sheet_gets_a_number_of_its_own(job: Job) -> None:
    first = issued(job)
    other = shoots.pencil_day(shoot=job.shoot, date=date(2026, 6, 10), by=_member(job), now=NOW)
    ShootDay.objects.filter(pk=other.pk).update(date=job.day.date)
    second = actions.issue_sheet(day=other, kind=SheetKind.ADVANCE, by=None, now=NOW)
    assert (first.document.number, second.document.number) == (f"{job.shoot.code}-0609-1", f"{job.shoot.code}-0609b-1")


def _member(job: Job) -> Member:
    from tests.factories import make_member

    return make_member(job.shoot.studio)


def test_each_copy_is_drawn_once_and_mailed_once_with_its_link_and_pdf(job: Job) -> None:
    sheet = issued(job)
    outbox.drain(now=NOW + timedelta(days=900))
    for copy in sheet.copies.select_related("document"):
        actions.deliver(copy_id=copy.pk, now=NOW)
        mail = Mail.objects.get(recipient=copy.email)
        assert copy.document.is_rendered and mail.attachments[0]["storage_key"] == copy.document.storage_key
        assert "/call-sheet/{{token:" in mail.text and "Your call: " in mail.text and "£" not in mail.text
    assert Mail.objects.count() == 3


def test_the_jobs_are_keyed_by_day_revision_and_person(job: Job) -> None:
    issued(job, to_client=True)
    keys = set(Message.objects.filter(task="callsheet.deliver").values_list("key", flat=True))
    people = {f"person:{booking.person_id}" for booking in (job.bea, job.rhona, job.leo)} | {"client"}
    assert keys == {f"callsheet:{job.day.pk}:1:{who}" for who in people}


def test_somebody_without_an_address_gets_a_link_and_no_mail(job: Job) -> None:
    job.bea.person.email = ""
    job.bea.person.save()
    copy = issued(job).copies.get(name="Bea Tolland")
    actions.deliver(copy_id=copy.pk, now=NOW)
    assert copy.link is not None and not Mail.objects.exists()


def test_a_sheet_replaced_before_it_left_is_drawn_for_the_file_and_not_mailed(job: Job) -> None:
    old = issued(job).copies.get(name="Bea Tolland")
    issued(job)
    actions.deliver(copy_id=old.pk, now=NOW)
    old.document.refresh_from_db()
    assert old.document.is_rendered and not Mail.objects.exists()


def test_a_shoot_with_an_issued_sheet_cannot_be_deleted(job: Job, owner: Member) -> None:
    issued(job)
    with pytest.raises(shoots.SomethingIssued):
        shoots.delete_shoot(shoot=job.shoot, by=owner, now=NOW)
    assert CallSheet.objects.count() == 1


def test_a_copy_that_is_gone_when_its_job_runs_crashes_nothing(job: Job) -> None:
    copy = issued(job).copies.first()
    assert copy is not None
    pk = copy.pk
    copy.delete()
    actions.deliver(copy_id=pk, now=NOW)
    assert not Mail.objects.filter(key=f"callsheet:{pk}").exists()


def test_a_document_deleted_while_it_is_drawn_crashes_no_job_and_leaves_no_file(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = issued(job).copies.first()
    assert copy is not None
    kept: list[str] = []
    draw, store = adapters.pdf_of, adapters.store

    def vanish(html: str) -> Any:
        made = draw(html)
        document = copy.document_id
        SheetCopy.objects.filter(pk=copy.pk).delete()
        IssuedDocument.objects.filter(pk=document).delete()
        return made

    def remember(data: bytes, **where: str) -> str:
        kept.append(store(data, **where))
        return kept[-1]

    monkeypatch.setattr(adapters, "pdf_of", vanish)  # the PDF engine is outside; meanwhile somebody deletes
    monkeypatch.setattr(adapters, "store", remember)
    actions.deliver(copy_id=copy.pk, now=NOW)
    assert not Mail.objects.exists() and len(kept) == 1
    with pytest.raises(FileNotFoundError):
        adapters.read(kept[0])


def test_confirming_twice_keeps_the_first_time(job: Job) -> None:
    copy = issued(job).copies.get(name="Leo Strand")
    assert actions.confirm_copy(copy=copy, now=NOW) is True
    assert actions.confirm_copy(copy=copy, now=NOW + timedelta(hours=1)) is False
    copy.refresh_from_db()
    assert copy.confirmed_at == NOW
    assert Entry.objects.get(deed="callsheet_confirmed").actor_name == "Leo Strand"


def test_a_replaced_sheet_cannot_be_confirmed(job: Job) -> None:
    copy = issued(job).copies.get(name="Leo Strand")
    issued(job)
    with pytest.raises(actions.Replaced):
        actions.confirm_copy(copy=copy, now=NOW)
    copy.refresh_from_db()
    assert copy.confirmed_at is None


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("seen", [0, None])
def test_clicks_at_the_same_moment_issue_each_revision_once(studio: Studio, seen: int | None) -> None:
    job = make_job(studio)

    def click(_n: int) -> str:
        try:
            issued(job, seen_revision=seen)
        except actions.AlreadyIssued:
            return "refused"
        finally:
            connections.close_all()
        return "issued"

    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(click, range(8)))
    revisions = list(CallSheet.objects.order_by("revision").values_list("revision", flat=True))
    assert revisions == list(range(1, answers.count("issued") + 1))
    assert SheetCopy.objects.count() == 3 * len(revisions)
    assert seen is None or answers.count("issued") == 1
