"""All that was promised, once: the same said in several papers is one promise, and the studio's word comes last.

References
----------
Own arrangement.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256

from shoots.coverage.core.said import Origin, Said
from shoots.shotlist.core.coverage import ORDER, Dimension, Promise, Wants, is_same, telling_names

LONGEST = 500
"""Longest name of a promise. [letters]"""
RANK = {origin: n for n, origin in enumerate(Origin)}


@dataclass(frozen=True, slots=True)
class Promised:
    """A promise, and every place where it was made.

    Attributes
    ----------
    promise : Promise
        What counts.
    said : tuple[Said, ...]
        Who said it, the weightiest first; the first one's numbers count.
    disagree : tuple[Said, ...]
        Those of them that say another number.
    """

    promise: Promise
    said: tuple[Said, ...]
    disagree: tuple[Said, ...] = ()


def key_of(wants: Wants, crops: int = 0) -> str:
    """Return the name by which a promise is known, whoever makes it.

    Parameters
    ----------
    wants : Wants
        What was named together.
    crops : int
        Further shapes cut from the same picture.

    Returns
    -------
    str
        The same for the same combination, in whatever order and spelling; "ALL" for any pictures. At most
        `LONGEST` letters: a longer one ends in its own hash.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> key_of(((Dimension.SHAPE, "9:16"), (Dimension.PRODUCT, "The Vest")))
    'PRODUCT=the vest;SHAPE=9:16'
    """
    named = sorted(wants, key=lambda pair: ORDER[pair[0]])
    parts = [f"{dimension}={_plain(value)}" for dimension, value in named]
    key = (";".join(parts) or "ALL") + (f"+{crops}" if crops else "")
    return key if len(key) <= LONGEST else f"{key[: LONGEST - 65]}#{sha256(key.encode()).hexdigest()}"


def _plain(value: str) -> str:
    return " ".join(re.findall(r"[^;=\s]+", value.casefold()))


def promised(said: Iterable[Said]) -> tuple[Promised, ...]:
    """Return every promise once.

    Parameters
    ----------
    said : Iterable[Said]
        What all papers say.

    Returns
    -------
    tuple[Promised, ...]
        In the order of what is said first; any number of pictures comes first of all. A bare promise that a
        combination fulfils anyway ("the vest" beside "the vest in 9:16") is not kept for itself; whoever said it
        stands with the combination.

    References
    ----------
    Own rule: the licence counts for more than the quote, the quote than the approved brief, that than the brief as
    it stands, the call least.

    Examples
    --------
    >>> brief, quote = Said(Origin.BRIEF, "b", "12", (), 12, 12), Said(Origin.QUOTE, "q", "13", (), 13, 13)
    >>> one = promised([brief, quote])[0]
    >>> one.promise.least, [other.least for other in one.disagree]
    (13, [12])
    """
    listed = list(said)
    names = telling_names(value for one in listed for dimension, value in one.wants if dimension is Dimension.PRODUCT)
    groups: dict[str, list[tuple[Said, Wants]]] = {}
    for one in listed:
        wants = tuple((d, names.get(" ".join(v.split()), v) if d is Dimension.PRODUCT else v) for d, v in one.wants)
        groups.setdefault(key_of(wants, one.crops), []).append((one, wants))
    found = [_one(key, group) for key, group in groups.items()]
    return tuple(sorted(_without_implied(found), key=lambda one: bool(one.promise.wants)))


def _one(key: str, group: list[tuple[Said, Wants]]) -> Promised:
    # A wish that is promised elsewhere is promised; within that the weightiest paper's numbers count.
    ordered = sorted(group, key=lambda pair: (pair[0].is_wish, -RANK[pair[0].origin], -pair[0].least))
    first, wants = ordered[0]
    promise = Promise(key, wants, first.least, first.most, first.crops, first.is_wish)
    said = tuple(one for one, _wants in ordered)
    return Promised(
        promise,
        said,
        tuple(one for one in said if (one.least, one.most) != (first.least, first.most) and not _fits(one, first)),
    )


def _fits(one: Said, other: Said) -> bool:
    """Return whether keeping one's word keeps the other's: "at least one" fits "three"."""
    return one.least <= other.least and (one.most is None or (other.most is not None and other.most <= one.most))


def _without_implied(found: list[Promised]) -> list[Promised]:
    kept: dict[str, Promised] = {one.promise.key: one for one in found}
    for one in found:
        bare = one.promise
        if not bare.wants or bare.most is not None or bare.crops:
            continue
        holder = next((other for other in kept.values() if other.promise.key != bare.key and _holds(other, bare)), None)
        if holder is not None:
            told = kept.pop(bare.key).said
            kept[holder.promise.key] = Promised(holder.promise, (*holder.said, *told), holder.disagree)
    return list(kept.values())


def _holds(other: Promised, bare: Promise) -> bool:
    full = other.promise
    if len(full.wants) <= len(bare.wants) or full.least < bare.least or (full.is_wish and not bare.is_wish):
        return False
    had: Mapping[Dimension, str] = dict(full.wants)
    return all(dimension in had and is_same(dimension, value, had[dimension]) for dimension, value in bare.wants)


@dataclass(frozen=True, slots=True)
class Stated:
    """What the studio says itself.

    Attributes
    ----------
    record : str
        The caller's name for it.
    instead_of : str
        Key of the promise that it takes the place of; empty for one of its own.
    said : Said or None
        What it says; None when that is not promised after all.
    """

    record: str
    instead_of: str
    said: Said | None


@dataclass(frozen=True, slots=True)
class Settled:
    """What counts, by whose word, and what was left out.

    Attributes
    ----------
    promised : tuple[Promised, ...]
        Promises that count.
    stated : Mapping[str, Stated]
        The studio's own word, by the key of the promise that it settles.
    left_out : tuple[tuple[Promised, Stated], ...]
        Promises that do not count after all.
    """

    promised: tuple[Promised, ...]
    stated: Mapping[str, Stated]
    left_out: tuple[tuple[Promised, Stated], ...]


def settled(found: Iterable[Promised], stated: Iterable[Stated]) -> Settled:
    """Return what counts after the studio had its say.

    Parameters
    ----------
    found : Iterable[Promised]
        What the papers say.
    stated : Iterable[Stated]
        What the studio says.

    Returns
    -------
    Settled
        Each of the studio's promises under a key of its own, so that two alike stay two. Its word about
        something that no paper says any longer stays its word.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> vest = promised([Said(Origin.BRIEF, "b", "Vest", ((Dimension.PRODUCT, "Vest"),))])
    >>> settled(vest, [Stated("7", "PRODUCT=vest", None)]).promised
    ()
    """
    words = list(stated)
    instead = {one.instead_of: one for one in words if one.instead_of}
    counted: list[Promised] = []
    left_out: list[tuple[Promised, Stated]] = []
    by_key: dict[str, Stated] = {}
    used = set()
    for one in found:
        own = instead.get(one.promise.key)
        if own is None:
            counted.append(one)
            continue
        used.add(own.record)
        if own.said is None:
            left_out.append((one, own))
        else:
            counted.append(_own(own, own.said, one.said))
            by_key[counted[-1].promise.key] = own
    for own in words:
        if own.record not in used and own.said is not None:
            counted.append(_own(own, own.said, ()))
            by_key[counted[-1].promise.key] = own
    return Settled(tuple(counted), by_key, tuple(left_out))


def _own(own: Stated, said: Said, read: tuple[Said, ...]) -> Promised:
    promise = Promise(f"own:{own.record}", said.wants, said.least, said.most, said.crops, said.is_wish)
    return Promised(promise, (said, *read))
