"""Clauses of a licence. Last days: tests/data/licence_period.json; the rest are own rules."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from shoots.rights.core.terms import (
    Condition,
    ConditionKind,
    Exclusivity,
    Medium,
    Term,
    TermNotPossible,
    Use,
    describe,
)
from shoots.rights.core.territories import TerritoryGroup, territory, world

CASES = json.loads((Path(__file__).parents[2] / "data" / "licence_period.json").read_text(encoding="utf-8"))["cases"]
START = date(2026, 2, 1)


def use(**changes):
    values = {
        "clause": "2.1",
        "media": frozenset({Medium.OWN_WEBSITE}),
        "territory": territory(["GB"]),
        "term": Term(START, 12),
        "licensees": frozenset({"brand"}),
    }
    return Use(**(values | changes))


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['start']}+{case['months']}")
def test_a_term_ends_on_the_last_day_of_the_cases(case):
    term = Term(date.fromisoformat(case["start"]), case["months"])
    assert term.period.last_day.isoformat() == case["last_day"]


def test_a_term_without_months_never_ends():
    term = Term(START)
    assert term.is_perpetual and term.period.last_day is None and date(2999, 1, 1) in term.period


def test_a_term_whose_start_is_open_has_no_days_yet():
    assert Term(None, 12).period is None and Term(None).period is None


@pytest.mark.parametrize("months", [0, -1, 1201])
def test_a_term_of_no_months_or_of_centuries_is_refused(months):
    with pytest.raises(TermNotPossible):
        Term(START, months)


@pytest.mark.parametrize(
    "missing",
    [{"clause": ""}, {"media": frozenset()}, {"licensees": frozenset()}, {"pictures": frozenset()}],
    ids=lambda missing: next(iter(missing)),
)
def test_a_use_that_grants_nothing_to_anybody_is_refused(missing):
    with pytest.raises(TermNotPossible):
        use(**missing)


def test_a_suspending_condition_is_met_from_its_day_on():
    paid = Condition(ConditionKind.INVOICE_PAID, fulfilled_on=START)
    assert paid.is_met(START) and not paid.is_met(START - timedelta(days=1))
    assert not Condition(ConditionKind.INVOICE_PAID).is_met(START)


def test_a_duty_never_holds_a_grant_back():
    assert Condition(ConditionKind.CREDIT_LINE).is_met(START)


def test_a_description_sorts_and_separates_what_the_clause_holds():
    paid = Condition(ConditionKind.INVOICE_PAID, reference="INV-2026-0007")
    credit = Condition(ConditionKind.CREDIT_LINE)
    described = describe(
        use(
            media=frozenset({Medium.PACKAGING, Medium.OWN_WEBSITE, Medium.PAID_SOCIAL}),
            territory=territory(["FR"], groups=[TerritoryGroup.DACH], excluded=["CH"]),
            licensees=frozenset({"brand", "agency"}),
            exclusivity=Exclusivity.INDUSTRY,
            conditions=(credit, paid),
            pictures=frozenset({"p1", "p2"}),
        )
    )
    assert described.media == (Medium.OWN_WEBSITE, Medium.PAID_SOCIAL, Medium.PACKAGING)
    assert (described.groups, described.countries_apart, described.excluded) == (
        (TerritoryGroup.DACH,),
        ("FR",),
        ("CH",),
    )
    assert described.countries == ("AT", "DE", "FR")
    assert (described.first_day, described.last_day, described.months) == (START, date(2027, 1, 31), 12)
    assert (described.licensees, described.picture_count) == (("agency", "brand"), 2)
    assert (described.waits_for, described.duties) == ((paid,), (credit,))


def test_a_description_of_the_world_for_ever_lists_no_countries_and_no_last_day():
    described = describe(use(territory=world(excluded=["US"]), term=Term(START)))
    assert (described.is_world, described.countries, described.excluded) == (True, (), ("US",))
    assert (described.is_perpetual, described.last_day, described.picture_count) == (True, None, None)


def test_a_description_of_an_open_start_has_no_days():
    described = describe(use(term=Term(None, 12)))
    assert (described.first_day, described.last_day, described.months) == (None, None, 12)
