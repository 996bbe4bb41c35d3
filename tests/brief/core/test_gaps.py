"""Open questions. Their order is our own reading of common practice, no source."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from shoots.brief.core.gaps import MOVES, Gap, Moves, Said, open_gaps
from shoots.brief.models import GAP_QUESTIONS, MOVES_LABELS

FULL = Said(
    purpose="A new pack",
    audience="Runners",
    products="Pack",
    must_haves="Strap",
    must_nots="Roads",
    approvers="Mara",
    wished_dates="June",
    placements=("EMAIL",),
    territories=("GB",),
    shapes=("4:5",),
    moods=("Storm",),
    usage_months=24,
    finals_wanted=12,
    has_budget=True,
)


def test_an_empty_brief_asks_for_the_rights_first() -> None:
    assert open_gaps(Said())[:3] == (Gap.TERM, Gap.TERRITORIES, Gap.PLACEMENTS)
    assert open_gaps(Said()) == tuple(Gap)


def test_a_full_brief_asks_nothing() -> None:
    assert open_gaps(FULL) == ()


@pytest.mark.parametrize("name", [f.name for f in fields(Said) if f.name != "usage_for_good"])
def test_each_empty_field_opens_exactly_one_question(name: str) -> None:
    assert len(open_gaps(replace(FULL, **{name: getattr(Said(), name)}))) == 1


def test_for_good_answers_how_long() -> None:
    assert open_gaps(replace(FULL, usage_months=None, usage_for_good=True)) == ()


def test_blank_lines_say_nothing() -> None:
    assert open_gaps(replace(FULL, products=" \n ")) == (Gap.PRODUCTS,)


def test_questions_of_price_come_before_questions_of_taste() -> None:
    order = [MOVES[gap] for gap in Gap]
    assert order[0] is Moves.PRICE
    assert order.index(Moves.PICTURES) > max(n for n, moves in enumerate(order) if moves is Moves.PRICE)


def test_every_question_has_its_words() -> None:
    assert set(GAP_QUESTIONS) == set(MOVES) == set(Gap)
    assert set(MOVES_LABELS) == set(Moves)
