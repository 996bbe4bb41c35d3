"""Settings that expose one light level alike.

References
----------
ASA PH2.5-1960 (APEX): Av + Tv is the same in all of them.
"""

import math
from dataclasses import dataclass

from shoots.lighting.core.exposure import EV, ISO
from shoots.lighting.core.scales import Mark, Steps, aperture_scale, shutter_scale


@dataclass(frozen=True, slots=True)
class Settings:
    """An aperture and a time, on the scales of a camera.

    Attributes
    ----------
    aperture, shutter : Mark
        As printed and exact.
    error_stops : float
        How much more (positive) or less light they give than was asked for, exact values taken. [stop]
    """

    aperture: Mark
    shutter: Mark
    error_stops: float


def equivalent_settings(
    ev: float, iso: float, apertures: tuple[Mark, ...], shutters: tuple[Mark, ...]
) -> tuple[Settings, ...]:
    """Return, for each aperture, the time that exposes a light level alike.

    Parameters
    ----------
    ev : float
        Light level as EV100, -60 to 60. [EV]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    apertures, shutters : tuple[Mark, ...]
        What the camera and lens offer.

    Returns
    -------
    tuple[Settings, ...]
        In the order of ``apertures``; an aperture for which no time comes within half a third of a stop is
        left out.

    Raises
    ------
    OutOfRange
        If a number is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX): Av + Tv is the same in all of them.

    Examples
    --------
    >>> chain = equivalent_settings(14.0, 100.0, aperture_scale(Steps.FULL)[4:8], shutter_scale(Steps.FULL))
    >>> [(one.aperture.label, one.shutter.label) for one in chain]
    [('2.8', '1/2000'), ('4.0', '1/1000'), ('5.6', '1/500'), ('8.0', '1/250')]
    """
    EV.check("ev", ev)
    ISO.check("iso", iso)
    found = []
    for aperture in apertures:
        wanted = 2.0 * math.log2(aperture.exact) - ev - math.log2(iso / 100.0)
        shutter = min(shutters, key=lambda mark: abs(math.log2(mark.exact) - wanted))
        error = math.log2(shutter.exact) - wanted
        if abs(error) <= 1.0 / 6.0 + 1e-9:
            found.append(Settings(aperture, shutter, error))
    return tuple(found)


def equivalent_exposures(ev: float, iso: float = 100.0, steps: Steps = Steps.THIRD) -> tuple[Settings, ...]:
    """Return every aperture of a scale with the time that exposes a light level alike.

    Parameters
    ----------
    ev : float
        Light level as EV100, -60 to 60. [EV]
    iso : float
        ISO speed, 0.01 to 1e8. [1]
    steps : Steps
        Full, half or third stops.

    Returns
    -------
    tuple[Settings, ...]
        From f/0.7 on; what no time of the scale serves is left out.

    Raises
    ------
    OutOfRange
        If a number is outside its range.

    References
    ----------
    ASA PH2.5-1960 (APEX).

    Examples
    --------
    >>> found = equivalent_exposures(14.0, 100.0, Steps.FULL)
    >>> [one.shutter.label for one in found if one.aperture.label in ("8.0", "11", "16")]
    ['1/250', '1/125', '1/60']
    """
    return equivalent_settings(ev, iso, aperture_scale(steps), shutter_scale(steps))
