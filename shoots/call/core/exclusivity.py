"""Whether the pictures are for one client alone, in what line of business, and for how long."""

from __future__ import annotations

import re

from shoots.call.core.drafts import Draft, DraftKind, ExclusivityValue, Reason, ReasonCode
from shoots.call.core.lengths import Length
from shoots.call.core.lexicons import Entry, Hit
from shoots.call.core.spans import Sentence

_JOINED = re.compile(
    r"[\s:-]*(?:\b(?:of|category|sector|industry|for|full|exclusivity|exclusive|in|the|their|our|all|other|"
    r"rival|competing)\b[\s-]*|"
    r"in (?:the |their )?[\w ]{0,24}\s|(?:[a-z]+[\s-]+){1,3})?(?:for |of )?\s*"
)
_BROKEN = re.compile(r"[,;.()]|\b(?:usage|use|licen[cs]e|rights|then|delivery|budget)\b")
#: "exclusive: no", "exclusivity not needed".
_DENIED = re.compile(
    r"\s?[:=?-]*\s?(?:no|nope|none|n/a)\b\s*(?:$|[,.;!)?]|thanks|need)|\s(?:is |isn't |was )?(?:not )?(?<=not )"
    r"(?:needed|required|wanted|necessary|asked)|\s(?:isn't|wasn't) (?:needed|required|wanted|necessary)"
)
_LAST = re.compile(r"\s*(?:$|[.;)!?]|from\b|please\b|max\b|only\b)")
_SCOPE = re.compile(
    r"\s*(?:in|within|for|across) (?:the |their |our )?([a-z][a-z &-]{2,40}?)(?= (?:for|from|sector|category|"
    r"market|only)\b|[,.;)]|\s*$| \d)"
)
_USE = re.compile(r"\b(?:usage|use|used|licen[cs]e|rights|term)\b")


#: "No other gym may use them", "don't sell them to rivals": exclusive in other words.
_OTHERS = re.compile(
    r"\b(?:no|not any) (?:other|rival|competing) [a-z]+ (?:may|can|is to|should|must|gets? to|is allowed to) "
    r"(?:use|have|show)\b|"
    r"\b(?:don't|do not|not to|never|can't|won't|must not|mustn't|not) (?:be )?(?:sell|sold|licen[cs]ed?|offer|offered|"
    r"give|given|passed) (?:them |it |the pics |the pictures |the images |any )?(?:on )?to (?:rivals?|competitors?|"
    r"others|anyone else|anybody else|other [a-z]+)|"
    r"\bexcl\.? (?!vat|gst|hst|tax|usa?\b|the\b|mwst|expenses)[a-z]+(?= \d{1,2}\s?(?:mths?|months?|m\b|yrs?|years?))"
)
#: Without one of these no other words for it; only a quick way out.
_HINTS = ("other", "rival", "compet", "sell", "sold", "licen", "excl", "anyone", "anybody")
_OTHER = Entry("exclusive", "yes", (), {})


def read(sentence: Sentence, hits: dict[str, list[Hit]], lengths: list[Length]) -> list[Draft]:
    """Return what a sentence says about exclusivity, and claim the length that belongs to it.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    lengths : list of Length
        Lengths of time in it; those that belong to exclusivity are taken out.

    Returns
    -------
    list of Draft
        Drafts of kind `exclusivity`.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core import lengths
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("exclusivity 6 months in cycling").sentences[0]
    >>> draft = read(line, package_lexicons().hits(line), lengths.find(line))[0]
    >>> (draft.value.exclusive, str(draft.value.months))
    (True, '6')
    """
    no = [hit for hit in hits.get("exclusive", ()) if hit.code == "no"]
    yes = [
        hit
        for hit in hits.get("exclusive", ())
        if hit.code == "yes" and not any(hit.start < other.end and other.start < hit.end for other in no)
    ]
    yes += [
        Hit(_OTHER, m.start(), m.end(), 0, 0)
        for m in (_OTHERS.finditer(sentence.text) if any(word in sentence.text for word in _HINTS) else ())
        if not any(m.start() < hit.end and hit.start < m.end() for hit in (*no, *yes))
    ]
    drafts = []
    for hit in sorted((*no, *yes), key=lambda phrase: phrase.start):
        words = sentence.text[hit.start : hit.end]
        start, end, term = hit.start, hit.end, None
        mine = _length_of(sentence, hits, hit, lengths) if hit.code == "yes" else None
        if mine is not None:
            lengths.remove(mine)
            sentence.claim(mine.start, mine.end)
            start, end, term = min(start, mine.start), max(end, mine.end), mine.months
        denied = hit.code == "yes" and bool(_DENIED.match(sentence.text, hit.end))
        value = ExclusivityValue(hit.code == "yes" and not denied, _scope(sentence.text, hit), term)
        reason = Reason(ReasonCode.TRADE_WORD, (("word", words),))
        drafts.append(Draft(DraftKind.EXCLUSIVITY, value, sentence.span(start, end), sentence.line_no, reason))
    return drafts


def _length_of(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, lengths: list[Length]) -> Length | None:
    text = sentence.text
    for length in sorted(lengths, key=lambda other: max(other.start - hit.end, hit.start - other.end)):
        behind = length.start >= hit.end
        gap = text[hit.end : length.start] if behind else text[length.end : hit.start]
        alone = gap.strip() == "," and not any(hits.get(table) for table in ("placement", "region", "group"))
        if alone and behind and _LAST.match(text, length.end):
            return length  # "category exclusivity, a year"
        if len(gap) > 48 or _BROKEN.search(gap):
            continue
        if behind or _JOINED.fullmatch(gap):
            return length
    leads = not text[: hit.start].strip(" -*") and len(lengths) == 1 and not _USE.search(text)
    if (sentence.topic == "exclusivity" or leads) and len(lengths) == 1:
        return lengths[0]
    return None


def _scope(text: str, hit: Hit) -> str:
    said = text[hit.start : hit.end]
    end = hit.end - (4 if said.endswith(" for") else 3 if said.endswith(" in") else 0)
    if sector := _SCOPE.match(text, end):
        return sector.group(1).strip()
    if before := re.search(r"\b(category|sector|industry)[ -]*\Z", text[: hit.start]):
        return before.group(1)
    words = text[hit.start : hit.end]
    return next(
        (word for word in ("category", "sector", "industry", "competitors", "other", "rival") if word in words), ""
    )
