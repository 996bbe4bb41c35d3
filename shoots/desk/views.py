"""Today, a shoot's overview and history, and search."""

from __future__ import annotations

import uuid

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_GET

from shoots.desk.queries import home as today_page
from shoots.desk.queries import overview
from shoots.desk.queries import search as finding
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PRICES
from shoots.shoot.models import Shoot
from shoots.trail import queries as trail

DEEDS_A_PAGE = 100


def _shoot(request: MemberRequest, code: str) -> Shoot:
    visible = Shoot.objects.visible_to(request.member)
    found: Shoot = get_object_or_404(
        visible.select_related("client", "contact", "licensee", "billed_to", "studio"), code=code
    )
    return found


@require_GET
@for_roles(EVERYBODY)
def home(request: MemberRequest) -> HttpResponse:
    page = today_page.home(request.member, now=timezone.now())
    # The key makes a double click on the box one call, as on the page of calls.
    return render(request, "desk/home.html", {"page": page, "call_key": uuid.uuid4()})


@require_GET
@for_roles(EVERYBODY)
def shoot_detail(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    page = overview.overview(shoot, member=request.member, now=timezone.now())
    return render(request, "desk/shoot_detail.html", {"shoot": shoot, "page": page})


@require_GET
@for_roles(PRICES)
def shoot_history(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    asked = request.GET.get("page", "")
    page = int(asked) if asked.isascii() and asked.isdigit() and 0 < len(asked) < 5 and int(asked) else 1
    history = trail.shoot_history(
        studio=request.studio, shoot_code=shoot.code, most=DEEDS_A_PAGE, skip=(page - 1) * DEEDS_A_PAGE
    )
    context = {"shoot": shoot, "history": history, "page": page}
    return render(request, "desk/shoot_history.html", context)


@require_GET
@for_roles(EVERYBODY)
def search(request: MemberRequest) -> HttpResponse:
    text = request.GET.get("q", "").strip()[:100]
    groups = finding.search(request.member, text=text) if text else ()
    context = {"text": text, "groups": groups, "is_short": bool(text) and len(text) < finding.LEAST_LETTERS}
    return render(request, "desk/search.html", context)
