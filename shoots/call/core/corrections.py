"""Corrections inside the notes: the later word wins, and both places stay known."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core.drafts import (
    CountOf,
    CountValue,
    DateKind,
    DateValue,
    Draft,
    DraftKind,
    LicenceValue,
    MoneyKind,
    MoneyValue,
    Reason,
    ReasonCode,
    ShapeValue,
    TerritoryValue,
)
from shoots.call.core.numbers import quantities
from shoots.call.core.spans import Sentence, Span

_CUE = re.compile(
    r"(?:(?<=[?,.;!-])\s*\bno\s*\Z|(?<=[?,.;!-]\s)no\s*\Z|\bno\b(?=\s*[,.-]|\s+(?:wait|make|sorry|actually|"
    r"it's|only|just|the|\d|two|three|four|five|six|seven|eight|nine|ten|twelve))|\bnope\b|\bsorry\b|"
    r"\bactually\b|\bwait\b|\bhang on\b|\bscratch that\b|\bmake (?:that|it)\b|\bor rather\b|\bcorrection\b|"
    r"\bi mean\b|>|\bnow\b(?=\s(?:\d|it's|two|three|four|five|six|eight|ten|twelve|the|they))|\bchanged to\b|"
    r"\bchange to\b|\bchanges to\b|\bup to\b(?= \d+ now)|\bdown to\b|\binstead\b|\bbecame\b|\bmoved to\b|"
    r"\bpushed to\b|\bswitched to\b)"
    r"(?:[\s,.:;!?-]|\b(?:wait|no|actually|make|that|it|it's|sorry|they|said|says|she|he|now|only|just|we|"
    r"want|need|the|is|be|let's|say|to|change|changed|i|mean|about|more|like|should|have|got|budget|for|on|at|"
    r"shoot|delivery|usage|meant|oh|hang|scratch|rather)\b)*\Z"
)
_STARTS_OVER = re.compile(
    r"\s*(?:[-*]\s*)?(?:actually|update[d]?|correction|change[d]?|change of plan|edit|scratch that|make that|"
    r"no wait|no,|sorry|ps|p\.s\.?|latest|now|new|later|rang back|called back|email(?:ed)? (?:since|later)|"
    r"second call|follow-?up)\b"
)
_DROP = re.compile(
    r"\b(?:scratch|forget|drop(?:ped)?(?! (?:shadow|dead|off|in))|bin|lose|skip|cancel(?:led)?|ditch|leave "
    r"out|no longer (?:need|want)(?:s|ed)?|don't need|not doing|doesn't want)\s+(?:the |that |those |about "
    r"the |about |any )*\Z|\bno (?:more )?\Z(?<=no )"
)
_AFTER_ALL = re.compile(
    r"[\w\s]{0,12}\b(?:after all|any ?more|instead|is out|are out|is off|are off|cancelled|dropped|not happening)\b"
)


def apply(sentences: Sequence[Sentence], drafts: Sequence[Draft]) -> tuple[list[Draft], list[Draft]]:
    """Return the drafts after all corrections, and those that were replaced.

    Parameters
    ----------
    sentences : sequence of Sentence
        The notes.
    drafts : sequence of Draft
        What was read, in order.

    Returns
    -------
    tuple of list
        Live drafts (a correcting one names the spans it replaces) and replaced drafts.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> apply((), ())
    ([], [])
    """
    live, gone = list(drafts), list[Draft]()
    for sentence in sentences:
        _bare_numbers(sentence, live)
        live.sort(key=lambda d: d.span)
        here = [d for d in live if sentence.offset <= d.span.start < sentence.offset + len(sentence.text)]
        over = bool(_STARTS_OVER.match(sentence.text))
        for draft in here:
            if draft not in live:
                continue
            before = sentence.text[: draft.span.start - sentence.offset]
            cue = _CUE.search(before)
            earlier = None
            if cue:
                earlier = _earlier(
                    live, draft, since=sentence.offset - 200 if over or cue.start() < 4 else sentence.offset
                )
            if earlier is None and over:
                earlier = _earlier(live, draft, since=0)
            if earlier is not None:
                _replace(live, gone, earlier, draft)
                continue
            if _DROP.search(before) or (
                _AFTER_ALL.match(sentence.text[draft.span.end - sentence.offset :])
                and re.search(r"\b(?:no|not|the|scratch|forget|without)\b[\w\s]*\Z", before)
            ):
                same = [d for d in live if d is not draft and d.span.end <= draft.span.start and _same_thing(d, draft)]
                if same:
                    for old in same:
                        live.remove(old)
                        gone.append(old)
                    live.remove(draft)
                    gone.append(draft)
        _not_but(sentence, live, gone)
    return live, gone


def _bare_numbers(sentence: Sentence, live: list[Draft]) -> None:
    """ "4 locations?? no, 2": a bare number behind a cue counts what was counted before it."""
    counts = [
        d
        for d in live
        if isinstance(d.value, CountValue)
        and sentence.offset - 160 <= d.span.start < sentence.offset + len(sentence.text)
    ]
    if not counts:
        return
    for quantity in quantities(sentence.text):
        if not sentence.is_free(quantity.start, quantity.end) or not _CUE.search(sentence.text[: quantity.start]):
            continue
        if not re.match(
            r"\s*(?:$|[,.;!?)]|now\b|is\b|in total|of them|then\b|please|not\b|max|will do|is fine|enough|"
            r"and\b|instead|-\s|would|should)",
            sentence.text[quantity.end :],
        ):
            continue
        at = sentence.offset + quantity.start
        before = [d for d in counts if d.span.end <= at]
        if not before:
            continue
        old = before[-1]
        if not isinstance(old.value, CountValue):
            continue
        sentence.claim(quantity.start, quantity.end)
        words = sentence.text[quantity.start : quantity.end]
        live.append(
            Draft(
                DraftKind.COUNT,
                CountValue(old.value.of, quantity.minimum, quantity.maximum, quantity.approximate, old.value.per),
                sentence.span(quantity.start, quantity.end),
                sentence.line_no,
                Reason(ReasonCode.CORRECTED, (("number", words),)),
            )
        )


def _earlier(live: Sequence[Draft], draft: Draft, *, since: int) -> Draft | None:
    before = [d for d in live if d.span.end <= draft.span.start and d.span.start >= since and _replaceable(d, draft)]
    return before[-1] if before else None


def _replaceable(old: Draft, new: Draft) -> bool:
    if old.kind is not new.kind:
        return False
    first, second = old.value, new.value
    if isinstance(first, CountValue) and isinstance(second, CountValue):
        pictures = {CountOf.FINALS, CountOf.PICTURES, CountOf.SHOTS}
        return first.of is second.of or (first.of in pictures and second.of in pictures)
    if isinstance(first, DateValue) and isinstance(second, DateValue):
        return first.kind is second.kind or (
            DateKind.SHOOT in (first.kind, second.kind) and second.kind in (DateKind.SHOOT, DateKind.DELIVERY)
        )
    if isinstance(first, MoneyValue) and isinstance(second, MoneyValue):
        return first.kind is second.kind or (
            second.kind in (MoneyKind.BUDGET, MoneyKind.ALL_IN, MoneyKind.FEE)
            and first.kind in (MoneyKind.BUDGET, MoneyKind.ALL_IN, MoneyKind.FEE)
        )
    if isinstance(first, TerritoryValue) and isinstance(second, TerritoryValue):
        return not second.excluded and not first.excluded
    return isinstance(first, (LicenceValue, ShapeValue)) or old.kind in (
        DraftKind.PLACE,
        DraftKind.APPROVER,
        DraftKind.PAYER,
    )


def _same_thing(old: Draft, new: Draft) -> bool:
    if old.kind is not new.kind:
        return False
    first, second = old.value, new.value
    if isinstance(first, ShapeValue) and isinstance(second, ShapeValue):
        return first.shape == second.shape
    if old.kind in (DraftKind.PLACE, DraftKind.PLACEMENT, DraftKind.HAZARD, DraftKind.PERMISSION, DraftKind.PRODUCT):
        return first == second or getattr(first, "code", 1) == getattr(second, "code", 2)
    return False


def _replace(live: list[Draft], gone: list[Draft], old: Draft, new: Draft) -> None:
    value = new.value
    if isinstance(value, DateValue) and isinstance(old.value, DateValue):
        value = replace(value, kind=old.value.kind, held=value.held or old.value.held)
        if old.value.by and not value.by and value.first:
            value = replace(value, by=value.last, first=None, last=None)
        if old.value.kind is DateKind.SHOOT and value.by and not value.first:
            value = replace(value, first=value.by, last=value.by, by=None)
    if isinstance(value, MoneyValue) and isinstance(old.value, MoneyValue) and value.kind is MoneyKind.BUDGET:
        value = replace(value, kind=old.value.kind, per=value.per or old.value.per)
    if isinstance(value, LicenceValue) and isinstance(old.value, LicenceValue) and not value.starts:
        value = replace(value, starts=old.value.starts, starts_on=old.value.starts_on)
    spans = (*old.corrects, old.span)
    live[live.index(new)] = replace(
        new, value=value, corrects=spans, reason=Reason(ReasonCode.CORRECTED, new.reason.params)
    )
    live.remove(old)
    gone.append(old)


def _not_but(sentence: Sentence, live: list[Draft], gone: list[Draft]) -> None:
    """ "2 days, not 3 days": what follows "not" is what was not meant."""
    here = [d for d in live if sentence.offset <= d.span.start < sentence.offset + len(sentence.text)]
    for old, new in itertools.pairwise(here):
        if old.kind is not new.kind or old.kind not in (
            DraftKind.COUNT,
            DraftKind.DATE,
            DraftKind.SHAPE,
            DraftKind.LICENCE,
            DraftKind.MONEY,
            DraftKind.PLACE,
        ):
            continue
        gap = sentence.text[max(0, old.span.end - sentence.offset) : new.span.start - sentence.offset]
        if (
            re.fullmatch(r"\s*[,(-]?\s*(?:and |but )?not (?:the |on the |on |in |at )?", gap)
            and old in live
            and new in live
        ):
            at = live.index(old)
            live.remove(new)
            gone.append(new)
            live[at] = replace(old, corrects=(*old.corrects, Span(*new.span)))
