"""The studio's own lists to begin with."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import PLANNERS
from shoots.shotlist import queries
from shoots.shotlist.actions import many
from shoots.shotlist.actions import templates as actions
from shoots.shotlist.core.columns import Column
from shoots.shotlist.forms.tables import TemplateForm
from shoots.shotlist.models import Product, ShotTemplate
from shoots.shotlist.views.many import keys_of
from shoots.shotlist.views.shots import shoot_of


def _template(request: MemberRequest, pk: int) -> ShotTemplate:
    return get_object_or_404(ShotTemplate.objects.of_studio(request.member.studio).select_related("studio"), pk=pk)


@require_GET
@for_roles(PLANNERS)
def template_list(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    context = {
        "shoot": shoot,
        "cards": queries.template_cards(request.member.studio),
        "products": Product.objects.filter(shoot=shoot).count(),
        "mark": many.list_mark(shoot),
    }
    return render(request, "shotlist/template_list.html", context)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def template_new(request: MemberRequest, code: str) -> HttpResponse:
    """Keep the whole list, or the shots that were ticked, under a name."""
    shoot = shoot_of(request, code)
    picked = set(keys_of(request.POST))
    saves = "name" in request.POST
    empty = ShotTemplate(studio=request.member.studio)
    form = TemplateForm(request.POST if saves else None, instance=empty, initial={"name": shoot.title})
    if saves and form.is_valid():
        rows = queries.template_rows(shoot, picked=picked or None, keeps_parts=form.cleaned_data["keeps_parts"])
        try:
            template = actions.save_template(
                studio=request.member.studio, rows=rows, by=request.member, now=timezone.now(), **form.changes
            )
        except actions.NameTaken:
            form.add_error("name", _("There is a template of that name already."))
        else:
            said = ngettext("“%(name)s” is kept, with %(n)d shot.", "“%(name)s” is kept, with %(n)d shots.", len(rows))
            messages.success(request, said % {"name": template.name, "n": len(rows)})
            return redirect("template_list", code=code)
    cards = [card for card in queries.shot_list(shoot).cards if not picked or card.shot.pk in picked]
    context = {"shoot": shoot, "form": form, "cards": cards, "picked": picked}
    return render(request, "shotlist/template_edit.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def template_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, template = shoot_of(request, code), _template(request, pk)
    form = TemplateForm(request.POST or None, instance=template)
    del form.fields["keeps_parts"]
    if request.method == "POST" and form.is_valid():
        try:
            actions.rename_template(
                template=template,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
                **form.changes,
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except actions.NameTaken:
            form.add_error("name", _("There is a template of that name already."))
        else:
            messages.success(request, _("Saved."))
            return redirect("template_list", code=code)
    context = {"shoot": shoot, "form": form, "template": template}
    return render(request, "shotlist/template_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def template_remove(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, template = shoot_of(request, code), _template(request, pk)
    actions.remove_template(template=template, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is gone.") % {"name": template.name})
    return redirect("template_list", code=shoot.code)


@require_POST
@for_roles(PLANNERS)
def template_apply(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Put a template's shots behind those of the list, once or for each product."""
    shoot, template = shoot_of(request, code), _template(request, pk)
    rows = queries.shots_of_template(shoot, template)
    if "each" in request.POST:
        products = list(Product.objects.filter(shoot=shoot).values_list("name", flat=True))
        rows = [
            {**row, Column.TITLE: f"{product}: {row[Column.TITLE]}"[:160], Column.PRODUCTS: (product,)}
            for product in products
            for row in rows
        ]
    try:
        made = many.add_rows(
            shoot=shoot,
            rows=rows,
            seen_mark=request.POST.get("mark", ""),
            deed="template used",
            by=request.member,
            now=timezone.now(),
        )
    except many.ListChanged:
        messages.warning(request, _("The list has other shots than when you looked; nothing was added."))
        return redirect("template_list", code=code)
    if not made:
        messages.info(request, _("There is nothing in that template."))
        return redirect("template_list", code=code)
    said = ngettext("%(n)d shot was added.", "%(n)d shots were added.", len(made)) % {"n": len(made)}
    messages.success(request, said)
    return redirect(reverse("shot_list", args=[code]) + f"#shot-{made[0].pk}")
