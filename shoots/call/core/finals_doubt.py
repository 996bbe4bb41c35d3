"""Sums that would be a guess: an item of the list that nobody understood, "front and back" of how many things."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.count_words import NOT_BEHIND, PARTS
from shoots.call.core.drafts import CountOf, CountValue, Draft, DraftKind, ReasonCode
from shoots.call.core.finals_units import Part
from shoots.call.core.numbers import quantities
from shoots.call.core.spans import Span

_GENERAL = (CountOf.PICTURES, CountOf.SHOTS)
#: Drafts whose words may have a number of others in them.
BROAD = frozenset({DraftKind.WISH, DraftKind.NEGATIVE, DraftKind.PERMISSION, DraftKind.HAZARD})
_LABELLED = re.compile(r"(?:[/,+&]|\band)\s*[a-z]+\s\Z")
_ITEM_BEHIND = re.compile(r"\s*(?:,|\+|&|/|\band\b|\bplus\b)\s*(?:and |plus )?(?:an? )?\Z")
_ITEM_AHEAD = re.compile(r"\s?(?:x\s)?(?:[a-z-]+\s){0,3}(?:,|\+|&|/|and|plus)\s*(?:and |plus )?(?:an? )?")


_NO_ITEM = re.compile(
    r"\b(?:days?|hours?|weeks?|months?|years?|mins?|minutes|times|videos?|clips?|films?|reels?|gifs?|crops?|versions?|"
    r"formats?|rounds?|revisions?|cuts?|cutdowns?|resizes?|edits?|people|colou?rs|sizes|of|them|those|which|half|each|per|max|spare|more|usage|am|pm)\b"
)


def left_over(total: Draft, drafts: Sequence[Draft], text: str) -> bool:
    """Return whether a list that was added up has an item that nobody understood.

    Parameters
    ----------
    total : Draft
        The sum.
    drafts : sequence of Draft
        All live drafts.
    text : str
        The cleaned notes.

    Returns
    -------
    bool
        True when the sum would be a guess.

    References
    ----------
    Own rule, see tests.
    """
    if total.reason.code not in (ReasonCode.SUM_OF_PARTS, ReasonCode.TIMES_EACH, ReasonCode.NUMBER_AND_NOUN):
        return False
    value = total.value
    if not isinstance(value, CountValue) or any(
        isinstance(d.value, CountValue) and d.value.of is CountOf.FINALS and not d.wish for d in drafts
    ):
        return False
    if not total.parts and value.of in (*_GENERAL, CountOf.FINALS):
        return False
    taken = total.parts or (total.span,)
    labelled = any(text[s.start : s.end].rstrip()[-1:].isdigit() for s in taken)
    read = [*(d.span for d in drafts), *taken]
    for first in {text.rfind("\n", 0, span.start) + 1 for span in taken}:
        end = text.find("\n", first)
        line = text[first : end if end >= 0 else len(text)]
        for quantity in quantities(line):
            span = Span(first + quantity.start, first + quantity.end)
            if (
                labelled
                and _LABELLED.search(line[: quantity.start])
                and any(
                    d.kind is DraftKind.PERSON and d.span.start < span.end and span.start < d.span.end for d in drafts
                )
            ):
                return True  # "product 12 / people 6 / place 4"
            if NOT_BEHIND.match(line, quantity.end) or any(s.start < span.end and span.start < s.end for s in read):
                continue
            behind = line[quantity.end :]
            noun = re.match(r"\s?(?:x\s)?(?:[a-z-]+\s)?[a-z-]{3,}", behind)
            if not noun or _NO_ITEM.search(noun.group()):
                continue
            before = max((s.end for s in taken if s.end <= span.start), default=-1)
            after = min((s.start for s in taken if s.start >= span.end), default=-1)
            if (before >= first and span.start - before < 40 and _ITEM_BEHIND.search(text[before : span.start])) or (
                after >= 0 and _ITEM_AHEAD.fullmatch(text[span.end : after])
            ):
                return True
    return False


def is_open(part: Part, counts: Sequence[Part], text: str) -> bool:
    """Return whether it is unknown what a number is each of, and it does not only explain the one before it.

    Parameters
    ----------
    part : Part
        A count that is "each" or "per" something, and found no number of it.
    counts : sequence of Part
        All counts.
    text : str
        The cleaned notes.

    Returns
    -------
    bool
        False for "14 cutouts (2 per style)" and "one of each (9)".

    References
    ----------
    Own rule, see tests.
    """
    if part.value.of not in PARTS | {CountOf.ANGLES}:
        return False
    before = [p for p in counts if p.draft.span.end <= part.draft.span.start and p.value.of in PARTS | {CountOf.FINALS}]
    if re.match(r"[^.;\n(]{0,40}\(\d{1,3}\)", text[part.draft.span.end :]):
        return False  # "one of each combination on white (9)"
    explains = before and part.size and before[-1].size % part.size == 0
    gap = text[before[-1].draft.span.end : part.draft.span.start] if before else ""
    return not (bool(explains) and re.fullmatch(r"\s*(?:[a-z]+\s){0,2}[,(:=-]\s*", gap))
