"""Names of things to be shown: known nouns with what stands before them, names behind "maker of", items of a list."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from shoots.call.core.lexicons import Hit, Lexicons
from shoots.call.core.numbers import Quantity
from shoots.call.core.spans import Sentence

_LABEL = re.compile(r"(?:\d{1,2} )?[a-z][a-z &/']{1,24}(?::|=|\s-)\s*")
_NAMED = re.compile(
    r"\b(?:maker[s]? of|they make|we make|who makes?|makes|they sell|we sell|sells|selling|launching|launch "
    r"of|relaunching|brand of|"
    r"range of|line of|producer of|producing|new product is|product is|shooting their new|shoot their new|"
    r"photograph their|introducing|s?he makes|s?he sells)\s+"
    r"(?:a |an |the |their |our |its |his |her |some |new |organic |handmade |hand-made |small-batch |vegan |"
    r"natural |premium |own |"
    r"range of |line of |lovely |posh |fancy |little |beautiful |really |nice )*"
)
#: "12 litre pack": the size belongs to the number before it.
_UNIT = re.compile(r"lit(?:re|er)s?|ltr|inch(?:es)?|grams?|metres?|kilos?|degrees?|watts?")
_SEATS = re.compile(r"seaters?|man|person|berth|piece|drawer|door|litre|stack")
_OTHER_TABLES = (
    "placement", "place", "shape", "person", "mood", "approve", "pay", "framing", "holiday", "countnoun", "act",
    "exclusive", "licence", "gear",
)  # fmt: skip
_NO_MODIFIER_TABLES = (
    "colour", "mood", "placement", "place", "person", "shape", "framing", "countnoun", "productcue", "topic", "region",
    "group", "holiday", "usage", "allmedia", "approve", "pay", "hedge", "negation",
)  # fmt: skip


@dataclass(slots=True)
class Thing:
    """A thing found in a sentence, before it becomes a draft."""

    start: int
    end: int
    head: str
    name: str
    colours: list[str] = field(default_factory=list)
    sizes: list[str] = field(default_factory=list)
    quantity: int | None = None
    last: int = 0
    trade: bool = False
    container: bool = False
    sure: bool = True
    #: Said to be what is sold or wanted: a label, "new", "pics of".
    named: bool = False
    #: Said at the beginning, counted, or with its colours or sizes.
    firm: bool = False


def runs(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[list[Hit]]:
    """Return the known product nouns of a sentence, neighbours joined ("chocolate" + "gift box").

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

    Returns
    -------
    list of list of Hit
        Runs in order; nouns that belong to a longer phrase of another kind are left out.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("chocolate gift box").sentences[0]
    >>> [len(run) for run in runs(line, package_lexicons().hits(line))]
    [2]
    """
    found: list[list[Hit]] = []
    for hit in hits.get("product", ()):
        if _is_colour(sentence.text, hits, hit):
            continue
        if found and re.fullmatch(r"[\s-]{1,2}", sentence.text[found[-1][-1].end : hit.start]):
            found[-1].append(hit)
        else:
            found.append([hit])
    label = _LABEL.match(sentence.text) if sentence.topic else None
    return [
        run
        for run in found
        if sentence.is_free(run[0].start, run[-1].end)
        and not _other_thing(hits, run[0].start, run[-1].end)
        and not (label and run[-1].end <= label.end())
    ]


def _is_colour(text: str, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether a word stands for a colour here: "graphite and cream", "in chocolate brown"."""
    for colour in hits.get("colour", ()):
        if colour.start <= hit.start and hit.end <= colour.end:
            if re.search(r"\bin\s\Z", text[: hit.start]) or colour.end > hit.end:
                return True
            near = [c for c in hits["colour"] if c is not colour]
            return any(
                re.fullmatch(r"\s?(?:,|and|&|\+|/|or)?\s?", text[c.end : hit.start]) for c in near if c.end <= hit.start
            )
    return False


def _other_thing(hits: dict[str, list[Hit]], start: int, end: int) -> bool:
    """Return whether the words belong to a longer phrase of another table ("shop window", "on the box")."""
    for table in _OTHER_TABLES:
        for other in hits.get(table, ()):
            if other.start <= start and end <= other.end:
                if other.end - other.start > end - start:
                    return True
                if table == "gear" or (table == "placement" and other.code in ("brochure", "packaging", "press")):
                    return True
    return False


def with_modifiers(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, start: int, end: int
) -> tuple[int, str]:
    """Return where a thing's name begins and the name: up to two words before the noun belong to it.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    lexicons : Lexicons
        Tables of words.
    start : int
        Where the noun begins.
    end : int
        Where it ends.

    Returns
    -------
    tuple
        Position and name; everyday words, numbers, colours and what was read otherwise stay out.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("two rye sourdough loaves").sentences[0]
    >>> with_modifiers(line, words.hits(line), words, 8, 24)
    (4, 'rye sourdough loaves')
    """
    words = sentence.words
    first = next(i for i, word in enumerate(words) if word.start == start)
    for _ in range(2):
        if first == 0:
            break
        word = words[first - 1]
        gap = sentence.text[word.end : words[first].start]
        if gap not in (" ", "-") or not word.text.isalpha() or len(word.text) < 3:
            break
        if _UNIT.fullmatch(word.text) and words[first - 2].text[0].isdigit() if first > 1 else False:
            break
        if not _modifies(sentence, hits, lexicons, word.text, word.start, word.end):
            break
        first -= 1
    if first and _SEATS.fullmatch(words[first].text) and words[first - 1].text.isdigit():
        first -= 1  # "3 seater sofa"
    return words[first].start, sentence.text[words[first].start : end]


def _modifies(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, word: str, start: int, end: int
) -> bool:
    if word in lexicons.set_of("participle"):
        return sentence.is_free(start, end)
    if (
        word in lexicons.set_of("nomodifier")
        or lexicons.is_everyday(word)
        or re.fullmatch(r"[a-z]+(?:ing|ed|ly)", word)
    ):
        return False
    if any(hit.start <= start and end <= hit.end for table in _NO_MODIFIER_TABLES for hit in hits.get(table, ())):
        return False
    return sentence.is_free(start, end)


def named(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons) -> list[Thing]:
    """Return what stands behind "maker of", "they sell" and the like when no word of it is a known product.

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
    list of Thing
        Names of one to three words.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("maker of theremins").sentences[0]
    >>> [thing.name for thing in named(line, words.hits(line), words)]
    ['theremins']
    """
    found = []
    for match in _NAMED.finditer(sentence.text):
        thing = _phrase(sentence, hits, lexicons, match.end())
        if thing and not any(h.start < thing.end and thing.start < h.end for h in hits.get("product", ())):
            found.append(thing)
    return found


_SHOWN = re.compile(
    r"\b(?:each|fronts?|cut-?outs?|pack ?shots?|on white|white background|mannequins?|flat[ -]?lays?|colou?rways|"
    r"sizes?|"
    r"samples?|per (?:style|piece|item|product|sku|design))\b"
)
_SINGULAR_LOOK = ("ss", "us")


def counted(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, counts: Sequence[Quantity]
) -> list[Thing]:
    """Return things that are in no lexicon but counted where pictures of them are spoken of: "30 saris, front + back".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    lexicons : Lexicons
        Tables of words.
    counts : sequence of Quantity
        Numbers of the sentence.

    Returns
    -------
    list of Thing
        One for each number with an unknown noun in the plural.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.numbers import quantities
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("30 saris, front + back").sentences[0]
    >>> [(t.name, t.quantity) for t in counted(line, words.hits(line), words, quantities(line.text))]
    [('saris', 30)]
    """
    found: list[Thing] = []
    if not _SHOWN.search(sentence.text):
        return found
    known = [hit for table in hits.values() for hit in table]
    for quantity in counts:
        many = quantity.maximum or quantity.minimum or 0
        word = next((w for w in sentence.words if w.start == quantity.end + 1), None)
        if many < 2 or word is None or not sentence.is_free(quantity.start, word.end):
            continue
        text = word.text
        plural = len(text) > 4 and text.isalpha() and text.endswith("s") and not text.endswith(_SINGULAR_LOOK)
        if plural and not lexicons.is_known(text) and not any(h.start < word.end and word.start < h.end for h in known):
            found.append(Thing(word.start, word.end, "", text, quantity=many, last=word.end))
    return found


def _phrase(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, at: int) -> Thing | None:
    words = sentence.words
    first = next((i for i, word in enumerate(words) if word.start == at), None)
    if first is None:
        return None
    last = first
    for index in range(first, min(first + 3, len(words))):
        word = words[index]
        gap = sentence.text[words[index - 1].end : word.start] if index > first else ""
        if gap.strip(" -") or word.text in lexicons.set_of("stopafter") or not word.text.isalpha():
            break
        if lexicons.is_everyday(word.text) or len(word.text) < 3:
            break
        tables = ("placement", "region", "group", "holiday", "person", "exclusive", "place", "allmedia")
        if any(h.start <= word.start < h.end for table in tables for h in hits.get(table, ())):
            return None
        last = index + 1
    if last == first:
        return None
    start, end = words[first].start, words[last - 1].end
    return Thing(start, end, "", sentence.text[start:end], last=end) if sentence.is_free(start, end) else None


def listed(sentence: Sentence, hits: dict[str, list[Hit]], things: Sequence[Thing], lexicons: Lexicons) -> list[Thing]:
    """Return the items of a list under a label such as "products:", also when their words are not known.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    things : sequence of Thing
        What was found already.
    lexicons : Lexicons
        Tables of words.

    Returns
    -------
    list of Thing
        The items that are new.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("products: accordions, concertinas", lambda label: label).sentences[0]
    >>> [thing.name for thing in listed(line, words.hits(line), (), words)]
    ['accordions', 'concertinas']
    """
    text = sentence.text
    label = _LABEL.match(text)
    if label and label.end() >= len(text.rstrip()):
        return []
    at = label.end() if label else 0
    found = []
    for piece in re.finditer(r"[^,;+&/()]+", text[at:]):
        start, end = at + piece.start(), at + piece.end()
        if any(thing.start < end and start < max(thing.end, thing.last) for thing in things):
            continue
        lead = re.match(
            r"(?:\s|and\b|the\b|our\b|their\b|new\b|plus\b|an?\b|x\b|\d+\b(?!\s?(?:ml|g|l|cl|kg)\b)|-)*",
            text[start:end],
        )
        start += lead.end() if lead else 0
        core = re.match(
            r"[a-z][a-z' -]{2,40}?(?=\s(?:in|x|with|for|on|from|at|to)\b|\s*$|\s\d|\s-|[.!?:])", text[start:end]
        )
        if core and (thing := _item(sentence, hits, lexicons, start, core.group())):
            found.append(thing)
    return found


def _item(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, start: int, core: str) -> Thing | None:
    words = core.split()
    if (
        words[-1] in ("one", "ones", "stuff", "things", "thing", "bits")
        or len(words) > 4
        or all(lexicons.is_everyday(word) for word in words)
        or words[0] in lexicons.set_of("stopafter")
    ):
        return None
    tables = ("colour", "size", "mood", "person", "shape", "framing", "countnoun", "placement", "place", "region")
    if any(h.start <= start and start + len(core) <= h.end + 1 for table in tables for h in hits.get(table, ())):
        return None
    if re.match(
        r"(?:tbc|tba|tbd|unknown|to be|not sure|samples?|none|various|mixed|all|any|both|coming|arriv|no\b|not\b)", core
    ):
        return None
    last = start + len(core.rstrip())
    return Thing(start, last, "", sentence.text[start:last], last=last)
