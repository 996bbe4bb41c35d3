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

#: How far back a later word may replace an earlier one. [characters]
LOOK_BACK = 10_000
#: Words without which a sentence corrects nothing; only a quick way out.
_SIGN = re.compile(
    r"\b(?:no|not|nope|sorry|actually|wait|hang on|scratch|make|rather|correct|mean|now|chang|up to|down to|instead|"
    r"became|said|can't|settled|ended|shook|landed|agreed|moved|pushed|switched|talked|update|edit|ps|p\.s|latest|new|"
    r"later|rang|called|email|second call|"
    r"follow|forget|"
    r"drop|bin|lose|skip|cancel|ditch|leave|don't|doesn't|after all|any ?more|out|off|happening)|>"
)
_CUE = re.compile(
    r"(?:(?<=[?,.;!-])\s*\bno\s*\Z|(?<=[?,.;!-]\s)no\s*\Z|\bno\b(?=\s*[,.-]|\s+(?:wait|make|sorry|actually|"
    r"it's|only|just|the|\d|two|three|four|five|six|seven|eight|nine|ten|twelve))|\bnope\b|\bsorry\b|"
    r"\bactually\b|\bwait\b|\bhang on\b|\bscratch that\b|\bmake (?:that|it)\b|\bor rather\b|\bcorrection\b|"
    r"\bi mean\b|(?<![=-])>|\bnow\b(?=\s(?:\d|it's|two|three|four|five|six|eight|ten|twelve|the|they)|\s*\Z)|"
    r"\bchanged to\b|"
    r"\bchange to\b|\bchanges to\b|\bup to\b(?= \d+ now)|\bdown to\b|\binstead\b|\bbecame\b|\bmoved to\b|"
    r"\bcan't (?:do|make) (?:that|it)\b,?(?: so| but)?|"
    r"\b(?:settled (?:at|on)|ended up at|shook (?:hands )?on|landed (?:on|at)|agreed (?:on|at))\b|"
    r"\bcorrect(?:ed|s) (?:him|her|them|it)sel(?:f|ves)\b(?: to)?|\bthen (?:said|changed (?:it |that )?to)\b|"
    r"\bpushed to\b|\bswitched to\b|\btalked (?:him|her|them) (?:up|down) to\b)"
    r"(?:[\s,.:;!?-]|\b(?:wait|no|actually|make|that|it|it's|sorry|they|said|says|she|he|now|only|just|we|"
    r"want|need|the|is|be|let's|say|to|change|changed|i|mean|about|more|like|should|have|got|budget|for|on|at|"
    r"shoot|delivery|usage|meant|oh|hang|scratch|rather)\b)*\Z"
)
#: "10 pics no 12 she wants": typed without a comma, and only of numbers.
_BARE_NO = re.compile(r"\d (?:[a-z]+ ){1,3}(?:oh )?no (?:wait )?(?:make it )?\Z")
_STARTS_OVER = re.compile(
    r"\s*(?:[-*]\s*)?(?:actually|update[d]?|correction|change[d]?|change of plan|edit(?=\s*:\s*(?:no|now|actually|"
    r"make|it's|changed|she|he|they|that)\b)|scratch that|make that|"
    r"no wait|no,|sorry|ps|p\.s\.?|latest|now|new|later|rang back|called back|email(?:ed)? (?:since|later)|"
    r"second call|follow-?up)\b"
)
_DROP = re.compile(
    r"\b(?:scratch|scrap|forget|drop(?:ped)?(?! (?:shadow|dead|off|in))|bin|lose|skip|cancel(?:led)?|ditch|leave "
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
    waiting = sorted(drafts, key=lambda d: d.span)
    done, gone, at = list[Draft](), list[Draft](), 0
    for sentence in sentences:
        end, here = sentence.offset + len(sentence.text), list[Draft]()
        while at < len(waiting) and waiting[at].span.start < end:
            here.append(waiting[at])
            at += 1
        if _SIGN.search(sentence.text):
            here = sorted((*here, *_bare_numbers(sentence, done, here)), key=lambda d: d.span)
            over = bool(_STARTS_OVER.match(sentence.text))
            if here and (over or any(_touches(sentence, draft) for draft in here)):
                since = _since(done, sentence.offset - LOOK_BACK)
                here = _correct(sentence, done[since:], here, gone, over=over)
                del done[since:]
            else:
                _not_but(here, sentence, gone)
        done += here
    return done, gone


def _since(done: Sequence[Draft], start: int) -> int:
    """Return the index of the first draft of a sorted list that does not begin before a position."""
    index = len(done)
    while index and done[index - 1].span.start >= start:
        index -= 1
    return index


def _touches(sentence: Sentence, draft: Draft) -> bool:
    """Return whether the words around a draft may change or drop an earlier one."""
    before = sentence.text[: draft.span.start - sentence.offset]
    behind = sentence.text[draft.span.end - sentence.offset :]
    return bool(_cue(before, draft) or _DROP.search(before) or _AFTER_ALL.match(behind))


def _cue(before: str, draft: Draft) -> re.Match[str] | None:
    bare = draft.reason.code is ReasonCode.CORRECTED
    return _CUE.search(before) or (_BARE_NO.search(before) if bare else None)


def _correct(
    sentence: Sentence, near: Sequence[Draft], here: Sequence[Draft], gone: list[Draft], *, over: bool
) -> list[Draft]:
    """Apply the corrections that one sentence makes to what it says itself and to what was said not long before."""
    live = [*near, *here]
    for draft in here:
        if _at(live, draft) < 0:
            continue
        before = sentence.text[: draft.span.start - sentence.offset]
        cue = _cue(before, draft)
        earlier = None
        if cue:
            back = over or cue.start() < 4 or "can't" in cue.group()
            since = sentence.offset - 200 if back else sentence.offset
            earlier = _earlier(live, draft, since=since)
        if earlier is None and over:
            earlier = _earlier(live, draft, since=0)
        if earlier is not None:
            _replace(live, gone, earlier, draft)
            _drop_exclusions(live, gone, earlier)
            continue
        if _DROP.search(before) or (
            _AFTER_ALL.match(sentence.text[draft.span.end - sentence.offset :])
            and re.search(r"\b(?:no|not|the|scratch|forget|without)\b[\w\s]*\Z", before)
        ):
            same = [d for d in live if d is not draft and d.span.end <= draft.span.start and _same_thing(d, draft)]
            if same:
                for old in (*same, draft):
                    _take_out(live, old, gone)
    _not_but(live, sentence, gone)
    return live


def _at(live: Sequence[Draft], draft: Draft) -> int:
    """Return where a draft stands, looked for from the end; -1 when it is gone. Two may be equal, so not by value."""
    return next((n for n in range(len(live) - 1, -1, -1) if live[n] is draft), -1)


def _take_out(live: list[Draft], draft: Draft, gone: list[Draft]) -> None:
    del live[_at(live, draft)]
    gone.append(draft)


def _bare_numbers(sentence: Sentence, done: Sequence[Draft], here: Sequence[Draft]) -> list[Draft]:
    """ "4 locations?? no, 2": a bare number behind a cue counts what was counted before it."""
    free = [q for q in quantities(sentence.text) if sentence.is_free(q.start, q.end)]
    if not free:
        return []
    recent = done[_since(done, sentence.offset - 160) :]
    counts = [d for d in (*recent, *here) if isinstance(d.value, CountValue)]
    found: list[Draft] = []
    for quantity in free:
        if not _CUE.search(sentence.text[: quantity.start]) and not _BARE_NO.search(sentence.text[: quantity.start]):
            continue
        if not re.match(
            r"\s*(?:$|[,.;!?)]|now\b|is\b|in total|of them|then\b|please|not\b|max|will do|is fine|enough|"
            r"and\b|instead|-\s|would|should|she\b|he\b|they\b|we\b|because|as\b|cos\b|since)",
            sentence.text[quantity.end :],
        ):
            continue
        at = sentence.offset + quantity.start
        before = [d for d in (*counts, *found) if d.span.end <= at]
        if not before:
            continue
        old = before[-1]
        if not isinstance(old.value, CountValue):
            continue
        sentence.claim(quantity.start, quantity.end)
        words = sentence.text[quantity.start : quantity.end]
        found.append(
            Draft(
                DraftKind.COUNT,
                CountValue(old.value.of, quantity.minimum, quantity.maximum, quantity.approximate, old.value.per),
                sentence.span(quantity.start, quantity.end),
                sentence.line_no,
                Reason(ReasonCode.CORRECTED, (("number", words),)),
            )
        )
    return found


def _earlier(live: Sequence[Draft], draft: Draft, *, since: int) -> Draft | None:
    for earlier in reversed(live):
        if earlier.span.start < since:
            return None
        if earlier.span.end <= draft.span.start and _replaceable(earlier, draft):
            return earlier
    return None


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
    live[_at(live, new)] = replace(
        new, value=value, corrects=spans, reason=Reason(ReasonCode.CORRECTED, new.reason.params)
    )
    _take_out(live, old, gone)


def _drop_exclusions(live: list[Draft], gone: list[Draft], old: Draft) -> None:
    """Countries that were taken out of a territory go with it: "worldwide excl. US - no, just the UK"."""
    if not isinstance(old.value, TerritoryValue) or old.value.excluded:
        return
    excluded = [
        d
        for d in live
        if isinstance(d.value, TerritoryValue) and d.value.excluded and old.span.end <= d.span.start < old.span.end + 80
    ]
    for draft in excluded:
        _take_out(live, draft, gone)


def _not_but(live: list[Draft], sentence: Sentence, gone: list[Draft]) -> None:
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
            and _at(live, old) >= 0
            and _at(live, new) >= 0
        ):
            at = _at(live, old)
            _take_out(live, new, gone)
            live[at] = replace(old, corrects=(*old.corrects, Span(*new.span)))
