"""What differs between two versions: own derivation, no outside source but the longest increasing subsequence."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.agreement.core.agreed import Agreed, AgreedMood, AgreedShot
from shoots.agreement.core.differences import Change, Deed, Part, differences, moved_places, paired_shots

RIM = AgreedShot(1, 1, "Rim", minutes=30)
SLAB = AgreedShot(2, 2, "Slab", minutes=20)
WALL = AgreedShot(3, 3, "Wall", minutes=10)
BEFORE = Agreed(
    purpose="A pack for rain",
    placements=("OWN_WEBSITE", "TRADE_SHOW"),
    must_nots=("No logo of the wheel maker", "No snow"),
    usage_months=12,
    finals_wanted=12,
    moods=(AgreedMood(5, "Storm", "wet stone", 25),),
    shots=(RIM, SLAB, WALL),
)


def said(before: Agreed, after: Agreed) -> list[tuple[str, str]]:
    return [(each.part.value, each.deed.value) for each in differences(before, after)]


def numbered(*shots: AgreedShot) -> tuple[AgreedShot, ...]:
    return tuple(replace(shot, number=n) for n, shot in enumerate(shots, start=1))


def test_the_same_says_nothing() -> None:
    assert differences(BEFORE, BEFORE) == ()


def test_the_example_of_the_issue() -> None:
    """Two more shots, trade show out, one year becomes two."""
    more = numbered(RIM, SLAB, WALL, AgreedShot(8, 0, "Sluice"), AgreedShot(9, 0, "Steps"))
    after = replace(BEFORE, shots=more, placements=("OWN_WEBSITE",), usage_months=24)
    shots, placements, term = differences(BEFORE, after)
    assert [shot.number for shot in shots.shots] == [4, 5]
    assert (placements.part, placements.deed, placements.items) == (Part.PLACEMENTS, Deed.REMOVED, ("TRADE_SHOW",))
    assert (term.part, term.numbers) == (Part.TERM, (12, 24))


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"purpose": "A pack for snow"}, [("PURPOSE", "CHANGED")]),
        ({"purpose": ""}, [("PURPOSE", "REMOVED")]),
        ({"audience": "Runners"}, [("AUDIENCE", "ADDED")]),
        ({"purpose": " A pack\r\nfor  rain"}, []),
        ({"placements": ("TRADE_SHOW", "OWN_WEBSITE")}, []),
        ({"placements": ("PACKAGING", "OWN_WEBSITE")}, [("PLACEMENTS", "ADDED"), ("PLACEMENTS", "REMOVED")]),
        ({"must_nots": ("No logo of the wheel maker", "No snow or ice")}, [("MUST_NOTS", "CHANGED")]),
        ({"must_nots": ()}, [("MUST_NOTS", "REMOVED")]),
        ({"usage_months": None, "usage_for_good": True}, [("TERM", "CHANGED")]),
        ({"usage_months": None}, [("TERM", "REMOVED")]),
        ({"finals_wanted": 14}, [("FINALS_WANTED", "CHANGED")]),
        ({"finals_wanted": None}, [("FINALS_WANTED", "REMOVED")]),
        ({"moods": ()}, [("MOODS", "REMOVED")]),
        ({"moods": (AgreedMood(5, "Storm coming", "wet stone", 12),)}, [("MOODS", "CHANGED")]),
        ({"shots": ()}, [("SHOTS", "REMOVED")]),
        ({"shots": numbered(SLAB, WALL)}, [("SHOTS", "REMOVED")]),
        ({"shots": numbered(WALL, RIM, SLAB)}, [("ORDER", "CHANGED")]),
        ({"shots": numbered(RIM, replace(SLAB, finals=3), WALL)}, [("SHOTS", "CHANGED")]),
        ({"shots": numbered(RIM, replace(SLAB, setup="9", day="2"), WALL)}, []),
    ],
)
def test_one_change_says_one_thing(change: dict[str, object], expected: list[tuple[str, str]]) -> None:
    assert said(BEFORE, replace(BEFORE, **change)) == expected  # type: ignore[arg-type]


def test_from_not_said_to_said_is_added_and_for_good_counts_as_said() -> None:
    unsaid = Agreed()
    (term,) = differences(unsaid, Agreed(usage_for_good=True))
    assert (term.deed, term.numbers) == (Deed.ADDED, (None, 0))


def test_a_shot_says_which_of_its_fields_changed() -> None:
    after = replace(SLAB, finals=3, framing="CLOSE", is_must=False)
    (found,) = differences(BEFORE, replace(BEFORE, shots=numbered(RIM, after, WALL)))
    assert found.changes == (
        Change("framing", "", "CLOSE"),
        Change("is_must", True, False),
        Change("finals", 1, 3),
    )


def test_a_shot_that_was_deleted_and_typed_again_is_the_same_shot() -> None:
    again = AgreedShot(40, 2, "slab ", minutes=20)
    found = said(BEFORE, replace(BEFORE, shots=numbered(RIM, again, WALL)))
    assert found == [("SHOTS", "CHANGED")]  # the title's spelling, and nothing gone or new


def test_two_shots_of_one_title_are_two_shots() -> None:
    one, two = AgreedShot(1, 1, "Rim"), AgreedShot(2, 2, "Rim")
    pairs, went, came = paired_shots([one, two], [AgreedShot(9, 1, "Rim")])
    assert [(was.key, now.key) for was, now in pairs] == [(1, 9)]
    assert ([shot.key for shot in went], came) == ([2], ())


def test_a_moved_shot_is_the_one_that_is_said() -> None:
    five = [AgreedShot(n, n, f"Shot {n}") for n in range(1, 6)]
    order = [five[4], *five[:4]]
    (found,) = differences(Agreed(shots=tuple(five)), Agreed(shots=numbered(*order)))
    assert [(shot.number, shot.title) for shot in found.shots] == [(1, "Shot 5")]


def longest_kept(order: tuple[int, ...]) -> int:
    """By trying every choice: independent of the way the module finds it."""
    for size in range(len(order), 0, -1):
        if any(list(kept) == sorted(kept) for kept in combinations(order, size)):
            return size
    return 0


@pytest.mark.parametrize("length", range(7))
def test_as_few_are_said_to_have_moved_as_can_be(length: int) -> None:
    for order in permutations(range(length)):
        moved = moved_places(order)
        rest = [value for place, value in enumerate(order) if place not in moved]
        assert rest == sorted(rest)
        assert len(rest) == longest_kept(order)


shots_of_any_kind = st.lists(
    st.builds(AgreedShot, key=st.integers(1, 9), number=st.just(1), title=st.sampled_from(["Rim", "rim", "Slab", ""])),
    max_size=8,
    unique_by=lambda shot: shot.key,
)


@given(shots_of_any_kind, shots_of_any_kind)
def test_no_shot_is_lost_and_none_is_counted_twice(before: list[AgreedShot], after: list[AgreedShot]) -> None:
    pairs, went, came = paired_shots(before, after)
    assert sorted([was.key for was, _now in pairs] + [shot.key for shot in went]) == sorted(s.key for s in before)
    assert sorted([now.key for _was, now in pairs] + [shot.key for shot in came]) == sorted(s.key for s in after)


@given(shots_of_any_kind, shots_of_any_kind)
def test_nothing_differs_only_where_both_say_the_same(before: list[AgreedShot], after: list[AgreedShot]) -> None:
    one, two = Agreed(shots=tuple(before)), Agreed(shots=tuple(after))
    titles_same = [shot.title for shot in before] == [shot.title for shot in after]
    assert titles_same or differences(one, two)
