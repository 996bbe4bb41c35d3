"""Colours and sizes of things, and the same thing named twice."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core.drafts import Draft, ProductValue
from shoots.call.core.lexicons import Hit
from shoots.call.core.product_names import Thing
from shoots.call.core.spans import Sentence, stem, words_of

_UNIT = r"(?:ml|cl|lit(?:re|er)s?|ltr|l|kg|g|oz|fl oz|lb|cm|mm|inch|inches)\b"
SIZE = re.compile(
    rf"(?<![\w.£$€])(?:\d[.,]\d+\s?m\b|\d+(?:[.,]\d+)?\s?{_UNIT}(?:\s?(?:/|,|and|&|-|to)\s?\d+(?:[.,]\d+)?\s?{_UNIT})*|"
    r"(?:xxs|xs|s|m|l)\s?(?:-|to)\s?(?:m|l|xl|xxl|xxxl|\dxl)\b|\b(?:one size|xxl|xxs|xs|xl)\b|"
    r"\d-(?:man|person|berth|seater)\b|(?:uk |eu |us )?size[s]?\s?\d{1,2}(?:\s?(?:-|to|,|and|&|/)\s?\d{1,2})*|"
    r"\b(?:size )?(?:small|medium|large)(?:\s?(?:,|and|&|/)\s?(?:small|medium|large))+)"
)
_NEXT_THING = re.compile(
    r"[,;+&]\s(?!(?:in|also|sizes?|from|both|all|comes?|available|plus|and|then|or|each|either|the)\b)[a-z]{3,}\s?\Z"
)
#: "the 5 litre vest".
SIZE_BEFORE = re.compile(rf"(?<![\w.£$€])(\d+(?:[.,]\d+)?[\s-]?{_UNIT})[ -]\Z")
_JOIN = re.compile(r"\s*(?:,|and|&|\+|/|or|,\s*and)?\s*(?:the |a |one in |one )?\Z")
_LEAD = re.compile(r"[\s,:(-]*(?:in|comes in|come in|colours?:?|colou?rways?:?|-|:|\(|=|both|one|the|a|,)*[\s(]*\Z")
_FAR_LEAD = re.compile(
    r"[^;.]{0,42}\b(?:in|colours?|colou?rways?|fabrics|finishes|shades|woods)\b[\s:(-]*(?:both |the )?"
)
_SCENERY = re.compile(
    r"\s?(?:background|backdrop|bg\b|surface|light|mood|feel|shadows?|cove|wall|paper|colorama|and white|set\b)"
)


def add(sentence: Sentence, hits: dict[str, list[Hit]], things: Sequence[Thing]) -> None:
    """Give each thing the colours and sizes that stand with it.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    things : sequence of Thing
        Things in order; they are changed.

    References
    ----------
    Own rules, see tests; names of colours in ``lexicon/products.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("vest in rust and slate, s-xl").sentences[0]
    >>> thing = Thing(0, 4, "vest", "vest")
    >>> add(line, package_lexicons().hits(line), [thing])
    >>> thing.colours, thing.sizes
    (['rust', 'slate'], ['s-xl'])
    """
    for index, thing in enumerate(things):
        until = things[index + 1].start if index + 1 < len(things) else len(sentence.text)
        if index + 1 < len(things) and (sized := SIZE_BEFORE.search(sentence.text[:until])):
            until = sized.start()  # "a 12 litre pack and the 5 litre vest": the 5 litres are the vest's
        _sizes(sentence.text, thing, until)
        _colours(sentence.text, hits.get("colour", ()), thing, until)


def _sizes(text: str, thing: Thing, until: int) -> None:
    for size in SIZE.finditer(text, thing.end, until):
        gap = text[thing.end : size.start()]
        if _NEXT_THING.search(gap):
            break  # "balm 50g, mist 100 ml": the size of a thing that nobody knows
        if size.start() - thing.end > 60 or re.search(r"[;.]|\b(?:budget|shoot|usage|deliver)", gap):
            break
        thing.sizes.append(size.group())
        thing.last = max(thing.last, size.end())
    if sized := SIZE_BEFORE.search(text[: thing.start]):
        thing.sizes.insert(0, sized.group(1))
        thing.start = sized.start(1)
        if not thing.container or thing.colours or " " in sized.group(1):
            thing.name = f"{sized.group(1)} {thing.name}"  # "12 litre pack"; "500ml bottle" is a bottle


def _colours(text: str, colours: Sequence[Hit], thing: Thing, until: int) -> None:
    at = thing.end
    for hit in colours:
        if hit.start < thing.end or hit.end > until:
            continue
        gap = text[at : hit.start]
        begins = not thing.colours and (_LEAD.match(gap) or _FAR_LEAD.fullmatch(gap))
        if not (begins or (thing.colours and _JOIN.match(gap))):
            continue
        if _SCENERY.match(text, hit.end):
            break
        thing.colours.append(text[hit.start : hit.end])
        at = hit.end
        thing.last = max(thing.last, at)
    before = [hit for hit in colours if hit.end < thing.start + 1 and text[hit.end : thing.start] in (" ", "-")]
    if before:
        thing.colours.insert(0, text[before[-1].start : before[-1].end])
        thing.start = before[-1].start


def _kept(drafts: Sequence[Draft], *, serves: bool) -> list[Draft]:
    """Leave out what is only mentioned beside something that is said to be the thing, and what nobody sells."""
    said = [dict(draft.reason.params) for draft in drafts]
    if serves:
        return [draft for draft, how in zip(drafts, said, strict=True) if how.get("said") == "named"]
    if any(how.get("said") and "trade" not in how and "container" not in how for how in said):
        drafts = [draft for draft, how in zip(drafts, said, strict=True) if how.get("said")]
    kinds = [dict(draft.reason.params) for draft in drafts]
    if any("container" not in how for how in kinds):
        # "JAM. jars 340 g": what the jam is in; "four new cans" are what is sold.
        return [d for d, how in zip(drafts, kinds, strict=True) if "container" not in how or how.get("said") == "named"]
    return list(drafts)


def without_doubles(drafts: Sequence[Draft], *, serves: bool = False) -> list[Draft]:
    """Return the products of all notes, each once, with all its colours and sizes.

    Parameters
    ----------
    drafts : sequence of Draft
        Drafts of kind `product` in order.
    serves : bool
        Whether the client sells no things: a practice, a school, a hotel.

    Returns
    -------
    list of Draft
        The fullest name of each. What only says the client's trade ("a candle brand", "workwear") goes when there
        are products beside it.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> without_doubles([])
    []
    """
    kept: list[tuple[frozenset[str], str, Draft, bool]] = []
    for draft in _kept(drafts, serves=serves):
        if not isinstance(draft.value, ProductValue):
            continue
        stems = [stem(word.text) for word in words_of(draft.value.name)]
        names, head = frozenset(stems), stems[-1] if stems else ""
        trade = dict(draft.reason.params).get("trade") == "yes"
        for index, (others, other_head, other, other_trade) in enumerate(kept):
            same = (
                names <= others
                or (len(names) == len(others) == 1 and _compound(head, other_head))
                or (others <= names and head == other_head)
                or (len(names) == 1 and head == other_head)
            )
            if same:
                merged = _merged(other, draft, longer=len(names) > len(others))
                kept[index] = (
                    names | others,
                    head if len(names) > len(others) else other_head,
                    merged,
                    trade and other_trade,
                )
                break
        else:
            kept.append((names, head, draft, trade))
    real = [draft for _, _, draft, trade in kept if not trade]
    if all(dict(draft.reason.params).get("container") == "yes" for draft in real):
        return [draft for _, _, draft, _ in kept]
    return real


def _compound(first: str, second: str) -> bool:
    """Return whether one word ends with the other ("motorbike", "bike"); an earring is no ring."""
    longer, shorter = sorted((first, second), key=len, reverse=True)
    return len(shorter) > 3 and longer.endswith(shorter) and len(longer) - len(shorter) > 3


def _merged(first: Draft, second: Draft, *, longer: bool) -> Draft:
    base = second if longer else first
    if not (
        isinstance(base.value, ProductValue)
        and isinstance(first.value, ProductValue)
        and isinstance(second.value, ProductValue)
    ):
        return base
    value = ProductValue(
        base.value.name,
        tuple(dict.fromkeys((*first.value.colours, *second.value.colours))),
        tuple(dict.fromkeys((*first.value.sizes, *second.value.sizes))),
        base.value.quantity or first.value.quantity or second.value.quantity,
    )
    return replace(base, value=value, wish=first.wish and second.wish)
