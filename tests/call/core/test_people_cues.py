"""Whether a word for people means somebody in the pictures (shoots.call.core.people_cues). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.people_cues import LABEL, are_hands_seen, is_subject
from tests.call.core.notes import hits, sentence


def seen(text: str, *, opening: bool = False, last_end: int = -1) -> bool:
    line = sentence(text)
    found = hits(line)
    return is_subject(line, found, found["person"][0], None, opening=opening, last_end=last_end)


@pytest.mark.parametrize(
    "text",
    [
        "operator in cab",
        "slinger w/ radio",
        "retired couple by the van",
        "woman mid 40s",
        "a DJ in her fifties",
        "the principal cellist alone",
        "her cousin paddles",
        "her friend Jo, who is sixty-odd, wears them too",
        "a ranger showing how it is done",
        "portrait of the shearer",
        "with a pregnant woman",
    ],
)
def test_a_verb_or_a_place_says_who_is_seen(text: str) -> None:
    assert seen(text)


@pytest.mark.parametrize(
    "text",
    [
        "the site manager has to be there",
        "the founder isn't in it",
        "tired of pensioners",
        "kids 15:30-17:30",
        "her boss Kit wants to see everything",
        "the members own it",
        "2-person tent",
        "two models, 25 hp and 40 hp",
        "a couple squares",
        "a couple more for stories",
        "forms from parents",
        "the vet owns the barn",
    ],
)
def test_who_is_not_in_the_pictures(text: str) -> None:
    assert not seen(text)


def test_the_first_sentence_rather_says_who_calls() -> None:
    assert seen("slater on the roof") and not seen("slater on the roof", opening=True)


def test_a_role_goes_with_the_person_listed_before_it() -> None:
    text = "two riders, slater"
    line = sentence(text)
    found = hits(line)
    slater = next(hit for hit in found["person"] if text[hit.start :] == "slater")
    assert is_subject(line, found, slater, None, opening=False, last_end=10)
    assert not is_subject(line, found, slater, None, opening=False)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("hands pouring", True),
        ("two hands lighting it", True),
        ("one hand ok", True),
        ("a couple holding hands", False),
        ("in her hands by friday", False),
        ("details of hands", False),
    ],
)
def test_hands(text: str, found: bool) -> None:
    start = text.index("hand")
    end = start + (5 if text[start + 4 : start + 5] == "s" else 4)
    assert are_hands_seen(text, start, end) is found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("riders - tom 14", True),
        ("staff in pic: chef", True),
        ("real makers: a potter", True),
        ("riders at ten", False),
    ],
)
def test_a_label_for_people(text: str, found: bool) -> None:
    assert bool(LABEL.match(text)) is found
