"""Whether a word for people means somebody in the pictures, or somebody who asks, pays, owns, buys or is called."""

from __future__ import annotations

import itertools
import re

from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import NUMBER_WORD
from shoots.call.core.spans import Sentence

_SUBJECT = re.compile(
    r"\b(?:portraits?|headshots?|(?:photo(?:s|graphs?)?|pics?|pictures?|shots?) (?:of|with|featuring|showing)|"
    r"in shot|on camera|featur(?:e|es|ing)|"
    r"star(?:s|ring)?|modell(?:ed|ing)|cast(?:ing)?|wear(?:s|ing)?|pos(?:e|es|ing)|appear(?:s|ing)?|with the|"
    r"using|holding|"
    r"drinking|eating|running|laughing|cooking|in it|walking|making|pouring|brewing|baking|real|images? of|"
    r"talent|subjects?|models? are|played by|stars?)\b"
)
#: "wetsuits: mens, womens, kids" are sizes.
_FOR_SIZES = re.compile(r"\b(?:mens|womens|men's|women's|adults?')\s?(?:,|/|\+|&|and)?\s?\Z")
#: "3 action w/ riders": with somebody in it; not "call with the founder".
_WITH = re.compile(
    r"(?<!call )(?<!spoke )(?<!speak )(?<!meeting )(?<!talk )(?<!chat )(?<!zoom )(?<!job )(?<!work )(?<!worked )"
    r"(?<!talked )(?<!met )(?<!tel )(?<!ok )(?<!fine )(?<!check )(?<!agreed )(?<!on site )"
    r"(?:\bw/?\s?|\bwith\s)(?:an? |the |her |his |their |two |three |four |some |our |real |"
    r"both )?(?:(?!no\b)[a-z-]+ )?\Z"
)
_AT_IT = re.compile(
    r"\s?(?:(?:of )?(?:two|three|four|five|six|\d) )?(?:portraits?|headshots?|in shot|at work|wearing|holding|using|"
    r"pouring|drinking|eating|laughing|"
    r"cooking|as models?|"
    r"(?!bring\b|thing|wedding|evening|morning|king|ring|spring|during|according|including|building|clothing|"
    r"training|booking|meeting)[a-z]{2,}ing\b|in (?:the )?(?:pics|pictures|shots|images|background|foreground|"
    r"frame|it\b)|on camera|to camera|"
    r"at (?:the |her |his |their )?(?:counter|bench|till|wheel|stove|window|desk|machine|loom|forge|bar|table|home|"
    r"easel|oven)\b|"
    r"playing|running|walking|posing|working|making|riding)"
)
_ALL_IN_IT = re.compile(
    r"\b(?:in shot|in the (?:pics|pictures|shots|images|photos)|in it|on camera|as models?|will model|to "
    r"model|modelling|in front of (?:the )?camera)\b"
)
#: "the founder isn't in it", "Fergal does not want to be in any picture".
_NOT_IN_IT = re.compile(
    r"[\w\s',]{0,24}\b(?:isn't|is not|aren't|are not|not|won't|doesn't|does not|don't|never)\s(?:want to |to |"
    r"going to )?"
    r"(?:be |being |appear |feature )?(?:in (?:it|any|the|shot|frame|them)|appear|on camera|in background|seen|shown)"
)
#: "tired of pensioners", "nothing like a policeman".
_UNWANTED = re.compile(
    r"\b(?:tired of|sick of|bored (?:of|with)|fed up with|enough of|nothing like|not like|unlike|no more|as if)\s"
    r"(?:[\w-]+\s){0,4}\Z"
)
#: A fragment of its own: "operator in cab", "slinger w/ radio", "boss by van", "2 lads on the roof".
_PLACED = re.compile(
    r"\s(?:\+|and|&)\s(?:their|her|his)\s|\s(?:in|on|at|by|w/|w|with|under|behind|beside|next to|up|inside|outside|"
    r"holding|from behind|leaning|half)\b"
    r"(?!\s(?:charge|budget|sign|approval|call|holiday|leave|first|once|request|fire|set\b|site\b|touch|monday|tuesday|"
    r"wednesday|thursday|friday|the phone|email|all (?!,)|least|any|\d))"
)
_AUDIENCE = re.compile(
    r"\b(?:for|to|by|from|lots of|most|some|other|as|if|so|like|ask|tell|told|because|where|that|help|helps|"
    r"gets?|makes?|let|many|"
    r"when|what|said|says|call|which|aimed at|target(?:ing)?|audience(?: is)?|sells? to|sold to|belongs? to|"
    r"via|through|because of)"
    r"\s+(?:an? |the |our |their |some |all |her |his )?\Z"
)
_NOT_THEM = re.compile(
    r"\s?(?:separate|separately|fees?\b|extra|on top|included|in that|on set|present|attending|signs?\b|will "
    r"sign|approves?|pays?\b|decides|chooses|picks (?:the|them)|founded|started|set (?:it )?up|runs? (?:it|the)|"
    r"owns?\b|has to\b|must\b|comes? along|will be there|supervis|lets us|meets us|has the key|gives us|rang\b|"
    r"called (?:about|to|and|in|back|today|from|this|me|us|at|on|with)\b|said\b|phoned|emailed|asked|would like|"
    r"agrees?d?\b|knows|charges|does the|deals|looks after|books\b|lends|puts? the money|puts? (?:the )?money up|"
    r"brauchen wir nicht|(?:are |is )?not (?:needed|required|necessary)|"
    r"(?:is|are|will be) (?:cast|booked|supplied|sourced|found)|"
    r"holds|says|wants|needs to|booked by|sorted by|supplied|provided|'s\s(?!hands|portrait)|releases?|numbers?\b)"
)
_EXPENSE = re.compile(
    r"\b(?:incl?\.?|including|plus|excl?\.?|excluding|budget for|pay(?:ing)? for|cost of|find(?:ing)?|chase|"
    r"book|fee for)\s*\Z"
)
_JOINED_ON = re.compile(r"\)?\s(?:and|\+|&|w/|with)\s(?:(?:her|his|their|an?|two|three|four|five|six|\d{1,2})\s)?")
_IN_FRAME = re.compile(
    r"\s(?:[a-z]+\s){0,2}?(?:in the (?:\w+ )?(?:background|foreground|doorway|window|rain|mirror|corner|frame|middle|"
    r"distance|sun|snow|water|door|back|wind)|from (?:behind|above|the back|below)|mid-\w+|blurred|out of focus|"
    r"in (?:silhouette|profile))\b|,\s\d{1,2}(?:-\d{1,2})?,\s[a-z]{2,}ing\b"
)
_SEEN = re.compile(r"\b(?:we see|see|seeing|with both|both)\s(?:the |her |his |an? |their |only )*\Z")
_ROW = re.compile(r"\s*(?:,|\+|&|/|\band\b|,\s?and)\s*(?:an? |the |one |their |her |his )?")


def is_subject(
    sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, count: int | None, *, opening: bool, last_end: int = -1
) -> bool:
    """Return whether a word for people means somebody in the pictures.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    hit : Hit
        One of the table `person`.
    count : int or None
        How many there are of them.
    opening : bool
        Whether this is the first sentence, which rather says who calls.
    last_end : int
        Where the person before it in the same sentence ends; -1 when there is none.

    Returns
    -------
    bool
        True when a number, a verb, a place or a list says that they are seen.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> def seen(text):
    ...     line = cut(text).sentences[0]
    ...     hits = package_lexicons().hits(line)
    ...     return is_subject(line, hits, hits["person"][0], None, opening=False)
    >>> seen("crane driver in the cab"), seen("the crane driver has to be there")
    (True, False)
    """
    text = sentence.text
    if hit.entry.data.get("crew"):
        return True
    if _is_out(sentence, hits, hit, count):
        return False
    if opening and hit.code == "maker" and count is None and _WHO_CALLS.match(text):
        return False  # "who: tile maker, Stoke"
    if sentence.topic == "people" or _in_a_row(text, hits, hit):
        return True
    clause = sentence.clause(hit.start, hit.end)
    near = text[clause.start : hit.start]
    generic = bool(hit.entry.data.get("role")) or any(
        h.start <= hit.start and hit.end <= h.end for h in hits.get("persongeneric", ())
    )
    cued = _is_cued(
        sentence, hits, hit, near, placed=(generic or (hit.code == "founder" and (count or 0) > 1)) and not opening
    )
    if re.match(
        r"\s?(?:who\s)?(?:all\s|each\s)*needs? (?:an? )?(?:headshots?|portraits?|pics|photos|pictures)", text[hit.end :]
    ):
        return True
    intro = hit.code in ("maker", "founder", "team", "woman") and (count in (None, 1) or hit.code in ("team", "woman"))
    intro = intro or (bool(hit.entry.data.get("role")) and count in (None, 1))
    if opening and intro and not cued:
        return False
    if hit.code == "relative" and _with_kin(hits, hit):
        return True
    if hit.code in ("founder", "relative", "team") or generic:
        return _is_generic_subject(sentence, hit, count, near, generic=generic, cued=cued, last_end=last_end)
    return cued or not (
        (_AUDIENCE.search(text[: hit.start]) and count is None) or re.search(r"\bgenerations of \Z", text[: hit.start])
    )


def _is_out(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, count: int | None) -> bool:
    """Return whether the words say that these people are not in the pictures."""
    text, behind = sentence.text, _behind_name(sentence, hit.end)
    if sentence.topic in ("approver", "payer", "props", "negatives"):
        return True
    if text[hit.start : hit.end].endswith("'s") and not re.match(
        r"\s(?:hands?|portraits?|face|eyes|team)\b", text[hit.end :]
    ):
        return True
    if _FOR_SIZES.search(text[: hit.start]):
        return True
    if _NOT_THEM.match(text, behind) or _EXPENSE.search(text[: hit.start]):
        return True
    if _NOT_IN_IT.match(text, behind) or _UNWANTED.search(text[: hit.start]) or _HOURS.match(text, hit.end):
        return True
    if re.search(
        r"\b(?:forms?|consent|permission|letters?|releases?|ok|deposit|slips?) from (?:the )?\Z", text[: hit.start]
    ):
        return True
    if re.search(r"(?:\d\s?/|\bper)\s?\Z", text[: hit.start]) or _SPEAKS.match(text, behind):
        return True
    if _is_of_a_thing(text, hits, hit):
        return True
    if text[hit.start : hit.end] == "couple" and not _PAIR.match(text, hit.end):
        return True  # "a couple squares"
    if count is None and any(hit.end <= use.start <= hit.end + 2 for use in hits.get("placement", ())):
        return True  # "brides mag ads"
    if re.fullmatch(r"\s*(?:talent|models?|cast|people|who)", text[: hit.end]) and re.match(
        r"\s*(?:[:=-]|\d)", text[hit.end :]
    ):
        return True
    if (
        hit.code == "founder"
        and re.search(r"\bof (?:the )?\Z", text[: hit.start])
        and not _SUBJECT.search(text[: hit.start])
    ):
        return True
    generic = any(h.start <= hit.start and hit.end <= h.end for h in hits.get("persongeneric", ()))
    return bool(
        (generic and count is None and re.match(r"\s?:", text[hit.end :]))
        or re.match(r"\s?/[a-z]+\s(?:details?|shots?|close)", text[hit.end :])
    )


#: "her husband in the background said ten was plenty".
_SPEAKS = re.compile(r"[^,.;]{0,28}\b(?:said|says|thought|thinks|reckons|asked|told|suggested)\b")
#: "kids 15:30-17:30".
_HOURS = re.compile(r"\s(?:from |at |till |until )?\d{1,2}(?::\d{2}|[ap]m\b|-\d{1,2}[ap]m\b)")


_ASIDE_AGE = re.compile(rf",\s(?:who(?:'s| is)\s)?(?:\d\d|{NUMBER_WORD}),(?=\s)")


def is_asked(text: str, end: int) -> bool:
    """Return whether words behind somebody and an age say that they decide or pay: "his mother, who is 81, signs".

    Parameters
    ----------
    text : str
        A cleaned sentence.
    end : int
        Where the word for the person ends.

    Returns
    -------
    bool
        False where they do anything else.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_asked("his mother, who is 81, signs off", 10), is_asked("his mother, who is 81, pours tea", 10)
    (True, False)
    """
    aside = _ASIDE_AGE.match(text, end)
    return aside is not None and bool(_NOT_THEM.match(text, aside.end()))


def _behind_name(sentence: Sentence, end: int) -> int:
    """Return where a name behind a role ends: "her boss Kit wants"."""
    name = re.match(r"\s[A-Z][a-z]+(?:\s[A-Z][a-z]+)?\b", sentence.raw[end : end + 40])
    return end + name.end() if name and not sentence.raw.isupper() else end


def _is_of_a_thing(text: str, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether a word says something of a thing: "2-person tent", "two models, 25 hp", "9 people/place"."""
    if re.search(r"\d-\Z", text[: hit.start]) or re.search(r"\bone[ -](?:wo)?man\s\Z", text[: hit.start]):
        return True
    if re.search(r"(?:^|[^\w])1\s\Z", text[: hit.start]) and text[hit.start : hit.end] == "family":
        return True
    if any(t.start <= hit.start and hit.end < t.end for t in hits.get("product", ())):
        return True  # "kids gummies"
    if text[hit.start : hit.end] in ("kids", "girls", "boys", "ladies") and any(
        0 < thing.start - hit.end <= 1 for thing in hits.get("product", ())
    ):
        return True  # "kids waterproofs"
    if hit.code in ("couple", "crowd") and re.search(r"\bfrom (?:\d|two|three|four)\s\Z", text[: hit.start]):
        return True
    singular = not text[hit.start : hit.end].endswith("s") and not _DOES.match(text, hit.end)
    if singular and any(0 < thing.start - hit.end <= 1 for thing in hits.get("product", ())):
        return True
    words = text[hit.start : hit.end]
    if words in ("models", "model") and re.match(
        r",?\s\(?\d+(?:[.,]\d+)?\s?(?:hp|kw|w|v|mm|cm|l|kg|t|inch)\b", text[hit.end :]
    ):
        return True
    if words in ("models", "model") and re.match(r",?\s(?:one|two|three|\d) sizes?\b", text[hit.end :]):
        return True
    return words in ("people", "person") and bool(re.match(r"/[a-z]", text[hit.end :]))


def are_hands_seen(text: str, start: int, end: int) -> bool:
    """Return whether hands are in the picture as somebody's: "hands pouring", "two hands lighting", "one hand ok".

    Parameters
    ----------
    text : str
        A cleaned sentence.
    start : int
        Where the word begins.
    end : int
        Where it ends.

    Returns
    -------
    bool
        False for "in her hands", "holding hands", "details of hands".

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> are_hands_seen("hands pouring", 0, 5), are_hands_seen("a couple holding hands", 17, 22)
    (True, False)
    """
    if text[start:end] == "hands" and re.match(r"\s(?:only|[a-z]{3,}ing\b|in shot|in frame|reaching|ok\b)", text[end:]):
        return not re.search(r"\b(?:holding|own|in (?:her|his|their|our|the)|of|no|shake|shaking|'s)\s\Z", text[:start])
    return bool(
        re.search(r"(?:^|[,;+&(-]|\band|\bwith|\bw/)\s*(?:\d|one|two|a pair of)\s(?:[a-z]+\s)?\Z", text[:start])
    )


def _is_cued(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, near: str, *, placed: bool) -> bool:
    """Return whether a verb, a place or somebody joined on says that these people are seen."""
    text = sentence.text
    return (
        bool(_ALL_IN_IT.search(text))
        or bool(_WITH.search(text[: hit.start]))
        or bool(_SUBJECT.search(near))
        or bool(_AT_IT.match(text, hit.end))
        or bool(_IN_FRAME.match(text, hit.end))
        or bool(_SEEN.search(text[: hit.start]))
        or bool(_OWN_AGE.match(text, hit.end))
        or bool(_DOES.match(text, _behind_name(sentence, hit.end)))
        or (placed and _is_placed(sentence, hits, hit, near))
        or _leads_on(text, hits, hit)
        or (placed and _is_named_in_row(sentence, hits, hit))
        or (placed and bool(hit.entry.data.get("role")) and _before_others(text, hits, hit))
    )


def _before_others(text: str, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether people that are counted follow at once: "coder, 2 illustrators"."""
    if hits.get("approve") or hits.get("pay"):
        return False
    return any(_AND_SO_MANY.fullmatch(text[hit.end : other.start]) for other in hits.get("person", ()))


_IN_ROW = re.compile(r"(?:^|[,+&;(]|\band)\s*\Z")


def _is_named_in_row(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether a role is named in a list of people: "Beth 15 leading, instructor Jan"."""
    if hits.get("approve") or hits.get("pay") or not _IN_ROW.search(sentence.text[: hit.start]):
        return False
    name = next((n for n in hits.get("firstname", ()) if n.start == hit.end + 1), None)
    raw = sentence.raw[name.start : name.end] if name else ""
    return name is not None and raw[:1].isupper() and bool(re.match(r"\s*(?:$|[,.;+&)])", sentence.text[name.end :]))


_AND_THE = re.compile(r"\band (?:the|an?|his|her|their) (?:[a-z]+ ){0,2}\Z")
_AND_SO_MANY = re.compile(r",\s(?:\d{1,2}|two|three|four|five|six)\s(?:[a-z]+\s)?")


def _is_placed(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, near: str) -> bool:
    """Return whether a fragment says where somebody stands or what they hold: "operator in cab", "slinger w/ radio"."""
    if hits.get("approve") or hits.get("pay"):
        return False
    if hit.code in ("crowd", "team") or (
        hit.code == "couple" and not sentence.text.startswith(("couple", "family"), hit.start)
    ):
        return False  # "guests at the hotel" are anybody
    return _leads(near) and bool(_PLACED.match(sentence.text, hit.end))


def _leads(near: str) -> bool:
    """Return whether nothing but articles, numbers and adjectives stands before a noun."""
    return all(_LEAD.fullmatch(word) for word in near.replace("-", " ").split())


def _is_generic_subject(
    sentence: Sentence, hit: Hit, count: int | None, near: str, *, generic: bool, cued: bool, last_end: int
) -> bool:
    text = sentence.text
    pictured = r"\b(?:portraits?|headshots?|photos?|pics?|pictures?|shots?|images?)\s"
    if (
        hit.code in ("founder", "relative")
        and re.search(r"\b(?:of|for|by|from|to)\s+(?:the |her |his )?\Z", near)
        and not re.search(pictured + r"(?:of|with)\s(?:the |her |his )?\Z", near)
    ):
        return False
    if _AUDIENCE.search(text[: hit.start]) and not re.search(pictured + r"(?:of|for)\s", near):
        return False
    if cued:
        return True
    if (generic or hit.code == "team") and last_end >= 0 and _NEXT_IN_LIST.fullmatch(text[last_end : hit.start]):
        return True
    if (
        (generic or (hit.code == "team" and not text[hit.start : hit.end].endswith(("team", "staff"))))
        and last_end >= 0
        and re.search(r"\band (?:the|an?|his|her|their) (?:[a-z]+ ){0,2}\Z", text[: hit.start])
    ):
        return True
    many = (count or 0) > 1 or (generic and text[hit.start : hit.end] != "person")
    made_by = re.search(r"\b(?:by|generations of) (?:the |our |their )?(?:\w+ )?\Z", text[: hit.start])
    if hit.code == "founder":
        return (count or 0) > 2 and bool(re.search(r"\b(?:portrait|headshot|picture|photo)", text))
    return count is not None and not made_by and many


_WHO_CALLS = re.compile(r"\s*who\s?(?::|=|-)")
#: "her cousin paddles", "her friend Jo, who is sixty-odd, wears them too".
_DOES = re.compile(
    r"\s(?:will|would|can|could) be (?!paying|approving|signing|attending|supervising|sending|booking|there\b|in touch|"
    r"deciding|ringing|calling|away|bringing|missing|during|handling|chasing)[a-z]{3,}ing\b|"
    r"(?:,[^,.]{0,28},)?\s(?:who\s)?(?:(?:will|can|could|would|may|might|is going to|to)\s(?:also\s)?(?:be\s)?"
    r"(?:wear|hold|model|pose|ride|play|pour|cook|wave|jump|swim|surf|paddle|climb|dance|demonstrate|appear|feature|"
    r"sit|"
    r"walk|run along|stand (?:in|at|on|by))\b|"
    r"(?:wears|models|poses|paddles|surfs|swims|climbs|dances|skates|pours|plays|rides|appears|stars|jumps)\b)"
    r"(?!\s(?:up|for|their|the bill|on)\b)"
)
#: "woman mid 40s", "a DJ in her fifties", "the cellist alone".
_OWN_AGE = re.compile(
    r",?\s\(?(?:in\s(?:her|his|their)\s)?(?:early|mid|late)?[ -]?"
    r"(?:[2-9]0s|twenties|thirties|forties|fifties|sixties|seventies|eighties)\b|"
    r"\s(?:alone|on (?:her|his|their) own|solo|together|individually)\b"
)
LABEL = re.compile(
    r"\s*(?:staff|team|people|peopel|poeple|ppl|who|talent|cast|casting|models?|riders?|users|subjects?|portraits|"
    r"headshots|"
    r"faces|real [a-z]+|guests|in (?:frame|shot|the pics|pics)|on camera)(?:\sin (?:pic|pics|shot|it|the pics|frame|"
    r"costume))?"
    r"\s?(?::(?!\d)|\s-\s|=|(?<=\s)/\s)\s?(?=[a-z0-9])"
)
#: "a pair of lovers" is two people, "a couple squares" is not.
_PAIR = re.compile(
    r"\s?(?:$|[,.;!?)(&+/:]|and\b|w/|with\b|in\b|on\b|at\b|by\b|from\b|who\b|end\b|having\b|cooking\b|[a-z]{2,}ing\b|"
    r"x\b|too\b|again\b|portraits?\b|only\b|backs\b|both\b)"
)
_LEAD = re.compile(
    r"\d{1,2}|[a-z]+teen|x|one|two|three|four|five|six|seven|eight|nine|ten|twelve|a|an|the|his|her|their|our|same|"
    r"real|"
    r"young|old|older|retired|female|male|plus|then|and|later|also|maybe|another|[a-z]+'s|"
    r"[a-z]+(?:y|ed|an|ish|al|ic|ive|ant)"
)
#: "slinger w/ radio, trainee", "a ranger, two volunteers and a student".
_NEXT_IN_LIST = re.compile(
    r"(?:\s?\([^()]*\))?(?:\s(?:in|on|at|by|w/|with)\s(?:the |a |her |his )?[a-z]+)?\)?\s?(?:,|/|\+|&|;|\band\b|"
    r",\sand\b|\bplus\b)\s?"
    r"(?:an? |the |her |his |their |one |two |three |four |five |six |\d{1,2} )?(?:[a-z-]+ )?"
)


def _leads_on(text: str, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether somebody else of the pictures is joined on: "a couple w/ toddler", "the MD and four engineers"."""
    if hits.get("approve") or hits.get("pay"):
        return False
    for other in hits.get("person", ()):
        if other.start > hit.end and _JOINED_ON.fullmatch(text[hit.end : other.start]):
            return bool(other.entry.data.get("minor")) or other.code != "founder"
    return False


def _in_a_row(text: str, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether at least three people stand in a list: "nurse, gardener, volunteer"."""
    row = sorted(hits.get("person", ()), key=lambda other: other.start)
    if len(row) < 3:
        return False
    at = row.index(hit)
    joined = [bool(_ROW.fullmatch(text[a.end : b.start])) for a, b in itertools.pairwise(row)]
    near = joined[max(0, at - 2) : at + 2]
    return any(a and b for a, b in itertools.pairwise(near))


def _with_kin(hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """A mother beside a father, a child or "the family" is meant to be in the pictures."""
    kin = [other for other in hits.get("person", ()) if other is not hit and abs(other.start - hit.start) < 60]
    return any(other.code in ("relative", "boy", "child") or other.entry.code == "couple" for other in kin)
