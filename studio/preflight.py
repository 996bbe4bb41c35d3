"""What must be true before anything starts; each fault is one clear line. Run by the scripts as a module."""

from __future__ import annotations

import argparse
import os
import shutil
import socket
import sys
from pathlib import Path
from urllib.parse import urlsplit

LEAST_FREE_MB = 200


def port_fault(port: int) -> str:
    """Return what is wrong with a port, or nothing."""
    if not 1 <= port <= 65535:
        return f"Port {port} does not exist; choose one between 1024 and 65535 with --port."
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError as error:
            return f"Port {port} is not free ({error.strerror}); choose another with --port."
    return ""


def disk_fault(folder: Path) -> str:
    """Return what is wrong with the data folder, or nothing."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / ".write-test"
        probe.write_text("x")
        probe.unlink()
    except OSError as error:
        return f"Can't write to the data folder ({error.strerror}); free some disk space or set DATA_DIR."
    free_mb = shutil.disk_usage(folder).free // 1_000_000
    if free_mb < LEAST_FREE_MB:
        return f"Only {free_mb} MB of disk are free; the program needs {LEAST_FREE_MB} MB to start."
    return ""


def settings_fault() -> str:
    """Return what Django refuses in the environment variables, or nothing."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    from django.core.exceptions import ImproperlyConfigured

    try:
        from django.conf import settings

        settings.INSTALLED_APPS  # noqa: B018 - reading one setting loads them all
    except (ImproperlyConfigured, ModuleNotFoundError) as error:
        return str(error)
    return ""


def answers(url: str) -> bool:
    """Return whether something listens where a URL points."""
    parts = urlsplit(url)
    try:
        with socket.create_connection((parts.hostname or "127.0.0.1", parts.port or 0), timeout=2):
            return True
    except OSError:
        return False


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("--port", type=int)
    parser.add_argument("--servers", action="store_true", help="only: do PostgreSQL and Redis answer here?")
    wanted = parser.parse_args()
    if wanted.servers:
        database = os.environ.get("TEST_DATABASE_URL", "postgres://postgres@127.0.0.1:5432/postgres")
        return 0 if answers(database) and answers("redis://127.0.0.1:6379") else 1
    faults = [
        port_fault(wanted.port) if wanted.port is not None else "",
        disk_fault(Path(os.environ.get("DATA_DIR", "var"))),
        settings_fault(),
    ]
    for fault in filter(None, faults):
        sys.stderr.write(f"{fault}\n")
    return 1 if any(faults) else 0


if __name__ == "__main__":
    sys.exit(main())
