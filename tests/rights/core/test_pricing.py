"""The price of usage. Own rules, worked by hand beside each case; the factors have no source."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.rights.core.factors import (
    STARTING_FACTORS,
    Dimension,
    FactorMissing,
    FactorNotPossible,
    Reach,
)
from shoots.rights.core.pricing import price_use, reach_of
from shoots.rights.core.terms import Exclusivity, Medium, Term, Use
from shoots.rights.core.territories import TerritoryGroup, territory, world
from shoots.values.money import Money

BASE = Money(Decimal(600), "GBP")


def use(**changes):
    values = {
        "clause": "2.1",
        "media": frozenset({Medium.OWN_WEBSITE}),
        "territory": territory(["GB"]),
        "term": Term(date(2026, 2, 1), 12),
        "licensees": frozenset({"brand"}),
    }
    return Use(**(values | changes))


def test_every_step_to_the_price_is_a_line():
    # 600 x 0.40 = 240; + 600 x 0.50 = 540; x 1.30 = 702; x 1.60 = 1123.20; x 1.50 = 1684.80.
    clause = use(
        media=frozenset({Medium.PAID_SOCIAL, Medium.OWN_WEBSITE}),
        territory=territory(["GB", "IE"]),
        term=Term(date(2026, 2, 1), 24),
        exclusivity=Exclusivity.INDUSTRY,
    )
    price = price_use(BASE, clause, STARTING_FACTORS)
    assert [(str(line.dimension), str(line.key), str(line.factor), line.subtotal.amount) for line in price.lines] == [
        ("MEDIA", "OWN_WEBSITE", "0.40", Decimal(240)),
        ("MEDIA", "PAID_SOCIAL", "0.50", Decimal(540)),
        ("TERRITORY", "FEW_COUNTRIES", "1.30", Decimal(702)),
        ("TERM", "24", "1.60", Decimal("1123.2")),
        ("EXCLUSIVITY", "INDUSTRY", "1.50", Decimal("1684.8")),
    ]
    assert price.total == Money(Decimal("1684.80"), "GBP")


def test_only_the_total_is_rounded():
    # 333.33 x 0.15 = 49.9995; x 0.70 = 34.99965 -> 35.00.
    price = price_use(
        Money(Decimal("333.33"), "GBP"),
        use(media=frozenset({Medium.EMAIL}), term=Term(date(2026, 2, 1), 6)),
        STARTING_FACTORS,
    )
    assert price.lines[0].subtotal.amount == Decimal("49.9995")
    assert str(price.total.amount) == "35.00"


@pytest.mark.parametrize(("months", "step"), [(1, "3"), (3, "3"), (4, "6"), (18, "24"), (60, "60")])
def test_a_term_between_two_steps_counts_as_the_longer(months, step):
    price = price_use(BASE, use(term=Term(date(2026, 2, 1), months)), STARTING_FACTORS)
    assert next(line.key for line in price.lines if line.dimension is Dimension.TERM) == step


def test_a_term_without_end_has_its_own_factor():
    price = price_use(BASE, use(term=Term(None)), STARTING_FACTORS)
    assert price.lines[-2].key == "PERPETUAL" and price.total.amount == 600 * Decimal("0.40") * 4


@pytest.mark.parametrize(
    ("place", "reach"),
    [
        (territory(["GB"]), Reach.ONE_COUNTRY),
        (territory(groups=[TerritoryGroup.NORDICS]), Reach.FEW_COUNTRIES),
        (territory(groups=[TerritoryGroup.DACH, TerritoryGroup.BENELUX]), Reach.MANY_COUNTRIES),
        (territory(groups=[TerritoryGroup.EEA]), Reach.MANY_COUNTRIES),
        (territory(groups=[TerritoryGroup.EMEA]), Reach.CONTINENTS),
        (world(), Reach.WORLD),
        (world(excluded=["US"]), Reach.WORLD),
    ],
)
def test_reach_follows_from_the_countries(place, reach):
    assert reach_of(place) is reach


MEDIA = st.frozensets(st.sampled_from(list(Medium)), min_size=1)
MONTHS = st.integers(1, 60)


@given(MEDIA, MEDIA, MONTHS, MONTHS)
def test_more_media_or_a_longer_term_never_cost_less(media, more, months, longer):
    small = use(media=media, term=Term(date(2026, 2, 1), min(months, longer)))
    large = use(media=media | more, term=Term(date(2026, 2, 1), max(months, longer)))
    assert price_use(BASE, small, STARTING_FACTORS).total <= price_use(BASE, large, STARTING_FACTORS).total


@pytest.mark.parametrize(
    ("factors", "dimension"),
    [
        (replace(STARTING_FACTORS, media={}), Dimension.MEDIA),
        (replace(STARTING_FACTORS, territory={}), Dimension.TERRITORY),
        (replace(STARTING_FACTORS, months={6: Decimal(1)}), Dimension.TERM),
        (replace(STARTING_FACTORS, exclusivity={}), Dimension.EXCLUSIVITY),
    ],
    ids=lambda value: str(value) if isinstance(value, Dimension) else "",
)
def test_a_factor_that_the_studio_has_not_set_is_asked_for(factors, dimension):
    with pytest.raises(FactorMissing) as refusal:
        price_use(BASE, use(), factors)
    assert refusal.value.dimension is dimension


def test_a_negative_base_is_refused():
    with pytest.raises(FactorNotPossible):
        price_use(Money(Decimal(-1), "GBP"), use(), STARTING_FACTORS)
