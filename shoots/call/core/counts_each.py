"""What is taken of each thing: "front and back of each", "6 bags: open, closed", "a shot of each of the 12 rooms"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.count_words import draft_of, is_pictures
from shoots.call.core.drafts import CountOf, CountValue, Draft, Reason, ReasonCode
from shoots.call.core.numbers import NUMBER_WORD, quantities
from shoots.call.core.spans import Sentence

_KIND = (
    r"(?:heroe?s?|details?|close-?ups?|overheads?|flat[ -]?lays?|on[ -]models?|on[ -]body|fronts?|backs?|sides?|"
    r"cut-?outs?|"
    r"packshots?|lifestyle|3/4|three-quarter|tops?|open|closed|styled|worn|folded|draped|boxed|raw|cooked|plated|"
    r"wide|tight|whole|cut|sliced|halved|poured|lit|unlit|45(?: degrees?)?|top[ -]downs?|process|ingredients|steps?|"
    r"finished|empty|full[ -]length|half[ -]length|full|profile|macro|scale shot|in[ -]hand|in use|in situ|smiling|"
    r"serious)"
    r"(?: shots?| pics?| views?)?"
)
_JOINED = rf"{_KIND}(?:\s?(?:,|/|\+|&|\band\b)\s?{_KIND})+"
#: What may follow: more pictures, not one more kind that is no word of this list ("top view, detail, in the room").
_GOES_ON = rf"(?:,\s*)?(?:and|plus|then|\+|&)?\s*(?:\d|{NUMBER_WORD}\b|an?\b|plus\b|then\b)"
_WORD = r"(?!colou?r|black|bw|website|web|insta|social|print|portrait|landscape|square|uk|us)[a-z][a-z-]{2,}"
#: "Hero + overhead of each", "tub + scoop each".
_KINDS_EACH = re.compile(
    rf"(?<![\w-])(?P<kinds>{_JOINED})(?=\s(?:of |for |on )?(?:each|every)\b)"
    rf"|\beach\s(?:one\s|piece\s|product\s|item\s)?(?:should be\s|to be\s|is\s)?"
    rf"(?:from\s|shot\s|with\s|in\s|needs\s|on white\s)*"
    rf"(?P<kinds2>{_JOINED})(?=\s*(?:$|[.;=>)]|{_GOES_ON}))"
    rf"|(?<![\w-])(?P<kinds3>{_WORD}(?:\s?[+/]\s?{_WORD}){{1,3}})(?=\s(?:of )?each\b)"
)
#: "9 garments: flat lay and on model".
_KINDS_OF = re.compile(
    rf"(?:\d|\b{NUMBER_WORD}) (?:[a-z-]+ )?(?:[a-z-]+s|people)(?::|\s-|,)?\s(?P<kinds>{_JOINED})(?P<kinds2>)"
    rf"(?P<kinds3>)(?=\s*(?:$|[.;=>)]|{_GOES_ON}))"
)
_SIDES = re.compile(
    r"\bbefore\s?(?:and|&|\+|/)\s?after\b(?=\s*(?:$|[,.;]|pics|pictures|shots|photos|of|each))|"
    r"\bfronts?\s?(?:,|and|&|\+|/)\s?backs?(?P<more>\s?(?:,|and|&|\+|/|, and)\s?sides?)?\b"
)


def read(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """Return how many pictures a sentence wants of each thing by naming them.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    drafts : sequence of Draft
        What was counted in it so far.

    Returns
    -------
    list of Draft
        Counts of angles of each, and one picture of each.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("front and back of each").sentences[0]
    >>> [(d.value.of.value, d.value.maximum) for d in read(line, ())]
    [('angles', 2)]
    """
    text, found = sentence.text, list[Draft]()
    if (each := re.search(r"\beach\b", text)) and (times := len(re.findall(r"\bonce\b", text[each.end() :]))):
        many = times if re.match(r"\s(?:shot |taken )?once\b", text[each.end() :]) else times + 1
        words = (("number", str(many)), ("noun", "once"))
        value = CountValue(CountOf.ANGLES, many, many, per="each")
        found.append(draft_of(sentence, value, each.start(), each.end(), Reason(ReasonCode.NUMBER_AND_NOUN, words)))
    each_kind = _KINDS_EACH.finditer(text) if "each" in text or "every" in text else ()
    of_kinds = _KINDS_OF.finditer(text) if re.search(r"/|\+|,|\band\b|&", text) else ()
    for match in (*each_kind, *of_kinds):
        kinds = next(name for name in ("kinds", "kinds2", "kinds3") if match[name])
        many = len(re.findall(r"[+/]", match[kinds])) + 1 if kinds == "kinds3" else len(re.findall(_KIND, match[kinds]))
        at = sentence.offset + match.start()
        if any(is_pictures(d) and d.span.start <= at < d.span.end for d in drafts):
            continue  # "10 finals: heroes and details" are ten
        if sentence.is_free(match.start(kinds), match.end(kinds)) and not _SIDES.fullmatch(match[kinds]):
            sentence.claim(match.start(kinds), match.end(kinds))
            words = (("number", str(many)), ("noun", match[kinds]))
            value = CountValue(CountOf.ANGLES, many, many, per="each")
            reason = Reason(ReasonCode.NUMBER_AND_NOUN, words)
            found.append(draft_of(sentence, value, match.start(kinds), match.end(kinds), reason))
    for match in _SIDES.finditer(text):
        if not sentence.is_free(match.start(), match.end()):
            continue
        many = 3 if match["more"] else 2
        words = (("number", str(many)), ("noun", match.group()))
        value = CountValue(CountOf.ANGLES, many, many, per="each")
        found.append(draft_of(sentence, value, match.start(), match.end(), Reason(ReasonCode.NUMBER_AND_NOUN, words)))
    return found + _one_of_each(sentence, [*drafts, *found])


#: "A shot of each of the 12 rooms".
_ONE_EACH = re.compile(
    r"\b(?P<one>an?|one|1)\s(?:[a-z]+\s)?(?:shot|pic|picture|image|photo|still)\s(?:of|per|for)\s(?:each|every|all)\b"
)
#: "30 rings, each on white (and on the hand)".
_GROUND = r"on (?:plain )?(?:white|grey|gray|black|slate|stone|wood|oak|linen|model|the hand|hand|skin|figure)"
_EACH_ON = re.compile(
    rf"\beach\s(?:one\s|piece\s|item\s)?(?:shot\s|photographed\s|once\s)*(?P<on>{_GROUND}(?: and {_GROUND})?)\b"
)
_COUNTED = re.compile(rf"(?:\d|\b{NUMBER_WORD})\s(?:[a-z]+\s)?(?:of\s)?\Z")
#: "Each of the 4 bottles on its own".
_ON_ITS_OWN = re.compile(
    r"\b(?:each|every one|all) (?:of )?(?:the |our |their )?(?=\S)[^,;.]{3,40}?\s(?:on (?:its|their) own|individually|"
    r"separately|singly|one by one|by (?:itself|themselves))\b"
)


def _one_of_each(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """ "A shot of each of the 12 rooms", "each of the 4 bottles on its own": one picture of each."""
    text, found = sentence.text, list[Draft]()
    if "each" not in text and "every" not in text and "all" not in text:
        return []
    for match in _EACH_ON.finditer(text):
        span = sentence.span(match.start(), match.end())
        near = any(isinstance(d.value, CountValue) and d.value.per for d in drafts)
        if near or _COUNTED.search(text[: match.start()]):
            continue
        many = len(re.findall(_GROUND, match["on"]))
        reason = Reason(ReasonCode.NUMBER_AND_NOUN, (("number", str(many)), ("noun", match.group())))
        found.append(
            draft_of(sentence, CountValue(CountOf.ANGLES, many, many, per="each"), match.start(), match.end(), reason)
        )
    one = [m for m in _ONE_EACH.finditer(text) if "all" not in m.group()]
    for match in (*one, *_ON_ITS_OWN.finditer(text)):
        span = sentence.span(match.start(), match.end())
        if any(is_pictures(d) and d.span.start < span.end and span.start < d.span.end for d in drafts):
            continue
        words = (("number", "1"), ("noun", match.group()))
        if "one" in match.groupdict():
            end = re.search(r"\s(?:of|per|for)\s", match.group())
            stop = match.start() + (end.start() if end else 0)
            value = CountValue(CountOf.PICTURES, 1, 1, per="each")
            found.append(draft_of(sentence, value, match.start(), stop, Reason(ReasonCode.NUMBER_AND_NOUN, words)))
            continue
        for quantity in quantities(text):
            if match.start() <= quantity.start < match.end() and quantity.minimum == quantity.maximum:
                value = CountValue(CountOf.OTHERS, quantity.minimum, quantity.maximum)
                reason = Reason(ReasonCode.NUMBER_AND_NOUN, words)
                found.append(draft_of(sentence, value, match.start(), match.end(), reason))
                break
    return found
