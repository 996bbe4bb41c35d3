"""Shots as a table: pasted, read from a file, written to one."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_http_methods

from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.shoot.models import Shoot
from shoots.shotlist import adapters, queries
from shoots.shotlist.actions import many
from shoots.shotlist.actions import tables as actions
from shoots.shotlist.core.cells import joined_table
from shoots.shotlist.core.columns import HEADS, Column
from shoots.shotlist.core.preview import TablePreview
from shoots.shotlist.forms.tables import TableForm, said_of_preview
from shoots.shotlist.views.many import keep_undo, keys_of, shortened
from shoots.shotlist.views.shots import shoot_of

LIST_CHANGED = gettext_lazy(
    "The list says something else than when you looked, so nothing was written. This is what the rows would do now."
)
NO_TITLE = gettext_lazy("Say which column holds what is in the picture; without it no row is a shot.")
#: Letters that a column of a workbook is wide.
WIDTHS = {
    Column.NUMBER: 9,
    Column.TITLE: 42,
    Column.PURPOSE: 26,
    Column.PLACEMENTS: 26,
    Column.NOTE: 40,
    Column.FINISHING: 26,
}
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
    said = said_of_preview(request.POST) if is_second else {}
    look = queries.table_look(shoot, form.table, with_prices=request.member.sees_prices, **said)
    preview = look.preview
    told = ""
    if request.POST.get("step") == "take":
        if request.POST.get("mark") != look.mark:
            told = LIST_CHANGED
        elif preview.problems and "leave" not in request.POST:
            told = _("Nothing was written: mend the cells that can’t be read, or say that their rows are left out.")
        elif not preview.names_shots:
            told = NO_TITLE
        elif not preview.taken:
            told = _("Nothing was written: there is no row that says something new.")
        else:
            try:
                taken = actions.take_table(
                    shoot=shoot,
                    rows=preview.good,
                    edits={edit.pk: edit.values for edit in preview.edits},
                    seen=look.seen,
                    by=request.member,
                    now=timezone.now(),
                )
            except many.ListChanged:
                told = LIST_CHANGED
                look = queries.table_look(shoot, form.table, with_prices=request.member.sees_prices, **said)
            else:
                return _taken(request, shoot, look.preview, taken)
    context = {
        "shoot": shoot,
        "preview": look.preview,
        "columns": [(str(column), head) for column, head in HEADS.items()],
        "mark": look.mark,
        "told": told,
        "most_mended": MOST_MENDED,
    }
    refused = request.POST.get("step") == "take"
    return render(request, "shotlist/table_preview.html", context, status=422 if refused else 200)


def _taken(request: MemberRequest, shoot: Shoot, preview: TablePreview, taken: actions.TakenTable) -> HttpResponse:
    if made := taken.made:
        said = ngettext("%(n)d shot was added.", "%(n)d shots were added.", len(made)) % {"n": len(made)}
        messages.success(request, said)
    if not taken.changed:
        return redirect(reverse("shot_list", args=[shoot.code]) + (f"#shot-{made[0].pk}" if made else ""))
    words = {
        edit.pk: [
            [change.head, shortened(change.old), shortened(change.new)]
            for change in preview.rows[edit.number - 1].changes
        ]
        for edit in preview.edits
    }
    keep_undo(request, shoot, taken.changed, words=words, added=len(made))
    return redirect("shot_changed", code=shoot.code)


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
            numbers=[order.index(column) for column in (Column.NUMBER, Column.MINUTES, Column.FINALS, Column.FRAMES)],
            widths=[WIDTHS.get(column, 18) for column in order],
        )
        answer = HttpResponse(data, content_type="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")
    else:
        raise Http404
    answer["Content-Disposition"] = content_disposition_header(True, f"{shoot.code}-shots.{kind}")
    answer["X-Content-Type-Options"] = "nosniff"
    return answer
