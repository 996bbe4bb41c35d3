"""The health check and the error pages."""

from __future__ import annotations

from django.db import connection
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string

from shoots.members.access import for_anyone


@for_anyone
def healthy(request: HttpRequest) -> HttpResponse:
    """Answer 200 when the database answers."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT 1")
    return HttpResponse("healthy\n", content_type="text/plain")


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "layouts/error.html", {"code": 400}, status=400)


def not_allowed(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "layouts/error.html", {"code": 403}, status=403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "layouts/error.html", {"code": 404}, status=404)


def server_error(request: HttpRequest) -> HttpResponse:
    # No request context: whatever broke may break the page's head as well.
    text = render_to_string("layouts/server_error.html", {"request_id": getattr(request, "id", "")})
    return HttpResponse(text, status=500)
