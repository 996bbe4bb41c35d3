"""Places to shoot at, and the permissions and hazards that places and acts bring with them."""

from __future__ import annotations

import re

from shoots.call.core.drafts import Draft, DraftKind, ImpliedValue, PlaceValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_AT = re.compile(
    r"\b(?:in|at|on|by|near|outside|inside|through|around|into|under|up|along|beside|behind|overlooking|above|below|across|round|location[s]?|loc|shoot(?:ing)?|shot|place|venue|"
    r"recce|hire|hiring|book(?:ed)?|access to|use|using|half|then|from|over|between|and|&|\+|or|backdrop|to)\b[\s:,-]*(?:(?:a|an|the|our|their|his|her|my|some|your|local|same|old|real|disused|empty|little|small|big|proper|nearby|that|this|client's|working|new|main|one|two|open|public|private)\s+)*(?:[\w'-]+\s+){0,2}\Z"
)
_TRADE = re.compile(
    r"\b(?:(?:a|an|small|local|family|indie|independent|little|family-run|they're|we're|we are|they are|run[s]? (?:a|the|an)|own[s]? (?:a|the|an)|owner of|own(?:s|ed)? by|brand|client(?: is)?(?: a)?|called|from|new|for|has (?:a|an)|with (?:a|an)|start(?:ed|ing)? (?:a|an)|chain of|opening (?:a|an|our|their)|boutique|craft|artisan|urban|micro|the|group of|sells? (?:to|in)|stocked in|suppl(?:y|ies)|two|three|four|\d+|second|of)\s+(?:(?:small|local|family|indie|new|independent|run|craft|second|third|own|design|little|tiny|old|boutique)[\s-]+)*)\Z"
)
_NO = re.compile(
    r"\b(?:no|not|without|never|don't|avoid|instead of|rather than|isn't|scratch|forget|away from|not (?:at|in|on|by|the|a)|can't use|won't use)(?: (?:at|in|on|by|the|a|an|any|our|their|another))*\s*\Z"
)
_FORWARD_NAME = re.compile(
    r"\s(?:in|near|at|outside|above|by|of|on)\s(?:the\s)?((?:[A-Z][\w'-]+)(?:\s[A-Z][\w'-]+){0,2})"
)
_BACK_NAME = re.compile(r"((?:[A-Z][\w'-]+\s){1,2})\Z")
_NOT_NAMES = re.compile(
    r"(?:Shoot|Location|Locations|The|At|In|On|By|June|July|May|March|April|August|Usage|Mon|Tue|Wed|Thu|Fri|Sat|Sun|Then|And|We|Half|Near|Place|Where|Old|Our|Their|New|No|Private|Public|Maybe|First|Second|One|Two|A|An|Day|UK|Our|Dark|Bright|Council|Location's|From|Up|Tower|Royal)\b"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], *, first_line: bool) -> list[Draft]:
    """Return the places of a sentence and what they and the acts named in it bring with them.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    first_line : bool
        Whether this is the first line, where a bare "bakery" is rather who calls.

    Returns
    -------
    list of Draft
        Drafts of kind `place`, `permission` and `hazard`.

    References
    ----------
    The usual caution: common practice, no source; data in ``lexicon/places.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("shoot on the beach").sentences[0]
    >>> [(d.kind.value, getattr(d.value, "code", "")) for d in read(line, package_lexicons().hits(line), first_line=False)]
    [('place', 'beach'), ('hazard', 'tide'), ('permission', 'landowner')]
    """
    drafts: list[Draft] = []
    text = sentence.text
    for hit in hits.get("place", ()):
        if not sentence.is_free(hit.start, hit.end) or _NO.search(text[: hit.start]):
            continue
        if _covered(hits, hit) or not _is_place(sentence, hit, first_line=first_line):
            continue
        code = str(hit.entry.data.get("as", hit.code))
        start, end = _with_name(sentence, hit)
        name = text[start:end].strip()
        reason = Reason(ReasonCode.PLACE_WORD, (("word", text[hit.start : hit.end]),))
        if hit.typo_of:
            reason = Reason(ReasonCode.MISTYPED, (("word", text[hit.start : hit.end]), ("meant", hit.typo_of)))
        drafts.append(
            Draft(
                DraftKind.PLACE,
                PlaceValue(name, code, str(hit.entry.data.get("whose", ""))),
                sentence.span(start, end),
                sentence.line_no,
                reason,
            )
        )
        drafts += _implied(sentence, hit, ReasonCode.PLACE_IMPLIES)
    for hit in hits.get("act", ()):
        if _NO.search(text[: hit.start]) or (hit.code in ("animals", "weather", "fire") and _covered(hits, hit)):
            continue
        drafts += _implied(sentence, hit, ReasonCode.ACT_IMPLIES)
    if sentence.topic == "location" and not any(d.kind is DraftKind.PLACE for d in drafts):
        drafts += _labelled(sentence)
    return drafts


def _covered(hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether longer words of another table say something else ("shop window", "garden room")."""
    return any(
        o.start <= hit.start and hit.end <= o.end and o.end - o.start > hit.end - hit.start
        for table in ("placement", "product", "shape", "person", "approve", "pay", "region", "countnoun", "colour")
        for o in hits.get(table, ())
    )


def _is_place(sentence: Sentence, hit: Hit, *, first_line: bool) -> bool:
    text = sentence.text
    if sentence.topic == "location":
        return True
    if sentence.topic in ("props", "usage", "products", "negatives", "mood") and not re.search(
        r"\b(?:shoot|shot|at|in)\b", text[: hit.start]
    ):
        return False
    before = text[: hit.start]
    if hit.entry.data.get("as") or hit.code in ("clients", "private_land"):
        return True
    prepositional = re.search(
        r"\b(?:in|at|on|by|near|outside|inside|through|around|into|along|beside|overlooking|above|across|under|up)\s+(?:(?:a|an|the|our|their|his|her|my|some|your|that|this)\s+)?(?:[\w'-]+\s+){0,2}\Z",
        before,
    )
    if prepositional and re.search(
        r"\b(?:sold|sells?|stock(?:ed|ists)?|available|seen|hang(?:ing)?|posters?|displayed|shelf|shelves|launch(?:ing)?|opening|works?|worked|job|going|eat|drink|lunch|meet(?:ing)?|drop (?:off )?|pick (?:it )?up|collect|listed|show(?:n)?)\b[^,;]*\Z",
        before[: prepositional.start() + 1],
    ):
        return False
    if prepositional:
        return True
    if _TRADE.search(before) and not re.search(
        r"\b(?:shoot|location|loc|place|hire|then|recce|and|book(?:ed)?|got|access)\b[^,;]*\Z", before
    ):
        clause = sentence.clause(hit.start, hit.end)
        if (
            re.search(r"\b(?:the|two|three|four|\d+|new)\s+(?:[\w-]+\s+)?\Z", before)
            and len(text[clause.start : clause.end].split()) <= 5
            and not first_line
            and not re.search(r"\b(?:a|an|small|local|family)\s+\Z", before)
        ):
            return True
        return False
    if _AT.search(before):
        return True
    clause = sentence.clause(hit.start, hit.end)
    words = text[clause.start : clause.end].split()
    leads = len(text[clause.start : hit.start].split()) <= 1
    return (len(words) <= 4 or leads) and not first_line


def _with_name(sentence: Sentence, hit: Hit) -> tuple[int, int]:
    start, end = hit.start, hit.end
    forward = _FORWARD_NAME.match(sentence.raw, end)
    if forward and not _NOT_NAMES.match(forward.group(1)):
        end = forward.end(1)
    back = _BACK_NAME.search(sentence.raw[:start])
    if back and not _NOT_NAMES.match(back.group(1)) and not sentence.raw.isupper() and back.start():
        start = back.start(1)
    return start, end


def _implied(sentence: Sentence, hit: Hit, code: ReasonCode) -> list[Draft]:
    words = sentence.text[hit.start : hit.end]
    reason = Reason(code, (("word", words),))
    span = sentence.span(hit.start, hit.end)
    drafts = [
        Draft(DraftKind.HAZARD, ImpliedValue(str(c), words), span, sentence.line_no, reason)
        for c in hit.entry.data.get("hazards", ())
    ]
    return drafts + [
        Draft(DraftKind.PERMISSION, ImpliedValue(str(c), words), span, sentence.line_no, reason)
        for c in hit.entry.data.get("permissions", ())
    ]


def _labelled(sentence: Sentence) -> list[Draft]:
    """A label "location:" makes whatever follows a place, unless it is a question or nothing is known yet."""
    text = sentence.text
    colon = re.match(r"[a-z ]{2,20}(?::|=|\s-)\s*", text)
    start = colon.end() if colon else 0
    rest = text[start:]
    if not re.search(r"[a-z]{3}", rest) or re.match(
        r"(?:tbc|tba|tbd|unknown|not sure|to be|any|open|no\b|\?|don't know|we find|you choose|ideas|need to find|\d+$|to confirm)",
        rest,
    ):
        return []
    piece = re.match(r"[^,;.?!(]+", rest)
    if not piece or len(piece.group().split()) > 7:
        return []
    end = start + len(piece.group().rstrip())
    return [
        Draft(
            DraftKind.PLACE,
            PlaceValue(text[start:end], "other"),
            sentence.span(start, end),
            sentence.line_no,
            Reason(ReasonCode.PLACE_WORD, (("word", text[start:end]),)),
        )
    ]
