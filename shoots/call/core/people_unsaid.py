"""People whom no word for people names: a label, a name in capitals, hours of school."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.drafts import Draft, DraftKind, PersonValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.minors import ADULT, SCHOOL_UNTIL
from shoots.call.core.numbers import number
from shoots.call.core.spans import Sentence


def portrayed(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """Return who is only named: "a portrait of Jonas".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    drafts : sequence of Draft
        People found in it so far.

    Returns
    -------
    list of Draft
        One for each name in capitals.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [d.value.role for d in portrayed(cut("Portrait of Jonas at his desk").sentences[0], ())]
    ['Jonas']
    """
    found = []
    for match in _PORTRAIT_OF.finditer(sentence.raw) if " of " in sentence.text else ():
        span = sentence.span(match.start("who"), match.end("who"))
        if sentence.raw.isupper() or any(d.span.start < span.end and span.start < d.span.end for d in drafts):
            continue
        name = match["who"]
        reason = Reason(ReasonCode.PERSON_WORD, (("word", match.group().lower()),))
        found.append(Draft(DraftKind.PERSON, PersonValue(name, 1), span, sentence.line_no, reason))
    return found


_PORTRAIT_OF = re.compile(
    r"\b[Pp](?:ortraits?|hotos?|ics?|ictures?) of (?P<who>[A-Z][a-z]{2,11})\b(?! (?:[A-Z]|[a-z]+s\b))(?!')"
)


_TITLED = r"(?:(?:Mr|Mrs|Ms|Miss|Dr|Frau|Herr|Mme|Sir|Lady)\.? )"
_NAMED_AT_WORK = re.compile(
    rf"(?P<who>{_TITLED}[A-Z][a-z]+(?:-[A-Z][a-z]+)?|(?<=[a-z,:;&+] )[A-Z][a-z]{{2,11}})\s(?P<verb>[a-z]{{3,}}ing)\b"
)
#: Not seen on a picture, or not done by a person.
_UNSEEN = frozenset(
    [
        "asking", "saying", "wanting", "needing", "selling", "paying", "signing", "launching", "doing", "having",
        "going",
        "coming", "arriving", "opening", "closing", "calling", "according", "regarding", "during", "delivering",
        "shooting", "following", "meeting", "depending", "beginning", "being", "starting", "ending", "including",
        "using",
        "approving", "deciding", "thinking", "hoping", "looking", "sending", "booking", "running", "getting", "morning",
        "evening", "spring", "booking", "chasing", "sorting", "organising", "ringing", "emailing", "clothing",
        "building",
        "catering", "knowing", "king", "thing", "packaging", "covering", "costing", "providing", "bringing", "leaving",
        "planning", "offering", "evening", "viewing", "pricing", "clearing", "supplying", "excluding", "pending",
        "wedding", "string", "ring", "wing", "racing", "housing", "trading", "retailing", "marketing", "advertising",
    ]
)  # fmt: skip


def at_work(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """Return who is named in capitals and does something that can be seen: "Elin turning the wheels".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    drafts : sequence of Draft
        People found in it so far.

    Returns
    -------
    list of Draft
        One for each name.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [d.value.role for d in at_work(cut("the dairy, Elin turning the wheels").sentences[0], {}, ())]
    ['Elin']
    """
    found: list[Draft] = []
    if "ing" not in sentence.text or sentence.raw.isupper():
        return found
    for match in _NAMED_AT_WORK.finditer(sentence.raw):
        start, end = match.span("who")
        span = sentence.span(start, end)
        if match["verb"] in _UNSEEN or _taken(sentence, hits, drafts, start, end):
            continue
        if any(0 <= start - h.end <= 1 for h in hits.get("person", ())):
            continue  # "his daughter Nell grinding" is one person
        if re.search(r"\b(?:in|at|near|from|to|of|by|on|outside|around|for|not|no) \Z", sentence.text[:start]):
            continue
        name = match["who"]
        reason = Reason(ReasonCode.PERSON_WORD, (("word", match.group().lower()),))
        found.append(Draft(DraftKind.PERSON, PersonValue(name, 1), span, sentence.line_no, reason))
    return found


def _taken(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft], start: int, end: int) -> bool:
    """Return whether words were read as a person already, or stand for something else."""
    span = sentence.span(start, end)
    if any(d.span.start < span.end and span.start < d.span.end for d in drafts):
        return True
    tables = ("place", "region", "group", "holiday", "product", "placement", "person", "act", "countnoun", "colour")
    return any(h.start < end and start < h.end for table in tables for h in hits.get(table, ()))


_SHOWN = re.compile(
    r"\b(?P<n>\d{1,2}\s)?(?:portraits?|headshots?)\sof\s(?:the\s|our\s|their\s|her\s|his\s|\d{1,2}\s)?"
    r"(?P<who>[a-z]{3,}(?:ers|ors|ists|men|women|ians|smiths|folk))\b|"
    r"(?<![\w-])(?P<may>[a-z]{4,}(?:s|men|women|folk))\s(?:may|will|can|could|should|might)\s(?:also\s)?be\sin\s"
    r"(?:it|them|the\s(?:pictures|pics|shots|photos|images)|shot|frame)\b"
)
_COUNTED_AGED = re.compile(
    r"\b(?P<n>two|three|four|zwei|drei|\d)\s(?P<who>[a-z]{4,}),\s(?P<ages>[1-8]\d(?:\s(?:and|&|\+|"
    r"und)\s[1-8]\d)+)\b(?!\s?[a-z%])"
)
#: "our stitcher at her bench", "a wefter at work": only somebody is at work or has a bench of her own.
_WORKS = re.compile(
    r"(?:^\s*|[,+&;(]\s?|\b(?:an?|the|our|her|his|their|one|and)\s)(?P<who>[a-z]{3,}(?:er|or|ist|wright|smith|woman|man))\s"
    r"(?:at work\b|in shot\b|on camera\b|at (?:her|his) (?:bench|wheel|loom|desk|table|stove|easel|machine|lathe|forge|"
    r"stall|till|counter|block|anvil|press|kiln|oven|tank|vat)\b)"
)
_NOBODY = frozenset(
    [
        "papers",
        "flowers",
        "corners",
        "others",
        "numbers",
        "letters",
        "layers",
        "containers",
        "things",
        "props",
        "wearers",
        "layer",
        "letter",
        "number",
        "corner",
        "other",
        "flower",
        "paper",
        "container",
        "rather",
        "under",
        "over",
        "never",
        "after",
        "order",
        "water",
        "weather",
        "winter",
        "summer",
        "october",
        "november",
        "december",
        "september",
        "computer",
        "printer",
        "mirror",
        "motor",
        "door",
        "floor",
        "colour",
        "color",
        "poster",
        "however",
        "whether",
        "together",
        "either",
        "neither",
        "later",
        "list",
        "users",
    ]
)


def _at_their_bench(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    found: list[Draft] = []
    if sentence.index == 0 or sentence.topic in ("negatives", "approver", "payer"):
        return found
    hinted = any(words in sentence.text for words in (" at ", " in shot", " on camera"))
    for match in _WORKS.finditer(sentence.text) if hinted else ():
        start, end = match.span("who")
        before = sentence.text[:start]
        if (
            match["who"] in _NOBODY
            or _taken(sentence, hits, drafts, start, end)
            or re.search(r"\b(?:no|not)\b", before)
        ):
            continue
        reason = Reason(ReasonCode.PERSON_WORD, (("word", match["who"]),))
        found.append(
            Draft(DraftKind.PERSON, PersonValue(match["who"], 1), sentence.span(start, end), sentence.line_no, reason)
        )
    return found


def shown(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """Return people in no lexicon of whom portraits are spoken: "10 portraits of fighters", "readers may be in it".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    drafts : sequence of Draft
        People found in it so far.

    Returns
    -------
    list of Draft
        One for each plural noun.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [(d.value.role, d.value.count) for d in shown(cut("10 portraits of fighters").sentences[0], {}, ())]
    [('fighters', 10)]
    """
    found = _at_their_bench(sentence, hits, drafts)
    if not any(word in sentence.text for word in ("headshot", "portrait", " be")):
        return found
    for match in _SHOWN.finditer(sentence.text):
        key = "who" if match["who"] else "may"
        start, end = match.span(key)
        if match[key] in _NOBODY or _taken(sentence, hits, drafts, start, end):
            continue
        many = int(match["n"]) if match["n"] else None
        reason = Reason(ReasonCode.PERSON_WORD, (("word", match[key]),))
        span = sentence.span(start, end)
        found.append(Draft(DraftKind.PERSON, PersonValue(match[key], many), span, sentence.line_no, reason))
    return found


def counted_with_ages(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """Return people in no lexicon who are counted and have their ages: "two fallers, 35 and 52".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    drafts : sequence of Draft
        People found in it so far.

    Returns
    -------
    list of Draft
        One for each noun; minors when one of the ages is under 18.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [(d.value.role, d.value.ages) for d in counted_with_ages(cut("two fallers, 35 and 52").sentences[0], {}, ())]
    [('fallers', (35, 52))]
    """
    found: list[Draft] = []
    for match in _COUNTED_AGED.finditer(sentence.text):
        start, end = match.span("who")
        ages = tuple(int(age) for age in re.findall(r"\d+", match["ages"]))
        many = {"zwei": 2, "drei": 3}.get(match["n"]) or number(match["n"])
        if many != len(ages) or _taken(sentence, hits, drafts, start, end) or not sentence.is_free(*match.span("ages")):
            continue
        sentence.claim(*match.span("ages"))
        minor = min(ages) < ADULT
        value = PersonValue(match["who"], many, min(ages), minor, school_age=min(ages) < SCHOOL_UNTIL, ages=ages)
        code = ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE
        reason = Reason(code, (("word", match["who"]), ("words", match["ages"])))
        span = sentence.span(match.start(), match.end())
        found.append(Draft(DraftKind.PERSON, value, span, sentence.line_no, reason, confirm=minor))
    return found


def under_label(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """Return whom a label means when its words name nobody: "Model: female, 30s", "Models: 1 female, 2 male".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes under a label for people.
    drafts : sequence of Draft
        People found in it so far.

    Returns
    -------
    list of Draft
        At most one.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [d.value.count for d in under_label(cut("models: 1 female, 2 male").sentences[0], ())]
    [3]
    """
    label = re.match(
        r"\s*(models?|talent|hand model|cast|dancers?|runners?)\s*(?::|=|\s-)(?!\s*(?:tbc|tba|none|no\b|n/a|not|\?|$))",
        sentence.text,
    )
    if not label:
        return []
    counted = list(_SEXES.finditer(sentence.text, label.end()))
    sexes = [d for d in drafts if isinstance(d.value, PersonValue) and _SEX.fullmatch(d.value.role)]
    if drafts and (not counted or sexes):
        return []
    reason = Reason(ReasonCode.PERSON_WORD, (("word", label.group(1)),))
    span = sentence.span(label.start(1), counted[-1].end() if counted else len(sentence.text.rstrip()))
    many = sum(number(match["n"]) or 0 for match in counted) or None
    return [Draft(DraftKind.PERSON, PersonValue(label.group(1), many), span, sentence.line_no, reason)]


_SEXES = re.compile(
    r"\b(?P<n>\d{1,2}|one|two|three|four|five|six)\s?x?\s?(?:females?|males?|women|woman|men|man|girls?|guys?|f|m)\b"
)


def at_school(sentence: Sentence, hits: dict[str, list[Hit]], people: Sequence[Draft]) -> list[Draft]:
    """Return somebody of whom only the school is spoken: "out of school at three".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    people : sequence of Draft
        People found in it so far.

    Returns
    -------
    list of Draft
        Minors without a name or an age.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("out of school at three").sentences[0]
    >>> [d.value.school_age for d in at_school(line, package_lexicons().hits(line), ())]
    [True]
    """
    drafts = []
    for hit in hits.get("school", ()):
        words = sentence.text[hit.start : hit.end]
        if hit.code == "maybe" and not (words == "in year" and re.match(r"\s?\d", sentence.text[hit.end :])):
            continue
        if any(d.span.start < sentence.offset + hit.end and sentence.offset + hit.start < d.span.end for d in people):
            continue
        value = PersonValue("", None, None, True, school_age=True)
        reason = Reason(ReasonCode.SCHOOL_AGE, (("word", words),))
        span = sentence.span(hit.start, hit.end)
        drafts.append(Draft(DraftKind.PERSON, value, span, sentence.line_no, reason, confirm=True))
    return drafts


def without_break_down(drafts: list[Draft], sentence: Sentence) -> list[Draft]:
    """Leave out what only says who the people before are: "4 models, two men two women".

    Parameters
    ----------
    drafts : list of Draft
        People of a sentence in order.
    sentence : Sentence
        Their sentence.

    Returns
    -------
    list of Draft
        The same without men and women whose numbers add up to the one before them.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> without_break_down([], cut("4 models, two men two women").sentences[0])
    []
    """
    for index, whole in enumerate(drafts):
        many = whole.value.count if isinstance(whole.value, PersonValue) else None
        parts = [d for d in drafts[index + 1 :] if isinstance(d.value, PersonValue) and d.value.count]
        sexes = [d for d in parts if isinstance(d.value, PersonValue) and _SEX.fullmatch(d.value.role)]
        total = sum(d.value.count or 0 for d in sexes if isinstance(d.value, PersonValue))
        gap = sentence.text[whole.span.end - sentence.offset : sexes[0].span.start - sentence.offset] if sexes else ""
        if many and len(sexes) > 1 and total == many and re.fullmatch(r"\s?[,:(-]+\s?(?:an? |one )?", gap):
            return [d for d in drafts if d not in sexes]
    return drafts


_SEX = re.compile(r"(?:young |older )?(?:men|man|women|woman|girls?|boys?|guys?|ladies|lady)")
