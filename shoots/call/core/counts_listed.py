"""Lists of pictures: "8 packshots, 3 in situ, 1 group", "ext 6 / int 8", "five ambient and ten product shots"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.count_words import LIST_END, NOT_BEHIND, draft_of, is_pictures, per_of
from shoots.call.core.drafts import CountOf, CountValue, Draft, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.numbers import Quantity
from shoots.call.core.spans import Sentence, Span

#: What may stand between two items of a list.
_JOIN = r"(?:[,;:+&(.]|/(?=\s)|\s-|-?>|\band\b|\bplus\b|\bthen\b|\bwith\b|\balso\b)"
_JOINED = re.compile(
    rf"(?:^\s*[-*]?|{_JOIN})\s*(?:"
    rf"(?:in addition|additionally|and|plus|then|also|another|about|maybe|the|with|we need|need|wants?)\s)*\Z"
)
_BODY = re.compile(r"\s?(?:x\s|no\.? |more |extra |additional |different )?(?:[a-z'-]+\s){0,2}\Z")
_NO_BODY = re.compile(
    r"\b(?:and|or|with|in|on|at|for|by|from|to|is|are|was|per|each|every|plus|then|of|the|a|an|no|not|days?|hours?|"
    r"weeks?|months?|years?|people|models?|kids?|staff|videos?|clips?|films?|reels?|gifs?|min|mins|sec|second|team)\b"
)
#: "8 knives on slate" are knives.
_PLURAL = re.compile(r"[a-rt-z]s\s\Z")
_OF_EACH = re.compile(r"\beach\b|\bper\b|\bangles?\b|\bviews\b|\bfronts?\b|\bx\s?\d|\bevery\b")
_TAIL = re.compile(
    r"\s*(?:$|[,;:.!?()+&=/]|-\s|\d|(?:of|in|on|at|with|for|from|and|plus|then|each|every|per|to|by|w|incl|inc|"
    r"shots?|pics?|pictures?|images?|photos?|ones?|total|altogether|so|too|please|if|one|two|three|four|five|six|"
    r"showing|featuring|where|which|that|as)\b)"
)
_PREPOSITION = re.compile(
    r"\s(?:more )?(?:of|on|with|w|showing|in|at|from|w/)\s(?!(?:them|those|these|which|total|all|each|every|the day|"
    r"day|advance|a row|mind|stock|may|june|july|april|march|(?:aug|sept?|oct|nov|dec|jan|feb)\w*|\d)\b)"
    r"(?:an? )?[a-z]{2,}"
)
_BRACKETED = re.compile(r"\(\d{1,2}\)")
#: "3 bits x 3 = 9, + 3 on the horse".
_SUM_BEFORE = re.compile(r"=\s*\d{1,3}\s*[,;]?\s*(?:and|plus|then)?\s*\+?\s*\Z")
_WHOLE_LINE = re.compile(
    r"\s(?:of|with|in|on|from) (?:(?:the|our|his|her|their|an?) )?(?!\w+ (?:will|are|is|have|has|can|were|live|work))"
    r"[a-z'-]+(?: [a-z'-]+){0,2}\.?\s*"
)
#: "+ 3 cellar": a number above one and a noun in the singular.
_ELLIPTIC = re.compile(
    r"\s(?!overall|extra|more|new|spare|tops|each|apiece|dozen|hundred)(?P<noun>[a-z]{3,}(?<!s)(?<!people)(?<!men))(?=\s*(?:$|[,;)+&=/]|\s-\s|and\b|plus\b|total\b|\.(?:\s|$)))"
)
_LABEL = re.compile(
    rf"(?:^\s*|{_JOIN}\s*|\band )(?P<label>[a-z][a-z'-]*(?:\s(?:[+&]\s|and\s)?[a-z][a-z'-]*){{0,2}})\s*"
    rf"(?:x\s?|\.{{2,}}\s*|:\s?|-\s|\(|\s)\Z"
)
#: Labels of numbers that count no pictures.
NO_LABEL = re.compile(
    r"\A(?:room|option|look|day|version|page|size|sizes|unit|level|phase|part|stage|setup|set|number|plan|year|group|team)\Z|"
    r"\b(?:days|no|week|answer|count|age|aged|about|around|than|least|to|for|in|at|on|by|from|of|is|are|we|they|she|he|need|needs|want|wants|"
    r"the|a|until|till|before|after|jan|feb|mar|apr|may|jun|june|jul|july|aug|sept?|oct|nov|dec|mon|tues?|wed|thurs?|"
    r"fri|sat|sun|models?|people|kids?|staff|budget|fee|shoot|location|locations|outfits?|or|make|that|only|just|not|"
    r"actually|max|maybe|call|now|later|again|said|says|oldest|youngest|eldest|delivery|deliver|delivered|usage|licence|license|term|deadline|ref|invoice|po|job|tel|phone|floor|suite|pages?|chapter|issue|volume|route|platform|gate|table|seat|price|cost|rate|so|that's|total|makes|altogether|comes|each|was|had|has|video|videos|reels?|films?|clips?|plus|and|another|then|with|also|all|up)\b"
)
_ADJECTIVE = re.compile(r"\s(?P<word>[a-z-]{3,}(?<!s))(?:\s?(?:,|and\b|&|\+|plus\b)\s*(?:and )?)\Z")
#: "+ exterior", "plus the whole team", "and a line-up".
_SINGLE = re.compile(r"(?:(?:\+|\bplus)\s(?:(?:an?|one|the|1)\s)?|(?:\band|,|&)\s(?:an?|one|1)\s)(?:[a-z-]+\s)?\Z")
#: "cover + 4 inside pics".
_LEADS = re.compile(
    r"\s*(?:\+|plus)\s*(?:\d|one|two|three|four|five|six|seven|eight|nine|ten|twelve|a (?:couple|few|dozen))"
)
#: "7 pics + 1 stack": one more of anything that is no person, place or time.
_ONE_MORE = re.compile(r"\s*(?:\+|\bplus)\s*(?:1|one)\s(?:[a-z-]+\s)?(?P<noun>[a-z-]{3,})\s*(?:$|[,;.)+=])")
_EACH_BEHIND = re.compile(r"\s(?:(?:of |for )?each|per [a-z]+|apiece)\b")
_STILL = re.compile(r"\s?(?:shots?|pics?|pictures?|images?|photos?)\b")


def read(
    sentence: Sentence,
    hits: dict[str, list[Hit]],
    counts: Sequence[Quantity],
    used: set[int],
    drafts: Sequence[Draft],
    *,
    going_on: bool = False,
) -> list[Draft]:
    """Return the items of a list of pictures whose own noun is only a picture's there.

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
        Whether the line or sentence before it counted pictures.

    Returns
    -------
    list of Draft
        Drafts of kind `count`.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.numbers import quantities
    >>> from shoots.call.core.spans import cut
    >>> line = cut("2 wide, 4 in situ, 1 group").sentences[0]
    >>> found = read(line, package_lexicons().hits(line), quantities(line.text), set(), (), going_on=True)
    >>> [d.value.maximum for d in found]
    [2, 4, 1]
    """
    known = [d for d in drafts if is_pictures(d) or _is_angles(d)]
    if not (known or going_on or hits.get("pictorial") or len(counts) > 2 or "=" in sentence.text):
        return []
    found = _items(sentence, hits, counts, used, known, going_on=going_on)
    found += _singles(sentence, hits, [*drafts, *found])
    more = _one_more(sentence, hits, counts, [*drafts, *found])
    return [*found, more] if more else found


def _is_angles(draft: Draft) -> bool:
    return isinstance(draft.value, CountValue) and draft.value.of is CountOf.ANGLES


def _items(
    sentence: Sentence,
    hits: dict[str, list[Hit]],
    counts: Sequence[Quantity],
    used: set[int],
    known: Sequence[Draft],
    *,
    going_on: bool,
) -> list[Draft]:
    text = sentence.text
    named = sorted((*hits.get("pictorial", ()), *hits.get("countnoun", ())), key=lambda h: (h.start, -h.end))
    sure: list[tuple[int, int, int]] = []
    leaning: list[tuple[int, int, int]] = []
    labelled: set[int] = set()
    last_end, summed = -1, False
    for index, quantity in enumerate(counts):
        if index in used or NOT_BEHIND.match(text, quantity.end):
            continue
        joined = _JOINED.search(text[: quantity.start]) or quantity.start - last_end == 1
        end = _named_end(text, quantity, named) if joined else 0
        if end:
            sure.append((index, quantity.start, end))
            last_end = end
            continue
        summed = summed or bool(_SUM_BEFORE.search(text[: quantity.start]))
        earlier = going_on or summed or any(d.span.end <= sentence.offset + quantity.start for d in known) or sure
        body = _PREPOSITION.match(text, quantity.end) if joined and earlier else None
        if body and (text[: quantity.start].strip(" -*") or _WHOLE_LINE.fullmatch(text, quantity.end)):
            leaning.append((index, quantity.start, body.end()))
            continue
        if joined and earlier and (noun := _ELLIPTIC.match(text, quantity.end)) and (quantity.minimum or 0) > 1:
            taken = ("person", "colour", "shape", "holiday", "countnoun", "month", "crop")
            if not NO_LABEL.search(noun["noun"]) and not any(
                noun.start("noun") <= h.start < noun.end("noun") for t in taken for h in hits.get(t, ())
            ):
                leaning.append((index, quantity.start, noun.end("noun")))
                continue
        label = _label_before(text, quantity, hits)
        if label is not None:
            leaning.append((index, label, quantity.end))
            labelled.add(index)
            continue
        later = next((d for d in known if d.span.start > sentence.offset + quantity.end), None)
        if later and (index + 1) < len(counts) and joined:
            until = counts[index + 1].start
            word = _ADJECTIVE.fullmatch(text[quantity.end : until])
            if word and not _NO_BODY.search(word["word"]) and not NO_LABEL.search(word["word"]):
                leaning.append((index, quantity.start, until))
    shared = len(labelled) > 2 and len(labelled) == len(counts)
    if not known and not going_on and not summed and not shared and not _stands_alone(text, sure, leaning):
        return []
    if not known and not sure and going_on and len(leaning) < 2:
        leaning = [item for item in leaning if item[0] not in labelled]
    found = []
    for index, start, end in sorted({*sure, *leaning}):
        quantity = counts[index]
        used.add(index)
        sentence.claim(quantity.start, quantity.end)
        value = CountValue(
            CountOf.OTHERS,
            quantity.minimum,
            quantity.maximum,
            quantity.approximate,
            per_of(text, max(end, quantity.end), quantity.start),
        )
        words = (("number", text[quantity.start : quantity.end]), ("noun", text[start:end]))
        found.append(draft_of(sentence, value, start, end, Reason(ReasonCode.NUMBER_AND_NOUN, words)))
    return found


def _one_more(
    sentence: Sentence, hits: dict[str, list[Hit]], counts: Sequence[Quantity], drafts: Sequence[Draft]
) -> Draft | None:
    """ "7 pics + 1 stack": what is plainly added to pictures is one."""
    for draft in drafts:
        end = draft.span.end - sentence.offset
        more = _ONE_MORE.match(sentence.text, end) if is_pictures(draft) else None
        if not more or _NO_BODY.search(more.group().lstrip(" +plus")) or NO_LABEL.search(more["noun"]):
            continue
        tables = ("person", "place", "countnoun", "holiday", "weekday", "crop", "placement")
        if any(more.start() <= h.start < more.end() for t in tables for h in hits.get(t, ())):
            continue
        at = next((q for q in counts if end <= q.start < more.end()), None)
        if at is None or any(d.span.start <= sentence.offset + at.start < d.span.end for d in drafts):
            continue
        sentence.claim(at.start, at.end)
        words = (("number", sentence.text[at.start : at.end]), ("noun", more["noun"]))
        value = CountValue(CountOf.OTHERS, 1, 1)
        return draft_of(sentence, value, at.start, more.end("noun"), Reason(ReasonCode.NUMBER_AND_NOUN, words))
    return None


def _stands_alone(text: str, sure: Sequence[tuple[int, int, int]], leaning: Sequence[tuple[int, int, int]]) -> bool:
    """Return whether items without any picture's noun are pictures: two named ones, or one "each"."""
    if not sure:
        return False
    still = _STILL.match(text, sure[0][2]) or _EACH_BEHIND.match(text, sure[0][2])
    return len(sure) > 1 or bool(leaning) or bool(still)


def _named_end(text: str, quantity: Quantity, named: Sequence[Hit]) -> int:
    """Return where the words of an item end whose noun can name a picture, 0 when there is none."""
    for hit in named:
        if hit.start < quantity.end:
            continue
        gap = text[quantity.end : hit.start]
        if len(gap) > 24 or not _BODY.fullmatch(gap) or _NO_BODY.search(gap):
            return 0
        if _PLURAL.search(gap) and (hit.code != "ground" or _OF_EACH.search(text, hit.end)):
            return 0
        return hit.end if hit.entry.table == "pictorial" and _TAIL.match(text, hit.end) else 0
    return 0


def _label_before(text: str, quantity: Quantity, hits: dict[str, list[Hit]]) -> int | None:
    """Return where "pool 2" begins; its number must end an item."""
    if not LIST_END.match(text, quantity.end) and not re.match(r"\s*/\s", text[quantity.end :]):
        return None
    label = _LABEL.search(text[: quantity.start])
    bracket = text[: quantity.start].endswith("(")
    if not label or (bracket and len(_BRACKETED.findall(text)) < 2) or NO_LABEL.search(label["label"]):
        return None
    at = Span(label.start("label"), label.end("label"))
    others = ("person", "colour", "shape", "holiday")
    return None if any(h.start < at.end and at.start < h.end for t in others for h in hits.get(t, ())) else at.start


def _singles(sentence: Sentence, hits: dict[str, list[Hit]], drafts: Sequence[Draft]) -> list[Draft]:
    """ "3 rooms x 4 pics + exterior": one more picture that is only named."""
    text, found = sentence.text, list[Draft]()
    if not any(is_pictures(d) for d in drafts):
        return []
    for hit in hits.get("pictorial", ()):
        before = _SINGLE.search(text[: hit.start])
        words = text[hit.start : hit.end]
        leads = not text[: hit.start].strip(" -*") or text[: hit.start].rstrip().endswith((":", "("))
        if hit.code in ("way", "group") and leads and _LEADS.match(text, hit.end):
            reason = Reason(ReasonCode.NUMBER_AND_NOUN, (("number", "1"), ("noun", words)))
            found.append(draft_of(sentence, CountValue(CountOf.OTHERS, 1, 1), hit.start, hit.end, reason))
            continue
        if not before or not _TAIL.match(text, hit.end) or (words.endswith("s") and not words.endswith("ss")):
            continue
        span = sentence.span(before.start(), hit.end)
        if any(d.span.start < span.end and span.start < d.span.end for d in drafts if isinstance(d.value, CountValue)):
            continue
        earlier = any(is_pictures(d) and d.span.end <= span.start for d in drafts)
        if not earlier or not sentence.is_free(hit.start, hit.end) or per_of(text, hit.end, hit.start):
            continue
        reason = Reason(ReasonCode.NUMBER_AND_NOUN, (("number", "1"), ("noun", words)))
        start = before.start() + len(before.group()) - len(before.group().lstrip("+,& "))
        found.append(draft_of(sentence, CountValue(CountOf.OTHERS, 1, 1), start, hit.end, reason))
    return found
