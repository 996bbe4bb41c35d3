"""The list of shoots, new and edit, and the page of dates and people."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.people.models import Client
from shoots.shoot import actions, queries
from shoots.shoot.core.holds import HoldNotPossible
from shoots.shoot.forms import BookingForm, DayForm, FactForm, NewShootForm, ShootForm
from shoots.shoot.models import Booking, BookingKind, Fact, FactKind, Shoot, ShootDay

KINDS = {kind.value.lower(): kind for kind in BookingKind}


def _shoot(request: MemberRequest, code: str) -> Shoot:
    visible = Shoot.objects.visible_to(request.member).select_related("client", "contact", "studio")
    shoot: Shoot = get_object_or_404(visible, code=code)
    return shoot


def _day(shoot: Shoot, pk: int) -> ShootDay:
    day: ShootDay = get_object_or_404(ShootDay.objects.select_related("shoot", "studio"), shoot=shoot, pk=pk)
    return day


def _booking(shoot: Shoot, pk: int) -> Booking:
    rows = Booking.objects.select_related("shoot", "studio", "person", "place", "day")
    booking: Booking = get_object_or_404(rows, shoot=shoot, pk=pk)
    return booking


@require_GET
@for_roles(EVERYBODY)
def shoot_list(request: MemberRequest) -> HttpResponse:
    page = request.GET.get("page", "1")
    listed = queries.shoot_list(
        request.member,
        put_away="put-away" in request.GET,
        page=int(page) if page.isascii() and page.isdigit() and len(page) < 6 else 1,
        today=request.studio.local_date(timezone.now()),
    )
    return render(request, "shoot/shoot_list.html", {"list": listed})


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def shoot_new(request: MemberRequest) -> HttpResponse:
    now = timezone.now()
    begun = {"code": queries.next_code(studio=request.studio, now=now), "currency": request.studio.currency}
    form = NewShootForm(request.POST or None, initial={**begun, "client_name": request.GET.get("client", "")})
    if request.method == "POST" and form.is_valid():
        try:
            shoot = actions.start_shoot(studio=request.studio, **form.cleaned_data, by=request.member, now=now)
        except actions.CodeTaken as taken:
            if taken.shoot.title == form.cleaned_data["title"]:
                return redirect("shoot_detail", code=taken.shoot.code)
            form.refuse_code(taken_by=taken.shoot, free=begun["code"])
        else:
            messages.success(request, _("%(code)s has begun.") % {"code": shoot.code})
            return redirect("shoot_detail", code=shoot.code)
    clients = Client.objects.of_studio(request.studio).filter(put_away_at=None)
    return _form(request, "shoot/shoot_new.html", form, clients=clients)


def _form(request: MemberRequest, template: str, form: Any, **context: Any) -> HttpResponse:
    return render(request, template, {"form": form, **context}, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def shoot_edit(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    form = ShootForm(request.POST or None, instance=shoot, studio=request.studio)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_shoot(
                shoot=shoot,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("Saved."))
            return redirect("shoot_detail", code=shoot.code)
    return _form(request, "shoot/shoot_form.html", form, shoot=shoot)


@require_POST
@for_roles(PLANNERS)
def shoot_put_away(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    actions.put_away(shoot=shoot, by=request.member, now=timezone.now())
    messages.success(request, _("%(code)s is put away; nothing of it is lost.") % {"code": shoot.code})
    return redirect("shoot_list")


@require_POST
@for_roles(PLANNERS)
def shoot_take_back(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    actions.take_back(shoot=shoot, by=request.member, now=timezone.now())
    messages.success(request, _("%(code)s is at hand again.") % {"code": shoot.code})
    return redirect("shoot_detail", code=shoot.code)


KEEPERS = {
    "quote": lambda n: ngettext("%(n)d quote", "%(n)d quotes", n),
    "licence": lambda n: ngettext("%(n)d licence", "%(n)d licences", n),
    "callsheet": lambda n: ngettext("%(n)d call sheet", "%(n)d call sheets", n),
    "invoice": lambda n: ngettext("%(n)d invoice", "%(n)d invoices", n),
    "picture": lambda n: ngettext("%(n)d picture", "%(n)d pictures", n),
    "delivery": lambda n: ngettext("%(n)d delivery", "%(n)d deliveries", n),
}


def _kept_by(kinds: dict[str, int]) -> list[str]:
    other = sum(n for kind, n in kinds.items() if kind not in KEEPERS)
    found = [KEEPERS[kind](n) % {"n": n} for kind, n in sorted(kinds.items()) if kind in KEEPERS]
    if other:
        found.append(ngettext("%(n)d other issued record", "%(n)d other issued records", other) % {"n": other})
    return found


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def shoot_delete(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    if request.method == "POST":
        try:
            actions.delete_shoot(shoot=shoot, by=request.member, now=timezone.now())
        except actions.SomethingIssued as refused:
            context = {"shoot": shoot, "kept_by": _kept_by(refused.kinds)}
            return render(request, "shoot/shoot_delete.html", context, status=422)
        messages.success(request, _("%(code)s is deleted.") % {"code": shoot.code})
        return redirect("shoot_list")
    context = {"shoot": shoot, "kept_by": _kept_by(queries.what_keeps(shoot))}
    return render(request, "shoot/shoot_delete.html", context)


@require_GET
@for_roles(EVERYBODY)
def shoot_dates(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    today = request.studio.local_date(timezone.now())
    page = queries.dates_page(shoot, today=today, with_others=request.member.sees_prices)
    return render(request, "shoot/shoot_dates.html", {"shoot": shoot, "page": page})


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def day_new(request: MemberRequest, code: str) -> HttpResponse:
    shoot, now = _shoot(request, code), timezone.now()
    today = request.studio.local_date(now)
    form = DayForm(request.POST or None, instance=ShootDay(), studio=request.studio, today=today)
    if request.method == "POST" and form.is_valid():
        try:
            actions.pencil_day(shoot=shoot, **form.changes, by=request.member, now=now)
        except actions.AlreadyHeld:
            form.add_error("date", _("This shoot holds that day at that place already."))
        except HoldNotPossible as refused:
            form.refuse_hold(refused.problems)
        else:
            messages.success(request, _("The day is pencilled."))
            return redirect("shoot_dates", code=shoot.code)
    return _form(request, "shoot/day_form.html", form, shoot=shoot)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def day_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, now = _shoot(request, code), timezone.now()
    day = _day(shoot, pk)
    today = request.studio.local_date(now)
    form = DayForm(request.POST or None, instance=day, studio=request.studio, today=today)
    if request.method == "POST" and form.is_valid():
        try:
            again = actions.edit_day(
                day=day, changes=form.changes, seen_version=form.seen_version, by=request.member, now=now
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except actions.HoldSettled:
            form.add_error("date", _("This day was wrapped; its date stays."))
        except HoldNotPossible as refused:
            form.refuse_hold(refused.problems)
        else:
            messages.success(request, _("Saved."))
            if again:
                words = ngettext(
                    "%(n)d booking is pencilled again: nobody has confirmed the new date.",
                    "%(n)d bookings are pencilled again: nobody has confirmed the new date.",
                    again,
                )
                messages.warning(request, words % {"n": again})
            return redirect("shoot_dates", code=shoot.code)
    return _form(request, "shoot/day_form.html", form, shoot=shoot, day=day)


@require_POST
@for_roles(PLANNERS)
def day_step(request: MemberRequest, code: str, pk: int, step: str) -> HttpResponse:
    shoot = _shoot(request, code)
    day, given = _day(shoot, pk), {"by": request.member, "now": timezone.now()}
    steps: dict[str, tuple[Any, str]] = {
        "confirm": (lambda: actions.confirm_day(day=day, **given), _("The day is confirmed.")),
        "release": (lambda: actions.release_day(day=day, **given), _("The day is given back.")),
        "again": (lambda: actions.pencil_again(hold=day, **given), _("The day is pencilled again.")),
        "wrap": (lambda: actions.wrap_day(day=day, **given), _("That’s a wrap.")),
        "unwrap": (lambda: actions.unwrap_day(day=day, **given), _("The day counts as not shot.")),
    }
    return _step(request, shoot, steps, step)


def _step(request: MemberRequest, shoot: Shoot, steps: dict[str, tuple[Any, str]], step: str) -> HttpResponse:
    if step not in steps:
        raise Http404
    deed, words = steps[step]
    try:
        deed()
    except actions.HoldSettled:
        messages.info(request, _("That was done already, here or in another window. Nothing was changed."))
    except actions.DayNotYet:
        messages.error(request, _("That day has not come yet, so it can’t have been wrapped."))
    else:
        messages.success(request, words)
    return redirect("shoot_dates", code=shoot.code)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def booking_new(request: MemberRequest, code: str, kind: str) -> HttpResponse:
    shoot, now = _shoot(request, code), timezone.now()
    if kind not in KINDS:
        raise Http404
    form = BookingForm(
        request.POST or None,
        instance=Booking(kind=KINDS[kind]),
        initial={"day": request.GET.get("day")},
        studio=request.studio,
        shoot=shoot,
        kind=KINDS[kind],
        today=request.studio.local_date(now),
    )
    if request.method == "POST" and form.is_valid():
        try:
            actions.hold_booking(shoot=shoot, kind=KINDS[kind], **form.changes, by=request.member, now=now)
        except actions.AlreadyHeld as held:
            form.add_error(None, _("%(who)s is held for that day already.") % {"who": held.hold})
        except HoldNotPossible as refused:
            form.refuse_hold(refused.problems)
        else:
            messages.success(request, _("Pencilled. Confirm it when they have said yes."))
            return redirect("shoot_dates", code=shoot.code)
    return _form(request, "shoot/booking_form.html", form, shoot=shoot, kind=kind, kinds=list(KINDS))


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def booking_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot, now = _shoot(request, code), timezone.now()
    booking = _booking(shoot, pk)
    form = BookingForm(
        request.POST or None,
        instance=booking,
        studio=request.studio,
        shoot=shoot,
        kind=BookingKind(booking.kind),
        today=request.studio.local_date(now),
    )
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_booking(
                booking=booking,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=now,
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except HoldNotPossible as refused:
            form.refuse_hold(refused.problems)
        else:
            messages.success(request, _("Saved."))
            return redirect("shoot_dates", code=shoot.code)
    context = {"shoot": shoot, "booking": booking, "kind": booking.kind.lower()}
    return _form(request, "shoot/booking_form.html", form, **context)


@require_POST
@for_roles(PLANNERS)
def booking_step(request: MemberRequest, code: str, pk: int, step: str) -> HttpResponse:
    shoot = _shoot(request, code)
    booking, given = _booking(shoot, pk), {"by": request.member, "now": timezone.now()}
    who = {"who": booking}
    steps: dict[str, tuple[Any, str]] = {
        "confirm": (lambda: actions.confirm_booking(booking=booking, **given), _("%(who)s: confirmed.") % who),
        "release": (lambda: actions.release_booking(booking=booking, **given), _("%(who)s: given back.") % who),
        "again": (lambda: actions.pencil_again(hold=booking, **given), _("%(who)s: pencilled again.") % who),
    }
    return _step(request, shoot, steps, step)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def fact_new(request: MemberRequest, code: str) -> HttpResponse:
    shoot, now = _shoot(request, code), timezone.now()
    wanted = request.GET.get("kind", "")
    begun = {
        "kind": wanted if wanted in set(FactKind) else "",
        "happened_on": request.studio.local_date(now),
        "said_by": shoot.contact.name if shoot.contact else "",
    }
    form = FactForm(request.POST or None, initial=begun, studio=request.studio, now=now)
    if request.method == "POST" and form.is_valid():
        words = {name: form.cleaned_data[name] for name in ("kind", "happened_at", "said_by", "evidence")}
        try:
            _fact, given = actions.record_fact(
                shoot=shoot,
                **words,
                release_holds=form.cleaned_data["release_holds"],
                by=request.member,
                now=now,
            )
        except actions.AlreadyRecorded:
            messages.info(request, _("That is written down already."))
        else:
            messages.success(request, _("Written down."))
            if given.days or given.bookings:
                words = _("Given back: days %(days)d, bookings %(bookings)d.")
                messages.info(request, words % {"days": given.days, "bookings": given.bookings})
        return redirect("shoot_dates", code=shoot.code)
    return _form(request, "shoot/fact_form.html", form, shoot=shoot)


@require_POST
@for_roles(PLANNERS)
def fact_strike(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot = _shoot(request, code)
    fact = get_object_or_404(Fact.objects.select_related("shoot", "studio"), shoot=shoot, pk=pk)
    actions.strike_fact(fact=fact, by=request.member, now=timezone.now())
    messages.success(request, _("Taken out. The trail keeps what it said."))
    return redirect("shoot_dates", code=shoot.code)
