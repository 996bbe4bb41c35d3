"""Several lights on one point: sums, ambient and flash in one frame, lighting ratios.

References
----------
Light adds in lx·s, never in stops; ISO 10157:1991, flash meters also include continuous light (scope read);
US Army course SS0510, pp. 1-18 and 1-19 (lighting ratio A).
"""

import math
from collections.abc import Sequence

from shoots.lighting.core.conventions import Ratio
from shoots.lighting.core.exposure import F_NUMBER
from shoots.values.steps import Formula
from shoots.values.units import Num, Range

EXPOSURE = Range(0.0, 1e12, "lx·s")
LIGHTS = Range(1.0, 1e4, "1")
POSITIVE_RATIO = Range(0.0, 1e18, "1", above=True)
RATIO_STOPS = Range(-60.0, 60.0, "stop")

SUM_OF_LIGHTS = Formula("sum_of_lights", "H = E · t + Σ Hᵢ", "lx·s", "ISO 10157:1991 (scope); light adds")


def together_f_number(f_numbers: Sequence[float]) -> float:
    """Return what several lights read together on one point, from what each reads alone.

    Parameters
    ----------
    f_numbers : Sequence[float]
        Exact f-numbers, each 0.1 to 10,000, at least one. [1]

    Returns
    -------
    float
        Root of the sum of squares; the order does not matter. [1]

    Raises
    ------
    OutOfRange
        If one is outside its range, or there is none.

    References
    ----------
    Light adds: N² is proportional to H; derived.

    Examples
    --------
    >>> round(together_f_number([8.0, 4.0, 5.657]), 2)
    10.58
    """
    LIGHTS.check("number of f_numbers", len(f_numbers))
    for f_number in f_numbers:
        F_NUMBER.check("f_numbers", f_number)
    # fsum is exact, so the order of the lights cannot change the last digit.
    return math.sqrt(math.fsum(f_number * f_number for f_number in f_numbers))


def mixed_exposure(ambient_lx: Num, shutter_s: Num, flash_lx_s: Num) -> Num:
    """Return the luminous exposure of ambient and flash in one frame, below the sync speed.

    Parameters
    ----------
    ambient_lx : float or NDArray[np.float64], any shape that broadcasts
        Ambient illuminance, at least 0. [lx]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 0 to 1e7. [s]
    flash_lx_s : float or NDArray[np.float64], any shape that broadcasts
        Luminous exposure of all flashes, at least 0. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        H = E·t + ΣH. [lx·s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 10157:1991, flash meters also include continuous light (scope read).

    Examples
    --------
    >>> mixed_exposure(1000.0, 0.125, 35.0)
    160.0
    """
    EXPOSURE.check("ambient_lx", ambient_lx)
    EXPOSURE.check("shutter_s", shutter_s)
    EXPOSURE.check("flash_lx_s", flash_lx_s)
    return ambient_lx * shutter_s + flash_lx_s


def lighting_ratio(key_over_fill_stops: float, ratio: Ratio = Ratio.KEY_AND_FILL_TO_FILL) -> float:
    """Return the lighting ratio, as x in x:1, of a key so many stops over its fill.

    Parameters
    ----------
    key_over_fill_stops : float
        Key alone against fill alone, -60 to 60. [stop]
    ratio : Ratio
        A counts key and fill on the lit side, B compares the two lights.

    Returns
    -------
    float
        1 + 2^Δ (A) or 2^Δ (B). [1]

    Raises
    ------
    OutOfRange
        If ``key_over_fill_stops`` is outside its range.

    References
    ----------
    US Army SS0510, pp. 1-18 and 1-19 (A); cinema practice (B).

    Examples
    --------
    >>> lighting_ratio(1.0), lighting_ratio(1.0, Ratio.KEY_TO_FILL)
    (3.0, 2.0)
    """
    RATIO_STOPS.check("key_over_fill_stops", key_over_fill_stops)
    plain = math.exp2(key_over_fill_stops)
    return 1.0 + plain if ratio is Ratio.KEY_AND_FILL_TO_FILL else plain


def key_over_fill(lighting_ratio_to_one: float, ratio: Ratio = Ratio.KEY_AND_FILL_TO_FILL) -> float:
    """Return how many stops the key lies over the fill for a lighting ratio.

    Parameters
    ----------
    lighting_ratio_to_one : float
        x in x:1; above 1 for A, above 0 for B. [1]
    ratio : Ratio
        Which ratio is meant.

    Returns
    -------
    float
        log2(x - 1) (A) or log2 x (B). [stop]

    Raises
    ------
    OutOfRange
        If there is no such ratio.

    References
    ----------
    US Army SS0510, pp. 1-18 and 1-19 (A); cinema practice (B).

    Examples
    --------
    >>> key_over_fill(3.0)
    1.0
    """
    counted = lighting_ratio_to_one - (1.0 if ratio is Ratio.KEY_AND_FILL_TO_FILL else 0.0)
    POSITIVE_RATIO.check("lighting_ratio_to_one", counted)
    return math.log2(counted)
