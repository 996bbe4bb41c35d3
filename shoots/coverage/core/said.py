"""What each paper promises: clauses of the notes, lines of the brief, the quote and the licence become promises.

Things that stand in one clause of the notes were named together ("9:16 for stories"). Where a clause names several
things of two kinds ("packs and vests for the site and the shop"), nobody said which with which: each is promised for
itself, until somebody says otherwise.

References
----------
Own arrangement; the words are the trade's.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from itertools import product

from shoots.brief.core.placements import Placement
from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.call.core.drafts import (
    CountOf,
    CountValue,
    DraftKind,
    MoodValue,
    PersonValue,
    PlacementValue,
    Pole,
    ProductValue,
    ShapeValue,
    Value,
)
from shoots.call.core.landing import ALL_MEDIA, placements_of
from shoots.shotlist.core.coverage import ORDER, Dimension, Wants, is_same


class Origin(StrEnum):
    """Where something was promised; a later one counts for more."""

    CALL = "CALL"
    BRIEF = "BRIEF"
    APPROVED = "APPROVED"
    QUOTE = "QUOTE"
    LICENCE = "LICENCE"
    STUDIO = "STUDIO"


class Kind(StrEnum):
    """Kinds of picture that are counted by name."""

    HERO = "HERO"
    DETAIL = "DETAIL"
    PACKSHOT = "PACKSHOT"
    PORTRAIT = "PORTRAIT"
    LIFESTYLE = "LIFESTYLE"


@dataclass(frozen=True, slots=True)
class Said:
    """One promise as one paper makes it.

    Attributes
    ----------
    origin : Origin
        Which paper.
    record : str
        The caller's name for the place in it.
    words : str
        As it stands there.
    wants : Wants
        What was named together; empty for a number of any pictures.
    least : int
        Finished pictures at least.
    most : int or None
        Finished pictures at most; None where nobody said.
    crops : int
        Further shapes cut from the same picture.
    is_wish : bool
        If there is time.
    """

    origin: Origin
    record: str
    words: str
    wants: Wants = ()
    least: int = 1
    most: int | None = None
    crops: int = 0
    is_wish: bool = False


@dataclass(frozen=True, slots=True)
class Heard:
    """An accepted draft of a call: its record, what it says, and where it stands in the notes."""

    record: str
    kind: DraftKind
    value: Value
    line_no: int
    start: int
    end: int
    is_wish: bool = False


@dataclass(frozen=True, slots=True)
class Known:
    """Names of the shoot's products, and its moods: key and brightness from 0 dark to 100 bright.

    `outfits` are the shoot's own in their order, and after them names for those that nobody has put together yet.
    """

    products: tuple[str, ...] = ()
    moods: tuple[tuple[str, int], ...] = ()
    outfits: tuple[str, ...] = ()


COUNTED = {
    CountOf.HEROES: Kind.HERO,
    CountOf.DETAILS: Kind.DETAIL,
    CountOf.PACKSHOTS: Kind.PACKSHOT,
    CountOf.PORTRAITS: Kind.PORTRAIT,
    CountOf.LIFESTYLE: Kind.LIFESTYLE,
}
TOTALS = frozenset({CountOf.FINALS, CountOf.PICTURES})
KIND_WORDS = {
    Kind.HERO: r"\bheroe?s?\b",
    Kind.DETAIL: r"\bdetails?\b",
    Kind.PACKSHOT: r"\bpack[ -]?shots?\b|\bcut[ -]?outs?\b",
    Kind.PORTRAIT: r"\bportraits? of\b|\bheadshots?\b",
    Kind.LIFESTYLE: r"\blifestyle\b",
}
"""How a kind is written on a shot list or swallowed by another draft."""
_COUNTS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_OF_THEM = re.compile(r"\b(\d{1,3}|" + "|".join(_COUNTS) + r") of (?:them|those|these)\b", re.IGNORECASE)
_NEXT = re.compile(r"[,;.:\n]|\b(?:plus|then)\b", re.IGNORECASE)
_EACH = re.compile(r"\b(?:each|every|per|apiece)\b", re.IGNORECASE)
_DARK, _BRIGHT = 40, 60
"""Below and above these a mood stands at a pole; own rule. [1]"""
_MOST = 60
"""Never more combinations out of one clause."""
_MOST_PICTURES = 500


def kinds_in(text: str) -> frozenset[str]:
    """Return the kinds of picture that a text names.

    Parameters
    ----------
    text : str
        A shot's title and purpose, or a stretch of the notes.

    Returns
    -------
    frozenset[str]
        Codes of `Kind`.

    References
    ----------
    Trade words: common practice, no source.

    Examples
    --------
    >>> sorted(kinds_in("Second hero, a detail of the seam"))
    ['DETAIL', 'HERO']
    """
    return frozenset(str(kind) for kind, words in KIND_WORDS.items() if re.search(words, text, re.IGNORECASE))


def said_in_call(notes: str, heard: Iterable[Heard], known: Known) -> tuple[Said, ...]:
    """Return what the accepted drafts of one call promise.

    Parameters
    ----------
    notes : str
        The notes of the call.
    heard : Iterable[Heard]
        Its accepted drafts, in any order.
    known : Known
        Products and moods of the shoot.

    Returns
    -------
    tuple[Said, ...]
        Promises in the order of the notes. A number of outfits promises a picture in each of the shoot's first ones;
        other counts of things that are no pictures (places, days) promise none.

    References
    ----------
    Own rule: what stands in one clause was named together.

    Examples
    --------
    >>> notes = "9:16 for stories, 3 of them"
    >>> heard = [
    ...     Heard("1", DraftKind.SHAPE, ShapeValue("9:16", 3), 1, 0, 4),
    ...     Heard("2", DraftKind.PLACEMENT, PlacementValue("organic_social"), 1, 9, 16),
    ... ]
    >>> [(said.least, dict(said.wants)[Dimension.SHAPE]) for said in said_in_call(notes, heard, Known())]
    [(3, '9:16')]
    """
    found: list[Said] = []
    line = -1
    for clause in _clauses(notes, heard):
        if clause.line_no != line:
            line, begun = clause.line_no, len(found)
        if clause.crops:
            # "one hero, three cut-downs": the crops are of the hero that was named before them.
            for n in range(len(found) - 1, begun - 1, -1):
                if (Dimension.KIND, Kind.HERO) in found[n].wants or not found[n].wants:
                    found[n] = replace(found[n], crops=clause.crops, words=f"{found[n].words}, {clause.words}")
                    break
        found += _said(clause, known)
        found += _worn(clause, known)
    return tuple(found)


@dataclass(slots=True)
class _Clause:
    """Drafts that stand together in one line of the notes."""

    line_no: int
    text: str
    words: str
    heard: list[Heard] = field(default_factory=list)

    @property
    def crops(self) -> int:
        counts = [one.value for one in self.heard if isinstance(one.value, CountValue)]
        return next((value.minimum or value.maximum or 0 for value in counts if value.of is CountOf.CROPS), 0)


def _clauses(notes: str, heard: Iterable[Heard]) -> Iterator[_Clause]:
    lines: dict[int, list[Heard]] = {}
    for one in sorted(heard, key=lambda one: (one.line_no, one.start, one.end)):
        lines.setdefault(one.line_no, []).append(one)
    for line_no, ones in lines.items():
        not_wanted = [(one.start, one.end) for one in ones if one.kind is DraftKind.NEGATIVE]
        parts: list[list[Heard]] = []
        end = 0
        for one in ones:
            if one.kind is DraftKind.NEGATIVE or any(a <= one.start and one.end <= b for a, b in not_wanted):
                continue
            if not parts or (one.start >= end and _NEXT.search(notes[end : one.start])):
                parts.append([])
            parts[-1].append(one)
            end = max(end, one.end)
        for number, part in enumerate(parts):
            after = parts[number + 1][0].start if number + 1 < len(parts) else part[-1].end + 24
            start, stop = part[0].start, max(one.end for one in part)
            rest = notes[stop:after].partition("\n")[0]
            yield _Clause(line_no, notes[start:stop] + rest, " ".join(notes[start:stop].split()), part)


def _said(clause: _Clause, known: Known) -> Iterator[Said]:
    values: dict[Dimension, list[str]] = {}
    for one in clause.heard:
        for dimension, value in _values(one.value, known):
            had = values.setdefault(dimension, [])
            if value not in had:
                had.append(value)
    kind, least, most, per = _number(clause)
    if kind:
        values[Dimension.KIND] = [kind]
    spread = per or bool(_EACH.search(clause.text))
    if spread and Dimension.PRODUCT not in values and per in ("product", "products"):
        values[Dimension.PRODUCT] = list(known.products)
    first = clause.heard[0]
    base = Said(Origin.CALL, first.record, clause.words, is_wish=any(one.is_wish for one in clause.heard))
    several = [dimension for dimension, had in values.items() if len(had) > 1]
    if not values or (several and not spread):
        # The number is that of all of them together: which gets how many, nobody said.
        if least:
            yield replace(base, wants=((Dimension.KIND, kind),) if kind else (), least=least, most=most)
        least, most = 1, None
        values.pop(Dimension.KIND, None)
    combined: list[Wants]
    if len(several) > 1 and not spread:
        combined = [((dimension, value),) for dimension, had in values.items() for value in had]
    else:
        combined = [tuple(zip(values, chosen, strict=True)) for chosen in product(*values.values())] if values else []
    for wants in combined[:_MOST]:
        yield replace(
            base, wants=tuple(sorted(wants, key=lambda named: ORDER[named[0]])), least=max(least, 1), most=most
        )


def _worn(clause: _Clause, known: Known) -> Iterator[Said]:
    """Return a picture in each outfit that was counted; which outfit goes with what, nobody said."""
    for one in clause.heard:
        value = one.value
        if isinstance(value, CountValue) and value.of is CountOf.OUTFITS and not value.per:
            for name in known.outfits[: value.minimum or value.maximum or 0]:
                wants = ((Dimension.OUTFIT, name),)
                yield Said(Origin.CALL, one.record, clause.words, wants, is_wish=one.is_wish)


def _values(value: Value, known: Known) -> Iterator[tuple[Dimension, str]]:
    if isinstance(value, ShapeValue):
        try:
            yield Dimension.SHAPE, read_shapes(value.shape)[0]
        except (UnknownShape, IndexError):
            return
    elif isinstance(value, PlacementValue):
        if value.placement != ALL_MEDIA:
            for placement in placements_of(value.placement):
                yield Dimension.PLACEMENT, str(placement)
    elif isinstance(value, ProductValue):
        for colour in value.colours or ("",):
            yield Dimension.PRODUCT, known_product(f"{value.name}, {colour}" if colour else value.name, known.products)
    elif isinstance(value, MoodValue):
        poles = (Pole.DARK, Pole.BRIGHT) if value.pole is Pole.BOTH else (value.pole,)
        for pole in poles:
            at = [key for key, light in known.moods if (light < _DARK if pole is Pole.DARK else light > _BRIGHT)]
            if pole in (Pole.DARK, Pole.BRIGHT) and len(at) == 1:
                yield Dimension.MOOD, at[0]
    elif isinstance(value, PersonValue) and value.role and not value.crew:
        yield Dimension.PERSON, value.role


def known_product(name: str, products: Sequence[str]) -> str:
    """Return the shoot's product that somebody meant.

    Parameters
    ----------
    name : str
        As it was said: "litre pack, orange".
    products : Sequence[str]
        Products of the shoot by their full names.

    Returns
    -------
    str
        The one product that has all these words, else the one whose words are all said, else the name.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> known_product("litre vest", ["12 litre pack", "5 litre vest, slate"])
    '5 litre vest, slate'
    """
    holding = [other for other in products if is_same(Dimension.PRODUCT, name, other)]
    held = [other for other in products if is_same(Dimension.PRODUCT, other, name)]
    return holding[0] if len(holding) == 1 else held[0] if len(held) == 1 else name


def _number(clause: _Clause) -> tuple[str, int, int | None, str]:
    """Return which kind is counted, how many at least and at most, and for each of what."""
    for one in clause.heard:
        value = one.value
        if isinstance(value, CountValue) and (value.of in COUNTED or value.of in TOTALS):
            least = min(value.minimum or 1, _MOST_PICTURES)
            most = value.maximum if value.maximum and value.maximum >= least and not value.approximate else None
            return str(COUNTED.get(value.of, "")), least, most, value.per
    for one in clause.heard:
        if isinstance(one.value, ShapeValue) and one.value.count:
            kinds = sorted(kinds_in(clause.words))
            return kinds[0] if len(kinds) == 1 else "", min(one.value.count, _MOST_PICTURES), None, ""
    if of_them := _OF_THEM.search(clause.text):
        said = of_them[1].casefold()
        return "", int(said) if said.isdecimal() else _COUNTS.index(said) + 1, None, ""
    return "", 0, None, ""


def said_in_brief(
    *,
    record: str,
    products: Sequence[str],
    shapes: Sequence[str],
    placements: Sequence[str],
    moods: Sequence[str],
    finals: int | None,
    origin: Origin = Origin.BRIEF,
) -> tuple[Said, ...]:
    """Return what a brief promises: each product, mood, shape and placement once at least, and a number of pictures.

    Parameters
    ----------
    record : str
        The caller's name for the brief.
    products, shapes, placements, moods : Sequence[str]
        As the brief lists them.
    finals : int, optional
        How many finished pictures it asks for.
    origin : Origin
        The brief as it stands, or the version that the client approved.

    Returns
    -------
    tuple[Said, ...]
        The number first.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> said = said_in_brief(record="b", products=["Vest"], shapes=[], placements=[], moods=[], finals=4)
    >>> [(one.least, one.words) for one in said]
    [(4, '4'), (1, 'Vest')]
    """
    made = [Said(origin, record, str(finals), (), finals, finals)] if finals else []
    for dimension, values in (
        (Dimension.PRODUCT, products),
        (Dimension.MOOD, moods),
        (Dimension.SHAPE, shapes),
        (Dimension.PLACEMENT, placements),
    ):
        made += [Said(origin, record, value, ((dimension, value),)) for value in dict.fromkeys(values)]
    return tuple(made)


def said_in_papers(
    *, quote: str = "", finished: int | None = None, licence: str = "", media: Sequence[str] = (), pictures: int | None
) -> tuple[Said, ...]:
    """Return what the accepted quote and its licence promise.

    Parameters
    ----------
    quote, licence : str
        The caller's names for them.
    finished : int, optional
        Finished pictures that the quote's lines count.
    media : Sequence[str]
        Media that the licence grants; those that the brief doesn't know as placements promise no picture.
    pictures : int, optional
        Pictures that the licence counts.

    Returns
    -------
    tuple[Said, ...]
        The numbers first.

    References
    ----------
    Own rule: what is licensed for somewhere, at least one picture is made for it.

    Examples
    --------
    >>> [said.wants for said in said_in_papers(licence="L", media=["WEB_SHOP"], pictures=None)]
    [((<Dimension.PLACEMENT: 'PLACEMENT'>, 'WEB_SHOP'),)]
    """
    made = [Said(Origin.QUOTE, quote, str(finished), (), finished, finished)] if finished else []
    made += [Said(Origin.LICENCE, licence, str(pictures), (), pictures, pictures)] if pictures else []
    known = [medium for medium in dict.fromkeys(media) if medium in set(Placement)]
    return (*made, *(Said(Origin.LICENCE, licence, one, ((Dimension.PLACEMENT, one),)) for one in known))
