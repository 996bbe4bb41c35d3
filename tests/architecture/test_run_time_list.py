"""What runs for a user must start from requirements.txt alone: the test tools bring packages that hide a missing one.

Every module that the project or its three processes import is imported in an interpreter that refuses the packages of
any distribution outside the list. (The worker once died at its start on a fresh machine: the job queue's Redis
transport imports `packaging`, which only the test tools had brought.)
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
UNDER_THE_LIST_ALONE = r"""
import ast, importlib, importlib.metadata, os, pathlib, re, sys

def canonical(name):
    return re.sub(r"[-_.]+", "-", name).lower()

lines = pathlib.Path("requirements.txt").read_text().splitlines()
listed = {canonical(line.split("==")[0].split("[")[0]) for line in lines if re.match(r"[\w.-]+(\[|==)", line)}
listed -= set(sys.argv[1:])
owners = importlib.metadata.packages_distributions()

class Refuse:
    def find_spec(self, name, path=None, target=None):
        root = name.partition(".")[0]
        if root in owners and not {canonical(owner) for owner in owners[root]} & listed:
            raise ModuleNotFoundError(f"{root} is of {owners[root]}, which requirements.txt does not list", name=root)
        return None

sys.meta_path.insert(0, Refuse())
import django
django.setup()
import celery.beat, celery.bin.celery, celery.concurrency.prefork, celery.worker.worker, gunicorn.app.wsgiapp
import kombu.transport.redis, studio.celery, studio.wsgi
studio.celery.app.loader.import_default_modules()
from django.urls import get_resolver
get_resolver().url_patterns
for path in [pathlib.Path("manage.py"), *pathlib.Path("studio").rglob("*.py"), *pathlib.Path("shoots").rglob("*.py")]:
    for node in ast.walk(ast.parse(path.read_text())):
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        if isinstance(node, ast.ImportFrom) and not node.level:
            names = [node.module]
        for name in names:
            importlib.import_module(name)
print("started", len(listed))
"""


def start(tmp_path: Path, *unlisted: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "DATA_DIR": str(tmp_path), "DJANGO_SETTINGS_MODULE": "studio.settings"}
    command = [sys.executable, "-c", UNDER_THE_LIST_ALONE, *unlisted]
    return subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False, timeout=120)


def test_web_worker_and_timetable_import_nothing_that_the_run_time_list_does_not_bring(tmp_path: Path) -> None:
    done = start(tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("started")


def test_a_package_missing_from_the_list_is_noticed(tmp_path: Path) -> None:
    done = start(tmp_path, "packaging")
    assert done.returncode != 0
    assert "packaging is of ['packaging'], which requirements.txt does not list" in done.stderr
