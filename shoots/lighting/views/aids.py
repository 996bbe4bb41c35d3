"""Beside a setup: its panels, keeping its light as a start, and two setups next to each other."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.lighting import actions
from shoots.lighting.forms.aids import KeepForm, PanelForm, PanelPlaceForm, UnderForm
from shoots.lighting.models import PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries import changes, rows
from shoots.lighting.views.setups import back_to, setup_of, setup_page, shoot_of
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.pages.answers import posted


def _panel(setup: Setup, pk: int) -> PlacedPanel:
    placed = PlacedPanel.objects.filter(setup=setup).select_related("panel", "setup__shoot", "studio")
    return get_object_or_404(placed, pk=pk)


def _lamps(setup: Setup) -> list[tuple[str, PlacedLamp]]:
    return rows.lettered(list(setup.lamps.all()))


def _to_panels(code: str, pk: int) -> HttpResponse:
    return redirect(reverse("setup_detail", args=[code, pk]) + "#panels")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def panel_new(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    blank = PlacedPanel(setup=setup, studio=setup.studio)
    form = PanelForm(posted(request), instance=blank, lamps=_lamps(setup))
    if request.method == "POST" and form.is_valid():
        actions.place_panel(setup=setup, by=request.member, now=timezone.now(), **form.changes)
        return _to_panels(code, pk)
    return _panel_page(request, setup, form, None)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def panel_edit(request: MemberRequest, code: str, pk: int, panel_pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    placed = _panel(setup, panel_pk)
    form = PanelForm(posted(request), instance=placed, lamps=_lamps(setup))
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_panel(
                placed=placed,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            return _to_panels(code, pk)
    return _panel_page(request, setup, form, placed)


def _panel_page(request: MemberRequest, setup: Setup, form: PanelForm, placed: PlacedPanel | None) -> HttpResponse:
    context = {"shoot": setup.shoot, "setup": setup, "form": form, "placed": placed}
    return render(request, "lighting/panel_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def panel_place(request: MemberRequest, code: str, pk: int, panel_pk: int) -> HttpResponse:
    """Move or turn a panel: typed numbers and a drag on a drawing post the same fields."""
    placed = _panel(setup_of(request, code, pk), panel_pk)
    form = PanelPlaceForm(posted(request), instance=placed)
    is_saved = False
    if form.is_valid():
        try:
            actions.edit_panel(
                placed=placed,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            is_saved = True
    if is_saved and not request.htmx:
        return back_to(request, code, pk, f"#panel-{panel_pk}")
    setup = setup_of(request, code, pk)
    return setup_page(request, setup) if is_saved else setup_page(request, setup, panel_form=form, status=422)


@require_POST
@for_roles(PLANNERS)
def setup_under(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Say whether the ambient reading was taken under the scrims and flags for sun and sky."""
    setup = setup_of(request, code, pk)
    form = UnderForm(request.POST)
    if not form.is_valid() or setup.ambient_ev100 is None:
        messages.error(request, _("There is no such reading any more; nothing was changed."))
        return back_to(request, code, pk, "#panels")
    try:
        actions.edit_setup(
            setup=setup,
            changes={"ambient_under": form.cleaned_data["under"] == "yes"},
            seen_version=form.cleaned_data["setup_version"],
            by=request.member,
            now=timezone.now(),
        )
    except actions.EditedMeanwhile:
        messages.error(request, _("Somebody changed this setup in the meantime; look at its reading again."))
    return back_to(request, code, pk, "#panels")


@require_POST
@for_roles(PLANNERS)
def panel_remove(request: MemberRequest, code: str, pk: int, panel_pk: int) -> HttpResponse:
    placed = _panel(setup_of(request, code, pk), panel_pk)
    actions.remove_panel(placed=placed, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is out of this setup.") % {"name": placed.panel})
    return _to_panels(code, pk)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def setup_keep(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    form = KeepForm(posted(request), setup=setup)
    if request.method == "POST" and form.is_valid():
        try:
            start = actions.keep_start(setup=setup, by=request.member, now=timezone.now(), **form.cleaned_data)
        except actions.NameTaken:
            form.add_error("name", _("Another start is called so: choose it below to take its place, or another name."))
        else:
            messages.success(request, _("New setups can begin with “%(name)s”.") % {"name": start.name})
            return redirect("setup_detail", code=code, pk=pk)
    context = {"shoot": setup.shoot, "setup": setup, "form": form}
    return render(request, "lighting/setup_keep.html", context, status=422 if form.is_bound else 200)


@require_GET
@for_roles(EVERYBODY)
def setup_compare(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    setups, before, after = changes.pair_of(shoot, request.GET.get("from", ""), request.GET.get("to", ""))
    context = {
        "shoot": shoot,
        "setups": setups,
        "before": before,
        "after": after,
        "page": changes.side_by_side(before, after) if before and after else None,
    }
    return render(request, "lighting/setup_compare.html", context)
