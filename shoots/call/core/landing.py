"""Where an accepted draft goes: what it asks of the brief, the shot list, the dates and the moods.

Nothing is written here; the steps say what is to be written, and an empty answer means that the draft is only kept
with the call (prices that are no budget, what a place brings, an earlier job).

References
----------
Own arrangement: which field of the brief answers which part of a call.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from shoots.brief.core.placements import Placement
from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.brief.core.territories import GROUPS, WORLD
from shoots.call.core.drafts import (
    CopySpaceValue,
    CountOf,
    CountValue,
    DateKind,
    DateValue,
    DraftKind,
    LicenceValue,
    MoneyKind,
    MoneyValue,
    MoodValue,
    PersonValue,
    PlacementValue,
    PlaceValue,
    Pole,
    ProductValue,
    ShapeValue,
    TerritoryValue,
    TextValue,
    Value,
)

#: The reader's words for placements that the brief calls otherwise.
PLACEMENT_OF = {"press": Placement.PRESS_ADVERTISING, "brochure": Placement.PRINT_COLLATERAL}
ALL_MEDIA = "all"
#: Amounts that say what the whole job may cost.
BUDGETS = frozenset({MoneyKind.BUDGET, MoneyKind.ALL_IN, MoneyKind.FEE})
#: Pictures that are counted as a kind of shot.
SHOTS = frozenset(
    {
        CountOf.HEROES,
        CountOf.DETAILS,
        CountOf.PACKSHOTS,
        CountOf.PORTRAITS,
        CountOf.LIFESTYLE,
        CountOf.OTHERS,
        CountOf.SHOTS,
    }
)
FINALS = frozenset({CountOf.FINALS, CountOf.PICTURES})
LONGEST_LICENCE = 1200
"""Longest time of use that the brief holds. [month]"""


@dataclass(frozen=True, slots=True)
class AddLine:
    """A line for one of the brief's texts."""

    field: str
    line: str


@dataclass(frozen=True, slots=True)
class AddCodes:
    """Codes for one of the brief's lists."""

    field: str
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SetTerm:
    """For how many months the pictures are used, or for good."""

    months: int | None
    for_good: bool


@dataclass(frozen=True, slots=True)
class SetFinals:
    """How many finished pictures are wanted."""

    count: int


@dataclass(frozen=True, slots=True)
class SetBudget:
    """What the job may cost."""

    amount: Decimal
    currency: str


@dataclass(frozen=True, slots=True)
class PlanShots:
    """So many shots of a kind, some of them only if there is time; for each product, when `per` says so."""

    of: CountOf
    musts: int
    wishes: int
    per: str


@dataclass(frozen=True, slots=True)
class PencilDays:
    """Days to hold, the first as first option, with the hours of the day."""

    days: tuple[date, ...]
    call: str
    wrap: str


@dataclass(frozen=True, slots=True)
class SetHours:
    """When the days begin and end."""

    call: str
    wrap: str


@dataclass(frozen=True, slots=True)
class DeliverBy:
    """When the pictures have to be there."""

    day: date


@dataclass(frozen=True, slots=True)
class AddMoods:
    """Words for the mood at a pole, or at both."""

    poles: tuple[Pole, ...]
    words: str


@dataclass(frozen=True, slots=True)
class UsePlace:
    """A place to shoot at, by name; a line of the brief when the studio knows no such place."""

    name: str


Step = (
    AddLine
    | AddCodes
    | SetTerm
    | SetFinals
    | SetBudget
    | PlanShots
    | PencilDays
    | SetHours
    | DeliverBy
    | AddMoods
    | UsePlace
)


def placements_of(code: str) -> tuple[Placement, ...]:
    """Return the brief's placements for one of the reader's.

    Parameters
    ----------
    code : str
        The reader's word.

    Returns
    -------
    tuple of Placement
        All of them for all media, none for a word that the brief does not have.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> placements_of("press"), placements_of("own_website")
    ((<Placement.PRESS_ADVERTISING: 'PRESS_ADVERTISING'>,), (<Placement.OWN_WEBSITE: 'OWN_WEBSITE'>,))
    """
    if code == ALL_MEDIA:
        return tuple(Placement)
    known = PLACEMENT_OF.get(code) or (Placement(code.upper()) if code.upper() in set(Placement) else None)
    return (known,) if known else ()


def steps(kind: DraftKind, value: Value, *, line: str) -> tuple[Step, ...]:
    """Return what accepting a draft writes.

    Parameters
    ----------
    kind : DraftKind
        What the draft is about.
    value : Value
        What it says.
    line : str
        The same in words, for a line of the brief.

    Returns
    -------
    tuple of Step
        In the order in which they are done; empty when the draft is only kept with the call.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> steps(DraftKind.LICENCE, LicenceValue(months=Decimal(24)), line="24 months")
    (SetTerm(months=24, for_good=False),)
    >>> steps(DraftKind.REFERENCE, TextValue("last year"), line="Last year")
    ()
    """
    if isinstance(value, CountValue):
        return _count(value, line)
    if isinstance(value, DateValue):
        return _date(value, line)
    if isinstance(value, ShapeValue):
        return _shape(value, line)
    if isinstance(value, PlacementValue):
        return _codes("placements", placements_of(value.placement))
    if isinstance(value, TerritoryValue):
        return _codes("territories", _territories(value))
    if isinstance(value, LicenceValue):
        return _term(value)
    if isinstance(value, MoneyValue):
        named = value.upper if value.upper is not None else value.amount
        return (SetBudget(named, value.currency),) if value.kind in BUDGETS and not value.per else ()
    if isinstance(value, MoodValue):
        poles = (Pole.DARK, Pole.BRIGHT) if value.pole is Pole.BOTH else (value.pole,)
        return (AddMoods(poles, value.words),)
    if isinstance(value, PlaceValue):
        return (UsePlace(value.name),)
    return _line(kind, value, line)


def _line(kind: DraftKind, value: Value, line: str) -> tuple[Step, ...]:
    if isinstance(value, ProductValue):
        return (AddLine("products", line),)
    if isinstance(value, PersonValue):
        return () if value.crew else (AddLine("must_haves", line),)
    if isinstance(value, CopySpaceValue) or kind in (DraftKind.WISH, DraftKind.FRAMING):
        return (AddLine("must_haves", line),)
    if kind is DraftKind.NEGATIVE:
        return (AddLine("must_nots", line),)
    if isinstance(value, TextValue) and kind in (DraftKind.APPROVER, DraftKind.PAYER):
        return (AddLine("approvers", line),)
    return ()


def _codes(field: str, codes: tuple[str, ...]) -> tuple[Step, ...]:
    return (AddCodes(field, tuple(str(code) for code in codes)),) if codes else ()


def _count(value: CountValue, line: str) -> tuple[Step, ...]:
    low = value.minimum if value.minimum is not None else value.maximum or 0
    high = max(low, value.maximum or 0)
    if value.of in FINALS and not value.per:
        return (SetFinals(high),) if high else ()
    if value.of in SHOTS:
        return (PlanShots(value.of, low, high - low, value.per),) if high else ()
    if value.of is CountOf.DAYS:
        return (AddLine("wished_dates", line),)
    return (AddLine("must_haves", line),)


def _shape(value: ShapeValue, line: str) -> tuple[Step, ...]:
    try:
        shapes = read_shapes(value.shape)
    except UnknownShape:
        return (AddLine("must_haves", line),)
    counted = (AddLine("must_haves", line),) if value.count and value.count > 1 else ()
    return (AddCodes("shapes", shapes), *counted)


def _territories(value: TerritoryValue) -> tuple[str, ...]:
    """Return the brief's codes; none for a part of a country, which it can't name without claiming more."""
    plain = [code.removeprefix("-") for code in value.codes]
    if any("-" in code for code in plain):
        return ()
    if value.group.upper() in GROUPS and not value.excluded:
        return (value.group.upper(), *(code for code in value.codes if code.startswith("-")))
    codes = tuple(WORLD if code.lower() == WORLD else code for code in value.codes)
    return tuple(f"-{code}" for code in codes) if value.excluded else codes


def _term(value: LicenceValue) -> tuple[Step, ...]:
    if value.perpetual:
        return (SetTerm(None, True),)
    if value.months is None or not 0 < value.months <= LONGEST_LICENCE:
        return ()
    return (SetTerm(math.ceil(value.months), False),)


def _date(value: DateValue, line: str) -> tuple[Step, ...]:
    if value.kind is DateKind.LICENCE:
        return ()
    single = value.first if value.first and value.last in (None, value.first) else None
    if value.kind is DateKind.DELIVERY:
        day = value.by or (value.before - timedelta(days=1) if value.before else None) or single
        return (DeliverBy(day),) if day else (AddLine("wished_dates", line),)
    if value.kind is DateKind.SHOOT:
        days = value.any_of or ((single,) if single else ())
        if days:
            return (PencilDays(days, value.hours_from, value.hours_to),)
        bounded = value.first or value.last or value.by or value.before or value.after
        if value.hours_from and not bounded:
            return (SetHours(value.hours_from, value.hours_to),)
    return (AddLine("wished_dates", line),)
