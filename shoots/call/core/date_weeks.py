"""Times that are counted: weeks, "in a fortnight", "two weeks after the shoot", the end of a month."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta

from shoots.call.core import calendar
from shoots.call.core.date_weekdays import day_before
from shoots.call.core.date_words import WEEKDAY, Atom, Scene, weekday_of
from shoots.call.core.drafts import ReasonCode
from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Span

_WEEK = re.compile(
    r"\b(?:(?P<part>early|beginning of|start of|end of|late|mid|by the end of|later)\s+)?(?:(?P<which>this|"
    r"next|the following|following|the)\s+(?:week|wk)"
    r"(?P<after>\s+after(?: next)?| after that)?\b(?!\s?(?:end\b|of|commencing|beginning|on|days?|before|from))|"
    r"\b(?:week|wk)(?P<after2> after next)\b|(?P<weekend>this|next|the|at the|over the) weekend(?! (?:of|after|"
    r"before)))"
)
#: Without one of these nothing is counted; only a quick way out.
_COUNTED = re.compile(
    r"week|wk|\dh\b|then|morning|day|hour|hrs|fortnight|month|mth|tomo|tmrw|tmw|tonight|turn|eom|\b[kc]w"
)
#: "Week 26", "KW 26", "CW26": weeks by their number.
_NUMBERED = re.compile(
    r"\b(?:week|wk|kw|cw)\s?(?:no\.? ?)?(?P<n>[1-4]?\d|5[0-3])\b(?!\s?(?:of|in|days?|st\b|nd\b|rd\b|th\b|[/:.-]\d))"
)
_WEEKEND_AFTER = re.compile(
    r"\bthe (?:(?:following|next) weekend|weekend (?:after(?! next)|following))(?: that)?\b(?! the)"
)
COMMENCING = re.compile(
    r"\b(?:w\s?/\s?c|w\.c\.?|wc|w\s?/\s?b|w\s?/\s?beg|wk(?: |\.)?(?:comm(?:encing)?|beg(?:inning)?|of)|"
    r"week (?:commencing|beginning|starting|of|from)|wk/c|wk)\W{0,2}(?:mon(?:day)?,?\s+)?(?:the )?\Z"
)
ANY_NUMBER = rf"(?:\d{{1,2}}|{NUMBER_WORD}|an?|a couple of|couple of|a few)"
UNIT = r"(?:(?:working |business )?days?|hours?|hrs?|h|weeks?|wks?|months?|mths?|fortnights?)"
_EDIT = (
    r"(?:edit(?:ing|s)?|retouch\w*|post(?:-?production)?|files|finals|pics|delivery|delivered|images|selects|gallery)"
)
_RELATIVE = re.compile(
    rf"\b(?:(?P<word>tomorrow week|today week|(?:a )?week (?:tomorrow|today)|today|tomorrow|tmrw|tmw|tomoz|tonight|"
    rf"(?:the )?day after tomorrow)|"
    rf"(?P<pre>in|within|inside|under)\s+(?P<n>{ANY_NUMBER})\s+(?P<unit>{UNIT})(?:'? time)?(?P<anchor>(?: of| after| "
    rf"from) (?:the shoot|shoot|shooting|wrap|that))?|"
    rf"(?P<n2>{ANY_NUMBER})\s+(?P<unit2>{UNIT})\s?(?:after|from|post|on from|"
    rf"following)\s+(?P<anchor2>(?:the )?(?:(?:second|2nd|third|3rd|last|final|"
    rf"shoot(?:ing)?) day|shoot(?:ing)?|wrap)|that(?!\s(?:first|second|same|last|[a-z]+day\b))|today|now|then)|"
    rf"(?P<n5>{ANY_NUMBER})\s?(?P<unit5>{UNIT})\s(?:later|afterwards|after\b(?!\s\w))|"
    rf"{_EDIT}\W{{0,2}}(?:takes? |is |about |approx )?(?P<n7>{ANY_NUMBER})\s?(?P<unit7>{UNIT})(?=\s*(?:$|[,.;)/]))|"
    rf"(?P<n3>{ANY_NUMBER})[ -](?P<unit3>day|week|wk|working day)s?'? turn ?around|turn ?around:?(?: of| is| in)? "
    rf"(?P<n6>{ANY_NUMBER}) (?P<unit6>{UNIT})|"
    rf"(?P<n4>{ANY_NUMBER}) (?P<unit4>fortnight|weeks?) today)\b"
)
#: "a week ahead of that", "two days before": counted back from the day named before it.
_AHEAD = re.compile(
    rf"\b(?P<n>{ANY_NUMBER})\s?(?P<unit>{UNIT})\s(?:before(?:hand)?|ahead|earlier|prior|in advance)(?: (?:of|to))?"
    r"(?: (?:that|this|it|then|the (?:opening|launch|event|day|fair|show|deadline|sale|wedding)))?"
    r"(?=\s*(?:$|[,.;!?)/]|and\b|please|so\b|for\b|at\b|latest|would|is\b|if\b|will))"
)
_DAY_BEHIND = re.compile(
    r"\bthe (?:(?:day|morning) after(?! tomorrow)(?: that)?|(?:next|following) (?:day|morning))\b(?!\s(?:the|our|my|"
    r"she|he|they|a)\b)"
)
_THEN = re.compile(r"\b(?:by|before|for) (?P<then>then|that date|that day)\b")
_MONTH_END = re.compile(r"\b(?:the )?(?:month[ -]end|end of (?:the |this )?month|end of (?P<next>next month)|eom)\b")


def _listed_behind(text: str, at: int) -> list[re.Match[str]]:
    """Return the weekdays that share the week said before the first of them: "2 evenings next week, tues/thurs"."""
    found: list[re.Match[str]] = []
    while match := _LISTS_ON.match(text, at):
        found.append(match)
        at = match.end()
    return found


_LISTS_ON = re.compile(
    rf"\s?(?:,|:|/|-|&|\+|\(|\bor\b|\band\b|\beither\b|\bon\b|\bthe\b|\s)+(?P<wd>{WEEKDAY})(?![a-z])(?!\s?(?:week|"
    rf"\d{{1,2}}\b(?!\s?-|am|pm)))"
)


def weeks_and_counts(scene: Scene) -> Iterator[Atom]:
    """Yield weeks and times counted in days or weeks: "next week", "in a fortnight", "two weeks after the shoot".

    Parameters
    ----------
    scene : Scene
        The sentence and what it is read against.

    Yields
    ------
    Atom
        One per expression; those counted from the shoot have no days yet.

    References
    ----------
    Weeks begin on Monday: ISO 8601.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> scene = Scene(cut("next week").sentences[0], {}, date(2026, 5, 14), "GB")
    >>> [(atom.first.isoformat(), atom.last.isoformat()) for atom in weeks_and_counts(scene)]
    [('2026-05-18', '2026-05-24')]
    """
    if not _COUNTED.search(scene.text):
        return
    today = scene.called_on
    monday = today - timedelta(days=today.weekday())
    for match in _WEEK.finditer(scene.text):
        part = match["part"] or ""
        if match["weekend"]:
            first = monday + timedelta(days=5 + (7 if match["weekend"] == "next" else 0))
            yield Atom(match.start(), match.end(), first, first + timedelta(days=1), ReasonCode.RELATIVE_TO_CALL)
            continue
        after = (match["after"] or match["after2"] or "").strip()
        if match["which"] in ("the", None) and not part and not after:
            continue
        weeks = 0 if match["which"] == "this" or (match["which"] in ("the", None) and not after) else 1
        first = monday + timedelta(days=7 * (2 if after else weeks))
        named = [atom.first for atom in scene.atoms if atom.first and atom.start < match.start()]
        last = named[-1] if named else scene.last_day
        if after and "next" not in after and last:
            first = last - timedelta(days=last.weekday() - 7)  # "w/c 8 June or the week after"
        end = first + timedelta(days=6)
        if part.startswith(("early", "beginning", "start")):
            end = first + timedelta(days=2)
        elif "end" in part or part in ("late", "later"):
            first, end = first + timedelta(days=3), first + timedelta(days=4)
        elif part == "mid":
            first, end = first + timedelta(days=2), first + timedelta(days=3)
        names = _listed_behind(scene.text, match.end()) if weeks or after else []
        monday_of = first - timedelta(days=first.weekday())
        for name in names:
            day = monday_of + timedelta(days=weekday_of(name["wd"]))
            yield Atom(
                name.start("wd"), name.end("wd"), day, day, ReasonCode.WEEKDAY_FROM_CALL, weekday=weekday_of(name["wd"])
            )
        if names:
            continue
        yield Atom(match.start(), match.end(), max(first, today), end, ReasonCode.RELATIVE_TO_CALL)
    for match in _WEEKEND_AFTER.finditer(scene.text):
        if (base := day_before(scene, match.start())) is not None:
            first = base + timedelta(days=(5 - base.weekday() - 1) % 7 + 1)
            yield Atom(match.start(), match.end(), first, first + timedelta(days=1), ReasonCode.RELATIVE_TO_CALL)
    for match in _NUMBERED.finditer(scene.text):
        if (days := _week_of_year(int(match["n"]), today)) is not None:
            yield Atom(match.start(), match.end(), *days, ReasonCode.WEEK_COMMENCING)
    for match in re.finditer(r"\b(this|next) month\b(?! or)", scene.text):
        year, month = (
            (today.year, today.month)
            if match.group(1) == "this"
            else (today.year + today.month // 12, today.month % 12 + 1)
        )
        first, last = calendar.month_span(year, month)
        if not scene.text[: match.start()].endswith("end of "):
            yield Atom(match.start(), match.end(), max(first, today), last, ReasonCode.PART_OF_MONTH, vague=True)
    for match in _RELATIVE.finditer(scene.text):
        yield from _relative(scene, match)
    for match in _AHEAD.finditer(scene.text):
        if (base := day_before(scene, match.start())) is not None:
            day = earlier(base, number(match["n"]) or 1, match["unit"])
            yield Atom(match.start(), match.end(), day, day, ReasonCode.RELATIVE_TO_CALL, ambiguous=True, within=True)
        else:
            scene.blocked.append(Span(match.start(), match.end()))
    for match in _DAY_BEHIND.finditer(scene.text):
        if (base := day_before(scene, match.start())) is not None:
            day = base + timedelta(days=1)
            yield Atom(match.start(), match.end(), day, day, ReasonCode.RELATIVE_TO_CALL, ambiguous=True)
    for match in _THEN.finditer(scene.text):
        if (base := day_before(scene, match.start())) is not None:
            yield Atom(match.start("then"), match.end(), base, base, ReasonCode.RELATIVE_TO_CALL, ambiguous=True)
    for match in _MONTH_END.finditer(scene.text):
        named = [atom.first for atom in scene.atoms if atom.first and atom.start < match.start()]
        year, month = (named[-1].year, named[-1].month) if named else scene.month or (today.year, today.month)
        if match["next"]:
            year, month = (today.year + 1, 1) if today.month == 12 else (today.year, today.month + 1)
        day = calendar.month_span(year, month)[1]
        yield Atom(match.start(), match.end(), day, day, ReasonCode.PART_OF_MONTH)


def _week_of_year(number: int, today: date) -> tuple[date, date] | None:
    """Return Monday and Sunday of the next week with this number (ISO 8601) that is not over."""
    for year in (today.year, today.year + 1):
        try:
            days = date.fromisocalendar(year, number, 1), date.fromisocalendar(year, number, 7)
        except ValueError:
            continue
        if days[1] >= today:
            return days
    return None


def earlier(base: date, many: int, unit: str) -> date:
    """Return the day that lies so many days, weeks or months before another.

    Parameters
    ----------
    base : date
        The day to count from.
    many : int
        How many.
    unit : str
        "days", "working days", "hours", "weeks", "fortnights" or "months", or the beginning of it.

    Returns
    -------
    date
        The earlier day; working days are Monday to Friday.

    References
    ----------
    Common practice, no source; public holidays are not looked at.

    Examples
    --------
    >>> earlier(date(2026, 6, 15), 2, "working days")
    datetime.date(2026, 6, 11)
    """
    if "working" in unit or "business" in unit:
        while many:
            base -= timedelta(days=1)
            many -= base.weekday() < 5
        return base
    if unit.startswith("m"):
        month = base.year * 12 + base.month - 1 - many
        last = calendar.month_span(month // 12, month % 12 + 1)[1]
        return last.replace(day=min(base.day, last.day))
    size = 14 if unit.startswith("fort") else 7 if unit.startswith("w") else 1
    return base - timedelta(days=-(-many // 24) if unit.startswith("h") else many * size)


def _relative(scene: Scene, match: re.Match[str]) -> Iterator[Atom]:
    today = scene.called_on
    if word := match["word"]:
        ahead = 0 if "today" in word or word == "tonight" else 2 if "after" in word else 1
        day = today + timedelta(days=ahead + (7 if "week" in word else 0))
        yield Atom(match.start(), match.end(), day, day, ReasonCode.RELATIVE_TO_CALL)
        return
    groups = match.groupdict()
    suffix = next(s for s in ("", "2", "3", "4", "5", "6", "7") if groups.get(f"n{s}"))
    text, unit = str(groups[f"n{suffix}"]), str(groups[f"unit{suffix}"])
    many = 1 if text in ("a", "an") else 2 if "couple" in text else 3 if "few" in text else number(text) or 0
    size = (
        14
        if unit.startswith("fort")
        else 7
        if unit.startswith("w") and "day" not in unit
        else 30
        if unit.startswith("m")
        else 1
    )
    days = many * size
    if unit.startswith("h"):
        days = -(-many // 24)
    if "working" in unit or "business" in unit:
        days = many + 2 * (many // 5)
    anchor = (groups["anchor2"] or "").strip() or (groups["anchor"] or "").strip()
    named = [atom for atom in scene.atoms if atom.last and atom.end <= match.start()]
    if anchor in ("that", "then") and named and named[-1].last:
        day = named[-1].last + timedelta(days=days)  # "proofs by the 13th, selects one week after that"
        yield Atom(match.start(), match.end(), day, day, ReasonCode.RELATIVE_TO_CALL, within=True, ambiguous=True)
        return
    if suffix in ("3", "5", "6", "7") or (anchor and anchor not in ("today", "now")):
        yield Atom(
            match.start(), match.end(), None, None, ReasonCode.RELATIVE_TO_CALL, after_shoot_days=days, within=True
        )
        return
    if unit.startswith("m"):
        month = today.month - 1 + many
        year, month = today.year + month // 12, month % 12 + 1
        day = min(date(year, month, 1) + timedelta(days=today.day - 1), calendar.month_span(year, month)[1])
    else:
        day = today + timedelta(days=days)
    within = match["pre"] in ("within", "inside", "under")
    yield Atom(match.start(), match.end(), day, day, ReasonCode.RELATIVE_TO_CALL, within=within, days_from_call=days)
