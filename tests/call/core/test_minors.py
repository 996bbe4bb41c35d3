"""What people under 18 bring with them (shoots.call.core.minors).

Sources: Family Law Reform Act 1969 s.1 (18); Education Act 1996 s.8 (compulsory school age); Children and Young Persons
Act 1963 s.37 (a council's licence). England; other countries differ.
"""

from __future__ import annotations

import pytest

from shoots.call.core.minors import ADULT, SCHOOL_UNTIL, permissions
from tests.call.core.notes import data, reading


def asked(text: str) -> set[str]:
    return {entry["code"] for entry in data(text)["permissions"]}


@pytest.mark.parametrize(
    ("text", "minors"),
    [
        ("he's 16", True),
        ("he's 18", False),
        ("he's 17", True),
        ("two kids", True),
        ("out of school at three", True),
        ("a toddler", True),
        ("two riders, 28 and 34", False),
        ("no kids", False),
        ("kids' shoes", False),
        ("three models", False),
    ],
)
def test_who_is_under_eighteen(text: str, minors: bool) -> None:
    assert data(text)["people"]["minors"] is minors
    assert ("guardian" in asked(text)) is minors


def test_of_school_age_a_councils_licence_is_asked_for() -> None:
    assert asked("she's 12") == {"guardian", "council licence"}
    assert asked("he's 16, out of school at three") == {"guardian", "council licence"}
    assert asked("he's 17") == {"guardian"}
    codes = [q["code"] for q in data("he's 16, out of school at three")["questions"]]
    assert {"guardian", "council_licence"} <= set(codes)


def test_an_adult_brings_nothing_with_them() -> None:
    assert permissions(reading(f"he's {ADULT}, two models").drafts) == []
    codes = [d.value.code for d in permissions(reading(f"she's {SCHOOL_UNTIL - 1}").drafts)]
    assert codes == ["guardian", "council_licence"]
