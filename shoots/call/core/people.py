"""People in the pictures, and what follows when one of them is under 18."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core import ages, people_cues, people_unsaid
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
_COUNT_GAP = re.compile(r"\s*(?:x\s)?(?:(?:[a-z]+(?:[- ][a-z]+)?|of (?:the|our|their|her|his|my))\s+){0,3}\Z")
_COUNT_STOP = re.compile(
    r"\b(?:and|or|with|w|in|at|on|for|by|from|per|images?|pics|finals|shots|looks|portraits?|days?|locations?|"
    r"products|to|of the (?:pics|images|"
    r"shots)|a|an|the|is|are|was|headshots?)\b"
)
#: "two of the staff".
_OF_THE = re.compile(r"\A\s?of (?:the|our|their|her|his|my) ")
#: "an athlete and her coach", "grandad teaching his grandson".
_JOINED = re.compile(r"\)?\s(?:and|an|n|\+|&|[a-z]{2,}ing|w/|with)\s(?:(?:her|his|their|an?)\s)?")
#: "a team shot", "22 staff portraits": the number belongs to the pictures.
_OF_PICTURES = re.compile(r"\s?(?:portraits?|headshots?|shots?|photos?|pictures?|pics?|images?)\b")
_COUNT_BEHIND = re.compile(
    r"\s?(?:x|:|=|(?=\d))\s?(?P<n>\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)x?\b(?=\s*(?:$|"
    r"[,;.)(+/]|and\b|both\b|one\b|supplied|booked|cast|from\b|via\b|tbc))"
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
    label = people_cues.LABEL.match(text)
    if not sentence.topic and label:
        sentence.topic = "people"
    phrases = [hit for hit in hits.get("person", ()) if sentence.is_free(hit.start, hit.end)]
    found = ages.read(sentence, phrases, hits.get("firstname", ()))
    counts = [q for q in quantities(text) if not any(q.start < a.end and a.number_start < q.end for a in found)]
    drafts: list[Draft] = []
    left = [age for age in found if not _is_a_size(text, hits, age)]
    last_end, listing, also = -1, False, ""
    if not sentence.topic and _NONE_OF_IT.match(text):
        phrases = []
    for hit in sorted(phrases, key=lambda phrase: phrase.start):
        words = text[hit.start : hit.end]
        if _is_somebody_elses(text, phrases, hit):
            also = words
            continue
        if _NO.search(text[: hit.start]) or _is_no_one(text, hits, hit):
            continue
        if last_end >= 0 and _EXPLAINED.search(text[: hit.start]) and not any(a.of is hit for a in left):
            continue  # "a mum with baby (the receptionist's daughter)"
        if drafts and words in ("woman", "man", "girl", "boy") and text[: hit.start].endswith("the "):
            continue  # "a couple in bed, the woman reading"
        if _is_surname(sentence, hits, hit):
            continue
        if last_end >= 0 and (_WHO_IS_A.search(text[: hit.start]) or _does_it_too(text, hit, last_end)):
            continue
        count, start, end = _count(sentence, counts, hit)
        if count is None and label and hit.end <= label.end() and (len(phrases) > 1 or found):
            continue  # "riders - Tom 14, Isla 16"
        age = next((a for a in left if a.of is hit), None) or _age_of(sentence, left, phrases, hit, count)
        if age and people_cues.is_asked(text, hit.end):
            left.remove(age)
            continue
        own = age is not None and bool(hit.entry.data.get("minor"))  # "family of 4, kids 5 & 9"
        if age and age.of is hit and hit.end < end <= age.end and start == hit.start:
            count, end = None, hit.end  # "her kids 4 and 6": ages, no number of them
        if listing or (count is None and not own and _apposed(sentence, hit, last_end)):
            # "two riders, both adults (28 and 34)": the ages are those of the people before.
            before = drafts[-1].value
            if age and isinstance(before, PersonValue) and (listing or before.age is None):
                left.remove(age)
                drafts[-1] = _aged(sentence, drafts[-1], age)
            continue
        if (
            _SAYS_MORE.search(text[: hit.start])
            and (last_end >= 0 or "one of" in text or "everyone" in text)
            and not age
        ):
            continue
        joined = last_end >= 0 and _JOINED.fullmatch(text[last_end : hit.start])
        if not (
            age or joined or people_cues.is_subject(sentence, hits, hit, count, opening=opening, last_end=last_end)
        ):
            continue
        if age:
            left.remove(age)
            sentence.claim(age.number_start, age.end)
            end = max(end, age.end)
            if count is None and (times := _TIMES.match(text, age.end)):
                count = int(times["n"])  # "nippers 9-12yo x5"
        if count is not None and not _OF_PICTURES.match(text, hit.end):
            sentence.claim(start, hit.start) if start < hit.start else sentence.claim(hit.end, end)
        drafts.append(_person(sentence, hit, words, count, age, start, end))
        if also:
            reason = drafts[-1].reason
            drafts[-1] = replace(drafts[-1], reason=replace(reason, params=(*reason.params, ("also", also))))
            also = ""
        last_end = end
        listing = (count or 0) > 1 and text[hit.end : hit.end + 2] == ": "  # "2 hikers: her roommate (26) + a guy"
    drafts += people_unsaid.at_school(sentence, hits, drafts) + people_unsaid.portrayed(sentence, drafts)
    drafts += people_unsaid.at_work(sentence, hits, drafts) + people_unsaid.shown(sentence, hits, drafts)
    for age in [age for age in left if age.alone in ("oldest", "youngest", "eldest") and drafts]:
        left.remove(age)  # "10 fighters, oldest 34, youngest 14"
        drafts[-1] = _aged(sentence, drafts[-1], age)
    drafts += people_unsaid.counted_with_ages(sentence, hits, drafts)
    counted = any(isinstance(d.value, PersonValue) and (d.value.count or 0) > 1 for d in drafts)
    for age in left:
        if not age.loose and not (counted and age.alone in ("who", "one") and min(age.ages, default=0) >= ADULT):
            drafts.append(_somebody(sentence, age))
    if sentence.topic == "people":
        drafts += people_unsaid.under_label(sentence, drafts)
    return people_unsaid.without_break_down(sorted(drafts, key=lambda draft: draft.span), sentence)


#: "cast of 9, two of those are kids".
_OF_THOSE = re.compile(r"\b(?P<n>\d|two|three|four|five|six) of (?:those|them|whom|which) (?:are|being) \Z")
#: "crew of 8", "school group of 20", "staff (6)".
_GROUP_OF = re.compile(
    r"(?:(?<=crew)|(?<=team)|(?<=group)|(?<=class)|(?<=gang)|(?<=party)|(?<=band)|(?<=squad)|(?<=choir)|(?<=family)|"
    r"(?<=cast))"
    r"\sof\s(?:about |around )?(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|thirty)\b"
)


def _so_many(hit: Hit, words: str) -> bool:
    """Return whether a number in brackets counts people: not "twins (6)"."""
    return words != "twins" and hit.code not in ("child", "boy", "relative") and not hit.entry.data.get("minor")


#: "no faces of the two lads at the back".
_NONE_OF_IT = re.compile(r"\s*(?:no|never|not|nobody|without|don'?t)\s(?!\d)(?![^.;]*\b(?:but|just|only)\b)")
#: "regulars (12ish)".
_IN_BRACKETS = re.compile(r"\s?\((?P<n>\d{1,2})(?=(?:ish|-ish)?\))")
#: "real customers, four of them", "ballet dancers, 3, all over 18".
_OF_THEM = re.compile(
    r"(?:\swill be [a-z ]{3,30}|[^.;]{3,30}\bthere(?:'s| are| is))?,?\s(?:about |maybe )?"
    r"(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten|twelve) of them\b"
)
_ASIDE = re.compile(r",\s(?P<n>\d|1[0-2])(?=\s?,\s?(?:all|both|over|adults?)\b)")
_OTHER_PERSON = re.compile(
    r"\b(?:and (?:a|an|the|her|his|their)|brother|sister|friend|mum|dad|mother|father|model|models|daughter|son|kids?|"
    r"girl|boy|wife|husband|brand|company|shop)\b"
)
_MODELS = re.compile(
    r"\b(?:sister|brother|daughter|son|mum|mother|friend|wife|husband|niece|nephew|cousin|she|he|who)\s\Z"
)
#: "Three models, one of them a wheelchair user", "two of the staff will be the guests", "eight, all adults".
_SAYS_MORE = re.compile(
    r"(?:\bone of (?:them|whom|the [a-z]+|[a-z]+)(?: is)?(?: an?| the| her)?(?: [a-z]+'?s?)?|\bwill be the|\bas the|"
    r"\b(?:all|both|are|therefore|they're|over|be)(?: [a-z]+)?|\beveryone (?:is|was) an)\s\Z"
)
_IS_THE = re.compile(
    r"(?:\s(?:[a-z ]{3,14} )?(?:is|are|=|would be)|:)\s(?:the |her |his |their |our |a |an |retired |own |[a-z]+'s )*"
)
_UP_TO = re.compile(r"\bages? \d{1,2}\s?-\s?\d{1,2} (?:up )?to (?:age )?\d")
#: "a girl of nine, who is his niece".
_WHO_IS_A = re.compile(r"\bwho(?:'s| is| are) (?:also )?(?:his|her|their|our|my|the)\s\Z")
_EXPLAINED = re.compile(r"\((?:the )?(?:[a-z]+'s|her|his|their)\s\Z")
_TIMES = re.compile(r"\s?x\s?(?P<n>\d{1,2})\b")
_COUNTED = re.compile(r"(?:\d|\b(?:two|three|four|five|six|seven|eight|nine|ten))\s(?:[a-z]+\s)?\Z")


def _is_surname(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether a trade in capitals behind a first name is a name: "Anna Cook"."""
    if not sentence.raw[hit.start].isupper() or sentence.raw.isupper():
        return False
    return any(name.end + 1 == hit.start for name in hits.get("firstname", ()))


def _does_it_too(text: str, hit: Hit, last_end: int) -> bool:
    """Return whether a relative is the one just named by what he does: "one rider, her mate Tess rides"."""
    if hit.code not in ("relative", "kin") or not re.fullmatch(
        r",\s(?:her|his|their|my)\s", text[last_end : hit.start]
    ):
        return False
    role = re.search(r"\b([a-z]{3,}?)(?:er|or|ist)s?\s?\Z", text[:last_end])
    return role is not None and bool(re.match(rf"\s(?:[a-z]+\s)?{role[1]}e?s\b", text[hit.end :]))


def _is_no_one(text: str, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether the word stands for nobody here: "her sister models", "holding hands", "kids' bee suits"."""
    words = text[hit.start : hit.end]
    if words == "models" and _MODELS.search(text[: hit.start]):
        return True
    if words == "diner" and not re.match(r"\s(?:with\b|at\b|in\b|[a-z]{2,}ing\b)", text[hit.end :]):
        return True  # a place
    if words in ("hands", "hand") and not people_cues.are_hands_seen(text, hit.start, hit.end):
        return True
    return words.endswith("s") and bool(re.match(r"'\s(?!hands|portrait|face)", text[hit.end :]))


def _is_a_size(text: str, hits: dict[str, list[Hit]], age: Age) -> bool:
    """Return whether years say whom a thing fits: "kids' bee suits age 5-12"."""
    if age.of is None and not age.alone and not hits.get("person") and _UP_TO.search(text):
        return True  # "age 5-6 up to age 13"
    if age.alone or (age.of is not None and text[age.of.end : age.of.end + 1] != "'"):
        return False
    return any(0 <= age.number_start - thing.end < 12 for thing in hits.get("product", ()))


def _is_somebody_elses(text: str, phrases: Sequence[Hit], hit: Hit) -> bool:
    """Return whether words only lead to a person named right behind: "model is the weaver's granddaughter"."""
    behind = text[hit.end :]
    for other in phrases:
        gap = text[hit.end : other.start] if other.start >= hit.end else None
        if gap is None or len(gap) > 40:
            continue
        if (text[hit.start : hit.end].endswith("'s") or behind.startswith("'s")) and re.fullmatch(r"(?:'s)?\s", gap):
            return True
        if _IS_THE.fullmatch(gap) and not (":" in gap and _COUNTED.search(text[: hit.start])):
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
    value = PersonValue(words.removesuffix("'s"), count, youngest, minor, school_age=school, crew=crew, ages=years)
    return Draft(
        DraftKind.PERSON, value, sentence.span(start, end), sentence.line_no, Reason(code, params), confirm=bool(minor)
    )


_SPREAD = re.compile(r"\d\s?-\s?\d|\bto\b|\bor\b|\bbetween\b")


def _aged(sentence: Sentence, draft: Draft, age: Age) -> Draft:
    value = draft.value
    if not isinstance(value, PersonValue):
        return draft
    sentence.claim(age.number_start, age.end)
    years = tuple(sorted({*value.ages, *age.ages}))
    youngest = min(years, default=None)
    minor = age.under or (youngest is not None and youngest < ADULT)
    school = youngest is not None and 4 < youngest < SCHOOL_UNTIL
    code = ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE
    words = sentence.text[age.start : age.end]
    return replace(
        draft,
        value=replace(value, age=youngest, ages=years, minor=minor, school_age=value.school_age or school),
        span=Span(draft.span.start, max(draft.span.end, sentence.offset + age.end)),
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
        PersonValue(age.name, count, youngest, minor, school_age=school, ages=age.ages),
        sentence.span(age.start, age.end),
        sentence.line_no,
        Reason(ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE, (("words", sentence.text[age.start : age.end]),)),
        confirm=minor,
    )


def _count(sentence: Sentence, counts: Sequence[Quantity], hit: Hit) -> tuple[int | None, int, int]:
    text = sentence.text
    words = text[hit.start : hit.end]
    staff = words in ("team", "crew") and bool(re.match(r"\s(?:headshots|portraits)\b", text[hit.end :]))
    plural = (
        staff
        or stem(words.split()[-1]) != words.split()[-1]
        or words.split()[-1]
        in (
            "people",
            "talent",
            "staff",
            "children",
        )
    )
    for quantity in reversed(counts):
        gap = text[quantity.end : hit.start]
        if quantity.end > hit.start:
            continue
        many = quantity.maximum or quantity.minimum
        free = all(
            not (quantity.start < taken.end and taken.start < quantity.end) for taken in sentence.claimed
        ) or bool(_OF_PICTURES.match(text, hit.end))
        if len(gap.split()) <= 3 and _COUNT_GAP.match(gap) and not _COUNT_STOP.search(_OF_THE.sub("", gap)) and free:
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
    if behind is None and hit.code != "relative" and (group := _GROUP_OF.match(text, hit.end)):
        return number(group["n"]), hit.start, group.end("n")
    behind = (
        behind
        or (_IN_BRACKETS.match(text, hit.end) if plural and _so_many(hit, words) else None)
        or _COUNT_BEHIND.match(text, hit.end)
    )
    if behind and not (plural or behind["n"] == "1" or re.match(r"\s?[x:=]", behind.group())):
        behind = None
    if behind and sentence.is_free(behind.start("n"), behind.end("n")):
        return number(behind["n"]), hit.start, behind.end("n")
    if words == "twins":
        return 2, hit.start, hit.end
    if plural and (part := _OF_THOSE.search(text[: hit.start])):
        return number(part["n"]), hit.start, hit.end
    if not plural and re.search(
        r"\b(?:an?|one|1) (?:portrait|picture|headshot|photo) of (?:his|her|their) (?:[a-z]+ )?\Z", text[: hit.start]
    ):
        return 1, hit.start, hit.end
    if not plural and re.search(r"\b(?:an?|one|1)\s+(?:[a-z]+[\s-]){0,2}\Z", text[: hit.start]):
        return 1, hit.start, hit.end
    return None, hit.start, hit.end


def _age_of(sentence: Sentence, left: Sequence[Age], hits: Sequence[Hit], hit: Hit, count: int | None) -> Age | None:
    """Find the age said of a person a little later: "her nephew, he's 16", "two riders, both adults (28 and 34)"."""
    words = sentence.text[hit.start : hit.end]
    plural = (count or 0) > 1 or (count is None and stem(words) != words)
    for age in left:
        gap = sentence.text[hit.end : age.start]
        if (
            age.of is not None
            or age.name
            or age.start < hit.end
            or len(gap) > (70 if age.alone in ("they", "both") or not age.alone else 30)
        ):
            continue
        other = any(hit.end <= o.start < age.start and o.code != "model" for o in hits)
        if age.loose:
            if not plural and not other and len(gap) <= 30:
                return age  # "one model with freckles, around fifty"
            continue
        child = hit.code in ("relative", "boy", "child") and not plural
        if child and not age.alone and not _OTHER_PERSON.search(gap):
            return age  # "their son Otis might run along the beach - 8 yrs old"
        if plural and not age.alone and not other and hit.entry.data.get("minor") and len(gap) <= 30:
            return age  # "pupils from Year 5, so nine and ten year olds"
        if age.alone.startswith("one") or (age.alone and (age.alone in ("they", "both")) != plural):
            continue
        if len(gap) > 30 and age.alone not in ("they", "both"):
            continue
        if (
            age.alone in ("they", "both") or re.fullmatch(r"[\s,;:(-]*(?:(?:[a-z']+\s){0,5}[a-z']*)[\s,:(-]*", gap)
        ) and not re.search(r"\b(?:and|plus)\b" if age.alone in ("he", "she") else r"\b(?:and|with|plus)\b", gap):
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
