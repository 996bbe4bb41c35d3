"""Days that are named: "8 June", "June 8th", "8/6", "2026-06-08", "the 17th", "Wed 17", "first Monday in June"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from functools import lru_cache

import dateparser

from shoots.call.core import calendar
from shoots.call.core.date_words import (
    DAY,
    MONTH,
    ORDINAL,
    SHORT_WEEKDAY,
    WEEKDAY,
    WORD_ORDINAL,
    WORD_ORDINALS,
    YEAR,
    Atom,
    Scene,
    month_of,
    weekday_of,
    year_of,
)
from shoots.call.core.drafts import ReasonCode

_THINGS = (
    r"(?:x|pics|images|finals|shots|photos|pictures|people|products|days|weeks|months|years|heroes|looks|"
    r"hours|mins?|models?|"
    r"locations?|options?|of|length|view|portrait|size|page|o'clock|am|pm|stills|each|setups|flavours|colours|packs)\b"
)
_ISO = re.compile(r"(?<!\d)(20\d\d)-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(?!\d)")
_NUMERIC = re.compile(
    r"(?<![\d./:£$€])(?<![a-z]-)(\d{1,2})([/.])(\d{1,2})(?:\2(\d{4}|\d{2})\b|\2(?=\s|$|[-,;)/])|"
    r"(?![\d/:%]|\.\d))(?!\s?(?:k\b|am\b|pm\b|cm|mm|kg|ml))"
)
_DAY_MONTH = re.compile(
    rf"(?:(?P<wd>{WEEKDAY})[\s,]*(?:the )?)?(?<![\d.:£$€])(?:\bthe )?\b(?:(?P<day>{DAY})(?:{ORDINAL})?|"
    rf"(?P<dayword>{WORD_ORDINAL}))"
    rf"(?:\s+of|\.)?[\s-]*(?P<month>(?<![a-z]){MONTH}){YEAR}?"
)
_MONTH_DAY = re.compile(
    rf"(?:(?P<wd>{WEEKDAY})[\s,]*)?\b(?P<month>{MONTH})\s*(?:the )?(?P<day>{DAY})(?![\d:%k]|/\d{{4}}|\.\d|"
    rf"\s?{_THINGS})(?:{ORDINAL})?{YEAR}?"
)
_NTH_WEEKDAY = re.compile(
    rf"\b(?P<nth>first|second|third|fourth|last|1st|2nd|3rd|4th) (?P<wd>{WEEKDAY}) (?:in|of) (?P<month>{MONTH}){YEAR}?"
)
_BARE = re.compile(
    rf"(?:(?P<wd>{WEEKDAY})[\s,]*(?:the )?(?P<wday>{DAY})(?:{ORDINAL})?(?![\d:%/.]|"
    rf"\s?-\s?\d{{1,2}}\s?[ap]m|\s?[ap]m\b|\s?-?ish|\s?{_THINGS})|"
    rf"(?P<the>\bthe )?(?<![\d.:/£$€])\b(?P<day>{DAY}){ORDINAL}|\bthe (?P<dayword>{WORD_ORDINAL})\b|"
    rf"(?<![\d.:/£$€-])\b(?P<cover>{DAY})(?= as (?:a )?(?:back-?up|cover|weather|reserve|rain)))"
)
_NOT_A_DAY_AFTER = re.compile(
    r"\s?-?(?:option|choice|look|floor|place|set\b|setup|draft|half|one\b|shot|shoot|time|assistant|quarter|"
    r"week|party|team|xi\b|eleven|class|grade|prize|world|timer|responder|violin|wife|baby|child|born|visit|year|"
    r"model|product|person|image|pic|anniversary|birthday|century|edition|round|version|location|outfit|day\b|"
    r"month|gen\b|"
    r"generation|pencil|hold\b|class|hand\b|ones\b|use\b|publication|aid|spot|colour|dish|thing|frame|row|"
    r"avenue|street|coat|"
    r"to\b (?:launch|see|know)|of all|and foremost|impression|batch|drop\b|collection|season|shop|store|phase|"
    r"attempt|unit|edit|cut|"
    r"light|page|series|usage|revision|copy|sample|wave|flavour|installation)"
)
_PENCIL = re.compile(r"\b(?:pencil|pencilled|hold|option)\b")
#: Without one of these there is no named month, and no day without one; only a quick way out.
_ANY_MONTH = re.compile(r"jan|feb|mar|apr|may|jun|jul|aug|agu|sep|oct|okt|nov|dec|dez")
_ANY_BARE = re.compile(
    r"\d(?:st|nd|rd|th)|(?:mon|tue|wed|wen|thu|thr|fri|fir|sat|sun|day|sday|tag|ag|och|tue|s)\b[\s,.]*(?:the )?\d|"
    r"the [a-z-]+(?:th|st|nd|rd)\b|\d as "
)
_LEAD = re.compile(
    r"(?:\b(?:on|by|before|until|or|and|to|from|pencil|shoot|date|for|delivery|launch|due)|[-/,&:])\s*\Z"
)
_LEAD_WORD = re.compile(r"\b(?:on|by|before|until|or|and|to|from|pencil|till|between|shoot|hold)\s*\Z")
_BEFORE_MONTHLY = re.compile(
    rf"(?<![\d.:/£$€x])(?:\b(?:{WEEKDAY}\s)?(?:the )?{DAY}(?:st|nd|rd|th|\.(?=\s?(?:[-+/&]|und|oder|bis)))?\s?(?:-|/|"
    rf",|&|"
    rf"\+|\bto\b|\band\b|"
    rf"\bor\b|\bbis\b|\bund\b|\boder\b)\s?(?:the )?(?:{WEEKDAY}\s)?)+\Z"
)
_AFTER_MONTHLY = re.compile(
    rf"(?:(?!\s?,\s?\d{{1,2}}\s?-\s?\d)(?:-(?={DAY}\b)|\s?(?:-|/|,|&|\+|to\b|and\b|"
    rf"or\b)\s?(?=(?:the )?{DAY}(?:{ORDINAL}|\s*(?:$|[,;.)?!&+/-]|"
    rf"(?:or|and|at|from|in|on|if|but|whichever|depending|for|with|then|shoot|tbc|as|all|both|please|is|are|by)\b))))"
    rf"(?:the )?{DAY}(?:{ORDINAL})?(?!\s?{_THINGS}|\s?{MONTH})(?![\d:]|\.\d|\s?[ap]m\b))+"
)


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
            "PARSERS": ["absolute-time"],
        },
    )
    return parsed.date() if parsed else None


def with_month(scene: Scene) -> Iterator[Atom]:
    """Yield the days whose month is named.

    Parameters
    ----------
    scene : Scene
        The sentence and what it is read against.

    Yields
    ------
    Atom
        One per day.

    References
    ----------
    Order of figures by country: Unicode CLDR. A date without a year is the next one: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> scene = Scene(cut("8 June or 9/6").sentences[0], {}, date(2026, 5, 14), "GB")
    >>> [atom.first.isoformat() for atom in with_month(scene)]
    ['2026-06-08', '2026-06-09']
    """
    text = scene.text
    for match in _ISO.finditer(text) if "-" in text else ():
        if day := _made(int(match.group(1)), int(match.group(2)), int(match.group(3))):
            yield Atom(match.start(), match.end(), day, day, ReasonCode.DAY_NAMED, day=day.day)
    named = _ANY_MONTH.search(text)
    for match in _NTH_WEEKDAY.finditer(text) if named else ():
        month = month_of(match["month"])
        nth = {"first": 1, "second": 2, "third": 3, "fourth": 4, "last": -1}.get(match["nth"]) or int(match["nth"][0])
        start = calendar.on_or_after(1, month, scene.called_on.replace(day=1))
        year = year_of(match) or (start.year if start else scene.called_on.year)
        day = calendar.nth_weekday(year, month, weekday_of(match["wd"]), nth)
        yield Atom(match.start(), match.end(), day, day, ReasonCode.DAY_NAMED, day=day.day)
    for pattern in (_DAY_MONTH, _MONTH_DAY) if named else ():
        for match in pattern.finditer(text):
            word = match.groupdict().get("dayword")
            number = WORD_ORDINALS[word] if word else int(match["day"])
            month, weekday, said = month_of(match["month"]), weekday_of(match["wd"] or ""), year_of(match)
            found = _made(said, month, number) if said else calendar.on_or_after(number, month, scene.called_on)
            if found:
                clash = weekday >= 0 and found.weekday() != weekday
                yield Atom(
                    match.start(),
                    match.end(),
                    found,
                    found,
                    ReasonCode.DAY_NAMED,
                    day=number,
                    weekday=weekday,
                    ambiguous=clash,
                )
    for match in _NUMERIC.finditer(text) if "/" in text or "." in text else ():
        yield from _numeric(scene, match)


def _made(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _numeric(scene: Scene, match: re.Match[str]) -> Iterator[Atom]:
    first, mark, second, year = match.groups()
    dotted = scene.country in ("DE", "AT", "CH", "CZ", "NO", "DK", "FI", "PL")
    said = re.search(
        r"\b(?:by|due|on|before|deadline|delivery|date|shoot|cob|eod|eop|cop|for|deliver|files)\s*(?::|=)?\s*\Z",
        scene.text[: match.start()],
    )
    if (
        mark == "."
        and not year
        and not (match.group().endswith(".") and dotted)
        and not (said and int(second) <= 12 and len(second) < 3 and not second.startswith("00"))
    ):
        return
    one, two = int(first), int(second)
    if not year:
        if match.group() == "24/7" and not said:
            return  # round the clock
        fraction = (first == "1" and second in ("2", "3", "4")) or (first == "3" and second == "4")
        if fraction or re.match(rf"\s?{_THINGS}", scene.text[match.end() :]):
            return
        if not ((1 <= one <= 31 and 1 <= two <= 12) or (1 <= one <= 12 and 1 <= two <= 31)):
            return
    order = calendar.date_order(scene.country)
    if order == "YMD":
        order = "DMY" if year else "MDY"
    if not year:
        day, month = (two, one) if order == "MDY" else (one, two)
        day, month = (month, day) if month > 12 else (day, month)
        found = calendar.on_or_after(day, month, scene.called_on)
    else:
        found = _figures(match.group().rstrip("."), order, scene.called_on)
    if not found:
        return
    readings: tuple[date, ...] = ()
    swapped = one <= 12 and two <= 12 and first != second
    if swapped:
        other = (
            _made(found.year, found.day, found.month)
            if year
            else calendar.on_or_after(found.month, found.day, scene.called_on)
        )
        readings = (found, other) if other else ()
    before = re.search(rf"\b({WEEKDAY}|{SHORT_WEEKDAY})[\s,]*(?:den |dem )?\Z", scene.text[: match.start()])
    weekday = weekday_of(before.group(1)) if before else -1
    clash = weekday >= 0 and found.weekday() != weekday
    doubtful = clash or (order != "DMY" and swapped)
    start = before.start() if before else match.start()
    yield Atom(
        start, match.end(), found, found, ReasonCode.DAY_NAMED,
        day=found.day, weekday=weekday, ambiguous=doubtful, readings=readings if doubtful else (),
    )  # fmt: skip


def bare(scene: Scene) -> Iterator[Atom]:
    """Yield the days without a month: "the 17th", "Wed 17"; the month is the one named nearest before.

    Parameters
    ----------
    scene : Scene
        The sentence, with the days found so far.

    Yields
    ------
    Atom
        One per day; ambiguous where no month was named.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> scene = Scene(cut("wed 17th").sentences[0], {}, date(2026, 5, 14), "GB")
    >>> [atom.first.isoformat() for atom in bare(scene)]
    ['2026-06-17']
    """
    if not _ANY_BARE.search(scene.text):
        return
    named = sorted((atom for atom in scene.atoms if atom.first and atom.has_month), key=lambda atom: atom.start)
    last_bare: date | None = None
    for match in _BARE.finditer(scene.text):
        word = match["dayword"]
        day = WORD_ORDINALS[word] if word else int(match["wday"] or match["day"] or match["cover"])
        before = scene.text[: match.start()]
        if _NOT_A_DAY_AFTER.match(scene.text, match.end()):
            continue
        if day < 4 and match["the"] and before.endswith(" - "):
            continue  # "mon 4/28 - the 3rd": the third of something
        if not match["wd"] and not match["cover"] and (word or day < 4):
            if not (match["the"] or word) and not _LEAD.search(before):
                continue
            if word and day < 4 and not _LEAD_WORD.search(before):
                continue
        earlier = [atom for atom in named if atom.start < match.start()]
        near = earlier[-1] if earlier else named[0] if named else None
        month = (near.first.year, near.first.month) if near and near.first else scene.month
        weekday = weekday_of(match["wd"] or "")
        since = scene.called_on
        if last_bare and weekday < 0 and not month and day > last_bare.day:
            since = last_bare  # "pencil the 17th, second option the 18th": the second never jumps back before the first
        elif day == since.day and weekday < 0 and not month and _PENCIL.search(scene.text):
            since += timedelta(days=1)  # nobody pencils the day of the call
        found, doubtful, readings = _bare_day(day, weekday, month, since)
        if found:
            last_bare = found
            yield Atom(
                match.start(), match.end(), found, found, ReasonCode.DAY_NAMED,
                day=day, has_month=False, weekday=weekday, ambiguous=doubtful, readings=readings,
            )  # fmt: skip


def _bare_day(
    day: int, weekday: int, month: tuple[int, int] | None, called_on: date
) -> tuple[date | None, bool, tuple[date, ...]]:
    context = calendar.next_ordinal(day, max(date(month[0], month[1], 1), called_on)) if month else None
    plain = calendar.next_ordinal(day, called_on)
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


def neighbours(scene: Scene, atom: Atom) -> Iterator[Atom]:
    """Yield the bare numbers that share a month with a day: "17-19 June", "June 8, 9 or 10".

    Parameters
    ----------
    scene : Scene
        The sentence.
    atom : Atom
        A day of it.

    Yields
    ------
    Atom
        One per number.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> scene = Scene(cut("17-19 June").sentences[0], {}, date(2026, 5, 14), "GB")
    >>> [a.day for a in neighbours(scene, list(with_month(scene))[0])]
    [17]
    """
    for pattern, below in ((_BEFORE_MONTHLY, True), (_AFTER_MONTHLY, False)):
        match = pattern.search(scene.text[: atom.start]) if below else pattern.match(scene.text, atom.end)
        for number in re.finditer(r"\d{1,2}", match.group()) if match and atom.first else ():
            day = int(number.group())
            found = _made(atom.first.year, atom.first.month, day) if atom.first and match else None
            if found and match and (day < atom.day) == below:
                start = match.start() + number.start()
                yield Atom(
                    start,
                    start + len(number.group()),
                    found,
                    found,
                    ReasonCode.DAY_NAMED,
                    day=day,
                    has_month=atom.has_month,
                )
