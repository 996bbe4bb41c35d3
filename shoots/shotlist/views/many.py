"""Many shots at once: picked, edited together, put back, taken off the list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from django.contrib import messages
from django.http import HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.text import Truncator
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_POST

from shoots.brief.queries import brief_of
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PLANNERS
from shoots.shoot.models import Shoot
from shoots.shotlist import queries
from shoots.shotlist.actions import many as actions
from shoots.shotlist.forms.many import ManyForm
from shoots.shotlist.models import Shot
from shoots.shotlist.views.shots import shoot_of

#: Letters of what was there that are told on the page of changes.
MOST_TOLD = 300


def keys_of(data: QueryDict) -> list[int]:
    """Return the keys of the shots that were ticked."""
    return [int(key) for key in data.getlist("shot") if key.isdecimal() and len(key) < 19]


def _seen(data: QueryDict) -> dict[int, int]:
    """Return the picked shots with the versions that were opened: fields "seen" as 12:3."""
    found: dict[int, int] = {}
    for entry in data.getlist("seen"):
        pk, _mark, version = entry.partition(":")
        if pk.isdecimal() and version.isdecimal() and len(pk) < 19 and len(version) < 10:
            found[int(pk)] = int(version)
    return found


def _undo_key(shoot: Shoot) -> str:
    return f"shots-edited-{shoot.pk}"


@require_GET
@for_roles(PLANNERS)
def shot_pick(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    page = queries.shot_list(shoot)
    groups = queries.pick_groups(page.cards)
    wanted = request.GET.get("pick", "")
    if wanted == "all":
        picked = {card.shot.pk for card in page.cards}
    else:
        picked = {pk for group in groups if group.key == wanted for pk in group.shots} | set(keys_of(request.GET))
    context = {"shoot": shoot, "page": page, "groups": groups, "picked": picked, "pick": wanted}
    return render(request, "shotlist/shot_pick.html", context)


@require_POST
@for_roles(PLANNERS)
def shot_many(request: MemberRequest, code: str) -> HttpResponse:
    """Open the fields for the shots that were ticked; with `seen`, set them."""
    shoot = shoot_of(request, code)
    seen = _seen(request.POST)
    saves = bool(seen)
    if not saves:
        seen = dict(Shot.objects.filter(shoot=shoot, pk__in=keys_of(request.POST)).values_list("pk", "version"))
    if not seen:
        messages.warning(request, _("Pick at least one shot first."))
        return redirect("shot_pick", code=code)
    form = ManyForm(request.POST if saves else None, shoot=shoot, offered=brief_of(shoot).placements)
    if saves and form.is_valid():
        if form.says_nothing:
            form.add_error(None, _("Nothing is set yet: choose what the picked shots should have in common."))
        else:
            try:
                told = actions.edit_many(
                    shoot=shoot,
                    seen=seen,
                    changes=form.changes,
                    parts=form.parts,
                    placements=form.placements_change,
                    finishing=form.finishing,
                    by=request.member,
                    now=timezone.now(),
                )
            except actions.ShotsEditedMeanwhile as error:
                form.add_error(None, _meanwhile(error))
                seen = _now_at(shoot, seen)
            else:
                return _changed(request, shoot, told)
    return _many_page(request, shoot, form, seen)


def _meanwhile(error: actions.ShotsEditedMeanwhile) -> str:
    titles = ", ".join(f"“{title}”" for title in error.titles[:5])
    parts = []
    if titles:
        parts.append(_("Somebody saved %(titles)s in the meantime.") % {"titles": titles})
    if error.gone:
        parts.append(
            ngettext("%(n)d shot is no longer there.", "%(n)d shots are no longer there.", error.gone)
            % {"n": error.gone}
        )
    parts.append(_("Nothing was changed; what you set is still here. Save again to put it in place."))
    return " ".join(parts)


def _now_at(shoot: Shoot, seen: Mapping[int, int]) -> dict[int, int]:
    return dict(Shot.objects.filter(shoot=shoot, pk__in=seen).values_list("pk", "version"))


def _many_page(request: MemberRequest, shoot: Shoot, form: ManyForm, seen: Mapping[int, int]) -> HttpResponse:
    cards = [card for card in queries.shot_list(shoot).cards if card.shot.pk in seen]
    context = {"shoot": shoot, "form": form, "cards": cards, "seen": [f"{pk}:{v}" for pk, v in seen.items()]}
    return render(request, "shotlist/shot_many.html", context, status=422 if form.is_bound else 200)


def _changed(request: MemberRequest, shoot: Shoot, told: list[actions.ShotChange]) -> HttpResponse:
    back = reverse("shot_list", args=[shoot.code])
    if not told:
        messages.info(request, _("Nothing had to change: the picked shots said so already."))
        return redirect(back)
    keep_undo(request, shoot, told)
    return redirect(reverse("shot_changed", args=[shoot.code]))


def keep_undo(
    request: MemberRequest,
    shoot: Shoot,
    told: Sequence[actions.ShotChange],
    *,
    words: Mapping[int, list[list[str]]] | None = None,
    added: int = 0,
) -> None:
    """Keep in the session what was changed, for the page that tells it and for the way back.

    `words` tell by the shot's key what changed, as heads, old and new; without them the fields' own are taken. `added`
    are shots that were added with it, and stay when it is put back.
    """
    request.session[_undo_key(shoot)] = {
        "added": added,
        "shots": [
            {
                "pk": change.pk,
                "title": change.title,
                "changes": (words or {}).get(change.pk)
                or [[_label(name), shortened(old), shortened(new)] for name, (old, new) in change.changes.items()],
                "before": change.before,
            }
            for change in told
        ],
    }


def shortened(value: object) -> str:
    """Return a text as the page of changes tells it."""
    return Truncator(str(value)).chars(MOST_TOLD)


def _label(name: str) -> str:
    if name == "finishing":
        return _("planned finishing")
    return str(Shot._meta.get_field(name).verbose_name)  # type: ignore[union-attr]  # all of them have one


@require_GET
@for_roles(PLANNERS)
def shot_changed(request: MemberRequest, code: str) -> HttpResponse:
    """Show what the last edit of many changed, with the way back."""
    shoot = shoot_of(request, code)
    last = request.session.get(_undo_key(shoot))
    if not last:
        return redirect("shot_list", code=code)
    return render(
        request, "shotlist/shot_changed.html", {"shoot": shoot, "shots": last["shots"], "added": last.get("added", 0)}
    )


@require_POST
@for_roles(PLANNERS)
def shot_undo(request: MemberRequest, code: str) -> HttpResponse:
    shoot = shoot_of(request, code)
    last = request.session.pop(_undo_key(shoot), None)
    if not last:
        messages.info(request, _("There is nothing to put back."))
        return redirect("shot_list", code=code)
    before = {shot["pk"]: shot["before"] for shot in last["shots"]}
    try:
        number = actions.undo_many(shoot=shoot, before=before, by=request.member, now=timezone.now())
    except actions.ShotsEditedMeanwhile as error:
        titles = ", ".join(f"“{title}”" for title in error.titles[:5])
        messages.error(
            request,
            _("Not put back: these shots were saved or removed since%(titles)s. The history of each says what it was.")
            % {"titles": f": {titles}" if titles else ""},
        )
    else:
        messages.success(
            request,
            ngettext("%(n)d shot is as it was.", "%(n)d shots are as they were.", number) % {"n": number},
        )
    return redirect("shot_list", code=code)


@require_POST
@for_roles(PLANNERS)
def shot_remove_many(request: MemberRequest, code: str) -> HttpResponse:
    """Ask once, then take the picked shots off the list."""
    shoot = shoot_of(request, code)
    seen = _seen(request.POST)
    try:
        number = actions.remove_many(shoot=shoot, seen=seen, by=request.member, now=timezone.now()) if seen else 0
    except actions.ShotsEditedMeanwhile as error:
        messages.error(request, _meanwhile(error))
        return redirect("shot_pick", code=code)
    messages.success(
        request, ngettext("%(n)d shot is off the list.", "%(n)d shots are off the list.", number) % {"n": number}
    )
    return redirect("shot_list", code=code)
