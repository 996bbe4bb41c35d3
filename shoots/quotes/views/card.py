"""The studio's rate card."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import PLANNERS
from shoots.pages.answers import posted
from shoots.quotes.actions import card as actions
from shoots.quotes.forms.pricing import BeginCardForm, RateForm
from shoots.quotes.models import Rate, RateKind
from shoots.quotes.queries.card import STARTING_RATES, card_page


def _rate(request: MemberRequest, pk: int) -> Rate:
    return get_object_or_404(Rate.objects.of_studio(request.studio).select_related("studio"), pk=pk)


@require_GET
@for_roles(PLANNERS)
def rate_list(request: MemberRequest) -> HttpResponse:
    context = {"page": card_page(request.studio), "starting": STARTING_RATES}
    return render(request, "quotes/rate_list.html", context)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def rate_begin(request: MemberRequest) -> HttpResponse:
    form = BeginCardForm(posted(request), studio=request.studio)
    if request.method == "POST" and form.is_valid():
        made = actions.begin_card(studio=request.studio, rates=form.rates, by=request.member, now=timezone.now())
        messages.success(request, _("Your card has %(n)d rates.") % {"n": len(made)})
        return redirect("rate_list")
    return render(request, "quotes/rate_begin.html", {"form": form}, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def rate_new(request: MemberRequest) -> HttpResponse:
    kind = request.GET.get("kind", "")
    initial = {"kind": kind} if kind in RateKind.__members__ else {}
    form = RateForm(posted(request), instance=Rate(studio=request.studio), studio=request.studio, initial=initial)
    if request.method == "POST" and form.is_valid():
        rate = actions.add_rate(studio=request.studio, fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("“%(what)s” is on the card.") % {"what": rate})
        return redirect(reverse("rate_list") + f"#rate-{rate.pk}")
    context = {"form": form, "rate": None}
    return render(request, "quotes/rate_edit.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def rate_edit(request: MemberRequest, pk: int) -> HttpResponse:
    rate = _rate(request, pk)
    form = RateForm(posted(request), instance=rate, studio=request.studio)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_rate(
                rate=rate,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("“%(what)s” was saved.") % {"what": rate})
            return redirect(reverse("rate_list") + f"#rate-{rate.pk}")
    context = {"form": form, "rate": rate}
    return render(request, "quotes/rate_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def rate_move(request: MemberRequest, pk: int) -> HttpResponse:
    rate = _rate(request, pk)
    actions.move_rate(rate=rate, step=-1 if request.POST.get("way") == "up" else 1)
    return redirect(reverse("rate_list") + f"#rate-{rate.pk}")


@require_POST
@for_roles(PLANNERS)
def rate_away(request: MemberRequest, pk: int) -> HttpResponse:
    rate = _rate(request, pk)
    away = request.POST.get("way") != "back"
    actions.put_away_rate(rate=rate, away=away, by=request.member, now=timezone.now())
    said = _("“%(what)s” is put away.") if away else _("“%(what)s” is back on the card.")
    messages.success(request, said % {"what": rate})
    return redirect("rate_list")
