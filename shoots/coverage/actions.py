"""What happens to promises: the studio has its own word about them, and missing shots are taken up."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from shoots.brief.models import Mood
from shoots.coverage.core.said import Kind
from shoots.coverage.models import KIND_LABELS, Promise
from shoots.coverage.queries.page import missing_page
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.shotlist.actions import shots as shotlist
from shoots.shotlist.core.coverage import Dimension, Missing
from shoots.shotlist.models import Framing, Shot
from shoots.trail import actions as trail

__all__ = [
    "AlreadySettled",
    "EditedMeanwhile",
    "edit_promise",
    "leave_out",
    "state_promise",
    "take_back",
    "take_up_missing",
]


class AlreadySettled(Exception):
    """Raised when the studio has had its word about a promise already, as in another window; nothing is written."""


def state_promise(
    *, shoot: Shoot, fields: Mapping[str, Any], instead_of: str = "", by: Member | None, now: datetime
) -> Promise:
    """Write a promise down, of the studio's own or in the place of one that was read. Each call adds one.

    Raises
    ------
    AlreadySettled
        If there is a word about that promise already.
    """
    try:
        with transaction.atomic():
            made = Promise.objects.create(studio=shoot.studio, shoot=shoot, instead_of=instead_of, **fields)
            changes = {"least": (None, made.least)}
            trail.record(made, "promise_stated", by=by, shoot_code=shoot.code, changes=changes, at=now)
    except IntegrityError as error:
        raise AlreadySettled from error
    return made


@transaction.atomic
def edit_promise(
    *, promise: Promise, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change one of the studio's promises; `EditedMeanwhile` if somebody saved it since it was opened."""
    trail.edit(promise, changes=changes, seen_version=seen_version, by=by, shoot_code=promise.shoot.code, at=now)


@transaction.atomic
def leave_out(*, shoot: Shoot, key: str, by: Member | None, now: datetime) -> Promise:
    """Write down that something that was read is not promised after all. Safe to repeat."""
    kept, is_new = Promise.objects.get_or_create(
        shoot=shoot, instead_of=key, defaults={"studio": shoot.studio, "is_left_out": True}
    )
    if not is_new and not kept.is_left_out:
        trail.edit(kept, changes={"is_left_out": True}, seen_version=kept.version, by=by, shoot_code=shoot.code, at=now)
    elif is_new:
        trail.record(kept, "promise_left_out", by=by, shoot_code=shoot.code, at=now)
    return kept


@transaction.atomic
def take_back(*, promise: Promise, by: Member | None, now: datetime) -> None:
    """Take the studio's word back: what the papers say counts again, or nothing does."""
    trail.record(
        promise,
        "promise_taken_back",
        by=by,
        shoot_code=promise.shoot.code,
        changes={"because": (promise.because, "")},
        at=now,
    )
    promise.delete()


@transaction.atomic
def take_up_missing(*, shoot: Shoot, titles: Mapping[str, str], by: Member | None, now: datetime) -> tuple[Shot, ...]:
    """Add the drafted shots of these marks under these titles; each says in its note which promise it keeps.

    A mark that stands for no hole any longer, as after a double click, adds nothing.
    """
    moods = {str(mood.pk): mood for mood in Mood.objects.filter(shoot=shoot)}
    made = []
    for draft in missing_page(shoot).drafts:
        if draft.mark not in titles:
            continue
        why = _("Drafted because this was promised: %(why)s") % {"why": "; ".join(draft.why)}
        fields = _fields(draft.wanted, moods)
        title = titles[draft.mark].strip()[:160] or draft.title
        made.append(shotlist.add_shot(shoot=shoot, by=by, now=now, title=title, note=why, **fields))
    return tuple(made)


def _fields(wanted: Missing, moods: Mapping[str, Mood]) -> dict[str, Any]:
    wants = wanted.wants
    kind = next(iter(wants.get(Dimension.KIND, ())), "")
    return {
        "purpose": str(KIND_LABELS[Kind(kind)]) if kind else "",
        "framing": Framing.DETAIL if kind == Kind.DETAIL else Framing.FULL,
        "products": list(wants.get(Dimension.PRODUCT, ())),
        "subjects": list(wants.get(Dimension.PERSON, ())),
        "outfits": list(wants.get(Dimension.OUTFIT, ())),
        "shapes": list(wants.get(Dimension.SHAPE, ())),
        "placements": list(wants.get(Dimension.PLACEMENT, ())),
        "mood": next((moods[key] for key in wants.get(Dimension.MOOD, ()) if key in moods), None),
    }
