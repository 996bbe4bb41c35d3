"""What else a client says: room for words, framings, who signs off and who pays, the job of last year."""

from __future__ import annotations

import re

from shoots.call.core.drafts import CopySpaceValue, Draft, DraftKind, Reason, ReasonCode, TextValue
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_ROOM = re.compile(
    r"\b(?:(?:leave|leaving|keep|need(?:s)?|want(?:s)?|with|have|allow|give|lots of|plenty of|some|enough|"
    r"clear|space|room|gap)\s+(?:us\s|me\s|them\s|a\s|some\s|plenty of\s|lots of\s|loads of\s|enough\s|"
    r"clear\s|clean\s|empty\s|blank\s|negative\s|the\s|more\s|bit of\s|good\s|decent\s)*)?"
    r"(?:copy[ -]?space|negative space|text space|white space|dead space|clear space|empty space|space|room|"
    r"gap|air|clear area|clean area|blank area|(?:the )?(?:top|bottom|left|right|upper|lower|sky)(?: (?:left|"
    r"right|third|half|corner|hand side|part))* (?:clear|empty|free|clean))\b"
)
_POSITION = re.compile(
    r"\b(?:(?:top|bottom|upper|lower|mid(?:dle)?|centre|left|right)(?:[ -](?:hand(?: side)?|left|right|third|"
    r"half|corner|centre|quarter|two thirds|part))*|above(?: the \w+)?|below|either side|both sides|round the "
    r"edges?|one side|at the side|sky|(?:on )?(?:the )?(?:left|right)(?:-hand)?(?: side)?|on one side|all "
    r"round)\b"
)
_PURPOSE = re.compile(
    r"\b(?:for|to (?:put|drop|take|add|fit)(?: in| on)?|to hold|where)\s+(?:the |a |an |our |their |some |his "
    r"|her )?(?P<what>strap ?lines?|tag ?lines?|head ?lines?|text|copy|logos?|titles?|type|words|price(?:s| "
    r"flash)?|offers?|buttons?|cta|wording|quotes?|recipes?|mastheads?|lettering|captions?|menus?|call to "
    r"action|overlays?|name|graphics?|info|dates?|lock-?up|copy line|slogan|packshot)\b"
)
_PURPOSE_DIRECT = re.compile(
    r"\b(?P<what>text|copy|logo|headline|title|strapline|type)[ -](?:space|room|area|safe area|safe)\b"
)
_REFERENCE = re.compile(
    r"\b(?:(?:like|as|same as|similar to|based on|following|refer to|match(?:ing)?|repeat of|rerun of|same "
    r"again as|more of|follow-?up to|follow on from|carry on from|continuation of|as per)\s+(?:we did\s|on\s|"
    r"in\s|the\s|what we did\s|our\s|their\s|those from\s|the ones from\s|with\s)*)?"
    r"(?:last (?:year|time|season|summer|spring|autumn|winter|job|shoot|christmas|xmas|"
    r"campaign)(?:'s)?(?:\s(?:job|shoot|pics|pictures|images|one|set|campaign|range|lot|look|style|setup|"
    r"brief))?|(?:the |our )?previous (?:job|shoot|one|set|campaign)|(?:the )?20(?:1\d|2[0-5]) (?:job|shoot|"
    r"campaign|set|pics|pictures|images)|same (?:again|as before)|as before)\b"
)
_WHO = re.compile(
    r"(?P<who>(?:(?:the|our|her|his|their|my|client's|founder's|"
    r"owner's)\s+)?(?:[\w&'-]+\s+){0,2}?[\w&'-]+?(?:\s\([^)]{1,24}\))?)\s*(?:[,=]\s*)?(?:only |always |then |"
    r"also |who |has to |must |needs to |will |is the one who |is |ultimately |really )*\Z"
)
_NAMED_IN_BRACKETS = re.compile(r"\b(?P<who>[a-z'-]{3,}(?: [a-z'-]{3,})?) \([^()]{1,24}\)\s*\Z")
_AFTER_WHO = re.compile(
    r"\s*(?:[:=-]|is|=|with|from|by|to|goes to|comes from)*\s*(?P<who>(?:(?:the|our|her|his|their|"
    r"my)\s+)?[\w&'][\w&'-]*(?:\s(?:and|&)\s(?:the |her |his )?[\w'-]+|\s(?!(?:on|and|before|by|then|at|so|"
    r"but|within|in|for|not|after|who|which|please|only|with|via|this|next|if)\b)[\w&'-]+){0,2})"
)
#: A label for who pays on the line of who approves ("sign off: brand mgr. invoice: head office").
_BILL = re.compile(r"\s*(?:invoices?|billing|bill|payer|paid by|pays)(?: to)?\s?[:=]")
_FRONT = re.compile(
    r"(?:from|by|to|with|is|via|holder)\Z|(?:bill|invoice|approval|sign-?off|billing|approves?:|po from)\Z"
)
_NOBODY = frozenset(
    {
        "and", "but", "so", "then", "who", "which", "that", "it", "they", "we", "also", "only", "to", "or", "she",
        "he", "i", "needs", "must", "will", "be", "has", "everyone", "nobody", "not", "no", "someone", "final",
        "they'll", "still", "don't", "doesn't", "if", "when", "once", "until", "after", "before", "for", "of", "a",
        "can", "could", "would", "should", "may", "might", "can't", "won't",
        "client", "client's", "pics", "images", "finals", "us", "you", "agency's", "within", "days",
    }
)  # fmt: skip


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return what a sentence says about room for words, framing, approval, payment and earlier jobs.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

    Returns
    -------
    list of Draft
        Drafts of kind `copy_space`, `framing`, `approver`, `payer` and `reference`; names of people are claimed.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("the founder signs off, her brother holds the purse").sentences[0]
    >>> [(d.kind.value, d.value.text) for d in read(line, package_lexicons().hits(line))]
    [('approver', 'the founder'), ('payer', 'her brother')]
    """
    drafts = _copy_space(sentence)
    for hit in hits.get("framing", ()):
        words = sentence.text[hit.start : hit.end]
        drafts.append(
            Draft(
                DraftKind.FRAMING,
                TextValue(hit.code),
                sentence.span(hit.start, hit.end),
                sentence.line_no,
                Reason(ReasonCode.TRADE_WORD, (("word", words),)),
            )
        )
    for table, kind, reason in (
        ("approve", DraftKind.APPROVER, ReasonCode.SIGNS_OFF),
        ("pay", DraftKind.PAYER, ReasonCode.PAYS),
    ):
        for hit in hits.get(table, ()):
            if draft := _role(sentence, hit, kind, reason):
                drafts.append(draft)
                sentence.claim(draft.span.start - sentence.offset, draft.span.end - sentence.offset)
        if sentence.topic == "approver" and _BILL.match(sentence.text):
            if kind is DraftKind.PAYER and not any(d.kind is kind for d in drafts):
                drafts += _labelled(sentence, kind, reason)
            continue
        elsewhere = (
            kind is DraftKind.APPROVER
            and sentence.topic == "approver"
            and (hits.get("pay") or not sentence.text.strip())
        )
        if elsewhere:
            continue
        if sentence.topic == table.replace("approve", "approver").replace("pay", "payer").replace(
            "payerer", "payer"
        ) and not any(d.kind in (DraftKind.APPROVER, DraftKind.PAYER) for d in drafts):
            drafts += _labelled(sentence, kind, reason)
    drafts += _who_also(sentence, hits, drafts)
    for match in _REFERENCE.finditer(sentence.text):
        drafts.append(
            Draft(
                DraftKind.REFERENCE,
                TextValue(match.group()),
                sentence.span(match.start(), match.end()),
                sentence.line_no,
                Reason(ReasonCode.LAST_YEAR, (("words", match.group()),)),
            )
        )
    return drafts


def _who_also(sentence: Sentence, hits: dict[str, list[Hit]], drafts: list[Draft]) -> list[Draft]:
    """ "Paid by the board, who also sign off": the one named just before does the other thing as well."""
    named = [d for d in drafts if d.kind in (DraftKind.APPROVER, DraftKind.PAYER)]
    if len(named) != 1:
        return []
    other = DraftKind.PAYER if named[0].kind is DraftKind.APPROVER else DraftKind.APPROVER
    table, code = ("pay", ReasonCode.PAYS) if other is DraftKind.PAYER else ("approve", ReasonCode.SIGNS_OFF)
    for hit in hits.get(table, ()):
        if re.search(r"\bwho (?:also |always |then )?\Z|\b(?:and|also) (?:also )?\Z", sentence.text[: hit.start]):
            reason = Reason(code, (("word", sentence.text[hit.start : hit.end]),))
            return [Draft(other, named[0].value, sentence.span(hit.start, hit.end), sentence.line_no, reason)]
    return []


def _copy_space(sentence: Sentence) -> list[Draft]:
    drafts: list[Draft] = []
    text = sentence.text
    for match in _ROOM.finditer(text):
        clause_end = re.search(r"[.;]|,(?! (?:top|bottom|left|right|for))", text[match.end() :])
        until = match.end() + clause_end.start() if clause_end else len(text)
        position = _POSITION.search(text, match.start(), until)
        purpose = _PURPOSE.search(text, match.end(), until) or _PURPOSE_DIRECT.search(text, match.start(), until)
        words = match.group()
        sure = re.search(r"copy[ -]?space|negative space|text space|(?:clear|empty|free|clean)\Z", words)
        if not (sure or purpose) or re.search(
            r"\b(?:studio|meeting|changing|living|dining|class|bed|bath|hotel|show|tea|tap|board)\s*room\b", words
        ):
            continue
        if drafts and drafts[-1].span.end > sentence.offset + match.start():
            continue
        end = max(m.end() for m in (match, position, purpose) if m)
        start = min(match.start(), position.start() if position else match.start())
        drafts.append(
            Draft(
                DraftKind.COPY_SPACE,
                CopySpaceValue(position.group() if position else "", purpose["what"] if purpose else ""),
                sentence.span(start, end),
                sentence.line_no,
                Reason(ReasonCode.ROOM_FOR_TEXT, (("words", text[start:end]),)),
            )
        )
    return drafts


def _role(sentence: Sentence, hit: Hit, kind: DraftKind, code: ReasonCode) -> Draft | None:
    text = sentence.text
    words = text[hit.start : hit.end]
    clause = sentence.clause(hit.start, hit.end)
    if _FRONT.search(words):
        match = _AFTER_WHO.match(text, hit.end)
        if match and match["who"].split()[0] not in _NOBODY:
            start, end = match.start("who"), match.end("who")
            return Draft(
                kind,
                TextValue(_as_typed(sentence, start, end).strip()),
                sentence.span(hit.start, end),
                sentence.line_no,
                Reason(code, (("word", words),)),
            )
    before = text[clause.start : hit.start]
    if not before.strip() and (named := _NAMED_IN_BRACKETS.search(text[: hit.start])):
        at = named.start("who")
        reason = Reason(code, (("word", words),))
        return Draft(
            kind,
            TextValue(_as_typed(sentence, at, named.end("who"))),
            sentence.span(at, hit.end),
            sentence.line_no,
            reason,
        )
    match = _WHO.search(before)
    who = match["who"].strip() if match else ""
    tokens = who.split()
    while tokens and tokens[0] in _NOBODY - {"a"}:
        tokens.pop(0)
    while tokens and tokens[-1] in _NOBODY:
        tokens.pop()
    if not tokens or not match:
        return None
    who = " ".join(tokens)
    at = clause.start + before.find(who)
    if at < clause.start:
        return None
    typed = _as_typed(sentence, at, at + len(who)) if text[at : at + len(who)] == who else who
    return Draft(kind, TextValue(typed), sentence.span(at, hit.end), sentence.line_no, Reason(code, (("word", words),)))


def _as_typed(sentence: Sentence, start: int, end: int) -> str:
    """Return words with the capitals of names ("her brother Col"); a first word in capitals only opens the line."""
    if sentence.raw.isupper():
        return sentence.text[start:end]
    raw = sentence.raw[start:end]
    words = raw.split(" ", 1)
    opens = not sentence.text[:start].strip(" -*") and words[0].lower() in ("the", "her", "his", "their", "our", "my")
    return raw[:1].lower() + raw[1:] if opens else raw


def _labelled(sentence: Sentence, kind: DraftKind, code: ReasonCode) -> list[Draft]:
    label = re.match(r"\s*[a-z][a-z &/'-]{1,24}?\s*(?::|=|\s-)\s*", sentence.text)
    start = label.end() if label else 0
    piece = re.match(r"[^,;.?!(]{2,40}(?:\([a-z' -]{2,24}\))?", sentence.text[start:])
    if not piece or re.match(r"\s*(?:tbc|tba|unknown|\?|not sure|to be)", piece.group()):
        return []
    end = start + len(piece.group().rstrip())
    return [
        Draft(
            kind,
            TextValue(_as_typed(sentence, start, end)),
            sentence.span(start, end),
            sentence.line_no,
            Reason(code, (("word", sentence.text[:start]),)),
        )
    ]
