"""Dates in notes: what happens on them, options and stretches, what is held, and the hours."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta

from shoots.call.core import (
    date_context,
    date_days,
    date_groups,
    date_hours,
    date_kinds,
    date_vague,
    date_weekdays,
    date_weeks,
)
from shoots.call.core.date_groups import Group
from shoots.call.core.date_words import Atom, Scene
from shoots.call.core.drafts import DateKind, DateValue, Draft, DraftKind, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence, Span

_HELD = re.compile(
    r"\b(?:pencil(?:led|ling|ed|s)?|hold(?:ing)?|held|option|tbc|provisional(?:ly)?|tentative(?:ly)?|not "
    r"confirmed|unconfirmed|pen in|"
    r"first choice|second choice|either)\b"
)
_HEDGED = re.compile(r"\b(?:maybe|possibly|poss|prob(?:ably)?|ideally|might be|could be|perhaps)\b")
_BY = re.compile(
    r"\b(?:by|on or before|spatestens(?: am| bis)?|bis(?: zum| spatestens)?|no later than|not later than|due(?: on|"
    r" by| in)?|deadline(?: is| of|:)?|"
    r"latest|until|till|"
    r"up to|"
    r"within|in by|"
    r"at the latest(?: by)?|deliver(?:y|ed)?(?: date)?(?:\s?[:=]|\s+by)?|needed(?: by| on| for)?|due:|for|end "
    r"of play|close of play|cop|"
    r"eop|eod)\s*(?:the |about |around |cop |eod |close of play |end of play |end of day |noon |midday |"
    r"lunchtime |start of play )?"
    r"(?:the |on )?\Z"
)
_BY_FIRM = re.compile(r"(?:by|spatestens|on or before|bis|no later|not later|within|in by)")
_LATEST_BEHIND = re.compile(
    r"\s*(?:at the |the |is the |at the very )?(?:latest|deadline|at latest|drop dead|end of play|cop|eod)\b"
)
_MOVED = re.compile(
    r"\b(?:moved?|push(?:ed)?|changed?|postponed?|br(?:ought|ing) forward|switch(?:ed)?|shift(?:ed)?|put back|"
    r"bump(?:ed)?)"
    r"(?: it| the shoot| shoot| this)?(?: back| forward)? from "
    r"(?:the )?\Z"
)
_BEFORE = re.compile(
    r"(?<!on or )\b(?:before|ahead of|prior to|in time for|pre|earlier than|sooner than)[\s-]*(?:the |around )?\Z"
)
_BEFORE_AT = re.compile(r"before")
_AFTER = re.compile(
    r"\b(?:after|from|not before|any ?time after|post|starting|no earlier than|not until|earliest(?:[^,;.]{0,40} is|"
    r" is| it's|"
    r" would be)?)\s*(?:the |about )?\Z"
)
_AFTER_INCLUDES = ("from", "start", "not before", "no earlier", "earliest", "not until")
_BREAK = re.compile(r",(?!\d)|\.\s|\bthen\b|\band\b|\s-\s|\+|\bbut\b|\bso\b|;|\bwith\b|\(|\s/\s|:(?=\s)")
#: Without one of these a sentence names no time; only a quick way out.
_TIME = re.compile(
    r"\d|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mon|tue|wed|thu|fri|sat|sun|week|wk|day|tomo|tmrw|tmw|tonight|"
    r"fortnight|turn ?around|hour|hrs|spring|autumn|fall|winter|eom|\b[kc]w|first|second|third|th\b"
)
_UNTIL = re.compile(r"\b(?:till?|until|to the end|up to)\b[^.;]{0,40}\Z")
_UNTIL_HERE = re.compile(
    r"(?<!\d)(?<!\d )\b(?:till?|until|up to|through to)\s(?:the )?(?:\w+ (?:ends?|closes?|finishes|is over)\s)?\Z"
)
_FROM_HERE = re.compile(r"\b(?:from|ab|since|after)\s(?:the )?\Z")
#: "because of the 4th", "since 3 May": days that only explain.
_NO_DAY_OF_THE_JOB = re.compile(r"\b(?:because of|due to|thanks to|since|ever since|instead of)\s(?:the )?\Z")
_LOOSE = (DateKind.DELIVERY, DateKind.QUOTE, DateKind.MEETING, DateKind.SAMPLES, DateKind.LAUNCH)


def read(
    sentence: Sentence,
    hits: dict[str, list[Hit]],
    *,
    called_on: date,
    country: str,
    month: tuple[int, int] | None = None,
    deed: DateKind | None = None,
    last_day: date | None = None,
) -> tuple[list[Draft], tuple[int, int] | None]:
    """Return the dates of a sentence, and the month that it leaves in mind.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    called_on : date
        The day of the call, from which everything is counted.
    country : str
        The studio's country: order of figures, named days.
    month : tuple of int, optional
        Year and month named before, for a bare "the 17th".
    deed : DateKind, optional
        What the sentence before on the same line was about.
    last_day : date, optional
        The last day named before, for "the Friday after".

    Returns
    -------
    tuple
        Drafts of kind `date`, and year and month.

    References
    ----------
    Weeks begin on Monday (ISO 8601). A date without a year is the next one after the call; "Thu week" is a week
    after the coming Thursday: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("pencil the 17th June, second option the 18th").sentences[0]
    >>> drafts, _ = read(line, {}, called_on=date(2026, 5, 14), country="GB")
    >>> [(d.value.any_of, d.value.held) for d in drafts]
    [((datetime.date(2026, 6, 17), datetime.date(2026, 6, 18)), True)]
    """
    scene = Scene(sentence, hits, called_on, country, month, last_day)
    groups = date_groups.grouped(sentence, _atoms(scene))
    drafts: list[Draft] = []
    for index, group in enumerate(groups):
        since = _after_break(sentence.text, groups[index - 1].end, group.start) if index else 0
        if _NO_DAY_OF_THE_JOB.search(sentence.text[: group.start]):
            continue
        until = (
            _before_break(sentence.text, group.end, groups[index + 1].start)
            if index + 1 < len(groups)
            else len(sentence.text)
        )
        kind, said = date_kinds.kind_of(sentence, group.start, group.end, since, until)
        if (
            not said
            and drafts
            and isinstance(drafts[-1].value, DateValue)
            and drafts[-1].value.kind is DateKind.DELIVERY
            and not _FROM_HERE.search(sentence.text[: group.start])
        ):
            kind, said = DateKind.DELIVERY, True  # "hero by the 10th, the rest 17 July"
        elif not said and deed is DateKind.DELIVERY:
            kind, said = deed, True
        if not said and sentence.line_no == 1 and group.days == (called_on,) and group.atoms[0].day:
            kind, said = DateKind.MEETING, True  # "Tel w. Olu 14/5": the day of the call itself
        option = not index and bool(_OPTION_LEAD.match(sentence.text[: group.start]))
        if option:
            kind, said = DateKind.SHOOT, True
        if not said and group.atoms[0].within:
            kind, said = DateKind.DELIVERY, True
        if not said and _idle(sentence, group):
            continue
        if not said and _beside(sentence, group, drafts):
            continue  # "shoot thurs 24 july, market on fri"
        if group.atoms[0].after_shoot_days and kind not in (DateKind.DELIVERY, DateKind.SHOOT):
            continue  # "payment 30 days later"
        vague = group.atoms[0].vague and date_kinds.before_clause(sentence.text, group.start) >= 0
        if vague:
            continue  # "before the season begins in April"
        if not said and (
            _UNTIL_HERE.search(sentence.text[: group.start])
            or (sentence.topic == "usage" and _UNTIL.search(sentence.text[: group.start]))
        ):
            continue  # "use: posters, till end of run (march 27)": how long they are used
        draft = _draft(sentence, group, kind, said=said)
        if kind is DateKind.SHOOT and not said:
            draft = replace(draft, reason=Reason(draft.reason.code, (*draft.reason.params, ("said", ""))))
        if option:
            draft = replace(draft, reason=Reason(draft.reason.code, (*draft.reason.params, ("option", "other"))))
        drafts.append(draft)
        sentence.claim(group.start, group.end)
        for atom in group.atoms:
            named = atom.first and (atom.day or atom.whole_month) and atom.has_month
            if named and atom.first and kind not in (DateKind.LAUNCH, DateKind.MEETING, DateKind.LICENCE):
                month = (atom.first.year, atom.first.month)
    return date_hours.with_hours(sentence, _in_a_row(sentence, drafts)), month


def _in_a_row(sentence: Sentence, drafts: list[Draft]) -> list[Draft]:
    """Make one stretch of two shoot days that follow each other ("A 12 Apr / B 13 Apr")."""
    joined: list[Draft] = []
    for draft in drafts:
        last = joined[-1].value if joined else None
        value = draft.value
        if (
            isinstance(last, DateValue)
            and isinstance(value, DateValue)
            and last.kind is DateKind.SHOOT
            and last.after
            and last.first
            and value.before
            and value.kind in (DateKind.SHOOT, DateKind.DELIVERY)
            and sentence.text[joined[-1].span.end - sentence.offset : draft.span.start - sentence.offset].strip()
            in ("but", "and", ",", ", but", "")
        ):
            earlier = joined.pop()  # "after 1 June but before 20 June"
            both = replace(last, last=value.before - timedelta(days=1))
            joined.append(replace(earlier, value=both, span=Span(earlier.span.start, draft.span.end)))
        elif (
            isinstance(last, DateValue)
            and isinstance(value, DateValue)
            and last.kind is value.kind is DateKind.SHOOT
            and last.last
            and value.first
            and not last.held
            and (value.first - last.last).days == 1
            and value.first == value.last
            and not _CHOICE.search(
                sentence.text[joined[-1].span.end - sentence.offset : draft.span.start - sentence.offset]
            )
        ):
            earlier = joined.pop()
            span = Span(earlier.span.start, draft.span.end)
            joined.append(replace(earlier, value=replace(last, last=value.last), span=span))
        else:
            joined.append(draft)
    return joined


_PART = re.compile(r"(?:the )?(?:first|second|third|fourth|last|1st|2nd|3rd|4th)\s(?:week|half|fortnight|wk)\b")
_CHOICE = re.compile(
    r"\b(?:or|if|else|otherwise|then|not|maybe|failing|moved?|to|no|nope|sorry|actually|make|rather|scratch)\b|\?"
)
_OPTION_LEAD = re.compile(
    r"\W*(?:the )?(?:second|2nd|third|3rd|alternative|other)\s(?:option|choice|pencil|hold|date)\W{0,3}(?:is |on |"
    r"for |the )*\Z"
)
_ORDINAL = re.compile(r"first|second|third|th\b")


def _atoms(scene: Scene) -> list[Atom]:
    """Find all expressions, the surest first, so that none is read twice."""
    text = scene.text
    if not _TIME.search(text) and not scene.hits.get("holiday"):
        return []
    digits = any(character.isdigit() for character in text)
    if digits or _ORDINAL.search(text):
        scene.add_all(date_days.with_month(scene))
    scene.add_all(date_vague.named_days(scene))
    scene.add_all(date_vague.months_and_seasons(scene))
    scene.add_all(date_days.bare(scene))
    if digits:
        for atom in [atom for atom in scene.atoms if atom.day]:
            scene.add_all(date_days.neighbours(scene, atom))
    scene.add_all(date_weekdays.weekdays(scene))
    scene.add_all(date_weeks.weeks_and_counts(scene))
    scene.atoms.sort(key=lambda atom: atom.start)
    atoms = date_context.shifted(scene, scene.atoms)
    return date_context.settled_in_week(scene, date_context.widened_to_week(scene, atoms))


def _after_break(text: str, since: int, start: int) -> int:
    """Where the words that belong to a later date begin: after the first comma or "then" behind the date before."""
    found = _BREAK.search(text, since, start)
    return found.end() if found else _lead(text, since, start) or since


def _before_break(text: str, end: int, until: int) -> int:
    found = _BREAK.search(text, end, until)
    return found.start() if found else _lead(text, end, until) or until


def _lead(text: str, since: int, start: int) -> int:
    """Return where words begin that lead to a date ("... hand over before xmas rush say 12 dec"); 0 for none."""
    starts = [
        cue.start
        for cue in date_kinds.cues(text)
        if cue.kind in (DateKind.DELIVERY, DateKind.COVER, DateKind.LAUNCH)
        and since + 1 < cue.start
        and cue.end <= start
    ]
    return min(starts, default=0)


def _beside(sentence: Sentence, group: Group, drafts: list[Draft]) -> bool:
    """Return whether a weekday is named beside a shoot of the same sentence without a word that says what for."""
    if sentence.text[: group.start].endswith("the "):
        return False
    shoot = any(
        isinstance(d.value, DateValue) and d.value.kind is DateKind.SHOOT and d.value.first == d.value.last is not None
        for d in drafts
    )
    return shoot and all(atom.code is ReasonCode.WEEKDAY_FROM_CALL and not atom.day for atom in group.atoms)


def _idle(sentence: Sentence, group: Group) -> bool:
    """Return whether a vague time in a longer sentence is about something else ("harvest pictures in autumn")."""
    atom = group.atoms[0]
    season = atom.vague and atom.ambiguous
    by = _BY.search(sentence.text[: group.start])
    if atom.vague and re.search(r"\b(?:like|as|than)\b[^,;]*\Z", sentence.text[: group.start]):
        return True  # "dark, like the sea in November"
    if sentence.topic or len(sentence.words) <= (4 if season else 7) or (group.start < 8 and not season):
        return False
    if atom.vague and not atom.ambiguous and not atom.whole_month and _PART.match(sentence.text, atom.start):
        return False  # "so 2nd half of June"
    return (
        len(group.atoms) == 1
        and (atom.vague or atom.code in (ReasonCode.HOLIDAY, ReasonCode.RELATIVE_TO_CALL))
        and not ((by and not (season and by.group().startswith("for"))) or _BEFORE.search(sentence.text[: group.start]))
    )


def _draft(sentence: Sentence, group: Group, kind: DateKind, *, said: bool) -> Draft:
    text, atoms = sentence.text, group.atoms
    words = (("words", text[group.start : group.end].strip()),)
    first, start = atoms[0], group.start
    if first.after_shoot_days:
        params = (*words, ("days_after_shoot", str(first.after_shoot_days)))
        value = DateValue(DateKind.DELIVERY)
        span = sentence.span(start, group.end)
        return Draft(
            DraftKind.DATE, value, span, sentence.line_no, Reason(ReasonCode.RELATIVE_TO_CALL, params), confirm=True
        )
    by, earlier = _BY.search(text[: group.start]), _BEFORE.search(text[: group.start])
    if earlier is None and (at := date_kinds.before_clause(text, group.start)) >= 0:
        earlier = _BEFORE_AT.match(text, at)
    if (
        kind is DateKind.SHOOT
        and not said
        and (earlier or (by and not by.group().startswith("for")))
        and len(atoms) == 1
    ):
        kind = DateKind.DELIVERY
    value, start = _days_of(sentence, group, kind, by=by, earlier=earlier)
    clause = sentence.clause(group.start, group.end)
    hedged = _HELD.search(text) or _HEDGED.search(text, clause.start, clause.end)
    held = kind in (DateKind.SHOOT, DateKind.COVER) and bool(hedged)
    ambiguous = any(atom.ambiguous for atom in atoms) or (first.whole_month and value.by is not None)
    readings = tuple(dict.fromkeys(day for atom in atoms for day in atom.readings))
    value = replace(value, held=held, ambiguous=ambiguous, readings=readings)
    counted = (("days_from_call", str(first.days_from_call)),) if first.days_from_call else ()
    reason = Reason(ReasonCode.PENCILLED if held else first.code, (*words, *counted))
    return Draft(DraftKind.DATE, value, sentence.span(start, group.end), sentence.line_no, reason, confirm=ambiguous)


def _days_of(
    sentence: Sentence, group: Group, kind: DateKind, *, by: re.Match[str] | None, earlier: re.Match[str] | None
) -> tuple[DateValue, int]:
    """Return the value of a group, and where the words that it rests on begin."""
    text, atoms = sentence.text, group.atoms
    first, last = atoms[0], atoms[-1]
    value, single = DateValue(kind), len(atoms) == 1
    if by and by.group().split()[0] == "for" and kind is not DateKind.DELIVERY:
        by = None
    if by and re.match(r"(?:until|till|up to)", by.group()) and kind is DateKind.SHOOT:
        by = None
    if not single and _MOVED.search(text[: group.start]):
        return replace(value, first=last.first, last=last.last), group.start
    latest = _LATEST_BEHIND.match(text, group.end)
    ends = first.first if first.whole_month or first.code is ReasonCode.WEEK_COMMENCING else last.last
    if earlier and re.match(r"(?:the )?(?:very )?(?:end|back end|tail end)\b", text[first.start :]):
        return replace(value, by=last.last), earlier.start()  # "before the end of October"
    if earlier:
        return replace(value, before=first.first), earlier.start()
    bounded = (by and (kind in _LOOSE or _BY_FIRM.match(by.group()))) or latest or first.within
    if bounded and "or" not in group.joins:
        return replace(value, by=ends), by.start() if by else group.start
    after = _AFTER.search(text[: group.start])
    if (
        after
        and "to" not in group.joins
        and first.last
        and not (first.first != first.last and after.group().startswith("from"))
    ):
        ahead = 0 if after.group().startswith(_AFTER_INCLUDES) else 1
        return replace(value, after=first.last, first=first.last + timedelta(days=ahead)), after.start()
    if kind is DateKind.DELIVERY and single:
        return replace(value, by=last.last), group.start
    one_day = all(atom.first == atom.last for atom in atoms)
    in_row = all((b - a).days == 1 for a, b in zip(group.days, group.days[1:], strict=False))
    if len(atoms) > 1 and one_day and ("or" in group.joins or ("and" in group.joins and not in_row)):
        return replace(value, any_of=group.days), group.start
    begins = min(atom.first for atom in atoms if atom.first)
    return replace(value, first=begins, last=max(atom.last for atom in atoms if atom.last)), group.start
