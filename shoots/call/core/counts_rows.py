"""Tables of pictures in notes: rows such as "kitchen x3" or "still life 6", one below the other."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core.count_words import draft_of, is_pictures
from shoots.call.core.counts_listed import NO_LABEL
from shoots.call.core.drafts import CountOf, CountValue, Draft, Reason, ReasonCode
from shoots.call.core.numbers import quantities
from shoots.call.core.spans import Sentence

_ROW = re.compile(
    r"\s*(?P<label>[a-z0-9][a-z0-9' /&+-]{1,40}?)\s*(?P<mark>x\s?|:\s?|=\s?|-\s|\s|\|\s?)"
    r"(?P<n>\d{1,2})\s*x?\s*\.?\s*"
)
_TIMES_ROW = re.compile(r"\s*x\s?\Z")
#: So many rows with "x3" speak for themselves.
_ENOUGH = 3


def read(sentences: Sequence[Sentence], drafts: Sequence[Draft]) -> list[Draft]:
    """Return the rows of tables that count pictures and were not read as such.

    Parameters
    ----------
    sentences : sequence of Sentence
        The notes; figures that were read are claimed.
    drafts : sequence of Draft
        What was read from them.

    Returns
    -------
    list of Draft
        Counts of pictures. A table counts if one of its rows names pictures, or if it has three rows like "hall x2".

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [d.value.maximum for d in read(cut("kitchen x3\\nhall x2\\ngarden x4").sentences, ())]
    [3, 2, 4]
    """
    found: list[Draft] = []
    block: list[tuple[Sentence, re.Match[str]]] = []
    lines = [s.line_no for s in sentences]
    pictures = {d.line_no: d for d in drafts if is_pictures(d)}
    for index, sentence in enumerate((*sentences, None)):
        row = None
        if sentence is not None:
            alone = lines[max(0, index - 1)] != sentence.line_no or index == 0
            alone = alone and (index + 1 == len(lines) or lines[index + 1] != sentence.line_no)
            row = _ROW.fullmatch(sentence.text) if alone and sentence.text[-2:].strip(" .x")[-1:].isdigit() else None
            if row and (NO_LABEL.search(row["label"]) or sentence.topic not in ("", "finals", "shapes")):
                row = None
        if row and sentence is not None and (not block or block[-1][0].line_no + 1 == sentence.line_no):
            block.append((sentence, row))
            continue
        found += _rows(block, pictures)
        block = [(sentence, row)] if row and sentence is not None else []
    return found + _rows(block, pictures)


def _rows(block: Sequence[tuple[Sentence, re.Match[str]]], pictures: dict[int, Draft]) -> list[Draft]:
    named = [s for s, _ in block if s.line_no in pictures and not _is_general(pictures[s.line_no])]
    by_times = [row for _, row in block if _TIMES_ROW.match(row["mark"])]
    if len(block) < 2 or not (named or (len(by_times) == len(block) >= _ENOUGH)):
        return []
    found = []
    for sentence, row in block:
        at = next((q for q in quantities(sentence.text) if q.start == row.start("n")), None)
        if at is None or sentence.line_no in pictures or not sentence.is_free(at.start, at.end):
            continue
        sentence.claim(at.start, at.end)
        value = CountValue(CountOf.OTHERS, at.minimum, at.maximum)
        words = (("number", row["n"]), ("noun", row["label"]))
        start = row.start("label")
        found.append(draft_of(sentence, value, start, at.end, Reason(ReasonCode.LABEL_AND_NUMBER, words)))
    return found


def _is_general(draft: Draft) -> bool:
    value = draft.value
    return isinstance(value, CountValue) and value.of in (CountOf.PICTURES, CountOf.SHOTS, CountOf.FINALS)
