"""How sure the wind on a stand is: in which range the gust lies that tips it, and the gust that comes.

References
----------
`shoots.values.spread` for how ranges add up. Drag: Aeronautical Engineer's Data Book, p. 95, and EN 1991-1-4
§7.4.3 (read); roughness: EN 1991-1-4 table 4.1, categories I and II; air density: gas law at 1013 hPa. What is
typed and what is forecast: own estimates, no source.
"""

from shoots.lighting.core.motion import GRAVITY
from shoots.lighting.core.stands import AIR_DENSITY, SIGNBOARD, SQUARE_PLATE, TIPPING_WIND, tipping_wind
from shoots.lighting.core.wind import ABOVE_GROUND, OPEN_GRASS_M, USUAL_GUST_FACTOR, wind_at_height
from shoots.values.spread import Between, Doubt, product_between
from shoots.values.steps import Formula, Step

TYPED_SHARE = 0.05
"""How far a typed weight, size or foot radius may lie off; own estimate. [1]"""
PLACING_M = 0.05
"""How exactly a height is set; own estimate. [m]"""
DISC_DRAG = 1.10
"""Lowest drag of what faces the wind flat: a disc, Hoerner (from memory). [1]"""
HOLLOW_FROM = 1.3
"""From this drag on a front counts as hollow: it may behave as the plate that it is from the side. [1]"""
HOT_DENSITY, COLD_DENSITY = 1.14, 1.34
"""Dry air at 35 and at -10 °C, 1013 hPa: gas law. [kg/m³]"""
GUST_FACTORS = (1.4, 1.6)
"""Gust over hourly mean at 10 m in the open; practice, from memory. [1]"""
FORECAST_SHARE = 0.2
"""How far a forecast wind may lie off; own estimate, no source. [1]"""
SMOOTHEST_M, ROUGHEST_M = 0.01, 0.05
"""Roughness of open ground: EN 1991-1-4 table 4.1, categories I and II. [m]"""

GUST_THERE = Formula(
    "gust_at_the_box", "v = v₁₀ · ln(z / z₀) / ln(10 m / z₀)", "m/s", "EN 1991-1-4 §4.3 (form of the profile)"
)


def tipping_doubts(
    mass_kg: float, drag: float, area_m2: float, height_m: float, tipping_radius_m: float
) -> tuple[tuple[Doubt, float], ...]:
    """Return what may lie off in the gust that tips a light, each with the power that it stands in.

    Parameters
    ----------
    mass_kg : float
        Stand, head, box and bags together. [kg]
    drag : float
        Drag coefficient. [1]
    area_m2 : float
        Area that the wind meets. [m²]
    height_m : float
        Height of the centre of that area. [m]
    tipping_radius_m : float
        From the line of the mass to the tipping edge. [m]

    Returns
    -------
    tuple[tuple[Doubt, float], ...]
        The widest doubt first where nothing else is typed: the drag. [1]

    References
    ----------
    Those of the module.
    """
    lowest = drag * SQUARE_PLATE / 1.42 if drag >= HOLLOW_FROM else drag * DISC_DRAG / SQUARE_PLATE
    typed = "a typed number: own estimate"
    height = min(PLACING_M, height_m / 2.0)
    return (
        (
            Doubt("drag", lowest, drag, max(SIGNBOARD, drag), "1", "flat plate to signboard: handbook, EN 1991-1-4"),
            -0.5,
        ),
        (Doubt("mass_kg", mass_kg * (1 - TYPED_SHARE), mass_kg, mass_kg * (1 + TYPED_SHARE), "kg", typed), 0.5),
        (Doubt("area_m2", area_m2 * (1 - TYPED_SHARE), area_m2, area_m2 * (1 + TYPED_SHARE), "m²", typed), -0.5),
        (Doubt("height_m", height_m - height, height_m, height_m + height, "m", "as it is set: own estimate"), -0.5),
        (
            Doubt(
                "tipping_radius_m",
                tipping_radius_m * (1 - TYPED_SHARE),
                tipping_radius_m,
                tipping_radius_m * (1 + TYPED_SHARE),
                "m",
                "legs spread less or more: own estimate",
            ),
            0.5,
        ),
        (Doubt("air_density_kg_m3", HOT_DENSITY, AIR_DENSITY, COLD_DENSITY, "kg/m³", "35 to −10 °C: gas law"), -0.5),
    )


def tipping_between(mass_kg: float, drag: float, area_m2: float, height_m: float, tipping_radius_m: float) -> Between:
    """Return in which range the gust lies at which a light tips.

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

    Returns
    -------
    Between
        At the height of the box: a likely range, no promise. [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module; JCGM 100:2008, 5.1.6.

    Examples
    --------
    >>> found = tipping_between(15.0, 1.42, 0.7477, 2.0, 0.25)
    >>> round(found.low, 1), round(found.high, 1)
    (4.6, 6.0)
    """
    tips = tipping_wind(mass_kg, drag, area_m2, height_m, tipping_radius_m)
    return product_between(tips, tipping_doubts(mass_kg, drag, area_m2, height_m, tipping_radius_m))


def tipping_step(mass_kg: float, drag: float, area_m2: float, height_m: float, tipping_radius_m: float) -> Step:
    """Return how the gust that tips a light came about, with its range.

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

    Returns
    -------
    Step
        Formula, inputs, result, range and what the range comes from.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.
    """
    doubts = tipping_doubts(mass_kg, drag, area_m2, height_m, tipping_radius_m)
    tips = tipping_wind(mass_kg, drag, area_m2, height_m, tipping_radius_m)
    step = TIPPING_WIND.step(
        tips,
        ("mass_kg", mass_kg, "kg"),
        ("gravity", GRAVITY, "m/s²"),
        ("drag", drag, "1"),
        ("area_m2", area_m2, "m²"),
        ("height_m", height_m, "m"),
        ("tipping_radius_m", tipping_radius_m, "m"),
        ("air_density_kg_m3", AIR_DENSITY, "kg/m³"),
        ("margin", 1.0, "1"),
    )
    return step.within(product_between(tips, doubts), tuple(one for one, _power in doubts))


def gust_step(forecast_gust_m_s: float, from_height_m: float, to_height_m: float) -> Step:
    """Return the gust at a height with its range, from a forecast gust.

    Parameters
    ----------
    forecast_gust_m_s : float
        Gust at ``from_height_m`` over open ground, 0 to 60. [m/s]
    from_height_m, to_height_m : float
        Heights above the ground, 1 to 300. [m]

    Returns
    -------
    Step
        Formula, inputs, result, range and what the range comes from.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> found = gust_step(11.0, 10.0, 2.5)
    >>> round(found.result, 1), round(found.between.low, 1), round(found.between.high, 1)
    (8.4, 6.6, 10.2)
    """
    height = max(ABOVE_GROUND.low, to_height_m)
    there = wind_at_height(forecast_gust_m_s, from_height_m, height)
    share = wind_at_height(1.0, from_height_m, height)
    ends = sorted(wind_at_height(1.0, from_height_m, height, z0) for z0 in (SMOOTHEST_M, ROUGHEST_M))
    low, high = min(ends[0], share), max(ends[1], share)
    forecast = forecast_gust_m_s or 1.0
    doubts = (
        Doubt(
            "forecast_wind_m_s",
            forecast * (1 - FORECAST_SHARE),
            forecast,
            forecast * (1 + FORECAST_SHARE),
            "m/s",
            "weather: own estimate, no source",
        ),
        Doubt("gust_over_mean", GUST_FACTORS[0], USUAL_GUST_FACTOR, GUST_FACTORS[1], "1", "in the open: practice"),
        Doubt(
            "wind_at_the_box_over_forecast", low, share, high, "1", "roughness 0.01 to 0.05 m: EN 1991-1-4 table 4.1"
        ),
    )
    step = GUST_THERE.step(
        there,
        ("forecast_gust_m_s", forecast_gust_m_s, "m/s"),
        ("height_m", height, "m"),
        ("roughness_m", OPEN_GRASS_M, "m"),
    )
    return step.within(product_between(there, [(one, 1.0) for one in doubts]), doubts)
