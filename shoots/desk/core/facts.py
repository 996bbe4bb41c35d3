"""What is known of one shoot, as plain values: the input of `stage` and `stoppers`.

All days are days of the studio's own calendar; whoever collects the facts has turned instants into them. An
instant is kept only where the hour decides (when a quote lapses, what was written after what).

Own derivation: which facts a shoot has follows from the order of the work; there is no outside source.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum


class Happening(StrEnum):
    """Something that was written down about a shoot; the same codes as `shoot.models.FactKind`."""

    LOST = "LOST"
    ON_HOLD = "ON_HOLD"
    TAKEN_UP = "TAKEN_UP"
    POSTPONED = "POSTPONED"
    CANCELLED = "CANCELLED"
    PROOFS_SENT = "PROOFS_SENT"
    SELECTION_MADE = "SELECTION_MADE"
    APPROVED = "APPROVED"


@dataclass(frozen=True, slots=True)
class Happened:
    """One thing that happened, on a day; `at` orders it against what else was written down."""

    kind: Happening
    on: date
    at: datetime


@dataclass(frozen=True, slots=True)
class DayFacts:
    """One day that still stands (released days are no facts of a shoot any more)."""

    pk: int
    on: date
    written_at: datetime
    is_confirmed: bool = False
    held_until: date | None = None
    option_rank: int = 1
    call_time: str = ""
    wrapped_on: date | None = None
    advance_on: date | None = None
    final_on: date | None = None


@dataclass(frozen=True, slots=True)
class BriefFacts:
    """One version of the brief as it went to the client. `is_over` when it was replaced or withdrawn."""

    pk: int
    number: int
    sent_on: date
    approved_on: date | None = None
    corrected_on: date | None = None
    is_over: bool = False

    @property
    def is_unanswered(self) -> bool:
        return not self.is_over and self.approved_on is None and self.corrected_on is None

    @property
    def is_to_be_put_right(self) -> bool:
        return not self.is_over and self.approved_on is None and self.corrected_on is not None


@dataclass(frozen=True, slots=True)
class QuoteFacts:
    """One version of a quote. Without `sent_on` it is a draft."""

    pk: int
    label: str
    made_at: datetime
    sent_on: date | None = None
    opened_on: date | None = None
    valid_until: datetime | None = None
    valid_until_on: date | None = None
    accepted_on: date | None = None
    declined_on: date | None = None
    was_replaced: bool = False
    asks_deposit: bool = False


@dataclass(frozen=True, slots=True)
class InvoiceFacts:
    """One invoice or deposit invoice; credit notes only show in what is settled. Without `issued_on` it is a draft."""

    pk: int
    label: str
    is_deposit: bool = False
    issued_on: date | None = None
    due: date | None = None
    settled_on: date | None = None


@dataclass(frozen=True, slots=True)
class LicenceFacts:
    """One licence that was granted and neither ended early nor renewed."""

    starts: date | None = None
    last_day: date | None = None


@dataclass(frozen=True, slots=True)
class ShootFacts:
    """Everything that decides where one shoot stands.

    Parameters
    ----------
    now : datetime
        The moment of asking, with its zone.
    today : date
        The same moment's day in the studio's calendar.
    put_away : bool
        Whether the studio put the shoot away.
    happened : tuple[Happened, ...]
        What was written down, oldest first.
    calls, open_drafts, open_questions : int
        Calls with notes; drafts from them that nobody decided on; empty fields of the brief that matter. [1]
    shots, shots_got, musts_missing, shots_delivered, shots_without_setup : int
        Shots on the list; of them taken; must-have shots not taken; taken ones with a delivered picture; those
        without a setup. [1]
    days : tuple[DayFacts, ...]
        The days that stand, earliest first.
    crew_booked, bookings_open : int
        Crew bookings that stand; bookings of any kind that are only pencilled. [1]
    briefs, quotes, invoices, licences : tuple
        Their versions and papers, oldest first.
    pictures : int
        Finished pictures that were not withdrawn. [1]
    delivered_on : date, optional
        Day of the last delivery that was sent.
    selection_due, delivery_due : date, optional
        What was agreed with the client.
    """

    now: datetime
    today: date
    put_away: bool = False
    happened: tuple[Happened, ...] = ()
    calls: int = 0
    open_drafts: int = 0
    open_questions: int = 0
    brief_begun: bool = False
    shots: int = 0
    shots_got: int = 0
    musts_missing: int = 0
    shots_delivered: int = 0
    shots_without_setup: int = 0
    days: tuple[DayFacts, ...] = ()
    crew_booked: int = 0
    bookings_open: int = 0
    briefs: tuple[BriefFacts, ...] = ()
    quotes: tuple[QuoteFacts, ...] = ()
    pictures: int = 0
    delivered_on: date | None = None
    selection_due: date | None = None
    delivery_due: date | None = None
    invoices: tuple[InvoiceFacts, ...] = ()
    licences: tuple[LicenceFacts, ...] = ()

    @property
    def brief(self) -> BriefFacts | None:
        """The newest version of the brief that was neither replaced nor withdrawn, or None."""
        return next((brief for brief in reversed(self.briefs) if not brief.is_over), None)

    def last(self, *kinds: Happening) -> Happened | None:
        """Return the latest thing of these kinds, or None."""
        return next((thing for thing in reversed(self.happened) if thing.kind in kinds), None)
