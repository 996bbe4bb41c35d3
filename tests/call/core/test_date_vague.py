"""Parts of months, seasons, quarters, named days (shoots.call.core.date_vague). Thirds of a month: common practice."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.date_vague import months_and_seasons, named_days
from shoots.call.core.date_words import Atom, Scene
from tests.call.core.notes import CALLED, hits, sentence


def found(text: str, country: str = "GB", called: date = CALLED) -> list[Atom]:
    line = sentence(text)
    scene = Scene(line, hits(line), called, country)
    return [*named_days(scene), *months_and_seasons(scene)]


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("early June", date(2026, 6, 1), date(2026, 6, 10)),
        ("mid July", date(2026, 7, 11), date(2026, 7, 20)),
        ("end of September", date(2026, 9, 21), date(2026, 9, 30)),
        ("first half of June", date(2026, 6, 1), date(2026, 6, 15)),
        ("in October", date(2026, 10, 1), date(2026, 10, 31)),
        ("in autumn", date(2026, 9, 1), date(2026, 11, 30)),
        ("q3", date(2026, 7, 1), date(2026, 9, 30)),
        ("by Feb", date(2027, 2, 1), date(2027, 2, 28)),
        ("before Easter", date(2027, 3, 28), date(2027, 3, 28)),
        ("before Christmas", date(2026, 12, 25), date(2026, 12, 25)),
    ],
)
def test_a_wide_time(text: str, first: date, last: date) -> None:
    assert [(atom.first, atom.last) for atom in found(text)] == [(first, last)]


@pytest.mark.parametrize("text", ["it may rain", "Easter eggs", "spring range", "christmas jumpers", "march past"])
def test_what_is_no_time(text: str) -> None:
    assert found(text) == []


def test_the_bank_holiday_is_the_next_one_and_doubtful() -> None:
    (atom,) = found("before the bank holiday")
    assert atom.first == date(2026, 5, 25) and atom.ambiguous
