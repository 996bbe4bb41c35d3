"""How many: pictures, and the parts that add up to them; places, outfits, products, setups, days."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core.drafts import CountOf, CountValue, Draft, DraftKind, Reason, ReasonCode, ShapeValue
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import Quantity, quantities
from shoots.call.core.spans import Sentence, Span

#: Kinds that are pictures.
PARTS = frozenset(
    {
        CountOf.PICTURES,
        CountOf.SHOTS,
        CountOf.HEROES,
        CountOf.DETAILS,
        CountOf.PACKSHOTS,
        CountOf.PORTRAITS,
        CountOf.LIFESTYLE,
    }
)
_GAP = re.compile(r"\s*-?(?:x\s)?(?:(?:of (?:the|our|their|these|those)|[a-z'&]+|\d{1,2}:\d{1,2})[\s-]+){0,4}\Z")
_GAP_STOP = frozenset(
    [
        "and",
        "or",
        "with",
        "in",
        "on",
        "at",
        "for",
        "by",
        "from",
        "to",
        "is",
        "are",
        "was",
        "per",
        "each",
        "every",
        "plus",
        "then",
        "than",
        "but",
        "so",
        "if",
        "a",
        "an",
        "the",
        "we",
        "they",
        "it",
        "of",
        "between",
        "before",
        "after",
        "until",
        "about",
        "over",
        "under",
        "into",
        "need",
        "needs",
        "want",
        "wants",
        "day",
        "days",
        "hour",
        "hours",
        "week",
        "weeks",
        "month",
        "months",
        "year",
        "years",
        "people",
        "as",
        "not",
        "no",
        "only",
        "can",
        "could",
        "would",
        "should",
        "must",
        "will",
        "shoot",
        "shooting",
    ]
)
_PER = re.compile(
    r"\s*(?:images?|pics?|shots?|finals?|pictures?|photos?|angles?|views?)?\s*(?:(?:of|per|for)\s(?:each|every|every one of|a)?\s?(?:the\s|our\s|their\s)?|each (?:of|for)\s(?:the |our |their )?|/|\ba\s|per\s)(?P<unit>[a-z]+)"
)
_EACH = re.compile(r"\s*(?:[a-z]+\s)?(?:each|apiece|per|of each|a piece|for each|of everything)\b")
_UNITS = {
    "product": CountOf.PRODUCTS, "sku": CountOf.PRODUCTS, "item": CountOf.PRODUCTS, "piece": CountOf.PRODUCTS, "style": CountOf.PRODUCTS, "garment": CountOf.PRODUCTS,
    "flavour": CountOf.PRODUCTS, "colourway": CountOf.PRODUCTS, "colour": CountOf.PRODUCTS, "dish": CountOf.PRODUCTS, "bottle": CountOf.PRODUCTS, "scent": CountOf.PRODUCTS, "recipe": CountOf.PRODUCTS,
    "variant": CountOf.PRODUCTS, "shade": CountOf.PRODUCTS, "pack": CountOf.PRODUCTS, "cocktail": CountOf.PRODUCTS, "look": CountOf.OUTFITS, "outfit": CountOf.OUTFITS, "location": CountOf.LOCATIONS, "place": CountOf.LOCATIONS, "spot": CountOf.LOCATIONS,
    "setup": CountOf.SETUPS, "set": CountOf.SETUPS, "scene": CountOf.SETUPS, "room": CountOf.SETUPS, "day": CountOf.DAYS, "person": CountOf.ANGLES, "bag": CountOf.PRODUCTS, "chair": CountOf.PRODUCTS, "candle": CountOf.PRODUCTS, "can": CountOf.PRODUCTS, "jar": CountOf.PRODUCTS, "mug": CountOf.PRODUCTS, "drink": CountOf.PRODUCTS, "wine": CountOf.PRODUCTS, "beer": CountOf.PRODUCTS, "design": CountOf.PRODUCTS,
}  # fmt: skip
_NOT_COUNT_AFTER = re.compile(
    r"\s?(?:%|:\d|k\b|ml\b|mm\b|cm\b|kg\b|m\b|st\b|nd\b|rd\b|th\b|am\b|pm\b|hours?\b|hrs?\b|mins?\b|minutes|years?|months?|weeks?|miles|metres|km\b|/\d)"
)
_ORDINAL_LIKE = re.compile(
    r"\b(?:option|version|page|look|room|unit|level|phase|part|stage|day|setup|set|no\.?|number|group|team|shot|plan|year|size)\s?#?\Z"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return what is counted in a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes; figures read by others are claimed already.
    hits : dict
        Phrases found in it, by table.

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
    counts = [q for q in quantities(text) if sentence.is_free(q.start, q.end)]
    nouns = [hit for hit in hits.get("countnoun", ()) if hit.code in set(CountOf)]
    for noun in nouns:
        found = _before(sentence, counts, noun, used)
        code = ReasonCode.NUMBER_AND_NOUN
        if found is None:
            found = _behind(sentence, counts, noun, used)
            code = ReasonCode.LABEL_AND_NUMBER
        if found is None:
            continue
        index, start, end = found
        used.add(index)
        quantity = counts[index]
        of = _kind(sentence, noun)
        if quantity.maximum and quantity.maximum > 2000:
            continue
        sentence.claim(quantity.start, quantity.end)
        per = _per(text, max(noun.end, quantity.end))
        drafts.append(
            Draft(
                DraftKind.COUNT,
                CountValue(of, quantity.minimum, quantity.maximum, quantity.approximate, per),
                sentence.span(start, end),
                sentence.line_no,
                Reason(code, (("number", text[quantity.start : quantity.end]), ("noun", text[noun.start : noun.end]))),
                confirm=quantity.approximate,
            )
        )
    drafts += _singles(sentence, nouns, drafts)
    if sentence.topic == "finals" and not any(
        isinstance(d.value, CountValue) and (d.value.of in PARTS or d.value.of is CountOf.FINALS) for d in drafts
    ):
        for index, quantity in enumerate(counts):
            if (
                index not in used
                and sentence.is_free(quantity.start, quantity.end)
                and not _NOT_COUNT_AFTER.match(text, quantity.end)
            ):
                drafts.append(_plain(sentence, quantity))
                break
    return sorted(drafts, key=lambda draft: draft.span)


def _plain(sentence: Sentence, quantity: Quantity) -> Draft:
    sentence.claim(quantity.start, quantity.end)
    return Draft(
        DraftKind.COUNT,
        CountValue(CountOf.FINALS, quantity.minimum, quantity.maximum, quantity.approximate),
        sentence.span(quantity.start, quantity.end),
        sentence.line_no,
        Reason(
            ReasonCode.LABEL_AND_NUMBER,
            (("number", sentence.text[quantity.start : quantity.end]), ("noun", sentence.topic)),
        ),
        confirm=quantity.approximate,
    )


def _before(sentence: Sentence, counts: list[Quantity], noun: Hit, used: set[int]) -> tuple[int, int, int] | None:
    text = sentence.text
    for index in range(len(counts) - 1, -1, -1):
        quantity = counts[index]
        if quantity.end > noun.start or index in used:
            continue
        gap = text[quantity.end : noun.start]
        said = re.sub(r"\bof (?:the|our|their|these|those)\b", " ", gap)
        if (
            _GAP.match(gap)
            and not _GAP_STOP.intersection(said.split())
            and not _ORDINAL_LIKE.search(text[: quantity.start])
        ):
            return index, quantity.start, noun.end
        return None
    return None


def _behind(sentence: Sentence, counts: list[Quantity], noun: Hit, used: set[int]) -> tuple[int, int, int] | None:
    text = sentence.text
    for index, quantity in enumerate(counts):
        if quantity.start < noun.end or index in used:
            continue
        gap = text[noun.end : quantity.start]
        strict = re.fullmatch(
            r"\s*(?:x|[:=]|-|\(|~|(?:total|needed|required|wanted)?\s?(?:of|is|are|:|=|-|x|now|about|probably|prob|maybe|total|would be|will be|should be|to be|more like|nearer|up to)*)\s*(?:about |around |roughly |maybe )?",
            gap,
        )
        if (
            strict
            and gap.strip()
            and not _NOT_COUNT_AFTER.match(text, quantity.end)
            and re.match(
                r"\s*(?:$|[,;.?!)+]|and\b|total|in total|all|max|or\b|please|plus|if|but|no\b|not\b|-|incl|including|\()",
                text[quantity.end :],
            )
        ):
            return index, noun.start, quantity.end
        return None
    return None


def _kind(sentence: Sentence, noun: Hit) -> CountOf:
    of = CountOf(noun.code)
    if of in (CountOf.PICTURES, CountOf.SHOTS) and re.match(
        r"\s*(?:in total|total|altogether|all told|overall|all up|final\b|finals\b|finished|delivered|max|to deliver)",
        sentence.text[noun.end :],
    ):
        return CountOf.FINALS
    if of in (CountOf.PICTURES, CountOf.SHOTS) and re.search(
        r"\b(?:total(?: of)?|altogether|in all|final|finished|edited|retouched|deliver(?:ing|ed)?)\b[\s:=]*(?:[\w-]+\s){0,3}\Z",
        sentence.text[: noun.start],
    ):
        return CountOf.FINALS
    return of


def _per(text: str, end: int) -> str:
    tail = text[end : end + 40]
    if match := _PER.match(tail):
        from shoots.call.core.spans import stem

        unit = stem(match["unit"])
        if unit in _UNITS:
            return _UNITS[unit].value
        if unit in ("each", "every"):
            return CountOf.PRODUCTS.value
    return "each" if _EACH.match(tail) else ""


def _singles(sentence: Sentence, nouns: Sequence[Hit], drafts: list[Draft]) -> list[Draft]:
    """ "A hero and three crops": an article counts as one for kinds of pictures."""
    found = []
    for noun in nouns:
        if noun.code not in ("heroes", "portraits", "packshots", "shots") or sentence.text[
            noun.start : noun.end
        ].endswith("s"):
            continue
        article = re.search(r"(?:\ban?|\bone|\+|\bplus|\bthe)\s+(?:[a-z-]+\s)?\Z", sentence.text[: noun.start])
        if not article or article.group().startswith("the") or not re.match(r"(?:an?|one)\b", article.group()):
            continue
        span = sentence.span(article.start(), noun.end)
        if any(d.span.start < span.end and span.start < d.span.end for d in drafts) or not sentence.is_free(
            article.start(), noun.end
        ):
            continue
        words = sentence.text[noun.start : noun.end]
        found.append(
            Draft(
                DraftKind.COUNT,
                CountValue(CountOf(noun.code), 1, 1),
                span,
                sentence.line_no,
                Reason(ReasonCode.NUMBER_AND_NOUN, (("number", "1"), ("noun", words))),
            )
        )
    return found


def finals(drafts: Sequence[Draft], source: str) -> Draft | None:
    """Return how many finished pictures the notes ask for, however it is said.

    Parameters
    ----------
    drafts : sequence of Draft
        All live drafts.
    source : str
        The notes, to see how parts are joined.

    Returns
    -------
    Draft or None
        A count of finals: one that was said, the product of "two each" and a number of things, or the sum of the
        parts; None when nothing was said.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> finals((), "") is None
    True
    """
    counts = [d for d in drafts if isinstance(d.value, CountValue) and not d.wish]
    said = [d for d in counts if isinstance(d.value, CountValue) and d.value.of is CountOf.FINALS and not d.value.per]
    if said:
        return _summed(said, ReasonCode.NUMBER_AND_NOUN) if len(said) > 1 and _additive(said, source) else said[-1]
    multiplied = _multiplied(counts)
    parts = [d for d in counts if isinstance(d.value, CountValue) and d.value.of in PARTS and not d.value.per]
    if multiplied:
        used = {multiplied.span}
        rest = [
            d
            for d in parts
            if isinstance(d.value, CountValue)
            and d.span not in used
            and d.value.of not in (CountOf.PICTURES,)
            and d.span != multiplied.span
        ]
        return _summed([multiplied, *rest], ReasonCode.TIMES_EACH) if rest else multiplied
    if parts:
        return _from_parts(parts, counts, source)
    shaped = [d for d in drafts if isinstance(d.value, ShapeValue) and d.value.count and not d.wish]
    if shaped:
        total = sum(d.value.count or 0 for d in shaped if isinstance(d.value, ShapeValue))
        return replace(
            shaped[0],
            kind=DraftKind.COUNT,
            value=CountValue(CountOf.FINALS, total, total),
            span=_hull(shaped),
            reason=Reason(ReasonCode.SUM_OF_PARTS, (("parts", str(len(shaped))),)),
            confirm=True,
        )
    return None


def _additive(said: list[Draft], source: str) -> bool:
    between = [source[a.span.end : b.span.start] for a, b in zip(said, said[1:], strict=False)]
    return all(re.search(r"\+|\bplus\b|\band\b|&", gap.lower()) and len(gap) < 60 for gap in between)


def _multiplied(counts: list[Draft]) -> Draft | None:
    for draft in counts:
        value = draft.value
        if (
            not isinstance(value, CountValue)
            or not value.per
            or value.of not in PARTS | {CountOf.FINALS, CountOf.ANGLES}
        ):
            continue
        units = [
            d
            for d in counts
            if d is not draft
            and isinstance(d.value, CountValue)
            and d.value.of not in PARTS | {CountOf.FINALS, CountOf.CROPS, CountOf.ANGLES, CountOf.DAYS}
            and (value.per == "each" or d.value.of.value == value.per)
        ]
        if not units:
            continue
        unit = min(units, key=lambda d: abs(d.span.start - draft.span.start))
        if not isinstance(unit.value, CountValue):
            continue
        low = (value.minimum or value.maximum or 0) * (unit.value.minimum or unit.value.maximum or 0)
        high = (value.maximum or value.minimum or 0) * (unit.value.maximum or unit.value.minimum or 0)
        return replace(
            draft,
            value=CountValue(CountOf.FINALS, low, high, value.approximate or unit.value.approximate),
            span=_hull([draft, unit]),
            reason=Reason(ReasonCode.TIMES_EACH, (("each", str(value.maximum)), ("times", str(unit.value.maximum)))),
        )
    return None


def _from_parts(parts: list[Draft], counts: list[Draft], source: str) -> Draft:
    crops = [d for d in counts if isinstance(d.value, CountValue) and d.value.of is CountOf.CROPS]
    general = [d for d in parts if isinstance(d.value, CountValue) and d.value.of in (CountOf.PICTURES, CountOf.SHOTS)]
    special = [d for d in parts if d not in general]
    if general and special:
        most = max(
            general, key=lambda d: d.value.maximum or d.value.minimum or 0 if isinstance(d.value, CountValue) else 0
        )
        inside = [d for d in special if not _added(source, most, d)]
        total = sum(d.value.maximum or d.value.minimum or 0 for d in inside if isinstance(d.value, CountValue))
        size = most.value.maximum or most.value.minimum or 0 if isinstance(most.value, CountValue) else 0
        if inside and total <= size:
            outside = [d for d in parts if d not in inside and (d is most or d in special or _added(source, most, d))]
            return _summed(outside, ReasonCode.SUM_OF_PARTS) if len(outside) > 1 else most
    if len(parts) == 1:
        return (
            replace(parts[0], reason=Reason(ReasonCode.HERO_WITH_CROPS, parts[0].reason.params)) if crops else parts[0]
        )
    return _summed(parts, ReasonCode.SUM_OF_PARTS)


def _added(source: str, whole: Draft, part: Draft) -> bool:
    """Return whether a part comes on top of a whole ("8 shots plus 2 heroes") and not out of it ("12: 4 heroes, ...")."""
    first, second = sorted((whole.span, part.span))
    gap = source[first.end : second.start].lower()
    lead = source[max(0, part.span.start - 12) : part.span.start].lower()
    if re.search(r":|\(|incl|of which|of them|made up|split|broken|consist|i\.e|namely|\bas\b", gap[:40]):
        return False
    if re.search(r"(?:\+|\bplus|\band|&|\balso|as well as|along with|extra)\s*(?:an?\s)?\s*\Z", lead):
        return True
    return part.value.of not in (CountOf.HEROES, CountOf.DETAILS) if isinstance(part.value, CountValue) else True


def _hull(drafts: Sequence[Draft]) -> Span:
    return Span(min(d.span.start for d in drafts), max(d.span.end for d in drafts))


def _summed(parts: Sequence[Draft], code: ReasonCode) -> Draft:
    values = [d.value for d in parts if isinstance(d.value, CountValue)]
    low = sum((v.minimum if v.minimum is not None else v.maximum) or 0 for v in values)
    high = sum((v.maximum if v.maximum is not None else v.minimum) or 0 for v in values)
    return replace(
        parts[0],
        value=CountValue(CountOf.FINALS, low, high, any(v.approximate for v in values)),
        span=_hull(parts),
        reason=Reason(code, (("parts", str(len(values))),)),
        corrects=tuple(span for d in parts for span in d.corrects),
    )
