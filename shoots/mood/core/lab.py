"""Colours as the eye sees them: sRGB to CIELAB under D50 and back, and how far two colours lie apart.

All of this slice's CIELAB is relative to D50 for the 2° observer, as in printing and in ICC's connection space. Under
another white greys keep their L*; colours differ a little in all three numbers.

References
----------
IEC 61966-2-1:1999 (sRGB); ISO/CIE 11664-4:2019 (CIELAB); ISO/CIE 11664-6:2014 (CIEDE2000), also CIE 142:2001;
ICC.1:2022, annex E (Bradford adaptation to D50).
"""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

TO_XYZ_D50 = np.array(
    [
        [0.4360747, 0.3850649, 0.1430804],
        [0.2225045, 0.7168786, 0.0606169],
        [0.0139322, 0.0971045, 0.7141733],
    ]
)
"""Linear sRGB to XYZ, adapted from D65 to D50 with the Bradford matrix; IEC 61966-2-1 and ICC.1 annex E. [1]"""
FROM_XYZ_D50 = np.linalg.inv(TO_XYZ_D50)
"""Its inverse. [1]"""
WHITE = TO_XYZ_D50.sum(axis=1)
"""XYZ of sRGB's white after the adaptation, so that white is exactly L* 100, a* 0, b* 0. [1]"""
_EPSILON, _KAPPA = 216.0 / 24389.0, 24389.0 / 27.0


def _decoding_table() -> NDArray[np.float32]:
    coded = np.arange(256) / 255.0
    light = np.where(coded <= 0.04045, coded / 12.92, ((coded + 0.055) / 1.055) ** 2.4)
    return light.astype(np.float32)


_LINEAR_OF_8_BIT = _decoding_table()


def lab_of_srgb(rgb: NDArray[np.uint8]) -> NDArray[np.float32]:
    """Return CIELAB (D50) of sRGB pixels of 8 bits.

    Parameters
    ----------
    rgb : NDArray[np.uint8], shape (..., 3)
        Red, green, blue as a file holds them, 0 to 255. [1]

    Returns
    -------
    NDArray[np.float32], shape (..., 3)
        L* from 0 to 100, a* (minus green, plus red), b* (minus blue, plus yellow). [1]

    References
    ----------
    IEC 61966-2-1:1999, 5.2; ISO/CIE 11664-4:2019, 5.1.

    Examples
    --------
    >>> [round(float(part)) for part in lab_of_srgb(np.array([255, 255, 255], np.uint8))]
    [100, 0, 0]
    """
    matrix = (TO_XYZ_D50 / WHITE[:, None]).astype(np.float32)
    xyz: NDArray[np.float32] = _LINEAR_OF_8_BIT[rgb] @ matrix.T
    f = np.where(xyz > _EPSILON, np.cbrt(xyz), (_KAPPA * xyz + 16.0) / 116.0)
    lab: NDArray[np.float32] = np.empty_like(xyz)
    lab[..., 0] = 116.0 * f[..., 1] - 16.0
    lab[..., 1] = 500.0 * (f[..., 0] - f[..., 1])
    lab[..., 2] = 200.0 * (f[..., 1] - f[..., 2])
    return lab


def srgb_of_lab(lab: FloatArray) -> NDArray[np.uint8]:
    """Return the sRGB colour of 8 bits for a CIELAB (D50) colour; what a screen can't show is cut off.

    Parameters
    ----------
    lab : NDArray[np.float64], shape (..., 3)
        L*, a*, b*. [1]

    Returns
    -------
    NDArray[np.uint8], shape (..., 3)
        Red, green, blue, 0 to 255. [1]

    References
    ----------
    IEC 61966-2-1:1999, 5.3; ISO/CIE 11664-4:2019, annex B.

    Examples
    --------
    >>> srgb_of_lab(np.array([100.0, 0.0, 0.0])).tolist()
    [255, 255, 255]
    """
    lab = np.asarray(lab, np.float64)
    fy = (lab[..., 0] + 16.0) / 116.0
    f = np.stack([fy + lab[..., 1] / 500.0, fy, fy - lab[..., 2] / 200.0], axis=-1)
    ratio = np.where(f**3 > _EPSILON, f**3, (116.0 * f - 16.0) / _KAPPA)
    light = np.clip((ratio * WHITE) @ FROM_XYZ_D50.T, 0.0, 1.0)
    coded = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1.0 / 2.4) - 0.055)
    return np.asarray(np.rint(255.0 * coded), np.uint8)


def hex_of_lab(lab: tuple[float, float, float]) -> str:
    """Return a colour as a web page writes it.

    Parameters
    ----------
    lab : tuple of float
        L*, a*, b* under D50. [1]

    Returns
    -------
    str
        As ``#a63c12``.

    References
    ----------
    CSS Color Module Level 4, 5.2 (six-digit hexadecimal sRGB).

    Examples
    --------
    >>> hex_of_lab((0.0, 0.0, 0.0))
    '#000000'
    """
    red, green, blue = srgb_of_lab(np.array(lab)).tolist()
    return f"#{red:02x}{green:02x}{blue:02x}"


def luminance_of_lightness(lightness: float) -> float:
    """Return the relative luminance Y that an L* stands for.

    Parameters
    ----------
    lightness : float
        L*, 0 to 100. [1]

    Returns
    -------
    float
        Y against white, 0 to 1. [1]

    References
    ----------
    ISO/CIE 11664-4:2019, annex B.

    Examples
    --------
    >>> round(luminance_of_lightness(49.5), 2)
    0.18
    """
    if lightness > 8.0:
        return float(((lightness + 16.0) / 116.0) ** 3)
    return float(lightness / _KAPPA)


def delta_e_2000(first: FloatArray, second: FloatArray) -> FloatArray:
    """Return how different two colours look, by the CIEDE2000 formula with its three weights at 1.

    Parameters
    ----------
    first, second : NDArray[np.float64], shapes (..., 3) that broadcast
        L*, a*, b*. [1]

    Returns
    -------
    NDArray[np.float64]
        ΔE00; about 1 is just seen side by side. [1]

    References
    ----------
    ISO/CIE 11664-6:2014; Sharma, G., Wu, W. and Dalal, E. N. (2005), The CIEDE2000 color-difference formula, Color
    Research and Application 30 (1), 21-30, whose 34 test pairs the tests hold.

    Examples
    --------
    >>> round(float(delta_e_2000(np.array([50.0, 2.6772, -79.7751]), np.array([50.0, 0.0, -82.7485]))), 4)
    2.0425
    """
    l1, a1, b1 = np.moveaxis(np.asarray(first, np.float64), -1, 0)
    l2, a2, b2 = np.moveaxis(np.asarray(second, np.float64), -1, 0)
    mean_seventh = ((np.hypot(a1, b1) + np.hypot(a2, b2)) / 2.0) ** 7
    stretch = 1.5 - 0.5 * np.sqrt(mean_seventh / (mean_seventh + 25.0**7))
    c1, c2 = np.hypot(stretch * a1, b1), np.hypot(stretch * a2, b2)
    h1 = np.degrees(np.arctan2(b1, stretch * a1)) % 360.0
    h2 = np.degrees(np.arctan2(b2, stretch * a2)) % 360.0
    grey = c1 * c2 == 0.0
    turn = np.where(grey, 0.0, (h2 - h1 + 180.0) % 360.0 - 180.0)
    # Exactly opposite hues: the standard keeps +180 where h2 - h1 is +180.
    turn = np.where(~grey & (h2 - h1 == 180.0), 180.0, turn)
    d_l, d_c, d_h = l2 - l1, c2 - c1, 2.0 * np.sqrt(c1 * c2) * np.sin(np.radians(turn) / 2.0)
    l_mean, c_mean, total = (l1 + l2) / 2.0, (c1 + c2) / 2.0, h1 + h2
    h_far = np.where(total < 360.0, (total + 360.0) / 2.0, (total - 360.0) / 2.0)
    h_mean = np.where(grey, total, np.where(np.abs(h1 - h2) <= 180.0, total / 2.0, h_far))
    t = (
        1.0
        - 0.17 * np.cos(np.radians(h_mean - 30.0))
        + 0.24 * np.cos(np.radians(2.0 * h_mean))
        + 0.32 * np.cos(np.radians(3.0 * h_mean + 6.0))
        - 0.20 * np.cos(np.radians(4.0 * h_mean - 63.0))
    )
    s_l = 1.0 + 0.015 * (l_mean - 50.0) ** 2 / np.sqrt(20.0 + (l_mean - 50.0) ** 2)
    s_c, s_h = 1.0 + 0.045 * c_mean, 1.0 + 0.015 * c_mean * t
    seventh = c_mean**7
    blue = np.radians(60.0 * np.exp(-(((h_mean - 275.0) / 25.0) ** 2)))
    rotation = -2.0 * np.sqrt(seventh / (seventh + 25.0**7)) * np.sin(blue)
    parts = (d_l / s_l) ** 2 + (d_c / s_c) ** 2 + (d_h / s_h) ** 2
    return np.asarray(np.sqrt(np.maximum(parts + rotation * (d_c / s_c) * (d_h / s_h), 0.0)))
