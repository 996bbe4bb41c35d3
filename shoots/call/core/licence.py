"""For how long the pictures may be used, and from when."""

from __future__ import annotations

import re

from shoots.call.core import exclusivity, lengths
from shoots.call.core.drafts import Draft, DraftKind, LicenceValue, Reason, ReasonCode
from shoots.call.core.lengths import Length
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_USE = re.compile(
    r"\b(?:usage|use|uses|used|using|licen[cs]e[ds]?|licensing|rights|buy-?out|term|territor(?:y|ies)|media|"
    r"renew(?:al)?|run|runs|"
    r"running|worldwide|global|globally|europe|emea|dach|uk|eu|social|ooh|web|website|online|press|pos|"
    r"packaging|campaign|digital|"
    r"exclusiv\w*|perpetuity|from first|from launch|from delivery|all channels|live for|broadcast|tv)\b"
)
_SAID = re.compile(r"\b(?:usage|use|used|licen[cs]e[ds]?|rights|term|buy-?out)\b")
_OTHER = re.compile(
    r"\b(?:old|age[ds]?|ago|experience|warranty|guarantee|turn\s?around|notice|working|business|trading|"
    r"anniversary|shoot(?:ing)?|prep|"
    r"in advance|before|later|after|pregnant|lead time|shelf life|mature[ds]?|aged|payment|per|every|each|"
    r"this|next|last|once a|"
    r"twice a|times a|been|since|edit(?:ing)?|retouch(?:ing)?|day rate|half|retainer|from now|from today|"
    r"apart|younger|older|second)\b"
)
_NOT_BEHIND = re.compile(
    r"\s?(?:-| )?old\b|\s?ago\b|\s?'?s? (?:notice|experience|turnaround|warranty|guarantee|shoot|prep|younger|"
    r"older|of age|of trading)\b"
)
_NOT_BEFORE = re.compile(
    r"\b(?:in|within|every|last|past|this|next|per|after|nearly|about|over|been|for the (?:last|past)|once|"
    r"twice|times|ages|she's|he's|"
    r"they're|it's|is|are|for nearly|took|takes|another)\s*\Z"
)
_SAID_BEFORE = re.compile(r"\b(?:usage|licen[cs]e|term|rights|use)\W+(?:is|are|of|about|over|for)?\s*\Z")
#: "used over the next three years".
_AHEAD = re.compile(r"\b(?:for|over|during|in|within) the next\s\Z")
_SHORT_TERM = re.compile(r"\b(?:usage|use|licen[cs]e|rights|run|runs|running|buyout|burst|flight|live)\b")
_NEGATED = re.compile(
    r"\b(?:no|not|never|don't (?:need|want|do)|without|isn't|wasn't|we don't|can't|won't)"
    r"(?: (?:a|an|in|the|any|be|full|total|give|offer|do|need|sell))*\s*\Z"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], *, about_use: bool = False) -> list[Draft]:
    """Return the terms of use in a sentence and the exclusivity that goes with them.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    about_use : bool
        Whether the sentences before it on its line were about where the pictures are used.

    Returns
    -------
    list of Draft
        Drafts of kind `licence` and `exclusivity`. A length is a licence only beside a word of use, a placement or a
        territory, behind a sentence about them, on its own, or under a label for it.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("UK use for 18 mths from first use").sentences[0]
    >>> [(d.value.months, d.value.starts) for d in read(line, package_lexicons().hits(line))]
    [(Decimal('18'), 'first use')]
    """
    text = sentence.text
    found = lengths.find(sentence)
    drafts = exclusivity.read(sentence, hits, found)
    start_word, begins, ends = _start_said(sentence, hits)
    for hit in hits.get("licence", ()):
        short = "buy" in text[hit.start : hit.end] and any(0 <= hit.start - length.end <= 3 for length in found)
        if not short and not _NEGATED.search(text[: hit.start]):  # "2yr buyout" ends after two years
            words = (("word", text[hit.start : hit.end]),)
            value = LicenceValue(perpetual=True, starts=start_word)
            drafts.append(_draft(sentence, value, hit.start, hit.end, Reason(ReasonCode.FOR_EVER, words)))
    for length in found:
        if not _is_term(sentence, hits, length, about_use=about_use) or _of_exclusivity(text, found, length):
            continue
        sentence.claim(length.start, length.end)
        end = max(length.end, ends) if start_word and 0 <= begins - length.end < 40 else length.end
        value = LicenceValue(months=length.months, starts=start_word, assumed=length.is_seasons)
        code = ReasonCode.SEASONS if length.is_seasons else ReasonCode.LENGTH_OF_USE
        params = (("words", length.text), ("months", f"{length.months.normalize():f}"))
        drafts.append(_draft(sentence, value, length.start, end, Reason(code, params)))
    alone = start_word and (
        about_use or sentence.topic in ("term", "usage") or len(sentence.words) <= 5 or _USE.search(text)
    )
    if alone and not any(d.kind is DraftKind.LICENCE for d in drafts):
        words = (("word", text[begins:ends]),)
        value = LicenceValue(starts=start_word)
        drafts.append(_draft(sentence, value, begins, ends, Reason(ReasonCode.TRADE_WORD, words)))
    return drafts


_BEGINS = (
    r"(?:from|fr|frm|ex|starting|starts?|beginning|begins?|commencing|counting|as of|as from|ab|after|when|once|with)\b"
    r"(?: (?:from|at|on|with|when|once|the|their|our|its|date of|day of|they|it|she|he|we|product|site|website|"
    r"campaign|big|"
    r"der|dem|date|day)\b){0,4} "
)
_STARTS = (
    ("launch", re.compile(_BEGINS + r"(?:re)?(?:launch\w*|release[ds]?|markteinfuhrung)\b")),
    ("delivery", re.compile(_BEGINS + r"(?:deliver\w*|hand-?over|receipt|lieferung|ubergabe|abgabe)\b")),
    (
        "first use",
        re.compile(
            _BEGINS
            + r"(?:(?:first|1st|initial) (?:use|usage|publication|appearance|insertion|posting|post|broadcast|airing)|"
            r"publication|veroffentlichung|erstveroffentlichung|erster nutzung|going live)\b"
        ),
    ),
)


#: Without one of these nothing begins; only a quick way out.
_ANY_START = re.compile(
    r"launch|releas|deliver|hand-?over|receipt|first|1st|initial|publication|veroff|lieferung|abgabe|uberg|going live"
)


def _start_said(sentence: Sentence, hits: dict[str, list[Hit]]) -> tuple[str, int, int]:
    """Return what use begins with, and the span of the words that say so; empty when nothing does."""
    if hit := next(iter(hits.get("starts", ())), None):
        return hit.code.replace("_", " "), hit.start, hit.end
    for word, pattern in _STARTS if _ANY_START.search(sentence.text) else ():
        if match := pattern.search(sentence.text):
            return word, match.start(), match.end()
    return "", 0, 0


_EXCLUSIVE = re.compile(
    r"\b(?:excl?\.?|exclu\w*|not for other|no other|nobody else|no one else|no competing|sole)(?!\w)[^;.]*\Z"
)


def _of_exclusivity(text: str, found: list[Length], length: Length) -> bool:
    """Return whether a length behind that of the use says how long nobody else may use the pictures."""
    earlier = [other for other in found if other.end <= length.start]
    return bool(earlier) and bool(_EXCLUSIVE.search(text, earlier[-1].end, length.start))


def _draft(sentence: Sentence, value: LicenceValue, start: int, end: int, reason: Reason) -> Draft:
    span = sentence.span(start, end)
    return Draft(DraftKind.LICENCE, value, span, sentence.line_no, reason, confirm=value.assumed)


def _is_term(sentence: Sentence, hits: dict[str, list[Hit]], length: Length, *, about_use: bool) -> bool:
    text = sentence.text
    if _NOT_BEHIND.match(text, length.end):
        return False
    before = text[: length.start]
    ahead = _AHEAD.search(before) and (about_use or _SAID.search(text))
    if _NOT_BEFORE.search(before) and not _SAID_BEFORE.search(before) and not ahead:
        return False
    clause = sentence.clause(length.start, length.end)
    near = text[clause.start : clause.end]
    if length.unit in ("m", "y") and not (sentence.topic in ("term", "usage") or about_use or _USE.search(text)):
        return False
    if length.unit[0] in "dw" and not _SHORT_TERM.search(near):
        return False
    if sentence.topic in ("usage", "term", "territory", "exclusivity"):
        return True
    around = text[max(0, length.start - 14) : length.start] + "|" + text[length.end : length.end + 16]
    if _OTHER.search(around) and not ahead:
        return False
    if _USE.search(near) or hits.get("licence") or about_use:
        return True
    if any(
        hits.get(table) for table in ("placement", "region", "group", "allmedia", "starts", "exclusive")
    ) or _SAID.search(text):
        return True
    leads = text.strip(" .,;!?+").startswith(length.text.strip())
    if leads and re.match(r"\s?,?\s?(?:from|starting|starts|beginning)\b", text[length.end :]):
        return True
    return len(sentence.words) <= 4 and text.strip(" .,;!?+").startswith(length.text.strip())
