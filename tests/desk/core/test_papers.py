"""Invoices and licences of a shoot. Own derivation; common practice, no source."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from shoots.desk.core import papers
from shoots.desk.core.facts import InvoiceFacts, LicenceFacts, ShootFacts
from shoots.desk.core.standing import Next

NOW = datetime(2026, 5, 14, 9, 30, tzinfo=UTC)
ISSUED = date(2026, 4, 1)


def facts(*invoices: InvoiceFacts, licences: tuple[LicenceFacts, ...] = ()) -> ShootFacts:
    return ShootFacts(now=NOW, today=NOW.date(), invoices=invoices, licences=licences)


def test_the_oldest_debt_comes_first() -> None:
    late = [InvoiceFacts(n, str(n), issued_on=ISSUED, due=date(2026, 5, day)) for n, day in ((1, 9), (2, 3))]
    assert [invoice.pk for invoice in papers.overdue_invoices(facts(*late))] == [2, 1]


@pytest.mark.parametrize(
    "invoice",
    [
        InvoiceFacts(1, "draft", due=date(2026, 5, 1)),
        InvoiceFacts(1, "paid", issued_on=ISSUED, due=date(2026, 5, 1), settled_on=date(2026, 5, 2)),
        InvoiceFacts(1, "due today", issued_on=ISSUED, due=date(2026, 5, 14)),
        InvoiceFacts(1, "without a date", issued_on=ISSUED),
    ],
    ids=lambda invoice: invoice.label,
)
def test_a_draft_a_paid_one_and_one_that_may_still_be_paid_today_are_not_overdue(
    invoice: InvoiceFacts,
) -> None:
    assert papers.overdue_invoices(facts(invoice)) == []


def test_the_invoice_due_first_is_awaited_first_and_one_without_a_date_last() -> None:
    undated = InvoiceFacts(1, "1", issued_on=ISSUED)
    dated = InvoiceFacts(2, "2", issued_on=ISSUED, due=date(2026, 7, 1))
    assert papers.first_owed_invoice(facts(undated, dated)) == dated
    assert papers.first_owed_invoice(facts(undated)) == undated
    assert papers.first_owed_invoice(facts()) is None


def test_a_deposit_is_no_final_invoice() -> None:
    deposit = InvoiceFacts(1, "1", is_deposit=True, issued_on=ISSUED)
    assert not papers.has_final_invoice(facts(deposit))
    assert papers.has_final_invoice(facts(deposit, InvoiceFacts(2, "2", issued_on=ISSUED)))


@pytest.mark.parametrize(
    ("last_day", "code"),
    [
        (date(2026, 7, 14), Next.AWAIT_LICENCE_END),  # 61 days ahead
        (date(2026, 7, 13), Next.RENEW_LICENCE),  # 60 days ahead
        (date(2026, 5, 13), Next.RENEW_LICENCE),  # ended yesterday
    ],
)
def test_a_licence_is_watched_until_sixty_days_before_its_end(last_day: date, code: Next) -> None:
    licence = LicenceFacts(starts=date(2025, 1, 1), last_day=last_day)
    assert papers.licence_step(facts(licences=(licence,))).code is code
