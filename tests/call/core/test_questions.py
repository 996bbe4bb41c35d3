"""What is still to be asked, the most expensive first (shoots.call.core.questions). Order: common practice."""

from __future__ import annotations

from shoots.call.core.drafts import Question
from shoots.call.core.questions import still_open
from tests.call.core.notes import data


def asked(text: str) -> list[str]:
    return [entry["code"] for entry in data(text)["questions"]]


def test_with_nothing_said_everything_is_open_and_use_comes_first() -> None:
    codes = [question.code for question in still_open((), None)]
    assert codes[:3] == [Question.TERM, Question.TERRITORY, Question.PLACEMENTS]
    assert codes == sorted(codes, key=list(Question).index)
    assert codes[-1] is Question.MOOD


def test_what_was_said_is_not_asked_again() -> None:
    open_before = set(asked("a call"))
    said = {
        "10 finals": "finals",
        "UK": "territory",
        "own website": "placements",
        "usage a year": "term",
        "£2k + VAT": "budget",
        "shoot 8 June": "shoot_date",
        "files by 20 June": "delivery_date",
        "4:5": "shapes",
        "moody": "mood",
        "two models": "people",
        "new candle": "products",
        "Jo signs off": "approver",
        "invoice to the agency": "payer",
    }
    for text, question in said.items():
        assert question in open_before and question not in asked(text), text


def test_for_how_long_and_where_come_before_any_colour() -> None:
    codes = asked("new running vest, moody")
    assert codes.index("term") < codes.index("samples") and codes.index("territory") < codes.index("samples")


def test_a_question_that_words_gave_rise_to_has_their_span() -> None:
    text = "five all in, pencil the 17th"
    for entry in data(text)["questions"]:
        if entry["code"] in ("tax", "amount_meant", "confirm_date"):
            assert entry["span"] and text[slice(*entry["span"])]
