"""Usage terms, factors and licences."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PLANNERS, PRICES
from shoots.pages.answers import posted
from shoots.rights import actions
from shoots.rights.forms import FactorsForm, QuestionForm, UsageTermsForm
from shoots.rights.models import Licence, UsageFactors, UsageTerms
from shoots.rights.queries.licences import answer_words, licence_rows, licences_page
from shoots.rights.queries.terms import factors_of, frozen_terms, missing_terms, terms_of
from shoots.rights.queries.words import usage_words
from shoots.shoot.models import Shoot


def _shoot(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "licensee", "studio")
    return get_object_or_404(shoots, code=code)


def _back(request: MemberRequest, otherwise: str) -> str:
    """Return where the page was opened from, if that is one of ours."""
    wanted = request.POST.get("next") or request.GET.get("next") or ""
    is_ours = url_has_allowed_host_and_scheme(wanted, allowed_hosts=None) and wanted.startswith("/")
    return wanted if is_ours else otherwise


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def usage_edit(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    back = _back(request, reverse("licence_list", args=[code]))
    form = UsageTermsForm(posted(request), instance=terms_of(shoot))
    if request.method == "POST" and form.is_valid():
        try:
            actions.save_terms(
                shoot=shoot,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            current = UsageTerms.objects.filter(shoot=shoot).values_list("version", flat=True).first()
            form.refuse_edited_meanwhile(current_version=current or 0)
        else:
            messages.success(request, _("The usage is settled."))
            return redirect(back)
    context = {"shoot": shoot, "form": form, "back": back}
    return render(request, "rights/usage_edit.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def factor_list(request: MemberRequest) -> HttpResponse:
    factors, row = factors_of(request.studio)
    back = _back(request, reverse("factor_list"))
    form = FactorsForm(posted(request), factors=factors, version=row.version if row.pk else 0)
    if request.method == "POST" and form.is_valid():
        try:
            actions.save_factors(
                studio=request.studio,
                table=form.table,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            current = UsageFactors.objects.of_studio(request.studio).values_list("version", flat=True).first()
            form.refuse_edited_meanwhile(current_version=current or 0)
        else:
            messages.success(request, _("The factors are saved; they are yours from now on."))
            return redirect(back)
    context = {"form": form, "is_own": row.pk is not None, "back": back}
    return render(request, "rights/factor_list.html", context, status=422 if form.is_bound else 200)


@require_GET
@for_roles(PRICES)
def licence_list(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    now = timezone.now()
    rows = licence_rows(shoot, now=now)
    asked = "medium" in request.GET
    licensee = rows[0].licensee if rows else ""
    form = QuestionForm(request.GET if asked else None, licensee=licensee, initial={"on": timezone.localdate(now)})
    answer = None
    if rows and asked and form.is_valid():
        typed = form.cleaned_data
        answer = answer_words(
            shoot,
            medium=typed["medium"],
            country=typed["country"],
            on=typed["on"],
            by_licensee=typed["by"] == "licensee",
        )
    terms = terms_of(shoot)
    missing = missing_terms(terms)
    context = {
        "shoot": shoot,
        "rows": rows,
        "form": form,
        "answer": answer,
        "terms": terms if terms.pk else None,
        "missing": missing,
        "words": None if missing else usage_words(frozen_terms(terms)),
    }
    return render(request, "rights/licence_list.html", context)


@require_GET
@for_roles(PRICES)
def licences(request: MemberRequest) -> HttpResponse:
    page = licences_page(request.studio, now=timezone.now())
    return render(request, "rights/licences.html", {"page": page})


@require_POST
@for_roles(PLANNERS)
def licence_end(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    found = Licence.objects.filter(shoot=_shoot(request, code)).select_related("shoot", "studio")
    licence = get_object_or_404(found, pk=pk)
    try:
        actions.end_licence(licence=licence, by=request.member, now=timezone.now())
    except actions.AlreadyEnded:
        messages.info(request, _("That was noted before."))
    else:
        messages.success(
            request, _("%(number)s is ended; nothing reminds of it any more.") % {"number": licence.number}
        )
    return redirect("licence_list", code=code)
