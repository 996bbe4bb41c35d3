"""Shots as a table: pasted, read from a file, written to one."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.shoot.models import Shoot
from shoots.shotlist import adapters, queries
from shoots.shotlist.actions import many as actions
from shoots.shotlist.core.cells import joined_table
from shoots.shotlist.core.columns import HEADS, Column
from shoots.shotlist.forms.tables import TableForm, chosen_columns, mended_cells
from shoots.shotlist.views.many import keys_of
from shoots.shotlist.views.shots import shoot_of

#: Letters that a column of a workbook is wide.
WIDTHS = {Column.TITLE: 42, Column.PURPOSE: 26, Column.PLACEMENTS: 26, Column.NOTE: 40, Column.FINISHING: 26}
#: Cells with a problem that can be typed anew in one preview; more are a column that holds something else.
MOST_MENDED = 200


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def shot_table(request: MemberRequest, code: str) -> HttpResponse:
    """Take a table, show what it would become, and take it over when that is asked for."""
    shoot = shoot_of(request, code)
    if request.method == "GET":
        return _paste_page(request, shoot, TableForm())
    form = TableForm(request.POST, request.FILES)
    if not form.is_valid():
        return _paste_page(request, shoot, form)
    is_second = request.POST.get("step") in ("look", "take")
    preview = queries.preview(
        shoot,
        form.table,
        has_head=("head" in request.POST) if is_second else None,
        chosen=chosen_columns(request.POST) if is_second else None,
        mended=mended_cells(request.POST) if is_second else None,
    )
    told = ""
    if request.POST.get("step") == "take":
        if preview.good and (not preview.problems or "leave" in request.POST):
            try:
                made = actions.add_rows(
                    shoot=shoot,
                    rows=preview.good,
                    seen_mark=request.POST.get("mark", ""),
                    by=request.member,
                    now=timezone.now(),
                )
            except actions.ListChanged:
                told = _("The list has other shots than when you looked. Look at it once more before you add these.")
            else:
                said = ngettext("%(n)d shot was added.", "%(n)d shots were added.", len(made)) % {"n": len(made)}
                messages.success(request, said)
                return redirect(reverse("shot_list", args=[code]) + f"#shot-{made[0].pk}")
        elif not preview.problems:
            told = _("Say which column holds what is in the picture; without it no row is a shot.")
    context = {
        "shoot": shoot,
        "preview": preview,
        "columns": [(str(column), head) for column, head in HEADS.items()],
        "mark": actions.list_mark(shoot),
        "told": told,
        "most_mended": MOST_MENDED,
    }
    refused = request.POST.get("step") == "take"
    return render(request, "shotlist/table_preview.html", context, status=422 if refused else 200)


def _paste_page(request: MemberRequest, shoot: Shoot, form: TableForm) -> HttpResponse:
    context = {"shoot": shoot, "form": form, "heads": list(HEADS.values())}
    return render(request, "shotlist/shot_table.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(EVERYBODY)
def shot_export(request: MemberRequest, code: str, kind: str) -> HttpResponse:
    """Answer with the list as a file, or with the shots that were ticked. Crew get no prices."""
    shoot = shoot_of(request, code)
    picked = set(keys_of(request.POST)) if request.method == "POST" else None
    rows = queries.shot_table(shoot, picked=picked or None, with_prices=request.member.sees_prices)
    if kind == "csv":
        # With its mark, without which spreadsheets take UTF-8 for something else.
        answer = HttpResponse(joined_table(rows).encode("utf-8-sig"), content_type="text/csv; charset=utf-8")
    elif kind == "xlsx":
        order = list(Column)
        data = adapters.workbook(
            rows,
            numbers=[order.index(Column.MINUTES), order.index(Column.FINALS)],
            widths=[WIDTHS.get(column, 18) for column in order],
        )
        answer = HttpResponse(data, content_type="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")
    else:
        raise Http404
    answer["Content-Disposition"] = content_disposition_header(True, f"{shoot.code}-shots.{kind}")
    answer["X-Content-Type-Options"] = "nosniff"
    return answer
