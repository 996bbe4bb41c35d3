"""Real worker processes, a real broker, a real SMTP server: each reminder is delivered, also after a kill.

Without a kill the server counts one delivery for each mail. After a SIGKILL in the middle of a send none is missing,
and a repeat carries the same Message-ID.
"""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from celery import Celery
from django.utils import timezone

from shoots.desk.models import Reminder
from shoots.members.core import Role
from shoots.members.models import Studio
from shoots.outbox.models import JobState, Mail, Message
from tests import factories
from tests.outbox.processes import PostOffice, broker, environment, manage, wait_for, worker

pytestmark = [pytest.mark.broker, pytest.mark.django_db(transaction=True)]
MAILS = 8


@pytest.fixture
def held_dates() -> Studio:
    """A studio with eight pencilled dates whose hold ends today: eight reminders that ought to exist at any hour."""
    studio = factories.make_studio()
    factories.make_member(studio, Role.OWNER)
    today = timezone.now().astimezone(studio.zone).date()
    for _ in range(MAILS):
        shoot = factories.make_shoot(studio)
        factories.make_day(shoot, date=today + timedelta(days=30), held_until=today)
    return studio


def all_are_sent() -> bool:
    return Mail.objects.exclude(sent_at=None).count() == MAILS


def test_each_reminder_is_delivered_once(held_dates: Studio, tmp_path: Path) -> None:
    with PostOffice() as office, broker() as broker_url:
        env = environment(tmp_path, REDIS_URL=broker_url, SMTP_URL=office.url)
        with worker(env):
            assert manage("remind", env=env) == f"{MAILS} new reminders.\n"  # it tells the broker, the worker sends
            assert manage("remind", env=env) == "0 new reminders.\n"
            wait_for(all_are_sent, so_that="every mail is sent")
    assert office.by_id == dict.fromkeys(Mail.objects.values_list("message_id", flat=True), 1)
    assert set(Message.objects.values_list("state", "attempts")) == {(JobState.DONE, 1)}
    assert Reminder.objects.exclude(mail=None).count() == MAILS


def test_after_a_kill_in_the_middle_of_a_send_none_is_missing_and_a_repeat_has_the_same_id(
    held_dates: Studio, tmp_path: Path
) -> None:
    with PostOffice() as office, broker() as broker_url:
        env = environment(tmp_path, REDIS_URL=broker_url, SMTP_URL=office.url, OUTBOX_LEASE_S="2")
        office.hold_the_next()
        with worker(env):
            manage("remind", env=env)
            assert wait_for(office.is_held.is_set, so_that="a mail has arrived and waits for its answer")
        # All processes of the worker are gone now; nobody heard the server's answer.
        office.let_go()
        assert not all_are_sent()
        assert Message.objects.filter(state=JobState.CLAIMED).exists()
        timetable = Celery(broker=broker_url)
        with worker(env):

            def swept_and_sent() -> bool:
                timetable.send_task("outbox.sweep")  # what the timetable does every ten seconds
                return all_are_sent()

            wait_for(swept_and_sent, so_that="the sweep has brought back what the killed worker held")
    assert set(office.by_id) == set(Mail.objects.values_list("message_id", flat=True))
    # The mail that had arrived came a second time, since nobody had heard that it was taken; no other id ever came.
    assert office.by_id[office.held_id] >= 2
    assert set(Message.objects.values_list("state", flat=True)) == {JobState.DONE}
