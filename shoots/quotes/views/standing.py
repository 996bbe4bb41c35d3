"""A shoot's quotes: which there are, where each stands, sending one, and the client's answer as the studio heard it."""

from __future__ import annotations

import io

from django.conf import settings
from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from shoots.documents import adapters as documents
from shoots.links import actions as links
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import PLANNERS, PRICES
from shoots.pages.answers import posted, shown_pdf
from shoots.pages.forms import EDITED_MEANWHILE
from shoots.quotes.actions import answers, drafts, sending
from shoots.quotes.forms.answers import RecordAnswerForm
from shoots.quotes.forms.editing import SendForm
from shoots.quotes.models import Quote
from shoots.quotes.queries.card import card_page
from shoots.quotes.queries.paper import last_day_of, missing_in, open_until, quote_paper
from shoots.quotes.queries.standing import quote_row, quote_rows
from shoots.quotes.views.editor import editor_page, quote_of
from shoots.shoot.models import Shoot


def _shoot(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "contact", "studio")
    return get_object_or_404(shoots, code=code)


@require_GET
@for_roles(PRICES)
def quote_list(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    rows = quote_rows(shoot, now=timezone.now())
    context = {
        "shoot": shoot,
        "rows": rows,
        "draft": next((row for row in rows if row.is_draft), None),
        "accepted": next((row for row in rows if row.is_accepted), None),
        "latest_sent": next((row for row in rows if not row.is_draft), None),
        "card_is_empty": card_page(request.studio).is_empty,
    }
    return render(request, "quotes/quote_list.html", context)


@require_POST
@for_roles(PLANNERS)
def quote_start(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    copied = request.POST.get("copy", "")
    now = timezone.now()
    try:
        if copied:
            key = int(copied) if copied.isdigit() else 0
            quote = drafts.copy_quote(quote=quote_of(request, code, key), by=request.member, now=now)
        else:
            quote = drafts.start_quote(shoot=shoot, by=request.member, now=now)
    except drafts.DraftThere as there:
        messages.info(request, _("There is a draft already; this is it."))
        quote = there.quote
    return redirect("quote_detail", code=code, pk=quote.pk)


@require_GET
@for_roles(PRICES)
def quote_detail(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    now = timezone.now()
    if quote.is_draft:
        if request.member.plans:
            return editor_page(request, quote)
        content = quote_paper(quote, issued_on=timezone.localdate(now), last_day=None).content
    else:
        content = quote.document.content
    context = {
        "shoot": quote.shoot,
        "quote": quote,
        "row": quote_row(quote, now=now),
        "content": content,
        "link": _address(request, quote),
    }
    return render(request, "quotes/quote_detail.html", context)


def _address(request: MemberRequest, quote: Quote) -> str:
    """Return the client's link for those who may hand it on, once it leads somewhere."""
    is_made = quote.document is not None and quote.document.is_rendered
    if quote.link is None or quote.link.revoked_at is not None or not is_made or not request.member.plans:
        return ""
    return settings.SITE_URL + reverse("client_quote", args=[links.token_of(quote.link)])


@require_GET
@for_roles(PRICES)
def quote_preview(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """The PDF as it would be sent today; what was sent is shown from its own stored file."""
    quote = quote_of(request, code, pk)
    if quote.document is not None:
        return redirect("document_pdf", pk=quote.document.pk)
    zone, now = quote.studio.time_zone, timezone.now()
    last_day = last_day_of(open_until(now, quote.valid_days, zone), zone)
    paper = quote_paper(quote, issued_on=timezone.localdate(now), last_day=last_day)
    made = documents.pdf_of(documents.html_of(sending.TEMPLATE, {**paper.content, "is_draft": True}))
    return shown_pdf(file=io.BytesIO(made.data), name=f"draft-{quote}.pdf".lower())


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_send(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    if not quote.is_draft:
        messages.info(request, _("This version was sent before."))
        return redirect("quote_detail", code=code, pk=pk)
    now, zone = timezone.now(), quote.studio.time_zone
    last_day = last_day_of(open_until(now, quote.valid_days, zone), zone)
    paper = quote_paper(quote, issued_on=timezone.localdate(now), last_day=last_day)
    contact = quote.shoot.contact
    form = SendForm(posted(request), initial={"email": contact.email if contact else "", "version": quote.version})
    missing = missing_in(quote, paper)
    if request.method == "POST" and form.is_valid():
        try:
            sending.send_quote(
                quote=quote,
                email=form.cleaned_data["email"],
                message=form.cleaned_data["message"],
                seen_version=form.cleaned_data["version"] or 0,
                by=request.member,
                now=now,
            )
        except sending.QuoteIncomplete as error:
            missing = list(error.missing)
        except EditedMeanwhile:
            form.add_error(None, str(EDITED_MEANWHILE))
            form.data = form.data.copy()
            form.data["version"] = str(Quote.objects.values_list("version", flat=True).get(pk=pk))
        except drafts.QuoteAlreadySent:
            messages.info(request, _("This version was sent before."))
            return redirect("quote_detail", code=code, pk=pk)
        except sending.QuoteAnswered:
            messages.warning(request, _("The client accepted an earlier version in the meantime; nothing was sent."))
            return redirect("quote_list", code=code)
        else:
            messages.success(request, _("%(number)s is on its way; its PDF is being made.") % {"number": quote})
            return redirect("quote_detail", code=code, pk=pk)
    context = {
        "shoot": quote.shoot,
        "quote": quote,
        "form": form,
        "content": paper.content,
        "missing": missing,
    }
    return render(request, "quotes/quote_send.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def quote_answer(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    now = timezone.now()
    row = quote_row(quote, now=now)
    if not row.is_unanswered:
        messages.info(request, _("This version waits for no answer."))
        return redirect("quote_detail", code=code, pk=pk)
    contact = quote.shoot.contact
    initial = {"said_date": timezone.localdate(now), "name": contact.name if contact else ""}
    form = RecordAnswerForm(posted(request), initial=initial)
    if request.method == "POST" and form.is_valid():
        typed = form.cleaned_data
        try:
            if typed["answer"] == "yes":
                answers.record_acceptance(
                    quote=quote,
                    name=typed["name"],
                    said_at=form.said_at(zone=quote.studio.time_zone, now=now),
                    evidence=typed["evidence"],
                    by=request.member,
                    now=now,
                )
            else:
                reason = f"{typed['name']}: {typed['evidence']}"
                answers.decline_quote(quote=quote, reason=reason, by=request.member, now=now)
        except answers.AnswerNotPossible:
            form.add_error("said_date", _("After the quote was sent, and not in the future."))
        except answers.QuoteNotReady:
            form.add_error(None, _("The PDF is still being made; try again in a minute."))
        except answers.QuoteNoLongerOpen:
            messages.info(request, _("Somebody answered or replaced it in the meantime; nothing was changed."))
            return redirect("quote_detail", code=code, pk=pk)
        else:
            messages.success(request, _("The answer is written down."))
            return redirect("quote_detail", code=code, pk=pk)
    context = {"shoot": quote.shoot, "quote": quote, "row": row, "form": form}
    return render(request, "quotes/quote_answer.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def quote_close_link(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    quote = quote_of(request, code, pk)
    sending.close_link(quote=quote, by=request.member, now=timezone.now())
    messages.success(request, _("The link is closed; opening it shows nothing any more."))
    return redirect("quote_detail", code=code, pk=pk)
