"""The words that dates are made of (shoots.call.core.date_words)."""

from __future__ import annotations

import calendar as days
import re
from datetime import date

import pytest

from shoots.call.core.date_words import MONTH, WEEKDAY, YEAR, Atom, Scene, month_of, weekday_of, year_of
from shoots.call.core.drafts import ReasonCode
from tests.call.core.notes import CALLED, sentence


def test_every_month_and_weekday_is_known_in_full_and_short() -> None:
    for number in range(1, 13):
        for name in (days.month_name[number].lower(), days.month_abbr[number].lower()):
            assert re.fullmatch(MONTH, name) and month_of(name) == number
    for number in range(7):
        for name in (days.day_name[number].lower(), days.day_abbr[number].lower()):
            assert re.fullmatch(WEEKDAY, name) and weekday_of(name) == number


def test_what_is_no_name_has_no_number() -> None:
    assert (month_of("blue"), weekday_of("blue"), weekday_of("")) == (0, -1, -1)


@pytest.mark.parametrize(("text", "year"), [(" 2027", 2027), (", 2027", 2027), (" '27", 2027)])
def test_a_year_in_full_or_short(text: str, year: int) -> None:
    match = re.fullmatch(YEAR, text)
    assert match is not None and year_of(match) == year


def test_the_same_words_are_read_once() -> None:
    scene = Scene(sentence("wed 17 june"), {}, CALLED, "GB")
    day = date(2026, 6, 17)
    scene.add(Atom(0, 11, day, day, ReasonCode.DAY_NAMED))
    scene.add(Atom(4, 6, day, day, ReasonCode.DAY_NAMED))
    assert len(scene.atoms) == 1
    scene.sentence.claim(12, 20)
    scene.add(Atom(13, 15, day, day, ReasonCode.DAY_NAMED))
    assert len(scene.atoms) == 1
