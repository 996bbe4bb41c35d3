"""Times of day as people say them: "half eight", "8-4", "from 7.30", "noon"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shoots.call.core.drafts import ReasonCode
from shoots.call.core.spans import Sentence

_HOUR_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12,
}  # fmt: skip
_WORD = "|".join(_HOUR_WORDS)
_HOUR = rf"(?:{_WORD}|1[0-2]|[1-9])"
_CLOCK = re.compile(
    rf"(?<![\w.:/£$€])(?:(?P<half>half(?: past)?)[ -](?P<hh>{_HOUR})|(?P<quarter>quarter (?:past|to))\s(?P<qh>{_HOUR})|"
    r"(?P<h>[01]?\d|2[0-3])[:.](?P<m>[0-5]\d)\s?(?P<ap>am|pm|a\.m\.?|p\.m\.?)?|(?P<h2>1[0-2]|"
    r"[1-9])\s?(?P<ap2>am|pm|a\.m\.?|p\.m\.?)|(?P<h3>1[0-2]|[1-9])(?P<ap3>[ap])|"
    rf"(?P<mil>(?:0[5-9]|1\d|2[0-2])[0-5][05])(?=\s?(?:h|hrs|hours|call|start|sharp|to\b|till?\b|until\b|-)|[,.;]|$)|"
    rf"(?P<noon>noon|midday|12 noon)|(?P<oc>{_HOUR})(?:\s?o'?\s?clock|(?= (?:sharp|on the dot|prompt)\b| (?:start|"
    rf"call|kick-?off)(?=\s*(?:$|[,.;)])))))(?![\w%]|"
    rf"\.\d)"
)
_AT = re.compile(
    rf"\b(?P<cue>at|from|call(?: time)?|call:|start(?:ing)?(?: at)?|starts(?: at)?|kick off(?: at)?|arrive(?: "
    rf"at| for| by)?|crew call|doors(?: at)?|meet(?:ing)? at|there (?:for|by)|on site (?:for|by)|so (?:be )?(?:on|in|"
    rf"at) the \w+ (?:for|by|at)|till|until|"
    rf"wrap(?: at| by)?|finish(?: at| by)?|done by|out by|back by|open(?:s)? at|begin(?:s)?(?: at)?)\s+(?:about |"
    rf"around |say )?(?P<h>{_HOUR})(?P<ish>ish| ish)?(?=\s*(?:$|[,;?!.)-](?!\d)|at\b|on\b|in the\b|that\b|sharp|"
    rf"start|please|for\b|if\b|for crew|and\b|to\b|till\b|until\b|or\b|the\b|once\b|when\b|as\b|mon|tue|wed|thu|fri|"
    rf"sat|sun))"
)
_RANGE = re.compile(
    rf"(?<![\w.:/£$€-])(?P<a>{_HOUR})\s?(?P<ap>am|pm)?\s?(?P<join>-|to|till|til|until|thru|through|"
    rf"(?<=\w )and)\s?(?:about |around )?(?P<b>{_HOUR})\s?(?P<bp>am|"
    rf"pm|ish)?(?![\w:/%]|\.\d|\s?(?:-\s?\d|images|pics|finals|shots|photos|people|looks|products|days|weeks|"
    rf"months|mths|years|yrs|pictures|heroes|models|stills|hours|hrs|min|locations|k\b|grand|setups|portraits|"
    rf"details|june|july|jan|feb|mar|apr|may|aug|sep|oct|nov|dec|of\b|mm|cm|items|pieces|dishes|skus|per\b|"
    rf"each|different|final|good|hero|nice|options|st\b|th\b))"
)
_ISH = re.compile(
    rf"(?<![\w.:/£$€-])(?P<h>{_HOUR})\s?-?ish\b(?!\s?(?:images|pics|finals|shots|pictures|photos|k\b|grand))"
)
_END_CUE = re.compile(
    r"(?:\b(?:to|till|until|til|by|back (?:by|at|for)|wrap(?:ped)?(?: at| by)?|finish(?:ed)?(?: at| by)?|done by|"
    r"out by|gone by|"
    r"ends?(?: at)?|off by|-)|-)\s*(?:about |around )?\Z"
)
#: "8.30 to 5": the end of a stretch whose beginning is a time beyond doubt.
_CLOSED = re.compile(
    r"\s?(?:-|to|till|til|until)\s?(?:about |around )?(?P<h>1[0-2]|[1-9]|"
    + _WORD
    + r")\s?(?P<p>am|pm|[ap](?!\w))?(?![\w:/%]|\.\d)"
)
#: "9-17 Uhr", "ab 8 Uhr", "8:30 bis 17 Uhr".
_UHR = re.compile(
    r"(?<![\w.:/])(?:(?P<a>[01]?\d|2[0-3])(?:[:.](?P<am>[0-5]\d))?\s?(?:uhr\s?)?(?:-|bis)\s?)?"
    r"(?P<b>[01]?\d|2[0-3])(?:[:.](?P<bm>[0-5]\d))?\s?uhr\b"
)
#: Without one of these no time is named; only a quick way out.
_ANY_HOUR = re.compile(r"\d|noon|midday|\b(?:" + _WORD + r")")
_ONLY_HOURS = re.compile(r"\W*(?:both(?: days)?|each day|daily|every day|all days|jeweils)?\W*")
#: "Weds 6 May 19.00": a time with a point right behind the day.
_MONTH_BEFORE = re.compile(r"\b(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*,?\s\Z")
_BETWEEN = re.compile(r"\bbetween\s(?:about )?\Z")
_CUED = re.compile(
    r"\b(?:call(?: time)?|wrap(?:ped)?|at|from|till?|until|by|to|start|starts|finish|begin|crew|-|arrive)\s?:?\s*\Z|-\Z"
)
#: Hours of a house, not of the shoot: "gym shut til noon", "open to the public till 5".
_OF_THE_HOUSE = re.compile(
    r"\b(?:shut|closed|closes?|open(?!ing)s?|public|guests?|busy|locked|doors)\b[^,;.]{0,24}?(?:at|till?|until|from|"
    r"before|after|to|-|"
    r"\d)\s*\Z"
)
_NOT_SHOOT = re.compile(
    r"\b(?:school|ring|phone|call (?:me|back|her|him|again|us)|speak|zoom|meeting|chat|email|pre-?pro|catch "
    r"up|ring back|lunch|train|flight|opens|closes|closing|high tide|low tide|high water|low water|sunset|"
    r"sunrise|delivery van|course|courier|collect|induction\w*|nap|bedtime|pick[ -]up)\b"
)
_CALL_TIME = re.compile(
    r"\b(?:call time|crew call|on set (?:at|by|for|from)|start(?:ing|s)? (?:at|from)|shoot (?:from|at|starts))\b"
)


@dataclass(frozen=True, slots=True)
class Clock:
    """A time of day in a sentence; `ends` when it says when something is over."""

    start: int
    end: int
    text: str
    until: str
    ends: bool
    code: ReasonCode
    doubtful: bool


_SO_THERE = re.compile(r"\b(?:so|be there|arrive|set ?up|crew|before)\b[^;]{0,24}\Z")


def _day_part(sentence: Sentence, start: int, end: int) -> str:
    near = sentence.text[end : end + 24]
    if re.match(r"\s?(?:ish)?\s?(?:at night|in the evening|tonight|in the afternoon)", near):
        return "pm"
    return "am" if re.match(r"\s?(?:ish)?\s?(?:in the morning|sharp in the morning)", near) else ""


def _as_text(hour: int, minute: int, part: str) -> str:
    part = part.replace(".", "")
    if part == "pm" and hour < 12:
        hour += 12
    elif part == "am" and hour == 12:
        hour = 0
    elif not part and 1 <= hour <= 5:
        hour += 12
    return f"{hour:02d}:{minute:02d}"


def read(sentence: Sentence, *, dated: bool = False) -> list[Clock]:
    """Return the times of day of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    dated : bool
        Whether it names a day, so that "9-1" is rather the hours of that day than a number.

    Returns
    -------
    list of Clock
        Times as "HH:MM" in order. Without "am" or "pm" the hours 1 to 5 are taken for the afternoon, 6 to 12 for the
        morning; "half eight" is 08:30, as in British English.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [(c.text, c.until) for c in read(cut("half eight at ours, then 2-4").sentences[0])]
    [('08:30', ''), ('14:00', '16:00')]
    """
    text = sentence.text
    found: list[Clock] = []
    if not _ANY_HOUR.search(text):
        return found
    for match in _UHR.finditer(text) if "uhr" in text else ():
        end_text = f"{int(match['b']):02d}:{match['bm'] or '00'}"
        begin_text = f"{int(match['a']):02d}:{match['am'] or '00'}" if match["a"] else ""
        ends = not begin_text and bool(_END_CUE.search(text[: match.start()]) or text[: match.start()].endswith("bis "))
        clock = Clock(
            match.start(), match.end(), begin_text or end_text, end_text if begin_text else "", ends,
            ReasonCode.CLOCK_TIME, False,
        )  # fmt: skip
        _put(sentence, found, clock)
    for match in _CLOCK.finditer(text):
        groups = match.groupdict()
        part, minute, code, doubtful = "", 0, ReasonCode.CLOCK_TIME, True
        if groups["half"]:
            hour, minute, code = _hour(groups["hh"]), 30, ReasonCode.HALF_HOUR
        elif groups["quarter"]:
            hour = _hour(groups["qh"])
            hour, minute = (hour, 15) if groups["quarter"].endswith("past") else (hour - 1 or 12, 45)
        elif groups["h"]:
            hour, minute, part = int(groups["h"]), int(groups["m"]), groups["ap"] or ""
            dotted = "." in match.group() and not part
            ranged = re.match(r"\s?(?:-|till?|until|to|from\b|start|sharp|onwards?|ish)\s?", text[match.end() :])
            if (
                dotted
                and not ranged
                and not (dated and _MONTH_BEFORE.search(text[: match.start()]) and minute in (0, 15, 30, 45))
                and not re.search(
                    r"\b(?:at|from|call|start|starts|till|until|to|by|arrive|for|-|meet|crew|call time|time|so|"
                    r"say)\s*:?\s*\Z",
                    text[: match.start()],
                )
            ):
                continue
            if not dotted and not part and f"{hour}:{minute:02d}" in ("9:16", "16:9"):
                continue
            doubtful = False
            if len(groups["h"]) == 2:
                part = part or ("am" if hour < 12 else "")
        elif groups["h2"]:
            hour, part, doubtful = int(groups["h2"]), groups["ap2"], False
        elif groups["h3"]:
            if not _CUED.search(text[: match.start()]) and not re.match(
                r"\s(?:call|start|wrap)\b", text[match.end() :]
            ):
                continue
            hour, part, doubtful = int(groups["h3"]), groups["ap3"] + "m", False
        elif groups["mil"]:
            cued = _CUED.search(text[: match.start()]) and not re.match(r"20[1-4]0", groups["mil"])
            if not (cued or re.match(r"\s?(?:h|-|call|start|sharp|to|till?|until)", text[match.end() :])):
                continue
            hour, minute, doubtful = int(groups["mil"][:2]), int(groups["mil"][2:]), False
            part = "am" if hour < 12 else ""
        elif groups["noon"]:
            hour, doubtful = 12, False
        else:
            hour = _hour(groups["oc"])
        early = found and not part and 1 <= hour <= 5 and int(found[-1].text[:2]) < 12 and not found[-1].until
        if early and _SO_THERE.search(text[found[-1].end : match.start()]):
            part = "am"
            found.pop()  # "opening 6am so be there at 4.30"
        closed = _CLOSED.match(text, match.end())
        if closed and not closed["p"] and not part and hour <= 5:
            closed = None
        part = part or _day_part(sentence, match.start(), match.end())
        opened = re.search(r"(?<![\d.:/£$€])(1[0-2]|[1-9])\s?(?:-|to)\s?\Z", text[: match.start()])
        if opened and (minute or part or groups["noon"]):
            begin = int(opened.group(1))
            same = part if begin <= hour or (part == "pm" and begin < 12 and begin < hour) else ""
            same = "am" if part == "pm" and begin > hour else same
            clock = Clock(
                opened.start(1),
                match.end(),
                _as_text(begin, 0, same),
                _as_text(hour, minute, part or ("pm" if hour < begin else "")),
                False,
                code,
                False,
            )
            _put(sentence, found, clock)
            continue
        if closed:
            until = _hour(closed["h"])
            later = (closed["p"] or "")[:1] + "m" if closed["p"] else ("pm" if until <= hour or until <= 8 else "")
            clock = Clock(
                match.start(), closed.end(), _as_text(hour, minute, part), _as_text(until, 0, later), False, code, False
            )  # fmt: skip
            _put(sentence, found, clock)
            continue
        _put(
            sentence,
            found,
            Clock(
                match.start(),
                match.end(),
                _as_text(hour, minute, part),
                "",
                bool(_END_CUE.search(text[: match.start()])),
                code,
                doubtful and not part,
            ),
        )
    for match in _RANGE.finditer(text):
        begin, end = _hour(match["a"]), _hour(match["b"])
        between = match["join"] == "and" and _BETWEEN.search(text[: match.start()])
        if match["join"] == "and" and not (between and dated):
            continue
        last = match["bp"] if match["bp"] in ("am", "pm") else ""
        if not (match["ap"] or last or between or match["join"].startswith(("til", "until"))) and not (
            (dated and begin >= 6 and end < begin) or _hours_meant(sentence, begin, end, match)
        ):
            continue
        start_text = _as_text(begin, 0, match["ap"] or ("" if begin > 5 or end > begin else "am"))
        _put(
            sentence,
            found,
            Clock(
                match.start(),
                match.end(),
                start_text,
                _as_text(end, 0, last or ("pm" if end < begin or end <= 8 else "")),
                False,
                ReasonCode.CLOCK_TIME,
                False,
            ),
        )
    for match in _ISH.finditer(text) if dated else ():
        hour = _hour(match["h"])
        clock = Clock(match.start("h"), match.end(), _as_text(hour, 0, ""), "", False, ReasonCode.CLOCK_TIME, True)
        _put(sentence, found, clock)
    for match in _AT.finditer(text):
        hour = _hour(match["h"])
        ends = bool(re.match(r"till|until|wrap|finish|done|out|back", match["cue"]))
        _put(
            sentence,
            found,
            Clock(
                match.start("h"),
                match.end("h"),
                _as_text(hour, 0, _day_part(sentence, 0, match.end("h"))),
                "",
                ends,
                ReasonCode.CLOCK_TIME,
                True,
            ),
        )
    return _paired(sorted(found, key=lambda clock: clock.start))


def _paired(found: list[Clock]) -> list[Clock]:
    """Join a beginning and the end that follows it ("7.30 till 6")."""
    joined: list[Clock] = []
    for clock in found:
        if clock.ends and joined and not joined[-1].until and not joined[-1].ends and clock.start - joined[-1].end < 30:
            first = joined.pop()
            until = clock.text
            if until <= first.text and int(until[:2]) < 12:
                until = f"{int(until[:2]) + 12:02d}{until[2:]}"
            joined.append(Clock(first.start, clock.end, first.text, until, False, first.code, first.doubtful))
        else:
            joined.append(clock)
    return joined


def _put(sentence: Sentence, found: list[Clock], clock: Clock) -> None:
    if _OF_THE_HOUSE.search(sentence.text[: clock.start]):
        return
    if sentence.is_free(clock.start, clock.end) and all(
        clock.end <= other.start or clock.start >= other.end for other in found
    ):
        found.append(clock)


def _hour(text: str) -> int:
    return _HOUR_WORDS.get(text) or int(text)


def _hours_meant(sentence: Sentence, begin: int, end: int, match: re.Match[str]) -> bool:
    """Tell "8-4" or "9 to 5" from a number of pictures."""
    text = sentence.text
    if _ONLY_HOURS.fullmatch(text[: match.start()] + text[match.end() :]) and begin >= 6 and end < begin:
        return True
    near = text[max(0, match.start() - 26) : match.start()] + " | " + text[match.end() : match.end() + 14]
    cue = re.search(
        r"\b(?:hours?|call|agreed(?: on)?|make it|say|shoot(?:ing)?\s+(?:from|day|\|)|open|from|day|start|access|"
        r"have (?:it|the|them)|"
        r"available|mon|tue|wed|thu|fri|sat|sun|january|february|march|april|may|june|july|august|september|"
        r"october|november|december|jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec|then)\b|\d(?:st|nd|rd|th)\b",
        near,
    )
    return bool(cue) and (
        end < begin
        or (near.split(" | ")[0].rstrip().endswith("shoot") and begin < end)
        or (begin <= 5 < end + 6 and begin < end <= 6)
        or (6 <= begin < end and "from" in near)
    )


def is_of_shoot(sentence: Sentence, start: int | None = None, end: int = 0) -> bool:
    """Return whether a time in this sentence may be one of the shoot and not of a call, a school or a tide.

    Parameters
    ----------
    sentence : Sentence
        Where the time stands.
    start : int, optional
        Where it begins; the whole sentence is looked at when left out.
    end : int
        Where it ends.

    Returns
    -------
    bool
        True unless other words claim it.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> is_of_shoot(cut("out of school at three").sentences[0])
    False
    """
    text = sentence.text
    if start is not None:
        before, behind = text[max(0, start - 34) : start], text[end : end + 18]
        text = re.split(r"[,;]\s", before)[-1] + text[start:end] + re.split(r"[,;]\s", behind)[0]
    return bool(_CALL_TIME.search(text)) or not _NOT_SHOOT.search(text)
