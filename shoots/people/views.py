"""Clients and their contacts, crew and talent."""

from __future__ import annotations

from datetime import date
from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PLANNERS, PRICES
from shoots.pages import choices
from shoots.pages.answers import posted
from shoots.pages.edits import saved
from shoots.pages.forms import RecordForm
from shoots.people import actions, queries
from shoots.people.forms import ClientForm, ContactForm, PersonForm
from shoots.people.models import Client, Contact, Person, PersonKind
from shoots.trail import queries as trail


@require_safe
@for_roles(PRICES)
def people(request: MemberRequest) -> HttpResponse:
    text, away = request.GET.get("q", "").strip()[:80], "away" in request.GET
    page = queries.people_page(request.studio, text=text, away=away, today=_today(request))
    return render(request, "people/people.html", {"page": page, "text": text, "away": away})


@require_safe
@for_roles(PRICES)
def client_detail(request: MemberRequest, pk: int) -> HttpResponse:
    client = _client(request, pk)
    return render(
        request,
        "people/client_detail.html",
        {
            "card": queries.client_card(client),
            "client": client,
            "country": dict(choices.countries()).get(client.country, client.country),
            "trail": trail.history_of(client, studio=request.studio),
        },
    )


@for_roles(PLANNERS)
def client_new(request: MemberRequest) -> HttpResponse:
    form = ClientForm(posted(request), initial={"country": request.studio.country})
    if request.method == "POST" and form.is_valid():
        client = actions.add_client(fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is on your list. Who do you talk to there?") % {"name": client})
        return redirect("client_detail", pk=client.pk)
    return _form_page(request, form, title=_("A new client"), back="people")


@for_roles(PLANNERS)
def client_edit(request: MemberRequest, pk: int) -> HttpResponse:
    client = _client(request, pk)
    form = ClientForm(posted(request), instance=client)
    if saved(request, form, actions.edit):
        return redirect("client_detail", pk=pk)
    return _form_page(request, form, title=client.name, back="client_detail", pk=pk)


@require_POST
@for_roles(PLANNERS)
def client_put_away(request: MemberRequest, pk: int) -> HttpResponse:
    _move(request, _client(request, pk))
    return redirect("client_detail", pk=pk)


@for_roles(PLANNERS)
def contact_new(request: MemberRequest, pk: int) -> HttpResponse:
    client = _client(request, pk)
    form = ContactForm(posted(request))
    if request.method == "POST" and form.is_valid():
        contact = actions.add_contact(client=client, fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is on your list.") % {"name": contact})
        return redirect("client_detail", pk=pk)
    title = _("Somebody at %(client)s") % {"client": client}
    return _form_page(request, form, title=title, back="client_detail", pk=pk)


@for_roles(PLANNERS)
def contact_edit(request: MemberRequest, pk: int) -> HttpResponse:
    contact = _contact(request, pk)
    form = ContactForm(posted(request), instance=contact)
    if saved(request, form, actions.edit):
        return redirect("client_detail", pk=contact.client_id)
    return _form_page(request, form, title=contact.name, back="client_detail", pk=contact.client_id, contact=contact)


@require_POST
@for_roles(PLANNERS)
def contact_remove(request: MemberRequest, pk: int) -> HttpResponse:
    contact = _contact(request, pk)
    actions.remove_contact(contact=contact, by=request.member, now=timezone.now())
    messages.success(request, _("%(name)s is off your list.") % {"name": contact})
    return redirect("client_detail", pk=contact.client_id)


@require_safe
@for_roles(PRICES)
def person_detail(request: MemberRequest, pk: int) -> HttpResponse:
    person = _person(request, pk)
    return render(
        request,
        "people/person_detail.html",
        {
            "card": queries.person_card(person, on=_today(request)),
            "person": person,
            "trail": trail.history_of(person, studio=request.studio),
        },
    )


@for_roles(PLANNERS)
def person_new(request: MemberRequest) -> HttpResponse:
    kind = PersonKind.TALENT if request.GET.get("kind") == PersonKind.TALENT else PersonKind.CREW
    form = PersonForm(posted(request), initial={"kind": kind}, **_frame(request))
    if request.method == "POST" and form.is_valid():
        person = actions.add_person(fields=form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("%(name)s is on your list.") % {"name": person})
        return redirect("person_detail", pk=person.pk)
    return _form_page(request, form, title=_("Somebody new"), back="people")


@for_roles(PLANNERS)
def person_edit(request: MemberRequest, pk: int) -> HttpResponse:
    person = _person(request, pk)
    form = PersonForm(posted(request), instance=person, **_frame(request))
    if saved(request, form, actions.edit):
        return redirect("person_detail", pk=pk)
    return _form_page(request, form, title=person.name, back="person_detail", pk=pk)


@require_POST
@for_roles(PLANNERS)
def person_put_away(request: MemberRequest, pk: int) -> HttpResponse:
    _move(request, _person(request, pk))
    return redirect("person_detail", pk=pk)


def _client(request: MemberRequest, pk: int) -> Client:
    return cast(Client, get_object_or_404(Client.objects.of_studio(request.studio), pk=pk))


def _contact(request: MemberRequest, pk: int) -> Contact:
    contacts = Contact.objects.of_studio(request.studio).select_related("client")
    return cast(Contact, get_object_or_404(contacts, pk=pk))


def _person(request: MemberRequest, pk: int) -> Person:
    return cast(Person, get_object_or_404(Person.objects.of_studio(request.studio), pk=pk))


def _today(request: MemberRequest) -> date:
    return timezone.localdate(timezone=request.studio.zone)


def _frame(request: MemberRequest) -> dict[str, Any]:
    return {"currency": request.studio.currency, "today": _today(request)}


def _move(request: MemberRequest, record: Client | Person) -> None:
    now = timezone.now()
    if "back" in request.POST:
        actions.take_out(record=record, by=request.member, now=now)
        messages.success(request, _("%(name)s is back on your lists.") % {"name": record})
    else:
        actions.put_away(record=record, by=request.member, now=now)
        messages.success(request, _("%(name)s is put away; shoots and documents keep them.") % {"name": record})


def _form_page(
    request: HttpRequest, form: RecordForm, *, title: str, back: str, pk: int | None = None, **more: Any
) -> HttpResponse:
    context = {"form": form, "title": title, "back_name": back, "back_pk": pk, **more}
    return render(request, "people/record_form.html", context, status=422 if form.is_bound else 200)
