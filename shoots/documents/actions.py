"""Issuing a document and making its PDF once."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from shoots.documents import adapters
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.members.models import Studio
from shoots.outbox import actions as outbox


def issue(
    *,
    studio: Studio,
    kind: DocumentKind,
    number: str,
    title: str,
    template: str,
    content: dict[str, Any],
    render: bool = True,
    now: datetime,
) -> IssuedDocument:
    """Freeze a document's content inside the caller's transaction and ask for its PDF.

    With `render=False` the caller enqueues a job of its own that calls `ensure_rendered` and then goes on, as a
    quote does: its PDF is hashed before its link goes out.
    """
    document = IssuedDocument.objects.create(
        studio=studio,
        kind=kind,
        number=number,
        title=title,
        template=template,
        content=content,
        issued_at=now,
    )
    if render:
        outbox.enqueue(
            task="documents.render",
            key=f"document:{document.pk}",
            payload={"document_id": document.pk},
            studio=studio,
            now=now,
        )
    return document


def ensure_rendered(*, document: IssuedDocument, now: datetime) -> IssuedDocument:
    """Make a document's PDF if nobody has; the first finished rendering wins, a second one is thrown away.

    Must not run inside a transaction: rendering takes a fifth of a second. Safe to repeat.
    """
    if document.is_rendered:
        return document
    made = adapters.pdf_of(adapters.html_of(document.template, document.content))
    key = adapters.store(made.data, folder="documents", suffix=".pdf")
    rows = IssuedDocument.objects.filter(pk=document.pk, sha256="").update(
        storage_key=key, sha256=made.sha256, size_bytes=len(made.data), pages=made.pages, rendered_at=now
    )
    if rows == 0:
        adapters.discard(key)
    document.refresh_from_db()
    return document
