"""What the pages of today and of a shoot need."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from shoots.members.models import Member
from shoots.shoot.models import Shoot


@dataclass(frozen=True)
class Road:
    """Where a shoot stands, in one sentence, with one button."""

    sentence: str
    next_sentence: str
    button_label: str
    button_url: str


def road_of(shoot: Shoot, *, member: Member, now: datetime) -> Road:
    return Road("", "", "", "")
