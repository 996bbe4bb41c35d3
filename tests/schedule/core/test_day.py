"""The plan of a day. Own rules, worked by hand; zones and changes of clocks from the IANA database."""

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.schedule.core.day import (
    Block,
    BlockKind,
    BlockNotPossible,
    Change,
    ChangeOvers,
    DayFinding,
    DayProblem,
    DayRule,
    group_shots,
    plan_day,
    work_day,
)
from shoots.schedule.core.rest import DayNotPossible, working_time_findings

LONDON = ZoneInfo("Europe/London")
DAY = date(2026, 6, 3)
TAKES = ChangeOvers(place=15, setup=25, outfit=10)


def at(clock, day=DAY):
    return datetime.combine(day, time.fromisoformat(clock), tzinfo=LONDON)


def shot(key, minutes=20, **where):
    return Block(key, BlockKind.SHOOT, minutes, **where)


def printed(plan):
    return [f"{slot.starts_at:%H:%M}-{slot.ends_at:%H:%M} {slot.kind} {slot.key}" for slot in plan.slots]


def test_a_day_runs_from_the_drive_to_the_wrap():
    blocks = (
        Block("drive", BlockKind.MOVE, 40, place="quarry"),
        Block("light", BlockKind.BUILD, 45, setup="rim"),
        shot("1", 30, place="quarry", setup="rim", outfit="blue"),
        shot("2", 20, place="quarry", setup="rim", outfit="red"),
        Block("lunch", BlockKind.MEAL, 45),
        shot("3", 30, place="dam", setup="wall", outfit="red"),
        Block("wrap", BlockKind.WRAP, 30),
    )
    plan = plan_day(DayProblem(at("08:00"), blocks, TAKES, wrap_by=at("14:00")))
    assert printed(plan) == [
        "08:00-08:40 MOVE drive",
        "08:40-09:25 BUILD light",
        "09:25-09:55 SHOOT 1",
        "09:55-10:05 CHANGE_OVER 2",
        "10:05-10:25 SHOOT 2",
        "10:25-11:10 MEAL lunch",
        "11:10-11:50 CHANGE_OVER 3",  # 15 to move on and 25 to light again
        "11:50-12:20 SHOOT 3",
        "12:20-12:50 WRAP wrap",
    ]
    assert plan.findings == ()
    assert plan.minutes_of(BlockKind.CHANGE_OVER) == 50


def test_light_and_outfit_change_side_by_side():
    plan = plan_day(
        DayProblem(at("09:00"), (shot("1", setup="a", outfit="x"), shot("2", setup="b", outfit="y")), TAKES)
    )
    change = plan.slots[1]
    assert (change.minutes, change.changes) == (25, (Change.SETUP, Change.OUTFIT))


def test_known_minutes_between_two_setups_count_instead_of_the_general_ones():
    takes = ChangeOvers(setup=25, between={("rim", "slab"): 7})
    blocks = (shot("1", setup="rim"), shot("2", setup="slab"), shot("3", setup="rim"))
    plan = plan_day(DayProblem(at("09:00"), blocks, takes))
    assert [slot.minutes for slot in plan.slots if slot.kind is BlockKind.CHANGE_OVER] == [7, 25]
    with pytest.raises(BlockNotPossible):
        ChangeOvers(between={("rim", "slab"): -1})


def test_what_is_left_open_needs_no_change():
    plan = plan_day(DayProblem(at("09:00"), (shot("1", setup="a"), shot("2"), shot("3", setup="a")), TAKES))
    assert plan.minutes_of(BlockKind.CHANGE_OVER) == 0


def test_a_shot_waits_for_its_window():
    low_sun = shot("1", 30, not_before=at("20:30"), not_after=at("21:15"))
    plan = plan_day(DayProblem(at("20:00"), (low_sun,)))
    assert printed(plan) == ["20:00-20:30 WAIT 1", "20:30-21:00 SHOOT 1"]
    assert plan.findings == ()


def test_running_past_sunset_is_told_in_minutes():
    late = shot("2", 30, not_after=at("21:15"))
    plan = plan_day(DayProblem(at("20:40"), (shot("1", 20), late)))
    assert plan.findings == (DayFinding(DayRule.PAST_WINDOW, "2", 15),)


def test_a_window_that_is_too_short_is_told_apart_from_being_late():
    short = shot("1", 60, not_before=at("20:30"), not_after=at("21:15"))
    assert plan_day(DayProblem(at("18:00"), (short,))).findings == (DayFinding(DayRule.WINDOW_TOO_SHORT, "1", 15),)


def test_running_past_the_wrap_is_told_in_minutes():
    plan = plan_day(DayProblem(at("16:00"), (shot("1", 70),), wrap_by=at("17:00")))
    assert plan.findings == (DayFinding(DayRule.PAST_WRAP, None, 10),)


def test_an_empty_day_ends_where_it_starts():
    plan = plan_day(DayProblem(at("09:00"), (), wrap_by=at("10:00")))
    assert (plan.slots, plan.ends_at, plan.findings) == ((), at("09:00"), ())


def test_a_night_shoot_counts_real_minutes_when_the_clocks_go_back():
    # 2026-10-25: 02:00 BST becomes 01:00 GMT, so 00:30 and two hours later is 01:30 the second time.
    plan = plan_day(DayProblem(at("00:30", date(2026, 10, 25)), (shot("1", 120),)))
    assert (f"{plan.ends_at:%H:%M %Z}", plan.slots[0].minutes) == ("01:30 GMT", 120)


def test_a_plan_is_checked_for_rest():
    blocks = (shot("1", 180), Block("lunch", BlockKind.MEAL, 30), shot("2", 240))
    assert working_time_findings([work_day(plan_day(DayProblem(at("08:00"), blocks)))]) == ()
    without = plan_day(DayProblem(at("08:00"), (blocks[0], blocks[2])))
    assert [str(found.rule) for found in working_time_findings([work_day(without)])] == ["rest_break_20min_missing"]


def test_an_empty_plan_is_no_work():
    with pytest.raises(DayNotPossible):
        work_day(plan_day(DayProblem(at("09:00"), ())))


KEYS = st.sampled_from(["", "a", "b", "c"])
SHOTS = st.lists(st.tuples(st.integers(0, 90), KEYS, KEYS, KEYS), max_size=14).map(
    lambda rows: [
        shot(str(index), minutes, place=place, setup=setup, outfit=outfit)
        for index, (minutes, place, setup, outfit) in enumerate(rows)
    ]
)


@given(SHOTS)
def test_slots_follow_each_other_and_no_minute_is_lost(shots):
    plan = plan_day(DayProblem(at("08:00"), tuple(shots), TAKES))
    for before, after in zip(plan.slots, plan.slots[1:], strict=False):
        assert before.ends_at == after.starts_at
    assert plan.minutes_of(BlockKind.SHOOT) == sum(block.minutes for block in shots)
    assert plan.ends_at == at("08:00") + timedelta(minutes=sum(slot.minutes for slot in plan.slots))


@given(SHOTS)
def test_every_shot_is_planned_once_and_in_order(shots):
    plan = plan_day(DayProblem(at("08:00"), tuple(shots), TAKES))
    assert [slot.key for slot in plan.slots if slot.kind is BlockKind.SHOOT] == [block.key for block in shots]


@given(SHOTS)
def test_grouping_keeps_every_shot_and_brings_each_setup_together(shots):
    grouped = group_shots(shots)
    assert sorted(block.key for block in grouped) == sorted(block.key for block in shots)
    runs = [
        block
        for block, before in zip(grouped, (None, *grouped), strict=False)
        if not before or (block.place, block.setup) != (before.place, before.setup)
    ]
    assert len(runs) == len({(block.place, block.setup) for block in shots})


@given(SHOTS)
def test_grouping_twice_changes_nothing_more(shots):
    assert group_shots(group_shots(shots)) == group_shots(shots)


def test_grouping_saves_change_overs():
    shots = [shot(str(index), setup="ab"[index % 2]) for index in range(6)]
    as_listed = plan_day(DayProblem(at("08:00"), tuple(shots), TAKES)).minutes_of(BlockKind.CHANGE_OVER)
    grouped = plan_day(DayProblem(at("08:00"), group_shots(shots), TAKES)).minutes_of(BlockKind.CHANGE_OVER)
    assert (as_listed, grouped) == (5 * 25, 25)


@pytest.mark.parametrize(
    "make",
    [
        lambda: shot("1", -1),
        lambda: shot("1", 1441),
        lambda: Block("1", BlockKind.WAIT, 5),
        lambda: shot("1", not_before=at("12:00"), not_after=at("12:00")),
        lambda: shot("1", not_before=datetime(2026, 6, 3, 12)),
        lambda: ChangeOvers(setup=-1),
        lambda: DayProblem(at("08:00"), (shot("1"), shot("1"))),
    ],
    ids=["negative", "over a day", "planner's own", "empty window", "no zone", "negative change", "same key"],
)
def test_a_block_that_cannot_be_meant_is_refused(make):
    with pytest.raises(BlockNotPossible):
        make()


def test_a_day_without_a_zone_is_refused():
    with pytest.raises(DayNotPossible):
        DayProblem(datetime(2026, 6, 3, 8), ())
