"""The rate card: what a studio charges for, and at which rates.

References
----------
.. [1] How a studio charges (day with included hours, started hours after them, mark-up on expenses) is
   common practice; no source. Rates are the studio's own data, none are built in.
.. [2] Unit codes: UN/ECE Recommendation 20 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shoots.quotes.core.totals import NegativePrice

_ZERO, _ONE = Decimal(0), Decimal(1)
_LARGEST = Decimal(10) ** 9  # no shoot has a quantity or a price like that


class Charge(StrEnum):
    """What a line is for."""

    FEE = "FEE"
    DAY = "DAY"
    HALF_DAY = "HALF_DAY"
    OVERTIME = "OVERTIME"
    PREPARATION = "PREPARATION"
    FINISHING = "FINISHING"
    LICENCE = "LICENCE"
    CREW = "CREW"
    CREW_OVERTIME = "CREW_OVERTIME"
    HIRE = "HIRE"
    TRAVEL = "TRAVEL"
    STUDIO = "STUDIO"
    PERMIT = "PERMIT"
    EXPENSE = "EXPENSE"


FEES = frozenset({Charge.FEE, Charge.DAY, Charge.HALF_DAY, Charge.OVERTIME}) | {
    Charge.PREPARATION,
    Charge.FINISHING,
    Charge.LICENCE,
}
"""The studio's own work and rights, as opposed to what it buys for the client."""


class Unit(StrEnum):
    """Unit of a line, by its UN/ECE Recommendation 20 code."""

    ONE = "C62"
    HOUR = "HUR"
    DAY = "DAY"
    KILOMETRE = "KMT"
    MILE = "SMI"
    PIECE = "H87"
    LUMP_SUM = "LS"


class PriceNotPossible(ValueError):
    """Raised when hours, counts, distances or percentages of an item cannot be meant."""


def check_quantity(*amounts: Decimal) -> None:
    """Refuse quantities and percentages below 0, beyond all measure, or no numbers at all.

    Parameters
    ----------
    amounts : Decimal
        Hours, counts, distances or percentages. [h, 1, km or %]

    Raises
    ------
    PriceNotPossible
        If one of them cannot be meant.

    Examples
    --------
    >>> check_quantity(Decimal(-1))
    Traceback (most recent call last):
    shoots.quotes.core.card.PriceNotPossible: Not a possible quantity: -1
    """
    for amount in amounts:
        if not amount.is_finite() or not _ZERO <= amount < _LARGEST:
            raise PriceNotPossible(f"Not a possible quantity: {amount}")


def check_price(*amounts: Decimal) -> None:
    """Refuse prices below 0, beyond all measure, or no numbers at all.

    Parameters
    ----------
    amounts : Decimal
        Prices of one unit. [currency units]

    Raises
    ------
    NegativePrice
        If a price is below 0.
    PriceNotPossible
        If a price is no number or absurdly large.

    Examples
    --------
    >>> check_price(Decimal("-0.01"))
    Traceback (most recent call last):
    shoots.quotes.core.totals.NegativePrice: -0.01
    """
    for amount in amounts:
        if amount.is_finite() and amount < 0:
            raise NegativePrice(str(amount))
        check_quantity(amount)


@dataclass(frozen=True, slots=True)
class DayRate:
    """Price of a day or half-day, the hours it includes and the price of an hour after them.

    Parameters
    ----------
    price : Decimal
        Price of the day. [currency units]
    included_hours : Decimal
        Hours from call to wrap that the price covers, greater than 0. [h]
    overtime_per_hour : Decimal
        Price of an hour beyond them. [currency units/h]
    overtime_step_hours : Decimal
        Overtime is counted in started steps of this length; 0 counts it exactly. [h]

    Raises
    ------
    NegativePrice
        If a price is below 0.
    PriceNotPossible
        If hours cannot be meant.
    """

    price: Decimal
    included_hours: Decimal
    overtime_per_hour: Decimal
    overtime_step_hours: Decimal = _ZERO

    def __post_init__(self) -> None:
        check_price(self.price, self.overtime_per_hour)
        check_quantity(self.included_hours, self.overtime_step_hours)
        if self.included_hours == 0:
            raise PriceNotPossible("A day includes some hours.")


@dataclass(frozen=True, slots=True)
class Photography:
    """Days or half-days behind the camera, with the hours planned for each. [h]"""

    charge: Charge
    rate: DayRate
    days: Decimal = _ONE
    hours_each: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Hours:
    """Hours of preparation. [h, currency units/h]"""

    hours: Decimal
    per_hour: Decimal
    charge: Charge = Charge.PREPARATION


@dataclass(frozen=True, slots=True)
class Finishing:
    """Finished pictures at a price each. [1, currency units]"""

    pictures: int
    per_picture: Decimal


@dataclass(frozen=True, slots=True)
class LicenceFee:
    """The fee for the usage rights, priced by `rights`. [currency units]"""

    fee: Decimal


@dataclass(frozen=True, slots=True)
class CrewDays:
    """Days of somebody on the crew, with the hours planned for each. [d, h]"""

    rate: DayRate
    days: Decimal = _ONE
    hours_each: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Hire:
    """Hired pieces by the day. [1, d, currency units/d]"""

    per_day: Decimal
    days: Decimal = _ONE
    pieces: int = 1


@dataclass(frozen=True, slots=True)
class Travel:
    """A distance driven so many times; the rate may be per the other unit. [km or mile]"""

    distance: Decimal
    distance_unit: Unit
    rate: Decimal
    rate_unit: Unit
    trips: int = 1


@dataclass(frozen=True, slots=True)
class Place:
    """A studio or a permit at a price each. [currency units]"""

    charge: Charge
    price: Decimal
    quantity: Decimal = _ONE
    unit: Unit = Unit.DAY


@dataclass(frozen=True, slots=True)
class Expense:
    """Something bought for the shoot at cost, with or without a mark-up. [currency units, %]

    With ``mark_up_shown`` false the mark-up is inside the unit price and no note names it.
    """

    cost: Decimal
    mark_up_percent: Decimal = _ZERO
    mark_up_shown: bool = True
    quantity: Decimal = _ONE


@dataclass(frozen=True, slots=True)
class Typed:
    """A line as somebody typed it: so many at a price each, with a mark-up if any. [units, currency units, %]"""

    charge: Charge
    quantity: Decimal
    unit_price: Decimal
    unit: Unit = Unit.ONE
    mark_up_percent: Decimal = _ZERO


Item = Typed | Photography | Hours | Finishing | LicenceFee | CrewDays | Hire | Travel | Place | Expense
