"""The shot list."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.brief.queries import brief_of
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.pages.answers import posted
from shoots.shoot.models import Shoot
from shoots.shotlist import queries
from shoots.shotlist.actions import shots as actions
from shoots.shotlist.forms.shots import FinishingForms, ShotForm, ShotLineForm
from shoots.shotlist.models import Shot


def shoot_of(request: MemberRequest, code: str) -> Shoot:
    """Return a shoot that the member may see, or answer 404."""
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "studio")
    return get_object_or_404(shoots, code=code)


def _shot(request: MemberRequest, code: str, pk: int) -> Shot:
    shots = Shot.objects.filter(shoot=shoot_of(request, code)).select_related("shoot", "studio", "mood")
    return get_object_or_404(shots, pk=pk)


def _back(code: str, *, asked: str = "", pk: int | None = None) -> HttpResponse:
    anchor = f"#shot-{pk}" if pk else ""
    return redirect(reverse("shot_list", args=[code]) + asked + anchor)


def _list_page(request: MemberRequest, shoot: Shoot, form: ShotLineForm) -> HttpResponse:
    context = {
        "shoot": shoot,
        "page": queries.shot_list(shoot),
        "form": form,
        "moved": request.GET.get("moved", ""),
        "way": request.GET.get("way", ""),
        "added": "added" in request.GET or form.is_bound,
    }
    return render(request, "shotlist/shot_list.html", context, status=422 if form.is_bound else 200)


@require_GET
@for_roles(EVERYBODY)
def shot_list(request: MemberRequest, code: str) -> HttpResponse:
    return _list_page(request, shoot_of(request, code), ShotLineForm())


@require_POST
@for_roles(PLANNERS)
def shot_add(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    form = ShotLineForm(request.POST)
    if not form.is_valid():
        return _list_page(request, shoot, form)
    actions.add_shot(shoot=shoot, by=request.member, now=timezone.now(), **form.cleaned_data["line"])
    return redirect(reverse("shot_list", args=[code]) + "?added=1#add")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def shot_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shot = _shot(request, code, pk)
    form = ShotForm(posted(request), instance=shot, placements=brief_of(shot.shoot).placements)
    # A request without its lines, from an older page, leaves the finishing as it is.
    lines = posted(request) if "finishing-TOTAL_FORMS" in request.POST else None
    finishing = FinishingForms(lines, initial=queries.finishing_of(shot), prefix="finishing")
    if request.method == "POST" and form.is_valid() and (lines is None or finishing.is_valid()):
        changes = form.changes | ({"finishing": finishing.wanted} if lines is not None else {})
        try:
            actions.edit_shot(
                shot=shot,
                changes=changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("“%(title)s” was saved.") % {"title": shot.title})
            return _back(code, pk=pk)
    context = {
        "shoot": shot.shoot,
        "shot": shot,
        "form": form,
        "finishing": finishing,
        "card": queries.shot_card(shot, number=0),
        "cuts": queries.cuts_of(shot),
    }
    return render(request, "shotlist/shot_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def shot_duplicate(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    twin = actions.duplicate_shot(shot=_shot(request, code, pk), by=request.member, now=timezone.now())
    messages.success(request, _("A copy of “%(title)s” stands right behind it.") % {"title": twin.title})
    return _back(code, pk=twin.pk)


@require_POST
@for_roles(PLANNERS)
def shot_remove(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shot = _shot(request, code, pk)
    actions.remove_shot(shot=shot, by=request.member, now=timezone.now())
    messages.success(request, _("“%(title)s” is off the list.") % {"title": shot.title})
    return _back(code)


@require_POST
@for_roles(PLANNERS)
def shot_got(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shot = _shot(request, code, pk)
    is_got = request.POST.get("got") == "1"
    actions.mark_got(shot=shot, is_got=is_got, by=request.member, now=timezone.now())
    return _back(code, pk=pk)


@require_POST
@for_roles(PLANNERS)
def shot_move(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    way = "up" if request.POST.get("way") == "up" else "down"
    actions.move_shot(shot=_shot(request, code, pk), step=-1 if way == "up" else 1)
    return _back(code, asked=f"?moved={pk}&way={way}", pk=pk)


@require_POST
@for_roles(PLANNERS)
def shot_order(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    wanted = [int(key) for key in request.POST.getlist("shot") if key.isdecimal() and len(key) < 19]
    actions.reorder_shots(shoot=shoot, wanted=wanted)
    return HttpResponse(status=204)
