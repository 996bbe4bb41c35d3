"""Where accepted drafts go. Own arrangement; no outside source, but the codes are those of the brief and ISO 3166."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pycountry
import pytest

from shoots.brief.core.placements import Placement
from shoots.brief.core.territories import GROUPS, WORLD
from shoots.call.core import landing
from shoots.call.core.drafts import (
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
    Pole,
    ShapeValue,
    Tax,
    TerritoryValue,
    TextValue,
    Value,
)
from shoots.call.core.lexicons import package_lexicons

JUNE_17, JUNE_18 = date(2026, 6, 17), date(2026, 6, 18)


def steps(kind: DraftKind, value: Value) -> tuple[landing.Step, ...]:
    return landing.steps(kind, value, line="words")


def test_every_placement_of_the_lexicon_is_one_of_the_brief() -> None:
    entries = package_lexicons().tables["placement"].values()
    codes = {str(entry.data.get("as", entry.code)) for entry in entries}
    assert [code for code in codes if not landing.placements_of(code)] == []


def test_all_media_means_every_placement() -> None:
    (step,) = steps(DraftKind.PLACEMENT, PlacementValue("all"))
    assert step == landing.AddCodes("placements", tuple(str(placement) for placement in Placement))


def test_every_group_and_country_of_the_lexicon_lands_as_something_the_brief_can_name() -> None:
    for table in ("region", "group"):
        for entry in package_lexicons().tables[table].values():
            codes = tuple(entry.data.get("codes", ()))
            for step in steps(DraftKind.TERRITORY, TerritoryValue(codes, group=entry.code if table == "group" else "")):
                assert isinstance(step, landing.AddCodes)
                for code in step.codes:
                    known = code in GROUPS or code == WORLD or pycountry.countries.get(alpha_2=code)
                    assert known, (entry.code, code)


def test_a_part_of_a_country_is_never_widened_to_the_whole() -> None:
    assert steps(DraftKind.TERRITORY, TerritoryValue(("GB-ENG",))) == ()


def test_what_is_left_out_carries_a_minus() -> None:
    (step,) = steps(DraftKind.TERRITORY, TerritoryValue(("US",), excluded=True))
    assert step == landing.AddCodes("territories", ("-US",))


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (LicenceValue(months=Decimal("1.5")), (landing.SetTerm(2, False),)),
        (LicenceValue(perpetual=True), (landing.SetTerm(None, True),)),
        (LicenceValue(starts="launch"), ()),
        (LicenceValue(months=Decimal(5000)), ()),
    ],
)
def test_a_time_of_use_is_whole_months_or_for_good(value: LicenceValue, expected: tuple[landing.Step, ...]) -> None:
    assert steps(DraftKind.LICENCE, value) == expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (
            DateValue(DateKind.SHOOT, any_of=(JUNE_17, JUNE_18)),
            (landing.PencilDays((JUNE_17, JUNE_18), "", ""),),
        ),
        (DateValue(DateKind.SHOOT, first=JUNE_17, last=JUNE_17), (landing.PencilDays((JUNE_17,), "", ""),)),
        (DateValue(DateKind.SHOOT, first=JUNE_17, last=JUNE_18), (landing.AddLine("wished_dates", "words"),)),
        (DateValue(DateKind.SHOOT, hours_from="08:30"), (landing.SetHours("08:30", ""),)),
        (DateValue(DateKind.DELIVERY, by=JUNE_18), (landing.DeliverBy(JUNE_18),)),
        (DateValue(DateKind.DELIVERY, before=JUNE_18), (landing.DeliverBy(JUNE_17),)),
        (DateValue(DateKind.LAUNCH, first=JUNE_17, last=JUNE_17), (landing.AddLine("wished_dates", "words"),)),
    ],
)
def test_a_date_lands_by_what_happens_on_it(value: DateValue, expected: tuple[landing.Step, ...]) -> None:
    assert steps(DraftKind.DATE, value) == expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (CountValue(CountOf.FINALS, 10, 12), (landing.SetFinals(12),)),
        (CountValue(CountOf.FINALS, 10, None), (landing.SetFinals(10),)),
        (CountValue(CountOf.HEROES, 2, 3), (landing.PlanShots(CountOf.HEROES, 2, 1, ""),)),
        (CountValue(CountOf.PACKSHOTS, None, 6), (landing.PlanShots(CountOf.PACKSHOTS, 6, 0, ""),)),
        (CountValue(CountOf.OUTFITS, 2, 2), (landing.AddLine("must_haves", "words"),)),
        (CountValue(CountOf.DAYS, 2, 2), (landing.AddLine("wished_dates", "words"),)),
    ],
)
def test_a_count_lands_by_what_is_counted(value: CountValue, expected: tuple[landing.Step, ...]) -> None:
    assert steps(DraftKind.COUNT, value) == expected


@pytest.mark.parametrize("kind", list(MoneyKind))
def test_only_what_the_whole_job_may_cost_is_a_budget(kind: MoneyKind) -> None:
    found = steps(DraftKind.MONEY, MoneyValue(Decimal(5000), "GBP", Tax.UNKNOWN, kind))
    assert bool(found) == (kind in {MoneyKind.BUDGET, MoneyKind.ALL_IN, MoneyKind.FEE})


def test_the_upper_end_of_a_budget_counts() -> None:
    value = MoneyValue(Decimal(5000), "GBP", Tax.UNKNOWN, MoneyKind.BUDGET, upper=Decimal(6000))
    assert steps(DraftKind.MONEY, value) == (landing.SetBudget(Decimal(6000), "GBP"),)


def test_a_mood_of_both_poles_is_two_moods() -> None:
    value = MoodValue(Pole.BOTH, "dark and bright")
    assert steps(DraftKind.MOOD, value) == (landing.AddMoods((Pole.DARK, Pole.BRIGHT), "dark and bright"),)


def test_a_shape_the_brief_does_not_know_becomes_a_line() -> None:
    assert steps(DraftKind.SHAPE, ShapeValue("leaderboard")) == (landing.AddLine("must_haves", "words"),)


def test_crew_is_nobody_in_the_pictures() -> None:
    assert steps(DraftKind.PERSON, PersonValue("stylist", crew=True)) == ()
    assert steps(DraftKind.PERSON, PersonValue("model")) == (landing.AddLine("must_haves", "words"),)


@pytest.mark.parametrize(
    ("kind", "field"),
    [
        (DraftKind.NEGATIVE, "must_nots"),
        (DraftKind.WISH, "must_haves"),
        (DraftKind.FRAMING, "must_haves"),
        (DraftKind.APPROVER, "approvers"),
        (DraftKind.PAYER, "approvers"),
        (DraftKind.REFERENCE, None),
    ],
)
def test_words_land_by_what_they_are_about(kind: DraftKind, field: str | None) -> None:
    expected = (landing.AddLine(field, "words"),) if field else ()
    assert steps(kind, TextValue("words")) == expected
