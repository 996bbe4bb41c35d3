"""Measure the reader against notes that somebody labelled: precision and recall of every field."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from shoots.call.core.door import as_data
from shoots.call.core.lexicons import Lexicons, package_lexicons
from shoots.call.core.reading import read_notes
from shoots.call.core.spans import clean, stem, words_of
from shoots.call.core.territories import members

FIELDS = (
    "finals", "shapes", "placements", "territories", "licence", "exclusivity", "money", "dates", "mood", "products",
    "people", "minors", "locations", "permissions", "hazards", "wishes", "negatives", "questions",
)  # fmt: skip
#: What must be asked when a field is empty.
_ASKED = {
    "finals": "finals", "shapes": "shapes", "placements": "placements", "territories": "territory", "licence": "term",
    "money": "budget", "products": "products", "people": "people", "locations": "place", "mood": "mood",
}  # fmt: skip
_LITTLE = frozenset(
    ["a", "an", "the", "of", "in", "on", "at", "our", "their", "his", "her", "and", "with", "for", "to"]
)


@dataclass(slots=True)
class Score:
    """Right, superfluous and missing entries of one field."""

    right: int = 0
    extra: int = 0
    missing: int = 0

    @property
    def precision(self) -> float:
        """Return the share of what was read that is right; 1 when nothing was read. [1]"""
        return self.right / (self.right + self.extra) if self.right + self.extra else 1.0

    @property
    def recall(self) -> float:
        """Return the share of what is there that was read; 1 when nothing is there. [1]"""
        return self.right / (self.right + self.missing) if self.right + self.missing else 1.0


@dataclass(frozen=True, slots=True)
class Miss:
    """One disagreement between the reader and a label."""

    note: str
    field: str
    what: str
    entry: str


def measure(
    notes: Iterable[Mapping[str, Any]], lexicons: Lexicons | None = None
) -> tuple[dict[str, Score], list[Miss]]:
    """Return the scores of every field over labelled notes, and each disagreement.

    Parameters
    ----------
    notes : iterable of mapping
        Entries of ``fixtures/notes``: `text`, `called`, `country` and `want`. A field that `want` leaves out is
        one where nothing shall be read, unless `partly` is true: then only the labelled fields count, and a
        `money` label may leave out `tax` or `kind`.
    lexicons : Lexicons, optional
        Tables of words; those of the program when left out.

    Returns
    -------
    tuple
        Scores by field, and the disagreements in order.

    References
    ----------
    C. J. van Rijsbergen, Information Retrieval, 2nd ed., Butterworths, 1979, chapter 7.

    Examples
    --------
    >>> want = {"finals": {"min": 10, "max": 10}}
    >>> note = {"id": "n", "text": "10 finals", "called": date(2026, 5, 14), "country": "GB", "want": want}
    >>> measure([note])[0]["finals"].recall
    1.0
    """
    words = lexicons or package_lexicons()
    scores = {field: Score() for field in FIELDS}
    misses: list[Miss] = []
    for note in notes:
        reading = read_notes(note["text"], called_on=note["called"], country=note["country"], lexicons=words)
        got = _got(as_data(reading))
        want = _want(note["want"], words)
        # A note that is labelled in part says nothing of the fields that it leaves out.
        for field in [one for one in FIELDS if one in note["want"]] if note.get("partly") else FIELDS:
            same = _SAME.get(field, _equal)
            right, extra, missing = _pair(want[field], got[field], same)
            score = scores[field]
            score.right, score.extra, score.missing = (
                score.right + right,
                score.extra + len(extra),
                score.missing + len(missing),
            )
            misses += [Miss(note["id"], field, "extra", str(entry)) for entry in extra]
            misses += [Miss(note["id"], field, "missing", str(entry)) for entry in missing]
    return scores, misses


def _pair(
    want: Sequence[Any], got: Sequence[Any], same: Callable[[Any, Any], bool]
) -> tuple[int, list[Any], list[Any]]:
    left, missing, right = list(got), [], 0
    for entry in want:
        match = next((other for other in left if same(entry, other)), None)
        if match is None:
            missing.append(entry)
        else:
            left.remove(match)
            right += 1
    extra = [other for other in left if not any(same(entry, other) for entry in want)]
    return right, extra, missing


def _equal(want: Any, got: Any) -> bool:
    return bool(want == got)


def _stems(text: str) -> frozenset[str]:
    return frozenset(stem(word.text) for word in words_of(clean(text)) if word.text not in _LITTLE)


def _alike(want: Any, got: Any) -> bool:
    first, second = _stems(str(want)), _stems(str(got))
    return bool(first) and bool(second) and (first <= second or second <= first)


def _overlaps(want: Any, got: Any) -> bool:
    first, second = _stems(str(want)), _stems(str(got))
    return len(first & second) >= 0.6 * min(len(first), len(second)) > 0


def _person(want: Any, got: Any) -> bool:
    who = "who" not in want or _alike(want["who"], got["who"] or "")
    return who and all(want[key] == got[key] for key in ("age", "count") if key in want)


def _sum(want: Any, got: Any) -> bool:
    return want[:3] == got[:3] and all(mine in (None, other) for mine, other in zip(want[3:], got[3:], strict=True))


def _exclusive(want: Any, got: Any) -> bool:
    return bool(want["exclusive"] == got["exclusive"] and want.get("months") == got.get("months"))


_SAME: dict[str, Callable[[Any, Any], bool]] = {
    "products": _alike,
    "locations": _alike,
    "wishes": _overlaps,
    "negatives": _overlaps,
    "people": _person,
    "exclusivity": _exclusive,
    "money": _sum,
}


def _got(data: Mapping[str, Any]) -> dict[str, list[Any]]:
    people = [entry for entry in data["people"]["entries"] if entry["who"] or entry["age"] is not None]
    return {
        "finals": [(data["finals"]["min"], data["finals"]["max"])] if data["finals"] else [],
        "shapes": list(dict.fromkeys((e["shape"], e["count"]) for e in data["shapes"])),
        "placements": [e["placement"] for e in data["placements"]],
        "territories": [e["code"] for e in data["territories"]],
        "licence": [(data["licence"]["months"], data["licence"]["starts"])]
        if data["licence"] and data["licence"]["months"]
        else [],
        "exclusivity": [data["exclusivity"]] if data["exclusivity"] else [],
        "money": [(e["amount"], e.get("up_to"), e["currency"], e["tax"], e["kind"]) for e in data["money"]],
        "dates": [
            (e["kind"], e["from"], e["to"], e["by"], e["before"], tuple(e["any_of"]), e["hours"]) for e in data["dates"]
        ],
        "mood": [data["mood"]],
        "products": [e["product"] for e in data["products"]],
        "people": people,
        "minors": [data["people"]["minors"]],
        "locations": [e["location"] for e in data["locations"]],
        "permissions": [e["code"] for e in data["permissions"]],
        "hazards": [e["code"] for e in data["hazards"]],
        "wishes": [e["text"] for e in data["wishes"]],
        "negatives": [e["text"] for e in data["negatives"]],
        "questions": [q for q in dict.fromkeys(e["code"] for e in data["questions"]) if q in _ASKED.values()],
    }


def _day(value: Any) -> str | None:
    return value.isoformat() if isinstance(value, date) else value


def _want(label: Mapping[str, Any], words: Lexicons) -> dict[str, list[Any]]:
    finals, licence, money = label.get("finals"), label.get("licence"), label.get("money", [])
    dates = []
    for entry in label.get("dates", []):
        first, last = _day(entry.get("from", entry.get("on"))), _day(entry.get("to", entry.get("on")))
        any_of = tuple(str(_day(day)) for day in entry.get("any_of", ()))
        dates.append(
            (entry["kind"], first, last, _day(entry.get("by")), _day(entry.get("before")), any_of, entry.get("hours"))
        )
    want = {
        "finals": [(finals.get("min"), finals.get("max"))] if finals else [],
        "shapes": [(e["shape"], e.get("count")) for e in label.get("shapes", [])],
        "placements": label.get("placements", []),
        "territories": _countries(label.get("territories", []), words),
        "licence": [(licence["months"], licence.get("starts"))] if licence else [],
        "exclusivity": [label["exclusivity"]] if label.get("exclusivity") else [],
        "money": [(e["amount"], e.get("up_to"), e["currency"], e.get("tax"), e.get("kind")) for e in money],
        "dates": dates,
        "mood": [label.get("mood", "unknown")],
        "products": label.get("products", []),
        "people": label.get("people", []),
        "minors": [label.get("minors", False)],
        "locations": label.get("locations", []),
        "permissions": label.get("permissions", []),
        "hazards": label.get("hazards", []),
        "wishes": label.get("wishes", []),
        "negatives": label.get("negatives", []),
    }
    asked = [question for field, question in _ASKED.items() if not want[field] or want[field] == ["unknown"]]
    asked += ["shoot_date"] if not any(d[0] == "shoot" and any(d[1:6]) for d in dates) else []
    asked += ["delivery_date"] if not any(d[0] == "delivery" for d in dates) else []
    return {**want, "questions": [question for question in asked if question in _ASKED.values()]}


def _countries(codes: Sequence[str], words: Lexicons) -> list[str]:
    found: list[str] = []
    for code in codes:
        sign, name = ("-", code[1:]) if code.startswith("-") else ("", code)
        group = words.tables["group"].get(name.lower())
        found += (
            [sign + member for member in members(words, group)]
            if (group and name.isupper() and len(name) > 2) or (name == "EU" and group)
            else [code]
        )
    return list(dict.fromkeys(found))


def table(scores: Mapping[str, Score]) -> str:
    """Return the scores as a table of plain text.

    Parameters
    ----------
    scores : mapping
        Scores by field.

    Returns
    -------
    str
        One line per field.

    References
    ----------
    Own form.

    Examples
    --------
    >>> print(table({"mood": Score(3, 1, 0)}))
    field         right  extra  missing  precision  recall
    mood              3      1        0      0.750   1.000
    """
    lines = [f"{'field':<12} {'right':>6} {'extra':>6} {'missing':>8} {'precision':>10} {'recall':>7}"]
    for field, score in scores.items():
        lines.append(
            f"{field:<12} {score.right:>6} {score.extra:>6} {score.missing:>8} {score.precision:>10.3f} "
            f"{score.recall:>7.3f}"
        )
    return "\n".join(lines)
