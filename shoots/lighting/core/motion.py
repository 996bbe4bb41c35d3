"""Moving subjects: blur at the subject and on the sensor, and the moment at which something thrown stands
still.

References
----------
Kinematics without drag, physics textbooks; g by ISO 80000-3 (standard acceleration of free fall).
"""

import math

from shoots.values.units import Range

GRAVITY = 9.80665
"""Standard acceleration of free fall, ISO 80000-3. [m/s²]"""

SPEED = Range(0.0, 1e4, "m/s")
TIME = Range(0.0, 1e7, "s")
MAGNIFICATION = Range(1e-9, 1e4, "1")
SENSOR_WIDTH = Range(1e-9, 1000.0, "mm")
PIXELS = Range(1.0, 1e6, "px")
ACCELERATION = Range(1e-9, 1e5, "m/s²")
HEIGHT = Range(0.0, 1e4, "m")
OFFSET = Range(-1e3, 1e3, "s")
BLUR = Range(1e-9, 1e6, "mm")
BLUR_OR_NONE = Range(0.0, 1e9, "mm")
EFFECTIVE = Range(1e-9, 1e7, "s")
RESTITUTION = Range(0.0, 1.0, "1")


def motion_blur(speed_m_s: float, effective_s: float) -> float:
    """Return how far something moves while it is being exposed.

    Parameters
    ----------
    speed_m_s : float
        Speed across the view, 0 to 10,000. [m/s]
    effective_s : float
        t0.1 of the flash where flash makes the picture, the exposure time where ambient does. [s]

    Returns
    -------
    float
        Blur at the subject. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics, b = v·t.

    Examples
    --------
    >>> round(motion_blur(4.0, 1 / 1500), 3)
    2.667
    """
    SPEED.check("speed_m_s", speed_m_s)
    TIME.check("effective_s", effective_s)
    return 1000.0 * speed_m_s * effective_s


def blur_pixels(blur_mm: float, magnification: float, sensor_width_mm: float, width_px: float) -> float:
    """Return a blur at the subject in pixels.

    Parameters
    ----------
    blur_mm : float
        Blur at the subject, at least 0. [mm]
    magnification : float
        Image size over subject size, 1e-9 to 10,000. [1]
    sensor_width_mm : float
        Width of the sensor, 1e-9 to 1000. [mm]
    width_px : float
        Pixels across that width, at least 1. [px]

    Returns
    -------
    float
        Blur on the sensor. [px]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> round(blur_pixels(2.667, 0.025, 36.0, 6000.0), 2)
    11.11
    """
    BLUR_OR_NONE.check("blur_mm", blur_mm)
    MAGNIFICATION.check("magnification", magnification)
    SENSOR_WIDTH.check("sensor_width_mm", sensor_width_mm)
    PIXELS.check("width_px", width_px)
    return blur_mm * magnification * width_px / sensor_width_mm


def longest_time(
    limit_px: float, speed_m_s: float, magnification: float, sensor_width_mm: float, width_px: float
) -> float:
    """Return the longest exposure that keeps a moving subject within a blur in pixels.

    Parameters
    ----------
    limit_px : float
        Largest blur, greater than 0. [px]
    speed_m_s : float
        Speed across the view, at least 0. [m/s]
    magnification : float
        Image size over subject size, 1e-9 to 10,000. [1]
    sensor_width_mm : float
        Width of the sensor, 1e-9 to 1000. [mm]
    width_px : float
        Pixels across that width, at least 1. [px]

    Returns
    -------
    float
        Infinite for a subject at rest. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics and geometry.

    Examples
    --------
    >>> round(1.0 / longest_time(2.0, 1.5, 0.02, 36.0, 6000.0))
    2500
    """
    BLUR.check("limit_px", limit_px)
    SPEED.check("speed_m_s", speed_m_s)
    per_second = blur_pixels(1000.0 * speed_m_s, magnification, sensor_width_mm, width_px)
    return limit_px / per_second if per_second > 0.0 else math.inf


def speed_near_apex(offset_s: float, acceleration_m_s2: float = GRAVITY) -> float:
    """Return the speed of something thrown, a time before or after it turns.

    Parameters
    ----------
    offset_s : float
        Time from the turning point, -1000 to 1000. [s]
    acceleration_m_s2 : float
        Turning acceleration: g in free fall, more for a ball that a hand pushes down. [m/s²]

    Returns
    -------
    float
        a·|t|, along the throw's own axis; a sideways speed comes on top of it. [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics without drag.

    Examples
    --------
    >>> round(speed_near_apex(0.05), 4)
    0.4903
    """
    OFFSET.check("offset_s", offset_s)
    ACCELERATION.check("acceleration_m_s2", acceleration_m_s2)
    return acceleration_m_s2 * abs(offset_s)


def drop_from_apex(offset_s: float, acceleration_m_s2: float = GRAVITY) -> float:
    """Return how far below its turning point something thrown is, a time before or after it.

    Parameters
    ----------
    offset_s : float
        Time from the turning point, -1000 to 1000. [s]
    acceleration_m_s2 : float
        Turning acceleration, 1e-9 to 100,000. [m/s²]

    Returns
    -------
    float
        a·t²/2. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics without drag.

    Examples
    --------
    >>> round(1000.0 * drop_from_apex(0.05), 3)
    12.258
    """
    OFFSET.check("offset_s", offset_s)
    ACCELERATION.check("acceleration_m_s2", acceleration_m_s2)
    return 0.5 * acceleration_m_s2 * offset_s * offset_s


def time_near_apex(within_m: float, acceleration_m_s2: float = GRAVITY) -> float:
    """Return for how long something thrown stays within a distance of its turning point.

    Parameters
    ----------
    within_m : float
        Distance below the turning point, at least 0. [m]
    acceleration_m_s2 : float
        Turning acceleration, 1e-9 to 100,000. [m/s²]

    Returns
    -------
    float
        2·sqrt(2x/a), up and down together. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics without drag.

    Examples
    --------
    >>> round(1000.0 * time_near_apex(0.010), 2)
    90.32
    """
    HEIGHT.check("within_m", within_m)
    ACCELERATION.check("acceleration_m_s2", acceleration_m_s2)
    return 2.0 * math.sqrt(2.0 * within_m / acceleration_m_s2)


def blur_window(limit_mm: float, effective_s: float, acceleration_m_s2: float = GRAVITY) -> float:
    """Return the stretch of time around the turning point in which blur stays under a limit.

    Parameters
    ----------
    limit_mm : float
        Largest blur at the subject, 1e-9 to 1e6. [mm]
    effective_s : float
        t0.1 of the flash or the exposure time, 1e-9 to 1e7. [s]
    acceleration_m_s2 : float
        Turning acceleration, 1e-9 to 100,000. [m/s²]

    Returns
    -------
    float
        Length of the window, half of it before and half after the turn. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    The mean speed over an exposure centred t off the turn is a·t, so b = a·t·t_e and the window is
    2b/(a·t_e).

    References
    ----------
    Kinematics without drag; own derivation.

    Examples
    --------
    >>> round(blur_window(2.0, 0.004), 3)
    0.102
    """
    BLUR.check("limit_mm", limit_mm)
    EFFECTIVE.check("effective_s", effective_s)
    ACCELERATION.check("acceleration_m_s2", acceleration_m_s2)
    return 2.0 * limit_mm / (1000.0 * acceleration_m_s2 * effective_s)


def take_off_speed(height_m: float, acceleration_m_s2: float = GRAVITY) -> float:
    """Return the upward speed at the start of a jump or throw of a height.

    Parameters
    ----------
    height_m : float
        Rise of the centre of mass or of the thing thrown, at least 0. [m]
    acceleration_m_s2 : float
        Acceleration of free fall. [m/s²]

    Returns
    -------
    float
        sqrt(2·g·h). [m/s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics without drag.

    Examples
    --------
    >>> round(take_off_speed(1.29, 9.8), 2)
    5.03
    """
    HEIGHT.check("height_m", height_m)
    ACCELERATION.check("acceleration_m_s2", acceleration_m_s2)
    return math.sqrt(2.0 * acceleration_m_s2 * height_m)


def hang_time(height_m: float, acceleration_m_s2: float = GRAVITY) -> float:
    """Return how long a jump or throw of a height lasts, up and down to the same level.

    Parameters
    ----------
    height_m : float
        Rise, at least 0. [m]
    acceleration_m_s2 : float
        Acceleration of free fall. [m/s²]

    Returns
    -------
    float
        2·sqrt(2h/g); the still moment is in its middle. [s]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Kinematics without drag.

    Examples
    --------
    >>> round(hang_time(1.29, 9.8), 2)
    1.03
    """
    return 2.0 * take_off_speed(height_m, acceleration_m_s2) / acceleration_m_s2


def bounce_height(drop_m: float, restitution: float) -> float:
    """Return how high a ball comes up again after it was dropped.

    Parameters
    ----------
    drop_m : float
        Height from which it falls, at least 0. [m]
    restitution : float
        Speed after over speed before the bounce, 0 to 1; a basketball on a hard floor about 0.75. [1]

    Returns
    -------
    float
        e²·h. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Definition of the coefficient of restitution; its values are common practice, no source.

    Examples
    --------
    >>> bounce_height(2.0, 0.5)
    0.5
    """
    HEIGHT.check("drop_m", drop_m)
    RESTITUTION.check("restitution", restitution)
    return restitution * restitution * drop_m
