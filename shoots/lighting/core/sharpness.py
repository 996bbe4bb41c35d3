"""Sharpness: depth of field by the exact thin-lens formulas, the blur of a background, diffraction.

Symbols: f focal length, N f-number, c circle of confusion, s focused distance, D another distance, H
hyperfocal distance. The formulas hold for a symmetric lens; they fail near 1:1 and for strong tele and
retrofocus designs.

References
----------
S. Ray, Applied Photographic Optics, 3rd ed. (from memory); US Navy NAVEDTRA 14209, ch. 1; H. H. Nasse,
Depth of Field and Bokeh, 2010 (circle of confusion, read in part); Lord Rayleigh (diffraction).
"""

import math
from dataclasses import dataclass

from shoots.lighting.core.lens import FAR, FOCAL, FOCUS, MAGNIFICATION, MAGNIFIED, SENSOR, reach_mm
from shoots.values.steps import Formula
from shoots.values.units import Range

F_NUMBER = Range(0.1, 1e4, "1")
CIRCLE = Range(1e-5, 10.0, "mm")
WAVELENGTH = Range(100.0, 2000.0, "nm")
PITCH = Range(1e-5, 1.0, "mm")
DIVISOR = Range(100.0, 10000.0, "1")

CUSTOMARY_CIRCLE_MM = 0.030
"""Circle of confusion for 36 × 24 mm by custom. [mm]"""
GREEN_NM = 550.0
"""Wavelength in the middle of the visible. [nm]"""

HYPERFOCAL = Formula("hyperfocal", "H = f² / (N · c) + f", "m", "S. Ray, Applied Photographic Optics, from memory")
AIRY = Formula("airy_diameter", "d = 2.44 · λ · N · (1 + m)", "µm", "Rayleigh")


@dataclass(frozen=True, slots=True)
class DepthOfField:
    """What is acceptably sharp.

    Attributes
    ----------
    near_m : float
        Nearest sharp distance. [m]
    far_m : float
        Farthest; infinite when the focus is at or beyond the hyperfocal distance. [m]
    """

    near_m: float
    far_m: float

    @property
    def total_m(self) -> float:
        """Depth from near to far. [m]"""
        return self.far_m - self.near_m


def circle_of_confusion(diagonal_mm: float, divisor: float = 1500.0) -> float:
    """Return the circle of confusion for a sensor.

    Parameters
    ----------
    diagonal_mm : float
        Diagonal of the sensor, 0.01 to 1000. [mm]
    divisor : float
        1500 for today's expectations, 1000 for the older ones; 100 to 10,000. [1]

    Returns
    -------
    float
        Diagonal over divisor. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    d/1000 traditional, d/1500 modern: H. H. Nasse, Depth of Field and Bokeh, 2010 (read in part).

    Examples
    --------
    >>> round(circle_of_confusion(43.267), 4)
    0.0288
    """
    SENSOR.check("diagonal_mm", diagonal_mm)
    DIVISOR.check("divisor", divisor)
    return diagonal_mm / divisor


def hyperfocal(focal_mm: float, f_number: float, circle_mm: float) -> float:
    """Return the hyperfocal distance.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    circle_mm : float
        Circle of confusion, 1e-5 to 10. [mm]

    Returns
    -------
    float
        H = f²/(N·c) + f; the short form f²/(N·c) is one focal length less. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    S. Ray, Applied Photographic Optics, 3rd ed. (from memory).

    Examples
    --------
    >>> round(hyperfocal(85.0, 2.8, 0.030), 3)
    86.097
    """
    FOCAL.check("focal_mm", focal_mm)
    F_NUMBER.check("f_number", f_number)
    CIRCLE.check("circle_mm", circle_mm)
    return (focal_mm * focal_mm / (f_number * circle_mm) + focal_mm) / 1000.0


def depth_of_field(focal_mm: float, f_number: float, circle_mm: float, focus_m: float) -> DepthOfField:
    """Return what is acceptably sharp.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    circle_mm : float
        Circle of confusion, 1e-5 to 10. [mm]
    focus_m : float
        Focused distance, greater than the focal length. [m]

    Returns
    -------
    DepthOfField
        ``far_m`` is infinite when the focus is at or beyond the hyperfocal distance.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    near = s(H - f)/(H + s - 2f), far = s(H - f)/(H - s).

    References
    ----------
    S. Ray, Applied Photographic Optics, 3rd ed. (from memory).

    Examples
    --------
    >>> sharp = depth_of_field(85.0, 2.8, 0.030, 2.5)
    >>> round(sharp.near_m, 4), round(sharp.far_m, 4)
    (2.4317, 2.5722)
    """
    s = reach_mm(focal_mm, focus_m)
    h = 1000.0 * hyperfocal(focal_mm, f_number, circle_mm)
    reach = s * (h - focal_mm)
    near = reach / (h + s - 2.0 * focal_mm)
    return DepthOfField(near / 1000.0, reach / (h - s) / 1000.0 if s < h else math.inf)


def hyperfocal_short(focal_mm: float, f_number: float, circle_mm: float) -> float:
    """Return the hyperfocal distance by the short form of handbooks, to compare with printed tables.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    circle_mm : float
        Circle of confusion, 1e-5 to 10. [mm]

    Returns
    -------
    float
        f²/(N·c), one focal length less than the exact one. [m]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    US Navy 14209, ch. 1; US Army SS0507.

    Examples
    --------
    >>> round(hyperfocal_short(85.0, 2.8, 0.030), 3)
    86.012
    """
    return hyperfocal(focal_mm, f_number, circle_mm) - focal_mm / 1000.0


def depth_of_field_short(focal_mm: float, f_number: float, circle_mm: float, focus_m: float) -> DepthOfField:
    """Return the depth of field by the short forms of handbooks, which are wrong close up.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    circle_mm : float
        Circle of confusion, 1e-5 to 10. [mm]
    focus_m : float
        Focused distance, greater than the focal length. [m]

    Returns
    -------
    DepthOfField
        Hs/(H + s) and Hs/(H - s), infinite from s = H on.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    US Navy 14209, p. 1-26.

    Examples
    --------
    >>> round(1000.0 * depth_of_field_short(100.0, 8.0, 0.030, 0.5).total_m, 2)
    12.0
    """
    reach_mm(focal_mm, focus_m)
    h = hyperfocal_short(focal_mm, f_number, circle_mm)
    far = h * focus_m / (h - focus_m) if focus_m < h else math.inf
    return DepthOfField(h * focus_m / (h + focus_m), far)


def focus_for_planes(near_m: float, far_m: float = math.inf) -> float:
    """Return the focus that serves two planes alike.

    Parameters
    ----------
    near_m, far_m : float
        The two distances, greater than 0, in any order; one may be infinite. [m]

    Returns
    -------
    float
        Their harmonic mean. [m]

    Raises
    ------
    OutOfRange
        If a distance is not positive, or both are infinite.

    References
    ----------
    US Navy 14209, ch. 1.

    Examples
    --------
    >>> round(focus_for_planes(9.8, 10.2), 3)
    9.996
    """
    FAR.check("near_m", near_m)
    FAR.check("far_m", far_m)
    FOCUS.check("near_m", min(near_m, far_m))
    return 2.0 / (1.0 / near_m + 1.0 / far_m)


def f_number_for_depth(focal_mm: float, circle_mm: float, near_m: float, far_m: float = math.inf) -> float:
    """Return the f-number that makes two planes just acceptably sharp, focused between them.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    circle_mm : float
        Circle of confusion, 1e-5 to 10. [mm]
    near_m, far_m : float
        The two planes, both beyond the focal length; ``far_m`` may be infinite. [m]

    Returns
    -------
    float
        0 when the planes are one. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    With image distances v = 1/(1/f - 1/D) of the planes: N = f·(v_near - v_far)/(c·(v_near + v_far)).

    References
    ----------
    Thin-lens geometry; derived, see tests.

    Examples
    --------
    >>> round(f_number_for_depth(85.0, 0.030, 2.4317, 2.5722), 2)
    2.8
    """
    FAR.check("far_m", far_m)
    near, far = sorted((near_m, far_m))
    nearest = reach_mm(focal_mm, near)
    CIRCLE.check("circle_mm", circle_mm)
    image_near = 1.0 / (1.0 / focal_mm - 1.0 / nearest)
    image_far = 1.0 / (1.0 / focal_mm - 1.0 / (1000.0 * far))
    return focal_mm * (image_near - image_far) / (circle_mm * (image_near + image_far))


def background_blur(focal_mm: float, f_number: float, focus_m: float, background_m: float = math.inf) -> float:
    """Return the disc into which a point of the background is blurred.

    Parameters
    ----------
    focal_mm : float
        Focal length, 0.5 to 10,000. [mm]
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    focus_m : float
        Focused distance, greater than the focal length. [m]
    background_m : float
        Distance of the point from the lens, greater than 0; infinite for lights far away. [m]

    Returns
    -------
    float
        Diameter on the sensor. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    b = f²·|D - s|/(N·(s - f)·D); S. Ray, Applied Photographic Optics (from memory).

    Examples
    --------
    >>> round(background_blur(85.0, 1.8, 2.0, 20.0), 4)
    1.8864
    """
    s = reach_mm(focal_mm, focus_m)
    F_NUMBER.check("f_number", f_number)
    FAR.check("background_m", background_m)
    apart = 1.0 if math.isinf(background_m) else abs(background_m - focus_m) / background_m
    return focal_mm * focal_mm * apart / (f_number * (s - focal_mm))


def airy_diameter(f_number: float, magnification: float = 0.0, wavelength_nm: float = GREEN_NM) -> float:
    """Return the diameter of the Airy disc, the least spot that diffraction leaves.

    Parameters
    ----------
    f_number : float
        Exact f-number, 0.1 to 10,000. [1]
    magnification : float
        Image over subject, 0 to 100. [1]
    wavelength_nm : float
        Wavelength, 100 to 2000. [nm]

    Returns
    -------
    float
        2.44·λ·N·(1 + m). [µm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Rayleigh.

    Examples
    --------
    >>> round(airy_diameter(16.0), 2)
    21.47
    """
    F_NUMBER.check("f_number", f_number)
    MAGNIFICATION.check("magnification", magnification)
    WAVELENGTH.check("wavelength_nm", wavelength_nm)
    return 2.44 * wavelength_nm * f_number * (1.0 + magnification) / 1000.0


def diffraction_f_number(pitch_mm: float, pixels: float = 2.0, wavelength_nm: float = GREEN_NM) -> float:
    """Return the f-number at which the Airy disc spans so many pixels.

    Parameters
    ----------
    pitch_mm : float
        Distance of two pixels, 1e-5 to 1. [mm]
    pixels : float
        How many, above 0 up to 100. [px]
    wavelength_nm : float
        Wavelength, 100 to 2000. [nm]

    Returns
    -------
    float
        For a distant subject. [1]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Rayleigh; the two pixels are common practice, no source.

    Examples
    --------
    >>> round(diffraction_f_number(0.0043), 2)
    6.41
    """
    PITCH.check("pitch_mm", pitch_mm)
    MAGNIFIED.check("pixels", pixels)
    WAVELENGTH.check("wavelength_nm", wavelength_nm)
    return pixels * pitch_mm * 1e6 / (2.44 * wavelength_nm)
