"""Fifty sweeps at once, in threads and in processes, write each reminder once, with one mail and one job for each."""

from __future__ import annotations

import subprocess
import sys
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from django.db import connection

from shoots.desk import actions
from shoots.desk.models import Reminder
from shoots.members.core import Role
from shoots.outbox.models import Mail, Message
from tests import factories
from tests.desk import factories as rows
from tests.factories import NOW
from tests.outbox.processes import environment, kill, start

MOMENT = datetime(2026, 6, 7, 8, 0, tzinfo=UTC)
THREADS = 40
PROCESSES, SWEEPS_EACH = 2, 5
SWEEPER = f"""
import sys, django
django.setup()
from datetime import datetime
from shoots.desk import actions
now = datetime.fromisoformat({MOMENT.isoformat()!r})
print("ready", flush=True)
sys.stdin.readline()
print(sum(actions.sweep(now=now) for _ in range({SWEEPS_EACH})), flush=True)
"""


def prepare() -> int:
    """Make facts of which each of several kinds of reminder follows; return how many reminders ought to exist."""
    studio = factories.make_studio()
    for role in (Role.OWNER, Role.PRODUCER, Role.BOOKKEEPER):
        factories.make_member(studio, role)
    for _ in range(6):
        shoot = factories.make_shoot(studio)
        rows.make_accepted_quote(shoot)
        factories.make_day(shoot, date=date(2026, 6, 9), confirmed_at=NOW)
        rows.make_invoice(shoot, due_date=date(2026, 6, 7))
        rows.make_licence(shoot, starts_date=date(2026, 6, 1), last_day=MOMENT.date() + timedelta(days=30))
    return 18


@contextmanager
def sweeper(folder: Path) -> Iterator[subprocess.Popen[str]]:
    command = [sys.executable, "-c", SWEEPER]
    process = start(command, environment(folder), stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    try:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        yield process
    finally:
        kill(process)


@pytest.mark.broker
@pytest.mark.django_db(transaction=True)
def test_fifty_parallel_sweeps_write_each_reminder_once(tmp_path: Path, settings: Any) -> None:
    expected = prepare()
    gate = threading.Barrier(THREADS + 1)

    def sweep() -> int:
        try:
            gate.wait(timeout=30)
            return actions.sweep(now=MOMENT)
        finally:
            connection.close()

    with ExitStack() as processes, ThreadPoolExecutor(THREADS) as pool:
        others = [processes.enter_context(sweeper(tmp_path)) for _ in range(PROCESSES)]
        found = [pool.submit(sweep) for _ in range(THREADS)]
        for process in others:
            print("go", file=process.stdin, flush=True)
        gate.wait(timeout=30)
        written = [future.result(timeout=60) for future in found]
        written += [int(process.stdout.readline()) for process in others]  # type: ignore[union-attr]
    assert sum(written) == expected
    assert Reminder.objects.count() == expected
    mails = expected * 2  # two readers each
    assert Mail.objects.count() == Mail.objects.values("message_id").distinct().count() == mails
    assert Message.objects.count() == mails
