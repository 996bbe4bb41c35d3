"""Answers that are files, what a request sent, and where it came from."""

from __future__ import annotations

from django.http import FileResponse, HttpRequest, QueryDict
from django.utils.http import content_disposition_header


def file_answer(*, file: object, name: str, content_type: str, inline: bool = False) -> FileResponse:
    """Return a stored file under a safe name; the browser may show it only if `inline`."""
    response = FileResponse(file, content_type=content_type)
    response["Content-Disposition"] = content_disposition_header(not inline, name)
    response["X-Content-Type-Options"] = "nosniff"
    return response


# A browser's own PDF viewer draws with styles of its own; nothing else is let in.
VIEWER_POLICY = "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'none'"


def shown_pdf(*, file: object, name: str, inline: bool = True) -> FileResponse:
    """Return a PDF for the browser's own viewer, or to be saved."""
    response = file_answer(file=file, name=name, content_type="application/pdf", inline=inline)
    response["Content-Security-Policy"] = VIEWER_POLICY
    return response


def posted(request: HttpRequest) -> QueryDict | None:
    """Return what was sent by a form, empty or not, or None where a page is only looked at."""
    return request.POST if request.method == "POST" else None


def address_of(request: HttpRequest) -> str:
    """Return the address that a request came from; a proxy in front must set REMOTE_ADDR truthfully."""
    return str(request.META.get("REMOTE_ADDR", ""))
