"""The words that dates are made of, as patterns, and one expression of time as a value."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date

from shoots.call.core import calendar
from shoots.call.core.drafts import ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence, Span

MONTH = (
    r"(?:jan(?:uary|urary|uar|uray)?|feb(?:r?uary|urary|ruar)?|mar(?:ch|z)|mar|apr(?:il|ill)?|may|june?|juni|july?|"
    r"juli|aug(?:ust|st|sut)?|agust|sept?(?:ember|emeber|meber|mber)?|oct(?:ober|obre|ber)?|okt(?:ober)?|"
    r"nov(?:ember|emeber|mber)?|dec(?:ember|emeber|mber)?|dez(?:ember)?)\b\.?"
)
WEEKDAY = (
    r"(?:mon(?:day|tag)?|mo(?:ndya|nady)|tue(?:s(?:day|dya)?)?|tuseday|teusday|tu(?:esday)|wed(?:s|nesday|nesd|ensday|"
    r"nsday|nesdya|esday)?|wen(?:sday|dsday|esday)|thu(?:r(?:s(?:day|dya)?)?)?|thursady|thrusday|thirsday|fri(?:day|"
    r"dya)?|"
    r"firday|sat(?:urday|erday|uday)?|sun(?:day|dya)?|dienstag|mittwoch|donnerstag|freitag|samstag|sonnabend|"
    r"sonntag)\b\.?"
)
#: German weekdays as they stand before a date in figures; alone they are too short to mean anything.
SHORT_WEEKDAY = r"(?:mo|di|mi|do|fr|sa|so)\b\.?"
DAY = r"(?:0?[1-9]|[12]\d|3[01])"
ORDINAL = r"(?:st|nd|rd|th)\b"
YEAR = r"(?:(?:,?\s(?P<year>20\d\d)|\s?'(?P<year2>\d\d))\b)"
WORD_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9,
    "tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16,
    "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "twenty-first": 21, "twenty-second": 22,
    "twenty-third": 23, "twenty-fourth": 24, "twenty-fifth": 25, "twenty-sixth": 26, "twenty-seventh": 27,
    "twenty-eighth": 28, "twenty-ninth": 29, "thirtieth": 30, "thirty-first": 31,
}  # fmt: skip
WORD_ORDINAL = "|".join(sorted(WORD_ORDINALS, key=len, reverse=True))
#: Bad weather as people say it.
WEATHER = (
    r"(?:rain\w*|wet(?: weather)?|(?:bad |poor |wet )?weather(?!\s(?:permitting|window|dep))|lash\w*|bucket(?:s|"
    r"ing)\w*|"
    r"pour(?:s|ing)\w*|pelt\w*|tip(?:s|ping)?(?: it)? (?:it )?down|chuck(?:s|ing) it|piss\w*|drizzl\w*|showers?|"
    r"showery|"
    r"hail\w*|sleet\w*|snow\w*|icy|stormy?|storms|wind|windy|gales?|gusty|blow(?:s|ing|y)|fog|foggy|mist|misty|"
    r"overcast|cloudy|"
    r"foul|grim|soaking|downpour|washout|wx|wetter|regen\w*|regnet|schlechtwetter|nass|tipping|chucking)"
)
PICTURES = (
    r"(?:pics?|pictur\w*|images?|imgs?|finals?|files?|photos?|fotos?|photographs|selects?|jpe?gs?|tiffs?|artwork|"
    r"retouching|"
    r"retouch(?:ed)?|edits?|everything|all|em|'em|them|stuff|shots|stills|assets|final (?:edits?|images?|files?|"
    r"pictures?|art)|"
    r"retouched \w+|edited \w+|the lot|galler(?:y|ies)|(?:hi|high|low|web|full)[ -]?res|high-?res|proofs|bilder|"
    r"daten|dateien|finished \w+|"
    r"headshots|"
    r"heads|portraits|the rest|rest)"
)
#: Words that mean pictures and nothing else.
STRONG = (
    r"(?:pics?|pictures|images?|imgs?|finals?|files?|photos?|fotos?|photographs|selects?|artwork|edits?|jpe?gs?|"
    r"tiffs?|galler(?:y|"
    r"ies)|(?:hi|high|low|web|full)[ -]?res|"
    r"proofs)"
)


@dataclass(frozen=True, slots=True)
class Atom:
    """One expression of time, resolved as far as it can be on its own."""

    start: int
    end: int
    first: date | None
    last: date | None
    code: ReasonCode
    day: int = 0
    has_month: bool = True
    whole_month: bool = False
    weekday: int = -1
    ambiguous: bool = False
    readings: tuple[date, ...] = ()
    within: bool = False
    after_shoot_days: int = 0
    days_from_call: int = 0
    vague: bool = False


@dataclass(slots=True)
class Scene:
    """What a date is read against: its sentence, the day of the call, and what the notes named before."""

    sentence: Sentence
    hits: dict[str, list[Hit]]
    called_on: date
    country: str
    month: tuple[int, int] | None = None
    last_day: date | None = None
    atoms: list[Atom] = field(default_factory=list)
    blocked: list[Span] = field(default_factory=list)

    @property
    def text(self) -> str:
        """Return the cleaned sentence."""
        return self.sentence.text

    def add(self, atom: Atom) -> None:
        """Keep an expression unless something was read from its words already."""
        taken = [Span(other.start, other.end) for other in self.atoms] + self.blocked
        if all(atom.end <= other.start or atom.start >= other.end for other in taken) and self.sentence.is_free(
            atom.start, atom.end
        ):
            self.atoms.append(atom)

    def add_all(self, atoms: Iterator[Atom]) -> None:
        """Keep several, in order."""
        for atom in atoms:
            self.add(atom)


def year_of(match: re.Match[str]) -> int | None:
    """Return the year that a match of `YEAR` names.

    Parameters
    ----------
    match : re.Match
        A match of a pattern that ends with `YEAR`.

    Returns
    -------
    int or None
        The year, None when there is none.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> year_of(re.match(YEAR, " '26"))
    2026
    """
    groups = match.groupdict()
    if groups.get("year"):
        return int(str(groups["year"])[-2:]) + 2000
    return 2000 + int(groups["year2"]) if groups.get("year2") else None


def month_of(word: str) -> int:
    """Return the number of a month from its name or the beginning of it.

    Parameters
    ----------
    word : str
        Lower-case word.

    Returns
    -------
    int
        1 for January; 0 for none.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> month_of("sept"), month_of("tuesday")
    (9, 0)
    """
    name = {"okt": "oct", "dez": "dec", "agu": "aug"}.get(word[:3], word[:3])
    return calendar.MONTHS.index(name) + 1 if name in calendar.MONTHS else 0


def weekday_of(word: str) -> int:
    """Return the number of a weekday from its name or the beginning of it.

    Parameters
    ----------
    word : str
        Lower-case word.

    Returns
    -------
    int
        0 for Monday; -1 for none.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> weekday_of("thurs"), weekday_of("june")
    (3, -1)
    """
    name = _OTHER_NAMES.get(word[:3], _OTHER_NAMES.get(word.rstrip("."), word[:3]))
    return calendar.WEEKDAYS.index(name) if name in calendar.WEEKDAYS else -1


_OTHER_NAMES = {
    "wen": "wed", "teu": "tue", "tus": "tue", "thr": "thu", "thi": "thu", "fir": "fri", "die": "tue", "mit": "wed",
    "don": "thu", "fre": "fri", "sam": "sat", "son": "sun", "mo": "mon", "di": "tue", "mi": "wed", "do": "thu",
    "fr": "fri", "sa": "sat", "so": "sun", "mon": "mon",
}  # fmt: skip
