"""Which wind a placed light stands, and what has to be done with it in a gust.

An estimate and no safety certificate: people's safety on site, local rules and the makers' limits come first.

References
----------
`shoots.lighting.core.stands` and `shoots.lighting.core.wind` with their sources.
"""

from dataclasses import dataclass, replace

from shoots.kit.core.lamps import StandSpec
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.setup import PlacedLight, Setup
from shoots.lighting.core.stands import (
    SQUARE_PLATE,
    USUAL_MARGIN,
    Advice,
    WindLimit,
    advice,
    mass_needed,
    tipping_radius,
    wind_limit,
)
from shoots.lighting.core.windspread import gust_step, tipping_step
from shoots.values.spread import Between
from shoots.values.steps import Step
from shoots.values.units import Range

GUST = Range(0.0, 60.0, "m/s")

FORECAST_HEIGHT_M = 10.0
"""Height for which forecasts state the wind, WMO. [m]"""
HEAD_DRAG, HEAD_SIDE_M = 1.17, 0.25
"""A bare head, taken as a plate of that side; own estimate. [1], [m]"""


@dataclass(frozen=True, slots=True)
class WindCheck:
    """One light in the wind.

    Attributes
    ----------
    letter : str
        Which light or panel.
    limit : WindLimit
        At which gust it tips and has to come down, at the height of its front.
    gust_m_s : float
        The gust at that height. [m/s]
    advice : Advice
        Let it stand, have it held by an assistant, or take it down.
    more_mass_kg : float
        Sandbags that would let it stand in that gust with the margin; 0 when none are needed. [kg]
    tips_between, gust_between : Between
        In which range the gust that tips it lies likely, and the gust that comes. [m/s]
    down_at_m_s : float
        Gust at which to take it down: the limit, or the low end of ``tips_between`` where the margin does not
        cover that. [m/s]
    worst_advice : Advice
        What to do if the gust comes as strong as the high end of its range.
    because : tuple[Step, ...]
        How these came about.
    """

    letter: str
    limit: WindLimit
    gust_m_s: float
    advice: Advice
    more_mass_kg: float
    tips_between: Between
    gust_between: Between
    down_at_m_s: float
    worst_advice: Advice
    because: tuple[Step, ...]

    @property
    def margin_covers(self) -> bool:
        """Whether the margin is wider than what is not known about the light."""
        return self.down_at_m_s == self.limit.take_down_at_m_s


def total_mass(light: PlacedLight) -> float:
    """Return what rests on a light's stand, the stand included.

    Parameters
    ----------
    light : PlacedLight
        The light.

    Returns
    -------
    float
        Stand, heads, modifier and bags. [kg]

    References
    ----------
    Arithmetic.
    """
    stand = light.stand.mass_kg if light.stand else 0.0
    modifier = light.modifier.mass_kg if light.modifier else 0.0
    return stand + light.heads * light.lamp.mass_kg + modifier + light.extra_mass_kg


def _between(step: Step) -> Between:
    """Return the range of a step that has one."""
    return step.between or Between(step.result, step.result)


def _sail(light: PlacedLight) -> tuple[float, float]:
    """Return drag coefficient and area that the wind meets."""
    if light.modifier is None:
        return HEAD_DRAG, HEAD_SIDE_M**2 * light.heads
    area = light.modifier.wind_area_m2 if light.modifier.wind_area_m2 is not None else light.modifier.area_m2
    return light.modifier.drag, max(area, HEAD_SIDE_M**2)


def check_wind(light: PlacedLight, forecast_gust_m_s: float, margin: float = USUAL_MARGIN) -> WindCheck | None:
    """Return what a forecast gust means for a light.

    Parameters
    ----------
    light : PlacedLight
        The light.
    forecast_gust_m_s : float
        Gust at 10 m over open ground, 0 to 60. [m/s]
    margin : float
        Safety factor on the overturning moment, 1 to 10. [1]

    Returns
    -------
    WindCheck or None
        None for a light without a stand, or one so low that the profile of the wind says nothing (below 1 m
        the wind at 1 m is taken).

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    `shoots.lighting.core.stands`; the open side of the box is taken to face the wind.
    """
    if light.stand is None or light.height_m <= 0.0:
        GUST.check("forecast_gust_m_s", forecast_gust_m_s)
        return None
    sail = _sail(light)
    return _checked(light.letter, light.stand, total_mass(light), sail, light.height_m, forecast_gust_m_s, margin)


def check_panel(panel: PlacedPanel, stands: int, forecast_gust_m_s: float) -> WindCheck | None:
    """Return what a forecast gust means for a reflector, board, flag or scrim on stands.

    Parameters
    ----------
    panel : PlacedPanel
        The panel, taken as a flat plate square to the wind at its middle, which is the worst that it meets.
    stands : int
        How many hold it, each with its bags and an even part of plate and mass.
    forecast_gust_m_s : float
        Gust at 10 m over open ground, 0 to 60. [m/s]

    Returns
    -------
    WindCheck or None
        Of one of its stands; None without one. What lies overhead is also lifted, which this does not say.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    `shoots.lighting.core.stands`.
    """
    if panel.stand is None or stands < 1 or panel.height_m <= 0.0:
        GUST.check("forecast_gust_m_s", forecast_gust_m_s)
        return None
    mass = panel.stand.mass_kg + panel.extra_mass_kg + panel.panel.mass_kg / stands
    sail = SQUARE_PLATE, panel.front.area_m2 / stands
    return _checked(panel.letter, panel.stand, mass, sail, panel.height_m, forecast_gust_m_s, USUAL_MARGIN)


def _checked(
    letter: str,
    stand: StandSpec,
    mass: float,
    sail: tuple[float, float],
    height_m: float,
    forecast_gust_m_s: float,
    margin: float,
) -> WindCheck:
    GUST.check("forecast_gust_m_s", forecast_gust_m_s)
    drag, area = sail
    edge = tipping_radius(stand.foot_radius_m, stand.legs)
    limit = wind_limit(mass, drag, area, height_m, edge, stand.takes_down_at_m_s, margin)
    tipping = tipping_step(mass, drag, area, height_m, edge)
    gust = gust_step(forecast_gust_m_s, FORECAST_HEIGHT_M, height_m)
    gust_there, tips, gusts = gust.result, _between(tipping), _between(gust)
    down_at = min(limit.take_down_at_m_s, tips.low)
    needed = mass_needed(gust_there, drag, area, height_m, edge, margin)
    return WindCheck(
        letter=letter,
        limit=limit,
        gust_m_s=gust_there,
        advice=advice(gust_there, down_at),
        more_mass_kg=max(0.0, needed - mass),
        tips_between=tips,
        gust_between=gusts,
        down_at_m_s=down_at,
        worst_advice=advice(gusts.high, down_at),
        because=(tipping, replace(limit.because[-1], formula="wind_with_margin"), gust),
    )


def check_setup(setup: Setup, forecast_gust_m_s: float, margin: float = USUAL_MARGIN) -> tuple[WindCheck, ...]:
    """Return what a forecast gust means for each light of a setup that has a stand.

    Parameters
    ----------
    setup : Setup
        The setup.
    forecast_gust_m_s : float
        Gust at 10 m over open ground, 0 to 60. [m/s]
    margin : float
        Safety factor on the overturning moment, 1 to 10. [1]

    Returns
    -------
    tuple[WindCheck, ...]
        In the order of the lights.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    `check_wind`.
    """
    found = (check_wind(light, forecast_gust_m_s, margin) for light in setup.lights)
    return tuple(one for one in found if one is not None)
