"""Pages of moods and their references, the mood sheet, and the client's door to it."""

from __future__ import annotations

from time import monotonic
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST, require_safe

from shoots.brief.models import Mood
from shoots.documents import adapters as files
from shoots.images import adapters as images
from shoots.links import actions as links
from shoots.links.access import by_link
from shoots.links.models import ClientLink, Purpose
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.mood import actions
from shoots.mood.forms import AddReferencesForm, ReferenceForm, ShareForm, TargetForm
from shoots.mood.models import MoodShare, MoodTarget, Reference
from shoots.mood.queries import pages
from shoots.mood.queries.paper import mood_paper, sheet_paper
from shoots.pages.answers import file_answer, shown_pdf
from shoots.shoot.models import Shoot
from shoots.values.names import safe_name

#: Seconds that one upload may be measured in before the rest is left to jobs.
WAIT_S = 1.0
#: Height of the field of pictures on the page of all moods, where two moods should be seen at once.
LOW_FIELD = 1050.0


def _shoot(request: MemberRequest, code: str) -> Shoot:
    visible = Shoot.objects.visible_to(request.member).select_related("client", "contact", "studio")
    shoot: Shoot = get_object_or_404(visible, code=code)
    return shoot


def _mood(shoot: Shoot, pk: int) -> Mood:
    mood: Mood = get_object_or_404(Mood.objects.filter(shoot=shoot).select_related("target", "shoot", "studio"), pk=pk)
    return mood


def _reference(shoot: Shoot, pk: int) -> Reference:
    rows = Reference.objects.filter(shoot=shoot).select_related("mood", "shoot", "studio")
    reference: Reference = get_object_or_404(rows, pk=pk)
    return reference


def _to_mood(reference: Reference, code: str) -> HttpResponse:
    if reference.mood_id is None:
        return redirect(reverse("mood_list", args=[code]) + "#loose")
    return redirect(reverse("mood_detail", args=[code, reference.mood_id]) + f"#reference-{reference.pk}")


@require_safe
@for_roles(EVERYBODY)
def mood_list(request: MemberRequest, code: str) -> HttpResponse:
    return _list(request, _shoot(request, code))


def _list(
    request: MemberRequest, shoot: Shoot, *, form: AddReferencesForm | None = None, share: ShareForm | None = None
) -> HttpResponse:
    contact = shoot.contact
    to = {"name": contact.name, "email": contact.email} if contact else {}
    page = pages.moods_page(shoot)
    shown = [mood_paper(view, height=LOW_FIELD) for view in page.moods]
    for mood in shown:
        for picture in mood["pictures"]:
            picture["url"] = reverse("reference_preview", args=[shoot.code, picture["pk"]])
    context = {
        "shoot": shoot,
        "page": page,
        "moods": list(zip(page.moods, shown, strict=True)),
        "form": form or AddReferencesForm(moods=Mood.objects.filter(shoot=shoot)),
        "share": share or ShareForm(initial=to, prefix="share"),
        "shares": [(each, _address(each.link)) for each in page.shares] if request.member.plans else [],
    }
    return render(request, "mood/mood_list.html", context, status=422 if form or share else 200)


def _address(link: ClientLink) -> str:
    return f"{settings.SITE_URL}{reverse('client_mood', args=[links.token_of(link)])}"


@require_safe
@for_roles(EVERYBODY)
def mood_detail(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot = _shoot(request, code)
    return _detail(request, shoot, _mood(shoot, pk))


def _detail(request: MemberRequest, shoot: Shoot, mood: Mood, form: AddReferencesForm | None = None) -> HttpResponse:
    context = {
        "shoot": shoot,
        "view": pages.mood_view(mood),
        "form": form or AddReferencesForm(moods=Mood.objects.filter(shoot=shoot), initial={"mood": mood.pk}),
    }
    return render(request, "mood/mood_detail.html", context, status=422 if form else 200)


@require_POST
@for_roles(PLANNERS)
def reference_add(request: MemberRequest, code: str) -> HttpResponse:
    """Take what is good, and say of each other file why it was not taken."""
    shoot = _shoot(request, code)
    form = AddReferencesForm(request.POST, request.FILES, moods=Mood.objects.filter(shoot=shoot))
    if not form.is_valid():
        return _refused(request, shoot, form)
    begun, taken, refused = monotonic(), 0, []
    for file in form.cleaned_data["files"]:
        why = _take(request, shoot, form, file, within_s=WAIT_S - (monotonic() - begun))
        if why:
            refused.append(why)
        else:
            taken += 1
    if taken:
        words = ngettext("%(n)d reference was added.", "%(n)d references were added.", taken)
        messages.success(request, words % {"n": taken})
    if refused:
        # What was good is kept; the rest is named by the field, with what was typed still there.
        for why in refused:
            form.add_error("files", why)
        return _refused(request, shoot, form)
    mood = form.cleaned_data["mood"]
    return redirect("mood_detail", code, mood.pk) if mood else redirect("mood_list", code)


def _refused(request: MemberRequest, shoot: Shoot, form: AddReferencesForm) -> HttpResponse:
    """Show the page that the files came from again."""
    chosen = request.POST.get("mood", "")
    mood = Mood.objects.filter(shoot=shoot, pk=chosen).select_related("target").first() if chosen.isdigit() else None
    return _detail(request, shoot, mood, form) if mood else _list(request, shoot, form=form)


def _take(request: MemberRequest, shoot: Shoot, form: AddReferencesForm, file: Any, *, within_s: float) -> str:
    """Add one file; return why it was not taken, or nothing."""
    names = {"name": file.name}
    if not file.size:
        return _("%(name)s is empty.") % names
    if file.size > settings.UPLOAD_LIMIT_MB * 1_000_000:
        return _("%(name)s is larger than %(limit)d MB.") % {**names, "limit": settings.UPLOAD_LIMIT_MB}
    try:
        actions.add_reference(
            shoot=shoot,
            mood=form.cleaned_data["mood"],
            file=file,
            name=safe_name(file.name),
            whose=form.cleaned_data["whose"],
            credit=form.cleaned_data["credit"],
            within_s=within_s,
            by=request.member,
            now=timezone.now(),
        )
    except images.NotAPicture:
        return _("%(name)s is no JPEG, PNG, TIFF or WebP that can be read, whatever its name says.") % names
    except images.TooLarge as error:
        return _("%(name)s has %(px)d pixels on its longer side; %(limit)d is the most. Export a smaller copy.") % {
            **names,
            "px": error.args[0],
            "limit": images.LONGEST_SIDE_PX,
        }
    except images.TooManyPixels as error:
        return _("%(name)s has %(mp)d megapixels; %(limit)d is the most. Export a smaller copy.") % {
            **names,
            "mp": error.args[0],
            "limit": actions.MOST_MEGAPIXELS,
        }
    except actions.AlreadyThere:
        return _("%(name)s is here already, the very same file.") % names
    return ""


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def reference_edit(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot = _shoot(request, code)
    reference = _reference(shoot, pk)
    form = ReferenceForm(request.POST or None, instance=reference, moods=Mood.objects.filter(shoot=shoot))
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_reference(
                reference=reference,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            form.refuse_edited_meanwhile()
        else:
            messages.success(request, _("Saved."))
            return _to_mood(reference, code)
    context = {"shoot": shoot, "reference": reference, "form": form}
    return render(request, "mood/reference_edit.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def reference_move(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    reference = _reference(_shoot(request, code), pk)
    actions.move_reference(reference=reference, step=-1 if request.POST.get("way") == "up" else 1)
    return _to_mood(reference, code)


@require_POST
@for_roles(PLANNERS)
def reference_remove(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    reference = _reference(_shoot(request, code), pk)
    mood = reference.mood_id
    actions.remove_reference(reference=reference, by=request.member, now=timezone.now())
    messages.success(request, _("%(name)s is gone, with its file.") % {"name": reference.name})
    return redirect("mood_detail", code, mood) if mood else redirect("mood_list", code)


@require_safe
@for_roles(EVERYBODY)
def reference_preview(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    return _preview(_reference(_shoot(request, code), pk))


def _preview(reference: Reference) -> HttpResponse:
    """Show the small copy, or 404 while it is being made."""
    if not reference.preview_key:
        raise Http404
    try:
        stored = files.read(reference.preview_key)
    except FileNotFoundError:
        raise Http404 from None
    answer = file_answer(file=stored, name=f"reference-{reference.pk}.jpeg", content_type="image/jpeg", inline=True)
    answer["Cache-Control"] = "private, max-age=86400, immutable"
    return answer  # type: ignore[return-value]


@require_http_methods(["GET", "POST"])
@for_roles(PLANNERS)
def mood_targets(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    shoot = _shoot(request, code)
    mood = _mood(shoot, pk)
    target = MoodTarget.objects.filter(mood=mood).first()
    is_own = target is not None
    if target is None:
        target = MoodTarget(mood=mood, studio=mood.studio)
        target.take(mood.brightness)
    form = TargetForm(request.POST or None, instance=target)
    if request.method == "POST" and form.is_valid():
        try:
            actions.set_targets(
                mood=mood,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except actions.EditedMeanwhile:
            stored = MoodTarget.objects.filter(mood=mood).values_list("version", flat=True).first()
            form.refuse_edited_meanwhile(current_version=stored or 0)
        else:
            messages.success(request, _("The targets of “%(name)s” were saved.") % {"name": mood.name})
            return redirect("mood_detail", code, pk)
    context = {"shoot": shoot, "mood": mood, "form": form, "is_own": is_own}
    return render(request, "mood/mood_targets.html", context, status=422 if form.is_bound else 200)


@require_POST
@for_roles(PLANNERS)
def mood_targets_clear(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    mood = _mood(_shoot(request, code), pk)
    actions.clear_targets(mood=mood, by=request.member, now=timezone.now())
    messages.success(request, _("“%(name)s” asks again for what its place says.") % {"name": mood.name})
    return redirect("mood_detail", code, pk)


@require_POST
@for_roles(PLANNERS)
def mood_share(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    form = ShareForm(request.POST, prefix="share")
    if not form.is_valid():
        return _list(request, shoot, share=form)
    email = form.cleaned_data["email"]
    actions.share_sheet(shoot=shoot, **form.cleaned_data, by=request.member, now=timezone.now())
    if email:
        messages.success(request, _("The link is on its way to %(to)s.") % {"to": email})
    else:
        messages.success(request, _("The link is made; hand it on."))
    return redirect(reverse("mood_list", args=[code]) + "#share")


@require_POST
@for_roles(PLANNERS)
def mood_share_close(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    rows = MoodShare.objects.filter(shoot=_shoot(request, code)).select_related("link", "shoot", "studio")
    actions.close_share(share=get_object_or_404(rows, pk=pk), by=request.member, now=timezone.now())
    messages.success(request, _("The link is closed."))
    return redirect(reverse("mood_list", args=[code]) + "#share")


@require_safe
@for_roles(EVERYBODY)
def mood_sheet(request: MemberRequest, code: str) -> HttpResponse:
    """Print the mood sheet as it is now."""
    return _pdf(_shoot(request, code))


def _pdf(shoot: Shoot) -> HttpResponse:
    content = sheet_paper(shoot, on=shoot.studio.local_date(timezone.now()))
    file = actions.printed_sheet(shoot=shoot, content=content)
    return shown_pdf(file=file, name=f"{safe_name(shoot.code)}-mood.pdf")


def _shared(link: ClientLink) -> MoodShare:
    share = pages.shared_by(link)
    if share is None:
        raise Http404
    return share


@require_GET
@by_link(Purpose.MOOD)
def client_mood(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    """Show the mood sheet as it is now. The studio's own look at it is not counted as theirs."""
    share = _shared(link)
    member = getattr(request, "member", None)
    if not member or member.studio_id != link.studio_id:
        links.note_opened(link=link, now=timezone.now())
    sheet = sheet_paper(share.shoot, on=share.studio.local_date(timezone.now()))
    for mood in sheet["moods"]:
        for picture in mood["pictures"]:
            picture["url"] = reverse("client_reference_preview", args=[token, picture["pk"]])
    return render(request, "mood/client_mood.html", {"studio": share.studio, "sheet": sheet, "token": token})


@require_safe
@by_link(Purpose.MOOD)
def client_mood_pdf(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    return _pdf(_shared(link).shoot)


@require_safe
@by_link(Purpose.MOOD)
def client_reference_preview(request: HttpRequest, token: str, pk: int, *, link: ClientLink) -> HttpResponse:
    # Only what the sheet shows: a reference that belongs to no mood yet is the studio's business.
    shown = Reference.objects.filter(shoot=_shared(link).shoot_id).exclude(mood=None)
    return _preview(get_object_or_404(shown, pk=pk))
