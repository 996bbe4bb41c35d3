"""What a place's page shows, and the light of one date at a place, drawn and told; other slices draw it too."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from itertools import pairwise
from typing import overload
from zoneinfo import ZoneInfo

import numpy as np

from shoots.members.models import Studio
from shoots.places.core.cameraday import camera_day
from shoots.places.core.lightday import (
    CIVIL_DEG,
    EVENT_SPREAD_S,
    LOW_SUN,
    Absence,
    LowSun,
    SunDay,
    sun_day,
)
from shoots.places.core.sun import Altitude, Side, sun_track
from shoots.places.models import CARE, Caution, Permission, Place, Spot

MINUTE_S = 60.0
CURVE_EVERY = 20
"""Minutes between two points of the drawn curve of the sun's height."""


class LightKind(StrEnum):
    """What the sky gives; the drawing and its key tell them apart."""

    NIGHT = "night"
    BLUE = "blue"
    LOW = "low"
    DAY = "day"


FILLS = {
    LightKind.NIGHT: "#23262b",
    LightKind.BLUE: "#56698a",
    LightKind.LOW: "#e79a55",
    LightKind.DAY: "#f4dfa0",
}


@dataclass(frozen=True)
class Band:
    """A stretch of one kind of light, with its place in the drawing in percent of the day."""

    kind: LightKind
    start: datetime
    end: datetime
    x: str
    width: str

    @property
    def fill(self) -> str:
        """The colour of this light; part of the drawing, so that screens and PDFs agree."""
        return FILLS[self.kind]


@dataclass(frozen=True)
class Tick:
    """An hour or a moment in the drawing; `anchor` keeps a label at an edge inside it."""

    label: str
    x: str
    anchor: str


@dataclass(frozen=True)
class SpotPeriod:
    """From when till when the sun stands on one side of a spot's camera."""

    start: datetime
    end: datetime
    side: Side
    to_the_right: bool
    x: str
    width: str

    @property
    def is_ahead(self) -> bool:
        return self.side is Side.BEFORE

    @property
    def is_behind(self) -> bool:
        return self.side is Side.BEHIND

    @property
    def is_from_the_right(self) -> bool:
        return self.side is Side.BESIDE and self.to_the_right


@dataclass(frozen=True)
class SunLimits:
    """What a studio calls low sun, and by which altitude it counts."""

    low_sun: LowSun = LOW_SUN
    altitude: Altitude = Altitude.GEOMETRIC


@dataclass(frozen=True)
class LightOfDay:
    """The light of one date at one place, from midnight to midnight by its clock.

    `sun` holds the events; an event that does not happen says why. `bands`, `curve`, `ticks`, `rises` and `marks`
    are the drawing: positions in percent, so that it stretches with its page while its letters do not.
    """

    day: date
    zone: str
    latitude: float
    longitude: float
    sun: SunDay
    bands: tuple[Band, ...]
    curve: str
    ticks: tuple[Tick, ...]
    rises: tuple[Tick, ...]
    marks: tuple[Tick, ...]
    limits: SunLimits

    @property
    def low_deg(self) -> float:
        """Where the studio lets low sun begin. [°]"""
        return self.limits.low_sun.low_deg

    @property
    def high_deg(self) -> float:
        """Where the studio lets low sun end. [°]"""
        return self.limits.low_sun.high_deg

    @property
    def is_apparent(self) -> bool:
        """Whether that is counted as the eye sees it."""
        return self.limits.altitude is Altitude.APPARENT

    @property
    def sunrise_at(self) -> datetime | None:
        return _to_minute(self.sun.sunrise.at)

    @property
    def sunset_at(self) -> datetime | None:
        return _to_minute(self.sun.sunset.at)

    @property
    def highest_at(self) -> datetime:
        return _to_minute(self.sun.noon.at)

    @property
    def low_sun(self) -> tuple[Band, ...]:
        """Low warm sun, to the minute. Common practice counts from -4° to +6°; a studio may settle its own."""
        return tuple(band for band in self.bands if band.kind is LightKind.LOW)

    @property
    def blue(self) -> tuple[Band, ...]:
        """Blue light before and after it, to the minute. Common practice counts from -6° to -4°."""
        return tuple(band for band in self.bands if band.kind is LightKind.BLUE)

    @property
    def sun_hours(self) -> tuple[int, int]:
        """For how long the sun is up: hours and minutes."""
        minutes = round(self.sun.day_length.total_seconds() / MINUTE_S)
        return divmod(minutes, 60)

    @property
    def stays_up(self) -> bool:
        return self.sun.sunset.absence is Absence.STAYS_ABOVE

    @property
    def stays_down(self) -> bool:
        return self.sun.sunrise.absence is Absence.STAYS_BELOW

    @property
    def spread_minutes(self) -> int:
        """How far a real rise or set lies from the computed one at least, at a level horizon."""
        return round(EVENT_SPREAD_S / MINUTE_S)


@dataclass(frozen=True)
class SpotLight:
    """A spot with the sun around its camera; no periods where it has no bearing or the place no position."""

    spot: Spot
    periods: tuple[SpotPeriod, ...]


def sun_limits(studio: Studio) -> SunLimits:
    """Return what a studio calls low sun. No query."""
    return SunLimits(LowSun(studio.low_sun_from_deg, studio.low_sun_to_deg), Altitude(studio.sun_altitude))


def light_of(
    place: Place | None,
    day: date | None,
    *,
    moments: Sequence[tuple[str, time]] = (),
    limits: SunLimits = SunLimits(),
) -> LightOfDay | None:
    """Return the light of a date at a place, or None where either is unknown. No query.

    `moments` are labels with times of the place's clock to mark in the drawing, the call and the wrap, say. `limits`
    are the studio's, see `sun_limits`.
    Hand the result to `components/light_strip.html`.
    """
    if place is None or day is None or not place.has_position:
        return None
    drawn = _light(day, place.time_zone, place.latitude, place.longitude, place.elevation_m, limits)
    if not moments:
        return drawn
    length = _length_s(day, drawn.zone)
    zone = ZoneInfo(drawn.zone)
    marks = tuple(
        _tick(label, _elapsed_s(datetime.combine(day, at, zone), day, drawn.zone) / length) for label, at in moments
    )
    return LightOfDay(**{**vars(drawn), "marks": marks})


@functools.lru_cache(maxsize=512)
def _light(
    day: date, zone: str, latitude: float, longitude: float, elevation_m: float, limits: SunLimits
) -> LightOfDay:
    sun = sun_day(day, zone, latitude, longitude, elevation_m, limits.low_sun, limits.altitude)
    start = _midnight(day, zone)
    length = _length_s(day, zone)
    seconds = np.arange(0.0, length + 1.0, MINUTE_S)
    track = sun_track(start.timestamp() + seconds, latitude, longitude, elevation_m)
    seen = limits.altitude is Altitude.APPARENT
    altitude = track.apparent_altitude_deg if seen else track.altitude_deg
    # 0 night, 1 blue, 2 low, 3 day: how many of the limits each minute's sun has passed.
    kinds = np.searchsorted([CIVIL_DEG, limits.low_sun.low_deg, limits.low_sun.high_deg], altitude, side="right")
    edges = [0, *(np.flatnonzero(np.diff(kinds)) + 1), len(seconds) - 1]
    order = tuple(LightKind)
    bands = tuple(
        Band(
            kind=order[int(kinds[low])],
            start=datetime.fromtimestamp(start.timestamp() + float(seconds[low]), start.tzinfo),
            end=datetime.fromtimestamp(start.timestamp() + float(seconds[high]), start.tzinfo),
            x=_percent(seconds[low] / length),
            width=_percent((seconds[high] - seconds[low]) / length),
        )
        for low, high in pairwise(edges)
        if high > low
    )
    points = [(s / length * 1000.0, max(0.0, a)) for s, a in zip(seconds, altitude, strict=True)]
    curve = " ".join(f"{x:.0f},{90.0 - a:.1f}" for x, a in points[::CURVE_EVERY])
    events = [event.at for event in (sun.sunrise, sun.sunset) if event.at and event.at.date() == day]
    return LightOfDay(
        day=day,
        zone=zone,
        latitude=latitude,
        longitude=longitude,
        sun=sun,
        bands=bands,
        curve=f"0,90 {curve} 1000,90",
        ticks=tuple(
            _tick(f"{hour:02}", _elapsed_s(datetime.combine(day, time(hour), ZoneInfo(zone)), day, zone) / length)
            for hour in (0, 6, 12, 18)
        ),
        rises=tuple(_tick(f"{_to_minute(at):%H:%M}", _elapsed_s(at, day, zone) / length) for at in events),
        marks=(),
        limits=limits,
    )


def spot_light(spot: Spot, place: Place, day: date) -> SpotLight:
    """Return when the sun stands before, beside and behind a spot's camera on a date. No query."""
    if not place.has_position or spot.bearing_deg is None:
        return SpotLight(spot, ())
    return SpotLight(spot, _sides(day, place.time_zone, place.latitude, place.longitude, spot.bearing_deg))


@functools.lru_cache(maxsize=512)
def _sides(day: date, zone: str, latitude: float, longitude: float, bearing: float) -> tuple[SpotPeriod, ...]:
    length = _length_s(day, zone)
    found = []
    for period in camera_day(day, zone, latitude, longitude, bearing):
        low = min(max(_elapsed_s(period.start, day, zone), 0.0), length)
        high = min(max(_elapsed_s(period.end, day, zone), 0.0), length)
        found.append(
            SpotPeriod(
                start=_to_minute(period.start),
                end=_to_minute(period.end),
                side=period.side,
                to_the_right=period.to_the_right,
                x=_percent(low / length),
                width=_percent((high - low) / length),
            )
        )
    return tuple(found)


@overload
def _to_minute(at: datetime) -> datetime: ...
@overload
def _to_minute(at: None) -> None: ...
def _to_minute(at: datetime | None) -> datetime | None:
    """Return the nearest whole minute, as almanacs print it."""
    return at and datetime.fromtimestamp(round(at.timestamp() / MINUTE_S) * MINUTE_S, at.tzinfo)


def _midnight(day: date, zone: str) -> datetime:
    return datetime.combine(day, time(), ZoneInfo(zone))


def _length_s(day: date, zone: str) -> float:
    """Return how long a day is: 23 and 25 hours when the clocks change."""
    return _midnight(day + timedelta(days=1), zone).timestamp() - _midnight(day, zone).timestamp()


def _elapsed_s(at: datetime, day: date, zone: str) -> float:
    return at.timestamp() - _midnight(day, zone).timestamp()


def _percent(share: float) -> str:
    return f"{100.0 * float(share):.3f}%"


def _tick(label: str, share: float) -> Tick:
    anchor = "start" if share < 0.06 else "end" if share > 0.94 else "middle"
    return Tick(label, _percent(min(max(share, 0.0), 1.0)), anchor)


WORDS = {
    Caution.HEIGHT: ("edge", "cliff", "rim", "ledge", "drop", "roof", "ladder", "scaffold", "height", "quarry", "fall"),
    Caution.WATER: ("water", "reservoir", "river", "lake", "sea", "tide", "ice", "weir", "pool", "beach", "dam"),
    Caution.TRAFFIC: ("road", "traffic", "rail", "track", "vehicle", "forklift", "car park"),
    Caution.WIND: ("wind", "gust", "exposed"),
    Caution.DRONE: ("drone",),
}


def cautions_of(place: Place) -> tuple[Caution, ...]:
    """Return what to take care of, from the words that stand in a place's hazards and notes. No query.

    `places.models.CARE` says of each what care is usual; call sheets may print it.
    """
    said = f" {place.hazards} {place.note} {place.power} ".lower()
    found = {
        caution
        for caution, words in WORDS.items()
        if any(f" {word}" in said or f"\n{word}" in said or f"-{word}" in said for word in words)
    }
    if not place.indoors:
        found.add(Caution.WIND)
        if place.power:
            found.add(Caution.MAINS)
    return tuple(caution for caution in Caution if caution in found)


@dataclass(frozen=True)
class PlaceCard:
    """A place in the list, with today's light."""

    place: Place
    light: LightOfDay | None


def place_cards(studio: Studio, *, away: bool, today: date) -> tuple[PlaceCard, ...]:
    """Return the places at hand, or those put away. One query."""
    places = Place.objects.of_studio(studio).filter(put_away_at__isnull=not away)
    limits = sun_limits(studio)
    return tuple(PlaceCard(place, light_of(place, today, limits=limits)) for place in places)


@dataclass(frozen=True)
class PlacePage:
    """One place: its spots, its light on a date, what to take care of, and what to ask next."""

    place: Place
    day: date
    day_before: date
    day_after: date
    light: LightOfDay | None
    spots: tuple[SpotLight, ...]
    care: tuple[str, ...]

    @property
    def must_ask(self) -> bool:
        return self.place.permission == Permission.TO_ASK


def place_page(place: Place, *, studio: Studio, day: date) -> PlacePage:
    """Return what a place's page shows for a date. One query."""
    one = timedelta(days=1)
    return PlacePage(
        place=place,
        day=day,
        day_before=day - one,
        day_after=day + one,
        light=light_of(place, day, limits=sun_limits(studio)),
        spots=tuple(spot_light(spot, place, day) for spot in place.spots.all()),
        care=tuple(str(CARE[caution]) for caution in cautions_of(place)),
    )
