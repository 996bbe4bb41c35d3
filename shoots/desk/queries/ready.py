"""How ready the next day of a shoot is, and what could stop it, in words with the place where it is mended."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from django.db.models import Count, Q
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.desk.core import papers
from shoots.desk.core.due import FINAL_SHEET_BY
from shoots.desk.core.facts import DayFacts, ShootFacts
from shoots.desk.core.stage import accepted_quote, day_ahead
from shoots.desk.core.stoppers import (
    Finding,
    PlaceFacts,
    ReadyFacts,
    Stopper,
    Talent,
    Weight,
    stoppers,
)
from shoots.desk.queries.days import day_words
from shoots.lighting.models import Setup
from shoots.members.models import Member
from shoots.places.models import Place
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.shotlist.queries import products_without_sample


@dataclass(frozen=True)
class StopperLine:
    """One thing that could stop the shoot. `url` is "" for those who can't mend it."""

    code: Stopper
    words: str
    weight: str
    tone: str
    url: str


@dataclass(frozen=True)
class NextDay:
    """The day that a shoot waits for, with its place, and what could stop it, worst first."""

    day: ShootDay | None
    place: Place | None
    bookings: tuple[Booking, ...]
    stoppers: tuple[StopperLine, ...]

    @property
    def worst(self) -> tuple[StopperLine, ...]:
        """The three worst, for pages where there is little room."""
        return self.stoppers[:3]


def next_day(shoot: Shoot, facts: ShootFacts, *, member: Member, now: datetime) -> NextDay:
    """Return the next day of a shoot and what could stop it. Four queries."""
    ahead = day_ahead(facts)
    days = ShootDay.objects.filter(shoot=shoot).standing().select_related("place")
    day = next((row for row in days if ahead and row.pk == ahead.pk), None)
    standing = Booking.objects.standing().filter(shoot=shoot).select_related("person", "place", "day")
    bookings = [row for row in standing if day is None or row.day_id in (None, day.pk)]
    setups = list(
        Setup.objects.filter(shoot=shoot)
        .select_related("place")
        .annotate(light_count=Count("lamps"), mains_count=Count("lamps", filter=Q(lamps__lamp__needs_mains=True)))
    )
    missing = products_without_sample(shoot, day)
    ready = _ready_facts(facts, ahead, day, bookings, setups, missing, member=member, now=now)
    today = facts.today
    lines = tuple(
        StopperLine(
            code=finding.code,
            words=stopper_words(finding, today=today),
            weight=_weight_words(finding.weight),
            tone="bad" if finding.weight <= Weight.ENDANGERS else "wait" if finding.weight is Weight.RISKS else "",
            url=_door(finding, shoot) if member.plans else "",
        )
        for finding in stoppers(ready)
    )
    return NextDay(day, day.place if day else None, tuple(bookings), lines)


def _ready_facts(
    facts: ShootFacts,
    ahead: DayFacts | None,
    day: ShootDay | None,
    bookings: list[Booking],
    setups: list[Any],
    without_sample: tuple[str, ...],
    *,
    member: Member,
    now: datetime,
) -> ReadyFacts:
    crew = [row for row in bookings if row.kind == BookingKind.CREW]
    talent = [row for row in bookings if row.kind == BookingKind.TALENT]
    pencilled = [row for row in bookings if row.is_pencilled]
    places = _places_of(day, bookings, setups)
    late = papers.overdue_invoices(facts)
    return ReadyFacts(
        today=facts.today,
        day=day.date if day else None,
        is_confirmed=bool(day and day.is_confirmed),
        held_until=day.held_until if day else None,
        has_call_time=bool(day and day.call_time),
        advance_sent=bool(ahead and ahead.advance_on),
        final_sent=bool(ahead and ahead.final_on),
        is_after_four=now.astimezone(member.studio.zone).time() >= FINAL_SHEET_BY,
        quote_accepted=not member.sees_prices or accepted_quote(facts) is not None,
        deposit_unpaid=any(invoice.is_deposit for invoice in late),
        places=tuple(_place_facts(place) for place in places),
        talents=tuple(
            Talent(row.person.name, row.person.birth_date, row.person.guardian) for row in talent if row.person
        ),
        crew=len(crew),
        crew_pencilled=sum(row.kind == BookingKind.CREW for row in pencilled),
        talent_pencilled=sum(row.kind == BookingKind.TALENT for row in pencilled),
        others_pencilled=sum(row.kind not in (BookingKind.CREW, BookingKind.TALENT) for row in pencilled),
        shots=facts.shots,
        shots_without_setup=facts.shots_without_setup,
        setups_without_light=sum(setup.light_count == 0 for setup in setups),
        mains_lamps=sum(setup.mains_count for setup in setups),
        without_sample=without_sample,
        open_questions=facts.open_questions,
    )


def _places_of(day: ShootDay | None, bookings: list[Booking], setups: list[Any]) -> list[Place]:
    """Where the day takes place: its own place and what is booked for it alone, else where its setups stand."""
    if day is None:
        return []
    found = [day.place, *(row.place for row in bookings if row.day_id == day.pk)]
    if not any(found):
        found = [setup.place for setup in setups]
    return list({place.pk: place for place in found if place is not None}.values())


def _place_facts(place: Place) -> PlaceFacts:
    return PlaceFacts(
        pk=place.pk,
        name=place.name,
        permission=place.permission,
        has_hospital=bool(place.hospital.strip()),
        hazards=place.hazards,
        has_position=place.has_position,
        indoors=place.indoors,
        has_power=bool(place.power.strip()),
    )


def _weight_words(weight: Weight) -> str:
    return {
        Weight.STOPS: _("stops it"),
        Weight.ENDANGERS: _("safety"),
        Weight.RISKS: _("risk"),
        Weight.TO_DO: _("to do"),
    }[weight]


_AT_PLACE = frozenset(
    {
        Stopper.NO_PERMISSION,
        Stopper.PERMISSION_ASKED,
        Stopper.NO_HOSPITAL,
        Stopper.HAZARDS,
        Stopper.MAINS_OUTDOORS,
        Stopper.NO_POWER,
        Stopper.NO_POSITION,
    }
)
_AT = {
    Stopper.QUOTE_NOT_ACCEPTED: "quote_list",
    Stopper.DEPOSIT_UNPAID: "invoice_list",
    Stopper.FINAL_SHEET_DUE: "callsheet_list",
    Stopper.ADVANCE_SHEET_DUE: "callsheet_list",
    Stopper.NO_SHOTS: "shot_list",
    Stopper.NO_SAMPLE: "shot_parts",
    Stopper.SHOTS_WITHOUT_SETUP: "shot_list",
    Stopper.SETUPS_WITHOUT_LIGHT: "setup_list",
    Stopper.OPEN_QUESTIONS: "brief_detail",
}


def _door(finding: Finding, shoot: Shoot) -> str:
    if finding.code in _AT_PLACE:
        return reverse("place_detail", args=[finding.record])
    return reverse(_AT.get(finding.code, "shoot_dates"), args=[shoot.code])


def stopper_words(finding: Finding, *, today: date) -> str:
    """Return a finding as one sentence without a full stop. No query."""
    known = {
        "name": finding.name,
        "n": finding.count,
        "by": day_words(finding.by, today) if finding.by else "",
    }
    words = {
        Stopper.NO_DATE: _("There is no date yet"),
        Stopper.HOLD_RAN_OUT: _("The date is only pencilled, and was held until %(by)s"),
        Stopper.HOLD_RUNS_OUT: _("The date is only pencilled, and held until %(by)s"),
        Stopper.DATE_PENCILLED: (
            _("The date is only pencilled, held until %(by)s") if finding.by else _("The date is only pencilled")
        ),
        Stopper.NO_PERMISSION: _("Nobody has asked permission for %(name)s"),
        Stopper.PERMISSION_ASKED: _("Permission for %(name)s is asked, not given"),
        Stopper.MINOR_WITHOUT_GUARDIAN: _(
            "%(name)s is under 18 without a guardian named; ask their local authority what it needs"
        ),
        Stopper.MINOR: _("%(name)s is under 18: hours, chaperone and licence by local rules"),
        Stopper.MAINS_OUTDOORS: ngettext(
            "%(n)d light on mains outdoors at %(name)s: dry ground, RCD, and an electrician where rules ask for one",
            "%(n)d lights on mains outdoors at %(name)s: dry ground, RCD, and an electrician where rules ask for one",
            finding.count,
        ),
        Stopper.NO_HOSPITAL: _("No A&E is noted for %(name)s"),
        Stopper.HAZARDS: _("%(name)s has dangers noted: read them, plan for them, brief everybody"),
        Stopper.QUOTE_NOT_ACCEPTED: _("No quote is accepted"),
        Stopper.DEPOSIT_UNPAID: _("The deposit is overdue"),
        Stopper.FINAL_SHEET_DUE: _("The final call sheet is not out"),
        Stopper.ADVANCE_SHEET_DUE: _("The advance call sheet is not out"),
        Stopper.NO_PLACE: _("The day has no place"),
        Stopper.NO_CALL_TIME: _("The day has no call time"),
        Stopper.NO_POWER: ngettext(
            "%(n)d light needs mains, and %(name)s has none noted",
            "%(n)d lights need mains, and %(name)s has none noted",
            finding.count,
        ),
        Stopper.TALENT_PENCILLED: ngettext(
            "%(n)d person in front of the camera is only pencilled",
            "%(n)d people in front of the camera are only pencilled",
            finding.count,
        ),
        Stopper.CREW_PENCILLED: ngettext(
            "%(n)d of the crew is only pencilled", "%(n)d of the crew are only pencilled", finding.count
        ),
        Stopper.BOOKINGS_PENCILLED: ngettext(
            "%(n)d place or hire is only pencilled", "%(n)d places or hires are only pencilled", finding.count
        ),
        Stopper.NO_CREW: _("No crew is booked"),
        Stopper.NO_SHOTS: _("No shots are listed"),
        Stopper.NO_SAMPLE: _("No sample of %(name)s is there that can be shown"),
        Stopper.SETUPS_WITHOUT_LIGHT: ngettext(
            "%(n)d setup has no light placed", "%(n)d setups have no light placed", finding.count
        ),
        Stopper.SHOTS_WITHOUT_SETUP: ngettext("%(n)d shot has no setup", "%(n)d shots have no setup", finding.count),
        Stopper.OPEN_QUESTIONS: ngettext(
            "%(n)d question that moves the price is open", "%(n)d questions that move the price are open", finding.count
        ),
        Stopper.NO_POSITION: _("%(name)s has no position, so its light can't be computed"),
    }
    return words[finding.code] % known
