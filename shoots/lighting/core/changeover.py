"""From one setup to the next: what to take away, move, change and add, as a list that an assistant can
follow.

A light keeps its letter from setup to setup: the same letter with the same lamp is the same head.

References
----------
Own arrangement; the minutes are our own estimate and can be replaced by the studio's.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from shoots.lighting.core.blocking import panel_normal
from shoots.lighting.core.framecheck import light_position
from shoots.lighting.core.panels import dot
from shoots.lighting.core.setup import PlacedLight, Setup

MOVED_M = 0.1
"""Less than this is no move. [m]"""
TURNED_DEG = 5.0
"""Less than this is no turn of a panel. [°]"""
TURNED_STOPS = 0.05
"""Less than this is no change of power. [stop]"""


class ChangeKind(StrEnum):
    """What is to be done, in the order in which it is done."""

    TAKE_AWAY = "TAKE_AWAY"
    """Take the light down, or the panel away."""
    MODIFIER = "MODIFIER"
    """Put something else on it, or take a layer out or in."""
    GELS = "GELS"
    """Change its gels."""
    MOVE = "MOVE"
    """``amount`` is how far along the floor. [m]"""
    HEIGHT = "HEIGHT"
    """``amount`` is how much higher. [m]"""
    TURN = "TURN"
    """Turn or tilt a panel that stays where it is; ``amount`` is by how much. [°]"""
    ADD = "ADD"
    """Put a light or panel up."""
    POWER = "POWER"
    """``amount`` is by how many stops, positive for up. [stop]"""
    SYNC = "SYNC"
    """Switch high-speed sync; ``amount`` is 1 for on, 0 for off. [1]"""
    LENS = "LENS"
    """``amount`` is the new focal length. [mm]"""
    FILTER = "FILTER"
    """``amount`` is the new strength on the lens, 0 for none. [stop]"""
    CAMERA = "CAMERA"
    """``amount`` is how far the camera is moved. [m]"""
    APERTURE = "APERTURE"
    """``amount`` is the new exact f-number. [1]"""
    SHUTTER = "SHUTTER"
    """``amount`` is the new exact time. [s]"""
    ISO = "ISO"
    """``amount`` is the new exact speed. [1]"""
    WHITE_BALANCE = "WHITE_BALANCE"
    """``amount`` is the new temperature. [K]"""


MINUTES: dict[ChangeKind, float] = {
    ChangeKind.TAKE_AWAY: 2.0,
    ChangeKind.MODIFIER: 3.0,
    ChangeKind.GELS: 1.0,
    ChangeKind.MOVE: 1.0,
    ChangeKind.HEIGHT: 0.5,
    ChangeKind.TURN: 0.5,
    ChangeKind.ADD: 5.0,
    ChangeKind.POWER: 0.2,
    ChangeKind.SYNC: 0.2,
    ChangeKind.LENS: 1.0,
    ChangeKind.FILTER: 0.5,
    ChangeKind.CAMERA: 1.0,
    ChangeKind.APERTURE: 0.1,
    ChangeKind.SHUTTER: 0.1,
    ChangeKind.ISO: 0.1,
    ChangeKind.WHITE_BALANCE: 0.1,
}
"""What each takes one person; own estimate. [min]"""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to do.

    Attributes
    ----------
    kind : ChangeKind
        What.
    letter : str
        Which light or panel; empty for the camera.
    amount : float
        How much, in the unit that ``kind`` states; 0 where there is none.
    minutes : float
        About how long it takes. [min]
    """

    kind: ChangeKind
    letter: str
    amount: float
    minutes: float


@dataclass(frozen=True, slots=True)
class ChangeOver:
    """From one setup to the next.

    Attributes
    ----------
    changes : tuple[Change, ...]
        In the order in which they are done.
    minutes : float
        About how long it takes one person in all. [min]
    """

    changes: tuple[Change, ...]
    minutes: float


def _light_changes(before: PlacedLight, after: PlacedLight) -> list[tuple[ChangeKind, float]]:
    found: list[tuple[ChangeKind, float]] = []
    if before.modifier != after.modifier:
        found.append((ChangeKind.MODIFIER, 0.0))
    if before.gels != after.gels:
        found.append((ChangeKind.GELS, 0.0))
    one, two = light_position(before), light_position(after)
    way = math.hypot(one[0] - two[0], one[1] - two[1])
    if way >= MOVED_M:
        found.append((ChangeKind.MOVE, way))
    if abs(after.height_m - before.height_m) >= MOVED_M:
        found.append((ChangeKind.HEIGHT, after.height_m - before.height_m))
    stops = math.log2(after.power * after.pops / (before.power * before.pops))
    if abs(stops) >= TURNED_STOPS:
        found.append((ChangeKind.POWER, stops))
    if before.high_speed_sync != after.high_speed_sync:
        found.append((ChangeKind.SYNC, float(after.high_speed_sync)))
    return found


def _panel_changes(before: Setup, after: Setup) -> list[tuple[ChangeKind, str, float]]:
    old = {one.letter: one for one in before.panels}
    new = {one.letter: one for one in after.panels}
    found: list[tuple[ChangeKind, str, float]] = []
    for letter in sorted(old.keys() | new.keys()):
        if letter not in new or (letter in old and old[letter].panel != new[letter].panel):
            found.append((ChangeKind.TAKE_AWAY, letter, 0.0))
        if letter not in old or (letter in new and old[letter].panel != new[letter].panel):
            found.append((ChangeKind.ADD, letter, 0.0))
        elif letter in new:
            way = math.hypot(*(a - b for a, b in zip(old[letter].position, new[letter].position, strict=True)))
            cosine = dot(panel_normal(before, old[letter]), panel_normal(after, new[letter]))
            turn = math.degrees(math.acos(cosine))
            if way >= MOVED_M:
                found.append((ChangeKind.MOVE, letter, way))
            elif turn >= TURNED_DEG:
                found.append((ChangeKind.TURN, letter, turn))
    return found


def _camera_changes(before: Setup, after: Setup) -> list[tuple[ChangeKind, float]]:
    found: list[tuple[ChangeKind, float]] = []
    if before.lens.focal_mm != after.lens.focal_mm:
        found.append((ChangeKind.LENS, after.lens.focal_mm))
    if before.exposure.nd_stops != after.exposure.nd_stops:
        found.append((ChangeKind.FILTER, after.exposure.nd_stops))
    way = math.hypot(before.place.distance_m - after.place.distance_m, before.place.height_m - after.place.height_m)
    if way >= MOVED_M:
        found.append((ChangeKind.CAMERA, way))
    settings = (
        (ChangeKind.APERTURE, before.exposure.f_number, after.exposure.f_number),
        (ChangeKind.SHUTTER, before.exposure.shutter_s, after.exposure.shutter_s),
        (ChangeKind.ISO, before.exposure.iso, after.exposure.iso),
        (ChangeKind.WHITE_BALANCE, before.white_balance_k, after.white_balance_k),
    )
    found += [(kind, new) for kind, old, new in settings if not math.isclose(old, new, rel_tol=1e-6)]
    return found


def change_over(before: Setup, after: Setup, minutes: Mapping[ChangeKind, float] | None = None) -> ChangeOver:
    """Return what to do between two setups.

    Parameters
    ----------
    before, after : Setup
        The two setups; places are relative to the subject in both.
    minutes : Mapping[ChangeKind, float] or None
        The studio's own minutes for some kinds; ours for the rest. [min]

    Returns
    -------
    ChangeOver
        Empty for twice the same setup.

    References
    ----------
    Own arrangement.
    """
    takes = {**MINUTES, **(minutes or {})}
    old = {light.letter: light for light in before.lights}
    new = {light.letter: light for light in after.lights}
    found: list[tuple[ChangeKind, str, float]] = []
    for letter in sorted(old.keys() | new.keys()):
        if letter not in new or (letter in old and old[letter].lamp != new[letter].lamp):
            found.append((ChangeKind.TAKE_AWAY, letter, 0.0))
        if letter not in old or (letter in new and old[letter].lamp != new[letter].lamp):
            found.append((ChangeKind.ADD, letter, 0.0))
        elif letter in new:
            found += [(kind, letter, amount) for kind, amount in _light_changes(old[letter], new[letter])]
    found += _panel_changes(before, after)
    found += [(kind, "", amount) for kind, amount in _camera_changes(before, after)]
    order = list(ChangeKind)
    found.sort(key=lambda one: (order.index(one[0]), one[1]))
    changes = tuple(Change(kind, letter, amount, takes[kind]) for kind, letter, amount in found)
    return ChangeOver(changes, math.fsum(change.minutes for change in changes))
