"""What is only wished for: the reach of "maybe", "if there's time", "would be nice"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core.drafts import CountOf, CountValue, Draft, DraftKind, Reason, ReasonCode, TextValue
from shoots.call.core.lexicons import Hit
from shoots.call.core.negatives import items
from shoots.call.core.spans import Sentence, Span

_STOP = re.compile(
    r",(?!\d)|;|\s-\s|[()\[\]]|\?+|!+|\.(?=\s|$)|\bbut\b|\bbecause\b|\+|\bthen\b|\band (?:the|we|they|she|he|"
    r"budget|usage|delivery|shoot)\b"
)
_START = re.compile(
    r",(?!\d)\s*|;\s*|\s-\s|[()\[\]]\s*|\?+\s*|!+\s*|\bbut\s|\bplus\s|\s\+\s|\.\s+|:\s|\balso\s|\bthen\s|"
    r"\band (?=maybe|perhaps|possibly|poss|if|would|could|might)"
)
_VALUES = frozenset({DraftKind.DATE, DraftKind.MONEY, DraftKind.LICENCE, DraftKind.TERRITORY})
_THINGS = frozenset({DraftKind.SHAPE, DraftKind.COUNT, DraftKind.PRODUCT, DraftKind.PERSON, DraftKind.PLACEMENT})
_TOTALS = frozenset(
    {
        CountOf.FINALS,
        CountOf.PICTURES,
        CountOf.SHOTS,
        CountOf.LOCATIONS,
        CountOf.PRODUCTS,
        CountOf.OUTFITS,
        CountOf.DAYS,
    }
)
_EXTRA = re.compile(
    r"\b(?:extra|also|bonus|another|more|as well|if|nice|love|"
    r"might (?:also )?like (?:a|some|one|another)|group|too|lovely|great)\b"
)
_NOT_A_WISH = re.compile(
    r"\b(?:like|love) (?:it|this|them|to (?:book|confirm|shoot on|see a quote|know|get|keep|have it|go ahead|"
    r"do it)|us to)\b"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> tuple[list[Draft], list[Draft]]:
    """Return the wishes of a sentence, and its drafts with those inside a wish marked.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    drafts : sequence of Draft
        What was read from it.

    Returns
    -------
    tuple of list
        Drafts of kind `wish`, and the other drafts. "Maybe" before a date, an amount or a total makes that
        uncertain and is no wish.

    References
    ----------
    Own rules, see tests; words in ``lexicon/hedges.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("ten finals, a group shot if there's time").sentences[0]
    >>> [d.value.text for d in read(line, package_lexicons().hits(line), ())[0]]
    ["a group shot if there's time"]
    """
    spans: list[Span] = []
    labelled = sentence.topic == "wishes"
    hedges = hits.get("hedge", ())
    if labelled:
        spans = items(sentence)
    for hit in () if labelled else hedges:
        span = _reach(sentence, hit, hedges)
        if not any(span.start < other.end and other.start < span.end for other in spans):
            spans.append(span)
    found: list[Draft] = []
    marked = list(drafts)
    for span in spans:
        whole = sentence.span(span.start, span.end)
        inside = [d for d in marked if whole.start <= d.span.start and d.span.end <= whole.end + 1]
        touched = [d for d in marked if d.span.start < whole.end and whole.start < d.span.end]
        if not labelled and (
            _is_uncertain(sentence, span, inside, touched) or _NOT_A_WISH.search(sentence.text[span.start : span.end])
        ):
            continue
        raw = sentence.text[span.start : span.end]
        text = raw.strip(" ,.;-")
        if len(text) < 4:
            continue
        marked = [replace(d, wish=True) if d in inside and d.kind not in _VALUES else d for d in marked]
        start = span.start + len(raw) - len(raw.lstrip(" ,.;-"))
        reason = Reason(ReasonCode.HEDGED, (("words", text),))
        place = sentence.span(start, start + len(text))
        found.append(Draft(DraftKind.WISH, TextValue(text), place, sentence.line_no, reason, wish=True))
    return found, marked


def _reach(sentence: Sentence, hit: Hit, hedges: Sequence[Hit]) -> Span:
    """Return the clause that a hedge is about: its own, or the neighbour when its own says nothing else."""
    text = sentence.text
    starts = [m.end() for m in _START.finditer(text, 0, hit.end) if m.end() <= hit.start]
    start = starts[-1] if starts else 0
    stop = _STOP.search(text, hit.end)
    end = stop.start() if stop else len(text)
    rest = text[start:end]
    for other in hedges:
        if start <= other.start and other.end <= end:
            rest = rest.replace(text[other.start : other.end], " ")
    if not re.search(r"[a-z]{3}|\d", rest):
        if start > 0:
            earlier = [m.end() for m in _START.finditer(text, 0, max(0, starts[-1] - 3))]
            start = earlier[-1] if earlier else 0
        elif stop:
            following = _STOP.search(text, stop.end())
            end = following.start() if following else len(text)
    return Span(start, end)


def _is_uncertain(sentence: Sentence, span: Span, inside: Sequence[Draft], touched: Sequence[Draft]) -> bool:
    """Return whether the hedge only makes a date, an amount or a number uncertain ("maybe 12 pictures")."""
    if any(d.kind in _VALUES for d in touched):
        return not any(d.kind in _THINGS for d in inside)
    totals = [d for d in inside if isinstance(d.value, CountValue) and d.value.of in _TOTALS]
    others = [d for d in inside if d.kind in (DraftKind.SHAPE, DraftKind.PERSON, DraftKind.PLACEMENT, DraftKind.HAZARD)]
    text = sentence.text[span.start : span.end]
    if totals and not others and not _EXTRA.search(text):
        return True
    if others:
        return False
    return not re.search(r"[a-z]{3}", re.sub(r"\b(?:maybe|perhaps|possibly|poss|ideally|not)\b", " ", text))
