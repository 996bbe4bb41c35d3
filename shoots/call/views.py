"""The call: its page while one types, its drafts, and the shoot it becomes."""

from __future__ import annotations

import uuid
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.call import actions
from shoots.call.forms import DraftForm, NotesForm, TakeUpForm
from shoots.call.models import Call, Draft
from shoots.call.queries import page as pages
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import PLANNERS, PRICES
from shoots.people.models import Client
from shoots.shoot import actions as shoot_actions
from shoots.shoot.models import Shoot
from shoots.shoot.queries import next_code

TEMPLATE = "call/call_detail.html"


def _call(request: MemberRequest, pk: int) -> Call:
    rows = Call.objects.of_studio(request.studio).select_related("studio", "shoot__client", "shoot__contact")
    call: Call = get_object_or_404(rows, pk=pk)
    return call


def _draft(call: Call, pk: int) -> Draft:
    draft: Draft = get_object_or_404(Draft.objects.select_related("studio"), call=call, pk=pk)
    draft.call = call
    return draft


def _shoot(request: MemberRequest, code: str) -> Shoot:
    rows = Shoot.objects.visible_to(request.member).select_related("client", "contact", "studio")
    shoot: Shoot = get_object_or_404(rows, code=code)
    return shoot


def _by_script(request: MemberRequest) -> bool:
    return request.headers.get("Accept") == "application/json"


@require_GET
@for_roles(PRICES)
def call_list(request: MemberRequest) -> HttpResponse:
    return render(request, "call/call_list.html", {"calls": pages.calls_at_hand(request.studio)})


def _page(request: MemberRequest, call: Call | None, form: NotesForm, **context: Any) -> HttpResponse:
    """The page of a call, stored or not yet; 422 when what was typed was refused."""
    shoot = context.pop("shoot", call.shoot if call else None)
    clients = Client.objects.of_studio(request.studio).filter(put_away_at=None)
    context |= {
        "layout": "layouts/shoot.html" if shoot else "layouts/base.html",
        "shoot": shoot,
        "call": call,
        "form": form,
        "page": pages.call_page(call) if call else None,
        "callers": clients.values_list("name", flat=True),
        "max_bytes": actions.LONGEST_NOTES,
    }
    return render(request, TEMPLATE, context, status=422 if form.is_bound and form.errors else 200)


def _form_of(call: Call) -> NotesForm:
    stored = {"caller": call.caller, "notes": call.notes, "version": call.version, "key": call.key}
    return NotesForm(initial=stored)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def call_new(request: MemberRequest) -> HttpResponse:
    shoot = _shoot(request, request.POST["shoot"]) if request.POST.get("shoot") else None
    if request.method != "POST":
        return _page(request, None, NotesForm(initial={"key": uuid.uuid4()}))
    form = NotesForm(request.POST)
    if not form.is_valid():
        return _refused(request, None, form, shoot=shoot)
    typed = form.cleaned_data
    if not typed["notes"].strip() and not typed["caller"] and shoot is None:
        return redirect("call_new")
    try:
        call = actions.begin_call(
            studio=request.studio,
            notes=typed["notes"],
            caller=typed["caller"],
            shoot=shoot,
            key=typed["key"],
            window=typed["window"],
            by=request.member,
            now=timezone.now(),
        )
    except EditedMeanwhile:
        there = get_object_or_404(Call.objects.of_studio(request.studio), key=typed["key"])
        form.refuse_edited_meanwhile(current_version=there.version)
        return _refused(request, _call(request, there.pk), form)
    return _saved(request, call)


def _refused(request: MemberRequest, call: Call | None, form: NotesForm, **context: Any) -> HttpResponse:
    if _by_script(request):
        said = [error for errors in form.errors.values() for error in errors]
        version = form.data.get("version") if form.has_error("__all__") else None
        return JsonResponse({"error": " ".join(said), "newer": version}, status=422)
    return _page(request, call, form, **context)


def _saved(request: MemberRequest, call: Call) -> HttpResponse:
    if not _by_script(request):
        messages.success(request, _("Saved."))
        return redirect(_address(call))
    shown = {"page": pages.call_page(call), "call": call, "shoot": call.shoot}
    return JsonResponse(
        {
            "version": call.version,
            "save_url": reverse("call_save", args=[call.pk]),
            "page_url": _address(call),
            "lines": render_to_string(f"{TEMPLATE}#lines", shown, request=request),
            "asks": render_to_string(f"{TEMPLATE}#asks", shown, request=request),
        }
    )


def _address(call: Call) -> str:
    if call.shoot:
        return f"{reverse('call_of_shoot', args=[call.shoot.code])}?call={call.pk}"
    return reverse("call_detail", args=[call.pk])


@require_GET
@for_roles(PRICES)
def call_detail(request: MemberRequest, pk: int) -> HttpResponse:
    call = _call(request, pk)
    return redirect(_address(call)) if call.shoot else _page(request, call, _form_of(call))


@require_GET
@for_roles(PRICES)
def call_of_shoot(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    calls = pages.calls_of(shoot)
    wanted = request.GET.get("call", "")
    known = {str(row.call.pk): row.call.pk for row in calls}
    if wanted and wanted not in known:
        raise Http404
    if not calls or "new" in request.GET:
        form = NotesForm(initial={"key": uuid.uuid4(), "caller": shoot.contact.name if shoot.contact else ""})
        return _page(request, None, form, shoot=shoot, calls=calls)
    call = _call(request, known.get(wanted, calls[0].call.pk))
    return _page(request, call, _form_of(call), calls=calls)


@require_POST
@for_roles(PLANNERS)
def call_save(request: MemberRequest, pk: int) -> HttpResponse:
    call = _call(request, pk)
    form = NotesForm(request.POST)
    if not form.is_valid():
        return _refused(request, call, form)
    typed = form.cleaned_data
    try:
        actions.save_notes(
            call=call,
            notes=typed["notes"],
            caller=typed["caller"],
            seen_version=typed["version"] or 0,
            window=typed["window"],
            by=request.member,
            now=timezone.now(),
        )
    except EditedMeanwhile:
        form.refuse_edited_meanwhile(current_version=_call(request, pk).version)
        return _refused(request, call, form)
    return _saved(request, call)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def call_take_up(request: MemberRequest, pk: int) -> HttpResponse:
    call, now = _call(request, pk), timezone.now()
    if call.shoot:
        return redirect(_address(call))
    guess = pages.beginning_of(call, today=request.studio.local_date(now))
    begun = {"client_name": guess.client_name, "contact_name": guess.contact_name, "title": guess.title}
    begun |= {"code": next_code(studio=request.studio, now=now)}
    form = TakeUpForm(request.POST or None, studio=request.studio, initial=begun)
    if request.method == "POST" and form.is_valid():
        typed, given = dict(form.cleaned_data), {"by": request.member, "now": now}
        shoot = typed.pop("shoot")
        try:
            taken = actions.take_up_into(call=call, shoot=shoot, begin=typed, **given)
        except actions.AlreadyTakenUp:
            return redirect(_address(_call(request, pk)))
        except shoot_actions.CodeTaken as other:
            form.refuse_code(taken_by=other.shoot, free=begun["code"])
        else:
            _tell(request, taken)
            return redirect(_address(call))
    clients = Client.objects.of_studio(request.studio).filter(put_away_at=None)
    context = {"call": call, "form": form, "callers": clients.values_list("name", flat=True)}
    return render(request, "call/call_take_up.html", context, status=422 if form.is_bound else 200)


def _tell(request: MemberRequest, taken: actions.TakenUp) -> None:
    messages.success(request, _("The call belongs to %(code)s now.") % {"code": taken.shoot.code})
    if taken.landed:
        words = ngettext(
            "%(n)d accepted entry is written into it.", "%(n)d accepted entries are written into it.", taken.landed
        )
        messages.success(request, words % {"n": taken.landed})
    if taken.refused:
        words = ngettext(
            "%(n)d could not be written and is open again.",
            "%(n)d could not be written and are open again.",
            taken.refused,
        )
        messages.warning(request, words % {"n": taken.refused})


@require_POST
@for_roles(PLANNERS)
def call_delete(request: MemberRequest, pk: int) -> HttpResponse:
    call = _call(request, pk)
    try:
        actions.delete_call(call=call, by=request.member, now=timezone.now())
    except actions.AlreadyTakenUp:
        messages.error(request, _("This call belongs to a shoot; it stays with it."))
        return redirect(_address(call))
    messages.success(request, _("The call is thrown away."))
    return redirect("call_list")


REFUSALS = {
    actions.OtherCurrency: lambda shoot: (
        _("That budget is in another currency than the shoot (%(currency)s). Edit the one or the other.")
        % {"currency": shoot.currency if shoot else ""}
    ),
    actions.TooManyShots: lambda shoot: (
        _("That would plan more than %(most)d shots at once. Edit the number.") % {"most": actions.MOST_SHOTS}
    ),
    actions.NoRoom: lambda shoot: _("The brief has no room left in that field. Shorten it there, then accept this."),
}


def _answer(request: MemberRequest, call: Call, **context: Any) -> HttpResponse:
    """The lines and questions alone for the script, the page again without one."""
    if not request.htmx:
        if context.get("problem"):
            messages.error(request, context["problem"])
        return redirect(_address(call))
    context |= {"page": pages.call_page(call), "call": call, "shoot": call.shoot}
    response = render(request, f"{TEMPLATE}#reading", context)
    # An edit form inside a draft is answered with all the lines.
    response["HX-Retarget"], response["HX-Reswap"] = "#lines", "innerHTML"
    return response


@require_POST
@for_roles(PLANNERS)
def draft_step(request: MemberRequest, pk: int, draft_pk: int, step: str) -> HttpResponse:
    call = _call(request, pk)
    draft, given = _draft(call, draft_pk), {"by": request.member, "now": timezone.now()}
    problem = ""
    try:
        if step == "accept":
            actions.accept_draft(draft=draft, **given)
        elif step == "accept-with-shot":
            actions.accept_draft(draft=draft, with_shot=True, **given)
        elif step == "dismiss":
            actions.dismiss_draft(draft=draft, **given)
        elif step == "reopen":
            actions.reopen_draft(draft=draft, **given)
        else:
            raise Http404
    except actions.AlreadyDecided:
        problem = _("That was decided already, here or in another window. Nothing was changed.")
    except actions.CannotLand as refused:
        problem = REFUSALS[type(refused)](call.shoot)
    return _answer(request, call, problem=problem)


@require_POST
@for_roles(PLANNERS)
def draft_accept_plain(request: MemberRequest, pk: int) -> HttpResponse:
    call = _call(request, pk)
    accepted, refused = actions.accept_plain(call=call, by=request.member, now=timezone.now())
    problem = ""
    if refused:
        words = ngettext("%(n)d could not be written.", "%(n)d could not be written.", refused)
        problem = words % {"n": refused}
    elif not request.htmx:
        words = ngettext("%(n)d accepted.", "%(n)d accepted.", accepted)
        messages.success(request, words % {"n": accepted})
    return _answer(request, call, problem=problem)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def draft_edit(request: MemberRequest, pk: int, draft_pk: int) -> HttpResponse:
    call = _call(request, pk)
    draft = _draft(call, draft_pk)
    if not draft.is_open:
        return _answer(request, call, problem=_("That was decided already. Nothing was changed."))
    form = DraftForm(request.POST or None, draft=draft)
    if request.method == "POST" and form.is_valid():
        try:
            actions.accept_draft(
                draft=draft,
                value=form.value,
                is_wish=form.cleaned_data.get("is_wish"),
                by=request.member,
                now=timezone.now(),
            )
        except actions.AlreadyDecided:
            return _answer(request, call, problem=_("That was decided already. Nothing was changed."))
        except actions.CannotLand as refused:
            form.add_error(None, REFUSALS[type(refused)](call.shoot))
        else:
            return _answer(request, call)
    layout = "layouts/shoot.html" if call.shoot else "layouts/base.html"
    context = {"layout": layout, "shoot": call.shoot, "call": call, "draft": draft, "form": form}
    context |= {"back": _address(call), "card": pages.card_of(draft)}
    template = "call/draft_form.html#edit" if request.htmx else "call/draft_form.html"
    return render(request, template, context, status=422 if form.is_bound else 200)
