"""Issuing: numbers without gap or double, frozen for good, also when many do it at once."""

from __future__ import annotations

import threading
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest
from django.db import connection, connections

from shoots.invoices import actions
from shoots.invoices.models import Invoice, InvoiceKind, InvoiceSeries
from shoots.members.models import Member
from shoots.trail.models import Entry
from tests import factories
from tests.invoices.factories import make_accepted_quote, make_draft

pytestmark = pytest.mark.django_db
NOW = factories.NOW


def test_issuing_gives_a_number_and_freezes_the_parties() -> None:
    invoice = actions.issue_invoice(invoice=make_draft(), by=None, now=NOW)
    assert invoice.number == "INV-2026-0001"
    assert (invoice.total_net, invoice.total_tax, invoice.payable) == (Decimal(1000), Decimal(200), Decimal(1200))
    assert invoice.buyer["name"] == "Fellside Packs"
    studio = invoice.studio
    studio.address = "Moved"
    studio.save()
    invoice.refresh_from_db()
    assert "Cutler Yard" in invoice.seller["address"]
    assert invoice.document is not None
    assert "Cutler Yard" in invoice.document.content["studio"]["address"]


def test_the_payment_reference_is_checked_by_its_own_standard() -> None:
    """Source: ISO 11649, mod 97 = 1 with the first four characters at the end."""
    invoice = actions.issue_invoice(invoice=make_draft(), by=None, now=NOW)
    turned = invoice.reference[4:] + invoice.reference[:4]
    assert int("".join(str(int(c, 36)) for c in turned)) % 97 == 1


def test_the_due_date_follows_the_payers_own_terms() -> None:
    """Source: tests/data/due_dates.json, kind net: 30 days after 2026-05-14."""
    shoot = factories.make_shoot(factories.make_studio())
    shoot.client.payment_days = 14
    shoot.client.save()
    assert actions.issue_invoice(invoice=make_draft(shoot), by=None, now=NOW).due_date == date(2026, 5, 28)


def test_the_date_of_issue_is_the_studios_not_the_servers() -> None:
    studio = factories.make_studio(time_zone="Pacific/Auckland")
    invoice = make_draft(factories.make_shoot(studio))
    issued = actions.issue_invoice(invoice=invoice, by=None, now=datetime(2026, 12, 31, 12, 0, tzinfo=UTC))
    assert (issued.issue_date, issued.number) == (date(2027, 1, 1), "INV-2027-0001")


def test_issuing_twice_changes_nothing() -> None:
    draft = make_draft()
    again = Invoice.objects.get(pk=draft.pk)
    first = actions.issue_invoice(invoice=draft, by=None, now=NOW)
    with pytest.raises(actions.AlreadyIssued):
        actions.issue_invoice(invoice=again, by=None, now=NOW)
    assert InvoiceSeries.objects.get().last == 1
    assert Invoice.objects.get().number == first.number


def test_a_refused_issue_gives_its_number_back() -> None:
    shoot = factories.make_shoot(factories.make_studio())
    nobody = make_draft(shoot)
    nobody.lines.all().delete()
    with pytest.raises(actions.NotReady):
        actions.issue_invoice(invoice=nobody, by=None, now=NOW)
    assert actions.issue_invoice(invoice=make_draft(shoot), by=None, now=NOW).number == "INV-2026-0001"
    nobody.refresh_from_db()
    assert nobody.number is None


def test_each_studio_counts_for_itself() -> None:
    numbers = [actions.issue_invoice(invoice=make_draft(), by=None, now=NOW).number for _ in range(2)]
    assert numbers == ["INV-2026-0001", "INV-2026-0001"]


def test_a_deposit_and_its_invoice_add_up_to_the_quote(owner: Member) -> None:
    quote = make_accepted_quote(factories.make_shoot(owner.studio), now=NOW)
    deposit = actions.draft_from_quote(quote=quote, kind=InvoiceKind.DEPOSIT, by=owner, now=NOW)
    deposit = actions.issue_invoice(invoice=deposit, by=owner, now=NOW)
    rest = actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    rest = actions.issue_invoice(invoice=rest, by=owner, now=NOW)
    # By hand: 2 × 1150 + 12 × 48 + 95 + 10 % of 95 = 2980.50; half of it 1490.25; VAT 20 % each.
    assert deposit.total_net == Decimal("1490.25")
    assert rest.total_net == Decimal("1490.25")
    assert deposit.total_tax == rest.total_tax == Decimal("298.05")
    assert rest.lines.last() is not None
    assert deposit.number in rest.lines.last().description  # type: ignore[union-attr,operator]


def test_a_quote_is_invoiced_once(owner: Member) -> None:
    quote = make_accepted_quote(factories.make_shoot(owner.studio), now=NOW)
    actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    with pytest.raises(actions.AlreadyInvoiced):
        actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    assert Invoice.objects.count() == 1


def test_a_quote_that_nobody_accepted_is_not_invoiced(owner: Member) -> None:
    quote = make_accepted_quote(factories.make_shoot(owner.studio), now=NOW, accepted_at=None)
    with pytest.raises(actions.NotAccepted):
        actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    assert not Invoice.objects.exists()


def test_the_trail_names_who_issued(owner: Member) -> None:
    invoice = make_draft(factories.make_shoot(owner.studio))
    actions.issue_invoice(invoice=invoice, by=owner, now=NOW)
    entry = Entry.objects.get(deed="issued")
    assert (entry.actor, entry.changes["number"]) == (owner.user, [None, "INV-2026-0001"])


PARALLEL = 50


@pytest.mark.django_db(transaction=True)
def test_fifty_at_once_get_fifty_consecutive_numbers() -> None:
    """Every seventh attempt fails on purpose after its number was drawn; the others leave no gap."""
    shoot = factories.make_shoot(factories.make_studio())
    drafts = [make_draft(shoot) for _ in range(PARALLEL)]
    spoilt = {draft.pk for draft in drafts[::7]}
    for draft in drafts:
        if draft.pk in spoilt:
            draft.lines.all().delete()
    start = threading.Barrier(PARALLEL)
    refused: list[int] = []

    def issue(pk: int) -> None:
        try:
            start.wait()
            actions.issue_invoice(
                invoice=Invoice.objects.select_related("studio", "shoot").get(pk=pk), by=None, now=NOW
            )
        except actions.NotReady:
            refused.append(pk)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=issue, args=(draft.pk,)) for draft in drafts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    numbers = sorted(Invoice.objects.issued().values_list("number", flat=True))
    assert set(refused) == spoilt
    assert numbers == [f"INV-2026-{n:04}" for n in range(1, PARALLEL - len(spoilt) + 1)]


@pytest.mark.django_db(transaction=True)
def test_one_draft_issued_by_many_at_once_is_issued_once() -> None:
    draft = make_draft()
    start = threading.Barrier(8)
    outcomes: list[str] = []

    def issue() -> None:
        try:
            mine = Invoice.objects.select_related("studio", "shoot").get(pk=draft.pk)
            start.wait()
            actions.issue_invoice(invoice=mine, by=None, now=NOW)
            outcomes.append("issued")
        except actions.AlreadyIssued:
            outcomes.append("too late")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=issue) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["issued"] + ["too late"] * 7
    assert InvoiceSeries.objects.get().last == 1
    assert connection.vendor in {"sqlite", "postgresql"}
