"""Pixels: the largest crop of a shape, print sizes, file sizes, what a crop leaves of the sensor.

References
----------
Arithmetic; 1 in = 25.4 mm exactly; ISO 216 for paper sizes.
"""

import math
from dataclasses import dataclass

from shoots.values.units import Range

PIXELS = Range(1.0, 1e7, "px")
RATIO = Range(1e-3, 1e3, "1")
RESOLUTION = Range(1.0, 1e5, "1/in")
LENGTH = Range(0.0, 1e7, "mm", above=True)
DEPTH = Range(1.0, 16.0, "1")

MM_PER_INCH = 25.4
"""Exact. [mm]"""


@dataclass(frozen=True, slots=True)
class Crop:
    """A crop in whole pixels.

    Attributes
    ----------
    width_px, height_px : int
        Its size.
    kept : float
        Share of the pixels that remain. [1]
    """

    width_px: int
    height_px: int
    kept: float


def largest_crop(width_px: int, height_px: int, ratio: float, even: bool = False) -> Crop:
    """Return the largest crop of a shape.

    Parameters
    ----------
    width_px, height_px : int
        The frame, 1 to 1e7. [px]
    ratio : float
        Width over height of the crop, 0.001 to 1000: 0.8 for 4:5. [1]
    even : bool
        Round down to even numbers, as video wants them.

    Returns
    -------
    Crop
        At least one pixel (two if even) each way.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Arithmetic.

    Examples
    --------
    >>> largest_crop(6000, 4000, 4 / 5).width_px
    3200
    """
    PIXELS.check("width_px", width_px)
    PIXELS.check("height_px", height_px)
    RATIO.check("ratio", ratio)
    step = 2 if even else 1
    # A picture of one line has no even crop.
    Range(float(step), PIXELS.high, PIXELS.unit).check("width_px", width_px)
    Range(float(step), PIXELS.high, PIXELS.unit).check("height_px", height_px)
    wide, high = float(width_px), float(height_px)
    if width_px / height_px > ratio:
        wide = height_px * ratio
    else:
        high = width_px / ratio
    # 16/9 of a whole number is whole on paper and a hair less in floating point.
    across = max(step, math.floor(wide / step + 1e-9) * step)
    down = max(step, math.floor(high / step + 1e-9) * step)
    return Crop(across, down, across * down / (width_px * height_px))


def print_pixels(length_mm: float, resolution_ppi: float) -> int:
    """Return the pixels that a printed length needs.

    Parameters
    ----------
    length_mm : float
        Length on paper, greater than 0. [mm]
    resolution_ppi : float
        Pixels per inch, 1 to 100,000. [1/in]

    Returns
    -------
    int
        Rounded to the nearest.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    1 in = 25.4 mm.

    Examples
    --------
    >>> print_pixels(210.0, 300.0), print_pixels(297.0, 300.0)
    (2480, 3508)
    """
    LENGTH.check("length_mm", length_mm)
    RESOLUTION.check("resolution_ppi", resolution_ppi)
    return round(length_mm / MM_PER_INCH * resolution_ppi)


def print_length(pixels: int, resolution_ppi: float) -> float:
    """Return the length that pixels fill in print.

    Parameters
    ----------
    pixels : int
        Along that side, 1 to 1e7. [px]
    resolution_ppi : float
        Pixels per inch, 1 to 100,000. [1/in]

    Returns
    -------
    float
        Length on paper. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    1 in = 25.4 mm.

    Examples
    --------
    >>> print_length(6000, 240.0)
    635.0
    """
    PIXELS.check("pixels", pixels)
    RESOLUTION.check("resolution_ppi", resolution_ppi)
    return pixels / resolution_ppi * MM_PER_INCH


def uncompressed_bytes(width_px: int, height_px: int, bytes_per_channel: int = 1) -> int:
    """Return the size of a picture without compression.

    Parameters
    ----------
    width_px, height_px : int
        Its size, 1 to 1e7. [px]
    bytes_per_channel : int
        1 or 2 in practice, 1 to 16.

    Returns
    -------
    int
        Three channels.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Arithmetic.

    Examples
    --------
    >>> uncompressed_bytes(6000, 4000)
    72000000
    """
    PIXELS.check("width_px", width_px)
    PIXELS.check("height_px", height_px)
    DEPTH.check("bytes_per_channel", bytes_per_channel)
    return width_px * height_px * 3 * bytes_per_channel


def cropped_side(side_mm: float, side_px: int, crop_px: int) -> float:
    """Return the part of a sensor's side that a crop uses, for its field of view.

    Parameters
    ----------
    side_mm : float
        Side of the sensor, greater than 0. [mm]
    side_px : int
        Pixels along it, 1 to 1e7. [px]
    crop_px : int
        Pixels of the crop along it, at most ``side_px``. [px]

    Returns
    -------
    float
        Effective side. [mm]

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    References
    ----------
    Arithmetic.

    Examples
    --------
    >>> round(cropped_side(36.0, 6000, 3200), 2)
    19.2
    """
    LENGTH.check("side_mm", side_mm)
    PIXELS.check("side_px", side_px)
    Range(1.0, float(side_px), "px").check("crop_px", crop_px)
    return side_mm * crop_px / side_px
