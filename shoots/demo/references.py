"""References for the demo's moods, computed: bodies and surfaces under a chosen light. No photograph is shipped."""

from __future__ import annotations

import io
import math

import numpy as np
import pyvips
from numpy.typing import NDArray

from shoots.demo.drawings import draw

Plane = NDArray[np.float32]
Colour = tuple[float, float, float]
SIZES = {
    "stones": (960, 640),
    "jug": (640, 800),
    "ridge": (768, 960),
    "window": (800, 640),
    "dusk": (960, 600),
    "wall": (768, 960),
    "linen": (960, 640),
    "bowl": (720, 720),
    "shore": (1024, 576),
}


def drawn(kind: str, *, seed: int) -> io.BytesIO:
    """Return a reference as a JPEG file; `ridge` and `wall` are the demo's own pictures."""
    if kind in {"ridge", "wall"}:
        return io.BytesIO(draw(kind, seed=seed))
    width, height = SIZES[kind]
    chance = np.random.default_rng(seed)
    # Drawn at half the size, for a quarter of the time; the grain comes at the full.
    light = _KINDS[kind](width // 2, height // 2, chance)
    coded = np.where(light <= 0.0031308, 12.92 * light, 1.055 * np.clip(light, 1e-6, None) ** (1 / 2.4) - 0.055)
    data = np.ascontiguousarray(255 * coded, np.float32)
    image = pyvips.Image.new_from_memory(data.data, width // 2, height // 2, 3, "float")
    image = image.resize(2, kernel="cubic")
    image = image + pyvips.Image.gaussnoise(width, height, sigma=1.6, mean=0, seed=seed)
    return io.BytesIO(bytes(image.cast("uchar").copy(interpretation="srgb").jpegsave_buffer(Q=86)))


def _grid(width: int, height: int) -> tuple[Plane, Plane]:
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    return x / width, y / width


def _rough(width: int, height: int, chance: np.random.Generator, *, cells: int, octaves: int = 5) -> Plane:
    """Return smooth noise between 0 and 1, `cells` hills across."""
    total = np.zeros((height, width), np.float32)
    for octave in range(octaves):
        across = cells * 2**octave
        down = max(2, round(across * height / width))
        grid = pyvips.Image.new_from_array(chance.random((down + 3, across + 3)).astype(np.float32))
        scaled = grid.resize(width / across, vscale=height / down, kernel="cubic")
        total += np.asarray(scaled.crop(0, 0, width, height).numpy(), np.float32) / 2**octave
    return (total - total.min()) / (total.max() - total.min())


def _toned(light: Plane, shadow: Colour, high: Colour) -> NDArray[np.float32]:
    """Return light as colour: shadows lean to one tint, highlights to another."""
    share = np.clip(light, 0, 1)[:, :, None] ** 0.5
    tint = np.array(shadow, np.float32) * (1 - share) + np.array(high, np.float32) * share
    return np.asarray(light[:, :, None] * tint, np.float32)


def _bodies(
    width: int,
    height: int,
    bodies: list[tuple[float, float, float, float, Colour]],
    *,
    lamp: tuple[float, float, float],
    fill: float,
    ground: NDArray[np.float32],
    gloss: float = 0.0,
) -> NDArray[np.float32]:
    """Return egg-shaped bodies (centre, half-axes, colour) under one distant lamp, with the shadows they throw."""
    x, y = _grid(width, height)
    to = np.array(lamp, np.float32) / math.sqrt(sum(part**2 for part in lamp))
    canvas = ground.copy()
    for cx, cy, a, b, _ in bodies:
        # The shadow falls away from the lamp, on the ground behind the body, softer the longer it is.
        away = ((x - cx + to[0] * 0.9 * a) / (1.5 * a)) ** 2 + ((y - cy - 0.75 * b) / (0.35 * b)) ** 2
        canvas *= (1 - 0.75 * np.exp(-(away**2)))[:, :, None]
    for cx, cy, a, b, colour in bodies:
        u, v = (x - cx) / a, (y - cy) / b
        inside = np.clip((1 - u**2 - v**2) * 60, 0, 1)[:, :, None]
        w = np.sqrt(np.clip(1 - u**2 - v**2, 0, None))
        nx, ny, nz = u / a, v / b, w / ((a + b) / 2)
        length = np.sqrt(nx**2 + ny**2 + nz**2) + 1e-6
        toward = np.clip((nx * to[0] + ny * to[1] + nz * to[2]) / length, 0, None)
        half = np.array([to[0], to[1], to[2] + 1]) / math.sqrt(to[0] ** 2 + to[1] ** 2 + (to[2] + 1) ** 2)
        glint = np.clip((nx * half[0] + ny * half[1] + nz * half[2]) / length, 0, None) ** 60
        body = (fill + toward)[:, :, None] * np.array(colour, np.float32) + gloss * glint[:, :, None]
        canvas = canvas * (1 - inside) + body * inside
    return np.asarray(canvas, np.float32)


def _stones(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """Wet pebbles on slate, one hard light from the upper left."""
    slate = 0.012 + 0.03 * _rough(width, height, chance, cells=6)
    ground = _toned(slate, (0.85, 0.95, 1.2), (1.05, 1.0, 0.95))
    bodies = []
    for _ in range(13):
        size = float(chance.uniform(0.045, 0.10))
        grey = float(chance.uniform(0.05, 0.22))
        place = (float(chance.uniform(0.05, 0.95)), float(chance.uniform(0.08, 0.58)))
        bodies.append((*place, size * 1.25, size * 0.85, (grey, grey * 1.02, grey * 1.06)))
    bodies.sort(key=lambda body: body[1])
    return _bodies(width, height, bodies, lamp=(-0.75, -0.6, 0.35), fill=0.02, ground=ground, gloss=0.5)


def _jug(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """A clay jug at the edge of the light, from the left."""
    x, y = _grid(width, height)
    wall = (
        0.05
        * np.exp(-(((x + 0.1) / 0.55) ** 2) - ((y - 0.4) / 0.7) ** 2)
        * (0.8 + 0.4 * _rough(width, height, chance, cells=4))
    )
    table = np.clip((y - 0.93) * 80, 0, 1) * 0.05 * np.exp(-(((x - 0.2) / 0.5) ** 2))
    ground = _toned(wall + table, (0.8, 0.95, 1.3), (1.15, 1.0, 0.8))
    clay = (0.34, 0.13, 0.06)
    bodies = [(0.50, 0.72, 0.25, 0.30, clay), (0.50, 0.42, 0.10, 0.14, clay), (0.50, 0.30, 0.14, 0.045, clay)]
    return _bodies(width, height, bodies, lamp=(-0.9, -0.25, 0.35), fill=0.015, ground=ground, gloss=0.25)


def _window(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """A white room with a wide window: nothing in shadow."""
    x, y = _grid(width, height)
    wall = 0.72 - 0.22 * x + 0.04 * _rough(width, height, chance, cells=3)
    pane = np.clip((0.40 - np.abs(x - 0.28) * 2) * 50, 0, 1) * np.clip((0.6 - np.abs(y - 0.36) * 2) * 50, 0, 1)
    bars = (np.abs(x - 0.28) < 0.008) | (np.abs(y - 0.36) < 0.008)
    light = wall * (1 - pane) + 0.97 * pane * (1 - 0.25 * bars)
    return _toned(light, (0.95, 0.99, 1.06), (1.0, 1.0, 0.99))


def _dusk(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """A loud sunset over water: strong colour, warm all over."""
    x, y = _grid(width, height)
    horizon = 0.36
    sky = np.exp(-(((y - horizon) / 0.16) ** 2)) * 0.55 + 0.16
    sun = np.exp(-((((x - 0.6) / 0.05) ** 2 + ((y - horizon + 0.03) / 0.05) ** 2) ** 2))
    cloud = _rough(width, height, chance, cells=3)
    up = np.clip(y / horizon, 0, 1)[:, :, None]
    colour = np.array([0.55, 0.16, 0.30], np.float32) * (1 - up) + np.array([1.25, 0.45, 0.06], np.float32) * up
    canvas = (sky * (0.6 + 0.6 * cloud))[:, :, None] * colour + sun[:, :, None] * np.array([1.0, 0.8, 0.35], np.float32)
    below = y > horizon
    ripple = 0.5 + 0.5 * np.sin(y * 260 + 9 * _rough(width, height, chance, cells=8))
    water = (0.10 + 0.5 * np.exp(-(((x - 0.6) / 0.10) ** 2)) * ripple)[:, :, None]
    return np.where(below[:, :, None], water * np.array([1.15, 0.42, 0.12], np.float32), canvas).astype(np.float32)


def _linen(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """Pale cloth in soft folds, light from the upper right."""
    x, y = _grid(width, height)
    fold = np.zeros((height, width), np.float32)
    for _ in range(7):
        angle, wave = float(chance.uniform(-0.5, 0.5)), float(chance.uniform(6, 16))
        phase = float(chance.uniform(0, 6.3))
        fold += np.sin((x * math.cos(angle) + y * math.sin(angle)) * wave + phase) / wave
    down, right = np.gradient(fold, 1 / width)
    light = 0.66 + 0.16 * (right - 0.4 * down) + 0.12 * (x - 0.5) - 0.10 * (y - 0.3)
    return _toned(np.clip(light, 0.3, 0.97).astype(np.float32), (1.06, 0.98, 0.86), (1.02, 1.0, 0.95))


def _bowl(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """Peaches on a pale table, soft light from the upper right."""
    x, y = _grid(width, height)
    table = 0.74 + 0.14 * x - 0.10 * y + 0.03 * _rough(width, height, chance, cells=3)
    ground = _toned(table, (1.02, 0.98, 0.90), (1.03, 1.0, 0.94))
    peach = (0.86, 0.48, 0.24)
    bodies = [(0.40, 0.48, 0.15, 0.14, peach), (0.63, 0.55, 0.14, 0.135, (0.9, 0.58, 0.3))]
    return _bodies(width, height, bodies, lamp=(0.6, -0.6, 0.7), fill=0.28, ground=ground)


def _shore(width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """Low sun over a pale shore, haze to the horizon."""
    x, y = _grid(width, height)
    haze = 0.62 + 0.34 * np.exp(-(((x - 0.72) / 0.35) ** 2) - ((y - 0.14) / 0.22) ** 2)
    sky = np.clip(y / 0.28, 0, 1)[:, :, None]
    colour = np.array([0.72, 0.86, 1.02], np.float32) * (1 - sky) + np.array([1.05, 0.97, 0.82], np.float32) * sky
    sand = (0.58 + 0.14 * _rough(width, height, chance, cells=7) + 0.12 * x)[:, :, None] * np.array(
        [1.06, 0.96, 0.80], np.float32
    )
    land = np.clip((y - 0.30 - 0.02 * np.sin(x * 7)) * 90, 0, 1)[:, :, None]
    return np.asarray(haze[:, :, None] * colour * (1 - land) + sand * land, np.float32)


_KINDS = {
    "stones": _stones,
    "jug": _jug,
    "window": _window,
    "dusk": _dusk,
    "linen": _linen,
    "bowl": _bowl,
    "shore": _shore,
}
