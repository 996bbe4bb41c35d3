"""For how long the pictures may be used (shoots.call.core.licence). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, drafts, values, words_of


@pytest.mark.parametrize(
    ("text", "months"),
    [
        ("usage a year", 12),
        ("UK web use 18 mths", 18),
        ("licence: 2 years", 24),
        ("use in perpetuity", "perpetual"),
        ("full buyout", "perpetual"),
        ("they'd want it for ever", "perpetual"),
        ("2 seasons, UK", 12),
        ("paid social for 3 months", 3),
        ("web and press, 12m", 12),
    ],
)
def test_a_term(text: str, months: int | str) -> None:
    assert data(text)["licence"]["months"] == months


@pytest.mark.parametrize(
    "text",
    [
        "a 12 year old malt",
        "trading for 20 years",
        "he's 16 months younger",
        "two months ago",
        "no buyout",
        "two week turnaround",
        "10 years experience",
    ],
)
def test_what_is_no_term(text: str) -> None:
    assert [v for v in values(text, DraftKind.LICENCE) if v.months or v.perpetual] == []


@pytest.mark.parametrize(
    ("text", "starts"),
    [
        ("18 mths from first use", "first use"),
        ("one year from launch", "launch"),
        ("2 years' use from delivery", "delivery"),
        ("12 months usage from 1 September", "2026-09-01"),
        ("usage a year", None),
    ],
)
def test_when_it_starts(text: str, starts: str | None) -> None:
    assert data(text)["licence"]["starts"] == starts


def test_seasons_are_assumed_and_asked_for() -> None:
    (draft,) = drafts("usage two seasons", DraftKind.LICENCE)
    assert draft.value.assumed and draft.confirm
    assert "season_length" in [q["code"] for q in data("usage two seasons")["questions"]]


def test_the_span_is_the_term_with_its_start() -> None:
    text = "web only, 18 mths from first use please"
    (draft,) = drafts(text, DraftKind.LICENCE)
    assert words_of(text, draft) == "18 mths from first use"


@pytest.mark.parametrize(
    ("text", "starts"),
    [
        ("24 mo fr launch, US + Canada", "launch"),
        ("UK, two years, starting when they launch in May", "launch"),
        ("Nutzung 2 Jahre ab Lieferung", "delivery"),
        ("Nutzung 1 Jahr ab Veröffentlichung", "first use"),
    ],
)
def test_what_use_begins_with_is_heard_in_other_words(text: str, starts: str) -> None:
    assert data(text)["licence"]["starts"] == starts


def test_the_length_of_exclusivity_is_not_that_of_the_use() -> None:
    found = data("UK, 2 yrs from first use, not for other bakeries for 6 months")
    assert found["licence"]["months"] == 24
    assert data("UK, 18 mths from launch, excl. for luggage 6 mths")["licence"]["months"] == 18


def test_a_fortnight_after_the_shoot_day_begins_no_use() -> None:
    assert data("proofs a fortnight on from the shoot day\nEMEA, 2 seasons")["licence"]["starts"] is None
