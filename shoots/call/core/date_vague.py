"""Wide times: parts of months, seasons, quarters, and named days such as Easter."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta

from shoots.call.core import calendar
from shoots.call.core.date_words import MONTH, YEAR, Atom, Scene, month_of, year_of
from shoots.call.core.drafts import ReasonCode

_MONTH_PART = re.compile(
    rf"\b(?:(?P<part>early(?:\s?/\s?mid)?|mid(?:dle of)?(?:[- ]to[- ]late)?|late|(?:the )?(?:very )?(?:end|"
    rf"back end|back|tail end)(?: of)?|"
    rf"(?:the )?(?:start|beginning|top)(?: of)?|(?:the )?(?P<nth>first|second|third|fourth|last|1st|2nd|3rd|"
    rf"4th)\s(?P<unit>week|half|fortnight|wk)(?: of| in)?|"
    rf"sometime(?: in)?|ende|anfang|mitte)[\s-]*)?"
    rf"(?P<pre>\b(?:in|by|before|during|until|till|from|after|through|end|for|around|next|this|of|since|last|"
    rf"deadline|delivery|shoot|launch|launching|"
    rf"launches|due|about|sometime|or|maybe|prob|probably|then|and|days in|wk of|wk)\s+)?(?P<month>{MONTH}){YEAR}?"
    rf"(?P<tail>\s*(?:$|[,;?!)/]|-(?!\d)|or\b|shoot|launch|issue|delivery|sometime|please|if|for\b|with\b|"
    rf"but\b|and\b|as\b|any\b|not\b))?"
)
#: Without one of these no month, season or quarter is named; only a quick way out.
_WIDE = re.compile(r"jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|spring|summer|autumn|fall|winter|\bq[1-4]")
_CAREFUL = ("may", "mar", "march")
_SEASON = re.compile(
    r"\b(?:(?P<part>early|mid|late|end of|start of|beginning of)\s+)?(?P<pre>in|this|next|by|before|for|until|"
    r"over|during|after|of|late|early|mid)\s+(?:the\s+)?"
    r"(?P<season>spring|summer|autumn|fall|winter)\b(?!\s?(?:range|collection|feel|look|vibe|menu|edit|line|"
    r"campaign|colours|light|launch|mood|drinks|dress|drop|dishes|stock|sale|"
    r"party|fruit|veg|flowers|jackets?|coats?|tones|palette|foliage|wear|season|clothes|recipes|shade|serve|"
    r"body|tyres|cocktails|mornings?|evenings?|day|days|"
    r"ones|hats|catalogue|brochure|lookbook|pictures|pics|images|bouquets?|sun|holidays?|boxes|scents?|edition|tea|ale|"
    r"pudding|specials?|water|months))(?:\s(?P<year>20\d\d))?"
)
_SEASON_YEAR = re.compile(
    r"\b(?:(?P<part>early|mid|late|end of|start of)\s)?(?P<season>spring|summer|autumn|fall|winter)\s(?P<year>20\d\d)\b"
)
_QUARTER = re.compile(
    r"\b(?:(?P<part>early|mid|late|end of|start of)\s)?q(?P<q>[1-4])\b(?:\s?(?P<year>20\d\d|'?\d\d\b))?"
)
_HOLIDAY_LEAD = re.compile(
    r"\b(?:by|before|after|until|till|over|ahead of|in time for|at|from|on|around|not|during|pre|post|or|"
    r"launch(?:es|ing)?|between|the)[\s-]*(?:the )?\Z"
)


def named_days(scene: Scene) -> Iterator[Atom]:
    """Yield the named days that a time is counted to: "before Easter", "the bank holiday"; not "Easter eggs".

    Parameters
    ----------
    scene : Scene
        The sentence and what it is read against.

    Yields
    ------
    Atom
        One per named day.

    References
    ----------
    Rules in ``lexicon/holidays.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("before Easter").sentences[0]
    >>> scene = Scene(line, package_lexicons().hits(line), date(2026, 5, 14), "GB")
    >>> [atom.first.isoformat() for atom in named_days(scene)]
    ['2027-03-28']
    """
    for hit in scene.hits.get("holiday", ()):
        lead = _HOLIDAY_LEAD.search(scene.text[: hit.start])
        if re.search(r"\bfor (?:the )?\Z", scene.text[: hit.start]) and len(scene.sentence.words) <= 3:
            continue
        for_it = re.search(r"\bfor (?:the )?\Z", scene.text[: hit.start]) and re.search(
            r"\b(?:need|want|have|in|by|ready|latest|deliver\w*|files|finals)\b[^,;]*\Z", scene.text[: hit.start]
        )
        alone = len(scene.sentence.words) <= hit.last - hit.first + 3
        if not (
            lead
            or for_it
            or alone
            or (" " in scene.text[hit.start : hit.end] and "bank" in scene.text[hit.start : hit.end])
        ):
            continue
        if re.match(
            r"\s(?!at\b|or\b|and\b|if\b|please|latest|at the|the|to\b|would|is|then|so\b|but\b|on\b|week|"
            r"holiday|break|mon|tue|wed|thu|fri|sat|sun|\d)[a-z]",
            scene.text[hit.end :],
        ):
            continue
        named = re.search(rf"\b({MONTH}) \Z", scene.text[: hit.start]) if "bank" in hit.code else None
        since = calendar.on_or_after(1, month_of(named.group(1)), scene.called_on.replace(day=1)) if named else None
        day = calendar.named_day(hit.entry.data, scene.country, since or scene.called_on)
        if day is None or (since and day.month != since.month):
            continue
        last = day + timedelta(days=int(hit.entry.data.get("length", 1)) - 1)
        numbered = re.match(r"\s(?:mon(?:day)?\s)?\d", scene.text[hit.end :])
        if numbered:
            continue
        start = named.start() if named else hit.start
        yield Atom(start, hit.end, day, last, ReasonCode.HOLIDAY, ambiguous=hit.code == "bank_holiday" and not named)


def months_and_seasons(scene: Scene) -> Iterator[Atom]:
    """Yield months, parts of them, seasons and quarters.

    Parameters
    ----------
    scene : Scene
        The sentence and what it is read against.

    Yields
    ------
    Atom
        One per expression. "May" and "March" need a sign that they are months.

    References
    ----------
    Thirds of a month, meteorological seasons: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> scene = Scene(cut("mid July, it may rain").sentences[0], {}, date(2026, 5, 14), "GB")
    >>> [(atom.first.day, atom.last.day) for atom in months_and_seasons(scene)]
    [(11, 20)]
    """
    if not _WIDE.search(scene.text):
        return
    for match in _MONTH_PART.finditer(scene.text):
        if (atom := _month_part(scene, match)) is not None:
            yield atom
    today = scene.called_on
    for match in (*_SEASON.finditer(scene.text), *_SEASON_YEAR.finditer(scene.text)):
        month = {"spring": 3, "summer": 6, "autumn": 9, "fall": 9, "winter": 12}[match["season"]]
        start = calendar.on_or_after(1, month, date(today.year, max(1, today.month - 2), 1))
        if not start:
            continue
        year = (
            int(match["year"])
            if match["year"]
            else start.year + (1 if match.groupdict().get("pre") == "next" and start <= today else 0)
        )
        first, end = date(year, month, 1), month + 2
        last = calendar.month_span(year + (1 if end > 12 else 0), (end - 1) % 12 + 1)[1]
        part = (
            match["part"]
            or (match.groupdict().get("pre") if match.groupdict().get("pre") in ("early", "mid", "late") else "")
            or ""
        )
        third = timedelta(days=30)
        if part.startswith(("early", "start", "begin")):
            last = first + third
        elif part.startswith(("late", "end")):
            first = last - third
        begin = match.start() if part else match.start("season")
        yield Atom(begin, match.end(), first, last, ReasonCode.PART_OF_MONTH, ambiguous=True, vague=True)
    for match in _QUARTER.finditer(scene.text):
        month = 3 * (int(match["q"]) - 1) + 1
        start = calendar.on_or_after(1, month, today.replace(day=1))
        year = 2000 + int(match["year"][-2:]) if match["year"] else start.year if start else today.year
        part = match["part"] or ""
        first_month = month + (2 if part in ("late", "end of") else 1 if part == "mid" else 0)
        last_month = month + (0 if part in ("early", "start of") else 1 if part == "mid" else 2)
        last = calendar.month_span(year, last_month)[1]
        month = first_month
        yield Atom(match.start("q") - 1, match.end(), date(year, month, 1), last, ReasonCode.PART_OF_MONTH, vague=True)


def _month_part(scene: Scene, match: re.Match[str]) -> Atom | None:
    name, pre, part = match["month"].rstrip("."), (match["pre"] or "").strip(), match["part"] or ""
    month, at = month_of(name), match.start("month")
    if pre in ("last", "since") or not month:
        return None
    sign = pre in (
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
        "wk",
        "wk of",
        "early",
        "mid",
        "late",
    )
    capital = (
        scene.sentence.raw[at : at + 1].isupper() and match["tail"] is not None and not scene.sentence.raw.isupper()
    )
    if not (part or match["year"] or match["year2"] or sign or capital):
        if name in _CAREFUL:
            return None
        lone = re.search(r"(?:^|[,;:(/+&-]|\bor|\band)\s*\Z", scene.text[:at])
        named = len(name) > 3 and not re.match(
            r"\s?(?:says|will|is\b|signs|wants|has|needs|and i\b|'s)", scene.text[match.end("month") :]
        )
        named = named and not re.search(
            r"\b(?:with|ask|call|ring|from|and|tell|told|said|for|via)\s\Z", scene.text[:at]
        )
        if not (named or pre or (match["tail"] is not None and (lone or len(name) > 3)) or lone):
            return None
    start = calendar.on_or_after(1, month, scene.called_on.replace(day=1))
    year = year_of(match) or (start.year if start else scene.called_on.year)
    first, last = calendar.month_span(year, month, _part(part, pre, match))
    begin = match.start("part") if part else match.start("pre") if pre == "end" else at
    if last < scene.called_on:
        return None
    end = match.end("year") if match["year"] else match.end("year2") if match["year2"] else match.end("month")
    whole = not part and pre != "end"
    return Atom(begin, end, first, last, ReasonCode.PART_OF_MONTH, whole_month=whole, vague=True)


def _part(part: str, pre: str, match: re.Match[str]) -> str:
    if part.startswith("anfang"):
        return "early"
    if part.startswith("mitte"):
        return "mid"
    if pre == "end" or "end" in part or "back" in part or "tail" in part:
        return "late"
    if match["nth"]:
        words = {"first": 1, "second": 2, "third": 3, "fourth": 4, "last": -1}
        nth = words.get(match["nth"]) or int(match["nth"][0])
        if match["unit"] in ("half", "fortnight"):
            return "first half" if nth == 1 else "second half"
        return "last week" if nth < 0 else f"week {nth}"
    if re.match(r"(?:the )?(?:early|start|begin|top)", part):
        return "early"
    return "mid" if part.startswith("mid") else "late" if part.startswith("late") else ""
