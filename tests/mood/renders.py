"""Pictures with a known light, computed: shaded bodies under one distant lamp whose direction is chosen.

Lambert's cosine law (Lambert, Photometria, 1760) gives the light on every point of a body from its surface normal;
nothing here knows how the direction is found again.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Plane = NDArray[np.float64]


def lamp(from_deg: float, *, slant_deg: float = 60.0) -> tuple[float, float, float]:
    """Return the unit vector to a lamp: where it stands in the picture, clockwise from the top, and how far aside.

    x points right, y down, z to the camera; slant 0 is at the camera, 90 straight from the side.
    """
    slant, turn = math.radians(slant_deg), math.radians(from_deg)
    return math.sin(slant) * math.sin(turn), -math.sin(slant) * math.cos(turn), math.cos(slant)


def encoded(linear: Plane) -> NDArray[np.uint8]:
    """Return light between 0 and 1 as grey sRGB (IEC 61966-2-1) in 8 bits, three bands."""
    light = np.clip(linear, 0.0, 1.0)
    coded = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    return np.repeat(np.rint(255 * coded).astype(np.uint8)[:, :, None], 3, axis=2)


def grid(width: int, height: int) -> tuple[Plane, Plane]:
    y, x = np.mgrid[0:height, 0:width].astype(np.float64)
    return x + 0.5 - width / 2, y + 0.5 - height / 2


def ball(
    from_deg: float,
    *,
    slant_deg: float = 60.0,
    width: int = 320,
    height: int = 240,
    radius: float = 80.0,
    centre: tuple[float, float] = (0.0, 0.0),
    reflectance: float = 0.7,
    ground: float = 0.1,
    fill: float = 0.03,
) -> NDArray[np.uint8]:
    """Return one ball before an even ground."""
    x, y = grid(width, height)
    x, y = (x - centre[0]) / radius, (y - centre[1]) / radius
    inside = x**2 + y**2 < 1.0
    z = np.sqrt(np.clip(1.0 - x**2 - y**2, 0.0, None))
    to = lamp(from_deg, slant_deg=slant_deg)
    light = np.clip(x * to[0] + y * to[1] + z * to[2], 0.0, None)
    return encoded(np.where(inside, reflectance * (fill + light), ground))


def heads(
    from_deg: float, *, seed: int, slant_deg: float = 60.0, width: int = 320, height: int = 240, count: int = 5
) -> NDArray[np.uint8]:
    """Return several egg-shaped bodies of different size, tilt and reflectance before a ground of another tone."""
    chance = np.random.default_rng(seed)
    to = np.array(lamp(from_deg, slant_deg=slant_deg))
    x, y = grid(width, height)
    linear = np.full((height, width), chance.uniform(0.02, 0.5))
    for _ in range(count):
        a, b = chance.uniform(0.10, 0.22, 2) * height
        turn = chance.uniform(0.0, math.pi)
        cx, cy = chance.uniform(-0.4, 0.4) * width, chance.uniform(-0.35, 0.35) * height
        u = ((x - cx) * math.cos(turn) + (y - cy) * math.sin(turn)) / a
        v = (-(x - cx) * math.sin(turn) + (y - cy) * math.cos(turn)) / b
        inside = u**2 + v**2 < 1.0
        w = np.sqrt(np.clip(1.0 - u**2 - v**2, 0.0, None))
        # The normal of u²+v²+w²=1 with the third half-axis the mean of the other two.
        nu, nv, nw = u / a, v / b, w / ((a + b) / 2)
        length = np.sqrt(nu**2 + nv**2 + nw**2) + 1e-12
        nx = (nu * math.cos(turn) - nv * math.sin(turn)) / length
        ny = (nu * math.sin(turn) + nv * math.cos(turn)) / length
        light = np.clip(nx * to[0] + ny * to[1] + nw / length * to[2], 0.0, None)
        linear = np.where(inside, chance.uniform(0.15, 0.8) * (0.04 + light), linear)
    return encoded(linear)


def wall(
    from_deg: float, *, away: float = 1.2, width: int = 320, height: int = 240, level: float = 0.6
) -> NDArray[np.uint8]:
    """Return an even wall lit by one near lamp outside the picture: the light falls off with the square."""
    x, y = grid(width, height)
    size = min(width, height)
    turn = math.radians(from_deg)
    lx, ly, lz = math.sin(turn) * away * size, -math.cos(turn) * away * size, 0.6 * size
    square = (x - lx) ** 2 + (y - ly) ** 2 + lz**2
    light = lz / square**1.5
    return encoded(level * light / light.max())


def column(from_deg: float, *, slant_deg: float = 60.0, width: int = 320, height: int = 240) -> NDArray[np.uint8]:
    """Return an upright round column: it can tell left from right and nothing else."""
    x, _ = grid(width, height)
    u = x / (0.3 * width)
    to = lamp(from_deg, slant_deg=slant_deg)
    light = np.clip(u * to[0] + np.sqrt(np.clip(1 - u**2, 0, None)) * to[2], 0.0, None)
    return encoded(np.where(np.abs(u) < 1, 0.7 * (0.03 + light), 0.1))


def with_noise(picture: NDArray[np.uint8], *, sigma: float, seed: int) -> NDArray[np.uint8]:
    """Return a picture with the grain of a high ISO: normal noise on the 8-bit values."""
    chance = np.random.default_rng(seed)
    return np.clip(np.rint(picture + chance.normal(0.0, sigma, picture.shape)), 0, 255).astype(np.uint8)
