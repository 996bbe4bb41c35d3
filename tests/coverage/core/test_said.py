"""What the papers promise. The notes are invented; the drafts are read out of them by the reader itself."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.reading import read_notes
from shoots.coverage.core.said import (
    Heard,
    Known,
    Said,
    kinds_in,
    known_product,
    said_in_brief,
    said_in_call,
    said_in_papers,
)

KNOWN = Known(
    ("12 litre pack, burnt orange", "5 litre vest, slate"),
    (("1", 12), ("2", 86)),
    ("Storm kit", "Outfit 2", "Outfit 3"),
)


def heard_in(notes: str, known: Known = KNOWN) -> list[tuple[str, int, int | None, int]]:
    """Return what is promised as ("SHAPE 9:16 + PLACEMENT EMAIL", least, most, crops)."""
    drafts = read_notes(notes, called_on=date(2026, 5, 14), country="GB").drafts
    heard = [
        Heard(f"draft:{n}", one.kind, one.value, one.line_no, one.span.start, one.span.end, one.wish)
        for n, one in enumerate(drafts)
    ]
    return [_plain(said) for said in said_in_call(notes, heard, known)]


def _plain(said: Said) -> tuple[str, int, int | None, int]:
    return " + ".join(f"{name} {value}" for name, value in said.wants), said.least, said.most, said.crops


@pytest.mark.parametrize(
    ("notes", "promised"),
    [
        ("12 finals", [("", 12, 12, 0)]),
        ("10-12 finals", [("", 10, 12, 0)]),
        ("4:5 for paid social", [("SHAPE 4:5 + PLACEMENT PAID_SOCIAL", 1, None, 0)]),
        (
            "4:5 for paid social, 9:16 for stories, 3 of them",
            [
                ("SHAPE 4:5 + PLACEMENT PAID_SOCIAL", 1, None, 0),
                ("SHAPE 9:16 + PLACEMENT ORGANIC_SOCIAL", 3, None, 0),
            ],
        ),
        (
            "4:5 and 9:16 for paid social",
            [("SHAPE 4:5 + PLACEMENT PAID_SOCIAL", 1, None, 0), ("SHAPE 9:16 + PLACEMENT PAID_SOCIAL", 1, None, 0)],
        ),
        ("one hero, three cut-downs", [("KIND HERO", 1, 1, 3)]),
        ("4 packshots of each mug", [("KIND PACKSHOT + PRODUCT mug", 4, 4, 0)]),
        ("two outfits, 3 locations", [("OUTFIT Storm kit", 1, None, 0), ("OUTFIT Outfit 2", 1, None, 0)]),
        ("3 locations, 2 days", []),
    ],
)
def test_what_stands_in_one_clause_was_named_together(notes: str, promised: list[object]) -> None:
    assert heard_in(notes) == promised


def test_two_things_of_two_kinds_are_not_crossed_unless_each_was_said() -> None:
    apart = heard_in("4:5 and 9:16 for paid social and point of sale")
    assert ("PLACEMENT POINT_OF_SALE", 1, None, 0) in apart and ("SHAPE 4:5", 1, None, 0) in apart
    each = heard_in("4:5 and 9:16 each for paid social and point of sale")
    assert len(each) == 4 and all("SHAPE" in wants and "PLACEMENT" in wants for wants, *_numbers in each)


def test_what_is_not_wanted_promises_nobody() -> None:
    assert heard_in("no faces of walkers") == []


def test_a_mood_is_that_of_the_shoot_where_one_stands_at_the_pole() -> None:
    assert heard_in("dark and dramatic") == [("MOOD 1", 1, None, 0)]
    assert heard_in("dark and dramatic", Known(moods=(("1", 12), ("2", 20)))) == []


def test_a_wish_stays_a_wish() -> None:
    notes = "maybe 1:1 for the shop"
    drafts = read_notes(notes, called_on=date(2026, 5, 14), country="GB").drafts
    heard = [Heard(str(n), d.kind, d.value, d.line_no, d.span.start, d.span.end, d.wish) for n, d in enumerate(drafts)]
    assert [said.is_wish for said in said_in_call(notes, heard, KNOWN)] == [True]


def test_the_place_in_the_notes_comes_along() -> None:
    notes = "first\n9:16 for stories"
    drafts = read_notes(notes, called_on=date(2026, 5, 14), country="GB").drafts
    heard = [Heard(str(n), d.kind, d.value, d.line_no, d.span.start, d.span.end) for n, d in enumerate(drafts)]
    assert [(said.record, said.words) for said in said_in_call(notes, heard, KNOWN)] == [("0", "9:16 for stories")]


def test_products_are_those_that_the_shoot_knows() -> None:
    assert known_product("litre pack", KNOWN.products) == "12 litre pack, burnt orange"
    assert known_product("the 5 litre vest, in slate", KNOWN.products) == "5 litre vest, slate"
    assert known_product("litre", KNOWN.products) == "litre"


def test_a_brief_promises_each_of_its_things_once_and_its_number() -> None:
    said = said_in_brief(
        record="b", products=["Vest", "Vest"], shapes=["4:5"], placements=["EMAIL"], moods=["1"], finals=9
    )
    assert [_plain(one) for one in said] == [
        ("", 9, 9, 0),
        ("PRODUCT Vest", 1, None, 0),
        ("MOOD 1", 1, None, 0),
        ("SHAPE 4:5", 1, None, 0),
        ("PLACEMENT EMAIL", 1, None, 0),
    ]


def test_a_licence_promises_its_media_and_its_number() -> None:
    said = said_in_papers(quote="q", finished=13, licence="l", media=["EMAIL", "MOON"], pictures=12)
    assert [_plain(one) for one in said] == [("", 13, 13, 0), ("", 12, 12, 0), ("PLACEMENT EMAIL", 1, None, 0)]


def test_kinds_are_found_in_titles() -> None:
    assert kinds_in("Two heroes and a pack shot") == {"HERO", "PACKSHOT"}
    assert kinds_in("A portrait format picture of details") == {"DETAIL"}


@pytest.mark.parametrize("notes", ["", "\x00", "=1+1", "9:16 " * 400, "🏔️ 4:5 ‏שלום"])
def test_odd_notes_do_no_harm(notes: str) -> None:
    assert len(heard_in(notes)) <= 100
