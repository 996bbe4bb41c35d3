"""What the shot list, and pages above it, need of the planned pictures."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from shoots.shoot.models import Shoot
from shoots.shotlist.core.sketch import Near, Sketch, sketch
from shoots.shotlist.core.state import ShotState, state_of
from shoots.shotlist.models import STATE_LABELS, Priority, Shot

MIDDLE = 50
NO_SHAPE = "3:2"


@dataclass(frozen=True)
class ShotCard:
    """A shot with its place in the order, its thumbnail and how far it has come.

    `preview_url` is the picture that replaces the drawing, "" where there is none yet.
    """

    shot: Shot
    number: int
    sketch: Sketch
    preview_url: str
    state: ShotState
    state_words: str

    @property
    def is_got(self) -> bool:
        return self.state in (ShotState.GOT, ShotState.DELIVERED)


@dataclass(frozen=True)
class SetupMinutes:
    """The time that the shots of one setup take; `setup_id` is None for shots that have none yet."""

    setup_id: int | None
    name: str
    shots: int
    minutes: int
    share_percent: float


@dataclass(frozen=True)
class ShotListPage:
    """The shots of a shoot in their order, and their sums."""

    cards: tuple[ShotCard, ...]
    by_setup: tuple[SetupMinutes, ...]
    minutes: int
    minutes_left: int
    musts: int
    wishes: int
    planned: int
    got: int
    finals: int


def shot_card(shot: Shot, *, number: int, preview_url: str = "", is_delivered: bool = False) -> ShotCard:
    """Return one shot as lists show it; no query if its mood was selected with it."""
    state = state_of(
        is_must=shot.priority == Priority.MUST,
        has_setup=shot.setup_id is not None,
        is_got=shot.got_at is not None,
        is_delivered=is_delivered,
    )
    return ShotCard(
        shot=shot,
        number=number,
        sketch=sketch(
            Near(shot.framing),
            shot.shapes[0] if shot.shapes else NO_SHAPE,
            shot.mood.brightness if shot.mood else MIDDLE,
            shot.copy_space,
        ),
        preview_url=preview_url,
        state=state,
        state_words=str(STATE_LABELS[state]),
    )


def shot_list(
    shoot: Shoot,
    *,
    previews: Mapping[int, str] | None = None,
    delivered: Collection[int] = (),
) -> ShotListPage:
    """Return the shots of a shoot in their order; six queries, however many there are.

    Pages above pass `previews` (address of a picture by the shot's key) and the keys of the `delivered` shots.
    """
    shots = Shot.objects.filter(shoot=shoot).with_parts()
    cards = tuple(
        shot_card(
            shot,
            number=number,
            preview_url=(previews or {}).get(shot.pk, ""),
            is_delivered=shot.pk in delivered,
        )
        for number, shot in enumerate(shots, start=1)
    )
    return ShotListPage(
        cards=cards,
        by_setup=_by_setup(cards),
        minutes=sum(card.shot.minutes for card in cards),
        minutes_left=sum(card.shot.minutes for card in cards if not card.is_got),
        musts=sum(card.shot.priority == Priority.MUST for card in cards),
        wishes=sum(card.shot.priority == Priority.WISH for card in cards),
        planned=sum(card.shot.setup_id is not None for card in cards),
        got=sum(card.is_got for card in cards),
        finals=sum(card.shot.finals for card in cards),
    )


def _by_setup(cards: tuple[ShotCard, ...]) -> tuple[SetupMinutes, ...]:
    """Return the minutes of each setup in the setups' order, those without one last."""
    total = sum(card.shot.minutes for card in cards) or 1
    groups: dict[int | None, list[Shot]] = {}
    for card in cards:
        groups.setdefault(card.shot.setup_id, []).append(card.shot)
    ordered = sorted(
        groups.items(),
        key=lambda group: (group[0] is None, group[1][0].setup.position if group[0] else 0, group[0] or 0),
    )
    return tuple(
        SetupMinutes(
            setup_id=key,
            name=shots[0].setup.name if key else "",
            shots=len(shots),
            minutes=sum(shot.minutes for shot in shots),
            share_percent=round(100 * sum(shot.minutes for shot in shots) / total, 1),
        )
        for key, shots in ordered
    )


def finishing_of(shot: Shot) -> list[dict[str, object]]:
    """Return the finishing of a shot as its form begins with it; one query."""
    return list(shot.finishing_items.values("what", "pictures", "price"))


def shots_of_setup(setup_id: int) -> tuple[ShotCard, ...]:
    """Return the shots that are taken with a setup, numbered as in the whole list; one query."""
    mates = Shot.objects.filter(shoot__setups=setup_id).select_related("mood")
    return tuple(
        shot_card(shot, number=number) for number, shot in enumerate(mates, start=1) if shot.setup_id == setup_id
    )


def shot_counts(shoot: Shoot) -> dict[int, int]:
    """Return how many shots each setup has, by the setup's key; one query."""
    counts: dict[int, int] = {}
    for key in Shot.objects.filter(shoot=shoot).exclude(setup=None).values_list("setup_id", flat=True):
        counts[key] = counts.get(key, 0) + 1
    return counts
