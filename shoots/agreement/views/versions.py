"""The brief with what the client said to it; sending a version, and their answer as the studio heard it."""

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

from shoots.agreement.actions import answers, sending
from shoots.agreement.forms import RecordAnswerForm, SendForm
from shoots.agreement.models import BriefVersion
from shoots.agreement.queries import paper, standing
from shoots.agreement.queries.words import difference_lines
from shoots.brief.queries import brief_page
from shoots.documents import adapters as documents
from shoots.links import actions as links
from shoots.members.access import MemberRequest, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import EVERYBODY, PLANNERS, PRICES
from shoots.pages.answers import posted, shown_pdf
from shoots.shoot.models import Shoot


def _shoot(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "contact", "studio")
    return get_object_or_404(shoots, code=code)


def _version(request: MemberRequest, code: str, pk: int) -> BriefVersion:
    return get_object_or_404(paper.with_papers().filter(shoot=_shoot(request, code)), pk=pk)


@require_GET
@for_roles(EVERYBODY)
def brief_detail(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    sees_prices = request.member.sees_prices
    context = {
        "shoot": shoot,
        "page": brief_page(shoot, sees_prices=sees_prices),
        "standing": standing.brief_standing(shoot, sees_prices=sees_prices),
    }
    return render(request, "agreement/brief_detail.html", context)


@require_GET
@for_roles(PRICES)
def brief_preview(request: MemberRequest, code: str) -> HttpResponse:
    """The PDF as it would be sent today."""
    shoot = _shoot(request, code)
    before = paper.with_papers().filter(shoot=shoot).first()
    number = before.number + 1 if before else 1
    content = paper.brief_paper(
        shoot,
        paper.agreed_now(shoot),
        number=number,
        label=f"{shoot.code}-{number}",
        before=before,
        issued_on=timezone.localdate(),
    )
    made = documents.pdf_of(documents.html_of(sending.TEMPLATE, {**content, "is_draft": True}))
    return shown_pdf(file=io.BytesIO(made.data), name=f"draft-brief-{shoot.code}-{number}.pdf".lower())


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def brief_send(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    now = timezone.now()
    found = standing.brief_standing(shoot, sees_prices=False)
    agreed = paper.agreed_now(shoot)
    newest = found.newest.version if found.newest else None
    fresh = {"seen_number": newest.number if newest else 0, "seen_print": paper.print_of(agreed)}
    to = newest.sent_to if newest else shoot.contact.email if shoot.contact else ""
    form = SendForm(posted(request), initial={**fresh, "email": to})
    missing = paper.missing_in(shoot, agreed)
    if request.method == "POST" and form.is_valid():
        try:
            sent = sending.send_brief(
                shoot=shoot,
                email=form.cleaned_data["email"],
                message=form.cleaned_data["message"],
                seen_number=form.cleaned_data["seen_number"] or 0,
                seen_print=form.cleaned_data["seen_print"],
                by=request.member,
                now=now,
            )
        except sending.BriefIncomplete as error:
            missing = list(error.missing)
        except sending.BriefAlreadySent:
            messages.info(request, _("A version was sent in the meantime, this is it; nothing went out twice."))
            return redirect("brief_detail", code=code)
        except EditedMeanwhile:
            form.add_error(None, _("The brief was changed since you looked. Look at it once more, then send it."))
            form.data = form.data.copy()
            for name, value in fresh.items():
                form.data[name] = str(value)
        else:
            words = _("Version %(n)d of the brief is on its way; its PDF is being made.")
            messages.success(request, words % {"n": sent.number})
            return redirect("brief_version", code=code, pk=sent.pk)
    context = {
        "shoot": shoot,
        "form": form,
        "standing": found,
        "words": paper.brief_words(agreed),
        "agreed": agreed,
        "missing": missing,
        "asked_for": agreed.finals_wanted if agreed.finals_wanted != agreed.finals else None,
        "newest": newest,
        "lines": difference_lines(paper.agreed_of(newest), agreed, for_client=True) if newest else (),
        "questions": brief_page(shoot, sees_prices=False).questions,
    }
    return render(request, "agreement/brief_send.html", context, status=422 if form.is_bound else 200)


@require_GET
@for_roles(PRICES)
def brief_version(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    """A version as it was frozen, and how it differs from another one (`?with=`), the one before unless asked."""
    version = _version(request, code, pk)
    shoot = version.shoot
    others = [row.version for row in standing.version_rows(shoot) if row.version.pk != version.pk]
    asked = request.GET.get("with", "")
    other = next((each for each in others if str(each.pk) == asked), None)
    if other is None and asked != "today":
        other = next((each for each in others if each.number < version.number), None)
    this = paper.agreed_of(version)
    if asked == "today":
        lines = difference_lines(this, paper.agreed_now(shoot))
    elif other is not None:
        pair = sorted((version, other), key=lambda each: each.number)
        lines = difference_lines(*(paper.agreed_of(each) for each in pair))
    else:
        lines = ()
    context = {
        "shoot": shoot,
        "version": version,
        "row": standing.version_row(version),
        "content": version.document.content,
        "link": _address(request, version),
        "others": others,
        "other": other,
        "is_older": other is not None and other.number < version.number,
        "with_today": asked == "today",
        "lines": lines,
    }
    return render(request, "agreement/brief_version.html", context)


def _address(request: MemberRequest, version: BriefVersion) -> str:
    """Return the client's link for those who may hand it on, while it leads somewhere."""
    link = version.link
    is_over = link.revoked_at is not None or (link.expires_at is not None and link.expires_at <= timezone.now())
    if is_over or not version.document.is_rendered or not request.member.plans:
        return ""
    return settings.SITE_URL + reverse("client_brief", args=[links.token_of(link)])


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def brief_answer(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    version = _version(request, code, pk)
    now = timezone.now()
    row = standing.version_row(version)
    if not row.can_be_approved:
        messages.info(request, _("This version waits for no answer."))
        return redirect("brief_version", code=code, pk=pk)
    contact = version.shoot.contact
    initial = {"said_date": timezone.localdate(now), "name": contact.name if contact else ""}
    form = RecordAnswerForm(posted(request), initial=initial)
    if request.method == "POST" and form.is_valid():
        typed = form.cleaned_data
        heard = {
            "version": version,
            "name": typed["name"],
            "said_at": form.said_at(zone=version.studio.time_zone, now=now),
            "by": request.member,
            "now": now,
        }
        try:
            if typed["answer"] == "yes":
                answers.record_approval(**heard, evidence=typed["evidence"])
            else:
                answers.record_correction(**heard, words=typed["evidence"])
        except answers.AnswerNotPossible:
            form.add_error("said_date", _("After the brief was sent, and not in the future."))
        except answers.BriefNotReady:
            form.add_error(None, _("The PDF is still being made; try again in a minute."))
        except answers.BriefNoLongerOpen:
            messages.info(request, _("Somebody answered or replaced it in the meantime; nothing was changed."))
            return redirect("brief_version", code=code, pk=pk)
        else:
            messages.success(request, _("The answer is written down."))
            return redirect("brief_detail", code=code)
    context = {"shoot": version.shoot, "version": version, "row": row, "form": form}
    return render(request, "agreement/brief_answer.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def brief_withdraw(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    version = _version(request, code, pk)
    if sending.withdraw_brief(version=version, by=request.member, now=timezone.now()):
        messages.success(
            request, _("Version %(n)d is withdrawn; its link shows nothing any more.") % {"n": version.number}
        )
    else:
        messages.success(request, _("The link is closed; opening it shows nothing any more."))
    return redirect("brief_version", code=code, pk=pk)
