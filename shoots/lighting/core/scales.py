"""Nominal scales as cameras and meters print them: apertures, times and ISO.

A mark is a rounded name for an exact member of a geometric series: f/11 is 2^(7/2) = 11.314, 1/60 s is 1/64
s.

References
----------
ISO 517:2008 (aperture marks); ISO 516 (shutter times, from memory); ISO 12232 (speed marks). The third-stop
marks that these do not list are those that cameras show, common practice.
"""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from shoots.lighting.core.conventions import Series
from shoots.lighting.core.exposure import F_NUMBER, ISO, SHUTTER
from shoots.values.units import Range


class Steps(StrEnum):
    """How finely a scale is cut."""

    FULL = "FULL"
    HALF = "HALF"
    THIRD = "THIRD"


@dataclass(frozen=True, slots=True)
class Mark:
    """One engraved value.

    Attributes
    ----------
    label : str
        As printed, without "f/" and without "s": "5.6", "1/125", "0.5", "400".
    marked : float
        The printed number: an f-number, seconds or an ISO speed. [1 or s]
    exact : float
        The member of the series that it stands for, in the same unit. [1 or s]
    """

    label: str
    marked: float
    exact: float

    def value(self, series: Series) -> float:
        """Return the number to compute with.

        Parameters
        ----------
        series : Series
            Exact member or printed number.

        Returns
        -------
        float
            f-number, seconds or ISO speed. [1 or s]
        """
        return self.exact if series is Series.EXACT else self.marked


_APERTURES = {
    Steps.FULL: """
        0.7 1.0 1.4 2.0 2.8 4.0 5.6 8.0 11 16 22 32 45 64 90 128""",
    Steps.HALF: """
        0.7 0.8 1.0 1.2 1.4 1.7 2.0 2.4 2.8 3.3 4.0 4.8 5.6 6.7 8.0 9.5 11 13 16 19 22 27 32 38 45 54 64
        76 90 107 128""",
    Steps.THIRD: """
        0.7 0.8 0.9 1.0 1.1 1.2 1.4 1.6 1.8 2.0 2.2 2.5 2.8 3.2 3.5 4.0 4.5 5.0 5.6 6.3 7.1 8.0 9.0 10
        11 13 14 16 18 20 22 25 29 32 36 40 45 51 57 64 72 81 90 102 114 128""",
}
_TIMES = {
    Steps.FULL: """
        60 30 15 8 4 2 1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500 1/1000 1/2000 1/4000 1/8000
        1/16000 1/32000""",
    Steps.HALF: """
        60 45 30 20 15 10 8 6 4 3 2 1.5 1 0.7 1/2 1/3 1/4 1/6 1/8 1/10 1/15 1/20 1/30 1/45 1/60 1/90
        1/125 1/180 1/250 1/350 1/500 1/750 1/1000 1/1500 1/2000 1/3000 1/4000 1/6000 1/8000 1/12000
        1/16000 1/24000 1/32000""",
    Steps.THIRD: """
        60 50 40 30 25 20 15 13 10 8 6 5 4 3.2 2.5 2 1.6 1.3 1 0.8 0.6 0.5 0.4 0.3 1/4 1/5 1/6 1/8 1/10
        1/13 1/15 1/20 1/25 1/30 1/40 1/50 1/60 1/80 1/100 1/125 1/160 1/200 1/250 1/320 1/400 1/500
        1/640 1/800 1/1000 1/1250 1/1600 1/2000 1/2500 1/3200 1/4000 1/5000 1/6400 1/8000 1/10000
        1/13000 1/16000 1/20000 1/25000 1/32000""",
}
_SPEEDS = {
    Steps.FULL: """
        25 50 100 200 400 800 1600 3200 6400 12800 25600 51200 102400 204800 409600""",
    Steps.HALF: """
        25 35 50 70 100 140 200 280 400 560 800 1100 1600 2200 3200 4500 6400 9000 12800 18000 25600
        36000 51200 72000 102400 144000 204800 288000 409600""",
    Steps.THIRD: """
        25 32 40 50 64 80 100 125 160 200 250 320 400 500 640 800 1000 1250 1600 2000 2500 3200 4000
        5000 6400 8000 10000 12800 16000 20000 25600 32000 40000 51200 64000 80000 102400 128000 160000
        204800 256000 320000 409600""",
}
POSITIVE = Range(0.0, 1e18, "1", above=True)
_PER_STOP = {Steps.FULL: 1, Steps.HALF: 2, Steps.THIRD: 3}


def _number(label: str) -> float:
    """Return the number a label prints, "1/125" included."""
    above, _, below = label.partition("/")
    return float(above) / float(below) if below else float(above)


def _marks(labels: str, first: float, per_stop: float) -> tuple[Mark, ...]:
    """Return marks whose exact values rise or fall by a fixed fraction of a stop from ``first``."""
    return tuple(
        Mark(label, _number(label), first * 2.0 ** (index / per_stop)) for index, label in enumerate(labels.split())
    )


@cache
def aperture_scale(steps: Steps = Steps.THIRD) -> tuple[Mark, ...]:
    """Return the aperture marks from f/0.7 to f/128, widest first.

    Parameters
    ----------
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    tuple[Mark, ...]
        Exact values are 2^(k/2), 2^(k/4) or 2^(k/6). [1]

    References
    ----------
    ISO 517:2008.

    Examples
    --------
    >>> [mark.label for mark in aperture_scale(Steps.FULL)][6:9]
    ['5.6', '8.0', '11']
    """
    return _marks(_APERTURES[steps], math.sqrt(0.5), 2.0 * _PER_STOP[steps])


@cache
def shutter_scale(steps: Steps = Steps.THIRD) -> tuple[Mark, ...]:
    """Return the time marks from 60 s to 1/32000 s, longest first.

    Parameters
    ----------
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    tuple[Mark, ...]
        Exact values are 64 s · 2^(-k/n). [s]

    References
    ----------
    ISO 516 (from memory).

    Examples
    --------
    >>> [mark.label for mark in shutter_scale(Steps.FULL)][12:15]
    ['1/60', '1/125', '1/250']
    """
    return _marks(_TIMES[steps], 64.0, -1.0 * _PER_STOP[steps])


@cache
def iso_scale(steps: Steps = Steps.THIRD) -> tuple[Mark, ...]:
    """Return the ISO marks from 25 to 409600, slowest first.

    Parameters
    ----------
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    tuple[Mark, ...]
        Exact values are 100 · 2^(k/n). [1]

    References
    ----------
    ISO 12232, Exif 2.3 (marks).

    Examples
    --------
    >>> [mark.label for mark in iso_scale(Steps.FULL)][1:4]
    ['50', '100', '200']
    """
    return _marks(_SPEEDS[steps], 25.0, 1.0 * _PER_STOP[steps])


def nearest_mark(value: float, scale: tuple[Mark, ...]) -> Mark:
    """Return the mark nearest in stops to a value.

    Parameters
    ----------
    value : float
        f-number, seconds or ISO speed, greater than 0. [1 or s]
    scale : tuple[Mark, ...]
        One of the three scales.

    Returns
    -------
    Mark
        The nearest; the end of the scale beyond it; the earlier of two equally near.

    Raises
    ------
    OutOfRange
        If ``value`` is not positive.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> nearest_mark(9.051, aperture_scale()).label
    '9.0'
    """
    POSITIVE.check("value", value)
    return min(scale, key=lambda mark: round(abs(math.log2(value / mark.exact)), 12))


def nearest_f_number(f_number: float, steps: Steps = Steps.THIRD) -> Mark:
    """Return the aperture mark nearest to an exact f-number.

    Parameters
    ----------
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    Mark
        As printed and exact; the end of the scale beyond f/0.7 and f/128.

    Raises
    ------
    OutOfRange
        If ``f_number`` is outside its range.

    References
    ----------
    ISO 517:2008.

    Examples
    --------
    >>> nearest_f_number(14.142).label
    '14'
    """
    F_NUMBER.check("f_number", f_number)
    return nearest_mark(f_number, aperture_scale(steps))


def nearest_shutter(shutter_s: float, steps: Steps = Steps.THIRD) -> Mark:
    """Return the shutter mark nearest to an exact time.

    Parameters
    ----------
    shutter_s : float
        Exact time, 1e-7 to 1e7. [s]
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    Mark
        As printed and exact; the end of the scale beyond 60 s and 1/32000 s.

    Raises
    ------
    OutOfRange
        If ``shutter_s`` is outside its range.

    References
    ----------
    ISO 516, from memory.

    Examples
    --------
    >>> nearest_shutter(0.00492).label
    '1/200'
    """
    SHUTTER.check("shutter_s", shutter_s)
    return nearest_mark(shutter_s, shutter_scale(steps))


def nearest_iso(iso: float, steps: Steps = Steps.THIRD) -> Mark:
    """Return the speed mark nearest to an exact ISO speed.

    Parameters
    ----------
    iso : float
        Exact speed, 0.01 to 1e8. [1]
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    Mark
        As printed and exact; the end of the scale beyond it.

    Raises
    ------
    OutOfRange
        If ``iso`` is outside its range.

    References
    ----------
    ISO 12232.

    Examples
    --------
    >>> nearest_iso(300.0).label
    '320'
    """
    ISO.check("iso", iso)
    return nearest_mark(iso, iso_scale(steps))


def marks_between(low: float, high: float, scale: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Return the marks of a camera or lens whose own limits are given as printed or exact numbers.

    Parameters
    ----------
    low, high : float
        Smallest and largest value, in any order. A limit includes the mark nearest to it. [1 or s]
    scale : tuple[Mark, ...]
        One of the three scales.

    Returns
    -------
    tuple[Mark, ...]
        In the order of the scale, never empty.

    Raises
    ------
    OutOfRange
        If a limit is not positive.

    References
    ----------
    Own derivation, see tests.

    Examples
    --------
    >>> [mark.label for mark in marks_between(2.8, 4.0, aperture_scale())]
    ['2.8', '3.2', '3.5', '4.0']
    """
    first, last = sorted((scale.index(nearest_mark(low, scale)), scale.index(nearest_mark(high, scale))))
    return scale[first : last + 1]


def exact_f_number(marked: float, steps: Steps = Steps.THIRD) -> float:
    """Return the exact f-number behind a printed one.

    Parameters
    ----------
    marked : float
        The printed number, 0.1 to 10,000. [1]
    steps : Steps
        The scale it was read from.

    Returns
    -------
    float
        The nearest member of the series 2^(k/2), 2^(k/4) or 2^(k/6), also beyond the printed scale. [1]

    Raises
    ------
    OutOfRange
        If ``marked`` is outside its range.

    References
    ----------
    ISO 517:2008.

    Examples
    --------
    >>> round(exact_f_number(5.6), 4)
    5.6569
    """
    F_NUMBER.check("marked", marked)
    per_double = 2 * _PER_STOP[steps]
    return float(2.0 ** (round(per_double * math.log2(marked)) / per_double))


def exact_shutter(marked_s: float, steps: Steps = Steps.THIRD) -> float:
    """Return the exact exposure time behind a printed one.

    Parameters
    ----------
    marked_s : float
        The printed time, 1e-7 to 1e7. [s]
    steps : Steps
        The scale it was read from.

    Returns
    -------
    float
        The nearest member of the series 2^(-k/n). [s]

    Raises
    ------
    OutOfRange
        If ``marked_s`` is outside its range.

    References
    ----------
    ISO 516 (from memory).

    Examples
    --------
    >>> exact_shutter(30.0)
    32.0
    """
    SHUTTER.check("marked_s", marked_s)
    per_stop = _PER_STOP[steps]
    return float(2.0 ** (round(per_stop * math.log2(marked_s)) / per_stop))


def exact_iso(marked: float, steps: Steps = Steps.THIRD) -> float:
    """Return the exact ISO speed behind a printed one.

    Parameters
    ----------
    marked : float
        The printed speed, 0.01 to 1e8. [1]
    steps : Steps
        The scale it was read from.

    Returns
    -------
    float
        The nearest member of the series 100·2^(k/n). [1]

    Raises
    ------
    OutOfRange
        If ``marked`` is outside its range.

    References
    ----------
    ISO 12232; derived.

    Examples
    --------
    >>> round(exact_iso(320.0), 1)
    317.5
    """
    ISO.check("marked", marked)
    per_stop = _PER_STOP[steps]
    return float(100.0 * 2.0 ** (round(per_stop * math.log2(marked / 100.0)) / per_stop))
