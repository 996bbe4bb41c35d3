"""Where a shoot stands. The table is the definition: own derivation from the order of the work, no outside source."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from shoots.desk.core.facts import (
    DayFacts,
    Happened,
    Happening,
    InvoiceFacts,
    LicenceFacts,
    QuoteFacts,
    ShootFacts,
)
from shoots.desk.core.stage import day_ahead, is_behind, standing_of
from shoots.desk.core.standing import Lack, Missing, Next, Stage

NOW = datetime(2026, 5, 14, 9, 30, tzinfo=UTC)
TODAY = date(2026, 5, 14)
BRIEFED: dict[str, Any] = {"calls": 1, "brief_begun": True, "shots": 12}


def days(number: int) -> date:
    return TODAY + timedelta(days=number)


def quote(**known: Any) -> QuoteFacts:
    return QuoteFacts(**{"pk": 7, "label": "26-004-1", "made_at": NOW, **known})


def sent(**known: Any) -> QuoteFacts:
    until = NOW + timedelta(days=10)
    return quote(**{"sent_on": days(-2), "valid_until": until, "valid_until_on": until.date(), **known})


ACCEPTED = sent(accepted_on=days(-1))


def a_day(**known: Any) -> DayFacts:
    return DayFacts(**{"pk": 3, "on": days(20), "written_at": NOW - timedelta(days=5), **known})


def confirmed(**known: Any) -> DayFacts:
    return a_day(**{"is_confirmed": True, "call_time": "07:30", **known})


def wrapped(**known: Any) -> DayFacts:
    return confirmed(**{"on": days(-3), "wrapped_on": days(-3), **known})


def happened(*kinds: Happening) -> tuple[Happened, ...]:
    return tuple(
        Happened(kind, days(-len(kinds) + n), NOW - timedelta(days=len(kinds) - n)) for n, kind in enumerate(kinds)
    )


def invoice(**known: Any) -> InvoiceFacts:
    return InvoiceFacts(**{"pk": 9, "label": "2026-0009", "issued_on": days(-10), "due": days(20), **known})


SOLD: dict[str, Any] = {**BRIEFED, "quotes": (ACCEPTED,)}
SHOT: dict[str, Any] = {**SOLD, "days": (wrapped(),), "shots_got": 12, "crew_booked": 1}
DONE: dict[str, Any] = {**SHOT, "pictures": 12, "delivered_on": days(-1), "shots_delivered": 12}
PAID: dict[str, Any] = {**DONE, "invoices": (invoice(settled_on=days(-1)),)}

CASES = {
    "nothing known": ({}, Stage.NEW, Next.TAKE_CALL),
    "drafts of the call undecided": ({"calls": 1, "open_drafts": 5}, Stage.CALLED, Next.READ_DRAFTS),
    "brief has open questions": (
        {"calls": 1, "brief_begun": True, "open_questions": 3},
        Stage.BRIEFING,
        Next.FILL_BRIEF,
    ),
    "brief full, no shots": ({"brief_begun": True}, Stage.LISTING, Next.LIST_SHOTS),
    "shots listed, no quote": (BRIEFED, Stage.UNPRICED, Next.WRITE_QUOTE),
    "quote being written": ({**BRIEFED, "quotes": (quote(),)}, Stage.QUOTE_DRAFT, Next.SEND_QUOTE),
    "quote with the client": ({**BRIEFED, "quotes": (sent(),)}, Stage.QUOTE_SENT, Next.AWAIT_ANSWER),
    "quote sent though the brief has gaps": (
        {"open_questions": 2, "quotes": (sent(),)},
        Stage.QUOTE_SENT,
        Next.AWAIT_ANSWER,
    ),
    "new version written while one is with the client": (
        {**BRIEFED, "quotes": (sent(), quote(pk=8, label="26-004-2"))},
        Stage.QUOTE_SENT,
        Next.SEND_QUOTE,
    ),
    "replaced version does not count": (
        {**BRIEFED, "quotes": (sent(was_replaced=True), sent(pk=8, label="26-004-2"))},
        Stage.QUOTE_SENT,
        Next.AWAIT_ANSWER,
    ),
    "quote lapsed": (
        {**BRIEFED, "quotes": (sent(valid_until=NOW),)},
        Stage.QUOTE_LAPSED,
        Next.SEND_QUOTE_AGAIN,
    ),
    "quote lapsed, next version being written": (
        {**BRIEFED, "quotes": (sent(valid_until=NOW), quote(pk=8))},
        Stage.QUOTE_DRAFT,
        Next.SEND_QUOTE,
    ),
    "quote declined": (
        {**BRIEFED, "quotes": (sent(declined_on=days(-1)),)},
        Stage.QUOTE_DECLINED,
        Next.OFFER_ANEW,
    ),
    "quote with the client outweighs a pencilled date": (
        {**BRIEFED, "quotes": (sent(),), "days": (a_day(held_until=days(4)),)},
        Stage.QUOTE_SENT,
        Next.AWAIT_ANSWER,
    ),
    "accepted, no date": (SOLD, Stage.ACCEPTED, Next.SET_DATE),
    "accepted, date pencilled": (
        {**SOLD, "days": (a_day(held_until=days(4)),)},
        Stage.PENCILLED,
        Next.CONFIRM_DATE,
    ),
    "held until today still holds": (
        {**SOLD, "days": (a_day(held_until=TODAY),)},
        Stage.PENCILLED,
        Next.CONFIRM_DATE,
    ),
    "hold ran out": ({**SOLD, "days": (a_day(held_until=days(-1)),)}, Stage.HOLD_LAPSED, Next.RENEW_HOLD),
    "confirmed, nobody booked": ({**SOLD, "days": (confirmed(),)}, Stage.CONFIRMED, Next.BOOK_CREW),
    "confirmed, bookings pencilled": (
        {**SOLD, "days": (confirmed(),), "crew_booked": 2, "bookings_open": 1},
        Stage.CONFIRMED,
        Next.CONFIRM_BOOKINGS,
    ),
    "confirmed, everybody booked": (
        {**SOLD, "days": (confirmed(),), "crew_booked": 2},
        Stage.CONFIRMED,
        Next.SEND_ADVANCE,
    ),
    "two days before, the sheet comes before bookings": (
        {**SOLD, "days": (confirmed(on=days(2)),), "bookings_open": 1},
        Stage.CONFIRMED,
        Next.SEND_ADVANCE,
    ),
    "advance sheet sent": (
        {**SOLD, "days": (confirmed(on=days(2), advance_on=TODAY),), "crew_booked": 2},
        Stage.CONFIRMED,
        Next.SEND_FINAL,
    ),
    "final sheet sent": (
        {**SOLD, "days": (confirmed(on=days(1), advance_on=days(-1), final_on=TODAY),)},
        Stage.SHEET_SENT,
        Next.GO_SHOOT,
    ),
    "shoot day": ({**SOLD, "days": (confirmed(on=TODAY),)}, Stage.SHOOT_DAY, Next.WRAP_DAY),
    "shoot day without an accepted quote": (
        {**BRIEFED, "quotes": (sent(),), "days": (confirmed(on=TODAY),)},
        Stage.SHOOT_DAY,
        Next.WRAP_DAY,
    ),
    "day passed unticked": ({**SOLD, "days": (confirmed(on=days(-1)),)}, Stage.DAY_PASSED, Next.WRAP_DAY),
    "first of two days shot": (
        {**SHOT, "days": (wrapped(), confirmed(pk=4, on=days(3)))},
        Stage.PARTLY_SHOT,
        Next.SEND_ADVANCE,
    ),
    "second of two days is today": (
        {**SHOT, "days": (wrapped(), confirmed(pk=4, on=TODAY))},
        Stage.SHOOT_DAY,
        Next.WRAP_DAY,
    ),
    "wrapped": (SHOT, Stage.WRAPPED, Next.SEND_PROOFS),
    "wrapped beside a pencilled date that passed": (
        {**SHOT, "days": (a_day(on=days(-4)), wrapped(pk=4))},
        Stage.WRAPPED,
        Next.SEND_PROOFS,
    ),
    "proofs with the client": (
        {**SHOT, "happened": happened(Happening.PROOFS_SENT), "selection_due": days(3)},
        Stage.SELECTING,
        Next.AWAIT_SELECTION,
    ),
    "selection made": (
        {**SHOT, "happened": happened(Happening.PROOFS_SENT, Happening.SELECTION_MADE)},
        Stage.FINISHING,
        Next.FINISH_PICTURES,
    ),
    "second round of proofs": (
        {
            **SHOT,
            "happened": happened(Happening.PROOFS_SENT, Happening.SELECTION_MADE, Happening.PROOFS_SENT),
        },
        Stage.SELECTING,
        Next.AWAIT_SELECTION,
    ),
    "pictures finished": ({**SHOT, "pictures": 12}, Stage.FINISHING, Next.DELIVER),
    "pictures approved": (
        {**SHOT, "happened": happened(Happening.PROOFS_SENT, Happening.APPROVED)},
        Stage.FINISHING,
        Next.DELIVER,
    ),
    "half of the pictures delivered": (
        {**DONE, "shots_delivered": 8},
        Stage.FINISHING,
        Next.FINISH_PICTURES,
    ),
    "delivered": (DONE, Stage.DELIVERED, Next.WRITE_INVOICE),
    "delivered though no day was ticked": (
        {**DONE, "days": (confirmed(on=days(-3)),), "shots_got": 0, "shots_delivered": 0},
        Stage.DELIVERED,
        Next.WRITE_INVOICE,
    ),
    "delivered, invoice drafted": (
        {**DONE, "invoices": (invoice(issued_on=None),)},
        Stage.DELIVERED,
        Next.ISSUE_INVOICE,
    ),
    "delivered, only the deposit paid": (
        {**DONE, "invoices": (invoice(is_deposit=True, settled_on=days(-9)),)},
        Stage.DELIVERED,
        Next.WRITE_INVOICE,
    ),
    "invoiced": ({**DONE, "invoices": (invoice(),)}, Stage.INVOICED, Next.AWAIT_PAYMENT),
    "due today is not overdue": (
        {**DONE, "invoices": (invoice(due=TODAY),)},
        Stage.INVOICED,
        Next.AWAIT_PAYMENT,
    ),
    "overdue": ({**DONE, "invoices": (invoice(due=days(-1)),)}, Stage.OVERDUE, Next.CHASE_PAYMENT),
    "deposit overdue before the day": (
        {**SOLD, "days": (confirmed(),), "invoices": (invoice(is_deposit=True, due=days(-1)),)},
        Stage.CONFIRMED,
        Next.CHASE_PAYMENT,
    ),
    "an overdue deposit does not push the shoot day aside": (
        {**SOLD, "days": (confirmed(on=TODAY),), "invoices": (invoice(is_deposit=True, due=days(-1)),)},
        Stage.SHOOT_DAY,
        Next.WRAP_DAY,
    ),
    "invoiced at the wrap, pictures being finished": (
        {**SHOT, "pictures": 4, "invoices": (invoice(),)},
        Stage.FINISHING,
        Next.DELIVER,
    ),
    "billed without anything else being noted": (
        {"invoices": (invoice(),)},
        Stage.INVOICED,
        Next.AWAIT_PAYMENT,
    ),
    "paid before a date was found": (
        {**SOLD, "invoices": (invoice(settled_on=days(-1)),)},
        Stage.ACCEPTED,
        Next.SET_DATE,
    ),
    "billed before the day that is ahead": (
        {**SOLD, "days": (confirmed(),), "invoices": (invoice(),), "crew_booked": 1},
        Stage.CONFIRMED,
        Next.SEND_ADVANCE,
    ),
    "paid, no licence": (PAID, Stage.PAID, Next.PUT_AWAY),
    "paid, licence not begun": ({**PAID, "licences": (LicenceFacts(),)}, Stage.PAID, Next.CHECK_LICENCE),
    "paid, licence begins later": (
        {**PAID, "licences": (LicenceFacts(days(10), days(374)),)},
        Stage.PAID,
        Next.AWAIT_LICENCE_START,
    ),
    "licence running": (
        {**PAID, "licences": (LicenceFacts(days(-1), days(363)),)},
        Stage.LICENSED,
        Next.AWAIT_LICENCE_END,
    ),
    "licence for good": (
        {**PAID, "licences": (LicenceFacts(days(-1), None),)},
        Stage.LICENSED,
        Next.PUT_AWAY,
    ),
    "licence ends within sixty days": (
        {**PAID, "licences": (LicenceFacts(days(-305), days(60)),)},
        Stage.LICENSED,
        Next.RENEW_LICENCE,
    ),
    "licence's last day is today": (
        {**PAID, "licences": (LicenceFacts(days(-364), TODAY),)},
        Stage.LICENSED,
        Next.RENEW_LICENCE,
    ),
    "licence ended": (
        {**PAID, "licences": (LicenceFacts(days(-365), days(-1)),)},
        Stage.LICENCE_ENDED,
        Next.RENEW_LICENCE,
    ),
    "two licences, the longer one counts": (
        {**PAID, "licences": (LicenceFacts(days(-400), days(-30)), LicenceFacts(days(-29), days(300)))},
        Stage.LICENSED,
        Next.AWAIT_LICENCE_END,
    ),
    "lost": ({**BRIEFED, "happened": happened(Happening.LOST)}, Stage.LOST, Next.PUT_AWAY),
    "on hold": ({**SOLD, "happened": happened(Happening.ON_HOLD)}, Stage.ON_HOLD, Next.TAKE_UP),
    "on hold, then taken up": (
        {**SOLD, "happened": happened(Happening.ON_HOLD, Happening.TAKEN_UP)},
        Stage.ACCEPTED,
        Next.SET_DATE,
    ),
    "lost, then they accepted after all": (
        {**BRIEFED, "happened": happened(Happening.LOST), "quotes": (sent(accepted_on=TODAY),)},
        Stage.ACCEPTED,
        Next.SET_DATE,
    ),
    "postponed": (
        {**SOLD, "happened": happened(Happening.POSTPONED), "days": (confirmed(),)},
        Stage.POSTPONED,
        Next.SET_DATE,
    ),
    "postponed, then a new day was written down": (
        {**SOLD, "happened": happened(Happening.POSTPONED), "days": (a_day(written_at=NOW),)},
        Stage.PENCILLED,
        Next.CONFIRM_DATE,
    ),
    "cancelled before anything was agreed": (
        {**BRIEFED, "happened": happened(Happening.CANCELLED)},
        Stage.CANCELLED,
        Next.PUT_AWAY,
    ),
    "cancelled after acceptance": (
        {**SOLD, "happened": happened(Happening.CANCELLED)},
        Stage.CANCELLED,
        Next.WRITE_INVOICE,
    ),
    "cancelled, its invoice unpaid": (
        {**SOLD, "happened": happened(Happening.CANCELLED), "invoices": (invoice(),)},
        Stage.CANCELLED,
        Next.AWAIT_PAYMENT,
    ),
    "cancelled, its invoice overdue": (
        {**SOLD, "happened": happened(Happening.CANCELLED), "invoices": (invoice(due=days(-5)),)},
        Stage.CANCELLED,
        Next.CHASE_PAYMENT,
    ),
    "put away": ({**PAID, "put_away": True}, Stage.PUT_AWAY, Next.NOTHING),
    "put away, its licence still watched": (
        {**PAID, "put_away": True, "licences": (LicenceFacts(days(-1), days(363)),)},
        Stage.PUT_AWAY,
        Next.AWAIT_LICENCE_END,
    ),
    "put away after its licence ended": (
        {**PAID, "put_away": True, "licences": (LicenceFacts(days(-365), days(-1)),)},
        Stage.PUT_AWAY,
        Next.NOTHING,
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_the_stage_and_the_next_step_follow_from_the_facts(case: str) -> None:
    known, stage, step = CASES[case]
    found = standing_of(ShootFacts(now=NOW, today=TODAY, **known))
    assert (found.stage, found.step.code) == (stage, step)


def test_every_stage_and_every_step_is_reached_by_some_case() -> None:
    stages = {stage for _, stage, _ in CASES.values()}
    steps = {step for _, _, step in CASES.values()}
    of_a_brief = {Stage.BRIEF_SENT, Stage.BRIEF_CORRECTED, Stage.BRIEF_APPROVED}  # test_stage_of_a_brief.py
    assert set(Stage) - stages - of_a_brief == {Stage.PLANNED}  # what crew see instead of the selling stages
    assert set(Next) - steps - {Next.AWAIT_APPROVAL, Next.MEND_BRIEF} == set()


CREW_CASES = {
    "quote with the client": (Stage.PLANNED, Next.NOTHING),
    "quote declined": (Stage.PLANNED, Next.NOTHING),
    "quote with the client outweighs a pencilled date": (Stage.PENCILLED, Next.NOTHING),
    "accepted, date pencilled": (Stage.PENCILLED, Next.NOTHING),
    "confirmed, nobody booked": (Stage.CONFIRMED, Next.NOTHING),
    "final sheet sent": (Stage.SHEET_SENT, Next.GO_SHOOT),
    "deposit overdue before the day": (Stage.CONFIRMED, Next.NOTHING),
    "overdue": (Stage.DELIVERED, Next.NOTHING),
    "licence running": (Stage.DELIVERED, Next.NOTHING),
    "cancelled, its invoice overdue": (Stage.CANCELLED, Next.NOTHING),
    "put away, its licence still watched": (Stage.PUT_AWAY, Next.NOTHING),
}


@pytest.mark.parametrize("case", CREW_CASES)
def test_crew_are_told_nothing_of_money(case: str) -> None:
    found = standing_of(ShootFacts(now=NOW, today=TODAY, **CASES[case][0]), sees_money=False)
    assert (found.stage, found.step.code) == CREW_CASES[case]


MONEY_STAGES = {
    Stage.UNPRICED, Stage.QUOTE_DRAFT, Stage.QUOTE_SENT, Stage.QUOTE_LAPSED, Stage.QUOTE_DECLINED, Stage.ACCEPTED,
    Stage.INVOICED, Stage.OVERDUE, Stage.PAID, Stage.LICENSED, Stage.LICENCE_ENDED,
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_no_case_shows_crew_a_stage_or_a_lack_of_money(case: str) -> None:
    found = standing_of(ShootFacts(now=NOW, today=TODAY, **CASES[case][0]), sees_money=False)
    assert found.stage not in MONEY_STAGES
    assert found.label == found.step.label == ""
    assert not {lack.code for lack in found.missing} & {
        Missing.ACCEPTANCE,
        Missing.DEPOSIT_INVOICE,
        Missing.INVOICE,
    }


def facts(case: str, **more: Any) -> ShootFacts:
    return replace(ShootFacts(now=NOW, today=TODAY, **CASES[case][0]), **more)


def test_what_is_missing_is_counted() -> None:
    found = standing_of(facts("quote sent though the brief has gaps", brief_begun=True))
    assert found.missing == (Lack(Missing.ANSWERS, 2), Lack(Missing.SHOTS))


def test_a_confirmed_day_without_an_acceptance_lacks_it() -> None:
    found = standing_of(facts("quote with the client", days=(confirmed(),)))
    assert Lack(Missing.ACCEPTANCE) in found.missing


def test_a_deposit_that_was_agreed_is_missing_until_it_is_invoiced() -> None:
    asked = replace(ACCEPTED, asks_deposit=True)
    assert Lack(Missing.DEPOSIT_INVOICE) in standing_of(facts("accepted, no date", quotes=(asked,))).missing
    invoiced = facts("accepted, no date", quotes=(asked,), invoices=(invoice(is_deposit=True),))
    assert Lack(Missing.DEPOSIT_INVOICE) not in standing_of(invoiced).missing


def test_must_shots_that_were_not_got_are_missing_after_the_wrap() -> None:
    assert standing_of(facts("wrapped", musts_missing=2)).missing == (Lack(Missing.MUST_SHOTS, 2),)


def test_the_sheet_is_missing_only_from_two_days_before_on() -> None:
    near = facts("confirmed, everybody booked", days=(confirmed(on=days(2)),))
    far = facts("confirmed, everybody booked", days=(confirmed(on=days(3)),))
    assert Lack(Missing.SHEET) in standing_of(near).missing
    assert Lack(Missing.SHEET) not in standing_of(far).missing


def test_a_confirmed_day_goes_before_an_earlier_pencilled_one() -> None:
    both = facts("accepted, no date", days=(a_day(pk=1, on=days(5)), confirmed(pk=2, on=days(9))))
    found = day_ahead(both)
    assert found is not None and found.pk == 2


def test_nothing_can_stop_a_shoot_that_was_shot_or_billed_with_no_day_ahead() -> None:
    assert is_behind(facts("wrapped"))
    assert is_behind(facts("billed without anything else being noted"))
    assert not is_behind(facts("billed before the day that is ahead"))
    assert not is_behind(facts("first of two days shot"))
    assert not is_behind(facts("accepted, no date"))


def test_a_first_option_goes_before_an_earlier_second_option() -> None:
    both = facts("accepted, no date", days=(a_day(pk=1, on=days(5), option_rank=2), a_day(pk=2, on=days(9))))
    found = day_ahead(both)
    assert found is not None and found.pk == 2


def test_the_sentence_gets_the_days_it_needs() -> None:
    quoted = standing_of(facts("quote with the client"))
    assert (quoted.since, quoted.until) == (days(-2), days(10))
    pencilled = standing_of(facts("accepted, date pencilled"))
    assert (pencilled.day, pencilled.until, pencilled.step.by) == (days(20), days(4), days(4))
    today = standing_of(facts("shoot day"))
    assert (today.day, today.clock, today.count) == (TODAY, "07:30", 12)
    late = standing_of(facts("overdue"))
    assert (late.since, late.step.record, late.step.label) == (days(-1), 9, "2026-0009")


def test_the_codes_of_what_happened_are_those_of_the_record() -> None:
    from shoots.shoot.models import FactKind

    assert {str(kind) for kind in FactKind} == {str(kind) for kind in Happening}
