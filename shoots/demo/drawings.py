"""The demo's pictures, computed: hills, weather, a runner and a pack. No photograph is shipped."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pyvips
from numpy.typing import NDArray

Plane = NDArray[np.float32]


@dataclass(frozen=True)
class Light:
    """The colours of one mood, each as red, green, blue between 0 and 1."""

    zenith: tuple[float, float, float]
    horizon: tuple[float, float, float]
    far: tuple[float, float, float]
    near: tuple[float, float, float]
    rim: tuple[float, float, float]
    clouds: float
    sun: tuple[float, float, float]


STORM = Light(
    (0.07, 0.09, 0.12),
    (0.40, 0.41, 0.42),
    (0.17, 0.19, 0.22),
    (0.035, 0.04, 0.045),
    (1.0, 0.86, 0.70),
    0.75,
    (0.62, 0.30, 0.0),
)
SUMMER = Light(
    (0.35, 0.56, 0.80),
    (0.95, 0.92, 0.84),
    (0.62, 0.70, 0.72),
    (0.42, 0.47, 0.33),
    (1.0, 0.96, 0.84),
    0.35,
    (0.78, 0.24, 1.0),
)


def draw(kind: str, *, seed: int, width: int = 768, height: int = 960) -> bytes:
    """Return a JPEG of one demo picture: `rim`, `ridge`, `wall`, `pack` or `detail`."""
    light = SUMMER if kind == "wall" else STORM
    chance = np.random.default_rng(seed)
    # Clouds and stone are soft: at half the size they cost a quarter; the figure and the grain are drawn at the full.
    half = width // 2, height // 2
    canvas = _sky(light, *half, chance)
    if kind in {"rim", "ridge", "wall"}:
        horizon = {"rim": 0.62, "ridge": 0.52, "wall": 0.58}[kind]
        canvas = _hills(canvas, light, horizon, chance)
    else:
        canvas = _stone(light, *half, chance)
    image = _to_image(canvas).resize(width / half[0], vscale=height / half[1], kernel="cubic")
    overlay = _figure(kind, light, width, height)
    image = image.composite2(pyvips.Image.svgload_buffer(overlay.encode()), "over").flatten()
    grain = pyvips.Image.gaussnoise(width, height, sigma=3.5, mean=0, seed=seed)
    return bytes((image + grain).cast("uchar").copy(interpretation="srgb").jpegsave_buffer(Q=86))


def _noise(width: int, height: int, chance: np.random.Generator, *, octaves: int, stretch: float = 1.0) -> Plane:
    """Return smooth noise between 0 and 1: octaves of random grids, each twice as fine and half as strong."""
    total = np.zeros((height, width), np.float32)
    weight = 0.0
    for octave in range(octaves):
        cells_x, cells_y = 3 * 2**octave, max(2, int(3 * 2**octave * stretch))
        grid = chance.random((cells_y + 3, cells_x + 3)).astype(np.float32)
        image = pyvips.Image.new_from_array(grid)
        scaled = image.resize(width / cells_x, vscale=height / cells_y, kernel="cubic")
        part = np.asarray(scaled.crop(0, 0, width, height).numpy(), np.float32)
        total += part / 2**octave
        weight += 1 / 2**octave
    total /= weight
    return np.clip((total - total.min()) / (total.max() - total.min()), 0, 1)


def _sky(light: Light, width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    down = np.linspace(0, 1, height, dtype=np.float32)[:, None, None] ** 0.8
    sky = np.array(light.zenith, np.float32) * (1 - down) + np.array(light.horizon, np.float32) * down
    sky = np.broadcast_to(sky, (height, width, 3)).copy()
    clouds = _noise(width, height, chance, octaves=6, stretch=2.2)[:, :, None]
    sky *= 1 - light.clouds * (clouds - 0.35)
    x, y, strength = light.sun
    grid_y, grid_x = np.mgrid[0:height, 0:width].astype(np.float32)
    away = ((grid_x / width - x) ** 2 + (grid_y / height - y) ** 2 * (height / width) ** 2)[:, :, None]
    sky += (0.25 + strength * 0.12) * np.exp(-away * (14 - 6 * strength)) * np.array(light.rim, np.float32)
    return np.asarray(sky, np.float32)


def _hills(
    canvas: NDArray[np.float32], light: Light, horizon: float, chance: np.random.Generator
) -> NDArray[np.float32]:
    height, width, _ = canvas.shape
    rows = np.arange(height, dtype=np.float32)[:, None]
    for layer in range(4):
        depth = layer / 3
        line = _noise(width, 8, chance, octaves=5)[0]
        top = (horizon + 0.1 * depth - (0.10 - 0.05 * depth) * line) * height
        colour = np.array(light.far, np.float32) * (1 - depth) + np.array(light.near, np.float32) * depth
        mask = np.clip(rows - top[None, :], 0, 1)[:, :, None]
        texture = _noise(width, height, chance, octaves=7)[:, :, None]
        edge = np.exp(-np.clip(rows - top[None, :], 0, None) / 7)[:, :, None] * mask
        ground = colour * (0.75 + 0.5 * texture) + edge * np.array(light.rim, np.float32) * (0.10 + 0.18 * (1 - depth))
        canvas = canvas * (1 - mask) + ground * mask
    return canvas


def _stone(light: Light, width: int, height: int, chance: np.random.Generator) -> NDArray[np.float32]:
    """Return a wet slab under one hard light from the left."""
    rough = _noise(width, height, chance, octaves=8)
    slope = np.gradient(rough, axis=1)
    lit = 0.16 + 0.10 * rough + np.clip(slope * 26, -0.1, 0.32)
    fall = (
        np.linspace(1.25, 0.35, width, dtype=np.float32)[None, :]
        * np.linspace(0.85, 1.1, height, dtype=np.float32)[:, None]
    )
    return np.asarray((lit * fall)[:, :, None] * np.array([0.97, 1.0, 1.04], np.float32), np.float32)


def _to_image(canvas: NDArray[np.float32]) -> pyvips.Image:
    height, width, _ = canvas.shape
    data = np.clip(canvas * 255, 0, 255).astype(np.uint8)
    return pyvips.Image.new_from_memory(np.ascontiguousarray(data).data, width, height, 3, "uchar").copy(
        interpretation="srgb"
    )


def _hex(colour: tuple[float, float, float], factor: float = 1.0) -> str:
    return "#" + "".join(f"{min(255, round(part * factor * 255)):02x}" for part in colour)


RUNNER = (
    # Seen from the side in mid-stride, in a box of 100 × 200; head, trunk, arms, legs.
    "M58 8 a11 11 0 1 1 -1 22 a11 11 0 1 1 1 -22 z "
    "M47 34 q12 -6 22 0 q7 10 6 34 l-4 30 q-14 8 -27 0 l-3 -32 q-2 -22 6 -32 z "
    "M68 38 q14 10 20 28 l16 10 -4 8 -20 -9 -15 -22 z "
    "M46 40 q-14 8 -20 26 l-12 18 8 5 15 -18 13 -18 z "
    "M68 92 q12 16 22 30 l4 32 16 6 -1 7 -26 -3 -6 -34 -24 -24 z "
    "M46 92 q0 22 -4 38 l-30 24 -2 16 -9 1 -1 -24 32 -24 0 -30 z"
)
PACK = "M44 36 q-14 -2 -17 10 l-2 34 q4 12 18 8 l4 -10 z"


def _figure(kind: str, light: Light, width: int, height: int) -> str:
    """Return the drawn subject as SVG: a runner with a pack, or the pack alone, edged by the rim light."""
    rim, dark = _hex(light.rim), _hex(light.near, 0.55 if kind != "wall" else 0.42)
    pack = "#b4451f" if kind != "wall" else "#d7602f"
    if kind in {"pack", "detail"}:
        scale = (width / 100) * (0.62 if kind == "pack" else 1.45)
        x, y = (width * 0.27, height * 0.34) if kind == "pack" else (-width * 0.05, height * 0.1)
        body = (
            f'<ellipse cx="45" cy="88" rx="46" ry="7" fill="#000" opacity=".55"/>'
            f'<path d="M20 20 q25 -14 50 0 q8 30 3 62 q-28 12 -56 0 q-5 -32 3 -62z" fill="{pack}"/>'
            f'<path d="M20 20 q25 -14 50 0 q8 30 3 62 q-4 2 -8 3 q5 -34 -2 -64 q-22 -9 -42 -1z" fill="#000" opacity=".38"/>'
            f'<path d="M20 20 q-8 30 -3 62 q2 1 5 2 q-5 -34 2 -66z" fill="{rim}" opacity=".85"/>'
            f'<path d="M28 46 q17 -8 34 0 l-1 26 q-16 6 -32 0z" fill="#7d2f14"/>'
            f'<path d="M28 46 q17 -8 34 0" fill="none" stroke="{rim}" stroke-width=".8" opacity=".7"/>'
            f'<path d="M34 15 q11 -14 22 0" fill="none" stroke="#201c1a" stroke-width="3.4"/>'
            f'<path d="M25 33 q20 -9 40 0" fill="none" stroke="#5f2310" stroke-width="1.2" stroke-dasharray="1.4 .7"/>'
        )
        return f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}"><g transform="translate({x:.0f} {y:.0f}) scale({scale:.2f})">{body}</g></svg>'
    size = {"rim": 0.0024, "ridge": 0.0011, "wall": 0.0026}[kind] * height
    x = width * {"rim": 0.36, "ridge": 0.62, "wall": 0.40}[kind]
    y = height * {"rim": 0.36, "ridge": 0.44, "wall": 0.34}[kind]
    ground = ""
    if kind == "wall":
        top = y + 168 * size
        ground = f'<path d="M0 {top:.0f}H{width}V{height}H0z" fill="#b9b3a6"/><path d="M0 {top:.0f}H{width}v{18 * size:.0f}H0z" fill="#e6dfcf"/>'
    soft = 'stroke-width="5" stroke-linejoin="round" stroke-linecap="round"'
    body = (
        f'<path d="{RUNNER}" fill="{rim}" stroke="{rim}" {soft} transform="translate(-1.3 -.9)"/>'
        f'<path d="{RUNNER}" fill="{dark}" stroke="{dark}" {soft}/>'
        f'<path d="{PACK}" fill="{rim}" transform="translate(-1.4 -.6)"/><path d="{PACK}" fill="{pack}"/>'
    )
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}">{ground}<g transform="translate({x:.0f} {y:.0f}) scale({size:.3f})">{body}</g></svg>'
