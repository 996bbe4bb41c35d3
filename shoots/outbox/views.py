"""Outgoing mail, and trying again what was given up."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PLANNERS, PRICES
from shoots.outbox import actions, queries
from shoots.outbox.models import Mail, Message


@require_GET
@for_roles(PRICES)
def mail_list(request: MemberRequest) -> HttpResponse:
    asked = request.GET.get("page", "")
    page = int(asked) if asked.isascii() and asked.isdigit() and 0 < len(asked) < 5 and int(asked) else 1
    context = {"page": queries.mail_page(request.studio, page=page), "leaves": bool(settings.SMTP_URL)}
    return render(request, "outbox/mail_list.html", context)


@require_GET
@for_roles(PRICES)
def mail_detail(request: MemberRequest, pk: int) -> HttpResponse:
    mail = get_object_or_404(Mail.objects.of_studio(request.studio).select_related("studio"), pk=pk)
    context = {"page": queries.mail_text(mail, reader=request.member), "mail": mail, "leaves": bool(settings.SMTP_URL)}
    return render(request, "outbox/mail_detail.html", context)


@require_POST
@for_roles(PLANNERS)
def job_again(request: MemberRequest, pk: int) -> HttpResponse:
    job = get_object_or_404(Message.objects.of_studio(request.studio), pk=pk)
    if actions.try_again(message=job, now=timezone.now()):
        messages.success(request, _("It is being tried again."))
    else:
        messages.info(request, _("Nothing to do: it is waiting already, or done."))
    return redirect("mail_list")
