"""Places to shoot at, and the permissions and hazards that places and acts bring with them."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

from shoots.call.core.calendar import MONTHS, WEEKDAYS
from shoots.call.core.drafts import Draft, DraftKind, ImpliedValue, PlaceValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_ARTICLE = r"(?:(?:a|an|the|our|their|his|her|my|some|your|that|this|[a-z]+'s|s')\s+)?"
_PREPOSITION = re.compile(
    r"\b(?:in|at|on|by|outside|inside|through|around|into|along|beside|overlooking|above|across|under|up|"
    r"behind|below|round|from|to|(?:nave|steps|corner|back|middle|edge|top|foot|floor|banks) of)\s+"
    + _ARTICLE
    + r"(?:[\w'-]+\s+){0,2}\Z"
)
_SHOP_TALK = re.compile(
    r"\b(?:sold|sells?|stock(?:ed|ists)?|available|seen|hang(?:ing)?|posters?|displayed|shelf|shelves|"
    r"launch(?:ing)?|opening|"
    r"(?<!we )works?|worked|lives?|lived|living(?! room)|based|grew up|"
    r"commut\w+|job|going|eat|drink|lunch|off|meet(?:ing)?|drop (?:off )?|pick (?:it )?up|collect|listed|"
    r"show(?:n)?|pos|leaflets?|cards|"
    r"advertis\w+|banners?|railings|screens|displays?|samples from|arrives?|home|back|deliver\w*|sends?|sent|posted?|"
    r"ship\w*|"
    r"suppl\w+|close|next)\b[^,;]*\Z"
)
_CUE = re.compile(
    r"(?:\b|(?=[-=]>))(?:location[s]?|loc|shoot(?:ing)?|shot|place|venue|recce|hire|hiring|book(?:ed)?|access to|use|"
    r"using|"
    r"half|then|between|backdrop|got|we have|we've|found|rented|hired|needs?|close|closing|it is|it's|it will be|"
    r"it would be|[-=]>)"
    r"[\s:,-]*" + _ARTICLE + r"(?:[\w'-]+\s+){0,2}\Z"
)
_STANDS = re.compile(
    r"\s(?:in|near|nr|at|by|on|above|behind|below|beside|outside|opposite|w/|with)\s|\s(?:after|first|later|then|"
    r"before)\b"
)
#: "depot pics", "the pier at dusk", "warehouse w/ pickers".
_SCENE_BEHIND = re.compile(
    r"\s(?:pics?|pictures|shots|scenes?|interiors?|exteriors?)\b(?!\sof)|\sat (?:dawn|dusk|night|sunrise|sunset|"
    r"first light|"
    r"golden|blue hour|low (?:tide|water))|\slights on\b|\sbefore (?:opening|(?:it|they|we) opens?)\b"
)
_PICTURE_OF = re.compile(
    r"\b(?:\d{1,2}|one|two|three|four|five|six|ones) of "
    + _ARTICLE
    + r"\Z|\b(?:(?:pictures?|pics?|images?|shots?|photos?|interiors?|views?) of|redone|"
    r"refurbished|renovated|"
    r"redecorated|refitted|converted)\s+"
    r"(?:each |every |all |both )?(?:of )?"
    + _ARTICLE
    + r"(?:[\w'-]+\s+){0,2}(?:and (?:the |a |\w+ )?)?(?:[\w'-]+\s+){0,1}\Z"
)
_COUNCIL = re.compile(r"council(?! (?:park|beach|garden|yard|depot|pool|allotment|offices?|chamber)s?\b)")
_SPOTS = re.compile(r"\b(?:spots?|locations?|places?|venues?|rooms|sites|setups)\s*(?::|-\s|=)[^.;]*\Z")
_BESIDE = re.compile(
    r"^[^,;]*(?<!and )\b(?:behind|near|next to|opposite|outside|off|close to|above|below|by|from|on|in|of|under|"
    r"beneath|"
    r"round the corner from)\s+(?:(?:the|a|an|her|his|their|our|my)\s+)?(?:\w+\s)?\Z"
)
#: "kitchen, wet room, porch - all in one location house".
_ALL_IN = re.compile(r"\s?[-,(]?\s?(?:all|both) (?:in|at|on) (?:one |the same |an? |the |her |his |their )?")
_LIST = re.compile(
    r"(?:\s(?:in|near|at|above)\s[a-z]+)?\s*(?:,|and|an(?= the\b)|n\b|&|\+|/|or|plus|then|,\s?and)\s*(?:(?:on|in|at|"
    r"from|by)\s)?(?:(?:a|an|the|our|their|his|her|"
    r"my|some|then|one|two|three|"
    r"private|public|old|big|small)\s){0,3}(?:[a-z]+\s)?"
)
_TRADE = re.compile(
    r"\b(?:a|an|small|local|family|indie|independent|little|family-run|they're|we're|we are|they are|runs?|"
    r"owns?|owner of|brand|client|"
    r"called|new|has|with|start(?:ed|ing)?|chain of|opening|boutique|craft|artisan|urban|micro|group of|"
    r"sells? to|suppl(?:y|ies)|two|"
    r"three|four|\d+|second|for)\s+(?:(?:a|an|the|small|local|family|indie|new|independent|run|craft|second|"
    r"third|own|design|little|tiny|old|"
    r"boutique)[\s-]+)*\Z"
)
_NO = re.compile(
    r"\b(?:no|not|without|never|don't(?: want| need)?|doesn't (?:want|need|like)|avoid|hates?|like|instead of|"
    r"rather than|isn't|"
    r"scratch|forget|away from|can't use|won't use)"
    r"(?: (?:at|in|on|by|the|a|an|any|our|their|another|going in))*\s*\Z"
)
_PICTURES_BEHIND = re.compile(
    r"'?\s?(?:owners?|pos|stockists?|stocks|manual|candles?|produce|eggs|shel(?:f|ves)|sites?|websites|windows|"
    r"manager|staff|brand|company|team|maker|menu|chain|sector|trade|"
    r"customers|sales|opening|website|services?|sets?|people|bit|trust|feel|vibe|style|look)\b"
)
#: "A courtyard we can use", "an old chapel, rented", "the pier for the rest".
_TO_USE = re.compile(
    r",?\s(?:after|once|when|before) (?:they|it|we|she|he) (?:close|shut|open)\w*\b|,?\safter closing\b|"
    r"\s(?:is|are) on (?:the )?\d{1,2}(?:st|nd|rd|th)\b|"
    r",?\s(?:(?:that |which )?we can use|to use|can be used|(?:is |are )?(?:available|rented|hired|booked|taken|free)|"
    r"for hire|to hire|"
    r"for (?:the |some )?(?:rest|packshots|heroes|lifestyle|portraits|details|others|stills))\b"
)
#: "never the cat on a kitchen bench".
_NONE_OF_IT = re.compile(r"\s*(?:no|never|not|nothing|don'?t)\s(?!only\b|just\b|\d)(?![^.;]*\bbut\b)")
_OF_CHILDREN = re.compile(r"\b(?:school|licen[cs]es?|chaperones?|kids|child|children|baby)\b")
#: "Barnaby, who runs the office".
_IN_CHARGE = re.compile(r"\b(?:runs|manages|heads|owns|in charge of|looks after) (?:the|her|his|their|our) \Z")
#: "gallery before Good Friday" is what is delivered.
_PROOFS = re.compile(
    r"\s(?:before|by|within|due|link|ready|live|up by|to (?:her|him|them))\b(?! (?:the|opening|they|it)\b)"
)
_STILL_UP = re.compile(r"\s(?:is |'s |will be )?(?:still |already )*(?:up|standing|in place|there)\b")
_HER_OWN = re.compile(r"\b(?:her|his|their|there|our) own (?:[a-z]+ )?\Z")
#: "Sat 27 June 9.30-12.30 village hall".
_FROM_TO = re.compile(
    r"\d(?:[.:]\d\d)?\s?(?:[ap]m)?\s?(?:-|to|til|till)\s?\d{1,2}(?:[.:]\d\d)?\s?(?:[ap]m)?,?\s(?:the |a )?\Z"
)
#: "10 finals: 3 single, 6 brewhouse".
_SO_MANY = re.compile(r"(?:^|[,:;+(]|\band|\bplus)\s*(?:\d{1,2}|one|two|three|four|five|six)\s\Z")
_ITEM_ENDS = re.compile(r"\s*(?:$|[,;+).])")
_PICTURES = re.compile(r"\b(?:finals?|pics?|pictures?|images|photos|shots|stills)\b")
_WANTS = re.compile(
    r"\s(?:wants?|needs?|rang|called|asks?|asked|sells?|makes?|launch\w*|would like|is (?:after|looking))\b"
)
_FORWARD_NAME = re.compile(
    r"\s(?:in|near|at|outside|above|by|of|on)\s(?:the\s)?((?:[A-Z][\w'-]+)(?:\s[A-Z][\w'-]+){0,2})"
)
_BACK_NAME = re.compile(r"((?:[A-Z][\w'-]+\s){1,2})\Z")
_NO_NAME = frozenset(
    [
        "shoot", "location", "locations", "the", "at", "in", "on", "by", "june", "july", "may", "march", "april",
        "august", "usage", "mon", "tue", "wed", "thu", "fri", "sat", "sun", "then", "and", "we", "half", "near",
        "place", "where", "old", "our", "their", "new", "no", "private", "public", "maybe", "first", "second",
        "one", "two", "a", "an", "day", "uk", "dark", "bright", "council", "from", "up", "tower", "royal", "every",
        "mood", "look", "date", "dates", "when", "shooting", "monday", "tuesday", "wednesday", "thursday",
        "friday", "saturday", "sunday",
    ]
)  # fmt: skip
#: Behind a place that the notes begin with: nothing, or where it is, and no noun that makes a name of it.
_ON_ITS_OWN = re.compile(
    r"\s*(?:$|[,.;!?)(:+-]|(?:at|in|near|by|on|above|outside|around|before|after|then|and|with|please|if|or|maybe)\b)"
)
_UNKNOWN = re.compile(
    r"(?:tbc|tba|tbd|unknown|not sure|to be|any|open|no\b|\?|don't know|we find|you choose|ideas|need to find|"
    r"\d+$|to confirm)"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], *, first_line: bool) -> list[Draft]:
    """Return the places of a sentence and what they and the acts named in it bring with them.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    first_line : bool
        Whether this is the first sentence, where a bare "bakery" is rather who calls.

    Returns
    -------
    list of Draft
        Drafts of kind `place`, `permission` and `hazard`.

    References
    ----------
    The usual caution: common practice, no source; data in ``lexicon/places.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("shoot on the beach").sentences[0]
    >>> drafts = read(line, package_lexicons().hits(line), first_line=False)
    >>> [(d.kind.value, getattr(d.value, "code", "")) for d in drafts]
    [('place', 'beach'), ('hazard', 'tide')]
    """
    text = sentence.text
    possible = [
        hit
        for hit in hits.get("place", ())
        if sentence.is_free(hit.start, hit.end)
        and not _NO.search(text[: hit.start])
        and not _covered(hits, hit)
        and not (text.startswith("scaffold", hit.start) and _STILL_UP.match(text, hit.end))
    ]
    sure = [
        hit
        for hit in possible
        if (_is_place(sentence, hit, opening=first_line) and not _is_outlet(sentence, hits, hit))
        or _is_premises(sentence, hits, hit, opening=first_line)
    ]
    found = _vouched(sentence, possible, sure or _in_a_row(sentence, possible, opening=first_line))
    if not sentence.topic and _NONE_OF_IT.match(text):
        found = []
    if sentence.topic in ("approver", "payer"):
        found = [hit for hit in found if hit.code not in ("clients", "shop", "eatery", "works")]
    drafts: list[Draft] = []
    named = [hit for hit in found if hit.code != "private_land" and not _COUNCIL.match(text, hit.start)]
    for hit in named or found:
        draft = _draft(sentence, hit)
        if not drafts or draft.span.start >= drafts[-1].span.end:
            drafts.append(draft)
    for hit in found:
        drafts += _implied(sentence, hit, ReasonCode.PLACE_IMPLIES)
    for hit in hits.get("act", ()):
        if (hit.code == "leave" and not found) or re.match(r"\s(?:no|none|nope)\b", text[hit.end :]):
            continue
        if hit.code in ("council", "permit_word") and (hits.get("school") or _OF_CHILDREN.search(text)):
            continue  # the council's licence for a child, not its leave for a place
        if not _NO.search(text[: hit.start]) and not (
            hit.code in ("animals", "weather", "fire") and _covered(hits, hit)
        ):
            drafts += _implied(sentence, hit, ReasonCode.ACT_IMPLIES)
    drafts += _rooms(sentence, hits, drafts)
    if not any(d.kind is DraftKind.PLACE for d in drafts):
        drafts += _labelled(sentence) if sentence.topic == "location" else _named(sentence)
    return drafts


def _vouched(sentence: Sentence, possible: list[Hit], sure: list[Hit]) -> list[Hit]:
    """Add what stands in a list with a sure place, and leave out what only says where that place is."""
    kept = list(sure)
    for hit in (*possible, *reversed(possible)):
        if hit in kept:
            continue
        for other in kept:
            first, second = (hit, other) if hit.start < other.start else (other, hit)
            gap = sentence.text[first.end : second.start]
            if _LIST.fullmatch(gap) or _ALL_IN.fullmatch(gap):
                kept.append(hit)
                break
    kept.sort(key=lambda hit: hit.start)
    kept = [a for n, a in enumerate(kept) if n + 1 == len(kept) or sentence.text[a.end : kept[n + 1].start] != " "]
    return [
        hit
        for number, hit in enumerate(kept)
        if not (
            number
            and not _ALL_IN.fullmatch(sentence.text[kept[number - 1].end : hit.start])
            and hit.start - kept[number - 1].end < 24
            and _BESIDE.search(sentence.text[kept[number - 1].end : hit.start])
        )
    ]


def _in_a_row(sentence: Sentence, possible: list[Hit], *, opening: bool) -> list[Hit]:
    """Return places that a sentence does nothing but list: "sports hall / court steps / campus cafe"."""
    if opening or len(possible) < 2 or sentence.topic not in ("", "location"):
        return []
    lead = sentence.text[: possible[0].start]
    gaps = [sentence.text[a.end : b.start] for a, b in itertools.pairwise(possible)]
    if len(lead.split()) > 2 or not all(_LIST.fullmatch(gap) for gap in gaps):
        return []
    return possible[:1]


def _is_outlet(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether a shop in a list of uses is one of them: "gift guides, web, her shop, insta"."""
    return (
        bool(hit.entry.data.get("business") or hit.code == "carriageway")
        and any(use.end <= hit.start or hit.end <= use.start for use in hits.get("placement", ()))
        and sentence.topic != "location"
        and not _PREPOSITION.search(sentence.text[: hit.start])
        and not _CUE.search(sentence.text[: hit.start])
    )


def _is_premises(sentence: Sentence, hits: dict[str, list[Hit]], hit: Hit, *, opening: bool) -> bool:
    """Return whether the client itself is a place that is pictured: a hotel, a library, a gym."""
    if not opening or len(sentence.text[: hit.start].split()) > 5:
        return False
    return any(h.start <= hit.start and hit.end <= h.end for h in hits.get("premises", ()))


def _draft(sentence: Sentence, hit: Hit) -> Draft:
    words, data = sentence.text[hit.start : hit.end], hit.entry.data
    start, end = _with_name(sentence, hit)
    reason = Reason(ReasonCode.PLACE_WORD, (("word", words),))
    if hit.typo_of:
        reason = Reason(ReasonCode.MISTYPED, (("word", words), ("meant", hit.typo_of)))
    value = PlaceValue(
        sentence.text[start:end].strip(),
        str(data.get("as", hit.code)),
        str(data.get("whose", "")),
        str(data.get("ask", "")),
    )
    return Draft(DraftKind.PLACE, value, sentence.span(start, end), sentence.line_no, reason)


def _covered(hits: dict[str, list[Hit]], hit: Hit) -> bool:
    """Return whether longer words of another table say something else ("shop window", "garden room")."""
    return any(
        other.start <= hit.start and hit.end <= other.end and other.end - other.start > hit.end - hit.start
        for table in ("placement", "product", "shape", "person", "approve", "pay", "region", "countnoun", "colour")
        for other in hits.get(table, ())
    )


def _is_place(sentence: Sentence, hit: Hit, *, opening: bool) -> bool:
    text, data = sentence.text, hit.entry.data
    before, words = text[: hit.start], text[hit.start : hit.end]
    if _PICTURES_BEHIND.match(text, hit.end) or re.match(r"\s\d+\s?(?:l|ml|cl|g|kg|cm|mm|m)\b", text[hit.end :]):
        return False
    if sentence.topic == "location":
        return True
    if data.get("business") and _WANTS.match(text, hit.end):
        return False
    if _IN_CHARGE.search(before) or (words == "gallery" and _PROOFS.match(text, hit.end)):
        return False
    if opening and _is_region(sentence, hit):
        return False
    if _HER_OWN.search(before) and not data.get("business"):
        return True
    if _FROM_TO.search(before) and _ITEM_ENDS.match(text, hit.end):
        return True
    if _SO_MANY.search(before) and _ITEM_ENDS.match(text, hit.end) and _PICTURES.search(before):
        return True
    if _TO_USE.match(text, hit.end) or (not opening and _SCENE_BEHIND.match(text, hit.end)):
        return True
    if re.search(r"\bshoot (?:it |them )?there\b", text[hit.end :]):
        return True
    if sentence.topic in (
        "props",
        "usage",
        "products",
        "negatives",
        "mood",
        "colours",
        "client",
        "budget",
    ) and not re.search(r"\b(?:shoot|shot|at|in)\b", before):
        return False
    if hit.code == "clients" and re.match(r"\s?(?:wants|says|needs|asks|will|team|is|has)\b", text[hit.end :]):
        return False
    if hit.code == "clients" and (
        re.search(r"\bfrom (?:the |their |our )?\Z", before) or re.search(r"\([^)]*\Z", before)
    ):
        return False
    if data.get("as") or hit.code in ("clients", "private_land") or re.match(r"(?:in|at|on|by)\s", words):
        return True
    found = _PREPOSITION.search(before)
    if found and not (data.get("business") and found.group().startswith("from")):
        talk = _SHOP_TALK.search(before[: found.start() + 1])
        return not talk or (not data.get("business") and talk.group().startswith("meet"))
    if found and data.get("business"):
        return False  # "straight from the factory"
    weak = bool(data.get("shy") and words.isalpha()) or words in data.get("weak", ())
    clause = sentence.clause(hit.start, hit.end)
    if data.get("business"):
        cued = re.search(
            r"\b(?:shoot|location|loc|place|hire|then|recce|and|book(?:ed)?|got|access|plus)\b[^,;]*\Z", before
        )
        if _TRADE.search(before) and not cued:
            return False
    if _CUE.search(before) or _PICTURE_OF.search(before) or _SPOTS.search(before):
        return True
    bare = re.fullmatch(
        r"\s*(?:(?:her|his|their|our|my|a|an|the|own|old|small|nice|big|empty|hired|rented|private|real|very|dark|bright|wild|wide|bare|[a-z]+'s)\s)*",
        text[clause.start : hit.start],
    )
    fragment = text[clause.start : clause.end].split()
    if re.search(r"\bnear (?:the |an? )?\Z", before):
        return False
    if weak and bare and _STANDS.match(text, hit.end):
        return not opening
    if (
        weak
        and len(fragment) <= 3
        and re.match(
            r"\s*(?:a|an|the|some|country|city|wet|quiet|empty|[a-z]{3,}ish|welsh|alpine|swiss|[a-z]{3,}ian)\s",
            text[clause.start : hit.start],
        )
    ):
        return not opening
    if (
        weak
        and not data.get("shy")
        and text[clause.start : clause.end].strip(" .,;!?") == words
        and len(sentence.words) > 2
    ):
        return not opening
    if opening and not weak and not data.get("business"):
        return len(text[clause.start : hit.start].split()) <= 2 and bool(_ON_ITS_OWN.match(text, hit.end))
    if weak or opening:
        return False
    short = len(text[clause.start : clause.end].split()) <= 4
    leads = len(text[clause.start : hit.start].split()) <= 2
    return short or leads


def _is_region(sentence: Sentence, hit: Hit) -> bool:
    """Return whether a place in capitals is where the client lives: "the winery in the Clare Valley"."""
    raw = sentence.raw
    if raw.isupper() or not raw[hit.start].isupper() or re.search(r"\b(?:shoot|shot|location)", sentence.text):
        return False
    return bool(re.search(r"\b[a-z]+ (?:in|of|from) (?:the )?(?:[A-Z][a-z]+ )+\Z", raw[: hit.start]))


def _with_name(sentence: Sentence, hit: Hit) -> tuple[int, int]:
    """Take along a name in capitals ("beach at Camber", "Camber Sands beach") and whose place it is."""
    start, end = hit.start, hit.end
    forward = _FORWARD_NAME.match(sentence.raw, end)
    if forward and forward.group(1).split()[0].lower() not in _NO_NAME and not sentence.raw.isupper():
        end = forward.end(1)
    back = _BACK_NAME.search(sentence.raw[:start])
    if back and back.start() and back.group(1).split()[0].lower() not in _NO_NAME and not sentence.raw.isupper():
        return back.start(1), end
    owner = re.search(r"\b([a-z]+(?:'s|s'))\s\Z", sentence.text[:start])
    return (owner.start(1), end) if owner else (start, end)


def _implied(sentence: Sentence, hit: Hit, code: ReasonCode) -> list[Draft]:
    words = sentence.text[hit.start : hit.end]
    reason, span = Reason(code, (("word", words),)), sentence.span(hit.start, hit.end)
    return [
        Draft(kind, ImpliedValue(str(item), words), span, sentence.line_no, reason)
        for kind, key in ((DraftKind.HAZARD, "hazards"), (DraftKind.PERMISSION, "permissions"))
        for item in hit.entry.data.get(key, ())
    ]


#: "in the art room", "reception, xray room".
_ROOM = re.compile(
    r"(?:\b(?:in|at|from|into|round)\s(?:the|an?|their|her|his|our)\s|(?:^|[,/+&]|\band)\s*(?:the\s)?)"
    r"(?P<name>(?!no\b|head|any\b|more\b|leg\b|show\b|the\b|this|that|each|every|one\b|two|three|whole|same|big\b|"
    r"small\b|"
    r"next\b|other|spare\b|enough|hotel|real|for\b|in\b|at\b|to\b|of\b|and\b|with\b)[a-z-]{3,}\s"
    r"(?:room|hall|shed|barn|suite|wing|cloister|quad))\b(?=\s*(?:[,/+&.;)]|$|and\b|at\b|on\b|with\b|w/|before\b|"
    r"for\b))"
)


def _rooms(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """Take rooms of any name: what they are called says little, "in the ... room" says enough."""
    if sentence.topic not in ("", "location") or sentence.index == 0 or _NONE_OF_IT.match(sentence.text):
        return []
    found = []
    for match in _ROOM.finditer(sentence.text):
        start, end = match.span("name")
        span = sentence.span(start, end)
        taken = any(h.start < end and start < h.end for h in hits.get("place", ())) or not sentence.is_free(start, end)
        if taken or any(d.span.start < span.end and span.start < d.span.end for d in drafts):
            continue
        reason = Reason(ReasonCode.PLACE_WORD, (("word", match["name"]),))
        value = PlaceValue(match["name"], "room", "", "owner")
        found.append(Draft(DraftKind.PLACE, value, span, sentence.line_no, reason))
    return found


_NAMED = re.compile(
    r"\b(?:[Ss]hoot(?:ing)?|[Ss]hot|[Oo]n location|[Ll]ocation)(?:'s| is| will be|"
    r" would be)?(?: on location)? (?:in|at|near|on) "
    r"(?P<name>[A-Z][\w'-]+(?: (?:[A-Z][\w'-]+|of|on|the)){0,3})"
)


def _named(sentence: Sentence) -> list[Draft]:
    """ "Shoot in Lisbon": a place that is only named, in capitals."""
    match = _NAMED.search(sentence.raw)
    if not match or sentence.raw.isupper():
        return []
    name = match["name"].removesuffix(" of").removesuffix(" on").removesuffix(" the")
    first = name.split()[0].lower()
    if (
        first in _NO_NAME
        or first[:3] in (*MONTHS, *WEEKDAYS)
        or not sentence.is_free(match.start("name"), match.end("name"))
    ):
        return []
    start, end = match.start("name"), match.start("name") + len(name)
    reason = Reason(ReasonCode.PLACE_WORD, (("word", name.lower()),))
    value = PlaceValue(sentence.text[start:end], "other")
    return [Draft(DraftKind.PLACE, value, sentence.span(start, end), sentence.line_no, reason)]


def _labelled(sentence: Sentence) -> list[Draft]:
    """A label "location:" makes whatever follows a place, unless it is a question or nothing is known yet."""
    text = sentence.text
    colon = re.match(r"[a-z ]{2,20}(?::|=|\s-|\s*\||\s{2})\s*", text)
    start = colon.end() if colon else 0
    rest = text[start:]
    piece = re.match(r"[^,;.?!(]+", rest)
    if not re.search(r"[a-z]{3}", rest) or _UNKNOWN.match(rest) or not piece or len(piece.group().split()) > 7:
        return []
    end = start + len(piece.group().rstrip())
    reason = Reason(ReasonCode.PLACE_WORD, (("word", text[start:end]),))
    return [
        Draft(
            DraftKind.PLACE, PlaceValue(text[start:end], "other"), sentence.span(start, end), sentence.line_no, reason
        )
    ]
