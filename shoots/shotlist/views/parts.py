"""Products with their samples, outfits, and who is in the pictures."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.brief.queries import brief_of
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.pages.answers import posted
from shoots.pages.edits import saved
from shoots.shoot.models import Shoot
from shoots.shotlist import queries
from shoots.shotlist.actions import parts as actions
from shoots.shotlist.forms.parts import NamedForm, OutfitForm, ProductForm, SampleForm, SubjectForm
from shoots.shotlist.models import Named, Outfit, Product, Sample, Subject
from shoots.shotlist.views.shots import shoot_of

#: What each kind is, its form, and how a new one is called on its page.
KINDS: dict[str, tuple[type[Named], type[NamedForm], Any]] = {
    "product": (Product, ProductForm, gettext_lazy("A product")),
    "outfit": (Outfit, OutfitForm, gettext_lazy("An outfit")),
    "subject": (Subject, SubjectForm, gettext_lazy("Somebody in the pictures")),
}


def _kind(kind: str) -> tuple[type[Named], type[NamedForm], Any]:
    if kind not in KINDS:
        raise Http404
    return KINDS[kind]


def _back(shoot: Shoot, anchor: str = "") -> HttpResponse:
    return redirect(reverse("shot_parts", args=[shoot.code]) + (f"#{anchor}" if anchor else ""))


def _sample(request: MemberRequest, code: str, pk: int) -> tuple[Shoot, Sample]:
    shoot = shoot_of(request, code)
    samples = Sample.objects.filter(product__shoot=shoot).select_related("product__shoot", "studio")
    return shoot, get_object_or_404(samples, pk=pk)


def _page(request: MemberRequest, shoot: Shoot, form: Any, **context: Any) -> HttpResponse:
    known = {"shoot": shoot, "form": form, **context}
    return render(request, "shotlist/part_edit.html", known, status=422 if form.is_bound else 200)


@require_GET
@for_roles(EVERYBODY)
def shot_parts(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    page = queries.parts_page(shoot, today=shoot.studio.local_date(timezone.now()))
    return render(request, "shotlist/shot_parts.html", {"shoot": shoot, "page": page})


@require_POST
@for_roles(PLANNERS)
def products_take_over(request: MemberRequest, code: str) -> HttpResponse:
    """Make rows of the products that the brief lists."""
    shoot = shoot_of(request, code)
    names = brief_of(shoot).products.splitlines()
    actions.take_over_products(shoot=shoot, names=names, by=request.member, now=timezone.now())
    return _back(shoot, "products")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def part_new(request: MemberRequest, code: str, kind: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    model, form_class, words = _kind(kind)
    form = form_class(posted(request), instance=model(shoot=shoot, studio=shoot.studio))
    if request.method == "POST" and form.is_valid():
        part = actions.add_part(model=model, shoot=shoot, fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("“%(name)s” was added.") % {"name": part.name})
        return _back(shoot, f"{kind}s")
    return _page(request, shoot, form, title=words, kind=kind)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def part_edit(request: MemberRequest, code: str, kind: str, pk: int) -> HttpResponse:
    shoot = shoot_of(request, code)
    model, form_class, _words = _kind(kind)
    part = get_object_or_404(model._default_manager.filter(shoot=shoot).select_related("shoot", "studio"), pk=pk)
    form = form_class(posted(request), instance=part)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_part(
                part=part,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("“%(name)s” was saved.") % {"name": part.name})
            return _back(shoot, f"{kind}s")
    return _page(request, shoot, form, title=part.name, kind=kind, part=part, used_in=part.shots.count())


@require_POST
@for_roles(PLANNERS)
def part_remove(request: MemberRequest, code: str, kind: str, pk: int) -> HttpResponse:
    shoot = shoot_of(request, code)
    model, _form_class, _words = _kind(kind)
    part = get_object_or_404(model._default_manager.filter(shoot=shoot).select_related("shoot", "studio"), pk=pk)
    actions.remove_part(part=part, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is gone.") % {"name": part.name})
    return _back(shoot, f"{kind}s")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def sample_new(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot = shoot_of(request, code)
    product = get_object_or_404(Product.objects.filter(shoot=shoot).select_related("shoot", "studio"), pk=pk)
    form = SampleForm(posted(request), instance=Sample(product=product, studio=shoot.studio))
    if request.method == "POST" and form.is_valid():
        actions.add_sample(product=product, fields=form.changes, by=request.member, now=timezone.now())
        return _back(shoot, f"product-{product.pk}")
    return _page(request, shoot, form, title=_("A sample of %(product)s") % {"product": product})


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def sample_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, sample = _sample(request, code, pk)
    form = SampleForm(posted(request), instance=sample)

    def edit(*, record: Sample, **rest: Any) -> None:
        actions.edit_sample(sample=record, **rest)

    if saved(request, form, edit):
        return _back(shoot, f"product-{sample.product_id}")
    title = _("%(product)s: %(sample)s") % {"product": sample.product, "sample": sample}
    return _page(request, shoot, form, title=title, sample=sample)


@require_POST
@for_roles(PLANNERS)
def sample_arrived(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, sample = _sample(request, code, pk)
    now = timezone.now()
    actions.note_arrived(sample=sample, on=shoot.studio.local_date(now), by=request.member, now=now)
    return _back(shoot, f"product-{sample.product_id}")


@require_POST
@for_roles(PLANNERS)
def sample_remove(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, sample = _sample(request, code, pk)
    actions.remove_sample(sample=sample, by=request.member, now=timezone.now())
    return _back(shoot, f"product-{sample.product_id}")
