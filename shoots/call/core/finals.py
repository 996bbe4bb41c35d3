"""How many finished pictures the notes ask for, however it is said: a total, "two of each", or parts to be added."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shoots.call.core.count_words import PARTS
from shoots.call.core.drafts import (
    CountOf,
    CountValue,
    Draft,
    DraftKind,
    PersonValue,
    ProductValue,
    Reason,
    ReasonCode,
    ShapeValue,
)
from shoots.call.core.numbers import quantities
from shoots.call.core.spans import Span, stem

#: More counts than that are in no notes of a call; what comes behind is not added up.
MOST_COUNTS = 300
#: How far back a thing may have been counted ("3 straps ... four packshots per strap"). [characters]
LOOK_BACK = 1_000
_GENERAL = (CountOf.PICTURES, CountOf.SHOTS)
_ADDED = re.compile(
    r"(?:\+|\bplus|\band|&|\balso|as well as|along with|\bextra|\bthen)\s*(?:(?:an?|the|about|another)\s)?\s*\Z"
)
_OUT_OF = re.compile(
    r":|\(|\bincl|of which|of them|made up|split|broken|consist|i\.e|namely|\brest\b|remaining|\bothers?\b"
)
_SHAPED = re.compile(
    r"\s?(?:in |at |as |\()?\s?(?:\d{1,2}:\d|squares?\b|portrait\b|landscape\b|vertical|upright|banner)"
)
_EACH_OF = re.compile(r"\s(?:each )?(?:of|for) (?:each of )?(?:the |our |their )?")
_PER_NOUN = re.compile(r"\s?(?:per|for each|of each|for every|each)\s(?P<noun>[a-z]{3,})\b")
_NEXT = re.compile(r"[a-z-]{3,}")
_TIMES = re.compile(r"\s*(?:x|×|\*|times|of|,?\s?with)\s*\Z")


@dataclass(frozen=True, slots=True)
class _Part:
    draft: Draft
    value: CountValue
    unit: str = ""

    @property
    def size(self) -> int:
        return self.value.maximum or self.value.minimum or 0


def add_up(drafts: Sequence[Draft], source: str) -> Draft | None:
    """Return the number of finished pictures.

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
        parts; None when nothing was said. Crops and wishes do not count.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> add_up((), "") is None
    True
    """
    text = source.lower()
    drafts = [d for d in drafts if isinstance(d.value, (CountValue, ProductValue, PersonValue, ShapeValue))]
    drafts = drafts[:MOST_COUNTS]
    counts = [_Part(d, d.value) for d in drafts if isinstance(d.value, CountValue) and not d.wish]
    units = sorted((*counts, *_things(drafts, counts)), key=lambda part: part.draft.span)
    said = [p for p in counts if p.value.of is CountOf.FINALS and not p.value.per]
    counts = [p for p in counts if not _restated(p, counts)]
    counts = _without_break_down(counts, text)
    totals = [p for p in said if dict(p.draft.reason.params).get("noun") == "total"]
    if totals:
        last = totals[-1]
        behind = [
            p
            for p in counts
            if p.value.of in PARTS
            and p.draft.span > last.draft.span
            and (p.value.of is not CountOf.PICTURES or not dict(p.draft.reason.params).get("noun"))
        ]
        return _with_added([last], [p for p in behind if not p.value.per], text)
    multiplied, used = _multiplied(units, text)
    parts = [p for p in counts if p.value.of in PARTS and not p.value.per and p not in used]
    if said:
        whole = _with_added(said, [p for p in parts if p.value.of is not CountOf.PICTURES], text)
        return _with_shapes(whole, drafts, text)
    if multiplied:
        general = [p for p in parts if p.value.of is CountOf.PICTURES]
        if general and max(p.size for p in general) >= sum(p.size for p in multiplied):
            return _from_parts(list(parts), text)
        rest = [
            p
            for p in parts
            if p.value.of is not CountOf.PICTURES
            or not dict(p.draft.reason.params).get("noun")
            or re.search(r"(?:\+|\bplus|\balso|\bextra|\banother)\b[^.]{0,16}\Z", text[: p.draft.span.start])
        ]
        return _sum([*multiplied, *rest], ReasonCode.TIMES_EACH)
    if parts:
        crops = any(p.value.of is CountOf.CROPS for p in counts)
        if len(parts) == 1 and crops:
            return replace(parts[0].draft, reason=Reason(ReasonCode.HERO_WITH_CROPS, parts[0].draft.reason.params))
        return _with_shapes(_from_parts(parts, text), drafts, text)
    return _from_shapes(drafts, text)


def _without_break_down(counts: list[_Part], text: str) -> list[_Part]:
    """Leave out what only breaks a number down: "15 images: 5 heroes, 10 details"."""
    parts = sorted(
        (p for p in counts if p.value.of in PARTS | {CountOf.FINALS} and not p.value.per), key=lambda p: p.draft.span
    )
    for index, whole in enumerate(parts):
        gap = text[whole.draft.span.end : parts[index + 1].draft.span.start] if index + 1 < len(parts) else ""
        total, behind = 0, []
        for part in parts[index + 1 :]:
            total += part.size
            behind.append(part)
            if total >= whole.size:
                break
        if len(behind) > 1 and total == whole.size and re.search(r"[:(=-]|\bof which|\bincl|\bi\.?e\b", gap[:24]):
            return [p for p in counts if p not in behind]
    return counts


def _things(drafts: Sequence[Draft], counts: Sequence[_Part]) -> list[_Part]:
    """Products and people with a number: what "two each" may be each of."""
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
        if many and not any(
            p.draft.span.start < draft.span.end and draft.span.start < p.draft.span.end for p in counts
        ):
            found.append(_Part(draft, CountValue(CountOf.PRODUCTS, many, many), unit))
    return found


def _restated(part: _Part, counts: Sequence[_Part]) -> bool:
    """Return whether "a cut-out" only speaks of the "three cut-outs" that are counted elsewhere."""
    single = (
        dict(part.draft.reason.params).get("number") == "1" and part.draft.reason.code is ReasonCode.NUMBER_AND_NOUN
    )
    again = not part.value.per and any(
        p.value.of is part.value.of and p.size == part.size and p.draft.line_no < part.draft.line_no for p in counts
    )
    return again or (
        single and part.size == 1 and any(p is not part and p.value.of is part.value.of and p.size > 1 for p in counts)
    )


def _with_added(said: Sequence[_Part], parts: Sequence[_Part], text: str) -> Draft:
    """The last total that was said, with what is plainly added to it ("12 finals + 24 cutouts")."""
    taken = [said[-1]]
    if len(said) > 1 and all(_joined(text, a, b) for a, b in itertools.pairwise(said)):
        taken = list(said)
    for part in sorted(parts, key=lambda p: p.draft.span):
        last = max(taken, key=lambda p: p.draft.span)
        if part.draft.span.start >= last.draft.span.end and _joined(text, last, part):
            taken.append(part)
    return _sum(taken, ReasonCode.SUM_OF_PARTS) if len(taken) > 1 else taken[0].draft


def _joined(text: str, first: _Part, second: _Part) -> bool:
    gap = text[first.draft.span.end : second.draft.span.start]
    return len(gap) < 40 and bool(_ADDED.search(gap)) and not _OUT_OF.search(gap) and "." not in gap


def _multiplied(counts: Sequence[_Part], text: str) -> tuple[list[_Part], list[_Part]]:
    """Every "two each" times the number of what it is each of."""
    made: list[_Part] = []
    used: list[_Part] = []
    for index, part in enumerate(counts):
        if part.value.of not in PARTS | {CountOf.FINALS, CountOf.ANGLES}:
            continue
        unit = _unit_of(counts, index, text) or _shared_unit(counts, index, text)
        if unit is None:
            continue
        low = (part.value.minimum or part.size) * (unit.value.minimum or unit.size)
        value = CountValue(CountOf.FINALS, low, part.size * unit.size, part.value.approximate or unit.value.approximate)
        span = Span(min(part.draft.span.start, unit.draft.span.start), max(part.draft.span.end, unit.draft.span.end))
        reason = Reason(ReasonCode.TIMES_EACH, (("each", str(part.size)), ("times", str(unit.size))))
        made.append(_Part(replace(part.draft, value=value, span=span, reason=reason), value))
        used += [part, unit]
    return made, used


def _unit_of(counts: Sequence[_Part], index: int, text: str) -> _Part | None:
    part = counts[index]
    left_out = {CountOf.CROPS, CountOf.ANGLES, *(() if part.value.per == "days" else (CountOf.DAYS,))}
    things = [p for p in counts if p is not part and p.value.of not in left_out]
    for other in (counts[index - 1] if index else None, counts[index + 1] if index + 1 < len(counts) else None):
        if other in things and other is not None and other.value.of not in PARTS:
            first, second = sorted((part.draft.span, other.draft.span))
            gap = text[first.end : second.start]
            if gap.strip() == "of" and not (other.value.of is CountOf.SETUPS and other.draft.span < part.draft.span):
                continue  # "20 pictures of 5 products" are twenty, "three sets of five pictures" fifteen
            if _TIMES.fullmatch(gap) and not part.value.per:
                return other
    if (named := _named_unit(part, text)) is not None or not part.value.per:
        return named
    if part.value.per == "each":
        for after in things:
            gap = text[part.draft.span.end : after.draft.span.start] if after.draft.span > part.draft.span else ""
            if _EACH_OF.fullmatch(gap):
                return after  # "three pictures each of 4 chairs"
        before = [p for p in things if p.draft.span.end <= part.draft.span.start and not p.value.per]
        plain = [p for p in before if p.value.of not in PARTS | {CountOf.FINALS}]
        if part.value.of is CountOf.ANGLES:
            return (plain or before)[-1] if before else None
        near = (plain or before)[-1:] or [p for p in things if p.value.of not in PARTS | {CountOf.FINALS}][:1]
        return near[0] if near else None
    units = [p for p in things if (p.unit or p.value.of.value) == part.value.per]
    return min(units, key=lambda p: abs(p.draft.span.start - part.draft.span.start)) if units else None


def _shared_unit(counts: Sequence[_Part], index: int, text: str) -> _Part | None:
    """Return what the next one is each of, when this one is joined to it: "one hero and one process shot each"."""
    after = counts[index + 1] if index + 1 < len(counts) else None
    part = counts[index]
    ahead = counts[index - 1] if index else None
    if ahead and not part.value.per and ahead.value.per == "each" and ahead.size == part.size:
        gap = text[ahead.draft.span.end : part.draft.span.start]
        if re.search(r"\beach\s\Z", text[: ahead.draft.span.start]) and re.fullmatch(r"\s*(?:and|\+|&)\s*", gap):
            return _unit_of(counts, index - 1, text)  # "6 recipes, each one hero and one step shot"
    same = after is not None and part.size == after.size
    if after is None or not same or part.value.per or after.value.per != "each" or after.value.of not in PARTS:
        return None
    gap = text[part.draft.span.end : after.draft.span.start]
    return _unit_of(counts, index + 1, text) if re.fullmatch(r"\s*(?:and|\+|&)\s*(?:an?\s)?", gap) else None


def _named_unit(part: _Part, text: str) -> _Part | None:
    """Return how many there are of a thing that is in no lexicon: "3 straps ... four packshots per strap"."""
    unit = _PER_NOUN.match(text, part.draft.span.end)
    if not unit:
        return None
    noun = stem(unit["noun"])
    since = max(0, part.draft.span.start - LOOK_BACK)
    before = text[since : part.draft.span.start]
    for quantity in quantities(before):
        many = quantity.maximum or quantity.minimum
        behind = next(
            (w for w in _NEXT.finditer(before, quantity.end, quantity.end + 48) if stem(w.group()) == noun), None
        )
        between = before[quantity.end : behind.start()] if behind else ","
        if behind and many and len(between.split()) < 3 and not re.search(r"[,;.:\d]", between):
            span = Span(since + quantity.start, since + behind.end())
            value = CountValue(CountOf.PRODUCTS, quantity.minimum, quantity.maximum, quantity.approximate)
            return _Part(replace(part.draft, value=value, span=span), value)
    return None


def _from_parts(parts: Sequence[_Part], text: str) -> Draft:
    general = [p for p in parts if p.value.of in _GENERAL]
    special = [p for p in parts if p not in general]
    if not general:
        return _sum(parts, ReasonCode.SUM_OF_PARTS)
    whole = max(general, key=lambda p: p.size)
    parts = [p for p in parts if p is whole or not _is_for(p, text)]
    behind = [p for p in parts if p is not whole and p.draft.span > whole.draft.span]
    if len(behind) > 1 and sum(p.size for p in behind) == whole.size:
        parts = [p for p in parts if p not in behind]  # "7 pics: 3 of the shop, 4 of the owner"
        special = [p for p in special if p in parts]
    taken = [whole]
    inside = 0
    for part in sorted((p for p in parts if p is not whole), key=lambda p: p.draft.span):
        if _is_inside(text, whole, part, inside):
            inside += part.size
        elif part.value.of in _GENERAL and part.size == whole.size and not _for_other_use(text, whole, part):
            continue
        else:
            taken.append(part)
    if (
        special
        and (len(special) > 1 or re.search(r"\b(?:so|makes|total|that's)\b|=", text[special[-1].draft.span.end :][:24]))
        and len(taken) > 1
        and sum(p.size for p in special) == whole.size
        and whole.draft.span > special[-1].draft.span
    ):
        return whole.draft  # "4 heroes, 8 details, so 12 pictures"
    return _sum(taken, ReasonCode.SUM_OF_PARTS) if len(taken) > 1 else whole.draft


_USE = re.compile(r"\s?for (?:the )?(?P<use>web|website|print|press|social|socials|shop|brochure|packaging|posters?)\b")


def _for_other_use(text: str, first: _Part, second: _Part) -> bool:
    """Return whether the same number is asked for twice: "12 stills for web. 12 stills for print"."""
    one, two = _USE.match(text, first.draft.span.end), _USE.match(text, second.draft.span.end)
    return bool(one and two and one["use"] != two["use"])


def _is_for(part: _Part, text: str) -> bool:
    """Return whether pictures are a share of the whole: "her daughter for two pictures"."""
    before = text[max(0, part.draft.span.start - 12) : part.draft.span.start]
    return part.value.of in _GENERAL and bool(re.search(r"\b(?:for|in|on|just)\s*\Z", before))


def _is_inside(text: str, whole: _Part, part: _Part, inside: int) -> bool:
    first, second = sorted((whole.draft.span, part.draft.span))
    gap = text[first.end : second.start]
    later = part.draft.span > whole.draft.span
    if not later or part.size + inside > whole.size:
        return False
    if (
        part.value.of in _GENERAL
        and _SHAPED.match(text, whole.draft.span.end)
        and _SHAPED.match(text, part.draft.span.end)
    ):
        return False  # "6 pics 1:1, 2 pics 16:9"
    ahead = text[part.draft.span.end : part.draft.span.end + 60]
    if _OUT_OF.search(gap[:30]) or re.search(r"\brest\b|\bremain|\bof (?:those|them|which|these)\b", ahead):
        return True
    if part.value.of in _GENERAL and not re.search(r"straight away|first|asap|quick", ahead):
        return False
    return not _ADDED.search(text[max(0, part.draft.span.start - 14) : part.draft.span.start])


def _with_shapes(whole: Draft, drafts: Sequence[Draft], text: str) -> Draft:
    """Add the pictures of a shape that are plainly added: "20 pictures, all portrait + 3 landscape"."""
    value = whole.value
    if not isinstance(value, CountValue):
        return whole
    for draft in drafts:
        shape = draft.value
        if not isinstance(shape, ShapeValue) or draft.wish or draft.span.start < whole.span.end:
            continue
        gap = text[whole.span.end : draft.span.start]
        if shape.count is None and (article := re.search(r"(?<=\bplus )(?:an?|one) \Z|(?<=\+ )(?:an?|one) \Z", gap)):
            shape, gap = replace(shape, count=1), gap[: article.start()]
        if not shape.count:
            continue
        listed = whole.reason.code is ReasonCode.SUM_OF_PARTS and re.fullmatch(r"\s*(?:,|and|&)\s*", gap)
        if listed or (
            len(gap) < 40 and "\n" not in gap and re.search(r"(?:\+|\bplus)\s*\Z", gap) and not _OUT_OF.search(gap)
        ):
            low = value.minimum + shape.count if value.minimum is not None else None
            high = value.maximum + shape.count if value.maximum is not None else None
            value = replace(value, of=CountOf.FINALS, minimum=low, maximum=high)
            reason = Reason(ReasonCode.SUM_OF_PARTS, (("parts", "2"),))
            whole = replace(whole, value=value, span=Span(whole.span.start, draft.span.end), reason=reason)
    return whole


def _from_shapes(drafts: Sequence[Draft], text: str) -> Draft | None:
    shaped = [d for d in drafts if isinstance(d.value, ShapeValue) and d.value.count and not d.wish]
    if not shaped:
        return None
    total = sum(d.value.count or 0 for d in shaped if isinstance(d.value, ShapeValue))
    for draft in drafts:
        added = text[max(0, draft.span.start - 16) : draft.span.start]
        if (
            isinstance(draft.value, ShapeValue)
            and not draft.value.count
            and not draft.wish
            and draft.span.start > shaped[0].span.end
            and re.search(r"(?:\+|\bplus|\band)\s(?:an?\s|one\s)?(?:banner\s)\Z|(?:\+|\bplus) (?:an? )?\Z", added)
            and not re.match(r"\w*s\b", text[draft.span.start : draft.span.end])
        ):
            total += 1  # "10 x 1:1 + banner 3:1"
            shaped.append(draft)
    return replace(
        shaped[0],
        kind=DraftKind.COUNT,
        value=CountValue(CountOf.FINALS, total, total),
        span=Span(shaped[0].span.start, shaped[-1].span.end),
        reason=Reason(ReasonCode.SUM_OF_PARTS, (("parts", str(len(shaped))),)),
        confirm=True,
    )


def _sum(parts: Sequence[_Part], code: ReasonCode) -> Draft:
    if len(parts) == 1:
        return parts[0].draft
    drafts = sorted((p.draft for p in parts), key=lambda d: d.span)
    low = sum(p.value.minimum if p.value.minimum is not None else p.size for p in parts)
    value = CountValue(CountOf.FINALS, low, sum(p.size for p in parts), any(p.value.approximate for p in parts))
    return replace(
        drafts[0],
        value=value,
        span=Span(drafts[0].span.start, max(d.span.end for d in drafts)),
        reason=Reason(code, (("parts", str(len(parts))),)),
        corrects=tuple(span for d in drafts for span in d.corrects),
    )
