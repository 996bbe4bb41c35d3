"""Notes of a call, read into drafts for the brief and the shot list: offline, and the same every time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

from shoots.call.core import (
    corrections,
    counts,
    counts_rows,
    date_settle,
    dates,
    finals,
    licence,
    minors,
    money,
    money_kinds,
    mood,
    negatives,
    people,
    people_settle,
    placements,
    places,
    product_traits,
    products,
    questions,
    requests,
    shapes,
    territories,
    wishes,
)
from shoots.call.core.count_words import is_pictures
from shoots.call.core.drafts import DateKind, DateValue, Draft, DraftKind, MoneyValue, Reading, Tax
from shoots.call.core.lexicons import Hit, Lexicons, package_lexicons
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
    before = _Before()
    hits = [words.hits(sentence) for sentence in notes.sentences]
    about_use = {
        sentence.line_no
        for sentence, here in zip(notes.sentences, hits, strict=True)
        if any(here.get(table) for table in ("placement", "region", "group", "allmedia"))
    }
    for sentence, here in zip(notes.sentences, hits, strict=True):
        before.enter(sentence, about_use=sentence.line_no in about_use)
        drafts = _read_sentence(sentence, here, words, before, called_on=called_on, country=country)
        before.remember(drafts)
        _tax_behind(sentence, found, drafts)
        found += drafts
    found += counts_rows.read(notes.sentences, found)
    found.sort(key=lambda draft: (draft.span, draft.kind.value))
    live, gone = corrections.apply(notes.sentences, found)
    short = bool(notes.sentences) and len(notes.sentences[0].words) < 3
    serves = any(here.get("service") for here in hits[: 2 if short else 1])
    live, needless = _settled(live, clean(text), serves=serves)
    live += minors.permissions(live)
    live.sort(key=lambda draft: (draft.span, draft.kind.value))
    total = finals.add_up(live, text)
    return Reading(tuple(live), tuple(gone + needless), questions.still_open(live, total), total)


@dataclass(slots=True)
class _Before:
    """What the notes said before a sentence that helps to read it."""

    month: tuple[int, int] | None = None
    deed: DateKind | None = None
    last_day: date | None = None
    about_use: bool = False
    line_no: int = 0
    pictures_line: int = -9
    going_on: bool = False

    def enter(self, sentence: Sentence, *, about_use: bool) -> None:
        """Forget what only holds on one line when another begins."""
        if sentence.line_no != self.line_no:
            self.deed, self.about_use, self.line_no = None, about_use, sentence.line_no
        self.going_on = sentence.line_no - self.pictures_line <= 1

    def remember(self, drafts: Sequence[Draft]) -> None:
        """Keep what the next sentence may lean on."""
        for draft in drafts:
            if is_pictures(draft):
                self.pictures_line = draft.line_no
            if isinstance(draft.value, DateValue):
                self.deed = draft.value.kind
                days = (*draft.value.any_of, draft.value.last, draft.value.by, draft.value.first)
                self.last_day = max((day for day in days if day), default=self.last_day)


def _tax_behind(sentence: Sentence, found: list[Draft], drafts: Sequence[Draft]) -> None:
    """Let a sentence that only says "VAT on top" count for the amount before it."""
    if any(d.kind is DraftKind.MONEY for d in drafts) or (tax := money_kinds.tax_alone(sentence.text)) is Tax.UNKNOWN:
        return
    for index in range(len(found) - 1, -1, -1):
        value = found[index].value
        if isinstance(value, MoneyValue):
            if value.tax is Tax.UNKNOWN and sentence.line_no - found[index].line_no <= 1:
                found[index] = replace(found[index], value=replace(value, tax=tax))
            return


@lru_cache(maxsize=8)
def _topics(lexicons: Lexicons) -> Callable[[str], str]:
    table = {clean(word): code for code, entry in lexicons.tables.get("topic", {}).items() for word in entry.words}

    def topic_of(label: str) -> str:
        return table.get(label) or table.get(" ".join(word.text for word in words_of(label)), "")

    return topic_of


def _read_sentence(
    sentence: Sentence,
    hits: dict[str, list[Hit]],
    lexicons: Lexicons,
    before: _Before,
    *,
    called_on: date,
    country: str,
) -> list[Draft]:
    """Read one sentence; the order matters, since each reader claims the figures that it understood."""
    opening = sentence.index == 0 or (sentence.line_no == 1 and len(sentence.words) <= 5)
    found = requests.read(sentence, hits)
    found += shapes.read(sentence, hits)
    found += money.read(sentence, country=country, called_on=called_on)
    on, before.month = dates.read(
        sentence,
        hits,
        called_on=called_on,
        country=country,
        month=before.month,
        deed=before.deed,
        last_day=before.last_day,
    )
    found += on
    areas = territories.read(sentence, hits, lexicons, about_use=before.about_use, country=country)
    found += licence.read(sentence, hits, about_use=before.about_use or bool(areas))
    found += people.read(sentence, hits, opening=opening)
    found += counts.read(sentence, hits, going_on=before.going_on)
    found += products.read(sentence, hits, lexicons)
    found += placements.read(sentence, hits)
    found += areas
    found += places.read(sentence, hits, first_line=opening)
    found += mood.read(sentence, hits)
    wished, found = wishes.read(sentence, hits, found)
    return found + wished + negatives.read(sentence, hits, found)


def _settled(drafts: Sequence[Draft], text: str, *, serves: bool) -> tuple[list[Draft], list[Draft]]:
    """Tie up what only the whole notes tell: doubles, licence starts, days counted from the shoot."""
    things = product_traits.without_doubles([d for d in drafts if d.kind is DraftKind.PRODUCT], serves=serves)
    who = people_settle.settled([d for d in drafts if d.kind is DraftKind.PERSON], text)
    kept = [d for d in drafts if d.kind not in (DraftKind.PRODUCT, DraftKind.PERSON)] + things + who
    kept = shapes.without_doubles(kept)
    return date_settle.settle(sorted(kept, key=lambda d: d.span))
