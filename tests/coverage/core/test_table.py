"""Promises and shots by two dimensions: own rules, worked by hand."""

from __future__ import annotations

from shoots.coverage.core.table import ANY, table, usual_sides
from shoots.shotlist.core.coverage import Dimension, Planned, Promise, State, coverage

P, S, W, M = Dimension.PRODUCT, Dimension.SHAPE, Dimension.PLACEMENT, Dimension.MOOD


def shot(key: int, **has: str) -> Planned:
    return Planned(key, {Dimension[name]: frozenset(value.split("|")) for name, value in has.items()})


def asked(key: str, least: int = 1, most: int | None = None, **wants: str) -> Promise:
    return Promise(key, tuple((Dimension[name], value) for name, value in wants.items()), least, most)


PROMISES = [
    asked("both", PRODUCT="vest", SHAPE="9:16", least=2),
    asked("vest", PRODUCT="vest", MOOD="1"),
    asked("tall", SHAPE="9:16"),
    asked("all", least=2, most=2),
]
SHOTS = [shot(1, PRODUCT="Vest", SHAPE="4:5|9:16"), shot(2, PRODUCT="cap", SHAPE="1:1"), shot(3, SHAPE="9:16")]


def test_each_promise_stands_in_one_cell() -> None:
    made = table(coverage(PROMISES, SHOTS), SHOTS, P, S)
    found = {
        (line.value, column): [row.promise.key for row in cell.rows]
        for line in made.lines
        for column, cell in zip(made.columns, line.cells, strict=True)
        if cell.rows
    }
    assert found == {("vest", "9:16"): ["both"], ("vest", ANY): ["vest"], (ANY, "9:16"): ["tall"], (ANY, ANY): ["all"]}


def test_what_was_promised_comes_first_then_what_only_shots_have() -> None:
    made = table(coverage(PROMISES, SHOTS), SHOTS, P, S)
    assert made.columns == ("9:16", "4:5", "1:1", ANY)
    assert [(line.value, line.is_asked) for line in made.lines] == [("vest", True), ("cap", False), (ANY, True)]


def test_a_cell_tells_the_worst_of_its_promises_and_counts_no_picture_twice_as_kept() -> None:
    made = table(coverage(PROMISES, SHOTS), SHOTS, P, S)
    both = made.lines[0].cells[0]
    assert (both.state, both.pictures, both.wanted, both.shots) == (State.PARTLY, 1, 2, (1,))
    whatever = made.lines[-1].cells[-1]
    assert (whatever.state, whatever.over, whatever.pictures) == (State.MORE, 1, 2)


def test_a_cell_without_a_promise_shows_the_shots_that_are_there() -> None:
    made = table(coverage(PROMISES, SHOTS), SHOTS, P, S)
    assert made.lines[1].cells[2].shots == (2,) and made.lines[1].cells[2].state is None


def test_the_sides_are_those_that_were_named_together_most() -> None:
    assert usual_sides([asked("a", SHAPE="4:5", PLACEMENT="EMAIL"), asked("b", PRODUCT="x")]) == (S, W)
    assert usual_sides([asked("a", MOOD="1"), asked("b", PRODUCT="x")]) == (P, M)
    assert usual_sides([asked("a", PLACEMENT="EMAIL")]) == (W, P)
