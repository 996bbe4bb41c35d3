"""Dates in notes: what happens on them, options and stretches, what is held, and the hours."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, timedelta

from shoots.call.core import hours
from shoots.call.core.date_atoms import Atom, Finder, widened_to_week
from shoots.call.core.drafts import DateKind, DateValue, Draft, DraftKind, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_CUES: tuple[tuple[DateKind, re.Pattern[str]], ...] = (
    (DateKind.COVER, re.compile(r"\b(?:(?:weather|rain|wet weather)[ -](?:cover|day|hold|back-?up|date|check|contingency|reserve|option)|cover (?:day|date)|as (?:weather |rain )?cover|for cover|rain date|back-?up(?: day| date)?|contingency(?: day)?|reserve(?: day)?|fall-?back|plan b|if it rains|in case of rain|if wet|if it's wet|weather permitting otherwise|bad weather|spare day|weather cover|cover:|(?<=\s)cover$|cover =|if (?:it )?pours|if weather(?:'s)? (?:is )?(?:bad|poor|rubbish))")),
    (DateKind.AWAY, re.compile(r"\b(?:can't do|cannot do|can't make|cant do|cant make|not available|unavailable|on holiday|on leave|away|busy|closed|avoid|not the|not on|isn't free|not free|except|shut|out of office|no good|doesn't work|won't work|not (?:mon|tue|wed|thu|fri|sat|sun)\w*|blocked|off on|anything but|booked out|fully booked)\b")),
    (DateKind.SAMPLES, re.compile(r"\b(?:samples?|prototypes?|stock|product(?:s)? (?:arrive|land|ready|here|come|due|will be)|packaging (?:arrives|ready|lands)|mock-?ups?|dummies)\b[^,;]{0,30}\b(?:arriv|land|ready|here|come|coming|due|by|on|from|in|sent|ship|with us|get|available)")),
    (DateKind.QUOTE, re.compile(r"\b(?:quote|quotation|estimate|proposal|treatment|costs? (?:by|over|to)|price (?:by|to)|figures? (?:by|to)|send (?:the |a )?(?:quote|price|costs)|numbers (?:by|to))\b")),
    (DateKind.MEETING, re.compile(r"\b(?:call (?:back|again|me|her|him|them|us|on|with)|ring (?:back|me|her|him|them|again|on)|phone (?:back|her|him|them|again)|speak (?:again|on|next)|meet(?:ing)?|zoom|teams call|pre-?pro(?:duction)?|catch[ -]?up|chat (?:on|again)|video call|coffee on|decide by|deciding|decision|let (?:me|us|them|her|him) know|confirm by|will confirm|confirms|get back|come back to|hear back|spoke|rang|called|back to (?:me|us)|chase|follow up|board meeting|signs? off by|sign-off (?:by|on)|held until|hold until|expires?)\b")),
    (DateKind.SCOUTING, re.compile(r"\b(?:recce|recon|scout(?:ing)?|site visit|location visit|tech visit|look at (?:it|the place|the site|location))\b")),
    (DateKind.LAUNCH, re.compile(r"\b(?:launch(?:es|ing|ed)?|go(?:es|ing)? live|on sale|in (?:the )?(?:shops|stores)|campaign (?:starts|live|runs|goes|begins|is live)|releas(?:e|es|ed)|opens?|opening|hits? (?:stores|shelves|shops)|starts? running|goes out|live (?:on|from|by|date)|drops?|out on|event|trade (?:fair|show)|show (?:is|starts|opens)|exhibition|expo|to (?:the )?printers?|print deadline|goes to print|festival|fair|from first use|licence|usage|anniversary|relaunch|runs? from|listing|listed|birthday)\b")),
    (DateKind.DELIVERY, re.compile(r"\b(?:deliver(?:y|ed|able|ables|s)?|deadlines?|due|need(?:s|ed)?(?: (?:them|it|everything|all|pics|images|finals|files|pictures|photos|the \w+|edits|final \w+))?(?: (?:back|in hand|ready|done))?(?= (?:by|before|for|on|in|mid|early|late|end|start|the|\d+|next|this)\b)|hand-?over|turn ?around|want(?:s)? (?:them|it|pics|images|everything|finals|files)|in their hands|edits (?:by|before|back)|send(?:ing)? (?:them|files|finals)|(?:pics|images|finals|files|pictures|photos|selects|jpegs|artwork|retouching|everything|all|them|stuff|shots) (?:back |in |ready |done |over |all )*(?:by|before|for|within|in|no later|latest)|latest|no later than|in hand|ready (?:by|for|before)|asap by|must have|back by|in by|for when|done by|wants? it all|files|finals|turn it round|turned round|in time for|at the latest)\b")),
    (DateKind.SHOOT, re.compile(r"\b(?:shoot(?:s|ing)?|shot on|pencil(?:led|ling|ed)?|pen(?:cil)? in|hold(?:ing)?|held|option|book(?:ed|ing)?|shoot day|dates?|available|availability|free|can do|on set|call time|confirmed|lock(?:ed)?(?: in)?|diary|do it|let's say|fixed|go for|second option|2nd option|first option|1st option|firm|studio (?:free|is free|available))\b")),
)  # fmt: skip
_HELD = re.compile(
    r"\b(?:pencil(?:led|ling|ed|s)?|hold(?:ing)?|held|first option|1st option|second option|2nd option|option|tbc|provisional(?:ly)?|tentative(?:ly)?|not confirmed|unconfirmed|pencil in|pen in|maybe|possibly|poss|prob(?:ably)?|ideally|first choice|second choice|might be|could be)\b"
)
_BY = re.compile(
    r"\b(?:by|no later than|not later than|due(?: on| by| in)?|deadline(?: is| of|:)?|latest|until|till|up to|within|in by|at the latest(?: by)?|by the|deliver(?:y|ed)?(?: date)?(?:\s?[:=]|\s+by)?|needed(?: by| on| for)?|in hand by|due:|for|end of play|close of play|cop|eop|eod)\s*(?:the |about |around |cop |eod |close of play |end of play |end of day |noon |midday |lunchtime |start of play )?(?:the |on )?\Z"
)
_LATEST_AFTER = re.compile(r"\s*(?:at the |the |is the )?(?:latest|deadline|at latest|drop dead|end of play|cop|eod)\b")
_BEFORE = re.compile(
    r"\b(?:before|ahead of|prior to|in time for|pre|earlier than|sooner than)[\s-]*(?:the |around )?\Z"
)
_AFTER = re.compile(
    r"\b(?:after|from|not before|any time after|anytime after|post|starting|onwards from|since|no earlier than|not until|earliest)\s*(?:the |about )?\Z"
)
_ONWARDS = re.compile(r"\s*(?:onwards|on\b(?! )|or later|or after|at the earliest)\b")
_RANGE_JOIN = re.compile(r"\s*(?:-|to|until|till|through|thru|up to)\s*(?:the |about )?\Z")
_AND_JOIN = re.compile(r"\s*(?:,|and|&|\+|plus|and also|,\s*and)\s*(?:on )?(?:the )?\Z")
_OR_JOIN = re.compile(
    r"\s*,?\s*(?:or|/|or else|alternatively|otherwise|failing that|if not|or maybe|or poss(?:ibly)?|or even|or the following|maybe|poss(?:ibly)?)\s*,?\s*(?:on )?(?:the |that )?\Z"
)
_OPTION_JOIN = re.compile(
    r"[\s,;.()-]*(?:and |with |then |or |but )?(?:the )?(?:second|2nd|third|3rd|other|alternative|another|backup|fallback)\s?(?:option|choice|pencil|hold|date)?\s*(?:is|on|for|:|-|=|would be|the)*\s*(?:the )?\Z"
)
_OPTION_AFTER = re.compile(r"\s*(?:is |as )?(?:the |a )?(?:second|2nd|third|3rd) (?:option|choice|pencil|hold)")


@dataclass(frozen=True, slots=True)
class _Group:
    atoms: tuple[Atom, ...]
    joins: tuple[str, ...]

    @property
    def start(self) -> int:
        return self.atoms[0].start

    @property
    def end(self) -> int:
        return self.atoms[-1].end


def _groups(sentence: Sentence, atoms: list[Atom]) -> list[_Group]:
    groups: list[_Group] = []
    for atom in atoms:
        joint = ""
        if groups:
            between = sentence.text[groups[-1].end : atom.start]
            before = sentence.text[: groups[-1].start]
            if _OPTION_JOIN.match(between):
                joint = "or" if not re.search(r"back-?up|fall", between) else ""
            elif _RANGE_JOIN.match(between) or (
                re.fullmatch(r"\s*(?:and|&|-)\s*(?:the )?", between) and re.search(r"\bbetween (?:the )?\Z", before)
            ):
                joint = "to"
            elif _OR_JOIN.match(between):
                joint = "or"
            elif _AND_JOIN.match(between) and not _different_deed(sentence, groups[-1], atom):
                joint = "and"
        if joint and atom.first and groups[-1].atoms[-1].first:
            last = groups.pop()
            groups.append(_Group((*last.atoms, atom), (*last.joins, joint)))
        else:
            groups.append(_Group((atom,), ()))
    return groups


def _different_deed(sentence: Sentence, group: _Group, atom: Atom) -> bool:
    """A comma between two dates that have different verbs does not make them one ("shoot 8 June, 20th delivery")."""
    after = sentence.text[atom.end : atom.end + 24]
    mixed = atom.code is not group.atoms[-1].code and atom.code in (ReasonCode.PART_OF_MONTH, ReasonCode.HOLIDAY)
    return mixed or any(kind is not DateKind.SHOOT and cue.match(after.lstrip(" -(")) for kind, cue in _CUES)


def _kind(sentence: Sentence, group: _Group, since: int, until: int) -> tuple[DateKind, bool]:
    """Return what happens on these dates, and whether words said so."""
    text = sentence.text
    clause = sentence.clause(group.start, group.end)
    for first, last in ((max(clause.start, since), min(clause.end, until)), (since, until)):
        best: tuple[int, DateKind] | None = None
        for kind, cue in _CUES:
            for match in cue.finditer(text, first, last):
                gap = group.start - match.end() if match.end() <= group.start else match.start() - group.end + 6
                gap = max(gap, 0) + (0 if kind not in (DateKind.SHOOT, DateKind.LAUNCH) else 3)
                if kind in (DateKind.COVER, DateKind.AWAY, DateKind.SAMPLES, DateKind.QUOTE):
                    gap -= 12
                if best is None or gap < best[0]:
                    best = (gap, kind)
        if best:
            return best[1], True
    topics = {
        "delivery": DateKind.DELIVERY,
        "cover": DateKind.COVER,
        "launch": DateKind.LAUNCH,
        "shoot": DateKind.SHOOT,
    }
    if sentence.topic in topics:
        return topics[sentence.topic], True
    if sentence.topic == "negatives":
        return DateKind.AWAY, True
    return DateKind.SHOOT, False


def read(
    sentence: Sentence,
    hits: dict[str, list[Hit]],
    *,
    called_on: date,
    country: str,
    month: tuple[int, int] | None = None,
    deed: DateKind | None = None,
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
    atoms = widened_to_week(sentence, Finder(sentence, hits, called_on=called_on, country=country, month=month).find())
    groups = _groups(sentence, atoms)
    drafts: list[Draft] = []
    for index, group in enumerate(groups):
        since = groups[index - 1].end if index else 0
        until = groups[index + 1].start if index + 1 < len(groups) else len(sentence.text)
        since = _cut_at_break(sentence.text, since, group.start)
        kind, said = _kind(sentence, group, since, until)
        if not said and deed:
            kind = deed
        drafts.append(_draft(sentence, group, kind, said, since))
        sentence.claim(group.start, group.end)
        for atom in group.atoms:
            if (
                atom.first
                and (atom.day or atom.whole_month)
                and atom.has_month
                and kind not in (DateKind.LAUNCH, DateKind.MEETING)
            ):
                month = (atom.first.year, atom.first.month)
    return _with_hours(sentence, drafts), month


def _cut_at_break(text: str, since: int, start: int) -> int:
    """Keep words before a date from counting for the next one: begin after the last comma or "then" if there is one."""
    breaks = [m.end() for m in re.finditer(r",(?!\d)|\bthen\b|\band\b|\s-\s|\+", text[since:start])]
    return since + breaks[0] if breaks and since else since


def _draft(sentence: Sentence, group: _Group, kind: DateKind, said: bool, since: int) -> Draft:
    text, atoms = sentence.text, group.atoms
    before = text[: group.start]
    first_atom, last_atom = atoms[0], atoms[-1]
    value = DateValue(kind)
    start = group.start
    if first_atom.after_shoot_days:
        value = replace(value, kind=DateKind.DELIVERY)
        code = ReasonCode.RELATIVE_TO_CALL
        return Draft(
            DraftKind.DATE,
            value,
            sentence.span(start, group.end),
            sentence.line_no,
            Reason(code, (("days_after_shoot", str(first_atom.after_shoot_days)),)),
            confirm=True,
        )
    by, earlier, after = _BY.search(before), _BEFORE.search(before), _AFTER.search(before)
    if by and by.group().strip() in ("for", "for the") and kind is not DateKind.DELIVERY:
        by = None
    if (
        by
        and re.match(r"(?:until|till|up to)", by.group())
        and kind in (DateKind.SHOOT, DateKind.MEETING)
        and not re.search(r"\b(?:need|want|have)\b", text)
    ):
        by = by if kind is DateKind.MEETING else None
    latest = _LATEST_AFTER.match(text, group.end)
    if kind is DateKind.SHOOT and not said and (by or earlier) and len(atoms) == 1:
        value = replace(value, kind=DateKind.DELIVERY)
        kind = DateKind.DELIVERY
    span_first = min(a.first for a in atoms if a.first)
    span_last = max(a.last for a in atoms if a.last)
    if earlier:
        value, start = replace(value, before=first_atom.first), earlier.start()
    elif (
        (by or latest or first_atom.within)
        and (
            kind in (DateKind.DELIVERY, DateKind.QUOTE, DateKind.MEETING, DateKind.SAMPLES, DateKind.LAUNCH)
            or (by and by.group().startswith(("by", "no later", "not later", "within", "in by")))
            or first_atom.within
            or latest
        )
        and "or" not in group.joins
    ):
        end = (
            first_atom.first
            if first_atom.whole_month or first_atom.code is ReasonCode.WEEK_COMMENCING
            else last_atom.last
        )
        value, start = replace(value, by=end), by.start() if by else start
    elif (
        after
        and "to" not in group.joins
        and not (first_atom.first != first_atom.last and after.group().startswith("from"))
        and _AFTER_ONLY.match(after.group())
    ):
        value, start = replace(value, after=first_atom.last), after.start()
        value = (
            replace(
                value,
                first=first_atom.last
                + timedelta(
                    days=0
                    if after.group().startswith(("from", "start", "not before", "no earlier", "earliest", "not until"))
                    else 1
                ),
            )
            if first_atom.last
            else value
        )
    elif kind is DateKind.DELIVERY and len(atoms) == 1 and first_atom.first == first_atom.last:
        value = replace(value, by=first_atom.first)
    elif kind is DateKind.DELIVERY and len(atoms) == 1:
        value = replace(value, by=last_atom.last)
    elif "or" in group.joins and all(a.first == a.last for a in atoms):
        value = replace(value, any_of=_days(group))
    elif "and" in group.joins and all(a.first == a.last for a in atoms) and not _consecutive(group):
        value = replace(value, any_of=_days(group)) if len(atoms) > 1 else value
    else:
        value = replace(value, first=span_first, last=span_last)
    held = kind in (DateKind.SHOOT, DateKind.COVER) and bool(_HELD.search(text))
    ambiguous = any(atom.ambiguous for atom in atoms) or (first_atom.whole_month and value.by is not None)
    readings = tuple(dict.fromkeys(day for atom in atoms for day in atom.readings))
    value = replace(value, held=held, ambiguous=ambiguous, readings=readings)
    code = ReasonCode.PENCILLED if held else first_atom.code
    reason = Reason(code, (("words", text[group.start : group.end].strip()),))
    return Draft(DraftKind.DATE, value, sentence.span(start, group.end), sentence.line_no, reason, confirm=ambiguous)


_AFTER_ONLY = re.compile(r"(?:after|any ?time after|post|not before|no earlier|earliest|not until|from|starting)")


def _days(group: _Group) -> tuple[date, ...]:
    return tuple(dict.fromkeys(atom.first for atom in group.atoms if atom.first))


def _consecutive(group: _Group) -> bool:
    days = _days(group)
    return all((b - a).days == 1 for a, b in zip(days, days[1:], strict=False))


def _with_hours(sentence: Sentence, drafts: list[Draft]) -> list[Draft]:
    clocks = hours.read(sentence)
    for clock in clocks:
        sentence.claim(clock.start, clock.end)
    if not clocks:
        return drafts
    if not hours.is_of_shoot(sentence) and not any(
        isinstance(d.value, DateValue) and d.value.kind is DateKind.SHOOT for d in drafts
    ):
        return drafts
    result = list(drafts)
    for clock in clocks:
        at = sentence.offset + clock.start
        near = min(
            (
                i
                for i, d in enumerate(result)
                if isinstance(d.value, DateValue)
                and not d.value.hours_from
                and d.value.kind in (DateKind.SHOOT, DateKind.COVER, DateKind.DELIVERY)
            ),
            key=lambda i: abs(result[i].span.start - at),
            default=None,
        )
        begins, ends = ("", clock.text) if clock.ends else (clock.text, clock.until)
        whose = bool(
            re.match(
                r"\s*,?\s*(?:sharp |start |call )?(?:at|@) (?:ours|theirs|the client's|client's|our place|their place|hers|his|the office|our office|their office|hq)\b",
                sentence.text[clock.end :],
            )
        )
        if near is not None:
            draft = result[near]
            value = draft.value
            if isinstance(value, DateValue):
                new = replace(value, hours_from=begins, hours_to=ends or value.hours_to, at_clients=whose)
                first = min(draft.span.start, at)
                last = max(draft.span.end, sentence.offset + clock.end)
                result[near] = replace(
                    draft, value=new, span=type(draft.span)(first, last), confirm=draft.confirm or clock.doubtful
                )
            continue
        if not drafts:
            value = DateValue(DateKind.SHOOT, hours_from=begins, hours_to=ends, at_clients=whose)
            reason = Reason(clock.code, (("words", sentence.text[clock.start : clock.end]),))
            result.append(
                Draft(
                    DraftKind.DATE,
                    value,
                    sentence.span(clock.start, clock.end),
                    sentence.line_no,
                    reason,
                    confirm=clock.doubtful,
                )
            )
    return result
