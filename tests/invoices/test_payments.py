"""Payments and credit notes."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from shoots.documents.models import IssuedDocument
from shoots.invoices import actions, queries
from shoots.invoices.models import Invoice, InvoiceKind, Payment
from shoots.members.models import Member
from shoots.rights import actions as rights
from shoots.rights.models import Licence, UsageTerms
from shoots.rights.queries.terms import frozen_terms
from tests import factories
from tests.invoices.factories import make_accepted_quote, make_draft

pytestmark = pytest.mark.django_db
NOW = factories.NOW
DAY = date(2026, 5, 14)


@pytest.fixture
def issued(owner: Member) -> Invoice:
    return actions.issue_invoice(invoice=make_draft(factories.make_shoot(owner.studio)), by=owner, now=NOW)


def pay(invoice: Invoice, amount: str, owner: Member) -> Payment:
    return actions.record_payment(invoice=invoice, amount=Decimal(amount), received_date=DAY, by=owner, now=NOW)


def test_part_payments_leave_the_rest_owed(issued: Invoice, owner: Member) -> None:
    pay(issued, "500", owner)
    issued.refresh_from_db()
    assert issued.settled_at is None
    assert queries.owed_on(issued) == Decimal(700)


def test_the_last_payment_settles_it(issued: Invoice, owner: Member) -> None:
    pay(issued, "500", owner)
    pay(issued, "700", owner)
    issued.refresh_from_db()
    assert issued.settled_at == NOW


def test_more_than_is_owed_is_refused_and_nothing_written(issued: Invoice, owner: Member) -> None:
    with pytest.raises(actions.TooMuch) as refused:
        pay(issued, "1200.01", owner)
    assert refused.value.owed == Decimal(1200)
    assert not Payment.objects.exists()


def make_licence(invoice: Invoice) -> Licence:
    terms = UsageTerms(studio=invoice.studio, shoot=invoice.shoot, media=["OWN_WEBSITE"], territories=["GB"])
    return rights.grant_licence(
        shoot=invoice.shoot,
        terms=frozen_terms(terms),
        licensee={"name": "Fellside Packs"},
        number="L-2026-001",
        now=NOW,
    )


def test_paying_the_invoice_fulfils_the_licence(issued: Invoice, owner: Member) -> None:
    licence = make_licence(issued)
    pay(issued, "1200", owner)
    licence.refresh_from_db()
    assert licence.fulfilled_at == NOW


def test_paying_only_the_deposit_does_not(owner: Member) -> None:
    quote = make_accepted_quote(factories.make_shoot(owner.studio), now=NOW)
    deposit = actions.draft_from_quote(quote=quote, kind=InvoiceKind.DEPOSIT, by=owner, now=NOW)
    deposit = actions.issue_invoice(invoice=deposit, by=owner, now=NOW)
    licence = make_licence(deposit)
    pay(deposit, str(deposit.payable), owner)
    licence.refresh_from_db()
    assert licence.fulfilled_at is None


def credit(invoice: Invoice, owner: Member, quantity: str = "1") -> Invoice:
    line = invoice.lines.get()
    return actions.credit_invoice(
        invoice=invoice, quantities={line.pk: Decimal(quantity)}, reason="Called off", by=owner, now=NOW
    )


def test_a_credit_note_has_its_own_number_and_leaves_the_invoice_as_it_was(issued: Invoice, owner: Member) -> None:
    before = IssuedDocument.objects.get().content
    note = credit(issued, owner)
    issued.refresh_from_db()
    assert note.number == "CN-2026-0001"
    assert note.total_gross == Decimal(1200)
    assert issued.document is not None
    assert IssuedDocument.objects.get(pk=issued.document.pk).content == before
    assert queries.is_credited(issued)
    assert issued.settled_at == NOW


def test_part_of_a_line_can_be_credited(issued: Invoice, owner: Member) -> None:
    assert credit(issued, owner, "0.25").total_gross == Decimal(300)
    assert queries.owed_on(issued) == Decimal(900)


def test_no_more_than_the_invoice_can_be_credited(issued: Invoice, owner: Member) -> None:
    credit(issued, owner, "0.75")
    with pytest.raises(actions.TooMuch):
        credit(issued, owner, "0.5")
    assert Invoice.objects.filter(kind=InvoiceKind.CREDIT_NOTE).count() == 1


def test_a_credited_invoice_may_be_written_anew(owner: Member) -> None:
    quote = make_accepted_quote(factories.make_shoot(owner.studio), now=NOW)
    first = actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    first = actions.issue_invoice(invoice=first, by=owner, now=NOW)
    whole = {line.pk: line.quantity for line in first.lines.all()}
    actions.credit_invoice(invoice=first, quantities=whole, reason="Wrong client", by=owner, now=NOW)
    second = actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    assert actions.issue_invoice(invoice=second, by=owner, now=NOW).number == "INV-2026-0002"


def test_a_draft_can_be_neither_paid_nor_credited(owner: Member) -> None:
    draft = make_draft(factories.make_shoot(owner.studio))
    with pytest.raises(actions.NotReady):
        pay(draft, "1", owner)
    with pytest.raises(actions.NotReady):
        credit(draft, owner)
