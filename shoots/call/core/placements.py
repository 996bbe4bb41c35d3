"""Where the pictures will be seen, in the trade's terms."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.drafts import Draft, DraftKind, PlacementValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_NOT = re.compile(
    r"\b(?:no|not|never|without|nothing(?: goes| will go| is going| is)?|nor|"
    r"excl(?:uding|\.)?|except|but not|don't need)\s+(?:(?:for|in|on|"
    r"any|the|to be used|used|show|showing|see|have|visible|their|its)\s+)*\Z"
)
_JOIN = re.compile(r"\s*(?:,|/|\+|&|and|or|plus|,\s?and)\s*(?:on |for |the |our |in )*")


#: "paid FB/IG": what is paid for is the whole list.
_PAID = re.compile(
    r"\b(?:paid|sponsored(?! by)|boosted|promoted|(?:ads|adverts|advertising|sponsored|boosted) "
    r"(?=on|via|in|for)) ?(?:on |via |in |for )?"
    r"(?:(?:fb|ig|insta(?:gram)?|facebook|meta|tiktok|linkedin|pinterest|youtube)\s?(?:[/+&,]|and)\s?){0,3}\Z"
)
#: "2 pr" is a pair, "credit required for press use" no use that was asked for.
_NO_USE = re.compile(
    r"\b(?:saw|seen|found|follows?|followed|messaged?|dm'?d|contacted|spotted|knows?|came) (?:us|me|you|my work|"
    r"my stuff|him|her|them|it)?\s?(?:on|via|through|from) (?:my |our |their )?\Z|"
    r"\b(?:credit(?:ed)?|by-?line)(?: is| line)?(?: required| needed)? (?:for|in|with)(?: any| all)?\s\Z"
)


#: "She sells mattresses online": a trade, no use of pictures.
_SELLS = re.compile(r"\b(?:sells?|sold|selling|trades?|trading) (?:[a-z]+ ){0,3}\Z")
_LATER = re.compile(r"\s(?:maybe |possibly |perhaps |might come |comes )?(?:later|not now|not yet|next year)\b")
#: "They had thought about a bus shelter but it was too dear", "television was mentioned but it's off".
_DROPPED = re.compile(
    r"(?:\b(?:thought about|considered|toyed with|talked about|asked about|had wanted)\b[^.;]{2,60}?|"
    r"(?:^|[,;.]\s)[^,;.]{2,40} (?:was|were) (?:mentioned|discussed|an option|considered))"
    r"[^.;]{0,20}\bbut\b[^.;]{0,30}\b(?:off|out|dear|dropped|expensive|no|not|decided|later|isn't|aren't|won't)\b"
)


def _is_listed(sentence: Sentence, hit: Hit, others: Sequence[Hit]) -> bool:
    """Short words ("pack", "shop") are placements only in a list with others."""
    return any(
        other is not hit and _JOIN.fullmatch(sentence.text[min(hit.end, other.end) : max(hit.start, other.start)])
        for other in others
    )


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return the placements of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

    Returns
    -------
    list of Draft
        Drafts of kind `placement`; "all media" comes as placement `all`.

    References
    ----------
    Trade terms: common practice, no source; data in ``lexicon/usage.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("paid + organic social, OOH").sentences[0]
    >>> [d.value.placement for d in read(line, package_lexicons().hits(line))]
    ['paid_social', 'organic_social', 'out_of_home']
    """
    drafts: list[Draft] = []
    dropped = _DROPPED.search(sentence.text) if "but" in sentence.text else None
    all_hits = hits.get("placement", ())
    for hit in (*hits.get("placement", ()), *hits.get("allmedia", ())):
        words = sentence.text[hit.start : hit.end]
        before = sentence.text[: hit.start]
        if words == "online" and _SELLS.search(before):
            continue
        if (
            _LATER.match(sentence.text, hit.end)
            or (dropped and dropped.start() <= hit.end <= dropped.end())
            or _NO_USE.search(before)
            or (words == "pr" and re.search(r"\d\s?\Z", before))
        ):
            continue
        if _NOT.search(before) or (hit.entry.data.get("listed") and not _is_listed(sentence, hit, all_hits)):
            continue
        if hit.entry.table == "allmedia":
            codes = ["all"]
        elif hit.code == "organic_social" and "org" not in words and _PAID.search(sentence.text[: hit.start]):
            codes = ["paid_social"]
        elif hit.code == "paid_social" and ("organic" in words or "unpaid" in words):
            codes = ["paid_social", "organic_social"]
        else:
            codes = [str(hit.entry.data.get("as", hit.code))]
        if codes == ["organic_social"] and _PAID_BEHIND.match(sentence.text, hit.end):
            codes = ["paid_social"]
        reason = Reason(ReasonCode.TRADE_WORD, (("word", words),))
        if hit.typo_of:
            reason = Reason(ReasonCode.MISTYPED, (("word", words), ("meant", hit.typo_of)))
        codes = [
            code
            for code in codes
            if not any(isinstance(d.value, PlacementValue) and d.value.placement == code for d in drafts)
        ]
        drafts += [
            Draft(
                DraftKind.PLACEMENT, PlacementValue(code), sentence.span(hit.start, hit.end), sentence.line_no, reason
            )
            for code in codes
        ]
    return drafts + _in_other_words(sentence, drafts)


#: "fb + insta, boosted".
_PAID_BEHIND = re.compile(
    r"(?:\s?(?:[+/&,]|and)\s?(?:fb|ig|insta(?:gram)?|facebook|tiktok|linkedin|pinterest|youtube))*"
    r"\s?[,(]\s?(?:boosted|paid|sponsored|promoted)\b(?! (?:and|\+|&|/) )"
)
#: "Posts she doesn't pay for", "a banner on the outside wall of the depot": placements that no word names.
_OTHER_WORDS = {
    "organic_social": re.compile(
        r"\bposts? (?:that |which )?(?:(?:she|he|they|we) (?:doesn't|don't|won't|does not|do not) pay|"
        r"(?:nobody|no one) pays)"
        r"[a-z ]{0,12}|\bunpaid posts?\b"
    ),
    "out_of_home": re.compile(
        r"\bbanners? (?:hanging )?(?:on|over|outside|along|across|above) (?:the |their |our |his |her )?"
        r"(?:[a-z]+ ){0,2}(?:railings?|fence|gates?|wall|door|street|road|building|roof|entrance|scaffold\w*|depot|"
        r"shop ?front)\b"
    ),
}


def _in_other_words(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    found = []
    if "post" not in sentence.text and "banner" not in sentence.text:
        return []
    for code, pattern in _OTHER_WORDS.items():
        known = any(isinstance(d.value, PlacementValue) and d.value.placement == code for d in drafts)
        match = None if known else pattern.search(sentence.text)
        if match:
            reason = Reason(ReasonCode.TRADE_WORD, (("word", match.group()),))
            span = sentence.span(match.start(), match.end())
            found.append(Draft(DraftKind.PLACEMENT, PlacementValue(code), span, sentence.line_no, reason))
    return found
