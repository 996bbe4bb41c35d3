"""Whether the day fits, and what is cut first: own rules, worked by hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.schedule.core.day import Block, BlockKind, ChangeOvers, DayProblem
from shoots.schedule.core.fit import Take, cut_first, day_fit, without

START = datetime(2026, 6, 9, 10, tzinfo=UTC)
SHOOT, BUILD, MOVE, BREAK = BlockKind.SHOOT, BlockKind.BUILD, BlockKind.MOVE, BlockKind.BREAK
NOTHING: frozenset[str] = frozenset()


def day(*blocks: Block, hours: float | None = None) -> DayProblem:
    return DayProblem(START, blocks, ChangeOvers(20, 15, 10), None if hours is None else START + timedelta(hours=hours))


def shots(*minutes: int, **fields: str) -> list[Block]:
    return [Block(str(n), SHOOT, length, **fields) for n, length in enumerate(minutes)]  # type: ignore[arg-type]


def test_the_sum_is_told_apart() -> None:
    fit = day_fit(
        day(
            Block("in", BlockKind.ARRIVE, 30),
            Block("a", SHOOT, 40, setup="rim"),
            Block("b", SHOOT, 30, setup="slab"),
            Block("eat", BREAK, 45),
            Block("c", SHOOT, 20, setup="slab", not_before=START + timedelta(minutes=200)),
            hours=4,
        )
    )
    assert (fit.shooting, fit.changes, fit.waits, fit.other) == (90, 15, 40, 75)
    assert (fit.needed, fit.available, fit.over, fit.spare, fit.fits) == (220, 240, 0, 20, True)


def test_without_a_wrap_there_is_nothing_to_run_over() -> None:
    fit = day_fit(day(*shots(900)))
    assert fit.available is None and fit.fits and fit.spare == 0


def test_shooting_after_the_light_is_gone_does_not_fit() -> None:
    """Light for 60 minutes: the second of two times 40 has 20 of its own too many, the third all of its 10."""
    until = START + timedelta(minutes=60)
    blocks = [Block(str(n), SHOOT, length, not_after=until) for n, length in enumerate((40, 40, 10))]
    fit = day_fit(day(*blocks, hours=9))
    assert fit.unlit == 20 + 10 and not fit.fits


def test_what_is_built_for_a_cut_shot_goes_with_it() -> None:
    whole = day(
        Block("move", MOVE, 30, place="lake"),
        Block("build", BUILD, 30, setup="rim"),
        Block("a", SHOOT, 40, setup="rim"),
        Block("again", BUILD, 20, setup="slab"),
        Block("b", SHOOT, 40, setup="slab"),
    )
    assert [block.key for block in without(whole, ["b"]).blocks] == ["move", "build", "a"]
    assert [block.key for block in without(whole, ["a"]).blocks] == ["move", "again", "b"]
    assert without(whole, ["a", "b"]).blocks == ()


def test_what_stood_there_for_nothing_before_is_not_touched() -> None:
    whole = day(Block("idle", BUILD, 30, setup="x"), Block("build", BUILD, 30, setup="y"), *shots(10, 10))
    assert [block.key for block in without(whole, ["1"]).blocks] == ["idle", "build", "0"]


def test_a_day_that_fits_is_left_alone() -> None:
    assert cut_first(day(*shots(30), hours=1), [Take("0", 1)], lambda keys: NOTHING).cuts == ()


def test_wishes_go_before_musts_even_where_they_gain_less() -> None:
    takes = [Take("0", 1), Take("1", 2, is_wish=True), Take("2", 3)]
    cuts = cut_first(day(*shots(60, 10, 30), hours=1.5), takes, lambda keys: NOTHING)
    assert [(cut.key, cut.gains, cut.is_wish) for cut in cuts.cuts] == [("1", 10, True)] and cuts.after.fits


def test_a_wish_is_not_enough_then_the_must_that_costs_no_promise_goes() -> None:
    takes = [Take("0", 1), Take("1", 2, is_wish=True), Take("2", 3)]
    lost = {"0": {"the hero"}, "2": set()}
    cuts = cut_first(
        day(*shots(60, 10, 30), hours=1),
        takes,
        lambda keys: frozenset(name for key in keys for name in lost.get(key, ())),
    )
    assert [cut.key for cut in cuts.cuts] == ["1", "2"]
    assert not any(cut.loses for cut in cuts.cuts) and cuts.after.needed == 60


def test_a_wish_that_a_bigger_cut_makes_needless_stays() -> None:
    takes = [Take("0", 1), Take("1", 2, is_wish=True), Take("2", 3)]
    cuts = cut_first(day(*shots(60, 10, 50), hours=70 / 60), takes, lambda keys: NOTHING)
    assert "1" not in [cut.key for cut in cuts.cuts] and cuts.after.fits


def test_what_alone_serves_a_promise_is_never_cut_without_saying_so() -> None:
    takes = [Take("0", 1)]
    cuts = cut_first(day(*shots(90), hours=1), takes, lambda keys: frozenset({"hero"}) if keys else NOTHING)
    assert cuts.cuts[0].loses == {"hero"} and cuts.after.fits


def test_the_second_of_two_that_serve_a_promise_is_the_one_that_loses_it() -> None:
    takes = [Take("0", 1), Take("1", 2)]
    cuts = cut_first(
        day(*shots(50, 50), Block("wrap", BlockKind.WRAP, 30), hours=0.5),
        takes,
        lambda keys: frozenset({"tall"}) if len(keys) == 2 else NOTHING,
    )
    assert [cut.loses for cut in cuts.cuts] == [NOTHING, {"tall"}]


def test_most_minutes_gained_counts_the_change_that_goes_as_well() -> None:
    blocks = [
        Block("0", SHOOT, 30, setup="rim"),
        Block("1", SHOOT, 25, setup="rim"),
        Block("2", SHOOT, 20, setup="slab"),
    ]
    cuts = cut_first(day(*blocks, hours=1), [Take(str(n), n) for n in range(3)], lambda keys: NOTHING)
    assert [(cut.key, cut.gains) for cut in cuts.cuts] == [("2", 35)]


def test_what_was_taken_is_not_cut_and_a_day_that_can_t_fit_says_so() -> None:
    cuts = cut_first(day(*shots(60, 30), hours=0.5), [Take("0", 1, is_got=True), Take("1", 2)], lambda keys: NOTHING)
    assert [cut.key for cut in cuts.cuts] == ["1"] and cuts.after.over == 30


def test_a_must_that_helps_the_light_goes_before_a_wish_that_does_not() -> None:
    until = START + timedelta(minutes=30)
    blocks = [Block("0", SHOOT, 30, not_after=until), Block("1", SHOOT, 30, not_after=until), Block("2", SHOOT, 30)]
    cuts = cut_first(day(*blocks), [Take("0", 1), Take("1", 2), Take("2", 3, is_wish=True)], lambda keys: NOTHING)
    assert [cut.key for cut in cuts.cuts] == ["1"]


@settings(deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 60), st.booleans(), st.sampled_from(["", "r", "s"])), max_size=7),
    st.integers(0, 200),
)
def test_the_day_fits_after_the_cuts_and_no_cut_is_one_too_many(planned, room) -> None:  # type: ignore[no-untyped-def]
    problem = day(
        *(Block(str(n), SHOOT, minutes, setup=setup) for n, (minutes, _wish, setup) in enumerate(planned)),
        hours=room / 60,
    )
    takes = [Take(str(n), n, is_wish) for n, (_minutes, is_wish, _setup) in enumerate(planned)]
    cuts = cut_first(problem, takes, lambda keys: NOTHING)
    assert cuts.after.fits
    gone = [cut.key for cut in cuts.cuts]
    assert all(not day_fit(without(problem, [key for key in gone if key != one])).fits for one in gone)
    assert sum(cut.gains for cut in cuts.cuts) == day_fit(problem).needed - cuts.after.needed


def test_more_shots_than_are_tried_out_are_cut_from_one_ranking() -> None:
    problem = day(*shots(*range(1, 81)), hours=50)
    takes = [Take(str(n), n, is_wish=n == 3) for n in range(80)]
    cuts = cut_first(problem, takes, lambda keys: frozenset(keys & {"79"}))
    # 3240 minutes in 3000: the wish of 4 first, then the longest but the one that breaks a promise.
    assert [cut.key for cut in cuts.cuts] == ["3", "78", "77", "76", "75"][: len(cuts.cuts)]
    assert cuts.after.fits and sum(cut.gains for cut in cuts.cuts) >= 240 > sum(cut.gains for cut in cuts.cuts[:-1])


def test_more_shots_than_are_tried_out_are_still_cut_until_it_fits() -> None:
    problem = day(*shots(*[10] * 80), hours=10)
    cuts = cut_first(problem, [Take(str(n), n) for n in range(80)], lambda keys: NOTHING)
    assert len(cuts.cuts) == 20 and cuts.after.fits
