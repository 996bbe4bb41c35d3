"""For how long the pictures may be used, from when, and whether anybody is shut out."""

from __future__ import annotations

import re
from decimal import Decimal

from shoots.call.core.drafts import Draft, DraftKind, ExclusivityValue, LicenceValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Sentence

#: A season of fashion or sport is taken as half a year; it is asked for. [months]
SEASON_MONTHS = 6
_HALVES = r"(?:and a half|1/2|½|\.5)"
_LENGTH = re.compile(
    rf"(?<![\w£$€.:,-])(?P<n>\d{{1,3}}(?:\.\d+)?|{NUMBER_WORD}|an?(?: full| whole| single)?|one|half an?|a couple of|couple of|a few)"
    rf"(?P<half1>\s?{_HALVES})?[ -]?(?P<full>full |calendar |more )?"
    rf"(?P<unit>years?|yrs?|yr|y(?=\b(?!\s?[-/]))|months?|mths?|mth|mnths?|mos?|mo|m(?=\b)|seasons?|weeks?|wks?|days?)\b(?P<half2>\s(?:and a half))?"
)
_USE = re.compile(
    r"\b(?:usage|use|uses|used|using|licen[cs]e[ds]?|licensing|rights|buy-?out|term|territor(?:y|ies)|media|renew(?:al)?|run|runs|running|worldwide|"
    r"global|globally|europe|emea|dach|uk|eu|social|ooh|web|website|online|press|pos|packaging|campaign|digital|exclusiv\w*|perpetuity|from first|from launch|from delivery|all channels|live for|broadcast|tv)\b"
)
_OTHER = re.compile(
    r"\b(?:old|age[ds]?|ago|experience|warranty|guarantee|turn\s?around|notice|working|business|trading|anniversary|shoot(?:ing)?|prep|in advance|before|later|after|"
    r"pregnant|lead time|shelf life|mature[ds]?|aged|payment|per|every|each|this|next|last|once a|twice a|times a|been|since|edit(?:ing)?|retouch(?:ing)?|day rate|half|retainer|from now|from today)\b"
)
_START_DATE = re.compile(r"\b(?:from|starting(?: on| from)?|starts?(?: on)?|beginning|commencing|begins?)\s*\Z")


def _months(match: re.Match[str]) -> tuple[Decimal, bool] | None:
    text = match["n"].strip()
    half = Decimal("0.5") if match["half1"] or match["half2"] else Decimal(0)
    if re.fullmatch(r"\d+(?:\.\d+)?", text):
        many = Decimal(text)
    elif text.startswith("half"):
        many = Decimal("0.5")
    elif "couple" in text:
        many = Decimal(2)
    elif text == "a few":
        many = Decimal(3)
    elif text.split()[0] in ("a", "an", "one") and "hundred" not in text:
        many = Decimal(1)
    else:
        value = number(text)
        if value is None:
            return None
        many = Decimal(value)
    many += half
    unit = match["unit"]
    if unit.startswith("y"):
        return many * 12, False
    if unit.startswith("s"):
        return many * SEASON_MONTHS, True
    if unit.startswith("w"):
        return (many * 12 / 52).quantize(Decimal("0.1")), False
    if unit.startswith("d"):
        return (many * 12 / 365).quantize(Decimal("0.1")), False
    return many, False


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return the terms of use in a sentence and the exclusivity that goes with them.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

    Returns
    -------
    list of Draft
        Drafts of kind `licence` and `exclusivity`. A length is a licence only beside a word of use, a placement or a
        territory, or under a label for it.

    References
    ----------
    A season as half a year: common practice, no source; asked for.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("UK use for 18 mths from first use").sentences[0]
    >>> [(d.value.months, d.value.starts) for d in read(line, package_lexicons().hits(line))]
    [(Decimal('18'), 'first use')]
    """
    text = sentence.text
    starts = next((hit for hit in hits.get("starts", ())), None)
    start_word = starts.code.replace("_", " ") if starts else ""
    drafts: list[Draft] = []
    shut = [(hit, True) for hit in _exclusive_hits(hits)] + [
        (hit, False) for hit in hits.get("exclusive", ()) if hit.code == "no"
    ]
    lengths = []
    for match in _LENGTH.finditer(text):
        months = _months(match)
        if months is None or not sentence.is_free(match.start(), match.end()):
            continue
        if match["unit"] in ("m", "y") and not (sentence.topic in ("term", "usage") or _USE.search(text)):
            continue
        if match["unit"] == "m" and not match["n"].isdigit():
            continue
        lengths.append((match, *months))
    used: set[int] = set()
    for hit, exclusive in shut:
        nearest = _nearest(text, hit, lengths) if exclusive else None
        term = None
        start, end = hit.start, hit.end
        if nearest is not None:
            match, months, _ = lengths[nearest]
            # One length in a sentence about use and exclusivity serves the licence first.
            gap = text[min(match.end(), hit.end) : max(match.start(), hit.start)]
            if re.fullmatch(
                r"[\s-]*(?:of|category|sector|industry|for|full|in (?:the|their) [\w ]{0,30}|full exclusivity|in|:|\w+ ){0,6}\s*",
                gap,
            ) and (len(lengths) > 1 or not _USE_STRICT.search(text[: match.start()] + text[match.end() :])):
                used.add(nearest)
                term, start, end = months, min(start, match.start()), max(end, match.end())
                sentence.claim(match.start(), match.end())
        drafts.append(
            Draft(
                DraftKind.EXCLUSIVITY,
                ExclusivityValue(exclusive, _scope(text, hit), term),
                sentence.span(start, end),
                sentence.line_no,
                Reason(ReasonCode.TRADE_WORD, (("word", text[hit.start : hit.end]),)),
            )
        )
    for hit in hits.get("licence", ()):
        if _negated_before(text, hit.start):
            continue
        drafts.append(
            Draft(
                DraftKind.LICENCE,
                LicenceValue(perpetual=True, starts=start_word),
                sentence.span(hit.start, hit.end),
                sentence.line_no,
                Reason(ReasonCode.FOR_EVER, (("word", text[hit.start : hit.end]),)),
            )
        )
    for number_, (match, months, seasons) in enumerate(lengths):
        if number_ in used or not _is_term(sentence, hits, match, seasons):
            continue
        sentence.claim(match.start(), match.end())
        end = max(match.end(), starts.end) if starts and 0 <= starts.start - match.end() < 40 else match.end()
        drafts.append(
            Draft(
                DraftKind.LICENCE,
                LicenceValue(months=months, starts=start_word, assumed=seasons),
                sentence.span(match.start(), end),
                sentence.line_no,
                Reason(
                    ReasonCode.SEASONS if seasons else ReasonCode.LENGTH_OF_USE,
                    (("words", match.group()), ("months", f"{months.normalize():f}")),
                ),
                confirm=seasons,
            )
        )
    if starts and not any(d.kind is DraftKind.LICENCE for d in drafts):
        drafts.append(
            Draft(
                DraftKind.LICENCE,
                LicenceValue(starts=start_word),
                sentence.span(starts.start, starts.end),
                sentence.line_no,
                Reason(ReasonCode.TRADE_WORD, (("word", text[starts.start : starts.end]),)),
            )
        )
    return drafts


_USE_STRICT = re.compile(r"\b(?:usage|use|used|licen[cs]e|rights|term)\b")


def _exclusive_hits(hits: dict[str, list[Hit]]) -> list[Hit]:
    no = [hit for hit in hits.get("exclusive", ()) if hit.code == "no"]
    return [
        hit
        for hit in hits.get("exclusive", ())
        if hit.code == "yes" and not any(hit.start < other.end and other.start < hit.end for other in no)
    ]


def _nearest(text: str, hit: Hit, lengths: list[tuple[re.Match[str], Decimal, bool]]) -> int | None:
    best, distance = None, 60
    for index, (match, _, _) in enumerate(lengths):
        gap = max(match.start() - hit.end, hit.start - match.end())
        if gap < distance:
            best, distance = index, gap
    return best


def _scope(text: str, hit: Hit) -> str:
    if sector := re.match(
        r"\s*(?:in|within|for|across) (?:the |their |our )?([a-z][a-z &-]{2,40}?)(?= (?:for|from|sector|category|market|only)\b|[,.;)]|\s*$| \d)",
        text[hit.end :],
    ):
        return sector.group(1).strip()
    before = re.search(r"\b(category|sector|industry)[ -]*\Z", text[: hit.start])
    return (
        before.group(1)
        if before
        else next((w for w in ("category", "sector", "industry", "competitors") if w in text[hit.start : hit.end]), "")
    )


def _negated_before(text: str, start: int) -> bool:
    return bool(
        re.search(
            r"\b(?:no|not|never|don't (?:need|want|do)|without|isn't|wasn't|we don't|can't|won't)(?: (?:a|an|in|the|any|be|full|total|give|offer|do|need|sell))*\s*\Z",
            text[:start],
        )
    )


def _is_term(sentence: Sentence, hits: dict[str, list[Hit]], match: re.Match[str], seasons: bool) -> bool:
    text = sentence.text
    clause = sentence.clause(match.start(), match.end())
    near = text[clause.start : clause.end]
    around = text[max(0, match.start() - 14) : match.start()] + "|" + text[match.end() : match.end() + 16]
    if re.match(
        r"\s?(?:-| )?old\b|\s?ago\b|\s?'?s? (?:notice|experience|turnaround|warranty|guarantee|shoot|prep|younger|older|of age)\b",
        text[match.end() :],
    ):
        return False
    if re.search(
        r"\b(?:in|within|every|last|past|this|next|per|after|nearly|about|over|been|for the (?:last|past)|once|twice|times|ages|she's|he's|they're|it's|is|are)\s*\Z",
        text[: match.start()],
    ) and not re.search(
        r"\b(?:usage|licen[cs]e|term|rights|use)\W+(?:is|are|of|about|over|for)?\s*\Z", text[: match.start()]
    ):
        return False
    if match["unit"].startswith(("d", "w")) and not re.search(
        r"\b(?:usage|use|licen[cs]e|rights|run|runs|running|buyout|burst|flight|live)\b", near
    ):
        return False
    if sentence.topic in ("usage", "term", "territory", "exclusivity"):
        return True
    strong = bool(_USE.search(near)) or bool(hits.get("licence"))
    if strong and not _OTHER.search(around):
        return True
    if _OTHER.search(around):
        return False
    lists = any(hits.get(table) for table in ("placement", "region", "group", "allmedia", "starts")) or bool(
        _USE_STRICT.search(text)
    )
    return lists and (match["unit"][0] in "yms")
