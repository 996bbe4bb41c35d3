"""Where a shoot stands: one stage, one next step and what is missing, all derived from facts.

Nothing here is ever stored. Three roads run side by side (the work, the money, the rights); the stage is the one
that holds the shoot up, and the next step says what moves it.

Own derivation from the order of the work: call, brief, list, quote, date, people, sheet, day, choice, pictures,
invoice, payment, licence. Common practice, no source; tests/desk/core/test_stage.py holds the table of cases.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from shoots.desk.core import papers
from shoots.desk.core.facts import BriefFacts, DayFacts, Happening, InvoiceFacts, QuoteFacts, ShootFacts
from shoots.desk.core.standing import Lack, Missing, Next, Stage, Standing, Step

SHEET_FIRST_DAYS = 2
"""From so many days before the shoot on, the call sheet comes before open bookings."""
_BUSY = frozenset({Stage.SHOOT_DAY, Stage.SHEET_SENT, Stage.DAY_PASSED, Stage.OVERDUE})
"""Stages in which an overdue invoice must not push the next step aside (the last one already says it)."""
_WORK_HAPPENINGS = (Happening.PROOFS_SENT, Happening.SELECTION_MADE, Happening.APPROVED)


def standing_of(facts: ShootFacts, *, sees_money: bool = True) -> Standing:
    """Return where a shoot stands, what comes next and what is missing.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.
    sees_money : bool
        False for crew: quotes, invoices and licences then play no part and are never mentioned.

    Returns
    -------
    Standing
        One stage with its days and counts, the next step, and what is missing.

    Notes
    -----
    Own derivation; the cases of tests/desk/core/test_stage.py are its definition.

    Examples
    --------
    >>> from datetime import UTC, date, datetime
    >>> at = datetime(2026, 5, 14, 9, 30, tzinfo=UTC)
    >>> quote = QuoteFacts(pk=1, label="26-004-1", made_at=at, sent_on=date(2026, 5, 12))
    >>> found = standing_of(ShootFacts(now=at, today=at.date(), quotes=(quote,)))
    >>> found.stage.value, found.since, found.step.code.value
    ('QUOTE_SENT', datetime.date(2026, 5, 12), 'AWAIT_ANSWER')
    """
    if not sees_money:
        return _without_money(facts)
    found = _stopped(facts) or _moving(facts)
    late = papers.overdue_invoices(facts)
    if late and found.stage not in _BUSY:
        found = replace(found, step=_chase(late[0]))
    return replace(found, missing=tuple(_missing(facts)))


def was_shot(facts: ShootFacts) -> bool:
    """Return whether photographs were taken, be it that nobody ticked a day as wrapped.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    bool
        True once a day was wrapped, pictures exist, or anything that follows the day was written down.

    Notes
    -----
    Own derivation.
    """
    return (
        any(day.wrapped_on for day in facts.days)
        or facts.pictures > 0
        or facts.delivered_on is not None
        or facts.last(*_WORK_HAPPENINGS) is not None
    )


def is_behind(facts: ShootFacts) -> bool:
    """Return whether the days of a shoot lie behind it: no day is ahead, and it was shot or billed outright.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    bool
        True when nothing can stop the shoot any more.

    Notes
    -----
    Own derivation. Billed outright means an invoice without an accepted quote: with one, a client may have paid
    before a date was found.
    """
    billed_outright = papers.has_final_invoice(facts) and accepted_quote(facts) is None
    return day_ahead(facts) is None and (was_shot(facts) or billed_outright)


def accepted_quote(facts: ShootFacts) -> QuoteFacts | None:
    """Return the version that the client accepted last, or None.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    QuoteFacts or None
        The accepted version.

    Notes
    -----
    Own derivation.
    """
    return next((quote for quote in reversed(facts.quotes) if quote.accepted_on), None)


def day_ahead(facts: ShootFacts) -> DayFacts | None:
    """Return the day that the shoot now waits for: the first confirmed one, else the first pencilled one.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    DayFacts or None
        A day that was not wrapped; a first option goes before a second one. Pencilled days that have passed
        count only while nothing was shot.

    Notes
    -----
    Own derivation.
    """
    shot = was_shot(facts)
    ahead = [
        day
        for day in facts.days
        if day.wrapped_on is None and not (shot and day.on < facts.today and not _must_wrap(facts, day))
    ]
    ahead.sort(key=lambda day: (not day.is_confirmed, day.option_rank, day.on, day.pk))
    return ahead[0] if ahead else None


def _must_wrap(facts: ShootFacts, day: DayFacts) -> bool:
    """A confirmed day of a longer shoot that has passed unticked, while other days were ticked."""
    ticked = any(other.wrapped_on for other in facts.days)
    return day.is_confirmed and ticked and facts.delivered_on is None


# --- standing still ------------------------------------------------------------------------------------------


def _stopped(facts: ShootFacts) -> Standing | None:
    if facts.put_away:
        return Standing(Stage.PUT_AWAY, papers.licence_step(facts))
    still = facts.last(Happening.LOST, Happening.CANCELLED, Happening.ON_HOLD, Happening.POSTPONED, Happening.TAKEN_UP)
    if still is None or still.kind is Happening.TAKEN_UP:
        return None
    if still.kind is Happening.POSTPONED and any(day.written_at > still.at for day in facts.days):
        return None  # a new day was written down: that took it up
    accepted = accepted_quote(facts)
    waits = still.kind in (Happening.LOST, Happening.ON_HOLD)
    if waits and accepted and accepted.accepted_on and accepted.accepted_on > still.on:
        return None  # their acceptance took it up
    step = {
        Happening.LOST: Step(Next.PUT_AWAY),
        Happening.ON_HOLD: Step(Next.TAKE_UP),
        Happening.POSTPONED: Step(Next.SET_DATE),
        Happening.CANCELLED: _after_cancelling(facts),
    }[still.kind]
    return Standing(Stage(still.kind.value), step, since=still.on)


def _after_cancelling(facts: ShootFacts) -> Step:
    owed = papers.first_owed_invoice(facts)
    if owed is not None:
        return Step(Next.AWAIT_PAYMENT, by=owed.due, label=owed.label, record=owed.pk)
    if accepted_quote(facts) and not papers.has_final_invoice(facts):
        return papers.invoice_step(facts)
    return Step(Next.PUT_AWAY)


# --- moving --------------------------------------------------------------------------------------------------


def _moving(facts: ShootFacts) -> Standing:
    ahead = day_ahead(facts)
    if was_shot(facts):
        return _between_days(facts, ahead) if ahead else _after_the_day(facts)
    if is_behind(facts):
        return _after_delivery(facts)
    if accepted_quote(facts) or (ahead and ahead.is_confirmed and ahead.on <= facts.today):
        return _towards_the_day(facts, ahead)
    return _selling(facts)


def _selling(facts: ShootFacts) -> Standing:
    live = [quote for quote in facts.quotes if not quote.was_replaced]
    draft = next((quote for quote in reversed(live) if quote.sent_on is None), None)
    sent = next((quote for quote in reversed(live) if quote.sent_on is not None), None)
    send = Step(Next.SEND_QUOTE, label=draft.label, record=draft.pk) if draft else None
    if sent is not None and sent.declined_on is None:
        lapsed = sent.valid_until is not None and sent.valid_until <= facts.now
        if not lapsed:
            step = send or Step(Next.AWAIT_ANSWER, by=sent.valid_until_on, label=sent.label, record=sent.pk)
            return Standing(Stage.QUOTE_SENT, step, since=sent.sent_on, until=sent.valid_until_on, label=sent.label)
    if facts.brief is not None and facts.brief.is_to_be_put_right:
        return _of_brief(facts, facts.brief)
    if sent is not None and sent.declined_on is None and send is None:
        step = Step(Next.SEND_QUOTE_AGAIN, label=sent.label, record=sent.pk)
        return Standing(Stage.QUOTE_LAPSED, step, since=sent.valid_until_on, label=sent.label)
    if draft is not None and send is not None:
        return Standing(Stage.QUOTE_DRAFT, send, label=draft.label)
    if sent is not None:
        step = Step(Next.OFFER_ANEW, label=sent.label, record=sent.pk)
        return Standing(Stage.QUOTE_DECLINED, step, since=sent.declined_on, label=sent.label)
    return _preparing(facts)


def _of_brief(facts: ShootFacts, brief: BriefFacts) -> Standing:
    """The brief is with the client, or came back. A quote that is with them too goes before it."""
    label = str(brief.number)
    if brief.approved_on is not None:
        step = Step(Next.WRITE_QUOTE if facts.shots else Next.LIST_SHOTS)
        return Standing(Stage.BRIEF_APPROVED, step, since=brief.approved_on, label=label)
    if brief.corrected_on is not None:
        step = Step(Next.MEND_BRIEF, label=label, record=brief.pk)
        return Standing(Stage.BRIEF_CORRECTED, step, since=brief.corrected_on, label=label)
    step = Step(Next.AWAIT_APPROVAL, label=label, record=brief.pk)
    return Standing(Stage.BRIEF_SENT, step, since=brief.sent_on, label=label)


def _preparing(facts: ShootFacts) -> Standing:
    if facts.brief is not None:
        return _of_brief(facts, facts.brief)
    if facts.open_drafts:
        step = Step(Next.READ_DRAFTS, count=facts.open_drafts)
        return Standing(Stage.CALLED, step, count=facts.open_drafts)
    if not (facts.calls or facts.brief_begun or facts.shots):
        return Standing(Stage.NEW, Step(Next.TAKE_CALL))
    if facts.open_questions:
        step = Step(Next.FILL_BRIEF, count=facts.open_questions)
        return Standing(Stage.BRIEFING, step, count=facts.open_questions)
    if not facts.shots:
        return Standing(Stage.LISTING, Step(Next.LIST_SHOTS))
    return Standing(Stage.UNPRICED, Step(Next.WRITE_QUOTE), count=facts.shots)


def _towards_the_day(facts: ShootFacts, day: DayFacts | None) -> Standing:
    if day is None:
        quote = accepted_quote(facts)
        since = quote.accepted_on if quote else None
        return Standing(Stage.ACCEPTED, Step(Next.SET_DATE), since=since)
    return _of_day(facts, day)


def _of_day(facts: ShootFacts, day: DayFacts) -> Standing:
    if day.on == facts.today:
        step = Step(Next.WRAP_DAY, record=day.pk)
        return Standing(Stage.SHOOT_DAY, step, day=day.on, clock=day.call_time, count=facts.shots)
    if day.on < facts.today:
        return Standing(Stage.DAY_PASSED, Step(Next.WRAP_DAY, record=day.pk), day=day.on)
    if not day.is_confirmed:
        stage, step = Stage.PENCILLED, Step(Next.CONFIRM_DATE, by=day.held_until, record=day.pk)
        if day.held_until is not None and day.held_until < facts.today:
            stage, step = Stage.HOLD_LAPSED, Step(Next.RENEW_HOLD, record=day.pk)
        return Standing(stage, step, day=day.on, until=day.held_until, option_rank=day.option_rank)
    if day.final_on is not None:
        step = Step(Next.GO_SHOOT, by=day.on, record=day.pk)
        return Standing(Stage.SHEET_SENT, step, since=day.final_on, day=day.on, clock=day.call_time)
    return Standing(Stage.CONFIRMED, _confirmed_step(facts, day), day=day.on, clock=day.call_time)


def _confirmed_step(facts: ShootFacts, day: DayFacts) -> Step:
    if day.advance_on is None:
        sheet = Step(Next.SEND_ADVANCE, by=day.on - timedelta(days=2), record=day.pk)
    else:
        sheet = Step(Next.SEND_FINAL, by=day.on - timedelta(days=1), record=day.pk)
    if (day.on - facts.today).days <= SHEET_FIRST_DAYS:
        return sheet
    if facts.bookings_open:
        return Step(Next.CONFIRM_BOOKINGS, count=facts.bookings_open)
    if not facts.crew_booked:
        return Step(Next.BOOK_CREW)
    return sheet


def _between_days(facts: ShootFacts, ahead: DayFacts) -> Standing:
    found = _of_day(facts, ahead)
    if found.stage in (Stage.SHOOT_DAY, Stage.DAY_PASSED):
        return found
    done = sum(1 for day in facts.days if day.wrapped_on)
    if not done:
        return _after_the_day(facts)  # pictures came before any day was ticked; the day ahead is another matter
    return replace(found, stage=Stage.PARTLY_SHOT, count=done, total=len(facts.days), day=ahead.on)


# --- after the day -------------------------------------------------------------------------------------------


def _after_the_day(facts: ShootFacts) -> Standing:
    last = facts.last(*_WORK_HAPPENINGS)
    approved = last is not None and last.kind is Happening.APPROVED
    if facts.delivered_on is not None:
        if approved or facts.shots_delivered >= facts.shots_got:
            return _after_delivery(facts)
        step = Step(Next.FINISH_PICTURES, by=facts.delivery_due, count=facts.shots_got - facts.shots_delivered)
        return Standing(Stage.FINISHING, step, count=facts.shots_delivered, total=facts.shots_got)
    deliver = Step(Next.DELIVER, by=facts.delivery_due, count=facts.pictures)
    if facts.pictures:
        return Standing(Stage.FINISHING, deliver, count=facts.pictures)
    if last is None:
        wrapped_days = [day.wrapped_on for day in facts.days if day.wrapped_on]
        step = Step(Next.SEND_PROOFS, by=facts.selection_due)
        return Standing(
            Stage.WRAPPED, step, since=max(wrapped_days, default=None), count=facts.shots_got, total=facts.shots
        )
    if last.kind is Happening.PROOFS_SENT:
        step = Step(Next.AWAIT_SELECTION, by=facts.selection_due)
        return Standing(Stage.SELECTING, step, since=last.on, until=facts.selection_due)
    step = Step(Next.FINISH_PICTURES, by=facts.delivery_due)
    return Standing(Stage.FINISHING, deliver if approved else step, since=last.on)


def _after_delivery(facts: ShootFacts) -> Standing:
    late = papers.overdue_invoices(facts)
    if late:
        return Standing(Stage.OVERDUE, _chase(late[0]), since=late[0].due, count=len(late), label=late[0].label)
    if not papers.has_final_invoice(facts):
        return Standing(Stage.DELIVERED, papers.invoice_step(facts), since=facts.delivered_on)
    owed = papers.first_owed_invoice(facts)
    if owed is not None:
        step = Step(Next.AWAIT_PAYMENT, by=owed.due, label=owed.label, record=owed.pk)
        return Standing(Stage.INVOICED, step, since=owed.issued_on, until=owed.due, label=owed.label)
    return papers.after_payment(facts)


def _chase(invoice: InvoiceFacts) -> Step:
    return Step(Next.CHASE_PAYMENT, by=invoice.due, label=invoice.label, record=invoice.pk)


# --- what is missing, and what crew see ------------------------------------------------------------------------


def _missing(facts: ShootFacts) -> Iterator[Lack]:
    shot = was_shot(facts)
    accepted = accepted_quote(facts)
    ahead = day_ahead(facts)
    if facts.open_questions and not shot:
        yield Lack(Missing.ANSWERS, facts.open_questions)
    if facts.brief is not None and facts.brief.is_to_be_put_right and not is_behind(facts):
        yield Lack(Missing.CORRECTIONS)
    if not facts.shots and not shot and (facts.brief_begun or facts.calls):
        yield Lack(Missing.SHOTS)
    if accepted is None and (shot or any(day.is_confirmed for day in facts.days)):
        yield Lack(Missing.ACCEPTANCE)
    if accepted and ahead is None and not shot:
        yield Lack(Missing.DATE)
    has_deposit = any(invoice.is_deposit and invoice.issued_on for invoice in facts.invoices)
    if accepted and accepted.asks_deposit and not has_deposit and not papers.has_final_invoice(facts):
        yield Lack(Missing.DEPOSIT_INVOICE)
    sheetless = ahead and ahead.is_confirmed and ahead.advance_on is None and ahead.final_on is None
    if ahead and sheetless and 0 <= (ahead.on - facts.today).days <= SHEET_FIRST_DAYS:
        yield Lack(Missing.SHEET)
    if shot and facts.musts_missing and facts.delivered_on is None:
        yield Lack(Missing.MUST_SHOTS, facts.musts_missing)
    if facts.delivered_on and facts.shots_delivered < facts.shots_got:
        yield Lack(Missing.PICTURES, facts.shots_got - facts.shots_delivered)
    if facts.delivered_on and not papers.has_final_invoice(facts):
        yield Lack(Missing.INVOICE)


_CREW_STEPS = frozenset({Next.GO_SHOOT, Next.WRAP_DAY, Next.SEND_ADVANCE, Next.SEND_FINAL})
_MONEY_LACKS = frozenset({Missing.ACCEPTANCE, Missing.DEPOSIT_INVOICE, Missing.INVOICE})


def _without_money(facts: ShootFacts) -> Standing:
    bare = replace(facts, briefs=(), quotes=(), invoices=(), licences=())
    ahead = day_ahead(bare)
    found = _stopped(bare)
    if found is None and was_shot(bare):
        found = _between_days(bare, ahead) if ahead else _after_the_day(bare)
    elif found is None:
        found = _of_day(bare, ahead) if ahead else Standing(Stage.PLANNED, Step(Next.NOTHING))
    if found.step.code not in _CREW_STEPS:
        found = replace(found, step=Step(Next.NOTHING))
    lacks = tuple(lack for lack in _missing(bare) if lack.code not in _MONEY_LACKS)
    return replace(found, missing=lacks)
