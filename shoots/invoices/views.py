"""Pages of invoices: drafting, issuing, mailing, payments, credits, and the studio's money."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from shoots.invoices import actions, queries
from shoots.invoices.forms import CreditForm, InvoiceForm, IssueForm, LineFormSet, PaymentForm, SendForm
from shoots.invoices.models import Invoice, InvoiceKind
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import BOOKS, PRICES
from shoots.people.models import Contact
from shoots.quotes.models import Quote
from shoots.shoot.models import Shoot
from shoots.values.money import Money, format_money


def _today(request: MemberRequest) -> date:
    return request.studio.local_date(timezone.now())


def _shoot(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("studio", "client", "billed_to", "contact")
    return get_object_or_404(shoots, code=code)


def _invoice(request: MemberRequest, code: str, pk: int) -> Invoice:
    invoices = Invoice.objects.of_studio(request.studio).select_related(
        "studio", "quote", "document", "credits", "shoot", "shoot__studio", "shoot__client", "shoot__billed_to"
    )
    return get_object_or_404(invoices, shoot__code=code, pk=pk)


@for_roles(PRICES)
@require_safe
def money(request: MemberRequest) -> HttpResponse:
    page = queries.money_page(request.studio, today=_today(request))
    return render(request, "invoices/money.html", {"page": page})


@for_roles(PRICES)
@require_safe
def invoice_list(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    page = queries.shoot_invoices(shoot, today=_today(request))
    return render(request, "invoices/invoice_list.html", {"shoot": shoot, "page": page})


@for_roles(BOOKS)
@require_POST
def invoice_draft(request: MemberRequest, code: str) -> HttpResponse:
    """Draft a deposit invoice, the invoice of the accepted quote, or an empty one."""
    shoot = _shoot(request, code)
    now = timezone.now()
    wanted = request.POST.get("kind", "")
    if wanted not in (InvoiceKind.DEPOSIT, InvoiceKind.INVOICE):
        return redirect("invoice_detail", code, actions.draft_blank(shoot=shoot, by=request.member, now=now).pk)
    quote = (
        Quote.objects.filter(shoot=shoot).accepted().select_related("studio", "shoot").order_by("-accepted_at").first()
    )
    try:
        if quote is None:
            raise actions.NotAccepted
        invoice = actions.draft_from_quote(quote=quote, kind=InvoiceKind(wanted), by=request.member, now=now)
    except actions.NotAccepted:
        messages.error(request, _("No quote of this shoot was accepted yet."))
    except actions.AlreadyInvoiced:
        messages.info(request, _("This quote has such an invoice already."))
    else:
        return redirect("invoice_detail", code, invoice.pk)
    return redirect("invoice_list", code)


@for_roles(PRICES)
def invoice_detail(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """The draft with its lines to edit, or the issued invoice with what may be done with it."""
    invoice = _invoice(request, code, pk)
    if not invoice.is_draft or not request.member.keeps_books:
        return _issued_page(request, invoice)
    form = InvoiceForm(request.POST or None, instance=invoice)
    lines = LineFormSet(request.POST or None, prefix="line", initial=_initial_lines(invoice))
    if request.method == "POST" and form.is_valid() and lines.is_valid():
        try:
            actions.edit_draft(
                invoice=invoice,
                changes=form.changes,
                lines=lines.lines,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except actions.AlreadyIssued:
            messages.info(request, _("It was issued in the meantime; an issued invoice never changes."))
            return redirect("invoice_detail", code, pk)
        else:
            messages.success(request, _("The draft is saved."))
            return redirect("invoice_detail", code, pk)
    return _draft_page(request, invoice, form=form, lines=lines, status=422 if form.is_bound else 200)


def _draft_page(
    request: MemberRequest,
    invoice: Invoice,
    *,
    form: InvoiceForm | None = None,
    lines: Any = None,
    issue_form: IssueForm | None = None,
    status: int = 200,
) -> HttpResponse:
    page = queries.invoice_page(invoice, today=_today(request))
    lines = lines or LineFormSet(prefix="line", initial=_initial_lines(invoice))
    nets = [net for _line, net in page.rows]
    count = len(nets)
    return render(
        request,
        "invoices/invoice_draft.html",
        {
            "shoot": invoice.shoot,
            "page": page,
            "form": form or InvoiceForm(instance=invoice),
            "lines": lines,
            # The sums are those of the saved lines; what was typed and refused has none yet.
            "rows": [
                (line, None if line.is_bound else net) for line, net in zip(lines.forms[:count], nets, strict=False)
            ],
            "more": lines.forms[count:],
            "more_is_open": not count or any(line.has_changed() for line in lines.forms[count:]),
            "issue_form": issue_form or IssueForm(initial={**_addressee(invoice), "seen_version": invoice.version}),
        },
        status=status,
    )


def _plain(number: Decimal) -> str:
    """20 rather than 20.000 or 2E+1."""
    return f"{number.normalize():f}"


def _initial_lines(invoice: Invoice) -> list[dict[str, Any]]:
    return [
        {
            "description": line.description,
            "quantity": _plain(line.quantity),
            "unit": line.unit,
            "unit_price": line.unit_price.quantize(Decimal("0.01"))
            if line.unit_price == line.unit_price.quantize(Decimal("0.01"))
            else _plain(line.unit_price),
            "tax_category": line.tax_category,
            "tax_rate": _plain(line.tax_rate),
        }
        for line in invoice.lines.all()
    ]


def _addressee(invoice: Invoice) -> dict[str, str]:
    """Return who gets the invoice: the payer's address for invoices, else the contact who holds the purse."""
    party = invoice.shoot.paying_party
    if party is None:
        return {}
    payer = Contact.objects.filter(client=party).exclude(email="").order_by("-pays", "name").first()
    if party.invoice_email:
        return {"to": party.invoice_email, "to_name": payer.name if payer and payer.pays else party.name}
    return {"to": payer.email, "to_name": payer.name} if payer else {}


def _issued_page(
    request: MemberRequest,
    invoice: Invoice,
    *,
    payment_form: PaymentForm | None = None,
    send_form: SendForm | None = None,
    status: int = 200,
) -> HttpResponse:
    page = queries.invoice_page(invoice, today=_today(request))
    return render(
        request,
        "invoices/invoice_detail.html",
        {
            "shoot": invoice.shoot,
            "page": page,
            "payment_form": payment_form
            or PaymentForm(
                initial={"amount": page.owed, "received_date": _today(request), "reference": invoice.number}
            ),
            "send_form": send_form or SendForm(initial=_addressee(invoice)),
        },
        status=status,
    )


@for_roles(BOOKS)
@require_POST
def invoice_issue(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    invoice = _invoice(request, code, pk)
    form = IssueForm(request.POST)
    if not form.is_valid():
        return _draft_page(request, invoice, issue_form=form, status=422)
    data = form.cleaned_data
    if invoice.is_draft and invoice.version != data["seen_version"]:
        form.add_error(None, _("The draft was changed after you opened it. Look at it once more, then issue it."))
        form.data = {**form.data.dict(), "seen_version": str(invoice.version)}
        return _draft_page(request, invoice, issue_form=form, status=422)
    try:
        actions.issue_invoice(
            invoice=invoice, to=data["to"], to_name=data["to_name"], by=request.member, now=timezone.now()
        )
    except actions.NotReady as error:
        for code_ in error.missing:
            form.add_error(None, queries.MISSING_WORDS[code_])
        return _draft_page(request, _invoice(request, code, pk), issue_form=form, status=422)
    except (actions.AlreadyIssued, EditedMeanwhile):
        messages.info(request, _("It was issued already; nothing was done twice."))
    else:
        messages.success(request, _("Invoice %(number)s is issued.") % {"number": invoice.number})
    return redirect("invoice_detail", code, pk)


@for_roles(BOOKS)
@require_POST
def invoice_discard(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    try:
        actions.discard_draft(invoice=_invoice(request, code, pk), by=request.member, now=timezone.now())
    except actions.AlreadyIssued:
        messages.error(request, _("An issued invoice stays; correct it by a credit note."))
        return redirect("invoice_detail", code, pk)
    messages.success(request, _("The draft is gone. It never had a number."))
    return redirect("invoice_list", code)


@for_roles(BOOKS)
@require_POST
def invoice_send(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    invoice = _invoice(request, code, pk)
    form = SendForm(request.POST)
    if not form.is_valid() or invoice.is_draft:
        return _issued_page(request, invoice, send_form=form, status=422)
    data = form.cleaned_data
    actions.send_invoice(invoice=invoice, to=data["to"], to_name=data["to_name"], by=request.member, now=timezone.now())
    messages.success(request, _("It is on its way to %(to)s.") % {"to": data["to"]})
    return redirect("invoice_detail", code, pk)


@for_roles(BOOKS)
@require_POST
def invoice_payment(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    invoice = _invoice(request, code, pk)
    form = PaymentForm(request.POST)
    if form.is_valid():
        data = form.cleaned_data
        if data["received_date"] > _today(request):
            form.add_error("received_date", _("That day is still to come."))
        else:
            try:
                actions.record_payment(
                    invoice=invoice,
                    amount=data["amount"],
                    received_date=data["received_date"],
                    method=data["method"],
                    reference=data["reference"],
                    by=request.member,
                    now=timezone.now(),
                )
            except actions.TooMuch as error:
                owed = format_money(Money(error.owed, invoice.currency))
                form.add_error("amount", _("Only %(owed)s is owed.") % {"owed": owed})
            except actions.NotReady:
                form.add_error(None, _("Only an issued invoice can be paid."))
            else:
                messages.success(request, _("The payment is noted."))
                return redirect("invoice_detail", code, pk)
    return _issued_page(request, invoice, payment_form=form, status=422)


@for_roles(BOOKS)
def invoice_credit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    invoice = _invoice(request, code, pk)
    lines = list(invoice.lines.all())
    form = CreditForm(request.POST or None, lines=lines)
    if request.method == "POST" and form.is_valid():
        try:
            note = actions.credit_invoice(
                invoice=invoice,
                quantities=form.quantities,
                reason=form.cleaned_data["reason"],
                by=request.member,
                now=timezone.now(),
            )
        except actions.TooMuch as error:
            left = format_money(Money(error.owed, invoice.currency))
            form.add_error(None, _("Only %(left)s can still be credited.") % {"left": left})
        except actions.NotReady:
            form.add_error(None, _("Nothing here can be credited."))
        else:
            messages.success(request, _("Credit note %(number)s is issued.") % {"number": note.number})
            return redirect("invoice_detail", code, note.pk)
    rows = [(line, form[f"quantity-{line.pk}"]) for line in lines]
    return render(
        request,
        "invoices/invoice_credit.html",
        {"shoot": invoice.shoot, "invoice": invoice, "form": form, "rows": rows},
        status=422 if form.is_bound else 200,
    )
