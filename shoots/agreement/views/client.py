"""A version of the brief as the client opens it by a link, without an account."""

from __future__ import annotations

from contextlib import suppress

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from shoots.agreement.actions import answers, sending
from shoots.agreement.forms import ApproveForm, CorrectForm
from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.paper import with_papers
from shoots.agreement.queries.standing import version_row
from shoots.documents import adapters as documents
from shoots.documents.models import DocumentKind
from shoots.links.access import by_link
from shoots.links.models import ClientLink, Purpose
from shoots.pages.answers import address_of, file_answer


def _version(link: ClientLink) -> BriefVersion:
    return get_object_or_404(with_papers(), link=link)


def _page(
    request: HttpRequest,
    version: BriefVersion,
    token: str,
    *,
    approve: ApproveForm | None = None,
    correct: CorrectForm | None = None,
    problem: str = "",
    status: int = 200,
) -> HttpResponse:
    newer = None
    if version.replaced_at is not None:
        newer = BriefVersion.objects.filter(shoot=version.shoot, number__gt=version.number).first()
    context = {
        "studio": version.studio,
        "version": version,
        "row": version_row(version),
        "content": version.document.content,
        "token": token,
        "approve": approve or ApproveForm(),
        "correct": correct or CorrectForm(),
        "problem": problem,
        "newer": newer,
    }
    return render(request, "agreement/client_brief.html", context, status=status)


@require_GET
@by_link(Purpose.BRIEF)
def client_brief(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    version = _version(link)
    if not request.member or request.member.studio_id != version.studio_id:
        sending.note_opened(version=version, now=timezone.now())
    return _page(request, version, token)


@require_http_methods(["GET", "POST"])
@by_link(Purpose.BRIEF)
def client_brief_approve(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    """Approving is a POST alone: mail scanners follow links, and a GET must not sign."""
    version = _version(link)
    if request.method == "GET":
        return redirect("client_brief", token=token)
    form = ApproveForm(request.POST)
    if not form.is_valid():
        return _page(request, version, token, approve=form, status=422)
    try:
        answers.approve_brief(
            version=version, name=form.cleaned_data["name"], address=address_of(request), now=timezone.now()
        )
    except answers.BriefNotReady:
        problem = _("The PDF of the brief is still being made. Wait a minute and press the button again.")
        return _page(request, version, token, approve=form, problem=problem, status=422)
    except answers.BriefNoLongerOpen:
        pass  # the page says what became of it
    return redirect("client_brief", token=token)


@require_http_methods(["GET", "POST"])
@by_link(Purpose.BRIEF)
def client_brief_correct(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    version = _version(link)
    if request.method == "GET":
        return redirect("client_brief", token=token)
    form = CorrectForm(request.POST)
    if not form.is_valid():
        return _page(request, version, token, correct=form, status=422)
    with suppress(answers.BriefNoLongerOpen):  # the page says what became of it
        answers.correct_brief(
            version=version,
            name=form.cleaned_data["name"],
            words=form.cleaned_data["words"],
            address=address_of(request),
            now=timezone.now(),
        )
    return redirect("client_brief", token=token)


@require_GET
@by_link(Purpose.BRIEF)
def client_brief_paper(request: HttpRequest, token: str, kind: str, *, link: ClientLink) -> HttpResponse:
    """The very file that was sent, or the paper of its approval."""
    version = _version(link)
    papers = {
        DocumentKind.BRIEF.lower(): version.document,
        DocumentKind.APPROVAL.lower(): version.approval_document,
    }
    document = papers.get(kind)
    if document is None:
        raise Http404
    if not document.is_rendered:
        return redirect("client_brief", token=token)
    return file_answer(
        file=documents.read(document.storage_key), name=document.file_name, content_type="application/pdf"
    )
