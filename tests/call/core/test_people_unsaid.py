"""People whom no word for people names (shoots.call.core.people_unsaid). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.people_unsaid import at_school, at_work, portrayed, shown, under_label
from tests.call.core.notes import hits, sentence


@pytest.mark.parametrize(
    ("text", "names"), [("Portrait of Jonas", ["Jonas"]), ("portrait of the boss", []), ("PICS OF ANA", [])]
)
def test_a_name_in_capitals(text: str, names: list[str]) -> None:
    assert [d.value.role for d in portrayed(sentence(text), ())] == names


@pytest.mark.parametrize(
    ("text", "count"), [("model: female, 30s", None), ("Models: 2 men, 1 woman", 3), ("talent: two f", 2)]
)
def test_a_label_means_somebody(text: str, count: int | None) -> None:
    assert [d.value.count for d in under_label(sentence(text, topic="people"), ())] == [count]


@pytest.mark.parametrize("text", ["models: tbc", "model: none", "two models"])
def test_a_label_without_anybody(text: str) -> None:
    assert under_label(sentence(text, topic="people"), ()) == []


def test_school_hours_speak_of_a_minor() -> None:
    line = sentence("out of school at three")
    assert [d.value.minor for d in at_school(line, hits(line), ())] == [True]
    assert at_school(sentence("an old school"), hits(sentence("an old school")), ()) == []


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("the dairy, Elin turning the wheels", ["Elin"]),
        ("3 of the counter and Mr Tanabe slurping", ["Mr Tanabe"]),
        ("the finals, Elin approving", []),
        ("shot in Leeds starting at nine", []),
        ("Steam rising", []),
        ("ELIN TURNING THE WHEELS", []),
    ],
)
def test_who_is_named_at_work(text: str, names: list[str]) -> None:
    line = sentence(text)
    assert [d.value.role for d in at_work(line, hits(line), ())] == names


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("10 portraits of fighters", [("fighters", 10)]),
        ("commoners may be in it as blurs", [("commoners", None)]),
        ("portraits of flowers", []),
        ("prices may be on the page", []),
    ],
)
def test_people_in_no_lexicon(text: str, found: list[tuple[str, int | None]]) -> None:
    line = sentence(text)
    assert [(d.value.role, d.value.count) for d in shown(line, hits(line), ())] == found
