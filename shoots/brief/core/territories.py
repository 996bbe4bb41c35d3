"""In which countries pictures will be seen, as somebody types it and as codes.

Stored are ISO 3166-1 codes ("GB"), names of groups ("DACH"), "world", and what is left out with a minus
("-US"). A group stays a name in the brief; the licence spells its countries out on the day it is granted.

References
----------
ISO 3166-1 alpha-2 by pycountry; English names from pycountry and Unicode CLDR (Babel). Names of groups:
common usage, no source.
"""

import re
from collections.abc import Iterable
from functools import cache

import pycountry
from babel import Locale

WORLD = "world"
GROUPS = ("UK_IRELAND", "DACH", "BENELUX", "NORDICS", "EU", "EEA", "EMEA")
"""Codes of groups, those of `shoots.rights.core.territories.TerritoryGroup`; a test holds them together."""

_GROUP_WORDS = {
    "uk and ireland": "UK_IRELAND",
    "uk & ireland": "UK_IRELAND",
    "uk ireland": "UK_IRELAND",
    "dach": "DACH",
    "benelux": "BENELUX",
    "nordics": "NORDICS",
    "the nordics": "NORDICS",
    "eu": "EU",
    "european union": "EU",
    "eea": "EEA",
    "emea": "EMEA",
    "uk_ireland": "UK_IRELAND",
}
_WORLD_WORDS = {"world", "worldwide", "the world", "global", "everywhere"}
_COMMON_NAMES = {
    "uk": "GB",
    "great britain": "GB",
    "britain": "GB",
    "usa": "US",
    "america": "US",
    "united states": "US",
    "holland": "NL",
    "the netherlands": "NL",
    "eire": "IE",
    "republic of ireland": "IE",
    "czech republic": "CZ",
    "south korea": "KR",
}
_WRITTEN = {"UK_IRELAND": "UK and Ireland", "NORDICS": "Nordics", "BENELUX": "Benelux", WORLD: WORLD}
_LEFT_OUT = re.compile(r"^(?:-|−|–|not\s+|except(?:\s+for)?\s+|excluding\s+|excl\.?\s+|without\s+|but\s+not\s+)\s*")
_LEFT_OUT_INSIDE = re.compile(r"\s+(?=(?:except|excluding|excl\b|without|but not)|[-−–]\s?[A-Za-z])", re.IGNORECASE)


class UnknownTerritory(ValueError):
    """Raised when a word is no country, group or "world"; its first argument is the word."""


@cache
def _names() -> dict[str, str]:
    """Return every name that is understood, in lower case, with its code."""
    names: dict[str, str] = {}
    english, british = Locale("en").territories, Locale("en", "GB").territories
    for country in pycountry.countries:
        code = country.alpha_2
        for name in (country.name, getattr(country, "common_name", ""), english.get(code), british.get(code)):
            if name:
                names[name.casefold()] = code
        names[country.alpha_2.casefold()] = country.alpha_2
    return names | _COMMON_NAMES | _GROUP_WORDS | dict.fromkeys(_WORLD_WORDS, WORLD)


def read_territories(text: str) -> tuple[str, ...]:
    """Return the codes of the countries and groups that somebody typed.

    Parameters
    ----------
    text : str
        Names or codes with commas, semicolons or line ends between them; "except", "not" or a minus leaves a
        country out.

    Returns
    -------
    tuple[str, ...]
        Codes without doubles, in the order typed; what is left out carries a minus.

    Raises
    ------
    UnknownTerritory
        If a word is no country or group.

    References
    ----------
    ISO 3166-1 (pycountry), Unicode CLDR (Babel).

    Examples
    --------
    >>> read_territories("UK and Ireland, Germany, world except US")
    ('UK_IRELAND', 'DE', 'world', '-US')
    """
    found: list[str] = []
    for part in re.split(r"[,;\n]+", text):
        # "Congo - Kinshasa" is one name; its dash leaves nothing out.
        whole = part.strip().casefold() in _names()
        for piece in [part] if whole else _LEFT_OUT_INSIDE.split(part.strip()):
            word = " ".join(piece.casefold().split()).strip(" .")
            if not word:
                continue
            plain = _LEFT_OUT.sub("", word)
            found += [("-" if plain != word else "") + code for code in _codes(plain, piece.strip())]
    return tuple(dict.fromkeys(found))


def _codes(word: str, as_typed: str) -> list[str]:
    """Return the codes of one piece, which may join two names with "and" or "&"."""
    names = _names()
    for candidate in (word, word.removeprefix("the ")):
        if candidate in names:
            return [names[candidate]]
    halves = [half.strip() for half in re.split(r"\s+(?:and|&|\+)\s+", word) if half.strip()]
    if len(halves) > 1:
        return [code for half in halves for code in _codes(half, half)]
    raise UnknownTerritory(as_typed)


def written(codes: Iterable[str]) -> str:
    """Return territories as somebody would type them, so that reading them gives the same codes.

    Parameters
    ----------
    codes : Iterable[str]
        Codes as they are stored.

    Returns
    -------
    str
        Names with commas between them; a code where its name would read otherwise.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> written(("UK_IRELAND", "DE", "world", "-US"))
    'UK and Ireland, Germany, world, -United States'
    """
    found = []
    for code in codes:
        plain = code.removeprefix("-")
        minus = "-" if code.startswith("-") else ""
        name = minus + (_WRITTEN.get(plain) or country_name(plain))
        try:
            same = read_territories(name) == (code,)
        except UnknownTerritory:
            same = False
        found.append(name if same else minus + plain)
    return ", ".join(found)


def country_name(code: str, locale: str = "en_GB") -> str:
    """Return the name of a country in a language, or the code itself for one that CLDR does not have.

    Parameters
    ----------
    code : str
        ISO 3166-1 alpha-2.
    locale : str
        A CLDR locale.

    Returns
    -------
    str
        The name.

    References
    ----------
    Unicode CLDR (Babel).

    Examples
    --------
    >>> country_name("GB")
    'United Kingdom'
    """
    return str(Locale.parse(locale).territories.get(code, code))
