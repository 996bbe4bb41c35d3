"""Rate-card pricing.

Worked sums are computed by hand beside each case (own rules, no source); the mile is checked against
pint's unit registry; that lines are rounded as EN 16931-1 BR-CO-10 wants is checked in test_totals.
"""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.quotes.core.card import (
    Charge,
    CrewDays,
    DayRate,
    Expense,
    Finishing,
    Hire,
    Hours,
    LicenceFee,
    Photography,
    Place,
    PriceNotPossible,
    Travel,
    Typed,
    Unit,
)
from shoots.quotes.core.pricing import (
    KM_PER_MILE,
    OUTSIDE_SCOPE,
    Note,
    NoteCode,
    Tax,
    overtime_hours,
    price_item,
)
from shoots.quotes.core.totals import NegativePrice, VatRateMismatch, compute_totals

TAX = Tax(rate=Decimal(20))
DAY = DayRate(Decimal(1200), Decimal(8), Decimal(150), Decimal("0.5"))
HALF_DAY = DayRate(Decimal(700), Decimal(4), Decimal(160))


def priced(item):
    return price_item(item, currency="GBP", tax=TAX)


def printed(line):
    return (str(line.charge), str(line.quantity), str(line.unit), str(line.unit_price), str(line.net))


def test_a_day_within_its_hours_is_one_line():
    (line,) = priced(Photography(Charge.DAY, DAY, hours_each=Decimal(8)))
    assert printed(line) == ("DAY", "1", "DAY", "1200", "1200.00")
    assert line.notes == (Note(NoteCode.INCLUDED_HOURS, Decimal(8)),)


def test_hours_beyond_the_day_are_a_line_of_their_own():
    # 2 days of 9 h 15: 1 h 15 beyond, counted in started half-hours = 1.5 h, twice = 3 h at 150 = 450.
    day, overtime = priced(Photography(Charge.DAY, DAY, days=Decimal(2), hours_each=Decimal("9.25")))
    assert printed(day) == ("DAY", "2", "DAY", "1200", "2400.00")
    assert printed(overtime) == ("OVERTIME", "3.0", "HUR", "150", "450.00")
    assert overtime.notes == (
        Note(NoteCode.HOURS_BEYOND, Decimal("1.25")),
        Note(NoteCode.STARTED_STEP, Decimal("0.5")),
    )


def test_a_half_day_counts_its_hours_exactly_without_a_step():
    # 5 h 20 on a half-day of 4 h: 1.3333 h at 160 = 213.328 -> 213.33.
    half, overtime = priced(Photography(Charge.HALF_DAY, HALF_DAY, hours_each=Decimal("5.3333")))
    assert (half.net, overtime.quantity, overtime.net) == (
        Decimal("700.00"),
        Decimal("1.3333"),
        Decimal("213.33"),
    )


def test_no_days_make_no_overtime():
    assert len(priced(Photography(Charge.DAY, DAY, days=Decimal(0), hours_each=Decimal(12)))) == 1


@given(st.decimals(min_value=0, max_value=24, places=2), st.decimals(min_value=0, max_value=24, places=2))
def test_longer_hours_never_cost_less(first, second):
    shorter, longer = sorted((first, second))
    assert overtime_hours(DAY, shorter) <= overtime_hours(DAY, longer)


@given(st.decimals(min_value=0, max_value=24, places=2))
def test_a_started_step_is_charged_and_never_a_whole_step_more(hours):
    beyond = max(Decimal(0), hours - DAY.included_hours)
    assert beyond <= overtime_hours(DAY, hours) < beyond + DAY.overtime_step_hours


def test_preparation_finishing_and_licence_are_quantity_times_price():
    # 3.5 x 65 = 227.50; 12 x 18.75 = 225.00.
    assert printed(priced(Hours(Decimal("3.5"), Decimal(65)))[0]) == (
        "PREPARATION",
        "3.5",
        "HUR",
        "65",
        "227.50",
    )
    assert printed(priced(Finishing(12, Decimal("18.75")))[0]) == (
        "FINISHING",
        "12",
        "H87",
        "18.75",
        "225.00",
    )
    assert printed(priced(LicenceFee(Decimal(900)))[0]) == ("LICENCE", "1", "LS", "900", "900.00")


def test_crew_and_hire_go_by_the_day():
    # Assistant: 1 day at 220 and 2 h beyond ten at 27.50 = 55; hire: 3 heads for 2 days at 35 = 210.
    assistant = DayRate(Decimal(220), Decimal(10), Decimal("27.50"))
    day, overtime = priced(CrewDays(assistant, hours_each=Decimal(12)))
    assert printed(day) == ("CREW", "1", "DAY", "220", "220.00")
    assert printed(overtime) == ("CREW_OVERTIME", "2", "HUR", "27.50", "55.00")
    (hire,) = priced(Hire(Decimal(35), days=Decimal(2), pieces=3))
    assert printed(hire) == ("HIRE", "6", "DAY", "35", "210.00")
    assert hire.notes == (Note(NoteCode.PIECES, Decimal(3)),)


def test_a_mile_is_the_international_mile():
    assert pint.UnitRegistry().Quantity(1, "mile").to("km").magnitude == pytest.approx(float(KM_PER_MILE), rel=1e-12)


@pytest.mark.parametrize(
    ("distance", "unit", "rate_unit", "trips", "expected"),
    [
        # 2 x 38 miles at 0.45 = 34.20
        ("38", Unit.MILE, Unit.MILE, 2, ("TRAVEL", "76", "SMI", "0.45", "34.20")),
        # 100 km = 62.137 miles, printed and charged as 62.1: 62.1 x 0.45 = 27.945 -> 27.95
        ("100", Unit.KILOMETRE, Unit.MILE, 1, ("TRAVEL", "62.1", "SMI", "0.45", "27.95")),
        # 50 miles = 80.467 km, printed and charged as 80.5: 80.5 x 0.45 = 36.225 -> 36.23
        ("50", Unit.MILE, Unit.KILOMETRE, 1, ("TRAVEL", "80.5", "KMT", "0.45", "36.23")),
    ],
)
def test_travel_is_charged_in_the_unit_of_its_rate(distance, unit, rate_unit, trips, expected):
    (line,) = priced(Travel(Decimal(distance), unit, Decimal("0.45"), rate_unit, trips))
    assert printed(line) == expected


def test_travel_says_what_it_was_converted_from_and_how_often():
    (line,) = priced(Travel(Decimal(50), Unit.KILOMETRE, Decimal("0.45"), Unit.MILE, trips=2))
    assert line.notes == (Note(NoteCode.TRIPS, Decimal(2)), Note(NoteCode.CONVERTED_FROM_KM, Decimal(100)))


def test_an_expense_at_cost_says_so():
    (line,) = priced(Expense(Decimal("84.30")))
    assert (line.net, line.mark_up, line.notes) == (Decimal("84.30"), Decimal(0), (Note(NoteCode.AT_COST),))


def test_a_mark_up_is_shown_beside_the_cost():
    # 84.30 + 12.5 % = 10.5375 -> 10.54; together 94.84.
    (line,) = priced(Expense(Decimal("84.30"), Decimal("12.5")))
    assert (line.unit_price, line.mark_up, line.net) == (Decimal("84.30"), Decimal("10.54"), Decimal("94.84"))
    assert line.notes == (Note(NoteCode.MARK_UP, Decimal("12.5")),)


def test_a_mark_up_that_is_not_shown_is_inside_the_price():
    (line,) = priced(Expense(Decimal("84.30"), Decimal("12.5"), mark_up_shown=False))
    assert (line.unit_price, line.mark_up, line.net, line.notes) == (
        Decimal("94.84"),
        Decimal(0),
        Decimal("94.84"),
        (),
    )


def test_a_typed_line_is_what_was_typed_and_an_expense_with_a_mark_up_like_it():
    # 3 x 28.10 = 84.30; + 12.5 % = 10.54.
    (line,) = priced(Typed(Charge.FEE, Decimal(1), Decimal(1500)))
    assert printed(line) == ("FEE", "1", "C62", "1500", "1500.00")
    (catering,) = priced(Typed(Charge.EXPENSE, Decimal(3), Decimal("28.10"), mark_up_percent=Decimal("12.5")))
    assert (catering.mark_up, catering.net) == (Decimal("10.54"), Decimal("94.84"))


def test_places_are_a_studio_or_a_permit():
    (line,) = priced(Place(Charge.PERMIT, Decimal(120), unit=Unit.LUMP_SUM))
    assert printed(line) == ("PERMIT", "1", "LS", "120", "120.00")
    with pytest.raises(PriceNotPossible):
        priced(Place(Charge.CREW, Decimal(120)))


ITEMS = st.one_of(
    st.builds(
        Photography,
        st.sampled_from([Charge.DAY, Charge.HALF_DAY]),
        st.sampled_from([DAY, HALF_DAY]),
        st.decimals(min_value=0, max_value=20, places=1),
        st.none() | st.decimals(min_value=0, max_value=24, places=2),
    ),
    st.builds(
        Typed,
        st.just(Charge.FEE),
        st.decimals(min_value=0, max_value=99, places=3),
        st.decimals(min_value=0, max_value=999, places=4),
        st.just(Unit.ONE),
        st.decimals(min_value=0, max_value=100, places=2),
    ),
    st.builds(Finishing, st.integers(0, 500), st.decimals(min_value=0, max_value=500, places=4)),
    st.builds(
        Expense,
        st.decimals(min_value=0, max_value=5000, places=2),
        st.decimals(min_value=0, max_value=100, places=1),
        st.booleans(),
    ),
    st.builds(
        Travel,
        st.decimals(min_value=0, max_value=2000, places=1),
        st.sampled_from([Unit.KILOMETRE, Unit.MILE]),
        st.decimals(min_value=0, max_value=3, places=3),
        st.sampled_from([Unit.KILOMETRE, Unit.MILE]),
        st.integers(0, 6),
    ),
)


@given(ITEMS)
def test_every_line_can_be_checked_with_a_pocket_calculator(item):
    for line in priced(item):
        exact = Fraction(line.quantity) * Fraction(line.unit_price) + Fraction(line.mark_up)
        assert abs(Fraction(line.net) - exact) <= Fraction(1, 200)


@given(st.lists(ITEMS, max_size=6))
def test_totals_take_the_same_nets_as_the_lines_show(items):
    lines = [line for item in items for line in priced(item)]
    totals = compute_totals([line.as_line() for line in lines], currency="GBP")
    assert totals.line_net == tuple(line.net for line in lines)


def test_a_studio_without_vat_prices_outside_scope():
    (line,) = price_item(LicenceFee(Decimal(450)), currency="GBP", tax=OUTSIDE_SCOPE)
    assert compute_totals([line.as_line()], currency="GBP").payable == Decimal("450.00")


@pytest.mark.parametrize(
    "item",
    [
        Hours(Decimal(1), Decimal(-1)),
        Finishing(1, Decimal(-1)),
        LicenceFee(Decimal(-1)),
        Typed(Charge.FEE, Decimal(1), Decimal(-1)),
        Hire(Decimal(-1)),
        Travel(Decimal(1), Unit.MILE, Decimal(-1), Unit.MILE),
        Place(Charge.STUDIO, Decimal(-1)),
        Expense(Decimal(-1)),
    ],
    ids=lambda item: type(item).__name__,
)
def test_no_item_has_a_negative_price(item):
    with pytest.raises(NegativePrice):
        priced(item)


@pytest.mark.parametrize(
    "item",
    [
        Photography(Charge.CREW, DAY),
        Photography(Charge.DAY, DAY, days=Decimal(-1)),
        Photography(Charge.DAY, DAY, hours_each=Decimal(25)),
        Hours(Decimal(-1), Decimal(1)),
        Finishing(-1, Decimal(1)),
        Typed(Charge.FEE, Decimal(-1), Decimal(1)),
        Typed(Charge.FEE, Decimal(1), Decimal(1), mark_up_percent=Decimal(-1)),
        Hire(Decimal(1), pieces=-1),
        Travel(Decimal(-1), Unit.MILE, Decimal(1), Unit.MILE),
        Travel(Decimal(1), Unit.HOUR, Decimal(1), Unit.MILE),
        Expense(Decimal(1), Decimal(-1)),
        Expense(Decimal("NaN")),
        LicenceFee(Decimal("Infinity")),
    ],
    ids=repr,
)
def test_an_item_that_cannot_be_meant_is_refused(item):
    with pytest.raises(PriceNotPossible):
        priced(item)


def test_a_tax_category_with_the_wrong_rate_is_refused():
    with pytest.raises(VatRateMismatch):
        price_item(LicenceFee(Decimal(1)), currency="GBP", tax=Tax(rate=Decimal(0)))
