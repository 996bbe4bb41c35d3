"""Which block takes which shots: own arrangement, no source."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from shoots.schedule.core.cover import Room, Wanted, cover

SETUPS = st.sampled_from(["", "rim", "wall"])


def test_a_block_without_shots_is_empty_and_a_shot_without_a_block_is_left() -> None:
    found = cover([Room(1, "rim", 60)], [Wanted(5, "wall", 20)])
    assert found.shots == {1: ()} and found.left == (5,)


def test_the_last_block_of_a_setup_takes_what_does_not_fit() -> None:
    shots = [Wanted(n, "rim", 30) for n in range(1, 5)]
    assert cover([Room(1, "rim", 30), Room(2, "rim", 30)], shots).shots == {1: (1,), 2: (2, 3, 4)}


def test_a_shot_longer_than_its_block_still_stands_in_it() -> None:
    assert cover([Room(1, "rim", 10), Room(2, "rim", 10)], [Wanted(1, "rim", 90)]).shots == {1: (1,), 2: ()}


@given(
    st.lists(st.tuples(SETUPS, st.integers(0, 200)), max_size=6),
    st.lists(st.tuples(SETUPS, st.integers(1, 90)), max_size=10),
)
def test_every_shot_stands_in_one_block_or_is_left(rooms: list[tuple[str, int]], shots: list[tuple[str, int]]) -> None:
    found = cover([Room(n, *room) for n, room in enumerate(rooms)], [Wanted(n, *shot) for n, shot in enumerate(shots)])
    told = [key for keys in found.shots.values() for key in keys] + list(found.left)
    assert sorted(told) == list(range(len(shots)))
    built = {setup for setup, _minutes in rooms}
    assert all(shots[key][0] not in built for key in found.left)
