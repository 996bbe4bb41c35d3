"""Wind on a light on its stand: load, overturning, the wind at which to take it down.

This is an estimate that leaves out gusts in the flow, the drag of the pole, soft or sloping ground. It is
no safety certificate: people's safety on site, local rules and the makers' limits come first, and a limit
of the maker or of the studio that is lower than the computed one counts.

References
----------
Drag: fluid mechanics textbooks; drag coefficients: Aeronautical Engineer's Data Book, p. 95; EN 1991-1-4
§7.4.3 (signboards). Air density 1.225 kg/m³: ISO 2533:1975. A three-legged stand
tips at half its foot radius: statics. Margin of 1.5: practice.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoots.lighting.core.motion import GRAVITY
from shoots.lighting.core.wind import WIND, beaufort
from shoots.values.steps import Formula, Step
from shoots.values.units import Range

AIR_DENSITY = 1.225
"""Standard atmosphere at sea level, ISO 2533:1975. [kg/m³]"""
SQUARE_PLATE, LONG_STRIP = 1.17, 1.98
"""Drag coefficients, Aeronautical Engineer's Data Book, p. 95. [1]"""
HOLLOW_OPEN, HOLLOW_BACK = 1.42, 0.38
"""A hollow bowl with its open side or its back to the wind, same source. [1]"""
SIGNBOARD = 1.80
"""EN 1991-1-4 §7.4.3: a structural code's value, half as much again as a plate. [1]"""
USUAL_MARGIN = 1.5
"""Safety factor on the overturning moment; practice. [1]"""

DRAG = Range(0.0, 3.0, "1", above=True)
AREA = Range(0.0, 1000.0, "m²", above=True)
FORCE = Range(0.0, 1e7, "N")
LIMIT = Range(0.0, 1e4, "m/s")
DENSITY = Range(0.5, 2.0, "kg/m³")
HEIGHT = Range(0.0, 100.0, "m", above=True)
MASS = Range(0.0, 1e5, "kg", above=True)
FOOT = Range(0.0, 50.0, "m", above=True)
LEGS = Range(3.0, 1000.0, "1")
MARGIN = Range(1.0, 10.0, "1")
FRICTION = Range(0.0, 2.0, "1")

WIND_LOAD = Formula("wind_load", "F = ½ · ρ · v² · C_d · A", "N", "Fluid mechanics")
TIPPING_WIND = Formula(
    "tipping_wind", "v = √(2 · m · g · r / (k · ρ · C_d · A · h))", "m/s", "Statics; r = R · cos(π/n)"
)


class Advice(StrEnum):
    """What to do with a light in a wind."""

    STANDS = "STANDS"
    HOLD = "HOLD"
    """An assistant holds it, which changes crew and price."""
    TAKE_DOWN = "TAKE_DOWN"


@dataclass(frozen=True, slots=True)
class WindLimit:
    """At which wind a light has to come down.

    Attributes
    ----------
    tips_at_m_s : float
        Gust at which it tips. [m/s]
    take_down_at_m_s : float
        Gust at which to take it down: computed with the margin, or the stated limit if that is lower. [m/s]
    beaufort : int
        Force of that gust.
    stated_counts : bool
        True when the maker's or the studio's own limit is the lower one.
    because : tuple[Step, ...]
        How it came about.
    """

    tips_at_m_s: float
    take_down_at_m_s: float
    beaufort: int
    stated_counts: bool
    because: tuple[Step, ...]


def wind_load(wind_m_s: float, drag: float, area_m2: float, density_kg_m3: float = AIR_DENSITY) -> float:
    """Return the force of the wind on a box, umbrella or reflector.

    Parameters
    ----------
    wind_m_s : float
        Gust speed at that height, 0 to 120. [m/s]
    drag : float
        Drag coefficient, above 0 up to 3. [1]
    area_m2 : float
        Area that the wind meets, greater than 0. [m²]
    density_kg_m3 : float
        Density of the air, 0.5 to 2. [kg/m³]

    Returns
    -------
    float
        ½ρv²·C_d·A. [N]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Fluid mechanics; drag coefficients from the Aeronautical Engineer's Data Book, p. 95.

    Examples
    --------
    >>> round(wind_load(12.0, 1.17, 0.54), 2)
    55.72
    """
    WIND.check("wind_m_s", wind_m_s)
    DRAG.check("drag", drag)
    AREA.check("area_m2", area_m2)
    DENSITY.check("density_kg_m3", density_kg_m3)
    return 0.5 * density_kg_m3 * wind_m_s * wind_m_s * drag * area_m2


def overturning_moment(force_n: float, height_m: float) -> float:
    """Return the moment with which a force at a height tips a stand.

    Parameters
    ----------
    force_n : float
        Force at the centre of the area, at least 0. [N]
    height_m : float
        Height of that centre above the ground, greater than 0. [m]

    Returns
    -------
    float
        F·h; the drag of the pole is left out. [N·m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Statics.

    Examples
    --------
    >>> round(overturning_moment(36.02, 2.2), 1)
    79.2
    """
    FORCE.check("force_n", force_n)
    HEIGHT.check("height_m", height_m)
    return force_n * height_m


def tipping_radius(foot_radius_m: float, legs: int) -> float:
    """Return the shortest distance from a stand's column to the line between two feet, over which it tips.

    Parameters
    ----------
    foot_radius_m : float
        From the column to the end of a leg, greater than 0. [m]
    legs : int
        Number of equal legs, at least 3.

    Returns
    -------
    float
        R·cos(π/n): half the foot radius with three legs. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Statics, level ground, mass on the axis.

    Examples
    --------
    >>> round(tipping_radius(0.55, 3), 3)
    0.275
    """
    FOOT.check("foot_radius_m", foot_radius_m)
    LEGS.check("legs", legs)
    return foot_radius_m * math.cos(math.pi / legs)


def mass_needed(
    wind_m_s: float,
    drag: float,
    area_m2: float,
    height_m: float,
    tipping_radius_m: float,
    margin: float = USUAL_MARGIN,
    density_kg_m3: float = AIR_DENSITY,
) -> float:
    """Return the mass, stand and head included, that keeps a light standing in a wind.

    Parameters
    ----------
    wind_m_s : float
        Gust speed at that height, 0 to 120. [m/s]
    drag : float
        Drag coefficient, above 0 up to 3. [1]
    area_m2 : float
        Area that the wind meets, greater than 0. [m²]
    height_m : float
        Height of the centre of that area, greater than 0. [m]
    tipping_radius_m : float
        From the line of the mass to the tipping edge, greater than 0. [m]
    margin : float
        Safety factor on the moment, 1 to 10. [1]
    density_kg_m3 : float
        Density of the air, 0.5 to 2. [kg/m³]

    Returns
    -------
    float
        Sandbags are this less what stands there already. [kg]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Statics; margin by practice.

    Examples
    --------
    >>> import math
    >>> round(mass_needed(8.0, 1.17, math.pi / 4.0, 2.2, 0.275), 1)
    44.1
    """
    FOOT.check("tipping_radius_m", tipping_radius_m)
    MARGIN.check("margin", margin)
    moment = overturning_moment(wind_load(wind_m_s, drag, area_m2, density_kg_m3), height_m)
    return margin * moment / (GRAVITY * tipping_radius_m)


def tipping_wind(
    mass_kg: float,
    drag: float,
    area_m2: float,
    height_m: float,
    tipping_radius_m: float,
    margin: float = 1.0,
    density_kg_m3: float = AIR_DENSITY,
) -> float:
    """Return the gust at which a light tips, or that leaves a margin.

    Parameters
    ----------
    mass_kg : float
        Stand, head, box and bags together, greater than 0. [kg]
    drag : float
        Drag coefficient, above 0 up to 3. [1]
    area_m2 : float
        Area that the wind meets, greater than 0. [m²]
    height_m : float
        Height of the centre of that area, greater than 0. [m]
    tipping_radius_m : float
        From the line of the mass to the tipping edge, greater than 0. [m]
    margin : float
        Safety factor on the moment, 1 to 10; 1 is the tipping point itself. [1]
    density_kg_m3 : float
        Density of the air, 0.5 to 2. [kg/m³]

    Returns
    -------
    float
        At the height of the box; a forecast for 10 m is stronger. [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Statics: ½ρv²·C_d·A·h·margin = m·g·r.

    Examples
    --------
    >>> round(tipping_wind(15.0, 1.42, 0.7477, 2.0, 0.25), 1)
    5.3
    """
    MASS.check("mass_kg", mass_kg)
    FOOT.check("tipping_radius_m", tipping_radius_m)
    MARGIN.check("margin", margin)
    push = overturning_moment(wind_load(1.0, drag, area_m2, density_kg_m3), height_m)
    return math.sqrt(mass_kg * GRAVITY * tipping_radius_m / (margin * push))


def wind_limit(
    mass_kg: float,
    drag: float,
    area_m2: float,
    height_m: float,
    tipping_radius_m: float,
    stated_m_s: float | None = None,
    margin: float = USUAL_MARGIN,
    density_kg_m3: float = AIR_DENSITY,
) -> WindLimit:
    """Return the wind at which to take a light down; a stated limit never overrides a lower computed one.

    Parameters
    ----------
    mass_kg : float
        Stand, head, box and bags together, greater than 0. [kg]
    drag : float
        Drag coefficient, above 0 up to 3. [1]
    area_m2 : float
        Area that the wind meets, greater than 0. [m²]
    height_m : float
        Height of the centre of that area, greater than 0. [m]
    tipping_radius_m : float
        From the line of the mass to the tipping edge, greater than 0. [m]
    stated_m_s : float or None
        Limit of the maker or the studio, 0 to 120. [m/s]
    margin : float
        Safety factor on the moment, 1 to 10. [1]
    density_kg_m3 : float
        Density of the air, 0.5 to 2. [kg/m³]

    Returns
    -------
    WindLimit
        The lower of the two limits.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module. An estimate; people's safety, local rules and makers' limits come first.

    Examples
    --------
    >>> limit = wind_limit(15.0, 1.42, 0.7477, 2.0, 0.25, stated_m_s=9.0)
    >>> round(limit.take_down_at_m_s, 1), limit.stated_counts
    (4.3, False)
    """
    tips = tipping_wind(mass_kg, drag, area_m2, height_m, tipping_radius_m, 1.0, density_kg_m3)
    computed = tipping_wind(mass_kg, drag, area_m2, height_m, tipping_radius_m, margin, density_kg_m3)
    if stated_m_s is not None:
        WIND.check("stated_m_s", stated_m_s)
    stated_counts = stated_m_s is not None and stated_m_s < computed
    limit = stated_m_s if stated_m_s is not None and stated_counts else computed
    inputs = (
        ("mass_kg", mass_kg, "kg"),
        ("drag", drag, "1"),
        ("area_m2", area_m2, "m²"),
        ("height_m", height_m, "m"),
        ("tipping_radius_m", tipping_radius_m, "m"),
    )
    steps = (
        TIPPING_WIND.step(tips, *inputs, ("margin", 1.0, "1")),
        TIPPING_WIND.step(computed, *inputs, ("margin", margin, "1")),
    )
    return WindLimit(tips, limit, beaufort(limit), stated_counts, steps)


def advice(gust_m_s: float, limit_m_s: float) -> Advice:
    """Return what to do with a light in a gust.

    Parameters
    ----------
    gust_m_s : float
        Gust at the height of the box, 0 to 120. [m/s]
    limit_m_s : float
        Wind at which it has to come down, at least 0. [m/s]

    Returns
    -------
    Advice
        Let it stand below 60 % of the limit, have it held up to the limit, then take it down.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Acting at 60 and 80 % of a structure's limit: event guide of a city council (read); here 60 %.

    Examples
    --------
    >>> advice(2.0, 4.3), advice(3.5, 4.3), advice(5.0, 4.3)
    (<Advice.STANDS: 'STANDS'>, <Advice.HOLD: 'HOLD'>, <Advice.TAKE_DOWN: 'TAKE_DOWN'>)
    """
    WIND.check("gust_m_s", gust_m_s)
    LIMIT.check("limit_m_s", limit_m_s)
    if gust_m_s >= limit_m_s:
        return Advice.TAKE_DOWN
    return Advice.HOLD if gust_m_s >= 0.6 * limit_m_s else Advice.STANDS


def slides(force_n: float, mass_kg: float, friction: float) -> bool:
    """Return whether a stand slides before it tips.

    Parameters
    ----------
    force_n : float
        Force of the wind, at least 0. [N]
    mass_kg : float
        Everything that rests on its feet, greater than 0. [kg]
    friction : float
        Coefficient of friction, 0 to 2; rubber on hard ground 0.3 to 0.6. [1]

    Returns
    -------
    bool
        True when the friction does not hold it.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Statics; friction by practice.

    Examples
    --------
    >>> slides(50.0, 15.0, 0.3)
    True
    """
    FORCE.check("force_n", force_n)
    MASS.check("mass_kg", mass_kg)
    FRICTION.check("friction", friction)
    return force_n > friction * mass_kg * GRAVITY
