"""`manage.py brief`: the newest version as a file, or one clear line and a failure."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from tests.agreement.factories import make_sent, make_shoot

pytestmark = pytest.mark.django_db


def test_the_newest_version_is_written_byte_for_byte(tmp_path: Path) -> None:
    shoot = make_shoot()
    make_sent(shoot)
    second = make_sent(shoot)
    out = tmp_path / "brief.pdf"
    call_command("brief", shoot.code, output=str(out))
    assert hashlib.sha256(out.read_bytes()).hexdigest() == second.document.sha256


def test_a_brief_that_was_never_sent_says_so_and_fails(tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="has no sent brief"):
        call_command("brief", make_shoot().code, output=str(tmp_path / "x.pdf"))
    assert not (tmp_path / "x.pdf").exists()
