"""All that was promised, once: own rules, worked by hand."""

from __future__ import annotations

from shoots.coverage.core.promised import LONGEST, Stated, key_of, promised, settled
from shoots.coverage.core.said import Origin, Said
from shoots.shotlist.core.coverage import Dimension, Wants

P, S, W, M = Dimension.PRODUCT, Dimension.SHAPE, Dimension.PLACEMENT, Dimension.MOOD


def said(origin: Origin, *wants: tuple[Dimension, str], **fields: object) -> Said:
    return Said(origin, str(origin), "words", wants, **fields)  # type: ignore[arg-type]


def keys(*listed: Said) -> list[str]:
    return [one.promise.key for one in promised(listed)]


def test_the_same_in_two_papers_is_one_promise_with_two_sources() -> None:
    found = promised([said(Origin.CALL, (P, "vest")), said(Origin.BRIEF, (P, "Vest"))])
    assert len(found) == 1 and [one.origin for one in found[0].said] == [Origin.BRIEF, Origin.CALL]


def test_a_product_s_colour_matters_only_where_it_tells_two_apart() -> None:
    assert keys(said(Origin.BRIEF, (P, "Vest, slate")), said(Origin.BRIEF, (P, "Cap, red"))) == [
        "PRODUCT=vest",
        "PRODUCT=cap",
    ]
    assert keys(said(Origin.BRIEF, (P, "Cap, blue")), said(Origin.BRIEF, (P, "Cap, red"))) == [
        "PRODUCT=cap, blue",
        "PRODUCT=cap, red",
    ]


def test_the_weightiest_paper_s_number_counts_and_the_others_are_told() -> None:
    found = promised(
        [
            said(Origin.CALL, least=10, most=12),
            said(Origin.BRIEF, least=12, most=12),
            said(Origin.LICENCE, least=13, most=13),
        ]
    )
    assert (found[0].promise.least, found[0].promise.most) == (13, 13)
    assert [one.origin for one in found[0].disagree] == [Origin.BRIEF, Origin.CALL]


def test_at_least_one_does_not_disagree_with_three() -> None:
    found = promised([said(Origin.CALL, (S, "9:16"), least=3), said(Origin.CALL, (S, "9:16"))])
    assert found[0].promise.least == 3 and found[0].disagree == ()


def test_a_bare_promise_goes_into_the_combination_that_keeps_it() -> None:
    found = promised([said(Origin.BRIEF, (S, "9:16")), said(Origin.CALL, (S, "9:16"), (W, "EMAIL"))])
    assert [one.promise.key for one in found] == ["SHAPE=9:16;PLACEMENT=email"]
    assert {one.origin for one in found[0].said} == {Origin.BRIEF, Origin.CALL}


def test_a_bare_promise_of_more_pictures_stands_for_itself() -> None:
    assert len(keys(said(Origin.BRIEF, (S, "9:16"), least=3), said(Origin.CALL, (S, "9:16"), (W, "EMAIL")))) == 2


def test_a_wish_keeps_no_promise() -> None:
    found = promised([said(Origin.BRIEF, (S, "9:16")), said(Origin.CALL, (S, "9:16"), (W, "EMAIL"), is_wish=True)])
    assert len(found) == 2


def test_a_wish_that_is_promised_elsewhere_is_promised() -> None:
    found = promised([said(Origin.CALL, (P, "vest"), is_wish=True), said(Origin.BRIEF, (P, "vest"))])
    assert not found[0].promise.is_wish


def test_chains_of_bare_promises_lose_nobody() -> None:
    chain: list[Wants] = [((P, "a"),), ((P, "a"), (M, "1")), ((P, "a"), (M, "1"), (S, "4:5"))]
    found = promised([said(Origin.CALL, *wants) for wants in chain])
    assert len(found) == 1 and len(found[0].said) == 3


def test_any_number_of_pictures_comes_first() -> None:
    assert keys(said(Origin.CALL, (P, "vest")), said(Origin.BRIEF, least=4))[0] == "ALL"


def test_a_key_cannot_be_forged_by_a_name() -> None:
    assert key_of(((P, "a;SHAPE=4:5"),)) != key_of(((P, "a"), (S, "4:5")))


def test_long_names_have_keys_of_their_own_that_fit() -> None:
    keys = {key_of(((P, "a" * 3000 + end),)) for end in ("", "b")}
    assert len(keys) == 2 and all(len(key) <= LONGEST for key in keys)


def test_the_studio_s_word_takes_the_place_of_what_was_read() -> None:
    vest = promised([said(Origin.BRIEF, (P, "vest"))])
    own = Stated("7", "PRODUCT=vest", said(Origin.STUDIO, (P, "vest"), (M, "1"), least=2))
    done = settled(vest, [own])
    assert [one.promise.key for one in done.promised] == ["own:7"] and done.promised[0].promise.least == 2
    assert [one.origin for one in done.promised[0].said] == [Origin.STUDIO, Origin.BRIEF]
    assert done.stated["own:7"] is own


def test_what_is_not_promised_after_all_is_kept_beside() -> None:
    vest = promised([said(Origin.BRIEF, (P, "vest"))])
    done = settled(vest, [Stated("7", "PRODUCT=vest", None)])
    assert done.promised == () and [one.promise.key for one, _own in done.left_out] == ["PRODUCT=vest"]


def test_the_studio_s_word_stays_when_no_paper_says_it_any_longer() -> None:
    done = settled(
        [], [Stated("7", "PRODUCT=vest", said(Origin.STUDIO, (P, "vest"))), Stated("8", "PRODUCT=cap", None)]
    )
    assert [one.promise.key for one in done.promised] == ["own:7"] and done.left_out == ()
