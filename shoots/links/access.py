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

WRONG_TRIES_A_MINUTE = 20


def by_link(purpose: Purpose) -> Callable[[Callable[..., HttpResponse]], Callable[..., HttpResponse]]:
    """Let whoever holds a live link of this purpose in; everybody else gets a 404, and after too many wrong
    tries a 429. A page of two hundred previews is no try: only wrong tokens count.

    The view gets `link=`; it finds its own record by it. Nothing is decided by a GET: mail scanners follow links.
    """

    def decorate(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        def guarded(request: HttpRequest, token: str, *args: Any, **kwargs: Any) -> HttpResponse:
            if too_many_tries(request):
                return HttpResponse("Too many tries; wait a minute.\n", status=429, content_type="text/plain")
            now = timezone.now()
            link = (
                ClientLink.objects.live(at=now)
                .filter(purpose=purpose, token_hash=fingerprint(token))
                .select_related("studio")
                .first()
            )
            if link is None:
                _count_wrong_try(request)
                raise Http404
            response = view(request, token, *args, link=link, **kwargs)
            response["X-Robots-Tag"] = "noindex, nofollow"
            # Same origin, not none at all: with "no-referrer" browsers send "Origin: null", and no client could accept.
            response["Referrer-Policy"] = "same-origin"
            return response

        guarded.access_rule = Rule("link", purpose=purpose)  # type: ignore[attr-defined]
        return guarded

    return decorate


def _tries_key(request: HttpRequest) -> str:
    return f"wrong-links:{request.META.get('REMOTE_ADDR', '')}"


def too_many_tries(request: HttpRequest) -> bool:
    """Count a try at guessing a token from this address; return whether it was one too many this minute."""
    return int(cache.get(_tries_key(request), 0)) >= WRONG_TRIES_A_MINUTE


def _count_wrong_try(request: HttpRequest) -> None:
    key = _tries_key(request)
    cache.add(key, 0, 60)
    try:
        cache.incr(key)
    except ValueError:  # it ran out between the two calls
        cache.set(key, 1, 60)
