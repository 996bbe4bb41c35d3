"""Lengths of time: "18 mths", "a year", "two seasons", "2y"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Sentence

#: A season of fashion or sport is taken as half a year; it is asked for. [months]
SEASON_MONTHS = 6
_LENGTH = re.compile(
    rf"(?<![\w£$€.:,-])(?P<n>\d{{1,3}}(?:\.\d+)?|{NUMBER_WORD}|an?(?: full| whole| single)?|half an?|a couple "
    rf"of|couple of|a few)"
    r"(?P<half1>\s?(?:and a half|1/2|½))?[ -]?(?P<full>full |calendar |more )?"
    r"(?P<unit>years?|yrs?|ans\b|jahre?\b|(?:(?<=\d)|(?<=\d\s))y(?=\b(?!\s?[-/]))|months?|mths?|mnths?|mos?|m\b|"
    r"seasons?|weeks?|wks?|"
    r"days?)\b(?P<half2>\s(?:and a half))?"
)


@dataclass(frozen=True, slots=True)
class Length:
    """A length of time in a sentence."""

    start: int
    end: int
    months: Decimal
    unit: str
    text: str

    @property
    def is_seasons(self) -> bool:
        """Return whether it was said in seasons, whose length is a guess."""
        return self.unit.startswith("s")


def find(sentence: Sentence) -> list[Length]:
    """Return the lengths of time of a sentence that nothing else was read from.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.

    Returns
    -------
    list of Length
        In order.

    References
    ----------
    A season as half a year: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [str(length.months) for length in find(cut("18 mths, a year and a half, 2 seasons").sentences[0])]
    ['18', '18.0', '12']
    """
    found = []
    for match in _LENGTH.finditer(sentence.text):
        months = _months(match)
        if months is None or not sentence.is_free(match.start(), match.end()):
            continue
        if match["unit"] == "m" and not match["n"].isdigit():
            continue
        found.append(Length(match.start(), match.end(), months, match["unit"], match.group()))
    return found


def _months(match: re.Match[str]) -> Decimal | None:
    text = match["n"].strip()
    half = Decimal("0.5") if match["half1"] or match["half2"] else Decimal(0)
    if re.fullmatch(r"\d+(?:\.\d+)?", text):
        many = Decimal(text)
    elif text.startswith("half"):
        many = Decimal("0.5")
    elif "couple" in text:
        many = Decimal(2)
    elif text == "a few":
        many = Decimal(3)
    elif text.split()[0] in ("a", "an") and "hundred" not in text:
        many = Decimal(1)
    else:
        value = number(text)
        if value is None:
            return None
        many = Decimal(value)
    many += half
    unit = match["unit"]
    if unit.startswith(("y", "an", "j")):
        return many * 12
    if unit.startswith("s"):
        return many * SEASON_MONTHS
    if unit.startswith("w"):
        return (many * 12 / 52).quantize(Decimal("0.1"))
    if unit.startswith("d"):
        return (many * 12 / 365).quantize(Decimal("0.1"))
    return many
