"""What the studio keeps about light: its starting points, what its meter says, and what it means by its numbers."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from shoots.lighting import actions
from shoots.lighting.forms.aids import ConventionsForm, StartForm
from shoots.lighting.models import LightFactor, LightStart
from shoots.lighting.queries import factors, starts
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import OWNER, PLANNERS
from shoots.pages.answers import posted


@require_safe
@for_roles(PLANNERS)
def start_list(request: MemberRequest) -> HttpResponse:
    return render(request, "lighting/start_list.html", {"cards": starts.start_cards(request.studio)})


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def start_edit(request: MemberRequest, pk: int) -> HttpResponse:
    start = get_object_or_404(LightStart.objects.of_studio(request.studio), pk=pk)
    form = StartForm(posted(request), instance=start)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_start(
                start=start,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except actions.NameTaken:
            form.add_error("name", _("Another start is called so."))
        else:
            messages.success(request, _("Saved."))
            return redirect("start_list")
    context = {"start": start, "form": form}
    return render(request, "lighting/start_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def start_remove(request: MemberRequest, pk: int) -> HttpResponse:
    start = get_object_or_404(LightStart.objects.of_studio(request.studio), pk=pk)
    actions.remove_start(start=start, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is gone; setups that began with it stay.") % {"name": start.name})
    return redirect("start_list")


@require_safe
@for_roles(PLANNERS)
def meter_list(request: MemberRequest) -> HttpResponse:
    return render(request, "lighting/meter_list.html", {"cards": factors.meter_page(request.studio)})


@require_POST
@for_roles(PLANNERS)
def factor_withdraw(request: MemberRequest, pk: int) -> HttpResponse:
    known = LightFactor.objects.of_studio(request.studio).select_related("lamp", "modifier", "studio")
    factor = get_object_or_404(known, pk=pk)
    actions.withdraw_factor(factor=factor, by=request.member, now=timezone.now())
    messages.success(request, _("%(light)s is planned from its stated numbers again.") % {"light": factor})
    return redirect("meter_list")


@require_http_methods(["GET", "POST"])
@for_roles(OWNER)
def light_conventions(request: MemberRequest) -> HttpResponse:
    studio = request.studio
    form = ConventionsForm(posted(request), instance=studio)
    if request.method == "POST" and form.is_valid():
        try:
            actions.settle_conventions(
                studio=studio,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            studio.refresh_from_db()
            form.refuse_edited_meanwhile(current_version=studio.version)
        else:
            messages.success(request, _("Settled. Every plan of light counts with it from now on."))
            return redirect("light_conventions")
    return render(request, "lighting/light_conventions.html", {"form": form}, status=422 if form.is_bound else 200)
