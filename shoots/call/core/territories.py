"""Where in the world the pictures may be used: countries and groups of countries as ISO 3166 codes."""

from __future__ import annotations

import re
from functools import cache

import pycountry
from babel import Locale

from shoots.call.core import subdivisions
from shoots.call.core.drafts import Draft, DraftKind, Reason, ReasonCode, TerritoryValue
from shoots.call.core.lexicons import Entry, Hit, Lexicons
from shoots.call.core.spans import Sentence, clean, words_of

#: Country names that are everyday words or first names as well.
_EVERYDAY = {
    "turkey", "jordan", "georgia", "chad", "guinea", "mali", "china", "guernsey", "jersey", "cuba", "niger",
    "oman",
}  # fmt: skip
_EXCLUDED = re.compile(
    r"\b(?:excl(?:uding|\.|udes)?|exc\.?|ex\.?|except(?:ing)?(?: for)?|without|but not|not(?: in)?(?: the)?|"
    r"minus|bar|barring|apart from|other than|"
    r"outside(?: of)?|no|save for|all but|less)\s*(?:the\s+)?\Z|(?<=\s)-\s?\Z"
)
_LIST_JOIN = re.compile(r"\s*(?:,|&|/|\+|and|or|and the|or the|nor|plus)?\s*(?:the\s+)?\Z")
_TRAVEL = re.compile(
    r"\b(?:(?:shoot(?:ing)?|shot|location|based|made|grown|brewed|produced|lives?|living|office|hq|factory|"
    r"workshop|warehouse|studio|farm|client|"
    r"cabin|beach|village|hotel|house|villa|mountains?|hills?|holiday|sewn|woven|roasted|distilled|bottled|"
    r"born|somewhere|up|down|out|"
    r"day|days|week|be|is|currently|crew|who's|mill|mine|island|islands|supplier|sourced)\s+(?:is\s+)?(?:in|"
    r"on|at|to|out of|from)|from|fly(?:ing)?(?: out)? to|travel(?:ling)? to|trips? to|"
    r"coast of|north of|south of|east of|west of|off to|over from|visiting|road trip|tour of|flights? to|made "
    r"in|part of|around)\s+(?:(?:the|rural|sunny|north|south|west|east|northern|southern)\s+)*\Z"
)
_USE_NEAR = re.compile(
    r"\b(?:usage|use|used?|licen[cs]e|rights|territor(?:y|ies)|market(?:s|ing)?|run(?:s|ning)?|campaign|sold|"
    r"sell(?:s|ing)?|stockists|launch(?:es|ing)?|distribut|"
    r"year|years|yr|yrs|months?|mths?|perpetuity|only|buyout|media|exclusive|countries|worldwide|social|press|"
    r"ooh|pos|web)\b"
)
_CODE_LIST = re.compile(r"(?<![\w&])(?:[A-Z]{2})(?:\s?(?:,|/|&|\+|and|-|;|\s)\s?[A-Z]{2}){1,}(?![\w&])")
#: Only a quick way out.
_TWO_CAPITALS = re.compile(r"[A-Z][A-Z]")
_SINGLE_CODE = re.compile(r"(?<![\w&])[A-Z]{2}(?![\w&])")
#: Codes that are words or abbreviations too, and count only in a list of codes.
_WORDS_TOO = frozenset(
    [
        "AD", "AI", "AM", "AS", "AT", "BE", "BY", "CD", "DO", "GO", "HE", "HI", "ID", "IN", "IS", "IT", "ME", "MY",
        "NO", "OK", "OR", "PA", "PM", "PR", "RE", "SO", "TO", "TV", "UP", "US", "WE", "VR", "PO", "PS", "PC", "IP",
        "AW", "SS", "FW", "BW", "CU", "MU", "TV", "ML", "CL", "MM", "CM", "KG", "AC", "DC", "LA", "NC", "MC",
    ]
)  # fmt: skip
_SMALL_CODE = re.compile(r"(?<![\w'/.])[a-z]{2}(?![\w'])|(?<=/)[a-z]{2}(?![\w'])")
_CODE_JOIN = re.compile(r"\s?(?:,|/|&|\+)\s?")
_US = re.compile(r"(?<![\w'])us(?![\w'])")
_CAN = re.compile(r"(?<![\w'])can(?![\w'])")
_CAN_JOIN = re.compile(r"\s?[+/&]\s?")
_US_JOIN = re.compile(r"\s?(?:,|/|&|\+|and|-|;|\s)\s?(?:the )?")


_Area = tuple[int, int, tuple[str, ...], str]


#: Countries whose studios name others in German.
_GERMAN = frozenset({"DE", "AT", "CH", "LI"})
#: German names of countries that are English words.
_ENGLISH_WORDS = frozenset({"island", "man"})


@cache
def _country_names(german: bool = False) -> dict[str, str]:
    names: dict[str, str] = {}
    if german:
        for code, name in Locale("de").territories.items():
            plain = clean(name)
            if len(code) == 2 and code.isalpha() and plain not in _ENGLISH_WORDS and "(" not in plain:
                names[plain] = code
    english = Locale("en").territories
    for country in pycountry.countries:
        for name in (country.name, getattr(country, "common_name", ""), english.get(country.alpha_2, "")):
            plain = clean(name)
            if plain and "," not in plain and "(" not in plain:
                names[plain] = country.alpha_2
    return names


@cache
def _names_pattern(german: bool = False) -> re.Pattern[str]:
    names = sorted(_country_names(german), key=len, reverse=True)
    return re.compile(r"(?<![\w'])(?:" + "|".join(map(re.escape, names)) + r")(?!\w)")


@cache
def _first_words(german: bool) -> frozenset[str]:
    return frozenset(words_of(name)[0].text for name in _country_names(german))


def members(lexicons: Lexicons, entry: Entry) -> tuple[str, ...]:
    """Return the countries of a group, with the groups that it is a union of spelled out.

    Parameters
    ----------
    lexicons : Lexicons
        Tables of words.
    entry : Entry
        An entry of the table `group` or `region`.

    Returns
    -------
    tuple of str
        ISO 3166 codes without doubles.

    References
    ----------
    Membership as stated in ``lexicon/regions.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> words = package_lexicons()
    >>> members(words, words.tables["group"]["dach"])
    ('DE', 'AT', 'CH')
    """
    codes = list(entry.data.get("codes", ()))
    for part in entry.data.get("union", ()):
        codes += members(lexicons, lexicons.tables["group"][part])
    return tuple(dict.fromkeys(codes))


def read(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, *, about_use: bool = False, country: str = "GB"
) -> list[Draft]:
    """Return the territories of a sentence; a country where one only shoots or comes from is none.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    lexicons : Lexicons
        Tables of words.
    about_use : bool
        Whether the sentences before it on its line were about where the pictures are used.
    country : str
        The studio's country: whose parts two letters stand for, whose language names countries.

    Returns
    -------
    list of Draft
        Drafts of kind `territory`, excluded ones marked.

    References
    ----------
    Country names and codes: ISO 3166 as in pycountry and Unicode CLDR (Babel).

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("worldwide excl. US").sentences[0]
    >>> [(d.value.codes, d.value.excluded) for d in read(line, words.hits(line), words)]
    [(('world',), False), (('US',), True)]
    """
    found: list[_Area] = []
    for hit in (*hits.get("group", ()), *hits.get("region", ())):
        if sentence.text[hit.start : hit.end] == "oz" and re.search(r"\d\s?(?:fl\.? )?\Z", sentence.text[: hit.start]):
            continue  # ounces
        group = hit.code if hit.entry.table == "group" else ""
        found.append((hit.start, hit.end, members(lexicons, hit.entry), group))
    use = (
        about_use
        or sentence.topic in ("usage", "territory", "term")
        or bool(hits.get("placement") or hits.get("usage"))
    )
    spoken = {word.text for word in sentence.words}
    codes_there = bool(_TWO_CAPITALS.search(sentence.raw))
    maybe = codes_there or not subdivisions.first_words().isdisjoint(spoken)
    parts = subdivisions.find(sentence.text, sentence.raw, country=country, about_use=use) if maybe else []
    # "SA & Vic" for a studio in Australia: a part beside another part is no country.
    found = [a for a in found if not any(s <= a[0] and a[1] <= e for s, e, _ in parts)]
    for start, end, codes in parts:
        if all(end <= s or e <= start for s, e, _, _ in found):
            found.append((start, end, codes, ""))
    covered = [(start, end) for start, end, _, _ in found]
    german = country in _GERMAN
    named = not _first_words(german).isdisjoint(spoken)
    for match in _names_pattern(german).finditer(sentence.text) if named else ():
        code = _country_names(german)[match.group()]
        if match.group() in _EVERYDAY and not sentence.raw[match.start() : match.start() + 1].isupper():
            continue
        if not any(match.start() < end and start < match.end() for start, end in covered):
            found.append((match.start(), match.end(), (code,), ""))
    for match in _CODE_LIST.finditer(sentence.raw) if codes_there else ():
        if sentence.raw.isupper() and len(sentence.words) > 6:
            continue
        if sentence.raw.isupper() and not re.search(r"[,/&+;-]", match.group()):
            continue
        for letters in re.finditer(r"[A-Z]{2}", match.group()):
            start, end = match.start() + letters.start(), match.start() + letters.end()
            known = pycountry.countries.get(alpha_2=letters.group()) is not None
            if known and not any(start < e and s < end for s, e, _, _ in found):
                found.append((start, end, (letters.group(),), ""))
    if found or about_use:
        found += _loose_codes(sentence, found)
    found.sort()
    return _drafts(sentence, _wider_names(found))


def _loose_codes(sentence: Sentence, found: list[_Area]) -> list[_Area]:
    """Beside other countries "us" is a country and not we, and a lone "DE" is one too."""
    more: list[_Area] = []
    for match in _US.finditer(sentence.text):
        beside = any(
            _US_JOIN.fullmatch(sentence.text[min(end, match.end()) : max(start, match.start())])
            for start, end, _, _ in found
        )
        if beside and not any(match.start() < end and start < match.end() for start, end, _, _ in found):
            more.append((match.start(), match.end(), ("US",), ""))
    for match in _CAN.finditer(sentence.text):
        if any(
            codes == ("US",) and _CAN_JOIN.fullmatch(sentence.text[min(end, match.end()) : max(start, match.start())])
            for start, end, codes, _ in (*found, *more)
        ):
            more.append((match.start(), match.end(), ("CA",), ""))
    for match in _SMALL_CODE.finditer(sentence.text):
        start, end = match.span()
        code = match.group().upper()
        known = code not in _WORDS_TOO and pycountry.countries.get(alpha_2=code) is not None
        beside = any(_CODE_JOIN.fullmatch(sentence.text[min(e, end) : max(s, start)]) for s, e, _, _ in (*found, *more))
        if known and beside and not any(start < e and s < end for s, e, _, _ in (*found, *more)):
            more.append((start, end, (code,), ""))
    if not sentence.raw.isupper():
        for match in _SINGLE_CODE.finditer(sentence.raw):
            known = pycountry.countries.get(alpha_2=match.group()) is not None and match.group() not in _WORDS_TOO
            if known and not any(match.start() < end and start < match.end() for start, end, _, _ in (*found, *more)):
                more.append((match.start(), match.end(), (match.group(),), ""))
    return more


def _wider_names(found: list[_Area]) -> list[_Area]:
    """Drop a name inside a longer one ("Ireland" in "Northern Ireland")."""
    return [
        a
        for a in found
        if not any(b is not a and b[0] <= a[0] and a[1] <= b[1] and b[1] - b[0] > a[1] - a[0] for b in found)
    ]


def _drafts(sentence: Sentence, found: list[_Area]) -> list[Draft]:
    drafts: list[Draft] = []
    last_end, last_state = -1, ""
    for start, end, codes, group in found:
        before = sentence.text[:start]
        joined = last_end >= 0 and bool(_LIST_JOIN.match(sentence.text[last_end:start]))
        if _EXCLUDED.search(before) and (
            drafts or sentence.topic in ("usage", "territory", "negatives") or "not" in before[-6:]
        ):
            state = "excluded"
        elif _TRAVEL.search(before):
            state = "elsewhere"
        elif joined and last_state:
            state = last_state
        elif (sentence.topic in ("location", "props", "shoot", "crew") and not _USE_NEAR.search(sentence.text)) or (
            re.search(r"\bin (?:the )?\Z", before)
            and not _USE_NEAR.search(sentence.text)
            and sentence.topic not in ("usage", "territory")
        ):
            state = "elsewhere"
        else:
            state = "wanted"
        last_end, last_state = end, state
        if state == "elsewhere":
            continue
        code = (
            ReasonCode.EXCLUDED_AFTER_WORLD
            if state == "excluded"
            else ReasonCode.REGION_GROUP
            if group
            else ReasonCode.COUNTRY_NAME
        )
        drafts.append(
            Draft(
                DraftKind.TERRITORY,
                TerritoryValue(codes, group, state == "excluded"),
                sentence.span(start, end),
                sentence.line_no,
                Reason(code, (("word", sentence.text[start:end]),)),
            )
        )
    return drafts
