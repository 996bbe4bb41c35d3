"""What is not wanted, in the words of the notes."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.drafts import Draft, DraftKind, Reason, ReasonCode, TextValue
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence, Span

_STOP = re.compile(
    r",(?!\d)|;|\s-\s|\s/\s|[()\[\]]|\?+|!+|\.(?=\s|$)|\+|\s(?=(?:no|kein|keine) [a-z]{3})|"
    r"\b(?:but|because|so that|though|however|instead|please|pls|since|then|cos|coz|rather|just(?! for)|"
    r"only(?= \w)|as (?:it|they|she|he|we|the)|"
    r"and (?:don't|dont|nobody|no one|never|nothing|"
    r"we|they|she|he|the client|it|need|want|please|make|keep|shoot|use|budget|deliver|usage|let|can|"
    r"could|plenty|lots))\b"
)
_START = re.compile(
    r",(?!\d)\s*|;\s*|\s-\s|[()\[\]]\s*|\?+\s*|!+\s*|\bbut\s|\bplus\s|\s\+\s|\.\s+|:\s|\balso\s|\bthen\s"
)
#: "I have no car that week": what somebody lacks, nothing to be left out.
_LACKS = re.compile(
    r"\b(?:i|we|they|she|he|you|it)(?:'ve| have| has| had|'s got|'d)(?: got)?\s\Z|\bthere(?:'s| is| was| are)\s\Z"
)
#: "no lunch break needed", "no website yet", "don't shoot on Sundays".
_NOT_NOW = re.compile(
    r".*\b(?:needed|required|necessary|for now|so far|booked|planned|arranged|involved)|"
    r"no (?:other|further|extra) (?:usage|use|uses|rights|media|markets?|countries)\b.*|"
    r"don't (?:shoot|open|work|do|use) on (?:mon|tues|wednes|thurs|fri|satur|sun)days?.*"
)
#: "Keep logos of the grinder out": what stands between is not wanted.
_KEEP_OUT = re.compile(
    r"\b(?:keep|leave) (?!out\b|it\b|them\b|the lot\b)(?P<what>[a-z][^,.;!?]{2,48}?) out\b"
    r"(?: of (?:shot|frame|sight|view|it|the (?:pictures?|pics|shot|frame|background)))?"
)
#: "won't be in town", "hates it": about a person, not about pictures.
_OF_A_PERSON = re.compile(
    r".*\bwon't be in (?:it|them|any of|town|the office|until|till|touch|before|on|at|for|the country|\d).*|"
    r"hates? (?:it|this|that)\b.{0,12}|hates? being\b.*|(?:nobody|no one)\b.* anyway|"
    r"(?:nobody|no one) (?:pays|knows|minds|cares)\b.*"
)
#: "- not the covers of other books": at the beginning it corrects nothing.
_NOT_THE = re.compile(
    r"not the (?!\d|week|month|year|same|mon|tue|wed|thu|fri|sat|sun|best|worst|first|last|only|one\b)[a-z]{3,}"
)
_NOT_A_THING = re.compile(r"\s*(?:$|,|-|\.|\?|!|\d|(?:two|three|four|five|six|seven|eight|nine|ten|one|twelve)\b)")
_MINE = re.compile(
    r"\b(?:i'm|i am|we're|we are|i'd|i|that's|it's|he's|she's|they're|is|are|was|were|there's|there is|got|"
    r"has|have)\s*\Z"
)
#: A name or slogan: 'new campaign - "no excuses"'.
_QUOTED = re.compile(
    r"\b(?:campaign|called|titled?|title|slogan|strapline|tagline|named|line|headline)\b[^\"]{0,16}\"(?:[^\"]* )?\Z"
)
_DAY_KINDS = (DraftKind.DATE, DraftKind.MONEY, DraftKind.LICENCE, DraftKind.TERRITORY)


def read(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """Return what a sentence says is not wanted.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    drafts : sequence of Draft
        What was read from it; excluded countries and days off are no negatives.

    Returns
    -------
    list of Draft
        Drafts of kind `negative`.

    References
    ----------
    Own rules, see tests; words in ``lexicon/hedges.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("no tripods on the track, not smiling").sentences[0]
    >>> [d.value.text for d in read(line, package_lexicons().hits(line), ())]
    ['no tripods on the track', 'not smiling']
    """
    text = sentence.text
    spans = items(sentence) if sentence.topic == "negatives" else []
    for hit in hits.get("negation", ()):
        listed = bool(spans) and hit.start < spans[0].end
        if listed or any(span.start <= hit.start < span.end for span in spans) or _is_idiom(sentence, hits, hit):
            continue
        stop = _STOP.search(text, hit.end)
        start, end = hit.start, stop.start() if stop else len(text)
        if hit.code == "clause":
            starts = [m.end() for m in _START.finditer(text, 0, hit.start)]
            start = starts[-1] if starts else 0
        elif _NOT_A_THING.match(text, hit.end) or not text[hit.end : end].strip():
            continue
        words = text[start:end].strip(" .,")
        if not _OF_A_PERSON.fullmatch(words) and not _NOT_NOW.fullmatch(words):
            spans.append(Span(start, end))
    if " out" in text:
        spans += [Span(m.start(), m.end()) for m in _KEEP_OUT.finditer(text)]
    found = []
    for span in spans:
        if (draft := _draft(sentence, span, drafts)) is not None:
            found.append(draft)
    return found


def items(sentence: Sentence) -> list[Span]:
    """Return the items of a list that stands under a label.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.

    Returns
    -------
    list of Span
        Positions in the sentence, the label left out.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("avoid: logos, phones", str).sentences[0]
    >>> [line.text[a:b] for a, b in items(line)]
    ['logos', ' phones']
    """
    text = sentence.text
    label = re.match(r"[a-z][a-z' -]{1,24}?\s*(?::|=|\s-|\s\||\s{2,})\s*", text)
    start = label.end() if label else 0
    return [
        Span(start + piece.start(), start + piece.end())
        for piece in re.finditer(r"(?:[^,;/]|/(?=\S)|(?<=\S)/)+", text[start:])
        if re.search(r"[a-z]{3}", piece.group())
    ]


def _is_idiom(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether the words only look like a negative: "no rush", "not sure", "I'm not going in"."""
    if any(other.start == hit.start for other in hits.get("negative", ())):
        return False
    if not sentence.text[: hit.start].strip(" -*") and _NOT_THE.match(sentence.text, hit.start):
        return False
    if any(other.start == hit.start and other.end > hit.end for other in hits.get("nonegative", ())):
        return True
    if _QUOTED.search(sentence.text[: hit.start]):
        return True
    word = sentence.text[hit.start : hit.end]
    if word == "no" and _LACKS.search(sentence.text[: hit.start]):
        return True
    if word.startswith(("don't", "dont")) and sentence.text[: hit.start].endswith("i "):
        return True
    return word == "not" and bool(_MINE.search(sentence.text[: hit.start]))


def _draft(sentence: Sentence, span: Span, drafts: Sequence[Draft]) -> Draft | None:
    raw = sentence.text[span.start : span.end]
    words = raw.strip(" ,.;-:")
    labelled = sentence.topic == "negatives"
    if len(words) < 4 or (len(words.split()) < 2 and not labelled):
        return None
    at = sentence.span(span.start, span.end)
    inside = [d for d in drafts if at.start <= d.span.start and d.span.end <= at.end + 1]
    if not labelled and any(d.kind in _DAY_KINDS for d in inside):
        return None
    if not labelled and any(
        d.kind is DraftKind.EXCLUSIVITY and d.span.end - d.span.start > 0.6 * len(words) for d in inside
    ):
        return None
    start = span.start + len(raw) - len(raw.lstrip(" ,.;-:"))
    reason = Reason(ReasonCode.NOT_WANTED, (("words", words),))
    place = sentence.span(start, start + len(words))
    return Draft(DraftKind.NEGATIVE, TextValue(words), place, sentence.line_no, reason)
