"""The page of one day: its times, its plan, who comes when."""

from __future__ import annotations

from typing import Any

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
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.schedule import actions
from shoots.schedule.forms import BlockForm, CallsForm, DayTimesForm, PackForm, PlanForm
from shoots.schedule.models import BlockKind, DayBlock
from shoots.schedule.queries.care import shoot_care
from shoots.schedule.queries.findings import concerns_of
from shoots.schedule.queries.plan import day_page
from shoots.shoot import actions as shoots
from shoots.shoot.core.holds import HoldNotPossible
from shoots.shoot.models import Shoot, ShootDay


def _day(request: MemberRequest, code: str, pk: int) -> ShootDay:
    visible = Shoot.objects.visible_to(request.member)
    days = ShootDay.objects.filter(shoot__in=visible, shoot__code=code)
    day: ShootDay = get_object_or_404(days.select_related("shoot__client", "shoot__studio", "studio", "place"), pk=pk)
    return day


def _block(request: MemberRequest, code: str, pk: int, block: int) -> DayBlock:
    blocks = DayBlock.objects.filter(day=_day(request, code, pk)).select_related(
        "day__shoot__client", "day__studio", "day__place", "setup", "studio"
    )
    found: DayBlock = get_object_or_404(blocks, pk=block)
    return found


def _page(request: MemberRequest, day: ShootDay, **bound: Any) -> HttpResponse:
    """Draw the page of a day, with the one form that was refused bound to what was typed."""
    page = day_page(day)
    plan = bound.get("plan") or PlanForm(page=page)
    add = bound.get("add") or BlockForm(
        instance=DayBlock(studio=day.studio, day=day), initial={"kind": BlockKind.BREAK, "minutes": 30}, shoot=day.shoot
    )
    calls = bound.get("calls") or CallsForm(people=page.people)
    concerns = concerns_of(page)
    context = {
        "shoot": day.shoot,
        "day": day,
        "page": page,
        "plan": plan,
        "lines": plan.lines(page.rows),
        "add": add,
        "add_is_open": "add" in bound,
        "calls": calls,
        "times": bound.get("times") or DayTimesForm(instance=day),
        "moved": request.GET.get("moved", ""),
        "way": request.GET.get("way", ""),
        "care": shoot_care(day.shoot).of_day.get(day.pk),
        "concerns": [concern for concern in concerns if request.member.plans or not concern.is_private],
    }
    return render(request, "schedule/day_plan.html", context, status=422 if bound else 200)


def _back(day: ShootDay, anchor: str = "plan", asked: str = "") -> HttpResponse:
    address = reverse("day_plan", args=[day.shoot.code, day.pk]) + asked
    return redirect(f"{address}#{anchor}" if anchor else address)


@require_GET
@for_roles(EVERYBODY)
def day_plan(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    return _page(request, _day(request, code, pk))


@require_POST
@for_roles(PLANNERS)
def plan_change(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Save all minutes, and move a block if a button or the script asks for it."""
    day = _day(request, code, pk)
    form = PlanForm(request.POST, page=day_page(day))
    if not form.is_valid():
        return _page(request, day, plan=form)
    try:
        actions.change_plan(
            day=day,
            minutes=form.minutes,
            seen=form.cleaned_data["seen"],
            move=form.move,
            order=form.order,
            by=request.member,
            now=timezone.now(),
        )
    except EditedMeanwhile:
        form.refuse_changed(day_page(day))
        return _page(request, day, plan=form)
    if form.move:
        key, step = form.move
        # No anchor: browsers leave autofocus out where an address has one, and the pressed button keeps its focus.
        return _back(day, "", f"?moved={key}&way={'up' if step < 0 else 'down'}")
    if not form.order:
        messages.success(request, _("Saved. All clock times have moved along."))
    return _back(day)


@require_POST
@for_roles(PLANNERS)
def plan_draft(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    day = _day(request, code, pk)
    try:
        blocks = actions.draft_plan(
            day=day, replace=request.POST.get("replace") == "1", by=request.member, now=timezone.now()
        )
    except actions.PlanStands:
        messages.info(request, _("The day has a plan already, made here or in another window. Nothing was changed."))
    except actions.NothingToPlan:
        messages.error(request, _("No shot is on this day yet: put shots on it first."))
    else:
        words = ngettext(
            "Drafted: %(n)d block. Change it as you like.", "Drafted: %(n)d blocks. Change them as you like.", blocks
        )
        messages.success(request, words % {"n": blocks})
    return _back(day)


@require_POST
@for_roles(PLANNERS)
def plan_times(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    day = _day(request, code, pk)
    form = DayTimesForm(request.POST, instance=day)
    if form.is_valid():
        try:
            shoots.edit_day(
                day=day, changes=form.changes, seen_version=form.seen_version, by=request.member, now=timezone.now()
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except HoldNotPossible as refused:
            form.refuse_times(refused.problems)
        else:
            messages.success(request, _("Saved. All clock times below have moved along."))
            return _back(day)
    return _page(request, _day(request, code, pk), times=form)


@require_POST
@for_roles(PLANNERS)
def plan_calls(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    day = _day(request, code, pk)
    form = CallsForm(request.POST, people=day_page(day).people)
    if form.is_valid():
        calls = [actions.CallGiven(person.booking, *form.given(person)) for person in form.people]
        try:
            changed = actions.set_calls(calls=calls, by=request.member, now=timezone.now())
        except EditedMeanwhile:
            form.refuse_edited_meanwhile(day_page(day).people)
        else:
            messages.success(request, _("Saved.") if changed else _("Nothing was changed."))
            return _back(day, "people")
    return _page(request, day, calls=form)


@require_POST
@for_roles(PLANNERS)
def block_add(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    day = _day(request, code, pk)
    form = BlockForm(request.POST, instance=DayBlock(studio=day.studio, day=day), shoot=day.shoot)
    if not form.is_valid():
        return _page(request, day, add=form)
    block = actions.add_block(day=day, **form.changes, by=request.member, now=timezone.now())
    return _back(day, f"block-{block.pk}")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def block_edit(request: MemberRequest, code: str, pk: int, block: int) -> HttpResponse:
    found = _block(request, code, pk, block)
    form = BlockForm(request.POST if request.method == "POST" else None, instance=found, shoot=found.day.shoot)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_block(
                block=found,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            return _back(found.day, f"block-{found.pk}")
    context = {"shoot": found.day.shoot, "day": found.day, "edited": found, "form": form}
    return render(request, "schedule/block_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def block_remove(request: MemberRequest, code: str, pk: int, block: int) -> HttpResponse:
    found = _block(request, code, pk, block)
    day, words = found.day, str(found.get_kind_display())
    actions.remove_block(block=found, by=request.member, now=timezone.now())
    messages.success(request, _("“%(block)s” is out of the plan.") % {"block": words})
    return _back(day)


def _shoot(request: MemberRequest, code: str) -> Shoot:
    visible = Shoot.objects.visible_to(request.member).select_related("client", "studio")
    found: Shoot = get_object_or_404(visible, code=code)
    return found


@require_GET
@for_roles(EVERYBODY)
def care_detail(request: MemberRequest, code: str) -> HttpResponse:
    return _care_page(request, _shoot(request, code))


def _care_page(request: MemberRequest, shoot: Shoot, form: PackForm | None = None) -> HttpResponse:
    page = shoot_care(shoot)
    context = {"shoot": shoot, "page": page, "form": form or PackForm(kinds=page.kinds)}
    return render(request, "schedule/care_detail.html", context, status=422 if form else 200)


@require_POST
@for_roles(PLANNERS)
def batteries_pack(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    form = PackForm(request.POST, kinds=shoot_care(shoot).kinds)
    if not form.is_valid():
        return _care_page(request, shoot, form)
    actions.pack_batteries(shoot=shoot, counts=form.counts, by=request.member, now=timezone.now())
    messages.success(request, _("Saved."))
    return redirect("care_detail", code=shoot.code)


@require_POST
@for_roles(PLANNERS)
def hands_add(request: MemberRequest, code: str) -> HttpResponse:
    """Pencil assistants for the lights that have to be held; the quote then suggests them."""
    shoot = _shoot(request, code)
    added = actions.add_hands(shoot=shoot, by=request.member, now=timezone.now())
    if added:
        words = ngettext(
            "%(n)d assistant is pencilled, without a name yet. The next quote suggests the line.",
            "%(n)d assistants are pencilled, without names yet. The next quote suggests the lines.",
            added,
        )
        messages.success(request, words % {"n": added})
    else:
        messages.info(request, _("Everybody whom the wind asks for is down for it already. Nothing was changed."))
    return redirect("shoot_dates", code=shoot.code)
