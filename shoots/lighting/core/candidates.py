"""Many candidate settings at once: the same small formulas for one number and for ten thousand.

Everything is in stops against the chosen exposure: 0 is what the settings expose as they should.

References
----------
ISO 2720:1974 and APEX, rearranged; light adds, so stops are summed through their powers of two.
"""

import math
from dataclasses import dataclass

from shoots.kit.core.cameras import CameraSpec
from shoots.kit.core.lamps import LampKind
from shoots.lighting.core.aids import subject_output
from shoots.lighting.core.burst import high_speed_sync_share
from shoots.lighting.core.conventions import FLAT_RECEPTOR
from shoots.lighting.core.exposure import EV, F_NUMBER, ISO, SHUTTER, ev100
from shoots.lighting.core.filters import FILTER_STOPS
from shoots.lighting.core.metering import EXPOSURE, luminous_exposure
from shoots.lighting.core.output import Sync, sync_of
from shoots.lighting.core.setup import PlacedLight, Setup, reaches_front
from shoots.values.units import FloatArray, Num, Range, exp2, log2

POWER = Range(0.0, 1.0, "1", above=True)
SHARE = Range(0.0, 1.0, "1", above=True)


@dataclass(frozen=True, slots=True)
class FullLight:
    """A light in its place at full power.

    Attributes
    ----------
    letter : str
        Its letter.
    full : float
        At the subject: luminous exposure of a flash [lx·s] or illuminance of a continuous light [lx].
    is_flash : bool
        Which of the two.
    at_front : bool
        Whether it adds to the front.
    """

    letter: str
    full: float
    is_flash: bool
    at_front: bool


@dataclass(frozen=True, slots=True)
class Candidates:
    """Settings to be evaluated together.

    Attributes
    ----------
    f_number, shutter_s, iso, nd_stops : NDArray[np.float64], shape (n,)
        Aperture [1], time [s], ISO [1], filters [stop].
    powers : tuple[NDArray[np.float64], ...], each shape (n,)
        For each light its share of full power. [1]
    """

    f_number: FloatArray
    shutter_s: FloatArray
    iso: FloatArray
    nd_stops: FloatArray
    powers: tuple[FloatArray, ...]


@dataclass(frozen=True, slots=True)
class Evaluated:
    """What candidate settings give, in stops against the chosen exposure.

    Attributes
    ----------
    lights : tuple[NDArray[np.float64], ...], each shape (n,)
        Each light alone. [stop]
    ambient, total : NDArray[np.float64], shape (n,)
        Ambient alone, and all that reaches the front. [stop]
    """

    lights: tuple[FloatArray, ...]
    ambient: FloatArray
    total: FloatArray


def ambient_stops(level_ev100: float, f_number: Num, shutter_s: Num, iso: Num, nd_stops: Num) -> Num:
    """Return how ambient light lies to the chosen exposure.

    Parameters
    ----------
    level_ev100 : float
        Its level at ISO 100, -60 to 60. [EV]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    nd_stops : float or NDArray[np.float64], any shape that broadcasts
        Filters on the lens, 0 to 60. [stop]

    Returns
    -------
    float or NDArray[np.float64]
        Positive for more light than the settings want. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    APEX: level less setting less filter.

    Examples
    --------
    >>> round(ambient_stops(15.0, 16.0, 1 / 128, 100.0, 0.0), 6)
    0.0
    """
    EV.check("level_ev100", level_ev100)
    FILTER_STOPS.check("nd_stops", nd_stops)
    return level_ev100 - nd_stops - ev100(f_number, shutter_s, iso)


def flash_stops(
    full_lx_s: float,
    power: Num,
    share: Num | float,
    f_number: Num,
    iso: Num,
    nd_stops: Num,
    meter_constant: float = FLAT_RECEPTOR,
) -> Num:
    """Return how a flash lies to the chosen exposure.

    Parameters
    ----------
    full_lx_s : float
        Luminous exposure at the subject at full power, above 0. [lx·s]
    power : float or NDArray[np.float64], any shape that broadcasts
        Share of full power, above 0 up to 1. [1]
    share : float or NDArray[np.float64], any shape that broadcasts
        What the shutter lets of it, above 0 up to 1: less than 1 in high-speed sync. [1]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    nd_stops : float or NDArray[np.float64], any shape that broadcasts
        Filters on the lens, 0 to 60. [stop]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        Positive for more light than the settings want. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974 with H = E·t.

    Examples
    --------
    >>> flash_stops(160.0, 0.5, 1.0, 8.0, 100.0, 0.0)
    -1.0
    """
    EXPOSURE.check("full_lx_s", full_lx_s)
    POWER.check("power", power)
    SHARE.check("share", share)
    FILTER_STOPS.check("nd_stops", nd_stops)
    return log2(full_lx_s * power * share / luminous_exposure(f_number, iso, meter_constant)) - nd_stops


def continuous_stops(
    full_lx: float,
    power: Num,
    shutter_s: Num,
    f_number: Num,
    iso: Num,
    nd_stops: Num,
    meter_constant: float = FLAT_RECEPTOR,
) -> Num:
    """Return how a continuous light lies to the chosen exposure.

    Parameters
    ----------
    full_lx : float
        Illuminance at the subject at full power, above 0. [lx]
    power : float or NDArray[np.float64], any shape that broadcasts
        Share of full power, above 0 up to 1. [1]
    shutter_s : float or NDArray[np.float64], any shape that broadcasts
        Exposure time, 1e-7 to 1e7. [s]
    f_number : float or NDArray[np.float64], any shape that broadcasts
        Exact f-number, 0.1 to 10,000. [1]
    iso : float or NDArray[np.float64], any shape that broadcasts
        ISO speed, 0.01 to 1e8. [1]
    nd_stops : float or NDArray[np.float64], any shape that broadcasts
        Filters on the lens, 0 to 60. [stop]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    float or NDArray[np.float64]
        Positive for more light than the settings want. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    ISO 2720:1974.

    Examples
    --------
    >>> continuous_stops(160.0, 1.0, 1.0, 8.0, 100.0, 0.0)
    0.0
    """
    EXPOSURE.check("full_lx", full_lx)
    POWER.check("power", power)
    SHUTTER.check("shutter_s", shutter_s)
    FILTER_STOPS.check("nd_stops", nd_stops)
    return log2(full_lx * power * shutter_s / luminous_exposure(f_number, iso, meter_constant)) - nd_stops


def full_lights(setup: Setup) -> tuple[FullLight, ...]:
    """Return the lights of a setup at full power, where the shutter is slow enough for all of them.

    Parameters
    ----------
    setup : Setup
        The setup; its chosen exposure and powers do not matter.

    Returns
    -------
    tuple[FullLight, ...]
        In the order of the setup.

    Raises
    ------
    OutOfRange
        If a light stands in the subject.

    References
    ----------
    `shoots.lighting.core.aids.subject_output`; what reflectors throw back is not in it.
    """
    return tuple(
        FullLight(light.letter, _full(setup, light), light.lamp.kind is LampKind.FLASH, reaches_front(light))
        for light in setup.lights
    )


def _full(setup: Setup, light: PlacedLight) -> float:
    slow = max(setup.camera.sync_s, setup.camera.electronic_s or 0.0)
    output = subject_output(setup, light, slow)
    return output.amount / light.power


def shutter_share(light: PlacedLight, camera: CameraSpec, shutter_s: float) -> float:
    """Return what the shutter lets of a light's flash at a time.

    Parameters
    ----------
    light : PlacedLight
        The light.
    camera : CameraSpec
        The body.
    shutter_s : float
        Exposure time, 1e-7 to 1e7. [s]

    Returns
    -------
    float
        1 up to the sync speed, less in high-speed sync, 0 where the frame stays dark. [1]

    Raises
    ------
    OutOfRange
        If ``shutter_s`` is outside its range.

    References
    ----------
    `shoots.lighting.core.burst.high_speed_sync_share` with the light's own further loss.
    """
    state = sync_of(light, camera, shutter_s)
    if state is Sync.WHOLE:
        return 1.0
    if state is Sync.BAND:
        return 0.0
    return high_speed_sync_share(shutter_s, camera.curtain_s) * math.exp2(light.lamp.high_speed_sync_extra_stops)


def evaluate_one(
    lights: tuple[FullLight, ...],
    level_ev100: float,
    f_number: Num,
    shutter_s: Num,
    iso: Num,
    nd_stops: Num,
    powers: tuple[Num, ...],
    meter_constant: float = FLAT_RECEPTOR,
) -> tuple[tuple[Num, ...], Num, Num]:
    """Return what settings up to the sync speed give, for one candidate or for many at once.

    Parameters
    ----------
    lights : tuple[FullLight, ...]
        Lights at full power.
    level_ev100 : float
        Ambient level at ISO 100, -60 to 60. [EV]
    f_number : float or NDArray[np.float64], shape (n,)
        Exact f-number, 0.1 to 10,000. [1]
    shutter_s : float or NDArray[np.float64], shape (n,)
        Exposure time, 1e-7 to 1e7, not shorter than the sync time. [s]
    iso : float or NDArray[np.float64], shape (n,)
        ISO speed, 0.01 to 1e8. [1]
    nd_stops : float or NDArray[np.float64], shape (n,)
        Filters on the lens, 0 to 60. [stop]
    powers : tuple[float or NDArray[np.float64], ...], each shape (n,)
        For each light its share of full power. [1]
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    tuple[tuple[float or NDArray[np.float64], ...], float or NDArray[np.float64], float or
    NDArray[np.float64]]
        Each light, ambient, and all that reaches the front. [stop]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Light adds; the formulas above.

    Examples
    --------
    >>> key = FullLight("A", 160.0, True, True)
    >>> evaluate_one((key,), 12.0, 8.0, 1 / 64, 100.0, 0.0, (1.0,))
    ((0.0,), 0.0, 1.0)
    """
    F_NUMBER.check("f_number", f_number)
    ISO.check("iso", iso)
    ambient = ambient_stops(level_ev100, f_number, shutter_s, iso, nd_stops)
    amount = exp2(ambient)
    found: list[Num] = []
    for index, light in enumerate(lights):
        power = powers[index]
        if light.is_flash:
            stops = flash_stops(light.full, power, 1.0, f_number, iso, nd_stops, meter_constant)
        else:
            stops = continuous_stops(light.full, power, shutter_s, f_number, iso, nd_stops, meter_constant)
        found.append(stops)
        if light.at_front:
            amount = amount + exp2(stops)
    return tuple(found), ambient, log2(amount)


def evaluate_many(
    lights: tuple[FullLight, ...],
    level_ev100: float,
    candidates: Candidates,
    meter_constant: float = FLAT_RECEPTOR,
) -> Evaluated:
    """Return what many settings give, computed together.

    Parameters
    ----------
    lights : tuple[FullLight, ...]
        Lights at full power.
    level_ev100 : float
        Ambient level at ISO 100, -60 to 60. [EV]
    candidates : Candidates
        The settings, n of them.
    meter_constant : float
        Constant C, 50 to 1000. [lx·s]

    Returns
    -------
    Evaluated
        Arrays of shape (n,).

    Raises
    ------
    OutOfRange
        If a number is outside its range.

    References
    ----------
    `evaluate_one`, with arrays.
    """
    stops, ambient, total = evaluate_one(
        lights,
        level_ev100,
        candidates.f_number,
        candidates.shutter_s,
        candidates.iso,
        candidates.nd_stops,
        candidates.powers,
        meter_constant,
    )
    return Evaluated(stops, ambient, total)
