"""A new order, also from an older page. Own arrangement; properties stand for all lists."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from shoots.shotlist.core.order import moved, reordered

KEYS = st.lists(st.integers(1, 40), unique=True, max_size=15)


@given(KEYS, st.lists(st.integers(1, 40), max_size=20))
def test_no_shot_is_lost_or_doubled_whatever_is_asked_for(current: list[int], wanted: list[int]) -> None:
    assert sorted(reordered(current, wanted)) == sorted(current)


@given(KEYS.flatmap(lambda keys: st.tuples(st.just(keys), st.permutations(keys))))
def test_a_full_list_is_put_exactly_so(pair: tuple[list[int], list[int]]) -> None:
    current, wanted = pair
    assert list(reordered(current, wanted)) == wanted


def test_a_shot_added_meanwhile_stays_behind_the_one_it_followed() -> None:
    assert reordered([1, 2, 7, 3], [3, 2, 1]) == (3, 2, 7, 1)


def test_a_shot_added_meanwhile_at_the_front_stays_there() -> None:
    assert reordered([7, 1, 2], [2, 1]) == (7, 2, 1)


def test_a_shot_removed_meanwhile_is_not_brought_back() -> None:
    assert reordered([1, 3], [3, 2, 1]) == (3, 1)


@given(KEYS, st.integers(1, 40), st.integers(-20, 20))
def test_a_step_moves_one_and_keeps_the_others_in_order(current: list[int], key: int, step: int) -> None:
    order = list(moved(current, key, step))
    assert sorted(order) == sorted(current)
    assert [k for k in order if k != key] == [k for k in current if k != key]


def test_the_ends_stop_a_step() -> None:
    assert moved([1, 2, 3], 1, -1) == (1, 2, 3)
    assert moved([1, 2, 3], 2, 9) == (1, 3, 2)
