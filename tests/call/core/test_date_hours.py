"""Times of day put to their dates (shoots.call.core.date_hours). Labels: own."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import values


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("10 June 8 till 2.", [("08:00", "14:00")]),
        ("shoot 10 June, 7a call, wrap 5p", [("07:00", "17:00")]),
        ("10 June ab 9 Uhr", [("09:00", "")]),
        ("10 June 8:30 bis 17 Uhr", [("08:30", "17:00")]),
        ("10 June 1830-2130", [("18:30", "21:30")]),
        ("10 June between two and five", [("14:00", "17:00")]),
        ("10 June, gym shut til noon so 6am start", [("06:00", "")]),
        ("10 June, 9 to noon", [("09:00", "12:00")]),
        ("10 June from 10 to 12, cover 11 June", [("10:00", "12:00"), ("", "")]),
        ("9am on 10 June", [("09:00", "")]),
    ],
)
def test_hours(text: str, hours: list[tuple[str, str]]) -> None:
    assert [(v.hours_from, v.hours_to) for v in values(text, DraftKind.DATE)] == hours
