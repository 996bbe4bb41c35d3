"""Weekdays that are counted from the call or from a day named before: "Thu week", "the Friday after", "next Tues"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from shoots.call.core.date_words import WEEKDAY, Atom, Scene, weekday_of
from shoots.call.core.drafts import ReasonCode
from shoots.call.core.spans import Span

_WEEKDAY_WEEK = re.compile(
    rf"\b(?:(?P<wd>{WEEKDAY})\s+(?P<word>week|wk|fortnight)(?!end)\b|(?:a )?week on (?P<wd2>{WEEKDAY})|(?:a "
    rf")?week (?P<wd3>{WEEKDAY})(?= |$)|"
    rf"(?P<wd4>{WEEKDAY})(?: of)?(?: the week| week)? after next|"
    rf"(?P<wd5>{WEEKDAY})(?: of)? next (?:week|wk)|next (?:week|wk),? (?:on )?(?P<wd6>{WEEKDAY})|"
    rf"(?P<wd7>{WEEKDAY})(?: of| in)? (?:this|that|the same) (?:week|wk))"
)
_LISTED = re.compile(rf"\b{WEEKDAY}\s?(?:,|/|-|&|\+|\bor\b|\band\b|\bto\b)\s?\Z")
_WEEKDAY_AFTER = re.compile(
    rf"\b(?:(?:the next|(?:the )?following) (?P<wd>{WEEKDAY})(?! week)|the (?P<wd2>{WEEKDAY}) (?:(?P<week>(?:of|"
    rf"in) the (?:week after|"
    rf"following week)|the week after)|(?:after|following|afterwards)(?! next)(?: (?:that|it|the shoot|shoot|"
    rf"shooting))?)|"
    rf"(?P<wd3>{WEEKDAY}) (?:after (?:that|it|the shoot|shoot|shooting)|following)\b)"
)
#: "Shoot Monday week, if rain then the Tuesday": the one behind the day that was named.
_THE_WEEKDAY = re.compile(
    rf"\bthe (?P<wd>{WEEKDAY})(?![a-z'])(?!,? (?:after|before|week|fortnight|of|in|following|"
    rf"(?:the )?\d{{1,2}}(?![.:]\d|\d|\s?[ap]m\b))|s\b)"
)
#: "next Weds or Thurs": the second is the one behind the first.
_LIST_GAP = re.compile(r"\s?(?:,|/|-|&|\+|or|and|to|till)\s?(?:the )?")
#: "Weds-Fri next week, Sat if it chucks it down": the one behind the days of the shoot.
_COVERS = re.compile(r"\s(?:only )?(?:if|in case|as|for) ")
_WEEKDAY_BEFORE = re.compile(rf"\bthe (?P<wd>{WEEKDAY}) before(?: (?:that|it))?(?=\s*(?:$|[,.;!)]|at\b|please))")
#: When somebody works, which is no day: "open Tuesday to Saturday", "Mon-Thu only".
_OPENING = re.compile(
    rf"\bdays?\s?(?:=|:|are|is)\s?{WEEKDAY}(?:\s?(?:\+|&|and|,|/)\s?{WEEKDAY})*(?! \d)|"
    rf"\b(?:open|opens|closed|shut|available|works?|working|there) (?:only |on )?{WEEKDAY}\s?(?:-|to|through|till|"
    rf"and|&)\s?{WEEKDAY}|"
    rf"\b{WEEKDAY}\s?(?:-|to|through|till)\s?{WEEKDAY} (?:only|usually|normally|opening)"
)
_ANY_BUT = re.compile(r"\bany(?:thing| day| time| weekday)? but (?:on |a )?\Z|\bevery day but (?:on |a )?\Z")
_IN_WEEK = re.compile(rf"\bweek after next[\s,:(]*(?:(?:either|on|the|or|and|/|&|{WEEKDAY})[\s,]*)*\Z")
#: Beginnings of weekdays as they are typed; without one of them there is none.
_ANY_WEEKDAY = re.compile(r"mon|mo(?:nd|na)|tue|wed|wen|thu|thr|thi|tus|teu|fri|fir|sat|sun|die|mit|don|fre|sam|son")
_BAD_WEATHER = re.compile(r"\b(?:rain|wet|weather|cover|back-?up|reserve|otherwise|else|wind|pour|lash|foul|if)")
_WEEKDAY_ALONE = re.compile(
    rf"(?:\b(?P<mod>this(?: coming)?|next|coming|last|on|by|before|till|until|every|each|any|an?|either|from|"
    rf"or|and|to|pencil|for|after|due|not|"
    rf"latest|between|no|except|most|some)\s+(?:on )?)?\b(?P<wd>{WEEKDAY})(?P<tail>\s*(?:$|[,;?!)/&+]|-(?!\w)|"
    rf"or\b|and\b|at\b|am\b|pm\b|morning|afternoon|"
    rf"latest|please|pls|if|evening|\d))?"
)
_SURE = (
    "on", "this", "next", "by", "or", "before", "and", "coming", "this coming", "either", "until", "till",
    "pencil",
)  # fmt: skip


def weekdays(scene: Scene) -> Iterator[Atom]:
    """Yield the weekdays that are counted from the call: "Thu week", "next Tuesday", "on Friday".

    Parameters
    ----------
    scene : Scene
        The sentence and what it is read against.

    Yields
    ------
    Atom
        One per weekday; "a Monday", "every Monday" and "Mondays" are none.

    References
    ----------
    "Thu week" is a week after the coming Thursday; "next Tuesday" is the one of next week: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> scene = Scene(cut("thu week").sentences[0], {}, date(2026, 5, 12), "GB")
    >>> scene.add_all(weekdays(scene))
    >>> [atom.first.isoformat() for atom in scene.atoms]
    ['2026-05-21']
    """
    today, text = scene.called_on, scene.text
    if not _ANY_WEEKDAY.search(text):
        return
    monday = today - timedelta(days=today.weekday())
    for match in _WEEKDAY_WEEK.finditer(text):
        weekday = weekday_of(next(v for k, v in match.groupdict().items() if k.startswith("wd") and v))
        coming = today + timedelta(days=(weekday - today.weekday()) % 7)
        if match["word"] == "fortnight":
            day = coming + timedelta(days=14)
        elif match["wd4"]:
            day = monday + timedelta(days=14 + weekday)
        elif match["wd5"] or match["wd6"]:
            day = monday + timedelta(days=7 + weekday)
        elif match["wd7"]:
            base = day_before(scene, match.start()) if "this" not in match.group() else None
            day = (base - timedelta(days=base.weekday()) if base else monday) + timedelta(days=weekday)
        else:
            day = coming + timedelta(days=7)
        doubtful = weekday == today.weekday()
        yield Atom(
            match.start(), match.end(), day, day, ReasonCode.WEEKDAY_FROM_CALL, weekday=weekday, ambiguous=doubtful
        )
        for name in _listed_before(text, match.start()):
            other = weekday_of(name.group())
            earlier = day - timedelta(days=(weekday - other) % 7)
            yield Atom(name.start(), name.end(), earlier, earlier, ReasonCode.WEEKDAY_FROM_CALL, weekday=other)
    for match in _WEEKDAY_AFTER.finditer(text):
        weekday = weekday_of(match["wd"] or match["wd2"] or match["wd3"])
        base = day_before(scene, match.start())
        of_shoot = "shoot" in match.group()
        if base is None and not of_shoot:
            scene.blocked.append(Span(match.start(), match.end()))
            continue
        base = base or today
        if match["week"]:
            day = base + timedelta(days=7 - base.weekday() + weekday)
        else:
            day = base + timedelta(days=(weekday - base.weekday() - 1) % 7 + 1)
        yield Atom(match.start(), match.end(), day, day, ReasonCode.WEEKDAY_FROM_CALL, weekday=weekday, ambiguous=True)
    for match in _OPENING.finditer(text):
        scene.blocked.append(Span(match.start(), match.end()))
    for match in _WEEKDAY_BEFORE.finditer(text):
        if (base := day_before(scene, match.start())) is not None:
            weekday = weekday_of(match["wd"])
            day = base - timedelta(days=(base.weekday() - weekday - 1) % 7 + 1)
            yield Atom(
                match.start(), match.end(), day, day, ReasonCode.WEEKDAY_FROM_CALL, weekday=weekday, ambiguous=True
            )
    for match in _THE_WEEKDAY.finditer(text):
        if (base := day_before(scene, match.start())) is not None:
            weekday = weekday_of(match["wd"])
            day = base + timedelta(days=(weekday - base.weekday() - 1) % 7 + 1)
            if (base.weekday(), weekday) == (6, 5):
                day = base - timedelta(days=1)  # the Saturday of that weekend
            yield Atom(
                match.start("wd"),
                match.end("wd"),
                day,
                day,
                ReasonCode.WEEKDAY_FROM_CALL,
                weekday=weekday,
                ambiguous=not _BAD_WEATHER.search(text[: match.start()]),
            )
    last: Atom | None = None
    for match in _WEEKDAY_ALONE.finditer(text):
        if (atom := _alone(scene, match, monday)) is not None:
            base = (
                day_before(scene, match.start()) if _COVERS.match(text, match.end("wd")) and not match["mod"] else None
            )
            if base is not None and atom.last and atom.last <= base:
                day = base + timedelta(days=(atom.weekday - base.weekday() - 1) % 7 + 1)
                atom = replace(atom, first=day, last=day)
            joined = last is not None and _LIST_GAP.fullmatch(text[last.end : atom.start])
            if joined and last and last.first and atom.first and atom.first <= last.first:
                day = last.first + timedelta(days=(atom.weekday - last.weekday - 1) % 7 + 1)
                atom = replace(atom, first=day, last=day, ambiguous=last.ambiguous, readings=())
            last = atom
            yield atom


def day_before(scene: Scene, start: int) -> date | None:
    """Return the day that "the Friday after" is counted from: the one named before it, here or further up.

    Parameters
    ----------
    scene : Scene
        The sentence, with the expressions found so far.
    start : int
        Where the words begin that are counted from it.

    Returns
    -------
    date or None
        None when no day was named.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> day_before(Scene(None, {}, date(2026, 5, 14), "GB", last_day=date(2026, 6, 9)), 0)
    datetime.date(2026, 6, 9)
    """
    dated = [atom for atom in scene.atoms if atom.last and atom.end <= start]
    return max(dated, key=lambda atom: atom.start).last if dated else scene.last_day


def _listed_before(text: str, end: int) -> list[re.Match[str]]:
    """Return the weekdays that share the week said behind the last of them: "Tue or Wed next week"."""
    found: list[re.Match[str]] = []
    while match := _LISTED.search(text[:end]):
        name = re.compile(WEEKDAY).match(text, match.start())
        if not name:
            break
        found.append(name)
        end = match.start()
    return found[::-1]


def _alone(scene: Scene, match: re.Match[str], monday: date) -> Atom | None:
    text, today = scene.text, scene.called_on
    name, mod = match["wd"].rstrip("."), match["mod"] or ""
    if mod in ("last", "every", "each", "any", "a", "an", "no", "except", "most", "some", "not") or text[
        match.end("wd") :
    ].startswith("s"):
        return None
    if re.match(r"'s?\b", text[match.end("wd") :]) or (
        text[match.end("wd") :].startswith("-") and text[match.end("wd") + 1 : match.end("wd") + 2].isalpha()
    ):
        return None
    alone = (
        match["tail"] is not None or bool(mod) or bool(re.search(r"(?:^|[,;:(/&+-])\s*\Z", text[: match.start("wd")]))
    )
    if (
        name in ("sat", "sun", "mon", "wed")
        and mod not in _SURE
        and not (
            (
                match["tail"] is not None
                and alone
                and not re.search(r"[a-z]\s*\Z", text[: match.start("wd")].removesuffix("the "))
            )
            or re.search(
                r"\b(?:bottles|shoot|samples|need|send|call|meet|ship|due|shot|back|done|in)\s*\Z",
                text[: match.start("wd")],
            )
        )
    ):
        return None
    if (
        name == "sun"
        and mod not in ("on", "this", "next", "by", "or")
        and not re.search(r"\bsun\s*(?:\d|or\b|/)", text[match.start("wd") :])
    ):
        return None
    if len(name) <= 3 and not alone and name not in ("fri", "thu"):
        return None
    if re.search(
        r"\b(?:easter|mothering|palm|whit|black|cyber|good|shrove|ash|holiday|hol|that (?:first|second|same|last|"
        r"very))\s\Z",
        text[: match.start("wd")],
    ):
        return None
    if _ANY_BUT.search(text[: match.start("wd")]):
        return None
    if _IN_WEEK.search(text[: match.start("wd")]):
        return None  # "the week after next, monday or tuesday": read with its week
    weekday = weekday_of(name)
    ahead = re.match(r"\s?(?:/|&|\+|-|,|and|to|or)\s?", text[match.end("wd") :])
    follows = match.end("wd") + ahead.end() if ahead else -1
    if any(atom.start == follows and atom.day and atom.weekday >= 0 for atom in scene.atoms):
        return None  # "Tue/Wed 9/29-30"
    bracketed = re.search(r"\(\s?\Z", text[: match.start("wd")]) and text[match.end("wd") :].startswith(")")
    if bracketed and any(
        a.last and a.last.weekday() == weekday and 0 <= match.start() - a.end < 4 for a in scene.atoms
    ):
        return None  # "5 Sept (Sat)": the day that was named already
    coming = today + timedelta(days=(weekday - today.weekday() - 1) % 7 + 1)
    day, ambiguous, readings = coming, False, ()
    both: tuple[date, ...] = readings
    if mod == "next":
        day = monday + timedelta(days=7 + weekday)
        if day != coming:
            ambiguous, both = True, (day, coming)
    start = match.start("mod") if mod in ("next", "this", "this coming", "coming") else match.start("wd")
    return Atom(
        start,
        match.end("wd"),
        day,
        day,
        ReasonCode.WEEKDAY_FROM_CALL,
        weekday=weekday,
        ambiguous=ambiguous,
        readings=both,
    )
