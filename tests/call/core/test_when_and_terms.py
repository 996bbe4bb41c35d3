"""Days, sums, times of use and countries in short notes of six trades and five countries (own labels, by meaning)."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from shoots.call.core.measure import measure

NOTES = [
    note
    for name in ("when_and_terms", "when_and_terms_notes")
    for note in tomllib.loads((Path(__file__).parent / f"{name}.toml").read_text(encoding="utf-8"))["note"]
]
#: What this table is about; the other fields have notes of their own.
FIELDS = ("dates", "money", "licence", "territories")


@pytest.mark.parametrize("note", [n for n in NOTES if set(n["want"]) & set(FIELDS)], ids=lambda note: note["id"])
def test_a_short_note_gives_its_days_and_terms(note: dict[str, Any]) -> None:
    _, misses = measure([note])
    assert [(miss.field, miss.what, miss.entry) for miss in misses if miss.field in FIELDS] == []


def test_every_note_has_a_name_of_its_own_and_is_judged_by_its_labels_alone() -> None:
    assert len({note["id"] for note in NOTES}) == len(NOTES) > 100
    assert all(note["partly"] and note["want"] for note in NOTES)
