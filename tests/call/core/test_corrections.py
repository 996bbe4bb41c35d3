"""Corrections inside the notes: the later word wins, both places stay known (shoots.call.core.corrections)."""

from __future__ import annotations

import time
from datetime import date

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, drafts, reading, values


def test_the_later_number_wins_and_both_spans_are_shown() -> None:
    text = "4 locations?? no, 2"
    (draft,) = drafts(text, DraftKind.COUNT)
    assert (draft.value.of.value, draft.value.maximum) == ("locations", 2)
    assert [text[slice(*span)] for span in (draft.span, *draft.corrects)] == ["2", "4 locations"]
    assert [text[slice(*d.span)] for d in reading(text).superseded] == ["4 locations"]


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10 finals, no wait, 12", 12, 12),
        ("10 finals\nactually 12 finals", 12, 12),
        ("10 finals - make that 14", 14, 14),
        ("10 finals, sorry, 8", 8, 8),
        ("10 finals > now 12", 12, 12),
    ],
)
def test_finals(text: str, low: int, high: int) -> None:
    finals = data(text)["finals"]
    assert (finals["min"], finals["max"]) == (low, high)
    assert finals["corrects"]


def test_a_date() -> None:
    (value,) = values("shoot 8 June, no, the 9th", DraftKind.DATE)
    assert value.first == date(2026, 6, 9)


def test_money() -> None:
    assert [v.amount for v in values("budget 2k, actually 2.5k", DraftKind.MONEY)] == [2500]


def test_a_licence() -> None:
    assert data("usage one year, no, two years")["licence"]["months"] == 24


def test_a_territory_takes_its_exclusions_with_it() -> None:
    found = data("worldwide excl. US\nno wait, just UK")
    assert [t["code"] for t in found["territories"]] == ["GB"]
    assert len(found["superseded"]) == 2


def test_what_is_dropped_later_is_gone() -> None:
    found = data("4:5 and 9:16\nscratch the 9:16")
    assert [s["shape"] for s in found["shapes"]] == ["4:5"]


@pytest.mark.parametrize("text", ["10 finals, no props", "8 June\nno models", "two models and 3 products"])
def test_what_corrects_nothing(text: str) -> None:
    assert reading(text).superseded == ()


def test_five_times_the_corrections_take_about_five_times_as_long() -> None:
    def seconds(lines: int) -> float:
        text = "\n".join(f"{n % 9 + 2} locations, no {n % 5 + 2}" for n in range(lines))
        began = time.process_time()
        reading(text)
        return time.process_time() - began

    seconds(10)
    assert seconds(1500) < 15 * max(seconds(300), 0.02)
