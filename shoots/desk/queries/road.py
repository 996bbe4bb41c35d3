"""Where a shoot stands, in one sentence with one button."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from shoots.desk.core.stage import standing_of
from shoots.desk.core.standing import Next, Standing
from shoots.desk.queries import sentences
from shoots.desk.queries.facts import shoot_facts
from shoots.members.core import BOOKS, EVERYBODY, PLANNERS, PRICES, Role
from shoots.members.models import Member
from shoots.shoot.models import Shoot


@dataclass(frozen=True)
class Road:
    """Where a shoot stands, in one sentence, with one button. Texts are "" where there is nothing to say or do.

    `sentence` ends with a semicolon where `next_sentence` follows it ("…since Tuesday;" "next: their answer.").
    """

    sentence: str
    next_sentence: str
    button_label: str
    button_url: str


@dataclass(frozen=True)
class _Door:
    """Where a step is done: label, URL name, who may do it; `of_record` adds the step's record to the path."""

    label: object
    url_name: str
    roles: frozenset[Role] = PLANNERS
    of_record: bool = False


_DOORS = {
    Next.TAKE_CALL: _Door(_("Note the call"), "call_of_shoot"),
    Next.READ_DRAFTS: _Door(_("Read the drafts"), "call_of_shoot"),
    Next.FILL_BRIEF: _Door(_("Open the brief"), "brief_detail"),
    Next.LIST_SHOTS: _Door(_("List the shots"), "shot_list"),
    Next.AWAIT_APPROVAL: _Door(_("Record their answer"), "brief_version", of_record=True),
    Next.MEND_BRIEF: _Door(_("See what isn’t right"), "brief_detail"),
    Next.WRITE_QUOTE: _Door(_("Write the quote"), "quote_list"),
    Next.SEND_QUOTE: _Door(_("Open the quote"), "quote_detail", of_record=True),
    Next.AWAIT_ANSWER: _Door(_("Record their answer"), "quote_detail", of_record=True),
    Next.SEND_QUOTE_AGAIN: _Door(_("Open the quote"), "quote_detail", of_record=True),
    Next.OFFER_ANEW: _Door(_("Open the quote"), "quote_detail", of_record=True),
    Next.SET_DATE: _Door(_("Set a date"), "shoot_dates"),
    Next.CONFIRM_DATE: _Door(_("Confirm the date"), "shoot_dates"),
    Next.RENEW_HOLD: _Door(_("See the date"), "shoot_dates"),
    Next.BOOK_CREW: _Door(_("Book the crew"), "shoot_dates"),
    Next.CONFIRM_BOOKINGS: _Door(_("See the bookings"), "shoot_dates"),
    Next.SEND_ADVANCE: _Door(_("Make the call sheet"), "callsheet_list"),
    Next.SEND_FINAL: _Door(_("Make the call sheet"), "callsheet_list"),
    Next.GO_SHOOT: _Door(_("See the call sheet"), "callsheet_list", EVERYBODY),
    Next.WRAP_DAY: _Door(_("Wrap the day"), "shoot_dates"),
    Next.SEND_PROOFS: _Door(_("Note that proofs went out"), "fact_new"),
    Next.AWAIT_SELECTION: _Door(_("Note their selection"), "fact_new"),
    Next.FINISH_PICTURES: _Door(_("Add pictures"), "picture_list"),
    Next.DELIVER: _Door(_("Deliver the pictures"), "delivery_new"),
    Next.WRITE_INVOICE: _Door(_("Write the invoice"), "invoice_list", BOOKS),
    Next.ISSUE_INVOICE: _Door(_("Open the invoice"), "invoice_detail", BOOKS, of_record=True),
    Next.AWAIT_PAYMENT: _Door(_("Note the payment"), "invoice_detail", BOOKS, of_record=True),
    Next.CHASE_PAYMENT: _Door(_("Open the invoice"), "invoice_detail", BOOKS, of_record=True),
    Next.CHECK_LICENCE: _Door(_("See the licence"), "licence_list", PRICES),
    Next.AWAIT_LICENCE_START: _Door(_("See the licence"), "licence_list", PRICES),
    Next.AWAIT_LICENCE_END: _Door(_("See the licence"), "licence_list", PRICES),
    Next.RENEW_LICENCE: _Door(_("See the licence"), "licence_list", PRICES),
    Next.PUT_AWAY: _Door(_("Put it away"), "shoot_edit"),
    Next.TAKE_UP: _Door(_("Take it up"), "fact_new"),
}


def road_of(shoot: Shoot, *, member: Member, now: datetime) -> Road:
    """Return where a shoot stands for this member. Seven queries for crew, thirteen for the others."""
    return roads_of([shoot], member=member, now=now)[shoot.pk]


def roads_of(shoots: Iterable[Shoot], *, member: Member, now: datetime) -> dict[int, Road]:
    """Return where several shoots of the member's studio stand, by their keys; the same few queries for all."""
    wanted = list(shoots)
    facts = shoot_facts(wanted, studio=member.studio, sees_money=member.sees_prices, now=now)
    return {
        shoot.pk: road_from(shoot, standing_of(facts[shoot.pk], sees_money=member.sees_prices), member=member, now=now)
        for shoot in wanted
    }


def road_from(shoot: Shoot, standing: Standing, *, member: Member, now: datetime) -> Road:
    """Return a standing in words, with its button if the member may do what comes next. No query."""
    today = member.studio.local_date(now)
    door = _DOORS.get(standing.step.code)
    label = url = ""
    if door is not None and member.role in door.roles:
        label = str(door.label)
        record = [standing.step.record] if door.of_record else []
        url = reverse(door.url_name, args=[shoot.code, *record])
    step = sentences.step_words(standing, today=today)
    return Road(
        sentence=f"{sentences.stage_words(standing, today=today)}{';' if step else '.'}",
        next_sentence=f"{step}." if step else "",
        button_label=label,
        button_url=url,
    )
