"""A table before it becomes shots. Own arrangement."""

from __future__ import annotations

from shoots.shotlist.core.cells import split_table
from shoots.shotlist.core.columns import Column
from shoots.shotlist.core.preview import previewed
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
    assert shown.good == () and not shown.has_title


def test_a_column_chosen_twice_is_taken_once() -> None:
    shown = seen("a\tb\nc\td", has_head=False, chosen={0: Column.TITLE, 1: Column.TITLE})
    assert shown.columns == (Column.TITLE, None)
