"""Scores of the reader against labelled notes (shoots.call.core.measure).

Source: van Rijsbergen, Information Retrieval, 2nd ed., 1979, ch. 7: precision right / read, recall right / there.
"""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path
from typing import Any

from shoots.call.core.measure import FIELDS, Score, measure, table

FOLDER = Path(__file__).resolve().parents[3] / "fixtures/notes"


def note(text: str, **want: Any) -> dict[str, Any]:
    return {"id": "n", "text": text, "called": date(2026, 5, 14), "country": "GB", "want": want}


def test_precision_and_recall_are_shares_of_what_was_read_and_of_what_is_there() -> None:
    assert (Score(3, 1, 2).precision, Score(3, 1, 2).recall) == (0.75, 0.6)
    assert (Score().precision, Score().recall) == (1.0, 1.0)


def test_what_agrees_is_right() -> None:
    scores, misses = measure([note("10 finals", finals={"min": 10, "max": 10})])
    assert (scores["finals"].right, scores["finals"].extra, scores["finals"].missing) == (1, 0, 0)
    assert not [miss for miss in misses if miss.field == "finals"]


def test_a_wrong_entry_is_superfluous_and_leaves_the_right_one_missing() -> None:
    scores, misses = measure([note("10 finals", finals={"min": 12, "max": 12})])
    assert (scores["finals"].right, scores["finals"].extra, scores["finals"].missing) == (0, 1, 1)
    assert {miss.what for miss in misses if miss.field == "finals"} == {"extra", "missing"}


def test_a_note_labelled_in_part_is_judged_by_its_labels_alone() -> None:
    money = {"amount": 500, "currency": "GBP"}
    whole = note("10 finals, £500 + VAT for hair", money=[money])
    assert (measure([whole])[0]["finals"].extra, measure([whole])[0]["money"].right) == (1, 1)
    assert (lambda s: (s["finals"].extra, s["money"].right))(measure([{**whole, "partly": True}])[0]) == (0, 1)
    other = note("£500 + VAT for hair", money=[{**money, "tax": "included"}])
    assert measure([{**other, "partly": True}])[0]["money"].missing == 1


def test_there_are_sixty_four_notes_and_every_fourth_was_set_aside() -> None:
    counts = {name: tomllib.loads((FOLDER / f"{name}.toml").read_text())["note"] for name in ("tuning", "heldout")}
    assert {name: len(notes) for name, notes in counts.items()} == {"tuning": 48, "heldout": 16}
    every = [*counts["tuning"], *counts["heldout"]]
    assert len({entry["id"] for entry in every}) == 64
    assert len({entry["trade"] for entry in every}) >= 6
    assert len({entry["style"] for entry in every}) >= 3


def test_the_table_has_a_row_for_every_field() -> None:
    assert len(table({field: Score() for field in FIELDS}).splitlines()) == len(FIELDS) + 1


def test_the_notes_that_came_later_are_others_and_read_mostly_right() -> None:
    later = tomllib.loads((FOLDER / "later.toml").read_text())["note"]
    earlier = [
        n for name in ("tuning", "heldout") for n in tomllib.loads((FOLDER / f"{name}.toml").read_text())["note"]
    ]
    assert not {entry["id"] for entry in later} & {entry["id"] for entry in earlier}
    scores = measure(later)[0]
    assert all(scores[field].precision >= 0.95 for field in ("finals", "licence", "money", "minors", "territories"))


def test_people_things_and_places_of_many_trades_read_mostly_right() -> None:
    notes = tomllib.loads((FOLDER / "subjects.toml").read_text())["note"]
    assert len(notes) == 96 and len({entry["trade"] for entry in notes}) >= 6
    scores = measure(notes)[0]
    for field in ("people", "products", "locations", "minors"):
        assert scores[field].precision >= 0.85 and scores[field].recall >= 0.8, field
