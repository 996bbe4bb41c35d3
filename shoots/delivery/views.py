"""Pages of finished pictures, and the client's door to them."""

from __future__ import annotations

from functools import partial
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_POST, require_safe

from shoots.delivery import actions, adapters, queries
from shoots.delivery.core.naming import without_doubles
from shoots.delivery.forms import DeliveryForm, UploadForm
from shoots.delivery.models import Delivery, Picture
from shoots.documents import adapters as files
from shoots.images import adapters as images
from shoots.links import actions as links
from shoots.links.access import by_link
from shoots.links.models import ClientLink, Purpose
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import EVERYBODY, PLANNERS
from shoots.pages.answers import file_answer
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot


def _shoot(request: MemberRequest, code: str) -> Shoot:
    return get_object_or_404(Shoot.objects.visible_to(request.member).select_related("client", "contact"), code=code)


def _picture(request: MemberRequest, code: str, pk: int) -> Picture:
    return get_object_or_404(
        Picture.objects.filter(shoot=_shoot(request, code), withdrawn_at=None).select_related("shoot"), pk=pk
    )


@for_roles(EVERYBODY)
@require_safe
def picture_list(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    return render(
        request,
        "delivery/picture_list.html",
        {"shoot": shoot, "page": queries.pictures_page(shoot), "form": UploadForm()},
    )


@for_roles(PLANNERS)
@require_POST
def picture_add(request: MemberRequest, code: str) -> HttpResponse:
    """Take what is good, and say of each other file why it was not taken."""
    shoot = _shoot(request, code)
    form = UploadForm(request.POST, request.FILES)
    if not form.is_valid():
        page = queries.pictures_page(shoot)
        return render(request, "delivery/picture_list.html", {"shoot": shoot, "page": page, "form": form}, status=422)
    taken = 0
    for file in form.cleaned_data["files"]:
        refused = _take(request, shoot, file)
        if refused:
            messages.error(request, refused)
        else:
            taken += 1
    if taken:
        messages.success(
            request, ngettext("%(n)d picture was added.", "%(n)d pictures were added.", taken) % {"n": taken}
        )
    return redirect("picture_list", code)


def _take(request: MemberRequest, shoot: Shoot, file: Any) -> str:
    """Add one file; return why it was not taken, or nothing."""
    names = {"name": file.name}
    if not file.size:
        return _("%(name)s is empty.") % names
    if file.size > settings.UPLOAD_LIMIT_MB * 1_000_000:
        return _("%(name)s is larger than %(limit)d MB.") % {**names, "limit": settings.UPLOAD_LIMIT_MB}
    try:
        actions.add_picture(shoot=shoot, file=file, name=file.name, by=request.member, now=timezone.now())
    except images.NotAPicture:
        return _("%(name)s is not a JPEG, PNG or TIFF that can be read. It may be damaged: export it again.") % names
    except images.TooLarge as error:
        return _("%(name)s has %(px)d pixels on its longer side; %(limit)d is the most.") % {
            **names,
            "px": error.args[0],
            "limit": images.LONGEST_SIDE_PX,
        }
    except actions.AlreadyThere:
        return _("%(name)s is here already, the very same file.") % names
    return ""


@for_roles(EVERYBODY)
@require_safe
def picture_moods(request: MemberRequest, code: str) -> HttpResponse:
    """Show every picture against the mood that was agreed."""
    shoot = _shoot(request, code)
    page = queries.pictures_against_moods(shoot)
    return render(request, "delivery/picture_moods.html", {"shoot": shoot, "page": page})


@for_roles(PLANNERS)
@require_POST
def picture_measure(request: MemberRequest, code: str) -> HttpResponse:
    """Ask for what isn't measured yet."""
    count = actions.measure_pictures(shoot=_shoot(request, code), now=timezone.now())
    messages.success(
        request,
        ngettext("%(n)d picture is being measured.", "%(n)d pictures are being measured.", count) % {"n": count},
    )
    return redirect("picture_moods", code)


@for_roles(EVERYBODY)
@require_safe
def picture_preview(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    return _preview_answer(_picture(request, code, pk))


@for_roles(EVERYBODY)
@require_safe
def picture_file(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    return _file_answer(_picture(request, code, pk))


@for_roles(PLANNERS)
@require_POST
def picture_tie(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    picture = _picture(request, code, pk)
    chosen = request.POST.get("shot", "")
    shot = get_object_or_404(Shot, shoot=picture.shoot, pk=chosen) if chosen.isdigit() else None
    actions.tie_picture(picture=picture, shot=shot, by=request.member, now=timezone.now())
    return redirect("picture_list", code)


@for_roles(PLANNERS)
@require_POST
def picture_withdraw(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    picture = _picture(request, code, pk)
    actions.withdraw_picture(picture=picture, by=request.member, now=timezone.now())
    messages.success(request, _("%(name)s was taken out, here and from every link.") % {"name": picture.name})
    return redirect("picture_list", code)


@for_roles(PLANNERS)
def delivery_new(request: MemberRequest, code: str) -> HttpResponse:
    shoot = _shoot(request, code)
    choosable = Picture.objects.filter(shoot=shoot, withdrawn_at=None).order_by("name", "pk")
    contact = shoot.contact
    form = DeliveryForm(
        request.POST or None,
        pictures=choosable,
        initial={
            "title": shoot.title,
            "to_name": contact.name if contact else "",
            "to": contact.email if contact else "",
            "pictures": [picture.pk for picture in choosable],
        },
    )
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        delivery = actions.send_delivery(
            shoot=shoot,
            title=data["title"],
            message=data["message"],
            pictures=list(data["pictures"]),
            to=data["to"],
            to_name=data["to_name"],
            by=request.member,
            now=timezone.now(),
        )
        messages.success(request, _("The link is on its way to %(to)s.") % {"to": data["to"]})
        return redirect("delivery_detail", code, delivery.pk)
    chosen = {str(value) for value in (form["pictures"].value() or ())}
    pictures = [
        {"picture": picture, "chosen": str(picture.pk) in chosen} for picture in queries.sendable_pictures(shoot)
    ]
    return render(
        request,
        "delivery/delivery_form.html",
        {"shoot": shoot, "form": form, "pictures": pictures},
        status=422 if form.is_bound else 200,
    )


def _delivery(request: MemberRequest, code: str, pk: int) -> Delivery:
    return get_object_or_404(
        Delivery.objects.filter(shoot=_shoot(request, code)).select_related("link", "shoot"), pk=pk
    )


@for_roles(PLANNERS)
@require_safe
def delivery_detail(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    delivery = _delivery(request, code, pk)
    address = f"{settings.SITE_URL}/pictures/{links.token_of(delivery.link)}/" if delivery.link else ""
    return render(
        request,
        "delivery/delivery_detail.html",
        {"shoot": _shoot(request, code), "page": queries.delivery_page(delivery), "address": address},
    )


@for_roles(PLANNERS)
@require_POST
def delivery_close(request: MemberRequest, code: str, pk: int) -> HttpResponse:
    actions.close_delivery(delivery=_delivery(request, code, pk), by=request.member, now=timezone.now())
    messages.success(request, _("The link is closed."))
    return redirect("delivery_detail", code, pk)


def _by_link(link: ClientLink) -> Delivery:
    return get_object_or_404(Delivery.objects.select_related("shoot", "studio"), link=link)


def _delivered(link: ClientLink, pk: int) -> tuple[Delivery, Picture]:
    delivery = _by_link(link)
    return delivery, get_object_or_404(delivery.pictures.filter(withdrawn_at=None), pk=pk)


@by_link(Purpose.DELIVERY)
@require_safe
def client_delivery(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    delivery = _by_link(link)
    links.note_opened(link=link, now=timezone.now())
    pictures = queries.delivered_pictures(delivery)
    return render(
        request,
        "delivery/client_delivery.html",
        {
            "delivery": delivery,
            "studio": delivery.studio,
            "pictures": pictures,
            "token": token,
            "link": link,
            "total_bytes": sum(picture.size_bytes for picture in pictures),
        },
    )


@by_link(Purpose.DELIVERY)
@require_safe
def client_preview(request: HttpRequest, token: str, pk: int, *, link: ClientLink) -> HttpResponse:
    return _preview_answer(_delivered(link, pk)[1])


@by_link(Purpose.DELIVERY)
@require_safe
def client_picture(request: HttpRequest, token: str, pk: int, *, link: ClientLink) -> HttpResponse:
    delivery, picture = _delivered(link, pk)
    answer = _file_answer(picture)
    if request.method == "GET":
        actions.note_fetch(delivery=delivery, picture=picture, now=timezone.now())
    return answer


@by_link(Purpose.DELIVERY)
@require_GET
def client_archive(request: HttpRequest, token: str, *, link: ClientLink) -> HttpResponse:
    delivery = _by_link(link)
    pictures = queries.delivered_pictures(delivery)
    if not pictures:
        raise Http404
    now = timezone.now()
    names = without_doubles(picture.name for picture in pictures)
    packed = adapters.archive(
        (name, partial(files.read, picture.storage_key), now) for name, picture in zip(names, pictures, strict=True)
    )
    actions.note_fetch(delivery=delivery, picture=None, now=now)
    answer = StreamingHttpResponse(packed, content_type="application/zip")
    answer["Content-Disposition"] = content_disposition_header(True, f"{delivery.shoot.code}-pictures.zip")
    return answer  # type: ignore[return-value]


def _preview_answer(picture: Picture) -> HttpResponse:
    """Show the small copy, or 404 while it is being made."""
    if not picture.preview_key:
        raise Http404
    answer = file_answer(
        file=files.read(picture.preview_key),
        name=f"preview-{picture.pk}.jpeg",
        content_type="image/jpeg",
        inline=True,
    )
    answer["Cache-Control"] = "private, max-age=86400, immutable"
    return answer  # type: ignore[return-value]


def _file_answer(picture: Picture) -> HttpResponse:
    try:
        stored = files.read(picture.storage_key)
    except FileNotFoundError:
        raise Http404 from None
    return file_answer(  # type: ignore[return-value]
        file=stored, name=picture.name, content_type=images.CONTENT_TYPES[picture.format]
    )
