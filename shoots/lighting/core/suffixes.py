"""Inputs in another unit than the list asks for, told by the suffix of their name.

``distance_ft`` is taken for ``distance_m``, ``shutter_ms`` for ``shutter_s``. A name without a unit is not
taken: nobody then knows what its number means.

References
----------
ISO 80000-1 for the prefixes; the international foot of 1959 (0.3048 m) and its inch, mile and pound (0.45359237
kg, exact); the nautical mile of 1852 m; foot-lambert = 1/π candela a square foot.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

FOOT_M = 0.3048
INCH_MM = 25.4
POUND_KG = 0.45359237

OTHERS: dict[str, dict[str, float]] = {
    "_m_s": {"_km_h": 1.0 / 3.6, "_mph": 1609.344 / 3600.0, "_kn": 1852.0 / 3600.0, "_ft_s": FOOT_M},
    "_cd_m2": {"_fl": 1.0 / (math.pi * FOOT_M**2)},
    "_cd_s": {"_bcps": 1.0},
    "_lx_s": {"_fc_s": 1.0 / FOOT_M**2},
    "_lx": {"_klx": 1000.0, "_fc": 1.0 / FOOT_M**2},
    "_mm": {"_m": 1000.0, "_cm": 10.0, "_um": 0.001, "_in": INCH_MM},
    "_m": {"_mm": 0.001, "_cm": 0.01, "_km": 1000.0, "_ft": FOOT_M, "_in": INCH_MM / 1000.0},
    "_s": {"_ms": 1e-3, "_us": 1e-6, "_min": 60.0, "_h": 3600.0},
    "_ws": {"_j": 1.0, "_kj": 1000.0},
    "_wh": {"_kwh": 1000.0},
    "_k": {"_kk": 1000.0},
    "_deg": {"_rad": 180.0 / math.pi},
    "_kg": {"_g": 0.001, "_lb": POUND_KG},
    "_hpa": {"_mbar": 1.0, "_kpa": 10.0},
    "_f": {"_uf": 1e-6},
    "_m2": {"_cm2": 1e-4, "_ft2": FOOT_M**2},
}
"""For each suffix of the list what else is understood, and how much of its unit that is. [1]"""


class Taken(NamedTuple):
    """Which input is meant, and how much of its unit one of the given is."""

    name: str
    factor: float


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
    >>> input_meant("distance_ft", ("guide_number_m", "distance_m"))
    Taken(name='distance_m', factor=0.3048)
    """
    for name in names:
        # The longest suffix is the unit: speed_m_s is in metres a second, not in seconds.
        suffix = max((one for one in OTHERS if name.endswith(one)), key=len, default="")
        if not suffix:
            continue
        stem = name.removesuffix(suffix)
        for other, factor in OTHERS[suffix].items():
            if given == stem + other:
                return Taken(name, factor)
    return None
