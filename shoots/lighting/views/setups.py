"""Setups of light: their list, one setup's page, and what is changed on it."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass
from datetime import date, datetime, time
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.brief.core.light import light_asked
from shoots.lighting import actions
from shoots.lighting.forms.aids import PanelPlaceForm
from shoots.lighting.forms.setups import (
    FindingForm,
    LampForm,
    LampPlaceForm,
    ReadingForm,
    SetupForm,
    SetupNewForm,
    WishesForm,
)
from shoots.lighting.models import MeterReading, PlacedLamp, Setup
from shoots.lighting.queries import pages, rows, starts
from shoots.lighting.queries.finding import NoSuchMend
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.shoot.models import Shoot, ShootDay

EARLIEST, LATEST = date(1950, 1, 1), date(2100, 12, 31)
"""Dates that a page may be asked about; the sun is computed well within them."""


def shoot_of(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "studio")
    return get_object_or_404(shoots, code=code)


def setup_of(request: MemberRequest, code: str, pk: int) -> Setup:
    # One query finds the setup with its shoot and tells who may see it.
    seen = Shoot.objects.visible_to(request.member)
    return get_object_or_404(pages.setups_to_show().filter(shoot__in=seen, shoot__code=code), pk=pk)


def _lamp(setup: Setup, pk: int) -> PlacedLamp:
    return get_object_or_404(
        PlacedLamp.objects.filter(setup=setup).select_related("lamp", "setup__shoot", "studio"), pk=pk
    )


def back_to(request: MemberRequest, code: str, pk: int, anchor: str = "") -> HttpResponse:
    """Return to the setup, still asked about the same moment."""
    moment = _asked(request)
    return redirect(reverse("setup_detail", args=[code, pk]) + (f"?{urlencode(moment)}" if moment else "") + anchor)


@dataclass(frozen=True)
class _Moment:
    """The day and hour that a setup page is asked about, and what the page offers instead."""

    at: datetime | None
    date: date | None
    days: tuple[ShootDay, ...]
    clock: time | None
    asked: tuple[tuple[str, str], ...]

    @property
    def query(self) -> str:
        """What was asked, as the end of an address."""
        return f"?{urlencode(self.asked)}" if self.asked else ""

    @property
    def is_other(self) -> bool:
        """Whether the date is none of the shoot's days."""
        return self.date is not None and all(day.date != self.date for day in self.days)


def _moment(request: MemberRequest, setup: Setup) -> _Moment:
    """Return the moment from the address, else the first standing day at the setup's planned time.

    The address names a day by its key or any date; shot lists and day plans link here with either.
    """
    days = tuple(ShootDay.objects.filter(shoot=setup.shoot_id).standing())
    asked_day = request.GET.get("day", "")
    day = next((one for one in days if str(one.pk) == asked_day), _likely(setup, days))
    on = day.date if day else None
    with contextlib.suppress(ValueError):
        asked = date.fromisoformat(request.GET.get("date", ""))
        on = asked if EARLIEST <= asked <= LATEST else on
    clock = setup.shoot_time
    with contextlib.suppress(KeyError, ValueError):
        clock = time.fromisoformat(request.GET["time"])
    at = None
    if on and clock:
        zone = ZoneInfo(setup.place.time_zone if setup.place else request.studio.time_zone)
        at = datetime.combine(on, clock.replace(tzinfo=None), zone)
    return _Moment(at, on, days, clock, _asked(request))


def _asked(request: MemberRequest) -> tuple[tuple[str, str], ...]:
    return tuple((name, request.GET[name]) for name in ("day", "date", "time") if name in request.GET)


def _likely(setup: Setup, days: tuple[ShootDay, ...]) -> ShootDay | None:
    """Return the first day at the setup's own place, else the first day."""
    here = (day for day in days if setup.place_id is not None and day.place_id == setup.place_id)
    return next(here, days[0] if days else None)


@require_GET
@for_roles(EVERYBODY)
def setup_list(request: MemberRequest, code: str) -> HttpResponse:
    return _list_page(request, shoot_of(request, code), SetupNewForm(starts=_starts(request)))


def _starts(request: MemberRequest) -> list[tuple[str, str]]:
    return [(card.key, card.name) for card in starts.start_cards(request.studio)]


def _list_page(request: MemberRequest, shoot: Shoot, form: SetupNewForm) -> HttpResponse:
    context = {"shoot": shoot, "cards": pages.setup_cards(shoot), "form": form}
    return render(request, "lighting/setup_list.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def setup_new(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    form = SetupNewForm(request.POST, starts=_starts(request))
    if not form.is_valid():
        return _list_page(request, shoot, form)
    begun = starts.begun(request.studio, form.cleaned_data["start"])
    setup = actions.add_setup(
        shoot=shoot,
        begun=begun,
        by=request.member,
        now=timezone.now(),
        name=form.cleaned_data["name"],
        **pages.first_guess(shoot),
    )
    if begun and begun.missing:
        messages.warning(
            request, _("The bag does not have all of it: %(things)s.") % {"things": ", ".join(begun.missing)}
        )
    return redirect("setup_detail", code=code, pk=setup.pk)


@require_GET
@for_roles(EVERYBODY)
def setup_detail(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    return setup_page(request, setup_of(request, code, pk))


def setup_page(
    request: MemberRequest,
    setup: Setup,
    *,
    lamp_form: LampPlaceForm | None = None,
    panel_form: PanelPlaceForm | None = None,
    reading_form: ReadingForm | None = None,
    status: int = 200,
) -> HttpResponse:
    moment = _moment(request, setup)
    asks = bool(request.GET.get("find")) and request.method == "GET"
    page = pages.setup_page(setup, moment.at, is_asked=asks, mend=request.GET.get("mend", "") if asks else "")
    lamps = [(card.letter, card.placed) for card in page.lamps]
    place_forms = {placed.pk: LampPlaceForm(instance=placed) for _letter, placed in lamps}
    if lamp_form:
        place_forms[lamp_form.instance.pk] = lamp_form
    panel_forms = {card.placed.pk: PanelPlaceForm(instance=card.placed) for card in page.panels}
    if panel_form:
        panel_forms[panel_form.instance.pk] = panel_form
    context = {
        "shoot": setup.shoot,
        "setup": setup,
        "page": page,
        "moment": moment,
        "place_forms": place_forms,
        "wrong_lamp": lamp_form.instance.pk if lamp_form else None,
        "panel_forms": panel_forms,
        "wrong_panel": panel_form.instance.pk if panel_form else None,
        "reading_form": reading_form or ReadingForm(lamps=lamps, setup=setup),
    }
    template = "lighting/setup_detail.html"
    return render(request, template + ("#live" if request.htmx else ""), context, status=status)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def setup_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    form = SetupForm(request.POST or None, instance=setup)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_setup(
                setup=setup,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("“%(name)s” was saved.") % {"name": setup.name})
            return back_to(request, code, pk)
    context = {"shoot": setup.shoot, "setup": setup, "form": form}
    return render(request, "lighting/setup_edit.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def setup_wishes(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Change what the light shall do."""
    setup = setup_of(request, code, pk)
    form = WishesForm(request.POST or None, instance=setup)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_setup(
                setup=setup,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            return back_to(request, code, pk, "#wishes")
    asked = light_asked(setup.mood.brightness) if setup.mood else None
    context = {"shoot": setup.shoot, "setup": setup, "form": form, "asked": asked}
    return render(request, "lighting/setup_wishes.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def setup_found(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """Set camera and lights as the search finds them; it is asked again, so nothing computed comes from the page."""
    setup = setup_of(request, code, pk)
    form = FindingForm(request.POST)
    at = _moment(request, setup).at
    finding = None
    if form.is_valid():
        with contextlib.suppress(NoSuchMend):
            finding = pages.finding_for(setup, pages.lit(setup, at), at, form.cleaned_data["mend"])
    if finding is None:
        messages.error(request, _("These settings no longer fit this setup; look for them again."))
        return back_to(request, code, pk, "#wishes")
    try:
        actions.apply_finding(
            setup=setup,
            lamps=list(setup.lamps.all()),
            changes_setup=finding.changes_setup,
            changes_lamps=finding.changes_lamps,
            seen_version=form.cleaned_data["setup_version"],
            seen_lamps=form.seen_lamps,
            by=request.member,
            now=timezone.now(),
        )
    except actions.EditedMeanwhile:
        messages.error(request, _("Somebody changed this setup in the meantime, so nothing was set; look again."))
    else:
        messages.success(request, _("Camera and lights are set as found."))
        if "shoot_time" in finding.changes_setup:
            # The hour that was asked about is not the planned one any more.
            return redirect(reverse("setup_detail", args=[code, pk]) + "#wishes")
    return back_to(request, code, pk, "#wishes")


@require_POST
@for_roles(PLANNERS)
def setup_duplicate(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    name = (_("%(name)s, copy") % {"name": setup.name[:70]})[:80]
    twin = actions.duplicate_setup(setup=setup, name=name, by=request.member, now=timezone.now())
    messages.success(request, _("A copy with the same lights; give it its own name."))
    return redirect("setup_edit", code=code, pk=twin.pk)


@require_POST
@for_roles(PLANNERS)
def setup_remove(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    actions.remove_setup(setup=setup, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is gone; its shots stay on the list.") % {"name": setup.name})
    return redirect("setup_list", code=code)


@require_POST
@for_roles(PLANNERS)
def setup_move(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    actions.move_setup(setup=setup_of(request, code, pk), step=-1 if request.POST.get("way") == "up" else 1)
    return redirect(reverse("setup_list", args=[code]) + f"#setup-{pk}")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def lamp_new(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    blank = PlacedLamp(setup=setup, studio=setup.studio)
    form = LampForm(request.POST or None, instance=blank)
    if request.method == "POST" and form.is_valid():
        actions.place_lamp(setup=setup, by=request.member, now=timezone.now(), **form.changes)
        return back_to(request, code, pk, "#plan")
    return _lamp_page(request, setup, form, None)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def lamp_edit(request: MemberRequest, code: str, pk: int, lamp_pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    placed = _lamp(setup, lamp_pk)
    form = LampForm(request.POST or None, instance=placed)
    if request.method == "POST" and form.is_valid():
        try:
            _save_lamp(request, placed, form)
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            return back_to(request, code, pk, f"#lamp-{lamp_pk}")
    return _lamp_page(request, setup, form, placed)


def _lamp_page(request: MemberRequest, setup: Setup, form: LampForm, placed: PlacedLamp | None) -> HttpResponse:
    context = {"shoot": setup.shoot, "setup": setup, "form": form, "placed": placed}
    return render(request, "lighting/lamp_edit.html", context, status=422 if form.is_bound else 200)


def _save_lamp(request: MemberRequest, placed: PlacedLamp, form: LampForm | LampPlaceForm) -> None:
    actions.edit_lamp(
        placed=placed,
        changes=form.changes,
        seen_version=form.seen_version,
        by=request.member,
        now=timezone.now(),
    )


@require_POST
@for_roles(PLANNERS)
def lamp_place(request: MemberRequest, code: str, pk: int, lamp_pk: int) -> HttpResponse:
    """Move a light: typed numbers and a drag on the plan post the same fields."""
    placed = _lamp(setup_of(request, code, pk), lamp_pk)
    form = LampPlaceForm(request.POST, instance=placed)
    is_saved = False
    if form.is_valid():
        try:
            _save_lamp(request, placed, form)
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            is_saved = True
    if is_saved and not request.htmx:
        return back_to(request, code, pk, f"#lamp-{lamp_pk}")
    setup = setup_of(request, code, pk)
    return setup_page(request, setup) if is_saved else setup_page(request, setup, lamp_form=form, status=422)


@require_POST
@for_roles(PLANNERS)
def lamp_remove(request: MemberRequest, code: str, pk: int, lamp_pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    placed = _lamp(setup, lamp_pk)
    actions.remove_lamp(placed=placed, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is out of this setup.") % {"name": placed.lamp})
    return back_to(request, code, pk, "#lights")


@require_POST
@for_roles(PLANNERS)
def reading_new(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    lamps = rows.lettered(list(PlacedLamp.objects.filter(setup=setup).select_related("lamp")))
    form = ReadingForm(request.POST, lamps=lamps, setup=setup)
    if not form.is_valid():
        return setup_page(request, setup, reading_form=form, status=422)
    actions.note_reading(setup=setup, by=request.member, now=timezone.now(), **form.cleaned_data)
    return back_to(request, code, pk, "#readings")


@require_POST
@for_roles(PLANNERS)
def reading_remove(request: MemberRequest, code: str, pk: int, reading_pk: int) -> HttpResponse:
    setup = setup_of(request, code, pk)
    readings = MeterReading.objects.filter(setup=setup).select_related("setup__shoot", "studio")
    reading = get_object_or_404(readings, pk=reading_pk)
    actions.remove_reading(reading=reading, by=request.member, now=timezone.now())
    return back_to(request, code, pk, "#readings")
