"""The codes in which it is said where a shoot stands: stages, next steps, what is missing.

Own derivation from the order of the work: call, brief, list, quote, date, people, sheet, day, choice, pictures,
invoice, payment, licence. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Stage(StrEnum):
    """Where a shoot stands."""

    NEW = "NEW"
    CALLED = "CALLED"
    BRIEFING = "BRIEFING"
    LISTING = "LISTING"
    UNPRICED = "UNPRICED"
    BRIEF_SENT = "BRIEF_SENT"
    BRIEF_CORRECTED = "BRIEF_CORRECTED"
    BRIEF_APPROVED = "BRIEF_APPROVED"
    QUOTE_DRAFT = "QUOTE_DRAFT"
    QUOTE_SENT = "QUOTE_SENT"
    QUOTE_LAPSED = "QUOTE_LAPSED"
    QUOTE_DECLINED = "QUOTE_DECLINED"
    PLANNED = "PLANNED"
    ACCEPTED = "ACCEPTED"
    PENCILLED = "PENCILLED"
    HOLD_LAPSED = "HOLD_LAPSED"
    CONFIRMED = "CONFIRMED"
    SHEET_SENT = "SHEET_SENT"
    SHOOT_DAY = "SHOOT_DAY"
    DAY_PASSED = "DAY_PASSED"
    PARTLY_SHOT = "PARTLY_SHOT"
    WRAPPED = "WRAPPED"
    SELECTING = "SELECTING"
    FINISHING = "FINISHING"
    DELIVERED = "DELIVERED"
    INVOICED = "INVOICED"
    OVERDUE = "OVERDUE"
    PAID = "PAID"
    LICENSED = "LICENSED"
    LICENCE_ENDED = "LICENCE_ENDED"
    LOST = "LOST"
    ON_HOLD = "ON_HOLD"
    POSTPONED = "POSTPONED"
    CANCELLED = "CANCELLED"
    PUT_AWAY = "PUT_AWAY"


class Next(StrEnum):
    """What moves the shoot on."""

    NOTHING = "NOTHING"
    TAKE_CALL = "TAKE_CALL"
    READ_DRAFTS = "READ_DRAFTS"
    FILL_BRIEF = "FILL_BRIEF"
    LIST_SHOTS = "LIST_SHOTS"
    AWAIT_APPROVAL = "AWAIT_APPROVAL"
    MEND_BRIEF = "MEND_BRIEF"
    WRITE_QUOTE = "WRITE_QUOTE"
    SEND_QUOTE = "SEND_QUOTE"
    AWAIT_ANSWER = "AWAIT_ANSWER"
    SEND_QUOTE_AGAIN = "SEND_QUOTE_AGAIN"
    OFFER_ANEW = "OFFER_ANEW"
    SET_DATE = "SET_DATE"
    CONFIRM_DATE = "CONFIRM_DATE"
    RENEW_HOLD = "RENEW_HOLD"
    BOOK_CREW = "BOOK_CREW"
    CONFIRM_BOOKINGS = "CONFIRM_BOOKINGS"
    SEND_ADVANCE = "SEND_ADVANCE"
    SEND_FINAL = "SEND_FINAL"
    GO_SHOOT = "GO_SHOOT"
    WRAP_DAY = "WRAP_DAY"
    SEND_PROOFS = "SEND_PROOFS"
    AWAIT_SELECTION = "AWAIT_SELECTION"
    FINISH_PICTURES = "FINISH_PICTURES"
    DELIVER = "DELIVER"
    WRITE_INVOICE = "WRITE_INVOICE"
    ISSUE_INVOICE = "ISSUE_INVOICE"
    AWAIT_PAYMENT = "AWAIT_PAYMENT"
    CHASE_PAYMENT = "CHASE_PAYMENT"
    CHECK_LICENCE = "CHECK_LICENCE"
    AWAIT_LICENCE_START = "AWAIT_LICENCE_START"
    AWAIT_LICENCE_END = "AWAIT_LICENCE_END"
    RENEW_LICENCE = "RENEW_LICENCE"
    PUT_AWAY = "PUT_AWAY"
    TAKE_UP = "TAKE_UP"


class Missing(StrEnum):
    """What a shoot still lacks, whatever its stage."""

    ANSWERS = "ANSWERS"
    CORRECTIONS = "CORRECTIONS"
    SHOTS = "SHOTS"
    ACCEPTANCE = "ACCEPTANCE"
    DATE = "DATE"
    DEPOSIT_INVOICE = "DEPOSIT_INVOICE"
    SHEET = "SHEET"
    MUST_SHOTS = "MUST_SHOTS"
    PICTURES = "PICTURES"
    INVOICE = "INVOICE"


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that is missing, and how many of it where it can be counted. [1]"""

    code: Missing
    count: int = 0


@dataclass(frozen=True, slots=True)
class Step:
    """What comes next: by when, for how many, and which record it is done on."""

    code: Next
    by: date | None = None
    count: int = 0
    label: str = ""
    record: int | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a shoot stands. Which of the fields mean something follows from the stage.

    `since` is the day that brought the stage about, `until` the day that it ends by itself, `day` the day of the
    shoot that it is about, `clock` that day's call; `count` of `total` are shots, days or pictures. [1]
    """

    stage: Stage
    step: Step
    since: date | None = None
    until: date | None = None
    day: date | None = None
    clock: str = ""
    count: int = 0
    total: int = 0
    label: str = ""
    option_rank: int = 1
    missing: tuple[Lack, ...] = ()
