"""Times of day as people say them (shoots.call.core.hours). "Half eight" is 08:30: British English, common practice."""

from __future__ import annotations

import pytest

from shoots.call.core.hours import is_of_shoot, read
from tests.call.core.notes import data, sentence


@pytest.mark.parametrize(
    ("text", "begins", "ends"),
    [
        ("half eight at ours", "08:30", ""),
        ("half past two", "14:30", ""),
        ("quarter to nine", "08:45", ""),
        ("call time 7.30", "07:30", ""),
        ("from 6am", "06:00", ""),
        ("at 3pm", "15:00", ""),
        ("at noon", "12:00", ""),
        ("9:00-17:00", "09:00", "17:00"),
        ("8am to 4pm", "08:00", "16:00"),
        ("at 14:30", "14:30", ""),
    ],
)
def test_a_time(text: str, begins: str, ends: str) -> None:
    assert [(clock.text, clock.until) for clock in read(sentence(text), dated=True)] == [(begins, ends)]


@pytest.mark.parametrize("text", ["4:5 and 9:16", "10-12 finals", "2.5k", "size 8-10", "ratio 16:9"])
def test_what_is_no_time(text: str) -> None:
    assert read(sentence(text)) == []


@pytest.mark.parametrize("text", ["out of school at three", "ring her at 4pm", "high tide at 11:20"])
def test_other_times_are_not_the_shoots(text: str) -> None:
    assert not is_of_shoot(sentence(text))


def test_a_spoken_time_is_to_be_confirmed_as_morning_and_says_where() -> None:
    (entry,) = data("half eight at ours")["dates"]
    assert (entry["hours"], entry["at"], entry["confirm"]) == ("08:30", "client", True)
