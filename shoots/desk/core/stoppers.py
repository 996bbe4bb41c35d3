"""What could stop the next day of a shoot, worst first.

Four weights: it stops the shoot, it endangers somebody, it puts the day at risk, it is still to do. What can hurt
somebody is never below "endangers". These findings are reminders to ask; they replace neither local rules nor
licensed people.

Own derivation; common practice, no source. That children who perform or model may need a licence of their local
authority is law in Great Britain (Children and Young Persons Act 1963, section 37, from memory); here it is only
said that the rules have to be asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import IntEnum, StrEnum

from shoots.people.core import BornLater, minor_on

HOLD_IS_SHORT_DAYS = 3
"""A pencilled date that is held for no longer than this counts as running out."""
SHEET_DAYS = 2
"""The advance call sheet is due so many days before the day."""
SOON_DAYS = 7
"""Within so many days what is still to do weighs as a risk."""


class Weight(IntEnum):
    """How bad it is; lower is worse."""

    STOPS = 0
    ENDANGERS = 1
    RISKS = 2
    TO_DO = 3


class Stopper(StrEnum):
    """What could stop the shoot, in the order in which equals are named."""

    NO_DATE = "NO_DATE"
    HOLD_RAN_OUT = "HOLD_RAN_OUT"
    NO_PERMISSION = "NO_PERMISSION"
    MINOR_WITHOUT_GUARDIAN = "MINOR_WITHOUT_GUARDIAN"
    MAINS_OUTDOORS = "MAINS_OUTDOORS"
    NO_HOSPITAL = "NO_HOSPITAL"
    HAZARDS = "HAZARDS"
    MINOR = "MINOR"
    HOLD_RUNS_OUT = "HOLD_RUNS_OUT"
    QUOTE_NOT_ACCEPTED = "QUOTE_NOT_ACCEPTED"
    FINAL_SHEET_DUE = "FINAL_SHEET_DUE"
    ADVANCE_SHEET_DUE = "ADVANCE_SHEET_DUE"
    DEPOSIT_UNPAID = "DEPOSIT_UNPAID"
    PERMISSION_ASKED = "PERMISSION_ASKED"
    NO_PLACE = "NO_PLACE"
    NO_CALL_TIME = "NO_CALL_TIME"
    DATE_PENCILLED = "DATE_PENCILLED"
    NO_POWER = "NO_POWER"
    TALENT_PENCILLED = "TALENT_PENCILLED"
    CREW_PENCILLED = "CREW_PENCILLED"
    NO_CREW = "NO_CREW"
    BOOKINGS_PENCILLED = "BOOKINGS_PENCILLED"
    NO_SHOTS = "NO_SHOTS"
    NO_SAMPLE = "NO_SAMPLE"
    SETUPS_WITHOUT_LIGHT = "SETUPS_WITHOUT_LIGHT"
    SHOTS_WITHOUT_SETUP = "SHOTS_WITHOUT_SETUP"
    OPEN_QUESTIONS = "OPEN_QUESTIONS"
    NO_POSITION = "NO_POSITION"


@dataclass(frozen=True, slots=True)
class Talent:
    """Somebody in front of the camera, as far as their age matters."""

    name: str
    birth_date: date | None = None
    guardian: str = ""


@dataclass(frozen=True, slots=True)
class PlaceFacts:
    """The place of a day."""

    pk: int
    name: str
    permission: str = "TO_ASK"
    has_hospital: bool = True
    hazards: str = ""
    has_position: bool = True
    indoors: bool = False
    has_power: bool = True


@dataclass(frozen=True, slots=True)
class ReadyFacts:
    """What is known about how ready the next day is.

    Parameters
    ----------
    today : date
        Day of asking, in the studio's calendar.
    day : date, optional
        The next day; None while there is none.
    is_confirmed : bool
        Whether that day is confirmed.
    held_until : date, optional
        How long the pencilled day is held.
    has_call_time, advance_sent, final_sent : bool
        What that day has.
    is_after_four : bool
        Whether it is past 16:00 in the studio, when the final call sheet is due the day before.
    quote_accepted, deposit_unpaid : bool
        The money that the day hangs on; `deposit_unpaid` when a deposit invoice is past its due date.
    places : tuple[PlaceFacts, ...]
        Places of the day.
    talents : tuple[Talent, ...]
        Who is booked to be in the pictures.
    crew, crew_pencilled, talent_pencilled, others_pencilled : int
        Bookings that stand, and those of them that are only pencilled. [1]
    shots, shots_without_setup, setups_without_light, mains_lamps : int
        Counts of the list and the light plan. [1]
    without_sample : tuple[str, ...]
        Products of the day of which no sample is there that can be shown.
    open_questions : int
        Empty fields of the brief that matter. [1]
    """

    today: date
    day: date | None = None
    is_confirmed: bool = False
    held_until: date | None = None
    has_call_time: bool = True
    advance_sent: bool = False
    final_sent: bool = False
    is_after_four: bool = False
    quote_accepted: bool = True
    deposit_unpaid: bool = False
    places: tuple[PlaceFacts, ...] = ()
    talents: tuple[Talent, ...] = ()
    crew: int = 0
    crew_pencilled: int = 0
    talent_pencilled: int = 0
    others_pencilled: int = 0
    shots: int = 0
    shots_without_setup: int = 0
    setups_without_light: int = 0
    mains_lamps: int = 0
    without_sample: tuple[str, ...] = ()
    open_questions: int = 0

    @property
    def days_left(self) -> int | None:
        """Days until the next day, or None without one. [d]"""
        return None if self.day is None else (self.day - self.today).days


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that could stop the shoot: `name` and `record` say whose or which, `count` how many. [1]"""

    code: Stopper
    weight: Weight
    name: str = ""
    count: int = 0
    by: date | None = None
    record: int | None = None


def stoppers(facts: ReadyFacts) -> tuple[Finding, ...]:
    """Return what could stop the next day, worst first.

    Parameters
    ----------
    facts : ReadyFacts
        How ready the next day is.

    Returns
    -------
    tuple[Finding, ...]
        Sorted by weight, then in the order of `Stopper`; empty when nothing is open.

    Notes
    -----
    Own derivation; what is still to do weighs as a risk within `SOON_DAYS` days of the day.

    Examples
    --------
    >>> facts = ReadyFacts(today=date(2026, 6, 1), day=date(2026, 6, 9), held_until=date(2026, 6, 2), crew=1,
    ...                    shots=12, places=(PlaceFacts(pk=1, name="Quarry rim", permission="GIVEN"),))
    >>> [(found.weight.name, found.code.value) for found in stoppers(facts)]
    [('STOPS', 'HOLD_RUNS_OUT')]
    """
    found = [*_date(facts), *_money(facts), *_people(facts), *_place(facts), *_plan(facts)]
    order = list(Stopper)
    return tuple(sorted(found, key=lambda finding: (finding.weight, order.index(finding.code))))


def _nearing(facts: ReadyFacts) -> Weight:
    left = facts.days_left
    return Weight.RISKS if left is not None and left <= SOON_DAYS else Weight.TO_DO


def _date(facts: ReadyFacts) -> Iterator[Finding]:
    if facts.day is None:
        yield Finding(Stopper.NO_DATE, Weight.TO_DO)
        return
    if not facts.is_confirmed:
        held = facts.held_until
        if held is not None and held < facts.today:
            yield Finding(Stopper.HOLD_RAN_OUT, Weight.STOPS, by=held)
        elif held is not None and (held - facts.today).days <= HOLD_IS_SHORT_DAYS:
            yield Finding(Stopper.HOLD_RUNS_OUT, Weight.STOPS, by=held)
        else:
            yield Finding(Stopper.DATE_PENCILLED, Weight.RISKS, by=held)
        return
    left = facts.days_left or 0
    if not facts.final_sent and (left <= 0 or (left == 1 and facts.is_after_four)):
        yield Finding(Stopper.FINAL_SHEET_DUE, Weight.RISKS)
    elif not facts.advance_sent and not facts.final_sent and left <= SHEET_DAYS:
        yield Finding(Stopper.ADVANCE_SHEET_DUE, Weight.RISKS)
    if not facts.has_call_time:
        yield Finding(Stopper.NO_CALL_TIME, _nearing(facts))


def _money(facts: ReadyFacts) -> Iterator[Finding]:
    if not facts.quote_accepted:
        yield Finding(Stopper.QUOTE_NOT_ACCEPTED, _nearing(facts))
    if facts.deposit_unpaid:
        yield Finding(Stopper.DEPOSIT_UNPAID, Weight.RISKS)


def _people(facts: ReadyFacts) -> Iterator[Finding]:
    on = facts.day or facts.today
    for talent in facts.talents:
        if not _is_minor(talent, on):
            continue
        if not talent.guardian.strip():
            yield Finding(Stopper.MINOR_WITHOUT_GUARDIAN, Weight.ENDANGERS, name=talent.name)
        else:
            yield Finding(Stopper.MINOR, Weight.ENDANGERS, name=talent.name)
    if facts.crew == 0:
        yield Finding(Stopper.NO_CREW, Weight.TO_DO)
    if facts.crew_pencilled:
        yield Finding(Stopper.CREW_PENCILLED, _nearing(facts), count=facts.crew_pencilled)
    if facts.talent_pencilled:
        yield Finding(Stopper.TALENT_PENCILLED, _nearing(facts), count=facts.talent_pencilled)
    if facts.others_pencilled:
        yield Finding(Stopper.BOOKINGS_PENCILLED, _nearing(facts), count=facts.others_pencilled)


def _is_minor(talent: Talent, on: date) -> bool:
    try:
        return minor_on(talent.birth_date, on) is not None
    except BornLater:  # mistyped: better one caution too many
        return True


def _place(facts: ReadyFacts) -> Iterator[Finding]:
    if facts.day is not None and not facts.places:
        yield Finding(Stopper.NO_PLACE, _nearing(facts))
    for place in facts.places:
        known = {"name": place.name, "record": place.pk}
        if place.permission == "TO_ASK":
            yield Finding(Stopper.NO_PERMISSION, Weight.STOPS, **known)  # type: ignore[arg-type]
        elif place.permission == "ASKED":
            yield Finding(Stopper.PERMISSION_ASKED, _nearing(facts), **known)  # type: ignore[arg-type]
        if not place.has_hospital:
            yield Finding(Stopper.NO_HOSPITAL, Weight.ENDANGERS, **known)  # type: ignore[arg-type]
        if place.hazards.strip():
            yield Finding(Stopper.HAZARDS, Weight.ENDANGERS, **known)  # type: ignore[arg-type]
        if facts.mains_lamps and not place.indoors:
            yield Finding(Stopper.MAINS_OUTDOORS, Weight.ENDANGERS, count=facts.mains_lamps, **known)  # type: ignore[arg-type]
        if facts.mains_lamps and not place.has_power:
            yield Finding(Stopper.NO_POWER, _nearing(facts), count=facts.mains_lamps, **known)  # type: ignore[arg-type]
        if not place.has_position and not place.indoors:
            yield Finding(Stopper.NO_POSITION, Weight.TO_DO, **known)  # type: ignore[arg-type]


def _plan(facts: ReadyFacts) -> Iterator[Finding]:
    if not facts.shots:
        yield Finding(Stopper.NO_SHOTS, _nearing(facts))
    for product in facts.without_sample:
        yield Finding(Stopper.NO_SAMPLE, _nearing(facts), name=product)
    if facts.setups_without_light:
        yield Finding(Stopper.SETUPS_WITHOUT_LIGHT, _nearing(facts), count=facts.setups_without_light)
    if facts.shots_without_setup:
        yield Finding(Stopper.SHOTS_WITHOUT_SETUP, Weight.TO_DO, count=facts.shots_without_setup)
    if facts.open_questions:
        yield Finding(Stopper.OPEN_QUESTIONS, Weight.TO_DO, count=facts.open_questions)
