"""Thirty labelled lines, three for each kind of draft (labels: own, by meaning, in fixtures/notes/lines.toml)."""

from __future__ import annotations

import tomllib
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from shoots.call.core.drafts import Draft, DraftKind
from shoots.call.core.reading import read_notes

LINES = tomllib.loads(Path("fixtures/notes/lines.toml").read_text(encoding="utf-8"))["line"]


def _plain(draft: Draft) -> Any:
    value: Any = draft.value
    match draft.kind:
        case DraftKind.COUNT:
            return {"of": value.of.value, "min": value.minimum, "max": value.maximum}
        case DraftKind.SHAPE:
            return {"shape": value.shape, "count": value.count}
        case DraftKind.PLACEMENT:
            return value.placement
        case DraftKind.TERRITORY:
            return [f"-{code}" if value.excluded else code for code in value.codes]
        case DraftKind.DATE:
            return {
                "kind": value.kind.value,
                "from": str(value.first),
                "to": str(value.last),
                "by": str(value.by),
                "before": str(value.before),
                "any_of": [str(day) for day in value.any_of],
                "held": value.held,
            }
        case DraftKind.MONEY:
            return {
                "amount": value.amount,
                "currency": value.currency,
                "tax": value.tax.value,
                "kind": value.kind.value,
            }
        case DraftKind.MOOD:
            return value.pole.value
        case DraftKind.PRODUCT:
            return {"name": value.name, "colours": list(value.colours), "sizes": len(value.sizes)}
        case DraftKind.PERSON:
            return {"who": value.role, "count": value.count, "age": value.age, "minor": value.minor}
    return value.name


def _is(want: Any, got: Any) -> bool:
    if isinstance(want, str):
        return want in got
    return all(want[key] in got[key] if key in ("name", "who") else want[key] == got[key] for key in want)


@pytest.mark.parametrize("line", LINES, ids=lambda line: f"{line['kind']}: {line['text'][:40]}")
def test_a_labelled_line_gives_its_drafts_each_with_the_words_that_it_came_from(line: dict[str, Any]) -> None:
    reading = read_notes(line["text"], called_on=date(2026, 5, 14), country="GB")
    drafts = reading.of(DraftKind(line["kind"]))
    got = [_plain(draft) for draft in drafts]
    if line["kind"] == "territory":
        got = [code for codes in got for code in codes]
    if line["kind"] == "mood":
        got = list(dict.fromkeys(got))
    for want in line["want"]:
        assert any(_is(want, each) for each in got), (want, got)
    if line["kind"] != "person":
        assert len(got) == len(line["want"]), got
    for draft in reading.drafts:
        assert line["text"][draft.span.start : draft.span.end].strip(), draft
        assert draft.line_no == 1
        assert draft.reason.params, draft


def test_each_of_ten_kinds_has_three_lines() -> None:
    assert Counter(line["kind"] for line in LINES) == dict.fromkeys(("count", "shape", "placement", "territory", "date", "money", "mood", "product", "person", "place"), 3)
