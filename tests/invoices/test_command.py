"""`manage.py invoice CODE -o file.pdf`."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import pdfplumber
import pytest
from django.core.management import CommandError, call_command

from shoots.invoices import actions
from tests import factories
from tests.invoices.factories import make_draft

pytestmark = pytest.mark.django_db


def test_it_writes_the_newest_issued_invoice(tmp_path: Path) -> None:
    invoice = actions.issue_invoice(invoice=make_draft(), by=None, now=factories.NOW)
    said = StringIO()
    call_command("invoice", invoice.shoot.code, "-o", str(tmp_path / "i.pdf"), stdout=said)
    assert "INV-2026-0001" in said.getvalue()
    assert "INV-2026-0001" in pdfplumber.open(tmp_path / "i.pdf").pages[0].extract_text()


def test_it_fails_with_a_clear_line_when_there_is_nothing_to_print(tmp_path: Path) -> None:
    draft = make_draft()
    with pytest.raises(CommandError, match="has no invoice to print yet"):
        call_command("invoice", draft.shoot.code, "-o", str(tmp_path / "i.pdf"))
    assert not (tmp_path / "i.pdf").exists()
