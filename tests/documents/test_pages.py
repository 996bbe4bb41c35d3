"""An issued document's PDF, for those who see prices."""

from __future__ import annotations

import hashlib
import io
from datetime import datetime

import pdfplumber
import pytest
from django.test import Client as Browser
from django.urls import reverse

from shoots.documents import adapters
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.members.models import Member, Studio

BYTES = b"%PDF-1.7 a stand-in: the view does not look inside"


@pytest.fixture
def document(studio: Studio, now: datetime) -> IssuedDocument:
    return IssuedDocument.objects.create(
        studio=studio,
        kind=DocumentKind.QUOTE,
        number="Q-2026-001 v2",
        title="Quote Q-2026-001",
        template="documents/quote.html",
        content={},
        issued_at=now,
    )


def render(document: IssuedDocument, now: datetime) -> None:
    document.storage_key = adapters.store(BYTES, folder="documents", suffix=".pdf")
    document.sha256 = hashlib.sha256(BYTES).hexdigest()
    document.rendered_at = now
    document.save()


def test_until_it_is_made_the_page_says_so_and_changes_nothing(browser: Browser, document: IssuedDocument) -> None:
    response = browser.get(reverse("document_pdf", args=[document.pk]))
    assert response.status_code == 202
    assert "is being made" in response.content.decode()
    document.refresh_from_db()
    assert not document.is_rendered


def test_the_very_bytes_are_shown_under_a_name_that_says_what_they_are(
    browser: Browser, document: IssuedDocument, now: datetime
) -> None:
    render(document, now)
    shown = browser.get(reverse("document_pdf", args=[document.pk]))
    assert b"".join(shown.streaming_content) == BYTES
    assert shown["Content-Type"] == "application/pdf"
    assert shown["Content-Disposition"] == 'inline; filename="quote-q-2026-001-v2.pdf"'
    assert (shown["X-Content-Type-Options"], shown["ETag"]) == ("nosniff", f'"{document.sha256}"')
    saved = browser.get(reverse("document_pdf", args=[document.pk]) + "?save")
    assert saved["Content-Disposition"].startswith("attachment")


def test_crew_see_no_price_on_it_because_they_do_not_see_it(crew: Member, document: IssuedDocument, signed_in) -> None:  # type: ignore[no-untyped-def]
    assert signed_in(crew).get(reverse("document_pdf", args=[document.pk])).status_code == 403


def test_style_sheets_and_fonts_reach_the_pdf() -> None:
    """Margins of 22 mm, our type and the page's number come from the sheet alone; pdfplumber reads them back."""
    head = '<head><title>T</title><link rel="stylesheet" href="static://shoots/document.css"></head>'
    made = adapters.pdf_of(f'<html lang="en">{head}<body><p>Word</p></body></html>')
    with pdfplumber.open(io.BytesIO(made.data)) as pdf:
        page = pdf.pages[0]
        first = page.chars[0]
        assert first["x0"] == pytest.approx(22 / 25.4 * 72, abs=1.0)
        assert "Source-Sans" in first["fontname"]
        assert "1 / 1" in page.extract_text()
