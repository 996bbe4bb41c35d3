"""What happens on a date (shoots.call.core.date_kinds). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.date_kinds import CUES, kind_of
from shoots.call.core.drafts import DateKind
from tests.call.core.notes import sentence


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("shoot on 8 June", DateKind.SHOOT),
        ("pencil 8 June", DateKind.SHOOT),
        ("files by 8 June", DateKind.DELIVERY),
        ("deliver 8 June", DateKind.DELIVERY),
        ("8 June as weather cover", DateKind.COVER),
        ("launch 8 June", DateKind.LAUNCH),
        ("samples arrive 8 June", DateKind.SAMPLES),
        ("quote by 8 June", DateKind.QUOTE),
        ("not 8 June", DateKind.AWAY),
        ("recce 8 June", DateKind.SCOUTING),
        ("ring back 8 June", DateKind.MEETING),
        ("licence runs from 8 June", DateKind.LICENCE),
    ],
)
def test_the_words_around_a_date_say_what_happens(text: str, kind: DateKind) -> None:
    at = text.index("8 June")
    assert kind_of(sentence(text), at, at + 6, 0, len(text)) == (kind, True)


def test_a_date_alone_is_taken_for_a_shoot_and_says_that_nothing_told_so() -> None:
    assert kind_of(sentence("8 June"), 0, 6, 0, 6) == (DateKind.SHOOT, False)


def test_a_label_tells() -> None:
    assert kind_of(sentence("8 June", topic="delivery"), 0, 6, 0, 6) == (DateKind.DELIVERY, True)


def test_each_kind_has_its_cues_once() -> None:
    kinds = [kind for kind, _ in CUES]
    assert len(kinds) == len(set(kinds)) and set(kinds) == set(DateKind) - {DateKind.LICENCE}
