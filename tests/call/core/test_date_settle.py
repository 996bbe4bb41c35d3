"""What only the whole notes tell about dates (shoots.call.core.date_settle)."""

from __future__ import annotations

from datetime import date

from shoots.call.core.date_settle import settle
from shoots.call.core.drafts import DateKind, DateValue, Draft, DraftKind, Reason, ReasonCode
from shoots.call.core.spans import Span
from tests.call.core.notes import data


def shoot(first: date, last: date, at: int, hours: str = "") -> Draft:
    value = DateValue(DateKind.SHOOT, first=first, last=last, hours_from=hours)
    return Draft(DraftKind.DATE, value, Span(at, at + 5), 1, Reason(ReasonCode.DAY_NAMED))


def test_a_named_day_makes_the_vague_time_around_it_needless() -> None:
    wide, day = shoot(date(2026, 6, 1), date(2026, 6, 30), 0), shoot(date(2026, 6, 9), date(2026, 6, 9), 10)
    assert settle([wide, day]) == ([day], [wide])


def test_two_different_days_both_stay() -> None:
    two = [shoot(date(2026, 6, 9), date(2026, 6, 9), 0), shoot(date(2026, 7, 9), date(2026, 7, 9), 10)]
    assert settle(two) == (two, [])


def test_hours_said_elsewhere_go_to_the_day() -> None:
    found = data("shoot 9 June\nhalf eight at ours")["dates"]
    assert [(d["from"], d["hours"]) for d in found] == [("2026-06-09", "08:30")]


def test_days_after_the_shoot_are_counted_from_it() -> None:
    found = data("shoot 9 June\nfinals two weeks after the shoot")["dates"]
    assert [d["by"] for d in found if d["kind"] == "delivery"] == ["2026-06-23"]


def test_without_a_shoot_day_they_stay_open() -> None:
    found = data("finals two weeks after the shoot")["dates"]
    assert [d["by"] for d in found if d["kind"] == "delivery"] == [None]


def test_a_licence_that_starts_at_the_launch_takes_its_day() -> None:
    found = data("launch 1 September\n12 months from launch")
    licence = found["licence"]
    assert (licence["months"], licence["starts"], licence["starts_on"]) == (12, "launch", "2026-09-01")
