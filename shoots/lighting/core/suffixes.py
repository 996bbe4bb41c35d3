"""Inputs in another unit than the list asks for, told by the suffix of their name.

``distance_ft`` is taken for ``distance_m``, ``shutter_ms`` for ``shutter_s``, ``air_f`` for ``air_c``,
``power_percent`` for ``power``. A name without a unit is not taken: nobody then knows what its number means.

References
----------
ISO 80000-1 for the prefixes; the international foot of 1959 (0.3048 m) and its inch, mile and pound (0.45359237
kg, exact); the nautical mile of 1852 m; foot-lambert = 1/π candela a square foot; the
conventional millimetre of mercury for the inch of mercury (3386.389 Pa); 0 °C = 273.15 K; the reciprocal
megakelvin (mired) of CIE S 017; weather services state cloud cover in percent or eighths of the sky.
"""

import math
from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

FOOT_M = 0.3048
INCH_MM = 25.4
POUND_KG = 0.45359237

_SPEEDS = {
    **dict.fromkeys(("_km_h", "_kmh", "_kph"), 1.0 / 3.6),
    "_mph": 1609.344 / 3600.0,
    **dict.fromkeys(("_kn", "_kt", "_knots"), 1852.0 / 3600.0),
    "_ft_s": FOOT_M,
}

OTHERS: dict[str, dict[str, float]] = {
    "_m_s2": {"_ft_s2": FOOT_M},
    "_m_s": _SPEEDS,
    "_cd_m2": {"_fl": 1.0 / (math.pi * FOOT_M**2), "_kcd_m2": 1000.0},
    "_cd_s": {"_bcps": 1.0},
    "_lx_s": {"_lux_s": 1.0, "_fc_s": 1.0 / FOOT_M**2},
    "_lx": {"_lux": 1.0, "_klx": 1000.0, "_fc": 1.0 / FOOT_M**2},
    "_mm": {"_m": 1000.0, "_cm": 10.0, "_um": 0.001, "_in": INCH_MM},
    "_m": {"_mm": 0.001, "_cm": 0.01, "_km": 1000.0, "_ft": FOOT_M, "_in": INCH_MM / 1000.0},
    "_nm": {"_um": 1000.0},
    "_s": {"_ms": 1e-3, "_us": 1e-6, "_min": 60.0, "_h": 3600.0},
    "_min": {"_s": 1.0 / 60.0, "_h": 60.0},
    "_ws": {"_j": 1.0, "_kj": 1000.0, "_wh": 3600.0},
    "_wh": {"_kwh": 1000.0, "_j": 1.0 / 3600.0, "_ws": 1.0 / 3600.0},
    "_w": {"_kw": 1000.0},
    "_lm_w": {},
    "_w_m2": {"_kw_m2": 1000.0},
    "_k": {"_kk": 1000.0},
    "_deg": {"_rad": 180.0 / math.pi},
    "_kg": {"_g": 0.001, "_lb": POUND_KG},
    "_n": {"_kn": 1000.0},
    "_hpa": {"_mbar": 1.0, "_kpa": 10.0, "_pa": 0.01, "_inhg": 33.86389},
    "_n_m2": {"_pa": 1.0, "_kpa": 1000.0, "_kn_m2": 1000.0},
    "_f": {"_mf": 1e-3, "_uf": 1e-6},
    "_m2": {"_cm2": 1e-4, "_ft2": FOOT_M**2},
}
"""For each suffix of the list what else is understood, and how much of its unit that is. [1]

Below "per" it is the other way round: what a kilojoule gives is a thousandth of it for each joule."""


def _kelvin_from_mired(mired: float) -> float:
    # Beyond the blue limit there is no black body; the range of what is asked then refuses it by name.
    return 1e6 / mired if mired > 0.0 else math.inf


CURVED: dict[str, dict[str, Callable[[float], float]]] = {
    "_c": {"_f": lambda degrees: (degrees - 32.0) / 1.8, "_k": lambda kelvin: kelvin - 273.15},
    "_k": {"_mired": _kelvin_from_mired},
}
"""The same where one unit is no mere multiple of the other."""

SHARES = {
    *("power", "least_power", "fill", "covered", "covers", "spill", "mixed", "scatter"),
    *("reflectance", "ground_reflectance", "transmission", "transmittances", "diffuse", "open_share", "lit_share"),
    *("efficiency", "reserve", "restitution"),
}
"""Shares of a whole that are also said in percent."""

PERCENT = "_percent"
"""Suffix of such a share: ``power_percent`` for ``power``."""

FORECAST: dict[str, Callable[[float], float]] = {
    "cloud_percent": lambda percent: percent * 0.08,
    "cloud_share": lambda share: share * 8.0,
}
"""What else the eighths of a covered sky, ``oktas``, are called in forecasts."""


class Taken(NamedTuple):
    """Which input is meant, and what a number given for it is in its unit."""

    name: str
    convert: Callable[[float], float]


def _multiple(factor: float) -> Callable[[float], float]:
    return lambda given: given * factor


def input_meant(given: str, names: Iterable[str]) -> Taken | None:
    """Return the input that a name with another unit stands for.

    Parameters
    ----------
    given : str
        As it was written.
    names : Iterable[str]
        The inputs that there are.

    Returns
    -------
    Taken or None
        None when no input is called so in any unit that is understood.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> taken = input_meant("distance_ft", ("guide_number_m", "distance_m"))
    >>> taken.name, round(taken.convert(10.0), 3)
    ('distance_m', 3.048)
    """
    for name in names:
        if name == "oktas" and given in FORECAST:
            return Taken(name, FORECAST[given])
        # The longest suffix is the unit: speed_m_s is in metres a second, not in seconds.
        suffix = max((one for one in (*OTHERS, *CURVED) if name.endswith(one)), key=len, default="")
        if not suffix:
            if name in SHARES and given == name + PERCENT:
                return Taken(name, _multiple(0.01))
            continue
        stem = name.removesuffix(suffix)
        for other, factor in OTHERS.get(suffix, {}).items():
            if given == stem + other:
                return Taken(name, _multiple(1.0 / factor if stem.endswith("_per") else factor))
        for other, convert in CURVED.get(suffix, {}).items():
            if given == stem + other:
                return Taken(name, convert)
    return None


def in_its_unit(value: Any, taken: Taken) -> Any:
    """Return what was given in another unit as it is in the unit of its input.

    Parameters
    ----------
    value : Any
        A number, or a list of numbers; anything else stays as it is.
    taken : Taken
        Which input it was taken for.

    Returns
    -------
    Any
        Of the same shape.

    References
    ----------
    Those of the module.

    Examples
    --------
    >>> in_its_unit((1.0, 2.5), Taken("wavelengths_nm", lambda given: given * 1000.0))
    (1000.0, 2500.0)
    """
    if isinstance(value, tuple):
        return tuple(in_its_unit(one, taken) for one in value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return taken.convert(value)
