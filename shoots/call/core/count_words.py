"""What the readers of numbers share: kinds that are pictures, "per look" and "each", how a list goes on."""

from __future__ import annotations

import re

from shoots.call.core.drafts import CountOf, CountValue, Draft, DraftKind, Reason
from shoots.call.core.spans import Sentence, stem

#: Kinds that are pictures.
PARTS = frozenset(
    {
        CountOf.PICTURES,
        CountOf.SHOTS,
        CountOf.HEROES,
        CountOf.DETAILS,
        CountOf.PACKSHOTS,
        CountOf.PORTRAITS,
        CountOf.LIFESTYLE,
        CountOf.OTHERS,
    }
)
_PER = re.compile(
    r"\s*(?:images?|pics?|shots?|finals?|pictures?|photos?|angles?|views?)?\s*(?:per\s|(?:of|in|for|"
    r"from)\s(?:each|every)\s(?:of\s)?"
    r"(?:the\s|our\s|their\s)?|each (?:of|for)\s(?:the |our |their )?|/|\ba\s)(?P<unit>[a-z]+)"
)
_EACH = re.compile(r"\s*(?:[a-z]+\s)?(?:each|ea|apiece|per|of each|a piece|for each|of everything)\b")
#: "6 stills, each in 1:1 and 9:16": crops, no more pictures.
_IN_SHAPES = re.compile(
    r",?\s(?:[a-z]+\s)?(?:each|all)\s(?:one\s)?(?:(?:in|cropped|as|resized|supplied|delivered|exported|formatted)\s"
    r"(?:as |to |in |for |both |a )?)?(?:\d{1,2}:\d|squares?\b|landscape|portrait\b|vertical|colou?r|b/w|b&w|black|"
    r"bw\b|"
    r"(?:\d|two|three|four) (?:crops|formats|versions|ratios|sizes))"
)
_EACH_BEFORE = re.compile(r"\beach\b[^,;.]{0,24}\b(?:from|in|with|at|gets|needs|shot)\s*\Z|\beach\s*\Z")
_UNITS: dict[str, str] = {
    **dict.fromkeys(
        [
            "product", "sku", "item", "piece", "style", "garment", "flavour", "colourway", "colour", "dish",
            "bottle", "scent", "recipe", "variant", "shade", "pack", "cocktail", "bag", "chair", "candle", "can",
            "jar", "mug", "drink", "wine", "beer", "design", "blend", "cheese", "fabric", "bike", "watch",
            "bouquet", "coat", "colour", "tin", "box", "shoe", "shirt", "jacket", "dress", "knife", "lamp",
            "print", "ring", "hat",
        ],
        CountOf.PRODUCTS.value,
    ),
    **dict.fromkeys(["look", "outfit"], CountOf.OUTFITS.value),
    **dict.fromkeys(["location", "place", "spot", "site"], CountOf.LOCATIONS.value),
    **dict.fromkeys(["setup", "set", "scene", "room", "roomset", "build"], CountOf.SETUPS.value),
    "day": CountOf.DAYS.value,
    **dict.fromkeys(
        ["person", "maker", "chef", "runner", "rider", "partner", "model", "head", "player"], "people"
    ),
}  # fmt: skip
NOT_BEHIND = re.compile(
    r"\s?(?:%|:\d|k\b|ml\b|mm\b|cm\b|kg\b|m\b|st\b|nd\b|rd\b|th\b|am\b|pm\b|hours?\b|hrs?\b|mins?\b|minutes|"
    r"years?|months?|weeks?|miles|"
    r"metres|km\b|/\d|yrs?\b|mths?\b)"
)
LIST_END = re.compile(r"\s*(?:$|[,;:.!?)+=]|/\s?[a-z]|and\b|&|plus\b)")
SET_OF = re.compile(
    r"\b(?:selection|set|series|choice|batch|final edit|edit|final set|collection of pictures|total) "
    r"of\s*(?:about |around )?\Z"
)


def draft_of(sentence: Sentence, value: CountValue, start: int, end: int, reason: Reason) -> Draft:
    """Return a count as a draft.

    Parameters
    ----------
    sentence : Sentence
        Its sentence.
    value : CountValue
        What is counted.
    start : int
        Where its words begin in the sentence.
    end : int
        Where they end.
    reason : Reason
        Why.

    Returns
    -------
    Draft
        To be confirmed when the number is approximate.

    References
    ----------
    Own derivation, see tests.
    """
    span = sentence.span(start, end)
    return Draft(DraftKind.COUNT, value, span, sentence.line_no, reason, confirm=value.approximate)


def is_pictures(draft: Draft) -> bool:
    """Return whether a draft counts pictures of any kind.

    Parameters
    ----------
    draft : Draft
        Any draft.

    Returns
    -------
    bool
        True for finals and for the parts that add up to them.

    References
    ----------
    Own derivation, see tests.
    """
    return isinstance(draft.value, CountValue) and draft.value.of in PARTS | {CountOf.FINALS}


def per_of(text: str, end: int, start: int) -> str:
    """Return what a number is for each of.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    end : int
        Where the words of the number end.
    start : int
        Where they begin.

    Returns
    -------
    str
        "products", "outfits" and so on, "each" when it is not named, or an empty text.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> per_of("two per look", 3, 0), per_of("three each", 5, 0), per_of("three", 5, 0)
    ('outfits', 'each', '')
    """
    tail = text[end : end + 40]
    if _IN_SHAPES.match(tail):
        return ""
    if match := _PER.match(tail):
        unit = stem(match["unit"])
        if unit in _UNITS:
            return _UNITS[unit]
        if unit in ("each", "every"):
            return "each"
    return "each" if _EACH.match(tail) or _EACH_BEFORE.search(text[:start]) else ""
