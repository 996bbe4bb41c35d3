"""What reading gives (shoots.call.core.drafts)."""

from __future__ import annotations

from shoots.call.core.drafts import DraftKind, Question, ReasonCode
from tests.call.core.notes import reading

TEXT = "10-12 finals, 4:5, own website, UK, moody, new candle, two models, shoot on the beach, £2k, usage a year"


def test_drafts_of_one_kind_come_in_the_order_of_the_notes() -> None:
    found = reading(TEXT)
    for kind in DraftKind:
        drafts = found.of(kind)
        assert list(drafts) == [d for d in found.drafts if d.kind is kind]
        assert [d.span for d in drafts] == sorted(d.span for d in drafts)


def test_codes_are_plain_words_that_can_be_stored() -> None:
    for codes in (DraftKind, ReasonCode, Question):
        assert all(code.value.replace("_", "").isalnum() and code.value.islower() for code in codes)


def test_money_matters_come_before_the_rest() -> None:
    order = list(Question)
    assert order.index(Question.TERM) < order.index(Question.BUDGET) < order.index(Question.MOOD)
