"""Middleware: a request id for the logs, the content security policy, and who is asking."""

from __future__ import annotations

import uuid
from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils.functional import SimpleLazyObject

from shoots.members.access import member_of
from studio.logs import current_request_id

GetResponse = Callable[[HttpRequest], HttpResponse]


def request_id(get_response: GetResponse) -> GetResponse:
    """Give each request an id that its log lines and its error page share."""

    def middleware(request: HttpRequest) -> HttpResponse:
        request.id = uuid.uuid4().hex[:12]  # type: ignore[attr-defined]
        token = current_request_id.set(request.id)  # type: ignore[attr-defined]
        try:
            response = get_response(request)
        finally:
            current_request_id.reset(token)
        response["X-Request-ID"] = request.id  # type: ignore[attr-defined]
        return response

    return middleware


def content_security(get_response: GetResponse) -> GetResponse:
    """Forbid inline scripts, inline styles and every other host; keep private pages out of caches."""

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", settings.CONTENT_SECURITY_POLICY)
        response.headers.setdefault("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
        response.headers.setdefault("Cache-Control", "private, no-store")
        return response

    return middleware


def current_member(get_response: GetResponse) -> GetResponse:
    """Set `request.member`: the signed-in person's place in their studio, or None. Costs one query when used."""

    def middleware(request: HttpRequest) -> HttpResponse:
        request.member = SimpleLazyObject(lambda: member_of(request))  # type: ignore[attr-defined]
        return get_response(request)

    return middleware
