"""Ages in notes: "he's 16", "two kids (6 and 9)", "aged 13 to 17", "under-16s"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Sentence, stem

_N = rf"(?:\d{{1,2}}|{NUMBER_WORD})"
_MORE = rf"(?:\s?(?:-|to|and|&|/|,|\+|or)\s?(?:{_N}))*"
_NOT_AFTER = (
    r"(?!\s?-?(?:years?[ -]olds?|yrs? old|yo)?\s?(?:whisky|whiskey|rum|malt|scotch|single malt|company|"
    r"business|brand|firm|"
    r"bakery|brewery|oak|tree|house|building|mill|recipe|cheese|cheddar|shop|family business|wine|vintage|"
    r"balsamic|port\b|"
    r"cask|starter|sourdough|vines?|barn|van\b|pub|distillery|label|start-?up|bourbon|cognac|mins?\b|minutes|"
    r"miles|km\b|m\b|"
    r"ft\b|foot|feet|hours?|hrs|weeks?|days?|months?|mths|stone|kg|%|k\b|am\b|pm\b|quid|grand|images|pics|shots|finals|"
    r"looks?\b|of\b|x\b|products|people|models|locations|o'clock|percent|design|camera|lens|jacket|table|"
    r"photos|pictures|"
    r"portraits|headshots|heroes|setups|cm\b|mm\b|ml\b|l\b|:\d|\.\d|/\d|st\b|nd\b|rd\b|th\b|[a-z]*\d|for\b|"
    r"outfits|each|per\b|"
    r"year warranty|stills|kids\b|children\b|p\b))"
)
_PRONOUN = re.compile(
    r"\b(?P<who>he|she|they|both|i|"
    r"one(?: of (?:them|whom|(?:the |our |her |his |their )?"
    r"(?:cast|students|kids|children|models|team|actors|players|dancers|riders|runners|girls|boys|lads|staff|band|"
    r"class|singers|swimmers|skaters|climbers|apprentices|pupils|performers)))?|"
    r"(?:the )?(?:other|eldest|oldest|youngest|younger|older|"
    r"elder|little)(?: one)?|"
    rf"who|[a-z]+)(?:(?<=he)s|(?<=who)s|'s|'re|\sis|\sare|\sturns|\swill be|\s(?:has )?(?:just )?turned)\s(?:only |"
    rf"just |"
    rf"about |nearly |almost |still |"
    rf"turning |both |aged |all )*"
    rf"(?P<n>{_N}(?P<more>{_MORE}))(?=\s?(?:$|[,;.!?)(-]|and\b|so\b|but\b|years?\b|yrs?\b|yo\b|y/o|in\b|now\b|"
    rf"next\b|this\b|or\b|n\b|at\b|which|who))" + _NOT_AFTER
)
_AGED = re.compile(rf"\bage[ds]?:?\s(?:about |around |between )?(?P<n>{_N}{_MORE})(?![\d\w])" + _NOT_AFTER)
_YEARS = re.compile(
    rf"(?<![\w.£$€-])(?P<n>{_N}(?:\s?(?:-|to|and|&)\s?{_N})?)[ -]?(?:yo\b|y/o\b|y\.o\b\.?|yrs?[ -]olds?\b|"
    rf"years?[ -]olds?\b|years? of age\b)"
)
#: Without these the longer patterns find nothing; looking for them first takes a tenth of the time.
_YEAR_WORDS = re.compile(r"y(?:o|/o|\.o|r|ear)")
_SAYS = re.compile(r"s\s|'re\s|\sare\s|\swill be\s|\sturned\s")
_FIGURE = re.compile(r"\d")
_HINT = re.compile(r"\bold|'s\s|'re\s|\b(?:is|are|turns|turned|aged?|ages|be)\s")
_OLD_SUBJECT = re.compile(
    r"\b(?:company|business|brand|firm|bakery|brewery|house|building|mill|recipe|shop|distillery|studio|hotel|farm|it|"
    r"place|church|site|label|logo|tree|barn|pub|restaurant|school|factory|packaging|website|pictures|photos|images)"
    r"(?:'s|\s(?:is|was|are|turns))\s(?:now |about |nearly |over |almost |only )*\Z"
)
_OLD_THING = re.compile(
    r"\s?(?:[a-z-]+\s)?(?:whisky|whiskey|rum|malt|scotch|company|business|brand|firm|bakery|brewery|oak|tree|"
    r"house|building|mill|recipe|"
    r"cheese|cheddar|shop|wine|vintage|balsamic|port|cask|starter|sourdough|vines?|barn|van|pub|distillery|"
    r"label|start-?up|"
    r"bourbon|cognac|studio|hotel|farm|maker|church|garden|lens|camera)\b"
)
_BEHIND = re.compile(
    rf"(?P<mark>(?:\s\d)?\s?(?:\((?:[mf],?\s|(?:fe)?male,?\s)?|,\s?aged?|\saged?|\sages?|\sbetween|\sof|\s-|"
    rf",?\swho(?:'s|\sis|\sare)|\s(?:about|abt|around|approx|roughly|nearly|almost|turned|just turned)|"
    rf"\s(?:is|are)|'s\s|,\s?(?:both|all)|:)\s?(?:only |just |about |abt |both |all |aged |ages |between )*|,?\s)"
    rf"(?P<n>{_N}{_MORE})(?=\s?(?:$|[);,.!?:]|and\b|yrs|years|yo\b|or so|-ish|ish\b|from\b|all\b|both\b|"
    rf"ideally|\(|might\b|may\b(?! \d)|will\b|could\b|"
    rf"can\b|who\b|that\b|(?:s?he|they)(?:'?s|'?re)?\b|an\b|same\b|doing\b|as\b|there\b|x\s?\d|n\b|[a-z]+ing\b|in\b|with\b|at\b|on\b))(?!\s?(?:images|"
    rf"pics|looks|x\b|days?|"
    rf"shots|hours))"
)
#: "grandmother of the founder, 78": the age is the grandmother's.
_OF_WHOM = re.compile(r"\s(?:of|to) (?:the |our |my )?[a-z]+(?=,|\s?\()")
#: "weaver at the loom, 71", "teenagers skating, 14 to 17", "models (2f 1m), 25-35".
_BETWEEN = re.compile(
    r",?\s(?:at|in|on|by)\s(?:the|her|his|an?)\s[a-z]+(?=,\s\d\d\b)|\s[a-z]{2,}ing(?=,)|\s?\((?:\s?\d?\s?[fm]\s?[,/+]?)+\)(?=,)"
)
_IN_BRACKETS = re.compile(
    rf"(?:\s[a-z]+){{0,4}}\s?\((?:[^()\d]{{0,30}},\s?)?(?:aged? |age |both )?"
    rf"(?P<n>{_N}{_MORE}(?=\))|{_N}\s?(?:and|&|to|-|\+)\s?{_N}(?=,\s?[a-z]))"
)
#: "the lad who does deliveries is 17".
_WHO_IS = re.compile(
    rf"\swho [a-z' -]{{3,40}}?(?:\sis|'s|\sturns)\s(?:only |just )?(?P<n>{_N})(?=\s?(?:$|[,;.!?)]|and\b|so\b))"
)
_NAMED = re.compile(
    r"\b(?P<who>[a-z]{2,12})\s?(?:,\s?|\()(?P<n>\d{1,2})(?=\)|,|$|\.| (?:and|&) [a-z]+,? \(?\d)" + _NOT_AFTER
)
_NAME_AND_AGE = re.compile(r"\b(?P<who>[A-Z][a-z]{1,11}) (?P<n>\d{1,2})(?=\s*(?:,|$|\.|and\b|&|\+))")
#: "kids in the chorus, 10 and 12".
_ASIDE = re.compile(
    rf"(?:\s(?!and\b|with\b|plus\b)[a-z]+){{1,4}},\s(?P<n>{_N}\s?(?:and|&|\+)\s?{_N})(?=\s?(?:$|[,;.)]))"
)
#: "oldest 34, youngest 14".
_EXTREME = re.compile(rf"\b(?P<who>oldest|youngest|eldest)(?:\sone)?\s(?P<n>{_N})\b(?!\s?(?:shop|brand|pub|child))")
#: "all 15-16", "both 17".
_ALL = re.compile(rf"\b(?:all|both)\s(?:aged?\s|about\s)?(?P<n>{_N}\s?(?:-|to|and|or)\s?{_N}|1\d)(?=\s?(?:$|[,;.)]))")
#: "just turned 2".
_TURNED = re.compile(rf"\b(?:just|only|nearly|has|recently)\s(?:turned|turning)\s(?P<n>{_N})\b" + _NOT_AFTER)
#: "a model with freckles, around fifty", "1 model, agency, 28": an age when somebody stands a little before it.
_LOOSE = re.compile(
    rf"(?:,\s(?:around|about|roughly|maybe|say)\s(?P<about>{_N})|,\s(?P<n>\d\d))(?=\s?(?:[.;,)]|$|\sand\b))"
    + _NOT_AFTER
)
#: "Tom 14, Isla 16, Bex 22".
_NAMES = re.compile(
    r"(?:\b[A-Z][a-z]{1,11},? \(?\d{1,2}\)?(?:,? (?:and|&|\+) |, | / )){1,}[A-Z][a-z]{1,11},? \(?\d{1,2}\b(?!:)"
)
#: "Mrs Bibi 68", "Mr Tanabe (71)".
_TITLED = re.compile(
    r"\b(?P<who>(?:Mr|Mrs|Ms|Miss|Dr|Frau|Herr)\.? [A-Z][a-z]+),? \(?(?P<n>[1-9]\d)(?=\s?(?:$|[,.;)]))"
)
#: "Poppy 9 on the pony", "Len 84 and his wife".
_AFTER_NAME = re.compile(
    r",?\s\(?(?P<n>[2-9]|[1-8]\d)(?=\s?(?:$|[,.;)&+]|and\b|on\b|in\b|with\b|who\b|[a-z]{2,}ing\b))" + _NOT_AFTER
)
_NAME_NUMBER = re.compile(r"(?P<who>[A-Z][a-z]{1,11}),? \(?(?P<n>\d{1,2})")
_UNDER = re.compile(r"\bunder[ -]?(?P<n>1[0-8])s?\b")
_NO_NAME = frozenset(
    [
        "the", "and", "page", "size", "option", "version", "room", "unit", "level", "day", "days", "june", "july",
        "may", "march", "april", "finals", "final", "images", "pics", "shots", "shot", "total", "looks", "look",
        "products", "product", "plan", "stage", "week", "part", "number", "portraits", "heroes", "hero", "details",
        "packshots", "stories", "squares", "max", "min", "about", "sept", "october", "january", "february",
        "august", "september", "november", "december", "monday", "tuesday", "wednesday", "thursday", "friday",
        "saturday", "sunday", "locations", "setups", "models", "people", "photos", "pictures", "stills", "banners",
        "crops", "reels", "uk", "it", "that", "there", "here", "what", "budget", "fee", "price", "brand",
        "company", "recipe", "let", "which", "this", "deadline", "everything", "launch", "shoot", "call", "time",
        "date", "where", "delivery", "range", "pack", "usage", "mood", "rate", "studio", "event", "we", "you",
        "all", "quote", "minimum", "maximum", "location", "setup", "product", "flavours", "colours", "usage",
        "crew", "team", "staff", "so", "spf", "art", "shades", "scents", "angles", "year", "years", "form", "class",
        "grade", "phase", "gate", "door", "bay", "hall", "floor", "row", "lot", "block", "line", "size", "sizes",
        "scene", "frame", "frames", "setup", "look", "route", "junction", "platform", "terminal", "court", "pitch",
        "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "mon", "tue", "tues", "wed",
        "weds", "thu", "thurs", "fri", "sat", "sun", "landscape", "portrait", "square", "uprights", "model", "age",
        "ages", "volume", "issue", "chapter", "clause", "section", "studio", "house", "road", "street",
    ]
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Age:
    """An age in a sentence; `of` is the person phrase that it stands behind, if any."""

    start: int
    number_start: int
    end: int
    ages: tuple[int, ...]
    under: bool = False
    of: Hit | None = None
    alone: str = ""
    #: Only an age when somebody stands before it: "1 model, agency, 28".
    loose: bool = False
    #: How somebody is called of whom nothing else is said: "Tom 14, Isla 16".
    name: str = ""


def read(sentence: Sentence, people: Sequence[Hit], names: Sequence[Hit] = ()) -> list[Age]:
    """Return the ages of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    people : sequence of Hit
        Phrases for people found in it.
    names : sequence of Hit, optional
        First names found in it.

    Returns
    -------
    list of Age
        In order, none inside another. "12 year old malt" and "page 9" are none.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [age.ages for age in read(cut("he's 16, a 12 year old malt").sentences[0], ())]
    [(16,)]
    """
    text = sentence.text
    found: list[Age] = []
    figures = bool(_FIGURE.search(text))
    if not figures and not people and not _HINT.search(text):
        return found
    for hit in people:
        whose = _OF_WHOM.match(text, hit.end) if hit.code == "relative" else None
        between = _BETWEEN.match(text, hit.end)
        match = _BEHIND.match(text, whose.end() if whose else between.end() if between else hit.end)
        if match and _is_age(sentence, match, hit, people):
            _put(sentence, found, Age(hit.start, match.start("n"), match.end(), _numbers(match["n"]), of=hit))
    for hit in people if "," in text else ():
        aside = _ASIDE.match(text, hit.end) if hit.entry.data.get("minor") else None
        if aside:
            ages = _numbers(aside["n"])
            _put(sentence, found, Age(hit.start, aside.start("n"), aside.end(), ages, of=hit))
    for hit in people if " who " in text else ():
        who = _WHO_IS.match(text, hit.end)
        if who and stem(text[hit.start : hit.end].split()[-1]) == text[hit.start : hit.end].split()[-1]:
            _put(sentence, found, Age(hit.start, who.start("n"), who.end(), _numbers(who["n"]), of=hit))
    for hit in people if "(" in text else ():
        bracket = _IN_BRACKETS.match(text, hit.end) if hit.entry.data.get("minor") or hit.code == "relative" else None
        if bracket:
            ages = _numbers(bracket["n"])
            _put(sentence, found, Age(hit.start, bracket.start("n"), bracket.end(), ages, of=hit))
    for match in _YEARS.finditer(text) if _YEAR_WORDS.search(text) else ():
        before = text[: match.start()]
        if (
            not _OLD_THING.match(text, match.end())
            and not _OLD_SUBJECT.search(before)
            and not re.search(r"\b(?:over|above|since|for)\s*\Z", before)
        ):
            _put(sentence, found, Age(match.start(), match.start("n"), match.end(), _numbers(match["n"])))
    for match in _PRONOUN.finditer(text) if _SAYS.search(text) else ():
        if match["who"] in _NO_NAME or not _stands_for_somebody(sentence, match):
            continue
        ages = _numbers(match["n"])
        if ages and ages[0] > 1:
            _put(sentence, found, Age(match.start(), match.start("n"), match.end(), ages, alone=match["who"]))
    for match in _EXTREME.finditer(text) if "est" in text else ():
        alone = match["who"]
        _put(sentence, found, Age(match.start(), match.start("n"), match.end("n"), _numbers(match["n"]), alone=alone))
    for pattern in (_ALL, _TURNED):
        for match in pattern.finditer(text):
            alone = "they" if pattern is _ALL else ""
            ages = _numbers(match["n"])
            if ages and max(ages) < 90:
                _put(sentence, found, Age(match.start(), match.start("n"), match.end("n"), ages, alone=alone))
    for name in names if figures and not sentence.raw.isupper() else ():
        called = sentence.raw[name.start : name.end]
        years = _AFTER_NAME.match(text, name.end)
        if any(0 < name.start - hit.end <= 2 for hit in people):
            continue  # "her daughter Mia, 8"
        if years and called[:1].isupper() and called[1:].islower():
            number_start, end = years.span("n")
            _put(
                sentence,
                found,
                Age(name.start, number_start, end, (int(years["n"]),), alone=called.lower(), name=called),
            )
    for match in _TITLED.finditer(sentence.raw) if figures else ():
        ages = (int(match["n"]),)
        age = Age(match.start(), match.start("n"), match.end("n"), ages, alone=match["who"].lower(), name=match["who"])
        _put(sentence, found, age)
    for row in _NAMES.finditer(sentence.raw) if figures else ():
        _put_names(sentence, found, row)
    for match in _LOOSE.finditer(text) if people else ():
        key = "n" if match["n"] else "about"
        ages = _numbers(match[key])
        if (
            ages
            and 13 < ages[0] < 90
            and (match["n"] is None or people[-1].end <= match.start() <= people[-1].end + 14)
        ):
            _put(sentence, found, Age(match.start(key), match.start(key), match.end(key), ages, loose=True))
    for match in _AGED.finditer(text) if "age" in text else ():
        _put(sentence, found, Age(match.start(), match.start("n"), match.end(), _numbers(match["n"])))
    for match in _NAMED.finditer(text) if figures else ():
        raw = sentence.raw[match.start() : match.end("who")]
        opens = not text[: match.start()].strip(" -*") and raw.endswith("s") and not people
        if opens and sentence.topic != "people":
            continue  # "Exteriors (4), interiors (8)": a line that only begins with a capital
        if raw[:1].isupper() and not raw.isupper() and match["who"] not in _NO_NAME:
            _put(
                sentence,
                found,
                Age(match.start(), match.start("n"), match.end(), _numbers(match["n"]), alone=match["who"]),
            )
    if sentence.topic == "people" or any(hit.entry.data.get("minor") for hit in people):
        for match in _NAME_AND_AGE.finditer(sentence.raw):
            if match["who"].lower() not in _NO_NAME and not sentence.raw.isupper():
                age = Age(
                    match.start(), match.start("n"), match.end("n"), (int(match["n"]),), alone=match["who"].lower()
                )
                _put(sentence, found, age)
    for match in _UNDER.finditer(text) if "under" in text else ():
        if not re.search(r"\b(?:no|not|nobody|without|nothing)\s*\Z", text[: match.start()]):
            _put(sentence, found, Age(match.start(), match.start("n"), match.end(), (), under=True))
    return sorted(found, key=lambda age: age.start)


def _put_names(sentence: Sentence, found: list[Age], row: re.Match[str]) -> None:
    """Take a row of names with their ages, unless one of the names is none ("June 12, July 14")."""
    entries = [(row.start() + m.start(), m) for m in _NAME_NUMBER.finditer(row.group())]
    if sentence.raw.isupper() or any(m["who"].lower() in _NO_NAME for _, m in entries):
        return
    for start, match in entries:
        number_start = row.start() + match.start("n")
        ages = (int(match["n"]),)
        if 1 < ages[0] < 90:
            age = Age(
                start, number_start, row.start() + match.end("n"), ages, alone=match["who"].lower(), name=match["who"]
            )
            _put(sentence, found, age)


def _numbers(text: str) -> tuple[int, ...]:
    words = re.split(r"\s?(?:-(?=\d)|\bto\b|\band\b|&|/|,|\+|\bor\b)\s?", text)
    return tuple(value for word in words if word.strip() and (value := number(word)) is not None and value < 100)


_ONE = re.compile(r"\b(?:one|1|a|an|her|his)\s\Z")
_LEADS = re.compile(r"(?:^\s*(?:[-*•]\s)?|[,;:(]\s|\b(?:and|plus|the)\s)\Z")
_AND_SOMEBODY = re.compile(r"\s(?:and|an|n|&|\+)\s(?:an?|the|his|her|their)\s")
_ENDS = re.compile(r"\s?(?:$|[,.;)])")
_COLLECTIVE = frozenset(["cast", "team", "crew", "band", "staff", "choir", "family", "group", "class", "orchestra"])


def _is_age(sentence: Sentence, match: re.Match[str], hit: Hit, people: Sequence[Hit]) -> bool:
    ages, mark = _numbers(match["n"]), match["mark"].strip()
    if not ages or any(
        other.start < match.end() and match.start("n") < other.end for other in people if other is not hit
    ):
        return False
    child = bool(hit.entry.data.get("minor")) or hit.code in ("relative", "boy")
    child = child or sentence.text[hit.start : hit.end] == "twins"
    if mark in ("", ",", "-"):
        role = hit.code not in ("model", "relative") and _LEADS.search(sentence.text[: hit.start])
        if not mark and role and 17 < ages[0] < 90 and len(ages) == 1:
            words = sentence.text[hit.start : hit.end]
            behind = _AND_SOMEBODY.match(sentence.text, match.end())
            if behind and stem(words.split()[-1]) == words.split()[-1]:
                return True  # "driver 52 and his wife"
        spread = len(ages) > 1 and ages[0] >= 10 and re.search(r"-|\bto\b", match["n"])
        words = sentence.text[hit.start : hit.end]
        one = mark == "," and len(ages) == 1 and 14 <= ages[0] < 90 and stem(words.split()[-1]) == words.split()[-1]
        if one and re.match(r"\s?(?:,|$|\.(?:\s|$))", sentence.text[match.end() :]):
            return True  # "his apprentice, 17, at the bench"
        if (
            not mark
            and _ONE.search(sentence.text[: hit.start])
            and 15 < ages[0] < 90
            and _ENDS.match(sentence.text, match.end())
        ):
            return stem(words.split()[-1]) == words.split()[-1]  # "one bloke 30"
        return child or bool(spread and not re.match(r"\s?[a-z]", sentence.text[match.end() :]))
    words = sentence.text[hit.start : hit.end]
    one = stem(words.split()[-1]) == words.split()[-1]
    if mark == "of" and hit.code in ("woman", "boy") and one and ages[0] > 11:
        return True  # "a young man of seventeen"
    if mark in (":", "of") or mark.startswith(":"):
        return child and (
            len(ages) > 1 or (mark == "of" and bool(re.match(r"\s?(?:$|[),;.]|and\b)", sentence.text[match.end() :])))
        )
    if mark == "(":
        many = stem(words.split()[-1]) != words.split()[-1] or words.split()[-1] in _COLLECTIVE
        return child or (ages[0] > 9 and not (many and len(ages) == 1))  # "regulars (12ish)" are so many
    return True


def _stands_for_somebody(sentence: Sentence, match: re.Match[str]) -> bool:
    who = match["who"]
    if who in ("he", "she", "they", "both", "i", "who") or who.split()[0] in (
        "the", "other", "eldest", "oldest", "youngest", "younger", "older", "elder", "one",
    ):  # fmt: skip
        return True
    raw = sentence.raw[match.start() : match.start() + len(who)]
    return raw[:1].isupper() and not sentence.raw.isupper()


def _put(sentence: Sentence, found: list[Age], age: Age) -> None:
    if not age.ages and not age.under:
        return
    if not sentence.is_free(age.number_start, age.end):
        return
    if all(age.end <= other.number_start or age.number_start >= other.end for other in found):
        found.append(age)
