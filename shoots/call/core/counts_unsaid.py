"""Numbers whose noun was said before or goes without saying: "and five of the bar", "2 per look", "a set of ten"."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

from shoots.call.core import counts_each, counts_listed
from shoots.call.core.count_words import LIST_END, NOT_BEHIND, SET_OF, draft_of, is_pictures, per_of
from shoots.call.core.drafts import CountOf, CountValue, Draft, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import Quantity, quantities
from shoots.call.core.spans import Sentence, stem

_ELLIPSIS = re.compile(
    r"(?:\bin addition|\badditionally|\balso|\bthen|\band|,|\bplus|\+|&|\s-|:)\s*(?:another |about |maybe |then )?\Z"
)
_WANTED = re.compile(
    r"\b(?:select|choose|pick|needs?|wants?|(?:is|are|'s|'re|'m) after|looking for|deliver(?:ing)?|would like|"
    r"'d like|get|hoping for|"
    r"thinking)\s*\Z"
)
_OF_THOSE = re.compile(r"\s?of (?P<which>the|these|those|them|my|our)\b\s?")
_WORD = re.compile(r"[a-z]{3,}")
_OUT_OF_THEM = re.compile(r"\bof (?:these|those|them|which),?\s(?:about |maybe )?\Z")
_PICTURES_OF = re.compile(
    r"\b(?:pictures?|pics?|images?|photos?|shots?|stills?|portraits?|details?) (?:of|from|in|at) "
)
_MORE_ONES = re.compile(r"\s(?!of\b)(?:[a-z]+\s){0,2}ones\b")
_THINGS_EACH = re.compile(r"\s(?P<noun>[a-z-]{3,}s)\s(?:each|apiece)\b")
_AT = re.compile(r"\bat\s(?:about |around )?\Z")
_SETS_OF = re.compile(r"\b(?:sets|series|groups|batches) of\s*\Z")
_SHARE = re.compile(
    r"(?:\w+ )?(?:heroe?s?|images|pics|pictures|photos|shots|finals|lot|set|details|portraits|stills|files|crops)\b"
)
_GOES_ON = re.compile(r"[^,;.+&]{0,24}\s*(?:,|\+|&|\band\b|\bplus\b)\s*(?:and |plus |then )?")
_TIMES = re.compile(
    r"^(?:days|hours|weeks|months|years|minutes|mins|hrs|times|versions|rounds|revisions|seasons|options)$"
)
_OF_WHAT = re.compile(
    r"\s(?:of (?:the |her |his |their |our |my )?(?!them|those|these|which|you|us|each)[a-z]{3,}|"
    r"for (?:the |their |our )?(?:web|website|site|print|press|social|socials|insta\w*|stories|posters?|shop|pr|"
    r"brochure)\b)"
)


def is_of_those(text: str, start: int, end: int) -> bool:
    """Return whether a number is a share of what was named ("two of the heroes in 9:16") and counts nothing new.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    start : int
        Where the number begins.
    end : int
        Where it ends.

    Returns
    -------
    bool
        False also for "8 pics of the shop and five of the owner", where the noun was said before.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_of_those("two of the heroes", 0, 3), is_of_those("8 pics of the shop and five of the owner", 23, 27)
    (True, False)
    """
    if _OUT_OF_THEM.search(text[:start]):
        return True  # "50 packshots; of these 10 also on a model"
    if not (share := _OF_THOSE.match(text, end)):
        return False
    begins = not text[:start].strip(" -*") and len(text) < 40
    if _SHARE.match(text, share.end()) or not (begins or _ELLIPSIS.search(text[:start])):
        return True
    noun = _WORD.match(text, share.end())
    return share["which"] in ("these", "those", "them") or not noun or stem(noun.group()) in text[:start]


def read(
    sentence: Sentence,
    hits: dict[str, list[Hit]],
    counts: Sequence[Quantity],
    used: set[int],
    drafts: Sequence[Draft],
    *,
    going_on: bool = False,
) -> list[Draft]:
    """Return the numbers of a sentence whose noun was said before or goes without saying.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    counts : sequence of Quantity
        Its numbers.
    used : set of int
        Which of them were read; more are added.
    drafts : sequence of Draft
        What was counted in it so far.
    going_on : bool
        Whether what stood before it counted pictures.

    Returns
    -------
    list of Draft
        Drafts of kind `count`.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("a set of ten").sentences[0]
    >>> [d.value.maximum for d in read(line, {}, quantities(line.text), set(), ())]
    [10]
    """
    text = sentence.text
    found: list[Draft] = _of_people(sentence, hits, drafts) + _of_kind(sentence, counts, used)
    pictures = [d for d in (*drafts, *found) if is_pictures(d)]
    for index, quantity in enumerate(counts):
        if index in used or NOT_BEHIND.match(text, quantity.end) or not sentence.is_free(quantity.start, quantity.end):
            continue
        before, words = text[: quantity.start], (("number", text[quantity.start : quantity.end]), ("noun", ""))
        earlier = [d for d in pictures if d.span.end <= sentence.offset + quantity.start]
        per = per_of(text, quantity.end, quantity.start)
        if per == "each" and _AT.search(before):
            continue  # "extra ones at 60 each" is a price
        things = _THINGS_EACH.match(text, quantity.end)
        if things and not any(
            things.start("noun") == h.start for t in ("pictorial", "countnoun") for h in hits.get(t, ())
        ):
            continue  # "5 dogs, 2 coats each": coats
        of, reason = None, Reason(ReasonCode.NUMBER_AND_NOUN, words)
        if per and earlier and before.rstrip().endswith("("):
            continue  # "14 cutouts (2 per style)" says how the 14 come about
        if earlier and _MORE_ONES.match(text, quantity.end) and re.search(r"(?:\band|\bplus|[,+&])\s*\Z", before):
            of = CountOf.PICTURES  # "one big picture and four little ones"
        elif (
            earlier
            and _ELLIPSIS.search(before)
            and re.match(r"\s(?:of|for|in|from|on|with) (?!them|those|which|these|total|all)", text[quantity.end :])
        ) or (earlier and _ELLIPSIS.search(before) and _couple_of(sentence, hits, quantity)):
            of = earlier[-1].value.of if isinstance(earlier[-1].value, CountValue) else None
            of = CountOf.PICTURES if of is CountOf.FINALS else of
        elif (
            per
            and (per != "each" or re.search(r"(?:^|[a-z]s?,?)\s*(?:and |with |so )?\Z", before))
            and not re.match(
                r"\s?/\s?\d|\s(?:orientations?|formats?|crops?|ratios?|versions?|sizes?|"
                r"glazes|finishes|fabrics|colou?rs|colou?rways|flavou?rs|shades|scents|parts|boxes)\b",
                text[quantity.end :],
            )
        ):
            of = CountOf.PICTURES
        elif (
            not pictures
            and not text[quantity.end :].lstrip().startswith(")")
            and re.search(r"\b(?:pictures|pics|images|photos|photographs|shots)\b", before)
            and text[
                sentence.clause(quantity.start, quantity.end).start : sentence.clause(quantity.start, quantity.end).end
            ].strip(" .")
            == text[quantity.start : quantity.end].strip()
        ):
            of = CountOf.PICTURES  # "some pictures for the leaflet, about ten"
        elif _SETS_OF.search(before) and LIST_END.match(text, quantity.end):
            of = CountOf.PICTURES  # "two sets of six"
        elif SET_OF.search(before) and LIST_END.match(text, quantity.end):
            of = CountOf.PICTURES
        elif (
            _WANTED.search(before)
            and not re.search(r"\bshoot \d", text)
            and re.match(
                r"\s*(?:$|[.;!?)]|from\b|to start|to begin|,? (?:maybe|max|tops|ideally|at most)|in all|or so)",
                text[quantity.end :],
            )
        ):
            of, reason = CountOf.PICTURES, Reason(ReasonCode.LABEL_AND_NUMBER, words)
        if of is None:
            continue
        used.add(index)
        sentence.claim(quantity.start, quantity.end)
        value = CountValue(of, quantity.minimum, quantity.maximum, quantity.approximate, per)
        found.append(draft_of(sentence, value, quantity.start, quantity.end, reason))
    found += counts_each.read(sentence, [*drafts, *found])
    found += counts_listed.read(sentence, hits, counts, used, [*drafts, *found], going_on=going_on)
    found += _list_of(sentence, [*drafts, *found])
    return found + _listed_on(sentence, hits, counts, used, [*drafts, *found])


#: "headshots of the cast (11)".
_HEADS = re.compile(r"\b(?:headshots?|portraits?) of (?:the |our |all |their )*[a-z]+(?:\s[a-z]+)? \((?P<n>\d{1,2})\)")
#: "8 studio: each of 4 bikes", "6 outdoor, 4 indoor": pictures by where they are taken.
_WHERE = re.compile(
    r"\s(?:studio|outdoors?|indoors?|on[ -]location|exterior|interior|wide|close|tight)"
    r"\s?(?:$|[:;,+.&]|and\b|plus\b|w/)"
)


def _couple_of(sentence: Sentence, hits: dict[str, list[Hit]], quantity: Quantity) -> bool:
    """Return whether "a couple of the reception" are pictures of it."""
    said = sentence.text[quantity.start : quantity.end].rstrip()
    noun = re.match(r"\s(?:the|our|his|her|their)\s[a-z]{3,}", sentence.text[quantity.end :])
    if not said.endswith(" of") or not noun:
        return False
    end = quantity.end + noun.end()
    return not any(quantity.end <= hit.start < end for hit in hits.get("person", ()))


def _of_kind(sentence: Sentence, counts: Sequence[Quantity], used: set[int]) -> list[Draft]:
    """Pictures that are only called by where they are taken, and portraits whose number stands behind in brackets."""
    found = []
    heads = list(_HEADS.finditer(sentence.text)) if "(" in sentence.text else []
    for index, quantity in enumerate(counts):
        head = next((m for m in heads if m.start("n") == quantity.start), None)
        begins = not sentence.text[: quantity.start].strip(" -*") or sentence.text[: quantity.start].rstrip().endswith(
            (",", "+", "&", ";", ":", " and")
        )
        where = _WHERE.match(sentence.text, quantity.end) if begins else None
        if index in used or not (head or where) or not sentence.is_free(quantity.start, quantity.end):
            continue
        used.add(index)
        sentence.claim(quantity.start, quantity.end)
        of = CountOf.PORTRAITS if head else CountOf.OTHERS
        start, end = (head.start(), head.end()) if head else (quantity.start, quantity.end)
        words = (("number", sentence.text[quantity.start : quantity.end]), ("noun", sentence.text[start:end]))
        value = CountValue(of, quantity.minimum, quantity.maximum, quantity.approximate)
        found.append(draft_of(sentence, value, start, end, Reason(ReasonCode.NUMBER_AND_NOUN, words)))
    return found


def _list_of(sentence: Sentence, drafts: Sequence[Draft]) -> list[Draft]:
    """ "4 of the shop, 4 of the kitchen", "10 for web and 4 for print": pictures that nobody called so."""
    text = sentence.text
    if any(isinstance(d.value, CountValue) for d in drafts):
        return []
    items = [q for q in quantities(text) if _OF_WHAT.match(text, q.end) and sentence.is_free(q.start, q.end)]
    if len(items) < 2 or any(
        not re.fullmatch(r"[^.;]{3,36}(?:,|\band|\+|&|\bplus)\s*(?:and )?", text[a.end : b.start])
        for a, b in itertools.pairwise(items)
    ):
        return []
    found = []
    for quantity in items:
        sentence.claim(quantity.start, quantity.end)
        value = CountValue(CountOf.PICTURES, quantity.minimum, quantity.maximum, quantity.approximate)
        words = (("number", text[quantity.start : quantity.end]), ("noun", ""))
        reason = Reason(ReasonCode.NUMBER_AND_NOUN, words)
        found.append(draft_of(sentence, value, quantity.start, quantity.end, reason))
    return found


def _listed_on(
    sentence: Sentence, hits: dict[str, list[Hit]], counts: Sequence[Quantity], used: set[int], drafts: Sequence[Draft]
) -> list[Draft]:
    """Read on in a list of pictures whose next noun is in no lexicon: "14 portraits, 6 interiors, 4 animals"."""
    text, found = sentence.text, list[Draft]()
    for index, quantity in enumerate(counts):
        earlier = [d for d in (*drafts, *found) if is_pictures(d) and d.span.end <= sentence.offset + quantity.start]
        if index in used or len(earlier) < 2 or not sentence.is_free(quantity.start, quantity.end):
            continue
        last = max(earlier, key=lambda d: d.span.end).span.end - sentence.offset
        noun = re.match(r"\s(?:[a-z-]+\s){0,2}(?P<noun>[a-z-]{3,}s)\b", text[quantity.end :])
        if not noun or not _GOES_ON.fullmatch(text[last : quantity.start]) or NOT_BEHIND.match(text, quantity.end):
            continue
        end = quantity.end + noun.end()
        other = ("person", "place", "product", "placement", "shape", "countnoun")
        if any(quantity.end <= h.start < end for table in other for h in hits.get(table, ())) or _TIMES.search(
            noun["noun"]
        ):
            continue
        used.add(index)
        sentence.claim(quantity.start, quantity.end)
        words = (("number", text[quantity.start : quantity.end]), ("noun", noun["noun"]))
        value = CountValue(CountOf.OTHERS, quantity.minimum, quantity.maximum, quantity.approximate)
        found.append(draft_of(sentence, value, quantity.start, end, Reason(ReasonCode.NUMBER_AND_NOUN, words)))
    return found


def each_of_what(
    sentence: Sentence, counts: Sequence[Quantity], used: set[int], drafts: Sequence[Draft]
) -> list[Draft]:
    """Return what "each" is of when its noun is in no lexicon: "8 terriers, 2 pics each".

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    counts : sequence of Quantity
        Its numbers.
    used : set of int
        Which of them were read; one may be added.
    drafts : sequence of Draft
        What was counted in it so far.

    Returns
    -------
    list of Draft
        At most one count of products.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("8 terriers").sentences[0]
    >>> each_of_what(line, quantities(line.text), set(), ())
    []
    """
    each = [d for d in drafts if isinstance(d.value, CountValue) and d.value.per == "each"]
    if not each or any(isinstance(d.value, CountValue) and not d.value.per for d in drafts):
        return []
    for index, quantity in enumerate(counts):
        noun = re.match(r"\s(?:[a-z]+\s){0,2}(?P<noun>[a-z]{3,}s)\b", sentence.text[quantity.end :])
        if index not in used and noun and sentence.offset + quantity.end < each[0].span.start:
            used.add(index)
            words = (("number", sentence.text[quantity.start : quantity.end]), ("noun", noun["noun"]))
            value = CountValue(CountOf.PRODUCTS, quantity.minimum, quantity.maximum, quantity.approximate)
            end = quantity.end + noun.end()
            return [draft_of(sentence, value, quantity.start, end, Reason(ReasonCode.NUMBER_AND_NOUN, words))]
    return []


def _of_people(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """ "Headshots for 22 people", "14 partners need portraits": one picture of each."""
    text = sentence.text
    found = []
    for noun in hits.get("countnoun", ()):
        if noun.code != "portraits" or any(
            d.span.start < sentence.offset + noun.end and sentence.offset + noun.start < d.span.end for d in drafts
        ):
            continue
        for quantity in quantities(text):
            behind = re.fullmatch(r"\s(?:for|of)\s(?:the |our |all |their |all the )*", text[noun.end : quantity.start])
            ahead = quantity.end < noun.start and re.fullmatch(
                r"\s(?:[a-z]+\s){0,3}(?:[a-z]+\s?[,:-]|(?:who )?(?:all )?(?:needs?|wants?|get|"
                r"require))\s(?:new |a |their |updated |fresh |individual |one |each )*",
                text[quantity.end : noun.start],
            )
            person = any(
                quantity.end <= hit.start <= quantity.end + 16
                for t in ("person", "countnoun")
                for hit in hits.get(t, ())
                if t == "person" or hit.code == "people"
            )
            if (behind or ahead) and person:
                words = (("number", text[quantity.start : quantity.end]), ("noun", text[noun.start : noun.end]))
                value = CountValue(CountOf.PORTRAITS, quantity.minimum, quantity.maximum, quantity.approximate)
                start, end = min(noun.start, quantity.start), max(noun.end, quantity.end)
                found.append(draft_of(sentence, value, start, end, Reason(ReasonCode.NUMBER_AND_NOUN, words)))
                break
    return found
