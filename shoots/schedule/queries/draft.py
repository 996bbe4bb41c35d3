"""A day's shots by setup, and the first plan that would be made of them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from shoots.lighting.models import Setup
from shoots.schedule.core.draft import OUTFIT_MINUTES, DraftBlock, Group, draft_day
from shoots.schedule.queries.plan import DayPage, moment_of
from shoots.shoot.models import ShootDay
from shoots.shotlist.queries import ShotCard


def drafted(page: DayPage) -> tuple[DraftBlock, ...]:
    """Return the plan that a day's shots would make, whatever plan it has; empty without shots. No query."""
    grouped: dict[int | None, list[ShotCard]] = {}
    for card in page.cards:
        grouped.setdefault(card.shot.setup_id, []).append(card)
    groups = [_group(cards[0].shot.setup, cards, page.day) for cards in grouped.values()]
    start = page.outline.start if page.has_call else None
    return draft_day(groups, start=start, place=str(page.day.place_id or ""))


def _group(setup: Setup | None, cards: Sequence[ShotCard], day: ShootDay) -> Group:
    worn = [card.shot.outfit for card in cards if card.shot.outfit]
    changes = sum(before != after for before, after in pairwise(worn))
    place = (setup.place if setup else None) or day.place
    planned = None
    if setup and setup.shoot_time and not (place and place.indoors):
        planned = moment_of(day, setup.shoot_time)
    return Group(
        setup=str(setup.pk) if setup else "",
        minutes=sum(card.shot.minutes for card in cards) + changes * OUTFIT_MINUTES,
        place=str(place.pk) if place else "",
        planned=planned,
    )
