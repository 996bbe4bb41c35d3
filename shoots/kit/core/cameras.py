"""Cameras, lenses and filters, as the frozen shapes that the physics takes.

References
----------
ISO 516 and ISO 517 for times and apertures; sensor sizes are data of the studio.
"""

import math
from dataclasses import dataclass

from shoots.values.units import OutOfRange, Range

SENSOR = Range(0.0, 1000.0, "mm", above=True)
PIXELS = Range(1.0, 1e6, "px")
ISO = Range(1.0, 1e7, "1")
SHUTTER = Range(1e-6, 1e5, "s")
F_NUMBER = Range(0.3, 512.0, "1")
CURTAIN = Range(0.0, 1.0, "s")
FOCAL = Range(0.5, 5000.0, "mm")
FOCUS = Range(0.01, 100.0, "m")
FILTER_STOPS = Range(0.0, 30.0, "stop")


@dataclass(frozen=True, slots=True)
class CameraSpec:
    """A body.

    Attributes
    ----------
    width_mm, height_mm : float
        Sensor, long side as width. [mm]
    width_px, height_px : int
        Pixels along both sides.
    base_iso, top_iso : float
        Lowest full-quality ISO, and the highest the studio would use. [1]
    fastest_s, slowest_s : float
        Range of exposure times. [s]
    sync_s : float
        Shortest time at which a flash reaches the whole frame. [s]
    curtain_s : float
        Time a curtain takes over the sensor; not above ``sync_s``. 0 for a leaf shutter, which syncs at any
        time. [s]
    electronic_s : float or None
        Readout time of an electronic shutter if that is what is used; flash is then ruled out below it. [s]
    """

    width_mm: float = 36.0
    height_mm: float = 24.0
    width_px: int = 6000
    height_px: int = 4000
    base_iso: float = 100.0
    top_iso: float = 6400.0
    fastest_s: float = 1.0 / 8000.0
    slowest_s: float = 30.0
    sync_s: float = 1.0 / 200.0
    curtain_s: float = 1.0 / 300.0
    electronic_s: float | None = None

    def __post_init__(self) -> None:
        SENSOR.check("width_mm", self.width_mm)
        SENSOR.check("height_mm", self.height_mm)
        PIXELS.check("width_px", self.width_px)
        PIXELS.check("height_px", self.height_px)
        ISO.check("base_iso", self.base_iso)
        ISO.check("top_iso", self.top_iso)
        SHUTTER.check("fastest_s", self.fastest_s)
        SHUTTER.check("slowest_s", self.slowest_s)
        SHUTTER.check("sync_s", self.sync_s)
        CURTAIN.check("curtain_s", self.curtain_s)
        if self.electronic_s is not None:
            SHUTTER.check("electronic_s", self.electronic_s)
        if self.top_iso < self.base_iso:
            raise OutOfRange("top_iso", self.top_iso, self.base_iso, ISO.high, "1")
        if self.slowest_s < self.fastest_s:
            raise OutOfRange("slowest_s", self.slowest_s, self.fastest_s, SHUTTER.high, "s")

    @property
    def diagonal_mm(self) -> float:
        """Diagonal of the sensor. [mm]"""
        return math.hypot(self.width_mm, self.height_mm)

    @property
    def pitch_mm(self) -> float:
        """Distance of two pixels. [mm]"""
        return self.width_mm / self.width_px


@dataclass(frozen=True, slots=True)
class LensSpec:
    """A lens.

    Attributes
    ----------
    focal_mm : float
        Focal length that is used; one that zooms is several of these. [mm]
    widest, narrowest : float
        Largest and smallest aperture, as marked. [1]
    closest_m : float
        Closest focus. [m]
    """

    focal_mm: float
    widest: float = 1.8
    narrowest: float = 22.0
    closest_m: float = 0.45

    def __post_init__(self) -> None:
        FOCAL.check("focal_mm", self.focal_mm)
        F_NUMBER.check("widest", self.widest)
        F_NUMBER.check("narrowest", self.narrowest)
        FOCUS.check("closest_m", self.closest_m)
        if self.narrowest < self.widest:
            raise OutOfRange("narrowest", self.narrowest, self.widest, F_NUMBER.high, "1")


@dataclass(frozen=True, slots=True)
class FilterSpec:
    """A neutral filter for the lens.

    Attributes
    ----------
    stops : float
        What it takes away, at least 0. [stop]
    """

    stops: float

    def __post_init__(self) -> None:
        FILTER_STOPS.check("stops", self.stops)
