"""The things to be shown, with their colours and sizes."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from shoots.call.core.drafts import Draft, DraftKind, ProductValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit, Lexicons
from shoots.call.core.numbers import quantities
from shoots.call.core.spans import Sentence, stem, words_of

_SIZE = re.compile(
    r"(?<![\w.£$€])(?:\d+(?:[.,]\d+)?\s?(?:ml|cl|litres?|ltr|l|kg|g|oz|fl oz|lb|cm|mm|inch|inches)\b(?:\s?(?:/|,|and|&|-|to)\s?\d+(?:[.,]\d+)?\s?(?:ml|cl|litres?|ltr|l|kg|g|oz|cm|mm)\b)*|"
    r"(?:xxs|xs|s|m|l)\s?(?:-|to)\s?(?:m|l|xl|xxl|xxxl|\dxl)\b|\b(?:one size|xxl|xxs|xs|xl)\b|(?:uk |eu |us )?size[s]?\s?\d{1,2}(?:\s?(?:-|to|,|and|&|/)\s?\d{1,2})*|\b(?:size )?(?:small|medium|large)(?:\s?(?:,|and|&|/)\s?(?:small|medium|large))+)"
)
_COLOUR_JOIN = re.compile(r"\s*(?:,|and|&|\+|/|or|,\s*and)?\s*(?:the |a |one in |one )?\Z")
_COLOUR_LEAD = re.compile(
    r"[\s,:(-]*(?:in|comes in|come in|colours?:?|colou?rways?:?|-|:|\(|=|both|one|the|a|,)*[\s(]*\Z"
)
_NEGATIVE = re.compile(
    r"\b(?:prop(?:s)?|wear(?:s|ing)?|wore|dressed|styled with|bring(?:s|ing)?|borrow|catering|lunch|dinner|breakfast|over (?:a )?|grab (?:a )?|meet for|hire|rent(?:al)?|own|sat (?:on|at)|sit(?:s|ting)? (?:on|at)|lean(?:s|ing)? on|tripod|no|without|not|don't (?:show|want|use)|avoid|instead of|backdrop|stand(?:s|ing)? on|background of|on (?:a|the|an|our|their|his|her)|out of|beside (?:a|the)|next to (?:a|the)|from (?:a|the)|into (?:a|the)|behind (?:a|the)|made (?:of|from)|like (?:a|an)|under (?:a|the)|against (?:a|the)|served with|paired with|dipped in|around (?:a|the)|by the|at the|off the|in (?:a|the|his|her|their))\s+(?:[\w'-]+\s+){0,2}\Z"
)
_SURFACE_OK = re.compile(
    r"\b(?:focus|emphasis|concentrat\w*|close-?ups?|detail|label|shots?|pics|work|push)\s+on (?:a|the|an|our|their)\s+(?:[\w'-]+\s+){0,2}\Z"
)
_LABELLED = re.compile(r"[a-z][a-z &/']{1,24}(?::|=|\s-)\s*")
_NAMED = re.compile(
    r"\b(?:maker[s]? of|they make|we make|who makes?|makes|they sell|we sell|sells|selling|launching|launch of|relaunching|brand of|range of|line of|producer of|producing|new product is|product is|shooting their new|shoot their new|photograph their|introducing)\s+(?:a |an |the |their |our |its |his |her |some |new |organic |handmade |hand-made |small-batch |vegan |natural |premium |own |range of |line of |lovely |posh |fancy |little )*"
)
_STOP_AFTER = frozenset(
    {
        "and",
        "or",
        "with",
        "for",
        "in",
        "on",
        "at",
        "by",
        "from",
        "to",
        "of",
        "the",
        "a",
        "an",
        "so",
        "but",
        "which",
        "that",
        "who",
        "wants",
        "want",
        "need",
        "needs",
        "based",
        "up",
        "out",
        "next",
        "this",
        "online",
        "is",
        "are",
        "as",
        "like",
        "via",
        "near",
        "it",
        "them",
        "these",
        "those",
        "more",
        "also",
        "direct",
    }
)


@dataclass(slots=True)
class _Thing:
    start: int
    end: int
    head: str
    name: str
    colours: list[str] = field(default_factory=list)
    sizes: list[str] = field(default_factory=list)
    quantity: int | None = None
    last: int = 0


def read(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons) -> list[Draft]:
    """Return the products of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    lexicons : Lexicons
        Tables of words.

    Returns
    -------
    list of Draft
        Drafts of kind `product`. Props, clothes that somebody wears and things "on the table" are left out.

    References
    ----------
    Own rules, see tests; nouns in ``lexicon/products.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("new trail-running vest in rust and slate, s-xl").sentences[0]
    >>> [(d.value.name, d.value.colours, d.value.sizes) for d in read(line, words.hits(line), words)]
    [('trail-running vest', ('rust', 'slate'), ('s-xl',))]
    """
    things = _known(sentence, hits, lexicons) + _named(sentence, hits, lexicons)
    if sentence.topic == "products":
        things += _listed(sentence, hits, things, lexicons)
    things.sort(key=lambda thing: thing.start)
    _colours_and_sizes(sentence, hits, things)
    drafts = []
    for thing in things:
        cue = sentence.topic == "products"
        code = ReasonCode.NAMED_AS_PRODUCT if cue or not thing.head else ReasonCode.PRODUCT_WORD
        sentence_span = sentence.span(thing.start, max(thing.end, thing.last))
        value = ProductValue(thing.name, tuple(thing.colours), tuple(thing.sizes), thing.quantity)
        drafts.append(
            Draft(
                DraftKind.PRODUCT,
                value,
                sentence_span,
                sentence.line_no,
                Reason(code, (("word", thing.head or thing.name),)),
            )
        )
    return drafts


def _known(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons) -> list[_Thing]:
    text = sentence.text
    runs: list[list[Hit]] = []
    for hit in hits.get("product", ()):
        if runs and re.fullmatch(r"[\s-]{1,2}", text[runs[-1][-1].end : hit.start]):
            runs[-1].append(hit)
        else:
            runs.append([hit])
    everyday = [hit for hit in hits.get("everyday", ())]
    counts = quantities(text)
    things = []
    for run in runs:
        start, end, last = run[0].start, run[-1].end, run[-1]
        if not sentence.is_free(start, end) or _other_thing(hits, start, end):
            continue
        start, name = _with_modifiers(sentence, hits, lexicons, start, end)
        quantity, counted_from = _quantity(sentence, counts, start)
        tail = text[end:]
        sign = (
            sentence.topic == "products"
            or quantity is not None
            or bool(_SIZE.match(tail.lstrip(" (,-")))
            or _coloured(hits, text, end)
            or _cued(sentence, hits, start, end)
        )
        if last.code == "generic" and len(run) == 1 and start == run[0].start:
            continue
        label = _LABELLED.match(text)
        if label and end <= label.end() and sentence.topic:
            continue
        plain = bool(last.entry.data.get("plain")) and len(run) == 1 and start == run[0].start
        common = any(e.start <= last.start and last.end <= e.end for e in everyday) and len(run) == 1
        before = text[:start]
        negative = bool(_NEGATIVE.search(before)) and not _SURFACE_OK.search(before)
        if sentence.topic == "props" or (negative and not (sentence.topic == "products")):
            continue
        if re.match(
            r"\s?(?:range|collection|line)?\s?-?(?:shop|bar|house|park|call|number|break|time|table top|man|guy|stain|coloured|colored|scene|feel|vibe|machine shop|estate|trade|company|brand owner|signal|interview|launch party|maker|makers|festival|tasting|lover|lovers|free)\b",
            tail,
        ) and not re.match(r"\s?(?:maker|makers)", tail):
            continue
        if (plain or common) and not sign:
            continue
        things.append(_Thing(start, end, text[last.start : last.end], name, quantity=quantity, last=end))
        if quantity is not None and counted_from >= 0:
            things[-1].start = counted_from
    return things


def _other_thing(hits: dict[str, list[Hit]], start: int, end: int) -> bool:
    """Return whether the words belong to a longer phrase of another table ("shop window", "coffee shop", "on the box")."""
    for table in (
        "placement",
        "place",
        "shape",
        "person",
        "mood",
        "approve",
        "pay",
        "framing",
        "holiday",
        "countnoun",
        "act",
        "exclusive",
        "licence",
    ):
        for other in hits.get(table, ()):
            if other.start <= start and end <= other.end and (other.end - other.start) > (end - start):
                return True
            if (
                table == "placement"
                and other.start <= start
                and end <= other.end
                and other.code in ("brochure", "packaging", "press")
            ):
                return True
    return False


def _cued(sentence: Sentence, hits: dict[str, list[Hit]], start: int, end: int) -> bool:
    for hit in hits.get("productcue", ()):
        if hit.end <= start and start - hit.end <= 14 and not re.search(r"[,;:]", sentence.text[hit.end : start]):
            return True
        if hit.start >= end and hit.start - end <= 2:
            return True
    return False


def _coloured(hits: dict[str, list[Hit]], text: str, end: int) -> bool:
    return any(
        hit.start >= end and re.fullmatch(r"\s?(?:in|\(|-|,\s?in|comes in|:)\s?(?:the |both )?", text[end : hit.start])
        for hit in hits.get("colour", ())
    )


def _quantity(sentence: Sentence, counts: list, start: int) -> tuple[int | None, int]:  # type: ignore[type-arg]
    for quantity in counts:
        gap = sentence.text[quantity.end : start]
        if (
            quantity.end <= start
            and re.fullmatch(
                r"\s?(?:x\s)?(?:new |different |types? of |kinds? of |flavours? of |colours? of |of the |of our |of |bottles? of |jars? of |pairs? of |packs? of |tins? of |bags? of |cans? of |boxes of )*",
                gap,
            )
            and sentence.is_free(quantity.start, quantity.end)
        ):
            sentence.claim(quantity.start, quantity.end)
            return quantity.maximum or quantity.minimum, quantity.start
    return None, -1


def _with_modifiers(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, start: int, end: int
) -> tuple[int, str]:
    """Take along up to two words before a thing that are neither everyday words, numbers, colours nor read otherwise."""
    words = sentence.words
    first = next(i for i, word in enumerate(words) if word.start == start)
    taken = 0
    while first > 0 and taken < 2:
        word = words[first - 1]
        gap = sentence.text[word.end : words[first].start]
        if (
            not re.fullmatch(r"[ -]", gap)
            or not word.text.isalpha()
            or len(word.text) < 3
            or not _modifies(sentence, hits, lexicons, word.text, word.start, word.end)
        ):
            break
        first -= 1
        taken += 1
    return words[first].start, sentence.text[words[first].start : end]


_ADJECTIVES = frozenset(
    {
        "new",
        "nice",
        "lovely",
        "quick",
        "clean",
        "sharp",
        "simple",
        "styled",
        "pretty",
        "hey",
        "hi",
        "etc",
        "via",
        "incl",
        "approx",
        "tbc",
        "please",
        "pls",
        "plse",
        "plz",
        "recipe",
        "hero",
    }
)


def _modifies(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, word: str, start: int, end: int
) -> bool:
    if (
        word in _ADJECTIVES
        or lexicons.is_everyday(word)
        or (
            re.fullmatch(r"(?:[a-z]+(?:ing|ed|ly))", word)
            and word
            not in (
                "running",
                "walking",
                "climbing",
                "cycling",
                "riding",
                "cooking",
                "baking",
                "sparkling",
                "drinking",
                "serving",
                "wedding",
                "building",
                "sleeping",
                "swimming",
                "knitting",
                "sewing",
                "training",
                "smoked",
                "roasted",
                "salted",
                "spiced",
                "canned",
                "bottled",
                "tinned",
                "recycled",
                "knitted",
                "waxed",
                "padded",
                "quilted",
                "washed",
                "aged",
                "scented",
                "cold-pressed",
                "pressed",
                "fermented",
                "dried",
                "iced",
                "filtered",
                "printed",
                "insulated",
                "dining",
                "dressing",
                "fishing",
                "gaming",
                "camping",
                "hiking",
                "tasting",
                "carving",
                "painting",
            )
        )
    ):
        return False
    for table in (
        "colour",
        "mood",
        "placement",
        "place",
        "person",
        "shape",
        "framing",
        "countnoun",
        "productcue",
        "topic",
        "region",
        "group",
        "holiday",
        "usage",
        "allmedia",
        "approve",
        "pay",
        "copy",
    ):
        for hit in hits.get(table, ()):
            if hit.start <= start and end <= hit.end:
                return False
    return sentence.is_free(start, end)


def _named(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons) -> list[_Thing]:
    """Find what stands after "maker of", "they sell" and the like when no word of it is known as a product."""
    things = []
    for match in _NAMED.finditer(sentence.text):
        thing = _phrase(sentence, hits, lexicons, match.end())
        if thing and not any(h.start < thing.end and thing.start < h.end for h in hits.get("product", ())):
            things.append(thing)
    return things


def _phrase(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, at: int) -> _Thing | None:
    first = next((i for i, word in enumerate(sentence.words) if word.start == at), None)
    if first is None:
        return None
    last = first
    for index in range(first, min(first + 3, len(sentence.words))):
        word = sentence.words[index]
        gap = sentence.text[sentence.words[index - 1].end : word.start] if index > first else ""
        if (
            gap.strip(" -")
            or word.text in _STOP_AFTER
            or not word.text.isalpha()
            or lexicons.is_everyday(word.text)
            or len(word.text) < 3
        ):
            break
        if any(
            h.start <= word.start < h.end
            for table in ("placement", "region", "group", "holiday", "person", "exclusive", "place")
            for h in hits.get(table, ())
        ):
            return None
        last = index + 1
    if last == first:
        return None
    start, end = sentence.words[first].start, sentence.words[last - 1].end
    if not sentence.is_free(start, end):
        return None
    return _Thing(start, end, "", sentence.text[start:end], last=end)


def _listed(sentence: Sentence, hits: dict[str, list[Hit]], things: list[_Thing], lexicons: Lexicons) -> list[_Thing]:
    """Under a label "products:" each item of the list is one, also when its words are not known."""
    text = sentence.text
    label = _LABELLED.match(text)
    found = []
    at = label.end() if label and label.end() < len(text) else 0
    if label and label.end() >= len(text.rstrip()):
        return []
    for piece in re.finditer(r"[^,;+&/()]+", text[at:]):
        start, end = at + piece.start(), at + piece.end()
        if any(t.start < end and start < max(t.end, t.last) for t in things):
            continue
        body = text[start:end]
        lead = re.match(
            r"(?:\s|and\b|the\b|our\b|their\b|new\b|plus\b|an?\b|x\b|\d+\b(?!\s?(?:ml|g|l|cl|kg)\b)|-)*", body
        )
        start += lead.end() if lead else 0
        core = re.match(
            r"[a-z][a-z' -]{2,40}?(?=\s(?:in|x|with|for|on|from|at|to)\b|\s*$|\s\d|\s-|[.!?:])", text[start:end]
        )
        if not core:
            continue
        words = core.group().split()
        if len(words) > 4 or all(lexicons.is_everyday(w) for w in words) or words[0] in _STOP_AFTER:
            continue
        inside = [
            h
            for table in (
                "colour",
                "size",
                "mood",
                "person",
                "shape",
                "framing",
                "countnoun",
                "placement",
                "place",
                "region",
            )
            for h in hits.get(table, ())
            if h.start <= start and start + len(core.group()) <= h.end + 1
        ]
        if inside or re.match(
            r"(?:tbc|tba|tbd|unknown|to be|not sure|samples?|none|various|mixed|all|any|both|coming|arriv|no\b|not\b)",
            core.group(),
        ):
            continue
        last = start + len(core.group().rstrip())
        found.append(_Thing(start, last, "", text[start:last], last=last))
    return found


def _colours_and_sizes(sentence: Sentence, hits: dict[str, list[Hit]], things: list[_Thing]) -> None:
    text = sentence.text
    for index, thing in enumerate(things):
        until = things[index + 1].start if index + 1 < len(things) else len(text)
        at = thing.end
        for size in _SIZE.finditer(text, thing.end, until):
            if (
                re.search(r"[;.]|\b(?:budget|shoot|usage|deliver)", text[thing.end : size.start()])
                or size.start() - thing.end > 60
            ):
                break
            thing.sizes.append(size.group())
            thing.last = max(thing.last, size.end())
        for hit in hits.get("colour", ()):
            if hit.start < thing.end or hit.end > until:
                continue
            gap = text[at : hit.start]
            if (
                not thing.colours
                and (
                    _COLOUR_LEAD.match(gap)
                    or re.fullmatch(r"[^;.]{0,24}\b(?:in|colours?|colou?rways?)\b[\s:(-]*(?:both |the )?", gap)
                )
            ) or (thing.colours and _COLOUR_JOIN.match(gap)):
                if re.match(
                    r"\s?(?:background|backdrop|bg\b|surface|light|mood|feel|shadows?|cove|wall|paper|colorama|and white|set\b)",
                    text[hit.end :],
                ):
                    break
                thing.colours.append(text[hit.start : hit.end])
                thing.last = at = hit.end
        before = [
            h
            for h in hits.get("colour", ())
            if h.end < thing.start + 1 and re.fullmatch(r"[ -]", text[h.end : thing.start])
        ]
        if before:
            thing.colours.insert(0, text[before[-1].start : before[-1].end])
            thing.start = before[-1].start
        sized = re.search(r"(\d+(?:[.,]\d+)?\s?(?:ml|cl|l|litre|g|kg|oz|cm|mm))[ -]\Z", text[: thing.start])
        if sized:
            thing.sizes.insert(0, sized.group(1))
            thing.start = sized.start(1)


def without_doubles(drafts: list[Draft]) -> list[Draft]:
    """Return the products of all notes, later mentions of the same thing left out.

    Parameters
    ----------
    drafts : list of Draft
        Drafts of kind `product` in order.

    Returns
    -------
    list of Draft
        The first mention of each; one with colours or sizes is preferred.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> without_doubles([])
    []
    """
    kept: list[tuple[frozenset[str], str, Draft]] = []
    for draft in drafts:
        if not isinstance(draft.value, ProductValue):
            continue
        stems = [stem(word.text) for word in words_of(draft.value.name)]
        names, head = frozenset(stems), stems[-1] if stems else ""
        for index, (others, other_head, other) in enumerate(kept):
            if names <= others or (others <= names and head == other_head) or (len(names) == 1 and head == other_head):
                if not isinstance(other.value, ProductValue):
                    continue
                longer = draft if len(names) > len(others) else other
                value = longer.value
                if isinstance(value, ProductValue):
                    merged = ProductValue(
                        value.name,
                        tuple(dict.fromkeys((*other.value.colours, *draft.value.colours))),
                        tuple(dict.fromkeys((*other.value.sizes, *draft.value.sizes))),
                        value.quantity or draft.value.quantity or other.value.quantity,
                    )
                    kept[index] = (names | others, head, replace(longer, value=merged))
                break
        else:
            kept.append((names, head, draft))
    return [draft for _, _, draft in kept]
