"""Lines of notes read for the tests, all on one day of the call unless a test says otherwise."""

from __future__ import annotations

from datetime import date
from typing import Any

from shoots.call.core.door import as_data
from shoots.call.core.drafts import Draft, DraftKind, Reading
from shoots.call.core.lexicons import Hit, package_lexicons
from shoots.call.core.reading import read_notes
from shoots.call.core.spans import Sentence, cut

#: A Thursday.
CALLED = date(2026, 5, 14)


def reading(text: str, *, called: date = CALLED, country: str = "GB") -> Reading:
    return read_notes(text, called_on=called, country=country)


def drafts(text: str, kind: DraftKind, *, called: date = CALLED, country: str = "GB") -> tuple[Draft, ...]:
    return reading(text, called=called, country=country).of(kind)


def values(text: str, kind: DraftKind, *, called: date = CALLED, country: str = "GB") -> list[Any]:
    return [draft.value for draft in drafts(text, kind, called=called, country=country)]


def words_of(text: str, draft: Draft) -> str:
    return text[draft.span.start : draft.span.end]


def data(text: str, *, called: date = CALLED, country: str = "GB") -> dict[str, Any]:
    return as_data(reading(text, called=called, country=country))


def sentence(text: str, topic: str = "") -> Sentence:
    found = cut(text).sentences[0]
    found.topic = topic
    return found


def hits(line: Sentence) -> dict[str, list[Hit]]:
    return package_lexicons().hits(line)
