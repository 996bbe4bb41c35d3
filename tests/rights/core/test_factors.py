"""The studio's factors. Own starting values without a source; here only their form is checked."""

from dataclasses import replace
from decimal import Decimal

import pytest

from shoots.rights.core.factors import (
    STARTING_FACTORS,
    FactorNotPossible,
    Reach,
    read_factors,
    write_factors,
)
from shoots.rights.core.terms import Exclusivity, Medium


def test_starting_factors_price_every_use_that_can_be_described():
    assert set(STARTING_FACTORS.media) == set(Medium)
    assert set(STARTING_FACTORS.territory) == set(Reach)
    assert set(STARTING_FACTORS.exclusivity) == set(Exclusivity)


def test_factors_survive_being_kept_as_a_plain_table():
    assert read_factors(write_factors(STARTING_FACTORS)) == STARTING_FACTORS


def test_an_empty_table_starts_from_the_starting_values():
    assert read_factors({}) == STARTING_FACTORS


def test_the_studios_own_steps_of_months_replace_the_starting_ones():
    factors = read_factors({"months": {"12": "1", "48": "2.5"}, "territory": {"WORLD": "3"}})
    assert factors.months == {12: Decimal(1), 48: Decimal("2.5")}
    assert factors.territory[Reach.WORLD] == 3 and factors.territory[Reach.ONE_COUNTRY] == 1


@pytest.mark.parametrize(
    "table",
    [
        {"media": {"SKYWRITING": "1"}},
        {"media": {"EMAIL": "much"}},
        {"media": {"EMAIL": "-1"}},
        {"media": ["EMAIL"]},
        {"months": {"0": "1"}},
        {"months": {"a year": "1"}},
        {"perpetual": "NaN"},
        {"mood": {}},
    ],
    ids=str,
)
def test_a_table_that_cannot_be_meant_is_refused(table):
    with pytest.raises(FactorNotPossible):
        read_factors(table)


@pytest.mark.parametrize("factor", ["-0.1", "NaN", "Infinity"])
def test_a_factor_that_cannot_be_meant_is_refused(factor):
    with pytest.raises(FactorNotPossible):
        replace(STARTING_FACTORS, perpetual=Decimal(factor))
    with pytest.raises(FactorNotPossible):
        replace(STARTING_FACTORS, media={Medium.EMAIL: Decimal(factor)})
