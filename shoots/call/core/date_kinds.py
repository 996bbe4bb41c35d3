"""What happens on a date: the verbs and nouns around it tell a shoot from a delivery or a day to ring back."""

from __future__ import annotations

import re

from shoots.call.core.drafts import DateKind
from shoots.call.core.spans import Sentence

_PICTURES = (
    r"(?:pics?|images?|finals?|files?|pictures?|photos?|selects?|jpegs|artwork|retouching|edits?|everything|"
    r"all|them|stuff|shots|stills|"
    r"assets|final edits?|final images?|final files?|final pictures?|retouched \w+|edited \w+|the lot)"
)
CUES: tuple[tuple[DateKind, re.Pattern[str]], ...] = (
    (
        DateKind.COVER,
        re.compile(
            r"\b(?:(?:wet|bad) weather(?=\s(?:the )?(?:\d|mon|tue|wed|thu|fri|sat|sun))|(?:weather|rain|"
            r"wet weather)[ -](?:cover|day|hold|back[ -]?up|date|check|contingency|"
            r"reserve|option)|cover (?:day|date)|"
            r"as (?:a )?(?:weather |rain )?(?:cover|back[ -]?up|reserve|contingency)|for cover|rain date|"
            r"back[ -]?up(?: day| date)?|"
            r"contingency(?: day)?|reserve(?: day)?|fall-?back|plan b|if it rains|if rain|"
            r"rain(?:s|ing)?\s?(?::|=|then|->)|if that fails|failing that|if that's (?:no good|off)|"
            r"in case of rain|if "
            r"wet|if it's wet|spare day|cover:|"
            r"(?<=\s)cover$|cover =|cover (?:on )?(?=(?:the )?\d|mon|tue|wed|thu|fri|sat|sun)|if (?:it )?pours|"
            r"if (?:the )?weather(?:'s)? (?:is )?(?:bad|poor|rubbish)|"
            r"held for weather)"
        ),
    ),
    (
        DateKind.AWAY,
        re.compile(
            r"\b(?:can't do|cannot do|can't make|cant do|cant make|not available|unavailable|on holiday|on "
            r"leave|away|busy|avoid|not the|"
            r"not on|isn't free|not free|except|shut|out of office|blocked|off on|anything but|booked out|"
            r"fully booked|not)\b"
        ),
    ),
    (
        DateKind.SAMPLES,
        re.compile(
            r"\b(?:must|have to|need to|should) (?:be|go) (?:back|returned)|\b(?:samples?|prototypes?|stock|"
            r"objects|pieces|items|goods|clothes|garments|everything arrives|products? (?:arrive|land|ready|"
            r"here|come|due|will be)|packaging (?:arrives|ready|lands)|mock-?ups?|"
            r"dummies)\b[^,;]{0,30}\b(?:arriv\w*|land\w*|ready|here|come|coming|due|by|on|from|in|sent|"
            r"ship\w*|with us|get|available)|"
            r"\b(?:send|ship|drop(?:ping)? off|bring(?:ing)?|collect|courier|post)\s(?:the |us |me |her |him |"
            r"some )*(?!pics|images|files|finals|them by|quote|pictures|invoice|costs)"
            r"(?:\w+\s)?(?:bottles|samples?|products?|boxes|stock|kit|stuff|packs|jars|cans|clothes|garments|"
            r"pieces|shoes|bags|prototypes?)\b"
        ),
    ),
    (
        DateKind.QUOTE,
        re.compile(
            r"\b(?:quote|quotation|estimate|proposal|treatment|costs? (?:by|over|to)|price (?:by|to)|figures? "
            r"(?:by|to)|numbers (?:by|to))\b"
        ),
    ),
    (
        DateKind.MEETING,
        re.compile(
            r"\b(?:call (?:back|again|me|her|him|them|us|on|with)|ring (?:back|me|her|him|them|again|on)|"
            r"phone (?:back|her|him|them|again)|call(?:ed)? (?:on )?(?=\d{1,2}(?:st|nd|rd|th)? (?:of )?[a-z]{3})|"
            r"speak (?:again|on|next)|meet(?:ing)?(?! (?:at )?(?:half |about )?\d)|zoom|teams call|"
            r"pre-?pro(?:duction)?|ppm|catch[ -]?up|chat "
            r"(?:on|again)|video call|coffee on|"
            r"decide by|deciding|decision|let (?:me|us|them|her|him) know|confirm by|will confirm|confirms|"
            r"(?:to be )?confirmed by|tbc by|get back|come back to|hear back|spoke|"
            r"rang|called|back to (?:me|us)|chase|follow up|board meeting|signs? off by|sign-off (?:by|on)|"
            r"held until|hold until|expires?|"
            r"rehearsal dinner|casting (?:on|is)|fitting|build day|set build|build|prep day|travel day|fly "
            r"out|travel on|drive up)\b"
        ),
    ),
    (
        DateKind.SCOUTING,
        re.compile(
            r"\b(?:recce|recon|scout(?:ing)?|site visit|location visit|tech visit|look at (?:it|the place|the site))\b"
        ),
    ),
    (
        DateKind.LAUNCH,
        re.compile(
            r"\b(?:(?:re)?launch(?:es|ing|ed)?|go(?:es|ing)? live|on sale|in (?:the )?(?:shops|stores)|"
            r"campaign (?:starts|live|runs|goes|begins|is live)|"
            r"releas(?:e|es|ed)|(?:shop|store|grand|official) opening|opens (?:on|in|its)|hits? (?:stores|"
            r"shelves|shops)|starts? running|goes out|live (?:on|from|by|date)|drops?|out on|"
            r"event|race|marathon|wedding|party|conference|awards|regatta|trade (?:fair|show)|show (?:is|starts|"
            r"opens)|exhibition|expo|to (?:the )?printers?|print "
            r"deadline|goes to print|festival|"
            r"fair|from first use|licence|usage|anniversary|runs? from|listing|listed|birthday|harvest(?: is| "
            r"starts)?|tour)\b"
        ),
    ),
    (
        DateKind.DELIVERY,
        re.compile(
            r"\b(?:livraison|lieferung|deliver(?:y|ed|able|ables|s|ing)?|dlv|dlvry|deliv|deadlines?|due|hand-?over|"
            r"turn ?around|"
            r"in their hands|in hand|"
            rf"need(?:s|ed)?(?: (?:it|{_PICTURES}|the \w+))?(?: (?:back|in hand|ready|done))?(?= (?:by|before|"
            rf"for|on|in|mid|early|late|end|start|the|\d+|next|this)\b)|"
            rf"want(?:s|ed)? (?:the )?{_PICTURES}|copy (?:date|deadline)|press date|artwork deadline|for "
            rf"(?:the|our|their) (?:report|agm|print run|printers?|magazine|board|newsletter|brochure|"
            rf"deadline)|edits (?:by|before|back)|send(?:ing)? (?:us |them )?{_PICTURES}|first edit|final "
            rf"edit|"
            rf"{_PICTURES} (?:back |in |ready |done |over |needed |all |to (?:us|me|them|her|him|the \w+) "
            rf")*(?:by|before|for|within|on|in|no later|latest|until|at the|due)|"
            r"latest|no later than|ready (?:by|for|before)|asap by|must have|back (?:by|to us)|in by|for when|"
            r"done by|wants? it all|files|finals|"
            r"turn it round|turned round|in time for|at the latest|retouched|selects|like (?:the |them |it |"
            r"those )?(?:pictures|pics|images|them)? ?(?:within|by|before)|"
            r"have (?:them|it|the pictures|the pics|the images|everything) (?:by|for|before|on))"
            rf"(?![\w'])|\b{_PICTURES} (?=\d)"
        ),
    ),
    (
        DateKind.SHOOT,
        re.compile(
            r"\b(?:shoot(?:s|ing)?|shot on|pencil(?:led|ling|ed)?|pen in|hold(?:ing)?|held|option|book(?:ed|"
            r"ing)?|shoot day|dates?|available|"
            r"availability|free|can do|could do|do it|on set|call time|confirmed|lock(?:ed)?(?: in)?|diary|"
            r"let's say|fixed|go for|second option|"
            r"first option|firm|suits?|works for|have the \w+ on|any \w+ in|either|rehearsal|rather have it|"
            r"do it|prefer|would like it)\b"
        ),
    ),
)
_AWAY_BEHIND = re.compile(
    r"\s?(?:is |are |'s )?(?:no good|doesn't work|don't work|is out|are out|not possible|not available|won't "
    r"work|impossible|can't do|off\b|away\b|blocked|taken)"
)
_TERM_BEFORE = re.compile(
    r"\b(?:years?|yrs?|yr|y|months?|mths?|mth|mos?|m|seasons?|1y|2y|licen[cs]e|usage|use|term|exclusiv\w+|\dy|"
    r"\dyrs?|\d+m)\b[\s,(;:/-]*(?:use |usage |licen[cs]e |rights )?"
    r"(?:(?:starting|beginning|commencing|starts?|begins?|runs?|valid)(?: on| from)?|from)\s+(?:the )?\Z"
)
_TOPICS = {
    "delivery": DateKind.DELIVERY,
    "cover": DateKind.COVER,
    "launch": DateKind.LAUNCH,
    "shoot": DateKind.SHOOT,
    "negatives": DateKind.AWAY,
}


def kind_of(sentence: Sentence, start: int, end: int, since: int, until: int) -> tuple[DateKind, bool]:
    """Return what happens on dates in a sentence, and whether words said so.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    start : int
        Where the dates begin.
    end : int
        Where they end.
    since : int
        Where the words that may belong to them begin.
    until : int
        Where those words end.

    Returns
    -------
    tuple
        The kind, and False where nothing told it apart from a shoot.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("files by 3 July").sentences[0]
    >>> kind_of(line, 9, 15, 0, 15)
    (<DateKind.DELIVERY: 'delivery'>, True)
    """
    text = sentence.text
    if _TERM_BEFORE.search(text[:start]):
        return DateKind.LICENCE, True
    if _AWAY_BEHIND.match(text, end):
        return DateKind.AWAY, True
    clause = sentence.clause(start, end)
    for first, last in ((max(clause.start, since), min(clause.end, until)), (since, until)):
        best: tuple[int, DateKind] | None = None
        for kind, cue in CUES:
            for match in cue.finditer(text, first, last):
                behind = match.start() >= end
                if kind is DateKind.AWAY and (behind or start - match.end() > 16):
                    continue
                gap = max(match.start() - end + 6 if behind else start - match.end(), 0)
                gap += 3 if kind in (DateKind.SHOOT, DateKind.LAUNCH) else 0
                if kind in (DateKind.COVER, DateKind.AWAY, DateKind.SAMPLES, DateKind.QUOTE):
                    gap -= 12
                if best is None or gap < best[0]:
                    best = (gap, kind)
        if best:
            labelled = _TOPICS.get(sentence.topic)
            return labelled if labelled and best[1] is DateKind.SHOOT else best[1], True
    return (_TOPICS[sentence.topic], True) if sentence.topic in _TOPICS else (DateKind.SHOOT, False)
