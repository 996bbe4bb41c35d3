"""Pages of call sheets, and the door of whoever got one."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_POST, require_safe

from shoots.callsheet import actions
from shoots.callsheet.forms import IssueForm
from shoots.callsheet.models import CallSheet, SheetCopy, SheetKind
from shoots.callsheet.queries import copies, ready, sheet
from shoots.callsheet.queries.copies import OpenedCopy
from shoots.callsheet.queries.plans import plans_of
from shoots.documents import adapters as files
from shoots.links.access import by_link
from shoots.links.models import ClientLink, Purpose
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS, PRICES
from shoots.pages.answers import file_answer
from shoots.schedule.queries.care import DayCare, shoot_care
from shoots.schedule.queries.plan import DayPage, day_page
from shoots.shoot.models import Shoot, ShootDay

#: A browser's own PDF viewer draws with styles of its own; nothing else is let in.
VIEWER_POLICY = "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'none'"


def _shoot(request: MemberRequest, code: str) -> Shoot:
    visible = Shoot.objects.visible_to(request.member).select_related("client", "contact", "studio")
    shoot: Shoot = get_object_or_404(visible, code=code)
    return shoot


def _day(request: MemberRequest, code: str, pk: int) -> ShootDay:
    days = ShootDay.objects.standing().filter(shoot=_shoot(request, code))
    rows = days.select_related("place", "studio", "shoot__client", "shoot__contact", "shoot__studio")
    day: ShootDay = get_object_or_404(rows, pk=pk)
    return day


@require_GET
@for_roles(EVERYBODY)
def callsheet_list(request: MemberRequest, code: str) -> HttpResponse:
    """Show each day with what is ready and who has the sheet; to the crew their own copies alone."""
    shoot = _shoot(request, code)
    if not request.member.sees_prices:
        own = copies.own_copies(shoot, request.member)
        return render(request, "callsheet/own_copies.html", {"shoot": shoot, "own": own})
    return render(request, "callsheet/callsheet_list.html", {"shoot": shoot, "days": copies.shoot_sheets(shoot)})


def _preview_of(
    day: ShootDay, page: DayPage, care: DayCare | None, last: CallSheet | None, wanted: str
) -> tuple[dict[str, Any], str]:
    """Return the sheet as it would be issued now for the reader that was asked for, and who that is."""
    checks = ready.checks_of(page, care)
    issue = sheet.Issue(
        number=_("preview"),
        kind=SheetKind.ADVANCE,
        kind_words=_("Call sheet, as it would go out now"),
        revision=(last.revision if last else 0) + 1,
        issued_at=timezone.now(),
        notes=copies.notes_of(last.document.content) if last else actions.default_notes(),
        open_items=ready.open_words(checks, told_only=False),
        told=ready.open_words(checks, told_only=True),
        plans=plans_of(day.shoot),
    )
    person = next((person for person in page.people if str(person.booking.pk) == wanted), None)
    if person:
        return sheet.sheet_for(person, page, issue), wanted
    if wanted == "client" and day.shoot.contact:
        return sheet.sheet_for(sheet.client_reader(day.shoot.contact, page), page, issue), wanted
    return sheet.general_sheet(page, issue), ""


def _preview(request: MemberRequest, day: ShootDay, form: IssueForm | None = None) -> HttpResponse:
    page, last = day_page(day), copies.newest_sheet(day)
    care = shoot_care(day.shoot).of_day.get(day.pk)
    content, wanted = _preview_of(day, page, care, last, request.GET.get("for", ""))
    context = {
        "shoot": day.shoot,
        "day": day,
        "page": page,
        "checks": ready.checks_of(page, care),
        "sheet": content,
        "wanted": wanted,
        "last": last,
        "form": form or _issue_form(day, last),
    }
    return render(request, "callsheet/callsheet_preview.html", context, status=422 if form else 200)


def _issue_form(day: ShootDay, last: CallSheet | None) -> IssueForm:
    notes = copies.notes_of(last.document.content) if last else actions.default_notes()
    begun = {
        "kind": SheetKind.FINAL if last else SheetKind.ADVANCE,
        "seen": last.revision if last else 0,
        "to_client": bool(day.shoot.contact and last and last.copies.filter(booking=None).exists()),
        **vars(notes),
    }
    return IssueForm(initial=begun, contact=day.shoot.contact, is_first=last is None)


@require_GET
@for_roles(PRICES)
def callsheet_preview(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Show the sheet of a day as it would go out now, for everybody or for one reader."""
    return _preview(request, _day(request, code, pk))


@require_POST
@for_roles(PLANNERS)
def callsheet_issue(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    day = _day(request, code, pk)
    last = copies.newest_sheet(day)
    form = IssueForm(request.POST, contact=day.shoot.contact, is_first=last is None)
    if not form.is_valid():
        return _preview(request, day, form)
    try:
        issued = actions.issue_sheet(day=day, **form.given, by=request.member, now=timezone.now())
    except actions.AlreadyIssued:
        messages.info(
            request,
            _("A sheet of this day went out a moment ago, here or in another window. No second one was issued."),
        )
    except actions.DayGone:
        messages.error(request, _("This day was given back or is wrapped; nobody has to come. Nothing was issued."))
    except actions.NotReady as refused:
        missing = ", ".join(_missing_words()[name] for name in refused.codes)
        form.add_error("kind", _("A final sheet says when and where: %(missing)s first.") % {"missing": missing})
        return _preview(request, day, form)
    else:
        number = issued.copies.count()
        words = ngettext(
            "Revision %(revision)d is issued; %(n)d copy is on its way.",
            "Revision %(revision)d is issued; %(n)d copies are on their way.",
            number,
        )
        messages.success(request, words % {"revision": issued.revision, "n": number})
    return redirect("callsheet_list", code)


def _missing_words() -> dict[str, str]:
    return {"CALL": _("set the call time"), "PLACE": _("say where it is")}


@require_POST
@for_roles(PLANNERS)
def copy_confirm(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Note that somebody said that they have their sheet, on the telephone say."""
    rows = SheetCopy.objects.filter(sheet__day__shoot=_shoot(request, code)).select_related(
        "sheet__day__shoot", "studio"
    )
    copy: SheetCopy = get_object_or_404(rows, pk=pk)
    try:
        is_new = actions.confirm_copy(copy=copy, by=request.member, now=timezone.now())
    except actions.Replaced:
        messages.info(request, _("That sheet was replaced by a newer one; they have to have the newer one."))
    else:
        words = _("%(name)s has it: noted.") if is_new else _("%(name)s had confirmed it already.")
        messages.success(request, words % {"name": copy.name})
    return redirect("callsheet_list", code)


def _opened(link: ClientLink) -> OpenedCopy:
    opened = copies.opened_copy(link)
    if opened is None:
        raise Http404
    return opened


@require_safe
@by_link(Purpose.CALL_SHEET)
def client_callsheet(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    """Show somebody their sheet. The studio's own look at it is not counted as theirs."""
    opened = _opened(link)
    member = getattr(request, "member", None)
    if not member or not member.plans or member.studio_id != link.studio_id:
        actions.mark_opened(copy=opened.copy, now=timezone.now())
    context = {
        "studio": opened.copy.studio,
        "opened": opened,
        "copy": opened.copy,
        "sheet": opened.content,
        "token": token,
    }
    return render(request, "callsheet/client_callsheet.html", context)


@require_POST
@by_link(Purpose.CALL_SHEET)
def client_callsheet_confirm(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    opened = _opened(link)
    try:
        actions.confirm_copy(copy=opened.copy, now=timezone.now())
    except actions.Replaced:
        messages.info(request, _("A newer sheet has replaced this one; please confirm that one."))
    return redirect("client_callsheet", token)


@require_safe
@by_link(Purpose.CALL_SHEET)
def client_callsheet_pdf(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    """Hand somebody their copy as a PDF; until it is drawn, say so."""
    document = _opened(link).copy.document
    if not document.is_rendered:
        context = {"studio": link.studio, "token": token}
        return render(request, "callsheet/being_drawn.html", context, status=202)
    response = file_answer(
        file=files.read(document.storage_key),
        name=document.file_name,
        content_type="application/pdf",
        inline=True,
    )
    response["Content-Security-Policy"] = VIEWER_POLICY
    return response
