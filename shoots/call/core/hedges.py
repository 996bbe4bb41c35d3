"""What is only wished for, and what is not wanted."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core.drafts import CountOf, CountValue, Draft, DraftKind, Reason, ReasonCode, TextValue
from shoots.call.core.spans import Sentence, Span

_HEDGE = re.compile(
    r"\b(?:maybe|perhaps|possibly|poss\b(?! dates?)|if (?:there(?:'s| is)|we(?:'ve| have| get| still have)?|you(?:'ve| have| get)?|they(?:'ve| have)?)\s?(?:got\s|any\s|some\s|enough\s|spare\s|the\s|extra\s)*time(?: (?:left|over|allows|permits))?|if time(?: allows| permits)?|time permitting|if (?:at all )?(?:poss(?:ible)?)|nice[ -]to[ -]have|"
    r"(?:would|it'd|it would|that'd|'d) be (?:nice|great|lovely|good|cool|amazing|brilliant|ace|a bonus|fab|handy|useful)|(?:would|'d|would also|we'd|she'd|he'd|they'd) (?:also )?(?:love|like)(?! (?:to (?:book|confirm|shoot on|see a quote|know|get|keep|have it|have them by|go ahead)))|ideally|as a bonus|bonus|at a push|if (?:the )?budget (?:allows|stretches|permits)|if we can|if you can|if they can|if we could|optional(?:ly)?|"
    r"might (?:want|like|need|also|do|be nice)|could (?:also|maybe|perhaps)|stretch goal|not essential|only if|if (?:the )?(?:weather|light|tide|sun)(?:'s| is)? ?(?:allows|good|nice|plays ball|holds|out|permits|permitting)|weather permitting|wouldn't mind|if it works|if it fits|if easy|if not too much (?:trouble|extra)|no biggie if not|not a must|fun (?:to have|extra)|wishlist|wish list|if (?:we're|you're) lucky|on the off chance|thinking about|toying with|wondering about|if cheap|if affordable|if room)\b"
)
_NOT = re.compile(
    r"\b(?:no(?! (?:later|problem|worries|idea|rush|need\b|more than|less than|earlier|sooner|doubt|preference|pressure|hurry|fixed|date|budget|matter|biggie|longer|end date|time limit|expiry|vat|exclusivity|strong|firm|set|deadline|question|news|answer|reply|usage|clue|decision|contract|po\b|big deal|particular|real (?:budget|deadline|preference|idea|rush)|wait|sorry|make|just|only|it's|actually|they|we|she|he|that|i\b|then|change|limit|minimum|location yet|samples yet|fuss|joke|good|stress|use\b|brainer|surprise|hard (?:deadline|date)))(?!,|\s*-|\s+\d|\s*$|\.|\?|!|\s+(?:two|three|four|five|six|seven|eight|nine|ten|one|twelve)\b)|"
    r"not(?! (?:sure|only|yet|decided|know|too bothered|bothered|fussed|before|until|later|bad|essential|available|a problem|an issue|exclusive|confirmed|fixed|urgent|the \d|on \d|\d|going to|registered|vat|long|far|many|much|just|needed|required|possible|free|that|great|heard|know|clear|final|set|discussed|mentioned|signed|agreed|said|more than|less than|least|in a (?:rush|hurry)|a must|all|necessarily|really sure|100|mon|tue|wed|thu|fri|sat|sun|back|here|ready|allowed in before|a (?:massive|huge|big) (?:rush|budget)|for (?:\d|a while)|so sure|keen to commit|got|have|been|open|come|arrive|due|booked|quite sure|hugely|worried|fussy))|"
    r"without(?! (?:vat|tax|exclusivity|doubt|fail|usage|expenses|travel|a doubt|limit))|don't (?:want|use|show|include|shoot|like|have (?:him|her|them)|let|make|do|put|go|bring|light)|do not (?:want|use|show|include|shoot|make|put)|doesn't (?:want|like)|does not want|must ?n[o']?t\b|mustn't|never(?! (?:mind|been|know|again|too|done|seen|worked|used))|avoid(?:ing)?|nothing (?:too|that|with|at all|overly|cheesy|moody|dark|staged|like|from)|hate[s]?|can't (?:show|have|use|see|be seen|stand|include|shoot)|cannot (?:show|have|use|include)|won't (?:show|wear|be in|have)|keep (?:[\w' ]{2,20}) out of|leave out|steer clear of|stay away from|off limits|forbidden|isn't allowed|not allowed|aren't allowed|no-one|nobody (?:smiling|in|looking|wearing)|none of (?:the|that|those)|refuses|allergic to|banned|less of)"
    r"(?=[\s:])"
)
_CLAUSE_STOP = re.compile(
    r",(?!\d)|;|\s-\s|[()\[\]]|\?+|!+|\bbut\b|\bbecause\b|\bso that\b|\bthough\b|\bhowever\b|\.(?=\s|$)|\binstead\b|\bplease\b|\bpls\b|\bas (?:it|they|she|he|we|the)\b|\bsince\b|\+|\bjust\b(?! for)|\bthen\b|\bonly\b(?= \w)|\band (?:we|they|she|he|the client|it|need|want|please|make|keep|shoot|use|budget|deliver|usage|let|can|could|plenty|lots)\b|\bcos\b|\bcoz\b|\brather\b"
)
_CLAUSE_START = re.compile(
    r",(?!\d)\s*|;\s*|\s-\s|[()\[\]]\s*|\?+\s*|!+\s*|\bbut\s|\bplus\s|\s\+\s|\.\s+|:\s|\balso\s|\band (?=maybe|perhaps|possibly|poss|if|would|could|might)|\bthen\s"
)
_VALUE_KINDS = frozenset({DraftKind.DATE, DraftKind.MONEY, DraftKind.LICENCE, DraftKind.TERRITORY})
_ASIDE = re.compile(
    r"\W*(?:maybe|perhaps|possibly|poss|if (?:there'?s|there is|we have|we've got|we get|you have|you've got)? ?time(?: allows| permits)?|time permitting|if poss(?:ible)?|nice[ -]to[ -]have|optional|weather permitting|if we can|if you can|at a push|not essential|would be (?:nice|great|lovely|good|cool|amazing)|a bonus|bonus|if budget allows|if (?:the )?budget (?:allows|stretches))?\W*\Z"
)


def wishes(sentence: Sentence, drafts: Sequence[Draft]) -> tuple[list[Draft], list[Draft]]:
    """Return the wishes of a sentence, and its drafts with those inside a wish marked.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    drafts : sequence of Draft
        What was read from it.

    Returns
    -------
    tuple of list
        Drafts of kind `wish`, and the other drafts. "Maybe" before a date, an amount or a total makes that
        uncertain and is no wish.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("ten finals, a group shot if there's time").sentences[0]
    >>> [d.value.text for d in wishes(line, ())[0]]
    ["a group shot if there's time"]
    """
    found: list[Draft] = []
    marked = list(drafts)
    spans: list[Span] = []
    if sentence.topic == "wishes":
        spans = _items(sentence)
    else:
        for match in _HEDGE.finditer(sentence.text):
            span = _scope(sentence, match)
            if span and not any(span.start < o.end and o.start < span.end for o in spans):
                spans.append(span)
    for span in spans:
        whole = sentence.span(span.start, span.end)
        inside = [d for d in marked if whole.start <= d.span.start and d.span.end <= whole.end + 1]
        if sentence.topic != "wishes" and _is_uncertain_value(sentence, span, inside, drafts):
            continue
        text = sentence.text[span.start : span.end].strip(" ,.;-")
        if len(text) < 4:
            continue
        marked = [replace(d, wish=True) if d in inside and d.kind not in _VALUE_KINDS else d for d in marked]
        lead = len(sentence.text[span.start : span.end]) - len(sentence.text[span.start : span.end].lstrip(" ,.;-"))
        start = span.start + lead
        found.append(
            Draft(
                DraftKind.WISH,
                TextValue(text),
                sentence.span(start, start + len(text)),
                sentence.line_no,
                Reason(ReasonCode.HEDGED, (("words", text),)),
                wish=True,
            )
        )
    return found, marked


def _items(sentence: Sentence) -> list[Span]:
    text = sentence.text
    label = re.match(r"[a-z][a-z' -]{2,24}\s*(?::|=|\s-)\s*", text)
    start = label.end() if label else 0
    spans = []
    for piece in re.finditer(r"[^,;]+", text[start:]):
        if re.search(r"[a-z]{3}", piece.group()):
            spans.append(Span(start + piece.start(), start + piece.end()))
    return spans


def _scope(sentence: Sentence, match: re.Match[str]) -> Span | None:
    text = sentence.text
    starts = [m.end() for m in _CLAUSE_START.finditer(text, 0, match.start())]
    start = starts[-1] if starts else 0
    stop = _CLAUSE_STOP.search(text, match.end())
    end = stop.start() if stop else len(text)
    if _ASIDE.match(text[start:end]) or re.fullmatch(r"\W*", text[start : match.start()] + text[match.end() : end]):
        if (start and text[max(0, start - 3) : start].strip().startswith((",", "(", "-"))) or (starts and start):
            earlier = [m.end() for m in _CLAUSE_START.finditer(text, 0, max(0, starts[-1] - 3))] if starts else []
            start = earlier[-1] if earlier else 0
        elif stop and text[stop.start() : stop.start() + 1] in (",", ":", "-", " "):
            following = _CLAUSE_STOP.search(text, stop.end())
            end = following.start() if following else len(text)
    return Span(start, end) if end > start else None


def _is_uncertain_value(sentence: Sentence, span: Span, inside: Sequence[Draft], drafts: Sequence[Draft]) -> bool:
    if any(d.kind in _VALUE_KINDS for d in inside):
        things = [
            d
            for d in inside
            if d.kind in (DraftKind.SHAPE, DraftKind.COUNT, DraftKind.PRODUCT, DraftKind.PERSON, DraftKind.PLACEMENT)
        ]
        return not things
    counts = [d for d in inside if isinstance(d.value, CountValue)]
    totals = [
        d
        for d in counts
        if isinstance(d.value, CountValue)
        and d.value.of
        in (
            CountOf.FINALS,
            CountOf.PICTURES,
            CountOf.SHOTS,
            CountOf.LOCATIONS,
            CountOf.PRODUCTS,
            CountOf.OUTFITS,
            CountOf.DAYS,
        )
    ]
    others = [d for d in inside if d.kind in (DraftKind.SHAPE, DraftKind.PERSON, DraftKind.PLACEMENT, DraftKind.HAZARD)]
    text = sentence.text[span.start : span.end]
    if (
        totals
        and not others
        and not re.search(r"\b(?:extra|also|bonus|another|more|as well|if|nice|love|group|too)\b", text)
    ):
        return True
    return bool(re.fullmatch(r"\W*(?:maybe|perhaps|possibly|poss|ideally|prob\w*)?\W*(?:not)?\W*", text))


def negatives(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """Return what is not wanted, in the words of the notes.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    drafts : sequence of Draft
        What was read from it; excluded countries and days off are no negatives.

    Returns
    -------
    list of Draft
        Drafts of kind `negative`.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("no tripods on the track, not smiling").sentences[0]
    >>> [d.value.text for d in negatives(line, ())]
    ['no tripods on the track', 'not smiling']
    """
    text = sentence.text
    found: list[Draft] = []
    taken: list[Span] = []
    if sentence.topic == "negatives":
        for span in _items(sentence):
            taken.append(span)
    for match in _NOT.finditer(text):
        if any(s.start <= match.start() < s.end for s in taken):
            continue
        stop = _CLAUSE_STOP.search(text, match.end())
        end = stop.start() if stop else len(text)
        keep = re.match(
            r"(?:can't|cannot|must ?n|isn't|aren't|not allowed|off limits|forbidden|banned|won't|refuses|allergic)",
            match.group(),
        )
        start = match.start()
        if keep:
            starts = [m.end() for m in _CLAUSE_START.finditer(text, 0, match.start())]
            start = starts[-1] if starts else 0
        taken.append(Span(start, end))
    for span in taken:
        words = text[span.start : span.end].strip(" ,.;-:")
        at = sentence.span(span.start, span.end)
        if len(words) < 4 or (
            len(words.split()) < 2 and sentence.topic != "negatives" and not words.startswith("avoid")
        ):
            continue
        inside = [d for d in drafts if at.start <= d.span.start and d.span.end <= at.end + 1]
        if (
            any(
                d.kind in (DraftKind.DATE, DraftKind.MONEY, DraftKind.LICENCE, DraftKind.EXCLUSIVITY)
                or (d.kind is DraftKind.TERRITORY)
                for d in inside
            )
            and sentence.topic != "negatives"
        ):
            continue
        lead = len(text[span.start : span.end]) - len(text[span.start : span.end].lstrip(" ,.;-:"))
        start = span.start + lead
        found.append(
            Draft(
                DraftKind.NEGATIVE,
                TextValue(words),
                sentence.span(start, start + len(words)),
                sentence.line_no,
                Reason(ReasonCode.NOT_WANTED, (("words", words),)),
            )
        )
    return found
