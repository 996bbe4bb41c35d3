"""The page of a day: what is typed stays, two windows are told, buttons work without script, roles are kept."""

from __future__ import annotations

from collections.abc import Callable
from datetime import time
from typing import Any

import pytest
from django.db import connections
from django.test import Client
from django.urls import reverse

from shoots.members.models import Member, Studio
from shoots.schedule import actions
from shoots.schedule.models import BlockKind, DayBlock
from shoots.schedule.queries.plan import plan_mark
from shoots.shoot.models import Booking, ShootDay
from tests import factories
from tests.factories import NOW
from tests.schedule.factories import Job, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(studio: Studio) -> Job:
    return make_job(studio)


@pytest.fixture
def planned(job: Job) -> Job:
    actions.draft_plan(day=job.day, by=None, now=NOW)
    return job


def address(job: Job, name: str = "day_plan", *more: Any) -> str:
    return reverse(name, args=[job.shoot.code, job.day.pk, *more])


def blocks(job: Job) -> list[DayBlock]:
    return list(DayBlock.objects.filter(day=job.day))


def typed(job: Job, **changes: Any) -> dict[str, Any]:
    found = {f"minutes-{block.pk}": block.minutes for block in blocks(job)}
    return {"seen": plan_mark(blocks(job)), "do": "save", **found, **changes}


def text(answer: Any) -> str:
    return str(answer.content.decode())


def test_the_draft_button_makes_a_plan_and_a_second_click_changes_nothing(browser: Client, job: Job) -> None:
    assert "Draft the plan from the shot list" in text(browser.get(address(job)))
    for words in ("Drafted: 6 blocks", "has a plan already"):
        assert words in text(browser.post(address(job, "plan_draft"), follow=True))
    assert DayBlock.objects.filter(day=job.day).count() == 6


def test_starting_again_throws_the_old_plan_away(browser: Client, planned: Job) -> None:
    before = {block.pk for block in blocks(planned)}
    browser.post(address(planned, "plan_draft"), {"replace": "1"})
    assert len(blocks(planned)) == 6 and not before & {block.pk for block in blocks(planned)}


def test_a_day_without_shots_drafts_nothing_and_says_why(browser: Client, job: Job) -> None:
    job.shoot.shots.all().delete()
    assert "No shot is on this day yet" in text(browser.post(address(job, "plan_draft"), follow=True))
    assert not blocks(job)


def test_minutes_are_saved_and_move_what_follows(browser: Client, planned: Job) -> None:
    first = blocks(planned)[0]
    answer = browser.post(address(planned, "plan_change"), typed(planned, **{f"minutes-{first.pk}": 45}))
    assert answer.status_code == 302
    page = text(browser.get(address(planned)))
    assert blocks(planned)[0].minutes == 45 and ">10:45<" in page


@pytest.mark.parametrize("wrong", ["-5", "961", "", "soon", "2.5"])
def test_minutes_that_cannot_be_meant_stay_typed_and_change_nothing(browser: Client, planned: Job, wrong: str) -> None:
    first, second = blocks(planned)[:2]
    answer = browser.post(
        address(planned, "plan_change"),
        typed(planned, **{f"minutes-{first.pk}": wrong, f"minutes-{second.pk}": 77, "do": f"down:{first.pk}"}),
    )
    page = text(answer)
    assert answer.status_code == 422 and 'value="77"' in page and f'value="{wrong}"' in page and "aria-invalid" in page
    assert [block.minutes for block in blocks(planned)[:2]] == [first.minutes, second.minutes]
    assert blocks(planned)[0].pk == first.pk


def test_a_damaged_mark_is_told_and_saves_nothing(browser: Client, planned: Job) -> None:
    first = blocks(planned)[0]
    answer = browser.post(address(planned, "plan_change"), typed(planned, seen="x" * 40, **{f"minutes-{first.pk}": 55}))
    assert answer.status_code == 422 and "reached us damaged" in text(answer) and 'value="55"' in text(answer)
    assert blocks(planned)[0].minutes == 30


def test_up_and_down_move_a_block_and_keep_what_was_typed(browser: Client, planned: Job) -> None:
    first, second = blocks(planned)[:2]
    browser.post(
        address(planned, "plan_change"), typed(planned, **{f"minutes-{second.pk}": 20, "do": f"up:{second.pk}"})
    )
    found = blocks(planned)
    assert [block.pk for block in found[:2]] == [second.pk, first.pk] and found[0].minutes == 20


def test_a_dragged_order_is_saved_and_foreign_keys_in_it_do_nothing(browser: Client, planned: Job) -> None:
    keys = [block.pk for block in blocks(planned)]
    order = ",".join(str(key) for key in [999_999, *reversed(keys)]) + ",x,-1"
    browser.post(address(planned, "plan_change"), typed(planned, do="order", order=order))
    assert [block.pk for block in blocks(planned)] == keys[::-1]


def test_the_second_of_two_windows_is_told_and_keeps_what_it_typed(browser: Client, planned: Job) -> None:
    first = blocks(planned)[0]
    old = typed(planned, **{f"minutes-{first.pk}": 55})
    actions.add_block(day=planned.day, kind=BlockKind.BREAK, minutes=15, by=None, now=NOW)
    answer = browser.post(address(planned, "plan_change"), old)
    page = text(answer)
    assert answer.status_code == 422 and "changed in another window" in page and 'value="55"' in page
    assert blocks(planned)[0].minutes == 30
    assert (
        browser.post(address(planned, "plan_change"), typed(planned, **{f"minutes-{first.pk}": 55})).status_code == 302
    )
    assert blocks(planned)[0].minutes == 55


def test_a_block_is_added_before_the_wrap(browser: Client, planned: Job) -> None:
    browser.post(address(planned, "block_add"), {"kind": "BREAK", "minutes": 20, "label": "Tea", "setup": ""})
    assert [block.kind for block in blocks(planned)][-2:] == ["BREAK", "WRAP"]


def test_a_wrong_block_is_refused_by_its_field_and_stays_typed(browser: Client, planned: Job) -> None:
    answer = browser.post(address(planned, "block_add"), {"kind": "BUILD", "minutes": "2000", "label": "", "setup": ""})
    page = text(answer)
    assert answer.status_code == 422 and 'value="2000"' in page and "Say which light is built" in page
    assert len(blocks(planned)) == 6


def test_another_shoots_setup_cannot_be_built(browser: Client, planned: Job, studio: Studio) -> None:
    other = factories.make_setup(factories.make_shoot(studio))
    answer = browser.post(
        address(planned, "block_add"), {"kind": "SHOOT", "minutes": 20, "label": "", "setup": other.pk}
    )
    assert answer.status_code == 422 and len(blocks(planned)) == 6


def test_two_windows_on_one_block_the_second_is_told(browser: Client, planned: Job) -> None:
    block = blocks(planned)[0]
    where = address(planned, "block_edit", block.pk)
    sent = {"kind": "ARRIVE", "minutes": 20, "label": "At the gate", "setup": "", "version": block.version}
    assert browser.post(where, sent).status_code == 302
    late = browser.post(where, {**sent, "label": "At the lay-by"})
    assert late.status_code == 422 and "At the lay-by" in text(late)
    block.refresh_from_db()
    assert block.label == "At the gate"


def test_a_block_is_taken_out_and_its_shots_stay(browser: Client, planned: Job) -> None:
    browser.post(address(planned, "block_remove", blocks(planned)[2].pk))
    assert len(blocks(planned)) == 5 and planned.shoot.shots.count() == 4


def test_call_and_wrap_are_saved_on_the_page_and_a_backward_day_is_refused(browser: Client, job: Job) -> None:
    sent = {"call_time": "09:15", "wrap_time": "17:00", "version": job.day.version}
    assert browser.post(address(job, "plan_times"), sent).status_code == 302
    job.day.refresh_from_db()
    assert job.day.call_time == time(9, 15)
    answer = browser.post(
        address(job, "plan_times"), {"call_time": "09:15", "wrap_time": "08:00", "version": job.day.version}
    )
    assert answer.status_code == 422 and "The wrap is before the call" in text(answer) and "08:00" in text(answer)


def _calls(job: Job, **changes: Any) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for booking in (job.bea, job.rhona, job.leo):
        booking.refresh_from_db()
        found |= {
            f"call-{booking.pk}": booking.call_time or "",
            f"bring-{booking.pk}": booking.bring,
            f"version-{booking.pk}": booking.version,
        }
    return {**found, **changes}


def test_calls_and_what_people_bring_are_saved_together(browser: Client, job: Job) -> None:
    sent = _calls(job, **{f"call-{job.leo.pk}": "11:30", f"bring-{job.bea.pk}": "Sandbags"})
    assert browser.post(address(job, "plan_calls"), sent).status_code == 302
    assert Booking.objects.get(pk=job.leo.pk).call_time == time(11, 30)
    assert Booking.objects.get(pk=job.bea.pk).bring == "Sandbags"
    assert Booking.objects.get(pk=job.rhona.pk).version == job.rhona.version


def test_one_wrong_call_saves_none_of_them(browser: Client, job: Job) -> None:
    sent = _calls(job, **{f"call-{job.leo.pk}": "25:00", f"bring-{job.bea.pk}": "Sandbags"})
    answer = browser.post(address(job, "plan_calls"), sent)
    assert answer.status_code == 422 and 'value="Sandbags"' in text(answer)
    assert Booking.objects.get(pk=job.bea.pk).bring == ""


def test_a_booking_changed_meanwhile_saves_none_and_keeps_what_was_typed(browser: Client, job: Job) -> None:
    sent = _calls(job, **{f"bring-{job.bea.pk}": "Sandbags", f"bring-{job.leo.pk}": "Gloves"})
    Booking.objects.filter(pk=job.leo.pk).update(version=9)
    answer = browser.post(address(job, "plan_calls"), sent)
    assert answer.status_code == 422 and 'value="Gloves"' in text(answer) and "in the meantime" in text(answer)
    assert Booking.objects.get(pk=job.bea.pk).bring == ""


def test_crew_reads_the_plan_without_a_form_or_an_age_and_changes_nothing(
    planned: Job, studio: Studio, crew: Member, signed_in: Callable[[Member], Client]
) -> None:
    person = factories.make_person(studio, email=crew.user.email)
    factories.make_booking(planned.shoot, person=person)
    page = text(signed_in(crew).get(address(planned)))
    assert "North rim" in page and "Save the minutes" not in page and "07700" not in page and "£" not in page
    assert signed_in(crew).post(address(planned, "plan_change"), typed(planned)).status_code == 403


def test_a_day_of_another_studio_or_of_another_shoot_is_not_there(
    browser: Client, planned: Job, other_studio: Studio
) -> None:
    theirs = make_job(other_studio)
    assert browser.get(address(theirs)).status_code == 404
    mixed = reverse("day_plan", args=[planned.shoot.code, theirs.day.pk])
    assert browser.get(mixed).status_code == 404
    assert browser.post(address(theirs, "plan_draft")).status_code == 404


@pytest.mark.django_db(transaction=True)
def test_two_clicks_on_draft_at_the_same_moment_make_one_plan(studio: Studio) -> None:
    from concurrent.futures import ThreadPoolExecutor

    job = make_job(studio)

    def draft(_n: int) -> str:
        try:
            actions.draft_plan(day=ShootDay.objects.get(pk=job.day.pk), by=None, now=NOW)
        except actions.PlanStands:
            return "stands"
        finally:
            connections.close_all()
        return "drafted"

    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(draft, range(8)))
    assert sorted(answers) == ["drafted", *["stands"] * 7]
    assert DayBlock.objects.filter(day=job.day).count() == 6
