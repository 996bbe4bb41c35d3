"""Writing a draft."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import PLANNERS
from shoots.pages.answers import posted
from shoots.pages.forms import EDITED_MEANWHILE
from shoots.quotes.actions import drafts as actions
from shoots.quotes.forms.editing import LicenceFeeForm, LinesForm, QuantityForm, QuoteForm, TaxForm
from shoots.quotes.forms.pricing import LineForm
from shoots.quotes.models import Quote, QuoteLine, Rate, RateKind
from shoots.quotes.queries.card import rates_at_hand, suggestions
from shoots.quotes.queries.licence_fee import licence_fee
from shoots.quotes.queries.paper import missing_in, quote_paper, quotes_with_parties, suggests_reverse_charge
from shoots.shoot.models import Shoot


def quote_of(request: MemberRequest, code: str, pk: int) -> Quote:
    """Return a quote of a shoot that the member may see, or answer 404."""
    shoot = get_object_or_404(Shoot.objects.visible_to(request.member), code=code)
    return get_object_or_404(quotes_with_parties().filter(shoot=shoot), pk=pk)


def _back_to(quote: Quote, anchor: str = "") -> HttpResponse:
    return redirect(reverse("quote_detail", args=[quote.shoot.code, quote.pk]) + (f"#{anchor}" if anchor else ""))


def _was_sent(request: MemberRequest, quote: Quote) -> HttpResponse:
    messages.warning(request, _("This version was sent in the meantime; nothing was changed. Begin a new version."))
    return _back_to(quote)


def editor_page(
    request: MemberRequest, quote: Quote, *, form: LinesForm | None = None, status: int = 200
) -> HttpResponse:
    """Return the page on which a draft is written. A fixed number of queries, however many lines."""
    today = timezone.localdate()
    paper = quote_paper(quote, issued_on=today, last_day=None)
    rates = rates_at_hand(quote.studio)
    found = suggestions(quote.shoot, rates, currency=quote.currency, quote=quote)
    lines_form = form or LinesForm(quote=quote, lines=list(paper.lines))
    written = {line["pk"]: line for line in paper.content["lines"]}
    context = {
        "shoot": quote.shoot,
        "quote": quote,
        "paper": paper,
        "content": paper.content,
        "form": lines_form,
        "rows": [(row, written.get(row.line.pk)) for row in lines_form.rows],
        "rates": rates if quote.currency == quote.studio.currency else [],
        "currency_differs": bool(rates) and quote.currency != quote.studio.currency,
        "suggestions": [item for item in found if not item.is_in_quote or item.differs],
        "missing": missing_in(quote, paper),
        "suggests_reverse_charge": suggests_reverse_charge(quote, paper),
        "has_licence_line": any(line.kind == RateKind.LICENCE for line in paper.lines),
    }
    return render(request, "quotes/quote_editor.html", context, status=status)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_lines(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    if request.method == "GET":
        return _back_to(quote)
    form = LinesForm(request.POST, quote=quote, lines=list(quote.lines.all()))
    if not form.is_valid():
        return editor_page(request, quote, form=form, status=422)
    deed, key = form.deed
    try:
        actions.save_lines(
            quote=quote,
            rows=form.edits,
            move=(key, -1 if deed == "up" else 1) if key and deed in ("up", "down") else None,
            remove=key if deed == "remove" else None,
            seen_version=form.version,
            by=request.member,
            now=timezone.now(),
        )
    except actions.QuoteAlreadySent:
        return _was_sent(request, quote)
    except EditedMeanwhile:
        form.problem = str(EDITED_MEANWHILE)
        form.version = Quote.objects.values_list("version", flat=True).get(pk=pk)
        return editor_page(request, quote, form=form, status=422)
    if deed == "save":
        messages.success(request, _("The lines were saved."))
    return _back_to(quote, f"line-{key}" if key and deed != "remove" else "lines")


@require_POST
@for_roles(PLANNERS)
def quote_add(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    wanted = request.POST.get("rate", "")
    rate = get_object_or_404(
        Rate.objects.of_studio(request.studio).filter(put_away_at=None), pk=int(wanted) if wanted.isdigit() else 0
    )
    form = QuantityForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("How many? A number of at least 0. Nothing was added."))
        return _back_to(quote, "add")
    if quote.currency != request.studio.currency:
        messages.error(request, _("The card is in another currency; type the line with its price instead."))
        return _back_to(quote, "add")
    try:
        line = actions.add_rate_line(
            quote=quote, rate=rate, quantity=form.cleaned_data["quantity"], by=request.member, now=timezone.now()
        )
    except actions.QuoteAlreadySent:
        return _was_sent(request, quote)
    messages.success(request, _("“%(what)s” is in the quote.") % {"what": line})
    return _back_to(quote, f"line-{line.pk}")


@require_POST
@for_roles(PLANNERS)
def quote_suggestion(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    found = suggestions(quote.shoot, rates_at_hand(quote.studio), currency=quote.currency, quote=quote)
    item = next((item for item in found if item.key == request.POST.get("key")), None)
    if item is None:
        messages.info(request, _("The plan has changed; this is no longer in it."))
        return _back_to(quote, "plan")
    if item.unit_price is None and not item.is_in_quote:
        typed = {"kind": item.kind, "description": item.description, "quantity": item.quantity, "unit": item.unit}
        return redirect(f"{reverse('quote_line_new', args=[code, pk])}?{urlencode(typed)}")
    try:
        line = actions.add_suggestion(quote=quote, item=item, by=request.member, now=timezone.now())
    except actions.QuoteAlreadySent:
        return _was_sent(request, quote)
    messages.success(request, _("“%(what)s” is in the quote.") % {"what": line})
    return _back_to(quote, f"line-{line.pk}")


def _line_page(request: MemberRequest, quote: Quote, form: LineForm, *, line: QuoteLine | None) -> HttpResponse:
    context = {"shoot": quote.shoot, "quote": quote, "form": form, "line": line}
    return render(request, "quotes/line_edit.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_line_new(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    if not quote.is_draft:
        return _was_sent(request, quote)
    typed = {name: request.GET[name] for name in ("kind", "description", "quantity", "unit") if name in request.GET}
    form = LineForm(
        posted(request),
        instance=QuoteLine(studio=quote.studio, quote=quote),
        studio=quote.studio,
        currency=quote.currency,
        initial=typed,
    )
    if request.method == "POST" and form.is_valid():
        try:
            line = actions.add_line(quote=quote, fields=form.changes, by=request.member, now=timezone.now())
        except actions.QuoteAlreadySent:
            return _was_sent(request, quote)
        messages.success(request, _("“%(what)s” is in the quote.") % {"what": line})
        return _back_to(quote, f"line-{line.pk}")
    return _line_page(request, quote, form, line=None)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_line_edit(request: MemberRequest, code: str, pk: int, line_pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    line = get_object_or_404(quote.lines.select_related("quote__shoot", "quote__studio"), pk=line_pk)
    if not quote.is_draft:
        return _was_sent(request, quote)
    form = LineForm(posted(request), instance=line, studio=quote.studio, currency=quote.currency)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_line(
                line=line,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except actions.QuoteAlreadySent:
            return _was_sent(request, quote)
        else:
            messages.success(request, _("“%(what)s” was saved.") % {"what": form.cleaned_data["description"]})
            return _back_to(quote, f"line-{line.pk}")
    return _line_page(request, quote, form, line=line)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    if not quote.is_draft:
        return _was_sent(request, quote)
    form = QuoteForm(posted(request), instance=quote)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_quote(
                quote=quote,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            form.refuse_edited_meanwhile()
        except actions.QuoteAlreadySent:
            return _was_sent(request, quote)
        else:
            messages.success(request, _("Saved."))
            return _back_to(quote)
    context = {"shoot": quote.shoot, "quote": quote, "form": form}
    return render(request, "quotes/quote_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def quote_tax(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    form = TaxForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("That is no kind of VAT; nothing was changed."))
        return _back_to(quote)
    try:
        actions.set_tax(
            quote=quote,
            category=form.cleaned_data["category"],
            rate=form.cleaned_data["rate"] or Decimal(0),
            by=request.member,
            now=timezone.now(),
        )
    except actions.QuoteAlreadySent:
        return _was_sent(request, quote)
    messages.success(request, _("All lines are taxed alike now."))
    return _back_to(quote, "totals")


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_licence_fee(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    if not quote.is_draft:
        return _was_sent(request, quote)
    proposal = licence_fee(quote)
    context: dict[str, Any] = {"shoot": quote.shoot, "quote": quote, "proposal": proposal}
    if not proposal.can_be_priced:
        return render(request, "quotes/licence_fee.html", context)
    form = LicenceFeeForm(
        posted(request),
        currency=quote.currency,
        factors=proposal.fields,
        base=proposal.base,
    )
    status = 200
    if request.method == "POST":
        if form.is_valid():
            proposal = licence_fee(quote, base=form.cleaned_data["base"], typed=form.typed_factors)
            if request.POST.get("do") == "put" and proposal.price is not None:
                return _put_fee(request, quote, proposal.price.total.amount)
        else:
            status = 422
    context |= {"form": form, "proposal": proposal, "rows": [(form[step.field], step) for step in proposal.steps]}
    return render(request, "quotes/licence_fee.html", context, status=status)


def _put_fee(request: MemberRequest, quote: Quote, fee: Decimal) -> HttpResponse:
    try:
        line = actions.set_licence_fee(
            quote=quote, fee=fee, description=str(_("Licence")), by=request.member, now=timezone.now()
        )
    except actions.QuoteAlreadySent:
        return _was_sent(request, quote)
    messages.success(request, _("The licence fee is in the quote."))
    return _back_to(quote, f"line-{line.pk}")


@require_POST
@for_roles(PLANNERS)
def quote_discard(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    try:
        actions.discard_quote(quote=quote, by=request.member, now=timezone.now())
    except actions.QuoteAlreadySent:
        return _was_sent(request, quote)
    messages.success(request, _("The draft is gone."))
    return redirect("quote_list", code=code)
