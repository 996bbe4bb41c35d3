"""Pictures of each of several things: "two per look", "3 sofas, 1 wide and 2 details each", "6 mugs in 4 glazes"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shoots.call.core.count_words import PARTS
from shoots.call.core.drafts import CountOf, CountValue, Draft, PersonValue, ProductValue, Reason, ReasonCode
from shoots.call.core.numbers import quantities
from shoots.call.core.spans import Span, stem

#: So far from "each" its things may be counted. [lines]
NEAR_LINES = 4
_EACH = re.compile(r"\b(?:per|each|every)\b")
_EACH_NEXT = re.compile(r"\s(?:each|apiece)\b")
_EACH_OF = re.compile(r"\s(?:each )?(?:of|for) (?:each of )?(?:the |our |their |these |those )?")
_PER_NOUN = re.compile(
    r"\s?(?:per|for each|of each|for every|of every|each|(?:of|for) each of the)\s(?P<noun>[a-z]{3,})\b"
)
_NOUN = re.compile(r"\s(?:[a-z]+\s){0,2}(?P<noun>[a-z-]{3,}s|people|staff|men|women|children|sheep|fish|knives)\b")
_TIMES = re.compile(r"\s*(?:x|×|\*|times|of|at|,?\s?with)\s*\Z")
#: What comes in several of one thing: "6 mugs in 4 glazes".
_VARIANTS = re.compile(r"\s?(?:,? ?(?:each |all )?(?:in|x|with|and)|,)\s?\Z")
_VARIANT = re.compile(
    r"colou?rs?|colou?rways?|fabrics?|finish(?:es)?|glazes?|sizes?|flavou?rs?|shades?|prints?|leathers?|woods?|"
    r"scents?|metals?|variants?|stains?|cuts?"
)
#: Nouns that stand for whatever is sold.
_ANY_THING = frozenset(
    ["product", "item", "piece", "sku", "style", "design", "thing", "one", "line", "article", "model", "variant"]
)
_NO_THING = re.compile(
    r"^(?:days|hours|weeks|months|years|minutes|mins|hrs|times|versions|rounds|revisions|seasons|options|pics|images|"
    r"shots|pictures|photos|stills|finals|crops|formats|ratios|videos|reels|clips|films|gifs|euros|pounds|dollars|"
    r"orientations|ways|directions|details|heroes|portraits|squares|banners|stories|its|this|was|has|is)$"
)
_EACH_AHEAD = re.compile(r"\b(?:each|every|per)\s(?:[a-z]+[\s:,]+)?(?:with\s)?(?:an?\s)?\Z")
#: "2 wide 4 tight per location x 3 locations".
_PER_AHEAD = re.compile(r"\s?(?:[a-z]+\s)?(?:per|of each|for each|each|in each)\s[a-z]+\s?(?:x|,|-|=|:|\(|\.)?\s?")
_SHARES = re.compile(r"[\s,:;(-]*(?:and|\+|&|plus|x)?\s*(?:an?\s)?")
_LEADS = re.compile(
    r"[^.;\n]{0,16}(?:[,:(]|\s-|\bat|\bwith|\bneeds?|\bgets?|\bgetting|\bwants?|\bhave|\bx)?\s*(?:each\s)?(?:an?\s|the\s)?"
)
_OF_ALL = re.compile(r"\b(?:groups?|team|family|range|line-?ups?|everyone|everybody|all|whole|ensemble|spread)\b")


@dataclass(frozen=True, slots=True)
class Part:
    """A count on its way to the total; `unit` names what a thing is."""

    draft: Draft
    value: CountValue
    unit: str = ""

    @property
    def size(self) -> int:
        """Return the most that it stands for. [1]"""
        return self.value.maximum or self.value.minimum or 0


def things(drafts: Sequence[Draft], counts: Sequence[Part], text: str) -> list[Part]:
    """Return what "two each" may be each of and was not counted as such: products, people, nouns of any kind.

    Parameters
    ----------
    drafts : sequence of Draft
        Live drafts.
    counts : sequence of Part
        What was counted.
    text : str
        The notes in lower case.

    Returns
    -------
    list of Part
        Counts of things.

    References
    ----------
    Own rules, see tests.
    """
    found = []
    for draft in drafts:
        value = draft.value
        many = (
            value.quantity
            if isinstance(value, ProductValue)
            else value.count
            if isinstance(value, PersonValue)
            else None
        )
        unit = "products" if isinstance(value, ProductValue) else "people"
        if many and not any(_overlap(p.draft.span, draft.span) for p in counts):
            found.append(Part(draft, CountValue(CountOf.PRODUCTS, many, many), unit))
    if any(p.value.per for p in counts) or _EACH.search(text):
        found += list(_named_things(counts, found, text))
    return found


def _overlap(first: Span, second: Span) -> bool:
    return first.start < second.end and second.start < first.end


def _named_things(counts: Sequence[Part], known: Sequence[Part], text: str) -> Iterator[Part]:
    """Yield counted nouns of no lexicon ("four cabins") near a count."""
    at, lines = 0, text.split("\n")
    near = {number for number, line in enumerate(lines) if _EACH.search(line)}
    for number, line in enumerate(lines):
        close = counts and not near.isdisjoint(range(number - NEAR_LINES, number + NEAR_LINES + 1))
        for quantity in quantities(line) if close else ():
            noun = _NOUN.match(line, quantity.end)
            span = Span(at + quantity.start, at + (noun.end() if noun else quantity.end))
            if (
                noun
                and not _NO_THING.match(noun["noun"])
                and not re.search(r"[£$€:/]\s?\Z|\bat \Z", line[: quantity.start])
                and not any(_overlap(p.draft.span, span) for p in (*counts, *known))
            ):
                value = CountValue(CountOf.PRODUCTS, quantity.minimum, quantity.maximum, quantity.approximate)
                base = counts[0].draft
                yield Part(replace(base, value=value, span=span, confirm=True), value, stem(noun["noun"]))
        at += len(line) + 1


def multiplied(counts: Sequence[Part], text: str) -> tuple[list[Part], list[Part]]:
    """Return every "two each" times the number of what it is each of.

    Parameters
    ----------
    counts : sequence of Part
        Counts and things, in order.
    text : str
        The notes in lower case.

    Returns
    -------
    tuple of list
        The products, and the parts that went into them.

    References
    ----------
    Own rules, see tests.
    """
    made: list[Part] = []
    used: list[Part] = []
    for index, part in enumerate(counts):
        if part.value.of not in PARTS | {CountOf.FINALS, CountOf.ANGLES}:
            continue
        unit = _unit_of(counts, index, text) or _shared_unit(counts, index, text)
        if unit is None:
            continue
        low, high, taken = _size_of(counts, unit, text)
        low *= part.value.minimum or part.size
        high *= part.size
        least = None if part.value.minimum is None else low
        most = None if part.value.maximum is None else high
        if _says_how(counts, index, unit, high, text):
            used += [part, unit]
            continue
        value = CountValue(CountOf.FINALS, least, most, part.value.approximate or unit.value.approximate)
        span = Span(min(part.draft.span.start, unit.draft.span.start), max(part.draft.span.end, unit.draft.span.end))
        reason = Reason(ReasonCode.TIMES_EACH, (("each", str(part.size)), ("times", str(high // (part.size or 1)))))
        parts = tuple(sorted({part.draft.span, *(p.draft.span for p in taken)}))
        made.append(Part(replace(part.draft, value=value, span=span, reason=reason, confirm=True, parts=parts), value))
        used += [part, *taken]
    return made, used


def _size_of(counts: Sequence[Part], unit: Part, text: str, depth: int = 0) -> tuple[int, int, list[Part]]:
    """Return how many of a unit there are: "4 models, 3 looks each" are twelve looks, "6 mugs in 4 glazes" 24."""
    low, high, taken = unit.value.minimum or unit.size, unit.size, [unit]
    index = next((n for n, p in enumerate(counts) if p is unit), -1)
    after = counts[index + 1] if 0 <= index < len(counts) - 1 else None
    if after and _VARIANTS.fullmatch(text[unit.draft.span.end : after.draft.span.start]):
        words = text[after.draft.span.start : after.draft.span.end].split()
        joint = text[unit.draft.span.end : after.draft.span.start].strip()
        if after.value.of not in PARTS and _VARIANT.fullmatch(words[-1]) and (joint != "," or after.value.per):
            return low * (after.value.minimum or after.size), high * after.size, [unit, after]
    ahead = counts[index - 1] if index > 0 else None
    if ahead and ahead.value.of not in PARTS | {CountOf.FINALS} and _EACH_NEXT.match(text, unit.draft.span.end):
        return low * (ahead.value.minimum or ahead.size), high * ahead.size, [ahead, unit]  # "5 dogs, 2 coats each"
    if index > 0 and not unit.value.per and not _is_variant(unit, text):
        low, high, taken = _with_the_others(counts, index, text)
    if unit.value.per and depth < 2 and index >= 0:
        outer = _unit_of(counts, index, text)
        if outer is not None and outer is not unit and outer.value.of not in PARTS:
            more_low, more_high, more = _size_of(counts, outer, text, depth + 1)
            return low * more_low, high * more_high, [*taken, *more]
    return low, high, taken


_AND = re.compile(r"\s*(?:[a-z]+\s){0,2}(?:,|\band\b|&|\+|\bplus\b|\s)\s*(?:and |the |plus )*")


def _with_the_others(counts: Sequence[Part], index: int, text: str) -> tuple[int, int, list[Part]]:
    """Return the sum of a list of things: "22 rings, 9 cuffs, 6 pairs of earrings. One picture of each"."""
    unit = counts[index]
    taken = [unit]
    for other in reversed(counts[:index]):
        gap = text[other.draft.span.end : taken[-1].draft.span.start]
        if other.draft.span.end > taken[-1].draft.span.start:
            continue  # the same words, read twice
        kin = (other.unit == "people") == (unit.unit == "people") and other.value.of is CountOf.PRODUCTS
        if not kin or other.value.per or _is_variant(other, text) or not _AND.fullmatch(gap):
            break
        taken.append(other)
    low = sum(p.value.minimum or p.size for p in taken)
    return low, sum(p.size for p in taken), taken


def _says_how(counts: Sequence[Part], index: int, unit: Part, many: int, text: str) -> bool:
    """Return whether a product only says how the number before it comes about: "18 (6 per range, 3 ranges)"."""
    part = counts[index]
    before = [p for p in counts[:index] if p.value.of in PARTS | {CountOf.FINALS} and not p.value.per]
    if not before or before[-1].size != many or before[-1] is unit:
        return False
    return bool(
        re.fullmatch(
            r"\s*(?:[a-z]+\s){0,2}(?:[,:(=-]|i\.?e\.?,?)\s*", text[before[-1].draft.span.end : part.draft.span.start]
        )
    )


def _unit_of(counts: Sequence[Part], index: int, text: str) -> Part | None:
    part = counts[index]
    left_out = {CountOf.CROPS, CountOf.ANGLES, *(() if part.value.per == "days" else (CountOf.DAYS,))}
    rest = [p for p in counts if p is not part and p.value.of not in left_out]
    for other in (counts[index - 1] if index else None, counts[index + 1] if index + 1 < len(counts) else None):
        if other in rest and other is not None and other.value.of not in PARTS:
            first, second = sorted((part.draft.span, other.draft.span))
            gap = text[first.end : second.start]
            if gap.strip() in ("of", "with", "at") and not (
                other.value.of is CountOf.SETUPS and other.draft.span < part.draft.span
            ):
                continue  # "20 pictures of 5 products" are twenty, "three sets of five pictures" fifteen
            if _TIMES.fullmatch(gap) and not part.value.per:
                return other
            if part.value.of is CountOf.ANGLES and first == other.draft.span and re.fullmatch(r"\s*[,@(]\s*", gap):
                return other  # "16 skus, 2 angles"
    nouns = _nouns_of(part, text)
    named = [p for p in rest if nouns and p.value.of not in PARTS | {CountOf.FINALS} and nouns & _nouns_in(p, text)]
    if named:
        return min(named, key=lambda p: _distance(p, part))
    if not part.value.per:
        return None
    if part.value.per == "each":
        return _unit_of_each(rest, part, text) if not nouns - {"the", "one", "of"} else _any_thing(rest, part, nouns)
    units = [p for p in rest if (p.unit or p.value.of.value) == part.value.per]
    return min(units, key=lambda p: _distance(p, part)) if units else _any_thing(rest, part, nouns)


def _distance(first: Part, second: Part) -> int:
    return abs(first.draft.span.start - second.draft.span.start)


def _nouns_of(part: Part, text: str) -> set[str]:
    """Return the stem of what a count is said to be per: "per cabin", "for each kitchen one wide"."""
    behind = _PER_NOUN.match(text, part.draft.span.end)
    before = re.search(
        r"\b(?:per|each|every) (?P<noun>[a-z]{3,})[\s:,]*(?:an?\s)?\Z",
        text[max(0, part.draft.span.start - 30) : part.draft.span.start],
    )
    found = {stem(m["noun"]) for m in (behind, before) if m}
    return found - {"with", "from", "and", "shot", "pic", "picture", "image"}


def _nouns_in(part: Part, text: str) -> set[str]:
    words = re.findall(r"[a-z-]{3,}", text[part.draft.span.start : part.draft.span.end])
    behind = re.match(r"\s(?:[a-z]+\s)?(?P<noun>[a-z-]{3,})\b", text[part.draft.span.end : part.draft.span.end + 30])
    found = {stem(word) for word in words}
    if behind and part.unit != "people":
        found.add(stem(behind["noun"]))
    return found


def _any_thing(rest: Sequence[Part], part: Part, nouns: set[str]) -> Part | None:
    """ "One per product" where only mugs were counted."""
    if not nouns & _ANY_THING and part.value.per != CountOf.PRODUCTS.value:
        return None
    found = [p for p in rest if p.value.of is CountOf.PRODUCTS and p.unit != "people"]
    return min(found, key=lambda p: _distance(p, part)) if found else None


def _unit_of_each(rest: Sequence[Part], part: Part, text: str) -> Part | None:
    for after in rest:
        gap = text[part.draft.span.end : after.draft.span.start] if after.draft.span > part.draft.span else ""
        if _EACH_OF.fullmatch(gap):
            return after  # "three pictures each of 4 chairs"
    before = [p for p in rest if p.draft.span.end <= part.draft.span.start]
    before = [p for p in before if not p.value.per or p.value.of not in PARTS | {CountOf.FINALS}]
    plain = [p for p in before if p.value.of not in PARTS | {CountOf.FINALS}]
    if part.value.of is CountOf.ANGLES:
        return (plain or before)[-1] if before else None
    near = (plain or before)[-1:] or [p for p in rest if p.value.of not in PARTS | {CountOf.FINALS}][:1]
    unit = near[0] if near else None
    if unit is not None and _is_variant(unit, text):
        owner = [p for p in plain if p.draft.span.end <= unit.draft.span.start][-1:]
        gap = text[owner[0].draft.span.end : unit.draft.span.start] if owner else "."
        if owner and _VARIANTS.fullmatch(gap):
            return owner[0]
    return unit


def _is_variant(unit: Part, text: str) -> bool:
    words = text[unit.draft.span.start : unit.draft.span.end].split()
    return bool(words and _VARIANT.fullmatch(words[-1]))


def _shared_unit(counts: Sequence[Part], index: int, text: str) -> Part | None:
    """Return what a neighbour in the list is each of: "3 sofas, one wide and two details each"."""
    part = counts[index]
    if part.value.per or part.size > 4 or _OF_ALL.search(text[part.draft.span.start : part.draft.span.end]):
        return None
    at, last = index, part
    while at + 1 < len(counts):
        after = counts[at + 1]
        gap = text[last.draft.span.end : after.draft.span.start]
        if after.value.of not in PARTS or after.size > 4 or not _SHARES.fullmatch(gap) or "\n" in gap:
            break
        at, last = at + 1, after
        if last.value.per:
            unit = _unit_of(counts, at, text)
            if unit is None or unit.draft.span > last.draft.span or index == 0:
                between = text[last.draft.span.end : unit.draft.span.start] if unit is not None else "."
                same = unit is not None and (_EACH_OF.match(between) or _PER_AHEAD.fullmatch(between))
                return unit if same else None
            first = next(
                (p for p in reversed(counts[:index]) if p.value.of in PARTS and p.draft.span > unit.draft.span), None
            )
            start = first.draft.span.start if first else part.draft.span.start
            lead = text[unit.draft.span.end : start]
            return unit if _LEADS.fullmatch(lead) or lead.isspace() else None
    ahead = counts[index - 1] if index else None
    if ahead and ahead.value.of in PARTS and _EACH_AHEAD.search(text[: ahead.draft.span.start]):
        gap = text[ahead.draft.span.end : part.draft.span.start]
        if re.fullmatch(r"\s*(?:and|\+|&|,)?\s*(?:an?\s)?", gap):
            return _unit_of(counts, index - 1, text)  # "6 recipes, each one hero and one step shot"
    return None
