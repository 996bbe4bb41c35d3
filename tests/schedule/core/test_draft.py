"""The first plan of a day. Minutes are common practice, no source; six hours: Working Time Regulations 1998 reg. 12."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.schedule.core.day import Block, BlockKind, DayProblem, plan_day, work_day
from shoots.schedule.core.draft import LONGEST_SHOOT, LONGEST_STRETCH, Group, draft_day, in_light_order
from shoots.schedule.core.rest import Rule, working_time_findings

NINE = datetime(2026, 6, 9, 9, tzinfo=UTC)


def kinds(groups: list[Group], **given: object) -> list[str]:
    return [block.kind.value for block in draft_day(groups, **given)]  # type: ignore[arg-type]


def test_a_short_day_is_arrive_build_shoot_wrap_without_a_break() -> None:
    assert kinds([Group("rim", 90)]) == ["ARRIVE", "BUILD", "SHOOT", "WRAP"]


def test_nothing_to_shoot_is_no_plan() -> None:
    assert draft_day([]) == () and draft_day([Group("rim", 0)]) == ()


def test_shots_without_a_setup_are_shot_without_building() -> None:
    assert kinds([Group("", 40)]) == ["ARRIVE", "SHOOT", "WRAP"]


def test_another_place_is_moved_to_before_its_light_is_built() -> None:
    groups = [Group("rim", 60, place="quarry"), Group("wall", 60, place="reservoir")]
    assert kinds(groups, place="quarry") == ["ARRIVE", "BUILD", "SHOOT", "MOVE", "BUILD", "SHOOT", "WRAP"]


def test_setups_come_in_the_order_of_their_planned_light() -> None:
    late, early = NINE.replace(hour=18), NINE.replace(hour=15)
    ordered = in_light_order([Group("rim", 60, planned=late), Group("slab", 60, planned=early)])
    assert [group.setup for group in ordered] == ["slab", "rim"]


def test_a_break_goes_between_setups_and_tears_no_shoot_apart() -> None:
    blocks = draft_day([Group("rim", 150), Group("wall", 150)])
    assert [b.kind.value for b in blocks] == ["ARRIVE", "BUILD", "SHOOT", "BREAK", "BUILD", "SHOOT", "WRAP"]


def test_one_long_shoot_is_cut_in_two_and_keeps_its_minutes() -> None:
    blocks = draft_day([Group("rim", 400)])
    shot = [block.minutes for block in blocks if block.kind is BlockKind.SHOOT]
    assert len(shot) == 2 and sum(shot) == 400


def test_waiting_for_the_light_counts_towards_the_six_hours() -> None:
    groups = [Group("wall", 60, planned=NINE + timedelta(hours=7))]
    assert "BREAK" not in kinds(groups)
    assert "BREAK" in kinds(groups, start=NINE)


@given(st.lists(st.tuples(st.sampled_from(["", "a", "b", "c", "d"]), st.integers(1, 200)), min_size=1, max_size=5))
def test_no_drafted_day_of_a_dozen_hours_misses_the_rest_break(rows: list[tuple[str, int]]) -> None:
    blocks = draft_day([Group(setup, minutes) for setup, minutes in rows], start=NINE)
    assert blocks[0].kind is BlockKind.ARRIVE and blocks[-1].kind is BlockKind.WRAP
    assert sum(b.minutes for b in blocks if b.kind is BlockKind.SHOOT) == sum(minutes for _setup, minutes in rows)
    plan = plan_day(DayProblem(NINE, tuple(Block(str(n), b.kind, b.minutes) for n, b in enumerate(blocks))))
    found = working_time_findings([work_day(plan)])
    assert Rule.REST_BREAK not in {finding.rule for finding in found}


@pytest.mark.parametrize("minutes", [30, 200, 269, 270, 271, 500])
def test_no_stretch_of_work_is_longer_than_six_hours(minutes: int) -> None:
    stretch = longest = 0
    for block in draft_day([Group("a", minutes), Group("b", minutes)]):
        stretch = 0 if block.kind is BlockKind.BREAK else stretch + block.minutes
        longest = max(longest, stretch)
    assert longest <= LONGEST_STRETCH


def test_more_shots_than_a_day_holds_are_several_blocks_with_their_minutes() -> None:
    """A hundred shots of twenty minutes and no setup yet: a block holds 1440 minutes, and pages showed an error."""
    blocks = draft_day([Group("", 2000), Group("rim", 721)], start=NINE)
    shot = [block for block in blocks if block.kind is BlockKind.SHOOT]
    assert sum(block.minutes for block in shot if not block.setup) == 2000
    assert sum(block.minutes for block in shot if block.setup) == 721
    assert max(block.minutes for block in shot) <= LONGEST_SHOOT
    assert len([block for block in draft_day([Group("rim", 720)]) if block.kind is BlockKind.BUILD]) == 1
