"""Numbers as people say them: "10-12", "a dozen", "couple of", "about twenty", "six or seven", "20ish"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

_UNITS = {
    "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
         "ninety": 90}  # fmt: skip
_TEN = "|".join(_TENS)
_UNIT = "|".join(sorted(_UNITS, key=len, reverse=True))
_BELOW_HUNDRED = rf"(?:(?:{_TEN})(?:[ -](?:one|two|three|four|five|six|seven|eight|nine))?|{_UNIT})"
_VAGUE = {"couple": (2, 2), "pair": (2, 2), "few": (3, 5), "several": (3, 7), "handful": (4, 6), "single": (1, 1)}
#: A number in words, without vague ones.
NUMBER_WORD = (
    rf"(?:{_BELOW_HUNDRED}(?: hundred(?: and {_BELOW_HUNDRED})?)?|(?:a |one )?hundred(?: and {_BELOW_HUNDRED})?)"
)
_DIGITS = (
    r"(?<![\d.,:/£$€])\d{1,3}(?:,\d{3})+(?!\d)|(?<![\d.,:£$€])\d{1,4}(?![\d%]|[.,:]\d)(?=$|[^a-z]|ish\b|x\b|"
    r"pics|images|imgs|finals|shots)"
)
_VAGUE_WORD = r"(?:an? )?(?:couple|pair|handful)(?: of)?|(?:an? )?few|several|single"
_DOZEN = rf"(?:half[ -]?a[ -]dozen|half[ -]dozen|(?:{_BELOW_HUNDRED} |an? |\d{{1,2}} )?dozen)(?: or so)?"
_ONE = rf"(?:{_DOZEN}|\b{NUMBER_WORD}\b|{_VAGUE_WORD}|{_DIGITS})"
_QUANTITY = re.compile(
    rf"(?:(?P<pre>\b(?:up to|at least|min(?:imum)?(?: of)?|max(?:imum)?(?: of)?|no more than|not more than|"
    rf"no fewer than|no less than|not less than|at "
    rf"most|about|around|"
    rf"roughly|approx(?:imately)?|circa|ca|more than|over|between|some)\b\.?\s*|[~≈]\s?|(?<![=-])>(?=\d)))?"
    rf"(?:(?<![\w.])|(?<=\bx))(?P<low>{_ONE})(?P<ish1>[ -]?ish\b)?"
    rf"(?:\s?(?:-|/|\bto\b|\bor\b|(?<=\s)(?:and|&)(?=\s))\s?(?P<high>\b{NUMBER_WORD}\b|{_DIGITS}))?"
    rf"(?P<post>\s?\+(?!\s?\d)|[ -]?ish\b| or so\b| or more\b| (?:max|tops|at most|maximum|absolute max|at the outside|"
    rf"at the very most)\b| "
    rf"(?:min(?! (?:per|each|a|for|slots?|sessions?)\b)|minimum|at least)\b)?"
)
#: Without one of these there is no number; only a quick way out.
_NUMBERS = re.compile(rf"\d|{_UNIT}|{_TEN}|hundred|dozen|couple|pair|few|several|handful|single")
#: "front, 3/4 and detail": a way to look at a thing.
_THREE_QUARTER = re.compile(
    r"3/4(?=\s*(?:$|[,+&/.;)]|and\b|views?\b|shots?\b|angles?\b|length|pose|front|back|side|profile|turn|crop|each\b))"
)
#: "12 litre", "95 cm", "48 sheet": how big a thing is, not how many there are.
MEASURE = re.compile(
    r"[\s-]?(?:litres?|liters?|ltrs?|l|ml|cl|kg|kilos?|grams?|g|oz|ounces?|lbs?|cm|mm|inch(?:es)?|watts?|degrees?)\b"
    r"|[\s-]sheets?\b|-\d{2,3}\s?mm\b"
)
_MOST = ("max", "tops", "at most", "maximum", "absolute max", "at the outside", "at the very most")
_UP_TO = ("up to", "max", "maximum", "max of", "maximum of", "no more than", "not more than", "at most")
_AT_LEAST = (
    "at least",
    "min",
    "minimum",
    "min of",
    "minimum of",
    "no fewer than",
    "no less than",
    "not less than",
    "more than",
    "over",
    ">",
)
_ABOUT = ("about", "around", "roughly", "approx", "approximately", "circa", "ca", "~", "≈", "some")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number or a stretch of numbers; a missing end means that none was said."""

    minimum: int | None
    maximum: int | None
    approximate: bool
    start: int
    end: int


def number(text: str) -> int | None:
    """Return the number that a few words or digits stand for.

    Parameters
    ----------
    text : str
        Lower-case text such as "twenty-one", "1,200" or "a dozen".

    Returns
    -------
    int or None
        The number, None when it is none.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> [number(text) for text in ("twenty-one", "1,200", "half a dozen", "two hundred and six", "blue")]
    [21, 1200, 6, 206, None]
    """
    text = text.strip().replace("-", " ").removesuffix(" or so").strip()
    if re.fullmatch(r"\d[\d,]*", text):
        return int(text.replace(",", ""))
    if text.endswith("dozen"):
        many = text.removesuffix("dozen").strip()
        if many.startswith("half"):
            return 6
        count = 1 if many in ("", "a", "an") else number(many)
        return 12 * count if count else None
    total, seen = 0, False
    for word in text.split():
        if word in _UNITS:
            total, seen = total + _UNITS[word], True
        elif word in _TENS:
            total, seen = total + _TENS[word], True
        elif word == "hundred":
            total, seen = max(total, 1) * 100, True
        elif word not in ("a", "and"):
            return None
    return total if seen else None


def _bounds(text: str) -> tuple[int, int] | None:
    for word, bounds in _VAGUE.items():
        if word in text.split():
            return bounds
    value = number(text)
    return None if value is None else (value, value)


def quantities(text: str) -> list[Quantity]:
    """Return every number in a cleaned sentence with its bounds.

    Parameters
    ----------
    text : str
        A cleaned sentence.

    Returns
    -------
    list of Quantity
        In order. "couple of" is 2, "a few" 3 to 5, "several" 3 to 7: common practice, no source.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> [(q.minimum, q.maximum) for q in quantities("10-12 finals, at least six details, couple of crops")]
    [(10, 12), (6, None), (2, 2)]
    """
    return list(_quantities(text))


@lru_cache(maxsize=256)
def _quantities(text: str) -> tuple[Quantity, ...]:
    """Find them once: several readers ask for those of the same sentence."""
    found: list[Quantity] = []
    if not _NUMBERS.search(text):
        return ()
    for match in _QUANTITY.finditer(text):
        low = _bounds(match["low"])
        if low is None or MEASURE.match(text, match.end("low")):
            continue
        if _THREE_QUARTER.match(text, match.start("low")):
            continue
        pre = (match["pre"] or "").strip().rstrip(".").strip()
        high_text = match["high"]
        joined = (
            text[match.end("ish1") if match["ish1"] else match.end("low") : match.start("high")] if high_text else ""
        )
        if ("and" in joined or "&" in joined) and pre != "between":
            high_text = None
        high = _bounds(high_text) if high_text else None
        minimum: int | None = low[0]
        maximum: int | None = high[1] if high and high[1] > low[0] else low[1]
        end = (
            match.end() if high_text or not match["high"] else match.end("ish1") if match["ish1"] else match.end("low")
        )
        if high_text and high and high[1] <= low[0]:
            end = match.end("low")
        post = (match["post"] or "").strip(" -") if end == match.end() else ""
        if pre in _UP_TO or post in _MOST:
            minimum = None if not high else minimum
        if pre in _AT_LEAST or post in ("+", "or more", "min", "minimum", "at least"):
            maximum = None if not high else maximum
        vague = any(word in match["low"].split() for word in ("few", "several", "handful"))
        approximate = (
            bool(match["ish1"]) or pre in _ABOUT or post in ("ish", "or so") or vague or "or so" in match["low"]
        )
        found.append(Quantity(minimum, maximum, approximate, match.start(), end))
    return tuple(found)
