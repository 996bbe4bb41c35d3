"""What could stop a shoot, worst first. Own derivation; common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from shoots.desk.core.stoppers import (
    PlaceFacts,
    ReadyFacts,
    Stopper,
    Talent,
    Weight,
    stoppers,
)

TODAY = date(2026, 6, 1)
DAY = date(2026, 6, 19)
RIM = PlaceFacts(pk=5, name="Quarry rim", permission="GIVEN")
READY = ReadyFacts(today=TODAY, day=DAY, is_confirmed=True, places=(RIM,), crew=1, shots=12)


def codes(facts: ReadyFacts) -> list[str]:
    return [found.code.value for found in stoppers(facts)]


def test_nothing_stops_a_shoot_that_is_ready() -> None:
    assert stoppers(READY) == ()


@pytest.mark.parametrize(
    ("changes", "code", "weight"),
    [
        ({"day": None, "places": ()}, Stopper.NO_DATE, Weight.TO_DO),
        ({"is_confirmed": False, "held_until": TODAY}, Stopper.HOLD_RUNS_OUT, Weight.STOPS),
        (
            {"is_confirmed": False, "held_until": TODAY + timedelta(days=3)},
            Stopper.HOLD_RUNS_OUT,
            Weight.STOPS,
        ),
        (
            {"is_confirmed": False, "held_until": TODAY + timedelta(days=4)},
            Stopper.DATE_PENCILLED,
            Weight.RISKS,
        ),
        (
            {"is_confirmed": False, "held_until": TODAY - timedelta(days=1)},
            Stopper.HOLD_RAN_OUT,
            Weight.STOPS,
        ),
        ({"is_confirmed": False}, Stopper.DATE_PENCILLED, Weight.RISKS),
        ({"has_call_time": False}, Stopper.NO_CALL_TIME, Weight.TO_DO),
        ({"without_sample": ("Vest",)}, Stopper.NO_SAMPLE, Weight.TO_DO),
        ({"without_sample": ("Vest",), "day": TODAY + timedelta(days=7)}, Stopper.NO_SAMPLE, Weight.RISKS),
        ({"quote_accepted": False}, Stopper.QUOTE_NOT_ACCEPTED, Weight.TO_DO),
        (
            {"quote_accepted": False, "day": TODAY + timedelta(days=7)},
            Stopper.QUOTE_NOT_ACCEPTED,
            Weight.RISKS,
        ),
        ({"deposit_unpaid": True}, Stopper.DEPOSIT_UNPAID, Weight.RISKS),
        ({"places": ()}, Stopper.NO_PLACE, Weight.TO_DO),
        ({"places": (replace(RIM, permission="TO_ASK"),)}, Stopper.NO_PERMISSION, Weight.STOPS),
        ({"places": (replace(RIM, permission="ASKED"),)}, Stopper.PERMISSION_ASKED, Weight.TO_DO),
        ({"places": (replace(RIM, has_hospital=False),)}, Stopper.NO_HOSPITAL, Weight.ENDANGERS),
        ({"places": (replace(RIM, hazards="Edge, 18 m drop"),)}, Stopper.HAZARDS, Weight.ENDANGERS),
        ({"places": (replace(RIM, has_position=False),)}, Stopper.NO_POSITION, Weight.TO_DO),
        ({"mains_lamps": 2}, Stopper.MAINS_OUTDOORS, Weight.ENDANGERS),
        (
            {"mains_lamps": 2, "places": (replace(RIM, indoors=True, has_power=False),)},
            Stopper.NO_POWER,
            Weight.TO_DO,
        ),
        ({"talents": (Talent("Ida", date(2012, 1, 1)),)}, Stopper.MINOR_WITHOUT_GUARDIAN, Weight.ENDANGERS),
        ({"talents": (Talent("Ida", date(2012, 1, 1), "Her father"),)}, Stopper.MINOR, Weight.ENDANGERS),
        ({"crew": 0}, Stopper.NO_CREW, Weight.TO_DO),
        ({"crew_pencilled": 1}, Stopper.CREW_PENCILLED, Weight.TO_DO),
        ({"talent_pencilled": 1}, Stopper.TALENT_PENCILLED, Weight.TO_DO),
        ({"others_pencilled": 1}, Stopper.BOOKINGS_PENCILLED, Weight.TO_DO),
        ({"shots": 0}, Stopper.NO_SHOTS, Weight.TO_DO),
        ({"setups_without_light": 1}, Stopper.SETUPS_WITHOUT_LIGHT, Weight.TO_DO),
        ({"shots_without_setup": 3}, Stopper.SHOTS_WITHOUT_SETUP, Weight.TO_DO),
        ({"open_questions": 3}, Stopper.OPEN_QUESTIONS, Weight.TO_DO),
        ({"day": TODAY + timedelta(days=2)}, Stopper.ADVANCE_SHEET_DUE, Weight.RISKS),
        (
            {"day": TODAY + timedelta(days=1), "advance_sent": True, "is_after_four": True},
            Stopper.FINAL_SHEET_DUE,
            Weight.RISKS,
        ),
        ({"day": TODAY, "advance_sent": True}, Stopper.FINAL_SHEET_DUE, Weight.RISKS),
    ],
)
def test_each_gap_is_found_alone_with_its_weight(changes: dict[str, object], code: Stopper, weight: Weight) -> None:
    found = stoppers(replace(READY, **changes))  # type: ignore[arg-type]
    assert [(finding.code, finding.weight) for finding in found] == [(code, weight)]


def test_each_code_is_found_by_some_case() -> None:
    marks = test_each_gap_is_found_alone_with_its_weight.pytestmark  # type: ignore[attr-defined]
    assert {case[1] for case in marks[0].args[1]} == set(Stopper)


def test_before_four_the_advance_sheet_is_enough_on_the_day_before() -> None:
    assert codes(replace(READY, day=TODAY + timedelta(days=1), advance_sent=True)) == []


def test_the_worst_comes_first() -> None:
    place = replace(RIM, permission="TO_ASK", has_hospital=False)
    facts = replace(READY, places=(place,), shots_without_setup=2, deposit_unpaid=True, crew=0)
    assert codes(facts) == [
        "NO_PERMISSION",
        "NO_HOSPITAL",
        "DEPOSIT_UNPAID",
        "NO_CREW",
        "SHOTS_WITHOUT_SETUP",
    ]


def test_somebody_who_turns_eighteen_on_the_day_is_no_minor_then() -> None:
    grown = Talent("Ida", date(2008, 6, 19))
    assert codes(replace(READY, talents=(grown,))) == []
    assert codes(replace(READY, talents=(replace(grown, birth_date=date(2008, 6, 20)),))) == ["MINOR_WITHOUT_GUARDIAN"]
