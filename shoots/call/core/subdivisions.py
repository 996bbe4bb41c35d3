"""Parts of countries where pictures may be used: states, provinces and Länder as ISO 3166-2 codes."""

from __future__ import annotations

import itertools
import re
from functools import cache
from typing import Any

import pycountry

from shoots.call.core.spans import clean, words_of

#: Countries whose parts people name when they say where pictures run.
COUNTRIES = ("US", "CA", "AU", "DE", "AT")
_KINDS = frozenset({"State", "Province", "Territory", "District", "Land"})
#: What people type besides the names of the standard.
_ALSO = {
    "bavaria": "DE-BY", "saxony": "DE-SN", "lower saxony": "DE-NI", "hesse": "DE-HE", "thuringia": "DE-TH",
    "rhineland-palatinate": "DE-RP", "north rhine-westphalia": "DE-NW", "nrw": "DE-NW", "saxony-anhalt": "DE-ST",
    "tyrol": "AT-7", "carinthia": "AT-2", "styria": "AT-6", "lower austria": "AT-3", "upper austria": "AT-4",
    "vic": "AU-VIC", "nsw": "AU-NSW", "qld": "AU-QLD", "tas": "AU-TAS", "tassie": "AU-TAS", "south aus": "AU-SA",
    "pei": "CA-PE", "p.e.i.": "CA-PE", "newfoundland": "CA-NL", "b.c.": "CA-BC", "ont": "CA-ON", "alta": "CA-AB",
    "sask": "CA-SK", "the yukon": "CA-YT", "d.c.": "US-DC", "washington state": "US-WA", "calif": "US-CA",
    "mass": "US-MA", "n. carolina": "US-NC", "s. carolina": "US-SC",
}  # fmt: skip
#: Parts that are named together; membership from memory, no source.
_GROUPS = {
    "new england": ("US-CT", "US-ME", "US-MA", "US-NH", "US-RI", "US-VT"),
    "the maritimes": ("CA-NB", "CA-NS", "CA-PE"),
    "maritimes": ("CA-NB", "CA-NS", "CA-PE"),
    "atlantic canada": ("CA-NB", "CA-NS", "CA-PE", "CA-NL"),
    "the prairies": ("CA-AB", "CA-SK", "CA-MB"),
    "the carolinas": ("US-NC", "US-SC"),
    "the dakotas": ("US-ND", "US-SD"),
}
#: Names that are towns, people or words as well, and count only beside another part of the same country.
_OTHER_THINGS = frozenset(
    ["georgia", "victoria", "virginia", "washington", "new york", "hamburg", "berlin", "bremen", "wien", "salzburg",
     "mass", "ont", "vic", "tas"]
)  # fmt: skip
#: Codes stand in a list: "CA, OR and WA".
_LIST = re.compile(r"(?<![\w&./-])[A-Z]{2,3}(?:\s?(?:,|/|&|\+|\band\b|\bor\b)\s?(?:and |or )?[A-Z]{2,3})+(?![\w&-])")
#: "ME NH VT MA": three and more with nothing between them.
_ROW = re.compile(r"(?<![\w&./-])[A-Z]{2,3}(?: [A-Z]{2,3}){2,}(?![\w&-])")
_ABOUT_USE = re.compile(
    r"\b(?:usage|use[ds]?|licen[cs]e[ds]?|rights|territor(?:y|ies)|only|just (?:that|there|for)|years?|yrs?|months?|"
    r"mths?|mos?|"
    r"perpetu\w+|for ?ever|till sold|sold in|stores? in|shops? in|jahre?|monate?|statewide|exclusiv\w*|run in|"
    r"runs in|seen in)\b"
)
_JOIN = re.compile(r"\s*(?:,|&|/|\+|and|und|or|plus|,\s*and)?\s*(?:the\s+)?")


def _parts(country: str) -> list[Any]:
    return pycountry.subdivisions.get(country_code=country) or []  # type: ignore[no-untyped-call]


@cache
def _names() -> dict[str, tuple[str, ...]]:
    names: dict[str, tuple[str, ...]] = {}
    for country in COUNTRIES:
        for part in _parts(country):
            if part.type in _KINDS:
                names[clean(part.name)] = (part.code,)
    names |= {name: (code,) for name, code in _ALSO.items()}
    return names | _GROUPS


@cache
def _pattern() -> re.Pattern[str]:
    names = sorted(_names(), key=len, reverse=True)
    return re.compile(r"(?<![\w'-])(?:" + "|".join(map(re.escape, names)) + r")(?![\w'])")


@cache
def first_words() -> frozenset[str]:
    """Return the first words of all names, to pass over the sentences that have none of them.

    Returns
    -------
    frozenset of str
        Words as `spans.words_of` cuts them.

    References
    ----------
    ISO 3166-2 as in pycountry.

    Examples
    --------
    >>> "nova" in first_words(), "lamp" in first_words()
    (True, False)
    """
    return frozenset(words_of(name)[0].text for name in _names())


@cache
def _codes(country: str) -> dict[str, str]:
    return {part.code[3:]: part.code for part in _parts(country) if part.type in _KINDS} if country in COUNTRIES else {}


def find(text: str, raw: str, *, country: str, about_use: bool) -> list[tuple[int, int, tuple[str, ...]]]:
    """Return the parts of countries that a sentence about use names.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    raw : str
        The same as typed.
    country : str
        The studio's country: "CA, OR and WA" are states for a studio in the United States alone.
    about_use : bool
        Whether something else says that the sentence is about where pictures are used.

    Returns
    -------
    list of tuple
        Begin, end and ISO 3166-2 codes, in order; nothing for a sentence that only says where somebody is.

    References
    ----------
    ISO 3166-2 as in pycountry.

    Examples
    --------
    >>> find("bc and alberta only", "BC and Alberta only", country="CA", about_use=False)
    [(0, 2, ('CA-BC',)), (7, 14, ('CA-AB',))]
    >>> find("a tent maker in alberta", "A tent maker in Alberta", country="CA", about_use=False)
    []
    """
    use = about_use or bool(_ABOUT_USE.search(text))
    if not use and len(text) > 60:
        return []
    found = [(m.start(), m.end(), _names()[m.group()]) for m in _pattern().finditer(text)]
    codes = _codes(country)
    if codes and not raw.isupper():
        for match in (*_LIST.finditer(raw), *_ROW.finditer(raw)):
            letters = list(re.finditer(r"[A-Z]{2,3}", match.group()))
            if all(one.group() in codes for one in letters):
                found += [
                    (match.start() + one.start(), match.start() + one.end(), (codes[one.group()],)) for one in letters
                ]
    for match in re.finditer(r"(?<![\w&./-])[A-Z]{2,3}(?![\w&-])", raw) if codes and found else ():
        span = match.span()
        beside = any(_JOIN.fullmatch(text[min(e, span[1]) : max(s, span[0])]) for s, e, _ in found)
        if match.group() in codes and beside and all(span[1] <= s or e <= span[0] for s, e, _ in found):
            found.append((*span, (codes[match.group()],)))
    found.sort()
    if not use and not (len(found) > 1 and _nothing_else(text, found)):
        return []
    if not _ABOUT_USE.search(text):
        found = [one for one in found if not _is_address(raw, one[0], found)]
    return [
        one for one in found if text[one[0] : one[1]] not in _OTHER_THINGS or _has_company(text, one, found, country)
    ]


def _nothing_else(text: str, found: list[tuple[int, int, tuple[str, ...]]]) -> bool:
    """Return whether a sentence is nothing but a list of parts: "Quebec and Ontario;"."""
    gaps = [text[: found[0][0]], text[found[-1][1] :]]
    between = [text[a[1] : b[0]] for a, b in itertools.pairwise(found)]
    return all(not re.search(r"\w", gap) for gap in gaps) and all(_JOIN.fullmatch(gap) for gap in between)


def _is_address(raw: str, start: int, found: list[tuple[int, int, tuple[str, ...]]]) -> bool:
    """Return whether a part only says where a town lies: "in Lunenburg, Nova Scotia"."""
    town = re.search(r"\b[A-Z][\w'-]+,\s\Z", raw[:start])
    return bool(town) and not any(end == start - 2 for _, end, _ in found)


def _has_company(
    text: str, one: tuple[int, int, tuple[str, ...]], found: list[tuple[int, int, tuple[str, ...]]], country: str
) -> bool:
    home = one[2][0][:2]
    if text[one[0] : one[1]] == "georgia" and country != "US":
        return False
    return any(
        other is not one
        and other[2][0][:2] == home
        and _JOIN.fullmatch(text[min(other[1], one[1]) : max(other[0], one[0])])
        for other in found
    ) or (home == country and bool(re.match(r"\s(?:state )?only\b", text[one[1] :])))
