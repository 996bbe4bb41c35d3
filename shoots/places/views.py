"""Places, their spots, and their light."""

from __future__ import annotations

from typing import Any, cast

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PLANNERS, PRICES
from shoots.pages import choices
from shoots.pages.answers import posted
from shoots.pages.edits import saved
from shoots.pages.forms import RecordForm
from shoots.places import actions, queries
from shoots.places.forms import DayForm, PermissionForm, PlaceForm, SpotForm
from shoots.places.models import Permission, Place, Spot
from shoots.trail import queries as trail


@require_safe
@for_roles(PRICES)
def place_list(request: MemberRequest) -> HttpResponse:
    away = "away" in request.GET
    today = timezone.localdate(timezone=request.studio.zone)
    cards = queries.place_cards(request.studio, away=away, today=today)
    return render(request, "places/place_list.html", {"cards": cards, "away": away, "today": today})


@require_safe
@for_roles(PRICES)
def place_detail(request: MemberRequest, pk: int) -> HttpResponse:
    place = _place(request, pk)
    today = timezone.localdate(timezone=request.studio.zone)
    form = DayForm(request.GET if "date" in request.GET else None, initial={"date": today})
    day = form.cleaned_data["date"] if form.is_bound and form.is_valid() else today
    return render(
        request,
        "places/place_detail.html",
        {
            "page": queries.place_page(place, studio=request.studio, day=day),
            "place": place,
            "form": form,
            "today": today,
            "country": dict(choices.countries()).get(place.country, place.country),
            "trail": trail.history_of(place, studio=request.studio),
        },
    )


@for_roles(PLANNERS)
def place_new(request: MemberRequest) -> HttpResponse:
    studio = request.studio
    form = PlaceForm(
        posted(request), initial={"country": studio.country, "time_zone": studio.time_zone, "elevation_m": 0}
    )
    if request.method == "POST" and form.is_valid():
        place = actions.add_place(fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is on your list.") % {"name": place})
        return redirect("place_detail", pk=place.pk)
    return _form_page(request, form, title=_("A new place"))


@for_roles(PLANNERS)
def place_edit(request: MemberRequest, pk: int) -> HttpResponse:
    place = _place(request, pk)
    form = PlaceForm(posted(request), instance=place)
    if saved(request, form, actions.edit):
        return redirect("place_detail", pk=pk)
    return _form_page(request, form, title=place.name, place_pk=pk)


@require_POST
@for_roles(PLANNERS)
def place_permission(request: MemberRequest, pk: int) -> HttpResponse:
    place = _place(request, pk)
    form = PermissionForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Nothing was changed: the note is too long, or that is no state."))
        return redirect("place_detail", pk=pk)
    actions.note_permission(
        place=place,
        permission=Permission(form.cleaned_data["permission"]),
        note=form.cleaned_data["note"],
        by=request.member,
        now=timezone.now(),
    )
    messages.success(request, _("Noted: %(state)s.") % {"state": place.get_permission_display().lower()})
    return redirect("place_detail", pk=pk)


@require_POST
@for_roles(PLANNERS)
def place_put_away(request: MemberRequest, pk: int) -> HttpResponse:
    place = _place(request, pk)
    if "back" in request.POST:
        actions.take_out(place=place, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is back on the list.") % {"name": place})
    else:
        actions.put_away(place=place, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is put away; shoots keep it.") % {"name": place})
    return redirect("place_detail", pk=pk)


@for_roles(PLANNERS)
def spot_new(request: MemberRequest, pk: int) -> HttpResponse:
    place = _place(request, pk)
    form = SpotForm(posted(request))
    if request.method == "POST" and form.is_valid():
        actions.add_spot(place=place, fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("The spot is on the page."))
        return redirect("place_detail", pk=pk)
    return _form_page(request, form, title=_("A spot at %(place)s") % {"place": place}, place_pk=pk)


@for_roles(PLANNERS)
def spot_edit(request: MemberRequest, pk: int) -> HttpResponse:
    spot = _spot(request, pk)
    form = SpotForm(posted(request), instance=spot)
    if saved(request, form, actions.edit):
        return redirect("place_detail", pk=spot.place_id)
    return _form_page(request, form, title=spot.name, place_pk=spot.place_id, spot=spot)


@require_POST
@for_roles(PLANNERS)
def spot_remove(request: MemberRequest, pk: int) -> HttpResponse:
    spot = _spot(request, pk)
    actions.remove_spot(spot=spot, by=request.member, now=timezone.now())
    messages.success(request, _("The spot is gone; setups that stood there keep their lights."))
    return redirect("place_detail", pk=spot.place_id)


def _place(request: MemberRequest, pk: int) -> Place:
    return cast(Place, get_object_or_404(Place.objects.of_studio(request.studio), pk=pk))


def _spot(request: MemberRequest, pk: int) -> Spot:
    return cast(Spot, get_object_or_404(Spot.objects.of_studio(request.studio).select_related("place"), pk=pk))


def _form_page(
    request: MemberRequest, form: RecordForm, *, title: str, place_pk: int | None = None, **more: Any
) -> HttpResponse:
    context = {"form": form, "title": title, "place_pk": place_pk, **more}
    return render(request, "places/record_form.html", context, status=422 if form.is_bound else 200)
