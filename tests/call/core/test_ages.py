"""Ages in notes (shoots.call.core.ages). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.ages import read
from tests.call.core.notes import hits, sentence


@pytest.mark.parametrize(
    ("text", "ages"),
    [
        ("riders - Tom 14, Isla 16, Bex 22", [(14,), (16,), (22,)]),
        ("oldest 34, youngest 14", [(34,), (14,)]),
        ("coxed four, all 15-16", [(15, 16)]),
        ("one with a toddler (Meg's, just turned 2)", [(2,)]),
        ("the other turned sixteen in April", [(16,)]),
        ("he's 16", [(16,)]),
        ("she is sixteen", [(16,)]),
        ("they are 7 and 9", [(7, 9)]),
        ("two kids (6 and 9)", [(6, 9)]),
        ("aged 13 to 17", [(13, 17)]),
        ("a 12-year-old", [(12,)]),
        ("15yo nephew", [(15,)]),
        ("her son, 8", [(8,)]),
        ("Mia (11), Tom (14)", [(11,), (14,)]),
        ("under-16s", [()]),
        ("he turns 17 in June", [(17,)]),
        ("the eldest is 14", [(14,)]),
    ],
)
def test_ages(text: str, ages: list[tuple[int, ...]]) -> None:
    line = sentence(text)
    assert [age.ages for age in read(line, hits(line).get("person", ()))] == ages


@pytest.mark.parametrize(
    "text",
    [
        "a 12 year old malt",
        "the company is 20 years old",
        "it's 8 images",
        "he's 20 minutes away",
        "page 9",
        "there are 16 finals",
        "budget is 5",
        "she's 2 miles off",
        "deadline is 12 June",
    ],
)
def test_what_is_no_age(text: str) -> None:
    line = sentence(text)
    assert read(line, hits(line).get("person", ())) == []


def test_an_age_knows_its_person() -> None:
    line = sentence("a nephew, 16")
    people = hits(line)["person"]
    assert [age.of for age in read(line, people)] == people[:1]
