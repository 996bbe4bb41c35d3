"""The bag."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from shoots.kit import actions, queries
from shoots.kit.forms import FORMS
from shoots.kit.models import SECTIONS, TITLES, Kit
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import PLANNERS, PRICES
from shoots.pages.answers import posted
from shoots.pages.forms import RecordForm


@require_safe
@for_roles(PRICES)
def kit_list(request: MemberRequest) -> HttpResponse:
    away = "away" in request.GET
    return render(request, "kit/kit_list.html", {"bag": queries.bag(request.studio, away=away), "away": away})


@for_roles(PLANNERS)
def kit_new(request: MemberRequest, kind: str) -> HttpResponse:
    _section(kind)
    form = _form(request, kind)
    if request.method == "POST" and form.is_valid():
        item = actions.add(slug=kind, fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is in the bag.") % {"name": item})
        return redirect("kit_list")
    return _form_page(request, form, kind=kind, title=_("Into the bag: %(kind)s") % {"kind": TITLES[kind].lower()})


@for_roles(PLANNERS)
def kit_edit(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    item = _item(request, kind, pk)
    form = _form(request, kind, item)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit(
                item=item,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            item.refresh_from_db()
            form.refuse_edited_meanwhile(current_version=item.version)
        else:
            messages.success(request, _("Saved."))
            return redirect("kit_list")
    return _form_page(request, form, kind=kind, title=item.name, item=item)


@require_POST
@for_roles(PLANNERS)
def kit_put_away(request: MemberRequest, kind: str, pk: int) -> HttpResponse:
    item = _item(request, kind, pk)
    if "back" in request.POST:
        actions.take_out(item=item, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is back in the bag.") % {"name": item})
    else:
        actions.put_away(item=item, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is put away; setups planned with it keep it.") % {"name": item})
    return redirect("kit_list")


@require_POST
@for_roles(PLANNERS)
def kit_starter(request: MemberRequest, kind: str, key: str) -> HttpResponse:
    _section(kind)
    try:
        item = actions.add_starter(slug=kind, key=key, by=request.member, now=timezone.now())
    except actions.NoSuchStarter:
        raise Http404
    messages.success(
        request,
        _("%(name)s is in the bag, with the numbers that are usual. Put yours in when you know them.") % {"name": item},
    )
    return redirect("kit_list")


def _form(request: MemberRequest, kind: str, item: Kit | None = None) -> RecordForm:
    more = {"studio": request.studio} if kind == "lights" else {}
    return FORMS[kind](posted(request), instance=item, **more)


def _section(kind: str) -> type[Kit]:
    if kind not in SECTIONS:
        raise Http404
    return SECTIONS[kind]


def _item(request: MemberRequest, kind: str, pk: int) -> Kit:
    return cast(Kit, get_object_or_404(_section(kind).objects.of_studio(request.studio), pk=pk))


def _form_page(
    request: MemberRequest, form: RecordForm, *, kind: str, title: str, item: Kit | None = None
) -> HttpResponse:
    context = {"form": form, "kind": kind, "title": title, "item": item}
    return render(request, "kit/record_form.html", context, status=422 if form.is_bound else 200)
