"""Finished pictures come in, are tied to shots, and go out to the client."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import IO

from django.conf import settings
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from shoots.delivery.core.naming import shot_number_in
from shoots.delivery.models import Delivery, Fetch, Picture
from shoots.documents import adapters as files
from shoots.images import adapters as images
from shoots.links import actions as links
from shoots.links.models import Purpose
from shoots.members.models import Member
from shoots.mood import actions as moods
from shoots.mood.core.measure import WAY, as_kept
from shoots.outbox import actions as outbox
from shoots.rights import actions as rights
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot
from shoots.trail import actions as trail
from shoots.values.names import safe_name

LINK_DAYS = 90


class AlreadyThere(Exception):
    """Raised when the very same file is among the shoot's pictures already."""


class NothingChosen(Exception):
    """Raised when a delivery would hold no picture."""


class AlreadySent(Exception):
    """Raised when a delivery went out before."""


def add_picture(*, shoot: Shoot, file: IO[bytes], name: str, by: Member, now: datetime) -> Picture:
    """Keep one finished picture and tie it to the shot whose number its name begins with.

    The file is checked and stored before the transaction; if the row can't be written, the file is removed.
    Raises `images.NotAPicture`, `images.TooLarge` or `AlreadyThere`; then nothing was kept.
    """
    file.seek(0)
    data = file.read()
    found = images.probe(data)
    if Picture.objects.filter(shoot=shoot, sha256=found.sha256, withdrawn_at=None).exists():
        raise AlreadyThere
    key = files.store(data, folder="pictures", suffix=f".{found.format.lower()}")
    try:
        with transaction.atomic():
            # A picture that was withdrawn and comes again takes its old row's place.
            Picture.objects.filter(shoot=shoot, sha256=found.sha256).exclude(withdrawn_at=None).delete()
            picture = Picture.objects.create(
                studio=shoot.studio,
                shoot=shoot,
                shot=_shot_by_number(shoot, shot_number_in(name)),
                name=safe_name(name),
                storage_key=key,
                format=found.format,
                width_px=found.width_px,
                height_px=found.height_px,
                size_bytes=len(data),
                sha256=found.sha256,
                uploaded_by=by,
            )
            trail.record(picture, "added", by=by, shoot_code=shoot.code, at=now)
            outbox.enqueue(
                task="delivery.make_preview",
                key=f"preview:{picture.pk}",
                payload={"picture_id": picture.pk},
                studio=shoot.studio,
                now=now,
            )
    except IntegrityError:  # a second window sent the same file at the same moment
        files.discard(key)
        raise AlreadyThere from None
    except Exception:
        files.discard(key)
        raise
    return picture


def _shot_by_number(shoot: Shoot, number: int | None) -> Shot | None:
    """Return the shot that stands at a number of the list, counted from 1 as the list shows it."""
    if number is None:
        return None
    return Shot.objects.filter(shoot=shoot).order_by("position", "pk")[number - 1 : number].first()


def make_preview(*, picture_id: int) -> None:
    """Make a picture's small copy and measure it, unless both are there; the first finished one wins."""
    picture = Picture.objects.filter(pk=picture_id).first()
    if picture is None or (picture.preview_key and picture.found is not None):
        return
    with files.read(picture.storage_key) as stored:
        data = stored.read()
    try:
        seen, found = moods.look_at(data, preview_px=images.PREVIEW_PX)
        preview, measured = seen.preview, as_kept(found)
    except images.NotAPicture:  # transparent all over: it can be shown, but there is nothing to measure
        preview, measured = images.preview(data), None
    Picture.objects.filter(pk=picture_id).update(measured=measured)
    if picture.preview_key:
        return
    key = files.store(preview, folder="previews", suffix=".jpeg")
    if Picture.objects.filter(pk=picture_id, preview_key="").update(preview_key=key) == 0:
        files.discard(key)


@transaction.atomic
def measure_pictures(*, shoot: Shoot, now: datetime) -> int:
    """Ask for what isn't measured yet, as pictures of an older release; return how many. Safe to repeat."""
    waiting = [picture for picture in Picture.objects.filter(shoot=shoot, withdrawn_at=None) if picture.found is None]
    for picture in waiting:
        outbox.enqueue(
            task="delivery.make_preview",
            key=f"measure:{picture.pk}:{WAY}",
            payload={"picture_id": picture.pk},
            studio=shoot.studio,
            now=now,
        )
    return len(waiting)


@transaction.atomic
def tie_picture(*, picture: Picture, shot: Shot | None, by: Member, now: datetime) -> None:
    """Say which shot a picture fulfils, or that it is an extra one. Safe to repeat."""
    if picture.shot_id == (shot.pk if shot else None):
        return
    before = picture.shot
    Picture.objects.filter(pk=picture.pk).update(shot=shot)
    trail.record(
        picture,
        "tied",
        by=by,
        shoot_code=picture.shoot.code,
        changes={"shot": (str(before), str(shot))},
        at=now,
    )


@transaction.atomic
def withdraw_picture(*, picture: Picture, by: Member, now: datetime) -> None:
    """Take a picture out of the list and of every link. Its file stays for the record. Safe to repeat."""
    if Picture.objects.filter(pk=picture.pk, withdrawn_at=None).update(withdrawn_at=now):
        trail.record(picture, "withdrawn", by=by, shoot_code=picture.shoot.code, at=now)


@transaction.atomic
def send_delivery(
    *,
    shoot: Shoot,
    title: str,
    message: str,
    pictures: Sequence[Picture],
    to: str,
    to_name: str,
    by: Member,
    now: datetime,
) -> Delivery:
    """Hand pictures to the client by a link that is open for 90 days, and mail it.

    The first delivery is the day on which licences that begin with it begin. Raises NothingChosen.
    """
    if not pictures:
        raise NothingChosen
    link = links.make_link(
        studio=shoot.studio, purpose=Purpose.DELIVERY, expires_at=now + timedelta(days=LINK_DAYS), now=now
    )
    delivery = Delivery.objects.create(
        studio=shoot.studio, shoot=shoot, title=title, message=message, link=link, sent_at=now, sent_to=to
    )
    delivery.pictures.set(pictures)
    until = shoot.studio.local_date(link.expires_at)  # type: ignore[union-attr]
    outbox.queue_mail(
        studio=shoot.studio,
        key=f"delivery:{delivery.pk}",
        to=to,
        to_name=to_name,
        reply_to=shoot.studio.email,
        subject=_("Your pictures: %(title)s") % {"title": title},
        text=_(
            "Hello %(name)s,\n\n%(message)s\n\nAll pictures, one by one or together:\n%(link)s\n\n"
            "The link is open until %(until)s.\n\n%(studio)s\n"
        )
        % {
            "name": to_name or "",
            "message": message.strip() or _("your pictures are ready."),
            "link": f"{settings.SITE_URL}/pictures/{links.mail_piece(link)}/",
            "until": until.isoformat(),
            "studio": shoot.studio.name,
        },
        now=now,
    )
    local_day = shoot.studio.local_date(now)
    rights.start_licences(shoot=shoot, first_delivery_date=local_day, now=now)
    trail.record(
        delivery,
        "sent",
        by=by,
        shoot_code=shoot.code,
        changes={"pictures": (0, len(pictures)), "to": ("", to)},
        at=now,
    )
    return delivery


@transaction.atomic
def close_delivery(*, delivery: Delivery, by: Member, now: datetime) -> None:
    """Close a delivery's link; what was fetched stays on record. Safe to repeat."""
    if delivery.link is not None and delivery.link.revoked_at is None:
        links.revoke(link=delivery.link, now=now)
        trail.record(delivery, "closed", by=by, shoot_code=delivery.shoot.code, at=now)


def note_fetch(*, delivery: Delivery, picture: Picture | None, now: datetime) -> None:
    """Remember that the client fetched one picture, or all of them."""
    Fetch.objects.create(delivery=delivery, picture=picture, at=now)
