"""What columns are called. The words are the trade's, from memory."""

from __future__ import annotations

from shoots.shotlist.core.columns import _OTHER_HEADS, HEADS, Column, heads_of, key_of


def test_heads_are_known_by_their_own_words_and_the_trade_s() -> None:
    assert heads_of(list(HEADS.values())) == tuple(Column)
    assert heads_of(["#", "Shot description", "Aspect Ratio", "Talent", "WARDROBE", "Retouching", "shot"]) == (
        None,
        Column.TITLE,
        Column.SHAPES,
        Column.SUBJECTS,
        Column.OUTFITS,
        Column.FINISHING,
        None,
    )


def test_no_word_of_a_head_means_two_columns() -> None:
    seen: dict[str, Column] = {}
    for column, head in HEADS.items():
        assert seen.setdefault(key_of(head), column) is column
    for column, others in _OTHER_HEADS.items():
        for other in others:
            assert seen.setdefault(key_of(other), column) is column, other
