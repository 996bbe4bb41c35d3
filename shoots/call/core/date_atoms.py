"""Single expressions of time in a sentence: a day, a weekday, a week, a part of a month, a named day."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from functools import lru_cache

import dateparser

from shoots.call.core import calendar
from shoots.call.core.drafts import ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Sentence

_MONTH = (
    r"(?:jan(?:uary|urary)?|feb(?:r?uary|urary)?|mar(?:ch)?|apr(?:il|ill)?|may|june?|july?|aug(?:ust|st)?|sept?(?:ember|emeber|ember)?|oct(?:ober|obre)?|nov(?:ember|emeber)?|"
    r"dec(?:ember|emeber)?)\b\.?"
)
_WEEKDAY = r"(?:mon(?:day)?|tue(?:s(?:day)?)?|wed(?:s|nesday|nesd|ensday)?|thu(?:r(?:s(?:day)?)?)?|thursady|fri(?:day)?|sat(?:urday)?|sun(?:day)?)\b\.?"
_DAY = r"(?:0?[1-9]|[12]\d|3[01])"
_ORDINAL = r"(?:st|nd|rd|th)\b"
_YEAR = r"(?:(?:,?\s(?P<year>20\d\d)|\s?'(?P<year2>\d\d))\b)"
_WORD_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
    "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17,
    "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "twenty-first": 21, "twenty-second": 22, "twenty-third": 23,
    "twenty-fourth": 24, "twenty-fifth": 25, "twenty-sixth": 26, "twenty-seventh": 27, "twenty-eighth": 28, "twenty-ninth": 29,
    "thirtieth": 30, "thirty-first": 31,
}  # fmt: skip
_WORD_ORDINAL = "|".join(sorted(_WORD_ORDINALS, key=len, reverse=True))

_ISO = re.compile(r"(?<!\d)(20\d\d)-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(?!\d)")
_NUMERIC = re.compile(
    r"(?<![\d./:£$€-])(\d{1,2})([/.])(\d{1,2})(?:\2(\d{4}|\d{2})\b|\2(?=\s|$|,)|(?![\d./:%]))(?!\s?(?:k\b|am\b|pm\b|cm|mm|kg|ml))"
)
_DAY_MONTH = re.compile(
    rf"(?:(?P<wd>{_WEEKDAY})[\s,]*(?:the )?)?(?<![\d.:£$€])(?:\bthe )?\b(?:(?P<day>{_DAY})(?:{_ORDINAL})?|(?P<dayword>{_WORD_ORDINAL}))(?:\s+of)?[\s-]*(?P<month>(?<![a-z]){_MONTH}){_YEAR}?"
)
_MONTH_DAY = re.compile(
    rf"(?:(?P<wd>{_WEEKDAY})[\s,]*)?\b(?P<month>{_MONTH})\s*(?:the )?(?P<day>{_DAY})(?![\d:%/k]|\.\d|\s?(?:x|pics|images|finals|shots|photos|people|products|days|months|years|heroes|looks)\b)(?:{_ORDINAL})?{_YEAR}?"
)
_BARE = re.compile(
    rf"(?:(?P<wd>{_WEEKDAY})[\s,]*(?:the )?(?P<wday>{_DAY})(?:{_ORDINAL})?(?![\d:%/.]|\s?(?:am|pm|x|pics|images|finals|shots|o'clock)\b)|(?P<the>\bthe )?(?<![\d.:/£$€])\b(?P<day>{_DAY}){_ORDINAL}|\bthe (?P<dayword>{_WORD_ORDINAL})\b)"
)
_NOT_A_DAY_AFTER = re.compile(
    r"\s?-?(?:option|choice|look|floor|place|set\b|setup|draft|half|one\b|shot|shoot|time|assistant|quarter|week|party|visit|year|model|product|person|image|pic|"
    r"anniversary|birthday|century|edition|round|version|location|outfit|day\b|month|gen\b|generation|pencil|hold\b|class|hand\b|ones\b|use\b|publication|aid|spot|colour|dish|"
    r"thing|frame|row|avenue|street|coat|to\b (?:launch|see|know)|of all|and foremost|impression|batch|drop\b|collection|season|shop|store|phase|attempt|unit|edit|cut)"
)
_NTH_WEEKDAY = re.compile(
    rf"\b(?P<nth>first|second|third|fourth|last|1st|2nd|3rd|4th) (?P<wd>{_WEEKDAY}) (?:in|of) (?P<month>{_MONTH}){_YEAR}?"
)
_WEEKDAY_WEEK = re.compile(
    rf"\b(?:(?P<wd>{_WEEKDAY})\s+(?P<word>week|fortnight)(?!end)\b|(?:a )?week on (?P<wd2>{_WEEKDAY})|(?:a )?week (?P<wd3>{_WEEKDAY})(?= |$)|(?P<wd4>{_WEEKDAY}) after next|(?P<wd5>{_WEEKDAY})(?: of)? next week|next week,? (?:on )?(?P<wd6>{_WEEKDAY})|(?P<wd7>{_WEEKDAY})(?: of)? (?:this|that) week|(?P<wd8>{_WEEKDAY}) the week after(?: next)?)"
)
_WEEKDAY_ALONE = re.compile(
    rf"(?:\b(?P<mod>this(?: coming)?|next|coming|last|on|by|before|till|until|every|from|or|and|to|either|pencil|for|after|due|not|latest|between)\s+(?:on )?)?\b(?P<wd>{_WEEKDAY})(?P<tail>\s*(?:$|[,;?!)/&+-]|or\b|and\b|at\b|am\b|pm\b|morning|afternoon|latest|please|pls|if|evening|\d))?"
)
_WC = re.compile(
    r"\b(?:w\s?/\s?c|w\.c\.?|wc|w\s?/\s?b|w\s?/\s?beg|wk(?: |\.)?(?:comm(?:encing)?|beg(?:inning)?|of)|week (?:commencing|beginning|starting|of|from)|wk/c|wk)\W{0,2}(?:mon(?:day)?,?\s+)?(?:the )?\Z"
)
_WEEK = re.compile(
    r"\b(?:(?P<part>early|beginning of|start of|end of|late|mid|by the end of|later)\s+)?(?:(?P<which>this|next|the following|following|the)\s+(?:week|wk)(?P<after>\s+after(?: next)?| after that)?\b(?!\s?(?:end|of|commencing|beginning|on|days?|before|from))|(?P<weekend>this|next|the|at the|over the) weekend)"
)
_RELATIVE = re.compile(
    rf"\b(?:(?P<word>today|tomorrow|tmrw|tmw|tomoz|tonight|day after tomorrow|the day after tomorrow)|(?P<pre>in|within|inside|under|over the next)\s+(?P<n>\d{{1,2}}|{NUMBER_WORD}|an?|a couple of|a few)\s+(?P<unit>days?|weeks?|wks?|months?|mths?|fortnight)s?(?:'? time)?(?: of (?P<anchor>the shoot|shoot|shooting|wrap))?|"
    rf"(?P<n2>\d{{1,2}}|{NUMBER_WORD}|an?|a couple of)\s+(?:working )?(?P<unit2>days?|weeks?|wks?|months?|fortnight)\s?(?:after|from|post)\s+(?P<anchor2>the shoot|shoot|shooting|wrap|that|today|now)|(?P<n3>\d{{1,2}}|{NUMBER_WORD}|an?)[ -](?P<unit3>day|week|wk)s?'? turn ?around|(?P<n4>a|\d|{NUMBER_WORD}) (?P<unit4>fortnight|weeks?) today)\b"
)
_MONTH_PART = re.compile(
    rf"\b(?:(?P<part>early(?:\s?/\s?mid)?|mid(?:dle of)?(?:[- ]to[- ]late)?|late|(?:the )?(?:very )?(?:end|back end|back|tail end)(?: of)?|(?:the )?(?:start|beginning|top)(?: of)?|(?:the )?(?P<nth>first|second|third|fourth|last|1st|2nd|3rd|4th)\s(?P<unit>week|half|fortnight|wk)(?: of| in)?|sometime(?: in)?)[\s-]*)?"
    rf"(?P<pre>\b(?:in|by|before|during|until|till|from|after|through|end|for|around|next|this|of|since|last|deadline|delivery|shoot|launch|launching|launches|due|about|sometime|or|maybe|prob|probably)\s+)?(?P<month>{_MONTH}){_YEAR}?(?P<tail>\s*(?:$|[,;?!)/-]|or\b|shoot|launch|issue|delivery|sometime|please|if|for\b|with\b|but\b|and\b|as\b))?"
)
_SEASON = re.compile(
    r"\b(?:(?P<part>early|mid|late|end of|start of|beginning of)\s+)?(?P<pre>in|this|next|by|before|for|until|over|during|after|of|late|early|mid)\s+(?:the\s+)?(?P<season>spring|summer|autumn|fall|winter)\b(?!\s?(?:range|collection|feel|look|vibe|menu|edit|line|campaign|colours|light|launch|mood|drinks|dress|drop|dishes|stock|sale|party|fruit|veg|flowers|jackets?|coats?|tones|palette|foliage|wear|season|clothes|recipes|shade|serve|body|tyres|cocktails|mornings?|evenings?|day|days))(?:\s(?P<year>20\d\d))?"
)
_QUARTER = re.compile(r"\b(?P<part>early|mid|late|end of|start of)?\s?q(?P<q>[1-4])\b(?:\s?(?P<year>20\d\d|'?\d\d\b))?")
_NUMBERS_BEFORE = re.compile(
    rf"(?<![\d.:/£$€x])(?:\b(?:{_WEEKDAY}\s)?(?:the )?{_DAY}(?:st|nd|rd|th)?\s?(?:-|/|,|&|\+|\bto\b|\band\b|\bor\b)\s?(?:the )?(?:{_WEEKDAY}\s)?)+\Z"
)
_NUMBERS_AFTER = re.compile(
    rf"(?:\s?(?:-|/|,|&|\+|to\b|and\b|or\b)\s?(?:the )?{_DAY}(?:{_ORDINAL}|(?=\s*(?:$|[,;.)?!&+/-]|or\b|and\b)))(?!\s?(?:x\b|images|pics|finals|shots|photos|pictures|heroes|{_MONTH}))(?![\d:]))+"
)
_ISSUE = re.compile(rf"\b(?P<month>{_MONTH}) (?:issue|edition)\b")


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


def month_of(word: str) -> int:
    """Return the number of a month from its name or the beginning of it, 0 for none.

    Parameters
    ----------
    word : str
        In small letters.

    Returns
    -------
    int
        1 to 12, or 0.

    References
    ----------
    .. [1] Own derivation, see tests.
    """
    return calendar.MONTHS.index(word[:3]) + 1 if word[:3] in calendar.MONTHS else 0


def weekday_of(word: str) -> int:
    """Return the number of a weekday from its name or the beginning of it, 0 for Monday, -1 for none.

    Parameters
    ----------
    word : str
        In small letters.

    Returns
    -------
    int
        0 to 6, or -1.

    References
    ----------
    .. [1] Own derivation, see tests.
    """
    return calendar.WEEKDAYS.index(word[:3]) if word and word[:3] in calendar.WEEKDAYS else -1


@lru_cache(maxsize=1024)
def _figures(text: str, order: str, base: date) -> date | None:
    """Read a date in figures that was already cut out."""
    parsed = dateparser.parse(
        text,
        languages=["en"],
        settings={
            "DATE_ORDER": order,
            "PREFER_DATES_FROM": "future",
            "RELATIVE_BASE": datetime.combine(base, time()),
            "STRICT_PARSING": False,
            "PARSERS": ["absolute-time"],
        },
    )
    return parsed.date() if parsed else None


class Finder:
    """Finds the expressions of one sentence; `month` is the last month that the notes named."""

    def __init__(
        self,
        sentence: Sentence,
        hits: dict[str, list[Hit]],
        *,
        called_on: date,
        country: str,
        month: tuple[int, int] | None,
    ) -> None:
        """Prepare for one sentence."""
        self.sentence, self.hits, self.called_on, self.country, self.month = sentence, hits, called_on, country, month
        self.text = sentence.text
        self.atoms: list[Atom] = []

    def find(self) -> list[Atom]:
        """Return the atoms in order, none inside another."""
        text = self.text
        if re.search(r"\d", text):
            self._absolute()
        self._named()
        if re.search(r"(?:mon|tue|wed|thu|fri|sat|sun)", text):
            self._weekdays()
        self._weeks_and_relative()
        self._months_and_seasons()
        for atom in list(self.atoms):
            if atom.day and atom.first:
                self._neighbours(atom)
        self.atoms.sort(key=lambda atom: atom.start)
        return self.atoms

    def _neighbours(self, atom: Atom) -> None:
        """Add the bare numbers that share a month with a day: "17-19 June", "June 8, 9 or 10"."""
        if atom.first is None:
            return
        if before := _NUMBERS_BEFORE.search(self.text[: atom.start]):
            for match in re.finditer(r"\d{1,2}", before.group()):
                self._same_month(
                    atom, int(match.group()), before.start() + match.start(), before.start() + match.end(), below=True
                )
        if after := _NUMBERS_AFTER.match(self.text, atom.end):
            for match in re.finditer(r"\d{1,2}", after.group()):
                self._same_month(
                    atom, int(match.group()), after.start() + match.start(), after.start() + match.end(), below=False
                )

    def _same_month(self, atom: Atom, day: int, start: int, end: int, *, below: bool) -> None:
        if atom.first is None or not 1 <= day <= 31 or (day < atom.day) != below:
            return
        try:
            found = atom.first.replace(day=day)
        except ValueError:
            return
        self._add(Atom(start, end, found, found, ReasonCode.DAY_NAMED, day=day, has_month=atom.has_month))

    def _add(self, atom: Atom) -> None:
        if all(atom.end <= other.start or atom.start >= other.end for other in self.atoms) and self.sentence.is_free(
            atom.start, atom.end
        ):
            self.atoms.append(atom)

    def _year(self, match: re.Match[str]) -> int | None:
        groups = match.groupdict()
        if groups.get("year"):
            return int(str(groups["year"])[-2:]) + 2000
        return 2000 + int(groups["year2"]) if groups.get("year2") else None

    def _on(self, day: int, month: int, year: int | None, weekday: int) -> tuple[date | None, bool]:
        if year is not None:
            try:
                found: date | None = date(year, month, day)
            except ValueError:
                return None, True
        else:
            found = calendar.on_or_after(day, month, self.called_on)
        return found, bool(found and weekday >= 0 and found.weekday() != weekday)

    def _absolute(self) -> None:
        for match in _ISO.finditer(self.text):
            try:
                day = date(int(match.group(1)), int(match.group(2)), int(match.group(3)))
            except ValueError:
                continue
            self._add(Atom(match.start(), match.end(), day, day, ReasonCode.DAY_NAMED, day=day.day))
        for pattern in (_NTH_WEEKDAY,):
            for match in pattern.finditer(self.text):
                month = month_of(match["month"])
                nth = {"first": 1, "second": 2, "third": 3, "fourth": 4, "last": -1}.get(match["nth"]) or int(
                    match["nth"][0]
                )
                start = calendar.on_or_after(1, month, self.called_on.replace(day=1))
                year = self._year(match) or (start.year if start else self.called_on.year)
                day = calendar.nth_weekday(year, month, weekday_of(match["wd"]), nth)
                self._add(Atom(match.start(), match.end(), day, day, ReasonCode.DAY_NAMED, day=day.day))
        for pattern in (_DAY_MONTH, _MONTH_DAY):
            for match in pattern.finditer(self.text):
                word = match.groupdict().get("dayword")
                number_ = _WORD_ORDINALS[word] if word else int(match["day"])
                weekday = weekday_of(match["wd"] or "")
                found, clash = self._on(number_, month_of(match["month"]), self._year(match), weekday)
                if found:
                    self._add(
                        Atom(
                            match.start(),
                            match.end(),
                            found,
                            found,
                            ReasonCode.DAY_NAMED,
                            day=number_,
                            weekday=weekday,
                            ambiguous=clash,
                        )
                    )
        for match in _NUMERIC.finditer(self.text):
            self._numeric(match)
        named = [atom for atom in self.atoms if atom.first and atom.day]
        said = self.month
        for match in _BARE.finditer(self.text):
            before = [atom for atom in named if atom.start < match.start()]
            near = before[-1] if before else named[0] if named else None
            self.month = (near.first.year, near.first.month) if near and near.first else said
            self._bare(match)
        self.month = said

    def _numeric(self, match: re.Match[str]) -> None:
        first, mark, second, year = match.groups()
        if (
            mark == "."
            and not year
            and not (match.group().endswith(".") and self.country in ("DE", "AT", "CH", "CZ", "NO", "DK", "FI", "PL"))
        ):
            return
        if not year and (
            re.match(
                r"\s?(?:images|pics|finals|shots|people|days|weeks|products|x\b|of\b|looks|heroes|length|view|portrait|mins?\b|months|hours|size|page|models?|locations?|options?)",
                self.text[match.end() :],
            )
            or (first == "1" and second in ("2", "3", "4"))
        ):
            return
        if not year and not ((int(first) <= 31 and int(second) <= 12) or (int(first) <= 12 and int(second) <= 31)):
            return
        order = calendar.date_order(self.country)
        figures = match.group().rstrip(".")
        if order == "YMD":
            order = "DMY" if year else "MDY"
        if not year:
            day, month = (int(second), int(first)) if order == "MDY" else (int(first), int(second))
            if month > 12:
                day, month = month, day
            found = calendar.on_or_after(day, month, self.called_on)
        else:
            found = _figures(figures, order, self.called_on)
        if not found:
            return
        swapped = int(first) <= 12 and int(second) <= 12 and first != second
        readings: tuple[date, ...] = ()
        if swapped:
            other = (
                calendar.on_or_after(found.month, found.day, self.called_on)
                if not year
                else date(found.year, found.day, found.month)
            )
            readings = (found, other) if other else ()
        before = re.search(rf"({_WEEKDAY})[\s,]*\Z", self.text[: match.start()])
        weekday = weekday_of(before.group(1)) if before else -1
        start = before.start() if before else match.start()
        foreign = order != "DMY" and swapped
        clash = weekday >= 0 and found.weekday() != weekday
        self._add(
            Atom(
                start,
                match.end(),
                found,
                found,
                ReasonCode.DAY_NAMED,
                day=found.day,
                weekday=weekday,
                ambiguous=clash or foreign,
                readings=readings if (clash or foreign) else (),
            )
        )

    def _bare(self, match: re.Match[str]) -> None:
        word = match["dayword"]
        day = _WORD_ORDINALS[word] if word else int(match["wday"] or match["day"])
        if _NOT_A_DAY_AFTER.match(self.text, match.end()):
            return
        if (
            not match["wd"]
            and (word or day < 4)
            and not (match["the"] or word)
            and not re.search(
                r"(?:\b(?:on|by|before|until|or|and|to|from|pencil|shoot|date|for|delivery|launch|due)|[-/,&:])\s*\Z",
                self.text[: match.start()],
            )
        ):
            return
        if (
            word
            and day < 4
            and not re.search(
                r"\b(?:on|by|before|until|or|and|to|from|pencil|till|between|shoot)\s*\Z", self.text[: match.start()]
            )
        ):
            return
        weekday = weekday_of(match["wd"] or "")
        found, ambiguous, readings = self.resolve_bare(day, weekday)
        if found:
            self._add(
                Atom(
                    match.start(),
                    match.end(),
                    found,
                    found,
                    ReasonCode.DAY_NAMED,
                    day=day,
                    has_month=False,
                    weekday=weekday,
                    ambiguous=ambiguous,
                    readings=readings,
                )
            )

    def resolve_bare(self, day: int, weekday: int) -> tuple[date | None, bool, tuple[date, ...]]:
        """Return the day that a bare ordinal means, whether that is doubtful, and what else it might mean."""
        context = None
        if self.month:
            year, month = self.month
            context = calendar.next_ordinal(day, max(date(year, month, 1), self.called_on))
        plain = calendar.next_ordinal(day, self.called_on)
        if weekday >= 0:
            for start in (context, plain):
                if start and start.weekday() == weekday:
                    return start, False, ()
            at = plain
            for _ in range(12):
                if at is None or at.weekday() == weekday:
                    break
                at = calendar.next_ordinal(day, at + timedelta(days=1))
            if at and at.weekday() == weekday:
                return at, False, ()
        found = context or plain
        later = calendar.next_ordinal(day, found + timedelta(days=1)) if found else None
        doubtful = context is None or weekday >= 0
        return found, doubtful, (found, later) if doubtful and found and later else ()

    def _named(self) -> None:
        for hit in self.hits.get("holiday", ()):
            day = calendar.named_day(hit.entry.data, self.country, self.called_on)
            if day is None or re.match(
                r"\s?(?:range|collection|cards?|campaign|menu|edit|gift|feel|pudding|tree|crackers|eggs?|hamper|box|boxes|decorations?|jumpers?|themed?|party|cake|wreath|launch|ad\b|drinks?|dinner|baubles|market|lights|vibe|sale|sauce|chocolates?|biscuits?|dishes|scents?|candles?|specials?|cheese|stock)",
                self.text[hit.end :],
            ):
                continue
            length = int(hit.entry.data.get("length", 1))
            self._add(
                Atom(
                    hit.start,
                    hit.end,
                    day,
                    day + timedelta(days=length - 1),
                    ReasonCode.HOLIDAY,
                    ambiguous=hit.code == "bank_holiday",
                )
            )

    def _weekdays(self) -> None:
        today = self.called_on
        for match in _WEEKDAY_WEEK.finditer(self.text):
            name = next(v for k, v in match.groupdict().items() if k.startswith("wd") and v)
            weekday = weekday_of(name)
            coming = today + timedelta(days=(weekday - today.weekday()) % 7)
            monday = today - timedelta(days=today.weekday())
            if match["word"] == "fortnight":
                day = coming + timedelta(days=14)
            elif match["wd4"] or match["wd8"]:
                day = monday + timedelta(days=14 + weekday)
            elif match["wd5"] or match["wd6"]:
                day = monday + timedelta(days=7 + weekday)
            elif match["wd7"]:
                day = monday + timedelta(days=weekday)
            else:
                day = coming + timedelta(days=7)
            self._add(
                Atom(
                    match.start(),
                    match.end(),
                    day,
                    day,
                    ReasonCode.WEEKDAY_FROM_CALL,
                    weekday=weekday,
                    ambiguous=weekday == today.weekday(),
                )
            )
        for match in _WEEKDAY_ALONE.finditer(self.text):
            name, mod = match["wd"].rstrip("."), match["mod"] or ""
            short = len(name) <= 3 or name in ("tues", "weds", "thur", "thurs")
            if mod in ("last", "every") or self.text[match.end("wd") :].startswith("s"):
                continue
            alone = (
                match["tail"] is not None
                or bool(mod)
                or bool(re.search(r"(?:^|[,;:(/&+-])\s*\Z", self.text[: match.start("wd")]))
            )
            if name in ("sat", "sun", "mon", "wed") and not (
                alone and (match["tail"] is not None or mod in ("on", "this", "next", "by", "or", "before"))
            ):
                continue
            if name == "sun" and re.search(
                r"\b(?:the|full|hard|low|evening|morning|in|with|no|some)\s*\Z", self.text[: match.start("wd")]
            ):
                continue
            if short and not alone and name not in ("tues", "thurs", "fri", "thu", "weds"):
                continue
            weekday = weekday_of(name)
            coming = today + timedelta(days=(weekday - today.weekday() - 1) % 7 + 1)
            day, ambiguous, readings = coming, False, ()
            if mod == "next":
                day = today - timedelta(days=today.weekday()) + timedelta(days=7 + weekday)
                if day != coming:
                    ambiguous, readings = True, (day, coming)
            start = match.start("mod") if mod in ("next", "this", "this coming", "coming") else match.start("wd")
            self._add(
                Atom(
                    start,
                    match.end("wd"),
                    day,
                    day,
                    ReasonCode.WEEKDAY_FROM_CALL,
                    weekday=weekday,
                    ambiguous=ambiguous,
                    readings=readings,
                )
            )

    def _weeks_and_relative(self) -> None:
        today = self.called_on
        if "week" in self.text or "wk" in self.text:
            for match in _WEEK.finditer(self.text):
                monday = today - timedelta(days=today.weekday())
                if match["weekend"]:
                    ahead = 7 if match["weekend"] == "next" else 0
                    first, last = monday + timedelta(days=5 + ahead), monday + timedelta(days=6 + ahead)
                else:
                    if match["which"] == "the" and not (match["after"] or match["part"]):
                        continue
                    weeks = 0 if match["which"] == "this" else 1
                    weeks = 2 if match["after"] else weeks
                    if match["which"] == "the" and match["part"] and not match["after"]:
                        weeks = 0
                    first = monday + timedelta(days=7 * weeks)
                    last = first + timedelta(days=6)
                    part = match["part"] or ""
                    if part.startswith(("early", "beginning", "start")):
                        last = first + timedelta(days=2)
                    elif "end" in part or part in ("late", "later"):
                        first, last = first + timedelta(days=3), first + timedelta(days=4)
                    elif part == "mid":
                        first, last = first + timedelta(days=2), first + timedelta(days=3)
                self._add(Atom(match.start(), match.end(), max(first, today), last, ReasonCode.RELATIVE_TO_CALL))
        for match in _RELATIVE.finditer(self.text):
            self._relative(match)

    def _relative(self, match: re.Match[str]) -> None:
        today = self.called_on
        if word := match["word"]:
            days = 0 if word in ("today", "tonight") else 2 if "after" in word else 1
            day = today + timedelta(days=days)
            self._add(Atom(match.start(), match.end(), day, day, ReasonCode.RELATIVE_TO_CALL))
            return
        text = match["n"] or match["n2"] or match["n3"] or match["n4"] or "a"
        unit = match["unit"] or match["unit2"] or match["unit3"] or match["unit4"] or "day"
        many = 1 if text in ("a", "an") else 2 if "couple" in text else 3 if "few" in text else number(text) or 0
        days = many * (
            14 if unit.startswith("fort") else 7 if unit.startswith("w") else 30 if unit.startswith("m") else 1
        )
        anchor = match["anchor"] or match["anchor2"] or ("shoot" if match["n3"] else "")
        if anchor and anchor not in ("today", "now"):
            self._add(
                Atom(
                    match.start(),
                    match.end(),
                    None,
                    None,
                    ReasonCode.RELATIVE_TO_CALL,
                    after_shoot_days=days,
                    within=True,
                )
            )
            return
        if unit.startswith("m"):
            month = today.month - 1 + many
            year, month = today.year + month // 12, month % 12 + 1
            day = min(date(year, month, 1) + timedelta(days=today.day - 1), calendar.month_span(year, month)[1])
        else:
            day = today + timedelta(days=days)
        self._add(
            Atom(
                match.start(),
                match.end(),
                day,
                day,
                ReasonCode.RELATIVE_TO_CALL,
                within=match["pre"] in ("within", "inside", "under", "over the next"),
            )
        )

    def _months_and_seasons(self) -> None:
        for match in _MONTH_PART.finditer(self.text):
            self._month_part(match)
        for match in _SEASON.finditer(self.text):
            start_month = {"spring": 3, "summer": 6, "autumn": 9, "fall": 9, "winter": 12}[match["season"]]
            start = calendar.on_or_after(
                1, start_month, self.called_on.replace(month=max(1, self.called_on.month - 2), day=1)
            )
            if not start:
                continue
            year = (
                int(match["year"])
                if match["year"]
                else start.year + (1 if match["pre"] == "next" and start <= self.called_on else 0)
            )
            first = date(year, start_month, 1)
            last_month = start_month + 2
            last = calendar.month_span(year + (1 if last_month > 12 else 0), (last_month - 1) % 12 + 1)[1]
            part = match["part"] or (match["pre"] if match["pre"] in ("early", "mid", "late") else "")
            third = timedelta(days=30)
            if part.startswith(("early", "start", "begin")):
                last = first + third
            elif part.startswith(("late", "end")):
                first = last - third
            begin = match.start() if match["part"] or part else match.start("season")
            self._add(Atom(begin, match.end(), first, last, ReasonCode.PART_OF_MONTH, ambiguous=True))
        for match in _QUARTER.finditer(self.text):
            month = 3 * (int(match["q"]) - 1) + 1
            start = calendar.on_or_after(1, month, self.called_on.replace(day=1))
            year = 2000 + int(match["year"][-2:]) if match["year"] else start.year if start else self.called_on.year
            self._add(
                Atom(
                    match.start("q") - 1,
                    match.end(),
                    date(year, month, 1),
                    calendar.month_span(year, month + 2)[1],
                    ReasonCode.PART_OF_MONTH,
                )
            )

    def _month_part(self, match: re.Match[str]) -> None:
        name, pre, part = match["month"].rstrip("."), (match["pre"] or "").strip(), match["part"] or ""
        month = month_of(name)
        plain = not (pre or part or match["year"] or match["year2"])
        if pre in ("last", "since") or not month:
            return
        if (
            name in ("may", "mar", "march", "jan", "dec", "sep", "oct", "apr")
            and plain
            and not (
                match["tail"] is not None
                and (
                    name not in ("may", "mar")
                    or self.sentence.raw[match.start("month") : match.start("month") + 1].isupper()
                )
            )
        ):
            return
        if (
            name == "may"
            and not (
                part
                or match["year"]
                or pre
                in (
                    "in",
                    "by",
                    "before",
                    "of",
                    "during",
                    "until",
                    "from",
                    "next",
                    "this",
                    "end",
                    "after",
                    "sometime",
                    "around",
                )
            )
            and not (
                match["tail"] is not None
                and self.sentence.raw[match.start("month") : match.start("month") + 1].isupper()
            )
        ):
            return
        if re.match(r"\s?(?:issue|edition)", self.text[match.end("month") :]):
            pass
        start = calendar.on_or_after(1, month, self.called_on.replace(day=1))
        year = self._year(match) or (start.year if start else self.called_on.year)
        first, last = calendar.month_span(year, month, _part(part, pre, match))
        begin = match.start("part") if part else match.start("month")
        if pre == "end":
            begin = match.start("pre")
        if last < self.called_on:
            return
        whole = not part and pre != "end"
        self._add(
            Atom(
                begin,
                match.end("year") if match["year"] else match.end("year2") if match["year2"] else match.end("month"),
                first,
                last,
                ReasonCode.PART_OF_MONTH,
                whole_month=whole,
            )
        )


def _part(part: str, pre: str, match: re.Match[str]) -> str:
    if pre == "end" or "end" in part or "back" in part or "tail" in part:
        return "late"
    if match["nth"]:
        nth = {"first": 1, "second": 2, "third": 3, "fourth": 4}.get(match["nth"]) or (
            int(match["nth"][0]) if match["nth"][0].isdigit() else -1
        )
        if match["unit"] == "half":
            return "first half" if nth == 1 else "second half"
        if match["unit"] == "fortnight":
            return "first half" if nth == 1 else "second half"
        return "last week" if nth < 0 else f"week {nth}"
    if part.startswith(("early", "the start", "start", "the begin", "begin", "top", "the top")):
        return "early"
    if part.startswith("mid"):
        return "mid"
    return "late" if part.startswith("late") else ""


def widened_to_week(sentence: Sentence, atoms: list[Atom]) -> list[Atom]:
    """Return the atoms with "w/c 8 June" made a week, beginning on that day.

    Parameters
    ----------
    sentence : Sentence
        Where they stand.
    atoms : list of Atom
        Dates found in it.

    Returns
    -------
    list of Atom
        As many, in the same order.

    References
    ----------
    .. [1] Own derivation, see tests.
    """
    widened = []
    for atom in atoms:
        before = _WC.search(sentence.text[: atom.start])
        if before and atom.first and atom.first == atom.last:
            first = atom.first
            odd = first.weekday() != 0 and atom.weekday < 0
            atom = replace(
                atom,
                start=before.start(),
                last=first + timedelta(days=6),
                code=ReasonCode.WEEK_COMMENCING,
                ambiguous=atom.ambiguous or odd,
            )
        widened.append(atom)
    return widened
