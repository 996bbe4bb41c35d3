"""What a row changes of its shot. Own arrangement; each value is checked against the words beside it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.shotlist.core.cells import bounded, joined_table, split_table
from shoots.shotlist.core.changes import EMPTY, changes_of, listed_shot
from shoots.shotlist.core.columns import HEADS, Column
from shoots.shotlist.core.preview import RowKind, previewed
from shoots.shotlist.core.rows import Finishing, Problem, write_row
from shoots.shotlist.models import Shot
from shoots.shotlist.queries import WORDS
from tests.shotlist.core.test_rows import SHOTS

KNOWN = {Column.MOOD: {"Storm coming": 1, "Warm": 2}, Column.PLACE: {"Quarry": 4}}
VALUES = {
    Column.TITLE: "Pack on stone",
    Column.PURPOSE: "Cover",
    Column.PLACEMENTS: ("PAID_SOCIAL", "OWN_WEBSITE"),
    Column.FRAMING: "HALF",
    Column.SHAPES: ("4:5", "9:16"),
    Column.PRODUCTS: ("Pack, slate", "Vest"),
    Column.MOOD: 1,
    Column.PLACE: 9,
    Column.PRIORITY: "MUST",
    Column.MINUTES: 20,
    Column.FINISHING: (Finishing("Flare", 2, Decimal("30.00")), Finishing("Sky")),
    Column.NOTE: "dry",
}
# The place was put away since: the list has it, but no table may name it.
NAMES = {Column.MOOD: "Storm coming", Column.PLACE: "Old mill"}


def shot(*, with_prices: bool = True):
    return listed_shot(7, 3, VALUES, NAMES, WORDS, with_prices=with_prices)


def changed(cells: dict[Column, str], *, blanks_empty: bool = True, with_prices: bool = True):
    mine = shot(with_prices=with_prices)
    return changes_of(mine, list(cells), list(cells.values()), WORDS, KNOWN, blanks_empty=blanks_empty)


@pytest.mark.parametrize(
    ("column", "cell", "value"),
    [
        (Column.MINUTES, "30", 30),
        (Column.TITLE, "Pack on wet stone", "Pack on wet stone"),
        (Column.TITLE, "PACK on stone", "PACK on stone"),
        (Column.FRAMING, "wide", "WIDE"),
        (Column.SHAPES, "9:16, 4:5", ("9:16", "4:5")),
        (Column.PRODUCTS, "Vest", ("Vest",)),
        (Column.MOOD, "warm", 2),
        (Column.PLACE, "Quarry", 4),
        *((column, "", empty) for column, empty in EMPTY.items() if VALUES.get(column)),
    ],
)
def test_a_cell_that_says_something_else_changes_its_field_alone(column, cell, value) -> None:
    found = changed({Column.TITLE: "Pack on stone", column: cell})
    assert found.values == {column: value} and not found.errors
    assert [(change.column, change.old) for change in found.shown] == [(column, shot().cells[column])]


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        (Column.TITLE, ""),
        (Column.MINUTES, ""),
        (Column.FINALS, ""),
        (Column.FRAMING, ""),
        (Column.PRIORITY, ""),
        (Column.ORIENTATION, ""),
        (Column.OUTFITS, ""),
        (Column.MINUTES, "20 min"),
        (Column.FRAMING, "half-length"),
        (Column.PRIORITY, "must have"),
        (Column.PLACEMENTS, "own website; paid social"),
        (Column.PRODUCTS, "vest; PACK, slate"),
        (Column.MOOD, "storm  coming"),
        (Column.PLACE, "Old mill"),
        (Column.SHAPES, "4x5 / 9x16"),
        (Column.NUMBER, "12"),
        (None, "whatever"),
    ],
)
def test_a_cell_that_says_the_same_or_nothing_that_can_be_emptied_changes_nothing(column, cell) -> None:
    found = changed({column: cell})
    assert (found.values, found.shown, found.errors) == ({}, (), ())


def test_what_can_be_emptied_is_what_the_model_lets_be_empty() -> None:
    fields = {column: column.value.lower() for column in Column if column is not Column.NUMBER}
    own = {"FINISHING": "finishing_items"}
    for column, name in fields.items():
        field = Shot._meta.get_field(own.get(column, name))
        may = column is Column.FINISHING or field.blank
        assert (column in EMPTY) == may, column


def test_a_cell_that_is_not_understood_says_why_and_a_table_of_lines_empties_nothing() -> None:
    found = changed({Column.TITLE: "x", Column.MOOD: "Fog", Column.MINUTES: "5"})
    assert [(e.place, e.column, e.problem) for e in found.errors] == [(1, Column.MOOD, Problem.NO_SUCH)]
    assert not changed({Column.NOTE: "", Column.SHAPES: ""}, blanks_empty=False).values


@pytest.mark.parametrize(
    ("cell", "items"),
    [
        # A sheet without prices keeps them.
        ("Sky; Flare × 2", {Finishing("Flare", 2, Decimal("30.00")), Finishing("Sky")}),
        ("Flare × 3; Sky", {Finishing("Flare", 3, Decimal("30.00")), Finishing("Sky")}),
        ("flare", {Finishing("flare", None, Decimal("30.00"))}),
        ("Flare × 2 @ 35; Sky", {Finishing("Flare", 2, Decimal("35.00")), Finishing("Sky")}),
        ("Glow; Sky", {Finishing("Glow"), Finishing("Sky")}),
    ],
)
def test_a_finishing_without_a_price_keeps_its_own(cell, items) -> None:
    found = changed({Column.FINISHING: cell}).values
    assert set(found.get(Column.FINISHING, VALUES[Column.FINISHING])) == items


def test_a_sheet_without_prices_says_as_it_is_and_shows_none_to_who_may_not_see_them() -> None:
    assert shot().priceless == "Flare × 2; Sky"
    for with_prices in (True, False):
        assert not changed({Column.FINISHING: "Flare × 2; Sky"}, with_prices=with_prices).values
    found = changed({Column.FINISHING: "Flare × 3; Sky"}, with_prices=False)
    assert found.values[Column.FINISHING][0].price == Decimal("30.00")
    assert "30" not in repr(found.shown)
    typed = changed({Column.FINISHING: "Flare × 2 @ 1; Sky"}, with_prices=False)
    assert not typed.values


def test_two_of_a_name_with_two_prices_come_back_as_they_are() -> None:
    twins = {Column.FINISHING: (Finishing("Flare", 2, Decimal(30)), Finishing("Flare", 2, Decimal(40)))}
    mine = listed_shot(1, 1, {Column.TITLE: "x", **twins}, {}, WORDS, with_prices=True)
    columns = [Column.FINISHING]
    for cell in (mine.cells[Column.FINISHING], mine.priceless):
        assert not changes_of(mine, columns, [cell], WORDS, {}, blanks_empty=True).values


@settings(deadline=None)
@given(st.lists(SHOTS, max_size=5), st.booleans(), st.randoms())
def test_a_list_that_is_written_and_brought_back_is_as_it_is(shots, with_prices, random) -> None:
    listed = [listed_shot(n, 1, values, {}, WORDS, with_prices=with_prices) for n, values in enumerate(shots)]
    rows = [write_row({Column.NUMBER: n, **values}, WORDS) for n, values in enumerate(shots, start=1)]
    if not with_prices:
        place = list(Column).index(Column.FINISHING)
        rows = [(*row[:place], one.priceless, *row[place + 1 :]) for row, one in zip(rows, listed, strict=True)]
    random.shuffle(rows)
    table = split_table(joined_table([list(HEADS.values()), *rows]))
    seen = previewed(table, WORDS, {}, str, listed=listed)
    assert [row.kind for row in seen.rows] == [RowKind.SAME] * len(shots)
    assert (seen.good, seen.edits, seen.problems) == ((), (), 0)


@settings(deadline=None)
@given(st.lists(SHOTS, min_size=1, max_size=3), SHOTS)
def test_what_a_row_changes_makes_the_shot_say_what_the_row_says(shots, other) -> None:
    """A row with another shot's cells, once taken over, is as it is: nothing is left to change."""
    titled = {**other, Column.TITLE: shots[0][Column.TITLE]}
    row = bounded([write_row(titled, WORDS)])[0]
    columns = list(Column)[: len(row)]
    first = listed_shot(1, 1, shots[0], {}, WORDS, with_prices=True)
    found = changes_of(first, columns, row, WORDS, {}, blanks_empty=True)
    after = listed_shot(1, 2, {**shots[0], **found.values}, {}, WORDS, with_prices=True)
    assert not found.errors
    assert not changes_of(after, columns, row, WORDS, {}, blanks_empty=True).values
