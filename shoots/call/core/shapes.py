"""Shapes of pictures: ratios, and the names that the trade has for them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import gcd

from shoots.call.core.drafts import Draft, DraftKind, Reason, ReasonCode, ShapeValue
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import Quantity, quantities
from shoots.call.core.spans import Sentence

#: Ratios that are asked for; anything else with a colon may be a time of day.
_KNOWN = {
    "1:1", "4:5", "5:4", "9:16", "16:9", "3:2", "2:3", "3:4", "4:3", "21:9", "2:1", "1:2", "1.91:1", "6:7", "7:5",
    "5:7", "16:10", "10:16", "8:10", "10:8", "3:1", "1:3", "4:1", "1:4", "9:21", "2.35:1", "2.39:1", "1.85:1",
    "18:9", "9:18", "6:5", "16:5", "32:9",
    "5:3", "3:5", "8:5",
}  # fmt: skip
_RATIO = re.compile(
    r"(?<![\d.:/£$€])(\d{1,2}(?:\.\d{1,2})?)\s?([:x/]|\bby\b| x )\s?(\d{1,2})(?![\d:]|\.\d|\s?(?:cm|mm|m|ft|"
    r"am|pm|hrs?|in|inch|ml|l|kg|g)\b)(s?\b)?"
)
#: "1080x1350": a size in pixels, which has a ratio.
_PIXELS = re.compile(r"(?<![\d.,£$€])(\d{3,4})\s?x\s?(\d{3,4})(?:\s?(?:px|pixels))?\b(?!\s?(?:mm|cm|m)\b)")
_FIGURE = re.compile(r"\d")
_PAPER = re.compile(
    r"\b(?:(?P<before>portrait|landscape) )?(?P<size>a[0-6])s?\b"
    r"(?:(?:\s(?:posters?|flyers?|leaflets?|prints?|pages?|cards?|format|size))?\s?(?P<way>portrait|landscape))?"
)
_TIMES_AFTER = re.compile(
    r"(?:\s(?:for|on|as) (?:the )?(?:[a-z]+\s){1,2}(?=x))?"
    r"\s?(?:\(|-\s?|=\s?)?x\s?(?P<n>\d{1,3})\b(?!\s?\d*\s?:\d)|\s?\((?P<m>\d{1,3})\)"
)
_JOIN = re.compile(
    r"\s*(?:x|imgs?|pix|of (?:them|those|these|which)|them|in|as|at|more|for|a|the|images?|pics?|pictures?|"
    r"photos?|shots?|finals?|stills?|heroe?s?|"
    r"portraits?|details?|needed|should be|to be|are|is|extra|cropped|crop(?:s|ped)?|to|versions?|vertical|"
    r"landscape|portrait|wide|want|need|must be|also|"
    r"be|delivered|horizontal|full|long|clean|hero|lifestyle|packshots?|big|separate|short|tall|set of|ones?|"
    r"banners?|of|social|insta(?:gram)?|"
    r"web|website|homepage|home page|email|site|for web|shot|-|\s)*\Z"
)
_PICTURES = re.compile(
    r"\b(?:imgs?|pix|images?|pics?|pictures?|photos?|shots?|finals?|stills?|portraits?|details?|packshots?)\b"
)
_MORE_SHAPES = re.compile(
    r"\s*(?:,|and|&|\+|/|plus|or)\s*(?:\d{1,2}:\d|square|landscape|portrait|vertical|banner|stor|reel)"
)


#: "5 stories: nurse, gardener": stories that are told.
_TOLD = re.compile(r"\s?:\s?(?!\d|one\b|two\b|three\b|four\b|five\b|six\b|ten\b|yes|no\b|maybe|\?)")
_PORTRAIT = re.compile(
    r"(?:(?<=landscape and )|(?<=landscape \+ )|(?<=landscape/))portrait\b|"
    r"\bportrait\b(?! (?:of|shots?|session|sitting|photos?|pics?|pictures?|images?|style))"
)
_ONLY_WAY = re.compile(
    r"\s*(?:(?:all|mostly|mainly|only|just|probably|in)\s)*portrait(?:\s(?:please|mostly|mainly|only|format|"
    r"all|pls))*\W*"
)
_LISTED = re.compile(r"\s*(?:,|and|&|\+|/|or|,\s?and)\s*(?:some |the rest |half |one |a few |also )?")
_BEFORE_LANDSCAPE = re.compile(r"\s*(?:,|and|&|\+|/|or)\s*(?:some |half )?(?:landscape|square|sq)\b")
_Found = tuple[int, int, str, Reason]


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return the shapes of a sentence with their counts, and claim their figures.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

    Returns
    -------
    list of Draft
        Drafts of kind `shape`; a missing count means that none was said.

    References
    ----------
    Own rules, see tests. Story format is 9:16 and a square 1:1: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("six 4:5, 9:16 x 3").sentences[0]
    >>> [(d.value.shape, d.value.count) for d in read(line, package_lexicons().hits(line))]
    [('4:5', 6), ('9:16', 3)]
    """
    found: list[_Found] = []
    figures = bool(_FIGURE.search(sentence.text))
    for match in _RATIO.finditer(sentence.text) if figures else ():
        mark = match.group(2).strip()
        shape = f"{match.group(1)}:{match.group(3)}"
        if shape not in _KNOWN or (mark == "/" and not _says_shape(sentence, match.start(), match.end())):
            continue
        if mark in ("x", "by") and not _ratio_by_x(sentence, shape, match.start(), match.end()):
            continue
        found.append((match.start(), match.end(), shape, Reason(ReasonCode.RATIO, (("text", match.group()),))))
    for match in _PIXELS.finditer(sentence.text) if figures else ():
        width, height = int(match.group(1)), int(match.group(2))
        part = gcd(width, height)
        sentence.claim(match.start(), match.end())
        if (shape := f"{width // part}:{height // part}") in _KNOWN:
            found.append((match.start(), match.end(), shape, Reason(ReasonCode.RATIO, (("text", match.group()),))))
    for hit in hits.get("shape", ()):
        if hit.code == "story" and _TOLD.match(sentence.text, hit.end):
            continue
        if hit.code == "banner" and _hangs(sentence.text, hit):
            continue
        shape = str(hit.entry.data.get("shape", hit.code))
        words = sentence.text[hit.start : hit.end]
        stories = shape == "portrait" and re.match(r"\s(?:for|as) (?:\w+ )?(?:stories|reels)", sentence.text[hit.end :])
        found.append((hit.start, hit.end, "9:16" if stories else shape, _word_reason(hit, words)))
    for match in _PAPER.finditer(sentence.text) if figures else ():
        way = match["way"] or match["before"] or ""
        if way or sentence.topic == "shapes":
            shape = f"{match['size'].upper()} {way}".strip()
            found.append((match.start(), match.end(), shape, Reason(ReasonCode.TRADE_WORD, (("word", match.group()),))))
    if "portrait" in sentence.text:
        found += _portraits(sentence, found)
    found.sort(key=lambda item: (item[0], -item[1]))
    found = [
        item
        for n, item in enumerate(found)
        if not any(o[0] <= item[0] and item[1] <= o[1] and (o[0], o[1]) != (item[0], item[1]) for o in found[:n])
    ]
    found = [item for item in found if not _says_again(sentence.text, item, found)]
    counts = list(quantities(sentence.text))
    for start, end, _, _ in found:
        sentence.claim(start, end)
    drafts, taken = list[Draft](), set[tuple[int, int]]()
    for start, end, shape, reason in found:
        if any(
            d.span == sentence.span(start, end) and isinstance(d.value, ShapeValue) and d.value.shape == shape
            for d in drafts
        ):
            continue
        number, first, last = _count(sentence, counts, start, end, taken)
        if number is not None and not _PICTURES.search(sentence.text[first:start]):
            sentence.claim(first, last)
        elif number is not None and _MORE_SHAPES.match(sentence.text, end):
            number = None  # "12 pictures in 4:5 and 9:16": how many of which was not said
        if number is None and any(isinstance(d.value, ShapeValue) and d.value.shape == shape for d in drafts):
            continue
        drafts.append(
            Draft(
                DraftKind.SHAPE,
                ShapeValue(shape, number),
                sentence.span(min(first, start), max(last, end)) if number is not None else sentence.span(start, end),
                sentence.line_no,
                reason,
            )
        )
    return drafts


_BANNER = re.compile(r"banners?\Z")
#: Banners that hang somewhere are no crops.
_HANGS_BEFORE = re.compile(
    r"\b(?:trade fair|fair|trade show|show|exhibition|street|vinyl|fence|railings?|outdoor|big|large|printed|event|"
    r"open day|stadium|building|hanging|shop ?front|the)\s\Z"
)
_HANGS = re.compile(
    r"\s(?:hanging )?(?:on|over|above|at|outside|along|across|in|for|behind) (?:the |our |their |an? )?(?:[a-z]+ )?"
    r"(?:railings?|fence|gates?|wall|door|street|stand|booth|open days?|events?|fairs?|roof|building|school|club|pitch|"
    r"shop ?front|windows?|road|entrance|scaffold\w*|stage|bar|hall|harbour|station)\b|\s(?:outside|outdoors)\b"
)


def _hangs(text: str, hit: Hit) -> bool:
    if not _BANNER.fullmatch(text[hit.start : hit.end]):
        return False
    return bool(_HANGS.match(text, hit.end) or _HANGS_BEFORE.search(text[: hit.start]))


def without_doubles(drafts: Sequence[Draft]) -> list[Draft]:
    """Return shapes without those that only mention again what was counted ("2 banners ... text on the banners").

    Parameters
    ----------
    drafts : sequence of Draft
        Drafts of any kind.

    Returns
    -------
    list of Draft
        The same without shapes of no number that have one elsewhere.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> without_doubles(())
    []
    """
    counted = {
        (d.value.shape, d.line_no)
        for d in drafts
        if isinstance(d.value, ShapeValue) and d.value.count is not None and not d.wish
    }
    shapes = {shape for shape, _ in counted}
    return [
        d
        for d in drafts
        if not (
            isinstance(d.value, ShapeValue)
            and d.value.count is None
            and not d.wish
            and d.value.shape in shapes
            and (d.value.shape, d.line_no) not in counted
        )
    ]


_SAME = re.compile(r"\s?[(]?\s?|\s(?:for|as) (?:the |an? |our |their |her |his )?(?:[a-z]+ )?\(?")
_CLOSED = re.compile(r"\s*(?:$|[.;)!])")


def _says_again(text: str, item: _Found, found: list[_Found]) -> bool:
    """Return whether a word only says which way a ratio beside it lies: "2 vertical 9:16", "banner 3:1"."""
    if item[2] not in ("portrait", "landscape", "landscape banner"):
        return False
    for start, end, shape, _ in found:
        if ":" not in shape or (start, end) == (item[0], item[1]):
            continue
        width, height = (float(side) for side in shape.split(":"))
        lies = width < height if item[2] == "portrait" else width > height
        gap = text[item[1] : start] if start >= item[1] else text[end : item[0]]
        if lies and _SAME.fullmatch(gap):
            return True
        closed = start >= item[1] and not text[: item[0]].rstrip().endswith(",") and _CLOSED.match(text, end)
        if lies and closed and gap == ", ":
            return True  # "all landscape, 3:2"
    return False


def _portraits(sentence: Sentence, found: list[_Found]) -> list[_Found]:
    """Find "portrait" where it is a shape and no picture: alone, in a list of shapes, or behind a number."""
    text = sentence.text
    more = []
    for match in _PORTRAIT.finditer(text):
        if any(start <= match.start() < end for start, end, _, _ in found):
            continue
        clause = sentence.clause(match.start(), match.end())
        alone = _ONLY_WAY.fullmatch(text[clause.start : clause.end])
        listed = any(
            _LISTED.fullmatch(text[min(end, match.end()) : max(start, match.start())]) for start, end, _, _ in found
        ) or _BEFORE_LANDSCAPE.match(text, match.end())
        counted = re.search(
            r"(?:\d|\b(?:two|three|four|five|six|seven|eight|nine|ten|twelve|rest|others?|half|all|some|in))\s\Z",
            text[: match.start()],
        )
        closed = re.match(
            r"\s*(?:$|[,.;)+/&]|and\b|for\b|plus\b|mostly|only|ones|\d{1,2} landscape)", text[match.end() :]
        )
        one = re.search(r"\b(?:an?|one|1|the|founder's|his|her)\s\Z", text[: match.start()])
        suited = re.match(
            r"\s?(?:with|and) (?:space|room|copy)|\s?for (?:the )?(?:social|socials|stories|insta\w*|ads|paid|"
            r"reels|web|mobile|posters|feed)",
            text[match.end() :],
        )
        pair = re.search(r"\blandscapes?\s?(?:,|/|\+|&|and)?\s?(?:1|one|an?)\s\Z", text[: match.start()])
        if (pair or not one) and (
            pair or alone or listed or (counted and closed) or suited or sentence.topic == "shapes"
        ):
            words = (("word", "portrait"),)
            more.append((match.start(), match.end(), "portrait", Reason(ReasonCode.TRADE_WORD, words)))
    return more


def _word_reason(hit: Hit, words: str) -> Reason:
    if hit.typo_of:
        return Reason(ReasonCode.MISTYPED, (("word", words), ("meant", hit.typo_of)))
    return Reason(ReasonCode.TRADE_WORD, (("word", words),))


def _says_shape(sentence: Sentence, start: int, end: int) -> bool:
    near = sentence.text[max(0, start - 30) : end + 30]
    return sentence.topic == "shapes" or bool(re.search(r"\b(?:ratio|crop|format|shape|aspect)", near))


def _ratio_by_x(sentence: Sentence, shape: str, start: int, end: int) -> bool:
    """Tell 4x5 (a shape) from 4 x 5 things (a number of them) and from 2 x 4:5."""
    if shape in ("4:5", "9:16", "16:9", "1:1", "3:2", "5:4", "8:10", "5:7") and sentence.text[end : end + 1] != ":":
        after = sentence.text[end : end + 14].strip()
        tight = " " not in sentence.text[start:end].strip()
        return tight and not re.match(r"(?!crops|versions|formats|verticals|uprights|cut)[a-z]+s\b", after)
    return False


def _count(
    sentence: Sentence, counts: list[Quantity], start: int, end: int, taken: set[tuple[int, int]]
) -> tuple[int | None, int, int]:
    text = sentence.text
    if (times := _TIMES_AFTER.match(text, end)) and not re.match(r"\s?\d*:\d", text[times.end() :]):
        return int(times["n"] or times["m"]), start, times.end()
    for quantity in reversed(counts):
        key = (quantity.start, quantity.end)
        if (
            quantity.end > start
            or key in taken
            or any(quantity.start < claimed.end and claimed.start < quantity.end for claimed in sentence.claimed)
        ):
            continue
        least = quantity.minimum is not None and quantity.maximum is None
        if _JOIN.match(text[quantity.end : start]) and (least or quantity.minimum == quantity.maximum):
            taken.add(key)
            return quantity.minimum, quantity.start, end
        break
    # "stories: 3", "4:5 - six": a figure right behind, at the end of its clause.
    if after := re.match(r"\s?(?:[:=]|-)\s?(?=\S)", text[end:]):
        at = end + after.end()
        for quantity in counts:
            if (
                quantity.start == at
                and re.match(r"\s*(?:$|[,;.)]|and\b|images|pics|of)", text[quantity.end :])
                and sentence.is_free(quantity.start, quantity.end)
            ):
                return quantity.maximum, start, quantity.end
    return None, start, end
