"""Clear skies that know the state of the air: two models of irradiance, from which light follows by its efficacy.

Both are taken from pvlib as they stand; the models of `shoots.places.core.sky` know the height of the sun alone.

References
----------
P. Ineichen, Solar Energy 82 (2008) 758 (simplified Solis); P. Ineichen, R. Perez, Solar Energy 73 (2002) 151
(Linke turbidity), both as pvlib has them; F. Kasten, A. T. Young, Appl. Opt. 28 (1989) 4735 (air mass).
"""

from dataclasses import dataclass

from shoots.places.core.sky import ZENITH, air_mass
from shoots.places.core.sun import PRESSURE, STANDARD_PRESSURE_HPA
from shoots.values.units import Range

AEROSOL = Range(0.0, 0.45, "1")
WATER = Range(0.2, 10.0, "cm")
TURBIDITY = Range(1.0, 10.0, "1")
SOLAR = Range(0.0, 2000.0, "W/m²")
# Higher up the fit gives more than there is outside the air.
FITTED = Range(-500.0, 4000.0, "m")

SOLAR_CONSTANT_W_M2 = 1361.0
"""Total solar irradiance at the mean distance of the sun (G. Kopp, J. Lean, 2011). [W/m²]"""


@dataclass(frozen=True, slots=True)
class ClearIrradiance:
    """What sun and clear sky give.

    Attributes
    ----------
    global_w_m2 : float
        On level ground, sun and sky together. [W/m²]
    direct_normal_w_m2 : float
        Sun alone, square to its rays. [W/m²]
    diffuse_w_m2 : float
        Sky alone, on level ground. [W/m²]
    """

    global_w_m2: float
    direct_normal_w_m2: float
    diffuse_w_m2: float


def irradiance_solis(
    altitude_deg: float,
    aerosol_depth: float = 0.1,
    water_cm: float = 1.5,
    pressure_hpa: float = STANDARD_PRESSURE_HPA,
    solar_w_m2: float = SOLAR_CONSTANT_W_M2,
) -> ClearIrradiance:
    """Return the clear-sky irradiance for a haze and a humidity of the air.

    Parameters
    ----------
    altitude_deg : float
        Apparent altitude of the sun, 0 to 90. [°]
    aerosol_depth : float
        Optical depth of the aerosol at 700 nm, 0 to 0.45: 0.05 very clear, 0.1 clear, 0.3 hazy. [1]
    water_cm : float
        Precipitable water, 0.2 to 10. [cm]
    pressure_hpa : float
        Air pressure, 100 to 1200. [hPa]
    solar_w_m2 : float
        Outside the air, 0 to 2000. [W/m²]

    Returns
    -------
    ClearIrradiance
        Global, direct and diffuse.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    P. Ineichen, Solar Energy 82 (2008) 758, as pvlib has it.

    Examples
    --------
    >>> round(irradiance_solis(30.0).global_w_m2, 1)
    465.4
    """
    ZENITH.check("altitude_deg", altitude_deg)
    AEROSOL.check("aerosol_depth", aerosol_depth)
    WATER.check("water_cm", water_cm)
    PRESSURE.check("pressure_hpa", pressure_hpa)
    SOLAR.check("solar_w_m2", solar_w_m2)
    # pvlib brings pandas with it, a second and more at start-up that pages without it need not pay.
    from pvlib import clearsky

    found = clearsky.simplified_solis(altitude_deg, aerosol_depth, water_cm, 100.0 * pressure_hpa, solar_w_m2)
    return ClearIrradiance(float(found["ghi"]), float(found["dni"]), float(found["dhi"]))


def irradiance_ineichen(
    altitude_deg: float,
    turbidity: float = 3.0,
    elevation_m: float = 0.0,
    solar_w_m2: float = SOLAR_CONSTANT_W_M2,
) -> ClearIrradiance:
    """Return the clear-sky irradiance for a Linke turbidity of the air.

    Parameters
    ----------
    altitude_deg : float
        Apparent altitude of the sun, 0 to 90. [°]
    turbidity : float
        Linke turbidity at air mass 2, 1 to 10: 2 cold and clear, 3 usual, 5 and more hazy. [1]
    elevation_m : float
        Height above the sea, -500 to 4000; the air above it counts as the standard atmosphere's. [m]
    solar_w_m2 : float
        Outside the air, 0 to 2000. [W/m²]

    Returns
    -------
    ClearIrradiance
        Global, direct and diffuse.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    P. Ineichen, R. Perez, Solar Energy 73 (2002) 151, as pvlib has it; ISO 2533:1975 (pressure by height).

    Examples
    --------
    >>> round(irradiance_ineichen(30.0).global_w_m2, 1)
    468.6
    """
    ZENITH.check("altitude_deg", altitude_deg)
    TURBIDITY.check("turbidity", turbidity)
    FITTED.check("elevation_m", elevation_m)
    SOLAR.check("solar_w_m2", solar_w_m2)
    from pvlib import atmosphere, clearsky

    mass = air_mass(90.0 - altitude_deg) * float(atmosphere.alt2pres(elevation_m)) / (100.0 * STANDARD_PRESSURE_HPA)
    found = clearsky.ineichen(90.0 - altitude_deg, mass, turbidity, elevation_m, solar_w_m2)
    return ClearIrradiance(float(found["ghi"]), float(found["dni"]), float(found["dhi"]))
