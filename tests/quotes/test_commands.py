"""`manage.py quote` and `licence`: the newest document as a file, or one clear line and a failure."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from shoots.quotes.actions import answers, drafts
from shoots.rights.models import Licence
from tests import factories
from tests.quotes.factories import make_draft, make_sent, make_shoot_to_quote, run_jobs, send

pytestmark = pytest.mark.django_db
NOW = factories.NOW


def test_the_quote_that_was_sent_is_written_byte_for_byte(tmp_path: Path) -> None:
    quote = make_sent()
    out = tmp_path / "quote.pdf"
    call_command("quote", quote.shoot.code, output=str(out))
    assert hashlib.sha256(out.read_bytes()).hexdigest() == quote.document.sha256


def test_the_newest_sent_version_is_taken_and_a_draft_is_not(tmp_path: Path) -> None:
    first = make_sent()
    second = send(drafts.copy_quote(quote=first, by=None, now=NOW))
    drafts.copy_quote(quote=second, by=None, now=NOW)
    out = tmp_path / "quote.pdf"
    call_command("quote", first.shoot.code.lower(), output=str(out))
    second.document.refresh_from_db()  # type: ignore[union-attr]
    assert hashlib.sha256(out.read_bytes()).hexdigest() == second.document.sha256  # type: ignore[union-attr]


def test_the_licence_is_written_in_its_newest_version(tmp_path: Path) -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", now=NOW)
    run_jobs()
    out = tmp_path / "licence.pdf"
    call_command("licence", quote.shoot.code, output=str(out))
    assert hashlib.sha256(out.read_bytes()).hexdigest() == Licence.objects.get().document.sha256


@pytest.mark.parametrize(("command", "said"), [("quote", "has no sent quote"), ("licence", "has no licence")])
def test_where_there_is_nothing_to_print_it_says_so_and_fails(command: str, said: str, tmp_path: Path) -> None:
    quote = make_draft()
    out = tmp_path / "x.pdf"
    with pytest.raises(CommandError, match=said):
        call_command(command, quote.shoot.code, output=str(out))
    assert not out.exists()


def test_an_unknown_code_fails() -> None:
    with pytest.raises(CommandError, match="no shoot with the code"):
        call_command("quote", "NOPE")


def test_a_code_of_two_studios_asks_which(tmp_path: Path) -> None:
    make_sent(make_shoot_to_quote(code="SAME-1"))
    make_sent(make_shoot_to_quote(factories.make_studio(name="Another studio"), code="SAME-1"))
    with pytest.raises(CommandError, match="--studio"):
        call_command("quote", "SAME-1")
    out = tmp_path / "quote.pdf"
    call_command("quote", "SAME-1", output=str(out), studio="Another studio")
    assert out.exists()


def test_a_folder_that_is_not_there_is_one_clear_line(tmp_path: Path) -> None:
    quote = make_sent()
    with pytest.raises(CommandError, match="could not be written"):
        call_command("quote", quote.shoot.code, output=str(tmp_path / "no" / "quote.pdf"))
