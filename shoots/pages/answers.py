"""Answers that are files, and where a request came from."""

from __future__ import annotations

from django.http import FileResponse, HttpRequest
from django.utils.http import content_disposition_header


def file_answer(*, file: object, name: str, content_type: str, inline: bool = False) -> FileResponse:
    """Return a stored file under a safe name; the browser may show it only if `inline`."""
    response = FileResponse(file, content_type=content_type)
    response["Content-Disposition"] = content_disposition_header(not inline, name)
    response["X-Content-Type-Options"] = "nosniff"
    return response


def address_of(request: HttpRequest) -> str:
    """Return the address that a request came from; a proxy in front must set REMOTE_ADDR truthfully."""
    return str(request.META.get("REMOTE_ADDR", ""))
