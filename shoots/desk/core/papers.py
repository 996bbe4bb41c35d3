"""Invoices and licences of a shoot: what is owed, what is overdue, and what the rights still ask for.

Own derivation; common practice, no source. An invoice is overdue from the day after its due date on, because it may
be paid until that day's end.
"""

from __future__ import annotations

from datetime import date

from shoots.desk.core.facts import InvoiceFacts, LicenceFacts, ShootFacts
from shoots.desk.core.standing import Next, Stage, Standing, Step

RENEWAL_DAYS = 60
"""From so many days before its last day on, a licence is there to be renewed (reminders at 60, 30 and 7 days)."""


def overdue_invoices(facts: ShootFacts) -> list[InvoiceFacts]:
    """Return the issued invoices whose due date has passed unpaid, oldest due date first.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    list[InvoiceFacts]
        Empty when nothing is late.
    """
    late = [
        invoice
        for invoice in facts.invoices
        if invoice.issued_on and invoice.settled_on is None and invoice.due is not None and invoice.due < facts.today
    ]
    return sorted(late, key=_by_due)


def first_owed_invoice(facts: ShootFacts) -> InvoiceFacts | None:
    """Return the issued, unsettled invoice that is due first, or None.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    InvoiceFacts or None
        One without a due date comes last.
    """
    owed = [invoice for invoice in facts.invoices if invoice.issued_on and invoice.settled_on is None]
    return min(owed, key=_by_due, default=None)


def has_final_invoice(facts: ShootFacts) -> bool:
    """Return whether an invoice other than for a deposit was issued.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    bool
        False while there are only drafts and deposits.
    """
    return any(invoice.issued_on and not invoice.is_deposit for invoice in facts.invoices)


def invoice_step(facts: ShootFacts) -> Step:
    """Return the step towards the final invoice: issue its draft, or write one.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    Step
        With the draft as its record if there is one.
    """
    drafts = [invoice for invoice in facts.invoices if not invoice.issued_on and not invoice.is_deposit]
    return Step(Next.ISSUE_INVOICE, record=drafts[0].pk) if drafts else Step(Next.WRITE_INVOICE)


def after_payment(facts: ShootFacts) -> Standing:
    """Return where a delivered and paid shoot stands: only its licence still runs.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    Standing
        Paid (no licence has begun), licensed, or licence ended.
    """
    paid = max((invoice.settled_on for invoice in facts.invoices if invoice.settled_on), default=None)
    step = licence_step(facts)
    begun = _begun(facts)
    if not begun:
        return Standing(Stage.PAID, step, since=paid)
    last_day = _last_day(begun)
    if last_day is not None and last_day < facts.today:
        return Standing(Stage.LICENCE_ENDED, step, since=last_day)
    return Standing(Stage.LICENSED, step, since=paid, until=last_day)


def licence_step(facts: ShootFacts) -> Step:
    """Return what the licences of a paid or put-away shoot still ask for.

    Parameters
    ----------
    facts : ShootFacts
        What is known of the shoot.

    Returns
    -------
    Step
        Watch it until it ends, renew it from `RENEWAL_DAYS` days before on, or put the shoot away.
    """
    away = Step(Next.NOTHING) if facts.put_away else Step(Next.PUT_AWAY)
    starts = [licence.starts for licence in facts.licences if licence.starts]
    if not facts.licences:
        return away
    if not starts:
        return Step(Next.NOTHING) if facts.put_away else Step(Next.CHECK_LICENCE)
    if min(starts) > facts.today:
        return Step(Next.AWAIT_LICENCE_START, by=min(starts))
    last_day = _last_day(_begun(facts))
    if last_day is None or (facts.put_away and last_day < facts.today):
        return away
    if (last_day - facts.today).days <= RENEWAL_DAYS:
        return Step(Next.RENEW_LICENCE, by=last_day)
    return Step(Next.AWAIT_LICENCE_END, by=last_day)


def _by_due(invoice: InvoiceFacts) -> tuple[date, int]:
    return (invoice.due or date.max, invoice.pk)


def _begun(facts: ShootFacts) -> list[LicenceFacts]:
    return [licence for licence in facts.licences if licence.starts and licence.starts <= facts.today]


def _last_day(begun: list[LicenceFacts]) -> date | None:
    """The latest last day, or None where one of them does not end."""
    ends = [licence.last_day for licence in begun if licence.last_day]
    return max(ends) if len(ends) == len(begun) else None
