"""How much light the sky gives: clear, clouded, in twilight, from the sun and from the sky, with its spread.

The models describe averages. A real sky differs: whatever the arithmetic says, plan with a stop to either
side and let a meter reading replace the estimate as soon as there is one. Moonlight and lamps are not
counted.

References
----------
The models stand in `shoots.places.core.sky` with their sources; F. Kasten, G. Czeplak, Solar Energy 24
(1980) 177 (cloud; from memory); IES Recommended Practice 1984, J. IES 13(4) 381 (spread; read in part).
"""

import math
from dataclasses import dataclass

from shoots.places.core.sky import (
    OKTAS,
    clear_illuminance,
    clear_sky_illuminance,
    overcast_illuminance,
    sun_normal_illuminance,
)
from shoots.places.core.sun import ALTITUDE
from shoots.values.steps import Formula, Step
from shoots.values.units import Range, ratio_from_stops, stops_from_ratio

METER_CONSTANT = Range(50.0, 1000.0, "lx·s")
ILLUMINANCE = Range(0.0, 1e6, "lx", above=True)
EV = Range(-30.0, 30.0, "EV")
SPREAD = Range(0.0, 10.0, "stop")
SHARE = Range(0.0, 1.0, "1")

EXPLANATORY_SUPPLEMENT = "Explanatory Supplement to the Astronomical Almanac (1992)"
KASTEN_CZEPLAK = "Kasten, Czeplak, Solar Energy 24 (1980) 177, from memory"
IES_1984 = "IES Recommended Practice 1984, J. IES 13(4) 381, from memory"


METER_SPREAD_STOPS = 0.2
"""What two readings of one light by hand differ by: a tenth of reading, a tenth of aim; practice. [stop]"""
CLEAR_SPREAD_STOPS = 1.0
"""IES 1984 gives half to double for instantaneous values of clear and overcast skies. [stop]"""
BROKEN_SPREAD_STOPS = 1.5
"""Sun in and out of cloud; own estimate from a direct share of about 70 %. [stop]"""
LOW_SUN_SPREAD_STOPS = 0.5
"""Added below 5° of altitude, where the air's path is long and uncertain; own estimate. [stop]"""

CLEAR = Formula("clear_illuminance", "log₁₀ E = l₀ + l₁x + l₂x² + l₃x³, x = h / 90", "lx", EXPLANATORY_SUPPLEMENT)
CLOUDED = Formula(
    "clouded_illuminance",
    "E = E_clear · (1 − w) + E_overcast · w, w = (n / 8)^3.4",
    "lx",
    KASTEN_CZEPLAK,
)
DIFFUSE = Formula("diffuse_share", "k = k₀ + (1 − k₀) · (n / 8)², k₀ = E_sky / (E_sun + E_sky)", "1", KASTEN_CZEPLAK)
DAYLIGHT_EV = Formula("daylight_ev", "EV100 = log₂(E · 100 / C)", "EV", "ISO 2720:1974")
METERED_EV = Formula("metered_ev", "EV100 = reading", "EV", "A meter reading on the spot")


@dataclass(frozen=True, slots=True)
class Daylight:
    """The light on open, level ground, or what a meter said of it.

    Attributes
    ----------
    illuminance_lx : float
        From sun and sky together. [lx]
    direct_lx, diffuse_lx : float
        The sun's part and the sky's part of it. [lx]
    ev100 : float
        What an incident meter at ISO 100 shows. [EV]
    spread_stops : float
        How far the truth may lie to either side. [stop]
    metered : bool
        True when a reading stands in the place of the estimate.
    because : tuple[Step, ...]
        How the numbers came about.
    """

    illuminance_lx: float
    direct_lx: float
    diffuse_lx: float
    ev100: float
    spread_stops: float
    metered: bool
    because: tuple[Step, ...]


def clouded_illuminance(altitude_deg: float, oktas: float) -> float:
    """Return the illuminance of level ground under a sky with clouds.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90. [°]
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]

    Returns
    -------
    float
        The clear value at 0, the overcast value at 8. [lx]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    E = E_clear (1 - w) + E_overcast w with w = (n/8)^3.4: the form of Kasten and Czeplak, with the overcast
    sky of Krochmann in the place of a fixed quarter.

    References
    ----------
    F. Kasten, G. Czeplak, Solar Energy 24 (1980) 177 (from memory); the join is our own.

    Examples
    --------
    >>> round(clouded_illuminance(30.0, 8.0))
    10800
    """
    OKTAS.check("oktas", oktas)
    weight = (oktas / 8.0) ** 3.4
    return float(clear_illuminance(altitude_deg) * (1.0 - weight) + overcast_illuminance(altitude_deg) * weight)


def diffuse_share(altitude_deg: float, oktas: float, clear_share: float | None = None) -> float:
    """Return the share of the light on level ground that comes from the sky and not from the sun itself.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90. [°]
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]
    clear_share : float or None
        What the share is without clouds, 0 to 1: Kasten and Czeplak have 0.3 for all heights of the sun; None
        takes that of the clear sky by IES 1984 at that height. [1]

    Returns
    -------
    float
        0 to 1; 1 when the sun is down or the sky is closed. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    k = k0 + (1 - k0)(n/8)². By IES 1984 k0 is 0.15 to 0.35 for a high sun and tends to 1 at the horizon.

    References
    ----------
    F. Kasten, G. Czeplak, Solar Energy 24 (1980) 177; IES Recommended Practice 1984 (both from memory).

    Examples
    --------
    >>> diffuse_share(30.0, 8.0)
    1.0
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    OKTAS.check("oktas", oktas)
    if clear_share is not None:
        SHARE.check("clear_share", clear_share)
    if altitude_deg <= 0.0:
        return 1.0
    if clear_share is None:
        sun = sun_normal_illuminance(altitude_deg) * math.sin(math.radians(altitude_deg))
        sky = clear_sky_illuminance(altitude_deg)
        clear = sky / (sun + sky)
    else:
        clear = clear_share
    return clear + (1.0 - clear) * (oktas / 8.0) ** 2


def daylight_spread(altitude_deg: float, oktas: float) -> float:
    """Return how far the light of a real sky may lie from the computed one.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90. [°]
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]

    Returns
    -------
    float
        To either side: 1 for a clear or closed sky, 1.5 for a broken one, half a stop more below 5°. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    IES Recommended Practice 1984 states half to double; the rest is our own estimate.

    Examples
    --------
    >>> daylight_spread(40.0, 4.0)
    1.5
    """
    ALTITUDE.check("altitude_deg", altitude_deg)
    OKTAS.check("oktas", oktas)
    spread = BROKEN_SPREAD_STOPS if 2.0 <= oktas < 7.5 else CLEAR_SPREAD_STOPS
    return spread + (LOW_SUN_SPREAD_STOPS if altitude_deg < 5.0 else 0.0)


def daylight(altitude_deg: float, oktas: float, meter_constant: float = 250.0) -> Daylight:
    """Return the light on open, level ground for a height of the sun and a cloud cover.

    Parameters
    ----------
    altitude_deg : float
        Geometric altitude of the sun, -90 to 90. [°]
    oktas : float
        Eighths of the sky that are covered, 0 to 8. [okta]
    meter_constant : float
        Incident-meter constant C, 50 to 1000: 250 for a flat receptor, 330 for a dome. [lx·s]

    Returns
    -------
    Daylight
        With its spread and its steps.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> noon = daylight(62.0, 0.0)
    >>> round(noon.ev100, 2), noon.spread_stops
    (15.37, 1.0)
    """
    METER_CONSTANT.check("meter_constant", meter_constant)
    total = clouded_illuminance(altitude_deg, oktas)
    clear, overcast = clear_illuminance(altitude_deg), overcast_illuminance(altitude_deg)
    share = diffuse_share(altitude_deg, oktas)
    ev100 = stops_from_ratio(total * 100.0 / meter_constant)
    return Daylight(
        illuminance_lx=total,
        direct_lx=total * (1.0 - share),
        diffuse_lx=total * share,
        ev100=ev100,
        spread_stops=daylight_spread(altitude_deg, oktas),
        metered=False,
        because=(
            CLEAR.step(clear, ("altitude_deg", altitude_deg, "°")),
            CLOUDED.step(
                total,
                ("clear_lx", clear, "lx"),
                ("overcast_lx", overcast, "lx"),
                ("oktas", oktas, "okta"),
            ),
            DIFFUSE.step(share, ("altitude_deg", altitude_deg, "°"), ("oktas", oktas, "okta")),
            DAYLIGHT_EV.step(ev100, ("illuminance_lx", total, "lx"), ("meter_constant", meter_constant, "lx·s")),
        ),
    )


def metered_daylight(
    ev100: float,
    diffuse: float = 1.0,
    meter_constant: float = 250.0,
    spread_stops: float = METER_SPREAD_STOPS,
) -> Daylight:
    """Return the light that a meter reading states, in the place of an estimate.

    Parameters
    ----------
    ev100 : float
        The reading, at ISO 100, -30 to 30. [EV]
    diffuse : float
        Share that comes from the sky, 0 to 1, as estimated. [1]
    meter_constant : float
        Incident-meter constant C of that meter, 50 to 1000. [lx·s]
    spread_stops : float
        How far one reading may lie off, 0 to 10. [stop]

    Returns
    -------
    Daylight
        Marked as metered.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974.

    Examples
    --------
    >>> metered_daylight(12.0).illuminance_lx
    10240.0
    """
    EV.check("ev100", ev100)
    SHARE.check("diffuse", diffuse)
    METER_CONSTANT.check("meter_constant", meter_constant)
    SPREAD.check("spread_stops", spread_stops)
    total = ratio_from_stops(ev100) * meter_constant / 100.0
    step = METERED_EV.step(ev100, ("ev100", ev100, "EV"), ("meter_constant", meter_constant, "lx·s"))
    return Daylight(total, total * (1.0 - diffuse), total * diffuse, ev100, spread_stops, True, (step,))
