"""What was promised against the shots that serve it: holes, what is there twice, and which shots are missing.

A promise is a combination of what was named together ("the vest, bright, in 9:16") and a number of finished pictures.
A shot serves it when it has all of that; where the shot doesn't say (no mood chosen yet), it serves it perhaps, and
perhaps never counts.

References
----------
Own arrangement. Which shapes count as upright or across: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache
from types import MappingProxyType

from shoots.brief.core.shapes import UnknownShape, aspect


class Dimension(StrEnum):
    """What a promise may name, in the order in which it is said."""

    KIND = "KIND"
    PRODUCT = "PRODUCT"
    MOOD = "MOOD"
    PERSON = "PERSON"
    OUTFIT = "OUTFIT"
    SHAPE = "SHAPE"
    PLACEMENT = "PLACEMENT"


ORDER = {dimension: n for n, dimension in enumerate(Dimension)}
IN_WORDS = frozenset({Dimension.PRODUCT, Dimension.PERSON, Dimension.OUTFIT})
"""Named in words of the notes: a shot has it when it says all of them."""
UNSAID = frozenset({Dimension.PRODUCT, Dimension.MOOD, Dimension.SHAPE, Dimension.PLACEMENT})
"""Where a shot that says nothing may still come to serve it; a shot without people has none."""
ADDED = frozenset({Dimension.SHAPE, Dimension.PLACEMENT})
"""What an existing shot can be given besides what it has."""
_SAME_SHAPE = 0.01
_ACROSS, _BANNER = 1.05, 2.2

Wants = tuple[tuple[Dimension, str], ...]


class PromiseNotPossible(ValueError):
    """Raised when a promise names a dimension twice or asks for less than one picture."""


class Fit(StrEnum):
    """Whether a shot serves a promise."""

    YES = "YES"
    PERHAPS = "PERHAPS"
    NO = "NO"


class State(StrEnum):
    """How far a promise is served."""

    HOLE = "HOLE"
    PARTLY = "PARTLY"
    SERVED = "SERVED"
    MORE = "MORE"


@dataclass(frozen=True, slots=True)
class Promise:
    """Finished pictures of one combination.

    Parameters
    ----------
    key : str
        The caller's own name for it, different for each promise.
    wants : tuple[tuple[Dimension, str], ...]
        What was named together, each dimension once; empty for a number of any pictures.
    least : int
        How many finished pictures at least.
    most : int, optional
        How many at most; None where nobody said.
    crops : int
        Further shapes cut from the same picture ("one hero, three cut-downs").
    is_wish : bool
        Asked for if there is time; it is no promise that has to be kept.

    Raises
    ------
    PromiseNotPossible
        If a dimension is named twice, or the numbers can't be meant.
    """

    key: str
    wants: Wants = ()
    least: int = 1
    most: int | None = None
    crops: int = 0
    is_wish: bool = False

    def __post_init__(self) -> None:
        named = [dimension for dimension, _value in self.wants]
        if len(set(named)) < len(named):
            raise PromiseNotPossible(f"{self.key}: each dimension once.")
        if self.least < 1 or self.crops < 0 or (self.most is not None and self.most < self.least):
            raise PromiseNotPossible(f"{self.key}: one picture at least, and no more at least than at most.")

    def value(self, dimension: Dimension) -> str:
        """Return what it wants in a dimension, or ""."""
        return dict(self.wants).get(dimension, "")


@dataclass(frozen=True, slots=True)
class Planned:
    """A shot as the coverage sees it.

    Parameters
    ----------
    key : int
        The shot.
    has : Mapping[Dimension, frozenset[str]]
        What it says; a dimension that is left out is not said.
    pictures : int
        Finished pictures that come from it.
    minutes : int
        How long it takes. [min]
    is_must : bool
        The client counts on it.
    is_got : bool
        It was taken.
    """

    key: int
    has: Mapping[Dimension, frozenset[str]] = field(default_factory=lambda: MappingProxyType({}))
    pictures: int = 1
    minutes: int = 20
    is_must: bool = True
    is_got: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A promise with the shots that serve it.

    Attributes
    ----------
    promise : Promise
        What was promised.
    shots : tuple[int, ...]
        Shots that serve it, in the order of the list.
    pictures : int
        Finished pictures that come from them.
    perhaps : tuple[int, ...]
        Shots that don't say enough to tell.
    nearly : tuple[int, ...]
        Shots that would serve it, were they given a shape or a placement besides.
    """

    promise: Promise
    shots: tuple[int, ...]
    pictures: int
    perhaps: tuple[int, ...]
    nearly: tuple[int, ...]

    @property
    def lacking(self) -> int:
        """Finished pictures that are still missing."""
        return max(0, self.promise.least - self.pictures)

    @property
    def over(self) -> int:
        """Finished pictures more than the most that was agreed."""
        return 0 if self.promise.most is None else max(0, self.pictures - self.promise.most)

    @property
    def state(self) -> State:
        """How far it is served."""
        if self.lacking:
            return State.PARTLY if self.pictures else State.HOLE
        return State.MORE if self.over else State.SERVED


@dataclass(frozen=True, slots=True)
class Coverage:
    """All promises in their order, and the shots that nobody asked for."""

    rows: tuple[Row, ...]
    unasked: tuple[int, ...]

    @property
    def holes(self) -> tuple[Row, ...]:
        """Promises that are not served in full; wishes are none."""
        return tuple(row for row in self.rows if row.lacking and not row.promise.is_wish)


@dataclass(frozen=True, slots=True)
class Missing:
    """A shot that is missing.

    Attributes
    ----------
    wants : Mapping[Dimension, tuple[str, ...]]
        What it has to have; several shapes or placements, one of everything else.
    crops : int
        Further shapes that are cut from it.
    promises : tuple[str, ...]
        Keys of the promises that it serves: why it is drafted.
    """

    wants: Mapping[Dimension, tuple[str, ...]]
    crops: int
    promises: tuple[str, ...]


def telling_names(names: Iterable[str]) -> dict[str, str]:
    """Return for each product the words that tell it from the others.

    Parameters
    ----------
    names : Iterable[str]
        Products as they were named: "12 litre pack, burnt orange".

    Returns
    -------
    dict[str, str]
        What stands before the first comma or bracket, where only one product has it; else the whole name.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> telling_names(["12 litre pack, burnt orange", "Cap, red", "Cap, blue"])
    {'12 litre pack, burnt orange': '12 litre pack', 'Cap, red': 'Cap, red', 'Cap, blue': 'Cap, blue'}
    """
    listed = list(dict.fromkeys(" ".join(name.split()) for name in names))
    short = {name: re.split(r"\s*[,;(]", name, maxsplit=1)[0] or name for name in listed}
    heads = [_words(head) for head in short.values()]
    return {name: head if heads.count(_words(head)) == 1 else name for name, head in short.items()}


def is_same(dimension: Dimension, wanted: str, had: str) -> bool:
    """Return whether what a shot says is what a promise wants.

    Parameters
    ----------
    dimension : Dimension
        What is compared.
    wanted : str
        As it was promised.
    had : str
        As the shot has it.

    Returns
    -------
    bool
        Words: all wanted ones are said. Shapes: the same proportion, or the same way round where only that
        was named. Everything else: the same code.

    References
    ----------
    Own rule; upright and across: common practice, no source.

    Examples
    --------
    >>> is_same(Dimension.PRODUCT, "12 litre pack", "The 12 litre pack in orange")
    True
    >>> is_same(Dimension.SHAPE, "landscape", "3:2"), is_same(Dimension.SHAPE, "4:5", "9:16")
    (True, False)
    """
    if dimension is Dimension.SHAPE:
        return _same_shape(wanted, had)
    if dimension in IN_WORDS:
        return _same_words(wanted, had)
    return wanted == had


@lru_cache(maxsize=16384)
def _same_words(wanted: str, had: str) -> bool:
    return _words(wanted) <= _words(had)


@lru_cache(maxsize=4096)
def _words(text: str) -> frozenset[str]:
    said = re.findall(r"[^\W_]+", text.casefold())
    # One and many are the same thing on a shot list: boots, boot.
    return frozenset(word[:-1] if len(word) > 3 and word.endswith("s") and word[-2] != "s" else word for word in said)


@lru_cache(maxsize=4096)
def _same_shape(wanted: str, had: str) -> bool:
    try:
        one, two = aspect(wanted), aspect(had)
    except UnknownShape:
        return wanted.casefold() == had.casefold()
    match " ".join(wanted.casefold().split()):
        case "landscape":
            return _ACROSS < two < _BANNER
        case "portrait":
            return two < 1.0 / _ACROSS
        case "landscape banner" | "panorama":
            return two >= _BANNER
    return abs(one / two - 1.0) <= _SAME_SHAPE


def fit(promise: Promise, shot: Planned) -> Fit:
    """Return whether a shot serves a promise.

    Parameters
    ----------
    promise : Promise
        What was promised.
    shot : Planned
        The shot.

    Returns
    -------
    Fit
        Perhaps where the shot is silent on something and wrong in nothing.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> vest = Promise("a", ((Dimension.PRODUCT, "vest"), (Dimension.MOOD, "7")))
    >>> fit(vest, Planned(1, {Dimension.PRODUCT: frozenset({"Vest"})})).value
    'PERHAPS'
    """
    if not shot.pictures:
        return Fit.NO
    failing, silent = _against(promise, shot)
    return Fit.NO if failing else Fit.PERHAPS if silent else Fit.YES


def _against(promise: Promise, shot: Planned) -> tuple[set[Dimension], set[Dimension]]:
    """Return in which dimensions a shot is wrong, and in which it says nothing."""
    failing: set[Dimension] = set()
    silent: set[Dimension] = set()
    for dimension, wanted in promise.wants:
        had = shot.has.get(dimension, frozenset())
        if not had:
            (silent if dimension in UNSAID else failing).add(dimension)
        elif not any(is_same(dimension, wanted, value) for value in had):
            failing.add(dimension)
    shapes = shot.has.get(Dimension.SHAPE, frozenset())
    if promise.crops and len(shapes) < promise.crops + 1:
        (failing if shapes else silent).add(Dimension.SHAPE)
    return failing, silent


def coverage(promises: Iterable[Promise], shots: Sequence[Planned]) -> Coverage:
    """Return every promise with the shots that serve it.

    Parameters
    ----------
    promises : Iterable[Promise]
        What was promised, in the order in which it is shown.
    shots : Sequence[Planned]
        The shot list, in its order.

    Returns
    -------
    Coverage
        Nobody asked for a shot that serves no promise but a bare number of pictures.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> tall = Promise("tall", ((Dimension.SHAPE, "9:16"),), least=2)
    >>> done = coverage([tall], [Planned(4, {Dimension.SHAPE: frozenset({"4:5", "9:16"})})])
    >>> done.rows[0].state.value, done.rows[0].lacking
    ('PARTLY', 1)
    """
    rows, asked = [], set()
    for promise in promises:
        yes, perhaps, nearly, pictures = [], [], [], 0
        for shot in shots:
            match fit(promise, shot):
                case Fit.YES:
                    yes.append(shot.key)
                    pictures += shot.pictures
                case Fit.PERHAPS:
                    perhaps.append(shot.key)
                case Fit.NO:
                    failing, silent = _against(promise, shot)
                    if shot.pictures and failing <= ADDED and not silent and len(promise.wants) > len(failing):
                        nearly.append(shot.key)
        rows.append(Row(promise, tuple(yes), pictures, tuple(perhaps), tuple(nearly)))
        if promise.wants:
            asked.update(yes)
    unasked = tuple(shot.key for shot in shots if shot.key not in asked)
    return Coverage(tuple(rows), unasked if any(row.promise.wants for row in rows) else ())


def missing_shots(done: Coverage, *, most: int = 40) -> tuple[Missing, ...]:
    """Return shots that would fill the holes, few rather than many.

    Parameters
    ----------
    done : Coverage
        Promises and the shots that serve them.
    most : int
        Never more drafts than this.

    Returns
    -------
    tuple[Missing, ...]
        Each gives one finished picture. What asks for most comes first; a later promise joins a draft that it
        contradicts in nothing. It is a proposal, not the smallest that there could be.

    References
    ----------
    Own rule (first fit).

    Examples
    --------
    >>> wall = Promise("a", ((Dimension.MOOD, "7"), (Dimension.SHAPE, "9:16")))
    >>> vest = Promise("b", ((Dimension.PRODUCT, "vest"),))
    >>> [drafted.promises for drafted in missing_shots(coverage([wall, vest], []))]
    [('a', 'b')]
    """
    holes = sorted(done.holes, key=lambda row: (-len(row.promise.wants), -row.promise.crops))
    drafts: list[tuple[dict[Dimension, list[str]], int, list[str]]] = []
    for row in holes:
        left = row.lacking
        for n, (wants, crops, keys) in enumerate(drafts):
            if left and _agrees(wants, row.promise):
                _join(wants, row.promise)
                drafts[n] = (wants, max(crops, row.promise.crops), [*keys, row.promise.key])
                left -= 1
        for _ in range(min(left, most - len(drafts))):
            made: dict[Dimension, list[str]] = {}
            _join(made, row.promise)
            drafts.append((made, row.promise.crops, [row.promise.key]))
    return tuple(
        Missing(
            {dimension: tuple(wants[dimension]) for dimension in sorted(wants, key=lambda name: ORDER[name])},
            crops,
            tuple(keys),
        )
        for wants, crops, keys in drafts
    )


def _agrees(wants: Mapping[Dimension, Sequence[str]], promise: Promise) -> bool:
    """Return whether one picture can be what a draft and a promise want."""
    return all(
        dimension in ADDED
        or not wants.get(dimension)
        or any(is_same(dimension, value, had) or is_same(dimension, had, value) for had in wants[dimension])
        for dimension, value in promise.wants
    )


def _join(wants: dict[Dimension, list[str]], promise: Promise) -> None:
    for dimension, value in promise.wants:
        had = wants.setdefault(dimension, [])
        if not any(is_same(dimension, value, other) for other in had):
            if dimension in ADDED:
                had.append(value)
            else:
                wants[dimension] = [value]
