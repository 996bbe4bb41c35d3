"""What each light of a setup gives in one frame: on the subject, by way of reflectors, and on the background.

References
----------
`shoots.lighting.core.output` and `shoots.lighting.core.aids`, with their sources.
"""

import math

from shoots.kit.core.lamps import LampKind
from shoots.lighting.core.aids import background_share, subject_output, thrown_back
from shoots.lighting.core.output import Sync, light_output, sync_of
from shoots.lighting.core.setup import Part, PlacedLight, Setup
from shoots.values.steps import Step


def light_exposure(setup: Setup, light: PlacedLight) -> tuple[float, float, tuple[Step, ...]]:
    """Return what a light gives at the subject in one frame.

    Parameters
    ----------
    setup : Setup
        The setup, for camera, time and subject.
    light : PlacedLight
        The light.

    Returns
    -------
    tuple[float, float, tuple[Step, ...]]
        Luminous exposure, facing the light [lx·s]; its spread [stop]; its steps. 0 where the frame stays
        dark.

    Raises
    ------
    OutOfRange
        If the light stands in the subject.

    References
    ----------
    `shoots.lighting.core.aids.subject_output`.
    """
    output = subject_output(setup, light)
    amount = output.amount if output.is_flash else output.amount * setup.exposure.shutter_s
    if sync_of(light, setup.camera, setup.exposure.shutter_s) is Sync.BAND:
        amount = 0.0
    return amount, output.spread_stops, output.because


def background_exposure(setup: Setup, light: PlacedLight) -> float:
    """Return what a light gives on the background behind the subject, square to it.

    Parameters
    ----------
    setup : Setup
        The setup; without a background the answer is 0.
    light : PlacedLight
        A background light is aimed at the background, any other at the subject.

    Returns
    -------
    float
        Luminous exposure on the background at the height of the subject point, by its cosine. [lx·s]

    Raises
    ------
    OutOfRange
        If the light stands in the background.

    References
    ----------
    Geometry; `shoots.lighting.core.output.light_output`.
    """
    if setup.background is None or sync_of(light, setup.camera, setup.exposure.shutter_s) is Sync.BAND:
        return 0.0
    turn = math.radians(light.bearing_deg)
    # Towards the camera is -y, so that a light at bearing 0 stands at y = -floor.
    x, y = -light.floor_m * math.sin(turn), -light.floor_m * math.cos(turn)
    up = light.height_m - setup.subject.point_m
    along = setup.background.distance_m - y
    if along <= 0.0:
        return 0.0
    reach = math.sqrt(x * x + along * along + up * up)
    off_axis = 0.0
    if light.part is not Part.BACKGROUND:
        to_subject = math.sqrt(x * x + y * y + up * up)
        cosine = (x * x - along * y + up * up) / (reach * to_subject)
        off_axis = math.degrees(math.acos(min(1.0, max(-1.0, cosine))))
    output = light_output(light, reach, off_axis, setup.camera, setup.exposure.shutter_s, setup.conventions)
    amount = output.amount if output.is_flash else output.amount * setup.exposure.shutter_s
    return amount * along / reach * background_share(setup, light)


def thrown_exposures(setup: Setup, light: PlacedLight) -> tuple[tuple[str, float], ...]:
    """Return what each reflector throws of a light onto the subject in one frame.

    Parameters
    ----------
    setup : Setup
        The setup.
    light : PlacedLight
        The light.

    Returns
    -------
    tuple[tuple[str, float], ...]
        By the reflector's letter, luminous exposure. [lx·s]

    Raises
    ------
    OutOfRange
        If the light stands in the subject.

    References
    ----------
    `shoots.lighting.core.aids.thrown_back`.
    """
    if not setup.panels or sync_of(light, setup.camera, setup.exposure.shutter_s) is Sync.BAND:
        return ()
    time = 1.0 if light.lamp.kind is LampKind.FLASH else setup.exposure.shutter_s
    return tuple((letter, amount * time) for letter, amount in thrown_back(setup, light))
