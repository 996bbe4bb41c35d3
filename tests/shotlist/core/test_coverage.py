"""What was promised against the shots: own rules, worked by hand; the notes of the cases are invented."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.shotlist.core.coverage import (
    Dimension,
    Fit,
    Planned,
    Promise,
    PromiseNotPossible,
    State,
    coverage,
    fit,
    is_same,
    missing_shots,
    telling_names,
)

P, M, S, W = Dimension.PRODUCT, Dimension.MOOD, Dimension.SHAPE, Dimension.PLACEMENT


def shot(key: int, *, pictures: int = 1, **has: str) -> Planned:
    return Planned(
        key, {Dimension[name]: frozenset(value.split("|")) for name, value in has.items()}, pictures=pictures
    )


def asked(key: str, *, least: int = 1, most: int | None = None, crops: int = 0, **wants: str) -> Promise:
    return Promise(key, tuple((Dimension[name], value) for name, value in wants.items()), least, most, crops)


def test_a_shot_serves_a_combination_only_if_it_has_all_of_it() -> None:
    wanted = asked("a", PRODUCT="vest", MOOD="bright", SHAPE="9:16")
    assert fit(wanted, shot(1, PRODUCT="Vest, slate", MOOD="bright", SHAPE="4:5|9:16")) is Fit.YES
    assert fit(wanted, shot(1, PRODUCT="Vest", MOOD="dark", SHAPE="9:16")) is Fit.NO
    assert fit(wanted, shot(1, PRODUCT="Vest", MOOD="bright", SHAPE="4:5")) is Fit.NO


def test_two_shots_that_have_half_each_don_t_serve_what_was_named_together() -> None:
    done = coverage(
        [asked("a", PRODUCT="vest", SHAPE="9:16")],
        [shot(1, PRODUCT="vest", SHAPE="4:5"), shot(2, PRODUCT="cap", SHAPE="9:16")],
    )
    assert done.rows[0].state is State.HOLE and done.unasked == (1, 2)


def test_a_silent_shot_serves_perhaps_and_perhaps_never_counts() -> None:
    done = coverage([asked("a", PRODUCT="vest", MOOD="bright")], [shot(1, PRODUCT="vest")])
    row = done.rows[0]
    assert (row.state, row.perhaps, row.shots, row.lacking) == (State.HOLE, (1,), (), 1)


def test_silence_about_people_is_nobody_and_not_perhaps() -> None:
    assert fit(asked("a", PERSON="runner"), shot(1, PRODUCT="vest")) is Fit.NO


def test_counts_are_of_finished_pictures_and_not_of_shots() -> None:
    done = coverage([asked("a", SHAPE="9:16", least=3)], [shot(1, SHAPE="9:16", pictures=2), shot(2, SHAPE="9:16")])
    assert done.rows[0].state is State.SERVED and done.rows[0].pictures == 3


def test_a_shot_without_finished_pictures_serves_nothing() -> None:
    assert fit(asked("a"), shot(1, pictures=0)) is Fit.NO


def test_more_than_the_most_that_was_agreed_is_told() -> None:
    done = coverage([asked("all", least=10, most=12)], [shot(n) for n in range(14)])
    assert done.rows[0].state is State.MORE and done.rows[0].over == 2


def test_without_a_most_there_is_no_surplus() -> None:
    assert coverage([asked("all", least=1)], [shot(1), shot(2)]).rows[0].state is State.SERVED


def test_a_hero_with_three_cut_downs_needs_four_shapes_of_one_picture() -> None:
    hero = asked("hero", KIND="HERO", crops=3)
    assert fit(hero, shot(1, KIND="HERO", SHAPE="3:2|4:5|1:1|9:16")) is Fit.YES
    assert fit(hero, shot(1, KIND="HERO", SHAPE="3:2|4:5")) is Fit.NO
    assert fit(hero, shot(1, KIND="HERO")) is Fit.PERHAPS


@pytest.mark.parametrize(
    ("dimension", "wanted", "had", "same"),
    [
        (P, "12 litre pack", "12 litre pack, burnt orange", True),
        (P, "12 litre pack", "5 litre pack", False),
        (P, "trail boots", "Trail boot", True),
        (P, "vest", "vestibule", False),
        (P, "glass", "glas", False),
        (Dimension.PERSON, "runner", "Leo, the Runner", True),
        (S, "4:5", "8:10", True),
        (S, "landscape", "3:2", True),
        (S, "landscape", "4:5", False),
        (S, "landscape", "3:1", False),
        (S, "landscape banner", "3:1", True),
        (S, "portrait", "9:16", True),
        (S, "portrait", "1:1", False),
        (S, "square", "1:1", True),
        (S, "A4 portrait", "A4 portrait", True),
        (S, "blob", "Blob", True),
        (M, "7", "17", False),
        (W, "WEB_SHOP", "OWN_WEBSITE", False),
    ],
)
def test_what_is_the_same(dimension: Dimension, wanted: str, had: str, same: bool) -> None:
    assert is_same(dimension, wanted, had) is same


def test_colours_tell_products_apart_only_where_they_have_to() -> None:
    assert telling_names(["Jacket, red", "Jacket, blue", "Hat (wool)"]) == {
        "Jacket, red": "Jacket, red",
        "Jacket, blue": "Jacket, blue",
        "Hat (wool)": "Hat",
    }


def test_a_shot_that_lacks_only_a_shape_or_a_placement_is_named() -> None:
    wanted = asked("a", PRODUCT="vest", SHAPE="9:16")
    done = coverage([wanted], [shot(1, PRODUCT="vest", SHAPE="4:5"), shot(2, PRODUCT="cap", SHAPE="4:5")])
    assert done.rows[0].nearly == (1,)


def test_nobody_asked_for_a_shot_that_serves_no_named_promise() -> None:
    done = coverage(
        [asked("all", least=2), asked("a", PRODUCT="vest")], [shot(1, PRODUCT="vest"), shot(2, PRODUCT="cap")]
    )
    assert done.unasked == (2,)


@pytest.mark.parametrize(
    "fields",
    [
        {"least": 0},
        {"least": 3, "most": 2},
        {"crops": -1},
        {"wants": ((P, "a"), (P, "b"))},
    ],
)
def test_promises_that_can_t_be_meant_are_refused(fields: dict[str, object]) -> None:
    with pytest.raises(PromiseNotPossible):
        Promise("a", **fields)  # type: ignore[arg-type]


def test_missing_shots_join_what_agrees_and_part_what_doesn_t() -> None:
    promises = [
        asked("tall", SHAPE="9:16", PLACEMENT="ORGANIC_SOCIAL", least=2),
        asked("vest", PRODUCT="vest", MOOD="bright"),
        asked("pack", PRODUCT="pack", MOOD="dark"),
        asked("cap", PRODUCT="cap"),
    ]
    drafts = missing_shots(coverage(promises, []))
    assert [drafted.promises for drafted in drafts] == [("tall", "vest"), ("tall", "pack"), ("cap",)]
    assert drafts[0].wants[P] == ("vest",) and drafts[0].wants[S] == ("9:16",)


def test_wishes_are_no_holes() -> None:
    wish = Promise("a", ((P, "vest"),), is_wish=True)
    done = coverage([wish], [])
    assert done.rows[0].state is State.HOLE and done.holes == () and missing_shots(done) == ()


def test_no_more_drafts_than_asked_for() -> None:
    assert len(missing_shots(coverage([asked("all", least=500)], []), most=7)) == 7


values = {P: ["vest", "pack"], M: ["1", "2"], S: ["4:5", "9:16"], W: ["WEB_SHOP", "EMAIL"]}
wants = st.fixed_dictionaries({}, optional={d: st.sampled_from(v) for d, v in values.items()})
promise_lists = st.lists(st.tuples(wants, st.integers(1, 3), st.integers(0, 2)), max_size=6)
shot_lists = st.lists(
    st.tuples(
        st.fixed_dictionaries(
            {}, optional={d: st.frozensets(st.sampled_from(v), min_size=1) for d, v in values.items()}
        ),
        st.integers(0, 2),
    ),
    max_size=6,
)


@given(promise_lists, shot_lists)
def test_the_drafts_fill_every_hole(listed, planned) -> None:  # type: ignore[no-untyped-def]
    promises = [
        Promise(str(n), tuple(named.items()), least, crops=crops) for n, (named, least, crops) in enumerate(listed)
    ]
    shots = [Planned(n, has, pictures) for n, (has, pictures) in enumerate(planned)]
    drafts = missing_shots(coverage(promises, shots), most=100)
    taken_up = [
        Planned(
            100 + n,
            {
                **{dimension: frozenset(named) for dimension, named in drafted.wants.items()},
                # A crop is a shape of its own; which, whoever takes the draft up decides.
                **(
                    {S: frozenset({*drafted.wants.get(S, ()), *(f"{k + 2}:19" for k in range(drafted.crops + 1))})}
                    if drafted.crops
                    else {}
                ),
            },
        )
        for n, drafted in enumerate(drafts)
    ]
    assert coverage(promises, [*shots, *taken_up]).holes == ()
