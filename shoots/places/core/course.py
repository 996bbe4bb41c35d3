"""The sun's way from one of its midnights to the next, sampled so that no passage of an altitude is missed.

References
----------
NREL/TP-560-34302 for the positions; the search is our own, see tests.
"""

from datetime import UTC, date, datetime, timedelta
from typing import NamedTuple
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import numpy as np

from shoots.places.core.sun import Altitude, SunTrack, sun_track
from shoots.values.units import FloatArray

_HALF_DAY_S = 43200.0
_NODE_S = 600.0
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class UnknownZone(ValueError):
    """Raised when a name is no IANA time zone."""


class Passages(NamedTuple):
    """Moments at which one altitude is passed, +1 for rising or -1 for setting, and the azimuths then."""

    moments: FloatArray
    directions: FloatArray
    azimuths: FloatArray


class Course:
    """The sun between two of its midnights, sampled so densely that no passage of an altitude is missed."""

    def __init__(self, day: date, zone: str, latitude_deg: float, longitude_deg: float, elevation_m: float) -> None:
        self.zone = _zone(zone)
        self._met: dict[tuple[float, Altitude], Passages] = {}
        self.place = (latitude_deg, longitude_deg, elevation_m)
        clock_noon = (datetime(day.year, day.month, day.day, 12, tzinfo=self.zone) - _EPOCH).total_seconds()
        # Noon by the sun: mean noon of the meridian nearest to noon by the clock, moved by the equation of
        # time.
        offset = (clock_noon + 240.0 * longitude_deg) % 86400.0 - _HALF_DAY_S
        noon = clock_noon - offset
        noon -= 60.0 * float(self.track(np.array([noon])).equation_of_time_min[0])
        self.transit = noon
        grid = noon + np.arange(-13.0 * 3600.0, 13.0 * 3600.0 + 1.0, _NODE_S)
        altitude = self.track(grid).altitude_deg
        third = len(grid) // 3
        # Altitude rises from one lowest point to the highest and falls to the next: between them each
        # altitude is passed once. At the poles there may be no such points; then the ends of the solar day
        # stand in.
        self.start = self._turn(grid, altitude, -1.0, slice(0, third), noon - _HALF_DAY_S)
        self.noon = self._turn(grid, altitude, 1.0, slice(third, 2 * third + 1), noon)
        self.end = self._turn(grid, altitude, -1.0, slice(2 * third, len(grid)), noon + _HALF_DAY_S)
        inside = grid[(grid > self.start + 1.0) & (grid < self.end - 1.0) & (np.abs(grid - self.noon) > 1.0)]
        self.nodes = np.sort(np.concatenate([inside, [self.start, self.noon, self.end]]))
        self.sun = self.track(self.nodes)

    def track(self, unix_s: FloatArray) -> SunTrack:
        latitude, longitude, elevation = self.place
        return sun_track(unix_s, latitude, longitude, elevation)

    def _turn(self, grid: FloatArray, altitude: FloatArray, sign: float, part: slice, otherwise: float) -> float:
        """Return the moment of the highest (+1) or lowest (-1) point within a part of the grid."""
        height = sign * altitude
        index = int(part.start) + int(np.argmax(height[part]))
        if index in (0, len(grid) - 1) or not (height[index - 1] <= height[index] >= height[index + 1]):
            return otherwise
        middle, reach = float(grid[index]), _NODE_S
        for _ in range(3):
            times = middle + np.linspace(-reach, reach, 41)
            middle = float(times[int(np.argmax(sign * self.track(times).altitude_deg))])
            reach /= 20.0
        return middle

    def clock(self, unix_s: float) -> datetime:
        return (_EPOCH + timedelta(seconds=round(unix_s))).astimezone(self.zone)

    def altitudes(self, track: SunTrack, kind: Altitude) -> FloatArray:
        return track.altitude_deg if kind is Altitude.GEOMETRIC else track.apparent_altitude_deg

    def passages(self, level_deg: float, kind: Altitude = Altitude.GEOMETRIC) -> Passages:
        """Return when an altitude is passed, in order; each altitude is searched for only once."""
        if (level_deg, kind) not in self._met:
            self._met[level_deg, kind] = self._search(level_deg, kind)
        return self._met[level_deg, kind]

    def _search(self, level_deg: float, kind: Altitude) -> Passages:
        above = self.altitudes(self.sun, kind) >= level_deg
        before = np.flatnonzero(above[1:] != above[:-1])
        if before.size == 0:
            return Passages(np.empty(0), np.empty(0), np.empty(0))
        low, high = self.nodes[before], self.nodes[before + 1]
        rows, share = np.arange(len(low)), np.linspace(0.0, 1.0, 25)
        for _ in range(2):
            times = low[:, None] + (high - low)[:, None] * share
            track = self.track(times.ravel())
            inside = (self.altitudes(track, kind) >= level_deg).reshape(times.shape)
            first = np.argmax(inside != inside[:, :1], axis=1)
            low, high = times[rows, first - 1], times[rows, first]
        azimuth = track.azimuth_deg.reshape(times.shape)[rows, first]
        return Passages((low + high) / 2.0, np.where(above[before + 1], 1.0, -1.0), azimuth)


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise UnknownZone(name) from error
