"""The feeling of the pictures: words that lean to the dark or to the bright pole."""

from __future__ import annotations

import re
from collections.abc import Iterable

from shoots.call.core.drafts import Draft, DraftKind, MoodValue, Pole, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence

_NOT = re.compile(
    r"\b(?:not|nothing|no|never|without|isn't|don't want|avoid|less|rather than|instead of|nor|un|hates?|"
    r"neither|not so|doesn't want)(?: (?:it|too|so|very|any|be|to|the|a|all|that|really|look|looking|feel|"
    r"anything|super|overly))*\s*\Z|\bif (?:it's|its|it is) (?:too )?\Z"
)
_CHAIN = re.compile(
    r"\s*(?:,|and|&|\+|/|but|yet|-|with|then)?\s*(?:very |really |quite |super |a bit |nice |nicely |all )?\Z"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]]) -> list[Draft]:
    """Return the words of mood in a sentence; a weak word counts only in company.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.

    Returns
    -------
    list of Draft
        Drafts of kind `mood`.

    References
    ----------
    Trade words: common practice, no source; data in ``lexicon/mood.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> line = cut("moody, one dark chocolate bar, not airy").sentences[0]
    >>> [(d.value.pole.value, d.value.words) for d in read(line, package_lexicons().hits(line))]
    [('dark', 'moody')]
    """
    found = [
        hit
        for hit in hits.get("mood", ())
        if not _NOT.search(sentence.text[: hit.start]) or sentence.text[hit.start : hit.start + 3] == "no "
    ]
    kept: list[Hit] = []
    for index, hit in enumerate(found):
        sure = not hit.entry.data.get("weak") or hit.entry.data.get("sure") or sentence.topic == "mood"
        if sure or _FEEL.search(sentence.text) or _in_company(sentence, hits, found, index):
            kept.append(hit)
    drafts = []
    for hit in kept:
        words = sentence.text[hit.start : hit.end]
        pole = Pole(str(hit.entry.data.get("pole", hit.code)))
        weak = bool(hit.entry.data.get("weak"))
        reason = Reason(ReasonCode.TRADE_WORD, (("word", words),))
        drafts.append(
            Draft(
                DraftKind.MOOD,
                MoodValue(pole, words, weak),
                sentence.span(hit.start, hit.end),
                sentence.line_no,
                reason,
            )
        )
    return drafts


_FEEL = re.compile(r"\b(?:feel|feels|mood|moods|vibe|vibes|atmosphere|aesthetic|lit)\b")


def _in_company(sentence: Sentence, hits: dict[str, list[Hit]], found: list[Hit], index: int) -> bool:
    hit = found[index]
    for other in (found[index - 1] if index else None, found[index + 1] if index + 1 < len(found) else None):
        if other is None:
            continue
        between = sentence.text[min(hit.end, other.end) : max(hit.start, other.start)]
        if _CHAIN.match(between):
            return True
    for near in hits.get("moodnear", ()):
        if near.start == hit.start:
            continue
        gap = sentence.text[min(hit.end, near.end) : max(hit.start, near.start)]
        if len(gap) <= 12 and not re.search(r"[,;:()]|\b(?:for|in|with|by|of)\b", gap):
            return True
    return False


def overall(drafts: Iterable[Draft]) -> Pole:
    """Return where the mood of all drafts together stands.

    Parameters
    ----------
    drafts : iterable of Draft
        Drafts of any kind.

    Returns
    -------
    Pole
        `both` when each pole has words that lean to it beyond a doubt, `unknown` when there are none.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> overall(())
    <Pole.UNKNOWN: 'unknown'>
    """
    values = [draft.value for draft in drafts if isinstance(draft.value, MoodValue)]
    strong = [value.pole for value in values if not value.weak]
    poles = strong or [value.pole for value in values]
    dark, bright = poles.count(Pole.DARK), poles.count(Pole.BRIGHT)
    if not strong and dark != bright:
        return Pole.DARK if dark > bright else Pole.BRIGHT
    if Pole.BOTH in poles or (dark and bright):
        return Pole.BOTH
    return Pole.DARK if dark else Pole.BRIGHT if bright else Pole.UNKNOWN
