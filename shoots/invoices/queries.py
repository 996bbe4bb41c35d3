"""What the pages and documents of invoices need."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.db.models import Prefetch, Sum
from django.template.loader import render_to_string
from django.utils.translation import gettext_lazy as _

from shoots.documents.queries import studio_card
from shoots.invoices.core.bill import (
    Bill,
    BillLine,
    Missing,
    Particulars,
    make_bill,
    missing_particulars,
    open_amount,
)
from shoots.invoices.core.identifiers import print_iban, print_rf_reference
from shoots.invoices.models import Invoice, InvoiceKind, InvoiceLine, Payment
from shoots.members.models import Studio
from shoots.quotes.core.offer import DiscountNotPossible
from shoots.quotes.core.totals import OutsideScopeMixed, VatCategory
from shoots.quotes.models import Quote
from shoots.quotes.queries.paper import unit_words
from shoots.shoot.models import Shoot

MISSING_WORDS = {
    Missing.LINES: _("It has no line yet."),
    Missing.NOTHING_PAYABLE: _("There is nothing to pay on it."),
    Missing.SELLER_ADDRESS: _("Your studio's address is missing: fill it in under Studio."),
    Missing.BUYER: _("Nobody is named who pays: choose a client on the shoot."),
    Missing.BUYER_ADDRESS: _("The address of who pays is missing."),
    Missing.SUPPLY_DATE: _("The date of supply is missing."),
    Missing.NOT_REGISTERED: _("It shows VAT, but your studio has no VAT number: an unregistered business must not."),
    Missing.SELLER_VAT_NUMBER: _("Your studio's VAT number is missing."),
    Missing.BUYER_VAT_NUMBER: _("Reverse charge needs the client's VAT number."),
    Missing.DUE_BEFORE_ISSUE: _("It would be due before it is issued."),
}
#: Plain words for each kind of tax, as they are printed beside the sums.
TAX_NOTES = {
    VatCategory.REVERSE_CHARGE: _("Reverse charge: the customer accounts for the VAT."),
    VatCategory.EXEMPT: _("Exempt from VAT."),
    VatCategory.OUTSIDE_SCOPE: _("No VAT is charged."),
}


@dataclass(frozen=True)
class InvoicePage:
    """One invoice with its lines, its bill (None while it can't be added up), payments, credits, and what is owed."""

    invoice: Invoice
    lines: tuple[InvoiceLine, ...]
    bill: Bill | None
    problem: str
    missing: tuple[Missing, ...]
    payments: tuple[Payment, ...]
    credit_notes: tuple[Invoice, ...]
    owed: Decimal
    days_over: int

    @property
    def missing_words(self) -> list[str]:
        return [str(MISSING_WORDS[code]) for code in self.missing]

    @property
    def rows(self) -> list[tuple[InvoiceLine, Decimal]]:
        """Each line with its net amount."""
        nets = self.bill.totals.line_net if self.bill else [Decimal(0)] * len(self.lines)
        return list(zip(self.lines, nets, strict=True))


def bill_lines(lines: Iterable[InvoiceLine]) -> list[BillLine]:
    """Return stored lines as the core takes them. No query of its own."""
    return [
        BillLine(
            line.description,
            line.quantity,
            line.unit,
            line.unit_price,
            VatCategory(line.tax_category),
            line.tax_rate if line.tax_category == VatCategory.STANDARD else Decimal(0),
        )
        for line in lines
    ]


def invoice_page(invoice: Invoice, *, today: date) -> InvoicePage:
    """Return an invoice as its page shows it, in at most four queries."""
    lines = tuple(invoice.lines.all())
    problem = ""
    bill: Bill | None = None
    try:
        bill = make_bill(
            bill_lines(lines), currency=invoice.currency, discount=invoice.discount, reason=invoice.discount_reason
        )
    except DiscountNotPossible:
        problem = str(_("The discount is larger than what it is taken from."))
    except OutsideScopeMixed:
        problem = str(_("“No VAT” can't stand beside other VAT in one invoice. Change the VAT of a line."))
    payments = tuple(invoice.payments.all()) if not invoice.is_draft else ()
    notes = tuple(invoice.credit_notes.issued()) if not invoice.is_draft else ()
    owed = open_amount(
        invoice.payable or Decimal(0),
        paid=(payment.amount for payment in payments),
        credited=(note.total_gross or Decimal(0) for note in notes),
    )
    over = 0
    if not invoice.is_draft and invoice.settled_at is None and invoice.due_date and invoice.due_date < today:
        over = (today - invoice.due_date).days
    return InvoicePage(
        invoice,
        lines,
        bill,
        problem,
        _missing(invoice, bill, today) if invoice.is_draft and bill else (),
        payments,
        notes,
        owed,
        over,
    )


def _missing(invoice: Invoice, bill: Bill, today: date) -> tuple[Missing, ...]:
    studio, buyer = invoice.studio, invoice.shoot.paying_party
    is_credit = invoice.kind == InvoiceKind.CREDIT_NOTE
    known = Particulars(
        seller_address=studio.address,
        seller_vat_number=studio.vat_number,
        has_buyer=buyer is not None,
        buyer_address=buyer.address if buyer else "",
        buyer_vat_number=buyer.vat_number if buyer else "",
        has_supply_date=invoice.supply_date is not None,
        due_before_issue=not is_credit and invoice.due_date is not None and invoice.due_date < today,
    )
    return missing_particulars(known, bill)


def credited_on(invoice: Invoice) -> Decimal:
    """Return what earlier credit notes took off an invoice, tax included. One query."""
    total = invoice.credit_notes.issued().aggregate(total=Sum("total_gross"))["total"]
    return total or Decimal(0)


def is_credited(invoice: Invoice) -> bool:
    """Return whether an issued invoice was credited in full. One query; none for a draft."""
    return not invoice.is_draft and credited_on(invoice) >= (invoice.total_gross or Decimal(0))


def owed_on(invoice: Invoice) -> Decimal:
    """Return what is still owed on an issued invoice. Two queries."""
    paid = invoice.payments.aggregate(total=Sum("amount"))["total"] or Decimal(0)
    return open_amount(invoice.payable or Decimal(0), paid=[paid], credited=[credited_on(invoice)])


@dataclass(frozen=True)
class InvoiceRow:
    """An invoice in a list, with what is owed and how late it is."""

    invoice: Invoice
    owed: Decimal
    days_over: int
    is_credited: bool


def _rows(invoices: Iterable[Invoice], today: date) -> tuple[InvoiceRow, ...]:
    rows = []
    for invoice in invoices:
        credited = sum((note.total_gross or Decimal(0) for note in invoice.credit_notes.all()), Decimal(0))
        owed = open_amount(
            invoice.payable or Decimal(0), paid=(p.amount for p in invoice.payments.all()), credited=[credited]
        )
        late = invoice.issued_at is not None and invoice.settled_at is None and invoice.due_date is not None
        over = (today - invoice.due_date).days if late and invoice.due_date else 0
        whole = invoice.issued_at is not None and credited >= (invoice.total_gross or Decimal(0)) and credited > 0
        rows.append(InvoiceRow(invoice, owed, max(0, over), whole))
    return tuple(rows)


def _listed() -> Any:
    return Invoice.objects.select_related(
        "shoot", "shoot__client", "shoot__billed_to", "document", "credits"
    ).prefetch_related("payments", Prefetch("credit_notes", queryset=Invoice.objects.issued()))


@dataclass(frozen=True)
class ShootInvoices:
    """A shoot's invoices, the accepted quote they follow from, and what may be drafted next."""

    rows: tuple[InvoiceRow, ...]
    quote: Quote | None
    may_ask_deposit: bool
    may_invoice: bool
    quoted: Decimal | None
    invoiced: Decimal
    owed: Decimal
    #: What the accepted quote comes to and no issued invoice asked for yet, tax included; None once that is invoiced.
    to_invoice: Decimal | None


def shoot_invoices(shoot: Shoot, *, today: date) -> ShootInvoices:
    """Return the invoices page of a shoot in four queries, whatever their number."""
    rows = _rows(_listed().filter(shoot=shoot).order_by("-issued_at", "-pk"), today)
    quote = Quote.objects.filter(shoot=shoot).accepted().order_by("-accepted_at").first()
    standing = {row.invoice.kind for row in rows if not row.is_credited and quote and row.invoice.quote_id == quote.pk}
    issued = [row for row in rows if not row.invoice.is_draft]
    return ShootInvoices(
        rows,
        quote,
        bool(quote and quote.deposit_percent and not standing & {InvoiceKind.DEPOSIT, InvoiceKind.INVOICE}),
        bool(quote and InvoiceKind.INVOICE not in standing),
        quote.total_gross if quote else None,
        sum((_signed(row.invoice) for row in issued), Decimal(0)),
        sum((row.owed for row in issued if row.invoice.kind != InvoiceKind.CREDIT_NOTE), Decimal(0)),
        _to_invoice(quote, [row.invoice for row in rows]) if quote else None,
    )


def _to_invoice(quote: Quote, invoices: Iterable[Invoice]) -> Decimal | None:
    """What an accepted quote comes to and no issued invoice asked for; None where its invoice was issued. No query."""
    own = [one for one in invoices if one.quote_id == quote.pk and not one.is_draft]
    standing = [one for one in own if one.kind != InvoiceKind.CREDIT_NOTE and not _is_taken_back(one)]
    if any(one.kind == InvoiceKind.INVOICE for one in standing):
        return None
    left = (quote.total_gross or Decimal(0)) - sum((one.total_gross or Decimal(0) for one in standing), Decimal(0))
    return left if left > 0 else None


def _is_taken_back(invoice: Invoice) -> bool:
    """Whether its credit notes, fetched before, take back the whole of an issued invoice. No query."""
    credited = sum((note.total_gross or Decimal(0) for note in invoice.credit_notes.all()), Decimal(0))
    return credited > 0 and credited >= (invoice.total_gross or Decimal(0))


def _signed(invoice: Invoice) -> Decimal:
    amount = invoice.total_gross or Decimal(0)
    return -amount if invoice.kind == InvoiceKind.CREDIT_NOTE else amount


@dataclass(frozen=True)
class ToInvoice:
    """What was accepted and is not invoiced yet, tax included."""

    quote: Quote
    amount: Decimal


@dataclass(frozen=True)
class MoneySum:
    """What is owed, what of it is overdue, and what is still to invoice, in one currency."""

    currency: str
    owed: Decimal
    late: Decimal
    to_invoice: Decimal


@dataclass(frozen=True)
class MoneyPage:
    """The studio's invoices: overdue first, then owed, what is still to invoice, drafts, and the latest settled."""

    overdue: tuple[InvoiceRow, ...]
    owed: tuple[InvoiceRow, ...]
    to_invoice: tuple[ToInvoice, ...]
    drafts: tuple[InvoiceRow, ...]
    settled: tuple[InvoiceRow, ...]
    sums: tuple[MoneySum, ...]


def money_page(studio: Studio, *, today: date) -> MoneyPage:
    """Return the money page in twelve queries at the most, whatever the number of invoices."""
    own = _listed().of_studio(studio)
    unpaid = _rows(own.owed().order_by("due_date", "pk"), today)
    overdue = tuple(row for row in unpaid if row.days_over)
    owed = tuple(row for row in unpaid if not row.days_over)
    to_invoice = _all_to_invoice(studio)
    currencies = {row.invoice.currency for row in unpaid} | {one.quote.currency for one in to_invoice}
    return MoneyPage(
        overdue,
        owed,
        to_invoice,
        _rows(own.filter(issued_at=None).order_by("-pk"), today),
        _rows(own.issued().exclude(settled_at=None).order_by("-issued_at")[:30], today),
        tuple(
            MoneySum(
                currency,
                sum((row.owed for row in unpaid if row.invoice.currency == currency), Decimal(0)),
                sum((row.owed for row in overdue if row.invoice.currency == currency), Decimal(0)),
                sum((one.amount for one in to_invoice if one.quote.currency == currency), Decimal(0)),
            )
            for currency in sorted(currencies)
        ),
    )


def _all_to_invoice(studio: Studio) -> tuple[ToInvoice, ...]:
    """What is accepted and not invoiced on the shoots at hand, oldest answer first. Three queries."""
    accepted = (
        Quote.objects.of_studio(studio)
        .accepted()
        .filter(shoot__put_away_at=None)
        .select_related("shoot", "shoot__client", "shoot__billed_to")
        .order_by("accepted_at", "pk")
    )
    quotes = list(accepted)
    of_quote: dict[int, list[Invoice]] = {quote.pk: [] for quote in quotes}
    notes = Prefetch("credit_notes", queryset=Invoice.objects.issued())
    for invoice in Invoice.objects.filter(quote__in=quotes).issued().prefetch_related(notes):
        of_quote[invoice.quote_id].append(invoice)
    left = ((quote, _to_invoice(quote, of_quote[quote.pk])) for quote in quotes)
    return tuple(ToInvoice(quote, amount) for quote, amount in left if amount is not None)


def document_content(invoice: Invoice, *, bill: Bill) -> dict[str, Any]:
    """Return everything that is printed on an issued invoice, as it is frozen. One query at most."""
    totals = bill.totals
    seller = invoice.seller or studio_card(invoice.studio)
    return {
        "studio": seller,
        "number": invoice.number,
        "kind": invoice.kind,
        "kind_words": str(invoice.get_kind_display()),
        "issued_on": invoice.issue_date,
        "supply_date": invoice.supply_date,
        "due_date": invoice.due_date,
        "currency": invoice.currency,
        "buyer": invoice.buyer,
        "po_number": invoice.po_number,
        "quote_number": str(invoice.quote) if invoice.quote else "",
        "shoot": {"code": invoice.shoot.code, "title": invoice.shoot.title},
        "credits": {"number": invoice.credits.number, "issued_on": invoice.credits.issue_date}
        if invoice.credits
        else None,
        "reason": invoice.reason,
        "note": invoice.note,
        "lines": [
            {
                "description": line.description,
                "quantity": line.quantity,
                "unit": unit_words(line.unit, line.quantity),
                "unit_price": line.unit_price,
                "net": net,
                "tax": _tax_words(line.tax_category, line.tax_rate),
            }
            for line, net in zip(bill.lines, totals.line_net, strict=True)
        ],
        "sum_of_lines": totals.sum_of_lines,
        "allowances": [
            {"amount": part.amount, "reason": part.reason or str(_("Discount"))} for part in bill.allowances
        ],
        "total_net": totals.tax_exclusive,
        "breakdown": [
            {
                "words": _tax_words(part.category, part.rate),
                "note": str(TAX_NOTES.get(part.category, "")),
                "taxable": part.taxable,
                "tax": part.tax,
            }
            for part in totals.breakdown
        ],
        "shows_tax": any(part.category is not VatCategory.OUTSIDE_SCOPE for part in totals.breakdown),
        "total_tax": totals.vat,
        "total_gross": totals.tax_inclusive,
        "payable": totals.payable,
        "reference": print_rf_reference(invoice.reference) if invoice.reference else "",
        "iban": print_iban(seller["iban"]) if seller.get("iban") else "",
    }


def _tax_words(category: VatCategory, rate: Decimal | None) -> str:
    if category is VatCategory.STANDARD and rate is not None:
        return f"{rate.normalize():f}%"
    return {
        VatCategory.ZERO: "0%",
        VatCategory.REVERSE_CHARGE: str(_("reverse charge")),
        VatCategory.EXEMPT: str(_("exempt")),
    }.get(category, "–")


def mail_text(invoice: Invoice, *, to_name: str) -> str:
    """Return the text of the mail that an invoice goes out with. No query."""
    return render_to_string("mail/invoice.txt", {"invoice": invoice, "to_name": to_name, "studio": invoice.studio})
