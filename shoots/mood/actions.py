"""References come in, are measured, sorted and removed; targets are set; the mood sheet is shared."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime, timedelta
from functools import partial
from io import BytesIO
from typing import IO, Any

from django.conf import settings
from django.db import IntegrityError, transaction
from django.db.models import Max
from django.utils.translation import gettext as _

from shoots.brief.models import Mood
from shoots.documents import adapters as files
from shoots.images import adapters as images
from shoots.links import actions as links
from shoots.links.models import Purpose
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.mood.core.lab import lab_of_srgb
from shoots.mood.core.measure import MEASURED_PX, WAY, Measured, as_kept, measure
from shoots.mood.models import FOLDERS, PRINT_FOLDER, MoodPrint, MoodShare, MoodTarget, Reference
from shoots.outbox import actions as outbox
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail

LINK_DAYS = 90
TEMPLATE = "documents/mood_sheet.html"
#: Stands for the day where two sheets are held against each other.
ANY_DAY = "2000-01-01"
PREVIEW_PX = 1200
MOST_MEGAPIXELS = 100
#: Seconds a megapixel takes to decode, measured by bench/mood.py and rounded up, to tell whether a request may wait.
SECONDS_A_MEGAPIXEL = {"JPEG": 0.015, "TIFF": 0.02, "PNG": 0.04, "WEBP": 0.04}
SECONDS_AT_LEAST = 0.1
#: A progressive JPEG or an interlaced PNG is unpacked as a whole first.
INTERLACED_TIMES = 3


class AlreadyThere(Exception):
    """Raised when the very same file is among the shoot's references already."""


def add_reference(
    *,
    shoot: Shoot,
    mood: Mood | None,
    file: IO[bytes],
    name: str,
    whose: str,
    credit: str = "",
    note: str = "",
    within_s: float,
    by: Member,
    now: datetime,
) -> Reference:
    """Keep a picture as a reference behind the others, measured at once if that takes no longer than `within_s`.

    Otherwise its header is all that is looked at now, and a job does the rest. Files are stored before the
    transaction; if the row can't be written, they are removed. Raises `images.NotAPicture`, `images.TooLarge`,
    `images.TooManyPixels` or `AlreadyThere`; then nothing was kept.
    """
    file.seek(0)
    data = file.read()
    head = images.header(data, taken=images.CONTENT_TYPES, most_megapixels=MOST_MEGAPIXELS)
    digest = hashlib.sha256(data).hexdigest()
    if Reference.objects.filter(shoot=shoot, sha256=digest).exists():
        raise AlreadyThere
    seen, found = look_at(data) if expected_seconds(head) <= within_s else (None, None)
    keys = [files.store(data, folder=FOLDERS[0], suffix=f".{head.format.lower()}")]
    try:
        if seen is not None:
            keys.append(files.store(seen.preview, folder=FOLDERS[1], suffix=".jpeg"))
        with transaction.atomic():
            last = Reference.objects.filter(shoot=shoot, mood=mood).aggregate(last=Max("position"))["last"]
            reference = Reference.objects.create(
                studio=shoot.studio,
                shoot=shoot,
                mood=mood,
                whose=whose,
                credit=credit,
                note=note,
                position=0 if last is None else last + 1,
                name=name,
                storage_key=keys[0],
                preview_key=keys[1] if seen is not None else "",
                format=head.format,
                width_px=head.width_px,
                height_px=head.height_px,
                frames=head.frames,
                size_bytes=len(data),
                sha256=digest,
                measured=as_kept(found) if found is not None else None,
                uploaded_by=by,
            )
            trail.record(reference, "added", by=by, shoot_code=shoot.code, at=now)
            if found is None:
                _ask_for_measuring(reference, now=now)
    except Exception as error:
        for key in keys:
            files.discard(key)
        if isinstance(error, IntegrityError):  # a second window sent the same file at the same moment
            raise AlreadyThere from None
        raise
    return reference


def expected_seconds(head: images.Header) -> float:
    """Return about how long decoding and measuring take. No query."""
    times = INTERLACED_TIMES if head.is_interlaced else 1
    return SECONDS_AT_LEAST + head.megapixels * SECONDS_A_MEGAPIXEL[head.format] * times


def look_at(data: bytes, *, preview_px: int = PREVIEW_PX) -> tuple[images.Seen, Measured]:
    """Decode a picture once, for its small copy and its figures. Raises `images.NotAPicture`. No query."""
    seen = images.look_at(data, preview_px=preview_px, measured_px=MEASURED_PX)
    lab = seen.lab
    if lab is None:
        if seen.srgb is None:
            raise images.NotAPicture
        lab = lab_of_srgb(seen.srgb)
    if seen.opaque is not None and not seen.opaque.any():
        raise images.NotAPicture  # transparent all over: there is nothing to see
    return seen, measure(lab, seen.opaque)


def _ask_for_measuring(reference: Reference, *, now: datetime) -> None:
    outbox.enqueue(
        task="mood.measure",
        key=f"reference:{reference.pk}:{WAY}",
        payload={"reference_id": reference.pk},
        studio=reference.studio,
        now=now,
    )


def measure_reference(*, reference_id: int) -> None:
    """Measure a reference that isn't yet, or make a note that its file is damaged. Safe to repeat."""
    reference = Reference.objects.filter(pk=reference_id, problem=False).first()
    if reference is None or (reference.found is not None and reference.preview_key):
        return
    with files.read(reference.storage_key) as stored:
        data = stored.read()
    rows = Reference.objects.filter(pk=reference_id, preview_key=reference.preview_key)
    try:
        seen, found = look_at(data)
    except images.NotAPicture:
        rows.update(problem=True)
        return
    key = files.store(seen.preview, folder=FOLDERS[1], suffix=".jpeg")
    if rows.update(preview_key=key, measured=as_kept(found)) == 0:  # removed meanwhile, or another worker was faster
        files.discard(key)
    elif reference.preview_key:
        files.discard(reference.preview_key)


@transaction.atomic
def edit_reference(
    *, reference: Reference, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime
) -> None:
    """Change whose a reference is, its notes or its mood; in another mood it goes behind the others there.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since; nothing is written.
    """
    before = reference.mood_id
    trail.edit(reference, changes=changes, seen_version=seen_version, by=by, shoot_code=reference.shoot.code, at=now)
    if reference.mood_id != before:
        others = Reference.objects.filter(shoot=reference.shoot_id, mood=reference.mood_id).exclude(pk=reference.pk)
        last = others.aggregate(last=Max("position"))["last"]
        Reference.objects.filter(pk=reference.pk).update(position=0 if last is None else last + 1)


@transaction.atomic
def move_reference(*, reference: Reference, step: int) -> None:
    """Move a reference by so many places within its mood, minus towards the front; at either end it stays."""
    order = list(Reference.objects.filter(shoot=reference.shoot_id, mood=reference.mood_id))
    here = next(n for n, other in enumerate(order) if other.pk == reference.pk)
    order.insert(min(max(here + step, 0), len(order) - 1), order.pop(here))
    for position, other in enumerate(order):
        other.position = position
    Reference.objects.bulk_update(order, ["position"])


@transaction.atomic
def remove_reference(*, reference: Reference, by: Member, now: datetime) -> None:
    """Remove a reference with its files."""
    trail.record(
        reference, "removed", by=by, shoot_code=reference.shoot.code, changes={"name": (reference.name, "")}, at=now
    )
    for key in (reference.storage_key, reference.preview_key):
        if key:
            transaction.on_commit(partial(files.discard, key))
    reference.delete()


@transaction.atomic
def set_targets(
    *, mood: Mood, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> MoodTarget:
    """Write what a mood asks of pictures. `seen_version` is 0 for one who saw only what its place says.

    Raises
    ------
    EditedMeanwhile
        If somebody saved targets since; nothing is written.
    """
    target, is_new = MoodTarget.objects.get_or_create(mood=mood, defaults={"studio": mood.studio})
    if is_new and seen_version == 0:
        seen_version = target.version
    trail.edit(target, changes=changes, seen_version=seen_version, by=by, shoot_code=mood.shoot.code, at=now)
    return target


@transaction.atomic
def clear_targets(*, mood: Mood, by: Member, now: datetime) -> None:
    """Leave it to the mood's place again what it asks of pictures. Safe to repeat."""
    target = MoodTarget.objects.filter(mood=mood).first()
    if target is not None:
        trail.record(target, "removed", by=by, shoot_code=mood.shoot.code, at=now)
        target.delete()


@transaction.atomic
def share_sheet(
    *, shoot: Shoot, email: str = "", name: str = "", message: str = "", by: Member, now: datetime
) -> MoodShare:
    """Open the shoot's mood sheet by a link for 90 days, and mail it if an address is given.

    Not safe to repeat: each call makes a link of its own, so that one can be closed without the others.
    """
    link = links.make_link(
        studio=shoot.studio, purpose=Purpose.MOOD, expires_at=now + timedelta(days=LINK_DAYS), now=now
    )
    share = MoodShare.objects.create(studio=shoot.studio, shoot=shoot, link=link, sent_to=email)
    if email:
        outbox.queue_mail(
            studio=shoot.studio,
            key=f"mood:{share.pk}",
            to=email,
            to_name=name,
            reply_to=shoot.studio.email,
            subject=_("Mood sheet: %(title)s") % {"title": shoot.title},
            text=_(
                "Hello %(name)s,\n\n%(message)s\n\n%(link)s\n\nThe link is open until %(until)s. The pictures on it "
                "are for reference only: please don't publish or pass them on.\n\n%(studio)s\n"
            )
            % {
                "name": name,
                "message": message.strip() or _("this is what the pictures are to feel like:"),
                "link": f"{settings.SITE_URL}/mood/{links.mail_piece(link)}/",
                "until": shoot.studio.local_date(now + timedelta(days=LINK_DAYS)).isoformat(),
                "studio": shoot.studio.name,
            },
            now=now,
        )
    trail.record(share, "sent", by=by, shoot_code=shoot.code, changes={"to": ("", email)}, at=now)
    return share


@transaction.atomic
def close_share(*, share: MoodShare, by: Member, now: datetime) -> None:
    """Close a link to the mood sheet. Safe to repeat."""
    if share.link.revoked_at is None:
        links.revoke(link=share.link, now=now)
        trail.record(share, "closed", by=by, shoot_code=share.shoot.code, at=now)


def printed_sheet(*, shoot: Shoot, content: dict[str, Any]) -> IO[bytes]:
    """Return the PDF of the mood sheet, opened; the caller closes it. It is made once, and anew where it changed.

    `content` is that of `queries.paper.sheet_paper`. Its day is no change: the sheet keeps the day on which it began
    to say what it says. Must not run inside a transaction. Safe to repeat.
    """
    source = files.sha256_of_source(files.html_of(TEMPLATE, {**content, "day": ANY_DAY}))
    printed = MoodPrint.objects.filter(shoot=shoot, source_sha256=source).first()
    if printed is not None:
        with suppress(FileNotFoundError):  # another request has just put a newer one in its place
            stored: IO[bytes] = files.read(printed.storage_key)
            return stored
    made = files.pdf_of(files.html_of(TEMPLATE, content))
    key = files.store(made.data, folder=PRINT_FOLDER, suffix=".pdf")
    with transaction.atomic():
        before = MoodPrint.objects.select_for_update().filter(shoot=shoot).first()
        MoodPrint.objects.update_or_create(
            shoot=shoot, defaults={"studio": shoot.studio, "source_sha256": source, "storage_key": key}
        )
        if before is not None:
            transaction.on_commit(partial(files.discard, before.storage_key))
    return BytesIO(made.data)


def sweep(*, now: datetime) -> int:
    """Remove files whose reference or sheet is gone with its shoot, and ask for what isn't measured in today's way.

    Files of the last hour are left alone: their row may be about to be written. Returns how many were removed.
    """
    known = set(Reference.objects.values_list("storage_key", flat=True))
    known |= set(Reference.objects.exclude(preview_key="").values_list("preview_key", flat=True))
    known |= set(MoodPrint.objects.values_list("storage_key", flat=True))
    removed = 0
    for folder in FOLDERS:
        for key in files.stored_before(folder, before=now - timedelta(hours=1)):
            if key not in known:
                files.discard(key)
                removed += 1
    unmeasured = Reference.objects.filter(problem=False).exclude(measured__way=WAY).select_related("studio")
    with transaction.atomic():
        for reference in unmeasured:
            _ask_for_measuring(reference, now=now)
    return removed


__all__ = [
    "AlreadyThere",
    "EditedMeanwhile",
    "add_reference",
    "clear_targets",
    "close_share",
    "edit_reference",
    "expected_seconds",
    "look_at",
    "measure_reference",
    "move_reference",
    "printed_sheet",
    "remove_reference",
    "set_targets",
    "share_sheet",
    "sweep",
]
