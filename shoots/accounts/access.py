"""The view that an invitation opens."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse

from shoots.accounts.models import Invitation
from shoots.links.access import too_many_tries
from shoots.members.access import Rule
from shoots.values.tokens import fingerprint


def by_invitation(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
    """Let whoever holds an invitation's token in; the view gets `invitation=`, open or not, to say which it is.

    A token that was never given out is a 404, and too many tries from one address a 429.
    """

    @wraps(view)
    def guarded(request: HttpRequest, token: str, **kwargs: Any) -> HttpResponse:
        if too_many_tries(request):
            return HttpResponse("Too many tries; wait a minute.\n", status=429, content_type="text/plain")
        invitation = Invitation.objects.filter(token_hash=fingerprint(token)).select_related("studio").first()
        if invitation is None:
            raise Http404
        response = view(request, token, invitation=invitation, **kwargs)
        response["X-Robots-Tag"] = "noindex, nofollow"
        response["Referrer-Policy"] = "same-origin"
        return response

    guarded.access_rule = Rule("link", purpose="invitation")  # type: ignore[attr-defined]
    return guarded
