"""The brief of the packs goes to the client, comes back once, is approved, and grows after the first look."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from shoots.agreement.actions import answers, sending
from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.paper import agreed_now, print_of
from shoots.brief import actions as brief
from shoots.brief.queries import brief_of
from shoots.demo.stage import Known
from shoots.shoot.models import Shoot
from shoots.shotlist.actions import shots as shotlist


def agree_brief(known: Known, shoot: Shoot, *, put_right: Callable[[datetime], None]) -> None:
    """Send a version, hear what isn't right with it, put that right (`put_right` adds the shot), and get the yes."""
    facts = known.facts["agreement"]
    first = _send(known, shoot, message=facts["first_message"], now=known.at(-34, "16:10"))
    sending.note_opened(version=first, now=known.at(-34, "19:32"))
    answers.correct_brief(
        version=first,
        name=facts["client"],
        words=facts["not_right"].strip(),
        address=facts["address"],
        now=known.at(-33, "08:50"),
    )
    row = brief_of(shoot)
    now = known.at(-33, "10:05")
    changes = {name: known.facts["brief"][name] for name in known.facts["brief_first"]}
    brief.edit_brief(shoot=shoot, changes=changes, seen_version=row.version, by=known.owner, now=now)
    put_right(now)
    second = _send(known, shoot, message=facts["second_message"], now=known.at(-33, "10:40"))
    sending.note_opened(version=second, now=known.at(-33, "13:02"))
    answers.approve_brief(version=second, name=facts["client"], address=facts["address"], now=known.at(-32, "18:20"))


def ask_for_more(known: Known, shoot: Shoot) -> None:
    """After the first look the client wants another picture of a shot: a change against what was approved."""
    wish = known.facts["agreement"]["wish"]
    shot = shoot.shots.get(title=wish["title"])
    changes = {"finals": wish["finals"], "minutes": wish["minutes"]}
    shotlist.edit_shot(shot=shot, changes=changes, seen_version=shot.version, by=known.owner, now=known.at(-1, "10:30"))


def _send(known: Known, shoot: Shoot, *, message: str, now: datetime) -> BriefVersion:
    sent = sending.send_brief(
        shoot=shoot,
        email=known.facts["agreement"]["email"],
        message=message,
        seen_number=BriefVersion.objects.filter(shoot=shoot).count(),
        seen_print=print_of(agreed_now(shoot)),
        by=known.owner,
        now=now,
    )
    sending.deliver_brief(version_id=sent.pk, message=message, now=now)
    return BriefVersion.objects.get(pk=sent.pk)
