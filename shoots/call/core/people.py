"""People in the pictures, their ages, and what follows when one of them is under 18."""

from __future__ import annotations

import re

from shoots.call.core.drafts import Draft, DraftKind, ImpliedValue, PersonValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import NUMBER_WORD, number, quantities
from shoots.call.core.spans import Sentence

#: A person younger than this cannot sign: a guardian does (Family Law Reform Act 1969 s.1). [years]
ADULT = 18
#: Somebody younger than this is of compulsory school age in England without looking at the calendar
#: (Education Act 1996 s.8: until the last Friday in June of the school year of the sixteenth birthday). [years]
SCHOOL_UNTIL = 16

_AGE = re.compile(
    rf"(?:\b(?:he|she|they|i|who|both|daughter|son|girl|boy|kid|lad|[a-z]+)(?:'s|'re| is| are| turns| will be)\s(?:only |just |about |nearly |almost |still |turning )?(?P<a>\d{{1,2}}|{NUMBER_WORD})(?= ?(?:$|[,;.!?)(-]|and\b|so\b|but\b|years? old|yrs? old|yo\b|y/o|in\b|now\b|next\b|this\b|or\b|at\b|which|who|years old))"
    rf"|\bage[ds]?:?\s(?:about |around |between )?(?P<b>\d{{1,2}})(?:\s?(?:-|to|and|&|or)\s?(?P<b2>\d{{1,2}}))?"
    rf"|(?<![\w.£$€])(?P<c>\d{{1,2}}|{NUMBER_WORD})(?:\s?(?:-|to|and|&)\s?(?P<c2>\d{{1,2}}))?[ -]?(?:yo\b|y/o\b|y\.o\.?|yrs?[ -]old|years?[ -]old|year[ -]olds?|year-old)s?"
    r"|\b(?:kids?|children|boys?|girls?|daughters?|sons?|teens?|teenagers?|toddlers?|nephews?|nieces?|grandson|granddaughter|models?|runners?|siblings|twins|pupils?|students?)\s?(?:,|\(|-|of)?\s?(?:aged? )?(?P<d>\d{1,2})(?:\s?(?:-|to|and|&|/|,)\s?(?P<d2>\d{1,2}))?(?=\s?(?:$|[),;.]|and\b|yrs|years|or so|-ish|ish)(?!\s?(?:images|pics|looks)))"
    r"|\b[a-z]{2,12}\s?(?:,\s?|\()(?P<e>\d{1,2})(?=\)|,|$| (?:and|&) [a-z]+,? \(?\d))"
    r"|\bunder[ -]?(?P<f>1[0-8])s?\b"
)
_NOT_AGE_AFTER = re.compile(
    r"\s?-?(?:year[ -]old|years?[ -]old|yrs? old|yo)?s?\s?(?:whisky|whiskey|rum|malt|scotch|single malt|company|business|brand|firm|bakery|brewery|oak|tree|house|building|mill|recipe|cheese|cheddar|shop|family business|wine|vintage|balsamic|port\b|cask|starter|sourdough|vines?|barn|van|pub|distillery|label|start-?up|bourbon|cognac|mins?\b|minutes|miles|km\b|m\b|ft\b|foot|feet|hours?|hrs|weeks?|days?|months?|mths|stone|kg|%|k\b|am\b|pm\b|quid|grand|images|pics|shots|finals|looks|of\b|x\b|products|people|models|locations|o'clock|percent|design|camera|lens|jacket|table)"
)
_IT = re.compile(
    r"\b(?:it|that|there|here|what|budget|fee|price|brand|company|recipe|let|which|this|deadline|everything|launch|shoot|call|time|date|size|who|where|total|delivery|range|pack|usage|mood|rate|option|studio|event|finals|images|pics|pictures|shots|products|locations|looks|models|we|you|all|day|number|quote|minimum|max|maximum|both)(?:'s|'re| is| are| will be)"
)
_NO = re.compile(
    r"\b(?:no|without|not|zero|never|don't (?:want|need|use|show)|avoid|instead of|rather than|won't (?:need|use)|doesn't (?:want|need))(?: (?:any|a|an|the|real|to have|show|use|recognisable|other|actual|professional))*\s*\Z"
)
_SUBJECT = re.compile(
    r"\b(?:portraits?|headshots?|photo(?:s|graph)?|pics?|pictures?|shots?|in shot|on camera|featur(?:e|es|ing)|star(?:s|ring)?|in the (?:pics|pictures|shots|images|frame)|model(?:s|led|ling)?|cast(?:ing)?|wear(?:s|ing)?|pos(?:e|es|ing)|appear(?:s|ing)?|to camera|at work|with the|using|holding|drinking|eating|running|laughing|cooking|in it|hero|of|walking|making|pouring|brewing|baking)\b"
)
_GENERIC = frozenset(
    {
        "people",
        "person",
        "adult",
        "local",
        "locals",
        "someone",
        "somebody",
        "extra",
        "extras",
        "partner",
        "partners",
        "customers",
        "customer",
        "guests",
        "friends",
        "family",
        "team",
        "staff",
        "driver",
        "drivers",
        "coach",
        "maker",
        "makers",
        "artist",
        "cook",
        "principal",
        "chair",
        "student",
        "students",
        "visitors",
        "clients",
        "player",
        "players",
        "engineer",
        "engineers",
        "artists",
        "farmer",
        "farmers",
        "growers",
        "grower",
        "chef",
        "man",
        "men",
        "woman",
        "women",
        "guy",
        "guys",
        "parents",
        "mum",
        "dad",
        "mother",
        "father",
        "workers",
        "employees",
        "employee",
        "colleagues",
        "patients",
        "patient",
        "volunteers",
        "volunteer",
        "consultants",
        "associates",
        "regulars",
        "neighbours",
        "wife",
        "husband",
        "brother",
        "sister",
        "brothers",
        "sisters",
        "boss",
        "butcher",
        "baker",
        "potter",
        "tailor",
        "brewer",
        "vet",
        "minor",
        "juniors",
        "junior",
        "youth",
        "ambassador",
        "ambassadors",
        "rider",
        "riders",
        "ladies",
        "lady",
        "shoppers",
        "mums",
        "dads",
        "commuter",
        "commuters",
        "blonde",
        "hands",
        "runner",
    }
)
_FEEL = re.compile(
    r"\b(?:for|to|by|from|lots of|most|some|other|as|if|so|like|ask|tell|told|because|where|that|help|helps|gets?|makes?|let|many|when|what|said|says|call|which|aimed at|target(?:ing)?|audience(?: is)?|sells? to|sold to)\s+(?:the |our |their |some |all )?\Z"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return the people of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

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
    counts = quantities(text)
    drafts: list[Draft] = []
    ages = _ages(sentence)
    for hit in sorted(hits.get("person", ()), key=lambda h: h.start):
        words = text[hit.start : hit.end]
        if not sentence.is_free(hit.start, hit.end) or _NO.search(text[: hit.start]):
            continue
        crew = bool(hit.entry.data.get("crew"))
        if not crew and any(
            hit.start < o.end and o.start < hit.end
            for o in hits.get("person", ())
            if o is not hit and o.entry.data.get("crew")
        ):
            continue
        count, start = None, hit.start
        for quantity in counts:
            gap = text[quantity.end : hit.start]
            if (
                quantity.end <= hit.start
                and len(gap.split()) <= 3
                and re.fullmatch(r"\s*(?:x\s)?(?:(?:[a-z]+(?:[- ][a-z]+)?|of (?:the|our|their))\s+){0,3}", gap)
                and not re.search(
                    r"\b(?:and|or|with|in|at|on|for|by|from|images|pics|finals|shots|looks|portraits|days?|locations?|products)\b",
                    gap,
                )
                and sentence.is_free(quantity.start, quantity.end)
            ):
                count, start = quantity.maximum or quantity.minimum, quantity.start
                sentence.claim(quantity.start, quantity.end)
                break
        if (
            count is None
            and re.search(r"\b(?:an?|one|1)\s+(?:[a-z]+[\s-]){0,2}\Z", text[: hit.start])
            and not re.search(r"(?<!s)s\Z", words)
        ):
            count = 1
        minor = True if hit.entry.data.get("minor") else None
        if not crew and not _is_subject(sentence, hits, hit, words, count, bool(minor)):
            continue
        drafts.append(
            Draft(
                DraftKind.PERSON,
                PersonValue(words, count, None, minor, crew=crew, school_age=bool(re.search(r"school|pupil", words))),
                sentence.span(start, hit.end),
                sentence.line_no,
                Reason(ReasonCode.PERSON_WORD, (("word", words),)),
                confirm=bool(minor),
            )
        )
    drafts += ages
    drafts += _school(sentence, hits, drafts)
    return sorted(drafts, key=lambda draft: draft.span)


def _is_subject(
    sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, words: str, count: int | None, minor: bool
) -> bool:
    text = sentence.text
    if sentence.topic in ("approver", "payer", "props"):
        return False
    if sentence.topic == "people":
        return True
    clause = sentence.clause(hit.start, hit.end)
    near = text[clause.start : hit.start]
    if hit.code == "founder" or words in _GENERIC:
        if (
            hit.code == "founder"
            and re.search(r"\b(?:with the|in it)\b", near) is None
            and not _SUBJECT.search(near)
            and not re.match(
                r"\s?(?:portraits?|headshots?|at work|in shot|in (?:the )?(?:pics|shots|pictures)|pouring|holding|on camera|to camera|wearing)",
                text[hit.end :],
            )
        ):
            return False
        if _FEEL.search(text[: hit.start]) and not re.search(
            r"\b(?:portraits?|headshots?|photos?|pics?|pictures?|shots?|images?)\s(?:of|for)\s", near
        ):
            return False
        return (
            count is not None
            or bool(_SUBJECT.search(near))
            or bool(
                re.match(
                    r"\s?(?:portraits?|headshots?|in shot|wearing|holding|using|at work|pouring|drinking|eating|laughing|cooking|as models?)",
                    text[hit.end :],
                )
            )
            or "real" in near
        )
    if _FEEL.search(text[: hit.start]) and count is None:
        return False
    if (
        hit.code == "couple"
        and re.search(r"\b(?:her|his|my|their|the founder's|owner's)\s+\Z", text[: hit.start])
        and not _SUBJECT.search(text[clause.start : clause.end])
    ):
        return False
    return True


def _ages(sentence: Sentence) -> list[Draft]:
    text = sentence.text
    drafts = []
    for match in _AGE.finditer(text):
        group = next((g for g in "abcdef" if match[g]), "")
        low = number(match[group])
        if low is None or low > 99 or not sentence.is_free(match.start(group), match.end()):
            continue
        if _NOT_AGE_AFTER.match(text, match.end()) or (group == "a" and (_IT.match(match.group()) or low < 2)):
            continue
        if (
            group == "a"
            and not re.match(r"(?:he|she|they|i|who|both|daughter|son|girl|boy|kid|lad)\b", match.group())
            and not _name(sentence, match)
        ):
            continue
        if group == "e" and not _name(sentence, match):
            continue
        if group == "f" and re.search(r"\b(?:no|not|nobody|without)\s*\Z", text[: match.start()]):
            continue
        highs = [number(match.groupdict().get(f"{group}2") or "")]
        age = low if group != "f" else None
        minor = low < ADULT if group != "f" else True
        if (
            minor is False
            and group == "c"
            and re.search(r"\b(?:over|above|since|for|after)\s*\Z", text[: match.start()])
        ):
            continue
        sentence.claim(match.start(group), match.end())
        code = ReasonCode.AGE_UNDER_18 if minor else ReasonCode.AGE
        params = (("words", match.group()), ("age", str(low))) + ((("to", str(highs[0])),) if highs[0] else ())
        drafts.append(
            Draft(
                DraftKind.PERSON,
                PersonValue(
                    "",
                    2 if highs[0] and "and" in match.group() else None,
                    age,
                    minor,
                    school_age=minor and low < SCHOOL_UNTIL and low >= 5,
                ),
                sentence.span(match.start(), match.end()),
                sentence.line_no,
                Reason(code, params),
                confirm=minor,
            )
        )
    return drafts


def _name(sentence: Sentence, match: re.Match[str]) -> bool:
    """A word with a capital that is not the first of the sentence, or the first of a list of names."""
    word = re.match(r"[a-z]+", match.group())
    if not word:
        return False
    raw = sentence.raw[match.start() : match.start() + word.end()]
    everyday = {
        "the",
        "and",
        "page",
        "size",
        "option",
        "version",
        "room",
        "unit",
        "level",
        "day",
        "days",
        "june",
        "july",
        "may",
        "march",
        "april",
        "finals",
        "final",
        "images",
        "pics",
        "shots",
        "shot",
        "total",
        "looks",
        "look",
        "products",
        "product",
        "plan",
        "stage",
        "week",
        "part",
        "number",
        "portraits",
        "heroes",
        "hero",
        "details",
        "packshots",
        "stories",
        "squares",
        "max",
        "min",
        "about",
        "sept",
        "october",
        "january",
        "february",
        "august",
        "september",
        "november",
        "december",
        "monday",
        "tuesday",
        "wednesday",
        "thursday",
        "friday",
        "saturday",
        "sunday",
        "locations",
        "setups",
        "models",
        "people",
        "photos",
        "pictures",
        "stills",
        "banners",
        "crops",
        "reels",
        "uk",
    }
    return raw[:1].isupper() and not raw.isupper() and raw.lower() not in everyday


def _school(sentence: Sentence, hits: dict[str, list[Hit]], people: list[Draft]) -> list[Draft]:
    drafts = []
    for hit in hits.get("school", ()):
        words = sentence.text[hit.start : hit.end]
        if words in (
            "primary school",
            "secondary school",
            "half term",
            "half-term",
            "school holidays",
            "in year",
        ) and not re.match(r"\s?\d", sentence.text[hit.end :]):
            continue
        if words in ("school run", "school uniform") and not people:
            continue
        if any(
            isinstance(d.value, PersonValue)
            and d.span.start < sentence.offset + hit.end
            and sentence.offset + hit.start < d.span.end
            for d in people
        ):
            continue
        drafts.append(
            Draft(
                DraftKind.PERSON,
                PersonValue("", None, None, True, school_age=True),
                sentence.span(hit.start, hit.end),
                sentence.line_no,
                Reason(ReasonCode.SCHOOL_AGE, (("word", words),)),
                confirm=True,
            )
        )
    return drafts


def permissions(drafts: list[Draft]) -> list[Draft]:
    """Return what people under 18 bring with them: a guardian who signs, and perhaps the council's licence.

    Parameters
    ----------
    drafts : list of Draft
        All drafts of the notes.

    Returns
    -------
    list of Draft
        Drafts of kind `permission`, at most one of each code, at the words that gave rise to it.

    References
    ----------
    England: Children and Young Persons Act 1963 s.37 (a council's licence to the end of compulsory school age; it may
    refuse with less than 21 days' notice).

    Examples
    --------
    >>> permissions([])
    []
    """
    minors = [d for d in drafts if isinstance(d.value, PersonValue) and d.value.minor]
    found = []
    if minors:
        found.append(_permission(minors[0], "guardian", ReasonCode.AGE_UNDER_18))
    for draft in minors:
        if isinstance(draft.value, PersonValue) and (
            draft.value.school_age or (draft.value.age is None and draft.value.role)
        ):
            found.append(_permission(draft, "council_licence", ReasonCode.SCHOOL_AGE))
            break
        if (
            isinstance(draft.value, PersonValue)
            and draft.value.age is not None
            and draft.value.age < ADULT - 1
            and any(isinstance(d.value, PersonValue) and d.value.school_age for d in minors)
        ):
            found.append(_permission(draft, "council_licence", ReasonCode.SCHOOL_AGE))
            break
    return found


def _permission(draft: Draft, code: str, reason: ReasonCode) -> Draft:
    because = dict(draft.reason.params)
    words = because.get("words") or because.get("word") or ""
    return Draft(
        DraftKind.PERMISSION, ImpliedValue(code, words), draft.span, draft.line_no, Reason(reason, (("words", words),))
    )
