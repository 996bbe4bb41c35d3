"""Who is held twice on a day. Own rule; no source."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from shoots.shoot.core.clashes import Held, clashes

NINTH, TENTH = date(2026, 6, 9), date(2026, 6, 10)


def test_the_same_person_on_another_day_is_no_clash() -> None:
    assert clashes([Held(NINTH, "person:1", "A", True)], [Held(TENTH, "person:1", "B", True)]) == {}


def test_a_shoot_never_clashes_with_itself() -> None:
    assert clashes([Held(NINTH, "person:1", "A", True)], [Held(NINTH, "person:1", "A", False)]) == {}


def test_confirmed_ones_come_first_and_each_other_shoot_once() -> None:
    mine = [Held(NINTH, "place:3", "A", False)]
    others = [
        Held(NINTH, "place:3", "B", False),
        Held(NINTH, "place:3", "C", False),
        Held(NINTH, "place:3", "C", True),
    ]
    found = clashes(mine, others)
    assert [(held.shoot, held.firm) for held in found["place:3", NINTH]] == [("C", True), ("B", False)]


held = st.builds(
    Held,
    on=st.sampled_from([NINTH, TENTH]),
    what=st.sampled_from(["person:1", "place:1"]),
    shoot=st.sampled_from(["A", "B"]),
    firm=st.booleans(),
)


@given(st.lists(held), st.lists(held))
def test_two_shoots_see_the_same_clashes_from_both_sides(first: list[Held], second: list[Held]) -> None:
    ours = [h for h in first if h.shoot == "A"]
    theirs = [h for h in second if h.shoot == "B"]
    assert set(clashes(ours, theirs)) == set(clashes(theirs, ours))
