"""Jobs: asked for once, claimed by one, tried again, and never lost."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest
from celery import shared_task
from django.db import transaction

from shoots.members.models import Studio
from shoots.outbox import actions, adapters
from shoots.outbox.models import JobState, Message

RAN: list[int] = []


@shared_task(name="tests.note")
def note(*, number: int, **_: object) -> None:
    """Remember that a job ran; the payload says which."""
    RAN.append(number)


@shared_task(name="tests.fail")
def fail(**_: object) -> None:
    """A job that never works."""
    raise RuntimeError("the lamp is broken")


@pytest.fixture(autouse=True)
def _nothing_ran() -> None:
    RAN.clear()


def ask(studio: Studio, now: datetime, *, task: str = "tests.note", key: str = "note:1", **more: object) -> bool:
    return actions.enqueue(task=task, key=key, payload={"number": 1}, studio=studio, now=now, **more)  # type: ignore[arg-type]


def test_a_job_runs_once_and_is_done(studio: Studio, now: datetime) -> None:
    assert ask(studio, now)
    assert actions.drain(now=now) == 1
    assert actions.drain(now=now) == 0
    assert RAN == [1]
    job = Message.objects.get()
    assert (job.state, job.settled_at, job.lease_until, job.attempts) == (JobState.DONE, now, None, 1)


def test_asking_twice_under_one_key_is_asking_once(studio: Studio, now: datetime) -> None:
    assert ask(studio, now) is True
    assert ask(studio, now + timedelta(seconds=1)) is False
    assert Message.objects.count() == 1
    actions.drain(now=now + timedelta(seconds=2))
    assert ask(studio, now + timedelta(seconds=3)) is False  # also after it was done
    assert actions.drain(now=now + timedelta(seconds=4)) == 0


def test_a_job_asked_for_in_a_transaction_that_fails_was_never_asked_for(studio: Studio, now: datetime) -> None:
    with pytest.raises(RuntimeError), transaction.atomic():
        ask(studio, now)
        raise RuntimeError
    assert Message.objects.count() == 0


def test_a_job_waits_for_its_moment(studio: Studio, now: datetime) -> None:
    ask(studio, now, not_before=now + timedelta(minutes=5))
    assert actions.drain(now=now) == 0
    assert actions.drain(now=now + timedelta(minutes=5)) == 1


def test_what_is_claimed_can_not_be_claimed_again_while_the_lease_runs(
    studio: Studio, now: datetime, settings: object
) -> None:
    settings.OUTBOX_LEASE_S = 120  # type: ignore[attr-defined]
    ask(studio, now)
    pk = Message.objects.get().pk
    claimed = actions.claim(message_id=pk, now=now)
    assert claimed is not None and claimed.lease_until == now + timedelta(seconds=120)
    assert actions.claim(message_id=pk, now=now) is None
    assert actions.claim(message_id=pk, now=now + timedelta(seconds=120)) is None
    assert actions.due_ids(now=now + timedelta(seconds=120)) == []


def test_an_expired_lease_brings_the_job_back(studio: Studio, now: datetime, settings: object) -> None:
    settings.OUTBOX_LEASE_S = 120  # type: ignore[attr-defined]
    ask(studio, now)
    actions.claim(message_id=Message.objects.get().pk, now=now)  # and then its worker was killed
    assert actions.drain(now=now + timedelta(seconds=121)) == 1
    assert RAN == [1]
    assert Message.objects.get().attempts == 2


def test_a_worker_that_comes_back_after_its_lease_does_not_settle_for_the_other(
    studio: Studio, now: datetime, settings: object
) -> None:
    settings.OUTBOX_LEASE_S = 120  # type: ignore[attr-defined]
    ask(studio, now, task="tests.fail")
    pk = Message.objects.get().pk
    late = actions.claim(message_id=pk, now=now)
    other = actions.claim(message_id=pk, now=now + timedelta(seconds=121))
    assert late is not None and other is not None
    actions._settle_failed(late, error=RuntimeError("late"), now=now + timedelta(seconds=122))
    job = Message.objects.get()
    assert (job.state, job.lease_until, job.last_error) == (JobState.CLAIMED, other.lease_until, "")


def test_a_job_that_fails_waits_longer_each_time_and_is_given_up_after_six_tries(studio: Studio, now: datetime) -> None:
    ask(studio, now, task="tests.fail")
    waits, moment = [], now
    for _ in range(actions.ATTEMPTS - 1):
        assert actions.drain(now=moment) == 1
        job = Message.objects.get()
        assert job.state == JobState.WAITING
        assert job.last_error == "RuntimeError: the lamp is broken"
        waits.append((job.not_before - moment).total_seconds())
        assert actions.drain(now=job.not_before - timedelta(seconds=1)) == 0
        moment = job.not_before
    assert waits == [10, 20, 40, 80, 160]
    actions.drain(now=moment)
    job = Message.objects.get()
    assert (job.state, job.settled_at, job.attempts) == (JobState.FAILED, moment, 6)
    assert actions.drain(now=moment + timedelta(days=1)) == 0


def test_what_was_given_up_can_be_tried_again_and_what_was_not_can_not(studio: Studio, now: datetime) -> None:
    ask(studio, now)
    job = Message.objects.get()
    assert actions.try_again(message=job, now=now) is False
    Message.objects.update(state=JobState.FAILED, attempts=6, settled_at=now)
    assert actions.try_again(message=job, now=now) is True
    assert actions.try_again(message=job, now=now) is False
    assert actions.drain(now=now) == 1
    assert RAN == [1]


def test_one_broken_job_does_not_stop_the_ones_behind_it(studio: Studio, now: datetime) -> None:
    ask(studio, now, task="tests.fail", key="a")
    ask(studio, now, task="no.such.task", key="b")
    ask(studio, now, key="c")
    assert actions.drain(now=now) == 3
    assert RAN == [1]
    assert set(Message.objects.filter(state=JobState.WAITING).values_list("key", flat=True)) == {"a", "b"}


def test_a_job_that_asks_for_another_is_drained_with_it(studio: Studio, now: datetime) -> None:
    @shared_task(name="tests.chain")
    def chain(**_: object) -> None:
        ask(studio, now, key="second")

    ask(studio, now, task="tests.chain", key="first")
    assert actions.drain(now=now) == 2


def test_drain_stops_at_the_most_that_it_may_do(studio: Studio, now: datetime) -> None:
    for n in range(60):
        ask(studio, now, key=f"note:{n}")
    assert actions.drain(now=now, most=50) == 50
    assert len(actions.due_ids(now=now)) == 10


@pytest.mark.django_db(transaction=True)
def test_a_broker_that_is_down_loses_nothing_and_keeps_nobody_waiting(
    now: datetime, settings: Any, studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    naps: list[float] = []
    monkeypatch.setattr("kombu.utils.functional.sleep", naps.append)  # where the library waits between two tries
    settings.CELERY_BROKER_URL = "redis://127.0.0.1:1/0"
    monkeypatch.setattr(adapters.current_app.conf, "broker_url", "redis://127.0.0.1:1/0")
    monkeypatch.setattr(adapters.current_app.amqp, "_producer_pool", None)
    monkeypatch.setattr(adapters.current_app, "_pool", None)
    assert ask(studio, now)
    assert naps == []
    assert actions.drain(now=now) == 1
