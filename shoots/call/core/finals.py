"""How many finished pictures the notes ask for, however it is said: a total, "two of each", or parts to be added."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core import finals_doubt, finals_units
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
from shoots.call.core.finals_units import Part
from shoots.call.core.spans import Span, clean, stem

#: More counts than that are in no notes of a call; what comes behind is not added up.
MOST_COUNTS = 300
_GENERAL = (CountOf.PICTURES, CountOf.SHOTS)
_ADDED = re.compile(
    r"(?:\+|\bplus|\band|&|\balso|as well as|along with|\bextra|\bthen)\s*(?:(?:an?|the|about|another)\s)?\s*\Z"
)
#: "12. Plus one of the range": a sentence or line that adds.
_ADDED_NEXT = re.compile(r"(?:^|[.\n])[\s*-]*(?:and |then |plus |also |\+\s?)+(?:(?:an?|the|about|another) )?\s*\Z")
_LISTED = re.compile(
    r"(?:^|[^\d])\s*(?:,|\+|&|/|;|\band\b|\bplus\b|\n[\s*-]*)\s*(?:and |plus |then |also |x )*(?:an? )?\s*\Z"
)
_OUT_OF = re.compile(
    r":|\(|\bincl|of which|of them|made up|split|broken|consist|i\.e|namely|\brest\b|remaining|\bothers?\b"
)
_SHAPED = re.compile(
    r"\s?(?:in |at |as |\()?\s?(?:\d{1,2}:\d|squares?\b|portrait\b|landscape\b|vertical|upright|banner)"
)


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
    text = clean(source)
    total = _total([d for d in drafts if d.kind not in finals_doubt.BROAD], text)
    return None if total is not None and finals_doubt.left_over(total, drafts, text) else total


def _total(drafts: Sequence[Draft], text: str) -> Draft | None:
    drafts = [d for d in drafts if isinstance(d.value, (CountValue, ProductValue, PersonValue, ShapeValue))]
    drafts = drafts[:MOST_COUNTS]
    counts = [Part(d, d.value) for d in drafts if isinstance(d.value, CountValue) and not d.wish]
    units = sorted((*counts, *finals_units.things(drafts, counts, text)), key=lambda part: part.draft.span)
    said = [p for p in counts if p.value.of is CountOf.FINALS and not p.value.per]
    counts = [p for p in counts if not _restated(p, counts, text)]
    counts = _without_break_down(counts, text)
    multiplied, used = finals_units.multiplied(units, text)
    open_ended = [p for p in counts if p.value.per and p not in used and finals_doubt.is_open(p, counts, text)]
    parts = [p for p in counts if p.value.of in PARTS and not p.value.per and p not in used]
    said = [p for p in said if _noun(p) != "alone" or _is_sum(p, [*multiplied, *parts], said)]
    stated = [p for p in said if _noun(p) not in ("total", "alone")]
    totals = [p for p in said if p not in stated and not any(_is_part_of(p, other) for other in stated)]
    if totals:
        return _from_total(totals[-1], [*multiplied, *parts], text)
    if stated:
        whole = _with_added(stated, [p for p in parts if p.value.of is not CountOf.PICTURES], text)
        return _with_shapes(whole, drafts, text)
    if open_ended and not any(p.value.of in _GENERAL for p in parts):
        return None  # "front and back" of how many things, beside "4 riding"
    if multiplied:
        return _from_multiplied(multiplied, parts, text)
    if not parts and not (parts := _views(counts)):
        return _from_shapes(drafts, text)
    parts = sorted((*parts, *_named_shapes(drafts, parts, text)), key=lambda p: p.draft.span)
    crops = any(p.value.of is CountOf.CROPS for p in counts)
    if len(parts) == 1 and crops:
        return replace(parts[0].draft, reason=Reason(ReasonCode.HERO_WITH_CROPS, parts[0].draft.reason.params))
    return _with_shapes(_from_parts(parts, text), drafts, text)


def _noun(part: Part) -> str:
    return dict(part.draft.reason.params).get("noun", "")


def _is_part_of(subtotal: Part, whole: Part) -> bool:
    """Return whether a sum is one of a line that began with a larger number: "14 finals: 2 per cheese = 8, crate 6"."""
    same = subtotal.draft.line_no == whole.draft.line_no and whole.draft.span < subtotal.draft.span
    return same and whole.size > subtotal.size and whole.value.minimum == whole.value.maximum


def _is_sum(part: Part, items: Sequence[Part], said: Sequence[Part]) -> bool:
    """Return whether a lone number can be the sum of what stands before it."""
    before = [p for p in items if p.draft.span.end <= part.draft.span.start]
    since = [p for p in said if p is not part and p.draft.span.end <= part.draft.span.start]
    if not before or (since and since[-1].draft.span > before[-1].draft.span):
        return False
    return part.size >= max(p.size for p in before) and part.size > before[-1].size


def _from_total(last: Part, items: Sequence[Part], text: str) -> Draft:
    """The last total that was said, with what is added behind it; what only breaks it down is left out."""
    before = [p for p in items if p.draft.span.end <= last.draft.span.start and p.value.of not in _GENERAL]
    summed = last.size == sum(p.size for p in before)
    taken = [last]
    for part in sorted(items, key=lambda p: p.draft.span):
        if part.draft.span.start < last.draft.span.end:
            continue
        again = part.value.of is CountOf.PICTURES and _noun(part) and part.size == last.size
        if part.value.of is CountOf.PICTURES and part.size > last.size and _says_it_all(part, text):
            taken = [part]  # "6 flavours, one cone each = 6. Van 2. Eating 2. Ten pics"
            continue
        gap = text[taken[-1].draft.span.end : part.draft.span.start]
        listed = summed and len(gap) < 40 and _LISTED.search(gap) and not _OUT_OF.search(gap)
        if not again and (listed or _joined(text, taken[-1], part)):
            taken.append(part)
    return _sum(taken, ReasonCode.SUM_OF_PARTS)


def _says_it_all(part: Part, text: str) -> bool:
    """Return whether a number of pictures is a sentence of its own."""
    start, end = part.draft.span
    return bool(_noun(part) and re.search(r"[.\n]\s*\Z", text[:start]) and re.match(r"\s*(?:[.\n]|\Z)", text[end:]))


def _from_multiplied(multiplied: Sequence[Part], parts: Sequence[Part], text: str) -> Draft:
    general = [p for p in parts if p.value.of is CountOf.PICTURES]
    if general and max(p.size for p in general) >= sum(p.size for p in multiplied):
        return _from_parts(list(parts), text)
    rest = [
        p
        for p in parts
        if p.value.of is not CountOf.PICTURES
        or not _noun(p)
        or re.search(r"(?:\+|\bplus|\balso|\bextra|\banother)\b[^.]{0,16}\Z", text[: p.draft.span.start])
        or (p.size == 1 and re.search(r",?\sand\s\Z", text[: p.draft.span.start]))
    ]
    return _sum([*multiplied, *rest], ReasonCode.TIMES_EACH)


def _views(counts: Sequence[Part]) -> list[Part]:
    """Return views that are views of no thing: an architect's "sixteen views"."""
    return [p for p in counts if p.value.of is CountOf.ANGLES and not p.value.per and _noun(p).startswith("view")]


_SHAPE_NOUN = re.compile(
    r"\b(?:squares|banners?|stories|story|verticals|uprights|landscapes|headers?|panoramas?|covers?)\b"
)


def _named_shapes(drafts: Sequence[Draft], parts: Sequence[Part], text: str) -> list[Part]:
    """Return pictures that are called by their shape in a list of others: "6 social squares, 2 banners, 1 hero"."""
    if any(p.value.of in _GENERAL for p in parts):
        return []
    spans = [p.draft.span for p in parts]
    found = []
    for draft in drafts:
        value, span = draft.value, draft.span
        if not isinstance(value, ShapeValue) or not value.count or draft.wish:
            continue
        if not _SHAPE_NOUN.search(text[span.start : span.end]) or any(
            s.start < span.end and span.start < s.end for s in spans
        ):
            continue
        before = max((s.end for s in spans if s.end <= span.start), default=-1)
        behind = min((s.start for s in spans if s.start >= span.end), default=-1)
        joined = (before >= 0 and _LISTED.search(text[before : span.start][-40:])) or (
            behind >= 0 and _LISTED.search(text[span.end : behind][:40])
        )
        if joined and not _OUT_OF.search(text[max(0, before) : span.start] if before >= 0 else ""):
            count = CountValue(CountOf.OTHERS, value.count, value.count)
            found.append(Part(replace(draft, kind=DraftKind.COUNT, value=count, confirm=True), count))
            spans.append(span)
    if len(parts) == 1 and found and sum(p.size for p in found) == parts[0].size and found[0].draft.span > spans[0]:
        return []  # "2 heroes, one square, one banner"
    return found


def _without_break_down(counts: list[Part], text: str) -> list[Part]:
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


def _restated(part: Part, counts: Sequence[Part], text: str) -> bool:
    """Return whether "a cut-out" only speaks of the "three cut-outs" that are counted elsewhere."""
    single = (
        dict(part.draft.reason.params).get("number") == "1" and part.draft.reason.code is ReasonCode.NUMBER_AND_NOUN
    )
    again = not part.value.per and any(
        p.value.of is part.value.of
        and p.size == part.size
        and p.draft.line_no < part.draft.line_no
        and not _differ(text, p, part)
        for p in counts
    )
    return again or (
        single
        and bool(_noun(part))
        and not (part.value.of in _GENERAL and _WHAT.match(text, part.draft.span.end))
        and part.size == 1
        and any(
            p is not part
            and p.value.of is part.value.of
            and p.size > 1
            and (p.value.of is not CountOf.OTHERS or stem(_noun(part)) in map(stem, _noun(p).split()))
            for p in counts
        )
    )


_WHAT = re.compile(
    r"\s?(?:\([^)]{0,20}\)\s?)?(?:of|for|in|at|on|with|from|showing|by|:|-)\s(?:the |an? |our |their |her |his |its )*"
    r"(?P<what>[a-z]{2,})"
)


_OF_WHAT = re.compile(r"\s(?:of|showing) [a-z]")


def _differ(text: str, first: Part, second: Part) -> bool:
    """Return whether the same number is asked for twice: "3 of the barn, 3 of the shop", "12 for web. 12 for print"."""
    one, two = (_WHAT.match(text, p.draft.span.end) for p in (first, second))
    if first.value.of is CountOf.OTHERS and _noun(first) != _noun(second):
        return True
    return bool(one and two and one["what"] != two["what"])


def _with_added(said: Sequence[Part], parts: Sequence[Part], text: str) -> Draft:
    """The last total that was said, with what is plainly added to it ("12 finals + 24 cutouts")."""
    taken = [said[-1]]
    if len(said) > 1 and all(_joined(text, a, b) for a, b in itertools.pairwise(said)):
        taken = list(said)
    for part in sorted(parts, key=lambda p: p.draft.span):
        last = max(taken, key=lambda p: p.draft.span)
        if part.draft.span.start >= last.draft.span.end and _joined(text, last, part):
            taken.append(part)
    return _sum(taken, ReasonCode.SUM_OF_PARTS) if len(taken) > 1 else taken[0].draft


def _joined(text: str, first: Part, second: Part) -> bool:
    gap = text[first.draft.span.end : second.draft.span.start]
    if len(gap) > 60 or _OUT_OF.search(gap):
        return False
    return bool(_ADDED_NEXT.search(gap) or (len(gap) < 40 and _ADDED.search(gap) and "." not in gap))


def _from_parts(parts: Sequence[Part], text: str) -> Draft:
    general = [p for p in parts if p.value.of in _GENERAL]
    special = [p for p in parts if p not in general]
    if not general:
        return _sum(parts, ReasonCode.SUM_OF_PARTS)
    if len(general) == 2 and not special and _are_alternatives(general, text):
        return _stretch(general)
    whole = max(general, key=lambda p: p.size)
    parts = [p for p in parts if p is whole or not _is_for(p, text)]
    ahead = [p for p in special if p.draft.span.end <= whole.draft.span.start]
    if len(ahead) > 1 and _SO.fullmatch(text[ahead[-1].draft.span.end : whole.draft.span.start]):
        return whole.draft  # "shop (1), staff (2), coffee (3) - 6 pics"
    behind = [p for p in parts if p is not whole and p.draft.span > whole.draft.span]
    if len(behind) > 1 and _noun(whole) and sum(p.size for p in behind) == whole.size:
        parts = [p for p in parts if p not in behind]  # "7 pics: 3 of the shop, 4 of the owner"
        special = [p for p in special if p in parts]
    taken = [whole]
    inside = 0
    for part in sorted((p for p in parts if p is not whole), key=lambda p: p.draft.span):
        if _is_inside(text, whole, part, inside):
            inside += part.size
        elif part.value.of in _GENERAL and part.size == whole.size and not _differ(text, whole, part):
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


_SO = re.compile(r"[\s)]*(?:-|=|:|>|=>|->|so|that's|makes)\s*")
_OPTION = re.compile(r"\boption (?:[a-d]|\d|one|two)\b[:\s-]*\Z")


def _are_alternatives(parts: Sequence[Part], text: str) -> bool:
    """Return whether one of two numbers is chosen later: "8 pics for 900 or 12 pics for 1200"."""
    first, second = sorted(parts, key=lambda p: p.draft.span)
    gap = text[first.draft.span.end : second.draft.span.start]
    options = all(_OPTION.search(text[: p.draft.span.start]) for p in parts)
    return options or (len(gap) < 40 and "\n" not in gap and bool(re.search(r"[,\s]or\s*\Z", gap)))


def _stretch(parts: Sequence[Part]) -> Draft:
    drafts = sorted((p.draft for p in parts), key=lambda d: d.span)
    value = CountValue(CountOf.FINALS, min(p.size for p in parts), max(p.size for p in parts), approximate=True)
    span = Span(drafts[0].span.start, drafts[-1].span.end)
    return replace(drafts[0], value=value, span=span, parts=tuple(d.span for d in drafts), confirm=True)


def _is_for(part: Part, text: str) -> bool:
    """Return whether pictures are a share of the whole: "her daughter for two pictures"."""
    before = text[max(0, part.draft.span.start - 12) : part.draft.span.start]
    return part.value.of in _GENERAL and bool(re.search(r"\b(?:for|in|on|just)\s*\Z", before))


def _is_inside(text: str, whole: Part, part: Part, inside: int) -> bool:
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
    if _OF_WHAT.match(text, whole.draft.span.end) and re.search(r",\s*(?:and )?\Z", gap) and not _OUT_OF.search(gap):
        return False  # "5 shots of her at work, 5 details of hands"
    ahead = text[part.draft.span.end : part.draft.span.end + 60]
    if _OUT_OF.search(gap[:30]) or re.search(r"\brest\b|\bremain|\bof (?:those|them|which|these)\b", ahead):
        return True
    if part.value.of in _GENERAL and not _noun(part) and re.match(r"\s?(?:[,:(]|-\s)", text[whole.draft.span.end :]):
        return not _ADDED.search(gap[-14:])  # "12 pics, 4 of the shop"
    if part.value.of in _GENERAL and not re.search(r"straight away|first|asap|quick", ahead):
        return False
    if "\n" in gap:
        return not _ADDED_NEXT.search(gap) and not re.search(r"\n[\s*-]*(?:plus|\+|and|then|also)\b", gap)
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


def _sum(parts: Sequence[Part], code: ReasonCode) -> Draft:
    if len(parts) == 1:
        return parts[0].draft
    drafts = sorted((p.draft for p in parts), key=lambda d: d.span)
    low = None if any(p.value.minimum is None for p in parts) else sum(p.value.minimum or 0 for p in parts)
    high = None if any(p.value.maximum is None for p in parts) else sum(p.size for p in parts)
    value = CountValue(CountOf.FINALS, low, high, any(p.value.approximate for p in parts))
    return replace(
        drafts[0],
        value=value,
        span=Span(drafts[0].span.start, max(d.span.end for d in drafts)),
        reason=Reason(code, (("parts", str(len(parts))),)),
        corrects=tuple(span for d in drafts for span in d.corrects),
        parts=tuple(dict.fromkeys(span for d in drafts for span in d.parts or (d.span,))),
        confirm=True,
    )
