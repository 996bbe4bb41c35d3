"""A table before it becomes shots. Own arrangement."""

from __future__ import annotations

from shoots.shotlist.core.cells import split_table
from shoots.shotlist.core.changes import listed_shot
from shoots.shotlist.core.columns import Column
from shoots.shotlist.core.preview import RowKind, previewed
from shoots.shotlist.queries import WORDS


def seen(text: str, **said):
    said = {"has_head": None, "chosen": {}, "mended": {}, **said}
    return previewed(split_table(text), WORDS, {}, lambda error: str(error.problem), **said)


def test_a_table_with_heads_is_recognised() -> None:
    shown = seen("Shot\tAspect ratio\tOwner\nPack\t4:5\tMara\nRunner\tround\tMara")
    assert shown.has_head and shown.columns == (Column.TITLE, Column.SHAPES, None)
    assert shown.good == ({Column.TITLE: "Pack", Column.SHAPES: ("4:5",)},)
    assert [(cell.name, cell.problem) for cell in shown.rows[1].cells] == [
        ("cell-1-0", ""),
        ("cell-1-1", "NO_SHAPE"),
        ("cell-1-2", ""),
    ]
    assert (shown.problems, shown.bad) == (1, 1)


def test_a_table_without_heads_loses_no_row() -> None:
    shown = seen("Pack\t4:5\nRunner\t9:16")
    assert not shown.has_head and len(shown.good) == 2


def test_lines_of_words_are_read_as_the_quick_line_reads_them() -> None:
    shown = seen("Pack on stone 4:5, 15 min\nRunner; or a walker, maybe")
    assert [row[Column.TITLE] for row in shown.good] == ["Pack on stone", "Runner; or a walker"]
    assert shown.good[0][Column.MINUTES] == 15 and shown.good[1][Column.PRIORITY] == "WISH"


def test_the_text_for_the_next_look_gives_the_same_table() -> None:
    for text in ('Shot;Note\n"a;b";\'=1\nc;"two\nlines"', "Pack; wet\nVest", "Shot\n=1+1", "Title,Shapes\nA,4:5"):
        first = seen(text)
        again = seen(first.text, has_head=first.has_head)
        assert (again.columns, again.good, again.text) == (first.columns, first.good, first.text)


def test_a_mended_cell_and_a_chosen_column_are_taken() -> None:
    text = "Shot\tHow long\nPack\tages\nVest\t5"
    shown = seen(text, has_head=True, chosen={1: Column.MINUTES})
    assert shown.problems == 1
    shown = seen(text, has_head=True, chosen={0: Column.TITLE, 1: Column.MINUTES}, mended={(0, 1): " 20 ", (9, 9): "x"})
    assert [row[Column.MINUTES] for row in shown.good] == [20, 5]


def test_no_row_is_good_without_a_column_of_titles() -> None:
    shown = seen("Shot\tNote\nPack\tx", has_head=True, chosen={0: None})
    assert shown.good == () and not shown.names_shots


def test_a_column_chosen_twice_is_taken_once() -> None:
    shown = seen("a\tb\nc\td", has_head=False, chosen={0: Column.TITLE, 1: Column.TITLE})
    assert shown.columns == (Column.TITLE, None)


def on_the_list(*titles: str):
    return [
        listed_shot(n, 1, {Column.TITLE: title, Column.MINUTES: 20, Column.SHAPES: ("4:5",)}, {}, {}, with_prices=True)
        for n, title in enumerate(titles, start=11)
    ]


def test_rows_say_what_they_do_to_a_list() -> None:
    text = "Number\tShot\tMinutes\n1\tPack\t20\n2\tVest, torn\t30\n\tBoots\t5\n3\tPack twice\tages"
    shown = seen(text, listed=on_the_list("Pack", "Vest"))
    assert [(row.kind, row.shot_number) for row in shown.rows] == [
        (RowKind.SAME, 1),
        (RowKind.CHANGES, 2),
        (RowKind.NEW, None),
        (RowKind.NEW, None),
    ]
    assert [(c.head, c.old, c.new) for c in shown.rows[1].changes] == [
        ("What is in it", "Vest", "Vest, torn"),
        ("Minutes", "20", "30"),
    ]
    assert [cell.is_changed for cell in shown.rows[1].cells] == [False, True, True]
    assert [(edit.number, edit.pk) for edit in shown.edits] == [(2, 12)]
    assert [row[Column.TITLE] for row in shown.good] == ["Boots"]
    assert (shown.new, shown.differing, shown.same, shown.renamed, shown.bad, shown.taken) == (1, 1, 1, 1, 1, 2)


def test_rows_that_differ_are_added_once_more_when_that_is_said_and_others_not() -> None:
    text = "Shot\tMinutes\nPack\t20\nVest\t30\nBoots\t5"
    shown = seen(text, listed=on_the_list("Pack", "Vest"), adds=True)
    assert [row.kind for row in shown.rows] == [RowKind.SAME, RowKind.AGAIN, RowKind.NEW]
    assert [row[Column.TITLE] for row in shown.good] == ["Vest", "Boots"] and not shown.edits and shown.has_choice


def test_a_row_without_a_title_is_the_shot_of_its_number_or_says_what_it_needs() -> None:
    shown = seen("Number\tMinutes\n2\t5\n7\t5\n\t9", listed=on_the_list("Pack", "Vest"))
    assert [(edit.pk, edit.values) for edit in shown.edits] == [(12, {Column.MINUTES: 5})]
    assert [cell.problem for row in shown.rows for cell in row.cells if cell.problem] == ["NOT_LISTED"] * 2
    titled = seen("Number\tShot\tMinutes\n2\t\t5\n7\t\t5", listed=on_the_list("Pack", "Vest"))
    assert [edit.pk for edit in titled.edits] == [12]
    assert [cell.problem for cell in titled.rows[1].cells] == ["", "EMPTY", ""]


def test_a_number_that_is_none_matters_for_a_row_without_a_shot_only() -> None:
    shown = seen("Number\tShot\n2a\tPack\n2b\tBoots", listed=on_the_list("Pack", "Vest"))
    assert [row.has_problem for row in shown.rows] == [False, True]
    left_out = seen("Number\tShot\n2a\tPack\n2b\tBoots", listed=on_the_list("Pack"), chosen={0: None})
    assert [row.kind for row in left_out.rows] == [RowKind.SAME, RowKind.NEW] and not left_out.problems


def test_lines_of_words_empty_nothing_and_a_table_does() -> None:
    lines = seen("Pack\nBoots 9:16", listed=on_the_list("Pack"))
    assert [row.kind for row in lines.rows] == [RowKind.SAME, RowKind.NEW] and not lines.blanks_empty
    again = seen(lines.text, listed=on_the_list("Pack"), has_head=True, blanks_empty=lines.blanks_empty)
    assert [row.kind for row in again.rows] == [RowKind.SAME, RowKind.NEW]
    table = seen("Shot\tShapes\nPack\t\nBoots\t9:16", listed=on_the_list("Pack"))
    assert table.edits[0].values == {Column.SHAPES: ()}


def test_a_title_that_stands_more_than_once_is_told() -> None:
    shown = seen("Shot\nPack\nBoots", listed=on_the_list("Pack", "pack"))
    assert [(row.kind, row.is_alike) for row in shown.rows] == [(RowKind.NEW, True), (RowKind.NEW, False)]
