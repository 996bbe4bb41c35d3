"""Drafts in words, lines with their marks, open questions, and how many queries a page takes."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.brief.models import Brief
from shoots.call import actions
from shoots.call.core.drafts import CountOf, DateKind, DraftKind, MoneyKind, Question, ReasonCode
from shoots.call.core.lexicons import package_lexicons
from shoots.call.core.reading import read_notes
from shoots.call.models import VALUES, Call, value_from, value_to
from shoots.call.queries import page, words
from shoots.members.models import Member, Studio
from tests.factories import make_client, make_contact, make_day, make_shoot

NOTES = """Mara from Fellside Packs
12 finals: 2 heroes, 6 packshots, 10-12 details
own website, paid social, germany and france, worldwide excl. US
usage 2 years, exclusive in outdoor, or in perpetuity
pencil the 17th June, second option the 18th, half eight at ours
need them by 10 July, launch in autumn
five all in, last year was £4,200 + VAT, 60 quid per extra image
dark and dramatic at the quarry, bright on the beach with a drone
two models, he's 16, no tripods on the track, maybe a dog
3 in 9:16, leave room top left for the strapline, close-ups
her brother holds the purse, the founder signs off
products: orange 12L packs, 2 slate bottles
"""


@pytest.fixture
def begin(studio: Studio, owner: Member, now: datetime) -> Callable[..., Call]:
    def begin_call(notes: str = "", **given: Any) -> Call:
        return actions.begin_call(studio=studio, notes=notes, by=owner, now=now, **given)

    return begin_call


# words


def test_every_kind_reason_and_question_has_words() -> None:
    assert set(words.KIND_WORDS) == set(DraftKind)
    assert set(words.REASON_WORDS) == set(ReasonCode)
    assert set(words.QUESTION_WORDS) == set(Question)
    assert set(words.DATE_WORDS) == set(DateKind) and set(words.MONEY_WORDS) == set(MoneyKind)
    assert all(words.count_words(of, 1) and words.shot_words(of) for of in CountOf)


def test_every_hazard_and_permission_of_the_lexicon_has_words() -> None:
    tables = package_lexicons().tables
    codes = {
        code
        for table in ("place", "act")
        for entry in tables[table].values()
        for name in ("hazards", "permissions")
        for code in entry.data.get(name, ())
    }
    assert codes - set(words.IMPLIED_WORDS) == set()


def test_whatever_is_read_can_be_said_and_kept_and_comes_back_the_same() -> None:
    reading = read_notes(NOTES, called_on=date(2026, 5, 14), country="GB")
    assert len(reading.drafts) > 25
    for draft in reading.drafts:
        assert words.value_words(draft.value) and words.reason_words(draft.reason.code, dict(draft.reason.params))
        assert value_from(draft.kind, value_to(draft.value)) == draft.value
    assert all(words.question_words(q.code, dict(q.params)) for q in reading.questions)


def test_a_code_of_an_older_reader_says_nothing_instead_of_breaking() -> None:
    assert words.reason_words("long_gone", {}) == "" and words.question_words("long_gone", {}) == ""


@pytest.mark.parametrize(
    ("kind", "kept", "said"),
    [
        (DraftKind.COUNT, {"of": "heroes", "minimum": 1, "maximum": 1}, "1 hero"),
        (DraftKind.COUNT, {"of": "finals", "minimum": 10, "maximum": 12}, "10–12 finished pictures"),
        (DraftKind.COUNT, {"of": "outfits", "minimum": 2, "approximate": True}, "about at least 2 outfits"),
        (DraftKind.PLACEMENT, {"placement": "press"}, "Press advertising"),
        (DraftKind.TERRITORY, {"codes": ["DE", "AT", "CH"], "group": "dach"}, "DACH: Germany, Austria, Switzerland"),
        (DraftKind.TERRITORY, {"codes": ["world", "-US"]}, "Worldwide, without United States"),
        (
            DraftKind.MONEY,
            {"amount": "5000", "currency": "GBP", "tax": "excluded", "kind": "fee"},
            "£5,000, fee, plus tax",
        ),
        (DraftKind.LICENCE, {"months": "24"}, "24 months"),
        (DraftKind.LICENCE, {"perpetual": True}, "For as long as copyright lasts"),
        (DraftKind.DATE, {"kind": "delivery", "by": "2026-07-10"}, "Pictures needed: by Fri 10 July 2026"),
        (DraftKind.PERSON, {"role": "model", "age": 16, "minor": True}, "Model, 16 (under 18)"),
        (DraftKind.PRODUCT, {"name": "pack", "colours": ["orange"], "quantity": 2}, "Pack, orange × 2"),
        (DraftKind.PRODUCT, {"name": "12 litre pack", "sizes": ["12 litre"]}, "12 litre pack"),
        (DraftKind.PRODUCT, {"name": "pack", "sizes": ["12 litre"]}, "Pack, 12 litre"),
    ],
)
def test_a_value_in_words(kind: DraftKind, kept: dict[str, Any], said: str) -> None:
    assert words.value_words(value_from(kind, kept)) == said


def test_every_kind_knows_its_value() -> None:
    assert set(VALUES) <= set(DraftKind)


# the page


@pytest.mark.django_db
def test_a_draft_stands_beside_its_line_and_its_words_are_marked(begin: Callable[..., Call]) -> None:
    shown = page.call_page(begin("hello there\nabout 12 finals please"))
    (line,) = shown.lines
    assert line.number == 2 and "".join(piece.text for piece in line.pieces) == "about 12 finals please"
    assert [piece.text for piece in line.pieces if piece.is_read] == [line.cards[0].draft.words]


@pytest.mark.django_db
def test_of_a_very_long_line_only_the_neighbourhood_is_shown(begin: Callable[..., Call]) -> None:
    long = "word " * 400
    (line,) = page.call_page(begin(f"{long}12 finals {long}")).lines
    shown = "".join(piece.text for piece in line.pieces)
    assert "12 finals" in shown and "…" in shown and len(shown) < 400


@pytest.mark.django_db
def test_questions_come_most_expensive_first_and_not_all_at_once(begin: Callable[..., Call]) -> None:
    shown = page.call_page(begin("hello"))
    assert shown.first_questions[0].words == "For how long will the pictures be used?"
    assert len(shown.first_questions) == page.FIRST_QUESTIONS and shown.more_questions


@pytest.mark.django_db
def test_what_the_brief_knows_is_not_asked(begin: Callable[..., Call], studio: Studio) -> None:
    shoot = make_shoot(studio)
    call = begin("hello", shoot=shoot)

    def asked() -> set[str]:
        shown = page.call_page(Call.objects.select_related("shoot__contact").get(pk=call.pk))
        return {question.words for question in (*shown.first_questions, *shown.more_questions)}

    before = asked()
    Brief.objects.filter(shoot=shoot).update(
        usage_months=24, territories=["GB"], placements=["OWN_WEBSITE"], finals_wanted=12, budget=5000
    )
    make_day(shoot)
    gone = before - asked()
    assert gone >= {
        "For how long will the pictures be used?",
        "In which countries?",
        "How many finished pictures?",
        "Is there a budget?",
        "When shall it be shot?",
    }
    assert "Who says yes to the pictures?" in asked()


@pytest.mark.django_db
def test_a_page_with_few_and_with_many_drafts_takes_as_many_queries(begin: Callable[..., Call], studio: Studio) -> None:
    shoot = make_shoot(studio)

    def count(notes: str) -> int:
        call = Call.objects.select_related("shoot__contact").get(pk=begin(notes, shoot=shoot).pk)
        with CaptureQueriesContext(connection) as seen:
            page.call_page(call)
        return len(seen)

    assert count("12 finals") == count(NOTES) <= 6


@pytest.mark.django_db
def test_right_to_left_text_emoji_and_html_are_only_text(begin: Callable[..., Call]) -> None:
    shown = page.call_page(begin("<script>alert(1)</script> 12 finals 🌄 שלום"))
    assert any("12 finals" in piece.text for line in shown.lines for piece in line.pieces)


# what a shoot could begin with


@pytest.mark.parametrize(
    ("caller", "client", "contact"),
    [
        ("Mara Quill from Fellside Packs", "Fellside Packs", "Mara Quill"),
        ("Mara Quill, fellside packs", "Fellside Packs", "Mara Quill"),
        ("Fellside Packs", "Fellside Packs", ""),
        ("Ida Roe, Tarn Bottles", "Tarn Bottles", "Ida Roe"),
        ("Ida", "", "Ida"),
        ("", "", ""),
    ],
)
@pytest.mark.django_db
def test_the_caller_is_taken_apart_into_client_and_contact(
    begin: Callable[..., Call], studio: Studio, caller: str, client: str, contact: str
) -> None:
    make_contact(make_client(studio, name="Fellside Packs"))
    begun = page.beginning_of(begin("trail vests for autumn", caller=caller), today=date(2026, 5, 14))
    assert (begun.client_name, begun.contact_name) == (client, contact)
    assert begun.title


@pytest.mark.django_db
def test_calls_that_became_a_shoot_leave_the_list(begin: Callable[..., Call], studio: Studio) -> None:
    waiting = begin("12 finals", caller="Ida")
    begin("9 finals", shoot=make_shoot(studio))
    (row,) = page.calls_at_hand(studio)
    assert (row.call, row.first_line, row.open_drafts) == (waiting, "12 finals", 1)
