"""The best order of a day's groups: against every permutation of small days, and worked by hand."""

from __future__ import annotations

from itertools import permutations
from time import perf_counter

from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.schedule.core.day import ChangeOvers
from shoots.schedule.core.turns import MOST_GROUPS, Takes, Turn, best_turns, in_turn

TAKES = Takes(ChangeOvers(place=20, setup=15, outfit=10))


def test_going_to_a_place_once_saves_the_way_back() -> None:
    """Quarry, lake, quarry: two ways of 20; quarry, quarry, lake: one."""
    turns = [Turn("a", 30, place="quarry"), Turn("b", 30, place="lake"), Turn("c", 30, place="quarry")]
    assert in_turn(turns, TAKES).minutes == 130
    best = best_turns(turns, TAKES)
    assert (best.keys, best.minutes) == (("a", "c", "b"), 110)


def test_light_and_outfit_are_changed_side_by_side() -> None:
    turns = [Turn("a", 30, setup="rim", outfit="red"), Turn("b", 30, setup="slab", outfit="blue")]
    assert in_turn(turns, TAKES).minutes == 30 + 15 + 30


def test_the_minutes_between_two_setups_count_where_they_are_known() -> None:
    takes = Takes(ChangeOvers(setup=15, between={("rim", "slab"): 4, ("slab", "rim"): 25}))
    turns = [Turn("a", 30, setup="slab"), Turn("b", 30, setup="rim")]
    assert in_turn(turns, takes).minutes == 85
    assert best_turns(turns, takes).keys == ("b", "a") and best_turns(turns, takes).minutes == 64


def test_building_counts_for_the_first_setup_too() -> None:
    takes = Takes(ChangeOvers(setup=15), build={"rim": 40, "slab": 5})
    assert in_turn([Turn("a", 30, setup="rim"), Turn("b", 30, setup="slab")], takes).minutes == 105


def test_a_group_waits_for_its_window_and_another_fills_the_wait() -> None:
    turns = [Turn("low sun", 30, opens=60), Turn("detail", 30)]
    assert in_turn(turns, TAKES).minutes == 120
    assert best_turns(turns, TAKES).keys == ("detail", "low sun") and best_turns(turns, TAKES).minutes == 90


def test_keeping_the_light_comes_before_being_done_early() -> None:
    """By day there is light until minute 40: the shorter way round would miss it."""
    takes = Takes(ChangeOvers(setup=30, between={("x", "y"): 0}))
    turns = [Turn("indoors", 30, setup="x"), Turn("outdoors", 40, setup="y", closes=40)]
    assert not in_turn(turns, takes).keeps_windows
    best = best_turns(turns, takes)
    assert best.keys == ("outdoors", "indoors") and best.keeps_windows and best.minutes == 100


def test_where_no_order_keeps_the_light_the_shortest_is_told_as_such() -> None:
    turns = [Turn("a", 30, closes=10), Turn("b", 30, setup="x"), Turn("c", 5, setup="y"), Turn("d", 5, setup="x")]
    best = best_turns(turns, TAKES)
    assert not best.keeps_windows and best.minutes == 85


def test_a_planned_order_that_is_as_good_stays() -> None:
    turns = [Turn("b", 30, setup="x"), Turn("a", 30, setup="y")]
    assert best_turns(turns, TAKES).keys == ("b", "a")


def test_no_groups_take_no_time() -> None:
    assert best_turns([], TAKES).minutes == 0


names = st.sampled_from(["", "p", "q"])
groups = st.lists(
    st.builds(
        Turn,
        key=st.just(""),
        minutes=st.integers(0, 60),
        place=names,
        setup=st.sampled_from(["", "r", "s", "t"]),
        outfit=names,
        opens=st.none() | st.integers(0, 200),
        closes=st.none() | st.integers(0, 400),
    ),
    max_size=5,
)
takes = st.builds(
    lambda place, setup, outfit, one, build, move: Takes(
        ChangeOvers(place, setup, outfit, {("r", "s"): one}), {"t": build}, {"q": move}
    ),
    *(st.integers(0, 40) for _ in range(6)),
)


@settings(max_examples=150, deadline=None)
@given(groups, takes, names)
def test_no_permutation_is_better(turns: list[Turn], minutes: Takes, place: str) -> None:
    every = [in_turn(list(order), minutes, place=place) for order in permutations(turns)]
    best = best_turns(turns, minutes, place=place)
    assert (best.keeps_windows, -best.minutes) == max((one.keeps_windows, -one.minutes) for one in every)


@settings(max_examples=150, deadline=None)
@given(groups, takes, names)
def test_the_bound_undercuts_every_order(turns: list[Turn], minutes: Takes, place: str) -> None:
    from shoots.schedule.core import turns as module

    if len(turns) < 2:
        return
    bound = module._bound(turns, minutes)
    assert all(bound <= in_turn(list(order), minutes, place=place).minutes for order in permutations(turns))


def test_more_groups_than_can_be_looked_at_keep_their_order_and_get_a_bound() -> None:
    turns = [Turn(str(n), 10, setup="xy"[n % 2]) for n in range(MOST_GROUPS + 1)]
    best = best_turns(turns, TAKES)
    assert best.keys == tuple(str(n) for n in range(MOST_GROUPS + 1))
    assert best.minutes == 130 + 12 * 15 and best.at_least == 130


def test_twelve_groups_are_looked_at_while_a_page_waits() -> None:
    turns = [Turn(str(n), 10, place="pq"[n % 2], setup=str(n % 6), outfit="uvw"[n % 3]) for n in range(MOST_GROUPS)]
    begun = perf_counter()
    best = best_turns(turns, TAKES)
    # Ten times what it takes here: a guard against another order of growth, no benchmark.
    assert perf_counter() - begun < 20.0
    assert best.minutes < in_turn(turns, TAKES).minutes
