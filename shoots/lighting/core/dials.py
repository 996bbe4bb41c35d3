"""The powers and places of lights as dials that a search can turn.

Lights that serve one end are turned together: all keys to the same number of stops below full (each on its
own nearest step), likewise all fills and all background lights; each light from behind or above has a dial
of its own. A dial that no wish asks to turn stays where it is.

References
----------
Own arrangement; outputs from `shoots.lighting.core.output`.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from shoots.kit.core.lamps import LampKind, power_steps
from shoots.lighting.core.aids import subject_output, thrown_back
from shoots.lighting.core.exposures import background_exposure
from shoots.lighting.core.output import flash_tail
from shoots.lighting.core.setup import Exposure, PlacedLight, Setup
from shoots.values.units import FloatArray

MOVE_STEP_M = 0.1
"""How finely places are tried. [m]"""
MOST_PLACES = 40

Choice = tuple[tuple[str, float, float], ...]
"""Letter, power and floor distance of each light of a dial."""


@dataclass(frozen=True, slots=True, eq=False)
class Dial:
    """What a group of lights gives at each of its settings, weakest first.

    Attributes
    ----------
    choices : tuple[Choice, ...]
        The m settings.
    flash, synced, steady : NDArray[np.float64], shape (m,)
        At the subject: flash up to the sync speed [lx·s], the same in high-speed sync before the shutter's
        share [lx·s], continuous light [lx].
    flash_thrown, synced_thrown, steady_thrown : NDArray[np.float64], shape (m,)
        The same by way of reflectors. [lx·s, lx·s, lx]
    flash_behind, synced_behind, steady_behind : NDArray[np.float64], shape (m,)
        The same on the background. [lx·s, lx·s, lx]
    t01_s : NDArray[np.float64], shape (m,)
        Longest flash. [s]
    moved_m : NDArray[np.float64], shape (m,)
        How far lights are moved for it. [m]
    """

    choices: tuple[Choice, ...]
    flash: FloatArray
    synced: FloatArray
    steady: FloatArray
    flash_thrown: FloatArray
    synced_thrown: FloatArray
    steady_thrown: FloatArray
    flash_behind: FloatArray
    synced_behind: FloatArray
    steady_behind: FloatArray
    t01_s: FloatArray
    moved_m: FloatArray

    def amount(self, high_speed: bool, share: float, shutter_s: float) -> FloatArray:
        """Return what the dial gives at the subject under a shutter.

        Parameters
        ----------
        high_speed : bool
            Whether flashes burn while the curtains run.
        share : float
            What the shutter lets of them. [1]
        shutter_s : float
            Exposure time. [s]

        Returns
        -------
        NDArray[np.float64], shape (m,)
            Luminous exposure. [lx·s]
        """
        return (self.synced if high_speed else self.flash) * share + self.steady * shutter_s

    def thrown(self, high_speed: bool, share: float, shutter_s: float) -> FloatArray:
        """Return what reflectors throw of the dial onto the subject under a shutter.

        Parameters
        ----------
        high_speed : bool
            Whether flashes burn while the curtains run.
        share : float
            What the shutter lets of them. [1]
        shutter_s : float
            Exposure time. [s]

        Returns
        -------
        NDArray[np.float64], shape (m,)
            Luminous exposure. [lx·s]
        """
        flash = self.synced_thrown if high_speed else self.flash_thrown
        return flash * share + self.steady_thrown * shutter_s

    def behind(self, high_speed: bool, share: float, shutter_s: float) -> FloatArray:
        """Return what the dial gives on the background under a shutter.

        Parameters
        ----------
        high_speed : bool
            Whether flashes burn while the curtains run.
        share : float
            What the shutter lets of them. [1]
        shutter_s : float
            Exposure time. [s]

        Returns
        -------
        NDArray[np.float64], shape (m,)
            Luminous exposure. [lx·s]
        """
        flash = self.synced_behind if high_speed else self.flash_behind
        return flash * share + self.steady_behind * shutter_s


def _slow(setup: Setup) -> Setup:
    """Return the setup at a time that syncs, so that outputs come without the shutter's share."""
    slow = max(setup.camera.sync_s, setup.camera.electronic_s or 0.0)
    return replace(setup, exposure=Exposure(8.0, slow))


def _places(light: PlacedLight, nearest_m: float, farthest_m: float) -> list[float]:
    """Return floor distances to try, the present one first."""
    count = min(MOST_PLACES, max(2, round((farthest_m - nearest_m) / MOVE_STEP_M) + 1))
    grid = [float(place) for place in np.linspace(nearest_m, farthest_m, count)]
    return [light.floor_m, *(place for place in grid if abs(place - light.floor_m) > 1e-9)]


def _nearest(powers: tuple[float, ...], wanted: float) -> float:
    """Return the step of a light nearest in stops to a wanted power."""
    return min(powers, key=lambda power: (round(abs(math.log2(power / wanted)), 9), -power))


def make_dial(
    setup: Setup, lights: tuple[PlacedLight, ...], free: bool, ranges: dict[str, tuple[float, float]]
) -> Dial:
    """Return the dial of a group of lights.

    Parameters
    ----------
    setup : Setup
        The setup they stand in.
    lights : tuple[PlacedLight, ...]
        The group; none gives a dial with one dark setting.
    free : bool
        False leaves them at their set power and place.
    ranges : dict[str, tuple[float, float]]
        For lights that may be moved, nearest and farthest floor distance. [m]

    Returns
    -------
    Dial
        Sorted by what it gives at the subject.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    Own arrangement.
    """
    group = sorted(lights, key=lambda light: light.letter)
    slow = _slow(setup)
    if not free or not group:
        rows = [_row(slow, [(light, light.power, light.floor_m) for light in group])]
        return _dial(rows)
    scales = [power_steps(light.lamp) for light in group]
    finest = max(scales, key=len)
    # Which step of each light goes with each step of the finest scale; found once, not for every place.
    steps = [tuple(finest) if scale == finest else tuple(_nearest(scale, dial) for dial in finest) for scale in scales]
    moves: list[tuple[PlacedLight, float] | None] = [None]
    for light in group:
        if light.letter in ranges:
            moves += [(light, place) for place in _places(light, *ranges[light.letter])[1:]]
    rows = []
    for move in moves:
        moved = {move[0].letter: move[1]} if move else {}
        units = [_row(slow, [(light, 1.0, moved.get(light.letter, light.floor_m))]) for light in group]
        rows += [_scaled(units, group, list(powers), moved) for powers in zip(*steps, strict=True)]
    return _dial(rows)


_Row = tuple[Choice, list[float], float, float]


def _row(slow: Setup, lights: list[tuple[PlacedLight, float, float]]) -> _Row:
    """Return choice, the nine amounts, the longest flash and the way moved, for lights at a power and
    place."""
    amounts = [0.0] * 9
    t01, way = 0.0, 0.0
    for light, power, floor in lights:
        placed = replace(light, power=power, floor_m=floor)
        here = subject_output(slow, placed).amount
        thrown = math.fsum(amount for _, amount in thrown_back(slow.with_light(placed), placed))
        there = background_exposure(slow, placed)
        extra = math.exp2(light.lamp.high_speed_sync_extra_stops)
        if light.lamp.kind is LampKind.FLASH:
            terms = [here, here * extra, 0.0, thrown, thrown * extra, 0.0, there, there * extra, 0.0]
            t01 = max(t01, flash_tail(light.lamp, power).t01_s)
        else:
            terms = [0.0, 0.0, here, 0.0, 0.0, thrown, 0.0, 0.0, there / slow.exposure.shutter_s]
        amounts = [one + two for one, two in zip(amounts, terms, strict=True)]
        way += abs(floor - light.floor_m)
    return tuple((light.letter, power, floor) for light, power, floor in lights), amounts, t01, way


def _scaled(units: list[_Row], group: list[PlacedLight], powers: list[float], moved: dict[str, float]) -> _Row:
    """Return a row from rows at full power: output is proportional to power."""
    amounts = [
        math.fsum(unit[1][index] * power for unit, power in zip(units, powers, strict=True)) for index in range(9)
    ]
    tails = [
        flash_tail(light.lamp, power).t01_s if light.lamp.kind is LampKind.FLASH else 0.0
        for light, power in zip(group, powers, strict=True)
    ]
    choice = tuple(
        (light.letter, power, moved.get(light.letter, light.floor_m))
        for light, power in zip(group, powers, strict=True)
    )
    return choice, amounts, max(tails), math.fsum(unit[3] for unit in units)


def _dial(rows: list[_Row]) -> Dial:
    rows = sorted(rows, key=lambda row: (row[1][0] + row[1][2], row[3], row[0]))
    amounts = np.array([row[1] for row in rows])
    return Dial(
        choices=tuple(row[0] for row in rows),
        flash=amounts[:, 0],
        synced=amounts[:, 1],
        steady=amounts[:, 2],
        flash_thrown=amounts[:, 3],
        synced_thrown=amounts[:, 4],
        steady_thrown=amounts[:, 5],
        flash_behind=amounts[:, 6],
        synced_behind=amounts[:, 7],
        steady_behind=amounts[:, 8],
        t01_s=np.array([row[2] for row in rows]),
        moved_m=np.array([row[3] for row in rows]),
    )
