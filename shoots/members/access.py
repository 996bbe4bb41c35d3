"""Access rules. Each view carries one; a test refuses a URL without, and walks URL × role × studio."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import wraps
from typing import Any, Concatenate, ParamSpec

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse

from shoots.members.core import Role
from shoots.members.models import Member, Studio

P = ParamSpec("P")


@dataclass(frozen=True)
class Rule:
    """Who may open a view: `roles` (members of the studio), `link` (whoever holds it), `anyone`."""

    kind: str
    roles: frozenset[Role] = frozenset()
    purpose: str = ""
    #: Views that a crew member may open only for shoots they are booked on.
    notes: tuple[str, ...] = field(default=())


class MemberRequest(HttpRequest):
    """A request that has passed `for_roles`: it has a member and a studio."""

    member: Member
    studio: Studio
    htmx: Any


def member_of(request: HttpRequest) -> Member | None:
    """Return the signed-in user's place in the studio they last chose, else in their first; one query."""
    if not request.user.is_authenticated:
        return None
    places = Member.objects.filter(user=request.user, left_at=None).select_related("studio", "user")
    chosen = request.session.get("studio_id")
    found = list(places.order_by("joined_at", "pk"))
    return next((place for place in found if place.studio_id == chosen), found[0] if found else None)


def for_roles(
    roles: frozenset[Role],
) -> Callable[[Callable[Concatenate[Any, P], HttpResponse]], Callable[Concatenate[HttpRequest, P], HttpResponse]]:
    """Let only members with one of `roles` in: others get 403, strangers the sign-in page.

    A record of another studio is the view's own 404, because every view looks it up through `of_studio`.
    """

    def decorate(view: Callable[Concatenate[Any, P], HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        def guarded(request: Any, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
            if not request.user.is_authenticated:
                return redirect_to_login(request.get_full_path())
            if not request.member or request.member.role not in roles:
                raise PermissionDenied
            request.studio = request.member.studio
            return view(request, *args, **kwargs)

        guarded.access_rule = Rule("roles", roles)  # type: ignore[attr-defined]
        return guarded

    return decorate


def for_anyone(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
    """Mark a view that needs no sign-in; say in its docstring why that is safe."""
    view.access_rule = Rule("anyone")  # type: ignore[attr-defined]
    return view
