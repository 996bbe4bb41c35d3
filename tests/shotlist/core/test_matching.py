"""Which shot each row of a table is. Own arrangement, checked by what must hold of any."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.shotlist.core.matching import matched, title_key

TITLES = st.lists(st.sampled_from(["Pack", "pack ", "Vest", "Boots", "Runner", "Rain  jacket"]), max_size=6)
ROWS = st.lists(
    st.tuples(
        st.sampled_from(["", "Pack", "PACK", "Vest", "Boots", "runner", "rain jacket", "Lamp"]),
        st.none() | st.integers(1, 8),
    ),
    max_size=7,
)


@pytest.mark.parametrize(
    ("rows", "titles", "numbers"),
    [
        ([(" vest ", None), ("PACK", None)], ["Pack", "Vest"], (2, 1)),
        # The title goes before the number: the list was put into another order since.
        ([("Pack", 2), ("Vest", 1)], ["Pack", "Vest"], (1, 2)),
        # A title that was edited is still that shot.
        ([("Pack", 1), ("Vest, torn", 2)], ["Pack", "Vest"], (1, 2)),
        # Not where another row has that shot's title: a row that was copied to make a new one of it.
        ([("Pack", 1), ("Pack from behind", 1)], ["Pack", "Vest"], (1, None)),
        # Titles that stand twice are told apart by their numbers.
        ([("Detail", 3), ("Detail", 1)], ["Detail", "Vest", "Detail"], (3, 1)),
        ([("Detail", None), ("Detail", None)], ["Detail", "Vest", "Detail"], (None, None)),
        ([("Detail", None)], ["Detail", "Detail"], (None,)),
        ([("Pack", None), ("pack", None)], ["Pack"], (None, None)),
        # Two that claim the same number are neither, unless one has its title.
        ([("A", 1), ("B", 1)], ["Pack"], (None, None)),
        ([("Detail", 1), ("B", 1)], ["Detail", "Detail"], (1, None)),
        ([("", 2), ("", None), ("", 9)], ["Pack", "Vest"], (2, None, None)),
        ([], ["Pack"], ()),
        ([("Pack", 1)], [], (None,)),
    ],
)
def test_a_row_is_the_shot_of_its_title_or_else_of_its_number(rows, titles, numbers) -> None:
    assert matched(rows, titles) == numbers


def test_an_accent_may_be_a_letter_of_its_own() -> None:
    apart = unicodedata.normalize("NFD", "Käfig im Nebel")
    assert apart != "Käfig im Nebel" and title_key(apart) == title_key("KÄFIG  im nebel")


@given(ROWS, TITLES)
def test_no_shot_is_two_rows_and_every_number_is_one_of_the_list(rows, titles) -> None:
    found = [number for number in matched(rows, titles) if number is not None]
    assert len(found) == len(set(found))
    assert set(found) <= set(range(1, len(titles) + 1))


@given(ROWS, TITLES, st.randoms())
def test_the_order_of_rows_does_not_matter(rows, titles, random) -> None:
    order = list(range(len(rows)))
    random.shuffle(order)
    found = matched(rows, titles)
    assert matched([rows[place] for place in order], titles) == tuple(found[place] for place in order)


@given(ROWS, TITLES)
def test_what_has_neither_title_nor_number_in_common_is_nothing_on_the_list(rows, titles) -> None:
    others = [(f"new {title}", number + len(titles) if number else None) for title, number in rows]
    assert matched(others, titles) == (None,) * len(rows)


@given(ROWS, TITLES)
def test_a_row_that_is_matched_has_the_title_or_the_number_of_its_shot(rows, titles) -> None:
    for (title, number), found in zip(rows, matched(rows, titles), strict=True):
        assert found is None or found == number or title_key(title) == title_key(titles[found - 1])


@given(TITLES, st.randoms())
def test_an_exported_list_is_itself_in_whatever_order_its_rows_come(titles, random) -> None:
    rows = [(title, number) for number, title in enumerate(titles, start=1)]
    random.shuffle(rows)
    assert matched(rows, titles) == tuple(number for _title, number in rows)
