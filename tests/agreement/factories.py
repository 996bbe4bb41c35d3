"""Shoots whose brief could be sent, and versions that were, made as the program makes them."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from shoots.agreement.actions import sending
from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.paper import agreed_now, print_of, with_papers
from shoots.brief.models import Brief
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from tests import factories
from tests.quotes.factories import run_jobs

NOW = factories.NOW


def make_shoot(studio: Any = None, **brief: Any) -> Shoot:
    """A shoot with a purpose, a mood and two shots."""
    studio = studio or factories.make_studio()
    client = factories.make_client(studio)
    shoot = factories.make_shoot(studio, client=client, contact=factories.make_contact(client))
    said = {"purpose": "A pack for bad weather", "placements": ["OWN_WEBSITE"], "territories": ["UK_IRELAND"]}
    Brief.objects.filter(shoot=shoot).update(**{**said, "usage_months": 12, **brief})
    mood = factories.make_mood(shoot)
    factories.make_shot(shoot, title="Rim", position=0, mood=mood, minutes=30)
    factories.make_shot(shoot, title="Slab", position=1, mood=mood, minutes=20)
    return shoot


def send(
    shoot: Shoot,
    *,
    email: str = "mara@example.com",
    seen_number: int | None = None,
    by: Member | None = None,
    now: datetime = NOW,
) -> BriefVersion:
    """Send the brief as somebody would who has just looked at it."""
    if seen_number is None:
        seen_number = BriefVersion.objects.filter(shoot=shoot).count()
    return sending.send_brief(
        shoot=shoot,
        email=email,
        seen_number=seen_number,
        seen_print=print_of(agreed_now(shoot)),
        by=by,
        now=now,
    )


def make_sent(shoot: Shoot | None = None, *, now: datetime = NOW, **how: Any) -> BriefVersion:
    """A version that is with the client: its PDF is made, its mail queued."""
    made = send(shoot or make_shoot(), now=now, **how)
    run_jobs(now)
    return reload(made)


def reload(version: BriefVersion) -> BriefVersion:
    return with_papers().get(pk=version.pk)
