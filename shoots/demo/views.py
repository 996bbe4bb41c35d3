"""Setting the demo aside."""

from __future__ import annotations

from django.contrib.auth import logout
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from shoots.demo import scenario
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import OWNER


@for_roles(OWNER)
def demo_set_aside(request: MemberRequest) -> HttpResponse:
    """Say what will happen on a GET; close the demo on a POST and go on to the set-up of a real studio."""
    if request.studio.demo_anchor_date is None:
        raise Http404
    if request.method != "POST":
        return render(request, "layouts/demo_set_aside.html")
    scenario.set_aside(studio=request.studio, now=timezone.now())
    logout(request)
    return redirect("studio_begin")
