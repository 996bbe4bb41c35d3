"""What a longer list costs. The sums are worked by hand beside each case; minutes of changes: common practice."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from shoots.agreement.core.agreed import Agreed, AgreedShot, AgreedWork
from shoots.agreement.core.growth import Basis, CostCode, Load, Prices, Unpriced, WorkPrice, growth, load_of

RIM = AgreedShot(1, 1, "Rim", minutes=30, finals=6, setup="a", day="1", place="Quarry", outfits=("grey",))
SLAB = AgreedShot(2, 2, "Slab", minutes=20, finals=6, setup="b", day="1", place="Quarry", outfits=("grey",))
BEFORE = Agreed(shots=(RIM, SLAB), usage_months=12)
WALL = AgreedShot(3, 3, "Wall", minutes=25, finals=2, setup="c", day="1", place="Reservoir", outfits=("red",))
AFTER = replace(BEFORE, shots=(RIM, SLAB, WALL))
QUOTE = Prices(
    Basis.ACCEPTED,
    "Q-2026-001-3",
    "GBP",
    finishing=Decimal(45),
    finishing_quoted=Decimal(12),
    licence=Decimal(1200),
    licensed=12,
    overtime=Decimal(150),
)


def test_a_list_sums_up_minutes_setups_places_and_outfits() -> None:
    assert load_of(AFTER.shots) == Load(shots=3, finals=14, minutes=75, builds=3, moves=1, outfits=1)


def test_a_setup_is_built_once_a_day_and_again_on_another_day() -> None:
    again = replace(RIM, key=9, day="2")
    assert load_of([RIM, replace(RIM, key=8), again]).builds == 2
    assert load_of([RIM, again]).moves == 0


def test_an_empty_list_asks_for_nothing() -> None:
    assert load_of([]) == Load()


def test_one_more_shot_with_two_pictures_in_time_and_money() -> None:
    """25 min + one build of 30 + one move of 30 + one outfit of 10 = 95 min; 2 × £45 + 2 × £1,200/12 = £290;
    95 min = 1.58 h at £150 = £237."""
    found = growth(BEFORE, AFTER, QUOTE)
    assert found.more.minutes == 25
    assert found.more.all_minutes == 95
    assert [(line.code, line.quantity, line.unit_price, line.net) for line in found.lines] == [
        (CostCode.FINISHING, Decimal(2), Decimal(45), Decimal("90.00")),
        (CostCode.LICENCE_SHARE, Decimal(2), Decimal("100.00"), Decimal("200.00")),
    ]
    assert found.total == Decimal("290.00")
    assert found.if_over is not None
    assert (found.if_over.quantity, found.if_over.net) == (Decimal("1.58"), Decimal("237.00"))
    assert found.unpriced == (Unpriced.SETUPS,)  # the time has a price, should the day not hold it


def test_what_the_quote_and_the_usage_cover_costs_nothing_more() -> None:
    """The quote finishes 13 and the usage counts 14: of the two pictures more one costs finishing, none a licence."""
    found = growth(BEFORE, AFTER, replace(QUOTE, finishing_quoted=Decimal(13), licensed=14))
    assert [(line.code, line.quantity, line.covered) for line in found.lines] == [
        (CostCode.FINISHING, Decimal(1), Decimal(13))
    ]


@pytest.mark.parametrize(
    ("prices", "expected"),
    [
        (None, {Unpriced.FINISHING_RATE, Unpriced.LICENCE_FEE}),
        (replace(QUOTE, finishing=None), {Unpriced.FINISHING_RATE}),
        (replace(QUOTE, licence=None), {Unpriced.LICENCE_FEE}),
        (replace(QUOTE, licensed=None), {Unpriced.LICENCE_UNCOUNTED}),
    ],
)
def test_what_has_no_price_is_named_and_not_guessed(prices: Prices | None, expected: set[Unpriced]) -> None:
    found = growth(BEFORE, AFTER, prices)
    assert expected <= set(found.unpriced)
    assert len(found.lines) == (0 if prices is None else 1)


def test_a_shorter_list_saves_time_and_takes_no_money_off() -> None:
    found = growth(AFTER, BEFORE, QUOTE)
    assert found.more.all_minutes == -95
    assert (found.lines, found.total, found.if_over) == ((), Decimal(0), None)
    assert found.unpriced == (Unpriced.FEWER,)


def test_another_usage_is_not_priced_but_said() -> None:
    found = growth(BEFORE, replace(BEFORE, usage_months=24), QUOTE)
    assert (found.more, found.lines, found.unpriced) == (Load(), (), (Unpriced.USAGE,))
    assert not found.costs_nothing


def test_words_alone_cost_nothing() -> None:
    assert growth(BEFORE, replace(BEFORE, purpose="Something else"), QUOTE).costs_nothing


def test_finishing_beyond_the_usual_costs_what_its_shot_says_else_what_the_quote_or_card_says() -> None:
    """Flare on 2 pictures at the shot's own £15 = £30; grade on 6 at the quote's £8 less the 2 it has = 4 × 8 = £32;
    a work that nobody priced is said."""
    own = replace(WALL, finishing=(AgreedWork("Flare added", 2, "15"),))
    quoted = replace(RIM, finishing=(AgreedWork("Night grade", 6), AgreedWork("Dust drawn", 1)))
    prices = replace(QUOTE, works={"night grade": WorkPrice(Decimal(8), Decimal(2))})
    found = growth(BEFORE, replace(BEFORE, shots=(quoted, SLAB, own)), prices)
    works = [(line.label, line.quantity, line.net) for line in found.lines if line.code is CostCode.WORK]
    assert works == [("Night grade", Decimal(4), Decimal("32.00")), ("Flare added", Decimal(2), Decimal("30.00"))]
    assert Unpriced.WORK in found.unpriced


def test_a_work_that_was_agreed_before_costs_nothing_again() -> None:
    graded = replace(RIM, finishing=(AgreedWork("Night grade", 6, "8"),))
    before = replace(BEFORE, shots=(graded, SLAB))
    assert growth(before, replace(before, purpose="Else"), QUOTE).costs_nothing


def test_a_shot_without_light_is_said() -> None:
    odd = replace(WALL, setup="", finals=0)
    found = growth(BEFORE, replace(BEFORE, shots=(RIM, SLAB, odd)), QUOTE)
    assert found.unpriced == (Unpriced.NO_SETUP,)
    assert Unpriced.TIME in growth(BEFORE, replace(BEFORE, shots=(RIM, SLAB, odd)), None).unpriced


def test_yen_have_no_decimals() -> None:
    found = growth(BEFORE, AFTER, replace(QUOTE, currency="JPY", decimals=0, licence=Decimal(100000)))
    assert found.lines[1].unit_price == Decimal(8333)  # 100,000 / 12 = 8,333.33
