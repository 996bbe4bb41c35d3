"""Drafting, issuing and crediting invoices, and the payments that come in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.db.models import F
from django.utils.translation import gettext as _

from shoots.documents import actions as documents
from shoots.documents.models import DocumentKind
from shoots.documents.queries import studio_card
from shoots.invoices import queries
from shoots.invoices.core.bill import Missing, deposit_parts
from shoots.invoices.core.identifiers import make_rf_reference
from shoots.invoices.core.numbering import Series, format_number
from shoots.invoices.models import Invoice, InvoiceKind, InvoiceLine, InvoiceSeries, Payment
from shoots.members.actions import EditedMeanwhile, save_edit
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.people.queries import party_card
from shoots.quotes.models import Quote
from shoots.quotes.queries.pricing import price_quote
from shoots.rights import actions as rights
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail

SERIES = {InvoiceKind.INVOICE: "INV", InvoiceKind.DEPOSIT: "INV", InvoiceKind.CREDIT_NOTE: "CN"}


class AlreadyIssued(Exception):
    """Raised when an invoice was issued before, by a double click or in another window."""


class NotReady(Exception):
    """Raised when something that the law wants is missing; `missing` lists it."""

    def __init__(self, missing: Sequence[Missing]) -> None:
        super().__init__(", ".join(missing))
        self.missing = tuple(missing)


class NotAccepted(Exception):
    """Raised when an invoice is asked for a quote that nobody accepted."""


class AlreadyInvoiced(Exception):
    """Raised when the quote has such an invoice already, drafted or issued and not credited in full."""


class TooMuch(Exception):
    """Raised when a payment or a credit is larger than what is owed; `owed` says how much that is."""

    def __init__(self, owed: Decimal) -> None:
        super().__init__(str(owed))
        self.owed = owed


@transaction.atomic
def draft_from_quote(*, quote: Quote, kind: InvoiceKind, by: Member, now: datetime) -> Invoice:
    """Draft the deposit invoice or the invoice of an accepted quote.

    A deposit asks for its share of each tax category. The invoice repeats the quote's lines and takes the deposits
    back, line by line with their tax, so that no tax is shown twice. Raises NotAccepted or AlreadyInvoiced.
    """
    if not quote.is_accepted:
        raise NotAccepted
    _hold(quote)
    others = [i for i in Invoice.objects.filter(quote=quote, kind=kind) if not queries.is_credited(i)]
    if others:
        raise AlreadyInvoiced
    shoot = quote.shoot
    pricing = price_quote(quote, list(quote.lines.all()))
    offer = pricing.offer
    if offer is None:  # an accepted quote was priced when it was sent
        raise NotAccepted
    day = shoot.studio.local_date(now)
    invoice = Invoice.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        kind=kind,
        quote=quote,
        currency=quote.currency,
        po_number=shoot.po_number,
        supply_date=_supply_date(shoot, kind=kind, today=day),
        due_date=day + timedelta(days=_payment_days(shoot)),
        discount=offer.totals.allowances if kind == InvoiceKind.INVOICE else Decimal(0),
        discount_reason=quote.discount_reason if kind == InvoiceKind.INVOICE else "",
    )
    if kind == InvoiceKind.DEPOSIT:
        lines = [
            _line(
                _("Deposit, %(percent)s%% of quote %(quote)s")
                % {"percent": _plain(quote.deposit_percent), "quote": quote},
                Decimal(1),
                "",
                part.taxable,
                part.category,
                part.rate,
            )
            for part in deposit_parts(offer.totals.breakdown, quote.deposit_percent, quote.currency)
        ]
    else:
        lines = [
            _line(row.description, row.quantity, row.unit, row.unit_price, priced.tax.category, priced.tax.rate)
            if not priced.mark_up
            else _line(row.description, Decimal(1), "", priced.net, priced.tax.category, priced.tax.rate)
            for row, priced in pricing.lines
        ]
        lines += _taken_back(quote)
    _write_lines(invoice, lines)
    trail.record(invoice, "drafted", by=by, shoot_code=shoot.code, at=now)
    return invoice


def _taken_back(quote: Quote) -> list[dict[str, Any]]:
    """Return the lines that take issued deposits off the invoice."""
    deposits = Invoice.objects.issued().filter(quote=quote, kind=InvoiceKind.DEPOSIT).order_by("issued_at")
    return [
        _line(
            _("Less deposit invoice %(number)s of %(day)s")
            % {"number": deposit.number, "day": f"{deposit.issue_date:%d/%m/%Y}"},
            -line.quantity,
            "",
            line.unit_price,
            line.tax_category,
            line.tax_rate,
        )
        for deposit in deposits
        if not queries.is_credited(deposit)
        for line in deposit.lines.all()
    ]


@transaction.atomic
def draft_blank(*, shoot: Shoot, by: Member, now: datetime) -> Invoice:
    """Draft an invoice without a quote, to be filled by hand."""
    day = shoot.studio.local_date(now)
    invoice = Invoice.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        currency=shoot.currency,
        po_number=shoot.po_number,
        supply_date=_supply_date(shoot, kind=InvoiceKind.INVOICE, today=day),
        due_date=day + timedelta(days=_payment_days(shoot)),
    )
    trail.record(invoice, "drafted", by=by, shoot_code=shoot.code, at=now)
    return invoice


@transaction.atomic
def edit_draft(
    *,
    invoice: Invoice,
    changes: Mapping[str, Any],
    lines: Sequence[Mapping[str, Any]],
    seen_version: int,
    by: Member,
    now: datetime,
) -> None:
    """Write a draft's fields and lines. Raises AlreadyIssued or members' EditedMeanwhile; then nothing is written."""
    if Invoice.objects.filter(pk=invoice.pk).exclude(issued_at=None).exists():
        raise AlreadyIssued
    changed = save_edit(invoice, changes=changes, seen_version=seen_version)
    invoice.lines.all().delete()
    _write_lines(invoice, lines)
    trail.record(invoice, "edited", by=by, shoot_code=invoice.shoot.code, changes=changed, at=now)


@transaction.atomic
def discard_draft(*, invoice: Invoice, by: Member, now: datetime) -> None:
    """Throw a draft away; it never had a number. Raises AlreadyIssued."""
    if Invoice.objects.filter(pk=invoice.pk).exclude(issued_at=None).exists():
        raise AlreadyIssued
    trail.record(invoice, "discarded", by=by, shoot_code=invoice.shoot.code, at=now)
    invoice.delete()


@transaction.atomic
def issue_invoice(*, invoice: Invoice, to: str = "", to_name: str = "", by: Member | None, now: datetime) -> Invoice:
    """Give a draft its number, freeze it for good, and ask for its PDF; with `to`, for its mail as well.

    The number is drawn and the row taken in one transaction: whoever comes second gets AlreadyIssued, the drawn
    number goes back, and the series keeps neither gap nor double. Raises NotReady when the law wants more,
    and EditedMeanwhile when the draft changed after it was read.
    """
    studio = invoice.studio
    day = studio.local_date(now)
    kind = InvoiceKind(invoice.kind)
    number = _next_number(studio, kind=kind, year=day.year)
    page = queries.invoice_page(invoice, today=day)
    if page.missing:
        raise NotReady(page.missing)
    if page.bill is None:
        raise NotReady((Missing.LINES,))
    totals = page.bill.totals
    buyer = invoice.shoot.paying_party
    frozen = {
        "number": number,
        "issued_at": now,
        "issue_date": day,
        "due_date": invoice.due_date or day + timedelta(days=_payment_days(invoice.shoot)),
        "seller": studio_card(studio),
        "buyer": party_card(buyer) if buyer else {},
        "reference": make_rf_reference(number.replace("-", "")),
        "total_net": totals.tax_exclusive,
        "total_tax": totals.vat,
        "total_gross": totals.tax_inclusive,
        "payable": totals.payable,
    }
    if kind == InvoiceKind.CREDIT_NOTE:
        frozen["settled_at"] = now
        frozen["due_date"] = None
    taken = Invoice.objects.filter(pk=invoice.pk, issued_at=None, version=invoice.version).update(
        **frozen, version=F("version") + 1
    )
    if taken != 1:
        raise AlreadyIssued if Invoice.objects.issued().filter(pk=invoice.pk).exists() else EditedMeanwhile
    invoice.refresh_from_db()
    invoice.document = documents.issue(
        studio=studio,
        kind=DocumentKind.CREDIT_NOTE if kind == InvoiceKind.CREDIT_NOTE else DocumentKind.INVOICE,
        number=number,
        title=f"{invoice.get_kind_display()} {number}",
        template="documents/invoice.html",
        content=queries.document_content(invoice, bill=page.bill),
        now=now,
    )
    invoice.save(update_fields=["document"])
    trail.record(invoice, "issued", by=by, shoot_code=invoice.shoot.code, changes={"number": (None, number)}, at=now)
    if to:
        _ask_for_mail(invoice, to=to, to_name=to_name, now=now)
    return invoice


def _next_number(studio: Studio, *, kind: InvoiceKind, year: int) -> str:
    """Draw the next number. The counter's row stays locked until the caller's transaction ends."""
    prefix = SERIES[kind]
    key = f"{prefix}-{year}"
    InvoiceSeries.objects.get_or_create(studio=studio, prefix=key)
    InvoiceSeries.objects.filter(studio=studio, prefix=key).update(last=F("last") + 1)
    counter = InvoiceSeries.objects.values_list("last", flat=True).get(studio=studio, prefix=key)
    return format_number(Series(prefix), year=year, counter=counter)


@transaction.atomic
def send_invoice(*, invoice: Invoice, to: str, to_name: str = "", by: Member, now: datetime) -> None:
    """Mail an issued invoice, or mail it again to somebody else."""
    if invoice.is_draft:
        raise NotReady(())
    _ask_for_mail(invoice, to=to, to_name=to_name, now=now)
    trail.record(invoice, "sent", by=by, shoot_code=invoice.shoot.code, changes={"to": ("", to)}, at=now)


def _ask_for_mail(invoice: Invoice, *, to: str, to_name: str, now: datetime) -> None:
    outbox.enqueue(
        task="invoices.deliver",
        key=f"invoice:{invoice.pk}:{to}:{now:%Y%m%d%H%M%S}",
        payload={"invoice_id": invoice.pk, "to": to, "to_name": to_name},
        studio=invoice.studio,
        now=now,
    )


def deliver_invoice(*, invoice_id: int, to: str, to_name: str, now: datetime) -> None:
    """Render an invoice if need be, and queue its mail with the PDF. Safe to repeat: the mail's key is the same."""
    invoice = Invoice.objects.select_related("studio", "shoot", "document", "credits").get(pk=invoice_id)
    if invoice.document is None:
        return
    document = documents.ensure_rendered(document=invoice.document, now=now)
    with transaction.atomic():
        outbox.queue_mail(
            studio=invoice.studio,
            key=f"invoice-mail:{invoice.pk}:{to}:{document.sha256[:12]}",
            to=to,
            to_name=to_name,
            reply_to=invoice.studio.email,
            subject=_("%(what)s %(number)s, %(title)s")
            % {"what": invoice.get_kind_display(), "number": invoice.number, "title": invoice.shoot.title},
            text=queries.mail_text(invoice, to_name=to_name),
            attachments=[
                {
                    "name": document.file_name,
                    "storage_key": document.storage_key,
                    "content_type": "application/pdf",
                }
            ],
            now=now,
        )
        Invoice.objects.filter(pk=invoice.pk, sent_at=None).update(sent_at=now)


@transaction.atomic
def record_payment(
    *,
    invoice: Invoice,
    amount: Decimal,
    received_date: date,
    method: str = "",
    reference: str = "",
    by: Member | None,
    now: datetime,
) -> Payment:
    """Write down money that came in. The payment that settles the shoot's last invoice makes its licences valid.

    Raises TooMuch when it is more than is owed, and NotReady for a draft or a credit note.
    """
    if invoice.is_draft or invoice.kind == InvoiceKind.CREDIT_NOTE:
        raise NotReady(())
    _hold(invoice)
    owed = queries.owed_on(invoice)
    if amount > owed:
        raise TooMuch(owed)
    payment = Payment.objects.create(
        studio=invoice.studio,
        invoice=invoice,
        amount=amount,
        received_date=received_date,
        method=method,
        reference=reference,
        recorded_by=by,
    )
    trail.record(
        invoice,
        "paid",
        by=by,
        shoot_code=invoice.shoot.code,
        changes={"owed": (owed, owed - amount)},
        at=now,
    )
    _settle(invoice, owed=owed - amount, now=now)
    return payment


@transaction.atomic
def credit_invoice(
    *, invoice: Invoice, quantities: Mapping[int, Decimal], reason: str, by: Member, now: datetime
) -> Invoice:
    """Issue a credit note for an invoice: for each line (by its id) the quantity that is credited.

    The invoice itself never changes. Raises TooMuch when the credit is more than the invoice less earlier credits,
    and NotReady when nothing is credited or the invoice is a draft or a credit note.
    """
    if invoice.is_draft or invoice.kind == InvoiceKind.CREDIT_NOTE:
        raise NotReady(())
    _hold(invoice)
    lines = [
        _line(line.description, quantities[line.pk], line.unit, line.unit_price, line.tax_category, line.tax_rate)
        for line in invoice.lines.all()
        if quantities.get(line.pk)
    ]
    is_whole = all(quantities.get(line.pk) == line.quantity for line in invoice.lines.all())
    note = Invoice.objects.create(
        studio=invoice.studio,
        shoot=invoice.shoot,
        kind=InvoiceKind.CREDIT_NOTE,
        quote=invoice.quote,
        credits=invoice,
        currency=invoice.currency,
        po_number=invoice.po_number,
        supply_date=invoice.supply_date,
        discount=invoice.discount if is_whole else Decimal(0),
        discount_reason=invoice.discount_reason if is_whole else "",
        reason=reason,
    )
    _write_lines(note, lines)
    left = (invoice.total_gross or Decimal(0)) - queries.credited_on(invoice)
    page = queries.invoice_page(note, today=note.studio.local_date(now))
    if page.bill is not None and page.bill.totals.tax_inclusive > left:
        raise TooMuch(left)
    issue_invoice(invoice=note, by=by, now=now)
    _settle(invoice, owed=queries.owed_on(invoice), now=now)
    return note


def _settle(invoice: Invoice, *, owed: Decimal, now: datetime) -> None:
    """Close an invoice that is no longer owed, and fulfil the licences when the shoot owes nothing more."""
    if owed > 0:
        return
    Invoice.objects.filter(pk=invoice.pk, settled_at=None).update(settled_at=now)
    rest = Invoice.objects.filter(shoot=invoice.shoot)
    paid_whole = [i for i in rest.issued().filter(kind=InvoiceKind.INVOICE) if not queries.is_credited(i)]
    if not rest.owed().exists() and paid_whole:
        rights.fulfil_condition(shoot=invoice.shoot, now=now)


def _hold(record: Invoice | Quote) -> None:
    """Take the row's lock for the rest of the transaction; on SQLite the transaction has the database already."""
    type(record)._base_manager.filter(pk=record.pk).update(version=F("version"))


def _payment_days(shoot: Shoot) -> int:
    party = shoot.paying_party
    if party is not None and party.payment_days is not None:
        return int(party.payment_days)
    return shoot.studio.payment_days


def _supply_date(shoot: Shoot, *, kind: InvoiceKind, today: date) -> date:
    """Return the last day that was shot, for an invoice; a deposit is supplied when it is asked for."""
    days = [d.date for d in shoot.days.confirmed() if d.date <= today]
    return max(days) if days and kind == InvoiceKind.INVOICE else today


def _line(
    description: str, quantity: Decimal, unit: str, unit_price: Decimal, category: str, rate: Decimal | None
) -> dict[str, Any]:
    return {
        "description": description,
        "quantity": quantity,
        "unit": unit,
        "unit_price": unit_price,
        "tax_category": str(category),
        "tax_rate": rate or Decimal(0),
    }


def _write_lines(invoice: Invoice, lines: Sequence[Mapping[str, Any]]) -> None:
    InvoiceLine.objects.bulk_create(
        InvoiceLine(invoice=invoice, position=position, **line) for position, line in enumerate(lines, 1)
    )


def _plain(number: Decimal) -> str:
    return f"{number.normalize():f}"
