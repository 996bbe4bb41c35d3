"""The quote as the client opens it by a link, without an account."""

from __future__ import annotations

from contextlib import suppress

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from shoots.documents import adapters as documents
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.links.access import by_link
from shoots.links.models import ClientLink, Purpose
from shoots.pages.answers import address_of, file_answer
from shoots.quotes.actions import answers, sending
from shoots.quotes.forms.answers import AcceptForm, DeclineForm
from shoots.quotes.models import Quote
from shoots.quotes.queries.paper import quotes_with_parties
from shoots.quotes.queries.standing import quote_row
from shoots.rights.models import Licence


def _quote(link: ClientLink) -> Quote:
    return get_object_or_404(quotes_with_parties(), link=link)


def _page(
    request: HttpRequest,
    quote: Quote,
    token: str,
    *,
    accept: AcceptForm | None = None,
    decline: DeclineForm | None = None,
    problem: str = "",
    status: int = 200,
) -> HttpResponse:
    newer = None
    if quote.replaced_at is not None:
        newer = Quote.objects.filter(studio=quote.studio, number=quote.number).exclude(sent_at=None).first()
    context = {
        "studio": quote.studio,
        "quote": quote,
        "row": quote_row(quote, now=timezone.now()),
        "content": quote.document.content,
        "token": token,
        "accept": accept or AcceptForm(),
        "decline": decline or DeclineForm(),
        "problem": problem,
        "newer": newer,
        "licence": _licence_paper(quote),
    }
    return render(request, "quotes/client_quote.html", context, status=status)


def _licence_paper(quote: Quote) -> IssuedDocument | None:
    """Return the newest version of the licence that the quote's acceptance granted."""
    if quote.accepted_at is None:
        return None
    number = quote.number.replace("Q-", "L-", 1)
    licence = Licence.objects.of_studio(quote.studio).filter(number=number).select_related("document").first()
    return licence.document if licence else None


@require_GET
@by_link(Purpose.QUOTE)
def client_quote(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    quote = _quote(link)
    if not request.member or request.member.studio_id != quote.studio_id:
        sending.note_opened(quote=quote, now=timezone.now())
    return _page(request, quote, token)


@require_http_methods(["GET", "POST"])
@by_link(Purpose.QUOTE)
def client_quote_accept(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    """Accepting is a POST alone: mail scanners follow links, and a GET must not sign."""
    quote = _quote(link)
    if request.method == "GET":
        return redirect("client_quote", token=token)
    form = AcceptForm(request.POST)
    if not form.is_valid():
        return _page(request, quote, token, accept=form, status=422)
    try:
        answers.accept_quote(
            quote=quote, name=form.cleaned_data["name"], address=address_of(request), now=timezone.now()
        )
    except answers.QuoteNotReady:
        problem = _("The quote is still being made. Wait a minute and press the button again.")
        return _page(request, quote, token, accept=form, problem=problem, status=422)
    except answers.QuoteNoLongerOpen:
        pass  # the page says what became of it
    return redirect("client_quote", token=token)


@require_http_methods(["GET", "POST"])
@by_link(Purpose.QUOTE)
def client_quote_decline(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    quote = _quote(link)
    if request.method == "GET":
        return redirect("client_quote", token=token)
    form = DeclineForm(request.POST)
    if not form.is_valid():
        return _page(request, quote, token, decline=form, status=422)
    with suppress(answers.QuoteNoLongerOpen):  # the page says what became of it
        answers.decline_quote(quote=quote, reason=form.cleaned_data["reason"], now=timezone.now())
    return redirect("client_quote", token=token)


@require_GET
@by_link(Purpose.QUOTE)
def client_quote_paper(request: HttpRequest, token: str, kind: str, *, link: ClientLink) -> HttpResponse:
    """The very file that was sent, or the papers of its acceptance."""
    quote = _quote(link)
    papers = {
        DocumentKind.QUOTE.lower(): quote.document,
        DocumentKind.ACCEPTANCE.lower(): quote.acceptance_document,
        DocumentKind.LICENCE.lower(): _licence_paper(quote),
    }
    document = papers.get(kind)
    if document is None:
        raise Http404
    if not document.is_rendered:
        return redirect("client_quote", token=token)
    return file_answer(
        file=documents.read(document.storage_key), name=document.file_name, content_type="application/pdf"
    )
