"""A brief with its moods and its shot list as plain values: what a version freezes, and what is compared.

References
----------
Own arrangement.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class AgreedMood:
    """A mood as it was agreed.

    Attributes
    ----------
    key : int
        The mood's row; it stays the same while the mood is renamed.
    name, words : str
        What it is called, and how it was put.
    brightness : int
        0 is dark, 100 bright. [%]
    """

    key: int
    name: str
    words: str = ""
    brightness: int = 50


@dataclass(frozen=True, slots=True)
class AgreedWork:
    """Something done to a shot's pictures over and above the usual finishing.

    Attributes
    ----------
    what : str
        As it was put.
    pictures : int
        To how many of them. [1]
    price : str
        The shot's own price for each as a decimal number, empty for the card's; no client reads it. [currency units]
    """

    what: str
    pictures: int = 1
    price: str = ""


@dataclass(frozen=True, slots=True)
class AgreedShot:
    """A planned picture as it was agreed.

    Attributes
    ----------
    key : int
        The shot's row; it stays the same while the shot is moved and edited.
    number : int
        Its place in the list, from 1. [1]
    title, purpose, framing, orientation, copy_space, moment, moment_note, mood, place : str
        Codes, keys or words; empty where nothing was said.
    shapes, placements, products, outfits, people : tuple[str, ...]
        Shapes as "4:5", codes, names.
    finishing : tuple[AgreedWork, ...]
        What is done beyond the usual.
    is_must : bool
        False for a wish.
    minutes : int
        Planned time. [min]
    finals : int
        Finished pictures of it. [1]
    setup, day : str
        Keys of the setup and the day, empty for none: only whether two shots share them counts.
    """

    key: int
    number: int
    title: str
    purpose: str = ""
    framing: str = ""
    orientation: str = ""
    shapes: tuple[str, ...] = ()
    placements: tuple[str, ...] = ()
    copy_space: str = ""
    products: tuple[str, ...] = ()
    outfits: tuple[str, ...] = ()
    people: tuple[str, ...] = ()
    mood: str = ""
    place: str = ""
    moment: str = ""
    moment_note: str = ""
    finishing: tuple[AgreedWork, ...] = ()
    is_must: bool = True
    minutes: int = 0
    finals: int = 1
    setup: str = ""
    day: str = ""

    @property
    def works(self) -> tuple[str, ...]:
        """What is done beyond the usual, with the number of pictures where it is not all of them."""
        return tuple(
            work.what if work.pictures == self.finals else f"{work.what} ×{work.pictures}" for work in self.finishing
        )


@dataclass(frozen=True, slots=True)
class Agreed:
    """What stands in one version.

    Attributes
    ----------
    purpose, audience, wished_dates : str
        Texts; empty where nothing was said.
    placements, territories, products, must_haves, must_nots, approvers, shapes : tuple[str, ...]
        Codes or lines.
    usage_months : int or None
        How long the pictures are to be used. [month]
    usage_for_good : bool
        As long as copyright lasts.
    finals_wanted : int or None
        How many finished pictures the client asked for. [1]
    moods : tuple[AgreedMood, ...]
        In their order.
    shots : tuple[AgreedShot, ...]
        In their order.
    """

    purpose: str = ""
    audience: str = ""
    wished_dates: str = ""
    placements: tuple[str, ...] = ()
    territories: tuple[str, ...] = ()
    products: tuple[str, ...] = ()
    must_haves: tuple[str, ...] = ()
    must_nots: tuple[str, ...] = ()
    approvers: tuple[str, ...] = ()
    shapes: tuple[str, ...] = ()
    usage_months: int | None = None
    usage_for_good: bool = False
    finals_wanted: int | None = None
    moods: tuple[AgreedMood, ...] = ()
    shots: tuple[AgreedShot, ...] = ()

    @property
    def finals(self) -> int:
        """Finished pictures of all shots together. [1]"""
        return sum(shot.finals for shot in self.shots)


def read_agreed(frozen: Mapping[str, Any]) -> Agreed:
    """Return what a frozen version says.

    Parameters
    ----------
    frozen : Mapping[str, Any]
        As `dataclasses.asdict` of an `Agreed` and JSON have it. A name that an older release did not write keeps its
        empty value, one that this release does not know is left out.

    Returns
    -------
    Agreed
        The same values.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> read_agreed({"purpose": "A pack for rain", "shots": [{"key": 4, "number": 1, "title": "Rim"}]}).shots[0].title
    'Rim'
    """
    known = _known(Agreed, frozen)
    known["moods"] = tuple(AgreedMood(**_known(AgreedMood, mood)) for mood in frozen.get("moods", ()))
    known["shots"] = tuple(_shot(shot) for shot in frozen.get("shots", ()))
    return Agreed(**known)


def _shot(frozen: Mapping[str, Any]) -> AgreedShot:
    known = _known(AgreedShot, frozen)
    known["finishing"] = tuple(AgreedWork(**_known(AgreedWork, work)) for work in frozen.get("finishing", ()))
    return AgreedShot(**known)


def _known(kind: type, frozen: Mapping[str, Any]) -> dict[str, Any]:
    names = kind.__dataclass_fields__  # type: ignore[attr-defined]
    return {name: tuple(value) if isinstance(value, list) else value for name, value in frozen.items() if name in names}


def fingerprint(frozen: Mapping[str, Any]) -> str:
    """Return a hash of what a version says, the same whatever the order of its names.

    Parameters
    ----------
    frozen : Mapping[str, Any]
        Values that JSON knows.

    Returns
    -------
    str
        SHA-256 of its JSON with sorted names, in hexadecimal.

    References
    ----------
    FIPS 180-4 (SHA-256); RFC 8259 (JSON). Sorting the names is our own rule.

    Examples
    --------
    >>> fingerprint({"a": 1, "b": [2]}) == fingerprint({"b": [2], "a": 1})
    True
    """
    text = json.dumps(frozen, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()
