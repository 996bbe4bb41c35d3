"""The lens: magnification, field of view, framing and perspective of a thin lens.

Symbols: f focal length, s focused distance, v image distance, m magnification. Lengths inside the lens are
in millimetres, distances in metres from the front principal plane. The formulas hold for a symmetric lens;
they fail near 1:1 and for strong tele and retrofocus designs.

References
----------
US Navy NAVEDTRA 14209, ch. 1 (thin lens).
"""

import math

from shoots.values.units import Range

FOCAL = Range(0.5, 10000.0, "mm")
FOCUS = Range(0.0, 1e6, "m", above=True)
FAR = Range(0.0, math.inf, "m", above=True)
SENSOR = Range(0.01, 1000.0, "mm")
MAGNIFICATION = Range(0.0, 100.0, "1")
SIZE = Range(0.0, 1e6, "m", above=True)
FILL = Range(0.01, 1.0, "1")
MAGNIFIED = Range(0.0, 100.0, "1", above=True)


def reach_mm(focal_mm: float, focus_m: float) -> float:
    """Return a focused distance in millimetres, refusing one inside the focal length.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    focus_m : float
        Focused distance, greater than the focal length. [m]

    Returns
    -------
    float
        The same distance. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens: nothing inside the focal length has a real image.

    Examples
    --------
    >>> reach_mm(50.0, 2.0)
    2000.0
    """
    FOCAL.check("focal_mm", focal_mm)
    FOCUS.check("focus_m", focus_m)
    Range(focal_mm / 1000.0, FOCUS.high, "m", above=True).check("focus_m", focus_m)
    return 1000.0 * focus_m


def magnification(focal_mm: float, focus_m: float) -> float:
    """Return the size of the image over the size of the subject.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    focus_m : float
        Distance of the subject, greater than the focal length. [m]

    Returns
    -------
    float
        m = f/(s - f). [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens; US Navy 14209, p. 1-27.

    Examples
    --------
    >>> round(magnification(100.0, 0.5), 2)
    0.25
    """
    return focal_mm / (reach_mm(focal_mm, focus_m) - focal_mm)


def subject_distance(focal_mm: float, magnification: float) -> float:
    """Return the distance of the subject for a magnification.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    magnification : float
        Image over subject, above 0 up to 100. [1]

    Returns
    -------
    float
        s = f(1 + 1/m). [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens; US Navy 14209, p. 1-27.

    Examples
    --------
    >>> subject_distance(100.0, 0.25)
    0.5
    """
    FOCAL.check("focal_mm", focal_mm)
    MAGNIFIED.check("magnification", magnification)
    return focal_mm * (1.0 + 1.0 / magnification) / 1000.0


def image_distance(focal_mm: float, magnification: float) -> float:
    """Return the distance of the sensor behind the lens.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    magnification : float
        Image over subject, 0 to 100; 0 is focus at infinity. [1]

    Returns
    -------
    float
        v = f(1 + m). [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens; US Navy 14209, p. 1-27.

    Examples
    --------
    >>> image_distance(100.0, 0.5)
    150.0
    """
    FOCAL.check("focal_mm", focal_mm)
    MAGNIFICATION.check("magnification", magnification)
    return focal_mm * (1.0 + magnification)


def field_of_view(focal_mm: float, side_mm: float, focus_m: float = math.inf) -> float:
    """Return the angle that a side of the sensor sees.

    Parameters
    ----------
    focal_mm : float
        Focal length of a rectilinear lens, 0.5 to 10,000. [mm]
    side_mm : float
        Side or diagonal of the sensor, 0.01 to 1000. [mm]
    focus_m : float
        Focused distance, greater than the focal length, may be infinite. [m]

    Returns
    -------
    float
        2·atan(d/2v), narrower the nearer the focus. [°]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> round(field_of_view(50.0, 36.0), 3)
    39.598
    """
    FOCAL.check("focal_mm", focal_mm)
    SENSOR.check("side_mm", side_mm)
    FAR.check("focus_m", focus_m)
    m = 0.0 if math.isinf(focus_m) else magnification(focal_mm, focus_m)
    return 2.0 * math.degrees(math.atan(side_mm / (2.0 * image_distance(focal_mm, m))))


def framing_distance(focal_mm: float, side_mm: float, subject_m: float, fill: float = 1.0) -> float:
    """Return how far away a subject fills a share of a side of the frame.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    side_mm : float
        The side along the subject: for a standing person the long side of a camera held upright. [mm]
    subject_m : float
        Length of the subject along that side, greater than 0. [m]
    fill : float
        Share of the side that it fills, 0.01 to 1. [1]

    Returns
    -------
    float
        s = f·(1 + W/(fill·w)). [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens; derived.

    Examples
    --------
    >>> round(framing_distance(85.0, 36.0, 1.80, 0.9), 4)
    4.8072
    """
    SENSOR.check("side_mm", side_mm)
    SIZE.check("subject_m", subject_m)
    FILL.check("fill", fill)
    FOCAL.check("focal_mm", focal_mm)
    return focal_mm * (1.0 + 1000.0 * subject_m / (fill * side_mm)) / 1000.0


def framed_size(focal_mm: float, side_mm: float, distance_m: float) -> float:
    """Return how much of the plane in focus a side of the frame shows.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    side_mm : float
        Side of the sensor, 0.01 to 1000. [mm]
    distance_m : float
        Distance of the plane, greater than the focal length. [m]

    Returns
    -------
    float
        w/m. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens.

    Examples
    --------
    >>> round(framed_size(50.0, 36.0, 2.05), 2)
    1.44
    """
    SENSOR.check("side_mm", side_mm)
    return side_mm / magnification(focal_mm, distance_m) / 1000.0


def image_size(focal_mm: float, subject_m: float, distance_m: float) -> float:
    """Return how large the image of something in focus is on the sensor.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    subject_m : float
        Its height or width, above 0. [m]
    distance_m : float
        Its distance, greater than the focal length. [m]

    Returns
    -------
    float
        m·W. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Thin lens; US Navy 14209, p. 1-27.

    Examples
    --------
    >>> round(image_size(85.0, 1.80, 4.8072), 2)
    32.4
    """
    SIZE.check("subject_m", subject_m)
    return 1000.0 * subject_m * magnification(focal_mm, distance_m)


def image_size_short(focal_mm: float, subject_m: float, distance_m: float) -> float:
    """Return how large the image of something far away is, by simple proportion as handbooks teach it.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    subject_m : float
        Its height or width, above 0. [m]
    distance_m : float
        Its distance, above 0. [m]

    Returns
    -------
    float
        f·W/D, too small close up. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    US Navy 14209, ch. 1.

    Examples
    --------
    >>> round(image_size_short(24 * 25.4, 10.0, 30.0) / 25.4, 6)
    8.0
    """
    FOCAL.check("focal_mm", focal_mm)
    SIZE.check("subject_m", subject_m)
    FOCUS.check("distance_m", distance_m)
    return focal_mm * subject_m / distance_m


def sensor_diagonal(width_mm: float, height_mm: float) -> float:
    """Return the diagonal of a sensor.

    Parameters
    ----------
    width_mm, height_mm : float
        Its sides, 0.01 to 1000. [mm]

    Returns
    -------
    float
        √(w² + h²). [mm]

    Raises
    ------
    OutOfRange
        If a side is outside its range.

    References
    ----------
    Pythagoras' theorem.

    Examples
    --------
    >>> round(sensor_diagonal(36.0, 24.0), 2)
    43.27
    """
    SENSOR.check("width_mm", width_mm)
    SENSOR.check("height_mm", height_mm)
    return math.hypot(width_mm, height_mm)


def perspective_ratio(subject_m: float, subject_size_m: float, background_m: float, background_size_m: float) -> float:
    """Return how large the background appears against the subject; it depends on where the camera stands
    only.

    Parameters
    ----------
    subject_m, background_m : float
        Distances from the lens, greater than 0. [m]
    subject_size_m, background_size_m : float
        Their heights or widths, greater than 0. [m]

    Returns
    -------
    float
        Image of the background over image of the subject. [1]

    Raises
    ------
    OutOfRange
        If an argument is not positive.

    References
    ----------
    Geometry.

    Examples
    --------
    >>> round(perspective_ratio(3.0, 1.7, 100.0, 20.0), 4)
    0.3529
    """
    FOCUS.check("subject_m", subject_m)
    SIZE.check("subject_size_m", subject_size_m)
    FOCUS.check("background_m", background_m)
    SIZE.check("background_size_m", background_size_m)
    return background_size_m / subject_size_m * subject_m / background_m
