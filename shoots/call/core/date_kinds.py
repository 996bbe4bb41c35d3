"""What happens on a date: the verbs and nouns around it tell a shoot from a delivery or a day to ring back."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from shoots.call.core.date_words import PICTURES, STRONG, WEATHER
from shoots.call.core.drafts import DateKind
from shoots.call.core.spans import Sentence

CUES: tuple[tuple[DateKind, re.Pattern[str]], ...] = (
    (
        DateKind.COVER,
        re.compile(
            rf"\b(?:{WEATHER}[ -](?:cover|day|hold|back[ -]?up|date|check|contingency|reserve|option|alternative|"
            rf"plan)s?"
            rf"|(?<!the )(?<!there's )(?<!of )(?<!no )(?<!some )(?<!in )(?<!is )(?<!still ){WEATHER}\s?(?::|=|then|"
            rf"->|>|-(?=\s)|\?)|{WEATHER}(?=\s(?:the )?(?:\d|mon|tue|wed|thu|fri|sat|sun|"
            rf"(?:mo|di|mi|do|fr|sa|so)\b))"
            rf"|(?:if|in case|should|when|unless)\b[^,;./]{{0,24}}?\b{WEATHER}|(?:for|in) (?:the )?(?:bad |poor |"
            rf"wet )?{WEATHER}"
            rf"|unless (?:it's |it is )?(?:dry|fine|sunny)|if (?:it's |it is )?not (?:dry|fine|sunny)"
            r"|cover (?:day|date)|(?:as|for) (?:a )?(?:weather |rain )?(?:cover|back[ -]?up|reserve|contingency|"
            r"stand[ -]?by"
            r"|fall-?back|spare)|bac?k[ -]?up(?: day| date)?|contingency(?: day)?|reserve(?: day| date)?|fall-?back"
            r"|stand[ -]?by|(?<=[,;] )else(?=:? (?:on )?(?:the )?(?:\d|mon|tue|wed|thu|fri|sat|sun|jan|feb|mar|apr|"
            r"may|jun|jul|aug|sep|"
            r"oct|nov|dec))|(?:just )?in case\b|plan b|plan c|if that fails|failing that|if (?:needed|required|"
            r"we need it|"
            r"need be)|if that's (?:no good|off)|"
            r"spare(?: day| date|(?=\s(?:the )?(?:\d|mon|tue|wed|thu|fri|sat|sun))|"
            r"(?=\s?:))"
            r"|cover\s?[:=]|(?<=\s)cover$|cover (?:on )?(?=(?:the )?\d|mon|tue|wed|thu|fri|sat|sun)|held for weather"
            r"|(?<=\()hold(?=:? (?:\d|mon|tue|wed|thu|fri|sat|sun|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec))|"
            r"notfalls|ersatzweise|alternativ\w*|ausweich\w*|ersatz(?:tag|termin)?|reservetag|bu (?:date|day))"
        ),
    ),
    (
        DateKind.AWAY,
        re.compile(
            r"\b(?:can't do(?! that| it)|cannot do(?! that| it)|can't make(?! that| it)|cant do|cant make|"
            r"not available|unavailable|on holiday|on "
            r"leave|away|busy|avoid|not the|"
            r"not on|isn't free|not free|except|shut|closed|locked|out of office|o/s|overseas|abroad|blocked|off on|"
            r"anything but|"
            r"booked out|"
            r"fully booked|open(?! day)|hols|not)\b"
        ),
    ),
    (
        DateKind.SAMPLES,
        re.compile(
            r"\b(?:must|have to|need to|should) (?:be|go) (?:back|returned)|\bship(?:ping)? date|\b(?:ships?|sends?|"
            r"posts?) (?:it |them |samples? )?to (?:me|us)\b|"
            r"\b(?<!pics )(?<!files )lands?(?= (?:with us )?(?:on )?(?:the )?(?:\d|mon|tue|wed|thu|fri))|"
            r"\bproducts? (?:\w+ )?(?:arriv\w*|lands?|reach\w*|comes?|here)\b|\b(?:couriers|posts|ships|sends|"
            r"brings?|collects?) (?:it|them|everything|the \w+|over|some)\b|\bdrop(?:s|ping)? (?:them|it|everything|"
            r"the \w+|some) (?:off|by|in|round)\b|"
            r"(?<!pics )(?<!files )(?<!images )\b(?:couriered"
            r"|posted|shipped|arriv(?:e|es|ing)|dropped off)\b|\b(?:samples?|prototypes?|stock|"
            r"objects|pieces|items|goods|clothes|garments|everything arrives|products? (?:arrive|land|ready|"
            r"here|come|due|will be|in|to us|with us)|packaging (?:arrives|ready|lands)|mock-?ups?|"
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
            r"speak (?:again|on|next)|meet(?:ing)?(?! room| point| house| (?:at )?(?:half |about )?\d)|zoom|teams call|"
            r"pre-?pro(?:duction)?|ppm|catch[ -]?up|chat "
            r"(?:on|again)|video call|coffee on|"
            r"auswahl|decide by|deciding|decision|(?:choose|pick|(?<!let's )say) by|let (?:me|us|them|her|him) know|"
            r"confirm by|"
            r"will confirm|confirms|"
            r"(?:to be )?confirmed by|tbc by|get back|come back to|hear back|"
            r"(?:spoke|rang|called)(?= (?:(?:me|us|her|him|back|again|on|the) )*(?:\d|mon|tue|wed|thu|fri|sat|sun|"
            r"today|yesterday))|"
            r"back to (?:me|us)|chase|follow up|board meeting|signs? off by|sign-off (?:by|on)|"
            r"held until|hold until|expires?|"
            r"rehearsal dinner|casting|(?:site )?induction|fitting|build day|set build|build|prep day|"
            r"travel day|fly "
            r"(?:out|up|back|home|in|down)|travel (?:on|up|down|back)|drive (?:up|down|back|home))\b"
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
            r"shelves|shops)|starts? running|goes out|(?:run|show|season|exhibition|offer) ends|"
            r"hands? over (?:the )?keys|presents?|presentation|pitch(?:es)?|"
            r"live(?: on| from| by| date|(?= (?:\d|mon|tue|wed|thu|fri|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|"
            r"dec)))|drops? (?:on|in)|drop(?: date|"
            r"(?= (?:is|=)|\s?:))|uploads?|press (?:night|view|day)|preview|opening night|out on|"
            r"opens|opening|reception|"
            r"(?:it |that |which |award |entr\w+ |applications? )?closes|break up|breaks up|term (?:starts|ends|"
            r"begins)|sale (?:starts|"
            r"begins|is)|open (?:day|evening|house)|mot\b|exams?|inspection|graduation|invoice\w*|paid by|pay(?:s|"
            r"ment|able)?|"
            r"starts? (?:on|back)|(?<!shoot )(?<!we )(?<!day )starts?(?= (?:the )?(?:\d|mon|tue|wed|thu|fri|sat|"
            r"sun))|go(?:es)? up\b|print(?:s|ed)(?: on| in| from|(?= (?:\d|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|"
            r"nov|dec|mon|tue|wed|thu|fri)))|"
            r"mov(?:es|ing) (?:office|in|into|house|to)\b|on the phone|goes to press|prints? on|turns \d+ on|"
            r"turns \d+|(?:first )?broadcast|airs?\b|"
            r"airing|transmission|publication|tender|"
            r"goes in\b|submission|"
            r"submit|appl(?:y|ication)|market|fayre|fete|match|gig|concert|performance|christening|baptism|funeral|"
            r"communion|prom|"
            r"gala|reunion|election|strike|audit|training|appointment|dentist|carnival|parade|harvest festival|"
            r"awards?|unveil\w*|premiere|first night|season (?:starts|opens|ends)|"
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
            r"\b(?:livraison|liefer\w*|abgabe(?:termin)?|fertig|spatestens|d(?:el|le)iv\w*|dleivery|delviery|dlvr|"
            r"deliver(?:y|"
            r"ed|able|ables|s|ing)?|dlv|dlvry|deliv|deadlines?|"
            r"(?<!mot )(?<!baby )(?<!baby's )(?<!rent )(?<!payment )(?<!invoice )due|hand(?:ed|ing|"
            r"s)?[ -]?over(?! the keys| of (?:the )?keys| keys)|"
            r"turn ?around|"
            r"in their hands|in hand|"
            rf"need(?:s|ed)?(?: (?:it|(?:\w+ )?{PICTURES}|the \w+))?(?: (?:back|in hand|ready|done))?(?= (?:by|before|"
            rf"for|on|in|mid|early|late|end|start|the|\d+\w*|next|this|jan|feb|march|april|may|june|july|aug|sept?|"
            rf"oct|nov|dec|mon|"
            rf"tues?|weds?|thurs?|fri|sat|sun|january|february|august|september|october|november|december|monday|"
            rf"tuesday|"
            rf"wednesday|thursday|friday)\b)|(?:be|is|are|get|got) (?:with|to) (?:the |us\b|them\b|me\b|him\b|her\b|"
            rf"our |their )|"
            rf"want(?:s|ed)? (?:the |all (?:the )?|all of )?{PICTURES}|copy (?:date|deadline)|press date|"
            rf"artwork deadline|for "
            rf"(?:the|our|their) (?:report|agm|print run|printers?|magazine|board|newsletter|brochure|"
            rf"deadline)|edits (?:by|before|back)|send(?:ing)? (?:us |them )?{PICTURES}|first (?:look|pass|cut|"
            rf"edit)|all done|final "
            rf"edit|"
            rf"{PICTURES} (?:back |in |ready |done |over |needed |all |to (?:us|me|them|her|him|the \w+|\w+) "
            rf")*(?:by|bis|before|for|within|no later|latest|until|at the|due)|"
            rf"{STRONG} (?:back |in |ready |done |over |needed |to \w+ )*(?:on|in)|"
            rf"(?:fine|ok|okay|soon enough|early enough|good|plenty) for (?:the |all the )?{PICTURES}|"
            rf"{PICTURES} (?:should |must |have to |need to |has to )(?:reach|get to|be there|be here|be with|be at|"
            rf"be in|arrive|go)|"
            rf"needs? (?:it|{PICTURES}) (?:quick(?:ly)?|fast|asap|urgently|soon)|"
            r"latest|no later than|ready (?:by|for|before)|asap by|must have|back (?:by|to us)|in by|for when|"
            r"done by(?! \d{4}| \d{1,2}\s?[ap]m| \d{1,2}[:.]\d\d| noon)|wants? it all|files|finals|"
            r"turn it round|turned round|in time for|at the latest|retouched|selects|like (?:the |them |it |"
            r"those )?(?:pictures|pics|images|them)? ?(?:within|by|before)|"
            r"have (?:them|it|the pictures|the pics|the images|everything) (?:by|for|before|on))"
            rf"(?![\w'])|\b(?:{STRONG}|the rest|rest|the lot|everything|headshots|(?:end)?bilder|(?:end)?daten|"
            rf"dateien|final art|"
            rf"retouched \w+)"
            rf"(?:(?: to (?:the |their |her |his |our )?\w+)? |\s?(?::|=|-|>)\s?)(?=(?:the |on |by )?(?:\d|mon|"
            rf"tues?\b|tuesd|wed|thu|fri\b|frid|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.? \d|"
            rf"end of|early|"
            rf"first|last|"
            r"mid|week|an? (?:week|fortnight|couple|few)|two |three ))"
        ),
    ),
    (
        DateKind.SHOOT,
        re.compile(
            r"\b(?:shoot(?:s|ing)?|shot on|shooot\w*|shoto?t?ing|photograph(?:ed|ing)?|session|sitting|visit|"
            r"we (?:go|come|meet|shoot)|(?:we're|we are|i'm) there|would (?:therefore |then )?have|fixed (?:on|"
            r"for)|offered us|gives? us|"
            r"gave us|(?:let|lets|has|have) us (?:have|in)|dreh(?:tag)?|termin|"
            r"settled on|(?:a|one|two|three|"
            r"couple of|half a|"
            r"\d) (?:full |whole )?days? (?:in|on|somewhere|between|at|within)|on location|on site|location day|"
            r"studio day|"
            r"pencil(?:led|ling|ed)?|pen in|hold(?:ing)?|held|option|book(?:ed|"
            r"ing)?|shoot day|dates?|available|"
            r"availability|free|can do|could do|do it|on set|call time|confirmed|lock(?:ed)?(?: in)?|diary|"
            r"fixed|go for|second option|"
            r"first option|firm|suits?|works for|have the \w+ on|any \w+ in|either|rehearsal|rather have it|"
            r"do it|prefer|would like it)\b"
        ),
    ),
)
_AWAY_BEHIND = re.compile(
    r",?\s(?:is|are) (?!(?:the |a |our |my |their )?(?:fine|good|best|better|ok|okay|free|shoot|prefer|first|second|"
    r"ideal|"
    r"firm|confirmed|when|clear|one\b|possible|likely|deadline|delivery|fallback|back|cover|spare|rain|weather|wet|"
    r"held|"
    r"pencilled|booked|still|on\b|what|perfect|great|also|set|day|date|latest|plan|option|fixed|definite|it\b|our|go\b|"
    r"absolute|final|hard|last))|"
    r"\s?(?:is |are |'s )?(?:no good|doesn't work|don't work|is out|are out|not possible|not available|won't "
    r"work|impossible|can't do|off\b|away\b|blocked|taken)"
)
_TERM_BEFORE = re.compile(
    r"\b(?:years?|yrs?|yr|y|months?|mths?|mnths?|mth|mos?|monate?|jahre?|m|seasons?|1y|2y|licen[cs]e|usage|use|term|"
    r"exclusiv\w+|\dy|"
    r"\dyrs?|\d+m)\b[\s,(;:/-]*(?:use |usage |licen[cs]e |rights )?"
    r"(?:(?:starting|beginning|commencing|starts?|begins?|runs?|valid)(?: on| from)?|from|fr|frm|ab)\s+(?:the )?\Z"
)
_TOPICS = {
    "delivery": DateKind.DELIVERY,
    "cover": DateKind.COVER,
    "launch": DateKind.LAUNCH,
    "shoot": DateKind.SHOOT,
    "negatives": DateKind.AWAY,
}


#: "moves on 1 November and needs portraits": what is needed is not needed on that day.
_NEW_THOUGHT = re.compile(r"\b(?:and|but|so|because)\s(?:she|he|they|we|it|needs?|wants?|would|has|have|is|are)\b")


#: "Steam-up is Sunday 31 May": the day of something that is no shoot, since nothing says that it is one.
_IS_ON = re.compile(
    r"\b(?!(?:it|that|this|there|dates?|days?|best|first|earliest|plan|idea|choice|preference|option|pencil|slot|"
    r"time|timing|what|"
    r"which|she|he|they|we|who|favourite|thinking|all|both|studio|location|model|models|venue|hall|room|access|one|"
    r"only|"
    r"portraits?|pictures?|photos?|shots?|headshots?|interiors?|exteriors?|stills?|second|third|window|latest|rest|"
    r"thing|answer|when|here|i|you|weather|light|tide|job|gig|call|so|then|now|free|good)\b)[a-z'-]{3,}"
    r" (?:is|are)(?: on)? (?:the )?\Z"
)


#: "photographed, on the opening evening": the thing itself is what is shot.
_SHOT_AT = re.compile(
    r"\b(?:photograph(?:ed|ing)?|shoot(?:ing)?|shot|cover(?:ing|ed)?)\b(?!\s(?:date|day))(?:(?!\b(?:before|ahead|for|"
    r"until|after|by|in time)\b)"
    r"[^.;\d]){0,24}\Z"
)
#: "falls krank: Fr 20.11.", "if not: Friday".
_IF_ALONE = re.compile(
    r"\A\W*if\b(?![^;.]*\b(?:prefer\w*|you|suits?|better|easier|poss\w*|need\w*)\b)[^,;.\d]{3,40},?\s(?:then |the |"
    r"on )*\Z"
)
_IF_LABEL = re.compile(r"\b(?:if|falls|wenn)\b[^,;.:]{1,30}:\s*(?:then |the |on )*\Z")


class Cue(NamedTuple):
    """Words that tell what happens on a date, and where they stand in a sentence."""

    kind: DateKind
    start: int
    end: int


@lru_cache(maxsize=64)
def cues(text: str) -> tuple[Cue, ...]:
    """Return the words of a sentence that tell what happens on a date.

    Parameters
    ----------
    text : str
        A cleaned sentence.

    Returns
    -------
    tuple of Cue
        By kind, in the order in which the kinds are preferred.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> [(cue.kind.value, cue.start) for cue in cues("files by 3 July")]
    [('delivery', 0)]
    """
    return tuple(Cue(kind, m.start(), m.end()) for kind, cue in CUES for m in cue.finditer(text))


#: "before they break up on 25 March": the day bounds what was asked for before it.
_BEFORE_CLAUSE = re.compile(
    r"\bbefore (?:they|we|she|he|it|the|our|their|his|her|my|its|everyone|school|term|you|i|work|things)\b"
    r"(?P<what>[^,;.]{0,48}?)(?:, which (?:is|opens|starts|begins|closes)(?: on)?|\bon|\(|\bfrom|\bstarts?|\bbegins?|"
    r"\bopens?|\bcloses?|\bends?|\bin|\bat)?\s*(?:the )?\Z"
)


def before_clause(text: str, start: int) -> int:
    """Return where "before they close on" begins, for the date that bounds it; -1 when there is none.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    start : int
        Where the date begins.

    Returns
    -------
    int
        Place of "before", or -1.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> before_clause("files before they close on 3 May", 27)
    6
    """
    match = _BEFORE_CLAUSE.search(text, max(0, start - 70), start)
    if not match or not match["what"].strip() or re.search(r"\b(?:by|shoot|until|day)\b|\d", match["what"]):
        return -1
    return match.start()


_IF = re.compile(
    r"\b(?:if|should|in case|when|unless)\b(?P<what>[^,;.]{0,60}?),?\s+(?P<link>(?:(?:then|move|again|we|it|they|she|"
    r"he|i|"
    r"would|"
    r"will|could|can|go|be|do|"
    r"move|moves|to|on|for|say|the|have|use|try|it's|it'd|we'd|we'll|she'd|he'd|is|at|over)\s+)*)\Z"
)
#: "or if the scaffolding isn't down, on Sunday 5 April".
_OR_IF = re.compile(
    r"\b(?:or|but|otherwise|else),? if\b(?![^,;.]*\b(?:prefer|you|suits?|better|easier|poss\w*)\b)[^;.]{2,60}?,\s?"
    r"(?:(?:then|on|the|it's|it|we|would|be|go|use|do)\s)*\Z"
)
#: "Thanksgiving is out (12 Oct)".
_OUT_BEFORE = re.compile(r"\b(?:is|are|'s) (?:out|off|no good|closed|shut)\W{0,2}\(\s?(?:the )?\Z")
_OR_BEFORE = re.compile(r"\b(?:or|else|otherwise)\s(?:maybe |poss(?:ibly)? |on )?(?:the )?\Z")
_IF_BEHIND = re.compile(
    r"\s?(?:only )?if (?!poss|need|that (?:suits|works|is)|that's|you|it suits|pref|easier|free|she|he\b|they|we\b|"
    r"i\b|must)"
)
_NEAR_ONLY = (DateKind.LAUNCH, DateKind.MEETING, DateKind.SAMPLES, DateKind.QUOTE)
_WEATHER = re.compile(rf"\b{WEATHER}")


def is_other_case(text: str, start: int, end: int, *, behind: bool = False) -> bool:
    """Return whether a date is the way out: "or Sun 20 if the boiler's off".

    Parameters
    ----------
    text : str
        A cleaned sentence.
    start : int
        Where the date begins.
    end : int
        Where it ends.
    behind : bool
        Whether another date stands before it in the sentence: then a comma does for "or".

    Returns
    -------
    bool
        False for "or Sun 20 if that suits better", which leaves the choice.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_other_case("sat, or sun if it's shut", 8, 11)
    True
    """
    led = _OR_BEFORE.search(text[:start]) or (behind and re.search(r",\s\Z", text[:start]))
    return bool((led and _IF_BEHIND.match(text, end)) or _OR_IF.search(text[:start]))


def _instead(text: str, since: int, start: int, end: int) -> bool:
    """Return whether a date is named for a case: "if there's a gale, we go on", "if the line is down it would be"."""
    match = _IF.search(text, max(since, start - 90), start)
    if match is None:
        return False
    if _WEATHER.search(match["what"]):
        return True
    open_choice = re.search(r"\b(?:prefer\w*|you|suits?|better|easier|poss\w*|need\w*|like)\b", match["what"])
    if not open_choice and re.search(r"\b(?:we'd|we'll|we would|we go|moves?)\b", match["link"]):
        return True
    return bool(re.search(r"\b(?:would be|it'd|then)\b", match["link"]) or re.match(r"\W{0,2}instead\b", text[end:]))


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
    if _AWAY_BEHIND.match(text, end) or _OUT_BEFORE.search(text[:start]):
        return DateKind.AWAY, True
    if (clause_before := before_clause(text, start)) >= 0:
        shoots = any(c.kind is DateKind.SHOOT and since <= c.start and c.end <= clause_before for c in cues(text))
        return (DateKind.SHOOT if shoots else DateKind.DELIVERY), True
    if _IF_ALONE.search(text[:start]) and not re.search(r"\w", text[end:]):
        return DateKind.COVER, True  # "if someone's sick 8/20"
    if (
        _IF_LABEL.search(text[:start])
        or _instead(text, since, start, end)
        or is_other_case(text, start, end, behind=bool(since))
    ):
        return DateKind.COVER, True
    clause = sentence.clause(start, end)
    for wide, (first, last) in enumerate(((max(clause.start, since), min(clause.end, until)), (since, until))):
        best: tuple[int, Cue] | None = None
        for cue in cues(text):
            if cue.start < first or cue.end > last:
                continue
            behind = cue.start >= end
            if cue.kind is DateKind.AWAY and (behind or start - cue.end > 16):
                continue
            if wide and behind and cue.kind in _NEAR_ONLY:
                continue
            if behind and cue.kind is DateKind.DELIVERY and _NEW_THOUGHT.search(text, end, cue.start):
                continue
            gap = max(cue.start - end + 6 if behind else start - cue.end, 0)
            gap += 3 if cue.kind in (DateKind.SHOOT, DateKind.LAUNCH) else 0
            if cue.kind in (DateKind.COVER, DateKind.AWAY, DateKind.SAMPLES, DateKind.QUOTE):
                gap -= 12
            if best is None or gap < best[0]:
                best = (gap, cue)
        if best and best[1].kind is DateKind.LAUNCH and _SHOT_AT.search(text[: best[1].start]):
            return DateKind.SHOOT, True
        if best:
            labelled, cue = _TOPICS.get(sentence.topic), best[1]
            weak = cue.kind is DateKind.SHOOT and not (since and text[cue.start : cue.end].startswith("shoot"))
            return labelled if labelled and weak else cue.kind, True
    if _IS_ON.search(text[:start]):
        return DateKind.LAUNCH, True
    return (_TOPICS[sentence.topic], True) if sentence.topic in _TOPICS else (DateKind.SHOOT, False)
