"""What a version of a brief freezes; pages, the PDF and the client read the same."""

from __future__ import annotations

import json
from dataclasses import asdict
from datetime import date
from typing import Any

from django.core.serializers.json import DjangoJSONEncoder
from django.utils.translation import gettext as _

from shoots.agreement.core.agreed import Agreed, AgreedMood, AgreedShot, AgreedWork, fingerprint, read_agreed
from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.words import choice_words, difference_lines
from shoots.brief.models import Mood
from shoots.brief.queries import brief_of, placement_labels, term_words, territory_words
from shoots.documents.queries import studio_card
from shoots.people.queries import party_card
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Priority, Shot

NO_SHAPE, MIDDLE = "3:2", 50


def _lines(text: str) -> tuple[str, ...]:
    return tuple(line.strip() for line in text.splitlines() if line.strip())


def agreed_now(shoot: Shoot) -> Agreed:
    """Return what the brief, its moods and the shot list say today. Eight queries, however many shots there are."""
    brief = brief_of(shoot)
    shots = Shot.objects.filter(shoot=shoot).with_parts()
    return Agreed(
        purpose=brief.purpose.strip(),
        audience=brief.audience.strip(),
        wished_dates=brief.wished_dates.strip(),
        placements=tuple(brief.placements),
        territories=tuple(brief.territories),
        products=_lines(brief.products),
        must_haves=_lines(brief.must_haves),
        must_nots=_lines(brief.must_nots),
        approvers=_lines(brief.approvers),
        shapes=tuple(brief.shapes),
        usage_months=brief.usage_months,
        usage_for_good=brief.usage_for_good,
        finals_wanted=brief.finals_wanted,
        moods=tuple(
            AgreedMood(mood.pk, mood.name, mood.words, mood.brightness) for mood in Mood.objects.filter(shoot=shoot)
        ),
        shots=tuple(_shot(shot, number) for number, shot in enumerate(shots, start=1)),
    )


def _shot(shot: Shot, number: int) -> AgreedShot:
    return AgreedShot(
        key=shot.pk,
        number=number,
        title=shot.title,
        purpose=shot.purpose,
        framing=shot.framing,
        orientation=shot.orientation,
        shapes=tuple(shot.shapes),
        placements=tuple(shot.placements),
        copy_space=shot.copy_space,
        products=tuple(product.name for product in shot.products.all()),
        outfits=tuple(outfit.name for outfit in shot.outfits.all()),
        people=tuple(str(subject) for subject in shot.subjects.all()),
        mood=str(shot.mood_id or ""),
        place=shot.place.name if shot.place else "",
        moment=shot.moment,
        moment_note=shot.moment_note,
        finishing=tuple(
            AgreedWork(item.what, item.pictures or shot.finals, "" if item.price is None else str(item.price))
            for item in shot.finishing_items.all()
        ),
        is_must=shot.priority == Priority.MUST,
        minutes=shot.minutes,
        finals=shot.finals,
        setup=str(shot.setup_id or ""),
        day=str(shot.day_id or ""),
    )


def frozen(agreed: Agreed) -> dict[str, Any]:
    """Return the values as JSON keeps them. No query."""
    return dict(json.loads(json.dumps(asdict(agreed), cls=DjangoJSONEncoder)))


def print_of(agreed: Agreed) -> str:
    """Return the fingerprint of what is agreed, to see whether it changed since somebody looked. No query."""
    return fingerprint(frozen(agreed))


def agreed_of(version: BriefVersion) -> Agreed:
    """Return what a version froze. No query if its document was fetched with it."""
    return read_agreed(version.document.content["agreed"])


def _drawn(agreed: Agreed) -> list[dict[str, Any]]:
    """Return what a page draws and says of each shot, in words."""
    moods = {str(mood.key): mood for mood in agreed.moods}
    return [
        {
            "number": shot.number,
            "title": shot.title,
            "is_must": shot.is_must,
            "finals": shot.finals,
            "framing": shot.framing,
            "first_shape": shot.shapes[0] if shot.shapes else NO_SHAPE,
            "brightness": moods[shot.mood].brightness if shot.mood in moods else MIDDLE,
            "copy_space": shot.copy_space,
            "mood": moods[shot.mood].name if shot.mood in moods else "",
            "frame": [choice_words("framing", shot.framing), *shot.shapes],
            "about": _about(shot),
        }
        for shot in agreed.shots
    ]


def _about(shot: AgreedShot) -> list[str]:
    """Return what else is said of a shot, in the order in which one asks."""
    room = _("room for words: %(where)s") % {"where": shot.copy_space} if shot.copy_space else ""
    parts = [
        shot.purpose,
        *shot.products,
        *shot.outfits,
        *shot.people,
        shot.place,
        choice_words("moment", shot.moment),
        shot.moment_note,
        room,
        *shot.works,
    ]
    return [part for part in parts if part]


def brief_words(agreed: Agreed) -> dict[str, Any]:
    """Return codes of a brief in words, and its sums. No query."""
    return {
        "placements": placement_labels(list(agreed.placements)),
        "territories": territory_words(list(agreed.territories)),
        "term": term_words(0 if agreed.usage_for_good else agreed.usage_months),
        "shots": _drawn(agreed),
        "musts": sum(shot.is_must for shot in agreed.shots),
        "wishes": sum(not shot.is_must for shot in agreed.shots),
        "finals": agreed.finals,
    }


def brief_paper(
    shoot: Shoot, agreed: Agreed, *, number: int, label: str, before: BriefVersion | None, issued_on: date
) -> dict[str, Any]:
    """Return the content of a version's document; no query if the shoot's parties were fetched with it.

    What is different from the version `before` stands in it, in words.
    """
    contact = shoot.contact
    since = None
    if before is not None:
        lines = difference_lines(agreed_of(before), agreed, for_client=True)
        since = {"number": before.number, "issued_on": before.document.content["issued_on"], "lines": lines}
    return {
        "studio": studio_card(shoot.studio),
        "number": label,
        "revision": number,
        "issued_on": issued_on,
        "shoot": {"code": shoot.code, "title": shoot.title},
        "client": party_card(shoot.client) if shoot.client else None,
        "contact": {"name": contact.name, "email": contact.email} if contact else None,
        "agreed": frozen(agreed),
        "words": brief_words(agreed),
        "since": {**since, "lines": [asdict(line) for line in since["lines"]]} if since else None,
    }


def missing_in(shoot: Shoot, agreed: Agreed) -> list[str]:
    """Return what has to be there before a brief can go out, as sentences. No query."""
    missing = []
    if shoot.client is None:
        missing.append(_("The shoot has no client yet."))
    if not agreed.purpose:
        missing.append(_("What the pictures are to sell has not been said yet."))
    if not agreed.shots:
        missing.append(_("There is no picture on the shot list yet."))
    return missing


def with_papers() -> Any:
    """Return versions with everything that their pages and mails read."""
    return BriefVersion.objects.select_related(
        "studio", "shoot__studio", "shoot__client", "shoot__contact", "document", "approval_document", "link"
    ).prefetch_related("corrections")
