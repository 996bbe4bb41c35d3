"""Pages of call sheets: the list, the preview and its form, and the door of whoever got one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.callsheet import actions
from shoots.callsheet.models import CallSheet, SheetCopy, SheetKind
from shoots.links.actions import revoke, token_of
from shoots.members.models import Member, Studio
from shoots.schedule import actions as schedule
from shoots.shoot.models import ShootDay
from tests import factories
from tests.schedule.factories import Job, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(studio: Studio) -> Job:
    job = make_job(studio)
    schedule.draft_plan(day=job.day, by=None, now=timezone.now())
    return job


def issued(job: Job, **given: Any) -> CallSheet:
    day = ShootDay.objects.get(pk=job.day.pk)
    return actions.issue_sheet(day=day, kind=SheetKind.ADVANCE, by=None, now=timezone.now(), **given)


def copy_of(sheet: CallSheet, name: str) -> SheetCopy:
    return SheetCopy.objects.select_related("link", "sheet__day").get(sheet=sheet, name=name)


def door(copy: SheetCopy, name: str = "client_callsheet") -> str:
    assert copy.link is not None
    return reverse(name, args=[token_of(copy.link)])


def text(answer: Any) -> str:
    return str(answer.content.decode())


def form(**changes: Any) -> dict[str, Any]:
    return {"kind": "ADVANCE", "seen": 0, "weather_rule": "At six", "food": "Soup", "note": "Boots", **changes}


def where(job: Job, name: str) -> str:
    return reverse(name, args=[job.shoot.code, job.day.pk])


def test_the_list_says_what_is_missing_and_leads_to_the_preview(browser: Client, job: Job) -> None:
    job.place.hospital = ""
    job.place.save()
    page = text(browser.get(reverse("callsheet_list", args=[job.shoot.code])))
    assert "no A&amp;E is noted" in page and "Nothing sent yet" in page and where(job, "callsheet_preview") in page


def test_a_shoot_without_a_day_leads_to_its_dates(browser: Client, studio: Studio) -> None:
    shoot = factories.make_shoot(studio)
    page = text(browser.get(reverse("callsheet_list", args=[shoot.code])))
    assert "has none yet" in page and reverse("shoot_dates", args=[shoot.code]) in page


def test_looking_at_a_preview_issues_nothing(browser: Client, job: Job) -> None:
    assert "General call" in text(browser.get(where(job, "callsheet_preview")))
    page = text(browser.get(where(job, "callsheet_preview"), {"for": job.leo.pk}))
    assert "Call of Leo Strand" in page and "07700 900162" not in page
    assert "Call of Mara Quill" in text(browser.get(where(job, "callsheet_preview"), {"for": "client"}))
    assert browser.get(where(job, "callsheet_preview"), {"for": "nobody"}).status_code == 200
    assert not CallSheet.objects.exists()


def test_issuing_from_the_page_sends_a_copy_to_each_and_a_double_click_sends_no_second(
    browser: Client, job: Job
) -> None:
    answer = browser.post(where(job, "callsheet_issue"), form(), follow=True)
    assert "Revision 1 is issued; 3 copies are on their way" in text(answer)
    again = browser.post(where(job, "callsheet_issue"), form(), follow=True)
    assert "No second one was issued" in text(again)
    assert CallSheet.objects.get().document.content["food"] == "Soup"


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"kind": "LAST"}, "is not one of the available choices"),
        ({"kind": ""}, "This field is required"),
        ({"food": "x" * 401}, "at most 400 characters"),
        ({"seen": "-1"}, "reached us damaged"),
        ({"seen": ""}, "reached us damaged"),
    ],
)
def test_wrong_input_is_said_and_what_was_typed_stays(
    browser: Client, job: Job, wrong: dict[str, str], message: str
) -> None:
    answer = browser.post(where(job, "callsheet_issue"), form(**wrong))
    page = text(answer)
    assert answer.status_code == 422 and message in page and "Boots" in page and "At six" in page
    assert not CallSheet.objects.exists()


def test_a_final_sheet_without_a_call_is_refused_by_the_field_and_keeps_what_was_typed(
    browser: Client, job: Job
) -> None:
    ShootDay.objects.filter(pk=job.day.pk).update(call_time=None)
    answer = browser.post(where(job, "callsheet_issue"), form(kind="FINAL"))
    assert answer.status_code == 422 and "set the call time first" in text(answer) and "Boots" in text(answer)
    assert not CallSheet.objects.exists()


def test_a_wrapped_day_is_not_called_again(browser: Client, job: Job) -> None:
    ShootDay.objects.filter(pk=job.day.pk).update(wrapped_at=timezone.now())
    assert "Nothing was issued" in text(browser.post(where(job, "callsheet_issue"), form(), follow=True))


def test_a_link_shows_ones_own_sheet_and_the_list_says_that_it_was_opened(
    browser: Client, job: Job, client: Client
) -> None:
    copy = copy_of(issued(job), "Leo Strand")
    page = text(client.get(door(copy)))
    assert "Call of Leo Strand" in page and "Trail shoes" in page and "Picture 1" in page
    assert "Picture 3" not in page and "07700 900161" not in page and "£" not in page
    listed = text(browser.get(reverse("callsheet_list", args=[job.shoot.code])))
    assert listed.count("opened, not confirmed") == 1 and listed.count("not opened") == 2


def test_opening_a_sheet_confirms_nothing_and_the_button_does(job: Job, client: Client) -> None:
    copy = copy_of(issued(job), "Leo Strand")
    assert "I have it" in text(client.get(door(copy)))
    assert client.get(door(copy, "client_callsheet_confirm")).status_code == 405
    copy.refresh_from_db()
    assert copy.confirmed_at is None
    page = text(client.post(door(copy, "client_callsheet_confirm"), follow=True))
    copy.refresh_from_db()
    assert copy.confirmed_at is not None and "You have it" in page and "I have it" not in page


def test_the_studios_own_look_is_not_counted_as_theirs(browser: Client, job: Job) -> None:
    copy = copy_of(issued(job), "Leo Strand")
    assert browser.get(door(copy)).status_code == 200
    assert copy_of(copy.sheet, "Leo Strand").link.first_opened_at is None  # type: ignore[union-attr]


def test_an_old_link_says_which_revision_replaced_it_and_opens_the_same_persons_newest(
    job: Job, client: Client
) -> None:
    old = copy_of(issued(job), "Leo Strand")
    new = copy_of(issued(job), "Leo Strand")
    page = text(client.get(door(old)))
    assert "This sheet was replaced by revision 2." in page and door(new) in page and "I have it" not in page
    others = [copy_of(new.sheet, name) for name in ("Bea Tolland", "Rhona Vell")]
    assert not any(door(copy) in page for copy in others)
    client.post(door(old, "client_callsheet_confirm"))
    old.refresh_from_db()
    assert old.confirmed_at is None


def test_whoever_is_not_on_the_newest_sheet_is_told_to_ask(job: Job, client: Client) -> None:
    old = copy_of(issued(job), "Leo Strand")
    job.leo.released_at = timezone.now()
    job.leo.save()
    issued(job)
    page = text(client.get(door(old)))
    assert "You are not on the new one" in page and "Open the newest sheet" not in page


def test_a_wrong_or_closed_link_opens_nothing(job: Job, client: Client) -> None:
    copy = copy_of(issued(job), "Leo Strand")
    assert client.get("/call-sheet/nothing-of-the-kind/").status_code == 404
    revoke(link=copy.link, now=timezone.now())  # type: ignore[arg-type]
    for name in ("client_callsheet", "client_callsheet_pdf"):
        assert client.get(door(copy, name)).status_code == 404
    assert client.post(door(copy, "client_callsheet_confirm")).status_code == 404


def test_the_pdf_is_said_to_be_on_its_way_until_it_is_drawn(job: Job, client: Client) -> None:
    copy = copy_of(issued(job), "Leo Strand")
    assert client.get(door(copy, "client_callsheet_pdf")).status_code == 202
    actions.deliver(copy_id=copy.pk, now=timezone.now())
    answer = client.get(door(copy, "client_callsheet_pdf"))
    assert answer["Content-Type"] == "application/pdf"
    assert b"".join(answer.streaming_content).startswith(b"%PDF")  # type: ignore[arg-type]


def test_a_member_may_note_that_somebody_said_so(browser: Client, job: Job) -> None:
    copy = copy_of(issued(job), "Leo Strand")
    answer = browser.post(reverse("copy_confirm", args=[job.shoot.code, copy.pk]), follow=True)
    assert "Leo Strand has it: noted" in text(answer)
    copy.refresh_from_db()
    assert copy.confirmed_at is not None


def test_crew_sees_its_own_copy_alone_and_can_issue_nothing(
    job: Job, crew: Member, signed_in: Callable[[Member], Client]
) -> None:
    job.bea.person.email = crew.user.email
    job.bea.person.save()
    sheet = issued(job)
    hers = signed_in(crew)
    page = text(hers.get(reverse("callsheet_list", args=[job.shoot.code])))
    assert door(copy_of(sheet, "Bea Tolland")) in page
    assert "Leo Strand" not in page and "Rhona" not in page and "07700" not in page
    assert hers.get(where(job, "callsheet_preview")).status_code == 403
    assert hers.post(where(job, "callsheet_issue"), form(seen=1)).status_code == 403
    other = copy_of(sheet, "Leo Strand")
    assert hers.post(reverse("copy_confirm", args=[job.shoot.code, other.pk])).status_code == 403
    assert CallSheet.objects.count() == 1


def test_another_studios_sheets_are_not_there(browser: Client, other_studio: Studio) -> None:
    theirs = make_job(other_studio)
    copy = copy_of(issued(theirs), "Leo Strand")
    assert browser.get(reverse("callsheet_list", args=[theirs.shoot.code])).status_code == 404
    assert browser.get(where(theirs, "callsheet_preview")).status_code == 404
    assert browser.post(where(theirs, "callsheet_issue"), form(seen=1)).status_code == 404
    assert browser.post(reverse("copy_confirm", args=[theirs.shoot.code, copy.pk])).status_code == 404


def test_what_somebody_typed_is_shown_and_never_run(browser: Client, job: Job, client: Client) -> None:
    job.rim.name = "<script>alert(1)</script>"
    job.rim.save()
    copy = copy_of(issued(job, what_changed="<b>bold</b>"), "Leo Strand")
    page = text(client.get(door(copy)))
    assert "<script>alert" not in page and "&lt;script&gt;alert" in page and "&lt;b&gt;bold" in page
