"""Views that a link opens."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.core.cache import cache
from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone

from shoots.links.models import ClientLink, Purpose
from shoots.members.access import Rule
from shoots.values.tokens import fingerprint

TRIES_A_MINUTE = 120


def by_link(purpose: Purpose) -> Callable[[Callable[..., HttpResponse]], Callable[..., HttpResponse]]:
    """Let whoever holds a live link of this purpose in; everybody else gets a 404, and too many tries a 429.

    The view gets `link=`; it finds its own record by it. Nothing is decided by a GET: mail scanners follow links.
    """

    def decorate(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        def guarded(request: HttpRequest, token: str, *args: Any, **kwargs: Any) -> HttpResponse:
            if _too_many(request):
                return HttpResponse("Too many tries; wait a minute.\n", status=429, content_type="text/plain")
            now = timezone.now()
            link = (
                ClientLink.objects.live(at=now)
                .filter(purpose=purpose, token_hash=fingerprint(token))
                .select_related("studio")
                .first()
            )
            if link is None:
                raise Http404
            response = view(request, token, *args, link=link, **kwargs)
            response["X-Robots-Tag"] = "noindex, nofollow"
            response["Referrer-Policy"] = "no-referrer"
            return response

        guarded.access_rule = Rule("link", purpose=purpose)  # type: ignore[attr-defined]
        return guarded

    return decorate


def _too_many(request: HttpRequest) -> bool:
    key = f"link-tries:{request.META.get('REMOTE_ADDR', '')}"
    cache.add(key, 0, 60)
    try:
        return int(cache.incr(key)) > TRIES_A_MINUTE
    except ValueError:  # it ran out between the two calls
        return False
