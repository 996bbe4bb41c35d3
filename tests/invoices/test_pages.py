"""Invoices through their pages, their PDF and their mail."""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal

import pdfplumber
import pytest
from django.core.files.storage import default_storage
from django.test import Client
from django.urls import reverse

from shoots.invoices import actions
from shoots.invoices.models import Invoice, InvoiceKind, Payment
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail
from shoots.shoot.models import Shoot
from tests import factories
from tests.invoices.factories import make_accepted_quote, make_draft

pytestmark = pytest.mark.django_db
NOW = factories.NOW


@pytest.fixture
def shoot(owner: Member) -> Shoot:
    client = factories.make_client(owner.studio, invoice_email="accounts@example.com")
    return factories.make_shoot(owner.studio, client=client, po_number="PO-77")


@pytest.fixture
def draft(shoot: Shoot) -> Invoice:
    return make_draft(shoot, po_number=shoot.po_number)


def address(name: str, invoice: Invoice) -> str:
    return reverse(name, args=[invoice.shoot.code, invoice.pk])


def line_fields(*lines: dict[str, str]) -> dict[str, str]:
    fields = {"line-TOTAL_FORMS": str(len(lines)), "line-INITIAL_FORMS": "0"}
    for n, line in enumerate(lines):
        fields |= {f"line-{n}-{name}": value for name, value in line.items()}
    return fields


GOOD = {
    "description": "Day",
    "quantity": "2",
    "unit": "day",
    "unit_price": "950",
    "tax_category": "S",
    "tax_rate": "20",
}


def post_draft(browser: Client, draft: Invoice, *lines: dict[str, str], **fields: str) -> object:
    data = {"version": str(draft.version), "discount": "0", "supply_date": "2026-05-14", "due_date": "2026-06-13"}
    return browser.post(address("invoice_detail", draft), {**data, **fields, **line_fields(*lines)})


def test_a_draft_is_edited_and_totalled(browser: Client, draft: Invoice) -> None:
    answer = post_draft(browser, draft, GOOD, {"description": ""}, discount="95", discount_reason="Second shoot")
    assert answer.status_code == 302  # type: ignore[attr-defined]
    page = browser.get(address("invoice_detail", draft)).content.decode()
    assert "£2,166.00" in page  # 2 × 950 − 95 and 20 %: PUB-06's standard-rated part, EN 16931


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"unit_price": "-5"}, "A price is at least 0"),
        ({"unit_price": "abc"}, "Enter a number"),
        ({"unit_price": ""}, "A line needs this"),
        ({"tax_rate": "0"}, "rate is above 0"),
        ({"tax_rate": "120"}, "less than or equal to 100"),
        ({"tax_category": "Q"}, "Select a valid choice"),
    ],
)
def test_a_wrong_line_is_told_by_its_field_and_keeps_what_was_typed(
    browser: Client, draft: Invoice, change: dict[str, str], words: str
) -> None:
    answer = post_draft(browser, draft, {**GOOD, "description": "Typed by hand", **change})
    page = answer.content.decode()  # type: ignore[attr-defined]
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert words in page
    assert "Typed by hand" in page
    assert draft.lines.get().description == "Photography, day"


def test_a_discount_without_a_reason_is_told(browser: Client, draft: Invoice) -> None:
    answer = post_draft(browser, draft, GOOD, discount="10")
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert "the reason is printed" in answer.content.decode()  # type: ignore[attr-defined]


def test_the_second_window_is_told_and_loses_nothing(browser: Client, draft: Invoice) -> None:
    post_draft(browser, draft, GOOD)
    answer = post_draft(browser, draft, {**GOOD, "description": "From the second window"})
    page = answer.content.decode()  # type: ignore[attr-defined]
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert "Somebody saved this in the meantime" in page
    assert "From the second window" in page
    assert draft.lines.get().description == "Day"


def issue(browser: Client, draft: Invoice, **fields: str) -> object:
    return browser.post(address("invoice_issue", draft), {"seen_version": str(draft.version), **fields}, follow=True)


def test_issued_rendered_and_mailed_with_the_law_s_numbers(browser: Client, draft: Invoice) -> None:
    issue(browser, draft, to="accounts@example.com", to_name="Col")
    outbox.drain(now=NOW + timedelta(days=400))
    invoice = Invoice.objects.select_related("document").get(pk=draft.pk)
    assert invoice.document is not None
    with default_storage.open(invoice.document.storage_key) as stored:
        data = stored.read()
    text = "\n".join(page.extract_text() for page in pdfplumber.open(io.BytesIO(data)).pages)
    for wanted in (
        invoice.number,
        "Fellside Packs",
        "9 Mill Lane",
        "4 Cutler Yard",
        "GB999999973",
        "PO-77",
        "VAT 20%",
        "£1,000.00",
        "£200.00",
        "£1,200.00",
        "GB29 NWBK 6016 1331 9268 19",
    ):
        assert str(wanted) in text, wanted
    mail = Mail.objects.get(recipient="accounts@example.com")
    assert mail.sent_at is not None
    assert mail.attachments[0]["storage_key"] == invoice.document.storage_key
    assert browser.get(reverse("document_pdf", args=[invoice.document.pk])).status_code == 200


def test_a_double_click_on_issue_is_told_and_does_nothing_twice(browser: Client, draft: Invoice) -> None:
    issue(browser, draft)
    answer = issue(browser, draft)
    assert "nothing was done twice" in answer.content.decode()  # type: ignore[attr-defined]
    assert Invoice.objects.issued().count() == 1


def test_an_issue_that_the_law_forbids_says_what_is_missing(browser: Client, draft: Invoice) -> None:
    client = draft.shoot.client
    client.address = ""
    client.save()
    answer = issue(browser, draft)
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert "The address of who pays is missing" in answer.content.decode()  # type: ignore[attr-defined]
    draft.refresh_from_db()
    assert draft.is_draft


def test_a_draft_changed_in_another_window_is_looked_at_again(browser: Client, draft: Invoice) -> None:
    Invoice.objects.filter(pk=draft.pk).update(version=7)
    answer = issue(browser, draft)
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert "changed after you opened it" in answer.content.decode()  # type: ignore[attr-defined]


@pytest.fixture
def issued(draft: Invoice, owner: Member) -> Invoice:
    return actions.issue_invoice(invoice=draft, by=owner, now=NOW)


def payment(browser: Client, invoice: Invoice, **fields: str) -> object:
    data = {"amount": "1200", "received_date": "2026-05-15", "method": "Bank", "reference": "r"}
    return browser.post(address("invoice_payment", invoice), {**data, **fields})


def test_a_payment_is_noted(browser: Client, issued: Invoice) -> None:
    assert payment(browser, issued).status_code == 302  # type: ignore[attr-defined]
    assert "paid" in browser.get(address("invoice_detail", issued)).content.decode()


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"amount": "1200.01"}, "Only £1,200.00 is owed"),
        ({"amount": "-3"}, "greater than or equal to 0.01"),
        ({"amount": "12.345"}, "no more than 2 decimal places"),
        ({"received_date": "2999-01-01"}, "still to come"),
        ({"received_date": "31/02/2026"}, "Enter a valid date"),
    ],
)
def test_a_wrong_payment_is_told_by_its_field(
    browser: Client, issued: Invoice, fields: dict[str, str], words: str
) -> None:
    answer = payment(browser, issued, reference="kept as typed", **fields)
    assert answer.status_code == 422  # type: ignore[attr-defined]
    page = answer.content.decode()  # type: ignore[attr-defined]
    assert words in page
    assert "kept as typed" in page
    assert not Payment.objects.exists()


def test_crediting_through_the_page(browser: Client, issued: Invoice) -> None:
    line = issued.lines.get()
    answer = browser.post(address("invoice_credit", issued), {f"quantity-{line.pk}": "2", "reason": "x"})
    assert answer.status_code == 422
    assert "At most what was invoiced" in answer.content.decode()
    browser.post(address("invoice_credit", issued), {f"quantity-{line.pk}": "1", "reason": "Called off"})
    assert issued.credit_notes.get().number == "CN-2026-0001"


def test_round_numbers_stand_as_they_are_typed(browser: Client, shoot: Shoot) -> None:
    draft = make_draft(shoot, line={"quantity": 10, "unit_price": "200"})
    page = browser.get(address("invoice_detail", draft)).content.decode()
    assert 'value="10"' in page
    assert 'value="20"' in page
    assert "E+" not in page
    issued = actions.issue_invoice(invoice=draft, by=Member.objects.get(studio=shoot.studio), now=NOW)
    assert 'value="10"' in browser.get(address("invoice_credit", issued)).content.decode()


def test_the_money_page_puts_the_late_first(browser: Client, issued: Invoice, shoot: Shoot, owner: Member) -> None:
    Invoice.objects.filter(pk=issued.pk).update(due_date=NOW.date() - timedelta(days=400))
    actions.issue_invoice(invoice=make_draft(shoot, due_date=NOW.date() + timedelta(days=9999)), by=owner, now=NOW)
    page = browser.get(reverse("money")).content.decode()
    assert page.index("INV-2026-0001") < page.index("INV-2026-0002")
    assert "£2,400.00" in page


def test_what_is_accepted_and_not_invoiced_is_shown_until_its_invoice_is_issued(
    browser: Client, shoot: Shoot, owner: Member
) -> None:
    # 2 × 1150 + 12 × 48 + 95 and 10 %, and 20 % VAT
    quote = make_accepted_quote(shoot, now=NOW, total_gross=Decimal("3576.60"))
    own, whole = reverse("invoice_list", args=[shoot.code]), reverse("money")

    def to_invoice() -> tuple[Decimal | None, list[Decimal]]:
        pages = browser.get(own).context["page"], browser.get(whole).context["page"]
        assert ("Still to invoice" in browser.get(own).content.decode()) == (pages[0].to_invoice is not None)
        return pages[0].to_invoice, [one.amount for one in pages[1].to_invoice]

    assert to_invoice() == (quote.total_gross, [quote.total_gross])
    deposit = actions.draft_from_quote(quote=quote, kind=InvoiceKind.DEPOSIT, by=owner, now=NOW)
    assert to_invoice() == (quote.total_gross, [quote.total_gross])  # a draft asks for nothing yet
    deposit = actions.issue_invoice(invoice=deposit, by=owner, now=NOW)
    left = quote.total_gross - (deposit.total_gross or Decimal(0))
    assert left == Decimal("1788.30")
    assert to_invoice() == (left, [left])
    rest = actions.draft_from_quote(quote=quote, kind=InvoiceKind.INVOICE, by=owner, now=NOW)
    rest = actions.issue_invoice(invoice=rest, by=owner, now=NOW)
    assert rest.total_gross == left
    assert to_invoice() == (None, [])


def test_the_road_from_an_accepted_quote_to_two_drafts(browser: Client, shoot: Shoot) -> None:
    make_accepted_quote(shoot, now=NOW)
    browser.post(reverse("invoice_draft", args=[shoot.code]), {"kind": "DEPOSIT"})
    browser.post(reverse("invoice_draft", args=[shoot.code]), {"kind": "INVOICE"})
    answer = browser.post(reverse("invoice_draft", args=[shoot.code]), {"kind": "INVOICE"}, follow=True)
    assert "has such an invoice already" in answer.content.decode()
    assert set(shoot.invoices.values_list("kind", flat=True)) == {InvoiceKind.DEPOSIT, InvoiceKind.INVOICE}


def test_a_producer_reads_invoices_but_writes_none(
    producer: Member, signed_in: Callable[[Member], Client], issued: Invoice, draft: Invoice
) -> None:
    theirs = signed_in(producer)
    page = theirs.get(address("invoice_detail", issued)).content.decode()
    assert "Note the payment" not in page
    assert payment(theirs, issued).status_code == 403  # type: ignore[attr-defined]


def test_a_euro_invoice_shows_euros(browser: Client, owner: Member) -> None:
    shoot = factories.make_shoot(owner.studio, currency="EUR")
    invoice = actions.issue_invoice(invoice=make_draft(shoot), by=owner, now=NOW)
    assert "€1,200.00" in browser.get(address("invoice_detail", invoice)).content.decode()
    assert invoice.payable == Decimal(1200)
