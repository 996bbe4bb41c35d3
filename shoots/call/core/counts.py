"""How many: pictures and the parts that add up to them, places, outfits, products, setups, days."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core import counts_unsaid
from shoots.call.core.count_words import LIST_END, NOT_BEHIND, PARTS, SET_OF, draft_of, is_pictures, per_of
from shoots.call.core.drafts import CountOf, CountValue, Draft, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import Quantity, quantities
from shoots.call.core.spans import Sentence, stem

_SUM = re.compile(r"\s*(?:so|that's|makes|total:?|altogether|=)\s*(?P<sum>\d{1,3}(?:\s?\+\s?\d{1,3})+)\s*[.!]?\s*")
_ITEM = re.compile(
    r"\s(?:of |in |at |with )?(?:the |her |his |their |our )?[a-z-]{3,}(?:\s[a-z-]+)?\s*(?:$|[,;.+&]|\band\b|\bplus\b)"
)
_SUMMED = frozenset({"pictures", "shots", "finals"})
_SPECIAL = frozenset({"lifestyle", "details", "packshots", "portraits", "heroes", "others"})
_KINDS = frozenset(CountOf)
_GAP = re.compile(r"\s*-?(?:x\s)?(?:(?:of (?:the|our|their|these|those)|[a-z'&]+|\d{1,2}:\d{1,2}|3/4)[\s-]+){0,4}\Z")
_GAP_STOP = frozenset(
    [
        "and", "or", "with", "in", "on", "at", "for", "by", "from", "to", "is", "are", "was", "per", "each",
        "every", "plus", "then", "than", "but", "so", "if", "a", "an", "the", "we", "they", "it", "of", "between",
        "before", "after", "until", "about", "over", "under", "into", "need", "needs", "want", "wants", "day",
        "days", "hour", "hours", "week", "weeks", "month", "months", "year", "years", "people", "as", "not", "no",
        "only", "can", "could", "would", "should", "must", "will", "shoot", "shooting", "has", "have", "had", "been",
        "who", "just", "person", "man", "woman",
    ]
)  # fmt: skip
#: What is numbered as often as it is counted ("look 4", "location 2").
#: "1 group" may be taken for people, but a list of pictures has it.
_GROUP = re.compile(
    r"\s(?:x )?(?:whole )?(?:group|team|family)\s?(?:$|[,;.)+&/]|(?:and|plus|of|on|in|at|with)\b)|"
    r"\s(?:w|with|showing|of) [a-z]|\s(?:[a-z]+ )?(?:pictures?|pics?|images?|photos?)\b|"
    r"\s(?:landscape|portrait|square|vertical|upright|horizontal) "
    r"(?:key visuals?|heroe?s?|details?|packshots?|cut-?outs?)\b|"
    r"\speople (?:shots|pics|pictures|images)\b"
)
#: Without one of these, a number or a noun, nothing is counted; only a quick way out.
_OF_EACH = re.compile(r"\beach|\bevery|\ball\b|front|\d")
_AND_A = re.compile(r"(?:\band|\bplus|\+|,|&)\s(?:an?|one)\s(?:[a-z]+\s)?\Z")
_EARLIER = re.compile(r"\b(?:last (?:time|year|shoot|season)|previously|usually)\b[^,;:.]{0,24}\Z")
_HAD = re.compile(r"\b(?:old|existing|previous)\s+[a-z]+|[a-z]\s(?:already|on file|in the archive)\b")
_IN_LIST = re.compile(r"(?:[/+,&]|\band)\s*\Z")
_LIMIT = re.compile(
    r"\s(?:(?P<most>tops|max|maximum|at most|absolute max|at the outside)|(?P<least>min|minimum|at least))\b"
)
#: "2 of the dining room" are no two rooms.
_OF_ONE = re.compile(r"\s?of (?:the|our|their|her|his)\b")
_MOVING = re.compile(r"\s?(?:x\s)?(?:[a-z0-9-]+\s)?(?:gifs?|videos?|films?|clips?|reels?|boomerangs?|cinemagraphs?)\b")
_NUMBERED = frozenset({CountOf.OUTFITS, CountOf.LOCATIONS, CountOf.SETUPS, CountOf.DAYS, CountOf.SHOTS})
_ORDINAL = re.compile(
    r"\b(?:option|version|page|look|room|unit|level|phase|part|stage|day|setup|set|no\.?|number|group|team|"
    r"shot|plan|year|size)\s?#?\Z"
)
_TOTAL_BEHIND = re.compile(r"\s*(?:in total|total\b|tot\b|altogether|all told|overall|all up|all in all|in all\b)")
_THEN = re.compile(r"\s(?:then|altogether then|it is|now)\s*(?:$|[.,!])")
_TOTAL_BEFORE = re.compile(
    r"(?:\btotal(?: of| is|:)?|\baltogether|\bmakes|\bcall it|\bthat's|[=-]>|=|\bin all|\bso|\bcomes to|"
    r"\bbrings (?:us|it|that|me) to|\bthat is|\bwhich is|\bfinal answer:?|\bmakes it|\bthat'll be|\badds up to|"
    r"\bgives|\b(?:settled|agreed|landed|decided) on|\bwent for|\bkeeps|\bended up (?:at|with|on)|(?<![=-])>|"
    r"\binsgesamt|\bzusammen|\bmacht|(?<=, )also)\s*"
    r"(?:i have put down |i put down |i've put |i have |i make it |we have |that gives |"
    r"that's |it's |let's say |say |about |around |total |we get |a total of )*\Z"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], *, going_on: bool = False) -> list[Draft]:
    """Return what is counted in a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes; figures read by others are claimed already.
    hits : dict
        Phrases found in it, by table.
    going_on : bool
        Whether the line or sentence before it counted pictures.

    Returns
    -------
    list of Draft
        Drafts of kind `count`.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("10-12 finals, 4 locations").sentences[0]
    >>> [(d.value.of.value, d.value.minimum, d.value.maximum) for d in read(line, package_lexicons().hits(line))]
    [('finals', 10, 12), ('locations', 4, 4)]
    """
    text = sentence.text
    drafts: list[Draft] = []
    used: set[int] = set()
    counts = [
        q
        for q in _out_of_a_pool(text, quantities(text))
        if (sentence.is_free(q.start, q.end) or _GROUP.match(text, q.end))
        and not counts_unsaid.is_of_those(text, q.start, q.end)
    ]
    nouns = [hit for hit in hits.get("countnoun", ()) if hit.code in _KINDS]
    if not counts and not nouns and not _OF_EACH.search(text):
        return []
    for number, noun in enumerate(nouns):
        if number + 1 < len(nouns) and _is_compound(text, noun, nouns[number + 1]):
            continue
        until = nouns[number + 1].start if number + 1 < len(nouns) else len(text)
        found, code = _before(sentence, counts, noun, used), ReasonCode.NUMBER_AND_NOUN
        if found is None:
            found, code = _behind(sentence, counts, noun, used, until), ReasonCode.LABEL_AND_NUMBER
        if found is None:
            continue
        index, start, end = found
        quantity = counts[index]
        if quantity.maximum and quantity.maximum > 2000:
            continue
        if _EARLIER.search(text[:start]) or _HAD.search(text[quantity.end : noun.end + 24]):
            used.add(index)
            continue  # "last time 12 pics", "she has 200 pics already"
        if text[:start].strip(" -*") == "not" or (text[noun.start : noun.end] == "files" and _crops(nouns)):
            continue  # "4 pics in 3 crops = 12 files" are four
        used.add(index)
        sentence.claim(quantity.start, quantity.end)
        limit = _LIMIT.match(text, noun.end) if quantity.end <= noun.start else None
        summed = bool(re.search(r"(?:=>|->|=)\s*\Z", text[: quantity.start])) and noun.code in _SUMMED
        value = CountValue(
            CountOf.FINALS
            if summed or _is_sum_of(text, noun, quantity, start)
            else _kind(sentence, _special(nouns, number, text), quantity),
            None if limit and limit["most"] and quantity.minimum == quantity.maximum else quantity.minimum,
            None if limit and limit["least"] and quantity.minimum == quantity.maximum else quantity.maximum,
            quantity.approximate,
            per_of(text, max(noun.end, quantity.end), quantity.start),
        )
        so = _is_sum_of(text, noun, quantity, start)
        summed = summed or so or bool(noun.code in _SUMMED and re.search(r"\btotals?[:\s]*\Z", text[:start]))
        said = "total" if summed else text[noun.start : noun.end]
        words = (("number", text[quantity.start : quantity.end]), ("noun", said))
        drafts.append(draft_of(sentence, value, start, end, Reason(code, words)))
    _stretched(sentence, counts, used, drafts)
    drafts += counts_unsaid.read(sentence, hits, counts, used, drafts, going_on=going_on)
    drafts += counts_unsaid.each_of_what(sentence, counts, used, drafts)
    drafts += _singles(sentence, nouns, drafts) + _totals(
        sentence, counts, used, drafts, going_on, any(noun.code in PARTS for noun in nouns)
    )
    drafts += _added_up(sentence, drafts)
    if sentence.topic == "finals" and not going_on and not any(is_pictures(d) for d in drafts):
        drafts += _labelled(sentence, counts, used)
    return sorted(drafts, key=lambda draft: draft.span)


#: "12 of the 80 get retouched", "choose 12 out of roughly 80 pics": the larger number is what there is to choose from.
_OUT_OF = re.compile(r"\s(?:out of|of|from) (?:the |about |roughly |around |some )*")
_CHOSEN_BEHIND = re.compile(r"\s(?:[a-z]+\s){0,2}(?:retouched|edited|delivered|finished)\b")
_CHOSEN_BEFORE = re.compile(
    r"\b(?:choose|chooses|picks?|keeps?|selects?|buy-?out|buys?|licen[cs]es?)\s(?:of\s|the\s|best\s)*\Z"
)


def _out_of_a_pool(text: str, counts: list[Quantity]) -> list[Quantity]:
    for first, second in itertools.pairwise(counts):
        if not _OUT_OF.fullmatch(text[first.end : second.start]) or (first.minimum or 0) >= (second.minimum or 0):
            continue
        if _CHOSEN_BEHIND.match(text, second.end) or _CHOSEN_BEFORE.search(text[: first.start]):
            return [replace(first, end=second.end) if q is first else q for q in counts if q is not second]
    return counts


_SO = re.compile(r"(?:,|;|-)\s?(?:so|that's|makes|which makes|which is|making)\s(?:that's |it's |about )*\Z")


def _is_sum_of(text: str, noun: Hit, quantity: Quantity, start: int) -> bool:
    """Return whether "so fourteen pictures" draws the sum of what was said."""
    return noun.code in _SUMMED and quantity.end <= noun.start and bool(_SO.search(text[:start]))


def _is_compound(text: str, noun: Hit, after: Hit) -> bool:
    """Return whether a noun only says of what kind the next one is: "5 room views" are views."""
    pictures = ("angles", "pictures", "shots", "details")
    return (
        noun.code in ("setups", "products", "locations")
        and after.code in pictures
        and text[noun.end : after.start] == " "
    )


def _crops(nouns: Sequence[Hit]) -> bool:
    return any(noun.code == CountOf.CROPS.value for noun in nouns)


def _special(nouns: Sequence[Hit], number: int, text: str) -> Hit:
    """Return the noun that says most: "10 pics lifestyle" are lifestyle pictures."""
    noun = nouns[number]
    after = nouns[number + 1] if number + 1 < len(nouns) else None
    if noun.code == "pictures" and after and text[noun.end : after.start] == " " and after.code in _SPECIAL:
        return after
    return noun


def _before(sentence: Sentence, counts: Sequence[Quantity], noun: Hit, used: set[int]) -> tuple[int, int, int] | None:
    text = sentence.text
    for index in range(len(counts) - 1, -1, -1):
        quantity = counts[index]
        if quantity.end > noun.start:
            continue
        if index in used:
            return None
        gap = re.sub(r"^\s?\)|\([a-z0-9 ]{1,12}\)|\"", "", text[quantity.end : noun.start])
        said = re.sub(r"\bof (?:the|our|their|these|those)\b", " ", gap)
        if _OF_ONE.match(gap) and (quantity.minimum or 2) > 1 and not text[noun.start : noun.end].endswith("s"):
            return None
        if _GAP.match(gap) and not _GAP_STOP.intersection(said.split()) and not _ORDINAL.search(text[: quantity.start]):
            return index, quantity.start, noun.end
        return None
    return None


def _behind(
    sentence: Sentence, counts: Sequence[Quantity], noun: Hit, used: set[int], until: int
) -> tuple[int, int, int] | None:
    """ "finals: 10", "details 8, packshots x 4": the number behind its noun."""
    text = sentence.text
    for index, quantity in enumerate(counts):
        if quantity.start < noun.end or index in used:
            continue
        gap = text[noun.end : quantity.start]
        if gap.isspace() and CountOf(noun.code) in _NUMBERED and not text[noun.start : noun.end].endswith("s"):
            return None  # "look 4" is the fourth look
        if gap.strip() == "=" and (index or _IN_LIST.search(text[: noun.start])):
            return None  # "front, back, on body = 27" is a sum
        worded = re.match(r"\s[a-z]{2,10}\s*(?:$|[,;+])", text[quantity.end :])
        listed = gap.isspace() and (LIST_END.match(text, quantity.end) or worded) and quantity.end <= until
        strict = re.fullmatch(
            r"\s*(?:x|[:=]|-|\(|~|(?:total|needed|required|wanted)?\s?(?:of|is|are|:|=|-|x|now|about|probably|"
            r"prob|maybe|total|would be|"
            r"will be|should be|to be|more like|nearer|up to)*)\s*(?:about |around |roughly |maybe )?",
            gap,
        )
        loose = re.match(
            r"\s*(?:$|[,;.?!)+]|/\s?[a-z]|and\b|total|in total|all|max|or\b|please|plus|if|but|no\b|not\b|-|"
            r"incl|including|\()",
            text[quantity.end :],
        )
        if NOT_BEHIND.match(text, quantity.end) or SET_OF.search(text[: quantity.start]):
            return None
        if listed or (strict and gap.strip() and loose):
            return index, noun.start, quantity.end
        return None
    return None


def _kind(sentence: Sentence, noun: Hit, quantity: Quantity) -> CountOf:
    of = CountOf(noun.code)
    if of in (CountOf.PICTURES, CountOf.SHOTS):
        behind = re.match(
            r"\s*(?:in total|total|altogether|all told|overall|all up|final\b|finals\b|finished|delivered|max|"
            r"to deliver|in all\b)",
            sentence.text[noun.end :],
        )
        before = re.search(
            r"\b(?:total(?: of)?|altogether|in all|final|finished|edited|retouched|deliver(?:ing|"
            r"ed)?)\b[\s:=]*(?:[\w-]+\s){0,3}\Z",
            sentence.text[: noun.start],
        )
        if behind or before:
            return CountOf.FINALS
        ahead = sentence.text[quantity.end : noun.start] if quantity.end <= noun.start else ""
        special = [w for w in re.findall(r"[a-z]{3,}", ahead) if w not in _PLAIN]
        return CountOf.OTHERS if special and of is CountOf.SHOTS else of
    word = sentence.text[noun.start : noun.end]
    if (
        of is CountOf.PRODUCTS
        and word in ("product", "packs", "pack")
        and (quantity.minimum or 2) > 1
        and word == stem(word)
    ):
        return CountOf.PACKSHOTS  # "10 product": ten pictures of products
    if word in ("colour", "color") and (quantity.minimum or 2) > 1 and quantity.end <= noun.start:
        return CountOf.OTHERS  # "10 portraits in black and white, 10 colour"
    if of is CountOf.PRODUCTS and _ON_WHITE.match(sentence.text, noun.end):
        return CountOf.PACKSHOTS  # "12 bottles on white"
    return of


_ON_WHITE = re.compile(
    r"\s(?:all )?(?:on|against) (?:a )?(?:plain )?(?:white|grey|gray|black)\b"
    r"(?!.*(?:\beach\b|\bper\b|\bangles?\b|\bviews\b|\bfronts?\b|\bx\s?\d|\bevery\b))"
)
_PLAIN = frozenset(
    [
        "final", "finals", "finished", "edited", "retouched", "new", "different", "main", "good", "great", "nice",
        "strong", "really", "proper", "separate", "extra", "more", "additional", "usable", "high", "res", "web",
        "social", "lovely", "beautiful", "other", "total", "complete", "unique", "distinct", "max", "decent",
        "clean", "about", "individual", "the", "of", "our", "their", "these", "those", "best", "possible", "whole",
        "single", "great", "full",
    ]
)  # fmt: skip


def _singles(sentence: Sentence, nouns: Sequence[Hit], drafts: Sequence[Draft]) -> list[Draft]:
    """ "A hero and three crops", "key visual + 5 cuts": one picture without a number."""
    found = []
    for noun in nouns:
        words = sentence.text[noun.start : noun.end]
        each = re.match(r"\s(?:per|of each|for each|each|of every)\b", sentence.text[noun.end :])
        kinds = {
            *({"pictures", "shots"} if each or (drafts and _AND_A.search(sentence.text[: noun.start])) else ()),
            "heroes",
            "portraits",
            "packshots",
            "others",
            *({"details", "lifestyle"} if drafts else ()),
        }
        if noun.code not in kinds or words.endswith("s"):
            continue
        before = sentence.text[: noun.start]
        article = re.search(r"\b(?:an?|one)\s+(?:[a-z-]+\s)?\Z", before)
        leads = (
            noun.code == "heroes"
            and re.search(r"(?:^|[,;+:(-]|\band)\s*\Z", before)
            and not re.match(r"\s*(?:is|should|needs|must|will|banner|has|to|also|dark)", sentence.text[noun.end :])
        )
        if not article and not (leads and (words != "hero" or each)):
            continue
        start = article.start() if article else noun.start
        span = sentence.span(start, noun.end)
        if any(d.span.start < span.end and span.start < d.span.end for d in drafts) or not sentence.is_free(
            start, noun.end
        ):
            continue
        reason = Reason(ReasonCode.NUMBER_AND_NOUN, (("number", "1"), ("noun", words)))
        per = per_of(sentence.text, noun.end, start)
        found.append(draft_of(sentence, CountValue(CountOf(noun.code), 1, 1, per=per), start, noun.end, reason))
    return found


def _totals(
    sentence: Sentence, counts: Sequence[Quantity], used: set[int], drafts: Sequence[Draft], going_on: bool, named: bool
) -> list[Draft]:
    """ "18 total", "4 + 8 = 12": a number that is said to be the sum."""
    text, found = sentence.text, list[Draft]()
    counts_pictures = any(is_pictures(d) for d in drafts)
    money = "£" in text or "$" in text or "€" in text
    for index, quantity in enumerate(counts):
        if index in used or NOT_BEHIND.match(text, quantity.end):
            continue
        behind = _TOTAL_BEHIND.match(text, quantity.end) or (going_on and _THEN.match(text, quantity.end))
        before = _TOTAL_BEFORE.search(text[: quantity.start])
        alone = not (behind or before) and _is_alone(sentence, quantity) and (going_on or counts_pictures)
        if not behind and not alone and (not before or money):
            continue
        summed = (
            before and re.match(r"[=-]", before.group()) and any(n < index for n in range(len(counts)) if n not in used)
        )
        counted = summed or found or any(is_pictures(d) or _is_thing(d) or _is_of_each(d) for d in drafts)
        counted = counted or going_on or named or bool(before and before.group().startswith(("total", "call it")))
        ends = LIST_END.match(text, quantity.end) or re.match(r"\s(?:then|in)\b", text[quantity.end :])
        if not behind and not alone and not (before and counted and ends):
            continue
        used.add(index)
        sentence.claim(quantity.start, quantity.end)
        value = CountValue(CountOf.FINALS, quantity.minimum, quantity.maximum, quantity.approximate)
        words = (("number", text[quantity.start : quantity.end]), ("noun", "alone" if alone else "total"))
        end = behind.end() if behind else quantity.end
        found.append(draft_of(sentence, value, quantity.start, end, Reason(ReasonCode.LABEL_AND_NUMBER, words)))
    return found


_CORRECTS = re.compile(
    r"\b(?:no|not|nope|sorry|actually|wait|make (?:that|it)|scratch|rather|correction|mean|now|changed?|was|"
    r"page|room|at)\b[^a-z]*\Z"
)


def _is_alone(sentence: Sentence, quantity: Quantity) -> bool:
    """Return whether a number is a clause of its own at the end of a sentence: "4 of each and 4 of her, a dozen." """
    clause = sentence.clause(quantity.start, quantity.end)
    only = sentence.text[clause.start : clause.end].strip(" .!") == sentence.text[quantity.start : quantity.end].strip()
    ends = not sentence.text[quantity.end :].strip(" .!")
    corrects: object = _CORRECTS.search(sentence.text[: quantity.start])
    corrects = corrects or re.fullmatch(r"\s*[-*]?\s*[a-z]+(?: [a-z]+)?:\s*", sentence.text[: clause.start])
    return only and ends and not corrects and not sentence.topic and quantity.minimum == quantity.maximum


def _stretched(sentence: Sentence, counts: Sequence[Quantity], used: set[int], drafts: list[Draft]) -> None:
    """Join "min 12 pics, maybe up to 15" and "8 or 9 finals, 10 at the outside" into one stretch."""
    for index, quantity in enumerate(counts):
        if index not in used and quantity.minimum is not None and quantity.maximum is None:
            _least(sentence, index, quantity, used, drafts)
        if index in used or quantity.minimum is not None or not LIST_END.match(sentence.text, quantity.end):
            continue
        for at, draft in enumerate(drafts):
            gap = sentence.text[draft.span.end - sentence.offset : quantity.start]
            value = draft.value
            if is_pictures(draft) and isinstance(value, CountValue) and _UP_TO.fullmatch(gap):
                span = sentence.span(draft.span.start - sentence.offset, quantity.end)
                least = value.minimum if value.minimum is not None else value.maximum
                if (least or 0) < (quantity.maximum or 0):
                    drafts[at] = replace(
                        draft, value=replace(value, minimum=least, maximum=quantity.maximum), span=span
                    )
                    used.add(index)
                    sentence.claim(quantity.start, quantity.end)


def _least(sentence: Sentence, index: int, quantity: Quantity, used: set[int], drafts: list[Draft]) -> None:
    """Join "10 min, 15 max pics" into one stretch."""
    for at, draft in enumerate(drafts):
        gap = sentence.text[quantity.end : max(quantity.end, draft.span.start - sentence.offset)]
        value = draft.value
        if not is_pictures(draft) or not isinstance(value, CountValue) or not gap or not _AND_MOST.fullmatch(gap):
            continue
        if value.maximum is not None and (quantity.minimum or 0) < value.maximum and not value.per:
            span = sentence.span(quantity.start, draft.span.end - sentence.offset)
            drafts[at] = replace(draft, value=replace(value, minimum=quantity.minimum), span=span)
            used.add(index)
            sentence.claim(quantity.start, quantity.end)


_AND_MOST = re.compile(r"\s*(?:,|/|-|and|but)\s*(?:an?\s)?")
_UP_TO = re.compile(r"\s*[,(/-]?\s*(?:maybe|but|or|perhaps|possibly|and|poss)?\s*")


def _added_up(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """ "So 15 + 9." is a sum of pictures that were named before."""
    match = _SUM.fullmatch(sentence.text)
    if not match or drafts:
        return []
    total = sum(int(part) for part in re.findall(r"\d+", match["sum"]))
    sentence.claim(match.start("sum"), match.end("sum"))
    words = (("number", match["sum"]), ("noun", "total"))
    reason = Reason(ReasonCode.SUM_OF_PARTS, words)
    return [draft_of(sentence, CountValue(CountOf.FINALS, total, total), match.start("sum"), match.end("sum"), reason)]


def _is_of_each(draft: Draft) -> bool:
    return isinstance(draft.value, CountValue) and draft.value.of is CountOf.ANGLES and draft.value.per == "each"


def _is_thing(draft: Draft) -> bool:
    return isinstance(draft.value, CountValue) and draft.value.of is CountOf.PRODUCTS


def _labelled(sentence: Sentence, counts: Sequence[Quantity], used: set[int]) -> list[Draft]:
    """Numbers under a label such as "pics:": one of all, or a list of parts ("pics: 4 ext, 6 int")."""
    free = [
        quantity
        for index, quantity in enumerate(counts)
        if index not in used
        and sentence.is_free(quantity.start, quantity.end)
        and not NOT_BEHIND.match(sentence.text, quantity.end)
        and not _MOVING.match(sentence.text, quantity.end)
    ]
    listed = [q for q in free if _ITEM.match(sentence.text, q.end)]
    of = CountOf.OTHERS if len(listed) > 1 and listed == free else CountOf.FINALS
    found = []
    for quantity in listed if of is CountOf.OTHERS else free[:1]:
        sentence.claim(quantity.start, quantity.end)
        value = CountValue(of, quantity.minimum, quantity.maximum, quantity.approximate)
        words = (("number", sentence.text[quantity.start : quantity.end]), ("noun", sentence.topic))
        reason = Reason(ReasonCode.LABEL_AND_NUMBER, words)
        found.append(draft_of(sentence, value, quantity.start, quantity.end, reason))
    return found
