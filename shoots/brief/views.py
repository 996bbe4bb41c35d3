"""The brief of a shoot and its moods."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from shoots.brief import actions, queries
from shoots.brief.core.light import light_asked
from shoots.brief.forms import BriefForm, MoodForm
from shoots.brief.models import Brief, Mood
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PLANNERS
from shoots.shoot.models import Shoot


def _shoot(request: MemberRequest, code: str) -> Shoot:
    shoots = Shoot.objects.visible_to(request.member).select_related("client", "studio")
    return get_object_or_404(shoots, code=code)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def brief_edit(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    form = BriefForm(request.POST or None, instance=queries.brief_of(shoot), currency=shoot.currency)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_brief(
                shoot=shoot,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            current = Brief.objects.filter(shoot=shoot).values_list("version", flat=True).first()
            form.refuse_edited_meanwhile(current_version=current or 0)
        else:
            messages.success(request, _("The brief was saved."))
            return redirect("brief_detail", code=code)
    status = 422 if form.is_bound else 200
    return render(request, "brief/brief_edit.html", {"shoot": shoot, "form": form}, status=status)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def mood_new(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    form = MoodForm(request.POST or None, instance=Mood(shoot=shoot, studio=shoot.studio))
    if request.method == "POST" and form.is_valid():
        mood = actions.add_mood(shoot=shoot, **form.changes, by=request.member, now=timezone.now())
        messages.success(request, _("“%(name)s” is in the brief.") % {"name": mood.name})
        return redirect(reverse("brief_detail", args=[code]) + "#moods")
    return _mood_page(request, shoot, form, mood=None)


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def mood_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot = _shoot(request, code)
    mood = get_object_or_404(Mood.objects.filter(shoot=shoot).select_related("shoot"), pk=pk)
    form = MoodForm(request.POST or None, instance=mood)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_mood(
                mood=mood,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("“%(name)s” was saved.") % {"name": mood.name})
            return redirect(reverse("brief_detail", args=[code]) + "#moods")
    return _mood_page(request, shoot, form, mood=mood)


def _mood_page(request: MemberRequest, shoot: Shoot, form: MoodForm, *, mood: Mood | None) -> HttpResponse:
    place = mood.brightness if mood else Mood._meta.get_field("brightness").default
    context = {"shoot": shoot, "form": form, "mood": mood, "place": place, "light": light_asked(place)}
    return render(request, "brief/mood_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def mood_remove(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    mood = get_object_or_404(Mood.objects.filter(shoot=_shoot(request, code)).select_related("shoot", "studio"), pk=pk)
    actions.remove_mood(mood=mood, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” is gone.") % {"name": mood.name})
    return redirect(reverse("brief_detail", args=[code]) + "#moods")


@require_POST
@for_roles(PLANNERS)
def mood_move(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    mood = get_object_or_404(Mood.objects.filter(shoot=_shoot(request, code)), pk=pk)
    actions.move_mood(mood=mood, step=-1 if request.POST.get("way") == "up" else 1)
    return redirect(reverse("brief_detail", args=[code]) + f"#mood-{pk}")
