"""Where the pictures will be seen, in the trade's terms."""

from __future__ import annotations

from shoots.call.core.drafts import Draft, DraftKind, PlacementValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit
from shoots.call.core.spans import Sentence


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
    drafts = []
    for hit in (*hits.get("placement", ()), *hits.get("allmedia", ())):
        words = sentence.text[hit.start : hit.end]
        if hit.entry.table == "allmedia":
            codes = ["all"]
        elif hit.code == "paid_social" and "organic" in words:
            codes = ["paid_social", "organic_social"]
        else:
            codes = [str(hit.entry.data.get("as", hit.code))]
        reason = Reason(ReasonCode.TRADE_WORD, (("word", words),))
        if hit.typo_of:
            reason = Reason(ReasonCode.MISTYPED, (("word", words), ("meant", hit.typo_of)))
        drafts += [
            Draft(
                DraftKind.PLACEMENT, PlacementValue(code), sentence.span(hit.start, hit.end), sentence.line_no, reason
            )
            for code in codes
        ]
    return drafts
