"""What was promised against the shots."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.coverage import actions
from shoots.coverage.core.promised import LONGEST
from shoots.coverage.forms import MissingForm, PromiseForm
from shoots.coverage.models import Promise
from shoots.coverage.queries.page import coverage_page, missing_page, wants_words
from shoots.coverage.queries.papers import Promises, read_promises
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.shoot.models import Shoot
from shoots.shotlist.core.coverage import Dimension


def _shoot(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "studio")
    found: Shoot = get_object_or_404(shoots, code=code)
    return found


def _promise(request: MemberRequest, code: str, pk: int) -> Promise:
    promises = Promise.objects.filter(shoot=_shoot(request, code)).select_related("shoot__client", "studio", "mood")
    found: Promise = get_object_or_404(promises, pk=pk)
    return found


def _back(code: str) -> HttpResponse:
    return redirect(reverse("coverage_detail", args=[code]))


@require_GET
@for_roles(EVERYBODY)
def coverage_detail(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    page = coverage_page(shoot, down=request.GET.get("down", ""), across=request.GET.get("across", ""))
    return render(request, "coverage/coverage_detail.html", {"shoot": shoot, "page": page})


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def promise_new(request: MemberRequest, code: str) -> HttpResponse:
    """Write a promise down; with `key` in the place of one that was read, begun from what it says."""
    shoot = _shoot(request, code)
    key = (request.POST.get("key", "") or request.GET.get("key", ""))[:LONGEST]
    begun = _begun(read_promises(shoot), key) if key and request.method == "GET" else {}
    form = PromiseForm(request.POST or None, instance=Promise(studio=shoot.studio, shoot=shoot), initial=begun)
    if request.method == "POST" and form.is_valid():
        try:
            actions.state_promise(
                shoot=shoot, fields=form.changes, instead_of=key, by=request.member, now=timezone.now()
            )
        except actions.AlreadySettled:
            form.add_error(None, _("This promise was changed in another window already. Open it from the list again."))
        else:
            messages.success(request, _("Written down. The shots were compared again."))
            return _back(code)
    context = {"shoot": shoot, "form": form, "key": key, "promise": None}
    return render(request, "coverage/promise_edit.html", context, status=422 if form.is_bound else 200)


def _begun(known: Promises, key: str) -> dict[str, Any]:
    """Return the fields of a promise that was read, for the form that changes it."""
    one = next((one for one in known.settled.promised if one.promise.key == key), None)
    if one is None:
        raise Http404
    promise = one.promise
    names = {Dimension.MOOD: "mood", **{d: d.value.lower() for d in Dimension if d is not Dimension.MOOD}}
    return {
        "least": promise.least,
        "most": promise.most,
        "crops": promise.crops,
        "is_wish": promise.is_wish,
        **{names[dimension]: value for dimension, value in promise.wants},
    }


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def promise_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    promise = _promise(request, code, pk)
    form = PromiseForm(request.POST or None, instance=promise)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_promise(
                promise=promise,
                changes=form.changes | {"is_left_out": False},
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("Saved. The shots were compared again."))
            return _back(code)
    context = {"shoot": promise.shoot, "form": form, "key": "", "promise": promise}
    return render(request, "coverage/promise_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def promise_leave_out(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    known = read_promises(shoot)
    key = request.POST.get("key", "")
    one = next((one for one in known.settled.promised if one.promise.key == key), None)
    if one is None or key.startswith("own:"):
        messages.info(request, _("That promise is not on the list any longer. Nothing was changed."))
        return _back(code)
    actions.leave_out(shoot=shoot, key=key, by=request.member, now=timezone.now())
    words = {"what": wants_words(one.promise.wants, known)}
    messages.success(request, _("“%(what)s” no longer counts. It stands below under what was left out.") % words)
    return _back(code)


@require_POST
@for_roles(PLANNERS)
def promise_take_back(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    promise = _promise(request, code, pk)
    actions.take_back(promise=promise, by=request.member, now=timezone.now())
    if promise.instead_of:
        messages.success(request, _("What the papers say counts again."))
    else:
        messages.success(request, _("The promise is off the list."))
    return _back(code)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def missing_take_up(request: MemberRequest, code: str) -> HttpResponse:
    """Show the drafts of missing shots first, then take up those that were ticked."""
    shoot = _shoot(request, code)
    form = MissingForm(request.POST if request.method == "POST" else None, page=missing_page(shoot))
    if request.method == "POST" and form.is_valid():
        made = actions.take_up_missing(shoot=shoot, titles=form.titles, by=request.member, now=timezone.now())
        if not made:
            messages.info(request, _("Nothing was taken up: no draft was ticked, or the holes were filled meanwhile."))
            return _back(code)
        words = ngettext(
            "%(n)d shot was put at the end of the list. It says in its note which promise it keeps.",
            "%(n)d shots were put at the end of the list. Each says in its note which promise it keeps.",
            len(made),
        )
        messages.success(request, words % {"n": len(made)})
        return redirect(reverse("shot_list", args=[code]) + f"#shot-{made[0].pk}")
    context = {"shoot": shoot, "form": form, "page": form.page}
    return render(request, "coverage/missing.html", context, status=422 if form.is_bound else 200)
