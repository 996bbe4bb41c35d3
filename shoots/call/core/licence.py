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
    starts = next(iter(hits.get("starts", ())), None)
    start_word = starts.code.replace("_", " ") if starts else ""
    for hit in hits.get("licence", ()):
        short = "buy" in text[hit.start : hit.end] and any(0 <= hit.start - length.end <= 3 for length in found)
        if not short and not _NEGATED.search(text[: hit.start]):  # "2yr buyout" ends after two years
            words = (("word", text[hit.start : hit.end]),)
            value = LicenceValue(perpetual=True, starts=start_word)
            drafts.append(_draft(sentence, value, hit.start, hit.end, Reason(ReasonCode.FOR_EVER, words)))
    for length in found:
        if not _is_term(sentence, hits, length, about_use=about_use):
            continue
        sentence.claim(length.start, length.end)
        end = max(length.end, starts.end) if starts and 0 <= starts.start - length.end < 40 else length.end
        value = LicenceValue(months=length.months, starts=start_word, assumed=length.is_seasons)
        code = ReasonCode.SEASONS if length.is_seasons else ReasonCode.LENGTH_OF_USE
        params = (("words", length.text), ("months", f"{length.months.normalize():f}"))
        drafts.append(_draft(sentence, value, length.start, end, Reason(code, params)))
    if starts and not any(d.kind is DraftKind.LICENCE for d in drafts):
        words = (("word", text[starts.start : starts.end]),)
        value = LicenceValue(starts=start_word)
        drafts.append(_draft(sentence, value, starts.start, starts.end, Reason(ReasonCode.TRADE_WORD, words)))
    return drafts


def _draft(sentence: Sentence, value: LicenceValue, start: int, end: int, reason: Reason) -> Draft:
    span = sentence.span(start, end)
    return Draft(DraftKind.LICENCE, value, span, sentence.line_no, reason, confirm=value.assumed)


def _is_term(sentence: Sentence, hits: dict[str, list[Hit]], length: Length, *, about_use: bool) -> bool:
    text = sentence.text
    if _NOT_BEHIND.match(text, length.end):
        return False
    before = text[: length.start]
    if _NOT_BEFORE.search(before) and not _SAID_BEFORE.search(before):
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
    if _OTHER.search(around):
        return False
    if _USE.search(near) or hits.get("licence") or about_use:
        return True
    if any(
        hits.get(table) for table in ("placement", "region", "group", "allmedia", "starts", "exclusive")
    ) or _SAID.search(text):
        return True
    leads = text.strip(" .,;!?+").startswith(length.text.strip())
    if leads and re.match(r"\s?(?:from|starting|starts|beginning)\b", text[length.end :]):
        return True
    return len(sentence.words) <= 4 and text.strip(" .,;!?+").startswith(length.text.strip())
