"""Dates of whole lines: what happens, options, stretches, ends, hours (shoots.call.core.dates).

The call is on Thursday 14 May 2026. Labels: own, by meaning.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from shoots.call.core.dates import read
from shoots.call.core.drafts import DateKind, DraftKind
from tests.call.core.notes import CALLED, data, sentence, values

JUNE = [date(2026, 6, day) for day in range(1, 31)]


def only(text: str, country: str = "GB") -> Any:
    (value,) = values(text, DraftKind.DATE, country=country)
    return value


@pytest.mark.parametrize(
    ("text", "kind", "first", "last"),
    [
        ("shoot 8 June", DateKind.SHOOT, 8, 8),
        ("shoot w/c 8 June", DateKind.SHOOT, 8, 14),
        ("shoot 8-10 June", DateKind.SHOOT, 8, 10),
        ("shoot 8 and 9 June", DateKind.SHOOT, 8, 9),
        ("shoot from 8 to 10 June", DateKind.SHOOT, 8, 10),
        ("shoot between 8 and 12 June", DateKind.SHOOT, 8, 12),
        ("rain date 12 June", DateKind.COVER, 12, 12),
        ("launch is 20 June", DateKind.LAUNCH, 20, 20),
        ("they are away 8-12 June", DateKind.AWAY, 8, 12),
    ],
)
def test_a_day_or_a_stretch(text: str, kind: DateKind, first: int, last: int) -> None:
    value = only(text)
    assert (value.kind, value.first, value.last) == (kind, JUNE[first - 1], JUNE[last - 1])


@pytest.mark.parametrize(
    "text", ["pencil the 17th June, second option the 18th", "shoot 17 or 18 June", "17/18 June either, shoot"]
)
def test_options_are_days_to_choose_from(text: str) -> None:
    assert set(only(text).any_of) == {JUNE[16], JUNE[17]}


def test_a_pencilled_day_is_held_and_not_confirmed() -> None:
    assert only("pencil the 17th June").held
    assert not only("shoot confirmed for 17 June").held


@pytest.mark.parametrize(
    ("text", "by", "before"),
    [
        ("files by 19 June", JUNE[18], None),
        ("deliver before 19 June", None, JUNE[18]),
        ("delivery 19 June", JUNE[18], None),
        ("finals no later than 19 June", JUNE[18], None),
        ("pics needed 19 June at the latest", JUNE[18], None),
        ("before Easter", None, date(2027, 3, 28)),
    ],
)
def test_an_end_of_delivery(text: str, by: date | None, before: date | None) -> None:
    value = only(text)
    assert (value.kind, value.by, value.before) == (DateKind.DELIVERY, by, before)


def test_two_verbs_make_two_dates() -> None:
    found = [(v.kind, v.first or v.by) for v in values("shoot 8 June, files by 20 June", DraftKind.DATE)]
    assert found == [(DateKind.SHOOT, JUNE[7]), (DateKind.DELIVERY, JUNE[19])]


def test_the_country_decides_how_figures_are_read() -> None:
    assert only("shoot 6/8", "US").first == date(2026, 6, 8)
    assert only("shoot 6/8", "GB").first == date(2026, 8, 6)


def test_hours_go_with_their_day() -> None:
    found = data("shoot Tuesday 9 June, 8.30 to 5")["dates"]
    assert [(d["from"], d["hours"]) for d in found] == [("2026-06-09", "08:30-17:00")]


def test_the_month_is_kept_in_mind_for_the_next_line() -> None:
    _, month = read(sentence("shoot 8 June"), {}, called_on=CALLED, country="GB")
    assert month == (2026, 6)
    drafts, _ = read(sentence("or the 17th"), {}, called_on=CALLED, country="GB", month=month)
    assert [d.value.first for d in drafts] == [JUNE[16]]


def test_the_reason_and_the_span_are_the_words_of_the_date() -> None:
    text = "we'd shoot Thu week if that works"
    drafts = read(sentence(text), {}, called_on=CALLED, country="GB")[0]
    assert [text[slice(*d.span)] for d in drafts] == ["Thu week"]
    assert dict(drafts[0].reason.params)["words"] == "thu week"
