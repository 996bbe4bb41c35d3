"""Notes of a call, read into drafts for the brief and the shot list: offline, and the same every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from shoots.call.core import (
    corrections,
    counts,
    dates,
    hedges,
    licence,
    money,
    mood,
    people,
    placements,
    places,
    products,
    questions,
    requests,
    shapes,
    territories,
)
from shoots.call.core.drafts import DateKind, DateValue, Draft, DraftKind, LicenceValue, Reading
from shoots.call.core.lexicons import Lexicons, package_lexicons
from shoots.call.core.spans import Sentence, clean, cut, words_of

#: Longer notes are refused: two thousand pages are no notes of a call. [characters]
LONGEST_NOTES = 2_000_000


class NotesTooLong(ValueError):
    """Raised when notes have more than `LONGEST_NOTES` characters."""

    def __init__(self, length: int) -> None:
        """Keep the length for the message that the page writes."""
        super().__init__(f"{length} > {LONGEST_NOTES}")
        self.length = length
        self.limit = LONGEST_NOTES


def read_notes(text: str, *, called_on: date, country: str, lexicons: Lexicons | None = None) -> Reading:
    """Return the drafts that free notes of a call give, and the questions that they leave open.

    Parameters
    ----------
    text : str
        The notes as typed: any length up to `LONGEST_NOTES`, any characters.
    called_on : date
        The day of the call, from which dates such as "Thu week" are counted.
    country : str
        The studio's country, an ISO 3166-1 alpha-2 code: currency, order of figures in dates, named days.
    lexicons : Lexicons, optional
        Tables of words; those of the program when left out.

    Returns
    -------
    Reading
        Drafts in the order of the notes, each with its span, line and reason; drafts that a later word replaced; the
        open questions, the most expensive first.

    Raises
    ------
    NotesTooLong
        If the notes have more than `LONGEST_NOTES` characters.

    References
    ----------
    Own rules, measured on labelled notes (``fixtures/notes``).

    Examples
    --------
    >>> reading = read_notes("10-12 finals, 4:5\\n4 locations?? no, 2", called_on=date(2026, 5, 14), country="GB")
    >>> [(d.kind.value, d.line_no, d.corrects) for d in reading.drafts]
    [('count', 1, ()), ('shape', 1, ()), ('count', 2, (Span(start=18, end=29),))]
    >>> reading.questions[0].code.value
    'term'
    """
    if len(text) > LONGEST_NOTES:
        raise NotesTooLong(len(text))
    words = lexicons or package_lexicons()
    notes = cut(text, _topics(words))
    found: list[Draft] = []
    month: tuple[int, int] | None = None
    deed: DateKind | None = None
    line_no, first_line = 0, next((s.line_no for s in notes.sentences), 1)
    for sentence in notes.sentences:
        deed = deed if sentence.line_no == line_no else None
        line_no = sentence.line_no
        here, month = _read_sentence(
            sentence,
            words,
            called_on=called_on,
            country=country,
            month=month,
            deed=deed,
            first_line=line_no == first_line,
        )
        deed = next((d.value.kind for d in reversed(here) if isinstance(d.value, DateValue)), deed)
        found += here
    found.sort(key=lambda draft: (draft.span, draft.kind.value))
    live, gone = corrections.apply(notes.sentences, found)
    live = _settled(live, called_on)
    live += people.permissions(live)
    live.sort(key=lambda draft: (draft.span, draft.kind.value))
    total = counts.finals(live, text)
    return Reading(tuple(live), tuple(gone), questions.still_open(live, total), total)


def _topics(lexicons: Lexicons):  # type: ignore[no-untyped-def]
    table = {clean(word): code for code, entry in lexicons.tables.get("topic", {}).items() for word in entry.words}

    def topic_of(label: str) -> str:
        return table.get(label) or table.get(" ".join(word.text for word in words_of(label)), "")

    return topic_of


def _read_sentence(
    sentence: Sentence,
    lexicons: Lexicons,
    *,
    called_on: date,
    country: str,
    month: tuple[int, int] | None,
    deed: DateKind | None,
    first_line: bool,
) -> tuple[list[Draft], tuple[int, int] | None]:
    """Read one sentence; the order matters, since each reader claims the figures that it understood."""
    hits = lexicons.hits(sentence)
    found = requests.read(sentence, hits)
    found += shapes.read(sentence, hits)
    found += money.read(sentence, country=country, called_on=called_on)
    on, month = dates.read(sentence, hits, called_on=called_on, country=country, month=month, deed=deed)
    found += on
    found += licence.read(sentence, hits)
    found += people.read(sentence, hits)
    found += counts.read(sentence, hits)
    found += products.read(sentence, hits, lexicons)
    found += placements.read(sentence, hits)
    found += territories.read(sentence, hits, lexicons)
    found += places.read(sentence, hits, first_line=first_line)
    found += mood.read(sentence, hits)
    wished, found = hedges.wishes(sentence, found)
    return found + wished + hedges.negatives(sentence, found), month


def _settled(drafts: Sequence[Draft], called_on: date) -> list[Draft]:
    """Tie up what only the whole notes tell: doubles, licence starts, deliveries counted from the shoot."""
    things = products.without_doubles([d for d in drafts if d.kind is DraftKind.PRODUCT])
    kept = [d for d in drafts if d.kind is not DraftKind.PRODUCT] + things
    shoot = next(
        (
            d.value.last or (max(d.value.any_of) if d.value.any_of else None)
            for d in kept
            if isinstance(d.value, DateValue) and d.value.kind is DateKind.SHOOT and (d.value.last or d.value.any_of)
        ),
        None,
    )
    launch = next(
        (
            d.value.first
            for d in kept
            if isinstance(d.value, DateValue) and d.value.kind is DateKind.LAUNCH and d.value.first == d.value.last
        ),
        None,
    )
    settled = []
    for draft in kept:
        value = draft.value
        if isinstance(value, DateValue) and (days := dict(draft.reason.params).get("days_after_shoot")) and shoot:
            draft = replace(draft, value=replace(value, by=shoot + timedelta(days=int(days))))
        elif isinstance(value, LicenceValue) and value.starts == "launch" and launch:
            draft = replace(draft, value=replace(value, starts_on=launch))
        settled.append(draft)
    return sorted(settled, key=lambda d: d.span)
