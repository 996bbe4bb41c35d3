"""People in the pictures, and what follows when one of them is under 18."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core import ages, people_unsaid
from shoots.call.core.ages import Age
from shoots.call.core.drafts import Draft, DraftKind, PersonValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.minors import ADULT, SCHOOL_UNTIL
from shoots.call.core.numbers import Quantity, number, quantities
from shoots.call.core.spans import Sentence, Span, stem

_NO = re.compile(
    r"\b(?:no|without|not|zero|never|nobody|don't (?:want|need|use|show)|avoid|instead of|rather than|won't "
    r"(?:need|use)|"
    r"doesn't (?:want|need))(?: (?:any|a|an|the|real|to have|show|use|recognisable|other|actual|professional|"
    r"faces of))*(?: (?:greasy|dirty|smiling|happy|visible|other|bare|recognisable|[a-z]+y|[a-z]+ing))?\s*\Z"
)
_SUBJECT = re.compile(
    r"\b(?:portraits?|headshots?|(?:photo(?:s|graphs?)?|pics?|pictures?|shots?) (?:of|with|featuring|showing)|"
    r"in shot|on camera|featur(?:e|es|ing)|"
    r"star(?:s|ring)?|modell(?:ed|ing)|cast(?:ing)?|wear(?:s|ing)?|pos(?:e|es|ing)|appear(?:s|ing)?|with the|"
    r"using|holding|"
    r"drinking|eating|running|laughing|cooking|in it|walking|making|pouring|brewing|baking|real|images? of|"
    r"talent|subjects?)\b"
)
#: "wetsuits: mens, womens, kids" are sizes.
_FOR_SIZES = re.compile(r"\b(?:mens|womens|men's|women's|adults?')\s?(?:,|/|\+|&|and)\s?\Z")
#: "3 action w/ riders": with somebody in it; not "call with the founder".
_WITH = re.compile(
    r"(?<!call )(?<!spoke )(?<!speak )(?<!meeting )(?<!talk )(?<!chat )(?<!zoom )(?<!job )(?<!work )(?<!worked )"
    r"(?<!talked )(?<!met )(?<!tel )(?<!ok )(?<!fine )(?<!check )(?<!agreed )(?<!on site )"
    r"(?:\bw/\s?|\bwith\s)(?:an? |the |her |his |their |two |three |four |some |our |real )?\Z"
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
_AUDIENCE = re.compile(
    r"\b(?:for|to|by|from|lots of|most|some|other|as|if|so|like|ask|tell|told|because|where|that|help|helps|"
    r"gets?|makes?|let|many|"
    r"when|what|said|says|call|which|aimed at|target(?:ing)?|audience(?: is)?|sells? to|sold to|belongs? to|"
    r"via|through|because of)"
    r"\s+(?:the |our |their |some |all |her |his )?\Z"
)
_NOT_THEM = re.compile(
    r"\s?(?:separate|separately|fees?\b|extra|on top|included|in that|on set|present|attending|signs?\b|will "
    r"sign|approves?|pays?\b|decides|founded|started|set (?:it )?up|run (?:it|the)|own (?:it|the)|(?:is|are|"
    r"will be) (?:cast|booked|supplied|sourced|found)|"
    r"holds|says|wants|needs to|booked by|sorted by|supplied|provided|'s\s(?!hands|portrait)|releases?|numbers?\b)"
)
_EXPENSE = re.compile(
    r"\b(?:incl?\.?|including|plus|excl?\.?|excluding|budget for|pay(?:ing)? for|cost of|find(?:ing)?|chase|"
    r"book|fee for)\s*\Z"
)
_COUNT_GAP = re.compile(r"\s*(?:x\s)?(?:(?:[a-z]+(?:[- ][a-z]+)?|of (?:the|our|their|her|his|my))\s+){0,3}\Z")
_COUNT_STOP = re.compile(
    r"\b(?:and|or|with|in|at|on|for|by|from|per|images?|pics|finals|shots|looks|portraits?|days?|locations?|"
    r"products|to|of the (?:pics|images|"
    r"shots)|a|an|the|is|are|was|headshots?)\b"
)
#: "an athlete and her coach", "grandad teaching his grandson".
_JOINED = re.compile(r"\)?\s(?:and|\+|&|[a-z]{2,}ing|w/|with)\s(?:(?:her|his|their|an?)\s)?")
_JOINED_ON = re.compile(r"\)?\s(?:and|\+|&|w/|with)\s(?:(?:her|his|their|an?|two|three|four|five|six|\d{1,2})\s)?")
_IN_FRAME = re.compile(
    r"\s(?:[a-z]+\s){0,2}?(?:in the (?:\w+ )?(?:background|foreground|doorway|window|rain|mirror|corner|frame|middle|"
    r"distance|sun|snow|water|door|back|wind)|from (?:behind|above|the back|below)|mid-\w+|blurred|out of focus|"
    r"in (?:silhouette|profile))\b|,\s\d{1,2}(?:-\d{1,2})?,\s[a-z]{2,}ing\b"
)
_SEEN = re.compile(r"\b(?:we see|see|seeing|with both|both)\s(?:the |her |his |an? |their |only )*\Z")
_ROW = re.compile(r"\s*(?:,|\+|&|\band\b|,\s?and)\s*(?:an? |the |one |their |her |his )?")
#: "a team shot", "22 staff portraits": the number belongs to the pictures.
_OF_PICTURES = re.compile(r"\s?(?:portraits?|headshots?|shots?|photos?|pictures?|pics?|images?)\b")
_COUNT_BEHIND = re.compile(
    r"\s?(?:x|:|=|(?=\d))\s?(?P<n>\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)\b(?=\s*(?:$|"
    r"[,;.)(+]|and\b|both\b|one\b|supplied|booked|cast|from\b|via\b|tbc))"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], *, opening: bool = False) -> list[Draft]:
    """Return the people of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    opening : bool
        Whether this is the first sentence, which rather says who calls.

    Returns
    -------
    list of Draft
        Drafts of kind `person`; `minor` is None where nothing was said about the age.

    References
    ----------
    England: Family Law Reform Act 1969 s.1; Education Act 1996 s.8. Other countries differ.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("two runners, he's 16").sentences[0]
    >>> [(d.value.role, d.value.count, d.value.age, d.value.minor) for d in read(line, package_lexicons().hits(line))]
    [('runners', 2, None, None), ('', None, 16, True)]
    """
    text = sentence.text
    phrases = [hit for hit in hits.get("person", ()) if sentence.is_free(hit.start, hit.end)]
    found = ages.read(sentence, phrases)
    counts = [q for q in quantities(text) if not any(q.start < a.end and a.number_start < q.end for a in found)]
    drafts: list[Draft] = []
    left = list(found)
    last_end = -1
    for hit in sorted(phrases, key=lambda phrase: phrase.start):
        words = text[hit.start : hit.end]
        if _NO.search(text[: hit.start]) or _is_somebody_elses(text, phrases, hit):
            continue
        count, start, end = _count(sentence, counts, hit)
        age = next((a for a in left if a.of is hit), None) or _age_of(sentence, left, hit, count)
        own = age is not None and bool(hit.entry.data.get("minor"))  # "family of 4, kids 5 & 9"
        if age and age.of is hit and end > hit.end and start == hit.start:
            count, end = None, hit.end  # "her kids 4 and 6": ages, no number of them
        if count is None and not own and _apposed(sentence, hit, last_end):
            # "two riders, both adults (28 and 34)": the ages are those of the people before.
            if age and isinstance(drafts[-1].value, PersonValue) and drafts[-1].value.age is None:
                left.remove(age)
                drafts[-1] = _aged(sentence, drafts[-1], age)
            continue
        joined = last_end >= 0 and _JOINED.fullmatch(text[last_end : hit.start])
        if not (age or joined or _is_subject(sentence, hits, hit, count, opening=opening)):
            continue
        if age:
            left.remove(age)
            sentence.claim(age.number_start, age.end)
            end = max(end, age.end)
        if count is not None and not _OF_PICTURES.match(text, hit.end):
            sentence.claim(start, hit.start) if start < hit.start else sentence.claim(hit.end, end)
        drafts.append(_person(sentence, hit, words, count, age, start, end))
        last_end = end
    drafts += [_somebody(sentence, age) for age in left]
    if sentence.topic == "people":
        drafts += people_unsaid.under_label(sentence, drafts)
    drafts += people_unsaid.at_school(sentence, hits, drafts) + people_unsaid.portrayed(sentence, drafts)
    return people_unsaid.without_break_down(sorted(drafts, key=lambda draft: draft.span), sentence)


#: "real customers, four of them", "ballet dancers, 3, all over 18".
_OF_THEM = re.compile(
    r",?\s(?:about |maybe )?(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten|twelve) of them\b"
)
_ASIDE = re.compile(r",\s(?P<n>\d|1[0-2])(?=\s?,\s?(?:all|both|over|adults?)\b)")
_OTHER_PERSON = re.compile(
    r"\b(?:and (?:a|an|the|her|his|their)|brother|sister|friend|mum|dad|mother|father|model|models|daughter|son|kids?|"
    r"girl|boy|wife|husband|brand|company|shop)\b"
)
_IS_THE = re.compile(r"\s(?:is|are|=|will be)\s(?:the |her |his |their |our |a |an |[a-z]+'s )*")


def _is_somebody_elses(text: str, phrases: Sequence[Hit], hit: Hit) -> bool:
    """Return whether words only lead to a person named right behind: "model is the weaver's granddaughter"."""
    behind = text[hit.end :]
    for other in phrases:
        gap = text[hit.end : other.start] if other.start >= hit.end else None
        if gap is None or len(gap) > 40:
            continue
        if (text[hit.start : hit.end].endswith("'s") or behind.startswith("'s")) and re.fullmatch(r"(?:'s)?\s", gap):
            return True
        if _IS_THE.fullmatch(gap):
            return True
    return False


def _person(
    sentence: Sentence, hit: Hit, words: str, count: int | None, age: Age | None, start: int, end: int
) -> Draft:
    minor = True if hit.entry.data.get("minor") else None
    years = age.ages if age else ()
    if age:
        minor = age.under or min(years) < ADULT
    youngest = min(years, default=None)
    if count is None and age and len(years) > 1 and not _SPREAD.search(sentence.text[age.start : age.end]):
        count = len(years)
    school = bool(re.search(r"school|pupil", words)) or bool(youngest is not None and 4 < youngest < SCHOOL_UNTIL)
    code = ReasonCode.PERSON_WORD if not age else ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE
    params = (("word", words),) if not age else (("word", words), ("words", sentence.text[age.start : age.end]))
    crew = bool(hit.entry.data.get("crew"))
    value = PersonValue(words, count, youngest, minor, school_age=school, crew=crew, ages=years)
    return Draft(
        DraftKind.PERSON, value, sentence.span(start, end), sentence.line_no, Reason(code, params), confirm=bool(minor)
    )


_SPREAD = re.compile(r"\d\s?-\s?\d|\bto\b|\bor\b|\bbetween\b")


def _aged(sentence: Sentence, draft: Draft, age: Age) -> Draft:
    value = draft.value
    if not isinstance(value, PersonValue):
        return draft
    sentence.claim(age.number_start, age.end)
    youngest = min(age.ages, default=None)
    minor = age.under or (youngest is not None and youngest < ADULT)
    school = youngest is not None and 4 < youngest < SCHOOL_UNTIL
    code = ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE
    words = sentence.text[age.start : age.end]
    return replace(
        draft,
        value=replace(value, age=youngest, ages=age.ages, minor=minor, school_age=value.school_age or school),
        span=Span(draft.span.start, sentence.offset + age.end),
        reason=Reason(code, (("word", value.role), ("words", words))),
        confirm=minor,
    )


def _somebody(sentence: Sentence, age: Age) -> Draft:
    """Somebody of whom the sentence only says how old they are."""
    sentence.claim(age.number_start, age.end)
    youngest = min(age.ages, default=None)
    minor = age.under or (youngest is not None and youngest < ADULT)
    school = youngest is not None and 4 < youngest < SCHOOL_UNTIL
    spread = _SPREAD.search(sentence.text[age.number_start : age.end])
    count = len(age.ages) if len(age.ages) > 1 and not spread else None
    return Draft(
        DraftKind.PERSON,
        PersonValue("", count, youngest, minor, school_age=school, ages=age.ages),
        sentence.span(age.start, age.end),
        sentence.line_no,
        Reason(ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE, (("words", sentence.text[age.start : age.end]),)),
        confirm=minor,
    )


def _count(sentence: Sentence, counts: Sequence[Quantity], hit: Hit) -> tuple[int | None, int, int]:
    text = sentence.text
    words = text[hit.start : hit.end]
    plural = stem(words.split()[-1]) != words.split()[-1] or words.split()[-1] in (
        "people",
        "talent",
        "staff",
        "children",
    )
    for quantity in reversed(counts):
        gap = text[quantity.end : hit.start]
        if quantity.end > hit.start:
            continue
        many = quantity.maximum or quantity.minimum
        free = all(
            not (quantity.start < taken.end and taken.start < quantity.end) for taken in sentence.claimed
        ) or bool(_OF_PICTURES.match(text, hit.end))
        if len(gap.split()) <= 3 and _COUNT_GAP.match(gap) and not _COUNT_STOP.search(gap) and free:
            if (many and many > 1 and not plural) or re.search(
                r"\b(?:year|age|aged|size|group|grade|class|level|under|over)\s?\Z", text[: quantity.start]
            ):
                break
            return many, quantity.start, hit.end
        break
    if words.endswith(" of") and (size := re.match(r"\s(\d{1,2}|[a-z]+)\b", text[hit.end :])) and number(size[1]):
        return number(size[1]), hit.start, hit.end + size.end()  # "family of 4"
    behind = _OF_THEM.match(text, hit.end) if plural else None
    if behind is None and plural and hit.code not in ("child", "boy", "relative") and not hit.entry.data.get("minor"):
        behind = _ASIDE.match(text, hit.end)
    behind = behind or _COUNT_BEHIND.match(text, hit.end)
    if behind and not (plural or re.match(r"\s?[x:=]", behind.group())):
        behind = None
    if behind and sentence.is_free(behind.start("n"), behind.end("n")):
        return number(behind["n"]), hit.start, behind.end("n")
    if not plural and re.search(r"\b(?:an?|one|1)\s+(?:[a-z]+[\s-]){0,2}\Z", text[: hit.start]):
        return 1, hit.start, hit.end
    return None, hit.start, hit.end


def _age_of(sentence: Sentence, left: Sequence[Age], hit: Hit, count: int | None) -> Age | None:
    """Find the age said of a person a little later: "her nephew, he's 16", "two riders, both adults (28 and 34)"."""
    words = sentence.text[hit.start : hit.end]
    plural = (count or 0) > 1 or (count is None and stem(words) != words)
    for age in left:
        gap = sentence.text[hit.end : age.start]
        if (
            age.of is not None
            or age.start < hit.end
            or len(gap) > (70 if age.alone in ("they", "both") or not age.alone else 30)
        ):
            continue
        child = hit.code in ("relative", "boy", "child") and not plural
        if child and not age.alone and not _OTHER_PERSON.search(gap):
            return age  # "their son Otis might run along the beach - 8 yrs old"
        if age.alone.startswith("one") or (age.alone and (age.alone in ("they", "both")) != plural):
            continue
        if len(gap) > 30 and age.alone not in ("they", "both"):
            continue
        if (
            age.alone in ("they", "both") or re.fullmatch(r"[\s,;:(-]*(?:(?:[a-z']+\s){0,3}[a-z']*)[\s,:(-]*", gap)
        ) and not re.search(r"\b(?:and|with|plus)\b", gap):
            return age
    return None


def _apposed(sentence: Sentence, hit: Hit, last_end: int) -> bool:
    """Return whether this only says more about the person before it: "four adults, experienced paddlers"."""
    if last_end < 0:
        return False
    gap = sentence.text[last_end : hit.start]
    words = sentence.text[hit.start : hit.end].split()[-1]
    if "(" not in gap and stem(words) == words and words not in ("people", "men", "women"):
        return False
    return bool(re.fullmatch(r"\s?[,(:-]\s?(?:[a-z']+[\s-]){0,3}", gap)) and not re.search(
        r"\b(?:and|with|plus|or|their (?:kids|children))\b", gap
    )


def _is_subject(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, count: int | None, *, opening: bool) -> bool:
    text = sentence.text
    if hit.entry.data.get("crew"):
        return True
    if sentence.topic in ("approver", "payer", "props", "negatives"):
        return False
    if text[hit.start : hit.end].endswith("'s") and not re.match(
        r"\s(?:hands?|portraits?|face|eyes|team)\b", text[hit.end :]
    ):
        return False
    if _FOR_SIZES.search(text[: hit.start]):
        return False
    if _NOT_THEM.match(text, hit.end) or _EXPENSE.search(text[: hit.start]):
        return False
    if count is None and any(hit.end <= use.start <= hit.end + 2 for use in hits.get("placement", ())):
        return False  # "brides mag ads"
    if re.fullmatch(r"\s*(?:talent|models?|cast|people|who)", text[: hit.end]) and re.match(
        r"\s*(?:[:=-]|\d)", text[hit.end :]
    ):
        return False
    if (
        hit.code == "founder"
        and re.search(r"\bof (?:the )?\Z", text[: hit.start])
        and not _SUBJECT.search(text[: hit.start])
    ):
        return False
    generic = any(h.start <= hit.start and hit.end <= h.end for h in hits.get("persongeneric", ()))
    if (generic and count is None and re.match(r"\s?:", text[hit.end :])) or re.match(
        r"\s?/[a-z]+\s(?:details?|shots?|close)", text[hit.end :]
    ):
        return False
    if sentence.topic == "people" or _in_a_row(text, hits, hit):
        return True
    clause = sentence.clause(hit.start, hit.end)
    near = text[clause.start : hit.start]
    everybody = bool(_ALL_IN_IT.search(text))
    cued = (
        everybody
        or bool(_WITH.search(text[: hit.start]))
        or bool(_SUBJECT.search(near))
        or bool(_AT_IT.match(text, hit.end))
        or bool(_IN_FRAME.match(text, hit.end))
        or bool(_SEEN.search(text[: hit.start]))
        or _leads_on(text, hits, hit)
    )
    asked = re.match(r"\s?(?:who\s)?(?:all\s)?needs? (?:headshots|portraits|pics|photos|pictures)", text[hit.end :])
    if asked:
        return True
    intro = hit.code in ("maker", "founder", "team", "woman") and (count in (None, 1) or hit.code in ("team", "woman"))
    if opening and intro and not cued:
        return False
    if hit.code == "relative" and _with_kin(hits, hit):
        return True
    if hit.code in ("founder", "relative", "team") or generic:
        if (
            hit.code in ("founder", "relative")
            and re.search(r"\b(?:of|for|by|from|to)\s+(?:the |her |his )?\Z", near)
            and not re.search(
                r"\b(?:portraits?|headshots?|photos?|pics?|pictures?|shots?|images?)\s(?:of|with)\s(?:the |"
                r"her |his )?\Z",
                near,
            )
        ):
            return False
        if _AUDIENCE.search(text[: hit.start]) and not re.search(
            r"\b(?:portraits?|headshots?|photos?|pics?|pictures?|shots?|images?)\s(?:of|for)\s", near
        ):
            return False
        many = (count or 0) > 1 or (generic and text[hit.start : hit.end] != "person")
        made_by = re.search(r"\b(?:by|generations of) (?:the |our |their )?(?:\w+ )?\Z", text[: hit.start])
        return cued or (count is not None and hit.code != "founder" and not made_by and many)
    return cued or not (
        (_AUDIENCE.search(text[: hit.start]) and count is None) or re.search(r"\bgenerations of \Z", text[: hit.start])
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


def without_doubles(drafts: Sequence[Draft]) -> list[Draft]:
    """Return the people of all notes without later mentions of the same ("models booked by us").

    Parameters
    ----------
    drafts : sequence of Draft
        Drafts of kind `person` in order.

    Returns
    -------
    list of Draft
        Each role once; a mention with a number or an age is preferred.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> without_doubles([])
    []
    """
    kept: list[Draft] = []
    for draft in drafts:
        value = draft.value
        if not isinstance(value, PersonValue):
            continue
        if not value.role and value.age is None and value.school_age:
            near = next((other for other in reversed(kept) if _may_be_at_school(other, draft)), None) or next(
                (other for other in kept if isinstance(other.value, PersonValue) and other.value.minor), None
            )
            if near is not None and isinstance(near.value, PersonValue):
                kept[kept.index(near)] = replace(near, value=replace(near.value, school_age=True, minor=True))
                continue
        role = stem(value.role.split()[-1]) if value.role else ""
        same = next(
            (
                other
                for other in kept
                if role
                and isinstance(other.value, PersonValue)
                and other.value.role
                and stem(other.value.role.split()[-1]) == role
            ),
            None,
        )
        if same is None:
            kept.append(draft)
        elif isinstance(same.value, PersonValue) and value.age is None and value.count is None:
            continue
        elif isinstance(same.value, PersonValue) and same.value.count is None and same.value.age is None:
            kept[kept.index(same)] = draft
        else:
            kept.append(draft)
    return kept


def _may_be_at_school(person: Draft, at_school: Draft) -> bool:
    """Return whether "out of school at three" says more about somebody named on the line or just before it."""
    value = person.value
    if not isinstance(value, PersonValue) or not 0 <= at_school.line_no - person.line_no <= 1:
        return False
    return value.minor is True or (value.age is not None and value.age <= ADULT)
