"""Prices from a rate card: what was asked for becomes lines whose arithmetic can be checked by hand.

``price_item`` turns one thing that a studio charges for into lines of quantity times unit price, with
codes that say why a line is there (hours beyond the day, a mark-up, a distance converted). Sentences and
labels belong to the templates.

References
----------
.. [1] Own rules, see tests: started steps of overtime, mark-up on the rounded cost, distances converted
   and rounded to a tenth before they are multiplied.
.. [2] International mile: 1,609.344 m exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from enum import StrEnum

from shoots.quotes.core.card import (
    FEES,
    Charge,
    CrewDays,
    DayRate,
    Expense,
    Finishing,
    Hire,
    Hours,
    Item,
    LicenceFee,
    Photography,
    Place,
    PriceNotPossible,
    Travel,
    Typed,
    Unit,
    check_price,
    check_quantity,
)
from shoots.quotes.core.totals import Line, VatCategory, document_decimals
from shoots.values.money import round_half_up

_ZERO, _ONE, _HUNDRED = Decimal(0), Decimal(1), Decimal(100)
KM_PER_MILE = Decimal("1.609344")


class NoteCode(StrEnum):
    """Why a line is as it is; the template says it in words."""

    INCLUDED_HOURS = "INCLUDED_HOURS"
    HOURS_BEYOND = "HOURS_BEYOND"
    STARTED_STEP = "STARTED_STEP"
    CONVERTED_FROM_KM = "CONVERTED_FROM_KM"
    CONVERTED_FROM_MILES = "CONVERTED_FROM_MILES"
    TRIPS = "TRIPS"
    PIECES = "PIECES"
    MARK_UP = "MARK_UP"
    AT_COST = "AT_COST"


@dataclass(frozen=True, slots=True)
class Note:
    """A code and the number that goes with it (hours, kilometres, per cent, pieces)."""

    code: NoteCode
    value: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Tax:
    """How a line is taxed: category and rate. [%]"""

    category: VatCategory = VatCategory.STANDARD
    rate: Decimal | None = None


OUTSIDE_SCOPE = Tax(VatCategory.OUTSIDE_SCOPE)
"""The tax of a studio that is not registered for VAT."""


@dataclass(frozen=True, slots=True)
class PricedLine:
    """One line of a quote: quantity × unit price + mark-up, and why it is there.

    ``net`` is rounded as the document rounds it. [currency units]
    """

    charge: Charge
    quantity: Decimal
    unit: Unit
    unit_price: Decimal
    net: Decimal
    tax: Tax
    mark_up: Decimal = _ZERO
    notes: tuple[Note, ...] = ()

    @property
    def is_fee(self) -> bool:
        """Whether the line is the studio's own work or rights."""
        return self.charge in FEES

    def as_line(self) -> Line:
        """Return the line as the totals take it."""
        return Line(
            quantity=self.quantity,
            net_price=self.unit_price,
            line_charge=self.mark_up,
            vat_category=self.tax.category,
            vat_rate=self.tax.rate,
        )


@dataclass(frozen=True, slots=True)
class _Draft:
    charge: Charge
    quantity: Decimal
    unit: Unit
    unit_price: Decimal
    mark_up: Decimal = _ZERO
    notes: tuple[Note, ...] = ()


def overtime_hours(rate: DayRate, hours: Decimal) -> Decimal:
    """Return the hours to be charged beyond those that the day includes.

    Parameters
    ----------
    rate : DayRate
        The day with its included hours and the step in which overtime counts.
    hours : Decimal
        Hours planned or worked, at least 0. [h]

    Returns
    -------
    Decimal
        Hours beyond, rounded up to a whole number of steps; 0 when there are none. [h]

    Raises
    ------
    PriceNotPossible
        If ``hours`` is below 0, above 24, or no number.

    Examples
    --------
    >>> day = DayRate(Decimal(1200), Decimal(8), Decimal(150), Decimal("0.5"))
    >>> overtime_hours(day, Decimal("9.25"))
    Decimal('1.5')
    >>> overtime_hours(day, Decimal(8))
    Decimal('0')
    """
    check_quantity(hours)
    if hours > 24:
        raise PriceNotPossible("A day has 24 hours.")
    beyond = max(_ZERO, hours - rate.included_hours)
    step = rate.overtime_step_hours
    if step:
        beyond = (beyond / step).to_integral_value(ROUND_CEILING) * step
    return beyond


def _days(charge: Charge, over: Charge, item: Photography | CrewDays) -> list[_Draft]:
    rate, hours = item.rate, item.hours_each
    check_quantity(item.days)
    included = Note(NoteCode.INCLUDED_HOURS, rate.included_hours)
    drafts = [_Draft(charge, item.days, Unit.DAY, rate.price, notes=(included,))]
    beyond = _ZERO if hours is None else overtime_hours(rate, hours)
    if hours is not None and beyond and item.days:
        notes = [Note(NoteCode.HOURS_BEYOND, hours - rate.included_hours)]
        if rate.overtime_step_hours:
            notes.append(Note(NoteCode.STARTED_STEP, rate.overtime_step_hours))
        drafts.append(_Draft(over, beyond * item.days, Unit.HOUR, rate.overtime_per_hour, notes=tuple(notes)))
    return drafts


def _travel(item: Travel) -> _Draft:
    check_quantity(item.distance, Decimal(item.trips))
    check_price(item.rate)
    if not {item.distance_unit, item.rate_unit} <= {Unit.KILOMETRE, Unit.MILE}:
        raise PriceNotPossible("Distances are in kilometres or miles.")
    distance, notes = item.distance * item.trips, []
    if item.trips != 1:
        notes.append(Note(NoteCode.TRIPS, Decimal(item.trips)))
    if item.distance_unit is not item.rate_unit:
        if item.distance_unit is Unit.KILOMETRE:
            notes.append(Note(NoteCode.CONVERTED_FROM_KM, distance))
            distance = distance / KM_PER_MILE
        else:
            notes.append(Note(NoteCode.CONVERTED_FROM_MILES, distance))
            distance = distance * KM_PER_MILE
        # The printed distance is the one that is multiplied, so it is rounded before, not after.
        distance = round_half_up(distance, 1)
    return _Draft(Charge.TRAVEL, distance, item.rate_unit, item.rate, notes=tuple(notes))


def _typed(item: Typed, decimals: int) -> _Draft:
    check_price(item.unit_price)
    check_quantity(item.quantity, item.mark_up_percent)
    if not item.mark_up_percent:
        return _Draft(item.charge, item.quantity, item.unit, item.unit_price)
    cost = round_half_up(item.unit_price * item.quantity, decimals)
    mark_up = round_half_up(cost * item.mark_up_percent / _HUNDRED, decimals)
    notes = (Note(NoteCode.MARK_UP, item.mark_up_percent),)
    return _Draft(item.charge, item.quantity, item.unit, item.unit_price, mark_up, notes)


def _expense(item: Expense, decimals: int) -> _Draft:
    check_price(item.cost)
    check_quantity(item.quantity, item.mark_up_percent)
    if not item.mark_up_percent:
        at_cost = (Note(NoteCode.AT_COST),)
        return _Draft(Charge.EXPENSE, item.quantity, Unit.LUMP_SUM, item.cost, notes=at_cost)
    if not item.mark_up_shown:
        price = round_half_up(item.cost * (1 + item.mark_up_percent / _HUNDRED), decimals)
        return _Draft(Charge.EXPENSE, item.quantity, Unit.LUMP_SUM, price)
    shown = Typed(Charge.EXPENSE, item.quantity, item.cost, Unit.LUMP_SUM, item.mark_up_percent)
    return _typed(shown, decimals)


def _drafts(item: Item, decimals: int) -> list[_Draft]:
    match item:
        case Typed():
            return [_typed(item, decimals)]
        case Photography():
            if item.charge not in (Charge.DAY, Charge.HALF_DAY):
                raise PriceNotPossible("Photography is charged by the day or the half-day.")
            return _days(item.charge, Charge.OVERTIME, item)
        case CrewDays():
            return _days(Charge.CREW, Charge.CREW_OVERTIME, item)
        case Hours():
            check_quantity(item.hours)
            return [_Draft(item.charge, item.hours, Unit.HOUR, item.per_hour)]
        case Finishing():
            check_quantity(Decimal(item.pictures))
            return [_Draft(Charge.FINISHING, Decimal(item.pictures), Unit.PIECE, item.per_picture)]
        case LicenceFee():
            return [_Draft(Charge.LICENCE, _ONE, Unit.LUMP_SUM, item.fee)]
        case Hire():
            check_quantity(item.days, Decimal(item.pieces))
            pieces = (Note(NoteCode.PIECES, Decimal(item.pieces)),) if item.pieces != 1 else ()
            return [_Draft(Charge.HIRE, item.days * item.pieces, Unit.DAY, item.per_day, notes=pieces)]
        case Travel():
            return [_travel(item)]
        case Place():
            check_quantity(item.quantity)
            if item.charge not in (Charge.STUDIO, Charge.PERMIT):
                raise PriceNotPossible("A place is a studio or a permit.")
            return [_Draft(item.charge, item.quantity, item.unit, item.price)]
        case Expense():
            return [_expense(item, decimals)]


def price_item(item: Item, *, currency: str, tax: Tax) -> tuple[PricedLine, ...]:
    """Return the lines that one item of the rate card makes.

    Parameters
    ----------
    item : Item
        What was asked for, with its rate.
    currency : str
        ISO 4217 code of the quote.
    tax : Tax
        How the item is taxed.

    Returns
    -------
    tuple[PricedLine, ...]
        One line, or two where hours run beyond the day.

    Raises
    ------
    NegativePrice
        If a rate is below 0.
    PriceNotPossible
        If hours, counts, distances or percentages cannot be meant.
    VatRateMismatch
        If category and rate don't go together.

    Examples
    --------
    >>> day = DayRate(Decimal(1200), Decimal(8), Decimal(150))
    >>> item = Photography(Charge.DAY, day, days=Decimal(2), hours_each=Decimal(10))
    >>> for line in price_item(item, currency="GBP", tax=Tax(rate=Decimal(20))):
    ...     print(line.charge, line.quantity, line.unit, line.unit_price, line.net)
    DAY 2 DAY 1200 2400.00
    OVERTIME 4 HUR 150 600.00
    """
    decimals = document_decimals(currency)
    priced = []
    for draft in _drafts(item, decimals):
        check_price(draft.unit_price)
        line = Line(
            quantity=draft.quantity,
            net_price=draft.unit_price,
            line_charge=draft.mark_up,
            vat_category=tax.category,
            vat_rate=tax.rate,
        )
        priced.append(
            PricedLine(
                charge=draft.charge,
                quantity=draft.quantity,
                unit=draft.unit,
                unit_price=draft.unit_price,
                net=line.net(decimals),
                tax=tax,
                mark_up=draft.mark_up,
                notes=draft.notes,
            )
        )
    return tuple(priced)
