"""The door for scripts (shoots.call.core.door): every key of docs/readnotes.md, and a span for every entry.

Sources: ISO 3166-1 (territories), ISO 4217 (currencies), ISO 8601 (dates).
"""

from __future__ import annotations

import json
from typing import Any

from shoots.call.core.door import words
from tests.call.core.notes import data

TEXT = """10–12 finals, most 4:5, couple of 9:16, maybe a square
packs: 12L in rust, 20L in slate
two runners, one is her nephew, he's 16
own website, paid social. worldwide excl. US. 18 mths from first use, exclusive for 6 months
pencil 17 June, second option the 18th, rain date 25 June, half eight at ours
files before Easter
five all in
beach at Camber, council land, dark + gritty
no tripods on the track
leave room top left for the strapline
the founder signs off, her brother holds the purse"""

KEYS = [
    *("finals", "shapes", "placements", "territories", "licence", "exclusivity", "money", "dates", "other_dates"),
    *("mood", "mood_words", "products", "people", "locations", "permissions", "hazards", "wishes", "negatives"),
    *("counts", "copy_space", "framings", "approvers", "payers", "references", "questions", "superseded"),
]


def entries(found: Any) -> list[dict[str, Any]]:
    if isinstance(found, dict):
        own = [found] if "span" in found else []
        return own + [entry for value in found.values() for entry in entries(value)]
    return [entry for item in found for entry in entries(item)] if isinstance(found, list) else []


def test_every_key_is_there_whatever_was_typed() -> None:
    assert list(data(TEXT)) == list(data("")) == KEYS
    assert json.loads(json.dumps(data(TEXT))) == data(TEXT)


def test_every_entry_has_a_span_of_the_notes_a_line_and_a_reason() -> None:
    found = data(TEXT)
    lines = TEXT.split("\n")
    for key, value in found.items():
        for entry in entries(value):
            if key == "questions" and entry["span"] is None:
                continue
            start, end = entry["span"]
            assert TEXT[start:end].strip(), (key, entry)
            if key not in ("questions", "superseded"):
                assert entry["reason"] and TEXT[start:end].split("\n")[0] in lines[entry["line"] - 1], (key, entry)


def test_each_key_says_what_the_notes_say() -> None:
    found = data(TEXT)
    assert (found["finals"]["min"], found["finals"]["max"]) == (10, 12)
    shapes = [(s["shape"], s["count"], s["wish"]) for s in found["shapes"]]
    assert shapes == [("4:5", None, False), ("9:16", 2, False), ("1:1", None, True)]
    assert [p["placement"] for p in found["placements"]] == ["own website", "paid social"]
    assert [t["code"] for t in found["territories"]] == ["world", "-US"]
    assert (found["licence"]["months"], found["licence"]["starts"]) == (18, "first use")
    assert (found["exclusivity"]["exclusive"], found["exclusivity"]["months"]) == (True, 6)
    money = [(m["amount"], m["currency"], m["tax"], m["kind"]) for m in found["money"]]
    assert money == [(5000, "GBP", "unknown", "all in")]
    shoot, cover, delivery = found["dates"]
    assert (shoot["kind"], shoot["any_of"], shoot["hours"]) == ("shoot", ["2026-06-17", "2026-06-18"], "08:30")
    assert (cover["kind"], cover["from"], cover["to"]) == ("cover", "2026-06-25", "2026-06-25")
    assert (delivery["kind"], delivery["before"], delivery["by"]) == ("delivery", "2027-03-28", None)
    assert found["mood"] == "dark" and [w["word"] for w in found["mood_words"]] == ["dark", "gritty"]
    assert found["people"]["minors"] is True
    assert [p["age"] for p in found["people"]["entries"]] == [None, 16]
    assert "clients" in [place["kind"] for place in found["locations"]]
    assert {"permit", "guardian"} <= {p["code"] for p in found["permissions"]}
    assert {"tide"} <= {h["code"] for h in found["hazards"]}
    assert [w["text"] for w in found["wishes"]] == ["maybe a square"]
    assert [n["text"] for n in found["negatives"]] == ["no tripods on the track"]


def test_codes_come_as_words() -> None:
    assert words("point_of_sale") == "point of sale"
